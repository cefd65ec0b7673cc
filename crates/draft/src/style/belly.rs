//! Room for a belly: the front longer over the abdomen, a little wider at the high hip, gathered into a side seam of the same length.
//!
//! Between waist and leg the front is drawn out by the extra length, smoothly from nothing at the waist to all of it at the leg, so that
//! everything below moves down by it and keeps its shape: leg, crotch and lining fit as before. What its side is longer than the back's
//! is gathered in between two notches. The width grows by the same share of itself half way down to the high hip, or at the high hip
//! where the leg is low enough.
//!
//! As a rule of thumb the tape finds nothing to 15 mm in the first trimester, 15 to 35 in the second, 35 to 60 in the third; what she
//! measures goes before it.
//!
//! **Shapes and units.** mm on the body; flat as the lengths along the fold.
//! **Source.** Gathered sides over a lengthened front: common practice, no single source. Shares, limits and the rule of thumb: own. Nothing
//! was sewn.
//! **Limits.** A front in one piece only. How length ease arrives along the torso loop is estimated without it: belly and suit gain the
//! same. No pressure on the belly is computed.

use kurbo::{CubicBez, ParamCurve, Point, Vec2};
use units::{Finding, Limit, Mm, Severity};

use super::cut::{Parts, along, dart_cap_of};
use super::{Drawn, Job};
use crate::block::Block;
use crate::build::PieceBuilder;
use crate::design::SkirtJoin;
use crate::geometry::Curve;
use crate::piece::{EdgeUse, Mark, Piece, PieceEdge};
use crate::refusal::Refusal;

/// The key in the suit file.
const KEY: &str = "belly";
/// Gathers take at most this share of the side they are gathered into (own; more would stand off as a frill).
const MOST_GATHERED: f64 = 0.6;
/// Each half piece grows at most this much at its side, mm: more would bell the seam (own).
const MOST_WIDER: f64 = 12.0;
/// Gathers end this far above the leg, mm.
const ABOVE_LEG: f64 = 10.0;
/// Cubics are cut into this many parts before they are drawn out.
const PARTS: usize = 12;

/// Where points of the front go.
#[derive(Clone, Copy, Debug)]
struct Growth {
    /// Height of the leg on the side, below the waist.
    leg_y: f64,
    /// Where the width grows most.
    widest_y: f64,
    /// Extra length, flat.
    length: f64,
    /// Share of width at the widest.
    width: f64,
}

/// 0 to 1 with level ends, and its slope.
fn smooth(t: f64) -> (f64, f64) {
    let t = t.clamp(0.0, 1.0);
    (t * t * (3.0 - 2.0 * t), 6.0 * t * (1.0 - t))
}

impl Growth {
    /// Share of the width growth at a height before it is drawn out, and its slope.
    fn bump(&self, y: f64) -> (f64, f64) {
        if y >= 0.0 || y <= self.leg_y {
            return (0.0, 0.0);
        }
        let (from, to) = if y > self.widest_y {
            (0.0, self.widest_y)
        } else {
            (self.leg_y, self.widest_y)
        };
        let (share, slope) = smooth((y - from) / (to - from));
        (share, slope / (to - from))
    }

    fn point(&self, p: Point) -> Point {
        let (down, _) = smooth(p.y / self.leg_y);
        Point::new(
            p.x * (1.0 + self.width * self.bump(p.y).0),
            p.y - self.length * down,
        )
    }

    fn direction(&self, p: Point, d: Vec2) -> Vec2 {
        let (share, slope) = self.bump(p.y);
        let (_, down) = smooth(p.y / self.leg_y);
        Vec2::new(
            d.x * (1.0 + self.width * share) + d.y * p.x * self.width * slope,
            d.y * (1.0 - self.length * down / self.leg_y),
        )
    }

    fn curve(&self, curve: &Curve) -> Curve {
        let mut all: Vec<CubicBez> = Vec::with_capacity(PARTS * curve.cubics().len());
        for whole in curve.cubics() {
            // What lies above the waist or below the leg only moves: it stays as it is.
            let points = [whole.p0, whole.p1, whole.p2, whole.p3];
            let is_moved_only = points.iter().all(|p| p.y >= 0.0) || points.iter().all(|p| p.y <= self.leg_y);
            let parts = if is_moved_only { 1 } else { PARTS };
            for i in 0..parts {
                let at = |k: usize| k as f64 / parts as f64;
                let c = if parts == 1 {
                    *whole
                } else {
                    whole.subsegment(at(i)..at(i + 1))
                };
                let (start, end) = (self.point(c.p0), self.point(c.p3));
                let start = all.last().map_or(start, |before| before.p3);
                all.push(CubicBez::new(
                    start,
                    start + self.direction(c.p0, c.p1 - c.p0),
                    end - self.direction(c.p3, c.p3 - c.p2),
                    end,
                ));
            }
        }
        Curve::new(all)
    }

    fn mark(&self, mark: &Mark) -> Mark {
        match mark {
            Mark::Cross { at, text } => Mark::Cross {
                at: self.point(*at),
                text: text.clone(),
            },
            Mark::LevelLine { from, to, text } => Mark::LevelLine {
                from: self.point(*from),
                to: self.point(*to),
                text: text.clone(),
            },
            Mark::Placement { curve, text } => Mark::Placement {
                curve: self.curve(curve),
                text: text.clone(),
            },
            Mark::ArcEnd { at, inward, letter } => Mark::ArcEnd {
                at: self.point(*at),
                inward: *inward,
                letter: *letter,
            },
        }
    }

    /// The piece drawn out, with a notch where the gathers end above the leg.
    fn piece(&self, job: &Job<'_>, piece: &Piece) -> Result<Piece, Refusal> {
        let edges: Vec<PieceEdge> = piece
            .edges
            .iter()
            .map(|e| PieceEdge {
                curve: match e.role {
                    EdgeUse::Fold => Curve::line(self.point(e.curve.start()), self.point(e.curve.end())),
                    _ => self.curve(&e.curve),
                },
                ..e.clone()
            })
            .collect();
        let cap = dart_cap_of(&edges);
        let mut b = PieceBuilder::new(piece.key.clone(), piece.name.clone(), piece.on_fold);
        for n in &piece.notches {
            if let Some(edge) = edges.iter().find(|e| e.name == n.edge) {
                b = b.notch(
                    n.edge,
                    along(&edge.curve, self.point(n.seam_at)).0,
                    n.key,
                    n.double,
                );
            }
        }
        b = b.notch(lower_side(piece), ABOVE_LEG, "belly_low", false);
        for e in edges {
            b = b.edge(e.name, e.role, e.curve, e.allowance_mm);
        }
        if let Some(cap) = cap {
            b = b.cap("dart_low", "dart_up", cap);
        }
        for m in &piece.marks {
            b = b.mark(self.mark(m));
        }
        let cuts: Vec<_> = piece
            .cuts
            .iter()
            .map(|c| (c.layer, c.count, c.mirrored))
            .collect();
        b.build(&cuts, job.cloth)
    }
}

/// The side edge that begins at the leg.
fn lower_side(piece: &Piece) -> &'static str {
    if piece.edge("side_low").is_some() {
        "side_low"
    } else {
        "side"
    }
}

/// Draws the front out, if there is a belly to make room for.
///
/// # Errors
/// [`Refusal`] for a front in parts, a leg too high to gather into, a skirt from the hip, or a firm fit.
pub(super) fn add(job: &Job<'_>, block: &Block, drawn: &mut Drawn) -> Result<(), Refusal> {
    let belly = job.m.figure.belly.get();
    if belly == 0.0 {
        return Ok(());
    }
    let refuse = |parameter, why| Err(Refusal::Combination { parameter, why });
    if job.design.skirt.is_some_and(|s| s.join == SkirtJoin::Hip) {
        return refuse(
            KEY,
            "a skirt from the hip would lie across the gathers; join it at the waist or under the bust",
        );
    }
    let is_front = |p: &Piece| p.on_fold && matches!(p.key.as_str(), "front" | "front_lining");
    let is_back = |p: &Piece| matches!(p.key.as_str(), "back" | "back_lining") && p.edge("side").is_some();
    let has_others = drawn.pieces.iter().any(|p| {
        (p.key.contains("front") && !is_front(p))
            || (p.key.contains("back") && !is_back(p))
            || p.key == "pouch_pocket"
    });
    let front = drawn.pieces.iter().find(|p| p.key == "front" && is_front(p));
    let (false, Some(front)) = (has_others, front) else {
        return refuse(
            KEY,
            "front and back are cut in parts here, or hold a pouch; leave out princess and style seams, a front closure and a stoma opening",
        );
    };
    let l = &block.levels;
    let length = belly * l.k_fold;
    let widest_y = l.high_hip_y.max(0.5 * l.leg_y);
    let side = lower_side(front);
    let before = front.edge(side).map_or(0.0, |e| e.curve.length());
    let widest = block.front.profile.at(widest_y);
    let growth = Growth {
        leg_y: l.leg_y,
        widest_y,
        length,
        width: (length / l.front_crotch).min(MOST_WIDER / widest.max(1.0)),
    };
    let to_waist = block.back.side.length_to_height(0.0).unwrap_or(0.0);
    for piece in &mut drawn.pieces {
        if is_front(piece) {
            *piece = growth.piece(job, piece)?;
        } else if is_back(piece) {
            let mut parts = Parts::of(piece);
            parts.notch("side", ABOVE_LEG, "belly_low");
            *piece = parts.build(job.cloth)?;
        }
    }
    let after = drawn
        .pieces
        .iter()
        .find(|p| p.key == "front")
        .and_then(|p| p.edge(side))
        .map_or(0.0, |e| e.curve.length());
    let gathered = after - before;
    if gathered > MOST_GATHERED * (to_waist - ABOVE_LEG) {
        return refuse(
            KEY,
            "so much cannot be gathered into the side seam between waist and leg; cut the leg lower, or make less room",
        );
    }
    for walk in drawn
        .seams
        .iter_mut()
        .filter(|s| s.name == "side" && s.first.0 == "front")
    {
        walk.first_mm += gathered;
        walk.sewn_ease_mm += gathered;
    }
    for level in &mut drawn.levels {
        let wider = growth.width * growth.bump(level.y_mm).0 * block.front.profile.at(level.y_mm);
        level.pattern_mm += 2.0 * wider / job.k.shrink_around;
    }
    for measure in &mut drawn.finished {
        match measure.key {
            "centre_front" => measure.value_mm += length,
            "across_above_leg" => {
                let y = l.leg_y + 20.0;
                measure.value_mm += growth.width * growth.bump(y).0 * block.front.profile.at(y);
            }
            _ => {}
        }
    }
    if let Some(drafted) = drawn.trunk.as_mut().and_then(|t| t.drafted_mm.as_mut()) {
        *drafted += length;
    }
    drawn.findings.push(Finding {
        code: "figure.belly",
        severity: Severity::Watch,
        place: "front".into(),
        message: format!(
            "the front is {} longer between waist and leg than it was taken, and {} wider at its widest; {} of its side are gathered between \
             the waist notch and the one above the leg, and the side seam stays as long as it was. The trunk loop is that much longer than \
             the body's, on purpose",
            Mm::new(belly).to_cm_text(),
            Mm::new(2.0 * growth.width * widest).to_cm_text(),
            Mm::new(gathered).to_cm_text()
        ),
        value: Some(belly),
        limit: Some(Limit {
            text: "60 mm".into(),
            source: "own; drawn, not sewn",
        }),
        remedy: "no firm fit or tight elastic over the belly; ask midwife or doctor, and measure again every few weeks".into(),
    });
    Ok(())
}
