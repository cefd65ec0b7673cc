//! The workroom file: one TOML text with a maker's machines, needles, threads, stock, prices, terms and samples.
//!
//! Read as a suit file is: every fault at its line, all at once. A fault in one machine or sample leaves the others usable, which is
//! how the studio reads its documents: it writes this text of them ([`crate::document::room_of`]), so that pages and command
//! line cannot disagree.
//!
//! **Shapes and units.** Text in; `make`'s values out, lengths in mm. Margin in per cent, as on paper; a ratio inside.
//! **Source.** The format is our own; its reference is `docs/workroom-file.md`.
//! **Limits.** Cloths go by their name: two cloths of one name are one cloth here.

mod goods;
mod machines;
mod samples;

use cloth::Layer;
use make::{Item, Preset, Price, QuoteTerms, SampleBook, Stock, Workroom};
use toml::de::{DeTable, DeValue};
use units::Mm;

use crate::laying_kept::AtHand;
use crate::suit_file::reader::{Reader, Section, Spot};
use crate::suit_file::{Fault, FaultKind, Faults, LARGEST_FILE, SuitFile, UNITS, read_format, syntax_faults};

pub(crate) use goods::{PRICE_KEYS, STOCK_KEYS, TERM_KEYS};
pub(crate) use machines::{FEET, FIBRES, MACHINE_KEYS, NEEDLE_KEYS, OVERLOCK_THREADS, THREAD_KEYS, UTILITY};
pub(crate) use samples::{ELASTIC_KEYS, IRON_KEYS, SEAM_KEYS, STITCHES};

const KEYS: [&str; 14] = [
    "remnants", "format", "name", "notes", "units", "machines", "needles", "threads", "stock", "prices",
    "terms", "seams", "irons", "elastics",
];
const WETS_KEY: &str = "wets";

/// A maker's workroom: what she sews with, what she has and pays, what she tried.
#[derive(Clone, Debug, PartialEq)]
pub struct Room {
    /// Machines, needles and threads to plan with: never without a machine.
    pub workroom: Workroom,
    /// No machine is written down: the plan is for a zigzag machine, and whoever shows it says so.
    pub is_assumed: bool,
    /// What was sewn, ironed, pulled and wetted.
    pub samples: SampleBook,
    /// In stock beside needles and threads; cloth apart.
    pub stock: Vec<Stock>,
    /// Prices and packs; cloth apart.
    pub prices: Vec<Price>,
    /// What is known of cloths by their names.
    pub cloths: Vec<ClothGoods>,
    /// Pieces of cloth at hand, by the names of their cloths: not counted as stock, which is bought and cut by the length.
    pub remnants: Vec<(String, AtHand)>,
    /// What the maker asks; none until an hour has its price.
    pub terms: Option<QuoteTerms>,
    /// The word or sign of her currency; empty when it is not written.
    pub currency: String,
}

/// Stock and price of a cloth.
#[derive(Clone, Debug, PartialEq)]
pub struct ClothGoods {
    /// Its name.
    pub name: String,
    /// How much there is.
    pub stock: Option<Mm>,
    /// What a metre costs.
    pub price_per_metre: Option<f64>,
}

impl Default for Room {
    fn default() -> Self {
        Room {
            is_assumed: true,
            ..Room::of(Preset::Zigzag)
        }
    }
}

impl Room {
    /// The machines of a preset, nothing in stock and nothing tried.
    pub fn of(preset: Preset) -> Room {
        Room {
            workroom: preset.workroom(),
            is_assumed: false,
            samples: SampleBook::default(),
            stock: Vec::new(),
            prices: Vec::new(),
            cloths: Vec::new(),
            remnants: Vec::new(),
            terms: None,
            currency: String::new(),
        }
    }

    /// The stock as a suit counts it, its cloths by layer. A cloth that lies in two layers is counted once, at the first.
    pub fn stock_for(&self, suit: &SuitFile) -> Vec<Stock> {
        let mut stock = self.stock.clone();
        let mut counted: Vec<&str> = Vec::new();
        for (layer, name, _) in layers(suit) {
            if counted.contains(&name) {
                continue;
            }
            counted.push(name);
            let of = self.cloths.iter().filter(|c| c.name == name);
            stock.extend(of.filter_map(|c| c.stock).map(|amount| Stock {
                item: Item::Cloth(layer),
                amount: amount.get(),
            }));
        }
        stock
    }

    /// The prices as a suit counts them, its cloths by layer: the price in the suit's own file before the workroom's.
    pub fn prices_for(&self, suit: &SuitFile) -> Vec<Price> {
        let mut prices = self.prices.clone();
        for (layer, name, own) in layers(suit) {
            let kept = || {
                let of = self.cloths.iter().filter(|c| c.name == name);
                of.filter_map(|c| c.price_per_metre).next_back()
            };
            if let Some(price) = own.or_else(kept) {
                prices.push(Price {
                    item: Item::Cloth(layer),
                    pack: 1000.0,
                    price,
                    is_whole: false,
                });
            }
        }
        prices
    }
}

fn layers(suit: &SuitFile) -> Vec<(Layer, &str, Option<f64>)> {
    // A second outer cloth is the shell's until one is chosen.
    let of = [
        (Layer::Shell, Some(&suit.shell)),
        (Layer::Lining, suit.lining.as_ref()),
        (Layer::Mesh, suit.mesh.as_ref()),
        (Layer::Contrast, suit.contrast.as_ref().or(Some(&suit.shell))),
    ];
    of.into_iter()
        .filter_map(|(layer, entry)| {
            let record = &entry?.record;
            Some((layer, record.name.as_str(), record.price_per_metre))
        })
        .collect()
}

/// Reads a workroom file from bytes; `file` is what to call it in messages.
///
/// # Errors
/// [`Faults`] as [`read_room_text`], and for bytes that are not UTF-8 or more than [`LARGEST_FILE`].
pub fn read_room_bytes(file: &str, bytes: &[u8]) -> Result<Room, Faults> {
    let whole = |message: String| {
        Faults::whole(
            file,
            FaultKind::Syntax,
            message,
            "check that this is the workroom file you meant",
        )
    };
    if bytes.len() > LARGEST_FILE {
        return Err(whole(format!(
            "the file has {} bytes; a workroom file has a few thousand",
            bytes.len()
        )));
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => read_room_text(file, text),
        Err(_) => Err(whole("the file is not UTF-8 text".to_owned())),
    }
}

/// Reads a workroom file; `file` is what to call it in messages.
///
/// # Errors
/// [`Faults`]: every fault of the file at once, in the order of the text, each with its place.
///
/// # Example
/// ```
/// let text = "format = 1\n[[machines]]\nname = \"Old faithful\"\nkind = \"lockstich\"\n";
/// let faults = studio::workroom_file::read_room_text("room.toml", text).unwrap_err();
/// assert_eq!(faults.list[0].field, "machines[1].kind");
/// assert_eq!(faults.list[0].help, "did you mean \"lockstitch\"?");
/// ```
pub fn read_room_text(file: &str, text: &str) -> Result<Room, Faults> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let (room, faults) = read_room_parts(file, text)?;
    if faults.is_empty() {
        Ok(room)
    } else {
        Err(Faults::new(file, text, faults))
    }
}

/// Reads what there is of a workroom: what is wrong is left out of it and named.
///
/// # Errors
/// [`Faults`] of a text that is no TOML at all.
pub fn read_room_parts(file: &str, text: &str) -> Result<(Room, Vec<Fault>), Faults> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut reader = Reader::new(text);
    let (root, errors) = DeTable::parse_recoverable(text);
    if !errors.is_empty() {
        return Err(Faults::new(file, text, syntax_faults(text, &errors)));
    }
    let mut allowed = KEYS.to_vec();
    allowed.push(WETS_KEY);
    let top = reader.root(root.get_ref(), &allowed);
    read_format(
        &mut reader,
        &top,
        "write the file anew after docs/workroom-file.md",
    );
    if let Some(unit) = reader.choice(&top, "units", &UNITS) {
        reader.unit = unit.value;
    }
    for key in ["name", "notes"] {
        reader.long_text(&top, key);
    }
    let machines = machines::read(&mut reader, &top);
    let needles = machines::read_needles(&mut reader, &top);
    let threads = machines::read_threads(&mut reader, &top);
    let (stock, mut cloths) = goods::read_stock(&mut reader, &top);
    let (prices, priced) = goods::read_prices(&mut reader, &top);
    cloths.extend(priced);
    let remnants = goods::read_remnants(&mut reader, &top);
    let (terms, currency) = goods::read_terms(&mut reader, &top);
    let samples = SampleBook {
        seams: samples::read_seams(&mut reader, &top),
        irons: samples::read_irons(&mut reader, &top),
        elastics: samples::read_elastics(&mut reader, &top),
        wets: samples::read_wets(&mut reader, &top),
    };
    let is_assumed = machines.is_empty();
    let machines = if is_assumed {
        Preset::Zigzag.workroom().machines
    } else {
        machines
    };
    let room = Room {
        workroom: Workroom {
            machines,
            needles,
            threads,
        },
        is_assumed,
        samples,
        stock,
        prices,
        cloths,
        remnants,
        terms,
        currency,
    };
    Ok((room, reader.faults))
}

/// Reads every item of a list of sections; an item with a fault of its own is left out.
fn each<T>(
    reader: &mut Reader<'_>,
    top: &Section<'_, '_>,
    key: &str,
    allowed: &[&str],
    mut read: impl FnMut(&mut Reader<'_>, &Section<'_, '_>) -> Option<T>,
) -> Vec<T> {
    let help = format!("write [[{key}]] on a line of its own, its keys below");
    let Some((path, value)) = reader.value(top, key) else {
        return Vec::new();
    };
    let DeValue::Array(list) = value.get_ref() else {
        reader.wrong_type(&path, value, "a list of sections", &help);
        return Vec::new();
    };
    let mut found = Vec::new();
    for (index, item) in list.iter().enumerate() {
        let before = reader.faults.len();
        let item_path = format!("{path}[{}]", index + 1);
        let Some(section) = reader.item(&item_path, item, allowed, &help) else {
            continue;
        };
        let value = read(reader, &section);
        if reader.faults.len() == before {
            found.extend(value);
        }
    }
    found
}

/// Complains of every key of the list that is not there.
fn needed(reader: &mut Reader<'_>, section: &Section<'_, '_>, keys: &[(&str, &str)]) {
    for (key, help) in keys {
        if !section.has(key) {
            reader.missing(section, key, help);
        }
    }
}

/// Longest that is bought of anything, mm: a thousand kilometres of thread.
const LONGEST_BOUGHT: f64 = 1.0e9;

/// A length as it is bought: a text with its unit, metres too (`"2.4 m"`).
fn bought(reader: &mut Reader<'_>, section: &Section<'_, '_>, key: &str) -> Option<Spot<Mm>> {
    const HELP: &str = "write it with its unit: \"2.4 m\", \"140 cm\", \"36 in\"";
    let (path, value) = reader.value(section, key)?;
    let Some(text) = value.get_ref().as_str() else {
        reader.wrong_type(&path, value, "a length with its unit", HELP);
        return None;
    };
    let metres = text
        .trim()
        .strip_suffix('m')
        .filter(|rest| !rest.ends_with(['m', 'c']))
        .and_then(|rest| rest.trim().parse::<f64>().ok());
    let length = match metres {
        Some(metres) => Spot {
            value: Mm::new(metres * 1000.0),
            at: value.span(),
        },
        None => reader.as_length(&path, value)?,
    };
    if (0.0..=LONGEST_BOUGHT).contains(&length.value.get()) {
        return Some(length);
    }
    reader.fault(Fault {
        kind: FaultKind::OutOfRange,
        message: format!("{path} is no length that can be bought"),
        label: "out of range".into(),
        allowed: vec!["0 m to 1000 km".into()],
        help: HELP.into(),
        field: path,
        at: Some(length.at),
    });
    None
}

/// A whole number within a range.
fn whole(
    reader: &mut Reader<'_>,
    section: &Section<'_, '_>,
    key: &str,
    range: crate::suit_file::reader::NumberRange,
) -> Option<u32> {
    let number = reader.number(section, key, range)?;
    if number.value.fract() == 0.0 {
        return Some(number.value as u32);
    }
    let path = section.path_of(key);
    reader.fault(Fault {
        kind: FaultKind::WrongType,
        message: format!("{path} must be a whole number"),
        label: "a whole number wanted".into(),
        allowed: Vec::new(),
        help: range.help.into(),
        field: path,
        at: Some(number.at),
    });
    None
}

#[cfg(test)]
#[path = "tests.rs"]
mod tests;
