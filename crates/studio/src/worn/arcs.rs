//! Which arc of a planned elastic lies at a place of a piece's edge.
//!
//! The draft marks on every piece where one arc ends and the next begins, with a letter the elastic carries too. Between two marks lies an
//! arc that those letters bound; at an end of the edge, where another piece or the other half goes on, the one whose length, or half of
//! it, is what is left. A piece without marks (the half of a band, a side that was unfolded) has the arc of its side of the body.
//!
//! **Shapes and units.** mm, flat.
//! **Limits.** Suits drafted whole take the arc of the piece's side: the same edge is there twice, one of them run backwards.

use draft::{Draft, EdgeUse, Mark, OpenKind, PieceEdge};
use make::{ElasticArc, ElasticPlan};
use solve::OpenPlace;

/// A mark lies on an edge that passes it this near, mm.
const ON_EDGE_MM: f64 = 1.0;
/// A mark this near an end of the edge is at the end, as a share.
const AT_END: f64 = 0.005;
/// Where two arcs fit alike that of the piece's own side is taken: worth this share of a length.
const OWN_SIDE: f64 = 0.02;
/// Steps in which a mark is looked for along its edge.
const STEPS: u32 = 200;

/// An arc with the letters at its ends.
struct Bounded<'a> {
    arc: &'a ElasticArc,
    ends: [char; 2],
}

/// The ratio planned at a place, if there is elastic.
pub(super) fn ratio_at(draft: &Draft, plans: &[ElasticPlan], place: OpenPlace<'_>) -> Option<f64> {
    let edges = draft.open_edges.iter().zip(plans);
    let own = edges.filter(|(edge, _)| edge.kind == place.kind);
    let arcs: Vec<Bounded<'_>> = own
        .flat_map(|(_, plan)| {
            let all = &plan.arcs;
            (0..all.len()).map(move |i| Bounded {
                arc: &all[i],
                ends: [all[i].letter, all[(i + 1) % all.len()].letter],
            })
        })
        .collect();
    let is_back = place.piece.split('_').any(|part| part == "back");
    let side = if is_back { "back" } else { "front" };
    let by_side = || {
        let own = arcs.iter().find(|a| a.arc.name == side);
        own.or(arcs.first()).map(|a| a.arc.ratio)
    };
    let Some(edge) = edge_of(draft, place.piece, place.kind).filter(|_| !is_whole(draft)) else {
        return by_side();
    };
    let (letters, length_mm) = run(draft, place.piece, edge, place.share);
    let bounded = arcs.iter().filter(|a| match letters {
        [Some(a_), Some(b)] => a.ends == [a_, b] || a.ends == [b, a_],
        [Some(one), None] | [None, Some(one)] => a.ends.contains(&one),
        [None, None] => false,
    });
    let off = |a: &Bounded<'_>| {
        let long = a.arc.edge.get().max(1.0);
        let whole = (length_mm - long).abs().min((2.0 * length_mm - long).abs()) / long;
        whole - if a.arc.name == side { OWN_SIDE } else { 0.0 }
    };
    let best = bounded.min_by(|a, b| off(a).total_cmp(&off(b)));
    best.map(|a| a.arc.ratio).or_else(by_side)
}

fn is_whole(draft: &Draft) -> bool {
    let beyond = |p: &draft::Piece| p.edges.iter().any(|e| e.curve.start().x < -1.0);
    let is_pair = |p: &draft::Piece| p.cuts.iter().any(|c| c.count == 2 && c.mirrored);
    draft
        .pieces
        .iter()
        .any(|p| !p.on_fold && !is_pair(p) && beyond(p))
}

fn edge_of<'a>(draft: &'a Draft, key: &str, kind: OpenKind) -> Option<&'a PieceEdge> {
    let piece = draft.pieces.iter().find(|p| p.key == key)?;
    piece.edges.iter().find(|e| e.role == EdgeUse::Open(kind))
}

/// The letters of the marks either side of a share of an edge, and how far they are apart, mm.
fn run(draft: &Draft, key: &str, edge: &PieceEdge, share: f64) -> ([Option<char>; 2], f64) {
    let length = edge.curve.length();
    let mut marks: Vec<(f64, char)> = Vec::new();
    for piece in draft.pieces.iter().filter(|p| p.key == key) {
        for mark in &piece.marks {
            let Mark::ArcEnd { at, letter, .. } = mark else {
                continue;
            };
            let off = |i: u32| {
                let s = f64::from(i) / f64::from(STEPS);
                (s, (edge.curve.at_length(s * length).0 - *at).hypot())
            };
            let nearest = (0..=STEPS).map(off).min_by(|a, b| a.1.total_cmp(&b.1));
            if let Some((s, away)) = nearest
                && away < ON_EDGE_MM + length / f64::from(STEPS)
            {
                marks.push((s, *letter));
            }
        }
    }
    marks.sort_by(|a, b| a.0.total_cmp(&b.0));
    let is_inside = |s: f64| s > AT_END && s < 1.0 - AT_END;
    let before = marks.iter().rev().find(|m| m.0 <= share && is_inside(m.0));
    let after = marks.iter().find(|m| m.0 > share && is_inside(m.0));
    let at_end = |end: f64| marks.iter().find(|m| (m.0 - end).abs() <= AT_END);
    let (low, high) = (before.or_else(|| at_end(0.0)), after.or_else(|| at_end(1.0)));
    let between = high.map_or(1.0, |m| m.0) - low.map_or(0.0, |m| m.0);
    ([low.map(|m| m.1), high.map(|m| m.1)], between * length)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::order::{Order, work_out};
    use crate::suit_file::read_text;

    fn order(style: &str) -> Order {
        let text = include_str!("../../../../examples/maren-one-piece.toml");
        let start = text.find("[design]").unwrap();
        let end = text[start + 1..]
            .find("\n[")
            .map_or(text.len(), |i| start + 1 + i);
        let text = format!(
            "{}[design]\nstyle = \"{style}\"\n{}",
            &text[..start],
            &text[end..]
        );
        work_out(&read_text("maren.toml", &text).unwrap()).unwrap()
    }

    /// What lies on the pieces is the planned elastic: along every edge of a kind the ratios add up to its arcs.
    #[test]
    fn elastic_on_the_pieces_is_as_long_as_planned() {
        for style in ["one-piece", "brief", "bandeau", "side-tie", "crop-top"] {
            let order = order(style);
            for (open, plan) in order.draft.open_edges.iter().zip(&order.elastic) {
                let kind = open.kind;
                let planned: f64 = order
                    .draft
                    .open_edges
                    .iter()
                    .zip(&order.elastic)
                    .filter(|(e, _)| e.kind == kind)
                    .flat_map(|(e, p)| p.arcs.iter().map(move |a| a.elastic.get() * f64::from(e.count)))
                    .sum();
                let mut laid = 0.0;
                let pieces = order.draft.pieces.iter();
                let shell = pieces.filter(|p| p.cuts.iter().any(|c| c.layer == cloth::Layer::Shell));
                for piece in shell {
                    for edge in piece.edges.iter().filter(|e| e.role == EdgeUse::Open(kind)) {
                        for i in 0..100 {
                            let share = (f64::from(i) + 0.5) / 100.0;
                            let place = OpenPlace {
                                kind,
                                piece: &piece.key,
                                share,
                            };
                            let ratio = ratio_at(&order.draft, &order.elastic, place).unwrap();
                            laid += 2.0 * ratio * edge.curve.length() / 100.0;
                        }
                    }
                }
                if laid == 0.0 {
                    // A folded band carries it, not an edge that is drawn open.
                    continue;
                }
                assert!(
                    (laid / planned - 1.0).abs() < 0.01,
                    "{style} {}: {laid} for {planned}",
                    plan.edge
                );
            }
        }
    }
}
