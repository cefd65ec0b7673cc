//! Heights and half widths of the body's levels on the flat piece, and the side profile through them.
//!
//! **Source.** Shares of front and back: own, to be overwritten where front arcs were measured. Bust level on the side seam
//! lower than the bust point, whose height is a length over the bust: own, from a worn solve.
//! **Limits.** Levels that do not lie in order are refused.

use body::{BodyForm, Dimension};
use units::Level;

use super::{BlockShape, BustWork};
use crate::factors::{FRONT_LENGTH_SHARE, Factors};
use crate::geometry::Profile;
use crate::measures::Measures;
use crate::refusal::Refusal;
use crate::suit::TrunkLoop;
use crate::trunk::back_length;

/// The waist must pass the hips with this share of the cloth's stretch at most.
const WAY_IN_SHARE: f64 = 0.85;
/// How far the under-bust is drawn in from the straight line bust to waist towards its own girth on a front without a seam there:
/// fully would bell the side seam.
pub(crate) const UNDERBUST_WEIGHT: f64 = 0.35;
/// The underarm lies at least this far above the bust level on the side seam, mm.
const ABOVE_BUST: f64 = 12.0;

/// The underarm is at most this much wider than the bust, mm: more would wing out.
pub(crate) const MOST_FLARE: f64 = 8.0;

/// What sets the height of the bust level on the side seam.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum BustRule {
    /// The bust point.
    AtPoint,
    /// Three quarters of the side length, below the bust point.
    AtSideLength,
    /// The underarm, which it must stay below.
    UnderArm,
}

/// Levels on the flat piece, mm.
#[derive(Clone, Debug)]
pub(crate) struct Levels {
    pub(crate) underarm_y: f64,
    pub(crate) high_hip_y: f64,
    pub(crate) hip_y: f64,
    pub(crate) leg_y: f64,
    /// Bust point height on the fold.
    pub(crate) bust_point_y: f64,
    /// The same for the neckline's depth: of the side the centre follows.
    pub(crate) neck_bust_point_y: f64,
    /// Half the distance between the bust points, flat.
    pub(crate) bust_point_x: f64,
    /// Length of the front fold below the waist, flat.
    pub(crate) front_crotch: f64,
    pub(crate) back_crotch: f64,
    /// Side neck height, front and back.
    pub(crate) front_neck_y: f64,
    pub(crate) back_neck_y: f64,
    /// Nape height, flat.
    pub(crate) nape_y: f64,
    pub(crate) neck_base: f64,
    pub(crate) neck_half_width: f64,
    /// Shoulder length, flat.
    pub(crate) shoulder: f64,
    pub(crate) waist_widening: f64,
    /// Front neck depth and back depth per mm of body length.
    pub(crate) k_front: f64,
    pub(crate) k_fold: f64,
    pub(crate) k_side: f64,
    pub(crate) waist_to_hip: f64,
    /// How much shorter the back is at its centre for a sway back, mm flat.
    pub(crate) back_take_out: f64,
    /// How far the shoulder seam is moved to the front, mm flat: the front's side neck lies lower by it, the back's higher.
    pub(crate) shoulder_forward: f64,
    side: Widths,
}

/// Half widths by level, front then back, mm.
#[derive(Clone, Copy, Debug)]
struct Widths {
    bust: [f64; 2],
    waist: [f64; 2],
    high_hip: [f64; 2],
    hip: [f64; 2],
    underbust_target: Option<[f64; 2]>,
    /// Height of the bust level on the side seam before the underarm limits it.
    bust_level: f64,
    /// Under-bust height as a share of the bust level's.
    underbust_share: f64,
    underbust_weight: f64,
}

/// Half widths of waist, high hip and hip on the flat piece, front then back, mm.
#[derive(Clone, Copy, Debug)]
pub(crate) struct HipWidths {
    pub(crate) waist: [f64; 2],
    pub(crate) high_hip: [f64; 2],
    pub(crate) hip: [f64; 2],
    /// Factor on the waist so that it passes the hips, in `waist` already; 1 when it does anyway.
    pub(crate) waist_widening: f64,
}

impl HipWidths {
    pub(crate) fn of(m: &Measures, k: &Factors, has_way_in_rule: bool) -> HipWidths {
        HipWidths::passing(m, k, has_way_in_rule.then_some(m.hip))
    }

    /// The same with the waist wide enough to pass a girth, mm on the body.
    fn passing(m: &Measures, k: &Factors, girth: Option<f64>) -> HipWidths {
        let waist_pattern = m.waist * k.x(Level::Waist);
        let waist_widening = girth.map_or(1.0, |girth| {
            (girth / (1.0 + WAY_IN_SHARE * k.stretch_around()) * k.shrink_around / waist_pattern).max(1.0)
        });
        let shares = front_shares(m);
        // Girth moved between front and back for a figure, each half piece its half: no girth changes.
        let (seat, abdomen) = (m.figure.seat.get() / 2.0, m.figure.abdomen.get() / 2.0);
        let to_back = |widths: [f64; 2], mm: f64, level: Level| {
            let flat = mm * k.x(level);
            [widths[0] - flat, widths[1] + flat]
        };
        let waist = quarter(k, m.waist, Level::Waist, shares[1]).map(|w| w * waist_widening);
        let high_hip = quarter(k, m.high_hip, Level::HighHip, shares[2]);
        let hip = quarter(k, m.hip, Level::Hip, shares[3]);
        HipWidths {
            waist: to_back(waist, -0.5 * abdomen, Level::Waist),
            high_hip: to_back(high_hip, 0.5 * seat - abdomen, Level::HighHip),
            hip: to_back(hip, seat - 0.5 * abdomen, Level::Hip),
            waist_widening,
        }
    }
}

/// Half widths of front and back at a level.
fn quarter(k: &Factors, girth: f64, level: Level, share: f64) -> [f64; 2] {
    let half = girth / 2.0 * k.x(level);
    [half * share, half * (1.0 - share)]
}

/// Share of half a girth that lies on the front: bust, waist, high hip, hip.
fn front_shares(m: &Measures) -> [f64; 4] {
    match m.form {
        BodyForm::Woman => [
            0.5 + (0.13 * m.cup_difference() / m.bust).min(0.04),
            0.505,
            0.497,
            0.486,
        ],
        BodyForm::Man => [0.505, 0.51, 0.50, 0.49],
        BodyForm::Child => [0.50, 0.505, 0.50, 0.49],
    }
}

impl Levels {
    pub(crate) fn of(
        m: &Measures,
        k: &Factors,
        t: &TrunkLoop,
        shape: &BlockShape,
    ) -> Result<Levels, Refusal> {
        let k_side = k.y(1.0);
        let k_fold = k_side * t.q;
        let k_front = if m.is_woman() {
            k.y(FRONT_LENGTH_SHARE) * t.q
        } else {
            k_fold
        };
        let front_waist = t.front_waist_mm;
        // A bust point that was itself estimated follows a front that was solved.
        let to_neck = if m.front_taken.is_none() && !m.is_bust_point_taken {
            0.6 * front_waist
        } else {
            m.centre.side_neck_to_bust_point
        } - m.figure.bust_height.get();
        let to_bust_point = if m.front_taken.is_none() && !m.is_bust_point_taken {
            0.6 * front_waist
        } else {
            m.side_neck_to_bust_point
        } - m.figure.bust_height.get();
        let bust_point_y = (front_waist - to_bust_point) * k_front;
        let underarm_y = (m.side_length - shape.drop) * k_side;
        let bust_level = if m.is_woman() {
            bust_point_y.min(0.75 * m.side_length * k_side)
        } else {
            bust_point_y
        };

        let passes = shape
            .has_way_in_rule
            .then_some(shape.waist_passes.unwrap_or(m.hip));
        let hips = HipWidths::passing(m, k, passes);
        let shares = front_shares(m);
        let side = Widths {
            bust: quarter(k, m.bust, Level::Bust, shares[0]),
            waist: hips.waist,
            high_hip: hips.high_hip,
            hip: hips.hip,
            underbust_target: m.underbust.map(|u| quarter(k, u, Level::Underbust, shares[1])),
            bust_level,
            underbust_share: if m.is_woman() { 0.63 } else { 0.52 },
            underbust_weight: shape.underbust_weight,
        };
        let crotch = m.crotch_length * k_fold;
        let to_back_crotch = (0.5 * m.figure.seat.get() - 0.25 * m.figure.abdomen.get()) * k_fold;
        let back_take_out = m.figure.sway_back.get() * k_fold;
        let levels = Levels {
            underarm_y,
            hip_y: -m.waist_to_hip * k_side,
            high_hip_y: -m.waist_to_hip * k_side / 2.0,
            leg_y: -shape.leg_share * m.waist_to_hip * k_side,
            bust_point_y,
            neck_bust_point_y: (front_waist - to_neck) * k_front,
            bust_point_x: m.bust_point_distance / 2.0 * k.x(Level::Bust),
            front_crotch: m.front_share * crotch - to_back_crotch,
            back_crotch: (1.0 - m.front_share) * crotch + to_back_crotch - 0.5 * back_take_out,
            front_neck_y: front_waist * k_front,
            back_neck_y: back_length(m) * k_fold - 0.5 * back_take_out,
            nape_y: m.back_waist * k_fold - 0.5 * back_take_out,
            neck_base: m.neck_base,
            neck_half_width: 0.19 * m.neck_base * k.x(Level::UpperChest),
            shoulder: m.shoulder * k.x(Level::UpperChest),
            waist_widening: hips.waist_widening,
            k_front,
            k_fold,
            k_side,
            waist_to_hip: m.waist_to_hip,
            back_take_out,
            shoulder_forward: m.figure.shoulder_forward.get() * k_fold,
            side,
        };
        levels.check(m, shape)?;
        Ok(levels)
    }

    fn check(&self, m: &Measures, shape: &BlockShape) -> Result<(), Refusal> {
        let refuse = |dimension, why| Err(Refusal::Dimensions { dimension, why });
        if self.bust_level(self.underarm_y) < 25.0 {
            return if m.is_woman() && self.bust_point_y < self.underarm_y {
                refuse(
                    Dimension::SideNeckToBustPoint,
                    "the bust point would lie less than 2.5 cm above the waist; take side neck to bust point and the front waist length again",
                )
            } else {
                refuse(
                    Dimension::SideLength,
                    "the underarm would lie less than 4 cm above the waist; take it again",
                )
            };
        }
        if self.hip_y > -40.0 {
            return refuse(
                Dimension::WaistToHip,
                "waist and hip are less than 4 cm apart; take it again",
            );
        }
        if self.front_neck_y < self.underarm_y + 40.0 {
            return refuse(
                Dimension::FrontWaistLength,
                "the side neck would lie less than 4 cm above the underarm; take it again",
            );
        }
        if self.back_neck_y < self.underarm_y + 40.0 {
            return refuse(
                Dimension::BackWaistLength,
                "the side neck would lie less than 4 cm above the underarm; take it again",
            );
        }
        if let BustWork::Ease(mm) = shape.bust
            && mm < 0.0
        {
            return refuse(
                Dimension::FrontWaistLength,
                "the front is shorter than the back by more than can be eased",
            );
        }
        Ok(())
    }

    /// Height of the bust level on the side seam for an underarm at that height.
    pub(crate) fn bust_level(&self, underarm_y: f64) -> f64 {
        self.side.bust_level.min(underarm_y - ABOVE_BUST)
    }

    /// Height of the under-bust on the side seam.
    pub(crate) fn underbust_height(&self) -> f64 {
        self.side.underbust_share * self.bust_level(self.underarm_y)
    }

    /// Height of the under-bust point of the side seam, if it has one.
    pub(crate) fn underbust_y(&self, is_front: bool) -> Option<f64> {
        let y_b = self.bust_level(self.underarm_y);
        self.underbust(is_front, y_b).map(|p| p.0)
    }

    /// Height and half width of the under-bust point for a bust level.
    fn underbust(&self, is_front: bool, bust_y: f64) -> Option<(f64, f64)> {
        let s = &self.side;
        let i = usize::from(!is_front);
        let target = s.underbust_target?[i];
        let straight = s.waist[i] + (s.bust[i] - s.waist[i]) * s.underbust_share;
        let x = straight + s.underbust_weight * (target.min(straight) - straight);
        ((x - straight).abs() >= 1.0).then_some((s.underbust_share * bust_y, x))
    }

    /// How much wider the underarm would be than the bust, mm, before it is held between nought and [`MOST_FLARE`].
    pub(crate) fn flare(&self, is_front: bool, underarm_y: f64) -> f64 {
        let i = usize::from(!is_front);
        let bust_y = self.bust_level(underarm_y);
        0.6 * (self.side.bust[i] - self.side.waist[i]) * (underarm_y - bust_y) / bust_y
    }

    /// Which rule set the bust level on the side seam for an underarm at that height.
    pub(crate) fn bust_rule(&self, underarm_y: f64, is_woman: bool) -> BustRule {
        if self.side.bust_level > underarm_y - ABOVE_BUST {
            BustRule::UnderArm
        } else if is_woman && self.side.bust_level < self.bust_point_y {
            BustRule::AtSideLength
        } else {
            BustRule::AtPoint
        }
    }

    /// The side profile of front or back up to an underarm at `underarm_y`.
    pub(crate) fn profile(&self, is_front: bool, underarm_y: f64) -> Profile {
        let i = usize::from(!is_front);
        let s = &self.side;
        let bust_y = self.bust_level(underarm_y);
        let spread = self.flare(is_front, underarm_y).clamp(0.0, MOST_FLARE);
        let mut nodes = vec![
            (self.hip_y, s.hip[i]),
            (self.high_hip_y, s.high_hip[i]),
            (0.0, s.waist[i]),
        ];
        nodes.extend(self.underbust(is_front, bust_y));
        nodes.push((bust_y, s.bust[i]));
        nodes.push((underarm_y, s.bust[i] + spread));
        Profile::new(nodes)
    }
}
