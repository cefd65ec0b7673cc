//! A pattern for a projector over the table: a grid to set it by, then the pieces in thick lines, dark on white and
//! white on black.
//!
//! The three pages have one size and one origin, so that turning the page moves nothing on the cloth. Pieces of a pair
//! stand there twice, left and right, because projected cloth is cut in one layer.
//!
//! **Shapes and units.** mm, y down from the inner corner.
//! **Source.** 50 mm grid, 1.5 mm lines, 2 mm tolerance: `data/trade/print.toml [projector]`, common practice.

use kurbo::{Point, Rect, Vec2};

use crate::book::{Book, LONGEST_PAGE_MM, View};
use crate::drawn::{self, Weight};
use crate::ink::{Drawing, Ink, Kind, PAPER, Pen, Plane, Role, Tone, closed};
use crate::lettering::{Face, Lettering, pt};
use crate::pack;
use crate::pattern::{Fault, Options, Pattern, PieceForm, Printed, Refusal};
use crate::pdf::{Drawn, check, draw_all, sheet_of, writer};
use crate::running::Running;

/// Squares of the grid, mm.
const GRID: f64 = 50.0;
/// Room for the rulers on each side, mm.
const RULER: f64 = 25.0;
/// The sheet is laid out this wide unless a piece is wider, mm: about what a projector covers.
const WIDTH: f64 = 1200.0;
const GRID_PLANE: Plane = Plane {
    kind: Kind::Grid,
    ..PAPER
};
const THIN: Pen = Pen::solid(0.5);
const THICK: Pen = Pen::solid(1.5);

/// A pattern for a projector: page 1 the grid, page 2 the pieces, page 3 the pieces white on black.
///
/// Printer corrections do not apply: the projector is set by the grid.
///
/// # Errors
/// [`Refusal`] with [`Fault::NoPieces`] and [`Fault::BrokenPiece`]; or [`Fault::PageTooLong`]; or [`Fault::Writer`].
pub fn projector(pattern: &Pattern<'_>, form: PieceForm) -> Result<Printed, Refusal> {
    let options = Options {
        form,
        ..Options::default()
    };
    check(pattern, &options)?;
    let letters = Lettering::load().map_err(writer)?;
    let drawn = with_pairs(
        draw_all(pattern, &options, Weight::Projected, &letters),
        pattern,
        form,
        &letters,
    );
    let widest = drawn.items.iter().map(|i| i.size.0).fold(WIDTH, f64::max);
    let layout = pack::orders(&drawn.items)
        .into_iter()
        .flat_map(|order| pack::WAYS.map(|lay| lay(&drawn.items, &order, widest)))
        .min_by(|a, b| {
            (a.height, a.width)
                .partial_cmp(&(b.height, b.width))
                .unwrap_or(std::cmp::Ordering::Equal)
        })
        .unwrap_or(pack::Layout {
            placed: Vec::new(),
            width: 0.0,
            height: 0.0,
        });
    // Whole squares, and one free square all round.
    let squares = |length: f64| ((length / GRID).ceil() + 2.0) * GRID;
    let inner = (
        squares(layout.width).max(14.0 * GRID),
        squares(layout.height).max(16.0 * GRID),
    );
    let size = (inner.0 + 2.0 * RULER, inner.1 + 2.0 * RULER);
    if let Some(side_mm) = [size.0, size.1].into_iter().find(|s| *s > LONGEST_PAGE_MM) {
        return Err(Refusal::of(Fault::PageTooLong { side_mm }));
    }
    let running = Running::of(pattern);
    let mut book =
        Book::new(&running.text(), "Sewing pattern at true scale, for a projector").map_err(writer)?;
    let origin = View {
        page: Point::new(RULER, RULER),
        ..View::page((1.0, 1.0))
    };
    let pieces_at = View {
        page: Point::new(RULER + GRID, RULER + GRID),
        ..origin
    };

    let grid = grid(inner, THIN);
    let frame = frame(&letters, inner, &running);
    let setting = setting_page(&letters, inner);
    let sheet = sheet_of(&drawn, &layout);
    let page_1: [(View, &[Ink]); 3] = [
        (origin, &grid.inks),
        (origin, &frame.inks),
        (origin, &setting.inks),
    ];
    book.page(size, "Set the projector", &page_1).map_err(writer)?;
    let page_2: [(View, &[Ink]); 2] = [(origin, &frame.inks), (pieces_at, &sheet.inks)];
    book.page(size, "Pieces", &page_2).map_err(writer)?;
    let dark = ground(size);
    let invert = |view: View| View {
        is_inverted: true,
        ..view
    };
    let page_3: [(View, &[Ink]); 3] = [
        (View::page((1.0, 1.0)), &dark.inks),
        (invert(origin), &frame.inks),
        (invert(pieces_at), &sheet.inks),
    ];
    book.page(size, "Pieces, white on black", &page_3)
        .map_err(writer)?;
    let (bytes, undrawn) = book.finish().map_err(writer)?;
    Ok(Printed {
        bytes,
        pages: 3,
        tiles: None,
        undrawn,
    })
}

/// Adds the other one of every pair.
fn with_pairs(mut drawn: Drawn, pattern: &Pattern<'_>, form: PieceForm, letters: &Lettering) -> Drawn {
    for piece in pattern
        .draft
        .pieces
        .iter()
        .filter(|p| p.cuts.iter().any(|c| c.mirrored))
    {
        let other = drawn::draw_mirrored(piece, pattern, form, Weight::Projected, letters);
        let footprint = other.footprint();
        drawn
            .items
            .push(pack::Item::new(other.size, std::slice::from_ref(&footprint)));
        drawn.outlines.push(footprint);
        drawn.pieces.push(other);
    }
    drawn
}

fn ground(size: (f64, f64)) -> Drawing {
    let mut d = Drawing::default();
    d.fill(
        PAPER,
        Tone::Black,
        closed(&drawn::rect_corners(Rect::new(0.0, 0.0, size.0, size.1))),
    );
    d
}

/// The grid over the whole sheet.
fn grid((w, h): (f64, f64), pen: Pen) -> Drawing {
    let mut d = Drawing::default();
    let count = |length: f64| (length / GRID).round() as u32;
    for i in 0..=count(w) {
        let x = f64::from(i) * GRID;
        d.line(GRID_PLANE, pen, Point::new(x, 0.0), Point::new(x, h));
    }
    for i in 0..=count(h) {
        let y = f64::from(i) * GRID;
        d.line(GRID_PLANE, pen, Point::new(0.0, y), Point::new(w, y));
    }
    d
}

/// Rulers on all four sides, in centimetres, and the name.
fn frame(letters: &Lettering, (w, h): (f64, f64), running: &Running) -> Drawing {
    let mut d = Drawing::default();
    d.rect(PAPER, THICK, Rect::new(0.0, 0.0, w, h));
    let sides: [(Point, Vec2, Vec2, f64); 4] = [
        (Point::new(0.0, 0.0), Vec2::new(1.0, 0.0), Vec2::new(0.0, -1.0), w),
        (Point::new(0.0, h), Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0), w),
        (Point::new(0.0, 0.0), Vec2::new(0.0, 1.0), Vec2::new(-1.0, 0.0), h),
        (Point::new(w, 0.0), Vec2::new(0.0, 1.0), Vec2::new(1.0, 0.0), h),
    ];
    for (from, along, out, length) in sides {
        for cm in 0..=(length / 10.0).round() as u32 {
            let at = from + along * (10.0 * f64::from(cm));
            let (reach, pen) = match cm % 10 {
                0 => (11.0, THICK),
                5 => (8.0, Pen::solid(1.0)),
                _ => (5.0, Pen::solid(1.0)),
            };
            d.line(PAPER, pen, at, at + out * reach);
            if cm % 10 == 0 && cm > 0 && f64::from(cm) * 10.0 < length - 40.0 {
                let line = letters.line(Face::Strong, pt(20.0), &format!("{cm}"));
                let middle = at + out * 17.5;
                let base = middle + Vec2::new(-0.5 * line.width, 0.36 * line.size);
                d.words(PAPER, line, base, Role::Aside);
            }
        }
    }
    let title = running.line(letters, Face::Title, pt(22.0), w - 2.0 * GRID);
    let role = Role::Paragraph(d.next_number());
    d.words(PAPER, title, Point::new(GRID * 0.2, h - 5.0), role);
    d
}

/// The part measured when setting, mm: small enough for one throw of the projector, large enough to show a keystone.
const BLOCK: f64 = 500.0;

/// What to set by: a block of ten squares by ten with both diagonals, squares of 100 mm in its corners and its middle,
/// and the steps below it.
fn setting_page(letters: &Lettering, (w, h): (f64, f64)) -> Drawing {
    let mut d = Drawing::default();
    let block = BLOCK.min(((w.min(h) - 2.0 * GRID) / (2.0 * GRID)).floor() * 2.0 * GRID);
    let area = Rect::new(GRID, GRID, GRID + block, GRID + block);
    d.rect(GRID_PLANE, THICK, area);
    let inner = area.inflate(-50.0, -50.0);
    let middles = [
        Point::new(inner.x0, inner.y0),
        Point::new(inner.x1, inner.y0),
        Point::new(inner.x1, inner.y1),
        Point::new(inner.x0, inner.y1),
        area.center(),
    ];
    for middle in middles {
        d.rect(GRID_PLANE, THICK, Rect::from_center_size(middle, (100.0, 100.0)));
    }
    for (from, to) in [
        (Point::new(area.x0, area.y0), Point::new(area.x1, area.y1)),
        (Point::new(area.x1, area.y0), Point::new(area.x0, area.y1)),
    ] {
        d.line(
            GRID_PLANE,
            Pen {
                dash: &[20.0, 10.0],
                ..THIN
            },
            from,
            to,
        );
    }
    let steps = [
        "Show this page at 100 %, one to one, and do not zoom again.".to_owned(),
        format!("The large square must measure {block:.0} mm on all four sides."),
        format!(
            "Its dashed diagonals must measure {:.0} mm, alike within 2 mm: if not, the projector does not look straight down.",
            block * std::f64::consts::SQRT_2
        ),
        "The small squares in its corners and its middle must measure 100 mm both ways.".to_owned(),
        "Turn to the next page without touching anything. Cut lines are solid, seams dashed.".to_owned(),
    ];
    let size = pt(22.0);
    let width = (w - 3.0 * GRID).min(11.0 * GRID);
    let left = GRID + 10.0;
    let mut lines = Vec::new();
    for (i, step) in steps.iter().enumerate() {
        lines.extend(letters.wrap(Face::Text, size, &format!("{}. {step}", i + 1), width));
    }
    let height = (lines.len() as f64 + 0.7) * 1.35 * size;
    let top = area.y1 + 12.0;
    let widest = lines.iter().map(|l| l.width).fold(0.0, f64::max);
    let card = Rect::new(left - 8.0, top - 4.0, left + widest + 8.0, top + height);
    d.fill(GRID_PLANE, Tone::White, closed(&drawn::rect_corners(card)));
    let number = d.next_number();
    for (i, line) in lines.into_iter().enumerate() {
        let y = top + (i as f64 + 1.0) * 1.35 * size;
        d.words(PAPER, line, Point::new(left, y), Role::Paragraph(number));
    }
    d
}
