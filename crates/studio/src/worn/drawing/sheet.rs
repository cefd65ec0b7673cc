//! The page a worn suit is drawn on: where the form's frame lies on it, its words and lines.
//!
//! A sheet has a view box and no size: it takes the width of the column it is put in, and its words are set so that they can be read from
//! 600 pixels on.
//!
//! **Shapes and units.** The form's frame in mm, y up; page units of about a pixel at 700 wide, y down.

use std::fmt::Write;

use super::Side;
use crate::worn::OnForm;

/// How far down the page a millimetre towards the eye lies: a look from a little above, so that rings are round.
pub(super) const TILT: f64 = 0.16;
pub(super) const GROUND: &str = "#FBFAF4";
pub(super) const INK: &str = "#1D2830";
pub(super) const SLATE: &str = "#46545E";
pub(super) const PENCIL: &str = "#4B5157";
pub(super) const RULE: &str = "#B9BDB8";
pub(super) const CLOTH: &str = "#E4E4DC";
pub(super) const OAT: &str = "#E4D3AB";
pub(super) const SERIF: &str = "Besley, Georgia, serif";
pub(super) const SANS: &str = "'Libre Franklin', 'Helvetica Neue', Arial, sans-serif";
/// Width of every sheet, page units.
pub(super) const WIDTH: f64 = 700.0;
pub(super) const MARGIN: f64 = 24.0;
/// Size of the small words.
pub(super) const SMALL: f64 = 15.0;
/// Mean width of a letter over the size of its type: 0.43 in the narrower faces, measured on the sheets, with room for wider ones.
const LETTER: f64 = 0.48;
/// The same of a figure.
const DIGIT: f64 = 0.58;

/// About how wide a text is, page units.
pub(super) fn width_of(text: &str, size: f64) -> f64 {
    text.chars().count() as f64 * LETTER * size
}

/// About how wide a number is, page units.
pub(super) fn width_of_number(text: &str, size: f64) -> f64 {
    text.chars().count() as f64 * DIGIT * size
}

/// A text in lines no wider than so much.
pub(super) fn wrapped(text: &str, size: f64, width: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if width_of(line, size) + width_of(word, size) + LETTER * size <= width => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

pub(super) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

/// Where the figure of one side lies on the page.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    pub(super) side: Side,
    /// Page units for a millimetre of the body.
    pub(super) scale: f64,
    /// Of the form as it is seen, mm: its left and its top.
    from: [f64; 2],
    /// Where those lie on the page.
    at: [f64; 2],
    /// Size on the page.
    pub(super) size: [f64; 2],
}

/// How far what is drawn reaches as a side sees it: least and greatest, mm.
fn extent(on: &OnForm, side: Side) -> ([f64; 2], [f64; 2]) {
    let (mut low, mut high) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
    let mut take = |p: [f64; 3]| {
        let seen = [side.across(p), p[1] - TILT * side.near(p)];
        for (i, q) in seen.into_iter().enumerate() {
            low[i] = low[i].min(q);
            high[i] = high[i].max(q);
        }
    };
    on.drawn_points().for_each(&mut take);
    (low, high)
}

impl Place {
    /// The figure in the middle of a box of that width, as large as its front is in it: all sides have one scale.
    pub(super) fn new(on: &OnForm, side: Side, corner: [f64; 2], width: f64) -> Place {
        let (low, high) = extent(on, Side::Front);
        let scale = width / (high[0] - low[0]).max(1.0);
        let (low, high) = extent(on, side);
        let size = [(high[0] - low[0]) * scale, (high[1] - low[1]) * scale];
        Place {
            side,
            scale,
            from: [low[0], high[1]],
            at: [corner[0] + (width - size[0]) / 2.0, corner[1]],
            size,
        }
    }

    pub(super) fn y(&self, height_mm: f64) -> f64 {
        self.at[1] + (self.from[1] - height_mm) * self.scale
    }

    pub(super) fn bottom(&self) -> f64 {
        self.at[1] + self.size[1]
    }

    pub(super) fn at(&self, p: [f64; 3]) -> [f64; 2] {
        let x = self.at[0] + (self.side.across(p) - self.from[0]) * self.scale;
        [x, self.y(p[1] - TILT * self.side.near(p))]
    }

    pub(super) fn spot(&self, p: [f64; 3]) -> String {
        let [x, y] = self.at(p);
        format!("{x:.1} {y:.1}")
    }
}

/// A sheet under the pen.
#[derive(Debug, Default)]
pub(super) struct Sheet {
    body: String,
}

impl Sheet {
    pub(super) fn put(&mut self, text: &str) {
        self.body += text;
        self.body.push('\n');
    }

    pub(super) fn words(&mut self, (x, y): (f64, f64), style: &str, text: &str) {
        let _ = writeln!(
            self.body,
            "<text x=\"{x:.1}\" y=\"{y:.1}\" {style}>{}</text>",
            escaped(text)
        );
    }

    pub(super) fn line(&mut self, [x, y]: [f64; 2], [u, v]: [f64; 2], style: &str) {
        let _ = writeln!(self.body, "<path d=\"M{x:.1} {y:.1}L{u:.1} {v:.1}\" {style}/>");
    }

    /// Title and what the sheet rests on; the height they take.
    pub(super) fn head(&mut self, on: &OnForm, title: &str) -> f64 {
        let width = WIDTH - 2.0 * MARGIN;
        let mut y = 14.0;
        let style = format!("fill=\"{INK}\" font-family=\"{SERIF}\" font-size=\"22\"");
        for line in wrapped(title, 22.0, width) {
            y += 27.0;
            self.words((MARGIN, y), &style, &line);
        }
        let report = &on.report;
        let says = format!(
            "{}; {} cloth, friction {:.1}; solved in {} steps, {:.0e} N left. The body is rigid.",
            report.scene,
            report.cloth,
            report.friction,
            report.convergence.steps,
            report.convergence.residual_n
        );
        y += 4.0;
        for line in wrapped(&says, SMALL, width) {
            y += 20.0;
            self.words((MARGIN, y), &small(SLATE), &line);
        }
        y + 26.0
    }

    /// The finished drawing.
    pub(super) fn done(self, height: f64, title: &str) -> String {
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH:.0} {height:.0}\" role=\"img\" fill=\"none\" stroke-linecap=\"round\" stroke-linejoin=\"round\">\n<title>{}</title>\n<rect width=\"{WIDTH:.0}\" height=\"{height:.0}\" fill=\"{GROUND}\"/>\n{}</svg>\n",
            escaped(title),
            self.body
        )
    }
}

/// The style of small words.
pub(super) fn small(ink: &str) -> String {
    format!("fill=\"{ink}\" font-family=\"{SANS}\" font-size=\"{SMALL}\"")
}
