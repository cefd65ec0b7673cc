//! `docs/workrooms.md`: the same lined one-piece in four workrooms, stitch by stitch and step by step.

#![allow(
    clippy::unwrap_used,
    reason = "a test helper; a word that is not there is a fault of ours"
)]

use std::fmt::Write as _;

use super::suits::{Suit, lined};
use draft::{LiningCover, Style};
use make::{Job, Making, Preset, StitchChoice};

const ENGLISH: &str = include_str!("../../../words/en/make.ftl");

/// The words of a key without arguments.
fn word(key: &str) -> &'static str {
    let key = key.replace('.', "-");
    ENGLISH
        .lines()
        .find_map(|l| {
            l.strip_prefix(&key)?
                .trim_start()
                .strip_prefix('=')
                .map(str::trim)
        })
        .unwrap()
}

fn cell(choice: Option<&StitchChoice>) -> String {
    let Some(choice) = choice else {
        return "-".to_owned();
    };
    let setting = &choice.setting;
    let iso = setting.iso4915.map_or_else(String::new, |n| format!(" ({n})"));
    let size = if setting.width.get() > 0.0 {
        format!("{:.1} x {:.1} mm", setting.width.get(), setting.length.get())
    } else {
        format!("{:.1} mm", setting.length.get())
    };
    let rows = if setting.rows > 1 {
        format!(", {} rows", setting.rows)
    } else {
        String::new()
    };
    let reach = match (choice.asked > 0.0, choice.is_safe) {
        (false, _) => String::new(),
        (true, true) => format!(
            "; {:.0} % of {:.0} %",
            choice.extension * 100.0,
            choice.asked * 100.0
        ),
        (true, false) => format!(
            "; **not safe**: {:.0} % of {:.0} %",
            choice.extension * 100.0,
            choice.asked * 100.0
        ),
    };
    format!("{}{iso} {size}{rows}{reach}", word(setting.stitch.key()))
}

/// The page.
pub(crate) fn page() -> String {
    let mut out = String::new();
    let suit = Suit::of("one-piece", lined(Style::ONE_PIECE, LiningCover::Full));
    let plans: Vec<(Preset, Making)> = Preset::ALL
        .into_iter()
        .map(|p| (p, suit.plan(&p.workroom())))
        .collect();
    let _ = writeln!(out, "# The same suit in four workrooms\n");
    let _ = writeln!(
        out,
        "A lined one-piece for the invented average body, slate tricot (85 % around, 60 % lengthwise). \"37 % of 31 %\": reaches 37 % along the"
    );
    let _ = writeln!(
        out,
        "seam, 31 % is asked. Forecasts and common practice, nothing of it was sewn; `cargo run -p slackwater-make --example workrooms` prints"
    );
    let _ = writeln!(out, "this page.\n");
    let _ = writeln!(out, "## Stitches\n");
    let heads = [
        "Straight stitch only",
        "Zigzag",
        "Zigzag, overlocker",
        "Zigzag, overlocker, coverstitch",
    ];
    let _ = writeln!(
        out,
        "| | {} |\n| --- | --- | --- | --- | --- |",
        heads.join(" | ")
    );
    for job in Job::ALL {
        let cells: Vec<String> = plans
            .iter()
            .map(|(_, plan)| {
                let hardest = plan.stitches.iter().filter(|s| s.job == job);
                cell(hardest.max_by(|a, b| a.asked.total_cmp(&b.asked)))
            })
            .collect();
        if cells.iter().any(|c| c != "-") {
            let _ = writeln!(out, "| {} | {} |", word(job.key()), cells.join(" | "));
        }
    }
    let hours: Vec<String> = plans
        .iter()
        .map(|(_, p)| format!("{:.1} to {:.1} h", p.minutes.0 / 60.0, p.minutes.1 / 60.0))
        .collect();
    let _ = writeln!(out, "| all of it, at home (practice) | {} |", hours.join(" | "));
    let changes: Vec<String> = plans.iter().map(|(_, p)| p.changes.to_string()).collect();
    let _ = writeln!(
        out,
        "| machines set up or threads changed | {} |",
        changes.join(" | ")
    );
    let _ = writeln!(out, "\n## Order of work\n");
    let _ = writeln!(
        out,
        "| | {} |\n| --- | --- | --- | --- | --- |",
        heads.join(" | ")
    );
    let most = plans.iter().map(|(_, p)| p.steps.len()).max().unwrap_or(0);
    for i in 0..most {
        let cells: Vec<String> = plans
            .iter()
            .map(|(_, plan)| {
                plan.steps.get(i).map_or_else(String::new, |step| {
                    let title = word(step.say.key).split(':').next().unwrap().to_owned();
                    let piece = match step.say.arg("piece") {
                        Some(make::Arg::Name(name)) => format!(" {name}"),
                        _ => String::new(),
                    };
                    let title = title.replace(" { $piece }", "");
                    let machine = step.machine.map_or_else(String::new, |m| format!(" ({})", m + 1));
                    format!("{title}{piece}{machine}")
                })
            })
            .collect();
        let _ = writeln!(out, "| {} | {} |", i + 1, cells.join(" | "));
    }
    let _ = writeln!(
        out,
        "\nIn brackets: the machine, in the order of the column's head. What would help where it is missing:\n"
    );
    for (preset, plan) in &plans {
        for add in &plan.would_add {
            let jobs: Vec<&str> = add.jobs.iter().map(|(job, _)| word(job.key())).collect();
            let safe = if add.made_safe.is_empty() {
                String::new()
            } else {
                let safe: Vec<&str> = add.made_safe.iter().map(|job| word(job.key())).collect();
                format!(" It would make safe: {}.", safe.join(", "))
            };
            let _ = writeln!(
                out,
                "- {}: {} would sew {}.{safe}",
                preset.key(),
                word(add.machine),
                jobs.join(", ")
            );
        }
    }
    out
}
