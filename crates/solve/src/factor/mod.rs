//! The sparse Cholesky factor: fronts of dense numbers, worked on all cores.
//!
//! Vertices are ordered and their fronts laid out once for a mesh ([`order`], [`tree`]); the numbers are made in each step. A front takes its
//! blocks of the matrix and what its children leave, eliminates its own unknowns with dense kernels, and leaves the rest to its
//! parent. Children of a front are worked at a time where they are large. What is added to what, and in what order, is the tree's
//! alone: the same bytes on any number of cores. The dense kernels are faer's, whose types go no further than this folder.

mod order;
mod tree;

use faer::dyn_stack::{MemBuffer, MemStack};
use faer::linalg::cholesky::llt::factor::{LltRegularization, cholesky_in_place, cholesky_in_place_scratch};
use faer::linalg::matmul::triangular::{BlockStructure, matmul};
use faer::linalg::triangular_solve::solve_lower_triangular_in_place;
use faer::{Accum, MatMut, MatRef, Par};

use self::order::{Graph, order};
use self::tree::{Front, Tree};
use crate::error::MeshError;
use crate::parallel;
use crate::pattern::Pattern;

/// Two subtrees of more multiplications than this are worked at a time.
const WORTH_SHARING: f64 = 1e6;

/// A factor of one mesh's matrices.
pub(crate) struct Factor {
    tree: Tree,
    values: Vec<f64>,
    /// The right side in the order of elimination.
    turned: Vec<f64>,
}

/// What a front leaves to its parent: the lower triangle of a square, by columns.
type Left = Vec<f64>;

impl Factor {
    /// # Errors
    /// [`MeshError::Memory`].
    pub(crate) fn new(pattern: &Pattern) -> Result<Factor, MeshError> {
        let graph = Graph::new(pattern);
        let size = 3 * graph.count();
        let order = order(pattern).ok_or(MeshError::Memory(size))?;
        let tree = Tree::new(pattern, &graph, &order);
        let mut values = Vec::new();
        values
            .try_reserve_exact(tree.size)
            .map_err(|_| MeshError::Memory(size))?;
        values.resize(tree.size, 0.0);
        Ok(Factor {
            tree,
            values,
            turned: vec![0.0; size],
        })
    }

    /// Factors the matrix and solves for `right` in its place. False, with `right` as it was, if the matrix is not
    /// positive definite.
    pub(crate) fn solve(&mut self, pattern: &Pattern, matrix: &[f64], right: &mut [f64]) -> bool {
        let work = Work {
            fronts: &self.tree.fronts,
            pattern,
            matrix,
        };
        if work.subtrees(&self.tree.roots, &mut self.values).is_none() {
            return false;
        }
        self.again(right);
        true
    }

    /// Solves with the last factor.
    pub(crate) fn again(&mut self, right: &mut [f64]) {
        let (from, _) = right.as_chunks_mut::<3>();
        let (to, _) = self.turned.as_chunks_mut::<3>();
        for (t, v) in to.iter_mut().zip(&self.tree.order) {
            *t = from[*v];
        }
        let mut above = Vec::new();
        for front in &self.tree.fronts {
            forward(
                front,
                &self.values[front.values.clone()],
                &mut self.turned,
                &mut above,
            );
        }
        for front in self.tree.fronts.iter().rev() {
            backward(
                front,
                &self.values[front.values.clone()],
                &mut self.turned,
                &mut above,
            );
        }
        let (to, _) = self.turned.as_chunks::<3>();
        for (t, v) in to.iter().zip(&self.tree.order) {
            from[*v] = *t;
        }
    }

    /// Numbers the factor holds.
    pub(crate) fn size(&self) -> usize {
        self.values.len()
    }
}

/// One factorisation.
struct Work<'a> {
    fronts: &'a [Front],
    pattern: &'a Pattern,
    matrix: &'a [f64],
}

impl Work<'_> {
    /// What neighbouring subtrees leave, in order; `None` if one is not positive definite. `values` are those of all of them.
    fn subtrees(&self, fronts: &[usize], values: &mut [f64]) -> Option<Vec<Left>> {
        match fronts {
            [] => Some(Vec::new()),
            [one] => Some(vec![self.subtree(*one, values)?]),
            _ => {
                let work = |f: &usize| self.fronts[*f].work;
                let total: f64 = fronts.iter().map(work).sum();
                let mut sum = 0.0;
                let half = fronts[..fronts.len() - 1]
                    .iter()
                    .take_while(|f| {
                        sum += work(f);
                        sum < total / 2.0
                    })
                    .count()
                    .max(1);
                let (a, b) = fronts.split_at(half);
                let middle = self.fronts[b[0]].subtree_start - self.fronts[a[0]].subtree_start;
                let (for_a, for_b) = values.split_at_mut(middle);
                let smaller = f64::min(a.iter().map(work).sum(), b.iter().map(work).sum());
                let (left_a, left_b) = if smaller > WORTH_SHARING {
                    parallel::both(|| self.subtrees(a, for_a), || self.subtrees(b, for_b))
                } else {
                    (self.subtrees(a, for_a), self.subtrees(b, for_b))
                };
                let mut left = left_a?;
                left.append(&mut left_b?);
                Some(left)
            }
        }
    }

    fn subtree(&self, number: usize, values: &mut [f64]) -> Option<Left> {
        let front = &self.fronts[number];
        let (below, own) = values.split_at_mut(front.values.start - front.subtree_start);
        let children = self.subtrees(&front.children, below)?;
        let (n, m) = (front.own_unknowns(), front.above_unknowns());
        own.fill(0.0);
        let mut left = vec![0.0; m * m];
        self.take_blocks(front, own);
        for (child, from) in front.children.iter().zip(children) {
            take_left(&self.fronts[*child], &from, front, own, &mut left);
        }
        let (mut top, mut bottom) = MatMut::from_column_major_slice_mut(own, n + m, n).split_at_row_mut(n);
        let mut memory = MemBuffer::new(cholesky_in_place_scratch::<f64>(n, Par::Seq, Default::default()));
        cholesky_in_place(
            top.as_mut(),
            LltRegularization::default(),
            Par::Seq,
            MemStack::new(&mut memory),
            Default::default(),
        )
        .ok()?;
        if m > 0 {
            solve_lower_triangular_in_place(top.as_ref(), bottom.as_mut().transpose_mut(), Par::Seq);
            let bottom: MatRef<'_, f64> = bottom.as_ref();
            matmul(
                MatMut::from_column_major_slice_mut(&mut left, m, m),
                BlockStructure::TriangularLower,
                Accum::Add,
                bottom,
                BlockStructure::Rectangular,
                bottom.transpose(),
                BlockStructure::Rectangular,
                -1.0,
                Par::Seq,
            );
        }
        Some(left)
    }

    fn take_blocks(&self, front: &Front, own: &mut [f64]) {
        let rows = front.own_unknowns() + front.above_unknowns();
        let starts = &self.pattern.column_starts;
        for block in &front.blocks {
            let (row, column) = (3 * block.row as usize, 3 * block.column as usize);
            for j in 0..3 {
                let start = starts[3 * block.low as usize + j];
                if block.slot == u32::MAX {
                    for i in j..3 {
                        own[(column + j) * rows + row + i] = self.matrix[start + i - j];
                    }
                    continue;
                }
                let start = start + 3 - j + 3 * block.slot as usize;
                for i in 0..3 {
                    let at = if block.is_turned {
                        (column + i) * rows + row + j
                    } else {
                        (column + j) * rows + row + i
                    };
                    own[at] = self.matrix[start + i];
                }
            }
        }
    }
}

/// Adds what a child leaves to its parent's front.
fn take_left(child: &Front, from: &[f64], parent: &Front, own: &mut [f64], left: &mut [f64]) {
    let (n, m) = (parent.own_unknowns(), parent.above_unknowns());
    let size = child.above_unknowns();
    for (b, column) in child.in_parent.iter().enumerate() {
        let column = 3 * *column as usize;
        for j in 0..3 {
            let source = &from[(3 * b + j) * size..(3 * b + j + 1) * size];
            let (target, shift) = if column < n {
                (&mut own[(column + j) * (n + m)..(column + j + 1) * (n + m)], 0)
            } else {
                let start = (column - n + j) * m;
                (&mut left[start..start + m], n)
            };
            let (blocks, _) = source.as_chunks::<3>();
            for (block, row) in blocks[b..].iter().zip(&child.in_parent[b..]) {
                let row = 3 * *row as usize - shift;
                for (t, s) in target[row..row + 3].iter_mut().zip(block) {
                    *t += s;
                }
            }
        }
    }
}

fn forward(front: &Front, values: &[f64], x: &mut [f64], above: &mut Vec<f64>) {
    let (n, m) = (front.own_unknowns(), front.above_unknowns());
    let first = 3 * front.own.start;
    above.clear();
    above.resize(m, 0.0);
    for j in 0..n {
        let column = &values[j * (n + m)..(j + 1) * (n + m)];
        let pivot = x[first + j] / column[j];
        x[first + j] = pivot;
        for (t, l) in x[first + j + 1..first + n].iter_mut().zip(&column[j + 1..n]) {
            *t -= pivot * l;
        }
        for (t, l) in above.iter_mut().zip(&column[n..]) {
            *t += pivot * l;
        }
    }
    for (v, sum) in front.above.iter().zip(above.as_chunks::<3>().0) {
        let at = 3 * *v as usize;
        for (t, s) in x[at..at + 3].iter_mut().zip(sum) {
            *t -= s;
        }
    }
}

fn backward(front: &Front, values: &[f64], x: &mut [f64], above: &mut Vec<f64>) {
    let (n, m) = (front.own_unknowns(), front.above_unknowns());
    let first = 3 * front.own.start;
    above.clear();
    for v in &front.above {
        let at = 3 * *v as usize;
        above.extend_from_slice(&x[at..at + 3]);
    }
    for j in (0..n).rev() {
        let column = &values[j * (n + m)..(j + 1) * (n + m)];
        let sum = dot(&x[first + j + 1..first + n], &column[j + 1..n]) + dot(above, &column[n..]);
        x[first + j] = (x[first + j] - sum) / column[j];
    }
}

/// Four sums side by side, so that the processor can.
fn dot(a: &[f64], b: &[f64]) -> f64 {
    let mut sums = [0.0; 4];
    let ((a4, a_rest), (b4, b_rest)) = (a.as_chunks::<4>(), b.as_chunks::<4>());
    for (a, b) in a4.iter().zip(b4) {
        for i in 0..4 {
            sums[i] += a[i] * b[i];
        }
    }
    let rest: f64 = a_rest.iter().zip(b_rest).map(|(a, b)| a * b).sum();
    (sums[0] + sums[1]) + (sums[2] + sums[3]) + rest
}

#[cfg(test)]
mod tests {
    use cloth::Law;

    use super::*;
    use crate::mesh::Mesh;
    use crate::tube::Tube;

    /// A tube's pattern with numbers that make it definite: small beside the diagonal, or not by `diagonal`.
    fn matrix(around: usize, rows: usize, diagonal: f64) -> (Pattern, Vec<f64>) {
        let tube = Tube {
            rest_girth_mm: 300.0,
            rest_height_mm: 200.0,
            around,
            rows,
        };
        let mut mesh = Mesh::new(tube.vertex_count());
        let law = mesh.add_law(&Law::new(100.0, 80.0, 0.3, 0.0).unwrap());
        tube.add_to(&mut mesh, law, 0).unwrap();
        let pattern = Pattern::new(&mesh);
        let mut values: Vec<f64> = (0..pattern.rows.len())
            .map(|i| ((i * 7919 % 1009) as f64 / 1009.0) - 0.5)
            .collect();
        for start in &pattern.column_starts[..pattern.column_starts.len() - 1] {
            values[*start] = diagonal;
        }
        (pattern, values)
    }

    fn times(pattern: &Pattern, values: &[f64], x: &[f64]) -> Vec<f64> {
        let mut out = vec![0.0; x.len()];
        for column in 0..x.len() {
            let range = pattern.column_starts[column]..pattern.column_starts[column + 1];
            for (row, value) in pattern.rows[range.clone()].iter().zip(&values[range]) {
                out[*row] += value * x[column];
                if *row != column {
                    out[column] += value * x[*row];
                }
            }
        }
        out
    }

    #[test]
    fn what_is_solved_gives_the_right_side_back() {
        for (around, rows) in [(3, 1), (12, 5), (60, 40)] {
            let (pattern, values) = matrix(around, rows, 20.0);
            let wanted: Vec<f64> = (0..pattern.column_starts.len() - 1)
                .map(|i| ((i * 31 % 17) as f64) - 8.0)
                .collect();
            let mut x = times(&pattern, &values, &wanted);
            let mut factor = Factor::new(&pattern).unwrap();
            assert!(factor.solve(&pattern, &values, &mut x));
            for (found, wanted) in x.iter().zip(&wanted) {
                assert!((found - wanted).abs() < 1e-10, "{found} for {wanted}");
            }
        }
    }

    #[test]
    fn a_matrix_that_is_not_definite_is_refused_and_the_right_side_kept() {
        let (pattern, values) = matrix(12, 5, 0.1);
        let mut factor = Factor::new(&pattern).unwrap();
        let mut right = vec![1.0; pattern.column_starts.len() - 1];
        assert!(!factor.solve(&pattern, &values, &mut right));
        assert_eq!(right, vec![1.0; right.len()]);
    }

    #[test]
    fn any_number_of_threads_gives_the_same_bytes() {
        let (pattern, values) = matrix(90, 60, 20.0);
        let solve = |threads: usize| {
            let pool = rayon::ThreadPoolBuilder::new()
                .num_threads(threads)
                .build()
                .unwrap();
            pool.install(|| {
                let mut factor = Factor::new(&pattern).unwrap();
                let mut right: Vec<f64> = (0..pattern.column_starts.len() - 1).map(|i| i as f64).collect();
                assert!(factor.solve(&pattern, &values, &mut right));
                (factor.values, right)
            })
        };
        assert!(solve(1) == solve(3));
    }
}
