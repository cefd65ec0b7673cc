//! `slackwater booklet`: a suit file in, its booklet out: PDF, or a folder of pages.

use std::path::PathBuf;

use booklet::{Choice, Edition};
use clap::{Args, ValueEnum};
use make::Preset;
use serde::Serialize;
use units::Progress;
use words::Language;

use super::console::Console;
use super::fit::solved;
use super::folder::{Disk, Sheet, write_folder};
use super::progress::Bar;
use super::room::RoomArgs;
use super::{Outcome, Trouble, read_suit};
use crate::hand_out::{NotSet, booklet_of, pages, pdf, pdf_name};
use crate::laying::quick_lays;
use crate::order::work_out;
use crate::suit_file::{FaultKind, Faults, PaperChoice, SuitFile};

#[derive(Debug, Args)]
pub(super) struct BookletArgs {
    /// The suit file; `-` for standard input.
    file: PathBuf,
    /// The folder to write to; made if it is not there.
    #[arg(short, long)]
    output: PathBuf,
    /// For whom: the maker of this suit, or a class that fills in its own numbers.
    #[arg(long, value_enum, default_value = "maker")]
    edition: EditionArg,
    /// In which language.
    #[arg(long, value_enum, default_value = "en")]
    language: LanguageArg,
    /// For this paper only; both when neither this nor the file says.
    #[arg(long, value_enum)]
    paper: Option<super::pack::PaperArg>,
    /// The machines the stitches are chosen for.
    #[arg(long, value_enum, default_value = "zigzag", conflicts_with = "workroom")]
    machines: MachinesArg,
    #[command(flatten)]
    room: RoomArgs,
    /// As a folder of pages for a web site instead of PDF.
    #[arg(long)]
    html: bool,
    /// Put the suit on the wearer's form first and plan its stitches from how it is worn; a style that can't be put on is refused.
    #[arg(long)]
    solve: bool,
    /// As data (JSON) instead: the finished document before anything sets it.
    #[arg(long, conflicts_with = "html")]
    data: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum EditionArg {
    Maker,
    Class,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum LanguageArg {
    En,
    De,
}

impl From<LanguageArg> for Language {
    fn from(language: LanguageArg) -> Language {
        match language {
            LanguageArg::En => Language::English,
            LanguageArg::De => Language::German,
        }
    }
}

/// Workrooms to choose from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum MachinesArg {
    /// One machine that sews straight and nothing else.
    StraightOnly,
    /// One zigzag machine with utility stitches and a twin needle.
    Zigzag,
    /// A zigzag machine and a four-thread overlocker.
    ZigzagOverlocker,
    /// Those and a coverstitch machine.
    Coverstitch,
}

impl From<MachinesArg> for Preset {
    fn from(machines: MachinesArg) -> Preset {
        match machines {
            MachinesArg::StraightOnly => Preset::StraightOnly,
            MachinesArg::Zigzag => Preset::Zigzag,
            MachinesArg::ZigzagOverlocker => Preset::ZigzagOverlocker,
            MachinesArg::Coverstitch => Preset::Coverstitch,
        }
    }
}

/// What was written, for scripts.
#[derive(Debug, Serialize)]
struct Written {
    folder: String,
    version: String,
    written: Vec<WrittenFile>,
}

#[derive(Debug, Serialize)]
struct WrittenFile {
    file: String,
    pages: Option<usize>,
    bytes: usize,
}

/// The papers wanted: the one asked for, or of the file, or both.
pub(super) fn papers(asked: Option<PaperChoice>) -> Vec<PaperChoice> {
    asked.map_or_else(|| vec![PaperChoice::A4, PaperChoice::Letter], |p| vec![p])
}

/// A booklet that could not be set, as a fault of the file.
pub(super) fn not_set(suit: &SuitFile, fault: &NotSet) -> Faults {
    Faults::whole(&suit.file, FaultKind::Refused, fault.to_string(), fault.help())
}

pub(super) fn run(args: &BookletArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    let suit = read_suit(&args.file)?;
    let mut order = work_out(&suit)?;
    let choice = Choice {
        edition: match args.edition {
            EditionArg::Maker => Edition::Maker,
            EditionArg::Class => Edition::Class,
        },
        language: args.language.into(),
    };
    let room = args.room.room(Preset::from(args.machines))?;
    if args.solve {
        let worn = solved(&suit, &order, &room, console.manner.progress)?;
        order.worn = worn.stretches();
        if order.worn.is_none() {
            let help = "leave --solve out: the plan is then made from the draft's own stretches";
            return Err(Faults::whole(&suit.file, FaultKind::Refused, worn.why_not(), help).into());
        }
    }
    let booklet = booklet_of(&suit, &order, &room, &quick_lays(&suit, &order.draft), choice);
    let mut sheets: Vec<Sheet> = Vec::new();
    let mut counts: Vec<Option<usize>> = Vec::new();
    if args.data {
        let bytes = crate::cli::console::to_json(&booklet).into_bytes();
        sheets.push(Sheet {
            name: "booklet.json".to_owned(),
            bytes,
        });
        counts.push(None);
    } else if args.html {
        sheets = pages(&booklet);
        counts.resize(sheets.len(), None);
    } else {
        let papers = papers(args.paper.map(PaperChoice::from).or(suit.printer.paper));
        let bar = Bar::new(console.manner.progress);
        for (done, paper) in papers.iter().enumerate() {
            let name = pdf_name(choice, *paper);
            bar.at(done as u64, papers.len() as u64, &name);
            let (bytes, count) = pdf(&booklet, *paper).map_err(|fault| not_set(&suit, &fault))?;
            sheets.push(Sheet { name, bytes });
            counts.push(Some(count));
        }
    }
    write_folder(&args.output, &sheets, &Disk)?;
    let written: Vec<WrittenFile> = sheets
        .iter()
        .zip(counts)
        .map(|(s, pages)| WrittenFile {
            file: s.name.clone(),
            pages,
            bytes: s.bytes.len(),
        })
        .collect();
    let folder = args.output.display().to_string();
    if console.manner.json {
        console.print_json(&Written {
            folder,
            version: order.version,
            written,
        })?;
    } else {
        let mut text = format!(
            "{}\nbooklet, version {}, in {folder}\n\n",
            console.heading(&suit.name),
            order.version
        );
        for file in &written {
            let pages = file.pages.map_or_else(String::new, |p| format!("{p:>3} pages"));
            text += &format!(
                "  {:32} {pages:>9} {:>6} kB\n",
                file.file,
                file.bytes.div_ceil(1000)
            );
        }
        text += match (args.html, args.data) {
            (true, _) => "\n  open index.html\n",
            (_, true) => "",
            _ => "\n  print it at 100 %: the tape down the margin is true\n",
        };
        console.print(&text)?;
    }
    Ok(Outcome::Done)
}
