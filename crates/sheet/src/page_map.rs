//! The page map as data: which tiles a paper takes and where the outlines lie on them.
//!
//! The one source of every map: the SVG of [`crate::svg::page_map`] and the pages of the studio draw from it, so that they
//! and the printed tiles cannot disagree.
//!
//! **Shapes and units.** mm on the whole sheet, y down, its upper left corner at the origin.

use kurbo::Point;

use crate::drawn::Weight;
use crate::lettering::Lettering;
use crate::pattern::{Options, Paper, Pattern, Refusal};
use crate::pdf::{self, check};
use crate::room::thinned;
use crate::tiles::{self, Tile, row_name};

/// Where the pieces of a pattern lie on the tiles of a paper.
#[derive(Clone, Debug, PartialEq)]
pub struct PageMapData {
    /// Width and height of the whole sheet, mm.
    pub sheet_mm: (f64, f64),
    /// From one tile to the next, across and down, mm: a tile without what it repeats of its neighbours.
    pub step_mm: (f64, f64),
    /// Rows of the grid.
    pub rows: usize,
    /// Columns of the grid.
    pub columns: usize,
    /// Every tile of the grid, row by row, printed or blank.
    pub tiles: Vec<MapTile>,
    /// The pieces, as they lie.
    pub outlines: Vec<MapOutline>,
}

/// One tile of the grid.
#[derive(Clone, Debug, PartialEq)]
pub struct MapTile {
    /// `A1` is the upper left one.
    pub code: String,
    /// Its row, from 0.
    pub row: usize,
    /// Its column, from 0.
    pub column: usize,
    /// Left and upper side, mm.
    pub at_mm: (f64, f64),
    /// Width and height without what it repeats of its neighbours, mm.
    pub size_mm: (f64, f64),
    /// Whether there is a page for it; a tile with nothing on it has none.
    pub is_printed: bool,
}

/// One piece on the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct MapOutline {
    /// Key of the piece.
    pub key: String,
    /// Its letter.
    pub letter: char,
    /// Its cut line, closed, thinned to a tenth of a millimetre.
    pub points: Vec<Point>,
    /// The roomiest place inside, for the letter.
    pub letter_at: Point,
}

impl PageMapData {
    /// How many pages are printed.
    pub fn printed(&self) -> usize {
        self.tiles.iter().filter(|t| t.is_printed).count()
    }

    /// How many tiles of the grid are left out because nothing is on them.
    pub fn blank(&self) -> usize {
        self.tiles.len() - self.printed()
    }

    /// Name of a row: A, B, ..., Z, AA, ...
    pub fn row_name(row: usize) -> String {
        row_name(row)
    }
}

/// The page map of a pattern on a paper.
///
/// # Errors
/// As [`crate::pdf::tiled`].
pub fn page_map_data(pattern: &Pattern<'_>, paper: Paper, options: &Options) -> Result<PageMapData, Refusal> {
    check(pattern, options)?;
    let letters = Lettering::load().map_err(pdf::writer)?;
    // Drawn as for the tiles themselves, so that map and pages cannot disagree.
    let drawn = pdf::draw_all(pattern, options, Weight::Paper, &letters);
    let (layout, grid) = tiles::fewest(&drawn.items, &drawn.outlines, tiles::tile_size(paper, options));
    let step = grid.step();
    let tile = |row: usize, column: usize| {
        let tile = Tile { row, column };
        let w = grid.window(tile);
        MapTile {
            code: tile.code(),
            row,
            column,
            at_mm: (w.x0, w.y0),
            size_mm: (
                if column + 1 < grid.columns {
                    step.x
                } else {
                    w.width()
                },
                if row + 1 < grid.rows { step.y } else { w.height() },
            ),
            is_printed: grid.has(row, column),
        }
    };
    let tiles = (0..grid.rows)
        .flat_map(|row| (0..grid.columns).map(move |column| (row, column)))
        .map(|(row, column)| tile(row, column))
        .collect();
    let outlines = layout
        .placed
        .iter()
        .filter_map(|placed| {
            let piece = drawn.pieces.get(placed.item)?;
            let points: Vec<Point> = thinned(&piece.outline)
                .into_iter()
                .map(|p| p + placed.at)
                .collect();
            Some(MapOutline {
                key: piece.key.clone(),
                letter: piece.letter,
                letter_at: crate::front::inner_point(&points),
                points,
            })
        })
        .collect();
    Ok(PageMapData {
        sheet_mm: (
            step.x * grid.columns as f64 + tiles::OVERLAP,
            step.y * grid.rows as f64 + tiles::OVERLAP,
        ),
        step_mm: (step.x, step.y),
        rows: grid.rows,
        columns: grid.columns,
        tiles,
        outlines,
    })
}
