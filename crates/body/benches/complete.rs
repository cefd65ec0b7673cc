//! How long a body takes: made complete from few and from all dimensions, and searched for slips.

use body::{Wearer, complete, doubts, survey};

const WOMEN: &str = include_str!("../../../data/body/ansur2_female.csv");

fn main() {
    divan::main();
}

fn woman() -> Wearer {
    let rows = survey::rows(WOMEN, body::BodyForm::Woman).expect("the survey reads");
    rows[0].wearer.clone()
}

/// All that the survey took.
#[divan::bench]
fn complete_from_all(bencher: divan::Bencher<'_, '_>) {
    let wearer = woman();
    assert!(complete(&wearer).is_ok());
    bencher.bench(|| complete(divan::black_box(&wearer)));
}

/// The required dimensions and stature, waist at its natural level: most is estimated.
#[divan::bench]
fn complete_from_few(bencher: divan::Bencher<'_, '_>) {
    use body::Dimension as D;
    let mut wearer = woman();
    wearer.waist_level = body::WaistLevel::Natural;
    for d in D::ALL {
        if ![
            D::Stature,
            D::BustGirth,
            D::WaistGirth,
            D::HipGirth,
            D::CrotchLength,
        ]
        .contains(&d)
        {
            wearer.taken.remove(d);
        }
    }
    assert!(complete(&wearer).is_ok());
    bencher.bench(|| complete(divan::black_box(&wearer)));
}

#[divan::bench]
fn doubts_from_all(bencher: divan::Bencher<'_, '_>) {
    let wearer = woman();
    bencher.bench(|| doubts(divan::black_box(&wearer)));
}
