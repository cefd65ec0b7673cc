//! Everyone of a class drafted, judged and planned; then the room's timetable and the one shopping list, by area until the cloth is laid.
//!
//! **Shapes and units.** People in, a [`WorkedClass`] out, in the same order; people are worked out side by side.

use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use make::{
    ClassPerson, ClassShopping, ClassShoppingInput, ClassWork, Making, Phase, Shopping, Timetable,
    class_shopping, class_steps, timetable,
};
use rayon::prelude::*;
use units::{Progress, Severity};

use super::file::ClassSetting;
use super::gather::Person;
use super::lays::ClassLays;
use crate::hand_out::{plan_of, plan_with_lays};
use crate::order::{Order, work_out};
use crate::suit_file::{Fault, SuitFile};

/// A drafted and planned suit.
#[derive(Clone, Debug)]
pub struct Drafted {
    /// Her suit file.
    pub suit: SuitFile,
    /// Worked out.
    pub order: Order,
    /// Her plan in this room.
    pub making: Making,
    /// What her suit alone takes.
    pub shopping: Shopping,
}

/// Someone who takes part, with what came of it.
#[derive(Clone, Debug)]
pub struct Taker {
    /// Who.
    pub person: Person,
    /// Her suit, or why there is none: a sentence each.
    pub drafted: Result<Box<Drafted>, Vec<String>>,
}

/// A class, worked out.
#[derive(Clone, Debug)]
pub struct WorkedClass {
    /// What it sews and how.
    pub setting: ClassSetting,
    /// Everyone, in their order.
    pub takers: Vec<Taker>,
    /// Places of those who have a suit: the people of timetable and shopping list.
    pub sewing: Vec<usize>,
    /// The steps each of them does in class, as places in her plan.
    pub steps: Vec<Vec<usize>>,
    /// The timetable, or why there is none.
    pub timetable: Result<Timetable, String>,
    /// The shopping list of all.
    pub shopping: ClassShopping,
    /// How the cloth is laid; none until [`super::lay_class`] did it: then cloth is counted by area.
    pub lays: Option<Arc<ClassLays>>,
}

/// The maker asked to stop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stopped;

/// Letter of the person at that place among those who sew: A to Z, then AA.
pub fn letter(at: usize) -> String {
    let last = char::from(b'A' + (at % 26) as u8);
    match at / 26 {
        0 => last.to_string(),
        more => format!("{}{last}", letter(more - 1)),
    }
}

/// Counts what is done for all people together, and says it with the person it is about.
pub(super) struct Counter<'a> {
    progress: &'a (dyn Progress + Sync),
    done: AtomicU64,
    of: u64,
    people: usize,
}

impl<'a> Counter<'a> {
    /// From so many steps already done.
    pub(super) fn new(progress: &'a (dyn Progress + Sync), done: u64, of: u64, people: usize) -> Counter<'a> {
        Counter {
            progress,
            done: AtomicU64::new(done),
            of,
            people,
        }
    }

    /// A part of a person's kit is being made.
    pub(super) fn begins(&self, place: usize, name: &str, what: &str) -> Result<(), Stopped> {
        if self.progress.should_stop() {
            return Err(Stopped);
        }
        let done = self.done.load(Ordering::Relaxed);
        let says = format!("{name}, {} of {}: {what}", place + 1, self.people);
        self.progress.at(done, self.of, &says);
        Ok(())
    }

    /// It is made.
    pub(super) fn ends(&self) {
        self.done.fetch_add(1, Ordering::Relaxed);
    }
}

/// Parts of the work of one person that are counted: drafting, pattern, booklet, lists.
pub(super) const PARTS: u64 = 4;
/// Parts that laying the cloth counts for each person.
pub(super) const LAY_PARTS: u64 = 2;

impl WorkedClass {
    /// Someone's drafted suit, by her place among those who sew.
    pub fn sewn(&self, at: usize) -> Option<(&Person, &Drafted)> {
        let taker = self.takers.get(*self.sewing.get(at)?)?;
        Some((&taker.person, taker.drafted.as_deref().ok()?))
    }

    /// Those whose suit could not be drafted, with the reasons.
    pub fn refused(&self) -> impl Iterator<Item = (&Person, &[String])> {
        self.takers
            .iter()
            .filter_map(|t| Some((&t.person, t.drafted.as_ref().err()?.as_slice())))
    }

    /// Whether everybody has a suit and nobody's must not be cut.
    pub fn is_whole(&self) -> bool {
        self.takers.iter().all(|t| {
            let worst = t.drafted.as_ref().map(|d| d.order.worst());
            worst.is_ok_and(|w| w < Severity::Stop)
        })
    }
}

/// Works a class out, its cloth by area. Counts a part a person; [`super::lay_class`] and [`super::make_kits`] count the rest.
///
/// # Errors
/// [`Stopped`] when that was asked for.
pub fn work(
    setting: ClassSetting,
    people: Vec<Person>,
    progress: &(dyn Progress + Sync),
) -> Result<WorkedClass, Stopped> {
    let count = people.len();
    let counter = Counter::new(progress, 0, (PARTS + LAY_PARTS) * count as u64, count);
    let takers: Vec<Taker> = people
        .into_par_iter()
        .enumerate()
        .map(|(place, person)| {
            counter.begins(place, &person.name, "draft")?;
            let drafted = drafted(&person, &setting);
            counter.ends();
            Ok(Taker { person, drafted })
        })
        .collect::<Result<_, Stopped>>()?;
    let sewing: Vec<usize> = takers
        .iter()
        .enumerate()
        .filter(|(_, t)| t.drafted.is_ok())
        .map(|(place, _)| place)
        .collect();
    let suits: Vec<&Drafted> = takers.iter().filter_map(|t| t.drafted.as_deref().ok()).collect();
    let in_class: Vec<_> = suits.iter().map(|s| steps_of_work(&s.making, &setting)).collect();
    let timetable = timetable(&ClassWork {
        people: in_class
            .iter()
            .map(|steps| steps.iter().map(|(_, step)| step.clone()).collect())
            .collect(),
        machines: setting.counts.clone(),
        session: setting.session,
    })
    .map_err(|why| why.to_string());
    let shopping = shopping_of(&takers, &setting, None);
    Ok(WorkedClass {
        steps: in_class
            .iter()
            .map(|steps| steps.iter().map(|(place, _)| *place).collect())
            .collect(),
        setting,
        takers,
        sewing,
        timetable,
        shopping,
        lays: None,
    })
}

fn shopping_of(takers: &[Taker], setting: &ClassSetting, lays: Option<&ClassLays>) -> ClassShopping {
    let suits: Vec<&Drafted> = takers.iter().filter_map(|t| t.drafted.as_deref().ok()).collect();
    let list: Vec<ClassPerson<'_>> = suits
        .iter()
        .map(|s| ClassPerson {
            making: &s.making,
            shopping: &s.shopping,
        })
        .collect();
    // Everyone sews the same cloths, so the first suit says which of the room's are of what layer.
    let (stock, prices) = suits.first().map_or_else(Default::default, |s| {
        (setting.room.stock_for(&s.suit), setting.room.prices_for(&s.suit))
    });
    class_shopping(&ClassShoppingInput {
        people: &list,
        room: &setting.room.workroom,
        counts: &setting.counts,
        bags: setting.bags,
        stock: &stock,
        prices: &prices,
        together: &lays.map_or_else(Vec::new, ClassLays::lengths),
    })
}

impl WorkedClass {
    /// The same with its cloth laid: shopping list, bag lists and booklets go by the lays from here on.
    #[must_use]
    pub fn with_lays(mut self, lays: Arc<ClassLays>) -> WorkedClass {
        let (sewing, setting) = (&self.sewing, &self.setting);
        self.takers.par_iter_mut().enumerate().for_each(|(place, taker)| {
            let own = sewing
                .iter()
                .position(|p| *p == place)
                .and_then(|at| lays.alone.get(at));
            if let (Ok(drafted), Some(own)) = (&mut taker.drafted, own) {
                let (_, shopping) =
                    plan_with_lays(&drafted.suit, &drafted.order, &setting.room, &own.lengths());
                drafted.shopping = shopping;
            }
        });
        self.shopping = shopping_of(&self.takers, &self.setting, Some(&lays));
        self.lays = Some(lays);
        self
    }
}

/// The steps of a plan that are done in class: washing lies a day before it, and what else was said to be done before.
pub fn steps_of_work(making: &Making, setting: &ClassSetting) -> Vec<(usize, make::ClassStep)> {
    let is_before = |place: usize| {
        making
            .steps
            .get(place)
            .is_some_and(|s| s.id == WASH || is_done_before(s.phase, setting))
    };
    class_steps(making, &setting.room.workroom, setting.pace, is_before)
}

/// Id of the step that takes a day to dry.
const WASH: &str = "wash";

fn is_done_before(phase: Phase, setting: &ClassSetting) -> bool {
    setting.before.contains(&phase)
}

fn drafted(person: &Person, setting: &ClassSetting) -> Result<Box<Drafted>, Vec<String>> {
    let suit = person.suit.as_ref().map_err(|faults| says(faults))?;
    let order = work_out(suit).map_err(|faults| says(&faults.list))?;
    let (making, shopping) = plan_of(suit, &order, &setting.room);
    Ok(Box::new(Drafted {
        suit: suit.clone(),
        order,
        making,
        shopping,
    }))
}

/// Faults as sentences.
fn says(faults: &[Fault]) -> Vec<String> {
    let sentences = faults.iter().map(|f| {
        let help = if f.help.is_empty() {
            String::new()
        } else {
            format!("; {}", f.help)
        };
        format!("{}{help}", f.message)
    });
    sentences.collect()
}

#[cfg(test)]
mod tests {
    use super::letter;

    #[test]
    fn letters_go_on_after_z() {
        let of: Vec<String> = [0, 25, 26, 27, 52].into_iter().map(letter).collect();
        assert_eq!(of, ["A", "Z", "AA", "AB", "BA"]);
    }
}
