//! Copying a favourite: from flat measures of a suit that fits to a design, in another cloth, that fits the same.
//!
//! The measures are compared with a draft for the wearer in the old cloth, and the parameters of that draft are moved until they
//! come as close as they can, each measure counting by how sure it is. What is found is a design and the share of the old
//! cloth's stretch the suit uses; the new cloth is cut to use the same share.
//!
//! Every measure is also held against all others. When they do not agree, each doubtful one is left out in turn: the one
//! without which the rest agree is most likely measured wrong.
//!
//! **Shapes and units.** mm, flat, finished; shares of stretch as ratios.
//! **Source.** Least squares of the deviations; own.
//! **Limits.** What the suit has that our draft has not (its own side shape, an armhole cut lower than usual, a gusset) is taken for
//! fit or for noise. Elastic that gathers an edge makes that edge read short.

mod conflict;
mod ease;
mod measure;
mod model;
mod report;
mod words;

pub use conflict::{Conflict, Suspect};
pub use ease::{EaseOnNewCloth, WornEase, WorstEase};
pub use measure::{Favourite, FlatMeasure, TakenMeasure};
pub use model::{HeldParameter, SuitParameter, finished_measure};
pub use report::{FavouriteCopy, FoundParameter, MeasureMet, SeatJudged, SeatOnSuit};

use body::Body;
use cloth::ClothPlan;
use draft::{Design, Seat, draft};

use crate::error::CopyError;
use crate::least_squares::{Enough, Solution, Unknown, minimise};
use model::Model;

/// Lengths a suit can have, mm.
const LENGTHS: (f64, f64) = (5.0, 3000.0);
/// Deviations a tape can have, mm.
const DEVIATIONS: (f64, f64) = (0.5, 50.0);

/// What is needed to copy a suit.
#[derive(Clone, Copy, Debug)]
pub struct CopyRequest<'a> {
    /// The suit.
    pub favourite: &'a Favourite,
    /// The wearer it fits.
    pub body: &'a Body,
    /// The cloth it is made of. Shrinkage still to come is ignored: it has been worn and washed.
    pub old: &'a ClothPlan,
    /// The cloth of the copy.
    pub new: &'a ClothPlan,
    /// Style and shapes of the suit, as seen: neckline, back, skirt. What is measured is found; the rest is kept.
    pub shapes: &'a Design,
    /// Whether the seat of `shapes` was seen, or is to be judged from the measures.
    pub seat: SeatOnSuit,
}

/// The design and ease of a favourite suit, carried over to a new cloth.
///
/// Deterministic. The answer has what each measure is met by, how sure each parameter is, which measures are not checked by
/// any other, and, when the measures contradict each other, which is most likely wrong. If the others agree without it the
/// design is taken from them, and that is said.
///
/// # Errors
/// All [`CopyError`]s found in the measures; or the one reason why no suit could be drafted to compare with.
pub fn copy_favourite(request: &CopyRequest<'_>) -> Result<FavouriteCopy, Vec<CopyError>> {
    let mut faults = faults(request.favourite);
    faults.extend(too_few(request));
    if !faults.is_empty() {
        return Err(faults);
    }
    let seats = match request.seat {
        SeatOnSuit::Seen => vec![request.shapes.seat],
        SeatOnSuit::Judge => vec![Seat::Full, Seat::Moderate, Seat::Cheeky],
    };
    let mut tried = Vec::with_capacity(seats.len());
    let mut refused = Vec::new();
    for seat in seats {
        let shapes = Design {
            seat,
            ..request.shapes.clone()
        };
        match Recovered::of(request, &shapes) {
            Ok(found) => tried.push((seat, found)),
            Err(error) => refused.push(error),
        }
    }
    tried.sort_by(|(_, a), (_, b)| a.sum().total_cmp(&b.sum()));
    let seat_judged = (request.seat == SeatOnSuit::Judge)
        .then(|| SeatJudged::among(&tried.iter().map(|(s, f)| (*s, f.sum())).collect::<Vec<_>>()))
        .flatten();
    let Some((_, found)) = tried.into_iter().next() else {
        return Err(refused.into_iter().take(1).collect());
    };
    let copy = report::report(request, found, seat_judged)?;
    draft(request.body, request.new, &copy.design).map_err(|r| vec![CopyError::NotInNewCloth(r)])?;
    Ok(copy)
}

/// A suit found from all measures, and, where they disagree, from the rest.
struct Recovered<'a> {
    model: Model<'a>,
    taken: Vec<TakenMeasure>,
    with_all: Solution,
    conflict: Option<conflict::Search>,
}

impl<'a> Recovered<'a> {
    fn of(request: &CopyRequest<'a>, shapes: &Design) -> Result<Recovered<'a>, CopyError> {
        let favourite = request.favourite;
        let model = Model::new(request.body, request.old, shapes, favourite);
        let mut taken = favourite.measures.clone();
        taken.sort_by_key(|t| t.measure);
        let not_taken = || -> Vec<FlatMeasure> {
            let all = FlatMeasure::ALL.into_iter();
            all.filter(|&m| m != FlatMeasure::SkirtLength && !favourite.has(m))
                .collect()
        };
        if taken.len() < model.found.len() {
            return Err(CopyError::FewerThanUnknown {
                taken: taken.len(),
                unknown: model.found.len(),
                take: not_taken(),
            });
        }
        let unknowns = model.unknowns(favourite);
        let start: Vec<f64> = unknowns.iter().map(|u| u.start.clamp(u.low, u.high)).collect();
        let suit = model.suit(&start).map_err(CopyError::NotDrafted)?;
        if let Some(missing) = taken
            .iter()
            .find(|t| finished_measure(&suit, t.measure).is_none())
        {
            return Err(CopyError::NotOnThisSuit {
                measure: missing.measure,
            });
        }
        let solved = solve(&model, &taken, &unknowns).map(|found| {
            if conflict::agrees(&taken, &found) {
                return found;
            }
            // A second start, high and tight, in case the first ran into a valley of its own.
            let other = solve(&model, &taken, &model.second_start(&unknowns));
            let best = other.filter(|o| o.sum_of_squares() < found.sum_of_squares());
            best.unwrap_or(found)
        });
        let with_all = solved.ok_or_else(|| CopyError::CannotTell { take: not_taken() })?;
        let is_told = with_all.covariance().is_some();
        if !is_told {
            return Err(CopyError::CannotTell { take: not_taken() });
        }
        let conflict = conflict::search(&model, &taken, &unknowns, &with_all);
        Ok(Recovered {
            model,
            taken,
            with_all,
            conflict,
        })
    }

    /// Sum of squares the seats are compared by.
    fn sum(&self) -> f64 {
        self.with_all.sum_of_squares()
    }
}

fn solve(model: &Model<'_>, taken: &[TakenMeasure], unknowns: &[Unknown]) -> Option<Solution> {
    minimise(unknowns, Enough::OF_DEVIATIONS, |values| {
        model.residuals(taken, values)
    })
}

fn faults(favourite: &Favourite) -> Vec<CopyError> {
    let mut faults = Vec::new();
    for (i, taken) in favourite.measures.iter().enumerate() {
        let measure = taken.measure;
        let mut check = |what, mm: f64, (low, high): (f64, f64)| {
            if !(low..=high).contains(&mm) {
                faults.push(CopyError::OutOfRange {
                    measure,
                    what,
                    mm,
                    low,
                    high,
                });
            }
        };
        check("length", taken.length.get(), LENGTHS);
        check("deviation", taken.sigma(), DEVIATIONS);
        if favourite.measures.iter().take(i).any(|t| t.measure == measure) {
            faults.push(CopyError::Twice { measure });
        }
    }
    faults
}

fn too_few(request: &CopyRequest<'_>) -> Vec<CopyError> {
    let mut faults = Vec::new();
    for (what, take) in [
        (
            "width",
            [
                FlatMeasure::AcrossBust,
                FlatMeasure::AcrossWaist,
                FlatMeasure::AcrossAboveLeg,
            ],
        ),
        (
            "length",
            [
                FlatMeasure::SideSeam,
                FlatMeasure::CentreFront,
                FlatMeasure::CentreBack,
            ],
        ),
    ] {
        if !take.iter().any(|&m| request.favourite.has(m)) {
            faults.push(CopyError::TooFew {
                what,
                take: take.to_vec(),
            });
        }
    }
    if request.shapes.skirt.is_none() && request.favourite.has(FlatMeasure::SkirtLength) {
        faults.push(CopyError::NotOnThisSuit {
            measure: FlatMeasure::SkirtLength,
        });
    }
    faults
}
