//! From body, cloth and design to pieces and edges.

mod design;
pub mod geometry;
mod piece;
mod suit;

pub use design::{
    Allowances, BackDepth, BackShape, BustShaping, Cups, Design, LegHeight, LiningCover, NeckDepth,
    NeckShape, Rise, Seat, Skirt, SkirtJoin, SkirtKind, Style,
};
pub use piece::{Arrow, CutCount, EdgeUse, Mark, Notch, OpenKind, Piece, PieceEdge, Shape};
pub use suit::{
    Draft, EdgeArc, FinishedMeasure, LevelWidth, LoopPart, LoopRung, OpenEdge, Opening, OpeningKind,
    SeamWalk, TrunkLoop,
};
