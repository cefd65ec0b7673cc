//! The smallest set of sizes that covers a group of people, and whom it leaves out.
//!
//! A size covers a person when none of the dimensions both have is further off than a tolerance. The fewest sizes that
//! cover everybody who can be covered is a set cover: solved exactly by branch and bound for groups as large as a class or a
//! club, and by the greedy rule beyond, with its bound said. New sizes are people of the group themselves: a mean of people is
//! a body nobody has.
//!
//! **Source.** Greedy set cover and its bound H(d), d the largest set: Chvatal, "A greedy heuristic for the set-covering
//! problem", 1979 (value from memory). Medoids: the member with the least sum of distances, common practice.
//! **Limits.** Counts sizes, not sales. A new size carries the dimensions of one person: ask before it leaves the room.

use body::{Dimension, Dimensions, Wearer};
use serde::Serialize;
use thiserror::Error;
use units::Mm;

use crate::miss::Gauge;
use crate::table::SizeTable;

/// Steps of the exact search before it gives way to the greedy rule: about a second of work.
const MOST_STEPS: u64 = 300_000;

/// How far a person may be from a size.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Tolerance {
    /// At every girth, either way.
    pub girth: Mm,
    /// At trunk and stature, either way.
    pub length: Mm,
}

impl Tolerance {
    /// Of a gauge.
    fn of(&self, gauge: Gauge) -> f64 {
        if gauge.is_girth() {
            self.girth.get()
        } else {
            self.length.get()
        }
    }
}

/// What sizes may be chosen from.
#[derive(Clone, Copy, Debug)]
pub enum Candidates<'a> {
    /// Rows of a table.
    Table(&'a SizeTable),
    /// The people themselves.
    People,
}

/// How the set was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case", tag = "method")]
pub enum CoverMethod {
    /// No smaller set covers as many.
    Exact,
    /// By the greedy rule: no set has fewer than `at_least` sizes.
    Greedy {
        /// A proven lower bound.
        at_least: usize,
    },
}

/// A person in a size.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Placed {
    /// Index into the people.
    pub person: usize,
    /// Her worst difference as a share of the tolerance, 0 to 1.
    pub worst: f64,
}

/// One size of the set.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CoveringSize {
    /// The row's name, or `as` and the person's.
    pub name: String,
    /// The person whose dimensions it has, if it is a new one.
    pub medoid: Option<usize>,
    /// Its dimensions.
    #[serde(skip)]
    pub dimensions: Dimensions,
    /// Who takes it: the nearest of the set, in order.
    pub people: Vec<Placed>,
}

/// A person no size covers.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct NotCovered {
    /// Index into the people.
    pub person: usize,
    /// Why, and what to do.
    pub reason: String,
}

/// A set of sizes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cover {
    /// The sizes, in order of the table, or of the people.
    pub sizes: Vec<CoveringSize>,
    /// Who is left out.
    pub not_covered: Vec<NotCovered>,
    /// Whether the set is the smallest.
    pub method: CoverMethod,
}

/// Why there is no set.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[non_exhaustive]
pub enum CoverError {
    /// Nobody to cover.
    #[error("there is nobody to cover; choose at least one wearer")]
    Nobody,
    /// A tolerance that is none.
    #[error("the tolerance {0} must be more than nothing; 2 to 5 cm is usual")]
    Tolerance(&'static str),
    /// Wearers of different forms, or other than the table's.
    #[error("{0} is of another form of body; make a set for each form")]
    MixedForms(String),
}

struct Candidate {
    name: String,
    medoid: Option<usize>,
    dimensions: Dimensions,
}

/// Finds the fewest sizes that cover these people.
///
/// Deterministic: candidates are tried in order of gain, then in the order of the table or the people.
///
/// # Errors
/// [`CoverError`] for nobody, a tolerance not above zero, or people of several forms.
pub fn cover(people: &[Wearer], from: Candidates<'_>, tolerance: Tolerance) -> Result<Cover, CoverError> {
    let Some(first) = people.first() else {
        return Err(CoverError::Nobody);
    };
    let is_some = |mm: Mm| mm.get().is_finite() && mm.get() > 0.0;
    if !is_some(tolerance.girth) {
        return Err(CoverError::Tolerance("of girths"));
    }
    if !is_some(tolerance.length) {
        return Err(CoverError::Tolerance("of lengths"));
    }
    let (form, waist) = match from {
        Candidates::Table(table) => (table.form, table.waist_level),
        Candidates::People => (first.form, first.waist_level),
    };
    if let Some(other) = people.iter().find(|p| p.form != form) {
        return Err(CoverError::MixedForms(other.name.clone()));
    }
    // A waist taken at another level is no waist of this set.
    let hers: Vec<Dimensions> = people
        .iter()
        .map(|p| {
            let mut taken = p.taken;
            if p.waist_level != waist {
                taken.remove(Dimension::WaistGirth);
            }
            taken
        })
        .collect();
    let candidates: Vec<Candidate> = match from {
        Candidates::Table(table) => table
            .rows()
            .iter()
            .map(|row| Candidate {
                name: row.name.clone(),
                medoid: None,
                dimensions: row.dimensions(),
            })
            .collect(),
        Candidates::People => people
            .iter()
            .zip(&hers)
            .enumerate()
            .map(|(i, (p, taken))| Candidate {
                name: format!("as {}", p.name),
                medoid: Some(i),
                dimensions: *taken,
            })
            .collect(),
    };
    // sets[c]: whom candidate c covers.
    let sets: Vec<Bits> = candidates
        .iter()
        .map(|c| {
            let mut set = Bits::none(hers.len());
            for (i, taken) in hers.iter().enumerate() {
                if worst(taken, &c.dimensions, tolerance).is_some_and(|(share, _)| share <= 1.0) {
                    set.put(i);
                }
            }
            set
        })
        .collect();
    let (mut chosen, method) = smallest(&sets, hers.len());
    if matches!(from, Candidates::People) {
        settle(&mut chosen, &sets, &hers, tolerance);
    }
    chosen.sort_unstable();
    let mut sizes: Vec<CoveringSize> = chosen
        .iter()
        .filter_map(|c| candidates.get(*c))
        .map(|c| CoveringSize {
            name: c.name.clone(),
            medoid: c.medoid,
            dimensions: c.dimensions,
            people: Vec::new(),
        })
        .collect();
    let mut not_covered = Vec::new();
    for (person, taken) in hers.iter().enumerate() {
        let nearest = nearest(taken, sizes.iter().map(|s| &s.dimensions), tolerance);
        match nearest {
            Some((at, share)) if share <= 1.0 => {
                if let Some(size) = sizes.get_mut(at) {
                    size.people.push(Placed { person, worst: share });
                }
            }
            _ => not_covered.push(NotCovered {
                person,
                reason: left_out(taken, &candidates, tolerance, form),
            }),
        }
    }
    Ok(Cover {
        sizes,
        not_covered,
        method,
    })
}

/// The worst difference between two bodies as a share of the tolerance, with where it is; `None` if they share no girth.
fn worst(a: &Dimensions, b: &Dimensions, tolerance: Tolerance) -> Option<(f64, Gauge)> {
    let mut found: Option<(f64, Gauge)> = None;
    let mut has_girth = false;
    for gauge in Gauge::ALL {
        let (Some(x), Some(y)) = (a.get(gauge.dimension()), b.get(gauge.dimension())) else {
            continue;
        };
        has_girth |= gauge.is_girth();
        let share = (x - y).abs().get() / tolerance.of(gauge);
        if found.is_none_or(|(s, _)| share > s) {
            found = Some((share, gauge));
        }
    }
    found.filter(|_| has_girth)
}

fn nearest<'a>(
    taken: &Dimensions,
    sizes: impl Iterator<Item = &'a Dimensions>,
    tolerance: Tolerance,
) -> Option<(usize, f64)> {
    sizes
        .enumerate()
        .filter_map(|(i, d)| Some((i, worst(taken, d, tolerance)?.0)))
        .min_by(|a, b| a.1.total_cmp(&b.1))
}

fn left_out(
    taken: &Dimensions,
    candidates: &[Candidate],
    tolerance: Tolerance,
    form: body::BodyForm,
) -> String {
    let near = candidates
        .iter()
        .filter_map(|c| Some((c, worst(taken, &c.dimensions, tolerance)?)))
        .min_by(|a, b| a.1.0.total_cmp(&b.1.0));
    match near {
        None => format!(
            "no girth was taken to go by; take {}",
            Dimension::HipGirth.iso_name(form)
        ),
        Some((c, (_, gauge))) => {
            let off = match (taken.get(gauge.dimension()), c.dimensions.get(gauge.dimension())) {
                (Some(hers), Some(its)) => (hers - its).to_cm(),
                _ => 0.0,
            };
            format!(
                "nearest is {}, {} off by {off:+.1} cm; draft a suit for her own dimensions",
                c.name,
                gauge.dimension().iso_name(form)
            )
        }
    }
}

/// Puts every medoid where the sum of distances of its people is least, as long as it still covers them.
fn settle(chosen: &mut [usize], sets: &[Bits], hers: &[Dimensions], tolerance: Tolerance) {
    const ROUNDS: usize = 10;
    for _ in 0..ROUNDS {
        let mut groups: Vec<Vec<usize>> = vec![Vec::new(); chosen.len()];
        for (person, taken) in hers.iter().enumerate() {
            let sizes = chosen.iter().filter_map(|c| hers.get(*c));
            if let Some((at, share)) = nearest(taken, sizes, tolerance)
                && share <= 1.0
                && let Some(group) = groups.get_mut(at)
            {
                group.push(person);
            }
        }
        let mut moved = false;
        for (medoid, group) in chosen.iter_mut().zip(&groups) {
            let sum = |c: usize| -> f64 {
                group
                    .iter()
                    .filter_map(|p| worst(hers.get(*p)?, hers.get(c)?, tolerance).map(|w| w.0))
                    .sum()
            };
            let covers = |c: usize| sets.get(c).is_some_and(|s| group.iter().all(|p| s.has(*p)));
            let mut best = (sum(*medoid), *medoid);
            for &c in group.iter().filter(|c| covers(**c)) {
                let there = sum(c);
                if there < best.0 - 1e-9 {
                    best = (there, c);
                }
            }
            moved |= best.1 != *medoid;
            *medoid = best.1;
        }
        if !moved {
            return;
        }
    }
}

/// The fewest sets that cover all that any of them covers.
fn smallest(sets: &[Bits], people: usize) -> (Vec<usize>, CoverMethod) {
    let mut all = Bits::none(people);
    for set in sets {
        all.join(set);
    }
    let greedy = greedy(sets, &all);
    let at_least = apart(sets, &all);
    if greedy.len() <= at_least {
        return (greedy, CoverMethod::Exact);
    }
    let mut search = Search {
        sets,
        best: greedy,
        steps: 0,
    };
    search.run(&all, &mut Vec::new());
    if search.steps <= MOST_STEPS {
        (search.best, CoverMethod::Exact)
    } else {
        (search.best, CoverMethod::Greedy { at_least })
    }
}

fn greedy(sets: &[Bits], all: &Bits) -> Vec<usize> {
    let mut open = all.clone();
    let mut chosen = Vec::new();
    while !open.is_empty() {
        let gains = sets.iter().enumerate().map(|(c, s)| (s.shared(&open), c));
        // The first of equal gains.
        let Some((gain, c)) = gains.max_by(|a, b| a.0.cmp(&b.0).then(b.1.cmp(&a.1))) else {
            break;
        };
        let Some(set) = sets.get(c).filter(|_| gain > 0) else {
            break;
        };
        open.take(set);
        chosen.push(c);
    }
    chosen
}

/// How many people no two of whom any set covers together: so many sets are needed at least.
fn apart(sets: &[Bits], all: &Bits) -> usize {
    let mut order: Vec<(usize, usize)> = all
        .iter()
        .map(|p| (sets.iter().filter(|s| s.has(p)).count(), p))
        .collect();
    order.sort_unstable();
    let mut open = all.clone();
    let mut count = 0;
    for (_, p) in order {
        if open.has(p) {
            count += 1;
            for set in sets.iter().filter(|s| s.has(p)) {
                open.take(set);
            }
        }
    }
    count
}

struct Search<'a> {
    sets: &'a [Bits],
    best: Vec<usize>,
    steps: u64,
}

impl Search<'_> {
    fn run(&mut self, open: &Bits, chosen: &mut Vec<usize>) {
        self.steps += 1;
        if self.steps > MOST_STEPS {
            return;
        }
        if open.is_empty() {
            if chosen.len() < self.best.len() {
                self.best = chosen.clone();
            }
            return;
        }
        let most = self.sets.iter().map(|s| s.shared(open)).max().unwrap_or(0);
        if most == 0 || chosen.len() + open.count().div_ceil(most) >= self.best.len() {
            return;
        }
        // The person with the fewest choices: one of them must be taken.
        let Some((_, person)) = open
            .iter()
            .map(|p| (self.sets.iter().filter(|s| s.has(p)).count(), p))
            .min()
        else {
            return;
        };
        let mut choices: Vec<(usize, usize)> = self
            .sets
            .iter()
            .enumerate()
            .filter(|(_, s)| s.has(person))
            .map(|(c, s)| (s.shared(open), c))
            .collect();
        choices.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.cmp(&b.1)));
        for (_, c) in choices {
            let Some(set) = self.sets.get(c) else { continue };
            let mut rest = open.clone();
            rest.take(set);
            chosen.push(c);
            self.run(&rest, chosen);
            chosen.pop();
        }
    }
}

/// A set of people.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Bits {
    words: Vec<u64>,
}

impl Bits {
    fn none(people: usize) -> Bits {
        Bits {
            words: vec![0; people.div_ceil(64)],
        }
    }

    fn put(&mut self, i: usize) {
        if let Some(word) = self.words.get_mut(i / 64) {
            *word |= 1 << (i % 64);
        }
    }

    fn has(&self, i: usize) -> bool {
        self.words.get(i / 64).is_some_and(|w| w >> (i % 64) & 1 == 1)
    }

    fn join(&mut self, other: &Bits) {
        for (a, b) in self.words.iter_mut().zip(&other.words) {
            *a |= b;
        }
    }

    fn take(&mut self, other: &Bits) {
        for (a, b) in self.words.iter_mut().zip(&other.words) {
            *a &= !b;
        }
    }

    fn shared(&self, other: &Bits) -> usize {
        let both = self.words.iter().zip(&other.words);
        both.map(|(a, b)| (a & b).count_ones() as usize).sum()
    }

    fn count(&self) -> usize {
        self.words.iter().map(|w| w.count_ones() as usize).sum()
    }

    fn is_empty(&self) -> bool {
        self.words.iter().all(|w| *w == 0)
    }

    fn iter(&self) -> impl Iterator<Item = usize> + '_ {
        (0..self.words.len() * 64).filter(|i| self.has(*i))
    }
}
