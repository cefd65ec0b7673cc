//! The document of every style, in every language and edition: nothing unsaid, nothing given away, drawings and pages well formed.
#![allow(clippy::unwrap_used, reason = "tests")]

mod common;

use std::collections::BTreeSet;
use std::sync::LazyLock;

use booklet::{Block, Booklet, Choice, Edition, Figure, html};
use draft::Style;
use make::Preset;
use words::Language;

fn choices() -> impl Iterator<Item = Choice> {
    Language::ALL
        .into_iter()
        .flat_map(|language| [Edition::Maker, Edition::Class].map(|edition| Choice { edition, language }))
}

/// A suit of every style on every form it is for, each in the next of the preset workrooms; drafted once.
fn every_suit() -> &'static [common::Worked] {
    static SUITS: LazyLock<Vec<common::Worked>> = LazyLock::new(|| {
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
    });
    &SUITS
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
    for suit in suits {
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

/// Lengths of the wearer, and every length that follows from them, mm.
fn own_lengths(suit: &common::Worked) -> Vec<f64> {
    let mut own: Vec<f64> = body::Dimension::ALL
        .into_iter()
        .filter_map(|d| suit.body.mm(d))
        .collect();
    own.extend(suit.draft.levels.iter().flat_map(|l| [l.body_mm, l.pattern_mm]));
    own.extend(suit.draft.finished.iter().map(|f| f.value_mm));
    own.extend(suit.draft.open_edges.iter().map(draft::OpenEdge::length_mm));
    own.extend(
        suit.fit
            .way_in
            .iter()
            .flat_map(|o| [o.rest.get(), o.passes.get()]),
    );
    for plan in &suit.elastic {
        own.push(plan.cut_length.get());
        own.extend(plan.arcs.iter().flat_map(|a| {
            [
                a.edge.get(),
                a.elastic.get(),
                a.edge_mark.get(),
                a.elastic_mark.get(),
            ]
        }));
    }
    own.extend(suit.making.scraps.iter().filter_map(|s| Some(s.pull_to?.get())));
    own
}

/// Whether the text has that figure, and not as a part of a longer one.
fn tells(text: &str, figure: &str) -> bool {
    let is_part = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit() || matches!(c, '.' | ','));
    text.match_indices(figure)
        .any(|(at, _)| !is_part(text[..at].chars().next_back()))
}

/// No dimension of the wearer, nothing measured on the suit and no length that follows from either: in both languages, in every
/// unit, in text and in drawings. In centimetres there is no length with a decimal at all: what the advice says has none.
#[test]
fn a_class_does_not_see_the_wearer() {
    use units::LengthUnit::{Cm, In, Mm};
    for (i, suit) in every_suit().iter().enumerate() {
        let own = own_lengths(suit);
        // The other units are written by the same lines of code.
        let units: &[_] = if i % 5 == 0 { &[Cm, Mm, In] } else { &[Cm] };
        assert!(own.len() > 25, "{} lengths", own.len());
        for language in Language::ALL {
            let words = words::Words::new(language);
            let edition = |edition| Choice { edition, language };
            for &unit in units {
                let text = serde_json::to_string(&suit.booklet_in(edition(Edition::Class), unit)).unwrap();
                assert!(!text.contains("Zephyrine") && !text.contains("1a2b3c4d"));
                // Short ones may be the same as a setting's.
                for mm in own
                    .iter()
                    .filter(|mm| **mm > if unit == Cm { 20.0 } else { 150.0 })
                {
                    let figure = words.length(*mm, unit).main;
                    assert!(!tells(&text, &figure), "{figure} is told: {:?}", suit.draft.style);
                }
                if unit == Cm {
                    let is_decimal = |at: usize| {
                        let number = text[..at].trim_end_matches('\u{a0}');
                        let end: Vec<char> = number.chars().rev().take(2).collect();
                        matches!(end.as_slice(), [digit, '.' | ','] if digit.is_ascii_digit())
                    };
                    let told = text.match_indices("cm").find(|(at, _)| is_decimal(*at));
                    assert!(
                        told.is_none(),
                        "{:?}",
                        told.map(|(at, _)| &text[at.saturating_sub(60)..at + 2])
                    );
                }
            }
            // The maker's own edition tells them: the search would have found them.
            let maker = serde_json::to_string(&suit.booklet(edition(Edition::Maker))).unwrap();
            let found = own
                .iter()
                .filter(|mm| tells(&maker, &words.length(**mm, Cm).main));
            assert!(found.count() > 20, "{:?}", suit.draft.style);
        }
    }
}

/// The rulers of a class are alike for every body; a maker's are her own.
#[test]
fn a_class_does_not_see_the_wearers_proportions() {
    let rulers = |crotch: f64, edition: Edition| -> Vec<String> {
        let body = common::body_with(body::BodyForm::Woman, &[(body::Dimension::CrotchLength, crotch)]);
        let suit = common::worked_on(body, Style::ONE_PIECE, Preset::Zigzag.workroom()).unwrap();
        let booklet = suit.booklet(Choice {
            edition,
            language: Language::English,
        });
        let elastic = booklet.chapters.iter().find(|c| c.id == "elastic").unwrap();
        let figures = elastic.blocks.iter().flat_map(kept).filter_map(|b| match b {
            Block::Figures { figures } => Some(figures),
            _ => None,
        });
        figures.flatten().map(|f| f.svg.clone()).collect()
    };
    assert_eq!(rulers(0.0, Edition::Class), rulers(25.0, Edition::Class));
    assert_ne!(rulers(0.0, Edition::Maker), rulers(25.0, Edition::Maker));
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

/// What a cover must show of a style beside its pieces: ties and straps, legs side by side, nothing of the other half peeping out.
#[test]
fn covers_lie_within_their_frame() {
    for suit in every_suit() {
        let figure = suit.booklet(Choice::default()).cover.figure;
        let read = roxmltree::Document::parse(&figure.svg).unwrap();
        let paths: Vec<&str> = read.descendants().filter_map(|n| n.attribute("d")).collect();
        assert!(paths.len() > 6, "{:?}: {} lines", suit.draft.style, paths.len());
        for path in paths {
            let numbers = path.split(|c: char| c.is_ascii_alphabetic() || c == ' ');
            let numbers: Vec<f64> = numbers.filter_map(|n| n.parse().ok()).collect();
            for at in numbers.chunks_exact(2) {
                let (x, y) = (at[0], at[1]);
                assert!(
                    (0.0..=figure.width_mm).contains(&x) && (0.0..=figure.height_mm).contains(&y),
                    "{:?}: {x} {y} lies outside",
                    suit.draft.style
                );
            }
        }
    }
}
