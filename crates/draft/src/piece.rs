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
}

impl OpenKind {
    /// The name on paper and in files.
    pub const fn name(self) -> &'static str {
        match self {
            OpenKind::Leg => "leg",
            OpenKind::Waist => "waist",
            OpenKind::Neckline => "neckline",
            OpenKind::Armhole => "armhole",
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
