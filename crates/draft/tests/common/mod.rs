//! Invented bodies and cloths for the tests of the draft.
#![allow(clippy::unwrap_used, reason = "a test helper")]

use body::{Body, BodyForm, Dimension, Dimensions, FrontTaken, WaistLevel, Wearer, complete};
use cloth::{ClothPlan, Load};
use units::{Mm, Stretch};

/// A body of data/draft/check-values.json, all its dimensions taken.
pub(crate) fn body(name: &str) -> Body {
    complete(&wearer(name)).unwrap().0
}

/// Whose body it is.
pub(crate) fn wearer(name: &str) -> Wearer {
    let file: serde_json::Value =
        serde_json::from_str(include_str!("../../../../data/draft/check-values.json")).unwrap();
    let b = &file["bodies"][name];
    let mut taken = Dimensions::default();
    for (dimension, key) in [
        (Dimension::Stature, "stature"),
        (Dimension::BustGirth, "bust"),
        (Dimension::UnderbustGirth, "underbust"),
        (Dimension::WaistGirth, "waist"),
        (Dimension::HighHipGirth, "high_hip"),
        (Dimension::HipGirth, "hip"),
        (Dimension::NeckBaseGirth, "neck_base"),
        (Dimension::ThighGirth, "thigh"),
        (Dimension::BackWaistLength, "bwl"),
        (Dimension::FrontWaistLength, "fwl"),
        (Dimension::SideNeckToBustPoint, "snbp"),
        (Dimension::BustPointDistance, "bpd"),
        (Dimension::ShoulderLength, "shoulder"),
        (Dimension::SideLength, "side_len"),
        (Dimension::WaistToHip, "waist_hip"),
        (Dimension::CrotchLength, "tcl"),
        (Dimension::RiseHeight, "rise_h"),
        (Dimension::TrunkCircumference, "vtc"),
    ] {
        taken.set(dimension, Mm::new(b[key].as_f64().unwrap()));
    }
    Wearer {
        name: name.into(),
        form: match b["sex"].as_str().unwrap() {
            "w" => BodyForm::Woman,
            "m" => BodyForm::Man,
            _ => BodyForm::Child,
        },
        age_years: (name == "child8").then_some(8.0),
        mass_kg: None,
        waist_level: WaistLevel::Natural,
        front_taken: FrontTaken::OverBustPoint,
        trust: None,
        taken,
    }
}

/// A single cloth by its stretch around and lengthwise, per cent.
pub(crate) fn cloth(around: f64, lengthwise: f64) -> ClothPlan {
    let (around, lengthwise) = (Stretch::from_percent(around), Stretch::from_percent(lengthwise));
    ClothPlan::of_one_cloth("Slate tricot", around, lengthwise, Load::Hand)
}
