//! Invented people, their forms, and suits put on them.

#![allow(
    dead_code,
    clippy::unwrap_used,
    reason = "shared by several test files, each of which uses a part; a test may panic"
)]

use std::collections::BTreeMap;

use body::{Body, BodyForm, Dimension, FittedForm, TorsoForm};
use cloth::Law;
use draft::{Design, Draft, OpenKind, draft};
use solve::{
    BodyField, Elastic, Field, OpenPlace, Settings, Stop, SuitLaws, SuitMesh, WornSuit, mesh_suit, wear,
};
use units::Silent;

/// Coarse, so that a file takes seconds.
pub(crate) const MESH: f64 = 16.0;

pub(crate) fn person(form: BodyForm, taken_mm: &[(Dimension, f64)]) -> Body {
    fixtures::completed(&fixtures::somebody(form, taken_mm))
}

pub(crate) fn woman() -> Body {
    fixtures::completed(&fixtures::woman(fixtures::AVERAGE))
}

pub(crate) fn man() -> Body {
    person(
        BodyForm::Man,
        &[
            (Dimension::Stature, 1780.0),
            (Dimension::BustGirth, 1000.0),
            (Dimension::WaistGirth, 860.0),
            (Dimension::HipGirth, 1000.0),
            (Dimension::ThighGirth, 590.0),
            (Dimension::CrotchLength, 730.0),
            (Dimension::BackWaistLength, 455.0),
        ],
    )
}

/// A child of so many centimetres.
pub(crate) fn child(cm: f64) -> Body {
    let s = cm / 128.0;
    person(
        BodyForm::Child,
        &[
            (Dimension::Stature, 1280.0 * s),
            (Dimension::BustGirth, 640.0 * s),
            (Dimension::WaistGirth, 580.0 * s),
            (Dimension::HipGirth, 690.0 * s),
            (Dimension::CrotchLength, 530.0 * s),
            (Dimension::TrunkCircumference, 1110.0 * s),
            (Dimension::BackWaistLength, 296.0 * s),
        ],
    )
}

pub(crate) fn drafted(body: &Body, design: &Design) -> Draft {
    draft(body, &fixtures::slate(), design).unwrap()
}

pub(crate) fn elastic(place: OpenPlace<'_>) -> Option<Elastic> {
    let ratio = match (place.kind, place.piece) {
        (OpenKind::Leg | OpenKind::Waist, "back") => 0.87,
        (OpenKind::Leg, _) => 1.0,
        _ => 0.95,
    };
    Some(Elastic {
        stiffness_n: 5.0,
        ratio,
    })
}

pub(crate) fn law() -> Law {
    Law::new(160.0, 110.0, 0.35, 0.3).unwrap()
}

pub(crate) struct Dressed {
    pub(crate) form: FittedForm,
    pub(crate) field: BodyField,
    pub(crate) mesh: SuitMesh,
    pub(crate) worn: WornSuit,
}

/// A draft put on a body, solved; `change` may alter the mesh first.
pub(crate) fn dress(
    body: &Body,
    draft: &Draft,
    settings: &Settings,
    change: &dyn Fn(&mut SuitMesh),
) -> Dressed {
    dress_with(body, draft, settings, &elastic, change)
}

pub(crate) fn dress_with(
    body: &Body,
    draft: &Draft,
    settings: &Settings,
    elastic: &dyn Fn(OpenPlace<'_>) -> Option<Elastic>,
    change: &dyn Fn(&mut SuitMesh),
) -> Dressed {
    let form = TorsoForm::of(body.form).unwrap().fitted(body).unwrap();
    let field = BodyField::for_suit(&form, draft);
    let laws = SuitLaws {
        shell: law(),
        lining: None,
    };
    let mut mesh = mesh_suit(draft, &laws, elastic, MESH).unwrap();
    change(&mut mesh);
    let worn = wear(&mut mesh, draft, &form, &field, settings, &Silent).unwrap();
    assert_eq!(
        worn.solved.stop,
        Stop::Converged,
        "{} steps, {:e} N",
        worn.solved.step_count(),
        worn.solved.residual_n()
    );
    Dressed {
        form,
        field,
        mesh,
        worn,
    }
}

/// Every seam is closed: where the shell ends there is an open edge or the middle of the body.
#[track_caller]
pub(crate) fn is_closed(mesh: &SuitMesh) {
    let mut sides: BTreeMap<(usize, usize), usize> = BTreeMap::new();
    for t in mesh.mesh.triangles().iter().filter(|t| t.layer == 0) {
        for i in 0..3 {
            let (a, b) = (t.corners[i], t.corners[(i + 1) % 3]);
            *sides.entry((a.min(b), a.max(b))).or_default() += 1;
        }
    }
    let held = mesh.mesh.held();
    let on_line = |a: usize, b: usize| {
        mesh.open_lines
            .iter()
            .any(|l| l.vertices.contains(&a) && l.vertices.contains(&b))
    };
    for ((a, b), count) in &sides {
        assert!(*count <= 2, "three triangles meet at one edge");
        if *count == 1 {
            let is_middle = held[*a][0] && held[*b][0];
            assert!(is_middle || on_line(*a, *b), "a seam is open between {a} and {b}");
        }
    }
}

/// The girth of the left thigh at a height, by rays from its middle.
pub(crate) fn thigh_girth(field: &BodyField, y: f64) -> f64 {
    let (mut sum, mut count) = ([0.0; 2], 0.0);
    for i in 0..60 {
        for j in -40..=40 {
            let (x, z) = (f64::from(i) * 5.0 + 2.0, f64::from(j) * 5.0);
            if field.value([x, y, z]) < 0.0 {
                sum = [sum[0] + x, sum[1] + z];
                count += 1.0;
            }
        }
    }
    let (x, z) = (sum[0] / count, sum[1] / count);
    let ring: Vec<[f64; 2]> = (0..180)
        .map(|i| {
            let (s, c) = (f64::from(i) * std::f64::consts::TAU / 180.0).sin_cos();
            let mut t = 0.0;
            while field.value([x + t * c, y, z + t * s]) < 0.0 && t < 300.0 {
                t += 0.5;
            }
            [x + t * c, z + t * s]
        })
        .collect();
    (0..180)
        .map(|i| {
            let (a, b) = (ring[i], ring[(i + 1) % 180]);
            (b[0] - a[0]).hypot(b[1] - a[1])
        })
        .sum()
}
