//! Names and tolerances against the trade tables the crate was written from.

use body::{BodyForm, Dimension as D, Need};

/// ISO 8559-1 names as used on paper. `seen`: read in EN 13402-1 pages or the ISO 8559:1989 list; the rest: value
/// from memory.
const ISO_NAMES: [(D, &str, &str); 24] = [
    (D::Stature, "stature", "from memory"),
    (D::BustGirth, "bust girth", "seen"),
    (D::UpperChestGirth, "chest girth at armpit level", "from memory"),
    (D::UnderbustGirth, "under-bust girth", "from memory"),
    (D::WaistGirth, "waist girth", "from memory"),
    (D::HighHipGirth, "top-hip girth", "from memory"),
    (D::HipGirth, "hip girth", "from memory"),
    (D::ThighGirth, "thigh girth", "from memory"),
    (D::NeckBaseGirth, "neck-base girth", "from memory"),
    (D::ArmscyeGirth, "armscye girth", "seen"),
    (D::UpperArmGirth, "upper-arm girth", "seen"),
    (D::WristGirth, "wrist girth", "seen"),
    (D::TrunkCircumference, "trunk circumference", "seen"),
    (D::CrotchLength, "total crotch length", "from memory"),
    (D::BackWaistLength, "back waist length", "from memory"),
    (D::FrontWaistLength, "front waist length", "from memory"),
    (D::SideNeckToBustPoint, "side neck to bust point", "from memory"),
    (D::BustPointDistance, "bust point width", "from memory"),
    (D::ShoulderLength, "shoulder length", "seen"),
    (D::WaistToHip, "waist to hip", "seen"),
    (D::AcrossBack, "back width", "seen"),
    (D::ArmLength, "arm length", "seen"),
    (D::CrotchHeight, "inside leg length", "seen"),
    (D::WaistHeight, "waist height", "from memory"),
];

#[test]
fn names_are_those_of_the_standard() {
    for (d, name, grade) in ISO_NAMES {
        assert_eq!(d.iso_name(BodyForm::Woman), name, "{grade}");
    }
    assert_eq!(D::BustGirth.iso_name(BodyForm::Man), "chest girth");
    assert_eq!(D::BustGirth.iso_name(BodyForm::Child), "chest girth");
}

/// Source: data/trade/body_dims.csv, column tolerance_mm (largest allowable errors of ISO 20685 by kind).
#[test]
fn tolerances_are_those_of_the_trade_table() {
    let table = include_str!("../../../data/trade/body_dims.csv");
    let mut compared = 0;
    for line in table.lines().skip(1) {
        let cells = cells(line);
        // Not a dimension of ours: leg_opening, bust_to_waist, shoulder_width, outside_leg_part, knee_girth,
        // crotch_width.
        let Some(d) = D::from_key(&cells[0]) else { continue };
        let tolerance: f64 = cells[6].parse().unwrap();
        assert_eq!(d.tolerance().get(), tolerance, "{}", cells[0]);
        compared += 1;
    }
    assert_eq!(compared, 24);
}

/// Splits a line at commas that are not within double quotes.
fn cells(line: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(String::new()),
            c => cells
                .iter_mut()
                .next_back()
                .into_iter()
                .for_each(|cell| cell.push(c)),
        }
    }
    cells
}

#[test]
fn every_dimension_can_be_explained() {
    for d in D::ALL {
        for form in [BodyForm::Woman, BodyForm::Man, BodyForm::Child] {
            assert!(!d.iso_name(form).is_empty());
        }
        assert!(
            d.definition().len() > 15 && d.how_to_take().len() > 15,
            "{}",
            d.key()
        );
        assert!(
            !d.how_to_take().ends_with('.') && !d.definition().ends_with('.'),
            "{}",
            d.key()
        );
    }
    assert!(
        BodyForm::Child
            .before_measuring()
            .contains("parent or carer present")
    );
    assert!(
        BodyForm::Child
            .before_measuring()
            .contains("over thin close clothes")
    );
}

#[test]
fn needs_are_those_of_the_draft() {
    let of = |need, form| {
        D::ALL
            .into_iter()
            .filter(|d| d.need(form) == need)
            .collect::<Vec<_>>()
    };
    assert_eq!(
        of(Need::Required, BodyForm::Woman),
        [D::BustGirth, D::WaistGirth, D::HipGirth, D::CrotchLength]
    );
    assert_eq!(
        of(Need::Required, BodyForm::Child),
        [
            D::Stature,
            D::BustGirth,
            D::WaistGirth,
            D::HipGirth,
            D::CrotchLength
        ]
    );
    assert_eq!(
        of(Need::Asked, BodyForm::Woman),
        [
            D::Stature,
            D::UnderbustGirth,
            D::TrunkCircumference,
            D::BackWaistLength,
            D::FrontWaistLength,
            D::SideNeckToBustPoint,
            D::BustPointDistance
        ]
    );
    assert_eq!(
        of(Need::Asked, BodyForm::Man),
        [D::Stature, D::TrunkCircumference, D::BackWaistLength]
    );
    assert_eq!(of(Need::NotUsed, BodyForm::Man), [D::UnderbustGirth]);
}
