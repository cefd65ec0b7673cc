//! What the section says of the examples, and of examples with one thing wrong.

use serde_json::json;

use super::*;
use crate::document::{Linked, work};
use crate::view::examples::{example, names, with};

fn seen(worked: &Worked) -> ClothView {
    view(worked, &Around::default())
}

#[test]
fn marens_cloths_read_as_they_were_pulled() {
    let view = seen(&example("maren-one-piece"));
    assert_eq!(view.head.summary, "Shell and lining, tested together.");
    let layers: Vec<&str> = view.layers.iter().map(|l| l.layer.as_str()).collect();
    assert_eq!(layers, ["shell", "lining"]);
    let shell = view.layers[0].swatch.as_ref().unwrap();
    assert_eq!(shell.name, "Slate tricot");
    assert_eq!(shell.about, "Shell. 190 g/m², 150 cm wide.");
    assert_eq!(shell.across.says, "10 pulled to 16, back to 10.2");
    let text = |q: &Option<Quantity>| q.as_ref().unwrap().text();
    assert_eq!(
        (text(&shell.across.stretch), text(&shell.across.recovery)),
        ("60 %".into(), "97 %".into())
    );
    assert_eq!(
        (shell.across.drawn, shell.across.drawn_back),
        (Some(1.6), Some(1.02))
    );
    assert_eq!(text(&shell.along.stretch), "80 %");
    let rest = &shell.across.fields[0];
    assert_eq!(
        (rest.document.as_str(), rest.path.as_str()),
        ("shell", "across.rest")
    );
    assert_eq!(rest.allowed, "2 cm to 600 cm");
    // The greater stretch of this cloth runs along the selvedge.
    assert_eq!(
        view.verdict[..2],
        [
            "Lay it with the length round the body: turn the pieces a quarter.",
            "The greater stretch runs along the selvedge."
        ]
    );
    let together = view.together.unwrap();
    assert_eq!(text(&together.around.stretch), "56 %");
    assert!(
        together.says.starts_with("Tested as one: 56 %"),
        "{}",
        together.says
    );
}

#[test]
fn without_a_test_of_both_their_stretch_is_an_estimate() {
    let worked = with(&example("maren-one-piece"), "suit", |s| {
        s.as_object_mut().unwrap().remove("tested_together");
    });
    let together = seen(&worked).together.unwrap();
    assert_eq!(together.around.state, State::Estimate);
    let key = together.around.stretch.as_ref().unwrap().why.as_deref().unwrap();
    assert!(
        crate::view::why(&worked, key)
            .unwrap()
            .source
            .contains("estimate")
    );
    assert!(together.says.contains("Sew a scrap"), "{}", together.says);
}

#[test]
fn a_wrong_pull_stops_at_its_line() {
    let worked = with(&example("maren-one-piece"), "shell", |s| {
        s["across"]["pulled"] = json!("9 cm")
    });
    let view = seen(&worked);
    assert_eq!(view.head.state, State::Stop);
    let note = &view.head.notes[0];
    assert_eq!(note.field.as_deref(), Some("shell.across.pulled"));
    let shell = view.layers[0].swatch.as_ref().unwrap();
    assert_eq!(shell.across.state, State::Stop);
    let pulled = &shell.across.fields[1];
    assert_eq!(
        (pulled.state, pulled.typed.as_deref()),
        (State::Stop, Some("9 cm"))
    );
    assert_eq!(shell.along.state, State::Good);
}

#[test]
fn poor_recovery_is_doubted_on_its_pull_and_in_the_head() {
    let worked = with(&example("maren-one-piece"), "shell", |s| {
        s["along"]["back_to"] = json!("11.2 cm");
    });
    let view = seen(&worked);
    assert_eq!(view.head.state, State::Doubtful);
    let note = &view.head.notes[0];
    assert!(
        note.says.starts_with("Shell: Poor recovery along: 85 %"),
        "{}",
        note.says
    );
    assert_eq!(
        view.layers[0].swatch.as_ref().unwrap().along.state,
        State::Doubtful
    );
    let why = crate::view::why(&worked, note.why.as_deref().unwrap()).unwrap();
    assert!(why.inputs.iter().any(|i| i.name == "held against"), "{why:?}");
}

#[test]
fn what_is_not_chosen_is_asked_for() {
    let worked = example("maren-one-piece");
    let bare = work(
        worked.suit,
        Linked {
            wearer: worked.wearer,
            ..Linked::default()
        },
    );
    let view = seen(&bare);
    assert_eq!(
        (view.head.state, view.head.summary.as_str()),
        (State::Missing, "No outer cloth chosen yet.")
    );
    let fields: Vec<_> = view
        .head
        .notes
        .iter()
        .filter_map(|n| n.field.as_deref())
        .collect();
    assert_eq!(fields, ["shell", "lining"]);
    assert!(view.verdict.is_empty() && view.together.is_none());
}

#[test]
fn a_half_pulled_cloth_shows_the_pull_it_has() {
    let worked = with(&example("maren-one-piece"), "shell", |s| {
        s.as_object_mut().unwrap().remove("along");
    });
    let view = seen(&worked);
    let shell = view.layers[0].swatch.as_ref().unwrap();
    assert_eq!(shell.across.stretch.as_ref().unwrap().text(), "60 %");
    assert_eq!(shell.along.state, State::Missing);
    assert_eq!(view.head.state, State::Missing, "{:#?}", worked.faults);
    assert_eq!(view.head.notes[0].says, "Shell: not pulled along yet.");
}

#[test]
fn an_untested_cloth_is_told_in_one_note() {
    let worked = with(&example("maren-one-piece"), "lining", |s| {
        let lining = s.as_object_mut().unwrap();
        lining.remove("along");
        lining.remove("across");
    });
    let view = seen(&worked);
    let told: Vec<&str> = view.head.notes.iter().map(|n| n.says.as_str()).collect();
    assert_eq!(told, ["Lining: not tested yet."]);
    let field = view.head.notes[0].field.as_deref().unwrap();
    assert!(["lining.across", "lining.along"].contains(&field), "{field}");
}

#[test]
fn sheer_when_wet_asks_for_a_lining_only_where_there_is_none() {
    let sheer = |name: &str| {
        let worked = with(&example(name), "shell", |s| s["wet"] = json!("sheer"));
        seen(&worked)
            .head
            .notes
            .iter()
            .any(|n| n.field.as_deref() == Some("shell.wet"))
    };
    assert!(sheer("odile-v-neck"), "lined at the crotch only");
    assert!(!sheer("maren-one-piece"), "lined throughout");
}

#[test]
fn the_wet_test_is_held_as_far_as_the_suit_is_worn() {
    let worked = example("maren-one-piece");
    let (worn, level) = hold_at(&worked).unwrap();
    let how = &seen(&worked).layers[0].swatch.as_ref().unwrap().wet.how.clone();
    let percent = format!("{:.0} %", worn * 100.0);
    assert!(how.contains(&percent) && how.contains(level.name()), "{how}");
    assert!(crate::view::why(&worked, "wet").is_some());
}

#[test]
fn elastic_says_what_is_usual_and_why() {
    let worked = example("maren-one-piece");
    let elastic = seen(&worked).elastic;
    assert_eq!(
        elastic.about,
        "Cotton-covered braided rubber (swim), 8 mm. Narrows when stretched. Sold 6 to 12 mm wide."
    );
    assert_eq!(elastic.fields[0].path, "elastic_choice.width");
    assert_eq!(elastic.fields[2].quantity.as_ref().unwrap().text(), "60 %");
    assert!(elastic.notes[0].says.contains("latex"), "{:?}", elastic.notes);
    let free = seen(&example("tove-brief")).elastic;
    assert!(
        free.notes.iter().all(|n| !n.says.contains("latex")),
        "{:?}",
        free.notes
    );
}

/// Every "why?" of both sections of every example is answered, with an answer, a question and a source.
#[test]
fn every_why_is_answered() {
    let mut seen_keys = 0;
    for name in names() {
        let worked = example(&name);
        let mut keys = Vec::new();
        keys_of(&serde_json::to_value(seen(&worked)).unwrap(), &mut keys);
        let wearer = crate::view::wearer::view(&worked, &Around::default());
        keys_of(&serde_json::to_value(wearer).unwrap(), &mut keys);
        for key in keys {
            let why = crate::view::why(&worked, &key).unwrap_or_else(|| panic!("{name}: no answer to {key}"));
            assert!(why.question.ends_with('?'), "{key}: {why:?}");
            assert!(
                !why.answer.is_empty() && !why.source.is_empty() && !why.inputs.is_empty(),
                "{key}: {why:?}"
            );
            seen_keys += 1;
        }
        for layer in ["shell", "lining"] {
            assert_eq!(
                crate::view::why(&worked, &format!("orientation.{layer}")).is_some(),
                layer == "shell" || worked.cloth.as_ref().unwrap().lining.is_some(),
                "{name}"
            );
        }
    }
    assert!(seen_keys > 60, "{seen_keys}");
}

fn keys_of(value: &serde_json::Value, keys: &mut Vec<String>) {
    match value {
        serde_json::Value::Object(map) => {
            if let Some(key) = map.get("why").and_then(|w| w.as_str()) {
                keys.push(key.to_owned());
            }
            map.values().for_each(|v| keys_of(v, keys));
        }
        serde_json::Value::Array(list) => list.iter().for_each(|v| keys_of(v, keys)),
        _ => {}
    }
}
