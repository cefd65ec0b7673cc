//! The wearer's form as a smooth field: closed where it is open, legs apart, signed distance on a grid, cubic splines between.
//!
//! The form is an open surface. Thighs are led 90 mm straight down, the neck 60 mm up, the arms along an axis 68 degrees from
//! vertical, tapering; all are capped. Its curved triangles (normals blended over each) are sampled every few millimetres; every node
//! of a 5 mm grid finds its nearest sample, by handing samples on to neighbours. Near the skin the distance is that to the
//! sample's tangent plane; the sign further off comes from flooding the outside, never from normals, which mislead in the crease of the
//! armpit. Then the legs are moved apart by a slot under the crotch (a form's thighs nearly touch and would crush the
//! crotch seam), the grid is smoothed by about one cell and read as a tri-cubic B-spline.
//!
//! **Shapes and units.** mm, the form's frame. Only x from a little below 0 up: the form is symmetric, a solved suit is its left half.
//! **Source.** Own; slot, extensions and smoothing from own trials on fitted forms.
//! **Limits.** Skin lies within about half a millimetre of the form's but for the slot's edge, which shaves the inner seat fold: no pressure
//! should be quoted there. Rigid.

#![allow(
    clippy::needless_range_loop,
    reason = "sums over a grid name their entries by place"
)]

use std::collections::BTreeMap;

use body::FittedForm;
use units::Level;

use crate::field::{Field, Sample};
use crate::vector::{V3, add_scaled, cross, dot, norm, sub};

/// Grid step, mm.
const CELL: f64 = 5.0;
/// Distance between samples of the surface, mm.
const SAMPLE: f64 = 3.0;
/// How far left of the middle the grid reaches.
const BEYOND_MIDDLE: f64 = 20.0;
/// Room around the form.
const ROOM: f64 = 45.0;
/// Beyond this from the skin the sign is the flood's, mm.
const BAND: f64 = 5.0;
/// Half width of the slot between the legs, mm.
const SLOT: f64 = 38.0;
/// How far above the crotch the slot's roof is followed.
const SLOT_ROOF: f64 = 75.0;
/// Standard deviation of the smoothing, in cells; the spline itself adds about 0.6.
const SMOOTHING: f64 = 0.8;
const THIGH_LENGTH: f64 = 90.0;
const NECK_LENGTH: f64 = 60.0;
const ARM_LENGTH: f64 = 90.0;
/// Angle of the arms from vertical, degrees.
const ARM_ANGLE: f64 = 68.0;
/// Size of an arm's end against its root.
const ARM_TAPER: f64 = 0.88;

/// The field of a form.
#[derive(Clone, Debug, PartialEq)]
pub struct BodyField {
    origin: V3,
    size: [usize; 3],
    values: Vec<f32>,
    /// Heights of levels, mm over the crotch, and named points; what placing needs.
    pub(crate) form: FormPoints,
}

/// What placing a suit needs to know of the form.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct FormPoints {
    pub(crate) crotch_y: f64,
    pub(crate) underarm_y: f64,
    pub(crate) side_neck: V3,
    pub(crate) shoulder: V3,
    pub(crate) levels: Vec<(Level, f64)>,
    /// The midline, from the front of the neck down, through the crotch and up the back.
    pub(crate) midline: Vec<V3>,
}

/// A point on the skin with its normal outwards.
#[derive(Clone, Copy)]
struct Skin {
    at: V3,
    normal: V3,
}

impl BodyField {
    /// The field of a fitted form. About a second of work; the same form gives the same bytes.
    pub fn of_form(form: &FittedForm) -> BodyField {
        let (vertices, faces) = closed(form.vertices(), form.faces());
        let skin = samples(&vertices, &faces);
        let (mut low, mut high) = ([f64::INFINITY; 3], [f64::NEG_INFINITY; 3]);
        for s in &skin {
            for i in 0..3 {
                low[i] = low[i].min(s.at[i] - ROOM);
                high[i] = high[i].max(s.at[i] + ROOM);
            }
        }
        low[0] = -BEYOND_MIDDLE;
        let size = [0, 1, 2].map(|i| ((high[i] - low[i]) / CELL).ceil() as usize + 1);
        let mut grid = Grid {
            origin: low,
            size,
            nearest: vec![NONE; size[0] * size[1] * size[2]],
        };
        grid.seed(&skin);
        grid.hand_on(&skin);
        let mut values = grid.signed(&skin);
        let points = form_points(form);
        slot(&mut values, &grid, &points);
        smooth(&mut values, size);
        BodyField {
            origin: low,
            size,
            values: values.iter().map(|v| *v as f32).collect(),
            form: points,
        }
    }

    /// First way out along a ray from a point inside, mm along it; `None` if it stays inside for `most_mm` or starts outside.
    pub(crate) fn exit(&self, from: V3, direction: V3, most_mm: f64) -> Option<f64> {
        let at = |t: f64| self.value(add_scaled(from, t, direction));
        if at(0.0) >= 0.0 {
            return None;
        }
        let step = 4.0;
        let mut low = 0.0;
        while low < most_mm {
            if at(low + step) >= 0.0 {
                let mut high = low + step;
                for _ in 0..20 {
                    let middle = (low + high) / 2.0;
                    if at(middle) < 0.0 {
                        low = middle;
                    } else {
                        high = middle;
                    }
                }
                return Some((low + high) / 2.0);
            }
            low += step;
        }
        None
    }
}

/// Weights of a uniform cubic B-spline at a share of a cell, with first and second derivatives by the share.
fn spline(t: f64) -> [[f64; 4]; 3] {
    let u = 1.0 - t;
    [
        [
            u * u * u / 6.0,
            (3.0 * t * t * t - 6.0 * t * t + 4.0) / 6.0,
            (3.0 * u * u * u - 6.0 * u * u + 4.0) / 6.0,
            t * t * t / 6.0,
        ],
        [
            -u * u / 2.0,
            (3.0 * t * t - 4.0 * t) / 2.0,
            (-3.0 * u * u + 4.0 * u) / 2.0,
            t * t / 2.0,
        ],
        [u, 3.0 * t - 2.0, 3.0 * u - 2.0, t],
    ]
}

impl BodyField {
    /// The cell a point lies in, held to the grid, and its share of the cell per direction.
    fn cell(&self, at: V3) -> ([usize; 3], V3) {
        let mut cell = [0; 3];
        let mut share = [0.0; 3];
        for i in 0..3 {
            let q = ((at[i] - self.origin[i]) / CELL).clamp(1.0, self.size[i] as f64 - 3.000_001);
            cell[i] = q as usize - 1;
            share[i] = q - q.floor();
        }
        (cell, share)
    }

    fn node(&self, cell: [usize; 3], i: usize, j: usize) -> &[f32] {
        let start = ((cell[2] + j) * self.size[1] + cell[1] + i) * self.size[0] + cell[0];
        self.values.get(start..start + 4).unwrap_or(&[0.0; 4])
    }
}

impl Field for BodyField {
    fn sample(&self, at: [f64; 3]) -> Sample {
        let (cell, share) = self.cell(at);
        let [wx, wy, wz] = share.map(spline);
        let mut g = 0.0;
        let mut d = [0.0; 3];
        // xx, yy, zz, xy, xz, yz
        let mut h = [0.0; 6];
        for j in 0..4 {
            for i in 0..4 {
                let node = self.node(cell, i, j);
                let mut row = [0.0; 3];
                for (k, v) in node.iter().enumerate() {
                    for (order, r) in row.iter_mut().enumerate() {
                        *r += wx[order][k] * f64::from(*v);
                    }
                }
                let (y0, y1, y2) = (wy[0][i], wy[1][i], wy[2][i]);
                let (z0, z1, z2) = (wz[0][j], wz[1][j], wz[2][j]);
                g += row[0] * y0 * z0;
                d[0] += row[1] * y0 * z0;
                d[1] += row[0] * y1 * z0;
                d[2] += row[0] * y0 * z1;
                h[0] += row[2] * y0 * z0;
                h[1] += row[0] * y2 * z0;
                h[2] += row[0] * y0 * z2;
                h[3] += row[1] * y1 * z0;
                h[4] += row[1] * y0 * z1;
                h[5] += row[0] * y1 * z1;
            }
        }
        let h = h.map(|x| x / (CELL * CELL));
        Sample {
            g,
            gradient: d.map(|x| x / CELL),
            hessian: [[h[0], h[3], h[4]], [h[3], h[1], h[5]], [h[4], h[5], h[2]]],
        }
    }

    fn value(&self, at: [f64; 3]) -> f64 {
        let (cell, share) = self.cell(at);
        let [wx, wy, wz] = share.map(|t| spline(t)[0]);
        let mut g = 0.0;
        for (j, z) in wz.iter().enumerate() {
            for (i, y) in wy.iter().enumerate() {
                let node = self.node(cell, i, j);
                let row: f64 = node.iter().zip(wx).map(|(v, w)| f64::from(*v) * w).sum();
                g += row * y * z;
            }
        }
        g
    }
}

fn form_points(form: &FittedForm) -> FormPoints {
    let marks = form.landmarks();
    let mark = |name: &str| marks.iter().find(|m| m.name == name).map_or([0.0; 3], |m| m.at);
    // The middle of the surface, cut from the vertices that lie on it: front and back chains meet at the crotch.
    let mut middle: Vec<V3> = middle_line(form);
    if middle.first().is_some_and(|p| p[2] < 0.0) {
        middle.reverse();
    }
    FormPoints {
        crotch_y: mark("crotch")[1],
        underarm_y: mark("underarm")[1],
        side_neck: mark("side_neck"),
        shoulder: mark("shoulder"),
        levels: form.levels(),
        midline: middle,
    }
}

/// The section x = 0 of the form from one end at the neck, through the crotch, to the other.
fn middle_line(form: &FittedForm) -> Vec<V3> {
    let vertices = form.vertices();
    // The surface is symmetric, with vertices on the plane: shift the cut by a hair so that it crosses edges only.
    let x = 1e-3;
    let mut ends: BTreeMap<[usize; 2], V3> = BTreeMap::new();
    let mut links: BTreeMap<[usize; 2], Vec<[usize; 2]>> = BTreeMap::new();
    for face in form.faces() {
        let mut met = Vec::with_capacity(2);
        for (a, b) in [(0, 1), (1, 2), (2, 0)] {
            let (a, b) = (face[a].min(face[b]), face[a].max(face[b]));
            let (p, q) = (vertices[a], vertices[b]);
            if (p[0] < x) != (q[0] < x) {
                let t = (x - p[0]) / (q[0] - p[0]);
                ends.insert([a, b], [0.0, p[1] + t * (q[1] - p[1]), p[2] + t * (q[2] - p[2])]);
                met.push([a, b]);
            }
        }
        if let [a, b] = met[..] {
            links.entry(a).or_default().push(b);
            links.entry(b).or_default().push(a);
        }
    }
    let Some(start) = links.iter().filter(|(_, l)| l.len() == 1).map(|(k, _)| *k).next() else {
        return Vec::new();
    };
    let mut line = Vec::new();
    let (mut before, mut here) = (None, start);
    loop {
        line.extend(ends.get(&here));
        let next = links
            .get(&here)
            .into_iter()
            .flatten()
            .find(|n| Some(**n) != before);
        match next {
            Some(n) if line.len() <= links.len() => (before, here) = (Some(here), *n),
            _ => return line,
        }
    }
}

/// The surface with its openings led on and capped.
fn closed(vertices: &[V3], faces: &[[usize; 3]]) -> (Vec<V3>, Vec<[usize; 3]>) {
    let mut points = vertices.to_vec();
    let mut all = faces.to_vec();
    for ring in open_loops(faces) {
        let count = ring.len() as f64;
        let centre = [0, 1, 2].map(|i| ring.iter().map(|v| points[*v][i]).sum::<f64>() / count);
        let top = points.iter().map(|p| p[1]).fold(f64::NEG_INFINITY, f64::max);
        let (direction, length, taper) = if centre[0].abs() < 20.0 && centre[1] > top / 2.0 {
            ([0.0, 1.0, 0.0], NECK_LENGTH, 1.0)
        } else if centre[1] > 0.0 {
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
            for i in 0..last.len() {
                let j = (i + 1) % last.len();
                all.push([last[i], last[j], next[j]]);
                all.push([last[i], next[j], next[i]]);
            }
            last = next;
        }
        let cap = points.len();
        points.push(add_scaled(centre, length, direction));
        for i in 0..last.len() {
            all.push([last[i], last[(i + 1) % last.len()], cap]);
        }
    }
    (points, all)
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
fn samples(vertices: &[V3], faces: &[[usize; 3]]) -> Vec<Skin> {
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
    let mut skin = Vec::new();
    for f in faces {
        let p = f.map(|v| vertices[v]);
        let n = f.map(|v| normals[v]);
        if p.iter().all(|p| p[0] < -BEYOND_MIDDLE - ROOM) {
            continue;
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
    skin
}

const NONE: u32 = u32::MAX;

/// Which sample is nearest to each node, as far as known.
struct Grid {
    origin: V3,
    size: [usize; 3],
    nearest: Vec<u32>,
}

impl Grid {
    fn at(&self, i: usize, j: usize, k: usize) -> usize {
        (k * self.size[1] + j) * self.size[0] + i
    }

    fn point(&self, i: usize, j: usize, k: usize) -> V3 {
        [
            self.origin[0] + i as f64 * CELL,
            self.origin[1] + j as f64 * CELL,
            self.origin[2] + k as f64 * CELL,
        ]
    }

    fn offer(&mut self, skin: &[Skin], node: usize, at: V3, sample: u32) {
        if sample == NONE {
            return;
        }
        let squared = |s: u32| {
            let d = sub(at, skin[s as usize].at);
            dot(d, d)
        };
        let own = self.nearest[node];
        if own == NONE || squared(sample) < squared(own) {
            self.nearest[node] = sample;
        }
    }

    /// Every sample to the nodes of the cells around it.
    fn seed(&mut self, skin: &[Skin]) {
        for (number, s) in skin.iter().enumerate() {
            let q = [0, 1, 2].map(|i| (s.at[i] - self.origin[i]) / CELL);
            let range = |i: usize| {
                let low = (q[i] - 1.0).floor().max(0.0) as usize;
                let high = (q[i] + 2.0).floor().max(0.0) as usize;
                low..high.min(self.size[i] - 1) + 1
            };
            let (x, y, z) = (range(0), range(1), range(2));
            for k in z {
                for j in y.clone() {
                    for i in x.clone() {
                        let at = self.point(i, j, k);
                        let node = self.at(i, j, k);
                        self.offer(skin, node, at, number as u32);
                    }
                }
            }
        }
    }

    /// Hands nearest samples on from node to node, forwards and backwards, twice.
    fn hand_on(&mut self, skin: &[Skin]) {
        let [nx, ny, nz] = self.size;
        let before: Vec<[isize; 3]> = (-1..=1)
            .flat_map(|k| (-1..=1).flat_map(move |j| (-1..=1).map(move |i| [i, j, k])))
            .take(13)
            .collect();
        for sweep in 0..4 {
            let back = sweep % 2 == 1;
            for node in 0..nx * ny * nz {
                let node = if back { nx * ny * nz - 1 - node } else { node };
                let (i, j, k) = (node % nx, node / nx % ny, node / (nx * ny));
                let at = self.point(i, j, k);
                for d in &before {
                    let sign = if back { -1 } else { 1 };
                    let n = [
                        i as isize + sign * d[0],
                        j as isize + sign * d[1],
                        k as isize + sign * d[2],
                    ];
                    let inside = n[0] >= 0
                        && n[1] >= 0
                        && n[2] >= 0
                        && (n[0] as usize) < nx
                        && (n[1] as usize) < ny
                        && (n[2] as usize) < nz;
                    if inside {
                        let from = self.nearest[self.at(n[0] as usize, n[1] as usize, n[2] as usize)];
                        self.offer(skin, node, at, from);
                    }
                }
            }
        }
    }

    /// Signed distances: near the skin by the tangent plane, beyond the band by the flood.
    fn signed(&self, skin: &[Skin]) -> Vec<f64> {
        let [nx, ny, nz] = self.size;
        let count = nx * ny * nz;
        let mut values = vec![0.0; count];
        let mut is_far = vec![false; count];
        for node in 0..count {
            let at = self.point(node % nx, node / nx % ny, node / (nx * ny));
            let Some(s) = skin.get(self.nearest[node] as usize) else {
                continue;
            };
            let away = sub(at, s.at);
            let (plain, plane) = (norm(away), dot(away, s.normal));
            is_far[node] = plain > BAND;
            // Up to the band's edge the plane, from one cell further the plain distance, blended between.
            let share = ((plain - BAND) / CELL).clamp(0.0, 1.0);
            values[node] = if is_far[node] {
                plain * share + plane.abs() * (1.0 - share)
            } else {
                plane
            };
        }
        // Flood the far nodes from the corner that is surely outside: greatest x, y, z.
        let mut outside = vec![false; count];
        let mut todo = vec![count - 1];
        outside[count - 1] = true;
        while let Some(node) = todo.pop() {
            let (i, j, k) = (node % nx, node / nx % ny, node / (nx * ny));
            let mut visit = |n: usize| {
                if is_far[n] && !outside[n] {
                    outside[n] = true;
                    todo.push(n);
                }
            };
            if i > 0 {
                visit(node - 1);
            }
            if i + 1 < nx {
                visit(node + 1);
            }
            if j > 0 {
                visit(node - nx);
            }
            if j + 1 < ny {
                visit(node + nx);
            }
            if k > 0 {
                visit(node - nx * ny);
            }
            if k + 1 < nz {
                visit(node + nx * ny);
            }
        }
        for node in 0..count {
            if is_far[node] && !outside[node] {
                values[node] = -values[node];
            }
        }
        values
    }
}

/// Takes the inner thighs away below the midline.
fn slot(values: &mut [f64], grid: &Grid, form: &FormPoints) {
    let roof: Vec<V3> = form
        .midline
        .iter()
        .copied()
        .filter(|p| p[1] <= form.crotch_y + SLOT_ROOF)
        .collect();
    let [nx, ny, nz] = grid.size;
    for k in 0..nz {
        let z = grid.origin[2] + k as f64 * CELL;
        let Some(height) = roof_height(&roof, z) else {
            continue;
        };
        for j in 0..ny {
            for i in 0..nx {
                let [x, y, _] = grid.point(i, j, k);
                let node = grid.at(i, j, k);
                let cut = (SLOT - x.abs()).min(height - y);
                if let Some(v) = values.get_mut(node) {
                    *v = v.max(cut);
                }
            }
        }
    }
}

/// The lowest height at which a line passes z; `None` where it doesn't.
fn roof_height(line: &[V3], z: f64) -> Option<f64> {
    line.windows(2)
        .filter(|w| (w[0][2] <= z) != (w[1][2] <= z))
        .map(|w| {
            let t = (z - w[0][2]) / (w[1][2] - w[0][2]);
            w[0][1] + t * (w[1][1] - w[0][1])
        })
        .reduce(f64::min)
}

/// Gauss smoothing along each direction in turn; the ends repeat.
fn smooth(values: &mut Vec<f64>, size: [usize; 3]) {
    let reach = 3_isize;
    let weights: Vec<f64> = (-reach..=reach)
        .map(|d| (-(d as f64).powi(2) / (2.0 * SMOOTHING * SMOOTHING)).exp())
        .collect();
    let sum: f64 = weights.iter().sum();
    let strides = [1, size[0], size[0] * size[1]];
    for axis in 0..3 {
        let mut out = vec![0.0; values.len()];
        for (node, o) in out.iter_mut().enumerate() {
            let place = (node / strides[axis] % size[axis]) as isize;
            for (w, d) in weights.iter().zip(-reach..=reach) {
                let to = (place + d).clamp(0, size[axis] as isize - 1) - place;
                let from = node as isize + to * strides[axis] as isize;
                *o += w / sum * values[from as usize];
            }
        }
        *values = out;
    }
}
