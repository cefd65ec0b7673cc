//! What is inside trunks: a lining of front or all, a pouch lining, an inner brief of mesh.
//!
//! **Source.** Kinds: common practice, no single source; shapes own.

use cloth::Layer;
use kurbo::Vec2;

use super::legged::{LegHalf, Legs};
use super::open_edges::around_share;
use super::trunk_pieces::half;
use super::trunks::{Around, Asked};
use super::{Drawn, Job, Widths};
use crate::build::{PieceBuilder, arc_end};
use crate::geometry::{Curve, inward};
use crate::piece::{EdgeUse, OpenKind, Piece};
use crate::refusal::Refusal;
use crate::suit::{EdgeArc, OpenEdge, SeamWalk};

/// Inseam of an inner brief, mm flat.
const LINER_INSEAM: f64 = 14.0;
/// Top of an inner brief's leg at the side, share of waist to hip.
const LINER_LEG: f64 = 0.88;
/// Width of a pouch lining at the waist, share of the front's.
const POUCH_WIDTH: f64 = 0.55;

/// Adds the liner asked for.
///
/// # Errors
/// Any [`Refusal`] of the pieces.
pub(super) fn liner(
    job: &Job<'_>,
    legs: &Legs,
    asked: &Asked,
    shell: Around,
    drawn: &mut Drawn,
) -> Result<(), Refusal> {
    // Lining ends in the waist seam, under the casing, and at the shell's turned hem.
    let lined = Around {
        hem: 0.0,
        top: shell.seam,
        ..shell
    };
    match asked.liner {
        "front" | "full" => {
            drawn
                .pieces
                .push(half(job, legs, asked, true, Layer::Lining, lined)?);
            if asked.liner == "full" {
                drawn
                    .pieces
                    .push(half(job, legs, asked, false, Layer::Lining, lined)?);
            }
        }
        "pouch" => drawn.pieces.push(pouch_lining(job, legs, shell.seam)?),
        "mesh" => inner_brief(job, legs, shell.seam, drawn)?,
        _ => {}
    }
    Ok(())
}

/// The middle of a front, from the waist to the fork, its outer edge free.
fn pouch_lining(job: &Job<'_>, legs: &Legs, seam: f64) -> Result<Piece, Refusal> {
    let h = &legs.front;
    let (top, rest) = h.top.split_at((1.0 - POUCH_WIDTH) * h.top.length());
    let corner = top.end();
    let short = (0.35 * h.inseam.length()).min(LINER_INSEAM);
    let inseam = h.inseam.split_at(short).0;
    let foot = inseam.end();
    let rise = corner.y - foot.y;
    let across = inward(inseam.end_tangent());
    let edge = Curve::cubic(
        foot,
        foot + across * (0.45 * (corner.x - foot.x)),
        corner - Vec2::new(-4.0, 0.62 * rise),
        corner,
    );
    PieceBuilder::new("pouch_lining", "Pouch lining", false)
        .edge("free", EdgeUse::Raw, edge, 0.0)
        .edge("top", EdgeUse::Seam, rest, seam)
        .edge("centre_front", EdgeUse::Seam, h.crotch.clone(), seam)
        .edge("inseam", EdgeUse::Seam, inseam, seam)
        .notch("centre_front", 0.45 * h.crotch.length(), "front_seam", false)
        .build(&[(Layer::Lining, 2, true)], job.cloth)
}

/// The inner brief: fronts and backs cut off along a brief's leg, of mesh.
fn inner_brief(job: &Job<'_>, legs: &Legs, seam: f64, drawn: &mut Drawn) -> Result<(), Refusal> {
    let open = Widths::lining(job.design).open;
    let leg_y = LINER_LEG * legs.hip_y;
    let short = (0.35 * legs.front.inseam.length()).min(LINER_INSEAM);
    let cut = |h: &LegHalf, is_front: bool| -> (Curve, Curve, Curve) {
        let at = h.side.length_to_height(leg_y).unwrap_or(0.0);
        let side = h.side.split_at(at).1;
        let inseam = h.inseam.split_at(short).0;
        let (foot, low) = (inseam.end(), side.start());
        let chord = (low - foot).hypot();
        let scoop = if is_front { (0.30, 0.45) } else { (0.50, 0.30) };
        let leg = Curve::cubic(
            foot,
            foot + inward(inseam.end_tangent()) * (scoop.0 * chord),
            low + inward(side.start_tangent()) * (scoop.1 * chord),
            low,
        );
        (leg, side, inseam)
    };
    let front = cut(&legs.front, true);
    let mut back = cut(&legs.back, false);
    // The back side is cut where it is as long as the front's.
    let more = back.1.length() - front.1.length();
    let whole = legs.back.side.length();
    let start = whole - back.1.length() + more;
    back.1 = legs.back.side.split_at(start).1;
    let low = back.1.start();
    let foot = back.0.start();
    let chord = (low - foot).hypot();
    back.0 = Curve::cubic(
        foot,
        foot + inward(back.2.end_tangent()) * (0.50 * chord),
        low + inward(back.1.start_tangent()) * (0.30 * chord),
        low,
    );
    for (h, (leg, side, inseam), is_front) in [(&legs.front, &front, true), (&legs.back, &back, false)] {
        let (key, name, crotch, centre) = if is_front {
            ("front_mesh", "Front mesh", "centre_front", "front_seam")
        } else {
            ("back_mesh", "Back mesh", "centre_back", "back_seam")
        };
        let piece = PieceBuilder::new(key, name, false)
            .edge("leg", EdgeUse::Open(OpenKind::Leg), leg.clone(), open)
            // Not called a side: the ladder would take its leg for the suit's.
            .edge("liner_side", EdgeUse::Seam, side.clone(), seam)
            .edge("top", EdgeUse::Seam, h.top.clone(), seam)
            .edge(crotch, EdgeUse::Seam, h.crotch.clone(), seam)
            .edge("inseam", EdgeUse::Seam, inseam.clone(), seam)
            .notch(crotch, 0.45 * h.crotch.length(), centre, !is_front)
            .mark(arc_end(leg, 0.0, 'a'))
            .mark(arc_end(leg, leg.length(), 'b'))
            .build(&[(Layer::Mesh, 2, true)], job.cloth)?;
        drawn.pieces.push(piece);
    }
    let walk = |name, edge, first_mm, second_mm| SeamWalk {
        name,
        first: ("front_mesh".into(), vec![edge]),
        second: ("back_mesh".into(), vec![edge]),
        first_mm,
        second_mm,
        sewn_ease_mm: 0.0,
    };
    drawn
        .seams
        .push(walk("mesh side", "liner_side", front.1.length(), back.1.length()));
    drawn
        .seams
        .push(walk("mesh inseam", "inseam", front.2.length(), back.2.length()));
    let arc = |name, letter, length_mm| EdgeArc {
        name,
        letter,
        length_mm,
    };
    drawn.open_edges.push(OpenEdge {
        kind: OpenKind::Leg,
        count: 2,
        is_ring: true,
        arcs: vec![
            arc("front", 'a', front.0.length()),
            arc("back", 'b', back.0.length()),
        ],
        around_share: around_share(&[&front.0, &back.0]),
        worn_radius_mm: job.m.thigh / std::f64::consts::TAU,
    });
    Ok(())
}
