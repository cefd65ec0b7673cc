//! The worn leg edge against the groin crease, and how far it rode from where the draft meant it.
//!
//! Meant is where the edge was placed: the draft's widths and heights laid on the form. What the pull of cloth and elastic makes of it
//! is the ride.
//!
//! **Shapes and units.** mm; up and towards the belly above 0.
//! **Limits.** Standing. Edges that lie wholly on the thigh, as a leg of trunks does, meet no crease.

use body::FittedForm;
use draft::OpenKind;
use units::Level;

use super::LegLine;
use crate::form_lines::{groin_crease, seat_fold};
use crate::suit::SuitMesh;

/// Shorter runs of an edge near the crease are no lie of it, points.
const LEAST_POINTS: usize = 3;

pub(super) fn leg_line(
    suit: &SuitMesh,
    form: &FittedForm,
    placed: &[[f64; 3]],
    worn: &[[f64; 3]],
) -> Option<LegLine> {
    let mut line: Vec<usize> = suit
        .open_lines
        .iter()
        .filter(|l| l.kind == OpenKind::Leg)
        .flat_map(|l| l.vertices.iter().copied())
        // Of a whole suit her left.
        .filter(|v| placed[*v][0] >= 0.0)
        .collect();
    line.sort_unstable();
    line.dedup();
    let side = line
        .iter()
        .copied()
        .max_by(|a, b| placed[*a][1].total_cmp(&placed[*b][1]))?;
    let crease = groin_crease(form);
    let near: Vec<usize> = line
        .iter()
        .copied()
        .filter(|v| crease.is_some_and(|c| worn[*v][2] > 0.0 && c.is_at(worn[*v])))
        .collect();
    let towards = |x: &[[f64; 3]], v: usize| crease.map_or(0.0, |c| c.towards_belly(x[v]));
    let is_near = near.len() >= LEAST_POINTS;
    let mean = |values: &[f64]| values.iter().sum::<f64>() / values.len().max(1) as f64;
    let lies: Vec<f64> = near.iter().map(|v| towards(worn, *v)).collect();
    let rode: Vec<f64> = near
        .iter()
        .map(|v| towards(worn, *v) - towards(placed, *v))
        .collect();
    let deepest = near
        .iter()
        .copied()
        .min_by(|a, b| towards(worn, *a).total_cmp(&towards(worn, *b)));
    let (fold, hip) = (seat_fold(form), form.level_height(Level::Hip));
    let seat: Vec<f64> = line
        .iter()
        .filter(|v| placed[**v][2] < 0.0 && placed[**v][1] > fold && placed[**v][1] < hip)
        .map(|v| worn[*v][1] - placed[*v][1])
        .collect();
    Some(LegLine {
        towards_belly_mm: is_near.then(|| mean(&lies)),
        deepest: deepest.filter(|_| is_near),
        side,
        rode_side_mm: worn[side][1] - placed[side][1],
        rode_groin_mm: is_near.then(|| mean(&rode)),
        rode_seat_mm: (seat.len() >= LEAST_POINTS).then(|| mean(&seat)),
    })
}
