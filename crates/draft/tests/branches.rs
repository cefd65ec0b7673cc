//! A draft says which ways it took: where it does not, lengths grow evenly with the body.
#![allow(clippy::unwrap_used, reason = "a test may panic")]

use std::collections::BTreeMap;

use body::{Body, Dimension, complete};
use draft::{Design, Draft, Style, draft};
use units::Mm;

fn keys(suit: &Draft) -> Vec<&'static str> {
    suit.branches.iter().map(|b| b.key).collect()
}

#[test]
fn ways_are_named_where_they_are_taken() {
    let cloth = fixtures::cloth(85.0, 60.0);
    let on = |name: &str, style: Style| draft(&fixtures::body(name), &cloth, &Design::of(style)).unwrap();
    // Bust length differences on record: none to speak of on the average body, over 45 mm on the large cup.
    assert!(!keys(&on("average", Style::ONE_PIECE)).contains(&"dart"));
    assert!(keys(&on("large_cup", Style::ONE_PIECE)).contains(&"dart"));
    // 35 mm of dart in the base of each triangle from 140 mm bust less under-bust on, for each 100 mm more.
    assert!(!keys(&on("petite", Style::TRIANGLE_TOP)).contains(&"base_dart"));
    assert!(keys(&on("large_cup", Style::TRIANGLE_TOP)).contains(&"base_dart"));
    for style in Style::all() {
        for name in ["average", "man", "child8"] {
            let body = fixtures::body(name);
            if !style.is_for(body.form) {
                continue;
            }
            let suit = draft(&body, &cloth, &Design::of(*style)).unwrap();
            let mut sorted = keys(&suit);
            sorted.dedup();
            assert_eq!(
                sorted,
                keys(&suit),
                "{style:?}: a way stands twice or out of order"
            );
            for branch in &suit.branches {
                assert!(
                    branch.says.starts_with("has ") || branch.says.starts_with("eases "),
                    "{branch:?} does not follow a size's name"
                );
            }
        }
    }
}

/// The average woman, one dimension changed.
fn with(dimension: Dimension, mm: f64) -> Option<Body> {
    let body = fixtures::body("average");
    let mut wearer = fixtures::recorded("average");
    wearer.taken.set(dimension, Mm::new(mm));
    // The loop follows, so that it stays in agreement with its parts.
    if dimension == Dimension::FrontWaistLength {
        let more = mm - body.mm(dimension).unwrap();
        let trunk = body.mm(Dimension::TrunkCircumference).unwrap();
        wearer
            .taken
            .set(Dimension::TrunkCircumference, Mm::new(trunk + more));
    }
    Some(complete(&wearer).ok()?.0)
}

/// Own limit, mm: from one step of 4 mm on the body to the next a length may grow by this much more or less.
const BEND_MM: f64 = 0.5;
/// The lower a sleeve cap of a given length, the faster its height falls, and the sleeve's seam with it, without any rule that parts.
const LEFT_OUT: [&str; 2] = ["cap_height", "sleeve_length"];

#[test]
fn lengths_bend_only_where_a_way_begins_or_ends() {
    let cloth = fixtures::cloth(85.0, 60.0);
    let mut bends = 0;
    for style in [
        Style::ONE_PIECE,
        Style::BRIEF,
        Style::CROP_TOP,
        Style::SWIM_SHORTS,
        Style::RASH_TOP,
        Style::TRIANGLE_TOP,
        Style::BANDEAU,
    ] {
        for (dimension, from) in [
            (Dimension::BustGirth, 860.0),
            (Dimension::WaistGirth, 650.0),
            (Dimension::HipGirth, 920.0),
            (Dimension::ShoulderLength, 80.0),
            (Dimension::FrontWaistLength, 400.0),
            (Dimension::SideLength, 180.0),
            (Dimension::CrotchLength, 660.0),
            (Dimension::ThighGirth, 520.0),
        ] {
            let suits: Vec<Option<Draft>> = (0..40)
                .map(|i| {
                    let body = with(dimension, from + 4.0 * f64::from(i));
                    draft(&body?, &cloth, &Design::of(style)).ok()
                })
                .collect();
            for three in suits.windows(3) {
                let [Some(a), Some(b), Some(c)] = three else {
                    continue;
                };
                let of = |suit: &Draft| -> BTreeMap<&'static str, f64> {
                    suit.finished.iter().map(|f| (f.key, f.value_mm)).collect()
                };
                let (a_mm, b_mm, c_mm) = (of(a), of(b), of(c));
                for (key, mid) in b_mm.iter().filter(|(key, _)| !LEFT_OUT.contains(key)) {
                    let (Some(low), Some(high)) = (a_mm.get(key), c_mm.get(key)) else {
                        continue;
                    };
                    let bend = (high - mid) - (mid - low);
                    if bend.abs() <= BEND_MM {
                        continue;
                    }
                    bends += 1;
                    assert!(
                        keys(a) != keys(b) || keys(b) != keys(c),
                        "{style:?}, {dimension:?} {}: {key} bends by {bend:.2} mm and no way is named: {:?}",
                        b.levels.first().map_or(0.0, |l| l.body_mm),
                        keys(b)
                    );
                }
            }
        }
    }
    assert!(
        bends > 10,
        "only {bends}: the steps no longer reach where ways part"
    );
}
