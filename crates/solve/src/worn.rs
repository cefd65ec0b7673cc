//! A suit put on a form and read: worn stretch by level, squeeze, where it stands off, straps, edges.
//!
//! Straps are held on a rail: without friction they slide off the shoulder, and the force on the rail says how much grip a real
//! strap needs. The placed state is where friction holds against.
//!
//! **Shapes and units.** mm, N, kPa; half suits, forces of one side. Stretch is worn over rest length.
//! **Limits.** The body is rigid and stands still. Cloth that creeps into the hollow of the back without friction folds there: read a
//! lengthwise stretch far below 1 as folds. No pressure is good at the inner seat fold, see [`BodyField`].

use body::FittedForm;
use draft::{Draft, OpenKind};
use thiserror::Error;
use units::{Level, Progress};

use crate::body_field::BodyField;
use crate::coarse;
use crate::error::MeshError;
use crate::newton::Solver;
use crate::outcome::{Solved, Stop};
use crate::place::{Unplaced, place};
use crate::reading::{bar_tensions, pressure, vertex_stretch, worn_stretch};
use crate::settings::Settings;
use crate::suit::SuitMesh;
use crate::vector::{cross, norm, sub};

/// Cloth further from the skin than this stands off, mm.
pub const GAPE_MM: f64 = 3.0;
/// Pull of slack cloth while looking for a place for loose parts, a hundred times the usual.
const LOOSE_PULL: f64 = 1e-2;
/// A level is read in a band this far either way of its height, mm.
const LEVEL_BAND: f64 = 12.0;

/// Why a suit was not put on.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum Unworn {
    /// It has no place on the form.
    #[error("{0}")]
    Place(#[from] Unplaced),
    /// Its mesh can't be solved.
    #[error("{0}")]
    Mesh(#[from] MeshError),
}

/// Worn stretch and squeeze at one level.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WornLevel {
    /// Which level.
    pub level: Level,
    /// Its height over the crotch on the form.
    pub height_mm: f64,
    /// Mean stretch around, by rest area.
    pub around: f64,
    /// Mean stretch lengthwise.
    pub lengthwise: f64,
    /// Twentieth and nineteen twentieths of the stretch around.
    pub around_spread: [f64; 2],
    /// Mean contact pressure, kPa.
    pub pressure_kpa: f64,
    /// Whether the suit closes round the body there: above the legs, below the armholes. Elsewhere the edges take what stretch they
    /// like, and no girth of the draft says what it should be.
    pub closes: bool,
    /// Mean worn over rest area.
    pub area: f64,
    /// Front and back by themselves: (lengthwise, around) and rest area, mm^2.
    pub halves: [Option<([f64; 2], f64)>; 2],
}

/// A worn open edge of one piece.
#[derive(Clone, Debug, PartialEq)]
pub struct WornEdge {
    /// Which edge.
    pub kind: OpenKind,
    /// Key of the piece.
    pub piece: String,
    /// Worn over flat length.
    pub stretch: f64,
    /// Mean pull of its elastic, N; 0 without.
    pub elastic_n: f64,
    /// Force on the body per length of edge, N/m: the squeeze of the edge before it is divided by a width.
    pub line_load_n_per_m: f64,
    /// Furthest it stands off the skin, mm.
    pub gape_mm: f64,
    /// Where that is, form frame.
    pub gape_at: [f64; 3],
}

/// The strap of one side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WornStrap {
    /// Stretch along it.
    pub stretch: f64,
    /// Force the rail gives, N: above 0 it keeps the strap from sliding outwards, below from sliding to the neck.
    pub rail_n: f64,
    /// That force over the contact force within 60 mm: skin with more friction holds the strap by itself.
    pub needed_friction: f64,
}

/// A place where the suit stands off the body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gape {
    /// Deepest point, form frame.
    pub at: [f64; 3],
    /// The open edge it reaches, if any: a gap one can see into. Without, the cloth bridges a hollow.
    pub edge: Option<OpenKind>,
    /// How far it stands off there, mm.
    pub depth_mm: f64,
    /// Worn area that stands off by more than [`GAPE_MM`], mm^2.
    pub area_mm2: f64,
}

/// A worn suit.
#[derive(Clone, Debug, PartialEq)]
pub struct WornSuit {
    /// Where it started.
    pub placed: Vec<[f64; 3]>,
    /// The solve: read its [`stop`](Solved::stop) first.
    pub solved: Solved,
    /// Stretch (lengthwise, around) of the shell at each vertex.
    pub shell: Vec<Option<[f64; 2]>>,
    /// Of the lining, where it is.
    pub lining: Vec<Option<[f64; 2]>>,
    /// Contact pressure at each vertex, kPa.
    pub pressure_kpa: Vec<f64>,
    /// Levels, top to bottom.
    pub levels: Vec<WornLevel>,
    /// Open edges.
    pub edges: Vec<WornEdge>,
    /// The strap, if there is one.
    pub strap: Option<WornStrap>,
    /// Where it stands off, deepest first.
    pub gapes: Vec<Gape>,
    /// How far the seam of side and underarm sank from where it was placed, mm.
    pub sank_mm: f64,
}

/// Puts a suit on a form and reads it.
///
/// Straps are held on their rail. A fine mesh starts from coarser ones of the same suit, solved first; a suit without one that is solved
/// starts as placed. A suit whose steps run out is tried once more from where a stronger pull of slack cloth leaves it. The suit's mesh is not changed but for that. A solve that fails comes back with its reason in
/// [`Solved::stop`]; what is read of it is then no answer. After a change of the draft start anew: going on from the old shape saved
/// a third of the steps but left some straps resting elsewhere on the arm's root. After a change of cloth or elastic alone the mesh
/// stays, and [`Solver::solve_from`] goes on.
///
/// # Errors
/// [`Unworn`] when the suit has no place on this form.
pub fn wear(
    suit: &mut SuitMesh,
    draft: &Draft,
    form: &FittedForm,
    body: &BodyField,
    settings: &Settings,
    progress: &dyn Progress,
) -> Result<WornSuit, Unworn> {
    let placed = place(suit, draft, body)?;
    for v in suit.shoulder.clone() {
        suit.mesh.hold(v, [true, false, false]);
    }
    let mut solver = Solver::new(&suit.mesh)?;
    let coarse = coarse::start(suit, &placed, draft, body, settings, progress);
    let (start, coarse_passes) = coarse.unwrap_or_else(|| (placed.clone(), Vec::new()));
    let from = (&start[..], &[][..]);
    let mut solved = solver.solve_from(&suit.mesh, Some(body), &placed, from, settings, progress)?;
    solved.passes.splice(0..0, coarse_passes);
    if solved.stop == Stop::StepsUsedUp {
        // Loose parts hardly know where to lie: a stronger pull of the cloth on itself finds a place near theirs first.
        let held = Settings {
            slack_pull: LOOSE_PULL,
            augmented_passes: 0,
            friction: None,
            ..*settings
        };
        let near = solver.solve(&suit.mesh, Some(body), &placed, &held, progress)?;
        if near.stop == Stop::Converged {
            let from = (&near.positions[..], &[][..]);
            let again = solver.solve_from(&suit.mesh, Some(body), &placed, from, settings, progress)?;
            let first = solved.passes;
            solved = again;
            solved.passes = [first, near.passes, solved.passes].concat();
        }
    }
    Ok(read(suit, form, placed, solved))
}

/// Reads a solved suit.
pub fn read(suit: &SuitMesh, form: &FittedForm, placed: Vec<[f64; 3]>, solved: Solved) -> WornSuit {
    let mesh = &suit.mesh;
    let x = &solved.positions;
    let pressure_kpa = pressure(mesh, &solved);
    let closed = closed_span(suit, x);
    let levels = form
        .levels()
        .into_iter()
        .filter_map(|(level, height)| worn_level(suit, x, &pressure_kpa, (level, height), closed))
        .collect();
    let edges = worn_edges(suit, &solved);
    let strap = worn_strap(suit, form, &solved);
    let gapes = gapes(suit, &solved);
    let sank_mm = suit
        .open_lines
        .iter()
        .filter(|l| l.kind == OpenKind::Leg)
        .flat_map(|l| [l.vertices.first(), l.vertices.last()])
        .flatten()
        .max_by(|a, b| placed[**a][0].total_cmp(&placed[**b][0]))
        .map_or(0.0, |v| placed[*v][1] - x[*v][1]);
    WornSuit {
        shell: vertex_stretch(mesh, x, 0),
        lining: vertex_stretch(mesh, x, 1),
        placed,
        pressure_kpa,
        levels,
        edges,
        strap,
        gapes,
        sank_mm,
        solved,
    }
}

fn worn_level(
    suit: &SuitMesh,
    x: &[[f64; 3]],
    pressure_kpa: &[f64],
    (level, height): (Level, f64),
    closed: (f64, f64),
) -> Option<WornLevel> {
    let stretch = worn_stretch(&suit.mesh, x);
    let mut band: Vec<([f64; 2], f64)> = Vec::new();
    let mut sums = [[0.0; 3]; 2];
    let (mut force, mut area, mut worn_area) = (0.0, 0.0, 0.0);
    for (number, (t, l)) in suit.mesh.triangles().iter().zip(stretch).enumerate() {
        let middle = t.corners.iter().map(|v| x[*v][1]).sum::<f64>() / 3.0;
        if t.layer == 0 && (middle - height).abs() <= LEVEL_BAND {
            band.push((l, t.area_mm2));
            force += t.corners.iter().map(|v| pressure_kpa[*v]).sum::<f64>() / 3.0 * t.area_mm2;
            area += t.area_mm2;
            let [a, b, c] = t.corners.map(|v| x[v]);
            worn_area += norm(cross(sub(b, a), sub(c, a))) / 2.0;
            let piece = suit.triangle_piece.get(number).and_then(|p| suit.pieces.get(*p));
            let half = &mut sums[usize::from(piece.is_some_and(|p| p == "back"))];
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
        closes: height >= closed.0 && height <= closed.1,
        area: worn_area / area,
        halves: sums.map(|[l, a, area]| (area > 0.0).then(|| ([l / area, a / area], area))),
    })
}

/// Between which heights the suit closes round the body: from the legs' upper end to the armholes' lower, or to the edge above.
fn closed_span(suit: &SuitMesh, x: &[[f64; 3]]) -> (f64, f64) {
    let heights = |kinds: &'static [OpenKind]| {
        suit.open_lines
            .iter()
            .filter(move |l| kinds.contains(&l.kind))
            .flat_map(|l| l.vertices.iter().map(|v| x[*v][1]))
    };
    let low = heights(&[OpenKind::Leg]).fold(f64::NEG_INFINITY, f64::max);
    let armholes = heights(&[OpenKind::Armhole]).fold(f64::INFINITY, f64::min);
    // A waist dips; a level it crosses is closed as far as it matters.
    let top = heights(&[OpenKind::Waist, OpenKind::Top]).reduce(f64::max);
    (low, armholes.min(top.unwrap_or(f64::INFINITY)))
}

fn worn_edges(suit: &SuitMesh, solved: &Solved) -> Vec<WornEdge> {
    let x = &solved.positions;
    let pulls = bar_tensions(&suit.mesh, x);
    suit.open_lines
        .iter()
        .map(|line| {
            let worn: f64 = line
                .vertices
                .windows(2)
                .map(|w| norm(sub(x[w[1]], x[w[0]])))
                .sum();
            let bars = &pulls[line.bars.clone()];
            let force: f64 = line.vertices.iter().map(|v| solved.contact_n[*v]).sum();
            let gap = |v: &usize| solved.gap_mm[*v];
            let furthest = line
                .vertices
                .iter()
                .copied()
                .max_by(|a, b| gap(a).total_cmp(&gap(b)));
            WornEdge {
                kind: line.kind,
                piece: line.piece.clone(),
                stretch: worn / line.flat_mm.max(f64::MIN_POSITIVE),
                elastic_n: bars.iter().fold(0.0, |sum, pull| sum + pull) / bars.len().max(1) as f64,
                line_load_n_per_m: force / worn.max(f64::MIN_POSITIVE) * 1e3,
                gape_mm: furthest.map_or(0.0, |v| solved.gap_mm[v].max(0.0)),
                gape_at: furthest.map_or([0.0; 3], |v| x[v]),
            }
        })
        .collect()
}

fn worn_strap(suit: &SuitMesh, form: &FittedForm, solved: &Solved) -> Option<WornStrap> {
    let x = &solved.positions;
    let middle = suit.shoulder.get(suit.shoulder.len() / 2).map(|v| x[*v])?;
    let bust = form.level_height(Level::Bust);
    let top = middle[1];
    // The strap's own part: the upper half between bust and shoulder.
    let from = f64::midpoint(bust, top);
    let (mut sum, mut area) = (0.0, 0.0);
    for (t, l) in suit.mesh.triangles().iter().zip(worn_stretch(&suit.mesh, x)) {
        let height = t.corners.iter().map(|v| x[*v][1]).sum::<f64>() / 3.0;
        if t.layer == 0 && height > from {
            sum += l[0] * t.area_mm2;
            area += t.area_mm2;
        }
    }
    let rail_n: f64 = suit.shoulder.iter().map(|v| solved.reactions_n[*v][0]).sum();
    let near: f64 = x
        .iter()
        .zip(&solved.contact_n)
        .filter(|(p, _)| norm(sub(**p, middle)) < 60.0)
        .map(|(_, f)| f)
        .sum();
    Some(WornStrap {
        stretch: if area > 0.0 { sum / area } else { 1.0 },
        // Holding it inwards is a force towards the middle, -x.
        rail_n: -rail_n,
        needed_friction: rail_n.abs() / near.max(f64::MIN_POSITIVE),
    })
}

/// Connected places that stand off.
fn gapes(suit: &SuitMesh, solved: &Solved) -> Vec<Gape> {
    let mesh = &suit.mesh;
    let areas = crate::reading::voronoi_areas(mesh, &solved.positions);
    let count = mesh.vertex_count();
    let is_off = |v: usize| solved.gap_mm[v] > GAPE_MM && solved.contact_n[v] <= 0.0;
    let mut neighbours: Vec<Vec<usize>> = vec![Vec::new(); count];
    for t in mesh.triangles() {
        for (i, v) in t.corners.iter().enumerate() {
            neighbours[*v].push(t.corners[(i + 1) % 3]);
            neighbours[*v].push(t.corners[(i + 2) % 3]);
        }
    }
    let mut on_edge: Vec<Option<OpenKind>> = vec![None; count];
    for line in &suit.open_lines {
        for v in &line.vertices {
            on_edge[*v] = Some(line.kind);
        }
    }
    let mut seen = vec![false; count];
    let mut found = Vec::new();
    for start in 0..count {
        if seen[start] || !is_off(start) {
            continue;
        }
        seen[start] = true;
        let mut todo = vec![start];
        let mut gape = Gape {
            at: solved.positions[start],
            edge: None,
            depth_mm: 0.0,
            area_mm2: 0.0,
        };
        while let Some(v) = todo.pop() {
            gape.area_mm2 += areas[v];
            gape.edge = gape.edge.or(on_edge[v]);
            if solved.gap_mm[v] > gape.depth_mm {
                gape.depth_mm = solved.gap_mm[v];
                gape.at = solved.positions[v];
            }
            for n in &neighbours[v] {
                if !seen[*n] && is_off(*n) {
                    seen[*n] = true;
                    todo.push(*n);
                }
            }
        }
        found.push(gape);
    }
    found.sort_by(|a, b| b.depth_mm.total_cmp(&a.depth_mm));
    found
}
