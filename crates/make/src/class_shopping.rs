//! One shopping list for a class: what its people need together, rounded up once.
//!
//! A list a person would buy a remnant each; a class buys off the roll. Elastic is added up net and gets its tenth and its test
//! once per kind and width. Thread is added up, and there must be a package for every needle and looper that is threaded at the
//! same time. Every suit gets a new needle, every machine keeps one to spare.
//!
//! **Shapes and units.** As in [`crate::shopping()`]: mm, counts, money.
//! **Source.** As there; a needle a suit and a spare a machine: common practice, no source.

use serde::Serialize;
use units::Mm;

use crate::buy::elastic_to_buy;
use crate::counted::{Shelf, up};
use crate::making::Making;
use crate::needle::Needle;
use crate::quantity::{CLOTH_TESTS, ClothBasis, USAGE_WITHOUT_LAY};
use crate::say::{Arg, Say};
use crate::shopping::{CLOTH_STEP, ELASTIC_STEP, Item, LEAST_SPOOL, Price, Shopping, ShoppingLine, Stock};
use crate::thread::Thread;
use crate::workroom::Workroom;

/// How the cloth comes into the bags.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ClothInBag {
    /// A length for everyone, cut off the roll: everyone lays and cuts her own pieces.
    #[default]
    Lengths,
    /// Cut pieces: all suits are laid together.
    Pieces,
}

/// One person's plan and list.
#[derive(Clone, Copy, Debug)]
pub struct ClassPerson<'a> {
    /// Her plan.
    pub making: &'a Making,
    /// Her list.
    pub shopping: &'a Shopping,
}

/// What a class list is made from beside the people.
#[derive(Clone, Copy, Debug)]
pub struct ClassShoppingInput<'a> {
    /// The people, in their order.
    pub people: &'a [ClassPerson<'a>],
    /// The room their plans were made for.
    pub room: &'a Workroom,
    /// How many of each of its machines there are.
    pub counts: &'a [u32],
    /// How the cloth comes into the bags.
    pub bags: ClothInBag,
    /// In stock beside the room's needles and threads.
    pub stock: &'a [Stock],
    /// Prices and packs.
    pub prices: &'a [Price],
    /// Cloths on which all suits were laid together; empty before.
    pub together: &'a [LaidTogether],
}

/// All suits of a class on one length of a cloth.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidTogether {
    /// Layer.
    pub layer: cloth::Layer,
    /// The cloth's name.
    pub cloth: String,
    /// What their lay takes as bought, tests not included.
    pub length: Mm,
    /// No lay of them is shorter.
    pub least: Mm,
}

/// One line of a class list.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ClassLine {
    /// What.
    pub item: Item,
    /// What it is.
    pub say: Say,
    /// Needed by all together: mm or count.
    pub needed: f64,
    /// Taken off the stock.
    pub in_stock: f64,
    /// To buy, in the steps it is sold by.
    pub to_buy: f64,
    /// Whole packs, where their size was entered.
    pub packs: Option<u32>,
    /// What those cost.
    pub cost: Option<f64>,
    /// What each person's share is, by her place; those without one are left out.
    pub shares: Vec<(usize, f64)>,
    /// What it rests on.
    pub notes: Vec<Say>,
}

/// What a class buys.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ClassShopping {
    /// Lines: cloth, elastic, thread, needles, small parts.
    pub lines: Vec<ClassLine>,
    /// What all of it costs; none when a line to buy has no price.
    pub cost: Option<f64>,
}

/// The shopping list of a class. The same people and room give the same list.
pub fn class_shopping(input: &ClassShoppingInput<'_>) -> ClassShopping {
    let mut list = List {
        input,
        lines: Vec::new(),
    };
    list.cloths();
    list.elastics();
    list.threads();
    list.needles();
    list.rest();
    let cost = list.lines.iter().try_fold(0.0, |sum, l| {
        if l.to_buy > 0.0 {
            Some(sum + l.cost?)
        } else {
            Some(sum)
        }
    });
    ClassShopping {
        lines: list.lines,
        cost,
    }
}

struct List<'a> {
    input: &'a ClassShoppingInput<'a>,
    lines: Vec<ClassLine>,
}

impl List<'_> {
    fn line(
        &mut self,
        item: Item,
        say: Say,
        needed: f64,
        step: f64,
        shares: Vec<(usize, f64)>,
        notes: Vec<Say>,
    ) {
        let shelf = Shelf {
            room: self.input.room,
            stock: self.input.stock,
            prices: self.input.prices,
        };
        let counted = shelf.count(&item, needed, step);
        self.lines.push(ClassLine {
            item,
            say,
            needed,
            in_stock: counted.in_stock,
            to_buy: counted.to_buy,
            packs: counted.packs,
            cost: counted.cost,
            shares,
            notes,
        });
    }

    fn cloths(&mut self) {
        // By layer, cloth and width: a room may sew two cloths of one layer.
        let mut kinds: Vec<(cloth::Layer, String, Mm, bool)> = Vec::new();
        for used in self.input.people.iter().flat_map(|p| &p.shopping.cloths) {
            let kind = (used.layer, used.cloth.clone(), used.width, used.is_width_known);
            if !kinds.contains(&kind) {
                kinds.push(kind);
            }
        }
        kinds.sort_by_key(|(layer, ..)| layer_rank(*layer));
        for (layer, cloth, width, is_width_known) in kinds {
            let of: Vec<_> = self
                .input
                .people
                .iter()
                .enumerate()
                .flat_map(|(person, p)| p.shopping.cloths.iter().map(move |used| (person, used)))
                .filter(|(_, used)| used.layer == layer && used.cloth == cloth && used.width == width)
                .collect();
            let item = Item::Cloth(layer);
            let name = cloth.clone();
            let say = Say::plain(item.key())
                .with("cloth", Arg::Name(cloth))
                .with("width", Arg::Length(width));
            let area: f64 = of.iter().map(|(_, used)| used.area_mm2).sum();
            let longest = of.iter().map(|(_, u)| u.at_least.get()).fold(0.0, f64::max);
            let least = (area / width.get().max(1.0)).max(longest);
            let is_laid = of.iter().all(|(_, used)| used.basis == ClothBasis::Lay);
            let shares: Vec<(usize, f64)> = match self.input.bags {
                // What is cut off for one is cut in the steps of the tape, as in a shop.
                ClothInBag::Lengths => of
                    .iter()
                    .map(|(p, u)| (*p, up(u.length.get(), CLOTH_STEP)))
                    .collect(),
                ClothInBag::Pieces => of
                    .iter()
                    .map(|(p, u)| (*p, u.area_mm2 / width.get().max(1.0)))
                    .collect(),
            };
            // Contrast pieces without a cloth of their own are laid on the shell's.
            let is_it =
                |l: &&LaidTogether| l.layer == layer && (l.cloth == name || layer == cloth::Layer::Contrast);
            let laid = self.input.together.iter().find(is_it);
            let least = laid.map_or(least, |l| l.least.get());
            let (needed, basis) = match (self.input.bags, laid) {
                (ClothInBag::Lengths, _) => (
                    shares.iter().map(|(_, mm)| mm).sum(),
                    Say::plain(if is_laid {
                        "class_note.lengths_by_lay"
                    } else {
                        "class_note.lengths_by_area"
                    }),
                ),
                (ClothInBag::Pieces, Some(laid)) => {
                    let needed = laid.length.get() + CLOTH_TESTS.get();
                    (needed, Say::plain("class_note.together_by_lay"))
                }
                (ClothInBag::Pieces, None) => (
                    (area / width.get().max(1.0) / USAGE_WITHOUT_LAY).max(longest) + CLOTH_TESTS.get(),
                    Say::plain("class_note.together_by_area"),
                ),
            };
            let mut notes = vec![
                basis
                    .with("people", Arg::Count(of.len() as u32))
                    .with("least", Arg::Length(Mm::new(least))),
            ];
            if let (ClothInBag::Lengths, Some(laid)) = (self.input.bags, laid) {
                notes.push(
                    Say::plain("class_note.together_would")
                        .with("length", Arg::Length(laid.length + CLOTH_TESTS)),
                );
            }
            if !is_width_known {
                notes.push(Say::plain("buy_note.width_assumed").with("width", Arg::Length(width)));
            }
            self.line(item, say, needed, CLOTH_STEP, shares, notes);
        }
    }

    fn elastics(&mut self) {
        let people = self.input.people.iter();
        let plans: Vec<_> = people
            .flat_map(|p| p.making.edges.iter().map(|e| e.plan.clone()))
            .collect();
        for buy in elastic_to_buy(&plans) {
            let of_person = |p: &ClassPerson<'_>| -> f64 {
                let plans = p.making.edges.iter().map(|e| &e.plan);
                plans
                    .filter(|e| e.kind == buy.kind && e.width == buy.width)
                    .map(|e| e.cut_length.get() * f64::from(e.count))
                    .sum()
            };
            let shares: Vec<(usize, f64)> = self
                .input
                .people
                .iter()
                .map(of_person)
                .enumerate()
                .filter(|(_, mm)| *mm > 0.0)
                .collect();
            let item = Item::Elastic {
                kind: buy.kind.clone(),
                width: buy.width,
            };
            let say = Say::plain(item.key())
                .with("kind", Arg::Name(buy.kind))
                .with("width", Arg::Setting(buy.width))
                .with("net", Arg::Length(buy.net));
            let notes = vec![Say::plain("class_note.elastic").with("net", Arg::Length(buy.net))];
            self.line(item, say, buy.to_buy.get(), ELASTIC_STEP, shares, notes);
        }
    }

    fn threads(&mut self) {
        let mut kinds: Vec<Thread> = self
            .input
            .people
            .iter()
            .flat_map(|p| p.shopping.threads.iter().map(|t| t.thread))
            .collect();
        kinds.sort_unstable();
        kinds.dedup();
        for thread in kinds {
            let of = |p: &ClassPerson<'_>| -> f64 {
                let uses = p.shopping.threads.iter().filter(|t| t.thread == thread);
                uses.map(|t| t.gross.get()).sum()
            };
            let shares: Vec<(usize, f64)> = self
                .input
                .people
                .iter()
                .map(of)
                .enumerate()
                .filter(|(_, mm)| *mm > 0.0)
                .collect();
            let gross: f64 = shares.iter().map(|(_, mm)| mm).sum();
            let packages = self.packages(thread);
            let item = Item::Thread(thread);
            let say = Say::plain(item.key())
                .with("thread", Arg::Key(thread.key()))
                .with("tex", Arg::Number(thread.facts().tex, 0))
                .with("packages", Arg::Count(packages));
            let notes = vec![Say::plain("class_note.thread").with("packages", Arg::Count(packages))];
            self.line(item, say, gross, LEAST_SPOOL, shares, notes);
        }
    }

    /// Packages of a thread on all machines at the same time: of each machine the stitch that takes most, on as many of it as there
    /// are people for.
    fn packages(&self, thread: Thread) -> u32 {
        let people = self.input.people.len() as u32;
        let choices = || self.input.people.iter().flat_map(|p| &p.making.stitches);
        (0..self.input.room.machines.len())
            .map(|machine| {
                let of = choices().filter(|c| c.setting.machine == machine);
                let most = of.map(|c| {
                    let facts = c.setting.stitch.facts();
                    let needles = if c.setting.needle_thread == thread {
                        u32::from(facts.needle_threads)
                    } else {
                        0
                    };
                    let under = if c.setting.under_thread == thread {
                        u32::from(facts.under_threads)
                    } else {
                        0
                    };
                    needles + under
                });
                most.max().unwrap_or(0) * self.count(machine).min(people)
            })
            .sum()
    }

    fn count(&self, machine: usize) -> u32 {
        self.input.counts.get(machine).copied().unwrap_or(1)
    }

    fn needles(&mut self) {
        let people = self.input.people;
        let mut needles: Vec<Needle> = Vec::new();
        for choice in people.iter().flat_map(|p| &p.making.stitches) {
            if !needles.contains(&choice.setting.needle) {
                needles.push(choice.setting.needle);
            }
        }
        for needle in needles {
            let uses = |p: &ClassPerson<'_>| p.making.stitches.iter().any(|c| c.setting.needle == needle);
            let shares: Vec<(usize, f64)> = people
                .iter()
                .enumerate()
                .filter(|(_, p)| uses(p))
                .map(|(person, _)| (person, 1.0))
                .collect();
            let machines: u32 = (0..self.input.room.machines.len())
                .filter(|m| {
                    let mut choices = people.iter().flat_map(|p| &p.making.stitches);
                    choices.any(|c| c.setting.needle == needle && c.setting.machine == *m)
                })
                .map(|m| self.count(m).min(people.len() as u32))
                .sum();
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
            // Twin needles stay in their machine.
            let (needed, shares, note) = if needle.twin.is_some() {
                (f64::from(machines), Vec::new(), "class_note.twin")
            } else {
                let needed = shares.len() as f64 + f64::from(machines);
                (needed, shares, "class_note.needles")
            };
            let notes = vec![Say::plain(note).with("machines", Arg::Count(machines))];
            self.line(item, say, needed, 1.0, shares, notes);
        }
    }

    /// Everything that is only added up: cups by their size, rings, zips by their length, pins.
    fn rest(&mut self) {
        let mut kinds: Vec<(&ShoppingLine, Vec<(usize, f64)>)> = Vec::new();
        for (person, of) in self.input.people.iter().enumerate() {
            for line in &of.shopping.lines {
                if matches!(
                    line.item,
                    Item::Cloth(_) | Item::Elastic { .. } | Item::Thread(_) | Item::Needle(_)
                ) {
                    continue;
                }
                let like = |known: &ShoppingLine| {
                    known.item == line.item && known.say == line.say && known.notes == line.notes
                };
                match kinds.iter_mut().find(|(known, _)| like(known)) {
                    Some((_, shares)) => shares.push((person, line.needed)),
                    None => kinds.push((line, vec![(person, line.needed)])),
                }
            }
        }
        for (line, shares) in kinds {
            let (item, say, notes) = (line.item.clone(), line.say.clone(), line.notes.clone());
            let needed: f64 = shares.iter().map(|(_, amount)| amount).sum();
            let step = if item.is_length() { CLOTH_STEP } else { 1.0 };
            let say = match say.arg("count") {
                Some(_) => counted(&say, needed),
                None => say,
            };
            self.line(item, say, needed, step, shares, notes);
        }
    }
}

/// The sentence with the count of all.
fn counted(say: &Say, count: f64) -> Say {
    let args = say.args.iter().map(|(name, arg)| {
        let arg = if *name == "count" {
            Arg::Count(count.max(0.0) as u32)
        } else {
            arg.clone()
        };
        (*name, arg)
    });
    Say {
        key: say.key,
        args: args.collect(),
    }
}

const fn layer_rank(layer: cloth::Layer) -> u8 {
    match layer {
        cloth::Layer::Shell => 0,
        cloth::Layer::Contrast => 1,
        cloth::Layer::Lining => 2,
        cloth::Layer::Mesh => 3,
    }
}
