//! Places the parts of a listing on pages, one under another.
//!
//! **Shapes and units.** mm on the page, y down.

use kurbo::{Point, Rect};

use super::{Chart, ListTable, Listing, Part, chart};
use crate::ink::{Drawing, PAPER, Pen, Role, pens};
use crate::lettering::{BODY, Face, LEAST, Lettering, Line, NOTE, pt};

/// Free margin, mm.
pub(super) const MARGIN: f64 = 15.0;
/// Room for the foot line.
const FOOT: f64 = 8.0;
const LEADING: f64 = 1.35;
/// Side of a box to tick.
const TICK: f64 = 3.6;
/// What a box and its gap take.
const TICK_ROOM: f64 = 7.0;
/// Between two columns.
const GAP: f64 = 3.0;
/// Most lines of one cell, or of one paragraph.
const MOST_LINES: usize = 12;
/// A line to write on.
const WRITING: Pen = Pen::solid(0.3);

pub(super) struct Pages<'a> {
    letters: &'a Lettering,
    listing: &'a Listing,
    size: (f64, f64),
    done: Vec<Drawing>,
    pub(super) page: Drawing,
    /// Where the next part begins.
    pub(super) y: f64,
}

/// All pages.
pub(super) fn pages(listing: &Listing, letters: &Lettering, size: (f64, f64)) -> Vec<Drawing> {
    let mut pages = Pages {
        letters,
        listing,
        size,
        done: Vec::new(),
        page: Drawing::default(),
        y: MARGIN,
    };
    pages.title();
    for (at, part) in listing.parts.iter().enumerate() {
        let after = listing.parts.get(at + 1..).unwrap_or_default();
        match part {
            Part::Heading(text) => pages.heading(text, after),
            Part::Text(text) => pages.text(text),
            Part::Caution { word, says } => pages.caution(word, says),
            Part::Write(what) => pages.write(what),
            Part::Table(table) => pages.table(table),
            Part::Chart(chart) => pages.chart(chart),
            Part::NewPage => pages.turn(),
        }
    }
    pages.turn();
    pages.finish()
}

impl Pages<'_> {
    pub(super) fn width(&self) -> f64 {
        self.size.0 - 2.0 * MARGIN
    }

    fn end(&self) -> f64 {
        self.size.1 - MARGIN - FOOT
    }

    /// Begins a new page, unless this one is still empty.
    fn turn(&mut self) {
        if !self.page.inks.is_empty() {
            self.done.push(std::mem::take(&mut self.page));
        }
        self.y = MARGIN;
    }

    /// Begins a new page when so much does not fit on this one.
    fn room_for(&mut self, height: f64) {
        if self.y + height > self.end() {
            self.turn();
        }
    }

    fn title(&mut self) {
        let (letters, width) = (self.letters, self.width());
        for line in letters.wrap_most(Face::Title, pt(20.0), &self.listing.title, width, 2) {
            self.y += 1.05 * pt(20.0);
            self.page
                .words(PAPER, line, Point::new(MARGIN, self.y), Role::Heading(1));
        }
        self.y += 1.5;
        let number = self.page.next_number();
        for line in letters.wrap_most(Face::Text, pt(11.0), &self.listing.subtitle, width, 3) {
            self.y += LEADING * pt(11.0);
            self.page
                .words(PAPER, line, Point::new(MARGIN, self.y), Role::Paragraph(number));
        }
        self.y += 3.0;
        let (from, to) = (Point::new(MARGIN, self.y), Point::new(MARGIN + width, self.y));
        self.page.line(PAPER, pens::CUT, from, to);
        self.y += 2.0;
    }

    fn heading(&mut self, text: &str, after: &[Part]) {
        // A heading stands with what it is the heading of.
        let with = match after {
            [Part::Chart(chart), ..] => chart::height(chart),
            [Part::Table(_), ..] => 22.0,
            [Part::Text(_), Part::Table(_), ..] => 34.0,
            _ => 14.0,
        };
        self.room_for(14.0 + with);
        if self.y > MARGIN {
            self.y += 4.0;
        }
        for line in self
            .letters
            .wrap_most(Face::Heading, pt(14.0), text, self.width(), 2)
        {
            self.y += 1.15 * pt(14.0);
            self.page
                .words(PAPER, line, Point::new(MARGIN, self.y), Role::Heading(2));
        }
        self.y += 2.2;
    }

    fn text(&mut self, text: &str) {
        let lines = self
            .letters
            .wrap_most(Face::Text, BODY, text, self.width().min(170.0), MOST_LINES);
        self.room_for(lines.len() as f64 * LEADING * BODY + 2.0);
        self.paragraph(lines, MARGIN);
        self.y += 2.0;
    }

    fn paragraph(&mut self, lines: Vec<Line>, x: f64) {
        let number = self.page.next_number();
        for line in lines {
            self.y += LEADING * line.size;
            self.page
                .words(PAPER, line, Point::new(x, self.y), Role::Paragraph(number));
        }
    }

    fn caution(&mut self, word: &str, says: &str) {
        let inside = MARGIN + 5.0;
        let room = self.width().min(170.0) - 5.0;
        let lines = self.letters.wrap_most(Face::Text, BODY, says, room, MOST_LINES);
        let height = (lines.len() as f64 + 1.0) * LEADING * BODY;
        self.room_for(height + 4.0);
        let top = self.y + 1.0;
        let head = self.letters.fit(Face::Strong, BODY, word, room);
        self.paragraph(vec![head], inside);
        self.paragraph(lines, inside);
        let rule = Pen::solid(1.0);
        self.page.line(
            PAPER,
            rule,
            Point::new(MARGIN + 1.5, top),
            Point::new(MARGIN + 1.5, self.y + 1.0),
        );
        self.y += 3.0;
    }

    fn write(&mut self, what: &str) {
        self.room_for(11.0);
        self.y += 8.0;
        let width = self.width();
        let label = self.letters.fit(Face::Text, BODY, what, 0.5 * width);
        let from = MARGIN + label.width + 2.5;
        let number = self.page.next_number();
        self.page
            .words(PAPER, label, Point::new(MARGIN, self.y), Role::Paragraph(number));
        self.page.line(
            PAPER,
            WRITING,
            Point::new(from, self.y + 0.8),
            Point::new(MARGIN + width, self.y + 0.8),
        );
        self.y += 2.0;
    }

    fn chart(&mut self, chart: &Chart) {
        self.room_for(chart::height(chart));
        let (letters, width) = (self.letters, self.width());
        let top = self.y;
        let drawn = chart::draw(chart, letters, width);
        self.page.add(&drawn, kurbo::Vec2::new(MARGIN, top));
        self.y += chart::height(chart) + 3.0;
    }

    /// Left end and width of every column.
    fn columns(&self, table: &ListTable) -> Vec<(f64, f64)> {
        let left = MARGIN + if table.is_ticked { TICK_ROOM } else { 0.0 };
        let width = MARGIN + self.width() - left;
        let shares: f64 = table
            .columns
            .iter()
            .map(|c| c.share.max(0.0))
            .sum::<f64>()
            .max(1e-9);
        let gaps = GAP * table.columns.len().saturating_sub(1) as f64;
        let mut x = left;
        table
            .columns
            .iter()
            .map(|c| {
                let own = (width - gaps) * c.share.max(0.0) / shares;
                let place = (x, own);
                x += own + GAP;
                place
            })
            .collect()
    }

    fn head(&mut self, table: &ListTable, columns: &[(f64, f64)], number: u32) {
        let heads: Vec<Vec<Line>> = table
            .columns
            .iter()
            .zip(columns)
            .map(|(c, (_, room))| self.letters.wrap_most(Face::Strong, LEAST, &c.head, *room, 2))
            .collect();
        let lines = heads.iter().map(Vec::len).max().unwrap_or(0);
        let top = self.y;
        for (at, (column, of)) in table.columns.iter().zip(heads).enumerate() {
            let Some((x, room)) = columns.get(at).copied() else {
                continue;
            };
            // Heads of one line stand at the foot of those of two.
            let mut y = top + (lines - of.len()) as f64 * LEADING * LEAST;
            for line in of {
                y += LEADING * LEAST;
                let at_x = if column.is_number {
                    x + room - line.width
                } else {
                    x
                };
                let role = Role::Cell {
                    table: number,
                    row: 0,
                    column: at as u32,
                    is_head: true,
                };
                self.page.words(PAPER, line, Point::new(at_x, y), role);
            }
        }
        self.y = top + lines as f64 * LEADING * LEAST + 1.4;
        let (from, to) = (
            Point::new(MARGIN, self.y),
            Point::new(MARGIN + self.width(), self.y),
        );
        self.page.line(PAPER, pens::GRAIN, from, to);
        self.y += 0.6;
    }

    fn table(&mut self, table: &ListTable) {
        let columns = self.columns(table);
        self.room_for(24.0);
        let mut number = self.page.next_number();
        self.head(table, &columns, number);
        let mut row_on_page = 0;
        for row in &table.rows {
            let cells: Vec<Vec<Line>> = columns
                .iter()
                .enumerate()
                .map(|(at, (_, room))| {
                    let text = row.cells.get(at).map_or("", String::as_str);
                    self.letters.wrap_most(Face::Text, BODY, text, *room, MOST_LINES)
                })
                .collect();
            let lines = cells.iter().map(Vec::len).max().unwrap_or(1).max(1);
            let notes = if row.note.is_empty() {
                Vec::new()
            } else {
                let (from, _) = columns.first().copied().unwrap_or((MARGIN, 0.0));
                let room = MARGIN + self.width() - from;
                self.letters
                    .wrap_most(Face::Text, NOTE, &row.note, room, MOST_LINES)
            };
            let height = lines as f64 * LEADING * BODY + notes.len() as f64 * LEADING * NOTE + 2.6;
            if self.y + height > self.end() {
                self.turn();
                number = self.page.next_number();
                row_on_page = 0;
                self.head(table, &columns, number);
            }
            row_on_page += 1;
            self.row(table, &columns, (cells, notes), (number, row_on_page), height);
        }
        self.y += 3.0;
    }

    fn row(
        &mut self,
        table: &ListTable,
        columns: &[(f64, f64)],
        (cells, notes): (Vec<Vec<Line>>, Vec<Line>),
        (number, row): (u32, u32),
        height: f64,
    ) {
        let top = self.y;
        let lines = cells.iter().map(Vec::len).max().unwrap_or(1).max(1);
        if table.is_ticked {
            let y = top + 0.35 * LEADING * BODY;
            self.page
                .rect(PAPER, WRITING, Rect::new(MARGIN, y, MARGIN + TICK, y + TICK));
        }
        for (at, of) in cells.into_iter().enumerate() {
            let Some((x, room)) = columns.get(at).copied() else {
                continue;
            };
            let is_number = table.columns.get(at).is_some_and(|c| c.is_number);
            let mut y = top;
            for line in of {
                y += LEADING * BODY;
                let at_x = if is_number { x + room - line.width } else { x };
                let role = Role::Cell {
                    table: number,
                    row,
                    column: at as u32,
                    is_head: false,
                };
                self.page.words(PAPER, line, Point::new(at_x, y), role);
            }
        }
        let mut y = top + lines as f64 * LEADING * BODY;
        let (x, _) = columns.first().copied().unwrap_or((MARGIN, 0.0));
        for line in notes {
            y += LEADING * NOTE;
            // Belongs to the first cell, for a reader that does not see the page.
            let role = Role::Cell {
                table: number,
                row,
                column: 0,
                is_head: false,
            };
            self.page.words(PAPER, line, Point::new(x, y), role);
        }
        self.y = top + height;
        let (from, to) = (
            Point::new(MARGIN, self.y - 0.4),
            Point::new(MARGIN + self.width(), self.y - 0.4),
        );
        self.page.line(PAPER, pens::RULE, from, to);
    }

    fn finish(self) -> Vec<Drawing> {
        let of = self.done.len();
        let y = self.size.1 - MARGIN + 1.0;
        let right = self.size.0 - MARGIN;
        let mut done = self.done;
        for (k, page) in done.iter_mut().enumerate() {
            let word = format!("{} {}/{of}", self.listing.page_word, k + 1);
            let word = self.letters.line(Face::Strong, LEAST, &word);
            let room = right - MARGIN - word.width - 6.0;
            let running = self.letters.fit(Face::Text, LEAST, &self.listing.running, room);
            let at = Point::new(right - word.width, y);
            page.words(PAPER, running, Point::new(MARGIN, y), Role::Aside);
            page.words(PAPER, word, at, Role::Aside);
        }
        done
    }
}
