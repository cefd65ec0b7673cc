//! What can be measured on a form, by name.
//!
//! [`FormMeasure`] is the list; [`super::tape`] lays the tape. A measure's name is the one the check values of the
//! form's header use, and which [`Dimension`] of a body it is depends on where the waist was taken.
//!
//! **Shapes and units.** mm, but for the shoulder slope: degrees below horizontal.
//! **Source.** Definitions of the form's header (`data/body/form.json`), where its check values are; those marked
//! *own* have none there.

use serde::Serialize;

use super::tape::Girth;
use crate::dimension::Dimension;
use crate::measured::{FrontTaken, WaistLevel};

macro_rules! measures {
    ($($(#[$doc:meta])* $variant:ident = $key:literal),+ $(,)?) => {
        /// A measure of the form.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum FormMeasure { $($(#[$doc])* $variant),+ }

        impl FormMeasure {
            /// All measures.
            pub const ALL: [FormMeasure; [$($key),+].len()] = [$(FormMeasure::$variant),+];

            /// The name in the form's header and in reports.
            pub const fn key(self) -> &'static str {
                match self { $(FormMeasure::$variant => $key),+ }
            }
        }
    };
}

measures! {
    /// Girth at the underarm (own).
    UpperChestGirth = "upper_chest_girth",
    /// Girth at the bust points.
    BustGirth = "bust_girth",
    /// Extent in x at the bust points.
    BustBreadth = "bust_breadth",
    /// Extent in z at the bust points.
    BustDepth = "bust_depth",
    /// Girth just under the fold below the bust points.
    UnderbustGirth = "underbust_girth",
    /// Girth at the natural waist.
    WaistGirth = "waist_girth",
    /// Extent in x at the natural waist.
    WaistBreadth = "waist_breadth",
    /// Extent in z at the natural waist.
    WaistDepth = "waist_depth",
    /// Girth at the navel.
    NavelGirth = "navel_girth",
    /// Extent in x at the navel.
    NavelBreadth = "navel_breadth",
    /// Extent in z at the navel.
    NavelDepth = "navel_depth",
    /// Girth midway between natural waist and hip.
    HighHipGirth = "high_hip_girth",
    /// Girth at the most prominent point of the seat.
    HipGirth = "hip_girth",
    /// Extent in x at the hip.
    HipBreadth = "hip_breadth",
    /// Extent in z at the hip.
    HipDepth = "hip_depth",
    /// Girth of the left thigh, 25 mm below the crotch.
    ThighGirth = "thigh_girth",
    /// Length of the neck base curve: much too large, see [`FittedForm::neck_base`](super::FittedForm::neck_base).
    NeckBaseGirth = "neck_base_girth",
    /// Length of the edge where the left arm was taken off.
    ArmscyeGirth = "armscye_girth",
    /// Mid shoulder over the front, the crotch and the back.
    TrunkCircumference = "vertical_trunk_girth",
    /// From the natural waist in front through the crotch to the natural waist behind.
    CrotchLengthNatural = "crotch_length_natural",
    /// Its front part, to the lowest point (own).
    CrotchLengthNaturalFront = "crotch_length_natural_front",
    /// From the navel through the crotch to the same level behind.
    CrotchLengthNavel = "crotch_length",
    /// Its front part, to the lowest point.
    CrotchLengthNavelFront = "crotch_length_front",
    /// Its back part.
    CrotchLengthNavelBack = "crotch_length_back",
    /// Back neck to natural waist, on the skin.
    BackWaistLength = "back_waist_length",
    /// Back neck to navel level, on the skin.
    BackWaistLengthNavel = "back_waist_length_navel",
    /// Front neck to natural waist down the midline, on the skin.
    FrontMidlineLength = "front_waist_length",
    /// Front neck to navel down the midline, on the skin.
    FrontMidlineLengthNavel = "front_waist_length_navel",
    /// Side neck over the bust point and straight down to the natural waist, taut (own).
    FrontWaistLength = "front_waist_length_over_bust",
    /// Side neck over the bust point and straight down to navel level, taut (own).
    FrontWaistLengthNavel = "front_waist_length_over_bust_navel",
    /// Side neck to bust point, taut.
    SideNeckToBustPoint = "side_neck_to_bust_point",
    /// Straight between the bust points.
    BustPointDistance = "bust_point_distance",
    /// Straight from side neck to shoulder point.
    ShoulderLength = "shoulder_length",
    /// Fall of the shoulder below horizontal, degrees.
    ShoulderSlope = "shoulder_slope_deg",
    /// Straight between the shoulder points.
    ShoulderBreadth = "shoulder_breadth",
    /// Height of the natural waist over the hip.
    WaistToHip = "waist_to_hip",
    /// Height of the navel over the hip.
    NavelToHip = "navel_to_hip",
    /// Height of the underarm over the natural waist.
    UnderarmToWaist = "underarm_to_waist",
    /// Height of the underarm over the navel.
    UnderarmToNavel = "underarm_to_navel",
    /// Height of the back neck over the crotch.
    BackNeckAboveCrotch = "cervical_above_crotch",
    /// Height of the navel over the crotch.
    NavelAboveCrotch = "navel_above_crotch",
    /// Height of the hip over the crotch.
    HipAboveCrotch = "hip_above_crotch",
    /// Height of the front neck over the crotch.
    FrontNeckAboveCrotch = "front_neck_above_crotch",
    /// Height of the bust points over the crotch.
    BustAboveCrotch = "bust_above_crotch",
    /// Height of the shoulder points over the crotch.
    ShoulderAboveCrotch = "shoulder_above_crotch",
}

impl Serialize for FormMeasure {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.key())
    }
}

impl FormMeasure {
    /// The measure a dimension of a body has on the form, or `None`.
    ///
    /// Heights over the crotch have none, nor has the front part of the crotch length: the form's crotch lies lower
    /// against the seat than a tape finds it, and splits the length half and half where the survey has 0.45. Nor have
    /// stature, arms and the widths between arm folds, which the form lacks; nor the neck base, which is drawn apart.
    pub const fn of(dimension: Dimension, waist: WaistLevel, front: FrontTaken) -> Option<FormMeasure> {
        use Dimension as D;
        use FormMeasure as M;
        let natural = matches!(waist, WaistLevel::Natural);
        Some(match dimension {
            D::BustGirth => M::BustGirth,
            D::UpperChestGirth => M::UpperChestGirth,
            D::UnderbustGirth => M::UnderbustGirth,
            D::WaistGirth if natural => M::WaistGirth,
            D::WaistGirth => M::NavelGirth,
            D::HighHipGirth => M::HighHipGirth,
            D::HipGirth => M::HipGirth,
            D::ThighGirth => M::ThighGirth,
            D::ArmscyeGirth => M::ArmscyeGirth,
            D::TrunkCircumference => M::TrunkCircumference,
            D::CrotchLength if natural => M::CrotchLengthNatural,
            D::CrotchLength => M::CrotchLengthNavel,
            D::BackWaistLength if natural => M::BackWaistLength,
            D::BackWaistLength => M::BackWaistLengthNavel,
            D::FrontWaistLength => match (front, natural) {
                (FrontTaken::OverBustPoint, true) => M::FrontWaistLength,
                (FrontTaken::OverBustPoint, false) => M::FrontWaistLengthNavel,
                (FrontTaken::Midline, true) => M::FrontMidlineLength,
                (FrontTaken::Midline, false) => M::FrontMidlineLengthNavel,
            },
            D::SideNeckToBustPoint => M::SideNeckToBustPoint,
            D::BustPointDistance => M::BustPointDistance,
            D::ShoulderLength => M::ShoulderLength,
            D::SideLength if natural => M::UnderarmToWaist,
            D::SideLength => M::UnderarmToNavel,
            D::WaistToHip if natural => M::WaistToHip,
            D::WaistToHip => M::NavelToHip,
            D::Stature
            | D::NeckBaseGirth
            | D::ShoulderGirth
            | D::UpperArmGirth
            | D::WristGirth
            | D::CrotchLengthFront
            | D::RiseHeight
            | D::AcrossBack
            | D::AcrossFront
            | D::ArmLength
            | D::CrotchHeight
            | D::WaistHeight => return None,
        })
    }

    /// The spread a target of this measure is fitted with when it was taken with care: 5 mm for girths and lengths,
    /// 1.5 degrees for the slope, and 12 mm for what the form and a tape don't mean quite alike: breadths, depths, the
    /// armscye (its edge is the model's cut) and the front waist length (no check value; it starts at the side neck,
    /// which lies too far out on the form).
    ///
    /// Smaller spreads, or a weaker prior, gave monstrous shapes with coefficients of 7 to 12.
    pub const fn spread(self) -> f64 {
        use FormMeasure as M;
        match self {
            M::BustBreadth
            | M::BustDepth
            | M::WaistBreadth
            | M::WaistDepth
            | M::NavelBreadth
            | M::NavelDepth
            | M::HipBreadth
            | M::HipDepth
            | M::ArmscyeGirth
            | M::FrontWaistLength
            | M::FrontWaistLengthNavel => 12.0,
            M::ShoulderSlope => 1.5,
            _ => 5.0,
        }
    }

    /// Whether this is a horizontal girth, which the radial correction can close.
    pub const fn is_girth(self) -> bool {
        girth_of(self).is_some()
    }
}

/// The horizontal girth a measure is.
pub(crate) const fn girth_of(measure: FormMeasure) -> Option<Girth> {
    use FormMeasure as M;
    Some(match measure {
        M::UpperChestGirth => Girth::UpperChest,
        M::BustGirth => Girth::Bust,
        M::UnderbustGirth => Girth::Underbust,
        M::WaistGirth => Girth::Waist,
        M::NavelGirth => Girth::Navel,
        M::HighHipGirth => Girth::HighHip,
        M::HipGirth => Girth::Hip,
        M::ThighGirth => Girth::Thigh,
        _ => return None,
    })
}
