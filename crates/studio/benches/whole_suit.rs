//! How long a maker waits, and how much memory it takes: a table, measured on this machine.
//!
//! `cargo bench -p slackwater-studio --bench whole_suit`
//!
//! A plain program rather than a statistics harness, because two of the columns are no times: bodies per second over the
//! survey, and the peak of resident memory (`VmHWM` of `/proc/self/status`, Linux only).

mod memory;

use std::hint::black_box;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use body::survey::rows;
use body::{BodyForm, Dimension, complete};
use draft::{Design, draft};
use memory::peak_mb;
use studio::laying::quick_lays;
use studio::order::work_out;
use studio::paper::{PackChoice, make_pack};
use studio::suit_file::{SuitFile, read_text};
use units::{Mm, Silent};

/// Enough runs for a steady median; the slowest row takes a few seconds.
const RUNS: usize = 40;

struct Row {
    what: &'static str,
    times: Vec<Duration>,
}

fn measure(what: &'static str, mut work: impl FnMut(usize)) -> Row {
    work(0);
    let times = (1..=RUNS)
        .map(|run| {
            let start = Instant::now();
            work(run);
            start.elapsed()
        })
        .collect();
    Row { what, times }
}

impl Row {
    /// Time that this share of the runs stays under, ms.
    fn under(&self, share: f64) -> f64 {
        let mut sorted = self.times.clone();
        sorted.sort();
        let at = ((sorted.len() - 1) as f64 * share).round() as usize;
        sorted[at].as_secs_f64() * 1e3
    }
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// The suit with its hip a little larger each time, so that nothing can be remembered from the last run.
fn grown(suit: &SuitFile, run: usize) -> SuitFile {
    let mut suit = suit.clone();
    let hip = suit
        .wearer
        .taken
        .get(Dimension::HipGirth)
        .expect("every suit has a hip");
    suit.wearer
        .taken
        .set(Dimension::HipGirth, hip + Mm::new(0.1 * run as f64));
    suit
}

fn main() {
    // `cargo test` builds and runs benches with `--test`; a measurement is no test.
    if std::env::args().any(|a| a == "--test") {
        return;
    }
    let name = "odile-skirted.toml";
    let text = std::fs::read_to_string(root().join("examples").join(name)).expect("the example");
    let suit = read_text(name, &text).expect("a good suit");
    let order = work_out(&suit).expect("a good suit");
    let mut out = std::io::stdout().lock();
    let mut say = |line: String| writeln!(out, "{line}").expect("standard output");

    say(format!("{name}, {RUNS} runs each"));
    say(format!("{:<52}{:>10}{:>10}", "", "median ms", "95 % ms"));
    let rows_measured = [
        measure("read the suit file", |_| {
            black_box(read_text(name, black_box(&text)).expect("good"));
        }),
        measure("redraft after one changed dimension", |run| {
            let suit = grown(&suit, run);
            let (body, _) = complete(&suit.wearer).expect("good");
            black_box(draft(&body, &order.cloth, &suit.design).expect("good"));
        }),
        measure("check: draft, elastic, ladder, way in, findings", |run| {
            black_box(work_out(&grown(&suit, run)).expect("good"));
        }),
        measure("whole pack in memory: ten files", |run| {
            let suit = grown(&suit, run);
            let order = work_out(&suit).expect("good");
            let choice = PackChoice {
                paper: None,
                halves: false,
                measured_square_mm: None,
                white_edge: None,
            };
            black_box(
                make_pack(&suit, &order, &quick_lays(&suit, &order.draft), &choice, &Silent).expect("good"),
            );
        }),
    ];
    for row in &rows_measured {
        say(format!(
            "{:<52}{:>10.2}{:>10.2}",
            row.what,
            row.under(0.5),
            row.under(0.95)
        ));
    }
    if let Some(peak) = peak_mb() {
        say(format!("{:<52}{peak:>10.1} MB", "peak memory so far"));
    }

    let table = std::fs::read_to_string(root().join("data/body/ansur2_female.csv")).expect("the survey");
    let people = rows(&table, BodyForm::Woman).expect("a good table");
    let cloth = fixtures::slate();
    let elastic = fit::ElasticAssumption::default();
    for (what, is_judged) in [("drafted", false), ("drafted and judged", true)] {
        let start = Instant::now();
        let drafted = people
            .iter()
            .filter_map(|p| complete(&p.wearer).ok())
            .filter_map(|(body, _)| draft(&body, &cloth, &Design::default()).ok().map(|d| (body, d)))
            .inspect(|(body, draft)| {
                if is_judged {
                    black_box(fit::judge(body, &cloth, draft, &elastic));
                }
            })
            .count();
        let seconds = start.elapsed().as_secs_f64();
        say(format!(
            "{:<52}{:>10.0} bodies/s ({drafted} of {})",
            format!("survey, one core, {what}"),
            people.len() as f64 / seconds,
            people.len()
        ));
    }
    if let Some(peak) = peak_mb() {
        say(format!("{:<52}{peak:>10.1} MB", "peak memory"));
    }
}
