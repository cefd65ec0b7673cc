//! `slackwater range`: a suit's cloth and design in every size of a table; `slackwater size`: which of them a wearer takes.
//!
//! Nothing is written when the table does not read, when no size can be drafted or when the nest does not fit the paper. Sizes
//! that are refused are named with the reason, and make exit code 1.

use std::path::PathBuf;

use body::{BodyForm, WaistLevel};
use clap::{Args, ValueEnum};
use range::{Advice, BuiltIn, Choice, SizeTable, TableFaults, choose};
use serde::Serialize;
use sheet::{PieceForm, Roll};
use units::{LengthUnit, Mm, Severity, parse_length};

use super::console::Console;
use super::folder::{Disk, Sheet, write_folder};
use super::progress::Bar;
use super::table::{Align, Table, wrap};
use super::{FormArg, Outcome, Trouble, UnitArg, read_file, read_suit};
use crate::suit_file::{Fault, FaultKind, Faults, SuitFile, place_of_line};
use crate::view::{MadeRange, RangeFile, RangeOf, TableSource, table_of};

#[derive(Debug, Args)]
pub(super) struct SizesArgs {
    /// The size table: `women`, `men`, `children`, or a CSV file with a column `size` and a column for each dimension.
    #[arg(long)]
    pub(super) sizes: String,
    /// Only these sizes: 34,36,38.
    #[arg(long, value_delimiter = ',')]
    only: Vec<String>,
    /// The stature of every size that has none in the table: 168cm.
    #[arg(long, value_parser = stature)]
    stature: Option<Mm>,
    /// Whose bodies a CSV file holds; those of the suit's wearer when left out.
    #[arg(long, value_enum)]
    pub(super) form: Option<FormArg>,
    /// Unit of bare numbers in a CSV file whose heads do not say.
    #[arg(long, value_enum)]
    pub(super) unit: Option<UnitArg>,
}

#[derive(Debug, Args)]
pub(super) struct RangeArgs {
    /// The suit file whose cloth and design are drafted; `-` for standard input.
    file: PathBuf,
    #[command(flatten)]
    sizes: SizesArgs,
    /// The folder to write nest and chart to; only told, nothing written, when left out.
    #[arg(short, long)]
    out: Option<PathBuf>,
    /// Width of the plotter's paper.
    #[arg(long, value_enum, default_value = "36in")]
    roll: RollArg,
    /// Print symmetric pieces as halves, to lay on a fold of the cloth.
    #[arg(long)]
    halves: bool,
}

#[derive(Debug, Args)]
pub(super) struct SizeArgs {
    /// The suit file: its wearer, in its cloth and design; `-` for standard input.
    file: PathBuf,
    #[command(flatten)]
    sizes: SizesArgs,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum RollArg {
    A0,
    #[value(name = "24in")]
    Inch24,
    #[value(name = "36in")]
    Inch36,
    #[value(name = "42in")]
    Inch42,
}

impl From<RollArg> for Roll {
    fn from(roll: RollArg) -> Roll {
        match roll {
            RollArg::A0 => Roll::A0,
            RollArg::Inch24 => Roll::Inch24,
            RollArg::Inch36 => Roll::Inch36,
            RollArg::Inch42 => Roll::Inch42,
        }
    }
}

fn stature(text: &str) -> Result<Mm, String> {
    parse_length(text, LengthUnit::Cm)
        .ok()
        .filter(|mm| (500.0..=2500.0).contains(&mm.get()))
        .ok_or_else(|| "write a length from 50 cm to 250 cm: 168cm, or 66in".to_owned())
}

/// Whose bodies a CSV file holds, when nothing says otherwise.
#[derive(Clone, Copy, Debug)]
pub(super) struct Whose {
    pub(super) form: BodyForm,
    pub(super) waist_level: WaistLevel,
}

/// Reads the table that is asked for.
pub(super) fn table(args: &SizesArgs, whose: Whose) -> Result<SizeTable, Faults> {
    let only: Vec<&str> = args.only.iter().map(|s| s.trim()).collect();
    if let Some(built_in) = BuiltIn::from_key(&args.sizes) {
        return table_of(&TableSource::BuiltIn(built_in), args.stature, &only)
            .map_err(|faults| table_faults("--sizes", b"", &faults));
    }
    let path = PathBuf::from(&args.sizes);
    let bytes = read_file(&path).map_err(|mut faults| {
        for fault in &mut faults.list {
            fault.help = format!("{}; or write women, men or children", fault.help);
        }
        faults
    })?;
    let name = path.file_stem().map(|s| s.to_string_lossy().into_owned());
    let form = args.form.map_or(whose.form, BodyForm::from);
    let source = TableSource::Own {
        bytes: &bytes,
        name: name.as_deref().unwrap_or("sizes"),
        form,
        waist_level: if form == whose.form {
            whose.waist_level
        } else {
            WaistLevel::Natural
        },
        unit: args.unit.map(LengthUnit::from),
    };
    table_of(&source, args.stature, &only).map_err(|faults| table_faults(&args.sizes, &bytes, &faults))
}

/// Faults of a table at their lines.
pub(super) fn table_faults(file: &str, bytes: &[u8], faults: &TableFaults) -> Faults {
    let text = String::from_utf8_lossy(bytes).into_owned();
    let list = faults
        .faults
        .iter()
        .map(|fault| {
            let (what, help) = fault.message.split_once("; ").unwrap_or((&fault.message, ""));
            let column = match (fault.column, fault.head.as_str()) {
                (Some(column), "") => format!("column {column}: "),
                (Some(column), head) => format!("column {column} ({head}): "),
                (None, _) => String::new(),
            };
            Fault {
                kind: FaultKind::Refused,
                field: fault.head.clone(),
                message: format!("{column}{what}"),
                label: "here".into(),
                allowed: Vec::new(),
                help: help.to_owned(),
                at: usize::try_from(fault.line)
                    .ok()
                    .and_then(|line| place_of_line(&text, line))
                    .filter(|at| !at.is_empty()),
            }
        })
        .collect();
    Faults::new(file, &text, list)
}

/// Drafts the range; a range without a single size is a fault.
fn drafted(suit: &SuitFile, args: &SizesArgs, console: &Console<'_>) -> Result<MadeRange, Faults> {
    let whose = Whose {
        form: suit.wearer.form,
        waist_level: suit.wearer.waist_level,
    };
    let (of, table) = match (RangeOf::of_suit(suit), table(args, whose)) {
        (Ok(of), Ok(table)) => (of, table),
        (Err(faults), _) | (_, Err(faults)) => return Err(faults),
    };
    let bar = Bar::new(console.manner.progress);
    let made = MadeRange::draft(of, &table, &bar);
    if made.chart.sizes.is_empty() {
        let list = made.nest.refused.iter().map(|(size, why)| Fault {
            kind: FaultKind::Refused,
            field: String::new(),
            message: format!("size {size} cannot be drafted: {why}"),
            label: String::new(),
            allowed: Vec::new(),
            help: String::new(),
            at: None,
        });
        return Err(Faults::new(&suit.file, "", list.collect()));
    }
    Ok(made)
}

/// What was made, for scripts.
#[derive(Debug, Serialize)]
struct Told<'a> {
    suit: &'a str,
    version: &'a str,
    table: &'a str,
    folder: Option<String>,
    written: Vec<Written<'a>>,
    chart: &'a range::SizeChart,
    growth: &'a range::GrowthReport,
    branches: &'a range::BranchReport,
    refused: &'a [(String, String)],
    stops: Vec<Stop<'a>>,
}

#[derive(Debug, Serialize)]
struct Written<'a> {
    file: &'a str,
    what: &'a str,
    pages: Option<usize>,
    bytes: usize,
}

#[derive(Debug, Serialize)]
struct Stop<'a> {
    size: &'a str,
    place: &'a str,
    message: &'a str,
    remedy: &'a str,
}

pub(super) fn run(args: &RangeArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    let suit = read_suit(&args.file)?;
    let made = drafted(&suit, &args.sizes, console)?;
    let form = if args.halves {
        PieceForm::Half
    } else {
        PieceForm::Whole
    };
    let files = match &args.out {
        Some(folder) => {
            let files = made
                .files(args.roll.into(), form)
                .map_err(|refusal| Faults::whole(&suit.file, FaultKind::Refused, refusal.to_string(), ""))?;
            let sheets: Vec<Sheet> = files
                .iter()
                .map(|f| Sheet {
                    name: f.name.clone(),
                    bytes: f.bytes.clone(),
                })
                .collect();
            write_folder(folder, &sheets, &Disk)?;
            files
        }
        None => Vec::new(),
    };
    let stops: Vec<Stop<'_>> = made
        .findings(Severity::Stop)
        .map(|(size, f)| Stop {
            size,
            place: &f.place,
            message: &f.message,
            remedy: &f.remedy,
        })
        .collect();
    let is_stop = !stops.is_empty() || !made.nest.refused.is_empty();
    if console.manner.json {
        console.print_json(&Told {
            suit: &made.of.suit,
            version: &made.of.version,
            table: &made.range.table.name,
            folder: args.out.as_ref().map(|f| f.display().to_string()),
            written: files
                .iter()
                .map(|f| Written {
                    file: &f.name,
                    what: f.what,
                    pages: f.pages,
                    bytes: f.bytes.len(),
                })
                .collect(),
            chart: &made.chart,
            growth: &made.growth,
            branches: &made.branches,
            refused: &made.nest.refused,
            stops,
        })?;
    } else {
        let text = text(args, &made, &files, &stops, console);
        console.print(&text)?;
    }
    Ok(if is_stop { Outcome::Stop } else { Outcome::Done })
}

const COLUMNS: usize = 100;

fn text(
    args: &RangeArgs,
    made: &MadeRange,
    files: &[RangeFile],
    stops: &[Stop<'_>],
    console: &Console<'_>,
) -> String {
    let mut out = format!(
        "{}\n{}\n{}\n\n",
        console.heading(&made.title()),
        made.subtitle(),
        wrap(&made.range.table.provenance, COLUMNS, 0)
    );
    out += &made.chart.to_text(made.of.unit);
    let mut part = |title: &str, lines: Vec<String>| {
        if !lines.is_empty() {
            out += &format!("\n{}\n", console.heading(title));
            for line in lines {
                out += &format!("  {}\n", wrap(&line, COLUMNS, 4));
            }
        }
    };
    let refused = made.nest.refused.iter();
    part(
        "not drafted",
        refused.map(|(size, why)| format!("size {size}: {why}")).collect(),
    );
    part(
        "stop",
        stops
            .iter()
            .map(|s| format!("size {}, {}: {} -> {}", s.size, s.place, s.message, s.remedy))
            .collect(),
    );
    let faults: Vec<String> = made.growth.faults.iter().map(|f| f.words()).collect();
    part(
        "growth",
        if faults.is_empty() {
            vec!["every length and area grows with the size, by even steps".to_owned()]
        } else {
            faults
        },
    );
    let changes = made.branches.changes.iter();
    part(
        "where the draft goes another way",
        changes
            .map(|c| format!("{} to {}: {}", c.from, c.to, c.words()))
            .collect(),
    );
    if let Some(folder) = &args.out {
        let mut table = Table::new(&[
            ("file", Align::Left),
            ("for", Align::Left),
            ("pages", Align::Right),
            ("kB", Align::Right),
        ]);
        for file in files {
            table.row(vec![
                file.name.clone(),
                file.what.to_owned(),
                file.pages.map_or(String::new(), |p| p.to_string()),
                file.bytes.len().div_ceil(1000).to_string(),
            ]);
        }
        out += &format!("\nin {}\n{}", folder.display(), table.to_text(2));
        let undrawn = files.iter().map(|f| f.undrawn.as_str()).find(|u| !u.is_empty());
        if let Some(undrawn) = undrawn {
            out += &format!("\n  no font here has these characters, a box stands for each: {undrawn}\n");
        }
    }
    out
}

pub(super) fn run_size(args: &SizeArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    let suit = read_suit(&args.file)?;
    let made = drafted(&suit, &args.sizes, console)?;
    let choice = choose(&suit.wearer, &made.range)
        .map_err(|error| Faults::whole(&suit.file, FaultKind::Refused, error.to_string(), ""))?;
    if console.manner.json {
        console.print_json(&choice)?;
    } else {
        let text = choice_text(&choice, &suit, &made, console);
        console.print(&text)?;
    }
    Ok(Outcome::Done)
}

fn choice_text(choice: &Choice, suit: &SuitFile, made: &MadeRange, console: &Console<'_>) -> String {
    let form = suit.wearer.form;
    let says = match choice.advice {
        Advice::Take => format!("take size {}", choice.size),
        Advice::TakeAndLook => format!("take size {}, and look at the places below", choice.size),
        Advice::MadeToMeasure => format!("draft a suit of her own; the nearest size is {}", choice.size),
    };
    let mut out = format!(
        "{}\n{}, {}\n\n",
        console.heading(&format!("{}: {says}", suit.wearer.name)),
        made.title(),
        made.subtitle()
    );
    let mut table = Table::new(&[
        ("level", Align::Left),
        ("hers", Align::Right),
        ("nearest", Align::Right),
        ("off there", Align::Right),
        (&format!("off in {}", choice.size), Align::Right),
    ]);
    let signed = |mm: f64| match suit.units {
        LengthUnit::In => format!("{:+.2} in", Mm::new(mm).to_inches()),
        LengthUnit::Cm | LengthUnit::Mm => format!("{:+.1} cm", mm / 10.0),
    };
    let taken = choice.all.iter().find(|s| s.size == choice.size);
    for level in &choice.levels {
        let hers = Mm::new(level.miss.wearer_mm);
        let here = taken.and_then(|s| s.misses.iter().find(|m| m.gauge == level.gauge));
        table.row(vec![
            level.gauge.dimension().iso_name(form).to_owned(),
            match suit.units {
                LengthUnit::In => hers.to_inch_text(),
                LengthUnit::Cm | LengthUnit::Mm => hers.to_cm_text(),
            },
            level.size.clone(),
            signed(level.miss.off_mm()),
            here.map_or(String::new(), |m| signed(m.off_mm())),
        ]);
    }
    out += &table.to_text(2);
    for reason in &choice.reasons {
        out += &format!("\n  {}\n", wrap(reason, COLUMNS, 4));
    }
    if !choice.not_judged.is_empty() {
        let names: Vec<&str> = choice
            .not_judged
            .iter()
            .map(|g| g.dimension().iso_name(form))
            .collect();
        let line = format!(
            "not judged, because it was not taken or the style has no such level: {}",
            names.join(", ")
        );
        out += &format!("\n  {}\n", wrap(&line, COLUMNS, 4));
    }
    out
}
