//! Prints a range: the size chart, what each size's branches are, how it grows and what was refused.
//!
//! `cargo run -p slackwater-range --example range_table -- women [stature in cm]`, or `men`, `children`.

#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a tool with arguments that prints, not domain code"
)]

use body::Dimension;
use draft::Design;
use range::{BuiltIn, Range};
use units::{LengthUnit, Mm, Silent};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut arguments = std::env::args().skip(1);
    let which = arguments.next().unwrap_or_else(|| "women".to_owned());
    let which = BuiltIn::from_key(&which).ok_or("say women, men or children")?;
    let mut table = which.table()?;
    if let Some(stature) = arguments.next() {
        let cm: f64 = stature.parse()?;
        table = table.with_same(Dimension::Stature, Mm::from_cm(cm));
    }
    let cloth = fixtures::slate();
    let range = Range::draft(&table, &cloth, &Design::default(), &Silent);
    println!("{}\n{}\n", table.name, table.provenance);
    print!("{}", range.chart().to_text(LengthUnit::Cm));
    println!();
    for (name, why) in range.refused() {
        println!("size {name} refused: {why}");
    }
    for change in range.branches().changes {
        println!("{} to {}: {}", change.from, change.to, change.words());
    }
    let growth = range.growth();
    println!("\ngrowth over {}", growth.sizes.join(" "));
    for key in &growth.keys {
        let values: Vec<String> = key
            .values
            .iter()
            .map(|v| v.map_or("-".to_owned(), |v| format!("{v:.1}")))
            .collect();
        let most = key.most_uneven.map_or("-".to_owned(), |v| format!("{v:.2}"));
        println!(
            "{:<26} {:>4} {}  second difference at most {most}",
            key.key.name(),
            key.key.unit(),
            values.join(" ")
        );
    }
    for fault in &growth.faults {
        println!("{}", fault.words());
    }
    let nest = range.nest();
    for piece in &nest.pieces {
        println!(
            "{}: {} sizes, {}",
            piece.name,
            piece.layers.len(),
            piece.stacked.words()
        );
    }
    Ok(())
}
