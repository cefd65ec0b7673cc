//! What is drawn: lines, filled shapes and words on a sheet, each belonging to a layer a viewer can switch off.
//!
//! The same inks are drawn on a tile, a plotter sheet and a projection; only the cut-out and the scale differ.
//!
//! **Shapes and units.** mm on the sheet, y *down* from its upper left corner.

use kurbo::{Affine, BezPath, Circle, Point, Rect, Shape, Vec2};

use crate::lettering::Line;

/// What kind of line or word an ink is: one layer each.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Kind {
    Cutting,
    Seam,
    Marks,
    Words,
    /// Squares to set a projector by.
    Grid,
    /// Frames, rules, codes, tables: what belongs to the paper, not to a piece.
    Paper,
}

impl Kind {
    pub(crate) const ALL: [Kind; 6] = [
        Kind::Cutting,
        Kind::Seam,
        Kind::Marks,
        Kind::Words,
        Kind::Grid,
        Kind::Paper,
    ];

    pub(crate) const fn name(self) -> &'static str {
        match self {
            Kind::Cutting => "cutting lines",
            Kind::Seam => "seam lines",
            Kind::Marks => "marks and arrows",
            Kind::Words => "words",
            Kind::Grid => "grid",
            Kind::Paper => "page frames and rules",
        }
    }
}

/// The layers of cloth a piece is cut from, as bits: shell 1, lining 2, mesh 4; 0 for what belongs to no piece.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Cloths(pub(crate) u8);

/// Where an ink belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Plane {
    pub(crate) cloths: Cloths,
    pub(crate) kind: Kind,
}

/// Paper itself.
pub(crate) const PAPER: Plane = Plane {
    cloths: Cloths(0),
    kind: Kind::Paper,
};

/// How a line is drawn; always black.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Pen {
    /// Width, mm.
    pub(crate) width: f64,
    /// Strokes and gaps, mm; empty for a solid line.
    pub(crate) dash: &'static [f64],
    /// Round ends: makes dots of dashes of no length.
    pub(crate) round: bool,
}

impl Pen {
    pub(crate) const fn solid(width: f64) -> Pen {
        Pen {
            width,
            dash: &[],
            round: false,
        }
    }

    const fn dashed(width: f64, dash: &'static [f64]) -> Pen {
        Pen {
            width,
            dash,
            round: false,
        }
    }
}

/// Line styles of pattern paper. Solid cut, dashed seam, notches and arrows are common practice, no single source; the
/// weights and rhythms are own, chosen to stay apart without colour.
pub(crate) mod pens {
    use super::Pen;

    pub(crate) const CUT: Pen = Pen::solid(0.6);
    pub(crate) const SEAM: Pen = Pen::dashed(0.3, &[4.0, 1.6]);
    pub(crate) const FOLD: Pen = Pen::dashed(0.5, &[7.0, 1.4, 1.0, 1.4]);
    pub(crate) const GRAIN: Pen = Pen::solid(0.4);
    pub(crate) const STRETCH: Pen = Pen::solid(0.5);
    pub(crate) const ARC: Pen = Pen::solid(0.45);
    pub(crate) const LEVEL: Pen = Pen {
        width: 0.4,
        dash: &[0.0, 1.8],
        round: true,
    };
    pub(crate) const PLACEMENT: Pen = Pen::dashed(0.3, &[2.0, 1.2]);
    pub(crate) const CROSS: Pen = Pen::solid(0.35);
    pub(crate) const HAIR: Pen = Pen::solid(0.25);
    pub(crate) const RULE: Pen = Pen::solid(0.2);
    pub(crate) const OVERLAP: Pen = Pen {
        width: 0.3,
        dash: &[0.0, 1.6],
        round: true,
    };
}

/// How a shape is filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Tone {
    Black,
    White,
}

/// What a run of words is to a reader that does not see the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Role {
    /// Decoration: frames' codes, repeated heads.
    Aside,
    /// A line of the paragraph of this number.
    Paragraph(u32),
    /// A heading of this level.
    Heading(u16),
    /// A cell of a table.
    Cell {
        table: u32,
        row: u32,
        column: u32,
        is_head: bool,
    },
}

/// A line of words at a place.
#[derive(Clone, Debug)]
pub(crate) struct Words {
    pub(crate) line: Line,
    /// Left end of the baseline.
    pub(crate) at: Point,
    /// Turned clockwise about `at`, radians.
    pub(crate) turn: f64,
    pub(crate) role: Role,
    pub(crate) tone: Tone,
}

impl Words {
    /// The corners of its box, ascender to descender.
    pub(crate) fn corners(&self) -> [Point; 4] {
        let (w, up, down) = (self.line.width, self.line.ascent(), self.line.descent());
        let turn = Affine::translate(self.at.to_vec2()) * Affine::rotate(self.turn);
        [(0.0, -up), (w, -up), (w, down), (0.0, down)].map(|(x, y)| turn * Point::new(x, y))
    }
}

/// What an ink draws.
#[derive(Clone, Debug)]
pub(crate) enum What {
    Line { path: BezPath, pen: Pen },
    Fill { path: BezPath, tone: Tone },
    Words(Words),
}

/// One thing drawn.
#[derive(Clone, Debug)]
pub(crate) struct Ink {
    pub(crate) plane: Plane,
    pub(crate) what: What,
}

impl Ink {
    /// The box it may touch, line width included.
    pub(crate) fn bounds(&self) -> Rect {
        match &self.what {
            What::Line { path, pen } => path.control_box().inflate(pen.width, pen.width),
            What::Fill { path, .. } => path.control_box(),
            What::Words(words) => {
                let c = words.corners();
                c.iter()
                    .fold(Rect::from_points(c[0], c[2]), |r, p| r.union_pt(*p))
            }
        }
    }

    fn shifted(mut self, by: Vec2) -> Ink {
        match &mut self.what {
            What::Line { path, .. } | What::Fill { path, .. } => path.apply_affine(Affine::translate(by)),
            What::Words(words) => words.at += by,
        }
        self
    }
}

/// A drawing in the making.
#[derive(Clone, Debug, Default)]
pub(crate) struct Drawing {
    pub(crate) inks: Vec<Ink>,
    paragraphs: u32,
}

impl Drawing {
    /// A number for a new paragraph or table.
    pub(crate) fn next_number(&mut self) -> u32 {
        self.paragraphs += 1;
        self.paragraphs
    }

    pub(crate) fn path(&mut self, plane: Plane, pen: Pen, path: BezPath) {
        self.inks.push(Ink {
            plane,
            what: What::Line { path, pen },
        });
    }

    pub(crate) fn line(&mut self, plane: Plane, pen: Pen, from: Point, to: Point) {
        self.path(plane, pen, open(&[from, to]));
    }

    pub(crate) fn fill(&mut self, plane: Plane, tone: Tone, path: BezPath) {
        self.inks.push(Ink {
            plane,
            what: What::Fill { path, tone },
        });
    }

    pub(crate) fn rect(&mut self, plane: Plane, pen: Pen, rect: Rect) {
        self.path(plane, pen, rect.to_path(0.1));
    }

    pub(crate) fn ring(&mut self, plane: Plane, pen: Pen, middle: Point, radius: f64) {
        let path = Circle::new(middle, radius).to_path(0.001);
        self.fill(plane, Tone::White, path.clone());
        self.path(plane, pen, path);
    }

    pub(crate) fn words(&mut self, plane: Plane, line: Line, at: Point, role: Role) {
        self.turned_words(plane, line, at, 0.0, role);
    }

    pub(crate) fn turned_words(&mut self, plane: Plane, line: Line, at: Point, turn: f64, role: Role) {
        if line.spans.is_empty() {
            return;
        }
        self.inks.push(Ink {
            plane,
            what: What::Words(Words {
                line,
                at,
                turn,
                role,
                tone: Tone::Black,
            }),
        });
    }

    /// Takes another drawing in, moved by `by`; its paragraphs stay apart from ours.
    pub(crate) fn add(&mut self, other: &Drawing, by: Vec2) {
        let base = self.paragraphs;
        self.paragraphs += other.paragraphs;
        for ink in &other.inks {
            let mut ink = ink.clone().shifted(by);
            if let What::Words(words) = &mut ink.what {
                words.role = match words.role {
                    Role::Paragraph(n) => Role::Paragraph(n + base),
                    Role::Cell {
                        table,
                        row,
                        column,
                        is_head,
                    } => Role::Cell {
                        table: table + base,
                        row,
                        column,
                        is_head,
                    },
                    other => other,
                };
            }
            self.inks.push(ink);
        }
    }
}

/// An open run of straight lines.
pub(crate) fn open(points: &[Point]) -> BezPath {
    let mut path = BezPath::new();
    for (i, p) in points.iter().enumerate() {
        if i == 0 {
            path.move_to(*p)
        } else {
            path.line_to(*p)
        }
    }
    path
}

/// A closed run of straight lines.
pub(crate) fn closed(points: &[Point]) -> BezPath {
    let mut path = open(points);
    path.close_path();
    path
}
