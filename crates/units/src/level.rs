//! The levels of a body, top to bottom: the rungs of the stretch ladder.

use serde::Serialize;

/// A level of the body.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Level {
    /// Where the neck meets the trunk.
    NeckBase,
    /// The shoulder.
    Shoulder,
    /// The chest at the armpits, above the bust.
    UpperChest,
    /// The fullest part of the bust; the chest of men and children.
    Bust,
    /// Just under the breasts.
    Underbust,
    /// The natural waist.
    Waist,
    /// The navel; surveys only.
    Navel,
    /// The hip bones (ISO: top hip).
    HighHip,
    /// The fullest part of the seat.
    Hip,
    /// The crotch.
    Crotch,
    /// The top of the thigh.
    Thigh,
}

impl Level {
    /// The name on paper.
    pub fn name(self) -> &'static str {
        match self {
            Level::NeckBase => "neck base",
            Level::Shoulder => "shoulder",
            Level::UpperChest => "upper chest",
            Level::Bust => "bust",
            Level::Underbust => "under-bust",
            Level::Waist => "waist",
            Level::Navel => "navel",
            Level::HighHip => "high hip",
            Level::Hip => "hip",
            Level::Crotch => "crotch",
            Level::Thigh => "thigh",
        }
    }
}
