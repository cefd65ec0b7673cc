//! The shelf bra: the upper front once more in lining, free at its lower edge, where an elastic holds it under the bust.
//!
//! It is the front, dart and all, cut off by the cone edge 10 mm below the under-bust; neckline, armholes, straps and sides are
//! caught in with the shell.
//!
//! **Shapes and units.** mm flat, piece frame. Bust point to under-bust along the body 55 + 0.12 d, d bust less under-bust.
//! **Source.** The length to the under-bust: own estimate. A front bra with an under-bust elastic: common practice, no single source.
//! **Limits.** Support is not computed. The back has none; its side seams carry the pull.

use cloth::Layer;
use units::{Finding, Severity};

use super::cut::{Parts, SeamNames};
use super::one_piece::{Hold, front};
use super::open_edges::around_share;
use super::{Drawn, Job, Widths, cone_edge};
use crate::block::Block;
use crate::design::{ClosurePlace, LiningCover};
use crate::parameter::Parameter;
use crate::piece::{EdgeUse, OpenKind};
use crate::refusal::{InvalidKind, Refusal};
use crate::suit::{EdgeArc, FinishedMeasure, OpenEdge, SeamWalk};

/// Cloth below the under-bust level, mm.
const BELOW: f64 = 10.0;
/// The bra's edge stays this far above the leg and below the dart on the side seam, mm (own).
const CLEAR: f64 = 20.0;

pub(super) const SHELF_BRA: Parameter = Parameter::switch(
    "shelf_bra",
    "Shelf bra",
    "a front of lining down to the under-bust with an elastic, free of the shell at its lower edge",
    false,
);

const LOWER: SeamNames = SeamNames {
    edge: "underbust",
    walk: "shelf bra",
    middle: "bra_centre",
    quarter: "bra_quarter",
};

/// Adds the bra, its elastic and its side seam.
///
/// # Errors
/// [`Refusal::Combination`] for a body without a bust, a front that is lined already, or a neckline or dart in its way.
pub(super) fn add(job: &Job<'_>, block: &Block, hold: &Hold, drawn: &mut Drawn) -> Result<(), Refusal> {
    let refuse = |why| {
        Err(Refusal::Combination {
            parameter: "shelf_bra",
            why,
        })
    };
    if !job.m.is_woman() {
        return refuse("a shelf bra is for a bust; leave it out");
    }
    if matches!(job.design.lining, LiningCover::Full | LiningCover::Front) {
        return refuse(
            "the front is lined already; set lining to \"crotch\" or \"none\", or leave the shelf bra out",
        );
    }
    if job.design.closure.is_some_and(|c| c.place == ClosurePlace::Front) {
        return refuse(
            "a zip in front would be closed off by the bra; put it at the back, or leave the bra out",
        );
    }
    let to_underbust = 55.0 + 0.12 * job.m.cup_difference();
    let y = block.levels.bust_point_y - to_underbust * job.k.y(1.0) - BELOW;
    let side = &block.front.side;
    let Some(s) = side.length_to_height(y).filter(|&s| s > CLEAR) else {
        return refuse("the leg is cut so high that the bra would end in it; cut the leg lower");
    };
    if block
        .dart
        .as_ref()
        .is_some_and(|d| s > d.side_low.length() - CLEAR)
        || s > side.length() - CLEAR
    {
        return refuse(
            "the bra would end in the bust dart or the armhole; leave it out, or take the bust point again",
        );
    }
    let (from, t) = side.at_length(s);
    let line = cone_edge(from, t, 0.0);
    if line.end().y > block.front.neck.end().y - CLEAR {
        return refuse("the neckline ends below the bra; make it shallower, or leave the bra out");
    }
    let w = Widths::lining(job.design);
    let whole = front(job, block, w, Layer::Lining, hold)?;
    let (_, mut bra) = Parts::of(&whole).split(&line, LOWER, w.open)?;
    bra.key = "shelf_bra".into();
    bra.name = "Shelf bra".into();
    for edge in bra.edges.iter_mut().filter(|e| e.name == LOWER.edge) {
        edge.role = EdgeUse::Open(OpenKind::Underbust);
    }
    if let Some(lower) = bra.edge(LOWER.edge).map(|e| e.curve.clone()) {
        bra.mark(crate::build::arc_end(&lower, lower.length(), 'm'));
    }
    let bra = bra.build(job.cloth)?;

    let sides: Vec<&'static str> = bra
        .edges
        .iter()
        .map(|e| e.name)
        .filter(|n| n.starts_with("side"))
        .collect();
    let bra_mm: f64 = sides
        .iter()
        .filter_map(|n| bra.edge(n))
        .map(|e| e.curve.length())
        .sum();
    let shell = if block.dart.is_some() {
        block
            .dart
            .as_ref()
            .map_or(0.0, |d| d.side_low.length() + d.side_up.length())
    } else {
        side.length()
    };
    let shell_key = drawn
        .pieces
        .iter()
        .rfind(|p| p.key.contains("front") && p.edges.iter().any(|e| e.name.starts_with("side")))
        .map_or_else(|| "front".to_owned(), |p| p.key.clone());
    drawn.seams.push(SeamWalk {
        name: "shelf bra side",
        first: (bra.key.clone(), sides),
        second: (shell_key, vec!["side"]),
        first_mm: bra_mm,
        second_mm: shell - s,
        sewn_ease_mm: 0.0,
    });
    let lower = bra.edge(LOWER.edge).map(|e| e.curve.clone());
    let lower = lower.ok_or(Refusal::Invalid {
        piece: "shelf bra",
        kind: InvalidKind::Gap,
        by: 0.0,
    })?;
    drawn.open_edges.push(OpenEdge {
        kind: OpenKind::Underbust,
        count: 1,
        is_ring: false,
        arcs: vec![EdgeArc {
            name: "front",
            letter: 'm',
            length_mm: 2.0 * lower.length(),
        }],
        around_share: around_share(&[&lower]),
        worn_radius_mm: job.m.underbust.unwrap_or(job.m.bust) / std::f64::consts::TAU,
    });
    drawn.finished.push(FinishedMeasure::new((
        "underbust_band",
        "shelf bra, lower edge from side seam to side seam",
        2.0 * lower.length(),
        6.0,
    )));
    drawn.findings.push(Finding {
        code: "draft.shelf_bra",
        severity: Severity::Good,
        place: "shelf bra".into(),
        message: "the shelf bra's lower edge stays free; its elastic ends in the side seams".into(),
        value: None,
        limit: None,
        remedy: String::new(),
    });
    drawn.pieces.push(bra);
    Ok(())
}
