//! Cuts the sheet into tiles: which pages there are, what they are called, and which layout takes the fewest.
//!
//! A tile repeats its right and lower strip on the neighbour; the pages are joined by trimming the neighbour along its
//! left and upper frame and laying it on the dotted line. A tile with nothing on it is not printed, nor one whose little
//! is wholly in the strip its neighbour repeats.
//!
//! **Shapes and units.** mm on the sheet, y down.
//! **Source.** Tile of 190 x 254 mm for A4 and Letter alike, overlap of 10 mm: `data/trade/print.toml`. A printer whose white edge is
//! known gets the largest tile it can print, with room for rules and words beside it.

use kurbo::{Point, Rect, Vec2};

use crate::pack::{self, Item, Layout};
use crate::pattern::{Options, Paper};
use crate::room::thinned;

/// What a page repeats of its neighbour, mm.
pub(crate) const OVERLAP: f64 = 10.0;
/// What of the overlap counts as shown there: half a line's width must not be cut off, mm.
const REPEATED: f64 = OVERLAP - 0.5;
/// Frames keep this far from the sides of the page, mm (home printers).
const SIDE_MARGIN: f64 = 10.0;
/// ... and from its ends, where header and rule stand.
const END_MARGIN: f64 = 12.7;
/// What of these is rules, words and a hair of room; the rest is the white edge of a printer nobody asked: 5 mm.
const BESIDE: f64 = 5.0;
const ABOVE: f64 = 7.7;
/// The tile A4 and Letter share, so that both assemble alike.
const COMMON: (f64, f64) = (190.0, 254.0);
/// More columns than this are never tried.
const MOST_COLUMNS: usize = 12;

/// A page of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Tile {
    pub(crate) row: usize,
    pub(crate) column: usize,
}

impl Tile {
    /// `A1` is the upper left one.
    pub(crate) fn code(self) -> String {
        format!("{}{}", row_name(self.row), self.column + 1)
    }
}

/// A, B, ..., Z, AA, AB, ...
pub(crate) fn row_name(row: usize) -> String {
    let letter = |n: usize| char::from(b'A' + (n % 26) as u8);
    if row < 26 {
        letter(row).to_string()
    } else {
        format!("{}{}", row_name(row / 26 - 1), letter(row))
    }
}

/// The tile of a paper on this printer.
pub(crate) fn tile_size(paper: Paper, options: &Options) -> (f64, f64) {
    let (width, height) = paper.size_mm();
    let (sx, sy) = options.factors();
    // A drawing made larger for the printer leaves a smaller tile.
    let (side, end) = match options.white_edge {
        Some(edge) => (edge.get() + BESIDE, edge.get() + ABOVE),
        None => (SIDE_MARGIN, END_MARGIN),
    };
    let room = ((width - 2.0 * side) / sx, (height - 2.0 * end) / sy);
    match paper {
        Paper::A4 | Paper::Letter if options.white_edge.is_none() => {
            (room.0.min(COMMON.0), room.1.min(COMMON.1))
        }
        _ => room,
    }
}

/// The pages of a layout.
#[derive(Clone, Debug)]
pub(crate) struct Grid {
    /// Width and height of a tile.
    pub(crate) tile: (f64, f64),
    pub(crate) rows: usize,
    pub(crate) columns: usize,
    /// Printed ones, row by row.
    pub(crate) tiles: Vec<Tile>,
}

impl Grid {
    pub(crate) fn step(&self) -> Vec2 {
        Vec2::new(self.tile.0 - OVERLAP, self.tile.1 - OVERLAP)
    }

    /// What a tile shows.
    pub(crate) fn window(&self, tile: Tile) -> Rect {
        let step = self.step();
        let origin = Point::new(step.x * tile.column as f64, step.y * tile.row as f64);
        Rect::from_origin_size(origin, self.tile)
    }

    pub(crate) fn has(&self, row: usize, column: usize) -> bool {
        self.tiles.binary_search(&Tile { row, column }).is_ok()
    }

    /// Which tiles a layout needs.
    fn of(layout: &Layout, outlines: &[Vec<Point>], tile: (f64, f64)) -> Grid {
        let count = |length: f64, step: f64| ((length - OVERLAP) / step - 1e-9).ceil().max(1.0) as usize;
        let mut grid = Grid {
            tile,
            rows: 0,
            columns: 0,
            tiles: Vec::new(),
        };
        let step = grid.step();
        grid.columns = count(layout.width, step.x);
        grid.rows = count(layout.height, step.y);
        for row in 0..grid.rows {
            for column in 0..grid.columns {
                let tile = Tile { row, column };
                let mut own = grid.window(tile);
                // The strips to the right and below are the neighbours' to print, where there are any.
                if column + 1 < grid.columns {
                    own.x1 -= OVERLAP;
                }
                if row + 1 < grid.rows {
                    own.y1 -= OVERLAP;
                }
                let Some(used) = used(layout, outlines, own) else {
                    continue;
                };
                let is_repeated = (column > 0 && used.x1 <= own.x0 + REPEATED && grid.has(row, column - 1))
                    || (row > 0 && used.y1 <= own.y0 + REPEATED && grid.has(row - 1, column));
                if !is_repeated {
                    grid.tiles.push(tile);
                }
            }
        }
        grid
    }
}

/// Box of what lies on a part of the sheet; `None` if nothing does.
fn used(layout: &Layout, outlines: &[Vec<Point>], part: Rect) -> Option<Rect> {
    let mut all: Option<Rect> = None;
    for placed in &layout.placed {
        let Some(outline) = outlines.get(placed.item) else {
            continue;
        };
        let window = part - placed.at;
        for p in clipped(outline, window) {
            let p = p + placed.at;
            all = Some(all.map_or_else(|| Rect::from_points(p, p), |r| r.union_pt(p)));
        }
    }
    all
}

/// A polygon cut to a rectangle (Sutherland and Hodgman, Communications of the ACM 17, 1974); may keep edges along the
/// rectangle's sides, which only ever makes it larger.
fn clipped(outline: &[Point], r: Rect) -> Vec<Point> {
    let sides: [(Vec2, f64); 4] = [
        (Vec2::new(1.0, 0.0), r.x0),
        (Vec2::new(-1.0, 0.0), -r.x1),
        (Vec2::new(0.0, 1.0), r.y0),
        (Vec2::new(0.0, -1.0), -r.y1),
    ];
    let mut points = outline.to_vec();
    for (normal, limit) in sides {
        let inside = |p: Point| p.to_vec2().dot(normal) - limit;
        let mut next = Vec::with_capacity(points.len() + 4);
        let Some(mut last) = points.last().copied() else {
            break;
        };
        for p in points {
            let (a, b) = (inside(last), inside(p));
            if (a > 0.0) != (b > 0.0) {
                next.push(last.lerp(p, a / (a - b)));
            }
            if b > 0.0 {
                next.push(p);
            }
            last = p;
        }
        points = next;
    }
    points
}

/// The layout that takes the fewest pages, and its pages.
///
/// Tries every number of columns the widest piece allows, each with several orders. Equal counts go to the smaller
/// sheet, then to the one tried first.
pub(crate) fn fewest(items: &[Item], outlines: &[Vec<Point>], tile: (f64, f64)) -> (Layout, Grid) {
    let thin: Vec<Vec<Point>> = outlines.iter().map(|o| thinned(o)).collect();
    let widest = items.iter().map(|i| i.size.0).fold(0.0, f64::max);
    let step = tile.0 - OVERLAP;
    let least = (((widest - OVERLAP) / step).ceil().max(1.0) as usize).max(1);
    let side_by_side: f64 = items.iter().map(|i| i.size.0 + pack::GAP).sum();
    let mut best: Option<(usize, usize, Layout, Grid)> = None;
    for columns in least..=least.max(MOST_COLUMNS) {
        let width = step * columns as f64 + OVERLAP;
        // Wider than everything side by side changes nothing.
        if columns > least && width - step > side_by_side {
            break;
        }
        let orders = pack::orders(items);
        let tries = orders
            .iter()
            .flat_map(|order| pack::WAYS.map(|lay| lay(items, order, width)));
        for layout in tries {
            let grid = Grid::of(&layout, &thin, tile);
            let cost = (grid.tiles.len(), grid.rows * grid.columns);
            if best
                .as_ref()
                .is_none_or(|(pages, area, ..)| cost < (*pages, *area))
            {
                best = Some((cost.0, cost.1, layout, grid));
            }
        }
    }
    let empty = || {
        let layout = Layout {
            placed: Vec::new(),
            width: 0.0,
            height: 0.0,
        };
        let grid = Grid::of(&layout, &thin, tile);
        (layout, grid)
    };
    best.map_or_else(empty, |(_, _, layout, grid)| (layout, grid))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(side: f64) -> Vec<Point> {
        vec![
            Point::new(0.0, 0.0),
            Point::new(side, 0.0),
            Point::new(side, side),
            Point::new(0.0, side),
        ]
    }

    #[test]
    fn rows_are_named_like_a_map_past_z() {
        assert_eq!([0, 25, 26, 27, 52].map(row_name), ["A", "Z", "AA", "AB", "BA"]);
    }

    #[test]
    fn tiles_put_together_show_every_point_of_the_sheet() {
        let outline = square(500.0);
        let item = Item::new((500.0, 500.0), std::slice::from_ref(&outline));
        let (layout, grid) = fewest(&[item], &[outline], (190.0, 254.0));
        assert_eq!((grid.columns, grid.rows, grid.tiles.len()), (3, 3, 9));
        for i in 0..=100 {
            for j in 0..=100 {
                let p = Point::new(5.0 * f64::from(i), 5.0 * f64::from(j));
                assert!(
                    grid.tiles.iter().any(|t| {
                        let w = grid.window(*t).inflate(1e-9, 1e-9);
                        w.contains(p)
                    }),
                    "{p:?} is on no page of {layout:?}"
                );
            }
        }
    }

    #[test]
    fn empty_tiles_are_not_printed() {
        // A thin frame corner: nothing in the lower right.
        let l = vec![
            Point::new(0.0, 0.0),
            Point::new(500.0, 0.0),
            Point::new(500.0, 40.0),
            Point::new(40.0, 40.0),
            Point::new(40.0, 700.0),
            Point::new(0.0, 700.0),
        ];
        let item = Item::new((500.0, 700.0), std::slice::from_ref(&l));
        let (_, grid) = fewest(&[item], &[l], (190.0, 254.0));
        assert_eq!(grid.tiles.len(), 5);
        assert!(!grid.has(1, 1));
    }

    #[test]
    fn a_page_is_saved_when_its_neighbour_shows_the_same_strip() {
        let outline = square(189.0);
        let item = Item::new((189.0, 189.0), std::slice::from_ref(&outline));
        let (_, grid) = fewest(&[item], &[outline], (190.0, 254.0));
        assert_eq!(grid.tiles.len(), 1);
    }

    #[test]
    fn a_drawing_made_larger_for_the_printer_gets_a_smaller_tile() {
        use units::Mm;
        let options = Options {
            printer: Some(crate::MeasuredSquare {
                across: Mm::new(98.0),
                down: Mm::new(97.5),
            }),
            ..Options::default()
        };
        let (w, h) = tile_size(Paper::Letter, &options);
        let (sx, sy) = options.factors();
        assert!(w * sx <= 215.9 - 2.0 * SIDE_MARGIN + 1e-9 && h * sy <= 279.4 - 2.0 * END_MARGIN + 1e-9);
    }

    /// A printer that leaves less white gets larger tiles, one that leaves more gets smaller ones; 5 mm is what is usually left.
    #[test]
    fn a_known_white_edge_makes_the_tile() {
        use units::Mm;
        let tile = |paper, edge: Option<f64>| {
            let options = Options {
                white_edge: edge.map(Mm::new),
                ..Options::default()
            };
            tile_size(paper, &options)
        };
        for paper in [Paper::A4, Paper::Letter] {
            let (w, h) = tile(paper, None);
            assert!(
                (w - COMMON.0).abs() < 1e-9 && (h - COMMON.1).abs() < 1e-9,
                "{paper:?}: {w} x {h}"
            );
        }
        for paper in [Paper::A4, Paper::Letter, Paper::A3] {
            let (width, height) = paper.size_mm();
            let (w, h) = tile(paper, Some(5.0));
            assert!((w - (width - 2.0 * SIDE_MARGIN)).abs() < 1e-9, "{paper:?}: {w}");
            assert!((h - (height - 2.0 * END_MARGIN)).abs() < 1e-9, "{paper:?}: {h}");
            let (small, large) = (tile(paper, Some(12.0)), tile(paper, Some(3.0)));
            assert!((large.0 - small.0 - 18.0).abs() < 1e-9 && (large.1 - small.1 - 18.0).abs() < 1e-9);
        }
    }
}
