//! Stock, prices and terms.
//!
//! What is measured (cloth, elastic, thread, cord, boning) has an amount with its unit, `"2.4 m"`; the rest is counted.
//!
//! **Shapes and units.** mm and counts; money in the maker's currency; margin a ratio.

use make::{ElasticKind, Item, Price, QuoteTerms, Stock};
use units::Mm;

use super::machines::{FIBRES, needle};
use super::{ClothGoods, bought, each, needed};
use crate::laying_kept::{AtHand, outline_of};
use crate::suit_file::reader::{LengthRange, NumberRange, Reader, Section};

/// Keys that say what a line of stock or a price is of.
const ITEM_KEYS: [&str; 8] = ["item", "cloth", "kind", "width", "fibre", "point", "size", "twin"];
pub(crate) const STOCK_KEYS: [&str; 9] = [
    "item", "cloth", "kind", "width", "fibre", "point", "size", "twin", "amount",
];
pub(crate) const PRICE_KEYS: [&str; 11] = [
    "item", "cloth", "kind", "width", "fibre", "point", "size", "twin", "pack", "price", "whole",
];
const REMNANT_KEYS: [&str; 5] = ["cloth", "width", "length", "corners", "words"];
pub(crate) const TERM_KEYS: [&str; 4] = ["hour_rate", "margin", "own_hours", "currency"];

/// What a line is of, before its particulars.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Word {
    Cloth,
    Elastic,
    Thread,
    Needle,
    Cups,
    Ring,
    Slider,
    Hook,
    Clasp,
    Zip,
    Eyelet,
    Cord,
    Boning,
    Pins,
}

/// The words for what can be bought, in the order of a shopping list.
pub(crate) const ITEMS: [(&str, Word); 14] = [
    ("cloth", Word::Cloth),
    ("elastic", Word::Elastic),
    ("thread", Word::Thread),
    ("needle", Word::Needle),
    ("cups", Word::Cups),
    ("ring", Word::Ring),
    ("slider", Word::Slider),
    ("hook", Word::Hook),
    ("clasp", Word::Clasp),
    ("zip", Word::Zip),
    ("eyelet", Word::Eyelet),
    ("cord", Word::Cord),
    ("boning", Word::Boning),
    ("pins", Word::Pins),
];

const ELASTIC_WIDTH: LengthRange = LengthRange {
    low: Mm::new(3.0),
    high: Mm::new(50.0),
    help: "6, 8 or 10 mm as a rule",
};
const AMOUNT: NumberRange = NumberRange {
    low: 0.0,
    high: 1_000_000.0,
    unit: "",
    help: "how many there are",
};
const PACK: NumberRange = NumberRange {
    low: 1.0,
    high: 1_000_000.0,
    unit: "",
    help: "how many there are in one pack",
};
const PRICE: NumberRange = NumberRange {
    low: 0.0,
    high: 1.0e6,
    unit: "",
    help: "what one pack costs, in your currency",
};
const RATE: NumberRange = NumberRange {
    low: 0.0,
    high: 1.0e6,
    unit: "an hour",
    help: "what you ask for an hour, in your currency",
};
const MARGIN: NumberRange = NumberRange {
    low: 0.0,
    high: 1000.0,
    unit: "%",
    help: "on materials and hours together; 20 is a fifth",
};
const HOURS: NumberRange = NumberRange {
    low: 0.0,
    high: 1000.0,
    unit: "hours",
    help: "your own hours for a suit; leave it out to take the plan's range",
};

/// What a line is of: a cloth by its name, or an item.
enum Of {
    Cloth(String),
    Item(Item),
}

fn of(reader: &mut Reader<'_>, section: &Section<'_, '_>) -> Option<(Word, Of)> {
    needed(
        reader,
        section,
        &[("item", "what it is: item = \"elastic\", \"thread\", \"zip\"")],
    );
    let word = reader.choice(section, "item", &ITEMS)?.value;
    let own: &[&str] = match word {
        Word::Cloth => &["cloth"],
        Word::Elastic => &["kind", "width"],
        Word::Thread => &["fibre"],
        Word::Needle => &["point", "size", "twin"],
        _ => &[],
    };
    for key in ITEM_KEYS
        .iter()
        .skip(1)
        .filter(|k| section.has(k) && !own.contains(k))
    {
        let _ = reader.value(section, key);
        reader.conflict(
            &section.path_of(key),
            format!("an item of this sort has no {key}"),
            "leave the key out, or change the item",
        );
    }
    let found = match word {
        Word::Cloth => {
            needed(reader, section, &[("cloth", "its name, as in the suit file")]);
            Of::Cloth(reader.text(section, "cloth")?.value)
        }
        Word::Elastic => {
            needed(
                reader,
                section,
                &[
                    ("kind", "write kind = \"braided-rubber\", or what it is"),
                    ("width", "its width at rest: width = \"8 mm\""),
                ],
            );
            let kinds: Vec<(&str, ElasticKind)> = ElasticKind::ALL.iter().map(|k| (k.key(), *k)).collect();
            let kind = reader.choice(section, "kind", &kinds);
            let width = reader.length(section, "width", ELASTIC_WIDTH);
            Of::Item(Item::Elastic {
                kind: kind?.value.facts().name.to_owned(),
                width: width?.value,
            })
        }
        Word::Thread => {
            needed(
                reader,
                section,
                &[("fibre", "write fibre = \"spun-polyester\", or what it is")],
            );
            Of::Item(Item::Thread(reader.choice(section, "fibre", &FIBRES)?.value))
        }
        Word::Needle => Of::Item(Item::Needle(needle(reader, section)?)),
        Word::Cups => Of::Item(Item::Cups),
        Word::Ring => Of::Item(Item::Ring),
        Word::Slider => Of::Item(Item::Slider),
        Word::Hook => Of::Item(Item::Hook),
        Word::Clasp => Of::Item(Item::Clasp),
        Word::Zip => Of::Item(Item::Zip),
        Word::Eyelet => Of::Item(Item::Eyelet),
        Word::Cord => Of::Item(Item::Cord),
        Word::Boning => Of::Item(Item::Boning),
        Word::Pins => Of::Item(Item::Pins),
    };
    Some((word, found))
}

const fn is_measured(word: Word) -> bool {
    matches!(
        word,
        Word::Cloth | Word::Elastic | Word::Thread | Word::Cord | Word::Boning
    )
}

/// An amount or a pack: a length with its unit, or a count.
fn quantity(
    reader: &mut Reader<'_>,
    section: &Section<'_, '_>,
    key: &str,
    word: Word,
    range: NumberRange,
) -> Option<f64> {
    if is_measured(word) {
        bought(reader, section, key).map(|l| l.value.get())
    } else {
        reader.number(section, key, range).map(|n| n.value)
    }
}

/// The stock that reads well, cloths apart.
pub(super) fn read_stock(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> (Vec<Stock>, Vec<ClothGoods>) {
    let mut cloths = Vec::new();
    let stock = each(reader, top, "stock", &STOCK_KEYS, |reader, section| {
        let found = of(reader, section);
        needed(
            reader,
            section,
            &[("amount", "how much there is: amount = \"2.4 m\", or 5")],
        );
        let (word, of) = found?;
        if word == Word::Thread || word == Word::Needle {
            reader.conflict(
                &section.path_of("item"),
                "threads and needles are kept apart from the rest of the stock".into(),
                "write it under [[threads]] or [[needles]]",
            );
        }
        let amount = quantity(reader, section, "amount", word, AMOUNT)?;
        match of {
            Of::Item(item) => Some(Stock { item, amount }),
            Of::Cloth(name) => {
                cloths.push(ClothGoods {
                    name,
                    stock: Some(Mm::new(amount)),
                    price_per_metre: None,
                });
                None
            }
        }
    });
    (stock, cloths)
}

/// The prices that read well, cloths apart.
pub(super) fn read_prices(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> (Vec<Price>, Vec<ClothGoods>) {
    let mut cloths = Vec::new();
    let prices = each(reader, top, "prices", &PRICE_KEYS, |reader, section| {
        let found = of(reader, section);
        needed(
            reader,
            section,
            &[
                ("pack", "how much is in one pack: pack = \"1 m\", or 5"),
                ("price", "what one pack costs: price = 4.50"),
            ],
        );
        let price = reader.number(section, "price", PRICE);
        let is_whole = reader.flag(section, "whole");
        let (word, of) = found?;
        let pack = quantity(reader, section, "pack", word, PACK)?;
        if pack <= 0.0 {
            reader.conflict(
                &section.path_of("pack"),
                "there is nothing in the pack".into(),
                "say how much one pack holds",
            );
            return None;
        }
        let price = price?.value;
        match of {
            Of::Item(item) => Some(Price {
                // Elastic, cord and boning are cut off a roll.
                is_whole: is_whole.map_or(is_whole_by_custom(word), |w| w.value),
                item,
                pack,
                price,
            }),
            Of::Cloth(name) => {
                cloths.push(ClothGoods {
                    name,
                    stock: None,
                    price_per_metre: Some(price * 1000.0 / pack),
                });
                None
            }
        }
    });
    (prices, cloths)
}

/// Pieces of cloth at hand, each with the name of its cloth: so wide and so long, or by its corners.
pub(super) fn read_remnants(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Vec<(String, AtHand)> {
    each(reader, top, "remnants", &REMNANT_KEYS, |reader, section| {
        needed(
            reader,
            section,
            &[(
                "cloth",
                "its name, as in the file of its test: cloth = \"Slate tricot\"",
            )],
        );
        let words = reader.text(section, "words").map(|w| w.value).unwrap_or_default();
        let cloth = reader.text(section, "cloth");
        let (width, length) = (size(reader, section, "width"), size(reader, section, "length"));
        let corners = if section.has("corners") {
            Some(corners(reader, section)?)
        } else {
            const HOW: &str =
                "write width = \"150 cm\" and length = \"60 cm\", or the corners of an odd piece";
            needed(reader, section, &[("width", HOW), ("length", HOW)]);
            None
        };
        // An odd one is as large as its box.
        let most =
            |of: fn(&kurbo::Point) -> f64| corners.as_ref().map(|c| c.iter().map(of).fold(0.0, f64::max));
        Some((
            cloth?.value,
            AtHand {
                width_mm: most(|p| p.y).or(width)?,
                length_mm: most(|p| p.x).or(length)?,
                words,
                corners,
            },
        ))
    })
}

/// A side of a piece of cloth, if it is written.
fn size(reader: &mut Reader<'_>, section: &Section<'_, '_>, key: &str) -> Option<f64> {
    let mm = bought(reader, section, key)?.value.get();
    if mm < 1.0 {
        reader.conflict(
            &section.path_of(key),
            "there is nothing of this piece".into(),
            "write 1 mm or more, or take it out",
        );
        return None;
    }
    Some(mm)
}

/// Corners of an odd piece, each along and across.
fn corners(reader: &mut Reader<'_>, section: &Section<'_, '_>) -> Option<Vec<kurbo::Point>> {
    const HOW: &str = "write the corners in order around it, along and across each: [[\"0 cm\", \"0 cm\"], [\"90 cm\", \"0 cm\"], ...]";
    let (path, value) = reader.value(section, "corners")?;
    let Some(list) = value.get_ref().as_array() else {
        reader.wrong_type(&path, value, "a list of corners", HOW);
        return None;
    };
    let mut all = Vec::with_capacity(list.len());
    for (k, item) in list.iter().enumerate() {
        let at = format!("{path}[{}]", k + 1);
        let pair = item.get_ref().as_array().filter(|p| p.len() == 2);
        let Some(pair) = pair else {
            reader.wrong_type(&at, item, "along and across", HOW);
            return None;
        };
        let mut two = pair
            .iter()
            .map(|one| reader.as_length(&at, one).map(|l| l.value.get()));
        let (along, across) = (two.next()??, two.next()??);
        all.push(kurbo::Point::new(along, across));
    }
    let outline = outline_of(&all);
    if outline.is_none() {
        reader.conflict(&path, "these corners make no outline".into(), HOW);
    }
    outline
}

/// What the maker asks, and the word of her currency.
pub(super) fn read_terms(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> (Option<QuoteTerms>, String) {
    let Some(section) = reader.table(top, "terms", &TERM_KEYS) else {
        return (None, String::new());
    };
    let rate = reader.number(&section, "hour_rate", RATE);
    let margin = reader.number(&section, "margin", MARGIN);
    let own = reader.number(&section, "own_hours", HOURS);
    let currency = reader
        .text(&section, "currency")
        .map(|c| c.value)
        .unwrap_or_default();
    let terms = rate.map(|rate| QuoteTerms {
        hour_rate: rate.value,
        margin: margin.map_or(0.0, |m| m.value / 100.0),
        own_hours: own.map(|h| h.value),
    });
    (terms, currency)
}

/// Whether a line is priced in whole packs when nobody says so.
pub(crate) const fn is_whole_by_custom(word: Word) -> bool {
    matches!(word, Word::Thread) || !is_measured(word)
}
