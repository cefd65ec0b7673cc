//! A suit of known design is measured and found again through its documents; a pattern's sheet; what is said on the way.

use drawer::{FlatMeasure, finished_measure};
use serde_json::{Value as Json, json};

use super::suit::suit_of_drawer;
use super::{DrawerAround, DrawerPapers, copy_view, drawer_view, sheet_view};
use crate::document::{SuitPapers, Worked, compose};
use crate::suit_file::read_parts;
use crate::view::State;
use crate::view::examples::{example, paper, with};

/// Maren's suit with a fit of its own and no lining: what is copied.
fn known() -> Worked {
    with(&example("maren-one-piece"), "suit", |suit| {
        suit["design"] = json!({"style": "one-piece", "lining": "none", "fit_around": 0.22, "fit_lengthwise": 0.11,
            "leg_share": 0.55, "strap_width": "4.5 cm", "neck_depth": 0.36, "back_depth": 0.6});
    })
}

fn papers(known: &Worked, slip: Option<(FlatMeasure, f64)>) -> DrawerPapers {
    let order = known
        .order
        .as_ref()
        .unwrap_or_else(|| panic!("{:?}", known.faults));
    let measures: serde_json::Map<String, Json> = FlatMeasure::ALL
        .into_iter()
        .filter_map(|m| {
            let mm = finished_measure(&order.draft, m)?;
            let slip = slip.filter(|s| s.0 == m).map_or(0.0, |s| s.1);
            Some((m.key().to_owned(), json!(format!("{:.1} cm", (mm + slip) / 10.0))))
        })
        .collect();
    let mut shell = known.shell.clone().unwrap();
    shell.id = "shell".into();
    DrawerPapers {
        item: paper(
            "item",
            "drawer",
            json!({"name": "The green one", "of": "suit", "measures": measures, "shapes": {"seat": "full"},
                "wearer": "wearer", "old": {"swatch": "shell"}, "new": {"from": "typed", "around": "60 %", "lengthwise": "45"}}),
        ),
        wearer: known.wearer.clone(),
        old: Some(shell),
        new: None,
        units: "cm".into(),
    }
}

#[test]
fn a_suit_is_found_again_and_can_be_made() {
    let known = known();
    let papers = papers(&known, None);
    let view = drawer_view(&papers, &DrawerAround::default());
    assert_eq!(view.waits_for, Vec::<String>::new());
    assert_eq!(view.now, None);
    for measure in &view.measures {
        assert!(
            view.tapes.iter().any(|t| t.measure == measure.key),
            "{} has no tape",
            measure.key
        );
    }
    let copy = copy_view(&papers).copy.unwrap();
    assert!(copy.suspects.is_empty() && copy.can_make);
    assert_eq!(copy.sides.len(), 2);
    assert_eq!(copy.shares[0].value.text(), "22 %");
    for line in &copy.measures {
        assert!(line.bar.abs() < 0.25, "{line:?}");
    }
    let suit = Json::Object(suit_of_drawer(&papers).unwrap());
    let text = compose(&SuitPapers {
        suit: Some(&suit),
        ..SuitPapers::default()
    });
    let parts = read_parts("suit", &text).unwrap();
    assert!(
        parts.faults.iter().all(|f| !f.field.starts_with("design")),
        "{:?}",
        parts.faults
    );
    let cloth::Fit::Own(own) = parts.design.fit else {
        panic!("{:?}", parts.design.fit)
    };
    assert!((own.around_share() - 0.22).abs() < 0.01 && (own.lengthwise_share() - 0.11).abs() < 0.01);
}

#[test]
fn a_slip_of_the_tape_is_named_with_what_it_would_need() {
    let known = known();
    let papers = papers(&known, Some((FlatMeasure::AcrossWaist, 30.0)));
    let view = copy_view(&papers);
    let copy = view.copy.unwrap();
    let first = &copy.suspects[0];
    assert_eq!(first.key, "across_waist");
    assert!(
        first
            .says
            .starts_with("Measure the width across the waist again: it would need"),
        "{}",
        first.says
    );
    let order = known.order.as_ref().unwrap();
    let truth = finished_measure(&order.draft, FlatMeasure::AcrossWaist).unwrap();
    let needs: f64 = first.needs.main.parse().unwrap();
    assert!((needs * 10.0 - truth).abs() < 6.0, "{needs} cm for {truth} mm");
    let row = copy.measures.iter().find(|m| m.key == "across_waist").unwrap();
    assert!(["left_out", "doubtful"].contains(&row.stands.as_str()));
    assert_ne!(view.head.state, State::Good);
}

#[test]
fn what_is_missing_is_said_one_thing_each() {
    let papers = DrawerPapers {
        item: paper("item", "drawer", json!({"name": "New", "of": "suit"})),
        wearer: None,
        old: None,
        new: None,
        units: "in".into(),
    };
    let view = drawer_view(&papers, &DrawerAround::default());
    assert_eq!(view.now.as_deref(), Some("across_bust"));
    assert!(!view.sides.is_empty(), "somebody else's suit is drawn");
    assert!(view.waits_for.len() >= 4, "{:?}", view.waits_for);
    assert!(copy_view(&papers).copy.is_none());
    assert!(suit_of_drawer(&papers).is_err());
}

/// Source: the worked example of the change sheet, to a tenth of a millimetre: soft cloth, widths 780/640/850, loop 1440,
/// on the average body of the check values.
#[test]
fn the_worked_example_reads_as_it_is_worked() {
    let wearer = json!({"name": "Average", "form": "woman", "dimensions": {
        "stature": {"readings": ["165 cm"]}, "bust_girth": {"readings": ["92 cm"]}, "underbust_girth": {"readings": ["78 cm"]},
        "waist_girth": {"readings": ["76 cm"]}, "hip_girth": {"readings": ["100 cm"]}, "crotch_length": {"readings": ["72 cm"]},
        "back_waist_length": {"readings": ["40.8 cm"]}}});
    let papers = DrawerPapers {
        item: paper(
            "item",
            "drawer",
            json!({"name": "From the market", "of": "pattern", "wearer": "w", "width_of": "whole",
                "widths": {"bust": "780 mm", "waist": "640 mm", "hip": "850 mm"}, "stretch_asked": "75",
                "new": {"from": "typed", "around": "85", "lengthwise": "60"},
                "sizes": {"s1": {"name": "14", "widths": {"bust": "815 mm", "waist": "665 mm", "hip": "870 mm"}}}}),
        ),
        wearer: Some(paper("w", "wearer", wearer)),
        old: None,
        new: None,
        units: "cm".into(),
    };
    let view = sheet_view(&papers);
    let sheet = view.sheet.unwrap_or_else(|| panic!("{:?}", view.head));
    assert_eq!(sheet.verdict, "adapt");
    let bust = &sheet.widths[0];
    assert_eq!(
        (bust.name.as_str(), bust.change.text().as_str()),
        ("Bust", "+8.5 mm")
    );
    assert_eq!(bust.change.second, "+⅜ in");
    assert_eq!(bust.place, "+6 mm at the side seam, +2.5 mm at the slash");
    assert!(
        sheet.sides[0]
            .words
            .iter()
            .any(|w| w.says.starts_with("Bust +8.5")),
        "{:?}",
        sheet.sides[0].words
    );
    assert!(sheet.stretch.is_some());
    assert!(sheet.sizes[0].is_within);
    let suit = suit_of_drawer(&papers).unwrap();
    assert_eq!(suit["design"]["fit"], "regular");
    assert!(
        !suit.contains_key("shell"),
        "a typed cloth is none of the workroom"
    );
}
