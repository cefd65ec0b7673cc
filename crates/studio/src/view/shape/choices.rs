//! The words of a design: what may be chosen, what is in force, what each does on the body.

use body::BodyForm;
use draft::{Design, Shared, Style};
use serde_json::Value;

use super::besides::Group;
use super::{amount, own};
use crate::document::Paper;
use crate::suit_file::Parts;
use crate::view::{Choice, ChoiceOption};

struct Words {
    key: &'static str,
    label: &'static str,
    says: &'static str,
    /// Value in force when the document says nothing; then value and word of each option.
    usual: &'static str,
    options: &'static [(&'static str, &'static str)],
    applies: fn(&Design, BodyForm) -> bool,
}

const fn any(_: &Design, _: BodyForm) -> bool {
    true
}

fn neckline(design: &Design, _: BodyForm) -> bool {
    design.hears(Shared::Neckline)
}

fn back(design: &Design, _: BodyForm) -> bool {
    design.hears(Shared::Back)
}

fn bust(design: &Design, form: BodyForm) -> bool {
    design.hears(Shared::BustShaping) && form == BodyForm::Woman
}

fn cups(design: &Design, form: BodyForm) -> bool {
    design.hears(Shared::Cups) && form == BodyForm::Woman
}

fn rise(design: &Design, _: BodyForm) -> bool {
    design.hears(Shared::Rise)
}

fn leg(design: &Design, _: BodyForm) -> bool {
    design.hears(Shared::Leg)
}

fn seat(design: &Design, _: BodyForm) -> bool {
    design.hears(Shared::Seat)
}

fn lining(design: &Design, _: BodyForm) -> bool {
    design.hears(Shared::Lining)
}

fn skirt(design: &Design, _: BodyForm) -> bool {
    design.hears(Shared::Skirt)
}

fn skirted(design: &Design, _: BodyForm) -> bool {
    design.skirt.is_some()
}

const ALL: [Words; 14] = [
    Words {
        key: "style",
        label: "Style",
        says: "What is drafted.",
        usual: "one-piece",
        // From the catalogue, below.
        options: &[],
        applies: any,
    },
    Words {
        key: "fit",
        label: "Fit",
        says: "How much of the cloth's stretch the suit uses when it is worn.",
        usual: "regular",
        options: &[
            ("relaxed", "Relaxed"),
            ("regular", "Regular"),
            ("firm", "Firm, for laps"),
            ("race", "Race"),
            ("", "As copied"),
        ],
        applies: any,
    },
    Words {
        key: "neckline",
        label: "Neckline",
        says: "Shape of the front neckline.",
        usual: "scoop",
        options: &[
            ("scoop", "Scoop"),
            ("square", "Square"),
            ("v", "V"),
            ("high", "High"),
        ],
        applies: neckline,
    },
    Words {
        key: "back",
        label: "Back",
        says: "A racer back holds the straps; a low scoop needs them to hold themselves.",
        usual: "scoop",
        options: &[
            ("scoop", "Scoop"),
            ("v", "V"),
            ("racer", "Racer"),
            ("crossed-straps", "Crossed straps"),
        ],
        applies: back,
    },
    Words {
        key: "rise",
        label: "Rise",
        says: "How high the brief comes.",
        usual: "mid",
        options: &[("low", "Low"), ("mid", "Mid"), ("high", "High")],
        applies: rise,
    },
    Words {
        key: "leg",
        label: "Leg",
        says: "How high the leg is cut at the side.",
        usual: "mid",
        options: &[
            ("low", "Low"),
            ("mid", "Mid"),
            ("high", "High"),
            ("extra-high", "Extra high"),
            ("", "By the side seam"),
        ],
        applies: leg,
    },
    Words {
        key: "seat",
        label: "Seat",
        says: "How much of the seat the back covers.",
        usual: "full",
        options: &[("full", "Full"), ("moderate", "Moderate"), ("cheeky", "Half")],
        applies: seat,
    },
    Words {
        key: "bust_shaping",
        label: "Bust",
        says: "How the front is shaped over the bust; as needed lets the dimensions decide.",
        usual: "auto",
        options: &[
            ("auto", "As needed"),
            ("side-dart", "Side dart"),
            ("princess", "Princess seams"),
        ],
        applies: bust,
    },
    Words {
        key: "lining",
        label: "Lining",
        says: "What is lined. None is for a toile.",
        usual: "crotch",
        options: &[
            ("none", "None"),
            ("crotch", "Crotch"),
            ("front", "Front"),
            ("full", "Full"),
        ],
        applies: lining,
    },
    Words {
        key: "cups",
        label: "Cups",
        says: "Marks to sew cups to, or a pocket in the lining to slip them into.",
        usual: "none",
        options: &[("none", "None"), ("marks", "Marks"), ("pocket", "Pocket")],
        applies: cups,
    },
    Words {
        key: "skirt.kind",
        label: "Skirt",
        says: "How full the skirt is.",
        usual: "none",
        options: &[
            ("none", "None"),
            ("flared-panel", "Flared panel"),
            ("quarter-circle", "Quarter circle"),
            ("half-circle", "Half circle"),
            ("full-circle", "Full circle"),
        ],
        applies: skirt,
    },
    Words {
        key: "skirt.join",
        label: "Skirt joins at",
        says: "Where the skirt is sewn to the suit.",
        usual: "waist",
        options: &[
            ("waist", "Waist"),
            ("hip", "Hip"),
            ("underbust", "Under the bust"),
        ],
        applies: skirted,
    },
    Words {
        key: "first_fitting",
        label: "First fitting",
        says: "15 mm at the side seams, to let out.",
        usual: "false",
        options: &[("false", "No"), ("true", "Yes, wide side seams")],
        applies: any,
    },
    Words {
        key: "units",
        label: "Units",
        says: "What comes first; the other stands beside it.",
        usual: "cm",
        options: &[("cm", "cm"), ("in", "inches")],
        applies: any,
    },
];

/// The choices of this suit, the style first: those of a group, or those no group claims.
pub(super) fn choices(suit: &Paper, parts: Option<&Parts>, group: Option<Group>) -> Vec<Choice> {
    let Some(parts) = parts else {
        return Vec::new();
    };
    let (form, age) = parts
        .wearer
        .as_ref()
        .map_or((BodyForm::Woman, None), |(w, _)| (w.form, w.age_years));
    ALL.iter()
        .filter(|w| (w.applies)(&parts.design, form))
        // The unit is changed at the head of the order.
        .filter(|w| w.key != "units" && Group::of_key(w.key, &parts.design) == group)
        .map(|w| {
            let path = path_of(w.key);
            let typed = at_path(&suit.body, &path);
            let value = match typed {
                Some(Value::String(s)) => s.clone(),
                Some(Value::Bool(b)) => b.to_string(),
                _ if w.key == "leg" && has_own_leg(&suit.body) => String::new(),
                _ if w.key == "fit" && at_path(&suit.body, "design.fit_around").is_some() => String::new(),
                // A skirt of no kind said is the usual one.
                _ if w.key == "skirt.kind" && parts.design.skirt.is_some() => "half-circle".to_owned(),
                _ => w.usual.to_owned(),
            };
            let mut options = if w.key == "style" {
                styles(form, age)
            } else {
                w.options.to_vec()
            };
            // Only shown where it is in force: it is chosen by giving a length, or came with a copied suit.
            if ["leg", "fit"].contains(&w.key) && !value.is_empty() {
                options.retain(|(v, _)| !v.is_empty());
            }
            Choice {
                document: suit.id.clone(),
                path,
                label: w.label.to_owned(),
                says: w.says.to_owned(),
                value,
                options: options
                    .into_iter()
                    .map(|(value, label)| ChoiceOption {
                        value: value.to_owned(),
                        label: label.to_owned(),
                    })
                    .collect(),
            }
        })
        .chain(own::choices(&suit.id, &suit.body, parts, group))
        .collect()
}

/// Key and name of every style for this form.
fn styles(form: BodyForm, age: Option<f64>) -> Vec<(&'static str, &'static str)> {
    let of_form = Style::all().iter().filter(|s| s.is_offered(form, age));
    of_form.map(|s| (s.key(), s.spec().name)).collect()
}

fn path_of(key: &str) -> String {
    match key {
        "first_fitting" => "allowances.first_fitting".to_owned(),
        "units" => "units".to_owned(),
        key => format!("design.{key}"),
    }
}

fn has_own_leg(suit: &Value) -> bool {
    ["design.side_seam_length", "design.leg_share"]
        .iter()
        .any(|p| at_path(suit, p).is_some_and(|v| !v.is_null()))
}

/// Name and word of a choice's path and value, for the history: `neckline`, `scoop`.
pub(crate) fn words_of(path: &str, value: &str) -> Option<(String, String)> {
    let Some(words) = ALL.iter().find(|w| path_of(w.key) == path) else {
        return own::words_of(path, value).or_else(|| amount::words_of(path, value));
    };
    let every_style: Vec<_>;
    let options = if words.key == "style" {
        every_style = Style::all().iter().map(|s| (s.key(), s.spec().name)).collect();
        every_style.as_slice()
    } else {
        words.options
    };
    let option = options.iter().find(|(v, _)| *v == value).map(|(_, word)| *word);
    Some((words.label.to_lowercase(), option.unwrap_or(value).to_lowercase()))
}

/// The usual value of a choice's path.
pub(crate) fn usual_of(path: &str) -> Option<&'static str> {
    let shared = ALL.iter().find(|w| path_of(w.key) == path).map(|w| w.usual);
    shared
        .or_else(|| own::usual_of(path))
        .or_else(|| amount::usual_of(path))
}

/// The value at a dotted path.
pub(crate) fn at_path<'a>(body: &'a Value, path: &str) -> Option<&'a Value> {
    path.split('.').try_fold(body, |at, key| at.get(key))
}
