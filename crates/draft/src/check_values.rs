//! The block against recorded control points and lengths of seven invented bodies in two cloths.
//!
//! Source of the numbers: own regression values (data/draft), not measured garments. Tolerance 0.2 mm, 0.5 cm^2: the
//! files' own rounding and a different root finder.

use body::{BodyForm, FrontTaken};
use cloth::{ClothPlan, Fit, Load};
use serde_json::Value;
use units::{Level, Mm, Stretch};

use crate::block::Depth;
use crate::block::{
    BackTop, Block, BlockShape, BustWork, FrontTop, Strap, UNDERBUST_WEIGHT, usual_drop, usual_half_crotch,
};
use crate::factors::Factors;
use crate::geometry::Curve;
use crate::measures::{Arm, Centre, Measures};
use crate::style::BriefHalves;
use crate::trunk;
use crate::{BustShaping, Design, Draft, OpenKind, OpeningKind, Piece, Rise, Skirt, SkirtJoin, SkirtKind};

pub(crate) const LENGTH_TOLERANCE_MM: f64 = 0.2;

pub(crate) use fixtures::{check_values as values, control_points};

pub(crate) fn measures(name: &str) -> Measures {
    let file = values();
    let b = &file["bodies"][name];
    let mm = |key: &str| b[key].as_f64().unwrap();
    let form = match b["sex"].as_str().unwrap() {
        "w" => BodyForm::Woman,
        "m" => BodyForm::Man,
        _ => BodyForm::Child,
    };
    Measures {
        form,
        age_years: None,
        is_navel: false,
        stature: mm("stature"),
        bust: mm("bust"),
        underbust: Some(mm("underbust")),
        waist: mm("waist"),
        high_hip: mm("high_hip"),
        hip: mm("hip"),
        neck_base: mm("neck_base"),
        thigh: mm("thigh"),
        back_waist: mm("bwl"),
        front_waist: mm("fwl"),
        front_taken: Some(FrontTaken::OverBustPoint),
        side_neck_to_bust_point: mm("snbp"),
        is_bust_point_taken: true,
        bust_point_distance: mm("bpd"),
        shoulder: mm("shoulder"),
        shoulder_girth: match form {
            // Source: our least squares on four fifths of ANSUR II, rms 30 and 29 mm; children 1.15 of the chest, own.
            BodyForm::Woman => 0.421 * mm("bust") + 2.13 * mm("shoulder") + 341.0,
            BodyForm::Man => 0.587 * mm("bust") + 1.774 * mm("shoulder") + 292.0,
            BodyForm::Child => 1.15 * mm("bust"),
        },
        side_length: mm("side_len"),
        waist_to_hip: mm("waist_hip"),
        rise_height: mm("rise_h"),
        crotch_length: mm("tcl"),
        front_share: if form == BodyForm::Man { 0.43 } else { 0.45 },
        trunk: Some(mm("vtc")),
        trust: None,
        centre: Centre {
            shoulder: mm("shoulder"),
            side_neck_to_bust_point: mm("snbp"),
        },
        figure: crate::Figure::NONE,
        arm: Arm {
            upper_girth: mm("upper_arm"),
            wrist_girth: mm("wrist"),
            length: mm("arm"),
            across_back: mm("ab"),
            across_front: mm("ac"),
        },
    }
}

pub(crate) fn plan(around: f64, lengthwise: f64) -> ClothPlan {
    ClothPlan::of_one_cloth(
        "check cloth",
        Stretch::from_ratio(around),
        Stretch::from_ratio(lengthwise),
        Load::Hand,
    )
}

pub(crate) fn factors(cloth: &str) -> Factors {
    factors_of(cloth, Fit::Regular)
}

pub(crate) fn factors_of(cloth: &str, fit: Fit) -> Factors {
    let file = values();
    let c = &file["cloths"][cloth];
    Factors::new(&plan(c["sx"].as_f64().unwrap(), c["sy"].as_f64().unwrap()), fit)
}

pub(crate) fn default_shape(m: &Measures) -> BlockShape {
    BlockShape {
        leg_share: 0.74,
        seat: -0.035,
        half_crotch: usual_half_crotch(m.form),
        drop: usual_drop(m.form),
        front_top: FrontTop::Scoop(Depth::Share(0.30)),
        back_top: BackTop::Scoop(Depth::Share(0.55)),
        strap: Strap {
            width: 38.0,
            position: 0.42,
        },
        bust: BustWork::Plain,
        underbust_weight: UNDERBUST_WEIGHT,
        has_way_in_rule: true,
        waist_passes: None,
    }
}

pub(crate) fn assert_curve(ours: &Curve, recorded: &Value, name: &str) {
    let cubics = recorded.as_array().unwrap();
    assert_eq!(ours.cubics().len(), cubics.len(), "{name}: number of cubics");
    for (c, r) in ours.cubics().iter().zip(cubics) {
        for (p, q) in [c.p0, c.p1, c.p2, c.p3].iter().zip(r.as_array().unwrap()) {
            let q = (q[0].as_f64().unwrap(), q[1].as_f64().unwrap());
            let off = (p.x - q.0).hypot(p.y - q.1);
            assert!(off < LENGTH_TOLERANCE_MM, "{name}: {p} is {off:.3} mm from {q:?}");
        }
    }
}

fn block(body: &str, cloth: &str, edit: impl Fn(&mut BlockShape, &Factors)) -> Block {
    let m = measures(body);
    let k = factors(cloth);
    let t = trunk::settle(&m, &mut Vec::new()).unwrap();
    let mut shape = default_shape(&m);
    edit(&mut shape, &k);
    Block::draw(&m, &k, &t, &shape).unwrap()
}

#[test]
fn one_piece_control_points() {
    for (case, body, cloth) in [
        ("one_piece_average_soft", "average", "soft"),
        ("one_piece_child8_firm", "child8", "firm"),
    ] {
        let block = block(body, cloth, |_, _| {});
        let file = control_points();
        for (half, name) in [(&block.front, "front"), (&block.back, "back")] {
            let r = &file[case][name];
            for (edge, curve) in [
                ("crotch", &half.crotch),
                ("leg", &half.leg),
                ("side", &half.side),
                ("armhole", &half.armhole),
                ("shoulder", &half.shoulder),
                ("neck", &half.neck),
                ("fold", &half.fold),
            ] {
                assert_curve(curve, &r[edge], &format!("{case} {name} {edge}"));
            }
        }
    }
}

#[test]
fn v_racer_high_cheeky_control_points() {
    let case = "one_piece_average_soft_v_racer_high_cheeky_strap45_pos0.3";
    let block = block("average", "soft", |shape, _| {
        shape.leg_share = 0.42;
        shape.seat = -0.13;
        shape.front_top = FrontTop::V(Depth::Share(0.30));
        shape.back_top = BackTop::Racer;
        shape.strap = Strap {
            width: 45.0,
            position: 0.3,
        };
    });
    let file = control_points();
    for (half, name) in [(&block.front, "front"), (&block.back, "back")] {
        for (edge, curve) in [
            ("leg", &half.leg),
            ("side", &half.side),
            ("armhole", &half.armhole),
            ("neck", &half.neck),
        ] {
            if name == "back" && edge == "leg" {
                continue; // compared below: its middle point depends on the seat value recorded as `cheeky`
            }
            assert_curve(curve, &file[case][name][edge], &format!("{name} {edge}"));
        }
    }
    assert_curve(&block.back.leg, &file[case]["back"]["leg"], "back leg");
}

#[test]
fn dart_control_points() {
    let block = block("large_cup", "soft", |shape, k| {
        shape.bust = BustWork::Dart(32.54 * k.y(1.0))
    });
    let dart = block.dart.unwrap();
    let file = control_points();
    let r = &file["one_piece_large_cup_soft_dart"]["front"];
    assert_curve(&dart.side_low, &r["side_low"], "side_low");
    assert_curve(&dart.side_up, &r["side_up"], "side_up");
    assert_curve(
        &Curve::line(dart.mouth_low, dart.point),
        &r["dart_low"],
        "dart_low",
    );
    assert_curve(&block.front.armhole, &r["armhole"], "armhole");
    assert_curve(&block.front.neck, &r["neck"], "neck");
}

#[test]
fn trunk_loop_cases() {
    let file: Value = serde_json::from_str(include_str!("../../../data/draft/invariants.json")).unwrap();
    let cases = file["invariants"]["loop_cases"].as_array().unwrap();
    assert!(cases.len() >= 10);
    for case in cases {
        let mut m = measures("average");
        m.trunk = case["vtc"].as_f64();
        if case["front"] == "estimated" {
            m.front_taken = None;
            m.front_waist =
                m.back_waist + 0.055 * m.neck_base + (0.25 * (m.cup_difference() - 100.0)).max(0.0);
        }
        let got = trunk::settle(&m, &mut Vec::new());
        if case["result"] == "refused" {
            assert!(got.is_err(), "{case}");
            continue;
        }
        let (got, want) = (got.unwrap(), &case["result"]);
        let near = |ours: f64, key: &str, tolerance: f64| {
            let theirs = want[key].as_f64().unwrap();
            assert!((ours - theirs).abs() <= tolerance, "{case}: {key} is {ours}");
        };
        near(got.residual_mm, "r", 0.01);
        near(got.bias_mm, "bias", 1e-9);
        near(got.solved_mm, "solved", 0.01);
        near(got.front_waist_mm, "front_waist_length", 0.01);
        near(got.q, "q", 1e-5);
        assert_eq!(got.is_capped, want["capped"].as_bool().unwrap(), "{case}");
    }
}

#[test]
fn one_piece_lengths_and_areas() {
    let file = values();
    let mut checked = 0;
    for (body, cloths) in file["values"].as_object().unwrap() {
        for (cloth, values) in cloths.as_object().unwrap() {
            let Some(want) = values.get("one_piece") else {
                continue;
            };
            let (dart, ease) = (
                want["dart_intake"].as_f64().unwrap(),
                want["ease_front"].as_f64().unwrap(),
            );
            let block = block(body, cloth, |shape, _| {
                if dart > 0.0 {
                    shape.bust = BustWork::Dart(dart);
                } else if ease > 0.0 {
                    shape.bust = BustWork::Ease(ease);
                }
            });
            let near = |ours: f64, key: &str, tolerance: f64| {
                let theirs = want[key].as_f64().unwrap();
                assert!(
                    (ours - theirs).abs() <= tolerance,
                    "{body} {cloth}: {key} is {ours}, recorded {theirs}"
                );
            };
            let (f, b) = (&block.front, &block.back);
            near(f.side.length(), "side_front", LENGTH_TOLERANCE_MM);
            near(b.side.length(), "side_back", LENGTH_TOLERANCE_MM);
            near(f.fold.length(), "cf_fold", LENGTH_TOLERANCE_MM);
            near(b.fold.length(), "cb_fold", LENGTH_TOLERANCE_MM);
            near(f.neck.length(), "neck_front", LENGTH_TOLERANCE_MM);
            near(b.neck.length(), "neck_back", LENGTH_TOLERANCE_MM);
            near(f.armhole.length(), "armhole_front", LENGTH_TOLERANCE_MM);
            near(b.armhole.length(), "armhole_back", LENGTH_TOLERANCE_MM);
            near(f.leg.length(), "leg_front", LENGTH_TOLERANCE_MM);
            near(b.leg.length(), "leg_back", LENGTH_TOLERANCE_MM);
            near(
                f.strap_mid.y + b.strap_mid.y - f.fold.end().y - b.fold.end().y,
                "loop",
                LENGTH_TOLERANCE_MM,
            );
            if dart == 0.0 {
                for (half, key) in [(f, "area_half_front_cm2"), (b, "area_half_back_cm2")] {
                    let area: f64 = [
                        &half.crotch,
                        &half.leg,
                        &half.side,
                        &half.armhole,
                        &half.shoulder,
                        &half.neck,
                        &half.fold,
                    ]
                    .iter()
                    .map(|c| c.signed_area())
                    .sum();
                    near(area / 100.0, key, 0.5);
                }
            }
            checked += 1;
        }
    }
    assert_eq!(checked, 12, "six bodies in two cloths have a one-piece on record");
}

#[test]
fn brief_lengths_areas_and_control_points() {
    let file = values();
    let mut checked = 0;
    for (body, cloths) in file["values"].as_object().unwrap() {
        for (cloth, values) in cloths.as_object().unwrap() {
            let Some(want) = values.get("bottoms_mid") else {
                continue;
            };
            let block = block(body, cloth, |_, _| {});
            let cut = BriefHalves::cut(&block, Rise::Mid).unwrap();
            let near = |ours: f64, key: &str, tolerance: f64| {
                let theirs = want[key].as_f64().unwrap();
                assert!(
                    (ours - theirs).abs() <= tolerance,
                    "{body} {cloth}: {key} is {ours}, recorded {theirs}"
                );
            };
            near(cut.front_side.length(), "side", LENGTH_TOLERANCE_MM);
            near(cut.back_side.length(), "side", LENGTH_TOLERANCE_MM);
            near(cut.front_top.length(), "top_front", LENGTH_TOLERANCE_MM);
            near(cut.back_top.length(), "top_back", LENGTH_TOLERANCE_MM);
            near(
                cut.front_top.end().y - block.front.crotch.start().y,
                "cf",
                LENGTH_TOLERANCE_MM,
            );
            near(
                cut.back_top.end().y - block.back.crotch.start().y,
                "cb",
                LENGTH_TOLERANCE_MM,
            );
            for (half, side, top, key) in [
                (
                    &block.front,
                    &cut.front_side,
                    &cut.front_top,
                    "area_half_front_cm2",
                ),
                (&block.back, &cut.back_side, &cut.back_top, "area_half_back_cm2"),
            ] {
                let fold = Curve::line(top.end(), half.crotch.start());
                let area: f64 = [&half.crotch, &half.leg, side, top, &fold]
                    .iter()
                    .map(|c| c.signed_area())
                    .sum();
                near(area / 100.0, key, 0.5);
            }
            checked += 1;
        }
    }
    assert_eq!(checked, 12);

    let block = block("average", "soft", |_, _| {});
    let cut = BriefHalves::cut(&block, Rise::Mid).unwrap();
    let file = control_points();
    let case = &file["bottoms_mid_average_soft"];
    assert_curve(&cut.front_side, &case["front"]["side"], "brief front side");
    assert_curve(&cut.front_top, &case["front"]["top"], "brief front top");
    assert_curve(&cut.back_side, &case["back"]["side"], "brief back side");
    assert_curve(&cut.back_top, &case["back"]["top"], "brief back top");
}

fn suit(body: &str, cloth: &str, design: &Design) -> Draft {
    let file = values();
    let c = &file["cloths"][cloth];
    let plan = plan(c["sx"].as_f64().unwrap(), c["sy"].as_f64().unwrap());
    let m = measures(body);
    crate::draft::draft_measures(&m, &plan, design).unwrap()
}

fn area_cm2(piece: &Piece) -> f64 {
    piece.edges.iter().map(|e| e.curve.signed_area()).sum::<f64>() / 100.0
}

#[test]
fn crotch_linings_skirts_and_princess_seams() {
    let file = values();
    for (body, cloths) in file["values"].as_object().unwrap() {
        for (cloth, values) in cloths.as_object().unwrap() {
            let Some(want) = values.get("crotch_lining") else {
                continue;
            };
            let near = |ours: f64, theirs: &Value, tolerance: f64, what: &str| {
                let theirs = theirs.as_f64().unwrap();
                assert!(
                    (ours - theirs).abs() <= tolerance,
                    "{body} {cloth}: {what} is {ours}, recorded {theirs}"
                );
            };
            let plain = suit(body, cloth, &Design::default());
            let lining = plain.pieces.iter().find(|p| p.key == "crotch_lining").unwrap();
            let height = |name: &str| lining.edge(name).unwrap().curve.start().y;
            near(
                height("front_end") - height("back_end"),
                &want["length"],
                LENGTH_TOLERANCE_MM,
                "lining length",
            );
            near(area_cm2(lining), &want["area_half_cm2"], 0.5, "lining area");

            for (key, kind, join) in [
                ("skirt_circle_waist", SkirtKind::FullCircle, SkirtJoin::Waist),
                ("skirt_half_waist", SkirtKind::HalfCircle, SkirtJoin::Waist),
            ] {
                let want = &values[key];
                let skirt = Some(Skirt {
                    kind,
                    join,
                    cover: Mm::new(40.0),
                });
                let skirted = suit(
                    body,
                    cloth,
                    &Design {
                        skirt,
                        ..Design::default()
                    },
                );
                let piece = skirted.pieces.iter().find(|p| p.key == "skirt").unwrap();
                near(
                    piece.edge("side").unwrap().curve.length(),
                    &want["length"],
                    LENGTH_TOLERANCE_MM,
                    "skirt length",
                );
                // DIFFERENCE: in firm cloth our suit's waist is widened to pass the hips, and the skirt with it; the
                // recorded skirt is not, and would be shorter than the edge it joins.
                if cloth == "soft" || body == "plus" {
                    let top = 4.0 * piece.edge("top").unwrap().curve.length();
                    near(top, &want["seam_girth"], LENGTH_TOLERANCE_MM, "skirt join");
                    near(
                        piece.edge("hem").unwrap().curve.length(),
                        &want["hem_half_panel"],
                        0.2,
                        "skirt hem",
                    );
                    near(area_cm2(piece), &want["area_half_panel_cm2"], 0.5, "skirt area");
                }
            }
        }
    }
    let want = &file["extra"]["princess_large_cup_soft"];
    let princess = Design {
        bust_shaping: BustShaping::Princess,
        ..Design::default()
    };
    let princess = suit("large_cup", "soft", &princess);
    for (name, key) in [
        ("princess, leg to bust", "low"),
        ("princess, bust to armhole", "up"),
    ] {
        let walk = princess.seams.iter().find(|s| s.name == name).unwrap();
        assert!(
            (walk.first_mm - want[key][0].as_f64().unwrap()).abs() < LENGTH_TOLERANCE_MM,
            "{name}"
        );
        assert!(
            (walk.second_mm - want[key][1].as_f64().unwrap()).abs() < LENGTH_TOLERANCE_MM,
            "{name}"
        );
    }
    let points = control_points();
    for (piece, part) in [("centre_front", "centre"), ("side_front", "side")] {
        let ours = princess.pieces.iter().find(|p| p.key == piece).unwrap();
        for edge in ["princess_low", "princess_up", "armhole", "leg"] {
            let recorded = &points["princess_large_cup_soft"][part][edge];
            // DIFFERENCE: ours moves the whole upper side panel by the 0.6 mm that turning leaves open at the dart's mouth, so that
            // its side and armhole keep their lengths; the record stretches the first cubic of the side instead.
            if piece == "side_front" && matches!(edge, "princess_up" | "armhole") {
                continue;
            }
            assert_curve(
                &ours.edge(edge).unwrap().curve,
                recorded,
                &format!("{piece} {edge}"),
            );
        }
    }
}

#[test]
fn arcs_and_openings() {
    let file = values();
    for (body, cloths) in file["values"].as_object().unwrap() {
        for (cloth, values) in cloths.as_object().unwrap() {
            let Some(want) = values.get("one_piece") else {
                continue;
            };
            let ours = suit(body, cloth, &Design::default());
            let leg = ours.open_edges.iter().find(|e| e.kind == OpenKind::Leg).unwrap();
            for arc in &leg.arcs {
                let key = if arc.name == "crotch" {
                    "crotch_zone"
                } else {
                    arc.name
                };
                let recorded = want["leg_arcs"][key].as_f64().unwrap();
                assert!(
                    (arc.length_mm - recorded).abs() < LENGTH_TOLERANCE_MM,
                    "{body} {cloth} leg {key}"
                );
            }
            let c = &file["cloths"][cloth];
            let (sx, sy) = (c["sx"].as_f64().unwrap(), c["sy"].as_f64().unwrap());
            for (kind, key) in [
                (OpeningKind::Waist, "waist"),
                (OpeningKind::NecklineRing, "neckline"),
                (OpeningKind::Leg, "leg"),
            ] {
                let o = ours.openings.iter().find(|o| o.kind == kind).unwrap();
                let stretch = sx * o.around_share + sy * (1.0 - o.around_share);
                let share = (o.passes_mm / o.rest_mm - 1.0) / stretch;
                let recorded = want["way_in"][key].as_f64().unwrap();
                assert!(
                    (share.max(0.0) - recorded.max(0.0)).abs() < 0.002,
                    "{body} {cloth} way in {key}: {share} {recorded}"
                );
            }
            if let Some(recorded) = want["underbust_worn_ext"].as_f64()
                && let Some(l) = ours.levels.iter().find(|l| l.level == Level::Underbust)
            {
                let worn = l.body_mm / l.pattern_mm - 1.0;
                assert!(
                    (worn - recorded).abs() < 0.0005,
                    "{body} {cloth} under-bust {worn} {recorded}"
                );
            }
        }
    }
}
