//! Pattern length / body length, around by level and lengthwise: negative ease and shrinkage in one place.

use cloth::{ClothPlan, Fit, OwnFit, length_factor, worn_around};
use units::Level;

use crate::style::StyleSpec;

/// Share of the length ease that a woman's front takes above the waist: it keeps its length over the bust (own).
pub(crate) const FRONT_LENGTH_SHARE: f64 = 0.75;

/// The factors of one suit. Shrinkage still to come is in them, so nothing downstream applies it again.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Factors {
    fit: Fit,
    /// The fit of waist and hips.
    below: Fit,
    /// Whether nothing holds the garment down.
    hangs: bool,
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
            hangs: false,
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

    /// The same for a garment that hangs from shoulders or neck and is held down by nothing: no length is taken off for the cloth's
    /// stretch.
    ///
    /// A suit is cut shorter than its body because shoulders and crotch pull it to length. A top ends free: no pull lengthwise at its
    /// lower edge, and so none above it but what its weight and the slope of the body make. Cut shorter it is worn shorter, and its
    /// lower edge rides up by all that was taken off.
    ///
    /// Source: own; balance of a free edge, and worn solves (`docs/styles.md`, "Lengths").
    pub(crate) fn hanging(self) -> Factors {
        Factors { hangs: true, ..self }
    }

    /// As a style takes them.
    pub(crate) fn of_style(self, style: &StyleSpec) -> Factors {
        if style.is_held_below() {
            self
        } else {
            self.hanging()
        }
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

    /// Pattern / body length for the share `m` of the length ease; of what hangs, the body's length whatever the share.
    pub(crate) fn y(&self, m: f64) -> f64 {
        let m = if self.hangs { 0.0 } else { m };
        length_factor(m, self.fit, self.lengthwise) * self.shrink_lengthwise
    }

    /// Stretch around of the layers together, ratio.
    pub(crate) fn stretch_around(&self) -> f64 {
        self.around.ratio()
    }
}
