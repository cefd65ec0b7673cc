//! The pieces of a top: fronts and backs of shell, lining and mesh, band, pockets, halter straps.

use cloth::Layer;
use kurbo::Point;

use super::{
    BackUpper, Cut, FrontUpper, HALTER_STRAP, HOOK_FACING, Half, Lower, Mesh, PRINCESS_AT, Upper, Wanted,
    band, edges, filling, is_princess, words,
};
use crate::block::{Block, Dart};
use crate::build::{PieceBuilder, arc_end, level_line};
use crate::design::{Cups, LiningCover};
use crate::geometry::{Curve, turn_about};
use crate::piece::{EdgeUse, Mark, OpenKind, Piece};
use crate::refusal::Refusal;
use crate::style::cups::{self, CupPlace};
use crate::style::{Drawn, Job, Widths, one_piece, princess, straps};

/// Each side of the shoulder seam along neckline and armhole, mm.
pub(super) const STRAP_ZONE: f64 = 20.0;
/// Each side of the underarm.
pub(super) const UNDERARM_ZONE: f64 = 30.0;
/// Depth of the narrow hem of a free front, mm.
const FREE_HEM: f64 = 10.0;
/// A halter's tie beyond the neck, mm: common practice, no single source.
const TIE: f64 = 350.0;
/// The fall from bust point to lower edge that a princess seam's place is worked out for at most, mm (own).
const LONGEST_FALL: f64 = 140.0;
/// The opening to nurse through, share of the cup's radius (own).
const NURSING_SHARE: f64 = 0.62;

use super::filling::lining;

/// What one layer is called and how it is cut.
#[derive(Clone, Copy)]
struct Of {
    layer: Layer,
    w: Widths,
}

impl Of {
    /// Key and name of a part in this layer.
    fn name(self, [shell, lining, mesh]: [(&'static str, &'static str); 3]) -> (&'static str, &'static str) {
        match self.layer {
            Layer::Shell | Layer::Contrast => shell,
            Layer::Lining => lining,
            Layer::Mesh => mesh,
        }
    }
}

pub(super) fn add(
    job: &Job<'_>,
    block: &Block,
    cut: &Cut,
    wanted: &Wanted,
    shelf: Option<(&Cut, &Wanted)>,
    drawn: &mut Drawn,
) -> Result<(), Refusal> {
    let (inner_cut, inner) = shelf.unwrap_or((cut, wanted));
    check(job, block, wanted, inner)?;
    let shell = Of {
        layer: Layer::Shell,
        w: Widths::shell(job.design),
    };
    let lined = Of {
        layer: Layer::Lining,
        w: Widths::lining(job.design),
    };
    let mesh = Of {
        layer: Layer::Mesh,
        ..lined
    };
    fronts(job, block, cut, wanted, shell, drawn)?;
    drawn.pieces.push(back(job, block, cut, wanted, shell)?);
    if let Lower::Band(height) = wanted.lower {
        let parts = edges::band_parts(job, block, cut, wanted);
        drawn.pieces.push(band::piece(
            job,
            parts,
            height * job.k.shrink_lengthwise,
            wanted.is_hooked,
            !is_princess(job, block),
        )?);
    }
    if wanted.front == FrontUpper::Halter {
        halter_strap(job, drawn)?;
    }
    if wanted.back == BackUpper::Crossed
        && let Upper::Across(top) = &cut.back.upper
    {
        straps::add(job, block, top, drawn)?;
    }
    let cover = lining(job);
    if cover != LiningCover::None {
        fronts(job, block, inner_cut, inner, lined, drawn)?;
    }
    if cover == LiningCover::Full {
        drawn.pieces.push(back(job, block, inner_cut, inner, lined)?);
    }
    if wanted.mesh != Mesh::None {
        fronts(job, block, inner_cut, inner, mesh, drawn)?;
    }
    if wanted.mesh == Mesh::FrontAndWings {
        drawn.pieces.push(back(job, block, inner_cut, inner, mesh)?);
    }
    filling::pockets(
        job,
        &wanted.filling,
        &|share, more| place(job, block, inner_cut, share, more),
        drawn,
    )
}

/// What does not go together on a top whose lining is drawn as `inner`: as the top itself, or as a shelf.
fn check(job: &Job<'_>, block: &Block, wanted: &Wanted, inner: &Wanted) -> Result<(), Refusal> {
    let refuse = |parameter, why| Err(Refusal::Combination { parameter, why });
    let is_lined = lining(job) != LiningCover::None;
    let filling = &wanted.filling;
    filling::check(job, filling)?;
    if inner.is_nursing {
        if !is_lined {
            return refuse(
                words::NURSING.key,
                "the lining holds a nursing top while its front is lifted; set lining to \"front\" or \"full\"",
            );
        }
        if job.design.cups != Cups::None || filling.prosthesis.is_some() {
            return refuse(
                words::NURSING.key,
                "the openings to nurse through lie where cups and pockets would; set cups and prosthesis_pocket to \"none\"",
            );
        }
        if is_princess(job, block) {
            return refuse(
                words::NURSING.key,
                "a free front is cut in one; set bust_shaping to \"side-dart\"",
            );
        }
        if wanted.is_nursing && !matches!(wanted.lower, Lower::Band(_)) {
            return refuse(
                words::NURSING.key,
                "the free front hangs over a band; set lower_edge to \"band\"",
            );
        }
    }
    Ok(())
}

fn fronts(
    job: &Job<'_>,
    block: &Block,
    cut: &Cut,
    wanted: &Wanted,
    of: Of,
    drawn: &mut Drawn,
) -> Result<(), Refusal> {
    match &block.dart {
        Some(dart) if is_princess(job, block) => {
            let (centre, side) = panels(job, block, dart, cut, wanted, of)?;
            drawn.pieces.push(centre);
            drawn.pieces.push(side);
        }
        _ => drawn.pieces.push(front(job, block, cut, wanted, of)?),
    }
    Ok(())
}

/// How the lower edge of a piece is used, and its allowance.
fn lower_use(wanted: &Wanted, w: Widths) -> (EdgeUse, f64) {
    match wanted.lower {
        Lower::Band(_) => (EdgeUse::Seam, w.seam),
        Lower::Elastic => (EdgeUse::Open(OpenKind::Underbust), w.open),
        Lower::Hem => (EdgeUse::Hem, w.hem),
    }
}

/// The side seam from the lower edge, with the slit's edge first if there is one.
fn side_edges(
    mut b: PieceBuilder,
    name: &'static str,
    side: &Curve,
    wanted: &Wanted,
    w: Widths,
) -> PieceBuilder {
    let (slit, seam) = side.split_at(wanted.slit);
    if wanted.slit > 0.0 {
        b = b
            .edge("slit", EdgeUse::Hem, slit, w.side)
            .notch("slit", wanted.slit, "slit", false);
    }
    b.edge(
        name,
        EdgeUse::Seam,
        if wanted.slit > 0.0 { seam } else { side.clone() },
        w.side,
    )
}

/// The dart's lower side from the lower edge of the top.
fn side_low(dart: &Dart, cut: &Cut) -> Curve {
    let low = dart.side_low.split_at(cut.front_from).1;
    // The same point as the bottom's end, whatever the rounding of two splits.
    princess::starting_at(low, cut.front.side.start()).ending_at(dart.mouth_low)
}

fn front(job: &Job<'_>, block: &Block, cut: &Cut, wanted: &Wanted, of: Of) -> Result<Piece, Refusal> {
    let half = &cut.front;
    let (key, name) = of.name([
        ("front", "Front"),
        ("front_lining", "Front lining"),
        ("front_mesh", "Front mesh"),
    ]);
    let overlay = cut.overlay_bottom.as_ref().filter(|_| of.layer == Layer::Shell);
    let bottom = overlay.unwrap_or(&half.bottom);
    let (bottom_use, bottom_width) = match overlay {
        Some(_) => (EdgeUse::Hem, FREE_HEM),
        None => lower_use(wanted, of.w),
    };
    let mut b = PieceBuilder::new(key, name, true).edge("bottom", bottom_use, bottom.clone(), bottom_width);
    match &block.dart {
        Some(dart) => {
            let low = side_low(dart, cut);
            let mouth_up = dart.side_up.start();
            let along = low.length() - wanted.slit;
            b = side_edges(b, "side_low", &low, wanted, of.w)
                .edge(
                    "dart_low",
                    EdgeUse::Dart,
                    Curve::line(dart.mouth_low, dart.point),
                    0.0,
                )
                .edge("dart_up", EdgeUse::Dart, Curve::line(dart.point, mouth_up), 0.0)
                .edge("side_up", EdgeUse::Seam, dart.side_up.clone(), of.w.side)
                .cap(
                    "dart_low",
                    "dart_up",
                    one_piece::dart_cap(&low, dart.point, dart.mouth_low, mouth_up),
                )
                .notch("side_low", along, "dart", false)
                .notch("side_up", 0.0, "dart", false);
        }
        None => {
            b = side_edges(b, "side", &half.side, wanted, of.w);
            match &block.ease {
                Some(_) => {
                    for (along, key) in ease_notches(block, cut, wanted, true) {
                        b = b.notch("side", along, key, false);
                    }
                }
                // A shelf is shorter than its shell: its middle is not the shell's.
                None if wanted.is_shelf => {}
                None => {
                    b = b.notch(
                        "side",
                        0.5 * (half.side.length() - wanted.slit),
                        "side_middle",
                        false,
                    )
                }
            }
        }
    }
    b = upper_edges(b, half, wanted, of.w, true);
    b = b.edge(
        "fold",
        EdgeUse::Fold,
        Curve::line(half.upper.end(), bottom.start()),
        0.0,
    );
    b = lower_marks(b, bottom, wanted, true, overlay.is_some());
    if job.m.is_woman() {
        b = b.mark(Mark::Cross {
            at: Point::new(block.levels.bust_point_x, block.levels.bust_point_y),
            text: "bust point".into(),
        });
    }
    b = waist_mark(b, half, bottom, block);
    if wanted.is_nursing && of.layer == Layer::Lining {
        let place = place(job, block, cut, NURSING_SHARE, 0.0);
        b = place.mark(b, "nursing opening: cut out and bind")?;
    }
    b = filling::marks(b, job, &wanted.filling, of.layer, false, &|share, more| {
        place(job, block, cut, share, more)
    })?;
    b.build(&[(of.layer, 1, false)], job.cloth)
}

/// The front as a centre panel on the fold and two side panels, the dart closed into the seam between them.
fn panels(
    job: &Job<'_>,
    block: &Block,
    dart: &Dart,
    cut: &Cut,
    wanted: &Wanted,
    of: Of,
) -> Result<(Piece, Piece), Refusal> {
    let half = &cut.front;
    let Upper::Strapped { armhole, strap, neck } = &half.upper else {
        return Err(Refusal::Combination {
            parameter: "bust_shaping",
            why: "princess seams end at an armhole, and this front has none; use \"side-dart\"",
        });
    };
    let bust = dart.bust_point;
    let (arm_low, arm_up) = armhole.split_at(PRINCESS_AT * armhole.length());
    let close = -2.0 * (dart.intake / (2.0 * (dart.mouth_low - bust).hypot())).asin();
    let leaves = princess_from_fold(&half.bottom, bust, close);
    let (bottom_in, bottom_out) = half.bottom.split_at(leaves);
    let (k, q) = (arm_low.end(), bottom_in.end());
    let centre = princess::centre_panel(bust, k, q);
    let gap = dart.mouth_low - turn_about(dart.side_up.start(), bust, close);
    let closed = |p: Point| turn_about(p, bust, close) + gap;
    let side =
        princess::side_panel(bust, closed(k), q, close, &centre).map_err(|_| Refusal::Combination {
            parameter: "bust_shaping",
            why: "princess seams cannot be made to match on this body; set it to \"side-dart\"",
        })?;
    let side_up = princess::starting_at(dart.side_up.map(closed), dart.mouth_low);
    let arm_side = arm_low.map(closed);
    let (bottom_use, bottom_width) = lower_use(wanted, of.w);
    let arm_use = EdgeUse::Open(OpenKind::Armhole);
    let strap_name = strap_name(wanted.front);

    let (key, name) = of.name([
        ("centre_front", "Centre front"),
        ("centre_front_lining", "Centre front lining"),
        ("centre_front_mesh", "Centre front mesh"),
    ]);
    let low = centre.low.reversed();
    let low_length = low.length();
    let mut b = PieceBuilder::new(key, name, true)
        .edge("bottom", bottom_use, bottom_in.clone(), bottom_width)
        .edge("princess_low", EdgeUse::Seam, low, of.w.seam)
        .edge("princess_up", EdgeUse::Seam, centre.up.reversed(), of.w.seam)
        .edge("armhole", arm_use, arm_up.clone(), of.w.open)
        .edge(strap_name, EdgeUse::Seam, strap.clone(), of.w.seam)
        .edge("neck", EdgeUse::Open(OpenKind::Neckline), neck.clone(), of.w.open)
        .edge(
            "fold",
            EdgeUse::Fold,
            Curve::line(neck.end(), bottom_in.start()),
            0.0,
        )
        .notch("princess_low", low_length, "princess_bust", false)
        .notch("neck", neck.length(), "centre_front", false)
        .mark(arc_end(neck, neck_zone(wanted), 'f'))
        .mark(arc_end(
            &arm_up,
            arm_up.length(),
            if is_open_armed(wanted) { 'k' } else { 'j' },
        ))
        .mark(Mark::Cross {
            at: bust,
            text: "bust point".into(),
        });
    if matches!(wanted.lower, Lower::Band(_)) {
        b = b.notch("bottom", 0.0, "band_centre", false);
    }
    b = filling::marks(b, job, &wanted.filling, of.layer, true, &|share, more| {
        place(job, block, cut, share, more)
    })?;
    let centre_piece = b.build(&[(of.layer, 1, false)], job.cloth)?;

    let (key, name) = of.name([
        ("side_front", "Side front"),
        ("side_front_lining", "Side front lining"),
        ("side_front_mesh", "Side front mesh"),
    ]);
    // Closing the dart has turned the upper part against the lower one: in a short top laid half way between, so that neither leans.
    let lean = if wanted.lower == Lower::Hem {
        0.0
    } else {
        -0.5 * close
    };
    let laid = |c: &Curve| c.map(|p| turn_about(p, bust, lean));
    let (low, bottom_out, arm_side) = (laid(&side_low(dart, cut)), laid(&bottom_out), laid(&arm_side));
    let (side_up, seam_up, seam_low) = (laid(&side_up), laid(&side.up), laid(&side.low));
    let along = low.length() - wanted.slit;
    let up_length = seam_up.length();
    let mut b =
        PieceBuilder::new(key, name, false).edge("bottom", bottom_use, bottom_out.clone(), bottom_width);
    b = side_edges(b, "side_low", &low, wanted, of.w)
        .edge("side_up", EdgeUse::Seam, side_up, of.w.side)
        .edge("armhole", arm_use, arm_side.clone(), of.w.open)
        .edge("princess_up", EdgeUse::Seam, seam_up, of.w.seam)
        .edge("princess_low", EdgeUse::Seam, seam_low, of.w.seam)
        .notch("princess_up", up_length, "princess_bust", false)
        .notch("side_low", along, "dart", false)
        .mark(arc_end(&arm_side, UNDERARM_ZONE, 'h'));
    if wanted.lower == Lower::Elastic {
        b = b.mark(arc_end(&bottom_out, bottom_out.length(), 'o'));
    }
    let side_piece = b.build(&[(of.layer, 2, true)], job.cloth)?;
    Ok((centre_piece, side_piece))
}

/// Length along the lower edge, from the fold, to where a princess seam leaves it.
///
/// Under the bust point, but so much nearer to the fold that both panels' seams come out equally long by themselves: with the seam's
/// direction at the bust point turned by phi, two thirds of tan phi times the fall. For, to second order, a run over H that leaves its
/// ends at slopes s and 0 and moves aside by m H is longer than H by (0.133 s^2 - 0.2 m s + 1.2 m^2) H / 2, which is the centre's
/// 1.2 m^2 H / 2 at m = 2 s / 3 (own). In a long top no further than a short one's fall asks, or the panel would narrow to its hem.
fn princess_from_fold(bottom: &Curve, bust: Point, close: f64) -> f64 {
    let width = bottom.end().x.max(1.0);
    let fall = (bust.y - bottom.start().y).min(LONGEST_FALL);
    let x = bust.x - (close.abs() / 2.0).tan() * fall * (2.0 / 3.0);
    let share = (x / width).clamp(0.25, 0.60);
    let x = share * width;
    let total = bottom.length();
    crate::geometry::root(|s| bottom.at_length(s).0.x - x, 0.0, total).unwrap_or(share * total)
}

fn strap_name(front: FrontUpper) -> &'static str {
    match front {
        FrontUpper::Block => "shoulder",
        FrontUpper::Halter => "strap_end",
    }
}

/// Whether front armholes and the back's edge are one run, from strap to strap.
pub(super) fn is_open_armed(wanted: &Wanted) -> bool {
    wanted.back != BackUpper::Block
}

/// Length of the neckline's strap arc on one piece.
pub(super) fn neck_zone(wanted: &Wanted) -> f64 {
    if is_open_armed(wanted) { 0.0 } else { STRAP_ZONE }
}

fn back(job: &Job<'_>, block: &Block, cut: &Cut, wanted: &Wanted, of: Of) -> Result<Piece, Refusal> {
    let half = &cut.back;
    let (key, name) = of.name([
        ("back", "Back"),
        ("back_lining", "Back lining"),
        ("back_mesh", "Back mesh"),
    ]);
    let (bottom_use, bottom_width) = lower_use(wanted, of.w);
    let mut b = PieceBuilder::new(key, name, !wanted.is_hooked).edge(
        "bottom",
        bottom_use,
        half.bottom.clone(),
        bottom_width,
    );
    b = side_edges(b, "side", &half.side, wanted, of.w);
    if let Some(dart) = &block.dart {
        b = b.notch("side", side_low(dart, cut).length() - wanted.slit, "dart", false);
    } else if block.ease.is_some() {
        for (along, key) in ease_notches(block, cut, wanted, false) {
            b = b.notch("side", along, key, false);
        }
    } else if !wanted.is_shelf {
        b = b.notch(
            "side",
            0.5 * (half.side.length() - wanted.slit),
            "side_middle",
            false,
        );
    }
    b = upper_edges(b, half, wanted, of.w, false);
    let centre = Curve::line(half.upper.end(), half.bottom.start());
    b = if wanted.is_hooked {
        b.edge("centre_back", EdgeUse::Raw, centre, HOOK_FACING)
    } else {
        b.edge("fold", EdgeUse::Fold, centre, 0.0)
    };
    b = lower_marks(b, &half.bottom, wanted, false, false);
    b = waist_mark(b, half, &half.bottom, block);
    if wanted.back == BackUpper::Crossed
        && let Upper::Across(top) = &half.upper
    {
        b = straps::attachment_mark(b, top);
    }
    let cuts = if wanted.is_hooked {
        (of.layer, 2, true)
    } else {
        (of.layer, 1, false)
    };
    b.build(&[cuts], job.cloth)
}

/// Armhole, strap and neckline, or the one edge, with their notches and arc marks.
fn upper_edges(mut b: PieceBuilder, half: &Half, wanted: &Wanted, w: Widths, is_front: bool) -> PieceBuilder {
    match &half.upper {
        Upper::Strapped { armhole, strap, neck } => {
            let (arm_key, centre) = if is_front {
                ("armhole_front", "centre_front")
            } else {
                ("armhole_back", "centre_back")
            };
            let (neck_letter, arm_letter) = if is_front { ('f', 'h') } else { ('e', 'i') };
            let at_strap = if is_open_armed(wanted) { 'k' } else { 'j' };
            let strap_name = if is_front {
                strap_name(wanted.front)
            } else {
                "shoulder"
            };
            b = b
                .edge(
                    "armhole",
                    EdgeUse::Open(OpenKind::Armhole),
                    armhole.clone(),
                    w.open,
                )
                .edge(strap_name, EdgeUse::Seam, strap.clone(), w.seam)
                .edge("neck", EdgeUse::Open(OpenKind::Neckline), neck.clone(), w.open)
                .notch("armhole", 0.5 * armhole.length(), arm_key, !is_front)
                .notch("neck", neck.length(), centre, false)
                .mark(arc_end(neck, neck_zone(wanted), neck_letter))
                .mark(arc_end(armhole, UNDERARM_ZONE, arm_letter))
                .mark(arc_end(armhole, armhole.length(), at_strap));
            if !is_front {
                b = b.mark(arc_end(neck, neck.length(), 'g'));
            }
            b
        }
        Upper::Across(top) => b
            .edge("top", EdgeUse::Open(OpenKind::Armhole), top.clone(), w.open)
            .notch("top", top.length(), "centre_back", false)
            .mark(arc_end(top, UNDERARM_ZONE, 'i')),
    }
}

/// Notches and arc marks along the lower edge, which runs from the fold to the side.
fn lower_marks(
    mut b: PieceBuilder,
    bottom: &Curve,
    wanted: &Wanted,
    is_front: bool,
    is_free: bool,
) -> PieceBuilder {
    match wanted.lower {
        Lower::Band(_) if !is_free => {
            let half = 0.5 * bottom.length();
            b = if is_front {
                b.notch("bottom", half, "band_front", false)
                    .notch("bottom", 0.0, "band_centre", false)
            } else {
                b.notch("bottom", half, "band_back", true)
            };
        }
        Lower::Elastic => {
            b = b.mark(arc_end(bottom, bottom.length(), 'o'));
            if !is_front {
                b = b.mark(arc_end(bottom, 0.0, 'p'));
            }
        }
        Lower::Band(_) | Lower::Hem => {}
    }
    b
}

/// Where ease of the front side begins and ends, from the lower edge or the slit, on front or back.
fn ease_notches(block: &Block, cut: &Cut, wanted: &Wanted, is_front: bool) -> [(f64, &'static str); 2] {
    let (amount, from, to) = block.ease.map_or((0.0, 0.0, 0.0), |e| (e.amount, e.from, e.to));
    let least = cut.front_from + wanted.slit + 8.0;
    let from = from.max(least);
    let to = to.max(from + 15.0);
    let low = cut.front_from + wanted.slit;
    let end = if is_front { to } else { to - amount };
    [(from - low, "ease_from"), (end - low, "ease_to")]
}

fn waist_mark(b: PieceBuilder, half: &Half, bottom: &Curve, block: &Block) -> PieceBuilder {
    let mut b = b;
    let fold = Curve::line(half.upper.end(), bottom.start());
    let outline: Vec<Point> = match &half.upper {
        Upper::Strapped { armhole, strap, neck } => vec![bottom, &half.side, armhole, strap, neck, &fold],
        Upper::Across(top) => vec![bottom, &half.side, top, &fold],
    }
    .into_iter()
    .flat_map(|c| c.flatten(0.5))
    .collect();
    for (y, text) in [(0.0, "waist"), (block.levels.high_hip_y, "high hip")] {
        if y > bottom.start().y.max(half.side.start().y) + 5.0
            && let Some(mark) = level_line(&outline, y, text)
        {
            b = b.mark(mark);
        }
    }
    b
}

/// Where a cup lies on the top, its radius times `share` and `more` mm.
fn place(job: &Job<'_>, block: &Block, cut: &Cut, share: f64, more: f64) -> CupPlace {
    let mut fences = vec![cut.front.bottom.clone()];
    match &cut.front.upper {
        Upper::Strapped { armhole, neck, .. } => fences.extend([armhole.clone(), neck.clone()]),
        Upper::Across(top) => fences.push(top.clone()),
    }
    fences.push(match &block.dart {
        Some(dart) => side_low(dart, cut),
        None => cut.front.side.clone(),
    });
    CupPlace {
        least_x: cups::OFF_FOLD,
        centre: Point::new(block.levels.bust_point_x, block.levels.bust_point_y),
        radius: (cups::radius(job) * share + more) * job.k.x(units::Level::Bust),
        fences,
    }
}

/// The two straps of a halter: behind the neck to the middle, and on to tie or to hook.
fn halter_strap(job: &Job<'_>, drawn: &mut Drawn) -> Result<(), Refusal> {
    let is_tied = job.word(&words::NECK_STRAP)? == "tied";
    if is_tied {
        crate::style::refuse_ties(job, words::NECK_STRAP.key)?;
    }
    let around = 0.35 * job.m.neck_base * job.k.y(1.0);
    let beyond = if is_tied {
        TIE * job.k.shrink_lengthwise
    } else {
        HOOK_FACING
    };
    let piece = band::strip(
        job,
        ("neck_strap", "Neck strap"),
        (HALTER_STRAP, around + beyond),
        Some((around, "middle of the neck")),
        2,
    )?;
    drawn.seams.push(crate::suit::SeamWalk {
        name: "neck strap",
        first: ("neck_strap".into(), vec!["end"]),
        second: ("front".into(), vec!["strap_end"]),
        // The strip is folded: its end is sewn as half its width.
        first_mm: 0.5 * piece.edge("end").map_or(0.0, |e| e.curve.length()),
        second_mm: HALTER_STRAP,
        sewn_ease_mm: 0.0,
    });
    drawn.pieces.push(piece);
    drawn.finished.push(crate::suit::FinishedMeasure::new((
        "strap_length",
        "each neck strap, front to the middle of the neck",
        around,
        8.0,
    )));
    Ok(())
}
