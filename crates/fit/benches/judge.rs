//! How long the quick judgement of one drafted one-piece takes: it runs on every change a maker makes.

#![allow(clippy::unwrap_used, reason = "a benchmark may panic")]

use divan::Bencher;
use draft::{Design, draft};
use fit::{ElasticAssumption, judge};

fn main() {
    divan::main();
}

#[divan::bench(args = ["average", "plus"])]
fn one_piece(bencher: Bencher<'_, '_>, name: &str) {
    let (body, cloth) = (fixtures::body_with_arms(name), fixtures::recorded_cloth("soft"));
    let suit = draft(&body, &cloth, &Design::default()).unwrap();
    let elastic = ElasticAssumption::default();
    bencher.bench_local(|| judge(&body, &cloth, &suit, &elastic));
}
