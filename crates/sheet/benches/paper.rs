//! How long paper takes: a lined one-piece.
//!
//! Run with `cargo bench -p slackwater-sheet`.

#[path = "../tests/suits/mod.rs"]
mod suits;

use divan::Bencher;
use sheet::{Options, Paper, PieceForm, Roll, dxf, json, pdf, svg};

fn main() {
    divan::main();
}

#[divan::bench]
fn tiled_a4(bencher: Bencher<'_, '_>) {
    let suit = suits::maren();
    bencher.bench_local(|| pdf::tiled(&suit.pattern(), Paper::A4, &Options::default()));
}

#[divan::bench]
fn roll_36_in(bencher: Bencher<'_, '_>) {
    let suit = suits::maren();
    bencher.bench_local(|| pdf::single(&suit.pattern(), Roll::Inch36, &Options::default()));
}

#[divan::bench]
fn projector(bencher: Bencher<'_, '_>) {
    let suit = suits::maren();
    bencher.bench_local(|| pdf::projector(&suit.pattern(), PieceForm::Whole));
}

#[divan::bench]
fn page_map(bencher: Bencher<'_, '_>) {
    let suit = suits::maren();
    bencher.bench_local(|| svg::page_map(&suit.pattern(), Paper::A4, &Options::default()));
}

#[divan::bench]
fn files(bencher: Bencher<'_, '_>) {
    let suit = suits::maren();
    bencher.bench_local(|| {
        (
            svg::pattern(&suit.pattern(), PieceForm::Whole),
            json::pattern(&suit.pattern(), PieceForm::Whole),
            dxf::exchange(&suit.pattern(), PieceForm::Whole),
            dxf::cutter(&suit.pattern(), PieceForm::Whole),
        )
    });
}
