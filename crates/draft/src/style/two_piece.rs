//! Two-pieces: one of the tops and a brief in one suit, drafted from the same body and cloth.
//!
//! Top and brief keep the parameters they have alone. The brief's pieces, seams and measures are named after it, so that every name in
//! the suit is there once; the ladder runs from the top's levels to the brief's.
//!
//! **Source.** Construction own.
//! **Limits.** Top and bottom of one cloth; for two cloths make two suits.

use body::BodyForm;
use cloth::Fit;

use super::bandeau::{BONING, FRONT, GATHER};
use super::crop_top::{SPORTS_BACK, SPORTS_STRAP};
use super::tankini::{HEM_HEIGHT, SIDE_SLIT};
use super::top::words::{self, LINING_LENGTH, NECK_STRAP, NURSING};
use super::triangle_top::{BACK_TIE, CHANNEL, COVER, NECK_TIE};
use super::{
    Drawn, Family, Job, StyleSpec, bandeau, brief, crop_top, halter_top, refuse_ties, skirt, tankini,
    triangle_top,
};
use crate::parameter::{Parameter, Setting, Settings, Shared, Word, count, joined};
use crate::refusal::Refusal;

/// Which top.
pub(super) const TOP: Parameter = Parameter::choice(
    "top",
    "Top",
    "the upper part; it keeps the parameters it has alone",
    &[
        Word::new(
            "crop-top",
            "Crop top",
            "straps and a band under the bust; the one for children",
        ),
        Word::new("bandeau", "Bandeau", "strapless"),
        Word::new("triangle-top", "Triangle top", "two triangles on ties"),
        Word::new("halter-top", "Halter top", "a strap behind the neck"),
        Word::new("sports-top", "Sports top", "racer back or wide straps, high band"),
        Word::new("tankini", "Tankini", "down over the hips"),
    ],
);

/// What a maker may set.
const OWN: &[&[Parameter]] = &[
    &[TOP],
    words::BANDED,
    words::FILLED,
    &[
        NURSING,
        FRONT,
        GATHER,
        BONING,
        COVER,
        NECK_TIE,
        BACK_TIE,
        CHANNEL,
        NECK_STRAP,
        SPORTS_BACK,
        SPORTS_STRAP,
        HEM_HEIGHT,
        SIDE_SLIT,
        LINING_LENGTH,
        skirt::GATHER,
    ],
];

pub(super) const STYLE: StyleSpec = StyleSpec {
    key: "two-piece",
    name: "Two-piece",
    says: "a top and a brief of one cloth",
    family: Family::TwoPiece,
    wearers: &[BodyForm::Woman, BodyForm::Child],
    shared: &[
        Shared::Neckline,
        Shared::Back,
        Shared::Strap,
        Shared::BustShaping,
        Shared::Leg,
        Shared::Seat,
        Shared::Rise,
        Shared::Crotch,
        Shared::Lining,
        Shared::Cups,
        Shared::Skirt,
    ],
    own: &joined::<{ count(OWN) }>(OWN),
    has_trunk_loop: false,
    needs_ties: false,
    usual_fit: Fit::Regular,
    parts: Some(parts),
    draw,
};

/// The top of that word, and the brief.
fn parts(own: &Settings) -> [&'static StyleSpec; 2] {
    let top = match own.get(&TOP) {
        Setting::Word("bandeau") => &bandeau::STYLE,
        Setting::Word("triangle-top") => &triangle_top::STYLE,
        Setting::Word("halter-top") => &halter_top::STYLE,
        Setting::Word("sports-top") => &crop_top::SPORTS,
        Setting::Word("tankini") => &tankini::STYLE,
        _ => &crop_top::CROP,
    };
    [top, &brief::STYLE]
}

/// Draws the two-piece.
///
/// # Errors
/// Any [`Refusal`] of its two parts.
fn draw(job: &Job<'_>) -> Result<Drawn, Refusal> {
    job.word(&TOP)?;
    let [top, below] = parts(&job.design.own);
    if !top.wearers.contains(&job.m.form) {
        return Err(Refusal::Combination {
            parameter: TOP.key,
            why: "this top is not drafted for children; choose \"crop-top\", \"sports-top\" or \"tankini\"",
        });
    }
    if top.needs_ties {
        refuse_ties(job, TOP.key)?;
    }
    let k = job.k.of_style(top);
    let mut drawn = (top.draw)(&Job { k: &k, ..*job })?;
    let below = (below.draw)(job)?;
    add(&mut drawn, below);
    Ok(drawn)
}

/// Adds the brief under its own names.
fn add(drawn: &mut Drawn, mut below: Drawn) {
    for piece in &mut below.pieces {
        if let Some(key) = piece_name(&piece.key) {
            piece.key = key.into();
            piece.name = format!("Brief {}", piece.name.to_lowercase());
        }
    }
    for seam in &mut below.seams {
        if seam.name == "side" {
            seam.name = "brief side";
        }
        for end in [&mut seam.first.0, &mut seam.second.0] {
            if let Some(key) = piece_name(end) {
                *end = key.into();
            }
        }
    }
    for measure in &mut below.finished {
        let (key, name) = match measure.key {
            "side_seam" => ("brief_side_seam", "brief: "),
            "centre_front" => ("brief_centre_front", "brief: "),
            "centre_back" => ("brief_centre_back", "brief: "),
            "top_edge" => ("brief_top_edge", "brief: "),
            key => (key, ""),
        };
        measure.key = key;
        measure.name = format!("{name}{}", measure.name);
    }
    drawn.pieces.extend(below.pieces);
    drawn.seams.extend(below.seams);
    drawn.open_edges.extend(below.open_edges);
    drawn.openings.extend(below.openings);
    drawn.finished.extend(below.finished);
    drawn.findings.extend(below.findings);
    // A tankini has levels of its own down to the hips: each level once, the top's where both have it.
    for level in below.levels {
        if drawn.levels.iter().all(|l| l.level != level.level) {
            drawn.levels.push(level);
        }
    }
    drawn.levels.sort_by_key(|l| l.level);
}

/// The brief's name of a piece that the top may have as well.
fn piece_name(key: &str) -> Option<&'static str> {
    Some(match key {
        "front" => "brief_front",
        "back" => "brief_back",
        "front_lining" => "brief_front_lining",
        "back_lining" => "brief_back_lining",
        _ => return None,
    })
}
