//! Laws of the elastic and the cut list on any edge: sums, marks, and that a stronger elastic is never cut shorter.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod suit;

use cloth::Layer;
use draft::{Draft, OpenKind};
use make::{ElasticChoice, ElasticKind, cut_list, elastic, elastic_to_buy};
use proptest::prelude::*;
use suit::{cloths, edge, empty, level, level_curve, piece};
use units::{Level, Mm};

const NAMES: [&str; 6] = ["crotch", "front", "side", "back", "strap", "underarm"];

fn any_edge() -> impl Strategy<Value = draft::OpenEdge> {
    let kind = prop::sample::select(vec![
        OpenKind::Leg,
        OpenKind::Waist,
        OpenKind::Neckline,
        OpenKind::Armhole,
    ]);
    let arcs = prop::collection::vec((prop::sample::select(NAMES.to_vec()), 5.0..600.0_f64), 1..7);
    (kind, any::<bool>(), 60.0..200.0_f64, arcs)
        .prop_map(|(kind, is_ring, radius, arcs)| edge(kind, is_ring, radius, &arcs))
}

fn any_choice() -> impl Strategy<Value = ElasticChoice> {
    let kind = prop::sample::select(ElasticKind::ALL.to_vec());
    (kind, 3.0..50.0_f64, prop::option::of(0.1..60.0_f64))
        .prop_map(|(kind, width, k)| ElasticChoice::new(kind, Mm::new(width), k, None, None).unwrap())
}

fn one(edge: draft::OpenEdge, meant: f64) -> Draft {
    Draft {
        open_edges: vec![edge],
        levels: vec![level(Level::Hip, -180.0, meant)],
        ..empty()
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: prop::test_runner::RngSeed::Fixed(20), ..Default::default() })]

    /// Elastic of the arcs and the lap make the cut length; marks are the running sums; arcs keep their lengths and order.
    #[test]
    fn arcs_marks_and_lap_add_up(edge in any_edge(), choice in any_choice(), meant in 0.0..0.4_f64) {
        let plan = &elastic(&one(edge.clone(), meant), &choice)[0];
        prop_assert_eq!(plan.arcs.len(), edge.arcs.len());
        let (mut along_edge, mut along_elastic) = (0.0, 0.0);
        for (arc, drafted) in plan.arcs.iter().zip(&edge.arcs) {
            prop_assert_eq!((arc.name, arc.letter), (drafted.name, drafted.letter));
            prop_assert!((arc.edge.get() - drafted.length_mm).abs() < 1e-9);
            prop_assert!((arc.edge_mark.get() - along_edge).abs() < 1e-9);
            prop_assert!((arc.elastic_mark.get() - along_elastic).abs() < 1e-9);
            prop_assert!((0.8..=1.0).contains(&arc.ratio), "ratio {}", arc.ratio);
            along_edge += drafted.length_mm;
            along_elastic += arc.elastic.get();
        }
        prop_assert!((along_edge - edge.length_mm()).abs() < 1e-9);
        let lap = if edge.is_ring { 12.0 } else { 0.0 };
        prop_assert!((plan.cut_length.get() - along_elastic - lap).abs() < 1e-9);
        prop_assert!(plan.mean_ratio() <= 1.0 + 1e-12 && plan.mean_ratio() >= 0.8);
    }

    /// A stronger elastic is never cut shorter, a measured pull on the back of the leg never passes the cap unless it lies
    /// 1:1, and a measured elastic is never cut shorter than one that was not measured.
    #[test]
    fn a_stronger_elastic_is_never_cut_shorter(
        back in 50.0..400.0_f64, radius in 60.0..160.0_f64, meant in 0.0..0.4_f64,
        k in 0.1..50.0_f64, stronger in 1.0..4.0_f64, width in 3.0..20.0_f64,
    ) {
        let leg = one(edge(OpenKind::Leg, true, radius, &[("front", 300.0), ("back", back)]), meant);
        let ratio = |k: Option<f64>| {
            let choice = ElasticChoice::new(ElasticKind::Knitted, Mm::new(width), k, None, None).unwrap();
            elastic(&leg, &choice)[0].arcs[1].ratio
        };
        let (usual, soft, strong) = (ratio(None), ratio(Some(k)), ratio(Some(k * stronger)));
        prop_assert!(usual <= soft && soft <= strong);
        let worn = (1.0 + meant).max(std::f64::consts::TAU * radius / (300.0 + back));
        let cap = 2.0 * width * radius * 1e-3;
        prop_assert!(soft == 1.0 || k * (worn / soft - 1.0) <= cap + 1e-9);
    }

    /// What is bought covers what is cut, the extra and the test, in quarter metres, and by less than one more of them.
    #[test]
    fn what_is_bought_is_enough(edges in prop::collection::vec(any_edge(), 1..6), choice in any_choice()) {
        let draft = Draft { open_edges: edges, ..empty() };
        let plans = elastic(&draft, &choice);
        let buys = elastic_to_buy(&plans);
        prop_assert_eq!(buys.len(), 1);
        let net: f64 = plans.iter().map(|p| p.cut_length.get() * f64::from(p.count)).sum();
        prop_assert!((buys[0].net.get() - net).abs() < 1e-6);
        let wanted = net * 1.1 + 200.0;
        let bought = buys[0].to_buy.get();
        prop_assert!(bought >= wanted - 0.001 && bought < wanted + 250.0);
        prop_assert!((bought / 250.0).fract() == 0.0);
    }
}

/// Every piece once per layer, shell first, in cutting order; each with its cloth's name.
#[test]
fn the_cut_list_has_every_piece_of_every_layer() {
    let make =
        |key, letter, layers: &[Layer]| piece(key, letter, layers, OpenKind::Leg, level_curve(0.0), 9.0);
    let draft = Draft {
        pieces: vec![
            make("front", 'A', &[Layer::Lining, Layer::Shell]),
            make("back", 'B', &[Layer::Shell]),
            make("crotch_lining", 'C', &[Layer::Lining]),
        ],
        ..empty()
    };
    let rows = cut_list(&draft, &cloths(true));
    let said: Vec<String> = rows
        .iter()
        .map(|r| format!("{} {} {} {}", r.letter, r.piece, r.layer.name(), r.cloth))
        .collect();
    assert_eq!(
        said,
        [
            "A front shell Slate tricot",
            "B back shell Slate tricot",
            "A front lining Oat lining",
            "C crotch_lining lining Oat lining",
        ]
    );
    let rows = cut_list(&draft, &cloths(false));
    assert_eq!(rows[3].cloth, "no lining chosen");
}
