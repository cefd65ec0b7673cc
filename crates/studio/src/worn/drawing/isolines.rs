//! The worn suit as isolines with numbers: stretch around and lengthwise, and the squeeze.
//!
//! The weight of a line and its number carry the meaning; where the cloth is shorter than cut the line is broken. Colour only helps: it is
//! a published uniform scale that readers with any colour vision see in order, from its lighter to its darker half, so that every
//! line stands on the cloth. Nothing is filled by value.
//!
//! **Source.** Colours: viridis by S. van der Walt and N. Smith (2015, public domain), ten even steps of it, value from memory.
//! **Limits.** Values are smoothed over neighbouring points. Numbers stand on her left half; the right is alike.

use std::fmt::Write;

use super::Side;
use super::contour::{LABEL, Line, labels, lines};
use super::figure::{Seen, cloth, form_rings, open_edges, seen, smoothed};
use super::hidden::Depth;
use super::sheet::{
    CLOTH, INK, MARGIN, Place, SANS, SERIF, SLATE, SMALL, Sheet, WIDTH, small, width_of_number, wrapped,
};
use crate::worn::OnForm;

/// What isolines are drawn of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Isolines {
    /// Worn stretch around and lengthwise, a figure each.
    Stretch,
    /// Pressure on the skin.
    Squeeze,
}

impl Isolines {
    /// Both.
    pub const ALL: [Isolines; 2] = [Isolines::Stretch, Isolines::Squeeze];

    /// In file names.
    pub const fn key(self) -> &'static str {
        match self {
            Isolines::Stretch => "stretch",
            Isolines::Squeeze => "squeeze",
        }
    }

    const fn words(self) -> &'static str {
        match self {
            Isolines::Stretch => "worn stretch",
            Isolines::Squeeze => "the squeeze",
        }
    }

    const fn quantities(self) -> &'static [Quantity] {
        match self {
            Isolines::Stretch => &[Quantity::Around, Quantity::Lengthwise],
            Isolines::Squeeze => &[Quantity::Pressure],
        }
    }
}

/// One number of the cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Quantity {
    Around,
    Lengthwise,
    Pressure,
}

impl Quantity {
    const fn words(self) -> &'static str {
        match self {
            Quantity::Around => "around, %",
            Quantity::Lengthwise => "lengthwise, %",
            Quantity::Pressure => "pressure on the skin, kPa",
        }
    }

    const fn steps(self) -> &'static [f64] {
        match self {
            Quantity::Around | Quantity::Lengthwise => &[1.0, 2.0, 5.0, 10.0, 20.0, 50.0],
            Quantity::Pressure => &[0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0],
        }
    }

    fn text(self, level: f64) -> String {
        match self {
            Quantity::Around | Quantity::Lengthwise => {
                let sign = if level < -0.5 { "−" } else { "" };
                format!("{sign}{:.0}", level.abs())
            }
            Quantity::Pressure if level < 0.1 => format!("{level:.2}"),
            Quantity::Pressure => format!("{level:.1}"),
        }
    }

    /// At every vertex of the shell, smoothed.
    fn values(self, on: &OnForm) -> Vec<Option<f64>> {
        let shell = &on.worn.shell;
        let raw: Vec<f64> = match self {
            Quantity::Pressure => on.worn.pressure_kpa.clone(),
            Quantity::Around => stretch(shell, 1),
            Quantity::Lengthwise => stretch(shell, 0),
        };
        let smooth = smoothed(on, &raw);
        shell.iter().zip(smooth).map(|(s, v)| s.map(|_| v)).collect()
    }
}

fn stretch(shell: &[Option<[f64; 2]>], axis: usize) -> Vec<f64> {
    let of = |s: &Option<[f64; 2]>| s.map_or(0.0, |s| 100.0 * (s[axis] - 1.0));
    shell.iter().map(of).collect()
}

/// The darker half of viridis, light to dark.
const COLOURS: [&str; 5] = ["#26828E", "#31688E", "#3E4989", "#482878", "#440154"];
/// Weights of the lines, page units: lowest and highest.
const WEIGHTS: (f64, f64) = (0.8, 2.8);
/// No more levels than these: more lines than a maker reads.
const MOST_LEVELS: usize = 8;
const GUTTER: f64 = 28.0;
/// Width of a figure that stands alone.
const ALONE: f64 = 440.0;

/// The levels of a quantity over the cloth: even steps between its twentieth and nineteen twentieths.
fn levels(quantity: Quantity, values: &[Option<f64>]) -> Vec<f64> {
    let mut all: Vec<f64> = values.iter().flatten().copied().collect();
    all.sort_by(f64::total_cmp);
    let (Some(first), Some(last)) = (all.first(), all.last()) else {
        return Vec::new();
    };
    let at = |share: f64| {
        all.get(((all.len() - 1) as f64 * share).round() as usize)
            .copied()
    };
    let (low, high) = (at(0.05).unwrap_or(*first), at(0.98).unwrap_or(*last));
    let steps = quantity.steps();
    let even = |step: f64| -> Vec<f64> {
        let (from, to) = ((low / step).ceil() as i64, (high / step).floor() as i64);
        (from..=to).map(|i| i as f64 * step).collect()
    };
    let mut levels = steps
        .iter()
        .map(|s| even(*s))
        .find(|l| l.len() <= MOST_LEVELS)
        .unwrap_or_default();
    // No pressure is no line: the cloth's own edge says where it ends.
    levels.retain(|l| quantity != Quantity::Pressure || *l > 0.0);
    levels
}

/// Weight, colour and rhythm of a level.
fn pen(number: usize, count: usize, level: f64) -> String {
    let share = if count > 1 {
        number as f64 / (count - 1) as f64
    } else {
        1.0
    };
    let weight = WEIGHTS.0 + (WEIGHTS.1 - WEIGHTS.0) * share;
    let colour = COLOURS[(share * (COLOURS.len() - 1) as f64).round() as usize];
    let broken = if level < 0.0 {
        " stroke-dasharray=\"5 4\""
    } else {
        ""
    };
    format!("stroke=\"{colour}\" stroke-width=\"{weight:.2}\"{broken}")
}

/// The sheet of one side.
pub fn draw_isolines(on: &OnForm, name: &str, side: Side, what: Isolines) -> String {
    let title = format!("{name}, {}, {}", what.words(), side.words());
    let mut sheet = Sheet::default();
    let mut top = sheet.head(on, &title);
    let quantities = what.quantities();
    let width = match quantities.len() {
        1 => ALONE,
        n => (WIDTH - 2.0 * MARGIN - GUTTER * (n - 1) as f64) / n as f64,
    };
    let left = match quantities.len() {
        1 => (WIDTH - ALONE) / 2.0,
        _ => MARGIN,
    };
    if quantities.len() > 1 {
        top += 20.0;
    }
    let mut bottom = top;
    for (i, quantity) in quantities.iter().enumerate() {
        let corner = [left + i as f64 * (width + GUTTER), top];
        if quantities.len() > 1 {
            let style = format!("fill=\"{INK}\" font-family=\"{SERIF}\" font-size=\"17\"");
            sheet.words((corner[0], top - 14.0), &style, quantity.words());
        }
        let place = Place::new(on, side, corner, width);
        let foot = figure(&mut sheet, on, &place, *quantity, (corner[0], width));
        bottom = f64::max(bottom, foot);
    }
    let mut says =
        String::from("Numbers stand on her left half; her right is alike. Heavier and darker is more");
    if what == Isolines::Stretch {
        says += "; a broken line is cloth shorter than it was cut";
    }
    says += ". Colours: viridis.";
    if what == Isolines::Squeeze && !on.report.cloth_weighed {
        says += " The force of this cloth was assumed: compare places, don't trust the number.";
    }
    let mut y = bottom + 8.0;
    for line in wrapped(&says, SMALL, WIDTH - 2.0 * MARGIN) {
        y += 20.0;
        sheet.words((MARGIN, y), &small(SLATE), &line);
    }
    sheet.done(y + MARGIN, &title)
}

/// A figure with its lines, numbers and legend; where it ends.
fn figure(
    sheet: &mut Sheet,
    on: &OnForm,
    place: &Place,
    quantity: Quantity,
    (left, width): (f64, f64),
) -> f64 {
    form_rings(sheet, place, on);
    cloth(sheet, place, on);
    let depth = Depth::of(on, place, place.bottom() + 200.0);
    let in_sight: Vec<Seen> = seen(on, place.side)
        .filter(|t| {
            let middle = [0, 1, 2].map(|k| t.at.iter().map(|p| p[k]).sum::<f64>() / 3.0);
            depth.is_seen(middle)
        })
        .collect();
    let values = quantity.values(on);
    let levels = levels(quantity, &values);
    let value = |v: usize| values.get(v).copied().flatten();
    let lines = lines(&in_sight, &value, place, &levels);
    for (number, level) in levels.iter().enumerate() {
        let path = path(lines.iter().filter(|l| l.level == number));
        if !path.is_empty() {
            let pen = pen(number, levels.len(), *level);
            sheet.put(&format!("<path d=\"{path}\" {pen}/>"));
        }
    }
    super::strap::straps(sheet, place, on);
    open_edges(sheet, place, on);
    let texts: Vec<String> = levels.iter().map(|l| quantity.text(*l)).collect();
    let is_free = |b: [f64; 4]| b[0] > left && b[2] < left + width && depth.is_on_cloth(b);
    for label in labels(&lines, &texts, &is_free) {
        let [x, y] = label.at;
        let style = format!(
            "fill=\"{INK}\" font-family=\"{SANS}\" font-size=\"{LABEL}\" text-anchor=\"middle\" stroke=\"{CLOTH}\" stroke-width=\"4\" paint-order=\"stroke\""
        );
        sheet.words((x, y + LABEL * 0.36), &style, &label.text);
    }
    legend(sheet, quantity, &levels, (left, place.bottom() + 30.0, width))
}

fn path<'a>(lines: impl Iterator<Item = &'a Line>) -> String {
    let mut path = String::new();
    for line in lines {
        for (i, [x, y]) in line.points.iter().enumerate() {
            let _ = write!(path, "{}{x:.1} {y:.1}", if i == 0 { 'M' } else { 'L' });
        }
    }
    path
}

/// Every level with its line, and the unit; where it ends.
fn legend(sheet: &mut Sheet, quantity: Quantity, levels: &[f64], (left, top, width): (f64, f64, f64)) -> f64 {
    let style = small(SLATE);
    let (mut x, mut y) = (left, top);
    for line in wrapped(&format!("Lines of {}:", quantity.words()), SMALL, width) {
        sheet.words((x, y), &style, &line);
        y += 22.0;
    }
    for (number, level) in levels.iter().enumerate() {
        let text = quantity.text(*level);
        let wide = 22.0 + 6.0 + width_of_number(&text, SMALL) + 14.0;
        if x + wide > left + width && x > left {
            (x, y) = (left, y + 22.0);
        }
        sheet.line(
            [x, y - 5.0],
            [x + 22.0, y - 5.0],
            &pen(number, levels.len(), *level),
        );
        sheet.words((x + 28.0, y), &style, &text);
        x += wide;
    }
    y
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn levels_are_even_few_and_within_the_cloth() {
        let values: Vec<Option<f64>> = (0..200).map(|i| Some(-8.0 + 0.15 * f64::from(i))).collect();
        let found = levels(Quantity::Lengthwise, &values);
        assert!(found.len() >= 4 && found.len() <= MOST_LEVELS, "{found:?}");
        let step = found[1] - found[0];
        assert!(
            found.windows(2).all(|w| (w[1] - w[0] - step).abs() < 1e-9),
            "{found:?}"
        );
        assert!(found.iter().all(|l| *l > -8.0 && *l < 22.0), "{found:?}");
        let none: Vec<Option<f64>> = vec![None; 4];
        assert!(levels(Quantity::Pressure, &none).is_empty());
        assert!(
            levels(Quantity::Pressure, &[Some(0.0), Some(0.0), Some(0.3)])
                .iter()
                .all(|l| *l > 0.0)
        );
        assert_eq!(Quantity::Around.text(-5.0), "−5");
        assert_eq!(Quantity::Around.text(-0.0), "0");
    }
}
