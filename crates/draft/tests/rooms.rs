//! What a suit makes room for: prosthesis and cup on one side, motifs of a print, a belly, a stoma.
//!
//! Bodies: the invented ones of data/draft. Values: the pieces' own geometry.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test reads its data from files"
)]

use cloth::Fit;
use draft::geometry::{Curve, point_in_polygon, x_spans};
use draft::*;
use fixtures::{body, cloth};
use kurbo::Point;
use units::{Mm, Severity};

const STYLES: [Style; 3] = [Style::ONE_PIECE, Style::HALTER_ONE_PIECE, Style::SWIM_DRESS];

fn set(design: &mut Design, key: &str, setting: Setting) {
    let parameter = design.style.own(key).unwrap();
    design.own.set(parameter, setting);
}

fn lined(style: Style) -> Design {
    Design {
        lining: LiningCover::Front,
        ..Design::of(style)
    }
}

fn suit(name: &str, design: &Design) -> Draft {
    draft(&body(name), &cloth(85.0, 60.0), design).unwrap_or_else(|e| panic!("{name}: {e}"))
}

fn refused(design: &Design) -> Refusal {
    draft(&body("average"), &cloth(85.0, 60.0), design).unwrap_err()
}

fn field(refusal: &Refusal) -> &'static str {
    refusal.field().unwrap()
}

fn piece<'a>(suit: &'a Draft, key: &str) -> &'a Piece {
    suit.pieces.iter().find(|p| p.key == key).unwrap()
}

fn outline(piece: &Piece) -> Vec<Point> {
    piece.edges.iter().flat_map(|e| e.curve.flatten(0.05)).collect()
}

/// Placement lines whose words hold `text`.
fn placed<'a>(piece: &'a Piece, text: &str) -> Vec<&'a Curve> {
    piece
        .marks
        .iter()
        .filter_map(|m| match m {
            Mark::Placement { curve, text: says } if says.contains(text) => Some(curve),
            _ => None,
        })
        .collect()
}

/// Every new parameter at its usual value, and no belly, is the suit without them.
#[test]
fn usual_values_change_nothing() {
    for style in STYLES {
        let plain = Design::of(style);
        let mut usual = plain.clone();
        for key in [
            "cup_side",
            "prosthesis_pocket",
            "pocket_opening",
            "stoma",
            "stoma_from_centre",
            "stoma_below_waist",
            "stoma_opening",
            "pouch_width",
            "pouch_length",
            "motif_repeat",
        ] {
            let parameter = style.own(key).unwrap();
            usual.own.set(parameter, parameter.usual());
        }
        usual.figure.belly = Mm::ZERO;
        assert_eq!(suit("average", &plain), suit("average", &usual));
        let keys: Vec<_> = suit("average", &plain)
            .pieces
            .into_iter()
            .map(|p| p.key)
            .collect();
        assert!(!keys.iter().any(|k| k.contains("pocket")), "{keys:?}");
    }
}

#[test]
fn a_prosthesis_pocket_is_cut_for_one_side_or_both() {
    for style in STYLES {
        for (word, count) in [("left", 1), ("right", 1), ("both", 2)] {
            let mut design = lined(style);
            set(&mut design, "prosthesis_pocket", Setting::Word(word));
            for name in ["average", "plus"] {
                let suit = suit(name, &design);
                let pocket = piece(&suit, "prosthesis_pocket");
                assert_eq!(pocket.cuts[0].count, count);
                assert_eq!(pocket.cuts[0].mirrored, count == 2);
                let front = piece(&suit, "front_lining");
                let marks = placed(front, "prosthesis pocket");
                assert_eq!(marks.len(), 1);
                // The mark is the pocket's own seam line.
                let sewn: f64 = pocket.edges.iter().map(|e| e.curve.length()).sum();
                assert!((marks[0].length() - sewn).abs() < 1e-6);
                assert!(placed(piece(&suit, "front"), "prosthesis").is_empty());
            }
        }
        let mut bare = Design::of(style);
        set(&mut bare, "prosthesis_pocket", Setting::Word("left"));
        assert_eq!(field(&refused(&bare)), "prosthesis_pocket");
        bare.lining = LiningCover::Full;
        bare.cups = Cups::Pocket;
        assert_eq!(field(&refused(&bare)), "prosthesis_pocket");
    }
}

#[test]
fn a_cup_on_one_side_is_one_cup() {
    for style in STYLES {
        let mut design = lined(style);
        design.cups = Cups::Pocket;
        let pair = suit("average", &design);
        set(&mut design, "cup_side", Setting::Word("right"));
        let one = suit("average", &design);
        assert_eq!(piece(&pair, "cup_pocket").cuts[0].count, 2);
        assert_eq!(piece(&one, "cup_pocket").cuts[0].count, 1);
        assert_eq!(piece(&one, "cup_pocket").edges, piece(&pair, "cup_pocket").edges);
        assert_eq!(placed(piece(&one, "front_lining"), "right only").len(), 1);
    }
}

#[test]
fn motifs_keep_off_bust_and_seat_and_meet_at_one_side() {
    let mut design = Design::of(Style::ONE_PIECE);
    let plain = suit("average", &design);
    set(&mut design, "motif_repeat", Setting::Length(Mm::new(320.0)));
    let suit = suit("average", &design);
    let (front, back) = (piece(&suit, "front"), piece(&suit, "back"));
    let bust = front
        .marks
        .iter()
        .find_map(|m| match m {
            Mark::Cross { at, text } if text == "bust point" => Some(*at),
            _ => None,
        })
        .unwrap();
    let ring = placed(front, "bust: no motif");
    assert_eq!(ring.len(), 1);
    for p in ring[0].flatten(0.1) {
        // Chords of a 48-gon lie 0.06 mm inside their circle.
        assert!(((p - bust).hypot() - 25.0).abs() < 0.06);
    }
    let centre = placed(front, "centre a motif")[0];
    let neck = front.edge("neck").unwrap().curve.end().y;
    assert!((centre.start().y - bust.y.min(neck - 40.0)).abs() < 1e-9 && centre.start().x == 0.0);
    let seat = placed(back, "seat: no motif");
    assert_eq!(seat.len(), 1);
    assert!(
        seat[0]
            .flatten(0.1)
            .iter()
            .all(|&p| point_in_polygon(&outline(back), p))
    );
    // Half widths at the waist, read off the pieces.
    let half = |p: &Piece| x_spans(&outline(p), 0.0).last().unwrap().1;
    let twice = (2.0 * (half(front) + half(back))).rem_euclid(320.0);
    let said = suit.findings.iter().find(|f| f.code == "motif.lay").unwrap();
    assert!((said.value.unwrap() - twice.min(320.0 - twice)).abs() < 0.2);
    // Nothing but marks changes.
    for (a, b) in suit.pieces.iter().zip(&plain.pieces) {
        assert_eq!(
            (&a.edges, &a.cut_line, &a.notches),
            (&b.edges, &b.cut_line, &b.notches)
        );
    }
    set(&mut design, "motif_repeat", Setting::Length(Mm::new(30.0)));
    assert_eq!(field(&refused(&design)), "motif_repeat");
}

#[test]
fn tops_and_briefs_take_a_motif_too() {
    for style in [
        Style::CROP_TOP,
        Style::HALTER_TOP,
        Style::BANDEAU,
        Style::TANKINI,
        Style::BRIEF,
        Style::TWO_PIECE,
    ] {
        let mut design = Design::of(style);
        set(&mut design, "motif_repeat", Setting::Length(Mm::new(240.0)));
        let suit = suit("average", &design);
        let marks: usize = suit.pieces.iter().map(|p| placed(p, "motif").len()).sum();
        assert!(marks > 0, "{}", style.key());
        assert!(suit.findings.iter().any(|f| f.code == "motif.lay"));
    }
}

fn with_belly(style: Style, mm: f64) -> Design {
    let mut design = Design::of(style);
    design.figure.belly = Mm::new(mm);
    design
}

#[test]
fn a_belly_lengthens_the_front_alone() {
    for style in STYLES {
        for name in ["petite", "average", "plus", "large_cup"] {
            for mm in [15.0, 35.0, 60.0] {
                let plain = suit(name, &lined(style));
                let mut design = with_belly(style, mm);
                design.lining = LiningCover::Front;
                let suit = suit(name, &design);
                let trunk = suit.trunk.unwrap();
                let extra = trunk.drafted_mm.unwrap() - plain.trunk.unwrap().drafted_mm.unwrap();
                // Lengthwise factor of a regular fit, 1 / (1 + 0.10 x 0.60), and the trunk loop's own.
                assert!((extra - mm * trunk.q / 1.06).abs() < 1e-6, "{name} {mm}: {extra}");
                let fold = |s: &Draft, key| piece(s, key).edge("fold").unwrap().curve.length();
                for key in ["front", "front_lining"] {
                    assert!((fold(&suit, key) - fold(&plain, key) - extra).abs() < 1e-6);
                    // Leg and crotch only move down.
                    for edge in ["leg", "crotch"] {
                        let (a, b) = (
                            piece(&suit, key).edge(edge).unwrap(),
                            piece(&plain, key).edge(edge).unwrap(),
                        );
                        assert!(
                            (a.curve.length() - b.curve.length()).abs() < 0.5,
                            "{name} {key} {edge}"
                        );
                        assert!((b.curve.start().y - a.curve.start().y - extra).abs() < 1e-6);
                    }
                }
                let back = (piece(&suit, "back"), piece(&plain, "back"));
                assert_eq!(
                    (&back.0.edges, &back.0.cut_line),
                    (&back.1.edges, &back.1.cut_line)
                );
                let walk = |s: &Draft| s.seams.iter().find(|s| s.name == "side").unwrap().clone();
                let (after, before) = (walk(&suit), walk(&plain));
                assert_eq!(after.second_mm, before.second_mm);
                let gathered = after.sewn_ease_mm - before.sewn_ease_mm;
                assert!(
                    gathered > 0.9 * extra && gathered < extra + 20.0,
                    "{name} {mm}: {gathered}"
                );
                let side: f64 = after
                    .first
                    .1
                    .iter()
                    .map(|e| piece(&suit, "front").edge(e).unwrap().curve.length())
                    .sum();
                assert!((side - after.first_mm).abs() < 1e-6 && after.error_mm().abs() < 0.5);
                for key in ["front", "back"] {
                    let keys: Vec<_> = piece(&suit, key).notches.iter().map(|n| n.key).collect();
                    assert!(keys.contains(&"belly_low") && keys.contains(&"waist"), "{keys:?}");
                }
                let said = suit.findings.iter().find(|f| f.code == "figure.belly").unwrap();
                assert!(said.severity == Severity::Watch && said.remedy.contains("midwife or doctor"));
                assert!(said.message.contains("on purpose"));
            }
        }
    }
}

/// The leg still leaves the side as it did, and the side runs on over the waist without a corner.
#[test]
fn a_belly_makes_no_corner() {
    let (plain, grown) = (
        suit("average", &Design::default()),
        suit("average", &with_belly(Style::ONE_PIECE, 60.0)),
    );
    let start = |s: &Draft| piece(s, "front").edge("side").unwrap().curve.start_tangent();
    assert!(start(&plain).dot(start(&grown)) > 0.99999);
    let side = &piece(&grown, "front").edge("side").unwrap().curve;
    for pair in side.cubics().windows(2) {
        let (a, b) = (pair[0].p3 - pair[0].p2, pair[1].p1 - pair[1].p0);
        let turn = a.cross(b).atan2(a.dot(b)).to_degrees();
        assert!(turn.abs() < 0.5, "{turn}");
    }
}

#[test]
fn a_belly_is_refused_where_it_cannot_be() {
    let mut design = with_belly(Style::ONE_PIECE, 61.0);
    assert_eq!(field(&refused(&design)), "belly");
    design = with_belly(Style::ONE_PIECE, 40.0);
    design.fit = Fit::Firm;
    assert_eq!(field(&refused(&design)), "fit");
    design = with_belly(Style::ONE_PIECE, 60.0);
    design.leg = LegHeight::ExtraHigh;
    assert_eq!(field(&refused(&design)), "belly");
    assert_eq!(field(&refused(&with_belly(Style::BRIEF, 20.0))), "belly");
    let mut seam = with_belly(Style::ONE_PIECE, 20.0);
    set(&mut seam, "seam_at", Setting::Word("waist"));
    assert_eq!(field(&refused(&seam)), "belly");
    let child = draft(
        &body("child8"),
        &cloth(85.0, 60.0),
        &with_belly(Style::ONE_PIECE, 20.0),
    );
    assert_eq!(field(&child.unwrap_err()), "belly");
}

#[test]
fn a_stoma_gets_an_opening_and_a_pocket_clear_of_elastic() {
    for style in STYLES {
        for word in ["left", "right"] {
            let mut design = lined(style);
            set(&mut design, "stoma", Setting::Word(word));
            for name in ["average", "plus"] {
                let suit = suit(name, &design);
                let front = piece(&suit, "front_lining");
                let opening = placed(front, "opening for the pouch");
                assert_eq!(opening.len(), 1);
                assert_eq!(placed(front, word).len(), 2);
                // A circle of 60 mm on lining that does not shrink: 0.03 % is a cubic's arc.
                let pi = std::f64::consts::PI;
                assert!(
                    (opening[0].length() - 60.0 * pi).abs() < 0.1,
                    "{}",
                    opening[0].length()
                );
                let place = opening[0].flatten(0.1);
                let middle_y = place.iter().map(|p| p.y).sum::<f64>() / place.len() as f64;
                // 40 mm below the waist, reduced lengthwise.
                assert!(middle_y < -30.0 && middle_y > -42.0, "{middle_y}");
                let sewn = placed(front, "pouch pocket")[0];
                let pocket = piece(&suit, "pouch_pocket");
                let round: f64 = pocket.edges.iter().map(|e| e.curve.length()).sum();
                assert!((sewn.length() - round).abs() < 1e-6);
                let edge = sewn.flatten(0.1);
                for p in &place {
                    assert!(point_in_polygon(&edge, *p));
                    for open in front.edges.iter().filter(|e| matches!(e.role, EdgeUse::Open(_))) {
                        assert!(open.curve.flatten(0.1).iter().all(|q| (*q - *p).hypot() >= 29.9));
                    }
                }
                assert!(edge.iter().all(|&p| point_in_polygon(&outline(front), p)));
                let ask = suit.findings.iter().find(|f| f.code == "stoma.ask").unwrap();
                assert!(ask.severity == Severity::Watch && ask.remedy.contains("stoma nurse"));
            }
        }
    }
}

#[test]
fn a_stoma_without_room_is_refused() {
    let stoma = |style| {
        let mut design = lined(style);
        set(&mut design, "stoma", Setting::Word("left"));
        design
    };
    let mut unlined = stoma(Style::ONE_PIECE);
    unlined.lining = LiningCover::Crotch;
    assert_eq!(field(&refused(&unlined)), "stoma");
    let mut central = stoma(Style::ONE_PIECE);
    set(&mut central, "stoma_from_centre", Setting::Length(Mm::new(25.0)));
    assert_eq!(field(&refused(&central)), "stoma_from_centre");
    let mut wide = stoma(Style::ONE_PIECE);
    set(&mut wide, "stoma_from_centre", Setting::Length(Mm::new(90.0)));
    set(&mut wide, "stoma_opening", Setting::Length(Mm::new(100.0)));
    assert_eq!(field(&refused(&wide)), "stoma_opening");
    // A high leg comes near: first the pocket does not fit, then, made small, the opening has no room beside the elastic.
    let mut high = stoma(Style::ONE_PIECE);
    high.leg = LegHeight::ExtraHigh;
    set(&mut high, "stoma_from_centre", Setting::Length(Mm::new(110.0)));
    assert_eq!(field(&refused(&high)), "pouch_length");
    set(&mut high, "stoma_below_waist", Setting::Length(Mm::new(20.0)));
    set(&mut high, "stoma_opening", Setting::Length(Mm::new(30.0)));
    set(&mut high, "pouch_width", Setting::Length(Mm::new(70.0)));
    set(&mut high, "pouch_length", Setting::Length(Mm::new(100.0)));
    assert!(["stoma", "pouch_length"].contains(&field(&refused(&high))));
    let mut near = stoma(Style::ONE_PIECE);
    set(&mut near, "pouch_length", Setting::Length(Mm::new(220.0)));
    match draft(&body("average"), &cloth(85.0, 60.0), &near) {
        Ok(suit) => assert!(suit.findings.iter().any(|f| f.code == "stoma.edge_near")),
        Err(refusal) => assert_eq!(field(&refusal), "pouch_length"),
    }
}
