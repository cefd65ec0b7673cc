//! Invented bodies and their suits put on, for tests of single parts.

#![allow(
    dead_code,
    clippy::unwrap_used,
    reason = "shared by several test files, each of which uses a part; a test may panic"
)]

use std::sync::OnceLock;

use body::{Dimension, FittedForm, TorsoForm, Wearer};
use cloth::Law;
use draft::{Design, Draft, OpenKind, draft};
use solve::{BodyField, Elastic, OpenPlace, Settings, Stop, SuitLaws, SuitMesh, WornSuit, mesh_suit, wear};
use units::{Level, Mm, Silent};

/// Coarse, so that a file takes seconds.
pub(crate) const MESH: f64 = 16.0;

pub(crate) struct Dressed {
    pub(crate) body: body::Body,
    pub(crate) form: FittedForm,
    pub(crate) field: BodyField,
}

/// Of average build.
pub(crate) fn average() -> &'static Dressed {
    static BODY: OnceLock<Dressed> = OnceLock::new();
    BODY.get_or_init(|| dressed(&fixtures::woman(fixtures::AVERAGE)))
}

/// With a full bust.
pub(crate) fn full_bust() -> &'static Dressed {
    static BODY: OnceLock<Dressed> = OnceLock::new();
    BODY.get_or_init(|| dressed(&fixtures::woman(fixtures::FULL_BUST)))
}

pub(crate) fn uneven() -> &'static Dressed {
    static BODY: OnceLock<Dressed> = OnceLock::new();
    BODY.get_or_init(|| {
        let mut wearer = fixtures::woman(fixtures::AVERAGE);
        let taken = &mut wearer.taken;
        taken.set(Dimension::SideNeckToBustPoint, Mm::new(270.0));
        taken.set_right(Dimension::SideNeckToBustPoint, Mm::new(258.0));
        dressed(&wearer)
    })
}

/// A wearer's form, and its field without her suit's legs and sleeves.
pub(crate) fn dressed(wearer: &Wearer) -> Dressed {
    let body = fixtures::completed(wearer);
    let form = TorsoForm::of(body.form).unwrap().fitted(&body).unwrap();
    let field = BodyField::of_form(&form);
    Dressed { body, form, field }
}

pub(crate) fn drafted(on: &Dressed, design: &Design) -> Draft {
    draft(&on.body, &fixtures::slate(), design).unwrap()
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
