//! A suit put on a form and read: worn stretch by level, squeeze, where it stands off, straps, edges.
//!
//! Straps are held on a rail: without friction they slide off the shoulder, and the force on the rail says how much grip a real
//! strap needs. The placed state is where friction holds against.
//!
//! **Shapes and units.** mm, N, kPa; half suits, forces of one side. Stretch is worn over rest length.
//! **Limits.** The body is rigid and stands still. Cloth that creeps into the hollow of the back without friction folds there: read a
//! lengthwise stretch far below 1 as folds. No pressure is good at the inner seat fold, see [`BodyField`].

mod edges;
mod gapes;
mod held;
mod leg;
mod levels;
mod seams;
mod seat;
mod support;

use body::FittedForm;
use draft::{Draft, OpenKind};
use thiserror::Error;
use units::{Level, Progress};

use crate::body_field::BodyField;
use crate::coarse::{self, FlatShape};
use crate::error::MeshError;
use crate::newton::Solver;
use crate::outcome::{Solved, Stop};
use crate::place::{Unplaced, place};
use crate::reading::{pressure, vertex_stretch};
use crate::settings::Settings;
use crate::suit::{Drape, SuitMesh};

use edges::{worn_edges, worn_strap};
use gapes::gapes;
use held::{rode_up, worn_lines, worn_rails};
use leg::leg_line;
use levels::{closed_spans, worn_level};
use seams::worn_seams;
use seat::seat_cover;
use support::worn_support;

/// Cloth further from the skin than this stands off, mm.
pub const GAPE_MM: f64 = 3.0;
/// Pull of slack cloth while looking for a place for loose parts, a hundred times the usual.
const LOOSE_PULL: f64 = 1e-2;
/// Pull back to where it was put of a suit that is not solved without, N/mm^3: 5 Pa at 10 mm, some twice its weight and a fortieth of a usual
/// contact pressure (own).
const HOMING: f64 = 5e-7;
/// What is said of such a suit.
const HELD: &str = "parts of the suit are so loose that they hardly know where to lie: they were drawn weakly back to where the suit was put, so \
                    read where they hang as one of many ways";

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
    /// How far the ring it is part of would stand off if what is slack in it were spread evenly round, mm; 0 where it is taut. Slack cloth
    /// lies anywhere between the skin and there: it has no stiffness to choose by.
    pub slack_mm: f64,
    /// The vertex that is there.
    pub gape_vertex: usize,
    /// How much of its length stands off by more than [`GAPE_MM`], mm.
    pub off_mm: f64,
    /// Greatest stretch of a run of some 40 mm, worn over flat length.
    pub most: f64,
    /// The vertex in the middle of that run.
    pub most_at: usize,
    /// Worn length once round of all edges of this kind that make its ring, both sides of the suit, mm.
    pub girth_mm: f64,
}

/// A sewn line of the worn suit.
#[derive(Clone, Debug, PartialEq)]
pub struct WornSeam {
    /// The draft's name of the seam.
    pub name: &'static str,
    /// Keys of the pieces it joins.
    pub pieces: [String; 2],
    /// Worn over flat length.
    pub stretch: f64,
    /// The same of the run of some 40 mm that is stretched most.
    pub most: f64,
    /// The vertex in the middle of that run.
    pub at: usize,
}

/// The worn leg edge: where it lies, and how far it rode from where it was placed, one side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LegLine {
    /// How far it lies from the groin crease towards the belly, mean in front, mm; below 0 on the thigh. Nothing where edge and crease
    /// don't meet, or the form shows no crease.
    pub towards_belly_mm: Option<f64>,
    /// The vertex that lies furthest out on the thigh there.
    pub deepest: Option<usize>,
    /// The vertex that was placed highest, at the side.
    pub side: usize,
    /// How far the edge rode up at the side, mm; below 0 it sank.
    pub rode_side_mm: f64,
    /// How far it rode towards the belly in the groin, mm.
    pub rode_groin_mm: Option<f64>,
    /// How far it rode up over the seat, mm.
    pub rode_seat_mm: Option<f64>,
}

/// Shares of the seat under the suit, one side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeatCover {
    /// Where the suit was placed: what the draft meant.
    pub meant: f64,
    /// Where it lies.
    pub covered: f64,
}

/// What straps and the band under the bust carry, one side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WornSupport {
    /// Pull of the strap in front, N; nothing without straps.
    pub strap_n: Option<f64>,
    /// Pull round the ribs in the middle of the front, of a band 40 mm high at the under-bust, N.
    pub band_n: f64,
    /// Mean pressure in front on that band, kPa.
    pub pressure_kpa: f64,
    /// Force it lies on there with, one side, N: what friction holds by.
    pub band_force_n: f64,
    /// Whether an edge with elastic runs there.
    pub has_band: bool,
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

/// A garment that was held at the height it was placed at, and what that took, one side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WornRail {
    /// What was held, in words.
    pub name: &'static str,
    /// Force that would move it, N: upwards above 0, downwards below.
    pub slides_n: f64,
    /// Force it lies on the body with, N: that times friction is the grip it has.
    pub contact_n: f64,
    /// The one over the other: skin with more friction holds it by itself.
    pub needed_friction: f64,
}

/// A worn strap or tie.
#[derive(Clone, Debug, PartialEq)]
pub struct WornLine {
    /// What it is, in words.
    pub name: &'static str,
    /// Worn over rest length.
    pub stretch: f64,
    /// Its worn length, mm.
    pub length_mm: f64,
    /// Mean pull along it, N, of all its lines together.
    pub pull_n: f64,
    /// Mean pressure over its width, kPa; 0 where it runs in cloth.
    pub pressure_kpa: f64,
    /// Furthest it stands off the skin, mm.
    pub gape_mm: f64,
}

/// How far the lower edge of a top went up from where the draft has it, mean of its length, mm; below 0 it sank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RodeUp {
    /// In front.
    pub front_mm: f64,
    /// Behind.
    pub back_mm: f64,
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
    /// What was held, and what it took: without friction where there is some, so that the whole of it is told.
    pub rails: Vec<WornRail>,
    /// Straps and ties that are lines.
    pub lines: Vec<WornLine>,
    /// How far a top rode up.
    pub rode_up: Option<RodeUp>,
    /// Where it stands off, deepest first.
    pub gapes: Vec<Gape>,
    /// How far the seam of side and underarm sank from where it was placed, mm.
    pub sank_mm: f64,
    /// What hangs from it, as it hangs.
    pub hanging: Vec<Drape>,
    /// Sewn lines, in the draft's order.
    pub seams: Vec<WornSeam>,
    /// The leg edge, if there is one.
    pub leg: Option<LegLine>,
    /// How much of the seat is covered; nothing for a suit that was not meant to.
    pub seat: Option<SeatCover>,
    /// What carries the bust; nothing for bodies without an under-bust and suits that don't reach it.
    pub support: Option<WornSupport>,
}

/// Puts a suit on a form and reads it.
///
/// Straps are held on their rail. A fine mesh starts from coarser ones of the same suit, solved first; where these or what follows of them
/// fails the suit starts as placed. A suit whose steps run out, or that comes to a place no step leads on from, is tried once more from where a
/// stronger pull of slack cloth leaves it, then held weakly where it was put. The suit's mesh is not changed but for the rail. A solve that fails comes back with its reason in
/// [`Solved::stop`]; what is read of it is then no answer. After a change of the draft [`wear_near`] goes on from the old shape; after
/// a change of cloth or elastic alone the mesh stays, and [`Solver::solve_from`] goes on.
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
    let placed = put_on(suit, draft, body)?;
    let solved = wear_placed(suit, draft, body, &placed, settings, progress)?;
    told(suit, form, body, (placed, solved), settings, progress)
}

/// As [`wear`], going on from how the suit was worn before its draft changed a little: the coarsest mesh does.
///
/// Rail and placed state are the new suit's own. Where the old shape lacks a piece or the strap's station moved far the coarsest mesh starts as
/// placed, and where the solve fails it is [`wear`]. In 44 of 45 changes on 5 bodies (straps, necklines, legs, fits) the answer was
/// the one of a cold start to 1e-9 of the energy. In one the cold start itself lost a strap far out on the shoulder to the arm and ran out
/// of steps: there this keeps the strap where it was.
///
/// # Errors
/// As [`wear`].
pub fn wear_near(
    suit: &mut SuitMesh,
    draft: &Draft,
    form: &FittedForm,
    body: &BodyField,
    near: &FlatShape,
    settings: &Settings,
    progress: &dyn Progress,
) -> Result<WornSuit, Unworn> {
    let placed = put_on(suit, draft, body)?;
    let start = coarse::start(suit, &placed, (draft, body), Some(near), settings, progress)
        .or_else(|| Some((near.start(suit, &placed, body)?, Vec::new())));
    if let Some((start, passes)) = start {
        let from = (&start[..], &[][..]);
        let mut solver = Solver::new(&suit.mesh)?;
        let mut solved = solver.solve_from(&suit.mesh, Some(body), &placed, from, settings, progress)?;
        solved.passes.splice(0..0, passes);
        if is_over(&solved) {
            return told(suit, form, body, (placed, solved), settings, progress);
        }
    }
    let solved = wear_placed(suit, draft, body, &placed, settings, progress)?;
    told(suit, form, body, (placed, solved), settings, progress)
}

/// Reads a suit. What friction takes off a garment that is held up is grip that is needed all the same: that is read without.
fn told(
    suit: &SuitMesh,
    form: &FittedForm,
    body: &BodyField,
    (placed, solved): (Vec<[f64; 3]>, Solved),
    settings: &Settings,
    progress: &dyn Progress,
) -> Result<WornSuit, Unworn> {
    let mut worn = read(suit, form, placed, solved);
    if settings.friction.is_some() && !worn.rails.is_empty() && worn.solved.stop == Stop::Converged {
        let bare = Settings {
            friction: None,
            ..*settings
        };
        let mut solver = Solver::new(&suit.mesh)?;
        let slid = solver.solve(&suit.mesh, Some(body), &worn.placed, &bare, progress)?;
        if slid.stop == Stop::Converged {
            worn.rails = worn_rails(suit, &slid);
        }
    }
    worn.hanging = suit
        .hanging
        .iter()
        .map(|h| h.drape(&worn.solved.positions, body))
        .collect();
    Ok(worn)
}

/// Where a suit starts, with its straps held on their rail.
fn put_on(suit: &mut SuitMesh, draft: &Draft, body: &BodyField) -> Result<Vec<[f64; 3]>, Unplaced> {
    let placed = place(suit, draft, body)?;
    suit.tie(&placed);
    suit.hold_rails();
    Ok(placed)
}

/// Whether there is nothing to try again: it is solved, or nobody waits any more.
fn is_over(solved: &Solved) -> bool {
    matches!(solved.stop, Stop::Converged | Stop::Cancelled)
}

fn wear_placed(
    suit: &mut SuitMesh,
    draft: &Draft,
    body: &BodyField,
    placed: &[[f64; 3]],
    settings: &Settings,
    progress: &dyn Progress,
) -> Result<Solved, MeshError> {
    let mut solver = Solver::new(&suit.mesh)?;
    let mut tried = Vec::new();
    if let Some((start, passes)) = coarse::start(suit, placed, (draft, body), None, settings, progress) {
        let from = (&start[..], &[][..]);
        let mut solved = solver.solve_from(&suit.mesh, Some(body), placed, from, settings, progress)?;
        solved.passes.splice(0..0, passes);
        if is_over(&solved) {
            return Ok(solved);
        }
        tried = solved.passes;
    }
    let mut solved = solver.solve(&suit.mesh, Some(body), placed, settings, progress)?;
    solved.passes.splice(0..0, tried);
    if !is_over(&solved) {
        // Loose parts hardly know where to lie: a stronger pull of the cloth on itself finds a place near theirs first.
        let held = Settings {
            slack_pull: LOOSE_PULL,
            augmented_passes: 0,
            friction: None,
            ..*settings
        };
        let near = solver.solve(&suit.mesh, Some(body), placed, &held, progress)?;
        if near.stop == Stop::Converged {
            let from = (&near.positions[..], &[][..]);
            let again = solver.solve_from(&suit.mesh, Some(body), placed, from, settings, progress)?;
            let first = solved.passes;
            solved = again;
            solved.passes = [first, near.passes, solved.passes].concat();
        }
        if !is_over(&solved) {
            let held = Settings {
                homing: HOMING,
                ..*settings
            };
            let kept = solver.solve(&suit.mesh, Some(body), placed, &held, progress)?;
            let before = solved.passes;
            solved = kept;
            solved.passes = [before, solved.passes].concat();
            if solved.stop == Stop::Converged && !suit.left_out.iter().any(|l| l == HELD) {
                suit.left_out.push(HELD.into());
            }
        }
    }
    Ok(solved)
}

/// Reads a solved suit; what hangs from it is not let down.
pub fn read(suit: &SuitMesh, form: &FittedForm, placed: Vec<[f64; 3]>, solved: Solved) -> WornSuit {
    let mesh = &suit.mesh;
    let x = &solved.positions;
    let pressure_kpa = pressure(mesh, &solved);
    let closed = closed_spans(suit, x);
    let levels = form
        .levels()
        .into_iter()
        .filter_map(|(level, height)| worn_level(suit, x, &pressure_kpa, (level, height), &closed))
        .collect();
    let edges = worn_edges(suit, &solved);
    let strap = worn_strap(suit, form, &solved);
    let gapes = gapes(suit, &solved);
    let rode_up = rode_up(suit, &placed, x);
    let sank_mm = suit
        .open_lines
        .iter()
        .filter(|l| l.kind == OpenKind::Leg)
        .flat_map(|l| [l.vertices.first(), l.vertices.last()])
        .flatten()
        .max_by(|a, b| placed[**a][0].total_cmp(&placed[**b][0]))
        .map_or(0.0, |v| placed[*v][1] - x[*v][1]);
    let leg = leg_line(suit, form, &placed, x);
    let seat = seat_cover(suit, form, &placed, x);
    WornSuit {
        seams: worn_seams(&suit.seam_lines, x),
        leg,
        seat,
        support: worn_support(suit, form, &solved),
        shell: vertex_stretch(mesh, x, 0),
        lining: vertex_stretch(mesh, x, 1),
        placed,
        pressure_kpa,
        levels,
        edges,
        strap,
        rails: worn_rails(suit, &solved),
        lines: worn_lines(suit, &solved),
        rode_up,
        gapes,
        sank_mm,
        hanging: Vec::new(),
        solved,
    }
}
