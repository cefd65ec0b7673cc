//! What hangs from the suit: a skirt, joined along a line inside the torso's pieces or along their upper edge.
//!
//! Cloth without bending that hangs free is slack all over: solved with the suit it took more than 300 steps and did not end. So a skirt is not
//! part of the mesh. Its weight pulls on its join, evenly; when the suit is solved it is let down from where the join lies, straight down
//! off the body's widest place, as long as it was cut.
//!
//! **Shapes and units.** mm, flat and form frame; kg/m^2; N.
//! **Source.** Weight of a swim knit where none is given: 0.2 kg/m^2, own.
//! **Limits.** A full skirt hangs in folds that are not drawn: the height of its hem is what is shown, not its flare. It rests nowhere: what it
//! weighs on the hips below the join is left out. Dry.

use draft::geometry::Curve;
use draft::{Draft, EdgeUse, Mark, OpenKind};
use kurbo::Point;

use super::inside::Inside;
use super::part::{Meshed, Part};
use crate::body_field::BodyField;
use crate::field::Field;
use crate::seams::EdgeAt;
use crate::vector::{V3, add_scaled, norm, sub};

/// Weight of cloth that was not weighed, kg/m^2 (own).
pub const ASSUMED_KG_PER_M2: f64 = 0.2;
/// Standard gravity, N/kg, per mm^2 of a m^2.
const N_PER_KG_MM2: f64 = 9.806_65e-6;
/// How far above the skin it hangs, mm.
const ABOVE_SKIN: f64 = 1.5;
/// Steps down a line, mm.
const STEP: f64 = 5.0;
/// Rows of a drape.
const ROWS: usize = 12;

/// The words on a torso piece where a skirt joins.
const JOIN_WORDS: &str = "skirt joins here";

/// A quarter of a skirt, front or back, left or right: where it is sewn and what of it hangs there.
#[derive(Clone, Debug, PartialEq)]
pub struct Hanging {
    /// Key of its piece.
    pub piece: String,
    /// The vertices of its join from the middle to the side, with their shares of its length.
    pub join: Vec<(f64, usize)>,
    /// How long it hangs, mm.
    pub length_mm: f64,
    /// Its cloth, mm^2.
    pub area_mm2: f64,
}

/// A quarter of a skirt as it hangs.
#[derive(Clone, Debug, PartialEq)]
pub struct Drape {
    /// Points, form frame, row by row from the join down.
    pub points: Vec<[f64; 3]>,
    /// Triangles, counter-clockwise seen from outside.
    pub triangles: Vec<[usize; 3]>,
    /// The points of its hem.
    pub hem: Vec<usize>,
}

impl Hanging {
    /// The force on each vertex of its join at a weight of cloth, N down.
    pub(super) fn loads(&self, kg_per_m2: f64) -> Vec<(usize, f64)> {
        let whole = self.area_mm2 * kg_per_m2 * N_PER_KG_MM2;
        let last = self.join.len().saturating_sub(1);
        let span = self.join.last().map_or(1.0, |j| j.0) - self.join.first().map_or(0.0, |j| j.0);
        (0..self.join.len())
            .map(|i| {
                let (before, after) = (self.join[i.saturating_sub(1)].0, self.join[(i + 1).min(last)].0);
                (self.join[i].1, whole * (after - before) / 2.0 / span.max(1e-9))
            })
            .collect()
    }

    /// How it hangs from where the suit's vertices lie.
    pub(crate) fn drape(&self, positions: &[[f64; 3]], body: &BodyField) -> Drape {
        let columns = self.join.len();
        let lines: Vec<Vec<V3>> = self
            .join
            .iter()
            .map(|(_, v)| let_down(body, positions[*v], self.length_mm))
            .collect();
        let mut points = Vec::with_capacity(columns * (ROWS + 1));
        for row in 0..=ROWS {
            points.extend(lines.iter().filter_map(|line| line.get(row)));
        }
        let mut triangles = Vec::new();
        for row in 0..ROWS {
            for column in 0..columns.saturating_sub(1) {
                let a = row * columns + column;
                let (b, c, d) = (a + 1, a + columns, a + columns + 1);
                triangles.extend([[a, c, d], [a, d, b]]);
            }
        }
        // Joins run from the middle to the side: outside is to one hand in front on her left, to the other behind or on her right.
        let top = |line: Option<&Vec<V3>>| line.and_then(|l| l.first()).copied().unwrap_or_default();
        let (from, to) = (top(lines.first()), top(lines.last()));
        let is_turned = from[2] * to[0] - from[0] * to[2] < 0.0;
        if is_turned {
            for t in &mut triangles {
                t.swap(1, 2);
            }
        }
        Drape {
            hem: (ROWS * columns..(ROWS + 1) * columns).collect(),
            points,
            triangles,
        }
    }
}

/// Points of a line of that length let down from a point: where it would go into the body it is pushed out level, and never comes back in.
fn let_down(body: &BodyField, from: V3, length: f64) -> Vec<V3> {
    let mut line = vec![from];
    let mut at = from;
    let mut done = 0.0;
    for row in 1..=ROWS {
        let until = length * row as f64 / ROWS as f64;
        while done < until - 1e-9 {
            let step = STEP.min(until - done);
            let mut next = [at[0], at[1] - step, at[2]];
            for _ in 0..4 {
                let there = body.sample(next);
                let mut out = [there.gradient[0], 0.0, there.gradient[2]];
                if at[0] == 0.0 {
                    out[0] = 0.0;
                }
                let squared = out[0] * out[0] + out[2] * out[2];
                if there.g >= ABOVE_SKIN - 0.01 || squared < 0.04 {
                    break;
                }
                next = add_scaled(next, ((ABOVE_SKIN - there.g) / squared).min(15.0), out);
            }
            // What goes outwards is used up as well.
            done += norm(sub(next, at)).max(step);
            at = next;
        }
        line.push(at);
    }
    line
}

/// Where a stretch of a join lies.
#[derive(Clone, Copy, Debug)]
pub(super) enum Along {
    /// A line inside a piece: order of the piece among those meshed, number of the line on it.
    Line(usize, usize),
    /// An open edge of a piece, and whether it is drawn from the side to the middle.
    Edge(EdgeAt, bool),
}

/// A quarter of a skirt with the stretches of its join, each with its length.
#[derive(Clone, Debug)]
pub(super) struct Quarter {
    pub(super) hanging: Hanging,
    pub(super) stretches: Vec<(Along, f64)>,
}

/// The quarters of a suit's skirt. Lines their join needs inside pieces are added to `lines`. `None` when a part of the join is found on no
/// piece.
pub(super) fn quarters(
    draft: &Draft,
    used: &[Meshed],
    lines: &mut [Vec<Inside>],
    is_whole: bool,
    edge_mm: f64,
) -> Option<Vec<Quarter>> {
    let Some(skirt) = draft.pieces.iter().find(|p| p.key == "skirt") else {
        return Some(Vec::new());
    };
    let length_mm = skirt.edge("side")?.curve.length();
    let drawn: f64 = skirt.edges.iter().map(|e| e.curve.signed_area()).sum();
    // A half on the fold is drawn for a quarter of the skirt; unfolded it is two.
    let is_half = skirt.edges.iter().any(|e| e.role == EdgeUse::Fold);
    let area_mm2 = if is_half { drawn } else { drawn / 2.0 };
    let mut quarters = Vec::new();
    for is_front in [true, false] {
        for is_right in [false, true] {
            if is_right && !is_whole {
                continue;
            }
            let mut stretches = Vec::new();
            for (order, edge, curve) in chain(draft, used, is_front, is_right) {
                let length = curve.length();
                let along = match edge {
                    Some((at, is_inwards)) => Along::Edge(at, is_inwards),
                    None => {
                        let number = used[order].number;
                        lines[order].push(Inside::new(&draft.pieces[number], number, curve, edge_mm)?);
                        Along::Line(order, lines[order].len() - 1)
                    }
                };
                stretches.push((along, length));
            }
            if stretches.is_empty() {
                return None;
            }
            quarters.push(Quarter {
                hanging: Hanging {
                    piece: skirt.key.clone(),
                    join: Vec::new(),
                    length_mm,
                    area_mm2,
                },
                stretches,
            });
        }
    }
    Some(quarters)
}

impl Quarter {
    /// The quarter with its join: `points` gives a stretch's vertices from the middle to the side.
    pub(super) fn sewn(mut self, points: impl Fn(Along) -> Vec<usize>) -> Hanging {
        let total: f64 = self.stretches.iter().map(|s| s.1).sum();
        let mut before = 0.0;
        for (along, length) in &self.stretches {
            let vertices = points(*along);
            let parts = vertices.len().saturating_sub(1).max(1) as f64;
            for (i, v) in vertices.into_iter().enumerate() {
                let share = (before + length * i as f64 / parts) / total.max(1e-9);
                if self.hanging.join.last().is_none_or(|j| j.1 != v) {
                    self.hanging.join.push((share, v));
                }
            }
            before += length;
        }
        self.hanging
    }
}

/// The stretches of a join on one half and side, from the middle outwards: order of the piece, the edge if it is one, the line.
#[allow(clippy::type_complexity, reason = "private, read once")]
fn chain(
    draft: &Draft,
    used: &[Meshed],
    is_front: bool,
    is_right: bool,
) -> Vec<(usize, Option<(EdgeAt, bool)>, Curve)> {
    let mut chain = Vec::new();
    let torso = used
        .iter()
        .enumerate()
        .filter(|(_, m)| m.part == (Part::Torso { is_front }));
    let is_side = |x: f64| if is_right { x < 0.0 } else { x > 0.0 };
    for (order, meshed) in torso.clone() {
        for mark in &draft.pieces[meshed.number].marks {
            let Mark::Placement { curve, text } = mark else {
                continue;
            };
            if text != JOIN_WORDS {
                continue;
            }
            let (mut from, mut to) = (curve.start(), curve.end());
            if from.x * to.x < -1.0 {
                // Drawn over the fold: this side's part of it.
                let middle = from.lerp(to, from.x / (from.x - to.x));
                (from, to) = (middle, if is_side(to.x) { to } else { from });
            }
            if from.x.abs() > to.x.abs() {
                (from, to) = (to, from);
            }
            if is_side(to.x) {
                chain.push((order, None, Curve::line(from, to)));
            }
        }
    }
    if chain.is_empty() {
        for (order, meshed) in torso {
            for (e, edge) in draft.pieces[meshed.number].edges.iter().enumerate() {
                let (from, to) = (edge.curve.start(), edge.curve.end());
                if edge.role == EdgeUse::Open(OpenKind::Waist) && is_side(from.x + to.x) {
                    let is_inwards = from.x.abs() > to.x.abs();
                    let at = (meshed.number, e);
                    let curve = if is_inwards {
                        edge.curve.reversed()
                    } else {
                        edge.curve.clone()
                    };
                    chain.push((order, Some((at, is_inwards)), curve));
                }
            }
        }
    }
    let middle = |c: &Curve| -> f64 { Point::midpoint(c.start(), c.end()).x.abs() };
    chain.sort_by(|a, b| middle(&a.2).total_cmp(&middle(&b.2)));
    chain
}
