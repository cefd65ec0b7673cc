//! The tops against recorded lengths and control points of five invented women in two cloths.
//!
//! Source of the numbers: own regression values (data/draft), not measured garments. Tolerance 0.2 mm, 0.5 cm^2, as for the block.

use serde_json::Value;

use crate::check_values::{control_points, factors, measures, plan, values};
use crate::factors::Factors;
use crate::geometry::Curve;
use crate::{Design, Draft, OpeningKind, Style};

const LENGTH_TOLERANCE_MM: f64 = 0.2;
const WOMEN: [&str; 5] = ["petite", "average", "tall", "plus", "large_cup"];

fn suit(body: &str, cloth: &str, style: Style) -> Draft {
    let file = values();
    let c = &file["cloths"][cloth];
    let plan = plan(c["sx"].as_f64().unwrap(), c["sy"].as_f64().unwrap());
    // DIFFERENCE: the record takes the cloth's stretch off the lengths of a top as off a suit's. Held against it so, the construction is the
    // record's; that a top we give out is not shortened is tested with the styles.
    let design = Design::of(style);
    crate::draft::draft_by(&measures(body), &plan, &design, &Factors::new(&plan, design.fit)).unwrap()
}

fn edge<'a>(suit: &'a Draft, piece: &str, edge: &str) -> &'a Curve {
    let piece = suit.pieces.iter().find(|p| p.key == piece).unwrap();
    &piece.edge(edge).unwrap().curve
}

/// DIFFERENCE: the recorded crop and halter stretch their lengths by the trunk loop's factor (1.0006 on this body); a top is not held by
/// the crotch and takes its lengths as they were measured, 0.24 mm less at the shoulder.
const UNTIED_MM: f64 = 0.3;

fn assert_curve(ours: &Curve, recorded: &Value, up: f64, name: &str) {
    assert_within(ours, recorded, up, LENGTH_TOLERANCE_MM, name);
}

fn assert_within(ours: &Curve, recorded: &Value, up: f64, tolerance: f64, name: &str) {
    let cubics = recorded.as_array().unwrap();
    assert_eq!(ours.cubics().len(), cubics.len(), "{name}: number of cubics");
    for (c, r) in ours.cubics().iter().zip(cubics) {
        for (p, q) in [c.p0, c.p1, c.p2, c.p3].iter().zip(r.as_array().unwrap()) {
            let q = (q[0].as_f64().unwrap(), q[1].as_f64().unwrap() + up);
            let off = (p.x - q.0).hypot(p.y - q.1);
            assert!(off < tolerance, "{name}: {p} is {off:.3} mm from {q:?}");
        }
    }
}

fn near(ours: f64, recorded: &Value, tolerance: f64, what: &str) {
    let theirs = recorded.as_f64().unwrap();
    assert!(
        (ours - theirs).abs() <= tolerance,
        "{what} is {ours}, recorded {theirs}"
    );
}

#[test]
fn bandeau_lengths_and_control_points() {
    let file = values();
    for body in WOMEN {
        for cloth in ["soft", "firm"] {
            let want = &file["values"][body][cloth]["bandeau"];
            let ours = suit(body, cloth, Style::BANDEAU);
            for (piece, name, key) in [
                ("front", "side", "side"),
                ("back", "side", "side"),
                ("front", "top", "top_front"),
                ("back", "top", "top_back"),
                ("front", "bottom", "bottom_front"),
                ("back", "bottom", "bottom_back"),
            ] {
                let length = edge(&ours, piece, name).length();
                near(
                    length,
                    &want[key],
                    LENGTH_TOLERANCE_MM,
                    &format!("{body} {cloth} {key}"),
                );
            }
        }
    }
    let ours = suit("average", "soft", Style::BANDEAU);
    let m = measures("average");
    // The record is drawn about the bust point.
    let up = (m.front_waist - m.side_neck_to_bust_point) * factors("soft").y(0.75);
    let file = control_points();
    for piece in ["front", "back"] {
        for name in ["bottom", "top"] {
            let recorded = &file["bandeau_average_soft"][piece][name];
            assert_curve(edge(&ours, piece, name), recorded, up, &format!("{piece} {name}"));
        }
    }
}

#[test]
fn triangle_lengths_area_and_control_points() {
    let file = values();
    for body in WOMEN {
        for cloth in ["soft", "firm"] {
            let want = &file["values"][body][cloth]["triangle"];
            let ours = suit(body, cloth, Style::TRIANGLE_TOP);
            let base = ours
                .finished
                .iter()
                .find(|f| f.key == "cup_base")
                .unwrap()
                .value_mm;
            let what = |key: &str| format!("{body} {cloth} {key}");
            if measures(body).cup_difference() <= 140.0 {
                near(base, &want["base"], LENGTH_TOLERANCE_MM, &what("base"));
                for key in ["outer", "inner"] {
                    near(
                        edge(&ours, "front", key).length(),
                        &want[key],
                        LENGTH_TOLERANCE_MM,
                        &what(key),
                    );
                }
                let piece = ours.pieces.iter().find(|p| p.key == "front").unwrap();
                let area: f64 = piece.edges.iter().map(|e| e.curve.signed_area()).sum();
                near(area / 100.0, &want["area_cm2"], 0.5, &what("area"));
            } else {
                // DIFFERENCE: the record has no dart. Ours cuts the base wider by the intake, so that its sewn length stays; the wider
                // base bulges by the same share of a longer chord, which makes it up to half a millimetre longer.
                near(base, &want["base"], 0.6, &what("base"));
            }
        }
    }
    let ours = suit("average", "soft", Style::TRIANGLE_TOP);
    let file = control_points();
    for name in ["base", "outer", "inner"] {
        let recorded = &file["triangle_average_soft"][name];
        assert_curve(edge(&ours, "front", name), recorded, 0.0, name);
    }
}

#[test]
fn crop_band_way_in_and_control_points() {
    let file = values();
    for body in WOMEN {
        for cloth in ["soft", "firm"] {
            let want = &file["values"][body][cloth]["crop"];
            let ours = suit(body, cloth, Style::CROP_TOP);
            let what = |key: &str| format!("{body} {cloth} {key}");
            // DIFFERENCE: where up to 5 % more lets a band pass with 0.85 of the stretch, ours is cut so much longer.
            let stretch = file["cloths"][cloth]["sx"].as_f64().unwrap();
            let held = want["band_pattern"].as_f64().unwrap();
            let needed = want["passes"].as_f64().unwrap() / (1.0 + 0.85 * stretch);
            let is_longer = needed > held && needed <= 1.05 * held;
            let band = serde_json::json!(if is_longer { needed } else { held });
            let opening = ours
                .openings
                .iter()
                .find(|o| o.kind == OpeningKind::Band)
                .unwrap();
            near(opening.rest_mm, &band, LENGTH_TOLERANCE_MM, &what("band"));
            near(opening.passes_mm, &want["passes"], 0.01, &what("passes"));
            let share = (opening.passes_mm / opening.rest_mm - 1.0) / stretch;
            if is_longer {
                assert!((share - 0.85).abs() < 1e-9, "{}: {share}", what("way in"));
            } else {
                near(share, &want["way_in_share"], 0.001, &what("way in"));
            }
            near(
                2.0 * edge(&ours, "band", "lower").length(),
                &band,
                LENGTH_TOLERANCE_MM,
                &what("band piece"),
            );
        }
    }
    let ours = suit("average", "soft", Style::CROP_TOP);
    let file = control_points();
    for piece in ["front", "back"] {
        for name in ["bottom", "side", "armhole", "shoulder", "neck"] {
            let recorded = &file["crop_average_soft"][piece][name];
            assert_within(
                edge(&ours, piece, name),
                recorded,
                0.0,
                UNTIED_MM,
                &format!("{piece} {name}"),
            );
        }
    }
}

#[test]
fn halter_front_control_points() {
    let ours = suit("average", "soft", Style::HALTER_TOP);
    let file = control_points();
    for name in ["armhole", "strap_end", "neck"] {
        let recorded = &file["halter_front_average_soft"][name];
        assert_within(edge(&ours, "front", name), recorded, 0.0, UNTIED_MM, name);
    }
}
