//! "Which of my cloths can make it": every cloth of the right use and every piece of it at hand, each laid in earnest.
//!
//! A cloth that stretches otherwise than the one the suit is drafted for needs other pieces: the suit is drafted anew for it first, and the
//! answer says so. What does not fit is asked about once more with one thing changed. Every piece is laid by a fixed amount of work from
//! a fixed seed, so that the same stock gives the same answers on any machine.
//!
//! **Shapes and units.** Suits drafted for each cloth and pieces of cloth in, one answer a piece out, in their order; mm.
//! **Limits.** "Not enough" is what was found in the work allowed, unless no lay can be that short: then it says so.

use std::sync::atomic::{AtomicU64, Ordering};

use cloth::Layer;
use lay::{
    Change, Effort, Flaw, LayError, LayPiece, LayRequest, changes_at_hand, lay as lay_pieces,
    lay_until_it_fits, pieces_of, try_changes,
};
use rayon::prelude::*;
use units::{LengthUnit, Mm, Progress, Severity, Silent};

use crate::laying::{Laid, LaySettings, LayTask, QUICK_PASSES, lay_tasks, quick_lay};
use crate::laying_kept::{AtHand, on_table};
use crate::order::{Order, work_out};
use crate::suit_file::{Faults, SuitFile};
use crate::view::{by, length, sentence};

/// Work on each piece of cloth, and on each change.
const PIECE_PASSES: u64 = 12;
const CHANGE_PASSES: u64 = 6;
const SEED: u64 = 1;
/// Changes that are told of at most.
const MOST_CHANGES: usize = 4;
/// Longest that is called a hair: not enough by less is said in the smallest unit all the same.
const HAIR_MM: f64 = 0.5;

/// A suit drafted for a cloth.
#[derive(Clone, Debug)]
pub struct SuitOn {
    /// The suit file with this cloth.
    pub file: SuitFile,
    /// Worked out.
    pub order: Order,
}

/// A cloth that is asked about.
#[derive(Clone, Debug)]
pub struct ClothAsked {
    /// Its name.
    pub name: String,
    /// The suit drafted for it, or why it cannot be: a sentence.
    pub suit: Result<Box<SuitOn>, String>,
    /// Its flaws on the flat cloth.
    pub flaws: Vec<Flaw>,
    /// What there is of it; none for an entry that cannot be read.
    pub pieces: Vec<Option<AtHand>>,
}

/// Whether a piece of cloth will do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// It is enough.
    Enough,
    /// It is not.
    Short,
    /// It cannot be compared, and why is said.
    Apart,
}

/// What came of one piece of cloth.
#[derive(Clone, Debug, PartialEq)]
pub struct CanMake {
    /// Which cloth of those asked.
    pub cloth: usize,
    /// Which of its pieces; none where nothing is written of it.
    pub piece: Option<usize>,
    /// Whether it will do.
    pub verdict: Verdict,
    /// What came of it, in sentences.
    pub says: String,
    /// The single changes that would make it do, in words.
    pub changes: Vec<String>,
    /// Whether the suit was drafted anew for it.
    pub is_redrafted: bool,
    /// What must stop in this cloth and does not in the suit's own: a sentence; empty for nothing.
    pub stops: String,
    /// The lay, if there is one.
    pub laid: Option<Laid>,
}

/// It was asked to stop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stopped;

/// The suit as it is, and by which rules it is laid.
#[derive(Clone, Copy, Debug)]
pub struct Asked<'a> {
    /// The suit in its own cloth.
    pub own: &'a SuitOn,
    /// Which layer is cut.
    pub layer: Layer,
    /// The rules.
    pub settings: &'a LaySettings,
    /// The maker's unit.
    pub unit: LengthUnit,
}

/// Passes the wish to stop on, and keeps the rest to itself: many lays run side by side.
struct Halts<'a>(&'a (dyn Progress + Sync));

impl Progress for Halts<'_> {
    fn at(&self, _: u64, _: u64, _: &str) {}

    fn should_stop(&self) -> bool {
        self.0.should_stop()
    }
}

/// Answers for every piece of every cloth, in their order.
///
/// # Errors
/// [`Stopped`] when that was asked for.
pub fn which_can_make(
    asked: &Asked<'_>,
    cloths: &[ClothAsked],
    progress: &(dyn Progress + Sync),
) -> Result<Vec<CanMake>, Stopped> {
    let places: Vec<(usize, Option<usize>)> = cloths
        .iter()
        .enumerate()
        .flat_map(|(cloth, of)| {
            let pieces: Vec<_> = if of.pieces.is_empty() || of.suit.is_err() {
                vec![(cloth, None)]
            } else {
                (0..of.pieces.len()).map(|piece| (cloth, Some(piece))).collect()
            };
            pieces
        })
        .collect();
    let own = pieces_of(
        &asked.own.order.draft,
        asked.layer,
        0,
        asked.settings.repeat_mm.is_some(),
    );
    let done = AtomicU64::new(0);
    let of = places.len() as u64;
    places
        .into_par_iter()
        .map(|(at, piece)| {
            let cloth = cloths.get(at).ok_or(Stopped)?;
            if progress.should_stop() {
                return Err(Stopped);
            }
            let words = match piece.and_then(|p| cloth.pieces.get(p)?.as_ref()) {
                Some(piece) => format!("Laying it on {}, {}", cloth.name, size_of(piece, asked.unit)),
                None => format!("Laying it on {}", cloth.name),
            };
            progress.at(done.load(Ordering::Relaxed), of, &words);
            let one = One {
                asked,
                cloth,
                own: &own,
                halts: Halts(progress),
            };
            let answer = one.answer(at, piece);
            if progress.should_stop() {
                return Err(Stopped);
            }
            let now = done.fetch_add(1, Ordering::Relaxed) + 1;
            progress.at(now, of, &words);
            Ok(answer)
        })
        .collect()
}

/// `150 x 60 cm`, or an odd piece in a box of that size.
pub fn size_of(piece: &AtHand, unit: LengthUnit) -> String {
    let size = by(piece.width_mm, piece.length_mm, unit);
    if piece.corners.is_some() {
        format!("odd piece of {size}")
    } else {
        size
    }
}

/// A suit file with another cloth in that layer, worked out; a sentence when it cannot be.
///
/// # Errors
/// The first fault, in words.
pub fn drafted_for(
    file: &SuitFile,
    layer: Layer,
    entry: crate::suit_file::ClothEntry,
) -> Result<Box<SuitOn>, String> {
    let mut file = file.clone();
    match layer {
        Layer::Shell => file.shell = entry,
        Layer::Lining => file.lining = Some(entry),
        Layer::Mesh => file.mesh = Some(entry),
        Layer::Contrast => file.contrast = Some(entry),
    }
    match work_out(&file) {
        Ok(order) => Ok(Box::new(SuitOn { file, order })),
        Err(Faults { list, .. }) => Err(first_of(&list)),
    }
}

/// The first of some faults as a sentence.
pub(crate) fn first_of(faults: &[crate::suit_file::Fault]) -> String {
    let first = faults.first().map(|f| match f.help.as_str() {
        "" => f.message.clone(),
        help => format!("{}; {help}", f.message),
    });
    first.unwrap_or_else(|| "the suit cannot be drafted for it".into())
}

struct One<'a> {
    asked: &'a Asked<'a>,
    cloth: &'a ClothAsked,
    own: &'a [LayPiece],
    halts: Halts<'a>,
}

impl One<'_> {
    fn answer(&self, at: usize, piece: Option<usize>) -> CanMake {
        let mut answer = CanMake {
            cloth: at,
            piece,
            verdict: Verdict::Apart,
            says: String::new(),
            changes: Vec::new(),
            is_redrafted: false,
            stops: String::new(),
            laid: None,
        };
        let suit = match &self.cloth.suit {
            Ok(suit) => suit,
            Err(why) => {
                answer.says = format!("Not compared: {}", small(why));
                return answer;
            }
        };
        let settings = LaySettings {
            layers: vec![self.asked.layer],
            ..self.asked.settings.clone()
        };
        let Some(task) = lay_tasks(&[(&suit.file, &suit.order.draft)], &settings).pop() else {
            answer.says = "Not compared: drafted for it the suit has no piece of this layer.".into();
            return answer;
        };
        answer.is_redrafted = task.request.pieces != self.own;
        answer.stops = self.stops(suit);
        let piece = match piece.map(|p| self.cloth.pieces.get(p).and_then(Option::as_ref)) {
            Some(Some(piece)) => piece,
            Some(None) => {
                answer.says =
                    "Not compared: its width, length or corners are not written, or cannot be read.".into();
                return answer;
            }
            None => {
                let (task, _) = on_table(task, &self.cloth.flaws, settings.finds_depth, &[]);
                answer.says = match quick_lay(task) {
                    Ok(laid) => format!(
                        "Not compared: it is not written how much of it there is. It takes {}.",
                        self.long(laid.lay.cloth_mm)
                    ),
                    Err(not_laid) => format!("Not compared: {}", sentence(&not_laid.why())),
                };
                return answer;
            }
        };
        self.lay(suit, task, piece, &mut answer);
        answer
    }

    fn lay(&self, suit: &SuitOn, mut task: LayTask, piece: &AtHand, answer: &mut CanMake) {
        piece.put_under(&mut task.request.cloth);
        let (task, _) = on_table(task, &self.cloth.flaws, self.asked.settings.finds_depth, &[]);
        // The quick lay is what is shown when this piece is chosen; only what it does not fit is packed closer.
        let quick = lay_pieces(
            &task.request,
            &effort(QUICK_PASSES),
            None,
            &self.halts,
            &mut |_| {},
        );
        let is_quick = quick.as_ref().is_ok_and(|lay| lay.fits);
        let came = match quick {
            Ok(lay) if !lay.fits => {
                let closer =
                    lay_until_it_fits(&task.request, &effort(PIECE_PASSES), &self.halts, &mut |_| {});
                closer.map(|closer| {
                    if closer.cloth_mm < lay.cloth_mm {
                        closer
                    } else {
                        lay
                    }
                })
            }
            other => other,
        };
        match came {
            Ok(lay) if lay.fits => {
                answer.verdict = Verdict::Enough;
                let cloth_mm = lay.cloth_mm;
                let laid = Laid::of(task, lay);
                let over = piece.length_mm - cloth_mm;
                let behind = if over > HAIR_MM {
                    format!(", {} are left behind it", self.long(over))
                } else {
                    String::new()
                };
                let rest: Vec<String> = laid
                    .remnants
                    .iter()
                    .take(2)
                    .map(|r| by(r.width_mm, r.length_mm, self.asked.unit))
                    .collect();
                let rest = if rest.is_empty() {
                    String::new()
                } else {
                    format!(" Left whole: {}.", rest.join(", "))
                };
                answer.says = format!(
                    "Enough{}: it takes {}{behind}.{rest}",
                    if is_quick { "" } else { " when it is packed closer" },
                    self.long(cloth_mm)
                );
                answer.laid = Some(laid);
            }
            Ok(lay) => {
                answer.verdict = Verdict::Short;
                let least = lay.bound.length_mm + 2.0 * task.request.cloth.end_allowance_mm;
                let surely = if least > piece.length_mm {
                    ", and no lay could do"
                } else {
                    ""
                };
                answer.says = format!(
                    "Not enough by {}: it takes {}{surely}.",
                    self.long((lay.cloth_mm - piece.length_mm).max(HAIR_MM)),
                    self.long(lay.cloth_mm)
                );
                answer.changes = self.changes(suit, &task, piece);
                answer.laid = Some(Laid::of(task, lay));
            }
            Err(errors) => {
                let is_print = |e: &LayError| matches!(e, LayError::PrintAgainstStretch { .. });
                let is_wide =
                    |e: &LayError| matches!(e, LayError::TooWide { .. } | LayError::RepeatTooLarge { .. });
                let why: Vec<String> = errors.iter().map(ToString::to_string).collect();
                if errors.iter().any(is_print) {
                    answer.says = format!(
                        "Not compared before you say whether its print may lie on its side: {}.",
                        why.join("; ")
                    );
                } else if errors.iter().all(is_wide) {
                    answer.verdict = Verdict::Short;
                    answer.says = self.too_narrow(&errors);
                    answer.changes = self.changes(suit, &task, piece);
                } else {
                    answer.says = format!("Not compared: {}.", why.join("; "));
                }
            }
        }
    }

    /// By how much the widest of the pieces is too wide for it.
    fn too_narrow(&self, errors: &[LayError]) -> String {
        let mut worst: Option<(&str, f64)> = None;
        for error in errors {
            if let LayError::TooWide {
                piece,
                least_mm,
                width_mm,
            } = error
                && worst.is_none_or(|(_, by)| least_mm - width_mm > by)
            {
                worst = Some((piece, least_mm - width_mm));
            }
        }
        match worst {
            Some((piece, by)) => format!(
                "Not enough: {} too narrow for {}.",
                self.long(by),
                piece.to_lowercase()
            ),
            None => sentence(
                &errors
                    .iter()
                    .map(ToString::to_string)
                    .collect::<Vec<_>>()
                    .join("; "),
            ),
        }
    }

    /// The single changes that would make this piece do.
    fn changes(&self, suit: &SuitOn, task: &LayTask, piece: &AtHand) -> Vec<String> {
        let mut all = changes_at_hand(&task.request);
        let is_of_some = |c: &Change| c.request.pieces.len() < task.request.pieces.len();
        if let Some(bare) = self.without_skirt(suit, &task.request) {
            let at = all.iter().position(is_of_some).unwrap_or(all.len());
            all.insert(at, bare);
        }
        let mut fitting = Vec::new();
        for change in &all {
            if fitting.len() >= MOST_CHANGES || self.halts.should_stop() {
                break;
            }
            let answers = try_changes(std::slice::from_ref(change), &effort(CHANGE_PASSES), &Silent);
            if !answers.iter().any(|a| a.fits) {
                continue;
            }
            let is_cut_apart = change.words.starts_with("cut ");
            let elsewhere = if is_cut_apart {
                self.elsewhere(task, change, piece)
            } else {
                None
            };
            fitting.push(elsewhere.unwrap_or_else(|| change.words.clone()));
        }
        fitting
    }

    /// The suit without its skirt on the same piece, if it has one that may be left off.
    fn without_skirt(&self, suit: &SuitOn, request: &LayRequest) -> Option<Change> {
        suit.file.design.skirt?;
        let mut file = suit.file.clone();
        file.design.skirt = None;
        let order = work_out(&file).ok()?;
        let pieces = pieces_of(
            &order.draft,
            self.asked.layer,
            0,
            self.asked.settings.repeat_mm.is_some(),
        );
        let is_less = !pieces.is_empty() && pieces != request.pieces;
        is_less.then(|| Change {
            words: "leave the skirt off".into(),
            request: LayRequest {
                pieces,
                ..request.clone()
            },
        })
    }

    /// Where what a change leaves out could be cut from another piece of this cloth at hand.
    fn elsewhere(&self, task: &LayTask, change: &Change, piece: &AtHand) -> Option<String> {
        let kept = |p: &&LayPiece| change.request.pieces.iter().all(|q| q.key != p.key);
        let rest: Vec<LayPiece> = task.request.pieces.iter().filter(kept).cloned().collect();
        let name = rest.first()?.name.to_lowercase();
        for other in self.cloth.pieces.iter().flatten().filter(|other| *other != piece) {
            let mut task = task.clone();
            task.request.pieces.clone_from(&rest);
            task.request.cloth.fold = self.asked.settings.fold;
            task.request.cloth.remnant = None;
            other.put_under(&mut task.request.cloth);
            let (task, _) = on_table(task, &self.cloth.flaws, self.asked.settings.finds_depth, &[]);
            let lay = lay_until_it_fits(&task.request, &effort(CHANGE_PASSES), &self.halts, &mut |_| {});
            if lay.is_ok_and(|l| l.fits) {
                return Some(format!(
                    "cut {name} from the {} at hand",
                    size_of(other, self.asked.unit)
                ));
            }
        }
        None
    }

    /// The worst of what stops in this cloth, if the suit's own has nothing like it.
    fn stops(&self, suit: &SuitOn) -> String {
        let own = &self.asked.own.order.findings;
        let is_new = |f: &&units::Finding| {
            f.severity == Severity::Stop && !own.iter().any(|o| o.severity == f.severity && o.code == f.code)
        };
        suit.order
            .findings
            .iter()
            .find(is_new)
            .map_or_else(String::new, |f| {
                format!("In this cloth: {}: {}", f.place, sentence(&f.message))
            })
    }

    fn long(&self, mm: f64) -> String {
        length(Mm::new(mm), self.asked.unit).text()
    }
}

/// One search each: pieces are laid side by side instead.
const fn effort(passes: u64) -> Effort {
    Effort {
        seed: SEED,
        workers: 1,
        passes: Some(passes),
    }
}

/// A reason behind a colon: with a small first letter and its full stop.
fn small(why: &str) -> String {
    let whole = sentence(why);
    let mut letters = whole.chars();
    letters.next().map_or_else(String::new, |c| {
        c.to_lowercase().collect::<String>() + letters.as_str()
    })
}
