//! From a maker's words to the block's numbers: defaults, ranges, and what does not go together.

use body::BodyForm;
use units::{Finding, Limit, Severity};

use crate::block::{
    BackTop, Block, BlockShape, BustWork, Depth, FrontTop, Levels, MOST_EASE, Strap, TAKEN_BY_CLOTH,
    TAKEN_BY_EASE, UNDERBUST_WEIGHT, usual_drop, usual_half_crotch,
};
use crate::design::{
    BackDepth, BackShape, BustShaping, Cups, Design, LegHeight, LiningCover, NeckDepth, NeckShape, Seat,
};
use crate::factors::Factors;
use crate::geometry::root;
use crate::measures::Measures;
use crate::parameter::Shared;
use crate::refusal::{Refusal, within};
use crate::style::{Family, Reach, Style, brief_top_height, ties_are_refused};
use crate::suit::TrunkLoop;

const USUAL_LEG_SHARE: f64 = 0.74;
const LEG_SHARES: (f64, f64) = (0.05, 1.0);
const STRAP_WIDTHS: (f64, f64) = (12.0, 90.0);
const STRAP_POSITIONS: (f64, f64) = (0.25, 0.70);
/// Where a racer back's strap and any other sit on the shoulder as long as all of it lies there.
pub(crate) const USUAL_STRAP_POSITIONS: [f64; 2] = [0.30, 0.42];
const CROTCH_WIDTHS: (f64, f64) = (40.0, 110.0);
/// A crossed back is at least this deep, share of the back waist length.
const CROSSED_DEPTH: f64 = 0.75;
const ELASTIC_WIDTHS: (f64, f64) = (4.0, 25.0);
const ALLOWANCES: (f64, f64) = (0.0, 40.0);

/// Refuses what cannot be combined, before anything is drawn.
pub(crate) fn check_combination(m: &Measures, design: &Design) -> Result<(), Refusal> {
    let refuse = |parameter, why| Err(Refusal::Combination { parameter, why });
    let style = design.style;
    if !style.is_for(m.form) {
        return refuse(
            "style",
            if m.form == BodyForm::Man && style == Style::ONE_PIECE {
                "a man's one-piece is not drafted here; choose a brief"
            } else {
                "this style is not drafted for this form of body; choose another from the list of styles"
            },
        );
    }
    if style.spec().needs_ties && ties_are_refused(m.form, m.age_years) {
        return refuse(
            "style",
            "this style is tied at neck or back, and nothing is tied there on a child up to 14 years (stricter than EN 14682 as we \
             read it); choose a style with fixed or elastic straps",
        );
    }
    if !m.is_woman() && design.bust_shaping != BustShaping::Auto {
        return refuse(
            "bust_shaping",
            "darts and princess seams are for a bust; leave it at \"auto\"",
        );
    }
    if !m.is_woman() && design.cups != Cups::None {
        return refuse("cups", "cups are only for women; set it to \"none\"");
    }
    if !style.has(Shared::Cups) && design.cups != Cups::None {
        return refuse("cups", "this style has no cups; set it to \"none\"");
    }
    // A top says so itself: its least lining is its front.
    let has_crotch = !matches!(style.spec().family, Family::Top | Family::TwoPiece);
    if has_crotch
        && design.cups == Cups::Pocket
        && !matches!(design.lining, LiningCover::Full | LiningCover::Front)
    {
        return refuse(
            "cups",
            "a cup pocket is sewn to the lining; set lining to \"front\" or \"full\", or cups to \"marks\"",
        );
    }
    if !style.has(Shared::Closure) && design.closure.is_some() {
        return refuse("closure", "this style has no closure of that kind; leave it out");
    }
    let a = &design.allowances;
    for (parameter, mm) in [
        ("seam", a.seam.get()),
        ("side_seam", a.side_seam.get()),
        ("crotch", a.crotch_seam.get()),
        ("hem", a.hem.get()),
    ] {
        within(
            parameter,
            mm,
            ALLOWANCES,
            "mm",
            "an allowance wider than 4 cm cannot be turned or sewn flat",
        )?;
    }
    within(
        "elastic_width",
        a.elastic_width.get(),
        ELASTIC_WIDTHS,
        "mm",
        "swim elastic for turned edges comes in these widths",
    )
}

/// The block's parameters for this body.
///
/// # Errors
/// [`Refusal::Parameter`] for what lies outside its range on this body.
pub(crate) fn block_shape(
    m: &Measures,
    k: &Factors,
    trunk: &TrunkLoop,
    design: &Design,
    reach: Reach,
    bust_difference: f64,
) -> Result<BlockShape, Refusal> {
    let half_crotch = match design.crotch_width {
        None => usual_half_crotch(m.form),
        Some(width) => {
            within(
                "crotch_width",
                width.get(),
                CROTCH_WIDTHS,
                "mm",
                "usual is 60 to 80 mm for adults, 45 to 60 mm for children",
            )?;
            width.get() / 2.0
        }
    } * k.shrink_around;
    let mut shape = BlockShape {
        // A top has no leg: its place must not move with one.
        leg_share: USUAL_LEG_SHARE,
        seat: match design.seat {
            Seat::Full => -0.035,
            Seat::Moderate => -0.075,
            Seat::Cheeky => -0.13,
        },
        half_crotch,
        drop: usual_drop(m.form),
        front_top: front_top(design),
        back_top: back_top(m, design)?,
        strap: strap(m, k, design, reach)?,
        bust: bust_work(m, k, design, reach, bust_difference),
        underbust_weight: UNDERBUST_WEIGHT,
        has_way_in_rule: true,
        waist_passes: None,
    };
    if reach != Reach::Upper {
        shape.leg_share = leg_share(m, k, trunk, design, reach, &shape)?;
    }
    Ok(shape)
}

fn front_top(design: &Design) -> FrontTop {
    let usual = if design.neck_shape == NeckShape::High {
        0.08
    } else {
        0.30
    };
    let depth = match design.neck_depth {
        None => Depth::Share(usual),
        Some(NeckDepth::Share(share)) => Depth::Share(share),
        Some(NeckDepth::BelowNeckPit(mm)) => Depth::OnBody(mm.get()),
    };
    match design.neck_shape {
        NeckShape::Scoop | NeckShape::High => FrontTop::Scoop(depth),
        NeckShape::V => FrontTop::V(depth),
        NeckShape::Square => FrontTop::Square(depth),
    }
}

fn back_top(m: &Measures, design: &Design) -> Result<BackTop, Refusal> {
    let usual = if design.back_shape == BackShape::CrossedStraps {
        0.80
    } else {
        0.55
    };
    let depth = match design.back_depth {
        None => Depth::Share(usual),
        Some(BackDepth::Share(share)) => Depth::Share(share),
        Some(BackDepth::BelowNape(mm)) => Depth::OnBody(mm.get()),
    };
    if design.back_shape == BackShape::CrossedStraps {
        let share = match depth {
            Depth::Share(share) => share,
            Depth::OnBody(mm) => mm / m.back_waist,
        };
        if share < CROSSED_DEPTH {
            return Err(Refusal::Parameter {
                parameter: "back_depth",
                value: share,
                low: CROSSED_DEPTH,
                high: 0.95,
                unit: "",
                why: "crossed straps need a low back to cross over",
            });
        }
    }
    Ok(match design.back_shape {
        BackShape::Scoop | BackShape::CrossedStraps => BackTop::Scoop(depth),
        BackShape::V => BackTop::V(depth),
        BackShape::Racer => BackTop::Racer,
    })
}

/// The strap, moved along the shoulder so that all of it lies on it, unless the maker placed it.
fn strap(m: &Measures, k: &Factors, design: &Design, reach: Reach) -> Result<Strap, Refusal> {
    let width = design.strap_width.get();
    let shoulder = m.shoulder * k.x(units::Level::UpperChest);
    let flat = width * k.shrink_around;
    if reach == Reach::Hips {
        return Ok(Strap {
            width: 38.0_f64.min(shoulder * 0.6),
            position: 0.42,
        });
    }
    let most = STRAP_WIDTHS.1.min(shoulder / k.shrink_around);
    within(
        "strap_width",
        width,
        (STRAP_WIDTHS.0, most),
        "mm",
        "a strap no wider than the shoulder, and never over 90 mm",
    )?;
    let usual = USUAL_STRAP_POSITIONS[usize::from(design.back_shape != BackShape::Racer)];
    let half = flat / 2.0 / shoulder;
    let position = match design.strap_position {
        None => usual.clamp(half.min(0.5), (1.0 - half).max(0.5)),
        Some(p) => {
            within(
                "strap_position",
                p,
                STRAP_POSITIONS,
                "",
                "0.25 is near the neck, 0.7 near the arm",
            )?;
            within(
                "strap_position",
                p,
                (half.min(0.5) - 0.10, (1.0 - half).max(0.5) + 0.10),
                "",
                "a strap this wide must lie on the shoulder",
            )?;
            p
        }
    };
    Ok(Strap {
        width: flat,
        position,
    })
}

fn bust_work(m: &Measures, k: &Factors, design: &Design, reach: Reach, difference: f64) -> BustWork {
    if !m.is_woman() || reach == Reach::Hips {
        return BustWork::Plain;
    }
    let over = difference - TAKEN_BY_CLOTH;
    let dart = BustWork::Dart(over.clamp(15.0, 60.0) * k.y(1.0));
    let shaping = if design.style.has(Shared::BustShaping) {
        design.bust_shaping
    } else {
        BustShaping::Auto
    };
    match shaping {
        BustShaping::SideDart | BustShaping::Princess => dart,
        BustShaping::Auto if difference <= TAKEN_BY_CLOTH => BustWork::Plain,
        BustShaping::Auto if difference <= TAKEN_BY_EASE => {
            BustWork::Ease((0.5 * over).clamp(0.0, MOST_EASE) * k.y(1.0))
        }
        BustShaping::Auto => dart,
    }
}

fn leg_share(
    m: &Measures,
    k: &Factors,
    trunk: &TrunkLoop,
    design: &Design,
    reach: Reach,
    shape: &BlockShape,
) -> Result<f64, Refusal> {
    Ok(match design.leg {
        LegHeight::Low => 0.95,
        LegHeight::Mid => USUAL_LEG_SHARE,
        LegHeight::High => 0.42,
        LegHeight::ExtraHigh => 0.12,
        LegHeight::Share(share) => {
            within(
                "leg_share",
                share,
                LEG_SHARES,
                "",
                "0.05 is nearly the waist, 1.0 the hip level",
            )?;
            share
        }
        LegHeight::SideSeam(wanted) => {
            let levels = Levels::of(m, k, trunk, shape)?;
            let ease = match shape.bust {
                BustWork::Ease(mm) => mm,
                _ => 0.0,
            };
            let flat = levels.waist_to_hip * levels.k_side;
            let top = levels.underarm_y + ease;
            let profile = levels.profile(true, top);
            let seam = |share: f64| {
                let leg_y = -share * flat;
                let top = match reach {
                    Reach::Whole | Reach::Upper => top,
                    Reach::Hips => brief_top_height(design.rise, flat, leg_y),
                };
                profile.between(leg_y, top).length() - if reach != Reach::Hips { ease } else { 0.0 }
            };
            let (short, long) = (seam(LEG_SHARES.0), seam(LEG_SHARES.1));
            let target = wanted.get();
            within(
                "side_seam_length",
                target,
                (short, long),
                "mm",
                "the finished side seam, from the leg up",
            )?;
            root(|share| seam(share) - target, LEG_SHARES.0, LEG_SHARES.1).ok_or(Refusal::Parameter {
                parameter: "side_seam_length",
                value: target,
                low: short,
                high: long,
                unit: "mm",
                why: "the finished side seam, from the leg up",
            })?
        }
    })
}

/// A neckline under bust level is allowed, and watched.
pub(crate) fn judge_depth(m: &Measures, block: &Block, findings: &mut Vec<Finding>) {
    if !m.is_woman() {
        return;
    }
    let below = block.levels.bust_point_y - block.front.neck.end().y;
    if below > 0.0 {
        findings.push(Finding {
            code: "draft.neckline_low",
            severity: Severity::Watch,
            place: "neckline".into(),
            message: format!("the neckline ends {below:.0} mm below the bust level"),
            value: Some(below),
            limit: Some(Limit {
                text: "0 mm".into(),
                source: "common practice, no single source",
            }),
            remedy: "line the front and hold the neckline with elastic, or make it shallower".into(),
        });
    }
}

/// Princess seams are offered to a full bust.
pub(crate) fn offer_princess(
    m: &Measures,
    design: &Design,
    bust_difference: f64,
    findings: &mut Vec<Finding>,
) {
    let is_large = m.cup_difference() >= 180.0 || bust_difference > 45.0;
    if m.is_woman()
        && design.style.has(Shared::BustShaping)
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
