//! The torso: front and back level by level, the crotch along the midline, straps over the shoulder.

use draft::{Draft, Piece};
use kurbo::{ParamCurve, Point};

use super::heights::Heights;
use super::sections::{Sections, along, quarter_sections, strap_sections, under_curve};
use super::sleeves::Sleeves;
use super::{BELOW_UNDERARM, Unplaced};
use crate::body_field::{BodyField, FormPoints};
use crate::suit::{NECK_END, Part, SuitMesh};
use crate::vector::{V3, add_scaled, sub};

/// Nothing of the torso starts lower than this over the crotch, mm: there the legs begin.
const OVER_CROTCH: f64 = 45.0;
/// Share of the crotch length where points begin to follow the midline only.
const CROTCH_FROM: f64 = 0.45;
/// Cloth nearer to a sleeve's armhole than this starts near the arm's edge, mm flat.
const ARMHOLE: f64 = 40.0;
/// Straps begin this far below the underarm on the flat piece and are all strap this much higher, mm.
const STRAP: (f64, f64) = (15.0, 50.0);

/// Flat over body lengthwise, above the bust (about what fits draft; it only places the end of a front that goes on round the neck).
const UPPER_LENGTH: f64 = 0.95;

/// A half of the torso as placing sees it: all of its pieces together, on one side of the body.
pub(super) struct Panel {
    is_front: bool,
    /// Side edge, flat: (y, x) rising.
    side: Vec<(f64, f64)>,
    /// Length of the fold below the waist.
    crotch: f64,
    /// Flat height of the underarm, if the piece goes on above it.
    underarm: Option<f64>,
    /// Flat height of the shoulder.
    top: f64,
    /// Where the shoulder begins and ends, from the fold.
    shoulder: Option<(f64, f64)>,
    /// The armhole from the underarm up: (y, x, length from there).
    armhole: Vec<(f64, f64, f64)>,
    /// A strap that goes on round the neck ends below the shoulder: flat middle of its end.
    neck_end: Option<[f64; 2]>,
}

impl Panel {
    pub(super) const fn neck_end(&self) -> Option<[f64; 2]> {
        self.neck_end
    }
}

/// What placing on the torso goes by.
pub(super) struct Torso<'a> {
    body: &'a BodyField,
    points: &'a FormPoints,
    heights: Heights,
    /// Lowest and highest height anything of the torso starts at.
    reach: (f64, f64),
    /// Quarter sections in front and behind.
    quarters: [Sections; 2],
    /// Sections over the shoulder in front and behind, where there are straps.
    straps: Option<[Sections; 2]>,
    /// The midline from the waist in front to the waist behind, and how much of it the front takes.
    under: Vec<V3>,
    front_share: f64,
    /// The sleeves, whose armholes are sewn to the arm's edge.
    sleeves: Option<&'a Sleeves<'a>>,
    /// Flat distance of the strap's middle from the fold.
    strap_mid: Option<f64>,
    /// Pattern over body around, above the bust.
    upper: f64,
}

impl<'a> Torso<'a> {
    /// # Errors
    /// [`Unplaced::Section`] where the form has none.
    pub(super) fn new(
        suit: &SuitMesh,
        draft: &Draft,
        body: &'a BodyField,
        panels: &[&Panel],
        sleeves: Option<&'a Sleeves<'a>>,
    ) -> Result<Torso<'a>, Unplaced> {
        let points = &body.form;
        let underarm = panels.iter().find_map(|p| p.underarm);
        let heights = Heights::new(draft, points, underarm);
        let reach = (points.crotch_y + OVER_CROTCH, points.underarm_y - 10.0);
        let quarter = |front| quarter_sections(body, reach.0, reach.1, front);
        let strap = |front| strap_sections(body, points, front);
        let crotch = |front: bool| {
            let own = panels.iter().filter(|p| p.is_front == front);
            own.map(|p| p.crotch).fold(0.0, f64::max)
        };
        Ok(Torso {
            reach,
            quarters: [quarter(true)?, quarter(false)?],
            straps: if suit.shoulder.is_empty()
                && sleeves.is_none()
                && panels.iter().all(|p| p.neck_end.is_none())
            {
                None
            } else {
                Some([strap(true)?, strap(false)?])
            },
            under: under_curve(points, heights.at(0.0)),
            front_share: crotch(true) / (crotch(true) + crotch(false)).max(1.0),
            strap_mid: draft.strap_mid.map(|p| p.x).filter(|_| sleeves.is_none()),
            sleeves,
            upper: upper_factor(draft),
            heights,
            points,
            body,
        })
    }

    /// Where the middle of the shoulder seam lies, from the middle of the body.
    pub(super) fn station(&self) -> Option<f64> {
        self.strap_mid.map(|mid| self.station_of(mid))
    }

    fn station_of(&self, strap_mid: f64) -> f64 {
        (strap_mid / self.upper).clamp(self.points.side_neck[0], self.points.shoulder[0])
    }

    /// The place at a height in front and an arc's length from the middle.
    pub(super) fn front_at(&self, height: f64, arc_mm: f64) -> V3 {
        let within = height.clamp(self.reach.0, self.reach.1);
        let whole = self.quarters[0].length(within).max(1.0);
        let at = self.quarters[0].at(within, (arc_mm / whole).clamp(0.0, 1.0));
        if height > within {
            self.above(at, height, true)
        } else {
            at
        }
    }

    /// A point of the chest or back lifted above where sections go round without meeting the arms.
    fn above(&self, [x, y, z]: V3, height: f64, is_front: bool) -> V3 {
        let forward = if is_front { 1.0 } else { -1.0 };
        let inside = [x, height, z - forward * 40.0];
        match self.body.exit(inside, [0.0, 0.0, forward], 120.0) {
            Some(out) => add_scaled(inside, out, [0.0, 0.0, forward]),
            None => [x, y.max(height), z],
        }
    }

    /// The place of a flat point of a panel.
    pub(super) fn put(&self, panel: &Panel, [x, y]: [f64; 2]) -> V3 {
        let points = self.points;
        let behind = usize::from(!panel.is_front);
        let half = side_x(&panel.side, y).max(1.0);
        let u = (x / half).clamp(0.0, 1.0);
        let s = if panel.crotch > 0.0 {
            (-y / panel.crotch).clamp(0.0, 1.0)
        } else {
            0.0
        };
        // The midline from waist to crotch: fronts run down it, backs up.
        let middle = if panel.is_front {
            along(&self.under, s * self.front_share)
        } else {
            along(&self.under, 1.0 - s * (1.0 - self.front_share))
        };
        let level = self.heights.at(y);
        let to_crotch = y < 0.0 && panel.crotch > 0.0;
        let middle_y = if to_crotch { middle[1] } else { level };
        let side_y = level.min(points.underarm_y - BELOW_UNDERARM);
        let wanted = (1.0 - u * u) * middle_y + u * u * side_y;
        let height = wanted.clamp(self.reach.0, self.reach.1);
        let mut at = self.quarters[behind].at(height, u);
        if panel.underarm.is_none() && wanted > height {
            at = self.above(at, wanted, panel.is_front);
        }
        if to_crotch {
            let blend = smoothstep((s - CROTCH_FROM) / (1.0 - CROTCH_FROM));
            let to = [middle[0] + x, middle[1], middle[2]];
            at = add_scaled(at, blend, sub(to, at));
        }
        if let (Some(straps), Some(under_y)) = (&self.straps, panel.underarm)
            && y > under_y - STRAP.0
        {
            let blend = smoothstep((y - (under_y - STRAP.0)) / STRAP.1);
            let rise = ((y - under_y) / (panel.top - under_y).max(1.0)).clamp(0.0, 1.0);
            let mid = panel.neck_end.map(|p| p[0]).or(self.strap_mid);
            let far = match (mid, panel.shoulder) {
                (Some(mid), _) => self.station_of(mid) + (x - mid) / self.upper,
                // The whole shoulder, from side neck to shoulder point.
                (None, Some((neck, tip))) => {
                    let (a, b) = (points.side_neck[0], points.shoulder[0]);
                    a + (x - neck) / (tip - neck).max(1.0) * (b - a)
                }
                (None, None) => x / self.upper,
            };
            let rise = match panel.neck_end {
                // It ends where its length takes it, not at the shoulder.
                Some(_) => {
                    let to_ridge = straps[behind].length(distance_of(at, far, rise));
                    ((y - under_y) / (UPPER_LENGTH * to_ridge)).clamp(0.0, 1.0)
                }
                None => rise,
            };
            let distance = distance_of(at, far, rise);
            let to = straps[behind].at(distance, rise);
            at = add_scaled(at, blend, sub([distance, to[1], to[2]], at));
            if let Some(sleeves) = self.sleeves {
                // Near the armhole, towards the arm's edge.
                let out = armhole_x(&panel.armhole, y);
                let near = smoothstep(1.0 - (out - x) / ARMHOLE);
                let edge = sleeves.armhole(panel.is_front, armhole_share(&panel.armhole, y));
                at = add_scaled(at, near, sub(edge, at));
            }
        }
        at
    }
}

/// Distance from the middle on the way from the torso to the strap's station.
fn distance_of(at: V3, far: f64, rise: f64) -> f64 {
    at[0] + smoothstep(rise) * (far - at[0])
}

/// Pattern over body around, above the bust: the topmost level's.
fn upper_factor(draft: &Draft) -> f64 {
    draft
        .levels
        .first()
        .map_or(0.9, |l| (l.pattern_mm / l.body_mm).clamp(0.6, 1.1))
}

/// How far each piece is drawn from its place in the half's frame, by flat height: a princess side panel is turned about the bust point, a
/// block of another cloth cut narrower. 0 for pieces that lie where they were cut from.
pub(super) struct Shift {
    /// (y, shift) rising.
    line: Vec<(f64, f64)>,
}

impl Shift {
    pub(super) fn at(&self, y: f64) -> f64 {
        if self.line.is_empty() {
            0.0
        } else {
            value_at(&self.line, y)
        }
    }
}

/// The shifts of the pieces that are meshed, in their order: what parts each from its neighbour towards the middle along the seam that runs
/// lengthwise between them.
pub(super) fn shifts(suit: &SuitMesh, draft: &Draft) -> Vec<Shift> {
    let pieces = &suit.drawn;
    let mean = |i: usize| -> f64 {
        let points: Vec<Point> = pieces[i].edges.iter().map(|e| e.curve.start()).collect();
        points.iter().map(|p| p.x.abs()).sum::<f64>() / points.len().max(1) as f64
    };
    (0..pieces.len())
        .map(|outer| {
            let mut line = Vec::new();
            for walk in &draft.seams {
                for (own, other) in [(&walk.first, &walk.second), (&walk.second, &walk.first)] {
                    let inner = (0..pieces.len()).find(|i| {
                        let same_side = middle_x(&pieces[*i]) * middle_x(&pieces[outer]) >= 0.0;
                        pieces[*i].key == other.0 && suit.parts[*i] == suit.parts[outer] && same_side
                    });
                    let Some(inner) = inner.filter(|i| *i != outer && own.0 == pieces[outer].key) else {
                        continue;
                    };
                    if mean(inner) >= mean(outer) {
                        continue;
                    }
                    let side = middle_x(&pieces[outer]);
                    let (a, b) = (
                        edge_points(&pieces[outer], &own.1, side),
                        edge_points(&pieces[inner], &other.1, side),
                    );
                    let ([low, .., high], false) = (&a[..], b.is_empty()) else {
                        continue;
                    };
                    if high.0 - low.0 < (high.1 - low.1).abs() {
                        // It runs around: one piece lies above the other.
                        continue;
                    }
                    line.extend(a.iter().map(|(y, x)| (*y, x - value_at(&b, *y))));
                }
            }
            line.sort_by(|a, b| a.0.total_cmp(&b.0));
            Shift { line }
        })
        .collect()
}

fn middle_x(piece: &Piece) -> f64 {
    let sum: f64 = piece.edges.iter().map(|e| e.curve.start().x).sum();
    if sum.abs() < 1.0 { 0.0 } else { sum }
}

/// Points of the edges of those names on one side of the body as (y, |x|), rising.
fn edge_points(piece: &Piece, names: &[&str], side: f64) -> Vec<(f64, f64)> {
    let mut points: Vec<(f64, f64)> = piece
        .edges
        .iter()
        .filter(|e| names.contains(&e.name) && (e.curve.start().x + e.curve.end().x) * side >= 0.0)
        .flat_map(|e| {
            e.curve
                .cubics()
                .iter()
                .flat_map(|c| (0..=16).map(|i| c.eval(f64::from(i) / 16.0)))
        })
        .map(|p: Point| (p.y, p.x.abs()))
        .collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    points
}

/// The halves of each garment (a suit or a top, then a brief of its own) on each side of the body (left above 0): front and back of each,
/// where it has them.
///
/// # Errors
/// [`Unplaced::NoSide`] for a half without a side edge.
pub(super) fn panels(
    suit: &SuitMesh,
    shifts: &[Shift],
    sides: &[f64],
) -> Result<Vec<Option<Panel>>, Unplaced> {
    let garments = [false, true].into_iter();
    let halves = garments.flat_map(|is_brief| {
        sides
            .iter()
            .flat_map(move |side| [(is_brief, true, *side), (is_brief, false, *side)])
    });
    halves
        .map(|(is_brief, is_front, side)| panel(suit, shifts, (is_front, is_brief), side))
        .collect()
}

/// Which of the [`panels`] of so many sides a piece is placed by.
pub(super) fn number(is_front: bool, is_right: bool, key: &str, sides: usize) -> usize {
    usize::from(!is_front) + 2 * usize::from(is_right) + 2 * sides * usize::from(is_of_brief(key))
}

/// Reads the pieces of a half of a garment on one side of the body (left above 0): its side edges, the depth of its fold. `None` where it
/// has none.
///
/// # Errors
/// [`Unplaced::NoSide`] for a half without a side edge.
fn panel(
    suit: &SuitMesh,
    shifts: &[Shift],
    (is_front, is_brief): (bool, bool),
    on: f64,
) -> Result<Option<Panel>, Unplaced> {
    let part = Part::Torso { is_front };
    let own = || {
        suit.drawn
            .iter()
            .zip(shifts)
            .zip(&suit.parts)
            .filter(move |((piece, _), p)| **p == part && is_of_brief(&piece.key) == is_brief)
    };
    if own().next().is_none() {
        return Ok(None);
    }
    let mut side: Vec<(f64, f64)> = own()
        .flat_map(|((piece, shift), _)| {
            let names: Vec<&str> = piece
                .edges
                .iter()
                .map(|e| e.name)
                .filter(|n| is_side(n))
                .collect();
            edge_points(piece, &names, on)
                .into_iter()
                .map(|(y, x)| (y, x - shift.at(y)))
        })
        .collect();
    let sewn = &suit.sewn;
    let edge = |name: &str| own().find_map(|((piece, _), _)| piece.edge(name));
    if side.is_empty()
        && let Some(end) = edge("tie_end")
    {
        // Its side would be half the gap further out.
        let out = 0.5 * sewn.side_gap_mm * upper_factor(&sewn.draft);
        side = [end.curve.start(), end.curve.end()]
            .map(|p| (p.y, p.x + out))
            .to_vec();
    }
    if side.is_empty() {
        return Err(Unplaced::NoSide(if is_front { "front" } else { "back" }.into()));
    }
    side.sort_by(|a, b| a.0.total_cmp(&b.0));
    let points = own().flat_map(|((piece, _), _)| piece.edges.iter().flat_map(|e| e.curve.flatten(1.0)));
    let lowest = points
        .filter(|p| p.x.abs() < 1.0)
        .map(|p| p.y)
        .fold(0.0, f64::min);
    let middle = |name: &str| {
        let e = edge(name)?;
        let p = e.curve.start().midpoint(e.curve.end());
        Some([p.x, p.y])
    };
    // A ring takes half its width out of either end.
    let neck_end = middle(NECK_END);
    let top = middle("shoulder")
        .map(|p| p[1] + 0.5 * sewn.ring_mm)
        .or(neck_end.map(|p| p[1]));
    let side_top = side.last().map_or(0.0, |s| s.0);
    Ok(Some(Panel {
        is_front,
        crotch: if edge("crotch").is_some() { -lowest } else { 0.0 },
        underarm: top.map(|_| side_top),
        top: top.unwrap_or(side_top),
        shoulder: edge("shoulder").map(|e| {
            let (a, b) = (e.curve.start().x, e.curve.end().x);
            (a.min(b), a.max(b))
        }),
        armhole: edge("armhole").map_or_else(Vec::new, |e| {
            let length = e.curve.length();
            let is_up = e.curve.end().y > e.curve.start().y;
            (0..=40)
                .map(|i| {
                    let s = length * f64::from(i) / 40.0;
                    let p = e.curve.at_length(if is_up { s } else { length - s }).0;
                    (p.y, p.x, s)
                })
                .collect()
        }),
        neck_end,
        side,
    }))
}

/// The brief of a two-piece is a garment of its own.
fn is_of_brief(key: &str) -> bool {
    key.starts_with("brief_")
}

/// Side seams by name: `side`, `side_low`, `side_left`.
fn is_side(name: &str) -> bool {
    name == "side" || name.starts_with("side_")
}

/// Where an armhole is at a height, held beyond its ends.
fn armhole_x(armhole: &[(f64, f64, f64)], y: f64) -> f64 {
    at_height(armhole, y, |p| p.1)
}

/// The share of an armhole below a height.
fn armhole_share(armhole: &[(f64, f64, f64)], y: f64) -> f64 {
    let whole = armhole.last().map_or(1.0, |p| p.2).max(1.0);
    at_height(armhole, y, |p| p.2) / whole
}

fn at_height(line: &[(f64, f64, f64)], y: f64, of: impl Fn(&(f64, f64, f64)) -> f64) -> f64 {
    let i = line.iter().position(|p| p.0 >= y).unwrap_or(line.len());
    match (i.checked_sub(1).and_then(|j| line.get(j)), line.get(i)) {
        (Some(a), Some(b)) if b.0 > a.0 => of(a) + (y - a.0) / (b.0 - a.0) * (of(b) - of(a)),
        (Some(p), _) | (None, Some(p)) => of(p),
        (None, None) => 0.0,
    }
}

/// Half width at a height, held constant beyond the side edge's ends.
fn side_x(side: &[(f64, f64)], y: f64) -> f64 {
    value_at(side, y)
}

/// The value at a height of a rising line, held constant beyond its ends; 1 for none.
fn value_at(line: &[(f64, f64)], y: f64) -> f64 {
    let i = line.partition_point(|s| s.0 < y);
    match (i.checked_sub(1).and_then(|j| line.get(j)), line.get(i)) {
        (Some(a), Some(b)) if b.0 > a.0 => a.1 + (y - a.0) / (b.0 - a.0) * (b.1 - a.1),
        (Some(a), _) => a.1,
        (None, Some(b)) => b.1,
        (None, None) => 1.0,
    }
}

fn smoothstep(t: f64) -> f64 {
    let t = t.clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}
