//! A range: every size of a table drafted from its own body, never scaled from another.
//!
//! Scaling a pattern keeps its proportions, and bodies don't: a shoulder grows by millimetres where a hip grows by
//! centimetres, and a dart appears where there was none. So every size is a body, drafted as a wearer's would be. What can't
//! be drafted stays in the range with its reason.

use body::Body;
use cloth::{ClothPlan, Fit};
use draft::{Design, Draft, OpenKind, Refusal};
use serde::Serialize;
use units::Progress;

use crate::size_body::{BodyRefusal, SizeBody};
use crate::table::SizeTable;

/// Why a size was not drafted.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum SizeRefusal {
    /// The row gives no body.
    Body(BodyRefusal),
    /// The draft was refused.
    Draft(Refusal),
    /// The work was stopped before this size.
    Stopped,
}

impl std::fmt::Display for SizeRefusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            SizeRefusal::Body(refusal) => refusal.fmt(f),
            SizeRefusal::Draft(refusal) => refusal.fmt(f),
            SizeRefusal::Stopped => f.write_str("stopped before this size; draft the range again"),
        }
    }
}

impl std::error::Error for SizeRefusal {}

/// A size that was drafted.
#[derive(Clone, Debug, PartialEq)]
pub struct DraftedSize {
    /// Its body.
    pub body: SizeBody,
    /// Its draft.
    pub draft: Draft,
}

/// One size of a range.
#[derive(Clone, Debug, PartialEq)]
pub struct Size {
    /// What it is called.
    pub name: String,
    /// Body and draft, or why there are none.
    pub outcome: Result<DraftedSize, SizeRefusal>,
}

/// A drafted range.
#[derive(Clone, Debug, PartialEq)]
pub struct Range {
    /// The table it was drafted from.
    pub table: SizeTable,
    /// The cloths it was drafted for.
    pub cloth: ClothPlan,
    /// How tight.
    pub fit: Fit,
    /// One for every row, in the order of the table.
    pub sizes: Vec<Size>,
}

impl Range {
    /// Drafts every size of a table in one cloth and design.
    ///
    /// Deterministic. `progress` is told of every size and may stop the work: sizes not begun are then
    /// [`SizeRefusal::Stopped`].
    ///
    /// A design given by lengths on one body (a neckline 120 mm below the pit, a side seam of 340 mm) is the same length in
    /// every size; shares grow with the body.
    pub fn draft(table: &SizeTable, cloth: &ClothPlan, design: &Design, progress: &dyn Progress) -> Range {
        let of = table.rows().len() as u64;
        let mut sizes = Vec::with_capacity(table.rows().len());
        for (i, row) in table.rows().iter().enumerate() {
            progress.at(i as u64, of, &format!("size {}", row.name));
            let outcome = if progress.should_stop() {
                Err(SizeRefusal::Stopped)
            } else {
                SizeBody::of(row, table)
                    .map_err(SizeRefusal::Body)
                    .and_then(|body| drafted(body, cloth, design))
            };
            sizes.push(Size {
                name: row.name.clone(),
                outcome,
            });
        }
        progress.at(of, of, "the range is drafted");
        Range {
            table: table.clone(),
            cloth: cloth.clone(),
            fit: design.fit,
            sizes,
        }
    }

    /// Those that were drafted, in order.
    pub fn drafted(&self) -> impl Iterator<Item = (&str, &DraftedSize)> {
        self.sizes
            .iter()
            .filter_map(|s| Some((s.name.as_str(), s.outcome.as_ref().ok()?)))
    }

    /// Those that were refused, with the reason.
    pub fn refused(&self) -> impl Iterator<Item = (&str, &SizeRefusal)> {
        self.sizes
            .iter()
            .filter_map(|s| Some((s.name.as_str(), s.outcome.as_ref().err()?)))
    }
}

fn drafted(body: SizeBody, cloth: &ClothPlan, design: &Design) -> Result<DraftedSize, SizeRefusal> {
    let draft = draft::draft(&body.body, cloth, design).map_err(SizeRefusal::Draft)?;
    Ok(DraftedSize { body, draft })
}

/// A length or area of a draft that should grow with size.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case", tag = "kind", content = "of")]
pub enum Key {
    /// An open edge, once round: leg, armhole, neckline, waist, ...
    Edge(&'static str),
    /// The drafted torso loop.
    Loop,
    /// The area within a piece's seam line, as drafted.
    Area(String),
}

impl Key {
    /// Its name on paper.
    pub fn name(&self) -> String {
        match self {
            Key::Edge(kind) => (*kind).to_owned(),
            Key::Loop => "torso loop".to_owned(),
            Key::Area(piece) => format!("area of {}", piece.replace('_', " ")),
        }
    }

    /// `mm`, or `cm2` for an area.
    pub const fn unit(&self) -> &'static str {
        match self {
            Key::Area(_) => "cm2",
            Key::Edge(_) | Key::Loop => "mm",
        }
    }
}

/// The key lengths (mm) and areas (cm2) of a draft, in a fixed order.
pub fn keys_of(draft: &Draft) -> Vec<(Key, f64)> {
    let edges = [
        OpenKind::Leg,
        OpenKind::Armhole,
        OpenKind::Neckline,
        OpenKind::Waist,
        OpenKind::Underbust,
        OpenKind::Top,
        OpenKind::Hem,
        OpenKind::Wrist,
    ];
    let lengths = edges.into_iter().filter_map(|kind| {
        let edge = draft.open_edges.iter().find(|e| e.kind == kind)?;
        Some((Key::Edge(kind.name()), edge.length_mm()))
    });
    let torso = draft.trunk.and_then(|t| t.drafted_mm).map(|mm| (Key::Loop, mm));
    let areas = draft.pieces.iter().map(|piece| {
        let mm2: f64 = piece.edges.iter().map(|e| e.curve.signed_area()).sum();
        (Key::Area(piece.key.clone()), mm2.abs() / 100.0)
    });
    lengths.chain(torso).chain(areas).collect()
}

/// Trunk circumference a size is cut for, mm: the table's, or the sum of its parts as a tape would find it.
pub(crate) fn trunk_of(body: &Body, draft: &Draft) -> Option<f64> {
    body.mm(body::Dimension::TrunkCircumference)
        .or_else(|| draft.trunk.map(|t| t.parts_mm + t.bias_mm))
}
