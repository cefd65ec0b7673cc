//! The first page: what this is, the squares that prove the scale, and how the pages join.
//!
//! The squares come first because a pattern a half per cent off is 4.5 mm out on a 900 mm girth, half of what a tape
//! errs by. Both are drawn at once, nested about one middle: 100 mm inside, 4 in outside.
//!
//! **Source.** Squares and 0.5 mm tolerance: `data/trade/print.toml [scale_check]`.

use kurbo::{Point, Rect, Vec2};

use crate::drawn::DrawnPiece;
use crate::flow::MARGIN;
use crate::ink::{Drawing, PAPER, Pen, Role, closed, open, pens};
use crate::lettering::{BODY, Face, Lettering, NOTE, pt};
use crate::pack::Layout;
use crate::pattern::{Options, Pattern};
use crate::room::{distance_to_segment, is_inside, thinned};
use crate::tiles::{Grid, Tile, row_name};
use crate::wording::{cloths, sentence};

/// Sides of the squares, mm.
pub(crate) const SQUARE_MM: f64 = 100.0;
pub(crate) const SQUARE_IN: f64 = 101.6;

/// The nested squares, upper left corner of the outer one at the origin.
pub(crate) fn squares(letters: &Lettering) -> Drawing {
    let mut d = Drawing::default();
    let middle = Point::new(0.5 * SQUARE_IN, 0.5 * SQUARE_IN);
    for side in [SQUARE_IN, SQUARE_MM] {
        d.rect(PAPER, pens::HAIR, Rect::from_center_size(middle, (side, side)));
    }
    let half = 0.5 * SQUARE_MM;
    let arrow = |d: &mut Drawing, way: Vec2| {
        let across = Vec2::new(-way.y, way.x);
        let (from, to) = (middle - way * half, middle + way * half);
        for (tip, back) in [(to, -way), (from, way)] {
            d.path(
                PAPER,
                pens::GRAIN,
                open(&[
                    tip + back * 3.5 + across * 1.2,
                    tip,
                    tip + back * 3.5 - across * 1.2,
                ]),
            );
        }
        (from, to)
    };
    // Across, broken for its words; down, broken where the other crosses it.
    let (left, right) = arrow(&mut d, Vec2::new(1.0, 0.0));
    let (top, foot) = arrow(&mut d, Vec2::new(0.0, 1.0));
    d.line(PAPER, pens::GRAIN, left, right);
    d.line(PAPER, pens::GRAIN, top, foot);
    let note = |d: &mut Drawing, text: &str, at: Point, turn: f64| {
        let line = letters.line(Face::Strong, BODY, text);
        let role = Role::Paragraph(d.next_number());
        d.turned_words(PAPER, line, at, turn, role);
    };
    note(
        &mut d,
        "across 100 mm",
        middle + Vec2::new(-half + 8.0, -2.0),
        0.0,
    );
    note(
        &mut d,
        "down 100 mm",
        middle + Vec2::new(-2.0, half - 8.0),
        -std::f64::consts::FRAC_PI_2,
    );
    let line = letters.line(Face::Text, NOTE, "inner square: 100 mm");
    let at = middle + Vec2::new(half - 3.0 - line.width, half - 8.2);
    let role = Role::Paragraph(d.next_number());
    d.words(PAPER, line, at, role);
    let line = letters.line(Face::Text, NOTE, "outer square: 4 in");
    let at = middle + Vec2::new(half - 3.0 - line.width, half - 3.4);
    let role = Role::Paragraph(d.next_number());
    d.words(PAPER, line, at, role);
    d
}

/// Title lines of a pattern: name, for whom and of what.
pub(crate) fn subtitle(pattern: &Pattern<'_>) -> String {
    let mut parts = Vec::new();
    if !pattern.wearer.trim().is_empty() {
        parts.push(format!("For {}", pattern.wearer.trim()));
    }
    if !pattern.version.trim().is_empty() {
        parts.push(format!("version {}", pattern.version.trim()));
    }
    if !pattern.fit_key.trim().is_empty() {
        parts.push(format!("{} fit", pattern.fit_key.trim()));
    }
    let all: Vec<draft::CutCount> = pattern.draft.pieces.iter().flat_map(|p| p.cuts.clone()).collect();
    let cloths = cloths(&all, pattern.cloth);
    let mut text = sentence(&parts.join(", "));
    if !cloths.is_empty() {
        text = format!("{text}. {cloths}");
    }
    text
}

/// What to do with the squares, and what was done for this printer.
pub(crate) fn how_to_measure(options: &Options) -> Vec<String> {
    let mut steps = vec![
        "Print this page alone first: at 100 % or “actual size”, with no “fit to page”.".to_owned(),
        "Measure the inner square both ways with a ruler, not a tape. Good: 99.5 to 100.5 mm.".to_owned(),
        "Off by 3 mm or less: enter both lengths as the printer's measured square, [printer] measured_square = \
         [across, down], and print again. The drawing is then stretched to suit."
            .to_owned(),
        "Off by more: the printer fits or shrinks the page. Look for scaling in its settings.".to_owned(),
    ];
    if let Some(square) = options.printer {
        let (sx, sy) = options.factors();
        let word = |f: f64| format!("{:+.1}\u{A0}%", (f - 1.0) * 100.0).replace('-', "−");
        steps.push(format!(
            "Drawn for a printer that printed {:.1} across and {:.1} down: {} across, {} down. The squares must now \
             measure true.",
            square.across.get(),
            square.down.get(),
            word(sx),
            word(sy)
        ));
    }
    steps
}

/// The first page of a tiled pattern.
pub(crate) fn page(
    letters: &Lettering,
    size: (f64, f64),
    pattern: &Pattern<'_>,
    options: &Options,
    pieces: &[DrawnPiece],
    layout: &Layout,
    grid: &Grid,
) -> Drawing {
    let mut d = Drawing::default();
    let width = size.0 - 2.0 * MARGIN;
    let mut y = MARGIN;
    let name = if pattern.suit.trim().is_empty() {
        "Pattern"
    } else {
        pattern.suit
    };
    for (i, line) in letters
        .wrap_most(Face::Title, pt(24.0), name, width, 2)
        .into_iter()
        .enumerate()
    {
        y += if i == 0 { 0.76 } else { 1.1 } * pt(24.0);
        d.words(PAPER, line, Point::new(MARGIN, y), Role::Heading(1));
    }
    let number = d.next_number();
    for line in letters
        .wrap_most(Face::Text, pt(11.0), &subtitle(pattern), width, 2)
        .into_iter()
    {
        y += 1.4 * pt(11.0);
        d.words(PAPER, line, Point::new(MARGIN, y + 0.8), Role::Paragraph(number));
    }
    y += 4.5;
    d.line(
        PAPER,
        pens::CUT,
        Point::new(MARGIN, y),
        Point::new(MARGIN + width, y),
    );
    y += 4.0;
    let top = heading(&mut d, letters, "Is it true to size?", MARGIN, y);
    d.add(&squares(letters), Vec2::new(MARGIN, top + 1.0));
    let left = MARGIN + SQUARE_IN + 7.0;
    numbered(
        &mut d,
        letters,
        &how_to_measure(options),
        left,
        top,
        MARGIN + width - left,
    );
    y = top + 1.0 + SQUARE_IN + 5.0;
    let top = heading(&mut d, letters, "How the pages join", MARGIN, y);
    let room = (SQUARE_IN, size.1 - top - 14.0);
    page_map(
        &mut d,
        letters,
        Point::new(MARGIN, top + 1.0),
        room,
        pieces,
        layout,
        grid,
    );
    numbered(
        &mut d,
        letters,
        &how_to_join(grid),
        left,
        top,
        MARGIN + width - left,
    );
    d
}

fn how_to_join(grid: &Grid) -> Vec<String> {
    vec![
        format!(
            "{} pages in {} and {}, named as on a map. Pages with nothing on them are not printed.",
            grid.tiles.len(),
            plural(grid.rows, "row"),
            plural(grid.columns, "column")
        ),
        "Trim each page along the left and the upper line of its frame, where there is a neighbour.".to_owned(),
        "Lay it on the dotted line of its neighbour: corners on the crosses, codes in the diamonds side by side. Tape."
            .to_owned(),
        "Measure a rule on any page again once they are joined.".to_owned(),
    ]
}

fn plural(n: usize, word: &str) -> String {
    if n == 1 {
        format!("1 {word}")
    } else {
        format!("{n} {word}s")
    }
}

fn heading(d: &mut Drawing, letters: &Lettering, text: &str, x: f64, y: f64) -> f64 {
    let line = letters.line(Face::Heading, pt(15.0), text);
    let base = y + 0.8 * pt(15.0);
    d.words(PAPER, line, Point::new(x, base), Role::Heading(2));
    base + 2.5
}

/// Numbered steps under each other.
pub(crate) fn numbered(
    d: &mut Drawing,
    letters: &Lettering,
    steps: &[String],
    x: f64,
    y: f64,
    width: f64,
) -> f64 {
    let mut y = y;
    for (i, step) in steps.iter().enumerate() {
        let number = d.next_number();
        let line = letters.line(Face::Heading, BODY, &(i + 1).to_string());
        d.words(
            PAPER,
            line,
            Point::new(x, y + 1.3 * BODY),
            Role::Paragraph(number),
        );
        for line in letters.wrap(Face::Text, BODY, step, width - 6.0) {
            y += 1.3 * BODY;
            d.words(PAPER, line, Point::new(x + 6.0, y), Role::Paragraph(number));
        }
        y += 0.65 * BODY;
    }
    y
}

/// Outlines over the tiles, letters and numbers at the edges as on a map.
fn page_map(
    d: &mut Drawing,
    letters: &Lettering,
    corner: Point,
    room: (f64, f64),
    pieces: &[DrawnPiece],
    layout: &Layout,
    grid: &Grid,
) {
    /// For the letters of rows and the numbers of columns, mm.
    const EDGE: f64 = 6.0;
    let step = grid.step();
    let sheet = (
        step.x * grid.columns as f64 + crate::tiles::OVERLAP,
        step.y * grid.rows as f64 + crate::tiles::OVERLAP,
    );
    let scale = ((room.0 - EDGE) / sheet.0)
        .min((room.1 - EDGE) / sheet.1)
        .min(0.2);
    let origin = corner + Vec2::new(EDGE, EDGE);
    let at = |p: Point| origin + p.to_vec2() * scale;
    for tile in &grid.tiles {
        let mut r = grid.window(*tile);
        // Neighbours' frames would fall 10 mm apart; on the map they meet.
        if tile.column + 1 < grid.columns {
            r.x1 -= crate::tiles::OVERLAP;
        }
        if tile.row + 1 < grid.rows {
            r.y1 -= crate::tiles::OVERLAP;
        }
        d.rect(
            PAPER,
            Pen::solid(0.12),
            Rect::from_points(at(r.origin()), at(Point::new(r.x1, r.y1))),
        );
    }
    let code = |d: &mut Drawing, text: &str, middle: Point| {
        let line = letters.line(Face::Strong, NOTE, text);
        let at = middle + Vec2::new(-0.5 * line.width, 0.36 * line.size);
        d.words(PAPER, line, at, Role::Aside);
    };
    for row in 0..grid.rows {
        let w = grid.window(Tile { row, column: 0 });
        let y = at(Point::new(0.0, w.y0 + 0.5 * step.y)).y;
        code(d, &row_name(row), Point::new(origin.x - 3.4, y));
    }
    for column in 0..grid.columns {
        let w = grid.window(Tile { row: 0, column });
        let x = at(Point::new(w.x0 + 0.5 * step.x, 0.0)).x;
        code(d, &(column + 1).to_string(), Point::new(x, origin.y - 3.4));
    }
    for placed in &layout.placed {
        let Some(piece) = pieces.get(placed.item) else {
            continue;
        };
        let outline: Vec<Point> = thinned(&piece.outline)
            .into_iter()
            .map(|p| at(p + placed.at))
            .collect();
        d.path(PAPER, pens::GRAIN, closed(&outline));
        let middle = inner_point(&outline);
        let line = letters.line(Face::Title, pt(11.0), &piece.letter.to_string());
        let words = middle + Vec2::new(-0.5 * line.width, 0.36 * line.size);
        d.words(PAPER, line, words, Role::Aside);
    }
}

/// The roomiest point of an outline: the farthest from its line on a grid of 24 by 24.
pub(crate) fn inner_point(outline: &[Point]) -> Point {
    const STEPS: u32 = 24;
    let first = outline.first().copied().unwrap_or_default();
    let r = outline
        .iter()
        .fold(Rect::from_points(first, first), |r, p| r.union_pt(*p));
    let mut best = (0.0, r.center());
    for i in 1..STEPS {
        for j in 1..STEPS {
            let share = |n: u32| f64::from(n) / f64::from(STEPS);
            let p = Point::new(r.x0 + share(i) * r.width(), r.y0 + share(j) * r.height());
            if !is_inside(outline, p) {
                continue;
            }
            let off = (0..outline.len())
                .filter_map(|k| Some((outline.get(k)?, outline.get((k + 1) % outline.len())?)))
                .map(|(a, b)| distance_to_segment(p, *a, *b))
                .fold(f64::INFINITY, f64::min);
            if off > best.0 {
                best = (off, p);
            }
        }
    }
    best.1
}
