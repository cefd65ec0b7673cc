//! An outline with fewer points that covers all of the old one: bays are bridged, blunt corners are led on until they meet.
//!
//! Always the change that adds the least area comes first, until the area allowed is used up. The box stays as it was, so that a piece
//! that fits across the cloth still does, and the outline never crosses itself.
//!
//! **Source.** Own, after the idea of removing the corners of least effect (Visvalingam & Whyatt 1993, from memory), turned outwards only.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use kurbo::Point;

use crate::polygon::{self, Bounds};

/// A change at a corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Change {
    /// The corner points inwards: its neighbours are joined.
    Bridge,
    /// It and the next point outwards: the edges beyond them are led on until they meet.
    LeadOn,
}

/// A change waiting for its turn; the area comes first in the order. Areas are positive, so their bits are ordered as they are.
type Waiting = Reverse<(u64, usize, Change, u32)>;

struct Ring {
    points: Vec<Point>,
    before: Vec<usize>,
    after: Vec<usize>,
    /// Counts what happened around a corner: a waiting change of an older count is void.
    stamp: Vec<u32>,
    left: usize,
    bounds: Bounds,
}

/// The ring with fewer points, its area larger by at most that share.
///
/// The ring runs counter-clockwise and does not cross itself; so does what comes back.
pub(crate) fn outwards(ring: &[Point], share: f64) -> Vec<Point> {
    let n = ring.len();
    let mut work = Ring {
        points: ring.to_vec(),
        before: (0..n).map(|i| (i + n - 1) % n).collect(),
        after: (0..n).map(|i| (i + 1) % n).collect(),
        stamp: vec![0; n],
        left: n,
        bounds: Bounds::of(ring),
    };
    let mut room = share * polygon::signed_area(ring).abs();
    let mut waiting: BinaryHeap<Waiting> = BinaryHeap::new();
    for i in 0..n {
        work.offer(i, &mut waiting);
    }
    while let Some(Reverse((area, i, change, stamp))) = waiting.pop() {
        let area = f64::from_bits(area);
        if work.left <= 4 || area > room {
            break;
        }
        if stamp == work.stamp[i] && work.apply(i, change) {
            room -= area;
            let (before, after) = (work.before[i], work.after[i]);
            let around = match change {
                Change::Bridge => [work.before[before], before, after, work.after[after], after],
                Change::LeadOn => [work.before[before], before, i, after, work.after[after]],
            };
            for corner in around {
                work.offer(corner, &mut waiting);
            }
        }
    }
    // Any corner that is still in the ring begins it.
    let Some(first) = (0..n).find(|&i| work.after[work.before[i]] == i) else {
        return ring.to_vec();
    };
    let mut out = Vec::with_capacity(work.left);
    let mut i = first;
    for _ in 0..work.left {
        out.push(work.points[i]);
        i = work.after[i];
    }
    out
}

/// Twice the area of a triangle, positive to the left.
fn turn(a: Point, b: Point, c: Point) -> f64 {
    (b - a).cross(c - b)
}

impl Ring {
    /// Puts the corner's changes into the queue and voids what waited there before.
    fn offer(&mut self, i: usize, waiting: &mut BinaryHeap<Waiting>) {
        self.stamp[i] += 1;
        let (p, q) = (self.before[i], self.after[i]);
        let bend = turn(self.points[p], self.points[i], self.points[q]);
        let mut wait = |area: f64, change| waiting.push(Reverse((area.to_bits(), i, change, self.stamp[i])));
        if bend <= 0.0 {
            wait(-0.5 * bend, Change::Bridge);
        } else if let Some(meeting) = self.meeting(i) {
            wait(
                0.5 * turn(self.points[i], meeting, self.points[q]).abs(),
                Change::LeadOn,
            );
        }
    }

    /// Where the edges beyond corner `i` and the next meet when they are led on, if both corners point outwards and it lies in the box.
    fn meeting(&self, i: usize) -> Option<Point> {
        let j = self.after[i];
        let (p, q) = (self.points[self.before[i]], self.points[self.after[j]]);
        let (a, b) = (self.points[i], self.points[j]);
        let (u, v) = (a - p, b - q);
        let slant = u.cross(v);
        // Both corners together must turn by less than half round.
        if turn(p, a, b) <= 0.0 || turn(a, b, q) <= 0.0 || slant >= -1e-9 * u.hypot() * v.hypot() {
            return None;
        }
        let meeting = a + u * ((b - a).cross(v) / slant);
        let is_inside = meeting.x >= self.bounds.x0
            && meeting.x <= self.bounds.x1
            && meeting.y >= self.bounds.y0
            && meeting.y <= self.bounds.y1;
        is_inside.then_some(meeting)
    }

    /// Makes the change unless the outline would meet itself.
    fn apply(&mut self, i: usize, change: Change) -> bool {
        let (p, q) = (self.before[i], self.after[i]);
        match change {
            Change::Bridge => {
                if !self.is_clear((self.points[p], self.points[q]), &[p, i, q]) {
                    return false;
                }
                self.after[p] = q;
                self.before[q] = p;
            }
            Change::LeadOn => {
                let Some(meeting) = self.meeting(i) else {
                    return false;
                };
                let beyond = self.after[q];
                let mine = [p, i, q, beyond];
                if !self.is_clear((self.points[p], meeting), &mine)
                    || !self.is_clear((meeting, self.points[beyond]), &mine)
                {
                    return false;
                }
                self.points[i] = meeting;
                self.after[i] = beyond;
                self.before[beyond] = i;
                self.stamp[q] += 1;
            }
        }
        self.left -= 1;
        true
    }

    /// Whether an edge touches none of the ring's but those that begin or end at the corners named.
    fn is_clear(&self, edge: (Point, Point), mine: &[usize]) -> bool {
        let mut i = mine[0];
        for _ in 0..self.left {
            let j = self.after[i];
            let is_mine = mine.contains(&i) || mine.contains(&j);
            if !is_mine && polygon::segments_touch(edge, (self.points[i], self.points[j])) {
                return false;
            }
            i = j;
        }
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::polygon::{contains, crosses_itself, segment_distance, signed_area};

    /// A bean with a deep bay, as many points as a drafted outline has.
    fn bean(n: usize) -> Vec<Point> {
        (0..n)
            .map(|k| {
                let t = std::f64::consts::TAU * k as f64 / n as f64;
                let r = 200.0 + 70.0 * (2.0 * t).cos() - 90.0 * (-8.0 * (t - 1.5).powi(2)).exp()
                    + 6.0 * (9.0 * t).sin();
                Point::new(1.4 * r * t.cos(), r * t.sin())
            })
            .collect()
    }

    #[test]
    fn covers_all_and_adds_no_more_than_allowed() {
        let ring = bean(500);
        assert!(signed_area(&ring) > 0.0 && !crosses_itself(&ring));
        for share in [0.0, 0.0005, 0.002, 0.02] {
            let out = outwards(&ring, share);
            assert!(!crosses_itself(&out), "share {share}");
            let added = signed_area(&out) / signed_area(&ring) - 1.0;
            assert!(
                (-1e-12..=share + 1e-12).contains(&added),
                "share {share}: {added}"
            );
            let on_edge = |p: Point| polygon::edges(&out).any(|e| segment_distance(p, e) < 1e-7);
            assert!(
                ring.iter().all(|&p| contains(&out, p) || on_edge(p)),
                "share {share}"
            );
            assert_eq!(
                Bounds::of(&out).width().max(0.0),
                Bounds::of(&ring).width(),
                "share {share}"
            );
            if share >= 0.002 {
                assert!(out.len() < 100, "share {share}: {} points", out.len());
            }
        }
    }

    /// Source: elementary. The bay of an L cannot be bridged for less than its triangle.
    #[test]
    fn leaves_an_ell_alone_until_there_is_room() {
        let ell = [
            (0.0, 0.0),
            (20.0, 0.0),
            (20.0, 10.0),
            (10.0, 10.0),
            (10.0, 20.0),
            (0.0, 20.0),
        ];
        let ell: Vec<Point> = ell.map(|(x, y)| Point::new(x, y)).to_vec();
        assert_eq!(outwards(&ell, 0.16), ell, "the triangle is a sixth of 300");
        let bridged = outwards(&ell, 0.17);
        assert_eq!(bridged.len(), 5);
        assert_eq!(signed_area(&bridged), 350.0);
    }

    /// Straight corners cost nothing.
    #[test]
    fn drops_corners_on_a_straight_edge() {
        let square = [
            (0.0, 0.0),
            (5.0, 0.0),
            (10.0, 0.0),
            (10.0, 10.0),
            (3.0, 10.0),
            (0.0, 10.0),
        ];
        let square: Vec<Point> = square.map(|(x, y)| Point::new(x, y)).to_vec();
        assert_eq!(outwards(&square, 0.0).len(), 4);
    }
}
