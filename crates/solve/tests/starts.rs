//! A suit ends in the same place from wherever its solve starts: plainly placed, or from a coarser mesh solved first.
//!
//! Held against the plain way itself: the same least energy, every point in the same place. The body is invented.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use body::{BodyForm, Dimension, Dimensions, FrontTaken, TorsoForm, WaistLevel, Wearer, complete};
use cloth::{ClothPlan, Law, Load};
use draft::{Design, OpenKind, draft};
use solve::{
    BodyField, Elastic, Friction, OpenPlace, PassKind, Settings, Solver, Stop, SuitLaws, mesh_suit, wear,
};
use units::{Mm, Silent, Stretch};

fn elastic(place: OpenPlace<'_>) -> Option<Elastic> {
    let ratio = match (place.kind, place.piece) {
        (OpenKind::Leg, "back") => 0.87,
        (OpenKind::Leg, _) => 1.0,
        _ => 0.95,
    };
    Some(Elastic {
        stiffness_n: 5.0,
        ratio,
    })
}

#[test]
fn a_coarse_start_changes_nothing_but_the_steps() {
    let mut taken = Dimensions::default();
    for (dimension, mm) in [
        (Dimension::Stature, 1540.0),
        (Dimension::BustGirth, 820.0),
        (Dimension::UnderbustGirth, 720.0),
        (Dimension::WaistGirth, 640.0),
        (Dimension::HipGirth, 890.0),
        (Dimension::CrotchLength, 660.0),
        (Dimension::BackWaistLength, 378.0),
        (Dimension::TrunkCircumference, 1480.0),
    ] {
        taken.set(dimension, Mm::new(mm));
    }
    let wearer = Wearer {
        name: "Tove".into(),
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
    let (around, lengthwise) = (Stretch::from_percent(85.0), Stretch::from_percent(60.0));
    let cloth = ClothPlan::of_one_cloth("Slate tricot", around, lengthwise, Load::Hand);
    let draft = draft(&body, &cloth, &Design::default()).unwrap();
    let laws = SuitLaws {
        shell: Law::new(160.0, 110.0, 0.35, 0.3).unwrap(),
        lining: None,
    };
    for friction in [None, Some(Friction::new(0.3))] {
        let settings = Settings {
            friction,
            ..Settings::default()
        };
        let mut mesh = mesh_suit(&draft, &laws, &elastic, 11.0).unwrap();
        // Settled cloth: the coarse mesh has to settle alike.
        mesh.mesh.grow(0, [0.02, 0.01]);
        let worn = wear(&mut mesh, &draft, &form, &field, &settings, &Silent).unwrap();
        let plain = Solver::new(&mesh.mesh)
            .unwrap()
            .solve(&mesh.mesh, Some(&field), &worn.placed, &settings, &Silent)
            .unwrap();
        assert_eq!((worn.solved.stop, plain.stop), (Stop::Converged, Stop::Converged));
        // 1e-7 of the energy and a hundredth of a millimetre: both stop at 1e-5 N, not at nought.
        let off = (worn.solved.energy() - plain.energy()) / plain.energy();
        assert!(off.abs() < 1e-7, "friction {friction:?}: energy off by {off:e}");
        let furthest = worn
            .solved
            .positions
            .iter()
            .zip(&plain.positions)
            .flat_map(|(a, b)| (0..3).map(move |i| (a[i] - b[i]).abs()))
            .fold(0.0, f64::max);
        assert!(furthest < 0.01, "friction {friction:?}: {furthest} mm apart");
        // And it was of use.
        let first = |passes: &[solve::Pass]| {
            let first = passes.iter().find(|p| p.kind == PassKind::First).unwrap();
            first.steps.len()
        };
        assert_eq!(worn.solved.passes[0].kind, PassKind::Coarse);
        let (with, without) = (first(&worn.solved.passes), first(&plain.passes));
        assert!(2 * with < without, "{with} steps against {without}");
    }
}
