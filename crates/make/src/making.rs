//! The making plan: from a drafted suit and the maker's own workroom to stitches, steps, scraps, elastic and what to buy.
//!
//! [`making`] is the one entry. Everything it needs of other stages arrives as plain values: the stretches of the worn suit, the
//! lengths of a lay, the tests of a sample book.
//!
//! **Limits.** Nothing of it was sewn. Minutes are common practice, forecasts are forecasts: the scraps it asks for come first.

use std::collections::BTreeSet;

use cloth::{ClothPlan, Layer};
use draft::{Design, Draft};
use serde::Serialize;
use units::{Finding, Mm, Severity};

use crate::choose::{Chooser, Reach, StitchChoice};
use crate::edge::{EdgeElastic, edge_elastics};
use crate::job::Job;
use crate::kind::ElasticChoice;
use crate::needle::ASSUMED_MASS;
use crate::needs::{Needs, WornStretch};
use crate::order::{Operation, Step, operations, scheduled};
use crate::sample::SampleBook;
use crate::say::{Arg, Say};
use crate::scrap::{Scrap, scraps};
use crate::stitch::Stitch;
use crate::workroom::Workroom;

/// What a plan is made from.
#[derive(Clone, Copy, Debug)]
pub struct MakingInput<'a> {
    /// The draft.
    pub draft: &'a Draft,
    /// The design it was drafted from.
    pub design: &'a Design,
    /// The cloths it was drafted for.
    pub cloth: &'a ClothPlan,
    /// Elastic for the edges.
    pub elastic: &'a ElasticChoice,
    /// Machines, needles and threads.
    pub workroom: &'a Workroom,
    /// What was sewn, ironed, pulled and wetted before.
    pub samples: &'a SampleBook,
    /// Stretches of the worn suit; [`WornStretch::of_draft`] where nobody knows better.
    pub worn: &'a WornStretch,
    /// Mass of each cloth, g/m2, where it was entered.
    pub masses: &'a [(Layer, f64)],
    /// Whether it is for a child: what is said of cords.
    pub is_child: bool,
}

/// What a machine that is not there would change.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WouldAdd {
    /// Key of the machine: `machine.overlocker`.
    pub machine: &'static str,
    /// Jobs it would take over, with the stitch it would sew them with.
    pub jobs: Vec<(Job, Stitch)>,
    /// Jobs that cannot be sewn safely now and could be with it.
    pub made_safe: Vec<Job>,
    /// Minutes it would save, least and most; negative when it would take longer.
    pub saves_minutes: (f64, f64),
}

/// The making plan of a suit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Making {
    /// Stitches, each with the steps it is sewn in.
    pub stitches: Vec<StitchChoice>,
    /// The order of work.
    pub steps: Vec<Step>,
    /// Elastic, edge by edge, in the draft's order of open edges.
    pub edges: Vec<EdgeElastic>,
    /// Scraps to sew and try first.
    pub scraps: Vec<Scrap>,
    /// What a missing machine would add.
    pub would_add: Vec<WouldAdd>,
    /// Minutes in all, least and most.
    pub minutes: (f64, f64),
    /// How often a machine, needle or thread is changed.
    pub changes: u32,
    /// What was judged: elastic, stitches that are not safe, machines that are missing.
    pub findings: Vec<Finding>,
    /// Whether the stretches it was made from are the solved suit's; the draft's own otherwise.
    pub is_worn_solved: bool,
}

impl Making {
    /// Jobs that cannot be sewn safely with this workroom, each once.
    pub fn unsafe_jobs(&self) -> Vec<Job> {
        let jobs: BTreeSet<Job> = self
            .stitches
            .iter()
            .filter(|s| !s.is_safe)
            .map(|s| s.job)
            .collect();
        jobs.into_iter().collect()
    }

    /// Minutes by machine, least and most: first without any, then in the workroom's order. For a timetable of a shared room.
    pub fn minutes_by_machine(&self) -> Vec<(Option<usize>, (f64, f64))> {
        let mut all: Vec<(Option<usize>, (f64, f64))> = Vec::new();
        for step in &self.steps {
            match all.iter_mut().find(|(machine, _)| *machine == step.machine) {
                Some((_, sum)) => *sum = (sum.0 + step.minutes.0, sum.1 + step.minutes.1),
                None => all.push((step.machine, step.minutes)),
            }
        }
        all.sort_by_key(|(machine, _)| *machine);
        all
    }

    /// The stitch of a step.
    pub fn stitch_of(&self, step: &Step) -> Option<&StitchChoice> {
        self.stitches.get(step.stitch?)
    }
}

/// Makes the plan. Never empty: a workroom that cannot sew a job safely gets the furthest-reaching stitch it has, marked as not safe, and
/// what would be; one that cannot sew it at all gets the step without a stitch, and a finding.
///
/// Deterministic: the same input gives the same plan.
///
/// # Source
/// See the heads of the modules: `order` for the sequence, `choose` for stitches, `elastic` and `edge` for elastic.
pub fn making(input: &MakingInput<'_>) -> Making {
    let needs = Needs::new(input.draft, input.cloth, input.worn);
    let ops = operations(input.draft, input.design, &needs, input.worn, input.is_child);
    let (stitches, steps, changes) = planned(input, input.workroom, &ops);
    let edges = edge_elastics(input.draft, input.elastic, input.samples);
    let minutes = total(&steps);
    let would_add = would_add(input, &ops, &stitches, minutes);
    let findings = findings(&ops, &steps, &stitches, &edges);
    Making {
        scraps: scraps(input, &stitches, &edges),
        stitches,
        steps,
        edges,
        would_add,
        minutes,
        changes,
        findings,
        is_worn_solved: input.worn.is_solved,
    }
}

fn total(steps: &[Step]) -> (f64, f64) {
    steps
        .iter()
        .fold((0.0, 0.0), |sum, s| (sum.0 + s.minutes.0, sum.1 + s.minutes.1))
}

/// Heaviest cloth of the suit that was entered, g/m2.
pub(crate) fn heaviest(input: &MakingInput<'_>) -> f64 {
    let entered = input
        .masses
        .iter()
        .map(|(_, mass)| *mass)
        .filter(|m| m.is_finite() && *m > 0.0);
    entered.reduce(f64::max).unwrap_or(ASSUMED_MASS)
}

fn planned(
    input: &MakingInput<'_>,
    workroom: &Workroom,
    ops: &[Operation],
) -> (Vec<StitchChoice>, Vec<Step>, u32) {
    let chooser = Chooser {
        workroom,
        samples: input.samples,
        cloth: &input.cloth.shell.cloth,
        mass: heaviest(input),
    };
    let mut stitches: Vec<StitchChoice> = Vec::new();
    let mut of_op: Vec<Option<usize>> = Vec::with_capacity(ops.len());
    for op in ops {
        let choice = op.work.and_then(|w| chooser.choose(w.job, w.need, w.plies));
        of_op.push(choice.map(|choice| {
            // One setting for one job, whatever the seam: the same dial, the same scrap.
            let known = stitches
                .iter()
                .position(|s| s.job == choice.job && s.setting == choice.setting);
            match known {
                Some(at) => {
                    keep_harder(&mut stitches, at, choice);
                    at
                }
                None => {
                    stitches.push(choice);
                    stitches.len() - 1
                }
            }
        }));
    }
    let setups: Vec<_> = of_op
        .iter()
        .map(|at| {
            let setting = &stitches.get((*at)?)?.setting;
            Some(crate::order::Setup {
                machine: setting.machine,
                needle: setting.needle,
                threads: (setting.needle_thread, setting.under_thread),
            })
        })
        .collect();
    let sequence = scheduled(ops, &setups);
    let mut place = vec![0; ops.len()];
    for (at, op) in sequence.order.iter().enumerate() {
        place[*op] = at;
    }
    let steps: Vec<Step> = sequence
        .order
        .iter()
        .enumerate()
        .filter_map(|(at, i)| {
            let op = ops.get(*i)?;
            let stitch = of_op.get(*i).copied().flatten();
            if let Some(choice) = stitch.and_then(|s| stitches.get_mut(s)) {
                choice.steps.push(at);
            }
            let choice = stitch.and_then(|s| stitches.get(s));
            Some(Step {
                id: op.id.clone(),
                say: op.say.clone(),
                phase: op.phase,
                touches: op.touches.clone(),
                seams: op.seams.clone(),
                edges: op.edges.clone(),
                needs: sequence.needs.get(*i)?.iter().map(|n| place[*n]).collect(),
                stitch,
                machine: choice.map(|c| c.setting.machine),
                allowance: allowance(input.draft, op),
                length: Mm::new(op.length_mm),
                runs: op.runs,
                side_up: op.side_up,
                press: op.press.clone().map(|p| pressed(input, p)),
                minutes: crate::order::minutes(op, choice),
                cautions: op.cautions.clone(),
                notes: op.notes.clone(),
            })
        })
        .collect();
    (stitches, steps, sequence.changes)
}

/// Keeps the greater need of two equal settings.
fn keep_harder(stitches: &mut [StitchChoice], at: usize, other: StitchChoice) {
    if let Some(known) = stitches.get_mut(at)
        && other.asked > known.asked
    {
        *known = other;
    }
}

fn allowance(draft: &Draft, op: &Operation) -> Option<(Mm, Mm)> {
    let sewn = || {
        op.touches.iter().flat_map(|t| {
            let piece = draft.pieces.iter().find(|p| p.key == t.piece);
            t.sewn
                .iter()
                .filter_map(move |name| Some(Mm::new(piece?.edge(name)?.allowance_mm)))
        })
    };
    let least = sewn().reduce(|a, b| if b < a { b } else { a })?;
    let most = sewn().reduce(|a, b| if b > a { b } else { a })?;
    Some((least, most))
}

/// Least of what the sole of an iron may be for a swim knit, degrees C. `data/trade/heat.csv`.
const IRON_CELSIUS: f64 = 110.0;

/// An iron only as it was tried, else as the table says with a test first.
fn pressed(input: &MakingInput<'_>, press: Say) -> Say {
    if press.key != "press.iron" {
        return press;
    }
    match input.samples.iron(&input.cloth.shell.cloth) {
        Some(test) if test.verdict == crate::sample::Verdict::Good => Say::plain("press.iron_tried")
            .with("celsius", Arg::Number(test.celsius, 0))
            .with("sample", Arg::Name(test.name.clone())),
        Some(_) => Say::plain("press.finger"),
        None => press.with("celsius", Arg::Number(IRON_CELSIUS, 0)),
    }
}

fn would_add(
    input: &MakingInput<'_>,
    ops: &[Operation],
    now: &[StitchChoice],
    minutes: (f64, f64),
) -> Vec<WouldAdd> {
    let is_unsafe = |stitches: &[StitchChoice], job: Job| stitches.iter().any(|s| s.job == job && !s.is_safe);
    let mut found = Vec::new();
    for (key, machine) in crate::choose::additions() {
        let mut workroom = input.workroom.clone();
        workroom.machines.push(machine);
        let added = workroom.machines.len() - 1;
        let (stitches, steps, _) = planned(input, &workroom, ops);
        let mut jobs: Vec<(Job, Stitch)> = stitches
            .iter()
            .filter(|s| s.setting.machine == added)
            .map(|s| (s.job, s.setting.stitch))
            .collect();
        jobs.sort_unstable();
        jobs.dedup();
        if jobs.is_empty() {
            continue;
        }
        let mut made_safe: Vec<Job> = jobs
            .iter()
            .map(|(job, _)| *job)
            .filter(|job| is_unsafe(now, *job) && !is_unsafe(&stitches, *job))
            .collect();
        made_safe.dedup();
        let with = total(&steps);
        found.push(WouldAdd {
            machine: key,
            jobs,
            made_safe,
            saves_minutes: (minutes.0 - with.0, minutes.1 - with.1),
        });
    }
    found
}

fn findings(
    ops: &[Operation],
    steps: &[Step],
    stitches: &[StitchChoice],
    edges: &[EdgeElastic],
) -> Vec<Finding> {
    let mut findings: Vec<Finding> = edges.iter().flat_map(|e| e.plan.findings.clone()).collect();
    findings.extend(edges.iter().flat_map(|e| e.findings.clone()));
    for choice in stitches.iter().filter(|s| !s.is_safe) {
        let place = choice.job.key().trim_start_matches("job.").replace('_', " ");
        findings.push(Finding {
            code: "stitch.not_safe",
            severity: Severity::Stop,
            place: place.clone(),
            message: if choice.reach == Reach::Short {
                format!(
                    "This workroom has no stitch that stretches far enough: {:.0} % of {:.0} % asked.",
                    choice.extension * 100.0,
                    choice.asked * 100.0
                )
            } else {
                "A straight stitch cracks in a seam that is stretched, and this workroom has no other.".to_owned()
            },
            value: Some(choice.extension * 100.0),
            limit: Some(units::Limit {
                text: format!("{:.0} %", choice.asked * 100.0),
                source: "1.2 times the stretch the seam takes: own, after ASTM D6193 4.2.2",
            }),
            remedy: "Sew it on a machine with a zigzag, a cover stitch or an overlock; or prove it with an elastic thread on a scrap.".to_owned(),
        });
    }
    for op in ops.iter().filter(|o| o.work.is_some()) {
        let is_sewn = steps.iter().any(|s| s.id == op.id && s.stitch.is_some());
        if !is_sewn {
            findings.push(Finding {
                code: "stitch.no_machine",
                severity: Severity::Stop,
                place: op.id.clone(),
                message: "No machine of this workroom sews this.".to_owned(),
                value: None,
                limit: None,
                remedy: "Add the machine you sew it with, or sew it by hand.".to_owned(),
            });
        }
    }
    findings
}
