//! Invented bodies of `data/draft/check-values.json`, all dimensions taken, and cloths for them.

#![allow(
    dead_code,
    clippy::unwrap_used,
    reason = "a test helper; each test binary uses a part of it"
)]

use body::{Body, BodyForm, Dimension, Dimensions, FrontTaken, WaistLevel, Wearer, complete};
use cloth::{ClothPlan, Layer, LayerPlan, Load};
use draft::Style;
use units::{Mm, Stretch};

/// A body by its name.
pub(crate) fn body(name: &str) -> Body {
    body_with(name, &[])
}

/// The same with some dimensions of the right side so many mm greater than of the left.
pub(crate) fn body_with(name: &str, right: &[(Dimension, f64)]) -> Body {
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
    for (dimension, more) in right {
        let left = taken.get(*dimension).unwrap();
        assert!(taken.set_right(*dimension, left + Mm::new(*more)));
    }
    let wearer = Wearer {
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
    };
    complete(&wearer).unwrap().0
}

/// A body the style is drafted for.
pub(crate) fn body_for(style: Style) -> Body {
    body(if style.is_for(BodyForm::Woman) {
        "average"
    } else if style.is_for(BodyForm::Man) {
        "man"
    } else {
        "child8"
    })
}

/// Slate tricot over oat lining, power mesh and a second slate; stretches as worn together.
pub(crate) fn layered() -> ClothPlan {
    let (around, lengthwise) = (Stretch::from_percent(85.0), Stretch::from_percent(60.0));
    let mut cloth = ClothPlan::of_one_cloth("Slate tricot", around, lengthwise, Load::Hand);
    let layer = |layer, name: &str| LayerPlan {
        layer,
        cloth: name.to_owned(),
        ..cloth.shell.clone()
    };
    let (lining, mesh) = (
        layer(Layer::Lining, "Oat lining"),
        layer(Layer::Mesh, "Power mesh"),
    );
    cloth.lining = Some(lining);
    cloth.mesh = Some(mesh);
    cloth
}
