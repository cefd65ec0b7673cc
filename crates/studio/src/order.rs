//! From a suit file to everything that is known of the suit: body, cloths, draft, judgement, elastic, cut list.
//!
//! This is the one place where the stages are wired together; the commands only print what stands in an [`Order`].
//! Faults of one stage are collected before the next begins, so a maker hears of a bad stretch test and a missing girth
//! together.
//!
//! **Shapes and units.** As in the domain crates; nothing is computed here but which stage feeds which.

use body::{Body, BodyForm, Doubt, complete, doubts, second_reading};
use cloth::{ClothPlan, Layer, LiningReach, SuitCloth, SuitCloths, Swatch};
use draft::{Draft, LiningCover, draft};
use fit::FitReport;
use make::{CutRow, ElasticBuy, ElasticChoice, ElasticPlan, cut_list, elastic, elastic_to_buy};
use units::{Finding, Severity, worst};

use crate::cautions::{Caution, cautions};
use crate::suit_file::{ClothEntry, Fault, Faults, SuitFile};
use crate::version::version_id;

/// Everything known of one suit.
#[derive(Clone, Debug)]
pub struct Order {
    /// Its version id.
    pub version: String,
    /// The complete body.
    pub body: Body,
    /// Dimensions the others contradict.
    pub doubts: Vec<Doubt>,
    /// The cloths as they lie on the body.
    pub cloth: ClothPlan,
    /// The draft.
    pub draft: Draft,
    /// How it will sit.
    pub fit: FitReport,
    /// Elastic of its edges.
    pub elastic: Vec<ElasticPlan>,
    /// Elastic to buy.
    pub elastic_to_buy: Vec<ElasticBuy>,
    /// What to cut.
    pub cut_list: Vec<CutRow>,
    /// Every finding, the worst first; within a severity in the order of the work.
    pub findings: Vec<Finding>,
    /// The cautions that apply.
    pub cautions: Vec<Caution>,
}

impl Order {
    /// The worst severity of all findings.
    pub fn worst(&self) -> Severity {
        worst(&self.findings)
    }
}

/// Works a suit file out.
///
/// # Errors
/// [`Faults`] of body and cloths together, or the refusal of the draft.
pub fn work_out(suit: &SuitFile) -> Result<Order, Faults> {
    let (body, cloth) = match (body_of(suit), cloth_of(suit)) {
        (Ok(body), Ok(cloth)) => (body, cloth),
        (body, cloth) => {
            let faults = body.err().into_iter().chain(cloth.err()).flatten().collect();
            return Err(suit.faults(faults));
        }
    };
    let (body, mut findings) = body;
    let draft = draft(&body, &cloth, &suit.design).map_err(|r| suit.faults(vec![suit.draft_fault(&r)]))?;
    let elastic = elastic(&draft, &suit.elastic);
    let fit = judged(&body, &cloth, &draft, &elastic, &suit.elastic);
    let doubts = doubts(&suit.wearer);
    findings.extend(doubts.iter().map(Doubt::finding));
    findings.extend(second_readings(suit));
    findings.extend(cloth.findings.iter().cloned());
    findings.extend(draft.findings.iter().cloned());
    findings.extend(elastic.iter().flat_map(|e| e.findings.iter().cloned()));
    findings.extend(fit.findings.iter().cloned());
    findings.sort_by_key(|f| std::cmp::Reverse(f.severity));
    Ok(Order {
        version: version_id(suit),
        cut_list: cut_list(&draft, &cloth),
        elastic_to_buy: elastic_to_buy(&elastic),
        cautions: cautions(suit),
        body,
        doubts,
        cloth,
        draft,
        fit,
        elastic,
        findings,
    })
}

fn body_of(suit: &SuitFile) -> Result<(Body, Vec<Finding>), Vec<Fault>> {
    complete(&suit.wearer).map_err(|errors| errors.iter().map(|e| suit.body_fault(e)).collect())
}

fn second_readings(suit: &SuitFile) -> Vec<Finding> {
    let form: BodyForm = suit.wearer.form;
    suit.second
        .iter()
        .filter_map(|(dimension, second)| {
            second_reading(dimension, form, suit.wearer.taken.get(dimension)?, second)
        })
        .collect()
}

fn cloth_of(suit: &SuitFile) -> Result<ClothPlan, Vec<Fault>> {
    let mut faults = Vec::new();
    let mut swatch = |layer: Layer, entry: &ClothEntry| match Swatch::new(entry.record.clone()) {
        Ok(swatch) => Some(SuitCloth {
            swatch,
            lies: entry.lay,
        }),
        Err(errors) => {
            faults.extend(errors.iter().map(|e| suit.cloth_fault(layer, e)));
            None
        }
    };
    let shell = swatch(Layer::Shell, &suit.shell);
    let lining = suit.lining.as_ref().and_then(|l| swatch(Layer::Lining, l));
    let mesh = suit.mesh.as_ref().and_then(|m| swatch(Layer::Mesh, m));
    let Some(shell) = shell.filter(|_| faults.is_empty()) else {
        return Err(faults);
    };
    let cloths = SuitCloths {
        shell,
        lining,
        mesh,
        tested_together: suit.tested_together,
    };
    cloth::plan(&cloths, reach(suit.design.lining))
        .map_err(|errors| errors.iter().map(|e| suit.plan_fault(e)).collect())
}

/// How far the lining reaches, as the cloth crate asks it.
pub(crate) fn reach(lining: LiningCover) -> LiningReach {
    match lining {
        LiningCover::None => LiningReach::None,
        LiningCover::Full => LiningReach::Full,
        LiningCover::Front => LiningReach::FrontOnly,
        LiningCover::Crotch => LiningReach::CrotchOnly,
    }
}

/// How the drafted suit will sit.
pub(crate) fn judged(
    _body: &Body,
    _cloth: &ClothPlan,
    _draft: &Draft,
    _elastic: &[ElasticPlan],
    _choice: &ElasticChoice,
) -> FitReport {
    FitReport {
        ladder: Vec::new(),
        way_in: Vec::new(),
        loop_with_elastic: None,
        loop_bare: None,
        findings: Vec::new(),
    }
}
