//! Prints the plan of a style in a workroom: `cargo run -p slackwater-make --example plan -- one-piece zigzag-overlocker full`.
#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "an example prints and reads its arguments"
)]

#[path = "../tests/suit/bodies.rs"]
mod bodies;

use draft::{Design, LiningCover, Style, draft};
use make::{ElasticChoice, MakingInput, Preset, SampleBook, WornStretch, making};

fn main() {
    let mut args = std::env::args().skip(1);
    let style = args.next().and_then(|k| Style::of_key(&k)).unwrap_or_default();
    let preset = args
        .next()
        .and_then(|k| Preset::from_key(&k))
        .unwrap_or(Preset::ZigzagOverlocker);
    let lining = match args.next().as_deref() {
        Some("full") => LiningCover::Full,
        Some("front") => LiningCover::Front,
        Some("none") => LiningCover::None,
        _ => LiningCover::Crotch,
    };
    let design = Design {
        lining,
        ..Design::of(style)
    };
    let cloth = bodies::layered();
    let suit = draft(&bodies::body_for(style), &cloth, &design).unwrap();
    let plan = making(&MakingInput {
        draft: &suit,
        design: &design,
        cloth: &cloth,
        elastic: &ElasticChoice::default(),
        workroom: &preset.workroom(),
        samples: &SampleBook::default(),
        worn: &WornStretch::of_draft(&suit),
        masses: &[],
        is_child: false,
    });
    for (i, s) in plan.stitches.iter().enumerate() {
        println!(
            "{i:2} {} {} {}x{} rows {} asked {:.0} % reaches {:.0} % {:?} safe {} | {}",
            s.job.key(),
            s.setting.stitch.key(),
            s.setting.width,
            s.setting.length,
            s.setting.rows,
            s.asked * 100.0,
            s.extension * 100.0,
            s.reach,
            s.is_safe,
            s.runner_up.as_ref().map_or_else(String::new, |r| format!(
                "{} {:.0} % {}",
                r.setting.stitch.key(),
                r.extension * 100.0,
                r.why.key
            )),
        );
    }
    for (i, step) in plan.steps.iter().enumerate() {
        let touches: Vec<String> = step
            .touches
            .iter()
            .map(|t| format!("{}[{}|{}]", t.piece, t.sewn.join(","), t.handled.join(",")))
            .collect();
        println!(
            "{i:2} {:22} {:26} stitch {:?} {:.0}-{:.0} min {:.0} mm {}",
            step.id,
            step.say.key,
            step.stitch,
            step.minutes.0,
            step.minutes.1,
            step.length.get(),
            touches.join(" ")
        );
    }
    println!(
        "{:.1} to {:.1} h, {} changes",
        plan.minutes.0 / 60.0,
        plan.minutes.1 / 60.0,
        plan.changes
    );
    for w in &plan.would_add {
        println!(
            "would add {} {:?} safe {:?} saves {:?}",
            w.machine, w.jobs, w.made_safe, w.saves_minutes
        );
    }
    for f in &plan.findings {
        println!("{:?} {} {}: {}", f.severity, f.code, f.place, f.message);
    }
    for s in &plan.scraps {
        println!("scrap {} pull to {:?} done {}", s.say.key, s.pull_to, s.is_done);
    }
}
