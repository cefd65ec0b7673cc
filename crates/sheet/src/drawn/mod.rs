//! One piece as it is printed: its lines, marks and arrows, and the words placed among them.
//!
//! Lines come first, then the words beside the arrows, then the label, then everything small that has several places to
//! stand. What does not fit inside stands to the right of the piece with a line pointing to it.
//!
//! **Shapes and units.** In: the piece frame, mm, y up. Out: mm, y down, the upper left corner of everything drawn at the
//! origin. Turned over here, once.

mod marks;
mod mirror;
#[cfg(test)]
mod tests;
mod weight;
mod words;

pub(crate) use weight::Weight;

use draft::{EdgeUse, Piece, Shape};
use kurbo::{BezPath, PathEl, Point, Rect, Vec2};

use crate::ink::{Cloths, Drawing, Kind, Plane, closed, open, pens};
use crate::label;
use crate::lettering::Lettering;
use crate::pattern::{Pattern, PieceForm};
use crate::room::Room;

/// A piece ready to be laid on a sheet.
#[derive(Clone, Debug)]
pub(crate) struct DrawnPiece {
    pub(crate) key: String,
    pub(crate) letter: char,
    pub(crate) drawing: Drawing,
    /// The cut line.
    pub(crate) outline: Vec<Point>,
    /// Everything drawn, a label outside included; its upper left corner is the origin.
    pub(crate) size: (f64, f64),
}

impl DrawnPiece {
    /// What must lie on paper: the cut line, or the whole box if words stand outside it.
    pub(crate) fn footprint(&self) -> Vec<Point> {
        let right = self.outline.iter().map(|p| p.x).fold(0.0, f64::max);
        if self.size.0 > right + 2.0 {
            rect_corners(Rect::new(0.0, 0.0, self.size.0, self.size.1)).to_vec()
        } else {
            self.outline.clone()
        }
    }
}

/// Which cloths a piece is cut from.
fn cloths_of(piece: &Piece) -> Cloths {
    Cloths(piece.cuts.iter().fold(0, |bits, c| {
        bits | match c.layer {
            cloth::Layer::Shell => 1,
            cloth::Layer::Lining => 2,
            cloth::Layer::Mesh => 4,
            cloth::Layer::Contrast => 8,
        }
    }))
}

/// Draws a piece.
pub(crate) fn draw(
    piece: &Piece,
    pattern: &Pattern<'_>,
    form: PieceForm,
    weight: Weight,
    letters: &Lettering,
) -> DrawnPiece {
    let shape = match form {
        PieceForm::Whole => piece.whole(),
        PieceForm::Half => piece.as_drafted(),
    };
    draw_shape(piece, &piece.name, &shape, pattern, weight, letters)
}

/// Draws the other one of a pair: the piece turned over.
pub(crate) fn draw_mirrored(
    piece: &Piece,
    pattern: &Pattern<'_>,
    form: PieceForm,
    weight: Weight,
    letters: &Lettering,
) -> DrawnPiece {
    let shape = match form {
        PieceForm::Whole => piece.whole(),
        PieceForm::Half => piece.as_drafted(),
    };
    draw_shape(
        piece,
        &format!("{}, mirrored", piece.name),
        &mirror::mirrored(&shape),
        pattern,
        weight,
        letters,
    )
}

fn draw_shape(
    piece: &Piece,
    name: &str,
    shape: &Shape,
    pattern: &Pattern<'_>,
    weight: Weight,
    letters: &Lettering,
) -> DrawnPiece {
    let mut pen = PiecePen::new(piece, shape, weight, letters);
    pen.lines(shape);
    pen.notches(shape);
    pen.arcs(shape);
    pen.marks(shape);
    pen.arrows(shape);
    pen.arrow_words(piece, shape, pattern);
    let wanted = pen.flip(shape.label_at);
    let label = label::place(piece, name, pattern, &mut pen, wanted);
    pen.fold(shape, &label);
    pen.mark_words(shape);
    pen.finish(piece)
}

/// Draws one piece, keeping track of where there is room.
pub(crate) struct PiecePen<'a> {
    pub(crate) letters: &'a Lettering,
    pub(crate) weight: Weight,
    pub(crate) room: Room,
    pub(crate) drawing: Drawing,
    pub(crate) outline: Vec<Point>,
    cloths: Cloths,
    corner: Point,
}

impl<'a> PiecePen<'a> {
    fn new(piece: &Piece, shape: &Shape, weight: Weight, letters: &'a Lettering) -> PiecePen<'a> {
        let first = shape.cut_line.first().copied().unwrap_or_default();
        let bounds = shape
            .cut_line
            .iter()
            .fold(Rect::from_points(first, first), |r, p| r.union_pt(*p));
        let corner = Point::new(bounds.x0, bounds.y1);
        let outline: Vec<Point> = shape
            .cut_line
            .iter()
            .map(|p| Point::new(p.x - corner.x, corner.y - p.y))
            .collect();
        PiecePen {
            letters,
            weight,
            room: Room::new(&outline),
            drawing: Drawing::default(),
            outline,
            cloths: cloths_of(piece),
            corner,
        }
    }

    /// From the piece frame to the drawing: the one place where y turns over.
    pub(crate) fn flip(&self, p: Point) -> Point {
        Point::new(p.x - self.corner.x, self.corner.y - p.y)
    }

    fn flip_path(&self, path: &BezPath) -> BezPath {
        path.elements()
            .iter()
            .map(|el| match *el {
                PathEl::MoveTo(p) => PathEl::MoveTo(self.flip(p)),
                PathEl::LineTo(p) => PathEl::LineTo(self.flip(p)),
                PathEl::QuadTo(p, q) => PathEl::QuadTo(self.flip(p), self.flip(q)),
                PathEl::CurveTo(p, q, r) => PathEl::CurveTo(self.flip(p), self.flip(q), self.flip(r)),
                PathEl::ClosePath => PathEl::ClosePath,
            })
            .collect()
    }

    pub(crate) fn plane(&self, kind: Kind) -> Plane {
        Plane {
            cloths: self.cloths,
            kind,
        }
    }

    fn lines(&mut self, shape: &Shape) {
        let cut = self.weight.pen(pens::CUT);
        // On a half, the fold is drawn as a fold, not cut.
        let n = shape.cut_line.len();
        let on_fold = |p: &Point| shape.fold_is_edge && p.x.abs() < 1e-9;
        let gap = (0..n).find(|i| {
            shape.cut_line.get(*i).is_some_and(on_fold)
                && shape.cut_line.get((i + 1) % n).is_some_and(on_fold)
        });
        let path = match gap {
            Some(i) => {
                let run: Vec<Point> = self.outline.iter().cycle().skip(i + 1).take(n).copied().collect();
                open(&run)
            }
            None => closed(&self.outline),
        };
        let plane = self.plane(Kind::Cutting);
        self.drawing.path(plane, cut, path);
        let plane = self.plane(Kind::Seam);
        let seam = self.weight.pen(pens::SEAM);
        for run in seam_runs(shape) {
            let mut path = BezPath::new();
            for (i, edge) in run.iter().enumerate() {
                let edge_path = self.flip_path(&edge.curve.to_path());
                path.extend(edge_path.elements().iter().skip(usize::from(i > 0)).copied());
                let points: Vec<Point> = edge
                    .curve
                    .flatten(0.2)
                    .into_iter()
                    .map(|p| self.flip(p))
                    .collect();
                self.room.keep_off_seam(&points);
            }
            self.drawing.path(plane, seam, path);
        }
        if let Some((foot, head)) = shape.fold_line {
            let line = [self.flip(foot), self.flip(head)];
            self.room.keep_off_fold(&line);
        }
    }

    /// The finished piece, moved so that everything drawn lies right of and below the origin.
    fn finish(self, piece: &Piece) -> DrawnPiece {
        let first = self.outline.first().copied().unwrap_or_default();
        let start = Rect::from_points(first, first);
        let cut = self
            .outline
            .iter()
            .fold(start, |r, p| r.union_pt(*p))
            .inflate(0.5, 0.5);
        let all = self.drawing.inks.iter().fold(cut, |r, ink| r.union(ink.bounds()));
        let by = Vec2::new(-all.x0, -all.y0);
        let mut drawing = Drawing::default();
        drawing.add(&self.drawing, by);
        DrawnPiece {
            key: piece.key.clone(),
            letter: piece.letter,
            drawing,
            outline: self.outline.into_iter().map(|p| p + by).collect(),
            size: (all.width(), all.height()),
        }
    }
}

/// Edges that follow on each other, so that a dashed seam runs on through their joints.
fn seam_runs(shape: &Shape) -> Vec<Vec<&draft::PieceEdge>> {
    let mut runs: Vec<Vec<&draft::PieceEdge>> = Vec::new();
    for edge in shape
        .seam_line
        .iter()
        .filter(|e| e.role != EdgeUse::Fold && !e.curve.cubics().is_empty())
    {
        match runs.last_mut() {
            Some(run)
                if run
                    .last()
                    .is_some_and(|l| (l.curve.end() - edge.curve.start()).hypot() < 1e-6) =>
            {
                run.push(edge);
            }
            _ => runs.push(vec![edge]),
        }
    }
    runs
}

fn unit(v: Vec2) -> Option<Vec2> {
    let length = v.hypot();
    (length > 1e-6).then(|| v / length)
}

pub(crate) fn rect_corners(r: Rect) -> [Point; 4] {
    [
        Point::new(r.x0, r.y0),
        Point::new(r.x1, r.y0),
        Point::new(r.x1, r.y1),
        Point::new(r.x0, r.y1),
    ]
}
