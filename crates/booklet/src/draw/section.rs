//! A seam or edge cut through and seen from its end: which layer lies where, which side is the right one, where the needle
//! goes in.
//!
//! **Shapes and units.** A schematic in page mm; no thickness is to scale.
//! **Source.** Own drawings; what they show is common practice, no single source.

use kurbo::Point;

use super::svg::{Anchor, INK, Letters, OAT, PAPER, Stroke, Svg};
use crate::model::Figure;

/// What is cut through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Section {
    /// Two layers, right sides together, sewn near their edges.
    Joined,
    /// Elastic on the wrong side, edge to edge, anchored.
    ElasticOn,
    /// The edge with its elastic turned once and topstitched from the right side.
    Turned,
    /// A hem turned once, two rows side by side.
    Hem,
    /// Two layers wrong sides together, basted or caught as one.
    Layered,
    /// One layer lapped over another and sewn through.
    Lapped,
}

const CLOTH: Stroke = Stroke::solid(0.8);
/// Ticks on the wrong side of a layer.
const NAP: Stroke = Stroke::solid(0.2);
const THREAD: Stroke = Stroke::dashed(0.3, &[0.7, 0.5]);
const SIZE: (f64, f64) = (58.0, 24.0);

/// The section, with the words for right side, wrong side and elastic.
pub(crate) fn section(kind: Section, wrong_side: &str, elastic: &str, says: String) -> Figure {
    let mut svg = Svg::new(SIZE.0, SIZE.1);
    let y = 15.0;
    let needle_x = match kind {
        Section::Joined => {
            layer(&mut svg, (4.0, y - 1.4), 42.0, false);
            layer(&mut svg, (4.0, y + 1.4), 42.0, true);
            40.0
        }
        Section::Layered => {
            layer(&mut svg, (4.0, y - 1.4), 42.0, true);
            layer(&mut svg, (4.0, y + 1.4), 42.0, false);
            43.0
        }
        Section::Lapped => {
            layer(&mut svg, (4.0, y - 1.4), 34.0, true);
            layer(&mut svg, (24.0, y + 1.4), 30.0, true);
            31.0
        }
        Section::ElasticOn => {
            layer(&mut svg, (4.0, y + 1.6), 42.0, false);
            svg.rect((36.0, y - 1.4), (10.0, 2.0), Some(OAT), Some(Stroke::solid(0.3)));
            svg.words(elastic, (35.0, y - 0.4), Anchor::End, Letters::plain(8.0));
            43.0
        }
        Section::Turned => {
            turned(&mut svg, y, 11.0);
            svg.rect((35.5, y + 0.9), (9.0, 1.7), Some(OAT), Some(Stroke::solid(0.3)));
            svg.words(elastic, (33.5, y + 3.0), Anchor::End, Letters::plain(8.0));
            38.0
        }
        Section::Hem => {
            turned(&mut svg, y, 16.0);
            needle(&mut svg, (34.5, y));
            37.5
        }
    };
    needle(&mut svg, (needle_x, y));
    let depth = if matches!(kind, Section::Turned | Section::Hem) {
        5.4
    } else {
        4.0
    };
    svg.line((needle_x, y - 2.6), (needle_x, y + depth), THREAD);
    if kind == Section::Hem {
        svg.line((34.5, y - 2.6), (34.5, y + depth), THREAD);
    }
    // The legend: what the ticks are.
    layer(&mut svg, (4.0, 3.2), 7.0, true);
    svg.words(wrong_side, (12.6, 4.6), Anchor::Start, Letters::plain(8.0));
    svg.finish(says, String::new())
}

/// A layer of cloth; ticks hang from its wrong side.
fn layer(svg: &mut Svg, (x, y): (f64, f64), long: f64, is_wrong_side_down: bool) {
    svg.line((x, y), (x + long, y), CLOTH);
    ticks(svg, x, x + long, y, is_wrong_side_down);
}

fn ticks(svg: &mut Svg, from: f64, to: f64, y: f64, is_down: bool) {
    let tip = if is_down { 1.1 } else { -1.1 };
    let mut x = from + 0.8;
    while x < to - 0.4 {
        svg.line((x, y), (x - 0.5, y + tip), NAP);
        x += 1.5;
    }
}

/// A layer whose end is turned under, right side up.
fn turned(svg: &mut Svg, y: f64, under: f64) {
    let (end, drop) = (46.0, 4.0);
    svg.line((4.0, y), (end, y), CLOTH);
    ticks(svg, 4.0, end - under, y, true);
    let d = format!(
        "M{end} {y}A2 2 0 0 1 {end} {}L{} {}",
        y + drop,
        end - under,
        y + drop
    );
    svg.shape(&d, None, Some(CLOTH));
    ticks(svg, end - under, end, y + drop, false);
}

/// A needle from above, its point in the cloth.
fn needle(svg: &mut Svg, (x, y): (f64, f64)) {
    let tip = y - 2.0;
    let points = [
        (x, tip),
        (x + 0.55, tip - 1.8),
        (x + 0.55, tip - 8.6),
        (x - 0.55, tip - 8.6),
        (x - 0.55, tip - 1.8),
    ];
    let points = points.map(|(x, y)| Point::new(x, y));
    svg.path(&points, true, Some(PAPER), Some(Stroke::solid(0.25)));
    svg.circle((x, tip - 2.3), 0.2, Some(INK), None);
}
