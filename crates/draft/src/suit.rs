//! What a draft gives: pieces, seams that match, open edges with their arcs, and the numbers the judges need.

use kurbo::Point;
use serde::Serialize;
use units::{Finding, Level};

use crate::branch::BranchTaken;
use crate::piece::{OpenKind, Piece};
use crate::style::Style;

/// Two piece edges sewn together, with the walk that proves they match.
#[derive(Clone, Debug, PartialEq)]
pub struct SeamWalk {
    /// `side`, `shoulder`, `crotch`, ...
    pub name: &'static str,
    /// Piece key and edge names on one side.
    pub first: (String, Vec<&'static str>),
    /// Piece key and edge names on the other.
    pub second: (String, Vec<&'static str>),
    /// Seam-line length of the first, mm.
    pub first_mm: f64,
    /// Of the second, mm.
    pub second_mm: f64,
    /// Extra length of the first that is eased in on purpose, mm.
    pub sewn_ease_mm: f64,
}

impl SeamWalk {
    /// A walk of one edge along another: names, lengths (mm) and what is eased in.
    pub(crate) fn of(
        name: &'static str,
        first: (&str, &'static str),
        second: (&str, &'static str),
        (first_mm, second_mm, sewn_ease_mm): (f64, f64, f64),
    ) -> SeamWalk {
        SeamWalk {
            name,
            first: (first.0.to_owned(), vec![first.1]),
            second: (second.0.to_owned(), vec![second.1]),
            first_mm,
            second_mm,
            sewn_ease_mm,
        }
    }

    /// Whether an edge meets its own mirror image, of a piece cut twice: it is sewn, but there is nothing to compare.
    pub fn is_with_itself(&self) -> bool {
        self.first == self.second
    }

    /// How far the two sides are from matching, mm.
    pub fn error_mm(&self) -> f64 {
        self.first_mm - self.sewn_ease_mm - self.second_mm
    }
}

/// A stretch of an open edge with its own share of the ease.
#[derive(Clone, Debug, PartialEq)]
pub struct EdgeArc {
    /// `crotch`, `front`, `side`, `back`, `strap`, `underarm`.
    pub name: &'static str,
    /// Letter of the mark at its start, the same on elastic and edge.
    pub letter: char,
    /// Its length along the seam line, mm.
    pub length_mm: f64,
}

/// One open edge of the sewn suit, once round.
#[derive(Clone, Debug, PartialEq)]
pub struct OpenEdge {
    /// Which.
    pub kind: OpenKind,
    /// How many such edges the suit has: 2 for legs and armholes.
    pub count: u32,
    /// Whether it closes on itself.
    pub is_ring: bool,
    /// In sewing order, starting where the join of the elastic goes.
    pub arcs: Vec<EdgeArc>,
    /// Mean over the edge of cos^2 of its angle to the around direction: 1 runs around, 0 lengthwise.
    pub around_share: f64,
    /// Radius of the worn edge in mm for an estimate of its pressure: girth / 2 pi.
    pub worn_radius_mm: f64,
}

impl OpenEdge {
    /// Length once round, mm.
    pub fn length_mm(&self) -> f64 {
        self.arcs.iter().map(|a| a.length_mm).sum()
    }
}

/// The width of the suit at a level of the body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LevelWidth {
    /// Which level.
    pub level: Level,
    /// Height on the flat piece at the side, mm.
    pub y_mm: f64,
    /// Body girth there, mm.
    pub body_mm: f64,
    /// Pattern girth, once round, seam line to seam line, mm.
    pub pattern_mm: f64,
    /// The worn stretch the draft meant there.
    pub meant: f64,
}

/// One opening the body must pass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Opening {
    /// Which.
    pub kind: OpeningKind,
    /// Its length at rest, once round, mm.
    pub rest_mm: f64,
    /// The girth that must pass it, mm.
    pub passes_mm: f64,
    /// Mean cos^2 to the around direction along it (1 for a level opening).
    pub around_share: f64,
    /// What a closure adds to it.
    pub opened: Opened,
}

/// What a closure adds to an [`Opening`] while it is open.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Opened {
    /// No closure, or one that does not reach it.
    #[default]
    Not,
    /// So many mm more, once round: both sides of a slit.
    By(f64),
    /// It is no ring any more: a hook undone, a zip that runs through it.
    Fully,
}

/// Kinds of [`Opening`]; each has its own limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum OpeningKind {
    /// The waist of the suit over the hips.
    Waist,
    /// Neckline and back opening, one ring, over the hips.
    NecklineRing,
    /// A leg over the thigh.
    Leg,
    /// The band or top edge of a top that is pulled on, over the bust or over both shoulders and arms.
    Band,
    /// The hem of a top that is pulled on, over both shoulders and arms.
    Hem,
    /// The neck of a top that is pulled on, over the head.
    Head,
    /// A sleeve's end over the hand.
    Wrist,
}

/// The trunk loop against its parts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrunkLoop {
    /// Trunk circumference as taken, mm.
    pub measured_mm: Option<f64>,
    /// Sum of the parts, mm, with the front in use.
    pub parts_mm: f64,
    /// Bias of this way of measuring taken off, mm.
    pub bias_mm: f64,
    /// What was left before the front was solved, mm.
    pub residual_mm: f64,
    /// How much of it went into an estimated front waist length, mm.
    pub solved_mm: f64,
    /// Front waist length in use, mm.
    pub front_waist_mm: f64,
    /// Factor on the lengths along both folds.
    pub q: f64,
    /// Whether q is at its 6 % cap.
    pub is_capped: bool,
    /// Drafted loop, flat, mm; `None` for a style without one.
    pub drafted_mm: Option<f64>,
}

/// A measurement of the finished suit, flat and unstretched, to check the sewn suit by.
#[derive(Clone, Debug, PartialEq)]
pub struct FinishedMeasure {
    /// Stable name: `side_seam`.
    pub key: &'static str,
    /// What to measure, in the maker's words.
    pub name: String,
    /// How long it should be, mm.
    pub value_mm: f64,
    /// What is allowed either way, mm.
    pub tolerance_mm: f64,
}

impl FinishedMeasure {
    /// Key, name, length and tolerance (mm) as a measure.
    pub(crate) fn new(
        (key, name, value_mm, tolerance_mm): (&'static str, &str, f64, f64),
    ) -> FinishedMeasure {
        FinishedMeasure {
            key,
            name: name.to_owned(),
            value_mm,
            tolerance_mm,
        }
    }
}

/// An open edge running beside a rung of the torso loop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RungEdge {
    /// Which edge.
    pub kind: OpenKind,
    /// Edge length per mm of loop, counted once; both halves of the suit have one.
    pub per_mm: f64,
}

/// A short stretch of the torso loop in the flat, for the series estimate; bottom to top, front and then back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LoopRung {
    /// Whether it is on the front.
    pub is_front: bool,
    /// Middle height on the flat piece, mm.
    pub y_mm: f64,
    /// Length along the loop, mm.
    pub length_mm: f64,
    /// Width of cloth that carries the pull there, both halves, mm.
    pub width_mm: f64,
    /// Worn stretch around there, body / pattern - 1, straight between levels; `None` for straps and crotch, whose
    /// sides are free.
    pub around_worn: Option<f64>,
    /// Part of the loop for reporting; `None` between the parts.
    pub part: Option<LoopPart>,
    /// Open edges beside it on one half: leg; or neckline and armhole.
    pub edges: [Option<RungEdge>; 2],
}

/// Parts of the torso loop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LoopPart {
    /// Above the bust line.
    Strap,
    /// Between bust and crotch.
    Torso,
    /// The strip between the legs.
    Crotch,
}

/// What this style needs to hold this wearer's bust, and whether the design has it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SupportNeed {
    /// Stable name: `underbust_elastic`, `strap`, `second_layer`, `mesh_front`, `mesh_wings`, `princess`, `cup`, `boning`, `toile`.
    pub key: &'static str,
    /// What is needed, in the maker's words, with its size.
    pub what: String,
    /// Why, with this wearer's number.
    pub why: String,
    /// Where the threshold comes from.
    pub source: &'static str,
    /// Whether the design has it; `None` where only the maker can tell (a toile sewn, a cup bought).
    pub is_met: Option<bool>,
}

/// The draft of a suit.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// What was drafted.
    pub style: Style,
    /// Pieces in cutting order.
    pub pieces: Vec<Piece>,
    /// Every seam, walked.
    pub seams: Vec<SeamWalk>,
    /// Open edges.
    pub open_edges: Vec<OpenEdge>,
    /// Widths by level, top to bottom.
    pub levels: Vec<LevelWidth>,
    /// Openings the body must pass.
    pub openings: Vec<Opening>,
    /// Torso loop rungs, for the series estimate; empty for a style that is not held by both shoulders and crotch.
    pub loop_rungs: Vec<LoopRung>,
    /// Trunk loop; `None` for a style without one.
    pub trunk: Option<TrunkLoop>,
    /// Measurements of the finished suit.
    pub finished: Vec<FinishedMeasure>,
    /// What holds the bust, one need after the other; empty for a style or wearer without.
    pub support: Vec<SupportNeed>,
    /// What the draft itself has to say.
    pub findings: Vec<Finding>,
    /// Which ways it took where its rules part, by key: growth from one size to the next is even only where these are the same.
    pub branches: Vec<BranchTaken>,
    /// The strap's middle on the seam line, if there is one: for placing it on the form.
    pub strap_mid: Option<Point>,
}
