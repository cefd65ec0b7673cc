//! The suit file: one TOML text that holds a wearer, her cloths and a design, read with every fault at its place.
//!
//! Reading is a pure function of the text. What reads well may still be refused by the body, the cloth or the draft; then
//! [`SuitFile::draft_fault`] and its kin turn the refusal into a fault at the key's place, in the file's own unit.
//!
//! **Shapes and units.** Text in; millimetres, ratios and records of the domain crates out.
//! **Source.** The format is our own; its reference is `docs/suit-file.md`, kept equal to the code by a test.

mod allowed;
mod design;
mod elastic;
mod fault;
pub(crate) mod reader;
mod reference;
mod refuse;
mod show;
mod suit;
mod swatch;
mod template;
mod wearer;

pub(crate) use allowed::allowed;
pub(crate) use design::idle_keys;
pub(crate) use elastic::LATEX;
pub(crate) use fault::place_of_line;
pub use fault::{Fault, FaultJson, FaultKind, Faults, FaultsJson, Place, Span};
pub(crate) use reader::{NumberRange, Reader, Section};
pub use reference::{SectionReference, reference};
pub(crate) use show::trimmed;
pub use show::{show_both, show_length};
pub use suit::{
    ClothEntry, FORMAT, LARGEST_FILE, PaperChoice, Parts, Printer, SQUARE_RANGE_MM, SuitFile, read_bytes,
    read_parts, read_text,
};
pub(crate) use suit::{UNITS, printer, read_format, section_keys, sewn, syntax_faults};
pub use template::{NewSuit, form_key, need_words, new_suit_text};
pub(crate) use wearer::{KEYS as WEARER_KEYS, read_section as read_wearer};
