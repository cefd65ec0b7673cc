//! Where the numbers of the matrix go: its pattern, found once for a mesh.
//!
//! The lower triangle in columns, three columns a vertex: first the vertex's own 3 x 3 block, then the blocks of its neighbours with a
//! greater number, in order. A triangle keeps for each of its three pairs which neighbour the block belongs to.

#![allow(
    clippy::needless_range_loop,
    reason = "entries of 3 x 3 blocks are named by their place"
)]

use crate::mesh::Mesh;

/// The block of a pair of vertices: in the columns of `low`, at its `slot`-th neighbour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Place {
    pub(crate) low: u32,
    pub(crate) slot: u32,
    /// The pair was given with the greater number first: the block goes in as it is, else transposed.
    pub(crate) is_lower: bool,
}

/// The pattern of a mesh's matrix.
#[derive(Clone, Debug)]
pub(crate) struct Pattern {
    /// Neighbours of greater number, one range a vertex.
    pub(crate) neighbours: Vec<u32>,
    pub(crate) starts: Vec<usize>,
    pub(crate) column_starts: Vec<usize>,
    pub(crate) rows: Vec<usize>,
    /// Places of a triangle's pairs (1, 0), (2, 0), (2, 1).
    pub(crate) triangles: Vec<[Place; 3]>,
    pub(crate) bars: Vec<Place>,
    around: Around,
    bars_around: Around,
}

impl Pattern {
    pub(crate) fn new(mesh: &Mesh) -> Pattern {
        let count = mesh.vertex_count();
        let mut pairs: Vec<(u32, u32)> = Vec::with_capacity(mesh.triangles.len() * 3 + mesh.bars.len());
        let pair = |a: usize, b: usize| (a.min(b) as u32, a.max(b) as u32);
        for t in &mesh.triangles {
            let [a, b, c] = t.corners;
            pairs.extend([pair(a, b), pair(a, c), pair(b, c)]);
        }
        pairs.extend(mesh.bars.iter().map(|bar| pair(bar.ends[0], bar.ends[1])));
        pairs.sort_unstable();
        pairs.dedup();
        let mut starts = vec![0; count + 1];
        for (low, _) in &pairs {
            starts[*low as usize + 1] += 1;
        }
        for v in 0..count {
            starts[v + 1] += starts[v];
        }
        let neighbours: Vec<u32> = pairs.iter().map(|p| p.1).collect();
        let mut column_starts = Vec::with_capacity(3 * count + 1);
        let mut rows = Vec::with_capacity(6 * count + 9 * neighbours.len());
        column_starts.push(0);
        for v in 0..count {
            for j in 0..3 {
                rows.extend((j..3).map(|i| 3 * v + i));
                for n in &neighbours[starts[v]..starts[v + 1]] {
                    rows.extend((0..3).map(|i| 3 * *n as usize + i));
                }
                column_starts.push(rows.len());
            }
        }
        let place = |high: usize, low: usize| {
            let is_lower = high > low;
            let (low, high) = if is_lower { (low, high) } else { (high, low) };
            let mine = &neighbours[starts[low]..starts[low + 1]];
            // Every pair asked for was put in above.
            let slot = mine.partition_point(|n| (*n as usize) < high);
            Place {
                low: low as u32,
                slot: slot as u32,
                is_lower,
            }
        };
        let triangles = mesh
            .triangles
            .iter()
            .map(|t| {
                let [a, b, c] = t.corners;
                [place(b, a), place(c, a), place(c, b)]
            })
            .collect();
        let bars = mesh.bars.iter().map(|b| place(b.ends[1], b.ends[0])).collect();
        Pattern {
            neighbours,
            starts,
            column_starts,
            rows,
            triangles,
            bars,
            around: Around::new(count, mesh.triangles.iter().map(|t| t.corners)),
            bars_around: Around::new(count, mesh.bars.iter().map(|b| b.ends)),
        }
    }

    /// The triangles around a vertex, by number, and which of their corners it is.
    pub(crate) fn around(&self, vertex: usize) -> impl Iterator<Item = (usize, usize)> {
        self.around.of(vertex)
    }

    /// The bars at a vertex, and which of their ends it is.
    pub(crate) fn bars_around(&self, vertex: usize) -> impl Iterator<Item = (usize, usize)> {
        self.bars_around.of(vertex)
    }
}

/// What each vertex is part of.
#[derive(Clone, Debug)]
struct Around {
    starts: Vec<usize>,
    /// Number and corner.
    parts: Vec<(u32, u8)>,
}

impl Around {
    /// Of things with these corners, in their order.
    fn new<const N: usize>(count: usize, things: impl Iterator<Item = [usize; N]> + Clone) -> Around {
        let mut starts = vec![0; count + 1];
        for v in things.clone().flatten() {
            starts[v + 1] += 1;
        }
        for v in 0..count {
            starts[v + 1] += starts[v];
        }
        let mut next = starts.clone();
        let mut parts = vec![(0, 0); starts[count]];
        for (number, corners) in things.enumerate() {
            for (corner, v) in corners.into_iter().enumerate() {
                parts[next[v]] = (number as u32, corner as u8);
                next[v] += 1;
            }
        }
        Around { starts, parts }
    }

    fn of(&self, vertex: usize) -> impl Iterator<Item = (usize, usize)> {
        let parts = &self.parts[self.starts[vertex]..self.starts[vertex + 1]];
        parts
            .iter()
            .map(|(number, corner)| (*number as usize, usize::from(*corner)))
    }
}
