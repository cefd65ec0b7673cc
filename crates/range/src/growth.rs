//! Does the range grow as it should: every key length and area larger in the next size, and by even steps.
//!
//! A step is even when the second difference of a length is small. Tables change their own steps (4 cm, then 6), and a girth
//! of one step more shows in every length, so differences are taken per millimetre of the table's leading dimension and
//! brought back to its mean step; with equal steps that is the plain second difference.
//!
//! **Source.** That both should hold: own reasoning. [`UNEVEN_MM`]: own.
//! **Limits.** Evenness is judged for lengths alone: areas grow with the square of size. Where the table's steps change, or
//! a branch does, unevenness is expected, and said to be.

use body::Dimension;
use serde::Serialize;

use crate::branch::BranchChange;
use crate::sizes::{Key, Range, keys_of};

/// A second difference above this is uneven, mm (own: two lines of a nest 1 mm out of step are still told apart by eye;
/// even tables stay under 0.2).
pub const UNEVEN_MM: f64 = 1.0;
/// A growth smaller than this is none, mm or cm2.
const NO_GROWTH: f64 = 1e-6;
/// Steps of a table that differ by less are the same, mm.
const SAME_STEP_MM: f64 = 0.5;

/// One key length or area over the sizes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct KeyGrowth {
    /// What.
    pub key: Key,
    /// Its value in every drafted size, in order; `None` where the size has no such edge or piece.
    pub values: Vec<Option<f64>>,
    /// Largest second difference at even steps, mm; `None` for areas and for fewer than three sizes.
    pub most_uneven: Option<f64>,
}

/// What is wrong with growth at one place.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GrowthFault {
    /// Which length or area.
    pub key: Key,
    /// Sizes over which, smaller first; three for an uneven step.
    pub sizes: Vec<String>,
    /// What.
    pub what: GrowthKind,
    /// Why, where it shows: a branch that changes, a step of the table that changes.
    pub because: Vec<String>,
}

/// Kinds of [`GrowthFault`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum GrowthKind {
    /// It does not grow from any of these sizes to the next.
    NotGrowing {
        /// Last less first, in the key's unit; zero or negative.
        by: f64,
    },
    /// It grows unevenly: second difference, mm.
    Uneven {
        /// The second difference at even steps.
        by: f64,
    },
}

impl GrowthFault {
    /// The fault in a sentence.
    pub fn words(&self) -> String {
        let because = if self.because.is_empty() {
            "no branch or step of the table changes there: look at it".to_owned()
        } else {
            self.because.join("; ")
        };
        let between = self.sizes.join(", ");
        match self.what {
            GrowthKind::NotGrowing { by } => format!(
                "{} does not grow over {between} ({by:+.1} {} in all): {because}",
                self.key.name(),
                self.key.unit()
            ),
            GrowthKind::Uneven { by } => {
                format!(
                    "{} grows unevenly over {between} ({by:+.1} mm): {because}",
                    self.key.name()
                )
            }
        }
    }
}

/// How a range grows.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GrowthReport {
    /// The drafted sizes.
    pub sizes: Vec<String>,
    /// Every key length and area.
    pub keys: Vec<KeyGrowth>,
    /// Where it fails, in order of key and size.
    pub faults: Vec<GrowthFault>,
}

impl GrowthReport {
    /// Whether every key grows with every size.
    pub fn is_growing(&self) -> bool {
        !self
            .faults
            .iter()
            .any(|f| matches!(f.what, GrowthKind::NotGrowing { .. }))
    }
}

impl Range {
    /// Checks that leg, loop, armhole, neckline and the area of each piece grow with size, and evenly.
    ///
    /// Constant pieces (a strap cut to a set width and length) are named too: they don't grow, and that is for the maker to
    /// know.
    pub fn growth(&self) -> GrowthReport {
        let changes = self.branches().changes;
        let drafted: Vec<(String, Vec<(Key, f64)>)> = self
            .drafted()
            .map(|(name, size)| (name.to_owned(), keys_of(&size.draft)))
            .collect();
        let sizes: Vec<String> = drafted.iter().map(|(name, _)| name.clone()).collect();
        let leading: Vec<Option<f64>> = self
            .drafted()
            .map(|(_, size)| size.body.mm(self.table.leading()))
            .collect();
        let mut order: Vec<Key> = Vec::new();
        for (key, _) in drafted.iter().flat_map(|(_, keys)| keys) {
            if !order.contains(key) {
                order.push(key.clone());
            }
        }
        let mut keys = Vec::with_capacity(order.len());
        let mut faults = Vec::new();
        for key in order {
            let values: Vec<Option<f64>> = drafted
                .iter()
                .map(|(_, all)| all.iter().find(|(k, _)| *k == key).map(|(_, v)| *v))
                .collect();
            let place = |from: usize, to: usize| sizes.get(from..=to).unwrap_or_default().to_vec();
            let mut standing: Vec<GrowthFault> = Vec::new();
            for (i, pair) in values.windows(2).enumerate() {
                let [Some(a), Some(b)] = pair else { continue };
                if b - a > NO_GROWTH {
                    continue;
                }
                let fault = GrowthFault {
                    key: key.clone(),
                    sizes: place(i, i + 1),
                    what: GrowthKind::NotGrowing { by: b - a },
                    because: self.because(&sizes, &changes, i, i + 1),
                };
                // A run of sizes that don't grow for the same reason is one fault.
                match standing.last_mut() {
                    Some(last)
                        if last.sizes.last() == fault.sizes.first() && last.because == fault.because =>
                    {
                        last.sizes.extend(fault.sizes.into_iter().skip(1));
                        if let GrowthKind::NotGrowing { by } = &mut last.what {
                            *by += b - a;
                        }
                    }
                    _ => standing.push(fault),
                }
            }
            faults.extend(standing);
            let is_area = matches!(key, Key::Area(_));
            let bends = if is_area {
                Vec::new()
            } else {
                second_differences(&leading, &values)
            };
            for (i, by) in bends.iter().filter(|(_, by)| by.abs() > UNEVEN_MM) {
                faults.push(GrowthFault {
                    key: key.clone(),
                    sizes: place(*i, i + 2),
                    what: GrowthKind::Uneven { by: *by },
                    because: self.because(&sizes, &changes, *i, i + 2),
                });
            }
            keys.push(KeyGrowth {
                most_uneven: bends.iter().map(|(_, by)| by.abs()).reduce(f64::max),
                key,
                values,
            });
        }
        GrowthReport { sizes, keys, faults }
    }

    /// Branches and steps of the table that change between the `first` and the `last` drafted size.
    fn because(&self, sizes: &[String], changes: &[BranchChange], first: usize, last: usize) -> Vec<String> {
        let inside = sizes.get(first..=last).unwrap_or_default();
        let mut told: Vec<String> = changes
            .iter()
            .filter(|c| inside.contains(&c.from) && inside.contains(&c.to))
            .map(BranchChange::words)
            .collect();
        for dimension in Dimension::ALL {
            let steps: Vec<f64> = inside
                .iter()
                .filter_map(|name| self.table.row(name)?.figure(dimension).map(|f| f.value.get()))
                .collect::<Vec<_>>()
                .windows(2)
                .filter_map(|w| match w {
                    [a, b] => Some(b - a),
                    _ => None,
                })
                .collect();
            if let [a, b] = steps.as_slice()
                && (a - b).abs() > SAME_STEP_MM
            {
                told.push(format!(
                    "the table's steps of {} change from {:.0} to {:.0} mm",
                    dimension.iso_name(self.table.form),
                    a,
                    b
                ));
            }
        }
        told
    }
}

/// Second differences of `values` over `at`, brought to the mean of both steps: plain second differences where steps are
/// equal. Index of the first of three sizes, and the difference.
fn second_differences(at: &[Option<f64>], values: &[Option<f64>]) -> Vec<(usize, f64)> {
    at.windows(3)
        .zip(values.windows(3))
        .enumerate()
        .filter_map(|(i, (x, v))| match (x, v) {
            ([Some(x0), Some(x1), Some(x2)], [Some(v0), Some(v1), Some(v2)]) => {
                let (h0, h1) = (x1 - x0, x2 - x1);
                (h0 > SAME_STEP_MM && h1 > SAME_STEP_MM)
                    .then(|| (i, ((v2 - v1) / h1 - (v1 - v0) / h0) * 0.5 * (h0 + h1)))
            }
            _ => None,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_steps_give_the_plain_second_difference_and_a_straight_line_gives_none() {
        let at = [0.0, 40.0, 80.0].map(Some);
        let bent = second_differences(&at, &[1.0, 2.0, 5.0].map(Some));
        assert!(
            matches!(bent.as_slice(), [(0, by)] if (by - 2.0).abs() < 1e-12),
            "{bent:?}"
        );
        let uneven = [0.0, 40.0, 100.0].map(Some);
        let straight = second_differences(&uneven, &[1.0, 2.0, 3.5].map(Some));
        assert!(straight.iter().all(|(_, by)| by.abs() < 1e-12), "{straight:?}");
    }
}
