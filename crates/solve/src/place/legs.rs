//! Suits with legs: round the trunk above, round the thigh below, the centre seams along the midline.
//!
//! Above the crotch a point goes to the share of the quarter section that its share of the piece's width is, as on any torso; below it to the
//! share of the thigh's girth, counted from the outer side round the front or the back; between, from one to the other. Both centre seams
//! lie on the midline at their share of it, the gusset along it.
//!
//! **Shapes and units.** mm, the form's frame; the left leg, x >= 0.

use draft::Draft;
use kurbo::ParamCurve;
use units::Level;

use super::Unplaced;
use super::sections::{Sections, along, quarter_sections, under_curve};
use crate::body_field::{BodyField, FormPoints};
use crate::field::Field;
use crate::vector::{V3, add_scaled, sub};

/// No section round the trunk lower than this over the crotch, mm.
const OVER_CROTCH: f64 = 40.0;
/// No section round a thigh higher than this below it.
const UNDER_CROTCH: f64 = 14.0;
/// Sections round the thigh lie this far apart.
const STEP: f64 = 10.0;
/// Cloth on the leg starts this much longer than it is cut.
const LONGER: f64 = 1.03;
/// From this share of the way from the fork up to the hip nothing follows the thigh any more.
const TRUNK_FROM: f64 = 0.6;
/// Rays round a thigh.
const RAYS: usize = 48;

/// A curve of a piece as pairs of (y, x), rising in y.
struct Profile(Vec<(f64, f64)>);

impl Profile {
    fn of(piece: &draft::Piece, name: &str) -> Option<Profile> {
        let curve = &piece.edge(name)?.curve;
        let mut points: Vec<(f64, f64)> = curve
            .cubics()
            .iter()
            .flat_map(|c| (0..=16).map(|i| c.eval(f64::from(i) / 16.0)))
            .map(|p| (p.y, p.x))
            .collect();
        points.sort_by(|a, b| a.0.total_cmp(&b.0));
        (!points.is_empty()).then_some(Profile(points))
    }

    /// x at a height, held beyond the ends.
    fn at(&self, y: f64) -> f64 {
        let i = self.0.partition_point(|p| p.0 < y);
        match (i.checked_sub(1).and_then(|j| self.0.get(j)), self.0.get(i)) {
            (Some(a), Some(b)) if b.0 > a.0 => a.1 + (y - a.0) / (b.0 - a.0) * (b.1 - a.1),
            (Some(p), _) | (None, Some(p)) => p.1,
            (None, None) => 0.0,
        }
    }
}

/// A front or back with its leg.
struct Panel {
    side: Profile,
    centre: Profile,
    inseam: Profile,
    /// Centre seam: heights with the length from the top, rising in height.
    down: Vec<(f64, f64)>,
    centre_mm: f64,
    fork_y: f64,
}

impl Panel {
    fn of(piece: &draft::Piece, is_front: bool) -> Option<Panel> {
        let name = if is_front { "centre_front" } else { "centre_back" };
        let centre = &piece.edge(name)?.curve;
        let inseam = &piece.edge("inseam")?.curve;
        let length = centre.length();
        let is_down = centre.start().y > centre.end().y;
        let mut down: Vec<(f64, f64)> = (0..=40)
            .map(|i| {
                let s = length * f64::from(i) / 40.0;
                (centre.at_length(if is_down { s } else { length - s }).0.y, s)
            })
            .collect();
        down.sort_by(|a, b| a.0.total_cmp(&b.0));
        Some(Panel {
            side: Profile::of(piece, "side")?,
            centre: Profile::of(piece, name)?,
            inseam: Profile::of(piece, "inseam")?,
            down,
            centre_mm: length,
            fork_y: inseam.start().y.max(inseam.end().y),
        })
    }

    /// Where the piece begins and ends at a height.
    fn width(&self, y: f64) -> (f64, f64) {
        let inner = if y >= self.fork_y {
            self.centre.at(y)
        } else {
            self.inseam.at(y)
        };
        (inner, self.side.at(y))
    }

    /// Share of the centre seam above a height.
    fn share_down(&self, y: f64) -> f64 {
        let i = self.down.partition_point(|p| p.0 < y);
        let s = match (i.checked_sub(1).and_then(|j| self.down.get(j)), self.down.get(i)) {
            (Some(a), Some(b)) if b.0 > a.0 => a.1 + (y - a.0) / (b.0 - a.0) * (b.1 - a.1),
            (Some(p), _) | (None, Some(p)) => p.1,
            (None, None) => 0.0,
        };
        (s / self.centre_mm).clamp(0.0, 1.0)
    }
}

/// What placing on hips and thighs goes by.
pub(super) struct Legs<'a> {
    points: &'a FormPoints,
    /// Front and back.
    panels: [Panel; 2],
    /// Flat heights of waist and hip with the form's.
    waist: (f64, f64),
    hip: (f64, f64),
    lowest: f64,
    quarters: [Sections; 2],
    thigh: Sections,
    /// The midline between the ends of the centre seams, and how much of it the front and a gusset take.
    under: Vec<V3>,
    front_share: f64,
    gusset_share: f64,
    /// Half the gusset's length and whole of it, flat.
    gusset_mm: f64,
}

impl<'a> Legs<'a> {
    /// # Errors
    /// [`Unplaced`] where the form has no section, or a piece not its edges.
    pub(super) fn new(draft: &Draft, body: &'a BodyField) -> Result<Legs<'a>, Unplaced> {
        let points = &body.form;
        let panel = |key: &str| {
            draft
                .pieces
                .iter()
                .find(|p| p.key == key)
                .and_then(|p| Panel::of(p, key == "front"))
                .ok_or_else(|| Unplaced::NoSide(key.into()))
        };
        let panels = [panel("front")?, panel("back")?];
        let form_at = |levels: &[Level]| {
            points
                .levels
                .iter()
                .find(|(l, _)| levels.contains(l))
                .map(|l| l.1)
                .ok_or_else(|| Unplaced::Section("the waist".into()))
        };
        let waist = (0.0, form_at(&[Level::Waist, Level::Navel])?);
        let hip = (
            draft
                .levels
                .iter()
                .find(|l| l.level == Level::Hip)
                .map_or(-150.0, |l| l.y_mm),
            form_at(&[Level::Hip])?,
        );
        let top = panels
            .iter()
            .filter_map(|p| p.down.last())
            .map(|p| p.0)
            .fold(f64::NEG_INFINITY, f64::max);
        let lowest = points.crotch_y + OVER_CROTCH;
        let highest = (waist.1 + (top - waist.0).max(0.0) + 20.0).max(hip.1 + 20.0);
        let quarter = |front| quarter_sections(body, lowest, highest, front);
        let gusset_mm = draft
            .pieces
            .iter()
            .find(|p| p.key == "gusset")
            .and_then(|p| Some(p.edge("fold")?.curve.length()))
            .unwrap_or(0.0);
        let whole = panels[0].centre_mm + panels[1].centre_mm + gusset_mm;
        let reach = points.reach.leg_mm.unwrap_or(100.0);
        let mut legs = Legs {
            quarters: [quarter(true)?, quarter(false)?],
            thigh: thigh_sections(body, points.crotch_y - UNDER_CROTCH, points.crotch_y - reach)?,
            under: Vec::new(),
            front_share: panels[0].centre_mm / whole,
            gusset_share: gusset_mm / whole,
            gusset_mm,
            points,
            panels,
            waist,
            hip,
            lowest,
        };
        legs.under = under_curve(points, legs.level(top));
        Ok(legs)
    }

    /// The form's height of a flat one.
    fn level(&self, y: f64) -> f64 {
        let fork_y = self.panels[0].fork_y;
        let between = |(a, b): (f64, f64), (c, d): (f64, f64)| b + (y - a) * (d - b) / (c - a);
        if y >= self.hip.0 {
            between(self.hip, self.waist)
        } else if y >= fork_y {
            between((fork_y, self.points.crotch_y), self.hip)
        } else {
            self.points.crotch_y + (y - fork_y) * LONGER
        }
    }

    /// The midline at a share of the length of centre seams and gusset.
    fn middle(&self, is_front: bool, down: f64) -> V3 {
        let share = if is_front {
            down * self.front_share
        } else {
            1.0 - down * (1.0 - self.front_share - self.gusset_share)
        };
        along(&self.under, share)
    }

    /// The place of a flat point of a front or back.
    pub(super) fn put(&self, is_front: bool, [x, y]: [f64; 2]) -> V3 {
        let behind = usize::from(!is_front);
        let panel = &self.panels[behind];
        let (inner, outer) = panel.width(y);
        let width = (outer - inner).max(1.0);
        let u = ((x - inner) / width).clamp(0.0, 1.0);
        let level = self.level(y);
        // Round the thigh from its outer side.
        let fork = y.min(panel.fork_y);
        let both: f64 = self
            .panels
            .iter()
            .map(|p| {
                let (inner, outer) = p.width(fork.min(p.fork_y));
                (outer - inner).max(1.0)
            })
            .sum();
        let round = ((outer - x) / both).clamp(0.0, 1.0);
        let height = level.min(self.points.crotch_y - UNDER_CROTCH);
        let on_thigh = |height: f64| {
            let share = if is_front { round } else { 1.0 - round };
            self.thigh.at(-height, share)
        };
        if y < panel.fork_y {
            let mut at = on_thigh(height);
            // The fork's own height, up to where the thigh has a section of its own.
            at[1] = at[1].max(level.min(at[1] + UNDER_CROTCH));
            return at;
        }
        let middle = self.middle(is_front, panel.share_down(y));
        let over = ((1.0 - u * u) * middle[1] + u * u * level).max(self.lowest);
        let mut at = self.quarters[behind].at(over, u);
        let from = panel.fork_y + TRUNK_FROM * (self.hip.0 - panel.fork_y);
        let blend = smoothstep((from - y) / (from - panel.fork_y).max(1.0));
        at = add_scaled(at, blend, sub(on_thigh(height), at));
        let near = (1.0 - u).powi(4);
        add_scaled(at, near, sub(add_scaled(middle, 1.0, [x - inner, 0.0, 0.0]), at))
    }

    /// The place of a flat point of the gusset.
    pub(super) fn put_gusset(&self, [x, y]: [f64; 2]) -> V3 {
        let share = if self.gusset_mm > 0.0 {
            0.5 - y / self.gusset_mm
        } else {
            0.5
        };
        let middle = along(&self.under, self.front_share + share * self.gusset_share);
        [middle[0] + 0.5 * x, middle[1] - 0.8 * x, middle[2]]
    }
}

/// Sections round the left thigh from high to low, each from its outer side round the front, the inner side and the back to where it began.
/// Kept by depth: at `-height`.
fn thigh_sections(body: &BodyField, high: f64, low: f64) -> Result<Sections, Unplaced> {
    let count = ((high - low) / STEP).ceil().max(1.0) as usize + 1;
    let mut lines = Vec::with_capacity(count);
    for i in 0..count {
        let y = high - i as f64 * STEP;
        let none = || Unplaced::Section(format!("{:.0} mm below the crotch, round a thigh", high - y));
        let centre = thigh_centre(body, y).ok_or_else(none)?;
        let mut line = Vec::with_capacity(RAYS + 1);
        for ray in 0..=RAYS {
            let (s, c) = (ray as f64 / RAYS as f64 * std::f64::consts::TAU).sin_cos();
            let direction = [c, 0.0, s];
            let t = body.exit(centre, direction, 300.0).ok_or_else(none)?;
            line.push(add_scaled(centre, t, direction));
        }
        lines.push(line);
    }
    Ok(Sections::every(-high, STEP, lines))
}

/// The middle of the left thigh at a height.
fn thigh_centre(body: &BodyField, y: f64) -> Option<V3> {
    let (mut sum, mut count) = ([0.0; 2], 0.0);
    for i in 0..50 {
        for j in -30..=30 {
            let (x, z) = (f64::from(i) * 6.0 + 3.0, f64::from(j) * 7.0);
            if body.value([x, y, z]) < 0.0 {
                sum[0] += x;
                sum[1] += z;
                count += 1.0;
            }
        }
    }
    (count > 0.0).then(|| [sum[0] / count, y, sum[1] / count])
}

fn smoothstep(t: f64) -> f64 {
    let t = t.clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}
