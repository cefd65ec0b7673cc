//! A worn suit as lines that can be turned: section rings of the form and of the cloth on it, the suit's open edges and hems, in a few bytes.
//!
//! A page turns the lines itself and needs no triangles: the suit is cut by the same level planes as the form, each cut is chained to
//! lines, and points that a straight line hits within [`CHORD_MM`] are left out. Of a suit that is alike
//! on both sides half is solved; both halves are in here, so that whoever draws need not know.
//!
//! **Shapes and units.** Bytes, the least significant first:
//!
//! | bytes | what |
//! | --- | --- |
//! | 4 | `SWR1` |
//! | 2 | count of lines, n |
//! | 2 | 0 |
//! | 4 n | a line each: kind (0 form, 1 cloth, 2 edge), 1 if it closes, count of its points (2 bytes) |
//! | 6 p | the points of all lines in their order: x to her left, y up from the crotch, z forward, each 2 bytes with sign, 0.1 mm |
//! | p | a value each: form 1 where cloth lies on it; cloth its pressure, 255 at [`HEAVIEST_KPA`] or more; edge the way the cloth faces there, 256 to the turn, 0 forward, 64 to her left |
//!
//! Lines of form and cloth have their outside to the right of travel, seen from above with x right and z up.
//! **Limits.** Nothing is hidden by anything but by facing away. Lines further out than 3.2 m do not fit; no body has them.

use std::collections::BTreeMap;
use std::f64::consts::TAU;

use super::OnForm;
use super::drawing::{HEAVIEST_KPA, RING_STEP, normal, outward, smoothed};

/// How far a point may lie beside the line that leaves it out, mm: under half a pixel of any screen the form fits on.
pub const CHORD_MM: f64 = 0.4;
/// A pressure that differs by more than this, of 255, keeps its point.
const STEP: u8 = 10;
/// Cloth this near over the form covers it, mm: what stands further off lets it be seen.
const COVERS_MM: f64 = 25.0;
/// Positions are kept in these, mm.
const GRAIN_MM: f64 = 0.1;

/// What a line is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
enum Of {
    Form = 0,
    Cloth = 1,
    Edge = 2,
}

#[derive(Clone, Debug)]
struct Line {
    of: Of,
    closes: bool,
    points: Vec<[f64; 3]>,
    values: Vec<u8>,
}

/// A step of a ring across one triangle, its outside to the right.
struct Across {
    /// Mesh edges it enters and leaves by.
    keys: [(usize, usize); 2],
    ends: [[f64; 3]; 2],
    kpa: [f64; 2],
}

/// The lines of a worn suit, as the head of this file says.
pub fn rings(on: &OnForm) -> Vec<u8> {
    to_bytes(&lines(on))
}

fn lines(on: &OnForm) -> Vec<Line> {
    let (low, high) = on
        .drawn_points()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), p| {
            (l.min(p[1]), h.max(p[1]))
        });
    let pressure = smoothed(on);
    let mut lines = Vec::new();
    for step in (low / RING_STEP).ceil() as i64..=(high / RING_STEP).floor() as i64 {
        let y = step as f64 * RING_STEP;
        let across = cut(on, &pressure, y);
        // A half covers both sides.
        let side = |x: f64| if on.mesh.is_whole { x } else { x.abs() };
        for ring in on.form.ring(y) {
            let is_under = |p: &[f64; 3]| across.iter().any(|a| distance(a, [side(p[0]), p[2]]) < COVERS_MM);
            let values = ring.points.iter().map(|p| u8::from(is_under(p))).collect();
            lines.push(Line {
                of: Of::Form,
                closes: true,
                points: ring.points,
                values,
            });
        }
        for line in chained(across) {
            let line = thinned(line);
            if !on.mesh.is_whole {
                lines.push(mirrored(&line));
            }
            lines.push(line);
        }
    }
    lines.extend(edges(on));
    lines.extend(hems(on));
    lines
}

/// Where the plane at `y` cuts the shell as it was solved.
fn cut(on: &OnForm, pressure: &[f64], y: f64) -> Vec<Across> {
    let x = &on.worn.solved.positions;
    let shell = on.mesh.mesh.triangles().iter().filter(|t| t.layer == 0);
    shell
        .filter_map(|t| {
            let mut found = Vec::with_capacity(2);
            for i in 0..3 {
                let (v, w) = (t.corners[i], t.corners[(i + 1) % 3]);
                // From the lower number, so that both triangles at an edge find the very same point.
                let (v, w) = (v.min(w), v.max(w));
                let (a, b) = (x[v], x[w]);
                if (a[1] < y) != (b[1] < y) {
                    let s = (y - a[1]) / (b[1] - a[1]);
                    let end = [a[0] + s * (b[0] - a[0]), y, a[2] + s * (b[2] - a[2])];
                    found.push(((v, w), end, pressure[v] + s * (pressure[w] - pressure[v])));
                }
            }
            let [a, b] = found[..] else { return None };
            let n = normal(t.corners.map(|v| x[v]));
            let is_right = (b.1[2] - a.1[2]) * n[0] - (b.1[0] - a.1[0]) * n[2] >= 0.0;
            let (a, b) = if is_right { (a, b) } else { (b, a) };
            Some(Across {
                keys: [a.0, b.0],
                ends: [a.1, b.1],
                kpa: [a.2, b.2],
            })
        })
        .collect()
}

/// Distance of a point from a step, seen from above.
fn distance(step: &Across, p: [f64; 2]) -> f64 {
    let [a, b] = step.ends.map(|e| [e[0], e[2]]);
    let (d, q) = ([b[0] - a[0], b[1] - a[1]], [p[0] - a[0], p[1] - a[1]]);
    let long = d[0] * d[0] + d[1] * d[1];
    let s = if long > 0.0 {
        ((q[0] * d[0] + q[1] * d[1]) / long).clamp(0.0, 1.0)
    } else {
        0.0
    };
    (q[0] - s * d[0]).hypot(q[1] - s * d[1])
}

/// The steps of one height joined to lines: those with an end first, then what closes in itself.
fn chained(steps: Vec<Across>) -> Vec<Line> {
    let from: BTreeMap<(usize, usize), usize> =
        steps.iter().enumerate().map(|(i, s)| (s.keys[0], i)).collect();
    let mut is_used = vec![false; steps.len()];
    let entered: BTreeMap<(usize, usize), ()> = steps.iter().map(|s| (s.keys[1], ())).collect();
    let open = (0..steps.len()).filter(|i| !entered.contains_key(&steps[*i].keys[0]));
    let order: Vec<usize> = open.chain(0..steps.len()).collect();
    let mut lines = Vec::new();
    for first in order {
        if is_used[first] {
            continue;
        }
        let mut line = Line {
            of: Of::Cloth,
            closes: false,
            points: vec![steps[first].ends[0]],
            values: vec![heaviness(steps[first].kpa[0])],
        };
        let mut next = Some(first);
        while let Some(i) = next.filter(|i| !is_used[*i]) {
            is_used[i] = true;
            line.points.push(steps[i].ends[1]);
            line.values.push(heaviness(steps[i].kpa[1]));
            next = from.get(&steps[i].keys[1]).copied();
        }
        if next == Some(first) && line.points.len() > 3 {
            line.points.pop();
            line.values.pop();
            line.closes = true;
        }
        lines.push(line);
    }
    lines
}

fn heaviness(kpa: f64) -> u8 {
    ((kpa / HEAVIEST_KPA).clamp(0.0, 1.0) * 255.0).round() as u8
}

/// The line without points that a straight line between their neighbours hits.
fn thinned(line: Line) -> Line {
    let last = line.points.len() - 1;
    let mut is_kept = vec![false; line.points.len()];
    is_kept[0] = true;
    is_kept[last] = true;
    let mut open = vec![(0, last)];
    while let Some((from, to)) = open.pop() {
        let chord = Across {
            keys: [(0, 0); 2],
            ends: [line.points[from], line.points[to]],
            kpa: [0.0; 2],
        };
        let worst = (from + 1..to)
            .map(|i| {
                let off = distance(&chord, [line.points[i][0], line.points[i][2]]) / CHORD_MM;
                let s = (i - from) as f64 / (to - from) as f64;
                let (a, b) = (f64::from(line.values[from]), f64::from(line.values[to]));
                let pale = (f64::from(line.values[i]) - (a + s * (b - a))).abs() / f64::from(STEP);
                (i, off.max(pale))
            })
            .max_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((i, off)) = worst
            && off > 1.0
        {
            is_kept[i] = true;
            open.extend([(from, i), (i, to)]);
        }
    }
    let kept = |i: &usize| is_kept[*i];
    Line {
        points: (0..=last).filter(kept).map(|i| line.points[i]).collect(),
        values: (0..=last).filter(kept).map(|i| line.values[i]).collect(),
        ..line
    }
}

/// The same on her right, with its outside still to the right of travel.
fn mirrored(line: &Line) -> Line {
    Line {
        points: line.points.iter().rev().map(|p| [-p[0], p[1], p[2]]).collect(),
        values: line.values.iter().rev().copied().collect(),
        ..*line
    }
}

/// The open edges and the straps that run by themselves, with the way the cloth faces at each point.
fn edges(on: &OnForm) -> Vec<Line> {
    let x = &on.worn.solved.positions;
    let mut normals = vec![[0.0; 3]; x.len()];
    for t in on.mesh.mesh.triangles().iter().filter(|t| t.layer == 0) {
        let n = normal(t.corners.map(|v| x[v]));
        for v in t.corners {
            for (sum, n) in normals[v].iter_mut().zip(n) {
                *sum += n;
            }
        }
    }
    // A strap's own points face as the body under them does.
    for v in on.mesh.straps.iter().flat_map(|s| &s.vertices) {
        if normals[*v] == [0.0; 3] {
            normals[*v] = outward(on, x[*v]);
        }
    }
    let line = |vertices: &[usize], side: f64| {
        let way = |v: usize| ((normals[v][0] * side).atan2(normals[v][2]) / TAU * 256.0).round() as i64;
        Line {
            of: Of::Edge,
            closes: false,
            points: vertices
                .iter()
                .map(|v| [x[*v][0] * side, x[*v][1], x[*v][2]])
                .collect(),
            values: vertices.iter().map(|v| way(*v).rem_euclid(256) as u8).collect(),
        }
    };
    let straps = on.mesh.straps.iter().filter(|s| s.width_mm > 0.0);
    let open = on
        .mesh
        .open_lines
        .iter()
        .map(|l| &l.vertices)
        .chain(straps.map(|s| &s.vertices));
    let sides: &[f64] = if on.mesh.is_whole { &[1.0] } else { &[1.0, -1.0] };
    open.filter(|l| l.len() > 1)
        .flat_map(|l| sides.iter().map(|side| line(l, *side)))
        .collect()
}

/// The hems of what hangs from the suit, as edges.
fn hems(on: &OnForm) -> Vec<Line> {
    let sides: &[f64] = if on.mesh.is_whole { &[1.0] } else { &[1.0, -1.0] };
    let mut lines = Vec::new();
    for drape in on.worn.hanging.iter().filter(|d| d.hem.len() > 1) {
        let mut normals = vec![[0.0; 3]; drape.points.len()];
        for t in &drape.triangles {
            let n = normal(t.map(|v| drape.points[v]));
            for v in t {
                for (sum, n) in normals[*v].iter_mut().zip(n) {
                    *sum += n;
                }
            }
        }
        for side in sides {
            let way =
                |v: &usize| ((normals[*v][0] * side).atan2(normals[*v][2]) / TAU * 256.0).round() as i64;
            let hem = drape.hem.iter();
            lines.push(Line {
                of: Of::Edge,
                closes: false,
                points: hem
                    .clone()
                    .map(|v| drape.points[*v])
                    .map(|p| [p[0] * side, p[1], p[2]])
                    .collect(),
                values: hem.map(|v| way(v).rem_euclid(256) as u8).collect(),
            });
        }
    }
    lines
}

fn to_bytes(lines: &[Line]) -> Vec<u8> {
    let count = |n: usize| u16::try_from(n).unwrap_or(u16::MAX).to_le_bytes();
    // What does not fit in the counts is left out whole; no suit comes near.
    let lines: Vec<&Line> = lines
        .iter()
        .filter(|l| l.points.len() <= usize::from(u16::MAX))
        .take(usize::from(u16::MAX))
        .collect();
    let points: usize = lines.iter().map(|l| l.points.len()).sum();
    let mut bytes = Vec::with_capacity(8 + 4 * lines.len() + 7 * points);
    bytes.extend(b"SWR1");
    bytes.extend(count(lines.len()));
    bytes.extend([0, 0]);
    for line in &lines {
        bytes.extend([line.of as u8, u8::from(line.closes)]);
        bytes.extend(count(line.points.len()));
    }
    for v in lines.iter().flat_map(|l| &l.points).flatten() {
        let grains = (v / GRAIN_MM)
            .round()
            .clamp(f64::from(i16::MIN), f64::from(i16::MAX));
        bytes.extend((grains as i16).to_le_bytes());
    }
    bytes.extend(lines.iter().flat_map(|l| &l.values));
    bytes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::order::work_out;
    use crate::suit_file::read_text;
    use crate::worn::{WornChoice, put_on};

    /// A line as it is read back: kind, closed, points in mm, values.
    type Read = (u8, bool, Vec<[f64; 3]>, Vec<u8>);

    /// Reads the bytes as the head of the file tells them, and by nothing else.
    fn read(bytes: &[u8]) -> Vec<Read> {
        assert_eq!(&bytes[..4], b"SWR1");
        let two = |at: usize| u16::from_le_bytes([bytes[at], bytes[at + 1]]);
        let n = usize::from(two(4));
        let counts: Vec<usize> = (0..n).map(|i| usize::from(two(8 + 4 * i + 2))).collect();
        let p: usize = counts.iter().sum();
        assert_eq!(bytes.len(), 8 + 4 * n + 7 * p);
        let (mut at, mut value) = (8 + 4 * n, 8 + 4 * n + 6 * p);
        (0..n)
            .map(|i| {
                let points = (0..counts[i])
                    .map(|j| [0, 1, 2].map(|k| f64::from(two(at + 6 * j + 2 * k) as i16) / 10.0))
                    .collect();
                let values = bytes[value..value + counts[i]].to_vec();
                at += 6 * counts[i];
                value += counts[i];
                (bytes[8 + 4 * i], bytes[8 + 4 * i + 1] == 1, points, values)
            })
            .collect()
    }

    fn worn() -> OnForm {
        let text = include_str!("../../../../examples/maren-one-piece.toml");
        let suit = read_text("maren.toml", text).unwrap();
        let order = work_out(&suit).unwrap();
        let choice = WornChoice {
            mesh_mm: 16.0,
            friction: 0.0,
            ..WornChoice::default()
        };
        put_on(&suit, &order, choice, &units::Silent).unwrap()
    }

    #[test]
    fn the_lines_lie_where_the_suit_and_the_form_are() {
        let on = worn();
        let bytes = rings(&on);
        assert!(bytes.len() < 120_000, "{}", bytes.len());
        assert_eq!(bytes, rings(&on));
        let all = read(&bytes);
        let of = |kind: u8| all.iter().filter(move |l| l.0 == kind);
        // Every section of the form is the form's own: the ring at that height has its points, to the grain.
        for (_, closes, points, _) in of(0) {
            assert!(*closes);
            let own = on.form.ring((points[0][1] / RING_STEP).round() * RING_STEP);
            let near = |p: &[f64; 3]| {
                own.iter()
                    .flat_map(|r| &r.points)
                    .any(|q| (p[0] - q[0]).hypot(p[2] - q[2]) < 0.08)
            };
            assert!(points.iter().all(near));
        }
        // The cloth at the waist: as long as the suit's own reading of that level, and heavier nowhere than it presses.
        let waist = on
            .report
            .levels
            .iter()
            .find(|l| l.level == units::Level::Waist)
            .unwrap();
        let y = (waist.height_mm / RING_STEP).round() * RING_STEP;
        let round: f64 = of(1)
            .filter(|l| (l.2[0][1] - y).abs() < 0.06)
            .flat_map(|l| l.2.windows(2))
            .map(|w| (w[1][0] - w[0][0]).hypot(w[1][2] - w[0][2]))
            .sum();
        let body = waist.body_mm.unwrap();
        assert!(
            (round - body).abs() < 0.05 * body,
            "{round} round the waist of {body}"
        );
        // Both halves, each the other's image.
        let (left, right): (Vec<&Read>, Vec<&Read>) =
            of(1).partition(|l| l.2.iter().map(|p| p[0]).sum::<f64>() > 0.0);
        assert_eq!(left.len(), right.len());
        // Outside to the right of travel: away from the middle of the trunk.
        let outward = of(1)
            .filter(|l| (l.2[0][1] - y).abs() < 0.06)
            .flat_map(|l| l.2.windows(2))
            .all(|w| {
                let (d, m) = (
                    [w[1][0] - w[0][0], w[1][2] - w[0][2]],
                    [0.5 * (w[0][0] + w[1][0]), 0.5 * (w[0][2] + w[1][2])],
                );
                d[1] * m[0] - d[0] * m[1] > -1.0
            });
        assert!(outward);
        // An edge is where its vertices lie.
        let x = &on.worn.solved.positions;
        let first = &on.mesh.open_lines[0].vertices;
        let edge = of(2).next().unwrap();
        assert_eq!(edge.2.len(), first.len());
        for (p, v) in edge.2.iter().zip(first) {
            assert!((0..3).all(|k| (p[k] - x[*v][k]).abs() < 0.06));
        }
        // The form is covered at the waist and bare at the neck.
        let covered = |y: f64| {
            of(0)
                .filter(move |l| (l.2[0][1] - y).abs() < 0.06)
                .flat_map(|l| l.3.iter().copied())
                .collect::<Vec<u8>>()
        };
        assert!(covered(y).iter().all(|v| *v == 1));
        let top = of(0).map(|l| l.2[0][1]).fold(0.0, f64::max);
        assert!(covered(top).iter().all(|v| *v == 0));
    }

    #[test]
    fn a_straight_run_keeps_its_ends_only() {
        let line = |values: [u8; 4]| Line {
            of: Of::Cloth,
            closes: false,
            points: [0.0, 1.0, 2.0, 3.0].map(|x| [x, 0.0, 2.0 * x]).to_vec(),
            values: values.to_vec(),
        };
        assert_eq!(thinned(line([0; 4])).points.len(), 2);
        assert_eq!(thinned(line([0, 0, 90, 0])).values, [0, 0, 90, 0]);
    }
}
