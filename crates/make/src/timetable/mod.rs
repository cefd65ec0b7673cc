//! Who sits at which machine when: the making plans of several people in one room, laid into sessions.
//!
//! A step waits for the steps of its own person it needs and for a machine that forms its stitch; a person does one thing at a time,
//! and so does a machine. Steps are placed one after another, each at the first time that is free (serial list scheduling with
//! insertion), by several rules of who comes first; the shortest timetable is kept. It is no search for the best one: how far it can be
//! from that is said by [`Timetable::bound`], below which nobody can come.
//!
//! Minutes count the time of class only: minute 130 of a class of two hours is ten minutes into the second session. A step that would
//! not end within its session waits for the next; only one that is longer than a session goes over its end, and begins with one.
//!
//! **Shapes and units.** Whole minutes; machines by their place in [`ClassWork::machines`].
//! **Source.** List scheduling: R. L. Graham, Bounds on multiprocessing timing anomalies, 1969 (from memory). Bounds: load of a machine
//! between the shortest head and the shortest tail, J. Carlier, The one-machine sequencing problem, 1982 (from memory).
//! **Limits.** Minutes of steps are ranges of practice, and people are not machines: a plan to begin with, not a promise. Changing
//! thread or needle between two people takes no time here; the teacher's own time is not reckoned.

mod bound;
mod place;

use serde::Serialize;
use thiserror::Error;

use crate::making::Making;
use crate::workroom::Workroom;

/// One step of one person's work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClassStep {
    /// How long it takes.
    pub minutes: u32,
    /// Machines it can be sewn on, by their place; none for work by hand.
    pub machines: Vec<usize>,
    /// Places of the steps of this person that must be done before.
    pub needs: Vec<usize>,
}

/// What is to be done in a class, and with what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClassWork {
    /// Steps of each person, in the order of her plan.
    pub people: Vec<Vec<ClassStep>>,
    /// How many of each machine the room has.
    pub machines: Vec<u32>,
    /// Minutes of a session.
    pub session: u32,
}

/// When a step is done, and where.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Timed {
    /// Place of the person.
    pub person: usize,
    /// Place of the step in her plan.
    pub step: usize,
    /// Which machine, and which one of its kind; none by hand.
    pub machine: Option<(usize, u32)>,
    /// Minute of the class it begins.
    pub start: u32,
    /// Minute of the class it ends.
    pub end: u32,
}

/// A timetable.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Timetable {
    /// Every step once, by their beginning, then by person.
    pub steps: Vec<Timed>,
    /// Minutes of a session.
    pub session: u32,
    /// Minutes of class until the last step is done.
    pub minutes: u32,
    /// No timetable of this work can be shorter.
    pub bound: u32,
    /// What it takes when people come one after another.
    pub one_after_another: u32,
}

/// Why there is no timetable.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum TimetableError {
    /// A session has no minutes.
    #[error("a session of no length: say how long a session is")]
    NoSession,
    /// The room has none of the machines a step needs.
    #[error(
        "the room has no machine for step {step} of person {person}: add one, or plan the suit for the room's machines"
    )]
    NoMachine {
        /// The person's place.
        person: usize,
        /// The step's place.
        step: usize,
    },
    /// A step needs itself, or one that is not there, directly or over others.
    #[error("step {step} of person {person} waits for ever: its order of work goes round in a circle")]
    Waits {
        /// The person's place.
        person: usize,
        /// The step's place.
        step: usize,
    },
    /// More minutes than can be counted.
    #[error("the work takes more than a thousand hours: check the minutes of its steps")]
    TooLong,
}

/// Most minutes of all steps together.
const MOST_MINUTES: u64 = 60_000;

impl Timetable {
    /// How many sessions it takes.
    pub fn sessions(&self) -> u32 {
        self.minutes.div_ceil(self.session.max(1))
    }

    /// How much longer it is than the bound, a ratio: 0 when it is as short as can be.
    pub fn over_bound(&self) -> f64 {
        if self.bound == 0 {
            0.0
        } else {
            f64::from(self.minutes) / f64::from(self.bound) - 1.0
        }
    }

    /// Minutes each one of a machine is in use, in the order of its number; as many as the room has.
    pub fn in_use(&self, machine: usize, count: u32) -> Vec<u32> {
        (0..count)
            .map(|unit| {
                let of = self.steps.iter().filter(|t| t.machine == Some((machine, unit)));
                of.map(|t| t.end - t.start).sum()
            })
            .collect()
    }

    /// Minutes a person waits between her first step and her last.
    pub fn waits(&self, person: usize) -> u32 {
        let own = || self.steps.iter().filter(|t| t.person == person);
        let from = own().map(|t| t.start).min().unwrap_or(0);
        let to = own().map(|t| t.end).max().unwrap_or(0);
        (to - from).saturating_sub(own().map(|t| t.end - t.start).sum())
    }
}

/// Which minutes of a step's range are reckoned with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Pace {
    /// The middle of the range.
    #[default]
    Middle,
    /// The greatest: a class of beginners.
    Slow,
}

impl Pace {
    /// Whole minutes of a range, rounded up; at least one.
    pub fn minutes(self, range: (f64, f64)) -> u32 {
        let of = match self {
            Pace::Middle => 0.5 * (range.0 + range.1),
            Pace::Slow => range.1,
        };
        // A millionth of a minute is rounding; a range that is no number counts as a minute: `max` passes it over, `clamp` would not.
        (of - 1e-6).ceil().max(1.0).min(MOST_MINUTES as f64) as u32
    }
}

/// The steps of a plan as a class takes them: `skips` are done before the class, and nobody waits for them.
///
/// A step with a stitch may be sewn on every machine of the room that forms it; the room is the one the plan was made for.
pub fn class_steps(
    making: &Making,
    room: &Workroom,
    pace: Pace,
    skips: impl Fn(usize) -> bool,
) -> Vec<(usize, ClassStep)> {
    let kept: Vec<usize> = (0..making.steps.len()).filter(|i| !skips(*i)).collect();
    let place = |step: usize| kept.iter().position(|k| *k == step);
    kept.iter()
        .filter_map(|&at| Some((at, making.steps.get(at)?)))
        .map(|(at, step)| {
            let machines = match making.stitch_of(step) {
                Some(choice) => {
                    let (stitch, width) = (choice.setting.stitch, choice.setting.width);
                    let forming = room.machines.iter().enumerate();
                    forming
                        .filter(|(place, m)| Some(*place) == step.machine || m.forms(stitch, width))
                        .map(|(place, _)| place)
                        .collect()
                }
                None => Vec::new(),
            };
            let own = ClassStep {
                minutes: pace.minutes(step.minutes),
                machines,
                needs: step.needs.iter().filter_map(|n| place(*n)).collect(),
            };
            (at, own)
        })
        .collect()
}

/// Lays the work into sessions.
///
/// Deterministic: the same work gives the same timetable. Never longer than one person after another, never shorter than its bound.
///
/// # Errors
/// [`TimetableError`].
pub fn timetable(work: &ClassWork) -> Result<Timetable, TimetableError> {
    if work.session == 0 {
        return Err(TimetableError::NoSession);
    }
    checked(work)?;
    let bound = bound::bound(work);
    let one_after_another = place::one_after_another(work)?;
    let by = |rule: place::Rule| -> Result<(u32, Vec<Timed>), TimetableError> {
        let steps = place::placed(work, rule)?;
        Ok((steps.iter().map(|t| t.end).max().unwrap_or(0), steps))
    };
    let [first, others @ ..] = place::Rule::ALL;
    let (mut minutes, mut steps) = by(first)?;
    for rule in others {
        let other = by(rule)?;
        if other.0 < minutes {
            (minutes, steps) = other;
        }
    }
    steps.sort_by_key(|t| (t.start, t.person, t.step));
    Ok(Timetable {
        steps,
        session: work.session,
        minutes,
        bound,
        one_after_another,
    })
}

fn checked(work: &ClassWork) -> Result<(), TimetableError> {
    let all: u64 = work.people.iter().flatten().map(|s| u64::from(s.minutes)).sum();
    if all > MOST_MINUTES || u64::from(work.session) > MOST_MINUTES {
        return Err(TimetableError::TooLong);
    }
    for (person, steps) in work.people.iter().enumerate() {
        for (step, own) in steps.iter().enumerate() {
            let has = |m: &usize| work.machines.get(*m).is_some_and(|count| *count > 0);
            if !own.machines.is_empty() && !own.machines.iter().any(has) {
                return Err(TimetableError::NoMachine { person, step });
            }
            if own.needs.iter().any(|n| *n >= steps.len()) {
                return Err(TimetableError::Waits { person, step });
            }
        }
        // Takes away what is free until nothing is: what stays goes round in a circle.
        let mut is_done = vec![false; steps.len()];
        loop {
            let free = (0..steps.len()).find(|i| !is_done[*i] && steps[*i].needs.iter().all(|n| is_done[*n]));
            match free {
                Some(step) => is_done[step] = true,
                None => break,
            }
        }
        if let Some(step) = is_done.iter().position(|d| !d) {
            return Err(TimetableError::Waits { person, step });
        }
    }
    Ok(())
}
