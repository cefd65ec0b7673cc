//! What no timetable can be shorter than.
//!
//! Two things bound it: a person does one thing at a time, so her own steps take their sum; and the steps only some machines
//! can sew take their sum over the number of those machines, after the shortest way to the first of them and before the shortest way
//! from the last. Both hold with any breaks between sessions, since minutes count class time only.

use std::collections::{BTreeMap, BTreeSet};

use super::{ClassStep, ClassWork};

/// A step at a machine: the set of machines it may be sewn on, what must be done before it and after it.
struct Sewn {
    machines: BTreeSet<usize>,
    minutes: u64,
    head: u64,
    tail: u64,
}

/// Minutes of class no timetable of this work can be shorter than.
pub(super) fn bound(work: &ClassWork) -> u32 {
    let person = |steps: &Vec<ClassStep>| steps.iter().map(|s| u64::from(s.minutes)).sum::<u64>();
    let longest = work.people.iter().map(person).max().unwrap_or(0);
    let sewn: Vec<Sewn> = work.people.iter().flat_map(|steps| sewn(work, steps)).collect();
    let sets: BTreeSet<&BTreeSet<usize>> = sewn.iter().map(|s| &s.machines).collect();
    let mut all: BTreeMap<BTreeSet<usize>, ()> = sets.iter().map(|s| ((*s).clone(), ())).collect();
    // The machines of two sets together bound the steps of both.
    for a in &sets {
        for b in &sets {
            all.insert(a.union(b).copied().collect(), ());
        }
    }
    let machines = all
        .keys()
        .map(|set| machine_bound(work, &sewn, set))
        .max()
        .unwrap_or(0);
    u32::try_from(longest.max(machines)).unwrap_or(u32::MAX)
}

fn sewn(work: &ClassWork, steps: &[ClassStep]) -> Vec<Sewn> {
    let before = reached(steps, |steps, i| steps[i].needs.clone());
    let after = reached(steps, |steps, i| {
        (0..steps.len())
            .filter(|j| steps[*j].needs.contains(&i))
            .collect()
    });
    let sum = |set: &BTreeSet<usize>| set.iter().map(|i| u64::from(steps[*i].minutes)).sum();
    let has = |m: &usize| work.machines.get(*m).is_some_and(|count| *count > 0);
    steps
        .iter()
        .enumerate()
        .filter(|(_, s)| !s.machines.is_empty())
        .map(|(i, s)| Sewn {
            machines: s.machines.iter().copied().filter(has).collect(),
            minutes: u64::from(s.minutes),
            head: sum(&before[i]),
            tail: sum(&after[i]),
        })
        .collect()
}

/// For each step everything that is reached by following `next` again and again. The order of work has no circle.
fn reached(steps: &[ClassStep], next: impl Fn(&[ClassStep], usize) -> Vec<usize>) -> Vec<BTreeSet<usize>> {
    (0..steps.len())
        .map(|start| {
            let (mut found, mut open) = (BTreeSet::new(), vec![start]);
            while let Some(at) = open.pop() {
                for to in next(steps, at) {
                    if found.insert(to) {
                        open.push(to);
                    }
                }
            }
            found
        })
        .collect()
}

/// The steps that can be sewn nowhere else, and of them those that come late, or those that have much after them.
fn machine_bound(work: &ClassWork, sewn: &[Sewn], set: &BTreeSet<usize>) -> u64 {
    let count: u64 = set
        .iter()
        .filter_map(|m| work.machines.get(*m))
        .map(|c| u64::from(*c))
        .sum();
    let of: Vec<&Sewn> = sewn.iter().filter(|s| s.machines.is_subset(set)).collect();
    let bound_of = |of: &[&Sewn]| {
        let load: u64 = of.iter().map(|s| s.minutes).sum();
        let head = of.iter().map(|s| s.head).min().unwrap_or(0);
        let tail = of.iter().map(|s| s.tail).min().unwrap_or(0);
        head + load.div_ceil(count.max(1)) + tail
    };
    let heads: BTreeSet<u64> = of.iter().map(|s| s.head).collect();
    let tails: BTreeSet<u64> = of.iter().map(|s| s.tail).collect();
    let late = heads.iter().map(|least| {
        let late: Vec<&Sewn> = of.iter().copied().filter(|s| s.head >= *least).collect();
        bound_of(&late)
    });
    let early = tails.iter().map(|least| {
        let early: Vec<&Sewn> = of.iter().copied().filter(|s| s.tail >= *least).collect();
        bound_of(&early)
    });
    late.chain(early).max().unwrap_or(0)
}
