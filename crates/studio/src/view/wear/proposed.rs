//! A change of the draft looked at before it is taken: of one finding, or a better draft as a whole.
//!
//! Both are the same picture: what would be set, the levels before and after, and the numbers it was tried for. Taking it is an ordinary
//! edit of the suit's document, so that the history and "Back one" hold here too.
//!
//! **Shapes and units.** Places on the ladder as shares of its width.

use cloth::RESERVE_SHARE;
use serde::Serialize;
use serde_json::{Value as Json, json};
use solve::{Change, Found};
use ts_rs::TS;
use units::{LengthUnit, Level, Mm};
use utoipa::ToSchema;

use super::worn::{Scale, signed};
use super::{RailView, level_key};
use crate::document::Worked;
use crate::suit_file::trimmed;
use crate::view::shape::{amount_of, written};
use crate::view::told::{capital, sentence};
use crate::view::{Quantity, Set, percent, plain, small_length};
use crate::worn::{Correction, Previewed, PreviewedNumber};

/// What a proposal rests on besides its own numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Basis {
    /// The shell's own stretch around, a ratio.
    pub shell_around: f64,
    /// Whether pressures are to be compared and not believed: the force of the cloth was not weighed.
    pub is_relative: bool,
}

impl Basis {
    fn kpa(self, value: f64) -> Quantity {
        let mut quantity = plain(value, 2, "kPa", "kilopascals");
        if self.is_relative {
            quantity.main.insert(0, '~');
            quantity.spoken = format!("about {}, relative", quantity.spoken);
        }
        quantity
    }
}

/// A change of the draft with what it would do.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ProposedView {
    /// `try` for one finding, `better` for a better draft as a whole.
    pub kind: String,
    /// Key of the finding it was tried for.
    pub finding: Option<String>,
    /// Whether it is of the draft in force; an older one's is not to be taken.
    pub is_current: bool,
    /// What came of it, in a sentence.
    pub lead: String,
    /// Why there is nothing to take.
    pub why_not: Option<String>,
    /// What would be set.
    pub changes: Vec<ChangedView>,
    /// The edit that takes it.
    pub sets: Vec<Set>,
    /// What the history calls it.
    pub words: String,
    /// Numbers before and after.
    pub numbers: Vec<ComparedView>,
    /// Levels before and after, top to bottom.
    pub levels: Vec<ComparedLevelView>,
    /// Rails of the ladder, as shares of its width.
    pub rails: Vec<RailView>,
    /// What else is to be known of it, in sentences.
    pub notes: Vec<String>,
}

/// A draft parameter and what it would be set to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct ChangedView {
    /// `Sway back`.
    pub name: String,
    /// As it is: `0 mm`; a word where it follows from a choice.
    pub from: String,
    /// As it would be.
    pub to: String,
}

/// A number before and after.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ComparedView {
    /// What: `Presses most`.
    pub name: String,
    /// Before.
    pub before: Quantity,
    /// After.
    pub after: Quantity,
}

/// A level before and after.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ComparedLevelView {
    /// Key.
    pub level: String,
    /// Name.
    pub name: String,
    /// What the draft means around, and where that is.
    pub meant: Option<(Quantity, f64)>,
    /// Worn around, before and after.
    pub around: [Quantity; 2],
    /// Where those are.
    pub at: [f64; 2],
    /// Worn lengthwise, before and after.
    pub lengthwise: [Quantity; 2],
}

/// What kind of number a parameter is.
enum Kind {
    Share,
    /// A share shown in per cent.
    Percent,
    Length,
}

/// Name, path and kind of a parameter of the draft.
fn parameter(key: &str) -> (String, String, Kind) {
    let path = format!("design.{key}");
    match key {
        "fit_around" => ("Share of the stretch used around".into(), path, Kind::Percent),
        "fit_lengthwise" => ("Share of the stretch used lengthwise".into(), path, Kind::Percent),
        "strap_position" => ("Strap position".into(), path, Kind::Share),
        "strap_width" => ("Strap width".into(), path, Kind::Length),
        "leg_share" => ("Leg height".into(), path, Kind::Share),
        "neck_depth" => ("Neckline depth".into(), path, Kind::Share),
        "back_depth" => ("Back depth".into(), path, Kind::Share),
        _ => match amount_of(key) {
            Some((path, name, _)) => (name.to_owned(), path.to_owned(), Kind::Length),
            None => {
                let name = key.strip_prefix("figure.").unwrap_or(key).replace('_', " ");
                (capital(&name), path, Kind::Length)
            }
        },
    }
}

/// Changes as they are shown; what is set to what it is already goes unsaid.
pub(super) fn changed_views(worked: &Worked, changes: &[Change]) -> Vec<ChangedView> {
    let fit = worked.parts.as_ref().map(|p| p.design.fit);
    let moves = |change: &&Change| {
        let now = change.from.or(match change.key {
            "fit_around" => fit.map(cloth::Fit::around),
            "fit_lengthwise" => fit.map(cloth::Fit::lengthwise),
            _ => None,
        });
        now.is_none_or(|now| (now - change.to).abs() > 5e-4)
    };
    let moved = changes.iter().filter(moves);
    moved.map(|c| changed_view(worked, c)).collect()
}

fn changed_view(worked: &Worked, change: &Change) -> ChangedView {
    let (name, _, kind) = parameter(change.key);
    let unit = worked.unit();
    let text = |value: f64| match kind {
        Kind::Share => trimmed(value, 2),
        Kind::Percent => format!("{} %", trimmed(100.0 * value, 1)),
        Kind::Length => small_length(Mm::new(value), unit).text(),
    };
    let as_it_is = || {
        let fit = worked.parts.as_ref().map(|p| p.design.fit);
        match (change.key, fit) {
            ("fit_around", Some(fit)) => format!("{}, {}", text(fit.around()), fit.key()),
            ("fit_lengthwise", Some(fit)) => format!("{}, {}", text(fit.lengthwise()), fit.key()),
            _ => "as usual".to_owned(),
        }
    };
    ChangedView {
        name,
        from: change.from.map_or_else(as_it_is, text),
        to: text(change.to),
    }
}

/// The edit that sets these parameters.
pub(super) fn sets_of(worked: &Worked, changes: &[Change]) -> Vec<Set> {
    let set = |path: String, value: Json| Set {
        document: worked.suit.id.clone(),
        path,
        value,
    };
    let mut sets = Vec::with_capacity(changes.len() + 1);
    // Other ways of saying the same thing go: a named fit beside shares of one's own, a leg's word beside its share.
    let mut gone: Vec<&str> = Vec::new();
    for other in changes.iter().flat_map(|c| crate::worn::excluded(c.key)) {
        if !gone.contains(other) {
            gone.push(other);
            sets.push(set(format!("design.{other}"), Json::Null));
        }
    }
    for change in changes {
        let (_, path, kind) = parameter(change.key);
        let value = match kind {
            Kind::Share => trimmed(change.to, 2),
            Kind::Percent => trimmed(change.to, 3),
            Kind::Length => written(change.to, worked.unit()),
        };
        sets.push(set(path, json!(value)));
    }
    // Shares of one's own are given both or none.
    let fit = worked.parts.as_ref().map(|p| p.design.fit);
    let has = |key: &str| changes.iter().any(|c| c.key == key);
    for (key, other, now) in [
        ("fit_around", "fit_lengthwise", fit.map(cloth::Fit::lengthwise)),
        ("fit_lengthwise", "fit_around", fit.map(cloth::Fit::around)),
    ] {
        if let Some(now) = now.filter(|_| has(key) && !has(other)) {
            sets.push(set(format!("design.{other}"), json!(trimmed(now, 3))));
        }
    }
    sets
}

/// What the history calls it.
pub(super) fn words_of(changes: &[ChangedView]) -> String {
    let one = |c: &ChangedView| format!("{} {} to {}", c.name.to_lowercase(), c.from, c.to);
    changes.iter().map(one).collect::<Vec<_>>().join("; ")
}

/// A better draft as a whole.
pub fn better_view(worked: &Worked, basis: Basis, found: &Correction) -> ProposedView {
    let changes: Vec<ChangedView> = changed_views(worked, &found.changes);
    let gain = percent(found.gain);
    let lead = match found.why_not {
        Some(why) => format!("No better draft: {why}."),
        None => format!(
            "Nearer to what the draft means: what it is off falls by {}. Not every level comes nearer, it is the sum that falls.",
            gain.text()
        ),
    };
    let mut notes = vec![format!(
        "{} drafts were tried, each put on the form on a coarse mesh. A toile decides.",
        found.tried
    )];
    if !found.idle.is_empty() {
        let names: Vec<String> = found
            .idle
            .iter()
            .map(|key| parameter(key).0.to_lowercase())
            .collect();
        notes.push(sentence(&format!(
            "nothing here turns on {}",
            crate::view::told::list(&names)
        )));
    }
    let mut numbers = Vec::new();
    if found.why_not.is_none() {
        let off = |sum: f64| plain(100.0 * sum.sqrt(), 1, "%", "per cent");
        numbers.push(ComparedView {
            name: "Off what was meant, all levels together".into(),
            before: off(found.before),
            after: off(found.after),
        });
        numbers.push(ComparedView {
            name: "Presses most".into(),
            before: basis.kpa(found.peak_kpa[0]),
            after: basis.kpa(found.peak_kpa[1]),
        });
    }
    let compared = found.levels.iter().map(|l| Pair {
        level: l.level,
        meant: Some(l.meant_percent),
        around: l.around_percent,
        lengthwise: l.lengthwise_percent,
    });
    let (levels, rails) = levels_of(compared.collect(), basis.shell_around);
    ProposedView {
        kind: "better".into(),
        finding: None,
        is_current: true,
        lead,
        why_not: found.why_not.map(sentence),
        words: format!("took a better draft: {} settings", changes.len()),
        sets: sets_of(worked, &found.changes),
        changes,
        numbers,
        levels,
        rails,
        notes,
    }
}

/// What the changes of one finding would do.
pub fn try_view(worked: &Worked, basis: Basis, key: &str, found: &Found, seen: &Previewed) -> ProposedView {
    let unit = worked.unit();
    let changes: Vec<ChangedView> = changed_views(worked, &seen.changes);
    let place = capital(&found.finding.place.replace('_', " "));
    let number = seen.number(found.finding.code, &found.which);
    let numbers: Vec<ComparedView> = number
        .and_then(|n| compared_number(&place, n, basis, unit))
        .into_iter()
        .collect();
    let said = |all: &[Found]| {
        let each = all.iter().filter(|f| !f.is_of(found));
        let words: Vec<String> = each
            .map(|f| format!("{}: {}", f.finding.place.replace('_', " "), f.finding.message))
            .collect();
        words.join("; ")
    };
    let (gone, new) = (said(&seen.goes), said(&seen.appears));
    let is_gone = seen.goes.iter().any(|f| f.is_of(found));
    let is_worse = seen.appears.iter().any(|f| f.is_of(found));
    let lead = match (is_gone, is_worse) {
        (true, _) => format!("{place}: this would be gone, or less."),
        (_, true) => format!("{place}: this would be worse."),
        _ => format!("{place}: this would still be there."),
    };
    let mut notes = vec![format!(
        "Both drafts were put on with edges of {:.0} mm: compare the two, take neither for the answer’s own numbers.",
        seen.mesh_mm
    )];
    if !gone.is_empty() {
        notes.push(format!("Also gone, or less: {gone}."));
    }
    if !new.is_empty() {
        notes.push(format!("New, or worse: {new}."));
    }
    // Where a suit closes at no level, all of them are told, as on the ladder.
    let closes = seen.levels.iter().any(|l| l.closes);
    let shown = seen.levels.iter().filter(|l| l.closes || !closes).map(|l| Pair {
        level: l.level,
        meant: None,
        around: l.around_percent,
        lengthwise: l.lengthwise_percent,
    });
    let (levels, rails) = levels_of(shown.collect(), basis.shell_around);
    ProposedView {
        kind: "try".into(),
        finding: Some(key.to_owned()),
        is_current: true,
        lead,
        why_not: None,
        words: words_of(&changes),
        sets: sets_of(worked, &seen.changes),
        changes,
        numbers,
        levels,
        rails,
        notes,
    }
}

/// A number before and after, in the unit of its limit.
fn compared_number(
    name: &str,
    number: &PreviewedNumber,
    basis: Basis,
    unit: LengthUnit,
) -> Option<ComparedView> {
    let limit = number.limit.as_ref().map_or("", |l| l.text.as_str());
    let shown = |value: f64| {
        if limit.contains("kPa") {
            basis.kpa(value)
        } else if limit.contains("mm") {
            small_length(Mm::new(value.round()), unit)
        } else if limit.contains('%') {
            percent(value)
        } else {
            plain(value, 2, "", "")
        }
    };
    let nothing = || Quantity {
        main: "none".into(),
        spoken: "none".into(),
        ..Quantity::default()
    };
    let [before, after] = number.value.map(|v| v.map(shown));
    if before.is_none() && after.is_none() {
        return None;
    }
    Some(ComparedView {
        name: match limit {
            "" => name.to_owned(),
            limit => format!("{name}; limit {limit}"),
        },
        before: before.unwrap_or_else(nothing),
        after: after.unwrap_or_else(nothing),
    })
}

/// A level before and after, per cent.
struct Pair {
    level: Level,
    meant: Option<f64>,
    around: [f64; 2],
    lengthwise: [f64; 2],
}

/// Levels before and after on one ladder, with its rails.
fn levels_of(levels: Vec<Pair>, shell_around: f64) -> (Vec<ComparedLevelView>, Vec<RailView>) {
    if levels.is_empty() {
        return (Vec::new(), Vec::new());
    }
    let shown = levels.iter().flat_map(|l| l.around.into_iter().chain(l.meant));
    let scale = Scale::over(shown, 100.0 * RESERVE_SHARE * shell_around);
    let per_cent = |p: f64| percent(p / 100.0);
    let views = levels
        .iter()
        .map(|l| ComparedLevelView {
            level: level_key(l.level),
            name: capital(l.level.name()),
            meant: l.meant.map(|p| (per_cent(p), scale.at(p))),
            around: l.around.map(per_cent),
            at: l.around.map(|p| scale.at(p)),
            lengthwise: l.lengthwise.map(|p| signed(p / 100.0)),
        })
        .collect();
    (views, scale.rails(shell_around))
}
