//! The side-tie bottom: a brief open at both sides, front and back tied together over the hips.
//!
//! The brief's front and back end short of where its side seam would be, on a low side edge that is gathered into a tie. The
//! cloth ends where it would lie on the body, so its worn stretch is the brief's; the tie takes up what is missing.
//!
//! **Source.** Construction own. Tie lengths: common practice, no single source.
//! **Limits.** For women; no ties for children (cautions.csv). How tight it sits is the wearer's knot.

use body::BodyForm;
use cloth::{Fit, Layer};
use kurbo::Point;
use units::{Finding, Level, Severity};

use super::brief::{BriefHalves, girth_at, least_height};
use super::one_piece::names;
use super::open_edges::around_share;
use super::torso::Torso;
use super::{Drawn, Family, Job, Reach, StyleSpec, Widths, lining};
use crate::block::{Half, leg_line};
use crate::build::{PieceBuilder, arc_end};
use crate::check;
use crate::design::{LiningCover, Rise};
use crate::geometry::{Curve, inward};
use crate::parameter::{Parameter, Shared};
use crate::piece::{EdgeUse, OpenKind, Piece};
use crate::refusal::Refusal;
use crate::suit::{EdgeArc, FinishedMeasure, OpenEdge, SeamWalk};

const SIDE_HEIGHT: Parameter = Parameter::length(
    "side_height",
    "Side",
    "how high the side is where it is gathered into the tie",
    (16.0, 28.0, 70.0),
);
const SIDE_GAP: Parameter = Parameter::length(
    "side_gap",
    "Gap at the side",
    "how far apart front and back end at the side, on the body",
    (0.0, 40.0, 120.0),
);
const TIE_LENGTH: Parameter = Parameter::length(
    "tie_length",
    "Tie length",
    "how long each of the four ties is, to knot in a bow",
    (250.0, 380.0, 600.0),
);
const TIE_WIDTH: Parameter = Parameter::length(
    "tie_width",
    "Tie width",
    "how wide a finished tie is",
    (6.0, 12.0, 30.0),
);
/// Half of the elastic's arc at the crotch seam, mm.
const CROTCH_ZONE: f64 = 40.0;
/// Top and leg stay this far apart everywhere, mm flat.
const LEAST_HEIGHT: f64 = 12.0;

pub(super) const STYLE: StyleSpec = StyleSpec {
    key: "side-tie",
    name: "Side-tie bottom",
    says: "a bottom open at both sides, tied over the hips",
    family: Family::Bottom,
    wearers: &[BodyForm::Woman],
    shared: &[Shared::Seat, Shared::Rise, Shared::Crotch, Shared::Lining],
    own: &[SIDE_HEIGHT, SIDE_GAP, TIE_LENGTH, TIE_WIDTH],
    has_trunk_loop: false,
    needs_ties: false,
    usual_fit: Fit::Regular,
    parts: None,
    draw,
};

/// A half of the brief, cut off before its side.
struct Cut {
    /// The block's half with its leg drawn to the new side.
    half: Half,
    side: Curve,
    top: Curve,
}

fn draw(job: &Job<'_>) -> Result<Drawn, Refusal> {
    let mut drawn = Drawn::default();
    let (height, gap) = (job.number(&SIDE_HEIGHT)?, job.number(&SIDE_GAP)?);
    let (tie_length, tie_width) = (job.number(&TIE_LENGTH)?, job.number(&TIE_WIDTH)?);
    if tie_width > height {
        return Err(Refusal::Combination {
            parameter: "tie_width",
            why: "a tie cannot be wider than the side it is sewn to; make the side higher or the tie narrower",
        });
    }
    let share = match job.design.rise {
        Rise::Low => 0.62,
        Rise::Mid => 0.36,
        Rise::High => 0.06,
    };
    let flat = job.m.waist_to_hip * job.k.y(1.0);
    let torso = Torso::draw_with(job, Reach::Hips, &mut drawn.findings, |shape| {
        // The leg comes up to the side's lower end.
        shape.leg_share = (share + height / flat).min(1.0);
    })?;
    let block = &torso.block;
    let top_y = block.levels.leg_y + height;
    let halves = BriefHalves::cut_at(block, top_y)?;
    let inside = 0.5 * gap * job.k.x(Level::HighHip);
    let end = (inside, height);
    let front = cut(&block.front, &halves.front_top, end, None)?;
    let back = cut(&block.back, &halves.back_top, end, Some(torso.shape.seat))?;
    if least_height(&front.half.leg, &front.top).min(least_height(&back.half.leg, &back.top)) < LEAST_HEIGHT {
        return Err(Refusal::Combination {
            parameter: "rise",
            why: "on this body the top edge would come within 1.2 cm of the leg; choose a higher rise or a higher side",
        });
    }
    pieces(job, &front, &back, &mut drawn)?;
    ties(job, (&front, &back), (tie_length, tie_width), &mut drawn)?;
    edges(job, &torso, (&front, &back), top_y, &mut drawn);

    let l = &block.levels;
    if top_y >= l.high_hip_y {
        drawn
            .levels
            .push(torso.rung(job, Level::HighHip, l.high_hip_y, job.m.high_hip));
    }
    drawn.levels.push(torso.rung(job, Level::Hip, l.hip_y, job.m.hip));
    check::kinks(block)?;
    drawn.findings.push(Finding {
        code: "draft.side_ties",
        severity: Severity::Good,
        place: "side".into(),
        message: format!("gather each side edge into its tie; tied, the sides stand {gap:.0} mm apart"),
        value: Some(gap),
        limit: None,
        remedy: String::new(),
    });
    Ok(drawn)
}

/// Ends a half `inside` mm before its side seam, on a side of that height, square to the top and to the leg drawn anew to it.
fn cut(half: &Half, top: &Curve, (inside, height): (f64, f64), seat: Option<f64>) -> Result<Cut, Refusal> {
    let at = top.start().x - inside;
    let narrow = Refusal::Parameter {
        parameter: "side_gap",
        value: inside,
        low: 0.0,
        high: 0.5 * top.start().x,
        unit: "mm",
        why: "half the gap would take more than half of this body's front or back",
    };
    if at < 0.5 * top.start().x {
        return Err(narrow);
    }
    let top = if inside > 0.0 {
        top.split_at(length_to_x(top, at).ok_or(narrow)?).1
    } else {
        top.clone()
    };
    // Up along the side: the top leaves it to the left.
    let up = -inward(top.start_tangent());
    let low = top.start() - up * height;
    Ok(Cut {
        half: Half {
            leg: leg_line(half.crotch.end(), low, up, seat),
            ..half.clone()
        },
        side: Curve::line(low, top.start()),
        top,
    })
}

/// Length along a run to where it last passes a distance from the fold.
fn length_to_x(curve: &Curve, x: f64) -> Option<f64> {
    let total = curve.length();
    let out = |s: f64| curve.at_length(s).0.x - x;
    // Looked for from the end that lies at the side, so that a bulge nearer the fold is not met first.
    let (from, to) = if out(total) > 0.0 {
        (total, 0.0)
    } else {
        (0.0, total)
    };
    let mut before = from;
    for i in 1..=40 {
        let s = from + (to - from) * f64::from(i) / 40.0;
        if out(s) <= 0.0 {
            return crate::geometry::root(out, before.min(s), before.max(s));
        }
        before = s;
    }
    None
}

fn pieces(job: &Job<'_>, front: &Cut, back: &Cut, drawn: &mut Drawn) -> Result<(), Refusal> {
    let shell = Widths::shell(job.design);
    let lined = Widths::lining(job.design);
    for (cut, is_front) in [(front, true), (back, false)] {
        drawn.pieces.push(piece(job, cut, is_front, shell, Layer::Shell)?);
    }
    match job.design.lining {
        LiningCover::None => {}
        LiningCover::Full => {
            for (cut, is_front) in [(front, true), (back, false)] {
                drawn
                    .pieces
                    .push(piece(job, cut, is_front, lined, Layer::Lining)?);
            }
        }
        LiningCover::Front => drawn.pieces.push(piece(job, front, true, lined, Layer::Lining)?),
        LiningCover::Crotch => drawn.pieces.push(lining::crotch(job, &front.half, &back.half)?),
    }
    let (first_mm, second_mm) = (2.0 * front.half.crotch.length(), 2.0 * back.half.crotch.length());
    drawn.seams.push(SeamWalk {
        name: "crotch",
        first: ("front".into(), vec!["crotch"]),
        second: ("back".into(), vec!["crotch"]),
        first_mm,
        second_mm,
        sewn_ease_mm: 0.0,
    });
    Ok(())
}

fn piece(job: &Job<'_>, cut: &Cut, is_front: bool, w: Widths, layer: Layer) -> Result<Piece, Refusal> {
    let (key, name) = if is_front {
        names(layer, ("front", "Front"), ("front_lining", "Front lining"))
    } else {
        names(layer, ("back", "Back"), ("back_lining", "Back lining"))
    };
    let centre = if is_front { "centre_front" } else { "centre_back" };
    let fold = Curve::line(cut.top.end(), cut.half.crotch.start());
    let letters = if is_front {
        ['a', 'b', 'n']
    } else {
        ['d', 'c', 'm']
    };
    let mut b = PieceBuilder::new(key, name, true)
        .edge("crotch", EdgeUse::Seam, cut.half.crotch.clone(), w.crotch)
        .edge("leg", EdgeUse::Open(OpenKind::Leg), cut.half.leg.clone(), w.open)
        .edge("tie_end", EdgeUse::Seam, cut.side.clone(), w.seam)
        .edge("top", EdgeUse::Open(OpenKind::Waist), cut.top.clone(), w.open)
        .edge("fold", EdgeUse::Fold, fold, 0.0)
        .notch("top", cut.top.length(), centre, false)
        .mark(arc_end(&cut.half.leg, CROTCH_ZONE, letters[0]))
        .mark(arc_end(&cut.half.leg, cut.half.leg.length(), letters[1]))
        .mark(arc_end(&cut.top, 0.0, letters[2]));
    if layer == Layer::Shell && job.design.lining == LiningCover::Crotch {
        b = lining::end_mark(b, &cut.half, is_front);
    }
    b.build(&[(layer, 1, false)], job.cloth)
}

/// Four ties, each a strip folded lengthwise.
fn ties(
    job: &Job<'_>,
    cuts: (&Cut, &Cut),
    (length, width): (f64, f64),
    drawn: &mut Drawn,
) -> Result<(), Refusal> {
    let w = Widths::shell(job.design);
    // A tie hangs: only shrinkage still to come is added.
    let (long, wide) = (length * job.k.shrink_lengthwise, 2.0 * width);
    let at = |x: f64, y: f64| Point::new(x, y);
    let tie = PieceBuilder::new("tie", "Tie", false)
        .edge(
            "end",
            EdgeUse::Seam,
            Curve::line(at(0.0, 0.0), at(wide, 0.0)),
            w.seam,
        )
        .edge(
            "edge",
            EdgeUse::Seam,
            Curve::line(at(wide, 0.0), at(wide, long)),
            w.seam,
        )
        .edge(
            "free_end",
            EdgeUse::Seam,
            Curve::line(at(wide, long), at(0.0, long)),
            w.seam,
        )
        .edge(
            "other_edge",
            EdgeUse::Seam,
            Curve::line(at(0.0, long), at(0.0, 0.0)),
            w.seam,
        )
        .mark(crate::build::placement(at(width, 0.0), at(width, long), "fold"))
        .build(&[(Layer::Shell, 4, false)], job.cloth)?;
    drawn.pieces.push(tie);
    for (name, key, cut) in [("tie, front", "front", cuts.0), ("tie, back", "back", cuts.1)] {
        let side = cut.side.length();
        drawn.seams.push(SeamWalk {
            name,
            first: (key.into(), vec!["tie_end"]),
            second: ("tie".into(), vec!["end, folded"]),
            first_mm: side,
            second_mm: width,
            sewn_ease_mm: side - width,
        });
    }
    Ok(())
}

fn edges(job: &Job<'_>, torso: &Torso, (front, back): (&Cut, &Cut), top_y: f64, drawn: &mut Drawn) {
    let arc = |name, letter, length_mm| EdgeArc {
        name,
        letter,
        length_mm,
    };
    drawn.open_edges.push(OpenEdge {
        kind: OpenKind::Leg,
        count: 2,
        is_ring: false,
        arcs: vec![
            arc("front", 'b', front.half.leg.length() - CROTCH_ZONE),
            arc("crotch", 'a', 2.0 * CROTCH_ZONE),
            arc("back", 'd', back.half.leg.length() - CROTCH_ZONE),
        ],
        around_share: around_share(&[&front.half.leg, &back.half.leg]),
        worn_radius_mm: job.m.thigh / std::f64::consts::TAU,
    });
    let radius = girth_at(job, &torso.block, top_y) / std::f64::consts::TAU;
    for (name, letter, top) in [("front", 'n', &front.top), ("back", 'm', &back.top)] {
        drawn.open_edges.push(OpenEdge {
            kind: OpenKind::Waist,
            count: 1,
            is_ring: false,
            arcs: vec![arc(name, letter, 2.0 * top.length())],
            around_share: around_share(&[top]),
            worn_radius_mm: radius,
        });
    }
    let list = [
        (
            "top_front",
            "front top edge, side to side",
            2.0 * front.top.length(),
            5.0,
        ),
        (
            "top_back",
            "back top edge, side to side",
            2.0 * back.top.length(),
            5.0,
        ),
        (
            "centre_front",
            "centre front, top to crotch seam",
            front.top.end().y - front.half.crotch.start().y,
            4.0,
        ),
        (
            "centre_back",
            "centre back, top to crotch seam",
            back.top.end().y - back.half.crotch.start().y,
            4.0,
        ),
        (
            "side_height",
            "side edge before it is gathered",
            front.side.length(),
            3.0,
        ),
        (
            "crotch_width",
            "crotch, edge to edge at its seam",
            2.0 * front.half.crotch.length(),
            3.0,
        ),
    ];
    drawn.finished = list.into_iter().map(FinishedMeasure::new).collect();
}
