//! Writes SVG: paths, lines and words, in mm, with as many decimals as a printer can show.
//!
//! **Limits.** Only what the drawings need; no style sheets, so that every reader and the typesetter see the same.

use std::fmt::Write as _;

use kurbo::Point;

use crate::model::Figure;

/// Ink of drawings, and the tints beside it.
pub(crate) const INK: &str = "#1D2830";
pub(crate) const SLATE: &str = "#46545E";
pub(crate) const RULE: &str = "#B9BDB8";
pub(crate) const OAT: &str = "#E4D3AB";
pub(crate) const WASH: &str = "#E3E6E1";
pub(crate) const PAPER: &str = "#FFFFFF";

/// A line's look.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stroke {
    pub(crate) width: f64,
    pub(crate) colour: &'static str,
    /// Dash and gap, mm; empty for a solid line.
    pub(crate) dash: &'static [f64],
    /// Whether its ends are round; dashes never are.
    pub(crate) is_round: bool,
}

impl Stroke {
    pub(crate) const fn solid(width: f64) -> Stroke {
        Stroke {
            width,
            colour: INK,
            dash: &[],
            is_round: true,
        }
    }

    /// A solid line that ends where it ends.
    pub(crate) const fn square(width: f64) -> Stroke {
        Stroke {
            is_round: false,
            ..Stroke::solid(width)
        }
    }

    pub(crate) const fn dashed(width: f64, dash: &'static [f64]) -> Stroke {
        Stroke {
            width,
            colour: INK,
            dash,
            is_round: false,
        }
    }

    pub(crate) const fn in_colour(self, colour: &'static str) -> Stroke {
        Stroke { colour, ..self }
    }
}

/// Which end of the words stands at the point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Anchor {
    Start,
    Middle,
    End,
}

/// How words look.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Letters {
    /// Height in points.
    pub(crate) pt: f64,
    pub(crate) is_bold: bool,
    /// Besley instead of Libre Franklin.
    pub(crate) is_voice: bool,
    pub(crate) colour: &'static str,
}

impl Letters {
    pub(crate) const fn plain(pt: f64) -> Letters {
        Letters {
            pt,
            is_bold: false,
            is_voice: false,
            colour: INK,
        }
    }

    pub(crate) const fn bold(pt: f64) -> Letters {
        Letters {
            pt,
            is_bold: true,
            is_voice: false,
            colour: INK,
        }
    }

    pub(crate) const fn voice(pt: f64) -> Letters {
        Letters {
            pt,
            is_bold: true,
            is_voice: true,
            colour: INK,
        }
    }

    pub(crate) const fn in_colour(self, colour: &'static str) -> Letters {
        Letters { colour, ..self }
    }
}

/// Millimetres of a point of type.
pub(crate) const MM_PER_PT: f64 = 25.4 / 72.0;

/// A drawing in the making.
#[derive(Debug)]
pub(crate) struct Svg {
    width: f64,
    height: f64,
    body: String,
}

/// Hundredths of a millimetre, without a minus zero or trailing noughts.
fn mm(value: f64) -> String {
    let rounded = (value * 100.0).round() / 100.0;
    if rounded == 0.0 {
        "0".to_owned()
    } else {
        format!("{rounded}")
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}

impl Svg {
    pub(crate) fn new(width: f64, height: f64) -> Svg {
        Svg {
            width,
            height,
            body: String::new(),
        }
    }

    /// A run of points, closed or open, filled or not.
    pub(crate) fn path(
        &mut self,
        points: &[Point],
        is_closed: bool,
        fill: Option<&str>,
        stroke: Option<Stroke>,
    ) {
        let mut d = String::new();
        for (i, p) in points.iter().enumerate() {
            let _ = write!(d, "{}{} {}", if i == 0 { 'M' } else { 'L' }, mm(p.x), mm(p.y));
        }
        if is_closed {
            d.push('Z');
        }
        self.shape(&d, fill, stroke);
    }

    /// A path as text.
    pub(crate) fn shape(&mut self, d: &str, fill: Option<&str>, stroke: Option<Stroke>) {
        let _ = write!(self.body, r#"<path d="{d}" fill="{}""#, fill.unwrap_or("none"));
        if let Some(stroke) = stroke {
            let _ = write!(
                self.body,
                r#" stroke="{}" stroke-width="{}" stroke-linejoin="round" stroke-linecap="{}""#,
                stroke.colour,
                mm(stroke.width),
                if stroke.is_round { "round" } else { "butt" }
            );
            if !stroke.dash.is_empty() {
                let dash: Vec<String> = stroke.dash.iter().map(|d| mm(*d)).collect();
                let _ = write!(self.body, r#" stroke-dasharray="{}""#, dash.join(" "));
            }
        }
        self.body.push_str("/>");
    }

    pub(crate) fn line(&mut self, from: (f64, f64), to: (f64, f64), stroke: Stroke) {
        self.path(
            &[Point::new(from.0, from.1), Point::new(to.0, to.1)],
            false,
            None,
            Some(stroke),
        );
    }

    pub(crate) fn rect(
        &mut self,
        at: (f64, f64),
        size: (f64, f64),
        fill: Option<&str>,
        stroke: Option<Stroke>,
    ) {
        let (x, y) = at;
        let (w, h) = size;
        let corners = [(x, y), (x + w, y), (x + w, y + h), (x, y + h)].map(|(x, y)| Point::new(x, y));
        self.path(&corners, true, fill, stroke);
    }

    pub(crate) fn circle(&mut self, at: (f64, f64), radius: f64, fill: Option<&str>, stroke: Option<Stroke>) {
        let (x, y, r) = (at.0, at.1, radius);
        let d = format!(
            "M{} {}A{r} {r} 0 1 0 {} {}A{r} {r} 0 1 0 {} {}Z",
            mm(x - r),
            mm(y),
            mm(x + r),
            mm(y),
            mm(x - r),
            mm(y),
            r = mm(r)
        );
        self.shape(&d, fill, stroke);
    }

    /// Words with their baseline at `y`.
    pub(crate) fn words(&mut self, text: &str, at: (f64, f64), anchor: Anchor, letters: Letters) {
        let anchor = match anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let (family, weight) = match (letters.is_voice, letters.is_bold) {
            (true, true) => ("Besley", 600),
            (true, false) => ("Besley", 500),
            (false, true) => ("Libre Franklin", 600),
            (false, false) => ("Libre Franklin", 400),
        };
        let _ = write!(
            self.body,
            r#"<text x="{}" y="{}" text-anchor="{anchor}" font-family="{family}" font-weight="{weight}" font-size="{}" fill="{}">{}</text>"#,
            mm(at.0),
            mm(at.1),
            mm(letters.pt * MM_PER_PT),
            letters.colour,
            escaped(text)
        );
    }

    /// An arrow head of two strokes at `tip`, pointing along `way`.
    pub(crate) fn head(&mut self, tip: Point, way: kurbo::Vec2, size: f64, stroke: Stroke) {
        let length = way.hypot();
        if length <= 0.0 {
            return;
        }
        let along = way / length * size;
        let side = kurbo::Vec2::new(-along.y, along.x) * 0.5;
        self.path(
            &[tip - along + side, tip, tip - along - side],
            false,
            None,
            Some(stroke),
        );
    }

    pub(crate) fn finish(self, alt: String, caption: String) -> Figure {
        let (w, h) = (mm(self.width), mm(self.height));
        Figure {
            svg: format!(
                r#"<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}">{}</svg>"#,
                self.body
            ),
            width_mm: self.width,
            height_mm: self.height,
            alt,
            caption,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drawing_is_well_formed_whatever_it_says() {
        let mut svg = Svg::new(10.0, 5.0);
        svg.words("<b> & \"c\"", (1.0, 2.0), Anchor::Start, Letters::plain(9.0));
        svg.line((0.0, -0.0001), (3.0, 1.005), Stroke::dashed(0.3, &[2.0, 1.0]));
        let figure = svg.finish("alt".into(), String::new());
        let read = roxmltree::Document::parse(&figure.svg).expect("well formed");
        let words = read
            .descendants()
            .find(|n| n.has_tag_name("text"))
            .expect("words");
        assert_eq!(words.text(), Some("<b> & \"c\""));
        assert!(figure.svg.contains("M0 0L3 1"), "{}", figure.svg);
    }
}
