//! The tree of fronts: which vertices are eliminated together, and where each front's numbers come from.
//!
//! A front is a dense square: its own vertices, which it eliminates, and those above that they are joined to by then. Small
//! fronts are merged into their parents where that brings few zeros: dense work on a few more numbers is quicker than many
//! little pieces. Children come before parents, and each subtree's numbers lie together, so that it can be worked by itself.
//!
//! **Shapes and units.** Vertices; three unknowns each. Places are numbers in the order of elimination.
//! **Source.** Multifrontal factors (Duff & Reid 1983) and relaxed supernodes (Ashcraft & Grimes 1989), from memory.

use std::ops::Range;

use super::order::Graph;
use crate::pattern::Pattern;

/// Merged fronts of so many own vertices may be so much zeros; the first that is large enough holds.
const ZEROS: [(usize, f64); 4] = [(6, 0.3), (16, 0.15), (32, 0.06), (usize::MAX, 0.02)];

/// One front.
#[derive(Clone, Debug)]
pub(super) struct Front {
    /// Places of its own vertices.
    pub(super) own: Range<usize>,
    /// Places of the vertices above, rising.
    pub(super) above: Vec<u32>,
    pub(super) children: Vec<usize>,
    /// Where each vertex above lies in the parent's front: first its own, then those above it.
    pub(super) in_parent: Vec<u32>,
    /// Blocks of the matrix that go in here.
    pub(super) blocks: Vec<Block>,
    /// Its numbers of the factor: a column for each own unknown, rows of all.
    pub(super) values: Range<usize>,
    /// Where the numbers of its whole subtree begin; they end with its own.
    pub(super) subtree_start: usize,
    /// Multiplications of its whole subtree, about.
    pub(super) work: f64,
}

impl Front {
    pub(super) fn own_unknowns(&self) -> usize {
        3 * self.own.len()
    }

    pub(super) fn above_unknowns(&self) -> usize {
        3 * self.above.len()
    }
}

/// A block of the matrix: of vertex `low` alone, or its `slot`-th pair.
#[derive(Clone, Copy, Debug)]
pub(super) struct Block {
    pub(super) low: u32,
    /// `u32::MAX` for the vertex's own block.
    pub(super) slot: u32,
    /// Vertex in the front for rows and for columns.
    pub(super) row: u32,
    pub(super) column: u32,
    /// Whether `low` is the row.
    pub(super) is_turned: bool,
}

/// The fronts of a mesh, children before parents.
pub(super) struct Tree {
    pub(super) fronts: Vec<Front>,
    pub(super) roots: Vec<usize>,
    /// Vertex at each place.
    pub(super) order: Vec<usize>,
    /// Numbers of the factor.
    pub(super) size: usize,
}

/// A front while they are merged: numbers are those of the first order.
struct Growing {
    own: Vec<u32>,
    above: Vec<u32>,
    children: Vec<usize>,
    /// Blocks that are not zeros.
    full: usize,
}

impl Tree {
    pub(super) fn new(pattern: &Pattern, graph: &Graph, first_order: &[usize]) -> Tree {
        let (growing, parents) = grow(graph, first_order);
        // Children before parents, a subtree together.
        let mut sequence = Vec::new();
        let mut number_of = vec![usize::MAX; growing.len()];
        for root in (0..growing.len()).filter(|f| parents[*f] == Some(usize::MAX)) {
            let mut todo = vec![(root, false)];
            while let Some((front, is_seen)) = todo.pop() {
                if is_seen {
                    number_of[front] = sequence.len();
                    sequence.push(front);
                } else {
                    todo.push((front, true));
                    todo.extend(growing[front].children.iter().rev().map(|c| (*c, false)));
                }
            }
        }
        let mut order = Vec::with_capacity(first_order.len());
        let mut place_of = vec![0_u32; first_order.len()];
        for front in &sequence {
            for v in &growing[*front].own {
                place_of[*v as usize] = order.len() as u32;
                order.push(first_order[*v as usize]);
            }
        }
        let mut fronts: Vec<Front> = Vec::with_capacity(sequence.len());
        let (mut place, mut size) = (0, 0);
        for front in &sequence {
            let g = &growing[*front];
            let mut above: Vec<u32> = g.above.iter().map(|v| place_of[*v as usize]).collect();
            above.sort_unstable();
            let children: Vec<usize> = g.children.iter().map(|c| number_of[*c]).collect();
            let (own, up) = (3 * g.own.len(), 3 * above.len());
            let subtree_start = children.first().map_or(size, |c| fronts[*c].subtree_start);
            let (n, m) = (own as f64, up as f64);
            let work = n * n * n / 3.0 + n * n * m + n * m * m;
            fronts.push(Front {
                own: place..place + g.own.len(),
                work: work + children.iter().map(|c| fronts[*c].work).sum::<f64>(),
                above,
                children,
                in_parent: Vec::new(),
                blocks: Vec::new(),
                values: size..size + own * (own + up),
                subtree_start,
            });
            place += g.own.len();
            size += own * (own + up);
        }
        for f in 0..fronts.len() {
            for c in fronts[f].children.clone() {
                let within = fronts[c].above.iter().map(|v| within(&fronts[f], *v)).collect();
                fronts[c].in_parent = within;
            }
        }
        place_blocks(pattern, &order, &mut fronts);
        let roots = (0..growing.len())
            .filter(|f| parents[*f] == Some(usize::MAX))
            .map(|f| number_of[f])
            .collect();
        Tree {
            fronts,
            roots,
            order,
            size,
        }
    }
}

/// Where a place lies in a front.
fn within(front: &Front, place: u32) -> u32 {
    if front.own.contains(&(place as usize)) {
        place - front.own.start as u32
    } else {
        (front.own.len() + front.above.partition_point(|a| *a < place)) as u32
    }
}

/// One front a vertex, merged into its parent where that is worth it. Parents: `None` for what was merged away, `usize::MAX` for a root.
fn grow(graph: &Graph, first_order: &[usize]) -> (Vec<Growing>, Vec<Option<usize>>) {
    let count = first_order.len();
    let mut number = vec![0_u32; count];
    for (i, v) in first_order.iter().enumerate() {
        number[*v] = i as u32;
    }
    let mut fronts: Vec<Growing> = Vec::with_capacity(count);
    let mut parents: Vec<Option<usize>> = vec![Some(usize::MAX); count];
    // Children by the vertex they are joined to first.
    let mut waiting: Vec<Vec<usize>> = vec![Vec::new(); count];
    for v in 0..count {
        let mut above: Vec<u32> = graph
            .of(first_order[v])
            .iter()
            .map(|n| number[*n as usize])
            .filter(|n| *n as usize > v)
            .collect();
        let mut children = std::mem::take(&mut waiting[v]);
        for c in &children {
            above.extend(fronts[*c].above.iter().filter(|n| **n as usize > v));
        }
        above.sort_unstable();
        above.dedup();
        let mut own = vec![v as u32];
        let mut full = 1 + above.len();
        // The child that fills the front most goes in first.
        children.sort_by_key(|c| (std::cmp::Reverse(fronts[*c].above.len()), *c));
        let mut kept = Vec::new();
        for c in children {
            let (n, up) = (own.len() + fronts[c].own.len(), above.len());
            let whole = n * (n + 1) / 2 + n * up;
            let zeros = whole - full - fronts[c].full;
            let most = ZEROS.iter().find(|(size, _)| n <= *size).map_or(0.0, |z| z.1);
            if zeros as f64 <= most * whole as f64 {
                let child = &mut fronts[c];
                let mut together = std::mem::take(&mut child.own);
                together.append(&mut own);
                own = together;
                full += child.full;
                kept.append(&mut child.children);
                child.above = Vec::new();
                parents[c] = None;
            } else {
                kept.push(c);
            }
        }
        kept.sort_unstable();
        for c in &kept {
            parents[*c] = Some(v);
        }
        if let Some(parent) = above.first() {
            waiting[*parent as usize].push(v);
        }
        fronts.push(Growing {
            own,
            above,
            children: kept,
            full,
        });
    }
    (fronts, parents)
}

/// Every block of the matrix to the front of whichever of its vertices is eliminated first.
fn place_blocks(pattern: &Pattern, order: &[usize], fronts: &mut [Front]) {
    let mut place_of = vec![0_u32; order.len()];
    let mut front_of = vec![0_u32; order.len()];
    for (place, v) in order.iter().enumerate() {
        place_of[*v] = place as u32;
    }
    for (number, front) in fronts.iter().enumerate() {
        for place in front.own.clone() {
            front_of[place] = number as u32;
        }
    }
    for low in 0..order.len() {
        let own = place_of[low];
        let front = &mut fronts[front_of[own as usize] as usize];
        let at = own - front.own.start as u32;
        front.blocks.push(Block {
            low: low as u32,
            slot: u32::MAX,
            row: at,
            column: at,
            is_turned: false,
        });
        let higher = &pattern.neighbours[pattern.starts[low]..pattern.starts[low + 1]];
        for (slot, high) in higher.iter().enumerate() {
            let other = place_of[*high as usize];
            let (first, last) = (own.min(other), own.max(other));
            let front = &mut fronts[front_of[first as usize] as usize];
            let (row, column) = (within(front, last), within(front, first));
            front.blocks.push(Block {
                low: low as u32,
                slot: slot as u32,
                row,
                column,
                is_turned: own == last,
            });
        }
    }
}
