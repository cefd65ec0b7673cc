//! Pattern length / body length, around by level and lengthwise: negative ease and shrinkage in one place.

use cloth::{ClothPlan, Fit, length_factor, worn_around};
use units::Level;

/// The factors of one suit. Shrinkage still to come is in them, so nothing downstream applies it again.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Factors {
    fit: Fit,
    around: units::Stretch,
    lengthwise: units::Stretch,
    pub(crate) shrink_around: f64,
    pub(crate) shrink_lengthwise: f64,
}

impl Factors {
    pub(crate) fn new(cloth: &ClothPlan, fit: Fit) -> Factors {
        Factors {
            fit,
            around: cloth.around,
            lengthwise: cloth.lengthwise,
            shrink_around: cloth.shrinkage_factor_around,
            shrink_lengthwise: cloth.shrinkage_factor_lengthwise,
        }
    }

    /// Pattern / body girth at a level.
    pub(crate) fn x(&self, level: Level) -> f64 {
        worn_around(level, self.fit, self.around).factor() * self.shrink_around
    }

    /// The worn stretch meant at a level.
    pub(crate) fn meant(&self, level: Level) -> f64 {
        worn_around(level, self.fit, self.around).ratio()
    }

    /// Pattern / body length for the share `m` of the length ease.
    pub(crate) fn y(&self, m: f64) -> f64 {
        length_factor(m, self.fit, self.lengthwise) * self.shrink_lengthwise
    }

    /// Stretch around of the layers together, ratio.
    pub(crate) fn stretch_around(&self) -> f64 {
        self.around.ratio()
    }
}
