//! The `[wearer]` section: whose body, and what the tape found.
//!
//! **Shapes and units.** Dimensions in the file's unit or with their own; millimetres out.
//! **Source.** What is believable for a body: [`Dimension::plausible_range`].

use body::{BodyForm, Dimension, Dimensions, FrontTaken, Trust, WaistLevel, Wearer};
use toml::de::DeValue;
use units::Mm;

use super::reader::{LengthRange, NumberRange, Reader, Section, Spot};

pub(crate) const KEYS: [&str; 9] = [
    "name",
    "form",
    "age",
    "mass_kg",
    "waist_level",
    "front_taken",
    "trust",
    "dimensions",
    "right",
];

pub(crate) const FORMS: [(&str, BodyForm); 3] = [
    ("woman", BodyForm::Woman),
    ("man", BodyForm::Man),
    ("child", BodyForm::Child),
];
pub(crate) const WAIST_LEVELS: [(&str, WaistLevel); 2] =
    [("natural", WaistLevel::Natural), ("navel", WaistLevel::Navel)];
pub(crate) const FRONT_TAKEN: [(&str, FrontTaken); 2] = [
    ("over-bust-point", FrontTaken::OverBustPoint),
    ("midline", FrontTaken::Midline),
];
pub(crate) const TRUST: [(&str, Trust); 2] = [("trunk", Trust::Trunk), ("parts", Trust::Parts)];

/// Ages a suit is made for; a newborn's range is no use to a draft, but a typo must be caught.
const AGE: NumberRange = NumberRange {
    low: 1.0,
    high: 120.0,
    unit: "years",
    help: "write the age in whole years, or leave it out",
};
const MASS: NumberRange = NumberRange {
    low: 5.0,
    high: 300.0,
    unit: "kg",
    help: "write the body mass in kilograms, or leave it out",
};

/// The wearer, and the second readings of her dimensions.
pub(crate) struct WearerEntry {
    pub(crate) wearer: Wearer,
    pub(crate) second: Dimensions,
}

pub(crate) fn read(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Option<WearerEntry> {
    let Some(section) = reader.table(top, "wearer", &KEYS) else {
        if !top.has("wearer") {
            reader.missing(
                top,
                "wearer",
                "add a [wearer] section with name, form and dimensions",
            );
        }
        return None;
    };
    read_section(reader, &section)
}

/// The wearer in a section, wherever that stands: a suit file has one, a class file many.
pub(crate) fn read_section(reader: &mut Reader<'_>, section: &Section<'_, '_>) -> Option<WearerEntry> {
    let name = reader.text(section, "name");
    if !section.has("name") {
        reader.missing(
            section,
            "name",
            "say what she is called on paper: name = \"Maren\"",
        );
    }
    let form = reader.choice(section, "form", &FORMS);
    if !section.has("form") {
        reader.missing(section, "form", "write form = \"woman\", \"man\" or \"child\"");
    }
    let age = reader.number(section, "age", AGE);
    if !section.has("age") && form.as_ref().is_some_and(|f| f.value == BodyForm::Child) {
        reader.missing(
            section,
            "age",
            "a child's estimates and cautions go by age: age = 8",
        );
    }
    let mass = reader.number(section, "mass_kg", MASS);
    let waist_level = reader.choice(section, "waist_level", &WAIST_LEVELS);
    let front_taken = reader.choice(section, "front_taken", &FRONT_TAKEN);
    let trust = reader.choice(section, "trust", &TRUST);
    let (mut taken, second) = dimensions(reader, section, form.as_ref().map(|f| f.value));
    right(reader, section, form.as_ref().map(|f| f.value), &mut taken);
    Some(WearerEntry {
        wearer: Wearer {
            name: name?.value,
            form: form?.value,
            age_years: age.map(|a| a.value),
            mass_kg: mass.map(|m| m.value),
            waist_level: waist_level.map(|w| w.value).unwrap_or_default(),
            front_taken: front_taken.map(|f| f.value).unwrap_or_default(),
            trust: trust.map(|t| t.value),
            taken,
        },
        second,
    })
}

fn dimensions(
    reader: &mut Reader<'_>,
    wearer: &Section<'_, '_>,
    form: Option<BodyForm>,
) -> (Dimensions, Dimensions) {
    let (mut taken, mut second) = (Dimensions::default(), Dimensions::default());
    let keys: Vec<&str> = Dimension::ALL.iter().map(|d| d.key()).collect();
    let Some(section) = reader.table(wearer, "dimensions", &keys) else {
        if !wearer.has("dimensions") {
            reader.missing(
                wearer,
                "dimensions",
                "add a [wearer.dimensions] section with what the tape found; `slackwater dimensions` lists them",
            );
        }
        return (taken, second);
    };
    for dimension in Dimension::ALL {
        let key = dimension.key();
        let is_pair = reader
            .value(&section, key)
            .is_some_and(|(_, v)| v.get_ref().is_table());
        if is_pair {
            let Some(pair) = reader.table(&section, key, &["value", "second"]) else {
                continue;
            };
            if !pair.has("value") {
                reader.missing(
                    &pair,
                    "value",
                    "write { value = 95.6, second = 95.2 }, or just the number",
                );
            }
            if let Some(length) = one(reader, &pair, "value", dimension, form) {
                taken.set(dimension, length);
            }
            if let Some(length) = one(reader, &pair, "second", dimension, form) {
                second.set(dimension, length);
            }
        } else if let Some(length) = one(reader, &section, key, dimension, form) {
            taken.set(dimension, length);
        }
    }
    (taken, second)
}

/// The keys of `[wearer.right]`: dimensions that may differ on the two sides.
pub(crate) fn right_keys() -> Vec<&'static str> {
    Dimension::SIDED.iter().map(|d| d.key()).collect()
}

/// What was taken on the wearer's right; the dimensions themselves are then her left's.
fn right(reader: &mut Reader<'_>, wearer: &Section<'_, '_>, form: Option<BodyForm>, taken: &mut Dimensions) {
    let Some(section) = reader.table(wearer, "right", &right_keys()) else {
        return;
    };
    for dimension in Dimension::SIDED {
        if let Some(length) = one(reader, &section, dimension.key(), dimension, form) {
            taken.set_right(dimension, length);
        }
    }
}

fn one(
    reader: &mut Reader<'_>,
    section: &Section<'_, '_>,
    key: &str,
    dimension: Dimension,
    form: Option<BodyForm>,
) -> Option<Mm> {
    let (path, value) = reader.value(section, key)?;
    if let DeValue::Array(_) = value.get_ref() {
        reader.wrong_type(
            &path,
            value,
            "a length",
            "for two readings write { value = 95.6, second = 95.2 }",
        );
        return None;
    }
    let length: Spot<Mm> = reader.as_length(&path, value)?;
    reader
        .in_range(&path, length, range_of(dimension, form))
        .map(|l| l.value)
}

/// What is believable; without a form, what is believable for anybody.
fn range_of(dimension: Dimension, form: Option<BodyForm>) -> LengthRange {
    let (low, high) = match form {
        Some(form) => dimension.plausible_range(form),
        None => {
            let (adult, child) = (
                dimension.plausible_range(BodyForm::Woman),
                dimension.plausible_range(BodyForm::Child),
            );
            (
                Mm::new(adult.0.get().min(child.0.get())),
                Mm::new(adult.1.get().max(child.1.get())),
            )
        }
    };
    LengthRange {
        low,
        high,
        help: "take it again; no body a suit is drafted for lies outside",
    }
}
