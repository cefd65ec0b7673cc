//! Trunks and their kin: trunks, jammer, square-leg brief, boys' trunks, a child's jammer, women's swim shorts.
//!
//! One drawing: two fronts and two backs with legs, an elastic waist in a turned casing or a band of its own, a lining to choose.
//! The styles differ in how long the leg is, in what is offered, and in whom they are for.
//!
//! **Source.** Construction: see [`super::legged`]. Cords: to 14 years no cord with free ends is offered, only elastic or a cord
//! sewn down over its whole length (cautions.csv, EN 14682 as read in a test house's summary of the 2007 edition; boys' swimming
//! trunks have been withdrawn under it). Cord length: elastic and half a metre, common practice.
//! **Limits.** Own numbers, nothing sewn: sew a toile first.

use body::BodyForm;
use cloth::Layer;
use kurbo::{Point, Vec2};
use units::{Finding, Level, Limit, Mm, Severity};

use super::legged::{self, LegHalf, LegShape, Legs};
use super::one_piece::{around_share, opening};
use super::{Drawn, Family, Job, StyleSpec, Widths};
use crate::build::{PieceBuilder, arc_end, level_line, placement};
use crate::geometry::{Curve, inward};
use crate::parameter::{Parameter, Word};
use crate::piece::{EdgeUse, Mark, OpenKind, Piece};
use crate::refusal::Refusal;
use crate::suit::{EdgeArc, FinishedMeasure, LevelWidth, OpenEdge, OpeningKind, SeamWalk};

/// Elastic in a casing is this much narrower than it, mm.
const CASING_ROOM: f64 = 5.0;
/// Cord beyond the elastic's length, mm: to draw and to tie. Common practice.
const CORD_OVER: f64 = 500.0;
/// Ratio of the waist elastic: `elastic_cut.csv`, trunks with drawcord.
const WAIST_RATIO: f64 = 0.90;
/// Where the cord comes out beside the front seam, mm.
const EYELET_OUT: f64 = 12.0;
/// Inseam of an inner brief, mm flat.
const LINER_INSEAM: f64 = 14.0;
/// Top of an inner brief's leg at the side, share of waist to hip.
const LINER_LEG: f64 = 0.88;
/// Width of a pouch lining at the waist, share of the front's.
const POUCH_WIDTH: f64 = 0.55;

const TOP: Parameter = Parameter::share(
    "waist_drop",
    "Waist",
    "how far below the waist the top sits: 0 at the waist, 0.5 at the hip bones, as a share of waist to hip",
    (0.0, 0.20, 0.55),
);
const CASING_DEPTH: Parameter = Parameter::length(
    "waistband_depth",
    "Waistband",
    "how deep the casing or band is; its elastic is 5 mm narrower",
    (18.0, 35.0, 55.0),
);
const WAISTBAND: Parameter = Parameter::choice(
    "waistband",
    "Waistband kind",
    "how the waist holds its elastic",
    &[
        Word::new(
            "casing",
            "Turned casing",
            "the top edge itself turned over the elastic",
        ),
        Word::new(
            "band",
            "Band",
            "a band of its own, folded over the elastic and sewn on",
        ),
    ],
);
const POUCH: Parameter = Parameter::length(
    "pouch",
    "Pouch",
    "how far the front seam bows out for room in front",
    (0.0, 14.0, 25.0),
);
const GUSSET: Parameter = Parameter::choice(
    "gusset",
    "Gusset",
    "a piece between the legs where the crotch would come out too short",
    &[
        Word::new(
            "auto",
            "Where needed",
            "a longer fork first, and a gusset where that is not enough",
        ),
        Word::new(
            "none",
            "Never",
            "no longer fork and no gusset: the crotch may come out short",
        ),
    ],
);
const CORD: Parameter = Parameter::choice(
    "drawcord",
    "Drawcord",
    "a cord in the waistband beside the elastic",
    &[
        Word::new("cord", "Cord", "two eyelets in front, a cord to tie"),
        Word::new("none", "Elastic only", "no cord"),
    ],
);
const SHORTS_CORD: Parameter = Parameter::choice(
    "drawcord",
    "Drawcord",
    "a cord in the waistband beside the elastic",
    &[
        Word::new("none", "Elastic only", "no cord"),
        Word::new("cord", "Cord", "two eyelets in front, a cord to tie"),
    ],
);
const CHILD_CORD: Parameter = Parameter::choice(
    "drawcord",
    "Drawcord",
    "to 14 years never with free ends: elastic only, or a cord for looks sewn down over its whole length",
    &[
        Word::new("none", "Elastic only", "no cord"),
        Word::new(
            "fixed",
            "Sewn-down cord",
            "a cord for looks, sewn down over its whole length, no free ends",
        ),
    ],
);
const LINER_FRONT: Word = Word::new(
    "front",
    "Front lining",
    "the fronts once more in lining, caught in all their seams",
);
const LINER_MESH: Word = Word::new(
    "mesh",
    "Mesh brief",
    "an inner brief of mesh, caught in the waist",
);
const LINER_POUCH: Word = Word::new(
    "pouch",
    "Pouch lining",
    "the middle of the fronts in lining, free at its outer edges",
);
const LINER_FULL: Word = Word::new("full", "Full lining", "fronts and backs once more in lining");
const LINER_NONE: Word = Word::new("none", "None", "no lining: for a toile");
const MENS_LINER: Parameter = Parameter::choice(
    "liner",
    "Liner",
    "what is inside",
    &[LINER_FRONT, LINER_MESH, LINER_POUCH, LINER_FULL, LINER_NONE],
);
const LOOSE_LINER: Parameter = Parameter::choice(
    "liner",
    "Liner",
    "what is inside",
    &[LINER_MESH, LINER_FRONT, LINER_FULL, LINER_NONE],
);
const CLOSE_LINER: Parameter = Parameter::choice(
    "liner",
    "Liner",
    "what is inside",
    &[LINER_FRONT, LINER_FULL, LINER_NONE],
);
const INSEAM: &str = "how long the leg is on its inside";
const TRUNKS_INSEAM: Parameter = Parameter::length("inseam", "Inseam", INSEAM, (40.0, 60.0, 120.0));
const JAMMER_INSEAM: Parameter = Parameter::length("inseam", "Inseam", INSEAM, (120.0, 190.0, 230.0));
const SQUARE_INSEAM: Parameter = Parameter::length("inseam", "Inseam", INSEAM, (10.0, 20.0, 35.0));
const BOYS_INSEAM: Parameter = Parameter::length("inseam", "Inseam", INSEAM, (12.0, 40.0, 90.0));
const CHILD_JAMMER_INSEAM: Parameter = Parameter::length("inseam", "Inseam", INSEAM, (90.0, 125.0, 180.0));
const SHORTS_INSEAM: Parameter = Parameter::length("inseam", "Inseam", INSEAM, (15.0, 60.0, 150.0));

const MAN: &[BodyForm] = &[BodyForm::Man];
const CHILD: &[BodyForm] = &[BodyForm::Child];

/// The men's and women's styles of the family, with their child's versions.
const fn spec(
    key: &'static str,
    name: &'static str,
    says: &'static str,
    wearers: &'static [BodyForm],
) -> StyleSpec {
    StyleSpec {
        key,
        name,
        says,
        family: Family::Trunks,
        wearers,
        shared: &[],
        own: &[],
        has_trunk_loop: false,
        draw: draw_trunks,
    }
}

pub(super) const TRUNKS: StyleSpec = StyleSpec {
    own: &[
        TRUNKS_INSEAM,
        TOP,
        WAISTBAND,
        CASING_DEPTH,
        CORD,
        MENS_LINER,
        POUCH,
        GUSSET,
    ],
    ..spec(
        "trunks",
        "Trunks",
        "close shorts with a short leg and a drawcord",
        MAN,
    )
};
pub(super) const JAMMER: StyleSpec = StyleSpec {
    own: &[
        JAMMER_INSEAM,
        TOP,
        WAISTBAND,
        CASING_DEPTH,
        CORD,
        JAMMER_LINER,
        POUCH,
        GUSSET,
    ],
    draw: draw_jammer,
    ..spec(
        "jammer",
        "Jammer",
        "close to the leg, down to above the knee, for lap swimming",
        MAN,
    )
};
pub(super) const SQUARE_LEG: StyleSpec = StyleSpec {
    own: &[
        SQUARE_INSEAM,
        TOP,
        WAISTBAND,
        CASING_DEPTH,
        CORD,
        JAMMER_LINER,
        POUCH,
        GUSSET,
    ],
    draw: draw_square,
    ..spec(
        "square-leg",
        "Square-leg brief",
        "a brief with hardly any leg, cut straight across the thigh",
        MAN,
    )
};
pub(super) const BOYS: StyleSpec = StyleSpec {
    own: &[
        BOYS_INSEAM,
        TOP,
        WAISTBAND,
        CASING_DEPTH,
        CHILD_CORD,
        LOOSE_LINER,
        GUSSET,
    ],
    draw: draw_boys,
    ..spec(
        "boys-trunks",
        "Boys' trunks",
        "a child's close shorts with an elastic waist, no loose cord",
        CHILD,
    )
};
pub(super) const CHILDS_JAMMER: StyleSpec = StyleSpec {
    own: &[
        CHILD_JAMMER_INSEAM,
        TOP,
        WAISTBAND,
        CASING_DEPTH,
        CHILD_CORD,
        CLOSE_LINER,
        GUSSET,
    ],
    draw: draw_childs_jammer,
    ..spec(
        "childs-jammer",
        "Child's jammer",
        "a child's close shorts to above the knee, elastic waist",
        CHILD,
    )
};
pub(super) const SHORTS: StyleSpec = StyleSpec {
    own: &[
        SHORTS_INSEAM,
        TOP,
        WAISTBAND,
        CASING_DEPTH,
        SHORTS_CORD,
        CLOSE_LINER,
        GUSSET,
    ],
    draw: draw_shorts,
    ..spec(
        "swim-shorts",
        "Swim shorts",
        "a woman's close shorts with an elastic waist",
        &[BodyForm::Woman],
    )
};
const JAMMER_LINER: Parameter = Parameter::choice(
    "liner",
    "Liner",
    "what is inside",
    &[LINER_FRONT, LINER_POUCH, LINER_FULL, LINER_NONE],
);

fn draw_trunks(job: &Job<'_>) -> Result<Drawn, Refusal> {
    draw(
        job,
        &Asked::of(job, &TRUNKS_INSEAM, &CORD, &MENS_LINER, Some(&POUCH))?,
    )
}

fn draw_jammer(job: &Job<'_>) -> Result<Drawn, Refusal> {
    draw(
        job,
        &Asked::of(job, &JAMMER_INSEAM, &CORD, &JAMMER_LINER, Some(&POUCH))?,
    )
}

fn draw_square(job: &Job<'_>) -> Result<Drawn, Refusal> {
    draw(
        job,
        &Asked::of(job, &SQUARE_INSEAM, &CORD, &JAMMER_LINER, Some(&POUCH))?,
    )
}

fn draw_boys(job: &Job<'_>) -> Result<Drawn, Refusal> {
    draw(
        job,
        &Asked::of(job, &BOYS_INSEAM, &CHILD_CORD, &LOOSE_LINER, None)?,
    )
}

fn draw_childs_jammer(job: &Job<'_>) -> Result<Drawn, Refusal> {
    draw(
        job,
        &Asked::of(job, &CHILD_JAMMER_INSEAM, &CHILD_CORD, &CLOSE_LINER, None)?,
    )
}

fn draw_shorts(job: &Job<'_>) -> Result<Drawn, Refusal> {
    draw(
        job,
        &Asked::of(job, &SHORTS_INSEAM, &SHORTS_CORD, &CLOSE_LINER, None)?,
    )
}

/// What the maker set.
struct Asked {
    shape: LegShape,
    casing: f64,
    has_band: bool,
    cord: &'static str,
    liner: &'static str,
}

impl Asked {
    fn of(
        job: &Job<'_>,
        inseam: &Parameter,
        cord: &Parameter,
        liner: &Parameter,
        pouch: Option<&Parameter>,
    ) -> Result<Asked, Refusal> {
        let cord = job.word(cord)?;
        if job.m.form == BodyForm::Child && cord == "cord" {
            return Err(Refusal::Combination {
                parameter: "drawcord",
                why: "to 14 years no cord with free ends at the waist (EN 14682 as read in data/trade/cautions.csv); set it to \"none\" or \"fixed\"",
            });
        }
        Ok(Asked {
            shape: LegShape {
                top_share: job.number(&TOP)?,
                inseam: job.number(inseam)?,
                pouch: match pouch {
                    Some(p) => job.number(p)?,
                    None => 0.0,
                },
                may_ease: job.word(&GUSSET)? == "auto",
            },
            casing: job.number(&CASING_DEPTH)?,
            has_band: job.word(&WAISTBAND)? == "band",
            cord,
            liner: job.word(liner)?,
        })
    }
}

/// Allowances of one layer of a half, mm.
#[derive(Clone, Copy)]
struct Around {
    seam: f64,
    side: f64,
    hem: f64,
    top: f64,
}

/// Draws a style of the family.
///
/// # Errors
/// Any [`Refusal`] of dimensions, parameters or pieces.
fn draw(job: &Job<'_>, asked: &Asked) -> Result<Drawn, Refusal> {
    let mut drawn = Drawn::default();
    let legs = legged::draw(job, &asked.shape)?;
    let w = Widths::shell(job.design);
    let shell = Around {
        seam: w.seam,
        side: w.side,
        hem: w.hem,
        top: if asked.has_band { w.seam } else { asked.casing },
    };
    drawn
        .pieces
        .push(half(job, &legs, asked, true, Layer::Shell, shell)?);
    drawn
        .pieces
        .push(half(job, &legs, asked, false, Layer::Shell, shell)?);
    gusset(job, &legs, asked.liner, &mut drawn)?;
    if asked.has_band {
        band(job, &legs, asked, &mut drawn)?;
    }
    liner(job, &legs, asked, shell, &mut drawn)?;
    seams(&legs, &mut drawn);
    edges(job, &legs, asked, &mut drawn);
    measures(&legs, &mut drawn);
    judge_crotch(job, &legs, asked, &mut drawn.findings);
    judge_hem(job, &legs, &mut drawn.findings);
    judge_cord(&legs, asked, &mut drawn.findings);
    Ok(drawn)
}

/// A front or back with its notches and marks.
fn half(
    job: &Job<'_>,
    legs: &Legs,
    asked: &Asked,
    is_front: bool,
    layer: Layer,
    w: Around,
) -> Result<Piece, Refusal> {
    let h = if is_front { &legs.front } else { &legs.back };
    let (key, name) = match (layer, is_front) {
        (Layer::Shell, true) => ("front", "Front"),
        (Layer::Shell, false) => ("back", "Back"),
        (_, true) => ("front_lining", "Front lining"),
        (_, false) => ("back_lining", "Back lining"),
    };
    let outline = outline(h);
    let (crotch, centre) = if is_front {
        ("centre_front", "front_seam")
    } else {
        ("centre_back", "back_seam")
    };
    let top_use = if layer == Layer::Shell && !asked.has_band {
        EdgeUse::Open(OpenKind::Waist)
    } else {
        EdgeUse::Seam
    };
    let mut b = PieceBuilder::new(key, name, false)
        .edge("hem", EdgeUse::Hem, h.hem.clone(), w.hem)
        .edge("side", EdgeUse::Seam, h.side.clone(), w.side)
        .edge("top", top_use, h.top.clone(), w.top)
        .edge(crotch, EdgeUse::Seam, h.crotch.clone(), w.seam)
        .edge("inseam", EdgeUse::Seam, h.inseam.clone(), w.seam)
        .notch(crotch, 0.45 * h.crotch.length(), centre, !is_front)
        .notch("side", 0.5 * h.side.length(), "side_middle", false);
    if let Some(g) = legs.gusset
        && !g.is_strip
    {
        b = b.notch("inseam", g.side, "gusset_end", false);
    }
    if layer == Layer::Shell {
        b = b.mark(arc_end(&h.top, 0.0, 'n'));
        if !is_front {
            b = b.mark(arc_end(&h.top, h.top.length(), 'm'));
        }
        if is_front && asked.cord == "cord" && !asked.has_band {
            let (at, travel) = h.top.at_length(h.top.length() - EYELET_OUT);
            b = b.mark(Mark::Cross {
                at: at + inward(travel) * (0.5 * asked.casing),
                text: "eyelet".into(),
            });
        }
    }
    if let Some(mark) = level_line(&outline, legs.hip_y, "hip") {
        b = b.mark(mark);
    }
    b.build(&[(layer, 2, true)], job.cloth)
}

fn outline(h: &LegHalf) -> Vec<Point> {
    [&h.hem, &h.side, &h.top, &h.crotch, &h.inseam]
        .into_iter()
        .flat_map(|c| c.flatten(0.5))
        .collect()
}

/// The gusset, half on its fold from front to back; lined where the fronts are.
fn gusset(job: &Job<'_>, legs: &Legs, liner: &str, drawn: &mut Drawn) -> Result<(), Refusal> {
    let Some(g) = legs.gusset else { return Ok(()) };
    let w = Widths::shell(job.design);
    let (wide, end) = (g.half_width(), 0.5 * g.length);
    let (front, back) = (Point::new(0.0, end), Point::new(0.0, -end));
    let both = [(Layer::Shell, 1, false), (Layer::Lining, 1, false)];
    let mut b = PieceBuilder::new("gusset", "Gusset", true);
    if g.is_strip {
        let (low, high) = (Point::new(wide, -end), Point::new(wide, end));
        b = b
            .edge("back_side", EdgeUse::Seam, Curve::line(back, low), w.seam)
            .edge("hem", EdgeUse::Hem, Curve::line(low, high), w.hem)
            .edge("front_side", EdgeUse::Seam, Curve::line(high, front), w.seam);
    } else {
        let tip = Point::new(wide, 0.0);
        b = b
            .edge("back_side", EdgeUse::Seam, Curve::line(back, tip), w.seam)
            .edge("front_side", EdgeUse::Seam, Curve::line(tip, front), w.seam);
    }
    let piece = b
        .edge("fold", EdgeUse::Fold, Curve::line(front, back), 0.0)
        .notch("front_side", g.side, "gusset_front", false)
        .build(
            if matches!(liner, "front" | "full") {
                &both
            } else {
                &both[..1]
            },
            job.cloth,
        )?;
    for (name, key, edge) in [
        ("gusset, front", "front", "front_side"),
        ("gusset, back", "back", "back_side"),
    ] {
        drawn.seams.push(SeamWalk {
            name,
            first: (key.into(), vec!["inseam"]),
            second: ("gusset".into(), vec![edge]),
            first_mm: g.side,
            second_mm: piece.edge(edge).map_or(0.0, |e| e.curve.length()),
            sewn_ease_mm: 0.0,
        });
    }
    drawn.pieces.push(piece);
    Ok(())
}

/// The band: half its length, on the fold at the front, twice its depth.
fn band(job: &Job<'_>, legs: &Legs, asked: &Asked, drawn: &mut Drawn) -> Result<(), Refusal> {
    let seam = Widths::shell(job.design).seam;
    let (front, back) = (legs.front.top.length(), legs.back.top.length());
    let (half, deep) = (front + back, 2.0 * asked.casing);
    let at = |x: f64, y: f64| Point::new(x, y);
    let mut b = PieceBuilder::new("waistband", "Waistband", true)
        .edge(
            "lower",
            EdgeUse::Seam,
            Curve::line(at(0.0, 0.0), at(half, 0.0)),
            seam,
        )
        .edge(
            "join",
            EdgeUse::Seam,
            Curve::line(at(half, 0.0), at(half, deep)),
            seam,
        )
        .edge(
            "upper",
            EdgeUse::Seam,
            Curve::line(at(half, deep), at(0.0, deep)),
            seam,
        )
        .edge(
            "fold",
            EdgeUse::Fold,
            Curve::line(at(0.0, deep), at(0.0, 0.0)),
            0.0,
        )
        .notch("lower", front, "band_side", false)
        .notch("upper", back, "band_side", false)
        .mark(placement(at(0.0, asked.casing), at(half, asked.casing), "fold"));
    if asked.cord == "cord" {
        b = b.mark(Mark::Cross {
            at: at(EYELET_OUT, 0.5 * asked.casing),
            text: "eyelet".into(),
        });
    }
    drawn
        .pieces
        .push(b.build(&[(Layer::Shell, 1, false)], job.cloth)?);
    drawn.seams.push(SeamWalk {
        name: "waistband",
        first: ("front and back".into(), vec!["top"]),
        second: ("waistband".into(), vec!["lower"]),
        first_mm: 2.0 * (front + back),
        second_mm: 2.0 * half,
        sewn_ease_mm: 0.0,
    });
    Ok(())
}

fn liner(job: &Job<'_>, legs: &Legs, asked: &Asked, shell: Around, drawn: &mut Drawn) -> Result<(), Refusal> {
    // Lining ends in the waist seam, under the casing, and at the shell's turned hem.
    let lined = Around {
        hem: 0.0,
        top: shell.seam,
        ..shell
    };
    match asked.liner {
        "front" | "full" => {
            drawn
                .pieces
                .push(half(job, legs, asked, true, Layer::Lining, lined)?);
            if asked.liner == "full" {
                drawn
                    .pieces
                    .push(half(job, legs, asked, false, Layer::Lining, lined)?);
            }
        }
        "pouch" => drawn.pieces.push(pouch_lining(job, legs, shell.seam)?),
        "mesh" => inner_brief(job, legs, shell.seam, drawn)?,
        _ => {}
    }
    Ok(())
}

/// The middle of a front, from the waist to the fork, its outer edge free.
fn pouch_lining(job: &Job<'_>, legs: &Legs, seam: f64) -> Result<Piece, Refusal> {
    let h = &legs.front;
    let (top, rest) = h.top.split_at((1.0 - POUCH_WIDTH) * h.top.length());
    let corner = top.end();
    let short = (0.35 * h.inseam.length()).min(LINER_INSEAM);
    let inseam = h.inseam.split_at(short).0;
    let foot = inseam.end();
    let rise = corner.y - foot.y;
    let across = inward(inseam.end_tangent());
    let edge = Curve::cubic(
        foot,
        foot + across * (0.45 * (corner.x - foot.x)),
        corner - Vec2::new(-4.0, 0.62 * rise),
        corner,
    );
    PieceBuilder::new("pouch_lining", "Pouch lining", false)
        .edge("free", EdgeUse::Raw, edge, 0.0)
        .edge("top", EdgeUse::Seam, rest, seam)
        .edge("centre_front", EdgeUse::Seam, h.crotch.clone(), seam)
        .edge("inseam", EdgeUse::Seam, inseam, seam)
        .notch("centre_front", 0.45 * h.crotch.length(), "front_seam", false)
        .build(&[(Layer::Lining, 2, true)], job.cloth)
}

/// The inner brief: fronts and backs cut off along a brief's leg, of mesh.
fn inner_brief(job: &Job<'_>, legs: &Legs, seam: f64, drawn: &mut Drawn) -> Result<(), Refusal> {
    let open = Widths::lining(job.design).open;
    let leg_y = LINER_LEG * legs.hip_y;
    let short = (0.35 * legs.front.inseam.length()).min(LINER_INSEAM);
    let cut = |h: &LegHalf, is_front: bool| -> (Curve, Curve, Curve) {
        let at = h.side.length_to_height(leg_y).unwrap_or(0.0);
        let side = h.side.split_at(at).1;
        let inseam = h.inseam.split_at(short).0;
        let (foot, low) = (inseam.end(), side.start());
        let chord = (low - foot).hypot();
        let scoop = if is_front { (0.30, 0.45) } else { (0.50, 0.30) };
        let leg = Curve::cubic(
            foot,
            foot + inward(inseam.end_tangent()) * (scoop.0 * chord),
            low + inward(side.start_tangent()) * (scoop.1 * chord),
            low,
        );
        (leg, side, inseam)
    };
    let front = cut(&legs.front, true);
    let mut back = cut(&legs.back, false);
    // The back side is cut where it is as long as the front's.
    let more = back.1.length() - front.1.length();
    let whole = legs.back.side.length();
    let start = whole - back.1.length() + more;
    back.1 = legs.back.side.split_at(start).1;
    let low = back.1.start();
    let foot = back.0.start();
    let chord = (low - foot).hypot();
    back.0 = Curve::cubic(
        foot,
        foot + inward(back.2.end_tangent()) * (0.50 * chord),
        low + inward(back.1.start_tangent()) * (0.30 * chord),
        low,
    );
    for (h, (leg, side, inseam), is_front) in [(&legs.front, &front, true), (&legs.back, &back, false)] {
        let (key, name, crotch, centre) = if is_front {
            ("front_mesh", "Front mesh", "centre_front", "front_seam")
        } else {
            ("back_mesh", "Back mesh", "centre_back", "back_seam")
        };
        let piece = PieceBuilder::new(key, name, false)
            .edge("leg", EdgeUse::Open(OpenKind::Leg), leg.clone(), open)
            // Not called a side: the ladder would take its leg for the suit's.
            .edge("liner_side", EdgeUse::Seam, side.clone(), seam)
            .edge("top", EdgeUse::Seam, h.top.clone(), seam)
            .edge(crotch, EdgeUse::Seam, h.crotch.clone(), seam)
            .edge("inseam", EdgeUse::Seam, inseam.clone(), seam)
            .notch(crotch, 0.45 * h.crotch.length(), centre, !is_front)
            .mark(arc_end(leg, 0.0, 'a'))
            .mark(arc_end(leg, leg.length(), 'b'))
            .build(&[(Layer::Mesh, 2, true)], job.cloth)?;
        drawn.pieces.push(piece);
    }
    let walk = |name, edge, first_mm, second_mm| SeamWalk {
        name,
        first: ("front_mesh".into(), vec![edge]),
        second: ("back_mesh".into(), vec![edge]),
        first_mm,
        second_mm,
        sewn_ease_mm: 0.0,
    };
    drawn
        .seams
        .push(walk("mesh side", "liner_side", front.1.length(), back.1.length()));
    drawn
        .seams
        .push(walk("mesh inseam", "inseam", front.2.length(), back.2.length()));
    let arc = |name, letter, length_mm| EdgeArc {
        name,
        letter,
        length_mm,
    };
    drawn.open_edges.push(OpenEdge {
        kind: OpenKind::Leg,
        count: 2,
        is_ring: true,
        arcs: vec![
            arc("front", 'a', front.0.length()),
            arc("back", 'b', back.0.length()),
        ],
        around_share: around_share(&[&front.0, &back.0]),
        worn_radius_mm: job.m.thigh / std::f64::consts::TAU,
    });
    Ok(())
}

fn seams(legs: &Legs, drawn: &mut Drawn) {
    let (f, b) = (&legs.front, &legs.back);
    let taken = legs.gusset.map_or(0.0, |g| g.side);
    let walk =
        |name, (first, first_edge): (&str, _), (second, second_edge): (&str, _), first_mm, second_mm| {
            SeamWalk {
                name,
                first: (first.into(), vec![first_edge]),
                second: (second.into(), vec![second_edge]),
                first_mm,
                second_mm,
                sewn_ease_mm: 0.0,
            }
        };
    let (front, back) = (f.crotch.length(), b.crotch.length());
    drawn.seams.splice(
        0..0,
        [
            walk(
                "centre front",
                ("front", "centre_front"),
                ("front", "centre_front"),
                front,
                front,
            ),
            walk(
                "centre back",
                ("back", "centre_back"),
                ("back", "centre_back"),
                back,
                back,
            ),
            walk(
                "side",
                ("front", "side"),
                ("back", "side"),
                f.side.length(),
                b.side.length(),
            ),
        ],
    );
    if legs.gusset.is_none_or(|g| !g.is_strip) {
        let (front, back) = (f.inseam.length() - taken, b.inseam.length() - taken);
        drawn.seams.insert(
            3,
            walk("inseam", ("front", "inseam"), ("back", "inseam"), front, back),
        );
    }
}

fn edges(job: &Job<'_>, legs: &Legs, asked: &Asked, drawn: &mut Drawn) {
    let (f, b) = (&legs.front, &legs.back);
    let arc = |name, letter, length_mm| EdgeArc {
        name,
        letter,
        length_mm,
    };
    let girth = legged::girth_below_waist(job, asked.shape.top_share);
    let (front, back) = (f.top.length(), b.top.length());
    drawn.open_edges.insert(
        0,
        OpenEdge {
            kind: OpenKind::Waist,
            count: 1,
            is_ring: true,
            arcs: vec![
                arc("back", 'm', back),
                arc("front", 'n', 2.0 * front),
                arc("back", 'n', back),
            ],
            around_share: around_share(&[&f.top, &b.top]),
            worn_radius_mm: girth / std::f64::consts::TAU,
        },
    );
    let hem = legs.hem_length();
    drawn.openings = vec![
        opening(job, OpeningKind::Waist, 2.0 * (front + back), job.m.hip, 1.0),
        opening(job, OpeningKind::Leg, hem, job.m.thigh, 1.0),
    ];
    let rung = |level, y_mm, body_mm, flat: f64| LevelWidth {
        level,
        y_mm,
        body_mm,
        pattern_mm: flat / job.k.shrink_around,
        meant: job.k.meant(level),
    };
    let across = |y: f64| 2.0 * (f.width_at(y) + b.width_at(y));
    let waist = if job.m.is_navel {
        Level::Navel
    } else {
        Level::Waist
    };
    if legs.top_y > legs.high_hip_y {
        drawn
            .levels
            .push(rung(waist, legs.top_y, girth, across(legs.top_y)));
        let y = legs.high_hip_y;
        drawn
            .levels
            .push(rung(Level::HighHip, y, job.m.high_hip, across(y)));
    } else {
        drawn
            .levels
            .push(rung(Level::HighHip, legs.top_y, girth, across(legs.top_y)));
    }
    drawn
        .levels
        .push(rung(Level::Hip, legs.hip_y, job.m.hip, across(legs.hip_y)));
    drawn
        .levels
        .push(rung(Level::Thigh, legs.fork_y, job.m.thigh, legs.thigh_width()));
}

fn measures(legs: &Legs, drawn: &mut Drawn) {
    let (f, b) = (&legs.front, &legs.back);
    let (front, back) = (f.top.length(), b.top.length());
    let list = [
        (
            "top_edge",
            "top edge, once round, before its elastic",
            2.0 * (front + back),
            10.0,
        ),
        (
            "across_hip",
            "across at the hip",
            f.width_at(legs.hip_y) + b.width_at(legs.hip_y),
            6.0,
        ),
        ("side_seam", "side seam, hem to top", f.side.length(), 4.0),
        ("inseam", "inseam, fork to hem", f.inseam.length(), 4.0),
        ("centre_front", "front seam, top to fork", f.crotch.length(), 4.0),
        ("centre_back", "back seam, top to fork", b.crotch.length(), 4.0),
        ("leg_opening", "leg hem, once round", legs.hem_length(), 8.0),
    ];
    drawn.finished = list.into_iter().map(FinishedMeasure::new).collect();
    if let Some(g) = legs.gusset {
        drawn.finished.push(FinishedMeasure::new((
            "gusset",
            "gusset, front to back",
            g.length,
            3.0,
        )));
    }
    if (legs.waist_widening - 1.0).abs() > 1e-9 {
        drawn.findings.push(Finding {
            code: "draft.waist_widened",
            severity: Severity::Good,
            place: "waist".into(),
            message: format!(
                "the waist is {:.0} % wider than its stretch would have it, so that it passes the hips",
                (legs.waist_widening - 1.0) * 100.0
            ),
            value: Some(legs.waist_widening),
            limit: None,
            remedy: String::new(),
        });
    }
}

/// How long the crotch came out, and what was done about it.
fn judge_crotch(job: &Job<'_>, legs: &Legs, asked: &Asked, findings: &mut Vec<Finding>) {
    let worn = legged::crotch_worn(job, legs, asked.shape.top_share);
    let limit = legged::crotch_limit(job);
    let at_bound = legs.let_down >= legged::LET_DOWN.1 - 1e-6;
    let severity = if worn > limit {
        Severity::Stop
    } else if at_bound || legs.is_at_top {
        Severity::Watch
    } else {
        Severity::Good
    };
    let mut did = vec![match legs.let_down {
        down if down >= 0.0 => format!("let down {down:.0} mm below the body's"),
        down => format!("raised {:.0} mm above the body's", -down),
    }];
    if legs.fork_added > 0.5 {
        did.push(format!("the fork made {:.0} mm longer", legs.fork_added));
    }
    if let Some(g) = legs.gusset {
        did.push(format!("a gusset of {:.0} mm put in", g.length));
    }
    findings.push(Finding {
        code: "draft.crotch_length",
        severity,
        place: "crotch".into(),
        message: format!(
            "the crotch is worn {:.0} % longer than its seams; it was {}",
            worn * 100.0,
            did.join(", ")
        ),
        value: Some(worn),
        limit: Some(Limit {
            text: format!("{:.0} %", limit * 100.0),
            source: "own",
        }),
        remedy: match (severity, asked.shape.may_ease) {
            (Severity::Good, _) => String::new(),
            (Severity::Stop, false) => "set gusset = \"auto\"".into(),
            (Severity::Stop, true) => {
                "make the inseam longer so that a gusset fits, or choose a cloth that stretches further lengthwise".into()
            }
            (_, _) if legs.is_at_top => "take crotch length and rise height again; sew a toile".into(),
            _ => "sew a toile and look at the crotch; take crotch length and rise height again if it hangs or cuts".into(),
        },
    });
}

/// A hem that a strip between the legs has made loose wants elastic.
fn judge_hem(job: &Job<'_>, legs: &Legs, findings: &mut Vec<Finding>) {
    let worn = job.m.thigh / (legs.hem_length() / job.k.shrink_around) - 1.0;
    if worn >= legged::LEAST_THIGH {
        return;
    }
    findings.push(Finding {
        code: "draft.loose_hem",
        severity: Severity::Watch,
        place: "leg".into(),
        message: format!(
            "the leg hem is worn {:.0} % stretched: it stands off the thigh",
            worn * 100.0
        ),
        value: Some(worn),
        limit: Some(Limit {
            text: format!("{:.0} %", legged::LEAST_THIGH * 100.0),
            source: "own",
        }),
        remedy: "turn the hem over narrow elastic cut to 0.95 of it, or choose a longer leg".into(),
    });
}

/// What the drawcord is to be, by whom it is worn.
fn judge_cord(legs: &Legs, asked: &Asked, findings: &mut Vec<Finding>) {
    let top = 2.0 * (legs.front.top.length() + legs.back.top.length());
    let message = match asked.cord {
        "cord" => format!(
            "cut the cord {} long: the waist's elastic and half a metre to tie; elastic {:.0} mm wide in a casing of {:.0} mm",
            Mm::new(WAIST_RATIO * top + CORD_OVER).to_cm_text(),
            asked.casing - CASING_ROOM,
            asked.casing
        ),
        "fixed" => "sew the cord down over its whole length and tuck its ends under: to 14 years no free ends at the waist \
                    (EN 14682 as read in a test house's summary of the 2007 edition; check the current one)"
            .to_owned(),
        _ => format!(
            "elastic only, {:.0} mm wide in a casing of {:.0} mm",
            asked.casing - CASING_ROOM,
            asked.casing
        ),
    };
    findings.push(Finding {
        code: "draft.drawcord",
        severity: Severity::Good,
        place: "waist".into(),
        message,
        value: None,
        limit: None,
        remedy: String::new(),
    });
}
