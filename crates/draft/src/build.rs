//! Turns a closed run of seam-line edges into a finished piece: cut line, notches, arrows, label place.

use std::borrow::Cow;

use cloth::{ClothPlan, Layer, LayerPlan, Orientation};
use kurbo::{Point, Vec2};

use crate::allowance::{CutEdge, cut_line};
use crate::geometry::{Curve, area_mm2, inward, is_simple, roomiest_place, x_spans};
use crate::piece::{Arrow, CutCount, EdgeUse, Mark, Notch, Piece, PieceEdge};
use crate::refusal::{InvalidKind, Refusal};

/// Flattening for checks and label places, mm.
const CHECK_TOLERANCE_MM: f64 = 0.05;
/// Depth of a notch, mm: common practice, no single source; never more than half the allowance.
const NOTCH_DEPTH: f64 = 3.0;
/// An open edge with this much allowance or more is a casing, mm.
const LEAST_CASING: f64 = 18.0;

/// A piece being put together.
pub(crate) struct PieceBuilder {
    key: Cow<'static, str>,
    name: Cow<'static, str>,
    on_fold: bool,
    edges: Vec<PieceEdge>,
    notches: Vec<PlannedNotch>,
    marks: Vec<Mark>,
    /// What the cut line follows between two edges instead of the edges in between: a dart's cap.
    cap: Option<(usize, usize, Curve)>,
}

struct PlannedNotch {
    edge: &'static str,
    along: f64,
    key: &'static str,
    double: bool,
}

impl PieceBuilder {
    pub(crate) fn new(
        key: impl Into<Cow<'static, str>>,
        name: impl Into<Cow<'static, str>>,
        on_fold: bool,
    ) -> PieceBuilder {
        PieceBuilder {
            key: key.into(),
            name: name.into(),
            on_fold,
            edges: Vec::with_capacity(8),
            notches: Vec::new(),
            marks: Vec::new(),
            cap: None,
        }
    }

    /// The next edge, counter-clockwise.
    pub(crate) fn edge(mut self, name: &'static str, role: EdgeUse, curve: Curve, allowance_mm: f64) -> Self {
        self.edges.push(PieceEdge {
            name,
            role,
            curve,
            allowance_mm,
        });
        self
    }

    /// A notch at a length along a named edge, in the edge's direction of travel.
    pub(crate) fn notch(mut self, edge: &'static str, along: f64, key: &'static str, double: bool) -> Self {
        self.notches.push(PlannedNotch {
            edge,
            along,
            key,
            double,
        });
        self
    }

    pub(crate) fn mark(mut self, mark: Mark) -> Self {
        self.marks.push(mark);
        self
    }

    /// The cut line follows `cap` instead of the edges `first..=last` (by name).
    pub(crate) fn cap(mut self, first: &str, last: &str, cap: Curve) -> Self {
        let at = |name: &str| self.edges.iter().position(|e| e.name == name);
        if let (Some(a), Some(b)) = (at(first), at(last)) {
            self.cap = Some((a, b, cap));
        }
        self
    }

    /// Checks the outline and finishes the piece. `cuts`: how many from which layer of `cloth`, and whether in mirrored pairs.
    ///
    /// # Errors
    /// [`Refusal::Invalid`] for an outline with a gap, without area, crossing itself or its fold, or without a cut line.
    pub(crate) fn build(self, cuts: &[(Layer, u32, bool)], cloth: &ClothPlan) -> Result<Piece, Refusal> {
        let piece = match &self.name {
            Cow::Borrowed(name) => *name,
            // A part of a piece that a style seam cut.
            Cow::Owned(_) => "cut piece",
        };
        let invalid = |kind, by| Refusal::Invalid { piece, kind, by };
        let n = self.edges.len();
        for i in 0..n {
            let gap = (self.edges[i].curve.end() - self.edges[(i + 1) % n].curve.start()).hypot();
            if gap > 1e-6 {
                return Err(invalid(InvalidKind::Gap, gap));
            }
        }
        let outline = flat_outline(&self.edges);
        if area_mm2(&outline) < 1.0 {
            return Err(invalid(InvalidKind::NoArea, area_mm2(&outline)));
        }
        if !is_simple(&outline) {
            return Err(invalid(InvalidKind::SelfCrossing, 1.0));
        }
        let over = outline.iter().map(|p| -p.x).fold(0.0, f64::max);
        if self.on_fold && over > 1e-6 {
            return Err(invalid(InvalidKind::OverTheFold, over));
        }

        let mut cut = self
            .cut_around()
            .ok_or_else(|| invalid(InvalidKind::CutLine, 1.0))?;
        if self.on_fold {
            on_fold_from_foot(&mut cut);
        }

        let notches = self
            .notches
            .iter()
            .filter_map(|planned| place(planned, &self.edges, &cut, self.on_fold))
            .collect();
        let place = roomiest_place(&outline);
        let cuts: Vec<CutCount> = cuts
            .iter()
            .map(|&(layer, count, mirrored)| CutCount {
                layer,
                count,
                mirrored,
                orientation: layer_plan(cloth, layer).orientation,
            })
            .collect();
        let first = layer_plan(cloth, cuts.first().map_or(Layer::Shell, |c| c.layer));
        let (grain, stretch) = arrows(&outline, place, first);
        let (y, left, right) = place;
        Ok(Piece {
            key: self.key.into_owned(),
            name: self.name.into_owned(),
            letter: '?',
            cuts,
            on_fold: self.on_fold,
            edges: self.edges,
            cut_line: cut,
            grain,
            stretch,
            notches,
            marks: self.marks,
            label_at: Point::new(0.5 * (left + right), y),
            whole_label_at: Point::new(if self.on_fold { 0.0 } else { 0.5 * (left + right) }, y),
        })
    }

    /// The cut line round the seam line: over a dart along its cap, or straight over its mouth where a cap will not go.
    fn cut_around(&self) -> Option<Vec<Point>> {
        let whole = |e: &PieceEdge| (e.curve.clone(), e.allowance_mm, is_turned(e));
        let runs = |cap: &Curve| -> Vec<(Curve, f64, bool)> {
            let mut runs = Vec::with_capacity(self.edges.len());
            for (i, e) in self.edges.iter().enumerate() {
                match &self.cap {
                    Some((first, _, _)) if i == *first => {
                        runs.push((
                            cap.clone(),
                            self.edges[first.saturating_sub(1)].allowance_mm,
                            is_turned(&self.edges[first.saturating_sub(1)]),
                        ));
                    }
                    Some((first, last, _)) if i > *first && i <= *last => {}
                    _ => runs.push(whole(e)),
                }
            }
            runs
        };
        let draw = |runs: Vec<(Curve, f64, bool)>| {
            let edges: Vec<CutEdge<'_>> = runs.iter().map(|(c, w, t)| CutEdge::new(c, *w, *t)).collect();
            cut_line(&edges)
        };
        match &self.cap {
            None => draw(self.edges.iter().map(whole).collect()),
            Some((_, _, cap)) => draw(runs(cap)).or_else(|| draw(runs(&Curve::line(cap.start(), cap.end())))),
        }
    }
}

/// Whether an edge's allowance is folded back by itself: a hem, or an open edge turned into a casing. An elastic edge is too
/// narrow to tell.
fn is_turned(edge: &PieceEdge) -> bool {
    match edge.role {
        EdgeUse::Hem => true,
        EdgeUse::Open(_) => edge.allowance_mm >= LEAST_CASING,
        _ => false,
    }
}

/// Puts the two ends of the fold exactly on x = 0, drops what lies between them, and starts the outline at the foot, so
/// that unfolding joins the halves at both ends.
fn on_fold_from_foot(cut: &mut Vec<Point>) {
    for p in cut.iter_mut() {
        if p.x.abs() < 1e-6 {
            p.x = 0.0;
        }
    }
    let on_fold = cut.iter().filter(|p| p.x == 0.0).map(|p| p.y);
    let (low, high) = on_fold.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), y| {
        (a.min(y), b.max(y))
    });
    cut.retain(|p| p.x != 0.0 || p.y == low || p.y == high);
    let foot = cut.iter().position(|p| p.x == 0.0 && p.y == low).unwrap_or(0);
    cut.rotate_left(foot);
}

/// The seam line as a polygon.
pub(crate) fn flat_outline(edges: &[PieceEdge]) -> Vec<Point> {
    let mut points = Vec::new();
    for e in edges {
        let run = e.curve.flatten(CHECK_TOLERANCE_MM);
        points.extend_from_slice(&run[..run.len().saturating_sub(1)]);
    }
    points.dedup_by(|a, b| (*a - *b).hypot() < 1e-9);
    points
}

/// The plan of a layer; the shell's where a suit has no such layer.
pub(crate) fn layer_plan(cloth: &ClothPlan, layer: Layer) -> &LayerPlan {
    match layer {
        Layer::Shell => &cloth.shell,
        Layer::Lining => cloth.lining.as_ref().unwrap_or(&cloth.shell),
        Layer::Mesh => cloth.mesh.as_ref().unwrap_or(&cloth.shell),
        Layer::Contrast => cloth.contrast.as_ref().unwrap_or(&cloth.shell),
    }
}

fn place(planned: &PlannedNotch, edges: &[PieceEdge], cut: &[Point], on_fold: bool) -> Option<Notch> {
    let edge = edges.iter().find(|e| e.name == planned.edge)?;
    let (seam_at, tangent) = edge.curve.at_length(planned.along);
    let mut inward = inward(tangent);
    let mut at = seam_at - inward * edge.allowance_mm;
    if on_fold && seam_at.x.abs() < 1e-6 {
        // A centre notch lies on the fold, whatever angle the edge meets it at.
        let ends = cut.iter().filter(|p| p.x == 0.0);
        at = *ends.min_by(|a, b| (**a - seam_at).hypot().total_cmp(&(**b - seam_at).hypot()))?;
        inward = crate::geometry::unit(seam_at - at);
    }
    Some(Notch {
        at,
        seam_at,
        inward,
        depth_mm: NOTCH_DEPTH.min(edge.allowance_mm / 2.0),
        double: planned.double,
        key: planned.key,
        edge: planned.edge,
    })
}

/// Grain and stretch arrows beside the label: both inside the piece, clear of each other.
fn arrows(outline: &[Point], (y, left, right): (f64, f64, f64), layer: &LayerPlan) -> (Arrow, Arrow) {
    let width = right - left;
    let (low, high) = outline
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), p| {
            (a.min(p.y), b.max(p.y))
        });
    // Upright arrow: as long as fits at its place, at most 160 mm.
    let upright = |x: f64| {
        let reach = |up: f64| {
            let mut d = 0.0;
            while d < 80.0
                && inside_span(outline, y + up * (d + 8.0), x)
                && (low..high).contains(&(y + up * (d + 8.0)))
            {
                d += 8.0;
            }
            d
        };
        Arrow {
            from: Point::new(x, y - reach(-1.0)),
            to: Point::new(x, y + reach(1.0)),
        }
    };
    let level = |y: f64, from: f64, to: f64| Arrow {
        from: Point::new(left + from * width, y),
        to: Point::new(left + to * width, y),
    };
    let below = (y - 40.0).max(low + 0.25 * (y - low));
    let around = match x_spans(outline, below)
        .into_iter()
        .max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))
    {
        Some((l, r)) => Arrow {
            from: Point::new(l + 0.12 * (r - l), below),
            to: Point::new(l + 0.62 * (r - l), below),
        },
        None => level(y, 0.12, 0.62),
    };
    let standing = upright(left + 0.80 * width);
    let greatest_is_around = layer.around.ratio() >= layer.lengthwise.ratio();
    let across_at = level(y + 0.35 * (y - below), 0.12, 0.62);
    match (layer.orientation, greatest_is_around) {
        (Orientation::Upright, true) => (standing, around),
        (Orientation::Turned, false) => (around, standing),
        // Grain and greatest stretch lie the same way.
        (Orientation::Turned, true) => (across_at, around),
        (Orientation::Upright, false) => (standing, upright(left + 0.20 * width)),
    }
}

fn inside_span(outline: &[Point], y: f64, x: f64) -> bool {
    x_spans(outline, y)
        .into_iter()
        .any(|(l, r)| l + 4.0 < x && x < r - 4.0)
}

/// Arc-end mark at a length along a curve, the piece on its left.
pub(crate) fn arc_end(curve: &Curve, along: f64, letter: char) -> Mark {
    let (at, tangent) = curve.at_length(along);
    Mark::ArcEnd {
        at,
        inward: inward(tangent),
        letter,
    }
}

/// A level line from the fold or the other side to the side seam.
pub(crate) fn level_line(outline: &[Point], y: f64, text: &str) -> Option<Mark> {
    let (left, right) = x_spans(outline, y).into_iter().next()?;
    let inset = |x: f64, by: f64| Point::new(x + by, y);
    let from = if left.abs() < 1e-6 {
        inset(left, 0.0)
    } else {
        inset(left, 2.0)
    };
    (right - left > 20.0).then(|| Mark::LevelLine {
        from,
        to: inset(right, -2.0),
        text: text.to_owned(),
    })
}

/// A straight placement line.
pub(crate) fn placement(from: Point, to: Point, text: &str) -> Mark {
    Mark::Placement {
        curve: Curve::line(from, to),
        text: text.to_owned(),
    }
}

/// `p` mirrored in the line through `origin` along the unit vector `direction`.
pub(crate) fn mirror_in_line(p: Point, origin: Point, direction: Vec2) -> Point {
    let v = p - origin;
    let along = direction * v.dot(direction);
    origin + along * 2.0 - v
}
