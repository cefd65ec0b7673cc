//! The first lay: pieces from large to small, each pushed as far back and down as it goes.

use kurbo::Vec2;

use super::board::Board;
use super::filled::Filled;
use super::random::Random;
use super::task::{Item, Pose, Task};

/// Places tried for each way of a piece.
const TRIES: usize = 400;
/// In a long lay, more for every width more: else its gaps are hardly looked at.
const MORE_TRIES: f64 = 300.0;

/// Which ways an item may lie for the present direction of each garment.
pub(crate) fn ways_of(item: &Item, garment_turned: &[bool]) -> Vec<usize> {
    let fits = |is_turned: bool| {
        item.garment
            .and_then(|g| garment_turned.get(g).copied())
            .is_none_or(|t| t == is_turned)
    };
    let some: Vec<usize> = (0..item.ways.len())
        .filter(|&w| fits(item.ways[w].is_turned))
        .collect();
    if some.is_empty() {
        (0..item.ways.len()).collect()
    } else {
        some
    }
}

/// A lay without overlaps, and its length.
///
/// Always succeeds when every piece alone fits across: what finds no gap goes to the end.
pub(crate) fn fill(task: &Task, turned: &[bool], random: &mut Random) -> (Vec<Pose>, f64) {
    let mut order: Vec<usize> = (0..task.items.len()).collect();
    let size = |i: usize| {
        let shape = task.shapes.get(task.items[i].ways[0].shape);
        shape.hull_area * shape.diameter
    };
    order.sort_by(|&a, &b| size(b).total_cmp(&size(a)).then(a.cmp(&b)));
    let away = |i: usize| Pose {
        way: 0,
        // Out of everybody's way until its turn comes.
        x: -1e7 * (i + 1) as f64,
        y: 0.0,
    };
    let mut board = Board::new(task, (0..task.items.len()).map(away).collect(), f64::INFINITY);
    let mut filled = Filled::new(task.height);
    let fixed_end = task
        .fixed
        .iter()
        .map(|f| task.shapes.get(f.shape).bounds.moved(f.at).x1)
        .fold(0.0, f64::max);
    let mut end = 0.0_f64;
    for &item in &order {
        let pose = lowest(
            task,
            &mut board,
            &filled,
            item,
            &ways_of(&task.items[item], turned),
            end,
            fixed_end,
            random,
        );
        board.put(task, item, pose);
        filled.add(task.shape(item, &pose), pose.origin());
        end = end.max(task.bounds(item, &pose).x1);
    }
    (board.poses, end)
}

fn tries(task: &Task, end: f64) -> usize {
    TRIES + (MORE_TRIES * task.widths_beyond_long(end)) as usize
}

#[expect(clippy::too_many_arguments, reason = "one call, all values of one piece")]
fn lowest(
    task: &Task,
    board: &mut Board,
    filled: &Filled,
    item: usize,
    ways: &[usize],
    end: f64,
    fixed_end: f64,
    random: &mut Random,
) -> Pose {
    let rank = |pose: &Pose| {
        let b = task.bounds(item, pose);
        // Back first, then down.
        b.x1 + 1e-3 * b.y1
    };
    let mut best: Option<(f64, Pose)> = None;
    for &way in ways {
        let chosen = &task.items[item].ways[way];
        let b = task.shapes.get(chosen.shape).bounds;
        let room = end + b.width();
        for _ in 0..tries(task, end) {
            let wish = Vec2::new(
                random.between(-b.x0, room - b.x1),
                random.between(chosen.lane.0 - b.y0, chosen.lane.1 - b.y1),
            );
            let at = task.allowed(chosen, f64::INFINITY, wish);
            let pose = Pose {
                way,
                x: at.x,
                y: at.y,
            };
            if best
                .as_ref()
                .is_some_and(|(r, _)| rank(&pose) >= *r + 0.2 * b.width())
            {
                continue;
            }
            if filled.refuses(task.shapes.get(chosen.shape), at)
                || !board.is_free(task, item, chosen.shape, at)
            {
                continue;
            }
            let pose = pushed(task, board, filled, item, pose);
            if best.as_ref().is_none_or(|(r, _)| rank(&pose) < *r) {
                best = Some((rank(&pose), pose));
            }
        }
    }
    if let Some((_, pose)) = best {
        return pose;
    }
    // Behind everything, where nothing can be in the way.
    let way = ways[0];
    let chosen = &task.items[item].ways[way];
    let b = task.shapes.get(chosen.shape).bounds;
    let behind = end.max(fixed_end) + 1e-3 * b.width();
    let step = chosen.grid[0].map_or(0.0, |(_, step)| step);
    let at = task.allowed(
        chosen,
        f64::INFINITY,
        Vec2::new(behind + step - b.x0, chosen.lane.0 - b.y0),
    );
    Pose {
        way,
        x: at.x,
        y: at.y,
    }
}

/// Slides a free piece back and down by halving steps.
fn pushed(task: &Task, board: &mut Board, filled: &Filled, item: usize, mut pose: Pose) -> Pose {
    let chosen = &task.items[item].ways[pose.way];
    let shape = task.shapes.get(chosen.shape);
    let b = shape.bounds;
    let short = b.width().min(b.height());
    let mut step = 0.5 * short;
    while step > 0.005 * short {
        let mut moved = false;
        for by in [Vec2::new(-step, 0.0), Vec2::new(0.0, -step)] {
            let at = task.allowed(chosen, f64::INFINITY, pose.origin() + by);
            let is_back = at.x < pose.x || at.y < pose.y;
            if is_back && !filled.refuses(shape, at) && board.is_free(task, item, chosen.shape, at) {
                pose = Pose {
                    x: at.x,
                    y: at.y,
                    ..pose
                };
                moved = true;
            }
        }
        if !moved {
            step *= 0.5;
        }
    }
    pose
}
