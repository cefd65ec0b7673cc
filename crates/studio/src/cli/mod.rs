//! The command line: what can be asked for, and which command answers.
//!
//! Exit code 0: done, nothing worse than a watch. 1: a stop finding, don't cut this. 2: bad input, a refusal, or a file
//! that can't be read or written; then nothing was written.

mod booklet;
mod check;
mod class;
pub mod console;
mod cover;
mod dimensions;
mod draft;
mod fit;
pub mod folder;
mod lay;
mod lay_bench;
mod lay_clock;
mod lay_stock;
mod new;
mod pack;
mod progress;
mod range;
mod room;
mod shop;
mod studio;
mod styles;
mod survey;
mod survey_bodies;
mod table;

use std::ffi::OsString;
use std::io::{self, Read, Write};
use std::path::PathBuf;
use std::process::ExitCode;

use body::BodyForm;
use clap::{Parser, Subcommand, ValueEnum};
use units::LengthUnit;

use crate::suit_file::{FaultKind, Faults, SuitFile, read_bytes};
use console::{Console, Manner};
use folder::WriteFault;

/// Drafts made-to-measure swimwear: a suit file in, judgement and patterns at true scale out.
#[derive(Debug, Parser)]
#[command(name = "slackwater", version, max_term_width = 100)]
struct Args {
    /// Write results and faults as JSON on standard output.
    #[arg(long, global = true)]
    json: bool,
    /// The studio, when nothing is said.
    #[command(subcommand)]
    command: Option<Command>,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Open the studio: the work order in the browser, on this machine alone.
    Studio(studio::StudioArgs),
    /// Write a new suit file to fill in.
    New(new::NewArgs),
    /// Judge a suit: doubtful dimensions, stretch ladder, way in, findings. Exit code 1 on a stop finding.
    Check(check::CheckArgs),
    /// Put a suit on the wearer's form and solve how it sits: worn stretch, squeeze, gaps, straps. Exit code 1 on a stop finding, or when it can't be solved.
    Fit(fit::FitArgs),
    /// Write the bare pattern as JSON or SVG.
    Draft(draft::DraftArgs),
    /// Make all the paper of a suit: tiles, plotter sheets, projection, drawings, data.
    Pack(pack::PackArgs),
    /// Lay the pieces of suits on their cloths: length to buy, plan to chalk by, what is left. Exit code 1 when the cloth is not enough.
    Lay(Box<lay::LayArgs>),
    /// Measure the search of the lay on a strip packing instance.
    LayBench(lay_bench::LayBenchArgs),
    /// Make a suit's booklet: how to cut, prove, sew, try on and care for it; PDF, or pages for a web site.
    Booklet(booklet::BookletArgs),
    /// Say what to buy for a suit: needed, in stock, packs, cost; the quote, where an hour has its price.
    Shop(shop::ShopArgs),
    /// Draft a suit's cloth and design in every size of a table: nest, size chart, growth. Exit code 1 when a size is refused.
    Range(range::RangeArgs),
    /// Choose a size of a range for the wearer of a suit file, level by level.
    Size(range::SizeArgs),
    /// Make the kits of a class: several wearers, one design, one room. Exit code 1 when somebody’s suit is refused or must not be cut.
    Class(class::ClassArgs),
    /// Say which few sizes cover a group of people: wearers of suit files, or a list of them.
    Cover(cover::CoverArgs),
    /// Draft and judge every body of a survey table, and count what comes out.
    Survey(survey::SurveyArgs),
    /// List the styles: whom each is for, and what may be set on it.
    Styles(styles::StylesArgs),
    /// List the dimensions of a body: what each is and how to take it.
    Dimensions(dimensions::DimensionsArgs),
}

/// Whose body.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum FormArg {
    Woman,
    Man,
    Child,
}

impl From<FormArg> for BodyForm {
    fn from(form: FormArg) -> BodyForm {
        match form {
            FormArg::Woman => BodyForm::Woman,
            FormArg::Man => BodyForm::Man,
            FormArg::Child => BodyForm::Child,
        }
    }
}

/// Unit of a file's bare numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum UnitArg {
    Cm,
    Mm,
    In,
}

impl From<UnitArg> for LengthUnit {
    fn from(unit: UnitArg) -> LengthUnit {
        match unit {
            UnitArg::Cm => LengthUnit::Cm,
            UnitArg::Mm => LengthUnit::Mm,
            UnitArg::In => LengthUnit::In,
        }
    }
}

/// Why a command did not come to its end.
#[derive(Debug)]
enum Trouble {
    /// Faults to be told.
    Faults(Box<Faults>),
    /// A stream of our own broke: nobody is listening.
    Stream(io::Error),
}

impl From<Faults> for Trouble {
    fn from(faults: Faults) -> Trouble {
        Trouble::Faults(Box::new(faults))
    }
}

impl From<io::Error> for Trouble {
    fn from(error: io::Error) -> Trouble {
        Trouble::Stream(error)
    }
}

impl From<WriteFault> for Trouble {
    fn from(fault: WriteFault) -> Trouble {
        let file = fault.path().display().to_string();
        Faults::whole(&file, FaultKind::File, fault.message(), fault.help()).into()
    }
}

/// What a command says at its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Outcome {
    /// Good or watch.
    Done,
    /// A stop finding.
    Stop,
}

const EXIT_STOP: u8 = 1;
const EXIT_REFUSED: u8 = 2;

/// Runs the program with these arguments, the program's name first.
pub fn run(args: impl IntoIterator<Item = OsString>) -> ExitCode {
    let args = match Args::try_parse_from(args) {
        Ok(args) => args,
        Err(error) => {
            // Help and version come this way too; a closed pipe is no reason to complain.
            let _ = error.print();
            return ExitCode::from(u8::try_from(error.exit_code()).unwrap_or(EXIT_REFUSED));
        }
    };
    // Not locked: the studio logs from other threads.
    let (mut out, mut err) = (io::BufWriter::new(io::stdout()), io::stderr());
    let mut console = Console::new(&mut out, &mut err, Manner::of_streams(args.json));
    let command = args
        .command
        .unwrap_or(Command::Studio(studio::StudioArgs::default()));
    let result = match command {
        Command::Studio(args) => studio::run(args, &mut console),
        Command::New(args) => new::run(&args, &mut io::stdin().lock(), &mut console),
        Command::Check(args) => check::run(&args, &mut console),
        Command::Fit(args) => fit::run(&args, &mut console),
        Command::Draft(args) => draft::run(&args, &mut console),
        Command::Pack(args) => pack::run(&args, &mut console),
        Command::Lay(args) => lay::run(&args, &mut console),
        Command::LayBench(args) => lay_bench::run(&args, &mut console),
        Command::Booklet(args) => booklet::run(&args, &mut console),
        Command::Shop(args) => shop::run(&args, &mut console),
        Command::Range(args) => range::run(&args, &mut console),
        Command::Size(args) => range::run_size(&args, &mut console),
        Command::Class(args) => class::run(&args, &mut console),
        Command::Cover(args) => cover::run(&args, &mut console),
        Command::Survey(args) => survey::run(&args, &mut console),
        Command::Styles(args) => styles::run(&args, &mut console),
        Command::Dimensions(args) => dimensions::run(&args, &mut console),
    };
    let result = result.and_then(|outcome| console.flush().map(|()| outcome).map_err(Trouble::from));
    match result {
        Ok(Outcome::Done) => ExitCode::SUCCESS,
        Ok(Outcome::Stop) => ExitCode::from(EXIT_STOP),
        Err(Trouble::Faults(faults)) => {
            let _ = console.faults(&faults).and_then(|()| console.flush());
            ExitCode::from(EXIT_REFUSED)
        }
        // `slackwater ... | head` closes our output early, on purpose.
        Err(Trouble::Stream(error)) if error.kind() == io::ErrorKind::BrokenPipe => ExitCode::SUCCESS,
        Err(Trouble::Stream(error)) => {
            let _ = writeln!(
                io::stderr(),
                "could not write the output: {error}; nothing else was written"
            );
            ExitCode::from(EXIT_REFUSED)
        }
    }
}

/// Reads a suit file; `-` is standard input.
fn read_suit(path: &PathBuf) -> Result<SuitFile, Faults> {
    let name = path.display().to_string();
    read_bytes(&name, &read_file(path)?)
}

/// Reads a file whole; `-` is standard input.
fn read_file(path: &PathBuf) -> Result<Vec<u8>, Faults> {
    let name = path.display().to_string();
    let mut bytes = Vec::new();
    let read = if name == "-" {
        io::stdin().lock().read_to_end(&mut bytes).map(|_| bytes)
    } else {
        std::fs::read(path)
    };
    read.map_err(|error| {
        let (message, help) = match error.kind() {
            io::ErrorKind::NotFound => (
                "there is no such file".to_owned(),
                "check the name and the folder",
            ),
            io::ErrorKind::PermissionDenied => (
                "the file may not be read".to_owned(),
                "ask for the right to read it",
            ),
            io::ErrorKind::IsADirectory => ("this is a folder, not a file".to_owned(), "name a file in it"),
            _ => (
                format!("the file cannot be read: {error}"),
                "check the name and the disk",
            ),
        };
        Faults::whole(&name, FaultKind::File, message, help)
    })
}
