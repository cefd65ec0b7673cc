//! Which piece edges an operation sews: claimed once, counted, and measured.

use std::collections::BTreeSet;

use cloth::Layer;
use draft::{Draft, EdgeUse, Piece, PieceEdge};

use super::Touch;

/// The edges of a draft, each to be claimed by one operation.
pub(crate) struct Ledger<'a> {
    pub(crate) draft: &'a Draft,
    claimed: BTreeSet<(usize, usize)>,
}

/// The part of a suit a piece belongs to: a two-piece is two suits sewn at once.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Unit {
    Main,
    Brief,
}

impl Unit {
    pub(crate) fn of(draft: &Draft, piece: &Piece) -> Unit {
        let has_brief = draft.pieces.iter().any(|p| p.key.starts_with("brief_"));
        if has_brief && (piece.key.starts_with("brief_") || piece.key == "crotch_lining") {
            Unit::Brief
        } else {
            Unit::Main
        }
    }

    /// `brief_` before the role in ids of the second suit.
    pub(crate) const fn prefix(self) -> &'static str {
        match self {
            Unit::Main => "",
            Unit::Brief => "brief_",
        }
    }
}

/// Edges of a draft by place of piece and of edge.
pub(crate) type EdgeAt = (usize, usize);

/// Whether a piece is cut from an outer cloth.
pub(crate) fn is_outer(piece: &Piece) -> bool {
    piece
        .cuts
        .iter()
        .any(|c| matches!(c.layer, Layer::Shell | Layer::Contrast))
}

/// How often an edge of the piece is there in the suit.
pub(crate) fn times(piece: &Piece) -> f64 {
    let cut: u32 = piece.cuts.first().map_or(1, |c| c.count);
    f64::from(cut) * if piece.on_fold { 2.0 } else { 1.0 }
}

impl<'a> Ledger<'a> {
    pub(crate) fn new(draft: &'a Draft) -> Ledger<'a> {
        Ledger {
            draft,
            claimed: BTreeSet::new(),
        }
    }

    pub(crate) fn piece(&self, at: EdgeAt) -> Option<&'a Piece> {
        self.draft.pieces.get(at.0)
    }

    pub(crate) fn edge(&self, at: EdgeAt) -> Option<&'a PieceEdge> {
        self.piece(at)?.edges.get(at.1)
    }

    /// Every edge that must be sewn and is not yet claimed, that the test takes.
    pub(crate) fn free(&self, take: impl Fn(&Piece, &PieceEdge) -> bool) -> Vec<EdgeAt> {
        let mut found = Vec::new();
        for (i, piece) in self.draft.pieces.iter().enumerate() {
            for (j, edge) in piece.edges.iter().enumerate() {
                let is_sewn = !matches!(edge.role, EdgeUse::Fold | EdgeUse::Raw);
                if is_sewn && !self.claimed.contains(&(i, j)) && take(piece, edge) {
                    found.push((i, j));
                }
            }
        }
        found
    }

    /// Claims edges; those already claimed fall out.
    pub(crate) fn claim(&mut self, edges: Vec<EdgeAt>) -> Vec<EdgeAt> {
        edges.into_iter().filter(|at| self.claimed.insert(*at)).collect()
    }

    /// Edges by piece, sewn or handled.
    pub(crate) fn touches(&self, sewn: &[EdgeAt], handled: &[EdgeAt]) -> Vec<Touch> {
        let mut touches: Vec<Touch> = Vec::new();
        for (edges, is_sewn) in [(sewn, true), (handled, false)] {
            for at in edges {
                let (Some(piece), Some(edge)) = (self.piece(*at), self.edge(*at)) else {
                    continue;
                };
                let place = touches
                    .iter()
                    .position(|t| t.piece == piece.key)
                    .unwrap_or_else(|| {
                        touches.push(Touch::whole(piece.key.as_str()));
                        touches.len() - 1
                    });
                let touch = &mut touches[place];
                let names = if is_sewn {
                    &mut touch.sewn
                } else {
                    &mut touch.handled
                };
                if !names.contains(&edge.name) {
                    names.push(edge.name);
                }
            }
        }
        touches
    }

    /// Whole length of some edges in the suit, mm.
    pub(crate) fn length(&self, edges: &[EdgeAt]) -> f64 {
        edges
            .iter()
            .filter_map(|at| Some(self.edge(*at)?.curve.length() * times(self.piece(*at)?)))
            .sum()
    }

    /// How many separate runs some edges make.
    pub(crate) fn runs(&self, edges: &[EdgeAt]) -> f64 {
        edges.iter().filter_map(|at| self.piece(*at)).map(times).sum()
    }
}
