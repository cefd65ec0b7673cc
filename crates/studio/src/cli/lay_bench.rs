//! `slackwater lay-bench`: the search on a strip packing instance of the research literature, to be measured.

use std::path::PathBuf;
use std::time::Instant;

use clap::Args;
use serde::Serialize;

use super::console::{Console, to_json};
use super::folder::write_file;
use super::lay_clock::{Timed, processor_seconds};
use super::{Outcome, Trouble, read_file};
use crate::suit_file::{FaultKind, Faults};

#[derive(Debug, Args)]
pub(super) struct LayBenchArgs {
    /// The instance, as JSON: see data/lay/README.md.
    file: PathBuf,
    /// How long to search, on the wall's clock.
    #[arg(long, default_value_t = 60.0, value_parser = super::lay::seconds)]
    seconds: f64,
    /// So many passes of fixed work instead of seconds: the same lay on any machine.
    #[arg(long)]
    passes: Option<u64>,
    /// Seed of the search.
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// Threads.
    #[arg(long, default_value_t = 2, value_parser = clap::value_parser!(u16).range(1..=256))]
    threads: u16,
    /// Write the placements here: turn the file's outline about the origin, then move it.
    #[arg(long)]
    out: Option<PathBuf>,
}

#[derive(Debug, Serialize)]
struct Told<'a> {
    name: &'a str,
    usage_percent: f64,
    length: f64,
    valid: bool,
    pieces: usize,
    seed: u64,
    threads: u16,
    passes: u64,
    wall_seconds: f64,
    cpu_seconds: Option<f64>,
    /// `null` when no valid lay was told before the end.
    first_lay_seconds: Option<f64>,
    first_usage_percent: Option<f64>,
}

pub(super) fn run(args: &LayBenchArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    let file = args.file.display().to_string();
    let fault = |e: &lay::LayError| Faults::whole(&file, FaultKind::Refused, e.to_string(), "");
    let bytes = read_file(&args.file)?;
    let strip = lay::Strip::from_json(&String::from_utf8_lossy(&bytes)).map_err(|e| fault(&e))?;
    let started = Instant::now();
    let pool = super::lay::pool(args.threads)?;
    let timed = Timed::new(args.seconds, args.passes.is_some(), console.manner.progress);
    let mut first = None;
    let found = pool
        .install(|| {
            strip.solve(
                args.seed,
                usize::from(args.threads),
                args.passes,
                &timed,
                &mut |length, usage| {
                    timed.says(&format!("{:.2} % used, length {length:.4}", 100.0 * usage));
                    first.get_or_insert((started.elapsed().as_secs_f64(), usage));
                },
            )
        })
        .map_err(|e| fault(&e))?;
    drop(timed);
    if let Some(out) = &args.out {
        write_file(out, to_json(&found.placed).as_bytes(), true)?;
    }
    console.print_json(&Told {
        name: &strip.name,
        usage_percent: 100.0 * found.usage,
        length: found.length,
        valid: strip.check(&found).is_empty(),
        pieces: found.placed.len(),
        seed: args.seed,
        threads: args.threads,
        passes: found.rounds,
        wall_seconds: started.elapsed().as_secs_f64(),
        cpu_seconds: processor_seconds(),
        first_lay_seconds: first.map(|(seconds, _)| seconds),
        first_usage_percent: first.map(|(_, usage)| 100.0 * usage),
    })?;
    Ok(Outcome::Done)
}
