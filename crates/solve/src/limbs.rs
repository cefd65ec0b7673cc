//! Legs and arms led on beyond the form, as far as a suit goes down them.
//!
//! A thigh is led straight down from the form's edge, its rings shrunk evenly to the girth above the knee. An arm leaves its edge at a right
//! angle, bends down to 40 degrees from vertical within its first 60 mm and runs on straight, its rings turned with it and rounded, from the
//! edge's girth to the upper arm's, the elbow's and the wrist's. Thighs that nearly touch are moved apart: every level section is
//! shifted as a whole, so that no girth changes.
//!
//! **Shapes and units.** mm, the form's frame; arms by their distance from the form's edge along the axis.
//! **Source.** Own; girths from [`body::Limbs`], which says what is estimated.
//! **Limits.** Arms and legs are round and straight: no elbow, no calf. Arms hang 14 degrees further out than the form's own would.

use body::FittedForm;
use cloth::Layer;
use draft::{Draft, EdgeUse};

use crate::vector::{V3, add_scaled, dot, norm, sub};

/// The arm's axis below horizontal where it hangs, degrees.
const ARM_BELOW: f64 = 50.0;
/// Within this it has turned there, mm.
const BEND: f64 = 60.0;
/// Where the arm has its upper girth, mm from the edge.
const UPPER: f64 = 65.0;
/// Rings of a limb lie this far apart, mm.
const RING: f64 = 15.0;
/// What is led on beyond a suit's end, mm.
const BEYOND: f64 = 45.0;
/// Cloth is worn at most so much longer than it is cut, for how far a limb is led on.
const LONGER: f64 = 1.15;
/// Inner thighs are moved apart to this from the middle, mm, and by no more than the second.
const APART: (f64, f64) = (15.0, 40.0);
/// From where over the crotch to where below it they part, mm.
const PARTING: (f64, f64) = (5.0, 55.0);

/// How far a suit goes down the limbs.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LimbReach {
    /// Below the crotch, mm; `None` for a suit without legs.
    pub leg_mm: Option<f64>,
    /// Down the arm from the shoulder, mm; `None` for a suit without sleeves.
    pub arm_mm: Option<f64>,
}

impl LimbReach {
    /// What a draft's legs and sleeves need, with room.
    pub fn of(draft: &Draft) -> LimbReach {
        let shell = draft
            .pieces
            .iter()
            .filter(|p| p.cuts.iter().any(|c| c.layer == Layer::Shell));
        let mut reach = LimbReach::default();
        for piece in shell {
            if let Some(inseam) = piece
                .edges
                .iter()
                .find(|e| e.name == "inseam" && e.role == EdgeUse::Seam)
            {
                // The crotch may hang by some 25 mm.
                let own = inseam.curve.length() * LONGER + 25.0;
                reach.leg_mm = Some(reach.leg_mm.unwrap_or(0.0).max(own));
            }
            if piece.key == "sleeve" {
                let heights = piece.edges.iter().flat_map(|e| e.curve.flatten(1.0)).map(|p| p.y);
                let (low, high) = heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), y| {
                    (l.min(y), h.max(y))
                });
                reach.arm_mm = Some((high - low) * LONGER);
            }
        }
        reach
    }
}

/// The axis of the left arm, in the plane z = constant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct ArmAxis {
    root: V3,
    /// Angle below horizontal at the root, radians.
    from: f64,
    /// How far it is led on.
    pub(crate) length: f64,
}

impl ArmAxis {
    fn angle(&self, d: f64) -> f64 {
        self.from + (ARM_BELOW.to_radians() - self.from) * (d / BEND).clamp(0.0, 1.0)
    }

    /// Centre, direction down the arm, and the direction to its upper, outer side at a distance from the root.
    pub(crate) fn at(&self, d: f64) -> (V3, V3, V3) {
        let end = ARM_BELOW.to_radians();
        let curvature = (end - self.from) / BEND;
        let bent = d.clamp(0.0, BEND);
        let (x, y) = if curvature.abs() < 1e-6 {
            (bent * self.from.cos(), -bent * self.from.sin())
        } else {
            let a = self.angle(bent);
            (
                (a.sin() - self.from.sin()) / curvature,
                (a.cos() - self.from.cos()) / curvature,
            )
        };
        let (s, c) = self.angle(d).sin_cos();
        let along = [c, -s, 0.0];
        let centre = add_scaled(self.root, 1.0, [x, y, 0.0]);
        (add_scaled(centre, d - bent, along), along, [s, c, 0.0])
    }
}

/// The left arm: its axis and the edge it begins at, from the underarm to the shoulder, before and behind.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Arm {
    pub(crate) axis: ArmAxis,
    pub(crate) edge: [Vec<V3>; 2],
}

impl Arm {
    /// Reads the left arm's edge, a closed ring of vertices.
    pub(crate) fn of(ring: &[V3], underarm: V3, shoulder: V3, length: f64) -> Arm {
        let count = ring.len().max(1);
        let nearest = |to: V3| {
            (0..ring.len())
                .min_by(|a, b| norm(sub(ring[*a], to)).total_cmp(&norm(sub(ring[*b], to))))
                .unwrap_or(0)
        };
        let (low, high) = (nearest(underarm), nearest(shoulder));
        let walk = |step: usize| -> Vec<V3> {
            let mut line = vec![ring[low]];
            let mut here = low;
            while here != high && line.len() <= count {
                here = (here + step) % count;
                line.push(ring[here]);
            }
            line
        };
        let (a, b) = (walk(1), walk(count - 1));
        let depth = |l: &[V3]| l.iter().map(|p| p[2]).sum::<f64>() / l.len() as f64;
        Arm {
            axis: axis(ring, length),
            edge: if depth(&a) > depth(&b) { [a, b] } else { [b, a] },
        }
    }
}

fn centre_of(ring: &[V3]) -> V3 {
    let count = ring.len().max(1) as f64;
    [0, 1, 2].map(|i| ring.iter().map(|p| p[i]).sum::<f64>() / count)
}

fn girth(ring: &[V3]) -> f64 {
    (0..ring.len())
        .map(|i| norm(sub(ring[(i + 1) % ring.len()], ring[i])))
        .sum()
}

/// The axis that leaves a ring on the left at a right angle.
fn axis(ring: &[V3], length: f64) -> ArmAxis {
    let mut n = [0.0; 3];
    for i in 0..ring.len() {
        let (a, b) = (ring[i], ring[(i + 1) % ring.len()]);
        n[0] += (a[1] - b[1]) * (a[2] + b[2]);
        n[1] += (a[2] - b[2]) * (a[0] + b[0]);
    }
    if n[0] < 0.0 {
        n = n.map(|x| -x);
    }
    ArmAxis {
        root: centre_of(ring),
        from: (-n[1]).atan2(n[0]).clamp(0.0, ARM_BELOW.to_radians()),
        length,
    }
}

/// The rings an arm is led on by, nearest first, and the middle of its end.
pub(crate) fn arm_rings(ring: &[V3], form: &FittedForm, reach_mm: f64) -> (Vec<Vec<V3>>, V3) {
    let limbs = form.limbs();
    let side = if centre_of(ring)[0] < 0.0 { -1.0 } else { 1.0 };
    let own: Vec<V3> = ring.iter().map(|p| [p[0] * side, p[1], p[2]]).collect();
    let length = arm_length(form, reach_mm);
    let axis = axis(&own, length);
    let (root, along, up) = axis.at(0.0);
    let first = girth(&own);
    let elbow = limbs.elbow_from_shoulder.mm.max(UPPER + 40.0);
    let upper = limbs.upper_arm_girth.mm.min(first);
    let knots = [
        (0.0, first),
        (UPPER, upper),
        (elbow, limbs.elbow_girth.mm.min(upper)),
        (
            limbs.arm_length.mm.max(elbow + 20.0),
            limbs.wrist_girth.mm.min(upper),
        ),
    ];
    let steps = (length / RING).ceil().max(2.0) as usize;
    let rings = (1..=steps)
        .map(|i| {
            let d = length * i as f64 / steps as f64;
            let (centre, direction, up_here) = axis.at(d);
            let radius = at_knots(&knots, d) / std::f64::consts::TAU;
            let round = (d / UPPER).min(1.0);
            own.iter()
                .map(|p| {
                    let from = sub(*p, root);
                    let (a, b) = (dot(from, up), from[2]);
                    let off = dot(from, along) * (1.0 - (d / 30.0).min(1.0));
                    let own_radius = a.hypot(b).max(1e-9);
                    // The edge's own shape shrunk, turning into a circle.
                    let shrunk = own_radius * radius * std::f64::consts::TAU / first;
                    let share = (shrunk + round * (radius - shrunk)) / own_radius;
                    let q = add_scaled(add_scaled(centre, a * share, up_here), off, direction);
                    [q[0] * side, q[1], q[2] + b * share]
                })
                .collect()
        })
        .collect();
    let (end, ..) = axis.at(length);
    (rings, [end[0] * side, end[1], end[2]])
}

/// How far an arm is led on for a sleeve that reaches so far from the shoulder.
pub(crate) fn arm_length(form: &FittedForm, reach_mm: f64) -> f64 {
    (reach_mm + BEYOND).min(form.limbs().arm_length.mm + BEYOND)
}

/// The rings a thigh is led on by, nearest first, and the middle of its end.
pub(crate) fn leg_rings(ring: &[V3], form: &FittedForm, crotch_y: f64, reach_mm: f64) -> (Vec<Vec<V3>>, V3) {
    let limbs = form.limbs();
    let centre = centre_of(ring);
    let knee = crotch_y - limbs.knee_below_crotch.mm;
    let to_knee = (centre[1] - knee).max(60.0);
    let length = (centre[1] - (crotch_y - reach_mm - BEYOND)).max(60.0);
    let end = (limbs.lower_thigh_girth.mm / girth(ring)).min(1.0);
    let steps = (length / RING).ceil() as usize;
    let rings = (1..=steps)
        .map(|i| {
            let d = length * i as f64 / steps as f64;
            let share = 1.0 + (end - 1.0) * (d / to_knee).min(1.0);
            ring.iter()
                .map(|p| {
                    let from = sub(*p, centre);
                    let at = add_scaled(centre, share, from);
                    [at[0], at[1] - d, at[2]]
                })
                .collect()
        })
        .collect();
    (rings, [centre[0], centre[1] - length, centre[2]])
}

/// The vertices with the thighs moved apart where their inner sides are nearer to the middle than they need be.
pub(crate) fn legs_apart(vertices: &[V3], crotch_y: f64) -> Vec<V3> {
    let nearest = vertices
        .iter()
        .filter(|p| p[0] > 0.0 && p[1] < crotch_y - PARTING.1 && p[1] > crotch_y - 2.0 * PARTING.1)
        .map(|p| p[0])
        .fold(APART.0, f64::min);
    let by = (APART.0 - nearest).clamp(0.0, APART.1);
    vertices
        .iter()
        .map(|p| {
            let t = ((crotch_y + PARTING.0 - p[1]) / (PARTING.0 + PARTING.1)).clamp(0.0, 1.0);
            let shift = by * t * t * (3.0 - 2.0 * t);
            let side = if p[0].abs() < 1e-6 { 0.0 } else { p[0].signum() };
            [p[0] + side * shift, p[1], p[2]]
        })
        .collect()
}

/// Straight between knots, held beyond them.
fn at_knots(knots: &[(f64, f64)], d: f64) -> f64 {
    for w in knots.windows(2) {
        let ((a, from), (b, to)) = (w[0], w[1]);
        if d <= b {
            return from + (to - from) * ((d - a) / (b - a).max(1e-9)).clamp(0.0, 1.0);
        }
    }
    knots.last().map_or(0.0, |k| k.1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_arm_s_axis_is_as_long_as_it_says() {
        let ring: Vec<V3> = (0..24)
            .map(|i| {
                let (s, c) = (f64::from(i) * std::f64::consts::TAU / 24.0).sin_cos();
                [170.0 + 20.0 * c, 500.0 + 55.0 * c, 55.0 * s]
            })
            .collect();
        let axis = axis(&ring, 400.0);
        let mut walked = 0.0;
        for i in 0..400 {
            let (a, along, up) = axis.at(f64::from(i));
            let (b, ..) = axis.at(f64::from(i + 1));
            walked += norm(sub(b, a));
            assert!((dot(along, up)).abs() < 1e-12);
            // It goes where it says.
            assert!(dot(sub(b, a), along) > 0.999);
        }
        assert!((walked - 400.0).abs() < 0.1, "{walked}");
    }

    #[test]
    fn legs_move_apart_without_a_change_of_girth() {
        let ring = |x: f64, y: f64| -> Vec<V3> {
            (0..16)
                .map(|i| {
                    let (s, c) = (f64::from(i) * std::f64::consts::TAU / 16.0).sin_cos();
                    [x + 80.0 * c, y, 80.0 * s]
                })
                .collect()
        };
        let low = ring(84.0, -80.0);
        let moved = legs_apart(&low, 0.0);
        assert!((girth(&moved) - girth(&low)).abs() < 1e-9);
        let inner = moved.iter().map(|p| p[0]).fold(f64::INFINITY, f64::min);
        assert!((inner - APART.0).abs() < 1e-9, "{inner}");
        // What is over the crotch stays.
        let high = ring(84.0, 20.0);
        assert_eq!(legs_apart(&[high.clone(), low].concat(), 0.0)[..16], high[..]);
    }
}
