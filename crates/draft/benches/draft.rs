//! How long a redraft takes: the whole suit again after one changed dimension.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::missing_panics_doc,
    reason = "a bench"
)]

use body::{Body, Dimension, Wearer, complete};
use cloth::ClothPlan;
use draft::{BustShaping, Cups, Design, LiningCover, Style, draft};
use units::Mm;

fn main() {
    divan::main();
}

fn wearer() -> Wearer {
    let mut wearer = fixtures::woman(fixtures::AVERAGE);
    for (dimension, mm) in [
        (Dimension::FrontWaistLength, 438.0),
        (Dimension::SideNeckToBustPoint, 264.0),
        (Dimension::TrunkCircumference, 1545.0),
    ] {
        wearer.taken.set(dimension, Mm::new(mm));
    }
    wearer
}

fn body() -> Body {
    complete(&wearer()).unwrap().0
}

fn cloth() -> ClothPlan {
    fixtures::slate()
}

#[divan::bench]
fn lined_one_piece_redrafted_after_one_dimension(bencher: divan::Bencher<'_, '_>) {
    let design = Design {
        lining: LiningCover::Full,
        ..Design::default()
    };
    let cloth = cloth();
    let mut waist = 760.0;
    bencher.bench_local(|| {
        waist = if waist > 765.0 { 760.0 } else { waist + 0.1 };
        let mut wearer = wearer();
        wearer.taken.set(Dimension::WaistGirth, Mm::new(waist));
        let (body, _) = complete(&wearer).unwrap();
        draft(&body, &cloth, &design).unwrap()
    });
}

#[divan::bench]
fn one_piece(bencher: divan::Bencher<'_, '_>) {
    let (body, cloth, design) = (body(), cloth(), Design::default());
    bencher.bench_local(|| draft(&body, &cloth, &design).unwrap());
}

#[divan::bench]
fn princess_lined_with_cup_pocket(bencher: divan::Bencher<'_, '_>) {
    let design = Design {
        lining: LiningCover::Full,
        cups: Cups::Pocket,
        bust_shaping: BustShaping::Princess,
        ..Design::default()
    };
    let (body, cloth) = (body(), cloth());
    bencher.bench_local(|| draft(&body, &cloth, &design).unwrap());
}

#[divan::bench]
fn brief(bencher: divan::Bencher<'_, '_>) {
    let (body, cloth, design) = (
        body(),
        cloth(),
        Design {
            style: Style::BRIEF,
            ..Design::default()
        },
    );
    bencher.bench_local(|| draft(&body, &cloth, &design).unwrap());
}
