//! The torso loop as short rungs, front and back, for the series estimate of how length ease arrives.
//!
//! **Shapes and units.** mm flat after the shrinkage still to come. Rungs of about [`STEP_MM`] from the crotch seam up to the strap's
//! middle, front then back; their lengths sum to the drafted loop.

use kurbo::Point;

use crate::block::{Block, Half};
use crate::geometry::x_spans;
use crate::piece::OpenKind;
use crate::style::Job;
use crate::suit::{LoopPart, LoopRung, RungEdge};

const STEP_MM: f64 = 10.0;
/// The strap begins this far above the bust point.
const STRAP_FROM: f64 = 120.0;
/// The torso begins this far below the waist.
const TORSO_FROM: f64 = -100.0;
/// The crotch strip ends this far below the leg's top at the side.
const CROTCH_TO: f64 = -60.0;

pub(crate) fn torso_loop(job: &Job<'_>, block: &Block) -> Vec<LoopRung> {
    let mut rungs = Vec::with_capacity(200);
    half(job, block, &block.front, true, &mut rungs);
    half(job, block, &block.back, false, &mut rungs);
    rungs
}

fn half(job: &Job<'_>, block: &Block, half: &Half, is_front: bool, rungs: &mut Vec<LoopRung>) {
    let l = &block.levels;
    let (low, high) = (half.crotch.start().y, half.strap_mid.y);
    let n = ((high - low) / STEP_MM).ceil().max(1.0) as usize;
    let step = (high - low) / n as f64;
    let runs = [
        &half.crotch,
        &half.leg,
        &half.side,
        &half.armhole,
        &half.shoulder,
        &half.neck,
        &half.fold,
    ];
    let outline: Vec<Point> = runs.iter().flat_map(|c| c.flatten(0.2)).collect();
    let leg = half.leg.flatten(0.2);
    let neck = half.neck.flatten(0.2);
    let armhole = half.armhole.flatten(0.2);
    let underarm = half.underarm.y;
    let leg_top = half.leg.end().y;
    for i in 0..n {
        let (from, to) = (low + step * i as f64, low + step * (i as f64 + 1.0));
        let y = 0.5 * (from + to);
        let width: f64 = x_spans(&outline, y).iter().map(|(a, b)| b - a).sum();
        let beside = |kind, points: &[Point]| {
            let length = length_between(points, from, to);
            (length > 0.0).then(|| RungEdge {
                kind,
                per_mm: length / step,
            })
        };
        let edges = if y < leg_top {
            [beside(OpenKind::Leg, &leg), None]
        } else {
            [
                beside(OpenKind::Neckline, &neck),
                beside(OpenKind::Armhole, &armhole),
            ]
        };
        let is_closed = y > leg_top && y < underarm;
        let part = if y > l.bust_point_y + STRAP_FROM {
            Some(LoopPart::Strap)
        } else if (TORSO_FROM..=l.bust_point_y).contains(&y) {
            Some(LoopPart::Torso)
        } else if y < leg_top + CROTCH_TO {
            Some(LoopPart::Crotch)
        } else {
            None
        };
        rungs.push(LoopRung {
            is_front,
            y_mm: y,
            length_mm: step / job.k.shrink_lengthwise,
            width_mm: 2.0 * width / job.k.shrink_around,
            around_worn: is_closed.then(|| worn_around(job, block, y)),
            part,
            edges,
        });
    }
}

/// Worn stretch around at a height: body girth straight between the levels over pattern girth, less 1.
fn worn_around(job: &Job<'_>, block: &Block, y: f64) -> f64 {
    let l = &block.levels;
    let bust_y = l.bust_level(l.underarm_y);
    let underbust_y = 0.63 * bust_y;
    let mut nodes = vec![
        (l.hip_y, job.m.hip),
        (l.high_hip_y, job.m.high_hip),
        (0.0, job.m.waist),
    ];
    nodes.extend(job.m.underbust.map(|u| (underbust_y, u)));
    nodes.push((bust_y, job.m.bust));
    let girth = match nodes.iter().position(|n| n.0 > y) {
        Some(0) => job.m.hip,
        None => job.m.bust,
        Some(i) => {
            let (a, b) = (nodes[i - 1], nodes[i]);
            a.1 + (b.1 - a.1) * (y - a.0) / (b.0 - a.0)
        }
    };
    let pattern = 2.0 * (block.front.profile.at(y) + block.back.profile.at(y)) / job.k.shrink_around;
    girth / pattern - 1.0
}

/// Length of a polyline between two heights.
fn length_between(points: &[Point], from: f64, to: f64) -> f64 {
    points
        .windows(2)
        .map(|w| {
            let (low, high) = (w[0].y.min(w[1].y), w[0].y.max(w[1].y));
            let inside = (high.min(to) - low.max(from)).max(0.0);
            let length = (w[1] - w[0]).hypot();
            if high - low > 1e-9 {
                length * inside / (high - low)
            } else if low >= from && low < to {
                length
            } else {
                0.0
            }
        })
        .sum()
}
