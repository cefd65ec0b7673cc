//! Open edges and ways in of suits with shoulders and legs: arcs for the elastic, openings for the judges.
//!
//! **Shapes and units.** mm on relaxed cloth, from the block's own curves.
//! **Source.** The zones that get an arc of their own: common practice, no single source.

use super::one_piece::Hold;
use super::{Drawn, Job, straps};
use crate::block::Block;
use crate::geometry::Curve;
use crate::piece::OpenKind;
use crate::suit::{EdgeArc, OpenEdge, Opened, Opening, OpeningKind};

/// Half of the zone across a seam that gets its own elastic arc, mm: 40 each side of crotch and side seam.
pub(super) const ZONE: f64 = 40.0;
/// Each side of the shoulder seam along neckline and armhole.
pub(super) const STRAP_ZONE: f64 = 20.0;
/// Each side of the underarm.
pub(super) const UNDERARM_ZONE: f64 = 30.0;

/// Arcs of the leg, starting behind the crotch where the elastic's join lies inside the leg.
pub(super) fn leg_edge(job: &Job<'_>, front: &Curve, back: &Curve) -> OpenEdge {
    let arc = |name, letter, length_mm| EdgeArc {
        name,
        letter,
        length_mm,
    };
    OpenEdge {
        kind: OpenKind::Leg,
        count: 2,
        is_ring: true,
        arcs: vec![
            arc("crotch", 'd', 2.0 * ZONE),
            arc("front", 'a', front.length() - 2.0 * ZONE),
            arc("side", 'b', 2.0 * ZONE),
            arc("back", 'c', back.length() - 2.0 * ZONE),
        ],
        around_share: around_share(&[front, back]),
        worn_radius_mm: job.m.thigh / std::f64::consts::TAU,
    }
}

/// The open edges of the suit, cut into the arcs that are marked on its pieces.
pub(super) fn edges(job: &Job<'_>, block: &Block, hold: &Hold, drawn: &mut Drawn) {
    let (f, k) = (&block.front, &block.back);
    let arc = |name, letter, length_mm| EdgeArc {
        name,
        letter,
        length_mm,
    };
    drawn.open_edges.push(leg_edge(job, &f.leg, &k.leg));
    let chest_radius = job.m.bust / std::f64::consts::TAU;
    let armhole_radius = 0.4 * job.m.bust / std::f64::consts::TAU;
    match hold.back_top() {
        None if !hold.runs_on() => {
            for (half, name, letter) in [(f, "front", 'f'), (k, "back", 'e')] {
                drawn.open_edges.push(OpenEdge {
                    kind: OpenKind::Neckline,
                    count: 1,
                    is_ring: false,
                    arcs: vec![arc(name, letter, 2.0 * half.neck.length())],
                    around_share: around_share(&[&half.neck]),
                    worn_radius_mm: chest_radius,
                });
            }
            drawn.open_edges.push(OpenEdge {
                kind: OpenKind::Armhole,
                count: 2,
                is_ring: false,
                arcs: vec![
                    arc("front", 'k', f.armhole.length() - UNDERARM_ZONE),
                    arc("underarm", 'h', 2.0 * UNDERARM_ZONE),
                    arc("back", 'i', k.armhole.length() - UNDERARM_ZONE),
                ],
                around_share: around_share(&[&f.armhole, &k.armhole]),
                worn_radius_mm: armhole_radius,
            });
        }
        None => {
            drawn.open_edges.push(OpenEdge {
                kind: OpenKind::Neckline,
                count: 1,
                is_ring: true,
                arcs: vec![
                    arc("back", 'g', k.neck.length() - STRAP_ZONE),
                    arc("strap", 'e', 2.0 * STRAP_ZONE),
                    arc("front", 'f', 2.0 * (f.neck.length() - STRAP_ZONE)),
                    arc("strap", 'f', 2.0 * STRAP_ZONE),
                    arc("back", 'e', k.neck.length() - STRAP_ZONE),
                ],
                around_share: around_share(&[&f.neck, &k.neck]),
                worn_radius_mm: chest_radius,
            });
            drawn.open_edges.push(OpenEdge {
                kind: OpenKind::Armhole,
                count: 2,
                is_ring: true,
                arcs: vec![
                    arc("underarm", 'i', 2.0 * UNDERARM_ZONE),
                    arc("front", 'h', f.armhole.length() - UNDERARM_ZONE),
                    arc("back", 'j', k.armhole.length() - UNDERARM_ZONE),
                ],
                around_share: around_share(&[&f.armhole, &k.armhole]),
                worn_radius_mm: armhole_radius,
            });
        }
        Some(top) => {
            drawn.open_edges.push(OpenEdge {
                kind: OpenKind::Neckline,
                count: 1,
                is_ring: false,
                arcs: vec![arc("front", 'f', 2.0 * f.neck.length())],
                around_share: around_share(&[&f.neck]),
                worn_radius_mm: chest_radius,
            });
            let armhole = f.armhole.length() - UNDERARM_ZONE;
            drawn.open_edges.push(OpenEdge {
                kind: OpenKind::Armhole,
                count: 1,
                is_ring: false,
                arcs: vec![
                    arc("front", 'k', armhole),
                    arc("underarm", 'h', 2.0 * UNDERARM_ZONE),
                    arc("back", 'i', 2.0 * (top.length() - UNDERARM_ZONE)),
                    arc("underarm", 'i', 2.0 * UNDERARM_ZONE),
                    arc("front", 'h', armhole),
                ],
                around_share: around_share(&[&f.armhole, top]),
                worn_radius_mm: chest_radius,
            });
        }
    }
}

/// Length-weighted mean of cos^2 to the around direction over some runs.
pub(super) fn around_share(runs: &[&Curve]) -> f64 {
    let length: f64 = runs.iter().map(|c| c.length()).sum();
    runs.iter().map(|c| c.around_length()).sum::<f64>() / length.max(1e-9)
}

/// What the body must pass to get into the suit.
pub(super) fn openings(job: &Job<'_>, block: &Block, hold: &Hold, drawn: &mut Drawn) {
    let (f, k) = (&block.front, &block.back);
    let both = 2.0 * (f.neck.length() + k.neck.length());
    let ring = match hold {
        Hold::Shoulders => both,
        Hold::StrapEnds(end) => both + end.ring_mm(job),
        Hold::Crossed(top) => {
            2.0 * (f.neck.length() + straps::path_length(block, top)) + straps::between_attachments(top)
        }
        Hold::Neck(_) => 2.0 * f.neck.length(),
    };
    let share = match hold {
        Hold::Shoulders | Hold::StrapEnds(_) => around_share(&[&f.neck, &k.neck]),
        Hold::Crossed(_) | Hold::Neck(_) => around_share(&[&f.neck]),
    };
    let waist = 2.0 * (f.profile.at(0.0) + k.profile.at(0.0));
    let legs = f.leg.length() + k.leg.length();
    let leg_share = around_share(&[&f.leg, &k.leg]);
    drawn.openings = vec![
        opening(job, OpeningKind::Waist, waist, job.m.hip, 1.0),
        opening(job, OpeningKind::NecklineRing, ring, job.m.hip, share),
        opening(job, OpeningKind::Leg, legs, job.m.thigh, leg_share),
    ];
}

/// An opening at rest after the shrinkage still to come.
pub(super) fn opening(
    job: &Job<'_>,
    kind: OpeningKind,
    flat: f64,
    passes_mm: f64,
    around_share: f64,
) -> Opening {
    let shrink = job.k.shrink_around * around_share + job.k.shrink_lengthwise * (1.0 - around_share);
    Opening {
        kind,
        rest_mm: flat / shrink,
        passes_mm,
        around_share,
        opened: Opened::Not,
    }
}
