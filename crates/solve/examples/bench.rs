//! How long a suit takes, by the size of its mesh: a table of steps, seconds and memory, from a cold start and after a small change.
//!
//! `cargo run --release -p slackwater-solve --example bench -- [16 11 8 5.6 4 3]`: mesh edges in mm. The one-piece of an invented body,
//! elastic of 5 N, two augmented passes, no friction. Warm: the elastic 5 % stronger, going on from the cold answer. Memory: the
//! numbers of the sparse factor, most of what a solve keeps. Half a suit is solved; points are of that half.

#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "an example reads its arguments, takes the time and prints"
)]

use std::error::Error;
use std::time::Instant;

use body::{BodyForm, Dimension, Dimensions, FrontTaken, TorsoForm, WaistLevel, Wearer, complete};
use cloth::{ClothPlan, Law, Load};
use draft::{Design, OpenKind, draft};
use solve::{BodyField, Elastic, OpenPlace, Settings, Solver, SuitLaws, mesh_suit, place};
use units::{Mm, Silent, Stretch};

fn elastic(place: OpenPlace<'_>, stiffness_n: f64) -> Option<Elastic> {
    let ratio = match (place.kind, place.piece) {
        (OpenKind::Leg, "back") => 0.87,
        (OpenKind::Leg, _) => 1.0,
        _ => 0.95,
    };
    Some(Elastic { stiffness_n, ratio })
}

fn wearer() -> Wearer {
    let mut taken = Dimensions::default();
    for (dimension, mm) in [
        (Dimension::Stature, 1650.0),
        (Dimension::BustGirth, 920.0),
        (Dimension::UnderbustGirth, 780.0),
        (Dimension::WaistGirth, 760.0),
        (Dimension::HipGirth, 1000.0),
        (Dimension::CrotchLength, 720.0),
        (Dimension::BackWaistLength, 408.0),
        (Dimension::TrunkCircumference, 1620.0),
    ] {
        taken.set(dimension, Mm::new(mm));
    }
    Wearer {
        name: "Maren".into(),
        form: BodyForm::Woman,
        age_years: None,
        mass_kg: None,
        waist_level: WaistLevel::Natural,
        front_taken: FrontTaken::OverBustPoint,
        trust: None,
        taken,
    }
}

fn main() -> Result<(), Box<dyn Error>> {
    let mut sizes: Vec<f64> = std::env::args()
        .skip(1)
        .map(|a| a.parse())
        .collect::<Result<_, _>>()?;
    if sizes.is_empty() {
        sizes = vec![16.0, 11.0, 8.0, 5.6, 4.0];
    }
    let (body, _) = complete(&wearer()).map_err(|e| format!("{e:?}"))?;
    let cloth = ClothPlan::of_one_cloth(
        "cloth",
        Stretch::from_percent(85.0),
        Stretch::from_percent(60.0),
        Load::Hand,
    );
    let suit = draft(&body, &cloth, &Design::default())?;
    let form = TorsoForm::of(BodyForm::Woman)?.fitted(&body)?;
    let began = Instant::now();
    let field = BodyField::of_form(&form);
    println!("field of the form: {:.2} s", began.elapsed().as_secs_f64());
    let laws = SuitLaws {
        shell: Law::new(160.0, 110.0, 0.35, 0.3)?,
        lining: None,
    };
    println!("edges mm  points  cold steps       s  s/step  warm steps       s  factor MB  end");
    for mm in sizes {
        let mut mesh = mesh_suit(&suit, &laws, &|p| elastic(p, 5.0), mm)?;
        let placed = place(&mesh, &suit, &field)?;
        let mut stronger = mesh_suit(&suit, &laws, &|p| elastic(p, 5.25), mm)?;
        for v in mesh.shoulder.clone() {
            mesh.mesh.hold(v, [true, false, false]);
            stronger.mesh.hold(v, [true, false, false]);
        }
        let settings = Settings::default();
        let began = Instant::now();
        let mut solver = Solver::new(&mesh.mesh)?;
        let cold = solver.solve(&mesh.mesh, Some(&field), &placed, &settings, &Silent)?;
        let cold_s = began.elapsed().as_secs_f64();
        let began = Instant::now();
        let from = (&cold.positions[..], &cold.multipliers[..]);
        let warm = solver.solve_from(&stronger.mesh, Some(&field), &placed, from, &settings, &Silent)?;
        let warm_s = began.elapsed().as_secs_f64();
        println!(
            "{mm:>8.1}  {:>6}  {:>10}  {cold_s:>6.2}  {:>6.3}  {:>10}  {warm_s:>6.2}  {:>9.0}  {} / {}",
            mesh.mesh.vertex_count(),
            cold.step_count(),
            cold_s / cold.step_count().max(1) as f64,
            warm.step_count(),
            solver.factor_size() as f64 * 8.0 / 1e6,
            cold.stop.words(),
            warm.stop.words(),
        );
    }
    Ok(())
}
