//! Plans and booklets of the example suits, in preset workrooms and in any: no step before what it needs, every step told, and a
//! class's edition with no figure of the wearer's.
#![allow(clippy::unwrap_used, reason = "tests")]

use booklet::{Choice, Edition};
use draft::OpenEdge;
use make::{Machine, MachineKind, Making, OverlockThreads, Preset, Stitch, Workroom};
use proptest::prelude::*;
use studio::hand_out::{booklet_of, plan_with_lays};
use studio::laying::Lays;
use studio::order::{Order, work_out};
use studio::suit_file::{SuitFile, read_text};
use studio::workroom_file::Room;
use units::{LengthUnit, Mm};
use words::{Language, Words};

const EXAMPLES: [&str; 7] = [
    include_str!("../../../examples/ines-one-piece.toml"),
    include_str!("../../../examples/ines-sun-suit.toml"),
    include_str!("../../../examples/maren-one-piece.toml"),
    include_str!("../../../examples/odile-skirted.toml"),
    include_str!("../../../examples/odile-v-neck.toml"),
    include_str!("../../../examples/tove-brief.toml"),
    include_str!("../../../examples/tove-square-neck.toml"),
];

fn examples() -> Vec<(SuitFile, Order)> {
    let worked = EXAMPLES.iter().map(|text| {
        let suit = read_text("example.toml", text).unwrap();
        let order = work_out(&suit).unwrap();
        (suit, order)
    });
    worked.collect()
}

/// A plan is a list in an order: every step comes after all it needs, so the graph of needs has no ring.
fn stands_in_order(plan: &Making) {
    assert!(plan.steps.len() > 10);
    for (at, step) in plan.steps.iter().enumerate() {
        for need in &step.needs {
            assert!(*need < at, "{} stands before {}", step.id, plan.steps[*need].id);
        }
        assert!(!step.id.ends_with("other"), "{} has no role of its own", step.id);
    }
}

#[test]
fn every_example_is_planned_in_every_preset_workroom() {
    for (suit, order) in examples() {
        for preset in Preset::ALL {
            let (plan, shopping) = plan_with_lays(&suit, &order, &Room::of(preset), &[]);
            stands_in_order(&plan);
            assert!(shopping.lines.len() > 4);
            let is_safe = plan.stitches.iter().all(|s| s.is_safe);
            assert!(
                is_safe || preset == Preset::StraightOnly,
                "{} {preset:?}",
                suit.name
            );
        }
    }
}

fn any_machine() -> impl Strategy<Value = Machine> {
    let utility = prop::collection::vec(
        prop::sample::select(vec![Stitch::ThreeStep, Stitch::TripleStraight, Stitch::Slanted]),
        0..3,
    );
    let lockstitch = (2.0..9.0_f64, utility, any::<bool>()).prop_map(|(width, utility, has_twin)| {
        let mut machine = Machine::zigzag();
        machine.kind = MachineKind::Lockstitch {
            most_width: Mm::new(width),
            utility,
            twin_needle: has_twin.then_some(Mm::new(4.0)),
        };
        machine
    });
    let overlocker = any::<bool>().prop_map(|four| {
        let mut machine = Machine::overlocker();
        let threads = if four {
            OverlockThreads::ThreeOrFour
        } else {
            OverlockThreads::Three
        };
        machine.kind = MachineKind::Overlocker { threads };
        machine
    });
    prop_oneof![
        lockstitch,
        overlocker,
        Just(Machine::coverstitch()),
        Just(Machine::straight())
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, rng_seed: prop::test_runner::RngSeed::Fixed(8), ..Default::default() })]

    /// Any machines, none included.
    #[test]
    fn every_example_is_planned_in_any_workroom(machines in prop::collection::vec(any_machine(), 0..4)) {
        let room = Room { workroom: Workroom::of(machines), ..Room::of(Preset::Zigzag) };
        for (suit, order) in examples_once() {
            stands_in_order(&plan_with_lays(suit, order, &room, &[]).0);
        }
    }
}

fn examples_once() -> &'static [(SuitFile, Order)] {
    static ONCE: std::sync::LazyLock<Vec<(SuitFile, Order)>> = std::sync::LazyLock::new(examples);
    &ONCE
}

/// The wearers' figures, as their own makers read them in their own edition, are not in the class's.
#[test]
fn a_class_is_told_nothing_of_the_example_wearers() {
    for (suit, order) in examples_once() {
        let room = Room::of(Preset::ZigzagOverlocker);
        let mut own: Vec<f64> = body::Dimension::ALL
            .into_iter()
            .filter_map(|d| order.body.mm(d))
            .collect();
        own.extend(order.draft.finished.iter().map(|f| f.value_mm));
        own.extend(order.draft.open_edges.iter().map(OpenEdge::length_mm));
        own.extend(order.draft.levels.iter().flat_map(|l| [l.body_mm, l.pattern_mm]));
        own.extend(order.elastic.iter().map(|e| e.cut_length.get()));
        for language in Language::ALL {
            let words = Words::new(language);
            let text = |edition| {
                let document = booklet_of(suit, order, &room, &Lays::default(), Choice { edition, language });
                serde_json::to_string(&document).unwrap()
            };
            let (maker, class) = (text(Edition::Maker), text(Edition::Class));
            assert!(
                !class.contains(&suit.wearer.name) && !class.contains(&order.version),
                "{}",
                suit.name
            );
            let least = if suit.units == LengthUnit::Cm { 30.0 } else { 150.0 };
            let figures: Vec<String> = own
                .iter()
                .filter(|mm| **mm > least)
                .map(|mm| words.length(*mm, suit.units).main)
                .collect();
            let tells = |text: &str, figure: &String| {
                text.match_indices(figure.as_str()).any(|(at, _)| {
                    !text[..at].ends_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | ','))
                })
            };
            let found = figures.iter().filter(|f| tells(&maker, f)).count();
            assert!(found > 15, "{}: the maker is told {found}", suit.name);
            let leaked: Vec<&String> = figures.iter().filter(|f| tells(&class, f)).collect();
            assert!(leaked.is_empty(), "{}: {leaked:?}", suit.name);
        }
    }
}
