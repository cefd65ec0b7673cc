//! The exchange file for pattern programs, laid out after ASTM D6673: one block a piece, numbered layers, 7-bit text.
//!
//! Written as plain release 12 text: group codes are simple, and the standard wants old-style polylines that need
//! neither handles nor classes. Layers: 1 piece boundary and piece texts, 2 turn points, 3 curve points, 4 notches,
//! 6 mirror line (halves only), 7 grain, 8 internal lines, 13 drill holes, 14 sew lines, 15 annotation. Names and
//! numbers of layers are from `data/trade/d6673_layers.csv`; **the texts' wording, the notch's depth (group 39) and
//! angle (group 50), and which points count as curve points are from memory** and to be checked against the standard.
//! Two seam lines of one piece are never merged, and nothing is graded: there is one size.
//!
//! **Shapes and units.** mm, y up; blocks in the piece frame, inserted apart from each other. Curves as lines within
//! 0.05 mm, the cut line as drafted.
//! **Source.** ASTM D6673 (layers as cited above); DXF release 12 group codes (public reference of the format).
//! **Limits.** The greatest stretch has no layer: it stands as text on 15. Names become ASCII (`größe` as `grosse`).

use std::fmt::Write as _;

use draft::{Mark, Piece};
use kurbo::{Point, Vec2};

use super::{FLATTEN_MM, arc_stroke, is_closed, seam_runs};
use crate::pattern::{Options, Pattern, PieceForm, Refusal};
use crate::pdf::check;
use crate::spread::{Laid, spread};
use crate::wording;

/// A turn point: the cut line turns by more than this at once, radians (own; sampled curves turn by less).
const TURN: f64 = 0.20;
/// A point of a curve turns by more than this, radians; less is a straight line.
const BEND: f64 = 2e-4;

/// The pattern as an exchange file.
///
/// # Errors
/// [`Refusal`] with [`crate::Fault::NoPieces`] and [`crate::Fault::BrokenPiece`].
pub fn exchange(pattern: &Pattern<'_>, form: PieceForm) -> Result<Vec<u8>, Refusal> {
    check(
        pattern,
        &Options {
            form,
            ..Options::default()
        },
    )?;
    let spread = spread(pattern, form);
    let names = block_names(&spread.laid);
    let mut out = Codes::default();
    out.section("HEADER");
    out.text(9, "$ACADVER");
    out.text(1, "AC1009");
    for (name, p) in [
        ("$EXTMIN", Point::ZERO),
        ("$EXTMAX", Point::new(spread.size.0, spread.size.1)),
    ] {
        out.text(9, name);
        out.point(p);
    }
    out.end_section();
    out.section("TABLES");
    out.layers();
    out.end_section();
    out.section("BLOCKS");
    for (laid, name) in spread.laid.iter().zip(&names) {
        block(&mut out, pattern, laid, name);
    }
    out.end_section();
    out.section("ENTITIES");
    for (laid, name) in spread.laid.iter().zip(&names) {
        out.text(0, "INSERT");
        out.text(8, "1");
        out.text(2, name);
        out.point(laid.offset_up(spread.size.1).to_point());
    }
    let mut y = -20.0;
    for words in [
        format!("STYLE NAME: {}", pattern.suit),
        "SAMPLE SIZE: ONE".to_owned(),
        "UNITS: METRIC".to_owned(),
        format!("AUTHOR: SLACKWATER, VERSION {}", pattern.version),
    ] {
        out.words("1", Point::new(0.0, y), 5.0, &words);
        y -= 10.0;
    }
    out.end_section();
    out.text(0, "EOF");
    Ok(out.0.into_bytes())
}

/// ASCII names, unique whatever the keys are.
fn block_names(laid: &[Laid<'_>]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for l in laid {
        let plain: String = ascii(&l.piece.key)
            .to_uppercase()
            .chars()
            .map(|c| {
                if c.is_ascii_alphanumeric() || c == '_' {
                    c
                } else {
                    '_'
                }
            })
            .take(24)
            .collect();
        let mut name = if plain.is_empty() {
            "PIECE".to_owned()
        } else {
            plain.clone()
        };
        let mut n = 2;
        while names.contains(&name) {
            name = format!("{plain}_{n}");
            n += 1;
        }
        names.push(name);
    }
    names
}

fn block(out: &mut Codes, pattern: &Pattern<'_>, laid: &Laid<'_>, name: &str) {
    let shape = &laid.shape;
    out.text(0, "BLOCK");
    out.text(8, "1");
    out.text(2, name);
    out.text(70, "0");
    out.point(Point::ZERO);
    out.text(3, name);
    out.polyline("1", &shape.cut_line, true);
    let n = shape.cut_line.len();
    for (i, p) in shape.cut_line.iter().enumerate() {
        let (Some(a), Some(b)) = (
            shape.cut_line.get((i + n - 1) % n),
            shape.cut_line.get((i + 1) % n),
        ) else {
            continue;
        };
        let turn = turn_at(*a, *p, *b);
        if turn > TURN {
            out.dot("2", *p, None);
        } else if turn > BEND {
            out.dot("3", *p, None);
        }
    }
    for notch in &shape.notches {
        let along = Vec2::new(-notch.inward.y, notch.inward.x);
        let middles: &[f64] = if notch.double { &[-3.25, 3.25] } else { &[0.0] };
        for m in middles {
            out.dot(
                "4",
                notch.at + along * *m,
                Some((notch.depth_mm, notch.inward.atan2().to_degrees())),
            );
        }
    }
    if let Some((foot, head)) = shape.fold_line {
        out.line(if shape.fold_is_edge { "6" } else { "8" }, foot, head);
    }
    out.line("7", shape.grain.from, shape.grain.to);
    for run in seam_runs(shape) {
        let closed = is_closed(&run);
        let points = if closed {
            run.get(..run.len() - 1).unwrap_or_default()
        } else {
            &run
        };
        out.polyline("14", points, closed);
    }
    for mark in &shape.marks {
        match mark {
            Mark::Cross { at, text } => {
                out.dot("13", *at, None);
                out.words("15", *at + Vec2::new(3.0, 0.0), 4.0, text);
            }
            Mark::LevelLine { from, to, text } => {
                out.line("8", *from, *to);
                out.words("15", *from + Vec2::new(3.0, 1.0), 4.0, text);
            }
            Mark::Placement { curve, text } => {
                out.polyline("8", &curve.flatten(FLATTEN_MM), false);
                out.words("15", curve.start() + Vec2::new(3.0, 1.0), 4.0, text);
            }
            Mark::ArcEnd { at, inward, letter } => {
                let (from, to) = arc_stroke(*at, *inward);
                out.line("8", from, to);
                out.words("15", to, 4.0, &letter.to_string());
            }
        }
    }
    texts(out, pattern, laid.piece, shape.label_at, shape.stretch);
    out.text(0, "ENDBLK");
    out.text(8, "1");
}

/// Piece texts on layer 1, notes for people on layer 15.
fn texts(out: &mut Codes, pattern: &Pattern<'_>, piece: &Piece, at: Point, stretch: draft::Arrow) {
    let mut y = at.y;
    let mut line = |out: &mut Codes, layer: &str, words: &str| {
        out.words(layer, Point::new(at.x, y), 4.0, words);
        y -= 6.0;
    };
    line(out, "1", &format!("PIECE NAME: {} {}", piece.letter, piece.name));
    line(out, "1", "SIZE: ONE");
    for cut in &piece.cuts {
        let pair = if cut.mirrored { cut.count / 2 } else { 0 };
        line(out, "1", &format!("QUANTITY: {},{pair}", cut.count - pair));
        let cloth = wording::layer_plan(pattern.cloth, cut.layer).map_or("", |p| p.cloth.as_str());
        line(out, "1", &format!("MATERIAL: {} {cloth}", cut.layer.name()));
    }
    line(
        out,
        "15",
        &format!(
            "{}, {}, version {}",
            pattern.suit, pattern.wearer, pattern.version
        ),
    );
    line(out, "15", &wording::allowances(piece));
    let is_around = (stretch.to.x - stretch.from.x).abs() >= (stretch.to.y - stretch.from.y).abs();
    if let Some(words) = wording::stretch(piece, is_around, pattern.cloth)
        .first()
        .and_then(|l| l.first())
    {
        out.words("15", stretch.from + Vec2::new(0.0, 2.0), 4.0, words);
    }
}

fn turn_at(a: Point, p: Point, b: Point) -> f64 {
    let (u, v) = (p - a, b - p);
    if u.hypot() < 1e-9 || v.hypot() < 1e-9 {
        0.0
    } else {
        u.cross(v).atan2(u.dot(v)).abs()
    }
}

/// 7-bit text on one line, at most the 255 characters release 12 allows.
fn ascii(text: &str) -> String {
    any_ascii::any_ascii(text)
        .chars()
        .map(|c| {
            if c.is_ascii() && !c.is_ascii_control() {
                c
            } else {
                ' '
            }
        })
        .take(255)
        .collect::<String>()
        .trim()
        .to_owned()
}

/// Group codes, one value a line.
#[derive(Default)]
struct Codes(String);

impl Codes {
    fn text(&mut self, code: u16, value: &str) {
        let _ = write!(self.0, "{code:>3}\r\n{value}\r\n");
    }

    fn real(&mut self, code: u16, value: f64) {
        // Four decimals; never a negative zero.
        self.text(
            code,
            &format!("{:.4}", if value.abs() < 5e-5 { 0.0 } else { value }),
        );
    }

    fn section(&mut self, name: &str) {
        self.text(0, "SECTION");
        self.text(2, name);
    }

    fn end_section(&mut self) {
        self.text(0, "ENDSEC");
    }

    fn point(&mut self, p: Point) {
        self.real(10, p.x);
        self.real(20, p.y);
        self.real(30, 0.0);
    }

    fn layers(&mut self) {
        const LAYERS: [&str; 10] = ["1", "2", "3", "4", "6", "7", "8", "13", "14", "15"];
        self.text(0, "TABLE");
        self.text(2, "LTYPE");
        self.text(70, "1");
        self.text(0, "LTYPE");
        self.text(2, "CONTINUOUS");
        self.text(70, "0");
        self.text(3, "Solid line");
        self.text(72, "65");
        self.text(73, "0");
        self.real(40, 0.0);
        self.text(0, "ENDTAB");
        self.text(0, "TABLE");
        self.text(2, "LAYER");
        self.text(70, &LAYERS.len().to_string());
        for layer in LAYERS {
            self.text(0, "LAYER");
            self.text(2, layer);
            self.text(70, "0");
            self.text(62, "7");
            self.text(6, "CONTINUOUS");
        }
        self.text(0, "ENDTAB");
    }

    fn polyline(&mut self, layer: &str, points: &[Point], closed: bool) {
        self.text(0, "POLYLINE");
        self.text(8, layer);
        self.text(66, "1");
        self.point(Point::ZERO);
        self.text(70, if closed { "1" } else { "0" });
        for p in points {
            self.text(0, "VERTEX");
            self.text(8, layer);
            self.point(*p);
        }
        self.text(0, "SEQEND");
        self.text(8, layer);
    }

    fn line(&mut self, layer: &str, from: Point, to: Point) {
        self.text(0, "LINE");
        self.text(8, layer);
        self.point(from);
        self.real(11, to.x);
        self.real(21, to.y);
        self.real(31, 0.0);
    }

    /// A point; a notch has its depth and the angle it points to, degrees.
    fn dot(&mut self, layer: &str, at: Point, notch: Option<(f64, f64)>) {
        self.text(0, "POINT");
        self.text(8, layer);
        self.point(at);
        if let Some((depth, angle)) = notch {
            self.real(39, depth);
            self.real(50, angle);
        }
    }

    fn words(&mut self, layer: &str, at: Point, height: f64, text: &str) {
        let text = ascii(text);
        if text.is_empty() {
            return;
        }
        self.text(0, "TEXT");
        self.text(8, layer);
        self.point(at);
        self.real(40, height);
        self.text(1, &text);
    }
}
