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

use super::closure::small_part;
use super::motif::MOTIF_REPEAT;
use super::open_edges::{around_share, opening};
use super::rash_body::{RashBody, head_girth};
use super::sleeve::{NeckRoom, Sleeve, SleeveReach};
use super::sleeve_pieces::{
    BAND_RATIO, band_piece, end_use, shield_piece, sleeve_measures, sleeve_piece, sleeve_seams, wrist_opening,
};
use super::{Drawn, Family, Job, StyleSpec, Widths};
use crate::build::{PieceBuilder, arc_end, level_line, placement};
use crate::geometry::{Curve, root};
use crate::parameter::{Parameter, Word};
use crate::piece::{EdgeUse, Mark, OpenKind, Piece};
use crate::refusal::Refusal;
use crate::suit::{
    EdgeArc, FinishedMeasure, LevelWidth, OpenEdge, Opening, OpeningKind, SeamWalk, TrunkLoop,
};
use crate::trunk;

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
/// The sun suit's, which always has a collar band.
pub(super) const COLLAR_HEIGHT: Parameter = Parameter::length(
    "collar_height",
    "Collar",
    "finished height of the collar band; it is cut twice that",
    (15.0, 25.0, 60.0),
);
const BAND_HEIGHT: Parameter = COLLAR_HEIGHT.only_with(FINISH.key, &["band"]);
const LOWERED: Parameter = Parameter::length(
    "front_neck_lowered",
    "Front neck lower by",
    "how far below the neck base the front neckline lies, on the body",
    (0.0, 0.0, 60.0),
);
const ROOM: Parameter = Parameter::choice(
    "neck_room",
    "Room for the head",
    "what lets the head through where the neckline at the neck base would not in this cloth",
    &[
        Word::new(
            "as-needed",
            "As needed",
            "the neckline lies as much wider and lower as the head needs; a half zip where that is not enough",
        ),
        Word::new(
            "none",
            "None",
            "the neckline stays at the neck base: for a very soft cloth, or with a half zip of your choice",
        ),
    ],
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
)
.only_with(ZIP.key, &[]);
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
        ROOM,
        ZIP,
        ZIP_LENGTH,
        ELASTIC,
        MOTIF_REPEAT,
    ],
    has_trunk_loop: false,
    needs_ties: false,
    usual_fit: Fit::Relaxed,
    parts: None,
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
    /// How far the zip opens, if there is one.
    zip: Option<f64>,
    neck: NeckRoom,
    /// What the head made of the maker's neck.
    for_head: ForHead,
    has_elastic: bool,
}

/// What the head made of a neck.
#[derive(Clone, Copy, PartialEq, Eq)]
enum ForHead {
    /// It passes as it is, or the maker wants no room.
    Nothing,
    /// Wider and lower.
    Wider,
    /// A zip.
    Zip,
}

/// A neckline with all the room it may have lies this much further out on each shoulder, and lower in front and behind: shares of the neck
/// base girth (own): some 30, 36 and 8 mm on an adult, a plain round neck that still lies above the collar bones' ends.
const MOST_ROOM: NeckRoom = NeckRoom {
    out: 0.08,
    front: 0.095,
    back: 0.020,
};
/// Of what the neck can stretch, the head takes at most this share, so that it is pulled on with ease; with all the room, up to the second:
/// the limits an opening is judged by (own).
const HEAD_SHARES: (f64, f64) = (0.70, 0.85);

impl Chosen {
    fn of(job: &Job<'_>) -> Result<Chosen, Refusal> {
        let zip = job.number(&ZIP_LENGTH)?;
        Ok(Chosen {
            reach: sleeve_reach(job)?,
            fullness: job.number(&FULLNESS)?,
            is_banded: job.word(&FINISH)? == "band",
            band_height: job.number(&BAND_HEIGHT)? * job.k.shrink_lengthwise,
            zip: job.is_on(&ZIP)?.then_some(zip * job.k.shrink_lengthwise),
            neck: NeckRoom {
                front: job.number(&LOWERED)?,
                ..NeckRoom::default()
            },
            for_head: ForHead::Nothing,
            has_elastic: job.is_on(&ELASTIC)?,
        })
    }

    /// Makes room for the head where the neck as it is does not let it through.
    ///
    /// # Errors
    /// As [`RashBody::neck_with`].
    fn make_room(&mut self, job: &Job<'_>, body: &RashBody) -> Result<(), Refusal> {
        if job.word(&ROOM)? != "as-needed" {
            return Ok(());
        }
        let own = self.neck;
        let room = |part: f64| NeckRoom {
            out: MOST_ROOM.out * job.m.neck_base * part,
            front: own.front + MOST_ROOM.front * job.m.neck_base * part,
            back: MOST_ROOM.back * job.m.neck_base * part,
        };
        let share = |part: f64| -> Result<f64, Refusal> {
            let [front, back] = body.neck_with(job, room(part))?;
            let head = head_opening(job, &front, &back, self);
            Ok((head.passes_mm / head.rest_mm - 1.0) / stretch_along(job, head.around_share))
        };
        if share(0.0)? <= HEAD_SHARES.0 {
            return Ok(());
        }
        let most = share(1.0)?;
        if most > HEAD_SHARES.1 {
            self.for_head = ForHead::Zip;
            self.zip = self
                .zip
                .or(Some(job.number(&ZIP_LENGTH)? * job.k.shrink_lengthwise));
            return Ok(());
        }
        let part = root(
            |part| share(part).map_or(f64::NAN, |s| s - HEAD_SHARES.0),
            0.0,
            1.0,
        )
        .unwrap_or(1.0);
        self.neck = room(part);
        self.for_head = ForHead::Wider;
        Ok(())
    }
}

/// How far the cloth stretches along an edge.
fn stretch_along(job: &Job<'_>, around_share: f64) -> f64 {
    job.cloth.around.ratio() * around_share + job.cloth.lengthwise.ratio() * (1.0 - around_share)
}

/// The neck over the head, or its collar band where that is the narrower way. An open zip adds both its sides to the ring, and does not
/// stretch.
fn head_opening(job: &Job<'_>, front: &Curve, back: &Curve, chosen: &Chosen) -> Opening {
    let head = (head_girth(job.m) - 2.0 * chosen.zip.unwrap_or(0.0)).max(1.0);
    let ring = 2.0 * (front.length() + back.length());
    let neck = opening(job, OpeningKind::Head, ring, head, around_share(&[front, back]));
    let band = opening(job, OpeningKind::Head, BAND_RATIO * ring, head, 1.0);
    let part = |o: &Opening| (o.passes_mm / o.rest_mm - 1.0) / stretch_along(job, o.around_share);
    if chosen.is_banded && part(&band) > part(&neck) {
        band
    } else {
        neck
    }
}

/// Draws the top.
///
/// # Errors
/// Any [`Refusal`] of levels, sleeve or pieces.
fn draw(job: &Job<'_>) -> Result<Drawn, Refusal> {
    let mut drawn = Drawn::default();
    let mut chosen = Chosen::of(job)?;
    let trunk = trunk::untied(job.m);
    let length = job.number(&BODY_LENGTH)?;
    let mut body = RashBody::draw(job, &trunk, length, chosen.neck)?;
    chosen.make_room(job, &body)?;
    if chosen.for_head == ForHead::Wider {
        body = RashBody::draw(job, &trunk, length, chosen.neck)?;
    }
    let note = |is, key, says| job.branches.note(is, key, says);
    note(
        chosen.for_head == ForHead::Wider,
        "neck_widened",
        "has its neckline wider and lower for the head",
    );
    note(
        chosen.for_head == ForHead::Zip,
        "neck_zip",
        "has a half zip for the head",
    );
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
    let sleeve_cut = sleeve_piece(job, &sleeve, chosen.has_elastic, (front_mm, back_mm))?;
    drawn.seams = seams(&body, &sleeve, &sleeve_cut, &chosen);
    drawn.pieces.push(sleeve_cut);
    if chosen.is_banded {
        let neck = (body.front.neck.length(), body.back.neck.length());
        drawn
            .pieces
            .push(band_piece(job, neck, chosen.band_height, chosen.zip.is_some())?);
    }
    if let Some(zip) = chosen.zip {
        drawn.pieces.push(shield_piece(job, zip)?);
        small_part(job, "the slider of a zip", &mut drawn);
    }

    edges(job, &body, &sleeve, &chosen, &mut drawn);
    openings(job, &body, &sleeve, &chosen, &mut drawn);
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

fn seams(body: &RashBody, sleeve: &Sleeve, sleeve_piece: &Piece, chosen: &Chosen) -> Vec<SeamWalk> {
    let (f, b) = (&body.front, &body.back);
    let mut walks = vec![
        SeamWalk::of(
            "side",
            ("front", "side"),
            ("back", "side"),
            (f.side.length(), b.side.length(), body.ease),
        ),
        SeamWalk::of(
            "shoulder",
            ("front", "shoulder"),
            ("back", "shoulder"),
            (f.shoulder.length(), b.shoulder.length(), 0.0),
        ),
    ];
    walks.extend(sleeve_seams(
        sleeve,
        sleeve_piece,
        (f.armhole.length(), b.armhole.length()),
        chosen.is_banded.then(|| body.neck_mm()),
    ));
    walks
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
fn openings(job: &Job<'_>, body: &RashBody, sleeve: &Sleeve, chosen: &Chosen, drawn: &mut Drawn) {
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

    drawn.openings.push(head_opening(job, &f.neck, &b.neck, chosen));

    if chosen.reach == SleeveReach::Wrist {
        drawn.openings.push(wrist_opening(job, sleeve));
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
    drawn
        .finished
        .extend(sleeve_measures(sleeve, f.armhole.length() + b.armhole.length()));
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
    let cm = |mm: f64| units::Mm::new(mm).to_cm_text();
    match chosen.for_head {
        ForHead::Nothing => {}
        ForHead::Wider => findings.push(Finding {
            code: "draft.neck_room",
            severity: Severity::Good,
            place: "neck".into(),
            message: format!(
                "at the neck base the head would not pass in this cloth: the neckline lies {} further out on each shoulder and {} lower in \
                 front",
                cm(chosen.neck.out),
                cm(chosen.neck.front)
            ),
            value: Some(chosen.neck.out),
            limit: Some(Limit {
                text: "70 % of the stretch".into(),
                source: "own",
            }),
            remedy: "for a closer neck put in a half zip, or choose a softer cloth".into(),
        }),
        ForHead::Zip => findings.push(Finding {
            code: "draft.neck_room",
            severity: Severity::Watch,
            place: "neck".into(),
            message: format!(
                "in this cloth the head would not pass even a wide neckline: there is a half zip of {} instead",
                cm(chosen.zip.unwrap_or(0.0))
            ),
            value: chosen.zip,
            limit: Some(Limit {
                text: "85 % of the stretch".into(),
                source: "own",
            }),
            remedy: "choose a softer cloth for a top without a zip".into(),
        }),
    }
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

    fn suit(name: &str, cloth: (f64, f64), set: &[(&Parameter, crate::Setting)]) -> crate::Draft {
        let mut design = Design::of(Style::RASH_TOP);
        for (parameter, setting) in set {
            design.own.set(parameter, *setting);
        }
        crate::draft::draft_measures(&measures(name), &plan(cloth.0, cloth.1), &design).unwrap()
    }

    /// Share of the stretch the head takes.
    fn head_share(suit: &crate::Draft, cloth: (f64, f64)) -> f64 {
        let neck = suit
            .openings
            .iter()
            .find(|o| o.kind == OpeningKind::Head)
            .unwrap();
        let stretch = cloth.0 * neck.around_share + cloth.1 * (1.0 - neck.around_share);
        (neck.passes_mm / neck.rest_mm - 1.0) / stretch
    }

    #[test]
    fn an_open_zip_lets_the_head_through() {
        let firm = (0.50, 0.32);
        let close = (&ROOM, crate::Setting::Word("none"));
        let without = suit("average", firm, &[close]);
        let with = suit("average", firm, &[close, (&ZIP, crate::Setting::Yes(true))]);
        for (suit, has_zip) in [(&without, false), (&with, true)] {
            assert_eq!(suit.pieces.iter().any(|p| p.key == "zip_shield"), has_zip);
        }
        assert!(
            head_share(&without, firm) > 0.85,
            "{}",
            head_share(&without, firm)
        );
        assert!(head_share(&with, firm) <= 0.0);
    }

    #[test]
    fn a_beginners_neck_lets_the_head_through_in_any_cloth() {
        for name in ["petite", "average", "tall", "plus", "large_cup", "man", "child8"] {
            for cloth in [(0.85, 0.60), (0.50, 0.32), (0.30, 0.20), (0.15, 0.12)] {
                for finish in ["band", "turned"] {
                    let suit = suit(name, cloth, &[(&FINISH, crate::Setting::Word(finish))]);
                    let share = head_share(&suit, cloth);
                    assert!(share <= 0.85 + 1e-9, "{name} {cloth:?} {finish}: {share}");
                    // A zip comes where width does not do, and is said.
                    let has_zip = suit.pieces.iter().any(|p| p.key == "zip_shield");
                    let said = suit.findings.iter().any(|f| f.code == "draft.neck_room");
                    assert!(said || !has_zip, "{name} {cloth:?} {finish}");
                    assert!(
                        !has_zip || cloth.0 < 0.50,
                        "{name} {cloth:?}: a zip in a stretchy cloth"
                    );
                }
            }
        }
    }
}
