//! The shapes of the making plan: elastic per edge and the cut list.

use cloth::{Layer, Orientation};
use serde::Serialize;
use units::{Finding, Mm};

/// The elastic of one arc of an edge.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ElasticArc {
    /// `crotch`, `front`, `side`, `back`, `strap`, `underarm`.
    pub name: &'static str,
    /// Letter of the mark at its start, on elastic and edge alike.
    pub letter: char,
    /// Length of the arc along the seam line.
    pub edge: Mm,
    /// Elastic length / edge length.
    pub ratio: f64,
    /// Elastic for this arc.
    pub elastic: Mm,
    /// Where the arc starts along the edge, from the first mark.
    pub edge_mark: Mm,
    /// Where it starts along the elastic, from the first mark, the overlap not counted.
    pub elastic_mark: Mm,
}

/// The elastic of one open edge.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ElasticPlan {
    /// Which edge, by name: `leg`, `waist`, `neckline`, `armhole`.
    pub edge: &'static str,
    /// How many such edges: cut this many.
    pub count: u32,
    /// Kind of elastic, in the trade's words.
    pub kind: String,
    /// Its width.
    pub width: Mm,
    /// Arcs in sewing order.
    pub arcs: Vec<ElasticArc>,
    /// Overlap of the join; zero for an edge that is not a ring.
    pub overlap: Mm,
    /// What to cut, overlap included.
    pub cut_length: Mm,
    /// Where the rule of its ratios comes from.
    pub source: &'static str,
    /// What was judged of it.
    pub findings: Vec<Finding>,
}

impl ElasticPlan {
    /// Name of the mark at the start of an arc: its letter, with a prime where the edge has met that letter before. A
    /// piece is drafted as a half, so the marks of its other side carry the same letters: round a neckline each is met
    /// twice, and `f′` is the f of the other side.
    pub fn mark(&self, arc: usize) -> String {
        let Some(own) = self.arcs.get(arc) else {
            return String::new();
        };
        let before = self.arcs.iter().take(arc).filter(|a| a.letter == own.letter);
        let mut name = own.letter.to_string();
        name.extend(before.map(|_| '′'));
        name
    }
}

/// One line of the cut list.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CutRow {
    /// From which layer.
    pub layer: Layer,
    /// The cloth's name.
    pub cloth: String,
    /// Letter of the piece on the page map.
    pub letter: char,
    /// Name of the piece.
    pub piece: String,
    /// How many.
    pub count: u32,
    /// A left and a right.
    pub mirrored: bool,
    /// Which way the cloth lies.
    pub orientation: Orientation,
}
