//! The whole file: the top keys, the sections in order, and what comes of them.
//!
//! **Shapes and units.** Bytes or text in, a [`SuitFile`] or [`Faults`] out; never a panic, whatever the text.
//! **Limits.** A file above [`LARGEST_FILE`] is refused unread: a suit takes a few kilobytes, and a film named `.toml` by
//! mistake should not be parsed.

use body::{Dimensions, Wearer};
use cloth::{Layer, Orientation, SwatchRecord, TogetherTest};
use draft::{Design, LiningCover};
use make::ElasticChoice;
use toml::de::{DeTable, DeValue};
use units::{LengthUnit, Mm};

use super::fault::{Fault, FaultKind, Faults, Span, place_in};
use super::reader::{LengthRange, Places, Reader, Section, shortened};
use super::{design, elastic, swatch, wearer};

/// The version of the format this reads and writes.
pub const FORMAT: i64 = 1;
/// Bytes; a full suit file with comments has about 5 000.
pub const LARGEST_FILE: usize = 1 << 20;

pub(crate) const KEYS: [&str; 14] = [
    "format",
    "name",
    "notes",
    "units",
    "wearer",
    "shell",
    "lining",
    "mesh",
    "contrast",
    "tested_together",
    "design",
    "allowances",
    "elastic",
    "printer",
];
pub(crate) const PRINTER_KEYS: [&str; 3] = ["paper", "measured_square", "white_edge"];
pub(crate) const UNITS: [(&str, LengthUnit); 3] = [
    ("cm", LengthUnit::Cm),
    ("mm", LengthUnit::Mm),
    ("in", LengthUnit::In),
];
pub(crate) const PAPERS: [(&str, PaperChoice); 2] =
    [("A4", PaperChoice::A4), ("Letter", PaperChoice::Letter)];

/// The paper in the maker's printer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PaperChoice {
    /// 210 x 297 mm.
    A4,
    /// 8 1/2 x 11 in.
    Letter,
}

/// What is known of the maker's printer.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Printer {
    /// Her paper; `None` for both.
    pub paper: Option<PaperChoice>,
    /// What she measured of the printed 100 mm square, across and along the feed, mm.
    pub measured_square_mm: Option<[f64; 2]>,
    /// How wide an edge it leaves white on every side.
    pub white_edge: Option<Mm>,
}

/// A cloth of the suit, and how it must lie if the maker says so.
#[derive(Clone, Debug, PartialEq)]
pub struct ClothEntry {
    /// What she wrote of the cloth.
    pub record: SwatchRecord,
    /// How it must lie; `None` puts the greatest stretch around.
    pub lay: Option<Orientation>,
}

/// A suit file that reads well.
#[derive(Clone, Debug, PartialEq)]
pub struct SuitFile {
    /// The file, as the maker named it.
    pub file: String,
    /// The suit's name.
    pub name: String,
    /// Anything she wants to remember.
    pub notes: String,
    /// Unit of its bare numbers, and of what is printed back.
    pub units: LengthUnit,
    /// The wearer.
    pub wearer: Wearer,
    /// Second readings of her dimensions.
    pub second: Dimensions,
    /// Outer cloth.
    pub shell: ClothEntry,
    /// Lining.
    pub lining: Option<ClothEntry>,
    /// Power mesh.
    pub mesh: Option<ClothEntry>,
    /// A second outer cloth, for blocks.
    pub contrast: Option<ClothEntry>,
    /// Shell and lining tested together.
    pub tested_together: Option<TogetherTest>,
    /// The design, allowances included.
    pub design: Design,
    /// The elastic of its open edges.
    pub elastic: ElasticChoice,
    /// The printer.
    pub printer: Printer,
    places: Places,
    text: String,
}

/// Reads a suit file from bytes; `file` is what to call it in messages.
///
/// # Errors
/// [`Faults`] as [`read_text`], and for bytes that are not UTF-8 or more than [`LARGEST_FILE`].
pub fn read_bytes(file: &str, bytes: &[u8]) -> Result<SuitFile, Faults> {
    let whole = |text: &str, message: String, help: &str, at: Option<Span>| {
        let fault = Fault {
            kind: FaultKind::Syntax,
            field: String::new(),
            message,
            label: "here".into(),
            allowed: Vec::new(),
            help: help.to_owned(),
            at,
        };
        Faults::new(file, text, vec![fault])
    };
    if bytes.len() > LARGEST_FILE {
        let message = format!(
            "the file has {} bytes; a suit file has a few thousand",
            bytes.len()
        );
        return Err(whole("", message, "check that this is the file you meant", None));
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => read_text(file, text),
        Err(error) => {
            let good = String::from_utf8_lossy(bytes.get(..error.valid_up_to()).unwrap_or(&[]));
            let end = good.len();
            let message = "the file is not UTF-8 text from here on".to_owned();
            let help = "save it as UTF-8 in your editor, or check that this is the file you meant";
            Err(whole(&good, message, help, Some(end..end)))
        }
    }
}

/// Reads a suit file; `file` is what to call it in messages.
///
/// # Errors
/// [`Faults`]: every fault of the file at once, in the order of the text, each with its place.
///
/// # Example
/// ```
/// let text = "format = 1\nname = \"Try\"\n[wearer]\nform = \"woman\"\n";
/// let faults = studio::suit_file::read_text("try.toml", text).unwrap_err();
/// let keys: Vec<&str> = faults.list.iter().map(|f| f.field.as_str()).collect();
/// assert_eq!(keys, ["shell", "design.lining", "wearer.name", "wearer.dimensions"]);
/// ```
pub fn read_text(file: &str, text: &str) -> Result<SuitFile, Faults> {
    // An editor's byte order mark would shift every column of line 1.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    read_parts(file, text)?.whole(file, text)
}

/// Reads what there is of a suit file that need not be whole; what is missing or wrong is in [`Parts::faults`].
///
/// # Errors
/// [`Faults`] of a text that is no TOML at all.
pub fn read_parts(file: &str, text: &str) -> Result<Parts, Faults> {
    // An editor's byte order mark would shift every column of line 1.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut reader = Reader::new(text);
    if text.trim().is_empty() {
        reader.fault(Fault {
            kind: FaultKind::Syntax,
            field: String::new(),
            message: "the file is empty".into(),
            label: String::new(),
            allowed: Vec::new(),
            help: "`slackwater new FILE` writes one to fill in".into(),
            at: None,
        });
        return Err(Faults::new(file, text, reader.faults));
    }
    let (root, errors) = DeTable::parse_recoverable(text);
    if !errors.is_empty() {
        return Err(Faults::new(file, text, syntax_faults(text, &errors)));
    }
    let top = reader.root(root.get_ref(), &KEYS);
    let mut parts = sections(&mut reader, &top);
    parts.faults = std::mem::take(&mut reader.faults);
    parts.places = reader.places;
    Ok(parts)
}

/// What could be read of a suit file that need not be whole.
#[derive(Clone, Debug, PartialEq)]
pub struct Parts {
    /// The suit's name.
    pub name: Option<String>,
    /// Anything she wants to remember.
    pub notes: String,
    /// Unit of its bare numbers.
    pub units: LengthUnit,
    /// The wearer and the second readings of her dimensions.
    pub wearer: Option<(Wearer, Dimensions)>,
    /// Outer cloth.
    pub shell: Option<ClothEntry>,
    /// Lining.
    pub lining: Option<ClothEntry>,
    /// Power mesh.
    pub mesh: Option<ClothEntry>,
    /// A second outer cloth, for blocks.
    pub contrast: Option<ClothEntry>,
    /// Shell and lining tested together.
    pub tested_together: Option<TogetherTest>,
    /// The design; what did not read well is as usual in it.
    pub design: Design,
    /// The elastic of its open edges.
    pub elastic: Option<ElasticChoice>,
    /// The printer.
    pub printer: Printer,
    /// Everything wrong or missing, in the order of reading.
    pub faults: Vec<Fault>,
    places: Places,
}

impl Parts {
    pub(super) fn places(&self) -> &Places {
        &self.places
    }

    /// The whole suit file, when nothing is missing or wrong.
    ///
    /// # Errors
    /// [`Faults`] of all of it.
    pub fn whole(self, file: &str, text: &str) -> Result<SuitFile, Faults> {
        match (self.name, self.wearer, self.shell, self.elastic) {
            (Some(name), Some((wearer, second)), Some(shell), Some(elastic)) if self.faults.is_empty() => {
                Ok(SuitFile {
                    file: file.to_owned(),
                    name,
                    notes: self.notes,
                    units: self.units,
                    wearer,
                    second,
                    shell,
                    lining: self.lining,
                    mesh: self.mesh,
                    contrast: self.contrast,
                    tested_together: self.tested_together,
                    design: self.design,
                    elastic,
                    printer: self.printer,
                    places: self.places,
                    text: text.to_owned(),
                })
            }
            _ => Err(Faults::new(file, text, self.faults)),
        }
    }
}

fn sections(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Parts {
    let help = "use the program the file was written for, or write the file anew with `slackwater new`";
    read_format(reader, top, help);
    // The unit first: every length below is read in it.
    if let Some(unit) = reader.choice(top, "units", &UNITS) {
        reader.unit = unit.value;
    }
    let name = reader.text(top, "name");
    if !top.has("name") {
        reader.missing(
            top,
            "name",
            "give the suit a name: name = \"Maren, winter one-piece\"",
        );
    }
    let notes = reader.long_text(top, "notes");
    let person = wearer::read(reader, top);
    Parts {
        name: name.map(|n| n.value),
        notes: notes.map(|n| n.value).unwrap_or_default(),
        wearer: person.map(|p| (p.wearer, p.second)),
        ..sewn(reader, top)
    }
}

/// What is sewn: cloths, design, elastic, printer. Whose it is and what it is called is left out.
pub(crate) fn sewn(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Parts {
    let shell = swatch::read(reader, top, Layer::Shell);
    if !top.has("shell") {
        reader.missing(
            top,
            "shell",
            "add a [shell] section with the outer cloth and its stretch test",
        );
    }
    let lining = swatch::read(reader, top, Layer::Lining);
    let mesh = swatch::read(reader, top, Layer::Mesh);
    let contrast = swatch::read(reader, top, Layer::Contrast);
    let tested_together = swatch::read_pair(reader, top);
    let mut design = design::read(reader, top);
    let elastic = elastic::read(reader, top);
    if let Some(elastic) = &elastic {
        design.allowances.elastic_width = elastic.width();
    }
    let is_lined = matches!(
        design.lining,
        LiningCover::Full | LiningCover::Front | LiningCover::Crotch
    );
    if is_lined && !top.has("lining") {
        reader.conflict(
            "design.lining",
            "the design is lined, but there is no [lining] cloth".into(),
            "add a [lining] section, or write lining = \"none\" under [design] for an unlined toile",
        );
    }
    let printer = printer(reader, top);
    Parts {
        name: None,
        notes: String::new(),
        units: reader.unit,
        wearer: None,
        shell,
        lining,
        mesh,
        contrast,
        tested_together,
        design,
        elastic,
        printer,
        faults: Vec::new(),
        places: Places::default(),
    }
}

/// Reads the version of the format; `help` is what to do about another.
pub(crate) fn read_format(reader: &mut Reader<'_>, top: &Section<'_, '_>, help: &str) {
    let Some((path, value)) = reader.value(top, "format") else {
        reader.missing(top, "format", "write format = 1 as the first line");
        return;
    };
    let version = match value.get_ref() {
        DeValue::Integer(i) => i64::from_str_radix(&i.as_str().replace('_', ""), i.radix()).ok(),
        _ => {
            reader.wrong_type(&path, value, "a whole number", "write format = 1");
            return;
        }
    };
    if version != Some(FORMAT) {
        reader.fault(Fault {
            kind: FaultKind::NotAllowed,
            field: path,
            message: format!("this program reads format {FORMAT} only"),
            label: "another format".into(),
            allowed: vec![FORMAT.to_string()],
            help: help.into(),
            at: Some(value.span()),
        });
    }
}

/// How far off a printed 100 mm square may be before it is a misread ruler or "fit to page": what the paper corrects.
pub const SQUARE_RANGE_MM: (f64, f64) = (
    100.0 * (1.0 - sheet::MOST_CORRECTION),
    100.0 * (1.0 + sheet::MOST_CORRECTION),
);

/// What a printer may leave white.
pub(crate) const WHITE_EDGE: LengthRange = LengthRange {
    low: Mm::new(sheet::WHITE_EDGE_MM.0),
    high: Mm::new(sheet::WHITE_EDGE_MM.1),
    help: "3 to 6 mm as a rule; measure it on a page that is dark all over",
};

pub(crate) fn printer(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Printer {
    const HOW: &str = "write measured_square = [99.4, 100.2]: across the page, then down it, in mm";
    let Some(section) = reader.table(top, "printer", &PRINTER_KEYS) else {
        return Printer::default();
    };
    let paper = reader.choice(&section, "paper", &PAPERS).map(|p| p.value);
    let white_edge = reader.length(&section, "white_edge", WHITE_EDGE).map(|w| w.value);
    let unmeasured = Printer {
        paper,
        measured_square_mm: None,
        white_edge,
    };
    let Some((path, value)) = reader.value(&section, "measured_square") else {
        return unmeasured;
    };
    let Some(list) = value.get_ref().as_array() else {
        reader.wrong_type(&path, value, "a list of two numbers", HOW);
        return unmeasured;
    };
    let sides: Vec<Option<f64>> = list
        .iter()
        .map(|item| reader.as_number(&path, item, "a number"))
        .collect();
    let (low, high) = SQUARE_RANGE_MM;
    for (item, side) in list.iter().zip(&sides) {
        if side.is_some_and(|s| !(low..=high).contains(&s)) {
            reader.fault(Fault {
                kind: FaultKind::OutOfRange,
                field: path.clone(),
                message: format!("{path}: the printed 100 mm square cannot be that far off"),
                label: "out of range".into(),
                allowed: vec![format!("{low:.0} to {high:.0} mm")],
                help: "print at 100 % or actual size, not fit to page, and measure the square again in mm"
                    .into(),
                at: Some(item.span()),
            });
        }
    }
    let measured_square_mm = match sides.as_slice() {
        [Some(across), Some(down)] => Some([*across, *down]),
        [_, _] => None,
        _ => {
            reader.wrong_type(&path, value, "a list of two numbers", HOW);
            None
        }
    };
    Printer {
        measured_square_mm,
        ..unmeasured
    }
}

/// The faults of a text that is no TOML.
///
/// What a broken line leaves of the table is not worth judging: its keys may be in the wrong section.
pub(crate) fn syntax_faults(text: &str, errors: &[toml::de::Error]) -> Vec<Fault> {
    // One fault a line: an unclosed bracket makes the parser complain of every token behind it.
    let line = |span: Option<Span>| span.map(|s| place_in(text, s.start).line);
    let mut list: Vec<Fault> = Vec::new();
    for error in errors {
        if list.iter().all(|f| line(f.at.clone()) != line(error.span())) {
            list.push(syntax_fault(text, error.message(), error.span()));
        }
    }
    list
}

/// A fault of the TOML itself, in our words where the parser's are a grammarian's.
pub(crate) fn syntax_fault(text: &str, message: &str, at: Option<Span>) -> Fault {
    let covered = at
        .clone()
        .and_then(|s| text.get(s))
        .map(|c| shortened(c.lines().next().unwrap_or("")));
    let (kind, message, label, help) = if message.contains("duplicate key") {
        (
            FaultKind::DuplicateKey,
            format!("`{}` stands here a second time", covered.unwrap_or_default()),
            "the second one",
            "keep one of the two".to_owned(),
        )
    } else {
        (
            FaultKind::Syntax,
            format!("this is not TOML: {message}"),
            "here",
            "a line is `key = value` or `[section]`; put texts in quotes, write decimals with a point"
                .to_owned(),
        )
    };
    Fault {
        kind,
        field: String::new(),
        message,
        label: label.to_owned(),
        allowed: Vec::new(),
        help,
        at,
    }
}

impl SuitFile {
    /// The file's text.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Where a key stands, by dotted path; the nearest section around it when the key is not in the file.
    pub fn place_of(&self, path: &str) -> Option<Span> {
        self.places.of(path)
    }

    /// Whether the file has the key.
    pub fn has(&self, path: &str) -> bool {
        self.places.has(path)
    }

    pub(super) fn places(&self) -> &Places {
        &self.places
    }

    /// Faults of this file.
    pub fn faults(&self, list: Vec<Fault>) -> Faults {
        Faults::new(&self.file, &self.text, list)
    }
}

/// The keys of a section, by its name; none for a section the file does not have.
pub(crate) fn section_keys(section: &str) -> &'static [&'static str] {
    match section {
        "wearer" => &wearer::KEYS,
        "shell" | "lining" | "mesh" | "contrast" => &swatch::KEYS,
        "tested_together" => &swatch::PAIR_KEYS,
        "design" => design::keys(),
        "design.figure" => &design::FIGURE_KEYS,
        "allowances" => &design::ALLOWANCE_KEYS,
        "elastic" => &elastic::KEYS,
        "printer" => &PRINTER_KEYS,
        _ => &[],
    }
}
