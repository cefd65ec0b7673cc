//! From a worked-out suit to the document, chapter by chapter.
//!
//! Every sentence is looked up by its key, every number written by the language, so that nothing here is in any language.
//! In the class edition a number that belongs to the wearer becomes a line to write on; everything else stays.
//!
//! **Shapes and units.** As in the domain crates: mm, ratios.
//! **Limits.** What the plan does not know is not said; a piece, seam or measure whose name has no translation keeps the
//! name it was drafted with, and tests over every style hold that there is none.

mod care;
mod cautions;
mod cloth;
mod cutting;
mod elastic;
mod names;
mod reading;
mod say;
mod shopping;
mod sources;
mod steps;
mod try_on;
mod wear;

use ::cloth::ClothPlan;
use body::{Body, BodyForm};
use draft::Draft;
use fit::FitReport;
use make::{CutRow, ElasticBuy, ElasticPlan};
use units::LengthUnit;
use words::{Language, Quantity, Value, Words};

pub use say::sentence;
pub use steps::Plan;

use crate::draw::garment;
use crate::model::{Block, Booklet, Callout, Cell, Chapter, Column, Cover, Sign, Table};

/// Who reads it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Edition {
    /// The maker of this suit: everything filled in.
    #[default]
    Maker,
    /// A class: the wearer's numbers are lines to write on.
    Class,
}

/// Which booklet is wanted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Choice {
    /// For whom.
    pub edition: Edition,
    /// In which language.
    pub language: Language,
}

/// A worked-out suit, as the booklet needs it.
#[derive(Clone, Copy, Debug)]
pub struct Suit<'a> {
    /// What the suit is called.
    pub name: &'a str,
    /// Whom it is for.
    pub wearer: &'a str,
    /// Which version it is.
    pub version: &'a str,
    /// The body.
    pub body: &'a Body,
    /// The cloths as they lie on it.
    pub cloth: &'a ClothPlan,
    /// The draft.
    pub draft: &'a Draft,
    /// Which fit it was drafted for: `regular`.
    pub fit_key: &'a str,
    /// How it will sit.
    pub fit: &'a FitReport,
    /// Elastic of its edges.
    pub elastic: &'a [ElasticPlan],
    /// Elastic to buy.
    pub elastic_to_buy: &'a [ElasticBuy],
    /// What to cut.
    pub cut_list: &'a [CutRow],
    /// Stitches and steps, where they were planned.
    pub plan: Option<Plan<'a>>,
    /// Rows of the table of cautions that apply to this suit: `float`.
    pub cautions: &'a [&'a str],
    /// The maker's own notes.
    pub notes: &'a str,
    /// The unit she measures in.
    pub first_unit: LengthUnit,
}

/// The booklet of a suit.
///
/// Deterministic: the same suit and choice give the same document.
pub fn compose(suit: &Suit<'_>, choice: Choice) -> Booklet {
    let words = Words::new(choice.language);
    let desk = Desk {
        suit,
        words: &words,
        edition: choice.edition,
    };
    let mut chapters = vec![
        reading::reading(&desk),
        wear::summary(&desk),
        cloth::cloths(&desk),
        shopping::shopping(&desk),
        wear::ladder_chapter(&desk),
        cutting::pieces(&desk),
        cutting::cutting(&desk),
        cloth::scraps(&desk),
        elastic::elastic(&desk),
    ];
    chapters.push(steps::order(&desk));
    chapters.extend([
        try_on::try_on(&desk),
        care::care(&desk),
        cautions::cautions(&desk),
        sources::glossary(&desk),
        sources::sources(&desk),
    ]);
    chapters.retain(|c| !c.blocks.is_empty());
    Booklet {
        language: choice.language.tag(),
        title: desk.title(),
        running: desk.running(),
        page_word: desk.word("page"),
        contents_title: desk.word("contents"),
        about: desk.say("about", &[("suit", desk.title().into())]),
        is_tape_in_inches: suit.first_unit == LengthUnit::In,
        cover: cover(&desk),
        chapters,
    }
}

/// What every chapter is written at: the suit, the words, the edition.
pub(crate) struct Desk<'a> {
    pub(crate) suit: &'a Suit<'a>,
    pub(crate) words: &'a Words,
    pub(crate) edition: Edition,
}

impl Desk<'_> {
    pub(crate) fn word(&self, key: &str) -> String {
        self.words.word(key)
    }

    pub(crate) fn say(&self, key: &str, args: &[(&str, Value<'_>)]) -> String {
        self.words.say(key, args)
    }

    pub(crate) fn is_class(&self) -> bool {
        self.edition == Edition::Class
    }

    pub(crate) fn unit(&self) -> LengthUnit {
        self.suit.first_unit
    }

    fn title(&self) -> String {
        if self.is_class() {
            names::style(self)
        } else {
            self.suit.name.to_owned()
        }
    }

    fn running(&self) -> String {
        if self.is_class() {
            self.say("running-class", &[("style", names::style(self).into())])
        } else {
            let args = [
                ("suit", self.suit.name.into()),
                ("version", self.suit.version.into()),
            ];
            self.say("running", &args)
        }
    }

    /// A length in the maker's unit.
    pub(crate) fn length(&self, mm: f64) -> Quantity {
        self.words.length(mm, self.unit())
    }

    /// A length of this wearer: a line to write on in the class edition.
    pub(crate) fn own_length(&self, mm: f64) -> Cell {
        if self.is_class() {
            return Cell::blank_length(self.unit());
        }
        let Quantity { main, other } = self.length(mm);
        Cell::Text { main, other }
    }

    /// Words that belong to this wearer.
    pub(crate) fn own(&self, main: String) -> Cell {
        if self.is_class() {
            Cell::blank()
        } else {
            Cell::text(main)
        }
    }

    pub(crate) fn column(&self, key: &str, share: f64) -> Column {
        Column::words(self.word(key), share)
    }

    pub(crate) fn numbers(&self, key: &str, share: f64) -> Column {
        Column::numbers(self.word(key), share)
    }

    pub(crate) fn table(&self, says: &str, columns: Vec<Column>, rows: Vec<Vec<Cell>>) -> Block {
        Block::Table(Table {
            says: self.word(says),
            columns,
            rows,
        })
    }

    pub(crate) fn paragraph(&self, key: &str) -> Block {
        Block::Paragraph {
            text: self.word(key),
            is_note: false,
        }
    }

    pub(crate) fn note(&self, key: &str) -> Block {
        Block::Paragraph {
            text: self.word(key),
            is_note: true,
        }
    }

    pub(crate) fn heading(&self, key: &str) -> Block {
        Block::Heading { text: self.word(key) }
    }

    pub(crate) fn list(&self, keys: &[&str]) -> Block {
        Block::List {
            items: keys.iter().map(|k| self.word(k)).collect(),
            is_lettered: false,
        }
    }

    pub(crate) fn callout(&self, sign: Sign, word: &str, text: String) -> Callout {
        Callout {
            sign,
            word: self.word(word),
            text,
        }
    }

    pub(crate) fn blank(&self, key: &str, lines: usize) -> Block {
        Block::Blank {
            label: self.word(key),
            lines,
        }
    }

    pub(crate) fn chapter(&self, id: &'static str, starts_page: bool, blocks: Vec<Block>) -> Chapter {
        Chapter {
            id,
            title: self.word(&format!("{id}-title")),
            lead: self.word(&format!("{id}-lead")),
            starts_page,
            blocks,
        }
    }
}

/// Room for the drawing on the cover, mm.
const COVER_DRAWING: (f64, f64) = (160.0, 138.0);

fn cover(desk: &Desk<'_>) -> Cover {
    let suit = desk.suit;
    let (front, back) = (desk.word("view-front"), desk.word("view-back"));
    let says = desk.say("cover-figure", &[("style", names::style(desk).into())]);
    let fit = desk.word(&format!("fit-{}", suit.fit_key));
    let args = [("style", names::style(desk).into()), ("fit", fit.into())];
    let mut lines = vec![desk.say("cover-style", &args)];
    if desk.is_class() {
        lines.push(desk.word("cover-class"));
    } else {
        lines.push(desk.say("cover-version", &[("version", suit.version.into())]));
    }
    let made_for = if desk.is_class() {
        desk.word("cover-for-whom")
    } else {
        desk.say("cover-for", &[("wearer", suit.wearer.into())])
    };
    Cover {
        made_for,
        is_blank: desk.is_class(),
        lines,
        figure: garment(suit.draft, COVER_DRAWING, (&front, &back), says),
        callout: Some(desk.callout(Sign::Stop, "sign-heed", desk.word("caution-float"))),
    }
}

/// Whether the suit begins at the waist.
pub(crate) fn is_low(suit: &Suit<'_>) -> bool {
    let (pieces, edges) = (&suit.draft.pieces, &suit.draft.open_edges);
    pieces.iter().all(|p| p.edge("shoulder").is_none())
        && edges.iter().any(|e| e.kind == draft::OpenKind::Waist)
        && edges.iter().all(|e| {
            !matches!(
                e.kind,
                draft::OpenKind::Neckline | draft::OpenKind::Underbust | draft::OpenKind::Top
            )
        })
}

/// Whether the wearer is a child.
pub(crate) fn is_child(suit: &Suit<'_>) -> bool {
    suit.body.form == BodyForm::Child
}
