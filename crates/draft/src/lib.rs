//! From body, cloth and design to a suit's flat pieces and edges, or a refusal that says why not.
//!
//! [`draft`] is the one entry. A [`Draft`] holds pieces with everything printed on them, the seams walked, the open edges
//! with their arcs, and the numbers that fit and making plan need.
//!
//! **Shapes and units.** mm on relaxed cloth; fold x = 0, waist y = 0, y up; outlines counter-clockwise. Points and cubics
//! are kurbo's: a vocabulary shared by every crate that draws.
//! **Limits.** Nothing has been proved on a body by sewing: sew a toile first.

mod allowance;
mod block;
mod branch;
mod build;
mod check;
#[cfg(test)]
mod check_tops;
#[cfg(test)]
mod check_values;
mod design;
mod draft;
mod factors;
mod figure;
pub mod geometry;
mod measures;
mod parameter;
mod piece;
mod refusal;
mod resolve;
mod rungs;
mod sides;
mod style;
mod suit;
mod trunk;

pub use branch::BranchTaken;
pub use design::{
    Allowances, BackDepth, BackShape, BustShaping, Closure, ClosureKind, ClosurePlace, Cups, Design, Figure,
    LegHeight, LiningCover, NeckDepth, NeckShape, Rise, Seat, Skirt, SkirtJoin, SkirtKind,
};
pub use draft::draft;
pub use parameter::{Parameter, ParameterKind, Setting, Settings, Shared, Word};
pub use piece::{Arrow, CutCount, EdgeUse, Mark, Notch, OpenKind, Piece, PieceEdge, Shape};
pub use refusal::{InvalidKind, Refusal};
pub use style::{Family, Style, StyleSpec, ties_are_refused};
pub use suit::{
    Draft, EdgeArc, FinishedMeasure, LevelWidth, LoopPart, LoopRung, OpenEdge, Opened, Opening, OpeningKind,
    RungEdge, SeamWalk, SupportNeed, TrunkLoop,
};
