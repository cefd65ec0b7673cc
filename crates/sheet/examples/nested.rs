//! Writes a nested set of women's sizes as PDF and SVG, to look at.
//!
//! `cargo run -p slackwater-sheet --example nested -- FOLDER [whole|half]`

#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a tool with arguments that writes files, not domain code"
)]

use std::path::PathBuf;

use body::Dimension;
use draft::Design;
use range::{BuiltIn, Range};
use sheet::nest::{NestSheet, pdf, svg};
use sheet::{PieceForm, Roll};
use units::{Mm, Silent};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut arguments = std::env::args().skip(1);
    let folder = PathBuf::from(arguments.next().ok_or("say where to write")?);
    let form = match arguments.next().as_deref() {
        Some("half") => PieceForm::Half,
        _ => PieceForm::Whole,
    };
    let table = BuiltIn::Women
        .table()?
        .with_same(Dimension::Stature, Mm::from_cm(168.0));
    let range = Range::draft(&table, &fixtures::slate(), &Design::default(), &Silent);
    let nest = range.nest();
    let size_notes: Vec<String> = range
        .drafted()
        .map(|(_, size)| {
            let told = |d: Dimension, name: &str| {
                size.body.mm(d).map_or_else(
                    || format!("{name} not known"),
                    |mm| {
                        format!(
                            "{name} {} ({})",
                            Mm::new(mm).to_cm_text(),
                            Mm::new(mm).to_inch_text()
                        )
                    },
                )
            };
            [
                told(Dimension::BustGirth, "bust"),
                told(Dimension::WaistGirth, "waist"),
                told(Dimension::HipGirth, "hip"),
            ]
            .join(", ")
        })
        .collect();
    let notes = [table.provenance.clone()];
    let sheet = NestSheet {
        title: "Harbour one-piece, women",
        subtitle: "Slate tricot, 85 % around, 60 % lengthwise (hand); regular fit; stature 168 cm",
        nest: &nest,
        size_notes: &size_notes,
        notes: &notes,
        form,
        roll: Roll::Inch42,
    };
    let printed = pdf(&sheet)?;
    std::fs::write(folder.join("nest.pdf"), &printed.bytes)?;
    for (i, text) in svg(&sheet)?.iter().enumerate() {
        std::fs::write(folder.join(format!("nest-{}.svg", i + 1)), text)?;
    }
    println!("{} pages, {} bytes", printed.pages, printed.bytes.len());
    Ok(())
}
