//! Where a suit starts on the form: on the skin, level by level.
//!
//! A point of the torso goes to the height its flat height stands for and to the share of the quarter section that its share of the piece's
//! width is; below the waist the middle follows the midline to the crotch, and near the crotch everything does. Straps go over the
//! shoulder in the section at their own distance from the middle, to a station on the shoulder seam. Sewn points are
//! averaged, the whole is smoothed a little and pushed onto the skin.
//!
//! **Shapes and units.** mm, the form's frame; half suits, x >= 0.
//! **Source.** Own trials on fitted forms.
//! **Limits.** A start, not a fit: what a good solve forgets. With friction it is what the cloth clings to.

use draft::Draft;
use kurbo::{ParamCurve, Point};
use thiserror::Error;
use units::Level;

use crate::body_field::{BodyField, FormPoints};
use crate::field::Field;
use crate::suit::SuitMesh;
use crate::vector::{V3, add_scaled, norm, sub};

/// The side of the torso ends this far below the form's underarm, mm.
const BELOW_UNDERARM: f64 = 12.0;
/// Nothing of the torso starts lower than this over the crotch, mm: there the legs begin.
const OVER_CROTCH: f64 = 45.0;
/// Share of the crotch length where points begin to follow the midline only.
const CROTCH_FROM: f64 = 0.45;
/// Straps begin this far below the underarm on the flat piece and are all strap this much higher, mm.
const STRAP: (f64, f64) = (15.0, 50.0);
/// How far above the skin the start lies, mm.
const ABOVE_SKIN: f64 = 1.5;
const SMOOTHINGS: usize = 6;
/// Heights and distances from the middle at which sections are kept, mm.
const SECTION_STEP: f64 = 6.0;

/// Why a suit was not placed.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum Unplaced {
    /// The form has no such section.
    #[error("the form has no section at {0}: the wearer's dimensions may not fit each other")]
    Section(String),
    /// A piece without a side edge to place it by.
    #[error("the {0} has no side edge to place it by")]
    NoSide(String),
}

/// Polylines of sections at even steps.
struct Sections {
    first: f64,
    lines: Vec<Vec<V3>>,
}

impl Sections {
    /// The point at a share of the length, between the two sections nearest.
    fn at(&self, where_: f64, share: f64) -> V3 {
        let q = ((where_ - self.first) / SECTION_STEP).clamp(0.0, (self.lines.len() - 1) as f64);
        let low = (q.floor() as usize).min(self.lines.len().saturating_sub(2));
        let t = q - low as f64;
        let a = along(&self.lines[low], share);
        let b = along(&self.lines[(low + 1).min(self.lines.len() - 1)], share);
        [0, 1, 2].map(|i| a[i] + t * (b[i] - a[i]))
    }
}

/// The point at a share of a line's length.
fn along(line: &[V3], share: f64) -> V3 {
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

/// Flat height to form height, straight between levels and on beyond them.
struct Heights(Vec<(f64, f64)>);

impl Heights {
    fn new(draft: &Draft, points: &FormPoints, underarm: Option<f64>) -> Heights {
        let mut pairs: Vec<(f64, f64)> = draft
            .levels
            .iter()
            .filter(|l| {
                matches!(
                    l.level,
                    Level::Bust | Level::Underbust | Level::Waist | Level::HighHip | Level::Hip
                )
            })
            .filter_map(|l| {
                let at = points.levels.iter().find(|(level, _)| *level == l.level)?;
                Some((l.y_mm, at.1))
            })
            .collect();
        if let Some(y) = underarm {
            pairs.push((y, points.underarm_y - BELOW_UNDERARM));
        }
        pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
        // Where two fall together or the form turns them round, the first stays.
        let mut kept: Vec<(f64, f64)> = Vec::new();
        for p in pairs {
            if kept.last().is_none_or(|k| p.0 > k.0 + 5.0 && p.1 > k.1 + 5.0) {
                kept.push(p);
            }
        }
        Heights(kept)
    }

    fn at(&self, y: f64) -> f64 {
        match self.0[..] {
            [] => y,
            [(a, b)] => y - a + b,
            _ => {
                let last = self.0.len() - 2;
                let i = self.0[1..=last].iter().position(|p| y < p.0).unwrap_or(last);
                let ((a, b), (c, d)) = (self.0[i], self.0[i + 1]);
                b + (y - a) * (d - b) / (c - a)
            }
        }
    }
}

/// A piece as placing sees it.
struct Panel {
    is_front: bool,
    /// Side edge, flat: (y, x) rising.
    side: Vec<(f64, f64)>,
    /// Length of the fold below the waist.
    crotch: f64,
    /// Flat height of the underarm, if the piece goes on above it.
    underarm: Option<f64>,
    /// Flat height of the shoulder.
    top: f64,
}

/// Places a suit on a form.
///
/// # Errors
/// [`Unplaced`] with the reason.
pub fn place(suit: &SuitMesh, draft: &Draft, body: &BodyField) -> Result<Vec<[f64; 3]>, Unplaced> {
    let points = &body.form;
    let panels: Vec<Panel> = suit
        .pieces
        .iter()
        .map(|key| panel(draft, key))
        .collect::<Result<_, _>>()?;
    let underarm = panels.iter().find_map(|p| p.underarm);
    let heights = Heights::new(draft, points, underarm);
    let waist = heights.at(0.0);
    let low = points.crotch_y + OVER_CROTCH;
    let high = points.underarm_y - 10.0;
    let quarters = [true, false].map(|front| quarter_sections(body, low, high, front));
    let [front_quarters, back_quarters] = quarters;
    let (front_quarters, back_quarters) = (front_quarters?, back_quarters?);

    let crotch = |front: bool| {
        panels
            .iter()
            .find(|p| p.is_front == front)
            .map_or(0.0, |p| p.crotch)
    };
    let under = under_curve(points, waist);
    let front_share = crotch(true) / (crotch(true) + crotch(false)).max(1.0);
    let strap_station = draft.strap_mid.map(|p| p.x);
    let straps = if suit.shoulder.is_empty() {
        None
    } else {
        Some([true, false].map(|front| strap_sections(body, points, front)))
    };
    let straps = match straps {
        Some([front, back]) => Some((front?, back?)),
        None => None,
    };
    let upper = upper_factor(draft);

    let put = |panel: &Panel, [x, y]: [f64; 2]| -> V3 {
        let half = side_x(&panel.side, y).max(1.0);
        let u = (x / half).clamp(0.0, 1.0);
        let s = if panel.crotch > 0.0 {
            (-y / panel.crotch).clamp(0.0, 1.0)
        } else {
            0.0
        };
        // The midline from waist to crotch: fronts run down it, backs up.
        let middle = if panel.is_front {
            along(&under, s * front_share)
        } else {
            along(&under, 1.0 - s * (1.0 - front_share))
        };
        let middle_y = if y < 0.0 { middle[1] } else { heights.at(y) };
        let side_y = heights.at(y).min(points.underarm_y - BELOW_UNDERARM);
        let height = ((1.0 - u * u) * middle_y + u * u * side_y).clamp(low, high);
        let quarters = if panel.is_front {
            &front_quarters
        } else {
            &back_quarters
        };
        let mut at = quarters.at(height, u);
        if y < 0.0 {
            let blend = smoothstep((s - CROTCH_FROM) / (1.0 - CROTCH_FROM));
            let to = [middle[0] + x, middle[1], middle[2]];
            at = add_scaled(at, blend, sub(to, at));
        }
        if let (Some(straps), Some(under_y)) = (&straps, panel.underarm)
            && y > under_y - STRAP.0
        {
            let blend = smoothstep((y - (under_y - STRAP.0)) / STRAP.1);
            let rise = ((y - under_y) / (panel.top - under_y).max(1.0)).clamp(0.0, 1.0);
            let mid = strap_station.unwrap_or(0.0);
            let station = (mid / upper).clamp(points.side_neck[0], points.shoulder[0]);
            let far = station + (x - mid) / upper;
            let distance = at[0] + smoothstep(rise) * (far - at[0]);
            let section = if panel.is_front { &straps.0 } else { &straps.1 };
            let to = section.at(distance, rise);
            at = add_scaled(at, blend, sub([distance, to[1], to[2]], at));
        }
        at
    };
    let mut start: Vec<V3> = suit
        .on
        .iter()
        .map(|on| {
            let count = on.len().max(1) as f64;
            on.iter().fold([0.0; 3], |sum, o| {
                add_scaled(sum, 1.0 / count, put(&panels[o.piece], o.flat))
            })
        })
        .collect();
    let station = strap_station.map(|mid| (mid / upper).clamp(points.side_neck[0], points.shoulder[0]));
    settle(suit, body, &mut start, station);
    Ok(start)
}

/// Smooths, keeps the shoulder seam at its station and the fold in the middle, pushes onto the skin.
fn settle(suit: &SuitMesh, body: &BodyField, start: &mut [V3], station: Option<f64>) {
    let held = suit.mesh.held();
    for (p, h) in start.iter_mut().zip(held) {
        if h[0] {
            p[0] = 0.0;
        }
    }
    for _ in 0..SMOOTHINGS {
        push_out(body, start, held);
        let mut sums = vec![[0.0; 4]; start.len()];
        for t in suit.mesh.triangles() {
            for (i, v) in t.corners.iter().enumerate() {
                for j in 1..3 {
                    let n = start[t.corners[(i + j) % 3]];
                    for k in 0..3 {
                        sums[*v][k] += n[k];
                    }
                    sums[*v][3] += 1.0;
                }
            }
        }
        for (v, sum) in sums.iter().enumerate() {
            if sum[3] > 0.0 {
                for k in 0..3 {
                    if !(held[v][k]) {
                        start[v][k] = 0.5 * start[v][k] + 0.5 * sum[k] / sum[3];
                    }
                }
            }
        }
    }
    if let (Some(station), [first, .., last]) = (station, &suit.shoulder[..]) {
        // The seam at its flat width about the station.
        let flat = |v: usize| suit.flat(v, 0).unwrap_or([0.0; 2]);
        let (a, b) = (flat(*first), flat(*last));
        let length = |p: [f64; 2]| (p[0] - a[0]).hypot(p[1] - a[1]);
        let whole = length(b);
        for v in &suit.shoulder {
            start[*v][0] = station + length(flat(*v)) - whole / 2.0;
        }
    }
    push_out(body, start, held);
}

fn push_out(body: &BodyField, start: &mut [V3], held: &[[bool; 3]]) {
    for (p, h) in start.iter_mut().zip(held) {
        for _ in 0..4 {
            let sample = body.sample(*p);
            if sample.g >= ABOVE_SKIN - 0.01 {
                break;
            }
            let mut n = sample.gradient;
            if h[0] {
                n[0] = 0.0;
            }
            let squared: f64 = n.iter().map(|x| x * x).sum();
            if squared < 1e-6 {
                break;
            }
            let by = ((ABOVE_SKIN - sample.g) / squared).min(30.0);
            *p = add_scaled(*p, by, n);
        }
    }
}

fn smoothstep(t: f64) -> f64 {
    let t = t.clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

/// Pattern over body around, above the bust: the topmost level's.
fn upper_factor(draft: &Draft) -> f64 {
    draft
        .levels
        .first()
        .map_or(0.9, |l| (l.pattern_mm / l.body_mm).clamp(0.6, 1.1))
}

/// Reads a piece: its side edges, the depth of its fold.
fn panel(draft: &Draft, key: &str) -> Result<Panel, Unplaced> {
    let piece = draft
        .pieces
        .iter()
        .find(|p| p.key == key)
        .ok_or_else(|| Unplaced::NoSide(key.into()))?;
    let mut side: Vec<(f64, f64)> = piece
        .edges
        .iter()
        .filter(|e| e.name.starts_with("side"))
        .flat_map(|e| {
            e.curve
                .cubics()
                .iter()
                .flat_map(|c| (0..=16).map(|i| c.eval(f64::from(i) / 16.0)))
        })
        .map(|p: Point| (p.y, p.x))
        .collect();
    if side.is_empty() {
        return Err(Unplaced::NoSide(key.into()));
    }
    side.sort_by(|a, b| a.0.total_cmp(&b.0));
    let all = || piece.edges.iter().flat_map(|e| e.curve.flatten(1.0));
    let lowest = all().filter(|p| p.x < 1.0).map(|p| p.y).fold(0.0, f64::min);
    let top = piece
        .edge("shoulder")
        .map(|e| f64::midpoint(e.curve.start().y, e.curve.end().y));
    let side_top = side.last().map_or(0.0, |s| s.0);
    Ok(Panel {
        is_front: key == "front",
        crotch: if piece.edge("crotch").is_some() {
            -lowest
        } else {
            0.0
        },
        underarm: top.map(|_| side_top),
        top: top.unwrap_or(side_top),
        side,
    })
}

/// Half width at a height, held constant beyond the side edge's ends.
fn side_x(side: &[(f64, f64)], y: f64) -> f64 {
    let i = side.partition_point(|s| s.0 < y);
    match (i.checked_sub(1).and_then(|j| side.get(j)), side.get(i)) {
        (Some(a), Some(b)) if b.0 > a.0 => a.1 + (y - a.0) / (b.0 - a.0) * (b.1 - a.1),
        (Some(a), _) => a.1,
        (None, Some(b)) => b.1,
        (None, None) => 1.0,
    }
}

/// The midline from the waist in front through the crotch to the waist behind.
fn under_curve(points: &FormPoints, waist: f64) -> Vec<V3> {
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
fn quarter_sections(body: &BodyField, low: f64, high: f64, front: bool) -> Result<Sections, Unplaced> {
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
    Ok(Sections { first: low, lines })
}

/// Sections over the shoulder from the underarm's height to the ridge, by distance from the middle.
fn strap_sections(body: &BodyField, points: &FormPoints, front: bool) -> Result<Sections, Unplaced> {
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
    Ok(Sections { first, lines })
}
