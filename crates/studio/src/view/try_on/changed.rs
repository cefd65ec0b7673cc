//! What changed from one version of a suit to the next, in sentences, both units beside each other.
//!
//! Compared are the suit files: so a dimension taken anew and a cloth changed for another are told as well as the design.

use std::collections::BTreeMap;

use toml::Value;
use units::{LengthUnit, Mm};

use crate::view::{length, shape, told};

/// The sections that make a suit; a name, a note or a printer changes no cloth.
const SECTIONS: [&str; 9] = [
    "wearer",
    "shell",
    "lining",
    "mesh",
    "contrast",
    "tested_together",
    "design",
    "allowances",
    "elastic",
];
/// Keys that change nothing that is cut: remarks, money, second readings.
const IDLE: [&str; 4] = ["notes", "price", "second", "mass_kg"];

/// One sentence for each thing that differs, in the order of the file.
pub(super) fn sentences(before: &str, after: &str, unit: LengthUnit) -> Vec<String> {
    let (Ok(before), Ok(after)) = (before.parse::<toml::Table>(), after.parse::<toml::Table>()) else {
        return Vec::new();
    };
    let mut all = Vec::new();
    for section in SECTIONS {
        let (old, new) = (flat(&before, section), flat(&after, section));
        if let Some(words) = whole(section, &old, &new) {
            all.push(words);
            continue;
        }
        let mut keys: Vec<&String> = old.keys().chain(new.keys()).collect();
        keys.sort_unstable();
        keys.dedup();
        for key in keys {
            let (was, is) = (old.get(key), new.get(key));
            if was != is {
                all.push(one(section, key, was, is, unit));
            }
        }
    }
    all
}

/// A section's keys with their values, nested ones dotted; a reading with its second is the first.
fn flat(file: &toml::Table, section: &str) -> BTreeMap<String, Value> {
    fn put(into: &mut BTreeMap<String, Value>, path: &str, value: &Value) {
        let last = path.rsplit('.').next().unwrap_or_default();
        if IDLE.contains(&last) {
            return;
        }
        match value {
            Value::Table(table) => {
                for (key, value) in table {
                    let path = match (path, key.as_str()) {
                        ("", key) => key.to_owned(),
                        (path, "value") => path.to_owned(),
                        (path, key) => format!("{path}.{key}"),
                    };
                    put(into, &path, value);
                }
            }
            value => {
                into.insert(path.to_owned(), value.clone());
            }
        }
    }
    let mut all = BTreeMap::new();
    if let Some(value) = file.get(section) {
        put(&mut all, "", value);
    }
    all
}

/// What is said of a section as a whole: another cloth, another wearer, one put in or taken out.
fn whole(section: &str, old: &BTreeMap<String, Value>, new: &BTreeMap<String, Value>) -> Option<String> {
    let title = told::capital(&section.replace('_', " "));
    let is_tests = section == "tested_together";
    match (old.is_empty(), new.is_empty()) {
        (true, true) => return None,
        (true, false) if is_tests => return Some("Shell and lining tested together.".into()),
        (false, true) if is_tests => return Some("Shell and lining no longer tested together.".into()),
        _ => {}
    }
    let name = |of: &BTreeMap<String, Value>| of.get("name").and_then(Value::as_str).map(str::to_owned);
    match (name(old), name(new)) {
        (Some(was), Some(is)) if was != is => Some(format!("{title}: {was} to {is}.")),
        (None, Some(is)) if old.is_empty() => Some(format!("{title} put in: {is}.")),
        (Some(was), None) if new.is_empty() => Some(format!("{title} taken out: {was}.")),
        _ => None,
    }
}

fn one(section: &str, key: &str, was: Option<&Value>, is: Option<&Value>, unit: LengthUnit) -> String {
    let path = format!("{section}.{key}");
    let label = told::capital(&match section {
        "design" => design_label(key),
        "allowances" => format!("{} allowance", key.replace('_', " ")),
        "wearer" => told::field_name(key, None),
        _ => format!("{}, {}", section.replace('_', " "), told::field_name(key, None)),
    });
    let usual = shape::usual_of(&path).map(|u| Value::String(u.to_owned()));
    match (was.or(usual.as_ref()), is.or(usual.as_ref())) {
        (Some(was), Some(is)) => between(&label, &path, was, is, unit),
        (None, Some(is)) => format!("{label} set to {}.", said(&path, is, unit).0),
        (Some(was), None) => format!("{label} back to the usual, from {}.", said(&path, was, unit).0),
        (None, None) => format!("{label} changed."),
    }
}

fn between(label: &str, path: &str, was: &Value, is: &Value, unit: LengthUnit) -> String {
    let ((was, was_second), (is, is_second)) = (said(path, was, unit), said(path, is, unit));
    match (was_second, is_second) {
        (Some(a), Some(b)) => format!("{label} {was} to {is} ({a} to {b})."),
        _ => format!("{label} {was} to {is}."),
    }
}

fn design_label(key: &str) -> String {
    let name = match key {
        "neck_depth" | "neck_depth_below_pit" => "neckline depth",
        "back_depth" | "back_depth_below_nape" => "back depth",
        "strap_width" => "strap",
        "leg" | "leg_share" => "leg height",
        "side_seam_length" => "side seam",
        "cover" | "skirt.cover" => "skirt, below the crotch",
        "skirt.kind" => "skirt",
        "skirt.join" => "skirt join",
        "skirt.flare" => "skirt flare",
        _ => return key.replace(['_', '.'], " "),
    };
    name.to_owned()
}

/// A value in words, and a length in the other unit.
fn said(path: &str, value: &Value, unit: LengthUnit) -> (String, Option<String>) {
    match value {
        Value::String(text) => match units::parse_length(text, unit) {
            Ok(mm) => both(mm, unit),
            Err(_) => {
                let word = shape::words_of(path, text).map_or_else(|| text.clone(), |(_, word)| word);
                (word, None)
            }
        },
        Value::Boolean(yes) => ((if *yes { "yes" } else { "no" }).to_owned(), None),
        Value::Integer(n) => (n.to_string(), None),
        Value::Float(x) => (crate::suit_file::trimmed(*x, 3), None),
        other => (other.to_string(), None),
    }
}

fn both(mm: Mm, unit: LengthUnit) -> (String, Option<String>) {
    let shown = length(mm, unit);
    (shown.text(), Some(shown.second))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_changed_is_said_in_her_words() {
        let before = "[design]\nstrap_width = \"42 mm\"\nneck_depth = 0.45\nfit = \"firm\"\n[shell]\nname = \"Slate tricot\"\nprice = 9\n\
                      [wearer.dimensions]\nwaist_girth = { value = \"73.0 cm\", second = \"73.6 cm\" }\n";
        let after = "[design]\nstrap_width = \"38 mm\"\n[shell]\nname = \"Kelp print\"\nprice = 12\n[lining]\nname = \"Oat lining\"\n\
                     [wearer.dimensions]\nwaist_girth = \"70.2 cm\"\n";
        let told = sentences(before, after, LengthUnit::Cm);
        assert_eq!(
            told,
            [
                "Waist girth 73.0 cm to 70.2 cm (28¾ in to 27⅝ in).",
                "Shell: Slate tricot to Kelp print.",
                "Lining put in: Oat lining.",
                "Fit firm, for laps to regular.",
                "Neckline depth back to the usual, from 0.45.",
                "Strap 4.2 cm to 3.8 cm (1⅝ in to 1½ in).",
            ]
        );
        assert!(sentences(before, before, LengthUnit::Cm).is_empty());
    }
}
