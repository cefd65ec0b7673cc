//! What a try-on may correct: the draft parameters of this style, each with the value in force and proposals ready.
//!
//! A proposal the draft refuses on this body and cloth is left out, so that none leads into a refusal.

use cloth::Fit;
use draft::{Design, Seat, Shared, draft};
use serde_json::Value as Json;
use units::{LengthUnit, Mm};

use super::CorrectionView;
use crate::document::Worked;
use crate::view::shape::{Drafting, Parameter, drafting, shown, value_in_force, written};
use crate::view::{Proposal, Quantity, Set, length, small_length};

/// The corrections of this suit; none before it can be drafted.
pub(super) fn corrections(worked: &Worked) -> Vec<CorrectionView> {
    let Some(drafting) = drafting(worked) else {
        return Vec::new();
    };
    let lengths = Parameter::ALL
        .into_iter()
        .filter(|p| p.applies(drafting.design))
        .filter_map(|p| of_length(worked, &drafting, p));
    let mut all: Vec<CorrectionView> = lengths.collect();
    if drafting.design.style.has(Shared::Seat) {
        all.push(seat(worked, &drafting));
    }
    all.push(fit(worked, &drafting));
    all
}

/// Step of a parameter, mm: small ones by what the eye sees on a strap, depths by a finger's width.
fn step_mm(parameter: Parameter, unit: LengthUnit) -> f64 {
    let (small, large) = match unit {
        LengthUnit::In => (25.4 / 8.0, 25.4 * 3.0 / 8.0),
        LengthUnit::Cm | LengthUnit::Mm => (4.0, 10.0),
    };
    match parameter {
        Parameter::StrapWidth | Parameter::CrotchWidth => small,
        _ => large,
    }
}

/// What less and more of a parameter do to the suit.
const fn ways(parameter: Parameter) -> (&'static str, &'static str) {
    match parameter {
        Parameter::NeckDepth | Parameter::BackDepth => ("Higher", "Lower"),
        Parameter::StrapWidth | Parameter::CrotchWidth => ("Narrower", "Wider"),
        Parameter::SideSeam => ("Leg higher", "Leg lower"),
        Parameter::SkirtCover => ("Shorter", "Longer"),
    }
}

fn of_length(worked: &Worked, drafting: &Drafting<'_>, parameter: Parameter) -> Option<CorrectionView> {
    let unit = worked.unit();
    let now = value_in_force(parameter, drafting)?;
    let (low, high) = parameter.range_mm();
    let (less, more) = ways(parameter);
    let step = step_mm(parameter, unit);
    let proposals = [(less, -step), (more, step)]
        .into_iter()
        .filter_map(|(way, by)| {
            // To a tenth: the value is written and read back.
            let mm = ((now + by).clamp(low, high) * 10.0).round() / 10.0;
            let moved = (mm - now).abs();
            if moved < 0.5 || !is_drafted(drafting, |design| parameter.put(design, mm)) {
                return None;
            }
            let by = match parameter {
                Parameter::StrapWidth | Parameter::CrotchWidth => small_length(Mm::new(moved), unit),
                _ => length(Mm::new(moved), unit),
            };
            Some(Proposal {
                words: format!("{way} by {}", by.text()),
                // What this puts out of force, the edit itself takes out.
                changes: vec![Set {
                    document: worked.suit.id.clone(),
                    path: parameter.path().to_owned(),
                    value: Json::String(written(mm, unit)),
                }],
            })
        })
        .collect();
    Some(CorrectionView {
        key: parameter.key().to_owned(),
        label: parameter.label().to_owned(),
        now: shown(now, unit).why(format!("design.{}", parameter.key())),
        proposals,
    })
}

fn is_drafted(drafting: &Drafting<'_>, change: impl FnOnce(&mut Design)) -> bool {
    let mut design = drafting.design.clone();
    change(&mut design);
    draft(drafting.body, drafting.cloth, &design).is_ok()
}

fn seat(worked: &Worked, drafting: &Drafting<'_>) -> CorrectionView {
    const SEATS: [(&str, Seat); 3] = [
        ("full", Seat::Full),
        ("moderate", Seat::Moderate),
        ("cheeky", Seat::Cheeky),
    ];
    let now = drafting.design.seat;
    words(
        worked,
        drafting,
        ("seat", "Seat cover"),
        ("More cover", "Less cover"),
        &SEATS,
        now,
        |d, s| d.seat = s,
    )
}

fn fit(worked: &Worked, drafting: &Drafting<'_>) -> CorrectionView {
    let now = drafting.design.fit;
    // A fit of its own stands between the named ones, which are what can be proposed.
    let mut options = Fit::NAMED.map(|named| (named.key(), named)).to_vec();
    if matches!(now, Fit::Own(_)) {
        let at = options.partition_point(|(_, named)| named.around() < now.around());
        options.insert(at, (now.key(), now));
    }
    words(
        worked,
        drafting,
        ("fit", "Fit"),
        ("Looser", "Closer"),
        &options,
        now,
        |d, f| d.fit = f,
    )
}

/// A parameter of a few words in a row: a proposal for the one before and the one after.
fn words<T: Copy + PartialEq>(
    worked: &Worked,
    drafting: &Drafting<'_>,
    (key, label): (&str, &str),
    ways: (&str, &str),
    options: &[(&str, T)],
    now: T,
    put: impl Fn(&mut Design, T),
) -> CorrectionView {
    let at = options.iter().position(|(_, value)| *value == now).unwrap_or(0);
    let proposals = [(ways.0, at.checked_sub(1)), (ways.1, Some(at + 1))]
        .into_iter()
        .filter_map(|(way, index)| {
            let (word, value) = options.get(index?)?;
            is_drafted(drafting, |design| put(design, *value)).then(|| Proposal {
                words: format!("{way}: {word}"),
                changes: vec![Set {
                    document: worked.suit.id.clone(),
                    path: format!("design.{key}"),
                    value: Json::String((*word).to_owned()),
                }],
            })
        })
        .collect();
    let word = options.get(at).map_or("", |(word, _)| *word).to_owned();
    CorrectionView {
        key: key.to_owned(),
        label: label.to_owned(),
        now: Quantity {
            spoken: word.clone(),
            main: word,
            ..Quantity::default()
        },
        proposals,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::view::examples::{example, names};

    /// Every proposal of every example is drafted when it is taken, and moves the value it names.
    #[test]
    fn a_proposal_can_be_taken() {
        for name in names() {
            let worked = example(&name);
            let before = corrections(&worked);
            assert!(before.len() >= 2, "{name}");
            for correction in &before {
                assert!(!correction.proposals.is_empty(), "{name} {}", correction.key);
                for proposal in &correction.proposals {
                    let after = worked.with(|papers| crate::app::preview_bodies(papers, &proposal.changes));
                    assert!(
                        after.order.is_some(),
                        "{name} {}: {:?}",
                        proposal.words,
                        after.faults
                    );
                    let now = corrections(&after)
                        .into_iter()
                        .find(|c| c.key == correction.key)
                        .unwrap()
                        .now;
                    assert_ne!(now.main, correction.now.main, "{name} {}", proposal.words);
                }
            }
        }
    }

    #[test]
    fn a_brief_has_no_strap_to_correct() {
        let keys: Vec<String> = corrections(&example("tove-brief"))
            .into_iter()
            .map(|c| c.key)
            .collect();
        assert_eq!(keys, ["side_seam_length", "crotch_width", "seat", "fit"]);
    }
}
