//! Cloth under the shell: linings that lie inside its outline, as more layers on the shell's triangles.
//!
//! A lining drawn like its shell piece lies under all of it. One of another shape (a crotch lining, a lined upper front, a front lined whole
//! under a shell that is cut in parts) lies under those triangles of the shell whose middle is inside its outline; the mesh is cut along its
//! free edges, so that no triangle is half lined. Where an edge could not be followed the error is at most a triangle's width.
//!
//! **Shapes and units.** mm, flat; outlines in the frame of the shell's piece.
//! **Limits.** A lining is taken to be cut as wide as the shell it lies under, which is how linings are drafted.

use cloth::Layer;
use draft::geometry::Curve;
use draft::{Draft, EdgeUse, OpenKind, Piece};
use kurbo::Point;

use super::inside::{FLAT_MM, holds};
use super::part::{Meshed, Part, torso_half};

/// A lining whose edges lie within this of the shell's is one more layer of it, mm.
const SAME_SHAPE_MM: f64 = 0.5;

/// A free edge of a lining, in the frame of the shell's piece.
#[derive(Clone, Debug)]
pub(super) struct FreeEdge {
    pub(super) curve: Curve,
    /// Which open edge it is, where elastic may lie on it.
    pub(super) kind: Option<OpenKind>,
}

/// A lining as it lies under a piece of the shell.
#[derive(Clone, Debug)]
pub(super) struct Under {
    /// Its number in the draft.
    pub(super) lining: usize,
    outline: Vec<Point>,
    pub(super) free: Vec<FreeEdge>,
}

impl Under {
    /// Whether a flat point of the shell's piece lies on it.
    pub(super) fn holds(&self, [x, y]: [f64; 2]) -> bool {
        holds(&self.outline, Point::new(x, y))
    }
}

/// Whether a lining of the same shape lies under a piece: the piece itself cut once more, or one drawn like it.
pub(super) fn is_lined(draft: &Draft, number: usize) -> bool {
    let piece = &draft.pieces[number];
    piece.cuts.iter().any(|c| c.layer == Layer::Lining) || draft.pieces.iter().any(|p| is_lining_of(p, piece))
}

pub(super) fn is_lining_of(lining: &Piece, shell: &Piece) -> bool {
    lining.key.strip_suffix("_lining") == Some(shell.key.as_str())
        && lining.edges.len() == shell.edges.len()
        && lining.edges.iter().zip(&shell.edges).all(|(a, b)| {
            let middle = |e: &draft::PieceEdge| e.curve.at_length(e.curve.length() / 2.0).0;
            let near = |p: Point, q: Point| (p - q).hypot() < SAME_SHAPE_MM;
            near(a.curve.start(), b.curve.start()) && near(middle(a), middle(b))
        })
}

/// The linings of another shape that lie under a piece of the torso's shell.
pub(super) fn under(draft: &Draft, shell: Meshed) -> Vec<Under> {
    let (Part::Torso { is_front } | Part::Leg { is_front }) = shell.part else {
        return Vec::new();
    };
    if is_lined(draft, shell.number) {
        return Vec::new();
    }
    let linings = draft
        .pieces
        .iter()
        .enumerate()
        .filter(|(_, p)| is_partial_lining(draft, p));
    linings
        .filter_map(|(number, piece)| {
            let to_shell = frame(draft, piece, is_front)?;
            let run = |curve: &Curve| curve.map(&to_shell);
            Some(Under {
                lining: number,
                outline: piece
                    .edges
                    .iter()
                    .flat_map(|e| run(&e.curve).flatten(FLAT_MM))
                    .collect(),
                free: piece
                    .edges
                    .iter()
                    .filter_map(|e| {
                        let kind = match e.role {
                            EdgeUse::Raw | EdgeUse::Hem => None,
                            EdgeUse::Open(OpenKind::Underbust) => Some(OpenKind::Underbust),
                            _ => return None,
                        };
                        Some(FreeEdge {
                            curve: run(&e.curve),
                            kind,
                        })
                    })
                    .collect(),
            })
        })
        .collect()
}

/// A piece of lining that is not drawn like a piece of the shell and has a place under it.
pub(super) fn is_partial_lining(draft: &Draft, piece: &Piece) -> bool {
    let is_lining = !piece.cuts.is_empty() && piece.cuts.iter().all(|c| c.layer == Layer::Lining);
    is_lining
        && !draft.pieces.iter().any(|shell| is_lining_of(piece, shell))
        && (frame(draft, piece, true).is_some() || frame(draft, piece, false).is_some())
}

/// How a lining's own frame lies in that of the shell's front or back; `None` where it has no part there.
fn frame(draft: &Draft, lining: &Piece, is_front: bool) -> Option<Box<dyn Fn(Point) -> Point>> {
    if lining.key == "crotch_lining" {
        // Drawn with the crotch seam at y = 0: the front as it is, the back turned over the seam.
        let corner = crotch_corner(draft, is_front)?;
        return Some(if is_front {
            Box::new(move |p: Point| Point::new(p.x, p.y + corner))
        } else {
            Box::new(move |p: Point| Point::new(p.x, corner - p.y))
        });
    }
    let of_front = if matches!(lining.key.as_str(), "shelf_bra" | "pouch_lining") {
        Some(true)
    } else {
        torso_half(&lining.key)
    };
    (of_front == Some(is_front)).then(|| Box::new(|p: Point| p) as Box<dyn Fn(Point) -> Point>)
}

/// Flat height at which the crotch seam meets the leg.
fn crotch_corner(draft: &Draft, is_front: bool) -> Option<f64> {
    let piece = draft
        .pieces
        .iter()
        .filter(|p| torso_half(&p.key) == Some(is_front))
        .find_map(|p| p.edge("crotch"))?;
    let (a, b) = (piece.curve.start(), piece.curve.end());
    Some(if a.x.abs() > b.x.abs() { a.y } else { b.y })
}
