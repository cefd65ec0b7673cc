//! Worn open edges and the strap.

use body::FittedForm;
use draft::OpenKind;
use units::Level;

use super::seams::stretch_along;
use super::{GAPE_MM, WornEdge, WornStrap};
use crate::outcome::Solved;
use crate::reading::{bar_tensions, worn_stretch};
use crate::suit::SuitMesh;
use crate::vector::{norm, sub};

pub(super) fn worn_edges(suit: &SuitMesh, solved: &Solved) -> Vec<WornEdge> {
    let x = &solved.positions;
    let pulls = bar_tensions(&suit.mesh, x);
    suit.open_lines
        .iter()
        .map(|line| {
            let worn: f64 = line
                .vertices
                .windows(2)
                .map(|w| norm(sub(x[w[1]], x[w[0]])))
                .sum();
            let steps = line.vertices.len().saturating_sub(1).max(1);
            let rest = vec![line.flat_mm / steps as f64; steps];
            let (_, most, most_at) = stretch_along(&line.vertices, &rest, x);
            let is_off = |v: usize| solved.gap_mm[v] > GAPE_MM;
            let off_mm = line
                .vertices
                .windows(2)
                .filter(|w| is_off(w[0]) || is_off(w[1]))
                .map(|w| norm(sub(x[w[1]], x[w[0]])))
                .sum();
            let bars = &pulls[line.bars.clone()];
            let force: f64 = line.vertices.iter().map(|v| solved.contact_n[*v]).sum();
            let gap = |v: &usize| solved.gap_mm[*v];
            let furthest = line
                .vertices
                .iter()
                .copied()
                .max_by(|a, b| gap(a).total_cmp(&gap(b)));
            WornEdge {
                kind: line.kind,
                piece: line.piece.clone(),
                stretch: worn / line.flat_mm.max(f64::MIN_POSITIVE),
                elastic_n: bars.iter().fold(0.0, |sum, pull| sum + pull) / bars.len().max(1) as f64,
                line_load_n_per_m: force / worn.max(f64::MIN_POSITIVE) * 1e3,
                gape_mm: furthest.map_or(0.0, |v| solved.gap_mm[v].max(0.0)),
                gape_at: furthest.map_or([0.0; 3], |v| x[v]),
                slack_mm: ring_slack(suit, x, line.kind),
                gape_vertex: furthest.unwrap_or(0),
                off_mm,
                most,
                most_at,
                girth_mm: ring_girth(suit, x, line.kind),
            }
        })
        .collect()
}

/// Worn length of the ring an edge is part of: of one side, or of both where it crosses the middle.
fn ring_girth(suit: &SuitMesh, x: &[[f64; 3]], kind: OpenKind) -> f64 {
    let lines = || suit.open_lines.iter().filter(|l| l.kind == kind);
    let half: f64 = lines()
        .flat_map(|l| l.vertices.windows(2))
        .map(|w| norm(sub(x[w[1]], x[w[0]])))
        .sum();
    if suit.is_whole {
        // Edges that come in pairs keep clear of the middle.
        let crosses = lines()
            .flat_map(|l| &l.vertices)
            .any(|v| x[*v][0].abs() < suit.edge_mm / 2.0);
        return if crosses { half } else { half / 2.0 };
    }
    let held = suit.mesh.held();
    let is_both = lines()
        .flat_map(|l| &l.vertices)
        .any(|v| held[*v][0] && x[*v][0].abs() < 1.0);
    if is_both { 2.0 * half } else { half }
}

/// What is slack in the ring of an edge, worn against flat, as a stand-off all round. Only rings that close round body or limb: a neckline
/// or armhole bends where it likes.
fn ring_slack(suit: &SuitMesh, x: &[[f64; 3]], kind: OpenKind) -> f64 {
    if !matches!(
        kind,
        OpenKind::Leg | OpenKind::Waist | OpenKind::Hem | OpenKind::Wrist
    ) {
        return 0.0;
    }
    let lines = || suit.open_lines.iter().filter(|l| l.kind == kind);
    let half: f64 = lines()
        .flat_map(|l| l.vertices.windows(2))
        .map(|w| norm(sub(x[w[1]], x[w[0]])))
        .sum();
    let flat: f64 = lines().map(|l| l.flat_mm).sum();
    let girth = ring_girth(suit, x, kind);
    let both = girth / half.max(f64::MIN_POSITIVE);
    ((flat - half) * both / std::f64::consts::TAU).max(0.0)
}

pub(super) fn worn_strap(suit: &SuitMesh, form: &FittedForm, solved: &Solved) -> Option<WornStrap> {
    if suit.has_sleeves() {
        return None;
    }
    let x = &solved.positions;
    let middle = suit.shoulder.get(suit.shoulder.len() / 2).map(|v| x[*v])?;
    let bust = form.level_height(Level::Bust);
    let top = middle[1];
    // The strap's own part: the upper half between bust and shoulder.
    let from = f64::midpoint(bust, top);
    let (mut sum, mut area) = (0.0, 0.0);
    for (t, l) in suit.mesh.triangles().iter().zip(worn_stretch(&suit.mesh, x)) {
        let height = t.corners.iter().map(|v| x[*v][1]).sum::<f64>() / 3.0;
        if t.layer == 0 && height > from {
            sum += l[0] * t.area_mm2;
            area += t.area_mm2;
        }
    }
    // With a ring both of the strap's ends are held.
    let held = suit.shoulder.iter().chain(
        suit.rails
            .iter()
            .filter(|r| r.axis == 0)
            .flat_map(|r| &r.vertices),
    );
    let rail_n: f64 = held.map(|v| solved.reactions_n[*v][0]).sum();
    let near: f64 = x
        .iter()
        .zip(&solved.contact_n)
        .filter(|(p, _)| norm(sub(**p, middle)) < 60.0)
        .map(|(_, f)| f)
        .sum();
    Some(WornStrap {
        stretch: if area > 0.0 { sum / area } else { 1.0 },
        // Holding it inwards is a force towards the middle, -x.
        rail_n: -rail_n,
        needed_friction: rail_n.abs() / near.max(f64::MIN_POSITIVE),
    })
}
