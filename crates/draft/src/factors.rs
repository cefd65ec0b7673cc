//! Pattern length / body length, around by level and lengthwise: negative ease and shrinkage in one place.

use cloth::{ClothPlan, Fit, OwnFit, length_factor, worn_around};
use units::Level;

/// The factors of one suit. Shrinkage still to come is in them, so nothing downstream applies it again.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Factors {
    fit: Fit,
    /// The fit of waist and hips.
    below: Fit,
    around: units::Stretch,
    lengthwise: units::Stretch,
    pub(crate) shrink_around: f64,
    pub(crate) shrink_lengthwise: f64,
}

impl Factors {
    pub(crate) fn new(cloth: &ClothPlan, fit: Fit) -> Factors {
        Factors {
            fit,
            below: fit,
            around: cloth.around,
            lengthwise: cloth.lengthwise,
            shrink_around: cloth.shrinkage_factor_around,
            shrink_lengthwise: cloth.shrinkage_factor_lengthwise,
        }
    }

    /// The same with waist and hips no tighter than a relaxed fit, for a top that hangs over them.
    pub(crate) fn relaxed_below_the_bust(self) -> Factors {
        let below = if self.fit.around() > Fit::Relaxed.around() {
            Fit::Relaxed
        } else {
            self.fit
        };
        Factors { below, ..self }
    }

    fn fit_at(&self, level: Level) -> Fit {
        match level {
            Level::Waist | Level::Navel | Level::HighHip | Level::Hip => self.below,
            _ => self.fit,
        }
    }

    /// Pattern / body girth at a level.
    pub(crate) fn x(&self, level: Level) -> f64 {
        worn_around(level, self.fit_at(level), self.around).factor() * self.shrink_around
    }

    /// The worn stretch meant at a level.
    pub(crate) fn meant(&self, level: Level) -> f64 {
        worn_around(level, self.fit_at(level), self.around).ratio()
    }

    /// The worn stretch meant where a style takes another share of the fit than the level's own: 1.3 for the body of a
    /// strapless top, 1.4 for a band under the bust (own).
    pub(crate) fn meant_at_share(&self, share: f64) -> f64 {
        // Past half the stretch the reserve of the cloth is the limit anyway.
        let around = (self.fit.around() * share).min(0.5);
        match OwnFit::new(around, self.fit.lengthwise()) {
            Ok(own) => worn_around(Level::Underbust, Fit::Own(own), self.around).ratio(),
            Err(_) => self.meant(Level::Underbust),
        }
    }

    /// Pattern / body girth for [`Factors::meant_at_share`].
    pub(crate) fn x_at_share(&self, share: f64) -> f64 {
        self.shrink_around / (1.0 + self.meant_at_share(share))
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
