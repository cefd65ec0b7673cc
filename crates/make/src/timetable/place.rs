//! Places steps one after another, each at the first time its person and a machine are free.

use super::{ClassStep, ClassWork, Timed, TimetableError};

/// Who comes first among the steps that could be placed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Rule {
    /// Person by person, in the order of her plan. Never worse than one after another: a step is placed at the latest when all
    /// before it are done.
    PersonByPerson,
    /// The step that can begin first; of two, that of the person with more left to do.
    FirstMostLeft,
    /// The step that can begin first; of two, that with the longest way after it.
    FirstLongestWay,
    /// The step that can begin first; of two, the one at the machine with more work left for each of its kind.
    FirstScarcest,
    /// The step that can end first.
    FirstDone,
    /// The step of the person with most left to do.
    MostLeft,
    /// The step with the longest way after it.
    LongestWay,
}

impl Rule {
    pub(super) const ALL: [Rule; 7] = [
        Rule::FirstMostLeft,
        Rule::FirstLongestWay,
        Rule::FirstScarcest,
        Rule::FirstDone,
        Rule::MostLeft,
        Rule::LongestWay,
        Rule::PersonByPerson,
    ];
}

/// Times that are taken, in order, not touching.
#[derive(Clone, Debug, Default)]
struct Taken {
    spans: Vec<(u32, u32)>,
}

impl Taken {
    /// The first time from `from` on that is free for so long.
    fn free_from(&self, from: u32, minutes: u32) -> u32 {
        let mut at = from;
        let first = self.spans.partition_point(|(_, end)| *end <= from);
        for (start, end) in self.spans.iter().skip(first) {
            if at + minutes <= *start {
                break;
            }
            at = at.max(*end);
        }
        at
    }

    fn take(&mut self, start: u32, end: u32) {
        let at = self.spans.partition_point(|(s, _)| *s < start);
        self.spans.insert(at, (start, end));
    }
}

/// The first time from `from` on at which so many minutes do not cross the end of a session.
fn within_session(from: u32, minutes: u32, session: u32) -> u32 {
    let into = from % session;
    if into == 0 || into + minutes <= session {
        from
    } else {
        from - into + session
    }
}

/// Minutes of class when nobody begins before the one before her has ended.
pub(super) fn one_after_another(work: &ClassWork) -> Result<u32, TimetableError> {
    let mut now = 0_u32;
    for steps in &work.people {
        for at in in_order(steps) {
            let minutes = steps.get(at).map_or(0, |s| s.minutes);
            now = within_session(now, minutes, work.session)
                .checked_add(minutes)
                .ok_or(TimetableError::TooLong)?;
        }
    }
    Ok(now)
}

/// The steps so that each stands after what it needs, otherwise in the order of the plan.
fn in_order(steps: &[ClassStep]) -> Vec<usize> {
    let mut order = Vec::with_capacity(steps.len());
    while let Some(next) =
        (0..steps.len()).find(|i| !order.contains(i) && steps[*i].needs.iter().all(|n| order.contains(n)))
    {
        order.push(next);
    }
    order
}

/// Longest chain of minutes that begins with each step.
fn ways(steps: &[ClassStep]) -> Vec<u32> {
    let mut ways = vec![0; steps.len()];
    for at in in_order(steps).into_iter().rev() {
        let after = (0..steps.len()).filter(|j| steps[*j].needs.contains(&at));
        ways[at] = steps[at].minutes + after.map(|j| ways[j]).max().unwrap_or(0);
    }
    ways
}

struct Room<'a> {
    work: &'a ClassWork,
    people: Vec<Taken>,
    machines: Vec<Vec<Taken>>,
}

impl Room<'_> {
    /// The first start of a step from `ready` on, and the machine; of several machines the one that is free first, then the first.
    fn first(&self, person: usize, step: &ClassStep, ready: u32) -> (u32, Option<(usize, u32)>) {
        let own = &self.people[person];
        let at = |unit: Option<&Taken>| {
            let mut start = ready;
            loop {
                let mut next = own.free_from(start, step.minutes);
                if let Some(unit) = unit {
                    next = unit.free_from(next, step.minutes);
                }
                next = within_session(next, step.minutes, self.work.session);
                if next == start {
                    return start;
                }
                start = next;
            }
        };
        let units = step.machines.iter().flat_map(|m| {
            let of = self.machines.get(*m).map_or(&[][..], Vec::as_slice);
            of.iter()
                .enumerate()
                .map(|(unit, taken)| ((*m, unit as u32), taken))
        });
        units
            .map(|(machine, taken)| (at(Some(taken)), Some(machine)))
            .min_by_key(|(start, machine)| (*start, *machine))
            .unwrap_or_else(|| (at(None), None))
    }
}

/// All steps placed by a rule.
pub(super) fn placed(work: &ClassWork, rule: Rule) -> Result<Vec<Timed>, TimetableError> {
    let mut room = Room {
        work,
        people: vec![Taken::default(); work.people.len()],
        machines: work
            .machines
            .iter()
            .map(|count| vec![Taken::default(); *count as usize])
            .collect(),
    };
    let ways: Vec<Vec<u32>> = work.people.iter().map(|steps| ways(steps)).collect();
    let mut left: Vec<u32> = work
        .people
        .iter()
        .map(|s| s.iter().map(|s| s.minutes).sum())
        .collect();
    // Work left for each one of a machine, by the first machine that forms it.
    let mut load: Vec<u32> = vec![0; work.machines.len()];
    for step in work.people.iter().flatten() {
        if let Some(sum) = step.machines.first().and_then(|m| load.get_mut(*m)) {
            *sum += step.minutes;
        }
    }
    let mut ends: Vec<Vec<Option<u32>>> = work.people.iter().map(|s| vec![None; s.len()]).collect();
    let count: usize = work.people.iter().map(Vec::len).sum();
    let mut out = Vec::with_capacity(count);
    // Of each person, the steps that could be placed now; kept up to date rather than found anew.
    while out.len() < count {
        let mut best: Option<([u64; 4], Timed)> = None;
        'people: for (person, steps) in work.people.iter().enumerate() {
            for (at, step) in steps.iter().enumerate() {
                if ends[person][at].is_some() {
                    continue;
                }
                let ready = step
                    .needs
                    .iter()
                    .try_fold(0, |ready: u32, n| Some(ready.max(ends[person][*n]?)));
                let Some(ready) = ready else { continue };
                let (start, machine) = room.first(person, step, ready);
                let end = start.checked_add(step.minutes).ok_or(TimetableError::TooLong)?;
                let timed = Timed {
                    person,
                    step: at,
                    machine,
                    start,
                    end,
                };
                let most = |of: u32| u64::from(u32::MAX - of);
                let (first, way, rest) = (u64::from(start), most(ways[person][at]), most(left[person]));
                let scarce = step.machines.first().map_or(u64::from(u32::MAX), |m| {
                    let each = load.get(*m).copied().unwrap_or(0)
                        / work.machines.get(*m).copied().unwrap_or(1).max(1);
                    most(each)
                });
                // By person and place in her plan where the rule does not decide: the first found stays.
                let key = match rule {
                    Rule::PersonByPerson => {
                        best = Some(([0; 4], timed));
                        break 'people;
                    }
                    Rule::FirstMostLeft => [first, rest, way, 0],
                    Rule::FirstLongestWay => [first, way, rest, 0],
                    Rule::FirstScarcest => [first, scarce, way, rest],
                    Rule::FirstDone => [u64::from(end), rest, way, 0],
                    Rule::MostLeft => [rest, first, way, 0],
                    Rule::LongestWay => [way, rest, first, 0],
                };
                if best.as_ref().is_none_or(|(least, _)| key < *least) {
                    best = Some((key, timed));
                }
            }
        }
        // The order of work has no circle, so something can always be placed.
        let Some((_, timed)) = best else { break };
        let minutes = timed.end - timed.start;
        room.people[timed.person].take(timed.start, timed.end);
        if let Some((machine, unit)) = timed.machine
            && let Some(taken) = room
                .machines
                .get_mut(machine)
                .and_then(|of| of.get_mut(unit as usize))
        {
            taken.take(timed.start, timed.end);
        }
        ends[timed.person][timed.step] = Some(timed.end);
        left[timed.person] -= minutes;
        let first = work.people[timed.person][timed.step].machines.first();
        if let Some(sum) = first.and_then(|m| load.get_mut(*m)) {
            *sum -= minutes;
        }
        out.push(timed);
    }
    Ok(out)
}
