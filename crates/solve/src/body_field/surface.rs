//! The form's surface, closed and sampled: openings led on and capped, points with normals every few millimetres.
//!
//! **Shapes and units.** mm, the form's frame.

use std::collections::BTreeMap;

use body::FittedForm;

use super::{BEYOND_MIDDLE, ROOM, crotch_y};
use crate::limbs::{self, LimbReach};
use crate::parallel;
use crate::vector::{V3, add_scaled, cross, dot, norm, sub};

/// Distance between samples of the surface, mm.
const SAMPLE: f64 = 3.0;
const THIGH_LENGTH: f64 = 90.0;
const NECK_LENGTH: f64 = 60.0;
const ARM_LENGTH: f64 = 90.0;
/// Angle of the arms from vertical, degrees.
const ARM_ANGLE: f64 = 68.0;
/// Size of an arm's end against its root.
const ARM_TAPER: f64 = 0.88;
/// Faces sampled at a time.
const FACES: usize = 512;

/// A point on the skin with its normal outwards.
#[derive(Clone, Copy)]
pub(super) struct Skin {
    pub(super) at: V3,
    pub(super) normal: V3,
}

/// The surface with its openings led on and capped.
pub(super) fn closed(form: &FittedForm, reach: LimbReach) -> (Vec<V3>, Vec<[usize; 3]>) {
    let faces = form.faces();
    let mut points = match reach.leg_mm {
        Some(_) => limbs::legs_apart(form.vertices(), crotch_y(form)),
        None => form.vertices().to_vec(),
    };
    let mut all = faces.to_vec();
    for ring in open_loops(faces) {
        let count = ring.len() as f64;
        let centre = [0, 1, 2].map(|i| ring.iter().map(|v| points[*v][i]).sum::<f64>() / count);
        let top = points.iter().map(|p| p[1]).fold(f64::NEG_INFINITY, f64::max);
        let is_neck = centre[0].abs() < 20.0 && centre[1] > top / 2.0;
        let is_arm = !is_neck && centre[1] > 0.0;
        let edge: Vec<V3> = ring.iter().map(|v| points[*v]).collect();
        let led = match (is_neck, is_arm, reach) {
            (false, true, LimbReach { arm_mm: Some(mm), .. }) => Some(limbs::arm_rings(&edge, form, mm)),
            (false, false, LimbReach { leg_mm: Some(mm), .. }) => {
                Some(limbs::leg_rings(&edge, form, crotch_y(form), mm))
            }
            _ => None,
        };
        if let Some((rings, end)) = led {
            let mut last = ring;
            for led in rings {
                let next: Vec<usize> = (points.len()..points.len() + led.len()).collect();
                points.extend(led);
                join(&mut all, &last, &next);
                last = next;
            }
            points.push(end);
            cap(&mut all, &last, points.len() - 1);
            continue;
        }
        let (direction, length, taper) = if is_neck {
            ([0.0, 1.0, 0.0], NECK_LENGTH, 1.0)
        } else if is_arm {
            let (s, c) = ARM_ANGLE.to_radians().sin_cos();
            ([s * centre[0].signum(), -c, 0.0], ARM_LENGTH, ARM_TAPER)
        } else {
            ([0.0, -1.0, 0.0], THIGH_LENGTH, 1.0)
        };
        const STEPS: usize = 6;
        let mut last = ring;
        for step in 1..=STEPS {
            let share = step as f64 / STEPS as f64;
            let size = 1.0 + (taper - 1.0) * share;
            let first = points.len();
            for v in &last {
                // Each ring from the one before: its points about their own centre, shrunk a little, moved on.
                let before = 1.0 + (taper - 1.0) * (step as f64 - 1.0) / STEPS as f64;
                let middle = add_scaled(centre, length * (share - 1.0 / STEPS as f64), direction);
                let from = sub(points[*v], middle);
                let to = add_scaled(middle, length / STEPS as f64, direction);
                points.push(add_scaled(to, size / before, from));
            }
            let next: Vec<usize> = (first..points.len()).collect();
            join(&mut all, &last, &next);
            last = next;
        }
        points.push(add_scaled(centre, length, direction));
        cap(&mut all, &last, points.len() - 1);
    }
    (points, all)
}

/// The left arm's edge, a closed ring.
pub(super) fn left_arm_edge(form: &FittedForm) -> Vec<V3> {
    let low = crotch_y(form);
    let rings = open_loops(form.faces());
    let mut rings = rings.iter().map(|ring| -> Vec<V3> {
        let points = ring.iter().filter_map(|v| form.vertices().get(*v).copied());
        points.collect()
    });
    // The neck lies on the middle, the thighs below the crotch.
    rings
        .find(|r| !r.is_empty() && r.iter().all(|p| p[0] > 20.0 && p[1] > low))
        .unwrap_or_default()
}

/// A band of triangles between two rings.
fn join(all: &mut Vec<[usize; 3]>, ring: &[usize], next: &[usize]) {
    for i in 0..ring.len() {
        let j = (i + 1) % ring.len();
        all.push([ring[i], ring[j], next[j]]);
        all.push([ring[i], next[j], next[i]]);
    }
}

fn cap(all: &mut Vec<[usize; 3]>, ring: &[usize], middle: usize) {
    for i in 0..ring.len() {
        all.push([ring[i], ring[(i + 1) % ring.len()], middle]);
    }
}

/// The edges with one face, as rings that run so that a face added as (a, b, ..) is counter-clockwise from outside.
fn open_loops(faces: &[[usize; 3]]) -> Vec<Vec<usize>> {
    let mut sides: BTreeMap<(usize, usize), ()> = BTreeMap::new();
    for f in faces {
        for (i, j) in [(0, 1), (1, 2), (2, 0)] {
            sides.insert((f[i], f[j]), ());
        }
    }
    // A side without its opposite is open; the new face runs along the opposite.
    let mut next: BTreeMap<usize, usize> = sides
        .keys()
        .filter(|(a, b)| !sides.contains_key(&(*b, *a)))
        .map(|(a, b)| (*b, *a))
        .collect();
    let mut rings = Vec::new();
    while let Some((&start, _)) = next.iter().next() {
        let mut ring = Vec::new();
        let mut here = start;
        while let Some(to) = next.remove(&here) {
            ring.push(here);
            here = to;
        }
        rings.push(ring);
    }
    rings
}

/// Points of the curved surface, closely spaced.
pub(super) fn samples(vertices: &[V3], faces: &[[usize; 3]]) -> Vec<Skin> {
    let mut normals = vec![[0.0; 3]; vertices.len()];
    for f in faces {
        let [a, b, c] = f.map(|v| vertices[v]);
        // Weighted by the angle at each corner, so that the triangulation doesn't show.
        let n = cross(sub(b, a), sub(c, a));
        let n = n.map(|x| x / norm(n).max(f64::MIN_POSITIVE));
        for (v, (p, q, r)) in f.iter().zip([(a, b, c), (b, c, a), (c, a, b)]) {
            let (u, w) = (sub(q, p), sub(r, p));
            let angle = norm(cross(u, w)).atan2(dot(u, w));
            normals[*v] = add_scaled(normals[*v], angle, n);
        }
    }
    for n in &mut normals {
        *n = n.map(|x| x / norm(*n).max(f64::MIN_POSITIVE));
    }
    let sampled = parallel::runs(faces, FACES, |_, faces| {
        let mut skin = Vec::new();
        for f in faces {
            sample_face(f.map(|v| vertices[v]), f.map(|v| normals[v]), &mut skin);
        }
        skin
    });
    sampled.concat()
}

fn sample_face(p: [V3; 3], n: [V3; 3], skin: &mut Vec<Skin>) {
    if p.iter().all(|p| p[0] < -BEYOND_MIDDLE - ROOM) {
        return;
    }
    let longest = (0..3)
        .map(|i| norm(sub(p[(i + 1) % 3], p[i])))
        .fold(0.0, f64::max);
    let parts = (longest / SAMPLE).ceil().max(1.0) as usize;
    for i in 0..=parts {
        for j in 0..=parts - i {
            let w = [
                i as f64 / parts as f64,
                j as f64 / parts as f64,
                (parts - i - j) as f64 / parts as f64,
            ];
            let flat = [0, 1, 2].map(|k| w[0] * p[0][k] + w[1] * p[1][k] + w[2] * p[2][k]);
            // Phong's tessellation: the mean of the point's projections onto the corners' tangent planes, three quarters of it.
            let mut curved = [0.0; 3];
            for c in 0..3 {
                let off = dot(sub(flat, p[c]), n[c]);
                curved = add_scaled(curved, w[c], add_scaled(flat, -off, n[c]));
            }
            let at = [0, 1, 2].map(|k| 0.25 * flat[k] + 0.75 * curved[k]);
            let normal = [0, 1, 2].map(|k| w[0] * n[0][k] + w[1] * n[1][k] + w[2] * n[2][k]);
            let length = norm(normal).max(f64::MIN_POSITIVE);
            skin.push(Skin {
                at,
                normal: normal.map(|x| x / length),
            });
        }
    }
}
