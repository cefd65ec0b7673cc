//! The clock of a search: says when the time is over, and how much processor time was really had.

use std::time::Instant;

use units::Progress;

use super::progress::Bar;

/// A bar with a time limit.
pub(super) struct Timed {
    bar: Bar,
    start: Instant,
    seconds: f64,
    is_endless: bool,
}

impl Timed {
    /// A limit of so many seconds; `is_endless` when passes are counted instead.
    pub(super) fn new(seconds: f64, is_endless: bool, is_shown: bool) -> Timed {
        Timed {
            bar: Bar::new(is_shown),
            start: Instant::now(),
            seconds,
            is_endless,
        }
    }

    /// Words beside the bar.
    pub(super) fn says(&self, words: &str) {
        let share = self.share_of_time().unwrap_or(0.0).clamp(0.0, 1.0);
        self.bar.at((1000.0 * share) as u64, 1000, words);
    }
}

impl Progress for Timed {
    fn at(&self, done: u64, of: u64, words: &str) {
        self.bar.at(done, of, words);
    }

    fn should_stop(&self) -> bool {
        !self.is_endless && self.start.elapsed().as_secs_f64() >= self.seconds
    }

    fn share_of_time(&self) -> Option<f64> {
        (!self.is_endless).then(|| self.start.elapsed().as_secs_f64() / self.seconds)
    }
}

/// User and system time of this process so far, where the system tells (Linux: proc(5), fields 14 and 15, hundredths of a second).
pub(super) fn processor_seconds() -> Option<f64> {
    let stat = std::fs::read_to_string("/proc/self/stat").ok()?;
    let fields: Vec<&str> = stat.rsplit(')').next()?.split_whitespace().collect();
    let ticks = |i: usize| fields.get(i)?.parse::<f64>().ok();
    Some((ticks(11)? + ticks(12)?) / 100.0)
}
