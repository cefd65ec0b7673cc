//! The order of work: the whole plan at a glance to tick off, then each step of the needle with its drawing.
//!
//! **Limits.** Steps before the needle, proving and cutting, have chapters of their own and stand in the list only.

use cloth::Layer;
use draft::Piece;
use make::{Job, Making, Phase, Shopping, SideUp, Step as PlanStep, StitchChoice, Workroom};

use super::{Desk, names};
use crate::draw::seam::Drawn;
use crate::draw::{Hot, Section, pieces_with_hot_edges, section};
use crate::model::{Block, Callout, Cell, Chapter, Fact, Figure, Sign, Step};

/// Least room for the pieces of a step, mm: a writer may set the drawing larger, never smaller.
const PIECES: (f64, f64) = (76.0, 43.0);

/// The plan with the machines it is for.
#[derive(Clone, Copy, Debug)]
pub struct Plan<'a> {
    /// Stitches and steps.
    pub making: &'a Making,
    /// The machines it uses.
    pub workroom: &'a Workroom,
    /// What to buy for it, where that was listed.
    pub shopping: Option<&'a Shopping>,
}

/// The chapter; empty without a plan.
pub(super) fn order(desk: &Desk<'_>) -> Chapter {
    let mut blocks = Vec::new();
    if let Some(plan) = desk.suit.plan {
        let (least, most) = plan.making.minutes;
        blocks.push(Block::Paragraph {
            text: desk.say("order-time", &[("time", desk.words.minutes(least, most).into())]),
            is_note: true,
        });
        if plan.making.is_worn_solved {
            blocks.push(Block::Paragraph {
                text: desk.say("order-worn-solved", &[]),
                is_note: true,
            });
        }
        blocks.push(glance(desk, plan));
        // A caution is told where it is first needed; the chapter of cautions has them all.
        let mut told: Vec<&str> = Vec::new();
        for (i, step) in plan.making.steps.iter().enumerate() {
            if matches!(step.phase, Phase::Prove | Phase::Cut) {
                continue;
            }
            blocks.push(Block::Step(one(desk, plan, i, step, &mut told)));
        }
    }
    desk.chapter("order", true, blocks)
}

/// Every step in a line, with a box to tick.
fn glance(desk: &Desk<'_>, plan: Plan<'_>) -> Block {
    // One machine for everything need not be said in every row.
    let mut machines: Vec<usize> = plan.making.steps.iter().filter_map(|s| s.machine).collect();
    machines.sort_unstable();
    machines.dedup();
    let rows = plan.making.steps.iter().enumerate().map(|(i, step)| {
        let title = desk.plan(&step.say);
        let stitch = plan.making.stitch_of(step);
        let machine = step
            .machine
            .filter(|_| machines.len() > 1)
            .and_then(|m| plan.workroom.machines.get(m))
            .map(|m| machine_name(desk, m));
        let stitch = stitch.map_or_else(String::new, |s| desk.plan_word(s.setting.stitch.key()));
        vec![
            Cell::text((i + 1).to_string()),
            Cell::text(title.clone()),
            Cell::Text {
                main: stitch,
                other: machine.unwrap_or_default(),
            },
            Cell::text(desk.words.minutes(step.minutes.0, step.minutes.1)),
            Cell::Tick {
                says: desk.say("step-done", &[("step", title.into())]),
            },
        ]
    });
    let columns = vec![
        desk.numbers("column-number", 0.4),
        desk.column("column-step", 3.0),
        desk.column("column-stitch", 1.9),
        desk.numbers("column-time", 1.2),
        desk.column("column-done", 0.6),
    ];
    desk.table("table-order", columns, rows.collect())
}

/// The maker's own name for a machine, or what it is where she gave none.
fn machine_name(desk: &Desk<'_>, machine: &make::Machine) -> String {
    let name = machine.name.trim();
    desk.words
        .find(&format!("workroom-{}", names::slug(name)), &[])
        .unwrap_or_else(|| name.to_owned())
}

fn one<'a>(
    desk: &Desk<'_>,
    plan: Plan<'a>,
    place: usize,
    step: &'a PlanStep,
    told: &mut Vec<&'a str>,
) -> Step {
    let choice = plan.making.stitch_of(step);
    let title = desk.plan(&step.say);
    let mut how: Vec<String> = desk
        .plan_part(&step.say, ".how")
        .map(|how| sentences(&how))
        .unwrap_or_default();
    how.extend(step.notes.iter().map(|n| desk.plan(n)));
    how.extend(step.press.as_ref().map(|p| desk.plan(p)));
    Step {
        number: place + 1,
        lead: lead(desk, step),
        figures: figures(desk, step, choice, &title),
        facts: facts(desk, step, choice),
        how,
        why: choice.map_or_else(String::new, |c| why(desk, c)),
        callout: callout(desk, step, choice, told),
        note: if choice.is_some() {
            desk.word("write-worked")
        } else {
            String::new()
        },
        title,
    }
}

/// One thing to do a line: a sentence each.
fn sentences(text: &str) -> Vec<String> {
    let mut list: Vec<String> = Vec::new();
    for part in text.split_inclusive(". ") {
        list.push(part.trim().to_owned());
    }
    list.retain(|s| !s.is_empty());
    list
}

fn lead(desk: &Desk<'_>, step: &PlanStep) -> String {
    let time = desk.words.minutes(step.minutes.0, step.minutes.1);
    let phase = desk.plan_word(step.phase.key());
    let side = match step.side_up {
        Some(SideUp::Wrong) => desk.word("side-wrong-up"),
        Some(SideUp::Right) => desk.word("side-right-up"),
        None => return desk.say("lead-time", &[("phase", phase.into()), ("time", time.into())]),
    };
    desk.say(
        "lead-time-side",
        &[
            ("phase", phase.into()),
            ("time", time.into()),
            ("side", side.into()),
        ],
    )
}

fn figures(desk: &Desk<'_>, step: &PlanStep, choice: Option<&StitchChoice>, title: &str) -> Vec<Figure> {
    let pieces: Vec<(&Piece, String, Vec<&str>)> = step
        .touches
        .iter()
        .filter_map(|t| {
            let piece = desk.suit.draft.pieces.iter().find(|p| p.key == t.piece)?;
            let edges = if t.sewn.is_empty() { &t.handled } else { &t.sewn };
            Some((piece, names::piece(desk, piece), edges.clone()))
        })
        .collect();
    // From the edges on, a lining is one with its shell and lies where the drawing shows the shell.
    let is_shell = |p: &Piece| {
        let layers = p.cuts.iter().map(|c| c.layer);
        layers
            .into_iter()
            .any(|l| matches!(l, Layer::Shell | Layer::Contrast))
    };
    let mut pieces = pieces;
    if matches!(step.phase, Phase::Elastic | Phase::Finish) && pieces.iter().any(|(p, ..)| is_shell(p)) {
        pieces.retain(|(p, ..)| is_shell(p));
    }
    let is_elastic = choice.is_some_and(|c| c.job.has_elastic());
    let hot = match choice {
        Some(_) if is_elastic => Hot::Elastic,
        Some(_) => Hot::Sewn,
        None => Hot::Plain,
    };
    let mut figures = Vec::new();
    // Four pieces are as many as can be told apart at this size; the shell says all the lining would.
    let shown: Vec<Drawn<'_>> = pieces
        .iter()
        .take(4)
        .enumerate()
        .map(|(i, (piece, name, edges))| Drawn {
            piece,
            name,
            edges: edges.clone(),
            // Right sides together: one lies with its wrong side up, the other under it.
            is_wrong_side_up: step.side_up == Some(SideUp::Wrong) && (i == 0 || is_elastic),
        })
        .collect();
    let named: Vec<&String> = pieces.iter().take(4).map(|(_, name, _)| name).collect();
    let args = [("step", title.into()), ("pieces", desk.words.list(&named).into())];
    figures.extend(pieces_with_hot_edges(
        &shown,
        hot,
        PIECES,
        desk.say("step-figure", &args),
    ));
    if let Some(kind) = choice.and_then(|c| section_of(c.job)) {
        let (wrong, elastic) = (desk.word("wrong-side"), desk.word("elastic-word"));
        let key = match kind {
            Section::Joined => "section-joined",
            Section::ElasticOn => "section-elastic-on",
            Section::Turned => "section-turned",
            Section::Hem => "section-hem",
            Section::Layered => "section-layered",
            Section::Lapped => "section-lapped",
        };
        figures.push(section(kind, &wrong, &elastic, desk.word(key)));
    }
    figures
}

fn section_of(job: Job) -> Option<Section> {
    Some(match job {
        Job::Join | Job::Crotch | Job::Tube | Job::SkirtJoin => Section::Joined,
        Job::Anchor => Section::ElasticOn,
        Job::EdgeTopstitch | Job::Casing => Section::Turned,
        Job::Hem => Section::Hem,
        Job::LayerBaste | Job::Baste => Section::Layered,
        Job::ElasticRing | Job::BarTack | Job::Topstitch | Job::Cups => Section::Lapped,
        Job::Neaten | Job::Gather | Job::Zip => return None,
    })
}

fn facts(desk: &Desk<'_>, step: &PlanStep, choice: Option<&StitchChoice>) -> Vec<Fact> {
    let Some(choice) = choice else { return Vec::new() };
    let setting = &choice.setting;
    let number = |mm: units::Mm| desk.words.number(mm.get(), 1);
    let settings = if setting.width.get() > 0.0 {
        format!("{} × {}", number(setting.width), number(setting.length))
    } else {
        number(setting.length)
    };
    let reach = if choice.asked > 0.0 {
        let args = [
            ("gives", desk.words.percent(choice.extension).into()),
            ("needs", desk.words.percent(choice.asked).into()),
        ];
        desk.say("stitch-reach", &args)
    } else {
        desk.word("stitch-unstretched")
    };
    let mut facts = vec![Fact {
        name: desk.plan_word(setting.stitch.key()),
        value: Cell::text(settings),
        note: reach,
    }];
    let point = desk.plan_word(setting.needle.point.key());
    let size = match setting.needle.twin {
        Some(spacing) => format!("{} / {}", setting.needle.size_nm, number(spacing)),
        None => setting.needle.size_nm.to_string(),
    };
    facts.push(Fact {
        name: desk.word("fact-needle"),
        value: Cell::text(size),
        note: point,
    });
    if let Some((least, most)) = step.allowance {
        let value = if (most - least).get() < 0.05 {
            desk.setting(least)
        } else {
            format!("{}–{}", desk.words.number(least.get(), 0), desk.setting(most))
        };
        facts.push(Fact {
            name: desk.word("fact-allowance"),
            value: Cell::text(value),
            note: String::new(),
        });
    }
    facts
}

fn why(desk: &Desk<'_>, choice: &StitchChoice) -> String {
    let setting = &choice.setting;
    let (above, below) = (
        desk.plan_word(setting.needle_thread.facts().key),
        desk.plan_word(setting.under_thread.facts().key),
    );
    let thread = if above == below {
        above
    } else {
        format!("{above}, {below}")
    };
    let args = [
        ("tension", desk.plan_word(setting.tension).into()),
        ("thread", thread.into()),
    ];
    let mut said = vec![desk.say("stitch-thread", &args)];
    said.extend(setting.also.iter().map(|key| desk.plan_word(key)));
    // How far it reaches stands with the settings already.
    let is_told = |key: &str| matches!(key, "why.covers_need" | "why.covers_cloth" | "why.unstretched");
    said.extend(
        choice
            .why
            .iter()
            .filter(|s| !is_told(s.key))
            .map(|s| desk.plan(s)),
    );
    if let Some(next) = &choice.runner_up {
        said.push(desk.say("stitch-runner-up", &[("why", desk.plan(&next.why).into())]));
    }
    said.join(" ")
}

fn callout<'a>(
    desk: &Desk<'_>,
    step: &'a PlanStep,
    choice: Option<&StitchChoice>,
    told: &mut Vec<&'a str>,
) -> Option<Callout> {
    if let Some(choice) = choice.filter(|c| !c.is_safe) {
        let could: Vec<String> = choice.could.iter().map(|s| desk.plan(s)).collect();
        let text = format!("{} {}", desk.word("stitch-not-safe"), could.join(" "));
        return Some(desk.callout(Sign::Stop, "sign-stop", text.trim().to_owned()));
    }
    let applies = |id: &str| desk.suit.cautions.contains(&id) || !matches!(id, "latex" | "kids_parts");
    let id = *step
        .cautions
        .iter()
        .find(|id| !told.contains(*id) && applies(id))?;
    told.push(id);
    let key = format!("caution-{}", id.replace('_', "-"));
    Some(desk.callout(Sign::Watch, "sign-mind", desk.word(&key)))
}
