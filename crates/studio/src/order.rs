//! From a suit file to everything that is known of the suit: body, cloths, draft, judgement, elastic, cut list.
//!
//! This is the one place where the stages are wired together; the commands only print what stands in an [`Order`].
//! Faults of one stage are collected before the next begins, so a maker hears of a bad stretch test and a missing girth
//! together.
//!
//! **Shapes and units.** As in the domain crates; nothing is computed here but which stage feeds which.

use body::{Body, BodyForm, Dimension, Doubt, complete, doubts, second_reading};
use cloth::{ClothPlan, Layer, LiningReach, SuitCloth, SuitCloths, Swatch};
use draft::{Draft, Family, LiningCover, Style, draft};
use fit::{ArcElastic, ElasticAssumption, FitReport, judge};
use make::{CutRow, ElasticBuy, ElasticChoice, ElasticPlan, WornStretch, cut_list, elastic, elastic_to_buy};
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
    /// The solved suit's stretches, once it was put on the form: the making plan takes them before the draft's own.
    pub worn: Option<WornStretch>,
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
    findings.retain(|f| !is_idle_estimate(suit, f));
    let draft = draft(&body, &cloth, &suit.design).map_err(|r| suit.faults(vec![suit.draft_fault(&r)]))?;
    let elastic = elastic(&draft, &suit.elastic);
    let fit = judged(&body, &cloth, &draft, &elastic, &suit.elastic);
    let doubts = doubts(&suit.wearer);
    findings.extend(doubts.iter().map(Doubt::finding));
    findings.extend(second_readings(suit));
    // The plan of the cloths does not know the style: only a suit from shoulder to crotch may need an opening to step in.
    let needs_none = !suit.design.style.spec().has_trunk_loop;
    let is_idle = |f: &&Finding| needs_none && f.code == "cloth.one_piece_opening";
    findings.extend(cloth.findings.iter().filter(|f| !is_idle(f)).cloned());
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
        worn: None,
    })
}

fn body_of(suit: &SuitFile) -> Result<(Body, Vec<Finding>), Vec<Fault>> {
    complete(&suit.wearer).map_err(|errors| errors.iter().map(|e| suit.body_fault(e)).collect())
}

/// Dimensions of the upper body, which a brief is drafted without.
const ABOVE_A_BRIEF: [Dimension; 9] = [
    Dimension::UnderbustGirth,
    Dimension::TrunkCircumference,
    Dimension::BackWaistLength,
    Dimension::FrontWaistLength,
    Dimension::SideNeckToBustPoint,
    Dimension::BustPointDistance,
    Dimension::ShoulderLength,
    Dimension::SideLength,
    Dimension::NeckBaseGirth,
];

/// Dimensions only a suit with sleeves is drafted from.
const OF_SLEEVES: [Dimension; 5] = [
    Dimension::UpperArmGirth,
    Dimension::WristGirth,
    Dimension::AcrossBack,
    Dimension::AcrossFront,
    Dimension::ArmLength,
];

/// Whether the draft of this suit takes no notice of the dimension, so that asking for it would waste a maker's time.
pub fn is_idle(suit: &SuitFile, dimension: Dimension) -> bool {
    is_idle_style(suit.design.style, dimension)
}

/// Whether a draft of this style takes no notice of the dimension.
pub(crate) fn is_idle_style(style: Style, dimension: Dimension) -> bool {
    let family = style.spec().family;
    let has_sleeves = family == Family::RashTop || style == Style::SUN_SUIT;
    let is_pulled_on = has_sleeves || matches!(family, Family::Top | Family::TwoPiece);
    is_below_the_waist(style) && ABOVE_A_BRIEF.contains(&dimension)
        || !has_sleeves && OF_SLEEVES.contains(&dimension)
        || !is_pulled_on && dimension == Dimension::ShoulderGirth
}

fn is_below_the_waist(style: Style) -> bool {
    matches!(style.spec().family, Family::Bottom | Family::Trunks)
}

fn is_idle_estimate(suit: &SuitFile, finding: &Finding) -> bool {
    let is_of = |d: &Dimension| finding.place == d.iso_name(suit.wearer.form);
    finding.code == "body.estimated" && Dimension::ALL.iter().any(|d| is_of(d) && is_idle(suit, *d))
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

/// The cloths of a suit as they lie on a body.
pub(crate) fn cloth_of(suit: &SuitFile) -> Result<ClothPlan, Vec<Fault>> {
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
    let contrast = suit.contrast.as_ref().and_then(|c| swatch(Layer::Contrast, c));
    let Some(shell) = shell.filter(|_| faults.is_empty()) else {
        return Err(faults);
    };
    let cloths = SuitCloths {
        shell,
        lining,
        mesh,
        contrast,
        tested_together: suit.tested_together,
    };
    cloth::plan(&cloths, reach(suit.design.lining_worn()))
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

/// How the drafted suit will sit with the elastic planned for it.
pub(crate) fn judged(
    body: &Body,
    cloth: &ClothPlan,
    draft: &Draft,
    plans: &[ElasticPlan],
    choice: &ElasticChoice,
) -> FitReport {
    judge(body, cloth, draft, &elastic_for_fit(draft, plans, choice))
}

/// The planned elastic as fit asks for it. `plans` are in the order of the draft's open edges.
fn elastic_for_fit(draft: &Draft, plans: &[ElasticPlan], choice: &ElasticChoice) -> ElasticAssumption {
    let working = choice.working_extension().ratio();
    // Once over the hips it may go to the high end of its kind, or as far as this very elastic was tested.
    let once_over = choice.kind().facts().working_extension.1.ratio().max(working);
    ElasticAssumption {
        k_newton: choice.k_newton().unwrap_or(fit::ASSUMED_K_NEWTON),
        working_extension: working,
        once_over_extension: once_over,
        seam_extension: None,
        arcs: draft
            .open_edges
            .iter()
            .zip(plans)
            .flat_map(|(edge, plan)| {
                plan.arcs.iter().map(|a| ArcElastic {
                    edge: edge.kind,
                    arc: a.name,
                    ratio: a.ratio,
                })
            })
            .collect(),
    }
}
