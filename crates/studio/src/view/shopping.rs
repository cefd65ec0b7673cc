//! What to buy for a suit and what it costs: the page, the printed lists and the command line show the same lines.
//!
//! The plan says things by key; here they become sentences, lengths in her units and money in her currency.
//!
//! **Limits.** English only. A line without a price has no cost and is named; a total is shown only when every line to buy has one.

use make::{Item, Making, QuoteTerms, Shopping, ShoppingLine, quote};
use serde::Serialize;
use sheet::listing::{ListColumn, ListRow, ListTable, Listing, Part};
use ts_rs::TS;
use units::LengthUnit;
use utoipa::ToSchema;

use super::not_yet::not_yet;
use super::sew::Teller;
use super::{Head, Note, Quantity, State, as_sold, plain, told};
use crate::document::Worked;
use crate::workroom_file::Room;

/// The shopping list and the quote of a suit.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ShoppingView {
    /// Id of the suit.
    pub id: String,
    /// Its name.
    pub suit: String,
    /// Whom it is for.
    pub wearer: String,
    /// Its version id; empty before it is drafted.
    pub version: String,
    /// State, summary, notes.
    pub head: Head,
    /// What to buy.
    pub list: ShoppingSheet,
}

/// The list itself, in words.
#[derive(Clone, Debug, Default, PartialEq, Serialize, TS, ToSchema)]
pub struct ShoppingSheet {
    /// `No machine written down: planned for a zigzag machine.`; empty where the machines are hers.
    pub assumed: String,
    /// What to buy, line by line.
    pub lines: Vec<BuyLineView>,
    /// Thread by place: which spools and loopers it fills.
    pub threads: Vec<String>,
    /// What all of it costs; none while a line to buy has no price.
    pub total: Option<String>,
    /// Lines to buy that have no price.
    pub unpriced: Vec<String>,
    /// The quote, once an hour has its price.
    pub quote: Option<QuoteView>,
}

/// One line of the list.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct BuyLineView {
    /// What it is: `Thread: spun polyester, Tex 27`.
    pub what: String,
    /// What it rests on, a sentence each.
    pub notes: Vec<String>,
    /// What the suit takes.
    pub needed: Quantity,
    /// What of it is in stock; none when nothing is.
    pub in_stock: Option<Quantity>,
    /// To buy, as it is sold; none when nothing is.
    pub to_buy: Option<Quantity>,
    /// Whole packs, where it is sold so.
    pub packs: Option<u32>,
    /// What that costs; none without a price, or where nothing is to buy.
    pub cost: Option<String>,
}

/// The quote.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct QuoteView {
    /// Cloth, notions, hours, labour, margin.
    pub rows: Vec<QuoteRow>,
    /// All together, from and to.
    pub total: String,
    /// What is not in it: lines without a price, a sentence; empty when it is complete.
    pub missing: String,
}

/// One line of the quote.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct QuoteRow {
    /// Name.
    pub name: String,
    /// Amount.
    pub value: String,
}

/// What a plan for no machine of hers says of itself.
pub const ASSUMED: &str = "No machine is written down yet: this is planned for a zigzag machine.";

/// The page of these papers.
pub fn shopping_view(worked: &Worked) -> ShoppingView {
    let wearer = worked
        .wearer
        .as_ref()
        .and_then(|w| super::at_path(&w.body, "name")?.as_str());
    let name = super::at_path(&worked.suit.body, "name").and_then(|n| n.as_str());
    let (head, list) = match worked.plan() {
        Some(plan) => {
            let list = shopping_sheet(&plan.making, &plan.shopping, &worked.room.room, worked.unit());
            (Head::of(summary(&list), notes(worked, &list)), list)
        }
        None => (
            Head::of("Nothing to buy yet.", vec![not_yet(worked, "No list yet")]),
            ShoppingSheet::default(),
        ),
    };
    ShoppingView {
        id: worked.suit.id.clone(),
        suit: name.unwrap_or_default().to_owned(),
        wearer: wearer.unwrap_or_default().to_owned(),
        version: worked
            .order
            .as_ref()
            .map_or_else(String::new, |o| o.version.clone()),
        head,
        list,
    }
}

fn summary(list: &ShoppingSheet) -> String {
    let open = list.lines.iter().filter(|l| l.to_buy.is_some()).count();
    let lines = match open {
        0 => return "All of it is in stock.".to_owned(),
        1 => "One thing to buy".to_owned(),
        n => format!("{} things to buy", told::capital(&told::count(n))),
    };
    match &list.total {
        Some(total) => format!("{lines}, for {total}."),
        None => format!("{lines}."),
    }
}

fn notes(worked: &Worked, list: &ShoppingSheet) -> Vec<Note> {
    let mut notes = Vec::new();
    if !list.assumed.is_empty() {
        notes.push(told::note(
            State::Missing,
            "",
            list.assumed.clone(),
            "Write your machines down in the workroom.",
        ));
    }
    if !list.unpriced.is_empty() {
        let n = list.unpriced.len();
        let says = if n == 1 {
            "One line to buy has no price, so there is no total.".to_owned()
        } else {
            format!(
                "{} lines to buy have no price, so there is no total.",
                told::capital(&told::count(n))
            )
        };
        notes.push(told::note(
            State::Missing,
            "",
            says,
            "Write prices down in the workroom.",
        ));
    }
    for fault in &worked.room.faults {
        let place = match fault.path.as_str() {
            path @ ("stock" | "prices" | "threads" | "needles") => path,
            _ => continue,
        };
        let says = format!("{}.", told::capital(&fault.fault.message));
        notes.push(told::note(
            State::Doubtful,
            place,
            says,
            told::sentence(&fault.fault.help),
        ));
    }
    notes
}

/// The list of a plan in words.
pub fn shopping_sheet(making: &Making, shopping: &Shopping, room: &Room, unit: LengthUnit) -> ShoppingSheet {
    let desk = Desk {
        teller: Teller::of_pages(unit),
        currency: &room.currency,
    };
    let lines: Vec<BuyLineView> = shopping.lines.iter().map(|l| desk.line(l)).collect();
    ShoppingSheet {
        assumed: if room.is_assumed {
            ASSUMED.to_owned()
        } else {
            String::new()
        },
        threads: shopping
            .threads
            .iter()
            .map(|used| {
                let packages = match used.packages {
                    1 => "one package".to_owned(),
                    n => format!("{} packages", told::count(usize::from(n))),
                };
                format!(
                    "{} in the {}: {packages} with at least {} on each.",
                    told::capital(&desk.teller.word(used.thread.key())),
                    desk.teller.word(used.place.key()),
                    desk.amount(&Item::Thread(used.thread), used.each().get()).text()
                )
            })
            .collect(),
        total: shopping.cost.map(|cost| desk.money(cost)),
        unpriced: shopping
            .lines
            .iter()
            .filter(|l| l.to_buy > 0.0 && l.cost.is_none())
            .map(|l| desk.teller.say(&l.say))
            .collect(),
        quote: room.terms.and_then(|terms| desk.quote(making, shopping, &terms)),
        lines,
    }
}

struct Desk<'a> {
    teller: Teller<'static>,
    currency: &'a str,
}

impl Desk<'_> {
    fn line(&self, line: &ShoppingLine) -> BuyLineView {
        let some = |amount: f64| (amount > 0.0).then(|| self.amount(&line.item, amount));
        BuyLineView {
            what: self.teller.say(&line.say),
            notes: line.notes.iter().map(|n| self.teller.say(n)).collect(),
            needed: self.amount(&line.item, line.needed),
            in_stock: some(line.in_stock),
            to_buy: some(line.to_buy),
            packs: line.packs.filter(|p| *p > 0),
            cost: line.cost.filter(|_| line.to_buy > 0.0).map(|c| self.money(c)),
        }
    }

    fn amount(&self, item: &Item, amount: f64) -> Quantity {
        match item {
            Item::Thread(_) => plain((amount / 1000.0).ceil(), 0, "m", "metres"),
            _ if item.is_length() => as_sold(units::Mm::new(amount), self.teller.unit()),
            _ => plain(amount, 0, "", ""),
        }
    }

    fn quote(&self, making: &Making, shopping: &Shopping, terms: &QuoteTerms) -> Option<QuoteView> {
        // The terms were read within the same bounds.
        let quote = quote(making, shopping, terms).ok()?;
        let span = |(low, high): (f64, f64), say: &dyn Fn(f64) -> String| {
            let (low, high) = (say(low), say(high));
            if low == high {
                low
            } else {
                format!("{low} to {high}")
            }
        };
        let money = |m: f64| self.money(m);
        let hours = |h: f64| format!("{} h", crate::suit_file::trimmed(h, 1));
        let row = |name: &str, value: String| QuoteRow {
            name: name.to_owned(),
            value,
        };
        let unpriced: Vec<String> = quote.unpriced.iter().map(|s| self.teller.say(s)).collect();
        Some(QuoteView {
            rows: vec![
                row("Cloth", money(quote.cloth)),
                row("Elastic, thread, needles, small parts", money(quote.notions)),
                row("Hours", span(quote.hours, &hours)),
                row(
                    &format!("Work, at {} an hour", self.money(terms.hour_rate)),
                    span(quote.labour, &money),
                ),
                row(
                    &format!("Margin, {} %", crate::suit_file::trimmed(terms.margin * 100.0, 1)),
                    span(quote.margin, &money),
                ),
            ],
            total: span(quote.total, &money),
            missing: if unpriced.is_empty() {
                String::new()
            } else {
                format!("Without a price, and not in it: {}.", unpriced.join("; "))
            },
        })
    }

    /// `12.40 EUR`.
    fn money(&self, amount: f64) -> String {
        format!("{amount:.2} {}", self.currency).trim_end().to_owned()
    }
}

/// The list as a printed sheet; `running` says of what: suit, wearer, version, empty ones left out.
pub fn shopping_list(list: &ShoppingSheet, running: Vec<String>) -> Listing {
    let text = |q: &Option<Quantity>| q.as_ref().map_or_else(String::new, Quantity::text);
    let mut rows: Vec<ListRow> = list
        .lines
        .iter()
        .map(|line| {
            let packs = match line.packs {
                None => String::new(),
                Some(1) => " (1 pack)".to_owned(),
                Some(n) => format!(" ({n} packs)"),
            };
            let buy = match &line.to_buy {
                Some(q) => format!("{}{packs}", q.text()),
                None => "in stock".to_owned(),
            };
            ListRow::of(vec![
                line.what.clone(),
                line.needed.text(),
                text(&line.in_stock),
                buy,
                line.cost.clone().unwrap_or_default(),
            ])
            .with(line.notes.join(" "))
        })
        .collect();
    if let Some(total) = &list.total {
        let mut cells = vec![String::new(); 4];
        cells.insert(0, "All together".into());
        cells[4].clone_from(total);
        rows.push(ListRow::of(cells));
    }
    let columns = vec![
        ListColumn::words("What", 3.4),
        ListColumn::figures("Needed", 1.0),
        ListColumn::figures("In stock", 1.0),
        ListColumn::figures("To buy", 1.4),
        ListColumn::figures("Cost", 1.2),
    ];
    let mut parts = Vec::new();
    if !list.assumed.is_empty() {
        parts.push(Part::Text(list.assumed.clone()));
    }
    parts.push(Part::Heading("To buy".into()));
    parts.push(table(columns, rows));
    if !list.unpriced.is_empty() {
        parts.push(Part::Text(format!(
            "Without a price: {}.",
            list.unpriced.join("; ")
        )));
    }
    if !list.threads.is_empty() {
        parts.push(Part::Heading("Spools, bobbins and loopers".into()));
        let rows = list
            .threads
            .iter()
            .map(|t| ListRow::of(vec![t.clone()]))
            .collect();
        parts.push(table(vec![ListColumn::words("Thread by place", 1.0)], rows));
    }
    listing("Shopping list", running, parts)
}

/// The quote as a printed sheet for a client; `None` while an hour has no price.
pub fn quote_list(list: &ShoppingSheet, running: Vec<String>) -> Option<Listing> {
    let quote = list.quote.as_ref()?;
    let mut rows: Vec<ListRow> = quote
        .rows
        .iter()
        .map(|r| ListRow::of(vec![r.name.clone(), r.value.clone()]))
        .collect();
    rows.push(ListRow::of(vec!["All together".into(), quote.total.clone()]));
    let columns = vec![ListColumn::words("What", 2.0), ListColumn::figures("Amount", 1.4)];
    let mut parts = vec![
        Part::Text("Made to measure, from the cloth to the last stitch.".into()),
        table(columns, rows),
    ];
    if !quote.missing.is_empty() {
        parts.push(Part::Text(quote.missing.clone()));
    }
    Some(listing("Quote", running, parts))
}

fn table(columns: Vec<ListColumn>, rows: Vec<ListRow>) -> Part {
    Part::Table(ListTable {
        columns,
        rows,
        is_ticked: false,
    })
}

fn listing(title: &str, running: Vec<String>, parts: Vec<Part>) -> Listing {
    let of: Vec<String> = running.into_iter().filter(|r| !r.is_empty()).collect();
    Listing {
        language: "en".into(),
        title: title.into(),
        subtitle: of.join(", "),
        running: std::iter::once(title.to_owned())
            .chain(of)
            .collect::<Vec<_>>()
            .join(", "),
        page_word: "page".into(),
        is_landscape: false,
        parts,
    }
}

#[cfg(test)]
#[path = "shopping_tests.rs"]
mod tests;
