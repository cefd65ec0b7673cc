//! How long a booklet takes: composed, written as pages, set as PDF for the first time after the start and again; and the memory
//! the process had at most. A table for `docs/benchmarks-hand-outs.md`.
//!
//! No sampling harness: the first PDF after the start can be measured once in a process, and memory by the system alone.

#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a bench: asks the clock and the system, prints a table"
)]

#[path = "../tests/common/mod.rs"]
mod common;

use std::time::{Duration, Instant};

use booklet::{Choice, Edition, html, pdf};
use sheet::Paper;
use words::Language;

/// Later runs; the median of so many is told.
const RUNS: usize = 9;

fn timed<T>(work: impl FnOnce() -> T) -> (T, Duration) {
    let start = Instant::now();
    let made = work();
    (made, start.elapsed())
}

fn median(mut work: impl FnMut()) -> Duration {
    let mut all: Vec<Duration> = (0..RUNS).map(|_| timed(&mut work).1).collect();
    all.sort();
    all[RUNS / 2]
}

/// `VmHWM` of this process as the system tells it; empty where it does not.
fn most_memory() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|l| l.strip_prefix("VmHWM:"));
    let kb = line.and_then(|l| l.trim().trim_end_matches(" kB").parse::<f64>().ok());
    kb.map_or_else(String::new, |kb| format!("{:.0} MB", kb / 1024.0))
}

fn main() {
    let started = Instant::now();
    let workroom = make::Preset::ZigzagOverlocker.workroom();
    let suit = common::worked(draft::Style::ONE_PIECE, body::BodyForm::Woman, workroom).unwrap();
    let choice = Choice::default();
    let (document, composed) = timed(|| suit.booklet(choice));
    let before = most_memory();
    let ((_, pages), first) = timed(|| pdf(&document, Paper::A4).unwrap());
    let whole = started.elapsed();
    let class = suit.booklet(Choice {
        edition: Edition::Class,
        language: Language::German,
    });
    let rows = [
        ("composed, first", composed),
        ("composed, later", median(|| drop(suit.booklet(choice)))),
        ("written as pages", median(|| drop(html(&document)))),
        ("PDF, first after the start", first),
        ("PDF, later", median(|| drop(pdf(&document, Paper::A4).unwrap()))),
        (
            "PDF, later, class in German on Letter",
            median(|| drop(pdf(&class, Paper::Letter).unwrap())),
        ),
        ("from the start to the first PDF, suit drafted and planned", whole),
    ];
    println!("A one-piece of {pages} pages.\n\n| | ms |\n| --- | --- |");
    for (what, took) in rows {
        println!("| {what} | {:.1} |", 1000.0 * took.as_secs_f64());
    }
    println!(
        "\nMost memory: {before} before the first PDF, {} in all.",
        most_memory()
    );
}
