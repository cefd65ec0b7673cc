//! What each piece of a draft is to the mesh.
//!
//! **Limits.** Front and back with their straps, darts and crotch; a lining cut like the shell. What is left out is said, what can't be put on yet
//! refuses the suit.

use cloth::Layer;
use draft::{Draft, Piece};

use super::Unmeshed;

/// A lining whose edges lie within this of the shell's is one more layer of it, mm.
const SAME_SHAPE_MM: f64 = 0.5;

/// What a meshed piece is on the body: how it is turned and placed goes by it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Part {
    /// A half of the torso, from the fold to the side.
    Torso { is_front: bool },
}

impl Part {
    /// Whether it lies behind. Pieces are drafted from the fold to the right; behind they face the other way.
    pub(crate) const fn is_behind(self) -> bool {
        match self {
            Part::Torso { is_front } => !is_front,
        }
    }
}

/// A piece that is meshed: its number in the draft, and what it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Meshed {
    pub(crate) number: usize,
    pub(crate) part: Part,
}

/// The pieces that are meshed, in the draft's order, and what is left out, in words.
///
/// # Errors
/// [`Unmeshed::Piece`], [`Unmeshed::Missing`], [`Unmeshed::Uneven`].
pub(crate) fn parts(draft: &Draft) -> Result<(Vec<Meshed>, Vec<String>), Unmeshed> {
    let mut used = Vec::new();
    let mut left_out = Vec::new();
    for (number, piece) in draft.pieces.iter().enumerate() {
        let key = piece.key.as_str();
        let is_shell = piece.cuts.iter().any(|c| c.layer == Layer::Shell);
        let leave = |why: &str| format!("the {} is left out: {why}", piece.name.to_lowercase());
        if key == "front" || key == "back" {
            // A half on the fold lies at x >= 0; an uneven one is drafted whole.
            if !piece.on_fold
                && piece
                    .edges
                    .iter()
                    .any(|e| e.curve.flatten(1.0).iter().any(|p| p.x < -1.0))
            {
                return Err(Unmeshed::Uneven);
            }
            used.push(Meshed {
                number,
                part: Part::Torso {
                    is_front: key == "front",
                },
            });
        } else if draft.pieces.iter().any(|shell| is_lining_of(piece, shell)) {
            // A layer on the shell's vertices.
        } else if key.starts_with("skirt") {
            left_out.push(leave("it hangs free and pulls little"));
        } else if key.starts_with("cup") || key.contains("shelf") {
            left_out.push(leave("nothing is known of its stiffness"));
        } else if !is_shell {
            left_out.push(leave("only a lining cut like the shell is a layer yet"));
        } else if key.contains("loop") || key.contains("tie") || key.contains("shield") {
            left_out.push(leave("it carries nothing round the body"));
        } else {
            return Err(Unmeshed::Piece(piece.name.to_lowercase()));
        }
    }
    for key in ["front", "back"] {
        if !used.iter().any(|p| draft.pieces[p.number].key == key) {
            return Err(Unmeshed::Missing(if key == "front" { "front" } else { "back" }));
        }
    }
    Ok((used, left_out))
}

/// Whether a lining of the same shape lies under a piece: the piece itself cut once more, or one drawn like it.
pub(super) fn is_lined(draft: &Draft, number: usize) -> bool {
    let piece = &draft.pieces[number];
    piece.cuts.iter().any(|c| c.layer == Layer::Lining) || draft.pieces.iter().any(|p| is_lining_of(p, piece))
}

fn is_lining_of(lining: &Piece, shell: &Piece) -> bool {
    lining.key.strip_suffix("_lining") == Some(shell.key.as_str())
        && lining.edges.len() == shell.edges.len()
        && lining.edges.iter().zip(&shell.edges).all(|(a, b)| {
            let middle = |e: &draft::PieceEdge| e.curve.at_length(e.curve.length() / 2.0).0;
            let near = |p: kurbo::Point, q: kurbo::Point| (p - q).hypot() < SAME_SHAPE_MM;
            near(a.curve.start(), b.curve.start()) && near(middle(a), middle(b))
        })
}
