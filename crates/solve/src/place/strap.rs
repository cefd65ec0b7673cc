//! Straps and ties on the skin: level round the body, beside the neck to the nape, over the back to the other side.
//!
//! **Source.** Own.

use super::{ABOVE_SKIN, push_out_of};
use crate::body_field::BodyField;
use crate::suit::{StrapLine, Way};
use crate::vector::{V3, add_scaled, sub};

/// A way is drawn tight by so many rounds.
const TIGHTENINGS: usize = 120;
/// Points of a way.
const POINTS: usize = 41;
/// Share of a tie's way at which its knot with the edge lies (own).
const KNOT_OFF: f64 = 0.15;
/// A strap passes the neck so far outside the side neck point, mm (own).
const BESIDE_NECK: f64 = 6.0;

/// Lays a strap's own vertices on the skin between its ends, evenly.
pub(super) fn lay(line: &StrapLine, body: &BodyField, start: &mut [V3]) {
    let [from, .., to] = line.vertices[..] else { return };
    let middles = [(0, from), (1, to)].map(|(end, knot)| {
        let drawn = &line.drawn[end];
        let share = 1.0 / drawn.len().max(1) as f64;
        match drawn.is_empty() {
            true => start[knot],
            false => drawn
                .iter()
                .fold([0.0; 3], |sum, v| add_scaled(sum, share, start[*v])),
        }
    });
    for (end, knot) in [(0, from), (1, to)] {
        // A knot lies a little way off the edge it draws together.
        if !line.drawn[end].is_empty() {
            start[knot] = add_scaled(middles[end], KNOT_OFF, sub(middles[1 - end], middles[end]));
        }
    }
    let way = match line.way {
        Way::Straight => tightened(body, &[start[from], start[to]], false),
        Way::Round { is_front } => round(body, start[from], is_front),
        Way::Nape => nape(body, start[from]),
        Way::Across => across(body, start[from], start[to]),
    };
    let last = line.vertices.len() - 1;
    if let Some(middle) = line.crosses {
        // From the shoulder to the middle, and on as its mirror image.
        let turn = (0..way.len())
            .min_by(|a, b| way[*a][0].total_cmp(&way[*b][0]))
            .unwrap_or(0);
        for (i, v) in line.vertices.iter().enumerate().take(last).skip(1) {
            start[*v] = if i <= middle {
                super::sections::along(&way[..=turn], i as f64 / middle as f64)
            } else {
                super::sections::along(&way[turn..], (i - middle) as f64 / (last - middle) as f64)
            };
            if i == middle {
                start[*v][0] = 0.0;
            }
        }
        return;
    }
    for (i, v) in line.vertices.iter().enumerate() {
        let is_own =
            (0 < i && i < last) || (i == last && line.way != Way::Straight && line.way != Way::Across);
        if is_own {
            start[*v] = super::sections::along(&way, i as f64 / last as f64);
        }
    }
}

/// Beside the neck from a point of the front to the middle of the nape.
pub(super) fn nape(body: &BodyField, from: V3) -> Vec<V3> {
    let form = &body.form;
    let beside = add_scaled(form.side_neck, BESIDE_NECK, [1.0, 0.0, 0.0]);
    let mut end = form.back_neck;
    end[0] = 0.0;
    tightened(body, &[from, beside, end], true)
}

/// Level round the body from a point to the middle.
fn round(body: &BodyField, from: V3, is_front: bool) -> Vec<V3> {
    let y = from[1];
    let out = |z: f64| body.exit([0.0, y, 0.0], [0.0, 0.0, z], 400.0);
    let (Some(ahead), Some(behind)) = (out(1.0), out(-1.0)) else {
        return vec![from, [0.0, y, from[2]]];
    };
    let centre = [0.0, y, f64::midpoint(ahead, -behind)];
    let begin = from[0].atan2(from[2] - centre[2]);
    let end = if is_front { 0.0 } else { std::f64::consts::PI };
    let mut way = vec![from];
    for i in 1..POINTS {
        let angle = begin + (end - begin) * i as f64 / (POINTS - 1) as f64;
        let (s, c) = angle.sin_cos();
        let direction = [s.max(0.0), 0.0, c];
        if let Some(t) = body.exit(centre, direction, 400.0) {
            way.push(add_scaled(centre, t + ABOVE_SKIN, direction));
        }
    }
    if let Some(last) = way.last_mut() {
        last[0] = 0.0;
    }
    way
}

/// From the shoulder over the back to the mirror image of a point, everything beyond the middle mirrored back.
fn across(body: &BodyField, from: V3, to: V3) -> Vec<V3> {
    let inside = body.form.underarm_y - 40.0;
    let mut way = Vec::new();
    for i in 0..POINTS {
        let t = i as f64 / (POINTS - 1) as f64;
        let x = (from[0] + t * (-to[0] - from[0])).abs();
        let out = |z: f64| body.exit([x, inside, 0.0], [0.0, 0.0, z], 300.0);
        let (Some(ahead), Some(behind)) = (out(1.0), out(-1.0)) else {
            continue;
        };
        let centre = [x, inside, f64::midpoint(ahead, -behind)];
        let angle = |p: V3| (p[1] - centre[1]).atan2(centre[2] - p[2]);
        let at = angle(from) + t * (angle(to) - angle(from));
        let direction = [0.0, at.sin(), -at.cos()];
        if let Some(d) = body.exit(centre, direction, 400.0) {
            way.push(add_scaled(centre, d + ABOVE_SKIN, direction));
        }
    }
    way.insert(0, from);
    way.push(to);
    way
}

/// A way through points, drawn tight over the skin. Its end in the middle may be free to move there.
fn tightened(body: &BodyField, through: &[V3], is_free: bool) -> Vec<V3> {
    let mut way: Vec<V3> = (0..POINTS)
        .map(|i| super::sections::along(through, i as f64 / (POINTS - 1) as f64))
        .collect();
    let last = way.len() - 1;
    for _ in 0..TIGHTENINGS {
        for i in 1..last {
            let middle = [0, 1, 2].map(|k| f64::midpoint(way[i - 1][k], way[i + 1][k]));
            way[i] = push_out_of(body, middle, false);
        }
        if is_free {
            let [_, y, z] = way[last - 1];
            way[last] = push_out_of(body, [0.0, y, z], true);
        }
        // Even steps again: pushing drew them apart.
        let even: Vec<V3> = (0..=last)
            .map(|i| super::sections::along(&way, i as f64 / last as f64))
            .collect();
        way[1..last].copy_from_slice(&even[1..last]);
    }
    way
}
