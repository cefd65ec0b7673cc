//! The small words of a piece, each beside what it names: arrows, the fold, levels, crosses, placements.
//!
//! Each has several places to stand and takes the first free one; words that find none are left out, since the drawing
//! of their line says the same and the legend explains it.

use draft::{Mark, Piece, Shape};
use kurbo::{Point, Rect, Vec2};

use super::{PiecePen, rect_corners, unit};
use crate::ink::{Kind, Role, pens};
use crate::lettering::{BODY, Face, LEAST, Line, NOTE};
use crate::pattern::Pattern;
use crate::room::Crossing;
use crate::wording;

impl PiecePen<'_> {
    /// The word "grain" and the words of the stretch arrow, along their arrows.
    pub(super) fn arrow_words(&mut self, piece: &Piece, shape: &Shape, pattern: &Pattern<'_>) {
        let k = self.weight.letters();
        let (from, to) = self.ends(shape.stretch);
        let is_around = (to.x - from.x).abs() >= (to.y - from.y).abs();
        let choices = wording::stretch(piece, is_around, pattern.cloth);
        'stretch: for size in [BODY, NOTE, LEAST] {
            for lines in &choices {
                let shaped: Vec<Line> = lines
                    .iter()
                    .map(|t| self.letters.line(Face::Text, size * k, t))
                    .collect();
                if self.along(from, to, &shaped, 5.2) {
                    break 'stretch;
                }
            }
        }
        let (from, to) = self.ends(shape.grain);
        for size in [BODY, NOTE, LEAST] {
            let line = self
                .letters
                .line(Face::Text, size * k, &wording::grain(&piece.cuts));
            if self.along(from, to, &[line], 4.8) {
                break;
            }
        }
    }

    /// Stacks lines beside an arrow, above or below it, or as far along as there is room; false if there is none.
    pub(super) fn along(&mut self, from: Point, to: Point, lines: &[Line], off: f64) -> bool {
        let Some(way) = unit(to - from) else { return false };
        // Words read upwards or rightwards, whichever way the arrow points.
        let upward = way.y < -0.7 || (way.y.abs() <= 0.7 && way.x > 0.0);
        let way = if upward { way } else { -way };
        let turn = way.y.atan2(way.x);
        let above = Vec2::new(way.y, -way.x);
        let length = (to - from).hypot();
        let width = lines.iter().map(|l| l.width).fold(0.0, f64::max);
        let Some(first) = lines.first() else { return false };
        let leading = 1.25 * first.size;
        let height = leading * (lines.len() - 1) as f64 + first.ascent() + first.descent();
        let middle = from.midpoint(to);
        let slides = [0.0, 0.15, -0.15, 0.25, -0.25, 0.35, -0.35, 0.5, -0.5, 0.65, -0.65];
        for side in [1.0, -1.0] {
            for slide in slides {
                let centre = middle + way * (slide * length) + above * (side * (off + 0.5 * height));
                let corners = turned_box(centre, way, width, height);
                if !self.room.is_free(&corners, Crossing::Nothing) {
                    continue;
                }
                for (i, line) in lines.iter().enumerate() {
                    let up = 0.5 * height - first.ascent() - leading * i as f64;
                    let at = centre - way * (0.5 * line.width) + above * up;
                    let plane = self.plane(Kind::Words);
                    let role = Role::Paragraph(self.drawing.next_number());
                    self.drawing.turned_words(plane, line.clone(), at, turn, role);
                }
                self.room.take(&corners);
                return true;
            }
        }
        false
    }

    /// The fold, broken where words stand on it, with its word.
    pub(super) fn fold(&mut self, shape: &Shape, label: &Option<Rect>) {
        let Some((foot, head)) = shape.fold_line else {
            return;
        };
        let (foot, head) = (self.flip(foot), self.flip(head));
        let plane = self.plane(Kind::Marks);
        let pen = self.weight.pen(pens::FOLD);
        let word = if shape.fold_is_edge {
            "place on the fold"
        } else {
            "fold"
        };
        let k = self.weight.letters();
        let line = self.letters.line(Face::Text, NOTE * k, word);
        let length = (head - foot).hypot();
        let steps = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88];
        let up = Vec2::new(0.0, -1.0);
        'word: for share in steps {
            for side in [-1.0, 1.0] {
                let height = line.ascent() + line.descent();
                let centre = foot + up * (share * length) + Vec2::new(side * (2.2 + 0.5 * height), 0.0);
                let corners = turned_box(centre, up, line.width, height);
                if self.room.is_free(&corners, Crossing::Nothing) {
                    // Read upwards: the baseline lies right of the middle of the letters.
                    let at = centre + Vec2::new(0.5 * height - line.descent(), 0.5 * line.width);
                    let words = self.plane(Kind::Words);
                    let turn = -std::f64::consts::FRAC_PI_2;
                    self.drawing
                        .turned_words(words, line.clone(), at, turn, Role::Aside);
                    self.room.take(&corners);
                    break 'word;
                }
            }
        }
        match label {
            Some(r) if r.x0 < foot.x && foot.x < r.x1 && head.y < r.y0 && r.y1 < foot.y => {
                self.drawing
                    .line(plane, pen, foot, Point::new(foot.x, r.y1 + 2.0));
                self.drawing
                    .line(plane, pen, Point::new(foot.x, r.y0 - 2.0), head);
            }
            _ => self.drawing.line(plane, pen, foot, head),
        }
    }

    /// Words of level lines, crosses and placements, each near what it names.
    pub(super) fn mark_words(&mut self, shape: &Shape) {
        let k = self.weight.letters();
        for mark in &shape.marks {
            match mark {
                Mark::LevelLine { from, to, text } => {
                    let (from, to) = (self.flip(*from), self.flip(*to));
                    for size in [NOTE, LEAST] {
                        let line = self.letters.line(Face::Text, size * k, text);
                        if self.beside_line(from, to, &line) {
                            break;
                        }
                    }
                }
                Mark::Cross { at, text } => {
                    let at = self.flip(*at);
                    let line = self.letters.line(Face::Text, LEAST * k, text);
                    self.near(at, 6.0, &line);
                }
                Mark::Placement { curve, text } => {
                    let line = self.letters.line(Face::Text, LEAST * k, text);
                    let points: Vec<Point> = curve.flatten(0.5).into_iter().map(|p| self.flip(p)).collect();
                    let middles = [0.5, 0.3, 0.7, 0.1, 0.9];
                    for share in middles {
                        let i = ((points.len().saturating_sub(1)) as f64 * share).round() as usize;
                        if let Some(p) = points.get(i)
                            && self.near(*p, 2.0, &line)
                        {
                            break;
                        }
                    }
                }
                Mark::ArcEnd { .. } => {}
            }
        }
    }

    /// Above or below a level line, from its outer end inwards.
    pub(super) fn beside_line(&mut self, from: Point, to: Point, line: &Line) -> bool {
        let (left, right) = if from.x < to.x { (from, to) } else { (to, from) };
        let free = (right.x - left.x - line.width).max(0.0);
        for i in 0..=20 {
            // Alternating from both ends: the middle is for the label.
            let share = 0.06 + 0.88 * f64::from(i / 2) / 20.0;
            let x = if i % 2 == 0 {
                left.x + free * share
            } else {
                left.x + free * (1.0 - share)
            };
            for y in [left.y - 2.0 - line.descent(), left.y + 2.0 + line.ascent()] {
                if self.set(Point::new(x, y), line) {
                    return true;
                }
            }
        }
        false
    }

    /// In one of eight places round a point.
    pub(super) fn near(&mut self, at: Point, off: f64, line: &Line) -> bool {
        let (w, up, down) = (line.width, line.ascent(), line.descent());
        let rows = [0.36 * line.size, -off - down, off + up];
        let columns = [off, -off - w, -0.5 * w];
        for y in rows {
            for x in columns {
                if x == -0.5 * w && y == rows[0] {
                    continue;
                }
                if self.set(at + Vec2::new(x, y), line) {
                    return true;
                }
            }
        }
        false
    }

    /// Sets a level line of words if there is room, crossing nothing.
    pub(super) fn set(&mut self, at: Point, line: &Line) -> bool {
        let r = Rect::new(
            at.x,
            at.y - line.ascent(),
            at.x + line.width,
            at.y + line.descent(),
        );
        let corners = rect_corners(r);
        if !self.room.is_free(&corners, Crossing::Nothing) {
            return false;
        }
        let plane = self.plane(Kind::Words);
        let role = Role::Paragraph(self.drawing.next_number());
        self.drawing.words(plane, line.clone(), at, role);
        self.room.take(&corners);
        true
    }
}

/// A box of `width` along `way` and `height` across it.
fn turned_box(centre: Point, way: Vec2, width: f64, height: f64) -> [Point; 4] {
    let (a, b) = (way * (0.5 * width), Vec2::new(-way.y, way.x) * (0.5 * height));
    [centre - a - b, centre + a - b, centre + a + b, centre - a + b]
}
