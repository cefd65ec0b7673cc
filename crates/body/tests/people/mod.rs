//! The people of the survey for the tests: their columns as numbers, and a shuffle that is the same on every machine.
#![allow(dead_code, reason = "each test file uses a part")]
#![allow(clippy::unwrap_used, reason = "a test that cannot read its data must stop")]

use body::{BodyForm, Dimension, Dimensions, FrontTaken, WaistLevel, Wearer, survey};
use units::Mm;

pub(crate) const WOMEN: &str = include_str!("../../../../data/body/ansur2_female.csv");
pub(crate) const MEN: &str = include_str!("../../../../data/body/ansur2_male.csv");

/// The table of a form.
pub(crate) fn table(form: BodyForm) -> &'static str {
    match form {
        BodyForm::Man => MEN,
        BodyForm::Woman | BodyForm::Child => WOMEN,
    }
}

/// The chosen columns of everybody of a form.
pub(crate) fn numbers(form: BodyForm, columns: &[&str]) -> Vec<Vec<f64>> {
    survey::numbers(table(form), columns)
        .unwrap()
        .into_iter()
        .map(|(_, cells)| cells)
        .collect()
}

/// Everybody of a form as wearers.
pub(crate) fn wearers(form: BodyForm) -> Vec<Wearer> {
    survey::rows(table(form), form)
        .unwrap()
        .into_iter()
        .map(|row| row.wearer)
        .collect()
}

/// 0..n in an order that depends on the seed alone (Fisher-Yates; the multiplier is Knuth's MMIX).
pub(crate) fn shuffled(n: usize, seed: u64) -> Vec<usize> {
    let mut order: Vec<usize> = (0..n).collect();
    let mut state = seed;
    for i in (1..n).rev() {
        state = state
            .wrapping_mul(6364136223846793005)
            .wrapping_add(1442695040888963407);
        order.swap(i, (state >> 33) as usize % (i + 1));
    }
    order
}

/// A wearer with these dimensions in millimetres, waist at its natural level.
pub(crate) fn wearer(form: BodyForm, taken_mm: &[(Dimension, f64)]) -> Wearer {
    let mut taken = Dimensions::default();
    for &(dimension, mm) in taken_mm {
        taken.set(dimension, Mm::new(mm));
    }
    Wearer {
        name: "Maren".into(),
        form,
        age_years: if form == BodyForm::Child { Some(8.0) } else { None },
        mass_kg: None,
        waist_level: WaistLevel::Natural,
        front_taken: FrontTaken::OverBustPoint,
        trust: None,
        taken,
    }
}
