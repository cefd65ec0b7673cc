//! A flat pattern piece with everything printed on it: seam line, cut line, arrows, notches, marks, what to cut.
//!
//! **Shapes and units.** mm on relaxed cloth, piece frame: fold at x = 0, body waist at y = 0, y up, x to the side.
//! Outlines run counter-clockwise; outside is right of travel. A piece drafted on the fold holds its half with x >= 0;
//! [`Piece::whole`] unfolds it.

use cloth::{Layer, Orientation};
use kurbo::{Point, Vec2};

use crate::geometry::Curve;

/// What an edge of a piece is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum EdgeUse {
    /// Sewn to another edge.
    Seam,
    /// The fold of a symmetric piece; no allowance, not an edge of the whole piece.
    Fold,
    /// An open edge of the suit that gets elastic.
    Open(OpenKind),
    /// A turned hem.
    Hem,
    /// One leg of a dart.
    Dart,
    /// A free edge left as it is cut (the end of a crotch lining).
    Raw,
}

/// Which open edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum OpenKind {
    /// Leg.
    Leg,
    /// Waist of a brief.
    Waist,
    /// Neckline, front and back.
    Neckline,
    /// Armhole.
    Armhole,
    /// Lower edge of a top, under the bust.
    Underbust,
    /// Upper edge of a strapless top.
    Top,
    /// Lower edge of a top, skirt or trunk that is not turned as a plain hem.
    Hem,
    /// End of a sleeve.
    Wrist,
}

impl OpenKind {
    /// The name on paper and in files.
    pub const fn name(self) -> &'static str {
        match self {
            OpenKind::Leg => "leg",
            OpenKind::Waist => "waist",
            OpenKind::Neckline => "neckline",
            OpenKind::Armhole => "armhole",
            OpenKind::Underbust => "underbust",
            OpenKind::Top => "top",
            OpenKind::Hem => "hem",
            OpenKind::Wrist => "wrist",
        }
    }
}

/// One named edge of a piece, on the seam line.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceEdge {
    /// `side`, `leg`, `neck`, `armhole`, `shoulder`, `crotch`, `fold`, ...
    pub name: &'static str,
    /// What it is for.
    pub role: EdgeUse,
    /// Its seam line, counter-clockwise.
    pub curve: Curve,
    /// Distance to the cut line, mm.
    pub allowance_mm: f64,
}

/// So many to cut from a layer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CutCount {
    /// From which layer.
    pub layer: Layer,
    /// How many.
    pub count: u32,
    /// Half of them mirrored (a left and a right).
    pub mirrored: bool,
    /// How this layer's cloth lies on the piece.
    pub orientation: Orientation,
}

/// A straight arrow on a piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arrow {
    /// Foot.
    pub from: Point,
    /// Head.
    pub to: Point,
}

impl Arrow {
    /// On the piece turned over.
    pub fn mirrored(&self) -> Arrow {
        Arrow {
            from: flip(self.from),
            to: flip(self.to),
        }
    }
}

/// A point on the piece turned over at x = 0.
pub(crate) fn flip(p: Point) -> Point {
    Point::new(-p.x, p.y)
}

/// A notch on the cut line.
#[derive(Clone, Debug, PartialEq)]
pub struct Notch {
    /// Where, on the cut line.
    pub at: Point,
    /// Where its point lies on the seam line.
    pub seam_at: Point,
    /// Unit vector into the piece, square to the seam line.
    pub inward: Vec2,
    /// Depth, mm; never more than half the allowance.
    pub depth_mm: f64,
    /// Two side by side (the back armhole).
    pub double: bool,
    /// The notch it meets: the same key stands on the partner edge.
    pub key: &'static str,
    /// The edge it is on.
    pub edge: &'static str,
}

impl Notch {
    /// On the piece turned over.
    pub fn mirrored(&self) -> Notch {
        Notch {
            at: flip(self.at),
            seam_at: flip(self.seam_at),
            inward: Vec2::new(-self.inward.x, self.inward.y),
            ..self.clone()
        }
    }
}

/// Any point or line inside a piece.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A cross: the bust point, a strap's place.
    Cross {
        /// Where.
        at: Point,
        /// What it says.
        text: String,
    },
    /// A dotted line across the piece at a level, with its word.
    LevelLine {
        /// End nearer the fold.
        from: Point,
        /// End at the side.
        to: Point,
        /// What it says: `waist`.
        text: String,
    },
    /// A placement line: a skirt's join, the opening of a cup pocket.
    Placement {
        /// The line.
        curve: Curve,
        /// What it says.
        text: String,
    },
    /// Where one elastic arc ends and the next begins: across the edge at the seam line.
    ArcEnd {
        /// On the seam line.
        at: Point,
        /// Unit vector into the piece.
        inward: Vec2,
        /// Letter of the mark, the same on the elastic.
        letter: char,
    },
}

impl Mark {
    /// On the piece turned over.
    pub fn mirrored(&self) -> Mark {
        match self {
            Mark::Cross { at, text } => Mark::Cross {
                at: flip(*at),
                text: text.clone(),
            },
            Mark::LevelLine { from, to, text } => Mark::LevelLine {
                from: flip(*from),
                to: flip(*to),
                text: text.clone(),
            },
            Mark::Placement { curve, text } => Mark::Placement {
                curve: curve.mirrored(),
                text: text.clone(),
            },
            Mark::ArcEnd { at, inward, letter } => Mark::ArcEnd {
                at: flip(*at),
                inward: Vec2::new(-inward.x, inward.y),
                letter: *letter,
            },
        }
    }
}

/// One flat pattern piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// File-safe key, unique in the suit: `front`, `back_lining`.
    pub key: String,
    /// Name on paper: `Front`.
    pub name: String,
    /// Letter on the page map: A, B, ...
    pub letter: char,
    /// What to cut.
    pub cuts: Vec<CutCount>,
    /// Whether it is the half of a symmetric piece, on the fold x = 0.
    pub on_fold: bool,
    /// The seam line as drafted, closed, counter-clockwise; each edge ends exactly where the next begins.
    pub edges: Vec<PieceEdge>,
    /// The cut line as drafted, a closed polygon (first point not repeated), counter-clockwise.
    pub cut_line: Vec<Point>,
    /// Parallel to the selvedge of the first cut's cloth.
    pub grain: Arrow,
    /// Parallel to the greatest stretch; meant to lie around the body.
    pub stretch: Arrow,
    /// Notches, as drafted.
    pub notches: Vec<Notch>,
    /// Marks, as drafted.
    pub marks: Vec<Mark>,
    /// Where the label sits best, as drafted and as a whole piece: the middle of the roomiest place.
    pub label_at: Point,
    /// See `label_at`; for a piece on the fold it lies on x = 0.
    pub whole_label_at: Point,
}

/// A piece ready to be drawn: as drafted, or unfolded.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Seam-line edges with their names and uses; the fold is left out.
    pub seam_line: Vec<PieceEdge>,
    /// Closed cut polygon, counter-clockwise, first point not repeated.
    pub cut_line: Vec<Point>,
    /// The fold line, bottom to top, if the piece has one.
    pub fold_line: Option<(Point, Point)>,
    /// Whether the fold line is an edge of the shape (print "on the fold") or lies inside it.
    pub fold_is_edge: bool,
    /// Notches.
    pub notches: Vec<Notch>,
    /// Marks.
    pub marks: Vec<Mark>,
    /// Grain arrow.
    pub grain: Arrow,
    /// Stretch arrow.
    pub stretch: Arrow,
    /// Middle of the label.
    pub label_at: Point,
}

impl Piece {
    /// The edge of that name, if the piece has it.
    pub fn edge(&self, name: &str) -> Option<&PieceEdge> {
        self.edges.iter().find(|e| e.name == name)
    }
}

impl Piece {
    /// The piece as drafted: half, with its fold as an edge, if it is on the fold.
    pub fn as_drafted(&self) -> Shape {
        Shape {
            seam_line: self
                .edges
                .iter()
                .filter(|e| e.role != EdgeUse::Fold)
                .cloned()
                .collect(),
            cut_line: self.cut_line.clone(),
            fold_line: self.fold_ends(),
            fold_is_edge: self.on_fold,
            notches: self.notches.clone(),
            marks: self.marks.clone(),
            grain: self.grain,
            stretch: self.stretch,
            label_at: self.label_at,
        }
    }

    /// The whole piece: unfolded if it is on the fold, as drafted if not.
    ///
    /// Edges, notches and marks of the other half are mirrored and keep their names; a cross or line on the fold itself
    /// stands once. Grain and stretch arrows are not doubled; the label moves to the fold.
    pub fn whole(&self) -> Shape {
        if !self.on_fold {
            return self.as_drafted();
        }
        let half = self.as_drafted();
        let mut seam_line = half.seam_line.clone();
        seam_line.extend(half.seam_line.iter().rev().map(|e| PieceEdge {
            curve: e.curve.mirrored(),
            ..e.clone()
        }));

        // The drafted cut line starts at the fold's foot; the other half goes back down it.
        let mut cut_line: Vec<Point> = half.cut_line.clone();
        cut_line.extend(half.cut_line.iter().rev().filter(|p| p.x > 0.0).map(|&p| flip(p)));

        let mut notches = half.notches.clone();
        notches.extend(
            half.notches
                .iter()
                .filter(|n| n.seam_at.x > 1e-6)
                .map(Notch::mirrored),
        );
        let marks = half.marks.iter().flat_map(both_sides).collect();
        Shape {
            seam_line,
            cut_line,
            fold_line: half.fold_line,
            fold_is_edge: false,
            notches,
            marks,
            grain: self.grain,
            stretch: centred_on_fold(self.stretch),
            label_at: self.whole_label_at,
        }
    }

    /// Foot and head of the fold on the cut line.
    fn fold_ends(&self) -> Option<(Point, Point)> {
        if !self.on_fold {
            return None;
        }
        let on_fold = self.cut_line.iter().filter(|p| p.x == 0.0).map(|p| p.y);
        let (low, high) = on_fold.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), y| {
            (a.min(y), b.max(y))
        });
        (low < high).then(|| (Point::new(0.0, low), Point::new(0.0, high)))
    }
}

/// A level arrow moved to the middle of the whole piece; an upright one stays where it is.
fn centred_on_fold(arrow: Arrow) -> Arrow {
    let half = 0.5 * (arrow.to.x - arrow.from.x);
    if half.abs() < 1e-9 {
        return arrow;
    }
    Arrow {
        from: Point::new(-half, arrow.from.y),
        to: Point::new(half, arrow.to.y),
    }
}

/// A mark of the drafted half as it stands on the whole piece.
fn both_sides(mark: &Mark) -> Vec<Mark> {
    match mark {
        Mark::Cross { at, text } => {
            let mut all = vec![mark.clone()];
            if at.x > 1e-6 {
                all.push(Mark::Cross {
                    at: flip(*at),
                    text: text.clone(),
                });
            }
            all
        }
        Mark::LevelLine { from, to, text } if from.x.abs() < 1e-6 => {
            vec![Mark::LevelLine {
                from: flip(*to),
                to: *to,
                text: text.clone(),
            }]
        }
        Mark::LevelLine { from, to, text } => {
            vec![
                mark.clone(),
                Mark::LevelLine {
                    from: flip(*from),
                    to: flip(*to),
                    text: text.clone(),
                },
            ]
        }
        Mark::Placement { curve, text } => {
            if curve.start().x.abs() < 1e-6 {
                vec![Mark::Placement {
                    curve: curve.mirrored().then(curve),
                    text: text.clone(),
                }]
            } else {
                vec![
                    mark.clone(),
                    Mark::Placement {
                        curve: curve.mirrored(),
                        text: text.clone(),
                    },
                ]
            }
        }
        Mark::ArcEnd { at, inward, letter } => {
            let mut all = vec![mark.clone()];
            if at.x > 1e-6 {
                let inward = Vec2::new(-inward.x, inward.y);
                all.push(Mark::ArcEnd {
                    at: flip(*at),
                    inward,
                    letter: *letter,
                });
            }
            all
        }
    }
}
