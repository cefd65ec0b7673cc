//! Which size of a range a wearer takes, level by level and as a whole, and when a draft of her own is wiser.
//!
//! The size to take has the least weighted square of shares (see [`Miss`]): girths may vary because cloth stretches, the
//! trunk counts twice. One place far out weighs more than several a little off, which is what squares do.
//!
//! **Source.** Weights and limits: own.
//! **Limits.** Judged by the dimensions she has taken; what is missing is listed and not guessed.

use body::{BodyForm, Dimension, Wearer};
use serde::Serialize;
use thiserror::Error;

use crate::miss::{Gauge, Miss, misses};
use crate::sizes::Range;

/// Within this share of the cloth's room a size fits well (own).
const GOOD_SHARE: f64 = 0.5;
/// Best sizes of single levels this many rows apart make one size for all of them a poor bargain (own).
const FAR_APART: usize = 3;
/// Shares that differ by less are equal.
const SAME_SHARE: f64 = 1e-9;

/// The best size for one level alone.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LevelChoice {
    /// Which level.
    pub gauge: Gauge,
    /// The size nearest to her there.
    pub size: String,
    /// How far off it is.
    pub miss: Miss,
}

/// How far a wearer is from one size everywhere.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SizeMiss {
    /// The size.
    pub size: String,
    /// Weighted mean square of the shares; smaller is nearer.
    pub score: f64,
    /// Every gauge that could be judged.
    pub misses: Vec<Miss>,
}

/// What to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Advice {
    /// Take the size.
    Take,
    /// Take it, and look at the places named.
    TakeAndLook,
    /// Draft a suit for her instead.
    MadeToMeasure,
}

/// A choice of size.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Choice {
    /// The size to take.
    pub size: String,
    /// What to do.
    pub advice: Advice,
    /// Why, a sentence each; empty when it simply fits.
    pub reasons: Vec<String>,
    /// The best size per level.
    pub levels: Vec<LevelChoice>,
    /// Every size of the range, in order.
    pub all: Vec<SizeMiss>,
    /// What could not be judged, because it was not taken or the style has no such level.
    pub not_judged: Vec<Gauge>,
}

/// Why no size can be chosen.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[non_exhaustive]
pub enum ChooseError {
    /// The range is for other bodies.
    #[error(
        "the range is for {range:?} bodies, the wearer is a {wearer:?}; choose from a table for her form"
    )]
    OtherForm {
        /// Of the range.
        range: BodyForm,
        /// Of the wearer.
        wearer: BodyForm,
    },
    /// No size of the range was drafted.
    #[error("no size of this range was drafted; see why under its sizes")]
    NoSizes,
    /// No girth the range is judged by was taken.
    #[error("no girth was taken that this range goes by; take {needed}")]
    NothingTaken {
        /// What to take.
        needed: String,
    },
}

/// Chooses a size for a wearer.
///
/// # Errors
/// [`ChooseError`] if range and wearer are of different forms, no size was drafted, or she has taken no girth at a level
/// the range has.
pub fn choose(wearer: &Wearer, range: &Range) -> Result<Choice, ChooseError> {
    if wearer.form != range.table.form {
        return Err(ChooseError::OtherForm {
            range: range.table.form,
            wearer: wearer.form,
        });
    }
    let all: Vec<SizeMiss> = range
        .drafted()
        .map(|(name, size)| {
            let misses = misses(wearer, size, range);
            SizeMiss {
                size: name.to_owned(),
                score: score(&misses),
                misses,
            }
        })
        .collect();
    if all.is_empty() {
        return Err(ChooseError::NoSizes);
    }
    if !all.iter().any(|s| s.misses.iter().any(|m| m.gauge.is_girth())) {
        return Err(ChooseError::NothingTaken {
            needed: Dimension::HipGirth.iso_name(wearer.form).to_owned(),
        });
    }
    let Some((at, best)) = all
        .iter()
        .enumerate()
        .filter(|(_, s)| !s.misses.is_empty())
        .min_by(|a, b| a.1.score.total_cmp(&b.1.score))
    else {
        return Err(ChooseError::NoSizes);
    };
    let levels = levels(&all, at);
    let (advice, reasons) = advice(&all, at, best, &levels, wearer.form);
    Ok(Choice {
        size: best.size.clone(),
        advice,
        reasons,
        not_judged: Gauge::ALL
            .into_iter()
            .filter(|g| !best.misses.iter().any(|m| m.gauge == *g))
            .collect(),
        levels: levels.into_iter().map(|(_, level)| level).collect(),
        all,
    })
}

fn score(misses: &[Miss]) -> f64 {
    let weight: f64 = misses.iter().map(|m| m.gauge.weight()).sum();
    let sum: f64 = misses.iter().map(|m| m.gauge.weight() * m.share * m.share).sum();
    if weight > 0.0 { sum / weight } else { f64::INFINITY }
}

/// For every gauge the nearest size, with its place in the range. Where several are equally near (one stature for all of
/// them), the one next to the size to take.
fn levels(all: &[SizeMiss], at: usize) -> Vec<(usize, LevelChoice)> {
    Gauge::ALL
        .into_iter()
        .filter_map(|gauge| {
            let found: Vec<(usize, &SizeMiss, &Miss)> = all
                .iter()
                .enumerate()
                .filter_map(|(i, s)| Some((i, s, s.misses.iter().find(|m| m.gauge == gauge)?)))
                .collect();
            let least = found.iter().map(|f| f.2.share.abs()).reduce(f64::min)?;
            found
                .into_iter()
                .filter(|f| f.2.share.abs() <= least + SAME_SHARE)
                .min_by_key(|f| f.0.abs_diff(at))
                .map(|(i, s, miss)| {
                    (
                        i,
                        LevelChoice {
                            gauge,
                            size: s.size.clone(),
                            miss: *miss,
                        },
                    )
                })
        })
        .collect()
}

fn advice(
    all: &[SizeMiss],
    at: usize,
    best: &SizeMiss,
    levels: &[(usize, LevelChoice)],
    form: BodyForm,
) -> (Advice, Vec<String>) {
    let mut advice = Advice::Take;
    let mut reasons = Vec::new();
    for miss in &best.misses {
        let name = miss.gauge.dimension().iso_name(form);
        let way = if miss.share > 0.0 { "tight" } else { "slack" };
        let told = format!(
            "{name} {way} in {}: hers is {:+.1} cm, worn at {:.0} % where {:.0} % is meant and {:.0} % is the most",
            best.size,
            miss.off_mm() / 10.0,
            miss.worn * 100.0,
            miss.meant * 100.0,
            miss.limit * 100.0
        );
        if miss.share.abs() > 1.0 {
            advice = Advice::MadeToMeasure;
            reasons.push(told);
        } else if miss.share.abs() > GOOD_SHARE {
            advice = advice.max(Advice::TakeAndLook);
            reasons.push(told);
        }
    }
    let places = levels.iter().map(|(i, _)| *i);
    if let (Some(low), Some(high)) = (places.clone().min(), places.max())
        && high - low >= FAR_APART
    {
        advice = Advice::MadeToMeasure;
        let named: Vec<String> = levels
            .iter()
            .map(|(_, l)| format!("{} {}", l.gauge.dimension().iso_name(form), l.size))
            .collect();
        reasons.push(format!(
            "her levels ask for sizes {} apart: {}",
            high - low,
            named.join(", ")
        ));
    }
    let is_end = at == 0 || at + 1 == all.len();
    if is_end && advice == Advice::MadeToMeasure {
        reasons.push("the range ends here; draft a suit for her, or add sizes".to_owned());
    }
    (advice, reasons)
}
