//! What is drawn on a piece besides its outline: notches, ends of elastic arcs, crosses, levels, placements, arrows.
//!
//! **Shapes and units.** In: the piece frame, mm, y up; turned over by the pen.

use draft::{Arrow, EdgeUse, Mark, Shape};
use kurbo::{BezPath, Point, Rect, Vec2};

use super::{PiecePen, rect_corners, unit};
use crate::ink::{Kind, Role, Tone, closed, open, pens};
use crate::lettering::{Face, LEAST};
use crate::room::{Crossing, distance_to_segment};

impl PiecePen<'_> {
    /// Filled triangles on the cut line, pointing in.
    pub(super) fn notches(&mut self, shape: &Shape) {
        /// Base on the cut line, mm.
        const BASE: f64 = 5.0;
        /// Middles of a double notch, mm apart.
        const APART: f64 = 6.5;
        let plane = self.plane(Kind::Marks);
        for notch in &shape.notches {
            let along = Vec2::new(-notch.inward.y, notch.inward.x);
            let middles: &[f64] = if notch.double {
                &[-0.5 * APART, 0.5 * APART]
            } else {
                &[0.0]
            };
            for m in middles {
                let at = notch.at + along * *m;
                let triangle = [
                    at - along * (0.5 * BASE),
                    at + notch.inward * notch.depth_mm,
                    at + along * (0.5 * BASE),
                ]
                .map(|p| self.flip(p));
                self.drawing.fill(plane, Tone::Black, closed(&triangle));
                self.room.take(&triangle);
            }
        }
    }

    /// Two short strokes across the edge and a ring with the letter at the inner end.
    pub(super) fn arcs(&mut self, shape: &Shape) {
        /// Strokes apart, mm.
        const APART: f64 = 1.8;
        /// How far the strokes reach past the seam line, mm.
        const PAST: f64 = 3.0;
        let k = self.weight.letters();
        let radius = 2.5 * k;
        let plane = self.plane(Kind::Marks);
        let pen = self.weight.pen(pens::ARC);
        for mark in &shape.marks {
            let Mark::ArcEnd { at, inward, letter } = mark else {
                continue;
            };
            let along = Vec2::new(-inward.y, inward.x);
            let out = *inward * -allowance_at(shape, *at);
            for side in [-0.5 * APART * k, 0.5 * APART * k] {
                let from = self.flip(*at + out + along * side);
                let to = self.flip(*at + *inward * PAST + along * side);
                self.drawing.line(plane, pen, from, to);
            }
            let middle = self.ring_place(*at, *inward, PAST, radius);
            self.drawing.ring(plane, pen, middle, radius);
            let line = self.letters.line(Face::Strong, LEAST * k, &letter.to_string());
            let at_words = middle + Vec2::new(-0.5 * line.width, 0.36 * line.size);
            let words = self.plane(Kind::Words);
            self.drawing.words(words, line, at_words, Role::Aside);
            let square = Rect::from_center_size(middle, (2.0 * radius, 2.0 * radius));
            self.room.take(&rect_corners(square));
            self.room
                .keep_off(&[self.flip(*at + out), self.flip(*at + *inward * PAST)]);
        }
    }

    /// At the inner end of the strokes; on a narrow strap, where the other edge's ring stands there already, nearer or
    /// farther or beside them.
    pub(super) fn ring_place(&self, at: Point, inward: Vec2, past: f64, radius: f64) -> Point {
        let along = Vec2::new(-inward.y, inward.x);
        let usual = past + radius;
        let beside = radius + 2.0;
        // On the fold the ring stands beside its line, where the letter can be read.
        let off_fold = [(usual, radius + 1.2), (usual, -radius - 1.2)];
        let on_fold = if at.x.abs() < 1e-6 {
            off_fold.as_slice()
        } else {
            &[]
        };
        let places = [
            (usual, 0.0),
            (usual + radius, 0.0),
            (radius - 0.3, beside),
            (radius - 0.3, -beside),
            (usual + 3.0 * radius, 0.0),
        ];
        on_fold
            .iter()
            .copied()
            .chain(places)
            .map(|(deep, aside)| self.flip(at + inward * deep + along * aside))
            .find(|m| {
                let square = Rect::from_center_size(*m, (2.0 * radius, 2.0 * radius));
                self.room.is_free(&rect_corners(square), Crossing::FoldAndSeams)
            })
            .unwrap_or_else(|| self.flip(at + inward * usual))
    }

    pub(super) fn marks(&mut self, shape: &Shape) {
        let plane = self.plane(Kind::Marks);
        for mark in &shape.marks {
            match mark {
                Mark::Cross { at, .. } => {
                    const ARM: f64 = 4.0;
                    let at = self.flip(*at);
                    let pen = self.weight.pen(pens::CROSS);
                    for arm in [Vec2::new(ARM, 0.0), Vec2::new(0.0, ARM)] {
                        self.drawing.line(plane, pen, at - arm, at + arm);
                    }
                    self.room
                        .take(&rect_corners(Rect::from_center_size(at, (2.0 * ARM, 2.0 * ARM))));
                }
                Mark::LevelLine { from, to, .. } => {
                    let (from, to) = (self.flip(*from), self.flip(*to));
                    let pen = self.weight.pen(pens::LEVEL);
                    self.drawing.line(plane, pen, from, to);
                    self.room.keep_off(&[from, to]);
                }
                Mark::Placement { curve, .. } => {
                    let pen = self.weight.pen(pens::PLACEMENT);
                    let path = self.flip_path(&curve.to_path());
                    self.drawing.path(plane, pen, path);
                    let points: Vec<Point> = curve.flatten(0.2).into_iter().map(|p| self.flip(p)).collect();
                    self.room.keep_off(&points);
                }
                Mark::ArcEnd { .. } => {}
            }
        }
    }

    pub(super) fn arrows(&mut self, shape: &Shape) {
        let plane = self.plane(Kind::Marks);
        // Grain: a bar at the foot, an open head.
        let (foot, head) = self.ends(shape.grain);
        if let Some(way) = unit(head - foot) {
            let across = Vec2::new(-way.y, way.x);
            let pen = self.weight.pen(pens::GRAIN);
            let size = (0.12 * (head - foot).hypot()).clamp(2.0, 6.0 * self.weight.letters());
            self.drawing.line(plane, pen, foot, head);
            self.drawing
                .line(plane, pen, foot - across * 2.6, foot + across * 2.6);
            self.drawing.path(plane, pen, barbs(head, way, size));
            self.room.take(&[
                foot - across * 2.6,
                foot + across * 2.6,
                head + across * 2.2,
                head - across * 2.2,
            ]);
        }
        // Greater stretch: a head at both ends and three ribs in the middle.
        let (from, to) = self.ends(shape.stretch);
        if let Some(way) = unit(to - from) {
            let across = Vec2::new(-way.y, way.x);
            let pen = self.weight.pen(pens::STRETCH);
            let size = (0.12 * (to - from).hypot()).clamp(2.0, 6.0 * self.weight.letters());
            self.drawing.line(plane, pen, from, to);
            self.drawing.path(plane, pen, barbs(to, way, size));
            self.drawing.path(plane, pen, barbs(from, -way, size));
            let middle = from.midpoint(to);
            for rib in [-2.4, 0.0, 2.4] {
                let at = middle + way * (rib * self.weight.letters());
                self.drawing
                    .line(plane, pen, at - across * 3.0, at + across * 3.0);
            }
            self.room.take(&[
                from - across * 3.0,
                from + across * 3.0,
                to + across * 3.0,
                to - across * 3.0,
            ]);
        }
    }

    pub(super) fn ends(&self, arrow: Arrow) -> (Point, Point) {
        (self.flip(arrow.from), self.flip(arrow.to))
    }
}

/// Allowance of the edge a point of the seam line lies on.
fn allowance_at(shape: &Shape, at: Point) -> f64 {
    let is_open = |e: &&draft::PieceEdge| matches!(e.role, EdgeUse::Open(_));
    shape
        .seam_line
        .iter()
        .filter(is_open)
        .map(|e| {
            let near = e
                .curve
                .flatten(0.2)
                .windows(2)
                .map(|w| distance_to_segment(at, w[0], w[1]))
                .fold(f64::INFINITY, f64::min);
            (near, e.allowance_mm)
        })
        .fold(
            (f64::INFINITY, 0.0),
            |best, new| if new.0 < best.0 { new } else { best },
        )
        .1
}

/// An open arrow head.
fn barbs(head: Point, way: Vec2, size: f64) -> BezPath {
    let across = Vec2::new(-way.y, way.x);
    let back = head - way * size;
    open(&[back - across * (0.32 * size), head, back + across * (0.32 * size)])
}
