//! What the page of the drawer asks: the thing itself, its measures one at a time, its cloths; and what is still missing.

use body::BodyForm;
use serde_json::Value as Json;

use super::drawn::{flat_sides, flat_tapes, paper_sides, paper_tapes};
use super::papers::{DrawerPapers, JUDGE};
use super::taken::{example_suit, of_pattern, of_size, of_suit, size_keys, styles_to_copy};
use super::{DrawerCloth, DrawerMeasure, DrawerSize, DrawerView};
use crate::view::told::{count, list};
use crate::view::{Choice, ChoiceOption, Head, Named, Note, Stamp, State, percent};

/// What the page needs besides the papers.
#[derive(Clone, Debug, Default)]
pub struct DrawerAround {
    /// Wearers there are.
    pub wearers: Vec<Named>,
    /// Cloths there are.
    pub cloths: Vec<Named>,
    /// What "Back one" would undo.
    pub back: Option<String>,
    /// What "Forward" would do again.
    pub forward: Option<String>,
}

/// One thing of the drawer as its page asks for it.
pub fn drawer_view(papers: &DrawerPapers, around: &DrawerAround) -> DrawerView {
    let is_pattern = papers.is_pattern();
    let body = papers.body();
    let form = body.as_ref().map_or_else(|_| form_of(papers), |b| b.form);
    let design = papers.design();
    let suit = if is_pattern {
        example_suit(
            form,
            &draft::Design {
                leg: draft::LegHeight::Low,
                ..draft::Design::default()
            },
        )
    } else {
        example_suit(form, &design)
    };
    let measures = if is_pattern {
        of_pattern(papers)
    } else {
        of_suit(papers, suit.as_ref())
    };
    let (sides, tapes) = match &suit {
        Some(suit) if is_pattern => (paper_sides(suit), paper_tapes(suit)),
        Some(suit) => (flat_sides(suit), flat_tapes(suit)),
        None => (Vec::new(), Vec::new()),
    };
    let now = measures
        .iter()
        .find(|m| m.problem.is_some())
        .or_else(|| measures.iter().find(|m| m.is_asked && m.typed.is_empty()))
        .map(|m| m.key.clone());
    let old = (!is_pattern).then(|| cloth(papers, "old"));
    let new = cloth(papers, "new");
    let what = what(papers, body.as_ref().err().map(Vec::as_slice).unwrap_or_default());
    let measuring = measuring(&measures);
    let cloth = cloths(old.as_ref(), &new);
    let waits_for = [&what, &measuring, &cloth]
        .into_iter()
        .flat_map(|head| &head.notes)
        .filter(|n| matches!(n.state, State::Missing | State::Stop))
        .map(|n| n.says.clone())
        .collect();
    DrawerView {
        item: Stamp {
            id: papers.item.id.clone(),
            kind: "drawer".into(),
            revision: papers.item.revision,
        },
        name: papers.text("name"),
        of: if is_pattern { "pattern" } else { "suit" }.into(),
        units: papers.units.clone(),
        back: around.back.clone(),
        forward: around.forward.clone(),
        what,
        choices: choices(papers, form, &design),
        wearers: around.wearers.clone(),
        wearer: papers.wearer.as_ref().map(|w| w.id.clone()),
        measuring,
        measures,
        now,
        sides,
        tapes,
        cloth,
        cloths: around.cloths.clone(),
        old,
        new,
        sizes: size_keys(papers)
            .into_iter()
            .map(|key| DrawerSize {
                name: papers.text(&format!("sizes.{key}.name")),
                measures: of_size(papers, &key),
                key,
            })
            .collect(),
        stretch_asked: papers.text("stretch_asked"),
        size: papers.text("size"),
        waits_for,
    }
}

fn form_of(papers: &DrawerPapers) -> BodyForm {
    let form = papers
        .wearer
        .as_ref()
        .and_then(|w| w.body.get("form"))
        .and_then(Json::as_str);
    match form {
        Some("man") => BodyForm::Man,
        Some("child") => BodyForm::Child,
        _ => BodyForm::Woman,
    }
}

fn what(papers: &DrawerPapers, body: &[Note]) -> Head {
    let name = papers
        .wearer
        .as_ref()
        .and_then(|w| w.body.get("name"))
        .and_then(Json::as_str);
    let summary = match (papers.is_pattern(), name) {
        (false, Some(name)) => format!("It fits {name}."),
        (true, Some(name)) => format!("For {name}."),
        _ => "Nobody is chosen yet.".to_owned(),
    };
    Head::of(summary, body.to_vec())
}

fn measuring(measures: &[DrawerMeasure]) -> Head {
    let taken = measures.iter().filter(|m| !m.typed.is_empty()).count();
    let missing: Vec<String> = measures
        .iter()
        .filter(|m| m.is_asked && m.typed.is_empty())
        .map(|m| m.name.clone())
        .collect();
    let mut notes: Vec<Note> = measures.iter().filter_map(|m| m.problem.clone()).collect();
    if !missing.is_empty() {
        const NAMED: usize = 3;
        let says = if missing.len() > NAMED {
            format!(
                "{} measures are still asked for.",
                crate::view::sentence(&count(missing.len())).trim_end_matches('.')
            )
        } else {
            crate::view::sentence(&format!(
                "{} {} still to be measured",
                list(&missing),
                if missing.len() == 1 { "is" } else { "are" }
            ))
        };
        notes.push(crate::view::told::note(
            State::Missing,
            "measures",
            says,
            "Take them one at a time.",
        ));
    }
    let of = measures.iter().filter(|m| m.is_asked).count();
    Head::of(format!("{taken} taken; {of} are asked for."), notes)
}

fn cloth(papers: &DrawerPapers, which: &'static str) -> DrawerCloth {
    let read = papers.cloth(which);
    let says = match &read {
        Ok(plan) => format!(
            "{} around, {} lengthwise, {}.",
            percent(plan.around.ratio()).text(),
            percent(plan.lengthwise.ratio()).text(),
            match plan.load {
                cloth::Load::Hand => "pulled by hand".to_owned(),
                load => format!("at {load}"),
            }
        ),
        Err(_) => String::new(),
    };
    let swatch = if which == "old" { &papers.old } else { &papers.new };
    DrawerCloth {
        path: which.into(),
        from: papers.cloth_from(which).into(),
        swatch: swatch.as_ref().map(|s| s.id.clone()),
        around: papers.text(&format!("{which}.around")),
        lengthwise: papers.text(&format!("{which}.lengthwise")),
        says,
        notes: read.err().unwrap_or_default(),
    }
}

fn cloths(old: Option<&DrawerCloth>, new: &DrawerCloth) -> Head {
    let mut notes = Vec::new();
    for (cloth, name) in old
        .map(|o| (o, "The suit’s own cloth"))
        .into_iter()
        .chain([(new, "The cloth to sew")])
    {
        notes.extend(cloth.notes.iter().cloned().map(|mut n| {
            if matches!(n.state, State::Missing) {
                n.says = format!("{name} is not known yet.");
            }
            n
        }));
    }
    notes.dedup_by(|a, b| a.says == b.says);
    let summary = if notes.is_empty() {
        old.map_or_else(
            || format!("{} around.", first_word(&new.says)),
            |old| {
                format!(
                    "{} around, then {}.",
                    first_word(&old.says),
                    first_word(&new.says)
                )
            },
        )
    } else {
        "Not all of it is known.".to_owned()
    };
    Head::of(summary, notes)
}

/// `85 %` of `85 % around, ...`.
fn first_word(says: &str) -> &str {
    says.split(" around").next().unwrap_or(says)
}

/// Style, neckline, back, seat, skirt of a suit; how a pattern was measured and how tight it is to be.
fn choices(papers: &DrawerPapers, form: BodyForm, design: &draft::Design) -> Vec<Choice> {
    use draft::Shared;
    let choice = |path: &str, label: &str, says: &str, usual: &str, options: &[(&str, &str)]| {
        let value = papers.text(path);
        Choice {
            document: papers.item.id.clone(),
            path: path.to_owned(),
            label: label.to_owned(),
            says: says.to_owned(),
            value: if value.is_empty() { usual.to_owned() } else { value },
            options: options
                .iter()
                .map(|(value, label)| ChoiceOption {
                    value: (*value).to_owned(),
                    label: (*label).to_owned(),
                })
                .collect(),
        }
    };
    if papers.is_pattern() {
        return vec![
            choice(
                "fit",
                "Fit",
                "How much of the cloth’s stretch is to be used.",
                "regular",
                &[
                    ("relaxed", "Relaxed"),
                    ("regular", "Regular"),
                    ("firm", "Firm, for laps"),
                    ("race", "Race"),
                ],
            ),
            choice(
                "width_of",
                "Widths are measured",
                "What the tape lay over.",
                "quarter",
                &[
                    ("quarter", "Fold to side seam"),
                    ("half", "Over a whole front"),
                    ("whole", "Once round"),
                ],
            ),
        ];
    }
    let styles: Vec<(&str, &str)> = styles_to_copy(form)
        .iter()
        .map(|s| (s.key(), s.spec().name))
        .collect();
    let mut choices = vec![choice(
        "shapes.style",
        "Kind",
        "What it is.",
        "one-piece",
        &styles,
    )];
    let has = |shared| design.style.has(shared);
    if has(Shared::Neckline) {
        choices.push(choice(
            "shapes.neckline",
            "Neckline",
            "As it looks; how deep is found from the measures.",
            "scoop",
            &[
                ("scoop", "Scoop"),
                ("square", "Square"),
                ("v", "V"),
                ("high", "High"),
            ],
        ));
    }
    if has(Shared::Back) {
        choices.push(choice(
            "shapes.back",
            "Back",
            "As it looks from behind.",
            "scoop",
            &[
                ("scoop", "Scoop"),
                ("v", "V"),
                ("racer", "Racer"),
                ("crossed-straps", "Crossed straps"),
            ],
        ));
    }
    if has(Shared::Seat) {
        choices.push(choice(
            "shapes.seat",
            "Seat",
            "How much of the seat the back covers.",
            JUDGE,
            &[
                ("full", "Full"),
                ("moderate", "Moderate"),
                ("cheeky", "Half"),
                (JUDGE, "Find it from the measures"),
            ],
        ));
    }
    if has(Shared::Skirt) {
        choices.push(choice(
            "shapes.skirt.kind",
            "Skirt",
            "Its cut, if it has one; its length is measured.",
            "none",
            &[
                ("none", "None"),
                ("full-circle", "Full circle"),
                ("half-circle", "Half circle"),
                ("quarter-circle", "Quarter circle"),
                ("flared-panel", "Flared panel"),
            ],
        ));
        if design.skirt.is_some() {
            choices.push(choice(
                "shapes.skirt.join",
                "Skirt joins",
                "Where it is sewn on.",
                "waist",
                &[("waist", "At the waist"), ("hip", "At the hip")],
            ));
        }
    }
    choices
}
