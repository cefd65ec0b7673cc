//! Open edges of a meshed suit with their elastic, and the shoulder seam.

use cloth::Law;
use draft::{Draft, EdgeUse, OpenKind};

use super::limb_parts::{collar, is_elastic, open_as};
use super::part::{Meshed, Part};
use super::{Elastic, OpenLine, OpenPlace, Unmeshed};
use crate::mesh::{Bar, Mesh};
use crate::seams::{Division, EdgeAt, bare_name};

pub(super) fn open_lines(
    draft: &Draft,
    used: &[Meshed],
    division: &Division,
    vertex: &dyn Fn(EdgeAt, usize) -> usize,
    elastic: &dyn Fn(OpenPlace<'_>) -> Option<Elastic>,
    shell: &Law,
    mesh: &mut Mesh,
) -> Result<Vec<OpenLine>, Unmeshed> {
    let mut lines = Vec::new();
    let collar = collar(draft, shell);
    for &Meshed { number, part } in used {
        let piece = &draft.pieces[number];
        for (e, edge) in piece.edges.iter().enumerate() {
            let Some(kind) = open_as(draft, piece, part, edge) else {
                continue;
            };
            let has_elastic = is_elastic(part, edge);
            let band = collar.filter(|_| !has_elastic && edge.name == "neck");
            let at = (number, e);
            let shares = division.shares.get(&at).map_or(&[][..], Vec::as_slice);
            let vertices: Vec<usize> = (0..shares.len()).map(|i| vertex(at, i)).collect();
            let flat_mm = edge.curve.length();
            let first_bar = mesh.bars().len();
            for (i, w) in shares.windows(2).enumerate() {
                let place = OpenPlace {
                    kind,
                    piece: &piece.key,
                    share: f64::midpoint(w[0], w[1]),
                };
                let elastic = match band {
                    Some((stiffness_n, ratio)) => Some(Elastic { stiffness_n, ratio }),
                    None => elastic(place).filter(|_| has_elastic),
                };
                if let Some(elastic) = elastic {
                    mesh.add_bar(Bar {
                        ends: [vertices[i], vertices[i + 1]],
                        rest_mm: elastic.ratio * (w[1] - w[0]) * flat_mm,
                        stiffness_n: elastic.stiffness_n,
                        width_mm: 0.0,
                    })?;
                }
            }
            lines.push(OpenLine {
                kind,
                piece: piece.key.clone(),
                vertices,
                flat_mm,
                bars: first_bar..mesh.bars().len(),
            });
        }
    }
    Ok(lines)
}

/// The free edge of a lining, divided evenly, with its elastic.
pub(super) fn open_inside(
    (kind, piece): (OpenKind, &str),
    vertices: Vec<usize>,
    flat_mm: f64,
    elastic: &dyn Fn(OpenPlace<'_>) -> Option<Elastic>,
    mesh: &mut Mesh,
) -> Result<OpenLine, Unmeshed> {
    let first_bar = mesh.bars().len();
    let parts = vertices.len().saturating_sub(1).max(1) as f64;
    for (i, w) in vertices.windows(2).enumerate() {
        let share = (i as f64 + 0.5) / parts;
        if let Some(elastic) = elastic(OpenPlace { kind, piece, share }) {
            mesh.add_bar(Bar {
                ends: [w[0], w[1]],
                rest_mm: elastic.ratio * flat_mm / parts,
                stiffness_n: elastic.stiffness_n,
                width_mm: 0.0,
            })?;
        }
    }
    Ok(OpenLine {
        kind,
        piece: piece.to_owned(),
        vertices,
        flat_mm,
        bars: first_bar..mesh.bars().len(),
    })
}

/// The front's shoulder edges, left and right, each from the neck outwards; empty where there is none.
pub(super) fn shoulder(
    draft: &Draft,
    used: &[Meshed],
    division: &Division,
    vertex: &dyn Fn(EdgeAt, usize) -> usize,
) -> [Vec<usize>; 2] {
    let mut sides = [Vec::new(), Vec::new()];
    for &Meshed { number, part } in used {
        if part != (Part::Torso { is_front: true }) {
            continue;
        }
        for (e, edge) in draft.pieces[number].edges.iter().enumerate() {
            let curve = &edge.curve;
            let (from, to) = (curve.start().x, curve.end().x);
            let side = &mut sides[usize::from(from + to < 0.0)];
            if bare_name(edge.name) != "shoulder" || edge.role != EdgeUse::Seam || !side.is_empty() {
                continue;
            }
            let count = division.shares.get(&(number, e)).map_or(0, Vec::len);
            side.extend((0..count).map(|i| vertex((number, e), i)));
            if from.abs() > to.abs() {
                side.reverse();
            }
        }
    }
    sides
}
