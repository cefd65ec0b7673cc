//! The sewn lines of a meshed suit, by the names the draft gives its seams.
//!
//! **Shapes and units.** mm. A line's rest length at a place is the mean of its two sides': sewn ease is taken up evenly.

use draft::{Draft, EdgeUse};

use crate::seams::{Division, EdgeAt, bare_name};

/// A stretch of a seam, as a line of vertices.
#[derive(Clone, Debug, PartialEq)]
pub struct SeamLine {
    /// The draft's name of the seam: `side`, `shoulder`, `crotch`.
    pub name: &'static str,
    /// Keys of the two pieces it joins; twice the same for a seam of a piece with its own mirror image.
    pub pieces: [String; 2],
    /// Its vertices, in order.
    pub vertices: Vec<usize>,
    /// Length at rest between each vertex and the next, mm.
    pub rest_mm: Vec<f64>,
}

/// The lines of every seam whose sides are meshed, in the draft's order of seams. Darts are sewn closed before and have no name
/// of a seam: they are left out.
pub(crate) fn seam_lines(
    draft: &Draft,
    division: &Division,
    vertex: &dyn Fn(EdgeAt, usize) -> usize,
) -> Vec<SeamLine> {
    let mut lines = Vec::new();
    let of = |(key, names): &(String, Vec<&'static str>), at: EdgeAt| {
        let piece = draft.pieces.get(at.0);
        let edge = piece.and_then(|p| p.edges.get(at.1));
        piece.is_some_and(|p| p.key == *key)
            && edge.is_some_and(|e| names.iter().any(|n| bare_name(n) == bare_name(e.name)))
    };
    let key = |at: EdgeAt| draft.pieces.get(at.0).map_or_else(String::new, |p| p.key.clone());
    let length = |at: EdgeAt| {
        let edge = draft.pieces.get(at.0).and_then(|p| p.edges.get(at.1));
        edge.map_or(0.0, |e| e.curve.length())
    };
    for walk in &draft.seams {
        if walk.is_with_itself() {
            for at in division.on_middle.iter().filter(|at| of(&walk.first, **at)) {
                let edge = draft.pieces.get(at.0).and_then(|p| p.edges.get(at.1));
                let shares = division.shares.get(at).map_or(&[][..], Vec::as_slice);
                if edge.is_none_or(|e| e.role == EdgeUse::Fold) || shares.len() < 2 {
                    continue;
                }
                lines.push(SeamLine {
                    name: walk.name,
                    pieces: [key(*at), key(*at)],
                    vertices: (0..shares.len()).map(|i| vertex(*at, i)).collect(),
                    rest_mm: shares.windows(2).map(|w| (w[1] - w[0]) * length(*at)).collect(),
                });
            }
            continue;
        }
        for sewn in &division.sewn {
            let is_of = of(&walk.first, sewn.first) && of(&walk.second, sewn.second)
                || of(&walk.first, sewn.second) && of(&walk.second, sewn.first);
            if !is_of || sewn.pairs.len() < 2 {
                continue;
            }
            let number = |share: f64| division.number(sewn.first, share);
            lines.push(SeamLine {
                name: walk.name,
                pieces: [key(sewn.first), key(sewn.second)],
                vertices: sewn
                    .pairs
                    .iter()
                    .map(|(share, _)| vertex(sewn.first, number(*share)))
                    .collect(),
                rest_mm: sewn
                    .pairs
                    .windows(2)
                    .map(|w| {
                        let first = (w[1].0 - w[0].0).abs() * length(sewn.first);
                        f64::midpoint(first, (w[1].1 - w[0].1).abs() * length(sewn.second))
                    })
                    .collect(),
            });
        }
    }
    lines
}
