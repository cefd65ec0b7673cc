//! What was held, straps and ties as lines, and how far a top rode up.

use super::{RodeUp, WornLine, WornRail};
use crate::outcome::Solved;
use crate::reading::bar_tensions;
use crate::suit::{Rail, SuitMesh};
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

/// Straps and ties; lines side by side are one strap.
pub(super) fn worn_lines(suit: &SuitMesh, solved: &Solved) -> Vec<WornLine> {
    let mut names: Vec<&'static str> = suit.straps.iter().map(|s| s.name).collect();
    names.dedup();
    names
        .into_iter()
        .map(|name| worn_line(suit, name, solved))
        .collect()
}

fn worn_line(suit: &SuitMesh, name: &'static str, solved: &Solved) -> WornLine {
    let x = &solved.positions;
    let pulls = bar_tensions(&suit.mesh, x);
    let (mut rest, mut long, mut force, mut under) = (0.0, 0.0, 0.0, 0.0);
    let (mut count, mut pull_n, mut gape_mm) = (0.0_f64, 0.0, 0.0);
    for line in suit.straps.iter().filter(|s| s.name == name) {
        let along = line.bars.start..line.bars.start + line.along;
        let bars = suit.mesh.bars().get(along.clone()).unwrap_or(&[]);
        let own: f64 = bars.iter().map(|b| norm(sub(x[b.ends[0]], x[b.ends[1]]))).sum();
        let pull: f64 = pulls.get(along).unwrap_or(&[]).iter().sum();
        count += 1.0;
        rest += bars.iter().map(|b| b.rest_mm).sum::<f64>();
        long += own;
        under += own * line.width_mm;
        pull_n += pull / line.along.max(1) as f64;
        for v in &line.vertices {
            force += solved.contact_n[*v];
            gape_mm = f64::max(gape_mm, solved.gap_mm[*v]);
        }
    }
    WornLine {
        name,
        stretch: long / rest.max(f64::MIN_POSITIVE),
        length_mm: long / count.max(1.0),
        pull_n,
        pressure_kpa: if under > 0.0 { 1e3 * force / under } else { 0.0 },
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
