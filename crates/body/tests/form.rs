//! The form's tables against the check values that came with them, and what the reader refuses.

#![allow(clippy::unwrap_used, reason = "a test that cannot make its form must stop")]

use body::{BodyForm, FormError, FormMeasure, TorsoForm};

const HEADER: &str = include_str!("../../../data/body/form.json");
const FACES: &[u8] = include_bytes!("../../../data/body/form_faces.u16");
const WOMAN: &[u8] = include_bytes!("../../../data/body/form_female.bin");

const FORMS: [(BodyForm, &str); 3] = [
    (BodyForm::Woman, "female"),
    (BodyForm::Man, "male"),
    (BodyForm::Child, "child"),
];

/// Source: `mean_form_measures` and `check_c0_1p5_c3_m1` of `data/body/form.json`, worked in another language when the
/// form was made. They have two decimals, so the tolerance is half of the last one, and as much for the rounding of
/// the mean to f32.
#[test]
fn every_measure_has_its_check_value() {
    let header: serde_json::Value = serde_json::from_str(HEADER).unwrap();
    let mut checked = 0;
    for (form, key) in FORMS {
        let torso = TorsoForm::of(form).unwrap();
        assert_eq!((torso.form(), torso.coefficient_count()), (form, 24));
        for (table, c) in [
            ("mean_form_measures", vec![]),
            ("check_c0_1p5_c3_m1", vec![1.5, 0.0, 0.0, -1.0]),
        ] {
            for (name, value) in header["forms"][key][table].as_object().unwrap() {
                let measure = FormMeasure::ALL.into_iter().find(|m| m.key() == name);
                let measure = measure.unwrap_or_else(|| panic!("{name} is not measured"));
                let (ours, theirs) = (torso.measure(&c, measure), value.as_f64().unwrap());
                assert!(
                    (ours - theirs).abs() <= 0.01,
                    "{key} {table} {name}: {ours} for {theirs}"
                );
                checked += 1;
            }
        }
    }
    assert_eq!(checked, 3 * 2 * 41);
}

/// Measures without a check value: a taut line to a level is no longer than its midline part allows, parts are less
/// than the whole.
#[test]
fn own_measures_lie_where_others_put_them() {
    use FormMeasure as M;
    for (form, key) in FORMS {
        let torso = TorsoForm::of(form).unwrap();
        let of = |m| torso.measure(&[], m);
        // A straight tape down can't be shorter than the height it covers, and over a bust it is longer.
        let down = of(M::FrontWaistLength) - of(M::SideNeckToBustPoint);
        let height = of(M::BustAboveCrotch) - (of(M::HipAboveCrotch) + of(M::WaistToHip));
        assert!(
            down > height && down < 1.3 * height,
            "{key}: {down} over {height}"
        );
        assert!(of(M::FrontWaistLengthNavel) > of(M::FrontWaistLength));
        let front = of(M::CrotchLengthNaturalFront) / of(M::CrotchLengthNatural);
        assert!((0.4..0.6).contains(&front), "{key}: {front}");
        let halves = of(M::CrotchLengthNavelFront) + of(M::CrotchLengthNavelBack);
        assert!((halves - of(M::CrotchLengthNavel)).abs() < 1e-9);
        assert!((of(M::UpperChestGirth) / of(M::BustGirth) - 1.0).abs() < 0.1);
    }
}

fn refused(header: &str, faces: &[u8], table: &[u8]) -> FormError {
    TorsoForm::read(BodyForm::Woman, header, faces, table).unwrap_err()
}

#[test]
fn a_table_of_another_size_is_refused() {
    assert_eq!(
        refused(HEADER, FACES, &WOMAN[1..]).to_string(),
        "form table: 336959 bytes, needed 336960; the file is cut short or belongs to another header"
    );
    assert_eq!(
        refused(HEADER, &[FACES, &[0]].concat(), WOMAN).to_string(),
        "form faces: 24997 bytes, needed 24996; the file is cut short or belongs to another header"
    );
}

#[test]
fn a_vertex_that_is_not_there_is_refused() {
    let mut faces = FACES.to_vec();
    faces[..2].copy_from_slice(&2160_u16.to_le_bytes());
    assert_eq!(
        refused(HEADER, &faces, WOMAN).to_string(),
        "form faces: vertex 2160 of 2160; the file belongs to another header"
    );
    let header = HEADER.replacen("\"back_neck\"", "\"nape\"", 1);
    assert_eq!(
        refused(&header, FACES, WOMAN).to_string(),
        "form header, landmark `back_neck`: 0 vertices, needed 1"
    );
}

#[test]
fn a_coordinate_that_is_no_number_is_refused() {
    let mut table = WOMAN.to_vec();
    table[8..12].copy_from_slice(&f32::NAN.to_le_bytes());
    assert_eq!(
        refused(HEADER, FACES, &table),
        FormError::NotANumber {
            what: "mean",
            index: 2
        }
    );
}

#[test]
fn another_header_is_refused() {
    assert!(matches!(refused("{", FACES, WOMAN), FormError::Header { .. }));
    let other = HEADER.replacen("torso-form-1", "torso-form-2", 1);
    assert_eq!(
        refused(&other, FACES, WOMAN).to_string(),
        "form header: format is `torso-form-2`; use a header of format torso-form-1"
    );
    let without = HEADER.replacen("\"female\"", "\"other\"", 1);
    assert_eq!(
        refused(&without, FACES, WOMAN),
        FormError::NoForm { key: "female" }
    );
}

#[test]
fn faces_that_meet_three_at_an_edge_are_refused() {
    // The first face three times over.
    let mut faces = FACES.to_vec();
    faces.copy_within(0..6, 6);
    faces.copy_within(0..6, 12);
    assert_eq!(
        refused(HEADER, &faces, WOMAN),
        FormError::Surface { what: "faces" }
    );
}
