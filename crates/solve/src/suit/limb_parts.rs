//! Pieces of suits with legs and sleeves: what they are to the mesh, the seams only parts of an edge are sewn in, and what is on an edge.
//!
//! **Limits.** A waistband and a collar band are on their seams as the pull they add; a zip doesn't stretch. Inner briefs are
//! left out.

use cloth::{Axis, Law};
use draft::{Draft, EdgeUse, OpenKind, Piece};

use super::part::{Meshed, Part};
use crate::error::MeshError;
use crate::mesh::{Bar, Mesh};
use crate::seams::{Division, EdgeAt};

/// Force that stretches a zip to double, N: far more than a suit has, so that it stays as long as it is.
const ZIP_N: f64 = 400.0;
/// At which stretch a collar band's stiffness is read.
const COLLAR_STRETCH: f64 = 0.1;
/// What is said of a collar band.
const COLLAR_NOTE: &str =
    "the collar band is on the neckline as the pull of its doubled cloth; how it stands is not computed";

/// What is said of a top's hem.
pub(super) const HEM_HELD: &str =
    "the hem is held at the height it is put at: how far the top creeps up in wear is not computed";

/// What a piece with a leg, a gusset or a sleeve is; `None` for any other.
pub(super) fn limb_part(piece: &Piece) -> Option<Part> {
    let has = |name: &str, role: EdgeUse| piece.edges.iter().any(|e| e.name == name && e.role == role);
    match piece.key.as_str() {
        key @ ("front" | "back") if has("inseam", EdgeUse::Seam) => Some(Part::Leg {
            is_front: key == "front",
        }),
        "gusset" => Some(Part::Gusset),
        "sleeve" => Some(Part::Sleeve),
        _ => None,
    }
}

/// Why a piece of such a suit is left out; `None` for a piece of another kind.
pub(super) fn why_left_out(piece: &Piece) -> Option<String> {
    Some(match piece.key.as_str() {
        "waistband" => "the waistband is left out: its elastic lies on the seam it is sewn to".into(),
        "collar" => COLLAR_NOTE.into(),
        "front_mesh" | "back_mesh" => format!(
            "the {} is left out: an inner brief lies on the skin by itself",
            piece.name.to_lowercase()
        ),
        _ => return None,
    })
}

/// What an edge is open as though it isn't drawn so: the seam of a left out waistband, plain hems.
pub(super) fn open_as(draft: &Draft, piece: &Piece, part: Part, edge: &draft::PieceEdge) -> Option<OpenKind> {
    match (edge.role, part, edge.name) {
        (EdgeUse::Open(kind), ..) => Some(kind),
        (EdgeUse::Seam, Part::Leg { .. }, "top") => Some(OpenKind::Waist),
        (EdgeUse::Seam, Part::Torso { .. }, "neck") if has_collar(draft) => Some(OpenKind::Neckline),
        (EdgeUse::Hem, Part::Leg { .. } | Part::Gusset, _) => Some(OpenKind::Leg),
        (EdgeUse::Hem, Part::Sleeve, _) => Some(OpenKind::Wrist),
        (EdgeUse::Hem, ..) if piece.key == "front" || piece.key == "back" => Some(OpenKind::Hem),
        _ => None,
    }
}

/// Whether an edge carries elastic: drawn as open, or the seam of a band that holds it.
pub(super) fn is_elastic(part: Part, edge: &draft::PieceEdge) -> bool {
    matches!(
        (edge.role, part, edge.name),
        (EdgeUse::Open(_), ..) | (EdgeUse::Seam, Part::Leg { .. }, "top")
    )
}

fn has_collar(draft: &Draft) -> bool {
    draft.pieces.iter().any(|p| p.key == "collar")
}

/// The collar band on a neck edge: stiffness (N at double length) and ratio.
pub(super) fn collar(draft: &Draft, shell: &Law) -> Option<(f64, f64)> {
    let collar = draft.pieces.iter().find(|p| p.key == "collar")?;
    let neck = |key: &str| {
        let piece = draft.pieces.iter().find(|p| p.key == key)?;
        Some(piece.edge("neck")?.curve.length())
    };
    let to = neck("front")? + neck("back")?;
    let (long, high) = (
        collar.edge("neck")?.curve.length(),
        collar.edge("join")?.curve.length(),
    );
    // A strip of the cloth as it lies around, at a small stretch: its stiffness times its width, both halves of the fold.
    let stiffness = shell.strip_tension(Axis::Around, 1.0 + COLLAR_STRETCH) / COLLAR_STRETCH / 1e3 * high;
    Some((stiffness, (long / to).clamp(0.5, 1.0)))
}

/// How far a zip opens from the neck down the front's middle, mm.
pub(super) fn zip_mm(draft: &Draft) -> Option<f64> {
    let shield = draft.pieces.iter().find(|p| p.key == "zip_shield")?;
    // The shield runs on a little below the zip.
    Some((shield.edge("long_right")?.curve.length() - 15.0).max(0.0))
}

/// Bars along the front's middle where the zip is.
pub(super) fn add_zip(
    draft: &Draft,
    used: &[Meshed],
    division: &Division,
    vertex: &dyn Fn(EdgeAt, usize) -> usize,
    mesh: &mut Mesh,
) -> Result<(), MeshError> {
    let Some(zip) = zip_mm(draft) else { return Ok(()) };
    for m in used {
        let piece = &draft.pieces[m.number];
        if piece.key != "front" {
            continue;
        }
        for (number, edge) in piece.edges.iter().enumerate() {
            if !matches!(edge.name, "fold" | "centre") {
                continue;
            }
            let length = edge.curve.length();
            let at = (m.number, number);
            let shares = division.shares.get(&at).map_or(&[][..], Vec::as_slice);
            let is_down = edge.curve.start().y > edge.curve.end().y;
            for (i, w) in shares.windows(2).enumerate() {
                let middle = f64::midpoint(w[0], w[1]);
                let from_top = if is_down { middle } else { 1.0 - middle } * length;
                if from_top < zip {
                    mesh.add_bar(Bar {
                        ends: [vertex(at, i), vertex(at, i + 1)],
                        rest_mm: (w[1] - w[0]) * length,
                        stiffness_n: ZIP_N,
                        width_mm: 0.0,
                    })?;
                }
            }
        }
    }
    Ok(())
}

/// How much of the inseams a gusset takes, mm; `None` where there is none, or where it takes all.
pub(crate) fn gusset_side(draft: &Draft) -> Option<f64> {
    draft
        .seams
        .iter()
        .find(|s| s.name == "gusset, front")
        .filter(|s| {
            let inseam = draft
                .pieces
                .iter()
                .find(|p| p.key == "front")
                .and_then(|p| p.edge("inseam"));
            inseam.is_some_and(|e| s.first_mm < e.curve.length() - 0.5)
        })
        .map(|s| s.first_mm)
}
