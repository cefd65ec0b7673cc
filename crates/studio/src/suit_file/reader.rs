//! Reads typed values out of a parsed TOML table, remembering every place and collecting every fault.
//!
//! The table is walked by hand rather than through serde, because serde stops at the first fault and a maker should hear
//! of all of them; and because each value's span is kept, so that what the draft refuses later can be underlined too.
//!
//! **Shapes and units.** Lengths come out in millimetres; bare numbers are in the file's unit.
//! **Limits.** Arrays of tables have no use in a suit file and are refused as a wrong type; a workroom file walks its own.

use std::collections::BTreeMap;

use toml::Spanned;
use toml::de::{DeTable, DeValue};
use units::{LengthUnit, Mm, parse_length};

use super::fault::{Fault, FaultKind, Span};
use super::show::{show_length, trimmed};

/// A value and where it stands in the file.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Spot<T> {
    pub(crate) value: T,
    pub(crate) at: Span,
}

/// Where each key of the file stands, by dotted path.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Places {
    values: BTreeMap<String, Span>,
}

impl Places {
    /// The place of the path's value, or of the nearest section around it that is in the file.
    pub(crate) fn of(&self, path: &str) -> Option<Span> {
        let mut path = path;
        loop {
            if let Some(span) = self.values.get(path) {
                return Some(span.clone());
            }
            path = &path[..path.rfind('.')?];
        }
    }

    /// Whether the file has the key itself.
    pub(crate) fn has(&self, path: &str) -> bool {
        self.values.contains_key(path)
    }

    fn put(&mut self, path: String, at: Span) {
        self.values.insert(path, at);
    }
}

/// A table of the file under its dotted path.
pub(crate) struct Section<'t, 'i> {
    path: String,
    table: &'t DeTable<'i>,
    pub(crate) at: Span,
}

impl Section<'_, '_> {
    /// The dotted path of a key of this section.
    pub(crate) fn path_of(&self, key: &str) -> String {
        if self.path.is_empty() {
            key.to_owned()
        } else {
            format!("{}.{key}", self.path)
        }
    }

    pub(crate) fn has(&self, key: &str) -> bool {
        self.table.contains_key(key)
    }

    /// The text at a key of a section below this one, before that is read.
    pub(crate) fn text_below(&self, section: &str, key: &str) -> Option<&str> {
        self.below(section)?.get(key)?.get_ref().as_str()
    }

    /// Whether a section below this one has a key.
    pub(crate) fn has_below(&self, section: &str, key: &str) -> bool {
        self.below(section).is_some_and(|table| table.contains_key(key))
    }

    fn below(&self, section: &str) -> Option<&DeTable<'_>> {
        self.table.get(section)?.get_ref().as_table()
    }

    fn name(&self) -> String {
        if self.path.is_empty() {
            "the top of the file".to_owned()
        } else {
            format!("[{}]", self.path)
        }
    }
}

/// A range of lengths and why it is what it is.
#[derive(Clone, Copy, Debug)]
pub(crate) struct LengthRange {
    pub(crate) low: Mm,
    pub(crate) high: Mm,
    /// What to do when outside, one phrase.
    pub(crate) help: &'static str,
}

/// A range of plain numbers.
#[derive(Clone, Copy, Debug)]
pub(crate) struct NumberRange {
    pub(crate) low: f64,
    pub(crate) high: f64,
    /// Written after the number: `%`, `kg`, or empty.
    pub(crate) unit: &'static str,
    pub(crate) help: &'static str,
}

/// The pass over one file.
pub(crate) struct Reader<'a> {
    text: &'a str,
    pub(crate) unit: LengthUnit,
    pub(crate) faults: Vec<Fault>,
    pub(crate) places: Places,
}

/// Longer names run out of every label on paper.
const LONGEST_NAME: usize = 120;
/// How many allowed keys a message lists before it points to the reference instead.
const LISTED_KEYS: usize = 40;
/// A key is offered as "did you mean" from this Jaro-Winkler likeness on: catches a swapped, missing or doubled letter and
/// a wrong ending; lower, and unrelated short keys are offered.
const LIKENESS: f64 = 0.80;

impl<'a> Reader<'a> {
    pub(crate) fn new(text: &'a str) -> Reader<'a> {
        Reader {
            text,
            unit: LengthUnit::default(),
            faults: Vec::new(),
            places: Places::default(),
        }
    }

    /// The whole file as a section; complains of unknown keys.
    pub(crate) fn root<'t, 'i>(&mut self, table: &'t DeTable<'i>, allowed: &[&str]) -> Section<'t, 'i> {
        let section = Section {
            path: String::new(),
            table,
            at: 0..0,
        };
        self.check_keys(&section, allowed);
        section
    }

    /// A sub-table, if the key is there; complains of a value that is no table and of unknown keys in it.
    pub(crate) fn table<'t, 'i>(
        &mut self,
        parent: &Section<'t, 'i>,
        key: &str,
        allowed: &[&str],
    ) -> Option<Section<'t, 'i>> {
        let value = parent.table.get(key)?;
        let path = parent.path_of(key);
        self.places.put(path.clone(), value.span());
        let Some(table) = value.get_ref().as_table() else {
            self.wrong_type(
                &path,
                value,
                "a section",
                &format!("write [{path}] on a line of its own, its keys below"),
            );
            return None;
        };
        let section = Section {
            path,
            table,
            at: value.span(),
        };
        self.check_keys(&section, allowed);
        Some(section)
    }

    /// An item of a list as a section; complains of an item that is no table and of unknown keys in it.
    pub(crate) fn item<'t, 'i>(
        &mut self,
        path: &str,
        value: &'t Spanned<DeValue<'i>>,
        allowed: &[&str],
        help: &str,
    ) -> Option<Section<'t, 'i>> {
        let Some(table) = value.get_ref().as_table() else {
            self.wrong_type(path, value, "a section in braces", help);
            return None;
        };
        self.places.put(path.to_owned(), value.span());
        let section = Section {
            path: path.to_owned(),
            table,
            at: value.span(),
        };
        self.check_keys(&section, allowed);
        Some(section)
    }

    /// A text of one line that is not empty, as it can be printed on paper and screen.
    pub(crate) fn text(&mut self, section: &Section<'_, '_>, key: &str) -> Option<Spot<String>> {
        let text = self.long_text(section, key)?;
        let trouble = if text.value.chars().any(char::is_control) {
            "holds a line break or another control character"
        } else if text.value.chars().count() > LONGEST_NAME {
            "is longer than 120 characters"
        } else {
            return Some(text);
        };
        let path = section.path_of(key);
        self.fault(Fault {
            kind: FaultKind::NotAllowed,
            message: format!("{path} {trouble}"),
            label: "one short line wanted".into(),
            allowed: Vec::new(),
            help: "write it in one line; longer remarks go behind a #".into(),
            field: path,
            at: Some(text.at),
        });
        None
    }

    /// A text of any length that is not empty.
    pub(crate) fn long_text(&mut self, section: &Section<'_, '_>, key: &str) -> Option<Spot<String>> {
        let (path, value) = self.value(section, key)?;
        let Some(text) = value.get_ref().as_str() else {
            self.wrong_type(
                &path,
                value,
                "a text",
                &format!("put it in quotes: {key} = \"...\""),
            );
            return None;
        };
        let text = text.trim();
        if text.is_empty() {
            self.fault(Fault {
                kind: FaultKind::MissingKey,
                message: format!("{path} is empty"),
                label: "nothing here".into(),
                allowed: Vec::new(),
                help: "write a few words between the quotes, or leave the key out".into(),
                field: path,
                at: Some(value.span()),
            });
            return None;
        }
        Some(Spot {
            value: text.to_owned(),
            at: value.span(),
        })
    }

    /// `true` or `false`.
    pub(crate) fn flag(&mut self, section: &Section<'_, '_>, key: &str) -> Option<Spot<bool>> {
        let (path, value) = self.value(section, key)?;
        let Some(flag) = value.get_ref().as_bool() else {
            self.wrong_type(
                &path,
                value,
                "true or false",
                &format!("write {key} = true or {key} = false"),
            );
            return None;
        };
        Some(Spot {
            value: flag,
            at: value.span(),
        })
    }

    /// One of a list of words.
    pub(crate) fn choice<T: Copy>(
        &mut self,
        section: &Section<'_, '_>,
        key: &str,
        words: &[(&str, T)],
    ) -> Option<Spot<T>> {
        let (path, value) = self.value(section, key)?;
        let allowed: Vec<String> = words.iter().map(|(w, _)| format!("\"{w}\"")).collect();
        let Some(text) = value.get_ref().as_str() else {
            self.wrong_type(
                &path,
                value,
                "a word in quotes",
                &format!("write one of {}", allowed.join(", ")),
            );
            return None;
        };
        if let Some((_, found)) = words.iter().find(|(w, _)| *w == text) {
            return Some(Spot {
                value: *found,
                at: value.span(),
            });
        }
        let close = closest(text, words.iter().map(|(w, _)| *w));
        self.fault(Fault {
            kind: FaultKind::NotAllowed,
            message: format!("{path} does not know \"{}\"", shortened(text)),
            label: "not a choice here".into(),
            allowed,
            help: match close {
                Some(word) => format!("did you mean \"{word}\"?"),
                None => "write one of the words allowed".into(),
            },
            field: path,
            at: Some(value.span()),
        });
        None
    }

    /// A plain number within `range`.
    pub(crate) fn number(
        &mut self,
        section: &Section<'_, '_>,
        key: &str,
        range: NumberRange,
    ) -> Option<Spot<f64>> {
        let (path, value) = self.value(section, key)?;
        let NumberRange {
            low,
            high,
            unit,
            help,
        } = range;
        let number = self.as_number(&path, value, "a number")?;
        if (low..=high).contains(&number) {
            return Some(Spot {
                value: number,
                at: value.span(),
            });
        }
        let unit = if unit.is_empty() {
            String::new()
        } else {
            format!(" {unit}")
        };
        let shown = if number.abs() < 1e6 {
            trimmed(number, 3)
        } else {
            format!("{number:e}")
        };
        self.fault(Fault {
            kind: FaultKind::OutOfRange,
            message: format!("{path} is {shown}{unit}"),
            label: "out of range".into(),
            allowed: vec![format!("{} to {}{unit}", trimmed(low, 3), trimmed(high, 3))],
            help: help.into(),
            field: path,
            at: Some(value.span()),
        });
        None
    }

    /// A length within `range`: a bare number in the file's unit, or a text with its unit.
    pub(crate) fn length(
        &mut self,
        section: &Section<'_, '_>,
        key: &str,
        range: LengthRange,
    ) -> Option<Spot<Mm>> {
        let (path, value) = self.value(section, key)?;
        let length = self.as_length(&path, value)?;
        self.in_range(&path, length, range)
    }

    /// Checks a length already read against a range, with the unit slip named when one explains it.
    pub(crate) fn in_range(&mut self, path: &str, length: Spot<Mm>, range: LengthRange) -> Option<Spot<Mm>> {
        let LengthRange { low, high, help } = range;
        if (low.get()..=high.get()).contains(&length.value.get()) {
            return Some(length);
        }
        let shown = show_length(length.value, self.unit);
        let negative = length.value.get() < 0.0 && low.get() >= 0.0;
        let slip = self.unit_slip(&length, range);
        self.fault(Fault {
            kind: FaultKind::OutOfRange,
            field: path.to_owned(),
            message: if negative {
                format!("{path} is negative: {shown}")
            } else {
                format!("{path} is {shown}")
            },
            label: if negative {
                "less than nothing".into()
            } else if length.value < low {
                "too small".into()
            } else {
                "too large".into()
            },
            allowed: vec![format!(
                "{} to {}",
                show_length(low, self.unit),
                show_length(high, self.unit)
            )],
            help: match slip {
                _ if negative => "write it without the minus sign".to_owned(),
                Some(slip) => slip,
                None => help.to_owned(),
            },
            at: Some(length.at),
        });
        None
    }

    /// Which other unit would bring a bare number into the range: the commonest slip in a suit file.
    fn unit_slip(&self, length: &Spot<Mm>, range: LengthRange) -> Option<String> {
        let raw = self.text.get(length.at.clone())?;
        let bare = raw.bytes().all(|b| b.is_ascii_digit() || b == b'.' || b == b'_');
        if !bare {
            return None;
        }
        let number = length.value.get() / self.unit.in_mm();
        [LengthUnit::Cm, LengthUnit::Mm, LengthUnit::In]
            .into_iter()
            .find_map(|unit| {
                let as_unit = number * unit.in_mm();
                (unit != self.unit && (range.low.get()..=range.high.get()).contains(&as_unit)).then(|| {
                    format!(
                        "the file says units = \"{}\"; if it is {} {} write \"{} {}\"",
                        self.unit.symbol(),
                        raw,
                        unit.symbol(),
                        raw,
                        unit.symbol()
                    )
                })
            })
    }

    /// The raw value of a key, its place noted.
    pub(crate) fn value<'t, 'i>(
        &mut self,
        section: &Section<'t, 'i>,
        key: &str,
    ) -> Option<(String, &'t Spanned<DeValue<'i>>)> {
        let value = section.table.get(key)?;
        let path = section.path_of(key);
        self.places.put(path.clone(), value.span());
        Some((path, value))
    }

    /// A finite number, or a fault.
    pub(crate) fn as_number(&mut self, path: &str, value: &Spanned<DeValue<'_>>, what: &str) -> Option<f64> {
        let number = match value.get_ref() {
            DeValue::Integer(i) => i64::from_str_radix(&i.as_str().replace('_', ""), i.radix())
                .map(|n| n as f64)
                .unwrap_or(f64::INFINITY),
            DeValue::Float(f) => f.as_str().replace('_', "").parse().unwrap_or(f64::NAN),
            _ => {
                self.wrong_type(path, value, what, "write a plain number, without quotes");
                return None;
            }
        };
        if !number.is_finite() {
            self.fault(Fault {
                kind: FaultKind::OutOfRange,
                field: path.to_owned(),
                message: format!("{path} is not a finite number"),
                label: "not a number to work with".into(),
                allowed: Vec::new(),
                help: "write the number as it was measured".into(),
                at: Some(value.span()),
            });
            return None;
        }
        Some(number)
    }

    /// A length, or a fault; no range but that of [`parse_length`].
    pub(crate) fn as_length(&mut self, path: &str, value: &Spanned<DeValue<'_>>) -> Option<Spot<Mm>> {
        let at = value.span();
        if let Some(text) = value.get_ref().as_str() {
            return match parse_length(text, self.unit) {
                Ok(length) => Some(Spot { value: length, at }),
                Err(error) => {
                    let inside = self.inside_quotes(&at, text, error.at, error.len);
                    self.fault(Fault {
                        kind: FaultKind::NotALength,
                        field: path.to_owned(),
                        message: format!("{path} is not a length"),
                        label: "here".into(),
                        allowed: Vec::new(),
                        help: error.to_string(),
                        at: Some(inside),
                    });
                    None
                }
            };
        }
        if !value.get_ref().is_integer() && !value.get_ref().is_float() {
            let help = format!(
                "write a number in {} or a text with its unit, such as \"95.6 cm\" or \"37 5/8in\"",
                self.unit.symbol()
            );
            self.wrong_type(path, value, "a length", &help);
            return None;
        }
        let number = self.as_number(path, value, "a length")?;
        // 1e308 cm is finite and 1e309 mm is not: check again after the unit.
        match Mm::checked(number * self.unit.in_mm()).filter(|mm| mm.get().abs() <= LONGEST_MM) {
            Some(length) => Some(Spot { value: length, at }),
            None => {
                self.fault(Fault {
                    kind: FaultKind::OutOfRange,
                    field: path.to_owned(),
                    message: format!("{path} is longer than 100 m"),
                    label: "out of range".into(),
                    allowed: Vec::new(),
                    help: format!("write the length as it was measured, in {}", self.unit.symbol()),
                    at: Some(at),
                });
                None
            }
        }
    }

    /// The span of a piece of a quoted text, if the text stands in the file as it is; otherwise of the whole value.
    fn inside_quotes(&self, at: &Span, text: &str, offset: usize, len: usize) -> Span {
        let start = at.start + 1;
        let stands = at.end > start && self.text.get(start..at.end - 1) == Some(text);
        let inner = start + offset..start + offset + len.max(1);
        if stands && inner.end < at.end {
            inner
        } else {
            at.clone()
        }
    }

    /// Complains that a key is missing from a section.
    pub(crate) fn missing(&mut self, section: &Section<'_, '_>, key: &str, help: &str) {
        let path = section.path_of(key);
        self.fault(Fault {
            kind: FaultKind::MissingKey,
            message: format!("{path} is missing"),
            label: "not in here".into(),
            allowed: Vec::new(),
            help: help.to_owned(),
            field: path,
            at: (!section.path.is_empty()).then(|| section.at.clone()),
        });
    }

    /// Complains of two keys that say the same thing or exclude each other; points at the second.
    pub(crate) fn conflict(&mut self, path: &str, message: String, help: &str) {
        self.fault(Fault {
            kind: FaultKind::Conflict,
            field: path.to_owned(),
            message,
            label: "does not go together".into(),
            allowed: Vec::new(),
            help: help.to_owned(),
            at: self.places.of(path),
        });
    }

    pub(crate) fn wrong_type(&mut self, path: &str, value: &Spanned<DeValue<'_>>, wanted: &str, help: &str) {
        self.fault(Fault {
            kind: FaultKind::WrongType,
            field: path.to_owned(),
            message: format!("{path} must be {wanted}, not {}", type_words(value.get_ref())),
            label: format!("{wanted} wanted"),
            allowed: Vec::new(),
            help: help.to_owned(),
            at: Some(value.span()),
        });
    }

    pub(crate) fn fault(&mut self, fault: Fault) {
        self.faults.push(fault);
    }

    fn check_keys(&mut self, section: &Section<'_, '_>, allowed: &[&str]) {
        for (key, _) in section.table.iter() {
            let name: &str = key.get_ref();
            if allowed.contains(&name) {
                continue;
            }
            let listed = if allowed.len() <= LISTED_KEYS {
                allowed
            } else {
                &[]
            };
            self.fault(Fault {
                kind: FaultKind::UnknownKey,
                field: section.path_of(name),
                message: format!("{} has no key `{}`", section.name(), shortened(name)),
                label: "not known here".into(),
                allowed: listed.iter().map(|k| (*k).to_owned()).collect(),
                help: match closest(name, allowed.iter().copied()) {
                    Some(word) => format!("did you mean `{word}`?"),
                    None => "remove it, or use one of the keys allowed".into(),
                },
                at: Some(key.span()),
            });
        }
    }
}

/// As in [`parse_length`]: nothing in this trade is longer.
const LONGEST_MM: f64 = 100_000.0;

fn closest<'w>(text: &str, words: impl Iterator<Item = &'w str>) -> Option<&'w str> {
    let wanted = text.trim().to_lowercase().replace(['_', ' '], "-");
    words
        .map(|word| (strsim::jaro_winkler(&wanted, &word.replace('_', "-")), word))
        .filter(|(likeness, _)| *likeness >= LIKENESS)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, word)| word)
}

/// A text cut to what fits a message.
pub(crate) fn shortened(text: &str) -> String {
    const LONGEST: usize = 40;
    let clean: String = text
        .chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect();
    if clean.chars().count() <= LONGEST {
        return clean;
    }
    let head: String = clean.chars().take(LONGEST).collect();
    format!("{head}...")
}

fn type_words(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "a text",
        DeValue::Integer(_) | DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a section",
    }
}
