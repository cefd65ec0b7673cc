//! Each edge's elastic with what a maker asks of it at the table: how it is joined, how hard it pulls and presses, whether its ring passes.
//!
//! **Shapes and units.** Lengths mm on relaxed cloth; pull N; pressure kPa.
//! **Source.** Pressure p = F / (w R), Laplace for a band: `data/trade/pressure_model.toml`. Ring: the elastic and the cloth of the edge
//! must both reach what passes; working extension by kind, `data/trade/elastics.csv`, or as tested. Join over a scrap: common
//! practice, no source.

use draft::{Draft, OpenKind, OpeningKind};
use serde::Serialize;
use units::{Finding, Limit, Mm, Severity};

use crate::elastic::{casing_elastic, elastic};
use crate::kind::{ElasticChoice, Latex};
use crate::plan::ElasticPlan;
use crate::ratio::rule_for;
use crate::sample::SampleBook;
use crate::say::{Arg, Say};
use crate::worn::{EDGE_PRESSURE_STOP_KPA, EDGE_PRESSURE_WATCH_KPA, Worn};

/// The elastic of one edge, deepened.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EdgeElastic {
    /// Ratios, marks, lengths.
    pub plan: ElasticPlan,
    /// How its ends are joined, or that they are not: `elastic_join.ring`, `elastic_join.open`.
    pub join: Say,
    /// What to mind of this elastic: latex, narrowing, chlorine: `elastic.latex`, ...
    pub about: Vec<Say>,
    /// Stretch of the elastic in wear at its most stretched arc, a ratio.
    pub worn_extension: f64,
    /// Its pull there, N.
    pub pull_newton: f64,
    /// Whether the force it rests on was measured; assumed otherwise.
    pub is_force_measured: bool,
    /// Pressure there, kPa; none where the edge runs round no one radius.
    pub pressure_kpa: Option<f64>,
    /// Limits of that pressure: watch above, stop above.
    pub limits_kpa: (f64, f64),
    /// Whether the ring passes what it must; none for an edge that closes no ring or passes nothing.
    pub ring: Option<RingCheck>,
    /// What was judged beyond the plan's own findings.
    pub findings: Vec<Finding>,
}

/// A ring of elastic against the girth that passes it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RingCheck {
    /// Cut length without the lap.
    pub rest: Mm,
    /// Girth that must pass.
    pub passes: Mm,
    /// As far as the elastic opens.
    pub opens_to: Mm,
    /// Extension needed / extension it works to.
    pub share: f64,
    /// Whether it passes.
    pub is_passed: bool,
}

/// How far an elastic goes once, when a suit is pulled on and let go: the high end of swim elastic (own).
const ONCE_OVER: f64 = 1.0;
/// Share above which a ring that passes is looked at: the way in's own watch limit for elastic (own).
const RING_WATCH: f64 = 0.85;

/// The elastic of every open edge, in the draft's order. A tested elastic of the same kind and width in the sample book gives its own force
/// and extension.
pub fn edge_elastics(draft: &Draft, choice: &ElasticChoice, samples: &SampleBook) -> Vec<EdgeElastic> {
    let tested = samples
        .elastic(choice.kind(), choice.width())
        .and_then(|t| t.choice().ok());
    let choice = tested.as_ref().unwrap_or(choice);
    elastic(draft, choice)
        .into_iter()
        .zip(&draft.open_edges)
        .map(|(plan, edge)| {
            let rule = rule_for(edge, draft);
            let of_casing = casing_elastic(draft, rule);
            let choice = of_casing.as_ref().unwrap_or(choice);
            let worn = Worn::of(draft, edge, rule, choice);
            let least = plan.arcs.iter().map(|a| a.ratio).fold(1.0, f64::min);
            let pull_newton = worn.pull(least);
            let ring = ring(draft, edge.kind, &plan, choice);
            let join = match edge.is_ring {
                true => Say::plain("elastic_join.ring")
                    .with("overlap", Arg::Length(plan.overlap))
                    .with("mark", Arg::Name(plan.mark(0))),
                false => Say::plain("elastic_join.open"),
            };
            EdgeElastic {
                findings: ring.and_then(|r| ring_finding(&plan, r)).into_iter().collect(),
                join,
                about: about(choice),
                worn_extension: worn.extension(least),
                pull_newton,
                is_force_measured: worn.is_measured,
                pressure_kpa: worn.pull_at(1.0).map(|newton| pull_newton / newton),
                limits_kpa: (EDGE_PRESSURE_WATCH_KPA, EDGE_PRESSURE_STOP_KPA),
                ring,
                plan,
            }
        })
        .collect()
}

fn about(choice: &ElasticChoice) -> Vec<Say> {
    let mut about = vec![Say::plain(match choice.latex() {
        Latex::Yes => "elastic.latex",
        Latex::Ask => "elastic.latex_ask",
        Latex::No => "elastic.latex_free",
    })];
    let facts = choice.kind().facts();
    about.push(Say::plain(match facts.narrows {
        crate::kind::Narrowing::No => "elastic.keeps_width",
        crate::kind::Narrowing::Slightly => "elastic.narrows_slightly",
        crate::kind::Narrowing::Yes => "elastic.narrows",
    }));
    about.push(Say::plain(match choice.kind().chlorine() {
        crate::kind::Chlorine::Good => "elastic.chlorine_good",
        crate::kind::Chlorine::Fair => "elastic.chlorine_fair",
        crate::kind::Chlorine::Poor => "elastic.chlorine_poor",
    }));
    about.push(
        Say::plain("elastic.works_to").with("extension", Arg::Share(choice.working_extension().ratio())),
    );
    about
}

fn ring(draft: &Draft, kind: OpenKind, plan: &ElasticPlan, choice: &ElasticChoice) -> Option<RingCheck> {
    if plan.overlap <= Mm::ZERO {
        return None;
    }
    let ways: &[OpeningKind] = match kind {
        OpenKind::Leg => &[OpeningKind::Leg],
        OpenKind::Waist => &[OpeningKind::Waist],
        OpenKind::Neckline => &[OpeningKind::NecklineRing, OpeningKind::Head],
        OpenKind::Underbust | OpenKind::Top => &[OpeningKind::Band],
        OpenKind::Hem => &[OpeningKind::Hem],
        OpenKind::Wrist => &[OpeningKind::Wrist],
        OpenKind::Armhole => &[],
    };
    let opening = draft
        .openings
        .iter()
        .filter(|o| ways.contains(&o.kind) && o.opened == draft::Opened::Not)
        .max_by(|a, b| a.passes_mm.total_cmp(&b.passes_mm))?;
    let rest = plan.cut_length - plan.overlap;
    let extension = match kind {
        // Stretched once on the way in, not held there: twice its length (own; the once-over limit of the way in).
        OpenKind::Neckline | OpenKind::Underbust | OpenKind::Top | OpenKind::Hem | OpenKind::Wrist => {
            choice.working_extension().ratio().max(ONCE_OVER)
        }
        _ => choice.working_extension().ratio(),
    };
    let opens_to = rest * (1.0 + extension);
    let needed = opening.passes_mm / rest.get().max(1e-9) - 1.0;
    Some(RingCheck {
        rest,
        passes: Mm::new(opening.passes_mm),
        opens_to,
        share: needed.max(0.0) / extension.max(1e-9),
        is_passed: opens_to.get() >= opening.passes_mm,
    })
}

fn ring_finding(plan: &ElasticPlan, ring: RingCheck) -> Option<Finding> {
    if ring.share <= RING_WATCH {
        return None;
    }
    Some(Finding {
        code: "elastic.ring",
        severity: if ring.is_passed {
            Severity::Watch
        } else {
            Severity::Stop
        },
        place: format!("{} elastic", plan.edge),
        message: format!(
            "Its ring opens to {:.0} mm; {:.0} mm must pass it.",
            ring.opens_to.get(),
            ring.passes.get()
        ),
        value: Some(ring.share),
        limit: Some(Limit {
            text: format!("{RING_WATCH:.2} of what the elastic works to"),
            source: "own",
        }),
        remedy: "Cut it longer, take an elastic that stretches further, or give the suit an opening."
            .to_owned(),
    })
}
