//! In what order vertices are eliminated: approximate minimum degree.
//!
//! Nested dissection by distances was tried: on worn suits, full of narrow places, it took twice the work.

use faer::dyn_stack::{MemBuffer, MemStack};
use faer::sparse::SymbolicSparseColMatRef;
use faer::sparse::linalg::amd;

use crate::pattern::Pattern;

/// Who is joined to whom.
pub(super) struct Graph {
    starts: Vec<usize>,
    neighbours: Vec<u32>,
}

impl Graph {
    /// Both ways, from a pattern that holds each pair once.
    pub(super) fn new(pattern: &Pattern) -> Graph {
        let count = pattern.starts.len() - 1;
        let pairs = || {
            (0..count).flat_map(|v| {
                let higher = &pattern.neighbours[pattern.starts[v]..pattern.starts[v + 1]];
                higher.iter().map(move |n| (v, *n as usize))
            })
        };
        let mut starts = vec![0; count + 1];
        for (a, b) in pairs() {
            starts[a + 1] += 1;
            starts[b + 1] += 1;
        }
        for v in 0..count {
            starts[v + 1] += starts[v];
        }
        let mut next = starts.clone();
        let mut neighbours = vec![0; starts[count]];
        for (a, b) in pairs() {
            neighbours[next[a]] = b as u32;
            next[a] += 1;
            neighbours[next[b]] = a as u32;
            next[b] += 1;
        }
        Graph { starts, neighbours }
    }

    pub(super) fn of(&self, vertex: usize) -> &[u32] {
        &self.neighbours[self.starts[vertex]..self.starts[vertex + 1]]
    }

    pub(super) fn count(&self) -> usize {
        self.starts.len() - 1
    }
}

/// All vertices in the order of their elimination. `None` when memory runs out.
pub(super) fn order(pattern: &Pattern) -> Option<Vec<usize>> {
    let count = pattern.starts.len() - 1;
    let rows: Vec<usize> = pattern.neighbours.iter().map(|n| *n as usize).collect();
    let graph = SymbolicSparseColMatRef::new_checked(count, count, &pattern.starts, None, &rows);
    let mut memory =
        MemBuffer::try_new(amd::order_maybe_unsorted_scratch::<usize>(count, rows.len())).ok()?;
    let (mut order, mut inverse) = (vec![0; count], vec![0; count]);
    amd::order_maybe_unsorted(
        &mut order,
        &mut inverse,
        graph,
        amd::Control::default(),
        MemStack::new(&mut memory),
    )
    .ok()?;
    Some(order)
}
