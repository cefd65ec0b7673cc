//! The dimensions line by line: what each is, what was read, how it stands, and which to take now.

use body::{BodyForm, Dimension, Doubt, Known, Measure, Need, Origin, TakenAlone, doubts};
use serde_json::json;
use units::{Finding, Mm};

use super::{DimensionView, Facts};
use crate::document::readings;
use crate::order::{is_idle, is_idle_style};
use crate::suit_file::FaultKind;
use crate::view::told::{self, capital, count, list, note, said, sentence};
use crate::view::{Note, Proposal, Quantity, Set, State, length};

/// Need of a dimension the suit has no use for.
pub(super) const NOT_USED: &str = "not used";

/// All dimensions this body may have: those in use in the order they are taken, then the others.
pub(super) fn lines(facts: &Facts<'_>) -> Vec<DimensionView> {
    let doubts = all_doubts(facts);
    let mut lines: Vec<DimensionView> = Dimension::ALL
        .into_iter()
        .map(|dimension| line(facts, dimension, &doubts))
        .collect();
    // The sort is stable: within each half the order of taking stays.
    lines.sort_by_key(|l| l.need == NOT_USED);
    lines
}

/// The dimension to take now: what is refused or in doubt first, then a second reading that is wanted, then what is needed
/// and missing, then what is asked.
pub(super) fn now(lines: &[DimensionView]) -> Option<String> {
    let first = |wanted: &dyn Fn(&DimensionView) -> bool| lines.iter().find(|l| wanted(l));
    let used = |l: &DimensionView| l.need != NOT_USED;
    first(&|l| l.state == State::Stop)
        .or_else(|| first(&|l| used(l) && l.state == State::Doubtful))
        // The tape is still in her hand.
        .or_else(|| first(&|l| used(l) && l.wants_second && l.readings.len() == 1))
        .or_else(|| first(&|l| l.need == "needed" && l.readings.is_empty()))
        .or_else(|| first(&|l| l.need == "asked" && l.readings.is_empty()))
        .map(|l| l.key.clone())
}

/// The margin notes of the section.
pub(super) fn head_notes(facts: &Facts<'_>, lines: &[DimensionView]) -> Vec<Note> {
    let mut notes = Vec::new();
    for (fault, path) in told::faults_of(facts.worked, "wearer") {
        let is_a_needed_one = fault.kind == FaultKind::MissingKey
            && path
                .strip_prefix("dimensions.")
                .is_some_and(|key| !key.contains('.'));
        // Missing dimensions are told together below.
        if !is_a_needed_one && path != "dimensions" {
            notes.push(told::fault(fault, &path, Some(facts.form)));
        }
    }
    let missing: Vec<&DimensionView> = lines
        .iter()
        .filter(|l| l.state == State::Missing && l.need != NOT_USED)
        .collect();
    if let Some(first) = missing.first() {
        let names: Vec<String> = missing.iter().map(|l| l.name.clone()).collect();
        let says = format!("{}: not taken.", capital(&list(&names)));
        let next = format!("Take {} first.", first.name);
        let next = if missing.len() == 1 {
            sentence(&first.how)
        } else {
            next
        };
        notes.push(note(State::Missing, &first.name, says, next).at(format!("dimensions.{}", first.key)));
    }
    for line in lines.iter().filter(|l| l.need != NOT_USED) {
        let doubtful = line.notes.iter().filter(|n| n.state == State::Doubtful);
        notes.extend(doubtful.cloned());
    }
    notes.extend(of_the_person(facts));
    let asked: Vec<String> = lines
        .iter()
        .filter(|l| l.state == State::Estimate && l.need == "asked")
        .map(|l| l.name.clone())
        .collect();
    if !asked.is_empty() {
        let says = format!("{}: estimated.", capital(&list(&asked)));
        let next = "The suit can be drawn by that. Take them before you cut good cloth.";
        notes.push(note(State::Estimate, "", says, next));
    }
    if notes.is_empty() {
        notes.push(note(State::Good, "", agreement(facts), ""));
    }
    notes
}

/// What can be said for a set of dimensions without a doubt.
fn agreement(facts: &Facts<'_>) -> String {
    let second = facts.worked.parts.as_ref().and_then(|p| p.wearer.as_ref());
    let twice = second.map_or(0, |(_, second)| second.iter().count());
    match (facts.form, twice) {
        (BodyForm::Child, _) => "Every dimension is one a child may have.".to_owned(),
        (_, 0) => "Nothing taken contradicts the rest.".to_owned(),
        (_, n) => format!(
            "Nothing taken contradicts the rest. {} read twice, and they agree.",
            capital(&count(n))
        ),
    }
}

/// Doubts about the body that belong to no line.
fn of_the_person(facts: &Facts<'_>) -> Vec<Note> {
    let mass = all_doubts(facts)
        .into_iter()
        .filter(|d| d.measure == Measure::BodyMass)
        .map(|d| doubt_note(facts, &d).at("mass_kg"));
    let found = facts.worked.body.iter().flat_map(|(_, findings)| findings);
    let age = found
        .clone()
        .filter(|f| f.code == "body.age")
        .map(|f| told::finding(f).at("age"));
    let child = found.filter(|f| f.code == "body.child_navel").map(told::finding);
    let trunk = facts.worked.order.iter().flat_map(|o| &o.draft.findings);
    let trunk = trunk
        .filter(|f| f.code.starts_with("trunk.") && f.severity != units::Severity::Good)
        .map(|f| told::finding(f).at("dimensions.trunk_circumference"));
    mass.chain(age).chain(child).chain(trunk).collect()
}

fn all_doubts(facts: &Facts<'_>) -> Vec<Doubt> {
    let parts = facts.worked.parts.as_ref();
    parts
        .and_then(|p| p.wearer.as_ref())
        .map(|(wearer, _)| doubts(wearer))
        .unwrap_or_default()
}

/// Whether the maker said of this dimension that it is right as it stands.
fn is_settled(facts: &Facts<'_>, dimension: Dimension) -> bool {
    facts.body["dimensions"][dimension.key()]["settled"].as_bool() == Some(true)
}

/// Whether the suit's style has no use for the dimension.
fn is_not_used(facts: &Facts<'_>, dimension: Dimension) -> bool {
    let is_idle = match (&facts.worked.file, &facts.worked.parts) {
        (Some(file), _) => is_idle(file, dimension),
        (None, Some(parts)) => is_idle_style(parts.design.style, dimension),
        (None, None) => false,
    };
    is_idle || dimension.need(facts.form) == Need::NotUsed
}

/// What a dimension is called in a sentence: `waist`, `trunk circumference`.
pub(in crate::view) fn short_name(dimension: Dimension, form: BodyForm) -> &'static str {
    let name = dimension.iso_name(form);
    match dimension {
        Dimension::UpperChestGirth => "chest at the armpit",
        _ => name.strip_suffix(" girth").unwrap_or(name),
    }
}

fn line(facts: &Facts<'_>, dimension: Dimension, doubts: &[Doubt]) -> DimensionView {
    let (key, form, unit) = (dimension.key(), facts.form, facts.unit);
    let texts: Vec<String> = readings(facts.body, key)
        .into_iter()
        .map(|reading| match reading {
            serde_json::Value::String(text) => text.clone(),
            other => other.to_string(),
        })
        .collect();
    let read: Vec<(Mm, Quantity)> = texts.iter().filter_map(|t| told::typed(t, unit)).collect();
    let parts = facts.worked.parts.as_ref().and_then(|p| p.wearer.as_ref());
    let taken = parts.and_then(|(wearer, _)| wearer.taken.get(dimension));
    let known = facts
        .worked
        .body
        .as_ref()
        .and_then(|(body, _)| body.get(dimension));
    let value = match (taken.or(read.first().map(|r| r.0)), known) {
        (Some(mm), _) => Some(length(mm, unit)),
        (None, Some(known)) => Some(length(known.value, unit).why(format!("dimension.{key}"))),
        (None, None) => None,
    };
    let not_used = is_not_used(facts, dimension);
    let need = if not_used {
        NOT_USED
    } else {
        need_word(dimension.need(form))
    };
    let settled = is_settled(facts, dimension);
    let mut notes = fault_notes(facts, dimension);
    if !settled {
        notes.extend(second_note(facts, dimension, texts.len()));
    }
    let contradicted = doubts.iter().find(|d| d.measure == Measure::Dimension(dimension));
    match contradicted {
        Some(doubt) if settled => notes.push(kept_note(facts, doubt)),
        Some(doubt) => notes.push(doubt_note(facts, doubt)),
        None => {}
    }
    notes.extend(pair_notes(facts, dimension, settled));
    notes.extend(known.and_then(|known| estimate_note(facts, dimension, known)));
    for note in &mut notes {
        note.field = Some(format!("dimensions.{key}"));
    }
    notes.sort_by_key(|n| n.state);
    let is_open = texts.is_empty() && !not_used;
    let state = match notes.first().map(|n| n.state) {
        Some(worst @ (State::Stop | State::Doubtful | State::Missing)) => worst,
        _ if !is_open => State::Good,
        _ => match (dimension.need(form), known) {
            (Need::Required, _) | (Need::Asked, None) => State::Missing,
            (Need::Asked, Some(_)) | (Need::Estimable, _) => State::Estimate,
            (Need::CrossCheck | Need::NotUsed, _) => State::Good,
        },
    };
    DimensionView {
        key: key.to_owned(),
        name: dimension.iso_name(form).to_owned(),
        definition: sentence(dimension.definition()),
        how: sentence(dimension.how_to_take()),
        alone: alone(dimension.taken_alone()).to_owned(),
        need: need.to_owned(),
        value,
        wants_second: dimension.wants_second_reading() && texts.len() < 2 && !settled && !not_used,
        read: read.into_iter().map(|(_, quantity)| quantity).collect(),
        readings: texts,
        state,
        notes,
    }
}

const fn need_word(need: Need) -> &'static str {
    match need {
        Need::Required => "needed",
        Need::Asked => "asked",
        Need::Estimable => "estimated",
        Need::CrossCheck => "checks others",
        Need::NotUsed => NOT_USED,
    }
}

const fn alone(alone: TakenAlone) -> &'static str {
    match alone {
        TakenAlone::Alone => "You can take it alone.",
        TakenAlone::WithMirror => "Alone: stand before a mirror. A helper does better.",
        TakenAlone::NeedsHelper => "Somebody must help: you can't hold the tape and stand straight.",
    }
}

fn fault_notes(facts: &Facts<'_>, dimension: Dimension) -> Vec<Note> {
    let own = format!("dimensions.{}", dimension.key());
    told::faults_of(facts.worked, "wearer")
        .into_iter()
        .filter(|(_, path)| *path == own || path.starts_with(&format!("{own}.")))
        .map(|(fault, path)| {
            let mut note = told::fault(fault, &path, Some(facts.form));
            if fault.kind == FaultKind::MissingKey {
                note.says = format!("{}: not taken.", capital(dimension.iso_name(facts.form)));
                note.next = sentence(dimension.how_to_take());
            }
            note
        })
        .collect()
}

/// `Waist: 2.8 cm between readings. A tape rarely differs by more than 1.5 cm.`
fn second_note(facts: &Facts<'_>, dimension: Dimension, taken: usize) -> Option<Note> {
    let (wearer, second) = facts.worked.parts.as_ref()?.wearer.as_ref()?;
    let (first, second) = (wearer.taken.get(dimension)?, second.get(dimension)?);
    body::second_reading(dimension, facts.form, first, second)?;
    let name = short_name(dimension, facts.form);
    let says = format!(
        "{}: {} between readings. A tape rarely differs by more than {}.",
        capital(name),
        said((first - second).abs(), facts.unit),
        said(dimension.reading_spread(), facts.unit),
    );
    let next = match taken {
        2 => "Take it a third time: the nearer two are kept.",
        _ => "Three readings, and no two agree. Tie the elastic anew and take it again, twice.",
    };
    Some(note(State::Doubtful, name, says, next).asked(format!("second_reading.{}", dimension.key())))
}

/// A value of what was doubted, in her unit.
fn value_text(facts: &Facts<'_>, doubt: &Doubt, value: f64) -> String {
    match doubt.measure {
        Measure::Dimension(_) => said(Mm::new(value), facts.unit),
        Measure::BodyMass => format!("{value:.1} kg"),
    }
}

fn doubt_note(facts: &Facts<'_>, doubt: &Doubt) -> Note {
    let text = |value: f64| value_text(facts, doubt, value);
    let (name, key, how) = match doubt.measure {
        Measure::Dimension(d) => (short_name(d, facts.form), d.key(), d.how_to_take()),
        Measure::BodyMass => ("body mass", "mass_kg", "weigh again"),
    };
    let mut says = format!(
        "{}: {} does not go with the rest, which expect {} to {}.",
        capital(name),
        text(doubt.given),
        text(doubt.low),
        text(doubt.high)
    );
    let slip = slip_words(doubt.slip);
    let mended = doubt.without_slip.map(text);
    match (&slip, &mended) {
        (Some(slip), Some(mended)) => says += &format!(" Perhaps {slip}: {mended}."),
        (Some(slip), None) => says += &format!(" Perhaps {slip}."),
        _ => {}
    }
    let mut note = note(
        State::Doubtful,
        name,
        says,
        format!("Take it again. {}", sentence(how)),
    )
    .asked(format!("doubt.{key}"));
    if let (Measure::Dimension(_), Some(value)) = (doubt.measure, mended) {
        // The text must read back as it stands, so no fraction signs: the page's own reader takes them, the engine too.
        note.try_this = Some(Proposal {
            words: format!("Try {value}"),
            changes: vec![Set {
                document: facts.id.to_owned(),
                path: format!("dimensions.{key}"),
                value: json!({ "readings": [value] }),
            }],
        });
    }
    note
}

fn slip_words(slip: body::Slip) -> Option<&'static str> {
    Some(match slip {
        body::Slip::InchesAsCentimetres => "inches were written as centimetres",
        body::Slip::CentimetresAsInches => "centimetres were written as inches",
        body::Slip::PoundsAsKilograms => "pounds were written as kilograms",
        body::Slip::KilogramsAsPounds => "kilograms were written as pounds",
        body::Slip::DigitsSwapped => "two digits were swapped",
        body::Slip::TensDigit => "the tens were misread",
        body::Slip::WrongPlace => "the tape lay in the wrong place",
    })
}

/// What is said of a doubt she has looked at.
fn kept_note(facts: &Facts<'_>, doubt: &Doubt) -> Note {
    let says = format!(
        "You kept {}. The rest expect {} to {}.",
        value_text(facts, doubt, doubt.given),
        value_text(facts, doubt, doubt.low),
        value_text(facts, doubt, doubt.high)
    );
    let mut kept = note(State::Good, "", says, "");
    if let Measure::Dimension(d) = doubt.measure {
        kept.place = short_name(d, facts.form).to_owned();
        kept.why = Some(format!("doubt.{}", d.key()));
    }
    kept
}

/// Pairs that are unusual together, and estimates that had to be held.
fn pair_notes(facts: &Facts<'_>, dimension: Dimension, settled: bool) -> Vec<Note> {
    const TOLD_ELSEWHERE: [&str; 3] = ["body.estimated", "body.age", "body.child_navel"];
    let of_this = |f: &&Finding| {
        f.place == dimension.iso_name(facts.form) && !TOLD_ELSEWHERE.contains(&f.code) && !settled
    };
    let found = facts.worked.body.iter().flat_map(|(_, findings)| findings);
    found
        .filter(of_this)
        .map(|f| {
            let mut note = told::finding(f);
            note.place = short_name(dimension, facts.form).to_owned();
            note.says = format!("{}: {}", capital(&note.place), sentence(&f.message));
            note
        })
        .collect()
}

fn estimate_note(facts: &Facts<'_>, dimension: Dimension, known: Known) -> Option<Note> {
    let Origin::Estimated { se, .. } = known.origin else {
        return None;
    };
    let value = said(known.value, facts.unit);
    let says = match se {
        Some(se) => format!(
            "Estimated {value}. Two bodies in three lie within {} of it.",
            said(se, facts.unit)
        ),
        None => format!("Estimated {value}, by a plain rule: how far off it may be is not known."),
    };
    let name = short_name(dimension, facts.form);
    Some(
        note(State::Estimate, name, says, "Take it if you can.")
            .asked(format!("dimension.{}", dimension.key())),
    )
}
