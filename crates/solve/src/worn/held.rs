//! What was held, straps and ties as lines, and how far a top rode up.

use super::{RodeUp, WornLine, WornRail};
use crate::outcome::Solved;
use crate::reading::bar_tensions;
use crate::suit::{Rail, StrapLine, SuitMesh};
use crate::vector::{norm, sub};

/// What is held up, and what it takes.
pub(super) fn worn_rails(suit: &SuitMesh, solved: &Solved) -> Vec<WornRail> {
    let up = suit.rails.iter().filter(|r| r.axis == 1);
    up.map(|rail| worn_rail(rail, solved)).collect()
}

fn worn_rail(rail: &Rail, solved: &Solved) -> WornRail {
    let slides_n: f64 = rail
        .vertices
        .iter()
        .map(|v| solved.reactions_n[*v][rail.axis])
        .sum();
    let contact_n: f64 = rail.carried_by.iter().map(|v| solved.contact_n[*v]).sum();
    WornRail {
        name: rail.name,
        // What is left over at a held point is the force it would move with.
        slides_n: -slides_n,
        contact_n,
        needed_friction: slides_n.abs() / contact_n.max(f64::MIN_POSITIVE),
    }
}

pub(super) fn worn_line(suit: &SuitMesh, line: &StrapLine, solved: &Solved) -> WornLine {
    let x = &solved.positions;
    let pulls = bar_tensions(&suit.mesh, x);
    let along = line.bars.start..line.bars.start + line.along;
    let bars = suit.mesh.bars().get(along.clone()).unwrap_or(&[]);
    let rest: f64 = bars.iter().map(|b| b.rest_mm).sum();
    let length_mm: f64 = bars.iter().map(|b| norm(sub(x[b.ends[0]], x[b.ends[1]]))).sum();
    let pull: f64 = pulls.get(along).unwrap_or(&[]).iter().sum();
    let force: f64 = line.vertices.iter().map(|v| solved.contact_n[*v]).sum();
    let gape_mm = line
        .vertices
        .iter()
        .map(|v| solved.gap_mm[*v])
        .fold(0.0, f64::max);
    WornLine {
        name: line.name,
        stretch: length_mm / rest.max(f64::MIN_POSITIVE),
        length_mm,
        pull_n: pull / line.along.max(1) as f64,
        pressure_kpa: if line.width_mm > 0.0 {
            1e3 * force / (length_mm * line.width_mm).max(f64::MIN_POSITIVE)
        } else {
            0.0
        },
        gape_mm,
    }
}

/// How far the lower edge of a top went from where the draft has it.
pub(super) fn rode_up(suit: &SuitMesh, placed: &[[f64; 3]], x: &[[f64; 3]]) -> Option<RodeUp> {
    let mean = |is_front: bool| {
        let lower = suit.ends.iter().filter(|e| e.is_lower && e.is_front == is_front);
        let all: Vec<usize> = lower.flat_map(|e| e.vertices.iter().copied()).collect();
        let sum: f64 = all.iter().map(|v| x[*v][1] - placed[*v][1]).sum();
        (!all.is_empty()).then(|| sum / all.len() as f64)
    };
    Some(RodeUp {
        front_mm: mean(true)?,
        back_mm: mean(false)?,
    })
}
