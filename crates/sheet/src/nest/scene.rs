//! The sheet: pieces of the nest and the card with title, scale squares and legend, laid out.

use kurbo::{Point, Rect, Vec2};

use crate::drawn::rect_corners;
use crate::front;
use crate::ink::{Drawing, PAPER, Role, pens};
use crate::lettering::{Face, Lettering, NOTE, pt};
use crate::nest::pens::{MOST_SIZES, of_size};
use crate::nest::piece::{self, DrawnNest};
use crate::nest::{NestRefusal, NestSheet};
use crate::pack::{self, GAP, Item, Layout};

/// Free margin on all sides, mm.
pub(super) const MARGIN: f64 = 15.0;
/// Width of the legend's card, mm.
const CARD: f64 = 214.0;
/// Length of a line's sample in the legend, mm.
const SAMPLE: f64 = 44.0;

/// One page.
pub(super) struct Scene {
    /// Page size, mm.
    pub(super) size: (f64, f64),
    /// What all sizes share.
    pub(super) common: Drawing,
    /// One for every size of the nest.
    pub(super) sizes: Vec<Drawing>,
}

pub(super) fn scenes(sheet: &NestSheet<'_>) -> Result<Vec<Scene>, NestRefusal> {
    let count = sheet.nest.sizes.len();
    if count == 0 || sheet.nest.pieces.is_empty() {
        return Err(NestRefusal::NoSizes);
    }
    if count > MOST_SIZES {
        return Err(NestRefusal::TooManySizes { given: count });
    }
    let letters = Lettering::load().map_err(NestRefusal::Writer)?;
    let mut drawn = vec![card(sheet, &letters)];
    let mut names = vec!["the legend".to_owned()];
    for one in &sheet.nest.pieces {
        if let Some(piece) = piece::draw(one, &sheet.nest.sizes, sheet.form, &letters) {
            drawn.push(piece);
            names.push(one.name.clone());
        }
    }
    let width = sheet.roll.width_mm() - 2.0 * MARGIN;
    let height = sheet.roll.length_mm().map(|l| l - 2.0 * MARGIN);
    for (piece, name) in drawn.iter().zip(names) {
        if piece.size.0 > width || height.is_some_and(|h| piece.size.1 > h) {
            return Err(NestRefusal::PieceTooLarge {
                piece: name,
                size_mm: piece.size,
                room_mm: width,
                roll: sheet.roll.name(),
            });
        }
    }
    let items: Vec<Item> = drawn.iter().map(|d| Item::new(d.size, &d.outlines)).collect();
    let layouts = shortest(&items, width, height);
    Ok(layouts
        .iter()
        .map(|layout| {
            let mut scene = Scene {
                size: (
                    sheet.roll.width_mm(),
                    sheet.roll.length_mm().unwrap_or(layout.height + 2.0 * MARGIN),
                ),
                common: Drawing::default(),
                sizes: vec![Drawing::default(); count],
            };
            for placed in &layout.placed {
                if let Some(piece) = drawn.get(placed.item) {
                    scene.common.add(&piece.common, placed.at);
                    for (to, from) in scene.sizes.iter_mut().zip(&piece.sizes) {
                        to.add(from, placed.at);
                    }
                }
            }
            scene
        })
        .collect())
}

/// The layout with the fewest sheets, then the least length; the card first.
fn shortest(items: &[Item], width: f64, height: Option<f64>) -> Vec<Layout> {
    let mut best: Option<(usize, f64, Vec<Layout>)> = None;
    let pieces = items.get(1..).unwrap_or_default();
    for order in pack::orders(pieces) {
        let all: Vec<usize> = std::iter::once(0).chain(order.iter().map(|i| i + 1)).collect();
        for lay in pack::WAYS {
            let layouts = match height {
                Some(height) => pack::sheets(lay, items, &all, width, height),
                None => vec![lay(items, &all, width)],
            };
            let length = layouts.iter().map(|l| l.height).sum::<f64>();
            let is_better = best
                .as_ref()
                .is_none_or(|(n, l, _)| (layouts.len(), length) < (*n, *l));
            if is_better {
                best = Some((layouts.len(), length, layouts));
            }
        }
    }
    best.map_or_else(Vec::new, |(_, _, layouts)| layouts)
}

/// Title, squares to prove the scale, and what each line means.
fn card(sheet: &NestSheet<'_>, letters: &Lettering) -> DrawnNest {
    let mut d = Drawing::default();
    let mut y = 0.0;
    let title = if sheet.title.trim().is_empty() {
        "Nested pattern"
    } else {
        sheet.title
    };
    for line in letters.wrap_most(Face::Title, pt(24.0), title, CARD, 2) {
        y += pt(24.0) * 1.1;
        d.words(PAPER, line, Point::new(0.0, y), Role::Heading(1));
    }
    y = paragraph(&mut d, letters, sheet.subtitle, y + 1.0);
    y += 4.0;
    d.line(PAPER, pens::CUT, Point::new(0.0, y), Point::new(CARD, y));
    y += 5.0;
    d.add(&front::squares(letters), Vec2::new(0.0, y));
    let left = front::SQUARE_IN + 7.0;
    let how = [
        "Print or plot at 100 % or “actual size”, with no “fit to page”.",
        "Measure the inner square both ways with a ruler, not a tape. Good: 99.5 to 100.5 mm.",
        "Off by more: look for scaling in the settings of printer or plotter before anything is cut.",
    ]
    .map(str::to_owned);
    let foot = front::numbered(&mut d, letters, &how, left, y - 1.0, CARD - left);
    y = (y + front::SQUARE_IN + 1.0).max(foot) + 6.0;
    let head = letters.line(Face::Heading, pt(13.0), "Sizes");
    d.words(PAPER, head, Point::new(0.0, y + pt(13.0)), Role::Heading(2));
    y += pt(13.0) + 3.0;
    let table = d.next_number();
    y += 4.0;
    for (column, (text, x)) in [("line", 0.0), ("size", SAMPLE + 4.0), ("made for", SAMPLE + 30.0)]
        .into_iter()
        .enumerate()
    {
        let role = Role::Cell {
            table,
            row: 0,
            column: column as u32,
            is_head: true,
        };
        d.words(
            PAPER,
            letters.line(Face::Strong, NOTE, text),
            Point::new(x, y),
            role,
        );
    }
    for (i, name) in sheet.nest.sizes.iter().enumerate() {
        y += 6.0;
        let middle = y - 1.2;
        d.line(
            PAPER,
            of_size(i),
            Point::new(0.0, middle),
            Point::new(SAMPLE, middle),
        );
        let cell = |column| Role::Cell {
            table,
            row: i as u32 + 1,
            column,
            is_head: false,
        };
        let word = letters.fit(Face::Strong, pt(10.0), name, 24.0);
        d.words(PAPER, word, Point::new(SAMPLE + 4.0, y), cell(1));
        if let Some(note) = sheet.size_notes.get(i) {
            let word = letters.fit(Face::Text, NOTE, note, CARD - SAMPLE - 30.0);
            d.words(PAPER, word, Point::new(SAMPLE + 30.0, y), cell(2));
        }
    }
    y += 3.0;
    let said = [
        "Every line is a cutting line, allowances included. Each size is a layer: switch the others off to print or project one."
            .to_owned(),
    ];
    let refused = sheet
        .nest
        .refused
        .iter()
        .map(|(name, why)| format!("Size {name} is not here: {why}."));
    for text in said.into_iter().chain(refused).chain(sheet.notes.iter().cloned()) {
        y = paragraph(&mut d, letters, &text, y + 1.0);
    }
    let size = (CARD, y + GAP);
    DrawnNest {
        common: d,
        sizes: vec![Drawing::default(); sheet.nest.sizes.len()],
        outlines: vec![rect_corners(Rect::new(0.0, 0.0, size.0, size.1)).to_vec()],
        size,
    }
}

/// Sets a paragraph below `y`; gives the last baseline.
fn paragraph(d: &mut Drawing, letters: &Lettering, text: &str, y: f64) -> f64 {
    if text.trim().is_empty() {
        return y;
    }
    let number = d.next_number();
    let mut y = y;
    for line in letters.wrap_most(Face::Text, NOTE, text, CARD, 6) {
        y += 1.4 * NOTE;
        d.words(PAPER, line, Point::new(0.0, y), Role::Paragraph(number));
    }
    y
}
