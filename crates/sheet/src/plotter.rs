//! A pattern on one sheet for a plotter or copy shop: a roll as long as it must be, or A0 sheets.
//!
//! What a tiled pattern says on its first pages stands here as cards among the pieces, so that the sheet is complete by
//! itself. Rules of up to 400 mm run along two margins of every sheet, because a plotter's error grows with length.
//!
//! **Shapes and units.** mm, y down from the inner corner of the sheet.
//! **Source.** Roll widths: as traded (24, 36, 42 in). PDF page limit: ISO 32000-1, annex C.

use kurbo::{Point, Rect, Vec2};

use crate::book::{Book, LONGEST_PAGE_MM, View};
use crate::drawn::{Weight, rect_corners};
use crate::facts;
use crate::flow::{Flow, MARGIN};
use crate::front;
use crate::ink::{Drawing, Ink, PAPER, Role, pens};
use crate::lettering::{Face, Lettering, NOTE, pt};
use crate::pack::{self, GAP, Item, Layout};
use crate::pattern::{Fault, Options, Pattern, Printed, Refusal, Roll};
use crate::pdf::{Drawn, check, draw_all, writer};
use crate::running::Running;
use crate::tile_page::rule;

/// Free margin at the sides, where the upright rule stands; and at the ends, mm.
const SIDE: f64 = 14.0;
const END: f64 = 16.0;
/// Cards of reading text are this wide and at most this high, mm.
const CARD: (f64, f64) = (210.0, 290.0);

/// A pattern on one page as wide as the roll and as long as needed, or on as many A0 pages as the pieces need.
///
/// No piece is cut in two and none is turned. Scale squares stand on the first page, rules along two margins of each.
///
/// # Errors
/// [`Refusal`] with [`Fault::NoPieces`], [`Fault::BrokenPiece`] and [`Fault::PrinterOff`]; or with one
/// [`Fault::PieceTooLarge`] for every piece that does not fit; or [`Fault::PageTooLong`]; or [`Fault::Writer`].
pub fn single(pattern: &Pattern<'_>, roll: Roll, options: &Options) -> Result<Printed, Refusal> {
    check(pattern, options)?;
    let letters = Lettering::load().map_err(writer)?;
    let drawn = draw_all(pattern, options, Weight::Paper, &letters);
    let scale = options.factors();
    let room = (
        (roll.width_mm() - 2.0 * SIDE) / scale.0,
        roll.length_mm()
            .map_or(f64::INFINITY, |l| (l - 2.0 * END) / scale.1),
    );
    fits(&drawn, room, roll)?;
    let cards = cards(&letters, pattern, options);
    let mut items: Vec<Item> = cards.iter().map(card_item).collect();
    items.extend(drawn.items.iter().cloned());
    let sheets = shortest(&items, cards.len(), room);
    let running = Running::of(pattern);
    let mut book =
        Book::new(&running.text(), "Sewing pattern at true scale, on one sheet").map_err(writer)?;
    for (i, layout) in sheets.iter().enumerate() {
        let size = (
            roll.width_mm(),
            roll.length_mm().unwrap_or(layout.height * scale.1 + 2.0 * END),
        );
        if size.1 > LONGEST_PAGE_MM {
            return Err(Refusal::of(Fault::PageTooLong { side_mm: size.1 }));
        }
        let sheet = assemble(&cards, &drawn, layout);
        let inner = ((size.0 - 2.0 * SIDE) / scale.0, (size.1 - 2.0 * END) / scale.1);
        let words = format!("{}, sheet {} of {}", roll.name(), i + 1, sheets.len());
        let frame = frame(&letters, inner, &running, &words);
        let view = View {
            page: Point::new(SIDE, END),
            ..View::page(scale)
        };
        let views: [(View, &[Ink]); 2] = [(view, &sheet.inks), (view, &frame.inks)];
        book.page(size, &format!("Sheet {}", i + 1), &views)
            .map_err(writer)?;
    }
    let (bytes, undrawn) = book.finish().map_err(writer)?;
    Ok(Printed {
        bytes,
        pages: sheets.len(),
        tiles: None,
        undrawn,
    })
}

fn fits(drawn: &Drawn, room: (f64, f64), roll: Roll) -> Result<(), Refusal> {
    let faults: Vec<Fault> = drawn
        .pieces
        .iter()
        .filter(|p| p.size.0 > room.0 || p.size.1 > room.1)
        .map(|p| Fault::PieceTooLarge {
            piece: p.key.clone(),
            size_mm: p.size,
            room_mm: room,
            paper: roll.name(),
        })
        .collect();
    if faults.is_empty() {
        Ok(())
    } else {
        Err(Refusal { faults })
    }
}

/// A card of reading text with its size.
pub(crate) struct Card {
    pub(crate) drawing: Drawing,
    pub(crate) size: (f64, f64),
}

fn card_item(card: &Card) -> Item {
    // More air below reading text than between pieces.
    let size = (card.size.0, card.size.1 + GAP);
    Item::new(
        size,
        &[rect_corners(Rect::new(0.0, 0.0, size.0, size.1)).to_vec()],
    )
}

/// The scale check, then the lists, as cards.
fn cards(letters: &Lettering, pattern: &Pattern<'_>, options: &Options) -> Vec<Card> {
    let mut cards = vec![check_card(letters, pattern, options)];
    let running = Running::of(pattern);
    let mut flow = Flow::new(letters, CARD, &running);
    facts::set(&mut flow, letters, pattern, options.form);
    for page in flow.finish() {
        let foot = page.inks.iter().map(|i| i.bounds().y1).fold(0.0, f64::max);
        // Margins are for pages of their own; among pieces the gap is enough.
        let mut drawing = Drawing::default();
        drawing.add(&page, Vec2::new(-MARGIN, -8.0));
        cards.push(Card {
            drawing,
            size: (CARD.0 - 2.0 * MARGIN, foot - 8.0 + 2.0),
        });
    }
    cards
}

/// Title, squares and what to do with them.
fn check_card(letters: &Lettering, pattern: &Pattern<'_>, options: &Options) -> Card {
    let width = CARD.0 - 2.0 * MARGIN;
    let mut d = Drawing::default();
    let name = if pattern.suit.trim().is_empty() {
        "Pattern"
    } else {
        pattern.suit
    };
    let mut y = 0.0;
    for line in letters
        .wrap_most(Face::Title, pt(30.0), name, width, 2)
        .into_iter()
    {
        y += pt(30.0);
        d.words(PAPER, line, Point::new(0.0, y), Role::Heading(1));
    }
    let number = d.next_number();
    for line in letters
        .wrap_most(Face::Text, pt(11.0), &front::subtitle(pattern), width, 3)
        .into_iter()
    {
        y += 1.4 * pt(11.0);
        d.words(PAPER, line, Point::new(0.0, y + 1.0), Role::Paragraph(number));
    }
    y += 5.0;
    d.line(PAPER, pens::CUT, Point::new(0.0, y), Point::new(width, y));
    y += 5.0;
    d.add(&front::squares(letters), Vec2::new(0.0, y));
    let left = front::SQUARE_IN + 7.0;
    let foot = front::numbered(
        &mut d,
        letters,
        &front::how_to_measure(options),
        left,
        y - 1.0,
        width - left,
    );
    Card {
        drawing: d,
        size: (width, (y + front::SQUARE_IN + 1.0).max(foot)),
    }
}

/// The layout that takes the fewest sheets, then the least length; cards come first.
fn shortest(items: &[Item], cards: usize, room: (f64, f64)) -> Vec<Layout> {
    let pieces = items.get(cards..).unwrap_or_default();
    let mut best: Option<(usize, f64, Vec<Layout>)> = None;
    let orders = pack::orders(pieces);
    for (order, lay) in orders.iter().flat_map(|o| pack::WAYS.map(|lay| (o, lay))) {
        let mut all: Vec<usize> = (0..cards).collect();
        all.extend(order.iter().map(|i| i + cards));
        let layouts = if room.1.is_finite() {
            pack::sheets(lay, items, &all, room.0, room.1)
        } else {
            vec![lay(items, &all, room.0)]
        };
        let length = layouts.iter().map(|l| l.height).sum();
        let better = best
            .as_ref()
            .is_none_or(|(n, l, _)| (layouts.len(), length) < (*n, *l));
        if better {
            best = Some((layouts.len(), length, layouts));
        }
    }
    best.map_or_else(Vec::new, |(_, _, layouts)| layouts)
}

fn assemble(cards: &[Card], drawn: &Drawn, layout: &Layout) -> Drawing {
    let mut sheet = Drawing::default();
    for placed in &layout.placed {
        let drawing = match cards.get(placed.item) {
            Some(card) => Some(&card.drawing),
            None => drawn.pieces.get(placed.item - cards.len()).map(|p| &p.drawing),
        };
        if let Some(drawing) = drawing {
            sheet.add(drawing, placed.at);
        }
    }
    sheet
}

/// Head and rules in the margins.
fn frame(letters: &Lettering, (w, h): (f64, f64), running: &Running, words: &str) -> Drawing {
    let mut d = Drawing::default();
    let right = letters.line(Face::Text, NOTE, words);
    let at = Point::new(w - right.width, -5.0);
    let room = w - right.width - GAP;
    d.words(PAPER, right, at, Role::Aside);
    let title = running.line(letters, Face::Title, pt(11.0), room);
    let role = Role::Paragraph(d.next_number());
    d.words(PAPER, title, Point::new(0.0, -5.0), role);
    let hundreds = |length: f64| ((length - 20.0) / 100.0).floor().clamp(1.0, 4.0) as u32;
    rule(
        &mut d,
        letters,
        Point::new(0.0, h + 5.0),
        Vec2::new(1.0, 0.0),
        hundreds(w),
    );
    rule(
        &mut d,
        letters,
        Point::new(-5.0 - crate::tile_page::RULE_THICK, h),
        Vec2::new(0.0, -1.0),
        hundreds(h),
    );
    d
}
