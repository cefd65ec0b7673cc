//! "Is what I have enough, and if not, what would make it so?", and a plain lay to compare with.
//!
//! Every change is laid in earnest, only shorter than a final lay, so that the answer is a lay and not a guess.
//!
//! **Limits.** "It does not fit" means that none was found in the work allowed, unless the bound is longer than the cloth: then none
//! exists, none is searched for, and [`Answer::is_certain`] says so.

use serde::Serialize;
use units::Progress;

use crate::bound::bounds;
use crate::check::check;
use crate::cloth::{Direction, Fold};
use crate::error::LayError;
use crate::lay::{Effort, Lay, LayRequest, Placed, lay_until_it_fits};
use crate::polygon::Bounds;
use crate::setting::Setting;

/// A change that might make it fit.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// In words for the maker: `cut the skirt from another cloth`.
    pub words: String,
    /// The request with the change made.
    pub request: LayRequest,
}

/// What came of a change.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Answer {
    /// The change, in words.
    pub words: String,
    /// Whether it fits what there is.
    pub fits: bool,
    /// The cloth it takes with both ends, if it can be laid at all; where none can do, the least it would take.
    pub cloth_mm: Option<f64>,
    /// Whether a no is proved and not only what was found.
    pub is_certain: bool,
    /// What stands against it.
    pub refused: Option<String>,
}

/// Widths in which swimwear knits are sold, mm (common practice, no single source).
const WIDTHS_MM: [f64; 4] = [1400.0, 1500.0, 1600.0, 1800.0];

/// The changes worth asking about where cloth is bought: those of [`changes_at_hand`], and the same cloth wider.
pub fn changes(request: &LayRequest) -> Vec<Change> {
    let mut all = changes_at_hand(request);
    if request.cloth.remnant.is_some() {
        return all;
    }
    let wider = WIDTHS_MM
        .into_iter()
        .filter(|w| *w > request.cloth.width_mm + 1.0)
        .map(|width_mm| {
            let mut request = request.clone();
            request.cloth.width_mm = width_mm;
            request.cloth.fold = Fold::Single;
            Change {
                words: format!("the same cloth {:.0} cm wide", width_mm / 10.0),
                request,
            }
        });
    // Before the pieces that are cut from elsewhere: a whole suit of one cloth is asked for first.
    let at = all
        .iter()
        .position(|c| c.request.pieces.len() < request.pieces.len())
        .unwrap_or(all.len());
    all.splice(at..at, wider);
    all
}

/// The changes that cloth at hand leaves open: folded or opened out, tops either way, no matching, and each kind of piece from a second
/// cloth or piece of cloth, the largest kind first.
pub fn changes_at_hand(request: &LayRequest) -> Vec<Change> {
    let mut all = Vec::new();
    let mut add = |words: String, change: &dyn Fn(&mut LayRequest)| {
        let mut request = request.clone();
        change(&mut request);
        if !request.pieces.is_empty() {
            all.push(Change { words, request });
        }
    };
    if request.cloth.fold != Fold::Single {
        // Flaws stand where they lie on the folded table: opened out they would lie elsewhere.
        if request.cloth.flaws.is_empty() {
            add("open it out, one layer".into(), &|r| r.cloth.fold = Fold::Single);
        }
    } else if request.cloth.remnant.is_none() {
        add("fold it lengthwise".into(), &|r| {
            let flat = std::mem::take(&mut r.cloth.flaws);
            r.cloth.fold = Fold::Half;
            r.cloth.flaws = flat.iter().flat_map(|f| r.cloth.flaws_on_table(f)).collect();
        });
    }
    if request.cloth.direction == Direction::OneWay {
        add("let tops point either way along the cloth".into(), &|r| {
            r.cloth.direction = Direction::Free;
        });
        if request.garments.len() > 1 {
            add("let each suit point its own way".into(), &|r| {
                r.cloth.direction = Direction::PerGarment;
            });
        }
    }
    if request.cloth.repeat_mm != (None, None) {
        add("do not match the repeat".into(), &|r| {
            r.cloth.repeat_mm = (None, None)
        });
    }
    let mut keys: Vec<(&str, &str, f64)> = Vec::new();
    for piece in &request.pieces {
        let area = piece.area_mm2() * f64::from(piece.count);
        match keys.iter_mut().find(|(key, _, _)| *key == piece.key) {
            Some(known) => known.2 += area,
            None => keys.push((&piece.key, &piece.name, area)),
        }
    }
    keys.sort_by(|a, b| b.2.total_cmp(&a.2).then(a.0.cmp(b.0)));
    if keys.len() > 1 {
        for (key, name, _) in keys {
            let key = key.to_owned();
            add(format!("cut {} from a second cloth", name.to_lowercase()), &|r| {
                r.pieces.retain(|p| p.key != key);
            });
        }
    }
    all
}

/// Lays each change until it fits, or the passes are over.
pub fn try_changes(changes: &[Change], effort: &Effort, progress: &dyn Progress) -> Vec<Answer> {
    let mut all = Vec::with_capacity(changes.len());
    for (k, change) in changes.iter().enumerate() {
        if progress.should_stop() {
            break;
        }
        progress.at(k as u64, changes.len() as u64, &change.words);
        all.push(answer(change, effort));
    }
    all
}

fn answer(change: &Change, effort: &Effort) -> Answer {
    // Never without an end: changes are tried by passes, not by the clock.
    let effort = Effort {
        passes: Some(effort.passes.unwrap_or(100)),
        ..*effort
    };
    let words = change.words.clone();
    let cloth = &change.request.cloth;
    let least = bounds(&change.request).length_mm + 2.0 * cloth.end_allowance_mm;
    // What no lay can do is not searched for; what stands against any lay is said first.
    let is_hopeless = cloth.length_mm.is_some_and(|there_is| least > there_is);
    if is_hopeless && Setting::new(&change.request).is_ok() {
        return Answer {
            words,
            fits: false,
            cloth_mm: Some(least),
            is_certain: true,
            refused: None,
        };
    }
    match lay_until_it_fits(&change.request, &effort, &units::Silent, &mut |_| {}) {
        Ok(lay) => Answer {
            words,
            fits: lay.fits,
            cloth_mm: Some(lay.cloth_mm),
            is_certain: lay.fits,
            refused: None,
        },
        Err(errors) => Answer {
            words,
            fits: false,
            cloth_mm: None,
            is_certain: true,
            refused: errors.first().map(ToString::to_string),
        },
    }
}

/// The lay a maker makes by hand: pieces in rows across the cloth, each row as long as its longest piece, the longest pieces first.
///
/// Boxes, not outlines, in the best of the allowed ways; for comparison.
///
/// # Errors
/// As [`crate::lay()`].
pub fn row_by_row(request: &LayRequest) -> Result<Lay, Vec<LayError>> {
    let plain = LayRequest {
        cloth: crate::LayCloth {
            fold: Fold::Single,
            flaws: Vec::new(),
            repeat_mm: (None, None),
            ..request.cloth.clone()
        },
        ..request.clone()
    };
    let setting = Setting::new(&plain)?;
    let gap = plain.cloth.gap_mm;
    let mut items: Vec<(usize, f64, f64)> = (0..setting.behind.len())
        .map(|i| {
            let origin = setting.placed(i, &start_of(&setting, i));
            let b = Bounds::of(&origin.outline(&plain.pieces[origin.piece]));
            (i, b.width(), b.height())
        })
        .collect();
    items.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let (from, to) = (
        plain.cloth.selvedge_margin_mm,
        plain.cloth.width_mm - plain.cloth.selvedge_margin_mm,
    );
    // First row with room, else a new one.
    let mut rows: Vec<(f64, f64, f64)> = Vec::new();
    let mut end = plain.cloth.end_allowance_mm;
    let mut placed: Vec<Option<Placed>> = vec![None; items.len()];
    for (i, length, width) in items {
        let fits = |row: &(f64, f64, f64)| row.2 + width <= to + 1e-9 && length <= row.1 + 1e-9;
        let k = rows.iter().position(fits).unwrap_or_else(|| {
            rows.push((end, length, from));
            end += length + gap;
            rows.len() - 1
        });
        let row = &mut rows[k];
        let at = setting.placed(i, &start_of(&setting, i));
        let b = Bounds::of(&at.outline(&plain.pieces[at.piece]));
        placed[i] = Some(Placed {
            x: at.x + row.0 - b.x0,
            y: at.y + row.2 - b.y0,
            ..at
        });
        row.2 += width + gap;
    }
    let placed: Vec<Placed> = placed.into_iter().flatten().collect();
    let faults = check(&plain, &placed);
    if !faults.is_empty() {
        return Err(vec![LayError::Invalid {
            reason: faults
                .iter()
                .map(ToString::to_string)
                .collect::<Vec<_>>()
                .join("; "),
        }]);
    }
    let cloth_mm = end - gap + plain.cloth.end_allowance_mm;
    let length_mm = cloth_mm - 2.0 * plain.cloth.end_allowance_mm;
    Ok(Lay {
        placed,
        length_mm,
        cloth_mm,
        usage: plain.area_mm2() / (plain.cloth.usable_width_mm() * length_mm).max(1e-9),
        bound: bounds(&plain),
        fits: plain.cloth.length_mm.is_none_or(|l| cloth_mm <= l),
        passes: 0,
        seed: 0,
        workers: 0,
        rejected: 0,
    })
}

fn start_of(setting: &Setting, item: usize) -> crate::search::Pose {
    // Ways are few: the one that is shortest along, the first of equals.
    let ways = &setting.task.items[item].ways;
    let width = |w: usize| setting.task.shapes.get(ways[w].shape).bounds.width();
    let way = (0..ways.len())
        .min_by(|&a, &b| width(a).total_cmp(&width(b)).then(a.cmp(&b)))
        .unwrap_or(0);
    crate::search::Pose { way, x: 0.0, y: 0.0 }
}
