//! Straps and ties of the picture on the cover: round the neck, round the back, at the sides.
//!
//! **Shapes and units.** flat mm, y up; strips as wide as the tie is when it is folded and sewn.
//! **Source.** Own.
//! **Limits.** How they hang is drawn, not computed.

use draft::{Draft, Piece};
use kurbo::{Point, Vec2};
use units::Level;

use super::garment::{Part, View};
use super::place::bounds;

/// So far above its end a strap is drawn on towards the neck, mm of cloth.
const TO_NECK: f64 = 75.0;
/// Length of an end that hangs, mm of cloth.
const HANGS: f64 = 90.0;

/// Everything that is tied or hooked on this side; `ends` are the middles of the front's upper ends, right half.
pub(super) fn ties(draft: &Draft, view: View, ends: &[Point], cup_foot: Option<Point>) -> Vec<Part> {
    let mut parts = Vec::new();
    let piece = |start: &str| draft.pieces.iter().find(|p| p.key.starts_with(start));
    if let Some(neck) = piece("neck_").or_else(|| piece("strap")) {
        for end in ends {
            let to = Point::new(0.55 * end.x, end.y + TO_NECK);
            pair(&mut parts, *end, to, wide(neck));
        }
    }
    if let Some(tie) = piece("back_tie") {
        let level = draft.levels.iter().find(|l| l.level == Level::Underbust);
        let half = level.map_or(150.0, |l| 0.25 * l.pattern_mm);
        let y = level.map_or(0.0, |l| l.y_mm);
        match view {
            View::Front => {
                if let Some(foot) = cup_foot {
                    pair(&mut parts, foot, Point::new(half.max(foot.x), y), wide(tie));
                }
            }
            View::Back => {
                parts.push(strip(Point::new(-half, y), Point::new(half, y), wide(tie)));
                pair(
                    &mut parts,
                    Point::new(0.0, y),
                    Point::new(0.4 * HANGS, y - HANGS),
                    wide(tie),
                );
            }
        }
    }
    if let Some(tie) = draft.pieces.iter().find(|p| p.key == "tie") {
        let sides = draft.pieces.iter().filter(|p| p.key.contains(view.word()));
        for edge in sides.flat_map(|p| &p.edges).filter(|e| e.name == "tie_end") {
            let end = edge.curve.start().midpoint(edge.curve.end());
            for (out, down) in [(0.12, 1.0), (0.45, 0.85)] {
                let to = end + Vec2::new(out * HANGS, -down * HANGS);
                pair(&mut parts, end, to, wide(tie));
            }
        }
    }
    parts
}

/// Width of a tie that is folded lengthwise and sewn, mm.
fn wide(piece: &Piece) -> f64 {
    let b = bounds(&piece.cut_line);
    (0.4 * b.width().min(b.height())).clamp(6.0, 26.0)
}

/// A strip on the right and its mirror on the left.
fn pair(parts: &mut Vec<Part>, from: Point, to: Point, wide: f64) {
    let one = strip(from, to, wide);
    parts.push(one.mirrored());
    parts.push(one);
}

fn strip(from: Point, to: Point, wide: f64) -> Part {
    let along = (to - from) / (to - from).hypot().max(1.0);
    let side = Vec2::new(-along.y, along.x) * (0.5 * wide);
    Part::plain(vec![from + side, from - side, to - side, to + side, from + side])
}
