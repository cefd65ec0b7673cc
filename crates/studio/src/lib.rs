//! The studio: suit files, and the command line around drafting, judging and printing.
//!
//! Nothing below knows that the studio exists. Files, environment, clock and threads live here and nowhere else.

pub mod app;
pub mod at_hand;
pub mod cautions;
pub mod class;
pub mod cli;
pub mod document;
pub mod hand_out;
pub mod http;
pub mod laying;
pub mod laying_kept;
pub mod order;
pub mod paper;
pub mod report;
pub mod server;
pub mod suit_file;
pub mod version;
pub mod view;
pub mod workroom_file;
pub mod worn;
