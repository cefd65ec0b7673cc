//! The workroom and the sample book of the studio's documents: written as one workroom file, and read as one.
//!
//! A page sends what was typed; what cannot be read is a fault of that document at that field, and everything else still counts.
//! Documents of older studios are read too: a machine that is a word (`zigzag`), needles and threads as remarks, samples
//! whose settings are a sentence.
//!
//! **Shapes and units.** Bodies are JSON, lengths texts with their unit. Of a cloth the stock, the price and the wet test are used.

use make::Machine;
use serde_json::Value as Json;
use toml::{Table, Value as Toml};
use units::LengthUnit;

use super::worked::Paper;
use crate::laying_kept::at_hand_of;
use crate::suit_file::{FORMAT, Fault};
use crate::workroom_file::{
    ELASTIC_KEYS, IRON_KEYS, MACHINE_KEYS, NEEDLE_KEYS, PRICE_KEYS, Room, SEAM_KEYS, STOCK_KEYS, TERM_KEYS,
    THREAD_KEYS, read_room_parts,
};

/// The documents a room is read from.
#[derive(Clone, Debug, Default)]
pub struct RoomPapers<'a> {
    /// The workroom, if anything of it is written.
    pub workroom: Option<&'a Paper>,
    /// Samples, the oldest first.
    pub samples: Vec<&'a Paper>,
    /// Elastics.
    pub elastics: Vec<&'a Paper>,
    /// Cloths: a sample names its cloth by id.
    pub cloths: Vec<&'a Paper>,
}

/// A fault of a document that the room was read from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RoomFault {
    /// Id of the document.
    pub document: String,
    /// Path in its body: `relaxed`, or `machines` for what stands in a list.
    pub path: String,
    /// What is wrong. Its `field` is the path in the workroom file: `machines[2].kind`.
    pub fault: Fault,
}

/// A room read from documents.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadRoom {
    /// What could be read.
    pub room: Room,
    /// What could not, in the order of the file.
    pub faults: Vec<RoomFault>,
    /// The workroom file of them.
    pub text: String,
}

impl Default for ReadRoom {
    fn default() -> Self {
        room_of(&RoomPapers::default())
    }
}

/// Reads the workroom, the samples and what cloths and elastics have in stock.
pub fn room_of(papers: &RoomPapers<'_>) -> ReadRoom {
    let mut writer = Writer::default();
    if let Some(workroom) = papers.workroom {
        writer.workroom(workroom);
    }
    // One document may be chosen twice: it is there once.
    for (at, cloth) in papers.cloths.iter().enumerate() {
        if !papers.cloths.iter().take(at).any(|c| c.id == cloth.id) {
            writer.cloth(cloth);
        }
    }
    for (at, elastic) in papers.elastics.iter().enumerate() {
        if !papers.elastics.iter().take(at).any(|e| e.id == elastic.id) {
            writer.elastic(elastic);
        }
    }
    let mut samples = papers.samples.clone();
    // Of two alike the later counts: by the day they were sewn, then as they were written down.
    samples.sort_by_key(|s| text(&s.body, "on").to_owned());
    for sample in samples {
        writer.sample(sample, &papers.cloths);
    }
    let (file, homes) = writer.finish();
    let text = file.to_string();
    match read_room_parts("the workroom", &text) {
        Ok((room, faults)) => ReadRoom {
            faults: faults.into_iter().map(|f| homes.at_home(f)).collect(),
            room,
            text,
        },
        // What a TOML writer wrote is TOML.
        Err(faults) => ReadRoom {
            faults: faults.list.into_iter().map(|f| homes.at_home(f)).collect(),
            room: Room::default(),
            text,
        },
    }
}

/// Which document each item of each list came from.
#[derive(Default)]
struct Homes {
    workroom: String,
    items: Vec<(&'static str, Vec<Home>)>,
}

/// The document of an item, and its path there when it is not the field's own name.
struct Home {
    document: String,
    list: Option<&'static str>,
}

impl Homes {
    fn at_home(&self, fault: Fault) -> RoomFault {
        let (head, rest) = fault.field.split_once('.').unwrap_or((&fault.field, ""));
        let (list, index) = head.split_once('[').unwrap_or((head, ""));
        let index = index.trim_end_matches(']').parse::<usize>().ok();
        let home = self
            .items
            .iter()
            .find(|(name, _)| *name == list)
            .zip(index)
            .and_then(|((_, homes), index)| homes.get(index.checked_sub(1)?));
        let (document, path) = match home {
            Some(home) => (
                home.document.clone(),
                match home.list {
                    Some(list) => list.to_owned(),
                    None => own_path(list, rest).to_owned(),
                },
            ),
            None => (self.workroom.clone(), head.to_owned()),
        };
        RoomFault {
            document,
            path,
            fault,
        }
    }
}

/// A field's name in its own document, where that is another.
fn own_path<'a>(list: &str, field: &'a str) -> &'a str {
    match (list, field) {
        ("stock", "amount") => "stock",
        ("prices", "pack") => "price",
        _ => field,
    }
}

#[derive(Default)]
struct Writer {
    top: Table,
    homes: Homes,
}

impl Writer {
    fn put(&mut self, list: &'static str, item: Table, document: &str, at: Option<&'static str>) {
        let entry = self.top.entry(list).or_insert_with(|| Toml::Array(Vec::new()));
        if let Toml::Array(items) = entry {
            items.push(Toml::Table(item));
        }
        let home = Home {
            document: document.to_owned(),
            list: at,
        };
        match self.homes.items.iter_mut().find(|(name, _)| *name == list) {
            Some((_, homes)) => homes.push(home),
            None => self.homes.items.push((list, vec![home])),
        }
    }

    fn workroom(&mut self, paper: &Paper) {
        self.homes.workroom.clone_from(&paper.id);
        for (list, keys) in [
            ("machines", &MACHINE_KEYS[..]),
            ("needles", &NEEDLE_KEYS),
            ("threads", &THREAD_KEYS),
            ("stock", &STOCK_KEYS),
            ("prices", &PRICE_KEYS),
        ] {
            // Needles and threads were remarks once; those are no list.
            for item in paper
                .body
                .get(list)
                .and_then(Json::as_array)
                .into_iter()
                .flatten()
            {
                let mut table = chosen(item, keys);
                if list == "machines" {
                    machine_of_a_word(item, &mut table);
                }
                self.put(list, table, &paper.id, Some(list));
            }
        }
        if let Some(terms) = paper.body.get("terms").filter(|t| t.is_object()) {
            let table = chosen(terms, &TERM_KEYS);
            if !table.is_empty() {
                self.top.insert("terms".into(), Toml::Table(table));
            }
        }
    }

    fn cloth(&mut self, paper: &Paper) {
        let name = text(&paper.body, "name");
        if name.is_empty() {
            return;
        }
        let of = |word: &str| {
            let mut table = Table::new();
            table.insert("cloth".into(), Toml::String(name.to_owned()));
            if !word.is_empty() {
                table.insert("item".into(), Toml::String(word.to_owned()));
            }
            table
        };
        if let Some(stock) = amount(&paper.body) {
            let mut table = of("cloth");
            table.insert("amount".into(), stock);
            self.put("stock", table, &paper.id, None);
        }
        if let Some(price) = number(&paper.body, "price") {
            let mut table = of("cloth");
            table.insert("pack".into(), Toml::String("1 m".into()));
            table.insert("price".into(), price);
            self.put("prices", table, &paper.id, None);
        }
        // What cannot be read of them the cloth's own page says.
        for piece in at_hand_of(&paper.body).into_iter().flatten() {
            let mm = |mm: f64| Toml::String(format!("{mm:.1} mm"));
            let mut table = of("");
            if !piece.words.trim().is_empty() {
                table.insert("words".into(), Toml::String(piece.words.trim().to_owned()));
            }
            match &piece.corners {
                Some(corners) => {
                    let all = corners.iter().map(|p| Toml::Array(vec![mm(p.x), mm(p.y)]));
                    table.insert("corners".into(), Toml::Array(all.collect()));
                }
                None => {
                    table.insert("width".into(), mm(piece.width_mm));
                    table.insert("length".into(), mm(piece.length_mm));
                }
            }
            self.put("remnants", table, &paper.id, Some("at_hand"));
        }
        let wet = match text(&paper.body, "wet") {
            "" => return,
            // The cloth's page says how much is seen; the test, when.
            "shows" => "shows-stretched",
            "sheer" => "shows",
            other => other,
        };
        let mut table = of("");
        table.insert("wet".into(), Toml::String(wet.to_owned()));
        self.put("wets", table, &paper.id, None);
    }

    fn elastic(&mut self, paper: &Paper) {
        let body = &paper.body;
        // Without kind and width nothing can be said of it; a new one has neither.
        let of = chosen(body, &["kind", "width"]);
        if of.len() < 2 {
            return;
        }
        let of_item = |of: &Table| {
            let mut table = of.clone();
            table.insert("item".into(), Toml::String("elastic".into()));
            table
        };
        if let Some(stock) = amount(body) {
            let mut table = of_item(&of);
            table.insert("amount".into(), stock);
            self.put("stock", table, &paper.id, None);
        }
        if let Some(price) = number(body, "price") {
            let mut table = of_item(&of);
            table.insert("pack".into(), Toml::String("1 m".into()));
            table.insert("price".into(), price);
            self.put("prices", table, &paper.id, None);
        }
        // A test is two lengths; one alone is a fault to be told, none is no test.
        if !text(body, "relaxed").is_empty() || !text(body, "stretched").is_empty() {
            self.put("elastics", chosen(body, &ELASTIC_KEYS), &paper.id, None);
        }
    }

    fn sample(&mut self, paper: &Paper, cloths: &[&Paper]) {
        let body = &paper.body;
        let cloth = text(body, "cloth");
        let name = cloths
            .iter()
            .find(|c| c.id == cloth)
            .map_or(cloth, |c| text(&c.body, "name"));
        let (list, keys) = match text(body, "of") {
            "iron" => ("irons", &IRON_KEYS[..]),
            _ => ("seams", &SEAM_KEYS[..]),
        };
        let mut table = chosen(body, keys);
        // The document has the cloth's id there.
        table.remove("cloth");
        if !name.is_empty() {
            table.insert("cloth".into(), Toml::String(name.to_owned()));
        }
        if let Some(Toml::String(verdict)) = table.get_mut("verdict")
            && verdict == "not yet"
        {
            "not-yet".clone_into(verdict);
        }
        self.put(list, table, &paper.id, None);
    }

    fn finish(mut self) -> (Table, Homes) {
        self.top.insert("format".into(), Toml::Integer(FORMAT));
        (self.top, self.homes)
    }
}

/// Keys that take a plain number; a page may send it as the text that was typed.
const NUMBERS: [&str; 14] = [
    "size",
    "count",
    "needles",
    "tex",
    "packages",
    "metres",
    "amount",
    "pack",
    "price",
    "hour_rate",
    "margin",
    "own_hours",
    "heat",
    "force",
];
/// Units that may stand behind them.
const UNITS_OF_NUMBERS: [&str; 9] = ["Tex", "tex", "NM", "°C", "°", "degrees", "%", "N", "h"];
/// Keys that take yes or no.
const SWITCHES: [&str; 7] = [
    "top_cover",
    "chain",
    "differential_feed",
    "foot_pressure",
    "press_cloth",
    "steam",
    "prewashed",
];

/// The machine a word of an older studio stood for, what is written beside it kept.
fn machine_of_a_word(item: &Json, table: &mut Table) {
    let word = text(item, "kind");
    let usual = match word {
        "lockstitch" | "overlocker" | "coverstitch" => {
            // An older overlocker or coverstitch has its kind alone: the usual one is meant.
            let has_more = table.keys().any(|k| k != "name" && k != "kind");
            match word {
                _ if has_more => return,
                "overlocker" => Machine::overlocker(),
                "coverstitch" => Machine::coverstitch(),
                _ => return,
            }
        }
        "straight" => Machine::straight(),
        other if other.contains("zigzag") => Machine::zigzag(),
        _ => return,
    };
    let name = table.remove("name");
    *table = machine_table(&usual);
    if let Some(name) = name {
        table.insert("name".into(), name);
    }
}

/// A machine as the workroom file writes it.
pub(crate) fn machine_table(machine: &Machine) -> Table {
    use crate::workroom_file::{FEET, OVERLOCK_THREADS, UTILITY};
    let mut table = Table::new();
    let mm = |mm: units::Mm| Toml::String(format!("{} mm", crate::suit_file::trimmed(mm.get(), 2)));
    let mut put = |key: &str, value: Toml| table.insert(key.to_owned(), value);
    put("name", Toml::String(machine.name.clone()));
    match &machine.kind {
        make::MachineKind::Lockstitch {
            most_width,
            utility,
            twin_needle,
        } => {
            put("kind", Toml::String("lockstitch".into()));
            put("most_width", mm(*most_width));
            put("utility", words(utility, &UTILITY));
            if let Some(twin) = twin_needle {
                put("twin_needle", mm(*twin));
            }
        }
        make::MachineKind::Overlocker { threads } => {
            put("kind", Toml::String("overlocker".into()));
            let word = OVERLOCK_THREADS.iter().find(|(_, t)| t == threads);
            put(
                "threads",
                Toml::String(word.map_or("three", |(w, _)| w).to_owned()),
            );
        }
        make::MachineKind::Coverstitch {
            needles,
            has_top_cover,
            has_chain,
        } => {
            put("kind", Toml::String("coverstitch".into()));
            put("needles", Toml::Integer(i64::from(*needles)));
            put("top_cover", Toml::Boolean(*has_top_cover));
            put("chain", Toml::Boolean(*has_chain));
        }
    }
    put("feet", words(&machine.feet, &FEET));
    put("foot_width", mm(machine.foot_width));
    put("differential_feed", Toml::Boolean(machine.has_differential_feed));
    put("foot_pressure", Toml::Boolean(machine.has_foot_pressure));
    table
}

fn words<T: PartialEq>(has: &[T], known: &[(&str, T)]) -> Toml {
    let found = has
        .iter()
        .filter_map(|one| known.iter().find(|(_, value)| value == one));
    Toml::Array(found.map(|(word, _)| Toml::String((*word).to_owned())).collect())
}

fn text<'a>(body: &'a Json, key: &str) -> &'a str {
    body.get(key).and_then(Json::as_str).unwrap_or_default().trim()
}

/// The stock of a cloth or an elastic; a bare number is centimetres, as it always was there.
fn amount(body: &Json) -> Option<Toml> {
    match body.get("stock")? {
        Json::String(text) if text.trim().is_empty() => None,
        Json::String(text) if text.trim().parse::<f64>().is_ok() => Some(Toml::String(format!(
            "{} {}",
            text.trim(),
            LengthUnit::Cm.symbol()
        ))),
        Json::String(text) => Some(Toml::String(text.trim().to_owned())),
        Json::Number(n) => Some(Toml::String(format!("{n} {}", LengthUnit::Cm.symbol()))),
        _ => None,
    }
}

fn number(body: &Json, key: &str) -> Option<Toml> {
    to_toml(key, body.get(key)?)
}

/// The keys of an object that it has.
fn chosen(body: &Json, keys: &[&str]) -> Table {
    let mut table = Table::new();
    for key in keys {
        if let Some(value) = body.get(*key).and_then(|v| to_toml(key, v)) {
            table.insert((*key).to_owned(), value);
        }
    }
    table
}

/// A JSON value as TOML; nothing for null and an empty text: those are not written.
fn to_toml(key: &str, json: &Json) -> Option<Toml> {
    match json {
        Json::Null => None,
        Json::Bool(b) => Some(Toml::Boolean(*b)),
        Json::Number(n) => n
            .as_i64()
            .map(Toml::Integer)
            .or_else(|| n.as_f64().map(Toml::Float)),
        Json::String(text) if text.trim().is_empty() => None,
        Json::String(text) => Some(meant(key, text.trim())),
        Json::Array(list) => Some(Toml::Array(list.iter().filter_map(|v| to_toml(key, v)).collect())),
        // Nothing of a workroom is deeper; the reader says what is wanted instead.
        Json::Object(_) => Some(Toml::Table(Table::new())),
    }
}

fn meant(key: &str, text: &str) -> Toml {
    if SWITCHES.contains(&key) && matches!(text, "true" | "false") {
        return Toml::Boolean(text == "true");
    }
    if NUMBERS.contains(&key) {
        let bare = UNITS_OF_NUMBERS
            .iter()
            .find_map(|unit| text.strip_suffix(unit))
            .unwrap_or(text)
            .trim();
        if let Ok(whole) = bare.parse::<i64>() {
            return Toml::Integer(whole);
        }
        if let Some(number) = bare.parse::<f64>().ok().filter(|n| n.is_finite()) {
            return Toml::Float(number);
        }
    }
    Toml::String(text.to_owned())
}

#[cfg(test)]
#[path = "room_tests.rs"]
mod tests;
