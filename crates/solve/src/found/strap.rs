//! Whether the straps stay on the shoulder.
//!
//! **Source.** Skin friction: Temel et al. 2022, Tribology Letters 70(1), abstract.

use draft::BackShape;
use units::Severity;

use super::{Change, Job, Read, Reading, limit};

/// Dry skin holds with about this friction: 0.31 at the forearm, 0.90 at the chest (Temel et al. 2022, cotton, abstract).
pub const SKIN_FRICTION: f64 = 0.3;

impl Job<'_> {
    pub(super) fn strap(&self, all: &mut Vec<Reading>) {
        let Some(strap) = self.worn.strap else { return };
        let slides = strap.needed_friction > SKIN_FRICTION;
        let to = if strap.rail_n > 0.0 {
            "off the shoulder"
        } else {
            "to the neck"
        };
        let severity = if slides { Severity::Watch } else { Severity::Good };
        let mut read = Read::new("worn.strap", severity, "straps", strap.needed_friction);
        "straps, shoulder".clone_into(&mut read.place);
        read.message = if slides {
            format!(
                "the strap wants to slide {to} with {:.1} N: it stays where the skin grips with {:.2}",
                strap.rail_n.abs(),
                strap.needed_friction
            )
        } else {
            format!(
                "the strap stays where it is: a grip of {:.2} is enough",
                strap.needed_friction
            )
        };
        read.limit = limit(
            format!("{SKIN_FRICTION:.2}, dry skin"),
            "Temel et al. 2022, Tribology Letters 70(1), abstract",
        );
        read.remedy = "move the strap along the shoulder";
        let now = self.design.strap_position;
        let usual = if self.design.back_shape == BackShape::Racer {
            0.30
        } else {
            0.42
        };
        let by = if strap.rail_n > 0.0 { -0.05 } else { 0.05 };
        read.changes.push(Change {
            key: "strap_position",
            from: now,
            to: ((now.unwrap_or(usual) + by).clamp(0.25, 0.70) * 100.0).round() / 100.0,
        });
        read.is_told = true;
        all.push(read.into_reading());
    }
}
