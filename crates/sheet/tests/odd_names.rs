//! Whatever a suit, a wearer or a cloth is called, there is a page.

#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod suits;

use draft::Design;
use proptest::prelude::*;
use sheet::{Options, Paper, PieceForm, Roll, dxf, json, pdf, svg};

fn every_output(suit: &suits::Suit) -> usize {
    let pattern = suit.pattern();
    let tiled = pdf::tiled(&pattern, Paper::A4, &Options::default()).unwrap();
    let single = pdf::single(&pattern, Roll::Inch36, &Options::default()).unwrap();
    assert_eq!(single.pages, 1);
    let text = svg::pattern(&pattern, PieceForm::Whole).unwrap();
    roxmltree::Document::parse(&text).unwrap();
    json::pattern(&pattern, PieceForm::Whole).unwrap();
    let plain = dxf::exchange(&pattern, PieceForm::Whole).unwrap();
    assert!(plain.is_ascii());
    dxf::cutter(&pattern, PieceForm::Whole).unwrap();
    let read = lopdf::Document::load_mem(&tiled.bytes).unwrap();
    assert_eq!(read.get_pages().len(), tiled.pages);
    tiled.tiles.unwrap().printed
}

fn named(name: &str) -> suits::Suit {
    let mut suit = suits::suit(name, name, "child8", &Design::default());
    suit.version = name.to_owned();
    suit.cloth.shell.cloth = name.to_owned();
    suit.notes = vec![name.to_owned()];
    suit.cut_list = make::cut_list(&suit.draft, &suit.cloth);
    suit
}

#[test]
fn names_that_break_pages_elsewhere() {
    let plain = every_output(&named("Ines"));
    let long = "a".repeat(3000);
    let many = "Wintermeerschwimmen ".repeat(200);
    for name in [
        "",
        " ",
        "\u{0}\u{7}\n\t\r",
        "👩\u{200D}👩\u{200D}👧\u{200D}👦 🏊🏽‍♀️",
        "שלום עולם",
        "مرحبا بالعالم",
        "Z\u{0351}\u{036B}\u{0343}a\u{0357}l\u{0304}g\u{0308}o",
        "\u{202E}reversed\u{202C}",
        "</text><script>&amp;]]>",
        "%%EOF\nendobj (unbalanced ) \\",
        "\u{FFFE}\u{FFFF}\u{FEFF}\u{E000}",
        &long,
        &many,
    ] {
        assert_eq!(
            every_output(&named(name)),
            plain,
            "pieces do not move for a name: {name:.20?}"
        );
    }
}

#[test]
fn what_has_no_letters_here_is_reported() {
    let suit = named("שלום 🏊");
    let printed = pdf::tiled(&suit.pattern(), Paper::A4, &Options::default()).unwrap();
    assert_eq!(printed.undrawn, ['ו', 'ל', 'ם', 'ש', '🏊']);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, failure_persistence: None, rng_seed: proptest::test_runner::RngSeed::Fixed(7), ..ProptestConfig::default() })]

    #[test]
    fn any_name_prints(name in "\\PC{0,80}|[\\u{0}-\\u{10FFFF}]{0,40}") {
        every_output(&named(&name));
    }
}
