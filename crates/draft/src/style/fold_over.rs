//! The fold-over bottom: a brief on a tall band of doubled cloth, worn folded down over the hips or pulled up.
//!
//! The brief is cut at its rise as always; in place of an elastic edge it gets a band that holds by its own stretch. The band is
//! a straight tube: as long as its cloth may be stretched there, but never so short that it does not pass the hips.
//!
//! **Source.** Construction own. A band without elastic uses more of the cloth's stretch than the suit (own, as other bands).
//! **Limits.** The band is straight: high up over a narrow waist it will not lie as close as a shaped one.

use body::BodyForm;
use cloth::{Fit, Layer};
use kurbo::Point;
use units::{Finding, Level, Limit, Severity};

use super::brief::{self, BriefHalves, girth_at};
use super::one_piece::{leg_marks, names};
use super::open_edges::leg_edge;
use super::top::band::on_fold;
use super::torso::Torso;
use super::{Drawn, Family, Job, Reach, StyleSpec, Widths, lining};
use crate::build::{PieceBuilder, level_line, placement};
use crate::design::{LiningCover, Rise};
use crate::geometry::Curve;
use crate::parameter::{Parameter, Shared};
use crate::piece::{EdgeUse, OpenKind, Piece};
use crate::refusal::Refusal;
use crate::suit::{FinishedMeasure, LevelWidth, SeamWalk};

const BAND_HEIGHT: Parameter = Parameter::length(
    "band_height",
    "Band",
    "how tall the band is pulled up, without its seam; folded down it is half of that",
    (60.0, 140.0, 220.0),
);
const BAND_HOLD: Parameter = Parameter::share(
    "band_hold",
    "Band's hold",
    "how much closer the band sits than the suit: 1 as close, 1.6 close",
    (1.0, 1.3, 1.6),
);
/// The band must pass the hips with this share of the cloth's stretch at most.
const WAY_IN_SHARE: f64 = 0.85;
/// Below this worn stretch a band without elastic slips (own).
const LEAST_HOLD: f64 = 0.03;

pub(super) const STYLE: StyleSpec = StyleSpec {
    key: "fold-over",
    name: "Fold-over bottom",
    says: "a bottom on a tall soft band, worn folded down or pulled up",
    family: Family::Bottom,
    wearers: &[BodyForm::Woman, BodyForm::Child],
    shared: &[
        Shared::Leg,
        Shared::Seat,
        Shared::Rise,
        Shared::Crotch,
        Shared::Lining,
    ],
    own: &[BAND_HEIGHT, BAND_HOLD],
    has_trunk_loop: false,
    needs_ties: false,
    usual_fit: Fit::Regular,
    parts: None,
    draw,
};

fn draw(job: &Job<'_>) -> Result<Drawn, Refusal> {
    let mut drawn = Drawn::default();
    let (height, hold) = (job.number(&BAND_HEIGHT)?, job.number(&BAND_HOLD)?);
    let torso = Torso::draw(job, Reach::Hips, &mut drawn.findings)?;
    let block = &torso.block;
    let cut = BriefHalves::cut(block, job.design.rise)?;
    let shell = Widths::shell(job.design);
    for is_front in [true, false] {
        drawn
            .pieces
            .push(piece(job, &torso, &cut, is_front, shell, Layer::Shell)?);
    }

    // The band sits on the body where it is folded: half its height above its seam.
    let k_y = job.k.y(1.0);
    let girth = girth_at(job, block, cut.top_y + 0.25 * height * k_y);
    let meant = (hold * job.k.meant(Level::Waist))
        .min(0.40)
        .min(0.45 * job.k.stretch_around());
    let by_hold = girth / (1.0 + meant);
    let by_way_in = job.m.hip / (1.0 + WAY_IN_SHARE * job.k.stretch_around());
    let top = 2.0 * (cut.front_top.length() + cut.back_top.length());
    // Never longer than the edge it is sewn to: then there would be nothing to hold.
    let rest = by_hold.max(by_way_in) * job.k.shrink_around;
    let length = rest.min(top);
    job.branches.note(
        by_way_in > by_hold,
        "band_passes_hips",
        "has its band as long as the hips need to pass",
    );
    job.branches.note(
        rest > top,
        "band_as_edge",
        "has its band as long as the edge it is sewn to",
    );
    drawn.pieces.push(band(
        job,
        length,
        height * k_y,
        cut.front_top.length() / top,
        shell.seam,
    )?);

    brief::linings(job, block, &mut drawn, |is_front, lined| {
        piece(job, &torso, &cut, is_front, lined, Layer::Lining)
    })?;

    let (f, k) = (&block.front, &block.back);
    drawn.seams.extend(brief::sides_and_crotch(block, &cut));
    drawn.seams.push(SeamWalk {
        name: "band",
        first: ("front and back".into(), vec!["top"]),
        second: ("band".into(), vec!["lower"]),
        first_mm: top,
        second_mm: length,
        sewn_ease_mm: top - length,
    });
    drawn.open_edges.push(leg_edge(job, &f.leg, &k.leg));
    drawn.openings = brief::waist_and_leg(job, block, length);
    let list = [
        ("waistband", "band, once round", length, 8.0),
        ("waistband_height", "band, pulled up", height * k_y, 5.0),
    ];
    drawn.finished = list
        .map(FinishedMeasure::new)
        .into_iter()
        .chain(brief::measures(block, &cut, "band"))
        .collect();
    let worn = girth / (length / job.k.shrink_around) - 1.0;
    let is_held = worn >= LEAST_HOLD;
    drawn.findings.push(Finding {
        code: "draft.band_hold",
        severity: if is_held { Severity::Good } else { Severity::Watch },
        place: "waist".into(),
        message: format!("the folded band is worn {:.0} % stretched", worn * 100.0),
        value: Some(worn),
        limit: Some(Limit {
            text: format!("{:.0} %", LEAST_HOLD * 100.0),
            source: "own",
        }),
        remedy: if is_held {
            String::new()
        } else {
            "choose a lower rise or a cloth that stretches further around, or put narrow elastic in the band's fold".into()
        },
    });
    if job.design.rise == Rise::High {
        let waist = if job.m.is_navel {
            Level::Navel
        } else {
            Level::Waist
        };
        drawn.levels.push(LevelWidth {
            level: waist,
            y_mm: cut.top_y,
            body_mm: girth,
            pattern_mm: length / job.k.shrink_around,
            meant,
        });
        torso.finish_below_waist(job, &mut drawn)?;
    } else {
        torso.finish(job, &mut drawn)?;
    }
    Ok(drawn)
}

fn piece(
    job: &Job<'_>,
    torso: &Torso,
    cut: &BriefHalves,
    is_front: bool,
    w: Widths,
    layer: Layer,
) -> Result<Piece, Refusal> {
    let block = &torso.block;
    let half = if is_front { &block.front } else { &block.back };
    let (side, top) = if is_front {
        (&cut.front_side, &cut.front_top)
    } else {
        (&cut.back_side, &cut.back_top)
    };
    let (key, name) = if is_front {
        names(layer, ("front", "Front"), ("front_lining", "Front lining"))
    } else {
        names(layer, ("back", "Back"), ("back_lining", "Back lining"))
    };
    let fold = Curve::line(top.end(), half.crotch.start());
    let outline: Vec<Point> = [&half.crotch, &half.leg, side, top, &fold]
        .into_iter()
        .flat_map(|c| c.flatten(0.5))
        .collect();
    let mut b = PieceBuilder::new(key, name, true)
        .edge("crotch", EdgeUse::Seam, half.crotch.clone(), w.crotch)
        .edge("leg", EdgeUse::Open(OpenKind::Leg), half.leg.clone(), w.open)
        .edge("side", EdgeUse::Seam, side.clone(), w.side)
        .edge("top", EdgeUse::Seam, top.clone(), w.seam)
        .edge("fold", EdgeUse::Fold, fold, 0.0)
        .notch(
            "top",
            top.length(),
            if is_front { "band_front" } else { "band_back" },
            false,
        )
        .notch("side", 0.5 * cut.front_side.length(), "side_middle", false);
    b = leg_marks(b, &half.leg, if is_front { ['a', 'b'] } else { ['d', 'c'] });
    if let Some(mark) = level_line(&outline, block.levels.hip_y, "hip") {
        b = b.mark(mark);
    }
    if layer == Layer::Shell && job.design.lining == LiningCover::Crotch {
        b = lining::end_mark(b, half, is_front);
    }
    b.build(&[(layer, 1, false)], job.cloth)
}

/// Half of the band, on the fold at the front, twice as tall as it is worn. `front`: share of its half length on the front, so
/// that its notch meets the side seam.
fn band(job: &Job<'_>, length: f64, height: f64, front: f64, seam: f64) -> Result<Piece, Refusal> {
    let (half, tall) = (0.5 * length, 2.0 * height);
    let at = |x: f64, y: f64| Point::new(x, y);
    let side = 2.0 * front * half;
    on_fold(("band", "Band"), (half, tall), seam)
        .notch("lower", 0.0, "band_front", false)
        .notch("lower", side, "band_side", false)
        .notch("upper", half - side, "band_side", false)
        .mark(placement(at(0.0, height), at(half, height), "fold"))
        .build(&[(Layer::Shell, 1, false)], job.cloth)
}
