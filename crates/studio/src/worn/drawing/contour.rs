//! Lines of one value over the cloth in sight, and where their numbers stand.
//!
//! **Method.** Marching triangles: within a triangle a value runs straight, so a level crosses it in one line between two of its sides.
//! Lines that meet on a side are one. Numbers are set on the longest lines first, each in the first place of its line, from the middle
//! outwards, where it touches no other number.
//!
//! **Shapes and units.** Page units.

use std::collections::BTreeMap;

use super::figure::Seen;
use super::sheet::{Place, width_of_number};

/// A side of a triangle, of her left half or mirrored.
type SideOf = (usize, usize, bool);

/// A line of one value.
#[derive(Clone, Debug)]
pub(super) struct Line {
    /// Number of its level.
    pub(super) level: usize,
    /// Whether it lies on her right half, where no numbers are set.
    pub(super) is_mirrored: bool,
    pub(super) points: Vec<[f64; 2]>,
}

impl Line {
    fn length(&self) -> f64 {
        self.points.windows(2).map(|w| distance(w[0], w[1])).sum()
    }
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// The lines of every level over the triangles in sight, in the order of levels.
pub(super) fn lines(
    triangles: &[Seen],
    value: &dyn Fn(usize) -> Option<f64>,
    place: &Place,
    levels: &[f64],
) -> Vec<Line> {
    let mut all = Vec::new();
    for (number, level) in levels.iter().enumerate() {
        let mut at: BTreeMap<SideOf, [f64; 2]> = BTreeMap::new();
        let mut links: BTreeMap<SideOf, Vec<SideOf>> = BTreeMap::new();
        for t in triangles {
            let values = t.corners.map(value);
            let mut met = Vec::with_capacity(2);
            for (i, j) in [(0, 1), (1, 2), (2, 0)] {
                let (Some(a), Some(b)) = (values[i], values[j]) else {
                    continue;
                };
                if (a < *level) == (b < *level) {
                    continue;
                }
                let s = (level - a) / (b - a);
                let (p, q) = (t.at[i], t.at[j]);
                let spot = [0, 1, 2].map(|k| p[k] + s * (q[k] - p[k]));
                let (v, w) = (t.corners[i], t.corners[j]);
                let side = (v.min(w), v.max(w), t.is_mirrored);
                at.insert(side, place.at(spot));
                met.push(side);
            }
            if let [a, b] = met[..] {
                links.entry(a).or_default().push(b);
                links.entry(b).or_default().push(a);
            }
        }
        let found = chained(&at, links).into_iter();
        let found = found.map(|(points, is_mirrored)| Line {
            level: number,
            is_mirrored,
            points: eased(points),
        });
        all.extend(found.filter(|l| l.length() > LEAST_LINE));
    }
    all
}

/// A shorter line is a speck of one triangle, page units.
const LEAST_LINE: f64 = 14.0;

/// A line without the corners of its triangles: each point nearer to its neighbours' middle, twice; the ends stay.
fn eased(mut points: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    let is_ring = points.len() > 3 && points.first() == points.last();
    for _ in 0..2 {
        let before = points.clone();
        let n = before.len();
        for (i, p) in points.iter_mut().enumerate() {
            let neighbours = if i > 0 && i + 1 < n {
                Some((before[i - 1], before[i + 1]))
            } else if is_ring {
                Some((before[n - 2], before[1]))
            } else {
                None
            };
            if let Some((a, b)) = neighbours {
                *p = [0, 1].map(|k| 0.5 * before[i][k] + 0.25 * (a[k] + b[k]));
            }
        }
    }
    points
}

/// Links as lines: open ones from their ends, then rings.
fn chained(
    at: &BTreeMap<SideOf, [f64; 2]>,
    mut links: BTreeMap<SideOf, Vec<SideOf>>,
) -> Vec<(Vec<[f64; 2]>, bool)> {
    let mut all = Vec::new();
    let ends: Vec<SideOf> = links
        .iter()
        .filter(|(_, l)| l.len() == 1)
        .map(|(s, _)| *s)
        .collect();
    let rest: Vec<SideOf> = links.keys().copied().collect();
    for start in ends.into_iter().chain(rest) {
        let mut points = Vec::new();
        let mut here = start;
        points.extend(at.get(&here));
        while let Some(next) = links.get_mut(&here).and_then(Vec::pop) {
            if let Some(back) = links.get_mut(&next)
                && let Some(i) = back.iter().position(|b| *b == here)
            {
                back.remove(i);
            }
            points.extend(at.get(&next));
            here = next;
        }
        if points.len() > 1 {
            all.push((points, start.2));
        }
    }
    all
}

/// A number on a line.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Label {
    pub(super) at: [f64; 2],
    pub(super) text: String,
}

/// Size of the numbers.
pub(super) const LABEL: f64 = 13.0;
/// Room about a number.
const ROOM: f64 = 5.0;
/// A line shorter than this many widths of its number has none.
const LEAST_WIDTHS: f64 = 1.6;
/// On a long line a number stands about every so much.
const APART: f64 = 240.0;

/// The numbers of the lines of her left half. `is_free` says whether a box (left, top, right, bottom) may hold one.
pub(super) fn labels(lines: &[Line], texts: &[String], is_free: &dyn Fn([f64; 4]) -> bool) -> Vec<Label> {
    let mut order: Vec<&Line> = lines.iter().filter(|l| !l.is_mirrored).collect();
    order.sort_by(|a, b| b.length().total_cmp(&a.length()));
    let mut taken: Vec<[f64; 4]> = Vec::new();
    let mut labels = Vec::new();
    for line in order {
        let Some(text) = texts.get(line.level) else {
            continue;
        };
        let (wide, length) = (width_of_number(text, LABEL), line.length());
        if length < LEAST_WIDTHS * wide {
            continue;
        }
        let count = (length / APART).floor().max(1.0) as usize;
        for number in 0..count {
            // From the middle of its part outwards.
            let (from, part) = (number as f64 / count as f64, 1.0 / count as f64);
            let shares = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8];
            let place = shares.iter().find_map(|share| {
                let [x, y] = along(&line.points, (from + share * part) * length)?;
                let (w, h) = (wide / 2.0 + ROOM, LABEL / 2.0 + ROOM / 2.0);
                let box_ = [x - w, y - h, x + w, y + h];
                let clear =
                    |t: &[f64; 4]| box_[0] > t[2] || box_[2] < t[0] || box_[1] > t[3] || box_[3] < t[1];
                (taken.iter().all(clear) && is_free(box_)).then_some(([x, y], box_))
            });
            if let Some((at, box_)) = place {
                taken.push(box_);
                labels.push(Label {
                    at,
                    text: text.clone(),
                });
            }
        }
    }
    labels
}

/// The point so far along a line.
fn along(points: &[[f64; 2]], mut left: f64) -> Option<[f64; 2]> {
    for w in points.windows(2) {
        let length = distance(w[0], w[1]);
        if left <= length && length > 0.0 {
            let s = left / length;
            return Some([0, 1].map(|k| w[0][k] + s * (w[1][k] - w[0][k])));
        }
        left -= length;
    }
    points.last().copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(level: usize, from: [f64; 2], to: [f64; 2]) -> Line {
        let points = (0..=10)
            .map(|i| [0, 1].map(|k| from[k] + f64::from(i) / 10.0 * (to[k] - from[k])))
            .collect();
        Line {
            level,
            is_mirrored: false,
            points,
        }
    }

    #[test]
    fn numbers_touch_neither_each_other_nor_what_is_not_free() {
        let lines: Vec<Line> = (0..8)
            .map(|i| line(i, [0.0, 6.0 * i as f64], [200.0, 6.0 * i as f64]))
            .collect();
        let texts: Vec<String> = (0..8).map(|i| format!("{i} %")).collect();
        let all = labels(&lines, &texts, &|b| b[0] > 60.0);
        assert!(all.len() > 2, "{all:?}");
        for (i, a) in all.iter().enumerate() {
            assert!(a.at[0] > 60.0);
            for b in &all[i + 1..] {
                let (dx, dy) = ((a.at[0] - b.at[0]).abs(), (a.at[1] - b.at[1]).abs());
                assert!(dx > width_of_number("0 %", LABEL) || dy > LABEL, "{a:?} {b:?}");
            }
        }
        // A line shorter than its number has none.
        assert!(labels(&[line(0, [0.0; 2], [10.0, 0.0])], &texts, &|_| true).is_empty());
    }
}
