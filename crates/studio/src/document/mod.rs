//! The studio's documents: what is kept of a suit, a wearer, a cloth, and how they make one suit file together.
//!
//! A suit in the studio is not one text but a document that names a wearer and cloths of their own, so that a dimension
//! taken anew reaches every suit of that wearer. [`compose`] writes the suit file of them; everything after it is the same
//! engine that reads a maker's own file, with the same faults at the same keys.
//!
//! **Shapes and units.** Bodies are JSON; lengths are texts with their unit, as they were typed.

mod compose;
mod describe;
mod import;
mod look;
mod room;
mod tries;
mod worked;

pub use compose::{SuitPapers, compose, home_of, readings};
pub use describe::describe;
pub use import::{Imported, import};
pub use look::{Look, look_of};
pub(crate) use room::machine_table;
pub use room::{ReadRoom, RoomFault, RoomPapers, room_of};
pub use tries::Tries;
pub use worked::{Linked, Paper, Planned, Worked, work};
