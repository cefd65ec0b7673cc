//! Lengths: how much the torso loop changes and on which line the paper is spread or folded.
//!
//! Four lines perpendicular to the fold: L1 above the bust at mid armhole, L2 between bust and waist, L3 between waist and hip,
//! L4 through the crotch part at mid leg. Without knowing better each takes a quarter of the change, half of it on the front
//! and half on the back. L2 and L3 cross the side seam, so front and back must change alike there; L1 and L4 do not, and take up
//! what front and back need apart.
//!
//! **Source.** Lengthen-or-shorten lines: common practice, no single source. How the change is shared: own.
//! **Limits.** The loop is worth more than the single lengths: they only say where it is changed.

use body::{Body, BodyForm, Dimension};
use cloth::{ClothPlan, Fit, length_factor};
use serde::Serialize;
use units::Mm;

use super::pattern::PaperPattern;
use crate::error::PaperError;

/// More change than this on one line of one piece bends every edge it crosses (own).
pub const MOST_A_LINE: Mm = Mm::new(12.0);

/// A line across the paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LengthLine {
    /// L1, above the bust at mid armhole.
    AboveBust,
    /// L2, between bust and waist.
    BustToWaist,
    /// L3, between waist and hip.
    WaistToHip,
    /// L4, through the crotch part at mid leg.
    Crotch,
}

impl LengthLine {
    /// Top to bottom.
    pub const ALL: [LengthLine; 4] = [
        LengthLine::AboveBust,
        LengthLine::BustToWaist,
        LengthLine::WaistToHip,
        LengthLine::Crotch,
    ];

    /// What is written beside it.
    pub const fn label(self) -> &'static str {
        match self {
            LengthLine::AboveBust => "L1",
            LengthLine::BustToWaist => "L2",
            LengthLine::WaistToHip => "L3",
            LengthLine::Crotch => "L4",
        }
    }

    /// Where it lies, in words.
    pub const fn place(self) -> &'static str {
        match self {
            LengthLine::AboveBust => "above the bust, at mid armhole",
            LengthLine::BustToWaist => "between bust and waist",
            LengthLine::WaistToHip => "between waist and hip",
            LengthLine::Crotch => "through the crotch part, at mid leg",
        }
    }
}

/// How the paper changes on one line.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LineChange {
    /// Which line.
    pub line: LengthLine,
    /// On the front: over 0 to spread, under 0 to fold away.
    pub front: Mm,
    /// On the back.
    pub back: Mm,
}

impl LineChange {
    /// What it adds to the torso loop.
    pub fn in_loop(&self) -> Mm {
        self.front + self.back
    }
}

/// How a length of the paper differs from what this body needs.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LengthNeed {
    /// On the paper.
    pub paper: Mm,
    /// For this body in this cloth.
    pub wanted: Mm,
}

impl LengthNeed {
    /// Over 0 to lengthen.
    pub fn change(&self) -> Mm {
        self.wanted - self.paper
    }
}

/// All changes of length.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct LengthChanges {
    /// Torso loop.
    pub trunk_loop: Option<LengthNeed>,
    /// Side neck to waist in front.
    pub front_waist_length: Option<LengthNeed>,
    /// Waist to waist through the crotch.
    pub crotch_length: Option<LengthNeed>,
    /// The four lines, top to bottom; empty when no length was measured.
    pub lines: Vec<LineChange>,
}

/// # Errors
/// All dimensions the body lacks for the lengths that were measured.
pub(super) fn changes(
    pattern: &PaperPattern,
    body: &Body,
    cloth: &ClothPlan,
    fit: Fit,
) -> Result<LengthChanges, Vec<PaperError>> {
    let mut faults = Vec::new();
    let whole = length_factor(1.0, fit, cloth.lengthwise) * cloth.shrinkage_factor_lengthwise;
    // A woman's front above the waist takes less of the ease, as in our own drafts.
    let front_share = if body.form == BodyForm::Woman { 0.75 } else { 1.0 };
    let front = length_factor(front_share, fit, cloth.lengthwise) * cloth.shrinkage_factor_lengthwise;
    let mut need = |paper: Option<Mm>, dimension: Dimension, factor: f64| {
        let paper = paper?;
        let Some(mm) = body.mm(dimension) else {
            faults.push(PaperError::Missing {
                dimension: dimension.key(),
            });
            return None;
        };
        Some(LengthNeed {
            paper,
            wanted: Mm::new(mm * factor),
        })
    };
    let mut changes = LengthChanges {
        trunk_loop: need(pattern.trunk_loop, Dimension::TrunkCircumference, whole),
        front_waist_length: need(pattern.front_waist_length, Dimension::FrontWaistLength, front),
        crotch_length: need(pattern.crotch_length, Dimension::CrotchLength, whole),
        lines: Vec::new(),
    };
    if !faults.is_empty() {
        return Err(faults);
    }
    let mm = |need: Option<LengthNeed>| need.map(|n| n.change().get());
    if let Some(halves) = share(
        mm(changes.trunk_loop),
        mm(changes.front_waist_length),
        mm(changes.crotch_length),
    ) {
        changes.lines = LengthLine::ALL
            .into_iter()
            .zip(halves)
            .map(|(line, [front, back])| LineChange {
                line,
                front: Mm::new(front),
                back: Mm::new(back),
            })
            .collect();
    }
    Ok(changes)
}

/// Front and back on each line from the changes of loop, front waist length and crotch length, mm.
fn share(whole: Option<f64>, front: Option<f64>, crotch: Option<f64>) -> Option<[[f64; 2]; 4]> {
    Some(match (whole, front, crotch) {
        (None, None, None) => return None,
        (Some(d), None, None) => [[d / 8.0; 2]; 4],
        (Some(d), None, Some(c)) => {
            let above = (d - c) / 4.0;
            [[above; 2], [above; 2], [c / 4.0; 2], [c / 4.0; 2]]
        }
        (Some(d), Some(f), crotch) => {
            // What is not the front above the waist: back above it, and four halves below.
            let (each, below) = match crotch {
                Some(c) => ((d - c) / 4.0, c / 4.0),
                None => ((d - f) / 6.0, (d - f) / 6.0),
            };
            let back = d - f - 4.0 * below;
            [[f - each, back - each], [each; 2], [below; 2], [below; 2]]
        }
        (None, front, crotch) => {
            let (above, below) = (front.unwrap_or(0.0) / 2.0, crotch.unwrap_or(0.0) / 4.0);
            [[above; 2], [above; 2], [below; 2], [below; 2]]
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whatever is known, the lines together make the loop, L2 and L3 keep the side seams equal, and the single lengths come
    /// out where they are measured.
    #[test]
    fn the_lines_add_up() {
        for d in [-24.0, 17.55, 60.0] {
            for f in [None, Some(-6.0), Some(9.0)] {
                for c in [None, Some(-11.0), Some(14.0)] {
                    let lines = share(Some(d), f, c).unwrap();
                    let sum: f64 = lines.iter().flatten().sum();
                    assert!((sum - d).abs() < 1e-9, "{d} {f:?} {c:?}: {lines:?}");
                    assert_eq!(lines[1][0], lines[1][1]);
                    assert_eq!(lines[2][0], lines[2][1]);
                    if let Some(f) = f {
                        assert!((lines[0][0] + lines[1][0] - f).abs() < 1e-9);
                    }
                    if let Some(c) = c {
                        let below: f64 = lines[2].iter().chain(&lines[3]).sum();
                        assert!((below - c).abs() < 1e-9);
                    }
                }
            }
        }
    }
}
