//! Why a dimension is what it is: taken or estimated, doubted, read twice.
//!
//! **Source.** Each answer names its own; rules and errors are the body crate's.

use body::{BodyForm, Dimension, Doubt, Known, Measure, Origin, SLIP_LIMIT, doubts};
use units::Mm;

use super::Why;
use crate::document::Worked;
use crate::view::told::said;
use crate::view::wearer::short_name;

const SURVEY: &str = "ANSUR II survey (2012), public data, 1986 women and 4082 men; what is left of its spread once the others are given";

pub(super) fn answer(worked: &Worked, kind: &str, which: &str) -> Option<Why> {
    match kind {
        "dimension" => dimension(worked, Dimension::from_key(which)?),
        "second_reading" => second_reading(worked, Dimension::from_key(which)?),
        "doubt" => doubt(worked, which),
        _ => None,
    }
}

fn dimension(worked: &Worked, dimension: Dimension) -> Option<Why> {
    let (body, _) = worked.body.as_ref()?;
    let Known { value, origin } = body.get(dimension)?;
    let unit = worked.unit();
    let value = said(value, unit);
    let name = short_name(dimension, body.form);
    let question = format!("Why {value} {}?", at(name));
    let Origin::Estimated { se, rule } = origin else {
        let answer = format!("You took it: {}.", dimension.definition());
        return Some(Why::of(question, answer, "your tape").input(name, value));
    };
    let is_of_survey = rule.starts_with("survey:");
    let (answer, source) = if is_of_survey {
        (
            format!(
                "It was not taken. Among bodies whose other dimensions are hers, the {name} is {value} in the middle."
            ),
            SURVEY.to_owned(),
        )
    } else {
        (
            format!("It was not taken. A plain rule gives {value}."),
            rule_source(rule).to_owned(),
        )
    };
    let mut why = Why::of(question, answer, source);
    why = if is_of_survey {
        asked_of_survey(why, worked, body.form)
    } else {
        let why = why.sum(format!("{} = {value}", rule_sum(rule)));
        inputs_of(rule, body.form)
            .into_iter()
            .filter_map(|d| Some((d, body.get(d)?)))
            .fold(why, |why, (d, known)| {
                why.input(short_name(d, body.form), taken_or_estimated(known, unit))
            })
    };
    let error = match se {
        Some(se) => format!("{}: two bodies in three lie within it", said(se, unit)),
        None => "not known".to_owned(),
    };
    Some(why.input("standard error", error))
}

/// What the survey was asked with: everything taken that it has too, and body mass.
fn asked_of_survey(mut why: Why, worked: &Worked, form: BodyForm) -> Why {
    let parts = worked.parts.as_ref().and_then(|p| p.wearer.as_ref());
    let Some((wearer, _)) = parts else {
        return why;
    };
    for dimension in body::asked_of_survey(wearer) {
        if let Some(taken) = wearer.taken.get(dimension) {
            why = why.input(short_name(dimension, form), said(taken, worked.unit()));
        }
    }
    match wearer.mass_kg {
        Some(kg) => why.input("body mass", format!("{kg} kg")),
        None => why,
    }
}

fn taken_or_estimated(known: Known, unit: units::LengthUnit) -> String {
    let value = said(known.value, unit);
    match known.origin {
        Origin::Taken => value,
        Origin::Estimated { .. } => format!("{value}, estimated"),
    }
}

/// The formula of a rule: what stands before its bracket.
fn rule_sum(rule: &str) -> &str {
    rule.split(" (").next().unwrap_or(rule)
}

/// Where a rule comes from: what stands in its bracket.
fn rule_source(rule: &str) -> &'static str {
    match rule
        .split_once(" (")
        .map_or("", |(_, source)| source.trim_end_matches(')'))
    {
        "survey, front share" => "ANSUR II survey (2012), public data: mean share of the front",
        "own, as women" => "our own rule: as women of the survey, for want of one of children",
        "own, no survey of children" => "our own rule; no survey of children was used",
        "women's, no survey of children" => {
            "a regression on the women of ANSUR II (2012), public data; no survey of children was used"
        }
        _ => "our own rule, from reasoning",
    }
}

/// The dimensions a rule names, in the order they are taken.
fn inputs_of(rule: &str, form: BodyForm) -> Vec<Dimension> {
    let sum = rule_sum(rule);
    let named = |words: &str| sum.contains(words);
    Dimension::ALL
        .into_iter()
        .filter(|d| match d {
            Dimension::UpperArmGirth => named("upper arm"),
            Dimension::NeckBaseGirth => named("neck base"),
            Dimension::CrotchLength => named("crotch length"),
            Dimension::UnderbustGirth => named("cup difference"),
            Dimension::BustGirth => named("cup difference") || named(d.iso_name(form)),
            // No rule rests on these two, whose names hold or meet those of others.
            Dimension::UpperChestGirth | Dimension::CrotchLengthFront => false,
            _ => named(d.iso_name(form)),
        })
        .collect()
}

fn second_reading(worked: &Worked, dimension: Dimension) -> Option<Why> {
    let (wearer, second) = worked.parts.as_ref()?.wearer.as_ref()?;
    let (first, second) = (wearer.taken.get(dimension)?, second.get(dimension)?);
    let (unit, limit) = (worked.unit(), dimension.reading_spread());
    let (larger, smaller) = if first >= second {
        (first, second)
    } else {
        (second, first)
    };
    let source = match dimension.reading_spread().get() {
        15.0 | 25.0 => "self-measuring, data/trade/measure_errors.csv; common practice, no single source",
        _ => "our own rule: twice what a skilled measurer may be off (ISO 20685, from memory)",
    };
    Some(
        Why::of(
            format!("Why {}?", said(limit, unit)),
            format!(
                "Two readings of one {} by a careful hand lie within {}; further apart, one of them slipped.",
                short_name(dimension, wearer.form),
                said(limit, unit)
            ),
            source,
        )
        .sum(format!(
            "{} - {} = {}",
            said(larger, unit),
            said(smaller, unit),
            said(larger - smaller, unit)
        ))
        .input("first reading", said(first, unit))
        .input("second reading", said(second, unit))
        .input("most they may differ", said(limit, unit)),
    )
}

fn doubt(worked: &Worked, which: &str) -> Option<Why> {
    let (wearer, _) = worked.parts.as_ref()?.wearer.as_ref()?;
    let is_asked = |d: &Doubt| match d.measure {
        Measure::Dimension(dimension) => dimension.key() == which,
        Measure::BodyMass => which == "mass_kg",
    };
    let found = doubts(wearer).into_iter().find(is_asked)?;
    let unit = worked.unit();
    let (name, text): (&str, &dyn Fn(f64) -> String) = match found.measure {
        Measure::Dimension(d) => (short_name(d, found.form), &|v| said(Mm::new(v), unit)),
        Measure::BodyMass => ("body mass", &|v| format!("{v:.1} kg")),
    };
    Some(
        Why::of(
            format!("Why is {} {name} in doubt?", text(found.given)),
            format!(
                "Of a hundred bodies with her other dimensions, 95 have a {name} of {} to {}. Hers lies {:.1} spreads off; past {SLIP_LIMIT} a slip of the tape is likelier than such a body.",
                text(found.low),
                text(found.high),
                found.z.abs()
            ),
            "ANSUR II survey (2012), public data; the limit is ours, from its false alarms. Bodies much heavier or older than soldiers are doubted too often.",
        )
        .sum(format!(
            "(ln {} - ln {}) / spread = {:.1}",
            text(found.given),
            text(found.expected),
            found.z
        ))
        .input("taken", text(found.given))
        .input("expected", text(found.expected))
        .input("95 of 100 bodies", format!("{} to {}", text(found.low), text(found.high)))
        .input("spreads off", format!("{:.1}", found.z)),
    )
}

/// `at the waist`, or `for the back waist length`.
fn at(name: &str) -> String {
    if name.contains("length") || name.contains("height") || name == "stature" || name.contains("width") {
        format!("for the {name}")
    } else {
        format!("at the {name}")
    }
}
