//! The lay itself: pieces and cloth in, every piece placed, and the numbers a maker needs of it.
//!
//! [`lay`] first makes a plain valid lay within a moment, then shortens it until it is told to stop; every better one is handed out
//! at once. Each lay handed out has passed [`crate::check()`].
//!
//! **Shapes and units.** `table`, mm. A piece is mirrored left to right if asked, turned by its angle, then moved.

use kurbo::{Affine, Point};
use serde::Serialize;
use units::Progress;

use crate::bound::{Bound, bounds};
use crate::check::{LayFault, check};
use crate::cloth::LayCloth;
use crate::error::LayError;
use crate::piece::LayPiece;
use crate::polygon;
use crate::search::{self, Found};
use crate::setting::Setting;

/// What to lay on what.
#[derive(Clone, Debug, PartialEq)]
pub struct LayRequest {
    /// Whose suits, by name: pieces refer to them.
    pub garments: Vec<String>,
    /// Everything to cut from this cloth.
    pub pieces: Vec<LayPiece>,
    /// The cloth.
    pub cloth: LayCloth,
}

/// One piece on the cloth.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Placed {
    /// Which piece of the request.
    pub piece: usize,
    /// Which of its copies; the second of a pair is the mirrored one.
    pub copy: u32,
    /// Mirrored left to right before it is turned.
    pub is_reflected: bool,
    /// Turned counter-clockwise by this, radians.
    pub angle: f64,
    /// Only the half with x >= 0, its fold line on the cloth's fold.
    pub is_half: bool,
    /// Layers of cloth cut at once.
    pub layers: u32,
    /// Then moved along the cloth.
    pub x: f64,
    /// And across it.
    pub y: f64,
}

impl Placed {
    /// From the piece's frame to the table.
    pub fn table_from_piece(&self) -> Affine {
        let (sin, cos) = polygon::exact_sin_cos(self.angle);
        let mirror = if self.is_reflected { -1.0 } else { 1.0 };
        Affine::new([mirror * cos, mirror * sin, -sin, cos, self.x, self.y])
    }

    /// The outline on the table: the whole, or the half that lies on the fold.
    pub fn outline(&self, piece: &LayPiece) -> Vec<Point> {
        let ring = if self.is_half {
            crate::setting::right_half(&piece.outline)
        } else {
            piece.outline.clone()
        };
        let transform = self.table_from_piece();
        ring.into_iter().map(|p| transform * p).collect()
    }
}

/// How long and how hard to search.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// Same seed, workers and passes: same lay.
    pub seed: u64,
    /// Searches side by side; as many as the pool has threads.
    pub workers: usize,
    /// So many passes of fixed work; without it until the progress says stop.
    pub passes: Option<u64>,
}

/// A lay and what is known of it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Lay {
    /// Every piece, in the order of the request.
    pub placed: Vec<Placed>,
    /// From the first usable millimetre to the end of the last piece.
    pub length_mm: f64,
    /// With both end allowances: what the lay takes off the roll.
    pub cloth_mm: f64,
    /// Piece area / (usable width x length), layers counted.
    pub usage: f64,
    /// The least length anyone could reach, and why.
    pub bound: Bound,
    /// Whether it fits the cloth there is; true when it is bought by the length.
    pub fits: bool,
    /// Passes of work done.
    pub passes: u64,
    /// Seed of the search.
    pub seed: u64,
    /// Searches side by side.
    pub workers: usize,
    /// Lays the search offered that the checker refused and nobody was shown: a fault of ours when it is not 0.
    pub rejected: usize,
}

impl LayRequest {
    /// What is wrong with the numbers, before any geometry.
    pub(crate) fn faults(&self) -> Vec<LayError> {
        let mut all = Vec::new();
        let cloth = &self.cloth;
        let mut positive = |what: &'static str, value: f64, least: f64| {
            let is_fine = value.is_finite() && value >= least && value <= MOST_MM;
            if !is_fine {
                all.push(LayError::OutOfRange {
                    what,
                    value,
                    least,
                    most: MOST_MM,
                });
            }
        };
        positive("width", cloth.width_mm, 1.0);
        positive("length", cloth.length_mm.unwrap_or(1.0), 1.0);
        positive("selvedge margin", cloth.selvedge_margin_mm, 0.0);
        positive("end allowance", cloth.end_allowance_mm, 0.0);
        positive("gap", cloth.gap_mm, 0.0);
        positive("repeat along", cloth.repeat_mm.0.unwrap_or(1.0), 1.0);
        positive("repeat across", cloth.repeat_mm.1.unwrap_or(1.0), 1.0);
        if let crate::Fold::Partial { depth_mm } = cloth.fold {
            // Folded over by more than half, it would lie past the other selvedge.
            let most = (0.5 * cloth.width_mm).clamp(1.0, MOST_MM);
            if !(depth_mm >= 1.0 && depth_mm <= most) {
                all.push(LayError::OutOfRange {
                    what: "depth of the fold",
                    value: depth_mm,
                    least: 1.0,
                    most,
                });
            }
        }
        if self.pieces.is_empty() {
            all.push(LayError::NoPieces);
        }
        for piece in &self.pieces {
            if piece.outline.iter().any(|p| !p.is_finite()) {
                all.push(LayError::BadOutline {
                    piece: piece.name.clone(),
                });
            }
        }
        let needs_question = cloth.has_one_way_print && !cloth.print_on_its_side;
        if needs_question
            && let Some(piece) = self
                .pieces
                .iter()
                .find(|p| p.orientation == cloth::Orientation::Turned)
        {
            all.push(LayError::PrintAgainstStretch {
                piece: piece.name.clone(),
                cloth: cloth.name.clone(),
            });
        }
        all
    }

    /// The angles at which a piece may lie, radians counter-clockwise as in [`Placed::angle`], the plain one first; tilt left out.
    pub fn angles(&self, piece: &LayPiece) -> Vec<f64> {
        let all = crate::setting::angles(&self.cloth, piece);
        all.into_iter().map(|(angle, _)| angle).collect()
    }

    /// Area of everything to cut, mm2.
    pub fn area_mm2(&self) -> f64 {
        self.pieces
            .iter()
            .map(|p| f64::from(p.count) * p.area_mm2())
            .sum()
    }
}

/// No cloth is longer or wider than a kilometre.
const MOST_MM: f64 = 1e6;

/// Lays the pieces. `warm`: an earlier or hand-moved lay to start from, overlaps allowed. `better` gets each better lay at once.
///
/// Works in the rayon pool of the caller. The first lay comes within a moment; the search ends after the passes of `effort`, when the
/// progress says stop, or when the lay reaches its bound. Progress hears usage, length and bound.
///
/// # Errors
/// Everything that stands against it, before the search begins: numbers out of range, outlines that cross themselves, pieces too wide
/// for the cloth, and [`LayError::PrintAgainstStretch`], a question only the maker can answer. [`LayError::Invalid`] if the lay found
/// does not pass its check, which is a fault of this program.
pub fn lay(
    request: &LayRequest,
    effort: &Effort,
    warm: Option<&[Placed]>,
    progress: &dyn Progress,
    better: &mut dyn FnMut(&Lay),
) -> Result<Lay, Vec<LayError>> {
    lay_around(request, &[], effort, warm, progress, better)
}

/// The same around `pinned`: pieces that stay where a hand placed them, and are part of the lay handed out.
///
/// What is pinned passes [`crate::check()`] before the search, so that the rest can. Pieces of a garment with one direction follow the
/// pinned ones. `warm` may hold pinned pieces too; they count where they are pinned.
///
/// # Errors
/// As [`lay`]; [`LayError::Pinned`] when what is pinned breaks a rule by itself.
pub fn lay_around(
    request: &LayRequest,
    pinned: &[Placed],
    effort: &Effort,
    warm: Option<&[Placed]>,
    progress: &dyn Progress,
    better: &mut dyn FnMut(&Lay),
) -> Result<Lay, Vec<LayError>> {
    let setting = Setting::around(request, pinned)?;
    // The rest is not there yet, so that what is missing is no fault.
    let faults: Vec<String> = check(request, pinned)
        .iter()
        .filter(|f| !matches!(f, LayFault::Count { .. }))
        .map(ToString::to_string)
        .collect();
    if !faults.is_empty() {
        return Err(vec![LayError::Pinned {
            reason: faults.join("; "),
        }]);
    }
    let inner = search::Effort {
        seed: effort.seed,
        chains: effort.workers,
        rounds: effort.passes,
        // Shorter than what is pinned it cannot become.
        enough: (!pinned.is_empty()).then(|| end_of(request, pinned) - setting.offset.x),
    };
    let bound = bounds(request);
    run(request, &setting, pinned, &inner, bound, warm, progress, better)
}

/// The same, but content as soon as the lay fits the cloth there is: for asking whether it does.
///
/// # Errors
/// As [`lay`].
pub fn lay_until_it_fits(
    request: &LayRequest,
    effort: &Effort,
    progress: &dyn Progress,
    better: &mut dyn FnMut(&Lay),
) -> Result<Lay, Vec<LayError>> {
    let setting = Setting::new(request)?;
    let bound = bounds(request);
    let inner = search::Effort {
        seed: effort.seed,
        chains: effort.workers,
        rounds: effort.passes,
        enough: setting.enough,
    };
    run(request, &setting, &[], &inner, bound, None, progress, better)
}

#[expect(
    clippy::too_many_arguments,
    reason = "one private function behind the public ones, each argument named there"
)]
fn run(
    request: &LayRequest,
    setting: &Setting,
    pinned: &[Placed],
    effort: &search::Effort,
    bound: Bound,
    warm: Option<&[Placed]>,
    progress: &dyn Progress,
    better: &mut dyn FnMut(&Lay),
) -> Result<Lay, Vec<LayError>> {
    let warm = warm.and_then(|w| warm_poses(setting, w));
    let of = |found: &Found| finished(request, setting, pinned, found, bound, effort);
    let told = |words: &Lay, share: f64| {
        let says = format!(
            "{:.1} % used, {:.0} mm, at least {:.0}",
            100.0 * words.usage,
            words.length_mm,
            words.bound.length_mm
        );
        progress.at((1000.0 * share) as u64, 1000, &says);
    };
    let (mut last, mut rejected) = (None::<Lay>, 0);
    let found = search::solve(
        &setting.task,
        effort,
        warm.as_deref(),
        progress,
        &mut |share, found: Option<&Found>| {
            if let Some(found) = found {
                let lay = of(found);
                // What does not pass is never shown; the last one is judged again below.
                if check(request, &lay.placed).is_empty() {
                    better(&lay);
                    last = Some(lay);
                } else {
                    rejected += 1;
                }
            }
            if let Some(lay) = &last {
                told(lay, share);
            }
        },
    );
    let lay = of(&found);
    let faults = check(request, &lay.placed);
    if faults.is_empty() {
        return Ok(Lay { rejected, ..lay });
    }
    // A lay that fails its check is a fault of ours; an earlier one that passed is still good.
    match last {
        Some(valid) => Ok(Lay {
            passes: found.rounds,
            rejected: rejected.max(1),
            ..valid
        }),
        None => Err(vec![LayError::Invalid {
            reason: faults
                .iter()
                .map(ToString::to_string)
                .collect::<Vec<_>>()
                .join("; "),
        }]),
    }
}

/// One pose for each item, if the earlier lay has them all.
fn warm_poses(setting: &Setting, placed: &[Placed]) -> Option<Vec<search::Pose>> {
    (0..setting.behind.len())
        .map(|item| {
            let back = &setting.behind[item];
            let same = placed
                .iter()
                .find(|p| p.piece == back.piece && p.copy == back.copy)?;
            setting.pose(item, same)
        })
        .collect()
}

/// The end of the last of these pieces, `table`.
fn end_of(request: &LayRequest, placed: &[Placed]) -> f64 {
    placed
        .iter()
        .filter_map(|p| Some(p.outline(request.pieces.get(p.piece)?)))
        .flatten()
        .map(|p| p.x)
        .fold(0.0, f64::max)
}

fn finished(
    request: &LayRequest,
    setting: &Setting,
    pinned: &[Placed],
    found: &Found,
    bound: Bound,
    effort: &search::Effort,
) -> Lay {
    let poses = found.poses.iter().enumerate();
    let mut placed: Vec<Placed> = poses.map(|(item, pose)| setting.placed(item, pose)).collect();
    placed.extend_from_slice(pinned);
    placed.sort_by_key(|p| (p.piece, p.copy));
    Lay {
        passes: found.rounds,
        seed: effort.seed,
        workers: effort.chains,
        ..measured(request, placed, bound)
    }
}

fn measured(request: &LayRequest, placed: Vec<Placed>, bound: Bound) -> Lay {
    let cloth = &request.cloth;
    let length_mm = (end_of(request, &placed) - cloth.end_allowance_mm).max(0.0);
    let cloth_mm = length_mm + 2.0 * cloth.end_allowance_mm;
    Lay {
        usage: request.area_mm2() / (cloth.usable_width_mm() * length_mm).max(1e-9),
        fits: cloth.length_mm.is_none_or(|there_is| cloth_mm <= there_is + 1e-6),
        placed,
        length_mm,
        cloth_mm,
        bound,
        passes: 0,
        seed: 0,
        workers: 0,
        rejected: 0,
    }
}

impl Lay {
    /// What is known of pieces that lie so, without a search: of a lay that was kept, or moved by hand. It is not judged here; that is
    /// what [`crate::check()`] is for.
    pub fn of(request: &LayRequest, placed: Vec<Placed>) -> Lay {
        measured(request, placed, bounds(request))
    }
}
