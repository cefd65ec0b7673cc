//! Cups and pockets of a top: what goes together, where it is marked, the pockets themselves.
//!
//! Cups are sewn to the lining before it is closed (`marks`) or slipped into a pocket of it afterwards (`pocket`). A pocket for a
//! prosthesis is a cup's pocket with room for its rim.
//!
//! **Source.** Common practice, no single source; the room own.

use cloth::Layer;

use super::words::{self, Filling, Sides};
use crate::build::PieceBuilder;
use crate::design::{Cups, LiningCover};
use crate::refusal::Refusal;
use crate::style::cups::{CupPlace, PocketOpening};
use crate::style::{Drawn, Job};

/// How much further a prosthesis pocket reaches than a cup's: the prosthesis has a rim, mm (own).
const PROSTHESIS_ROOM: f64 = 10.0;

/// What a top lines: nothing, the front, or all of it. The least a design can ask for, the crotch of a suit, is the front of a top.
pub(crate) fn lining(job: &Job<'_>) -> LiningCover {
    job.design.lining_worn()
}

/// What does not go together.
///
/// # Errors
/// [`Refusal::Combination`] for the first such pair.
pub(crate) fn check(job: &Job<'_>, filling: &Filling) -> Result<(), Refusal> {
    let refuse = |parameter, why| Err(Refusal::Combination { parameter, why });
    let is_lined = lining(job) != LiningCover::None;
    check_prosthesis(job, filling, is_lined)?;
    if !is_lined && job.design.cups == Cups::Pocket {
        return refuse(
            "cups",
            "a cup pocket is sewn to the lining; set lining to \"front\" or \"full\", or cups to \"marks\"",
        );
    }
    Ok(())
}

/// What does not go together with a prosthesis pocket.
///
/// # Errors
/// [`Refusal::Combination`] for the first such pair.
pub(crate) fn check_prosthesis(job: &Job<'_>, filling: &Filling, is_lined: bool) -> Result<(), Refusal> {
    let refuse = |parameter, why| Err(Refusal::Combination { parameter, why });
    if filling.prosthesis.is_some() {
        if !job.m.is_woman() {
            return refuse(
                words::PROSTHESIS_POCKET.key,
                "a prosthesis pocket is drafted for women; set it to \"none\"",
            );
        }
        if !is_lined {
            return refuse(
                words::PROSTHESIS_POCKET.key,
                "a pocket is sewn to the lining; set lining to \"front\" or \"full\"",
            );
        }
        if job.design.cups == Cups::Pocket {
            return refuse(
                words::PROSTHESIS_POCKET.key,
                "cup and prosthesis would share a pocket; set cups to \"none\" and slip either into this one",
            );
        }
    }
    Ok(())
}

/// Marks the places of cups and pockets, on the lining where there is one. `place` gives a place by the share of the cup's radius and
/// mm more; `is_centre` for a centre front with princess seams.
///
/// # Errors
/// [`Refusal::Combination`] where no cup fits.
pub(crate) fn marks(
    b: PieceBuilder,
    job: &Job<'_>,
    filling: &Filling,
    layer: Layer,
    is_centre: bool,
    place: &dyn Fn(f64, f64) -> CupPlace,
) -> Result<PieceBuilder, Refusal> {
    let is_lined = lining(job) != LiningCover::None;
    if layer == Layer::Mesh || (layer == Layer::Lining) != is_lined {
        return Ok(b);
    }
    marks_here(b, job, filling, is_centre, place)
}

/// The same on a piece that is known to carry them.
///
/// # Errors
/// As [`marks`].
pub(crate) fn marks_here(
    mut b: PieceBuilder,
    job: &Job<'_>,
    filling: &Filling,
    is_centre: bool,
    place: &dyn Fn(f64, f64) -> CupPlace,
) -> Result<PieceBuilder, Refusal> {
    let put = |b, place: CupPlace, text: &str| {
        if is_centre {
            place.inner_mark(b, &format!("{text}, centred on the bust point"))
        } else {
            place.mark(b, text)
        }
    };
    if job.design.cups != Cups::None {
        let text = match filling.cups {
            Sides::Both => "cup",
            Sides::Left => "cup, the wearer's left only",
            Sides::Right => "cup, the wearer's right only",
        };
        b = put(b, place(1.0, 0.0), text)?;
    }
    if let Some(sides) = filling.prosthesis {
        let text = match sides {
            Sides::Both => "prosthesis pocket",
            Sides::Left => "prosthesis pocket, the wearer's left only",
            Sides::Right => "prosthesis pocket, the wearer's right only",
        };
        b = put(b, place(1.0, PROSTHESIS_ROOM), text)?;
    }
    Ok(b)
}

/// The pockets themselves.
///
/// # Errors
/// As [`marks`], or any [`Refusal`] of a piece.
pub(crate) fn pockets(
    job: &Job<'_>,
    filling: &Filling,
    place: &dyn Fn(f64, f64) -> CupPlace,
    drawn: &mut Drawn,
) -> Result<(), Refusal> {
    let opening = if filling.opens_at_top {
        PocketOpening::Top
    } else {
        PocketOpening::Side
    };
    if job.design.cups == Cups::Pocket {
        let name = match filling.cups {
            Sides::Both => "Cup pocket",
            Sides::Left => "Cup pocket, the wearer's left",
            Sides::Right => "Cup pocket, the wearer's right (turn the paper over)",
        };
        let piece = place(1.0, 0.0).pocket(job, ("cup_pocket", name), filling.cups.count(), opening)?;
        drawn.pieces.push(piece);
    }
    if let Some(sides) = filling.prosthesis {
        let name = match sides {
            Sides::Both => "Prosthesis pocket",
            Sides::Left => "Prosthesis pocket, the wearer's left",
            Sides::Right => "Prosthesis pocket, the wearer's right (turn the paper over)",
        };
        let place = place(1.0, PROSTHESIS_ROOM);
        let piece = place.pocket(job, ("prosthesis_pocket", name), sides.count(), opening)?;
        drawn.pieces.push(piece);
    }
    Ok(())
}
