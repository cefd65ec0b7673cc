//! The bag list: what goes into one person's bag, what she brings, and when she sits where.
//!
//! Her own cut lengths stand here, also when the booklet is that of a class and leaves them to be filled in.

use body::BodyForm;
use make::{ClothBasis, ClothInBag, Item, Timed};
use sheet::listing::{ListColumn, ListRow, ListTable, Listing, Part};

use super::room::place_of;
use super::voice::{Voice, clock};
use super::work::{Drafted, WorkedClass};
use super::{Person, file::ClassSetting};

/// A file of the kit that is printed: name and pages.
pub(super) struct Printout {
    pub(super) file: String,
    pub(super) pages: Option<usize>,
    pub(super) is_booklet: bool,
}

fn ticked(columns: Vec<ListColumn>, rows: Vec<ListRow>) -> Part {
    Part::Table(ListTable {
        columns,
        rows,
        is_ticked: true,
    })
}

/// The bag list of the person at that place among those who sew.
pub(super) fn bag_list(
    class: &WorkedClass,
    at: usize,
    prints: &[Printout],
    voice: &Voice,
) -> Option<Listing> {
    let (person, drafted) = class.sewn(at)?;
    let setting = &class.setting;
    let mut parts = vec![Part::Text(voice.word("class-bag-lead"))];
    parts.push(Part::Heading(voice.word("class-in-bag")));
    parts.push(paper(prints, voice));
    cloth(drafted, setting, voice, &mut parts);
    elastic(drafted, voice, &mut parts);
    thread(drafted, voice, &mut parts);
    small(drafted, voice, &mut parts);
    scraps(drafted, voice, &mut parts);
    bring(voice, &mut parts);
    child(person, drafted, voice, &mut parts);
    cautions(drafted, voice, &mut parts);
    turns(class, at, voice, &mut parts);
    let version = voice.say("class-version", &[("version", (&drafted.order.version).into())]);
    let whose = voice.say(
        "class-for",
        &[
            ("wearer", (&person.name).into()),
            ("suit", (&setting.name).into()),
        ],
    );
    Some(Listing {
        language: setting.language.tag().to_owned(),
        title: voice.word("class-bag"),
        subtitle: format!("{whose}, {version}"),
        running: format!("{}, {}, {version}", setting.name, person.name),
        page_word: voice.word("class-page"),
        is_landscape: false,
        parts,
    })
}

fn paper(prints: &[Printout], voice: &Voice) -> Part {
    let mut rows: Vec<ListRow> = Vec::new();
    for print in prints {
        let key = if print.is_booklet {
            "class-paper-booklet"
        } else {
            "class-paper-pattern"
        };
        let row = ListRow::of(vec![voice.say(key, &[("file", (&print.file).into())])]);
        rows.push(match print.pages {
            Some(pages) if !print.is_booklet => {
                row.with(voice.say("class-paper-pattern-note", &[("pages", pages.into())]))
            }
            _ => row,
        });
    }
    rows.push(ListRow::of(vec![voice.word("class-paper-list")]));
    ticked(vec![ListColumn::words(voice.word("class-col-what"), 1.0)], rows)
}

fn cloth(drafted: &Drafted, setting: &ClassSetting, voice: &Voice, parts: &mut Vec<Part>) {
    parts.push(Part::Heading(voice.word("class-cloth")));
    match setting.bags {
        ClothInBag::Lengths => {
            parts.push(Part::Text(voice.word("class-cloth-lengths")));
            let rows = drafted.shopping.cloths.iter().map(|used| {
                let basis = match used.basis {
                    ClothBasis::Lay => "class-cloth-basis-lay",
                    ClothBasis::Area => "class-cloth-basis",
                };
                let width = voice.say(
                    "class-cloth-width",
                    &[("width", voice.length(used.width.get()).into())],
                );
                // Off the roll in whole decimetres, as the class list buys it.
                let length = make::cut_off(used.length).get();
                ListRow::of(vec![
                    format!("{}: {}", voice.layer(used.layer), used.cloth),
                    width,
                    voice.metres(length),
                ])
                .with(voice.word(basis))
            });
            let columns = vec![
                ListColumn::words(voice.word("class-col-what"), 3.0),
                ListColumn::words("", 2.0),
                ListColumn::figures(voice.word("class-col-length"), 2.0),
            ];
            parts.push(ticked(columns, rows.collect()));
        }
        ClothInBag::Pieces => {
            parts.push(Part::Text(voice.word("class-cloth-pieces")));
            let rows = drafted.order.cut_list.iter().map(|row| {
                let count = voice.say("class-pieces-count", &[("count", row.count.into())]);
                let count = if row.mirrored {
                    voice.say("class-pieces-pair", &[("count", count.into())])
                } else {
                    count
                };
                ListRow::of(vec![
                    row.letter.to_string(),
                    voice.piece(&row.piece),
                    format!("{}: {}", voice.layer(row.layer), row.cloth),
                    count,
                ])
            });
            let columns = vec![
                ListColumn::words(voice.word("class-col-letter"), 0.8),
                ListColumn::words(voice.word("class-col-piece"), 3.0),
                ListColumn::words(voice.word("class-cloth"), 2.6),
                ListColumn::words(voice.word("class-col-count"), 1.8),
            ];
            parts.push(ticked(columns, rows.collect()));
        }
    }
}

fn elastic(drafted: &Drafted, voice: &Voice, parts: &mut Vec<Part>) {
    if drafted.making.edges.is_empty() {
        return;
    }
    parts.push(Part::Heading(voice.word("class-elastic")));
    parts.push(Part::Text(voice.word("class-elastic-lead")));
    let rows = drafted.making.edges.iter().map(|edge| {
        let plan = &edge.plan;
        let (name, kind) = (voice.edge(plan.edge), voice.elastic(&plan.kind));
        let width = voice.words.millimetres(plan.width.get());
        let args = [
            ("edge", name.into()),
            ("kind", kind.into()),
            ("width", width.into()),
        ];
        ListRow::of(vec![
            voice.say("class-elastic-edge", &args),
            plan.count.to_string(),
            voice.length(plan.cut_length.get()),
        ])
    });
    let columns = vec![
        ListColumn::words(voice.word("class-col-what"), 4.0),
        ListColumn::figures(voice.word("class-col-count"), 1.0),
        ListColumn::figures(voice.word("class-col-length"), 2.2),
    ];
    parts.push(ticked(columns, rows.collect()));
}

fn thread(drafted: &Drafted, voice: &Voice, parts: &mut Vec<Part>) {
    parts.push(Part::Heading(voice.word("class-thread")));
    let threads = drafted.shopping.threads.iter().map(|used| {
        let thread = voice.word(&used.thread.key().replace('.', "-"));
        let place = voice.word(&used.place.key().replace('.', "-"));
        let packages = voice.say(
            "class-thread-packages",
            &[("packages", u32::from(used.packages).into())],
        );
        let row = voice.say(
            "class-thread-row",
            &[("thread", thread.into()), ("place", place.into())],
        );
        let metres = voice.words.with_unit(used.gross.get() / 1000.0, 0, "m");
        ListRow::of(vec![row, packages, metres])
    });
    let needles = drafted
        .shopping
        .lines
        .iter()
        .filter(|l| matches!(&l.item, Item::Needle(n) if n.twin.is_none()))
        .map(|l| ListRow::of(vec![voice.plan(&l.say), String::new(), "1".to_owned()]));
    let columns = vec![
        ListColumn::words(voice.word("class-col-what"), 3.6),
        ListColumn::words("", 2.2),
        ListColumn::figures(voice.word("class-col-count"), 1.2),
    ];
    parts.push(ticked(columns, threads.chain(needles).collect()));
}

fn small(drafted: &Drafted, voice: &Voice, parts: &mut Vec<Part>) {
    let rows: Vec<ListRow> = drafted
        .shopping
        .lines
        .iter()
        .filter(|l| {
            !matches!(
                l.item,
                Item::Cloth(_) | Item::Elastic { .. } | Item::Thread(_) | Item::Needle(_) | Item::Pins
            )
        })
        .map(|l| {
            let notes: Vec<String> = l.notes.iter().map(|n| voice.plan(n)).collect();
            ListRow::of(vec![voice.plan(&l.say), voice.amount(&l.item, l.needed)]).with(notes.join(" "))
        })
        .collect();
    if rows.is_empty() {
        return;
    }
    parts.push(Part::Heading(voice.word("class-small")));
    let columns = vec![
        ListColumn::words(voice.word("class-col-what"), 4.0),
        ListColumn::figures(voice.word("class-col-count"), 1.4),
    ];
    parts.push(ticked(columns, rows));
}

fn scraps(drafted: &Drafted, voice: &Voice, parts: &mut Vec<Part>) {
    let rows: Vec<ListRow> = drafted
        .making
        .scraps
        .iter()
        .filter(|s| !s.is_done)
        .map(|s| ListRow::of(vec![voice.plan(&s.say)]))
        .collect();
    if rows.is_empty() {
        return;
    }
    parts.push(Part::Heading(voice.word("class-scraps")));
    parts.push(Part::Text(voice.word("class-scraps-lead")));
    let columns = vec![ListColumn::words(voice.word("class-col-what"), 1.0)];
    parts.push(ticked(columns, rows));
}

fn bring(voice: &Voice, parts: &mut Vec<Part>) {
    parts.push(Part::Heading(voice.word("class-bring")));
    let rows = ["worn", "scissors", "tape", "pins", "notes"]
        .map(|what| ListRow::of(vec![voice.word(&format!("class-bring-{what}"))]));
    let columns = vec![ListColumn::words(voice.word("class-col-what"), 1.0)];
    parts.push(ticked(columns, rows.to_vec()));
}

/// For a minor: the carer, and no photographs.
fn child(person: &Person, drafted: &Drafted, voice: &Voice, parts: &mut Vec<Part>) {
    let wearer = &drafted.suit.wearer;
    let is_minor = wearer.form == BodyForm::Child || wearer.age_years.is_some_and(|age| age < 18.0);
    if !is_minor {
        return;
    }
    parts.push(Part::Heading(voice.word("class-child")));
    parts.push(Part::Text(voice.word("class-child-photos")));
    if person.carer.is_empty() {
        parts.push(Part::Write(voice.word("class-child-carer")));
    } else {
        parts.push(Part::Text(format!(
            "{}: {}",
            voice.word("class-child-carer"),
            person.carer
        )));
    }
}

fn cautions(drafted: &Drafted, voice: &Voice, parts: &mut Vec<Part>) {
    parts.push(Part::Heading(voice.word("class-cautions")));
    for caution in &drafted.order.cautions {
        let key = caution.id.replace('_', "-");
        parts.push(Part::Caution {
            word: voice.word(&format!("topic-{key}")),
            says: voice.word(&format!("caution-{key}")),
        });
    }
}

fn turns(class: &WorkedClass, at: usize, voice: &Voice, parts: &mut Vec<Part>) {
    let Ok(table) = &class.timetable else { return };
    let Some((_, drafted)) = class.sewn(at) else {
        return;
    };
    let own: Vec<&Timed> = table.steps.iter().filter(|t| t.person == at).collect();
    if own.is_empty() {
        return;
    }
    parts.push(Part::NewPage);
    parts.push(Part::Heading(voice.word("class-turns")));
    parts.push(Part::Text(voice.word("class-turns-lead")));
    let session = table.session.max(1);
    for number in 0..table.sessions() {
        let rows: Vec<ListRow> = own
            .iter()
            .filter(|t| t.start / session == number)
            .filter_map(|t| {
                let place = *class.steps.get(at)?.get(t.step)?;
                let step = drafted.making.steps.get(place)?;
                let (from, to) = (t.start - number * session, t.end - number * session);
                Some(ListRow::of(vec![
                    voice.say(
                        "class-clock",
                        &[("from", clock(from).into()), ("to", clock(to).into())],
                    ),
                    format!("{} {}", place + 1, voice.plan(&step.say)),
                    place_of(class, t.machine, voice),
                ]))
            })
            .collect();
        if rows.is_empty() {
            continue;
        }
        parts.push(Part::Heading(
            voice.say("class-session", &[("number", (number + 1).into())]),
        ));
        let columns = vec![
            ListColumn::words(voice.word("class-col-time"), 1.4),
            ListColumn::words(voice.word("class-col-step"), 4.0),
            ListColumn::words(voice.word("class-col-where"), 2.0),
        ];
        parts.push(ticked(columns, rows));
    }
}
