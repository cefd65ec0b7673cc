//! Worn stretch and squeeze at a level.

use draft::OpenKind;
use units::Level;

use super::WornLevel;
use crate::reading::worn_stretch;
use crate::suit::{Part, SuitMesh};
use crate::vector::{cross, norm, sub};

/// A level is read in a band this far either way of its height, mm.
const LEVEL_BAND: f64 = 12.0;

pub(super) fn worn_level(
    suit: &SuitMesh,
    x: &[[f64; 3]],
    pressure_kpa: &[f64],
    (level, height): (Level, f64),
    closed: &[(f64, f64)],
) -> Option<WornLevel> {
    let stretch = worn_stretch(&suit.mesh, x);
    let mut band: Vec<([f64; 2], f64)> = Vec::new();
    let mut sums = [[0.0; 3]; 2];
    let (mut force, mut area, mut worn_area) = (0.0, 0.0, 0.0);
    for (number, (t, l)) in suit.mesh.triangles().iter().zip(stretch).enumerate() {
        let middle = t.corners.iter().map(|v| x[*v][1]).sum::<f64>() / 3.0;
        if t.layer == 0 && (middle - height).abs() <= LEVEL_BAND && !suit.is_sleeve(number) {
            band.push((l, t.area_mm2));
            force += t.corners.iter().map(|v| pressure_kpa[*v]).sum::<f64>() / 3.0 * t.area_mm2;
            area += t.area_mm2;
            let [a, b, c] = t.corners.map(|v| x[v]);
            worn_area += norm(cross(sub(b, a), sub(c, a))) / 2.0;
            let part = suit.triangle_piece.get(number).and_then(|p| suit.parts.get(*p));
            let half = &mut sums[usize::from(part.is_some_and(|p| p.is_behind()))];
            half[0] += l[0] * t.area_mm2;
            half[1] += l[1] * t.area_mm2;
            half[2] += t.area_mm2;
        }
    }
    if band.len() < 4 {
        return None;
    }
    let mean = |i: usize| band.iter().map(|(l, a)| l[i] * a).sum::<f64>() / area;
    let mut around: Vec<f64> = band.iter().map(|(l, _)| l[1]).collect();
    around.sort_by(f64::total_cmp);
    let at = |share: f64| around[((around.len() - 1) as f64 * share).round() as usize];
    Some(WornLevel {
        level,
        height_mm: height,
        around: mean(1),
        lengthwise: mean(0),
        around_spread: [at(0.05), at(0.95)],
        pressure_kpa: force / area,
        // At the crotch a suit with legs is neither one ring nor two.
        closes: closed.iter().any(|c| height >= c.0 && height <= c.1)
            && !(level == Level::Crotch && suit.has_legs()),
        area: worn_area / area,
        halves: sums.map(|[l, a, area]| (area > 0.0).then(|| ([l / area, a / area], area))),
    })
}

/// Between which heights each garment closes round the body: from the legs' upper end or a lower edge to the armholes' lower, or to the
/// edge above. The brief of a two-piece is a garment of its own. Triangles and tied sides close nowhere.
pub(super) fn closed_spans(suit: &SuitMesh, x: &[[f64; 3]]) -> Vec<(f64, f64)> {
    let is_tied = |part: &Part| *part == Part::Triangle;
    let mut spans = Vec::new();
    for is_brief in [false, true] {
        let own = |key: &str| key.starts_with("brief_") == is_brief;
        let is_open = if is_brief {
            false
        } else {
            suit.parts.iter().any(is_tied) || suit.straps.iter().any(|s| !s.drawn[0].is_empty())
        };
        if is_open || !suit.pieces.iter().any(|key| own(key)) {
            continue;
        }
        let heights = |kinds: &'static [OpenKind]| {
            suit.open_lines
                .iter()
                .filter(move |l| own(&l.piece) && kinds.contains(&l.kind))
                .flat_map(|l| l.vertices.iter().map(|v| x[*v][1]))
        };
        let legs = heights(&[OpenKind::Leg])
            .chain(suit.hem_rail().into_iter().map(|v| x[v][1]))
            .fold(f64::NEG_INFINITY, f64::max);
        let under = heights(&[OpenKind::Underbust]).reduce(f64::min);
        let armholes = heights(&[OpenKind::Armhole])
            .chain(suit.armhole_seam().into_iter().map(|v| x[v][1]))
            .fold(f64::INFINITY, f64::min);
        // A waist dips; a level it crosses is closed as far as it matters.
        let top = heights(&[OpenKind::Waist, OpenKind::Top]).reduce(f64::max);
        spans.push((
            legs.max(under.unwrap_or(f64::NEG_INFINITY)),
            armholes.min(top.unwrap_or(f64::INFINITY)),
        ));
    }
    spans
}
