//! Bodies of the survey in their suits: how many are solved, in how many steps, and why the others are not.
//!
//! `cargo run --release -p slackwater-solve --example survey_worn -- data/body/ansur2_female.csv [--count 100] [--mesh 12]
//! [--line 1187] [--friction 0.3]`: every so many rows, or one line, a one-piece, a skirted one, a brief and trunks each, elastic of 5 N, two
//! augmented passes.

#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "an example reads a file, takes the time and prints"
)]

use std::collections::BTreeMap;
use std::error::Error;
use std::time::Instant;

use body::{BodyForm, TorsoForm, complete, survey};
use cloth::{ClothPlan, Law, Load};
use draft::{Design, OpenKind, Skirt, SkirtJoin, SkirtKind, Style, draft};
use solve::{BodyField, Elastic, Friction, OpenPlace, Settings, Stop, SuitLaws, mesh_suit, wear};
use units::{Mm, Silent, Stretch};

fn elastic(place: OpenPlace<'_>) -> Option<Elastic> {
    let ratio = match (place.kind, place.piece) {
        (OpenKind::Leg | OpenKind::Waist, "back") => 0.87,
        (OpenKind::Leg, _) => 1.0,
        _ => 0.95,
    };
    Some(Elastic {
        stiffness_n: 5.0,
        ratio,
    })
}

/// What came of the suits of one style.
#[derive(Default)]
struct Tally {
    solved: usize,
    steps: Vec<usize>,
    seconds: Vec<f64>,
    residual_n: f64,
    reasons: BTreeMap<String, usize>,
}

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let value = |name: &str, default: f64| -> f64 {
        let at = arguments.iter().position(|a| a == name);
        at.and_then(|i| arguments.get(i + 1)?.parse().ok())
            .unwrap_or(default)
    };
    let file = arguments.first().ok_or("name the survey table")?;
    let rows =
        survey::rows(&std::fs::read_to_string(file)?, BodyForm::Woman).map_err(|e| format!("{e:?}"))?;
    let (count, mesh_mm) = (value("--count", 100.0) as usize, value("--mesh", 12.0));
    let torso = TorsoForm::of(BodyForm::Woman)?;
    let cloth = ClothPlan::of_one_cloth(
        "cloth",
        Stretch::from_percent(85.0),
        Stretch::from_percent(60.0),
        Load::Hand,
    );
    let laws = SuitLaws {
        shell: Law::new(160.0, 110.0, 0.35, 0.3)?,
        lining: None,
    };
    let mut tallies: BTreeMap<&str, Tally> = BTreeMap::new();
    let line = value("--line", 0.0) as usize;
    let mu = value("--friction", 0.0);
    let settings = Settings {
        friction: (mu > 0.0).then(|| Friction::new(mu)),
        ..Settings::default()
    };
    let all = rows.iter().step_by((rows.len() / count).max(1)).take(count);
    let one = rows.iter().filter(|r| r.line == line);
    let chosen: Vec<_> = if line > 0 { one.collect() } else { all.collect() };
    for row in chosen {
        let body = match complete(&row.wearer) {
            Ok((body, _)) => body,
            Err(e) => {
                let reason = format!("body: {e:?}").chars().take(80).collect();
                *tallies
                    .entry("no body")
                    .or_default()
                    .reasons
                    .entry(reason)
                    .or_default() += 1;
                continue;
            }
        };
        let form = torso.fitted(&body)?;
        let field = BodyField::of_form(&form);
        for (name, style) in [
            ("one-piece", Style::ONE_PIECE),
            ("one-piece with a skirt", Style::ONE_PIECE),
            ("brief", Style::BRIEF),
            ("trunks", Style::TRUNKS),
        ] {
            let tally = tallies.entry(name).or_default();
            let mut design = Design::of(style);
            if name.ends_with("skirt") {
                design.skirt = Some(Skirt {
                    kind: SkirtKind::default(),
                    join: SkirtJoin::default(),
                    cover: Mm::new(60.0),
                });
            }
            let began = Instant::now();
            let outcome = draft(&body, &cloth, &design)
                .map_err(|e| format!("draft: {e}"))
                .and_then(|suit| {
                    let mut mesh = mesh_suit(&suit, &laws, &elastic, mesh_mm).map_err(|e| e.to_string())?;
                    wear(&mut mesh, &suit, &form, &field, &settings, &Silent).map_err(|e| e.to_string())
                });
            match outcome {
                Ok(worn) if worn.solved.stop == Stop::Converged => {
                    tally.solved += 1;
                    tally.steps.push(worn.solved.step_count());
                    tally.seconds.push(began.elapsed().as_secs_f64());
                    tally.residual_n = tally.residual_n.max(worn.solved.residual_n());
                }
                Ok(worn) => {
                    let reason = format!(
                        "{} (line {}, {} steps, {:.0e} N)",
                        worn.solved.stop.words(),
                        row.line,
                        worn.solved.step_count(),
                        worn.solved.residual_n()
                    );
                    *tally.reasons.entry(reason).or_default() += 1;
                }
                Err(reason) => {
                    let reason = reason.chars().take(110).collect();
                    *tally.reasons.entry(reason).or_default() += 1;
                }
            }
        }
    }
    for (name, mut tally) in tallies {
        tally.steps.sort_unstable();
        tally.seconds.sort_by(f64::total_cmp);
        let at = |share: f64| ((tally.steps.len().max(1) - 1) as f64 * share) as usize;
        println!(
            "{name}: {} solved; steps median {} and at most {}; seconds median {:.2} and at most {:.2}; residual at most {:.0e} N",
            tally.solved,
            tally.steps.get(at(0.5)).copied().unwrap_or(0),
            tally.steps.last().copied().unwrap_or(0),
            tally.seconds.get(at(0.5)).copied().unwrap_or(0.0),
            tally.seconds.last().copied().unwrap_or(0.0),
            tally.residual_n,
        );
        for (reason, times) in tally.reasons {
            println!("  {times} x {reason}");
        }
    }
    Ok(())
}
