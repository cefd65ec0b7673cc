//! What is drawn on a lay plan: the heading, the cloth with its pieces and rulers, the table of chalk marks.

use kurbo::{BezPath, Point, Rect, Shape as _, Vec2};
use lay::{Fold, Placed, cutting_order};

use super::{LayPlan, LayPlanRefusal, MARGIN, PAGE};
use crate::ink::{Drawing, PAPER, Pen, Role, closed, open, pens};
use crate::lettering::{BODY, Face, LEAST, Lettering, Line, NOTE, pt};
use crate::wording;

/// Room for the ruler's numbers at the left, and above the cut end, mm.
const RULER: f64 = 13.0;
const ABOVE: f64 = 9.0;
/// Widest the cloth is drawn, mm.
const WIDEST: f64 = PAGE.0 - 2.0 * MARGIN - RULER;
/// A piece's outline.
const CUT: Pen = Pen::solid(0.4);
const ROW: f64 = 5.2;

pub(super) struct Scene {
    pub(super) head: Drawing,
    pub(super) head_height: f64,
    /// The cloth from its cut end, rulers included.
    pub(super) cloth: Drawing,
    pub(super) size: (f64, f64),
    /// One a page.
    pub(super) tables: Vec<Drawing>,
    pub(super) last_table_height: f64,
}

pub(super) fn scene(plan: &LayPlan<'_>) -> Result<Scene, LayPlanRefusal> {
    if plan.lay.placed.is_empty() {
        return Err(LayPlanRefusal::Empty);
    }
    let letters = Lettering::load().map_err(LayPlanRefusal::Writer)?;
    let scale = (WIDEST / plan.request.cloth.table_width_mm()).min(0.25);
    let (head, head_height) = head(plan, &letters, scale);
    let (cloth, size) = cloth(plan, &letters, scale);
    let (tables, last_table_height) = tables(plan, &letters);
    Ok(Scene {
        head,
        head_height,
        cloth,
        size,
        tables,
        last_table_height,
    })
}

fn head(plan: &LayPlan<'_>, letters: &Lettering, scale: f64) -> (Drawing, f64) {
    let width = PAGE.0 - 2.0 * MARGIN;
    let (lay, cloth) = (plan.lay, &plan.request.cloth);
    let mut d = Drawing::default();
    let mut y = 0.0;
    for line in letters.wrap_most(Face::Title, pt(20.0), plan.title, width, 2) {
        y += pt(20.0) * 1.05;
        d.words(PAPER, line, Point::new(0.0, y), Role::Heading(1));
    }
    y += 2.5;
    d.line(PAPER, pens::CUT, Point::new(0.0, y), Point::new(width, y));
    let mut facts = vec![format!(
        "{}, {} wide, {}. The lay takes {} from cut end to cut end; {:.1} % of its usable width is pieces. No lay can be shorter than {}.",
        cloth.name,
        length(cloth.width_mm),
        match cloth.fold {
            Fold::Single => "one layer, right side up".to_owned(),
            Fold::Half => "folded lengthwise down the middle, right sides together".to_owned(),
            Fold::Partial { depth_mm } => format!(
                "folded over by {}, right sides together, one layer beside it",
                length(depth_mm)
            ),
        },
        length(lay.cloth_mm),
        100.0 * lay.usage,
        length(lay.bound.length_mm + 2.0 * cloth.end_allowance_mm),
    )];
    if let Some(buying) = plan.buying {
        let parts: Vec<String> = buying
            .parts
            .iter()
            .map(|p| format!("{} {}", p.why, length(p.mm)))
            .collect();
        let price = buying.price.map_or(String::new(), |p| format!(", {p:.2} in all"));
        facts.push(format!(
            "Buy {} ({} steps of {}{price}): {}.",
            length(buying.buy_mm),
            buying.steps,
            buying.step,
            parts.join(", ")
        ));
    }
    if !lay.fits
        && let Some(there_is) = cloth.length_mm
    {
        facts.push(format!(
            "This does not fit: there are {}, and {} are missing.",
            length(there_is),
            length(lay.cloth_mm - there_is)
        ));
    }
    let left: Vec<String> = plan
        .remnants
        .iter()
        .map(|r| format!("{} x {}", length(r.length_mm), length(r.width_mm)))
        .collect();
    if !left.is_empty() {
        facts.push(format!("Left over, along x across: {}.", left.join("; ")));
    }
    facts.push(format!(
        "Drawn 1 to {:.1}. Tops: {}. Numbers give the order of cutting; arrows lie along the cloth. Chalk marks stand on the next page.",
        1.0 / scale,
        cloth.direction.name()
    ));
    for text in facts {
        let number = d.next_number();
        y += 1.2;
        for line in letters.wrap_most(Face::Text, NOTE, &text, width, 4) {
            y += 1.35 * NOTE;
            d.words(PAPER, line, Point::new(0.0, y), Role::Paragraph(number));
        }
    }
    (d, y + 5.0)
}

/// Both units, so that any tape will do.
fn length(mm: f64) -> String {
    format!("{:.1} cm ({})", mm / 10.0, wording::inches(mm))
}

/// Table to drawing: along runs down, across to the right.
struct Place {
    scale: f64,
}

impl Place {
    fn at(&self, p: Point) -> Point {
        Point::new(RULER + p.y * self.scale, ABOVE + p.x * self.scale)
    }
}

fn cloth(plan: &LayPlan<'_>, letters: &Lettering, scale: f64) -> (Drawing, (f64, f64)) {
    let cloth = &plan.request.cloth;
    let place = Place { scale };
    let mut d = Drawing::default();
    let width = cloth.table_width_mm();
    let end = plan.lay.cloth_mm.max(cloth.length_mm.unwrap_or(0.0));
    let corners =
        [(0.0, 0.0), (0.0, width), (end, width), (end, 0.0)].map(|(x, y)| place.at(Point::new(x, y)));
    d.path(PAPER, pens::HAIR, closed(&corners));
    // Where the lay ends, and where nothing may lie.
    d.line(
        PAPER,
        pens::PLACEMENT,
        place.at(Point::new(plan.lay.cloth_mm, 0.0)),
        place.at(Point::new(plan.lay.cloth_mm, width)),
    );
    let margin = cloth.selvedge_margin_mm;
    let is_folded = cloth.fold != Fold::Single;
    for y in [margin, width - margin] {
        if !(is_folded && y == margin) {
            d.line(
                PAPER,
                pens::OVERLAP,
                place.at(Point::new(0.0, y)),
                place.at(Point::new(end, y)),
            );
        }
    }
    if is_folded {
        d.line(
            PAPER,
            pens::FOLD,
            place.at(Point::ZERO),
            place.at(Point::new(end, 0.0)),
        );
    }
    if let Fold::Partial { depth_mm } = cloth.fold {
        d.line(
            PAPER,
            pens::SEAM,
            place.at(Point::new(0.0, depth_mm)),
            place.at(Point::new(end, depth_mm)),
        );
        for (across, words) in [(0.0, "two layers"), (depth_mm, "one layer")] {
            let at = place.at(Point::new(end, across)) + Vec2::new(0.8, 3.6);
            d.words(PAPER, letters.line(Face::Text, LEAST, words), at, Role::Aside);
        }
    }
    if let Some(remnant) = &cloth.remnant {
        let outline: Vec<Point> = remnant.iter().map(|&p| place.at(p)).collect();
        d.path(PAPER, pens::CUT, closed(&outline));
    }
    for flaw in &cloth.flaws {
        let outline: Vec<Point> = flaw.outline.iter().map(|&p| place.at(p)).collect();
        d.path(PAPER, pens::SEAM, closed(&outline));
        let b = closed(&outline).bounding_box();
        d.line(PAPER, pens::HAIR, b.origin(), Point::new(b.x1, b.y1));
        d.line(PAPER, pens::HAIR, Point::new(b.x0, b.y1), Point::new(b.x1, b.y0));
    }
    rulers(&mut d, letters, &place, width, end, is_folded);
    for (k, &index) in cutting_order(plan.request, plan.lay).iter().enumerate() {
        piece(&mut d, letters, &place, plan, &plan.lay.placed[index], k + 1);
    }
    (d, (RULER + width * scale, ABOVE + end * scale + 6.0))
}

/// Centimetres from the cut end at the left, from the selvedge above.
fn rulers(d: &mut Drawing, letters: &Lettering, place: &Place, width: f64, end: f64, is_folded: bool) {
    let mut tick = |along: bool, mm: f64| {
        let is_long = (mm / 500.0 - (mm / 500.0).round()).abs() < 1e-9;
        let size = if is_long { 3.0 } else { 1.5 };
        let at = place.at(if along {
            Point::new(mm, 0.0)
        } else {
            Point::new(0.0, mm)
        });
        let to = if along {
            at - Vec2::new(size, 0.0)
        } else {
            at - Vec2::new(0.0, size)
        };
        d.line(PAPER, pens::HAIR, at, to);
        if is_long {
            let word = letters.line(Face::Text, LEAST, &format!("{:.0}", mm / 10.0));
            let at = if along {
                Point::new(to.x - word.width - 0.8, at.y + 0.35 * LEAST)
            } else {
                Point::new(at.x - 0.5 * word.width, to.y - 0.8)
            };
            d.words(PAPER, word, at, Role::Aside);
        }
    };
    let steps = |most: f64| (0..=(most / 100.0).floor() as usize).map(|k| k as f64 * 100.0);
    for mm in steps(end) {
        tick(true, mm);
    }
    for mm in steps(width) {
        tick(false, mm);
    }
    let what = if is_folded {
        "cut end: cm from the fold"
    } else {
        "cut end: cm from the selvedge"
    };
    let word = letters.line(Face::Text, LEAST, what);
    let at = place.at(Point::new(0.0, 60.0));
    d.words(PAPER, word, Point::new(at.x, at.y - 5.6), Role::Aside);
}

fn piece(
    d: &mut Drawing,
    letters: &Lettering,
    place: &Place,
    plan: &LayPlan<'_>,
    placed: &Placed,
    order: usize,
) {
    let Some(piece) = plan.request.pieces.get(placed.piece) else {
        return;
    };
    let outline: Vec<Point> = placed.outline(piece).into_iter().map(|p| place.at(p)).collect();
    let path = closed(&outline);
    d.path(PAPER, CUT, path.clone());
    let table = placed.table_from_piece();
    let (foot, head) = (place.at(table * piece.grain.0), place.at(table * piece.grain.1));
    arrow(d, foot, head);
    // Beside the arrow, near the label's place; smaller pieces get the number alone.
    let note = match (placed.layers, placed.is_half) {
        (2, true) => "on the fold",
        (2, false) if piece.count == 1 => "both layers, one to spare",
        (2, false) => "both layers",
        _ if placed.is_reflected => "mirrored",
        _ => "",
    };
    let whose = if plan.request.garments.len() > 1 {
        plan.request
            .garments
            .get(piece.garment)
            .map_or("", String::as_str)
    } else {
        ""
    };
    let note = [whose, note]
        .into_iter()
        .filter(|w| !w.is_empty())
        .collect::<Vec<_>>()
        .join(", ");
    let note = note.as_str();
    let near = if placed.is_half {
        // Of a half the label's place is the fold itself.
        foot.midpoint(head)
    } else {
        place.at(table * piece.label_at)
    };
    let long = format!("{order} {} {}", piece.letter, piece.name);
    let short = format!("{order} {}", piece.letter);
    let blocks = [(&long, note), (&long, ""), (&short, note), (&short, "")];
    let words = |(name, note): (&String, &str)| -> Vec<Line> {
        let name = letters.line(Face::Strong, NOTE, name);
        let note = (!note.is_empty()).then(|| letters.line(Face::Text, LEAST, note));
        std::iter::once(name).chain(note).collect()
    };
    let found = blocks.into_iter().find_map(|block| {
        let lines = words(block);
        let at = free_spot(&path, (foot, head), near, size_of(&lines))?;
        Some((lines, at))
    });
    // A piece without room for its number has it over the outline all the same: the cutting order needs it.
    let (lines, middle) = found.unwrap_or_else(|| (words((&short, "")), near));
    let (width, height) = size_of(&lines);
    let back = Rect::from_center_size(middle, (width, height));
    d.fill(PAPER, crate::ink::Tone::White, back.to_path(0.1));
    let mut y = back.y0;
    for line in lines {
        y += line.ascent();
        let at = Point::new(middle.x - 0.5 * line.width, y);
        y += line.descent();
        d.words(PAPER, line, at, Role::Aside);
    }
}

/// What lines set under one another take, with a little air.
fn size_of(lines: &[Line]) -> (f64, f64) {
    let width = lines.iter().map(|l| l.width).fold(0.0, f64::max);
    let height: f64 = lines.iter().map(|l| l.ascent() + l.descent()).sum();
    (width + 1.2, height + 0.4)
}

/// The middle of a box of that size inside the outline and clear of the arrow, as near to `near` as there is one.
fn free_spot(
    path: &BezPath,
    arrow: (Point, Point),
    near: Point,
    (width, height): (f64, f64),
) -> Option<Point> {
    /// Grid on which places are tried, mm.
    const STEP: f64 = 1.5;
    /// Between words and arrow.
    const CLEAR: f64 = 1.4;
    let room = path.bounding_box().inset(-0.5 * STEP);
    let (across, down) = ((room.width() - width) / STEP, (room.height() - height) / STEP);
    if across < 0.0 || down < 0.0 {
        return None;
    }
    let mut spots: Vec<Point> = (0..=across as usize)
        .flat_map(|i| (0..=down as usize).map(move |j| (i as f64, j as f64)))
        .map(|(i, j)| {
            Point::new(
                room.x0 + 0.5 * width + i * STEP,
                room.y0 + 0.5 * height + j * STEP,
            )
        })
        .collect();
    // Sorted stably: of two places as near the left, upper one.
    spots.sort_by(|a, b| (*a - near).hypot2().total_cmp(&(*b - near).hypot2()));
    spots.into_iter().find(|&spot| {
        let words = Rect::from_center_size(spot, (width, height));
        let is_clear = (0..=16).all(|k| {
            let p = arrow.0.lerp(arrow.1, f64::from(k) / 16.0);
            !words.inflate(CLEAR, CLEAR).contains(p)
        });
        is_clear && around(words).all(|p| path.contains(p))
    })
}

/// Points around a box, none further from the next than a quarter of its side.
fn around(words: Rect) -> impl Iterator<Item = Point> {
    let corners = [
        words.origin(),
        Point::new(words.x1, words.y0),
        Point::new(words.x1, words.y1),
        Point::new(words.x0, words.y1),
    ];
    (0..4).flat_map(move |c| (0..4).map(move |k| corners[c].lerp(corners[(c + 1) % 4], f64::from(k) / 4.0)))
}

/// A grain arrow with a head at each end whose foot and head are the two chalk marks.
fn arrow(d: &mut Drawing, foot: Point, head: Point) {
    d.line(PAPER, pens::HAIR, foot, head);
    let along = head - foot;
    let size = along.hypot();
    if size < 1e-6 {
        return;
    }
    let unit = along / size;
    let side = Vec2::new(-unit.y, unit.x);
    d.path(
        PAPER,
        pens::HAIR,
        open(&[
            head - unit * 2.2 + side * 0.9,
            head,
            head - unit * 2.2 - side * 0.9,
        ]),
    );
    d.line(PAPER, pens::HAIR, foot - side * 1.0, foot + side * 1.0);
}

/// Columns of the table: head, and where it begins, mm.
const COLUMNS: [(&str, f64); 7] = [
    ("order", 0.0),
    ("piece", 14.0),
    ("foot: from cut end", 68.0),
    ("across", 100.0),
    ("head: from cut end", 126.0),
    ("across", 158.0),
    ("", 182.0),
];

fn tables(plan: &LayPlan<'_>, letters: &Lettering) -> (Vec<Drawing>, f64) {
    let width = PAGE.0 - 2.0 * MARGIN;
    let rows_a_page = ((PAGE.1 - 2.0 * MARGIN - 26.0) / ROW).floor() as usize;
    let order = cutting_order(plan.request, plan.lay);
    let mut all = Vec::new();
    let mut last = 0.0;
    for (page, part) in order.chunks(rows_a_page.max(1)).enumerate() {
        let mut d = Drawing::default();
        let mut y = pt(14.0);
        let title = letters.line(Face::Heading, pt(14.0), "Chalk marks");
        d.words(PAPER, title, Point::new(0.0, y), Role::Heading(2));
        y += 2.0;
        let number = d.next_number();
        let how = "Chalk both ends of each piece’s grain arrow, in cm and inches from the cut end and from the selvedge (from the fold, if the \
                   cloth is folded), lay the paper on the two marks and draw round it. A mirrored piece is laid face down.";
        for line in letters.wrap_most(Face::Text, NOTE, how, width, 3) {
            y += 1.35 * NOTE;
            d.words(PAPER, line, Point::new(0.0, y), Role::Paragraph(number));
        }
        y += 7.0;
        let table = d.next_number();
        let cell = |d: &mut Drawing, row: u32, column: usize, text: &str, y: f64, is_head: bool| {
            let (_, x) = COLUMNS[column];
            let next = COLUMNS.get(column + 1).map_or(width, |c| c.1);
            let face = if is_head { Face::Strong } else { Face::Text };
            let size = if is_head { LEAST } else { NOTE.min(BODY) };
            let line = letters.fit(face, size, text, next - x - 1.5);
            let role = Role::Cell {
                table,
                row,
                column: column as u32,
                is_head,
            };
            d.words(PAPER, line, Point::new(x, y), role);
        };
        for (column, (head, _)) in COLUMNS.iter().take(6).enumerate() {
            cell(&mut d, 0, column, head, y, true);
        }
        d.line(
            PAPER,
            pens::RULE,
            Point::new(0.0, y + 1.5),
            Point::new(width, y + 1.5),
        );
        for (k, &index) in part.iter().enumerate() {
            y += ROW;
            let placed = &plan.lay.placed[index];
            let Some(piece) = plan.request.pieces.get(placed.piece) else {
                continue;
            };
            let table_from_piece = placed.table_from_piece();
            let (foot, head) = (table_from_piece * piece.grain.0, table_from_piece * piece.grain.1);
            let row = k as u32 + 1;
            let whose = if plan.request.garments.len() > 1 {
                plan.request
                    .garments
                    .get(piece.garment)
                    .map_or(String::new(), |g| format!(", {g}"))
            } else {
                String::new()
            };
            let note = match (placed.layers, placed.is_half, placed.is_reflected) {
                (2, true, _) => ", on the fold",
                (2, false, _) if piece.count == 1 => ", both layers, one to spare",
                (2, false, _) => ", both layers",
                (_, _, true) => ", mirrored",
                _ => "",
            };
            let name = format!("{} {}{whose}{note}", piece.letter, piece.name);
            let number = page * rows_a_page + k + 1;
            cell(&mut d, row, 0, &number.to_string(), y, false);
            cell(&mut d, row, 1, &name, y, false);
            for (column, mm) in [(2, foot.x), (3, foot.y), (4, head.x), (5, head.y)] {
                let text = format!("{:.1}  {}", mm / 10.0, wording::inches(mm).replace(" in", "″"));
                cell(&mut d, row, column, &text, y, false);
            }
        }
        last = y + 6.0;
        all.push(d);
    }
    (all, last)
}
