//! What straps and the band under the bust can carry, against what there is to carry.
//!
//! A strap carries with its pull; the band with what friction holds of the force it lies on the ribs with. Together they should carry what a
//! breast of her cup weighs out of the water; in it, next to nothing is left to carry, but every wave moves it.
//!
//! **Source.** Weight: volume by cup and under-bust as bra makers' tables have it, value from memory, at 1 g/ml (own). Friction: see
//! [`SKIN_FRICTION`]. That the sum is what counts is own.
//! **Limits.** Rigid body: the bust neither sinks nor moves. Cups and boning are not in the mesh. Without weighed forces the number is relative.

use units::Severity;

use super::{Job, Read, Reading, SKIN_FRICTION, limit};

/// Cups smaller than this are not asked for support, bust less under-bust, mm (own: D begins at 180, C at 160).
pub const LEAST_CUP_MM: f64 = 160.0;
/// Volume of a breast at the table's origin, ml, and its growth per 20 mm of cup or 50 mm of band (value from memory).
const VOLUME_ML: f64 = 310.0;
const VOLUME_STEP: f64 = 1.225;
/// The origin: cup and under-bust, mm.
const VOLUME_AT: (f64, f64) = (130.0, 750.0);
const GRAVITY_N_PER_ML: f64 = 9.81e-3;

/// What a bust asks to be carried.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BustLoad {
    /// Bust less under-bust, mm.
    pub cup_mm: f64,
    /// What one breast weighs, N.
    pub weight_n: f64,
}

impl BustLoad {
    /// The load of a woman's bust by her two girths, mm.
    pub fn of_girths(bust_mm: f64, underbust_mm: f64) -> BustLoad {
        let cup_mm = bust_mm - underbust_mm;
        let (cup, band) = VOLUME_AT;
        let steps = (cup_mm - cup) / 20.0 + (underbust_mm - band) / 50.0;
        BustLoad {
            cup_mm,
            weight_n: GRAVITY_N_PER_ML * VOLUME_ML * VOLUME_STEP.powf(steps),
        }
    }
}

impl Job<'_> {
    pub(super) fn support(&self, all: &mut Vec<Reading>) {
        let (Some(support), Some(load)) = (self.worn.support, self.limits.bust) else {
            return;
        };
        let strap = support.strap_n.unwrap_or(0.0);
        let carried = strap + SKIN_FRICTION * support.band_force_n;
        let share = carried / load.weight_n.max(f64::MIN_POSITIVE);
        let is_asked = load.cup_mm >= LEAST_CUP_MM;
        let severity = if share < 1.0 && is_asked {
            Severity::Watch
        } else {
            Severity::Good
        };
        let relative = if self.limits.cloth_weighed && self.limits.elastic_weighed {
            ""
        } else {
            "; relative, the forces were not weighed"
        };
        let straps = support.strap_n.map_or_else(
            || "no strap, ".to_owned(),
            |n| format!("the strap pulls {n:.1} N, "),
        );
        let band = if support.has_band {
            "the band"
        } else {
            "the cloth under the bust"
        };
        let means = match severity {
            Severity::Good => "together they carry it",
            _ => "it sinks in the suit and moves",
        };
        let mut read = Read::new("worn.support", severity, "bust", share);
        "bust and straps, each side".clone_into(&mut read.place);
        read.message = format!(
            "{straps}{band} pulls {:.1} N round the ribs and lies on with {:.2} kPa: that carries {carried:.1} N where a bust {:.0} cm over its under-bust weighs about {:.1} N: {means}{relative}",
            support.band_n,
            support.pressure_kpa,
            load.cup_mm / 10.0,
            load.weight_n
        );
        read.limit = limit(
            "1.00 of the weight".to_owned(),
            "own; weight by cup and band from memory of makers' tables",
        );
        read.remedy = "line the front with a firmer cloth or power mesh, sew a firm elastic under the bust, or draw the suit in lengthwise";
        // A suit worn longer pulls harder over the shoulder; a wider strap alone does not: the loop shares its pull.
        read.changes = self.fit_changed(1.0, 1.3);
        read.is_told = is_asked;
        all.push(read.into_reading());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Under-bust 75 cm: B (15 cm) some 390 ml, D (19 cm) some 590 ml; value from memory of makers' tables.
    #[test]
    fn a_breast_weighs_what_its_cup_holds() {
        let ml = |bust: f64| BustLoad::of_girths(bust, 750.0).weight_n / GRAVITY_N_PER_ML;
        assert!((ml(900.0) - 390.0).abs() < 25.0, "{}", ml(900.0));
        assert!((ml(940.0) - 590.0).abs() < 40.0, "{}", ml(940.0));
        // A band larger and a cup smaller is the same volume.
        let (a, b) = (
            BustLoad::of_girths(940.0, 750.0),
            BustLoad::of_girths(970.0, 800.0),
        );
        assert!((a.weight_n - b.weight_n).abs() < 1e-9);
    }
}
