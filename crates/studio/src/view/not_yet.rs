//! What a section says while the suit can't be drafted: the first thing that is missing or wrong, and where it is mended.

use super::{Note, State, told};
use crate::document::{Worked, home_of};
use crate::suit_file::Fault;

/// The note of a section that needs the whole order; `what` is said first: `No cut list yet`.
pub(super) fn not_yet(worked: &Worked, what: &str) -> Note {
    let first = worked.faults.first();
    let (says, next) = first.map_or_else(
        || ("The suit is not whole yet.".to_owned(), String::new()),
        |fault| say(worked, fault),
    );
    let state = match first {
        Some(fault) if !told::is_missing(fault) => State::Stop,
        _ => State::Missing,
    };
    Note {
        field: first.map(|f| path_of(worked, f)).filter(|p| !p.is_empty()),
        ..told::note(state, "", format!("{what}. {says}"), next)
    }
}

/// A fault in a maker's words, and what to do.
fn say(worked: &Worked, fault: &Fault) -> (String, String) {
    let plain = |says: &str, next: &str| (says.to_owned(), next.to_owned());
    if told::is_missing(fault) {
        match fault.field.as_str() {
            "wearer" => return plain("Nobody is chosen to wear it.", "Choose a wearer."),
            "shell" => return plain("No outer cloth is chosen.", "Choose the shell."),
            "lining" | "design.lining" => {
                return plain(
                    "It is to be lined, but no lining is chosen.",
                    "Choose a lining, or say that it has none.",
                );
            }
            "wearer.dimensions" => {
                return plain("No dimension is taken yet.", "Take the dimensions it asks for.");
            }
            _ => {}
        }
    }
    let note = told::fault(fault, &path_of(worked, fault), None);
    (note.says, note.next)
}

fn path_of(worked: &Worked, fault: &Fault) -> String {
    home_of(&fault.field, worked.elastic.is_some()).1
}
