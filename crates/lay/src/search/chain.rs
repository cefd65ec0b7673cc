//! One chain of the search: shorten, separate, and when that fails start again from somewhere else.
//!
//! A chain works in passes: every overlapping piece, in random order, is moved to the best place found for it. It can be left
//! after any pass and taken up again, so that several chains can be brought together at fixed amounts of work.

use kurbo::{Point, Vec2};

use super::board::Board;
use super::fill::ways_of;
use super::place;
use super::random::Random;
use super::task::{Pose, Task};
use crate::polygon;

/// What a chain is doing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Stage {
    /// Looking for other arrangements: long steps, and disturbances when stuck.
    Explore,
    /// Squeezing the best one: tiny cuts anywhere, back to the best when stuck.
    Compress,
}

impl Stage {
    /// Rounds without progress, and passes without a better lay in a round, before a length is given up.
    const fn patience(self) -> (u32, u32) {
        match self {
            Stage::Explore => (3, 200),
            Stage::Compress => (5, 100),
        }
    }
}

/// The first cut while exploring, halved each time it proves too bold, down to the last. The published search always cuts 0.1 %;
/// starting bold saves the seconds in which a first lay gains ten points anyway.
const FIRST_CUT: f64 = 0.02;
const LAST_CUT: f64 = 0.001;
/// Passes without progress before a bold cut is given up.
const BOLD_PATIENCE: u32 = 60;
/// Cuts while compressing, at the start and at the end of the time.
const COMPRESSING_CUT: (f64, f64) = (0.0005, 0.00001);
/// Places that a start without fruit counts for.
const FRUITLESS: u64 = 2_000;
/// A better lay must be better by this share to count as progress.
const PROGRESS: f64 = 0.98;

/// A lay without overlaps.
#[derive(Clone, Debug)]
pub(crate) struct Best {
    pub(crate) poses: Vec<Pose>,
    pub(crate) turned: Vec<bool>,
    pub(crate) length: f64,
}

#[derive(Clone, Debug)]
struct Stuck {
    loss: f64,
    poses: Vec<Pose>,
    turned: Vec<bool>,
}

#[derive(Clone, Debug)]
pub(crate) struct Chain {
    pub(crate) best: Best,
    board: Board,
    random: Random,
    turned: Vec<bool>,
    stage: Stage,
    /// Share of the time that has gone by, for the compressing cut.
    share_of_stage: f64,
    cut: f64,
    pool: Vec<Stuck>,
    strikes: u32,
    idle: u32,
    least: Stuck,
    loss_at_round: f64,
    shortest_possible: f64,
}

impl Chain {
    /// A chain that starts from a lay without overlaps; `at` is where its pieces lie now, if somewhere else.
    pub(crate) fn new(task: &Task, best: Best, at: Option<Vec<Pose>>, random: Random) -> Chain {
        let length = best.length;
        let has_start = at.is_some();
        let board = Board::new(task, at.unwrap_or_else(|| best.poses.clone()), length);
        let least = Stuck {
            loss: f64::INFINITY,
            poses: board.poses.clone(),
            turned: best.turned.clone(),
        };
        let mut chain = Chain {
            turned: best.turned.clone(),
            best,
            board,
            random,
            stage: Stage::Explore,
            share_of_stage: 0.0,
            cut: FIRST_CUT,
            pool: Vec::new(),
            strikes: 0,
            idle: 0,
            least,
            loss_at_round: f64::INFINITY,
            shortest_possible: task.least_length(),
        };
        if has_start {
            chain.begin();
        } else {
            chain.shorten(task);
        }
        chain
    }

    /// The length the chain is trying to reach.
    pub(crate) fn target(&self) -> f64 {
        self.board.length
    }

    /// Whether nothing shorter can exist.
    pub(crate) fn is_done(&self) -> bool {
        self.best.length <= self.shortest_possible * (1.0 + 1e-6)
    }

    /// Takes over a better lay of another chain and goes on from there.
    pub(crate) fn take_over(&mut self, task: &Task, best: &Best) {
        self.best = best.clone();
        self.pool.clear();
        self.back_to_best(task);
    }

    /// Goes over to the other stage, from its best lay.
    pub(crate) fn enter(&mut self, task: &Task, stage: Stage, share_of_stage: f64) {
        self.share_of_stage = share_of_stage;
        if self.stage != stage {
            self.stage = stage;
            self.pool.clear();
            self.back_to_best(task);
        }
    }

    fn back_to_best(&mut self, task: &Task) {
        self.turned.clone_from(&self.best.turned);
        self.board
            .set_poses(task, self.best.poses.clone(), self.best.length);
        self.shorten(task);
    }

    /// Works until so many more places have been tried, or nothing is left to do.
    pub(crate) fn advance(&mut self, task: &Task, work: u64) {
        let until = self.board.tried + work;
        while self.board.tried < until && !self.is_done() {
            self.pass(task);
        }
    }

    fn pass(&mut self, task: &Task) {
        let mut colliding: Vec<usize> = (0..task.items.len())
            .filter(|&i| self.board.collides(i))
            .collect();
        self.random.shuffle(&mut colliding);
        for item in colliding {
            if self.board.collides(item) {
                let ways = ways_of(&task.items[item], &self.turned);
                place::improve(task, &mut self.board, item, &ways, &mut self.random);
            }
        }
        // Even a pass in which nothing collides counts as work, so that no loop is endless.
        self.board.tried += 1;
        let loss = self.board.total();
        if loss <= 0.0 {
            let before = self.best.length;
            self.record(task);
            if self.best.length < before {
                self.shorten(task);
            } else {
                // A repeat kept it from getting shorter: nothing overlaps, and nothing is won. Starting again is work like any other,
                // or a round would be spent on tens of thousands of such starts.
                self.board.tried += FRUITLESS;
                self.give_up(task);
            }
            return;
        }
        if loss < self.least.loss {
            if loss < PROGRESS * self.least.loss {
                self.idle = 0;
            }
            self.least = Stuck {
                loss,
                poses: self.board.poses.clone(),
                turned: self.turned.clone(),
            };
        } else {
            self.idle += 1;
        }
        self.board.reweigh();
        let (strikes, idle) = match self.is_bold() {
            true => (1, BOLD_PATIENCE),
            false => self.stage.patience(),
        };
        if self.idle < idle {
            return;
        }
        self.idle = 0;
        if self.least.loss < PROGRESS * self.loss_at_round {
            self.strikes = 0;
        } else {
            self.strikes += 1;
        }
        self.loss_at_round = self.least.loss;
        if self.strikes >= strikes {
            self.give_up(task);
        } else {
            let (poses, length) = (self.least.poses.clone(), self.board.length);
            self.board.set_poses(task, poses, length);
        }
    }

    fn is_bold(&self) -> bool {
        self.stage == Stage::Explore && self.cut > LAST_CUT
    }

    fn record(&mut self, task: &Task) {
        let length = task.end(&self.board.poses);
        if length < self.best.length {
            self.best = Best {
                poses: self.board.poses.clone(),
                turned: self.turned.clone(),
                length,
            };
            self.pool.clear();
        }
    }

    /// Starts a separation from the present places.
    fn begin(&mut self) {
        self.board.forget_weights();
        self.strikes = 0;
        self.idle = 0;
        let loss = self.board.total();
        self.least = Stuck {
            loss: if loss > 0.0 { loss } else { f64::INFINITY },
            poses: self.board.poses.clone(),
            turned: self.turned.clone(),
        };
        self.loss_at_round = self.least.loss;
    }

    /// Cuts the length; pieces behind the cut move along. In a long lay all move, by how far along they lie: what one cut would pile up
    /// in one place is settled everywhere at once.
    fn shorten(&mut self, task: &Task) {
        let from = self.best.length;
        let (share, place) = match self.stage {
            Stage::Explore => (self.cut, 0.5 * from),
            Stage::Compress => {
                let (first, last) = COMPRESSING_CUT;
                let share = first + (last - first) * self.share_of_stage.clamp(0.0, 1.0);
                (share, self.random.between(0.0, from))
            }
        };
        let length = (from * (1.0 - share)).max(self.shortest_possible);
        let by = from - length;
        let is_long = self.stage == Stage::Explore && task.widths_beyond_long(from) > 0.0;
        let poses = self
            .board
            .poses
            .iter()
            .enumerate()
            .map(|(i, pose)| {
                let b = task.bounds(i, pose);
                let middle = 0.5 * (b.x0 + b.x1);
                let shift = match is_long {
                    true => by * (middle / from).clamp(0.0, 1.0),
                    false if middle > place => by,
                    false => 0.0,
                };
                let at = task.allowed(task.way(i, pose), length, Vec2::new(pose.x - shift, pose.y));
                Pose {
                    x: at.x,
                    y: at.y,
                    ..*pose
                }
            })
            .collect();
        self.board.set_poses(task, poses, length);
        self.begin();
    }

    fn give_up(&mut self, task: &Task) {
        if self.is_bold() {
            self.cut = (0.5 * self.cut).max(LAST_CUT);
            self.back_to_best(task);
        } else if self.stage == Stage::Compress {
            self.back_to_best(task);
        } else {
            // What never overlapped is no place to come back to: it would fill the pool with the same lay.
            if self.least.loss.is_finite() || self.pool.is_empty() {
                let at = self.pool.partition_point(|s| s.loss < self.least.loss);
                self.pool.insert(at, self.least.clone());
            }
            let chosen = (0.25 * self.random.normal().abs() * self.pool.len() as f64) as usize;
            let chosen = self.pool[chosen.min(self.pool.len() - 1)].clone();
            self.turned = chosen.turned;
            let length = self.board.length;
            self.board.set_poses(task, chosen.poses, length);
            self.disturb(task);
            self.begin();
        }
    }

    /// Swaps two large different pieces, or turns a whole garment round.
    fn disturb(&mut self, task: &Task) {
        let garments = self.turned.len();
        if garments > 0 && self.random.below(3) == 0 {
            let garment = self.random.below(garments);
            self.turn_garment(task, garment);
            return;
        }
        let n = task.items.len();
        let hull = |i: usize, board: &Board| task.shape(i, &board.poses[i]).hull_area;
        let mut by_size: Vec<usize> = (0..n).collect();
        by_size.sort_by(|&a, &b| {
            hull(b, &self.board)
                .total_cmp(&hull(a, &self.board))
                .then(a.cmp(&b))
        });
        let all: f64 = by_size.iter().map(|&i| hull(i, &self.board)).sum();
        let mut sum = 0.0;
        let large: Vec<usize> = by_size
            .into_iter()
            .take_while(|&i| {
                let is_large = sum < 0.75 * all;
                sum += hull(i, &self.board);
                is_large
            })
            .collect();
        if large.is_empty() {
            return;
        }
        let first = large[self.random.below(large.len())];
        let of = |i: usize| task.way(i, &self.board.poses[i]).shape;
        let others: Vec<usize> = large
            .iter()
            .copied()
            .filter(|&j| of(j) != of(first) && (hull(j, &self.board) - hull(first, &self.board)).abs() > 1e-9)
            .collect();
        if others.is_empty() {
            // All alike: send one anywhere.
            let wish = Vec2::new(
                self.random.between(0.0, self.board.length),
                self.random.between(0.0, task.height),
            );
            self.send(task, first, wish);
            return;
        }
        let second = others[self.random.below(others.len())];
        self.swap(task, first, second);
    }

    fn middle(&self, task: &Task, item: usize) -> Vec2 {
        let b = task.bounds(item, &self.board.poses[item]);
        Vec2::new(0.5 * (b.x0 + b.x1), 0.5 * (b.y0 + b.y1))
    }

    /// Moves a piece so that the middle of its box lies there, as far as it may.
    fn send(&mut self, task: &Task, item: usize, middle: Vec2) {
        let pose = self.board.poses[item];
        let wish = pose.origin() + (middle - self.middle(task, item));
        let at = task.allowed(task.way(item, &pose), self.board.length, wish);
        self.board.place(
            task,
            item,
            Pose {
                x: at.x,
                y: at.y,
                ..pose
            },
        );
    }

    /// Two pieces change places; what lay where one of them comes down goes with the other.
    fn swap(&mut self, task: &Task, first: usize, second: usize) {
        let (a, b) = (self.middle(task, first), self.middle(task, second));
        self.send(task, first, b);
        self.send(task, second, a);
        for (moved, from, to) in [(first, a, b), (second, b, a)] {
            let pose = self.board.poses[moved];
            let shape = task.shape(moved, &pose);
            let beneath: Vec<usize> = (0..task.items.len())
                .filter(|&i| i != first && i != second)
                .filter(|&i| {
                    let other = self.board.poses[i];
                    task.shape(i, &other).circles.first().is_some_and(|c| {
                        let p = Point::new(c.x, c.y) + other.origin() - pose.origin();
                        polygon::contains(&shape.ring, p)
                    })
                })
                .collect();
            for i in beneath {
                let middle = self.middle(task, i) + (from - to);
                self.send(task, i, middle);
            }
        }
    }

    /// All pieces of a garment turn half round where they lie.
    fn turn_garment(&mut self, task: &Task, garment: usize) {
        self.turned[garment] = !self.turned[garment];
        for i in 0..task.items.len() {
            if task.items[i].garment != Some(garment) {
                continue;
            }
            let ways = ways_of(&task.items[i], &self.turned);
            if ways.contains(&self.board.poses[i].way) {
                continue;
            }
            let middle = self.middle(task, i);
            let way = ways[self.random.below(ways.len())];
            let chosen = &task.items[i].ways[way];
            let box_middle = {
                let b = task.shapes.get(chosen.shape).bounds;
                Vec2::new(0.5 * (b.x0 + b.x1), 0.5 * (b.y0 + b.y1))
            };
            let at = task.allowed(chosen, self.board.length, middle - box_middle);
            self.board.place(
                task,
                i,
                Pose {
                    way,
                    x: at.x,
                    y: at.y,
                },
            );
        }
    }
}
