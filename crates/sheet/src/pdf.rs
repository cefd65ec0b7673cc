//! Patterns as PDF: tiles for a home printer, one sheet for a plotter, one for a projector.
//!
//! The three share their drawing: pieces with their words are drawn once, laid on one sheet and then cut into tiles,
//! framed or projected.
//!
//! # Example
//! Tiles for A4 are `pdf::tiled(&pattern, Paper::A4, &Options::default())?.bytes`.

use kurbo::Point;

use crate::book::{Book, View};
use crate::drawn::{self, DrawnPiece, Weight};
use crate::facts;
use crate::flow::Flow;
use crate::front;
use crate::ink::{Drawing, Ink};
use crate::lettering::Lettering;
use crate::pack::{Item, Layout};
use crate::pattern::{Fault, Options, Paper, Pattern, Printed, Refusal, TileCount};
use crate::running::Running;
use crate::tile_page::{self, Crowd};
use crate::tiles;

pub use crate::plotter::single;
pub use crate::projector::projector;

pub(crate) fn writer(fault: String) -> Refusal {
    Refusal::of(Fault::Writer(fault))
}

/// The drawn pieces and what the packing needs of them.
pub(crate) struct Drawn {
    pub(crate) pieces: Vec<DrawnPiece>,
    pub(crate) items: Vec<Item>,
    /// For every piece, everything that must lie on paper: the cut line, and the box of a label outside it.
    pub(crate) outlines: Vec<Vec<Point>>,
}

pub(crate) fn draw_all(
    pattern: &Pattern<'_>,
    options: &Options,
    weight: Weight,
    letters: &Lettering,
) -> Drawn {
    let pieces: Vec<DrawnPiece> = pattern
        .draft
        .pieces
        .iter()
        .map(|p| drawn::draw(p, pattern, options.form, weight, letters))
        .collect();
    let outlines: Vec<Vec<Point>> = pieces.iter().map(DrawnPiece::footprint).collect();
    let items = pieces
        .iter()
        .zip(&outlines)
        .map(|(p, o)| Item::new(p.size, std::slice::from_ref(o)))
        .collect();
    Drawn {
        pieces,
        items,
        outlines,
    }
}

/// All pieces on the sheet.
pub(crate) fn sheet_of(drawn: &Drawn, layout: &Layout) -> Drawing {
    let mut sheet = Drawing::default();
    for placed in &layout.placed {
        if let Some(piece) = drawn.pieces.get(placed.item) {
            sheet.add(&piece.drawing, placed.at);
        }
    }
    sheet
}

/// A pattern in tiles for a home printer.
///
/// Page 1 proves the scale and shows how the pages join; then what to cut, the finished measures, the elastic, what the
/// lines mean; then one page for every tile that has something on it, row by row. Every tile has a 100 mm rule along two
/// margins. Nothing is shrunk: a measured printer's error is undone by stretching the whole drawing.
///
/// # Errors
/// [`Refusal`] with all of [`Fault::NoPieces`], [`Fault::BrokenPiece`], [`Fault::PrinterOff`] that apply, or
/// [`Fault::Writer`].
pub fn tiled(pattern: &Pattern<'_>, paper: Paper, options: &Options) -> Result<Printed, Refusal> {
    check(pattern, options)?;
    let letters = Lettering::load().map_err(writer)?;
    let drawn = draw_all(pattern, options, Weight::Paper, &letters);
    let (layout, grid) = tiles::fewest(&drawn.items, &drawn.outlines, tiles::tile_size(paper, options));
    let sheet = sheet_of(&drawn, &layout);
    let crowd = Crowd::new(&sheet.inks);
    let running = Running::of(pattern);
    let size = paper.size_mm();
    let scale = options.factors();

    let mut book = Book::new(&running.text(), "Sewing pattern at true scale, in tiles").map_err(writer)?;
    let first = front::page(&letters, size, pattern, options, &drawn.pieces, &layout, &grid);
    let on_page = centred(size, scale);
    book.page(size, "Scale check and page map", &[(on_page, &first.inks)])
        .map_err(writer)?;
    let mut flow = Flow::new(&letters, size, &running);
    facts::set(&mut flow, &letters, pattern, options.form);
    let facts = flow.finish();
    for (i, page) in facts.iter().enumerate() {
        let entry = if i == 0 {
            "Cutting, measures, elastic".to_owned()
        } else {
            format!("Cutting, measures, elastic ({})", i + 1)
        };
        book.page(size, &entry, &[(View::page((1.0, 1.0)), &page.inks)])
            .map_err(writer)?;
    }
    let before = 1 + facts.len();
    let total = before + grid.tiles.len();
    let corner = Point::new(
        0.5 * (size.0 - grid.tile.0 * scale.0),
        0.5 * (size.1 - grid.tile.1 * scale.1),
    );
    for (i, tile) in grid.tiles.iter().enumerate() {
        let window = grid.window(*tile);
        let words = format!("page {} of {total}", before + i + 1);
        let furniture = tile_page::furniture(&letters, &grid, *tile, &crowd, &running, &words);
        let pattern_view = View {
            sheet: window.origin(),
            page: corner,
            scale,
            clip: Some(window),
            is_inverted: false,
        };
        let frame_view = View {
            sheet: Point::ZERO,
            page: corner,
            scale,
            clip: None,
            is_inverted: false,
        };
        let views: [(View, &[Ink]); 2] = [(pattern_view, &sheet.inks), (frame_view, &furniture.inks)];
        book.page(size, &format!("Tile {}", tile.code()), &views)
            .map_err(writer)?;
    }
    let (bytes, undrawn) = book.finish().map_err(writer)?;
    let count = TileCount {
        rows: grid.rows,
        columns: grid.columns,
        printed: grid.tiles.len(),
    };
    Ok(Printed {
        bytes,
        pages: total,
        tiles: Some(count),
        undrawn,
    })
}

/// Page 1 of [`tiled`] alone: the squares that prove the scale, and the page map. To be printed and measured first.
///
/// # Errors
/// As [`tiled`].
pub fn test_page(pattern: &Pattern<'_>, paper: Paper, options: &Options) -> Result<Printed, Refusal> {
    check(pattern, options)?;
    let letters = Lettering::load().map_err(writer)?;
    let drawn = draw_all(pattern, options, Weight::Paper, &letters);
    let (layout, grid) = tiles::fewest(&drawn.items, &drawn.outlines, tiles::tile_size(paper, options));
    let size = paper.size_mm();
    let mut book =
        Book::new(&Running::of(pattern).text(), "Test page: is it true to size?").map_err(writer)?;
    let first = front::page(&letters, size, pattern, options, &drawn.pieces, &layout, &grid);
    let on_page = centred(size, options.factors());
    book.page(size, "Scale check and page map", &[(on_page, &first.inks)])
        .map_err(writer)?;
    let (bytes, undrawn) = book.finish().map_err(writer)?;
    Ok(Printed {
        bytes,
        pages: 1,
        tiles: None,
        undrawn,
    })
}

/// A page stretched for the printer about its middle, so that margins stay even.
fn centred(size: (f64, f64), scale: (f64, f64)) -> View {
    let middle = Point::new(0.5 * size.0, 0.5 * size.1);
    View {
        sheet: middle,
        page: middle,
        scale,
        clip: None,
        is_inverted: false,
    }
}

pub(crate) fn check(pattern: &Pattern<'_>, options: &Options) -> Result<(), Refusal> {
    let mut faults = Vec::new();
    for result in [pattern.check(), options.check()] {
        if let Err(refusal) = result {
            faults.extend(refusal.faults);
        }
    }
    if faults.is_empty() {
        Ok(())
    } else {
        Err(Refusal { faults })
    }
}
