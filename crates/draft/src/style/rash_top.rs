//! The rash top: front and back on the fold down to the hip, set-in sleeves, a collar band or a turned neckline, a half zip.
//!
//! It hangs from the shoulders and is pulled on over the head, so it is not tied to the trunk loop. Extra length over the bust is eased into the front side, at most 12 mm on the body, and said as the side seam's sewn ease.
//!
//! **Source.** Construction own; own check values in `data/draft`. Collar band of doubled cloth cut shorter than the neckline, half zip
//! with a shield behind it: common practice, no single source. The hand's girth: value from memory.
//! **Limits.** No dart: on a very full bust the hem lifts in front. Nobody has pulled one on for these.

use body::BodyForm;
use cloth::{Fit, Layer};
use kurbo::Point;
use units::{Finding, Level, Limit, Severity};

use super::open_edges::{around_share, opening};
use super::rash_body::{RashBody, head_girth};
use super::sleeve::{Sleeve, SleeveReach};
use super::sleeve_pieces::{BAND_RATIO, band_piece, end_use, shield_piece, sleeve_piece};
use super::{Drawn, Family, Job, StyleSpec, Widths};
use crate::build::{PieceBuilder, arc_end, level_line, placement};
use crate::parameter::{Parameter, Word};
use crate::piece::{EdgeUse, Mark, OpenKind, Piece};
use crate::refusal::Refusal;
use crate::suit::{EdgeArc, FinishedMeasure, LevelWidth, OpenEdge, OpeningKind, SeamWalk, TrunkLoop};
use crate::trunk;

/// A hand with its thumb folded in over the wrist's girth: hand girth is about 1.2 of the wrist's in adults (value from memory), and the
/// thumb a tenth more (own).
pub(super) const HAND_OVER_WRIST: f64 = 1.32;
pub(super) const SLEEVE: Parameter = Parameter::choice(
    "sleeve",
    "Sleeve",
    "how far down the arm the sleeve goes",
    &[
        Word::new("long", "Long", "to the wrist"),
        Word::new("elbow", "To the elbow", "a little above the elbow"),
        Word::new("short", "Short", "half way to the elbow"),
    ],
);
pub(super) const FULLNESS: Parameter = Parameter::share(
    "sleeve_fullness",
    "Sleeve fullness",
    "the sleeve's width over the upper arm's before the stretch is taken off; a fuller sleeve has a lower cap and reaches overhead more easily",
    (1.0, 1.02, 1.25),
);
const BODY_LENGTH: Parameter = Parameter::share(
    "body_length",
    "Length",
    "how far below the waist the hem lies at the side, as a share of waist to hip",
    (0.30, 0.95, 1.15),
);
const FINISH: Parameter = Parameter::choice(
    "neck_finish",
    "Neck",
    "how the neckline is finished",
    &[
        Word::new(
            "band",
            "Collar band",
            "doubled cloth, cut shorter than the neckline so that it stands",
        ),
        Word::new("turned", "Turned", "turned over elastic, close at the neck base"),
    ],
);
pub(super) const BAND_HEIGHT: Parameter = Parameter::length(
    "collar_height",
    "Collar",
    "finished height of the collar band; it is cut twice that",
    (15.0, 25.0, 60.0),
);
const LOWERED: Parameter = Parameter::length(
    "front_neck_lowered",
    "Front neck lower by",
    "how far below the neck base the front neckline lies, on the body",
    (0.0, 0.0, 60.0),
);
const ZIP: Parameter = Parameter::switch(
    "front_zip",
    "Half zip",
    "a zip at the centre front from the neckline down, so that the head passes easily",
    false,
);
const ZIP_LENGTH: Parameter = Parameter::length(
    "front_zip_length",
    "Zip",
    "how far the zip opens",
    (80.0, 180.0, 350.0),
);
const ELASTIC: Parameter = Parameter::switch(
    "elastic_ends",
    "Elastic in hem and sleeves",
    "elastic in the hem and the sleeves' ends, so that the top does not ride up in the water; else they are plain hems",
    false,
);

pub(super) const STYLE: StyleSpec = StyleSpec {
    key: "rash-top",
    name: "Rash top",
    says: "a close top with sleeves against sun and board, pulled on over the head",
    family: Family::RashTop,
    wearers: &[BodyForm::Woman, BodyForm::Man, BodyForm::Child],
    shared: &[],
    own: &[
        SLEEVE,
        FULLNESS,
        BODY_LENGTH,
        FINISH,
        BAND_HEIGHT,
        LOWERED,
        ZIP,
        ZIP_LENGTH,
        ELASTIC,
    ],
    has_trunk_loop: false,
    needs_ties: false,
    usual_fit: Fit::Relaxed,
    draw,
};

/// How far down the arm the sleeve goes, by the maker's word.
pub(super) fn sleeve_reach(job: &Job<'_>) -> Result<SleeveReach, Refusal> {
    Ok(match job.word(&SLEEVE)? {
        "short" => SleeveReach::Share(0.26),
        "elbow" => SleeveReach::Share(0.50),
        _ => SleeveReach::Wrist,
    })
}

/// What the maker chose.
struct Chosen {
    reach: SleeveReach,
    fullness: f64,
    is_banded: bool,
    band_height: f64,
    zip: Option<f64>,
    has_elastic: bool,
}

impl Chosen {
    fn of(job: &Job<'_>) -> Result<Chosen, Refusal> {
        let reach = sleeve_reach(job)?;
        let zip = job.number(&ZIP_LENGTH)?;
        Ok(Chosen {
            reach,
            fullness: job.number(&FULLNESS)?,
            is_banded: job.word(&FINISH)? == "band",
            band_height: job.number(&BAND_HEIGHT)? * job.k.shrink_lengthwise,
            zip: job.is_on(&ZIP)?.then_some(zip * job.k.shrink_lengthwise),
            has_elastic: job.is_on(&ELASTIC)?,
        })
    }
}

/// Draws the top.
///
/// # Errors
/// Any [`Refusal`] of levels, sleeve or pieces.
fn draw(job: &Job<'_>) -> Result<Drawn, Refusal> {
    let mut drawn = Drawn::default();
    let chosen = Chosen::of(job)?;
    let trunk = trunk::untied(job.m);
    let body = RashBody::draw(job, &trunk, job.number(&BODY_LENGTH)?, job.number(&LOWERED)?)?;
    let (front_mm, back_mm) = (body.front.armhole.length(), body.back.armhole.length());
    let sleeve = Sleeve::draw(job, front_mm + back_mm, chosen.fullness, chosen.reach)?;
    if let Some(zip) = chosen.zip {
        let room = body.front.fold().length() - 40.0;
        if zip > room {
            return Err(Refusal::Parameter {
                parameter: ZIP_LENGTH.key,
                value: zip,
                low: 80.0,
                high: room,
                unit: "mm",
                why: "a half zip ends at least 4 cm above the hem",
            });
        }
    }

    for is_front in [true, false] {
        drawn.pieces.push(body_piece(job, &body, &chosen, is_front)?);
    }
    drawn.pieces.push(sleeve_piece(
        job,
        &sleeve,
        chosen.has_elastic,
        (front_mm, back_mm),
    )?);
    let band_mm = BAND_RATIO * body.neck_mm();
    if chosen.is_banded {
        let neck = (body.front.neck.length(), body.back.neck.length());
        drawn
            .pieces
            .push(band_piece(job, neck, chosen.band_height, chosen.zip.is_some())?);
    }
    if let Some(zip) = chosen.zip {
        drawn.pieces.push(shield_piece(job, zip)?);
    }

    seams(&body, &sleeve, &chosen, band_mm, &mut drawn);
    edges(job, &body, &sleeve, &chosen, &mut drawn);
    openings(job, &body, &sleeve, &chosen, band_mm, &mut drawn);
    levels(job, &body, &mut drawn);
    finished(&body, &sleeve, &chosen, &mut drawn);
    findings(job, &body, &chosen, &trunk, &mut drawn.findings);
    Ok(drawn)
}

fn body_piece(job: &Job<'_>, body: &RashBody, chosen: &Chosen, is_front: bool) -> Result<Piece, Refusal> {
    let w = Widths::shell(job.design);
    let (key, name, half) = if is_front {
        ("front", "Front", &body.front)
    } else {
        ("back", "Back", &body.back)
    };
    let (hem, hem_width) = end_use(chosen.has_elastic, OpenKind::Hem, &w);
    let (neck, neck_width) = if chosen.is_banded {
        (EdgeUse::Seam, w.seam)
    } else {
        (EdgeUse::Open(OpenKind::Neckline), w.open)
    };
    let fold = half.fold();
    let outline: Vec<Point> = [
        &half.hem,
        &half.side,
        &half.armhole,
        &half.shoulder,
        &half.neck,
        &fold,
    ]
    .into_iter()
    .flat_map(|c| c.flatten(0.5))
    .collect();
    let (armhole_key, centre) = if is_front {
        ("armhole_front", "centre_front")
    } else {
        ("armhole_back", "centre_back")
    };
    let mut b = PieceBuilder::new(key, name, true)
        .edge("hem", hem, half.hem.clone(), hem_width)
        .edge("side", EdgeUse::Seam, half.side.clone(), w.side)
        .edge("armhole", EdgeUse::Seam, half.armhole.clone(), w.seam)
        .edge("shoulder", EdgeUse::Seam, half.shoulder.clone(), w.seam)
        .edge("neck", neck, half.neck.clone(), neck_width)
        .edge("fold", EdgeUse::Fold, fold.clone(), 0.0)
        .notch("armhole", 0.5 * half.armhole.length(), armhole_key, !is_front)
        .notch("neck", half.neck.length(), centre, false)
        .notch("hem", 0.0, if is_front { "hem_front" } else { "hem_back" }, false);
    // The same lengths from the hem on both sides.
    if let Some(at) = body.front.side.length_to_height(0.0)
        && at > 15.0
    {
        b = b.notch("side", at, "waist", false);
    }
    if body.ease > 0.0 {
        let total = body.front.side.length();
        let from = body
            .levels
            .underbust_y(true)
            .unwrap_or(0.4 * body.levels.underarm_y);
        let from = body.front.side.length_to_height(from).unwrap_or(0.5 * total);
        let to = (total - 20.0).max(from + 20.0).min(total);
        let given = if is_front { 0.0 } else { body.ease };
        b = b
            .notch("side", from, "ease_from", false)
            .notch("side", to - given, "ease_to", false);
    }
    for (y, text) in [(0.0, "waist"), (body.levels.hip_y, "hip")] {
        if let Some(mark) = level_line(&outline, y, text) {
            b = b.mark(mark);
        }
    }
    if is_front && job.m.is_woman() {
        b = b.mark(Mark::Cross {
            at: Point::new(body.levels.bust_point_x, body.levels.bust_point_y),
            text: "bust point".into(),
        });
    }
    if !chosen.is_banded {
        b = b.mark(arc_end(&half.neck, 0.0, 'f'));
        if is_front == chosen.zip.is_some() {
            b = b.mark(arc_end(&half.neck, half.neck.length(), 'g'));
        }
    }
    if chosen.has_elastic {
        b = b.mark(arc_end(&half.hem, half.hem.length(), 'n'));
        if !is_front {
            b = b.mark(arc_end(&half.hem, 0.0, 'm'));
        }
    }
    if is_front && let Some(zip) = chosen.zip {
        let top = half.neck.end();
        b = b.mark(placement(
            top,
            Point::new(0.0, top.y - zip),
            "slit for the zip, on the fold; stay it before it is cut",
        ));
    }
    b.build(&[(Layer::Shell, 1, false)], job.cloth)
}

fn seams(body: &RashBody, sleeve: &Sleeve, chosen: &Chosen, band_mm: f64, drawn: &mut Drawn) {
    let walk =
        |name, first: (&str, &'static str), second: (&str, &'static str), first_mm, second_mm, ease| {
            SeamWalk {
                name,
                first: (first.0.into(), vec![first.1]),
                second: (second.0.into(), vec![second.1]),
                first_mm,
                second_mm,
                sewn_ease_mm: ease,
            }
        };
    let (f, b) = (&body.front, &body.back);
    let (cap_front, cap_back) = sleeve.cap(f.armhole.length());
    let side = sleeve.side.length();
    drawn.seams.extend([
        walk(
            "side",
            ("front", "side"),
            ("back", "side"),
            f.side.length(),
            b.side.length(),
            body.ease,
        ),
        walk(
            "shoulder",
            ("front", "shoulder"),
            ("back", "shoulder"),
            f.shoulder.length(),
            b.shoulder.length(),
            0.0,
        ),
        walk(
            "sleeve, front",
            ("sleeve", "cap_front"),
            ("front", "armhole"),
            cap_front.length(),
            f.armhole.length(),
            0.0,
        ),
        walk(
            "sleeve, back",
            ("sleeve", "cap_back"),
            ("back", "armhole"),
            cap_back.length(),
            b.armhole.length(),
            0.0,
        ),
        walk(
            "sleeve seam",
            ("sleeve", "side_front"),
            ("sleeve", "side_back"),
            side,
            side,
            0.0,
        ),
    ]);
    if chosen.is_banded {
        let neck = body.neck_mm();
        drawn.seams.push(walk(
            "collar",
            ("front and back", "neck"),
            ("collar", "neck"),
            neck,
            band_mm,
            neck - band_mm,
        ));
    }
}

fn edges(job: &Job<'_>, body: &RashBody, sleeve: &Sleeve, chosen: &Chosen, drawn: &mut Drawn) {
    let arc = |name, letter, length_mm| EdgeArc {
        name,
        letter,
        length_mm,
    };
    let radius = |girth: f64| girth / std::f64::consts::TAU;
    let (f, b) = (&body.front, &body.back);
    if !chosen.is_banded {
        let (front, back) = (f.neck.length(), b.neck.length());
        let arcs = if chosen.zip.is_some() {
            vec![
                arc("front", 'g', front),
                arc("back", 'f', 2.0 * back),
                arc("front", 'f', front),
            ]
        } else {
            vec![
                arc("back", 'g', back),
                arc("front", 'f', 2.0 * front),
                arc("back", 'f', back),
            ]
        };
        drawn.open_edges.push(OpenEdge {
            kind: OpenKind::Neckline,
            count: 1,
            is_ring: chosen.zip.is_none(),
            arcs,
            around_share: around_share(&[&f.neck, &b.neck]),
            worn_radius_mm: radius(job.m.neck_base),
        });
    }
    if chosen.has_elastic {
        let (front, back) = (f.hem.length(), b.hem.length());
        drawn.open_edges.push(OpenEdge {
            kind: OpenKind::Hem,
            count: 1,
            is_ring: true,
            arcs: vec![
                arc("back", 'm', back),
                arc("front", 'n', 2.0 * front),
                arc("back", 'n', back),
            ],
            around_share: around_share(&[&f.hem, &b.hem]),
            worn_radius_mm: radius(job.m.hip),
        });
        drawn.open_edges.push(OpenEdge {
            kind: OpenKind::Wrist,
            count: 2,
            is_ring: true,
            arcs: vec![arc("round", 'w', 2.0 * sleeve.half_end.length())],
            around_share: around_share(&[&sleeve.half_end]),
            worn_radius_mm: radius(match chosen.reach {
                SleeveReach::Wrist => job.m.arm.wrist_girth,
                SleeveReach::Share(_) => job.m.arm.upper_girth,
            }),
        });
    }
}

/// Hem, or the waist where that is the narrower way; neck over the head; wrist over the hand.
fn openings(
    job: &Job<'_>,
    body: &RashBody,
    sleeve: &Sleeve,
    chosen: &Chosen,
    band_mm: f64,
    drawn: &mut Drawn,
) {
    let (f, b) = (&body.front, &body.back);
    let hem = opening(
        job,
        OpeningKind::Hem,
        body.hem_mm(),
        job.m.over_the_shoulders(),
        1.0,
    );
    // The waist goes over the bust with the arms up, where the shoulders are no wider.
    let waist = opening(job, OpeningKind::Hem, 2.0 * body.across(0.0), job.m.bust, 1.0);
    let need = |o: &crate::suit::Opening| o.passes_mm / o.rest_mm;
    drawn
        .openings
        .push(if need(&waist) > need(&hem) { waist } else { hem });

    // An open zip adds both its sides to the ring, and does not stretch.
    let head = (head_girth(job.m) - 2.0 * chosen.zip.unwrap_or(0.0)).max(1.0);
    let share = around_share(&[&f.neck, &b.neck]);
    let neck = opening(job, OpeningKind::Head, body.neck_mm(), head, share);
    let stretch =
        |share: f64| job.cloth.around.ratio() * share + job.cloth.lengthwise.ratio() * (1.0 - share);
    let band = opening(job, OpeningKind::Head, band_mm, head, 1.0);
    let part = |o: &crate::suit::Opening| (need(o) - 1.0) / stretch(o.around_share);
    drawn
        .openings
        .push(if chosen.is_banded && part(&band) > part(&neck) {
            band
        } else {
            neck
        });

    if chosen.reach == SleeveReach::Wrist {
        drawn.openings.push(opening(
            job,
            OpeningKind::Wrist,
            2.0 * sleeve.half_end.length(),
            HAND_OVER_WRIST * job.m.arm.wrist_girth,
            around_share(&[&sleeve.half_end]),
        ));
    }
}

fn levels(job: &Job<'_>, body: &RashBody, drawn: &mut Drawn) {
    let l = &body.levels;
    let hem_y = body.front.side.start().y;
    let bust_y = l.bust_level(l.underarm_y);
    let waist = if job.m.is_navel {
        Level::Navel
    } else {
        Level::Waist
    };
    let mut all = vec![(Level::Bust, bust_y, job.m.bust)];
    if let Some(underbust) = job.m.underbust
        && job.m.is_woman()
    {
        all.push((Level::Underbust, 0.63 * bust_y, underbust));
    }
    all.extend([
        (waist, 0.0, job.m.waist),
        (Level::HighHip, l.high_hip_y, job.m.high_hip),
        (Level::Hip, l.hip_y, job.m.hip),
    ]);
    drawn.levels = all
        .into_iter()
        .filter(|(_, y, _)| *y > hem_y)
        .map(|(level, y_mm, body_mm)| LevelWidth {
            level,
            y_mm,
            body_mm,
            pattern_mm: 2.0 * body.across(y_mm) / job.k.shrink_around,
            meant: job.k.meant(level),
        })
        .collect();
}

fn finished(body: &RashBody, sleeve: &Sleeve, chosen: &Chosen, drawn: &mut Drawn) {
    let (f, b) = (&body.front, &body.back);
    let l = &body.levels;
    let bust_y = l.bust_level(l.underarm_y);
    let mut list = vec![
        (
            "across_bust",
            "across the bust, side seam to side seam",
            body.across(bust_y),
            5.0,
        ),
        (
            "across_waist",
            "across the waist, side seam to side seam",
            body.across(0.0),
            5.0,
        ),
        ("hem", "hem, once round", body.hem_mm(), 10.0),
        ("side_seam", "side seam, hem to underarm", b.side.length(), 4.0),
        (
            "centre_front",
            "centre front, neckline to hem",
            f.fold().length(),
            5.0,
        ),
        (
            "centre_back",
            "centre back, neckline to hem",
            b.fold().length(),
            5.0,
        ),
        ("shoulder_seam", "shoulder seam", f.shoulder.length(), 3.0),
        (
            "armhole",
            "armhole, once round",
            f.armhole.length() + b.armhole.length(),
            6.0,
        ),
        (
            "sleeve_width",
            "sleeve at the underarm, once round",
            sleeve.biceps,
            5.0,
        ),
        (
            "sleeve_length",
            "sleeve seam, underarm to end",
            sleeve.side.length(),
            5.0,
        ),
        (
            "sleeve_end",
            "sleeve end, once round",
            2.0 * sleeve.half_end.length(),
            4.0,
        ),
        (
            "cap_height",
            "sleeve cap, underarm line to its top",
            sleeve.cap_height,
            4.0,
        ),
        ("neckline", "neckline, once round", body.neck_mm(), 6.0),
    ];
    if chosen.is_banded {
        list.push((
            "collar_length",
            "collar band, end to end",
            BAND_RATIO * body.neck_mm(),
            5.0,
        ));
        list.push((
            "collar_height",
            "collar band, finished height",
            chosen.band_height,
            2.0,
        ));
    }
    drawn.finished.extend(list.into_iter().map(FinishedMeasure::new));
}

fn findings(job: &Job<'_>, body: &RashBody, chosen: &Chosen, trunk: &TrunkLoop, findings: &mut Vec<Finding>) {
    let head = head_girth(job.m);
    findings.push(Finding {
        code: "draft.head_estimated",
        severity: Severity::Watch,
        place: "neck".into(),
        message: format!(
            "the girth of the head is not taken; the neck is judged for {}",
            units::Mm::new(head).to_cm_text()
        ),
        value: Some(head),
        limit: None,
        remedy: "measure the head round the forehead; over that, take the half zip or a longer one".into(),
    });
    if let Some(zip) = chosen.zip {
        findings.push(Finding {
            code: "draft.half_zip",
            severity: Severity::Good,
            place: "neck".into(),
            message: format!(
                "the open zip adds {} to the neck opening",
                units::Mm::new(2.0 * zip).to_cm_text()
            ),
            value: Some(2.0 * zip),
            limit: None,
            remedy: String::new(),
        });
    }
    let difference = trunk.front_waist_mm - trunk::back_length(job.m);
    if job.m.is_woman() && difference > crate::block::TAKEN_BY_EASE {
        findings.push(Finding {
            code: "draft.bust_eased",
            severity: Severity::Watch,
            place: "bust".into(),
            message: format!(
                "the front is {difference:.0} mm longer over the bust than the back; {:.0} mm are eased into the side, the rest lifts the hem in front",
                body.ease
            ),
            value: Some(difference),
            limit: Some(Limit {
                text: "45 mm".into(),
                source: "own",
            }),
            remedy: "make the top a little longer, and sew a toile first".into(),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Design;
    use crate::check_values::{measures, plan};
    use crate::style::Style;

    #[test]
    fn an_open_zip_lets_the_head_through() {
        let m = measures("average");
        let cloth = plan(0.50, 0.32);
        let head = |zip: bool| {
            let mut design = Design::of(Style::RASH_TOP);
            design.own.set(&ZIP, crate::Setting::Yes(zip));
            let suit = crate::draft::draft_measures(&m, &cloth, &design).unwrap();
            assert_eq!(suit.pieces.iter().any(|p| p.key == "zip_shield"), zip);
            let neck = suit
                .openings
                .iter()
                .find(|o| o.kind == OpeningKind::Head)
                .unwrap();
            neck.passes_mm / neck.rest_mm - 1.0
        };
        assert!(head(false) > 0.5, "{}", head(false));
        assert!(head(true) <= 0.0, "{}", head(true));
    }
}
