//! Tiled paper read back: sizes, scale, joins, layers, letters. The reader shares nothing with the writer.

#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod readback;
mod suits;

use std::collections::BTreeMap;

use draft::Design;
use readback::{Page, Painted, pages};
use sheet::{Fault, MeasuredSquare, Options, Paper, PieceForm, json, pdf};
use units::Mm;

/// `f32` points on a page of 300 mm are good to 0.00002 mm; 0.002 mm leaves room for sums.
const TOLERANCE_MM: f64 = 0.002;

fn squares(page: &Page) -> Vec<(f64, f64)> {
    page.paths
        .iter()
        .filter(|p| p.is_closed && p.is_stroked && p.points.len() <= 5)
        .map(|p| {
            let b = p.bounds();
            (b.2 - b.0, b.3 - b.1)
        })
        .collect()
}

fn has_square(page: &Page, w: f64, h: f64) -> bool {
    squares(page)
        .iter()
        .any(|s| (s.0 - w).abs() < TOLERANCE_MM && (s.1 - h).abs() < TOLERANCE_MM)
}

#[test]
fn pages_have_the_size_of_their_paper() {
    let suit = suits::maren();
    // Source: ISO 216 for A4 and A3; 8.5 x 11 in for letter.
    for (paper, w, h) in [
        (Paper::A4, 210.0, 297.0),
        (Paper::Letter, 215.9, 279.4),
        (Paper::A3, 297.0, 420.0),
    ] {
        let printed = pdf::tiled(&suit.pattern(), paper, &Options::default()).unwrap();
        let pages = pages(&printed.bytes);
        assert_eq!(pages.len(), printed.pages);
        for page in pages {
            assert!(
                (page.size.0 - w).abs() < TOLERANCE_MM && (page.size.1 - h).abs() < TOLERANCE_MM,
                "{:?}",
                page.size
            );
        }
    }
}

#[test]
fn the_first_page_has_both_squares_true() {
    let suit = suits::maren();
    let printed = pdf::tiled(&suit.pattern(), Paper::A4, &Options::default()).unwrap();
    let first = &pages(&printed.bytes)[0];
    assert!(has_square(first, 100.0, 100.0));
    assert!(has_square(first, 101.6, 101.6));
}

#[test]
fn a_measured_printer_is_undone_on_every_page() {
    let suit = suits::maren();
    let square = MeasuredSquare {
        across: Mm::new(99.4),
        down: Mm::new(100.2),
    };
    let options = Options {
        printer: Some(square),
        ..Options::default()
    };
    for paper in [Paper::A4, Paper::Letter] {
        let printed = pdf::tiled(&suit.pattern(), paper, &options).unwrap();
        let all = pages(&printed.bytes);
        // What this printer does to the page is 0.994 across and 1.002 down.
        assert!(has_square(&all[0], 100.0 / 0.994, 100.0 / 1.002));
        for page in all.iter().filter(|p| p.name.starts_with("Tile")) {
            for p in page.paths.iter().filter(|p| is_rule(p)) {
                let b = p.bounds();
                let long = ((b.2 - b.0) * 0.994).max((b.3 - b.1) * 1.002);
                assert!(
                    (long - 100.0).abs() < TOLERANCE_MM,
                    "a rule would print {long} mm long"
                );
            }
            let (x0, y0, x1, y1) = frame(page).bounds();
            assert!(x0 >= 9.99 && x1 <= page.size.0 - 9.99 && y0 >= 9.99 && y1 <= page.size.1 - 9.99);
        }
    }
}

/// A rule's frame: a closed path 2.6 mm thick and 100 mm long.
fn is_rule(p: &Painted) -> bool {
    let b = p.bounds();
    let (w, h) = (b.2 - b.0, b.3 - b.1);
    p.is_stroked && p.is_closed && w.min(h) < 3.0 && w.max(h) > 90.0
}

/// The frame of a tile: the largest closed stroked rectangle in the layer of page frames.
fn frame(page: &Page) -> &Painted {
    page.paths
        .iter()
        .filter(|p| p.is_closed && p.is_stroked && p.layers.iter().any(|l| l == "page frames and rules"))
        .max_by(|a, b| {
            let area = |p: &Painted| (p.bounds().2 - p.bounds().0) * (p.bounds().3 - p.bounds().1);
            area(a).total_cmp(&area(b))
        })
        .unwrap()
}

#[test]
fn every_tile_has_rules_of_100_mm_along_two_margins() {
    // What is usually left white, what a borderless one leaves, and the most.
    for (edge, white) in [(None, 5.0), (Some(2.0), 2.0), (Some(12.0), 12.0)] {
        rules_clear_the_white_edge(edge, white);
    }
}

fn rules_clear_the_white_edge(edge: Option<f64>, white: f64) {
    let suit = suits::maren();
    let options = Options {
        white_edge: edge.map(Mm::new),
        ..Options::default()
    };
    let printed = pdf::tiled(&suit.pattern(), Paper::Letter, &options).unwrap();
    let all = pages(&printed.bytes);
    let tiles: Vec<&Page> = all.iter().filter(|p| p.name.starts_with("Tile")).collect();
    assert_eq!(tiles.len(), printed.tiles.unwrap().printed);
    for page in tiles {
        let mut ways = Vec::new();
        for p in page.paths.iter().filter(|p| is_rule(p)) {
            let b = p.bounds();
            let (w, h) = (b.2 - b.0, b.3 - b.1);
            assert!((w.max(h) - 100.0).abs() < TOLERANCE_MM, "{w} x {h}");
            // On the page, and clear of what a printer cannot reach.
            assert!(
                b.0 > white && b.1 > white && b.2 < page.size.0 - white && b.3 < page.size.1 - white,
                "{b:?}, white edge {white}"
            );
            ways.push(w > h);
        }
        ways.sort_unstable();
        assert_eq!(ways, [false, true], "{}: one rule across, one down", page.name);
    }
}

/// Row and column of a tile by its name: `Tile B3`.
fn place(name: &str) -> Option<(usize, usize)> {
    let code = name.strip_prefix("Tile ")?;
    let letters: String = code.chars().take_while(char::is_ascii_uppercase).collect();
    let row = letters.bytes().fold(0, |n, b| n * 26 + usize::from(b - b'A') + 1) - 1;
    let column: usize = code[letters.len()..].parse().ok()?;
    Some((row, column - 1))
}

/// Tiles put together by their names give every cut line of the draft, whole and at true size, wherever it is drawn.
#[test]
fn joined_tiles_show_the_cut_lines_of_the_draft() {
    let suit = suits::maren();
    let pattern = suit.pattern();
    let value: serde_json::Value =
        serde_json::from_str(&json::pattern(&pattern, PieceForm::Whole).unwrap()).unwrap();
    for paper in [Paper::A4, Paper::Letter, Paper::A3] {
        let printed = pdf::tiled(&pattern, paper, &Options::default()).unwrap();
        // By their first point on the sheet, rounded: the same piece drawn on several pages must coincide.
        let mut found: BTreeMap<(i64, i64), Vec<(f64, f64)>> = BTreeMap::new();
        for page in pages(&printed.bytes) {
            let Some((row, column)) = place(&page.name) else {
                continue;
            };
            let f = frame(&page).bounds();
            let step = (f.2 - f.0 - 10.0, f.3 - f.1 - 10.0);
            for p in page
                .paths
                .iter()
                .filter(|p| p.layers.iter().any(|l| l == "cutting lines"))
            {
                let on_sheet: Vec<(f64, f64)> = p
                    .points
                    .iter()
                    .map(|q| {
                        (
                            q.0 - f.0 + step.0 * column as f64,
                            q.1 - f.1 + step.1 * row as f64,
                        )
                    })
                    .collect();
                assert!(p.is_closed && (p.width - 0.6).abs() < 1e-3);
                let key = (
                    (on_sheet[0].0 * 10.0).round() as i64,
                    (on_sheet[0].1 * 10.0).round() as i64,
                );
                if let Some(before) = found.get(&key) {
                    for (a, b) in before.iter().zip(&on_sheet) {
                        let off = (a.0 - b.0).hypot(a.1 - b.1);
                        assert!(off < TOLERANCE_MM, "{}: pages disagree by {off} mm", page.name);
                    }
                } else {
                    found.insert(key, on_sheet);
                }
            }
        }
        let pieces = value["pieces"].as_array().unwrap();
        assert_eq!(found.len(), pieces.len());
        for piece in pieces {
            let drafted: Vec<(f64, f64)> = piece["cut_line"]
                .as_array()
                .unwrap()
                .iter()
                .map(|p| (p[0].as_f64().unwrap(), p[1].as_f64().unwrap()))
                .collect();
            let fits = found.values().any(|drawn| {
                drawn.len() == drafted.len()
                    && drawn.iter().zip(&drafted).all(|(d, p)| {
                        // Same shape, moved and turned over: x grows alike, y against each other.
                        let dx = (d.0 - drawn[0].0) - (p.0 - drafted[0].0);
                        let dy = (d.1 - drawn[0].1) + (p.1 - drafted[0].1);
                        dx.hypot(dy) < 2.0 * TOLERANCE_MM
                    })
            });
            assert!(fits, "{} is not on {} as drafted", piece["key"], paper.name());
        }
    }
}

#[test]
fn halves_leave_the_fold_uncut() {
    let suit = suits::maren();
    let options = Options {
        form: PieceForm::Half,
        ..Options::default()
    };
    let printed = pdf::tiled(&suit.pattern(), Paper::A4, &options).unwrap();
    let whole = pdf::tiled(&suit.pattern(), Paper::A4, &Options::default()).unwrap();
    assert!(printed.pages < whole.pages);
    for page in pages(&printed.bytes) {
        for p in page
            .paths
            .iter()
            .filter(|p| p.layers.iter().any(|l| l == "cutting lines"))
        {
            assert!(
                !p.is_closed,
                "{}: a half's cut line runs from fold to fold",
                page.name
            );
        }
    }
}

#[test]
fn the_same_suit_gives_the_same_bytes() {
    let suit = suits::maren();
    let once = pdf::tiled(&suit.pattern(), Paper::A4, &Options::default()).unwrap();
    let again = pdf::tiled(&suits::maren().pattern(), Paper::A4, &Options::default()).unwrap();
    assert!(once.bytes == again.bytes);
}

#[test]
fn everything_is_on_a_layer_and_no_letter_is_under_8_points() {
    let suit = suits::suit("Odile’s suit", "Odile", "large_cup", &Design::default());
    let printed = pdf::tiled(&suit.pattern(), Paper::A4, &Options::default()).unwrap();
    let all = pages(&printed.bytes);
    let mut seen = std::collections::BTreeSet::new();
    for page in &all {
        assert_eq!(page.outside_layers, 0, "{}", page.name);
        seen.extend(page.paths.iter().flat_map(|p| p.layers.clone()));
        for size in &page.letter_sizes {
            assert!(*size >= 8.0 * 25.4 / 72.0 - 1e-3, "{}: {size} mm", page.name);
        }
    }
    for layer in [
        "cutting lines",
        "seam lines",
        "marks and arrows",
        "page frames and rules",
        "shell",
    ] {
        assert!(seen.contains(layer), "no layer {layer} in {seen:?}");
    }
}

#[test]
fn a_viewer_is_told_not_to_scale_and_lists_the_layers() {
    let suit = suits::maren();
    let printed = pdf::tiled(&suit.pattern(), Paper::A4, &Options::default()).unwrap();
    let file = lopdf::Document::load_mem(&printed.bytes).unwrap();
    let catalog = file.catalog().unwrap();
    let preferences = catalog.get(b"ViewerPreferences").unwrap().as_dict().unwrap();
    assert_eq!(
        preferences.get(b"PrintScaling").unwrap().as_name().unwrap(),
        b"None"
    );
    assert!(catalog.get(b"Lang").is_ok() && catalog.get(b"StructTreeRoot").is_ok());
    let layers = catalog.get(b"OCProperties").unwrap().as_dict().unwrap();
    let order = layers
        .get(b"D")
        .unwrap()
        .as_dict()
        .unwrap()
        .get(b"Order")
        .unwrap()
        .as_array()
        .unwrap();
    assert_eq!(order.len(), 2, "by line and by cloth");
}

#[test]
fn what_is_printed_can_be_searched() {
    let mut suit = suits::maren();
    suit.wearer = "Ελλάδα Жанна".to_owned();
    let printed = pdf::tiled(&suit.pattern(), Paper::A4, &Options::default()).unwrap();
    assert!(printed.undrawn.is_empty());
    let text = lopdf::Document::load_mem(&printed.bytes)
        .unwrap()
        .extract_text(&[1])
        .unwrap();
    for words in [
        "one-piece",
        "Is it true to size?",
        "Slate tricot",
        "Ελλάδα",
        "Жанна",
    ] {
        assert!(text.contains(words), "`{words}` is not in {text}");
    }
}

#[test]
fn every_page_says_whose_it_is() {
    let mut suit = suits::maren();
    suit.name =
        "The club’s second trial of a one-piece for cold water, with a name that never ends".to_owned();
    let printed = pdf::tiled(&suit.pattern(), Paper::Letter, &Options::default()).unwrap();
    let file = lopdf::Document::load_mem(&printed.bytes).unwrap();
    for page in 1..=printed.pages as u32 {
        let text = file.extract_text(&[page]).unwrap();
        for words in ["The club’s second", "Maren", "version 2"] {
            assert!(text.contains(words), "page {page} does not say `{words}`: {text}");
        }
    }
}

#[test]
fn what_cannot_be_printed_is_said_all_at_once() {
    let mut suit = suits::maren();
    suit.draft.pieces[0].cut_line[3].x = f64::NAN;
    suit.draft.pieces[1].cut_line.truncate(2);
    let square = MeasuredSquare {
        across: Mm::new(92.0),
        down: Mm::new(f64::NAN),
    };
    let options = Options {
        printer: Some(square),
        ..Options::default()
    };
    let refusal = pdf::tiled(&suit.pattern(), Paper::A4, &options).unwrap_err();
    assert_eq!(refusal.faults.len(), 4, "{refusal}");
    assert!(matches!(&refusal.faults[0], Fault::BrokenPiece { piece } if piece == "front"));
    assert_eq!(
        refusal.faults[2].to_string(),
        "the 100 mm square measured 92.0 mm across the page; 97 to 103 mm can be corrected: print the first page at \
         100 % with no fit to page, and measure again"
    );
    suit.draft.pieces.clear();
    let refusal = pdf::tiled(&suit.pattern(), Paper::A4, &Options::default()).unwrap_err();
    assert_eq!(
        refusal.to_string(),
        "the draft has no pieces; there is nothing to print"
    );
}

#[test]
fn the_test_page_is_the_first_page_and_no_other() {
    let suit = suits::maren();
    let all = pages(
        &pdf::tiled(&suit.pattern(), Paper::A4, &Options::default())
            .unwrap()
            .bytes,
    );
    let alone = pages(
        &pdf::test_page(&suit.pattern(), Paper::A4, &Options::default())
            .unwrap()
            .bytes,
    );
    assert_eq!(alone.len(), 1);
    assert!(has_square(&alone[0], 100.0, 100.0) && has_square(&alone[0], 101.6, 101.6));
    assert_eq!(alone[0].paths.len(), all[0].paths.len());
}
