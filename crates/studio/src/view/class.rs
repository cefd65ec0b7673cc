//! A class as the pages show it: who can sew, the room's sessions as bars, what to buy.
//!
//! Bars come as shares of the session's width, so that the page reckons nothing.

use serde::Serialize;
use ts_rs::TS;
use units::Severity;
use utoipa::ToSchema;

use super::State;
use crate::class::{Voice, WorkedClass, clock, letter, place_of, share_words, timetable_says, units_of};

/// A class, worked out.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ClassView {
    /// How it stands.
    pub state: State,
    /// One sentence.
    pub summary: String,
    /// What the room has: a sentence.
    pub room: String,
    /// Everyone who takes part.
    pub people: Vec<ClassPersonView>,
    /// How the timetable came about, or why there is none: a sentence each.
    pub says: Vec<String>,
    /// The sessions.
    pub sessions: Vec<ClassSessionView>,
    /// How all kits of each cloth lie together.
    pub cloth: ClassClothView,
    /// The shopping list.
    pub shopping: Vec<ClassBuyView>,
}

/// The cloth of a class.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ClassClothView {
    /// Whether it was laid since anything changed that it rests on.
    pub is_laid: bool,
    /// How it came about, in a sentence.
    pub says: String,
    /// A line a cloth.
    pub lays: Vec<ClassLayView>,
    /// Cloths that cannot be laid: a sentence each.
    pub not_laid: Vec<String>,
}

/// All kits on one length of a cloth.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ClassLayView {
    /// `Slate tricot, shell, 150 cm wide`.
    pub cloth: String,
    /// Suits and pieces: `3 suits, 9 pieces`.
    pub holds: String,
    /// From cut end to cut end.
    pub lay: String,
    /// Share of the usable cloth that is pieces.
    pub used: String,
    /// No lay of these pieces can be shorter.
    pub least: String,
    /// What to ask for in the shop.
    pub buy: String,
}

/// Someone who takes part.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ClassPersonView {
    /// Her name.
    pub name: String,
    /// Her letter in the timetable; empty if she cannot sew yet.
    pub letter: String,
    /// How her suit stands.
    pub state: State,
    /// Why it cannot be drafted, or what must stop: a sentence each.
    pub says: Vec<String>,
    /// Time of her work in class: `6 h 40 min`.
    pub works: String,
    /// Time she waits for a machine.
    pub waits: String,
}

/// One session.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ClassSessionView {
    /// `Session 1`.
    pub name: String,
    /// Marks of its hours.
    pub hours: Vec<ClassHourView>,
    /// A row a machine.
    pub machines: Vec<ClassRowView>,
    /// A row a person.
    pub people: Vec<ClassRowView>,
}

/// A mark of an hour.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ClassHourView {
    /// Where, as a share of the session.
    pub at: f64,
    /// `1:00`.
    pub says: String,
}

/// A row of bars.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ClassRowView {
    /// Whose: a machine or a person.
    pub name: String,
    /// Its bars.
    pub bars: Vec<ClassBarView>,
}

/// A bar.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ClassBarView {
    /// Where it begins, as a share of the session.
    pub at: f64,
    /// How wide it is, as a share of the session.
    pub wide: f64,
    /// Place of the person among those who sew: tells bars apart.
    pub person: usize,
    /// Written in it where there is room, long and short.
    pub label: String,
    /// The short one.
    pub short: String,
    /// All of it, for a reader that does not see it: `0:10 to 0:25, Tove: side seams`.
    pub says: String,
    /// At a machine, not by hand.
    pub is_sewn: bool,
}

/// One line of the shopping list.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ClassBuyView {
    /// What.
    pub what: String,
    /// What everybody together needs.
    pub needed: String,
    /// What to buy.
    pub buy: String,
    /// Who has which share.
    pub shares: String,
    /// What it rests on.
    pub note: String,
}

/// The view of a worked class. `room` says where its machines come from, `seconds` how long its cloth took to lay.
pub fn class_view(class: &WorkedClass, room: &str, seconds: Option<f64>) -> ClassView {
    let voice = Voice::new(&class.setting);
    let people: Vec<ClassPersonView> = people(class, &voice);
    let lacking = class.refused().count();
    let state = people.iter().map(|p| p.state).min().unwrap_or(State::Good);
    let count = |n: usize, one: &str, many: &str| {
        if n == 1 {
            format!("One {one}")
        } else {
            format!("{n} {many}")
        }
    };
    let sewing = count(class.sewing.len(), "person can sew it", "people can sew it");
    let summary = match lacking {
        0 => format!("{sewing}."),
        1 => format!("{sewing}, one cannot yet."),
        n => format!("{sewing}, {n} cannot yet."),
    };
    let (says, sessions) = match &class.timetable {
        _ if class.sewing.is_empty() => (vec![voice.word("class-nobody")], Vec::new()),
        Err(why) => (vec![super::sentence(why)], Vec::new()),
        Ok(table) => (
            timetable_says(class, table, &voice),
            (0..table.sessions())
                .map(|n| session(class, table, n, &voice))
                .collect(),
        ),
    };
    let shopping = class.shopping.lines.iter().map(|line| ClassBuyView {
        what: voice.plan(&line.say),
        needed: voice.amount(&line.item, line.needed),
        buy: voice.amount(&line.item, line.to_buy),
        shares: share_words(class, line, &voice),
        note: line
            .notes
            .iter()
            .map(|n| voice.plan(n))
            .collect::<Vec<_>>()
            .join(" "),
    });
    ClassView {
        state,
        summary,
        room: room.to_owned(),
        people,
        says,
        sessions,
        cloth: cloth(class, seconds, &voice),
        shopping: shopping.collect(),
    }
}

fn cloth(class: &WorkedClass, seconds: Option<f64>, voice: &Voice) -> ClassClothView {
    let Some(lays) = &class.lays else {
        return ClassClothView {
            is_laid: false,
            says: "Counted by the area of the pieces so far. Laid, it is known what to buy; making the kits lays it too.".into(),
            lays: Vec::new(),
            not_laid: Vec::new(),
        };
    };
    let took = seconds.map_or_else(String::new, |s| format!(", in {s:.1} s"));
    let lays_of = lays.together.laid.iter().map(|laid| {
        let (request, lay) = (&laid.task.request, &laid.lay);
        let ends = 2.0 * request.cloth.end_allowance_mm;
        let count = |n: usize, one: &str, many: &str| {
            if n == 1 {
                format!("1 {one}")
            } else {
                format!("{n} {many}")
            }
        };
        ClassLayView {
            cloth: format!(
                "{}, {}, {}",
                request.cloth.name,
                laid.task.layer.name(),
                voice.length(request.cloth.width_mm)
            ),
            holds: format!(
                "{}, {}",
                count(request.garments.len(), "suit", "suits"),
                count(lay.placed.len(), "piece", "pieces")
            ),
            lay: voice.metres(lay.cloth_mm),
            used: format!("{:.0}\u{a0}%", 100.0 * lay.usage),
            least: voice.metres(lay.bound.length_mm + ends),
            buy: voice.metres(laid.buying.buy_mm),
        }
    });
    ClassClothView {
        is_laid: true,
        says: format!("All kits of a cloth laid together{took}. The lay plans are among the kits."),
        lays: lays_of.collect(),
        not_laid: lays
            .together
            .not_laid
            .iter()
            .map(|n| super::sentence(&n.says()))
            .collect(),
    }
}

fn people(class: &WorkedClass, voice: &Voice) -> Vec<ClassPersonView> {
    let table = class.timetable.as_ref().ok();
    let takers = class.takers.iter().enumerate();
    takers
        .map(|(place, taker)| {
            let at = class.sewing.iter().position(|p| *p == place);
            let (state, says) = match &taker.drafted {
                Err(why) => (State::Missing, why.iter().map(|w| super::sentence(w)).collect()),
                Ok(drafted) => {
                    let stops = drafted
                        .order
                        .findings
                        .iter()
                        .filter(|f| f.severity == Severity::Stop);
                    let says: Vec<String> = stops
                        .map(|f| super::sentence(&format!("{}: {}; {}", f.place, f.message, f.remedy)))
                        .collect();
                    let state = match drafted.order.worst() {
                        Severity::Stop => State::Stop,
                        Severity::Watch => State::Doubtful,
                        Severity::Good => State::Good,
                    };
                    (state, says)
                }
            };
            let own = table.zip(at).map(|(t, at)| {
                let steps = t.steps.iter().filter(|s| s.person == at);
                (steps.map(|s| s.end - s.start).sum::<u32>(), t.waits(at))
            });
            ClassPersonView {
                name: taker.person.name.clone(),
                letter: at.map_or(String::new(), letter),
                state,
                says,
                works: own.map_or(String::new(), |(works, _)| voice.minutes(works)),
                waits: own.map_or(String::new(), |(_, waits)| voice.minutes(waits)),
            }
        })
        .collect()
}

fn session(class: &WorkedClass, table: &make::Timetable, number: u32, voice: &Voice) -> ClassSessionView {
    let length = table.session.max(1);
    let share = |minutes: u32| f64::from(minutes) / f64::from(length);
    let (from, to) = (number * length, (number + 1) * length);
    let bars = |is_in: &dyn Fn(&make::Timed) -> bool| -> Vec<ClassBarView> {
        let of = table
            .steps
            .iter()
            .filter(|t| is_in(t) && t.start < to && t.end > from);
        of.filter_map(|t| {
            let (person, drafted) = class.sewn(t.person)?;
            let place = *class.steps.get(t.person)?.get(t.step)?;
            let step = drafted.making.steps.get(place)?;
            let (begin, end) = (t.start.max(from) - from, t.end.min(to) - from);
            let where_at = place_of(class, t.machine, voice);
            Some(ClassBarView {
                at: share(begin),
                wide: share(end - begin),
                person: t.person,
                label: format!("{} {}", letter(t.person), place + 1),
                short: letter(t.person),
                says: format!(
                    "{} to {}, {}, {where_at}: {} {}",
                    clock(begin),
                    clock(end),
                    person.name,
                    place + 1,
                    voice.plan(&step.say)
                ),
                is_sewn: t.machine.is_some(),
            })
        })
        .collect()
    };
    let every = match length {
        0..=60 => 15,
        61..=240 => 30,
        _ => 60,
    };
    ClassSessionView {
        name: voice.say("class-session", &[("number", (number + 1).into())]),
        hours: (0..=length)
            .step_by(every)
            .map(|minute| ClassHourView {
                at: share(minute),
                says: clock(minute),
            })
            .collect(),
        machines: units_of(class)
            .into_iter()
            .map(|unit| ClassRowView {
                name: place_of(class, Some(unit), voice),
                bars: bars(&|t| t.machine == Some(unit)),
            })
            .collect(),
        people: (0..class.sewing.len())
            .filter_map(|at| {
                let (person, _) = class.sewn(at)?;
                Some(ClassRowView {
                    name: format!("{} {}", letter(at), person.name),
                    bars: bars(&|t| t.person == at),
                })
            })
            .collect(),
    }
}
