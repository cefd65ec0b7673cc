//! Sections of the form as polylines, and points at shares of their length.

use super::Unplaced;
use crate::body_field::{BodyField, FormPoints};
use crate::vector::{V3, add_scaled, norm, sub};

/// Heights and distances from the middle at which sections are kept, mm.
const SECTION_STEP: f64 = 6.0;

/// Polylines of sections at even steps.
pub(super) struct Sections {
    first: f64,
    step: f64,
    lines: Vec<Vec<V3>>,
}

impl Sections {
    /// Lines at `first` and every `step` on.
    pub(super) fn every(first: f64, step: f64, lines: Vec<Vec<V3>>) -> Sections {
        Sections { first, step, lines }
    }

    /// The point at a share of the length, between the two sections nearest.
    pub(super) fn at(&self, where_: f64, share: f64) -> V3 {
        let q = ((where_ - self.first) / self.step).clamp(0.0, (self.lines.len() - 1) as f64);
        let low = (q.floor() as usize).min(self.lines.len().saturating_sub(2));
        let t = q - low as f64;
        let a = along(&self.lines[low], share);
        let b = along(&self.lines[(low + 1).min(self.lines.len() - 1)], share);
        [0, 1, 2].map(|i| a[i] + t * (b[i] - a[i]))
    }
}

impl Sections {
    /// Length of the section nearest.
    pub(super) fn length(&self, where_: f64) -> f64 {
        let q = ((where_ - self.first) / SECTION_STEP).clamp(0.0, (self.lines.len() - 1) as f64);
        let line = self.lines.get(q.round() as usize).map_or(&[][..], Vec::as_slice);
        line.windows(2).map(|w| norm(sub(w[1], w[0]))).sum()
    }
}

/// The point at a share of a line's length.
pub(super) fn along(line: &[V3], share: f64) -> V3 {
    let total: f64 = line.windows(2).map(|w| norm(sub(w[1], w[0]))).sum();
    let mut left = share.clamp(0.0, 1.0) * total;
    for w in line.windows(2) {
        let length = norm(sub(w[1], w[0]));
        if left <= length && length > 0.0 {
            return add_scaled(w[0], left / length, sub(w[1], w[0]));
        }
        left -= length;
    }
    line.last().copied().unwrap_or([0.0; 3])
}

/// The midline from the waist in front through the crotch to the waist behind.
pub(super) fn under_curve(points: &FormPoints, waist: f64) -> Vec<V3> {
    let line = &points.midline;
    let lowest = (0..line.len())
        .min_by(|a, b| line[*a][1].total_cmp(&line[*b][1]))
        .unwrap_or(0);
    let from = (0..lowest).rev().find(|i| line[*i][1] > waist).unwrap_or(0);
    let to = (lowest..line.len())
        .find(|i| line[*i][1] > waist)
        .unwrap_or(line.len());
    line.get(from..to).unwrap_or(&[]).to_vec()
}

/// Quarter sections from the middle to the side, low to high.
pub(super) fn quarter_sections(
    body: &BodyField,
    low: f64,
    high: f64,
    front: bool,
) -> Result<Sections, Unplaced> {
    let count = ((high - low) / SECTION_STEP).ceil().max(1.0) as usize + 1;
    let mut lines = Vec::with_capacity(count);
    for i in 0..count {
        let y = low + i as f64 * SECTION_STEP;
        let none = || Unplaced::Section(format!("{y:.0} mm over the crotch"));
        let ahead = body
            .exit([0.0, y, 0.0], [0.0, 0.0, 1.0], 400.0)
            .ok_or_else(none)?;
        let behind = body
            .exit([0.0, y, 0.0], [0.0, 0.0, -1.0], 400.0)
            .ok_or_else(none)?;
        let centre = [0.0, y, f64::midpoint(ahead, -behind)];
        let sign = if front { 1.0 } else { -1.0 };
        let mut line = Vec::new();
        for step in 0..=30 {
            let (s, c) = (f64::from(step) * 3.0_f64).to_radians().sin_cos();
            let direction = [s, 0.0, sign * c];
            let t = body.exit(centre, direction, 400.0).ok_or_else(none)?;
            line.push(add_scaled(centre, t, direction));
        }
        lines.push(line);
    }
    Ok(Sections::every(low, SECTION_STEP, lines))
}

/// Sections over the shoulder from the underarm's height to the ridge, by distance from the middle.
pub(super) fn strap_sections(
    body: &BodyField,
    points: &FormPoints,
    front: bool,
) -> Result<Sections, Unplaced> {
    let first = 20.0;
    let last = points.shoulder[0] + 10.0;
    let count = ((last - first) / SECTION_STEP).ceil().max(1.0) as usize + 1;
    let from_y = points.underarm_y - 40.0;
    let sign = if front { 1.0 } else { -1.0 };
    let mut lines = Vec::with_capacity(count);
    for i in 0..count {
        let x = first + i as f64 * SECTION_STEP;
        let none = || Unplaced::Section(format!("{x:.0} mm from the middle, over the shoulder"));
        let ahead = body.exit([x, from_y, 0.0], [0.0, 0.0, 1.0], 300.0);
        let behind = body.exit([x, from_y, 0.0], [0.0, 0.0, -1.0], 300.0);
        let (Some(ahead), Some(behind)) = (ahead, behind) else {
            if lines.is_empty() {
                return Err(none());
            }
            break;
        };
        let centre = [x, from_y, f64::midpoint(ahead, -behind)];
        let mut line: Vec<V3> = Vec::new();
        for step in 0..=45 {
            let (s, c) = (f64::from(step) * 2.0_f64).to_radians().sin_cos();
            let direction = [0.0, s, sign * c];
            if let Some(t) = body.exit(centre, direction, 400.0) {
                line.push(add_scaled(centre, t, direction));
            }
        }
        // From the underarm's height on, and no further than the highest point.
        let ridge = (0..line.len())
            .max_by(|a, b| line[*a][1].total_cmp(&line[*b][1]))
            .unwrap_or(0);
        line.truncate(ridge + 1);
        let begin = line.iter().position(|p| p[1] >= points.underarm_y).unwrap_or(0);
        let line = line.split_off(begin.min(line.len().saturating_sub(2)));
        if line.len() < 2 {
            return Err(none());
        }
        lines.push(line);
    }
    Ok(Sections::every(first, SECTION_STEP, lines))
}
