//! The sun suit: a one-piece with set-in sleeves, a collar and a zip down the front, for those who must be covered.
//!
//! The block's own torso, tied to the trunk loop, with the upper edges of a sleeved top. The front is cut in two so that the zip lies in
//! its centre seam; open, it lets shoulders and hips in where no neckline would.
//!
//! **Source.** Construction own; zip with a shield behind it: common practice, no single source.
//! **Limits.** Legs cut as a brief's, low; no legs of their own. No dart: a bust's extra length is eased, at most 12 mm on the body. Not
//! proved by sewing.

use body::BodyForm;
use cloth::{Fit, Layer};
use kurbo::Point;
use units::{Finding, Severity};

use super::closure::small_part;
use super::one_piece::{leg_marks, side_notches};
use super::open_edges::{around_share, leg_edge, opening};
use super::rash_body::{DROP, across_held};
use super::rash_top::{COLLAR_HEIGHT, FULLNESS, SLEEVE, sleeve_reach};
use super::sleeve::{NeckRoom, Sleeve, SleeveReach, sleeved_top};
use super::sleeve_pieces::{
    band_piece, shield_piece, sleeve_measures, sleeve_piece, sleeve_seams, wrist_opening,
};
use super::torso::{Torso, trunk_measures};
use super::{Drawn, Family, Job, Reach, StyleSpec, Widths, lining};
use crate::block::{Block, BustWork, MOST_EASE};
use crate::build::{PieceBuilder, level_line};
use crate::parameter::{Parameter, Shared};
use crate::piece::{EdgeUse, OpenKind, Piece};
use crate::refusal::Refusal;
use crate::suit::{FinishedMeasure, OpeningKind, SeamWalk};

const LEG: Parameter = Parameter::share(
    "leg_below_waist",
    "Leg",
    "how far below the waist the leg begins at the side, as a share of waist to hip: a sun suit covers",
    (0.60, 0.95, 1.0),
);
const ZIP: Parameter = Parameter::share(
    "front_zip_share",
    "Zip",
    "how far down the centre front the zip goes, as a share of neckline to crotch seam",
    (0.40, 0.70, 0.85),
);

pub(super) const STYLE: StyleSpec = StyleSpec {
    key: "sun-suit",
    name: "Sun suit",
    says: "a one-piece with sleeves and a collar, closed by a zip down the front",
    family: Family::OnePiece,
    wearers: &[BodyForm::Child, BodyForm::Woman],
    shared: &[Shared::Seat, Shared::Crotch],
    own: &[SLEEVE, FULLNESS, COLLAR_HEIGHT, LEG, ZIP],
    has_trunk_loop: true,
    needs_ties: false,
    usual_fit: Fit::Relaxed,
    parts: None,
    draw,
};

/// Draws the suit.
///
/// # Errors
/// Any [`Refusal`] of block, sleeve or pieces.
fn draw(job: &Job<'_>) -> Result<Drawn, Refusal> {
    let mut drawn = Drawn::default();
    let leg = job.number(&LEG)?;
    let most = MOST_EASE * job.k.y(1.0);
    let mut torso = Torso::draw_with(job, Reach::Whole, &mut drawn.findings, |shape| {
        shape.drop = DROP;
        shape.leg_share = leg;
        if let BustWork::Dart(_) = shape.bust {
            shape.bust = BustWork::Ease(most);
        }
    })?;
    // A dart is not offered here, so neither is a princess seam in its place.
    drawn.findings.retain(|f| f.code != "draft.princess_offered");
    with_sleeves(job, &mut torso.block)?;
    let block = &torso.block;
    let (front_mm, back_mm) = (block.front.armhole.length(), block.back.armhole.length());
    let reach = sleeve_reach(job)?;
    let sleeve = Sleeve::draw(job, front_mm + back_mm, job.number(&FULLNESS)?, reach)?;
    let zip = job.number(&ZIP)? * block.front.fold.length();
    let neck = (block.front.neck.length(), block.back.neck.length());

    drawn.pieces.push(front(job, block, zip)?);
    drawn.pieces.push(back(job, block)?);
    let sleeve_cut = sleeve_piece(job, &sleeve, false, (front_mm, back_mm))?;
    drawn.seams = seams(block, &sleeve, &sleeve_cut);
    drawn.pieces.push(sleeve_cut);
    let band_height = job.number(&COLLAR_HEIGHT)? * job.k.shrink_lengthwise;
    drawn.pieces.push(band_piece(job, neck, band_height, true)?);
    drawn.pieces.push(shield_piece(job, zip)?);
    small_part(job, "the slider of a zip", &mut drawn);
    drawn.pieces.push(lining::crotch(job, &block.front, &block.back)?);

    drawn
        .open_edges
        .push(leg_edge(job, &block.front.leg, &block.back.leg));
    openings(job, block, &sleeve, (reach, zip), &mut drawn);
    finished(block, &sleeve, zip, &mut drawn);
    drawn.findings.push(Finding {
        code: "draft.front_zip",
        severity: Severity::Good,
        place: "front".into(),
        message: format!(
            "the zip opens {} of the centre front; a closed-end zip with an automatic slider, pulled up to the collar's top",
            units::Mm::new(zip).to_cm_text()
        ),
        value: Some(zip),
        limit: None,
        remedy: String::new(),
    });
    torso.finish(job, &mut drawn)?;
    Ok(drawn)
}

/// Puts the upper edges of a sleeved top on the block.
fn with_sleeves(job: &Job<'_>, block: &mut Block) -> Result<(), Refusal> {
    let levels = block.levels.clone();
    for (is_front, half) in [(true, &mut block.front), (false, &mut block.back)] {
        let under = (half.side.end(), half.side.end_tangent());
        let top = sleeved_top((job.m, job.k, &levels), is_front, under, NeckRoom::default())?;
        let (key, says) = across_held(is_front);
        job.branches.note(top.is_across_held, key, says);
        half.fold = crate::geometry::Curve::line(top.neck.end(), half.crotch.start());
        (half.armhole, half.shoulder, half.neck) = (top.armhole, top.shoulder, top.neck);
    }
    Ok(())
}

fn front(job: &Job<'_>, block: &Block, zip: f64) -> Result<Piece, Refusal> {
    let half = &block.front;
    let w = Widths::shell(job.design);
    let mut b = PieceBuilder::new("front", "Front", false)
        .edge("crotch", EdgeUse::Seam, half.crotch.clone(), w.crotch)
        .edge("leg", EdgeUse::Open(OpenKind::Leg), half.leg.clone(), w.open)
        .edge("side", EdgeUse::Seam, half.side.clone(), w.side)
        .edge("armhole", EdgeUse::Seam, half.armhole.clone(), w.seam)
        .edge("shoulder", EdgeUse::Seam, half.shoulder.clone(), w.seam)
        .edge("neck", EdgeUse::Seam, half.neck.clone(), w.seam)
        .edge("centre", EdgeUse::Seam, half.fold.clone(), w.seam)
        .notch("armhole", 0.5 * half.armhole.length(), "armhole_front", false)
        .notch("centre", zip, "zip_end", false);
    if let Some(ease) = &block.ease {
        b = b
            .notch("side", ease.from, "ease_from", false)
            .notch("side", ease.to, "ease_to", false);
    }
    b = side_notches(b, block, true);
    b = leg_marks(b, &half.leg, ['a', 'b']);
    b = level_marks(b, block, true);
    b = lining::end_mark(b, half, true);
    b.build(&[(Layer::Shell, 2, true)], job.cloth)
}

fn back(job: &Job<'_>, block: &Block) -> Result<Piece, Refusal> {
    let half = &block.back;
    let w = Widths::shell(job.design);
    let mut b = PieceBuilder::new("back", "Back", true)
        .edge("crotch", EdgeUse::Seam, half.crotch.clone(), w.crotch)
        .edge("leg", EdgeUse::Open(OpenKind::Leg), half.leg.clone(), w.open)
        .edge("side", EdgeUse::Seam, half.side.clone(), w.side)
        .edge("armhole", EdgeUse::Seam, half.armhole.clone(), w.seam)
        .edge("shoulder", EdgeUse::Seam, half.shoulder.clone(), w.seam)
        .edge("neck", EdgeUse::Seam, half.neck.clone(), w.seam)
        .edge("fold", EdgeUse::Fold, half.fold.clone(), 0.0)
        .notch("armhole", 0.5 * half.armhole.length(), "armhole_back", true)
        .notch("neck", half.neck.length(), "centre_back", false);
    b = side_notches(b, block, false);
    b = leg_marks(b, &half.leg, ['d', 'c']);
    b = level_marks(b, block, false);
    b = lining::end_mark(b, half, false);
    b.build(&[(Layer::Shell, 1, false)], job.cloth)
}

fn level_marks(mut b: PieceBuilder, block: &Block, is_front: bool) -> PieceBuilder {
    let half = if is_front { &block.front } else { &block.back };
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
    for (y, text) in [(0.0, "waist"), (block.levels.hip_y, "hip")] {
        if let Some(mark) = level_line(&outline, y, text) {
            b = b.mark(mark);
        }
    }
    b
}

fn seams(block: &Block, sleeve: &Sleeve, sleeve_piece: &Piece) -> Vec<SeamWalk> {
    let (f, b) = (&block.front, &block.back);
    let ease = block.ease.map_or(0.0, |e| e.amount);
    let mut walks: Vec<SeamWalk> = [
        ("side", "side", (f.side.length(), b.side.length(), ease)),
        (
            "crotch",
            "crotch",
            (2.0 * f.crotch.length(), 2.0 * b.crotch.length(), 0.0),
        ),
        (
            "shoulder",
            "shoulder",
            (f.shoulder.length(), b.shoulder.length(), 0.0),
        ),
    ]
    .map(|(name, edge, lengths)| SeamWalk::of(name, ("front", edge), ("back", edge), lengths))
    .to_vec();
    let centre = f.fold.length();
    walks.push(SeamWalk::of(
        "centre front",
        ("front", "centre"),
        ("front", "centre"),
        (centre, centre, 0.0),
    ));
    let neck = 2.0 * (f.neck.length() + b.neck.length());
    walks.extend(sleeve_seams(
        sleeve,
        sleeve_piece,
        (f.armhole.length(), b.armhole.length()),
        Some(neck),
    ));
    walks
}

/// With the zip open, hips and shoulders pass neckline and both its sides; legs and wrists as ever.
fn openings(
    job: &Job<'_>,
    block: &Block,
    sleeve: &Sleeve,
    (reach, zip): (SleeveReach, f64),
    drawn: &mut Drawn,
) {
    let (f, b) = (&block.front, &block.back);
    let widest = job.m.hip.max(job.m.over_the_shoulders());
    let neck = 2.0 * (f.neck.length() + b.neck.length());
    let ring = opening(
        job,
        OpeningKind::NecklineRing,
        neck,
        (widest - 2.0 * zip).max(1.0),
        around_share(&[&f.neck, &b.neck]),
    );
    let waist = 2.0 * (f.profile.at(0.0) + b.profile.at(0.0));
    drawn.openings.extend([
        opening(job, OpeningKind::Waist, waist, job.m.hip, 1.0),
        ring,
        opening(
            job,
            OpeningKind::Leg,
            f.leg.length() + b.leg.length(),
            job.m.thigh,
            around_share(&[&f.leg, &b.leg]),
        ),
    ]);
    if reach == SleeveReach::Wrist {
        drawn.openings.push(wrist_opening(job, sleeve));
    }
}

fn finished(block: &Block, sleeve: &Sleeve, zip: f64, drawn: &mut Drawn) {
    let (f, b) = (&block.front, &block.back);
    let [bust, waist, above_leg, side, centre_front, leg, crotch] = trunk_measures(block);
    let list = [
        bust,
        waist,
        above_leg,
        side,
        centre_front,
        (
            "centre_back",
            "centre back, neckline to crotch seam",
            b.fold.length(),
            5.0,
        ),
        ("zip", "zip, neckline to its end", zip, 4.0),
        leg,
        crotch,
        (
            "neckline",
            "neckline, once round",
            2.0 * (f.neck.length() + b.neck.length()),
            6.0,
        ),
    ];
    drawn.finished.extend(list.map(FinishedMeasure::new));
    drawn
        .finished
        .extend(sleeve_measures(sleeve, f.armhole.length() + b.armhole.length()));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Design;
    use crate::check_values::{measures, plan};
    use crate::style::Style;

    #[test]
    fn the_open_zip_lets_a_child_in() {
        let design = Design::of(Style::SUN_SUIT);
        let suit = crate::draft::draft_measures(&measures("child8"), &plan(0.85, 0.60), &design).unwrap();
        let ring = suit
            .openings
            .iter()
            .find(|o| o.kind == OpeningKind::NecklineRing)
            .unwrap();
        assert!(ring.passes_mm <= ring.rest_mm, "{ring:?}");
        // Covered: the side is longer than a one-piece's with its usual leg.
        let plain = Design {
            fit: Fit::Relaxed,
            ..Design::default()
        };
        let plain = crate::draft::draft_measures(&measures("child8"), &plan(0.85, 0.60), &plain).unwrap();
        let side = |s: &crate::Draft| s.seams.iter().find(|s| s.name == "side").unwrap().second_mm;
        assert!(side(&suit) > side(&plain) + 20.0);
        // The trunk loop is the body's all the same.
        let drafted = |s: &crate::Draft| s.trunk.unwrap().drafted_mm.unwrap();
        assert!((drafted(&suit) - drafted(&plain)).abs() < 1e-6);
    }
}
