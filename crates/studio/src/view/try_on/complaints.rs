//! What she may say of this suit, each with what to change for it and why, as edits that can be taken.
//!
//! A change the draft refuses on this body and cloth is left out, so that none leads into a refusal.

use cloth::Fit;
use draft::{BackShape, Cups, Design, LiningCover, Seat, draft};
use fit::try_on::{Change, Complaint, Remedy, about};
use serde::Serialize;
use serde_json::{Value as Json, json};
use ts_rs::TS;
use units::Mm;
use utoipa::ToSchema;

use crate::document::Worked;
use crate::suit_file::trimmed;
use crate::view::Set;
use crate::view::shape::{Drafting, Parameter, drafting, value_in_force, written};
use crate::view::told::sentence;

/// One thing she may say.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ComplaintView {
    /// In her words: `Rides up at the back`.
    pub says: String,
    /// What to do about it, the likeliest first.
    pub remedies: Vec<RemedyView>,
}

/// One thing to do.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct RemedyView {
    /// What: `Straps 8 mm wider`.
    pub says: String,
    /// Why, in a sentence.
    pub because: String,
    /// The edit; empty for what is done by hand on the suit that is there.
    pub changes: Vec<Set>,
}

/// What may be said of this suit; none before it can be drafted.
pub(super) fn complaints(worked: &Worked) -> Vec<ComplaintView> {
    let (Some(drafting), Some(order)) = (drafting(worked), &worked.order) else {
        return Vec::new();
    };
    Complaint::ALL
        .into_iter()
        .filter(|c| c.is_of(drafting.design, drafting.draft))
        .map(|complaint| ComplaintView {
            says: complaint.words().to_owned(),
            remedies: about(complaint, drafting.design, drafting.draft, &order.fit)
                .into_iter()
                .filter_map(|remedy| shown(worked, &drafting, &remedy))
                .collect(),
        })
        .collect()
}

/// The remedy as an edit; `None` where the draft would refuse it.
fn shown(worked: &Worked, drafting: &Drafting<'_>, remedy: &Remedy) -> Option<RemedyView> {
    let changes = match remedy.change {
        None => Vec::new(),
        Some(change) => {
            let edit = Edit::of(worked, drafting, change)?;
            let mut design = drafting.design.clone();
            (edit.put)(&mut design);
            if design == *drafting.design || draft(drafting.body, drafting.cloth, &design).is_err() {
                return None;
            }
            edit.sets
                .into_iter()
                .map(|(path, value)| Set {
                    document: worked.suit.id.clone(),
                    path,
                    value,
                })
                .collect()
        }
    };
    Some(RemedyView {
        says: remedy.says.clone(),
        because: sentence(&remedy.why),
        changes,
    })
}

/// A change as it is written into the suit's document, and as it is put into a design to try it.
struct Edit {
    sets: Vec<(String, Json)>,
    put: Box<dyn FnOnce(&mut Design)>,
}

impl Edit {
    fn of(worked: &Worked, drafting: &Drafting<'_>, change: Change) -> Option<Edit> {
        let design = drafting.design;
        let length = |parameter: Parameter, by: f64| {
            if !parameter.applies(design) {
                return None;
            }
            let (low, high) = parameter.range_mm();
            let now = value_in_force(parameter, drafting)?;
            // To a tenth: the value is written and read back.
            let mm = ((now + by).clamp(low, high) * 10.0).round() / 10.0;
            ((mm - now).abs() > 0.5).then(|| Edit {
                sets: vec![(
                    parameter.path().to_owned(),
                    Json::String(written(mm, worked.unit())),
                )],
                put: Box::new(move |d| parameter.put(d, mm)),
            })
        };
        let word = |key: &str, value: &str, put: Box<dyn FnOnce(&mut Design)>| {
            Some(Edit {
                sets: vec![(format!("design.{key}"), json!(value))],
                put,
            })
        };
        let figure = |key: &str, now: Mm, by: f64, (low, high): (f64, f64), put: fn(&mut Design, Mm)| {
            let mm = (now.get() + by).clamp(low, high);
            ((mm - now.get()).abs() > 0.5).then(|| Edit {
                sets: vec![(
                    format!("design.figure.{key}"),
                    Json::String(written(mm, worked.unit())),
                )],
                put: Box::new(move |d| put(d, Mm::new(mm))),
            })
        };
        match change {
            Change::NeckDepth(by) => length(Parameter::NeckDepth, by),
            Change::BackDepth(by) => length(Parameter::BackDepth, by),
            Change::StrapWidth(by) => length(Parameter::StrapWidth, by),
            Change::SideSeam(by) => length(Parameter::SideSeam, by),
            Change::CrotchWidth(by) => length(Parameter::CrotchWidth, by),
            Change::SkirtCover(by) => length(Parameter::SkirtCover, by),
            Change::StrapPosition(by) => {
                let usual = if design.back_shape == BackShape::Racer {
                    0.30
                } else {
                    0.42
                };
                let to = (design.strap_position.unwrap_or(usual) + by).clamp(0.25, 0.70);
                let to = (to * 100.0).round() / 100.0;
                Some(Edit {
                    sets: vec![("design.strap_position".into(), json!(trimmed(to, 2)))],
                    put: Box::new(move |d| d.strap_position = Some(to)),
                })
            }
            Change::Seat(seat) => {
                let key = match seat {
                    Seat::Full => "full",
                    Seat::Moderate => "moderate",
                    Seat::Cheeky => "cheeky",
                };
                word("seat", key, Box::new(move |d| d.seat = seat))
            }
            Change::Back(back) => {
                let key = match back {
                    BackShape::Scoop => "scoop",
                    BackShape::V => "v",
                    BackShape::Racer => "racer",
                    BackShape::CrossedStraps => "crossed-straps",
                };
                word("back", key, Box::new(move |d| d.back_shape = back))
            }
            Change::Bust(bust) => {
                let key = match bust {
                    draft::BustShaping::Auto => "auto",
                    draft::BustShaping::SideDart => "side-dart",
                    draft::BustShaping::Princess => "princess",
                };
                word("bust_shaping", key, Box::new(move |d| d.bust_shaping = bust))
            }
            Change::Lining(lining) => {
                let key = match lining {
                    LiningCover::None => "none",
                    LiningCover::Full => "full",
                    LiningCover::Front => "front",
                    LiningCover::Crotch => "crotch",
                };
                word("lining", key, Box::new(move |d| d.lining = lining))
            }
            Change::Cups(cups) => {
                let key = match cups {
                    Cups::None => "none",
                    Cups::Marks => "marks",
                    Cups::Pocket => "pocket",
                };
                word("cups", key, Box::new(move |d| d.cups = cups))
            }
            Change::Fit(Fit::Own(own)) => Some(Edit {
                sets: vec![
                    ("design.fit".into(), Json::Null),
                    ("design.fit_around".into(), json!(trimmed(own.around_share(), 3))),
                    (
                        "design.fit_lengthwise".into(),
                        json!(trimmed(own.lengthwise_share(), 3)),
                    ),
                ],
                put: Box::new(move |d| d.fit = Fit::Own(own)),
            }),
            Change::Fit(fit) => Some(Edit {
                sets: vec![
                    ("design.fit".into(), json!(fit.key())),
                    ("design.fit_around".into(), Json::Null),
                    ("design.fit_lengthwise".into(), Json::Null),
                ],
                put: Box::new(move |d| d.fit = fit),
            }),
            Change::SwayBack(by) => figure("sway_back", design.figure.sway_back, by, (0.0, 15.0), |d, mm| {
                d.figure.sway_back = mm;
            }),
            Change::FigureSeat(by) => figure("seat", design.figure.seat, by, (-20.0, 20.0), |d, mm| {
                d.figure.seat = mm;
            }),
            Change::ShoulderForward(by) => figure(
                "shoulder_forward",
                design.figure.shoulder_forward,
                by,
                (0.0, 20.0),
                |d, mm| d.figure.shoulder_forward = mm,
            ),
            Change::BustHeight(by) => figure(
                "bust_height",
                design.figure.bust_height,
                by,
                (-25.0, 25.0),
                |d, mm| d.figure.bust_height = mm,
            ),
            Change::RiseLength(by) => figure(
                "rise_length",
                design.figure.rise_length,
                by,
                (-25.0, 25.0),
                |d, mm| d.figure.rise_length = mm,
            ),
            Change::FirstFitting => Some(Edit {
                sets: vec![
                    ("allowances.side_seam".into(), Json::Null),
                    ("allowances.first_fitting".into(), json!(true)),
                ],
                put: Box::new(|d| d.allowances.side_seam = draft::Allowances::FIRST_FITTING_SIDE),
            }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::view::examples::{example, names};

    /// Every change offered for every complaint of every example is drafted when it is taken, and is in the design after.
    #[test]
    fn a_remedy_can_be_taken() {
        let (mut taken, mut by_hand) = (0, 0);
        for name in names() {
            let worked = example(&name);
            let before = worked.parts.as_ref().unwrap().design.clone();
            let all = complaints(&worked);
            assert!(all.len() >= 5, "{name}");
            for complaint in &all {
                assert!(!complaint.remedies.is_empty(), "{name}: {}", complaint.says);
                for remedy in &complaint.remedies {
                    assert!(remedy.because.ends_with('.'), "{}", remedy.because);
                    if remedy.changes.is_empty() {
                        by_hand += 1;
                        continue;
                    }
                    let after = worked.with(|papers| crate::app::preview_bodies(papers, &remedy.changes));
                    assert!(
                        after.order.is_some(),
                        "{name} {}: {:?}",
                        remedy.says,
                        after.faults
                    );
                    assert_ne!(
                        after.parts.as_ref().unwrap().design,
                        before,
                        "{name} {}",
                        remedy.says
                    );
                    taken += 1;
                }
            }
        }
        assert!(taken > 60 && by_hand > 20, "{taken} {by_hand}");
    }

    #[test]
    fn nobody_complains_of_straps_on_a_brief() {
        let said: Vec<_> = complaints(&example("tove-brief"))
            .into_iter()
            .map(|c| c.says)
            .collect();
        assert!(said.iter().all(|s| !s.contains("Strap")), "{said:?}");
        assert!(said.iter().any(|s| s == "Rides up at the back"));
    }
}
