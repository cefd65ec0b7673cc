//! The one-piece suit: front (plain, eased, darted or with princess seams), back, linings, straps, skirt, cups.
//!
//! **Source.** Construction own; notch habits (single in front, double behind) common practice, no single source.

use body::BodyForm;
use cloth::{Fit, Layer};
use kurbo::Point;
use units::{Finding, Severity};

use super::cups::CupPlace;
use super::open_edges::{STRAP_ZONE, UNDERARM_ZONE, ZONE, edges, openings};
use super::straps::StrapEnd;
use super::top::filling;
use super::top::words::{Filling, POCKETS};
use super::torso::{Torso, trunk_measures};
use super::{
    Drawn, Family, Job, Reach, StyleSpec, Widths, belly, closure, cone_edge, lining, motif, princess,
    shelf_bra, skirt, stoma, straps, style_seams,
};
use crate::block::{Block, Half, UNDERBUST_WEIGHT};
use crate::build::{PieceBuilder, arc_end, level_line, mirror_in_line, placement};
use crate::design::{BackShape, BustShaping, ClosurePlace, LiningCover};
use crate::geometry::{Curve, unit, x_spans};
use crate::parameter::{Parameter, Shared, count, joined};
use crate::piece::{EdgeUse, Mark, OpenKind, Piece};
use crate::refusal::Refusal;
use crate::suit::{FinishedMeasure, SeamWalk};

/// What may be put into any suit with a torso: a shelf bra, cups and pockets, a stoma's opening, a print's motifs.
const IN_A_TORSO: &[&[Parameter]] = &[
    &[shelf_bra::SHELF_BRA],
    POCKETS,
    stoma::ALL,
    &[motif::MOTIF_REPEAT],
];
/// The same as one list.
pub(super) const ROOMS: &[Parameter] = &joined::<{ count(IN_A_TORSO) }>(IN_A_TORSO);
/// What a maker may set.
const OWN: &[&[Parameter]] = &[
    &[
        style_seams::SEAM_AT,
        style_seams::BLOCK_LINES,
        style_seams::PANEL_AT,
        style_seams::PANEL_LEG,
        style_seams::BAND_FROM,
        style_seams::BAND_TO,
        style_seams::BLOCK_LEVEL,
    ],
    straps::ALL,
    ROOMS,
    &[skirt::GATHER],
];

pub(super) const STYLE: StyleSpec = StyleSpec {
    key: "one-piece",
    name: "One-piece",
    says: "a suit from the shoulders to the crotch, stepped into",
    family: Family::OnePiece,
    wearers: &[BodyForm::Woman, BodyForm::Child],
    shared: &[
        Shared::Neckline,
        Shared::Back,
        Shared::Strap,
        Shared::BustShaping,
        Shared::Leg,
        Shared::Seat,
        Shared::Crotch,
        Shared::Lining,
        Shared::Cups,
        Shared::Skirt,
        Shared::Closure,
    ],
    own: &joined::<{ count(OWN) }>(OWN),
    has_trunk_loop: true,
    needs_ties: false,
    usual_fit: Fit::Regular,
    parts: None,
    draw,
};

/// What holds the suit up.
#[derive(Clone, Debug)]
pub(super) enum Hold {
    /// Straps sewn together at the shoulder.
    Shoulders,
    /// Straps that end at a ring or in ties.
    StrapEnds(StrapEnd),
    /// Straps that cross over a low back; its top edge.
    Crossed(Curve),
    /// A neck piece over a low back; the back's top edge.
    Neck(Curve),
}

impl Hold {
    /// The top edge of a back without straps of its own.
    pub(super) fn back_top(&self) -> Option<&Curve> {
        match self {
            Hold::Crossed(top) | Hold::Neck(top) => Some(top),
            Hold::Shoulders | Hold::StrapEnds(_) => None,
        }
    }

    /// Whether neckline and armhole run on over the shoulder from front to back.
    pub(super) fn runs_on(&self) -> bool {
        matches!(self, Hold::Shoulders)
    }

    /// Use and allowance of the strap's end.
    pub(super) fn strap_end(&self, w: Widths) -> (EdgeUse, f64) {
        match self {
            Hold::StrapEnds(StrapEnd::Ring { .. }) => (EdgeUse::Hem, straps::RING_TURN),
            _ => (EdgeUse::Seam, w.seam),
        }
    }
}

/// Draws the suit.
///
/// # Errors
/// Any [`Refusal`] of block or pieces.
fn draw(job: &Job<'_>) -> Result<Drawn, Refusal> {
    on_shoulders(job)
}

/// Draws a suit with straps over the shoulders.
///
/// # Errors
/// As [`draw`].
pub(super) fn on_shoulders(job: &Job<'_>) -> Result<Drawn, Refusal> {
    if let Some(wanted) = &job.design.closure {
        closure::check_at_centre(wanted)?;
    }
    let mut drawn = Drawn::default();
    let torso = torso(job, &mut drawn)?;
    let mut block = torso.block.clone();
    let hold = match (straps::end_of(job)?, job.design.back_shape) {
        (None, BackShape::CrossedStraps) => Hold::Crossed(straps::back_top(&block.back)),
        (None, _) => Hold::Shoulders,
        (Some(_), BackShape::CrossedStraps) => {
            return Err(Refusal::Combination {
                parameter: "strap_kind",
                why: "crossed straps are sewn to front and back; set strap_kind to \"sewn\", or choose another back",
            });
        }
        (Some(end), _) => {
            straps::shorten(&mut block, end);
            Hold::StrapEnds(end)
        }
    };
    pieces(job, &block, &hold, &mut drawn)?;
    style_seams::cut_all(job, &block, &mut drawn)?;
    if let Some(wanted) = &job.design.closure {
        closure::at_centre(job, wanted, tops(job, &block), crotches(&block), &mut drawn)?;
    }
    if job.is_on(&shelf_bra::SHELF_BRA)? {
        shelf_bra::add(job, &block, &hold, &mut drawn)?;
    }
    stoma::add(job, &block, &mut drawn)?;
    if let Hold::StrapEnds(end) = hold {
        straps::add_ends(job, &block, end, &mut drawn)?;
    }
    closure::judge_cloth(job.cloth, job.design.closure.as_ref(), &mut drawn);
    torso.finish(job, &mut drawn)?;
    belly::add(job, &block, &mut drawn)?;
    Ok(drawn)
}

/// The block: drawn in under the bust where a seam is; its waist not widened where a closure lets the hips through.
pub(super) fn torso(job: &Job<'_>, drawn: &mut Drawn) -> Result<Torso, Refusal> {
    let weight = if style_seams::draws_in_underbust(job)? {
        1.0
    } else {
        UNDERBUST_WEIGHT
    };
    let opens_waist = match &job.design.closure {
        None => false,
        Some(wanted) if wanted.place == ClosurePlace::Neck => false,
        Some(wanted) => {
            let first = Torso::draw(job, Reach::Whole, &mut Vec::new())?;
            let i = usize::from(wanted.place != ClosurePlace::Front);
            closure::passes_waist(wanted, tops(job, &first.block)[i])
        }
    };
    Torso::draw_with(job, Reach::Whole, &mut drawn.findings, |shape| {
        shape.underbust_weight = weight;
        shape.has_way_in_rule &= !opens_waist;
    })
}

/// Heights where the neckline ends on the fold, front and back.
fn tops(job: &Job<'_>, block: &Block) -> [f64; 2] {
    let back = if job.design.back_shape == BackShape::CrossedStraps {
        straps::back_top(&block.back).end().y
    } else {
        block.back.neck.end().y
    };
    [block.front.neck.end().y, back]
}

/// Heights of the crotch seam, front and back.
fn crotches(block: &Block) -> [f64; 2] {
    [block.front.crotch.start().y, block.back.crotch.start().y]
}

/// Shell, linings, straps, skirt and cups, with seams, edges, openings and measures.
///
/// # Errors
/// Any [`Refusal`] of a piece.
pub(super) fn pieces(job: &Job<'_>, block: &Block, hold: &Hold, drawn: &mut Drawn) -> Result<(), Refusal> {
    let shell = Widths::shell(job.design);
    fronts(job, block, shell, Layer::Shell, hold, drawn)?;
    let back = back(job, block, shell, Layer::Shell, hold)?;
    drawn.pieces.push(back);
    if let Hold::Crossed(top) = hold {
        straps::add(job, block, top, drawn)?;
    }
    if let Some(wanted) = &job.design.skirt {
        skirt::on_one_piece(job, block, wanted, drawn)?;
    }

    let lined = Widths::lining(job.design);
    match job.design.lining {
        LiningCover::None => {}
        LiningCover::Full => {
            fronts(job, block, lined, Layer::Lining, hold, drawn)?;
            drawn
                .pieces
                .push(self::back(job, block, lined, Layer::Lining, hold)?);
        }
        LiningCover::Front => fronts(job, block, lined, Layer::Lining, hold, drawn)?,
        LiningCover::Crotch => drawn.pieces.push(lining::crotch(job, &block.front, &block.back)?),
    }
    let wanted = Filling::of(job)?;
    filling::check_prosthesis(job, &wanted, is_front_lined(job)?)?;
    filling::pockets(
        job,
        &wanted,
        &|share, more| CupPlace::of_block(job, block, share, more),
        drawn,
    )?;

    seams(job, block, hold, drawn);
    edges(job, block, hold, drawn);
    openings(job, block, hold, drawn);
    finished(job, block, hold, drawn);
    if block.waist_widening > 1.0 {
        drawn.findings.push(Finding {
            code: "draft.waist_widened",
            severity: Severity::Good,
            place: "waist".into(),
            message: format!(
                "the waist is cut {:.0} % wider than the fit asks, so that it passes the hips",
                (block.waist_widening - 1.0) * 100.0
            ),
            value: Some(block.waist_widening),
            limit: None,
            remedy: String::new(),
        });
    }
    Ok(())
}

/// Whether there is a lining in front to sew pockets to.
fn is_front_lined(job: &Job<'_>) -> Result<bool, Refusal> {
    Ok(
        matches!(job.design.lining, LiningCover::Full | LiningCover::Front)
            || job.is_on(&shelf_bra::SHELF_BRA)?,
    )
}

/// Marks the places of cups and pockets: on the lining when they are set into it, else on the shell. `is_centre` for a centre front
/// with princess seams.
///
/// # Errors
/// [`Refusal::Combination`] where no cup fits.
pub(super) fn filling_marks(
    b: PieceBuilder,
    job: &Job<'_>,
    block: &Block,
    layer: Layer,
    is_centre: bool,
) -> Result<PieceBuilder, Refusal> {
    if (layer == Layer::Lining) != is_front_lined(job)? {
        return Ok(b);
    }
    filling::marks_here(b, job, &Filling::of(job)?, is_centre, &|share, more| {
        CupPlace::of_block(job, block, share, more)
    })
}

fn fronts(
    job: &Job<'_>,
    block: &Block,
    w: Widths,
    layer: Layer,
    hold: &Hold,
    drawn: &mut Drawn,
) -> Result<(), Refusal> {
    if job.design.bust_shaping == BustShaping::Princess
        && let Some(dart) = &block.dart
    {
        let (centre, side) = princess::split(job, block, dart, w, layer, hold)?;
        if layer == Layer::Shell {
            princess::walk(&centre, &side, &mut drawn.seams);
        }
        drawn.pieces.push(centre);
        drawn.pieces.push(side);
        return Ok(());
    }
    drawn.pieces.push(front(job, block, w, layer, hold)?);
    Ok(())
}

/// The front in one piece, darted or not.
///
/// # Errors
/// Any [`Refusal`] of the piece.
pub(super) fn front(
    job: &Job<'_>,
    block: &Block,
    w: Widths,
    layer: Layer,
    hold: &Hold,
) -> Result<Piece, Refusal> {
    let half = &block.front;
    let (end_use, end_width) = hold.strap_end(w);
    let (key, name) = names(layer, ("front", "Front"), ("front_lining", "Front lining"));
    let mut b = PieceBuilder::new(key, name, true)
        .edge("crotch", EdgeUse::Seam, half.crotch.clone(), w.crotch)
        .edge("leg", EdgeUse::Open(OpenKind::Leg), half.leg.clone(), w.open);
    if let Some(dart) = &block.dart {
        let mouth_up = dart.side_up.start();
        b = b
            .edge("side_low", EdgeUse::Seam, dart.side_low.clone(), w.side)
            .edge(
                "dart_low",
                EdgeUse::Dart,
                Curve::line(dart.mouth_low, dart.point),
                0.0,
            )
            .edge("dart_up", EdgeUse::Dart, Curve::line(dart.point, mouth_up), 0.0)
            .edge("side_up", EdgeUse::Seam, dart.side_up.clone(), w.side)
            .cap(
                "dart_low",
                "dart_up",
                dart_cap(&dart.side_low, dart.point, dart.mouth_low, mouth_up),
            );
        b = b
            .notch("side_low", dart.side_low.length(), "dart", false)
            .notch("side_up", 0.0, "dart", false);
        b = b.mark(Mark::Cross {
            at: dart.bust_point,
            text: "bust point".into(),
        });
    } else {
        b = b.edge("side", EdgeUse::Seam, half.side.clone(), w.side);
        if let Some(ease) = &block.ease {
            b = b
                .notch("side", ease.from, "ease_from", false)
                .notch("side", ease.to, "ease_to", false);
        }
        if job.m.is_woman() {
            let at = Point::new(block.levels.bust_point_x, block.levels.bust_point_y);
            b = b.mark(Mark::Cross {
                at,
                text: "bust point".into(),
            });
        }
    }
    b = b
        .edge(
            "armhole",
            EdgeUse::Open(OpenKind::Armhole),
            half.armhole.clone(),
            w.open,
        )
        .edge("shoulder", end_use, half.shoulder.clone(), end_width)
        .edge(
            "neck",
            EdgeUse::Open(OpenKind::Neckline),
            half.neck.clone(),
            w.open,
        )
        .edge("fold", EdgeUse::Fold, half.fold.clone(), 0.0)
        .notch("armhole", 0.5 * half.armhole.length(), "armhole_front", false)
        .notch("neck", half.neck.length(), "centre_front", false);
    b = side_notches(b, block, true);
    b = leg_marks(b, &half.leg, ['a', 'b']);
    b = neck_marks(b, half, true, hold);
    b = level_marks(b, block, half, job);
    if layer == Layer::Shell {
        b = skirt::placement_mark(b, job, block, true);
    }
    if layer == Layer::Shell && job.design.lining == LiningCover::Crotch {
        b = lining::end_mark(b, half, true);
    }
    b = filling_marks(b, job, block, layer, false)?;
    b.build(&[(layer, 1, false)], job.cloth)
}

fn back(job: &Job<'_>, block: &Block, w: Widths, layer: Layer, hold: &Hold) -> Result<Piece, Refusal> {
    let half = &block.back;
    let (end_use, end_width) = hold.strap_end(w);
    let (key, name) = names(layer, ("back", "Back"), ("back_lining", "Back lining"));
    let mut b = PieceBuilder::new(key, name, true)
        .edge("crotch", EdgeUse::Seam, half.crotch.clone(), w.crotch)
        .edge("leg", EdgeUse::Open(OpenKind::Leg), half.leg.clone(), w.open)
        .edge("side", EdgeUse::Seam, half.side.clone(), w.side);
    match hold.back_top() {
        None => {
            b = b
                .edge(
                    "armhole",
                    EdgeUse::Open(OpenKind::Armhole),
                    half.armhole.clone(),
                    w.open,
                )
                .edge("shoulder", end_use, half.shoulder.clone(), end_width)
                .edge(
                    "neck",
                    EdgeUse::Open(OpenKind::Neckline),
                    half.neck.clone(),
                    w.open,
                )
                .edge("fold", EdgeUse::Fold, half.fold.clone(), 0.0)
                .notch("armhole", 0.5 * half.armhole.length(), "armhole_back", true)
                .notch("neck", half.neck.length(), "centre_back", false);
            b = neck_marks(b, half, false, hold);
        }
        Some(top) => {
            b = b
                .edge("top", EdgeUse::Open(OpenKind::Armhole), top.clone(), w.open)
                .edge(
                    "fold",
                    EdgeUse::Fold,
                    Curve::line(top.end(), half.crotch.start()),
                    0.0,
                )
                .notch("top", top.length(), "centre_back", false)
                .mark(arc_end(top, UNDERARM_ZONE, 'i'));
            if matches!(hold, Hold::Crossed(_)) {
                b = straps::attachment_mark(b, top);
            }
        }
    }
    b = side_notches(b, block, false);
    b = leg_marks(b, &half.leg, ['d', 'c']);
    b = level_marks(b, block, half, job);
    if layer == Layer::Shell {
        b = skirt::placement_mark(b, job, block, false);
    }
    if layer == Layer::Shell && job.design.lining == LiningCover::Crotch {
        b = lining::end_mark(b, half, false);
    }
    b.build(&[(layer, 1, false)], job.cloth)
}

pub(super) fn names(
    layer: Layer,
    shell: (&'static str, &'static str),
    lining: (&'static str, &'static str),
) -> (&'static str, &'static str) {
    if layer == Layer::Lining { lining } else { shell }
}

/// The seam that closes a dart's mouth on the cut line: the intake is folded down, so its cut edge is the side seam mirrored in
/// the lower leg as far as the dart's middle, and that mirrored again in the middle line.
pub(super) fn dart_cap(side_low: &Curve, point: Point, low: Point, up: Point) -> Curve {
    let leg = unit(low - point);
    let middle = unit(unit(low - point) + unit(up - point));
    let below = side_low.reversed().flatten(0.02);
    let mut cap = vec![low];
    for p in below.into_iter().skip(1) {
        let q = mirror_in_line(p, point, leg);
        let (before, after) = (middle.cross(cap[cap.len() - 1] - point), middle.cross(q - point));
        if after >= 0.0 {
            let share = if (after - before).abs() > 1e-12 {
                -before / (after - before)
            } else {
                1.0
            };
            let last = cap[cap.len() - 1];
            cap.push(last + (q - last) * share);
            break;
        }
        cap.push(q);
    }
    let mirrored: Vec<Point> = cap
        .iter()
        .rev()
        .skip(1)
        .map(|&p| mirror_in_line(p, point, middle))
        .collect();
    cap.extend(mirrored);
    if let Some(last) = cap.last_mut() {
        *last = up;
    }
    cap.windows(2).fold(Curve::default(), |run, w| {
        let piece = Curve::line(w[0], w[1]);
        if run.cubics().is_empty() {
            piece
        } else {
            run.then(&piece)
        }
    })
}

/// Notches at waist and high hip on the side, at equal lengths from the leg on front and back; on the back also where the
/// front's ease begins and ends.
pub(super) fn side_notches(mut b: PieceBuilder, block: &Block, is_front: bool) -> PieceBuilder {
    let along = |y: f64| block.front.side.length_to_height(y);
    let edge = if is_front && block.dart.is_some() {
        "side_low"
    } else {
        "side"
    };
    let reach = block.dart.as_ref().map_or(f64::INFINITY, |d| d.side_low.length());
    for (y, key) in [(0.0, "waist"), (block.levels.high_hip_y, "high_hip")] {
        if let Some(s) = along(y)
            && y > block.levels.leg_y + 15.0
            && s < reach - 10.0
        {
            b = b.notch(edge, s, key, false);
        }
    }
    if !is_front {
        if let Some(ease) = &block.ease {
            b = b.notch("side", ease.from, "ease_from", false).notch(
                "side",
                ease.to - ease.amount,
                "ease_to",
                false,
            );
        }
        if let Some(dart) = &block.dart {
            b = b.notch("side", dart.side_low.length(), "dart", false);
        }
    }
    b
}

/// Marks where the leg's elastic arcs end: at the crotch and at the side, counted from the crotch corner.
pub(super) fn leg_marks(b: PieceBuilder, leg: &Curve, letters: [char; 2]) -> PieceBuilder {
    b.mark(arc_end(leg, ZONE, letters[0]))
        .mark(arc_end(leg, leg.length() - ZONE, letters[1]))
}

/// Marks where the arcs of neckline and armhole begin, lettered as in [`edges`].
fn neck_marks(b: PieceBuilder, half: &Half, is_front: bool, hold: &Hold) -> PieceBuilder {
    let (neck, arm) = if is_front { ('f', 'h') } else { ('e', 'i') };
    let runs_on = hold.runs_on();
    let from_strap = if runs_on { STRAP_ZONE } else { 0.0 };
    let at_strap = if runs_on { 'j' } else { 'k' };
    let b = b
        .mark(arc_end(&half.neck, from_strap, neck))
        .mark(arc_end(&half.armhole, UNDERARM_ZONE, arm));
    match (is_front, runs_on) {
        (true, _) => b.mark(arc_end(&half.armhole, half.armhole.length(), at_strap)),
        (false, true) => b
            .mark(arc_end(&half.armhole, half.armhole.length(), at_strap))
            .mark(arc_end(&half.neck, half.neck.length(), 'g')),
        // The back's edges begin at its strap's end: they have no letter more.
        (false, false) => b,
    }
}

fn level_marks(mut b: PieceBuilder, block: &Block, half: &Half, job: &Job<'_>) -> PieceBuilder {
    let outline: Vec<Point> = [
        &half.crotch,
        &half.leg,
        &half.side,
        &half.armhole,
        &half.shoulder,
        &half.neck,
        &half.fold,
    ]
    .iter()
    .flat_map(|c| c.flatten(0.5))
    .collect();
    let down = units::Mm::new(job.m.waist_to_hip);
    let hip = format!(
        "hip, {} ({}) below the waist",
        down.to_cm_text(),
        down.to_inch_text()
    );
    for (y, text) in [(0.0, "waist"), (block.levels.hip_y, hip.as_str())] {
        b = match level_line(&outline, y, text) {
            Some(mark) => b.mark(mark),
            None => b,
        };
    }
    b
}

fn seams(job: &Job<'_>, block: &Block, hold: &Hold, drawn: &mut Drawn) {
    let (f, k) = (&block.front, &block.back);
    let front = |name: &str| match (job.design.bust_shaping, block.dart.is_some()) {
        (BustShaping::Princess, true) if name.starts_with("side") => "side_front".to_owned(),
        (BustShaping::Princess, true) => "centre_front".to_owned(),
        _ => "front".to_owned(),
    };
    let edges_of = |edges: Vec<&'static str>| -> f64 {
        edges
            .iter()
            .filter_map(|&e| {
                drawn
                    .pieces
                    .iter()
                    .find(|p| p.key == front(e))
                    .and_then(|p| p.edge(e))
            })
            .map(|e| e.curve.length())
            .sum()
    };
    let sides = if block.dart.is_some() {
        vec!["side_low", "side_up"]
    } else {
        vec!["side"]
    };
    let side_mm = edges_of(sides.clone());
    let mut walks = vec![
        SeamWalk {
            name: "side",
            first: (front("side"), sides),
            second: ("back".into(), vec!["side"]),
            first_mm: side_mm,
            second_mm: k.side.length(),
            sewn_ease_mm: block.ease.map_or(0.0, |e| e.amount),
        },
        SeamWalk {
            name: "crotch",
            first: (front("crotch"), vec!["crotch"]),
            second: ("back".into(), vec!["crotch"]),
            first_mm: 2.0 * f.crotch.length(),
            second_mm: 2.0 * k.crotch.length(),
            sewn_ease_mm: 0.0,
        },
    ];
    if hold.runs_on() {
        walks.push(SeamWalk {
            name: "shoulder",
            first: (front("shoulder"), vec!["shoulder"]),
            second: ("back".into(), vec!["shoulder"]),
            first_mm: f.shoulder.length(),
            second_mm: k.shoulder.length(),
            sewn_ease_mm: 0.0,
        });
    }
    drawn.seams.splice(0..0, walks);
}

fn finished(job: &Job<'_>, block: &Block, hold: &Hold, drawn: &mut Drawn) {
    let (f, k) = (&block.front, &block.back);
    let [bust, waist, above_leg, side, centre_front, leg, crotch] = trunk_measures(block);
    let centre_back = hold
        .back_top()
        .map_or(k.fold.length(), |top| top.end().y - k.crotch.start().y);
    let mut list = vec![
        bust,
        waist,
        above_leg,
        side,
        centre_front,
        ("centre_back", "centre back, top to crotch seam", centre_back, 5.0),
        leg,
        crotch,
        (
            "strap_width",
            "strap, edge to edge at the shoulder",
            f.shoulder.length(),
            3.0,
        ),
    ];
    if hold.back_top().is_some() {
        list.push(("neckline", "neckline, strap to strap", 2.0 * f.neck.length(), 8.0));
    } else if !hold.runs_on() {
        list.push((
            "neckline",
            "front neckline, strap to strap",
            2.0 * f.neck.length(),
            8.0,
        ));
    } else {
        list.push((
            "neckline",
            "neckline and back, once round",
            2.0 * (f.neck.length() + k.neck.length()),
            8.0,
        ));
        list.push((
            "armhole",
            "armhole, once round",
            f.armhole.length() + k.armhole.length(),
            8.0,
        ));
    }
    if job.design.bust_shaping == BustShaping::Princess
        && let Some(p) = drawn.pieces.iter().find(|p| p.key == "centre_front")
        && let Some((_, right)) = x_spans(&crate::build::flat_outline(&p.edges), 0.0)
            .into_iter()
            .next()
    {
        list.push((
            "between_princess_seams",
            "between the princess seams at the waist",
            2.0 * right,
            4.0,
        ));
    }
    drawn.finished = list
        .into_iter()
        .map(FinishedMeasure::new)
        .chain(drawn.finished.drain(..))
        .collect();
}

/// The level line where a skirt joins, from the fold to the side.
pub(super) fn join_line(half: &Half, y: f64) -> Mark {
    placement(
        Point::new(0.0, y),
        Point::new(half.profile.at(y), y),
        "skirt joins here",
    )
}

/// Top edge of a brief half cut at `y` on its side seam.
pub(super) fn brief_top(side: &Curve, lift: f64) -> Curve {
    cone_edge(side.end(), side.end_tangent(), lift)
}
