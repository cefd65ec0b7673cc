//! One cloth in the hand: its tests, its words and numbers, what is wrong with it.

use cloth::{ClothPlan, Layer, Orientation};
use serde_json::Value as Json;
use units::LengthUnit;

use super::field::{Kind, Sheet, wrong_in};
use super::verdict::{self, hold_at};
use super::{SwatchView, WetView, look_view, plan_of, pull};
use crate::document::{Paper, Worked};
use crate::view::told::{self, capital, faults_of, note, text_at, typed};
use crate::view::{Choice, Field, Note, State, length, percent};

/// Metres of cloth in stock are shown with their unit.
const METRES: Kind = Kind::Number("m", "metres");

pub(super) fn of(worked: &Worked, layer: Layer, paper: &Paper) -> SwatchView {
    let sheet = Sheet {
        id: &paper.id,
        body: &paper.body,
        unit: worked.unit(),
        wrong: wrong_in(worked, layer.name()),
    };
    let plan = worked.cloth.as_ref();
    SwatchView {
        id: paper.id.clone(),
        revision: paper.revision,
        name: text_at(&paper.body, "name").unwrap_or_default(),
        role: text_at(&paper.body, "role").unwrap_or_else(|| layer.name().to_owned()),
        look: look_view(Some(&paper.body)),
        about: about(&paper.body, layer.name(), worked.unit()),
        across: pull::view(&sheet, "across", layer.name()),
        along: pull::view(&sheet, "along", layer.name()),
        lies: plan.map(|plan| lies(plan, layer)).unwrap_or_default(),
        choices: choices(&sheet),
        fields: fields(&sheet),
        wet: wet(worked, layer, &sheet),
        notes: notes(worked, layer, &paper.body),
    }
}

/// `Shell. 190 g/m², 150 cm wide, 2.4 m left.`
pub(in crate::view) fn about(body: &Json, role: &str, unit: LengthUnit) -> String {
    let mut facts = Vec::new();
    if text_at(body, "direction").as_deref() == Some("one-way") {
        facts.push("one way up".to_owned());
    }
    if let Some(gsm) = text_at(body, "gsm") {
        facts.push(format!("{} g/m²", gsm.trim_end_matches("g/m2").trim()));
    }
    if let Some((width, _)) = text_at(body, "width").and_then(|t| typed(&t, unit)) {
        facts.push(format!(
            "{} {} wide",
            super::field::bare(width, unit),
            unit.symbol()
        ));
    }
    if let Some(stock) = text_at(body, "stock") {
        facts.push(format!("{stock} left"));
    }
    match facts.is_empty() {
        true => format!("{}.", capital(role)),
        false => format!("{}. {}.", capital(role), capital(&facts.join(", "))),
    }
}

/// Which way the layer lies: `Its width goes round the body: 60 % around, 80 % up and down.`
fn lies(plan: &ClothPlan, layer: Layer) -> String {
    let Some(layer) = plan_of(plan, layer) else {
        return String::new();
    };
    let what = match layer.orientation {
        Orientation::Upright => "Its width goes round the body",
        Orientation::Turned => "Its length goes round the body",
    };
    format!(
        "{what}: {} around, {} up and down.",
        layer.around, layer.lengthwise
    )
}

fn choices(sheet: &Sheet<'_>) -> Vec<Choice> {
    vec![
        sheet.choice(
            "direction",
            (
                "Print",
                "A one-way print or pile keeps every piece the same way up and takes more cloth.",
            ),
            "free",
            &[("free", "either way up"), ("one-way", "one way up")],
        ),
        sheet.choice(
            "washed",
            (
                "Washed",
                "Washed before cutting, it has shrunk already; else the pieces are cut larger.",
            ),
            "false",
            &[("false", "not yet"), ("true", "washed before cutting")],
        ),
        sheet.choice(
            "lay",
            (
                "Lies",
                "The greater stretch goes round the body unless you say otherwise.",
            ),
            "",
            &[
                ("", "greater stretch around"),
                ("upright", "width around"),
                ("turned", "length around"),
            ],
        ),
    ]
}

fn fields(sheet: &Sheet<'_>) -> Vec<Field> {
    let per_cent = Kind::Number("%", "per cent");
    vec![
        sheet.field(
            "width",
            "Width",
            "Between the selvedges, usable.",
            Kind::Length,
            "width",
        ),
        sheet.field(
            "gsm",
            "Weight",
            "Of a square metre; swim tricot 150 to 230.",
            Kind::Number("g/m2", "grams a square metre"),
            "gsm",
        ),
        sheet.field(
            "shrinkage.along",
            "Shrinks along",
            "In the first wash, along the selvedge.",
            per_cent,
            "shrinkage.along",
        ),
        sheet.field(
            "shrinkage.across",
            "Shrinks across",
            "In the first wash, selvedge to selvedge.",
            per_cent,
            "shrinkage.across",
        ),
        sheet.field(
            "price",
            "Price",
            "Of one metre, in your currency.",
            Kind::Number("", ""),
            "",
        ),
        sheet.field("stock", "In stock", "What is left of it.", METRES, ""),
    ]
}

fn wet(worked: &Worked, layer: Layer, sheet: &Sheet<'_>) -> WetView {
    let choice = sheet.choice(
        "wet",
        (
            "Wet",
            "What shows through the wet cloth, stretched as it is worn.",
        ),
        "",
        &[
            ("opaque", "nothing shows"),
            ("shows", "dark print shows"),
            ("sheer", "skin shows"),
        ],
    );
    let strip = match sheet.unit {
        LengthUnit::In => units::Mm::from_inches(4.0),
        LengthUnit::Cm | LengthUnit::Mm => units::Mm::from_cm(10.0),
    };
    WetView {
        how: match hold_at(worked).filter(|_| layer != Layer::Mesh) {
            Some((worn, level)) => {
                let marks = |factor: f64| super::field::bare(strip * factor, sheet.unit);
                format!(
                    "Wet it, lay it over a printed page and hold it stretched {} around, as it is worn at the {}: {} pulled to {}. Look in daylight.",
                    percent(worn).text(),
                    level.name(),
                    length(strip, sheet.unit).text(),
                    marks(1.0 + worn),
                )
            }
            None => {
                "Wet it, lay it over a printed page and pull it as far as it will be worn. Look in daylight."
                    .to_owned()
            }
        },
        verdict: choice.value.clone(),
        choice,
    }
}

fn notes(worked: &Worked, layer: Layer, body: &Json) -> Vec<Note> {
    let name = layer.name();
    let mut notes: Vec<Note> = Vec::new();
    let mut not_pulled: Vec<String> = Vec::new();
    for (fault, path) in faults_of(worked, name) {
        if (path == "along" || path == "across") && told::is_missing(fault) {
            not_pulled.push(path);
            continue;
        }
        let mut note = told::fault(fault, &path, None);
        note.place = name.to_owned();
        note.says = format!("{}: {}", capital(name), note.says);
        notes.push(note.at(format!("{name}.{path}")));
    }
    notes.extend(test_note(name, &not_pulled));
    notes.extend(verdict::notes(worked, verdict::Of::Layer(layer)));
    notes.extend(wet_note(worked, layer, body));
    notes.sort_by_key(|n| n.state);
    notes
}

/// One note on the pulls a cloth still lacks, whether one or both.
fn test_note(layer: &str, not_pulled: &[String]) -> Option<Note> {
    let first = not_pulled.first()?;
    let says = match not_pulled {
        [one] => format!("{}: not pulled {one} yet.", capital(layer)),
        _ => format!("{}: not tested yet.", capital(layer)),
    };
    let next = "Mark 10 cm on the loose cloth, pull it until it resists, read, let go and read again after a minute.";
    Some(note(State::Missing, layer, says, next).at(format!("{layer}.{first}")))
}

/// What a failed wet test asks for: a lining under what shows.
fn wet_note(worked: &Worked, layer: Layer, body: &Json) -> Option<Note> {
    let verdict = text_at(body, "wet").filter(|v| v == "shows" || v == "sheer")?;
    let is_lined = worked
        .parts
        .as_ref()
        .is_some_and(|p| p.design.lining == draft::LiningCover::Full);
    if layer != Layer::Shell || is_lined {
        return None;
    }
    let says = match verdict.as_str() {
        "sheer" => "Shell: skin shows through it wet, and it is not lined throughout.",
        _ => "Shell: dark print shows through it wet, and it is not lined throughout.",
    };
    Some(
        note(
            State::Doubtful,
            "shell",
            says,
            "Line it front and back, or choose a denser cloth.",
        )
        .at("shell.wet"),
    )
}
