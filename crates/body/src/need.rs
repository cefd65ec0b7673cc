//! How much a draft needs each dimension, what is believable for it, and how exactly it can be taken.
//!
//! **Source.** Needs: the draft's own rules (a one-piece cannot be drawn without the required ones). Tolerances:
//! largest allowable error of a skilled measurer by kind, ISO 20685 as tabled in `data/trade/measure_errors.csv`.
//! Plausible ranges: own, wide on purpose; the adult ones hold every one of the 4855 people in `data/body` with room
//! for smaller, larger, older and heavier bodies than soldiers.
//! **Limits.** A plausible range is no test of a slip: that is [`doubts`](crate::doubts).

use units::Mm;

use crate::dimension::{BodyForm, Dimension};

/// How much a draft needs a dimension.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Need {
    /// No body without it.
    Required,
    /// Estimated when missing, but too coarsely to pass without a watch finding. Trunk circumference is never
    /// estimated.
    Asked,
    /// Estimated when missing, well enough for the style parts that use it.
    Estimable,
    /// Never estimated; when taken it checks others.
    CrossCheck,
    /// The draft does without it; kept when taken.
    NotUsed,
}

impl Dimension {
    /// How much a draft for a body of this form needs the dimension.
    pub const fn need(self, form: BodyForm) -> Need {
        use Dimension as D;
        let woman = matches!(form, BodyForm::Woman);
        match self {
            D::BustGirth | D::WaistGirth | D::HipGirth | D::CrotchLength => Need::Required,
            D::Stature => match form {
                BodyForm::Child => Need::Required,
                BodyForm::Woman | BodyForm::Man => Need::Asked,
            },
            D::BackWaistLength | D::TrunkCircumference => Need::Asked,
            D::FrontWaistLength | D::SideNeckToBustPoint | D::BustPointDistance if woman => Need::Asked,
            D::UnderbustGirth => {
                if woman {
                    Need::Asked
                } else {
                    Need::NotUsed
                }
            }
            D::UpperChestGirth | D::ArmscyeGirth | D::CrotchHeight | D::WaistHeight => Need::CrossCheck,
            D::FrontWaistLength
            | D::SideNeckToBustPoint
            | D::BustPointDistance
            | D::HighHipGirth
            | D::ThighGirth
            | D::NeckBaseGirth
            | D::ShoulderGirth
            | D::UpperArmGirth
            | D::WristGirth
            | D::CrotchLengthFront
            | D::ShoulderLength
            | D::SideLength
            | D::WaistToHip
            | D::RiseHeight
            | D::AcrossBack
            | D::AcrossFront
            | D::ArmLength => Need::Estimable,
        }
    }

    /// The least and the greatest length that is believed for a body of this form; outside it is an error.
    ///
    /// Adults of any size, children of about 1 to 14 years.
    pub const fn plausible_range(self, form: BodyForm) -> (Mm, Mm) {
        use Dimension as D;
        let (adult, child) = match self {
            D::Stature => ((1200.0, 2300.0), (600.0, 1900.0)),
            D::BustGirth => ((600.0, 2000.0), (400.0, 1300.0)),
            D::UpperChestGirth => ((600.0, 1900.0), (400.0, 1250.0)),
            D::UnderbustGirth => ((500.0, 1800.0), (380.0, 1250.0)),
            D::WaistGirth => ((450.0, 2200.0), (350.0, 1400.0)),
            D::HighHipGirth => ((550.0, 2200.0), (380.0, 1400.0)),
            D::HipGirth => ((650.0, 2300.0), (400.0, 1450.0)),
            D::ThighGirth => ((300.0, 1200.0), (200.0, 850.0)),
            D::NeckBaseGirth => ((260.0, 700.0), (200.0, 500.0)),
            D::ShoulderGirth => ((700.0, 2000.0), (450.0, 1400.0)),
            D::ArmscyeGirth => ((250.0, 850.0), (160.0, 600.0)),
            D::UpperArmGirth => ((170.0, 750.0), (110.0, 500.0)),
            D::WristGirth => ((110.0, 280.0), (85.0, 220.0)),
            D::TrunkCircumference => ((1100.0, 2400.0), (650.0, 1900.0)),
            D::CrotchLength => ((400.0, 1300.0), (280.0, 1000.0)),
            D::CrotchLengthFront => ((130.0, 650.0), (100.0, 500.0)),
            D::BackWaistLength => ((280.0, 650.0), (170.0, 500.0)),
            D::FrontWaistLength => ((280.0, 800.0), (170.0, 550.0)),
            D::SideNeckToBustPoint => ((140.0, 550.0), (80.0, 350.0)),
            D::BustPointDistance => ((100.0, 450.0), (70.0, 280.0)),
            D::ShoulderLength => ((70.0, 220.0), (45.0, 170.0)),
            D::SideLength => ((100.0, 400.0), (70.0, 320.0)),
            // A low seat and a low navel leave the survey's least at 50.
            D::WaistToHip => ((40.0, 400.0), (40.0, 300.0)),
            D::RiseHeight => ((110.0, 480.0), (90.0, 380.0)),
            D::AcrossBack | D::AcrossFront => ((220.0, 650.0), (150.0, 480.0)),
            D::ArmLength => ((400.0, 850.0), (200.0, 750.0)),
            D::CrotchHeight => ((500.0, 1150.0), (200.0, 950.0)),
            D::WaistHeight => ((700.0, 1500.0), (300.0, 1250.0)),
        };
        let (least, most) = match form {
            BodyForm::Woman | BodyForm::Man => adult,
            BodyForm::Child => child,
        };
        (Mm::new(least), Mm::new(most))
    }

    /// The largest error a skilled measurer is allowed: large girths 9 mm, segment lengths 5 mm, heights, small
    /// girths and breadths 4 mm.
    pub const fn tolerance(self) -> Mm {
        use Dimension as D;
        Mm::new(match self {
            D::BustGirth
            | D::UpperChestGirth
            | D::UnderbustGirth
            | D::WaistGirth
            | D::HighHipGirth
            | D::HipGirth
            | D::ThighGirth
            | D::ShoulderGirth
            | D::ArmscyeGirth
            | D::TrunkCircumference
            | D::CrotchLength => 9.0,
            D::CrotchLengthFront
            | D::BackWaistLength
            | D::FrontWaistLength
            | D::SideNeckToBustPoint
            | D::ShoulderLength
            | D::SideLength
            | D::WaistToHip
            | D::RiseHeight
            | D::AcrossBack
            | D::AcrossFront
            | D::ArmLength
            | D::CrotchHeight => 5.0,
            D::Stature
            | D::NeckBaseGirth
            | D::UpperArmGirth
            | D::WristGirth
            | D::BustPointDistance
            | D::WaistHeight => 4.0,
        })
    }

    /// How far two readings of the dimension may lie apart before it is taken again.
    ///
    /// Trunk circumference 25 mm, large girths 15 mm, others twice the skilled measurer's [`Dimension::tolerance`]
    /// (each reading may be off by it).
    ///
    /// # Source
    /// Trunk and girths: self-measuring in `data/trade/measure_errors.csv`, common practice. The rest: own.
    pub const fn reading_spread(self) -> Mm {
        use Dimension as D;
        match self {
            D::TrunkCircumference => Mm::new(25.0),
            D::BustGirth
            | D::UpperChestGirth
            | D::UnderbustGirth
            | D::WaistGirth
            | D::HighHipGirth
            | D::HipGirth
            | D::ThighGirth
            | D::ShoulderGirth
            | D::ArmscyeGirth
            | D::CrotchLength => Mm::new(15.0),
            other => Mm::new(2.0 * other.tolerance().get()),
        }
    }

    /// Whether a second reading is asked for as a matter of course.
    ///
    /// A slip of 10 cm on bust or waist is mostly not caught by the other dimensions, and trunk circumference carries
    /// the length of a one-piece.
    pub const fn wants_second_reading(self) -> bool {
        matches!(
            self,
            Dimension::BustGirth | Dimension::WaistGirth | Dimension::TrunkCircumference
        )
    }

    /// The dimension of this name. Besides [`Dimension::key`] it reads the names other tables use for the same thing.
    ///
    /// Names that mean another level (a navel `waist_to_hip_height`, `axilla_to_waist_height`) are not read: taking
    /// them for ours would be wrong by centimetres.
    pub fn from_key(key: &str) -> Option<Dimension> {
        use Dimension as D;
        if let Some(dimension) = D::ALL.into_iter().find(|d| d.key() == key) {
            return Some(dimension);
        }
        Some(match key {
            "height" => D::Stature,
            "chest_girth" => D::BustGirth,
            "upper_bust" | "upper_bust_girth" => D::UpperChestGirth,
            "under_bust_girth" => D::UnderbustGirth,
            "top_hip_girth" => D::HighHipGirth,
            "vertical_trunk_girth" | "torso_girth" | "vertical_trunk_circumference" => D::TrunkCircumference,
            "total_crotch_length" => D::CrotchLength,
            "crotch_length_total" => D::CrotchLength,
            "front_crotch_length" => D::CrotchLengthFront,
            "back_neck_to_waist" | "back_neck_point_to_waist" => D::BackWaistLength,
            "side_neck_to_bust" | "side_neck_point_to_bust_point" => D::SideNeckToBustPoint,
            "bust_point_width" => D::BustPointDistance,
            "body_rise" => D::RiseHeight,
            "back_width" => D::AcrossBack,
            "front_width" => D::AcrossFront,
            "inside_leg" | "inside_leg_length" | "inside_leg_height" => D::CrotchHeight,
            _ => return None,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_key_and_no_level_mix_up_reads_back() {
        for d in Dimension::ALL {
            assert_eq!(Dimension::from_key(d.key()), Some(d));
        }
        assert_eq!(Dimension::from_key("chest_girth"), Some(Dimension::BustGirth));
        for navel in ["waist_to_hip_height", "axilla_to_waist_height", "Bust", ""] {
            assert_eq!(Dimension::from_key(navel), None);
        }
    }

    #[test]
    fn ranges_are_ordered_and_a_childs_starts_lower() {
        for d in Dimension::ALL {
            let (woman, child) = (
                d.plausible_range(BodyForm::Woman),
                d.plausible_range(BodyForm::Child),
            );
            assert!(woman.0 < woman.1 && child.0 < child.1, "{}", d.key());
            assert!(child.0 <= woman.0 && child.1 <= woman.1, "{}", d.key());
        }
    }
}
