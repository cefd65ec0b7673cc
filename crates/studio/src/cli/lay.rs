//! `slackwater lay`: pieces of one or several suits on their cloths: how long, how to chalk it, what to buy, what is left.
//!
//! Every cloth is a lay of its own. Suits cut from a cloth of the same name and layer share it. Nothing is written unless a folder is
//! given, and nothing at all when a piece does not fit.

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use cloth::Layer;
use lay::{
    Answer, BuyRules, Buying, Direction, Effort, Fold, Lay, LayCloth, LayError, LayRequest, Remnant,
    SaleStep, buying, changes, cutting_order, lay as lay_pieces, pieces_of, remnants, row_by_row,
    try_changes,
};
use rayon::{ThreadPool, ThreadPoolBuilder};
use serde::Serialize;
use sheet::lay_plan::{self, LayPlan};
use units::{LengthUnit, Silent, parse_length};

use super::console::Console;
use super::folder::{Disk, Sheet, write_folder};
use super::lay_clock::{Timed, processor_seconds};
use super::table::wrap;
use super::{Outcome, Trouble, read_suit};
use crate::order::work_out;
use crate::suit_file::{ClothEntry, FaultKind, Faults, SuitFile};

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
    /// Lay suits together even if their swatches bear different names: the first one's cloth serves all.
    #[arg(long)]
    one_cloth: bool,
    /// Width of cloths whose swatch has none.
    #[arg(long, default_value = "150cm", value_parser = length)]
    width: f64,
    /// Which way tops may point; one-way when the swatch says so or nothing is said.
    #[arg(long, value_enum)]
    direction: Option<DirectionArg>,
    /// Fold: `none`, `half`, or the depth of a partial fold (40cm).
    #[arg(long, default_value = "none", value_parser = fold)]
    fold: Fold,
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

fn fold(text: &str) -> Result<Fold, String> {
    match text {
        "none" => Ok(Fold::Single),
        "half" => Ok(Fold::Half),
        depth => length(depth)
            .map(|depth_mm| Fold::Partial { depth_mm })
            .map_err(|_| "write none, half, or the depth of the fold: 40cm".to_owned()),
    }
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

/// A lay to be made, and how its cloth is bought.
struct Task {
    title: String,
    file_stem: String,
    layer: Layer,
    request: LayRequest,
    rules: BuyRules,
}

/// What came of it, for scripts.
#[derive(Debug, Serialize)]
struct Told {
    title: String,
    layer: &'static str,
    cloth: String,
    width_mm: f64,
    gap_mm: f64,
    selvedge_margin_mm: f64,
    end_allowance_mm: f64,
    direction: &'static str,
    pieces: usize,
    /// In the order of cutting, as they lie.
    on_table: Vec<OnTable>,
    lay: Lay,
    /// Beside a lay in plain rows, as it is made by hand.
    row_by_row_mm: Option<f64>,
    saved_percent: Option<f64>,
    buying: Buying,
    remnants: Vec<Remnant>,
    /// Which change would make it fit, when it does not.
    changes: Vec<Answer>,
    written: Vec<String>,
}

/// A piece on the cloth; x along from the cut end, y across from the selvedge, mm.
#[derive(Debug, Serialize)]
struct OnTable {
    key: String,
    name: String,
    letter: char,
    garment: String,
    copy: u32,
    is_reflected: bool,
    is_half: bool,
    layers: u32,
    turned_degrees: f64,
    /// Both ends of the grain arrow: the two chalk marks.
    chalk: [[f64; 2]; 2],
    outline: Vec<[f64; 2]>,
}

fn on_table(request: &LayRequest, lay: &Lay) -> Vec<OnTable> {
    let pair = |p: kurbo::Point| [p.x, p.y];
    cutting_order(request, lay)
        .into_iter()
        .filter_map(|i| {
            let placed = lay.placed.get(i)?;
            let piece = request.pieces.get(placed.piece)?;
            let table = placed.table_from_piece();
            Some(OnTable {
                key: piece.key.clone(),
                name: piece.name.clone(),
                letter: piece.letter,
                garment: request.garments.get(piece.garment).cloned().unwrap_or_default(),
                copy: placed.copy,
                is_reflected: placed.is_reflected,
                is_half: placed.is_half,
                layers: placed.layers,
                turned_degrees: placed.angle.to_degrees(),
                chalk: [pair(table * piece.grain.0), pair(table * piece.grain.1)],
                outline: placed.outline(piece).into_iter().map(pair).collect(),
            })
        })
        .collect()
}

#[derive(Debug, Serialize)]
struct AllTold<'a> {
    lays: &'a [Told],
    seed: u64,
    threads: usize,
    cpu_seconds: Option<f64>,
}

pub(super) fn run(args: &LayArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
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
        let buying = buying(&task.request, &lay, &task.rules);
        let there_is = task.request.cloth.length_mm.unwrap_or(buying.buy_mm);
        let remnants = remnants(&task.request, &lay, there_is);
        let answers = if lay.fits {
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
            let plan = LayPlan {
                title: &task.title,
                request: &task.request,
                lay: &lay,
                buying: Some(&buying),
                remnants: &remnants,
            };
            let plan_fault = |e: lay_plan::LayPlanRefusal| {
                Faults::whole(&task.title, FaultKind::Refused, e.to_string(), "")
            };
            let svg = lay_plan::svg(&plan).map_err(plan_fault)?;
            let pdf = lay_plan::pdf(&plan).map_err(plan_fault)?;
            for (end, bytes) in [("svg", svg.into_bytes()), ("pdf", pdf.bytes)] {
                let name = format!("lay-{}.{end}", task.file_stem);
                written.push(name.clone());
                sheets.push(Sheet { name, bytes });
            }
        }
        let by_rows = row_by_row(&task.request).ok().map(|rows| rows.cloth_mm);
        told.push(Told {
            title: task.title.clone(),
            layer: task.layer.name(),
            cloth: task.request.cloth.name.clone(),
            width_mm: task.request.cloth.width_mm,
            gap_mm: task.request.cloth.gap_mm,
            selvedge_margin_mm: task.request.cloth.selvedge_margin_mm,
            end_allowance_mm: task.request.cloth.end_allowance_mm,
            direction: task.request.cloth.direction.name(),
            on_table: on_table(&task.request, &lay),
            pieces: lay.placed.len(),
            row_by_row_mm: by_rows,
            saved_percent: by_rows.map(|rows| 100.0 * (1.0 - lay.cloth_mm / rows)),
            lay,
            buying,
            remnants,
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
        told.iter().any(|t| t.lay.fits)
    } else {
        told.iter().all(|t| t.lay.fits)
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

/// Reads every suit and sorts its pieces by layer and cloth.
fn tasks(args: &LayArgs) -> Result<Vec<Task>, Faults> {
    let wanted = |layer: Layer| {
        args.layer.is_empty()
            || args.layer.iter().any(|l| {
                layer
                    == match l {
                        LayerArg::Shell => Layer::Shell,
                        LayerArg::Lining => Layer::Lining,
                        LayerArg::Mesh => Layer::Mesh,
                        LayerArg::Contrast => Layer::Contrast,
                    }
            })
    };
    let mut all: Vec<Task> = Vec::new();
    for path in &args.files {
        let suit = read_suit(path)?;
        let order = work_out(&suit)?;
        for layer in [Layer::Shell, Layer::Lining, Layer::Mesh, Layer::Contrast] {
            let Some(entry) = entry_of(&suit, layer).filter(|_| wanted(layer)) else {
                continue;
            };
            let mut pieces = pieces_of(&order.draft, layer, 0, args.repeat.is_some());
            if pieces.is_empty() {
                continue;
            }
            let known = all.iter().position(|t| {
                t.layer == layer && (args.one_cloth || t.request.cloth.name == entry.record.name)
            });
            let task = match known {
                Some(known) => &mut all[known],
                None => {
                    all.push(Task {
                        title: String::new(),
                        file_stem: layer.name().to_owned(),
                        layer,
                        request: LayRequest {
                            garments: Vec::new(),
                            pieces: Vec::new(),
                            cloth: lay_cloth(args, entry),
                        },
                        rules: buy_rules(args, entry),
                    });
                    let last = all.len() - 1;
                    &mut all[last]
                }
            };
            for piece in &mut pieces {
                piece.garment = task.request.garments.len();
            }
            task.request.garments.push(suit.name.clone());
            task.request.pieces.extend(pieces);
        }
    }
    if all.is_empty() {
        return Err(Faults::whole(
            "--layer",
            FaultKind::Refused,
            "no suit has a piece of this layer".to_owned(),
            "leave --layer out to lay every layer",
        ));
    }
    let mut laid = Vec::new();
    for mut task in all {
        let whose = match &task.request.garments[..] {
            [one] => one.clone(),
            several => format!("{} suits", several.len()),
        };
        task.title = format!("{whose}: {}", task.layer.name());
        if args.cloth.is_empty() {
            laid.push(task);
            continue;
        }
        for (k, stock) in args.cloth.iter().enumerate() {
            let mut request = task.request.clone();
            request.cloth.width_mm = stock.width;
            request.cloth.length_mm = Some(stock.length);
            laid.push(Task {
                title: format!(
                    "{} on {:.0} x {:.0} cm",
                    task.title,
                    stock.width / 10.0,
                    stock.length / 10.0
                ),
                file_stem: if args.cloth.len() > 1 {
                    format!("{}-{}", task.file_stem, k + 1)
                } else {
                    task.file_stem.clone()
                },
                layer: task.layer,
                request,
                rules: task.rules,
            });
        }
    }
    // Two cloths of one layer must not write over each other.
    for i in 0..laid.len() {
        let same = laid[..i].iter().filter(|t| t.layer == laid[i].layer).count();
        if laid[..i].iter().any(|t| t.file_stem == laid[i].file_stem) {
            laid[i].file_stem = format!("{}-{}", laid[i].layer.name(), same + 1);
        }
    }
    Ok(laid)
}

fn entry_of(suit: &SuitFile, layer: Layer) -> Option<&ClothEntry> {
    match layer {
        Layer::Shell => Some(&suit.shell),
        Layer::Lining => suit.lining.as_ref(),
        Layer::Mesh => suit.mesh.as_ref(),
        Layer::Contrast => suit.contrast.as_ref(),
    }
}

fn lay_cloth(args: &LayArgs, entry: &ClothEntry) -> LayCloth {
    let record = &entry.record;
    let rect = |[x, y, w, h]: [f64; 4]| {
        [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]
            .map(|(x, y)| kurbo::Point::new(x, y))
            .to_vec()
    };
    LayCloth {
        selvedge_margin_mm: args.margin,
        end_allowance_mm: args.end,
        gap_mm: args.gap,
        direction: match args.direction {
            Some(DirectionArg::Free) => Direction::Free,
            Some(DirectionArg::PerGarment) => Direction::PerGarment,
            Some(DirectionArg::OneWay) | None => Direction::OneWay,
        },
        fold: args.fold,
        flaws: args
            .flaw
            .iter()
            .map(|&f| lay::Flaw {
                outline: rect(f),
                grade: 0,
            })
            .collect(),
        repeat_mm: (args.repeat.map(|r| r.0), args.repeat.and_then(|r| r.1)),
        tilt: args.tilt.to_radians(),
        has_one_way_print: record.is_one_way,
        print_on_its_side: args.print_on_its_side,
        ..LayCloth::of_width(&record.name, record.width_mm.unwrap_or(args.width))
    }
}

/// Shrinkage where no wash test was made (common practice).
const UNTESTED_SHRINKAGE: f64 = 0.05;

fn buy_rules(args: &LayArgs, entry: &ClothEntry) -> BuyRules {
    let record = &entry.record;
    let tested = record.shrinkage_along_percent / 100.0;
    BuyRules {
        step: match args.step {
            StepArg::Tenth => SaleStep::Tenth,
            StepArg::Eighth => SaleStep::EighthYard,
        },
        // Washed before cutting: what is bought is longer than what is laid on. Otherwise the draft has grown the pieces already.
        shrinks_along: record
            .is_washed
            .then_some(if tested > 0.0 { tested } else { UNTESTED_SHRINKAGE }),
        test_strip_mm: if args.tested { 0.0 } else { 200.0 },
        least_mm: 0.0,
        price_per_metre: record.price_per_metre,
    }
}

fn text(told: &Told, console: &Console<'_>) -> String {
    const COLUMNS: usize = 100;
    let lay = &told.lay;
    let cm = |mm: f64| format!("{:.1} cm", mm / 10.0);
    let mut out = format!(
        "{}\n  {} pieces on {}, {} wide\n  {} of cloth, {:.1} % of its usable width used; at least {} ({:.1} % longer than possible at most)\n",
        console.heading(&told.title),
        told.pieces,
        told.cloth,
        cm(told.width_mm),
        cm(lay.cloth_mm),
        100.0 * lay.usage,
        cm(lay.bound.length_mm + lay.cloth_mm - lay.length_mm),
        100.0 * (lay.length_mm / lay.bound.length_mm - 1.0),
    );
    if let (Some(rows), Some(saved)) = (told.row_by_row_mm, told.saved_percent) {
        out += &format!("  laid in plain rows it takes {}: {saved:.0} % saved\n", cm(rows));
    }
    let parts: Vec<String> = told
        .buying
        .parts
        .iter()
        .map(|p| format!("{} {}", p.why, cm(p.mm)))
        .collect();
    let price = told
        .buying
        .price
        .map_or(String::new(), |p| format!(", for {p:.2}"));
    let buy = format!(
        "buy {} ({} x {}){price}: {}",
        cm(told.buying.buy_mm),
        told.buying.steps,
        told.buying.step,
        parts.join(", ")
    );
    out += &format!("  {}\n", wrap(&buy, COLUMNS, 4));
    for r in &told.remnants {
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
