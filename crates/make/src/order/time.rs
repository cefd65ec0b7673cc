//! Minutes of a step at home, least and most.
//!
//! **Source.** Metres a minute and fixed minutes: `data/trade/time_rates.csv`, common practice, no source: no published minutes for
//! sewing swimwear were found. Pinning, matching and turning over: between half as much again and twice as much again as the sewing
//! (own; held against the operation table's ranges in a test).

use super::Operation;
use crate::choose::StitchChoice;
use crate::job::Job;
use crate::stitch::StitchFamily;

/// Metres a minute, slow and quick, and minutes for each run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Rate {
    pub(crate) slow: f64,
    pub(crate) quick: f64,
    pub(crate) each: f64,
}

pub(crate) const OVERLOCK: Rate = Rate {
    slow: 0.5,
    quick: 1.2,
    each: 1.0,
};
pub(crate) const ZIGZAG: Rate = Rate {
    slow: 0.3,
    quick: 0.7,
    each: 1.0,
};
pub(crate) const ELASTIC: Rate = Rate {
    slow: 0.2,
    quick: 0.5,
    each: 2.0,
};
pub(crate) const TURNED: Rate = Rate {
    slow: 0.25,
    quick: 0.6,
    each: 1.0,
};
pub(crate) const COVER: Rate = Rate {
    slow: 0.4,
    quick: 1.0,
    each: 2.0,
};
/// A bar tack.
pub(crate) const BAR_TACK_MINUTES: f64 = 0.5;
/// Handling beside the sewing, of a quick hand and of a slow one.
const HANDLING: (f64, f64) = (1.5, 3.0);

/// Minutes of an operation with its stitch.
pub(crate) fn minutes(op: &Operation, choice: Option<&StitchChoice>) -> (f64, f64) {
    if let Some(given) = op.minutes {
        return given;
    }
    let Some(choice) = choice else { return (1.0, 5.0) };
    let runs = f64::from(op.runs);
    if choice.job == Job::BarTack {
        return (
            HANDLING.0 * BAR_TACK_MINUTES * runs,
            HANDLING.1 * BAR_TACK_MINUTES * runs,
        );
    }
    let rate = match (choice.job, choice.setting.stitch.facts().family) {
        (Job::Anchor | Job::SkirtJoin, _) => ELASTIC,
        (_, StitchFamily::Overedge) => OVERLOCK,
        (_, StitchFamily::Cover) => COVER,
        (Job::EdgeTopstitch | Job::Casing | Job::Topstitch | Job::Hem, _) => TURNED,
        _ => ZIGZAG,
    };
    let metres = op.length_mm / 1000.0 * f64::from(choice.setting.rows);
    (
        HANDLING.0 * (metres / rate.quick + rate.each * runs),
        HANDLING.1 * (metres / rate.slow + rate.each * runs),
    )
}
