//! The document of every style, in every language and edition: nothing unsaid, nothing given away, drawings and pages well formed.
#![allow(clippy::unwrap_used, reason = "tests")]

mod common;

use std::collections::BTreeSet;

use booklet::{Block, Booklet, Choice, Edition, Figure, html};
use draft::Style;
use make::Preset;
use words::Language;

fn choices() -> impl Iterator<Item = Choice> {
    Language::ALL
        .into_iter()
        .flat_map(|language| [Edition::Maker, Edition::Class].map(|edition| Choice { edition, language }))
}

fn every_suit() -> Vec<common::Worked> {
    let mut all = Vec::new();
    for (i, style) in Style::all().iter().enumerate() {
        let presets = Preset::ALL;
        for form in style.spec().wearers {
            all.extend(common::worked(
                *style,
                *form,
                presets[i % presets.len()].workroom(),
            ));
        }
    }
    all
}

fn kept(block: &Block) -> Vec<&Block> {
    match block {
        Block::Keep { blocks } => blocks.iter().collect(),
        one => vec![one],
    }
}

fn figures(booklet: &Booklet) -> Vec<&Figure> {
    let mut found = vec![&booklet.cover.figure];
    let blocks = booklet.chapters.iter().flat_map(|c| &c.blocks);
    for block in blocks.flat_map(kept) {
        match block {
            Block::Figures { figures } => found.extend(figures),
            Block::Step(step) => found.extend(&step.figures),
            Block::Table(table) => found.extend(table.rows.iter().flatten().filter_map(|cell| match cell {
                booklet::Cell::Figure(figure) => Some(figure),
                _ => None,
            })),
            _ => {}
        }
    }
    found
}

#[test]
fn every_style_says_everything_in_every_language() {
    let suits = every_suit();
    assert!(suits.len() >= 25, "{} suits drafted", suits.len());
    let mut unsaid = BTreeSet::new();
    for suit in &suits {
        for choice in choices() {
            let booklet = suit.booklet(choice);
            let text = serde_json::to_string(&booklet).unwrap();
            for (at, _) in text.match_indices('‹') {
                let key: String = text[at..].chars().take_while(|c| *c != '›').collect();
                unsaid.insert(key);
            }
            assert!(
                !text.contains("{$") && !text.contains("{ $"),
                "a variable was not filled in"
            );
            for figure in figures(&booklet) {
                assert!(figure.alt.len() > 10, "a drawing without words");
                let read = roxmltree::Document::parse(&figure.svg).unwrap();
                assert!(
                    !figure.svg.contains("NaN") && !figure.svg.contains("inf"),
                    "{}",
                    figure.svg
                );
                assert!(
                    figure.width_mm <= 160.0,
                    "{} mm wide: {}",
                    figure.width_mm,
                    figure.alt
                );
                let small = read
                    .descendants()
                    .filter_map(|n| n.attribute("font-size")?.parse::<f64>().ok())
                    .fold(f64::INFINITY, f64::min);
                // 8 pt is 2.82 mm: nothing on paper is smaller (docs of the look).
                assert!(small > 2.8, "{small} mm letters: {}", figure.alt);
            }
        }
    }
    assert!(unsaid.is_empty(), "{unsaid:?}");
}

/// Parts of a suit that were not translated keep their English name: there is none.
#[test]
fn every_part_of_every_style_has_a_german_name() {
    let mut english = BTreeSet::new();
    for suit in every_suit() {
        let booklet = suit.booklet(Choice {
            edition: Edition::Maker,
            language: Language::German,
        });
        let text = serde_json::to_string(&booklet).unwrap();
        let pieces = suit.draft.pieces.iter().map(|p| p.name.clone());
        let measures = suit.draft.finished.iter().map(|m| m.name.clone());
        for name in pieces.chain(measures).filter(|n| *n != "Band" && *n != "Tankini") {
            if text.contains(&format!("\"{name}\"")) {
                english.insert(name);
            }
        }
    }
    assert!(english.is_empty(), "{english:?}");
}

#[test]
fn a_class_does_not_see_the_wearer() {
    for suit in every_suit() {
        for language in Language::ALL {
            let booklet = suit.booklet(Choice {
                edition: Edition::Class,
                language,
            });
            let text = serde_json::to_string(&booklet).unwrap();
            assert!(!text.contains("Zephyrine") && !text.contains("1a2b3c4d"));
            for level in &suit.draft.levels {
                for mm in [level.body_mm, level.pattern_mm] {
                    let cm = format!("{:.1}\u{a0}cm", mm / 10.0);
                    let cm = if language == Language::German {
                        cm.replace('.', ",")
                    } else {
                        cm
                    };
                    assert!(mm < 300.0 || !text.contains(&cm), "{cm} is told");
                }
            }
        }
    }
}

#[test]
fn the_same_suit_gives_the_same_document() {
    let one = common::worked(Style::ONE_PIECE, body::BodyForm::Woman, Preset::Zigzag.workroom()).unwrap();
    let two = common::worked(Style::ONE_PIECE, body::BodyForm::Woman, Preset::Zigzag.workroom()).unwrap();
    for choice in choices() {
        assert_eq!(one.booklet(choice), two.booklet(choice));
    }
}

#[test]
fn pages_are_well_formed_and_ask_for_nothing_outside() {
    for suit in every_suit() {
        let booklet = suit.booklet(Choice::default());
        let files = html(&booklet);
        let names: BTreeSet<&str> = files.iter().map(|f| f.name.as_str()).collect();
        assert_eq!(names.len(), files.len());
        let page = std::str::from_utf8(&files[0].bytes).unwrap();
        let options = roxmltree::ParsingOptions {
            allow_dtd: true,
            ..Default::default()
        };
        let read = roxmltree::Document::parse_with_options(page, options).unwrap();
        let with = |attribute: &'static str| read.descendants().filter_map(move |n| n.attribute(attribute));
        for link in with("href") {
            let inside = link
                .strip_prefix('#')
                .is_some_and(|id| with("id").any(|i| i == id));
            assert!(inside || names.contains(link), "{link}");
        }
        let ids: Vec<&str> = with("id").collect();
        assert_eq!(
            ids.iter().collect::<BTreeSet<_>>().len(),
            ids.len(),
            "an id stands twice"
        );
        assert!(
            !page.contains("<script") && !page.contains("http:")
                || page.matches("http:").count() == page.matches("xmlns").count()
        );
        assert_eq!(read.descendants().filter(|n| n.has_tag_name("h1")).count(), 1);
        for drawing in read
            .descendants()
            .filter(|n| n.has_tag_name(("http://www.w3.org/2000/svg", "svg")))
        {
            let is_said = drawing.attribute("aria-label").is_some_and(|l| !l.is_empty());
            assert!(is_said || drawing.attribute("aria-hidden") == Some("true"));
        }
    }
}
