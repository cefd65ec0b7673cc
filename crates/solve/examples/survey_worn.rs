//! Bodies of the survey and of the children's table in their suits: how many are solved, in how many steps, and why the others are not.
//!
//! `cargo run --release -p slackwater-solve --example survey_worn -- data/body/ansur2_female.csv [--styles one-piece,brief]
//! [--count 100] [--from 0] [--to 100] [--line 1187] [--mesh 12] [--friction 0.3] [--elastic 5] [--set inseam=120] [--json FILE]`. The table says whose
//! bodies they are: `ansur2_female`, `ansur2_male` or `sizes_children`. Every so many rows, or one line. `one-piece-skirt` is a one-piece with
//! a skirt. Two augmented passes. `--json` writes the last worn suit to be looked at.

#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "an example reads a file, takes the time and prints"
)]

mod told;

use std::collections::BTreeMap;
use std::error::Error;
use std::time::Instant;

use body::{Body, BodyForm, Dimension, FormMeasure, FormTarget, TorsoForm, complete, survey};
use cloth::Law;
use draft::{Design, OpenKind, Skirt, SkirtJoin, SkirtKind, Style, draft};
use solve::{
    BodyField, Elastic, Friction, LimbReach, OpenPlace, Settings, Stop, SuitLaws, SuitMesh, WornSuit,
    mesh_suit, wear,
};
use units::{Mm, Silent};

fn elastic(place: OpenPlace<'_>, stiffness_n: f64) -> Option<Elastic> {
    let ratio = match (place.kind, place.piece) {
        (OpenKind::Leg | OpenKind::Waist, "back") => 0.87,
        (OpenKind::Leg, _) => 1.0,
        _ => 0.95,
    };
    (stiffness_n > 0.0).then_some(Elastic { stiffness_n, ratio })
}

/// What came of the suits of one style.
#[derive(Default)]
struct Tally {
    tried: usize,
    solved: usize,
    steps: Vec<usize>,
    seconds: Vec<f64>,
    residual_n: f64,
    reasons: BTreeMap<String, usize>,
}

/// A body to dress: the line of its table, and itself or why there is none.
type Row = (usize, Result<Body, String>);

fn people(text: &str, form: BodyForm) -> Result<Vec<Row>, Box<dyn Error>> {
    if form == BodyForm::Child {
        return children(text);
    }
    let rows = survey::rows(text, form).map_err(|e| format!("{e:?}"))?;
    let bodies = rows.into_iter().map(|row| {
        (
            row.line,
            complete(&row.wearer).map(|b| b.0).map_err(|e| format!("{e:?}")),
        )
    });
    Ok(bodies.collect())
}

/// Rows with a chest, a waist and a hip; the crotch length off the child's form, as a size range takes it.
fn children(text: &str) -> Result<Vec<Row>, Box<dyn Error>> {
    let torso = TorsoForm::of(BodyForm::Child)?;
    let mut rows = Vec::new();
    for (number, line) in text.lines().enumerate().skip(1) {
        let cells: Vec<Option<f64>> = line
            .split(',')
            .take(4)
            .map(|c| c.parse().ok().map(|cm: f64| cm * 10.0))
            .collect();
        let [Some(stature), Some(chest), Some(waist), Some(hip)] = cells[..] else {
            continue;
        };
        let target = |measure: FormMeasure, value: f64| FormTarget {
            measure,
            value,
            spread: measure.spread(),
        };
        let fitted = torso.fit(&[
            target(FormMeasure::BustGirth, chest),
            target(FormMeasure::WaistGirth, waist),
            target(FormMeasure::HipGirth, hip),
            target(FormMeasure::BackWaistLength, 0.247 * stature),
            target(FormMeasure::WaistToHip, 0.124 * stature),
        ])?;
        let wearer = fixtures::somebody(
            BodyForm::Child,
            &[
                (Dimension::Stature, stature),
                (Dimension::BustGirth, chest),
                (Dimension::WaistGirth, waist),
                (Dimension::HipGirth, hip),
                (
                    Dimension::CrotchLength,
                    torso.measure(&fitted, FormMeasure::CrotchLengthNatural),
                ),
            ],
        );
        rows.push((
            number + 1,
            complete(&wearer).map(|b| b.0).map_err(|e| format!("{e:?}")),
        ));
    }
    Ok(rows)
}

fn design(name: &str, set: &[(String, String)]) -> Result<Design, Box<dyn Error>> {
    let style = match name {
        "one-piece-skirt" => Style::ONE_PIECE,
        other => *Style::all()
            .iter()
            .find(|s| s.key() == other)
            .ok_or_else(|| format!("no style is called {other}"))?,
    };
    let mut design = Design::of(style);
    if name == "one-piece-skirt" {
        design.skirt = Some(Skirt {
            kind: SkirtKind::default(),
            join: SkirtJoin::default(),
            cover: Mm::new(60.0),
        });
    }
    for (key, value) in set {
        fixtures::set(&mut design, key, value)?;
    }
    Ok(design)
}

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let word = |name: &str| {
        let at = arguments.iter().position(|a| a == name);
        at.and_then(|i| arguments.get(i + 1)).map(String::as_str)
    };
    let value = |name: &str, default: f64| word(name).and_then(|w| w.parse().ok()).unwrap_or(default);
    let file = arguments.first().ok_or("name the table")?;
    let form = match file {
        f if f.contains("female") => BodyForm::Woman,
        f if f.contains("children") => BodyForm::Child,
        _ => BodyForm::Man,
    };
    let rows = people(&std::fs::read_to_string(file)?, form)?;
    let (count, mesh_mm) = (value("--count", 100.0) as usize, value("--mesh", 12.0));
    let usual = match form {
        BodyForm::Woman => "one-piece,one-piece-skirt,brief,swim-shorts",
        BodyForm::Man => "brief,trunks,jammer",
        BodyForm::Child => "one-piece,brief,boys-trunks",
    };
    let styles: Vec<&str> = word("--styles").unwrap_or(usual).split(',').collect();
    let set: Vec<(String, String)> = word("--set")
        .into_iter()
        .flat_map(|w| w.split(','))
        .filter_map(|pair| pair.split_once('='))
        .map(|(k, v)| (k.into(), v.into()))
        .collect();
    let torso = TorsoForm::of(form)?;
    let cloth = fixtures::slate();
    let laws = SuitLaws {
        shell: Law::new(160.0, 110.0, 0.35, 0.3)?,
        lining: None,
    };
    let mut tallies: BTreeMap<&str, Tally> = BTreeMap::new();
    let line = value("--line", 0.0) as usize;
    let (mu, stiffness) = (value("--friction", 0.0), value("--elastic", 5.0));
    let settings = Settings {
        friction: (mu > 0.0).then(|| Friction::new(mu)),
        ..Settings::default()
    };
    let step = (rows.len() / count).max(1);
    let all = rows
        .iter()
        .step_by(step)
        .take((value("--to", count as f64) as usize).min(count))
        .skip(value("--from", 0.0) as usize);
    let one = rows.iter().filter(|r| r.0 == line);
    let chosen: Vec<_> = if line > 0 { one.collect() } else { all.collect() };
    for (line, body) in chosen {
        let body = match body {
            Ok(body) => body,
            Err(e) => {
                let reason = format!("body: {e}").chars().take(80).collect();
                *tallies
                    .entry("no body")
                    .or_default()
                    .reasons
                    .entry(reason)
                    .or_default() += 1;
                continue;
            }
        };
        let form = torso.fitted(body)?;
        let mut fields: Vec<(LimbReach, BodyField)> = Vec::new();
        for name in styles.iter().copied() {
            let tally = tallies.entry(name).or_default();
            tally.tried += 1;
            let began = Instant::now();
            let outcome = draft(body, &cloth, &design(name, &set)?)
                .map_err(|e| format!("draft: {e}"))
                .and_then(|suit| {
                    let reach = LimbReach::of(&suit);
                    if !fields.iter().any(|(r, _)| *r == reach) {
                        fields.push((reach, BodyField::reaching(&form, reach)));
                    }
                    let field = fields
                        .iter()
                        .find(|(r, _)| *r == reach)
                        .map(|(_, f)| f)
                        .ok_or("no field")?;
                    let mut mesh = mesh_suit(&suit, &laws, &|p| elastic(p, stiffness), mesh_mm)
                        .map_err(|e| e.to_string())?;
                    let worn = wear(&mut mesh, &suit, &form, field, &settings, &Silent)
                        .map_err(|e| e.to_string())?;
                    Ok((mesh, worn))
                });
            match outcome {
                Ok((mesh, worn)) => {
                    if let Some(path) = word("--json") {
                        std::fs::write(path, json(&mesh, &worn, &form))?;
                    }
                    if worn.solved.stop == Stop::Converged {
                        tally.solved += 1;
                        tally.steps.push(worn.solved.step_count());
                        tally.seconds.push(began.elapsed().as_secs_f64());
                        tally.residual_n = tally.residual_n.max(worn.solved.residual_n());
                    } else {
                        let reason = format!(
                            "{} (line {line}, {} steps, {:.0e} N)",
                            worn.solved.stop.words(),
                            worn.solved.step_count(),
                            worn.solved.residual_n()
                        );
                        *tally.reasons.entry(reason).or_default() += 1;
                    }
                }
                Err(reason) => {
                    let reason: String = reason.chars().take(110).collect();
                    *tally
                        .reasons
                        .entry(format!("{reason} (line {line})"))
                        .or_default() += 1;
                }
            }
        }
    }
    for (name, mut tally) in tallies {
        tally.steps.sort_unstable();
        tally.seconds.sort_by(f64::total_cmp);
        let at = |share: f64| ((tally.steps.len().max(1) - 1) as f64 * share) as usize;
        println!(
            "{name}: {} of {} solved; steps median {} and at most {}; seconds median {:.2} and at most {:.2}; residual at most {:.0e} N",
            tally.solved,
            tally.tried,
            tally.steps.get(at(0.5)).copied().unwrap_or(0),
            tally.steps.last().copied().unwrap_or(0),
            tally.seconds.get(at(0.5)).copied().unwrap_or(0.0),
            tally.seconds.last().copied().unwrap_or(0.0),
            tally.residual_n,
        );
        println!("  steps {:?}", tally.steps);
        for (reason, times) in tally.reasons {
            println!("  {times} x {reason}");
        }
    }
    Ok(())
}

/// Levels, edges and places that stand off, with all that is needed to draw it.
fn json(mesh: &SuitMesh, worn: &WornSuit, form: &body::FittedForm) -> String {
    told::tell(worn);
    for l in &mesh.left_out {
        println!("    {l}");
    }
    println!(
        "    {} vertices, {}, sank {:.1} mm",
        mesh.mesh.vertex_count(),
        told::ending(&worn.solved),
        worn.sank_mm
    );
    serde_json::json!({
        "placed": worn.placed,
        "worn": worn.solved.positions,
        "pressure_kpa": worn.pressure_kpa,
        "triangles": mesh.mesh.triangles().iter().map(|t| t.corners).collect::<Vec<_>>(),
        "piece": mesh.triangle_piece,
        "lines": mesh.open_lines.iter().map(|l| &l.vertices).collect::<Vec<_>>(),
        "form_vertices": form.vertices(),
        "form_faces": form.faces(),
    })
    .to_string()
}
