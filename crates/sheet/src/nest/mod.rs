//! A nested set of sizes on one sheet at true scale: every piece once, a cutting line of its own kind for every size.
//!
//! Each size is a layer a viewer can switch on alone, and a rhythm of dashes that stays apart without colour, so that the
//! same sheet serves a plotter, a projector and a black-and-white copy. What is the same for all sizes (names, arrows, the
//! waist, the legend) is drawn once.
//!
//! **Shapes and units.** In: a [`range::Nest`], mm, y up. Out: PDF or SVG, mm, y down.
//! **Source.** Optional content: ISO 32000-1, 8.11. Rhythms of the lines: own.
//! **Limits.** Cutting lines, notches and crosses of each size; seam lines, elastic marks and labels stand on the pattern of a
//! single size. At most [`MOST_SIZES`] sizes: more lines are not told apart.

mod layers;
mod pens;
mod piece;
mod scene;
pub(crate) mod svg;

use kurbo::Point;
use range::Nest;
use thiserror::Error;

use crate::book::{Book, LONGEST_PAGE_MM, View};
use crate::ink::Ink;
use crate::pattern::{PieceForm, Printed, Roll};

pub use pens::{MOST_SIZES, line_of_size};

/// A nested set and what is said of it.
#[derive(Clone, Debug)]
pub struct NestSheet<'a> {
    /// What the range is called: `Harbour one-piece, women`.
    pub title: &'a str,
    /// Cloth, fit, version: one line.
    pub subtitle: &'a str,
    /// The nest.
    pub nest: &'a Nest,
    /// For every size of the nest what stands beside its line in the legend: `bust 92.0 cm (36 1/4 in)`. May be shorter.
    pub size_notes: &'a [String],
    /// Anything the maker should read, a sentence each: where the table comes from, where growth is not even.
    pub notes: &'a [String],
    /// Whole pieces or halves.
    pub form: PieceForm,
    /// The paper.
    pub roll: Roll,
}

/// Why a nest could not be drawn.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum NestRefusal {
    /// No size was drafted.
    #[error("the nest has no size; see why each size of the range was refused")]
    NoSizes,
    /// More sizes than can be told apart.
    #[error("the nest has {given} sizes; at most {MOST_SIZES} lines are told apart: choose fewer sizes")]
    TooManySizes {
        /// How many there are.
        given: usize,
    },
    /// A piece is larger than the paper.
    #[error(
        "{piece} is {:.0} x {:.0} mm with all its sizes, the {roll} has room for {:.0} mm; choose a wider roll or print halves",
        .size_mm.0, .size_mm.1, .room_mm
    )]
    PieceTooLarge {
        /// Which piece.
        piece: String,
        /// Its size, mm.
        size_mm: (f64, f64),
        /// The width there is, mm.
        room_mm: f64,
        /// The paper.
        roll: &'static str,
    },
    /// The sheet is longer than a page may be.
    #[error(
        "the sheet is {side_mm:.0} mm long, a page at most {LONGEST_PAGE_MM:.0} mm; choose a wider roll or fewer sizes"
    )]
    PageTooLong {
        /// Its length, mm.
        side_mm: f64,
    },
    /// The writer failed; a fault of this program.
    #[error("the file could not be written: {0}; please report it")]
    Writer(String),
}

/// A nested set as PDF, a layer a size.
///
/// One page as wide as the roll and as long as needed, or as many A0 pages as needed; no piece is cut in two or turned.
/// The same nest gives the same bytes.
///
/// # Errors
/// [`NestRefusal`] for no or too many sizes, a piece or page too large, or a fault of the writer.
pub fn pdf(sheet: &NestSheet<'_>) -> Result<Printed, NestRefusal> {
    let scenes = scene::scenes(sheet)?;
    let mut book = Book::new(
        sheet.title,
        "Nested pattern of several sizes at true scale, a layer a size",
    )
    .map_err(NestRefusal::Writer)?;
    let mut owners = Vec::with_capacity(scenes.len());
    for (i, scene) in scenes.iter().enumerate() {
        if scene.size.1 > LONGEST_PAGE_MM {
            return Err(NestRefusal::PageTooLong {
                side_mm: scene.size.1,
            });
        }
        let view = View {
            page: Point::new(scene::MARGIN, scene::MARGIN),
            ..View::page((1.0, 1.0))
        };
        // One view a size, so that no run of lines mixes two sizes.
        let mut views: Vec<(View, &[Ink])> = vec![(view, &scene.common.inks)];
        let mut of_page = vec![None; layers::sections(&scene.common.inks)];
        for (size, drawing) in scene.sizes.iter().enumerate() {
            views.push((view, &drawing.inks));
            of_page.extend(std::iter::repeat_n(Some(size), layers::sections(&drawing.inks)));
        }
        book.page(scene.size, &format!("Sheet {}", i + 1), &views)
            .map_err(NestRefusal::Writer)?;
        owners.push(of_page);
    }
    let (plain, undrawn) = book.finish().map_err(NestRefusal::Writer)?;
    let names: Vec<String> = sheet.nest.sizes.iter().map(|s| format!("size {s}")).collect();
    let bytes = layers::add(&plain, &owners, &names).map_err(NestRefusal::Writer)?;
    Ok(Printed {
        bytes,
        pages: scenes.len(),
        tiles: None,
        undrawn,
    })
}

/// A nested set as SVG, one file a sheet, width and height in mm: a group of class `size` with `data-size` for every size,
/// and one of class `common` for what they share.
///
/// # Errors
/// As [`pdf`], but for the length of a page.
pub fn svg(sheet: &NestSheet<'_>) -> Result<Vec<String>, NestRefusal> {
    let scenes = scene::scenes(sheet)?;
    Ok(scenes.iter().map(|s| svg::write(sheet, s)).collect())
}
