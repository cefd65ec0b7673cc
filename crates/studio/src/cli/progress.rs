//! "How far?" on a terminal: a bar on standard error, nothing at all in a pipe.

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use units::Progress;

/// A bar that is only drawn when somebody watches.
pub(crate) struct Bar {
    bar: ProgressBar,
}

impl Bar {
    /// A bar; hidden unless `shown`.
    pub(crate) fn new(shown: bool) -> Bar {
        let target = if shown {
            ProgressDrawTarget::stderr()
        } else {
            ProgressDrawTarget::hidden()
        };
        let bar = ProgressBar::with_draw_target(None, target);
        if let Ok(style) = ProgressStyle::with_template("{msg:32} {bar:30} {pos}/{len}") {
            bar.set_style(style);
        }
        Bar { bar }
    }
}

impl Progress for Bar {
    fn at(&self, done: u64, of: u64, words: &str) {
        self.bar.set_length(of);
        self.bar.set_position(done);
        self.bar.set_message(words.to_owned());
    }
}

impl Drop for Bar {
    fn drop(&mut self) {
        self.bar.finish_and_clear();
    }
}
