//! Whether a top stays where the draft has it, and whether a tie cuts in.

use units::Severity;

use super::strap::SKIN_FRICTION;
use super::{Job, Read, Reading, graded, limit};

/// A lower edge that rides up further than this shows (own), mm.
pub const RODE_UP_WATCH_MM: f64 = 20.0;

impl Job<'_> {
    pub(super) fn held(&self, all: &mut Vec<Reading>) {
        self.grips(all);
        self.rides_up(all);
        self.ties(all);
    }

    /// A top that only its own grip holds up.
    fn grips(&self, all: &mut Vec<Reading>) {
        for rail in &self.worn.rails {
            let slides = rail.needed_friction > SKIN_FRICTION;
            let severity = if slides { Severity::Watch } else { Severity::Good };
            let mut read = Read::new("worn.grip", severity, rail.name, rail.needed_friction);
            let way = if rail.slides_n < 0.0 { "down" } else { "up" };
            read.message = format!(
                "it would slide {way} with {:.1} N a side and lies on with {:.1} N: it stays where the skin grips with {:.2}",
                rail.slides_n.abs(),
                rail.contact_n,
                rail.needed_friction
            );
            read.limit = limit(
                format!("{SKIN_FRICTION:.2}, dry skin"),
                "Temel et al. 2022, Tribology Letters 70(1), abstract",
            );
            read.remedy = "sew a firmer elastic or a gripper tape to its upper edge, or give it straps";
            read.is_told = true;
            all.push(read.into_reading());
        }
    }

    /// Nothing but its own shape holds the lower edge of a top down.
    fn rides_up(&self, all: &mut Vec<Reading>) {
        let Some(rode) = self.worn.rode_up.filter(|_| self.worn.rails.is_empty()) else {
            return;
        };
        let most = rode.front_mm.max(rode.back_mm);
        let severity = if most > RODE_UP_WATCH_MM {
            Severity::Watch
        } else {
            Severity::Good
        };
        let mut read = Read::new("worn.rides_up", severity, "lower edge", most);
        read.message = format!(
            "it rides up {:.0} mm in front and {:.0} mm behind: nothing holds a top down",
            rode.front_mm, rode.back_mm
        );
        read.limit = limit(format!("{RODE_UP_WATCH_MM:.0} mm"), "own");
        read.remedy =
            "let it end lower by as much, or sew a firmer elastic or a gripper tape to its lower edge";
        all.push(read.into_reading());
    }

    fn ties(&self, all: &mut Vec<Reading>) {
        let (watch, stop) = self.limits.edge_kpa;
        for line in self.worn.lines.iter().filter(|l| l.pressure_kpa > 0.0) {
            let severity = graded(line.pressure_kpa, (watch, stop), self.limits.cloth_weighed);
            let mut read = Read::new("worn.tie_digs", severity, line.name, line.pressure_kpa);
            read.message = format!(
                "it presses {:.1} kPa under its width where it is taken as tied: it may dig in",
                line.pressure_kpa
            );
            let over = if severity == Severity::Stop { stop } else { watch };
            read.limit = limit(format!("{over:.1} kPa"), self.limits.pressure_source);
            read.remedy = "tie it looser, or make it wider";
            all.push(read.into_reading());
        }
    }
}
