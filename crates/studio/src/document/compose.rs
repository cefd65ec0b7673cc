//! One suit file out of the documents it rests on.
//!
//! Only keys the suit file knows are taken over: a document holds more than the engine needs (stock, photos, protocol).
//!
//! **Limits.** Comments and the order of keys of an imported file are not kept; its values are, as they were written.

use draft::{ParameterKind, Style};
use serde_json::{Map, Value as Json};
use toml::{Table, Value as Toml};

use crate::suit_file::{idle_keys, section_keys};

/// The documents of one suit, as bodies. What is not chosen yet is `None`.
#[derive(Clone, Debug, Default)]
pub struct SuitPapers<'a> {
    /// The suit.
    pub suit: Option<&'a Json>,
    /// Its wearer.
    pub wearer: Option<&'a Json>,
    /// Its outer cloth.
    pub shell: Option<&'a Json>,
    /// Its lining.
    pub lining: Option<&'a Json>,
    /// Its power mesh.
    pub mesh: Option<&'a Json>,
    /// Its second outer cloth.
    pub contrast: Option<&'a Json>,
    /// Its elastic, when it is one from stock.
    pub elastic: Option<&'a Json>,
    /// The workroom: the printer.
    pub workroom: Option<&'a Json>,
}

/// Which document a path of the suit file lives in, and its path there: `wearer.dimensions.waist_girth` is the wearer's
/// `dimensions.waist_girth`.
///
/// Returns `suit`, `wearer`, `shell`, `lining`, `mesh`, `contrast`, `elastic` or `workroom` with the rest of the path.
pub fn home_of(path: &str, elastic_is_from_stock: bool) -> (&'static str, String) {
    let (head, rest) = path.split_once('.').unwrap_or((path, ""));
    let own = |name: &'static str| {
        if rest.is_empty() {
            // The whole section is missing: it is chosen on the suit.
            ("suit", name.to_owned())
        } else {
            (name, rest.to_owned())
        }
    };
    match head {
        "wearer" => own("wearer"),
        "shell" => own("shell"),
        "lining" => own("lining"),
        "mesh" => own("mesh"),
        "contrast" => own("contrast"),
        "printer" if rest == "measured_square" => ("workroom", "square".to_owned()),
        "printer" => ("workroom", rest.to_owned()),
        "elastic" if elastic_is_from_stock => own("elastic"),
        "elastic" => (
            "suit",
            format!("elastic_choice.{rest}").trim_end_matches('.').to_owned(),
        ),
        _ => ("suit", path.to_owned()),
    }
}

/// The suit file of these documents as TOML. What is missing in them is missing in it.
pub fn compose(papers: &SuitPapers<'_>) -> String {
    let mut file = Table::new();
    file.insert("format".into(), Toml::Integer(crate::suit_file::FORMAT));
    if let Some(suit) = papers.suit {
        copy(suit, &mut file, &["name", "notes", "units"]);
    }
    if let Some(wearer) = papers.wearer {
        let mut table = chosen(wearer, "wearer");
        table.remove("dimensions");
        let dimensions = dimensions(wearer);
        if !dimensions.is_empty() {
            table.insert("dimensions".into(), Toml::Table(dimensions));
        }
        file.insert("wearer".into(), Toml::Table(table));
    }
    // A lining that is chosen but that the design does without waits in the document, tested or not.
    let is_lined = papers
        .suit
        .and_then(|s| s.get("design"))
        .and_then(|d| d.get("lining"))
        .and_then(Json::as_str)
        != Some("none");
    for (name, cloth) in [
        ("shell", papers.shell),
        ("lining", papers.lining.filter(|_| is_lined)),
        ("mesh", papers.mesh),
        ("contrast", papers.contrast),
    ] {
        if let Some(cloth) = cloth {
            file.insert(name.into(), Toml::Table(chosen(cloth, name)));
        }
    }
    if let Some(suit) = papers.suit {
        let is_lined = is_lined && papers.lining.is_some();
        for name in ["tested_together", "design", "allowances"] {
            // Tested with a lining that is no longer chosen, a pair says nothing.
            if name == "tested_together" && !is_lined {
                continue;
            }
            if let Some(section) = suit.get(name).filter(|s| s.is_object()) {
                let mut table = chosen(section, name);
                if name == "design" {
                    in_force(&mut table, papers.wearer);
                }
                if !table.is_empty() {
                    file.insert(name.into(), Toml::Table(table));
                }
            }
        }
    }
    let elastic = papers
        .elastic
        .or_else(|| papers.suit.and_then(|s| s.get("elastic_choice")));
    if let Some(elastic) = elastic.filter(|e| e.is_object()) {
        let table = chosen(elastic, "elastic");
        if !table.is_empty() {
            file.insert("elastic".into(), Toml::Table(table));
        }
    }
    if let Some(workroom) = papers.workroom {
        let mut table = chosen(workroom, "printer");
        if workroom.get("square").is_some_and(Json::is_object) {
            table.remove("measured_square");
            table.extend(square(workroom).map(|square| ("measured_square".to_owned(), square)));
        }
        if !table.is_empty() {
            file.insert("printer".into(), Toml::Table(table));
        }
    }
    file.to_string()
}

/// The printed square as the file writes it, mm across and down; none before both sides are measured.
///
/// A side that is no length is kept as it was typed, for the reader to refuse at its place.
fn square(workroom: &Json) -> Option<Toml> {
    let side = |key: &str| {
        let side = workroom.get("square").and_then(|s| s.get(key))?;
        match side {
            Json::String(text) => match units::parse_length(text, units::LengthUnit::Mm) {
                Ok(mm) => Some(Toml::Float(mm.get())),
                Err(_) => to_toml("square", side),
            },
            _ => to_toml("square", side),
        }
    };
    Some(Toml::Array(vec![side("across")?, side("down")?]))
}

/// The readings of a dimension as they were typed, the first first; empty when it was not taken.
pub fn readings<'a>(wearer: &'a Json, key: &str) -> Vec<&'a Json> {
    match wearer.get("dimensions").and_then(|d| d.get(key)) {
        Some(Json::Object(entry)) => entry
            .get("readings")
            .and_then(Json::as_array)
            .map(|list| list.iter().filter(|r| !r.is_null()).collect())
            .unwrap_or_default(),
        _ => Vec::new(),
    }
}

/// The dimensions as the file writes them: one reading plain, two as a pair, of three the nearer two.
fn dimensions(wearer: &Json) -> Table {
    let mut table = Table::new();
    let Some(Json::Object(all)) = wearer.get("dimensions") else {
        return table;
    };
    for key in all.keys() {
        let taken = readings(wearer, key);
        let value = match taken.as_slice() {
            [] => continue,
            [one] => to_toml("readings", one),
            [first, second] => pair(first, second),
            [first, second, third, ..] => {
                let (a, b) = nearer_two(first, second, third);
                pair(a, b)
            }
        };
        if let Some(value) = value {
            table.insert(key.clone(), value);
        }
    }
    table
}

fn pair(first: &Json, second: &Json) -> Option<Toml> {
    let mut pair = Table::new();
    pair.insert("value".into(), to_toml("readings", first)?);
    pair.insert("second".into(), to_toml("readings", second)?);
    Some(Toml::Table(pair))
}

/// Of three readings the two nearest each other; the first two when one cannot be read (the reader then says which).
fn nearer_two<'a>(first: &'a Json, second: &'a Json, third: &'a Json) -> (&'a Json, &'a Json) {
    let length = |json: &Json| match json {
        Json::String(text) => units::parse_length(text, units::LengthUnit::Cm)
            .ok()
            .map(|l| l.get()),
        Json::Number(n) => n.as_f64().map(|n| n * 10.0),
        _ => None,
    };
    let (Some(a), Some(b), Some(c)) = (length(first), length(second), length(third)) else {
        return (first, second);
    };
    let pairs = [
        ((a - b).abs(), (first, second)),
        ((a - c).abs(), (first, third)),
        ((b - c).abs(), (second, third)),
    ];
    pairs
        .into_iter()
        .min_by(|x, y| x.0.total_cmp(&y.0))
        .map_or((first, second), |(_, pair)| pair)
}

/// Takes out of a design what its style has no use for: a document keeps the neckline of a brief that was a one-piece, in
/// case it becomes one again, but the suit file of a brief has none.
fn in_force(design: &mut Table, wearer: Option<&Json>) {
    let style = design
        .get("style")
        .and_then(Toml::as_str)
        .and_then(Style::of_key)
        .unwrap_or_default();
    design.retain(|key, _| !idle_keys(style).contains(&key));
    let form = wearer.and_then(|w| w.get("form")).and_then(Json::as_str);
    if form.is_some_and(|form| form != "woman") {
        design.remove("bust_shaping");
        design.remove("cups");
    }
    if form.is_some_and(|form| form != "child") {
        design.remove("growth");
    }
    if let Some(figure) = design.get_mut("figure").and_then(Toml::as_table_mut) {
        let is_woman = form.is_none_or(|form| form == "woman");
        if !is_woman {
            figure.remove("bust_height");
        }
        if !is_woman || !style.has_room_for_a_belly() {
            figure.remove("belly");
        }
    }
    closure_in_force(design, style);
    let kind = |skirt: &Toml| skirt.get("kind").and_then(Toml::as_str).map(str::to_owned);
    match design.get("skirt").and_then(kind).as_deref() {
        Some("none") => {
            design.remove("skirt");
        }
        Some("flared-panel") => {}
        _ => {
            if let Some(skirt) = design.get_mut("skirt").and_then(Toml::as_table_mut) {
                skirt.remove("flare");
            }
        }
    }
}

/// Takes out a closure the style cannot have, and of one it can have the place and length that its kind has no use for: a
/// document keeps the length of a zip that became a hook, in case it becomes a zip again.
fn closure_in_force(design: &mut Table, style: Style) {
    let Some(closure) = design.get_mut("closure").and_then(Toml::as_table_mut) else {
        return;
    };
    let text = |closure: &Table, key: &str| closure.get(key).and_then(Toml::as_str).map(str::to_owned);
    let kind = text(closure, "kind").unwrap_or_else(|| "zip".to_owned());
    let is_at_neck = matches!(kind.as_str(), "hook" | "ring");
    if kind == "none" || is_at_neck != style.closes_at_the_neck() {
        design.remove("closure");
        return;
    }
    let place = text(closure, "place");
    let fits = match kind.as_str() {
        "hook" | "ring" => place.as_deref() == Some("neck"),
        "clasp" => place.as_deref() == Some("back"),
        _ => place.as_deref() != Some("neck"),
    };
    if !fits {
        closure.remove("place");
    }
    if is_at_neck {
        closure.remove("length");
    }
}

/// The keys of a section of the suit file that this body has.
fn chosen(body: &Json, section: &str) -> Table {
    let mut table = Table::new();
    copy(body, &mut table, section_keys(section));
    table
}

fn copy(body: &Json, table: &mut Table, keys: &[&str]) {
    for key in keys {
        if let Some(value) = body.get(*key).and_then(|v| to_toml(key, v)) {
            table.insert((*key).to_owned(), value);
        }
    }
}

/// Keys whose value is a plain number in the file: a page sends what was typed, with or without its unit.
const NUMBERS: [&str; 22] = [
    "age",
    "mass_kg",
    "stretch",
    "recovery",
    "gsm",
    "price",
    "shrinkage",
    "kg",
    "grams",
    "newtons",
    "n_per_cm",
    "force",
    "working_extension",
    "neck_depth",
    "back_depth",
    "strap_position",
    "fit_around",
    "fit_lengthwise",
    "leg_share",
    "flare",
    "along",
    "across",
];
/// Units that may stand behind them.
const UNITS_OF_NUMBERS: [&str; 12] = [
    "g/m2", "g/m²", "gsm", "%", "per cent", "kg", "g", "N/cm", "N", "years", "degrees", "°",
];
/// Keys whose value is yes or no.
const SWITCHES: [&str; 2] = ["washed", "first_fitting"];

/// What a key's text means in the file: `190 g/m2` under `gsm` is the number 190. What cannot be meant so stays a text, and
/// the reader says what is wrong with it.
fn meant(key: &str, text: &str) -> Option<Toml> {
    let text = text.trim();
    if SWITCHES.contains(&key) {
        return match text {
            "true" | "yes" => Some(Toml::Boolean(true)),
            "false" | "no" => Some(Toml::Boolean(false)),
            _ => None,
        };
    }
    if !NUMBERS.contains(&key) && !is_own_number(key) {
        return None;
    }
    let bare = UNITS_OF_NUMBERS
        .iter()
        .find_map(|unit| text.strip_suffix(unit))
        .unwrap_or(text)
        .trim();
    if let Ok(whole) = bare.parse::<i64>() {
        return Some(Toml::Integer(whole));
    }
    bare.parse::<f64>()
        .ok()
        .filter(|n| n.is_finite())
        .map(Toml::Float)
}

/// Whether a style has a number of its own under this key.
fn is_own_number(key: &str) -> bool {
    Style::all()
        .iter()
        .filter_map(|s| s.own(key))
        .any(|p| matches!(p.kind, ParameterKind::Number { .. }))
}

/// A JSON value as TOML; nothing for null, an empty text or an empty object: those are not written.
fn to_toml(key: &str, json: &Json) -> Option<Toml> {
    match json {
        Json::Null => None,
        Json::Bool(b) => Some(Toml::Boolean(*b)),
        Json::Number(n) => n
            .as_i64()
            .map(Toml::Integer)
            .or_else(|| n.as_f64().map(Toml::Float)),
        Json::String(text) if text.trim().is_empty() => None,
        Json::String(text) => Some(meant(key, text).unwrap_or_else(|| Toml::String(text.clone()))),
        Json::Array(list) => Some(Toml::Array(list.iter().filter_map(|v| to_toml(key, v)).collect())),
        Json::Object(map) => table_of(map).map(Toml::Table),
    }
}

fn table_of(map: &Map<String, Json>) -> Option<Table> {
    let table: Table = map
        .iter()
        .filter_map(|(key, value)| Some((key.clone(), to_toml(key, value)?)))
        .collect();
    (!table.is_empty()).then_some(table)
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::suit_file::read_parts;

    #[test]
    fn of_three_readings_the_nearer_two_are_kept() {
        let wearer = json!({"name": "Maren", "form": "woman", "dimensions":
            {"waist_girth": {"readings": ["73.0 cm", "70.2 cm", "72.6 cm"]}}});
        let text = compose(&SuitPapers {
            wearer: Some(&wearer),
            ..SuitPapers::default()
        });
        let parts = read_parts("maren", &text).unwrap();
        let (taken, second) = parts.wearer.unwrap();
        assert_eq!(taken.taken.get(body::Dimension::WaistGirth).unwrap().get(), 730.0);
        assert_eq!(second.get(body::Dimension::WaistGirth).unwrap().get(), 726.0);
    }

    #[test]
    fn what_the_engine_has_no_use_for_stays_in_the_document() {
        let shell = json!({"name": "Slate tricot", "role": "shell", "stock": "2.4 m", "look": {"colour": "#566874"},
            "along": {"rest": "10 cm", "pulled": "18 cm"}, "across": {"stretch": 60}, "gsm": null, "notes": ""});
        let text = compose(&SuitPapers {
            shell: Some(&shell),
            ..SuitPapers::default()
        });
        let parts = read_parts("suit", &text).unwrap();
        assert!(parts.shell.is_some(), "{:?}", parts.faults);
        assert!(!text.contains("stock") && !text.contains("look"));
    }

    #[test]
    fn the_printed_square_is_written_when_both_sides_are_measured() {
        let written = |square: serde_json::Value| {
            let workroom = json!({"paper": "A4", "square": square, "measured_square": [98.0, 98.0]});
            let papers = SuitPapers {
                workroom: Some(&workroom),
                ..SuitPapers::default()
            };
            read_parts("suit", &compose(&papers)).unwrap()
        };
        let parts = written(json!({"across": "99.4 mm", "down": 100.2}));
        assert_eq!(parts.printer.measured_square_mm, Some([99.4, 100.2]));
        assert_eq!(
            written(json!({"across": "99.4 mm"})).printer.measured_square_mm,
            None
        );
        let wrong = written(json!({"across": "wide", "down": "100 mm"}));
        assert!(wrong.faults.iter().any(|f| f.field == "printer.measured_square"));
    }

    #[test]
    fn what_a_style_or_a_body_cannot_have_waits_in_the_document() {
        let read = |form: &str, design: Json| {
            let mut suit = json!({"name": "Suit", "design": design});
            suit["design"]["lining"] = json!("none");
            let wearer = json!({"name": "Maren", "form": form, "age": 9});
            let text = compose(&SuitPapers {
                suit: Some(&suit),
                wearer: Some(&wearer),
                ..SuitPapers::default()
            });
            let parts = read_parts("suit", &text).unwrap();
            let of_design = parts.faults.iter().filter(|f| f.field.starts_with("design"));
            assert_eq!(of_design.count(), 0, "{:?}", parts.faults);
            parts.design
        };
        let closure = |style: &str, closure: Json| {
            read("woman", json!({"style": style, "closure": closure}))
                .closure
                .map(|c| (c.kind, c.place))
        };
        use draft::{ClosureKind, ClosurePlace};
        let zip = Some((ClosureKind::Zip, ClosurePlace::Back));
        assert_eq!(
            closure("one-piece", json!({"kind": "none", "length": "20 cm"})),
            None
        );
        assert_eq!(closure("one-piece", json!({"kind": "hook"})), None);
        assert_eq!(closure("one-piece", json!({"kind": "zip", "place": "neck"})), zip);
        assert_eq!(
            closure("one-piece", json!({"length": "20 cm"})),
            zip,
            "no kind said"
        );
        assert_eq!(
            closure("one-piece", json!({"kind": "clasp", "place": "front"})),
            Some((ClosureKind::Clasp, ClosurePlace::Back))
        );
        assert_eq!(
            closure(
                "halter-one-piece",
                json!({"kind": "ring", "place": "back", "length": "20 cm"})
            ),
            Some((ClosureKind::Ring, ClosurePlace::Neck))
        );
        assert_eq!(closure("halter-one-piece", json!({"kind": "zip"})), None);

        let body =
            json!({"growth": "1 cm", "figure": {"belly": "3 cm", "bust_height": "1 cm", "seat": "1 cm"}});
        let woman = read("woman", body.clone());
        assert_eq!((woman.growth.get(), woman.figure.belly.get()), (0.0, 30.0));
        let child = read("child", body.clone());
        assert_eq!((child.growth.get(), child.figure.belly.get()), (10.0, 0.0));
        assert_eq!(
            (child.figure.bust_height.get(), child.figure.seat.get()),
            (0.0, 10.0)
        );
        let mut brief = body;
        brief["style"] = json!("brief");
        assert_eq!(read("woman", brief).figure.belly.get(), 0.0);
    }

    #[test]
    fn a_second_outer_cloth_is_written() {
        let kelp = json!({"name": "Kelp print", "role": "shell", "along": {"stretch": 60}, "across": {"stretch": 80}});
        let text = compose(&SuitPapers {
            contrast: Some(&kelp),
            ..SuitPapers::default()
        });
        assert!(read_parts("suit", &text).unwrap().contrast.is_some(), "{text}");
        assert_eq!(home_of("contrast.along", false), ("contrast", "along".into()));
    }

    #[test]
    fn an_unlined_suit_does_not_wait_for_its_lining() {
        let suit = json!({"name": "Toile", "design": {"lining": "none"}});
        let untested = json!({"name": "Oat lining", "role": "lining"});
        let text = compose(&SuitPapers {
            suit: Some(&suit),
            lining: Some(&untested),
            ..SuitPapers::default()
        });
        let parts = read_parts("suit", &text).unwrap();
        assert!(
            parts.faults.iter().all(|f| !f.field.contains("lining")),
            "{:?}",
            parts.faults
        );
    }

    #[test]
    fn a_brief_keeps_its_neckline_to_itself() {
        let design = json!({"style": "brief", "neckline": "v", "cups": "pocket", "rise": "mid", "lining": "none",
            "skirt": {"kind": "none", "join": "hip"}});
        let suit = json!({"name": "Brief", "design": design});
        let text = compose(&SuitPapers {
            suit: Some(&suit),
            ..SuitPapers::default()
        });
        let parts = read_parts("suit", &text).unwrap();
        assert!(
            parts.faults.iter().all(|f| !f.field.starts_with("design")),
            "{:?}",
            parts.faults
        );
        assert_eq!(parts.design.skirt, None);
    }

    #[test]
    fn a_number_of_a_style_may_be_typed() {
        let mut seen = 0;
        for style in Style::all() {
            for parameter in style.spec().own {
                let ParameterKind::Number { usual, .. } = parameter.kind else {
                    assert!(!is_own_number(parameter.key), "{} is of two kinds", parameter.key);
                    continue;
                };
                let mut design = json!({"style": style.key()});
                design[parameter.key] = json!(usual.to_string());
                let suit = json!({"name": "Suit", "design": design});
                let text = compose(&SuitPapers {
                    suit: Some(&suit),
                    ..SuitPapers::default()
                });
                let parts = read_parts("suit", &text).unwrap();
                let path = format!("design.{}", parameter.key);
                assert!(
                    parts.faults.iter().all(|f| f.field != path),
                    "{text}: {:?}",
                    parts.faults
                );
                seen += 1;
            }
        }
        assert!(seen > 10, "{seen}");
    }

    #[test]
    fn numbers_and_switches_may_be_typed() {
        let shell = json!({"name": "Slate", "gsm": "190 g/m2", "price": "19.5", "washed": "true", "width": "150 cm",
            "shrinkage": {"along": "2 %", "across": "1"}, "along": {"stretch": "80 %", "recovery": "97"},
            "across": {"rest": "10 cm", "pulled": "16 cm"}});
        let text = compose(&SuitPapers {
            shell: Some(&shell),
            ..SuitPapers::default()
        });
        let parts = read_parts("suit", &text).unwrap();
        let record = parts.shell.unwrap_or_else(|| panic!("{:?}", parts.faults)).record;
        assert_eq!(record.mass_g_per_m2, Some(190.0));
        assert_eq!(record.shrinkage_along_percent, 2.0);
        assert!(record.is_washed);
        let odd = json!({"name": "Slate", "gsm": "heavy"});
        let text = compose(&SuitPapers {
            shell: Some(&odd),
            ..SuitPapers::default()
        });
        let parts = read_parts("suit", &text).unwrap();
        assert!(
            parts.faults.iter().any(|f| f.field == "shell.gsm"),
            "{:?}",
            parts.faults
        );
    }

    #[test]
    fn a_fault_finds_its_way_home() {
        assert_eq!(
            home_of("wearer.dimensions.waist_girth", false),
            ("wearer", "dimensions.waist_girth".into())
        );
        assert_eq!(home_of("shell", false), ("suit", "shell".into()));
        assert_eq!(
            home_of("shell.along.pulled", false),
            ("shell", "along.pulled".into())
        );
        assert_eq!(
            home_of("elastic.width", false),
            ("suit", "elastic_choice.width".into())
        );
        assert_eq!(home_of("elastic.width", true), ("elastic", "width".into()));
        assert_eq!(
            home_of("design.skirt.cover", false),
            ("suit", "design.skirt.cover".into())
        );
        assert_eq!(
            home_of("printer.measured_square", false),
            ("workroom", "square".into())
        );
        assert_eq!(
            home_of("printer.white_edge", false),
            ("workroom", "white_edge".into())
        );
    }
}
