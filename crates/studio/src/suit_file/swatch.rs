//! The `[shell]`, `[lining]`, `[mesh]` and `[tested_together]` sections: the cloths and their stretch tests.
//!
//! Three ways to write a test are read, because makers have three kinds of knowledge: lengths between two marks, a per cent
//! from a label, and a weighed strip. The cloth crate judges the numbers; this only reads them.
//!
//! **Shapes and units.** Lengths in the file's unit or with their own; stretch, recovery and shrinkage in per cent, as on
//! paper.

use cloth::{
    ClothDirection, DirectionTest, ForceReading, Layer, LoadTaken, Orientation, Pull, SwatchRecord,
    TogetherTest,
};
use toml::de::DeValue;
use units::Mm;

use super::fault::{Fault, FaultKind};
use super::reader::{LengthRange, NumberRange, Reader, Section};
use super::suit::ClothEntry;

pub(crate) const KEYS: [&str; 13] = [
    "name",
    "along",
    "across",
    "load",
    "width",
    "gsm",
    "shrinkage",
    "washed",
    "direction",
    "lay",
    "price",
    "notes",
    "force_readings",
];
pub(crate) const PAIR_KEYS: [&str; 3] = ["around", "lengthwise", "load"];
pub(crate) const TEST_KEYS: [&str; 5] = ["rest", "pulled", "back_to", "stretch", "recovery"];
pub(crate) const LOAD_KEYS: [&str; 5] = ["strip", "kg", "grams", "newtons", "n_per_cm"];
pub(crate) const READING_KEYS: [&str; 5] = ["direction", "strip", "grams", "newtons", "stretch"];

pub(crate) const DIRECTIONS: [(&str, bool); 2] = [("free", false), ("one-way", true)];
pub(crate) const LAYS: [(&str, Orientation); 2] =
    [("upright", Orientation::Upright), ("turned", Orientation::Turned)];
pub(crate) const CLOTH_DIRECTIONS: [(&str, ClothDirection); 2] = [
    ("along", ClothDirection::Along),
    ("across", ClothDirection::Across),
];

pub(super) const MARKS: LengthRange = LengthRange {
    low: Mm::new(20.0),
    high: Mm::new(6000.0),
    help: "mark two points at least 20 mm apart on the relaxed cloth and measure between them",
};
const STRIP: LengthRange = LengthRange {
    low: Mm::new(10.0),
    high: Mm::new(500.0),
    help: "the width of the strip that was pulled, 5 cm as a rule",
};
pub(super) const WIDTH: LengthRange = LengthRange {
    low: Mm::new(100.0),
    high: Mm::new(3500.0),
    help: "the usable width between the selvedges",
};
pub(super) const STRETCH: NumberRange = NumberRange {
    low: 0.0,
    high: 200.0,
    unit: "%",
    help: "stretch is (pulled - rest) / rest: 10 cm pulled to 18.5 cm is 85 %",
};
pub(super) const RECOVERY: NumberRange = NumberRange {
    low: 0.0,
    high: 100.0,
    unit: "%",
    help: "recovery is the share of the stretch that goes back: 10 cm, pulled to 20, back to 10.5 is 95 %",
};
pub(super) const SHRINKAGE: NumberRange = NumberRange {
    low: 0.0,
    high: 20.0,
    unit: "%",
    help: "what it loses in the first wash; 2 to 5 % as a rule",
};
pub(super) const MASS: NumberRange = NumberRange {
    low: 20.0,
    high: 800.0,
    unit: "g/m2",
    help: "swim tricot weighs 150 to 230 g/m2 as a rule",
};
const PRICE: NumberRange = NumberRange {
    low: 0.0,
    high: 100_000.0,
    unit: "per metre",
    help: "the price of one metre, in your currency",
};
const KG: NumberRange = NumberRange {
    low: 0.005,
    high: 50.0,
    unit: "kg",
    help: "the weight that hung on the strip",
};
const GRAMS: NumberRange = NumberRange {
    low: 5.0,
    high: 50_000.0,
    unit: "g",
    help: "the weight that hung on the strip",
};
const NEWTONS: NumberRange = NumberRange {
    low: 0.05,
    high: 500.0,
    unit: "N",
    help: "the pull read off the scale; 1 kg pulls 9.8 N",
};
const N_PER_CM: NumberRange = NumberRange {
    low: 0.1,
    high: 20.0,
    unit: "N/cm",
    help: "the laboratory's load; 3 N/cm is usual for knits",
};

/// The cloth of a layer, if its section is there and without fault.
pub(crate) fn read(reader: &mut Reader<'_>, top: &Section<'_, '_>, layer: Layer) -> Option<ClothEntry> {
    let section = reader.table(top, layer.name(), &KEYS)?;
    let name = reader.text(&section, "name");
    if !section.has("name") {
        reader.missing(
            &section,
            "name",
            "give the cloth a name to find it by: name = \"Slate tricot\"",
        );
    }
    let along = test(reader, &section, "along", true);
    let across = test(reader, &section, "across", true);
    let load = load(reader, &section);
    let width = reader.length(&section, "width", WIDTH);
    let mass = reader.number(&section, "gsm", MASS);
    let (mut shrinks_along, mut shrinks_across) = (None, None);
    if let Some(shrinkage) = reader.table(&section, "shrinkage", &["along", "across"]) {
        shrinks_along = reader.number(&shrinkage, "along", SHRINKAGE);
        shrinks_across = reader.number(&shrinkage, "across", SHRINKAGE);
    }
    let washed = reader.flag(&section, "washed");
    let one_way = reader.choice(&section, "direction", &DIRECTIONS);
    let lay = reader.choice(&section, "lay", &LAYS);
    let price = reader.number(&section, "price", PRICE);
    let notes = reader.long_text(&section, "notes");
    let force_readings = force_readings(reader, &section);
    Some(ClothEntry {
        record: SwatchRecord {
            name: name?.value,
            layer,
            along: along?,
            across: across?,
            load: load?,
            width_mm: width.map(|w| w.value.get()),
            mass_g_per_m2: mass.map(|m| m.value),
            shrinkage_along_percent: shrinks_along.map_or(0.0, |s| s.value),
            shrinkage_across_percent: shrinks_across.map_or(0.0, |s| s.value),
            is_washed: washed.is_some_and(|w| w.value),
            is_one_way: one_way.is_some_and(|d| d.value),
            price_per_metre: price.map(|p| p.value),
            force_readings,
            notes: notes.map(|n| n.value).unwrap_or_default(),
        },
        lay: lay.map(|l| l.value),
    })
}

/// The test of shell and lining together, as they are sewn.
pub(crate) fn read_pair(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Option<TogetherTest> {
    let section = reader.table(top, "tested_together", &PAIR_KEYS)?;
    let around = test(reader, &section, "around", true);
    let lengthwise = test(reader, &section, "lengthwise", true);
    let load = load(reader, &section);
    if !top.has("lining") {
        reader.conflict(
            "tested_together",
            "tested_together is given, but there is no [lining] it was tested with".into(),
            "add the [lining] section, or remove [tested_together]",
        );
    }
    Some(TogetherTest {
        around: around?,
        lengthwise: lengthwise?,
        load: load?,
    })
}

/// A stretch test in one direction: lengths or per cent, not both.
fn test(
    reader: &mut Reader<'_>,
    parent: &Section<'_, '_>,
    key: &str,
    is_required: bool,
) -> Option<DirectionTest> {
    const HOW: &str = "write { rest = 10, pulled = 18.5, back_to = 10.3 } or { stretch = 85 }";
    if !parent.has(key) {
        if is_required {
            reader.missing(parent, key, HOW);
        }
        return None;
    }
    let (path, value) = reader.value(parent, key)?;
    if !value.get_ref().is_table() {
        reader.wrong_type(&path, value, "a stretch test", HOW);
        return None;
    }
    let section = reader.table(parent, key, &TEST_KEYS)?;
    let by_length = ["rest", "pulled", "back_to"].into_iter().find(|k| section.has(k));
    let by_percent = ["stretch", "recovery"].into_iter().find(|k| section.has(k));
    if let (Some(length), Some(percent)) = (by_length, by_percent) {
        // Read both all the same, so that their own faults are told too.
        reader.value(&section, percent);
        reader.conflict(
            &section.path_of(percent),
            format!("{path} is given both by lengths ({length}) and by per cent ({percent})"),
            "keep the lengths, they say more; or keep the per cent",
        );
        return None;
    }
    if by_percent.is_some() {
        let stretch = reader.number(&section, "stretch", STRETCH);
        let recovery = reader.number(&section, "recovery", RECOVERY);
        if !section.has("stretch") {
            reader.missing(&section, "stretch", HOW);
        }
        return Some(DirectionTest::Percent {
            stretch: stretch?.value,
            recovery: recovery.map(|r| r.value),
        });
    }
    let rest = reader.length(&section, "rest", MARKS);
    let pulled = reader.length(&section, "pulled", MARKS);
    let back_to = reader.length(&section, "back_to", MARKS);
    for needed in ["rest", "pulled"] {
        if !section.has(needed) {
            reader.missing(&section, needed, HOW);
        }
    }
    let (rest, pulled) = (rest?, pulled?);
    let stretch = 100.0 * (pulled.value / rest.value - 1.0);
    if !(STRETCH.low..=STRETCH.high).contains(&stretch) {
        let shorter = stretch < 0.0;
        reader.fault(Fault {
            kind: FaultKind::OutOfRange,
            field: section.path_of("pulled"),
            message: if shorter {
                format!("{path}: the pulled length is shorter than the length at rest")
            } else {
                format!("{path}: a stretch of {stretch:.0} % is more than a swim cloth has")
            },
            label: if shorter {
                "shorter than rest".into()
            } else {
                "too long".into()
            },
            allowed: vec!["stretch of 0 to 200 %".into()],
            help: "measure between the same two marks, at rest and pulled".into(),
            at: Some(pulled.at),
        });
        return None;
    }
    Some(DirectionTest::Lengths {
        rest_mm: rest.value.get(),
        pulled_mm: pulled.value.get(),
        after_mm: back_to.map(|b| b.value.get()),
    })
}

/// How the tests were loaded: `"hand"`, a weighed strip, or a laboratory's load. By hand when nothing is said.
fn load(reader: &mut Reader<'_>, parent: &Section<'_, '_>) -> Option<LoadTaken> {
    const HOW: &str = "write \"hand\", { strip = \"5 cm\", kg = 1.5 } or { n_per_cm = 3 }";
    if !parent.has("load") {
        return Some(LoadTaken::Hand);
    }
    let (path, value) = reader.value(parent, "load")?;
    match value.get_ref() {
        DeValue::String(word) if word == "hand" => return Some(LoadTaken::Hand),
        DeValue::Table(_) => {}
        _ => {
            reader.wrong_type(&path, value, "\"hand\" or a weighed load", HOW);
            return None;
        }
    }
    let section = reader.table(parent, "load", &LOAD_KEYS)?;
    let given: Vec<&str> = ["kg", "grams", "newtons", "n_per_cm"]
        .into_iter()
        .filter(|k| section.has(k))
        .collect();
    let n_per_cm = reader.number(&section, "n_per_cm", N_PER_CM);
    let pull = pull(reader, &section);
    let strip = reader.length(&section, "strip", STRIP);
    match given.as_slice() {
        [] => {
            reader.missing(&section, "kg", HOW);
            None
        }
        ["n_per_cm"] => n_per_cm.map(|n| LoadTaken::NewtonPerCm(n.value)),
        [_] => {
            if !section.has("strip") {
                reader.missing(&section, "strip", "say how wide the strip was: strip = \"5 cm\"");
            }
            Some(LoadTaken::Weighed {
                strip_mm: strip?.value.get(),
                pull: pull?,
            })
        }
        [first, second, ..] => {
            reader.conflict(
                &section.path_of(second),
                format!("{path} says the pull twice: {first} and {second}"),
                "keep one of them",
            );
            None
        }
    }
}

fn pull(reader: &mut Reader<'_>, section: &Section<'_, '_>) -> Option<Pull> {
    let kg = reader
        .number(section, "kg", KG)
        .map(|n| Pull::Grams(n.value * 1000.0));
    let grams = reader
        .number(section, "grams", GRAMS)
        .map(|n| Pull::Grams(n.value));
    let newtons = reader
        .number(section, "newtons", NEWTONS)
        .map(|n| Pull::Newtons(n.value));
    kg.or(grams).or(newtons)
}

/// Points of the force curve: a list of `{ direction, strip, grams or newtons, stretch }`.
fn force_readings(reader: &mut Reader<'_>, parent: &Section<'_, '_>) -> Vec<ForceReading> {
    const HOW: &str = "write [ { direction = \"across\", strip = \"5 cm\", grams = 500, stretch = 30 } ]";
    let Some((path, value)) = reader.value(parent, "force_readings") else {
        return Vec::new();
    };
    let DeValue::Array(list) = value.get_ref() else {
        reader.wrong_type(&path, value, "a list", HOW);
        return Vec::new();
    };
    let mut readings = Vec::new();
    for (index, item) in list.iter().enumerate() {
        let item_path = format!("{path}[{}]", index + 1);
        let Some(section) = reader.item(&item_path, item, &READING_KEYS, HOW) else {
            continue;
        };
        let direction = reader.choice(&section, "direction", &CLOTH_DIRECTIONS);
        let strip = reader.length(&section, "strip", STRIP);
        let stretch = reader.number(&section, "stretch", NumberRange { low: 1.0, ..STRETCH });
        if section.has("grams") && section.has("newtons") {
            reader.conflict(
                &section.path_of("newtons"),
                format!("{item_path} says the pull twice: grams and newtons"),
                "keep one of them",
            );
        }
        let pull = pull(reader, &section);
        for needed in ["direction", "strip", "stretch"] {
            if !section.has(needed) {
                reader.missing(&section, needed, HOW);
            }
        }
        if !section.has("grams") && !section.has("newtons") {
            reader.missing(&section, "grams", HOW);
        }
        if let (Some(direction), Some(strip), Some(pull), Some(stretch)) = (direction, strip, pull, stretch) {
            readings.push(ForceReading {
                direction: direction.value,
                strip_mm: strip.value.get(),
                pull,
                stretch_percent: stretch.value,
            });
        }
    }
    readings
}
