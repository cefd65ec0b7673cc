//! The nest: every piece once, with the outlines of all sizes laid over each other, a layer a size.
//!
//! Outlines are stacked where the body's frame is: fold at x = 0, waist at y = 0, which every drafted piece of the torso has,
//! also one that ends below the waist. What is drawn in a frame of its own is stacked at its crotch seam, or at the middle
//! of its top edge; [`Stacked`] says which, the same for all sizes of a piece.
//!
//! **Shapes and units.** mm on relaxed cloth, y up, as drafted: pieces on the fold are halves with x >= 0.

use draft::{EdgeUse, Mark, Notch, Piece, Shape};
use kurbo::{Point, Vec2};
use serde::Serialize;

use crate::sizes::Range;

/// Where the outlines of a piece are laid over each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stacked {
    /// At fold and body waist.
    FoldAndWaist,
    /// At fold and crotch seam.
    FoldAndCrotch,
    /// At the middle of the top edge: its upper end on the fold, or the middle of its upper side.
    TopMiddle,
}

impl Stacked {
    /// What paper says.
    pub const fn words(self) -> &'static str {
        match self {
            Stacked::FoldAndWaist => "stacked at fold and waist",
            Stacked::FoldAndCrotch => "stacked at fold and crotch seam",
            Stacked::TopMiddle => "stacked at the middle of the top edge",
        }
    }
}

/// One size of a piece in the nest.
#[derive(Clone, Debug, PartialEq)]
pub struct NestLayer {
    /// Index into [`Nest::sizes`].
    pub size: usize,
    /// The piece of this size, as drafted, in its own frame.
    pub piece: Piece,
    /// What is added to its points to stack it.
    pub shift: Vec2,
}

impl NestLayer {
    /// Its half as drafted, or its whole, stacked.
    pub fn shape(&self, is_whole: bool) -> Shape {
        let mut shape = if is_whole {
            self.piece.whole()
        } else {
            self.piece.as_drafted()
        };
        let by = self.shift;
        if by == Vec2::ZERO {
            return shape;
        }
        for edge in &mut shape.seam_line {
            edge.curve = edge.curve.map(|p| p + by);
        }
        for point in &mut shape.cut_line {
            *point += by;
        }
        if let Some((foot, head)) = &mut shape.fold_line {
            *foot += by;
            *head += by;
        }
        for Notch { at, seam_at, .. } in &mut shape.notches {
            *at += by;
            *seam_at += by;
        }
        for mark in &mut shape.marks {
            move_mark(mark, by);
        }
        for arrow in [&mut shape.grain, &mut shape.stretch] {
            arrow.from += by;
            arrow.to += by;
        }
        shape.label_at += by;
        shape
    }
}

fn move_mark(mark: &mut Mark, by: Vec2) {
    match mark {
        Mark::Cross { at, .. } | Mark::ArcEnd { at, .. } => *at += by,
        Mark::LevelLine { from, to, .. } => {
            *from += by;
            *to += by;
        }
        Mark::Placement { curve, .. } => *curve = curve.map(|p| p + by),
    }
}

/// One piece of the nest.
#[derive(Clone, Debug, PartialEq)]
pub struct NestPiece {
    /// The piece's key: `front`.
    pub key: String,
    /// Its name on paper.
    pub name: String,
    /// Whether it is drafted as a half on the fold.
    pub on_fold: bool,
    /// Where the sizes lie over each other.
    pub stacked: Stacked,
    /// The sizes that have it, smallest first.
    pub layers: Vec<NestLayer>,
    /// The drafted sizes that don't: another branch was taken there.
    pub missing: Vec<String>,
}

/// A range's pieces, nested.
#[derive(Clone, Debug, PartialEq)]
pub struct Nest {
    /// Names of the drafted sizes, in order of the table.
    pub sizes: Vec<String>,
    /// Pieces in cutting order of the first size that has them.
    pub pieces: Vec<NestPiece>,
    /// Sizes that were not drafted, with the reason: to be said beside the nest.
    pub refused: Vec<(String, String)>,
}

impl Range {
    /// The nest of all drafted sizes.
    pub fn nest(&self) -> Nest {
        let drafted: Vec<(&str, &crate::sizes::DraftedSize)> = self.drafted().collect();
        let mut order: Vec<&str> = Vec::new();
        for piece in drafted.iter().flat_map(|(_, d)| &d.draft.pieces) {
            if !order.contains(&piece.key.as_str()) {
                order.push(&piece.key);
            }
        }
        let pieces = order
            .into_iter()
            .filter_map(|key| {
                let found: Vec<(usize, &Piece)> = drafted
                    .iter()
                    .enumerate()
                    .filter_map(|(i, (_, d))| Some((i, d.draft.pieces.iter().find(|p| p.key == key)?)))
                    .collect();
                let (_, first) = found.first()?;
                let stacked = stacking(&found);
                Some(NestPiece {
                    key: key.to_owned(),
                    name: first.name.clone(),
                    on_fold: first.on_fold,
                    stacked,
                    missing: drafted
                        .iter()
                        .enumerate()
                        .filter(|(i, _)| !found.iter().any(|(j, _)| i == j))
                        .map(|(_, (name, _))| (*name).to_owned())
                        .collect(),
                    layers: found
                        .into_iter()
                        .map(|(size, piece)| NestLayer {
                            size,
                            shift: match stacked {
                                Stacked::FoldAndWaist | Stacked::FoldAndCrotch => Vec2::ZERO,
                                Stacked::TopMiddle => -top_middle(piece).to_vec2(),
                            },
                            piece: piece.clone(),
                        })
                        .collect(),
                })
            })
            .collect();
        Nest {
            sizes: drafted.iter().map(|(name, _)| (*name).to_owned()).collect(),
            pieces,
            refused: self
                .refused()
                .map(|(name, why)| (name.to_owned(), why.to_string()))
                .collect(),
        }
    }
}

/// The best place all sizes of a piece share.
fn stacking(found: &[(usize, &Piece)]) -> Stacked {
    if found.iter().all(|(_, p)| is_on_the_body(p)) {
        Stacked::FoldAndWaist
    } else if found.iter().all(|(_, p)| has_crotch_seam(p)) {
        Stacked::FoldAndCrotch
    } else {
        Stacked::TopMiddle
    }
}

/// Whether a piece is drawn in the body's frame: it has a level of the body, or runs into the crotch or up the side seam.
fn is_on_the_body(piece: &Piece) -> bool {
    let has_level = piece.marks.iter().any(|m| matches!(m, Mark::LevelLine { .. }));
    let has_seam = piece
        .edges
        .iter()
        .any(|e| e.role == EdgeUse::Seam && matches!(e.name, "crotch" | "side" | "side_low"));
    has_level || (has_seam && piece.edges.iter().any(|e| e.name == "leg"))
}

fn has_crotch_seam(piece: &Piece) -> bool {
    piece
        .marks
        .iter()
        .any(|m| matches!(m, Mark::Placement { curve, text } if text == "crotch seam" && curve.start().y.abs() < 1e-9))
}

/// Upper end on the fold, or the middle of the outline's upper side.
fn top_middle(piece: &Piece) -> Point {
    let points: Vec<Point> = piece.edges.iter().flat_map(|e| e.curve.flatten(0.2)).collect();
    let highest = |points: &mut dyn Iterator<Item = f64>| points.fold(f64::NEG_INFINITY, f64::max);
    if piece.on_fold {
        let top = highest(&mut points.iter().filter(|p| p.x.abs() < 1e-9).map(|p| p.y));
        return Point::new(0.0, if top.is_finite() { top } else { 0.0 });
    }
    let top = highest(&mut points.iter().map(|p| p.y));
    // The upper side: everything within a millimetre of the top.
    let (low, high) = points
        .iter()
        .filter(|p| p.y > top - 1.0)
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), p| {
            (a.min(p.x), b.max(p.x))
        });
    if low <= high {
        Point::new(0.5 * (low + high), top)
    } else {
        Point::ORIGIN
    }
}
