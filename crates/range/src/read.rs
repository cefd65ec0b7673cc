//! Reads a size table from CSV: a size a line, a column a dimension, every fault with its line and column.
//!
//! Column heads are the names of dimensions in suit files (`hip_girth`), or their short names (`hip`), with the unit behind
//! (`hip_cm`, `hip (in)`), or the unit stands in a line or a column called `unit`. Cells may carry their own (`37 5/8in`).
//! A file whose fields part at semicolons or tabs is read too, and there a decimal comma is a decimal comma.
//!
//! **Shapes and units.** Text in, mm out. Nothing is guessed: a column without a unit is a fault, not centimetres.
//! **Limits.** At most [`MOST_ROWS`] sizes; a table larger than that is not a table of sizes.

use body::{BodyForm, Dimension, WaistLevel};
use csv::{ReaderBuilder, StringRecord};
use units::{LengthUnit, parse_length};

use crate::fault::{TableFault, TableFaults};
use crate::table::{Figure, Grade, SizeRow, SizeTable};

/// More sizes than this in one table are refused.
pub const MOST_ROWS: usize = 200;
/// A file larger than this is refused unread, bytes.
const MOST_BYTES: usize = 1_000_000;

/// What a maker says of her table beside the file.
#[derive(Clone, Debug, PartialEq)]
pub struct TableNotes {
    /// What the table is called.
    pub name: String,
    /// Whose bodies it is for.
    pub form: BodyForm,
    /// The level of its waist figures.
    pub waist_level: WaistLevel,
    /// The unit of bare numbers, if the file does not say.
    pub unit: Option<LengthUnit>,
    /// Where it comes from, in her words.
    pub provenance: String,
}

/// What a line of the file is.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum RowOf {
    /// A size, to be drafted.
    Size,
    /// Somebody, as far as she was measured.
    Person,
}

impl RowOf {
    /// What it is called in a fault.
    const fn word(self) -> &'static str {
        match self {
            RowOf::Size => "size",
            RowOf::Person => "person",
        }
    }

    /// The column its name stands in.
    const fn head(self) -> &'static str {
        match self {
            RowOf::Size => "size",
            RowOf::Person => "name",
        }
    }
}

/// What a column of the file is.
pub(crate) enum Column {
    Size,
    Unit,
    Note,
    Dimension(Dimension, Option<LengthUnit>),
    /// Already reported.
    Bad,
}

struct Head {
    text: String,
    column: Column,
}

/// Words that head the column of size names.
const SIZE_HEADS: [&str; 3] = ["size", "size_name", "name"];
/// Words that head text kept beside a size.
const NOTE_HEADS: [&str; 5] = ["note", "notes", "letter", "age", "age_about"];

/// Reads a maker's own table.
///
/// # Errors
/// [`TableFaults`] with every fault of the file: not UTF-8, no head, no column `size`, unknown or doubled columns, a unit
/// missing, a cell that is no length or not believable for that form of body, a row too short or too long, a size without
/// a name or with one used before, no dimension to draft from.
///
/// # Example
/// ```
/// use body::{BodyForm, Dimension, WaistLevel};
/// use range::{TableNotes, read_table};
/// let notes = TableNotes {
///     name: "harbour club".into(),
///     form: BodyForm::Woman,
///     waist_level: WaistLevel::Natural,
///     unit: None,
///     provenance: "measured at the winter class".into(),
/// };
/// let table = read_table(b"size,bust_cm,waist_cm,hip_cm\nS,84,68,92\nM,92,76,100\n", &notes).expect("a good table");
/// assert_eq!(table.row("M").and_then(|r| r.figure(Dimension::HipGirth)).map(|f| f.value.get()), Some(1000.0));
/// let faults = read_table(b"size,bust_cm,waste_cm\nS,84,68\n", &notes).expect_err("a slip of the pen");
/// assert_eq!(faults.faults[0].column, Some(3));
/// ```
pub fn read_table(bytes: &[u8], notes: &TableNotes) -> Result<SizeTable, TableFaults> {
    Ok(SizeTable {
        name: notes.name.clone(),
        form: notes.form,
        waist_level: notes.waist_level,
        provenance: notes.provenance.clone(),
        rows: lines(bytes, RowOf::Size, notes.form, notes.unit)?,
    })
}

/// The lines of a file, one at least; all its faults.
pub(crate) fn lines(
    bytes: &[u8],
    of: RowOf,
    form: BodyForm,
    unit: Option<LengthUnit>,
) -> Result<Vec<SizeRow>, TableFaults> {
    let mut faults = Vec::new();
    let rows = rows_of(bytes, of, form, unit, &mut faults);
    if faults.is_empty() && rows.is_empty() {
        let word = of.word();
        faults.push(TableFault::file(format!(
            "there is no {word} below the head; write one line for each {word}"
        )));
    }
    if faults.is_empty() {
        return Ok(rows);
    }
    faults.sort();
    Err(TableFaults { faults })
}

/// The file's records with the line each stands on, and whether a decimal comma is one.
pub(crate) fn records(
    bytes: &[u8],
    of: RowOf,
    faults: &mut Vec<TableFault>,
) -> Option<(Vec<(u64, StringRecord)>, bool)> {
    if bytes.len() > MOST_BYTES {
        faults.push(TableFault::file(format!(
            "the file is larger than {} kB; a line for each {} is enough",
            MOST_BYTES / 1000,
            of.word()
        )));
        return None;
    }
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text.trim_start_matches('\u{FEFF}'),
        Err(e) => {
            let before = bytes.get(..e.valid_up_to()).unwrap_or_default();
            let line = 1 + before.iter().filter(|b| **b == b'\n').count() as u64;
            faults.push(TableFault::line(
                line,
                "the text is not UTF-8; save the table again as \"CSV UTF-8\"",
            ));
            return None;
        }
    };
    let first = text.lines().find(|l| !l.trim().is_empty()).unwrap_or_default();
    let delimiter = [b',', b';', b'\t']
        .into_iter()
        .max_by_key(|d| (first.bytes().filter(|b| b == d).count(), *d == b','))
        .unwrap_or(b',');
    let mut reader = ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter)
        .from_reader(text.as_bytes());
    let mut all = Vec::new();
    for record in reader.records() {
        match record {
            Ok(record) => {
                let line = record.position().map_or(1, |at| line_of(text, at.byte()));
                if record.iter().any(|cell| !cell.trim().is_empty()) {
                    all.push((line, record));
                }
            }
            Err(e) => {
                let line = e.position().map_or(1, csv::Position::line);
                faults.push(TableFault::line(
                    line,
                    "the line cannot be read as CSV; look for a stray quote",
                ));
                return None;
            }
        }
    }
    if all.is_empty() {
        faults.push(TableFault::file(format!(
            "the file is empty; begin with a line of heads such as `{},bust_cm,waist_cm,hip_cm`",
            of.head()
        )));
        return None;
    }
    Some((all, delimiter != b','))
}

/// The line a record stands on: its own first character's, since the reader counts blank lines before it as part of it.
fn line_of(text: &str, byte: u64) -> u64 {
    let start = usize::try_from(byte).unwrap_or(usize::MAX).min(text.len());
    let bytes = text.as_bytes();
    let blank = bytes
        .iter()
        .skip(start)
        .take_while(|b| matches!(**b, b'\n' | b'\r'))
        .count();
    1 + bytes.iter().take(start + blank).filter(|b| **b == b'\n').count() as u64
}

/// The lines below the head; a fault for everything wrong with them or it.
fn rows_of(
    bytes: &[u8],
    of: RowOf,
    form: BodyForm,
    unit: Option<LengthUnit>,
    faults: &mut Vec<TableFault>,
) -> Vec<SizeRow> {
    let word = of.word();
    let Some((records, has_decimal_comma)) = records(bytes, of, faults) else {
        return Vec::new();
    };
    let mut records = records.into_iter();
    let Some((head_line, head)) = records.next() else {
        return Vec::new();
    };
    let heads = heads_of(head_line, &head, faults);
    let mut records: Vec<(u64, StringRecord)> = records.collect();
    let size_at = heads.iter().position(|h| matches!(h.column, Column::Size));
    let unit_row = unit_row(&heads, size_at, &mut records, faults);
    let unit_at = heads.iter().position(|h| matches!(h.column, Column::Unit));
    if records.len() > MOST_ROWS {
        faults.push(TableFault::file(format!(
            "the table has {} lines below its head; at most {MOST_ROWS} are read",
            records.len()
        )));
        return Vec::new();
    }
    let mut rows: Vec<SizeRow> = Vec::new();
    let mut unitless = vec![false; heads.len()];
    for (line, record) in &records {
        if record.len() != heads.len() {
            faults.push(TableFault::line(
                *line,
                format!(
                    "the line has {} cells, the head {}; {}",
                    record.len(),
                    heads.len(),
                    if record.len() > heads.len() {
                        "put text with commas in quotes, or take the extra cells out"
                    } else {
                        "leave a cell empty where a dimension is not known, but keep its comma"
                    }
                ),
            ));
            continue;
        }
        let row_unit = match unit_at.and_then(|i| Some((i, record.get(i)?.trim()))) {
            None | Some((_, "")) => None,
            Some((i, text)) => match text.parse::<LengthUnit>() {
                Ok(unit) => Some(unit),
                Err(e) => {
                    faults.push(TableFault::cell(*line, i, &heads[i].text, e.to_string()));
                    continue;
                }
            },
        };
        let name = size_at.and_then(|i| record.get(i)).unwrap_or_default().trim();
        if let Some(i) = size_at {
            if name.is_empty() {
                faults.push(TableFault::cell(
                    *line,
                    i,
                    &heads[i].text,
                    format!("the {word} has no name; give it one"),
                ));
            } else if let Some(before) = rows.iter().find(|r| r.name == name) {
                faults.push(TableFault::cell(
                    *line,
                    i,
                    &heads[i].text,
                    format!(
                        "{word} `{name}` stands on line {} already; rename one of them",
                        before.line
                    ),
                ));
            }
        }
        let mut row = SizeRow::new(name, &body::Dimensions::default(), Grade::Own);
        row.line = *line;
        let mut told: Vec<&str> = Vec::new();
        for (i, head) in heads.iter().enumerate() {
            let cell = record.get(i).unwrap_or_default().trim();
            match head.column {
                Column::Note if !cell.is_empty() => told.push(cell),
                Column::Dimension(dimension, own) if !cell.is_empty() => {
                    let unit_here = own
                        .or_else(|| unit_row.as_ref().and_then(|u| u.get(i).copied().flatten()))
                        .or(row_unit)
                        .or(unit);
                    match length(cell, unit_here, has_decimal_comma) {
                        Read::Length(value) => {
                            check(*line, i, &head.text, dimension, form, value, faults);
                            row.set(
                                dimension,
                                Figure {
                                    value,
                                    grade: Grade::Own,
                                },
                            );
                        }
                        Read::NoUnit => unitless[i] = true,
                        Read::Fault(message) => {
                            faults.push(TableFault::cell(*line, i, &head.text, message));
                        }
                    }
                }
                _ => {}
            }
        }
        row.note = told.join(", ");
        rows.push(row);
    }
    for (i, head) in heads.iter().enumerate().filter(|(i, _)| unitless[*i]) {
        let plain = head.text.trim();
        faults.push(TableFault::cell(
            head_line,
            i,
            &head.text,
            format!("no unit is given; write `{plain}_cm`, `{plain}_mm` or `{plain}_in`, or add a line `unit,cm,...`"),
        ));
    }
    enough(of, form, &heads, head_line, faults);
    rows
}

/// What the head must have to draft from.
fn enough(of: RowOf, form: BodyForm, heads: &[Head], line: u64, faults: &mut Vec<TableFault>) {
    if !heads.iter().any(|h| matches!(h.column, Column::Size)) {
        faults.push(TableFault::line(
            line,
            format!(
                "there is no column `{}`; name every {} in one",
                of.head(),
                of.word()
            ),
        ));
    }
    // A head that was not understood may be the one that is missing. Of people whatever was taken is read.
    if of == RowOf::Person || heads.iter().any(|h| matches!(h.column, Column::Bad)) {
        return;
    }
    let has = |d: Dimension| {
        heads
            .iter()
            .any(|h| matches!(h.column, Column::Dimension(x, _) if x == d))
    };
    let needed: &[Dimension] = match form {
        BodyForm::Child => &[
            Dimension::Stature,
            Dimension::BustGirth,
            Dimension::WaistGirth,
            Dimension::HipGirth,
        ],
        BodyForm::Woman => &[Dimension::BustGirth, Dimension::WaistGirth, Dimension::HipGirth],
        BodyForm::Man => &[Dimension::BustGirth, Dimension::WaistGirth],
    };
    for dimension in needed.iter().filter(|d| !has(**d)) {
        faults.push(TableFault::line(
            line,
            format!(
                "there is no column for {}; add `{}_cm`: no size can be drafted without it",
                dimension.iso_name(form),
                dimension.key()
            ),
        ));
    }
}

fn check(
    line: u64,
    column: usize,
    head: &str,
    dimension: Dimension,
    form: BodyForm,
    value: units::Mm,
    faults: &mut Vec<TableFault>,
) {
    let (least, most) = dimension.plausible_range(form);
    if value < least || value > most {
        faults.push(TableFault::cell(
            line,
            column,
            head,
            format!(
                "{} {} lies outside {} to {}; check the number and its unit",
                dimension.iso_name(form),
                value.to_cm_text(),
                least.to_cm_text(),
                most.to_cm_text()
            ),
        ));
    }
}

enum Read {
    Length(units::Mm),
    NoUnit,
    Fault(String),
}

fn length(cell: &str, unit: Option<LengthUnit>, has_decimal_comma: bool) -> Read {
    let text = if has_decimal_comma {
        cell.replace(',', ".")
    } else {
        cell.to_owned()
    };
    // Two bare units that disagree show that the cell carries none of its own.
    let read = |bare| parse_length(&text, bare);
    match (unit, read(LengthUnit::In)) {
        (_, Err(e)) => Read::Fault(e.to_string()),
        (Some(unit), Ok(_)) => match read(unit) {
            Ok(value) => Read::Length(value),
            Err(e) => Read::Fault(e.to_string()),
        },
        (None, Ok(inches)) => match read(LengthUnit::Mm) {
            Ok(mm) if mm == inches => Read::Length(mm),
            _ => Read::NoUnit,
        },
    }
}

/// The units of a line whose size is called `unit`, taken out of the records.
fn unit_row(
    heads: &[Head],
    size_at: Option<usize>,
    records: &mut Vec<(u64, StringRecord)>,
    faults: &mut Vec<TableFault>,
) -> Option<Vec<Option<LengthUnit>>> {
    let at = size_at?;
    let is_unit = |r: &StringRecord| {
        r.get(at)
            .is_some_and(|c| matches!(c.trim().to_ascii_lowercase().as_str(), "unit" | "units"))
    };
    let place = records.iter().position(|(_, r)| is_unit(r))?;
    let (line, record) = records.remove(place);
    let mut units = vec![None; heads.len()];
    for (i, head) in heads.iter().enumerate() {
        let cell = record.get(i).unwrap_or_default().trim();
        if let Column::Dimension(_, own) = head.column
            && !cell.is_empty()
        {
            match cell.parse::<LengthUnit>() {
                Ok(unit) if own.is_some_and(|o| o != unit) => faults.push(TableFault::cell(
                    line,
                    i,
                    &head.text,
                    format!(
                        "the head says {} and this line {}; keep one of them",
                        own.map_or("", LengthUnit::symbol),
                        unit.symbol()
                    ),
                )),
                Ok(unit) => units[i] = Some(unit),
                Err(e) => faults.push(TableFault::cell(line, i, &head.text, e.to_string())),
            }
        }
    }
    Some(units)
}

fn heads_of(line: u64, record: &StringRecord, faults: &mut Vec<TableFault>) -> Vec<Head> {
    let mut heads: Vec<Head> = Vec::with_capacity(record.len());
    for (i, text) in record.iter().enumerate() {
        let column = match column_of(text) {
            Ok(Column::Dimension(d, unit)) => {
                let before = heads
                    .iter()
                    .position(|h| matches!(h.column, Column::Dimension(x, _) if x == d));
                match before {
                    Some(first) => {
                        faults.push(TableFault::cell(
                            line,
                            i,
                            text,
                            format!("{} has column {} already; keep one of them", d.key(), first + 1),
                        ));
                        Column::Bad
                    }
                    None => Column::Dimension(d, unit),
                }
            }
            Ok(Column::Size) if heads.iter().any(|h| matches!(h.column, Column::Size)) => {
                faults.push(TableFault::cell(
                    line,
                    i,
                    text,
                    "there is a column of names already; keep one of them",
                ));
                Column::Bad
            }
            Ok(column) => column,
            Err(message) => {
                faults.push(TableFault::cell(line, i, text, message));
                Column::Bad
            }
        };
        heads.push(Head {
            text: text.trim().to_owned(),
            column,
        });
    }
    heads
}

/// What a head means.
pub(crate) fn column_of(text: &str) -> Result<Column, String> {
    let plain: String = text
        .trim()
        .to_ascii_lowercase()
        .chars()
        .map(|c| if c.is_alphanumeric() || c == '"' { c } else { '_' })
        .collect();
    let plain = plain.trim_matches('_').to_owned();
    if plain.is_empty() {
        return Err("the column has no head; name a dimension, or `note`".to_owned());
    }
    if SIZE_HEADS.contains(&plain.as_str()) {
        return Ok(Column::Size);
    }
    if matches!(plain.as_str(), "unit" | "units") {
        return Ok(Column::Unit);
    }
    if NOTE_HEADS.contains(&plain.as_str()) {
        return Ok(Column::Note);
    }
    let (name, unit) = match plain.rsplit_once('_') {
        Some((name, tail)) => match tail.parse::<LengthUnit>() {
            Ok(unit) => (name.trim_end_matches('_').to_owned(), Some(unit)),
            Err(_) => (plain.clone(), None),
        },
        None => (plain.clone(), None),
    };
    let found = Dimension::from_key(&name)
        .or_else(|| Dimension::from_key(&format!("{name}_girth")))
        .or_else(|| Dimension::from_key(&format!("{name}_length")))
        .or_else(|| Dimension::from_key(&format!("{name}_circumference")));
    match found {
        Some(dimension) => Ok(Column::Dimension(dimension, unit)),
        None => Err(unknown(&name)),
    }
}

fn unknown(name: &str) -> String {
    let nearest = Dimension::ALL
        .into_iter()
        .flat_map(|d| {
            let key = d.key();
            let short = key.strip_suffix("_girth").unwrap_or(key);
            [key, short]
        })
        .map(|key| (strsim::jaro_winkler(name, key), key))
        .filter(|(score, _)| *score > 0.84)
        .max_by(|a, b| a.0.total_cmp(&b.0));
    match nearest {
        Some((_, key)) => format!("`{name}` is no dimension; did you mean `{key}`?"),
        None => format!(
            "`{name}` is no dimension; use names such as `bust_girth`, `hip_girth`, `trunk_circumference`, or `note` for text"
        ),
    }
}
