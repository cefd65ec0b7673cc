//! The timetable of a class on paper: how it was reckoned, every session as bars, who is at which machine, and what is sewn there.

use make::{Pace, Phase, Timed, Timetable};
use sheet::listing::{Bar, Chart, ChartRow, ListColumn, ListRow, ListTable, Listing, Part};

use super::voice::{Voice, clock};
use super::work::{WorkedClass, letter};

/// A machine of the room, with its number where there are several of its kind; `By hand` for none.
pub(crate) fn place_of(class: &WorkedClass, machine: Option<(usize, u32)>, voice: &Voice) -> String {
    let Some((kind, unit)) = machine else {
        return voice.word("class-hand");
    };
    let name = class
        .setting
        .room
        .workroom
        .machines
        .get(kind)
        .map_or_else(String::new, |m| voice.machine(m));
    if class.setting.counts.get(kind).copied().unwrap_or(1) > 1 {
        voice.say(
            "class-unit",
            &[("machine", name.into()), ("number", (unit + 1).into())],
        )
    } else {
        name
    }
}

/// Every machine of the room, in its order.
pub(crate) fn units(class: &WorkedClass) -> Vec<(usize, u32)> {
    let counts = class.setting.counts.iter().enumerate();
    counts
        .flat_map(|(kind, count)| (0..*count).map(move |unit| (kind, unit)))
        .collect()
}

/// What is said of how the timetable came about: sentences for paper and page alike.
pub(crate) fn says(class: &WorkedClass, table: &Timetable, voice: &Voice) -> Vec<String> {
    let machines: Vec<String> = class
        .setting
        .room
        .workroom
        .machines
        .iter()
        .zip(&class.setting.counts)
        .map(|(machine, count)| {
            let name = voice.machine(machine);
            voice.say(
                "class-machine-of",
                &[("count", count.to_string().into()), ("machine", name.into())],
            )
        })
        .collect();
    let lead = voice.say(
        "class-timetable-lead",
        &[
            ("people", class.sewing.len().into()),
            ("machines", voice.words.list(&machines).into()),
            ("sessions", table.sessions().into()),
            ("hours", voice.minutes(table.session).into()),
            ("minutes", voice.minutes(table.minutes).into()),
        ],
    );
    let over = table.over_bound();
    let (bound, alone) = (voice.minutes(table.bound), voice.minutes(table.one_after_another));
    let bound = if table.minutes == table.bound {
        voice.say(
            "class-timetable-best",
            &[("bound", bound.into()), ("alone", alone.into())],
        )
    } else {
        let over = voice
            .words
            .with_unit(100.0 * over, usize::from(over < 0.095), "%");
        voice.say(
            "class-timetable-bound",
            &[
                ("bound", bound.into()),
                ("over", over.into()),
                ("alone", alone.into()),
            ],
        )
    };
    let pace = match class.setting.pace {
        Pace::Middle => "class-timetable-middle",
        Pace::Slow => "class-timetable-slow",
    };
    vec![
        lead,
        voice.word(pace),
        bound,
        voice.word("class-timetable-order"),
        voice.word("class-timetable-cut"),
        before(class, voice),
    ]
}

fn before(class: &WorkedClass, voice: &Voice) -> String {
    let has = |phase: Phase| class.setting.before.contains(&phase);
    let what: Vec<String> = [
        (has(Phase::Prove), "class-before-prove"),
        (true, "class-before-wash"),
        (has(Phase::Cut), "class-before-cut"),
    ]
    .into_iter()
    .filter(|(is, _)| *is)
    .map(|(_, key)| voice.word(key))
    .collect();
    voice.say("class-before", &[("what", voice.words.list(&what).into())])
}

/// The timetable.
pub(super) fn timetable(class: &WorkedClass, voice: &Voice) -> Listing {
    let setting = &class.setting;
    let mut parts = Vec::new();
    match &class.timetable {
        _ if class.sewing.is_empty() => parts.push(Part::Text(voice.word("class-nobody"))),
        Err(why) => parts.push(Part::Text(why.clone())),
        Ok(table) => {
            parts.extend(says(class, table, voice).into_iter().map(Part::Text));
            letters(class, voice, &mut parts);
            for number in 0..table.sessions() {
                session(class, table, number, voice, &mut parts);
            }
            operations(class, table, voice, &mut parts);
        }
    }
    Listing {
        language: setting.language.tag().to_owned(),
        title: voice.word("class-timetable"),
        subtitle: [setting.name.as_str(), setting.when.as_str()]
            .into_iter()
            .filter(|t| !t.is_empty())
            .collect::<Vec<_>>()
            .join(", "),
        running: format!("{}, {}", setting.name, voice.word("class-timetable")),
        page_word: voice.word("class-page"),
        is_landscape: true,
        parts,
    }
}

fn letters(class: &WorkedClass, voice: &Voice, parts: &mut Vec<Part>) {
    let all: Vec<String> = (0..class.sewing.len())
        .filter_map(|at| {
            let (person, _) = class.sewn(at)?;
            Some(voice.say(
                "class-letter",
                &[("letter", letter(at).into()), ("name", (&person.name).into())],
            ))
        })
        .collect();
    parts.push(Part::Text(format!(
        "{}: {}.",
        voice.word("class-letters"),
        all.join(", ")
    )));
    // One list for all where all plans are the same; otherwise everyone has her own on her bag list.
    let ids = |at: usize| -> Vec<&str> {
        class
            .sewn(at)
            .map(|(_, d)| d.making.steps.iter().map(|s| s.id.as_str()).collect())
            .unwrap_or_default()
    };
    let first = ids(0);
    if !(1..class.sewing.len()).all(|at| ids(at) == first) {
        return;
    }
    let Some((_, drafted)) = class.sewn(0) else { return };
    let in_class = class.steps.first().map_or(&[][..], Vec::as_slice);
    let steps: Vec<String> = in_class
        .iter()
        .filter_map(|place| {
            Some(format!(
                "{} {}",
                place + 1,
                voice.plan(&drafted.making.steps.get(*place)?.say)
            ))
        })
        .collect();
    parts.push(Part::Text(format!(
        "{}: {}.",
        voice.word("class-numbers"),
        steps.join("; ")
    )));
}

/// Bars of the steps in a session, with the labels of each.
fn bars<'a>(
    table: &'a Timetable,
    number: u32,
    is_in: impl Fn(&Timed) -> bool + 'a,
    labels: impl Fn(&Timed) -> Vec<String> + 'a,
) -> Vec<Bar> {
    let session = table.session.max(1);
    let (from, to) = (number * session, (number + 1) * session);
    table
        .steps
        .iter()
        .filter(|t| is_in(t) && t.start < to && t.end > from)
        .map(|t| Bar {
            from: t.start.max(from) - from,
            to: t.end.min(to) - from,
            labels: labels(t),
            is_heavy: t.machine.is_some(),
        })
        .collect()
}

fn session(class: &WorkedClass, table: &Timetable, number: u32, voice: &Voice, parts: &mut Vec<Part>) {
    let plan_place = |t: &Timed| {
        class
            .steps
            .get(t.person)
            .and_then(|s| s.get(t.step))
            .copied()
            .unwrap_or(0)
    };
    let head = voice.say("class-session", &[("number", (number + 1).into())]);
    parts.push(Part::NewPage);
    parts.push(Part::Heading(format!(
        "{head}: {}",
        voice.word("class-by-machine")
    )));
    let machines: Vec<ChartRow> = units(class)
        .into_iter()
        .map(|unit| ChartRow {
            name: place_of(class, Some(unit), voice),
            bars: bars(
                table,
                number,
                |t| t.machine == Some(unit),
                |t| {
                    let (who, step) = (letter(t.person), plan_place(t) + 1);
                    vec![format!("{who} {step}"), format!("{who}{step}"), who]
                },
            ),
        })
        .collect();
    parts.push(Part::Chart(Chart {
        minutes: table.session,
        rows: machines,
    }));
    parts.push(Part::Heading(format!(
        "{head}: {}",
        voice.word("class-by-person")
    )));
    let people: Vec<ChartRow> = (0..class.sewing.len())
        .filter_map(|at| {
            let (person, _) = class.sewn(at)?;
            Some(ChartRow {
                name: format!("{} {}", letter(at), person.name),
                bars: bars(
                    table,
                    number,
                    |t| t.person == at,
                    |t| vec![(plan_place(t) + 1).to_string()],
                ),
            })
        })
        .collect();
    parts.push(Part::Chart(Chart {
        minutes: table.session,
        rows: people,
    }));
    let session = table.session.max(1);
    let mut rows = Vec::new();
    for unit in units(class) {
        for t in table
            .steps
            .iter()
            .filter(|t| t.machine == Some(unit) && t.start / session == number)
        {
            let Some((person, drafted)) = class.sewn(t.person) else {
                continue;
            };
            let place = plan_place(t);
            let Some(step) = drafted.making.steps.get(place) else {
                continue;
            };
            let (from, to) = (t.start - number * session, t.end - number * session);
            rows.push(ListRow::of(vec![
                place_of(class, Some(unit), voice),
                voice.say(
                    "class-clock",
                    &[("from", clock(from).into()), ("to", clock(to).into())],
                ),
                format!("{} {}", letter(t.person), person.name),
                format!("{} {}", place + 1, voice.plan(&step.say)),
            ]));
        }
    }
    if rows.is_empty() {
        return;
    }
    parts.push(Part::Table(ListTable {
        columns: vec![
            ListColumn::words(voice.word("class-col-where"), 2.0),
            ListColumn::words(voice.word("class-col-time"), 1.2),
            ListColumn::words(voice.word("class-col-who"), 1.6),
            ListColumn::words(voice.word("class-col-step"), 4.0),
        ],
        rows,
        is_ticked: false,
    }));
}

/// One kind of work at one machine, over all people.
struct Operation {
    title: String,
    /// Machine it is first planned on; none by hand.
    machine: Option<usize>,
    minutes: (f64, f64),
    people: u32,
    all: u32,
}

fn operations(class: &WorkedClass, table: &Timetable, voice: &Voice, parts: &mut Vec<Part>) {
    let mut all: Vec<Operation> = Vec::new();
    for t in &table.steps {
        let Some((_, drafted)) = class.sewn(t.person) else {
            continue;
        };
        let place = class.steps.get(t.person).and_then(|s| s.get(t.step)).copied();
        let Some(step) = place.and_then(|p| drafted.making.steps.get(p)) else {
            continue;
        };
        let (title, machine) = (voice.plan(&step.say), t.machine.map(|m| m.0));
        match all.iter_mut().find(|o| o.title == title && o.machine == machine) {
            Some(known) => {
                known.minutes = (
                    known.minutes.0.min(step.minutes.0),
                    known.minutes.1.max(step.minutes.1),
                );
                known.people += 1;
                known.all += t.end - t.start;
            }
            None => all.push(Operation {
                title,
                machine,
                minutes: step.minutes,
                people: 1,
                all: t.end - t.start,
            }),
        }
    }
    // By hand last; otherwise as the room lists its machines, each in the order of the work.
    all.sort_by_key(|o| o.machine.unwrap_or(usize::MAX));
    parts.push(Part::NewPage);
    parts.push(Part::Heading(voice.word("class-operations")));
    parts.push(Part::Text(voice.word("class-operations-lead")));
    let rows = all.into_iter().map(|o| {
        let place = match o
            .machine
            .and_then(|m| class.setting.room.workroom.machines.get(m))
        {
            Some(machine) => voice.machine(machine),
            None => voice.word("class-hand"),
        };
        ListRow::of(vec![
            place,
            o.title,
            voice.words.minutes(o.minutes.0, o.minutes.1),
            o.people.to_string(),
            voice.minutes(o.all),
        ])
    });
    parts.push(Part::Table(ListTable {
        columns: vec![
            ListColumn::words(voice.word("class-col-where"), 2.0),
            ListColumn::words(voice.word("class-col-step"), 4.0),
            ListColumn::figures(voice.word("class-col-each"), 1.3),
            ListColumn::figures(voice.word("class-col-people"), 0.8),
            ListColumn::figures(voice.word("class-col-all"), 1.0),
        ],
        rows: rows.collect(),
        is_ticked: false,
    }));
}
