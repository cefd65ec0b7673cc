//! Cutting finished pieces along a line: style seams, blocks of another cloth, a seam where the fold was.
//!
//! A line that runs from edge to edge makes two pieces of one. Both get the same line, so the seam matches by construction; edges it
//! meets are cut at the same point, notches and marks go with the part they lie on, and each new edge gets notches at its middle.
//! Seams that were walked before are walked again part by part.
//!
//! **Shapes and units.** mm flat, piece frame; a line's left side is the piece on the left of its direction of travel.
//! **Source.** Common practice, no single source.
//! **Limits.** The line must not cross itself or an edge between its ends: the pieces' own checks refuse that.

use std::borrow::Cow;

use cloth::{ClothPlan, Layer};
use kurbo::{CubicBez, ParamCurveNearest, Point};

use super::Drawn;
use crate::build::{PieceBuilder, flat_outline};
use crate::geometry::{Curve, cubic_length, inward, point_in_polygon, unit};
use crate::piece::{EdgeUse, Mark, Piece, PieceEdge};
use crate::refusal::{InvalidKind, Refusal};
use crate::suit::SeamWalk;

/// A notch nearer than this to the end of a cut edge is dropped with its partner: it would lie in the corner, mm.
const NOTCH_CLEAR: f64 = 8.0;
/// How far from its edge the end of a line may lie, mm.
const ON_EDGE: f64 = 0.05;

/// A piece taken apart, to be built again.
pub(super) struct Parts {
    pub(super) key: String,
    pub(super) name: String,
    pub(super) on_fold: bool,
    pub(super) edges: Vec<PieceEdge>,
    notches: Vec<PartNotch>,
    marks: Vec<Mark>,
    pub(super) cuts: Vec<(Layer, u32, bool)>,
}

#[derive(Clone)]
struct PartNotch {
    edge: &'static str,
    along: f64,
    key: &'static str,
    double: bool,
}

/// Names of a seam and of the notches on it.
#[derive(Clone, Copy)]
pub(super) struct SeamNames {
    /// Of the edge, on both pieces.
    pub(super) edge: &'static str,
    /// Of the walk.
    pub(super) walk: &'static str,
    /// Key of the notch at its middle, or at the fold.
    pub(super) middle: &'static str,
    /// Key of a second one, half way from the fold.
    pub(super) quarter: &'static str,
}

/// What the part on one side of a line is called, and what it is cut from.
#[derive(Clone, Copy)]
pub(super) struct Side {
    /// Added to the key: `upper`.
    pub(super) key: &'static str,
    /// Added to the name: `upper part`.
    pub(super) name: &'static str,
    /// Another cloth than the piece was to be cut from.
    pub(super) layer: Option<Layer>,
}

impl Parts {
    /// A piece as it was drafted.
    pub(super) fn of(piece: &Piece) -> Parts {
        let notches = piece
            .notches
            .iter()
            .filter_map(|n| {
                let edge = piece.edge(n.edge)?;
                Some(PartNotch {
                    edge: n.edge,
                    along: along(&edge.curve, n.seam_at).0,
                    key: n.key,
                    double: n.double,
                })
            })
            .collect();
        Parts {
            key: piece.key.clone(),
            name: piece.name.clone(),
            on_fold: piece.on_fold,
            edges: piece.edges.clone(),
            notches,
            marks: piece.marks.clone(),
            cuts: piece
                .cuts
                .iter()
                .map(|c| (c.layer, c.count, c.mirrored))
                .collect(),
        }
    }

    /// A piece on the fold as one whole piece; the edges of its other half get names of their own.
    pub(super) fn unfolded(piece: &Piece) -> Parts {
        let shape = piece.whole();
        let half = piece.edges.iter().filter(|e| e.role != EdgeUse::Fold).count();
        let (right, left) = shape.seam_line.split_at(half.min(shape.seam_line.len()));
        let mut edges: Vec<PieceEdge> = right.to_vec();
        edges.extend(left.iter().map(|edge| PieceEdge {
            name: left_name(edge.name),
            ..edge.clone()
        }));
        close(&mut edges);
        let notches = shape
            .notches
            .iter()
            .filter_map(|n| {
                let names = [n.edge, left_name(n.edge)];
                let near = edges
                    .iter()
                    .filter(|e| names.contains(&e.name))
                    .map(|e| (e.name, along(&e.curve, n.seam_at)))
                    .min_by(|a, b| a.1.1.total_cmp(&b.1.1))?;
                Some(PartNotch {
                    edge: near.0,
                    along: near.1.0,
                    key: n.key,
                    double: n.double,
                })
            })
            .collect();
        Parts {
            key: piece.key.clone(),
            name: piece.name.clone(),
            on_fold: false,
            edges,
            notches,
            marks: shape.marks,
            cuts: piece
                .cuts
                .iter()
                .map(|c| (c.layer, c.count, c.mirrored))
                .collect(),
        }
    }

    /// The edge of that name.
    pub(super) fn edge(&self, name: &str) -> Option<&PieceEdge> {
        self.edges.iter().find(|e| e.name == name)
    }

    /// Adds a notch.
    pub(super) fn notch(&mut self, edge: &'static str, along: f64, key: &'static str) {
        self.notches.push(PartNotch {
            edge,
            along,
            key,
            double: false,
        });
    }

    /// Adds a mark.
    pub(super) fn mark(&mut self, mark: Mark) {
        self.marks.push(mark);
    }

    /// Puts a seam where the fold was, so that the piece is cut twice, mirrored.
    pub(super) fn open_fold(&mut self, allowance_mm: f64) {
        self.on_fold = false;
        for edge in self.edges.iter_mut().filter(|e| e.role == EdgeUse::Fold) {
            edge.role = EdgeUse::Seam;
            edge.name = "centre";
            edge.allowance_mm = allowance_mm;
        }
        self.twice();
    }

    /// Cut in mirrored pairs, where it was one piece on the fold.
    fn twice(&mut self) {
        for cut in &mut self.cuts {
            if !cut.2 {
                *cut = (cut.0, 2 * cut.1, true);
            }
        }
    }

    /// The two parts on either side of a line from edge to edge: left of it, right of it.
    ///
    /// # Errors
    /// [`Refusal::Invalid`] when an end of the line does not lie on the outline.
    pub(super) fn split(
        self,
        line: &Curve,
        seam: SeamNames,
        allowance_mm: f64,
    ) -> Result<(Parts, Parts), Refusal> {
        let lost = |by| Refusal::Invalid {
            piece: seam.walk,
            kind: InvalidKind::Gap,
            by,
        };
        let find = |p: Point| {
            self.edges
                .iter()
                .enumerate()
                .map(|(i, e)| (i, along(&e.curve, p)))
                .min_by(|a, b| a.1.1.total_cmp(&b.1.1))
        };
        let (Some((i, (at_i, off_i))), Some((j, (at_j, off_j)))) = (find(line.start()), find(line.end()))
        else {
            return Err(lost(f64::NAN));
        };
        if i == j || off_i.max(off_j) > ON_EDGE {
            return Err(lost(off_i.max(off_j)));
        }
        let (before_i, after_i) = self.edges[i].curve.split_at(at_i);
        let (before_j, after_j) = self.edges[j].curve.split_at(at_j);
        let line = with_ends(line, before_i.end(), before_j.end());
        let n = self.edges.len();
        let part = |first: (usize, Curve), last: (usize, Curve), line: Curve| {
            let mut edges = Vec::with_capacity(n + 2);
            let edge = |index: usize, curve: Curve| PieceEdge {
                curve,
                ..self.edges[index].clone()
            };
            let last_index = last.0;
            if !first.1.cubics().is_empty() {
                edges.push(edge(first.0, first.1));
            }
            let mut k = (first.0 + 1) % n;
            while k != last_index {
                edges.push(self.edges[k].clone());
                k = (k + 1) % n;
            }
            if !last.1.cubics().is_empty() {
                edges.push(edge(last_index, last.1));
            }
            edges.push(PieceEdge {
                name: seam.edge,
                role: EdgeUse::Seam,
                curve: line,
                allowance_mm,
            });
            close(&mut edges);
            edges
        };
        // From the line's end round to its start, then along it; and the other way about.
        let left = part((j, after_j), (i, before_i), line.clone());
        let right = part((i, after_i), (j, before_j), line.reversed());
        let shift = |notch: &PartNotch, is_left: bool| -> Option<PartNotch> {
            let (index, length) = self
                .edges
                .iter()
                .enumerate()
                .find(|(_, e)| e.name == notch.edge)
                .map(|(k, e)| (k, e.curve.length()))?;
            let (from, to) = match (index == i, index == j, is_left) {
                (true, _, true) => (0.0, at_i),
                (true, _, false) => (at_i, length),
                (_, true, true) => (at_j, length),
                (_, true, false) => (0.0, at_j),
                _ => (0.0, length),
            };
            let clear = |end: f64, is_cut: bool| !is_cut || (notch.along - end).abs() >= NOTCH_CLEAR;
            let inside = notch.along >= from - 1e-6 && notch.along <= to + 1e-6;
            (inside && clear(from, from > 0.0) && clear(to, to < length)).then(|| PartNotch {
                along: notch.along - from,
                ..notch.clone()
            })
        };
        let side = |edges: Vec<PieceEdge>, is_left: bool| {
            let names: Vec<&str> = edges.iter().map(|e| e.name).collect();
            let outline = flat_outline(&edges);
            let on_fold = self.on_fold && edges.iter().any(|e| e.role == EdgeUse::Fold);
            let mut parts = Parts {
                key: self.key.clone(),
                name: self.name.clone(),
                on_fold,
                notches: self
                    .notches
                    .iter()
                    .filter(|n| names.contains(&n.edge))
                    .filter_map(|n| shift(n, is_left))
                    .collect(),
                marks: self
                    .marks
                    .iter()
                    .filter_map(|m| inside_mark(m, &outline))
                    .collect(),
                cuts: self.cuts.clone(),
                edges,
            };
            if self.on_fold && !on_fold {
                parts.twice();
            }
            let length = line.length();
            let meets_fold = on_fold && line.end().x.abs().min(line.start().x.abs()) < 1e-6;
            if meets_fold {
                let from_start = line.start().x.abs() < 1e-6;
                let fold_at = if from_start == is_left { 0.0 } else { length };
                parts.notch(seam.edge, fold_at, seam.middle);
                parts.notch(seam.edge, 0.5 * length, seam.quarter);
            } else {
                parts.notch(seam.edge, 0.5 * length, seam.middle);
            }
            parts
        };
        let (left, right) = (side(left, true), side(right, false));
        Ok((left, right))
    }

    /// Builds the piece again.
    ///
    /// # Errors
    /// As [`PieceBuilder::build`].
    pub(super) fn build(self, cloth: &ClothPlan) -> Result<Piece, Refusal> {
        let cap = dart_cap_of(&self.edges);
        let mut b = PieceBuilder::new(Cow::Owned(self.key), Cow::Owned(self.name), self.on_fold);
        for e in self.edges {
            b = b.edge(e.name, e.role, e.curve, e.allowance_mm);
        }
        if let Some(cap) = cap {
            b = b.cap("dart_low", "dart_up", cap);
        }
        for n in self.notches {
            b = b.notch(n.edge, n.along, n.key, n.double);
        }
        for m in self.marks {
            b = b.mark(m);
        }
        b.build(&self.cuts, cloth)
    }
}

/// The dart's cap on a piece that has one.
pub(super) fn dart_cap_of(edges: &[PieceEdge]) -> Option<Curve> {
    let at = edges.iter().position(|e| e.name == "dart_low")?;
    let (low, up) = (edges.get(at)?, edges.get(at + 1)?);
    let side = edges.get(at.checked_sub(1)?)?;
    Some(super::one_piece::dart_cap(
        &side.curve,
        low.curve.end(),
        low.curve.start(),
        up.curve.end(),
    ))
}

/// Cuts pieces along lines, one line a piece, and walks every seam again.
///
/// # Errors
/// [`Refusal::Invalid`] when a line does not run from edge to edge, or a part is no piece.
pub(super) fn along_lines(
    drawn: &mut Drawn,
    cloth: &ClothPlan,
    lines: Vec<(String, Curve)>,
    seam: SeamNames,
    (left, right): (Side, Side),
    allowance_mm: f64,
) -> Result<(), Refusal> {
    let mut cut: Vec<(Piece, Piece, Piece)> = Vec::with_capacity(lines.len());
    for (key, line) in lines {
        let Some(at) = drawn.pieces.iter().position(|p| p.key == key) else {
            continue;
        };
        let whole = drawn.pieces[at].clone();
        let (mut a, mut b) = Parts::of(&whole).split(&line, seam, allowance_mm)?;
        for (part, side) in [(&mut a, left), (&mut b, right)] {
            name_part(part, side);
        }
        let (a, b) = (a.build(cloth)?, b.build(cloth)?);
        drawn.pieces.splice(at..=at, [a.clone(), b.clone()]);
        cut.push((whole, a, b));
    }
    relink(&mut drawn.seams, &cut, seam.walk);
    for (_, a, b) in &cut {
        drawn
            .seams
            .push(walk_between(seam.walk, (a, seam.edge), (b, seam.edge)));
    }
    Ok(())
}

/// Cuts one whole piece, no longer on the fold, along a line.
///
/// # Errors
/// As [`along_lines`].
pub(super) fn unfolded_along(
    drawn: &mut Drawn,
    cloth: &ClothPlan,
    key: &str,
    line: impl FnOnce(&Parts) -> Result<Curve, Refusal>,
    seam: SeamNames,
    (left, right): (Side, Side),
    allowance_mm: f64,
) -> Result<(), Refusal> {
    let Some(at) = drawn.pieces.iter().position(|p| p.key == key) else {
        return Ok(());
    };
    let whole = drawn.pieces[at].clone();
    let parts = Parts::unfolded(&whole);
    let line = line(&parts)?;
    let (mut a, mut b) = parts.split(&line, seam, allowance_mm)?;
    for (part, side) in [(&mut a, left), (&mut b, right)] {
        name_part(part, side);
    }
    let (a, b) = (a.build(cloth)?, b.build(cloth)?);
    drawn.pieces.splice(at..=at, [a.clone(), b.clone()]);
    let other_sides: Vec<SeamWalk> = drawn
        .seams
        .iter()
        // The crotch is walked from leg to leg already.
        .filter(|w| w.first.0 == key && w.name != "crotch")
        .filter_map(|w| {
            let names: Vec<&'static str> = w.first.1.iter().map(|n| left_name(n)).collect();
            let piece = [&a, &b]
                .into_iter()
                .find(|p| names.iter().all(|n| p.edge(n).is_some()))?;
            Some(SeamWalk {
                name: match w.name {
                    "side" => "side, left",
                    "shoulder" => "shoulder, left",
                    other => other,
                },
                first: (piece.key.clone(), names.clone()),
                second: w.second.clone(),
                first_mm: names.iter().map(|n| length_of(piece, n)).sum(),
                second_mm: w.second_mm,
                sewn_ease_mm: w.sewn_ease_mm,
            })
        })
        .collect();
    relink(&mut drawn.seams, &[(whole, a.clone(), b.clone())], seam.walk);
    drawn.seams.extend(other_sides);
    drawn
        .seams
        .push(walk_between(seam.walk, (&a, seam.edge), (&b, seam.edge)));
    Ok(())
}

fn name_part(part: &mut Parts, side: Side) {
    part.key = format!("{}_{}", part.key, side.key);
    part.name = format!("{}, {}", part.name, side.name);
    if let Some(layer) = side.layer {
        for cut in part.cuts.iter_mut().filter(|c| c.0 == Layer::Shell) {
            cut.0 = layer;
        }
    }
}

/// A walk of one edge along another, each measured; once across for a piece on the fold too.
pub(super) fn walk_between(
    name: &'static str,
    (a, edge_a): (&Piece, &'static str),
    (b, edge_b): (&Piece, &'static str),
) -> SeamWalk {
    SeamWalk {
        name,
        first: (a.key.clone(), vec![edge_a]),
        second: (b.key.clone(), vec![edge_b]),
        first_mm: length_of(a, edge_a),
        second_mm: length_of(b, edge_b),
        sewn_ease_mm: 0.0,
    }
}

fn length_of(piece: &Piece, edge: &str) -> f64 {
    piece.edge(edge).map_or(0.0, |e| e.curve.length())
}

/// Walks the seams of cut pieces part by part: left with left, right with right.
fn relink(seams: &mut Vec<SeamWalk>, cut: &[(Piece, Piece, Piece)], by: &'static str) {
    let old = std::mem::take(seams);
    for walk in old {
        let parts = |(key, edges): &(String, Vec<&'static str>)| -> Vec<(String, Vec<&'static str>, f64)> {
            let Some((whole, a, b)) = cut.iter().find(|(whole, ..)| whole.key == *key) else {
                return Vec::new();
            };
            let before: f64 = edges.iter().map(|e| length_of(whole, e)).sum();
            // The crotch is walked from leg to leg, its half pieces being on the fold.
            let times = if walk.name == "crotch" && whole.on_fold {
                2.0
            } else {
                1.0
            };
            let part = |p: &Piece| {
                let there: Vec<&'static str> =
                    edges.iter().copied().filter(|e| p.edge(e).is_some()).collect();
                let mm: f64 = there.iter().map(|e| length_of(p, e)).sum();
                (p.key.clone(), there, mm * times)
            };
            if before <= 0.0 {
                return Vec::new();
            }
            [part(a), part(b)].into_iter().collect()
        };
        let (first, second) = (parts(&walk.first), parts(&walk.second));
        match (first.len(), second.len()) {
            (2, 2) => {
                let mut pairs: Vec<_> = first.into_iter().zip(second).collect();
                pairs.retain(|(f, s)| !f.1.is_empty() && !s.1.is_empty());
                let several = pairs.len() > 1;
                for (k, (f, s)) in pairs.into_iter().enumerate() {
                    let off = f.2 - s.2;
                    let eased = (off - walk.sewn_ease_mm).abs() < off.abs();
                    seams.push(SeamWalk {
                        name: if several && k == 0 {
                            below(walk.name, by)
                        } else {
                            walk.name
                        },
                        first: (f.0, f.1),
                        second: (s.0, s.1),
                        first_mm: f.2,
                        second_mm: s.2,
                        sewn_ease_mm: if eased { walk.sewn_ease_mm } else { 0.0 },
                    });
                }
            }
            _ => {
                // Only one of the two was cut, or neither: the seam lies on one part of it.
                let held = |parts: Vec<(String, Vec<&'static str>, f64)>,
                            was: (String, Vec<&'static str>),
                            mm: f64| {
                    match parts.into_iter().find(|p| p.1.len() == was.1.len()) {
                        Some(p) => ((p.0, p.1), p.2),
                        None => (was, mm),
                    }
                };
                let (first, first_mm) = held(first, walk.first, walk.first_mm);
                let (second, second_mm) = held(second, walk.second, walk.second_mm);
                seams.push(SeamWalk {
                    first,
                    second,
                    first_mm,
                    second_mm,
                    ..walk
                });
            }
        }
    }
}

/// The walk of the part below (left of) a new seam; the rest keeps the name.
fn below(name: &'static str, by: &'static str) -> &'static str {
    match (name, by) {
        ("side", "waist seam") => "side, waist seam to leg",
        ("side", "underbust seam") => "side, underbust seam to leg",
        ("side", "lower band seam") => "side, band to leg",
        ("side", "upper band seam") => "side of the band",
        ("side", _) => "side, lower part",
        ("princess, leg to bust", "waist seam") => "princess, leg to waist seam",
        ("princess, leg to bust", "underbust seam") => "princess, leg to underbust seam",
        _ => name,
    }
}

fn left_name(name: &'static str) -> &'static str {
    match name {
        "leg" => "leg_left",
        "side" => "side_left",
        "side_low" => "side_low_left",
        "side_up" => "side_up_left",
        "dart_low" => "dart_low_left",
        "dart_up" => "dart_up_left",
        "armhole" => "armhole_left",
        "shoulder" => "shoulder_left",
        "neck" => "neck_left",
        "crotch" => "crotch_left",
        "strap_end" => "strap_end_left",
        other => other,
    }
}

/// Length along a run to the place nearest a point, and how far off it is, mm.
pub(super) fn along(curve: &Curve, p: Point) -> (f64, f64) {
    let mut before = 0.0;
    let mut best = (0.0, f64::INFINITY);
    for c in curve.cubics() {
        let near = c.nearest(p, 1e-7);
        let off = near.distance_sq.max(0.0).sqrt();
        if off < best.1 {
            best = (before + cubic_length(c, 0.0, near.t), off);
        }
        before += cubic_length(c, 0.0, 1.0);
    }
    best
}

/// The run with both ends set exactly.
pub(super) fn with_ends(curve: &Curve, start: Point, end: Point) -> Curve {
    let mut cubics: Vec<CubicBez> = curve.cubics().to_vec();
    if let Some(c) = cubics.first_mut() {
        c.p0 = start;
    }
    if let Some(c) = cubics.last_mut() {
        c.p3 = end;
    }
    Curve::new(cubics)
}

/// Lets every edge start exactly where the one before ends.
fn close(edges: &mut [PieceEdge]) {
    let n = edges.len();
    for k in 0..n {
        let start = edges[(k + n - 1) % n].curve.end();
        let end = edges[k].curve.end();
        edges[k].curve = with_ends(&edges[k].curve, start, end);
    }
}

/// A mark as far as it lies on a part.
fn inside_mark(mark: &Mark, outline: &[Point]) -> Option<Mark> {
    // A little inside, for what lies on the outline itself.
    let centre = {
        let n = outline.len().max(1) as f64;
        let sum = outline.iter().fold((0.0, 0.0), |s, p| (s.0 + p.x, s.1 + p.y));
        Point::new(sum.0 / n, sum.1 / n)
    };
    let holds = |p: Point| {
        point_in_polygon(outline, p)
            || point_in_polygon(outline, p + unit(centre - p) * 0.2)
            || point_in_polygon(outline, p + kurbo::Vec2::new(0.2, 0.0))
    };
    match mark {
        Mark::Cross { at, .. } => holds(*at).then(|| mark.clone()),
        Mark::ArcEnd { at, inward, .. } => {
            point_in_polygon(outline, *at + *inward * 0.5).then(|| mark.clone())
        }
        Mark::LevelLine { from, to, text } => {
            let run = Curve::line(*from, *to);
            let kept = clip(&run, &holds)?;
            (kept.length() > 20.0).then(|| Mark::LevelLine {
                from: kept.start(),
                to: kept.end(),
                text: text.clone(),
            })
        }
        Mark::Placement { curve, text } => {
            let kept = clip(curve, &holds)?;
            (kept.length() > 4.0).then(|| Mark::Placement {
                curve: kept,
                text: text.clone(),
            })
        }
    }
}

/// The longest stretch of a run that lies inside; all of it, unchanged, when all does.
fn clip(curve: &Curve, holds: &impl Fn(Point) -> bool) -> Option<Curve> {
    const STEP_MM: f64 = 2.0;
    let length = curve.length();
    let n = (length / STEP_MM).ceil().max(2.0) as usize;
    let at = |k: usize| length * k as f64 / n as f64;
    let (mut best, mut from) = ((0, 0), None);
    for k in 0..=n {
        let is_in = holds(curve.at_length(at(k)).0);
        match (is_in, from) {
            (true, None) => from = Some(k),
            (true, Some(f)) if k - f > best.1 - best.0 => best = (f, k),
            (false, Some(_)) => from = None,
            _ => {}
        }
    }
    match best {
        (0, 0) => None,
        (0, k) if k == n => Some(curve.clone()),
        (f, k) => {
            let (start, _) = curve.split_at(at(k));
            Some(start.split_at(at(f)).1).filter(|c| !c.cubics().is_empty())
        }
    }
}

/// A line across a piece from a place on one edge to a place on another, square to both.
pub(super) fn square_to_both(from: (&Curve, f64), to: (&Curve, f64)) -> Curve {
    let (p, t) = from.0.at_length(from.1);
    let (q, u) = to.0.at_length(to.1);
    let reach = (q - p).hypot();
    // Edges that rise steeply would throw the line across the piece.
    let (a, b) = ((0.30 * reach).min(70.0), (0.30 * reach).min(90.0));
    Curve::cubic(p, p + inward(t) * a, q + inward(u) * b, q)
}

/// Cuts a piece's shell from the second outer cloth.
///
/// # Errors
/// As [`Parts::build`].
pub(super) fn recolour(drawn: &mut Drawn, cloth: &ClothPlan, key: &str) -> Result<(), Refusal> {
    rebuilt(drawn, cloth, key, |parts| {
        for cut in parts.cuts.iter_mut().filter(|c| c.0 == Layer::Shell) {
            cut.0 = Layer::Contrast;
        }
    })
    .map(|_| ())
}

/// Moves every point of a piece; seams that no longer match carry the difference as ease.
///
/// # Errors
/// As [`Parts::build`].
pub(super) fn moved(
    drawn: &mut Drawn,
    cloth: &ClothPlan,
    key: &str,
    f: impl Fn(Point) -> Point,
) -> Result<(), Refusal> {
    let Some((before, after)) = rebuilt(drawn, cloth, key, |parts| {
        let at: Vec<f64> = parts
            .notches
            .iter()
            .map(|n| n.along / parts.edge(n.edge).map_or(1.0, |e| e.curve.length()).max(1e-9))
            .collect();
        for edge in &mut parts.edges {
            edge.curve = edge.curve.map(&f);
        }
        let lengths: Vec<f64> = parts
            .notches
            .iter()
            .map(|n| parts.edge(n.edge).map_or(0.0, |e| e.curve.length()))
            .collect();
        for ((notch, share), length) in parts.notches.iter_mut().zip(at).zip(lengths) {
            notch.along = share * length;
        }
        for mark in &mut parts.marks {
            *mark = match mark.clone() {
                Mark::Cross { at, text } => Mark::Cross { at: f(at), text },
                Mark::LevelLine { from, to, text } => Mark::LevelLine {
                    from: f(from),
                    to: f(to),
                    text,
                },
                Mark::Placement { curve, text } => Mark::Placement {
                    curve: curve.map(&f),
                    text,
                },
                Mark::ArcEnd { at, inward, letter } => Mark::ArcEnd {
                    at: f(at),
                    inward,
                    letter,
                },
            };
        }
    })?
    else {
        return Ok(());
    };
    for walk in &mut drawn.seams {
        let change = |(k, edges): &(String, Vec<&'static str>)| -> f64 {
            if *k != before.key {
                return 0.0;
            }
            edges
                .iter()
                .map(|e| length_of(&after, e) - length_of(&before, e))
                .sum()
        };
        let (first, second) = (change(&walk.first), change(&walk.second));
        walk.first_mm += first;
        walk.second_mm += second;
        walk.sewn_ease_mm += first - second;
    }
    Ok(())
}

/// Builds one piece anew, changed: what it was, what it is.
fn rebuilt(
    drawn: &mut Drawn,
    cloth: &ClothPlan,
    key: &str,
    change: impl FnOnce(&mut Parts),
) -> Result<Option<(Piece, Piece)>, Refusal> {
    let Some(piece) = drawn.pieces.iter_mut().find(|p| p.key == key) else {
        return Ok(None);
    };
    let before = piece.clone();
    let mut parts = Parts::of(&before);
    change(&mut parts);
    *piece = parts.build(cloth)?;
    Ok(Some((before, piece.clone())))
}
