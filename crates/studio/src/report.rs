//! The report of a suit for scripts: everything `check` says, as one JSON document with stable field names.
//!
//! The names are part of what the program promises; `docs/report.md` lists them and a test holds the two together. Lengths
//! are millimetres and end in `_mm` where the type does not say so; stretch and shares are ratios.

use body::{BodyForm, Dimension, Need, Origin, WaistLevel};
use cloth::ClothPlan;
use draft::Design;
use fit::{Rung, SeriesLoop, WayIn};
use make::{CutRow, ElasticBuy, ElasticPlan};
use serde::Serialize;
use units::{Finding, LengthUnit, Severity};

use crate::cautions::Caution;
use crate::laying::{Lays, ReportedLay};
use crate::order::Order;
use crate::suit_file::SuitFile;

/// Version of the report's shape.
pub const REPORT_FORMAT: u32 = 1;

/// A suit's report.
#[derive(Clone, Debug, Serialize)]
pub struct Report<'a> {
    /// See [`REPORT_FORMAT`].
    pub format: u32,
    /// The suit's name.
    pub suit: &'a str,
    /// Version id, as printed on paper.
    pub version: &'a str,
    /// Worst severity of all findings.
    pub worst: Severity,
    /// Unit of the suit file.
    pub units: LengthUnit,
    /// Whose body.
    pub wearer: ReportedWearer<'a>,
    /// Every dimension the draft used or was given, in the order they are taken.
    pub dimensions: Vec<ReportedDimension>,
    /// Dimensions the others contradict.
    pub doubts: Vec<ReportedDoubt>,
    /// The cloths on the body.
    pub cloth: &'a ClothPlan,
    /// The design.
    pub design: &'a Design,
    /// The stretch ladder, top to bottom.
    pub ladder: &'a [Rung],
    /// The openings.
    pub way_in: &'a [WayIn],
    /// The torso loop in series with the planned elastic.
    pub loop_with_elastic: Option<SeriesLoop>,
    /// The same without elastic.
    pub loop_bare: Option<SeriesLoop>,
    /// The trunk loop against its parts.
    pub trunk: Option<ReportedTrunk>,
    /// Pieces.
    pub pieces: Vec<ReportedPiece<'a>>,
    /// Seams with their walk.
    pub seams: Vec<ReportedSeam<'a>>,
    /// Elastic of every edge.
    pub elastic: &'a [ElasticPlan],
    /// Elastic to buy.
    pub elastic_to_buy: &'a [ElasticBuy],
    /// What to cut.
    pub cut_list: &'a [CutRow],
    /// The lay of every cloth that can be laid.
    pub lays: Vec<ReportedLay>,
    /// Cloths that can't be laid.
    pub not_laid: Vec<ReportedNotLaid>,
    /// Measurements of the finished suit, flat and unstretched.
    pub finished: Vec<ReportedMeasure<'a>>,
    /// Findings, the worst first.
    pub findings: &'a [Finding],
    /// Cautions that apply.
    pub cautions: &'a [Caution],
}

/// Whose body.
#[derive(Clone, Debug, Serialize)]
pub struct ReportedWearer<'a> {
    /// Her name.
    pub name: &'a str,
    /// Woman, man or child.
    pub form: BodyForm,
    /// Age.
    pub age_years: Option<f64>,
    /// Where the waist was taken.
    pub waist_level: WaistLevel,
}

/// One dimension.
#[derive(Clone, Debug, Serialize)]
pub struct ReportedDimension {
    /// Key of the suit file.
    pub key: &'static str,
    /// Its name.
    pub name: &'static str,
    /// Its length.
    pub value_mm: f64,
    /// How much the draft needs it.
    pub need: Need,
    /// Taken with the tape.
    pub taken: bool,
    /// Standard error of an estimate whose rule has one.
    pub se_mm: Option<f64>,
    /// Rule of an estimate.
    pub rule: Option<&'static str>,
}

/// A dimension the others contradict.
#[derive(Clone, Debug, Serialize)]
pub struct ReportedDoubt {
    /// Its name.
    pub name: &'static str,
    /// What was written: millimetres, kilograms for body mass.
    pub given: f64,
    /// What the others expect.
    pub expected: f64,
    /// Lower end of the range of 95 bodies of 100.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// What it would be without the likely slip.
    pub without_slip: Option<f64>,
}

/// The trunk loop.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct ReportedTrunk {
    /// As taken.
    pub measured_mm: Option<f64>,
    /// Sum of its parts.
    pub parts_mm: f64,
    /// Taken off for this way of measuring.
    pub bias_mm: f64,
    /// What was left.
    pub residual_mm: f64,
    /// Front waist length in use.
    pub front_waist_mm: f64,
    /// Factor on the lengths along both folds.
    pub q: f64,
    /// Drafted loop, flat.
    pub drafted_mm: Option<f64>,
}

/// One piece.
#[derive(Clone, Debug, Serialize)]
pub struct ReportedPiece<'a> {
    /// File-safe key.
    pub key: &'a str,
    /// Name on paper.
    pub name: &'a str,
    /// Letter on the page map.
    pub letter: char,
    /// Drafted as half on a fold.
    pub on_fold: bool,
}

/// One seam.
#[derive(Clone, Debug, Serialize)]
pub struct ReportedSeam<'a> {
    /// Its name.
    pub name: &'a str,
    /// Key of the first piece.
    pub first: &'a str,
    /// Key of the second.
    pub second: &'a str,
    /// Seam line of the first.
    pub first_mm: f64,
    /// Of the second.
    pub second_mm: f64,
    /// Extra length of the first, eased in.
    pub sewn_ease_mm: f64,
    /// What is left unmatched.
    pub error_mm: Option<f64>,
}

/// A cloth that can't be laid.
#[derive(Clone, Debug, Serialize)]
pub struct ReportedNotLaid {
    /// Layer.
    pub layer: &'static str,
    /// Name of the cloth.
    pub cloth: String,
    /// All that stands against it.
    pub why: String,
}

/// One measurement of the finished suit.
#[derive(Clone, Debug, Serialize)]
pub struct ReportedMeasure<'a> {
    /// What to measure.
    pub name: &'a str,
    /// How long it should be.
    pub value_mm: f64,
    /// What is allowed either way.
    pub tolerance_mm: f64,
}

/// The report of an order and its lays.
pub fn report<'a>(suit: &'a SuitFile, order: &'a Order, lays: &Lays) -> Report<'a> {
    let form = suit.wearer.form;
    let draft = &order.draft;
    Report {
        format: REPORT_FORMAT,
        suit: &suit.name,
        version: &order.version,
        worst: order.worst(),
        units: suit.units,
        wearer: ReportedWearer {
            name: &suit.wearer.name,
            form,
            age_years: suit.wearer.age_years,
            waist_level: suit.wearer.waist_level,
        },
        dimensions: Dimension::ALL
            .into_iter()
            .filter_map(|d| {
                let known = order.body.get(d)?;
                let (se_mm, rule) = match known.origin {
                    Origin::Taken => (None, None),
                    Origin::Estimated { se, rule } => (se.map(|s| s.get()), Some(rule)),
                };
                Some(ReportedDimension {
                    key: d.key(),
                    name: d.iso_name(form),
                    value_mm: known.value.get(),
                    need: d.need(form),
                    taken: rule.is_none(),
                    se_mm,
                    rule,
                })
            })
            .collect(),
        doubts: order
            .doubts
            .iter()
            .map(|d| ReportedDoubt {
                name: d.measure.name(form),
                given: d.given,
                expected: d.expected,
                low: d.low,
                high: d.high,
                without_slip: d.without_slip,
            })
            .collect(),
        cloth: &order.cloth,
        design: &suit.design,
        ladder: &order.fit.ladder,
        way_in: &order.fit.way_in,
        loop_with_elastic: order.fit.loop_with_elastic,
        loop_bare: order.fit.loop_bare,
        trunk: draft.trunk.map(|t| ReportedTrunk {
            measured_mm: t.measured_mm,
            parts_mm: t.parts_mm,
            bias_mm: t.bias_mm,
            residual_mm: t.residual_mm,
            front_waist_mm: t.front_waist_mm,
            q: t.q,
            drafted_mm: t.drafted_mm,
        }),
        pieces: draft
            .pieces
            .iter()
            .map(|p| ReportedPiece {
                key: &p.key,
                name: &p.name,
                letter: p.letter,
                on_fold: p.on_fold,
            })
            .collect(),
        seams: draft
            .seams
            .iter()
            .map(|s| ReportedSeam {
                name: s.name,
                first: &s.first.0,
                second: &s.second.0,
                first_mm: s.first_mm,
                second_mm: s.second_mm,
                sewn_ease_mm: s.sewn_ease_mm,
                error_mm: (!s.is_with_itself()).then(|| s.error_mm()),
            })
            .collect(),
        elastic: &order.elastic,
        elastic_to_buy: &order.elastic_to_buy,
        cut_list: &order.cut_list,
        lays: lays.laid.iter().map(ReportedLay::of).collect(),
        not_laid: lays
            .not_laid
            .iter()
            .map(|n| ReportedNotLaid {
                layer: n.task.layer.name(),
                cloth: n.task.request.cloth.name.clone(),
                why: n.why(),
            })
            .collect(),
        finished: draft
            .finished
            .iter()
            .map(|m| ReportedMeasure {
                name: &m.name,
                value_mm: m.value_mm,
                tolerance_mm: m.tolerance_mm,
            })
            .collect(),
        findings: &order.findings,
        cautions: &order.cautions,
    }
}
