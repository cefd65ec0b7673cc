//! `slackwater lay`: pieces of one or several suits on their cloths: how long, how to chalk it, what to buy, what is left.
//!
//! Every cloth is a lay of its own. Suits cut from a cloth of the same name and layer share it. Nothing is written unless a folder is
//! given, and nothing at all when a piece does not fit.

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use cloth::Layer;
use lay::{
    Answer, Direction, Effort, Fold, LayError, SaleStep, changes, lay as lay_pieces, row_by_row, try_changes,
};
use rayon::{ThreadPool, ThreadPoolBuilder};
use serde::Serialize;
use sheet::lay_plan;
use units::{LengthUnit, Silent, parse_length};

use super::console::Console;
use super::folder::{Disk, Sheet, write_folder};
use super::lay_clock::{Timed, processor_seconds};
use super::table::wrap;
use super::{Outcome, Trouble, read_suit};
use crate::laying::{Laid, LaySettings, LayTask, ReportedLay, apart, lay_tasks, with_best_depth};
use crate::order::work_out;
use crate::suit_file::{FaultKind, Faults, SuitFile};

#[derive(Debug, Args)]
pub(super) struct LayArgs {
    /// The suit files; pieces of all of them are laid together, each cloth by itself.
    #[arg(required = true)]
    files: Vec<PathBuf>,
    /// Only these layers; all that are there when left out.
    #[arg(long, value_enum, value_delimiter = ',')]
    layer: Vec<LayerArg>,
    /// A cloth in stock as WIDTHxLENGTH in cm or with units (150x120, 60inx1.2m); repeat it to hear which of them is enough.
    #[arg(long, value_parser = stock)]
    cloth: Vec<Stock>,
    /// Ask which cloths in stock can make the suit: workroom files with their stock and remnants, files with the cloths' tests; repeat it.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["cloth", "output"])]
    stock: Vec<PathBuf>,
    /// Lay suits together even if their swatches bear different names: the first one's cloth serves all.
    #[arg(long)]
    one_cloth: bool,
    /// Width of cloths whose swatch has none.
    #[arg(long, default_value = "150cm", value_parser = length)]
    width: f64,
    /// Which way tops may point; one-way when the swatch says so or nothing is said.
    #[arg(long, value_enum)]
    direction: Option<DirectionArg>,
    /// Fold: `none`, `half`, the depth of a partial fold (40cm), or `partial` for the best of several depths.
    #[arg(long, default_value = "none", value_parser = fold)]
    fold: FoldWish,
    /// Least distance between pieces.
    #[arg(long, default_value = "3mm", value_parser = length)]
    gap: f64,
    /// Kept free along each selvedge.
    #[arg(long, default_value = "10mm", value_parser = length)]
    margin: f64,
    /// Kept free at each cut end.
    #[arg(long, default_value = "20mm", value_parser = length)]
    end: f64,
    /// Repeat of a print to match along the cloth, or along x across: 64mm, 64mmx48mm.
    #[arg(long, value_parser = repeat)]
    repeat: Option<(f64, Option<f64>)>,
    /// Degrees by which the grain may be off.
    #[arg(long, default_value_t = 0.0, value_parser = degrees)]
    tilt: f64,
    /// A flaw to keep clear of: along,across,length,width from the cut end and the selvedge (30,12,4,5 in cm).
    #[arg(long, value_parser = flaw)]
    flaw: Vec<[f64; 4]>,
    /// Let a one-way print lie on its side where a piece must be turned for its stretch.
    #[arg(long)]
    print_on_its_side: bool,
    /// What the shop cuts by.
    #[arg(long, value_enum, default_value = "tenth")]
    step: StepArg,
    /// Add no cloth for test strips: the swatch is in hand.
    #[arg(long)]
    tested: bool,
    /// Seconds to search, shared by the cloths.
    #[arg(long, default_value_t = 20.0, value_parser = seconds)]
    seconds: f64,
    /// So many passes of fixed work instead of seconds: the same lay on any machine.
    #[arg(long)]
    passes: Option<u64>,
    /// Seed of the search.
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// Threads; all cores when left out.
    #[arg(long, default_value_t = 0, value_parser = clap::value_parser!(u16).range(0..=256))]
    threads: u16,
    /// The folder to write the plans to (SVG and PDF); only told, nothing written, when left out.
    #[arg(short, long)]
    output: Option<PathBuf>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum LayerArg {
    Shell,
    Lining,
    Mesh,
    Contrast,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum DirectionArg {
    /// Either way.
    Free,
    /// All the same way.
    OneWay,
    /// All pieces of a suit the same way.
    PerGarment,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum StepArg {
    /// A tenth of a metre.
    Tenth,
    /// An eighth of a yard.
    Eighth,
}

/// A cloth in stock, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Stock {
    width: f64,
    length: f64,
}

fn length(text: &str) -> Result<f64, String> {
    // Metres are said of cloth, never of bodies.
    let text = text.trim();
    let metres = text.strip_suffix('m').filter(|t| !t.ends_with(['m', 'c']));
    if let Some(metres) = metres.and_then(|t| t.trim().parse::<f64>().ok()) {
        return Some(metres * 1000.0)
            .filter(|mm| mm.is_finite() && *mm >= 0.0)
            .ok_or_else(|| "write a length of 0 or more".to_owned());
    }
    parse_length(text, LengthUnit::Cm)
        .map(|mm| mm.get())
        .ok()
        .filter(|mm| *mm >= 0.0)
        .ok_or_else(|| "write a length: 1.2m, 120cm, 1200mm or 47in".to_owned())
}

fn two_lengths(text: &str) -> Result<(f64, f64), String> {
    let (a, b) = text
        .split_once(['x', 'X'])
        .ok_or_else(|| "write two lengths with an x between: 150x120".to_owned())?;
    Ok((length(a)?, length(b)?))
}

fn stock(text: &str) -> Result<Stock, String> {
    let (width, length) = two_lengths(text)?;
    Ok(Stock { width, length })
}

fn repeat(text: &str) -> Result<(f64, Option<f64>), String> {
    if text.contains(['x', 'X']) {
        two_lengths(text).map(|(a, b)| (a, Some(b)))
    } else {
        length(text).map(|a| (a, None))
    }
}

/// How the cloth is to be folded.
#[derive(Clone, Copy, Debug, PartialEq)]
struct FoldWish {
    fold: Fold,
    /// The depth of a partial fold is to be found.
    finds_depth: bool,
}

fn fold(text: &str) -> Result<FoldWish, String> {
    let (fold, finds_depth) = match text {
        "none" => (Fold::Single, false),
        "half" => (Fold::Half, false),
        "partial" => (Fold::Partial { depth_mm: 1.0 }, true),
        depth => {
            let depth_mm = length(depth)
                .map_err(|_| "write none, half, partial, or the depth of the fold: 40cm".to_owned())?;
            (Fold::Partial { depth_mm }, false)
        }
    };
    Ok(FoldWish { fold, finds_depth })
}

fn degrees(text: &str) -> Result<f64, String> {
    text.parse::<f64>()
        .ok()
        .filter(|d| (0.0..=3.0).contains(d))
        .ok_or_else(|| "write 0 to 3 degrees; more spoils the hang".to_owned())
}

/// A time to search.
pub(super) fn seconds(text: &str) -> Result<f64, String> {
    text.parse::<f64>()
        .ok()
        .filter(|s| (0.1..=86_400.0).contains(s))
        .ok_or_else(|| "write 0.1 to 86400 seconds".to_owned())
}

fn flaw(text: &str) -> Result<[f64; 4], String> {
    let parts: Vec<f64> = text
        .split(',')
        .map(length)
        .collect::<Result<_, _>>()
        .map_err(|e| format!("{e}; four of them with commas between: along,across,length,width"))?;
    parts
        .try_into()
        .map_err(|_| "write four lengths with commas between: along,across,length,width".to_owned())
}

/// A pool of so many threads; 0 for all cores.
pub(super) fn pool(threads: u16) -> Result<ThreadPool, Faults> {
    ThreadPoolBuilder::new()
        .num_threads(usize::from(threads))
        .build()
        .map_err(|e| {
            Faults::whole(
                "--threads",
                FaultKind::Refused,
                format!("the threads did not start: {e}"),
                "use fewer",
            )
        })
}

/// What came of it, for scripts.
#[derive(Debug, Serialize)]
struct Told {
    #[serde(flatten)]
    reported: ReportedLay,
    /// Beside a lay in plain rows, as it is made by hand.
    row_by_row_mm: Option<f64>,
    saved_percent: Option<f64>,
    /// Which change would make it fit, when it does not.
    changes: Vec<Answer>,
    written: Vec<String>,
}

#[derive(Debug, Serialize)]
struct AllTold<'a> {
    lays: &'a [Told],
    seed: u64,
    threads: usize,
    cpu_seconds: Option<f64>,
}

pub(super) fn run(args: &LayArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    if !args.stock.is_empty() {
        let [path] = args.files.as_slice() else {
            return Err(Trouble::from(Faults::whole(
                "--stock",
                FaultKind::Refused,
                "which cloths can make it is asked of one suit".to_owned(),
                "name one suit file",
            )));
        };
        let suit = read_suit(path)?;
        let order = work_out(&suit)?;
        return super::lay_stock::run(&suit, order, &args.stock, &settings(args), args.threads, console);
    }
    let tasks = tasks(args)?;
    let pool = pool(args.threads)?;
    let threads = pool.current_num_threads();
    let (mut told, mut sheets) = (Vec::new(), Vec::new());
    for task in &tasks {
        let effort = Effort {
            seed: args.seed,
            workers: threads,
            passes: args.passes,
        };
        let timed = Timed::new(
            args.seconds / tasks.len() as f64,
            args.passes.is_some(),
            console.manner.progress,
        );
        let lay = pool
            .install(|| lay_pieces(&task.request, &effort, None, &timed, &mut |_| {}))
            .map_err(|errors| refused(&task.title, &errors))?;
        let laid = Laid::of(task.clone(), lay);
        let answers = if laid.lay.fits {
            Vec::new()
        } else {
            timed.says("which change would do");
            let short = Effort {
                passes: Some(CHANGE_PASSES),
                ..effort
            };
            pool.install(|| try_changes(&changes(&task.request), &short, &Silent))
        };
        drop(timed);
        let mut written = Vec::new();
        if args.output.is_some() {
            let plan = laid.plan();
            let plan_fault = |e: lay_plan::LayPlanRefusal| {
                Faults::whole(&task.title, FaultKind::Refused, e.to_string(), "")
            };
            let svg = lay_plan::svg(&plan).map_err(plan_fault)?;
            let pdf = lay_plan::pdf(&plan).map_err(plan_fault)?;
            for (end, bytes) in [("svg", svg.into_bytes()), ("pdf", pdf.bytes)] {
                let name = laid.file(end);
                written.push(name.clone());
                sheets.push(Sheet { name, bytes });
            }
        }
        let by_rows = row_by_row(&task.request).ok().map(|rows| rows.cloth_mm);
        let cloth_mm = laid.lay.cloth_mm;
        told.push(Told {
            reported: ReportedLay::of(&laid),
            row_by_row_mm: by_rows,
            saved_percent: by_rows.map(|rows| 100.0 * (1.0 - cloth_mm / rows)),
            changes: answers,
            written,
        });
    }
    if let Some(folder) = &args.output {
        write_folder(folder, &sheets, &Disk)?;
    }
    if console.manner.json {
        console.print_json(&AllTold {
            lays: &told,
            seed: args.seed,
            threads,
            cpu_seconds: processor_seconds(),
        })?;
    } else {
        let text: Vec<String> = told.iter().map(|t| text(t, console)).collect();
        console.print(&text.join("\n"))?;
        if let Some(folder) = &args.output {
            console.print(&format!("\nplans written to {}\n", folder.display()))?;
        }
    }
    // With several cloths in stock the question is whether any of them will do.
    let is_enough = if args.cloth.len() > 1 {
        told.iter().any(|t| t.reported.lay.fits)
    } else {
        told.iter().all(|t| t.reported.lay.fits)
    };
    Ok(if is_enough { Outcome::Done } else { Outcome::Stop })
}

/// Work spent on each change when a lay does not fit: a lay within about a hundredth of what the full time would find.
const CHANGE_PASSES: u64 = 60;

fn refused(title: &str, errors: &[LayError]) -> Faults {
    let mut list = Vec::new();
    for error in errors {
        list.extend(Faults::whole(title, FaultKind::Refused, error.to_string(), "").list);
    }
    Faults::new(title, "", list)
}

/// Reads every suit and sorts its pieces by layer and cloth; each cloth in stock is a lay of its own.
fn tasks(args: &LayArgs) -> Result<Vec<LayTask>, Faults> {
    let mut suits: Vec<(SuitFile, draft::Draft)> = Vec::new();
    for path in &args.files {
        let suit = read_suit(path)?;
        let order = work_out(&suit)?;
        suits.push((suit, order.draft));
    }
    let suits: Vec<(&SuitFile, &draft::Draft)> = suits.iter().map(|(s, d)| (s, d)).collect();
    let all = lay_tasks(&suits, &settings(args));
    if all.is_empty() {
        return Err(Faults::whole(
            "--layer",
            FaultKind::Refused,
            "no suit has a piece of this layer".to_owned(),
            "leave --layer out to lay every layer",
        ));
    }
    let settings = settings(args);
    let deep = |task: LayTask| {
        if settings.finds_depth {
            with_best_depth(task, &settings.flaws)
        } else {
            task
        }
    };
    if args.cloth.is_empty() {
        return Ok(all.into_iter().map(deep).collect());
    }
    let mut laid = Vec::new();
    for task in all {
        for (k, stock) in args.cloth.iter().enumerate() {
            let mut task = task.clone();
            task.request.cloth.width_mm = stock.width;
            task.request.cloth.length_mm = Some(stock.length);
            // Where the fold lies, and flaws with it, goes by this width.
            let cloth = &task.request.cloth;
            let flaws = settings
                .flaws
                .iter()
                .flat_map(|f| cloth.flaws_on_table(f))
                .collect();
            task.request.cloth.flaws = flaws;
            let mut task = deep(task);
            task.title = format!(
                "{} on {:.0} x {:.0} cm",
                task.title,
                stock.width / 10.0,
                stock.length / 10.0
            );
            if args.cloth.len() > 1 {
                task.file_stem = format!("{}-{}", task.file_stem, k + 1);
            }
            laid.push(task);
        }
    }
    apart(&mut laid);
    Ok(laid)
}

fn settings(args: &LayArgs) -> LaySettings {
    let rect = |[x, y, w, h]: [f64; 4]| {
        [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]
            .map(|(x, y)| kurbo::Point::new(x, y))
            .to_vec()
    };
    LaySettings {
        layers: args
            .layer
            .iter()
            .map(|l| match l {
                LayerArg::Shell => Layer::Shell,
                LayerArg::Lining => Layer::Lining,
                LayerArg::Mesh => Layer::Mesh,
                LayerArg::Contrast => Layer::Contrast,
            })
            .collect(),
        one_cloth: args.one_cloth,
        width_mm: args.width,
        direction: args.direction.map(|d| match d {
            DirectionArg::Free => Direction::Free,
            DirectionArg::PerGarment => Direction::PerGarment,
            DirectionArg::OneWay => Direction::OneWay,
        }),
        fold: args.fold.fold,
        finds_depth: args.fold.finds_depth,
        gap_mm: args.gap,
        selvedge_margin_mm: args.margin,
        end_allowance_mm: args.end,
        repeat_mm: args.repeat,
        tilt: args.tilt.to_radians(),
        flaws: args
            .flaw
            .iter()
            .map(|&f| lay::Flaw {
                outline: rect(f),
                grade: 0,
            })
            .collect(),
        print_on_its_side: args.print_on_its_side,
        step: match args.step {
            StepArg::Tenth => SaleStep::Tenth,
            StepArg::Eighth => SaleStep::EighthYard,
        },
        is_tested: args.tested,
    }
}

fn text(told: &Told, console: &Console<'_>) -> String {
    const COLUMNS: usize = 100;
    let reported = &told.reported;
    let lay = &reported.lay;
    let cm = |mm: f64| format!("{:.1} cm", mm / 10.0);
    let mut out = format!(
        "{}\n  {} pieces on {}, {} wide{}\n  {} of cloth, {:.1} % of its usable width used; at least {} ({:.1} % longer than possible at most)\n",
        console.heading(&reported.title),
        reported.pieces,
        reported.cloth,
        cm(reported.width_mm),
        match reported.fold {
            "half" => ", folded down the middle".to_owned(),
            "partial" => format!(", folded over by {}", cm(reported.fold_at_mm)),
            _ => String::new(),
        },
        cm(lay.cloth_mm),
        100.0 * lay.usage,
        cm(lay.bound.length_mm + lay.cloth_mm - lay.length_mm),
        100.0 * (lay.length_mm / lay.bound.length_mm - 1.0),
    );
    if let (Some(rows), Some(saved)) = (told.row_by_row_mm, told.saved_percent) {
        out += &format!("  laid in plain rows it takes {}: {saved:.0} % saved\n", cm(rows));
    }
    let parts: Vec<String> = reported
        .buying
        .parts
        .iter()
        .map(|p| format!("{} {}", p.why, cm(p.mm)))
        .collect();
    let price = reported
        .buying
        .price
        .map_or(String::new(), |p| format!(", for {p:.2}"));
    let buy = format!(
        "buy {} ({} x {}){price}: {}",
        cm(reported.buying.buy_mm),
        reported.buying.steps,
        reported.buying.step,
        parts.join(", ")
    );
    out += &format!("  {}\n", wrap(&buy, COLUMNS, 4));
    for r in &reported.remnants {
        out += &format!(
            "  left over: {} along x {} across\n",
            cm(r.length_mm),
            cm(r.width_mm)
        );
    }
    if lay.rejected > 0 {
        out += &format!(
            "  {} lays of the search failed the check and were not used: please report it with the suit file\n",
            lay.rejected
        );
    }
    if !lay.fits {
        out += "  this is not enough cloth\n";
        for answer in &told.changes {
            let says = match (&answer.refused, answer.fits, answer.cloth_mm) {
                (Some(why), _, _) => format!("no: {why}"),
                (None, true, _) => "yes".to_owned(),
                (None, false, Some(mm)) if answer.is_certain => {
                    format!("no, it would take at least {}", cm(mm))
                }
                (None, false, Some(mm)) => format!("no, it would take {}", cm(mm)),
                (None, false, None) => "no".to_owned(),
            };
            out += &format!("    {}\n", wrap(&format!("{}? {says}", answer.words), COLUMNS, 6));
        }
    } else if !told.changes.is_empty() {
        out += "  this is enough\n";
    }
    out
}
