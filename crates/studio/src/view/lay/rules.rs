//! By which rules a suit is laid, as they are chosen and written, and which other suits are laid with it.

use serde::Serialize;
use serde_json::Value as Json;
use ts_rs::TS;
use units::Mm;
use utoipa::ToSchema;

use crate::document::Worked;
use crate::laying_kept::{SuitLay, asks_about_print, laid_with as with_of, settings_of};
use crate::view::{Choice, ChoiceOption, Field, Named, Set, State, length, small_length, told_list};

/// Another suit that may be laid with this one.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct LaidWith {
    /// Its name.
    pub name: String,
    /// Whether it is laid with it.
    pub is_in: bool,
    /// Which of its cloths join, or why none does; empty while it is not chosen.
    pub says: String,
    /// What to write to change that.
    pub set: Set,
}

/// Another suit, as it may be laid with this one.
pub(super) fn laid_with(worked: &Worked, lays: &[SuitLay], suit: &Named) -> LaidWith {
    let now = with_of(&worked.suit.body);
    let is_in = now.contains(&suit.id.as_str());
    let mut next: Vec<&str> = now.iter().copied().filter(|id| *id != suit.id).collect();
    if !is_in {
        next.push(&suit.id);
    }
    let of = format!("{}/", suit.id);
    let joins: Vec<String> = lays
        .iter()
        .filter(|l| l.task.request.pieces.iter().any(|p| p.key.starts_with(&of)))
        .map(|l| l.task.layer.name().to_owned())
        .collect();
    let says = match (is_in, joins.as_slice()) {
        (false, _) => String::new(),
        (true, []) => "nothing of it is cut from the same cloth".to_owned(),
        (true, joins) => format!("its {} with this one’s", told_list(joins)),
    };
    LaidWith {
        name: suit.name.clone(),
        is_in,
        says,
        set: Set {
            document: worked.suit.id.clone(),
            path: "lay.with".to_owned(),
            value: if next.is_empty() {
                Json::Null
            } else {
                serde_json::json!(next)
            },
        },
    }
}

/// The rules that are chosen by a word.
pub(super) fn choices(worked: &Worked, lays: &[SuitLay]) -> Vec<Choice> {
    let body = &worked.suit.body;
    let value = |key: &str, usual: &str| {
        let rules = body.get("lay").and_then(|l| l.get("rules"));
        let written = rules.and_then(|r| r.get(key)).and_then(Json::as_str);
        written.unwrap_or(usual).to_owned()
    };
    let choice = |key: &str, label: &str, says: &str, usual: &str, options: &[(&str, &str)]| Choice {
        document: worked.suit.id.clone(),
        path: format!("lay.rules.{key}"),
        label: label.to_owned(),
        says: says.to_owned(),
        value: value(key, usual),
        options: options
            .iter()
            .map(|(value, label)| ChoiceOption {
                value: (*value).to_owned(),
                label: (*label).to_owned(),
            })
            .collect(),
    };
    let mut all = vec![
        choice(
            "direction",
            "Tops point",
            "A knit shows its light differently from below: the same way is the safe way.",
            "one-way",
            &[
                ("one-way", "The same way"),
                ("per-garment", "The same within a suit"),
                ("free", "Either way"),
            ],
        ),
        choice(
            "fold",
            "The cloth lies",
            "Folded, pairs are cut at once and whole pieces as halves on the fold; folded over in part, the rest stays wide in one layer.",
            "none",
            &[
                ("none", "Single"),
                ("half", "Folded"),
                ("partial", "Folded over in part"),
            ],
        ),
        choice(
            "tested",
            "Test strips",
            "20 cm are bought for trying stitches and iron, unless that is done.",
            "no",
            &[("no", "Still to cut"), ("yes", "Done already")],
        ),
    ];
    let asks = |l: &SuitLay| l.laid.as_ref().err().is_some_and(asks_about_print);
    if lays.iter().any(asks) || value("print_on_its_side", "no") == "yes" {
        all.push(choice(
            "print_on_its_side",
            "The print may lie on its side",
            "Its greatest stretch runs along it, and the stretch must go round the body.",
            "no",
            &[("no", "No"), ("yes", "Yes")],
        ));
    }
    all
}

/// How deep the cloths are folded over, where that was found and not written.
fn found_depths(lays: &[SuitLay], unit: units::LengthUnit) -> String {
    let found: Vec<String> = lays
        .iter()
        .filter_map(|l| match l.task.request.cloth.fold {
            lay::Fold::Partial { depth_mm } => Some(format!(
                "the {} {}",
                l.task.layer.name(),
                length(Mm::new(depth_mm), unit).text()
            )),
            _ => None,
        })
        .collect();
    if found.is_empty() {
        "Empty: as deep as is best; nothing here comes out double, so it lies in one layer.".to_owned()
    } else {
        format!("Empty: as deep as is best, now {}.", found.join(", "))
    }
}

/// The rules that are lengths.
pub(super) fn fields(worked: &Worked, lays: &[SuitLay]) -> Vec<Field> {
    let unit = worked.unit();
    let settings = settings_of(worked);
    let field = |key: &str, label: &str, says: &str, mm: Option<f64>| {
        let rules = worked.suit.body.get("lay").and_then(|l| l.get("rules"));
        let typed = rules
            .and_then(|r| r.get(key))
            .and_then(Json::as_str)
            .map(str::to_owned);
        // What could not be read is not in force; the line says so.
        let is_read = typed
            .as_ref()
            .is_none_or(|t| units::parse_length(t, units::LengthUnit::Cm).is_ok_and(|mm| mm.get() >= 0.0));
        Field {
            document: worked.suit.id.clone(),
            path: format!("lay.rules.{key}"),
            label: label.to_owned(),
            says: if is_read {
                says.to_owned()
            } else {
                format!("{says} What stands here is no length, so the usual is taken.")
            },
            quantity: mm.map(|mm| small_length(Mm::new(mm), unit)),
            typed,
            unit: if unit == units::LengthUnit::In { "in" } else { "mm" }.to_owned(),
            allowed: String::new(),
            state: if is_read { State::Good } else { State::Doubtful },
        }
    };
    let mut all = vec![
        field(
            "gap",
            "Between pieces",
            "3 mm for a rotary cutter; 0 for shears along a shared line.",
            Some(settings.gap_mm),
        ),
        field(
            "margin",
            "Along each selvedge",
            "What is perforated or curls is not cut into.",
            Some(settings.selvedge_margin_mm),
        ),
        field(
            "end",
            "At each cut end",
            "A cut end is seldom square.",
            Some(settings.end_allowance_mm),
        ),
        field(
            "repeat",
            "Repeat to match along",
            "Levels of front and back then meet in the print; it costs cloth. Empty for none.",
            settings.repeat_mm.map(|r| r.0),
        ),
    ];
    // Across is matched beside along, never without it.
    if let Some((_, across)) = settings.repeat_mm {
        all.push(field(
            "repeat_across",
            "Repeat to match across",
            "The middle of every piece then hits the same place of the print from selvedge to selvedge too. Empty for none.",
            across,
        ));
    }
    if let lay::Fold::Partial { depth_mm } = settings.fold {
        let says = if settings.finds_depth {
            found_depths(lays, unit)
        } else {
            "From the selvedge that is folded over to the fold; half of the width at most. Empty: as deep as is best.".to_owned()
        };
        let depth = field("depth", "Folded over by", &says, None);
        let found = lays.iter().find_map(|l| match l.task.request.cloth.fold {
            lay::Fold::Partial { depth_mm } => Some(depth_mm),
            _ => None,
        });
        let in_force = if settings.finds_depth {
            found
        } else {
            Some(depth_mm)
        };
        let quantity = in_force.map(|mm| length(Mm::new(mm), unit));
        let unit = if unit == units::LengthUnit::In { "in" } else { "cm" };
        let depth = Field {
            quantity,
            unit: unit.to_owned(),
            ..depth
        };
        all.insert(0, depth);
    }
    all
}
