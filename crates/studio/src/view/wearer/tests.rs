//! What the section says of the examples, and of examples with one thing wrong.

use serde_json::json;

use super::*;
use crate::view::examples::{example, names, with, with_wearer};

fn seen(worked: &Worked) -> WearerView {
    view(
        worked,
        &Around {
            today: "2026-11-26".into(),
            ..Around::default()
        },
    )
}

fn line<'a>(view: &'a WearerView, key: &str) -> &'a DimensionView {
    view.dimensions.iter().find(|l| l.key == key).unwrap()
}

#[test]
fn maren_reads_as_she_was_taken() {
    let view = seen(&example("maren-one-piece"));
    assert_eq!(view.name, "Maren");
    assert_eq!(view.head.state, State::Good, "{:#?}", view.head.notes);
    let waist = line(&view, "waist_girth");
    assert_eq!(waist.readings, ["73.0 cm", "73.6 cm"]);
    assert_eq!(waist.value.as_ref().unwrap().text(), "73.0 cm");
    assert_eq!((waist.need.as_str(), waist.state), ("needed", State::Good));
    assert_eq!(view.now, None);
    assert!(
        view.head.summary.starts_with("Maren. 18 taken, "),
        "{}",
        view.head.summary
    );
    // A one-piece has use for all but those of sleeves, and of what is pulled on.
    let not_used: Vec<&str> = view
        .dimensions
        .iter()
        .filter(|l| l.need == "not used")
        .map(|l| l.key.as_str())
        .collect();
    assert_eq!(
        not_used,
        [
            "shoulder_girth",
            "upper_arm_girth",
            "wrist_girth",
            "across_back",
            "across_front",
            "arm_length"
        ]
    );
    assert!(view.form_key.is_some());
}

#[test]
fn two_readings_too_far_apart_are_in_doubt_until_one_is_kept() {
    let worked = with_wearer(&example("maren-one-piece"), |w| {
        w["dimensions"]["waist_girth"] = json!({ "readings": ["73.0 cm", "70.2 cm"] });
    });
    let view = seen(&worked);
    assert_eq!(view.head.state, State::Doubtful);
    assert_eq!(view.now.as_deref(), Some("waist_girth"));
    let note = &view.head.notes[0];
    assert_eq!(
        note.says,
        "Waist: 2.8 cm between readings. A tape rarely differs by more than 1.5 cm."
    );
    assert_eq!(note.next, "Take it a third time: the nearer two are kept.");
    assert_eq!(note.field.as_deref(), Some("dimensions.waist_girth"));

    let third = with_wearer(&worked, |w| {
        w["dimensions"]["waist_girth"] = json!({ "readings": ["73.0 cm", "70.2 cm", "72.8 cm"] });
    });
    assert_eq!(line(&seen(&third), "waist_girth").state, State::Good);

    let kept = with_wearer(&worked, |w| {
        w["dimensions"]["waist_girth"] = json!({ "readings": ["73.0 cm"], "settled": true });
    });
    let kept = seen(&kept);
    assert_eq!(line(&kept, "waist_girth").state, State::Good);
    assert!(!line(&kept, "waist_girth").wants_second);
}

#[test]
fn a_tape_slip_is_doubted_with_what_it_would_have_been() {
    let worked = with_wearer(&example("maren-one-piece"), |w| {
        w["dimensions"]["neck_base_girth"] = json!({ "readings": ["63.6 cm"] });
    });
    let view = seen(&worked);
    let neck = line(&view, "neck_base_girth");
    assert_eq!(neck.state, State::Doubtful, "{neck:#?}");
    let note = &neck.notes[0];
    assert!(
        note.says
            .starts_with("Neck-base: 63.6 cm does not go with the rest, which expect "),
        "{}",
        note.says
    );
    let tried = note.try_this.as_ref().expect("swapped digits can be mended");
    let mended = with_wearer(&worked, |w| {
        w["dimensions"]["neck_base_girth"] = tried.changes[0].value.clone();
    });
    assert_eq!(line(&seen(&mended), "neck_base_girth").state, State::Good);
}

#[test]
fn what_is_missing_is_asked_for_in_the_order_of_taking() {
    let worked = with_wearer(&example("maren-one-piece"), |w| {
        for key in ["hip_girth", "waist_girth", "trunk_circumference"] {
            w["dimensions"].as_object_mut().unwrap().remove(key);
        }
    });
    let view = seen(&worked);
    assert_eq!(view.head.state, State::Missing);
    assert_eq!(view.now.as_deref(), Some("waist_girth"));
    assert_eq!(
        view.head.notes[0].says,
        "Waist girth, hip girth and trunk circumference: not taken."
    );
    assert_eq!(view.form_key, None);
    assert!(view.head.summary.contains("missing"), "{}", view.head.summary);
}

#[test]
fn an_estimate_says_how_far_off_it_may_be() {
    let worked = with_wearer(&example("maren-one-piece"), |w| {
        w["dimensions"].as_object_mut().unwrap().remove("neck_base_girth");
    });
    let view = seen(&worked);
    let neck = line(&view, "neck_base_girth");
    assert_eq!(neck.state, State::Estimate);
    let value = neck.value.as_ref().unwrap();
    assert_eq!(value.why.as_deref(), Some("dimension.neck_base_girth"));
    assert!(
        neck.notes[0].says.contains("Two bodies in three lie within"),
        "{:?}",
        neck.notes
    );
    let why = crate::view::why(&worked, "dimension.neck_base_girth").unwrap();
    assert!(
        why.inputs
            .iter()
            .any(|i| i.name == "stature" && i.value == "180.0 cm"),
        "{why:#?}"
    );
    assert!(why.source.contains("ANSUR II"));
}

#[test]
fn a_number_no_body_has_stops_and_says_where() {
    let worked = with_wearer(&example("maren-one-piece"), |w| {
        w["dimensions"]["hip_girth"] = json!({ "readings": ["9.9 cm"] });
    });
    let view = seen(&worked);
    assert_eq!(view.head.state, State::Stop);
    assert_eq!(view.now.as_deref(), Some("hip_girth"));
    let note = &view.head.notes[0];
    assert_eq!(note.says, "Hip girth is 9.9 cm.");
    assert_eq!(note.next, "Give 65 cm to 230 cm.");
    assert_eq!(note.field.as_deref(), Some("dimensions.hip_girth"));
}

#[test]
fn a_brief_does_not_ask_for_the_upper_body() {
    let view = seen(&example("tove-brief"));
    let trunk = line(&view, "trunk_circumference");
    assert_eq!(trunk.need, "not used");
    assert_ne!(view.now.as_deref(), Some("trunk_circumference"));
    let first_idle = view.dimensions.iter().position(|l| l.need == "not used").unwrap();
    assert!(view.dimensions[first_idle..].iter().all(|l| l.need == "not used"));
}

#[test]
fn a_trunk_that_disagrees_offers_whom_to_trust() {
    let plain = example("maren-one-piece");
    let offers = |worked: &Worked| seen(worked).choices.iter().any(|c| c.path == "trust");
    assert!(!offers(&plain));
    let apart = with_wearer(&plain, |w| {
        w["dimensions"]["trunk_circumference"] = json!({ "readings": ["182.0 cm", "182.4 cm"] });
    });
    assert!(offers(&apart), "{:#?}", apart.faults);
    assert_eq!(line(&seen(&apart), "trunk_circumference").state, State::Stop);
}

#[test]
fn a_child_has_a_carer_and_a_day_to_be_taken_again() {
    let worked = with_wearer(&example("ines-one-piece"), |w| {
        w["protocol"] = json!({ "taken_on": "2026-08-20", "consent": true });
    });
    let view = seen(&worked);
    assert!(view.protocol.is_minor);
    let fields: Vec<_> = view
        .protocol
        .missing
        .iter()
        .filter_map(|n| n.field.as_deref())
        .collect();
    assert_eq!(fields, ["protocol.carer", "protocol.again_on"]);
    let again = view.protocol.missing[1].try_this.as_ref().unwrap();
    assert_eq!(again.changes[0].value, json!("2026-11-20"));
    let due = with_wearer(&worked, |w| w["protocol"]["again_on"] = json!("2026-11-20"));
    let due = seen(&due).protocol.missing;
    assert_eq!(due.last().unwrap().state, State::Doubtful);
}

#[test]
fn nobody_chosen_is_said_with_what_to_do() {
    let worked = example("maren-one-piece");
    let worked = crate::document::work(
        worked.suit,
        crate::document::Linked {
            shell: worked.shell,
            lining: worked.lining,
            ..Default::default()
        },
    );
    let view = seen(&worked);
    assert_eq!(
        (view.head.state, view.head.summary.as_str()),
        (State::Missing, "Nobody chosen yet.")
    );
    assert!(!view.head.notes[0].next.is_empty());
}

#[test]
fn inches_stay_inches() {
    let worked = with(&example("maren-one-piece"), "suit", |s| s["units"] = json!("in"));
    let view = seen(&worked);
    let waist = line(&view, "waist_girth");
    assert_eq!(waist.value.as_ref().unwrap().text(), "28¾ in");
    assert_eq!(waist.readings[0], "73.0 cm");
}

/// The form is fitted to the body alone: a name, a doubt kept, another cloth leave the key.
#[test]
fn the_forms_key_changes_with_the_body_only() {
    let plain = example("maren-one-piece");
    let named = with_wearer(&plain, |w| w["name"] = json!("Maren K."));
    let taller = with_wearer(&plain, |w| {
        w["dimensions"]["stature"] = json!({ "readings": ["180.1 cm"] })
    });
    let key = |w: &Worked| seen(w).form_key.unwrap();
    assert_eq!(key(&plain), key(&named));
    assert_ne!(key(&plain), key(&taller));
}

/// No sentence speaks of the suit file.
#[test]
fn no_note_speaks_of_keys() {
    for name in names() {
        for note in seen(&example(&name)).head.notes {
            let text = format!("{} {}", note.says, note.next);
            assert!(
                !text.contains(['_', '`', '[']) && !text.contains(".."),
                "{name}: {text}"
            );
        }
    }
}
