//! The cloth during the search: where every piece lies, who overlaps whom and how much that counts.

use kurbo::Vec2;

use super::task::{Pose, Task};

/// A piece or obstacle in the list sorted by its left end.
#[derive(Clone, Copy, Debug)]
struct Entry {
    x0: f64,
    y0: f64,
    x1: f64,
    y1: f64,
    at: Vec2,
    id: u32,
    shape: u32,
}

/// A lay with overlaps.
#[derive(Clone, Debug)]
pub(crate) struct Board {
    pub(crate) poses: Vec<Pose>,
    /// Overlap of each piece with each piece and obstacle, a row for a piece.
    loss: Vec<f32>,
    weight: Vec<f32>,
    /// Pieces, then obstacles.
    across: usize,
    sorted: Vec<Entry>,
    widest: f64,
    pub(crate) length: f64,
    /// Places tried so far.
    pub(crate) tried: u64,
}

impl Board {
    pub(crate) fn new(task: &Task, poses: Vec<Pose>, length: f64) -> Board {
        let across = task.items.len() + task.fixed.len();
        let cells = task.items.len() * across;
        let mut board = Board {
            poses: Vec::new(),
            loss: vec![0.0; cells],
            weight: vec![1.0; cells],
            across,
            sorted: Vec::with_capacity(across),
            widest: 0.0,
            length,
            tried: 0,
        };
        board.set_poses(task, poses, length);
        board
    }

    /// Puts every piece somewhere else; weights stay.
    pub(crate) fn set_poses(&mut self, task: &Task, poses: Vec<Pose>, length: f64) {
        self.poses = poses;
        self.length = length;
        self.sorted.clear();
        for i in 0..self.poses.len() {
            let entry = self.entry(task, i);
            self.sorted.push(entry);
        }
        for (k, fixed) in task.fixed.iter().enumerate() {
            let b = task.shapes.get(fixed.shape).bounds.moved(fixed.at);
            self.sorted.push(Entry {
                x0: b.x0,
                y0: b.y0,
                x1: b.x1,
                y1: b.y1,
                at: fixed.at,
                id: (task.items.len() + k) as u32,
                shape: fixed.shape as u32,
            });
        }
        self.sorted.sort_by(|a, b| a.x0.total_cmp(&b.x0));
        // Pieces may be turned later: their widest way counts.
        let widest_way = task
            .items
            .iter()
            .flat_map(|i| &i.ways)
            .map(|w| task.shapes.get(w.shape).bounds.width());
        self.widest = widest_way
            .chain(self.sorted.iter().map(|e| e.x1 - e.x0))
            .fold(0.0, f64::max);
        self.loss.fill(0.0);
        for i in 0..self.poses.len() {
            self.refresh(task, i);
        }
    }

    fn entry(&self, task: &Task, item: usize) -> Entry {
        let pose = self.poses[item];
        let b = task.bounds(item, &pose);
        Entry {
            x0: b.x0,
            y0: b.y0,
            x1: b.x1,
            y1: b.y1,
            at: pose.origin(),
            id: item as u32,
            shape: task.way(item, &pose).shape as u32,
        }
    }

    /// Moves one piece and renews its overlaps.
    pub(crate) fn place(&mut self, task: &Task, item: usize, pose: Pose) {
        self.put(task, item, pose);
        let n = self.poses.len();
        for j in 0..n {
            self.loss[item * self.across + j] = 0.0;
            self.loss[j * self.across + item] = 0.0;
        }
        self.loss[item * self.across + n..(item + 1) * self.across].fill(0.0);
        self.refresh(task, item);
    }

    /// Moves one piece and leaves the overlaps as they were.
    pub(crate) fn put(&mut self, task: &Task, item: usize, pose: Pose) {
        if let Some(k) = self.sorted.iter().position(|e| e.id == item as u32) {
            self.sorted.remove(k);
        }
        self.poses[item] = pose;
        let entry = self.entry(task, item);
        let k = self.sorted.partition_point(|e| e.x0 < entry.x0);
        self.sorted.insert(k, entry);
    }

    fn refresh(&mut self, task: &Task, item: usize) {
        let pose = self.poses[item];
        let shape = task.way(item, &pose).shape;
        let n = self.poses.len();
        let mut found = Vec::new();
        self.each_near(task, item, shape, pose.origin(), |j, other, by| {
            let loss = task.shapes.loss(shape, other, by);
            if loss > 0.0 {
                found.push((j, loss));
            }
            true
        });
        for (j, loss) in found {
            self.loss[item * self.across + j] = loss;
            if j < n {
                self.loss[j * self.across + item] = loss;
            }
        }
    }

    /// Calls `meet` with everything whose box the piece would touch there, until it says no: the other, its shape, and where
    /// its origin lies from the piece's.
    #[inline]
    fn each_near(
        &self,
        task: &Task,
        item: usize,
        shape: usize,
        at: Vec2,
        mut meet: impl FnMut(usize, usize, Vec2) -> bool,
    ) {
        let b = task.shapes.get(shape).bounds.moved(at);
        let n = self.poses.len();
        let start = self.sorted.partition_point(|e| e.x0 < b.x0 - self.widest);
        for e in &self.sorted[start..] {
            if e.x0 > b.x1 {
                break;
            }
            if e.x1 < b.x0 || e.y0 > b.y1 || e.y1 < b.y0 || e.id == item as u32 {
                continue;
            }
            let j = e.id as usize;
            if j >= n
                && task.fixed[j - n].grade > 0
                && task.items[item].bears_grade >= task.fixed[j - n].grade
            {
                continue;
            }
            if !meet(j, e.shape as usize, e.at - at) {
                return;
            }
        }
    }

    /// Whether the piece would share a point with anything there.
    pub(crate) fn is_free(&mut self, task: &Task, item: usize, shape: usize, at: Vec2) -> bool {
        self.tried += 1;
        let mut is_free = true;
        self.each_near(task, item, shape, at, |_, other, by| {
            is_free = !task.shapes.touch(shape, other, by);
            is_free
        });
        is_free
    }

    /// The weighted overlap the piece would have there, infinite as soon as it exceeds `bound`.
    #[inline]
    pub(crate) fn try_place(&mut self, task: &Task, item: usize, shape: usize, at: Vec2, bound: f32) -> f32 {
        self.tried += 1;
        let weights = &self.weight[item * self.across..(item + 1) * self.across];
        let mut sum = 0.0;
        self.each_near(task, item, shape, at, |j, other, by| {
            sum += task.shapes.loss(shape, other, by) * weights[j];
            if sum > bound {
                sum = f32::INFINITY;
            }
            sum.is_finite()
        });
        sum
    }

    fn row<'a>(&self, all: &'a [f32], item: usize) -> &'a [f32] {
        &all[item * self.across..(item + 1) * self.across]
    }

    /// Whether the piece overlaps anything now.
    pub(crate) fn collides(&self, item: usize) -> bool {
        self.row(&self.loss, item).iter().any(|&l| l > 0.0)
    }

    /// The weighted overlap of the piece now.
    pub(crate) fn weighted(&self, item: usize) -> f32 {
        self.row(&self.loss, item)
            .iter()
            .zip(self.row(&self.weight, item))
            .map(|(l, w)| l * w)
            .sum()
    }

    /// All overlap, each pair once.
    pub(crate) fn total(&self) -> f64 {
        let n = self.poses.len();
        (0..n)
            .map(|i| {
                self.row(&self.loss, i)[i + 1..]
                    .iter()
                    .map(|&l| f64::from(l))
                    .sum::<f64>()
            })
            .sum()
    }

    /// Pairs in conflict gain weight, the more the deeper they overlap; all others lose a little.
    pub(crate) fn reweigh(&mut self) {
        let most = self.loss.iter().copied().fold(0.0_f32, f32::max);
        if most <= 0.0 {
            return;
        }
        for (w, &l) in self.weight.iter_mut().zip(&self.loss) {
            let factor = if l > 0.0 { 1.2 + 0.8 * l / most } else { 0.95 };
            *w = (*w * factor).max(1.0);
        }
    }

    pub(crate) fn forget_weights(&mut self) {
        self.weight.fill(1.0);
    }
}
