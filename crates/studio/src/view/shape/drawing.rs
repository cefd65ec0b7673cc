//! Pieces as the pages draw them: SVG paths in mm, y down, numbers to a tenth.

use std::fmt::Write;

use draft::geometry::Curve;
use draft::{CutCount, EdgeUse, Mark, Piece, PieceEdge, Shape};
use kurbo::{PathEl, Point, Vec2};

use super::{MarkView, NamedEdge, PieceView};
use crate::view::{Frame, Spot};

/// A point of a piece (y up) on the page (y down).
pub(in crate::view) fn spot(p: Point) -> Spot {
    Spot {
        x: tenth(p.x),
        y: tenth(-p.y),
    }
}

fn tenth(x: f64) -> f64 {
    let x = (x * 10.0).round() / 10.0;
    if x == 0.0 { 0.0 } else { x }
}

/// A number of a path: a tenth of a millimetre, no more digits than it takes.
fn put(out: &mut String, x: f64) {
    let x = tenth(x);
    if !out.is_empty() && !out.ends_with(|c: char| c.is_ascii_alphabetic()) {
        out.push(' ');
    }
    let _ = write!(out, "{x}");
}

fn put_point(out: &mut String, p: Point) {
    put(out, p.x);
    put(out, -p.y);
}

/// How far a drawn line may lie off its points, mm: half of the last digit written.
const DRAWN_TO: f64 = 0.05;

/// The points of a polygon that its drawing needs: those without which it would lie more than [`DRAWN_TO`] elsewhere
/// (Douglas and Peucker 1973). The first stays where it is.
fn sparse(points: &[Point]) -> Vec<Point> {
    let n = points.len();
    if n < 4 {
        return points.to_vec();
    }
    let at = |i: usize| points[i % n];
    let mut is_kept = vec![false; n + 1];
    // Cut first where the outline is farthest from its start, so that no stretch ends where it began.
    let far = (0..n)
        .max_by(|&a, &b| (at(a) - at(0)).hypot2().total_cmp(&(at(b) - at(0)).hypot2()))
        .unwrap_or(n / 2);
    (is_kept[0], is_kept[far]) = (true, true);
    let mut stretches = vec![(0, far), (far, n)];
    while let Some((from, to)) = stretches.pop() {
        let (a, b) = (at(from), at(to));
        let chord = (b - a).hypot().max(1e-9);
        let off = |i: usize| ((b - a).cross(at(i) - a) / chord).abs();
        let farthest = (from + 1..to).max_by(|&i, &j| off(i).total_cmp(&off(j)));
        if let Some(i) = farthest.filter(|&i| off(i) > DRAWN_TO) {
            is_kept[i] = true;
            stretches.extend([(from, i), (i, to)]);
        }
    }
    (0..n).filter(|&i| is_kept[i]).map(at).collect()
}

/// A closed polygon.
pub(in crate::view) fn polygon(points: &[Point]) -> String {
    let mut out = String::with_capacity(points.len() * 12);
    for (i, p) in points.iter().enumerate() {
        out.push(if i == 0 { 'M' } else { 'L' });
        put_point(&mut out, *p);
    }
    if !points.is_empty() {
        out.push('Z');
    }
    out
}

/// Curves one after another; joined where they meet.
pub(in crate::view) fn curves<'a>(all: impl IntoIterator<Item = &'a Curve>) -> String {
    let mut out = String::new();
    let mut at: Option<Point> = None;
    for curve in all {
        for (i, element) in curve.to_path().elements().iter().enumerate() {
            match *element {
                PathEl::MoveTo(p) => {
                    if i == 0 && at.is_some_and(|a| (a - p).hypot() < 0.05) {
                        continue;
                    }
                    out.push('M');
                    put_point(&mut out, p);
                }
                PathEl::LineTo(p) => {
                    out.push('L');
                    put_point(&mut out, p);
                }
                PathEl::QuadTo(a, p) => {
                    out.push('Q');
                    put_point(&mut out, a);
                    put_point(&mut out, p);
                }
                PathEl::CurveTo(a, b, p) => {
                    out.push('C');
                    put_point(&mut out, a);
                    put_point(&mut out, b);
                    put_point(&mut out, p);
                }
                PathEl::ClosePath => out.push('Z'),
            }
        }
        at = Some(curve.end());
    }
    out
}

/// The seam line of a shape.
pub(in crate::view) fn seam_line(shape: &Shape) -> String {
    curves(shape.seam_line.iter().map(|e| &e.curve))
}

/// The box around points, y down.
pub(in crate::view) fn frame(points: &[Point]) -> Frame {
    let start = (f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY);
    let (x0, y0, x1, y1) = points.iter().fold(start, |(x0, y0, x1, y1), p| {
        (x0.min(p.x), y0.min(-p.y), x1.max(p.x), y1.max(-p.y))
    });
    if points.is_empty() {
        return Frame {
            x: 0.0,
            y: 0.0,
            width: 0.0,
            height: 0.0,
        };
    }
    Frame {
        x: tenth(x0),
        y: tenth(y0),
        width: tenth(x1 - x0),
        height: tenth(y1 - y0),
    }
}

/// A whole piece.
pub(super) fn piece(piece: &Piece) -> PieceView {
    let shape = piece.whole();
    let mut notches = String::new();
    for notch in &shape.notches {
        let side = Vec2::new(-notch.inward.y, notch.inward.x) * 2.5;
        let tip = notch.at + notch.inward * notch.depth_mm;
        for (i, p) in [notch.at + side, tip, notch.at - side].into_iter().enumerate() {
            notches.push(if i == 0 { 'M' } else { 'L' });
            put_point(&mut notches, p);
        }
        notches.push('Z');
    }
    PieceView {
        key: piece.key.clone(),
        name: piece.name.clone(),
        letter: piece.letter.to_string(),
        cut: cut_words(&piece.cuts),
        layer: piece
            .cuts
            .first()
            .map_or_else(String::new, |c| c.layer.name().to_owned()),
        frame: frame(&shape.cut_line),
        cut_line: polygon(&sparse(&shape.cut_line)),
        seam_line: seam_line(&shape),
        fold_line: shape
            .fold_line
            .filter(|_| !shape.fold_is_edge)
            .map(|(a, b)| polyline(&[a, b])),
        marks: shape.marks.iter().filter_map(mark).collect(),
        notches,
        grain: [spot(shape.grain.from), spot(shape.grain.to)],
        stretch: [spot(shape.stretch.from), spot(shape.stretch.to)],
        label: spot(shape.label_at),
        edges: piece
            .edges
            .iter()
            .filter(|e| e.role != EdgeUse::Fold)
            .map(|e| NamedEdge {
                name: e.name.to_owned(),
                path: whole_edge(piece, e),
            })
            .collect(),
    }
}

/// `1 shell, 1 lining`.
fn cut_words(cuts: &[CutCount]) -> String {
    let words: Vec<String> = cuts
        .iter()
        .map(|c| format!("{} {}", c.count, c.layer.name()))
        .collect();
    words.join(", ")
}

pub(in crate::view) fn polyline(points: &[Point]) -> String {
    polygon(points).trim_end_matches('Z').to_owned()
}

fn mark(mark: &Mark) -> Option<MarkView> {
    let view = |kind: &str, path: String, words: &str, at: Point| {
        Some(MarkView {
            kind: kind.to_owned(),
            path,
            words: words.to_owned(),
            at: spot(at),
        })
    };
    match mark {
        Mark::LevelLine { from, to, text } => {
            // The word stands at the left end, where the mirrored half begins.
            let left = if from.x < to.x { *from } else { *to };
            view("level", polyline(&[*from, *to]), text, left)
        }
        Mark::Placement { curve, text } => view("placement", curves([curve]), text, curve.start()),
        Mark::Cross { at, text } => {
            const ARM: f64 = 5.0;
            let path = format!(
                "{}{}",
                polyline(&[*at - Vec2::new(ARM, 0.0), *at + Vec2::new(ARM, 0.0)]),
                polyline(&[*at - Vec2::new(0.0, ARM), *at + Vec2::new(0.0, ARM)])
            );
            view("cross", path, text, *at)
        }
        // Letters of the elastic's arcs belong to the ruler, not to the shaping.
        Mark::ArcEnd { .. } => None,
    }
}

/// An edge on both halves of its piece.
pub(super) fn whole_edge(piece: &Piece, edge: &PieceEdge) -> String {
    if !piece.on_fold {
        return curves([&edge.curve]);
    }
    let other = edge.curve.mirrored();
    if edge.curve.end().x.abs() < 1e-6 {
        // Over the fold in one line.
        curves([&edge.curve, &other])
    } else {
        curves([&other, &edge.curve])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drawn_circle_keeps_its_shape_with_few_points() {
        let circle: Vec<Point> = (0..4000)
            .map(|i| {
                let angle = std::f64::consts::TAU * f64::from(i) / 4000.0;
                Point::new(100.0 * angle.cos(), 100.0 * angle.sin())
            })
            .collect();
        let drawn = sparse(&circle);
        // A chord of a circle of 100 mm lies 0.05 mm off at 3.6 degrees: 99 of them, and twice as many when halved.
        assert!((60..260).contains(&drawn.len()), "{}", drawn.len());
        for (i, a) in drawn.iter().enumerate() {
            let middle = a.midpoint(drawn[(i + 1) % drawn.len()]);
            assert!(100.0 - middle.to_vec2().hypot() <= DRAWN_TO + 1e-9);
        }
    }

    #[test]
    fn corners_stay() {
        let square = [
            (0.0, 0.0),
            (50.0, 0.0),
            (100.0, 0.0),
            (100.0, 100.0),
            (0.0, 100.0),
        ];
        let square: Vec<Point> = square.iter().map(|&(x, y)| Point::new(x, y)).collect();
        let drawn = sparse(&square);
        assert_eq!(drawn.len(), 4);
        assert!(drawn.iter().all(|p| p.x != 50.0));
    }
}
