//! The section over every example and every preset of machines: nothing empty, nothing unsaid, nothing lost.

use std::collections::BTreeSet;

use make::{Preset, ScrapKind};
use serde_json::{Value as Json, json};
use units::LengthUnit;
use words::{Language, Words};

use super::plan::planned_in;
use super::*;
use crate::document::{Linked, Paper, work};
use crate::view::examples::{example, names, with};
use crate::view::{Around, lay, paper, scrap_start, shape, try_on, why};
use crate::workroom_file::Room;

/// Every `why` anywhere in a view.
fn keys(value: &Json, found: &mut Vec<String>) {
    match value {
        Json::Object(map) => {
            if let Some(key) = map.get("why").and_then(Json::as_str) {
                found.push(key.to_owned());
            }
            map.values().for_each(|v| keys(v, found));
        }
        Json::Array(list) => list.iter().for_each(|v| keys(v, found)),
        _ => {}
    }
}

/// Every text anywhere in a view.
fn texts(value: &Json, found: &mut Vec<String>) {
    match value {
        Json::String(text) => found.push(text.clone()),
        Json::Object(map) => map.values().for_each(|v| texts(v, found)),
        Json::Array(list) => list.iter().for_each(|v| texts(v, found)),
        _ => {}
    }
}

fn view_on(worked: &Worked, preset: Preset, words: &Words) -> SewView {
    let (order, planned) = planned_in(worked, &Room::of(preset)).unwrap();
    view_of(worked, order, &planned, Teller::new(words, worked.unit()))
}

#[test]
fn every_number_that_can_be_asked_why_answers() {
    for name in names() {
        let worked = example(&name);
        let views = json!([
            lay::view(&worked, &[]),
            view(&worked),
            paper::view(&worked, None),
            try_on::view(&worked, &Around::default())
        ]);
        let mut found = Vec::new();
        keys(&views, &mut found);
        assert!(found.iter().any(|k| k.starts_with("sew.need.")), "{name}");
        assert!(found.iter().any(|k| k.starts_with("sew.extension.")), "{name}");
        for key in found {
            let answer = why(&worked, &key).unwrap_or_else(|| panic!("{name}: {key}"));
            assert!(!answer.answer.is_empty() && !answer.source.is_empty(), "{key}");
            assert!(!answer.question.contains('‹'), "{key}: {}", answer.question);
        }
    }
}

/// Whatever the machines: steps, stitches, scraps and edges are there, and both languages have a word for everything.
#[test]
fn every_example_on_every_preset_is_said_whole_in_both_languages() {
    let languages = Language::ALL.map(Words::new);
    for name in names() {
        let worked = example(&name);
        for preset in Preset::ALL {
            for words in &languages {
                let view = view_on(&worked, preset, words);
                let at = format!("{name}, {preset:?}, {:?}", words.language());
                assert!(view.steps.len() > 12, "{at}: {} steps", view.steps.len());
                assert!(!view.stitches.is_empty() && !view.scraps.is_empty(), "{at}");
                assert!(!view.edges.is_empty(), "{at}");
                let mut said = Vec::new();
                texts(&json!(view), &mut said);
                for text in said {
                    assert!(!text.contains('‹') && !text.contains("{$"), "{at}: {text}");
                }
                for step in &view.steps {
                    for text in [&step.title, &step.says, &step.phase, &step.minutes, &step.drawing] {
                        assert!(!text.trim().is_empty(), "{at}: {}", step.id);
                    }
                }
            }
        }
    }
}

/// Every step draws pieces of this suit with edges they have, or says why it draws none.
#[test]
fn every_step_has_a_drawing_or_says_why_not() {
    let words = Words::new(Language::English);
    for name in names() {
        let worked = example(&name);
        let pieces = shape::view(&worked).pieces;
        let view = view_on(&worked, Preset::Zigzag, &words);
        for step in &view.steps {
            let is_bare = step.drawing.starts_with("No drawing: ");
            assert_eq!(
                is_bare,
                step.hands.is_empty(),
                "{name}: {}: {}",
                step.id,
                step.drawing
            );
            for hand in &step.hands {
                let piece = pieces.iter().find(|p| p.key == hand.piece);
                let piece = piece.unwrap_or_else(|| panic!("{name}: {} draws {}", step.id, hand.piece));
                for edge in hand.sewn.iter().chain(&hand.handled) {
                    let is_there = piece.edges.iter().any(|e| e.name == *edge);
                    assert!(is_there, "{name}: {} draws {edge} of {}", step.id, hand.piece);
                }
            }
        }
        let seams = view.steps.iter().filter(|s| s.id.starts_with("join."));
        let drawn = seams.filter(|s| {
            s.hands
                .iter()
                .any(|h| !h.sewn.is_empty() || !h.handled.is_empty())
        });
        assert!(drawn.count() >= 2, "{name}");
    }
}

/// A tick is found by its id: each id once, and none that hides another under it.
#[test]
fn steps_have_ids_that_do_not_hide_each_other() {
    for name in names() {
        let view = view(&example(&name));
        let at = |id: &str| view.steps.iter().position(|s| s.id == id);
        for (i, step) in view.steps.iter().enumerate() {
            assert_eq!(at(&step.id), Some(i), "{name}: {} twice", step.id);
            let inside = |other: &str| other.starts_with(&format!("{}.", step.id));
            assert!(
                !view.steps.iter().any(|s| inside(&s.id)),
                "{name}: {} hides another tick",
                step.id
            );
        }
    }
}

/// Ticks kept before the plan came from crate `make` stand at the same step. Ids as they were given then.
#[test]
fn ticks_of_older_suits_are_found_again() {
    let common = [
        "wash",
        "prove",
        "try_on.basted",
        "elastic.leg",
        "turn.leg",
        "rinse",
        "inspect",
        "try_on.finished",
    ];
    let of_example: [(&str, &[&str]); 3] = [
        (
            "maren-one-piece",
            &[
                "cut.front",
                "cut.back",
                "cut.front_lining",
                "cut.back_lining",
                "join.crotch",
                "join.side",
                "join.shoulder",
                "join.lining_crotch",
                "join.lining_side",
                "join.lining_shoulder",
                "join.together",
                "elastic.neckline",
                "elastic.armhole",
                "turn.neckline",
                "turn.armhole",
            ],
        ),
        (
            "odile-skirted",
            &[
                "cut.centre_front",
                "cut.side_front",
                "cut.back",
                "cut.skirt",
                "cut.cup_pocket",
                "join.princess",
                "join.crotch",
                "join.side",
                "join.skirt_side",
                "join.skirt",
                "join.shoulder",
                "join.lining_princess",
                "join.cups",
                "join.lining_crotch",
                "join.lining_side",
                "join.lining_shoulder",
                "join.together",
                "elastic.neckline",
                "turn.neckline",
            ],
        ),
        (
            "tove-brief",
            &[
                "join.crotch",
                "join.side",
                "join.together",
                "elastic.waist",
                "turn.waist",
            ],
        ),
    ];
    for (name, own) in of_example {
        let mut sewn = serde_json::Map::new();
        for id in common.iter().chain(own) {
            sewn.insert((*id).to_owned(), json!(true));
        }
        let ticked = with(&example(name), "suit", |suit| suit["sewn"] = Json::Object(sewn));
        let view = view(&ticked);
        let done: BTreeSet<&str> = view
            .steps
            .iter()
            .filter(|s| s.done)
            .map(|s| s.id.as_str())
            .collect();
        let meant: BTreeSet<&str> = common.iter().chain(own).copied().collect();
        assert_eq!(done, meant, "{name}");
    }
}

#[test]
fn a_tick_moves_the_step_at_hand() {
    let worked = example("maren-one-piece");
    let first = view(&worked);
    assert_eq!(first.now, Some(0));
    let ticked = with(&worked, "suit", |suit| {
        suit["sewn"] = json!({"wash": true, "cut": {"front": true}, "cut.back": true});
    });
    let view = view(&ticked);
    let done: BTreeSet<&str> = view
        .steps
        .iter()
        .filter(|s| s.done)
        .map(|s| s.id.as_str())
        .collect();
    assert_eq!(done, BTreeSet::from(["cut.back", "cut.front", "wash"]));
    let now = view.steps.get(view.now.unwrap()).unwrap();
    assert!(
        !now.done && view.head.summary.contains(&now.title),
        "{}",
        view.head.summary
    );
}

/// What is sewn follows the design at once: the lining's seams, the cups, the skirt come and go with it.
#[test]
fn a_choice_of_the_design_changes_the_order() {
    let worked = example("maren-one-piece");
    let ids = |view: &SewView| view.steps.iter().map(|s| s.id.clone()).collect::<BTreeSet<_>>();
    let lined = ids(&view(&worked));
    let bare = ids(&view(&with(&worked, "suit", |suit| {
        suit["design"]["lining"] = json!("none")
    })));
    let gone: Vec<&String> = lined.difference(&bare).collect();
    assert!(gone.iter().any(|id| *id == "join.lining_side"), "{gone:?}");
    assert!(gone.iter().any(|id| *id == "join.together"), "{gone:?}");
    let skirted = ids(&view(&with(&worked, "suit", |suit| {
        suit["design"]["skirt"] = json!({"kind": "flared-panel"});
    })));
    let come: Vec<&String> = skirted.difference(&lined).collect();
    assert!(come.iter().any(|id| *id == "join.skirt"), "{come:?}");
}

/// Without a machine that stretches, the pages must say so plainly, and what could be done.
#[test]
fn a_straight_stitch_alone_is_a_stop_with_a_way_out() {
    let words = Words::new(Language::English);
    for name in names() {
        let worked = example(&name);
        let view = view_on(&worked, Preset::StraightOnly, &words);
        let stops: Vec<&Note> = view
            .head
            .notes
            .iter()
            .filter(|n| n.state == State::Stop)
            .collect();
        let told = stops
            .iter()
            .filter(|n| n.says.contains("cannot be sewn safely"))
            .count();
        assert_eq!(told, 1, "{name}: {stops:?}");
        assert!(
            view.cannot.len() >= 2 && view.cannot[1].contains("zigzag machine"),
            "{:?}",
            view.cannot
        );
        assert!(
            view.stitches
                .iter()
                .any(|s| s.state == State::Stop && !s.could.is_empty()),
            "{name}"
        );
        assert!(view.steps.iter().any(|s| !s.stop.is_empty()), "{name}");
        let zigzag = view_on(&worked, Preset::Zigzag, &words);
        assert!(zigzag.cannot.is_empty(), "{name}: {:?}", zigzag.cannot);
        let adds = zigzag.head.notes.iter().filter(|n| n.state == State::How);
        assert!(
            adds.filter(|n| n.says.contains("an overlocker")).count() == 1,
            "{name}"
        );
    }
}

/// Marks run from the first to the last; what is cut is the sum of the arcs and the lap.
#[test]
fn the_elastic_map_adds_up() {
    for name in names() {
        let worked = example(&name);
        let (_, planned) = planned(&worked).unwrap();
        let view = view(&worked);
        assert_eq!(view.edges.len(), planned.making().edges.len(), "{name}");
        for (edge, elastic) in view.edges.iter().zip(&planned.making().edges) {
            let plan = &elastic.plan;
            let sum: f64 = edge.arcs.iter().map(|a| a.elastic_mm).sum();
            assert!(
                (sum + plan.overlap.get() - plan.cut_length.get()).abs() < 1e-6,
                "{name} {}",
                edge.key
            );
            let marks: Vec<f64> = plan.arcs.iter().map(|a| a.elastic_mark.get()).collect();
            assert!(
                marks.windows(2).all(|w| w[0] < w[1]),
                "{name} {}: {marks:?}",
                edge.key
            );
            assert_eq!(edge.worn.len(), 2 + usize::from(elastic.pressure_kpa.is_some()));
            assert_eq!(
                edge.relative.is_empty(),
                elastic.is_force_measured,
                "{name} {}",
                edge.key
            );
            assert_eq!(edge.ring.is_some(), elastic.ring.is_some());
        }
        for step in view.steps.iter().filter(|s| s.id.starts_with("elastic.")) {
            assert!(!step.edges.is_empty(), "{name}: {}", step.id);
            for key in &step.edges {
                assert!(
                    view.edges.iter().any(|e| e.key == *key),
                    "{name}: {} {key}",
                    step.id
                );
            }
        }
    }
}

/// The sample book finds a scrap by its place in the plan, and says the same of it.
#[test]
fn a_scrap_is_begun_in_the_sample_book_by_its_place() {
    for name in names() {
        let worked = example(&name);
        let plan = worked.plan().unwrap();
        let view = view(&worked);
        assert!(view.scraps.iter().any(|s| s.pull_to.is_some()), "{name}");
        for scrap in view.scraps {
            let start = scrap_start(&worked, &plan, scrap.place).unwrap();
            // A kind of elastic has a trade name there and the language's name here.
            let is_elastic = plan.making.scraps[scrap.place].kind == ScrapKind::Elastic;
            assert!(is_elastic || start.says == scrap.says, "{name}: {}", scrap.says);
        }
    }
}

#[test]
fn a_stock_that_is_no_length_is_asked_for_again() {
    let worked = example("maren-one-piece");
    let elastic = Paper {
        id: "elastic".into(),
        kind: "elastic",
        revision: 1,
        body: json!({"name": "Rubber", "kind": "braided-rubber", "width": "8 mm", "stock": "a roll"}),
    };
    let with_stock = work(
        worked.suit.clone(),
        Linked {
            elastic: Some(elastic),
            ..worked.linked()
        },
    );
    let view = view(&with_stock);
    assert!(view.to_buy[0].in_hand.is_none());
    let note = view
        .head
        .notes
        .iter()
        .find(|n| n.field.as_deref() == Some("stock"));
    assert_eq!(note.unwrap().state, State::Doubtful);
}

/// Machine settings stay in millimetres; lengths follow her unit.
#[test]
fn an_inch_maker_reads_inches_along_the_cloth_and_millimetres_on_the_dial() {
    let words = Words::new(Language::English);
    let worked = example("maren-one-piece");
    let (order, planned) = planned_in(&worked, &Room::of(Preset::Zigzag)).unwrap();
    let view = view_of(&worked, order, &planned, Teller::new(&words, LengthUnit::In));
    let leg = view.steps.iter().find(|s| s.id == "elastic.leg").unwrap();
    assert_eq!(leg.settings[0].value.unit, "mm");
    let cut = leg
        .settings
        .iter()
        .find(|s| s.name.starts_with("Elastic, cut"))
        .unwrap();
    assert_eq!(cut.value.unit, "in", "{cut:?}");
}
