//! A class: several wearers, one design; a kit for each, one shopping list, one timetable of the room.
//!
//! [`read_class`] and [`gather`] make people out of a class file, the studio makes them out of its documents; from there on both go the
//! same way: [`work`] drafts and plans everyone, [`lay_class`] lays the cloth, [`make_kits`] makes the files. A wearer the design cannot be drafted for does not stop
//! the class.
//!
//! **Shapes and units.** As in the domain crates; the same class gives the same bytes.

mod bag;
mod csv;
mod file;
mod gather;
mod index;
mod kits;
mod lays;
mod report;
mod room;
mod shop;
mod voice;
mod work;

pub use file::{ClassFile, ClassSetting, class_reference, counted, read_class, room_of};
pub use gather::{Person, folders, gather, suit_name};
pub use kits::{Kit, KitFault, Kits, make_kits};
pub use lays::{ClassLays, lay_class};
pub use report::{ClassReport, report};
pub(crate) use room::{place_of, says as timetable_says, units as units_of};
pub(crate) use shop::shares as share_words;
pub(crate) use voice::{Voice, clock};
pub use work::{Drafted, Stopped, Taker, WorkedClass, letter, steps_of_work, work};
