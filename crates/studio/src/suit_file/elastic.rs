//! The `[elastic]` section: what goes into the open edges.
//!
//! Its width stands here and nowhere else: the allowance of an open edge follows from it.

use make::{ElasticChoice, ElasticKind, Latex};
use units::{Mm, Stretch};

use super::reader::{LengthRange, NumberRange, Reader, Section};

pub(crate) const KEYS: [&str; 5] = ["kind", "width", "force", "latex", "working_extension"];
pub(crate) const LATEX: [(&str, Latex); 3] = [("no", Latex::No), ("yes", Latex::Yes), ("ask", Latex::Ask)];

/// The usual swim elastic.
const DEFAULT_WIDTH: Mm = Mm::new(8.0);
pub(super) const WIDTH: LengthRange = LengthRange {
    low: Mm::new(4.0),
    high: Mm::new(25.0),
    help: "6, 8 or 10 mm as a rule",
};
pub(super) const FORCE: NumberRange = NumberRange {
    low: 0.1,
    high: 200.0,
    unit: "N",
    help: "the pull at double length; a luggage scale's kg times 9.8",
};
pub(super) const EXTENSION: NumberRange = NumberRange {
    low: 10.0,
    high: 400.0,
    unit: "%",
    help: "how far this elastic may be stretched in wear without tiring",
};

/// The elastic; the usual one when the section is missing. `None` with the fault noted.
pub(crate) fn read(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Option<ElasticChoice> {
    let Some(section) = reader.table(top, "elastic", &KEYS) else {
        return Some(ElasticChoice::default());
    };
    let kinds: Vec<(&str, ElasticKind)> = ElasticKind::ALL.iter().map(|k| (k.key(), *k)).collect();
    let kind = reader
        .choice(&section, "kind", &kinds)
        .map(|k| k.value)
        .unwrap_or_default();
    let width = reader
        .length(&section, "width", WIDTH)
        .map_or(DEFAULT_WIDTH, |w| w.value);
    let force = reader.number(&section, "force", FORCE).map(|f| f.value);
    let latex = reader.choice(&section, "latex", &LATEX).map(|l| l.value);
    let extension = reader
        .number(&section, "working_extension", EXTENSION)
        .map(|e| Stretch::from_percent(e.value));
    match ElasticChoice::new(kind, width, force, latex, extension) {
        Ok(choice) => Some(choice),
        Err(errors) => {
            // The ranges above are at least as narrow, so this is only reached when the two disagree.
            for error in errors {
                reader.conflict("elastic", error.to_string(), "correct the [elastic] section");
            }
            None
        }
    }
}
