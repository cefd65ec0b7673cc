//! What to buy for a suit and what it costs: the page, the printed lists and the command line show the same lines.
//!
//! The plan says things by key; here they become sentences, lengths in her units and money in her currency.
//!
//! **Limits.** English only. A line without a price has no cost and is named; a total is shown only when every line to buy has one.

use make::{Arg, Item, Making, QuoteTerms, Say, Shopping, ShoppingLine, quote};
use serde::Serialize;
use ts_rs::TS;
use units::LengthUnit;
use utoipa::ToSchema;
use words::{Language, Value, Words};

use super::not_yet::not_yet;
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
        words: Words::new(Language::English),
        unit,
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
                    told::capital(&desk.word(used.thread.key())),
                    desk.word(used.place.key()),
                    desk.amount(&Item::Thread(used.thread), used.each().get()).text()
                )
            })
            .collect(),
        total: shopping.cost.map(|cost| desk.money(cost)),
        unpriced: shopping
            .lines
            .iter()
            .filter(|l| l.to_buy > 0.0 && l.cost.is_none())
            .map(|l| desk.say(&l.say))
            .collect(),
        quote: room.terms.and_then(|terms| desk.quote(making, shopping, &terms)),
        lines,
    }
}

struct Desk<'a> {
    words: Words,
    unit: LengthUnit,
    currency: &'a str,
}

impl Desk<'_> {
    fn line(&self, line: &ShoppingLine) -> BuyLineView {
        let some = |amount: f64| (amount > 0.0).then(|| self.amount(&line.item, amount));
        BuyLineView {
            what: self.say(&line.say),
            notes: line.notes.iter().map(|n| self.say(n)).collect(),
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
            _ if item.is_length() => as_sold(units::Mm::new(amount), self.unit),
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
        let unpriced: Vec<String> = quote.unpriced.iter().map(|s| self.say(s)).collect();
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

    fn word(&self, key: &str) -> String {
        self.words.word(&key.replace('.', "-"))
    }

    fn say(&self, say: &Say) -> String {
        let said: Vec<String> = say.args.iter().map(|(_, arg)| self.argument(arg)).collect();
        let args: Vec<(&str, Value<'_>)> = say
            .args
            .iter()
            .zip(&said)
            .map(|((name, arg), text)| match arg {
                Arg::Count(count) => (*name, Value::from(*count)),
                _ => (*name, Value::from(text)),
            })
            .collect();
        self.words.say(&say.key.replace('.', "-"), &args)
    }

    fn argument(&self, arg: &Arg) -> String {
        match arg {
            Arg::Length(mm) => super::length(*mm, self.unit).text(),
            Arg::Setting(mm) => self.words.millimetres(mm.get()),
            Arg::Share(share) => self.words.percent(*share),
            Arg::Number(number, digits) => self.words.number(*number, usize::from(*digits)),
            Arg::Count(count) => count.to_string(),
            Arg::Key(key) => self.word(key),
            Arg::Name(name) => name.clone(),
            Arg::List(list) => {
                let said: Vec<String> = list.iter().map(|a| self.argument(a)).collect();
                self.words.list(&said)
            }
        }
    }
}

/// A sentence of the plan in English and her units.
pub(super) fn said(say: &Say, unit: LengthUnit) -> String {
    let desk = Desk {
        words: Words::new(Language::English),
        unit,
        currency: "",
    };
    desk.say(say)
}

/// A word of the plan: of a stitch, of a job.
pub(super) fn word(key: &str) -> String {
    Words::new(Language::English).word(&key.replace('.', "-"))
}

/// The list as a printed sheet; `running` is what stands at the head of every page.
pub fn shopping_list(list: &ShoppingSheet, running: Vec<String>) -> sheet::list::List {
    use sheet::list::{Column, List, Section};
    let text = |q: &Option<Quantity>| q.as_ref().map_or_else(String::new, Quantity::text);
    let mut rows: Vec<Vec<String>> = list
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
            let what = std::iter::once(line.what.as_str()).chain(line.notes.iter().map(String::as_str));
            vec![
                what.collect::<Vec<_>>().join(". ").replace("..", "."),
                line.needed.text(),
                text(&line.in_stock),
                buy,
                line.cost.clone().unwrap_or_default(),
            ]
        })
        .collect();
    if let Some(total) = &list.total {
        rows.push(vec![
            "All together".into(),
            String::new(),
            String::new(),
            String::new(),
            total.clone(),
        ]);
    }
    let mut notes = Vec::new();
    if !list.unpriced.is_empty() {
        notes.push(format!("Without a price: {}.", list.unpriced.join("; ")));
    }
    let columns = vec![
        Column::left("What", 3.4),
        Column::right("Needed", 1.0),
        Column::right("In stock", 1.0),
        Column::right("To buy", 1.4),
        Column::right("Cost", 1.2),
    ];
    let threads = Section {
        heading: "Spools, bobbins and loopers".into(),
        columns: vec![Column::left("Thread by place", 1.0)],
        rows: list.threads.iter().map(|t| vec![t.clone()]).collect(),
        notes: Vec::new(),
    };
    List {
        title: "Shopping list".into(),
        running,
        lead: list.assumed.clone(),
        sections: vec![
            Section {
                heading: "To buy".into(),
                columns,
                rows,
                notes,
            },
            threads,
        ],
    }
}

/// The quote as a printed sheet for a client; `None` while an hour has no price.
pub fn quote_list(list: &ShoppingSheet, running: Vec<String>) -> Option<sheet::list::List> {
    use sheet::list::{Column, List, Section};
    let quote = list.quote.as_ref()?;
    let mut rows: Vec<Vec<String>> = quote
        .rows
        .iter()
        .map(|r| vec![r.name.clone(), r.value.clone()])
        .collect();
    rows.push(vec!["All together".into(), quote.total.clone()]);
    Some(List {
        title: "Quote".into(),
        running,
        lead: "Made to measure, from the cloth to the last stitch.".into(),
        sections: vec![Section {
            heading: String::new(),
            columns: vec![Column::left("What", 2.0), Column::right("Amount", 1.4)],
            rows,
            notes: std::iter::once(quote.missing.clone())
                .filter(|m| !m.is_empty())
                .collect(),
        }],
    })
}

#[cfg(test)]
#[path = "shopping_tests.rs"]
mod tests;
