//! Sets the booklets of an invented one-piece in every language, edition and paper, and says how long each took.
//!
//! ```text
//! cargo run --release -p slackwater-booklet --example set -- out/booklets
//! ```
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a command for people: writes files, says what it did"
)]

#[path = "../tests/common/mod.rs"]
mod common;

use std::time::Instant;

use booklet::{Choice, Edition, pdf};
use sheet::Paper;
use words::Language;

fn main() {
    let folder = std::env::args().nth(1).expect("a folder to write to");
    std::fs::create_dir_all(&folder).unwrap();
    let suit = common::worked(
        draft::Style::ONE_PIECE,
        body::BodyForm::Woman,
        make::Preset::ZigzagOverlocker.workroom(),
    )
    .unwrap();
    for language in Language::ALL {
        for (edition, word) in [(Edition::Maker, ""), (Edition::Class, "-class")] {
            for (paper, name) in [(Paper::A4, "a4"), (Paper::Letter, "letter")] {
                let start = Instant::now();
                let document = suit.booklet(Choice { edition, language });
                let composed = start.elapsed();
                let (bytes, pages) = pdf(&document, paper).unwrap();
                let path = format!("{folder}/booklet{word}-{}-{name}.pdf", language.tag());
                println!(
                    "{path}: {pages} pages, {} kB, composed in {composed:.0?}, in all {:.0?}",
                    bytes.len() / 1000,
                    start.elapsed()
                );
                std::fs::write(path, bytes).unwrap();
            }
        }
    }
    let memory = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    for line in memory.lines().filter(|l| l.starts_with("VmHWM")) {
        println!("greatest memory: {line}");
    }
}
