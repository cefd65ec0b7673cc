//! Sets the booklets of invented suits in every language, edition and paper, says how long each took, and draws the covers of
//! all styles on one page to look at.
//!
//! ```text
//! cargo run --release -p slackwater-booklet --features pdf --example set -- out/booklets one-piece tankini
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
use draft::Style;
use sheet::Paper;
use words::Language;

fn main() {
    let mut arguments = std::env::args().skip(1);
    let folder = arguments.next().expect("a folder to write to");
    let wanted: Vec<String> = arguments.collect();
    std::fs::create_dir_all(&folder).unwrap();
    let mut covers = String::from("<!DOCTYPE html><meta charset=utf-8><body style=\"columns:3\">");
    for style in Style::all() {
        let key = style.key();
        let form = style.spec().wearers[0];
        let workroom = make::Preset::ZigzagOverlocker.workroom();
        let Some(suit) = common::worked(*style, form, workroom) else {
            println!("{key} is refused on this body");
            continue;
        };
        let cover = suit.booklet(Choice::default()).cover.figure;
        covers.push_str(&format!(
            "<div style=\"break-inside:avoid\"><p>{key}</p>{}</div>",
            cover.svg
        ));
        if !wanted.iter().any(|w| w == key) {
            continue;
        }
        for language in Language::ALL {
            for (edition, word) in [(Edition::Maker, ""), (Edition::Class, "-class")] {
                for (paper, name) in [(Paper::A4, "a4"), (Paper::Letter, "letter")] {
                    let start = Instant::now();
                    let document = suit.booklet(Choice { edition, language });
                    let composed = start.elapsed();
                    let (bytes, pages) = pdf(&document, paper).unwrap();
                    let path = format!("{folder}/{key}{word}-{}-{name}.pdf", language.tag());
                    println!(
                        "{path}: {pages} pages, {} kB, composed in {composed:.0?}, in all {:.0?}",
                        bytes.len() / 1000,
                        start.elapsed()
                    );
                    std::fs::write(path, bytes).unwrap();
                }
            }
        }
    }
    std::fs::write(format!("{folder}/covers.html"), covers).unwrap();
}
