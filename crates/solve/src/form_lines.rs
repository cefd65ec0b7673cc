//! Lines of the form that a leg edge is judged by: the groin crease in front, the fold under the seat behind.
//!
//! Both are valleys of the skin. Depth of the skin (z) is read on rays; where it is most hollow across the expected direction of the
//! line, there the line runs. Hollows are weighted by their depth and a straight line is laid through them: single triangles of the form
//! must not bend it.
//!
//! **Shapes and units.** mm, the form's frame; her left half.
//! **Source.** Own. On the mean forms of woman, man and child the valley rises 13 to 14 mm for every 10 mm outwards from beside the
//! crotch, the fold lies within 10 mm of the crotch's height.
//! **Limits.** Standing. Where a form shows no valley there is no crease, and nothing is judged by it.

use body::FittedForm;
use units::Level;

/// The crease is looked for between these shares of the hip's height over the crotch.
const CREASE_HEIGHTS: (f64, f64) = (0.2, 1.3);
/// Heights at which it is looked for.
const CREASE_STEPS: usize = 12;
/// Half the width over which a hollow is measured, as a share of the hip's height.
const HOLLOW_REACH: f64 = 0.16;
/// A valley whose mean hollow is shallower than this is none, mm.
const LEAST_HOLLOW: f64 = 0.5;
/// The fold under the seat is looked for this far above and below the crotch, as a share of the hip's height.
const FOLD_REACH: f64 = 0.3;

/// The groin crease as it is seen from the front: x = `at` + `rise` y.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Crease {
    at: f64,
    rise: f64,
    /// Heights over the crotch between which it runs.
    pub(crate) heights: (f64, f64),
}

impl Crease {
    /// How far a point lies from it towards the belly, seen from the front; below 0 on the thigh.
    pub(crate) fn towards_belly(&self, p: [f64; 3]) -> f64 {
        (self.at + self.rise * p[1] - p[0]) / self.rise.hypot(1.0)
    }

    /// Whether it runs at that height.
    pub(crate) fn is_at(&self, p: [f64; 3]) -> bool {
        p[1] >= self.heights.0 && p[1] <= self.heights.1
    }
}

/// The skin as seen along z.
struct Skin<'a> {
    form: &'a FittedForm,
    /// Faces that look forwards, or backwards.
    faces: Vec<[usize; 3]>,
    is_front: bool,
}

impl<'a> Skin<'a> {
    fn new(form: &'a FittedForm, is_front: bool, heights: (f64, f64)) -> Skin<'a> {
        let v = form.vertices();
        let is_near = |f: &&[usize; 3]| {
            let p = f.map(|i| v[i]);
            let area = (p[1][0] - p[0][0]) * (p[2][1] - p[0][1]) - (p[2][0] - p[0][0]) * (p[1][1] - p[0][1]);
            (area > 0.0) == is_front
                && p.iter().any(|q| q[0] > 0.0)
                && p.iter().any(|q| q[1] > heights.0)
                && p.iter().any(|q| q[1] < heights.1)
        };
        let faces = form.faces().iter().filter(is_near).copied().collect();
        Skin {
            form,
            faces,
            is_front,
        }
    }

    /// How far it stands forwards (backwards) there; `None` beside it.
    fn depth(&self, x: f64, y: f64) -> Option<f64> {
        let v = self.form.vertices();
        let mut found: Option<f64> = None;
        for f in &self.faces {
            let [a, b, c] = f.map(|i| v[i]);
            let whole = (b[1] - c[1]) * (a[0] - c[0]) + (c[0] - b[0]) * (a[1] - c[1]);
            let p = ((b[1] - c[1]) * (x - c[0]) + (c[0] - b[0]) * (y - c[1])) / whole;
            let q = ((c[1] - a[1]) * (x - c[0]) + (a[0] - c[0]) * (y - c[1])) / whole;
            let r = 1.0 - p - q;
            if p >= -1e-9 && q >= -1e-9 && r >= -1e-9 {
                let z = p * a[2] + q * b[2] + r * c[2];
                let z = if self.is_front { z } else { -z };
                found = Some(found.map_or(z, |other| other.max(z)));
            }
        }
        found
    }

    /// How hollow it is at a point along a direction: above 0 in a valley, mm.
    fn hollow(&self, (x, y): (f64, f64), (dx, dy): (f64, f64)) -> Option<f64> {
        let here = self.depth(x, y)?;
        Some(self.depth(x + dx, y + dy)? + self.depth(x - dx, y - dy)? - 2.0 * here)
    }
}

/// The groin crease of a form, or none where it shows no valley.
pub(crate) fn groin_crease(form: &FittedForm) -> Option<Crease> {
    let hip = form.level_height(Level::Hip);
    if hip <= 0.0 {
        return None;
    }
    let heights = (CREASE_HEIGHTS.0 * hip, CREASE_HEIGHTS.1 * hip);
    let reach = HOLLOW_REACH * hip;
    let skin = Skin::new(form, true, (heights.0 - 2.0 * reach, heights.1 + 2.0 * reach));
    // Across a crease that runs up and outwards: up and inwards.
    let across = (
        -reach * std::f64::consts::FRAC_1_SQRT_2,
        reach * std::f64::consts::FRAC_1_SQRT_2,
    );
    let (mut w, mut wx, mut wy, mut wxy, mut wyy) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for i in 0..CREASE_STEPS {
        let y = heights.0 + (heights.1 - heights.0) * i as f64 / (CREASE_STEPS - 1) as f64;
        let steps = 2 * CREASE_STEPS;
        let deepest = (2..=steps)
            .filter_map(|j| {
                let x = 1.4 * hip * j as f64 / steps as f64;
                Some((x, skin.hollow((x, y), across)?))
            })
            .max_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((x, hollow)) = deepest
            && hollow > 0.0
        {
            w += hollow;
            wx += hollow * x;
            wy += hollow * y;
            wxy += hollow * x * y;
            wyy += hollow * y * y;
        }
    }
    let spread = w * wyy - wy * wy;
    if w < LEAST_HOLLOW * CREASE_STEPS as f64 || spread <= 0.0 {
        return None;
    }
    let rise = (w * wxy - wx * wy) / spread;
    Some(Crease {
        at: (wx - rise * wy) / w,
        rise,
        heights,
    })
}

/// The height of the fold under the seat: the crotch's where the form shows none.
pub(crate) fn seat_fold(form: &FittedForm) -> f64 {
    let hip = form.level_height(Level::Hip);
    let reach = HOLLOW_REACH * hip;
    let skin = Skin::new(form, false, (-2.0 * hip, hip));
    let steps = 12;
    let deepest = (0..=steps)
        .filter_map(|i| {
            let y = FOLD_REACH * hip * (2.0 * f64::from(i) / f64::from(steps) - 1.0);
            // Beside the middle, under the fullest of the seat.
            let across = [0.45, 0.65, 0.85];
            let hollows = across
                .iter()
                .filter_map(|x| skin.hollow((x * hip, y), (0.0, reach)));
            let (sum, count) = hollows.fold((0.0, 0_usize), |(s, n), h| (s + h, n + 1));
            (count == across.len()).then_some((y, sum / count as f64))
        })
        .max_by(|a, b| a.1.total_cmp(&b.1));
    deepest.filter(|d| d.1 > LEAST_HOLLOW).map_or(0.0, |d| d.0)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may panic")]

    use body::{BodyForm, Dimension, TorsoForm};

    use super::*;

    fn form(kind: BodyForm, girths: &[(Dimension, f64)]) -> FittedForm {
        let body = fixtures::completed(&fixtures::somebody(kind, girths));
        TorsoForm::of(kind).unwrap().fitted(&body).unwrap()
    }

    /// On the mean forms the valley, read off by hand on the skin's depth every 10 mm, passes the hip's height 70 mm (woman, hip at 92)
    /// and 77 mm (man, at 75) from the middle; the fold lies between 10 mm below the crotch and its height.
    #[test]
    fn crease_and_fold_lie_in_the_valleys() {
        let woman = form(
            BodyForm::Woman,
            &[
                (Dimension::Stature, 1650.0),
                (Dimension::BustGirth, 920.0),
                (Dimension::WaistGirth, 760.0),
                (Dimension::HipGirth, 1000.0),
                (Dimension::CrotchLength, 720.0),
                (Dimension::BackWaistLength, 408.0),
                (Dimension::TrunkCircumference, 1620.0),
            ],
        );
        let man = form(
            BodyForm::Man,
            &[
                (Dimension::Stature, 1780.0),
                (Dimension::BustGirth, 1000.0),
                (Dimension::WaistGirth, 880.0),
                (Dimension::HipGirth, 1010.0),
                (Dimension::CrotchLength, 700.0),
                (Dimension::BackWaistLength, 450.0),
                (Dimension::TrunkCircumference, 1680.0),
            ],
        );
        for (form, at_hip) in [(woman, 70.0), (man, 77.0)] {
            let crease = groin_crease(&form).unwrap();
            let hip = form.level_height(Level::Hip);
            let x = crease.at + crease.rise * hip;
            assert!((x - at_hip).abs() < 15.0, "{crease:?} {hip}");
            assert!(crease.rise > 0.5 && crease.rise < 1.2, "{crease:?}");
            // The belly lies inside it, the thigh outside.
            assert!(crease.towards_belly([10.0, hip, 0.0]) > 30.0, "{crease:?}");
            assert!(
                crease.towards_belly([110.0, 0.5 * hip, 0.0]) < -30.0,
                "{crease:?}"
            );
            let fold = seat_fold(&form);
            assert!((-20.0..10.0).contains(&fold), "{fold}");
        }
    }
}
