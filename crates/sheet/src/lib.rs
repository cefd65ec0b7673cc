//! From a drafted suit to true-scale paper and files: PDF tiles, plotter sheets, projection, SVG, DXF and JSON.
//!
//! Every output is a pure function: a [`Pattern`] and options in, bytes out; the same input gives the same bytes. Nothing
//! here rounds, fits or shrinks a pattern: what does not fit its paper is refused with what to do about it.
//!
//! **Shapes and units.** Pieces come in millimetres, y up; each writer turns y over once. PDF points exist only in the
//! pen that draws (`book`).

// Tests inside the crate share the suits of the tests outside it, which say `use sheet::...`.
#[cfg(test)]
extern crate self as sheet;

mod book;
mod drawn;
pub mod dxf;
mod facts;
mod flow;
pub mod fonts;
mod front;
mod ink;
pub mod json;
mod label;
pub mod lay_plan;
mod layers;
mod lettering;
pub mod listing;
pub mod nest;
mod pack;
mod page_map;
mod pattern;
pub mod pdf;
mod plotter;
mod projector;
mod room;
mod running;
mod spread;
pub mod svg;
mod tile_page;
mod tiles;
mod wording;
mod xml;

pub use page_map::{MapOutline, MapTile, PageMapData, page_map_data};
pub use pattern::{
    Fault, MOST_CORRECTION, MeasuredSquare, Options, Paper, Pattern, PieceForm, Printed, Refusal, Roll,
    TileCount, WHITE_EDGE_MM,
};
