//! A draft with both sides of the body: for suits that are not alike left and right.
//!
//! A piece on the fold is unfolded, a mirrored pair becomes two pieces of one key, a piece that was drafted whole stays. All are turned so that
//! x > 0 of a piece lies on the wearer's left: backs are drafted as they are seen, with her right there.
//!
//! **Shapes and units.** mm, flat.

use draft::{Draft, EdgeUse, Piece, PieceEdge};

use super::part::torso_half;

/// Anything of a piece this far left of the fold makes it whole, mm.
const BEYOND_FOLD_MM: f64 = 1.0;

/// Whether a piece of the torso was drafted whole: the body, or the design, is not alike left and right.
pub(super) fn is_uneven(draft: &Draft) -> bool {
    let is_whole = |p: &Piece| {
        let mut points = p.edges.iter().flat_map(|e| e.curve.flatten(1.0));
        // A front with a leg reaches over the centre seam by its fork, a triangle lies about its bust point: both are cut for one side.
        let is_pair = p.cuts.iter().any(|c| c.count == 2 && c.mirrored);
        let is_one_side = is_pair || p.edge("base").is_some();
        !p.on_fold && !is_one_side && points.any(|p| p.x < -BEYOND_FOLD_MM)
    };
    draft
        .pieces
        .iter()
        .any(|p| torso_half(&p.key).is_some() && is_whole(p))
}

/// The draft with all its pieces whole or on both sides.
pub(super) fn unfolded(draft: &Draft) -> Draft {
    let mut pieces = Vec::with_capacity(2 * draft.pieces.len());
    for piece in &draft.pieces {
        let is_pair = piece.cuts.iter().any(|c| c.count == 2 && c.mirrored);
        let is_behind = torso_half(&piece.key) == Some(false);
        if piece.on_fold {
            // Both halves are alike: there is nothing to turn.
            pieces.push(whole(piece));
        } else if is_pair {
            pieces.extend([piece.clone(), mirrored(piece)]);
        } else if is_behind {
            pieces.push(mirrored(piece));
        } else {
            pieces.push(piece.clone());
        }
    }
    Draft {
        pieces,
        ..draft.clone()
    }
}

/// The other half added to a piece on the fold, which is no edge any more.
fn whole(piece: &Piece) -> Piece {
    let fold = piece.edges.iter().position(|e| e.role == EdgeUse::Fold);
    let (before, after) = piece.edges.split_at(fold.unwrap_or(0));
    // From the foot of the fold round to its head, and back on the other side.
    let mut edges: Vec<PieceEdge> = after.iter().skip(1).chain(before).cloned().collect();
    edges.extend(edges.clone().iter().rev().map(flipped));
    Piece {
        on_fold: false,
        edges,
        marks: piece.whole().marks,
        ..piece.clone()
    }
}

fn mirrored(piece: &Piece) -> Piece {
    Piece {
        edges: piece.edges.iter().rev().map(flipped).collect(),
        ..piece.clone()
    }
}

fn flipped(edge: &PieceEdge) -> PieceEdge {
    PieceEdge {
        curve: edge.curve.mirrored(),
        ..edge.clone()
    }
}
