//! The class file: several wearers, one design, the room and its sessions; read with every fault at its place.
//!
//! The sections of the design are those of a suit file, and so is what is said of each wearer: one may stand in the class file itself or
//! in a suit file it names. Out of both a whole suit file is written for every person, so that whatever reads suit files reads hers.
//!
//! **Shapes and units.** Text in, a [`ClassFile`] or [`Faults`] out; other files are read by whoever calls.
//! **Source.** The format is our own; its reference is `docs/class-file.md`, kept equal to the code by a test.

use booklet::Edition;
use make::{ClothInBag, Machine, Pace, Phase, Preset, Workroom};
use toml::de::DeTable;
use units::LengthUnit;
use words::Language;

use crate::suit_file::{
    Fault, FaultKind, Faults, LARGEST_FILE, NumberRange, PaperChoice, Printer, Reader, Section, Span, UNITS,
    WEARER_KEYS, printer, read_format, read_wearer, sewn, syntax_faults,
};
use crate::workroom_file::Room;

/// The sections that say what is sewn, as in a suit file.
pub(crate) const DESIGN_KEYS: [&str; 8] = [
    "shell",
    "lining",
    "mesh",
    "contrast",
    "tested_together",
    "design",
    "allowances",
    "elastic",
];
/// The keys at the top of a class file that a suit file does not have.
pub(crate) const CLASS_KEYS: [&str; 14] = [
    "format", "name", "when", "hours", "units", "language", "printer", "edition", "pace", "bags", "before",
    "machines", "workroom", "suit",
];
/// Keys of a wearer beside those of a suit file.
pub(crate) const PERSON_KEYS: [&str; 2] = ["suit", "carer"];
/// Keys of `[machines]`.
pub(crate) const MACHINE_KEYS: [&str; 4] = ["straight", "zigzag", "overlocker", "coverstitch"];

pub(crate) const LANGUAGES: [(&str, Language); 2] = [("en", Language::English), ("de", Language::German)];
pub(crate) const EDITIONS: [(&str, Edition); 2] = [("class", Edition::Class), ("maker", Edition::Maker)];
pub(crate) const PACES: [(&str, Pace); 2] = [("middle", Pace::Middle), ("slow", Pace::Slow)];
pub(crate) const BAGS: [(&str, ClothInBag); 2] =
    [("lengths", ClothInBag::Lengths), ("pieces", ClothInBag::Pieces)];
pub(crate) const BEFORE: [(&str, Phase); 2] = [("prove", Phase::Prove), ("cut", Phase::Cut)];

const HOURS: NumberRange = NumberRange {
    low: 0.5,
    high: 12.0,
    unit: "h",
    help: "write the hours of one session, without breaks: hours = 3",
};
const MACHINES: NumberRange = NumberRange {
    low: 0.0,
    high: 40.0,
    unit: "",
    help: "write how many of these machines the room has",
};
/// More people than this are two classes.
pub(crate) const MOST_PEOPLE: usize = 60;

/// What a class sews and how, whoever takes part.
#[derive(Clone, Debug, PartialEq)]
pub struct ClassSetting {
    /// What the class is called.
    pub name: String,
    /// When it meets, as it was written; empty if it was not.
    pub when: String,
    /// Minutes of a session.
    pub session: u32,
    /// Unit of lengths on its paper.
    pub units: LengthUnit,
    /// Language of its paper.
    pub language: Language,
    /// Its printer.
    pub printer: Printer,
    /// Edition of the booklets.
    pub edition: Edition,
    /// Which minutes of a step are reckoned with.
    pub pace: Pace,
    /// How the cloth comes into the bags.
    pub bags: ClothInBag,
    /// Parts of the work that are done before the class meets.
    pub before: Vec<Phase>,
    /// The machines, one of each kind, with what is in stock and what was tried.
    pub room: Room,
    /// How many of each there are.
    pub counts: Vec<u32>,
}

impl ClassSetting {
    /// The paper in force: the one that was chosen, or the usual one where inches are used and where they are not.
    pub fn paper(&self) -> PaperChoice {
        let usual = match self.units {
            LengthUnit::In => PaperChoice::Letter,
            LengthUnit::Cm | LengthUnit::Mm => PaperChoice::A4,
        };
        self.printer.paper.unwrap_or(usual)
    }

    /// A class of that name in a room, everything else as usual.
    pub fn new(name: &str, (room, counts): (Room, Vec<u32>)) -> ClassSetting {
        ClassSetting {
            name: name.to_owned(),
            when: String::new(),
            session: 180,
            units: LengthUnit::default(),
            language: Language::default(),
            printer: Printer::default(),
            edition: Edition::Class,
            pace: Pace::default(),
            bags: ClothInBag::default(),
            before: Vec::new(),
            room,
            counts,
        }
    }
}

/// A text that names another file, and where it stands.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct FileName {
    pub(crate) path: String,
    pub(crate) field: String,
    pub(crate) at: Option<Span>,
}

/// A wearer of a class file.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum WearerOf {
    /// Stands in the class file.
    Here(toml::Table),
    /// Is the wearer of a suit file.
    File(FileName),
}

/// One entry of `[[wearers]]`.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Entry {
    pub(crate) of: WearerOf,
    pub(crate) carer: String,
}

/// A class file that reads well.
#[derive(Clone, Debug, PartialEq)]
pub struct ClassFile {
    /// The file, as it was named.
    pub file: String,
    /// What the class sews and how.
    pub setting: ClassSetting,
    /// The suit file of the design; none when the sections stand here.
    pub(crate) suit: Option<FileName>,
    /// The workroom file of the room; none when its machines stand here.
    pub(crate) workroom: Option<FileName>,
    /// The sections that stand here.
    pub(crate) sections: toml::Table,
    pub(crate) wearers: Vec<Entry>,
    text: String,
}

impl ClassFile {
    /// Faults of this file.
    pub fn faults(&self, list: Vec<Fault>) -> Faults {
        Faults::new(&self.file, &self.text, list)
    }

    /// How many take part.
    pub fn people(&self) -> usize {
        self.wearers.len()
    }
}

/// A room: one machine of each kind, and how many of each there are.
pub fn room_of(straight: u32, zigzag: u32, overlocker: u32, coverstitch: u32) -> (Room, Vec<u32>) {
    let all = [
        (Machine::zigzag(), zigzag),
        (Machine::overlocker(), overlocker),
        (Machine::coverstitch(), coverstitch),
        (Machine::straight(), straight),
    ];
    let kept = all.into_iter().filter(|(_, count)| *count > 0);
    let (machines, counts) = kept.unzip();
    let room = Room {
        workroom: Workroom::of(machines),
        ..Room::of(Preset::Zigzag)
    };
    (room, counts)
}

/// A room of which several machines may be alike: one of each kind, and how many of each there are. A kind keeps the name of its first.
pub fn counted(mut room: Room) -> (Room, Vec<u32>) {
    let mut counts: Vec<u32> = Vec::new();
    let mut kinds: Vec<Machine> = Vec::new();
    for machine in std::mem::take(&mut room.workroom.machines) {
        let is_like = |known: &Machine| {
            Machine {
                name: machine.name.clone(),
                ..known.clone()
            } == machine
        };
        match kinds.iter().position(is_like) {
            Some(at) => counts[at] += 1,
            None => {
                kinds.push(machine);
                counts.push(1);
            }
        }
    }
    room.workroom.machines = kinds;
    (room, counts)
}

/// Reads a class file; `file` is what to call it in messages.
///
/// # Errors
/// [`Faults`]: every fault of the file at once, in the order of the text, each with its place.
pub fn read_class(file: &str, bytes: &[u8]) -> Result<ClassFile, Faults> {
    let whole = |message: String, help: &str| Faults::whole(file, FaultKind::Syntax, message, help);
    if bytes.len() > LARGEST_FILE {
        let message = format!(
            "the file has {} bytes; a class file has some thousands",
            bytes.len()
        );
        return Err(whole(message, "check that this is the file you meant"));
    }
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text.strip_prefix('\u{feff}').unwrap_or(text),
        Err(_) => {
            let help = "save it as UTF-8 in your editor, or check that this is the file you meant";
            return Err(whole("the file is not UTF-8 text".to_owned(), help));
        }
    };
    if text.trim().is_empty() {
        let help = "docs/class-file.md shows what stands in one";
        return Err(whole("the file is empty".to_owned(), help));
    }
    let (root, errors) = DeTable::parse_recoverable(text);
    if !errors.is_empty() {
        return Err(Faults::new(file, text, syntax_faults(text, &errors)));
    }
    // The same text once more, as values to write suit files from.
    let values: toml::Table =
        toml::from_str(text).map_err(|e| Faults::new(file, text, syntax_faults(text, &[e])))?;
    let mut reader = Reader::new(text);
    let keys: Vec<&str> = CLASS_KEYS
        .iter()
        .chain(&DESIGN_KEYS)
        .copied()
        .chain(["wearers"])
        .collect();
    let top = reader.root(root.get_ref(), &keys);
    let read = sections(&mut reader, &top, &values);
    match read {
        Some((setting, suit, workroom, wearers)) if reader.faults.is_empty() => Ok(ClassFile {
            file: file.to_owned(),
            setting,
            suit,
            workroom,
            sections: values
                .into_iter()
                .filter(|(key, _)| DESIGN_KEYS.contains(&key.as_str()))
                .collect(),
            wearers,
            text: text.to_owned(),
        }),
        _ => Err(Faults::new(file, text, reader.faults)),
    }
}

type Read = (ClassSetting, Option<FileName>, Option<FileName>, Vec<Entry>);

fn sections(reader: &mut Reader<'_>, top: &Section<'_, '_>, values: &toml::Table) -> Option<Read> {
    read_format(reader, top, "write the file anew after docs/class-file.md");
    // The unit first: every length below is read in it.
    if let Some(unit) = reader.choice(top, "units", &UNITS) {
        reader.unit = unit.value;
    }
    let name = reader.text(top, "name");
    if !top.has("name") {
        reader.missing(top, "name", "give the class a name: name = \"Harbour class\"");
    }
    let when = reader.text(top, "when");
    let hours = reader.number(top, "hours", HOURS);
    if !top.has("hours") {
        reader.missing(top, "hours", "say how long one session is: hours = 3");
    }
    let language = reader.choice(top, "language", &LANGUAGES);
    let edition = reader.choice(top, "edition", &EDITIONS);
    let pace = reader.choice(top, "pace", &PACES);
    let bags = reader.choice(top, "bags", &BAGS);
    let before = before(reader, top);
    let workroom = file_name(reader, top, "workroom");
    let room = machines(reader, top);
    let suit = file_name(reader, top, "suit");
    let printer = design(reader, top);
    let wearers = wearers(reader, top, values);
    let mut setting = ClassSetting::new(&name?.value, room?);
    setting.when = when.map(|w| w.value).unwrap_or_default();
    // Half a minute is no time of a class.
    setting.session = (hours?.value * 60.0).round() as u32;
    setting.units = reader.unit;
    setting.language = language.map(|l| l.value).unwrap_or_default();
    setting.printer = printer;
    setting.edition = edition.map_or(Edition::Class, |e| e.value);
    setting.pace = pace.map(|p| p.value).unwrap_or_default();
    setting.bags = bags.map(|b| b.value).unwrap_or_default();
    setting.before = before;
    // Cut pieces in the bags were cut before.
    if setting.bags == ClothInBag::Pieces && !setting.before.contains(&Phase::Cut) {
        setting.before.push(Phase::Cut);
    }
    Some((setting, suit, workroom, wearers))
}

/// The design: a suit file, or the sections of one. Gives the printer of the class: that of a suit file is another's.
fn design(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Printer {
    let here = DESIGN_KEYS.iter().find(|key| top.has(key));
    match (top.has("suit"), here) {
        (true, Some(key)) => {
            // Notes its place, so that the fault stands there.
            let _ = reader.value(top, key);
            reader.conflict(
                key,
                format!("{key} stands here, and suit names a file that has it"),
                "keep one of the two: suit = \"FILE\", or the sections of the design",
            );
        }
        (true, None) => {}
        (false, Some(_)) => {
            // Read for its faults; what it says is read again with each wearer.
            return sewn(reader, top).printer;
        }
        (false, None) => reader.missing(
            top,
            "suit",
            "name the suit file whose design is sewn: suit = \"../maren-one-piece.toml\"; or write its sections here",
        ),
    }
    printer(reader, top)
}

fn file_name(reader: &mut Reader<'_>, section: &Section<'_, '_>, key: &str) -> Option<FileName> {
    let path = reader.text(section, key)?;
    Some(FileName {
        path: path.value,
        field: section.path_of(key),
        at: Some(path.at),
    })
}

fn before(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Vec<Phase> {
    const HOW: &str = "write before = [\"prove\", \"cut\"]: what is done before the class meets";
    let Some((path, value)) = reader.value(top, "before") else {
        return Vec::new();
    };
    let Some(list) = value.get_ref().as_array() else {
        reader.wrong_type(&path, value, "a list of words", HOW);
        return Vec::new();
    };
    let mut phases = Vec::new();
    for item in list.iter() {
        let word = item.get_ref().as_str();
        match BEFORE.iter().find(|(w, _)| Some(*w) == word) {
            Some((_, phase)) if phases.contains(phase) => {}
            Some((_, phase)) => phases.push(*phase),
            None => reader.fault(Fault {
                kind: FaultKind::NotAllowed,
                field: path.clone(),
                message: format!("{path} does not know this part of the work"),
                label: "not a choice here".into(),
                allowed: BEFORE.iter().map(|(w, _)| format!("\"{w}\"")).collect(),
                help: HOW.into(),
                at: Some(item.span()),
            }),
        }
    }
    phases
}

fn machines(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Option<(Room, Vec<u32>)> {
    const HOW: &str = "write machines = \"zigzag-overlocker\" for one of each, or [machines] with zigzag = 3, overlocker = 1; or workroom = \"FILE\"";
    if top.has("workroom") {
        if top.has("machines") {
            let _ = reader.value(top, "machines");
            reader.conflict(
                "machines",
                "machines stand here, and workroom names a file that has them".into(),
                "keep one of the two",
            );
        }
        // Filled in when the file is read.
        return Some((Room::default(), Vec::new()));
    }
    if !top.has("machines") {
        reader.missing(top, "machines", HOW);
        return None;
    }
    let is_word = reader
        .value(top, "machines")
        .is_some_and(|(_, value)| !value.get_ref().is_table());
    if is_word {
        let presets: Vec<(&str, Preset)> = Preset::ALL.iter().map(|p| (p.key(), *p)).collect();
        let preset = reader.choice(top, "machines", &presets)?.value;
        let room = Room::of(preset);
        let counts = vec![1; room.workroom.machines.len()];
        return Some((room, counts));
    }
    let section = reader.table(top, "machines", &MACHINE_KEYS)?;
    let mut counts = [0; 4];
    for (key, count) in MACHINE_KEYS.iter().zip(&mut counts) {
        let Some(number) = reader.number(&section, key, MACHINES) else {
            continue;
        };
        if number.value.fract() != 0.0 {
            let path = section.path_of(key);
            reader.fault(Fault {
                kind: FaultKind::OutOfRange,
                message: format!("{path} is not a whole number"),
                label: "half a machine".into(),
                allowed: Vec::new(),
                help: MACHINES.help.into(),
                field: path,
                at: Some(number.at),
            });
            continue;
        }
        *count = number.value as u32;
    }
    let [straight, zigzag, overlocker, coverstitch] = counts;
    let room = room_of(straight, zigzag, overlocker, coverstitch);
    if room.0.workroom.machines.is_empty() {
        reader.missing(&section, "zigzag", HOW);
        return None;
    }
    Some(room)
}

fn wearers(reader: &mut Reader<'_>, top: &Section<'_, '_>, values: &toml::Table) -> Vec<Entry> {
    const HOW: &str = "write [[wearers]] on a line of its own for each person, with name, form and dimensions, or suit = \"FILE\"";
    let Some((path, value)) = reader.value(top, "wearers") else {
        reader.missing(top, "wearers", HOW);
        return Vec::new();
    };
    let Some(list) = value.get_ref().as_array() else {
        reader.wrong_type(&path, value, "a list of sections", HOW);
        return Vec::new();
    };
    if list.is_empty() || list.len() > MOST_PEOPLE {
        reader.fault(Fault {
            kind: FaultKind::OutOfRange,
            message: format!("{} wearers are in the class", list.len()),
            label: "too few or too many".into(),
            allowed: vec![format!("1 to {MOST_PEOPLE}")],
            help: HOW.into(),
            field: path,
            at: Some(value.span()),
        });
        return Vec::new();
    }
    let keys: Vec<&str> = WEARER_KEYS.iter().chain(&PERSON_KEYS).copied().collect();
    let tables = values.get("wearers").and_then(|w| w.as_array());
    let mut entries = Vec::new();
    for (at, item) in list.iter().enumerate() {
        // Counted from 1, as people count.
        let path = format!("wearers[{}]", at + 1);
        let Some(section) = reader.item(&path, item, &keys, HOW) else {
            continue;
        };
        let carer = reader
            .text(&section, "carer")
            .map(|c| c.value)
            .unwrap_or_default();
        let file = file_name(reader, &section, "suit");
        if section.has("suit") {
            if let Some(key) = WEARER_KEYS.iter().find(|key| section.has(key)) {
                let _ = reader.value(&section, key);
                reader.conflict(
                    &section.path_of(key),
                    format!("{path}: {key} stands here, and suit names a file that has it"),
                    "keep one of the two: suit = \"FILE\", or what the tape found",
                );
            }
            entries.extend(file.map(|file| Entry {
                of: WearerOf::File(file),
                carer,
            }));
            continue;
        }
        let table = tables.and_then(|t| t.get(at)).and_then(|t| t.as_table());
        if read_wearer(reader, &section).is_some()
            && let Some(table) = table
        {
            let mut table = table.clone();
            table.remove("carer");
            entries.push(Entry {
                of: WearerOf::Here(table),
                carer,
            });
        }
    }
    entries
}

/// The keys and words of the format, for the test that holds `docs/class-file.md` against it.
pub fn class_reference() -> (Vec<&'static str>, Vec<&'static str>) {
    let keys = CLASS_KEYS
        .iter()
        .chain(&PERSON_KEYS)
        .chain(&MACHINE_KEYS)
        .copied()
        .chain(["wearers"]);
    let words = LANGUAGES
        .iter()
        .map(|w| w.0)
        .chain(EDITIONS.iter().map(|w| w.0))
        .chain(PACES.iter().map(|w| w.0))
        .chain(BAGS.iter().map(|w| w.0))
        .chain(BEFORE.iter().map(|w| w.0))
        .chain(Preset::ALL.iter().map(|p| p.key()));
    (keys.collect(), words.collect())
}
