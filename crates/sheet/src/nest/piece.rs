//! One piece of the nest: the lines of every size, their names where the lines lie farthest apart, and what they share.

use draft::{Mark, Shape};
use kurbo::{BezPath, Point, Rect, Vec2};
use range::NestPiece;

use crate::drawn::rect_corners;
use crate::ink::{Cloths, Drawing, Kind, Plane, Role, Tone, closed, open, pens};
use crate::lettering::{Face, Lettering, Line, NOTE, pt};
use crate::nest::pens::of_size;
use crate::pattern::PieceForm;
use crate::wording;

/// What all sizes share lies in these planes; each size in one of its own.
pub(super) const WORDS: Plane = Plane {
    cloths: Cloths(0),
    kind: Kind::Words,
};
const MARKS: Plane = Plane {
    cloths: Cloths(0),
    kind: Kind::Marks,
};
/// Everything of a size.
pub(super) const SIZE: Plane = Plane {
    cloths: Cloths(0),
    kind: Kind::Cutting,
};

/// Directions tried for the names of sizes.
const RAYS: usize = 72;
/// Names beside each other along their lines, mm.
const ASIDE: f64 = 11.0;
/// A notch as it is drawn, mm.
const NOTCH_LEAST: f64 = 2.5;
/// The fold line keeps so far from a piece's words, mm.
const CLEAR: f64 = 2.0;

/// A drawn piece: common things, and one drawing a size of the whole nest (empty where the size has no such piece).
pub(super) struct DrawnNest {
    pub(super) common: Drawing,
    pub(super) sizes: Vec<Drawing>,
    pub(super) outlines: Vec<Vec<Point>>,
    pub(super) size: (f64, f64),
}

/// From the piece frame to the drawing: y turns over here, once.
struct Frame {
    corner: Point,
}

impl Frame {
    fn at(&self, p: Point) -> Point {
        Point::new(p.x - self.corner.x, self.corner.y - p.y)
    }
}

pub(super) fn draw(
    piece: &NestPiece,
    sizes: &[String],
    form: PieceForm,
    letters: &Lettering,
) -> Option<DrawnNest> {
    let shapes: Vec<(usize, Shape)> = piece
        .layers
        .iter()
        .map(|l| (l.size, l.shape(form == PieceForm::Whole)))
        .collect();
    let (_, smallest) = shapes.first()?;
    let mut points = shapes.iter().flat_map(|(_, s)| s.cut_line.iter().copied());
    let first = points.next()?;
    let bounds = points.fold(Rect::from_points(first, first), |r, p| r.union_pt(p));
    let frame = Frame {
        corner: Point::new(bounds.x0, bounds.y1),
    };
    let mut drawn = DrawnNest {
        common: Drawing::default(),
        sizes: vec![Drawing::default(); sizes.len()],
        outlines: Vec::new(),
        size: (0.0, 0.0),
    };
    let outlines: Vec<Vec<Point>> = shapes
        .iter()
        .map(|(_, s)| s.cut_line.iter().map(|p| frame.at(*p)).collect())
        .collect();
    for ((size, shape), outline) in shapes.iter().zip(&outlines) {
        if let Some(drawing) = drawn.sizes.get_mut(*size) {
            lines(drawing, *size, shape, outline, &frame);
        }
    }
    name_sizes(
        &mut drawn,
        &shapes,
        &outlines,
        sizes,
        frame.at(smallest.label_at),
        letters,
    );
    // The fold of all sizes together: from the lowest foot to the highest head.
    let folds = shapes.iter().filter_map(|(_, s)| s.fold_line);
    let fold = folds.reduce(|a, b| {
        let foot = if b.0.y < a.0.y { b.0 } else { a.0 };
        let head = if b.1.y > a.1.y { b.1 } else { a.1 };
        (foot, head)
    });
    let words = shared(&mut drawn.common, piece, smallest, sizes, &frame, letters);
    if let Some((foot, head)) = fold {
        for (from, to) in round_words(frame.at(foot), frame.at(head), words) {
            drawn.common.line(MARKS, pens::FOLD, from, to);
        }
    }
    settle(drawn, outlines)
}

fn lines(drawing: &mut Drawing, size: usize, shape: &Shape, outline: &[Point], frame: &Frame) {
    drawing.path(SIZE, of_size(size), cut_path(shape, outline));
    for notch in &shape.notches {
        let along = Vec2::new(-notch.inward.y, notch.inward.x);
        let apart: &[f64] = if notch.double { &[-1.5, 1.5] } else { &[0.0] };
        for off in apart {
            let foot = notch.at + along * *off;
            let head = foot + notch.inward * notch.depth_mm.max(NOTCH_LEAST);
            drawing.line(SIZE, pens::CROSS, frame.at(foot), frame.at(head));
        }
    }
    for mark in &shape.marks {
        if let Mark::Cross { at, .. } = mark {
            let at = frame.at(*at);
            for arm in [Vec2::new(3.0, 0.0), Vec2::new(0.0, 3.0)] {
                drawing.line(SIZE, pens::CROSS, at - arm, at + arm);
            }
        }
    }
}

/// An upright line in one part, or in two where it would run through words.
fn round_words(foot: Point, head: Point, words: Rect) -> Vec<(Point, Point)> {
    let words = words.inflate(CLEAR, CLEAR);
    let runs_through = (words.x0..=words.x1).contains(&foot.x) && head.y < words.y0 && words.y1 < foot.y;
    if runs_through {
        vec![
            (foot, Point::new(foot.x, words.y1)),
            (Point::new(head.x, words.y0), head),
        ]
    } else {
        vec![(foot, head)]
    }
}

/// The cutting line; on a half without its fold, which all sizes share and which is drawn once.
fn cut_path(shape: &Shape, outline: &[Point]) -> BezPath {
    let n = shape.cut_line.len();
    let on_fold =
        |i: usize| shape.fold_is_edge && shape.cut_line.get(i % n).is_some_and(|p| p.x.abs() < 1e-9);
    match (0..n).find(|i| on_fold(*i) && on_fold(i + 1)) {
        Some(i) => {
            let run: Vec<Point> = outline.iter().cycle().skip(i + 1).take(n).copied().collect();
            open(&run)
        }
        None => closed(outline),
    }
}

/// How near a point lies to an outline.
fn nearest(outline: &[Point], p: Point) -> f64 {
    let n = outline.len();
    (0..n)
        .filter_map(|i| {
            let (a, b) = (*outline.get(i)?, *outline.get((i + 1) % n)?);
            let side = b - a;
            let t = ((p - a).dot(side) / side.hypot2().max(1e-12)).clamp(0.0, 1.0);
            Some((a + side * t - p).hypot())
        })
        .fold(f64::INFINITY, f64::min)
}

/// Where the ray from `from` leaves the outline for the last time.
fn leaves(outline: &[Point], from: Point, way: Vec2) -> Option<Point> {
    let n = outline.len();
    (0..n)
        .filter_map(|i| {
            let (a, b) = (*outline.get(i)?, *outline.get((i + 1) % n)?);
            let side = b - a;
            let det = way.cross(side);
            if det.abs() < 1e-12 {
                return None;
            }
            let (t, u) = ((a - from).cross(side) / det, (a - from).cross(way) / det);
            (t > 0.0 && (0.0..=1.0).contains(&u)).then_some(t)
        })
        .reduce(f64::max)
        .map(|t| from + way * t)
}

/// Sets the name of every size on its line where neighbours lie farthest apart, staggered along the line.
fn name_sizes(
    drawn: &mut DrawnNest,
    shapes: &[(usize, Shape)],
    outlines: &[Vec<Point>],
    sizes: &[String],
    from: Point,
    letters: &Lettering,
) {
    // The least distance between neighbours where the ray crosses them.
    let gap_along = |way: Vec2| -> Option<f64> {
        let hits: Option<Vec<Point>> = outlines.iter().map(|o| leaves(o, from, way)).collect();
        let gaps = hits?
            .into_iter()
            .zip(outlines.iter().skip(1))
            .map(|(p, next)| nearest(next, p));
        Some(gaps.fold(f64::INFINITY, f64::min))
    };
    let best = (0..RAYS)
        .map(|i| {
            let angle = std::f64::consts::TAU * i as f64 / RAYS as f64;
            Vec2::new(angle.cos(), angle.sin())
        })
        // Never towards the fold, where all lines lie on each other.
        .filter(|way| way.x > 0.2)
        .filter_map(|way| Some((gap_along(way)?, way)))
        .reduce(|a, b| if b.0 > a.0 + 1e-9 { b } else { a });
    let Some((gap, way)) = best else { return };
    for (i, ((size, _), outline)) in shapes.iter().zip(outlines).enumerate() {
        let (Some(name), Some(drawing)) = (sizes.get(*size), drawn.sizes.get_mut(*size)) else {
            continue;
        };
        let line = letters.line(Face::Strong, pt(8.0), name);
        // Three abreast where steps are too narrow for names behind each other.
        let aside = if gap > line.width + 2.0 {
            0.0
        } else {
            (i % 3) as f64 - 1.0
        };
        let reach = leaves(outline, from, way)
            .map_or(100.0, |p| (p - from).hypot())
            .max(20.0);
        let turned = way + Vec2::new(-way.y, way.x) * (aside * (ASIDE + 0.5 * line.width) / reach);
        if let Some(at) = leaves(outline, from, turned).or_else(|| leaves(outline, from, way)) {
            on_white(drawing, line, at);
        }
    }
}

/// A word centred on a point, the line under it taken out.
fn on_white(drawing: &mut Drawing, line: Line, at: Point) {
    let (w, up) = (line.width, line.ascent());
    let box_of = Rect::new(
        at.x - 0.5 * w - 0.7,
        at.y - 0.5 * up - 0.5,
        at.x + 0.5 * w + 0.7,
        at.y + 0.5 * up + 0.5,
    );
    drawing.fill(SIZE, Tone::White, closed(&rect_corners(box_of)));
    drawing.words(
        SIZE,
        line,
        Point::new(at.x - 0.5 * w, at.y + 0.42 * up),
        Role::Aside,
    );
}

/// Waist, arrows and words: once for all sizes, within the smallest.
fn shared(
    common: &mut Drawing,
    piece: &NestPiece,
    smallest: &Shape,
    sizes: &[String],
    frame: &Frame,
    letters: &Lettering,
) -> Rect {
    for mark in &smallest.marks {
        if let Mark::LevelLine { from, to, text } = mark
            && text == "waist"
        {
            common.line(MARKS, pens::LEVEL, frame.at(*from), frame.at(*to));
            let (a, b) = (frame.at(*from), frame.at(*to));
            let word = letters.line(Face::Text, NOTE, text);
            common.words(
                WORDS,
                word,
                Point::new(a.x.min(b.x) + 8.0, a.y - 1.5),
                Role::Aside,
            );
        }
    }
    let (foot, head) = (frame.at(smallest.grain.from), frame.at(smallest.grain.to));
    arrow(common, foot, head, false);
    let (from, to) = (frame.at(smallest.stretch.from), frame.at(smallest.stretch.to));
    arrow(common, from, to, true);
    for (text, ends) in [("grain", (foot, head)), ("stretch", (from, to))] {
        let word = letters.line(Face::Text, NOTE, text);
        let at = ends.0.lerp(ends.1, 0.72);
        common.words(WORDS, word, at + Vec2::new(2.0, -1.5), Role::Aside);
    }
    label(
        common,
        piece,
        sizes,
        frame.at(smallest.label_at),
        smallest,
        frame,
        letters,
    )
}

/// Name and words of a piece round their middle; the box they fill.
fn label(
    common: &mut Drawing,
    piece: &NestPiece,
    sizes: &[String],
    at: Point,
    smallest: &Shape,
    frame: &Frame,
    letters: &Lettering,
) -> Rect {
    let of: Vec<&str> = piece
        .layers
        .iter()
        .filter_map(|l| sizes.get(l.size).map(String::as_str))
        .collect();
    let mut below = Vec::new();
    if let Some(layer) = piece.layers.first() {
        below.push(wording::cut(&layer.piece.cuts));
    }
    match of.as_slice() {
        [] => {}
        [one] => below.push(format!("size {one}")),
        [first, .., last] => below.push(format!("{} sizes, {first} to {last}", of.len())),
    }
    below.push(piece.stacked.words().to_owned());
    if !piece.missing.is_empty() {
        below.push(format!("not in {}", piece.missing.join(", ")));
    }
    // As wide as the smallest size is where the label stands.
    let outline: Vec<Point> = smallest.cut_line.iter().map(|p| frame.at(*p)).collect();
    let reach = |way: Vec2| leaves(&outline, at, way).map_or(20.0, |p| (p - at).hypot());
    let room = (2.0 * reach(Vec2::new(1.0, 0.0)).min(reach(Vec2::new(-1.0, 0.0))) - 12.0).clamp(30.0, 95.0);
    let mut set: Vec<(Line, f64)> = Vec::new();
    let mut y = 0.0;
    for line in letters.wrap_most(Face::Title, pt(18.0), &piece.name, room, 2) {
        y += pt(18.0) * 1.15;
        set.push((line, y));
    }
    for text in &below {
        for line in letters.wrap_most(Face::Text, pt(9.5), text, room, 3) {
            y += pt(9.5) * 1.35;
            set.push((line, y));
        }
    }
    let number = common.next_number();
    let width = set.iter().map(|(line, _)| line.width).fold(0.0, f64::max);
    for (line, down) in set {
        let x = at.x - 0.5 * line.width;
        common.words(
            WORDS,
            line,
            Point::new(x, at.y - 0.5 * y + down),
            Role::Paragraph(number),
        );
    }
    Rect::from_center_size(at, (width, y))
}

fn arrow(common: &mut Drawing, from: Point, to: Point, is_double: bool) {
    let length = (to - from).hypot();
    if length < 1e-6 {
        return;
    }
    let way = (to - from) / length;
    let across = Vec2::new(-way.y, way.x);
    let pen = if is_double { pens::STRETCH } else { pens::GRAIN };
    common.line(MARKS, pen, from, to);
    let mut head = |tip: Point, way: Vec2| {
        let path = open(&[
            tip - way * 5.0 + across * 2.2,
            tip,
            tip - way * 5.0 - across * 2.2,
        ]);
        common.path(MARKS, pen, path);
    };
    head(to, way);
    if is_double {
        head(from, -way);
    }
}

/// Moves everything so that it lies right of and below the origin.
fn settle(drawn: DrawnNest, outlines: Vec<Vec<Point>>) -> Option<DrawnNest> {
    let inks = drawn
        .sizes
        .iter()
        .chain(std::iter::once(&drawn.common))
        .flat_map(|d| &d.inks);
    let all = inks.map(crate::ink::Ink::bounds).reduce(|a, b| a.union(b))?;
    let by = Vec2::new(-all.x0, -all.y0);
    let moved = |d: &Drawing| {
        let mut out = Drawing::default();
        out.add(d, by);
        out
    };
    Some(DrawnNest {
        common: moved(&drawn.common),
        sizes: drawn.sizes.iter().map(moved).collect(),
        outlines: outlines
            .into_iter()
            .map(|o| o.into_iter().map(|p| p + by).collect())
            .collect(),
        size: (all.width(), all.height()),
    })
}
