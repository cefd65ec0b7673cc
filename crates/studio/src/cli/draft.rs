//! `slackwater draft`: the bare pattern as data or as a drawing, without paper or folder.

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use sheet::PieceForm;
use units::Severity;

use super::console::Console;
use super::folder::write_file;
use super::pack::paper_faults;
use super::{Outcome, Trouble, read_suit};
use crate::order::work_out;
use crate::paper::{notes, pattern};

#[derive(Debug, Args)]
pub(super) struct DraftArgs {
    /// The suit file; `-` for standard input.
    file: PathBuf,
    /// What to write.
    #[arg(long, value_enum, default_value = "json")]
    format: Format,
    /// The file to write; standard output when left out.
    #[arg(short, long)]
    output: Option<PathBuf>,
    /// Overwrite a file that is there.
    #[arg(long)]
    force: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    Json,
    Svg,
}

pub(super) fn run(args: &DraftArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    let suit = read_suit(&args.file)?;
    let order = work_out(&suit)?;
    let notes = notes(&order);
    let pattern = pattern(&suit, &order, &notes);
    let text = match args.format {
        Format::Json => sheet::json::pattern(&pattern, PieceForm::Whole),
        Format::Svg => sheet::svg::pattern(&pattern, PieceForm::Whole),
    }
    .map_err(|r| paper_faults(&suit, &r))?;
    match &args.output {
        Some(path) => write_file(path, text.as_bytes(), args.force)?,
        None => console.print(&text)?,
    }
    Ok(if order.worst() == Severity::Stop {
        Outcome::Stop
    } else {
        Outcome::Done
    })
}
