//! What was found of a suit in her words: parameters, ease, how each measure is met, which one to take again; each with its why.

use drawer::{FavouriteCopy, FlatMeasure, FoundParameter, SuitParameter};
use units::{LengthUnit, Mm, Stretch};

use super::{EaseLine, FoundLine, MetLine, SuspectLine};
use crate::suit_file::trimmed;
use crate::view::told::{capital, said};
use crate::view::{Quantity, Why, WhyInput, length, percent, plain, small_length};

const OWN: &str = "our own rule, from reasoning and trials";

/// A difference with its sign: `+3 mm`, eighths beside it; her inches first where she works in them.
pub(super) fn signed(change: Mm, unit: LengthUnit) -> Quantity {
    let size = Mm::new((change.get().abs() * 2.0).round() / 2.0);
    let sign = if size.get() == 0.0 {
        ""
    } else if change.get() < 0.0 {
        "−"
    } else {
        "+"
    };
    let spoken_sign = match sign {
        "−" => "minus ",
        "+" => "plus ",
        _ => "",
    };
    let q = small_length(size, unit);
    Quantity {
        main: format!("{sign}{}", q.main),
        second: if q.second.is_empty() {
            q.second
        } else {
            format!("{sign}{}", q.second)
        },
        spoken: format!("{spoken_sign}{}", q.spoken),
        ..q
    }
}

pub(super) fn why(
    question: String,
    answer: String,
    sum: String,
    inputs: &[(&str, String)],
    source: &str,
) -> Why {
    Why {
        question,
        answer,
        sum,
        inputs: inputs
            .iter()
            .map(|(name, value)| WhyInput {
                name: (*name).to_owned(),
                value: value.clone(),
            })
            .collect(),
        source: source.to_owned(),
    }
}

fn value_of(found: &FoundParameter, unit: LengthUnit) -> Quantity {
    match (found.parameter, found.parameter.unit()) {
        (_, "mm") => small_length(Mm::new(found.value), unit),
        (SuitParameter::AroundShare | SuitParameter::LengthwiseShare, _) => percent(found.value),
        _ => plain(found.value, 2, "", ""),
    }
}

fn sure(found: &FoundParameter, unit: LengthUnit) -> String {
    match (found.standard_error, found.parameter.unit()) {
        (None, _) => "as far as can be drafted".to_owned(),
        (Some(error), "mm") => format!(
            "give or take {}",
            small_length(Mm::new(error.max(0.5).round()), unit).text()
        ),
        (Some(error), _) if is_share_of_stretch(found.parameter) => {
            format!("give or take {} %", trimmed(100.0 * error, 1))
        }
        (Some(error), _) => format!("give or take {}", trimmed(error, 2)),
    }
}

const fn is_share_of_stretch(parameter: SuitParameter) -> bool {
    matches!(
        parameter,
        SuitParameter::AroundShare | SuitParameter::LengthwiseShare
    )
}

fn found_line(found: &FoundParameter, unit: LengthUnit, measured: usize) -> FoundLine {
    let value = value_of(found, unit);
    let what = match found.parameter {
        SuitParameter::AroundShare => "Share of the old cloth’s stretch that the suit uses around the body.",
        SuitParameter::LengthwiseShare => {
            "Share of the old cloth’s stretch that the suit uses up and down the body."
        }
        SuitParameter::LegShare => {
            "Where the leg meets the side, as a share of waist to hip below the waist."
        }
        SuitParameter::StrapWidth => "As the draft has it when the measures are met best.",
        SuitParameter::NeckDepth => "0.05 is close under the neck, 0.5 at the bust.",
        SuitParameter::BackDepth => "Share of the back waist length: 0.05 is high, 0.95 nearly the waist.",
        SuitParameter::CrotchWidth => "As it was measured: nothing else tells it.",
        SuitParameter::SkirtCover => "How far the hem hangs below the crotch.",
    };
    FoundLine {
        name: capital(found.parameter.name()),
        sure: sure(found, unit),
        why: why(
            format!("Why {} for the {}?", value.text(), found.parameter.name()),
            format!(
                "{what} The draft for this body in the old cloth was moved until its flat measures came as close to hers as they can."
            ),
            String::new(),
            &[
                ("Measures used", measured.to_string()),
                ("How sure", sure(found, unit)),
            ],
            "least squares of the differences, each measure counting by how sure it is; our own method",
        ),
        value,
    }
}

/// Shares of the stretch used, then the design.
pub(super) fn found(copy: &FavouriteCopy, unit: LengthUnit) -> (Vec<FoundLine>, Vec<FoundLine>) {
    let used = copy.measures.iter().filter(|m| !m.is_left_out).count();
    let line = |p: &&FoundParameter| found_line(p, unit, used);
    let (shares, rest): (Vec<&FoundParameter>, Vec<&FoundParameter>) = copy
        .parameters
        .iter()
        .partition(|p| is_share_of_stretch(p.parameter));
    (shares.iter().map(line).collect(), rest.iter().map(line).collect())
}

/// Worn stretch by place in both cloths.
pub(super) fn ease(
    copy: &FavouriteCopy,
    old: Stretch,
    new: Stretch,
    lengthwise: (Stretch, Stretch),
) -> Vec<EaseLine> {
    copy.ease
        .places
        .iter()
        .map(|place| {
            let name = place.level.map_or("lengthwise", |l| l.name()).to_owned();
            let (from, to) = if place.level.is_some() { (old, new) } else { lengthwise };
            let is_capped = place.difference().abs() > 0.01;
            let q = |s: Stretch| plain(s.percent(), 1, "%", "per cent");
            EaseLine {
                says: if is_capped {
                    format!(
                        "{} would be the same share; a limit of the draft makes it {}",
                        q(place.proportional).text(),
                        q(place.new).text()
                    )
                } else {
                    String::new()
                },
                old: q(place.old),
                new: q(place.new),
                why: why(
                    format!("Why {} {}?", q(place.new).text(), at(&name)),
                    "The copy uses the same share of the new cloth’s stretch as the suit uses of the old one’s.".into(),
                    format!(
                        "{} × {} ÷ {} = {}",
                        q(place.old).text(),
                        percent(to.ratio()).text(),
                        percent(from.ratio()).text(),
                        q(place.proportional).text()
                    ),
                    &[
                        ("Worn in the old cloth", q(place.old).text()),
                        ("Stretch of the old cloth", percent(from.ratio()).text()),
                        ("Stretch of the new cloth", percent(to.ratio()).text()),
                    ],
                    OWN,
                ),
                place: name,
            }
        })
        .collect()
}

fn at(place: &str) -> String {
    if place == "lengthwise" {
        place.to_owned()
    } else {
        format!("at the {place}")
    }
}

/// The chart's bar is full at so many times what a reading varies by.
const FULL_BAR: f64 = 4.0;

/// How each measure is met.
pub(super) fn met(copy: &FavouriteCopy, unit: LengthUnit) -> Vec<MetLine> {
    copy.measures
        .iter()
        .map(|m| {
            let off = m.drafted - m.taken;
            let q = signed(off, unit);
            let (stands, says) = if m.is_left_out {
                ("left_out", "left out: the others contradict it".to_owned())
            } else if m.is_contradicted() {
                ("doubtful", "the others contradict it".to_owned())
            } else if !m.is_checked() {
                ("unchecked", match m.smallest_slip {
                    Some(slip) => format!("a slip under {} would not show", small_length(Mm::new(slip.get().round()), unit).text()),
                    None => "no other measure checks it".to_owned(),
                })
            } else {
                ("good", String::new())
            };
            MetLine {
                key: m.measure.key().to_owned(),
                name: capital(m.measure.name()),
                taken: length(m.taken, unit),
                found: length(m.drafted, unit),
                bar: (m.residual / FULL_BAR).clamp(-1.0, 1.0),
                stands: stands.to_owned(),
                why: why(
                    format!("Why {} at the {}?", q.text(), m.measure.name()),
                    "The suit that was found, less what was measured. Two readings of one suit differ by as much as the second figure."
                        .into(),
                    format!("{} − {} = {}", said(m.drafted, unit), said(m.taken, unit), q.text()),
                    &[
                        ("Usual difference of two readings", small_length(m.deviation, unit).text()),
                        ("In those", trimmed(m.residual, 1)),
                    ],
                    &m.limit.map_or_else(String::new, |limit| {
                        format!("shown from {limit:.1} times what it varies by; our own limit")
                    }),
                ),
                off: q,
                says,
            }
        })
        .collect()
}

/// What to measure again.
pub(super) fn suspects(copy: &FavouriteCopy, unit: LengthUnit) -> Vec<SuspectLine> {
    let Some(conflict) = &copy.conflict else {
        return Vec::new();
    };
    let likely: Vec<FlatMeasure> = conflict.as_likely().map(|s| s.measure).collect();
    conflict
        .suspects
        .iter()
        .filter(|s| likely.contains(&s.measure))
        .map(|s| SuspectLine {
            key: s.measure.key().to_owned(),
            name: s.measure.name().to_owned(),
            taken: length(s.taken, unit),
            needs: length(s.would_need, unit),
            says: format!(
                "Measure the {} again: it would need {}.",
                s.measure.name(),
                said(s.would_need, unit)
            ),
            how: crate::view::sentence(s.measure.how()),
            is_left_out: conflict.left_out == Some(s.measure),
        })
        .collect()
}

/// Names of the measures nothing checks.
pub(super) fn unchecked(copy: &FavouriteCopy) -> Vec<String> {
    copy.measures
        .iter()
        .filter(|m| !m.is_checked())
        .map(|m| m.measure.name().to_owned())
        .collect()
}
