//! How long a measured search may take, on the wall or of the processor.

#![allow(clippy::disallowed_methods, reason = "a measuring program takes the time")]

use std::time::Instant;

/// Says when it is time to stop.
pub(crate) struct Clock {
    pub(crate) start: Instant,
    pub(crate) seconds: f64,
    /// Counts processor time instead of the time on the wall: fair on a busy machine.
    pub(crate) is_cpu: bool,
}

impl Clock {
    fn gone(&self) -> f64 {
        if self.is_cpu {
            cpu_seconds()
        } else {
            self.start.elapsed().as_secs_f64()
        }
    }
}

impl units::Progress for Clock {
    fn at(&self, _: u64, _: u64, _: &str) {}
    fn should_stop(&self) -> bool {
        self.gone() >= self.seconds
    }
    fn share_of_time(&self) -> Option<f64> {
        Some(self.gone() / self.seconds)
    }
}

/// User and system time of this process, Linux only.
pub(crate) fn cpu_seconds() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let after = stat.rsplit(')').next().unwrap_or_default();
    let fields: Vec<&str> = after.split_whitespace().collect();
    let ticks: f64 = [11, 12]
        .iter()
        .filter_map(|&i| fields.get(i).and_then(|f| f.parse::<f64>().ok()))
        .sum();
    ticks / 100.0
}
