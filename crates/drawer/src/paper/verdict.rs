//! Whether a pattern is worth adapting, or another size, or a draft of one's own.
//!
//! **Source.** Own: a pattern is a shape as much as a size. Small changes keep the shape; a size is a shape for another body; when
//! no size is near, or one place must grow while another shrinks, nothing of the bought shape is left.

use serde::Serialize;
use units::{Finding, Limit, Mm, Severity};

use super::length::{LengthChanges, MOST_A_LINE};
use super::width::WidthChange;

/// Levels that change against each other by more than this a quarter make another side seam (own).
pub const MOST_APART: Mm = Mm::new(15.0);
/// Another size is named beside an adaptation when it needs this much less a quarter (own).
const WORTH_NAMING: f64 = 3.0;

/// What to do with the pattern.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum Verdict {
    /// Change it as the sheet says.
    Adapt,
    /// Another size comes first.
    ChooseSize {
        /// Which, if its widths are known.
        name: Option<String>,
        /// Whether it is larger than this one.
        is_larger: bool,
    },
    /// A draft for this body is less work and fits better.
    Redraft {
        /// Why.
        why: &'static str,
    },
}

/// One size with what it would need.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SizeNeed {
    /// Its name.
    pub name: String,
    /// Its changes, top to bottom.
    pub widths: Vec<WidthChange>,
}

impl SizeNeed {
    /// The largest change of a quarter, as a share of what an adaptation allows.
    pub fn worst(&self) -> f64 {
        worst(&self.widths)
    }
}

fn worst(widths: &[WidthChange]) -> f64 {
    widths
        .iter()
        .map(|w| w.quarter.abs() / w.limit())
        .fold(0.0, f64::max)
}

fn spread(widths: &[WidthChange]) -> f64 {
    let of = |pick: fn(f64, f64) -> f64| widths.iter().map(|w| w.quarter.get()).reduce(pick);
    of(f64::max).unwrap_or(0.0) - of(f64::min).unwrap_or(0.0)
}

pub(super) fn judge(widths: &[WidthChange], lengths: &LengthChanges, sizes: &[SizeNeed]) -> Verdict {
    let halves = || lengths.lines.iter().flat_map(|l| [l.front, l.back]);
    if halves().any(|mm| mm.abs() > MOST_A_LINE) {
        return Verdict::Redraft {
            why: "a line would be spread or folded by more than 12 mm, which bends every edge it crosses",
        };
    }
    if widths.iter().any(WidthChange::is_over) {
        let fitting = sizes
            .iter()
            .filter(|s| s.worst() <= 1.0 && spread(&s.widths) <= MOST_APART.get())
            .min_by(|a, b| a.worst().total_cmp(&b.worst()));
        let mean: f64 = widths.iter().map(|w| w.quarter.get()).sum::<f64>();
        return match fitting {
            Some(size) => Verdict::ChooseSize {
                name: Some(size.name.clone()),
                is_larger: mean > 0.0,
            },
            None if !sizes.is_empty() => Verdict::Redraft {
                why: "no size whose widths are known comes near enough to this body at every level",
            },
            None if spread(widths) > MOST_APART.get() => Verdict::Redraft {
                why: "one level must change against another by more than 15 mm a quarter, and no single size does that",
            },
            None => Verdict::ChooseSize {
                name: None,
                is_larger: mean > 0.0,
            },
        };
    }
    if spread(widths) > MOST_APART.get() {
        return Verdict::Redraft {
            why: "one level must change against another by more than 15 mm a quarter: nothing of the side seam's shape would be left",
        };
    }
    Verdict::Adapt
}

pub(super) fn finding(verdict: &Verdict, widths: &[WidthChange], sizes: &[SizeNeed]) -> Finding {
    let worst_change = widths
        .iter()
        .max_by(|a, b| (a.quarter.abs() / a.limit()).total_cmp(&(b.quarter.abs() / b.limit())));
    let (severity, message, remedy) = match verdict {
        Verdict::Adapt => {
            let nearer = sizes
                .iter()
                .filter(|s| {
                    let most =
                        |w: &[WidthChange]| w.iter().map(|w| w.quarter.abs().get()).fold(0.0, f64::max);
                    most(&s.widths) + WORTH_NAMING < most(widths)
                })
                .min_by(|a, b| a.worst().total_cmp(&b.worst()));
            let message = match nearer {
                Some(size) => format!("it can be adapted; size {} would need less", size.name),
                None => "it can be adapted as this sheet says".to_owned(),
            };
            (Severity::Good, message, String::new())
        }
        Verdict::ChooseSize { name: Some(name), .. } => (
            Severity::Stop,
            format!("this size is too far off; size {name} comes nearest"),
            format!("measure size {name} on the paper and make the sheet again"),
        ),
        Verdict::ChooseSize {
            name: None,
            is_larger,
        } => {
            let way = if *is_larger { "larger" } else { "smaller" };
            (
                Severity::Stop,
                format!("this size is too far off: a {way} one comes first"),
                format!("measure the next {way} size on the paper and make the sheet again"),
            )
        }
        Verdict::Redraft { why } => (
            Severity::Stop,
            format!("not worth adapting: {why}"),
            "draft the suit from the body's dimensions, with this pattern's neckline, back and leg"
                .to_owned(),
        ),
    };
    Finding {
        code: "drawer.paper_verdict",
        severity,
        place: worst_change.map_or("widths", |w| w.level.name()).into(),
        message,
        value: worst_change.map(|w| w.quarter.abs().get()),
        limit: worst_change.map(|w| Limit {
            text: format!("{:.0} mm a quarter", w.limit().get()),
            source: "own",
        }),
        remedy,
    }
}
