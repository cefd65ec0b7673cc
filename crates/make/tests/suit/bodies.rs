//! Invented bodies of `data/draft/check-values.json`, all dimensions taken, and cloths for them.

#![allow(
    dead_code,
    clippy::unwrap_used,
    reason = "a test helper; each test binary uses a part of it"
)]

use body::{Body, BodyForm, Dimension};
use cloth::{ClothPlan, Layer, LayerPlan};
use draft::Style;
use fixtures::body;
use units::Mm;

/// A body with some dimensions of the right side so many mm greater than of the left.
pub(crate) fn body_with(name: &str, right: &[(Dimension, f64)]) -> Body {
    let mut wearer = fixtures::recorded(name);
    for (dimension, more) in right {
        let left = wearer.taken.get(*dimension).unwrap();
        assert!(wearer.taken.set_right(*dimension, left + Mm::new(*more)));
    }
    fixtures::completed(&wearer)
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
    let mut cloth = fixtures::slate();
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
