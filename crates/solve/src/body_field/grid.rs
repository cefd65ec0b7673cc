//! Signed distances on a grid: nearest samples handed on from node to node, signs from the flood, the slot, the smoothing.
//!
//! **Shapes and units.** mm, the form's frame; x runs fastest, z slowest.

#![allow(
    clippy::needless_range_loop,
    reason = "sums over a grid name their entries by place"
)]

use super::surface::Skin;
use super::{CELL, FormPoints};
use crate::parallel;
use crate::vector::{V3, dot, norm, sub};

/// Beyond this from the skin the sign is the flood's, mm.
const BAND: f64 = 5.0;
/// Half width of the slot between the legs, mm.
const SLOT: f64 = 38.0;
/// The same under a suit with legs, whose thighs are moved apart: only where they would touch.
const LEGS_SLOT: f64 = 7.0;
/// How far above the crotch the slot's roof is followed.
const SLOT_ROOF: f64 = 75.0;
/// Standard deviation of the smoothing, in cells; the spline itself adds about 0.6.
const SMOOTHING: f64 = 0.8;
/// Planes of the grid worked at a time.
const PLANES: usize = 4;

const NONE: u32 = u32::MAX;

/// Which sample is nearest to each node, as far as known.
pub(super) struct Grid {
    origin: V3,
    size: [usize; 3],
    nearest: Vec<u32>,
    /// Square of the distance to it.
    squared: Vec<f64>,
}

impl Grid {
    pub(super) fn new(origin: V3, size: [usize; 3]) -> Grid {
        let count = size[0] * size[1] * size[2];
        Grid {
            origin,
            size,
            nearest: vec![NONE; count],
            squared: vec![f64::INFINITY; count],
        }
    }

    /// The field's values at the nodes.
    pub(super) fn distances(mut self, skin: &[Skin], form: &FormPoints) -> Vec<f32> {
        self.seed(skin);
        self.hand_on(skin);
        let mut values = self.signed(skin);
        slot(&mut values, &self, form);
        smooth(&mut values, self.size);
        values.iter().map(|v| *v as f32).collect()
    }

    fn plane(&self) -> usize {
        self.size[0] * self.size[1]
    }

    fn at(&self, i: usize, j: usize, k: usize) -> usize {
        (k * self.size[1] + j) * self.size[0] + i
    }

    fn point(&self, i: usize, j: usize, k: usize) -> V3 {
        point(self.origin, [i, j, k])
    }

    /// Every sample to the nodes of the cells around it.
    fn seed(&mut self, skin: &[Skin]) {
        let (size, origin, plane) = (self.size, self.origin, self.plane());
        let range = |s: &Skin, i: usize| {
            let q = (s.at[i] - origin[i]) / CELL;
            let low = (q - 1.0).floor().max(0.0) as usize;
            let high = (q + 2.0).floor().max(0.0) as usize;
            low..high.min(size[i] - 1) + 1
        };
        let parts = self
            .nearest
            .chunks_mut(PLANES * plane)
            .zip(self.squared.chunks_mut(PLANES * plane))
            .enumerate()
            .collect();
        parallel::map(parts, |(part, (nearest, squared))| {
            let first = part * PLANES;
            let planes = first..first + nearest.len() / plane;
            for (number, s) in skin.iter().enumerate() {
                let z = range(s, 2);
                let z = z.start.max(planes.start)..z.end.min(planes.end);
                if z.is_empty() {
                    continue;
                }
                let (x, y) = (range(s, 0), range(s, 1));
                for k in z {
                    for j in y.clone() {
                        for i in x.clone() {
                            let node = ((k - first) * size[1] + j) * size[0] + i;
                            let there = square(point(origin, [i, j, k]), s);
                            if there < squared[node] {
                                squared[node] = there;
                                nearest[node] = number as u32;
                            }
                        }
                    }
                }
            }
        });
    }

    /// Hands nearest samples on from node to node, forwards and backwards, twice.
    ///
    /// A row of nodes along x needs the row below and the three rows of the plane before: rows with the same j + 2 k need nothing of
    /// each other and are worked at a time.
    fn hand_on(&mut self, skin: &[Skin]) {
        let [nx, ny, nz] = self.size;
        // In which sweep a node last changed.
        let mut changed = vec![0_u8; self.nearest.len()];
        for sweep in 0..4 {
            for time in 0..ny + 2 * nz {
                let rows: Vec<[usize; 2]> = (0..nz)
                    .filter_map(|k| {
                        let j = time.checked_sub(2 * k).filter(|j| *j < ny)?;
                        Some(if sweep % 2 == 1 {
                            [ny - 1 - j, nz - 1 - k]
                        } else {
                            [j, k]
                        })
                    })
                    .collect();
                let worked = parallel::map(rows, |[j, k]| {
                    (k * ny + j, self.row([j, k], sweep, &changed, skin))
                });
                for (row, worked) in worked {
                    for (i, near) in worked.into_iter().enumerate() {
                        let node = row * nx + i;
                        if near.0 != self.nearest[node] {
                            (self.nearest[node], self.squared[node]) = near;
                            changed[node] = sweep;
                        }
                    }
                }
            }
        }
    }

    /// The row (j, k) of nodes after a sweep: nearest samples and squared distances.
    fn row(&self, [j, k]: [usize; 2], sweep: u8, changed: &[u8], skin: &[Skin]) -> Vec<(u32, f64)> {
        let [nx, ny, nz] = self.size;
        let sign = if sweep % 2 == 1 { -1 } else { 1 };
        let first = self.at(0, j, k);
        let mut row: Vec<(u32, f64)> = (first..first + nx)
            .map(|n| (self.nearest[n], self.squared[n]))
            .collect();
        // Rows this one takes from: where they begin.
        let others: Vec<usize> = [[-1, -1], [0, -1], [1, -1], [-1, 0]]
            .into_iter()
            .filter_map(|[dj, dk]: [isize; 2]| {
                let j = j.checked_add_signed(sign * dj).filter(|j| *j < ny)?;
                let k = k.checked_add_signed(sign * dk).filter(|k| *k < nz)?;
                Some(self.at(0, j, k))
            })
            .collect();
        for i in 0..nx {
            let i = if sign < 0 { nx - 1 - i } else { i };
            let (mut own, mut squared) = row[i];
            // Whatever is as near as this was handed out as a seed.
            if squared <= CELL * CELL {
                continue;
            }
            let at = self.point(i, j, k);
            let mut offer = |from: u32| {
                // Most neighbours know the same sample.
                if from != own && from != NONE {
                    let there = square(at, &skin[from as usize]);
                    if there < squared {
                        (own, squared) = (from, there);
                    }
                }
            };
            for begin in &others {
                for n in i.saturating_sub(1)..=(i + 1).min(nx - 1) {
                    // What hasn't changed since the last sweep of the same direction was offered then.
                    if sweep <= changed[begin + n] + 1 {
                        offer(self.nearest[begin + n]);
                    }
                }
            }
            if let Some(n) = i.checked_add_signed(-sign).filter(|n| *n < nx) {
                offer(row[n].0);
            }
            row[i] = (own, squared);
        }
        row
    }

    /// Signed distances: near the skin by the tangent plane, beyond the band by the flood.
    fn signed(&self, skin: &[Skin]) -> Vec<f64> {
        let [nx, ny, nz] = self.size;
        let count = nx * ny * nz;
        let plane = self.plane();
        let mut values = vec![(0.0, false); count];
        parallel::fill(&mut values, PLANES * plane, |first, run| {
            for (i, v) in run.iter_mut().enumerate() {
                let node = first + i;
                let at = self.point(node % nx, node / nx % ny, node / plane);
                let Some(s) = skin.get(self.nearest[node] as usize) else {
                    continue;
                };
                let away = sub(at, s.at);
                let (plain, plane) = (norm(away), dot(away, s.normal));
                let is_far = plain > BAND;
                // Up to the band's edge the plane, from one cell further the plain distance, blended between.
                let share = ((plain - BAND) / CELL).clamp(0.0, 1.0);
                let distance = if is_far {
                    plain * share + plane.abs() * (1.0 - share)
                } else {
                    plane
                };
                *v = (distance, is_far);
            }
        });
        let (mut values, is_far): (Vec<f64>, Vec<bool>) = values.into_iter().unzip();
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
    let half_width = if form.reach.leg_mm.is_some() {
        LEGS_SLOT
    } else {
        SLOT
    };
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
                let cut = (half_width - x.abs()).min(height - y);
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
    let weights: Vec<f64> = weights.iter().map(|w| w / sum).collect();
    let strides = [1, size[0], size[0] * size[1]];
    for axis in 0..3 {
        let mut out = vec![0.0; values.len()];
        parallel::fill(&mut out, PLANES * strides[2], |first, run| {
            for (i, o) in run.iter_mut().enumerate() {
                let node = first + i;
                let place = (node / strides[axis] % size[axis]) as isize;
                for (w, d) in weights.iter().zip(-reach..=reach) {
                    let to = (place + d).clamp(0, size[axis] as isize - 1) - place;
                    let from = node as isize + to * strides[axis] as isize;
                    *o += w * values[from as usize];
                }
            }
        });
        *values = out;
    }
}

fn point(origin: V3, place: [usize; 3]) -> V3 {
    [0, 1, 2].map(|i| origin[i] + place[i] as f64 * CELL)
}

fn square(at: V3, s: &Skin) -> f64 {
    let d = sub(at, s.at);
    dot(d, d)
}
