//! The command line.

pub mod console;
pub mod folder;
mod table;
