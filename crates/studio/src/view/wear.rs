//! Section 4, Wear: the stretch ladder, the squeeze, the way in.

mod proposed;
mod solved;
mod worn;

use body::Dimension;
use cloth::RESERVE_SHARE;
use fit::{LEAST_HOLD, PANEL_WATCH_KPA, Rung, WayIn};
use serde::Serialize;
use serde_json::json;
use ts_rs::TS;
use units::{Finding, Level, Severity};
use utoipa::ToSchema;

use super::shape::found;
use super::told::{self, capital, note, said, state_of};
use super::{Head, Note, Proposal, Quantity, Set, State, length, percent, plain};
use crate::document::Worked;

pub use proposed::{
    Basis, ChangedView, ComparedLevelView, ComparedView, ProposedView, better_view, try_view,
};
pub use solved::fit_whys;
pub use worn::{
    FitView, PutOnRequest, TryRequest, WornDrawing, WornEdgeView, WornFound, WornLevelView, WornView,
    WornWork, fit_view, guesses as fit_guesses,
};

/// How the suit will sit.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct WearView {
    /// State, summary, notes.
    pub head: Head,
    /// One leading sentence: `Every knot between the two rails: the suit holds, and keeps stretch for reaching.`
    pub lead: String,
    /// Rungs, top to bottom; empty while nothing can be judged.
    pub rungs: Vec<RungView>,
    /// Where the rails stand, as shares of a layer's stretch, and their words.
    pub rails: Vec<RailView>,
    /// Share of stretch at the right end of the scale.
    pub scale: f64,
    /// The openings.
    pub way_in: Vec<WayInView>,
    /// The squeeze in one sentence, with what it rests on.
    pub squeeze: String,
    /// The caution beside it.
    pub caution: String,
}

/// One level.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct RungView {
    /// Key of the level: `waist`; the form's ring of the same key is beside it.
    pub level: String,
    /// Name.
    pub name: String,
    /// Whether the girth is estimated.
    pub is_estimate: bool,
    /// Girth of the body.
    pub body: Quantity,
    /// Width the suit is cut to.
    pub cut: Quantity,
    /// Worn stretch in per cent.
    pub worn: Quantity,
    /// Share of each layer's stretch in use.
    pub layers: Vec<UseView>,
    /// Pressure in kPa.
    pub pressure: Option<Quantity>,
    /// Weight of its ring between 0 and 1 by pressure; 0 when unknown.
    pub weight: f64,
    /// How it stands.
    pub state: State,
}

/// A layer's share at a level.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct UseView {
    /// `shell` or `lining`.
    pub layer: String,
    /// Share of its stretch in use.
    pub share: f64,
    /// The same, to be read: `33 % of its stretch`.
    pub says: String,
}

/// A rail of the ladder.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct RailView {
    /// Share where it stands.
    pub share: f64,
    /// `3 % holds`.
    pub words: String,
    /// Key of the answer to "why?".
    pub why: String,
}

/// One opening.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct WayInView {
    /// Which opening.
    pub opening: String,
    /// What it must pass and what it opens to: `steps in over the hips, 99.0 cm: opens to 112 cm`.
    pub says: String,
    /// Way-in share, per cent.
    pub share: Quantity,
    /// How it stands.
    pub state: State,
}

/// The section of these papers, for a preview.
pub fn wear_view(worked: &Worked) -> WearView {
    view(worked)
}

/// Share of a layer's stretch at the right end of the scale: twice the reserve, so that a tight suit still shows how tight.
const SCALE: f64 = 2.0 * RESERVE_SHARE;
/// Pressure at which a ring is drawn heaviest, kPa: the stop limit of a panel.
const HEAVIEST_KPA: f64 = fit::PANEL_STOP_KPA;

/// The section of these papers.
pub(super) fn view(worked: &Worked) -> WearView {
    let Some(order) = &worked.order else {
        let waits = note(
            State::Missing,
            "",
            "There is nothing to judge before the suit is drafted.",
            "Finish sections 1 to 3.",
        );
        return WearView {
            head: Head::of("Not judged yet.", vec![waits]),
            lead: String::new(),
            rungs: Vec::new(),
            rails: Vec::new(),
            scale: SCALE,
            way_in: Vec::new(),
            squeeze: String::new(),
            caution: String::new(),
        };
    };
    let report = &order.fit;
    let mut notes = found(worked, is_of_wear);
    for note in &mut notes {
        note.try_this = proposal(worked, note);
    }
    let rungs: Vec<RungView> = report.ladder.iter().map(|r| rung(worked, r)).collect();
    let way_in: Vec<WayInView> = report.way_in.iter().map(|w| opening(worked, w)).collect();
    WearView {
        head: Head::of(summary(&report.ladder, &report.way_in), notes),
        lead: lead(&report.ladder, report.ladder.iter().map(|r| r.worn)),
        rails: rails(worked),
        scale: SCALE,
        squeeze: squeeze(&report.ladder),
        caution: order
            .cautions
            .iter()
            .find(|c| c.id == "pressure")
            .map(|c| c.say.clone())
            .unwrap_or_default(),
        rungs,
        way_in,
    }
}

fn is_of_wear(code: &str) -> bool {
    ["ladder.", "pressure.", "way_in.", "loop.", "fit."]
        .iter()
        .any(|start| code.starts_with(start))
}

fn summary(ladder: &[Rung], way_in: &[WayIn]) -> String {
    let off = ladder.iter().filter(|r| r.severity > Severity::Good).count();
    let shut = way_in.iter().filter(|w| w.severity > Severity::Good).count();
    let levels = match off {
        0 if ladder.len() == 1 => "One level holds.".to_owned(),
        0 => format!("{} levels hold.", capital(&told::count(ladder.len()))),
        1 => "One level in doubt.".to_owned(),
        n => format!("{} levels in doubt.", capital(&told::count(n))),
    };
    let goes = match (way_in.is_empty(), shut) {
        (true, _) => String::new(),
        (_, 0) => " It goes on.".to_owned(),
        (_, 1) => " One opening is tight.".to_owned(),
        (_, n) => format!(" {} openings are tight.", capital(&told::count(n))),
    };
    levels + &goes
}

fn lead(ladder: &[Rung], worn: impl Iterator<Item = f64>) -> String {
    let slack = worn.filter(|w| *w < LEAST_HOLD).count();
    let most = ladder
        .iter()
        .flat_map(|r| &r.layers)
        .map(|l| l.share_used)
        .fold(0.0, f64::max);
    match (slack > 0, most > RESERVE_SHARE) {
        (false, false) => "Every knot between the two rails: the suit holds, and keeps stretch for reaching.",
        (true, false) => "A knot left of the first rail: the suit hangs there instead of holding.",
        (false, true) => "A knot right of the second rail: little stretch is left for reaching there.",
        (true, true) => "Knots outside both rails: the suit hangs in one place and strains in another.",
    }
    .to_owned()
}

fn rails(worked: &Worked) -> Vec<RailView> {
    let around = worked.cloth.as_ref().map_or(0.0, |c| c.around.ratio());
    let mut rails = Vec::new();
    if around > 0.0 {
        rails.push(RailView {
            share: LEAST_HOLD / around,
            words: format!("{} holds", percent(LEAST_HOLD).text()),
            why: "rail.hold".into(),
        });
    }
    rails.push(RailView {
        share: RESERVE_SHARE,
        words: format!("{} keeps reserve", percent(RESERVE_SHARE).text()),
        why: "rail.reserve".into(),
    });
    rails
}

fn squeeze(ladder: &[Rung]) -> String {
    let pressed = ladder.iter().filter_map(|r| Some((r.level, r.pressure?)));
    let Some((level, most)) = pressed.max_by(|a, b| a.1.kpa.total_cmp(&b.1.kpa)) else {
        return "The squeeze is not known: no force of the cloth can be reckoned.".into();
    };
    let rests = if most.is_relative {
        "The force of the cloth is assumed: read these against each other, or weigh the pull."
    } else {
        "From the weighed pull of the cloth."
    };
    format!(
        "Most at the {}, about {:.1} kPa ({:.1} to {:.1}); to be looked at above {PANEL_WATCH_KPA:.1}. {rests}",
        level.name(),
        most.kpa,
        most.low_kpa,
        most.high_kpa
    )
}

fn rung(worked: &Worked, rung: &Rung) -> RungView {
    let unit = worked.unit();
    let key = level_key(rung.level);
    let is_estimate = worked
        .order
        .as_ref()
        .is_some_and(|o| dimension_of(rung.level).is_some_and(|d| !o.body.is_taken(d)));
    RungView {
        name: capital(rung.level.name()),
        is_estimate,
        body: match dimension_of(rung.level) {
            Some(d) if is_estimate => length(rung.body, unit).why(format!("dimension.{}", d.key())),
            _ => length(rung.body, unit),
        },
        cut: length(rung.pattern, unit).why(format!("cut.{key}")),
        worn: percent(rung.worn).why(format!("worn.{key}")),
        layers: rung
            .layers
            .iter()
            .map(|l| UseView {
                layer: l.layer.name().to_owned(),
                share: (l.share_used * 1e4).round() / 1e4,
                says: format!("{} of its stretch", percent(l.share_used).text()),
            })
            .collect(),
        pressure: rung
            .pressure
            .map(|p| plain(p.kpa, 1, "kPa", "kilopascals").why(format!("pressure.{key}"))),
        weight: rung
            .pressure
            .map_or(0.0, |p| (p.kpa / HEAVIEST_KPA).clamp(0.05, 1.0)),
        state: state_of(rung.severity),
        level: key,
    }
}

/// `high_hip`: the level's name in files and on rings.
pub(super) fn level_key(level: Level) -> String {
    serde_json::to_value(level)
        .ok()
        .and_then(|v| v.as_str().map(str::to_owned))
        .unwrap_or_default()
}

/// The girth that is taken at a level.
pub(super) fn dimension_of(level: Level) -> Option<Dimension> {
    Some(match level {
        Level::Bust => Dimension::BustGirth,
        Level::Underbust => Dimension::UnderbustGirth,
        Level::Waist | Level::Navel => Dimension::WaistGirth,
        Level::HighHip => Dimension::HighHipGirth,
        Level::Hip => Dimension::HipGirth,
        Level::Thigh => Dimension::ThighGirth,
        Level::UpperChest => Dimension::UpperChestGirth,
        _ => return None,
    })
}

fn opening(worked: &Worked, way: &WayIn) -> WayInView {
    let unit = worked.unit();
    let over = if way.opening == "leg" {
        "over the thigh"
    } else {
        "over the hips"
    };
    let opens = way.rest * (1.0 + way.cloth_stretch);
    let beside = way.elastic_share.into_iter().chain(way.seam_share);
    let share = beside.fold(way.cloth_share, f64::max);
    WayInView {
        opening: capital(way.opening),
        says: format!(
            "{over}, {}: the cloth opens to {}",
            said(way.passes, unit),
            said(opens, unit)
        ),
        share: percent(share).why(format!("way_in.{}", way.opening)),
        state: state_of(way.severity),
    }
}

/// A change of the design that makes the note's finding go away, or at least less: tried before it is offered.
fn proposal(worked: &Worked, note: &Note) -> Option<Proposal> {
    let order = worked.order.as_ref()?;
    let found = order
        .findings
        .iter()
        .find(|f| note.why.as_deref() == Some(&format!("finding.{}.{}", f.code, f.place)))?;
    let fit = worked.parts.as_ref()?.design.fit;
    let (word, other) = match found.code {
        "ladder.share" | "pressure.panel" => ("looser", fit.looser()?),
        "ladder.waist_slack" | "ladder.underbust_hold" | "ladder.loose" => ("firmer", fit.firmer()?),
        _ => return None,
    };
    let changes = vec![Set {
        document: worked.suit.id.clone(),
        path: "design.fit".into(),
        value: json!(other.key()),
    }];
    let tried = worked.with(|papers| crate::app::preview_bodies(papers, &changes));
    let after = tried.order.as_ref()?;
    let still = after
        .findings
        .iter()
        .find(|f| f.code == found.code && f.place == found.place && f.severity > Severity::Good);
    if !is_less(found, still) || after.worst() > order.worst() {
        return None;
    }
    Some(Proposal {
        words: format!("Try a {word} fit"),
        changes,
    })
}

fn is_less(before: &Finding, after: Option<&Finding>) -> bool {
    match (after, before.value) {
        (None, _) => true,
        (Some(after), _) if after.severity < before.severity => true,
        _ => false,
    }
}
