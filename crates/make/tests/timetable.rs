//! The timetable of a class: laws on random work, a worked example by hand, and the plans of real suits.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

#[path = "suit/bodies.rs"]
mod bodies;
#[path = "suit/suits.rs"]
mod suits;

use std::collections::BTreeSet;

use draft::{LiningCover, Style};
use make::{
    ClassStep, ClassWork, ElasticChoice, MakingInput, Pace, Preset, SampleBook, Timetable, TimetableError,
    WornStretch, class_steps, making, timetable,
};
use proptest::prelude::*;
use suits::{Suit, lined};

fn step(minutes: u32, machines: &[usize], needs: &[usize]) -> ClassStep {
    ClassStep {
        minutes,
        machines: machines.to_vec(),
        needs: needs.to_vec(),
    }
}

/// Everything that must hold of any timetable, whatever the work.
fn holds(work: &ClassWork, table: &Timetable) {
    let mut seen = BTreeSet::new();
    for t in &table.steps {
        assert!(
            seen.insert((t.person, t.step)),
            "step {} of {} stands twice",
            t.step,
            t.person
        );
        let own = &work.people[t.person][t.step];
        assert_eq!(t.end - t.start, own.minutes, "a step keeps its length");
        match t.machine {
            Some((machine, unit)) => {
                assert!(own.machines.contains(&machine), "a machine that forms its stitch");
                assert!(unit < work.machines[machine], "a machine that is there");
            }
            None => assert!(own.machines.is_empty(), "a step with a stitch has a machine"),
        }
        // Over the end of a session only if it is longer than one, and then from the beginning of one.
        let crosses = t.start / work.session != (t.end.max(t.start + 1) - 1) / work.session;
        assert!(!crosses || (own.minutes > work.session && t.start % work.session == 0));
        for need in &own.needs {
            let before = table
                .steps
                .iter()
                .find(|b| b.person == t.person && b.step == *need)
                .unwrap();
            assert!(before.end <= t.start, "what it needs is done before");
        }
    }
    let all: usize = work.people.iter().map(Vec::len).sum();
    assert_eq!(seen.len(), all, "every step once");
    for a in &table.steps {
        for b in &table.steps {
            let is_other = (a.person, a.step) != (b.person, b.step);
            let meets = a.start < b.end && b.start < a.end;
            if is_other && meets {
                assert_ne!(a.person, b.person, "one person, two things at once: {a:?} {b:?}");
                assert!(
                    a.machine.is_none() || a.machine != b.machine,
                    "one machine, two people: {a:?} {b:?}"
                );
            }
        }
    }
    assert_eq!(
        table.minutes,
        table.steps.iter().map(|t| t.end).max().unwrap_or(0)
    );
    assert!(
        table.minutes >= table.bound,
        "{} under the bound {}",
        table.minutes,
        table.bound
    );
    assert!(
        table.minutes <= table.one_after_another,
        "worse than one after another"
    );
}

fn any_work() -> impl Strategy<Value = ClassWork> {
    let steps = prop::collection::vec((1_u32..40, 0_usize..8, any::<u64>()), 1..9);
    let people = prop::collection::vec(steps, 1..6);
    (people, prop::collection::vec(1_u32..4, 3), 20_u32..90).prop_map(|(people, machines, session)| {
        ClassWork {
            people: people
                .into_iter()
                .map(|steps| {
                    let steps = steps.into_iter().enumerate().map(|(i, (minutes, which, bits))| {
                        // None, one, or two of the three machines; needs any steps before it.
                        let machines: &[usize] = match which {
                            0 | 1 => &[],
                            2 | 3 => &[0],
                            4 => &[1],
                            5 => &[2],
                            6 => &[0, 1],
                            _ => &[1, 2],
                        };
                        let needs: Vec<usize> = (0..i).filter(|n| bits >> n & 1 == 1).collect();
                        step(minutes, machines, &needs)
                    });
                    steps.collect()
                })
                .collect(),
            machines,
            session,
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, ..ProptestConfig::default() })]

    #[test]
    fn a_timetable_keeps_the_order_and_shares_nothing_twice(work in any_work()) {
        let table = timetable(&work).unwrap();
        holds(&work, &table);
        prop_assert_eq!(&table, &timetable(&work).unwrap());
    }

    /// One more machine of each kind never raises what no timetable can be shorter than.
    #[test]
    fn more_machines_never_raise_the_bound(work in any_work()) {
        let mut more = work.clone();
        for count in &mut more.machines {
            *count += 1;
        }
        prop_assert!(timetable(&more).unwrap().bound <= timetable(&work).unwrap().bound);
    }

    /// With a machine of each kind for everyone nobody waits for a machine: the longest person decides, but for the ends of sessions.
    #[test]
    fn with_machines_for_all_nobody_waits(work in any_work()) {
        let mut rich = work.clone();
        rich.machines = vec![rich.people.len() as u32; rich.machines.len()];
        rich.session = 30_000;
        let table = timetable(&rich).unwrap();
        let longest: u32 = rich.people.iter().map(|s| s.iter().map(|s| s.minutes).sum()).max().unwrap();
        prop_assert_eq!(table.minutes, longest);
        prop_assert_eq!(table.bound, longest);
    }
}

/// By hand. Two people, one overlocker (0), one zigzag machine (1), a session of an hour; each cuts 10, overlocks 20, zigzags 10.
/// The overlocker cannot begin before minute 10, takes 2 x 20, and 10 must follow it: 60 at least. And 60 it is:
///
/// ```text
/// minute      0    10        30   40        50   60
/// overlocker  .....[ first  ][    second   ]
/// zigzag      ..............[ 1st ]         [ 2nd ]
/// by hand     [both cut]
/// ```
///
/// One after another would take 2 x 40 = 80; but the last zigzag step of the second (70 to 80) does not cross an end (60), and her
/// overlocking (50 to 70) would: it waits for minute 60, so it is 60 + 20 + 10 = 90.
#[test]
fn two_at_one_overlocker_by_hand() {
    let own = vec![step(10, &[], &[]), step(20, &[0], &[0]), step(10, &[1], &[1])];
    let work = ClassWork {
        people: vec![own.clone(), own],
        machines: vec![1, 1],
        session: 60,
    };
    let table = timetable(&work).unwrap();
    holds(&work, &table);
    assert_eq!(
        (table.minutes, table.bound, table.one_after_another),
        (60, 60, 90)
    );
    assert_eq!(table.sessions(), 1);
    assert_eq!(table.in_use(0, 1), [40]);
    let starts: Vec<(usize, usize, u32)> = table.steps.iter().map(|t| (t.person, t.step, t.start)).collect();
    assert_eq!(
        starts,
        [
            (0, 0, 0),
            (1, 0, 0),
            (0, 1, 10),
            (0, 2, 30),
            (1, 1, 30),
            (1, 2, 50)
        ]
    );
    assert_eq!((table.waits(0), table.waits(1)), (0, 20));
}

/// By hand: a step of 25 does not begin 20 minutes before the end of a session of 40, and one of 50 begins with a session.
#[test]
fn no_step_is_cut_by_the_end_of_a_session() {
    let work = ClassWork {
        people: vec![vec![step(20, &[], &[]), step(25, &[], &[0]), step(50, &[], &[1])]],
        machines: vec![],
        session: 40,
    };
    let table = timetable(&work).unwrap();
    holds(&work, &table);
    let starts: Vec<u32> = table.steps.iter().map(|t| t.start).collect();
    assert_eq!(starts, [0, 40, 80]);
    assert_eq!((table.minutes, table.bound, table.sessions()), (130, 95, 4));
}

#[test]
fn what_cannot_be_timed_says_so() {
    let work = |steps: Vec<ClassStep>| ClassWork {
        people: vec![vec![step(5, &[], &[])], steps],
        machines: vec![0],
        session: 60,
    };
    let refused = |steps| timetable(&work(steps)).unwrap_err();
    let at = |step| (1, step);
    let (person, step_at) = at(0);
    assert_eq!(
        refused(vec![step(5, &[0], &[])]),
        TimetableError::NoMachine {
            person,
            step: step_at
        }
    );
    assert_eq!(
        refused(vec![step(5, &[], &[1]), step(5, &[], &[0])]),
        TimetableError::Waits {
            person,
            step: step_at
        }
    );
    assert_eq!(
        refused(vec![step(5, &[], &[7])]),
        TimetableError::Waits {
            person,
            step: step_at
        }
    );
    assert_eq!(refused(vec![step(u32::MAX, &[], &[])]), TimetableError::TooLong);
    let none = ClassWork {
        session: 0,
        ..work(vec![])
    };
    assert_eq!(timetable(&none), Err(TimetableError::NoSession));
    let empty = ClassWork {
        people: vec![],
        machines: vec![],
        session: 60,
    };
    assert_eq!(timetable(&empty).unwrap().minutes, 0);
}

#[test]
fn minutes_are_rounded_up_and_never_nothing() {
    assert_eq!(Pace::Middle.minutes((10.0, 20.0)), 15);
    assert_eq!(Pace::Slow.minutes((10.0, 20.0)), 20);
    assert_eq!(Pace::Middle.minutes((1.0, 2.2)), 2);
    assert_eq!(Pace::Middle.minutes((0.0, 0.0)), 1);
    assert_eq!(Pace::Slow.minutes((0.0, f64::NAN)), 1);
}

/// Six lined one-pieces at three zigzag machines and one overlocker: the overlocker is what they wait for, and the timetable stays
/// within a fifth of its bound.
#[test]
fn six_suits_share_an_overlocker() {
    let suit = Suit::of("lined", lined(Style::ONE_PIECE, LiningCover::Full));
    let room = Preset::ZigzagOverlocker.workroom();
    let worn = WornStretch::of_draft(&suit.draft);
    let plan = making(&MakingInput {
        draft: &suit.draft,
        design: &suit.design,
        cloth: &suit.cloth,
        elastic: &ElasticChoice::default(),
        workroom: &room,
        samples: &SampleBook::default(),
        worn: &worn,
        masses: &[],
        is_child: false,
    });
    let steps: Vec<ClassStep> = class_steps(&plan, &room, Pace::Middle, |_| false)
        .into_iter()
        .map(|(_, s)| s)
        .collect();
    assert_eq!(steps.len(), plan.steps.len());
    assert!(steps.iter().any(|s| s.machines == [1]), "something is overlocked");
    let work = ClassWork {
        people: vec![steps; 6],
        machines: vec![3, 1],
        session: 180,
    };
    let table = timetable(&work).unwrap();
    holds(&work, &table);
    println!(
        "{} minutes, bound {}, one after another {}",
        table.minutes, table.bound, table.one_after_another
    );
    assert!(table.over_bound() < 0.20, "{:.2}", table.over_bound());
}

/// The list of a class against the lists of its people: elastic net adds up and is rounded once, cloth lengths add up, thread too.
#[test]
fn a_class_list_adds_up_and_rounds_once() {
    use make::{
        ClassPerson, ClassShoppingInput, ClothInBag, Item, LaidTogether, Price, ShoppingInput, Stock,
        class_shopping, shopping,
    };
    let room = Preset::ZigzagOverlocker.workroom();
    let suits = [
        Suit::of("lined", lined(Style::ONE_PIECE, LiningCover::Full)),
        Suit::of("crotch", lined(Style::ONE_PIECE, LiningCover::Crotch)),
    ];
    let worn: Vec<WornStretch> = suits.iter().map(|s| WornStretch::of_draft(&s.draft)).collect();
    let (elastic, samples) = (ElasticChoice::default(), SampleBook::default());
    let inputs: Vec<MakingInput<'_>> = suits
        .iter()
        .zip(&worn)
        .map(|(suit, worn)| MakingInput {
            draft: &suit.draft,
            design: &suit.design,
            cloth: &suit.cloth,
            elastic: &elastic,
            workroom: &room,
            samples: &samples,
            worn,
            masses: &[],
            is_child: false,
        })
        .collect();
    let plans: Vec<_> = inputs.iter().map(making).collect();
    let lists: Vec<_> = inputs
        .iter()
        .zip(&plans)
        .map(|(input, plan)| shopping(input, plan, &ShoppingInput::default()))
        .collect();
    let people: Vec<ClassPerson<'_>> = plans
        .iter()
        .zip(&lists)
        .map(|(making, shopping)| ClassPerson { making, shopping })
        .collect();
    let laid_list = |bags, stock: &[Stock], prices: &[Price], together: &[LaidTogether]| {
        class_shopping(&ClassShoppingInput {
            people: &people,
            room: &room,
            counts: &[2, 1],
            bags,
            stock,
            prices,
            together,
        })
    };
    let list = |bags, stock: &[Stock], prices: &[Price]| laid_list(bags, stock, prices, &[]);
    let all = list(ClothInBag::Lengths, &[], &[]);
    let shell = Item::Cloth(cloth::Layer::Shell);
    let of = |l: &make::ClassShopping, item: &Item| {
        l.lines.iter().find(|line| line.item == *item).unwrap().clone()
    };
    // Each length in steps of 0.1 m, then the sum.
    let lengths: f64 = lists
        .iter()
        .flat_map(|l| l.cloths.iter().filter(|c| c.layer == cloth::Layer::Shell))
        .map(|c| (c.length.get() / 100.0 - 1e-6).ceil() * 100.0)
        .sum();
    assert_eq!(of(&all, &shell).needed, lengths);
    assert_eq!(of(&all, &shell).shares.len(), 2);
    // Laid together: never more than cut off one by one, never less than the bare area.
    let together = of(&list(ClothInBag::Pieces, &[], &[]), &shell).needed;
    let area: f64 = lists
        .iter()
        .flat_map(|l| &l.cloths)
        .filter(|c| c.layer == cloth::Layer::Shell)
        .map(|c| c.area_mm2 / c.width.get())
        .sum();
    assert!(
        together <= lengths && together > area,
        "{together} {lengths} {area}"
    );
    // Really laid: as long as the lay and its tests, to the next tenth; of another cloth's lay nothing is taken.
    let laid = |cloth: &str| LaidTogether {
        layer: cloth::Layer::Shell,
        cloth: cloth.to_owned(),
        length: units::Mm::new(1234.0),
        least: units::Mm::new(1000.0),
    };
    let name = lists[0].cloths[0].cloth.clone();
    let by_lay = of(&laid_list(ClothInBag::Pieces, &[], &[], &[laid(&name)]), &shell);
    assert_eq!((by_lay.needed, by_lay.to_buy), (1434.0, 1500.0));
    assert_eq!(by_lay.notes[0].key, "class_note.together_by_lay");
    let other = of(
        &laid_list(ClothInBag::Pieces, &[], &[], &[laid("another")]),
        &shell,
    );
    assert_eq!(other.needed, together);
    // Cut off one by one, the list also says what one length would take.
    let lengths_too = of(&laid_list(ClothInBag::Lengths, &[], &[], &[laid(&name)]), &shell);
    assert_eq!(lengths_too.needed, lengths);
    assert_eq!(lengths_too.notes[1].key, "class_note.together_would");
    // Source: data/trade/notions.toml: net + 10 % + 0.2 m, in quarter metres, here once for the class.
    for line in all
        .lines
        .iter()
        .filter(|l| matches!(l.item, Item::Elastic { .. }))
    {
        let net: f64 = line.shares.iter().map(|(_, mm)| mm).sum();
        assert_eq!(line.to_buy, ((net * 1.1 + 200.0) / 250.0 - 1e-6).ceil() * 250.0);
    }
    for line in all.lines.iter().filter(|l| matches!(l.item, Item::Thread(_))) {
        let gross: f64 = lists
            .iter()
            .flat_map(|l| &l.threads)
            .filter(|t| Item::Thread(t.thread) == line.item)
            .map(|t| t.gross.get())
            .sum();
        assert!((line.needed - gross).abs() < 1e-6);
        assert!(line.to_buy >= line.needed && line.to_buy < line.needed + 100_000.0);
    }
    let pins = of(&all, &Item::Pins);
    assert_eq!((pins.needed, pins.shares.len()), (60.0, 2));
    // Stock is taken off once for all, and a price makes a cost.
    let stocked = list(
        ClothInBag::Lengths,
        &[Stock {
            item: shell.clone(),
            amount: 500.0,
        }],
        &[Price {
            item: shell.clone(),
            pack: 1000.0,
            price: 20.0,
            is_whole: false,
        }],
    );
    let line = of(&stocked, &shell);
    assert_eq!((line.in_stock, line.to_buy), (500.0, lengths - 500.0));
    assert!((line.cost.unwrap() - 20.0 * line.to_buy / 1000.0).abs() < 1e-9);
    assert!(stocked.cost.is_none(), "the other lines have no price");
}
