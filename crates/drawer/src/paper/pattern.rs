//! A bought paper pattern as it lies in the drawer: what was measured on the paper and what the envelope says.
//!
//! **Shapes and units.** mm, net: seam line to seam line, the allowance taken off.

use serde::{Deserialize, Serialize};
use units::{Level, Mm, Stretch};

/// A level at which the paper is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PaperLevel {
    /// The fullest part of the bust.
    Bust,
    /// Just under the breasts.
    Underbust,
    /// The waist.
    Waist,
    /// The hip bones.
    HighHip,
    /// The fullest part of the seat.
    Hip,
}

impl PaperLevel {
    /// The level of the body.
    pub const fn level(self) -> Level {
        match self {
            PaperLevel::Bust => Level::Bust,
            PaperLevel::Underbust => Level::Underbust,
            PaperLevel::Waist => Level::Waist,
            PaperLevel::HighHip => Level::HighHip,
            PaperLevel::Hip => Level::Hip,
        }
    }

    /// Its name in a sentence.
    pub fn name(self) -> &'static str {
        self.level().name()
    }
}

/// How much of the girth a width on the paper is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WidthOf {
    /// Half of the front or of the back, fold to side seam: the mean of both.
    Quarter,
    /// A whole front or back, or the halves of both together.
    Half,
    /// Once round.
    #[default]
    Whole,
}

impl WidthOf {
    const fn times(self) -> f64 {
        match self {
            WidthOf::Quarter => 4.0,
            WidthOf::Half => 2.0,
            WidthOf::Whole => 1.0,
        }
    }
}

/// One width on the paper.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct PaperWidth {
    /// Where.
    pub level: PaperLevel,
    /// As measured.
    pub width: Mm,
    /// How much of the girth that is.
    #[serde(default)]
    pub of: WidthOf,
}

impl PaperWidth {
    /// Once round, mm.
    pub fn girth(&self) -> Mm {
        self.width * self.of.times()
    }
}

/// One size of the envelope.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct PaperSize {
    /// What the envelope calls it.
    pub name: String,
    /// Its widths on the paper, net, as far as measured or printed.
    #[serde(default)]
    pub widths: Vec<PaperWidth>,
}

/// A bought paper pattern: a one-piece, or its lower or upper part.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct PaperPattern {
    /// What the maker calls it.
    pub name: String,
    /// The size the measures below were taken on.
    #[serde(default)]
    pub size: Option<String>,
    /// Widths, net.
    pub widths: Vec<PaperWidth>,
    /// Middle of the shoulder, down the front, through the crotch and up the back to the same point.
    #[serde(default)]
    pub trunk_loop: Option<Mm>,
    /// Side neck to waist, down the front; worked out to the side neck where the neckline is cut lower.
    #[serde(default)]
    pub front_waist_length: Option<Mm>,
    /// Waist in front to waist behind, through the crotch.
    #[serde(default)]
    pub crotch_length: Option<Mm>,
    /// Centre front, neckline to crotch seam.
    #[serde(default)]
    pub centre_front: Option<Mm>,
    /// Centre back, top to crotch seam.
    #[serde(default)]
    pub centre_back: Option<Mm>,
    /// Side seam, leg to underarm.
    #[serde(default)]
    pub side_seam: Option<Mm>,
    /// Crotch width at its seam, once across.
    #[serde(default)]
    pub crotch_width: Option<Mm>,
    /// The stretch the envelope asks of the cloth around the body.
    #[serde(default)]
    pub asked_stretch: Option<Stretch>,
    /// Other sizes, as far as their widths are known.
    #[serde(default)]
    pub sizes: Vec<PaperSize>,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quarter_counts_four_times() {
        let width = PaperWidth {
            level: PaperLevel::Hip,
            width: Mm::new(212.5),
            of: WidthOf::Quarter,
        };
        assert_eq!(width.girth(), Mm::new(850.0));
    }

    #[test]
    fn what_was_not_measured_may_be_left_out_of_a_stored_pattern() {
        let text = r#"{"name":"the old envelope","widths":[{"level":"high_hip","width":800.0}]}"#;
        let pattern: PaperPattern = serde_json::from_str(text).unwrap();
        assert_eq!(pattern.widths[0].of, WidthOf::Whole);
        let again = serde_json::to_string(&pattern).unwrap();
        assert_eq!(serde_json::from_str::<PaperPattern>(&again).unwrap(), pattern);
    }
}
