//! `slackwater survey`: drafts and judges every body of a survey or size table and counts what comes out.
//!
//! The proof that the draft holds for bodies nobody chose: what is refused and why, what fails the draft's own checks (there
//! must be none), what the judges find. Two findings are skipped because these tables make them by themselves, see
//! [`SKIPPED`].
//!
//! Bodies are worked out on all cores and counted in the order of the table, so the counts are the same on every machine;
//! only the seconds differ.

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Instant;

use body::BodyForm;
use clap::Args;
use cloth::{ClothPlan, Load};
use draft::{Design, Skirt, SkirtJoin, SkirtKind, Style, draft};
use make::{ElasticChoice, elastic};
use rayon::prelude::*;
use serde::Serialize;
use units::{Finding, Mm, Progress, Severity, Stretch};

use super::console::Console;
use super::progress::Bar;
use super::survey_bodies::{Person, form_is_missing, sized, surveyed};
use super::table::{Align, Table};
use super::{FormArg, Outcome, Trouble};
use crate::suit_file::{FaultKind, Faults, form_key};

/// Findings that say something of the table, not of the bodies: the tables take the waist at the navel and no under-bust.
///
/// `ladder.underbust_hold` rests on the estimated under-bust, and most navels lie above it. `body.crotch_rise` has its
/// limits for the natural waist; at the navel 5 to 95 % of women lie at 2.76 to 3.67.
const SKIPPED: [&str; 2] = ["ladder.underbust_hold", "body.crotch_rise"];

#[derive(Debug, Args)]
pub(super) struct SurveyArgs {
    /// Tables as in data/body: a header of column names, then one person a line.
    #[arg(required_unless_present = "sizes")]
    tables: Vec<PathBuf>,
    /// A size table instead of people: `women`, `men`, `children`, or a CSV file as for `slackwater range`; what it lacks is estimated.
    #[arg(long, conflicts_with = "tables")]
    sizes: Option<String>,
    /// Whose bodies the tables hold; a built-in size table says so itself.
    #[arg(long, value_enum, required_unless_present = "sizes")]
    form: Option<FormArg>,
    /// What is drafted for all of them: a style of the catalogue, `skirted` for a one-piece with a skirt, or `all` styles made
    /// for this form; several with commas.
    #[arg(long, value_delimiter = ',', default_value = "one-piece")]
    style: Vec<String>,
    /// Stretch of the cloth around and lengthwise, per cent: 85/60; several with commas.
    #[arg(long, value_delimiter = ',', default_value = "85/60", value_parser = stretch_pair)]
    stretch: Vec<(f64, f64)>,
    /// Take only the first so many bodies of each table.
    #[arg(long)]
    limit: Option<usize>,
}

/// One thing drafted for every body.
struct Asked {
    key: &'static str,
    design: Design,
}

/// The designs asked for by name.
fn asked(names: &[String], form: BodyForm) -> Result<Vec<Asked>, Faults> {
    let of = |style: Style| Asked {
        key: style.key(),
        design: Design::of(style),
    };
    let mut all = Vec::new();
    for name in names {
        match name.as_str() {
            "all" => all.extend(Style::all().iter().filter(|s| s.is_for(form)).map(|&s| of(s))),
            "skirted" => all.push(Asked {
                key: "skirted",
                design: Design {
                    skirt: Some(Skirt {
                        kind: SkirtKind::HalfCircle,
                        join: SkirtJoin::Hip,
                        cover: Mm::new(60.0),
                    }),
                    ..Design::default()
                },
            }),
            key => match Style::of_key(key) {
                Some(style) => all.push(of(style)),
                None => {
                    let known: Vec<_> = Style::all().iter().map(|s| s.key()).collect();
                    let help = format!("write \"all\", \"skirted\" or one of {}", known.join(", "));
                    return Err(Faults::whole(
                        "--style",
                        FaultKind::NotAllowed,
                        format!("there is no style \"{key}\""),
                        &help,
                    ));
                }
            },
        }
    }
    Ok(all)
}

/// `85/60`: per cent around and lengthwise.
fn stretch_pair(text: &str) -> Result<(f64, f64), String> {
    let number = |t: &str| t.trim().parse::<f64>().ok().filter(|n| (0.0..=200.0).contains(n));
    text.split_once('/')
        .and_then(|(around, lengthwise)| Some((number(around)?, number(lengthwise)?)))
        .ok_or_else(|| "write two numbers from 0 to 200, around and lengthwise: 85/60".to_owned())
}

/// What became of one body.
#[derive(Clone, Debug, PartialEq)]
enum Fate {
    Refused(&'static str),
    Invalid(&'static str),
    /// A fault of the program; the run goes on so that one body does not hide the others.
    Crashed,
    Drafted(Vec<(&'static str, Severity)>),
}

/// How often something happened, and where first.
#[derive(Clone, Debug, Serialize)]
struct Count {
    bodies: u64,
    first_line: usize,
}

/// How many bodies have a finding, by severity.
#[derive(Clone, Copy, Debug, Default, Serialize)]
struct BySeverity {
    good: u64,
    watch: u64,
    stop: u64,
}

#[derive(Debug, Serialize)]
struct Counts {
    form: &'static str,
    style: &'static str,
    stretch_around_percent: f64,
    stretch_lengthwise_percent: f64,
    bodies: u64,
    drafted: u64,
    refused: BTreeMap<&'static str, Count>,
    invalid: BTreeMap<&'static str, Count>,
    crashed: Option<Count>,
    findings: BTreeMap<&'static str, BySeverity>,
    skipped_findings: [&'static str; 2],
    worst: BySeverity,
    /// As `worst`, but for `body.estimated`, which nearly every body of a survey has.
    worst_but_estimates: BySeverity,
    seconds: f64,
    bodies_per_second: f64,
}

pub(super) fn run(args: &SurveyArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    let (form, mut people) = people(args)?;
    if args.sizes.is_some() {
        people.truncate(args.limit.unwrap_or(usize::MAX));
    }
    let asked = asked(&args.style, form)?;
    let total = people.len() * asked.len() * args.stretch.len();
    let done = AtomicU64::new(0);
    let bar = Bar::new(console.manner.progress);
    let mut all = Vec::with_capacity(asked.len() * args.stretch.len());
    for asked in &asked {
        for &stretch in &args.stretch {
            let cloth = ClothPlan::of_one_cloth(
                "survey cloth",
                Stretch::from_percent(stretch.0),
                Stretch::from_percent(stretch.1),
                Load::Hand,
            );
            let start = Instant::now();
            let fates: Vec<Fate> = people
                .par_iter()
                .map(|person| {
                    let fate = fate_of(person, &cloth, &asked.design);
                    let done = done.fetch_add(1, Ordering::Relaxed) + 1;
                    if done.is_multiple_of(16) {
                        bar.at(done, total as u64, "suits drafted and judged");
                    }
                    fate
                })
                .collect();
            let seconds = start.elapsed().as_secs_f64();
            all.push(count(asked.key, stretch, form, &people, &fates, seconds));
        }
    }
    drop(bar);
    match (all.as_slice(), console.manner.json) {
        ([one], true) => console.print_json(one)?,
        (many, true) => console.print_json(&many)?,
        ([one], false) => console.print(&text(one))?,
        (many, false) => console.print(&summary(many))?,
    }
    Ok(Outcome::Done)
}

/// Whose bodies are drafted, and of what form they are.
fn people(args: &SurveyArgs) -> Result<(BodyForm, Vec<Person>), Faults> {
    let form = args.form.map(BodyForm::from);
    if let Some(sizes) = &args.sizes {
        return sized(sizes, form);
    }
    let form = form.ok_or_else(form_is_missing)?;
    let mut all = Vec::new();
    for table in &args.tables {
        let mut found = surveyed(table, form)?;
        found.truncate(args.limit.unwrap_or(usize::MAX));
        all.extend(found);
    }
    Ok((form, all))
}

fn fate_of(person: &Person, cloth: &ClothPlan, design: &Design) -> Fate {
    let work = || {
        let (body, mut findings) = match person.body() {
            Ok(found) => found,
            Err(why) => return Fate::Refused(why),
        };
        let draft = match draft(&body, cloth, design) {
            Ok(draft) => draft,
            Err(refusal) if refusal.is_invalid() => return Fate::Invalid(refusal.reason_key()),
            Err(refusal) => return Fate::Refused(refusal.reason_key()),
        };
        let elastic = elastic(&draft, &ElasticChoice::default());
        let fit = crate::order::judged(&body, cloth, &draft, &elastic, &ElasticChoice::default());
        findings.extend(draft.findings);
        findings.extend(elastic.into_iter().flat_map(|e| e.findings));
        findings.extend(fit.findings);
        Fate::Drafted(worst_by_code(&findings))
    };
    catch_unwind(AssertUnwindSafe(work)).unwrap_or(Fate::Crashed)
}

/// The worst severity of each code: a body counts once for a code.
fn worst_by_code(findings: &[Finding]) -> Vec<(&'static str, Severity)> {
    let mut worst: BTreeMap<&'static str, Severity> = BTreeMap::new();
    for finding in findings.iter().filter(|f| !SKIPPED.contains(&f.code)) {
        let entry = worst.entry(finding.code).or_insert(Severity::Good);
        *entry = (*entry).max(finding.severity);
    }
    worst.into_iter().collect()
}

fn count(
    style: &'static str,
    stretch: (f64, f64),
    form: BodyForm,
    people: &[Person],
    fates: &[Fate],
    seconds: f64,
) -> Counts {
    let mut counts = Counts {
        form: form_key(form),
        style,
        stretch_around_percent: stretch.0,
        stretch_lengthwise_percent: stretch.1,
        bodies: people.len() as u64,
        drafted: 0,
        refused: BTreeMap::new(),
        invalid: BTreeMap::new(),
        crashed: None,
        findings: BTreeMap::new(),
        skipped_findings: SKIPPED,
        worst: BySeverity::default(),
        worst_but_estimates: BySeverity::default(),
        seconds,
        bodies_per_second: if seconds > 0.0 {
            people.len() as f64 / seconds
        } else {
            0.0
        },
    };
    for (person, fate) in people.iter().zip(fates) {
        let first = Count {
            bodies: 0,
            first_line: person.line,
        };
        match fate {
            Fate::Refused(why) => counts.refused.entry(why).or_insert(first).bodies += 1,
            Fate::Invalid(kind) => counts.invalid.entry(kind).or_insert(first).bodies += 1,
            Fate::Crashed => counts.crashed.get_or_insert(first).bodies += 1,
            Fate::Drafted(findings) => {
                counts.drafted += 1;
                for (code, severity) in findings {
                    counts.findings.entry(code).or_default().add(*severity);
                }
                let worst = |skip: &str| {
                    let kept = findings.iter().filter(|(code, _)| *code != skip);
                    kept.map(|(_, s)| *s).max().unwrap_or(Severity::Good)
                };
                counts.worst.add(worst(""));
                counts.worst_but_estimates.add(worst("body.estimated"));
            }
        }
    }
    counts
}

impl BySeverity {
    fn add(&mut self, severity: Severity) {
        match severity {
            Severity::Good => self.good += 1,
            Severity::Watch => self.watch += 1,
            Severity::Stop => self.stop += 1,
        }
    }
}

/// Many styles and cloths, a line each.
fn summary(all: &[Counts]) -> String {
    let mut table = Table::new(&[
        ("style", Align::Left),
        ("cloth", Align::Left),
        ("bodies", Align::Right),
        ("drafted", Align::Right),
        ("refused", Align::Right),
        ("invalid", Align::Right),
        ("crashed", Align::Right),
        ("good", Align::Right),
        ("watch", Align::Right),
        ("stop", Align::Right),
        ("refused for", Align::Left),
    ]);
    let of =
        |found: &BTreeMap<&'static str, Count>| found.values().map(|c| c.bodies).sum::<u64>().to_string();
    for c in all {
        let why: Vec<_> = c
            .refused
            .iter()
            .map(|(k, n)| format!("{k} {}", n.bodies))
            .collect();
        table.row(vec![
            c.style.to_owned(),
            format!(
                "{:.0}/{:.0}",
                c.stretch_around_percent, c.stretch_lengthwise_percent
            ),
            c.bodies.to_string(),
            c.drafted.to_string(),
            of(&c.refused),
            of(&c.invalid),
            c.crashed.as_ref().map_or(0, |n| n.bodies).to_string(),
            c.worst_but_estimates.good.to_string(),
            c.worst_but_estimates.watch.to_string(),
            c.worst_but_estimates.stop.to_string(),
            why.join(", "),
        ]);
    }
    format!(
        "{}\n  good, watch, stop: the worst finding of each suit, but for body.estimated and {}\n",
        table.to_text(0),
        SKIPPED.join(", ")
    )
}

fn text(counts: &Counts) -> String {
    let mut out = format!(
        "{} bodies ({}), {}, cloth {:.0} % around and {:.0} % lengthwise\n\n",
        counts.bodies,
        counts.form,
        counts.style,
        counts.stretch_around_percent,
        counts.stretch_lengthwise_percent
    );
    let mut fates = Table::new(&[
        ("", Align::Left),
        ("bodies", Align::Right),
        ("first in line", Align::Right),
    ]);
    fates.row(vec!["drafted".into(), counts.drafted.to_string()]);
    let mut rows = |word: &str, found: &BTreeMap<&'static str, Count>| {
        if found.is_empty() {
            fates.row(vec![word.to_owned(), "0".into()]);
        }
        for (key, count) in found {
            fates.row(vec![
                format!("{word}: {key}"),
                count.bodies.to_string(),
                count.first_line.to_string(),
            ]);
        }
    };
    rows("refused", &counts.refused);
    rows("invalid", &counts.invalid);
    match &counts.crashed {
        None => fates.row(vec!["crashed".into(), "0".into()]),
        Some(count) => {
            fates.row(vec![
                "crashed".into(),
                count.bodies.to_string(),
                count.first_line.to_string(),
            ]);
        }
    }
    out += &fates.to_text(2);
    out.push('\n');
    let mut table = Table::new(&[
        ("finding", Align::Left),
        ("good", Align::Right),
        ("watch", Align::Right),
        ("stop", Align::Right),
    ]);
    let mut row = |name: &str, by: &BySeverity| {
        table.row(vec![
            name.to_owned(),
            by.good.to_string(),
            by.watch.to_string(),
            by.stop.to_string(),
        ]);
    };
    for (code, by) in &counts.findings {
        row(code, by);
    }
    row("worst of each body", &counts.worst);
    row("the same but for body.estimated", &counts.worst_but_estimates);
    out += &table.to_text(2);
    out += &format!(
        "  not counted: {}\n\n  {:.2} s, {:.0} bodies per second\n",
        counts.skipped_findings.join(", "),
        counts.seconds,
        counts.bodies_per_second
    );
    out
}
