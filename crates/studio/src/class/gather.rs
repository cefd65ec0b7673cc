//! From a class file to people: each with a whole suit file of her own.
//!
//! The design's sections and the wearer's come from different files, perhaps in different units. A bare number among the dimensions is
//! given the unit it was written in, and everything else stays as it was written.

use toml::{Table, Value};
use units::LengthUnit;

use super::file::{ClassFile, ClassSetting, DESIGN_KEYS, FileName, WearerOf, counted};
use crate::app::file_safe;
use crate::suit_file::{Fault, FaultKind, Faults, PaperChoice, SuitFile, read_parts, read_text};
use crate::workroom_file::read_room_bytes;

/// Someone who takes part.
#[derive(Clone, Debug, PartialEq)]
pub struct Person {
    /// Her name.
    pub name: String,
    /// Her folder, no two alike.
    pub folder: String,
    /// Who comes along with a child; empty if nobody was named.
    pub carer: String,
    /// Her suit file.
    pub text: String,
    /// The same, read; the faults when it does not read.
    pub suit: Result<SuitFile, Vec<Fault>>,
}

/// Names of folders out of names of people: the second of two alike gets a number.
pub fn folders(names: &[&str]) -> Vec<String> {
    let mut taken: Vec<String> = Vec::new();
    for name in names {
        let plain = file_safe(name);
        let mut folder = plain.clone();
        let mut number = 1;
        while taken.contains(&folder) {
            number += 1;
            folder = format!("{plain}-{number}");
        }
        taken.push(folder);
    }
    taken
}

/// The room and the people of a class file. `load` reads a file named in it.
///
/// # Errors
/// [`Faults`] of the class file for files that cannot be read, or of the first file that does not read well.
pub fn gather(
    class: &ClassFile,
    load: &dyn Fn(&str) -> Result<Vec<u8>, String>,
) -> Result<(ClassSetting, Vec<Person>), Faults> {
    let mut setting = class.setting.clone();
    if let Some(name) = &class.workroom {
        let bytes = load(&name.path).map_err(|why| class.faults(vec![unread(name, &why)]))?;
        let room = read_room_bytes(&name.path, &bytes)?;
        if room.is_assumed {
            let none = unread(name, "no machine is written down in it");
            return Err(class.faults(vec![Fault {
                kind: FaultKind::MissingKey,
                help: "write [[machines]] into the workroom file, or [machines] here".into(),
                ..none
            }]));
        }
        (setting.room, setting.counts) = counted(room);
    }
    let (sections, unit) = match &class.suit {
        Some(name) => design_of(class, name, load)?,
        None => (class.sections.clone(), class.setting.units),
    };
    let mut missing = Vec::new();
    let mut wearers: Vec<(Table, LengthUnit)> = Vec::new();
    for entry in &class.wearers {
        match &entry.of {
            WearerOf::Here(table) => wearers.push((table.clone(), class.setting.units)),
            WearerOf::File(name) => match load(&name.path) {
                Ok(bytes) => wearers.push(wearer_of(&name.path, &bytes)?),
                Err(why) => missing.push(unread(name, &why)),
            },
        }
    }
    if !missing.is_empty() {
        return Err(class.faults(missing));
    }
    let names: Vec<String> = wearers.iter().map(|(table, _)| name_of(table)).collect();
    let plain: Vec<&str> = names.iter().map(String::as_str).collect();
    let folders = folders(&plain);
    let people = wearers
        .into_iter()
        .zip(&class.wearers)
        .zip(names.iter().zip(folders));
    let people = people
        .map(|(((table, own), entry), (name, folder))| {
            let text = suit_text(class, &sections, unit, table, own, name);
            let suit = read_text(&format!("{folder}/suit.toml"), &text).map_err(|f| f.list);
            Person {
                name: name.clone(),
                folder,
                carer: entry.carer.clone(),
                text,
                suit,
            }
        })
        .collect();
    Ok((setting, people))
}

fn name_of(wearer: &Table) -> String {
    let name = wearer.get("name").and_then(Value::as_str);
    name.unwrap_or("wearer").trim().to_owned()
}

fn unread(name: &FileName, why: &str) -> Fault {
    Fault {
        kind: FaultKind::File,
        field: name.field.clone(),
        message: format!("{}: {why}", name.path),
        label: "named here".into(),
        allowed: Vec::new(),
        help: "write the path from the folder this file is in".into(),
        at: name.at.clone(),
    }
}

/// The text of a file as values, its unit, and what is wrong with the part that is wanted.
fn parsed(file: &str, bytes: &[u8], is_wanted: impl Fn(&str) -> bool) -> Result<(Table, LengthUnit), Faults> {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return Err(Faults::whole(
            file,
            FaultKind::Syntax,
            "the file is not UTF-8 text".to_owned(),
            "save it as UTF-8 in your editor, or check that this is the file you meant",
        ));
    };
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let parts = read_parts(file, text)?;
    let faults: Vec<Fault> = parts
        .faults
        .into_iter()
        .filter(|f| is_wanted(f.field.split('.').next().unwrap_or("")))
        .collect();
    if !faults.is_empty() {
        return Err(Faults::new(file, text, faults));
    }
    let values = toml::from_str(text).map_err(|e| {
        let help = "write it as docs/suit-file.md says";
        Faults::whole(file, FaultKind::Syntax, e.message().to_owned(), help)
    })?;
    Ok((values, parts.units))
}

fn design_of(
    class: &ClassFile,
    name: &FileName,
    load: &dyn Fn(&str) -> Result<Vec<u8>, String>,
) -> Result<(Table, LengthUnit), Faults> {
    let bytes = load(&name.path).map_err(|why| class.faults(vec![unread(name, &why)]))?;
    let wanted = |section: &str| !matches!(section, "wearer" | "name" | "notes");
    let (values, unit) = parsed(&name.path, &bytes, wanted)?;
    let kept = values
        .into_iter()
        .filter(|(key, _)| DESIGN_KEYS.contains(&key.as_str()));
    Ok((kept.collect(), unit))
}

fn wearer_of(file: &str, bytes: &[u8]) -> Result<(Table, LengthUnit), Faults> {
    let wanted = |section: &str| matches!(section, "wearer" | "format" | "units");
    let (mut values, unit) = parsed(file, bytes, wanted)?;
    match values.remove("wearer") {
        Some(Value::Table(table)) => Ok((table, unit)),
        _ => Err(Faults::whole(
            file,
            FaultKind::MissingKey,
            "the file has no [wearer]".to_owned(),
            "name a suit file with the wearer in it",
        )),
    }
}

/// Her whole suit file.
fn suit_text(
    class: &ClassFile,
    sections: &Table,
    unit: LengthUnit,
    mut wearer: Table,
    own: LengthUnit,
    name: &str,
) -> String {
    if own != unit {
        for key in ["dimensions", "right"] {
            if let Some(lengths) = wearer.get_mut(key) {
                with_unit(lengths, own);
            }
        }
    }
    let mut suit = sections.clone();
    let setting = &class.setting;
    suit.insert("format".into(), Value::Integer(crate::suit_file::FORMAT));
    suit.insert("name".into(), Value::String(suit_name(&setting.name, name)));
    suit.insert("units".into(), Value::String(unit.symbol().to_owned()));
    let paper = match setting.paper() {
        PaperChoice::A4 => "A4",
        PaperChoice::Letter => "Letter",
    };
    let mut printer = Table::new();
    printer.insert("paper".into(), Value::String(paper.to_owned()));
    if let Some([across, down]) = setting.printer.measured_square_mm {
        let square = vec![Value::Float(across), Value::Float(down)];
        printer.insert("measured_square".into(), Value::Array(square));
    }
    if let Some(edge) = setting.printer.white_edge {
        printer.insert("white_edge".into(), Value::String(format!("{} mm", edge.get())));
    }
    suit.insert("printer".into(), Value::Table(printer));
    suit.insert("wearer".into(), Value::Table(wearer));
    let body = toml::to_string(&suit).unwrap_or_default();
    format!("# {name}: written by slackwater class.\n{body}")
}

/// What a person's suit is called: class and name, within the length of a name.
pub fn suit_name(class: &str, person: &str) -> String {
    format!("{class}, {person}").chars().take(120).collect()
}

/// Bare numbers as texts with their unit.
fn with_unit(value: &mut Value, unit: LengthUnit) {
    match value {
        Value::Integer(number) => *value = Value::String(format!("{number} {}", unit.symbol())),
        Value::Float(number) => *value = Value::String(format!("{number} {}", unit.symbol())),
        Value::Table(table) => {
            for (_, inner) in table.iter_mut() {
                with_unit(inner, unit);
            }
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::folders;

    #[test]
    fn two_of_one_name_get_two_folders() {
        assert_eq!(
            folders(&["Tove", "Ada", "Tove", "tove!"]),
            ["tove", "ada", "tove-2", "tove-3"]
        );
    }
}
