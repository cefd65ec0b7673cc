//! What must be put right after a pattern was changed: edges that were cut apart run smooth again, edges that are sewn meet.

use serde::Serialize;

use super::length::{LengthChanges, LengthLine};
use super::width::WidthChange;

/// Changes under this are lost in the pencil line, mm.
const PENCIL: f64 = 0.5;

/// One thing to true.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TruingStep {
    /// Where: `side seam`.
    pub place: &'static str,
    /// What to do.
    pub what: String,
}

/// The steps these changes need, in the order they are done.
pub(super) fn steps(widths: &[WidthChange], lengths: &LengthChanges) -> Vec<TruingStep> {
    let mut steps = Vec::new();
    let mut step = |place, what: &str| {
        steps.push(TruingStep {
            place,
            what: what.into(),
        });
    };
    let changes = |line: LengthLine| {
        let change = lengths.lines.iter().find(|l| l.line == line);
        change.is_some_and(|l| l.front.abs().get() > PENCIL || l.back.abs().get() > PENCIL)
    };
    let any_length = LengthLine::ALL.into_iter().any(changes);
    let any_width = widths.iter().any(|w| w.quarter.abs().get() > PENCIL);
    let any_slash = widths.iter().any(|w| w.at_slash.abs().get() > PENCIL);
    if !any_length && !any_width {
        return steps;
    }
    if any_length {
        step("fold", "keep the fold one straight line across every cut");
    }
    if any_slash {
        step(
            "slash",
            "keep the two parts parallel to the fold between levels with the same change, and fair the step over 8 cm between different ones",
        );
    }
    step(
        "side seam",
        "draw it new as one smooth curve through the changed levels; lay front on back: both the same length, notches together",
    );
    if changes(LengthLine::WaistToHip) || changes(LengthLine::Crotch) || any_width {
        step(
            "leg",
            "draw the leg curve new, square to the side seam and to the crotch seam on front and back, smooth over both seams",
        );
    }
    if changes(LengthLine::Crotch) {
        step(
            "crotch",
            "front and back the same width at the crotch seam, and the lining cut again to them",
        );
    }
    if changes(LengthLine::AboveBust) || any_width {
        step(
            "armhole",
            "draw it new, square to the side seam at the underarm and to the shoulder seam, smooth over both",
        );
    }
    if changes(LengthLine::AboveBust) || any_slash {
        step(
            "neckline",
            "draw it new, square to fold and shoulder seam; front and back strap the same width",
        );
    }
    step("lining", "change it by the same amounts on the same lines");
    step("edges", "measure every open edge again before the elastic is cut");
    steps
}
