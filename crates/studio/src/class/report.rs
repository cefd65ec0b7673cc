//! A class as data: who, what came of each, the timetable, the shopping list.
//!
//! **Shapes and units.** Minutes of class; lengths mm. Field names are stable; new ones may come.

use make::{ClassShopping, Pace};
use serde::Serialize;
use units::Severity;

use super::kits::Kit;
use super::room::place_of;
use super::voice::Voice;
use super::work::{WorkedClass, letter};
use crate::laying::ReportedLay;

/// A class, for scripts.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ClassReport {
    /// The form of this data.
    pub format: u32,
    /// What the class is called.
    pub name: String,
    /// When it meets.
    pub when: String,
    /// Everyone.
    pub people: Vec<PersonReport>,
    /// The timetable; none when nobody sews or the room cannot.
    pub timetable: Option<TimetableReport>,
    /// Why there is no timetable.
    pub no_timetable: Option<String>,
    /// The shopping list.
    pub shopping: ClassShopping,
    /// All kits of each cloth laid together; empty before the cloth is laid.
    pub lays: Vec<ReportedLay>,
    /// Cloths that cannot be laid, and why.
    pub not_laid: Vec<String>,
}

/// Someone who takes part.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PersonReport {
    /// Her name.
    pub name: String,
    /// Her letter in the timetable; none if she does not sew.
    pub letter: Option<String>,
    /// Her folder.
    pub folder: String,
    /// Version of her suit.
    pub version: Option<String>,
    /// Its worst finding.
    pub worst: Option<Severity>,
    /// Why there is no suit.
    pub refused: Vec<String>,
    /// Minutes of her work in class.
    pub minutes: u32,
    /// Minutes she waits between her first step and her last.
    pub waits: u32,
    /// Her files, where they were made.
    pub files: Vec<crate::paper::Made>,
}

/// The timetable.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TimetableReport {
    /// Minutes of a session.
    pub session_minutes: u32,
    /// How many sessions.
    pub sessions: u32,
    /// Minutes of class until the last step is done.
    pub minutes: u32,
    /// No timetable can be shorter.
    pub bound: u32,
    /// How much longer it is, a ratio.
    pub over_bound: f64,
    /// One person after another.
    pub one_after_another: u32,
    /// Which minutes of a step's range were reckoned with.
    pub pace: Pace,
    /// What they rest on.
    pub basis: &'static str,
    /// Machines, with their minutes in use.
    pub machines: Vec<MachineReport>,
    /// Every step.
    pub steps: Vec<StepReport>,
}

/// One machine.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MachineReport {
    /// Its name, with its number.
    pub machine: String,
    /// Minutes in use.
    pub minutes: u32,
}

/// One step of one person.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StepReport {
    /// Who.
    pub person: String,
    /// Id of the step in her plan.
    pub step: String,
    /// Its place in her plan, from 1.
    pub number: usize,
    /// Session, from 1.
    pub session: u32,
    /// Minute of that session.
    pub from: u32,
    /// How long.
    pub minutes: u32,
    /// The range of practice it was taken from, least and most.
    pub range: (f64, f64),
    /// Which machine; none by hand.
    pub machine: Option<String>,
}

const BASIS: &str = "minutes at home, common practice, no published source";

/// The class as data. `kits` may be empty: then nothing was made.
pub fn report(class: &WorkedClass, kits: &[Kit]) -> ClassReport {
    let voice = Voice::new(&class.setting);
    let table = class.timetable.as_ref().ok().filter(|_| !class.sewing.is_empty());
    let people = class.takers.iter().enumerate().map(|(place, taker)| {
        let at = class.sewing.iter().position(|p| *p == place);
        let own = |of: &make::Timetable, at: usize| -> u32 {
            let steps = of.steps.iter().filter(|t| t.person == at);
            steps.map(|t| t.end - t.start).sum()
        };
        PersonReport {
            name: taker.person.name.clone(),
            letter: at.map(letter),
            folder: taker.person.folder.clone(),
            version: taker.drafted.as_ref().ok().map(|d| d.order.version.clone()),
            worst: taker.drafted.as_ref().ok().map(|d| d.order.worst()),
            refused: taker.drafted.as_ref().err().cloned().unwrap_or_default(),
            minutes: table.zip(at).map_or(0, |(t, at)| own(t, at)),
            waits: table.zip(at).map_or(0, |(t, at)| t.waits(at)),
            files: kits.get(place).map(|k| k.files.clone()).unwrap_or_default(),
        }
    });
    let together = class.lays.as_ref().map(|l| &l.together);
    ClassReport {
        format: 1,
        name: class.setting.name.clone(),
        when: class.setting.when.clone(),
        people: people.collect(),
        timetable: table.map(|t| timetable(class, t, &voice)),
        no_timetable: class.timetable.as_ref().err().cloned(),
        shopping: class.shopping.clone(),
        lays: together.map_or_else(Vec::new, |l| l.laid.iter().map(ReportedLay::of).collect()),
        not_laid: together.map_or_else(Vec::new, |l| l.not_laid.iter().map(|n| n.says()).collect()),
    }
}

fn timetable(class: &WorkedClass, table: &make::Timetable, voice: &Voice) -> TimetableReport {
    let counts = class.setting.counts.iter().enumerate();
    let machines = counts.flat_map(|(kind, count)| {
        let in_use = table.in_use(kind, *count);
        let units = in_use.into_iter().enumerate();
        units
            .map(|(unit, minutes)| MachineReport {
                machine: place_of(class, Some((kind, unit as u32)), voice),
                minutes,
            })
            .collect::<Vec<_>>()
    });
    let session = table.session.max(1);
    let steps = table.steps.iter().filter_map(|t| {
        let (person, drafted) = class.sewn(t.person)?;
        let place = *class.steps.get(t.person)?.get(t.step)?;
        let step = drafted.making.steps.get(place)?;
        Some(StepReport {
            person: person.name.clone(),
            step: step.id.clone(),
            number: place + 1,
            session: t.start / session + 1,
            from: t.start % session,
            minutes: t.end - t.start,
            range: step.minutes,
            machine: t.machine.map(|m| place_of(class, Some(m), voice)),
        })
    });
    TimetableReport {
        session_minutes: table.session,
        sessions: table.sessions(),
        minutes: table.minutes,
        bound: table.bound,
        over_bound: table.over_bound(),
        one_after_another: table.one_after_another,
        pace: class.setting.pace,
        basis: BASIS,
        machines: machines.collect(),
        steps: steps.collect(),
    }
}
