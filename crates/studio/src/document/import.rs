//! A suit file taken apart into the studio's documents.
//!
//! The file must read well first: what is imported can be worked with at once.

use body::Dimension;
use draft::{ParameterKind, Style};
use serde_json::{Map, Value as Json, json};
use toml::Value as Toml;

use crate::suit_file::{Faults, read_text};

/// The documents of an imported suit file, without ids: the suit names none yet.
#[derive(Clone, Debug, PartialEq)]
pub struct Imported {
    /// The suit.
    pub suit: Json,
    /// The wearer.
    pub wearer: Json,
    /// The outer cloth.
    pub shell: Json,
    /// The lining.
    pub lining: Option<Json>,
    /// The mesh.
    pub mesh: Option<Json>,
    /// The second outer cloth.
    pub contrast: Option<Json>,
    /// The printer, for a workroom that knows none yet.
    pub printer: Option<Json>,
}

/// Takes a suit file apart; `file` is what to call it in messages.
///
/// # Errors
/// [`Faults`] as `slackwater check` tells them.
pub fn import(file: &str, text: &str) -> Result<Imported, Faults> {
    let suit_file = read_text(file, text)?;
    let table: toml::Table = toml::from_str(suit_file.text())
        .map_err(|error| Faults::whole(file, crate::suit_file::FaultKind::Syntax, error.to_string(), ""))?;
    let unit = suit_file.units.symbol();
    let mut file = to_json(&Toml::Table(table));
    let Some(map) = file.as_object_mut() else {
        return Err(Faults::whole(
            &suit_file.file,
            crate::suit_file::FaultKind::Syntax,
            "the file is empty".into(),
            "",
        ));
    };
    let mut wearer = map.remove("wearer").unwrap_or_default();
    if let Some(dimensions) = wearer.get_mut("dimensions").and_then(Json::as_object_mut) {
        for value in dimensions.values_mut() {
            *value = readings_of(value, unit);
        }
    }
    with_unit_in(
        &mut wearer,
        &["right"],
        &Dimension::SIDED.map(Dimension::key),
        unit,
    );
    let mut cloth = |role: &str| {
        map.remove(role).map(|mut cloth| {
            for path in [&["along"][..], &["across"], &["load"]] {
                with_unit_in(&mut cloth, path, &["rest", "pulled", "back_to", "strip"], unit);
            }
            with_unit_in(&mut cloth, &[], &["width"], unit);
            if let Some(readings) = cloth.get_mut("force_readings").and_then(Json::as_array_mut) {
                for reading in readings {
                    with_unit_in(reading, &[], &["strip"], unit);
                }
            }
            if let Some(cloth) = cloth.as_object_mut() {
                // A second outer cloth is an outer cloth.
                let role = if role == "contrast" { "shell" } else { role };
                cloth.insert("role".into(), json!(role));
            }
            cloth
        })
    };
    let (shell, lining, mesh, contrast) = (cloth("shell"), cloth("lining"), cloth("mesh"), cloth("contrast"));
    let mut printer = map.remove("printer");
    if let Some(printer) = printer.as_mut().and_then(Json::as_object_mut)
        && let Some(Json::Array(sides)) = printer.remove("measured_square")
        && let [across, down] = sides.as_slice()
    {
        printer.insert("square".into(), json!({ "across": across, "down": down }));
    }
    let mut elastic = map.remove("elastic");
    if let Some(elastic) = &mut elastic {
        with_unit_in(elastic, &[], &["width"], unit);
    }
    let mut suit = Map::new();
    suit.insert("name".into(), json!(suit_file.name));
    suit.insert("units".into(), json!(unit));
    suit.insert("notes".into(), json!(suit_file.notes));
    for (name, lengths) in [
        ("design", &DESIGN_LENGTHS[..]),
        ("allowances", &["seam", "side_seam", "crotch", "hem"]),
        ("tested_together", &[]),
    ] {
        if let Some(mut section) = map.remove(name) {
            with_unit_in(&mut section, &[], lengths, unit);
            with_unit_in(&mut section, &["skirt"], &["cover"], unit);
            with_unit_in(&mut section, &["closure"], &["length"], unit);
            with_unit_in(
                &mut section,
                &["figure"],
                crate::suit_file::section_keys("design.figure"),
                unit,
            );
            if name == "design" {
                with_unit_in(&mut section, &[], &own_lengths(), unit);
            }
            for path in ["around", "lengthwise", "load"] {
                with_unit_in(
                    &mut section,
                    &[path],
                    &["rest", "pulled", "back_to", "strip"],
                    unit,
                );
            }
            suit.insert(name.into(), section);
        }
    }
    if let Some(elastic) = elastic {
        suit.insert("elastic_choice".into(), elastic);
    }
    Ok(Imported {
        suit: Json::Object(suit),
        wearer,
        shell: shell.unwrap_or_default(),
        lining,
        mesh,
        contrast,
        printer,
    })
}

const DESIGN_LENGTHS: [&str; 6] = [
    "growth",
    "neck_depth_below_pit",
    "back_depth_below_nape",
    "strap_width",
    "side_seam_length",
    "crotch_width",
];

/// Keys of the lengths that styles have for themselves.
fn own_lengths() -> Vec<&'static str> {
    let own = Style::all().iter().flat_map(|s| s.spec().own);
    let mut keys: Vec<&str> = own
        .filter(|p| matches!(p.kind, ParameterKind::Length { .. }))
        .map(|p| p.key)
        .collect();
    keys.sort_unstable();
    keys.dedup();
    keys
}

fn readings_of(value: &Json, unit: &str) -> Json {
    match value {
        Json::Object(pair) => {
            let list: Vec<Json> = ["value", "second"]
                .iter()
                .filter_map(|key| pair.get(*key))
                .map(|v| with_unit(v, unit))
                .collect();
            json!({ "readings": list })
        }
        one => json!({ "readings": [with_unit(one, unit)] }),
    }
}

/// A bare number as a text with the file's unit, so that it means the same in a suit of another unit.
fn with_unit(value: &Json, unit: &str) -> Json {
    match value {
        Json::Number(n) => Json::String(format!("{n} {unit}")),
        other => other.clone(),
    }
}

fn with_unit_in(body: &mut Json, path: &[&str], keys: &[&str], unit: &str) {
    let Some(inner) = path.iter().try_fold(body, |at, key| at.get_mut(*key)) else {
        return;
    };
    let Some(map) = inner.as_object_mut() else {
        return;
    };
    for key in keys {
        if let Some(value) = map.get_mut(*key) {
            *value = with_unit(value, unit);
        }
    }
}

fn to_json(value: &Toml) -> Json {
    match value {
        Toml::String(s) => Json::String(s.clone()),
        Toml::Integer(i) => json!(i),
        Toml::Float(f) => json!(f),
        Toml::Boolean(b) => Json::Bool(*b),
        Toml::Datetime(d) => Json::String(d.to_string()),
        Toml::Array(list) => Json::Array(list.iter().map(to_json).collect()),
        Toml::Table(table) => Json::Object(table.iter().map(|(k, v)| (k.clone(), to_json(v))).collect()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::{SuitPapers, compose};
    use crate::suit_file::read_text;
    use crate::version::version_id;

    #[test]
    fn a_second_cloth_and_every_length_come_along_with_their_unit() {
        let file =
            std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/maren-one-piece.toml");
        let text = std::fs::read_to_string(file).unwrap();
        let text = format!(
            "{text}\n[contrast]\nname = \"Kelp print\"\nalong = {{ stretch = 60 }}\nacross = {{ stretch = 80 }}\nwidth = 140\n\
             [wearer.right]\nside_length = 22.4\n[design.closure]\nlength = 18\n[design.figure]\nseat = 1\n"
        );
        let parts = import("maren", &text).unwrap();
        assert_eq!(parts.contrast.unwrap()["role"], "shell");
        assert_eq!(parts.wearer["right"]["side_length"], "22.4 cm");
        assert_eq!(parts.suit["design"]["closure"]["length"], "18 cm");
        assert_eq!(parts.suit["design"]["figure"]["seat"], "1 cm");
    }

    /// Taken apart and put together again a suit is the same suit: same version id, in every example.
    #[test]
    fn every_example_survives_being_taken_apart() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
        let mut seen = 0;
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            // Workrooms lie in a folder of their own.
            if path.is_dir() {
                continue;
            }
            let text = std::fs::read_to_string(&path).unwrap();
            let name = path.display().to_string();
            let before = read_text(&name, &text).unwrap();
            let parts = import(&name, &text).unwrap();
            let again = compose(&SuitPapers {
                suit: Some(&parts.suit),
                wearer: Some(&parts.wearer),
                shell: Some(&parts.shell),
                lining: parts.lining.as_ref(),
                mesh: parts.mesh.as_ref(),
                contrast: parts.contrast.as_ref(),
                elastic: None,
                workroom: parts.printer.as_ref(),
            });
            let after = read_text(&name, &again).unwrap_or_else(|f| panic!("{f}\n{again}"));
            assert_eq!(version_id(&before), version_id(&after), "{name}");
            assert_eq!(before.second, after.second, "{name}");
            assert_eq!(before.printer, after.printer, "{name}");
            seen += 1;
        }
        assert!(seen >= 6);
    }
}
