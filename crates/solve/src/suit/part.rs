//! What each piece of a draft is to the mesh.
//!
//! Every piece cut from the front or the back of the torso is a part of that half: the whole of it, a centre or side panel, what lies above
//! or below a seam. They share the half's frame, so that seams and places follow from where they lie in it.
//!
//! **Limits.** Front and back with their straps, darts, panels and crotch; linings under them. What is left out is said, what can't be put on
//! yet refuses the suit.

use cloth::Layer;
use draft::{Draft, Piece};

use super::Unmeshed;
use super::cups::rings;
use super::limb_parts::{limb_part, why_left_out};
use super::under::{is_lining_of, is_partial_lining};

/// What a meshed piece is on the body: how it is turned and placed goes by it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Part {
    /// A half of the torso, or a panel of it.
    Torso { is_front: bool },
    /// A half of trunks: from the centre seam to the side, with its leg.
    Leg { is_front: bool },
    /// Half a gusset between the legs.
    Gusset,
    /// A sleeve.
    Sleeve,
    /// A strap round the neck, from the front's end to the middle of the nape.
    NeckStrap,
    /// One of two triangles about the bust point.
    Triangle,
}

impl Part {
    /// Whether it faces the other way than it is drawn: pieces are drafted from the fold to the right, behind too.
    pub(crate) const fn is_behind(self) -> bool {
        match self {
            Part::Torso { is_front } | Part::Leg { is_front } => !is_front,
            // A neck strap is drawn from the front on, its outer side to the right.
            Part::Gusset | Part::NeckStrap | Part::Triangle => false,
            // Drawn with its front to the right, as it is on the right arm.
            Part::Sleeve => true,
        }
    }
}

/// A piece that is meshed: its number in the draft, and what it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Meshed {
    pub(crate) number: usize,
    pub(crate) part: Part,
}

/// Whether a piece of that key is cut from the front (`true`) or the back of the torso: `front`, `side_front_lower`, `back_panel`.
pub(crate) fn torso_half(key: &str) -> Option<bool> {
    let tokens: Vec<&str> = key.split('_').collect();
    if tokens
        .iter()
        .any(|t| matches!(*t, "tie" | "strap" | "loop" | "mesh"))
    {
        return None;
    }
    let half = match tokens[..] {
        ["centre" | "side" | "brief" | "band", half, ..] | [half, ..] => half,
        [] => return None,
    };
    match half {
        "front" => Some(true),
        "back" => Some(false),
        _ => None,
    }
}

/// What a piece is that only tops have.
fn top_part(piece: &Piece) -> Option<Part> {
    match piece.key.as_str() {
        "neck_strap" => Some(Part::NeckStrap),
        "front" if piece.edge("base").is_some() => Some(Part::Triangle),
        _ => None,
    }
}

/// The pieces that are meshed, in the draft's order, and what is left out, in words.
///
/// # Errors
/// [`Unmeshed::Piece`], [`Unmeshed::Missing`].
pub(crate) fn parts(draft: &Draft) -> Result<(Vec<Meshed>, Vec<String>), Unmeshed> {
    let mut used = Vec::new();
    let mut left_out = Vec::new();
    let mut has_second_cloth = false;
    for (number, piece) in draft.pieces.iter().enumerate() {
        let key = piece.key.as_str();
        let has = |layer: Layer| piece.cuts.iter().any(|c| c.layer == layer);
        let leave = |why: &str| format!("the {} is left out: {why}", piece.name.to_lowercase());
        if let Some(part) = limb_part(piece).or(top_part(piece)) {
            used.push(Meshed { number, part });
        } else if let Some(why) = why_left_out(piece) {
            left_out.push(why);
        } else if let (Some(is_front), true) = (torso_half(key), has(Layer::Shell) || has(Layer::Contrast)) {
            has_second_cloth |= has(Layer::Contrast);
            used.push(Meshed {
                number,
                part: Part::Torso { is_front },
            });
        } else if draft.pieces.iter().any(|shell| is_lining_of(piece, shell))
            || is_partial_lining(draft, piece)
        {
            // A layer on the shell's vertices.
            if key == "shelf_bra" {
                left_out.push(
                    "the shelf bra lies on the shell all over: that its lower edge is free is left out"
                        .into(),
                );
            }
        } else if key == "skirt" {
            // Hung from the suit when that is sewn.
        } else if key.contains("skirt") {
            left_out.push(leave("it hangs free and pulls little"));
        } else if has(Layer::Mesh) {
            left_out.push(leave("how power mesh pulls is not handed to the solve"));
        } else if key.starts_with("cup") {
            left_out.push(leave("its cloth is a patch between the layers that pulls little"));
        } else if !has(Layer::Shell) {
            left_out.push(leave("it has no place under the shell that is known"));
        } else if key.contains("loop") || key.contains("tie") || key.contains("shield") {
            left_out.push(leave("it carries nothing round the body"));
        } else {
            return Err(Unmeshed::Piece(piece.name.to_lowercase()));
        }
    }
    for (half, is_front) in [("front", true), ("back", false)] {
        let is_half = |p: Part| {
            // Two triangles have no back but their ties.
            p == (Part::Torso { is_front }) || p == (Part::Leg { is_front }) || p == Part::Triangle
        };
        if !used.iter().any(|m| is_half(m.part)) {
            return Err(Unmeshed::Missing(half));
        }
    }
    // Cups sewn to marks are no piece of the draft; those whose ring is whole lie on the mesh.
    let has_rings = draft.pieces.iter().any(|p| !rings(p).is_empty());
    let has_marks = draft
        .pieces
        .iter()
        .flat_map(|p| &p.marks)
        .any(|m| matches!(m, draft::Mark::Placement { text, .. } if text.starts_with("cup")));
    if has_marks && !has_rings {
        left_out.push("the cups are left out: nothing is known of their stiffness".into());
    }
    if has_second_cloth {
        left_out.push("parts of the second cloth pull as the shell does: its own law is not used".into());
    }
    Ok((used, left_out))
}
