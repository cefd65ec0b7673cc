//! Faults and findings of the engine as pencil notes: whole sentences to the maker, without the words of the suit file.
//!
//! The engine speaks to the writer of a file ("wearer.age is missing", "write age = 8"). On a page there is no file, so a
//! path becomes the name of its line and advice on how to write a key is left out.

use body::{BodyForm, Dimension};
use units::{Finding, LengthUnit, Mm, Severity};

use super::{Choice, ChoiceOption, Note, Quantity, State, length};
use crate::document::{Worked, home_of};
use crate::suit_file::{Fault, FaultKind};

/// A text as one sentence or more: first letter large, a full stop at the end, semicolons as new sentences.
pub(crate) fn sentence(text: &str) -> String {
    let parts: Vec<String> = text
        .split(';')
        .map(str::trim)
        .filter(|part| !part.is_empty())
        .map(|part| {
            let part = capital(part);
            if part.ends_with(['.', '!', '?']) {
                part
            } else {
                part + "."
            }
        })
        .collect();
    parts.join(" ")
}

/// The text with its first letter large.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}

/// A count in words up to twelve, in figures beyond.
pub(super) fn count(n: usize) -> String {
    const WORDS: [&str; 13] = [
        "none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
        "twelve",
    ];
    WORDS.get(n).map_or_else(|| n.to_string(), |w| (*w).to_owned())
}

/// Names joined as they are said: `bust, waist and hip`.
pub(crate) fn list(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

/// A date as people read it: `2026-11-19`, with or without a time, as `19 November 2026`; any other text as it stands.
pub(super) fn day(date: &str) -> String {
    const MONTHS: [&str; 12] = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
    let day = date.split('T').next().unwrap_or(date);
    let mut parts = day.splitn(3, '-');
    let mut next = || parts.next().and_then(|p| p.parse::<usize>().ok());
    match (next(), next(), next()) {
        (Some(year), Some(month), Some(day)) if (1..=31).contains(&day) => month
            .checked_sub(1)
            .and_then(|m| MONTHS.get(m))
            .map_or_else(|| date.to_owned(), |m| format!("{day} {m} {year}")),
        _ => date.to_owned(),
    }
}

/// A length with its unit, as it stands in a sentence: `73.0 cm`.
pub(super) fn said(mm: Mm, unit: LengthUnit) -> String {
    length(mm, unit).text()
}

/// A plain note.
pub(super) fn note(state: State, place: &str, says: impl Into<String>, next: impl Into<String>) -> Note {
    Note {
        state,
        place: place.to_owned(),
        says: says.into(),
        next: next.into(),
        field: None,
        why: None,
        try_this: None,
    }
}

impl Note {
    /// The same, about this field.
    pub(super) fn at(mut self, field: impl Into<String>) -> Note {
        self.field = Some(field.into());
        self
    }

    /// The same, to be asked why under this key.
    pub(super) fn asked(mut self, key: impl Into<String>) -> Note {
        self.why = Some(key.into());
        self
    }
}

/// State of a severity.
pub(super) const fn state_of(severity: Severity) -> State {
    match severity {
        Severity::Good => State::Good,
        Severity::Watch => State::Doubtful,
        Severity::Stop => State::Stop,
    }
}

/// A finding as a note.
pub(super) fn finding(found: &Finding) -> Note {
    note(
        state_of(found.severity),
        &found.place,
        sentence(&found.message),
        sentence(&without_keys(&found.remedy)),
    )
}

/// The text without what it says of a file's section and keys: `a zip, [design.closure] with kind = "zip"; or` is `a zip; or`.
fn without_keys(text: &str) -> String {
    let parts = text.split(';').map(|part| match part.find(", [") {
        Some(at) => &part[..at],
        None => part,
    });
    let text = parts.collect::<Vec<_>>().join(";");
    text.replace(" = ", " to ").replace('_', " ")
}

/// The faults at home in the document of this role (see [`home_of`]), each with its path there.
pub(super) fn faults_of<'a>(worked: &'a Worked, role: &'static str) -> Vec<(&'a Fault, String)> {
    worked
        .faults
        .iter()
        .filter_map(|fault| {
            let (home, path) = home_of(&fault.field, worked.elastic.is_some());
            (home == role && !fault.field.is_empty()).then_some((fault, path))
        })
        .collect()
}

/// Whether something is only not there yet. A lined suit without a lining cloth is told as a conflict of two keys in a file;
/// on a page it is a cloth still to be chosen.
pub(super) fn is_missing(fault: &Fault) -> bool {
    fault.kind == FaultKind::MissingKey
        || (fault.kind == FaultKind::Conflict && fault.field == "design.lining")
}

/// A fault as a note on its field.
pub(super) fn fault(fault: &Fault, path: &str, form: Option<BodyForm>) -> Note {
    let state = if is_missing(fault) {
        State::Missing
    } else {
        State::Stop
    };
    let name = field_name(path, form);
    let message = fault.message.replace(&fault.field, &name);
    let message = message
        .replace("[wearer.right]", "the right side")
        .replace(['[', ']'], "");
    let is_for_a_file = |help: &str| help.contains(['`', '=', '[', '"', '{']);
    let next = match fault.kind {
        FaultKind::NotALength => sentence(&fault.help.replace('`', "")),
        _ if !fault.allowed.is_empty() => format!("Give {}.", fault.allowed.join(", ")),
        FaultKind::MissingKey if is_for_a_file(&fault.help) => "Fill it in.".to_owned(),
        _ if is_for_a_file(&fault.help) => String::new(),
        _ => sentence(&fault.help),
    };
    note(state, &name, sentence(&message), next).at(path)
}

/// What a line of a document is called.
pub(super) fn field_name(path: &str, form: Option<BodyForm>) -> String {
    let form = form.unwrap_or(BodyForm::Woman);
    let last = |n: usize| path.rsplit('.').nth(n).unwrap_or_default();
    if let Some(dimension) = path.split('.').find_map(Dimension::from_key) {
        return dimension.iso_name(form).to_owned();
    }
    match (last(1), last(0)) {
        (direction, "rest") => format!("{direction} at rest"),
        (direction, "pulled") => format!("{direction} pulled"),
        (direction, "back_to") => format!("{direction} after a minute"),
        ("shrinkage", direction) => format!("shrinkage {direction}"),
        (_, "along") => "pull along".to_owned(),
        (_, "across") => "pull across".to_owned(),
        (_, "around") => "pull around".to_owned(),
        (_, "lengthwise") => "pull lengthwise".to_owned(),
        (_, "gsm") => "weight".to_owned(),
        (_, "mass_kg") => "body mass".to_owned(),
        (_, "force") => "force at double length".to_owned(),
        (_, key) => key.replace('_', " "),
    }
}

/// A quantity out of a text she typed; `None` when it is no length.
pub(super) fn typed(text: &str, unit: LengthUnit) -> Option<(Mm, Quantity)> {
    let mm = units::parse_length(text, unit).ok()?;
    Some((mm, length(mm, unit)))
}

/// A choice at a path of a document; `usual` is in force while nothing is said.
pub(super) fn choice_at(
    (id, body): (&str, &serde_json::Value),
    path: &str,
    (label, says): (&str, &str),
    usual: &str,
    options: &[(&str, &str)],
) -> Choice {
    Choice {
        document: id.to_owned(),
        path: path.to_owned(),
        label: label.to_owned(),
        says: says.to_owned(),
        value: text_at(body, path).unwrap_or_else(|| usual.to_owned()),
        options: options
            .iter()
            .map(|(value, label)| ChoiceOption {
                value: (*value).to_owned(),
                label: (*label).to_owned(),
            })
            .collect(),
    }
}

/// What a document holds at a dotted path, as text: numbers as they print, nothing for null or an empty text.
pub(super) fn text_at(body: &serde_json::Value, path: &str) -> Option<String> {
    let found = path.split('.').try_fold(body, |at, key| at.get(key))?;
    let text = match found {
        serde_json::Value::String(text) => text.trim().to_owned(),
        serde_json::Value::Number(n) => n.to_string(),
        serde_json::Value::Bool(b) => b.to_string(),
        _ => return None,
    };
    (!text.is_empty()).then_some(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_of_a_file_reads_as_a_sentence_on_a_page() {
        let missing = Fault {
            kind: FaultKind::MissingKey,
            field: "wearer.age".into(),
            message: "wearer.age is missing".into(),
            label: String::new(),
            allowed: vec![],
            help: "a child's estimates and cautions go by age: age = 8".into(),
            at: None,
        };
        let note = fault(&missing, "age", None);
        assert_eq!(
            (note.says.as_str(), note.next.as_str()),
            ("Age is missing.", "Fill it in.")
        );
        assert_eq!((note.state, note.field.as_deref()), (State::Missing, Some("age")));
    }

    #[test]
    fn a_remedy_names_no_section_of_a_file() {
        let file = "put in a closure: a zip, [design.closure] with kind = \"zip\"; or choose a softer cloth";
        assert_eq!(
            without_keys(file),
            "put in a closure: a zip; or choose a softer cloth"
        );
        assert_eq!(without_keys("take it again; level"), "take it again; level");
        assert_eq!(
            without_keys("set bust_shaping = \"princess\""),
            "set bust shaping to \"princess\""
        );
    }

    #[test]
    fn names_and_counts_are_said() {
        assert_eq!(sentence("take it again; level"), "Take it again. Level.");
        assert_eq!(count(1), "one");
        assert_eq!(count(21), "21");
        let names = ["bust", "waist", "hip"].map(str::to_owned);
        assert_eq!(list(&names), "bust, waist and hip");
        assert_eq!(field_name("across.back_to", None), "across after a minute");
        assert_eq!(
            field_name("dimensions.bust_girth", Some(BodyForm::Man)),
            "chest girth"
        );
    }

    #[test]
    fn dates_are_said() {
        assert_eq!(day("2026-11-19T10:00:00Z"), "19 November 2026");
        assert_eq!(day("2026-11-04"), "4 November 2026");
        assert_eq!(day("last week"), "last week");
        assert_eq!(day("2026-13-01"), "2026-13-01");
    }
}
