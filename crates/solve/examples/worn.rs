//! Suits drafted for invented bodies, put on their forms and solved: a table, or one in JSON.
//!
//! `cargo run --release -p slackwater-solve --example worn -- [BODY] [--style one-piece] [--fit regular] [--mesh 9]
//! [--elastic 5] [--friction 0.3] [--passes 2] [--lined 1] [--json 1]`. Bodies: average, long, petite, plus, cup; all of them when none is named.

#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "an example reads its arguments, takes the time and prints"
)]

use std::collections::BTreeMap;
use std::error::Error;
use std::time::Instant;

use body::{BodyForm, Dimension, Dimensions, FrontTaken, TorsoForm, WaistLevel, Wearer, complete};
use cloth::{ClothPlan, Fit, Law, Load};
use draft::{Design, LiningCover, OpenKind, Style, draft};
use solve::{BodyField, Elastic, Friction, OpenPlace, Settings, Solved, SuitLaws, mesh_suit, wear};
use units::{Mm, Silent, Stretch};

/// Name, stature, bust, underbust, waist, hip, crotch length, back waist, trunk (mm). Invented.
const BODIES: [(&str, [f64; 8]); 5] = [
    (
        "average",
        [1650.0, 920.0, 780.0, 760.0, 1000.0, 720.0, 408.0, 1620.0],
    ),
    ("long", [1800.0, 900.0, 775.0, 730.0, 990.0, 762.0, 440.0, 1640.0]),
    (
        "petite",
        [1540.0, 820.0, 720.0, 640.0, 890.0, 660.0, 378.0, 1480.0],
    ),
    (
        "plus",
        [1670.0, 1180.0, 1010.0, 1040.0, 1260.0, 830.0, 425.0, 1810.0],
    ),
    (
        "cup",
        [1680.0, 1050.0, 820.0, 800.0, 1040.0, 745.0, 415.0, 1700.0],
    ),
];

fn wearer(name: &str, mm: [f64; 8]) -> Wearer {
    let mut taken = Dimensions::default();
    let names = [
        Dimension::Stature,
        Dimension::BustGirth,
        Dimension::UnderbustGirth,
        Dimension::WaistGirth,
        Dimension::HipGirth,
        Dimension::CrotchLength,
        Dimension::BackWaistLength,
        Dimension::TrunkCircumference,
    ];
    for (dimension, value) in names.into_iter().zip(mm) {
        taken.set(dimension, Mm::new(value));
    }
    Wearer {
        name: name.into(),
        form: BodyForm::Woman,
        age_years: None,
        mass_kg: None,
        waist_level: WaistLevel::Natural,
        front_taken: FrontTaken::OverBustPoint,
        trust: None,
        taken,
    }
}

/// Elastic by arc: flat along the front, the ease behind; own.
fn elastic(place: OpenPlace<'_>, stiffness_n: f64) -> Option<Elastic> {
    let ratio = match (place.kind, place.piece) {
        (OpenKind::Leg, "back") => 0.87,
        (OpenKind::Leg, _) => 1.0,
        (OpenKind::Waist, "back") => 0.85,
        (OpenKind::Waist, _) => 0.90,
        _ => 0.95,
    };
    (stiffness_n > 0.0).then_some(Elastic { stiffness_n, ratio })
}

fn passes(solved: &Solved) -> String {
    let steps: Vec<String> = solved.passes.iter().map(|p| p.steps.len().to_string()).collect();
    steps.join("+")
}

fn main() -> Result<(), Box<dyn Error>> {
    let mut options: BTreeMap<String, String> = BTreeMap::new();
    let mut bodies = Vec::new();
    let mut given = std::env::args().skip(1);
    while let Some(argument) = given.next() {
        match argument.strip_prefix("--") {
            Some(name) => {
                let value = given.next().ok_or_else(|| format!("{argument} needs a value"))?;
                options.insert(name.into(), value);
            }
            None => bodies.push(argument),
        }
    }
    let number = |name: &str, default: f64| -> Result<f64, Box<dyn Error>> {
        Ok(options.get(name).map_or(Ok(default), |t| t.parse::<f64>())?)
    };
    let word = |name: &str, default: &str| options.get(name).cloned().unwrap_or_else(|| default.into());
    let (mesh_mm, stiffness, mu) = (
        number("mesh", 9.0)?,
        number("elastic", 5.0)?,
        number("friction", 0.0)?,
    );
    let settings = Settings {
        augmented_passes: number("passes", 2.0)? as usize,
        friction: (mu > 0.0).then(|| Friction::new(mu)),
        ..Settings::default()
    };
    let style = match word("style", "one-piece").as_str() {
        "brief" => Style::BRIEF,
        _ => Style::ONE_PIECE,
    };
    let fit = match word("fit", "regular").as_str() {
        "relaxed" => Fit::Relaxed,
        "firm" => Fit::Firm,
        "race" => Fit::Race,
        _ => Fit::Regular,
    };
    let is_lined = number("lined", 0.0)? > 0.0;
    let mut design = Design {
        style,
        fit,
        ..Design::default()
    };
    if is_lined {
        design.lining = LiningCover::Full;
    }
    let torso = TorsoForm::of(BodyForm::Woman)?;
    let cloth = ClothPlan::of_one_cloth(
        "Slate tricot",
        Stretch::from_percent(85.0),
        Stretch::from_percent(60.0),
        Load::Hand,
    );
    let shell = Law::new(number("k1", 160.0)?, number("k2", 110.0)?, 0.35, 0.3)?;
    let lining = is_lined.then(|| Law::new(60.0, 45.0, 0.35, 0.3)).transpose()?;
    println!("body      vertices  steps             s    residual  slack/wrinkled/taut  deepest  states");
    for (name, mm) in BODIES
        .iter()
        .filter(|(n, _)| bodies.is_empty() || bodies.iter().any(|b| b == n))
    {
        let (body, _) = complete(&wearer(name, *mm)).map_err(|e| format!("{e:?}"))?;
        let suit = draft(&body, &cloth, &design)?;
        let began = Instant::now();
        let form = torso.fitted(&body)?;
        let fitted = began.elapsed();
        let field = BodyField::for_suit(&form, &suit);
        let fielded = began.elapsed();
        let laws = SuitLaws { shell, lining };
        let mut mesh = mesh_suit(&suit, &laws, &|p| elastic(p, stiffness), mesh_mm)?;
        let meshed = began.elapsed();
        let worn = wear(&mut mesh, &suit, &form, &field, &settings, &Silent)?;
        let solved = &worn.solved;
        let seconds = (began.elapsed() - meshed).as_secs_f64();
        println!(
            "{name:<9} {:>8}  {:<14} {seconds:>6.2}  {:>9.1e}  {}/{}/{}  {:.2} mm  {}",
            mesh.mesh.vertex_count(),
            passes(solved),
            solved.residual_n(),
            solved.states.slack,
            solved.states.wrinkled,
            solved.states.taut,
            solved.penetration_mm(),
            solved.stop.words(),
        );
        println!(
            "          form {:.2} s, field {:.2} s, mesh {:.2} s",
            fitted.as_secs_f64(),
            (fielded - fitted).as_secs_f64(),
            (meshed - fielded).as_secs_f64()
        );
        for l in &worn.levels {
            println!(
                "          {:?} at {:.0}: around {:.3} ({:.3}-{:.3}), lengthwise {:.3}, {:.2} kPa",
                l.level,
                l.height_mm,
                l.around,
                l.around_spread[0],
                l.around_spread[1],
                l.lengthwise,
                l.pressure_kpa
            );
        }
        for e in &worn.edges {
            println!(
                "          {} of the {}: {:.3}, elastic {:.2} N, {:.1} N/m, off {:.1} mm",
                e.kind.name(),
                e.piece,
                e.stretch,
                e.elastic_n,
                e.line_load_n_per_m,
                e.gape_mm
            );
        }
        if let Some(s) = worn.strap {
            println!(
                "          strap {:.3}, rail {:.2} N, needs mu {:.2}",
                s.stretch, s.rail_n, s.needed_friction
            );
        }
        for g in worn.gapes.iter().take(3) {
            println!(
                "          off {:.1} mm over {:.0} cm2 at {:.0?}",
                g.depth_mm,
                g.area_mm2 / 100.0,
                g.at
            );
        }
        for l in &mesh.left_out {
            println!("          {l}");
        }
        if options.contains_key("json") {
            let json = serde_json::json!({
                "placed": worn.placed,
                "worn": solved.positions,
                "pressure_kpa": worn.pressure_kpa,
                "shell": worn.shell,
                "triangles": mesh.mesh.triangles().iter().map(|t| t.corners).collect::<Vec<_>>(),
                "form_vertices": form.vertices(),
                "form_faces": form.faces(),
            });
            println!("{json}");
        }
    }
    Ok(())
}
