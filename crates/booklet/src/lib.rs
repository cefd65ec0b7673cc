//! The booklet that goes with a suit: what to cut, prove, sew, try on and care for, set for paper or as pages to read.
//!
//! [`compose`] turns a worked-out suit into a plain document, [`Booklet`]: chapters of headings, paragraphs, lists, tables,
//! figures, blanks to fill in. Two writers set that same document: `pdf` for A4 and Letter, [`html`] as one folder of
//! files. Neither knows anything of swimwear, so what is said on paper and on a page cannot differ.
//!
//! **Shapes and units.** The suit comes in mm; the document holds finished text in one language and drawings as SVG in mm of
//! the page. The same suit, edition and language give the same bytes.
//! **Limits.** The typesetter is behind the feature `pdf`, because it is the longest build of all.

mod compose;
mod draw;
mod model;
mod write;

pub use compose::{Choice, Edition, Plan, Suit, compose, sentence};
pub use model::{
    Align, Block, Booklet, Callout, Cell, Chapter, Column, Cover, Fact, Figure, Sign, Step, Table,
};
#[cfg(feature = "pdf")]
pub use write::{Fault, pdf};
pub use write::{File, assets, html, page};
