//! Work on several cores, always cut into the same parts and put together in the same order.
//!
//! How many parts there are depends on the work alone, never on the cores, and results come back in the order of the parts: a sum of them is
//! the same to the last bit on any machine. The only file of the crate that knows of threads; they are those of the rayon pool
//! of whoever calls.

use rayon::prelude::*;

/// What `work` gives for each part, in order.
pub(crate) fn map<P: Send, R: Send>(parts: Vec<P>, work: impl Fn(P) -> R + Sync + Send) -> Vec<R> {
    parts.into_par_iter().map(work).collect()
}

/// What `work` gives for each run of `size` items, in order; it is told the number of the run's first item.
pub(crate) fn runs<T: Sync, R: Send>(
    items: &[T],
    size: usize,
    work: impl Fn(usize, &[T]) -> R + Sync + Send,
) -> Vec<R> {
    items
        .par_chunks(size)
        .enumerate()
        .map(|(number, run)| work(number * size, run))
        .collect()
}

/// Fills `out` in runs of `size`; `work` is told the number of the run's first item. What it gives for each run comes back in order.
pub(crate) fn fill<T: Send, R: Send>(
    out: &mut [T],
    size: usize,
    work: impl Fn(usize, &mut [T]) -> R + Sync + Send,
) -> Vec<R> {
    out.par_chunks_mut(size)
        .enumerate()
        .map(|(number, run)| work(number * size, run))
        .collect()
}

/// Two pieces of work at a time.
pub(crate) fn both<A: Send, B: Send>(
    first: impl FnOnce() -> A + Send,
    second: impl FnOnce() -> B + Send,
) -> (A, B) {
    rayon::join(first, second)
}
