//! The ease of a suit that fits, carried over to another cloth: the same share of its stretch used.
//!
//! The draft's own caps hold on the new cloth too. Where they, or those on the old, bite, the carried ease is not the plain
//! proportion eps_new = eps_old S_new / S_old, and by how much is said.
//!
//! **Shapes and units.** Worn stretches as ratios.

use cloth::{ClothPlan, Fit, OwnFit, length_factor, worn_around};
use serde::Serialize;
use units::{Level, Stretch};

/// Carried and proportional worn stretch may differ by this much before it is said: 1 % of a girth, 10 mm on a hip of a metre
/// (own).
pub(super) const DIFFERENCE: f64 = 0.01;

const LEVELS: [Level; 4] = [Level::Bust, Level::Waist, Level::HighHip, Level::Hip];

/// Worn stretch at one level, or lengthwise, in both cloths.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WornEase {
    /// The level; `None` for lengthwise.
    pub level: Option<Level>,
    /// On the old cloth.
    pub old: Stretch,
    /// On the new one, as it will be drafted.
    pub new: Stretch,
    /// In plain proportion to the two cloths' stretch, without caps.
    pub proportional: Stretch,
}

impl WornEase {
    /// How far drafted and proportional worn stretch are apart, as a ratio.
    pub fn difference(&self) -> f64 {
        self.new.ratio() - self.proportional.ratio()
    }
}

/// Where carried and proportional ease are furthest apart.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WorstEase {
    /// The place.
    pub ease: WornEase,
    /// Whether they are further apart than 1 % of the length there.
    pub is_capped: bool,
}

/// The fit on the new cloth.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EaseOnNewCloth {
    /// Shares of the stretch used, the same on both.
    pub fit: OwnFit,
    /// Around at bust, waist, high hip and hip; then lengthwise.
    pub places: Vec<WornEase>,
    /// The place where the caps change most.
    pub worst: Option<WorstEase>,
}

pub(super) fn carry_over(fit: OwnFit, old: &ClothPlan, new: &ClothPlan) -> EaseOnNewCloth {
    let fit_of = Fit::Own(fit);
    let proportional = |worn: f64, from: Stretch, to: Stretch| {
        Stretch::from_ratio(if from.ratio() > 0.0 {
            worn * to.ratio() / from.ratio()
        } else {
            worn
        })
    };
    let mut places: Vec<WornEase> = LEVELS
        .into_iter()
        .map(|level| {
            let worn = worn_around(level, fit_of, old.around);
            WornEase {
                level: Some(level),
                old: worn,
                new: worn_around(level, fit_of, new.around),
                proportional: proportional(worn.ratio(), old.around, new.around),
            }
        })
        .collect();
    let lengthwise = |cloth: &ClothPlan| 1.0 / length_factor(1.0, fit_of, cloth.lengthwise) - 1.0;
    let worn = lengthwise(old);
    places.push(WornEase {
        level: None,
        old: Stretch::from_ratio(worn),
        new: Stretch::from_ratio(lengthwise(new)),
        proportional: proportional(worn, old.lengthwise, new.lengthwise),
    });
    let worst = places
        .iter()
        .max_by(|a, b| a.difference().abs().total_cmp(&b.difference().abs()))
        .map(|&ease| WorstEase {
            ease,
            is_capped: ease.difference().abs() > DIFFERENCE,
        });
    EaseOnNewCloth { fit, places, worst }
}

#[cfg(test)]
mod tests {
    use cloth::Load;

    use super::*;

    fn cloth(around: f64, lengthwise: f64) -> ClothPlan {
        let (around, lengthwise) = (Stretch::from_ratio(around), Stretch::from_ratio(lengthwise));
        ClothPlan::of_one_cloth("cloth", around, lengthwise, Load::Hand)
    }

    /// Without caps the carried ease is the plain proportion: new factor 1 / (1 + eps_old S_new / S_old).
    #[test]
    fn the_same_share_is_the_plain_proportion() {
        let fit = OwnFit::new(0.20, 0.12).unwrap();
        let carried = carry_over(fit, &cloth(0.85, 0.60), &cloth(0.50, 0.32));
        for place in &carried.places {
            assert!(place.difference().abs() < 1e-12, "{place:?}");
        }
        let hip = carried.places[3];
        assert!((hip.new.factor() - 1.0 / (1.0 + 0.20 * 0.85 * 0.50 / 0.85)).abs() < 1e-12);
        assert!(!carried.worst.unwrap().is_capped);
    }

    /// A very stretchy cloth used by half its stretch meets the cap of 0.40 worn stretch.
    #[test]
    fn a_cap_on_the_new_cloth_is_said() {
        let fit = OwnFit::new(0.40, 0.10).unwrap();
        let carried = carry_over(fit, &cloth(0.80, 0.60), &cloth(1.30, 0.60));
        let worst = carried.worst.unwrap();
        assert!(worst.is_capped);
        assert!((worst.ease.new.ratio() - 0.40).abs() < 1e-12);
        assert!((worst.ease.proportional.ratio() - 0.52).abs() < 1e-12);
    }

    /// A cloth without lengthwise stretch gets its little extra length, which is no share of anything.
    #[test]
    fn a_cloth_without_lengthwise_stretch_is_said() {
        let fit = OwnFit::new(0.18, 0.10).unwrap();
        let carried = carry_over(fit, &cloth(0.80, 0.60), &cloth(0.80, 0.05));
        let worst = carried.worst.unwrap();
        assert_eq!(worst.ease.level, None);
        assert!(worst.is_capped && worst.ease.new.ratio() < 0.0);
    }
}
