//! The booklet as PDF: it sets, passes the writer's PDF/UA-1 checks (or there is no file), and the same suit gives the same bytes.
#![cfg(feature = "pdf")]
#![allow(clippy::unwrap_used, reason = "tests")]

mod common;

use booklet::{Choice, Edition, pdf};
use draft::Style;
use make::Preset;
use sheet::Paper;
use words::Language;

#[test]
fn a_booklet_sets_on_both_papers_in_both_languages() {
    let suit = common::worked(Style::ONE_PIECE, body::BodyForm::Woman, Preset::Zigzag.workroom()).unwrap();
    for (language, edition, paper) in [
        (Language::English, Edition::Maker, Paper::A4),
        (Language::German, Edition::Class, Paper::Letter),
    ] {
        let document = suit.booklet(Choice { edition, language });
        let (bytes, pages) = pdf(&document, paper).unwrap();
        assert!(bytes.starts_with(b"%PDF-1.7") && pages >= 10, "{pages} pages");
        let has = |what: &[u8]| bytes.windows(what.len()).any(|w| w == what);
        assert!(has(b"/StructTreeRoot") && has(b"/Outlines"));
        assert!(
            has(format!("/Lang({})", language.tag()).as_bytes())
                || has(format!("/Lang ({})", language.tag()).as_bytes())
        );
        assert!(!has(b"/CreationDate"), "a date would make two files of one suit");
    }
}

#[test]
fn the_same_suit_gives_the_same_bytes() {
    let suit = common::worked(
        Style::BRIEF,
        body::BodyForm::Woman,
        Preset::Coverstitch.workroom(),
    )
    .unwrap();
    let document = suit.booklet(Choice::default());
    assert_eq!(
        pdf(&document, Paper::A4).unwrap(),
        pdf(&document, Paper::A4).unwrap()
    );
}
