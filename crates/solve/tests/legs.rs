//! Suits with legs: thighs are led on by their girths, legs are sewn and worn each round its own thigh, and press as Laplace says.
//!
//! Closed form: the mean pressure of a taut band round a convex limb is its tension over girth / 2 pi (Laplace, from memory). Bodies are
//! invented.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod people;

use body::{FormMeasure, TorsoForm};
use draft::{Design, OpenKind, Setting, Style};
use people::{MESH, child, drafted, dress, dress_with, elastic, is_closed, law, man, thigh_girth, woman};
use solve::{
    BodyField, LimbReach, Settings, SuitLaws, least_principal_stress, mesh_suit, triangle_stress,
    voronoi_areas, worn_stretch,
};
use units::{Level, Mm};

/// The tape at the thigh, and the girth above the knee where the leg is led on to it. 2 %: the tape is taut, the field's ring follows every
/// hollow and is smoothed.
#[test]
fn thighs_are_led_on_by_their_girths() {
    for body in [woman(), man(), child(128.0)] {
        let form = TorsoForm::of(body.form).unwrap().fitted(&body).unwrap();
        let knee = form.limbs().knee_below_crotch.mm;
        let reach = LimbReach {
            leg_mm: Some(knee),
            arm_mm: None,
        };
        let field = BodyField::reaching(&form, reach);
        let crotch = form.level_height(Level::Crotch);
        let near = |found: f64, meant: f64, what: &str| {
            assert!(
                (found / meant - 1.0).abs() < 0.02,
                "{what}: {found}, meant {meant}"
            );
        };
        let thigh = form.measure(FormMeasure::ThighGirth);
        near(thigh_girth(&field, crotch - 30.0), thigh, "thigh");
        let lower = form.limbs().lower_thigh_girth;
        assert!(lower.is_estimate);
        near(thigh_girth(&field, crotch - knee), lower.mm, "above the knee");
    }
}

#[test]
fn each_leg_goes_round_its_own_thigh() {
    let mut square = Design::of(Style::SQUARE_LEG);
    let liner = square.style.spec().own.iter().find(|p| p.key == "liner").unwrap();
    square.own.set(liner, Setting::Word("pouch"));
    for (body, design) in [
        (man(), Design::of(Style::TRUNKS)),
        (man(), square),
        (child(128.0), Design::of(Style::BOYS_TRUNKS)),
        (child(128.0), Design::of(Style::CHILDS_JAMMER)),
        (woman(), Design::of(Style::SWIM_SHORTS)),
    ] {
        let key = design.style.key();
        let draft = drafted(&body, &design);
        let dressed = dress(&body, &draft, &Settings::default(), &|_| {});
        is_closed(&dressed.mesh);
        let x = &dressed.worn.solved.positions;
        // The other leg's cloth is the mirror image: what crosses the middle would lie in it.
        let furthest = x.iter().map(|p| p[0]).fold(f64::INFINITY, f64::min);
        assert!(furthest > -0.5, "{key}: cloth lies {furthest} mm over the middle");
        assert!(dressed.worn.solved.penetration_mm() < 0.6, "{key}");
        for stress in triangle_stress(&dressed.mesh.mesh, x) {
            assert!(least_principal_stress(&stress) > -1e-6, "{key}: cloth pushes");
        }
        // The hem is one ring round the left leg: it has cloth on all four sides of its middle.
        let hem: Vec<usize> = dressed
            .mesh
            .open_lines
            .iter()
            .filter(|l| l.kind == OpenKind::Leg)
            .flat_map(|l| l.vertices.clone())
            .collect();
        let count = hem.len() as f64;
        let middle = [0, 2].map(|k| hem.iter().map(|v| x[*v][k]).sum::<f64>() / count);
        for (k, m) in [0, 2].into_iter().zip(middle) {
            assert!(hem.iter().any(|v| x[*v][k] > m + 40.0), "{key}");
            assert!(hem.iter().any(|v| x[*v][k] < m - 40.0), "{key}");
        }
        let hip = dressed
            .worn
            .levels
            .iter()
            .find(|l| l.level == Level::Hip)
            .unwrap();
        assert!(hip.around > 1.02 && hip.around < 1.25, "{key}: {}", hip.around);
    }
}

/// Bodies whose crotch comes out short get a gusset: a diamond, or a strip in a leg hardly longer than a brief's.
#[test]
fn a_gusset_is_sewn_between_the_legs() {
    let laws = SuitLaws {
        shell: law(),
        lining: None,
    };
    let plus = people::person(
        body::BodyForm::Woman,
        &[
            (body::Dimension::Stature, 1670.0),
            (body::Dimension::BustGirth, 1180.0),
            (body::Dimension::UnderbustGirth, 1010.0),
            (body::Dimension::WaistGirth, 1040.0),
            (body::Dimension::HipGirth, 1260.0),
            (body::Dimension::CrotchLength, 960.0),
            (body::Dimension::BackWaistLength, 425.0),
        ],
    );
    let mut seen = 0;
    for inseam in [60.0, 20.0] {
        let mut design = Design::of(Style::SWIM_SHORTS);
        let own = |key: &str| design.style.spec().own.iter().find(|p| p.key == key).unwrap();
        let inseam_parameter = own("inseam");
        design.own.set(inseam_parameter, Setting::Length(Mm::new(inseam)));
        let draft = drafted(&plus, &design);
        if !draft.pieces.iter().any(|p| p.key == "gusset") {
            continue;
        }
        seen += 1;
        let mesh = mesh_suit(&draft, &laws, &elastic, MESH).unwrap();
        assert!(mesh.pieces.iter().any(|p| p == "gusset"));
        is_closed(&mesh);
        dress(&plus, &draft, &Settings::default(), &|_| {});
    }
    assert!(seen > 0, "no draft had a gusset: then it is not tested");
}

/// Laplace on the thigh: pressure times girth / 2 pi is the pull around. 6 %: a coarse polygon round a thigh that is no cylinder.
#[test]
fn a_leg_presses_as_laplace_says() {
    let body = man();
    let draft = drafted(&body, &Design::of(Style::JAMMER));
    let dressed = dress_with(&body, &draft, &Settings::default(), &elastic, &|_| {});
    let (mesh, x) = (&dressed.mesh.mesh, &dressed.worn.solved.positions);
    let crotch = dressed.form.level_height(Level::Crotch);
    let hem = dressed
        .mesh
        .open_lines
        .iter()
        .filter(|l| l.kind == OpenKind::Leg)
        .flat_map(|l| l.vertices.iter().map(|v| x[*v][1]))
        .fold(f64::NEG_INFINITY, f64::max);
    // Clear of the crotch's bridge above and of the hem below.
    let (low, high) = (hem + 25.0, crotch - 60.0);
    assert!(high > low + 40.0, "{low} to {high}");
    let areas = voronoi_areas(mesh, x);
    let inside = |y: f64| y > low && y < high;
    let (mut force, mut area) = (0.0, 0.0);
    for (v, p) in x.iter().enumerate().filter(|(_, p)| inside(p[1])) {
        force += dressed.worn.solved.contact_n[v];
        area += areas[v];
        assert!(p[0] > 0.0);
    }
    // Worn tension around: stress by rest width, times its stretch, over the width as worn.
    let (mut pull, mut weight) = (0.0, 0.0);
    let stresses = triangle_stress(mesh, x);
    for ((t, s), l) in mesh.triangles().iter().zip(&stresses).zip(worn_stretch(mesh, x)) {
        let middle = t.corners.iter().map(|v| x[*v][1]).sum::<f64>() / 3.0;
        if inside(middle) {
            // Cloth's stress is N/m.
            pull += s.s[1] / 1e3 * l[1] / l[0] * t.area_mm2 * l[0] * l[1];
            weight += t.area_mm2 * l[0] * l[1];
        }
    }
    let girth = f64::midpoint(
        thigh_girth(&dressed.field, low),
        thigh_girth(&dressed.field, high),
    );
    let laplace = pull / weight / (girth / std::f64::consts::TAU);
    let found = force / area;
    assert!(
        (found / laplace - 1.0).abs() < 0.06,
        "presses {found} N/mm2, Laplace {laplace}"
    );
}
