//! Runs the chains side by side, brings them together at fixed amounts of work, and hands out every better lay.

use rayon::prelude::*;
use units::Progress;

use super::chain::{Best, Chain, Stage};
use super::fill::fill;
use super::random::Random;
use super::task::{Pose, Task};

/// How long to search.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Effort {
    pub(crate) seed: u64,
    /// Chains side by side.
    pub(crate) chains: usize,
    /// So many rounds; without it until the progress says stop, with its share of the time deciding when to compress.
    pub(crate) rounds: Option<u64>,
    /// Good enough: a lay this short ends the search.
    pub(crate) enough: Option<f64>,
}

/// The result.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Found {
    pub(crate) poses: Vec<Pose>,
    pub(crate) length: f64,
    pub(crate) rounds: u64,
}

/// Places tried by each chain in a round: some 20 ms, short enough to stop at once and long enough to be worth a meeting.
const WORK: u64 = 40_000;
/// The share of the time spent exploring; the rest compresses.
const EXPLORING: f64 = 0.8;

/// Searches. `warm`: where pieces lie already, one pose each, overlaps allowed. `told` hears after every round how much of the
/// time is gone, 0 to 1, and each shorter lay.
pub(crate) fn solve(
    task: &Task,
    effort: &Effort,
    warm: Option<&[Pose]>,
    progress: &dyn Progress,
    told: &mut dyn FnMut(f64, Option<&Found>),
) -> Found {
    // The first lay is shown before anything else is worked out.
    let mut random = Random::new(seed_of(effort.seed, 0));
    let forward = vec![false; task.garments];
    let (poses, length) = fill(task, &forward, &mut random);
    let first = Best {
        poses,
        turned: forward,
        length,
    };
    let mut found = Found {
        poses: first.poses.clone(),
        length,
        rounds: 0,
    };
    told(0.0, Some(&found));
    if (effort.rounds == Some(0) && warm.is_none()) || task.items.is_empty() {
        return found;
    }
    let mut chains: Vec<Chain> = (0..effort.chains.max(1) as u64)
        .into_par_iter()
        .map(|k| {
            if k == 0 {
                return Chain::new(task, first.clone(), None, random.clone());
            }
            let mut random = Random::new(seed_of(effort.seed, k));
            let turned: Vec<bool> = (0..task.garments).map(|_| random.below(2) == 1).collect();
            let (poses, length) = fill(task, &turned, &mut random);
            Chain::new(
                task,
                Best {
                    poses,
                    turned,
                    length,
                },
                None,
                random,
            )
        })
        .collect();
    let mut best = shortest(&chains);
    if let Some(warm) = warm {
        warm_start(task, &mut chains, &mut best, warm);
    }
    if best.length < found.length {
        found.poses.clone_from(&best.poses);
        found.length = best.length;
        told(0.0, Some(&found));
    }
    loop {
        let share = match effort.rounds {
            Some(rounds) => found.rounds as f64 / rounds.max(1) as f64,
            None => progress.share_of_time().unwrap_or(0.0),
        };
        let is_enough = effort.enough.is_some_and(|e| found.length <= e);
        if share >= 1.0 || is_enough || progress.should_stop() {
            break;
        }
        let (stage, share_of_stage) = if share < EXPLORING {
            (Stage::Explore, share / EXPLORING)
        } else {
            (Stage::Compress, (share - EXPLORING) / (1.0 - EXPLORING))
        };
        chains.par_iter_mut().for_each(|chain| {
            chain.enter(task, stage, share_of_stage);
            chain.advance(task, WORK);
        });
        found.rounds += 1;
        let shortest = shortest(&chains);
        if shortest.length < best.length {
            best = shortest;
            found.poses.clone_from(&best.poses);
            found.length = best.length;
            told(share, Some(&found));
        } else {
            told(share, None);
        }
        for chain in &mut chains {
            if chain.best.length > best.length && chain.target() >= best.length {
                chain.take_over(task, &best);
            }
        }
        if chains.iter().any(Chain::is_done) {
            break;
        }
    }
    found
}

/// Chains of one seed and chains of neighbouring seeds all differ.
fn seed_of(seed: u64, chain: u64) -> u64 {
    seed.wrapping_mul(0x1_0000).wrapping_add(chain)
}

fn shortest(chains: &[Chain]) -> Best {
    let by_length = |a: &&Chain, b: &&Chain| a.best.length.total_cmp(&b.best.length);
    match chains.iter().min_by(by_length) {
        Some(chain) => chain.best.clone(),
        None => Best {
            poses: Vec::new(),
            turned: Vec::new(),
            length: 0.0,
        },
    }
}

/// Every chain starts from the given places; if nothing overlaps there, that is the best lay so far.
fn warm_start(task: &Task, chains: &mut [Chain], best: &mut Best, warm: &[Pose]) {
    let turned_of = |garment: usize| {
        let mut of_garment = (0..task.items.len()).filter(|&i| task.items[i].garment == Some(garment));
        of_garment.next().is_some_and(|i| task.way(i, &warm[i]).is_turned)
    };
    let turned: Vec<bool> = (0..task.garments).map(turned_of).collect();
    let length = task.end(warm);
    let is_free = super::board::Board::new(task, warm.to_vec(), length).total() <= 0.0;
    if is_free {
        *best = Best {
            poses: warm.to_vec(),
            turned,
            length,
        };
        for chain in chains.iter_mut() {
            chain.take_over(task, best);
        }
    } else {
        let start = Best {
            length: length.max(best.length),
            ..best.clone()
        };
        for (k, chain) in chains.iter_mut().enumerate() {
            *chain = Chain::new(task, start.clone(), Some(warm.to_vec()), Random::new(k as u64));
            chain.best = best.clone();
        }
    }
}
