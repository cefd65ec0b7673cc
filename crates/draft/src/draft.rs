//! The draft itself: body, cloth and design in, a suit's pieces out, or a refusal.
//!
//! Order of work: dimensions as plain numbers, the trunk loop settled, the design's words turned into the block's parameters, the
//! block drawn, the style's pieces cut from it, everything checked. Nothing is given out that failed a check.

use body::{Body, BodyForm};
use cloth::ClothPlan;
use units::{Finding, Level, Limit, Severity};

use crate::block::Block;
use crate::check;
use crate::design::{BustShaping, Design, Rise, Style};
use crate::factors::Factors;
use crate::measures::Measures;
use crate::refusal::Refusal;
use crate::resolve;
use crate::rungs;
use crate::style::{self, Job};
use crate::suit::{Draft, LevelWidth, TrunkLoop};
use crate::trunk;

/// Stretch around below which nothing is drafted.
const LEAST_STRETCH: f64 = 0.10;

/// Drafts a suit.
///
/// Deterministic: the same body, cloth and design give the same pieces. The pieces are checked: every outline simple, seams that
/// meet equal within 0.5 mm or by their stated ease, edges smooth over seams, the drafted torso loop the measured one.
///
/// # Errors
/// A [`Refusal`] when the body lacks a dimension, a parameter does not fit this body, trunk loop and parts disagree, the cloth
/// has no stretch, or a check of the draft itself failed.
///
/// # Example
/// ```
/// use body::{BodyForm, Dimension, Dimensions, FrontTaken, WaistLevel, Wearer, complete};
/// use cloth::{ClothPlan, Load};
/// use draft::{Design, draft};
/// use units::{Mm, Stretch};
///
/// let mut taken = Dimensions::default();
/// for (dimension, mm) in [
///     (Dimension::Stature, 1650.0), (Dimension::BustGirth, 920.0), (Dimension::UnderbustGirth, 780.0),
///     (Dimension::WaistGirth, 760.0), (Dimension::HipGirth, 1000.0), (Dimension::CrotchLength, 720.0),
///     (Dimension::BackWaistLength, 408.0), (Dimension::TrunkCircumference, 1620.0),
/// ] {
///     taken.set(dimension, Mm::new(mm));
/// }
/// let wearer = Wearer {
///     name: "Maren".into(),
///     form: BodyForm::Woman,
///     age_years: None,
///     mass_kg: None,
///     waist_level: WaistLevel::Natural,
///     front_taken: FrontTaken::OverBustPoint,
///     trust: None,
///     taken,
/// };
/// let (body, _) = complete(&wearer).expect("a plausible body");
/// let (around, lengthwise) = (Stretch::from_percent(85.0), Stretch::from_percent(60.0));
/// let cloth = ClothPlan::of_one_cloth("Slate tricot", around, lengthwise, Load::Hand);
/// let suit = draft(&body, &cloth, &Design::default()).expect("a beginner's one-piece");
/// assert_eq!(suit.pieces[0].name, "Front");
/// ```
pub fn draft(body: &Body, cloth: &ClothPlan, design: &Design) -> Result<Draft, Refusal> {
    draft_measures(&Measures::of(body)?, cloth, design)
}

/// The same from dimensions already read.
///
/// # Errors
/// As [`draft`].
pub(crate) fn draft_measures(m: &Measures, cloth: &ClothPlan, design: &Design) -> Result<Draft, Refusal> {
    if cloth.around.ratio() < LEAST_STRETCH {
        return Err(Refusal::Parameter {
            parameter: "around",
            value: cloth.around.ratio(),
            low: LEAST_STRETCH,
            high: 2.0,
            unit: "",
            why: "a suit smaller than its wearer needs a cloth that stretches around the body",
        });
    }
    let k = Factors::new(cloth, design.fit);
    resolve::check_combination(m, design)?;

    let mut findings = Vec::new();
    let trunk = match design.style {
        Style::OnePiece => trunk::settle(m, &mut findings)?,
        Style::Brief => TrunkLoop {
            measured_mm: m.trunk,
            parts_mm: 0.0,
            bias_mm: 0.0,
            residual_mm: 0.0,
            solved_mm: 0.0,
            front_waist_mm: m.front_waist,
            q: 1.0,
            is_capped: false,
            drafted_mm: None,
        },
    };
    let bust_difference = trunk.front_waist_mm - trunk::back_length(m);
    let shape = resolve::block_shape(m, &k, &trunk, design, bust_difference)?;
    let block = Block::draw(m, &k, &trunk, &shape)?;
    let job = Job {
        m,
        k: &k,
        cloth,
        design,
    };
    let drawn = match design.style {
        Style::OnePiece => style::one_piece(&job, &block)?,
        Style::Brief => style::brief(&job, &block)?,
    };
    offer_princess(m, design, bust_difference, &mut findings);
    resolve::judge_depth(m, design, &block, &mut findings);
    findings.extend(drawn.findings);

    let mut pieces = drawn.pieces;
    for (i, piece) in pieces.iter_mut().enumerate() {
        piece.letter = char::from(b'A' + u8::try_from(i % 26).unwrap_or(0));
    }
    let is_one_piece = design.style == Style::OnePiece;
    let mut suit = Draft {
        pieces,
        seams: drawn.seams,
        open_edges: drawn.open_edges,
        levels: levels(&job, &block),
        openings: drawn.openings,
        loop_rungs: if is_one_piece {
            rungs::torso_loop(&job, &block)
        } else {
            Vec::new()
        },
        trunk: is_one_piece.then_some(trunk),
        finished: drawn.finished,
        findings,
        strap_mid: is_one_piece.then_some(block.front.strap_mid),
    };
    check::run(&job, &block, &shape, &mut suit)?;
    Ok(suit)
}

fn offer_princess(m: &Measures, design: &Design, bust_difference: f64, findings: &mut Vec<Finding>) {
    let is_large = m.cup_difference() >= 180.0 || bust_difference > 45.0;
    if m.is_woman()
        && design.style == Style::OnePiece
        && is_large
        && design.bust_shaping != BustShaping::Princess
    {
        findings.push(Finding {
            code: "draft.princess_offered",
            severity: Severity::Watch,
            place: "bust".into(),
            message: "a bust this full sits better in princess seams than with a side dart or none".into(),
            value: Some(m.cup_difference()),
            limit: Some(Limit {
                text: "180 mm bust less under-bust".into(),
                source: "own",
            }),
            remedy: "set bust_shaping = \"princess\", and sew a toile first".into(),
        });
    }
}

/// Body and pattern girths by level, top to bottom. Pattern girths are those after the shrinkage still to come.
fn levels(job: &Job<'_>, block: &Block) -> Vec<LevelWidth> {
    let l = &block.levels;
    let width = |y: f64| 2.0 * (block.front.profile.at(y) + block.back.profile.at(y)) / job.k.shrink_around;
    let rung = |level: Level, y_mm: f64, body_mm: f64| LevelWidth {
        level,
        y_mm,
        body_mm,
        pattern_mm: width(y_mm),
        meant: job.k.meant(level),
    };
    let bust_y = l.bust_level(l.underarm_y);
    let mut all = Vec::with_capacity(6);
    let waist = if job.m.is_navel {
        Level::Navel
    } else {
        Level::Waist
    };
    if job.design.style == Style::OnePiece {
        all.push(rung(Level::Bust, bust_y, job.m.bust));
        if let Some(underbust) = job.m.underbust
            && job.m.form == BodyForm::Woman
        {
            all.push(rung(Level::Underbust, 0.63 * bust_y, underbust));
        }
        all.push(rung(waist, 0.0, job.m.waist));
        all.push(rung(Level::HighHip, l.high_hip_y, job.m.high_hip));
    } else {
        let top = style::brief_top_height(job.design.rise, l.waist_to_hip * l.k_side, l.leg_y);
        if job.design.rise == Rise::High {
            all.push(rung(waist, top, style::girth_at(job, block, top)));
        }
        if top >= l.high_hip_y {
            all.push(rung(Level::HighHip, l.high_hip_y, job.m.high_hip));
        }
    }
    // Below the leg line the widths are what front and back measure across, with the leg open between them.
    all.push(rung(Level::Hip, l.hip_y, job.m.hip));
    all
}
