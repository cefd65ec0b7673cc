//! A plain list as reading pages: headings, a table under each, remarks below; for a shopping list or a quote.
//!
//! Drawn with the type and the lines of the pattern's own reading pages, so that what goes to the shop or to a client is of the
//! same family.
//!
//! **Shapes and units.** Words only: whoever asks for it has put every number into its unit.
//!
//! # Example
//! ```
//! use sheet::{Paper, list::{Column, List, Section, pdf}};
//! let list = List {
//!     title: "Shopping list".into(),
//!     running: vec!["Winter one-piece".into(), "Maren".into()],
//!     lead: "What the suit takes.".into(),
//!     sections: vec![Section {
//!         heading: "To buy".into(),
//!         columns: vec![Column::left("What", 3.0), Column::right("To buy", 1.0)],
//!         rows: vec![vec!["Rings".into(), "2".into()]],
//!         notes: vec![],
//!     }],
//! };
//! let printed = pdf(&list, Paper::A4).unwrap();
//! assert_eq!(printed.pages, 1);
//! ```

use kurbo::Point;

use crate::book::{Book, View};
use crate::flow::{self, Flow, MARGIN};
use crate::ink::{PAPER, Role};
use crate::lettering::{BODY, Face, Lettering, NOTE, pt};
use crate::pattern::{Paper, Printed, Refusal};
use crate::pdf::writer;
use crate::running::Running;

/// A list to print.
#[derive(Clone, Debug, PartialEq)]
pub struct List {
    /// What it is: `Shopping list`.
    pub title: String,
    /// Suit, wearer, version: stands at the head of every page; empty ones are left out.
    pub running: Vec<String>,
    /// A sentence or two under the title.
    pub lead: String,
    /// Its parts, in order.
    pub sections: Vec<Section>,
}

/// A table under a heading.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// The heading; empty for none.
    pub heading: String,
    /// Columns.
    pub columns: Vec<Column>,
    /// Rows, each with a cell for every column.
    pub rows: Vec<Vec<String>>,
    /// Remarks below it.
    pub notes: Vec<String>,
}

/// A column.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// Its head.
    pub head: String,
    /// Share of the width.
    pub share: f64,
    /// Whether figures stand under each other's ends.
    pub is_right: bool,
}

impl Column {
    /// A column of words.
    pub fn left(head: &str, share: f64) -> Column {
        Column {
            head: head.to_owned(),
            share,
            is_right: false,
        }
    }

    /// A column of figures.
    pub fn right(head: &str, share: f64) -> Column {
        Column {
            is_right: true,
            ..Column::left(head, share)
        }
    }
}

/// The list as PDF; as many pages as it needs, tagged and with no date in it.
///
/// # Errors
/// [`Refusal`] when the writer refuses it.
pub fn pdf(list: &List, paper: Paper) -> Result<Printed, Refusal> {
    let letters = Lettering::load().map_err(writer)?;
    let running = Running::of_parts(&list.running, &list.title);
    let size = paper.size_mm();
    let mut flow = Flow::new(&letters, size, &running);
    let line = letters.fit(Face::Title, pt(24.0), &list.title, flow.width());
    flow.y += 1.2 * pt(24.0);
    let at = Point::new(MARGIN, flow.y);
    flow.now.words(PAPER, line, at, Role::Heading(1));
    flow.y += 3.0;
    flow.paragraph(Face::Text, BODY, &list.lead);
    for section in &list.sections {
        if !section.heading.is_empty() {
            flow.heading(&section.heading);
        }
        let columns: Vec<flow::Column<'_>> = section
            .columns
            .iter()
            .map(|c| flow::Column {
                head: &c.head,
                share: c.share,
                is_right: c.is_right,
            })
            .collect();
        flow.table(&columns, &section.rows);
        for note in &section.notes {
            flow.paragraph(Face::Text, NOTE, note);
        }
    }
    let pages = flow.finish();
    let title = format!("{}: {}", list.title, running.text());
    let mut book = Book::new(&title, &list.title).map_err(writer)?;
    for (i, page) in pages.iter().enumerate() {
        let entry = match i {
            0 => list.title.clone(),
            i => format!("{} ({})", list.title, i + 1),
        };
        book.page(size, &entry, &[(View::page((1.0, 1.0)), &page.inks)])
            .map_err(writer)?;
    }
    let (bytes, undrawn) = book.finish().map_err(writer)?;
    Ok(Printed {
        bytes,
        pages: pages.len(),
        tiles: None,
        undrawn,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn list(rows: usize) -> List {
        List {
            title: "Shopping list".into(),
            running: vec!["Winter one-piece".into(), String::new(), "version 3".into()],
            lead: "What the suit takes.".into(),
            sections: vec![Section {
                heading: "To buy".into(),
                columns: vec![Column::left("What", 3.0), Column::right("To buy", 1.0)],
                rows: (0..rows).map(|i| vec![format!("Ring {i}"), "2".into()]).collect(),
                notes: vec!["Coated ones.".into()],
            }],
        }
    }

    #[test]
    fn a_long_list_goes_on_on_the_next_page_and_is_the_same_every_time() {
        let short = pdf(&list(3), Paper::A4).unwrap();
        assert_eq!((short.pages, short.undrawn.as_slice()), (1, [].as_slice()));
        let long = pdf(&list(80), Paper::Letter).unwrap();
        assert!(long.pages > 1, "{}", long.pages);
        assert_eq!(long.bytes, pdf(&list(80), Paper::Letter).unwrap().bytes);
        assert!(pdf(&list(0), Paper::A4).is_ok());
    }
}
