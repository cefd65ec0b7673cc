//! Faults of a suit file: each with its place, what is allowed there and what to do.
//!
//! A maker who mistypes three things should hear of three things, so faults are collected, never thrown one at a time.
//! A [`Fault`] knows only its byte span; [`Faults`] adds the file's name and text and turns spans into lines and columns.
//!
//! **Shapes and units.** Spans are bytes of the text; lines and columns count from 1, columns in characters.

use std::fmt;
use std::ops::Range;

use serde::Serialize;

/// Bytes of the file's text.
pub type Span = Range<usize>;

/// What kind of fault it is, for scripts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FaultKind {
    /// The text is not TOML, or not UTF-8, or far too long.
    Syntax,
    /// A key that must be there is not.
    MissingKey,
    /// A key the section does not have.
    UnknownKey,
    /// The same key twice.
    DuplicateKey,
    /// A value of another type than the key takes.
    WrongType,
    /// A text that is not a length.
    NotALength,
    /// A word that is none of those allowed.
    NotAllowed,
    /// A number outside its range.
    OutOfRange,
    /// Keys or sections that don't go together.
    Conflict,
    /// A value that reads well but that the body, the cloth or the draft refuses.
    Refused,
    /// A file or folder that can't be read or written.
    File,
}

impl FaultKind {
    /// The name scripts see: `unknown_key`.
    pub const fn key(self) -> &'static str {
        match self {
            FaultKind::Syntax => "syntax",
            FaultKind::MissingKey => "missing_key",
            FaultKind::UnknownKey => "unknown_key",
            FaultKind::DuplicateKey => "duplicate_key",
            FaultKind::WrongType => "wrong_type",
            FaultKind::NotALength => "not_a_length",
            FaultKind::NotAllowed => "not_allowed",
            FaultKind::OutOfRange => "out_of_range",
            FaultKind::Conflict => "conflict",
            FaultKind::Refused => "refused",
            FaultKind::File => "file",
        }
    }
}

/// One thing wrong with a suit file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// What kind.
    pub kind: FaultKind,
    /// Dotted path of the key or section: `wearer.dimensions.bust_girth`; empty for the file as a whole.
    pub field: String,
    /// What is wrong: lower case, no full stop.
    pub message: String,
    /// A word or two to stand at the underlined place.
    pub label: String,
    /// What may stand there; empty when that is not a list.
    pub allowed: Vec<String>,
    /// What to do about it.
    pub help: String,
    /// Where; `None` when it is nowhere in the file.
    pub at: Option<Span>,
}

/// All faults of one file, in the order of the text. Never empty when it is an error.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Faults {
    /// The file, as the maker named it.
    pub file: String,
    /// Its text, for the excerpts.
    pub text: String,
    /// The faults.
    pub list: Vec<Fault>,
}

/// A place in the text as people count: both from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Place {
    /// Line.
    pub line: usize,
    /// Column in characters.
    pub column: usize,
}

impl Faults {
    /// Puts the faults in the order of the text; those without a place come first.
    pub fn new(file: &str, text: &str, mut list: Vec<Fault>) -> Faults {
        list.sort_by_key(|f| f.at.as_ref().map_or((0, 0), |s| (s.start + 1, s.end)));
        Faults {
            file: file.to_owned(),
            text: text.to_owned(),
            list,
        }
    }

    /// One fault of the file as a whole, or of a file that is no suit file: no place, no text.
    pub fn whole(file: &str, kind: FaultKind, message: String, help: &str) -> Faults {
        let fault = Fault {
            kind,
            field: String::new(),
            message,
            label: String::new(),
            allowed: Vec::new(),
            help: help.to_owned(),
            at: None,
        };
        Faults::new(file, "", vec![fault])
    }

    /// Line and column of a byte offset; the end of the text for an offset past it.
    pub fn place(&self, offset: usize) -> Place {
        place_in(&self.text, offset)
    }

    /// The faults as plain text, one block each, with the line and the underlined span.
    ///
    /// ```text
    /// maren.toml:14:15: strap_width is 30.0 cm, outside 1.2 cm to 9.0 cm
    ///    14 | strap_width = "30 cm"
    ///       |               ^^^^^^^ too wide
    ///   allowed: 1.2 cm to 9.0 cm
    ///   help: choose a width in that range
    /// ```
    pub fn to_plain(&self) -> String {
        let blocks: Vec<String> = self.list.iter().map(|f| self.block(f)).collect();
        blocks.join("\n")
    }

    fn block(&self, fault: &Fault) -> String {
        let mut out = String::new();
        match &fault.at {
            Some(span) => {
                let place = self.place(span.start);
                out += &format!(
                    "{}:{}:{}: {}\n",
                    self.file, place.line, place.column, fault.message
                );
                out += &self.excerpt(span, place, &fault.label);
            }
            None => out += &format!("{}: {}\n", self.file, fault.message),
        }
        if !fault.allowed.is_empty() {
            out += &format!("  allowed: {}\n", fault.allowed.join(", "));
        }
        if !fault.help.is_empty() {
            out += &format!("  help: {}\n", fault.help);
        }
        out
    }

    fn excerpt(&self, span: &Span, place: Place, label: &str) -> String {
        let Some(line) = self.text.lines().nth(place.line - 1) else {
            return String::new();
        };
        let line = line.trim_end_matches('\r');
        let before = place.column - 1;
        let covered = self.text.get(span.clone()).unwrap_or("");
        let covered = covered.lines().next().unwrap_or("").chars().count();
        let rest = line.chars().count().saturating_sub(before);
        let carets = covered.min(rest).max(1);
        // A tab is one character wide here, in the line and in the space under it alike.
        let line: String = line
            .chars()
            .map(|c| if c.is_control() { ' ' } else { c })
            .collect();
        let number = place.line.to_string();
        let gap = " ".repeat(number.len());
        format!(
            "  {number} | {line}\n  {gap} | {}{} {label}\n",
            " ".repeat(before),
            "^".repeat(carets)
        )
    }

    /// The faults for scripts: see `docs/suit-file.md`, "Faults as JSON".
    pub fn to_json(&self) -> FaultsJson<'_> {
        FaultsJson {
            faults: self
                .list
                .iter()
                .map(|f| {
                    let place = f.at.as_ref().map(|s| self.place(s.start));
                    FaultJson {
                        kind: f.kind,
                        file: &self.file,
                        field: &f.field,
                        message: &f.message,
                        allowed: &f.allowed,
                        help: &f.help,
                        line: place.map(|p| p.line),
                        column: place.map(|p| p.column),
                        length: f.at.as_ref().map(|s| {
                            self.text
                                .get(s.clone())
                                .map_or(0, |covered| covered.chars().count())
                        }),
                    }
                })
                .collect(),
        }
    }
}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.to_plain())
    }
}

impl std::error::Error for Faults {}

/// [`Faults`] as it is written for scripts.
#[derive(Clone, Debug, Serialize)]
pub struct FaultsJson<'a> {
    /// In the order of the text.
    pub faults: Vec<FaultJson<'a>>,
}

/// One fault as it is written for scripts.
#[derive(Clone, Debug, Serialize)]
pub struct FaultJson<'a> {
    /// What kind.
    pub kind: FaultKind,
    /// The file.
    pub file: &'a str,
    /// Dotted path.
    pub field: &'a str,
    /// What is wrong.
    pub message: &'a str,
    /// What may stand there.
    pub allowed: &'a [String],
    /// What to do.
    pub help: &'a str,
    /// Line from 1.
    pub line: Option<usize>,
    /// Column in characters from 1.
    pub column: Option<usize>,
    /// Characters covered.
    pub length: Option<usize>,
}

/// The bytes of a line counted from 1; `None` when the text has fewer.
pub(crate) fn place_of_line(text: &str, line: usize) -> Option<Span> {
    let mut start = 0;
    for (index, content) in text.split('\n').enumerate() {
        if index + 1 == line {
            return Some(start..start + content.trim_end_matches('\r').len());
        }
        start += content.len() + 1;
    }
    None
}

/// Line and column of a byte offset in `text`.
pub(crate) fn place_in(text: &str, offset: usize) -> Place {
    let mut end = offset.min(text.len());
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    let before = text.get(..end).unwrap_or("");
    let line_start = before.rfind('\n').map_or(0, |i| i + 1);
    Place {
        line: before.matches('\n').count() + 1,
        column: before.get(line_start..).unwrap_or("").chars().count() + 1,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fault(at: Option<Span>) -> Fault {
        Fault {
            kind: FaultKind::OutOfRange,
            field: "design.strap_width".into(),
            message: "strap_width is too wide".into(),
            label: "here".into(),
            allowed: vec!["1.2 cm to 9.0 cm".into()],
            help: "choose a width in that range".into(),
            at,
        }
    }

    #[test]
    fn the_underline_stands_under_the_characters_not_the_bytes() {
        let text = "name = \"Zoë\"\nstrap = \"37⅝ ell\" # x\n";
        let start = text.find("ell").unwrap();
        let faults = Faults::new("a.toml", text, vec![fault(Some(start..start + 3))]);
        assert_eq!(
            faults.to_plain(),
            "a.toml:2:14: strap_width is too wide\n  2 | strap = \"37⅝ ell\" # x\n    |              ^^^ here\n  \
             allowed: 1.2 cm to 9.0 cm\n  help: choose a width in that range\n"
        );
    }

    #[test]
    fn a_span_past_the_end_or_inside_a_character_does_no_harm() {
        let text = "é";
        for span in [0..99, 1..2, 5..9] {
            let faults = Faults::new("a.toml", text, vec![fault(Some(span))]);
            assert!(
                faults.to_plain().starts_with("a.toml:1:"),
                "{}",
                faults.to_plain()
            );
        }
    }

    #[test]
    fn faults_come_in_the_order_of_the_text() {
        let text = "a = 1\nb = 2\n";
        let list = vec![fault(Some(6..7)), fault(None), fault(Some(0..1))];
        let faults = Faults::new("a.toml", text, list);
        let starts: Vec<_> = faults
            .list
            .iter()
            .map(|f| f.at.as_ref().map(|s| s.start))
            .collect();
        assert_eq!(starts, [None, Some(0), Some(6)]);
    }
}
