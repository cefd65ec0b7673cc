//! What lies on the table: a suit lying flat, or half a pattern with its allowance, and where the tape goes for each measure.
//!
//! Drawn from a draft of the shapes that were chosen, so that a racer back is measured on a racer back.
//!
//! **Limits.** A picture to measure by: somebody else's suit, of the same shapes.

use draft::geometry::{Curve, x_spans};
use draft::{Draft, EdgeUse, Piece};
use drawer::FlatMeasure;
use kurbo::{CubicBez, Point};

use super::{DrawerTape, DrawnPath, DrawnSide, DrawnWords};
use crate::view::shape::{curves, frame, polygon, polyline, spot};

/// Curves become lines this near to them, mm.
const TOLERANCE_MM: f64 = 0.5;
/// A skirt's side falls outwards by this share of its length.
const FALL: f64 = 0.32;
/// A width is taken a quarter of the way down from underarm to waist.
const BUST_SHARE: f64 = 0.75;
/// A width above the leg is taken this far above it, mm.
const ABOVE_LEG: f64 = 20.0;

/// Front and back piece of a suit.
pub(super) fn pieces(suit: &Draft) -> Option<[&Piece; 2]> {
    let of = |key: &str| suit.pieces.iter().find(|p| p.key == key && p.on_fold);
    Some([of("front")?, of("back")?])
}

/// The seam line of the half, from the fold round to it again, as points.
fn half(piece: &Piece) -> Vec<Point> {
    edges_round(piece).flat_map(|e| e.flatten(TOLERANCE_MM)).collect()
}

fn edges_round(piece: &Piece) -> impl Iterator<Item = &Curve> {
    let fold = piece.edges.iter().position(|e| e.role == EdgeUse::Fold);
    let start = fold.map_or(0, |at| at + 1);
    (0..piece.edges.len())
        .filter_map(move |i| piece.edges.get((start + i) % piece.edges.len()))
        .filter(|e| e.role != EdgeUse::Fold)
        .map(|e| &e.curve)
}

fn mirrored(points: &[Point]) -> Vec<Point> {
    points.iter().rev().map(|p| Point::new(-p.x, p.y)).collect()
}

/// The seam line of the whole piece.
pub(super) fn outline(piece: &Piece) -> Vec<Point> {
    let mut half = half(piece);
    if piece.on_fold {
        half.extend(mirrored(&half));
    }
    half
}

/// All edges of this name, one after the other: a side with a dart is two.
fn along(piece: &Piece, name: &str) -> Vec<Point> {
    piece
        .edges
        .iter()
        .filter(|e| {
            e.name == name
                || e.name
                    .strip_prefix(name)
                    .is_some_and(|rest| rest.starts_with('_'))
        })
        .flat_map(|e| e.curve.flatten(TOLERANCE_MM))
        .collect()
}

/// Half width at a height.
fn half_width(piece: &Piece, y: f64) -> Option<f64> {
    let mut closed = half(piece);
    closed.push(Point::new(0.0, closed.last()?.y));
    closed.push(Point::new(0.0, closed.first()?.y));
    x_spans(&closed, y).last().map(|span| span.1)
}

/// Join, half width there, hem, half width there: a skirt as it hangs.
fn skirt(suit: &Draft, front: &Piece) -> Option<[Point; 2]> {
    let length = suit.finished.iter().find(|f| f.key == "skirt_length")?.value_mm;
    let join = front.marks.iter().find_map(|mark| match mark {
        draft::Mark::Placement { curve, text } if text.contains("skirt") => Some(curve.start().y),
        _ => None,
    });
    let y = join.unwrap_or(0.0);
    let x = half_width(front, y)?;
    Some([Point::new(x, y), Point::new(x + FALL * length, y - length)])
}

fn path_kind(kind: &str, path: String) -> DrawnPath {
    DrawnPath {
        kind: kind.to_owned(),
        path,
    }
}

/// The two sides of a suit that lies flat: seen from the front, and turned over.
pub(super) fn flat_sides(suit: &Draft) -> Vec<DrawnSide> {
    let Some([front, back]) = pieces(suit) else {
        return Vec::new();
    };
    let (f, b) = (outline(front), outline(back));
    let skirt = skirt(suit, front);
    let side = |key: &str, name: &str, on_top: &[Point], behind: &[Point], piece: &Piece| {
        let mut all: Vec<Point> = on_top.iter().chain(behind).copied().collect();
        let mut lines = vec![path_kind("cut", polygon(on_top))];
        if piece.on_fold
            && let (Some(first), Some(last)) = (half(piece).first(), half(piece).last())
        {
            lines.push(path_kind("level", polyline(&[*first, *last])));
        }
        let mut paper = polygon(on_top);
        if let Some([join, hem]) = skirt {
            let bell = [join, hem, Point::new(-hem.x, hem.y), Point::new(-join.x, join.y)];
            all.extend(bell);
            paper += &polygon(&bell);
            lines.push(path_kind("cut", polygon(&bell)));
        }
        DrawnSide {
            key: key.to_owned(),
            name: name.to_owned(),
            frame: frame(&all),
            behind: Some(polygon(behind)),
            paper,
            lines,
            words: Vec::new(),
        }
    };
    vec![
        side("front", "Front", &f, &b, front),
        side("back", "Turned over", &b, &f, back),
    ]
}

/// Where the tape goes on a flat suit.
pub(super) fn flat_tapes(suit: &Draft) -> Vec<DrawerTape> {
    let Some(both) = pieces(suit) else {
        return Vec::new();
    };
    FlatMeasure::ALL
        .into_iter()
        .filter_map(|m| flat_tape(suit, both, m))
        .collect()
}

fn flat_tape(suit: &Draft, [front, back]: [&Piece; 2], measure: FlatMeasure) -> Option<DrawerTape> {
    let tape = |side: &str, path: String| DrawerTape {
        measure: measure.key().to_owned(),
        side: side.to_owned(),
        path,
        behind: String::new(),
        level: String::new(),
    };
    let side = along(front, "side");
    let across = |y: f64| {
        let x = half_width(front, y)?;
        Some(tape("front", polyline(&[Point::new(-x, y), Point::new(x, y)])))
    };
    let middle = |piece: &Piece, side: &str| {
        let half = half(piece);
        Some(tape(side, polyline(&[*half.last()?, *half.first()?])))
    };
    let ring = |name: &str, is_whole: bool| {
        let both = |piece: &Piece| {
            let mut line = along(piece, name);
            if is_whole {
                line.extend(mirrored(&line));
            }
            (line.len() > 1).then(|| polyline(&line))
        };
        Some(DrawerTape {
            behind: both(back).unwrap_or_default(),
            ..tape("front", both(front)?)
        })
    };
    let depth = |piece: &Piece, side: &str| {
        let neck = along(piece, "neck");
        let (a, b) = (*neck.first()?, *neck.last()?);
        let foot = Point::new(a.x, b.y);
        Some(DrawerTape {
            level: polyline(&[Point::new(-a.x, b.y), Point::new(a.x + 40.0, b.y)]),
            ..tape(side, polyline(&[a, foot]))
        })
    };
    // Along the neck edge from strap to strap; from one of its ends straight to the middle.
    let across_neck = |piece: &Piece, side: &str| {
        let mut line = along(piece, "neck");
        line.extend(mirrored(&line));
        (line.len() > 3).then(|| tape(side, polyline(&line)))
    };
    let slant = |piece: &Piece, edge: &str, side: &str| {
        let edge = along(piece, edge);
        Some(tape(side, polyline(&[*edge.first()?, *edge.last()?])))
    };
    drawer::finished_measure(suit, measure)?;
    match measure {
        FlatMeasure::AcrossBust => across(BUST_SHARE * side.last()?.y),
        FlatMeasure::AcrossWaist => across(0.0),
        FlatMeasure::AcrossAboveLeg => across(side.first()?.y + ABOVE_LEG),
        FlatMeasure::SideSeam => Some(tape("front", polyline(&side))),
        FlatMeasure::CentreFront => middle(front, "front"),
        FlatMeasure::CentreBack => middle(back, "back"),
        FlatMeasure::LegOpening => ring("leg", false),
        FlatMeasure::StrapWidth => Some(tape("front", polyline(&along(front, "shoulder")))),
        FlatMeasure::Armhole => ring("armhole", false),
        FlatMeasure::Neckline => ring("neck", true),
        FlatMeasure::CrotchWidth => {
            let mut line = along(front, "crotch");
            line.extend(mirrored(&line));
            line.sort_by(|a, b| a.x.total_cmp(&b.x));
            Some(tape("front", polyline(&line)))
        }
        FlatMeasure::NecklineDepth => depth(front, "front"),
        FlatMeasure::BackDepth => depth(back, "back"),
        FlatMeasure::NecklineFront => across_neck(front, "front"),
        FlatMeasure::NecklineBack => across_neck(back, "back"),
        FlatMeasure::NecklineSlant => slant(front, "neck", "front"),
        FlatMeasure::BackSlant => slant(back, "neck", "back"),
        FlatMeasure::LegSlant => slant(front, "leg", "front"),
        FlatMeasure::SkirtLength => {
            let [join, hem] = skirt(suit, front)?;
            Some(tape(
                "front",
                polyline(&[Point::new(0.0, join.y), Point::new(0.0, hem.y)]),
            ))
        }
    }
}

/// Half front and half back of a pattern with the allowance that must be left out.
pub(super) fn paper_sides(suit: &Draft) -> Vec<DrawnSide> {
    let Some(both) = pieces(suit) else {
        return Vec::new();
    };
    both.into_iter()
        .zip([("front", "Half front"), ("back", "Half back")])
        .map(|(piece, (key, name))| {
            let shape = piece.as_drafted();
            let seam: Vec<Point> = half(piece);
            let fold: Vec<Point> = seam.last().into_iter().chain(seam.first()).copied().collect();
            // The seam line's words stand where there is room: inside, below the waist.
            let inside = half_width(piece, -40.0).unwrap_or(0.0);
            DrawnSide {
                key: key.to_owned(),
                name: name.to_owned(),
                frame: frame(&shape.cut_line),
                behind: None,
                paper: polygon(&shape.cut_line),
                lines: vec![
                    path_kind("cut", polygon(&shape.cut_line)),
                    path_kind("seam", curves(edges_round(piece))),
                    path_kind("fold", polyline(&fold)),
                ],
                words: vec![DrawnWords {
                    at: spot(Point::new(0.5 * inside, -44.0)),
                    anchor: "middle".into(),
                    says: "seam line".into(),
                    kind: "seam".into(),
                }],
            }
        })
        .collect()
}

/// Where the tape goes on half a pattern; the keys are those of the pattern's measures.
pub(super) fn paper_tapes(suit: &Draft) -> Vec<DrawerTape> {
    let Some(both) = pieces(suit) else {
        return Vec::new();
    };
    let mut tapes = Vec::new();
    let mut lay = |measure: &str, side: &str, line: Vec<Point>| {
        if line.len() > 1 {
            tapes.push(DrawerTape {
                measure: measure.to_owned(),
                side: side.to_owned(),
                path: polyline(&line),
                behind: String::new(),
                level: String::new(),
            });
        }
    };
    for (piece, name) in both.into_iter().zip(["front", "back"]) {
        let side = along(piece, "side");
        let (Some(leg), Some(underarm)) = (side.first(), side.last()) else {
            continue;
        };
        let hip = suit
            .levels
            .iter()
            .find(|l| l.level == units::Level::Hip)
            .map_or(leg.y, |l| l.y_mm);
        let hip = hip.max(leg.y + 5.0);
        for (key, y) in [
            ("bust", BUST_SHARE * underarm.y),
            ("underbust", 0.42 * underarm.y),
            ("waist", 0.0),
            ("high_hip", 0.5 * hip),
            ("hip", hip),
        ] {
            if let Some(x) = half_width(piece, y) {
                lay(key, name, vec![Point::new(0.0, y), Point::new(x, y)]);
            }
        }
        let seam = half(piece);
        let (Some(foot), Some(top)) = (seam.first(), seam.last()) else {
            continue;
        };
        let shoulder = along(piece, "shoulder");
        if let (Some(out), Some(inner)) = (shoulder.first(), shoulder.last()) {
            let middle = out.midpoint(*inner);
            // Down over the bust or the shoulder blade to the middle.
            let way = CubicBez::new(
                middle,
                Point::new(middle.x, 0.55 * middle.y),
                Point::new(4.0, 0.45 * middle.y),
                Point::new(4.0, 0.0),
            );
            let mut line = Curve::new(vec![way]).flatten(TOLERANCE_MM);
            line.push(Point::new(4.0, foot.y));
            lay("trunk_loop", name, line);
            if name == "front" {
                lay("front_waist_length", name, vec![*inner, Point::new(inner.x, 0.0)]);
            }
        }
        lay("crotch_length", name, vec![Point::new(0.0, 0.0), *foot]);
        lay(
            if name == "front" {
                "centre_front"
            } else {
                "centre_back"
            },
            name,
            vec![*top, *foot],
        );
        lay("side_seam", name, side.clone());
        let crotch = along(piece, "crotch");
        lay("crotch_width", name, crotch);
    }
    tapes
}

/// A run of cubics as a path.
pub(super) fn cubics(run: &[CubicBez]) -> String {
    if run.is_empty() {
        return String::new();
    }
    curves([&Curve::new(run.to_vec())])
}
