//! The label of a piece: as large as fits, moved, wrapped and shortened until it stands clear of everything, or outside
//! the piece with a line to it.
//!
//! Tried in order: full label, large to small, narrower and narrower, near to far from the place the draft proposes;
//! then the short one, which leaves to the first pages what is the same for every piece, and both across the fold, which
//! is broken for them; then upright, then in one line; then across seam lines; then outside. Nothing is ever set smaller than 8 pt.
//!
//! **Shapes and units.** mm in the drawing of the piece, y down.

use draft::Piece;
use kurbo::{Point, Rect, Vec2};

use crate::drawn::{PiecePen, rect_corners};
use crate::ink::{Kind, Role, pens};
use crate::lettering::{Face, Line, pt};
use crate::pattern::Pattern;
use crate::room::{Crossing, is_inside, spiral};
use crate::wording;

/// Sizes of the name and of the lines below it, from the look's 25 and 12 points down to 8.
const SIZES: [(f64, f64); 6] = [
    (pt(26.0), pt(12.0)),
    (pt(22.0), pt(11.0)),
    (pt(18.0), pt(10.0)),
    (pt(15.0), pt(9.0)),
    (pt(12.0), pt(8.0)),
    (pt(10.0), pt(8.0)),
];

/// Widths the lines are wrapped to, mm. The first is half a tile, so that most labels are read on one page.
const ROOMS: [f64; 5] = [95.0, 78.0, 62.0, 48.0, 36.0];

/// Upright labels run along their piece in long lines.
const UNWRAPPED: f64 = 1e6;

/// Places are tried on a grid of this step, mm, out to this reach.
const STEP: f64 = 5.0;
const REACH: f64 = 170.0;

/// Longest name set on one line before it is cut, mm: a name of a thousand letters is still a page.
const LONGEST_NAME: f64 = 150.0;

/// The label's lines with the places of their baselines from the block's upper left corner.
struct Block {
    lines: Vec<(Line, f64, f64)>,
    width: f64,
    height: f64,
}

fn block(pen: &PiecePen<'_>, head: &str, below: &[String], sizes: (f64, f64), room: f64) -> Block {
    let k = pen.weight.letters();
    let (name, text) = (sizes.0 * k, sizes.1 * k);
    let room = room * k;
    let mut lines = Vec::new();
    let mut y = 0.0;
    for (i, line) in pen
        .letters
        .wrap_most(Face::Title, name, head, room.min(LONGEST_NAME * k), 3)
        .into_iter()
        .enumerate()
    {
        y += if i == 0 { line.ascent() } else { 1.1 * name };
        lines.push((line, 0.0, y));
    }
    let mut is_first = true;
    for paragraph in below.iter().filter(|t| !t.trim().is_empty()) {
        // Lines of one paragraph stand a little closer than paragraphs.
        for (i, line) in pen
            .letters
            .wrap_most(Face::Text, text, paragraph, room.min(2.0 * LONGEST_NAME * k), 4)
            .into_iter()
            .enumerate()
        {
            y += match (is_first, i) {
                (true, _) => 1.55 * text,
                (false, 0) => 1.42 * text,
                _ => 1.25 * text,
            };
            is_first = false;
            lines.push((line, 0.0, y));
        }
    }
    let width = lines.iter().map(|(l, ..)| l.width).fold(0.0, f64::max);
    let height = y + lines.last().map_or(0.0, |(l, ..)| l.descent());
    Block { lines, width, height }
}

fn set(pen: &mut PiecePen<'_>, block: &Block, corner: Point, turn: f64) {
    let plane = pen.plane(Kind::Words);
    let role = Role::Paragraph(pen.drawing.next_number());
    let (sin, cos) = turn.sin_cos();
    for (line, x, y) in &block.lines {
        let at = corner + Vec2::new(cos * x - sin * y, sin * x + cos * y);
        pen.drawing.turned_words(plane, line.clone(), at, turn, role);
    }
}

/// Everything a label says under the name.
fn full(piece: &Piece, pattern: &Pattern<'_>) -> Vec<String> {
    let mut lines = vec![wording::sentence(&wording::cut(&piece.cuts))];
    let cloths = wording::cloths(&piece.cuts, pattern.cloth);
    lines.push(
        format!("{}. {}", pattern.wearer.trim(), cloths)
            .trim_matches([' ', '.'])
            .to_owned(),
    );
    lines.extend(
        wording::stretches(&piece.cuts, pattern.cloth)
            .iter()
            .map(|t| wording::sentence(t)),
    );
    lines.extend(wording::turned(&piece.cuts).iter().map(|t| wording::sentence(t)));
    lines.push(wording::sentence(&wording::allowances(piece)));
    lines.push(format!(
        "{}, version {}, {} fit",
        pattern.suit.trim(),
        pattern.version.trim(),
        pattern.fit_key
    ));
    lines
}

/// What a small piece must still say by itself.
fn short(piece: &Piece, pattern: &Pattern<'_>) -> Vec<String> {
    vec![
        wording::cut(&piece.cuts),
        format!("{}, version {}", pattern.wearer.trim(), pattern.version.trim()),
    ]
}

/// Places the label; returns its box if it stands inside, level.
pub(crate) fn place(
    piece: &Piece,
    name: &str,
    pattern: &Pattern<'_>,
    pen: &mut PiecePen<'_>,
    wanted: Point,
) -> Option<Rect> {
    let head = format!("{}\u{2002}{}", piece.letter, name.trim());
    let (full, short) = (full(piece, pattern), short(piece, pattern));
    let offsets = spiral(STEP, REACH);
    let one_line = |pen: &PiecePen<'_>, sizes| one_line(pen, &head, &short, sizes);
    use Crossing::{Fold, FoldAndSeams, Nothing};
    // Level, in lines under each other.
    let tries: [(&[String], Crossing, std::ops::Range<usize>); 4] = [
        (&full, Nothing, 0..5),
        (&full, Fold, 2..5),
        (&short, Nothing, 2..6),
        (&short, Fold, 3..6),
    ];
    for (below, crossing, sizes) in tries {
        for sizes in SIZES.get(sizes).unwrap_or_default() {
            for room in ROOMS {
                let block = block(pen, &head, below, *sizes, room);
                if let Some(r) = find(pen, &block, wanted, crossing, &offsets) {
                    set(pen, &block, Point::new(r.x0, r.y0), 0.0);
                    pen.room.take(&rect_corners(r));
                    return Some(r);
                }
            }
        }
    }
    // Upright, reading upwards: straps and bands; then all in one line, level or upright.
    for crossing in [Nothing, FoldAndSeams] {
        for (below, sizes) in [(&full, 3..5), (&short, 3..6)] {
            for sizes in SIZES.get(sizes).unwrap_or_default() {
                let block = block(pen, &head, below, *sizes, UNWRAPPED);
                if set_upright(pen, &block, wanted, crossing, &offsets) {
                    return None;
                }
            }
        }
        for sizes in SIZES.get(2..6).unwrap_or_default() {
            let block = one_line(pen, *sizes);
            if let Some(r) = find(pen, &block, wanted, crossing, &offsets) {
                set(pen, &block, Point::new(r.x0, r.y0), 0.0);
                pen.room.take(&rect_corners(r));
                return Some(r);
            }
            if set_upright(pen, &block, wanted, crossing, &offsets) {
                return None;
            }
        }
    }
    outside(pen, &block(pen, &head, &short, SIZES[3], ROOMS[1]), wanted);
    None
}

/// Sets a block turned a quarter to the left, if there is room for it.
fn set_upright(
    pen: &mut PiecePen<'_>,
    block: &Block,
    wanted: Point,
    crossing: Crossing,
    offsets: &[Vec2],
) -> bool {
    let lying = Block {
        lines: Vec::new(),
        width: block.height,
        height: block.width,
    };
    let Some(r) = find(pen, &lying, wanted, crossing, offsets) else {
        return false;
    };
    set(pen, block, Point::new(r.x0, r.y1), -std::f64::consts::FRAC_PI_2);
    pen.room.take(&rect_corners(r));
    true
}

/// Name and the rest side by side, for bands too narrow for two lines.
fn one_line(pen: &PiecePen<'_>, head: &str, short: &[String], sizes: (f64, f64)) -> Block {
    let k = pen.weight.letters();
    let name = pen.letters.fit(Face::Title, sizes.0 * k, head, LONGEST_NAME * k);
    let rest = pen
        .letters
        .fit(Face::Text, sizes.1 * k, &short.join(". "), LONGEST_NAME * k);
    let y = name.ascent();
    let gap = 1.2 * rest.size;
    let width = name.width + gap + rest.width;
    let height = y + name.descent().max(rest.descent());
    let x = name.width + gap;
    Block {
        lines: vec![(name, 0.0, y), (rest, x, y)],
        width,
        height,
    }
}

/// The free place nearest to the wanted middle.
fn find(
    pen: &PiecePen<'_>,
    block: &Block,
    wanted: Point,
    crossing: Crossing,
    offsets: &[Vec2],
) -> Option<Rect> {
    offsets.iter().find_map(|by| {
        let r = Rect::from_center_size(wanted + *by, (block.width, block.height));
        pen.room.is_free(&rect_corners(r), crossing).then_some(r)
    })
}

/// To the right of the piece, with a line to it.
fn outside(pen: &mut PiecePen<'_>, block: &Block, wanted: Point) {
    /// From the piece to its label, mm.
    const OFF: f64 = 8.0;
    let right = pen.outline.iter().map(|p| p.x).fold(f64::NEG_INFINITY, f64::max);
    let (top, foot) = pen
        .outline
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), p| {
            (a.min(p.y), b.max(p.y))
        });
    let middle = wanted.y.clamp(top, foot);
    let corner = Point::new(right + OFF, middle - 0.5 * block.height);
    set(pen, block, corner, 0.0);
    // The line ends on cloth: the first inside point left of the label.
    let y = middle;
    let mut x = right;
    while x > 0.0 && !is_inside(&pen.outline, Point::new(x, y)) {
        x -= 0.5;
    }
    let plane = pen.plane(Kind::Words);
    pen.drawing.line(
        plane,
        pens::HAIR,
        Point::new((x - 3.0).max(0.5), y),
        Point::new(right + OFF - 2.0, y),
    );
}
