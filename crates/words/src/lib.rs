//! Everything the booklet and the Sew section say, in every language the booklet is printed in.
//!
//! Sentences stand in Fluent files, `en/*.ftl` and `de/*.ftl`, a file a subject; code names them by key and gives the
//! quantities, written as that language writes them. A language is complete or it is not offered: tests hold every key and
//! every variable of one language against the other.
//!
//! **Shapes and units.** Lengths come in mm, ratios as ratios; text comes out.

mod language;
mod quantity;
mod say;
mod slug;

pub use language::Language;
pub use quantity::Quantity;
pub use say::{Value, Words};
pub use slug::slug;
