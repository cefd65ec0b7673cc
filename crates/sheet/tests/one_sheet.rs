//! Plotter sheets and projections read back: sizes, squares, rules, and pieces whole on their sheet.

#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod readback;
mod suits;

use draft::{BackShape, BustShaping, Design, LiningCover, Skirt, SkirtJoin, SkirtKind};
use readback::{Page, Painted, pages};
use sheet::{Fault, MeasuredSquare, Options, PieceForm, Roll, pdf};
use units::Mm;

const TOLERANCE_MM: f64 = 0.002;

fn odile(kind: SkirtKind) -> suits::Suit {
    let design = Design {
        skirt: Some(Skirt {
            kind,
            join: SkirtJoin::Waist,
            cover: Mm::new(80.0),
        }),
        bust_shaping: BustShaping::Princess,
        lining: LiningCover::Full,
        ..Design::default()
    };
    suits::suit("Odile’s suit", "Odile", "large_cup", &design)
}

fn size(p: &Painted) -> (f64, f64) {
    let b = p.bounds();
    (b.2 - b.0, b.3 - b.1)
}

fn on_layer<'a>(page: &'a Page, name: &'a str) -> impl Iterator<Item = &'a Painted> {
    page.paths
        .iter()
        .filter(move |p| p.layers.iter().any(|l| l == name))
}

fn squares(page: &Page, w: f64, h: f64) -> usize {
    let like = |p: &&Painted| {
        let s = size(p);
        p.is_closed && p.is_stroked && (s.0 - w).abs() < TOLERANCE_MM && (s.1 - h).abs() < TOLERANCE_MM
    };
    page.paths.iter().filter(like).count()
}

/// Pieces lie on the sheet, clear of its edges and of each other's boxes' middles.
fn assert_pieces(page: &Page, margin: f64) -> usize {
    let cuts: Vec<&Painted> = on_layer(page, "cutting lines").collect();
    for cut in &cuts {
        let b = cut.bounds();
        assert!(
            b.0 >= margin && b.1 >= margin && b.2 <= page.size.0 - margin && b.3 <= page.size.1 - margin,
            "a piece leaves its sheet: {b:?} on {:?}",
            page.size
        );
    }
    for (i, a) in cuts.iter().enumerate() {
        for b in cuts.iter().skip(i + 1) {
            // Points of one against points of the other: sampled every half millimetre, so 9 mm is a kept gap of 10.
            let near = a
                .points
                .iter()
                .step_by(3)
                .flat_map(|p| {
                    b.points
                        .iter()
                        .step_by(3)
                        .map(move |q| (p.0 - q.0).hypot(p.1 - q.1))
                })
                .fold(f64::INFINITY, f64::min);
            assert!(near > 9.0, "two pieces are {near} mm apart");
        }
    }
    cuts.len()
}

#[test]
fn a_roll_is_one_page_as_wide_as_the_roll() {
    let suit = odile(SkirtKind::HalfCircle);
    // Source: 24, 36 and 42 in of 25.4 mm.
    for (roll, width) in [(Roll::Inch36, 914.4), (Roll::Inch42, 1066.8)] {
        let printed = pdf::single(&suit.pattern(), roll, &Options::default()).unwrap();
        let all = pages(&printed.bytes);
        assert_eq!((all.len(), printed.pages), (1, 1));
        assert!((all[0].size.0 - width).abs() < TOLERANCE_MM);
        assert_eq!(squares(&all[0], 100.0, 100.0), 1);
        assert_eq!(squares(&all[0], 101.6, 101.6), 1);
        assert_eq!(
            squares(&all[0], 400.0, 2.6) + squares(&all[0], 2.6, 400.0),
            2,
            "rules along two margins"
        );
        assert_eq!(assert_pieces(&all[0], 10.0), suit.draft.pieces.len());
        assert_eq!(all[0].outside_layers, 0);
    }
}

#[test]
fn a0_takes_as_many_sheets_as_it_needs_and_cuts_no_piece() {
    let suit = odile(SkirtKind::HalfCircle);
    let printed = pdf::single(&suit.pattern(), Roll::A0, &Options::default()).unwrap();
    let all = pages(&printed.bytes);
    assert!(all.len() > 1);
    let mut pieces = 0;
    for page in &all {
        assert!((page.size.0 - 841.0).abs() < TOLERANCE_MM && (page.size.1 - 1189.0).abs() < TOLERANCE_MM);
        assert_eq!(squares(page, 400.0, 2.6) + squares(page, 2.6, 400.0), 2);
        pieces += assert_pieces(page, 10.0);
    }
    assert_eq!(pieces, suit.draft.pieces.len());
    assert_eq!(squares(&all[0], 100.0, 100.0), 1);
}

#[test]
fn a_plotter_that_is_off_is_undone_and_keeps_its_margins() {
    let suit = suits::maren();
    let square = MeasuredSquare {
        across: Mm::new(99.4),
        down: Mm::new(100.2),
    };
    let options = Options {
        printer: Some(square),
        ..Options::default()
    };
    let printed = pdf::single(&suit.pattern(), Roll::Inch36, &options).unwrap();
    let page = &pages(&printed.bytes)[0];
    assert!((page.size.0 - 914.4).abs() < TOLERANCE_MM);
    assert_eq!(squares(page, 100.0 / 0.994, 100.0 / 1.002), 1);
    assert_pieces(page, 10.0);
}

#[test]
fn a_piece_wider_than_the_roll_is_refused_with_its_size() {
    let suit = odile(SkirtKind::FullCircle);
    let refusal = pdf::single(&suit.pattern(), Roll::Inch24, &Options::default()).unwrap_err();
    let Some(Fault::PieceTooLarge {
        piece,
        size_mm,
        room_mm,
        paper,
    }) = refusal.faults.first()
    else {
        panic!("{refusal}")
    };
    assert!(piece.contains("skirt"), "{piece}");
    assert!(size_mm.0 > room_mm.0 && *paper == "24 in roll");
    let text = refusal.to_string();
    assert!(
        text.contains("24 in roll has room for 582 mm across; choose a wider roll, print halves"),
        "{text}"
    );
}

#[test]
fn a_projection_has_a_grid_of_50_mm_thick_lines_and_both_of_a_pair() {
    let suit = suits::suit(
        "Tove’s suit",
        "Tove",
        "petite",
        &Design {
            back_shape: BackShape::CrossedStraps,
            bust_shaping: BustShaping::Princess,
            ..Design::default()
        },
    );
    let printed = pdf::projector(&suit.pattern(), PieceForm::Whole).unwrap();
    let all = pages(&printed.bytes);
    assert_eq!(all.len(), 3);
    assert!(
        all.iter().all(|p| p.size == all[0].size),
        "turning the page must move nothing"
    );
    let mut upright: Vec<f64> = on_layer(&all[0], "grid")
        .filter(|p| size(p).0 < 1e-3 && size(p).1 > 500.0)
        .map(|p| p.bounds().0)
        .collect();
    upright.sort_by(f64::total_cmp);
    assert!(upright.len() > 10);
    assert!(
        upright
            .windows(2)
            .all(|w| (w[1] - w[0] - 50.0).abs() < TOLERANCE_MM)
    );
    assert_eq!(squares(&all[0], 500.0, 500.0), 1);
    assert_eq!(squares(&all[0], 100.0, 100.0), 5);
    let pairs = suit
        .draft
        .pieces
        .iter()
        .filter(|p| p.cuts.iter().any(|c| c.mirrored))
        .count();
    assert!(pairs > 0);
    for page in &all[1..] {
        assert_eq!(assert_pieces(page, 25.0), suit.draft.pieces.len() + pairs);
        assert!(on_layer(page, "cutting lines").all(|p| (p.width - 1.5).abs() < 1e-3));
        assert!(on_layer(page, "seam lines").all(|p| (p.width - 1.5).abs() < 1e-3));
    }
}
