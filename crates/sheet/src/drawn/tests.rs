//! Words and lines of drawn pieces against each other, on drafted suits.

#[path = "../../tests/suits/mod.rs"]
mod suits;

use draft::{
    Arrow, BackShape, BustShaping, Cups, Design, LiningCover, Rise, Skirt, SkirtJoin, SkirtKind, Style,
};
use units::Mm;

use self::suits::{Suit, suit};
use super::*;
use crate::ink::{Ink, Role, What, Words};
use crate::room::Obstacle;

fn all() -> Vec<Suit> {
    let skirt = Skirt {
        kind: SkirtKind::HalfCircle,
        join: SkirtJoin::Waist,
        cover: Mm::new(40.0),
    };
    let designs = [
        (
            "tall",
            Design {
                lining: LiningCover::Full,
                ..Design::default()
            },
        ),
        (
            "petite",
            Design {
                style: Style::BRIEF,
                rise: Rise::Mid,
                ..Design::default()
            },
        ),
        (
            "large_cup",
            Design {
                skirt: Some(skirt),
                bust_shaping: BustShaping::Princess,
                cups: Cups::Pocket,
                lining: LiningCover::Full,
                ..Design::default()
            },
        ),
        (
            "petite",
            Design {
                back_shape: BackShape::CrossedStraps,
                strap_width: Mm::new(15.0),
                ..Design::default()
            },
        ),
        (
            "plus",
            Design {
                bust_shaping: BustShaping::SideDart,
                ..Design::default()
            },
        ),
        ("child8", Design::default()),
    ];
    designs
        .iter()
        .map(|(body, design)| suit("Suit", "Wearer", body, design))
        .collect()
}

fn words_of(piece: &DrawnPiece) -> Vec<&Words> {
    piece
        .drawing
        .inks
        .iter()
        .filter_map(|i| match &i.what {
            What::Words(w) => Some(w),
            _ => None,
        })
        .collect()
}

/// Straight parts of a line or filled shape.
fn parts(ink: &Ink) -> Vec<Obstacle> {
    let (What::Line { path, .. } | What::Fill { path, .. }) = &ink.what else {
        return Vec::new();
    };
    let mut points = Vec::new();
    let mut out = Vec::new();
    kurbo::flatten(path.elements().iter().copied(), 0.1, |el| match el {
        PathEl::MoveTo(p) => points = vec![p],
        PathEl::LineTo(p) => {
            out.extend(points.last().map(|l| Obstacle::new(vec![*l, p], 0.3)));
            points.push(p);
        }
        _ => {
            let ends = points.last().zip(points.first());
            out.extend(ends.map(|(a, b)| Obstacle::new(vec![*a, *b], 0.3)));
        }
    });
    out
}

fn bounds(corners: &[Point; 4]) -> Rect {
    corners
        .iter()
        .fold(Rect::from_points(corners[0], corners[2]), |r, p| r.union_pt(*p))
}

/// Every suit, whole and half, for paper and projector: no words on words, none on a cut line, an arrow or a mark.
#[test]
fn words_touch_nothing() {
    let letters = Lettering::load().unwrap();
    for suit in all() {
        let pattern = suit.pattern();
        for form in [PieceForm::Whole, PieceForm::Half] {
            for weight in [Weight::Paper, Weight::Projected] {
                for piece in &suit.draft.pieces {
                    let drawn = draw(piece, &pattern, form, weight, &letters);
                    let words = words_of(&drawn);
                    for (i, a) in words.iter().enumerate() {
                        let corners = a.corners();
                        let says = a.line.text();
                        for b in words.iter().skip(i + 1) {
                            let other = Obstacle::new(b.corners().to_vec(), 0.0);
                            let same = a.role == b.role && a.role != Role::Aside;
                            assert!(
                                same || !other.touches(&corners, bounds(&corners)),
                                "{}: `{says}` lies on `{}`",
                                drawn.key,
                                b.line.text()
                            );
                        }
                        // A ring's letter lies in its ring.
                        if a.role == Role::Aside && says.chars().count() == 1 {
                            continue;
                        }
                        let hard = drawn
                            .drawing
                            .inks
                            .iter()
                            .filter(|k| matches!(k.plane.kind, Kind::Cutting | Kind::Marks));
                        for part in hard.flat_map(parts) {
                            assert!(
                                !part.touches(&corners, bounds(&corners)),
                                "{} {form:?} {weight:?}: `{says}` lies on a line",
                                drawn.key
                            );
                        }
                    }
                }
            }
        }
    }
}

/// A piece says what it is, what to cut and for whom, on itself or beside it.
#[test]
fn every_piece_is_labelled() {
    let letters = Lettering::load().unwrap();
    for suit in all() {
        for piece in &suit.draft.pieces {
            let drawn = draw(piece, &suit.pattern(), PieceForm::Whole, Weight::Paper, &letters);
            let text: String = words_of(&drawn).iter().map(|w| w.line.text() + " ").collect();
            let first = piece.name.split_whitespace().next().unwrap();
            assert!(
                text.contains(first) && text.to_lowercase().contains("cut "),
                "{}: {text}",
                piece.key
            );
            assert!(text.contains("Wearer"), "{}: {text}", piece.key);
            assert!(text.contains('%'), "{} says no stretch: {text}", piece.key);
        }
    }
}

#[test]
fn a_strip_no_words_fit_on_is_labelled_beside_it() {
    let letters = Lettering::load().unwrap();
    let suit = suit("Suit", "Wearer", "petite", &Design::default());
    let mut piece = suit.draft.pieces[0].clone();
    // A binding 7 mm wide: nothing of 8 pt fits between its cut lines.
    let (w, h) = (7.0, 300.0);
    piece.on_fold = false;
    piece.edges.clear();
    piece.notches.clear();
    piece.marks.clear();
    piece.cut_line = [(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)]
        .map(|(x, y)| Point::new(x, y))
        .to_vec();
    piece.grain = Arrow {
        from: Point::new(3.5, 100.0),
        to: Point::new(3.5, 200.0),
    };
    piece.stretch = Arrow {
        from: Point::new(1.5, 60.0),
        to: Point::new(5.5, 60.0),
    };
    piece.label_at = Point::new(3.5, 150.0);
    let drawn = draw(&piece, &suit.pattern(), PieceForm::Whole, Weight::Paper, &letters);
    assert!(
        drawn.size.0 > w + 20.0,
        "the label stands beside the piece: {:?}",
        drawn.size
    );
    assert!(
        words_of(&drawn)
            .iter()
            .any(|words| words.line.text().contains("Front"))
    );
}
