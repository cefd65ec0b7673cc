//! How long a body takes: made complete from few and from all dimensions, searched for slips, and its form fitted and
//! cut into rings.

use body::{Body, BodyForm, TorsoForm, Wearer, complete, doubts, survey};

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

/// Reading the form's tables, once per kind of body.
#[divan::bench]
fn form_read() -> bool {
    TorsoForm::of(divan::black_box(BodyForm::Woman)).is_ok()
}

/// The form fitted to all that the survey took of a woman, again after each change of a dimension.
#[divan::bench]
fn form_fitted(bencher: divan::Bencher<'_, '_>) {
    let (torso, body) = (form(), all());
    assert!(torso.fitted(&body).is_ok());
    bencher.bench(|| torso.fitted(divan::black_box(&body)));
}

/// Forty rings and one at each level.
#[divan::bench]
fn form_rings(bencher: divan::Bencher<'_, '_>) {
    let fitted = form().fitted(&all()).expect("her body is a woman's");
    let levels: Vec<units::Level> = fitted.levels().into_iter().map(|(level, _)| level).collect();
    assert!(fitted.rings(40, &levels).len() >= 40);
    bencher.bench(|| divan::black_box(&fitted).rings(40, &levels));
}

fn form() -> TorsoForm {
    TorsoForm::of(BodyForm::Woman).expect("the embedded form reads")
}

fn all() -> Body {
    complete(&woman()).expect("the survey took what is needed").0
}
