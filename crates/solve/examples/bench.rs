//! How long a suit takes, by the size of its mesh, and the same problems for another solver.
//!
//! ```text
//! cargo run --release -p slackwater-solve --example bench -- --table [10 7.9 7 5.6 3.9 3]
//! cargo run --release -p slackwater-solve --example bench -- --row 5.6
//! cargo run --release -p slackwater-solve --example bench -- --dump FOLDER --case suit|tube --edge 7.9
//! ```
//!
//! The one-piece of an invented body, elastic of 5 N, two augmented passes, no friction; mesh edges in mm. Half a suit is solved: points
//! are of that half, and of the whole suit it stands for. Each row of the table is a process of its own, so that its peak memory is its own
//! (`VmHWM`, Linux). Seconds are on the clock and, in brackets, of the processors. What is timed:
//! *field*: the field of the form. *plain*: the solve from where the suit is placed. *cold*: what `wear` does, place, coarse meshes, the solve and the reading. *cloth*: going on after
//! the elastic became 5 % stronger. *draft*: `wear_near`, meshed anew after the straps became 6 mm wider and the leg higher, from the old shape.
//!
//! `--dump` writes a case as raw little-endian numbers with `case.json` beside them, for `tools/benchmarks --fit`.

#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "an example reads its arguments, takes the time, prints and writes"
)]

use std::error::Error;
use std::fs;
use std::path::Path;
use std::process::Command;
use std::time::Instant;

use body::{BodyForm, TorsoForm};
use cloth::Law;
use draft::{Design, LegHeight, OpenKind, draft};
use serde_json::json;
use solve::{
    BodyField, Cylinder, Elastic, FlatShape, Mesh, OpenPlace, PassKind, Settings, Solved, Solver, SuitLaws,
    SuitMesh, Tube, mesh_suit, place, wear, wear_near,
};
use units::{Mm, Silent};

type Failure = Box<dyn Error>;

/// Stiffness lengthwise and around (N/m), Poisson number, stiffening.
const CLOTH: [f64; 4] = [160.0, 110.0, 0.35, 0.3];
/// Edges for about 5k points of the whole suit, 4k, 5k, 8k and 16k solved, and the finest mesh there is.
const SIZES: [f64; 6] = [10.0, 7.9, 7.0, 5.6, 3.9, 3.0];
const HEAD: [&str; 14] = [
    "edges, mm",
    "points solved",
    "of the whole suit",
    "field, s",
    "plain steps",
    "s",
    "a step",
    "cold steps (coarse + fine)",
    "s",
    "cloth steps",
    "s",
    "draft steps",
    "s",
    "peak, MB",
];

fn elastic(place: OpenPlace<'_>, stiffness_n: f64) -> Option<Elastic> {
    let ratio = match (place.kind, place.piece) {
        (OpenKind::Leg, "back") => 0.87,
        (OpenKind::Leg, _) => 1.0,
        _ => 0.95,
    };
    Some(Elastic { stiffness_n, ratio })
}

fn law() -> Result<Law, Failure> {
    let [lengthwise, around, poisson, stiffening] = CLOTH;
    Ok(Law::new(lengthwise, around, poisson, stiffening)?)
}

fn meshed(draft: &draft::Draft, stiffness_n: f64, mm: f64) -> Result<SuitMesh, Failure> {
    let laws = SuitLaws {
        shell: law()?,
        lining: None,
    };
    Ok(mesh_suit(draft, &laws, &|p| elastic(p, stiffness_n), mm)?)
}

/// Points of the half that lie on the fold: the whole suit has them once.
fn on_fold(mesh: &SuitMesh) -> usize {
    let held = mesh.mesh.held().iter().enumerate();
    held.filter(|(v, h)| h[0] && !mesh.shoulder.contains(v)).count()
}

/// The most memory this process ever had, MB; 0 where the system doesn't tell.
fn peak_mb() -> f64 {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|l| l.strip_prefix("VmHWM:"));
    let kb = line.and_then(|l| l.split_whitespace().next()?.parse::<f64>().ok());
    kb.unwrap_or(0.0) / 1024.0
}

fn solved(solved: &Solved) -> Result<&Solved, Failure> {
    match solved.stop {
        solve::Stop::Converged => Ok(solved),
        stop => Err(stop.words().into()),
    }
}

/// Seconds on the clock, and of the processors.
#[derive(Clone, Copy)]
struct Took {
    seconds: f64,
    processor_s: f64,
}

impl std::fmt::Display for Took {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:.2} ({:.2})", self.seconds, self.processor_s)
    }
}

/// Processor time of all threads so far, s; 0 where the system doesn't tell.
fn processor_s() -> f64 {
    let tasks = fs::read_dir("/proc/self/task").into_iter().flatten().flatten();
    tasks
        .filter_map(|t| {
            let text = fs::read_to_string(t.path().join("schedstat")).ok()?;
            text.split(' ').next()?.parse::<f64>().ok()
        })
        .sum::<f64>()
        / 1e9
}

fn timed<T>(work: impl FnOnce() -> Result<T, Failure>) -> Result<(T, Took), Failure> {
    let (began, before) = (Instant::now(), processor_s());
    let done = work()?;
    let took = Took {
        seconds: began.elapsed().as_secs_f64(),
        processor_s: processor_s() - before,
    };
    Ok((done, took))
}

fn row(mm: f64) -> Result<(), Failure> {
    let body = fixtures::completed(&fixtures::woman(fixtures::AVERAGE));
    let suit = draft(&body, &fixtures::slate(), &Design::default())?;
    let changed = Design {
        strap_width: Mm::new(44.0),
        leg: LegHeight::High,
        ..Design::default()
    };
    let changed = draft(&body, &fixtures::slate(), &changed)?;
    let form = TorsoForm::of(BodyForm::Woman)?.fitted(&body)?;
    let (field, field_s) = timed(|| Ok(BodyField::of_form(&form)))?;
    let settings = Settings::default();

    let mut mesh = meshed(&suit, 5.0, mm)?;
    let (worn, cold_s) = timed(|| Ok(wear(&mut mesh, &suit, &form, &field, &settings, &Silent)?))?;
    let cold = solved(&worn.solved)?;
    let (plain, plain_s) = timed(|| {
        let mut solver = Solver::new(&mesh.mesh)?;
        Ok(solver.solve(&mesh.mesh, Some(&field), &worn.placed, &settings, &Silent)?)
    })?;
    let off = (solved(&plain)?.energy() - cold.energy()) / cold.energy();
    if off.abs() > 1e-6 {
        return Err(format!("plain and cold energy differ by {off:e}").into());
    }
    let mut stronger = meshed(&suit, 5.25, mm)?;
    for v in stronger.shoulder.clone() {
        stronger.mesh.hold(v, [true, false, false]);
    }
    let (after_cloth, cloth_s) = timed(|| {
        let from = (&cold.positions[..], &cold.multipliers[..]);
        let mut solver = Solver::new(&stronger.mesh)?;
        Ok(solver.solve_from(
            &stronger.mesh,
            Some(&field),
            &worn.placed,
            from,
            &settings,
            &Silent,
        )?)
    })?;
    let near = FlatShape::new(&mesh, &cold.positions, &field);
    let (after_draft, draft_s) = timed(|| {
        let mut mesh = meshed(&changed, 5.0, mm)?;
        Ok(wear_near(
            &mut mesh, &changed, &form, &field, &near, &settings, &Silent,
        )?)
    })?;
    let coarse: usize = cold
        .passes
        .iter()
        .filter(|p| p.kind == PassKind::Coarse)
        .map(|p| p.steps.len())
        .sum();
    let points = mesh.mesh.vertex_count();
    let each = plain_s.processor_s / plain.step_count().max(1) as f64;
    println!(
        "| {mm} | {points} | {} | {field_s} | {} | {plain_s} | {each:.3} | {coarse} + {} | {cold_s} | {} | {cloth_s} | {} | {draft_s} | {:.0} |",
        2 * points - on_fold(&mesh),
        plain.step_count(),
        cold.step_count() - coarse,
        solved(&after_cloth)?.step_count(),
        solved(&after_draft.solved)?.step_count(),
        peak_mb(),
    );
    Ok(())
}

fn table(sizes: &[f64]) -> Result<(), Failure> {
    println!("| {} |\n|{}", HEAD.join(" | "), " --- |".repeat(HEAD.len()));
    for mm in sizes {
        let program = std::env::current_exe()?;
        let status = Command::new(program).args(["--row", &mm.to_string()]).status()?;
        if !status.success() {
            return Err(format!("the row of {mm} mm failed").into());
        }
    }
    Ok(())
}

fn write<const N: usize>(
    folder: &Path,
    name: &str,
    numbers: impl Iterator<Item = [f64; N]>,
) -> Result<(), Failure> {
    let bytes: Vec<u8> = numbers.flatten().flat_map(f64::to_le_bytes).collect();
    Ok(fs::write(folder.join(name), bytes)?)
}

/// A mesh, its start, and what we made of it, as raw numbers.
fn dump_mesh(folder: &Path, mesh: &Mesh, start: &[[f64; 3]], found: &Solved) -> Result<(), Failure> {
    let triangles = mesh.triangles();
    write(
        folder,
        "corners.f64",
        triangles.iter().map(|t| t.corners.map(|v| v as f64)),
    )?;
    write(
        folder,
        "gradients.f64",
        triangles
            .iter()
            .map(|t| t.rest_gradients().concat().try_into().unwrap_or([0.0; 6])),
    )?;
    write(folder, "areas.f64", triangles.iter().map(|t| [t.area_mm2]))?;
    write(
        folder,
        "bars.f64",
        mesh.bars()
            .iter()
            .map(|b| [b.ends[0] as f64, b.ends[1] as f64, b.rest_mm, b.stiffness_n]),
    )?;
    write(
        folder,
        "held.f64",
        mesh.held().iter().map(|h| h.map(|h| f64::from(u8::from(h)))),
    )?;
    write(
        folder,
        "touching.f64",
        mesh.contact_areas().into_iter().map(|a| [a]),
    )?;
    write(folder, "start.f64", start.iter().copied())?;
    write(folder, "found.f64", found.positions.iter().copied())
}

fn dump(folder: &Path, case: &str, mm: f64) -> Result<(), Failure> {
    fs::create_dir_all(folder)?;
    let settings = Settings::default();
    let (mesh, start, found, took, on) = if case == "tube" {
        // 150 mm radius, 200 mm high, 20 % stretched around, 5 % lengthwise; ends held in height.
        let (radius_mm, height) = (150.0, 200.0);
        let girth = std::f64::consts::TAU * radius_mm / 1.2;
        let tube = Tube {
            rest_girth_mm: girth,
            rest_height_mm: height / 1.05,
            around: (girth / mm).round() as usize,
            rows: (height / 1.05 / mm).round() as usize,
        };
        let mut mesh = Mesh::new(tube.vertex_count());
        let id = mesh.add_law(&law()?);
        tube.add_to(&mut mesh, id, 0)?;
        for v in tube.ring(0).chain(tube.ring(tube.rows)) {
            mesh.hold(v, [false, true, false]);
        }
        mesh.hold(0, [false, true, true]);
        let start = tube.placed(radius_mm * 1.02, height);
        let body = Cylinder { radius_mm };
        let (found, took) =
            timed(|| Ok(Solver::new(&mesh)?.solve(&mesh, Some(&body), &start, &settings, &Silent)?))?;
        (mesh, start, found, took, json!({ "radius_mm": radius_mm }))
    } else {
        let body = fixtures::completed(&fixtures::woman(fixtures::AVERAGE));
        let suit = draft(&body, &fixtures::slate(), &Design::default())?;
        let form = TorsoForm::of(BodyForm::Woman)?.fitted(&body)?;
        let field = BodyField::of_form(&form);
        let mut mesh = meshed(&suit, 5.0, mm)?;
        let start = place(&mesh, &suit, &field)?;
        for v in mesh.shoulder.clone() {
            mesh.mesh.hold(v, [true, false, false]);
        }
        // The plain solve: both do the same steps from the same start.
        let (found, took) = timed(|| {
            Ok(Solver::new(&mesh.mesh)?.solve(&mesh.mesh, Some(&field), &start, &settings, &Silent)?)
        })?;
        let grid = field.grid();
        write(folder, "field.f64", grid.values.iter().map(|v| [f64::from(*v)]))?;
        let on = json!({ "origin": grid.origin, "size": grid.size, "cell_mm": grid.cell_mm });
        (mesh.mesh, start, found, took, on)
    };
    dump_mesh(folder, &mesh, &start, &found)?;
    let case = json!({
        "case": case,
        "points": mesh.vertex_count(),
        "law": CLOTH,
        "penalty": settings.penalty,
        "slack_pull": settings.slack_pull,
        "residual_n": settings.residual_n,
        "augmented_passes": settings.augmented_passes,
        "largest_move_mm": settings.largest_move_mm,
        "body": on,
        "ours": {
            "seconds": took.seconds,
            "processor_s": took.processor_s,
            "steps": found.step_count(),
            "energy": solved(&found)?.energy(),
            "residual_n": found.residual_n(),
            "penetration_mm": found.penetration_mm(),
        },
    });
    fs::write(folder.join("case.json"), serde_json::to_string_pretty(&case)?)?;
    println!("{case}");
    Ok(())
}

fn main() -> Result<(), Failure> {
    let given: Vec<String> = std::env::args().skip(1).collect();
    let after = |name: &str| {
        given
            .iter()
            .position(|a| a == name)
            .and_then(|i| given.get(i + 1))
    };
    if let Some(mm) = after("--row") {
        return row(mm.parse()?);
    }
    if let Some(folder) = after("--dump") {
        let edge = after("--edge").map_or(Ok(7.9), |mm| mm.parse())?;
        return dump(
            Path::new(folder),
            after("--case").map_or("suit", String::as_str),
            edge,
        );
    }
    let sizes: Vec<f64> = given
        .iter()
        .filter(|a| *a != "--table")
        .map(|a| a.parse())
        .collect::<Result<_, _>>()?;
    table(if sizes.is_empty() { &SIZES } else { &sizes })
}
