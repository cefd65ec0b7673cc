//! Finds random suits again from noisy measures and prints how well: `cargo run -p slackwater-drawer --example recovery`.
//!
//! 200 suits, or as many as the first argument says, by ten, twelve and seventeen measures, or as many as the second says: the errors of
//! the parameters, how often honest measures are called in doubt, how often a slip of 30 mm in one measure is named first, and the
//! smallest slip that would show. A third argument is the one measure to plant it on; `honest` plants none.
//!
//! What it printed stands in docs/copying.md.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a command for the desk, not part of the library"
)]

mod suits;

use drawer::FlatMeasure;
use suits::{Chance, SLIPPED, asked, copied, measured, next_suit, with_slip};

const SEED: u64 = 20_261_126;
const SLIP_MM: f64 = 30.0;

fn main() {
    let number = |at| std::env::args().nth(at).map(|n| n.parse::<usize>().unwrap());
    let count = number(1).unwrap_or(200);
    let slipped: Vec<FlatMeasure> = match std::env::args().nth(3).as_deref() {
        None => SLIPPED.to_vec(),
        Some(word) => SLIPPED.into_iter().filter(|m| m.key() == word).collect(),
    };
    for measures in number(2).map_or(vec![10, 12, 17], |n| vec![n]) {
        run(count, measures, &slipped);
    }
}

/// What became of a slip, over all suits.
#[derive(Clone, Copy, Default)]
struct Fate {
    first: usize,
    as_likely: usize,
    other: usize,
    unseen: usize,
}

fn run(count: usize, measures: usize, slipped: &[FlatMeasure]) {
    let mut chance = Chance::new(SEED);
    let (mut errors, mut standard) = (vec![Vec::new(); 6], vec![Vec::new(); 6]);
    let (mut in_doubt, mut at_bound) = (0, 0);
    let mut fates = vec![Fate::default(); slipped.len()];
    let mut names = Vec::new();
    let mut shown: Vec<Vec<f64>> = vec![Vec::new(); measures];
    for _ in 0..count {
        let suit = next_suit(&mut chance);
        let honest = measured(&suit, measures, &mut chance);
        let copy = copied(&suit, &honest).unwrap();
        in_doubt += usize::from(copy.conflict.is_some());
        for (shown, met) in shown.iter_mut().zip(&copy.measures) {
            shown.push(met.smallest_slip.map_or(f64::INFINITY, |slip| slip.get()));
        }
        at_bound += usize::from(copy.parameters.iter().any(|p| p.is_at_bound));
        names = suit.truth.iter().map(|t| t.0.name()).collect();
        for (k, (parameter, truth)) in suit.truth.iter().enumerate() {
            let found = copy.parameter(*parameter).unwrap();
            errors[k].push(found.value - truth);
            standard[k].extend(found.standard_error.map(|se| (found.value - truth) / se));
        }
        for (fate, &measure) in fates.iter_mut().zip(slipped) {
            let copy = copied(&suit, &with_slip(&honest, measure, SLIP_MM)).unwrap();
            match &copy.conflict {
                None => fate.unseen += 1,
                Some(c) if c.suspects.first().is_some_and(|s| s.measure == measure) => fate.first += 1,
                Some(c) if c.as_likely().any(|s| s.measure == measure) => fate.as_likely += 1,
                Some(_) => fate.other += 1,
            }
        }
    }
    println!(
        "{measures} measures, {count} suits, seed {SEED}: {at_bound} with a parameter at its bound, {in_doubt} in doubt without a slip"
    );
    println!(
        "\n{:<24} {:>9} {:>9} {:>9} {:>9}",
        "parameter", "bias", "sd", "95 %", "sd of z"
    );
    for (k, name) in names.iter().enumerate() {
        let (mean, sd) = mean_sd(&errors[k]);
        let mut size: Vec<f64> = errors[k].iter().map(|e| e.abs()).collect();
        size.sort_by(f64::total_cmp);
        let p95 = size[(0.95 * (size.len() - 1) as f64) as usize];
        let (_, z) = mean_sd(&standard[k]);
        println!("{name:<24} {mean:>9.4} {sd:>9.4} {p95:>9.4} {z:>9.2}");
    }
    println!(
        "\n{:<24} {:>9} {:>9} {:>9} {:>9}",
        "slip of 30 mm in", "first", "as likely", "other", "unseen"
    );
    for (fate, measure) in fates.iter().zip(slipped) {
        println!(
            "{:<24} {:>9} {:>9} {:>9} {:>9}",
            measure.name(),
            fate.first,
            fate.as_likely,
            fate.other,
            fate.unseen
        );
    }
    println!("\n{:<24} {:>14}", "smallest slip that shows", "median, mm");
    for (mut shown, measure) in shown.into_iter().zip(asked()) {
        shown.sort_by(f64::total_cmp);
        println!("{:<24} {:>14.0}", measure.name(), shown[shown.len() / 2]);
    }
    if slipped.is_empty() {
        return;
    }
    let share = |part: fn(&Fate) -> usize| {
        100.0 * fates.iter().map(part).sum::<usize>() as f64 / (count * slipped.len()) as f64
    };
    println!(
        "\nnamed first {:.1} %, first or as likely {:.1} %\n",
        share(|f| f.first),
        share(|f| f.first + f.as_likely)
    );
}

fn mean_sd(values: &[f64]) -> (f64, f64) {
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let variance = values.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / (n - 1.0);
    (mean, variance.sqrt())
}
