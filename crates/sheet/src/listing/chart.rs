//! A session drawn as bars: machines or people down, minutes across.
//!
//! Letters tell the people apart, not tones: it is copied, and read across a room. A bar at a machine has a heavy line and stands full;
//! work by hand is lower and light.
//!
//! **Shapes and units.** mm from the chart's upper left corner, y down.

use kurbo::{Point, Rect, Shape as _};

use super::{Bar, Chart};
use crate::ink::{Drawing, PAPER, Pen, Role, Tone, pens};
use crate::lettering::{Face, LEAST, Lettering, NOTE};

/// Height of a row.
const ROW: f64 = 8.0;
/// Room above the rows for the hours.
const ABOVE: f64 = 7.0;
/// Most room for the names at the left.
const NAMES: f64 = 46.0;
const HEAVY: Pen = Pen::solid(0.5);
const LIGHT: Pen = Pen::solid(0.2);

/// How high a chart is drawn.
pub(super) fn height(chart: &Chart) -> f64 {
    ABOVE + ROW * chart.rows.len() as f64 + 2.0
}

/// Minutes between two lines: 15 for a session of up to three hours, 30 to six, 60 above.
fn step(minutes: u32) -> u32 {
    match minutes {
        0..=60 => 5,
        61..=200 => 15,
        201..=400 => 30,
        _ => 60,
    }
}

/// `1:15`.
fn clock(minute: u32) -> String {
    format!("{}:{:02}", minute / 60, minute % 60)
}

/// The chart in a given width.
pub(super) fn draw(chart: &Chart, letters: &Lettering, width: f64) -> Drawing {
    let mut d = Drawing::default();
    let names: Vec<_> = chart
        .rows
        .iter()
        .map(|r| letters.fit(Face::Text, NOTE, &r.name, NAMES))
        .collect();
    let left = names.iter().map(|l| l.width).fold(0.0, f64::max) + 4.0;
    let scale = (width - left) / f64::from(chart.minutes.max(1));
    let x = |minute: u32| left + f64::from(minute) * scale;
    let foot = ABOVE + ROW * chart.rows.len() as f64;
    let step = step(chart.minutes);
    let mut last_word = f64::NEG_INFINITY;
    for minute in (0..=chart.minutes).step_by(step as usize) {
        let at = x(minute);
        d.line(
            PAPER,
            pens::RULE,
            Point::new(at, ABOVE - 1.0),
            Point::new(at, foot),
        );
        let word = letters.line(Face::Text, LEAST, &clock(minute));
        let from = (at - 0.5 * word.width).min(width - word.width);
        if from > last_word + 1.5 {
            last_word = from + word.width;
            d.words(PAPER, word, Point::new(from, ABOVE - 2.4), Role::Aside);
        }
    }
    let end = x(chart.minutes);
    d.line(PAPER, HEAVY, Point::new(end, ABOVE - 1.0), Point::new(end, foot));
    for (at, (row, name)) in chart.rows.iter().zip(names).enumerate() {
        let top = ABOVE + ROW * at as f64;
        let number = d.next_number();
        let base = Point::new(0.0, top + 0.5 * ROW + 0.35 * NOTE);
        d.words(PAPER, name, base, Role::Paragraph(number));
        d.line(
            PAPER,
            pens::RULE,
            Point::new(0.0, top + ROW),
            Point::new(end, top + ROW),
        );
        for bar in &row.bars {
            bar_at(&mut d, letters, bar, (x(bar.from), x(bar.to)), top);
        }
    }
    d.line(
        PAPER,
        pens::GRAIN,
        Point::new(left, ABOVE),
        Point::new(left, foot),
    );
    d
}

fn bar_at(d: &mut Drawing, letters: &Lettering, bar: &Bar, (from, to): (f64, f64), top: f64) {
    let inset = if bar.is_heavy { 0.9 } else { 1.7 };
    let rect = Rect::new(
        from + 0.15,
        top + inset,
        (to - 0.15).max(from + 0.4),
        top + ROW - inset,
    );
    d.fill(PAPER, Tone::White, rect.to_path(0.1));
    d.rect(PAPER, if bar.is_heavy { HEAVY } else { LIGHT }, rect);
    let face = if bar.is_heavy { Face::Strong } else { Face::Text };
    for label in &bar.labels {
        let line = letters.line(face, LEAST, label);
        if line.width <= rect.width() - 0.8 {
            let at = Point::new(rect.center().x - 0.5 * line.width, rect.center().y + 0.36 * LEAST);
            d.words(PAPER, line, at, Role::Aside);
            return;
        }
    }
}
