//! What a maker may set on a top: parameters the tops share among themselves.
//!
//! **Source.** Ranges and usual values own; widths of bands and ties common practice, no single source.

use crate::parameter::{Parameter, Word};
use crate::refusal::Refusal;
use crate::style::Job;
use crate::style::motif::MOTIF_REPEAT;

/// How the lower edge of a short top is finished.
pub(crate) const LOWER_EDGE: Parameter = Parameter::choice(
    "lower_edge",
    "Lower edge",
    "what holds the top under the bust",
    &[
        Word::new(
            "band",
            "Band",
            "a folded band with wide elastic in it; holds most",
        ),
        Word::new(
            "elastic",
            "Elastic",
            "the edge turned over its elastic; flatter, holds less",
        ),
    ],
);

/// Finished height of the band.
pub(crate) const BAND_HEIGHT: Parameter = Parameter::length(
    "band_height",
    "Band",
    "finished height of the band under the bust; it takes elastic up to 3 mm narrower than itself",
    (20.0, 38.0, 60.0),
)
.only_with("lower_edge", &["band"]);

/// How far below the under-bust a top ends.
pub(crate) const BELOW_UNDERBUST: Parameter = Parameter::length(
    "below_underbust",
    "Below the under-bust",
    "how far below the under-bust the top ends, before a band is added",
    (0.0, 0.0, 80.0),
);

/// How a top is put on.
pub(crate) const CLOSURE: Parameter = Parameter::choice(
    "back_closure",
    "Closure",
    "how the top is put on",
    &[
        Word::new("pulled-on", "Pulled on", "one ring, over the shoulders"),
        Word::new(
            "hooked",
            "Hooked at the back",
            "open at the centre back, with a swim hook",
        ),
    ],
);

/// The third layer.
pub(crate) const MESH: Parameter = Parameter::choice(
    "power_mesh",
    "Power mesh",
    "a firm layer between shell and lining that carries what the shell would stretch under",
    &[
        Word::new("none", "None", "shell and lining alone"),
        Word::new("front", "Front", "under the bust only"),
        Word::new(
            "front-and-wings",
            "Front and wings",
            "all round: the back holds too",
        ),
    ],
);

/// Which side is padded.
pub(crate) const CUP_SIDE: Parameter = Parameter::choice(
    "cup_side",
    "Cups on",
    "which side gets a cup, for a bust that is fuller on one side",
    &[
        Word::new("both", "Both sides", "a pair of cups"),
        Word::new("left", "The wearer's left", "one cup"),
        Word::new("right", "The wearer's right", "one cup"),
    ],
)
.only_with("cups", &[]);

/// A pocket for a breast prosthesis.
pub(crate) const PROSTHESIS_POCKET: Parameter = Parameter::choice(
    "prosthesis_pocket",
    "Prosthesis pocket",
    "a pocket in the lining that holds a breast prosthesis in its place",
    &[
        Word::new("none", "None", "no pocket"),
        Word::new("left", "The wearer's left", "one pocket"),
        Word::new("right", "The wearer's right", "one pocket"),
        Word::new("both", "Both sides", "two pockets"),
    ],
);

/// Where pockets are open.
pub(crate) const POCKET_OPENING: Parameter = Parameter::choice(
    "pocket_opening",
    "Pocket opening",
    "where a pocket is left open to slip cup or prosthesis in",
    &[
        Word::new(
            "side",
            "At the side",
            "towards the underarm; a prosthesis cannot fall out",
        ),
        Word::new("top", "At the top", "easier to reach when worn"),
    ],
)
.only_with("prosthesis_pocket", &["left", "right", "both"])
.or_with("cups", &["pocket"]);

/// A front that can be lifted.
pub(crate) const NURSING: Parameter = Parameter::switch(
    "nursing",
    "Nursing front",
    "the outer front hangs free and is lifted; the lining under it, on its own band or shelf, has an opening on each side",
    false,
);

/// How the neck of a halter closes.
pub(crate) const NECK_STRAP: Parameter = Parameter::choice(
    "neck_strap",
    "Neck strap",
    "how the strap closes behind the neck",
    &[
        Word::new("tied", "Tied", "two ends of 35 cm to tie"),
        Word::new("hooked", "Hooked", "a swim hook behind the neck"),
    ],
);

/// How far down the lining of a long top reaches.
pub(crate) const LINING_LENGTH: Parameter = Parameter::choice(
    "lining_length",
    "Lining ends",
    "how far down the lining reaches",
    &[
        Word::new(
            "shelf",
            "Under the bust",
            "a shelf on elastic of its own: it holds, and the top hangs free of it",
        ),
        Word::new("hem", "At the hem", "shell and lining are one to the hem"),
    ],
);

/// What every short top with a band has: lower edge and closure.
pub(crate) const BANDED: &[Parameter] = &[LOWER_EDGE, BAND_HEIGHT, BELOW_UNDERBUST, CLOSURE];

/// Cups and pockets in a lining.
pub(crate) const POCKETS: &[Parameter] = &[CUP_SIDE, PROSTHESIS_POCKET, POCKET_OPENING];

/// What is between shell and lining of a top of pieces that a print is laid on.
pub(crate) const FILLED: &[Parameter] = &[MESH, CUP_SIDE, PROSTHESIS_POCKET, POCKET_OPENING, MOTIF_REPEAT];

/// How a top closes at its lower edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Lower {
    /// A folded band of this finished height, mm on the body.
    Band(f64),
    /// Turned over elastic.
    Elastic,
    /// A plain turned hem.
    Hem,
}

/// Which parts get the third layer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Mesh {
    None,
    Front,
    FrontAndWings,
}

/// One side of the body, or both.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sides {
    Both,
    Left,
    Right,
}

impl Sides {
    fn of(word: &str) -> Sides {
        match word {
            "left" => Sides::Left,
            "right" => Sides::Right,
            _ => Sides::Both,
        }
    }

    /// How many there are.
    pub(crate) const fn count(self) -> u32 {
        match self {
            Sides::Both => 2,
            Sides::Left | Sides::Right => 1,
        }
    }
}

/// The maker's words on pockets and cups.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Filling {
    pub(crate) cups: Sides,
    pub(crate) prosthesis: Option<Sides>,
    pub(crate) opens_at_top: bool,
}

impl Filling {
    pub(crate) fn of(job: &Job<'_>) -> Result<Filling, Refusal> {
        Ok(Filling {
            cups: Sides::of(job.word(&CUP_SIDE)?),
            prosthesis: match job.word(&PROSTHESIS_POCKET)? {
                "none" => None,
                word => Some(Sides::of(word)),
            },
            opens_at_top: job.word(&POCKET_OPENING)? == "top",
        })
    }
}

/// The lower edge of a short top.
pub(crate) fn lower(job: &Job<'_>) -> Result<Lower, Refusal> {
    Ok(match job.word(&LOWER_EDGE)? {
        "elastic" => Lower::Elastic,
        _ => Lower::Band(job.number(&BAND_HEIGHT)?),
    })
}

pub(crate) fn mesh(job: &Job<'_>) -> Result<Mesh, Refusal> {
    Ok(match job.word(&MESH)? {
        "front" => Mesh::Front,
        "front-and-wings" => Mesh::FrontAndWings,
        _ => Mesh::None,
    })
}

/// Whether the front can be lifted to nurse.
///
/// # Errors
/// [`Refusal::Combination`] for anybody but a woman.
pub(crate) fn is_nursing(job: &Job<'_>) -> Result<bool, Refusal> {
    let is_on = job.is_on(&NURSING)?;
    if is_on && !job.m.is_woman() {
        return Err(Refusal::Combination {
            parameter: NURSING.key,
            why: "a nursing front is for women; leave it off",
        });
    }
    Ok(is_on)
}

pub(crate) fn is_hooked(job: &Job<'_>) -> Result<bool, Refusal> {
    Ok(job.word(&CLOSURE)? == "hooked")
}
