//! `slackwater pack`: a suit file in, a folder of paper out.

use std::path::PathBuf;

use booklet::Choice;
use clap::{Args, ValueEnum};
use make::Preset;
use serde::Serialize;
use units::{Finding, Severity};

use super::booklet::{not_set, papers};
use super::console::Console;
use super::fit::{Worn, sheets, solved};
use super::folder::{Disk, Sheet, write_folder};
use super::progress::Bar;
use super::room::RoomArgs;
use super::table::{Align, Table, wrap};
use super::{Outcome, Trouble, read_suit};
use crate::hand_out::{NotSet, booklet_of, pdf, pdf_name};
use crate::laying::{Lays, quick_lays};
use crate::order::{Order, work_out};
use crate::paper::{LeftOut, Made, Pack, PackChoice, make_pack};
use crate::suit_file::SQUARE_RANGE_MM;
use crate::suit_file::{FaultKind, Faults, PaperChoice, SuitFile};
use crate::workroom_file::Room;

#[derive(Debug, Args)]
pub(super) struct PackArgs {
    /// The suit file; `-` for standard input.
    file: PathBuf,
    /// The folder to write to; made if it is not there.
    #[arg(short, long)]
    output: PathBuf,
    /// Tiles for this paper only; both when neither this nor the file says.
    #[arg(long, value_enum)]
    paper: Option<PaperArg>,
    /// Print symmetric pieces as halves, to lay on a fold of the cloth.
    #[arg(long)]
    halves: bool,
    /// The printed 100 mm square as measured, across and down in mm: 99.4x100.2.
    #[arg(long, value_parser = square)]
    measured_square: Option<[f64; 2]>,
    #[command(flatten)]
    room: RoomArgs,
    /// Put the suit on the wearer's form too: how it sits as numbers and drawings.
    #[arg(long)]
    solve: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum PaperArg {
    A4,
    Letter,
}

impl From<PaperArg> for PaperChoice {
    fn from(paper: PaperArg) -> PaperChoice {
        match paper {
            PaperArg::A4 => PaperChoice::A4,
            PaperArg::Letter => PaperChoice::Letter,
        }
    }
}

/// What was written, for scripts.
#[derive(Debug, Serialize)]
struct Written<'a> {
    folder: String,
    version: &'a str,
    worst: Severity,
    written: &'a [Made],
    left_out: &'a [LeftOut],
    findings: &'a [Finding],
}

pub(super) fn run(args: &PackArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    let suit = read_suit(&args.file)?;
    let room = args.room.room(Preset::Zigzag)?;
    let mut order = work_out(&suit)?;
    let worn = if args.solve {
        Some(solved(&suit, &order, &room, console.manner.progress)?)
    } else {
        None
    };
    // What is sewn is planned from how it is really stretched, where that was solved.
    order.worn = worn.as_ref().and_then(Worn::stretches);
    let choice = PackChoice {
        paper: args.paper.map(PaperChoice::from).or(suit.printer.paper),
        halves: args.halves,
        measured_square_mm: args.measured_square.or(suit.printer.measured_square_mm),
        white_edge: suit.printer.white_edge,
    };
    let bar = Bar::new(console.manner.progress);
    let lays = quick_lays(&suit, &order.draft);
    let mut pack = make_pack(&suit, &order, &lays, &choice, &bar).map_err(|r| paper_faults(&suit, &r))?;
    drop(bar);
    add_booklet(&mut pack, &suit, &order, &room, &lays, &choice)?;
    let mut worst = order.worst();
    if let Some(worn) = worn {
        worst = worst.max(add_worn(&mut pack, &suit, worn));
    }
    write_folder(&args.output, &pack.sheets, &Disk)?;
    if console.manner.json {
        console.print_json(&Written {
            folder: args.output.display().to_string(),
            version: &order.version,
            worst,
            written: &pack.made,
            left_out: &pack.left_out,
            findings: &order.findings,
        })?;
    } else {
        let text = text(args, &suit, &order.version, &pack, &order.findings, console);
        console.print(&text)?;
    }
    Ok(if worst == Severity::Stop {
        Outcome::Stop
    } else {
        Outcome::Done
    })
}

/// How the suit sits, solved; left out with the reason where it can't be. Gives the worst that was found.
fn add_worn(pack: &mut Pack, suit: &SuitFile, worn: Worn) -> Severity {
    let on = match worn {
        Worn::On(on) => on,
        Worn::Refused(reason) => {
            pack.left_out.push(LeftOut {
                file: "fit.json",
                why: reason,
            });
            return Severity::Good;
        }
    };
    for sheet in sheets(&on, &suit.name) {
        pack.made.push(Made {
            file: sheet.name.clone(),
            what: if sheet.name.ends_with("json") {
                "how it sits, in numbers"
            } else {
                "how it sits, drawn"
            },
            pages: None,
            bytes: sheet.bytes.len(),
            undrawn: String::new(),
        });
        pack.sheets.push(sheet);
    }
    on.report.worst()
}

/// The maker's booklet, for the same paper. A build without the typesetter leaves it out and says so.
fn add_booklet(
    pack: &mut Pack,
    suit: &SuitFile,
    order: &Order,
    room: &Room,
    lays: &Lays,
    choice: &PackChoice,
) -> Result<(), Faults> {
    let wanted = Choice::default();
    let document = booklet_of(suit, order, room, lays, wanted);
    for paper in papers(choice.paper) {
        let (file, left_out) = match paper {
            PaperChoice::A4 => (pdf_name(wanted, paper), "booklet-a4.pdf"),
            PaperChoice::Letter => (pdf_name(wanted, paper), "booklet-letter.pdf"),
        };
        match pdf(&document, paper) {
            Ok((bytes, pages)) => {
                pack.made.push(Made {
                    file: file.clone(),
                    what: "how to sew it, to print and fill in",
                    pages: Some(pages),
                    bytes: bytes.len(),
                    undrawn: String::new(),
                });
                pack.sheets.push(Sheet { name: file, bytes });
            }
            Err(fault @ NotSet::NoTypesetter) => pack.left_out.push(LeftOut {
                file: left_out,
                why: format!("{fault}; {}", fault.help()),
            }),
            Err(fault) => return Err(not_set(suit, &fault)),
        }
    }
    Ok(())
}

/// A refusal of the paper, at the file's printer when that is to blame.
pub(super) fn paper_faults(suit: &SuitFile, refusal: &sheet::Refusal) -> Faults {
    let mut list = Vec::new();
    for fault in &refusal.faults {
        let field = match fault {
            sheet::Fault::PrinterOff { .. } => "printer.measured_square",
            sheet::Fault::WhiteEdge { .. } => "printer.white_edge",
            _ => "",
        };
        let mut faults = Faults::whole(&suit.file, FaultKind::Refused, fault.to_string(), "");
        for one in &mut faults.list {
            one.field = field.to_owned();
            one.at = suit.has(field).then(|| suit.place_of(field)).flatten();
        }
        list.extend(faults.list);
    }
    suit.faults(list)
}

fn text(
    args: &PackArgs,
    suit: &SuitFile,
    version: &str,
    pack: &Pack,
    findings: &[Finding],
    console: &Console<'_>,
) -> String {
    const COLUMNS: usize = 100;
    let mut table = Table::new(&[
        ("file", Align::Left),
        ("for", Align::Left),
        ("pages", Align::Right),
        ("kB", Align::Right),
    ]);
    for made in &pack.made {
        table.row(vec![
            made.file.clone(),
            made.what.to_owned(),
            made.pages.map_or(String::new(), |p| p.to_string()),
            made.bytes.div_ceil(1000).to_string(),
        ]);
    }
    let mut out = format!(
        "{}\nfor {}, version {version}, in {}\n\n{}",
        console.heading(&suit.name),
        suit.wearer.name,
        args.output.display(),
        table.to_text(2)
    );
    for left in &pack.left_out {
        out += &format!("\n  left out {}: {}\n", left.file, wrap(&left.why, COLUMNS, 4));
    }
    let undrawn: String = pack
        .made
        .iter()
        .map(|m| m.undrawn.as_str())
        .find(|u| !u.is_empty())
        .unwrap_or("")
        .into();
    if !undrawn.is_empty() {
        out += &format!("\n  no font here has these characters, a box stands for each: {undrawn}\n");
    }
    let stops: Vec<&Finding> = findings.iter().filter(|f| f.severity == Severity::Stop).collect();
    for stop in &stops {
        let line = format!("{}: {} -> {}", stop.place, stop.message, stop.remedy);
        out += &format!(
            "\n  {} {}\n",
            console.severity(Severity::Stop),
            wrap(&line, COLUMNS, 7)
        );
    }
    let watch = findings.iter().filter(|f| f.severity == Severity::Watch).count();
    if stops.is_empty() && watch > 0 {
        out += &format!("\n  {watch} to watch: slackwater check {}\n", args.file.display());
    }
    out += "\n  print page 1 at 100 %, measure its square, then print the rest\n";
    out
}

/// `99.4x100.2`: across and down, mm.
fn square(text: &str) -> Result<[f64; 2], String> {
    let (low, high) = SQUARE_RANGE_MM;
    let number = |t: &str| t.trim().parse::<f64>().ok().filter(|n| (low..=high).contains(n));
    text.split_once(['x', 'X'])
        .and_then(|(across, down)| Some([number(across)?, number(down)?]))
        .ok_or_else(|| {
            format!("write what you measured across and down, each {low:.0} to {high:.0} mm: 99.4x100.2")
        })
}
