//! The order of work for this very suit: what is done, to which edges, before what.
//!
//! Nothing is a fixed list. Every seam, hem, dart and open edge of the draft becomes part of exactly one operation by its role
//! (side, crotch, shoulder, waistband, ...), so that a new style, a lining, a colour block or a zip changes the order by being there.
//! Lining edges that meet each other are sewn as a suit of their own; those that meet none are caught in the shell's seam. An
//! operation waits for every one of lower rank that touches a piece of its own; what is then still free is ordered so that machines and
//! threads change least.
//!
//! **Source.** Ranks and gates: `data/trade/operations.csv` and its fixed points: tests and washing before cutting; the crotch lining
//! before the sides; cups to the lining, never to the shell; a basted try-on before any elastic; sides before leg elastic; legs before
//! waist; rings joined before they are sewn on; skirts after the suit's sides; topstitching last. Common practice, no single source.

mod build;
mod closing;
mod edges;
mod elastics;
mod layers;
mod role;
mod schedule;
mod seams;
mod time;

pub(crate) use build::operations;
pub(crate) use edges::times;
pub(crate) use role::Role;
pub(crate) use schedule::{Setup, scheduled};
pub(crate) use time::minutes;

use draft::OpenKind;
use serde::Serialize;
use units::Mm;

use crate::job::Job;
use crate::needs::Need;
use crate::say::Say;

/// What part of the work a step belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Phase {
    /// Scraps and washing.
    Prove,
    /// Laying out, cutting, marking.
    Cut,
    /// The shell's seams.
    Join,
    /// Lining, cups, mesh.
    Lining,
    /// Trying on, basted.
    Fit,
    /// Elastic.
    Elastic,
    /// Topstitching, hems, closures, the last look.
    Finish,
}

impl Phase {
    /// Key of its name: `phase.join`.
    pub const fn key(self) -> &'static str {
        match self {
            Phase::Prove => "phase.prove",
            Phase::Cut => "phase.cut",
            Phase::Join => "phase.join",
            Phase::Lining => "phase.lining",
            Phase::Fit => "phase.fit",
            Phase::Elastic => "phase.elastic",
            Phase::Finish => "phase.finish",
        }
    }
}

/// Which side of the cloth lies up under the needle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum SideUp {
    /// The wrong side: right sides together, or elastic on the inside.
    Wrong,
    /// The right side.
    Right,
}

/// A piece a step touches.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Touch {
    /// Key of the piece in the draft.
    pub piece: String,
    /// Names of its edges that are sewn in this step; each edge of the draft is sewn in one step only.
    pub sewn: Vec<&'static str>,
    /// Names of edges that are handled, basted or topstitched, but sewn elsewhere.
    pub handled: Vec<&'static str>,
}

impl Touch {
    /// The whole piece in hand, no edge of it in particular.
    pub(crate) fn whole(piece: impl Into<String>) -> Touch {
        Touch {
            piece: piece.into(),
            sewn: Vec::new(),
            handled: Vec::new(),
        }
    }
}

/// One step of the order of work.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Step {
    /// Stable id by role: `join.side`, `elastic.leg`.
    pub id: String,
    /// Its title by its key (`step.side`); the message's attribute `.how` says how.
    pub say: Say,
    /// Part of the work.
    pub phase: Phase,
    /// Pieces and edges.
    pub touches: Vec<Touch>,
    /// Places in the draft's seams of those sewn here.
    pub seams: Vec<usize>,
    /// Places in the draft's open edges of those whose elastic is sewn or turned here.
    pub edges: Vec<usize>,
    /// Places of the steps that must be done before.
    pub needs: Vec<usize>,
    /// Place of its stitch in the plan's stitches; none for a step without a needle.
    pub stitch: Option<usize>,
    /// Place of its machine in the workroom.
    pub machine: Option<usize>,
    /// Least and greatest allowance of the edges sewn; none where there is none.
    pub allowance: Option<(Mm, Mm)>,
    /// Length sewn, one row.
    pub length: Mm,
    /// Separate runs of the needle.
    pub runs: u32,
    /// Which side lies up.
    pub side_up: Option<SideUp>,
    /// How to press: `press.finger`, `press.iron`, `press.never`.
    pub press: Option<Say>,
    /// Minutes at home, least and most: common practice, no source.
    pub minutes: (f64, f64),
    /// Ids of `data/trade/cautions.csv` that belong here.
    pub cautions: Vec<&'static str>,
    /// What else to mind.
    pub notes: Vec<Say>,
}

/// A step before it has its place: the nodes of the graph.
#[derive(Clone, Debug)]
pub(crate) struct Operation {
    pub(crate) id: String,
    pub(crate) say: Say,
    pub(crate) phase: Phase,
    /// Waits for those of lower rank it shares a piece with.
    pub(crate) rank: u16,
    pub(crate) touches: Vec<Touch>,
    pub(crate) seams: Vec<usize>,
    pub(crate) edges: Vec<usize>,
    pub(crate) work: Option<Work>,
    /// Length sewn, mm.
    pub(crate) length_mm: f64,
    /// Separate runs of the needle.
    pub(crate) runs: u32,
    pub(crate) side_up: Option<SideUp>,
    pub(crate) press: Option<Say>,
    pub(crate) cautions: Vec<&'static str>,
    pub(crate) notes: Vec<Say>,
    /// Ids it waits for besides.
    pub(crate) after: Vec<String>,
    /// Minutes where they do not follow from the length.
    pub(crate) minutes: Option<(f64, f64)>,
    pub(crate) gate: Gate,
}

/// Needlework of an operation.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Work {
    pub(crate) job: Job,
    pub(crate) need: Option<Need>,
    pub(crate) plies: u8,
}

/// What whole parts of the work an operation waits for, or closes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Gate {
    /// Before cutting.
    Before,
    /// Cutting: waits for what is before.
    Cut,
    /// Sewing before the try-on: waits for the cutting of its pieces.
    Sew,
    /// The try-on: waits for all sewing before it.
    TryOn,
    /// Sewing after the try-on.
    After,
    /// The end: waits for everything.
    End,
}

/// Edges of the body the elastic of which must wait for that of another.
pub(crate) const fn edge_rank(kind: OpenKind) -> u16 {
    match kind {
        OpenKind::Leg => 0,
        OpenKind::Waist => 1,
        OpenKind::Underbust => 2,
        OpenKind::Top => 3,
        OpenKind::Armhole => 4,
        OpenKind::Neckline => 5,
        OpenKind::Hem => 6,
        OpenKind::Wrist => 7,
    }
}
