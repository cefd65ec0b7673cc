//! Rings and tape lines of the fitted form, as they are drawn.

#![allow(clippy::unwrap_used, reason = "a test that cannot make its form must stop")]

mod people;

use body::{BodyForm, Dimension as D, FittedForm, RING_POINTS, Ring, RingPart, TorsoForm, complete};
use units::Level;

/// Fitted forms of the survey's people and of a child with the required dimensions.
fn forms() -> Vec<FittedForm> {
    let mut bodies = Vec::new();
    for form in [BodyForm::Woman, BodyForm::Man] {
        let wearers = people::wearers(form);
        let order = people::shuffled(wearers.len(), 3);
        bodies.extend(order.iter().take(10).map(|i| complete(&wearers[*i]).unwrap().0));
    }
    let woman = [
        (D::Stature, 1650.0),
        (D::BustGirth, 920.0),
        (D::UnderbustGirth, 790.0),
        (D::WaistGirth, 760.0),
        (D::HipGirth, 1000.0),
        (D::CrotchLength, 720.0),
    ];
    let child = [
        (D::Stature, 1280.0),
        (D::BustGirth, 640.0),
        (D::WaistGirth, 580.0),
        (D::HipGirth, 690.0),
        (D::CrotchLength, 530.0),
    ];
    bodies.push(complete(&people::wearer(BodyForm::Woman, &woman)).unwrap().0);
    bodies.push(complete(&people::wearer(BodyForm::Child, &child)).unwrap().0);
    bodies
        .iter()
        .map(|b| TorsoForm::of(b.form).unwrap().fitted(b).unwrap())
        .collect()
}

/// Convex hull length of a ring's points in x, z, by gift wrapping: another method than the crate's.
fn wrapped(points: &[[f64; 3]]) -> f64 {
    let flat: Vec<[f64; 2]> = points.iter().map(|p| [p[0], p[2]]).collect();
    let start = (0..flat.len())
        .min_by(|a, b| flat[*a][0].total_cmp(&flat[*b][0]))
        .unwrap();
    let (mut at, mut length) = (start, 0.0);
    for _ in 0..flat.len() {
        let mut next = usize::from(at == 0);
        for k in 0..flat.len() {
            let (p, q, r) = (flat[at], flat[next], flat[k]);
            let turn = (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
            if k != at && turn < 0.0 {
                next = k;
            }
        }
        let (p, q) = (flat[at], flat[next]);
        length += ((q[0] - p[0]).powi(2) + (q[1] - p[1]).powi(2)).sqrt();
        at = next;
        if at == start {
            break;
        }
    }
    length
}

fn levels(form: &FittedForm) -> Vec<Level> {
    form.levels().into_iter().map(|(level, _)| level).collect()
}

const fn dimension(level: Level) -> Option<D> {
    Some(match level {
        Level::Bust => D::BustGirth,
        Level::Underbust => D::UnderbustGirth,
        Level::Waist | Level::Navel => D::WaistGirth,
        Level::HighHip => D::HighHipGirth,
        Level::Hip => D::HipGirth,
        Level::Thigh => D::ThighGirth,
        _ => return None,
    })
}

/// The ring at a level has the girth that was asked within half a millimetre. Its points span a polygon inscribed in
/// the section: 64 points lose pi^2 / (6 x 64^2) = 0.04 per cent of a circle, more at the corners of a heavy bust; 1
/// per cent is allowed.
#[test]
fn a_ring_at_a_level_has_the_girth_asked() {
    let mut checked = 0;
    for form in forms() {
        let rings = form.rings(40, &levels(&form));
        for m in form.measures() {
            let of = |ring: &&Ring| ring.level.and_then(dimension) == Some(m.dimension);
            for ring in rings.iter().filter(of) {
                assert!(
                    (ring.girth_mm - m.asked_mm).abs() < 0.5,
                    "{m:?} {}",
                    ring.girth_mm
                );
                let drawn = wrapped(&ring.points);
                assert!(
                    drawn <= ring.girth_mm + 1e-6 && drawn > 0.99 * m.asked_mm,
                    "{m:?} {drawn}"
                );
                checked += 1;
            }
        }
    }
    assert!(checked > 22 * 5, "{checked}");
}

#[test]
fn each_level_has_one_height_and_heights_rise() {
    for form in forms() {
        let wanted = levels(&form);
        let rings = form.rings(40, &wanted);
        for &level in &wanted {
            let at: Vec<&Ring> = rings.iter().filter(|r| r.level == Some(level)).collect();
            // At the crotch itself the legs may just meet, or just not.
            match level {
                Level::Thigh => assert_eq!(at.len(), 2),
                Level::Crotch => assert!((1..=2).contains(&at.len())),
                _ => assert_eq!(at.len(), 1, "{level:?} {:?}", form.form()),
            }
            if level != Level::NeckBase {
                assert!(at.iter().all(|r| r.y_mm == form.level_height(level)));
            }
        }
        let (neck, plain) = rings.split_last().unwrap();
        assert_eq!(neck.level, Some(Level::NeckBase));
        assert!(plain.windows(2).all(|w| w[0].y_mm <= w[1].y_mm));
        let mut heights: Vec<f64> = plain.iter().map(|r| r.y_mm).collect();
        heights.dedup();
        assert!((36..=48).contains(&heights.len()), "{}", heights.len());
        // No gap is wider than half as much again as without levels.
        let even = (heights[heights.len() - 1] - heights[0]) / 39.0;
        assert!(heights.windows(2).all(|w| w[1] - w[0] < 1.5 * even + 1e-9));
        // Without levels the spacing is even.
        let mut even: Vec<f64> = form.rings(25, &[]).iter().map(|r| r.y_mm).collect();
        even.dedup();
        assert_eq!(even.len(), 25);
        assert!(even.windows(3).all(|w| (w[2] - 2.0 * w[1] + w[0]).abs() < 1e-9));
    }
}

#[test]
fn rings_start_behind_run_over_the_left_and_are_evenly_spaced() {
    for form in forms() {
        for ring in form.rings(60, &levels(&form)) {
            let p = &ring.points;
            assert_eq!(p.len(), RING_POINTS);
            assert!(p.iter().flatten().all(|x| x.is_finite()));
            match ring.part {
                RingPart::Trunk => assert!(p[0][0].abs() < 1e-9 && p[1][0] > 0.0, "{:?}", &p[..2]),
                RingPart::Left => assert!(p.iter().all(|p| p[0] > -1.0)),
                RingPart::Right => assert!(p.iter().all(|p| p[0] < 1.0)),
            }
            let next = p.iter().cycle().skip(1);
            let area: f64 = p.iter().zip(next).map(|(a, b)| a[0] * b[2] - b[0] * a[2]).sum();
            assert!(area > 0.0, "clockwise at {}", ring.y_mm);
            // Steps along the ring are equal; straight chords over its corners are a little shorter, never longer.
            let chord = |a: [f64; 3], b: [f64; 3]| (0..3).map(|i| (b[i] - a[i]).powi(2)).sum::<f64>().sqrt();
            let chords: Vec<f64> = p
                .iter()
                .zip(p.iter().cycle().skip(1))
                .map(|(a, b)| chord(*a, *b))
                .collect();
            let longest = chords.iter().fold(0.0, |m: f64, c| m.max(*c));
            let mean = chords.iter().sum::<f64>() / chords.len() as f64;
            assert!(longest < 1.15 * mean, "{longest} over {mean} at {}", ring.y_mm);
        }
    }
}

#[test]
fn the_trunk_is_one_ring_at_every_height_and_the_legs_are_two() {
    for form in forms() {
        let (low, high) = (
            form.rings(2, &[])[0].y_mm,
            form.rings(2, &[]).last().unwrap().y_mm,
        );
        let armscye = form.tape_path(D::ArmscyeGirth).unwrap().points;
        let underarm = armscye.iter().fold(f64::INFINITY, |m, p| m.min(p[1]));
        let shoulder = armscye.iter().fold(f64::NEG_INFINITY, |m, p| m.max(p[1]));
        let mut y = low;
        while y < high {
            let parts: Vec<RingPart> = form.ring(y).iter().map(|r| r.part).collect();
            if y > 3.0 {
                assert_eq!(parts, [RingPart::Trunk], "{:?} at {y}", form.form());
                let bridged = form.ring(y)[0].bridged;
                // Just above its lowest point the stub of the arm is cut off as a ring of its own.
                if y > underarm + 15.0 && y < shoulder {
                    assert!(bridged, "open armscye at {y}");
                }
                if y < underarm {
                    assert!(!bridged, "bridged at {y}");
                }
            } else if y < -3.0 {
                assert_eq!(
                    parts,
                    [RingPart::Left, RingPart::Right],
                    "{:?} at {y}",
                    form.form()
                );
            }
            y += 3.7;
        }
        assert!(form.ring(high + 500.0).is_empty() && form.ring(f64::NAN).is_empty());
    }
}

/// Very heavy thighs pass the midline; there are still two.
#[test]
fn legs_that_cross_stay_two_rings() {
    let heavy = [
        (D::Stature, 1600.0),
        (D::BustGirth, 1400.0),
        (D::UnderbustGirth, 1250.0),
        (D::WaistGirth, 1350.0),
        (D::HipGirth, 1500.0),
        (D::ThighGirth, 900.0),
        (D::CrotchLength, 900.0),
    ];
    let body = complete(&people::wearer(BodyForm::Woman, &heavy)).unwrap().0;
    let form = TorsoForm::of(BodyForm::Woman).unwrap().fitted(&body).unwrap();
    let rings = form.ring(-60.0);
    let parts: Vec<RingPart> = rings.iter().map(|r| r.part).collect();
    assert_eq!(parts, [RingPart::Left, RingPart::Right]);
    let reach = rings[0].points.iter().fold(f64::INFINITY, |m, p| m.min(p[0]));
    assert!(reach < 0.0, "the legs don't cross: {reach}");
}

/// The straight line across an armscye can't reach further out than the open edge it joins.
#[test]
fn a_ring_goes_straight_across_the_armscye() {
    for form in forms() {
        let armscye = form.tape_path(D::ArmscyeGirth).unwrap();
        let out = armscye.points.iter().fold(0.0, |m: f64, p| m.max(p[0]));
        let middle = (form.level_height(Level::UpperChest) + form.level_height(Level::Shoulder)) / 2.0;
        let ring = &form.ring(middle)[0];
        let widest = ring.points.iter().fold(0.0, |m: f64, p| m.max(p[0]));
        assert!(widest <= out + 1e-9, "{widest} beyond {out}");
    }
}

#[test]
fn the_neck_base_is_drawn_with_its_own_girth() {
    for form in forms() {
        let ring = form.neck_base().unwrap();
        let closed: f64 = ring
            .points
            .iter()
            .zip(ring.points.iter().cycle().skip(1))
            .map(|(a, b)| (0..3).map(|i| (b[i] - a[i]).powi(2)).sum::<f64>().sqrt())
            .sum();
        assert!(
            (closed / ring.girth_mm - 1.0).abs() < 0.01,
            "{closed} {}",
            ring.girth_mm
        );
        // Much smaller than the form's own curve, whose mean is a third too large.
        assert!(ring.girth_mm < form.measure(body::FormMeasure::NeckBaseGirth));
    }
}

fn length(points: &[[f64; 3]], closed: bool) -> f64 {
    let step = |a: &[f64; 3], b: &[f64; 3]| (0..3).map(|i| (b[i] - a[i]).powi(2)).sum::<f64>().sqrt();
    let open: f64 = points.windows(2).map(|w| step(&w[0], &w[1])).sum();
    match (points.first(), points.last()) {
        (Some(first), Some(last)) if closed => open + step(last, first),
        _ => open,
    }
}

/// What is drawn is what was measured.
#[test]
fn a_tape_line_is_as_long_as_its_measure() {
    let heights = [D::SideLength, D::WaistToHip];
    for form in forms() {
        for m in form.measures() {
            let path = form.tape_path(m.dimension).unwrap();
            let drawn = length(&path.points, path.closed);
            if heights.contains(&m.dimension) {
                // On the skin, where the measure is the height difference.
                let rise = path.points[0][1] - path.points.last().unwrap()[1];
                assert!((rise - m.closed_mm).abs() < 1e-9 && drawn >= rise, "{m:?}");
            } else {
                assert!((drawn - m.closed_mm).abs() < 1e-6, "{m:?} drawn {drawn}");
            }
        }
    }
}

#[test]
fn dimensions_without_a_place_have_no_line() {
    let form = &forms()[0];
    for d in D::ALL {
        let none = [
            D::Stature,
            D::ShoulderGirth,
            D::UpperArmGirth,
            D::WristGirth,
            D::AcrossBack,
            D::AcrossFront,
            D::ArmLength,
            D::CrotchHeight,
            D::WaistHeight,
        ]
        .contains(&d);
        let path = form.tape_path(d);
        assert_eq!(path.is_none(), none, "{d:?}");
        if let Some(path) = path {
            assert!(
                path.points.len() >= 2 && path.points.iter().flatten().all(|x| x.is_finite()),
                "{d:?}"
            );
        }
    }
    // The crotch tape starts at the waist in front and ends behind at the same height.
    let crotch = form.tape_path(D::CrotchLength).unwrap().points;
    let (first, last) = (crotch[0], crotch[crotch.len() - 1]);
    assert!(first[2] > last[2] && (first[1] - last[1]).abs() < 1e-9);
    let front = form.tape_path(D::CrotchLengthFront).unwrap().points;
    assert_eq!(front[0], first);
    // Shoulder to waist lines run down.
    for d in [
        D::BackWaistLength,
        D::FrontWaistLength,
        D::SideNeckToBustPoint,
        D::SideLength,
        D::RiseHeight,
    ] {
        let p = form.tape_path(d).unwrap().points;
        assert!(p[0][1] > p[p.len() - 1][1], "{d:?}");
    }
}
