//! What a style has for itself, as lines and words of the section: read from the catalogue, so that a new style needs nothing here.

use draft::{Parameter, ParameterKind, Setting, Style};
use serde_json::Value;
use units::Mm;

use super::besides::{Group, is_asked};
use super::{Shown, at_path, shown, typed_text};
use crate::suit_file::{Parts, show_length, trimmed};
use crate::view::told::sentence;
use crate::view::{Choice, ChoiceOption, Field, State, plain};

fn path_of(parameter: &Parameter) -> String {
    format!("design.{}", parameter.key)
}

/// Its words and switches: those of a group, or those no group claims.
pub(super) fn choices(document: &str, suit: &Value, parts: &Parts, group: Option<Group>) -> Vec<Choice> {
    let design = &parts.design;
    design
        .style
        .spec()
        .own
        .iter()
        .filter(|p| design.is_heard(p) && is_asked(p.key, design) && Group::of_key(p.key, design) == group)
        .filter_map(|parameter| {
            let options = options(parameter)?;
            let path = path_of(parameter);
            let value = match at_path(suit, &path) {
                Some(Value::String(word)) => word.clone(),
                Some(Value::Bool(is_on)) => is_on.to_string(),
                _ => match design.own.get(parameter) {
                    Setting::Word(word) => word.to_owned(),
                    Setting::Yes(is_on) => is_on.to_string(),
                    Setting::Length(_) | Setting::Number(_) => return None,
                },
            };
            let mut says = sentence(parameter.says);
            if let ParameterKind::Choice { options } = parameter.kind
                && let Some(word) = options.iter().find(|o| o.key == value)
                && !word.says.is_empty()
            {
                says = format!("{says} {}: {}.", word.name, word.says.trim_end_matches('.'));
            }
            Some(Choice {
                document: document.to_owned(),
                path,
                label: parameter.name.to_owned(),
                says,
                value,
                options,
            })
        })
        .collect()
}

fn options(parameter: &Parameter) -> Option<Vec<ChoiceOption>> {
    let option = |value: &str, label: &str| ChoiceOption {
        value: value.to_owned(),
        label: label.to_owned(),
    };
    match parameter.kind {
        ParameterKind::Choice { options } => Some(options.iter().map(|o| option(o.key, o.name)).collect()),
        ParameterKind::Switch { .. } => Some(vec![option("false", "No"), option("true", "Yes")]),
        ParameterKind::Length { .. } | ParameterKind::Number { .. } => None,
    }
}

/// Its numbers, likewise.
pub(super) fn fields(show: &Shown<'_>, parts: &Parts, group: Option<Group>) -> Vec<Field> {
    let unit = show.unit();
    let design = &parts.design;
    design
        .style
        .spec()
        .own
        .iter()
        .filter(|p| design.is_heard(p) && is_asked(p.key, design) && Group::of_key(p.key, design) == group)
        .filter_map(|parameter| {
            let path = path_of(parameter);
            let why = format!("design.{}", parameter.key);
            let (quantity, unit_word, allowed) = match (parameter.kind, design.own.get(parameter)) {
                (ParameterKind::Length { low, high, .. }, Setting::Length(mm)) => {
                    let limit = |mm: f64| show_length(Mm::new(mm), unit);
                    (
                        shown(mm.get(), unit).why(why),
                        unit.symbol().to_owned(),
                        format!("{} to {}", limit(low), limit(high)),
                    )
                }
                (
                    ParameterKind::Number {
                        low,
                        high,
                        unit: word,
                        ..
                    },
                    Setting::Number(number),
                ) => (
                    plain(number, 2, word, word).why(why),
                    word.to_owned(),
                    format!("{} to {} {word}", trimmed(low, 2), trimmed(high, 2))
                        .trim_end()
                        .to_owned(),
                ),
                _ => return None,
            };
            let is_refused = show.faults.iter().any(|f| f.field == path);
            Some(Field {
                document: show.suit.id.clone(),
                label: parameter.name.to_owned(),
                says: sentence(parameter.says),
                typed: at_path(&show.suit.body, &path).and_then(typed_text),
                quantity: Some(quantity),
                unit: unit_word,
                allowed,
                state: if is_refused { State::Stop } else { State::Good },
                path,
            })
        })
        .collect()
}

/// Name and word of a path and value, for the history; `None` for a path that is no style's own.
pub(super) fn words_of(path: &str, value: &str) -> Option<(String, String)> {
    let parameter = parameter_of(path)?;
    let word = options(parameter)
        .and_then(|all| all.into_iter().find(|o| o.value == value))
        .map_or_else(|| value.to_owned(), |o| o.label);
    Some((parameter.name.to_lowercase(), word.to_lowercase()))
}

/// The usual word of a path that is a style's own; `None` where styles that have it differ.
pub(super) fn usual_of(path: &str) -> Option<&'static str> {
    let key = path.strip_prefix("design.")?;
    let mut usuals = Style::all()
        .iter()
        .filter_map(|s| s.own(key))
        .map(|p| match p.usual() {
            Setting::Word(word) => Some(word),
            Setting::Yes(true) => Some("true"),
            Setting::Yes(false) => Some("false"),
            Setting::Length(_) | Setting::Number(_) => None,
        });
    let first = usuals.next()??;
    usuals.all(|u| u == Some(first)).then_some(first)
}

fn parameter_of(path: &str) -> Option<&'static Parameter> {
    let key = path.strip_prefix("design.")?;
    Style::all().iter().find_map(|s| s.own(key))
}
