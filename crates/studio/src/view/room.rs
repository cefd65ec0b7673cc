//! The workroom and the sample book as their pages show them: what was measured, worked out, and what cannot be.
//!
//! **Shapes and units.** Documents in; per cent, sentences and whole documents to begin with out.

use make::{Scrap, ScrapKind, SeamSample};
use serde::Serialize;
use serde_json::{Value as Json, json};
use ts_rs::TS;
use units::{LengthUnit, Mm};
use utoipa::ToSchema;

use super::sew::Teller;
use super::{Quantity, Why, WhyInput, percent, told};
use crate::document::{Paper, Planned, ReadRoom, RoomPapers, Worked, machine_table, room_of};

/// The workroom, worked out.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct RoomView {
    /// What the suits are planned for: `Planned for your zigzag machine and four-thread overlocker.`
    pub says: String,
    /// Whether no machine is written down, so that a zigzag machine is taken.
    pub is_assumed: bool,
    /// Machines to add as they are sold.
    pub machines: Vec<MachineStart>,
    /// What was measured, by sample and elastic.
    pub tests: Vec<TestView>,
    /// What cannot be read, and where.
    pub faults: Vec<RoomFaultView>,
}

/// A machine to begin with.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct MachineStart {
    /// Its usual name.
    pub name: String,
    /// As it goes into the workroom's list.
    #[ts(type = "unknown")]
    #[schema(value_type = Object)]
    pub body: Json,
}

/// A sample or an elastic that was pulled.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct TestView {
    /// Id of its document.
    pub id: String,
    /// How far it goes; none while a length is missing or wrong.
    pub extension: Option<Quantity>,
    /// It may go further: nothing popped.
    pub is_at_least: bool,
    /// Why that far.
    pub extension_why: Option<Why>,
    /// How much longer it stayed; none if that was not measured.
    pub growth: Option<Quantity>,
    /// Why that much.
    pub growth_why: Option<Why>,
}

/// Something that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct RoomFaultView {
    /// Id of the document.
    pub document: String,
    /// Path in it; the list for what stands in one.
    pub path: String,
    /// Which of the list, from 0; none for a field.
    pub index: Option<usize>,
    /// Whether it is only missing.
    pub is_missing: bool,
    /// What is wrong.
    pub says: String,
    /// What to do.
    pub next: String,
}

/// A scrap of a plan as a sample to begin with.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ScrapStart {
    /// What to do.
    pub says: String,
    /// The page to write it down on: `/samples`, or that of the elastic or the cloth.
    pub href: String,
    /// The sample's first body; null where it is written down on another page.
    #[ts(type = "unknown")]
    #[schema(value_type = Object)]
    pub body: Json,
}

/// The workroom of these documents.
pub fn room_view(read: &ReadRoom, papers: &RoomPapers<'_>, unit: LengthUnit) -> RoomView {
    let names: Vec<String> = read
        .room
        .workroom
        .machines
        .iter()
        .map(|m| m.name.clone())
        .collect();
    let says = if read.room.is_assumed {
        "No machine is written down yet: suits are planned for a zigzag machine.".to_owned()
    } else {
        format!("Suits are planned for: {}.", told::list(&names))
    };
    let machines = [
        make::Machine::straight(),
        make::Machine::zigzag(),
        make::Machine::overlocker(),
        make::Machine::coverstitch(),
    ];
    RoomView {
        says,
        is_assumed: read.room.is_assumed,
        machines: machines
            .iter()
            .map(|m| MachineStart {
                name: m.name.clone(),
                body: serde_json::to_value(machine_table(m)).unwrap_or_default(),
            })
            .collect(),
        tests: tests(papers, unit),
        faults: read
            .faults
            .iter()
            .map(|f| RoomFaultView {
                document: f.document.clone(),
                path: f.path.clone(),
                index: index_of(&f.fault.field),
                is_missing: told::is_missing(&f.fault),
                says: plain_words(&f.fault),
                next: told::sentence(&f.fault.help),
            })
            .collect(),
    }
}

/// `machines[2].kind` is the machine at 1.
fn index_of(field: &str) -> Option<usize> {
    let (_, rest) = field.split_once('[')?;
    let (number, _) = rest.split_once(']')?;
    number.parse::<usize>().ok()?.checked_sub(1)
}

/// A fault without the words of the file: `seams[1].first_pop: ...` is `First pop: ...`.
fn plain_words(fault: &crate::suit_file::Fault) -> String {
    let name = fault
        .field
        .rsplit('.')
        .next()
        .unwrap_or_default()
        .replace('_', " ");
    let says = fault.message.replacen(&fault.field, &name, 1);
    let allowed = if fault.allowed.is_empty() {
        String::new()
    } else {
        format!(" Allowed: {}.", fault.allowed.join(", ").replace('"', ""))
    };
    format!("{}{allowed}", told::sentence(&says))
}

/// Every sample and elastic by itself, so that one that cannot be read takes nothing from the others.
fn tests(papers: &RoomPapers<'_>, unit: LengthUnit) -> Vec<TestView> {
    let seams = papers.samples.iter().filter_map(|paper| {
        let read = room_of(&RoomPapers {
            samples: vec![paper],
            cloths: papers.cloths.clone(),
            ..RoomPapers::default()
        });
        Some(seam(paper, read.room.samples.seams.first()?, unit))
    });
    let elastics = papers.elastics.iter().filter_map(|paper| {
        let read = room_of(&RoomPapers {
            elastics: vec![paper],
            ..RoomPapers::default()
        });
        let test = read.room.samples.elastics.first()?;
        let marks = Marks {
            relaxed: test.relaxed,
            stretched: test.stretched,
            popped: None,
            after: test.after,
        };
        Some(marks.view(paper, test.growth(), unit, "the elastic"))
    });
    seams.chain(elastics).collect()
}

fn seam(paper: &Paper, sample: &SeamSample, unit: LengthUnit) -> TestView {
    let marks = Marks {
        relaxed: sample.relaxed,
        stretched: sample.stretched,
        popped: sample.first_pop,
        after: sample.after,
    };
    marks.view(paper, sample.growth(), unit, "the seam")
}

struct Marks {
    relaxed: Mm,
    stretched: Mm,
    popped: Option<Mm>,
    after: Option<Mm>,
}

impl Marks {
    fn view(&self, paper: &Paper, growth: Option<f64>, unit: LengthUnit, what: &str) -> TestView {
        let said = |mm: Mm| told::said(mm, unit);
        let input = |name: &str, mm: Mm| WhyInput {
            name: name.to_owned(),
            value: said(mm),
        };
        let reached = self.popped.unwrap_or(self.stretched);
        let extension = percent(reached.get() / self.relaxed.get() - 1.0);
        let sum = |to: Mm, per_cent: &Quantity| {
            format!("{} / {} - 1 = {}", said(to), said(self.relaxed), per_cent.text())
        };
        TestView {
            id: paper.id.clone(),
            is_at_least: self.popped.is_none(),
            extension_why: Some(Why {
                question: format!("Why {}?", extension.text()),
                answer: match self.popped {
                    Some(_) => "A stitch popped there: that far it goes and no further.".to_owned(),
                    None => format!(
                        "{} was pulled so far and nothing popped: it may go further.",
                        told::capital(what)
                    ),
                },
                sum: sum(reached, &extension),
                inputs: vec![
                    input("at rest", self.relaxed),
                    input(
                        if self.popped.is_some() {
                            "first stitch popped at"
                        } else {
                            "stretched to"
                        },
                        reached,
                    ),
                ],
                source: "as a stretch test of the cloth: common practice, no single source".to_owned(),
            }),
            extension: Some(extension),
            growth_why: growth.zip(self.after).map(|(growth, after)| {
                let growth = percent(growth);
                Why {
                    question: format!("Why {} longer?", growth.text()),
                    answer: format!("What {what} keeps of the stretch after it is let go."),
                    sum: sum(after, &growth),
                    inputs: vec![input("at rest", self.relaxed), input("after letting go", after)],
                    source: "growth as in a stretch test of the cloth: common practice, no single source"
                        .to_owned(),
                }
            }),
            growth: growth.map(percent),
        }
    }
}

/// The scrap at that place of the plan, filled in as far as the plan knows it.
pub fn scrap_start(worked: &Worked, plan: &Planned, at: usize) -> Option<ScrapStart> {
    let scrap = plan.making.scraps.get(at)?;
    let says = Teller::of_pages(worked.unit()).say(&scrap.say);
    let shell = worked.shell.as_ref().map(|s| s.id.clone()).unwrap_or_default();
    let (href, body) = match scrap.kind {
        ScrapKind::Seam | ScrapKind::Edge => ("/samples".to_owned(), seam_start(plan, scrap, &shell)?),
        ScrapKind::Iron => {
            // The list names its cloth: the shell's or the lining's.
            let named = scrap.say.args.iter().find_map(|(_, arg)| match arg {
                make::Arg::Name(name) => Some(name.clone()),
                _ => None,
            });
            let cloths = [&worked.shell, &worked.lining].into_iter().flatten();
            let id = cloths
                .filter(|c| named.as_deref() == super::at_path(&c.body, "name").and_then(Json::as_str))
                .map(|c| c.id.clone())
                .next()
                .unwrap_or(shell);
            let name = format!("Iron on {}", named.unwrap_or_default());
            let body = json!({"of": "iron", "name": name, "cloth": id, "heat": 110, "press_cloth": true, "steam": false});
            ("/samples".to_owned(), body)
        }
        ScrapKind::Elastic => match &worked.elastic {
            Some(elastic) => (format!("/elastics/{}", elastic.id), Json::Null),
            None => ("/".to_owned(), Json::Null),
        },
        ScrapKind::Wet => (format!("/cloths/{shell}"), Json::Null),
    };
    Some(ScrapStart { says, href, body })
}

fn seam_start(plan: &Planned, scrap: &Scrap, shell: &str) -> Option<Json> {
    let choice = plan.making.stitches.get(scrap.stitch?)?;
    let setting = &choice.setting;
    let word = |list: &[(&str, make::Stitch)]| {
        list.iter()
            .find(|(_, s)| *s == setting.stitch)
            .map(|(w, _)| (*w).to_owned())
    };
    let fibre = crate::workroom_file::FIBRES
        .iter()
        .find(|(_, t)| *t == setting.needle_thread);
    let mm = |mm: Mm| format!("{} mm", crate::suit_file::trimmed(mm.get(), 2));
    let teller = Teller::of_pages(LengthUnit::Cm);
    Some(json!({
        "of": "stitch",
        "name": format!("{} on {}", teller.title(setting.stitch.key()), teller.word(choice.job.key())),
        "cloth": shell,
        "thread": fibre.map(|(w, _)| *w),
        "stitch": word(&crate::workroom_file::STITCHES),
        "width": if setting.width.get() > 0.0 { mm(setting.width) } else { String::new() },
        "length": mm(setting.length),
        "relaxed": format!("{} cm", crate::suit_file::trimmed(scrap.marks.to_cm(), 1)),
    }))
}
