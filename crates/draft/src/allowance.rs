//! The cut line: each edge of the seam line moved out by its own allowance, with the trade's corners.
//!
//! Edges are moved point by point along their exact normals and joined at the corners: outside corners run to the meeting
//! of the two cut edges and are bevelled when that lies too far out; inside corners are trimmed where the cut edges cross.
//! Because seams leave their neighbours at 90 degrees, such a corner is also square to the seam. Where a turned hem or casing
//! meets its side at another angle or beside a curve, the side's cut edge goes on below the hem line as the mirror image of
//! what lies above it, so that the folded hem lies flat on the piece.
//!
//! **Shapes and units.** mm; outlines counter-clockwise, outside right of travel. The result is a closed polygon whose
//! chords stay within [`CUT_TOLERANCE_MM`] of the true cut line.
//! **Source.** Common practice, no single source. Checked against a mitre buffer of another library.
//! **Limits.** The mirror is the hem's straight line through the corner: on a hem that curves sharply there it is near, not exact.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::float::simplify::SimplifyShape;
use kurbo::{ParamCurve, ParamCurveDeriv, Point, Vec2};

use crate::geometry::{Curve, area_mm2, is_simple};

/// How far a chord of the cut line may lie from the true curve: finer than a pencil, coarse enough for small files.
pub(crate) const CUT_TOLERANCE_MM: f64 = 0.02;
/// An outside corner further from the seam corner than this many allowances is bevelled.
const MITRE_LIMIT: f64 = 2.5;
/// A side that meets its hem this square (cosine of the angle between them) and stays straight needs no mirror.
const SQUARE: f64 = 1e-6;
/// Edges that go on into each other more smoothly than this (sine of the angle) have no corner to mirror: a slit above its seam.
const SMOOTH: f64 = 0.2;

/// One edge of the seam line with its allowance.
#[derive(Clone, Copy)]
pub(crate) struct CutEdge<'a> {
    pub(crate) curve: &'a Curve,
    /// mm.
    pub(crate) width: f64,
    /// Whether the allowance is folded back onto the piece: a hem or a casing.
    pub(crate) is_turned: bool,
}

impl<'a> CutEdge<'a> {
    pub(crate) fn new(curve: &'a Curve, width: f64, is_turned: bool) -> CutEdge<'a> {
        CutEdge {
            curve,
            width,
            is_turned,
        }
    }
}

/// The cut line of a closed run of edges; `None` when no simple outline comes out.
pub(crate) fn cut_line(edges: &[CutEdge<'_>]) -> Option<Vec<Point>> {
    let mut runs: Vec<Vec<Point>> = edges.iter().map(|e| moved_out(e.curve, e.width)).collect();
    let n = runs.len();
    let mut corners: Vec<Option<Point>> = vec![None; n];
    for i in 0..n {
        let j = (i + 1) % n;
        let (a, wa, b, wb) = (edges[i].curve, edges[i].width, edges[j].curve, edges[j].width);
        let (ta, tb) = (a.end_tangent(), b.start_tangent());
        let bend = ta.cross(tb);
        if i != j && (wa == 0.0) != (wb == 0.0) && bend.abs() > 1e-6 {
            // A fold: the cut edge ends on its line, whether it must be drawn out to it or cut off at it.
            let (line_at, along) = if wb == 0.0 { (b.start(), tb) } else { (a.end(), ta) };
            let moved = if wb == 0.0 { &mut runs[i] } else { &mut runs[j] };
            if wb != 0.0 {
                moved.reverse();
            }
            end_on_line(moved, line_at, along, if wb == 0.0 { ta } else { -tb })?;
            if wb != 0.0 {
                moved.reverse();
            }
            continue;
        }
        if edges[i].is_turned != edges[j].is_turned && i != j && bend.abs() > SMOOTH {
            let (side, hem, sign) = if edges[j].is_turned {
                (a, j, 1.0)
            } else {
                (b, i, -1.0)
            };
            let along = if hem == j { tb } else { ta };
            if !is_square(side, along, edges[hem].width) {
                let (first, second) = two_mut(&mut runs, i, j)?;
                let (side_run, hem_run) = if hem == j {
                    (first, second)
                } else {
                    (second, first)
                };
                // Both are handled as if the side came before the hem.
                if hem == i {
                    side_run.reverse();
                    hem_run.reverse();
                }
                mirror_end(side_run, hem_run, b.start(), along * sign, edges[hem].width, sign)?;
                if hem == i {
                    side_run.reverse();
                    hem_run.reverse();
                }
                continue;
            }
        }
        if bend > 1e-6 {
            let corner = b.start();
            if let Some(x) = meeting(*runs[i].last()?, ta, *runs[j].first()?, tb)
                && (x - corner).hypot() <= MITRE_LIMIT * wa.max(wb)
            {
                corners[i] = Some(x);
            }
        } else if bend < -1e-6 && i != j {
            let (left, right) = two_mut(&mut runs, i, j)?;
            trim(left, right);
        }
    }
    let mut outline: Vec<Point> = Vec::with_capacity(runs.iter().map(Vec::len).sum::<usize>() + n);
    for (run, corner) in runs.into_iter().zip(corners) {
        outline.extend(run);
        outline.extend(corner);
    }
    outline.dedup_by(|a, b| (*a - *b).hypot() < 1e-6);
    while outline.len() > 3 && (outline[0] - outline[outline.len() - 1]).hypot() < 1e-6 {
        outline.pop();
    }
    if is_simple(&outline) && area_mm2(&outline) > 0.0 {
        Some(outline)
    } else {
        without_loops(outline)
    }
}

/// Whether a side runs straight and square into the hem for as far as the hem is deep: then a plain corner is the mirror image.
fn is_square(side: &Curve, along: Vec2, depth: f64) -> bool {
    let ends = [side.start_tangent(), side.end_tangent()];
    let length = side.length();
    let near = [
        side.at_length(depth.min(length)).1,
        side.at_length(length - depth.min(length)).1,
    ];
    ends.into_iter().chain(near).all(|t| t.dot(along).abs() < SQUARE)
}

/// Carries a side's cut edge on below the hem line as its own mirror image, down to the hem's cut edge, and ends the hem's cut
/// edge there.
///
/// `along`: the hem's direction away from the corner; `sign`: 1 when the piece lies to the left of it, -1 to the right.
fn mirror_end(
    side: &mut Vec<Point>,
    hem: &mut Vec<Point>,
    corner: Point,
    along: Vec2,
    depth: f64,
    sign: f64,
) -> Option<()> {
    let outside = Vec2::new(along.y, -along.x) * sign;
    let out = |p: Point| (p - corner).dot(outside);
    // The side's cut edge up to the hem line.
    while side.len() > 2 && side.get(side.len() - 2).is_some_and(|p| out(*p) > 0.0) {
        side.pop();
    }
    let (before, last) = (*side.get(side.len().checked_sub(2)?)?, *side.last()?);
    let step = out(last) - out(before);
    if step <= 1e-9 {
        return None;
    }
    let on_line = before + (last - before) * (-out(before) / step);
    if let Some(end) = side.last_mut() {
        *end = on_line;
    }
    // Its mirror image, from the line down to the hem's cut edge.
    let mirrored = |p: Point| p - outside * (2.0 * out(p));
    let mut below: Vec<Point> = Vec::new();
    for p in side.iter().rev().skip(1).map(|p| mirrored(*p)) {
        let from = below.last().copied().unwrap_or(on_line);
        if out(p) >= depth {
            let share = (depth - out(from)) / (out(p) - out(from)).max(1e-12);
            below.push(from + (p - from) * share);
            break;
        }
        below.push(p);
    }
    let end = *below.last()?;
    if out(end) < depth - 1e-6 {
        // A side shorter than the hem is deep: straight on.
        let from = below.iter().rev().nth(1).copied().unwrap_or(on_line);
        let step = out(end) - out(from);
        below.push(end + (end - from) * ((depth - out(end)) / step.max(1e-9)));
    }
    let end = *below.last()?;
    let reach = |p: Point| (p - end).dot(along);
    while hem.len() > 2 && hem.first().is_some_and(|p| reach(*p) <= 1e-6) {
        hem.remove(0);
    }
    side.extend(below);
    Some(())
}

/// The points of a curve moved `w` to its right.
fn moved_out(curve: &Curve, w: f64) -> Vec<Point> {
    let mut points = Vec::new();
    let right = |t: Vec2| Vec2::new(t.y, -t.x);
    for c in curve.cubics() {
        let bend = ((c.p0.to_vec2() - 2.0 * c.p1.to_vec2() + c.p2.to_vec2()).hypot())
            .max((c.p1.to_vec2() - 2.0 * c.p2.to_vec2() + c.p3.to_vec2()).hypot());
        let n = ((0.75 * bend / CUT_TOLERANCE_MM).sqrt().ceil() as usize).clamp(1, 400);
        let part = Curve::new(vec![*c]);
        let d = c.deriv();
        for i in 0..=n {
            let t = i as f64 / n as f64;
            let tangent = match i {
                0 => part.start_tangent(),
                i if i == n => part.end_tangent(),
                _ => crate::geometry::unit(d.eval(t).to_vec2()),
            };
            points.push(c.eval(t) + right(tangent) * w);
        }
    }
    points
}

/// Ends a run of points on a line: cut off where it crosses to the line's right, else drawn out along `onwards`.
fn end_on_line(run: &mut Vec<Point>, at: Point, along: Vec2, onwards: Vec2) -> Option<()> {
    let inside = |p: Point| along.cross(p - at);
    let last = *run.last()?;
    if inside(last) >= -1e-9 {
        run.push(meeting(last, onwards, at, along)?);
        return Some(());
    }
    let keep = run.iter().rposition(|&p| inside(p) > 0.0)?;
    let (p, q) = (run[keep], *run.get(keep + 1)?);
    let share = inside(p) / (inside(p) - inside(q));
    run.truncate(keep + 1);
    run.push(p + (q - p) * share);
    Some(())
}

/// Where the line through `p` along `a` meets the line through `q` along `b`.
fn meeting(p: Point, a: Vec2, q: Point, b: Vec2) -> Option<Point> {
    let cross = a.cross(b);
    (cross.abs() > 1e-9).then(|| p + a * ((q - p).cross(b) / cross))
}

fn two_mut<T>(items: &mut [T], i: usize, j: usize) -> Option<(&mut T, &mut T)> {
    let [a, b] = items.get_disjoint_mut([i, j]).ok()?;
    Some((a, b))
}

/// Cuts both runs off where the end of the first crosses the start of the second, if they cross.
fn trim(first: &mut Vec<Point>, second: &mut Vec<Point>) {
    for i in (1..first.len()).rev() {
        for j in 1..second.len() {
            let (a, b, c, d) = (first[i - 1], first[i], second[j - 1], second[j]);
            let Some(x) = crossing(a, b, c, d) else { continue };
            first.truncate(i);
            first.push(x);
            second.drain(..j);
            second.insert(0, x);
            return;
        }
    }
}

fn crossing(a: Point, b: Point, c: Point, d: Point) -> Option<Point> {
    let (r, s) = (b - a, d - c);
    let cross = r.cross(s);
    if cross.abs() < 1e-12 {
        return None;
    }
    let (t, u) = ((c - a).cross(s) / cross, (c - a).cross(r) / cross);
    ((0.0..=1.0).contains(&t) && (0.0..=1.0).contains(&u)).then(|| a + r * t)
}

/// The largest outline left when loops are taken out (non-zero winding).
fn without_loops(outline: Vec<Point>) -> Option<Vec<Point>> {
    if outline.iter().any(|p| !p.is_finite()) {
        return None;
    }
    let contour: Vec<[f64; 2]> = outline.iter().map(|p| [p.x, p.y]).collect();
    let shapes = contour.simplify_shape(FillRule::NonZero);
    let cleaned: Vec<Point> = shapes
        .into_iter()
        .filter_map(|shape| shape.into_iter().next())
        .map(|c| c.into_iter().map(|[x, y]| Point::new(x, y)).collect::<Vec<_>>())
        .max_by(|a, b| area_mm2(a).abs().total_cmp(&area_mm2(b).abs()))?;
    let cleaned = if area_mm2(&cleaned) < 0.0 {
        cleaned.into_iter().rev().collect()
    } else {
        cleaned
    };
    is_simple(&cleaned).then_some(cleaned)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(side: f64) -> Vec<Curve> {
        let p = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)].map(Point::from);
        (0..4).map(|i| Curve::line(p[i], p[(i + 1) % 4])).collect()
    }

    /// Edges with their widths, the widths repeated; no hems.
    fn plain<'a>(edges: &'a [Curve], widths: &[f64]) -> Vec<CutEdge<'a>> {
        let widths = widths.iter().cycle();
        edges
            .iter()
            .zip(widths)
            .map(|(c, w)| CutEdge::new(c, *w, false))
            .collect()
    }

    #[test]
    fn a_turned_hem_on_a_slanting_side_lies_flat_when_folded() {
        // Wider above: (-20, 100) (0, 0) (100, 0) (120, 100), hem 20 at the foot, sides 10.
        let p = [(0.0, 0.0), (100.0, 0.0), (120.0, 100.0), (-20.0, 100.0)].map(Point::from);
        let edges: Vec<Curve> = (0..4).map(|i| Curve::line(p[i], p[(i + 1) % 4])).collect();
        let mut cut = plain(&edges, &[20.0, 10.0, 10.0, 10.0]);
        cut[0].is_turned = true;
        let out = cut_line(&cut).unwrap();
        // At the hem line the side's cut edge stands 10 sqrt(1 + .2^2) out; 20 below it, by the mirror, as wide as 20 above.
        let at_line = 10.0 * 1.04f64.sqrt();
        for (x, y) in [
            (100.0 + at_line, 0.0),
            (100.0 + at_line + 4.0, -20.0),
            (-at_line, 0.0),
            (-at_line - 4.0, -20.0),
        ] {
            let near = out
                .iter()
                .map(|q| (*q - Point::new(x, y)).hypot())
                .fold(f64::MAX, f64::min);
            assert!(near < 1e-6, "nothing at {x} {y}: {out:?}");
        }
        assert!(out.iter().all(|q| q.y > -20.0 - 1e-9));
    }

    #[test]
    fn a_square_by_ten_all_round() {
        let edges = square(100.0);
        let out = cut_line(&plain(&edges, &[10.0])).unwrap();
        assert!((area_mm2(&out) - 14_400.0).abs() < 1e-9);
    }

    #[test]
    fn a_square_by_four_different_widths() {
        let edges = square(100.0);
        let out = cut_line(&plain(&edges, &[10.0, 20.0, 0.0, 5.0])).unwrap();
        assert!((area_mm2(&out) - 13_750.0).abs() < 1e-9);
    }

    #[test]
    fn an_inside_corner_is_trimmed() {
        // An L: its inside corner moves 10 into the notch from both sides.
        let p = [
            (0.0, 0.0),
            (100.0, 0.0),
            (100.0, 50.0),
            (50.0, 50.0),
            (50.0, 100.0),
            (0.0, 100.0),
        ]
        .map(Point::from);
        let edges: Vec<Curve> = (0..6).map(|i| Curve::line(p[i], p[(i + 1) % 6])).collect();
        let out = cut_line(&plain(&edges, &[10.0])).unwrap();
        assert!(
            (area_mm2(&out) - (120.0 * 120.0 - 50.0 * 50.0)).abs() < 1e-9,
            "{}",
            area_mm2(&out)
        );
    }

    #[test]
    fn a_steep_v_is_cut_off_at_the_fold() {
        // Right half of a V-notched square on the fold x = 0: the notch's edge moved out must not pass the fold.
        let p = [
            (0.0, 0.0),
            (100.0, 0.0),
            (100.0, 100.0),
            (30.0, 100.0),
            (0.0, 20.0),
        ]
        .map(Point::from);
        let edges: Vec<Curve> = (0..5).map(|i| Curve::line(p[i], p[(i + 1) % 5])).collect();
        let out = cut_line(&plain(&edges, &[9.0, 9.0, 9.0, 9.0, 0.0])).unwrap();
        assert!(out.iter().all(|q| q.x > -1e-9), "{out:?}");
        let slope = 80.0 / 30.0f64;
        let up = 20.0 + 9.0 * (1.0 + slope * slope).sqrt();
        assert!(
            out.iter().any(|q| q.x.abs() < 1e-9 && (q.y - up).abs() < 1e-9),
            "{out:?}"
        );
    }

    #[test]
    fn a_sharp_point_is_bevelled() {
        let p = [(0.0, 0.0), (200.0, -5.0), (200.0, 5.0)].map(Point::from);
        let edges: Vec<Curve> = (0..3).map(|i| Curve::line(p[i], p[(i + 1) % 3])).collect();
        let out = cut_line(&plain(&edges, &[10.0])).unwrap();
        let reach = out.iter().map(|q| -q.x).fold(0.0, f64::max);
        assert!(reach <= 25.0, "the corner reaches {reach} mm out");
    }
}
