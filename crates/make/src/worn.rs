//! An edge as it is worn: how far its elastic is stretched, how hard it pulls and presses.
//!
//! **Shapes and units.** Lengths mm, pull N, pressure kPa; stretches are ratios, worn / flat.
//! **Source.** p = T / (w R): Laplace for a band, as in the published band formula for pressure bandages. Limits:
//! `data/trade/pressure_model.toml`, table `findings`.
//! **Limits.** How far an edge is worn stretched is an estimate: the greater of girth / length and the worn stretch of the
//! nearest level. For a regular fit at 85 % stretch it gives 1.15 at the seat, where our worn solves gave 1.16 to 1.22. A
//! braided elastic narrows in wear and then presses harder than its resting width says. Necklines and armholes don't run
//! round the body at one radius, so no pressure is given for them.

use std::f64::consts::TAU;

use draft::{Draft, OpenEdge, OpenKind};
use units::{Finding, Level, Limit, Severity};

use crate::kind::ElasticChoice;
use crate::ratio::EdgeRule;

/// Above this an edge is to be looked at, kPa. `data/trade/pressure_model.toml`, own limit.
pub const EDGE_PRESSURE_WATCH_KPA: f64 = 2.0;
/// Above this an edge must not be cut, kPa, when the force was measured. `data/trade/pressure_model.toml`, own limit.
pub const EDGE_PRESSURE_STOP_KPA: f64 = 3.3;
/// Force at double length taken for an elastic that was not measured, N (own).
pub const ASSUMED_K_NEWTON: f64 = 5.0;
/// Width of the elastic that force is meant for, mm (own).
const ASSUMED_WIDTH_MM: f64 = 8.0;

const OWN_LIMIT: &str = "own, from published comfort pressures";

/// An edge as it is worn, with the elastic on it.
pub(crate) struct Worn {
    place: &'static str,
    /// Worn edge / flat edge.
    pub(crate) stretch: f64,
    /// Force of the elastic at double length, N.
    pub(crate) k_newton: f64,
    pub(crate) is_measured: bool,
    width_mm: f64,
    /// Radius the elastic runs round; `None` where the edge does not run round the body.
    radius_mm: Option<f64>,
}

impl Worn {
    pub(crate) fn of(draft: &Draft, edge: &OpenEdge, rule: EdgeRule, choice: &ElasticChoice) -> Worn {
        let level = match rule {
            EdgeRule::Leg => Level::Hip,
            EdgeRule::WaistAtHipBone => Level::HighHip,
            EdgeRule::WaistAtNaturalWaist | EdgeRule::WaistInCasing => Level::Waist,
            EdgeRule::Underbust => Level::Underbust,
            EdgeRule::Hem => Level::Thigh,
            EdgeRule::NecklineRound
            | EdgeRule::NecklineV
            | EdgeRule::Armhole
            | EdgeRule::ArmholesAndBack
            | EdgeRule::Strapless
            | EdgeRule::Wrist => Level::Bust,
        };
        let by_level = draft
            .levels
            .iter()
            .find(|l| l.level == level)
            .map_or(1.0, |l| 1.0 + l.meant);
        let runs_round = matches!(
            edge.kind,
            OpenKind::Leg
                | OpenKind::Waist
                | OpenKind::Underbust
                | OpenKind::Top
                | OpenKind::Hem
                | OpenKind::Wrist
        );
        let radius_mm = (runs_round && edge.worn_radius_mm > 0.0).then_some(edge.worn_radius_mm);
        let length = edge.length_mm();
        let by_girth = radius_mm
            // Only a ring goes all the way round.
            .filter(|_| edge.is_ring && length > 0.0)
            .map_or(1.0, |r| TAU * r / length);
        Worn {
            place: edge.kind.name(),
            stretch: by_level.max(by_girth),
            k_newton: choice.k_newton().unwrap_or(match rule {
                // A wide band pulls as many narrow ones side by side.
                EdgeRule::WaistInCasing => ASSUMED_K_NEWTON * choice.width().get() / ASSUMED_WIDTH_MM,
                _ => ASSUMED_K_NEWTON,
            }),
            is_measured: choice.k_newton().is_some(),
            width_mm: choice.width().get(),
            radius_mm,
        }
    }

    /// How far elastic cut at that ratio is stretched in wear, as a ratio.
    pub(crate) fn extension(&self, ratio: f64) -> f64 {
        self.stretch / ratio - 1.0
    }

    /// Its pull, N.
    pub(crate) fn pull(&self, ratio: f64) -> f64 {
        self.k_newton * self.extension(ratio).max(0.0)
    }

    /// The pull at which the edge presses with `kpa`, N: kPa mm mm = 1e-3 N.
    pub(crate) fn pull_at(&self, kpa: f64) -> Option<f64> {
        self.radius_mm.map(|r| kpa * self.width_mm * r * 1e-3)
    }

    /// What a pull presses with, kPa.
    fn pressure_kpa(&self, pull: f64) -> Option<f64> {
        self.pull_at(1.0).map(|newton| pull / newton)
    }

    /// Watch above the lower limit; stop above the upper one, but only on a measured force.
    pub(crate) fn pressure_finding(&self, pull: f64) -> Option<Finding> {
        let kpa = self.pressure_kpa(pull)?;
        if kpa <= EDGE_PRESSURE_WATCH_KPA {
            return None;
        }
        let is_stop = self.is_measured && kpa > EDGE_PRESSURE_STOP_KPA;
        let limit_kpa = if is_stop {
            EDGE_PRESSURE_STOP_KPA
        } else {
            EDGE_PRESSURE_WATCH_KPA
        };
        let (message, remedy) = if self.is_measured {
            (
                format!(
                    "The {} elastic would pull {pull:.1} N and press {kpa:.2} kPa.",
                    self.place
                ),
                "Take a softer or a wider elastic, and measure its pull again.".to_owned(),
            )
        } else {
            (
                format!(
                    "The {} elastic may press {kpa:.2} kPa; that takes {:.0} N at double length for an elastic that was \
                     not measured.",
                    self.place, self.k_newton
                ),
                "Hang weights on a single strand of the elastic until it is twice as long, and enter the force in newtons."
                    .to_owned(),
            )
        };
        Some(Finding {
            code: "elastic.pressure",
            severity: if is_stop { Severity::Stop } else { Severity::Watch },
            place: format!("{} elastic", self.place),
            message,
            value: Some(kpa),
            limit: Some(Limit {
                text: format!("{limit_kpa:.1} kPa"),
                source: OWN_LIMIT,
            }),
            remedy,
        })
    }
}
