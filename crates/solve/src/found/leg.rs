//! The worn leg edge against the groin crease, how far it rode, and how much of the seat it leaves covered.
//!
//! **Source.** Limits: own. In trial solves the side of a brief sank 18 to 25 mm without friction and 9 mm with; a full leg is meant to lie
//! along the crease or above it (common practice, no single source).
//! **Limits.** Standing. What sitting and striding do to an edge is not solved.

use draft::{LegHeight, Shared};
use units::{Level, Severity};

use super::{Change, Job, Read, Reading, limit, percent};

/// An edge that lies further out on the thigh than this moves with it (own), mm.
pub const ON_THIGH_MM: f64 = 8.0;
/// An edge that rode further than this is not where it was drafted (own), mm.
pub const RODE_MM: f64 = 15.0;
/// So much less of the seat covered than was meant shows (own), share of the seat.
pub const UNCOVERED: f64 = 0.08;
/// Shares a leg may be set to.
const LEG_SHARES: (f64, f64) = (0.05, 1.0);
/// A leg cut lower than this share of waist to hip is meant to lie on the thigh (own).
const LOW_LEG: f64 = 0.85;
/// A fuller seat is tried in steps of so much, mm on the body, up to its most.
const SEAT_STEP: (f64, f64) = (8.0, 20.0);

/// The share of waist to hip below the waist at which a leg is cut at the side; nothing for one cut by its side seam.
const fn leg_share(leg: LegHeight) -> Option<f64> {
    match leg {
        LegHeight::Low => Some(0.95),
        LegHeight::Mid => Some(0.74),
        LegHeight::High => Some(0.42),
        LegHeight::ExtraHigh => Some(0.12),
        LegHeight::Share(share) => Some(share),
        LegHeight::SideSeam(_) => None,
    }
}

/// `3 mm up`, `12 mm down`.
fn moved(mm: f64, (more, less): (&str, &str)) -> String {
    if mm.abs() < 0.5 {
        return format!("0 mm {more}");
    }
    format!("{:.0} mm {}", mm.abs(), if mm > 0.0 { more } else { less })
}

impl Job<'_> {
    /// The leg cut higher by so much at the side, mm on the body.
    fn leg_higher(&self, mm: f64) -> Vec<Change> {
        let of = |level| self.height(level);
        let waist = of(Level::Waist).or(of(Level::Navel));
        let below = waist.zip(of(Level::Hip)).map(|(waist, hip)| waist - hip);
        let now = leg_share(self.design.leg).filter(|_| self.design.hears(Shared::Leg));
        let (Some(below), Some(now)) = (below.filter(|mm| *mm > 1.0), now) else {
            return Vec::new();
        };
        let (low, high) = LEG_SHARES;
        let to = ((now - mm / below).clamp(low, high) * 100.0).round() / 100.0;
        let from = matches!(self.design.leg, LegHeight::Share(_)).then_some(now);
        vec![Change {
            key: "leg_share",
            from,
            to,
        }]
    }

    fn seat_fuller(&self) -> Vec<Change> {
        let now = self.design.figure.seat.get();
        let (step, most) = SEAT_STEP;
        let to = (now + step).min(most);
        let change = Change {
            key: "figure.seat",
            from: Some(now),
            to,
        };
        if to > now { vec![change] } else { Vec::new() }
    }

    pub(super) fn leg_line(&self, all: &mut Vec<Reading>) {
        let Some(leg) = self.worn.leg else { return };
        let up = ("up", "down");
        let mut rode = format!("at the side it rode {}", moved(leg.rode_side_mm, up));
        if let Some(mm) = leg.rode_groin_mm {
            rode += &format!(
                ", in the groin {}",
                moved(mm, ("towards the belly", "onto the thigh"))
            );
        }
        if let Some(mm) = leg.rode_seat_mm {
            rode += &format!(", over the seat {}", moved(mm, up));
        }
        if let Some(lies) = leg.towards_belly_mm {
            let is_on_thigh = lies < -ON_THIGH_MM;
            let is_meant = leg_share(self.design.leg).is_some_and(|share| share > LOW_LEG);
            let severity = if is_on_thigh && !is_meant {
                Severity::Watch
            } else {
                Severity::Good
            };
            let mut read = Read::new("worn.leg_line", severity, "leg, groin crease", lies);
            "leg, groin".clone_into(&mut read.place);
            let words = if is_on_thigh && is_meant {
                format!(
                    "the edge lies {:.0} mm out on the thigh, as a low leg does, and moves with it",
                    -lies
                )
            } else if is_on_thigh {
                format!(
                    "the edge lies {:.0} mm out on the thigh, below the groin crease: it moves with the leg and creeps into the crease",
                    -lies
                )
            } else if lies <= ON_THIGH_MM {
                "the edge lies along the groin crease".to_owned()
            } else {
                format!("the edge lies {lies:.0} mm above the groin crease, on the belly")
            };
            read.message = format!("{words}; {rode}");
            read.limit = limit(format!("{ON_THIGH_MM:.0} mm on the thigh"), "own");
            read.remedy = "cut the leg higher, or draw its front nearer to the crease after a toile";
            read.spot = leg.deepest.and_then(|v| self.spot(v, None));
            read.piece = read.spot.as_ref().map(|s| s.piece.clone());
            read.changes = self.leg_higher(-lies);
            read.is_told = true;
            all.push(read.into_reading());
        }
        let places = [
            ("side", Some(leg.rode_side_mm), up),
            (
                "groin",
                leg.rode_groin_mm,
                ("towards the belly", "onto the thigh"),
            ),
            ("seat", leg.rode_seat_mm, up),
        ];
        for (place, mm, words) in places {
            let Some(mm) = mm else { continue };
            let severity = if mm.abs() > RODE_MM {
                Severity::Watch
            } else {
                Severity::Good
            };
            let mut read = Read::new("worn.leg_rides", severity, &format!("leg, {place}"), mm);
            read.message = format!("the edge rode {} from where it is drafted", moved(mm, words));
            read.limit = limit(format!("{RODE_MM:.0} mm"), "own");
            (read.remedy, read.changes) = match place {
                "side" if mm < 0.0 => (
                    "cut the leg higher by that much, or its elastic shorter",
                    self.leg_higher(-mm),
                ),
                "side" => ("cut the leg lower by that much", self.leg_higher(-mm)),
                "seat" => (
                    "give the seat more width, or cut the elastic of the back leg shorter",
                    self.seat_fuller(),
                ),
                _ => (
                    "cut the elastic of the front leg flat, and see a toile",
                    Vec::new(),
                ),
            };
            if place == "side" {
                read.spot = self.spot(leg.side, None);
            }
            all.push(read.into_reading());
        }
    }

    pub(super) fn seat(&self, all: &mut Vec<Reading>) {
        let Some(seat) = self.worn.seat else { return };
        let by = seat.covered - seat.meant;
        let severity = if by < -UNCOVERED {
            Severity::Watch
        } else {
            Severity::Good
        };
        let mut read = Read::new("worn.seat", severity, "seat", by);
        let rode = self.worn.leg.and_then(|l| l.rode_seat_mm);
        let way = match rode {
            Some(mm) if mm.abs() >= 0.5 => {
                format!("; the edge there moved {}", moved(mm, ("up", "down")))
            }
            _ => String::new(),
        };
        read.message = format!(
            "covers {:.0} % of the seat from the hip to the fold; {:.0} % was meant{way}",
            percent(seat.covered),
            percent(seat.meant)
        );
        read.limit = limit(format!("{:.0} % less than meant", percent(UNCOVERED)), "own");
        read.remedy =
            "give the seat more width, or cut the elastic of the back leg shorter; a fuller seat covers more";
        read.changes = self.seat_fuller();
        read.is_told = true;
        all.push(read.into_reading());
    }
}
