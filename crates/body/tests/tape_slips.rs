//! How many planted slips of the tape are found, and how many honest numbers are doubted.
//!
//! People are split by lot, seven tenths to learn from, three to be tested; every tested person gets every slip in
//! every dimension, one at a time, all else right. Four splits are pooled, so that three in four people are tested.
//!
//! Tolerance: each reference rate p was counted on 596 women or 1225 men, ours on about 1200 or 2500. Two such counts
//! differ by chance by sqrt(p (1 - p) (1/n + 1/m)); 3.3 of those are allowed, because 126 rates are compared and at 2
//! some would fail by chance, and 1.5 points for models learned from other people: 10 points at p = 50 % of women, 3
//! at 100 %.

#![allow(clippy::unwrap_used, reason = "a test that cannot read its data must stop")]

mod people;

use body::{BodyForm, LOG_COLUMNS, Normal, SLIP_LIMIT};

/// What the pen does to a number of millimetres; `None` when that leaves it as it was.
type Plant = fn(f64) -> Option<f64>;

const SLIPS: [(&str, Plant); 7] = [
    ("+10 cm", |mm| Some(mm + 100.0)),
    ("-10 cm", |mm| Some(mm - 100.0)),
    ("+5 cm", |mm| Some(mm + 50.0)),
    ("-5 cm", |mm| Some(mm - 50.0)),
    ("inches as cm", |mm| Some(mm / 2.54)),
    ("cm as inches", |mm| Some(mm * 2.54)),
    ("digits swapped", swapped),
];

/// Whole centimetres with two neighbouring digits swapped that differ; which pair of three digits is left to the lot
/// of an odd or even millimetre.
fn swapped(mm: f64) -> Option<f64> {
    let cm = (mm / 10.0).round() as i64;
    let places = if mm as i64 % 2 == 0 { [1, 10] } else { [10, 1] };
    places.into_iter().find_map(|place| {
        let (low, high) = (cm / place % 10, cm / (10 * place) % 10);
        (cm >= 10 * place && low != high).then(|| ((cm + (low - high) * 9 * place) * 10) as f64)
    })
}

type Rates = [(&'static str, [f64; 7]); 9];

/// Source: tape-slip test on the public ANSUR II file, per cent found at limit 3.3; columns in the order of
/// [`SLIPS`].
const WOMEN: Rates = [
    ("bust_girth", [33.2, 43.3, 2.5, 3.7, 100.0, 100.0, 87.8]),
    ("waist_girth", [24.0, 42.4, 0.8, 5.4, 100.0, 100.0, 85.1]),
    ("hip_girth", [94.3, 93.1, 20.6, 21.0, 100.0, 100.0, 98.2]),
    ("neck_base_girth", [100.0, 100.0, 67.8, 82.0, 100.0, 100.0, 100.0]),
    ("thigh_girth", [99.3, 100.0, 41.8, 56.0, 100.0, 100.0, 99.3]),
    (
        "vertical_trunk_girth",
        [67.8, 78.0, 5.7, 10.4, 100.0, 100.0, 96.6],
    ),
    ("crotch_length", [90.6, 97.3, 16.4, 25.5, 100.0, 100.0, 98.0]),
    (
        "back_waist_length",
        [100.0, 100.0, 59.2, 69.8, 100.0, 100.0, 100.0],
    ),
    ("shoulder_length", [100.0, 100.0, 98.0, 99.3, 100.0, 100.0, 100.0]),
];
const MEN: Rates = [
    ("bust_girth", [57.1, 70.9, 5.0, 10.0, 100.0, 100.0, 92.7]),
    ("waist_girth", [28.1, 38.1, 1.5, 4.2, 100.0, 100.0, 85.4]),
    ("hip_girth", [95.9, 97.3, 26.0, 28.2, 100.0, 100.0, 98.3]),
    ("neck_base_girth", [100.0, 99.9, 41.9, 55.8, 100.0, 100.0, 100.0]),
    ("thigh_girth", [99.6, 99.8, 38.0, 51.5, 100.0, 100.0, 99.6]),
    ("vertical_trunk_girth", [71.8, 72.3, 9.7, 8.7, 100.0, 100.0, 96.5]),
    ("crotch_length", [90.4, 95.7, 14.4, 25.9, 100.0, 100.0, 96.7]),
    ("back_waist_length", [99.8, 99.9, 48.2, 66.1, 100.0, 100.0, 99.7]),
    ("shoulder_length", [100.0, 100.0, 96.7, 98.9, 100.0, 100.0, 100.0]),
];

/// What was counted over the four splits.
struct Counts {
    tested: usize,
    /// By dimension and slip: planted, found, found with the greatest |z| of all.
    slips: Vec<[[usize; 3]; 7]>,
    doubted_measures: usize,
    doubted_people: usize,
}

fn count(form: BodyForm, rates: &Rates) -> Counts {
    let columns: Vec<&str> = LOG_COLUMNS.iter().map(|(c, _)| *c).collect();
    let labels: Vec<&str> = LOG_COLUMNS.iter().map(|(_, l)| *l).collect();
    let people = people::numbers(form, &columns);
    let logs: Vec<Vec<f64>> = people
        .iter()
        .map(|p| p.iter().map(|x| x.ln()).collect())
        .collect();
    let mut counts = Counts {
        tested: 0,
        slips: vec![[[0; 3]; 7]; rates.len()],
        doubted_measures: 0,
        doubted_people: 0,
    };
    for seed in 1..=4 {
        let order = people::shuffled(people.len(), seed);
        let (train, test) = order.split_at(people.len() * 7 / 10);
        let train: Vec<&[f64]> = train.iter().map(|&i| logs[i].as_slice()).collect();
        let model = Normal::from_samples(&labels, &train).unwrap();
        let scores = |person: &[f64]| -> Vec<f64> {
            let given: Vec<(usize, f64)> = person.iter().copied().enumerate().collect();
            model.given(&given).left_out().iter().map(|l| l.z.abs()).collect()
        };
        for &i in test {
            counts.tested += 1;
            let honest = scores(&logs[i]).into_iter().filter(|z| *z > SLIP_LIMIT).count();
            counts.doubted_measures += honest;
            counts.doubted_people += usize::from(honest > 0);
            for ((name, _), counted) in rates.iter().zip(&mut counts.slips) {
                let at = labels.iter().position(|l| l == name).unwrap();
                for ((_, plant), cell) in SLIPS.iter().zip(counted) {
                    let Some(wrong) = plant(people[i][at]).filter(|mm| *mm > 0.0) else {
                        continue;
                    };
                    let mut person = logs[i].clone();
                    person[at] = wrong.ln();
                    let z = scores(&person);
                    cell[0] += 1;
                    cell[1] += usize::from(z[at] > SLIP_LIMIT);
                    cell[2] += usize::from(z[at] > SLIP_LIMIT && z.iter().all(|other| *other <= z[at]));
                }
            }
        }
    }
    counts
}

/// `honest`: per cent of measures and of people doubted although all is right.
fn check(form: BodyForm, rates: &Rates, reference_people: f64, honest: (f64, f64)) {
    let counts = count(form, rates);
    // Somebody is left out of all four tests with chance 0.7^4.
    let people_tested = counts.tested as f64 / (4.0 * 0.3) * (1.0 - 0.7_f64.powi(4));
    let mut misses = Vec::new();
    for ((name, expected), counted) in rates.iter().zip(&counts.slips) {
        for (((slip, _), p), [planted, found, greatest]) in SLIPS.iter().zip(expected).zip(counted) {
            let rate = 100.0 * *found as f64 / *planted as f64;
            let share = (p / 100.0).clamp(0.01, 0.99);
            let chance =
                100.0 * (share * (1.0 - share) * (1.0 / reference_people + 1.0 / people_tested)).sqrt();
            let tolerance = 3.3 * chance + 1.5;
            if (rate - p).abs() > tolerance {
                misses.push(format!(
                    "{name} {slip}: {rate:.1} % found, {p:.1} expected within {tolerance:.1}"
                ));
            }
            // A wrong dimension drags others with it; it must itself stand out in at least 93 of 100 found cases
            // (same source). Cells with under 100 cases are too few to say; 2 of 100 for other people.
            if *found >= 100 && (*greatest as f64) < 0.91 * *found as f64 {
                misses.push(format!("{name} {slip}: greatest in only {greatest} of {found}"));
            }
        }
    }
    let per_measure = 100.0 * counts.doubted_measures as f64 / (14 * counts.tested) as f64;
    let per_person = 100.0 * counts.doubted_people as f64 / counts.tested as f64;
    // 3.3 times the chance difference of two such counts (about 0.04 and 0.7 points among women).
    if (per_measure - honest.0).abs() > 0.13 {
        misses.push(format!(
            "{per_measure:.2} % of honest measures doubted, {} expected",
            honest.0
        ));
    }
    if (per_person - honest.1).abs() > 1.5 {
        misses.push(format!(
            "{per_person:.2} % of honest people doubted, {} expected",
            honest.1
        ));
    }
    assert!(misses.is_empty(), "{misses:#?}");
}

/// False alarms by the same source: 0.13 % of measures, 1.7 % of women.
#[test]
fn slips_on_women_are_found_at_the_rates_of_the_survey() {
    check(BodyForm::Woman, &WOMEN, 596.0, (0.13, 1.7));
}

/// False alarms by the same source: 0.10 % of measures, 1.5 % of men.
#[test]
fn slips_on_men_are_found_at_the_rates_of_the_survey() {
    check(BodyForm::Man, &MEN, 1225.0, (0.10, 1.5));
}
