//! The search: from pieces and a strip to a short lay.
//!
//! Guided local search over overlaps. The length is fixed a little too short, overlaps are allowed, and one colliding piece after
//! another moves to the place with the least weighted overlap; pairs that stay in conflict gain weight. When nothing overlaps
//! any more the length is cut again. Several chains search side by side and take over the shortest lay at fixed points of
//! their work, so that the same seed, number of chains and amount of work give the same lay on any machine.
//!
//! **Source.** The idea: Gardeyn, Vanden Berghe & Wauters 2025, "An open-source heuristic to reboot 2D nesting research",
//! arXiv 2509.13329. Tables of overlap, chains that race, and steps that shrink with failure are own.

mod board;
mod chain;
mod fill;
mod filled;
mod place;
mod random;
mod solve;
mod task;

pub(crate) use solve::{Effort, Found, solve};
pub(crate) use task::{Fixed, Item, Pose, Task, Way};
