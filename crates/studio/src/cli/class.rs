//! `slackwater class`: a class file in; a kit for everyone, one shopping list and one timetable out.
//!
//! Nothing is written when the class file or a file it names does not read. A wearer the design cannot be drafted for gets a text that
//! says why, and makes exit code 1, as a stop finding does.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Instant;

use clap::Args;
use serde::Serialize;
use units::Severity;

use super::console::Console;
use super::folder::{Disk, write_folder};
use super::progress::Bar;
use super::table::{Align, Table, wrap};
use super::{Outcome, Trouble, read_file};
use crate::class::{
    ClassReport, Kits, WorkedClass, gather, lay_class, letter, make_kits, read_class, report, work,
};
use crate::paper::Made;
use crate::suit_file::{FaultKind, Faults};

#[derive(Debug, Args)]
pub(super) struct ClassArgs {
    /// The class file; `-` for standard input, paths in it then count from here.
    file: PathBuf,
    /// The folder to write to; made if it is not there.
    #[arg(short, long, required_unless_present = "check")]
    output: Option<PathBuf>,
    /// Only judge: draft everyone, time the room, write nothing.
    #[arg(long, conflicts_with = "output")]
    check: bool,
}

/// What was made, for scripts.
#[derive(Debug, Serialize)]
struct Told<'a> {
    folder: Option<String>,
    written: &'a [Made],
    /// How long laying the cloth took.
    laid_in_seconds: f64,
    #[serde(flatten)]
    class: &'a ClassReport,
}

pub(super) fn run(args: &ClassArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    let file = args.file.display().to_string();
    let class = read_class(&file, &read_file(&args.file)?)?;
    let beside = args.file.parent().map(Path::to_owned).unwrap_or_default();
    let (setting, people) = gather(&class, &|path| {
        std::fs::read(beside.join(path)).map_err(|error| match error.kind() {
            std::io::ErrorKind::NotFound => "there is no such file".to_owned(),
            std::io::ErrorKind::PermissionDenied => "the file may not be read".to_owned(),
            _ => format!("the file cannot be read: {error}"),
        })
    })?;
    let bar = Bar::new(console.manner.progress);
    let stopped = || {
        Faults::whole(
            &file,
            FaultKind::Refused,
            "stopped".to_owned(),
            "nothing was written",
        )
    };
    let worked = work(setting, people, &bar).map_err(|_| stopped())?;
    let start = Instant::now();
    let lays = lay_class(&worked, &bar).map_err(|_| stopped())?;
    let seconds = start.elapsed().as_secs_f64();
    let worked = worked.with_lays(Arc::new(lays));
    let kits = match &args.output {
        Some(folder) => {
            let kits = make_kits(&worked, &bar).map_err(|fault| {
                Faults::whole(
                    &file,
                    FaultKind::Refused,
                    fault.to_string(),
                    "nothing was written",
                )
            })?;
            write_folder(folder, &kits.sheets, &Disk)?;
            Some(kits)
        }
        None => None,
    };
    drop(bar);
    let told = report(&worked, kits.as_ref().map_or(&[], |k| &k.kits));
    if console.manner.json {
        console.print_json(&Told {
            folder: args.output.as_ref().map(|f| f.display().to_string()),
            written: kits.as_ref().map_or(&[], |k| &k.room),
            laid_in_seconds: seconds,
            class: &told,
        })?;
    } else {
        let text = text(args, &worked, kits.as_ref(), &told, seconds, console);
        console.print(&text)?;
    }
    Ok(if worked.is_whole() {
        Outcome::Done
    } else {
        Outcome::Stop
    })
}

const COLUMNS: usize = 100;

fn text(
    args: &ClassArgs,
    class: &WorkedClass,
    kits: Option<&Kits>,
    told: &ClassReport,
    seconds: f64,
    console: &Console<'_>,
) -> String {
    let setting = &class.setting;
    let mut out = format!("{}\n", console.heading(&setting.name));
    if !setting.when.is_empty() {
        out += &format!("{}\n", setting.when);
    }
    let mut table = Table::new(&[
        ("", Align::Left),
        ("wearer", Align::Left),
        ("version", Align::Left),
        ("finding", Align::Left),
        ("in class", Align::Right),
        ("waits", Align::Right),
        ("files", Align::Right),
    ]);
    for person in &told.people {
        table.row(vec![
            person.letter.clone().unwrap_or_default(),
            person.name.clone(),
            person.version.clone().unwrap_or_default(),
            person
                .worst
                .map_or("not drafted".to_owned(), |worst| worst.word().to_owned()),
            format!("{} min", person.minutes),
            format!("{} min", person.waits),
            if person.files.is_empty() {
                String::new()
            } else {
                person.files.len().to_string()
            },
        ]);
    }
    out += &format!("\n{}", table.to_text(2));
    for (person, why) in class.refused() {
        let line = format!("{}: {}", person.name, why.join("; "));
        out += &format!("\n  not drafted  {}\n", wrap(&line, COLUMNS, 15));
    }
    for at in 0..class.sewing.len() {
        let Some((person, drafted)) = class.sewn(at) else {
            continue;
        };
        let stops = drafted
            .order
            .findings
            .iter()
            .filter(|f| f.severity == Severity::Stop);
        for stop in stops {
            let line = format!(
                "{}, {}: {} -> {}",
                person.name, stop.place, stop.message, stop.remedy
            );
            out += &format!(
                "\n  {} {}\n",
                console.severity(Severity::Stop),
                wrap(&line, COLUMNS, 7)
            );
        }
    }
    if let Some(table) = &told.timetable {
        let mut line = format!(
            "{} of {} min: {} min in class; no order of work here takes less than {} min ({:.1} % over it); one after another {} min.",
            if table.sessions == 1 {
                "1 session".to_owned()
            } else {
                format!("{} sessions", table.sessions)
            },
            table.session_minutes,
            table.minutes,
            table.bound,
            100.0 * table.over_bound,
            table.one_after_another,
        );
        line += match setting.pace {
            make::Pace::Middle => {
                " Reckoned with the middle of ranges of practice, which have no published source."
            }
            make::Pace::Slow => {
                " Reckoned with the slow end of ranges of practice, which have no published source."
            }
        };
        out += &format!(
            "\n{}\n  {}\n",
            console.heading("timetable"),
            wrap(&line, COLUMNS, 2)
        );
        let mut machines = Table::new(&[("machine", Align::Left), ("in use", Align::Right)]);
        for machine in &table.machines {
            machines.row(vec![machine.machine.clone(), format!("{} min", machine.minutes)]);
        }
        out += &machines.to_text(2);
    }
    if let Some(why) = &told.no_timetable {
        out += &format!("\n  no timetable: {}\n", wrap(why, COLUMNS, 2));
    }
    out += &cloths(told, seconds, console);
    if let (Some(kits), Some(folder)) = (kits, &args.output) {
        let mut table = Table::new(&[
            ("file", Align::Left),
            ("for", Align::Left),
            ("pages", Align::Right),
            ("kB", Align::Right),
        ]);
        for made in &kits.room {
            table.row(vec![
                made.file.clone(),
                made.what.to_owned(),
                made.pages.map_or(String::new(), |p| p.to_string()),
                made.bytes.div_ceil(1000).to_string(),
            ]);
        }
        out += &format!(
            "\nin {}, a folder for everyone and\n{}",
            folder.display(),
            table.to_text(2)
        );
        let all = kits.kits.iter().flat_map(|k| &k.files).chain(&kits.room);
        if let Some(made) = all.into_iter().find(|m| !m.undrawn.is_empty()) {
            out += &format!(
                "\n  no font here has these characters, a box stands for each: {}\n",
                made.undrawn
            );
        }
    }
    // The letters stand beside the names above; said here once for what they are.
    if class.sewing.len() > 1 {
        out += &format!(
            "\n  letters A to {} name people in the timetable\n",
            letter(class.sewing.len() - 1)
        );
    }
    out
}

/// What one length of each cloth takes with all kits on it.
fn cloths(told: &ClassReport, seconds: f64, console: &Console<'_>) -> String {
    if told.lays.is_empty() && told.not_laid.is_empty() {
        return String::new();
    }
    let mut table = Table::new(&[
        ("all kits on", Align::Left),
        ("wide", Align::Right),
        ("pieces", Align::Right),
        ("lay", Align::Right),
        ("used", Align::Right),
        ("at least", Align::Right),
        ("to buy", Align::Right),
    ]);
    let metres = |mm: f64| format!("{:.2} m", mm / 1000.0);
    for lay in &told.lays {
        let ends = lay.lay.cloth_mm - lay.lay.length_mm;
        table.row(vec![
            format!("{}, {}", lay.cloth, lay.layer),
            format!("{:.0} cm", lay.width_mm / 10.0),
            lay.pieces.to_string(),
            metres(lay.lay.cloth_mm),
            format!("{:.0} %", 100.0 * lay.lay.usage),
            metres(lay.lay.bound.length_mm + ends),
            metres(lay.buying.buy_mm),
        ]);
    }
    let mut out = format!(
        "\n{}\n{}  laid in {seconds:.1} s\n",
        console.heading("cloth, all kits of one cloth laid together"),
        table.to_text(2)
    );
    for why in &told.not_laid {
        out += &format!("  not laid  {}\n", wrap(why, COLUMNS, 12));
    }
    out
}
