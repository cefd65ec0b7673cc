//! The drawings: pieces, seams, elastic, the ladder, the suit as it will look. Line work that survives any printer.
//!
//! **Shapes and units.** Domain geometry comes in mm with y up; a drawing is SVG in mm of the page, y down, turned over once,
//! in [`place::Place`].
//! **Source.** Line styles as on the pattern paper (`sheet`): cut solid, seam dashed, arrows for grain and stretch.

pub(crate) mod elastic;
mod garment;
mod ladder;
mod legend;
mod meet;
mod piece;
mod place;
pub(crate) mod seam;
mod section;
mod svg;
mod ties;

pub(crate) use elastic::elastic_map;
pub(crate) use garment::garment;
pub(crate) use ladder::{LadderRung, ladder};
pub(crate) use legend::{LEGEND, legend};
pub(crate) use piece::thumbnail;
pub(crate) use seam::{Hot, pieces_with_hot_edges};
pub(crate) use section::{Section, section};
