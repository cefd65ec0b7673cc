//! The plain document: chapters of blocks, with all text finished and all drawings drawn.
//!
//! It knows no page and no suit. Writers decide how a table or a callout looks; they never decide what it says.
//!
//! **Shapes and units.** Figures are SVG with one unit a millimetre of the page. Shares of a table's width sum to anything;
//! writers scale them.

use serde::Serialize;
use units::LengthUnit;

/// A whole booklet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Booklet {
    /// BCP 47 tag of its language.
    pub language: &'static str,
    /// The suit's name.
    pub title: String,
    /// What stands at the head of every page: the suit and its version.
    pub running: String,
    /// The word before a page's number.
    pub page_word: String,
    /// Heading of the contents.
    pub contents_title: String,
    /// What the document is about, for catalogues and readers.
    pub about: String,
    /// Whether the tape down the margin is in inches.
    pub is_tape_in_inches: bool,
    /// The first page.
    pub cover: Cover,
    /// The chapters, in reading order.
    pub chapters: Vec<Chapter>,
}

/// The first page.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cover {
    /// Whom it is for, or a line to write that on.
    pub made_for: String,
    /// Whether `made_for` is followed by a line to write on.
    pub is_blank: bool,
    /// Style, edition, version: a line each.
    pub lines: Vec<String>,
    /// The suit from the front and from the back.
    pub figure: Figure,
    /// What must be read first.
    pub callout: Option<Callout>,
}

/// A chapter; it begins on a new page where `starts_page`.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Chapter {
    /// File-safe name: `elastic`.
    pub id: &'static str,
    /// Title.
    pub title: String,
    /// One sentence under the title; may be empty.
    pub lead: String,
    /// Whether it begins on a new page.
    pub starts_page: bool,
    /// What it holds.
    pub blocks: Vec<Block>,
}

/// A part of a chapter.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "is", rename_all = "snake_case")]
pub enum Block {
    /// A heading inside the chapter.
    Heading {
        /// Its words.
        text: String,
    },
    /// A paragraph.
    Paragraph {
        /// Its words.
        text: String,
        /// Set smaller: a remark.
        is_note: bool,
    },
    /// A list; lettered a, b, c where the order counts.
    List {
        /// One sentence or two each.
        items: Vec<String>,
        /// a, b, c instead of dashes.
        is_lettered: bool,
    },
    /// A table.
    Table(Table),
    /// Figures side by side.
    Figures {
        /// One to four.
        figures: Vec<Figure>,
    },
    /// A strip of large values.
    Facts {
        /// Two to four.
        facts: Vec<Fact>,
    },
    /// Something to heed.
    Callout(Callout),
    /// Lines to write on.
    Blank {
        /// What to write.
        label: String,
        /// How many lines.
        lines: usize,
    },
    /// A step of the work.
    Step(Step),
    /// Parts that stay together on a page.
    Keep {
        /// In order.
        blocks: Vec<Block>,
    },
    /// Words and what they mean.
    Terms {
        /// Word and meaning.
        terms: Vec<(String, String)>,
    },
}

/// One step of the work, kept together on a page.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Step {
    /// Its number.
    pub number: usize,
    /// What to do.
    pub title: String,
    /// One line under it: how often, how long.
    pub lead: String,
    /// Drawings side by side.
    pub figures: Vec<Figure>,
    /// Settings and lengths.
    pub facts: Vec<Fact>,
    /// How, lettered.
    pub how: Vec<String>,
    /// Why it is done so; may be empty.
    pub why: String,
    /// Something to heed.
    pub callout: Option<Callout>,
    /// What to write on the line below; empty for none.
    pub note: String,
}

/// A name, its value large, and what goes with it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Fact {
    /// What it is.
    pub name: String,
    /// Its value.
    pub value: Cell,
    /// The other unit, or what it is held against; may be empty.
    pub note: String,
}

/// How a column stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Align {
    /// Words.
    Left,
    /// Numbers.
    Right,
}

/// A table with a head.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Table {
    /// What it shows, for readers who do not see it.
    pub says: String,
    /// Share of the width, alignment and title of each column.
    pub columns: Vec<Column>,
    /// Rows of as many cells.
    pub rows: Vec<Vec<Cell>>,
}

/// A column of a table.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Column {
    /// Title; may be empty.
    pub title: String,
    /// Share of the width.
    pub share: f64,
    /// How its cells stand.
    pub align: Align,
}

impl Column {
    /// A column of words.
    pub fn words(title: String, share: f64) -> Column {
        Column {
            title,
            share,
            align: Align::Left,
        }
    }

    /// A column of numbers.
    pub fn numbers(title: String, share: f64) -> Column {
        Column {
            title,
            share,
            align: Align::Right,
        }
    }
}

/// What stands in a cell.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "is", rename_all = "snake_case")]
pub enum Cell {
    /// Words or a number.
    Text {
        /// In the maker's unit.
        main: String,
        /// In the other unit, or a second line; may be empty.
        other: String,
    },
    /// A line to write on, with the unit that is printed after it.
    Blank {
        /// `cm`; may be empty.
        unit: String,
    },
    /// A box to tick.
    Tick {
        /// What is ticked, for readers who do not see the box.
        says: String,
    },
    /// A small drawing.
    Figure(Figure),
    /// A severity: sign and word.
    Sign {
        /// Which.
        sign: Sign,
        /// The word, so that colour and shape are not alone.
        word: String,
    },
}

impl Cell {
    /// Words alone.
    pub fn text(main: impl Into<String>) -> Cell {
        Cell::Text {
            main: main.into(),
            other: String::new(),
        }
    }

    /// An empty line with the sign of the unit a maker writes lengths in.
    pub fn blank_length(unit: LengthUnit) -> Cell {
        let unit = match unit {
            LengthUnit::Cm => "cm",
            LengthUnit::Mm => "mm",
            LengthUnit::In => "in",
        };
        Cell::Blank {
            unit: unit.to_owned(),
        }
    }

    /// An empty line.
    pub fn blank() -> Cell {
        Cell::Blank { unit: String::new() }
    }
}

/// A sign at a callout or in a cell; always with its word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Sign {
    /// A tick.
    Good,
    /// A triangle with a query.
    Watch,
    /// An octagon with a bar.
    Stop,
    /// A pencil: how to.
    Note,
}

/// Something to heed: a sign, its word, and what to do.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Callout {
    /// The sign.
    pub sign: Sign,
    /// The word that opens it.
    pub word: String,
    /// What to know and do.
    pub text: String,
}

/// A drawing.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Figure {
    /// The drawing, one unit a millimetre.
    pub svg: String,
    /// Its width on the page, mm.
    pub width_mm: f64,
    /// Its height on the page, mm.
    pub height_mm: f64,
    /// What it shows, in a sentence, for readers who do not see it.
    pub alt: String,
    /// A line below it; may be empty.
    pub caption: String,
}
