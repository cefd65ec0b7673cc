//! The dimensions of a body by their ISO 8559-1 names, each with what it is and how to take it.

use serde::Serialize;

/// Whose body: which statistics, shares and defaults apply.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum BodyForm {
    /// A woman, or a teenager with a bust.
    Woman,
    /// A man.
    Man,
    /// A child without a bust, about 3 to 14 years.
    Child,
}

macro_rules! dimensions {
    ($($(#[$doc:meta])* $variant:ident = $key:literal),+ $(,)?) => {
        /// One dimension of a body.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[repr(u8)]
        pub enum Dimension { $($(#[$doc])* $variant),+ }

        impl Dimension {
            /// All dimensions in the order they are taken.
            pub const ALL: [Dimension; [$($key),+].len()] = [$(Dimension::$variant),+];

            /// The name in suit files and reports, snake case.
            pub const fn key(self) -> &'static str {
                match self { $(Dimension::$variant => $key),+ }
            }
        }
    };
}

dimensions! {
    /// Stature, floor to crown.
    Stature = "stature",
    /// Bust girth (women); chest girth (men, children).
    BustGirth = "bust_girth",
    /// Chest girth at the armpit, above the bust.
    UpperChestGirth = "upper_chest_girth",
    /// Under-bust girth.
    UnderbustGirth = "underbust_girth",
    /// Waist girth.
    WaistGirth = "waist_girth",
    /// Top-hip girth.
    HighHipGirth = "high_hip_girth",
    /// Hip girth.
    HipGirth = "hip_girth",
    /// Thigh girth.
    ThighGirth = "thigh_girth",
    /// Neck-base girth.
    NeckBaseGirth = "neck_base_girth",
    /// Girth over both shoulders and arms.
    ShoulderGirth = "shoulder_girth",
    /// Armscye girth.
    ArmscyeGirth = "armscye_girth",
    /// Upper-arm girth, relaxed.
    UpperArmGirth = "upper_arm_girth",
    /// Wrist girth.
    WristGirth = "wrist_girth",
    /// Trunk circumference (vertical trunk girth).
    TrunkCircumference = "trunk_circumference",
    /// Total crotch length.
    CrotchLength = "crotch_length",
    /// The front part of the total crotch length.
    CrotchLengthFront = "crotch_length_front",
    /// Back waist length.
    BackWaistLength = "back_waist_length",
    /// Front waist length.
    FrontWaistLength = "front_waist_length",
    /// Side neck to bust point.
    SideNeckToBustPoint = "side_neck_to_bust_point",
    /// Between the bust points.
    BustPointDistance = "bust_point_distance",
    /// Shoulder length.
    ShoulderLength = "shoulder_length",
    /// Underarm to waist.
    SideLength = "side_length",
    /// Waist to hip, height difference at the side.
    WaistToHip = "waist_to_hip",
    /// Waist to crotch, vertical.
    RiseHeight = "rise_height",
    /// Across the back between arm folds.
    AcrossBack = "across_back",
    /// Across the front between arm folds.
    AcrossFront = "across_front",
    /// Arm length.
    ArmLength = "arm_length",
    /// Inside leg length (crotch height).
    CrotchHeight = "crotch_height",
    /// Waist height.
    WaistHeight = "waist_height",
}

impl Dimension {
    /// The dimensions that may be taken on both sides of a body that is not alike left and right; the others are one number.
    pub const SIDED: [Dimension; 8] = [
        Dimension::ThighGirth,
        Dimension::UpperArmGirth,
        Dimension::WristGirth,
        Dimension::SideNeckToBustPoint,
        Dimension::ShoulderLength,
        Dimension::SideLength,
        Dimension::WaistToHip,
        Dimension::ArmLength,
    ];

    /// Whether it may be taken left and right.
    pub fn is_sided(self) -> bool {
        Dimension::SIDED.contains(&self)
    }
}

impl Serialize for Dimension {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.key())
    }
}
