//! Section rings for drawing: the form cut by horizontal planes into closed lines of evenly spaced points.
//!
//! The faces give one short piece each; pieces are joined at the edges they share, never by distance, so a ring can't
//! jump. Where the plane meets an open edge (an armscye, the neck, the lower end of a thigh) the two ends on that edge
//! are joined by a straight line: across the armscye the ring runs from the front fold to the back fold as a tape
//! under a lifted arm would.
//!
//! **Shapes and units.** mm, frame of the form. Rings run counter-clockwise in the view with x right and z up:
//! from centre back over the wearer's left to the front.
//! **Source.** Own.
//! **Limits.** Above the crotch only the trunk is a ring: the stub of an arm that hangs below its armscye is left out.
//! The legs of a very heavy body may pass the midline and cross each other; each is still a ring of its own.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;
use units::Level;

use super::section::{self, Plane};
use super::surface::{Opening, Surface};

/// Points of a ring.
pub const RING_POINTS: usize = 64;
/// Shortest ring that is drawn: less is the tip of something, not a section.
const LEAST_RING_MM: f64 = 20.0;

/// Which part of the body a ring goes round.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RingPart {
    /// The trunk: it meets the midline.
    Trunk,
    /// The wearer's left leg.
    Left,
    /// The wearer's right leg.
    Right,
}

/// A closed line round the form.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Ring {
    /// The level it lies at, if it was made for one.
    pub level: Option<Level>,
    /// What it goes round.
    pub part: RingPart,
    /// Height over the crotch; the mean for the neck base, which is not level.
    pub y_mm: f64,
    /// Length of a taut tape round the section (convex hull), before points were spaced evenly. For the neck base the
    /// length of the ring itself.
    pub girth_mm: f64,
    /// Whether part of it is a straight line across an armscye, the neck or the end of a leg.
    pub bridged: bool,
    /// [`RING_POINTS`] points at even distance along the ring, from centre back (a leg: from its rearmost point) over
    /// the wearer's left; the last is not the first again.
    pub points: Vec<[f64; 3]>,
}

/// The rings at a height: the trunk's above the crotch; left, then right, below.
pub(crate) fn at(surface: &Surface, vertices: &[[f64; 3]], y: f64) -> Vec<Ring> {
    let (links, cuts) = pieces(surface, vertices, y);
    let sections: Vec<Section> = loops(&links)
        .into_iter()
        .map(|(edges, bridged)| {
            let line: Vec<[f64; 3]> = edges.iter().filter_map(|e| cuts.get(e).copied()).collect();
            let flat = line.iter().map(|p| [p[0], p[2]]).collect();
            Section {
                girth_mm: section::perimeter2(&section::hull(flat)),
                line,
                bridged,
            }
        })
        .filter(|section| section.girth_mm >= LEAST_RING_MM)
        .collect();
    let below_crotch = y <= vertices[surface.landmarks.crotch][1];
    let mut rings: Vec<Ring> = if below_crotch && sections.len() > 1 {
        let legs = sections.into_iter();
        legs.map(|section| {
            let part = if section.middle_x() > 0.0 {
                RingPart::Left
            } else {
                RingPart::Right
            };
            ring(section, part, y)
        })
        .collect()
    } else {
        let around = sections.into_iter().filter(Section::meets_midline);
        let trunk = around.max_by(|a, b| a.girth_mm.total_cmp(&b.girth_mm));
        trunk
            .map(|section| ring(section, RingPart::Trunk, y))
            .into_iter()
            .collect()
    };
    rings.sort_by_key(|r| r.part);
    rings
}

/// A closed line of the section, not yet turned or spaced.
struct Section {
    line: Vec<[f64; 3]>,
    girth_mm: f64,
    bridged: bool,
}

impl Section {
    fn middle_x(&self) -> f64 {
        self.line.iter().map(|p| p[0]).sum::<f64>() / self.line.len().max(1) as f64
    }

    fn meets_midline(&self) -> bool {
        self.line.iter().any(|p| p[0] < 0.0) && self.line.iter().any(|p| p[0] >= 0.0)
    }
}

/// Links between cut edges; `true` marks a straight line across an opening.
type Links = BTreeMap<usize, Vec<(usize, bool)>>;

fn pieces(surface: &Surface, vertices: &[[f64; 3]], y: f64) -> (Links, BTreeMap<usize, [f64; 3]>) {
    let plane = Plane::horizontal(y);
    let mut links: Links = BTreeMap::new();
    let mut cuts: BTreeMap<usize, [f64; 3]> = BTreeMap::new();
    for sides in &surface.face_edges {
        let mut met = [None; 2];
        let mut count = 0;
        for &edge in sides {
            let [a, b] = surface.edges[edge];
            if let Some(p) = section::crossing(&plane, vertices[a], vertices[b]) {
                cuts.insert(edge, p);
                if let Some(slot) = met.get_mut(count) {
                    *slot = Some(edge);
                }
                count += 1;
            }
        }
        if let [Some(a), Some(b)] = met {
            links.entry(a).or_default().push((b, false));
            links.entry(b).or_default().push((a, false));
        }
    }
    let mut ends: BTreeMap<Opening, Vec<usize>> = BTreeMap::new();
    for (&edge, to) in &links {
        if let (1, Some(opening)) = (to.len(), surface.edge_opening[edge]) {
            ends.entry(opening).or_default().push(edge);
        }
    }
    for mut open in ends.into_values() {
        while let Some((i, k)) = nearest(&open, &cuts) {
            let (b, a) = (open.remove(k), open.remove(i));
            links.entry(a).or_default().push((b, true));
            links.entry(b).or_default().push((a, true));
        }
    }
    (links, cuts)
}

/// The two nearest of the open ends, lower place first.
fn nearest(open: &[usize], cuts: &BTreeMap<usize, [f64; 3]>) -> Option<(usize, usize)> {
    let mut best: Option<(f64, (usize, usize))> = None;
    for (k, b) in open.iter().enumerate() {
        for (i, a) in open[..k].iter().enumerate() {
            let apart = section::distance3(*cuts.get(a)?, *cuts.get(b)?);
            if best.is_none_or(|(least, _)| apart < least) {
                best = Some((apart, (i, k)));
            }
        }
    }
    best.map(|(_, pair)| pair)
}

/// Closed walks along the links, each with whether it crosses an opening.
fn loops(links: &Links) -> Vec<(Vec<usize>, bool)> {
    let mut seen: BTreeSet<usize> = BTreeSet::new();
    let mut found = Vec::new();
    for &start in links.keys() {
        let (mut walk, mut bridged, mut at) = (Vec::new(), false, start);
        while seen.insert(at) {
            walk.push(at);
            let onward = links
                .get(&at)
                .and_then(|to| to.iter().find(|(next, _)| !seen.contains(next)));
            if let Some((next, across)) = onward {
                bridged |= across;
                at = *next;
            }
        }
        // The walk ends beside its start; the closing link may be the straight one.
        if let Some(last) = walk.last() {
            let closing = links.get(last).map_or(&[][..], Vec::as_slice);
            bridged |= closing.iter().any(|(to, across)| *to == start && *across);
        }
        if walk.len() > 2 {
            found.push((walk, bridged));
        }
    }
    found
}

fn ring(section: Section, part: RingPart, y: f64) -> Ring {
    let mut line = section.line;
    if area(&line) < 0.0 {
        line.reverse();
    }
    match part {
        RingPart::Trunk => from_centre_back(&mut line),
        RingPart::Left | RingPart::Right => {
            let rearmost = (0..line.len()).min_by(|a, b| line[*a][2].total_cmp(&line[*b][2]));
            line.rotate_left(rearmost.unwrap_or(0));
        }
    }
    Ring {
        level: None,
        part,
        y_mm: y,
        girth_mm: section.girth_mm,
        bridged: section.bridged,
        points: spaced(&line, RING_POINTS),
    }
}

/// Twice the area in the x, z view; positive when the ring runs from the back over the left to the front.
pub(crate) fn area(line: &[[f64; 3]]) -> f64 {
    let next = line.iter().cycle().skip(1);
    line.iter()
        .zip(next)
        .map(|(p, q)| p[0] * q[2] - q[0] * p[2])
        .sum()
}

/// Turns a ring so that it starts at centre back, where a point is put in.
pub(crate) fn from_centre_back(line: &mut Vec<[f64; 3]>) {
    let mut start: Option<(usize, [f64; 3])> = None;
    for (i, p) in line.iter().enumerate() {
        let q = line[(i + 1) % line.len()];
        if (p[0] >= 0.0) != (q[0] >= 0.0) {
            let mut on = section::between(*p, q, p[0] / (p[0] - q[0]));
            on[0] = 0.0;
            if start.is_none_or(|(_, behind)| on[2] < behind[2]) {
                start = Some((i + 1, on));
            }
        }
    }
    if let Some((at, on)) = start {
        let count = line.len();
        line.rotate_left(at % count);
        if line.first().is_some_and(|p| section::distance3(*p, on) > 1e-9) {
            line.insert(0, on);
        }
    }
}

/// Points at even distance along a closed line, the first being its first.
pub(crate) fn spaced(line: &[[f64; 3]], count: usize) -> Vec<[f64; 3]> {
    let whole = section::perimeter3(line);
    let mut points = Vec::with_capacity(count);
    let (mut gone, mut i) = (0.0, 0);
    for n in 0..count {
        let goal = whole * n as f64 / count as f64;
        while i < line.len() {
            let (p, q) = (line[i], line[(i + 1) % line.len()]);
            let side = section::distance3(p, q);
            if gone + side >= goal || i + 1 == line.len() {
                let share = if side > 0.0 { (goal - gone) / side } else { 0.0 };
                points.push(section::between(p, q, share.clamp(0.0, 1.0)));
                break;
            }
            gone += side;
            i += 1;
        }
    }
    points
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_is_spaced_evenly_from_its_first_corner() {
        let square = [[0.0, 0.0, 0.0], [4.0, 0.0, 0.0], [4.0, 0.0, 4.0], [0.0, 0.0, 4.0]];
        let points = spaced(&square, 8);
        assert_eq!(points.len(), 8);
        assert_eq!(points[1], [2.0, 0.0, 0.0]);
        assert_eq!(points[7], [0.0, 0.0, 2.0]);
    }

    #[test]
    fn a_ring_starts_at_centre_back() {
        let mut line = vec![
            [2.0, 0.0, -1.0],
            [2.0, 0.0, 3.0],
            [-2.0, 0.0, 3.0],
            [-2.0, 0.0, -1.0],
        ];
        assert!(area(&line) > 0.0);
        from_centre_back(&mut line);
        assert_eq!(line[0], [0.0, 0.0, -1.0]);
        assert_eq!(line[1], [2.0, 0.0, -1.0]);
    }
}
