//! Section 8, Try-on: what she said, what was changed, and the versions over one another.

mod changed;
mod complaints;
mod corrections;

use body::BodyForm;
use cloth::Layer;
use draft::Draft;
use serde::Serialize;
use serde_json::Value as Json;
use ts_rs::TS;
use units::{LengthUnit, Mm};
use utoipa::ToSchema;

pub use complaints::{ComplaintView, RemedyView};

use super::not_yet::not_yet;
use super::{Around, Frame, Head, Note, Proposal, Quantity, State, length, shape, told};
use crate::cautions::caution_of;
use crate::document::Worked;
use crate::order::work_out;
use crate::suit_file::read_text;
use crate::version::version_id;

/// The try-ons of a suit.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct TryOnView {
    /// State, summary, notes.
    pub head: Head,
    /// Version in work.
    pub version: u32,
    /// Versions kept, the newest first.
    pub versions: Vec<VersionView>,
    /// Try-ons, the newest first.
    pub try_ons: Vec<TryOnEntry>,
    /// Corrections that can be made of a note, by draft parameter.
    pub corrections: Vec<CorrectionView>,
    /// What she may say, in the trade's words, with what to change for each.
    pub complaints: Vec<ComplaintView>,
    /// Whether photos may be kept: not for a wearer under 18.
    pub photos_allowed: bool,
    /// Name of a minor's carer; empty for an adult.
    pub carer: String,
    /// What to try: sit, reach, bend, then wet.
    pub how: String,
    /// Pieces of kept versions and the one in work, over one another.
    pub overlay: Vec<OverlayView>,
    /// What measures otherwise on the finished suit than on the version kept last.
    pub differences: Vec<DifferenceView>,
}

/// A measure of the finished suit that is another than before.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct DifferenceView {
    /// What is measured: `side seam, leg to underarm`.
    pub name: String,
    /// On the version kept last.
    pub was: Quantity,
    /// On the one in work.
    pub now: Quantity,
    /// The difference in words: `8 mm longer`.
    pub by: String,
}

/// A version that was cut.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct VersionView {
    /// Number.
    pub number: u32,
    /// Kept on.
    pub kept_on: String,
    /// Id printed on its paper.
    pub version_id: String,
    /// What changed since the one before, in sentences.
    pub changed: Vec<String>,
}

/// One try-on.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct TryOnEntry {
    /// Id, the path under `try_ons` of the suit.
    pub id: String,
    /// Which version was worn.
    pub version: u32,
    /// Date.
    pub on: String,
    /// What she said, one line each.
    pub said: Vec<String>,
    /// What we did, in sentences.
    pub did: Vec<String>,
    /// Photos: ids.
    pub photos: Vec<String>,
}

/// A draft parameter that a try-on may correct.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct CorrectionView {
    /// Key: `strap_width`.
    pub key: String,
    /// `Strap`.
    pub label: String,
    /// Value now.
    pub now: Quantity,
    /// Ready proposals: `narrower by 4 mm`, `wider by 4 mm`.
    pub proposals: Vec<Proposal>,
}

/// Outlines of one piece, version over version.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct OverlayView {
    /// `Front`, `Back`.
    pub piece: String,
    /// Box around all.
    pub frame: Frame,
    /// One path a version, the oldest first: version and path.
    pub lines: Vec<OverlayLine>,
}

/// One version's outline.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct OverlayLine {
    /// Number of the version.
    pub version: u32,
    /// Whether it is the one in work.
    pub is_now: bool,
    /// SVG path of the seam line.
    pub path: String,
}

/// The section of these papers.
pub(super) fn view(worked: &Worked, around: &Around) -> TryOnView {
    let body = &worked.suit.body;
    let version = number(body, "version").unwrap_or(1);
    let try_ons = entries(body);
    let mut notes = Vec::new();
    let kept = drawn(around, &mut notes);
    let is_worn = try_ons.iter().any(|t| t.version == version);
    if worked.order.is_none() {
        notes.push(not_yet(worked, "Nothing to try on yet"));
    } else if !is_worn {
        notes.push(told::note(
            State::Missing,
            "",
            format!("Version {version} has not been worn."),
            "Baste it, wear it dry, sit, reach, bend; then wet.",
        ));
    }
    if let Some(last) = around.versions.last() {
        let changed = changed::sentences(&last.text, &worked.text, worked.unit());
        if !changed.is_empty() {
            let says = format!("Since version {}: {}", last.number, changed.join(" "));
            notes.push(told::note(State::How, "", says, ""));
        }
    }
    let summary = match try_ons.first() {
        Some(last) if last.on.is_empty() => format!("Version {} was worn.", last.version),
        Some(last) => format!("Version {} was worn on {}.", last.version, told::day(&last.on)),
        None => "Not tried on yet.".to_owned(),
    };
    let is_minor = is_minor(worked);
    let carer = worked
        .wearer
        .as_ref()
        .and_then(|p| told::text_at(&p.body, "protocol.carer"));
    TryOnView {
        head: Head::of(summary, notes),
        version,
        versions: versions(around, worked.unit()),
        try_ons,
        corrections: corrections::corrections(worked),
        complaints: complaints::complaints(worked),
        photos_allowed: is_minor == Some(false),
        carer: carer.filter(|_| is_minor == Some(true)).unwrap_or_default(),
        how: how(),
        overlay: overlay(worked, version, &kept),
        differences: differences(worked, &kept),
    }
}

/// Under this age a carer speaks for the wearer, and no photo is kept.
const OF_AGE: f64 = 18.0;

/// Whether the wearer is a minor; none before there is a wearer.
fn is_minor(worked: &Worked) -> Option<bool> {
    let (wearer, _) = worked.parts.as_ref()?.wearer.as_ref()?;
    Some(wearer.form == BodyForm::Child || wearer.age_years.is_some_and(|age| age < OF_AGE))
}

fn how() -> String {
    let caution = |id| caution_of(id).map(|c| c.say).unwrap_or_default();
    format!(
        "Baste it and wear it dry: sit, reach, bend. Then wet it: under a shower first, in water you can stand in after that, never \
         alone. {} {}",
        caution("float"),
        caution("pressure")
    )
}

fn number(body: &Json, key: &str) -> Option<u32> {
    body.get(key)
        .and_then(Json::as_u64)
        .and_then(|n| u32::try_from(n).ok())
}

/// Her try-ons, the newest first.
fn entries(suit: &Json) -> Vec<TryOnEntry> {
    let texts = |entry: &Json, key: &str| -> Vec<String> {
        let list = entry.get(key).and_then(Json::as_array);
        list.into_iter()
            .flatten()
            .filter_map(Json::as_str)
            .filter(|text| !text.trim().is_empty())
            .map(str::to_owned)
            .collect()
    };
    let all = suit.get("try_ons").and_then(Json::as_object);
    let mut entries: Vec<TryOnEntry> = all
        .into_iter()
        .flatten()
        .filter(|(_, entry)| entry.is_object())
        .map(|(id, entry)| TryOnEntry {
            id: id.clone(),
            version: number(entry, "version").unwrap_or(1),
            on: told::text_at(entry, "on").unwrap_or_default(),
            said: texts(entry, "said"),
            did: texts(entry, "did"),
            photos: texts(entry, "photos"),
        })
        .collect();
    entries.sort_by(|a, b| (&b.on, b.version, &b.id).cmp(&(&a.on, a.version, &a.id)));
    entries
}

/// The kept versions, the newest first, each with what changed since the one before it.
fn versions(around: &Around, unit: LengthUnit) -> Vec<VersionView> {
    let mut views: Vec<VersionView> = around
        .versions
        .iter()
        .enumerate()
        .map(|(i, kept)| {
            let before = i.checked_sub(1).and_then(|b| around.versions.get(b));
            VersionView {
                number: kept.number,
                kept_on: kept.at.clone(),
                version_id: read_text("this version", &kept.text)
                    .map_or_else(|_| String::new(), |s| version_id(&s)),
                changed: before.map_or_else(Vec::new, |b| changed::sentences(&b.text, &kept.text, unit)),
            }
        })
        .collect();
    views.reverse();
    views
}

/// The kept versions that can still be drawn; a note for each that can't.
fn drawn(around: &Around, notes: &mut Vec<Note>) -> Vec<(u32, Draft)> {
    let mut drawn = Vec::new();
    for kept in &around.versions {
        let order = read_text("this version", &kept.text).and_then(|suit| work_out(&suit));
        match order {
            Ok(order) => drawn.push((kept.number, order.draft)),
            Err(faults) => {
                let why = faults
                    .list
                    .first()
                    .map_or_else(String::new, |f| told::sentence(&f.message));
                let says = format!(
                    "Version {} can no longer be drafted, so it is not drawn. {why}",
                    kept.number
                );
                notes.push(told::note(State::Doubtful, "", says.trim_end(), ""));
            }
        }
    }
    drawn
}

/// Less than this no tape shows, mm.
const SEEN_MM: f64 = 0.5;

/// The finished measures that are others than those of the version kept last.
fn differences(worked: &Worked, kept: &[(u32, Draft)]) -> Vec<DifferenceView> {
    let (Some(order), Some((_, before))) = (&worked.order, kept.last()) else {
        return Vec::new();
    };
    let unit = worked.unit();
    let all = order.draft.finished.iter().filter_map(|now| {
        let was = before
            .finished
            .iter()
            .find(|f| f.key == now.key && f.name == now.name)?;
        let by = now.value_mm - was.value_mm;
        (by.abs() >= SEEN_MM).then(|| DifferenceView {
            name: now.name.clone(),
            was: length(Mm::new(was.value_mm), unit),
            now: length(Mm::new(now.value_mm), unit),
            by: format!(
                "{:.0} mm {}",
                by.abs(),
                if by > 0.0 { "longer" } else { "shorter" }
            ),
        })
    });
    all.collect()
}

/// The shell's pieces, version over version. Waist lies on waist and fold on fold, as pieces are drafted.
fn overlay(worked: &Worked, version: u32, kept: &[(u32, Draft)]) -> Vec<OverlayView> {
    let now = worked.order.as_ref().map(|o| (version, &o.draft));
    let all: Vec<(u32, &Draft, bool)> = kept
        .iter()
        .map(|(number, draft)| (*number, draft, false))
        .chain(now.map(|(number, draft)| (number, draft, true)))
        .collect();
    let newest = all.last().map(|(_, draft, _)| *draft);
    let pieces = newest.into_iter().flat_map(|draft| &draft.pieces);
    pieces
        .filter(|p| p.cuts.iter().any(|cut| cut.layer != Layer::Lining))
        .filter_map(|newest| {
            let mut points = Vec::new();
            let lines: Vec<OverlayLine> = all
                .iter()
                .filter_map(|(number, draft, is_now)| {
                    let piece = draft.pieces.iter().find(|p| p.key == newest.key)?;
                    let shape = piece.whole();
                    points.extend(
                        shape
                            .seam_line
                            .iter()
                            .flat_map(|e| e.curve.flatten(FRAME_TOLERANCE_MM)),
                    );
                    Some(OverlayLine {
                        version: *number,
                        is_now: *is_now,
                        path: shape::seam_line(&shape),
                    })
                })
                .collect();
            (!lines.is_empty()).then(|| OverlayView {
                piece: newest.name.clone(),
                frame: shape::frame(&points),
                lines,
            })
        })
        .collect()
}

/// How far the box around the lines may be off, mm.
const FRAME_TOLERANCE_MM: f64 = 0.5;

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::view::KeptVersion;
    use crate::view::examples::{example, with, with_wearer};

    fn kept(worked: &Worked, number: u32) -> KeptVersion {
        KeptVersion {
            number,
            at: "2026-11-19T10:00:00Z".into(),
            body: worked.suit.body.clone(),
            text: worked.text.clone(),
        }
    }

    #[test]
    fn versions_are_told_apart_and_drawn_over_one_another() {
        let first = example("odile-v-neck");
        let second = with(&first, "suit", |suit| {
            suit["version"] = json!(2);
            suit["design"]["strap_width"] = json!("46 mm");
            suit["try_ons"] =
                json!({"a": {"version": 1, "on": "2026-11-19", "said": ["Digs.", ""], "did": []}});
        });
        let around = Around {
            versions: vec![kept(&first, 1)],
            ..Around::default()
        };
        let view = view(&second, &around);
        assert_eq!(view.head.summary, "Version 1 was worn on 19 November 2026.");
        assert_eq!(view.try_ons[0].said, ["Digs."]);
        assert!(
            view.head
                .notes
                .iter()
                .any(|n| n.says.contains("Since version 1: Strap")),
            "{:?}",
            view.head.notes
        );
        assert_eq!(view.overlay.len(), 2);
        let front = &view.overlay[0];
        assert_eq!(
            front
                .lines
                .iter()
                .map(|l| (l.version, l.is_now))
                .collect::<Vec<_>>(),
            [(1, false), (2, true)]
        );
        assert_ne!(front.lines[0].path, front.lines[1].path);
        assert_eq!(view.versions[0].version_id, first.order.as_ref().unwrap().version);
    }

    #[test]
    fn a_version_that_no_longer_drafts_is_said_and_left_out() {
        let now = example("tove-brief");
        let mut old = kept(&now, 1);
        old.text = "format = 1".into();
        let around = Around {
            versions: vec![old],
            ..Around::default()
        };
        let view = view(&now, &around);
        assert!(
            view.head
                .notes
                .iter()
                .any(|n| n.state == State::Doubtful && n.says.starts_with("Version 1"))
        );
        assert!(view.overlay.iter().all(|o| o.lines.len() == 1));
    }

    #[test]
    fn no_photo_of_a_minor_is_kept() {
        let around = Around::default();
        assert!(!view(&example("ines-one-piece"), &around).photos_allowed);
        let maren = example("maren-one-piece");
        assert!(view(&maren, &around).photos_allowed);
        let young = with_wearer(&maren, |w| {
            w["age"] = json!(17);
            w["protocol"] = json!({"carer": "Odile"});
        });
        let view = view(&young, &around);
        assert!(!view.photos_allowed);
        assert_eq!(view.carer, "Odile");
    }
}
