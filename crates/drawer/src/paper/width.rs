//! Widths: how much a quarter changes at each level, where, and whether another size would be wiser.
//!
//! With G the girth of the body, k the draft's reduction factor at the level and W the width of the paper once round, a quarter
//! changes by (G k - W) / 4. A little goes on at the side seam; more than 6 mm there would turn the seam's shape into another
//! one, so the rest goes in along a slash through the middle of the half.
//!
//! **Source.** Limits of 6, 12 and 15 mm a quarter: own.

use body::{Body, Dimension};
use cloth::{ClothPlan, Fit, worn_around};
use serde::Serialize;
use units::Mm;

use super::pattern::{PaperLevel, PaperWidth};
use crate::error::PaperError;

/// A quarter changes by this much at its side seam at most (own).
pub const AT_THE_SIDE: Mm = Mm::new(6.0);
/// Over this much a quarter, another size comes first (own).
pub const MOST_A_QUARTER: Mm = Mm::new(15.0);
/// At the bust the limit is lower: neckline and armhole hang from it (own).
pub const MOST_AT_THE_BUST: Mm = Mm::new(12.0);
/// The waist must pass the hips with this share of the cloth's stretch, as in our own drafts.
const WAY_IN_SHARE: f64 = 0.85;
/// Paper and reduced body further apart than this ratio are not two sizes but a slip of measuring.
const PLAUSIBLE: (f64, f64) = (0.55, 1.8);

/// How the width at one level changes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WidthChange {
    /// Where.
    pub level: PaperLevel,
    /// The body there, once round.
    pub body: Mm,
    /// The paper, once round, net.
    pub paper: Mm,
    /// What it should be for this body in this cloth, once round.
    pub wanted: Mm,
    /// Whether `wanted` was widened so that the waist passes the hips.
    pub is_widened_for_way_in: bool,
    /// Each quarter: over 0 to add, under 0 to take off.
    pub quarter: Mm,
    /// How much of that at the side seam.
    pub at_side: Mm,
    /// The rest, along a slash (or a tuck) through the middle of the half.
    pub at_slash: Mm,
}

impl WidthChange {
    /// The most a quarter may change here before another size is wiser.
    pub fn limit(&self) -> Mm {
        limit(self.level)
    }

    /// Whether it is more than an adaptation.
    pub fn is_over(&self) -> bool {
        self.quarter.abs() > self.limit()
    }
}

fn limit(level: PaperLevel) -> Mm {
    match level {
        PaperLevel::Bust => MOST_AT_THE_BUST,
        _ => MOST_A_QUARTER,
    }
}

/// The changes of some widths, top to bottom.
///
/// # Errors
/// [`PaperError::Missing`] for a girth the body lacks, [`PaperError::NotThisBody`] for a width no size of this pattern can have.
pub(super) fn changes(
    widths: &[PaperWidth],
    body: &Body,
    cloth: &ClothPlan,
    fit: Fit,
    field: &str,
) -> Result<Vec<WidthChange>, Vec<PaperError>> {
    let mut faults = Vec::new();
    let mut changes = Vec::new();
    let mut sorted = widths.to_vec();
    sorted.sort_by_key(|w| w.level);
    for width in sorted {
        match change(&width, body, cloth, fit, field) {
            Ok(change) => changes.push(change),
            Err(fault) => faults.push(fault),
        }
    }
    if faults.is_empty() {
        Ok(changes)
    } else {
        Err(faults)
    }
}

fn change(
    width: &PaperWidth,
    body: &Body,
    cloth: &ClothPlan,
    fit: Fit,
    field: &str,
) -> Result<WidthChange, PaperError> {
    let girth = |dimension: Dimension| {
        body.mm(dimension).ok_or(PaperError::Missing {
            dimension: dimension.key(),
        })
    };
    let level = width.level;
    let body_mm = girth(dimension(level))?;
    let factor = |level: PaperLevel| {
        worn_around(level.level(), fit, cloth.around).factor() * cloth.shrinkage_factor_around
    };
    let mut wanted = body_mm * factor(level);
    let mut is_widened_for_way_in = false;
    if level == PaperLevel::Waist {
        let passes = girth(Dimension::HipGirth)? / (1.0 + WAY_IN_SHARE * cloth.around.ratio())
            * cloth.shrinkage_factor_around;
        is_widened_for_way_in = passes > wanted;
        wanted = wanted.max(passes);
    }
    let paper = width.girth().get();
    if !(PLAUSIBLE.0..=PLAUSIBLE.1).contains(&(paper / wanted)) {
        return Err(PaperError::NotThisBody {
            field: format!("{field} {}", level.name()),
            pattern_mm: paper,
            body_mm,
        });
    }
    let quarter = (wanted - paper) / 4.0;
    let at_side = quarter.clamp(-AT_THE_SIDE.get(), AT_THE_SIDE.get());
    Ok(WidthChange {
        level,
        body: Mm::new(body_mm),
        paper: Mm::new(paper),
        wanted: Mm::new(wanted),
        is_widened_for_way_in,
        quarter: Mm::new(quarter),
        at_side: Mm::new(at_side),
        at_slash: Mm::new(quarter - at_side),
    })
}

/// The girth of a level.
pub(super) const fn dimension(level: PaperLevel) -> Dimension {
    match level {
        PaperLevel::Bust => Dimension::BustGirth,
        PaperLevel::Underbust => Dimension::UnderbustGirth,
        PaperLevel::Waist => Dimension::WaistGirth,
        PaperLevel::HighHip => Dimension::HighHipGirth,
        PaperLevel::Hip => Dimension::HipGirth,
    }
}
