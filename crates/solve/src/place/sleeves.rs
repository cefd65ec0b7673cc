//! Sleeves: round the arm by share of their width, along its axis by their height; caps up to the arm's edge.
//!
//! **Shapes and units.** mm, the form's frame; the left arm.

use draft::Draft;

use super::sections::along;
use crate::body_field::BodyField;
use crate::limbs::Arm;
use crate::vector::{V3, add_scaled, sub};

/// The underarm line of a sleeve starts this far down the arm, mm.
const UNDERARM: f64 = 22.0;
/// Cloth on the arm starts this much longer than it is cut.
const LONGER: f64 = 1.02;
/// Longest ray from the axis.
const FAR: f64 = 160.0;

/// What placing sleeves goes by.
pub(super) struct Sleeves<'a> {
    body: &'a BodyField,
    arm: &'a Arm,
    /// Half the sleeve's width by height: (y, x), rising.
    half: Vec<(f64, f64)>,
    /// Front and back armholes' shares of the cap: the front's length over both.
    front_share: f64,
    /// The cap's outline from the right underarm over the top to the left: (x, y).
    cap: Vec<(f64, f64)>,
    cap_mm: Vec<f64>,
}

impl<'a> Sleeves<'a> {
    pub(super) fn new(draft: &Draft, body: &'a BodyField) -> Option<Sleeves<'a>> {
        let arm = body.form.arm.as_ref()?;
        let piece = draft.pieces.iter().find(|p| p.key == "sleeve")?;
        let side = &piece.edge("side_front")?.curve;
        let mut half: Vec<(f64, f64)> = side.flatten(0.5).iter().map(|p| (p.y, p.x)).collect();
        half.sort_by(|a, b| a.0.total_cmp(&b.0));
        let (front, back) = (&piece.edge("cap_front")?.curve, &piece.edge("cap_back")?.curve);
        let mut cap: Vec<(f64, f64)> = Vec::new();
        let mut cap_mm = Vec::new();
        let (f, b) = (front.length(), back.length());
        for i in 0..=40 {
            let p = front.at_length(f * f64::from(i) / 40.0).0;
            cap.push((p.x, p.y));
            cap_mm.push(f * f64::from(i) / 40.0);
        }
        for i in 1..=40 {
            let p = back.at_length(b * f64::from(i) / 40.0).0;
            cap.push((p.x, p.y));
            cap_mm.push(f + b * f64::from(i) / 40.0);
        }
        Some(Sleeves {
            body,
            arm,
            half,
            front_share: f / (f + b),
            cap,
            cap_mm,
        })
    }

    /// A point of the armhole: front or back, at a share of its length from the underarm.
    pub(super) fn armhole(&self, is_front: bool, share: f64) -> V3 {
        along(&self.arm.edge[usize::from(!is_front)], share)
    }

    /// The place of a flat point of the sleeve.
    pub(super) fn put(&self, [x, y]: [f64; 2]) -> V3 {
        if y <= 0.0 {
            let half = width(&self.half, y).max(1.0);
            return self.on_arm(UNDERARM - y * LONGER, (x / half).clamp(-1.0, 1.0));
        }
        // Under the cap: the cap's point over it, and how far up to it.
        let (top, share) = self.cap_over(x);
        let half = self.half.last().map_or(1.0, |p| p.1).max(1.0);
        let low = self.on_arm(UNDERARM, (x / half).clamp(-1.0, 1.0));
        let is_front = share < self.front_share;
        let high = if is_front {
            self.armhole(true, share / self.front_share)
        } else {
            self.armhole(false, (1.0 - share) / (1.0 - self.front_share).max(1e-9))
        };
        add_scaled(low, (y / top.max(1.0)).clamp(0.0, 1.0), sub(high, low))
    }

    /// Height of the cap over x, and its share of the cap's length there.
    fn cap_over(&self, x: f64) -> (f64, f64) {
        let whole = self.cap_mm.last().copied().unwrap_or(1.0);
        // x falls along the cap.
        let i = self.cap.partition_point(|p| p.0 > x).clamp(1, self.cap.len() - 1);
        let (a, b) = (self.cap[i - 1], self.cap[i]);
        let t = ((a.0 - x) / (a.0 - b.0).max(1e-9)).clamp(0.0, 1.0);
        (
            a.1 + t * (b.1 - a.1),
            (self.cap_mm[i - 1] + t * (self.cap_mm[i] - self.cap_mm[i - 1])) / whole,
        )
    }

    /// The arm's skin at a distance down its axis; `round` is 0 above and outside, 1 at the underarm round the front, -1 round the back.
    fn on_arm(&self, d: f64, round: f64) -> V3 {
        let (centre, _, up) = self.arm.axis.at(d.min(self.arm.axis.length));
        let (s, c) = (round * std::f64::consts::PI).sin_cos();
        let direction = add_scaled([0.0, 0.0, s], c, up);
        let t = self.body.exit(centre, direction, FAR).unwrap_or(45.0);
        add_scaled(centre, t, direction)
    }
}

fn width(half: &[(f64, f64)], y: f64) -> f64 {
    let i = half.partition_point(|p| p.0 < y);
    match (i.checked_sub(1).and_then(|j| half.get(j)), half.get(i)) {
        (Some(a), Some(b)) if b.0 > a.0 => a.1 + (y - a.0) / (b.0 - a.0) * (b.1 - a.1),
        (Some(p), _) | (None, Some(p)) => p.1,
        (None, None) => 1.0,
    }
}
