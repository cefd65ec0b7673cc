//! How the wearer stands: still, reaching up, breathing in.
//!
//! The suit stays as it is drafted; the form is fitted to a body whose trunk is longer or whose ribs are wider by a length the
//! maker gives. Take it with the tape: the trunk circumference standing and with both arms up, the girths under the arms and under the
//! bust before and after a deep breath.
//!
//! **Source.** The amounts used when none is given are own guesses, no source was found for swimmers: 40 mm of trunk, 30 mm of ribs.
//! **Limits.** The form takes no posture: reaching is a longer trunk with the arms where they were.

use body::{Body, Dimension, complete};
use serde::Serialize;
use units::Mm;

use crate::order::Order;
use crate::suit_file::SuitFile;

/// Least and greatest change of a scene, mm.
pub const SCENE_RANGE_MM: (f64, f64) = (5.0, 120.0);

/// What the wearer does.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum SceneKind {
    /// Stands, as she was measured.
    #[default]
    Standing,
    /// Reaches up or bends: a longer trunk.
    Reach,
    /// Breathes in: wider ribs.
    Breathe,
}

impl SceneKind {
    /// The amount used when none is given, mm.
    pub const fn usual_mm(self) -> f64 {
        match self {
            SceneKind::Standing => 0.0,
            SceneKind::Reach => 40.0,
            SceneKind::Breathe => 30.0,
        }
    }
}

/// A scene with its amount.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Scene {
    /// What she does.
    pub kind: SceneKind,
    /// By how much the trunk is longer or the ribs are wider, mm.
    pub by_mm: f64,
    /// Whether that was measured; a guess otherwise.
    pub is_measured: bool,
}

impl Scene {
    /// In words, for the head of a report.
    pub fn words(&self) -> String {
        let guess = if self.is_measured {
            "as measured"
        } else {
            "a guess, no source"
        };
        match self.kind {
            SceneKind::Standing => "standing".to_owned(),
            SceneKind::Reach => format!("reaching: trunk {:.0} mm longer ({guess})", self.by_mm),
            SceneKind::Breathe => format!("breathing in: ribs {:.0} mm wider ({guess})", self.by_mm),
        }
    }

    /// The body of the scene.
    pub(super) fn body(&self, suit: &SuitFile, order: &Order) -> Result<Body, String> {
        let longer: &[(Dimension, f64)] = match self.kind {
            SceneKind::Standing => return Ok(order.body.clone()),
            // Half of it in front, half behind.
            SceneKind::Reach => &[
                (Dimension::TrunkCircumference, 1.0),
                (Dimension::BackWaistLength, 0.5),
                (Dimension::FrontWaistLength, 0.5),
            ],
            SceneKind::Breathe => &[(Dimension::BustGirth, 1.0), (Dimension::UnderbustGirth, 1.0)],
        };
        let mut wearer = suit.wearer.clone();
        for (dimension, share) in longer {
            if let Some(mm) = order.body.mm(*dimension) {
                wearer.taken.set(*dimension, Mm::new(mm + share * self.by_mm));
            }
        }
        complete(&wearer).map(|(body, _)| body).map_err(|errors| {
            let all: Vec<String> = errors.iter().map(ToString::to_string).collect();
            format!("the body of this scene can't be: {}", all.join("; "))
        })
    }
}
