//! The invented bodies and cloths of `data/draft/check-values.json`, drafted as they stand.

#![allow(clippy::unwrap_used, reason = "a test may panic")]
#![allow(dead_code, reason = "not every test file needs both bodies and cloths")]

use body::{Body, BodyForm, Dimension, Dimensions, FrontTaken, WaistLevel, Wearer, complete};
use cloth::{ClothPlan, Load};
use serde_json::Value;
use units::{Mm, Stretch};

/// The recorded file.
pub(crate) fn values() -> Value {
    serde_json::from_str(include_str!("../../../../data/draft/check-values.json")).unwrap()
}

/// One of its bodies, every dimension counted as taken, the front over the bust point.
pub(crate) fn body(name: &str) -> Body {
    let file = values();
    let recorded = &file["bodies"][name];
    let mut taken = Dimensions::default();
    for (key, dimension) in [
        ("stature", Dimension::Stature),
        ("bust", Dimension::BustGirth),
        ("underbust", Dimension::UnderbustGirth),
        ("waist", Dimension::WaistGirth),
        ("high_hip", Dimension::HighHipGirth),
        ("hip", Dimension::HipGirth),
        ("neck_base", Dimension::NeckBaseGirth),
        ("thigh", Dimension::ThighGirth),
        ("bwl", Dimension::BackWaistLength),
        ("fwl", Dimension::FrontWaistLength),
        ("snbp", Dimension::SideNeckToBustPoint),
        ("bpd", Dimension::BustPointDistance),
        ("shoulder", Dimension::ShoulderLength),
        ("ab", Dimension::AcrossBack),
        ("ac", Dimension::AcrossFront),
        ("waist_hip", Dimension::WaistToHip),
        ("tcl", Dimension::CrotchLength),
        ("rise_h", Dimension::RiseHeight),
        ("vtc", Dimension::TrunkCircumference),
        ("upper_arm", Dimension::UpperArmGirth),
        ("side_len", Dimension::SideLength),
        ("arm", Dimension::ArmLength),
        ("wrist", Dimension::WristGirth),
    ] {
        taken.set(dimension, Mm::new(recorded[key].as_f64().unwrap()));
    }
    let form = match recorded["sex"].as_str().unwrap() {
        "w" => BodyForm::Woman,
        "m" => BodyForm::Man,
        _ => BodyForm::Child,
    };
    let wearer = Wearer {
        name: name.to_owned(),
        form,
        age_years: (form == BodyForm::Child).then_some(8.0),
        mass_kg: None,
        waist_level: WaistLevel::Natural,
        front_taken: FrontTaken::OverBustPoint,
        trust: None,
        taken,
    };
    complete(&wearer).unwrap().0
}

/// One of its cloths, pulled by hand.
pub(crate) fn cloth(name: &str) -> ClothPlan {
    let file = values();
    let recorded = &file["cloths"][name];
    let stretch = |key: &str| Stretch::from_ratio(recorded[key].as_f64().unwrap());
    ClothPlan::of_one_cloth(name, stretch("sx"), stretch("sy"), Load::Hand)
}
