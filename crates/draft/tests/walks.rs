//! What a seam is said to be walked from is what its pieces were cut by.
#![allow(clippy::unwrap_used, reason = "a test may panic")]

use draft::{Design, Draft, SeamWalk, Skirt, SkirtJoin, SkirtKind, Style, draft};
use units::Mm;

/// Edge ends are copied, not computed again: lengths read off the pieces are the walk's own but for rounding, mm.
const SAME_MM: f64 = 1e-6;

/// Edges of a piece by name, together; `None` where the walk names a place rather than a piece.
fn cut_length(suit: &Draft, (piece, edges): &(String, Vec<&'static str>)) -> Option<f64> {
    let piece = suit.pieces.iter().find(|p| p.key == *piece)?;
    edges
        .iter()
        .map(|name| piece.edge(name).map(|e| e.curve.length()))
        .sum()
}

/// Whether a length is one, two or four times what is cut: once, both halves, or all four quarters of it; or half of it, an end of a neck
/// piece or strap folded lengthwise.
fn is_multiple(walked: f64, cut: f64, name: &str) -> bool {
    let folded = name.starts_with("neck ").then_some(0.5);
    [1.0, 2.0, 4.0]
        .into_iter()
        .chain(folded)
        .any(|n| (walked - n * cut).abs() < SAME_MM)
}

/// Of an inseam a part is sewn to the gusset and the rest to the other inseam.
const PART_OF_AN_EDGE: [&str; 4] = ["gusset, front", "gusset, back", "inseam", "mesh inseam"];

fn designs(style: Style) -> Vec<Design> {
    let usual = Design::of(style);
    let skirted = Design {
        skirt: Some(Skirt {
            kind: SkirtKind::HalfCircle,
            join: SkirtJoin::Waist,
            cover: Mm::new(40.0),
        }),
        ..usual.clone()
    };
    if style.has(draft::Shared::Skirt) {
        vec![usual, skirted]
    } else {
        vec![usual]
    }
}

#[test]
fn walks_are_read_off_the_pieces() {
    let (mut both, mut mirrors, mut wrong) = (0, 0, Vec::new());
    for style in Style::all() {
        for name in ["average", "plus", "large_cup", "man", "child8"] {
            let body = fixtures::body(name);
            if !style.is_for(body.form) {
                continue;
            }
            for design in designs(*style) {
                for (around, lengthwise) in [(85.0, 60.0), (50.0, 32.0)] {
                    let suit = draft(&body, &fixtures::cloth(around, lengthwise), &design).unwrap();
                    for walk in &suit.seams {
                        if PART_OF_AN_EDGE.contains(&walk.name) {
                            continue;
                        }
                        let ends: [(&(String, Vec<&'static str>), f64); 2] =
                            [(&walk.first, walk.first_mm), (&walk.second, walk.second_mm)];
                        let read: Vec<(f64, f64)> = ends
                            .iter()
                            .filter_map(|(end, walked)| Some((*walked, cut_length(&suit, end)?)))
                            .collect();
                        both += usize::from(read.len() == 2 && !walk.is_with_itself());
                        mirrors += usize::from(walk.is_with_itself());
                        for (walked, cut) in read {
                            if !is_multiple(walked, cut, walk.name) {
                                wrong.push(format!("{style:?} {name}: {walk:?} is cut {cut}"));
                            }
                        }
                    }
                }
            }
        }
    }
    wrong.sort();
    wrong.dedup();
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
    assert!(both > 300, "only {both} walks have both their edges on pieces");
    assert!(mirrors > 20, "{mirrors}");
}

#[test]
fn an_edge_sewn_to_its_mirror_image_is_not_taken_for_a_comparison() {
    let seam = |style: Style, name: &str, on: &str| -> SeamWalk {
        let design = designs(style).pop().unwrap();
        let suit = draft(&fixtures::body(on), &fixtures::cloth(85.0, 60.0), &design).unwrap();
        suit.seams.into_iter().find(|s| s.name == name).unwrap()
    };
    assert!(seam(Style::SUN_SUIT, "centre front", "child8").is_with_itself());
    assert!(seam(Style::BRIEF, "skirt side", "average").is_with_itself());
    assert!(seam(Style::TRUNKS, "centre back", "man").is_with_itself());
    for (style, name) in [
        (Style::SUN_SUIT, "sleeve seam"),
        (Style::RASH_TOP, "sleeve seam"),
        (Style::ONE_PIECE, "side"),
    ] {
        assert!(!seam(style, name, "child8").is_with_itself(), "{name}");
    }
}
