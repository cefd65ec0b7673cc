//! `slackwater fit`: the suit put on the wearer's form and solved, before any cloth is cut.
//!
//! A solve that does not come to its end is told with its reason, exit code 1, and no picture is drawn of it. Ctrl+C ends it at the
//! next step, with nothing written.

mod words;

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Instant;

use clap::{Args, ValueEnum};
use make::{Preset, WornStretch};
use serde::Serialize;
use units::{LengthUnit, Progress, Severity, parse_length};

use super::console::{Console, to_json};
use super::folder::{Disk, Sheet, write_file, write_folder};
use super::progress::Bar;
use super::room::RoomArgs;
use super::table::wrap;
use super::{Outcome, Trouble, read_suit};
use crate::order::{Order, work_out};
use crate::suit_file::{FaultKind, Faults, SuitFile};
use crate::workroom_file::Room;
use crate::worn::drawing::{Isolines, Side, draw, draw_isolines};
use crate::worn::{
    Correction, OnForm, Previewed, SCENE_RANGE_MM, Scene, SceneKind, Trier, WornChoice, WornReport,
    corrected_text, propose, put_on_in,
};
use words::{corrected_words, found, levels, text, tried_words};

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
    /// Try on what the worst findings propose, each by itself, and tell their numbers before and after; at a coarser mesh.
    #[arg(long = "try")]
    try_on: bool,
    #[command(flatten)]
    room: RoomArgs,
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
    let room = room_of(&args.room)?;
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
    let on = put_on_in(&suit, &order, &room, choice, &progress).map_err(|reason| {
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
    let tried = if args.try_on {
        tried(&suit, &order, &room, &on, choice, &progress).map_err(|reason| {
            refused(
                format!("nothing was tried on: {reason}; nothing was written"),
                "run it without --try",
            )
        })?
    } else {
        Vec::new()
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
            tried: &tried,
        })?;
    } else {
        let heading = console.heading(&suit.name);
        let mut text = text(&heading, report, console);
        if args.try_on {
            text += &format!("\n{}\n{}", console.heading("Tried on"), tried_words(&tried));
        }
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
    #[serde(skip_serializing_if = "<[Tried]>::is_empty")]
    tried: &'a [Tried],
}

/// What a finding proposed, tried on.
#[derive(Serialize)]
struct Tried {
    /// Code and place of the finding.
    code: &'static str,
    which: String,
    /// What came of it.
    #[serde(flatten)]
    previewed: Previewed,
}

/// So many proposals are tried on: each is a solve.
const MOST_TRIED: usize = 3;

/// Tries on what the worst findings propose, no proposal twice.
fn tried(
    suit: &SuitFile,
    order: &Order,
    room: &Room,
    on: &OnForm,
    choice: WornChoice,
    progress: &dyn Progress,
) -> Result<Vec<Tried>, String> {
    let mut tried: Vec<Tried> = Vec::new();
    let proposes = on
        .found
        .iter()
        .filter(|f| f.finding.severity > Severity::Good && !f.changes.is_empty());
    let mut trier = None;
    for found in proposes {
        if tried.len() == MOST_TRIED {
            break;
        }
        if tried.iter().any(|t| t.previewed.changes == found.changes) {
            continue;
        }
        if trier.is_none() {
            trier = Some(Trier::new(suit, order, room, choice, progress)?);
        }
        if let Some(trier) = &trier {
            tried.push(Tried {
                code: found.finding.code,
                which: found.which.clone(),
                previewed: trier.try_on(&found.changes, progress)?,
            });
        }
    }
    Ok(tried)
}

/// The workroom of the file that is named; a zigzag machine, assumed, without.
pub(super) fn room_of(args: &RoomArgs) -> Result<Room, Faults> {
    if args.is_named() {
        args.room(Preset::Zigzag)
    } else {
        Ok(Room::default())
    }
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
    /// The solved stretches for the making plan; nothing if it was not solved.
    pub(super) fn stretches(&self) -> Option<WornStretch> {
        match self {
            Worn::On(on) => on.stretches.clone(),
            Worn::Refused(_) => None,
        }
    }

    /// Why there is no answer, where there is none.
    pub(super) fn why_not(&self) -> String {
        match self {
            Worn::On(on) => on.report.convergence.stop.to_owned(),
            Worn::Refused(reason) => reason.clone(),
        }
    }

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
pub(super) fn solved(suit: &SuitFile, order: &Order, room: &Room, is_shown: bool) -> Result<Worn, Faults> {
    let progress = Stoppable::new(is_shown);
    let put = put_on_in(suit, order, room, WornChoice::default(), &progress);
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
        for what in Isolines::ALL {
            sheets.extend(Side::ALL.map(|side| Sheet {
                name: format!("fit-{}-{}.svg", side.key(), what.key()),
                bytes: draw_isolines(on, name, side, what).into_bytes(),
            }));
        }
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
