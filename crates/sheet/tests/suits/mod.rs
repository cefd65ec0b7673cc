//! Drafted suits for tests, benches and looks: the seven invented bodies of `data/draft/check-values.json`.

#![allow(dead_code, reason = "each test uses its part")]
#![allow(unreachable_pub, reason = "shared by tests, which are crates of their own")]
#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use body::{BodyForm, Dimension, Wearer};
use cloth::{ClothPlan, Layer, LayerPlan, Load, Orientation};
use draft::{Design, Draft, LiningCover};
use make::{CutRow, ElasticChoice, ElasticKind, ElasticPlan};
use sheet::Pattern;
use units::{LengthUnit, Mm, Stretch};

/// A suit with everything a pattern borrows.
pub struct Suit {
    pub name: String,
    pub wearer: String,
    pub version: String,
    pub draft: Draft,
    pub cloth: ClothPlan,
    pub elastic: Vec<ElasticPlan>,
    pub cut_list: Vec<CutRow>,
    pub notes: Vec<String>,
    pub first_unit: LengthUnit,
}

impl Suit {
    pub fn pattern(&self) -> Pattern<'_> {
        Pattern {
            suit: &self.name,
            wearer: &self.wearer,
            version: &self.version,
            draft: &self.draft,
            cloth: &self.cloth,
            elastic: &self.elastic,
            cut_list: &self.cut_list,
            fit_key: "regular",
            notes: &self.notes,
            first_unit: self.first_unit,
        }
    }
}

/// Slate tricot over Oat lining, the lining turned.
pub fn lined_cloth() -> ClothPlan {
    let mut plan = fixtures::cloth_at(85.0, 60.0, Load::NewtonPerCm(3.0));
    plan.lining = Some(LayerPlan {
        layer: Layer::Lining,
        cloth: "Oat lining".to_owned(),
        orientation: Orientation::Upright,
        around: Stretch::from_percent(110.0),
        lengthwise: Stretch::from_percent(70.0),
        load: Load::NewtonPerCm(3.0),
        width: Some(Mm::new(1500.0)),
    });
    plan
}

/// One of the invented bodies; of men and children what a bust needs is not taken.
pub fn wearer(name: &str) -> Wearer {
    let mut wearer = fixtures::recorded(name);
    if wearer.form != BodyForm::Woman {
        for dimension in [
            Dimension::UnderbustGirth,
            Dimension::SideNeckToBustPoint,
            Dimension::BustPointDistance,
        ] {
            wearer.taken.remove(dimension);
        }
    }
    wearer
}

/// A suit for one of the bodies.
pub fn suit(name: &str, wearer_name: &str, body: &str, design: &Design) -> Suit {
    let (body, _) = body::complete(&wearer(body)).unwrap();
    let cloth = lined_cloth();
    let draft = draft::draft(&body, &cloth, design).unwrap();
    let choice = ElasticChoice::new(ElasticKind::ALL[0], Mm::new(8.0), None, None, None).unwrap();
    Suit {
        name: name.to_owned(),
        wearer: wearer_name.to_owned(),
        version: "2".to_owned(),
        elastic: make::elastic(&draft, &choice),
        cut_list: make::cut_list(&draft, &cloth),
        draft,
        cloth,
        notes: Vec::new(),
        first_unit: LengthUnit::Cm,
    }
}

/// Maren's lined one-piece.
pub fn maren() -> Suit {
    let design = Design {
        lining: LiningCover::Full,
        ..Design::default()
    };
    suit("Maren’s one-piece", "Maren", "tall", &design)
}
