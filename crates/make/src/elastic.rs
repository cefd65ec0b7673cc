//! Elastic for every open edge: how much for each arc, where its marks go, and whether it would squeeze or tire.
//!
//! Each arc gets its own share of the ease (see [`crate::rule_for`]); the marks on elastic and edge are then matched one to
//! one, so that ease can't wander from the seat to the front of the leg. The pull of the elastic is held against the edge
//! pressure limit: where the force of the elastic was measured, the back of the leg is cut longer until it holds; where it
//! was not, a force is assumed and the maker is told so, but the ratio stays.
//!
//! **Shapes and units.** mm along the seam line, relaxed; marks run from the first mark, where the join goes.
//! **Source.** Cut length, lap and pull: common practice, no single source; pressure p = T / (w R): Laplace for a band, as in
//! the published band formula for pressure bandages. Limits: `data/trade/pressure_model.toml`, table `findings`.
//! **Limits.** How far an edge is worn stretched is an estimate: the greater of girth / length and the worn stretch of the
//! nearest level. For a regular fit at 85 % stretch it gives 1.15 at the seat, where our worn solves gave 1.16 to 1.22. A braided
//! elastic narrows in wear and then presses harder than its resting width says. Necklines and armholes don't run round
//! the body at one radius, so no pressure is given for them. Whether a ring passes the hips is the way in, judged elsewhere.

use std::f64::consts::TAU;

use draft::{Draft, EdgeUse, OpenEdge, OpenKind};
use serde::Serialize;
use units::{Finding, Level, Limit, Mm, Severity};

use crate::kind::{ElasticChoice, Latex};
use crate::plan::{ElasticArc, ElasticPlan};
use crate::ratio::{EdgeRule, RatioBand, rule_for};

/// Added once to a ring for its lap join. `data/trade/allowances.csv`, `elastic lap join`; common practice.
pub const LAP_JOIN: Mm = Mm::new(12.0);
/// Above this an edge is to be looked at, kPa. `data/trade/pressure_model.toml`, own limit.
pub const EDGE_PRESSURE_WATCH_KPA: f64 = 2.0;
/// Above this an edge must not be cut, kPa, when the force was measured. `data/trade/pressure_model.toml`, own limit.
pub const EDGE_PRESSURE_STOP_KPA: f64 = 3.3;
/// Force at double length taken for an elastic that was not measured, N (own).
pub const ASSUMED_K_NEWTON: f64 = 5.0;

/// A raised ratio is rounded up to a hundredth, so that it can be read off and typed.
const RATIO_STEPS: f64 = 100.0;
/// An open edge's allowance may exceed the elastic's width by 0 to 2 mm, the turn of cloth. `data/trade/allowances.csv`.
const TURN_OF_CLOTH_MM: (f64, f64) = (0.0, 2.0);
/// Bought on top of the net length, for trimming. `data/trade/notions.toml`.
const BUY_EXTRA: f64 = 0.10;
/// Bought on top for the stretch test, once per width. `data/trade/notions.toml`.
const BUY_TEST: Mm = Mm::new(200.0);
/// Elastic is sold by the quarter metre. `data/trade/notions.toml`.
const BUY_STEP_MM: f64 = 250.0;

const OWN_LIMIT: &str = "own, from published comfort pressures";
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
    let rule = rule_for(edge.kind, draft);
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
    findings.extend(allowance_finding(draft, edge.kind, choice));
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

/// An edge as it is worn, with the elastic on it.
struct Worn {
    place: &'static str,
    /// Worn edge / flat edge.
    stretch: f64,
    /// Force of the elastic at double length, N.
    k_newton: f64,
    is_measured: bool,
    width_mm: f64,
    /// Radius the elastic runs round; `None` where the edge does not run round the body.
    radius_mm: Option<f64>,
}

impl Worn {
    fn of(draft: &Draft, edge: &OpenEdge, rule: EdgeRule, choice: &ElasticChoice) -> Worn {
        let level = match rule {
            EdgeRule::Leg => Level::Hip,
            EdgeRule::WaistAtHipBone => Level::HighHip,
            EdgeRule::WaistAtNaturalWaist => Level::Waist,
            EdgeRule::NecklineRound | EdgeRule::NecklineV | EdgeRule::Armhole => Level::Bust,
        };
        let by_level = draft
            .levels
            .iter()
            .find(|l| l.level == level)
            .map_or(1.0, |l| 1.0 + l.meant);
        let runs_round = matches!(edge.kind, OpenKind::Leg | OpenKind::Waist);
        let radius_mm = (runs_round && edge.worn_radius_mm > 0.0).then_some(edge.worn_radius_mm);
        let length = edge.length_mm();
        let by_girth = radius_mm
            .filter(|_| length > 0.0)
            .map_or(1.0, |r| TAU * r / length);
        Worn {
            place: edge.kind.name(),
            stretch: by_level.max(by_girth),
            k_newton: choice.k_newton().unwrap_or(ASSUMED_K_NEWTON),
            is_measured: choice.k_newton().is_some(),
            width_mm: choice.width().get(),
            radius_mm,
        }
    }

    /// How far elastic cut at that ratio is stretched in wear, as a ratio.
    fn extension(&self, ratio: f64) -> f64 {
        self.stretch / ratio - 1.0
    }

    /// Its pull, N.
    fn pull(&self, ratio: f64) -> f64 {
        self.k_newton * self.extension(ratio).max(0.0)
    }

    /// The pull at which the edge presses with `kpa`, N: kPa mm mm = 1e-3 N.
    fn pull_at(&self, kpa: f64) -> Option<f64> {
        self.radius_mm.map(|r| kpa * self.width_mm * r * 1e-3)
    }

    /// What a pull presses with, kPa.
    fn pressure_kpa(&self, pull: f64) -> Option<f64> {
        self.pull_at(1.0).map(|newton| pull / newton)
    }

    /// Watch above the lower limit; stop above the upper one, but only on a measured force.
    fn pressure_finding(&self, pull: f64) -> Option<Finding> {
        let kpa = self.pressure_kpa(pull)?;
        if kpa <= EDGE_PRESSURE_WATCH_KPA {
            return None;
        }
        let is_stop = self.is_measured && kpa > EDGE_PRESSURE_STOP_KPA;
        let limit_kpa = if is_stop {
            EDGE_PRESSURE_STOP_KPA
        } else {
            EDGE_PRESSURE_WATCH_KPA
        };
        let (message, remedy) = if self.is_measured {
            (
                format!(
                    "The {} elastic would pull {pull:.1} N and press {kpa:.1} kPa.",
                    self.place
                ),
                "Take a softer or a wider elastic, and measure its pull again.".to_owned(),
            )
        } else {
            (
                format!(
                    "The {} elastic may press {kpa:.1} kPa; that takes {:.0} N at double length for an elastic that was \
                     not measured.",
                    self.place, self.k_newton
                ),
                "Hang weights on a single strand of the elastic until it is twice as long, and enter the force in newtons."
                    .to_owned(),
            )
        };
        Some(Finding {
            code: "elastic.pressure",
            severity: if is_stop { Severity::Stop } else { Severity::Watch },
            place: format!("{} elastic", self.place),
            message,
            value: Some(kpa),
            limit: Some(Limit {
                text: format!("{limit_kpa:.1} kPa"),
                source: OWN_LIMIT,
            }),
            remedy,
        })
    }
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

/// Elastic of one kind and width to buy.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ElasticBuy {
    /// Kind, in the trade's words.
    pub kind: String,
    /// Width.
    pub width: Mm,
    /// What the suit takes, laps included.
    pub net: Mm,
    /// What to buy: net + 10 % + 0.2 m for the stretch test, rounded up to a quarter metre.
    pub to_buy: Mm,
}

/// What elastic to buy, one entry per kind and width, in the order the plans first name them.
///
/// # Source
/// Common practice, no single source; `data/trade/notions.toml`.
pub fn elastic_to_buy(plans: &[ElasticPlan]) -> Vec<ElasticBuy> {
    let mut buys: Vec<ElasticBuy> = Vec::new();
    for plan in plans {
        let net = plan.cut_length * f64::from(plan.count);
        match buys
            .iter_mut()
            .find(|b| b.kind == plan.kind && b.width == plan.width)
        {
            Some(buy) => buy.net += net,
            None => {
                buys.push(ElasticBuy {
                    kind: plan.kind.clone(),
                    width: plan.width,
                    net,
                    to_buy: Mm::ZERO,
                });
            }
        }
    }
    for buy in &mut buys {
        let wanted = buy.net.get() * (1.0 + BUY_EXTRA) + BUY_TEST.get();
        // A millionth of a step is rounding, not cloth.
        buy.to_buy = Mm::new((wanted / BUY_STEP_MM - 1e-6).ceil() * BUY_STEP_MM);
    }
    buys
}

/// The caution about natural rubber, unless the elastic is free of latex.
///
/// # Source
/// `data/trade/cautions.csv`, row `latex`: a published review (4.3 % of the general population react).
pub fn latex_caution(choice: &ElasticChoice) -> Option<Finding> {
    let (message, remedy) = match choice.latex() {
        Latex::No => return None,
        Latex::Yes => (
            "This elastic holds natural rubber latex. About 4 in 100 people in reviewed surveys react to latex.",
            "Ask the wearer; use latex-free elastic or polyurethane if unsure.",
        ),
        Latex::Ask => (
            "This elastic may hold natural rubber latex. About 4 in 100 people in reviewed surveys react to latex.",
            "Read the label or ask the seller, and ask the wearer; use latex-free elastic or polyurethane if unsure.",
        ),
    };
    let help = "Hives, swelling or trouble breathing: take it off and get medical help.";
    Some(Finding {
        code: "elastic.latex",
        severity: Severity::Watch,
        place: "elastic".to_owned(),
        message: message.to_owned(),
        value: None,
        limit: None,
        remedy: format!("{remedy} {help}"),
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
