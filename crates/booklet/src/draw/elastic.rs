//! An edge drawn flat as a ruler: the edge above, its elastic below, a stroke for every centimetre of edge. Where the strokes
//! stand upright the elastic lies flat; where they lean together it takes up ease.
//!
//! **Shapes and units.** Arc lengths in mm along the seam line; the drawing as wide as it is told.
//! **Source.** Own.

use kurbo::Point;

use super::svg::{Anchor, Letters, MM_PER_PT, OAT, SLATE, Stroke, Svg};
use crate::model::Figure;

/// One arc, with its words finished; empty words leave a dotted line to write on.
#[derive(Clone, Debug)]
pub(crate) struct Arc {
    pub(crate) name: String,
    pub(crate) mark: String,
    pub(crate) edge_mm: f64,
    pub(crate) elastic_mm: f64,
    pub(crate) edge_words: String,
    pub(crate) elastic_words: String,
    pub(crate) ratio_words: String,
    pub(crate) is_eased: bool,
}

const WORDS: Letters = Letters::plain(9.0);
const NAMES: Letters = Letters::bold(9.0);
/// Height of a line of words, mm.
const ROW: f64 = 4.3;
/// From edge to elastic, mm.
const DEEP: f64 = 13.0;
/// Strokes every so many mm of edge.
const STROKE_MM: f64 = 10.0;

/// The ruler of one edge. `overlap_mm` is drawn past its end.
pub(crate) fn elastic_map(arcs: &[Arc], overlap_mm: f64, width: f64, says: String) -> Figure {
    let edge: f64 = arcs.iter().map(|a| a.edge_mm).sum();
    let elastic: f64 = arcs.iter().map(|a| a.elastic_mm).sum::<f64>() + overlap_mm;
    let margin = 2.0;
    let scale = (width - 2.0 * margin) / edge.max(elastic).max(1.0);
    let x = |mm: f64| margin + scale * mm;

    let middles = |length: fn(&Arc) -> f64| {
        let mut at = 0.0;
        let list: Vec<f64> = arcs
            .iter()
            .map(|a| {
                let middle = at + 0.5 * length(a);
                at += length(a);
                x(middle)
            })
            .collect();
        list
    };
    let above = arcs.iter().zip(middles(|a| a.edge_mm)).map(|(a, x)| {
        let lines = vec![(a.name.clone(), NAMES), (a.edge_words.clone(), WORDS)];
        (x, lines)
    });
    let above = rows(above.collect(), width);
    let below = arcs.iter().zip(middles(|a| a.elastic_mm)).map(|(a, x)| {
        let ratio = if a.is_eased { NAMES } else { WORDS };
        let lines = vec![(a.elastic_words.clone(), WORDS), (a.ratio_words.clone(), ratio)];
        (x, lines)
    });
    let below = rows(below.collect(), width);
    let top = ROW * 2.0 * above.levels as f64 + 2.0;
    let bottom = top + DEEP;
    let height = bottom + 3.0 + 3.0 + ROW * 2.0 * below.levels as f64 + 1.0;
    let mut svg = Svg::new(width, height);

    let (mut along_edge, mut along_elastic) = (0.0, 0.0);
    for arc in arcs {
        let steps = (arc.edge_mm / STROKE_MM).floor() as usize;
        for i in 1..=steps {
            let share = (STROKE_MM * i as f64 / arc.edge_mm).min(1.0);
            let from = (x(along_edge + share * arc.edge_mm), top);
            let to = (x(along_elastic + share * arc.elastic_mm), bottom);
            svg.line(from, to, Stroke::solid(0.15));
        }
        svg.line(
            (x(along_edge), top),
            (x(along_elastic), bottom),
            Stroke::solid(0.5),
        );
        along_edge += arc.edge_mm;
        along_elastic += arc.elastic_mm;
    }
    svg.line(
        (x(along_edge), top),
        (x(along_elastic), bottom),
        Stroke::solid(0.5),
    );
    svg.line((x(0.0), top), (x(edge), top), Stroke::solid(0.8));
    svg.rect(
        (x(0.0), bottom),
        (scale * elastic, 3.0),
        Some(OAT),
        Some(Stroke::solid(0.3)),
    );
    if overlap_mm > 0.0 {
        let lap = x(along_elastic);
        svg.line(
            (lap, bottom),
            (lap, bottom + 3.0),
            Stroke::dashed(0.4, &[0.6, 0.4]),
        );
    }
    // Letters of the marks stand in the elastic.
    let mut at = 0.0;
    for arc in arcs {
        let mark = Letters::plain(8.0).in_colour(SLATE);
        svg.words(&arc.mark, (x(at) + 0.7, bottom + 2.35), Anchor::Start, mark);
        at += arc.elastic_mm;
    }
    above.write(&mut svg, |level, line| {
        top - 2.0 - ROW * (2.0 * level as f64 + 1.0 - line as f64)
    });
    below.write(&mut svg, |level, line| {
        bottom + 3.0 + ROW * (2.0 * level as f64 + 1.0 + line as f64)
    });
    // A word moved away from a narrow arc is led back to it.
    for (words, is_above) in [(&above, true), (&below, false)] {
        for (middle, level) in words.led() {
            let (from, to) = if is_above {
                (top - 1.0, top - 1.0 - ROW * 2.0 * level as f64)
            } else {
                (bottom + 3.6, bottom + 3.6 + ROW * 2.0 * level as f64)
            };
            svg.line((middle, from), (middle, to), Stroke::solid(0.15).in_colour(SLATE));
        }
    }
    svg.finish(says, String::new())
}

/// Blocks of two lines, set on as many levels as they need not to touch.
struct Rows {
    levels: usize,
    set: Vec<Block>,
}

/// Lines of words that belong to one arc.
#[derive(Debug)]
struct Block {
    /// Middle of the arc.
    arc: f64,
    /// Middle of the words.
    words: f64,
    level: usize,
    lines: Vec<(String, Letters)>,
}

fn wide(lines: &[(String, Letters)]) -> f64 {
    // Libre Franklin's letters and figures are at most 0.56 em wide on the average.
    let of =
        |(text, letters): &(String, Letters)| 0.56 * letters.pt * MM_PER_PT * text.chars().count() as f64;
    lines.iter().map(of).fold(BLANK, f64::max)
}

/// Length of a line to write on, mm.
const BLANK: f64 = 9.0;

fn rows(blocks: Vec<(f64, Vec<(String, Letters)>)>, width: f64) -> Rows {
    const APART: f64 = 1.6;
    let mut ends: Vec<f64> = Vec::new();
    let mut set = Vec::new();
    for (middle, lines) in blocks {
        let half = 0.5 * wide(&lines);
        let at = middle.clamp(half.min(0.5 * width), (width - half).max(0.5 * width));
        let level = ends
            .iter()
            .position(|end| *end + APART <= at - half)
            .unwrap_or(ends.len());
        match ends.get_mut(level) {
            Some(end) => *end = at + half,
            None => ends.push(at + half),
        }
        set.push(Block {
            arc: middle,
            words: at,
            level,
            lines,
        });
    }
    Rows {
        levels: ends.len().max(1),
        set,
    }
}

impl Rows {
    fn write(&self, svg: &mut Svg, y: impl Fn(usize, usize) -> f64) {
        for block in &self.set {
            let at = block.words;
            for (i, (text, letters)) in block.lines.iter().enumerate() {
                let y = y(block.level, i);
                if text.is_empty() {
                    let half = 0.5 * BLANK;
                    let dotted = Stroke::dashed(0.3, &[0.3, 0.6]);
                    svg.path(
                        &[Point::new(at - half, y), Point::new(at + half, y)],
                        false,
                        None,
                        Some(dotted),
                    );
                } else {
                    svg.words(text, (at, y), Anchor::Middle, *letters);
                }
            }
        }
    }

    fn led(&self) -> impl Iterator<Item = (f64, usize)> + '_ {
        self.set.iter().filter(|b| b.level > 0).map(|b| (b.arc, b.level))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_over_narrow_arcs_do_not_touch() {
        let block = |x: f64| {
            (
                x,
                vec![("underarm".to_owned(), NAMES), ("4.0 cm".to_owned(), WORDS)],
            )
        };
        let rows = rows(
            vec![block(10.0), block(14.0), block(60.0), block(63.0), block(66.0)],
            150.0,
        );
        for (i, a) in rows.set.iter().enumerate() {
            for b in rows.set.iter().skip(i + 1).filter(|b| b.level == a.level) {
                let apart = 0.5 * (wide(&a.lines) + wide(&b.lines));
                assert!((a.words - b.words).abs() > apart, "{a:?} {b:?}");
            }
        }
        assert_eq!(rows.levels, 3);
    }
}
