//! Invented bodies and their suits put on, for tests of single parts.

#![allow(
    dead_code,
    clippy::unwrap_used,
    reason = "shared by several test files, each of which uses a part; a test may panic"
)]

use std::sync::OnceLock;

use body::{
    BodyForm, Dimension, Dimensions, FittedForm, FrontTaken, TorsoForm, WaistLevel, Wearer, complete,
};
use cloth::{ClothPlan, Law, Load};
use draft::{Design, Draft, OpenKind, ParameterKind, Setting, draft};
use solve::{BodyField, Elastic, OpenPlace, Settings, Stop, SuitLaws, SuitMesh, WornSuit, mesh_suit, wear};
use units::{Level, Mm, Silent, Stretch};

/// Coarse, so that a file takes seconds.
pub(crate) const MESH: f64 = 16.0;

/// Stature, bust, underbust, waist, hip, crotch length, back waist, trunk (mm).
const AVERAGE: [f64; 8] = [1650.0, 920.0, 780.0, 760.0, 1000.0, 720.0, 408.0, 1620.0];
const FULL: [f64; 8] = [1680.0, 1050.0, 820.0, 800.0, 1040.0, 745.0, 415.0, 1700.0];

pub(crate) struct Dressed {
    pub(crate) body: body::Body,
    pub(crate) form: FittedForm,
    pub(crate) field: BodyField,
}

/// Of average build.
pub(crate) fn average() -> &'static Dressed {
    static BODY: OnceLock<Dressed> = OnceLock::new();
    BODY.get_or_init(|| made(AVERAGE, |_| {}))
}

/// With a full bust.
pub(crate) fn full_bust() -> &'static Dressed {
    static BODY: OnceLock<Dressed> = OnceLock::new();
    BODY.get_or_init(|| made(FULL, |_| {}))
}

pub(crate) fn uneven() -> &'static Dressed {
    static BODY: OnceLock<Dressed> = OnceLock::new();
    BODY.get_or_init(|| {
        made(AVERAGE, |taken| {
            taken.set(Dimension::SideNeckToBustPoint, Mm::new(270.0));
            taken.set_right(Dimension::SideNeckToBustPoint, Mm::new(258.0));
        })
    })
}

fn made(mm: [f64; 8], more: impl Fn(&mut Dimensions)) -> Dressed {
    let names = [
        Dimension::Stature,
        Dimension::BustGirth,
        Dimension::UnderbustGirth,
        Dimension::WaistGirth,
        Dimension::HipGirth,
        Dimension::CrotchLength,
        Dimension::BackWaistLength,
        Dimension::TrunkCircumference,
    ];
    let mut taken = Dimensions::default();
    for (dimension, mm) in names.into_iter().zip(mm) {
        taken.set(dimension, Mm::new(mm));
    }
    more(&mut taken);
    let wearer = Wearer {
        name: "Maren".into(),
        form: BodyForm::Woman,
        age_years: None,
        mass_kg: None,
        waist_level: WaistLevel::Natural,
        front_taken: FrontTaken::OverBustPoint,
        trust: None,
        taken,
    };
    let (body, _) = complete(&wearer).unwrap();
    let form = TorsoForm::of(BodyForm::Woman).unwrap().fitted(&body).unwrap();
    let field = BodyField::of_form(&form);
    Dressed { body, form, field }
}

pub(crate) fn drafted(on: &Dressed, design: &Design) -> Draft {
    let (around, lengthwise) = (Stretch::from_percent(85.0), Stretch::from_percent(60.0));
    let cloth = ClothPlan::of_one_cloth("Slate tricot", around, lengthwise, Load::Hand);
    draft(&on.body, &cloth, design).unwrap()
}

/// A design with a parameter of the style's own set: a word, or yes.
pub(crate) fn with(mut design: Design, key: &str, word: &str) -> Design {
    let parameter = design.style.own(key).unwrap();
    let setting = match parameter.kind {
        ParameterKind::Choice { options } => {
            Setting::Word(options.iter().find(|o| o.key == word).unwrap().key)
        }
        ParameterKind::Switch { .. } => Setting::Yes(true),
        _ => Setting::Number(word.parse().unwrap()),
    };
    design.own.set(parameter, setting);
    design
}

pub(crate) fn elastic(place: OpenPlace<'_>) -> Option<Elastic> {
    let ratio = match (place.kind, place.piece.contains("back")) {
        (OpenKind::Leg | OpenKind::Waist, true) => 0.87,
        (OpenKind::Leg, false) => 1.0,
        _ => 0.95,
    };
    Some(Elastic {
        stiffness_n: 5.0,
        ratio,
    })
}

pub(crate) fn laws(is_lined: bool) -> SuitLaws {
    SuitLaws {
        shell: Law::new(160.0, 110.0, 0.35, 0.3).unwrap(),
        lining: is_lined.then(|| Law::new(60.0, 45.0, 0.35, 0.3).unwrap()),
    }
}

pub(crate) fn meshed(on: &Dressed, design: &Design, is_lined: bool) -> (Draft, SuitMesh) {
    let draft = drafted(on, design);
    let mesh = mesh_suit(&draft, &laws(is_lined), &elastic, MESH).unwrap();
    (draft, mesh)
}

/// Meshed, put on, solved.
pub(crate) fn worn(on: &Dressed, design: &Design, is_lined: bool) -> (Draft, SuitMesh, WornSuit) {
    let (draft, mut mesh) = meshed(on, design, is_lined);
    let worn = wear(
        &mut mesh,
        &draft,
        &on.form,
        &on.field,
        &Settings::default(),
        &Silent,
    )
    .unwrap();
    assert_eq!(worn.solved.stop, Stop::Converged);
    assert!(worn.solved.residual_n() < 1e-5 && worn.solved.penetration_mm() < 0.5);
    (draft, mesh, worn)
}

pub(crate) fn at(worn: &WornSuit, level: Level) -> solve::WornLevel {
    *worn.levels.iter().find(|l| l.level == level).unwrap()
}
