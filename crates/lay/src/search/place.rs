//! A better place for one piece: random places first, then small steps from the best of them.
//!
//! Every place lies inside the strip from the start, so that only overlaps are left to be judged.

use kurbo::Vec2;

use super::board::Board;
use super::random::Random;
use super::task::{Pose, Task};

/// Random places near the present one, and in the whole strip.
const NEAR: usize = 25;
const ANYWHERE: usize = 50;
/// In a long lay of more shapes than these a piece looks only so many widths around it: every two shapes that meet need a table of
/// their own, and there is no time to make them all.
const MANY_SHAPES: usize = 64;
const AROUND: f64 = 1.0;
/// So many of the best places are refined.
const REFINED: usize = 3;
/// Step sizes as shares of the piece's short side: first and last, for each of the best places, then for the very best.
const COARSE: (f64, f64) = (0.25, 0.02);
const FINE: (f64, f64) = (0.01, 0.001);
/// Two places closer than this share of the short side are one.
const SAME: f64 = 0.05;

#[derive(Clone, Copy, Debug)]
struct Candidate {
    pose: Pose,
    loss: f32,
}

/// Moves the piece to the best place found, if that is no worse than where it lies.
pub(crate) fn improve(task: &Task, board: &mut Board, item: usize, ways: &[usize], random: &mut Random) {
    let present = board.poses[item];
    let mut best: Vec<Candidate> = Vec::with_capacity(REFINED + 1);
    let now = board.weighted(item);
    best.push(Candidate {
        pose: present,
        loss: now,
    });
    let bounds = task.bounds(item, &present);
    let is_near = task.widths_beyond_long(board.length) > 0.0 && task.shapes.count() > MANY_SHAPES;
    let (from, to) = if is_near {
        let middle = 0.5 * (bounds.x0 + bounds.x1);
        let around = AROUND * task.height;
        let from = (middle - around).clamp(0.0, board.length - 2.0 * around);
        (from, from + 2.0 * around)
    } else {
        (0.0, board.length)
    };
    let short_of = |way: usize| {
        let b = &task.shapes.get(task.items[item].ways[way].shape).bounds;
        b.width().min(b.height())
    };
    for k in 0..NEAR + ANYWHERE {
        let way = ways[random.below(ways.len())];
        let chosen = &task.items[item].ways[way];
        let b = task.shapes.get(chosen.shape).bounds;
        let wish = if k < NEAR {
            Vec2::new(
                random.between(bounds.x0, bounds.x1),
                random.between(bounds.y0, bounds.y1),
            )
        } else {
            Vec2::new(
                random.between(from - b.x0, to - b.x1),
                random.between(chosen.lane.0 - b.y0, chosen.lane.1 - b.y1),
            )
        };
        let at = task.allowed(chosen, board.length, wish);
        let bound = if best.len() < REFINED {
            f32::INFINITY
        } else {
            best.last().map_or(f32::INFINITY, |c| c.loss)
        };
        let loss = board.try_place(task, item, chosen.shape, at, bound);
        let pose = Pose {
            way,
            x: at.x,
            y: at.y,
        };
        keep(&mut best, Candidate { pose, loss }, SAME * short_of(way));
    }
    for candidate in &mut best {
        let short = short_of(candidate.pose.way);
        refine(task, board, item, candidate, COARSE, short, random);
    }
    let Some(mut winner) = best.into_iter().min_by(|a, b| a.loss.total_cmp(&b.loss)) else {
        return;
    };
    let short = short_of(winner.pose.way);
    refine(task, board, item, &mut winner, FINE, short, random);
    if winner.loss <= now && winner.pose != present {
        board.place(task, item, winner.pose);
    }
}

/// Keeps the few best places that are not the same place.
fn keep(best: &mut Vec<Candidate>, new: Candidate, near: f64) {
    if !new.loss.is_finite() {
        return;
    }
    let same = best.iter().position(|c| {
        c.pose.way == new.pose.way
            && (c.pose.x - new.pose.x).abs() < near
            && (c.pose.y - new.pose.y).abs() < near
    });
    if let Some(i) = same {
        if best[i].loss <= new.loss {
            return;
        }
        best.remove(i);
    }
    let at = best.partition_point(|c| c.loss <= new.loss);
    best.insert(at, new);
    best.truncate(REFINED);
}

/// Walks downhill: one axis at a time, both ways, longer steps after a success and shorter ones after a failure.
fn refine(
    task: &Task,
    board: &mut Board,
    item: usize,
    candidate: &mut Candidate,
    (first, last): (f64, f64),
    short: f64,
    random: &mut Random,
) {
    let way = &task.items[item].ways[candidate.pose.way];
    let (mut step_x, mut step_y) = (first * short, first * short);
    let limit = last * short;
    let mut axis = random.below(4);
    while step_x >= limit || step_y >= limit {
        let (dx, dy) = match axis {
            0 => (step_x, 0.0),
            1 => (0.0, step_y),
            2 => (step_x, step_y),
            _ => (step_x, -step_y),
        };
        let mut better: Option<Candidate> = None;
        for sign in [1.0, -1.0] {
            let wish = Vec2::new(candidate.pose.x + sign * dx, candidate.pose.y + sign * dy);
            let at = task.allowed(way, board.length, wish);
            if at.x == candidate.pose.x && at.y == candidate.pose.y {
                continue;
            }
            let bound = better.map_or(candidate.loss, |c| c.loss);
            let loss = board.try_place(task, item, way.shape, at, bound);
            if loss < bound || (loss <= bound && better.is_none()) {
                let pose = Pose {
                    x: at.x,
                    y: at.y,
                    ..candidate.pose
                };
                better = Some(Candidate { pose, loss });
            }
        }
        let is_better = better.is_some_and(|c| c.loss < candidate.loss);
        if let Some(c) = better {
            *candidate = c;
        }
        if candidate.loss == 0.0 {
            return;
        }
        let factor: f64 = if is_better { 1.1 } else { 0.5 };
        match axis {
            0 => step_x *= factor,
            1 => step_y *= factor,
            _ => {
                step_x *= factor.sqrt();
                step_y *= factor.sqrt();
            }
        }
        if !is_better {
            axis = random.below(4);
        }
    }
}
