//! A sequence of the operations: everything after what it needs, and machines and threads changed as seldom as a short look ahead allows.
//!
//! An operation needs those named in it, those of lower rank that touch a piece of its own, and what its gate closes. Every need goes
//! from a lower rank to a higher, so there is no cycle. Among the operations that are free, one with the machine as it stands is
//! taken first; then the one of lowest rank.

use std::collections::BTreeSet;

use super::{Gate, Operation};

/// What is set up on a machine: a change of any part of it costs time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Setup {
    pub(crate) machine: usize,
    pub(crate) needle: crate::needle::Needle,
    pub(crate) threads: (crate::thread::Thread, crate::thread::Thread),
}

/// The order: places of the operations, what each of them needs (places of operations), and how often a machine was changed or set up.
pub(crate) struct Sequence {
    pub(crate) order: Vec<usize>,
    pub(crate) needs: Vec<BTreeSet<usize>>,
    pub(crate) changes: u32,
}

/// Orders operations; `setups` has one for each, none for work without a machine.
pub(crate) fn scheduled(ops: &[Operation], setups: &[Option<Setup>]) -> Sequence {
    let needs = needs(ops);
    let mut order = Vec::with_capacity(ops.len());
    let mut is_done = vec![false; ops.len()];
    let mut current: Option<Setup> = None;
    let mut changes = 0;
    while order.len() < ops.len() {
        let ready = (0..ops.len()).filter(|i| !is_done[*i] && needs[*i].iter().all(|n| is_done[*n]));
        let setup = |i: usize| setups.get(i).copied().flatten();
        let next = ready.min_by_key(|i| {
            let goes_on = match (setup(*i), current) {
                (Some(own), Some(now)) => own == now,
                // Cutting, trying on and the like interrupt nothing, and keep their place.
                (None, _) => false,
                (Some(_), None) => false,
            };
            (!goes_on, ops[*i].rank, *i)
        });
        // Needs go from lower rank to higher only, so something is always ready.
        let Some(next) = next else { break };
        if let Some(own) = setup(next) {
            if current != Some(own) {
                changes += 1;
            }
            current = Some(own);
        }
        is_done[next] = true;
        order.push(next);
    }
    Sequence {
        order,
        needs,
        changes,
    }
}

fn needs(ops: &[Operation]) -> Vec<BTreeSet<usize>> {
    let place = |id: &str| ops.iter().position(|o| o.id == id);
    let shares = |a: &Operation, b: &Operation| {
        a.touches
            .iter()
            .any(|t| b.touches.iter().any(|u| u.piece == t.piece))
    };
    ops.iter()
        .map(|op| {
            let mut needed: BTreeSet<usize> = op.after.iter().filter_map(|id| place(id)).collect();
            for (j, other) in ops.iter().enumerate() {
                let is_gated = match (op.gate, other.gate) {
                    (Gate::Cut | Gate::Sew, Gate::Before) => true,
                    (Gate::TryOn, Gate::Before | Gate::Cut | Gate::Sew) => true,
                    (Gate::After, Gate::TryOn) => true,
                    (Gate::End, gate) => gate != Gate::End,
                    _ => false,
                };
                if (is_gated || shares(op, other)) && other.rank < op.rank {
                    needed.insert(j);
                }
            }
            needed
        })
        .collect()
}
