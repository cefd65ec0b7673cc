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
use cloth::{Fit, Layer};

use super::legged::{self, LegShape, Legs};
use super::motif::MOTIF_REPEAT;
use super::trunk_judge::{judge_cord, judge_crotch, judge_hem, measures};
use super::trunk_liner::liner;
use super::trunk_pieces::{band, edges, gusset, half, seams};
use super::{Drawn, Family, Job, StyleSpec, Widths};
use crate::parameter::{Parameter, Word};
use crate::refusal::Refusal;

/// Of an inseam, this much is left above its turned hem, mm; and no hem is narrower than the least.
const HEM_ROOM: f64 = 4.0;
const LEAST_HEM: f64 = 8.0;

const TOP: Parameter = Parameter::share(
    "waist_drop",
    "Waist",
    "how far below the waist the top sits: 0 at the waist, 0.5 at the hip bones, as a share of waist to hip",
    (0.0, 0.20, 0.55),
);
/// A woman's waist is so much narrower than her hips that an elastic at it hardly passes them; lower down it does.
const SHORTS_TOP: Parameter = Parameter::share(TOP.key, TOP.name, TOP.says, (0.0, 0.35, 0.55));
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
const SQUARE_INSEAM: Parameter = Parameter::length("inseam", "Inseam", INSEAM, (14.0, 25.0, 39.0));
const BOYS_INSEAM: Parameter = Parameter::length("inseam", "Inseam", INSEAM, (14.0, 40.0, 90.0));
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
        needs_ties: false,
        usual_fit: Fit::Regular,
        parts: None,
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
        MOTIF_REPEAT,
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
        MOTIF_REPEAT,
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
        MOTIF_REPEAT,
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
        MOTIF_REPEAT,
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
        MOTIF_REPEAT,
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
        SHORTS_TOP,
        WAISTBAND,
        CASING_DEPTH,
        SHORTS_CORD,
        CLOSE_LINER,
        GUSSET,
        MOTIF_REPEAT,
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
pub(super) struct Asked {
    pub(super) shape: LegShape,
    pub(super) casing: f64,
    pub(super) has_band: bool,
    pub(super) cord: &'static str,
    pub(super) liner: &'static str,
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
                top_share: job.number(if job.m.is_woman() { &SHORTS_TOP } else { &TOP })?,
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
pub(super) struct Around {
    pub(super) seam: f64,
    pub(super) side: f64,
    pub(super) hem: f64,
    pub(super) top: f64,
}

/// A hem no deeper than the inseam it is turned up along.
pub(super) fn hem_depth(legs: &Legs, wanted: f64) -> f64 {
    wanted.min((legs.front.inseam.length() - HEM_ROOM).max(LEAST_HEM))
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
        hem: hem_depth(&legs, w.hem),
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
    measures(&legs, asked, &mut drawn);
    judge_crotch(job, &legs, asked, &mut drawn.findings);
    judge_hem(job, &legs, &mut drawn.findings);
    judge_cord(&legs, asked, &mut drawn.findings);
    Ok(drawn)
}
