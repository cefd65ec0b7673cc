//! The stretch ladder: the body's levels as rungs beside the body in section rings; on each rung, how much of its layers' own
//! stretch the suit uses there.
//!
//! **Shapes and units.** Heights and girths in mm of the body as drafted; shares as ratios. The drawing in page mm.
//! **Limits.** Rings are drawn as ellipses of one flatness: a picture of heights and girths, not of a body.

use super::svg::{Anchor, INK, Letters, OAT, RULE, SLATE, Stroke, Svg};
use crate::model::Figure;

/// One rung, its words finished.
#[derive(Clone, Debug)]
pub(crate) struct LadderRung {
    pub(crate) name: String,
    pub(crate) y_mm: f64,
    pub(crate) girth_mm: f64,
    /// Layer's name and the share of its stretch that is used, shell first.
    pub(crate) layers: Vec<(String, f64)>,
    /// What is said at the right of the rung.
    pub(crate) words: String,
}

const WIDTH: f64 = 158.0;
const RINGS: (f64, f64) = (2.0, 34.0);
const RAILS: (f64, f64) = (66.0, 126.0);
const LEAST_APART: f64 = 8.6;

/// The ladder; `reserve` is the share that keeps a reserve, `most` the share past which it is a stop, with their words.
pub(crate) fn ladder(rungs: &[LadderRung], reserve: (f64, &str), most: (f64, &str), says: String) -> Figure {
    let high = rungs.iter().map(|r| r.y_mm).fold(f64::NEG_INFINITY, f64::max);
    let low = rungs.iter().map(|r| r.y_mm).fold(f64::INFINITY, f64::min);
    let span = (high - low).max(1.0);
    let tall = (LEAST_APART * 1.35 * rungs.len() as f64).max(50.0);
    let head = 9.0;
    // At their heights, but never so near that words touch.
    let mut ys: Vec<f64> = rungs
        .iter()
        .map(|r| head + (high - r.y_mm) / span * tall)
        .collect();
    for i in 1..ys.len() {
        let least = ys.get(i - 1).copied().unwrap_or(0.0) + LEAST_APART;
        if let Some(y) = ys.get_mut(i) {
            *y = y.max(least);
        }
    }
    let foot = ys.last().copied().unwrap_or(head) + 6.0;
    let mut svg = Svg::new(WIDTH, foot + 2.0);
    let x = |share: f64| RAILS.0 + (RAILS.1 - RAILS.0) * share.clamp(0.0, 1.0);

    for (share, words) in [reserve, most] {
        svg.line(
            (x(share), head - 2.0),
            (x(share), foot),
            Stroke::solid(1.6).in_colour(OAT),
        );
        svg.words(
            words,
            (x(share), head - 4.2),
            Anchor::Middle,
            Letters::plain(8.0).in_colour(SLATE),
        );
    }
    let widest = rungs.iter().map(|r| r.girth_mm).fold(1.0, f64::max);
    for (rung, y) in rungs.iter().zip(&ys) {
        let half = 0.5 * (RINGS.1 - RINGS.0) * rung.girth_mm / widest;
        ring(&mut svg, 0.5 * (RINGS.0 + RINGS.1), *y, half);
        svg.line((RAILS.0, *y), (RAILS.1, *y), Stroke::solid(0.25).in_colour(RULE));
        svg.words(
            &rung.name,
            (RINGS.1 + 3.0, y + 1.1),
            Anchor::Start,
            Letters::voice(9.5),
        );
        for (i, (_, share)) in rung.layers.iter().enumerate() {
            // Shell above the rung, filled; lining below it, open.
            let (at, side) = (x(*share), if i == 0 { -1.0 } else { 1.0 });
            let (w, h) = (1.1, 2.2);
            let d = format!(
                "M{at} {y}L{} {}L{} {}Z",
                at - w,
                y + side * h,
                at + w,
                y + side * h
            );
            let fill = if i == 0 { INK } else { "#FFFFFF" };
            svg.shape(&d, Some(fill), Some(Stroke::solid(0.3)));
        }
        svg.words(
            &rung.words,
            (RAILS.1 + 4.0, y + 1.1),
            Anchor::Start,
            Letters::plain(9.0),
        );
    }
    svg.line((RAILS.0, head - 2.0), (RAILS.0, foot), Stroke::solid(0.5));
    svg.line((RAILS.1, head - 2.0), (RAILS.1, foot), Stroke::solid(0.5));
    svg.finish(says, String::new())
}

fn ring(svg: &mut Svg, x: f64, y: f64, half: f64) {
    /// Depth of a body section over its width, drawn from a little above.
    const FLAT: f64 = 0.2;
    let d = format!(
        "M{:.2} {y:.2}A{half:.2} {r:.2} 0 1 0 {:.2} {y:.2}A{half:.2} {r:.2} 0 1 0 {:.2} {y:.2}Z",
        x - half,
        x + half,
        x - half,
        r = half * FLAT
    );
    svg.shape(&d, None, Some(Stroke::solid(0.45)));
}
