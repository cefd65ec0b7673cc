//! The measuring protocol: what is worn, who is there, who agreed, and when to measure again.
//!
//! **Source.** A child measured again every three months: common practice, no single source; children of 8 grow about 6 cm
//! a year (value from memory), which is 1.5 cm of stature between two measurings.

use body::BodyForm;
use serde_json::json;

use super::{Facts, ProtocolView, form_of};
use crate::view::told::{self, note, sentence, text_at};
use crate::view::{Note, Proposal, Set, State};

/// Under this age a carer speaks for the wearer.
const OF_AGE: f64 = 18.0;
/// A child is measured again after so many months.
const AGAIN_MONTHS: u32 = 3;

/// The protocol of this wearer; `today` as `2026-11-26`, only for what is due.
pub(super) fn of(facts: &Facts<'_>, today: &str) -> ProtocolView {
    let text = |key: &str| text_at(facts.body, &format!("protocol.{key}")).unwrap_or_default();
    let consent = facts.body["protocol"]["consent"].as_bool() == Some(true);
    let mut view = ProtocolView {
        before: sentence(facts.form.before_measuring()),
        worn: text("worn"),
        present: text("present"),
        consent,
        taken_on: text("taken_on"),
        taken_by: text("taken_by"),
        carer: text("carer"),
        again_on: text("again_on"),
        is_minor: is_minor(facts.body),
        missing: vec![],
    };
    view.missing = missing(facts, &view, today);
    view
}

/// Whether the wearer of this document is a child or under 18: then a carer stands in, and no photos are kept.
pub fn is_minor(body: &serde_json::Value) -> bool {
    let age = text_at(body, "age").and_then(|age| age.parse::<f64>().ok());
    form_of(body) == BodyForm::Child || age.is_some_and(|age| age < OF_AGE)
}

fn missing(facts: &Facts<'_>, view: &ProtocolView, today: &str) -> Vec<Note> {
    let mut notes = Vec::new();
    let mut ask = |key: &str, says: &str, next: &str| {
        notes.push(note(State::Missing, "protocol", says, next).at(format!("protocol.{key}")));
    };
    if !view.consent {
        let (says, next) = if view.is_minor {
            (
                "Nobody has agreed to this record yet.",
                "Ask the carer and the child before you measure, and tick it.",
            )
        } else {
            (
                "Nobody has agreed to this record yet.",
                "Ask before you measure and before you write it down, and tick it.",
            )
        };
        ask("consent", says, next);
    }
    if view.is_minor && view.carer.is_empty() {
        ask(
            "carer",
            "The carer is not named.",
            "Write who was there and may hold the tape.",
        );
    }
    if view.taken_on.is_empty() {
        ask(
            "taken_on",
            "The day it was taken is not written down.",
            "Write the date: bodies change.",
        );
    }
    let is_child = facts.form == BodyForm::Child;
    if is_child && view.again_on.is_empty() {
        let again = months_later(&view.taken_on, AGAIN_MONTHS);
        let mut asked = match &again {
            Some(day) => note(
                State::Missing,
                "protocol",
                "A child grows: there is no day to measure again.",
                format!("Measure again on {}, three months after this.", told::day(day)),
            ),
            None => note(
                State::Missing,
                "protocol",
                "A child grows: there is no day to measure again.",
                "Write the date it was taken first; measure again three months later.",
            ),
        };
        asked.field = Some("protocol.again_on".to_owned());
        asked.try_this = again.map(|day| Proposal {
            words: format!("Note {}", told::day(&day)),
            changes: vec![Set {
                document: facts.id.to_owned(),
                path: "protocol.again_on".to_owned(),
                value: json!(day),
            }],
        });
        notes.push(asked);
    }
    // Dates of the same form stand in the order of their days.
    let is_due =
        day_of(&view.again_on).is_some() && day_of(today).is_some() && view.again_on.as_str() <= today;
    if is_due {
        notes.push(
            note(
                State::Doubtful,
                "protocol",
                format!("It was to be taken again on {}.", told::day(&view.again_on)),
                "Take at least chest, hip, trunk and height again before you cut.",
            )
            .at("protocol.again_on"),
        );
    }
    notes
}

/// Year, month and day of `2026-11-26`.
fn day_of(text: &str) -> Option<(i32, u32, u32)> {
    let mut parts = text.split('-');
    let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
    if parts.next().is_some() || year.len() != 4 || month.len() != 2 || day.len() != 2 {
        return None;
    }
    let (year, month, day) = (year.parse().ok()?, month.parse().ok()?, day.parse().ok()?);
    ((1..=12).contains(&month) && (1..=days_in(year, month)).contains(&day)).then_some((year, month, day))
}

const fn days_in(year: i32, month: u32) -> u32 {
    match month {
        2 if (year % 4 == 0 && year % 100 != 0) || year % 400 == 0 => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

/// The same day so many months on; the month's last where it has no such day.
fn months_later(text: &str, months: u32) -> Option<String> {
    let (year, month, day) = day_of(text)?;
    let all = month - 1 + months;
    let (year, month) = (year + i32::try_from(all / 12).ok()?, all % 12 + 1);
    Some(format!(
        "{year:04}-{month:02}-{:02}",
        day.min(days_in(year, month))
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_months_on_is_a_day_there_is() {
        let on = |text| months_later(text, 3);
        assert_eq!(on("2026-11-14").as_deref(), Some("2027-02-14"));
        assert_eq!(on("2026-11-30").as_deref(), Some("2027-02-28"));
        assert_eq!(on("2027-11-30").as_deref(), Some("2028-02-29"));
        assert_eq!(on("2026-01-31").as_deref(), Some("2026-04-30"));
        for bad in [
            "",
            "14 November",
            "2026-13-01",
            "2026-02-30",
            "2026-1-1",
            "2026-01-01-01",
        ] {
            assert_eq!(on(bad), None, "{bad}");
        }
    }
}
