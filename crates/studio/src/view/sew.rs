//! Section 6, Sew: the making plan of this suit for the machines there are. Order of work, stitches, scraps, elastic.
//!
//! Nothing of it is a list of its own: steps, stitches and elastic are those of crate `make`, the words those of crate `words`.
//! The bench shows the same steps one by one.

mod edges;
mod notes;
mod plan;
mod scraps;
mod steps;
mod stitches;
mod teller;
#[cfg(test)]
mod tests;

pub(super) use edges::{arc_key, edge_key, in_hand};
pub(super) use plan::{Planned, planned};
pub(super) use teller::Teller;

use serde::Serialize;
use ts_rs::TS;
use utoipa::ToSchema;

use super::not_yet::not_yet;
use super::{Head, Note, Quantity, State};
use crate::document::Worked;
use crate::order::Order;

/// What there is to sew.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct SewView {
    /// State, summary, notes.
    pub head: Head,
    /// The order of work.
    pub steps: Vec<StepView>,
    /// Index of the step at hand; none when all is done.
    pub now: Option<usize>,
    /// How long all of it takes: `5¼–11 h in all: common practice, …`.
    pub time: String,
    /// Which stretches the stitches are chosen for: those of the suit solved on its form, or those the draft means. One sentence.
    pub rests_on: String,
    /// Whether they are the solved ones.
    pub is_worn_solved: bool,
    /// Scraps to sew and try first.
    pub scraps: Vec<ScrapView>,
    /// The stitches, one for each job and setting.
    pub stitches: Vec<StitchView>,
    /// What cannot be sewn safely with these machines, and what could be done; empty when all can.
    pub cannot: Vec<String>,
    /// The elastic of each edge, drawn flat.
    pub edges: Vec<EdgeView>,
    /// Elastic to buy.
    pub to_buy: Vec<BuyView>,
}

/// Something to do, with its tick.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct StepView {
    /// Stable id, the path under `sewn` of the suit.
    pub id: String,
    /// Part of the work: `Join the shell`.
    pub phase: String,
    /// Machine it is done on, by the maker's name for it; empty by hand.
    pub machine: String,
    /// Whether a needle sews in it.
    pub is_sewn: bool,
    /// What to do.
    pub title: String,
    /// How: one or two sentences.
    pub says: String,
    /// What else to mind, pressing last.
    pub notes: Vec<String>,
    /// `6–13 min, practice`.
    pub minutes: String,
    /// Which side lies up under the needle; empty where no needle sews.
    pub side: String,
    /// Class of seam: `Class 1: superimposed seam`; empty where nothing is sewn.
    pub seam_class: String,
    /// Settings and measures, the most needed first: the bench shows four.
    pub settings: Vec<SettingView>,
    /// Place of its stitch in the stitches.
    pub stitch: Option<usize>,
    /// Pieces in hand, in the order they are drawn.
    pub hands: Vec<HandView>,
    /// The drawing in a sentence; or why there is none.
    pub drawing: String,
    /// Keys of the edges whose rulers belong to it.
    pub edges: Vec<String>,
    /// It cannot be sewn safely with these machines: that, and what could be done. Empty otherwise.
    pub stop: Vec<String>,
    /// Cautions, where they belong.
    pub cautions: Vec<String>,
    /// Done.
    pub done: bool,
}

/// A piece of a step's drawing.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct HandView {
    /// Key of the piece.
    pub piece: String,
    /// Its name.
    pub name: String,
    /// Names of its edges that are sewn in this step.
    pub sewn: Vec<String>,
    /// Names of its edges that are handled: basted, turned, but sewn elsewhere.
    pub handled: Vec<String>,
    /// Whether its wrong side lies up.
    pub is_wrong_side_up: bool,
}

/// A setting or measure of a step.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct SettingView {
    /// Name.
    pub name: String,
    /// Value.
    pub value: Quantity,
    /// More of it, small: point of the needle, rows; empty where there is none.
    pub note: String,
}

/// The stitch of a job.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct StitchView {
    /// Job: `Joining seams`.
    pub job: String,
    /// Steps it is sewn in: `steps 12, 14`.
    pub steps: String,
    /// Class of seam.
    pub seam_class: String,
    /// Stitch: `three-step zigzag`.
    pub stitch: String,
    /// `ISO 4915-304`, where the number is trusted; else empty.
    pub number: String,
    /// Machine.
    pub machine: String,
    /// `5.0 × 1.3`, mm.
    pub setting: Quantity,
    /// Rows side by side: `two rows`; empty for one.
    pub rows: String,
    /// Needle: `75, ball point`.
    pub needle: String,
    /// Thread: `spun polyester; below textured polyester`.
    pub thread: String,
    /// Tension, and what else to set: foot, feed, knife.
    pub also: Vec<String>,
    /// What is asked along it; none where nothing is stretched.
    pub asked: Option<Quantity>,
    /// `worn 12 %, movement 20 %, way in 40 %`; empty where nothing is stretched.
    pub need: String,
    /// How far it reaches; none where nothing is stretched.
    pub reaches: Option<Quantity>,
    /// What that rests on: `forecast from its settings`.
    pub evidence: String,
    /// Good when a sample shows it or nothing is stretched, estimate by forecast, stop when it is not safe.
    pub state: State,
    /// Why this one.
    pub why: Vec<String>,
    /// What was considered next, and why not; empty when nothing was.
    pub runner_up: String,
    /// When it is not safe: what could be sewn instead, with what.
    pub could: Vec<String>,
}

/// A scrap to sew and try.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ScrapView {
    /// Its place among the scraps of the plan: the sample book begins with it by that.
    pub place: usize,
    /// What to do.
    pub says: String,
    /// Marks on it, relaxed.
    pub marks: Quantity,
    /// How far to pull them; none where nothing is pulled.
    pub pull_to: Option<Quantity>,
    /// Whether the sample book has it.
    pub done: bool,
}

/// One edge and its elastic.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct EdgeView {
    /// Key: `leg`; `waist-2` for the second of a name.
    pub key: String,
    /// Title: `Leg, twice`.
    pub name: String,
    /// Arcs in sewing order.
    pub arcs: Vec<ArcView>,
    /// What to cut, overlap included.
    pub cut: Quantity,
    /// The overlap.
    pub overlap: Quantity,
    /// `Cut 53.1 cm, twice: 51.9 and 1.2 to overlap. Braided rubber, 8 mm.`
    pub says: String,
    /// How its ends are joined, or that they are not.
    pub join: String,
    /// What to mind of this elastic: latex, narrowing, chlorine, how far it works.
    pub about: Vec<String>,
    /// Worn stretch, pull, pressure.
    pub worn: Vec<SettingView>,
    /// That the figures are relative, where the force was not measured; empty otherwise.
    pub relative: String,
    /// Whether the ring passes what it must; none for an edge that is no ring or passes nothing.
    pub ring: Option<RingPassView>,
    /// What was judged of it.
    pub notes: Vec<Note>,
    /// How it stands.
    pub state: State,
}

/// A ring of elastic against the girth that passes it.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct RingPassView {
    /// One sentence.
    pub says: String,
    /// Good, doubtful or stop.
    pub state: State,
}

/// One arc.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ArcView {
    /// Name: `back`.
    pub name: String,
    /// Letter of the mark at its start; `f′` where the edge meets mark f a second time, on the other side.
    pub letter: String,
    /// Along the edge.
    pub edge: Quantity,
    /// Of elastic.
    pub elastic: Quantity,
    /// `flat` or `x 0.80`.
    pub ratio: Quantity,
    /// Where its mark stands on the edge, from the first.
    pub edge_mark: Quantity,
    /// Where its mark stands on the elastic, from the first, the overlap not counted.
    pub elastic_mark: Quantity,
    /// Edge length in mm, for the drawing.
    pub edge_mm: f64,
    /// Elastic length in mm, for the drawing.
    pub elastic_mm: f64,
}

/// Elastic to buy.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct BuyView {
    /// Kind and width.
    pub what: String,
    /// What is needed: what the suit takes, with trimming and a test.
    pub needed: Quantity,
    /// What is in stock, if written.
    pub in_hand: Option<Quantity>,
    /// What of the needed is not in hand.
    pub to_buy: Quantity,
}

/// The section of these papers.
pub(super) fn view(worked: &Worked) -> SewView {
    let teller = Teller::of_pages(worked.unit());
    match planned(worked) {
        Some((order, planned)) => view_of(worked, order, &planned, teller),
        None => {
            let nothing = teller.own("sew-nothing", &[]);
            SewView {
                head: Head::of(format!("{nothing}."), vec![not_yet(worked, &nothing)]),
                steps: vec![],
                now: None,
                time: String::new(),
                rests_on: String::new(),
                is_worn_solved: false,
                scraps: vec![],
                stitches: vec![],
                cannot: vec![],
                edges: vec![],
                to_buy: vec![],
            }
        }
    }
}

/// The section of a plan, in the words of that teller.
fn view_of(worked: &Worked, order: &Order, planned: &Planned, teller: Teller<'_>) -> SewView {
    let making = planned.making();
    let mut notes = notes::notes(planned, teller);
    let to_buy = edges::bought(worked, order, teller, &mut notes);
    let steps = steps::steps(worked, order, planned, teller);
    let now = steps.iter().position(|s| !s.done);
    let count = steps.len();
    let summary = match now.and_then(|at| steps.get(at).map(|step| (at, step))) {
        Some((at, step)) => teller.own(
            "sew-now",
            &[
                ("number", (at + 1).to_string().into()),
                ("count", count.to_string().into()),
                ("step", (&step.title).into()),
            ],
        ),
        None => teller.own("sew-all-done", &[("count", count.to_string().into())]),
    };
    let (least, most) = making.minutes;
    SewView {
        head: Head::of(summary, notes),
        steps,
        now,
        time: teller.own(
            "sew-time",
            &[("time", teller.words().minutes(least, most).into())],
        ),
        rests_on: teller.own(
            if making.is_worn_solved {
                "sew-worn-solved"
            } else {
                "sew-worn-drafted"
            },
            &[],
        ),
        is_worn_solved: making.is_worn_solved,
        scraps: scraps::scraps(planned, teller),
        stitches: stitches::stitches(planned, teller),
        cannot: notes::cannot(planned, teller),
        edges: edges::edges(worked, planned, teller),
        to_buy,
    }
}
