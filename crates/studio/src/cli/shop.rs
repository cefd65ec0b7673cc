//! `slackwater shop`: what to buy for a suit, what it costs, and the quote.

use std::path::PathBuf;

use clap::Args;
use make::{Preset, Quote, Shopping, quote};
use serde::Serialize;

use super::console::Console;
use super::folder::{Disk, Sheet, write_folder};
use super::pack::PaperArg;
use super::room::RoomArgs;
use super::table::{Align, Table};
use super::{Outcome, Trouble, read_suit};
use crate::hand_out::plan_with_lays;
use crate::laying::quick_lays;
use crate::order::work_out;
use crate::paper::{QUOTE, SHOPPING_LIST, version_words};
use crate::suit_file::{FaultKind, Faults, PaperChoice};
use crate::view::{ShoppingSheet, quote_list, shopping_list, shopping_sheet};
use crate::workroom_file::Room;

#[derive(Debug, Args)]
pub(super) struct ShopArgs {
    /// The suit file; `-` for standard input.
    file: PathBuf,
    #[command(flatten)]
    room: RoomArgs,
    /// The folder to write the list and the quote to as PDF; only told, nothing written, when left out.
    #[arg(short, long)]
    output: Option<PathBuf>,
    /// The paper of the PDF; the file's, or A4.
    #[arg(long, value_enum)]
    paper: Option<PaperArg>,
}

/// What scripts get: the plan's own lines in mm and counts, with the keys of their sentences.
#[derive(Debug, Serialize)]
struct Told<'a> {
    version: &'a str,
    /// No machine is written down: planned for a zigzag machine.
    is_assumed: bool,
    currency: &'a str,
    shopping: &'a Shopping,
    quote: Option<Quote>,
    written: Vec<String>,
}

pub(super) fn run(args: &ShopArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    let suit = read_suit(&args.file)?;
    let room = if args.room.is_named() {
        args.room.room(Preset::Zigzag)?
    } else {
        Room::default()
    };
    let order = work_out(&suit)?;
    let (making, shopping) = plan_with_lays(&suit, &order, &room, &quick_lays(&suit, &order.draft).lengths());
    let sheet = shopping_sheet(&making, &shopping, &room, suit.units);
    let mut written = Vec::new();
    if let Some(folder) = &args.output {
        let paper = match args.paper.map(PaperChoice::from).or(suit.printer.paper) {
            Some(PaperChoice::Letter) => sheet::Paper::Letter,
            _ => sheet::Paper::A4,
        };
        let running = vec![
            suit.name.clone(),
            suit.wearer.name.clone(),
            version_words(&order.version),
        ];
        let lists = [
            (SHOPPING_LIST, Some(shopping_list(&sheet, running.clone()))),
            (QUOTE, quote_list(&sheet, running)),
        ];
        let mut sheets = Vec::new();
        for (name, list) in lists {
            let Some(list) = list else { continue };
            let printed = sheet::listing::pdf(&list, paper)
                .map_err(|fault| Faults::whole(&suit.file, FaultKind::Refused, fault.to_string(), ""))?;
            sheets.push(Sheet {
                name: name.to_owned(),
                bytes: printed.bytes,
            });
            written.push(name.to_owned());
        }
        write_folder(folder, &sheets, &Disk)?;
    }
    if console.manner.json {
        console.print_json(&Told {
            version: &order.version,
            is_assumed: room.is_assumed,
            currency: &room.currency,
            quote: room.terms.and_then(|t| quote(&making, &shopping, &t).ok()),
            shopping: &shopping,
            written,
        })?;
        return Ok(Outcome::Done);
    }
    let mut text = format!(
        "{}\nshopping list, version {}\n\n",
        console.heading(&suit.name),
        order.version
    );
    text += &told(&sheet);
    if let Some(folder) = &args.output {
        text += &format!("\n  in {}: {}\n", folder.display(), written.join(", "));
    }
    console.print(&text)?;
    Ok(Outcome::Done)
}

/// The list as tables for people.
fn told(sheet: &ShoppingSheet) -> String {
    let mut text = String::new();
    if !sheet.assumed.is_empty() {
        text += &format!("  {}\n\n", sheet.assumed);
    }
    let mut table = Table::new(&[
        ("what", Align::Left),
        ("needed", Align::Right),
        ("in stock", Align::Right),
        ("to buy", Align::Right),
        ("packs", Align::Right),
        ("cost", Align::Right),
    ]);
    for line in &sheet.lines {
        let amount = |q: &Option<crate::view::Quantity>| {
            q.as_ref()
                .map_or_else(|| "-".to_owned(), crate::view::Quantity::text)
        };
        table.row(vec![
            line.what.clone(),
            line.needed.text(),
            amount(&line.in_stock),
            amount(&line.to_buy),
            line.packs.map_or_else(String::new, |p| p.to_string()),
            match (&line.cost, &line.to_buy) {
                (Some(cost), _) => cost.clone(),
                (None, Some(_)) => "no price".to_owned(),
                (None, None) => String::new(),
            },
        ]);
    }
    text += &table.to_text(2);
    match &sheet.total {
        Some(total) => text += &format!("\n  all together: {total}\n"),
        None => text += "\n  no total: not every line to buy has a price\n",
    }
    text.push('\n');
    for thread in &sheet.threads {
        text += &format!("  {thread}\n");
    }
    if let Some(quote) = &sheet.quote {
        let mut table = Table::new(&[("quote", Align::Left), ("", Align::Right)]);
        for row in &quote.rows {
            table.row(vec![row.name.clone(), row.value.clone()]);
        }
        table.row(vec!["all together".to_owned(), quote.total.clone()]);
        text += &format!("\n{}", table.to_text(2));
        if !quote.missing.is_empty() {
            text += &format!("  {}\n", quote.missing);
        }
    }
    text
}
