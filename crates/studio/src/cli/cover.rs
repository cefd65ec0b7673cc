//! `slackwater cover`: which few sizes cover a group of people, and whom they leave out.
//!
//! The people are the wearers of suit files, or the lines of CSV lists. The sizes are those of a table, or, with `--sizes people`, people
//! of the group themselves. All faults of a file are told; of several faulty files, the first one's.

use std::path::{Path, PathBuf};

use body::{BodyForm, WaistLevel, Wearer};
use clap::Args;
use range::{BuiltIn, Candidates, PeopleNotes, Tolerance, cover, read_people};
use units::{LengthUnit, Mm, parse_length};

use super::console::Console;
use super::range::{SizesArgs, Whose, table, table_faults};
use super::table::{Align, Table, wrap};
use super::{Outcome, Trouble, read_file};
use crate::suit_file::{FaultKind, Faults, read_parts};
use crate::view::{CoverView, cover_view};

/// What `--sizes` says when new sizes are to be cut from the people themselves.
const PEOPLE: &str = "people";

#[derive(Debug, Args)]
#[command(
    after_help = "`--sizes people` cuts new sizes: the fewest people of the group whose own dimensions would do."
)]
pub(super) struct CoverArgs {
    /// Suit files, of which the wearer is read, and CSV files with a column `name`, a column for each dimension and a line for each person.
    #[arg(required = true)]
    files: Vec<PathBuf>,
    #[command(flatten)]
    sizes: SizesArgs,
    /// A size may be off by so much at every girth.
    #[arg(long, value_parser = tolerance, default_value = "4cm")]
    girth: Mm,
    /// And by so much in trunk or stature.
    #[arg(long, value_parser = tolerance, default_value = "5cm")]
    length: Mm,
}

fn tolerance(text: &str) -> Result<Mm, String> {
    parse_length(text, LengthUnit::Cm)
        .ok()
        .filter(|mm| (1.0..=500.0).contains(&mm.get()))
        .ok_or_else(|| "write a length from 1 mm to 50 cm: 4cm, or 1 1/2in".to_owned())
}

/// A list of people, not yet read: which form of body it holds is known only when all files were looked at.
struct List {
    file: String,
    bytes: Vec<u8>,
}

/// Wearers and lists of the files, and everything wrong with those that are suit files.
struct Found {
    wearers: Vec<Wearer>,
    lists: Vec<List>,
    faults: Vec<Faults>,
}

fn is_list(path: &Path) -> bool {
    path.extension().is_some_and(|e| e.eq_ignore_ascii_case("csv"))
}

fn found(files: &[PathBuf]) -> Found {
    let mut found = Found {
        wearers: Vec::new(),
        lists: Vec::new(),
        faults: Vec::new(),
    };
    for path in files {
        let file = path.display().to_string();
        match read_file(path) {
            Err(faults) => found.faults.push(faults),
            Ok(bytes) if is_list(path) => found.lists.push(List { file, bytes }),
            Ok(bytes) => match wearer(&file, &bytes) {
                Ok(wearer) => found.wearers.push(wearer),
                Err(faults) => found.faults.push(faults),
            },
        }
    }
    found
}

/// The wearer of a suit file, whatever else is missing or wrong in it.
fn wearer(file: &str, bytes: &[u8]) -> Result<Wearer, Faults> {
    let text = std::str::from_utf8(bytes).map_err(|_| {
        Faults::whole(
            file,
            FaultKind::Syntax,
            "the text is not UTF-8".to_owned(),
            "save it as UTF-8; a list of people has the ending .csv",
        )
    })?;
    let parts = read_parts(file, text)?;
    let hers: Vec<_> = parts
        .faults
        .into_iter()
        .filter(|f| f.field.starts_with("wearer"))
        .collect();
    match parts.wearer {
        Some((wearer, _)) if hers.is_empty() => Ok(wearer),
        _ if !hers.is_empty() => Err(Faults::new(file, text, hers)),
        _ => Err(Faults::whole(
            file,
            FaultKind::MissingKey,
            "there is no [wearer] in it".to_owned(),
            "name suit files, or a list with the ending .csv",
        )),
    }
}

/// Everybody, lists after suit files.
fn people(args: &CoverArgs) -> Result<Vec<Wearer>, Faults> {
    let Found {
        mut wearers,
        lists,
        mut faults,
    } = found(&args.files);
    if let (false, Some(form)) = (lists.is_empty(), form(args, &wearers)) {
        let notes = PeopleNotes {
            form,
            waist_level: WaistLevel::Natural,
            unit: args.sizes.unit.map(LengthUnit::from),
        };
        for list in &lists {
            match read_people(&list.bytes, &notes) {
                Ok(people) => wearers.extend(people),
                Err(wrong) => faults.push(table_faults(&list.file, &list.bytes, &wrong)),
            }
        }
    } else if let Some(list) = lists.first() {
        faults.push(Faults::whole(
            &list.file,
            FaultKind::MissingKey,
            "whose bodies the list holds is not said".to_owned(),
            "add --form woman, man or child",
        ));
    }
    match faults.into_iter().next() {
        Some(first) => Err(first),
        None => Ok(wearers),
    }
}

/// Whose bodies a list holds: as said, else those of the table, else those of the suit files.
fn form(args: &CoverArgs, wearers: &[Wearer]) -> Option<BodyForm> {
    let said = args.sizes.form.map(BodyForm::from);
    let of_table = || {
        let built_in = BuiltIn::from_key(&args.sizes.sizes)?;
        Some(built_in.table().ok()?.form)
    };
    said.or_else(of_table).or_else(|| wearers.first().map(|w| w.form))
}

pub(super) fn run(args: &CoverArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    let people = people(args)?;
    let tolerance = Tolerance {
        girth: args.girth,
        length: args.length,
    };
    let whose = people.first().map_or(
        Whose {
            form: BodyForm::Woman,
            waist_level: WaistLevel::Natural,
        },
        |p| Whose {
            form: p.form,
            waist_level: p.waist_level,
        },
    );
    let table = match args.sizes.sizes.as_str() {
        PEOPLE => None,
        _ => Some(table(&args.sizes, whose)?),
    };
    let from = table.as_ref().map_or(Candidates::People, Candidates::Table);
    let cover = cover(&people, from, tolerance).map_err(|error| {
        let file = args
            .files
            .first()
            .map(|f| f.display().to_string())
            .unwrap_or_default();
        Faults::whole(&file, FaultKind::Refused, error.to_string(), "")
    })?;
    let view = cover_view(&cover, &people);
    if console.manner.json {
        console.print_json(&view)?;
    } else {
        let provenance = table.as_ref().map(|t| t.provenance.as_str());
        console.print(&text(&view, provenance, args, console))?;
    }
    Ok(Outcome::Done)
}

const COLUMNS: usize = 100;

fn text(view: &CoverView, provenance: Option<&str>, args: &CoverArgs, console: &Console<'_>) -> String {
    let mut out = format!("{}\n", console.heading(&view.says));
    out += &format!(
        "within {} at bust, underbust, waist and hip, {} in trunk and stature, of what was taken\n",
        args.girth.to_cm_text(),
        args.length.to_cm_text()
    );
    if let Some(provenance) = provenance {
        out += &format!("{}\n", wrap(provenance, COLUMNS, 0));
    }
    if !view.sizes.is_empty() {
        let mut table = Table::new(&[
            ("size", Align::Left),
            ("people", Align::Right),
            ("who", Align::Left),
        ]);
        for size in &view.sizes {
            table.row(vec![
                size.size.clone(),
                size.people.len().to_string(),
                size.people.join(", "),
            ]);
        }
        out += &format!("\n{}", table.to_text(2));
    }
    if !view.left_out.is_empty() {
        out += &format!("\n{}\n", console.heading("left out"));
        for left in &view.left_out {
            let line = format!("{}: {}", left.name, left.says);
            out += &format!("  {}\n", wrap(&line, COLUMNS, 4));
        }
    }
    out
}
