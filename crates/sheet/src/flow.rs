//! Reading pages: headings, paragraphs, tables and the legend, set one under another and broken over pages.
//!
//! A heading never stands alone at the foot of a page, a row never breaks, and a table repeats its head on the next page.
//!
//! **Shapes and units.** mm on the page, y down. Sizes from the look: reading 10 pt, notes 9 pt.

use kurbo::{Point, Vec2};

use crate::ink::{Drawing, PAPER, Role, pens};
use crate::lettering::{BODY, Face, Lettering, Line, NOTE, pt};
use crate::running::Running;

/// Left, right and upper margin, mm.
pub(crate) const MARGIN: f64 = 15.0;
/// Lower margin, mm.
const FOOT: f64 = 16.0;
/// Leading of reading text, times its size.
const LEADING: f64 = 1.4;

/// A column of a table.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Column<'a> {
    pub(crate) head: &'a str,
    /// Share of the width.
    pub(crate) share: f64,
    /// Figures stand under each other's ends.
    pub(crate) is_right: bool,
}

impl<'a> Column<'a> {
    pub(crate) const fn left(head: &'a str, share: f64) -> Column<'a> {
        Column {
            head,
            share,
            is_right: false,
        }
    }

    pub(crate) const fn right(head: &'a str, share: f64) -> Column<'a> {
        Column {
            head,
            share,
            is_right: true,
        }
    }
}

/// Pages in the making.
pub(crate) struct Flow<'a> {
    letters: &'a Lettering,
    size: (f64, f64),
    running: &'a Running,
    done: Vec<Drawing>,
    pub(crate) now: Drawing,
    /// Where the next thing goes, mm from the top.
    pub(crate) y: f64,
}

impl<'a> Flow<'a> {
    /// A first page of `size` mm; `running` stands at the head of every page.
    pub(crate) fn new(letters: &'a Lettering, size: (f64, f64), running: &'a Running) -> Flow<'a> {
        let mut flow = Flow {
            letters,
            size,
            running,
            done: Vec::new(),
            now: Drawing::default(),
            y: 0.0,
        };
        flow.open();
        flow
    }

    fn open(&mut self) {
        let line = self.running.line(self.letters, Face::Text, NOTE, self.width());
        let at = Point::new(MARGIN, 12.0);
        self.now.words(PAPER, line, at, Role::Aside);
        let (left, right) = (Point::new(MARGIN, 15.5), Point::new(MARGIN + self.width(), 15.5));
        self.now.line(PAPER, pens::CUT, left, right);
        self.y = 18.0;
    }

    pub(crate) fn width(&self) -> f64 {
        self.size.0 - 2.0 * MARGIN
    }

    /// What is left of the page, mm.
    pub(crate) fn left(&self) -> f64 {
        self.size.1 - FOOT - self.y
    }

    /// Starts a new page unless `height` mm are left.
    pub(crate) fn need(&mut self, height: f64) {
        if self.left() < height {
            self.done.push(std::mem::take(&mut self.now));
            self.open();
        }
    }

    /// A heading, with room for something below it.
    pub(crate) fn heading(&mut self, text: &str) {
        self.heading_over(text, 20.0);
    }

    /// A heading that stays with the `height` mm below it.
    pub(crate) fn heading_over(&mut self, text: &str, height: f64) {
        self.need(10.0 + height);
        let size = pt(15.0);
        self.y += 1.5 * size;
        let line = self.letters.fit(Face::Heading, size, text, self.width());
        self.now
            .words(PAPER, line, Point::new(MARGIN, self.y), Role::Heading(2));
        self.y += 0.55 * size;
    }

    /// A paragraph.
    pub(crate) fn paragraph(&mut self, face: Face, size: f64, text: &str) {
        if text.trim().is_empty() {
            return;
        }
        let number = self.now.next_number();
        for line in self.letters.wrap(face, size, text, self.width()) {
            self.need(LEADING * size);
            self.y += LEADING * size;
            self.now.words(
                PAPER,
                line,
                Point::new(MARGIN, self.y - 0.3 * size),
                Role::Paragraph(number),
            );
        }
        self.y += 0.35 * size;
    }

    /// A table with a hairline under every row.
    pub(crate) fn table(&mut self, columns: &[Column<'_>], rows: &[Vec<String>]) {
        let total: f64 = columns.iter().map(|c| c.share).sum();
        if rows.is_empty() || total <= 0.0 {
            return;
        }
        let heads: Vec<String> = columns.iter().map(|c| c.head.to_owned()).collect();
        let widths: Vec<f64> = columns.iter().map(|c| c.share / total * self.width()).collect();
        self.need(22.0);
        let mut number = self.now.next_number();
        self.row(&heads, columns, &widths, number, 0, true);
        for (i, row) in rows.iter().enumerate() {
            let height = self.row_height(row, &widths, BODY);
            if self.left() < height {
                self.need(height);
                number = self.now.next_number();
                self.row(&heads, columns, &widths, number, 0, true);
            }
            self.row(row, columns, &widths, number, i as u32 + 1, false);
        }
        self.y += 2.0;
    }

    fn cell(&self, text: &str, width: f64, size: f64, is_head: bool) -> Vec<Line> {
        let face = if is_head { Face::Strong } else { Face::Text };
        self.letters
            .wrap_most(face, size, text, (width - 3.0).max(5.0), 6)
            .into_iter()
            .collect()
    }

    fn row_height(&self, row: &[String], widths: &[f64], size: f64) -> f64 {
        let most = row
            .iter()
            .zip(widths)
            .map(|(t, w)| self.cell(t, *w, size, false).len())
            .max()
            .unwrap_or(1);
        most as f64 * 1.25 * size + 2.4
    }

    fn row(
        &mut self,
        row: &[String],
        columns: &[Column<'_>],
        widths: &[f64],
        table: u32,
        row_number: u32,
        is_head: bool,
    ) {
        let size = if is_head { NOTE } else { BODY };
        let mut x = MARGIN;
        let mut most = 1;
        for (i, (text, width)) in row.iter().zip(widths).enumerate() {
            let lines = self.cell(text, *width, size, is_head);
            most = most.max(lines.len());
            let is_right = columns.get(i).is_some_and(|c| c.is_right);
            for (k, line) in lines.into_iter().enumerate() {
                let base = self.y + 1.2 + (k as f64 + 0.85) * 1.25 * size;
                let left = if is_right { x + width - 3.0 - line.width } else { x };
                let role = Role::Cell {
                    table,
                    row: row_number,
                    column: i as u32,
                    is_head,
                };
                self.now.words(PAPER, line, Point::new(left, base), role);
            }
            x += width;
        }
        self.y += most as f64 * 1.25 * size + 2.4;
        let pen = if is_head { pens::GRAIN } else { pens::RULE };
        let right = Point::new(MARGIN + self.width(), self.y);
        self.now.line(PAPER, pen, Point::new(MARGIN, self.y), right);
    }

    /// Draws something `height` mm high at the left margin.
    pub(crate) fn figure(&mut self, height: f64, drawing: &Drawing) {
        self.need(height);
        let at = Vec2::new(MARGIN, self.y);
        self.now.add(drawing, at);
        self.y += height;
    }

    /// The pages.
    pub(crate) fn finish(mut self) -> Vec<Drawing> {
        self.done.push(self.now);
        self.done
    }
}
