//! A start from a solved shape of another mesh of the same suit: read at the same flat place of the same piece.
//!
//! A fine mesh takes as many steps from a rough start as a coarse one and each costs many times more; so a coarse one is solved first and its
//! shape read at the flat places of the fine mesh's points. A coarse mesh's chords cut into the body: each
//! point is set off the skin by what its coarse neighbours are. Only the start is coarse: the fine solve has the same least
//! energy, the same rail and the same placed state to hold against.
//!
//! **Shapes and units.** mm; flat frame of the draft, form frame.
//! **Limits.** Pieces are matched by key. A point outside the other mesh's piece takes its nearest place there.

use std::collections::BTreeMap;

use cloth::Law;
use draft::Draft;
use units::Progress;

use crate::body_field::BodyField;
use crate::field::Field;
use crate::newton::Solver;
use crate::outcome::{Pass, PassKind, Stop};
use crate::place::place;
use crate::settings::Settings;
use crate::suit::{Elastic, OpenPlace, SuitLaws, SuitMesh, mesh_suit, mesh_whole_suit};
use crate::vector::{V3, add_scaled, dot};

/// Edges of a coarse mesh over those of the next finer one.
const COARSER: f64 = 2.0;
/// No coarse mesh has longer edges than this: a strap needs some triangles across, mm.
const COARSEST: f64 = 16.0;
/// Meshes with edges longer than this are solved at once, mm.
const AT_ONCE: f64 = 12.0;
/// Residual at which a coarse solve ends, N: it only starts a finer one.
const COARSE_RESIDUAL: f64 = 1e-2;
/// A coarse mesh that takes more steps has loose parts: where they end is no place to start from.
const MOST_COARSE_STEPS: usize = 100;
/// A strap whose station moved further starts anew, mm.
const RAIL_MOVE: f64 = 30.0;
/// How far from the skin the set-off is trusted, mm.
const NEAR_SKIN: f64 = 15.0;
/// A point this far outside every triangle goes on as its nearest triangle does, as a share of the mesh's edge.
const OUTSIDE: f64 = 0.3;

/// A worn shape over the flat pieces of its suit, to start a suit like it from: see [`wear_near`](crate::wear_near).
#[derive(Clone, Debug)]
pub struct FlatShape {
    pieces: BTreeMap<String, FlatPiece>,
    /// The field at each point, mm.
    gaps: Vec<f64>,
    positions: Vec<V3>,
    edge_mm: f64,
}

/// One piece's triangles, in bins.
#[derive(Clone, Debug, Default)]
struct FlatPiece {
    triangles: Vec<([usize; 3], [[f64; 2]; 3])>,
    bins: BTreeMap<(i64, i64), Vec<usize>>,
}

impl FlatShape {
    /// The shape `positions` of a suit on a body.
    pub fn new(suit: &SuitMesh, positions: &[[f64; 3]], body: &BodyField) -> FlatShape {
        let mut pieces: BTreeMap<String, FlatPiece> = BTreeMap::new();
        let bin = |x: f64| (x / suit.edge_mm).floor() as i64;
        for (t, piece) in suit.mesh.triangles().iter().zip(&suit.triangle_piece) {
            let (0, Some(key), Some(flat)) = (
                t.layer,
                suit.pieces.get(*piece),
                flat_corners(suit, t.corners, *piece),
            ) else {
                continue;
            };
            let into = pieces.entry(key.clone()).or_default();
            let number = into.triangles.len();
            into.triangles.push((t.corners, flat));
            let span = |i: usize| {
                let all = flat.map(|p| bin(p[i]));
                (
                    all.iter().min().map_or(0, |n| n - 1),
                    all.iter().max().map_or(0, |n| n + 1),
                )
            };
            let ((left, right), (low, high)) = (span(0), span(1));
            for i in left..=right {
                for j in low..=high {
                    into.bins.entry((i, j)).or_default().push(number);
                }
            }
        }
        FlatShape {
            pieces,
            gaps: positions.iter().map(|p| body.value(*p)).collect(),
            positions: positions.to_vec(),
            edge_mm: suit.edge_mm,
        }
    }

    /// Where a flat point of a piece lies, and how far from the skin. `None` for a piece this shape doesn't have.
    fn at(&self, piece: &str, flat: [f64; 2]) -> Option<(V3, f64)> {
        let piece = self.pieces.get(piece)?;
        let bin = flat.map(|x| (x / self.edge_mm).floor() as i64);
        let near = piece.bins.get(&(bin[0], bin[1]));
        let all: Vec<usize> = match near {
            Some(near) => near.clone(),
            None => (0..piece.triangles.len()).collect(),
        };
        let mut best: Option<(f64, usize, [f64; 3])> = None;
        for number in all {
            let (_, corners) = &piece.triangles[number];
            let (weights, away) = nearest(corners, flat);
            if best.is_none_or(|b| away < b.0) {
                best = Some((away, number, weights));
            }
        }
        let (away, number, mut weights) = best?;
        let (corners, places) = &piece.triangles[number];
        if away < OUTSIDE * self.edge_mm {
            weights = barycentric(places, flat).unwrap_or(weights);
        }
        let mut at = [0.0; 3];
        let mut gap = 0.0;
        for (v, w) in corners.iter().zip(weights) {
            at = add_scaled(at, w, self.positions[*v]);
            gap += w * self.gaps[*v];
        }
        Some((at, gap))
    }

    /// Where the points of another mesh of the suit start: as this shape lies, held coordinates as placed. `None` if a piece of it is unknown
    /// here, its strap has moved far, or it has straps that are lines.
    pub(crate) fn start(&self, suit: &SuitMesh, placed: &[V3], body: &BodyField) -> Option<Vec<V3>> {
        if !suit.straps.is_empty() {
            // Their points lie on no piece.
            return None;
        }
        let held = suit.mesh.held();
        let mut start = Vec::with_capacity(placed.len());
        for ((on, placed), held) in suit.on.iter().zip(placed).zip(held) {
            let (mut at, mut gap, share) = ([0.0; 3], 0.0, 1.0 / on.len().max(1) as f64);
            for place in on {
                let (p, g) = self.at(suit.pieces.get(place.piece)?, place.flat)?;
                at = add_scaled(at, share, p);
                gap += share * g;
            }
            for i in (0..3).filter(|i| held[*i]) {
                if (at[i] - placed[i]).abs() > RAIL_MOVE {
                    return None;
                }
                at[i] = placed[i];
            }
            if gap < NEAR_SKIN {
                for _ in 0..2 {
                    let there = body.sample(at);
                    let slope = [0, 1, 2].map(|i| if held[i] { 0.0 } else { there.gradient[i] });
                    let squared = dot(slope, slope);
                    if squared > 1e-2 {
                        at = add_scaled(at, (gap - there.g) / squared, slope);
                    }
                }
            }
            start.push(at);
        }
        Some(start)
    }
}

/// Where a triangle's corners lie on its piece. A corner on both legs of a dart has two places there: the triangle is the small one.
fn flat_corners(suit: &SuitMesh, corners: [usize; 3], piece: usize) -> Option<[[f64; 2]; 3]> {
    let places = |v: usize| {
        suit.on
            .get(v)
            .into_iter()
            .flatten()
            .filter(move |o| o.piece == piece)
    };
    let mut best: Option<(f64, [[f64; 2]; 3])> = None;
    for a in places(corners[0]) {
        for b in places(corners[1]) {
            for c in places(corners[2]) {
                let all = [a.flat, b.flat, c.flat];
                let length = |p: [f64; 2], q: [f64; 2]| (p[0] - q[0]).hypot(p[1] - q[1]);
                let round = length(all[0], all[1]) + length(all[1], all[2]) + length(all[2], all[0]);
                if best.is_none_or(|b| round < b.0) {
                    best = Some((round, all));
                }
            }
        }
    }
    best.map(|b| b.1)
}

fn barycentric([a, b, c]: &[[f64; 2]; 3], p: [f64; 2]) -> Option<[f64; 3]> {
    let twice = |a: &[f64; 2], b: &[f64; 2], c: &[f64; 2]| {
        (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])
    };
    let whole = twice(a, b, c);
    (whole.abs() > 1e-9).then(|| {
        let (u, v) = (twice(&p, b, c) / whole, twice(a, &p, c) / whole);
        [u, v, 1.0 - u - v]
    })
}

/// Weights of a triangle's point nearest to `p`, and how far it is.
fn nearest(corners: &[[f64; 2]; 3], p: [f64; 2]) -> ([f64; 3], f64) {
    if let Some(weights) = barycentric(corners, p)
        && weights.iter().all(|w| *w >= 0.0)
    {
        return (weights, 0.0);
    }
    let mut best = ([1.0, 0.0, 0.0], f64::INFINITY);
    for i in 0..3 {
        let j = (i + 1) % 3;
        let (a, b) = (corners[i], corners[j]);
        let along = [b[0] - a[0], b[1] - a[1]];
        let squared = along[0] * along[0] + along[1] * along[1];
        let t = ((p[0] - a[0]) * along[0] + (p[1] - a[1]) * along[1]) / squared.max(f64::MIN_POSITIVE);
        let t = t.clamp(0.0, 1.0);
        let away = (a[0] + t * along[0] - p[0]).hypot(a[1] + t * along[1] - p[1]);
        if away < best.1 {
            let mut weights = [0.0; 3];
            (weights[i], weights[j]) = (1.0 - t, t);
            best = (weights, away);
        }
    }
    best
}

/// Edges of the meshes to solve before one of `edge_mm`, coarsest first.
fn sizes(edge_mm: f64) -> Vec<f64> {
    let mut sizes = Vec::new();
    let mut edge = edge_mm;
    while edge <= AT_ONCE {
        edge = (COARSER * edge).min(COARSEST);
        sizes.push(edge);
    }
    sizes.reverse();
    sizes
}

/// Where a suit's points lie when coarser meshes of it are solved first, and those solves; the coarsest goes on from `near`, if it is given and
/// fits. `None` when there is none, or one of them fails.
pub(crate) fn start(
    suit: &SuitMesh,
    placed: &[V3],
    (draft, body): (&Draft, &BodyField),
    near: Option<&FlatShape>,
    settings: &Settings,
    progress: &dyn Progress,
) -> Option<(Vec<V3>, Vec<Pass>)> {
    let loose = Settings {
        residual_n: COARSE_RESIDUAL.max(settings.residual_n),
        most_steps: MOST_COARSE_STEPS.min(settings.most_steps),
        augmented_passes: 0,
        friction: None,
        ..*settings
    };
    let mut passes = Vec::new();
    let mut shape: Option<FlatShape> = None;
    for edge_mm in sizes(suit.edge_mm) {
        let mut mesh = alike(suit, draft, edge_mm)?;
        let placed = place(&mesh, draft, body).ok()?;
        mesh.hold_rails();
        let from = match &shape {
            Some(shape) => shape.start(&mesh, &placed, body)?,
            None => near
                .and_then(|near| near.start(&mesh, &placed, body))
                .unwrap_or(placed),
        };
        let solved = Solver::new(&mesh.mesh)
            .and_then(|mut solver| solver.solve(&mesh.mesh, Some(body), &from, &loose, progress))
            .ok()?;
        if solved.stop != Stop::Converged {
            return None;
        }
        passes.extend(solved.passes.iter().cloned().map(|pass| Pass {
            kind: PassKind::Coarse,
            ..pass
        }));
        shape = Some(FlatShape::new(&mesh, &solved.positions, body));
    }
    Some((shape?.start(suit, placed, body)?, passes))
}

/// The same suit, its cloths and elastic, with edges of another length.
fn alike(suit: &SuitMesh, draft: &Draft, edge_mm: f64) -> Option<SuitMesh> {
    if !suit.straps.is_empty() {
        // Their points lie on no piece.
        return None;
    }
    let laws = &suit.mesh.laws;
    // Only how many there are matters: the suit's own take their places.
    let any = Law::new(100.0, 100.0, 0.3, 0.0).ok()?;
    let lining = suit.mesh.triangles.iter().any(|t| t.layer == 1).then_some(any);
    let elastic = |place: OpenPlace<'_>| elastic_at(suit, place);
    let laws_of_any = SuitLaws { shell: any, lining };
    let mesh = if suit.is_whole {
        mesh_whole_suit(draft, &laws_of_any, &elastic, edge_mm)
    } else {
        mesh_suit(draft, &laws_of_any, &elastic, edge_mm)
    };
    let mut mesh = mesh.ok()?;
    if mesh.mesh.laws.len() != laws.len() || mesh.pieces != suit.pieces {
        return None;
    }
    mesh.mesh.laws.clone_from(laws);
    mesh.weigh(suit.hanging_kg_per_m2);
    for layer in 0..2 {
        if let Some(growth) = growth(suit, layer) {
            mesh.mesh.grow(layer, growth);
        }
    }
    Some(mesh)
}

/// The elastic a suit has at a place of an open edge.
fn elastic_at(suit: &SuitMesh, place: OpenPlace<'_>) -> Option<Elastic> {
    let line = suit
        .open_lines
        .iter()
        .find(|l| l.kind == place.kind && l.piece == place.piece && !l.bars.is_empty())?;
    let bars = suit.mesh.bars().get(line.bars.clone())?;
    let number = (place.share * bars.len() as f64) as usize;
    let bar = bars[number.min(bars.len() - 1)];
    let places = |v: usize| suit.on.get(v).into_iter().flatten();
    let mut flat = f64::INFINITY;
    for a in places(bar.ends[0]) {
        for b in places(bar.ends[1]).filter(|b| b.piece == a.piece) {
            flat = flat.min((a.flat[0] - b.flat[0]).hypot(a.flat[1] - b.flat[1]));
        }
    }
    (flat > 0.0 && flat.is_finite()).then(|| Elastic {
        stiffness_n: bar.stiffness_n,
        ratio: bar.rest_mm / flat,
    })
}

/// How much longer than drafted a layer's cloth is, lengthwise and around: read off one of its triangles.
fn growth(suit: &SuitMesh, layer: usize) -> Option<[f64; 2]> {
    let triangles = suit.mesh.triangles.iter().zip(&suit.triangle_piece);
    let (t, flat) = triangles
        .filter(|(t, _)| t.layer == layer)
        .find_map(|(t, piece)| Some((t, flat_corners(suit, t.corners, *piece)?)))?;
    // The gradients of the drafted lengths: 1 over what they grew by.
    let sum = |flat_axis: usize, axis: usize| -> f64 {
        let terms = flat.iter().zip(t.gradients);
        terms.map(|(p, g)| p[flat_axis] * g[axis]).sum()
    };
    let (lengthwise, around) = (sum(1, 0), sum(0, 1).abs());
    (lengthwise > 0.0 && around > 0.0).then(|| [1.0 / lengthwise - 1.0, 1.0 / around - 1.0])
}
