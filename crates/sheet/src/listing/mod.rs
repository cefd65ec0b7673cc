//! Lists on paper: headings, sentences, tables with boxes to tick, and the timetable of a room drawn as bars.
//!
//! What goes into a bag, what to buy, who sits where: documents that are read standing, ticked with a pencil, and copied in black and
//! white. The words come finished, in one language; here they get their places, tables their heads again on every page, and every page
//! its number.
//!
//! **Shapes and units.** Text in; PDF out. A chart counts minutes.
//! **Limits.** A row is never broken over two pages; one with more text than a page has is cut with an ellipsis.

mod chart;
mod flow;

use thiserror::Error;

use crate::book::{Book, View};
use crate::ink::Ink;
use crate::lettering::Lettering;
use crate::pattern::{Paper, Printed};

/// A document of lists.
#[derive(Clone, Debug, PartialEq)]
pub struct Listing {
    /// Tag of its language: `en`.
    pub language: String,
    /// What it is: `Bag list`.
    pub title: String,
    /// Whom it is for, and of what.
    pub subtitle: String,
    /// Stands at the foot of every page, before its number.
    pub running: String,
    /// The word for a page: `page`.
    pub page_word: String,
    /// Wider than high.
    pub is_landscape: bool,
    /// What it holds, in reading order.
    pub parts: Vec<Part>,
}

/// A part of a listing.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// A heading.
    Heading(String),
    /// A sentence or two.
    Text(String),
    /// What must be seen: a word before it, and a rule beside it.
    Caution {
        /// `take care`.
        word: String,
        /// What to know.
        says: String,
    },
    /// A line to write on, with what belongs there.
    Write(String),
    /// Rows with a head.
    Table(ListTable),
    /// The room's sessions as bars.
    Chart(Chart),
    /// What follows begins a new page.
    NewPage,
}

/// A table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ListTable {
    /// Columns, left to right.
    pub columns: Vec<ListColumn>,
    /// Rows, top to bottom.
    pub rows: Vec<ListRow>,
    /// Whether every row has a box to tick at its left.
    pub is_ticked: bool,
}

/// A column.
#[derive(Clone, Debug, PartialEq)]
pub struct ListColumn {
    /// Its head.
    pub head: String,
    /// Its share of the width.
    pub share: f64,
    /// Figures stand at the right.
    pub is_number: bool,
}

impl ListColumn {
    /// A column of words.
    pub fn words(head: impl Into<String>, share: f64) -> ListColumn {
        ListColumn {
            head: head.into(),
            share,
            is_number: false,
        }
    }

    /// A column of figures.
    pub fn figures(head: impl Into<String>, share: f64) -> ListColumn {
        ListColumn {
            head: head.into(),
            share,
            is_number: true,
        }
    }
}

/// A row.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ListRow {
    /// One text a column.
    pub cells: Vec<String>,
    /// What is said of it, under the row in smaller letters; empty for nothing.
    pub note: String,
}

impl ListRow {
    /// A row without a note.
    pub fn of(cells: Vec<String>) -> ListRow {
        ListRow {
            cells,
            note: String::new(),
        }
    }

    /// The same with a note under it.
    #[must_use]
    pub fn with(mut self, note: impl Into<String>) -> ListRow {
        self.note = note.into();
        self
    }
}

/// Bars over the minutes of one session: a row for each machine, or for each person. The tables beside it say the same in words.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chart {
    /// Minutes of the session.
    pub minutes: u32,
    /// Rows, top to bottom.
    pub rows: Vec<ChartRow>,
}

/// A row of a chart.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ChartRow {
    /// Whose: `Four-thread overlocker`.
    pub name: String,
    /// Its bars, not meeting.
    pub bars: Vec<Bar>,
}

/// A bar.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bar {
    /// First minute of the session.
    pub from: u32,
    /// Minute it ends.
    pub to: u32,
    /// Written in it as far as there is room, the first that fits: `A 12`, `A`.
    pub labels: Vec<String>,
    /// At a machine: drawn with a heavy line; work by hand with a light one.
    pub is_heavy: bool,
}

/// Why a listing could not be made: a fault of this program.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("the file could not be written: {0}; please report it")]
pub struct ListingFault(pub String);

/// The listing as PDF. The same listing gives the same bytes.
///
/// # Errors
/// [`ListingFault`] when the writer fails: a fault of this program.
pub fn pdf(listing: &Listing, paper: Paper) -> Result<Printed, ListingFault> {
    let letters = Lettering::load().map_err(ListingFault)?;
    let (short, long) = {
        let (w, h) = paper.size_mm();
        (w.min(h), w.max(h))
    };
    let size = if listing.is_landscape {
        (long, short)
    } else {
        (short, long)
    };
    let pages = flow::pages(listing, &letters, size);
    let about = if listing.subtitle.is_empty() {
        &listing.title
    } else {
        &listing.subtitle
    };
    let mut book = Book::in_language(&listing.title, about, &listing.language).map_err(ListingFault)?;
    for (k, page) in pages.iter().enumerate() {
        let views: [(View, &[Ink]); 1] = [(View::page((1.0, 1.0)), &page.inks)];
        book.page(size, &format!("{} {}", listing.page_word, k + 1), &views)
            .map_err(ListingFault)?;
    }
    let (bytes, undrawn) = book.finish().map_err(ListingFault)?;
    Ok(Printed {
        bytes,
        pages: pages.len(),
        tiles: None,
        undrawn,
    })
}
