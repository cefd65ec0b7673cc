//! Closing what is left of the girths: each level is scaled about its section's centre, blended smoothly between.
//!
//! The fit leaves a millimetre or three of girth, half a millimetre of radius. The drawn form must have the girths that
//! were asked, so every vertex moves in x and z by the blend of the levels above and below it (smoothstep weights).
//! Vertices between two levels drag the section along, so the scale is sought in a few rounds.
//!
//! Heights don't change, so levels stay where they are. A thigh is scaled about its own centre; its inner side moves
//! less near the midline, so the legs never pass it. The blend ends at the height of the shoulder point: shoulder and
//! neck stay.
//!
//! **Shapes and units.** mm.
//! **Source.** Own.

use super::surface::Surface;
use super::tape::{Girth, Shape};

/// Rounds at most; two or three are enough on the bodies of the tests.
const ROUNDS: usize = 16;
/// A girth this near its target is closed.
const CLOSED_MM: f64 = 0.01;
/// Levels nearer than this can't both be closed without a fold; the upper chest gives way.
const LEAST_GAP_MM: f64 = 10.0;
/// Within this of the midline a leg moves sideways by less.
const BESIDE_MIDLINE_MM: f64 = 20.0;

#[derive(Clone, Copy, Debug)]
struct Level {
    girth: Girth,
    y: f64,
    centre: [f64; 2],
    asked: f64,
    /// Scale of the section less 1.
    swell: f64,
}

/// Moves the vertices so that the girths asked for are met.
pub(crate) fn close(surface: &Surface, vertices: &[[f64; 3]], asked: &[(Girth, f64)]) -> Vec<[f64; 3]> {
    let shape = Shape::new(surface, vertices);
    let mut levels: Vec<Level> = asked
        .iter()
        .map(|&(girth, asked)| Level {
            girth,
            y: shape.girth_y(girth),
            centre: centre(&shape, girth),
            asked,
            swell: 0.0,
        })
        .collect();
    levels.sort_by(|a, b| b.y.total_cmp(&a.y));
    let others: Vec<(Girth, f64)> = levels.iter().map(|l| (l.girth, l.y)).collect();
    levels.retain(|l| {
        l.girth != Girth::UpperChest
            || !others
                .iter()
                .any(|(g, y)| *g != l.girth && (y - l.y).abs() < LEAST_GAP_MM)
    });
    let end_y = shape.shoulder_y();
    let mut moved = vertices.to_vec();
    for _ in 0..ROUNDS {
        let shape = Shape::new(surface, &moved);
        let mut open = false;
        for level in &mut levels {
            let girth = shape.girth_line(level.girth).length();
            open |= (girth - level.asked).abs() > CLOSED_MM;
            if girth > 0.0 {
                level.swell = (1.0 + level.swell) * (level.asked / girth) - 1.0;
            }
        }
        if !open {
            break;
        }
        for (to, from) in moved.iter_mut().zip(vertices) {
            *to = swollen(*from, &levels, end_y);
        }
    }
    moved
}

fn centre(shape: &Shape<'_>, girth: Girth) -> [f64; 2] {
    let points = shape.girth_points(girth);
    let middle = |axis: usize| {
        let (least, most) = points
            .iter()
            .map(|p| p[axis])
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(l, m), x| {
                (l.min(x), m.max(x))
            });
        if least <= most { (least + most) / 2.0 } else { 0.0 }
    };
    match girth {
        Girth::Thigh => [middle(0), middle(1)],
        _ => [0.0, middle(1)],
    }
}

fn swollen(p: [f64; 3], levels: &[Level], end_y: f64) -> [f64; 3] {
    let y = p[1];
    // Levels run from the top down; `below` is the first at or under the vertex.
    let below = levels.iter().position(|l| l.y <= y).unwrap_or(levels.len());
    let mut to = p;
    let mut push = |level: &Level, weight: f64| {
        let (mut centre_x, mut sideways) = (level.centre[0], 1.0);
        if level.girth == Girth::Thigh {
            centre_x = centre_x.copysign(p[0]);
            sideways = (p[0].abs() / BESIDE_MIDLINE_MM).min(1.0);
        }
        to[0] += weight * level.swell * (p[0] - centre_x) * sideways;
        to[2] += weight * level.swell * (p[2] - level.centre[1]);
    };
    match (
        below.checked_sub(1).and_then(|i| levels.get(i)),
        levels.get(below),
    ) {
        (Some(above), Some(below)) => {
            let share = smoothstep((above.y - y) / (above.y - below.y));
            push(above, 1.0 - share);
            push(below, share);
        }
        (None, Some(top)) => push(top, 1.0 - smoothstep((y - top.y) / (end_y - top.y).max(1.0))),
        (Some(bottom), None) => push(bottom, 1.0),
        (None, None) => {}
    }
    to
}

fn smoothstep(t: f64) -> f64 {
    let t = t.clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}
