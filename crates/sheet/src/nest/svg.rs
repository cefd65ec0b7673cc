//! The nest as SVG: one unit is one millimetre, width and height in mm; a group a size.
//!
//! Line styles stand in attributes, so that the file needs no style sheet and prints alike everywhere.

use std::fmt::Write as _;

use kurbo::{BezPath, PathEl, Point};

use crate::ink::{Ink, Pen, Tone, What, Words};
use crate::nest::NestSheet;
use crate::nest::scene::{MARGIN, Scene};
use crate::xml::{escape, number};

pub(super) fn write(sheet: &NestSheet<'_>, scene: &Scene) -> String {
    let mut out = String::new();
    let (w, h) = scene.size;
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} {1}\">\n<title>{2}</title>\n\
         <desc>{3}</desc>\n<rect width=\"{0}\" height=\"{1}\" fill=\"#fff\"/>\n<g transform=\"translate({4} {4})\" fill=\"none\" \
         stroke=\"#000\" font-family=\"'Libre Franklin', 'Noto Sans', sans-serif\">\n",
        number(w),
        number(h),
        escape(sheet.title),
        escape(sheet.subtitle),
        number(MARGIN)
    );
    out.push_str("<g class=\"common\">\n");
    inks(&mut out, &scene.common.inks);
    out.push_str("</g>\n");
    for (name, drawing) in sheet.nest.sizes.iter().zip(&scene.sizes) {
        let _ = writeln!(
            out,
            "<g class=\"size\" data-size=\"{0}\"><title>size {0}</title>",
            escape(name)
        );
        inks(&mut out, &drawing.inks);
        out.push_str("</g>\n");
    }
    out.push_str("</g>\n</svg>\n");
    out
}

pub(crate) fn inks(out: &mut String, inks: &[Ink]) {
    for ink in inks {
        match &ink.what {
            What::Line { path, pen } => line(out, path, *pen),
            What::Fill { path, tone } => {
                let fill = match tone {
                    Tone::Black => "#000",
                    Tone::White => "#fff",
                };
                let _ = writeln!(
                    out,
                    "<path d=\"{}\" fill=\"{fill}\" stroke=\"none\"/>",
                    data(path)
                );
            }
            What::Words(words) => text(out, words),
        }
    }
}

fn line(out: &mut String, path: &BezPath, pen: Pen) {
    let _ = write!(
        out,
        "<path d=\"{}\" stroke-width=\"{}\"",
        data(path),
        number(pen.width)
    );
    if !pen.dash.is_empty() {
        let dash: Vec<String> = pen.dash.iter().map(|d| number(*d)).collect();
        let _ = write!(out, " stroke-dasharray=\"{}\"", dash.join(" "));
    }
    if pen.round {
        out.push_str(" stroke-linecap=\"round\"");
    }
    out.push_str("/>\n");
}

fn text(out: &mut String, words: &Words) {
    let (x, y) = (number(words.at.x), number(words.at.y));
    let fill = match words.tone {
        Tone::Black => "#000",
        Tone::White => "#fff",
    };
    let turn = if words.turn == 0.0 {
        String::new()
    } else {
        format!(
            " transform=\"rotate({} {x} {y})\"",
            number(words.turn.to_degrees())
        )
    };
    // Another font than ours must not run into its neighbours.
    let _ = writeln!(
        out,
        "<text x=\"{x}\" y=\"{y}\"{turn} font-size=\"{}\" textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\" fill=\"{fill}\" \
         stroke=\"none\">{}</text>",
        number(words.line.size),
        number(words.line.width),
        escape(&words.line.text())
    );
}

fn data(path: &BezPath) -> String {
    let pair = |p: Point| format!("{} {}", number(p.x), number(p.y));
    let mut d = String::new();
    for el in path.elements() {
        let _ = match *el {
            PathEl::MoveTo(p) => write!(d, "M{}", pair(p)),
            PathEl::LineTo(p) => write!(d, "L{}", pair(p)),
            PathEl::QuadTo(p, q) => write!(d, "Q{} {}", pair(p), pair(q)),
            PathEl::CurveTo(p, q, r) => write!(d, "C{} {} {}", pair(p), pair(q), pair(r)),
            PathEl::ClosePath => write!(d, "Z"),
        };
    }
    d
}
