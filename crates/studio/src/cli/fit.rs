//! `slackwater fit`: the suit put on the wearer's form and solved, before any cloth is cut.
//!
//! A solve that does not come to its end is told with its reason, exit code 1, and no picture is drawn of it. Ctrl+C ends it at the
//! next step, with nothing written.

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Instant;

use clap::{Args, ValueEnum};
use serde::Serialize;
use units::{LengthUnit, Progress, Severity, parse_length};

use super::console::{Console, to_json};
use super::folder::{Disk, Sheet, write_file, write_folder};
use super::progress::Bar;
use super::table::{Align, Table, wrap};
use super::{Outcome, Trouble, read_suit};
use crate::order::{Order, work_out};
use crate::suit_file::{FaultKind, Faults, SuitFile};
use crate::worn::drawing::{Side, draw};
use crate::worn::{
    Correction, OnForm, SCENE_RANGE_MM, Scene, SceneKind, WornChoice, WornReport, corrected_text, propose,
    put_on,
};

#[derive(Debug, Args)]
pub(super) struct FitArgs {
    /// The suit file; `-` for standard input.
    file: PathBuf,
    /// The folder to write `fit.json` and the drawings to; made if it is not there. Nothing is written without.
    #[arg(short, long)]
    output: Option<PathBuf>,
    /// Length of the mesh's edges, 3 to 25 mm; finer takes longer.
    #[arg(long, default_value = "10mm", value_parser = mesh)]
    mesh: f64,
    /// Friction between cloth and skin, from where it is put; dry skin about 0.3, 0 for none.
    #[arg(long, default_value_t = 0.3, value_parser = friction)]
    friction: f64,
    /// What she does.
    #[arg(long, value_enum, default_value = "standing")]
    scene: SceneArg,
    /// By how much the trunk is longer or the ribs are wider in that scene, as taken with the tape; a guess when left out.
    #[arg(long, value_parser = scene_length)]
    by: Option<f64>,
    /// Cloth that has been worn: longer by what it did not go back in its stretch test.
    #[arg(long)]
    settled: bool,
    /// Look for a draft that is worn nearer to what it meant, show before and after, and write it beside the suit file as
    /// NAME.corrected.toml; a file of that name is never overwritten.
    #[arg(long)]
    correct: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum SceneArg {
    /// Standing, as she was measured.
    Standing,
    /// Arms up or bent: a longer trunk.
    Reach,
    /// A deep breath: wider ribs.
    Breathe,
}

impl From<SceneArg> for SceneKind {
    fn from(scene: SceneArg) -> SceneKind {
        match scene {
            SceneArg::Standing => SceneKind::Standing,
            SceneArg::Reach => SceneKind::Reach,
            SceneArg::Breathe => SceneKind::Breathe,
        }
    }
}

fn mesh(text: &str) -> Result<f64, String> {
    let (low, high) = solve::MESH_RANGE_MM;
    let help = || format!("give {low} to {high} mm, such as 10mm");
    let mm = parse_length(text, LengthUnit::Mm).map_err(|_| help())?.get();
    if (low..=high).contains(&mm) {
        Ok(mm)
    } else {
        Err(help())
    }
}

fn friction(text: &str) -> Result<f64, String> {
    match text.trim().parse::<f64>() {
        Ok(mu) if (0.0..=1.0).contains(&mu) => Ok(mu),
        _ => Err("give 0 to 1".to_owned()),
    }
}

fn scene_length(text: &str) -> Result<f64, String> {
    let (low, high) = SCENE_RANGE_MM;
    let help = || format!("give {low} to {high} mm, such as 35mm");
    let mm = parse_length(text, LengthUnit::Mm).map_err(|_| help())?.get();
    if (low..=high).contains(&mm) {
        Ok(mm)
    } else {
        Err(help())
    }
}

/// Columns of the text.
const COLUMNS: usize = 100;

/// A bar that ends the work when Ctrl+C is pressed.
struct Stoppable {
    bar: Bar,
    asked: Arc<AtomicBool>,
}

impl Stoppable {
    fn new(shown: bool) -> Stoppable {
        let asked = Arc::new(AtomicBool::new(false));
        let heard = Arc::clone(&asked);
        // Where nobody can be listened to, Ctrl+C ends the program as it always does: nothing is half written either way.
        std::thread::spawn(move || {
            let runtime = tokio::runtime::Builder::new_current_thread().enable_io().build();
            if let Ok(runtime) = runtime
                && runtime.block_on(tokio::signal::ctrl_c()).is_ok()
            {
                heard.store(true, Ordering::Relaxed);
            }
        });
        Stoppable {
            bar: Bar::new(shown),
            asked,
        }
    }
}

impl Progress for Stoppable {
    fn at(&self, done: u64, of: u64, words: &str) {
        self.bar.at(done, of, words);
    }

    fn should_stop(&self) -> bool {
        self.asked.load(Ordering::Relaxed)
    }
}

pub(super) fn run(args: &FitArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    let suit = read_suit(&args.file)?;
    let order = work_out(&suit)?;
    let refused = |message: String, help: &str| Faults::whole(&suit.file, FaultKind::Refused, message, help);
    let kind = SceneKind::from(args.scene);
    if kind == SceneKind::Standing && args.by.is_some() {
        let help = "add --scene reach or --scene breathe, or leave --by out";
        return Err(refused("standing changes no length of the body".to_owned(), help).into());
    }
    let choice = WornChoice {
        mesh_mm: args.mesh,
        friction: args.friction,
        scene: Scene {
            kind,
            by_mm: args.by.unwrap_or(kind.usual_mm()),
            is_measured: args.by.is_some(),
        },
        is_settled: args.settled,
    };
    let beside = args.correct.then(|| beside(&suit)).transpose()?;
    let progress = Stoppable::new(console.manner.progress);
    let began = Instant::now();
    let on = put_on(&suit, &order, choice, &progress).map_err(|reason| {
        let help = "the judgement by quick formulas still stands: see slackwater check";
        refused(format!("it can't be put on the form: {reason}"), help)
    })?;
    let seconds = began.elapsed().as_secs_f64();
    if progress.should_stop() {
        return Err(refused(
            "stopped when asked: nothing was written".to_owned(),
            "run it again to go on",
        )
        .into());
    }
    let correction = if args.correct && on.report.convergence.solved {
        let proposed = propose(&suit, &order, choice, &progress).map_err(|reason| {
            refused(
                format!("no correction was looked for: {reason}; nothing was written"),
                "run it without --correct",
            )
        })?;
        Some(proposed)
    } else {
        None
    };
    drop(progress);
    let report = &on.report;
    let changed = correction.as_ref().filter(|c| !c.changes.is_empty());
    let corrected = changed.map(|c| corrected(&suit, c)).transpose()?;
    if let Some(folder) = &args.output {
        let mut sheets = sheets(&on, &suit.name);
        if let Some(correction) = &correction {
            let mut json = to_json(correction).into_bytes();
            json.push(b'\n');
            sheets.push(Sheet {
                name: "correction.json".to_owned(),
                bytes: json,
            });
        }
        write_folder(folder, &sheets, &Disk)?;
    }
    if let (Some(path), Some(text)) = (&beside, &corrected) {
        write_file(path, text.as_bytes(), false)?;
    }
    if console.manner.json {
        console.print_json(&Corrected {
            report,
            correction: correction.as_ref(),
        })?;
    } else {
        let heading = console.heading(&suit.name);
        let mut text = text(&heading, report, console);
        if let Some(correction) = &correction {
            text += &format!(
                "\n{}\n{}",
                console.heading("Correction"),
                corrected_words(correction)
            );
        }
        if let (Some(path), Some(_)) = (&beside, &corrected) {
            text += &format!("  written to {}\n", path.display());
        }
        console.print(&text)?;
        console.note(&format!("{seconds:.1} s"))?;
    }
    let is_bad = !report.convergence.solved || report.worst() == Severity::Stop;
    Ok(if is_bad { Outcome::Stop } else { Outcome::Done })
}

/// A report with its correction, if one was asked for.
#[derive(Serialize)]
struct Corrected<'a> {
    #[serde(flatten)]
    report: &'a WornReport,
    #[serde(skip_serializing_if = "Option::is_none")]
    correction: Option<&'a Correction>,
}

/// Another command's report with how the suit is worn, if it was asked to solve it.
#[derive(Serialize)]
pub(super) struct Told<'a, T: Serialize> {
    #[serde(flatten)]
    pub(super) report: T,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) worn: Option<WornTold<'a>>,
}

/// How a suit is worn, or why that is not known.
#[derive(Serialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum WornTold<'a> {
    Solved(&'a WornReport),
    Refused(&'a str),
}

/// A suit that another command put on its form.
pub(super) enum Worn {
    On(Box<OnForm>),
    Refused(String),
}

impl Worn {
    pub(super) fn told(&self) -> WornTold<'_> {
        match self {
            Worn::On(on) => WornTold::Solved(&on.report),
            Worn::Refused(reason) => WornTold::Refused(reason),
        }
    }

    /// As a section of that command's text.
    pub(super) fn words(&self, console: &Console<'_>) -> String {
        let heading = console.heading("Worn, solved");
        match self {
            Worn::On(on) if on.report.convergence.solved => {
                format!(
                    "\n{heading}\n{}{}",
                    levels(&on.report),
                    found(&on.report, console)
                )
            }
            Worn::On(on) => format!("\n{heading}\n  {}\n", on.report.convergence.stop),
            Worn::Refused(reason) => format!("\n{heading}\n  {}\n", wrap(reason, COLUMNS, 2)),
        }
    }
}

/// Puts a suit on its form for another command, standing, in new cloth.
pub(super) fn solved(suit: &SuitFile, order: &Order, is_shown: bool) -> Result<Worn, Faults> {
    let progress = Stoppable::new(is_shown);
    let put = put_on(suit, order, WornChoice::default(), &progress);
    if progress.should_stop() {
        let (message, help) = ("stopped when asked: nothing was written", "run it again to go on");
        return Err(Faults::whole(
            &suit.file,
            FaultKind::Refused,
            message.to_owned(),
            help,
        ));
    }
    Ok(match put {
        Ok(on) => Worn::On(Box::new(on)),
        Err(reason) => Worn::Refused(format!("it can't be put on the form: {reason}")),
    })
}

/// The files of a worn suit: its numbers, and drawings if it was solved.
pub(super) fn sheets(on: &OnForm, name: &str) -> Vec<Sheet> {
    let mut json = to_json(&on.report).into_bytes();
    json.push(b'\n');
    let mut sheets = vec![Sheet {
        name: "fit.json".to_owned(),
        bytes: json,
    }];
    if on.report.convergence.solved {
        sheets.extend(Side::ALL.map(|side| Sheet {
            name: format!("fit-{}.svg", side.key()),
            bytes: draw(on, name, side).into_bytes(),
        }));
    }
    sheets
}

/// Where the corrected suit file goes: looked at before any work is done.
fn beside(suit: &SuitFile) -> Result<PathBuf, Faults> {
    let refused = |message: String, help: &str| Faults::whole(&suit.file, FaultKind::Refused, message, help);
    if suit.file == "-" {
        return Err(refused(
            "a suit from standard input has no place beside it for the corrected one".to_owned(),
            "give the suit file's name",
        ));
    }
    let path = PathBuf::from(&suit.file).with_extension("corrected.toml");
    if path.exists() {
        let message = format!("{} is there already and is not overwritten", path.display());
        return Err(refused(message, "move it away, or compare the two first"));
    }
    Ok(path)
}

fn corrected(suit: &SuitFile, correction: &Correction) -> Result<String, Faults> {
    corrected_text(suit, &correction.changes).map_err(|reason| {
        let set: Vec<String> = correction
            .changes
            .iter()
            .map(|c| format!("{} = {}", c.key, c.to))
            .collect();
        Faults::whole(&suit.file, FaultKind::Refused, reason, &set.join(", "))
    })
}

fn corrected_words(correction: &Correction) -> String {
    let mut out = format!(
        "  off what was meant by {:.2} before, {:.2} after: {:.0} % less; {} drafts tried\n",
        100.0 * correction.before.sqrt(),
        100.0 * correction.after.sqrt(),
        100.0 * correction.gain,
        correction.tried
    );
    if let Some(why) = correction.why_not {
        return out + &format!("  nothing proposed: {why}\n");
    }
    for c in &correction.changes {
        let from = c.from.map_or("as it is".to_owned(), |f| f.to_string());
        let unit = if c.key.starts_with("figure.") { " mm" } else { "" };
        out += &format!("  {}: {from} to {}{unit}\n", c.key, c.to);
    }
    let mut table = Table::new(&[
        ("level", Align::Left),
        ("meant around", Align::Right),
        ("before", Align::Right),
        ("after", Align::Right),
        ("meant lengthwise", Align::Right),
        ("before", Align::Right),
        ("after", Align::Right),
    ]);
    for l in &correction.levels {
        let percent = |p: f64| format!("{p:.1} %");
        table.row(vec![
            l.level.name().to_owned(),
            percent(l.meant_percent),
            percent(l.around_percent[0]),
            percent(l.around_percent[1]),
            percent(l.meant_lengthwise_percent),
            percent(l.lengthwise_percent[0]),
            percent(l.lengthwise_percent[1]),
        ]);
    }
    let [before, after] = correction.peak_kpa;
    out + &table.to_text(2) + &format!("  presses most {before:.2} kPa before, {after:.2} after\n")
}

fn text(heading: &str, report: &WornReport, console: &Console<'_>) -> String {
    let c = &report.convergence;
    let passes: Vec<String> = c.passes.iter().map(|(_, steps)| steps.to_string()).collect();
    let mut out = format!(
        "{heading}\nversion {}, {}, {} cloth, friction {:.2}\n{}: {} steps ({}), largest force left {:.0e} N, {} points a side\n",
        report.version,
        report.scene,
        report.cloth,
        report.friction,
        c.stop,
        c.steps,
        passes.join(" + "),
        c.residual_n,
        c.vertices
    );
    for line in report.assumed.iter().chain(&report.left_out) {
        out += &format!("{}\n", wrap(line, COLUMNS, 0));
    }
    out += &form(report, console);
    if !c.solved {
        out += "\nNo answer, and nothing drawn: what a solve has not found is not shown.\n";
        return out;
    }
    out += &format!(
        "\n{}\n{}",
        console.heading("Worn stretch and squeeze"),
        levels(report)
    );
    out += &format!("\n{}\n{}", console.heading("Edges"), edges(report));
    if let Some(s) = report.strap {
        out += &format!(
            "  strap worn {:.0} % longer; a grip of {:.2} keeps it on the shoulder\n",
            s.stretch_percent, s.needed_friction
        );
    }
    out += &held(report);
    out += &format!("\n{}\n{}", console.heading("Found"), found(report, console));
    out += &format!("\n{}\n", console.heading("Not judged"));
    for line in &report.not_judged {
        out += &format!("  {}\n", wrap(line, COLUMNS, 2));
    }
    out
}

/// What holds a top, and what straps and ties pull.
fn held(report: &WornReport) -> String {
    let mut out = String::new();
    for grip in &report.grips {
        let way = if grip.slides_n < 0.0 { "down" } else { "up" };
        out += &format!(
            "  {}: would slide {way} with {:.1} N a side, lies on with {:.1} N; a grip of {:.2} holds it\n",
            grip.what,
            grip.slides_n.abs(),
            grip.lies_on_n,
            grip.needed_friction
        );
    }
    if let Some([front, back]) = report.rode_up_mm {
        out += &format!("  the lower edge rode up {front:.0} mm in front, {back:.0} mm behind\n");
    }
    for tie in &report.ties {
        out += &format!(
            "  {}: {:.0} mm long as worn, {:.0} % longer than at rest, pulls {:.2} N\n",
            tie.what, tie.length_mm, tie.stretch_percent, tie.pull_n
        );
    }
    out
}

fn form(report: &WornReport, console: &Console<'_>) -> String {
    let mut table = Table::new(&[
        ("dimension", Align::Left),
        ("body", Align::Right),
        ("form is off", Align::Right),
        ("", Align::Left),
    ]);
    let mut off: Vec<_> = report.form.iter().filter(|f| f.off_mm.abs() >= 1.0).collect();
    off.sort_by(|a, b| b.off_mm.abs().total_cmp(&a.off_mm.abs()));
    for f in off {
        table.row(vec![
            f.dimension.to_owned(),
            format!("{:.1} cm", f.asked_mm / 10.0),
            format!("{:+.1} cm", f.off_mm / 10.0),
            if f.is_estimate {
                "estimated".to_owned()
            } else {
                String::new()
            },
        ]);
    }
    if table.is_empty() {
        return String::new();
    }
    format!(
        "\n{}\n{}",
        console.heading("The form against the body"),
        table.to_text(2)
    )
}

fn levels(report: &WornReport) -> String {
    let mut table = Table::new(&[
        ("level", Align::Left),
        ("around", Align::Right),
        ("meant", Align::Right),
        ("least to most", Align::Right),
        ("lengthwise", Align::Right),
        ("squeeze", Align::Right),
    ]);
    let mark = if report.cloth_weighed { "" } else { "~" };
    let open_too = report.levels.iter().all(|l| !l.closes);
    for l in report.levels.iter().filter(|l| l.closes || open_too) {
        table.row(vec![
            if l.closes {
                l.level.name().to_owned()
            } else {
                format!("{}, open at the side", l.level.name())
            },
            format!("{:.0} %", l.around_percent),
            l.meant_percent
                .filter(|_| l.closes)
                .map_or_else(String::new, |m| format!("{m:.0} %")),
            format!(
                "{:.0} to {:.0} %",
                l.around_spread_percent[0], l.around_spread_percent[1]
            ),
            format!("{:.0} %", l.lengthwise_percent),
            format!("{mark}{:.2} kPa", l.pressure_kpa),
        ]);
    }
    let mut out = table.to_text(2);
    if !report.cloth_weighed {
        out += "  ~ the force of this cloth was assumed: compare levels, don't trust the number\n";
    }
    out
}

fn edges(report: &WornReport) -> String {
    let mut table = Table::new(&[
        ("edge", Align::Left),
        ("stretched", Align::Right),
        ("elastic pulls", Align::Right),
        ("on the body", Align::Right),
        ("stands off", Align::Right),
    ]);
    for e in &report.edges {
        table.row(vec![
            format!("{}, {}", e.edge, e.piece),
            format!("{:.0} %", e.stretch_percent),
            format!("{:.1} N", e.elastic_n),
            format!("{:.0} N/m", e.line_load_n_per_m),
            format!("{:.0} mm", e.gape_mm),
        ]);
    }
    let mut out = table.to_text(2);
    if !report.elastic_weighed {
        out += &format!(
            "  the elastic is counted with {:.0} N at double length: weigh it for a better answer\n",
            report.elastic_n
        );
    }
    out
}

fn found(report: &WornReport, console: &Console<'_>) -> String {
    let mut out = String::new();
    for found in &report.found {
        let finding = &found.finding;
        let word = console.severity(finding.severity);
        let pad = " ".repeat(6 - finding.severity.word().len());
        let mut line = format!("{}: {}", finding.place, finding.message);
        if let Some(limit) = &finding.limit {
            line += &format!(" (limit {}; {})", limit.text, limit.source);
        }
        out += &format!("  {word}{pad}{}\n", wrap(&line, COLUMNS, 8));
        if !finding.remedy.is_empty() {
            out += &format!("        -> {}\n", wrap(&finding.remedy, COLUMNS, 11));
        }
        let changes: Vec<String> = found
            .changes
            .iter()
            .map(|c| format!("{} = {}", c.key, c.to))
            .collect();
        if !changes.is_empty() {
            out += &format!("        try {}\n", wrap(&changes.join(", "), COLUMNS, 12));
        }
    }
    out
}
