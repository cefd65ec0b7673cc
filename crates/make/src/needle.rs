//! Needles: size and point by what they go through.
//!
//! A swim knit wants a point that pushes threads aside instead of cutting them, and a deep scarf where it is thick or springy: the
//! stretch needle. A sharp point cuts elastane, and the seam runs there.
//!
//! **Shapes and units.** Size NM: blade diameter in hundredths of a millimetre. Cloth mass g/m2 of one ply.
//! **Source.** `data/trade/needles.csv`: ball points 60 to 80 for swim knits, heavier with more elastane, from a needle maker's sheet;
//! the g/m2 bands are common practice, no source.

use serde::Serialize;
use units::Mm;

/// The point.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum NeedlePoint {
    /// Light ball: sheer mesh, fine lining.
    LightBall,
    /// Medium ball.
    Ball,
    /// Stretch: medium ball and a deep scarf.
    Stretch,
}

impl NeedlePoint {
    /// Key of its name.
    pub const fn key(self) -> &'static str {
        match self {
            NeedlePoint::LightBall => "needle.light_ball",
            NeedlePoint::Ball => "needle.ball",
            NeedlePoint::Stretch => "needle.stretch",
        }
    }
}

/// A needle.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Needle {
    /// Size NM.
    pub size_nm: u16,
    /// Point.
    pub point: NeedlePoint,
    /// Spacing of a twin needle; none for a single one.
    pub twin: Option<Mm>,
}

/// What the needle goes through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Through {
    /// Cloth alone.
    Cloth,
    /// Cloth and elastic, or foam.
    Elastic,
}

/// Taken for a cloth whose mass was not entered, g/m2 (own: a usual swim tricot, `data/trade/fabrics` 170 to 220).
pub const ASSUMED_MASS: f64 = 190.0;

impl Needle {
    /// The needle for cloth of that mass, g/m2 of its heaviest ply.
    ///
    /// Bands: under 120: 65 light ball; to 160: 70 stretch; to 240: 75 stretch; to 300: 80 stretch; above: 90 stretch. Through elastic or
    /// foam at least 75, and 80 from 200 g/m2.
    ///
    /// # Source
    /// `data/trade/needles.csv`; the bands overlap there, the finer needle is taken on cloth alone, the stronger through elastic.
    pub fn for_cloth(mass: f64, through: Through) -> Needle {
        let (size, point) = match mass {
            m if m < 120.0 => (65, NeedlePoint::LightBall),
            m if m < 160.0 => (70, NeedlePoint::Stretch),
            m if m < 240.0 => (75, NeedlePoint::Stretch),
            m if m <= 300.0 => (80, NeedlePoint::Stretch),
            _ => (90, NeedlePoint::Stretch),
        };
        let (size_nm, point) = match through {
            Through::Cloth => (size, point),
            Through::Elastic if mass >= 200.0 => (size.max(80), NeedlePoint::Stretch),
            Through::Elastic => (size.max(75), NeedlePoint::Stretch),
        };
        Needle {
            size_nm,
            point,
            twin: None,
        }
    }

    /// The twin needle of that size and spacing.
    #[must_use]
    pub fn twin(self, spacing: Mm) -> Needle {
        Needle {
            point: NeedlePoint::Stretch,
            twin: Some(spacing),
            // Twin needles are sold as 75 and 80.
            size_nm: if self.size_nm > 75 { 80 } else { 75 },
        }
    }
}
