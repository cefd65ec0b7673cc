//! Laws that hold for any wearer, sensible or not.

#![allow(clippy::unwrap_used, reason = "a test that cannot read its data must stop")]

mod people;

use body::{BodyError, BodyForm, Dimension, Need, Origin, WaistLevel, Wearer, complete, doubts};
use proptest::prelude::*;
use units::Mm;

fn form() -> impl Strategy<Value = BodyForm> {
    prop_oneof![Just(BodyForm::Woman), Just(BodyForm::Man), Just(BodyForm::Child)]
}

fn level() -> impl Strategy<Value = WaistLevel> {
    prop_oneof![Just(WaistLevel::Natural), Just(WaistLevel::Navel)]
}

/// Anything a broken caller might put in.
fn any_length() -> impl Strategy<Value = Option<f64>> {
    prop_oneof![
        2 => Just(None),
        6 => (1.0..3000.0).prop_map(Some),
        1 => prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(0.0), Just(-1.0), Just(1e300), Just(1e-300)].prop_map(Some),
    ]
}

prop_compose! {
    fn any_wearer()(
        form in form(),
        level in level(),
        lengths in proptest::collection::vec(any_length(), Dimension::ALL.len()),
        mass in proptest::option::of(prop_oneof![-10.0..500.0, Just(f64::NAN)]),
        age in proptest::option::of(-5.0..130.0),
    ) -> Wearer {
        let taken: Vec<(Dimension, f64)> =
            Dimension::ALL.into_iter().zip(lengths).filter_map(|(d, mm)| mm.map(|mm| (d, mm))).collect();
        Wearer { waist_level: level, mass_kg: mass, age_years: age, ..people::wearer(form, &taken) }
    }
}

prop_compose! {
    /// Every dimension believable by itself, each other one absent.
    fn believable_wearer()(
        form in form(),
        level in level(),
        shares in proptest::collection::vec((any::<bool>(), 0.0..1.0), Dimension::ALL.len()),
    ) -> Wearer {
        let taken: Vec<(Dimension, f64)> = Dimension::ALL
            .into_iter()
            .zip(shares)
            .filter(|(d, (there, _))| *there || d.need(form) == Need::Required)
            .map(|(d, (_, share))| {
                let (least, most) = d.plausible_range(form);
                (d, least.get() + share * (most - least).get())
            })
            .collect();
        Wearer { waist_level: level, ..people::wearer(form, &taken) }
    }
}

fn outside(d: Dimension, form: BodyForm, mm: Mm) -> bool {
    let (least, most) = d.plausible_range(form);
    !(least.get()..=most.get()).contains(&mm.get())
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 2000,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(8559),
        ..ProptestConfig::default()
    })]

    /// Nothing panics, and each absurd or missing dimension has its own error.
    #[test]
    fn any_input_ends_in_a_body_or_in_all_its_faults(wearer in any_wearer()) {
        let slips = doubts(&wearer);
        prop_assert!(slips.iter().all(|d| d.z.is_finite() && d.low < d.high));
        let wrong = wearer.taken.iter().filter(|(d, mm)| outside(*d, wearer.form, *mm)).count();
        let missing = Dimension::ALL
            .into_iter()
            .filter(|d| d.need(wearer.form) == Need::Required && wearer.taken.get(*d).is_none())
            .count();
        match complete(&wearer) {
            Ok(_) => prop_assert_eq!(wrong + missing, 0),
            Err(errors) => {
                prop_assert!(!errors.is_empty());
                let single = errors.iter().filter(|e| matches!(
                    e,
                    BodyError::NotANumber { .. } | BodyError::NotPositive { .. } | BodyError::Absurd { .. } | BodyError::Missing { .. }
                ));
                prop_assert_eq!(single.count(), wrong + missing);
            }
        }
    }

    /// What was taken stays; what a draft needs is there, believable and with an error that is a number.
    #[test]
    fn a_body_is_complete_and_keeps_what_was_taken(wearer in believable_wearer()) {
        let Ok((body, findings)) = complete(&wearer) else { return Ok(()) };
        for d in Dimension::ALL {
            match (wearer.taken.get(d), body.get(d)) {
                (Some(mm), known) => {
                    prop_assert_eq!(known.map(|k| (k.value, k.origin)), Some((mm, Origin::Taken)));
                }
                (None, Some(known)) => {
                    prop_assert!(!outside(d, wearer.form, known.value), "{} {:?}", d.key(), known);
                    if let Origin::Estimated { se: Some(se), .. } = known.origin {
                        prop_assert!(se.get().is_finite() && se > Mm::ZERO);
                    }
                }
                (None, None) => prop_assert!(
                    d == Dimension::TrunkCircumference || matches!(d.need(wearer.form), Need::CrossCheck | Need::NotUsed),
                    "{} is missing", d.key()
                ),
            }
        }
        prop_assert!(findings.iter().all(|f| !f.message.is_empty() && !f.remedy.is_empty()));
        prop_assert_eq!(complete(&wearer), Ok((body, findings)));
    }
}
