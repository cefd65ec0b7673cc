//! A step of the work on the suit's own pieces: what is sewn drawn heavy, the side that lies up shaded when it is the wrong
//! one, a needle where it enters.
//!
//! **Shapes and units.** Whole pieces in flat mm, side by side at one scale; the drawing in page mm.

use draft::{Piece, Shape};
use kurbo::{Point, Rect, Vec2};

use super::piece::{FLATTEN_MM, MARGIN, STITCHES, outline};
use super::place::{Place, bounds};
use super::svg::{Anchor, INK, Letters, MM_PER_PT, OAT, PAPER, Stroke, Svg, WASH};
use crate::model::Figure;

/// What is done to the heavy edges.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Hot {
    /// Sewn: stitches.
    Sewn,
    /// Elastic lies on them: a band.
    Elastic,
    /// Nothing: the piece is only shown.
    Plain,
}

/// One piece of a step.
#[derive(Clone, Debug)]
pub(crate) struct Drawn<'a> {
    /// The piece.
    pub(crate) piece: &'a Piece,
    /// What it is called.
    pub(crate) name: &'a str,
    /// Names of the edges that are worked on.
    pub(crate) edges: Vec<&'a str>,
    /// Whether the wrong side lies up.
    pub(crate) is_wrong_side_up: bool,
}

/// Between two pieces, mm.
const GAP: f64 = 6.0;
/// Room for a needle beside a piece, mm.
const NEEDLE: f64 = 7.0;
/// Pieces are drawn at a quarter at most: a crotch lining need not fill the page.
const MOST_SCALE: f64 = 0.25;
const BAND_MM: f64 = 1.7;

/// The pieces of a step side by side, at most so large. `None` when there are none.
pub(crate) fn pieces_with_hot_edges(
    pieces: &[Drawn<'_>],
    hot: Hot,
    size: (f64, f64),
    says: String,
) -> Option<Figure> {
    let shapes: Vec<(Shape, Rect)> = pieces
        .iter()
        .map(|d| {
            let shape = d.piece.whole();
            let bounds = bounds(&shape.cut_line);
            (shape, bounds)
        })
        .collect();
    let wide: f64 = shapes.iter().map(|(_, b)| b.width()).sum();
    let high = shapes.iter().map(|(_, b)| b.height()).fold(0.0, f64::max);
    if wide <= 0.0 || high <= 0.0 {
        return None;
    }
    let gaps = GAP * (shapes.len() - 1) as f64 + 2.0 * NEEDLE;
    // Two lines of names below.
    let room = (size.0 - gaps - 2.0 * MARGIN, size.1 - 2.0 * MARGIN - 2.0 * ROW);
    let scale = (room.0 / wide).min(room.1 / high).min(MOST_SCALE);
    let mut labels = Vec::new();
    let mut left = MARGIN + NEEDLE;
    for (drawn, (_, b)) in pieces.iter().zip(&shapes) {
        let w = b.width() * scale;
        labels.push((left + 0.5 * w, lines_of(drawn.name, w + GAP - 1.0)));
        left += w + GAP;
    }
    let names = stagger(labels);
    let rows = names.iter().map(|n| n.row + n.lines.len()).max().unwrap_or(1) as f64;
    let foot = high * scale + 2.0 * MARGIN;
    let height = foot + ROW * rows + 0.8;
    // A name may be wider than the pieces: the drawing is widened, never the name cut.
    let over = names.iter().map(|n| MARGIN - n.left()).fold(0.0, f64::max);
    let right = names.iter().map(|n| n.right() + MARGIN).fold(0.0, f64::max);
    let width = over + right.max(wide * scale + gaps + 2.0 * MARGIN);
    let mut svg = Svg::new(width, height);
    let mut x = over + MARGIN + NEEDLE;
    let mut needle = None;
    for (drawn, (shape, b)) in pieces.iter().zip(&shapes) {
        let w = b.width() * scale;
        let place = Place::fitting(*b, (x, MARGIN), (w, foot - 2.0 * MARGIN), scale);
        let fill = if drawn.is_wrong_side_up { WASH } else { PAPER };
        outline(&mut svg, shape, place, fill);
        for line in runs(shape, &drawn.edges) {
            let line = place.points(&line);
            match hot {
                Hot::Sewn => {
                    svg.path(&line, false, None, Some(Stroke::solid(1.5).in_colour(PAPER)));
                    svg.path(&line, false, None, Some(STITCHES));
                }
                Hot::Elastic => band(&mut svg, &line),
                Hot::Plain => {}
            }
            if hot != Hot::Plain && needle.is_none() {
                needle = middle(&line);
            }
        }
        x += w + GAP;
    }
    for name in &names {
        for (i, line) in name.lines.iter().enumerate() {
            let at = (over + name.middle, foot + ROW * ((name.row + i) as f64 + 0.8));
            svg.words(line, at, Anchor::Middle, NAME);
        }
    }
    if let Some((at, along)) = needle {
        draw_needle(&mut svg, at, along, (width, foot));
    }
    Some(svg.finish(says, String::new()))
}

const NAME: Letters = Letters::voice(8.5);
/// Height of a line of names below the pieces, mm.
const ROW: f64 = 3.9;

/// A name below its piece.
#[derive(Debug)]
struct Name<'a> {
    middle: f64,
    /// The row its first line stands in.
    row: usize,
    lines: Vec<&'a str>,
}

impl Name<'_> {
    fn half(&self) -> f64 {
        let longest = self.lines.iter().map(|l| l.chars().count()).max().unwrap_or(0);
        0.5 * WIDE * longest as f64
    }

    fn left(&self) -> f64 {
        self.middle - self.half()
    }

    fn right(&self) -> f64 {
        self.middle + self.half()
    }
}

/// Names in rows, so that none touches another: one that would stands below its neighbour.
fn stagger(labels: Vec<(f64, Vec<&str>)>) -> Vec<Name<'_>> {
    let mut names: Vec<Name<'_>> = Vec::new();
    for (middle, lines) in labels {
        let mut name = Name {
            middle,
            row: 0,
            lines,
        };
        let is_free = |name: &Name<'_>| {
            let mut touched = names.iter().filter(|n| n.right() + 1.0 > name.left());
            touched.all(|n| n.row + n.lines.len() <= name.row || name.row + name.lines.len() <= n.row)
        };
        // Below all that is there it is free at last.
        while !is_free(&name) {
            name.row += 1;
        }
        names.push(name);
    }
    names
}

/// Besley's letters are at most so wide on the average, mm.
const WIDE: f64 = 0.58 * 8.5 * MM_PER_PT;

/// A name in as many lines as it takes not to reach its neighbour's: one, or two.
fn lines_of(name: &str, room: f64) -> Vec<&str> {
    let most = (room / WIDE).floor().max(1.0) as usize;
    if name.chars().count() <= most {
        return vec![name];
    }
    let breaks = name.match_indices(' ').map(|(at, _)| at);
    let best = breaks.min_by_key(|at| at.abs_diff(name.len() / 2));
    match best {
        Some(at) => vec![name[..at].trim_end(), name[at..].trim_start()],
        None => vec![name],
    }
}

/// The edges of those names as lines; one that goes on where another ends is one line with it, as it is one run of the needle.
fn runs(shape: &Shape, names: &[&str]) -> Vec<Vec<Point>> {
    /// Ends nearer than this meet, mm of cloth.
    const MEET: f64 = 0.5;
    let mut runs: Vec<Vec<Point>> = Vec::new();
    for edge in shape.seam_line.iter().filter(|e| names.contains(&e.name)) {
        let line = edge.curve.flatten(FLATTEN_MM);
        let Some(start) = line.first().copied() else {
            continue;
        };
        match runs.last_mut() {
            Some(run) if run.last().is_some_and(|end| end.distance(start) < MEET) => {
                run.extend(line.into_iter().skip(1));
            }
            _ => runs.push(line),
        }
    }
    // The outline is a ring: its last edge may go on in its first.
    let closes = |a: &[Point], b: &[Point]| {
        let ends = a.last().zip(b.first());
        ends.is_some_and(|(end, start)| end.distance(*start) < MEET)
    };
    if runs.len() > 1
        && let (Some(first), Some(last)) = (runs.first(), runs.last())
        && closes(last, first)
    {
        let first = runs.remove(0);
        if let Some(last) = runs.last_mut() {
            last.extend(first.into_iter().skip(1));
        }
    }
    runs
}

/// Elastic on an edge: two lines and a rung every few millimetres; its ends are cut square.
pub(super) fn band(svg: &mut Svg, line: &[Point]) {
    svg.path(line, false, None, Some(Stroke::square(BAND_MM + 0.7)));
    svg.path(line, false, None, Some(Stroke::square(BAND_MM).in_colour(OAT)));
    svg.path(
        line,
        false,
        None,
        Some(Stroke {
            dash: &[0.25, 1.9],
            ..Stroke::square(BAND_MM)
        }),
    );
}

/// The middle of a line of points, and the way along it there.
fn middle(line: &[Point]) -> Option<(Point, Vec2)> {
    let whole: f64 = line.windows(2).map(|w| (w[1] - w[0]).hypot()).sum();
    let mut gone = 0.0;
    for pair in line.windows(2) {
        let [a, b] = pair else { continue };
        let step = *b - *a;
        let length = step.hypot();
        if length > 0.0 && gone + length >= 0.5 * whole {
            return Some((*a + step * ((0.5 * whole - gone) / length), step / length));
        }
        gone += length;
    }
    None
}

/// A needle whose point touches the stitches, from outside the piece.
pub(super) fn draw_needle(svg: &mut Svg, at: Point, along: Vec2, room: (f64, f64)) {
    // Outlines run counter-clockwise in the flat pattern, outside right of travel; the page has y down.
    let out = Vec2::new(-along.y, along.x);
    let (long, thick) = (6.4, 0.55);
    let mut end = at + out * long;
    if end.x < 0.3 || end.x > room.0 - 0.3 || end.y < 0.3 || end.y > room.1 {
        end = at - out * long;
    }
    let way = (end - at) / long;
    let side = Vec2::new(-way.y, way.x) * thick;
    let shoulder = at + way * 1.6;
    svg.path(
        &[at, shoulder + side, end + side, end - side, shoulder - side],
        true,
        Some(PAPER),
        Some(Stroke::solid(0.25)),
    );
    let eye = at + way * 2.2;
    svg.circle((eye.x, eye.y), 0.22, Some(INK), None);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_below_narrow_pieces_do_not_touch() {
        let labels = vec![
            (8.0, vec!["Vorderteil"]),
            (20.0, vec!["Reißverschlussuntertritt"]),
            (31.0, vec!["Kragen"]),
            (80.0, vec!["Ärmel"]),
            (92.0, vec!["Futter des mittleren", "Vorderteils"]),
            (108.0, vec!["Futter des seitlichen", "Vorderteils"]),
        ];
        let names = stagger(labels);
        for (i, a) in names.iter().enumerate() {
            for b in names.iter().skip(i + 1) {
                let apart = a.right() <= b.left() || b.right() <= a.left();
                let below = a.row + a.lines.len() <= b.row || b.row + b.lines.len() <= a.row;
                assert!(apart || below, "{a:?} {b:?}");
            }
        }
        assert_eq!(names[3].row, 0);
    }
}
