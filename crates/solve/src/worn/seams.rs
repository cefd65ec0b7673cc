//! How far the worn suit stretches each sewn line.
//!
//! **Limits.** The stitch itself is not in the mesh: it is asked afterwards whether it goes so far.

use super::WornSeam;
use crate::seam_lines::SeamLine;
use crate::vector::{norm, sub};

/// A seam's greatest stretch is that of a run at least so long, mm: a stitch gives from place to place (own).
const RUN_MM: f64 = 40.0;

/// Stretch along a line: of the whole, and the greatest of a run with the vertex in its middle.
pub(super) fn stretch_along(vertices: &[usize], rest_mm: &[f64], x: &[[f64; 3]]) -> (f64, f64, usize) {
    let worn: Vec<f64> = vertices.windows(2).map(|w| norm(sub(x[w[1]], x[w[0]]))).collect();
    let ratio = |worn: f64, rest: f64| worn / rest.max(f64::MIN_POSITIVE);
    let whole = ratio(worn.iter().sum(), rest_mm.iter().sum());
    let (mut most, mut at) = (whole, vertices.len() / 2);
    let steps: Vec<(f64, f64)> = worn.into_iter().zip(rest_mm.iter().copied()).collect();
    for first in 0..steps.len() {
        let (mut long, mut rest) = (0.0, 0.0);
        for (i, (worn, flat)) in steps.iter().enumerate().skip(first) {
            long += worn;
            rest += flat;
            if rest >= RUN_MM {
                if ratio(long, rest) > most {
                    (most, at) = (ratio(long, rest), usize::midpoint(first, i + 1));
                }
                break;
            }
        }
    }
    (whole, most, vertices.get(at).copied().unwrap_or(0))
}

/// Every seam, its lines of one name and the same pieces as one.
pub(super) fn worn_seams(lines: &[SeamLine], x: &[[f64; 3]]) -> Vec<WornSeam> {
    let mut seams: Vec<(WornSeam, [f64; 2])> = Vec::new();
    for line in lines.iter().filter(|l| l.vertices.len() > 1) {
        let (whole, most, at) = stretch_along(&line.vertices, &line.rest_mm, x);
        let rest: f64 = line.rest_mm.iter().sum();
        let known = seams
            .iter_mut()
            .find(|(s, _)| s.name == line.name && s.pieces == line.pieces);
        match known {
            Some((seam, lengths)) => {
                *lengths = [lengths[0] + whole * rest, lengths[1] + rest];
                seam.stretch = lengths[0] / lengths[1].max(f64::MIN_POSITIVE);
                if most > seam.most {
                    (seam.most, seam.at) = (most, at);
                }
            }
            None => seams.push((
                WornSeam {
                    name: line.name,
                    pieces: line.pieces.clone(),
                    stretch: whole,
                    most,
                    at,
                },
                [whole * rest, rest],
            )),
        }
    }
    seams.into_iter().map(|(seam, _)| seam).collect()
}
