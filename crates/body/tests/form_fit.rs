//! The form fitted to bodies: how near it comes, and that closing the girths closes them.

#![allow(clippy::unwrap_used, reason = "a test that cannot make its form must stop")]

mod people;

use body::{
    Body, BodyForm, Dimension as D, FittedForm, FormError, FormMeasure as M, FormTarget, TorsoForm, complete,
};

/// The invented wearers of `examples`, dimensions in mm.
fn maren() -> Body {
    body(
        BodyForm::Woman,
        &[
            (D::Stature, 1800.0),
            (D::BustGirth, 900.0),
            (D::UnderbustGirth, 775.0),
            (D::WaistGirth, 730.0),
            (D::HighHipGirth, 890.0),
            (D::HipGirth, 990.0),
            (D::ThighGirth, 590.0),
            (D::NeckBaseGirth, 366.0),
            (D::TrunkCircumference, 1640.0),
            (D::CrotchLength, 762.0),
            (D::BackWaistLength, 440.0),
            (D::FrontWaistLength, 465.0),
            (D::SideNeckToBustPoint, 278.0),
            (D::BustPointDistance, 180.0),
            (D::ShoulderLength, 130.0),
            (D::SideLength, 236.0),
            (D::WaistToHip, 222.0),
            (D::RiseHeight, 276.0),
        ],
    )
}

fn ines() -> Body {
    body(
        BodyForm::Child,
        &[
            (D::Stature, 1280.0),
            (D::BustGirth, 640.0),
            (D::WaistGirth, 580.0),
            (D::HighHipGirth, 640.0),
            (D::HipGirth, 690.0),
            (D::ThighGirth, 405.0),
            (D::NeckBaseGirth, 290.0),
            (D::TrunkCircumference, 1110.0),
            (D::CrotchLength, 530.0),
            (D::BackWaistLength, 296.0),
            (D::FrontWaistLength, 304.0),
            (D::ShoulderLength, 94.0),
            (D::SideLength, 158.0),
            (D::WaistToHip, 150.0),
            (D::RiseHeight, 190.0),
        ],
    )
}

/// An invented man with the lengths that decide a suit, the rest estimated.
fn man() -> Body {
    body(
        BodyForm::Man,
        &[
            (D::Stature, 1800.0),
            (D::BustGirth, 1020.0),
            (D::WaistGirth, 880.0),
            (D::HipGirth, 1020.0),
            (D::ThighGirth, 590.0),
            (D::TrunkCircumference, 1660.0),
            (D::CrotchLength, 690.0),
            (D::BackWaistLength, 440.0),
        ],
    )
}

/// A woman of whom only what is required was taken.
fn few() -> Body {
    body(
        BodyForm::Woman,
        &[
            (D::Stature, 1650.0),
            (D::BustGirth, 920.0),
            (D::WaistGirth, 760.0),
            (D::HipGirth, 1000.0),
            (D::CrotchLength, 720.0),
        ],
    )
}

fn body(form: BodyForm, taken: &[(D, f64)]) -> Body {
    complete(&people::wearer(form, taken)).unwrap().0
}

fn fitted(body: &Body) -> FittedForm {
    TorsoForm::of(body.form).unwrap().fitted(body).unwrap()
}

/// Bodies as the examples have them, and people of the survey (waist at the navel).
fn everybody() -> Vec<Body> {
    let mut bodies = vec![maren(), ines(), man(), few()];
    for form in [BodyForm::Woman, BodyForm::Man] {
        let wearers = people::wearers(form);
        let order = people::shuffled(wearers.len(), 7);
        bodies.extend(order.iter().take(20).map(|i| complete(&wearers[*i]).unwrap().0));
    }
    bodies
}

/// The twelve measures a maker's tape finds.
const TAPE: [M; 12] = [
    M::BustGirth,
    M::UnderbustGirth,
    M::WaistGirth,
    M::HipGirth,
    M::ThighGirth,
    M::TrunkCircumference,
    M::CrotchLengthNatural,
    M::BackWaistLength,
    M::SideNeckToBustPoint,
    M::BustPointDistance,
    M::ShoulderLength,
    M::WaistToHip,
];

fn targets(torso: &TorsoForm, c: &[f64]) -> Vec<FormTarget> {
    TAPE.iter()
        .map(|m| FormTarget {
            measure: *m,
            value: torso.measure(c, *m),
            spread: m.spread(),
        })
        .collect()
}

/// The mean body is the least unusual shape with its measures, so nothing may move.
#[test]
fn the_mean_bodys_measures_give_the_mean_body() {
    for form in [BodyForm::Woman, BodyForm::Man, BodyForm::Child] {
        let torso = TorsoForm::of(form).unwrap();
        let c = torso.fit(&targets(&torso, &[])).unwrap();
        assert!(c.iter().all(|c| c.abs() < 1e-6), "{form:?} {c:?}");
    }
}

/// The same through a body of dimensions, where the neck base has no say and others are estimated: the dimensions that
/// were taken are met within half a millimetre.
#[test]
fn a_body_with_the_mean_womans_dimensions_is_the_mean_woman() {
    let torso = TorsoForm::of(BodyForm::Woman).unwrap();
    let of = |m| torso.measure(&[], m);
    let mean = body(
        BodyForm::Woman,
        &[
            (D::Stature, 1650.0),
            (D::BustGirth, of(M::BustGirth)),
            (D::UnderbustGirth, of(M::UnderbustGirth)),
            (D::WaistGirth, of(M::WaistGirth)),
            (D::HighHipGirth, of(M::HighHipGirth)),
            (D::HipGirth, of(M::HipGirth)),
            (D::ThighGirth, of(M::ThighGirth)),
            (D::TrunkCircumference, of(M::TrunkCircumference)),
            (D::CrotchLength, of(M::CrotchLengthNatural)),
            (D::BackWaistLength, of(M::BackWaistLength)),
            (D::FrontWaistLength, of(M::FrontWaistLength)),
            (D::SideNeckToBustPoint, of(M::SideNeckToBustPoint)),
            (D::BustPointDistance, of(M::BustPointDistance)),
            (D::ShoulderLength, of(M::ShoulderLength)),
            (D::SideLength, of(M::UnderarmToWaist)),
            (D::WaistToHip, of(M::WaistToHip)),
        ],
    );
    let form = fitted(&mean);
    assert_eq!(form.measures().len(), 15);
    for m in form.measures() {
        assert!(m.taken, "{m:?}");
        assert!(
            m.residual_mm().abs() < 0.5 && m.residual_closed_mm().abs() < 0.5,
            "{m:?}"
        );
    }
    assert!(form.coefficients().iter().all(|c| c.abs() < 0.05));
}

/// Source: rms residuals of 100 women, 100 men and 76 children held out when the form was made, fitted to these twelve
/// measures by the same method worked in another language. Those lie a little outside the form's own shapes; shapes of
/// the form drawn here lie inside, so the fit must do no worse. Tolerance: 16 per cent for 20 shapes, doubled for long
/// tails, and half a millimetre.
#[test]
fn shapes_of_the_form_are_found_again_by_twelve_measures() {
    const HELD_OUT: [(BodyForm, [f64; 12]); 3] = [
        (
            BodyForm::Woman,
            [1.9, 6.4, 1.8, 1.0, 1.4, 2.6, 1.5, 3.5, 4.9, 1.8, 2.6, 1.9],
        ),
        (
            BodyForm::Man,
            [1.4, 1.6, 0.6, 0.7, 1.2, 1.7, 1.3, 2.5, 2.0, 1.9, 2.0, 1.9],
        ),
        (
            BodyForm::Child,
            [1.8, 2.5, 1.2, 0.9, 1.4, 1.2, 1.4, 1.7, 2.7, 2.5, 2.5, 2.7],
        ),
    ];
    for (form, reference) in HELD_OUT {
        let torso = TorsoForm::of(form).unwrap();
        let mut squares = [0.0; 12];
        let mut seed = 1;
        for _ in 0..20 {
            let c: Vec<f64> = (0..24).map(|_| near_normal(&mut seed)).collect();
            let targets = targets(&torso, &c);
            let found = torso.fit(&targets).unwrap();
            for (sum, t) in squares.iter_mut().zip(&targets) {
                *sum += (torso.measure(&found, t.measure) - t.value).powi(2);
            }
        }
        for ((sum, reference), m) in squares.iter().zip(reference).zip(TAPE) {
            let rms = (sum / 20.0).sqrt();
            // DIFFERENCE: a large low bust crosses the women's under-bust plane and the fit stalls there; the reference's
            // largest residual was 39.8 mm. One such shape in twenty decides the rms, so two of that size are allowed.
            let stalls = form == BodyForm::Woman && m == M::UnderbustGirth;
            let limit = if stalls {
                39.8 / 10.0_f64.sqrt()
            } else {
                1.32 * reference + 0.5
            };
            assert!(rms < limit, "{form:?} {}: {rms} for {reference}", m.key());
        }
    }
}

/// The sum of twelve even draws less 6: mean 0, spread 1.
fn near_normal(state: &mut u64) -> f64 {
    let mut sum = 0.0;
    for _ in 0..12 {
        *state = state
            .wrapping_mul(6364136223846793005)
            .wrapping_add(1442695040888963407);
        sum += (*state >> 33) as f64 / f64::from(1_u32 << 31);
    }
    sum - 6.0
}

#[test]
fn every_girth_asked_for_is_closed() {
    for body in everybody() {
        let form = fitted(&body);
        let girths: Vec<_> = form.measures().iter().filter(|m| m.measure.is_girth()).collect();
        assert!(girths.len() >= 4);
        for m in girths {
            assert!(m.residual_closed_mm().abs() < 0.05, "{:?} {m:?}", body.form);
            // Own measurement of the drawn form, not the report's.
            let drawn = form.measure(m.measure);
            assert!((drawn - body.mm(m.dimension).unwrap()).abs() < 0.05, "{m:?}");
        }
    }
}

/// Closing may not undo the fit: a length that was taken stays within 5 mm of where the fit left it. The trunk and the
/// crotch run over the levels that are closed, so they move most.
#[test]
fn closing_the_girths_leaves_the_lengths() {
    for body in [maren(), ines(), man()] {
        for m in fitted(&body).measures().iter().filter(|m| !m.measure.is_girth()) {
            assert!((m.closed_mm - m.fitted_mm).abs() < 5.0, "{m:?}");
        }
    }
}

#[test]
fn the_form_stays_symmetric_and_its_legs_apart() {
    for body in [maren(), ines(), man(), few()] {
        let form = fitted(&body);
        let (mut left, mut right) = (0.0, 0.0);
        for ring in form.ring(form.level_height(units::Level::Thigh)) {
            match ring.part {
                body::RingPart::Left => left = ring.girth_mm,
                body::RingPart::Right => right = ring.girth_mm,
                body::RingPart::Trunk => panic!("legs grown together"),
            }
        }
        assert!((left - right).abs() < 1e-6, "{left} {right}");
        assert!((left - body.mm(D::ThighGirth).unwrap()).abs() < 0.5);
    }
}

#[test]
fn what_was_used_is_reported_with_its_origin() {
    let form = fitted(&few());
    let find = |d| form.measures().iter().find(|m| m.dimension == d);
    let bust = find(D::BustGirth).unwrap();
    assert!(bust.taken && bust.spread_mm == 5.0);
    let thigh = find(D::ThighGirth).unwrap();
    assert!(!thigh.taken && thigh.spread_mm > 15.0);
    // Estimated from others by plain shares: left to the form. Not on the form: left out.
    for d in [
        D::BustPointDistance,
        D::FrontWaistLength,
        D::NeckBaseGirth,
        D::RiseHeight,
    ] {
        assert!(find(d).is_none(), "{d:?}");
    }
    assert!(form.unusual().is_empty());
}

#[test]
fn the_navel_waist_is_fitted_at_the_navel() {
    let wearer = &people::wearers(BodyForm::Woman)[0];
    let form = fitted(&complete(wearer).unwrap().0);
    let waist = form
        .measures()
        .iter()
        .find(|m| m.dimension == D::WaistGirth)
        .unwrap();
    assert_eq!(waist.measure, M::NavelGirth);
    assert!(form.levels().iter().any(|(l, _)| *l == units::Level::Navel));
    assert!(!form.levels().iter().any(|(l, _)| *l == units::Level::Waist));
}

/// A body as far out as `complete` accepts is said to be, and still closed.
#[test]
fn an_unusual_body_is_said_to_be() {
    let body = body(
        BodyForm::Woman,
        &[
            (D::Stature, 1500.0),
            (D::BustGirth, 1250.0),
            (D::UnderbustGirth, 850.0),
            (D::WaistGirth, 760.0),
            (D::HipGirth, 1300.0),
            (D::CrotchLength, 640.0),
            (D::BackWaistLength, 350.0),
            (D::TrunkCircumference, 1500.0),
        ],
    );
    let form = fitted(&body);
    assert!(!form.unusual().is_empty(), "{:?}", form.coefficients());
    for (k, c) in form.unusual() {
        assert_eq!(form.coefficients()[k], c);
        assert!(c.abs() > body::UNUSUAL_COEFFICIENT);
    }
    for m in form.measures().iter().filter(|m| m.measure.is_girth()) {
        assert!(m.residual_closed_mm().abs() < 0.5, "{m:?}");
    }
}

#[test]
fn the_same_body_gives_the_same_form() {
    let (one, other) = (fitted(&maren()), fitted(&maren()));
    let bits = |f: &FittedForm| -> Vec<u64> { f.vertices().iter().flatten().map(|x| x.to_bits()).collect() };
    assert_eq!(bits(&one), bits(&other));
    assert_eq!(one, other);
}

#[test]
fn the_form_of_another_kind_of_body_is_refused() {
    let torso = TorsoForm::of(BodyForm::Man).unwrap();
    let refused = torso.fitted(&maren()).unwrap_err();
    assert_eq!(
        refused,
        FormError::OtherForm {
            form: BodyForm::Man,
            body: BodyForm::Woman
        }
    );
    assert_eq!(
        refused.to_string(),
        "the form of a man cannot be fitted to the body of a woman; read the form of a woman"
    );
}
