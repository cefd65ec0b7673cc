//! What to buy: needed, in stock, in packs as they are sold, at the prices the maker entered.
//!
//! A line without a price has no cost, and the quote says so: nothing is guessed.
//!
//! **Shapes and units.** Lengths mm (thread too), the rest counted; money in the maker's currency.
//! **Source.** What and how many: `data/trade/notions.toml`, common practice. Cloth is sold by 0.1 m, elastic by 0.25 m.

use cloth::Layer;
use draft::{ClosureKind, Cups, Setting};
use serde::Serialize;
use units::Mm;

use crate::buy::elastic_to_buy;
use crate::counted::{Shelf, up};
use crate::edge::EdgeElastic;
use crate::making::{Making, MakingInput};
use crate::needle::Needle;
use crate::quantity::{ClothBasis, ClothUse, ThreadUse, cloth_uses, cup_size, thread_uses};
use crate::say::{Arg, Say};
use crate::thread::Thread;

/// Cloth is sold in steps of this, mm. `data/trade/notions.toml`.
pub(crate) const CLOTH_STEP: f64 = 100.0;
/// Elastic is sold in steps of this, mm. `data/trade/notions.toml`.
pub(crate) const ELASTIC_STEP: f64 = 250.0;
/// Cord beyond the elastic of a waist. `data/trade/notions.toml`.
const CORD_EXTRA: f64 = 500.0;
/// Least a spool is sold with, mm: 100 m. `data/trade/notions.toml`.
pub(crate) const LEAST_SPOOL: f64 = 100_000.0;

/// Something that can be bought, priced and kept in stock.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Item {
    /// Cloth of a layer.
    Cloth(Layer),
    /// Elastic, by the trade's name of its kind and its width.
    Elastic {
        /// Kind.
        kind: String,
        /// Width.
        width: Mm,
    },
    /// Thread.
    Thread(Thread),
    /// Needles.
    Needle(Needle),
    /// Foam cups, a pair.
    Cups,
    /// Rings.
    Ring,
    /// Sliders.
    Slider,
    /// Hooks with their eyes.
    Hook,
    /// A clasp.
    Clasp,
    /// A zip.
    Zip,
    /// Eyelets.
    Eyelet,
    /// Cord.
    Cord,
    /// Boning.
    Boning,
    /// Ball-point pins or clips.
    Pins,
}

impl Item {
    /// Key of its line: `buy.cloth`.
    pub const fn key(&self) -> &'static str {
        match self {
            Item::Cloth(_) => "buy.cloth",
            Item::Elastic { .. } => "buy.elastic",
            Item::Thread(_) => "buy.thread",
            Item::Needle(_) => "buy.needle",
            Item::Cups => "buy.cups",
            Item::Ring => "buy.ring",
            Item::Slider => "buy.slider",
            Item::Hook => "buy.hook",
            Item::Clasp => "buy.clasp",
            Item::Zip => "buy.zip",
            Item::Eyelet => "buy.eyelet",
            Item::Cord => "buy.cord",
            Item::Boning => "buy.boning",
            Item::Pins => "buy.pins",
        }
    }

    /// Whether it is measured (mm), not counted.
    pub const fn is_length(&self) -> bool {
        matches!(
            self,
            Item::Cloth(_) | Item::Elastic { .. } | Item::Thread(_) | Item::Cord | Item::Boning
        )
    }
}

/// What one pack holds and costs.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Price {
    /// Of what.
    pub item: Item,
    /// In one pack: mm or count.
    pub pack: f64,
    /// What it costs.
    pub price: f64,
    /// Whether only whole packs are sold; cloth and elastic are cut off a roll.
    pub is_whole: bool,
}

/// What is in stock.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stock {
    /// Of what.
    pub item: Item,
    /// How much: mm or count.
    pub amount: f64,
}

/// What a shopping list is made from beside the plan.
#[derive(Clone, Copy, Debug, Default)]
pub struct ShoppingInput<'a> {
    /// Lengths of a lay by layer, where there is one.
    pub lays: &'a [(Layer, Mm)],
    /// Bust less underbust, for the cups.
    pub cup_difference: Option<Mm>,
    /// In stock beside the workroom's needles and threads.
    pub stock: &'a [Stock],
    /// Prices and packs.
    pub prices: &'a [Price],
}

/// One line.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ShoppingLine {
    /// What.
    pub item: Item,
    /// What it is, by its key, with its arguments.
    pub say: Say,
    /// Needed: mm or count.
    pub needed: f64,
    /// Taken off the stock.
    pub in_stock: f64,
    /// To buy, in the steps it is sold by.
    pub to_buy: f64,
    /// Packs, where it is sold in whole ones and their size was entered.
    pub packs: Option<u32>,
    /// What those cost.
    pub cost: Option<f64>,
    /// What the needed alone costs, its share of the pack: for a quote.
    pub charge: Option<f64>,
    /// What it rests on.
    pub notes: Vec<Say>,
}

/// What to buy for a suit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Shopping {
    /// Lines: cloth, elastic, thread, needles, cups, small parts.
    pub lines: Vec<ShoppingLine>,
    /// Thread by place, to fill spools and loopers by.
    pub threads: Vec<ThreadUse>,
    /// Cloth by layer.
    pub cloths: Vec<ClothUse>,
    /// What all of it costs; none when a line to buy has no price.
    pub cost: Option<f64>,
}

/// The shopping list of a plan.
pub fn shopping(input: &MakingInput<'_>, making: &Making, more: &ShoppingInput<'_>) -> Shopping {
    let cloths = cloth_uses(input.draft, input.cloth, more.lays);
    let mass = crate::making::heaviest(input);
    let threads = thread_uses(&making.steps, &making.stitches, |plies| {
        crate::choose::thickness(plies, mass)
    });
    let mut list = List {
        input,
        more,
        lines: Vec::new(),
    };
    for used in &cloths {
        list.cloth(used);
    }
    list.elastic(&making.edges);
    list.thread(&threads);
    list.needles(making);
    list.small_parts(making);
    let cost = list.lines.iter().try_fold(0.0, |sum, l| {
        if l.to_buy > 0.0 {
            Some(sum + l.cost?)
        } else {
            Some(sum)
        }
    });
    Shopping {
        lines: list.lines,
        threads,
        cloths,
        cost,
    }
}

struct List<'a> {
    input: &'a MakingInput<'a>,
    more: &'a ShoppingInput<'a>,
    lines: Vec<ShoppingLine>,
}

/// Cloth as it is cut off the roll: in the steps it is sold by.
pub fn cut_off(length: Mm) -> Mm {
    Mm::new(up(length.get(), CLOTH_STEP))
}

impl List<'_> {
    fn line(&mut self, item: Item, say: Say, needed: f64, step: f64, notes: Vec<Say>) {
        let shelf = Shelf {
            room: self.input.workroom,
            stock: self.more.stock,
            prices: self.more.prices,
        };
        let counted = shelf.count(&item, needed, step);
        self.lines.push(ShoppingLine {
            charge: counted.charge,
            item,
            say,
            needed,
            in_stock: counted.in_stock,
            to_buy: counted.to_buy,
            packs: counted.packs,
            cost: counted.cost,
            notes,
        });
    }

    fn count(&mut self, item: Item, count: u32, notes: Vec<Say>) {
        let say = Say::plain(item.key()).with("count", Arg::Count(count));
        self.line(item, say, f64::from(count), 1.0, notes);
    }

    fn cloth(&mut self, used: &ClothUse) {
        let item = Item::Cloth(used.layer);
        let say = Say::plain(item.key())
            .with("cloth", Arg::Name(used.cloth.clone()))
            .with("width", Arg::Length(used.width));
        let mut notes = vec![match used.basis {
            ClothBasis::Lay => Say::plain("buy_note.by_lay"),
            ClothBasis::Area => Say::plain("buy_note.by_area").with("least", Arg::Length(used.at_least)),
        }];
        if !used.is_width_known {
            notes.push(Say::plain("buy_note.width_assumed").with("width", Arg::Length(used.width)));
        }
        self.line(item, say, used.length.get(), CLOTH_STEP, notes);
    }

    fn elastic(&mut self, edges: &[EdgeElastic]) {
        let plans: Vec<_> = edges.iter().map(|e| e.plan.clone()).collect();
        for buy in elastic_to_buy(&plans) {
            let item = Item::Elastic {
                kind: buy.kind.clone(),
                width: buy.width,
            };
            let say = Say::plain(item.key())
                .with("kind", Arg::Name(buy.kind))
                .with("width", Arg::Setting(buy.width))
                .with("net", Arg::Length(buy.net));
            self.line(item, say, buy.to_buy.get(), ELASTIC_STEP, Vec::new());
        }
    }

    fn thread(&mut self, uses: &[ThreadUse]) {
        let mut kinds: Vec<Thread> = uses.iter().map(|u| u.thread).collect();
        kinds.sort_unstable();
        kinds.dedup();
        for thread in kinds {
            let of: Vec<&ThreadUse> = uses.iter().filter(|u| u.thread == thread).collect();
            let gross: f64 = of.iter().map(|u| u.gross.get()).sum();
            let packages: u32 = of.iter().map(|u| u32::from(u.packages)).max().unwrap_or(1);
            let item = Item::Thread(thread);
            let say = Say::plain(item.key())
                .with("thread", Arg::Key(thread.key()))
                .with("tex", Arg::Number(thread.facts().tex, 0))
                .with("packages", Arg::Count(packages));
            self.line(
                item,
                say,
                gross,
                LEAST_SPOOL,
                vec![Say::plain("buy_note.thread").with("packages", Arg::Count(packages))],
            );
        }
    }

    fn needles(&mut self, making: &Making) {
        let mut needles: Vec<Needle> = Vec::new();
        for choice in &making.stitches {
            if !needles.contains(&choice.setting.needle) {
                needles.push(choice.setting.needle);
            }
        }
        for needle in needles {
            let item = Item::Needle(needle);
            let mut say = Say::plain(if needle.twin.is_some() {
                "buy.needle_twin"
            } else {
                item.key()
            })
            .with("size", Arg::Number(f64::from(needle.size_nm), 0))
            .with("point", Arg::Key(needle.point.key()));
            if let Some(spacing) = needle.twin {
                say = say.with("spacing", Arg::Setting(spacing));
            }
            // A new one for the suit and a spare; one twin.
            let count = if needle.twin.is_some() { 1.0 } else { 2.0 };
            self.line(item, say, count, 1.0, Vec::new());
        }
        self.count(Item::Pins, 30, vec![Say::plain("buy_note.pins")]);
    }

    fn small_parts(&mut self, making: &Making) {
        let design = self.input.design;
        if design.cups != Cups::None {
            let size = self.more.cup_difference.and_then(cup_size);
            let mut say = Say::plain(if size.is_some() {
                Item::Cups.key()
            } else {
                "buy.cups_unknown"
            })
            .with("count", Arg::Count(1));
            if let Some(size) = size {
                say = say
                    .with("letter", Arg::Name(size.letter.to_owned()))
                    .with("width_low", Arg::Setting(size.width.0))
                    .with("width_high", Arg::Setting(size.width.1))
                    .with("height_low", Arg::Setting(size.height.0))
                    .with("height_high", Arg::Setting(size.height.1));
            }
            self.line(
                Item::Cups,
                say,
                1.0,
                1.0,
                vec![Say::plain("buy_note.cups_smaller")],
            );
        }
        let word = |key: &str| {
            let parameter = design.style.own(key).filter(|p| design.is_heard(p))?;
            match design.own.get(parameter) {
                Setting::Word(word) => Some(word),
                _ => None,
            }
        };
        let step = |id: &str| making.steps.iter().any(|s| s.id == id);
        if step("close.rings") {
            self.count(
                Item::Ring,
                2,
                vec![Say::plain("buy_note.coated").with("width", Arg::Length(design.strap_width))],
            );
            self.count(Item::Slider, 2, Vec::new());
        }
        match design.closure.map(|c| (c.kind, c.length)) {
            Some((ClosureKind::Hook | ClosureKind::Ring, _)) => self.count(
                Item::Hook,
                1,
                vec![Say::plain("buy_note.coated").with("width", Arg::Length(Mm::new(30.0)))],
            ),
            Some((ClosureKind::Clasp, _)) => self.count(Item::Clasp, 1, Vec::new()),
            _ => {}
        }
        if step("join.zip") {
            let length = design.closure.map(|c| c.length);
            let notes = length.map(|l| Say::plain("buy_note.zip").with("length", Arg::Length(l)));
            self.count(Item::Zip, 1, notes.into_iter().collect());
        }
        if step("close.hooks") {
            self.count(Item::Hook, 1, Vec::new());
        }
        if word("neck_strap") == Some("hooked") {
            self.count(Item::Hook, 1, Vec::new());
        }
        if step("join.eyelets") {
            self.count(Item::Eyelet, 2, vec![Say::plain("buy_note.eyelet_patch")]);
            let waist = making.edges.iter().find(|e| e.plan.edge == "waist");
            let length = waist.map_or(800.0, |e| e.plan.cut_length.get()) + CORD_EXTRA;
            let note = if self.input.is_child {
                vec![Say::plain("buy_note.cord_child")]
            } else {
                Vec::new()
            };
            self.line(Item::Cord, Say::plain(Item::Cord.key()), length, CLOTH_STEP, note);
        }
        if step("join.boning") {
            let channel = self
                .input
                .draft
                .pieces
                .iter()
                .find(|p| p.key.starts_with("boning_channel"));
            let length: f64 = channel
                .and_then(|p| Some(p.edge("long_left")?.curve.length() * crate::order::times(p)))
                .unwrap_or(0.0);
            self.line(
                Item::Boning,
                Say::plain(Item::Boning.key()),
                length,
                CLOTH_STEP,
                Vec::new(),
            );
        }
    }
}
