//! Elastic for every open edge: how much for each arc, where its marks go, and whether it would squeeze or tire.
//!
//! Each arc gets its own share of the ease (see [`crate::rule_for`]); the marks on elastic and edge are then matched one to
//! one, so that ease can't wander from the seat to the front of the leg. The pull of the elastic is held against the edge
//! pressure limit: where the force of the elastic was measured, the back of the leg is cut longer until it holds; where it
//! was not, a force is assumed and the maker is told so, but the ratio stays.
//!
//! **Shapes and units.** mm along the seam line, relaxed; marks run from the first mark, where the join goes.
//! **Source.** Cut length, lap and pull: common practice, no single source; pressure: see `worn`.
//! **Limits.** Those of the estimate of how far an edge is worn stretched. Whether a ring passes the hips is the way in,
//! judged elsewhere.

use draft::{Draft, EdgeUse, OpenEdge, OpenKind};
use units::{Finding, Limit, Mm, Severity};

use crate::kind::{ElasticChoice, ElasticKind};
use crate::plan::{ElasticArc, ElasticPlan};
use crate::ratio::{EdgeRule, RatioBand, rule_for};
use crate::worn::{EDGE_PRESSURE_WATCH_KPA, Worn};

/// Added once to a ring for its lap join. `data/trade/allowances.csv`, `elastic lap join`; common practice.
pub const LAP_JOIN: Mm = Mm::new(12.0);
/// A raised ratio is rounded up to a hundredth, so that it can be read off and typed.
const RATIO_STEPS: f64 = 100.0;
/// An open edge's allowance may exceed the elastic's width by 0 to 2 mm, the turn of cloth. `data/trade/allowances.csv`.
const TURN_OF_CLOTH_MM: (f64, f64) = (0.0, 2.0);
/// The elastic in a casing is this much narrower than it, so that it does not jam. Common practice, no single source.
const CASING_ROOM: Mm = Mm::new(5.0);
const PRACTICE: &str = "common practice, no single source";

/// Plans the elastic of every open edge of a suit.
///
/// Returns one plan per open edge, in the draft's order. In each: arcs in sewing order; `elastic` = `edge` x `ratio`;
/// `cut_length` = their sum + [`LAP_JOIN`] for a ring; both runs of marks start at 0 and grow. An arc no rule is known for is
/// cut 1:1, with a watch finding.
///
/// **The cap.** On the back of the leg the pull T = K (s / ratio - 1) must not exceed p w R, with K the elastic's force at
/// double length, s the worn edge / flat edge, p = [`EDGE_PRESSURE_WATCH_KPA`], w the elastic's width and R the edge's worn
/// radius. With K measured the ratio is raised to s / (1 + p w R / K), rounded up to 0.01, at most 1.
///
/// # Source
/// See the head of this module. Worked by hand in `tests/elastic_by_hand.rs`.
pub fn elastic(draft: &Draft, choice: &ElasticChoice) -> Vec<ElasticPlan> {
    let mut plans: Vec<ElasticPlan> = draft
        .open_edges
        .iter()
        .map(|edge| plan_edge(draft, edge, choice))
        .collect();
    if let Some(first) = plans.first_mut() {
        first.findings.extend(width_finding(choice));
    }
    plans
}

fn plan_edge(draft: &Draft, edge: &OpenEdge, choice: &ElasticChoice) -> ElasticPlan {
    let rule = rule_for(edge, draft);
    let of_casing = casing_elastic(draft, rule);
    let choice = of_casing.as_ref().unwrap_or(choice);
    let worn = Worn::of(draft, edge, rule, choice);
    let mut findings = Vec::new();
    let mut arcs = Vec::with_capacity(edge.arcs.len());
    let (mut edge_mark, mut elastic_mark) = (Mm::ZERO, Mm::ZERO);
    let mut greatest_extension: f64 = 0.0;
    let mut greatest_pull: f64 = 0.0;
    for arc in &edge.arcs {
        let ratio = match rule.band(arc.name) {
            Some(band) if edge.kind == OpenKind::Leg && arc.name == "back" => {
                capped_ratio(&worn, band, &mut findings)
            }
            Some(band) => band.mid,
            None => {
                findings.push(no_rule(edge.kind, arc.name));
                1.0
            }
        };
        let length = Mm::new(arc.length_mm);
        let elastic = length * ratio;
        greatest_extension = greatest_extension.max(worn.extension(ratio));
        greatest_pull = greatest_pull.max(worn.pull(ratio));
        arcs.push(ElasticArc {
            name: arc.name,
            letter: arc.letter,
            edge: length,
            ratio,
            elastic,
            edge_mark,
            elastic_mark,
        });
        edge_mark += length;
        elastic_mark += elastic;
    }
    findings.extend(overstretched(edge.kind, greatest_extension, choice));
    findings.extend(worn.pressure_finding(greatest_pull));
    if of_casing.is_none() {
        findings.extend(allowance_finding(draft, edge.kind, choice));
    }
    let overlap = if edge.is_ring { LAP_JOIN } else { Mm::ZERO };
    ElasticPlan {
        edge: edge.kind.name(),
        count: edge.count,
        kind: choice.kind().facts().name.to_owned(),
        width: choice.width(),
        arcs,
        overlap,
        cut_length: elastic_mark + overlap,
        source: rule.source(),
        findings,
    }
}

/// The elastic of a waist in a casing or band: wide, knitted, narrower than the band by its room. Whatever goes into the legs is
/// not for here.
pub(crate) fn casing_elastic(draft: &Draft, rule: EdgeRule) -> Option<ElasticChoice> {
    if rule != EdgeRule::WaistInCasing {
        return None;
    }
    let band = draft.finished.iter().find(|m| m.key == "waistband_depth")?;
    let width = Mm::new(band.value_mm) - CASING_ROOM;
    ElasticChoice::new(ElasticKind::Knitted, width, None, None, None).ok()
}

/// The ratio of the back of the leg, raised until the pull holds when it was measured.
fn capped_ratio(worn: &Worn, band: RatioBand, findings: &mut Vec<Finding>) -> f64 {
    let Some(cap) = worn.pull_at(EDGE_PRESSURE_WATCH_KPA).filter(|_| worn.is_measured) else {
        return band.mid;
    };
    if worn.pull(band.mid) <= cap {
        return band.mid;
    }
    let needed = worn.stretch / (1.0 + cap / worn.k_newton);
    // A billionth of a step is rounding of the arithmetic.
    let ratio = ((needed * RATIO_STEPS - 1e-9).ceil() / RATIO_STEPS).clamp(band.mid, 1.0);
    let is_within = ratio <= band.high;
    findings.push(Finding {
        code: "elastic.back_leg_ratio",
        severity: if is_within { Severity::Good } else { Severity::Watch },
        place: "back of the leg".to_owned(),
        message: format!(
            "The back is cut at {ratio:.2} instead of {:.2}: there it would pull {:.1} N.",
            band.mid,
            worn.pull(band.mid)
        ),
        value: Some(ratio),
        limit: Some(Limit { text: format!("{:.2} to {:.2}", band.low, band.high), source: PRACTICE }),
        remedy: if is_within {
            String::new()
        } else {
            "This elastic is strong for a leg: take a softer or a wider one, or check by hand that the seat is held.".to_owned()
        },
    });
    ratio
}

fn no_rule(kind: OpenKind, arc: &str) -> Finding {
    Finding {
        code: "elastic.no_rule",
        severity: Severity::Watch,
        place: format!("{}, {arc}", kind.name()),
        message: format!(
            "There is no rule for the {arc} of a {}: its elastic is cut 1:1.",
            kind.name()
        ),
        value: None,
        limit: None,
        remedy: "Pin it at the try-on and mark where it must be shorter.".to_owned(),
    }
}

fn overstretched(kind: OpenKind, extension: f64, choice: &ElasticChoice) -> Option<Finding> {
    let limit = choice.working_extension();
    (extension > limit.ratio()).then(|| Finding {
        code: "elastic.overstretched",
        severity: Severity::Watch,
        place: format!("{} elastic", kind.name()),
        message: format!(
            "Worn, it is stretched {:.0} %; a {} works to {:.0} %.",
            extension * 100.0,
            choice.kind().facts().name,
            limit.percent()
        ),
        value: Some(extension * 100.0),
        limit: Some(Limit {
            text: format!("{:.0} %", limit.percent()),
            source: PRACTICE,
        }),
        remedy: "Take a kind that works further, or test this one and enter how far it goes.".to_owned(),
    })
}

/// Whether the open edges of the shell have room for the elastic to be turned in.
fn allowance_finding(draft: &Draft, kind: OpenKind, choice: &ElasticChoice) -> Option<Finding> {
    let width = choice.width().get();
    let (least, most) = (width + TURN_OF_CLOTH_MM.0, width + TURN_OF_CLOTH_MM.1);
    let shell = draft
        .pieces
        .iter()
        .filter(|p| p.cuts.iter().any(|c| c.layer == cloth::Layer::Shell));
    let wrong = shell
        .flat_map(|p| &p.edges)
        .filter(|e| e.role == EdgeUse::Open(kind))
        .map(|e| e.allowance_mm)
        .find(|a| *a < least - 1e-9 || *a > most + 1e-9)?;
    Some(Finding {
        code: "elastic.allowance",
        severity: Severity::Watch,
        place: format!("{} allowance", kind.name()),
        message: format!(
            "The allowance is {wrong:.0} mm; {width:.0} mm elastic turned in takes {least:.0} to {most:.0} mm."
        ),
        value: Some(wrong),
        limit: Some(Limit {
            text: format!("{least:.0} to {most:.0} mm"),
            source: PRACTICE,
        }),
        remedy: "Set the design's elastic width to that of the elastic, and draft again.".to_owned(),
    })
}

fn width_finding(choice: &ElasticChoice) -> Option<Finding> {
    let facts = choice.kind().facts();
    let (least, most) = facts.widths_mm;
    let width = choice.width().get();
    (width < least || width > most).then(|| Finding {
        code: "elastic.width",
        severity: Severity::Watch,
        place: "elastic".to_owned(),
        message: format!(
            "{} is sold {least:.0} to {most:.0} mm wide, not {width} mm.",
            facts.name
        ),
        value: Some(width),
        limit: Some(Limit {
            text: format!("{least:.0} to {most:.0} mm"),
            source: PRACTICE,
        }),
        remedy: "Measure it again, or choose the kind it is.".to_owned(),
    })
}

impl ElasticPlan {
    /// Where the join of the elastic goes, for the work order; for an edge that is not a ring, how its ends are held.
    pub fn join_place(&self) -> String {
        if self.overlap == Mm::ZERO {
            return "no join: catch both ends in the seams".to_owned();
        }
        let letter = self.arcs.first().map_or('A', |a| a.letter);
        let place = match self.edge {
            "leg" => "on the inside leg, clear of the crotch seam",
            "armhole" => "at the underarm, clear of the side seam",
            "waist" | "neckline" => "at the back, clear of any seam",
            _ => "clear of any seam",
        };
        format!(
            "lap {:.0} mm at mark {letter}, {place}; two rows of zigzag",
            self.overlap.get()
        )
    }

    /// Relaxed elastic / edge over the whole ring; 1 for an edge without arcs.
    pub fn mean_ratio(&self) -> f64 {
        let edge: Mm = self.arcs.iter().map(|a| a.edge).sum();
        let elastic: Mm = self.arcs.iter().map(|a| a.elastic).sum();
        if edge == Mm::ZERO { 1.0 } else { elastic / edge }
    }
}
