//! A pattern as SVG at true scale: one group a piece, exact cut points, seam lines as the cubics they were drafted with.
//!
//! The picture is in millimetres (width and height in mm, the view box the same numbers), so any program that honours
//! units opens it true. Lines have classes, not colours: `cut`, `seam`, `fold`, `grain`, `stretch`, `notch`, `arc`,
//! `level`, `placement`, `cross`, `name`, `cut-count`; the few rules of style can be replaced as a whole. Group ids are piece keys.
//!
//! **Shapes and units.** mm, y down: y is turned over once, here. Numbers carry four decimals, 0.0001 mm.
//! **Source.** SVG 1.1 (W3C Recommendation, 2nd edition, 2011).

use std::fmt::Write as _;

use draft::{EdgeUse, Mark};
use kurbo::{BezPath, PathEl, Point, Vec2};

use crate::page_map::{PageMapData, page_map_data};
use crate::pattern::{Options, Paper, Pattern, PieceForm, Refusal};
use crate::pdf::check;
use crate::running::Running;
use crate::spread::{Laid, spread};
use crate::wording;
use crate::xml::{escape, number};

/// Free border of the picture, mm.
const BORDER: f64 = 10.0;

/// The style of pattern paper, by class.
const STYLE: &str = "path,line,circle{fill:none;stroke:#000;stroke-width:.3}.cut{stroke-width:.6}\
.seam{stroke-dasharray:4 1.6}.fold{stroke-width:.5;stroke-dasharray:7 1.4 1 1.4}.grain{stroke-width:.4}\
.stretch{stroke-width:.5}.notch{fill:#000;stroke:none}.arc{stroke-width:.45}\
.level{stroke-width:.4;stroke-dasharray:0 1.8;stroke-linecap:round}.placement{stroke-dasharray:2 1.2}\
text{font-family:'Libre Franklin',sans-serif;font-size:4px}.name{font-family:Besley,serif;font-weight:600;font-size:8px}.name,.cut-count{text-anchor:middle}";

/// All pieces of a pattern, spread out with a gap between them.
///
/// # Errors
/// [`Refusal`] with [`crate::Fault::NoPieces`] and [`crate::Fault::BrokenPiece`].
pub fn pattern(pattern: &Pattern<'_>, form: PieceForm) -> Result<String, Refusal> {
    check(
        pattern,
        &Options {
            form,
            ..Options::default()
        },
    )?;
    let spread = spread(pattern, form);
    let (w, h) = (spread.size.0 + 2.0 * BORDER, spread.size.1 + 2.0 * BORDER);
    let mut out = String::new();
    open(&mut out, w, h, &Running::of(pattern).text(), STYLE);
    for laid in &spread.laid {
        piece(&mut out, laid);
    }
    out.push_str("</svg>\n");
    Ok(out)
}

fn open(out: &mut String, w: f64, h: f64, title: &str, style: &str) {
    let (w, h) = (number(w), number(h));
    let _ = write!(
        out,
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" xml:lang=\"en\" \
         width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\">\n<title>{}</title>\n<style>{style}</style>\n",
        escape(title)
    );
}

fn piece(out: &mut String, laid: &Laid<'_>) {
    let at = |p: Point| laid.down(p) + Vec2::new(BORDER, BORDER);
    let shape = &laid.shape;
    let letter = laid.piece.letter.to_string();
    let _ = writeln!(
        out,
        "<g id=\"{}\" data-letter=\"{}\">\n<title>{}</title>",
        escape(&laid.piece.key),
        escape(&letter),
        escape(&laid.piece.name)
    );
    let mut cut = String::new();
    for (i, p) in shape.cut_line.iter().enumerate() {
        let _ = write!(cut, "{}{}", if i == 0 { "M" } else { "L" }, pair(at(*p)));
    }
    path(out, "cut", "", &format!("{cut}Z"));
    for edge in shape
        .seam_line
        .iter()
        .filter(|e| e.role != EdgeUse::Fold && !e.curve.cubics().is_empty())
    {
        let data = format!(" data-edge=\"{}\"", escape(edge.name));
        path(out, "seam", &data, &curve(&edge.curve.to_path(), &at));
    }
    if let Some((foot, head)) = shape.fold_line {
        line(out, "fold", at(foot), at(head));
    }
    line(out, "grain", at(shape.grain.from), at(shape.grain.to));
    line(out, "stretch", at(shape.stretch.from), at(shape.stretch.to));
    for notch in &shape.notches {
        let along = Vec2::new(-notch.inward.y, notch.inward.x);
        let middles: &[f64] = if notch.double { &[-3.25, 3.25] } else { &[0.0] };
        for m in middles {
            let foot = notch.at + along * *m;
            let corners = [
                foot - along * 2.5,
                foot + notch.inward * notch.depth_mm,
                foot + along * 2.5,
            ];
            let [a, b, c] = corners.map(|p| pair(at(p)));
            path(out, "notch", "", &format!("M{a}L{b}L{c}Z"));
        }
    }
    for mark in &shape.marks {
        match mark {
            Mark::Cross { at: p, text } => {
                let p = at(*p);
                let (x, y) = (Vec2::new(4.0, 0.0), Vec2::new(0.0, 4.0));
                let [a, b, c, d] = [p - x, p + x, p - y, p + y].map(pair);
                path(out, "cross", "", &format!("M{a}L{b}M{c}L{d}"));
                words(out, "", p + Vec2::new(5.0, 1.5), text);
            }
            Mark::LevelLine { from, to, text } => {
                line(out, "level", at(*from), at(*to));
                let (a, b) = (at(*from), at(*to));
                words(out, "", Point::new(a.x.min(b.x) + 8.0, a.y - 1.5), text);
            }
            Mark::Placement { curve: run, text } => {
                path(out, "placement", "", &curve(&run.to_path(), &at));
                words(out, "", at(run.start()) + Vec2::new(2.0, -2.0), text);
            }
            Mark::ArcEnd {
                at: p,
                inward,
                letter,
            } => {
                line(out, "arc", at(*p - *inward * 4.0), at(*p + *inward * 3.0));
                let middle = at(*p + *inward * 5.5);
                let (x, y) = (number(middle.x), number(middle.y));
                let _ = writeln!(out, "<circle class=\"arc\" cx=\"{x}\" cy=\"{y}\" r=\"2.5\"/>");
                words(out, "", middle + Vec2::new(-1.0, 1.4), &letter.to_string());
            }
        }
    }
    let label = at(shape.label_at);
    let name = format!("{} {}", laid.piece.letter, laid.piece.name);
    words(out, "name", label, &name);
    words(
        out,
        "",
        label + Vec2::new(0.0, 6.0),
        &wording::cut(&laid.piece.cuts),
    );
    out.push_str("</g>\n");
}

/// The page map: outlines over the tiles of a paper, letters and numbers at the edges.
///
/// One millimetre of the sheet is one unit of the view box; no width or height, so the page scales it. Classes: `tile`,
/// `outline`, `row`, `column`, `letter`.
///
/// # Errors
/// As [`crate::pdf::tiled`].
pub fn page_map(pattern: &Pattern<'_>, paper: Paper, options: &Options) -> Result<String, Refusal> {
    let map = page_map_data(pattern, paper, options)?;
    const EDGE: f64 = 60.0;
    let (step_x, step_y) = map.step_mm;
    let mut out = String::new();
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"{0} {0} {1} {2}\" role=\"img\">\n<title>Page map: {3} \
         pages of {4}</title>\n",
        number(-EDGE),
        number(map.sheet_mm.0 + EDGE + 4.0),
        number(map.sheet_mm.1 + EDGE + 4.0),
        map.printed(),
        paper.name()
    );
    for tile in map.tiles.iter().filter(|t| t.is_printed) {
        let _ = writeln!(
            out,
            "<rect class=\"tile\" data-code=\"{}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>",
            tile.code,
            number(tile.at_mm.0),
            number(tile.at_mm.1),
            number(tile.size_mm.0),
            number(tile.size_mm.1),
        );
    }
    for row in 0..map.rows {
        words(
            &mut out,
            "row",
            Point::new(-EDGE * 0.7, (row as f64 + 0.5) * step_y),
            &PageMapData::row_name(row),
        );
    }
    for column in 0..map.columns {
        words(
            &mut out,
            "column",
            Point::new((column as f64 + 0.5) * step_x, -EDGE * 0.3),
            &(column + 1).to_string(),
        );
    }
    for outline in &map.outlines {
        let mut d = String::new();
        for (i, p) in outline.points.iter().enumerate() {
            let _ = write!(d, "{}{}", if i == 0 { "M" } else { "L" }, pair(*p));
        }
        let data = format!(" data-piece=\"{}\"", escape(&outline.key));
        path(&mut out, "outline", &data, &format!("{d}Z"));
        words(&mut out, "letter", outline.letter_at, &outline.letter.to_string());
    }
    out.push_str("</svg>\n");
    Ok(out)
}

fn pair(p: Point) -> String {
    format!("{} {}", number(p.x), number(p.y))
}

fn curve(path: &BezPath, at: &impl Fn(Point) -> Point) -> String {
    let mut d = String::new();
    for el in path.elements() {
        let _ = match *el {
            PathEl::MoveTo(p) => write!(d, "M{}", pair(at(p))),
            PathEl::LineTo(p) => write!(d, "L{}", pair(at(p))),
            PathEl::QuadTo(p, q) => write!(d, "Q{} {}", pair(at(p)), pair(at(q))),
            PathEl::CurveTo(p, q, r) => write!(d, "C{} {} {}", pair(at(p)), pair(at(q)), pair(at(r))),
            PathEl::ClosePath => write!(d, "Z"),
        };
    }
    d
}

fn path(out: &mut String, class: &str, more: &str, d: &str) {
    let _ = writeln!(out, "<path class=\"{class}\"{more} d=\"{d}\"/>");
}

fn line(out: &mut String, class: &str, a: Point, b: Point) {
    let [x1, y1, x2, y2] = [a.x, a.y, b.x, b.y].map(number);
    let _ = writeln!(
        out,
        "<line class=\"{class}\" x1=\"{x1}\" y1=\"{y1}\" x2=\"{x2}\" y2=\"{y2}\"/>"
    );
}

fn words(out: &mut String, class: &str, at: Point, text: &str) {
    let class = if class.is_empty() {
        String::new()
    } else {
        format!(" class=\"{class}\"")
    };
    let (x, y) = (number(at.x), number(at.y));
    let _ = writeln!(out, "<text{class} x=\"{x}\" y=\"{y}\">{}</text>", escape(text));
}
