//! "How far?" and "stop now?": the one way long work talks to whoever waits for it.

/// Told how far a long job is, and asked whether to stop. Clocks and time limits live behind it, never in domain code.
pub trait Progress {
    /// `done` of `of` steps are finished; `words` says what is being done, for people.
    fn at(&self, done: u64, of: u64, words: &str);

    /// Whether the work should stop at the next safe place.
    fn should_stop(&self) -> bool {
        false
    }

    /// How much of the time allowed has gone by, 0 to 1, where there is a limit: work that changes its ways towards the end asks.
    fn share_of_time(&self) -> Option<f64> {
        None
    }
}

/// Nobody is waiting: says nothing, never stops.
#[derive(Clone, Copy, Debug, Default)]
pub struct Silent;

impl Progress for Silent {
    fn at(&self, _done: u64, _of: u64, _words: &str) {}
}
