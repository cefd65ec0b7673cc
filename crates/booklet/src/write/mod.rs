//! The writers: the same document as PDF for paper and as a folder of pages.

mod html;
#[cfg(feature = "pdf")]
mod typeset;

pub use html::{File, assets, html, page};
#[cfg(feature = "pdf")]
pub use typeset::{Fault, pdf};
