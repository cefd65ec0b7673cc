//! Which stitch for which job: the first of the trade's preferences that this workroom forms and that reaches what is asked.
//!
//! For every job the candidates are held against the need, by a sample that was sewn if there is one, else by the forecast. The first
//! that reaches it is taken; the next best stands beside it with the reason why it was not. When nothing reaches, the furthest is
//! named, marked as not safe, with what would be: an elastic thread, a machine. A single straight row counts as safe in no seam that
//! is stretched.
//!
//! **Shapes and units.** Extensions are ratios along the seam.
//! **Source.** Order of preference: see `job`; straight stitch: `data/trade/stitches.csv`, row s301.

use serde::Serialize;
use units::Mm;

use crate::job::{Candidate, Job, SeamClass};
use crate::model::{StitchGeometry, seam_extension};
use crate::needle::{Needle, Through};
use crate::needs::Need;
use crate::sample::{SampleBook, Verdict};
use crate::say::{Arg, Say};
use crate::stitch::{Stitch, StitchFamily};
use crate::thread::Thread;
use crate::workroom::{Foot, Machine, MachineKind, Workroom};

/// Thickness of one ply under the foot, mm, for cloth of the assumed mass (own; the worked examples of `data/trade/thread_model.toml`
/// take 0.8 for two).
const PLY_MM: f64 = 0.4;

/// A forecast counts on no more plies than these: the crimp of a thick seam is a gift, not a promise (own).
const MOST_PLIES: u8 = 2;

/// Settings of a machine for a job.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StitchSetting {
    /// Stitch.
    pub stitch: Stitch,
    /// ISO 4915 number, where it is trusted.
    pub iso4915: Option<u16>,
    /// Place of the machine in the workroom.
    pub machine: usize,
    /// Width of zigzag, overedge or needle spacing; zero for a straight row.
    pub width: Mm,
    /// Stitch length.
    pub length: Mm,
    /// Rows side by side.
    pub rows: u8,
    /// Needle.
    pub needle: Needle,
    /// Whether such a needle is in stock.
    pub has_needle: bool,
    /// Thread in the needle or needles.
    pub needle_thread: Thread,
    /// Thread in bobbin or loopers.
    pub under_thread: Thread,
    /// Key of the tension hint: `tension.balanced`.
    pub tension: &'static str,
    /// Keys of what else to set: presser foot, its pressure, feed, knife.
    pub also: Vec<&'static str>,
}

/// How far a choice reaches.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Reach {
    /// Less than is asked.
    Short,
    /// What is asked.
    Need,
    /// As far as the cloth itself: the seam never limits the suit.
    Cloth,
    /// Nothing is asked: it is not stretched.
    Unstretched,
}

/// What an extension rests on.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Evidence {
    /// A sample of the same cloth, thread, stitch and settings, by its name.
    Sample(String),
    /// Computed from the settings.
    Forecast,
    /// The trade's band for a stitch that cannot be computed.
    Practice,
}

impl Evidence {
    /// Key of its name.
    pub const fn key(&self) -> &'static str {
        match self {
            Evidence::Sample(_) => "evidence.sample",
            Evidence::Forecast => "evidence.forecast",
            Evidence::Practice => "evidence.practice",
        }
    }
}

/// What was considered next.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RunnerUp {
    /// Its settings.
    pub setting: StitchSetting,
    /// How far it reaches.
    pub extension: f64,
    /// What that rests on.
    pub evidence: Evidence,
    /// Why it was not taken.
    pub why: Say,
}

/// The stitch for one job.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StitchChoice {
    /// What is sewn.
    pub job: Job,
    /// Class of seam.
    pub seam_class: SeamClass,
    /// Plies of cloth under the needle.
    pub plies: u8,
    /// What is asked along it, part by part.
    pub need: Need,
    /// What is asked in all, a ratio; zero where nothing is stretched.
    pub asked: f64,
    /// Settings.
    pub setting: StitchSetting,
    /// How far they reach.
    pub extension: f64,
    /// What that rests on.
    pub evidence: Evidence,
    /// How that stands against what is asked.
    pub reach: Reach,
    /// Whether it may be sewn and worn.
    pub is_safe: bool,
    /// Why this one.
    pub why: Vec<Say>,
    /// What was considered next.
    pub runner_up: Option<RunnerUp>,
    /// When it is not safe: what could be sewn instead, with what.
    pub could: Vec<Say>,
    /// Steps it is sewn in, by their place in the order of work.
    pub steps: Vec<usize>,
}

/// What a choice is made from.
pub(crate) struct Chooser<'a> {
    pub(crate) workroom: &'a Workroom,
    pub(crate) samples: &'a SampleBook,
    /// The cloth samples are looked up by.
    pub(crate) cloth: &'a str,
    /// Heaviest ply, g/m2.
    pub(crate) mass: f64,
}

#[derive(Clone)]
struct Tried {
    candidate: Candidate,
    machine: usize,
    thread: Thread,
    extension: f64,
    evidence: Evidence,
    /// Sewn, and found not to be for this cloth.
    is_rejected: bool,
    preference: usize,
}

impl Chooser<'_> {
    /// The stitch for a job; `None` only when no machine of the workroom forms any stitch of it.
    pub(crate) fn choose(&self, job: Job, need: Option<Need>, plies: u8) -> Option<StitchChoice> {
        let asked = need.map_or(0.0, |n| n.asked());
        let tried = self.tried(job, plies);
        let best = pick(job, &tried, asked)?;
        let next = pick_next(job, &tried, asked, best);
        let chosen = tried.get(best)?;
        let cloth = need.map_or(0.0, |n| n.cloth);
        let reach = match chosen.extension {
            _ if asked <= 0.0 => Reach::Unstretched,
            e if e < asked => Reach::Short,
            e if cloth > 0.0 && e >= cloth => Reach::Cloth,
            _ => Reach::Need,
        };
        let is_safe = is_allowed(job, chosen) && reach != Reach::Short;
        Some(StitchChoice {
            job,
            seam_class: job.seam_class(),
            plies,
            need: need.unwrap_or_default(),
            asked,
            setting: self.setting(job, chosen),
            extension: chosen.extension,
            evidence: chosen.evidence.clone(),
            reach,
            is_safe,
            why: self.why(job, chosen, asked, reach),
            runner_up: next.and_then(|i| tried.get(i)).map(|other| RunnerUp {
                setting: self.setting(job, other),
                extension: other.extension,
                evidence: other.evidence.clone(),
                why: why_not(job, other, chosen, asked),
            }),
            could: if is_safe {
                Vec::new()
            } else {
                self.could(job, asked, plies)
            },
            steps: Vec::new(),
        })
    }

    fn tried(&self, job: Job, plies: u8) -> Vec<Tried> {
        let mut all = Vec::new();
        let has_elastic_thread = self
            .workroom
            .threads
            .iter()
            .any(|t| t.thread == Thread::Elastic && t.metres > 0.0);
        for (preference, candidate) in job.candidates().iter().enumerate() {
            let width = Mm::new(candidate.width);
            let Some(machine) = self.workroom.machine_for(candidate.stitch, width) else {
                continue;
            };
            all.push(self.one(*candidate, machine, Thread::SpunPolyester, preference, plies));
            if has_elastic_thread
                && candidate.stitch.facts().family == StitchFamily::Lockstitch
                && job.is_load()
            {
                all.push(self.one(*candidate, machine, Thread::Elastic, preference, plies));
            }
        }
        all
    }

    fn one(
        &self,
        candidate: Candidate,
        machine: usize,
        thread: Thread,
        preference: usize,
        plies: u8,
    ) -> Tried {
        let (width, length) = (Mm::new(candidate.width), Mm::new(candidate.length));
        let sample = self
            .samples
            .seam(self.cloth, thread, candidate.stitch, width, length);
        let (extension, evidence) = match sample {
            Some(sample) => (sample.extension(), Evidence::Sample(sample.name.clone())),
            None => (
                seam_extension(
                    candidate.stitch,
                    self.geometry(candidate, plies),
                    thread.breaks_at(),
                ),
                if candidate.stitch.facts().is_practice {
                    Evidence::Practice
                } else {
                    Evidence::Forecast
                },
            ),
        };
        Tried {
            candidate,
            machine,
            thread,
            extension,
            evidence,
            is_rejected: sample.is_some_and(|s| s.verdict == Verdict::No),
            preference,
        }
    }

    pub(crate) fn geometry(&self, candidate: Candidate, plies: u8) -> StitchGeometry {
        StitchGeometry {
            length_mm: candidate.length,
            width_mm: candidate.width,
            thickness_mm: thickness(plies.min(MOST_PLIES), self.mass),
        }
    }

    fn setting(&self, job: Job, tried: &Tried) -> StitchSetting {
        let facts = tried.candidate.stitch.facts();
        let through = if job.has_elastic() {
            Through::Elastic
        } else {
            Through::Cloth
        };
        let mut needle = Needle::for_cloth(self.mass, through);
        if tried.candidate.stitch == Stitch::TwinNeedle {
            needle = needle.twin(Mm::new(tried.candidate.width));
        }
        let has_needle = self
            .workroom
            .needles
            .iter()
            .any(|s| s.needle == needle && s.count > 0);
        let is_textured =
            facts.family != StitchFamily::Lockstitch || tried.candidate.stitch == Stitch::TwinNeedle;
        let tension = match (facts.family, job) {
            (StitchFamily::Overedge, _) => "tension.loose_loopers",
            (StitchFamily::Cover | StitchFamily::Chain, _) => "tension.loose_looper",
            _ if tried.candidate.stitch == Stitch::TwinNeedle => "tension.loose_bobbin",
            (_, Job::LayerBaste | Job::Baste | Job::Gather) => "tension.loose",
            (_, Job::Join | Job::Crotch | Job::EdgeTopstitch) => "tension.slightly_loose",
            _ => "tension.normal",
        };
        StitchSetting {
            stitch: tried.candidate.stitch,
            iso4915: facts.iso4915,
            machine: tried.machine,
            width: Mm::new(tried.candidate.width),
            length: Mm::new(tried.candidate.length),
            rows: tried.candidate.rows,
            needle,
            has_needle,
            needle_thread: tried.thread,
            under_thread: if is_textured {
                Thread::TexturedPolyester
            } else {
                tried.thread
            },
            tension,
            also: self
                .workroom
                .machines
                .get(tried.machine)
                .map_or_else(Vec::new, |m| also(job, m)),
        }
    }

    fn why(&self, job: Job, chosen: &Tried, asked: f64, reach: Reach) -> Vec<Say> {
        let mut why = Vec::new();
        let sentence = |key| {
            Say::plain(key)
                .with("stitch", Arg::Key(chosen.candidate.stitch.key()))
                .with("reaches", Arg::Share(chosen.extension))
                .with("asked", Arg::Share(asked))
        };
        why.push(match reach {
            Reach::Unstretched => Say::plain("why.unstretched"),
            Reach::Cloth => sentence("why.covers_cloth"),
            Reach::Need => sentence("why.covers_need"),
            Reach::Short => sentence("why.short"),
        });
        if job.is_load() && chosen.candidate.stitch == Stitch::Straight {
            why.push(Say::plain("why.straight_cracks"));
        }
        if chosen.thread == Thread::Elastic {
            why.push(Say::plain("why.elastic_thread"));
        }
        if reach != Reach::Unstretched {
            why.push(match &chosen.evidence {
                Evidence::Sample(name) => Say::plain("why.by_sample").with("sample", Arg::Name(name.clone())),
                Evidence::Forecast => Say::plain("why.by_forecast"),
                Evidence::Practice => Say::plain("why.by_practice"),
            });
        }
        why
    }

    /// What would be safe: the same machines with an elastic thread, or one machine more.
    fn could(&self, job: Job, asked: f64, plies: u8) -> Vec<Say> {
        let mut could = Vec::new();
        let elastic =
            |c: &Candidate| seam_extension(c.stitch, self.geometry(*c, plies), Thread::Elastic.breaks_at());
        let with_thread = job
            .candidates()
            .iter()
            .filter(|c| c.stitch.facts().family == StitchFamily::Lockstitch && !c.stitch.facts().is_practice)
            .filter(|c| self.workroom.machine_for(c.stitch, Mm::new(c.width)).is_some())
            .map(|c| (c, elastic(c)))
            .max_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((candidate, reaches)) = with_thread {
            let key = if reaches >= asked {
                "could.elastic_thread"
            } else {
                "could.elastic_thread_short"
            };
            could.push(
                Say::plain(key)
                    .with("stitch", Arg::Key(candidate.stitch.key()))
                    .with("reaches", Arg::Share(reaches))
                    .with("asked", Arg::Share(asked)),
            );
        }
        for (key, machine) in additions() {
            let mut more = self.workroom.clone();
            more.machines.push(machine);
            let with = Chooser {
                workroom: &more,
                ..*self
            };
            let tried = with.tried(job, plies);
            let found = pick(job, &tried, asked).and_then(|i| tried.get(i));
            if let Some(found) = found
                && found.machine + 1 == more.machines.len()
                && is_allowed(job, found)
                && found.extension >= asked
            {
                could.push(
                    Say::plain("could.machine")
                        .with("machine", Arg::Key(key))
                        .with("stitch", Arg::Key(found.candidate.stitch.key()))
                        .with("reaches", Arg::Share(found.extension)),
                );
            }
        }
        could
    }
}

/// Thickness of so many plies under the foot, mm.
pub(crate) fn thickness(plies: u8, mass: f64) -> f64 {
    f64::from(plies) * PLY_MM * mass / crate::needle::ASSUMED_MASS
}

/// Machines a workroom might get, with the keys of their names.
pub(crate) fn additions() -> [(&'static str, Machine); 3] {
    [
        ("machine.zigzag", Machine::zigzag()),
        ("machine.overlocker", Machine::overlocker()),
        ("machine.coverstitch", Machine::coverstitch()),
    ]
}

/// A straight row is safe in nothing that is stretched.
fn is_allowed(job: Job, tried: &Tried) -> bool {
    let cracks = job.is_load() && tried.candidate.stitch == Stitch::Straight;
    !cracks && !tried.is_rejected
}

/// First allowed that reaches; else the furthest allowed; else the furthest of all.
fn pick(job: Job, tried: &[Tried], asked: f64) -> Option<usize> {
    let furthest = |allowed: bool| {
        (0..tried.len())
            .filter(|i| !allowed || is_allowed(job, &tried[*i]))
            .max_by(|a, b| {
                let (a, b) = (&tried[*a], &tried[*b]);
                a.extension
                    .total_cmp(&b.extension)
                    .then(b.preference.cmp(&a.preference))
            })
    };
    tried
        .iter()
        .position(|t| is_allowed(job, t) && t.extension >= asked)
        .or_else(|| furthest(true))
        .or_else(|| furthest(false))
}

fn pick_next(job: Job, tried: &[Tried], asked: f64, best: usize) -> Option<usize> {
    let other = |i: usize, t: &Tried| {
        // The same stitch with another setting is no other choice.
        i != best
            && tried
                .get(best)
                .is_none_or(|b| b.candidate.stitch != t.candidate.stitch)
    };
    tried
        .iter()
        .enumerate()
        .find(|(i, t)| other(*i, t) && is_allowed(job, t) && t.extension >= asked)
        .or_else(|| tried.iter().enumerate().find(|(i, t)| other(*i, t)))
        .map(|(i, _)| i)
}

fn why_not(job: Job, other: &Tried, chosen: &Tried, asked: f64) -> Say {
    let (ours, theirs) = (chosen.candidate.stitch.facts(), other.candidate.stitch.facts());
    let sentence = |key| {
        Say::plain(key)
            .with("stitch", Arg::Key(theirs.key))
            .with("reaches", Arg::Share(other.extension))
            .with("asked", Arg::Share(asked))
    };
    if !is_allowed(job, other) {
        sentence(if other.is_rejected {
            "why_not.rejected"
        } else {
            "why_not.straight"
        })
    } else if other.extension < asked {
        sentence("why_not.short")
    } else if theirs.bulk > ours.bulk {
        sentence("why_not.bulky")
    } else if other.extension < chosen.extension {
        sentence("why_not.shorter")
    } else {
        sentence("why_not.second")
    }
}

/// Foot, its pressure, feed and knife, by the job.
fn also(job: Job, machine: &Machine) -> Vec<&'static str> {
    let mut also = Vec::new();
    match &machine.kind {
        MachineKind::Overlocker { .. } => {
            if matches!(job, Job::Anchor | Job::SkirtJoin) {
                also.push("also.knife_off");
            } else {
                also.push("also.knife_trims");
            }
        }
        MachineKind::Lockstitch { .. } => {
            if job == Job::Zip {
                also.push(if machine.feet.contains(&Foot::Zip) {
                    "also.zip_foot"
                } else {
                    "also.zip_foot_missing"
                });
            } else if machine.feet.contains(&Foot::Walking) || machine.feet.contains(&Foot::Roller) {
                also.push("also.even_feed_foot");
            }
        }
        MachineKind::Coverstitch { .. } => {}
    }
    if machine.has_differential_feed && matches!(job, Job::Join | Job::Crotch | Job::Hem) {
        also.push("also.differential_one");
    }
    if machine.has_foot_pressure && job != Job::Zip {
        also.push(if job == Job::Cups {
            "also.foot_pressure_least"
        } else {
            "also.foot_pressure_low"
        });
    }
    also
}
