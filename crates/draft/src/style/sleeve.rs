//! A set-in sleeve: the armhole with a full shoulder that it is sewn into, and a cap as long as that armhole.
//!
//! The cap's half is two cubics from the underarm to its top; its height is solved so that front and back together are exactly the
//! armhole, because knit cloth is set in without ease. Both halves of the cap are alike: the shoulder notch sits off the top by half
//! the difference of the two armholes, which is also where the shoulder seam sits on the arm.
//!
//! **Shapes and units.** mm flat. Body: piece frame. Sleeve: its middle at x = 0, the underarm line at y = 0, y up.
//! **Source.** Construction and handle shares own; own check values in `data/draft`. No ease in a knit cap: common practice, no single
//! source.
//! **Limits.** A cap this high fits closely with the arm down; for reaching overhead make the sleeve fuller, which lowers it. The
//! side leaves the cap square, so that the armhole runs smooth over the sleeve seam; the recorded side leans in by 8 degrees there.

use body::Dimension;
use kurbo::{Point, Vec2};
use units::Level;

use super::{Job, cone_edge};
use crate::block::Levels;
use crate::factors::Factors;
use crate::geometry::{Curve, inward, root, unit};
use crate::measures::Measures;
use crate::refusal::Refusal;
use crate::trunk::SHOULDER_SLOPE_DEG;

/// The sleeve takes this share of the fit, so that an arm can bend (own).
const SLEEVE_SHARE: f64 = 0.40;
/// Wrist hem over its own reduced girth (own): a hand must pass.
const WRIST_EASE: f64 = 1.08;
/// Front pit of a neckline at the neck base, below the side neck, share of the neck base girth; the back's has 2 mm more.
const FRONT_PIT: f64 = 0.215;
const BACK_PIT: f64 = 0.055;
/// The shoulder of a sleeved top begins this far out from the side neck, mm flat.
const FROM_NECK: f64 = 4.0;
/// Nothing is drawn with a sleeve end narrower than this, mm once round.
const LEAST_END: f64 = 60.0;

/// Upper edges of one half of a sleeved top.
pub(super) struct SleevedTop {
    pub(super) armhole: Curve,
    /// From the arm to the neck.
    pub(super) shoulder: Curve,
    /// From the shoulder to the fold.
    pub(super) neck: Curve,
    /// Whether the armhole's narrowest place is held inside shoulder and underarm, the body being broader between the arms.
    pub(super) is_across_held: bool,
}

/// How far the neckline of a sleeved top lies outside the neck base, mm on the body.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct NeckRoom {
    /// Out along the shoulder.
    pub(super) out: f64,
    /// Down at the centre front.
    pub(super) front: f64,
    /// Down at the centre back.
    pub(super) back: f64,
}

/// Armhole, shoulder and neckline of one half.
///
/// # Errors
/// [`Refusal::Dimensions`] for a shoulder hardly above the underarm.
pub(super) fn sleeved_top(
    (m, k, levels): (&Measures, &Factors, &Levels),
    is_front: bool,
    (underarm, tangent): (Point, Vec2),
    room: NeckRoom,
) -> Result<SleevedTop, Refusal> {
    let slope = SHOULDER_SLOPE_DEG.to_radians();
    let down = Vec2::new(slope.cos(), -slope.sin());
    let perp = Vec2::new(-slope.sin(), -slope.cos());
    let (neck_y, across, pit, handle) = if is_front {
        (
            levels.front_neck_y,
            m.arm.across_front,
            FRONT_PIT * m.neck_base,
            0.55,
        )
    } else {
        (
            levels.back_neck_y,
            m.arm.across_back,
            BACK_PIT * m.neck_base + 2.0,
            0.30,
        )
    };
    let forward = if is_front {
        -levels.shoulder_forward
    } else {
        levels.shoulder_forward
    };
    let side_neck = Point::new(levels.neck_half_width + FROM_NECK, neck_y + forward);
    let tip = side_neck + down * (levels.shoulder - FROM_NECK);
    let h = tip.y - underarm.y;
    if h < 50.0 {
        return Err(Refusal::Dimensions {
            dimension: Dimension::SideLength,
            why: "the shoulder would lie less than 5 cm above the underarm; take side length and waist lengths again",
        });
    }
    let by_body = across / 2.0 * k.x(Level::UpperChest);
    let most = (tip.x - 3.0).min(underarm.x - 8.0);
    let narrowest = Point::new(by_body.min(most), underarm.y + 0.46 * h);
    let (below, above) = (narrowest.y - underarm.y, tip.y - narrowest.y);
    let armhole = Curve::cubic(
        underarm,
        underarm + inward(tangent) * (0.58 * (underarm.x - narrowest.x)),
        narrowest - Vec2::new(0.0, 0.66 * below),
        narrowest,
    )
    .then(&Curve::cubic(
        narrowest,
        narrowest + Vec2::new(0.0, 0.35 * above),
        tip + perp * (0.30 * above),
        tip,
    ));
    // The pit stays where it is when the shoulder seam moves, or the neckline leaves it further out.
    let down_mm = if is_front {
        room.front * levels.k_front
    } else {
        room.back * levels.k_fold
    };
    let low = Point::new(0.0, side_neck.y - (pit + forward) - down_mm);
    let corner = side_neck + down * (room.out * k.x(Level::UpperChest));
    let neck = Curve::cubic(
        corner,
        corner + perp * (handle * (corner.y - low.y)),
        low + Vec2::new(0.74 * corner.x, 0.0),
        low,
    );
    Ok(SleevedTop {
        armhole,
        shoulder: Curve::line(tip, corner),
        neck,
        is_across_held: by_body > most,
    })
}

/// How far down the arm a sleeve goes, as a share of its underarm seam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum SleeveReach {
    Wrist,
    Share(f64),
}

/// A sleeve's seam line.
pub(super) struct Sleeve {
    /// Once round at the underarm, flat.
    pub(super) biceps: f64,
    pub(super) cap_height: f64,
    /// Underarm to the top of the cap, the right half.
    pub(super) half_cap: Curve,
    /// Right seam, from the end up to the underarm.
    pub(super) side: Curve,
    /// Right half of the end, from the middle to the seam.
    pub(super) half_end: Curve,
}

impl Sleeve {
    /// A sleeve for an armhole of `armhole_mm`; `fullness` is its width over the arm's before the stretch is taken off.
    ///
    /// # Errors
    /// [`Refusal`] where no cap of any height is as long as the armhole, or the arm is shorter than its cap.
    pub(super) fn draw(
        job: &Job<'_>,
        armhole_mm: f64,
        fullness: f64,
        reach: SleeveReach,
    ) -> Result<Sleeve, Refusal> {
        let arm = &job.m.arm;
        let k = job.k.x_at_share(SLEEVE_SHARE);
        let half = 0.5 * fullness * arm.upper_girth * k;
        let want = 0.5 * armhole_mm;
        let height = root(|h| half_cap(half, h).length() - want, 0.12 * half, 2.5 * half).ok_or(Refusal::Dimensions {
            dimension: Dimension::UpperArmGirth,
            why: "no sleeve cap for this arm is as long as the armhole; take upper arm girth, side length and shoulder length again, or \
                  change the sleeve's fullness",
        })?;
        let long = arm.length * job.k.y(1.0) - height;
        if long < 60.0 {
            return Err(Refusal::Dimensions {
                dimension: Dimension::ArmLength,
                why: "the arm would be hardly longer than the cap of its sleeve; take it again",
            });
        }
        let end_half = 0.5 * arm.wrist_girth * k * WRIST_EASE;
        let (foot, underarm) = (Point::new(end_half, -long), Point::new(half, 0.0));
        let along = unit(underarm - foot);
        let whole = Curve::cubic(
            foot,
            foot + unit(along * 0.6 + Vec2::new(0.0, 0.4)) * (0.33 * long),
            underarm - Vec2::new(0.0, 0.33 * long),
            underarm,
        );
        let side = match reach {
            SleeveReach::Wrist => whole,
            SleeveReach::Share(share) => {
                let length = whole.length();
                whole.split_at(length * (1.0 - share)).1
            }
        };
        if 2.0 * side.start().x < LEAST_END {
            return Err(Refusal::Dimensions {
                dimension: Dimension::WristGirth,
                why: "the sleeve's end would be less than 6 cm round; take the wrist again",
            });
        }
        let half_end = cone_edge(side.start(), side.start_tangent(), 0.0).reversed();
        Ok(Sleeve {
            biceps: 2.0 * half,
            cap_height: height,
            half_cap: half_cap(half, height),
            side,
            half_end,
        })
    }

    /// The cap from the right underarm to the left, cut at the shoulder notch: front armhole first.
    pub(super) fn cap(&self, front_mm: f64) -> (Curve, Curve) {
        self.half_cap
            .clone()
            .then(&self.half_cap.mirrored())
            .split_at(front_mm)
    }
}

/// The right half of a cap, from the underarm to its top.
fn half_cap(half: f64, height: f64) -> Curve {
    let (from, top) = (Point::new(half, 0.0), Point::new(0.0, height));
    let chord = top - from;
    let along = unit(chord);
    // Outside of the cap is right of travel.
    let outside = Vec2::new(along.y, -along.x);
    let mid = from + chord * 0.52 + outside * (0.035 * chord.hypot());
    let through = unit(along + Vec2::new(0.0, 0.35));
    let (a, b) = ((mid - from).hypot(), (top - mid).hypot());
    Curve::cubic(
        from,
        from - Vec2::new(0.45 * a, 0.0),
        mid - through * (0.42 * a),
        mid,
    )
    .then(&Curve::cubic(
        mid,
        mid + through * (0.42 * b),
        top + Vec2::new(0.45 * b, 0.0),
        top,
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cap_grows_with_its_height() {
        // The solve needs it: a longer armhole must give a higher cap.
        let mut last = 0.0;
        for h in (20..300).step_by(10) {
            let length = half_cap(140.0, f64::from(h)).length();
            assert!(length > last, "at {h}: {length}");
            last = length;
        }
    }
}
