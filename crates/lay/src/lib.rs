//! The lay: every piece placed on the cloth, the right way round, in as little length as can be found.
//!
//! [`pieces_of`] takes the pieces of a draft, [`LayCloth`] says what they lie on and by which rules, [`lay()`] places them and hands out
//! every better lay while it searches; [`check()`] judges each in double precision on the true outlines. [`Strip`] is the same search
//! on the research literature's instances, to be measured.
//!
//! **Shapes and units.** `table`: x along the cloth from the cut end, y across, mm; pieces in their own frame `flat`.
//! **Limits.** The search promises a good lay, never the shortest; [`bounds`] says how far off it can be at most.

mod bound;
mod buy;
mod check;
mod choose;
mod cloth;
mod engine;
mod error;
mod field;
mod fold;
mod lay;
mod piece;
mod polygon;
mod search;
mod setting;
mod shape;
mod simplify;
mod strip;

pub use crate::cloth::{Direction, Flaw, Fold, LayCloth};
pub use bound::{Bound, BoundReason, bounds};
pub use buy::{BuyPart, BuyRules, Buying, Remnant, SaleStep, buying, cutting_order, remnants};
pub use check::{GAP_TOLERANCE_MM, LayFault, OVERLAP_TOLERANCE_MM2, check};
pub use choose::{Answer, Change, changes, changes_at_hand, row_by_row, try_changes};
pub use error::LayError;
pub use fold::fold_depths;
pub use lay::{Effort, Lay, LayRequest, Placed, lay, lay_around, lay_until_it_fits};
pub use piece::{LayPiece, pieces_of};
pub use polygon::is_simple;
pub use strip::{Strip, StripItem, StripLay, StripPlaced, StripShape};
