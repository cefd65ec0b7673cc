//! The wearer's form as a smooth field: closed where it is open, legs apart, signed distance on a grid, cubic splines between.
//!
//! The form is an open surface. Thighs are led 90 mm straight down, the neck 60 mm up, the arms along an axis 68 degrees from
//! vertical, tapering; all are capped. Its curved triangles (normals blended over each) are sampled every few millimetres; every node
//! of a 5 mm grid finds its nearest sample, by handing samples on to neighbours. Near the skin the distance is that to the
//! sample's tangent plane; the sign further off comes from flooding the outside, never from normals, which mislead in the crease of the
//! armpit. Then the legs are moved apart by a slot under the crotch (a form's thighs nearly touch and would crush the
//! crotch seam; under a suit with legs they are shifted apart instead), the grid is smoothed by about one cell and read as a tri-cubic B-spline.
//!
//! **Shapes and units.** mm, the form's frame. Values are kept for x from a little below 0 up: the form is symmetric, her right is read as the mirror image of her left.
//! **Source.** Own; slot, extensions and smoothing from own trials on fitted forms.
//! **Limits.** Skin lies within about half a millimetre of the form's but for the slot's edge, which shaves the inner seat fold: no pressure
//! should be quoted there. Rigid.

#![allow(
    clippy::needless_range_loop,
    reason = "sums over a grid name their entries by place"
)]

mod grid;
mod surface;

use std::collections::BTreeMap;

use body::FittedForm;
use draft::Draft;
use units::Level;

use self::grid::Grid;
use self::surface::{closed, left_arm_edge, samples};
use crate::field::{Field, Sample};
use crate::limbs::{self, Arm, LimbReach};
use crate::vector::{V3, add_scaled};

/// Grid step, mm.
const CELL: f64 = 5.0;
/// How far left of the middle the grid reaches.
const BEYOND_MIDDLE: f64 = 20.0;
/// Room around the form.
const ROOM: f64 = 45.0;

/// The field of a form.
#[derive(Clone, Debug, PartialEq)]
pub struct BodyField {
    origin: V3,
    size: [usize; 3],
    values: Vec<f32>,
    /// Heights of levels, mm over the crotch, and named points; what placing needs.
    pub(crate) form: FormPoints,
}

/// The numbers of a [`BodyField`], for a reader that works it out by itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FieldGrid<'a> {
    /// The first node, form frame.
    pub origin: [f64; 3],
    /// Nodes along x, y, z.
    pub size: [usize; 3],
    /// Between nodes, mm.
    pub cell_mm: f64,
    /// Spline weights, x fastest.
    pub values: &'a [f32],
}

/// What placing a suit needs to know of the form.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct FormPoints {
    pub(crate) crotch_y: f64,
    pub(crate) underarm_y: f64,
    pub(crate) side_neck: V3,
    pub(crate) shoulder: V3,
    pub(crate) back_neck: V3,
    pub(crate) bust_point: V3,
    pub(crate) levels: Vec<(Level, f64)>,
    /// The midline, from the front of the neck down, through the crotch and up the back.
    pub(crate) midline: Vec<V3>,
    /// How far the limbs are led on.
    pub(crate) reach: LimbReach,
    /// The left arm, under a suit with sleeves.
    pub(crate) arm: Option<Arm>,
}

impl BodyField {
    /// The field of a fitted form; the same form gives the same bytes.
    ///
    /// Its limbs end soon: use [`BodyField::for_suit`] under a suit that may have legs or sleeves.
    pub fn of_form(form: &FittedForm) -> BodyField {
        BodyField::reaching(form, LimbReach::default())
    }

    /// The field of a fitted form with its limbs led on as far as a draft's legs and sleeves go.
    pub fn for_suit(form: &FittedForm, draft: &Draft) -> BodyField {
        BodyField::reaching(form, LimbReach::of(draft))
    }

    /// The field of a fitted form with limbs of a reach.
    pub fn reaching(form: &FittedForm, reach: LimbReach) -> BodyField {
        let (vertices, faces) = closed(form, reach);
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
        let points = form_points(form, reach);
        let values = Grid::new(low, size).distances(&skin, &points);
        BodyField {
            origin: low,
            size,
            values,
            form: points,
        }
    }

    /// The grid behind the field: weights of uniform cubic B-splines.
    pub fn grid(&self) -> FieldGrid<'_> {
        FieldGrid {
            origin: self.origin,
            size: self.size,
            cell_mm: CELL,
            values: &self.values,
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
        if at[0] < 0.0 {
            // The form is symmetric: her right is the mirror image of her left.
            let mut other = self.sample([-at[0], at[1], at[2]]);
            other.gradient[0] = -other.gradient[0];
            for i in 1..3 {
                other.hessian[0][i] = -other.hessian[0][i];
                other.hessian[i][0] = -other.hessian[i][0];
            }
            return other;
        }
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
        let (cell, share) = self.cell([at[0].abs(), at[1], at[2]]);
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

fn mark(form: &FittedForm, name: &str) -> V3 {
    let marks = form.landmarks();
    marks.iter().find(|m| m.name == name).map_or([0.0; 3], |m| m.at)
}

fn crotch_y(form: &FittedForm) -> f64 {
    mark(form, "crotch")[1]
}

fn form_points(form: &FittedForm, reach: LimbReach) -> FormPoints {
    let mark = |name: &str| mark(form, name);
    let arm = reach.arm_mm.map(|mm| {
        let length = limbs::arm_length(form, mm);
        Arm::of(&left_arm_edge(form), mark("underarm"), mark("shoulder"), length)
    });
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
        back_neck: mark("back_neck"),
        bust_point: mark("bust_point"),
        levels: form.levels(),
        midline: middle,
        reach,
        arm,
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
