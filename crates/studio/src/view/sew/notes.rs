//! Pencil notes of the section: what cannot be sewn safely, what the elastic says, what a machine more would add.
//!
//! **Limits.** Jobs that are not safe are told together: a workroom with nothing but a straight stitch has one stop, not ten.

use make::{Job, WouldAdd};
use units::Severity;

use super::{Planned, Teller};
use crate::view::{Note, State, told};

/// Less than this is no time saved, minutes.
const WORTH_MINUTES: f64 = 5.0;

/// All notes of a plan.
pub(super) fn notes(planned: &Planned, teller: Teller<'_>) -> Vec<Note> {
    let making = planned.making();
    let mut notes: Vec<Note> = making
        .findings
        .iter()
        .filter(|f| f.severity > Severity::Good && !f.code.starts_with("stitch."))
        .map(told::finding)
        .collect();
    let cannot = cannot(planned, teller);
    if let Some((says, next)) = cannot.split_first() {
        notes.push(told::note(State::Stop, "", says, next.join(" ")).at("sewn"));
    }
    let unsewn: Vec<String> = making
        .steps
        .iter()
        .filter(|s| {
            making
                .findings
                .iter()
                .any(|f| f.code == "stitch.no_machine" && f.place == s.id)
        })
        .map(|s| teller.say(&s.say))
        .collect();
    if !unsewn.is_empty() {
        let says = teller.own(
            "sew-no-machine",
            &[("steps", teller.words().list(&unsewn).into())],
        );
        notes.push(told::note(State::Stop, "", says, teller.own("sew-no-machine-next", &[])).at("sewn"));
    }
    if planned.is_assumed {
        let says = teller.own("sew-zigzag-assumed", &[]);
        notes.push(told::note(
            State::Estimate,
            "",
            says,
            teller.own("sew-zigzag-next", &[]),
        ));
    }
    notes.extend(making.would_add.iter().map(|add| added(add, teller)));
    notes
}

/// What cannot be sewn safely, then what could be done about it; empty when all can.
pub(super) fn cannot(planned: &Planned, teller: Teller<'_>) -> Vec<String> {
    let making = planned.making();
    let jobs = making.unsafe_jobs();
    if jobs.is_empty() {
        return Vec::new();
    }
    let mut says = vec![teller.own("sew-cannot", &[("jobs", named(&jobs, teller).into())])];
    // The machine that mends most; with equal ones the simplest, which comes first.
    let best = making
        .would_add
        .iter()
        .rev()
        .filter(|a| !a.made_safe.is_empty())
        .max_by_key(|a| a.made_safe.len());
    if let Some(best) = best {
        says.push(teller.own(
            "sew-cannot-machine",
            &[
                ("machine", teller.word(best.machine).into()),
                ("jobs", named(&best.made_safe, teller).into()),
            ],
        ));
    }
    // Without a machine more: the same machines with another thread, once for each stitch.
    for choice in making.stitches.iter().filter(|s| !s.is_safe) {
        for could in choice
            .could
            .iter()
            .filter(|c| c.key.starts_with("could.elastic_thread"))
        {
            let said = teller.say(could);
            if !says.contains(&said) {
                says.push(said);
            }
        }
    }
    says
}

fn named(jobs: &[Job], teller: Teller<'_>) -> String {
    let words: Vec<String> = jobs.iter().map(|j| teller.word(j.key())).collect();
    teller.words().list(&words)
}

/// What one machine more would do.
fn added(add: &WouldAdd, teller: Teller<'_>) -> Note {
    let jobs: Vec<String> = add
        .jobs
        .iter()
        .map(|(job, stitch)| {
            teller.own(
                "sew-add-job",
                &[
                    ("job", teller.word(job.key()).into()),
                    ("stitch", teller.word(stitch.key()).into()),
                ],
            )
        })
        .collect();
    let says = teller.own(
        "sew-add",
        &[
            ("machine", teller.word(add.machine).into()),
            ("jobs", teller.words().list(&jobs).into()),
        ],
    );
    let mut next = Vec::new();
    if !add.made_safe.is_empty() {
        next.push(teller.own("sew-add-safe", &[("jobs", named(&add.made_safe, teller).into())]));
    }
    let (least, most) = add.saves_minutes;
    let (low, high) = (least.min(most), least.max(most));
    if low >= WORTH_MINUTES {
        let time = teller.words().minutes(low, high);
        next.push(teller.own("sew-add-saves", &[("time", time.into())]));
    }
    told::note(State::How, "", told::sentence(&says), next.join(" "))
}
