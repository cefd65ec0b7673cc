//! The torso loop in series: how the length ease of a one-piece really arrives on straps, torso and crotch.
//!
//! One tension runs through the whole loop, from the shoulder down the front, through the crotch and up the back. Narrow and
//! soft parts give more than wide and firm ones, so the straps take most of the ease the draft spread evenly. Each short
//! rung is stretched until it carries the tension; the tension is sought at which the rungs together are as long as the body.
//!
//! ```text
//! sum of rest_i l_i(T) = target
//! torso:  T = w t1(l, around)                          t1 lengthwise tension of the law at the ladder's girth stretch
//! straps and crotch, sides free:  T = w t(l)           strip tension
//! edge elastic beside it:  + 2 K (l / ratio - 1)+ / s   s edge length per length of loop: an oblique edge pulls by its cosine
//! ```
//!
//! **Shapes and units.** mm and N/m; T in N for the whole suit, both straps together.
//! **Source.** Own, against our own worn solves on rigid forms: straps within 0.02 of the solve, a large cup aside. Regression
//! values in `data/draft/check-values.json`; see `tests/recorded_suits.rs` for how near they are met.
//! **Limits.** No friction; girths straight between levels. A large cup's straps come out too low (1.14 for 1.23 solved, bare).

use cloth::{Axis, Law};
use draft::{LoopPart, LoopRung, OpenEdge, OpenKind, RungEdge};

use crate::elastic::ElasticAssumption;
use crate::report::SeriesLoop;

/// Length ratios looked through for each rung; outside the law is no longer one of a cloth.
const RATIO_RANGE: (f64, f64) = (0.3, 3.0);
/// Ratios are found to this.
const RATIO_TOLERANCE: f64 = 1e-7;
/// The tension is found to this share of itself, or until the loop's length is right to [`LENGTH_TOLERANCE_MM`].
const TENSION_TOLERANCE: f64 = 1e-9;
const LENGTH_TOLERANCE_MM: f64 = 1e-3;
/// A pull no suit meets: past it the search ends.
const MOST_TENSION_N: f64 = 1e4;

/// The solved loop: one length ratio per rung and the tension.
pub(crate) struct SolvedLoop {
    /// worn / flat, in the order of the rungs.
    pub(crate) ratios: Vec<f64>,
    pub(crate) tension_n: f64,
}

/// The loop as strap, torso and crotch under one pull.
///
/// `rungs` and `edges` as drafted; `target_mm`: how long the loop is on the body; `elastic`: `None` for the bare suit.
/// Returns `None` without rungs or without a target above 0. A loop longer than the body even without a pull gives
/// tension 0. Deterministic; ratios to 1e-6.
///
/// # Source
/// See the head of this module.
pub fn series_loop(
    rungs: &[LoopRung],
    edges: &[OpenEdge],
    target_mm: f64,
    law: &Law,
    elastic: Option<&ElasticAssumption>,
) -> Option<SeriesLoop> {
    solve(rungs, edges, target_mm, law, elastic).map(|solved| solved.by_part(rungs))
}

pub(crate) fn solve(
    rungs: &[LoopRung],
    edges: &[OpenEdge],
    target_mm: f64,
    law: &Law,
    elastic: Option<&ElasticAssumption>,
) -> Option<SolvedLoop> {
    if rungs.is_empty() || target_mm.is_nan() || target_mm <= 0.0 {
        return None;
    }
    let pulls = pulls(rungs, edges, law, elastic);
    // Each rung starts from where it stood at the tension before: a step or two then finds it again.
    let mut ratios = vec![1.0; rungs.len()];
    let mut length = |tension: f64| -> f64 {
        let stretched = rungs.iter().zip(&pulls).zip(&mut ratios);
        stretched
            .map(|((rung, pull), ratio)| {
                *ratio = pull.ratio_at(tension, *ratio);
                rung.length_mm * *ratio
            })
            .sum()
    };
    let tension_n = tension_at(&mut length, target_mm);
    length(tension_n);
    Some(SolvedLoop { ratios, tension_n })
}

/// The tension at which the loop is `target_mm` long; length never falls as the tension grows.
///
/// Regula falsi with the Illinois weight (Dowell and Jarratt, BIT 11, 1971) on a bracket found by doubling.
fn tension_at(length: &mut impl FnMut(f64) -> f64, target_mm: f64) -> f64 {
    let (mut low, mut at_low) = (0.0, length(0.0) - target_mm);
    if at_low >= 0.0 {
        return 0.0;
    }
    let mut high = 1.0;
    let mut at_high = length(high) - target_mm;
    while at_high < 0.0 && high < MOST_TENSION_N {
        (low, at_low) = (high, at_high);
        high *= 2.0;
        at_high = length(high) - target_mm;
    }
    if at_high < 0.0 {
        return high;
    }
    let mut last_side = 0;
    for _ in 0..100 {
        if high - low <= TENSION_TOLERANCE * high || at_high == at_low {
            break;
        }
        let middle = (low * at_high - high * at_low) / (at_high - at_low);
        let off = length(middle) - target_mm;
        if off.abs() < LENGTH_TOLERANCE_MM {
            return middle;
        }
        if off < 0.0 {
            (low, at_low) = (middle, off);
            if last_side == -1 {
                at_high *= 0.5;
            }
            last_side = -1;
        } else {
            (high, at_high) = (middle, off);
            if last_side == 1 {
                at_low *= 0.5;
            }
            last_side = 1;
        }
    }
    high
}

impl SolvedLoop {
    /// Mean length ratio of each part, weighted by flat length.
    pub(crate) fn by_part(&self, rungs: &[LoopRung]) -> SeriesLoop {
        let mean = |part: LoopPart| {
            let (worn, flat) = rungs
                .iter()
                .zip(&self.ratios)
                .filter(|(rung, _)| rung.part == Some(part))
                .fold((0.0, 0.0), |(worn, flat), (rung, ratio)| {
                    (worn + rung.length_mm * ratio, flat + rung.length_mm)
                });
            if flat > 0.0 { worn / flat } else { 1.0 }
        };
        SeriesLoop {
            strap: mean(LoopPart::Strap),
            torso: mean(LoopPart::Torso),
            crotch: mean(LoopPart::Crotch),
            tension_n: self.tension_n,
        }
    }
}

/// What pulls in one rung.
struct Pull<'a> {
    law: &'a Law,
    width_m: f64,
    /// Worn stretch around, where the suit closes round the body.
    around: Option<f64>,
    /// Ratio and pull at double length in the direction of the loop, N, of the elastic beside it on both halves.
    elastic: [Option<(f64, f64)>; 2],
}

impl Pull<'_> {
    /// The rung's pull when it is `l` times its flat length, N. Never falls as `l` grows.
    fn at(&self, l: f64) -> f64 {
        let cloth = match self.around {
            Some(around) => self.law.tension(l, 1.0 + around).lengthwise,
            None => self.law.strip_tension(Axis::Lengthwise, l),
        };
        let elastic = |(ratio, k): (f64, f64)| k * (l / ratio - 1.0).max(0.0);
        cloth * self.width_m + self.elastic.into_iter().flatten().map(elastic).sum::<f64>()
    }

    /// The length ratio at which it carries the tension: secants from `start`, kept inside a shrinking bracket.
    fn ratio_at(&self, tension: f64, start: f64) -> f64 {
        const FIRST_STEP: f64 = 1e-4;
        let (mut low, mut high) = RATIO_RANGE;
        let mut before = start.clamp(low, high - FIRST_STEP);
        let mut off_before = self.at(before) - tension;
        let mut l = before + FIRST_STEP;
        for _ in 0..80 {
            let off = self.at(l) - tension;
            for (at, off) in [(before, off_before), (l, off)] {
                if off < 0.0 {
                    low = low.max(at);
                } else {
                    high = high.min(at);
                }
            }
            if high - low < RATIO_TOLERANCE {
                break;
            }
            let next = l - off * (l - before) / (off - off_before);
            // A slack rung has no slope, and a kink throws a secant out: halve then.
            let next = if next > low && next < high {
                next
            } else {
                0.5 * (low + high)
            };
            if (next - l).abs() < RATIO_TOLERANCE {
                return next;
            }
            (before, off_before, l) = (l, off, next);
        }
        0.5 * (low + high)
    }
}

fn pulls<'a>(
    rungs: &[LoopRung],
    edges: &[OpenEdge],
    law: &'a Law,
    elastic: Option<&ElasticAssumption>,
) -> Vec<Pull<'a>> {
    let mut walked = Walked::new(rungs);
    rungs
        .iter()
        .map(|rung| {
            let beside = rung.edges.map(|edge| {
                let edge = edge?;
                let elastic = elastic?;
                let arc = walked.arc_at(rung, edge, edges);
                let side = if rung.is_front { "front" } else { "back" };
                let ratio = arc
                    .and_then(|arc| elastic.ratio(edge.kind, arc))
                    .or_else(|| elastic.ratio(edge.kind, side))?;
                // An edge never runs shorter than the loop beside it; rounding might say so.
                let slant = edge.per_mm.max(1.0);
                (ratio > 0.0).then_some((ratio, 2.0 * elastic.k_newton / slant))
            });
            Pull {
                law,
                width_m: rung.width_mm / 1000.0,
                around: rung.around_worn,
                elastic: beside,
            }
        })
        .collect()
}

const KINDS: [OpenKind; 3] = [OpenKind::Leg, OpenKind::Neckline, OpenKind::Armhole];

/// How far along each edge, front and back, the rungs have come: tells which arc a rung lies beside.
struct Walked {
    so_far: [[f64; 2]; KINDS.len()],
    total: [[f64; 2]; KINDS.len()],
}

impl Walked {
    fn new(rungs: &[LoopRung]) -> Walked {
        let mut total = [[0.0; 2]; KINDS.len()];
        for rung in rungs {
            for edge in rung.edges.into_iter().flatten() {
                if let Some(i) = KINDS.iter().position(|k| *k == edge.kind) {
                    total[i][usize::from(!rung.is_front)] += edge.per_mm * rung.length_mm;
                }
            }
        }
        Walked {
            so_far: [[0.0; 2]; KINDS.len()],
            total,
        }
    }

    /// The short arc across a seam the rung lies in, if it does, and steps on. Rungs come bottom to top, so a leg starts at
    /// the crotch seam and ends at the side seam, a neckline ends at the shoulder seam, an armhole starts at the underarm.
    fn arc_at(&mut self, rung: &LoopRung, edge: RungEdge, edges: &[OpenEdge]) -> Option<&'static str> {
        let i = KINDS.iter().position(|k| *k == edge.kind)?;
        let side = usize::from(!rung.is_front);
        let step = edge.per_mm * rung.length_mm;
        let at = self.so_far[i][side] + 0.5 * step;
        self.so_far[i][side] += step;
        let left = self.total[i][side] - at;
        // Half of the arc lies on either side of its seam.
        let half = |arc: &str| {
            edges
                .iter()
                .find(|e| e.kind == edge.kind)
                .and_then(|e| e.arcs.iter().find(|a| a.name == arc))
                .map_or(0.0, |a| 0.5 * a.length_mm)
        };
        let (first, last) = match edge.kind {
            OpenKind::Leg => (Some("crotch"), Some("side")),
            OpenKind::Neckline => (None, Some("strap")),
            OpenKind::Armhole => (Some("underarm"), None),
            OpenKind::Waist | OpenKind::Underbust | OpenKind::Top | OpenKind::Hem | OpenKind::Wrist => {
                (None, None)
            }
        };
        first
            .filter(|arc| at < half(arc))
            .or_else(|| last.filter(|arc| left < half(arc)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rung(part: LoopPart, length_mm: f64, width_mm: f64, around_worn: Option<f64>) -> LoopRung {
        LoopRung {
            is_front: true,
            y_mm: 0.0,
            length_mm,
            width_mm,
            around_worn,
            part: Some(part),
            edges: [None, None],
        }
    }

    fn law() -> Law {
        Law::new(160.0, 110.0, 0.35, 0.3).unwrap()
    }

    /// Source: own closed form. Equal strips in series share the ease alike, and carry the strip's tension.
    #[test]
    fn equal_strips_stretch_alike() {
        let rungs = [
            rung(LoopPart::Strap, 400.0, 80.0, None),
            rung(LoopPart::Crotch, 600.0, 80.0, None),
        ];
        let found = series_loop(&rungs, &[], 1150.0, &law(), None).unwrap();
        assert!((found.strap - 1.15).abs() < 1e-6 && (found.crotch - 1.15).abs() < 1e-6);
        let tension = 0.08 * law().strip_tension(Axis::Lengthwise, 1.15);
        assert!((found.tension_n / tension - 1.0).abs() < 1e-5);
    }

    #[test]
    fn the_narrow_part_takes_most_of_the_ease() {
        let rungs = [
            rung(LoopPart::Strap, 400.0, 76.0, None),
            rung(LoopPart::Torso, 800.0, 700.0, Some(0.13)),
        ];
        let found = series_loop(&rungs, &[], 1270.0, &law(), None).unwrap();
        assert!(found.strap > found.torso + 0.05, "{found:?}");
        assert!((400.0 * found.strap + 800.0 * found.torso - 1270.0).abs() < 1e-3);
    }

    #[test]
    fn elastic_takes_the_straps_share() {
        let mut strap = rung(LoopPart::Strap, 400.0, 76.0, None);
        strap.edges = [
            Some(RungEdge {
                kind: OpenKind::Neckline,
                per_mm: 1.0,
            }),
            Some(RungEdge {
                kind: OpenKind::Armhole,
                per_mm: 1.0,
            }),
        ];
        let rungs = [strap, rung(LoopPart::Torso, 800.0, 700.0, Some(0.13))];
        let bare = series_loop(&rungs, &[], 1270.0, &law(), None).unwrap();
        let elastic = ElasticAssumption::default();
        let held = series_loop(&rungs, &[], 1270.0, &law(), Some(&elastic)).unwrap();
        assert!(held.strap < bare.strap && held.torso > bare.torso && held.tension_n > bare.tension_n);
    }

    #[test]
    fn a_loop_longer_than_the_body_has_no_pull() {
        let rungs = [rung(LoopPart::Torso, 1000.0, 700.0, Some(0.13))];
        let found = series_loop(&rungs, &[], 600.0, &law(), None).unwrap();
        assert!(found.tension_n < 1e-3, "{found:?}");
        assert_eq!(series_loop(&[], &[], 600.0, &law(), None), None);
        assert_eq!(series_loop(&rungs, &[], f64::NAN, &law(), None), None);
    }
}
