//! The sparse Cholesky factor: the engine behind the solver, whose types go no further than this file.
//!
//! Vertices are ordered by approximate minimum degree and their three unknowns kept together; the symbolic factor is made once
//! for a mesh, the numbers in each step. One thread: two were slower at these sizes.

use faer::dyn_stack::{MemBuffer, MemStack};
use faer::linalg::cholesky::llt::factor::LltRegularization;
use faer::perm::PermRef;
use faer::sparse::linalg::amd;
use faer::sparse::linalg::cholesky::{
    CholeskySymbolicParams, LltRef, SymbolicCholesky, SymmetricOrdering, factorize_symbolic_cholesky,
};
use faer::sparse::{SparseColMatRef, SymbolicSparseColMatRef};
use faer::{Conj, MatMut, Par, Side};

use crate::error::MeshError;
use crate::pattern::Pattern;

/// A factor of one mesh's matrices.
pub(crate) struct Factor {
    symbolic: SymbolicCholesky<usize>,
    values: Vec<f64>,
    memory: MemBuffer,
}

impl Factor {
    /// # Errors
    /// [`MeshError::Memory`].
    pub(crate) fn new(pattern: &Pattern) -> Result<Factor, MeshError> {
        let size = pattern.column_starts.len() - 1;
        let no_room = MeshError::Memory(size);
        let order = vertex_order(pattern).ok_or_else(|| no_room.clone())?;
        let forward: Vec<usize> = order.iter().flat_map(|v| [3 * v, 3 * v + 1, 3 * v + 2]).collect();
        let mut inverse = vec![0; size];
        for (new, old) in forward.iter().enumerate() {
            inverse[*old] = new;
        }
        let shape =
            SymbolicSparseColMatRef::new_checked(size, size, &pattern.column_starts, None, &pattern.rows);
        let symbolic = factorize_symbolic_cholesky(
            shape,
            Side::Lower,
            SymmetricOrdering::Custom(PermRef::new_checked(&forward, &inverse, size)),
            CholeskySymbolicParams::default(),
        )
        .map_err(|_| no_room.clone())?;
        let need = symbolic
            .factorize_numeric_llt_scratch::<f64>(Par::Seq, Default::default())
            .or(symbolic.solve_in_place_scratch::<f64>(1, Par::Seq));
        Ok(Factor {
            values: vec![0.0; symbolic.len_val()],
            memory: MemBuffer::try_new(need).map_err(|_| no_room)?,
            symbolic,
        })
    }

    /// Factors the matrix and solves for `right` in its place. False, with `right` as it was, if the matrix is not
    /// positive definite.
    pub(crate) fn solve(&mut self, pattern: &Pattern, matrix: &[f64], right: &mut [f64]) -> bool {
        let size = right.len();
        let shape =
            SymbolicSparseColMatRef::new_checked(size, size, &pattern.column_starts, None, &pattern.rows);
        let factored = self.symbolic.factorize_numeric_llt(
            &mut self.values,
            SparseColMatRef::new(shape, matrix),
            Side::Lower,
            LltRegularization::default(),
            Par::Seq,
            MemStack::new(&mut self.memory),
            Default::default(),
        );
        if factored.is_err() {
            return false;
        }
        self.again(right);
        true
    }

    /// Solves with the last factor.
    pub(crate) fn again(&mut self, right: &mut [f64]) {
        let size = right.len();
        LltRef::new(&self.symbolic, &self.values).solve_in_place_with_conj(
            Conj::No,
            MatMut::from_column_major_slice_mut(right, size, 1),
            Par::Seq,
            MemStack::new(&mut self.memory),
        );
    }

    /// Numbers the factor holds.
    pub(crate) fn size(&self) -> usize {
        self.values.len()
    }
}

/// Vertices in the order in which they are eliminated.
fn vertex_order(pattern: &Pattern) -> Option<Vec<usize>> {
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
