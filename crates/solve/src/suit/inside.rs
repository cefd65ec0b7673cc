//! Lines inside a piece along which its mesh is cut: the free edge of a lining, a skirt's join.
//!
//! Where such a line meets an edge, that edge gets a point (and through a seam its partner too); between, the line is divided into even
//! parts.
//!
//! **Shapes and units.** mm, flat.

use draft::geometry::Curve;
use draft::{OpenKind, Piece};
use kurbo::{ParamCurve, ParamCurveArclen, ParamCurveNearest, Point};

use crate::seams::{Division, EdgeAt};

/// The end of a line lies on an edge when it is this near, mm.
const ON_EDGE_MM: f64 = 3.0;
/// Straight stretches that stand for an edge lie within this of it, mm.
pub(super) const FLAT_MM: f64 = 0.2;
/// Accuracy of lengths along an edge, mm.
const ARC_MM: f64 = 0.01;

/// A line inside a piece.
#[derive(Clone, Debug)]
pub(super) struct Inside {
    curve: Curve,
    /// The edge each end lies on, and the share of its length.
    ends: [Option<(EdgeAt, f64)>; 2],
    /// Into how many parts it is divided.
    pub(super) parts: usize,
    /// The open edge it is of a lining, by the lining's number in the draft, where elastic may lie on it.
    pub(super) open: Option<(OpenKind, usize)>,
}

impl Inside {
    /// `None` for a line whose middle lies outside the piece.
    pub(super) fn new(piece: &Piece, number: usize, curve: Curve, edge_mm: f64) -> Option<Inside> {
        let outline: Vec<Point> = piece
            .edges
            .iter()
            .flat_map(|e| e.curve.flatten(FLAT_MM))
            .collect();
        if !holds(&outline, curve.at_length(curve.length() / 2.0).0) {
            return None;
        }
        let ends = [curve.start(), curve.end()].map(|p| on_edge(piece, number, p));
        let parts = (curve.length() / edge_mm).round().max(1.0) as usize;
        Some(Inside {
            curve,
            ends,
            parts,
            open: None,
        })
    }

    /// Its length, mm.
    pub(super) fn length(&self) -> f64 {
        self.curve.length()
    }

    /// The edges it ends on.
    pub(super) fn stations(&self) -> impl Iterator<Item = (EdgeAt, f64)> {
        self.ends.iter().flatten().copied()
    }

    /// Its points, ends included: those that lie on an edge are the edge's own.
    pub(super) fn points(&self, piece: &Piece, division: &Division) -> Vec<[f64; 2]> {
        let own = |end: Option<(EdgeAt, f64)>, p: Point| -> Point {
            let Some((at, share)) = end else { return p };
            let shares = division.shares.get(&at).map_or(&[][..], Vec::as_slice);
            let (Some(s), Some(edge)) = (shares.get(division.number(at, share)), piece.edges.get(at.1))
            else {
                return p;
            };
            edge.curve.at_length(s * edge.curve.length()).0
        };
        let (from, to) = (
            own(self.ends[0], self.curve.start()),
            own(self.ends[1], self.curve.end()),
        );
        let moved = [from - self.curve.start(), to - self.curve.end()];
        let length = self.curve.length();
        (0..=self.parts)
            .map(|i| {
                let share = i as f64 / self.parts as f64;
                let p = match i {
                    0 => from,
                    i if i == self.parts => to,
                    _ => self.curve.at_length(share * length).0 + moved[0] * (1.0 - share) + moved[1] * share,
                };
                [p.x, p.y]
            })
            .collect()
    }
}

/// Whether a point lies inside a closed outline.
pub(super) fn holds(outline: &[Point], p: Point) -> bool {
    let mut is_inside = false;
    for (i, a) in outline.iter().enumerate() {
        let b = outline[(i + 1) % outline.len()];
        if (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x) {
            is_inside = !is_inside;
        }
    }
    is_inside
}

/// The edge of a piece a point lies on, and the share of its length there.
fn on_edge(piece: &Piece, number: usize, p: Point) -> Option<(EdgeAt, f64)> {
    let mut best: Option<(f64, EdgeAt, f64)> = None;
    for (e, edge) in piece.edges.iter().enumerate() {
        let mut before = 0.0;
        for cubic in edge.curve.cubics() {
            let near = cubic.nearest(p, ARC_MM);
            let off = near.distance_sq.sqrt();
            if off < ON_EDGE_MM && best.is_none_or(|b| off < b.0) {
                let along = before + cubic.subsegment(0.0..near.t).arclen(ARC_MM);
                let share = along / edge.curve.length().max(ARC_MM);
                best = Some((off, (number, e), share.clamp(0.0, 1.0)));
            }
            before += cubic.arclen(ARC_MM);
        }
    }
    best.map(|(_, at, share)| (at, share))
}
