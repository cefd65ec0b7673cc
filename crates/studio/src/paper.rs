//! A whole pack of paper for a suit: every file made in memory, none written.
//!
//! What does not fit a plotter's sheet is left out and said, because the tiles of the same suit still print; any other
//! refusal stops the whole pack, so that a maker never has half of one.
//!
//! **Shapes and units.** An [`Order`] in, named bytes out; same suit, same bytes.

use cloth::Layer;
use rayon::prelude::*;
use serde::Serialize;
use sheet::lay_plan::LayPlanRefusal;
use sheet::listing::Listing;
use sheet::{Fault, MeasuredSquare, Options, Paper, Pattern, PieceForm, Printed, Refusal, Roll, pdf};
use units::{Mm, Progress, Severity};

use crate::cli::folder::Sheet;
use crate::document::Worked;
use crate::laying::Lays;
use crate::order::Order;
use crate::report::report;
use crate::suit_file::{PaperChoice, SuitFile};

/// Which paper is wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PackChoice {
    /// Home-printer paper; `None` for both.
    pub paper: Option<PaperChoice>,
    /// Pieces as halves to lay on a fold.
    pub halves: bool,
    /// The printed 100 mm square as measured, across and down, mm.
    pub measured_square_mm: Option<[f64; 2]>,
    /// How wide an edge the printer leaves white.
    pub white_edge: Option<Mm>,
}

/// A file of the pack.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Made {
    /// Its name.
    pub file: String,
    /// What it is for.
    pub what: &'static str,
    /// Pages, for a document.
    pub pages: Option<usize>,
    /// Its size.
    pub bytes: usize,
    /// Characters no font here has; a box stands for each on paper.
    pub undrawn: String,
}

/// A file that could not be made for this suit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LeftOut {
    /// Its name.
    pub file: &'static str,
    /// Why.
    pub why: String,
}

/// Everything made.
#[derive(Clone, Debug, PartialEq)]
pub struct Pack {
    /// The files, to be written.
    pub sheets: Vec<Sheet>,
    /// What each is, in the same order.
    pub made: Vec<Made>,
    /// What was left out.
    pub left_out: Vec<LeftOut>,
}

/// One file to be made.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Job {
    TestPage(Paper),
    Tiles(Paper),
    Plotter(Roll),
    Projector,
    Svg,
    ExchangeDxf,
    CutterDxf,
    Json,
    Report,
    Lay(Layer),
}

impl Job {
    fn file(self) -> &'static str {
        match self {
            Job::TestPage(_) => TEST_PAGE,
            Job::Tiles(Paper::Letter) => "pattern-letter.pdf",
            Job::Tiles(_) => "pattern-a4.pdf",
            Job::Plotter(Roll::A0) => "pattern-a0.pdf",
            Job::Plotter(_) => "pattern-roll.pdf",
            Job::Projector => "pattern-projector.pdf",
            Job::Svg => "pattern.svg",
            Job::ExchangeDxf => "pattern-exchange.dxf",
            Job::CutterDxf => "pattern-cutter.dxf",
            Job::Json => "pattern.json",
            Job::Report => "report.json",
            Job::Lay(layer) => lay_file(layer),
        }
    }

    fn what(self) -> &'static str {
        match self {
            Job::TestPage(_) => "the page that proves the scale",
            Job::Tiles(Paper::Letter) => "tiles for Letter paper",
            Job::Tiles(_) => "tiles for A4 paper",
            Job::Plotter(Roll::A0) => "A0 sheets for a copy shop",
            Job::Plotter(_) => "a 36 in roll for a plotter",
            Job::Projector => "one sheet for a projector",
            Job::Svg => "drawing with layers",
            Job::ExchangeDxf => "exchange between pattern programs",
            Job::CutterDxf => "outlines for a cutter",
            Job::Json => "the pattern as data",
            Job::Report => "the judgement as data",
            Job::Lay(_) => "where each piece lies on the cloth, with chalk marks",
        }
    }
}

/// Name of the plan of a layer's lay.
pub const fn lay_file(layer: Layer) -> &'static str {
    match layer {
        Layer::Shell => "lay-shell.pdf",
        Layer::Lining => "lay-lining.pdf",
        Layer::Mesh => "lay-mesh.pdf",
        Layer::Contrast => "lay-contrast.pdf",
    }
}

/// Name of the page that is printed and measured first.
pub const TEST_PAGE: &str = "test-page.pdf";
/// Name of the suit file of a suit in the studio.
pub const SUIT_FILE: &str = "suit.toml";

/// The roll a plotter is loaded with: the middle one of the three in the trade.
const ROLL: Roll = Roll::Inch36;

/// Makes the whole pack.
///
/// # Errors
/// A [`Refusal`] of the paper; what is too large for a plotter's sheet is left out instead.
pub fn make_pack(
    suit: &SuitFile,
    order: &Order,
    lays: &Lays,
    choice: &PackChoice,
    progress: &(dyn Progress + Sync),
) -> Result<Pack, Refusal> {
    made_of(&jobs(choice, lays), suit, order, lays, choice, progress)
}

/// Makes only what is printed: tiles, plotter sheets, projection.
///
/// # Errors
/// As [`make_pack`].
pub fn make_prints(
    suit: &SuitFile,
    order: &Order,
    choice: &PackChoice,
    progress: &(dyn Progress + Sync),
) -> Result<Pack, Refusal> {
    // A print is of pieces; where they lie on a cloth is no print of theirs.
    let lays = &Lays::default();
    let mut prints = jobs(choice, lays);
    prints.retain(|job| job.file().ends_with(".pdf"));
    made_of(&prints, suit, order, lays, choice, progress)
}

fn made_of(
    jobs: &[Job],
    suit: &SuitFile,
    order: &Order,
    lays: &Lays,
    choice: &PackChoice,
    progress: &(dyn Progress + Sync),
) -> Result<Pack, Refusal> {
    let notes = notes(order);
    let pattern = pattern(suit, order, &notes);
    let total = jobs.len() as u64;
    let done = std::sync::atomic::AtomicU64::new(0);
    let results: Vec<(Job, Result<Printed, Refusal>)> = jobs
        .par_iter()
        .map(|job| {
            let result = run(*job, suit, order, lays, &pattern, choice);
            let count = done.fetch_add(1, std::sync::atomic::Ordering::Relaxed) + 1;
            progress.at(count, total, job.file());
            (*job, result)
        })
        .collect();
    let mut pack = Pack {
        sheets: Vec::new(),
        made: Vec::new(),
        left_out: Vec::new(),
    };
    for (job, result) in results {
        match result {
            Ok(printed) => {
                pack.made.push(Made {
                    file: job.file().to_owned(),
                    what: job.what(),
                    pages: job.file().ends_with(".pdf").then_some(printed.pages),
                    bytes: printed.bytes.len(),
                    undrawn: printed.undrawn.iter().collect(),
                });
                pack.sheets.push(Sheet {
                    name: job.file().to_owned(),
                    bytes: printed.bytes,
                });
            }
            Err(refusal) if is_size_only(&refusal) => {
                pack.left_out.push(LeftOut {
                    file: job.file(),
                    why: refusal.to_string(),
                });
            }
            Err(refusal) => return Err(refusal),
        }
    }
    pack.left_out.extend(lays.not_laid.iter().map(|n| LeftOut {
        file: lay_file(n.task.layer),
        why: n.why(),
    }));
    Ok(pack)
}

/// The pattern as the sheet crate takes it. `notes` outlive it.
pub fn pattern<'a>(suit: &'a SuitFile, order: &'a Order, notes: &'a [String]) -> Pattern<'a> {
    Pattern {
        suit: &suit.name,
        wearer: &suit.wearer.name,
        version: &order.version,
        draft: &order.draft,
        cloth: &order.cloth,
        elastic: &order.elastic,
        cut_list: &order.cut_list,
        fit_key: suit.design.fit.key(),
        notes,
        first_unit: suit.units,
    }
}

/// What must be read on paper: what to look at before cutting, then the cautions.
pub fn notes(order: &Order) -> Vec<String> {
    let findings = order
        .findings
        .iter()
        .filter(|f| f.severity > Severity::Good)
        .map(|f| {
            let remedy = if f.remedy.is_empty() {
                String::new()
            } else {
                format!(": {}", f.remedy)
            };
            format!("{}, {}: {}{remedy}", f.severity.word(), f.place, f.message)
        });
    // The sheet prints the caution about rubber itself, beside the elastic it is about.
    let cautions = order.cautions.iter().filter(|c| c.id != "latex");
    findings
        .chain(cautions.map(|c| format!("{}: {}", c.topic, c.say)))
        .collect()
}

fn jobs(choice: &PackChoice, lays: &Lays) -> Vec<Job> {
    let tiles: &[Paper] = match choice.paper {
        None => &[Paper::A4, Paper::Letter],
        Some(PaperChoice::A4) => &[Paper::A4],
        Some(PaperChoice::Letter) => &[Paper::Letter],
    };
    let rest = [
        Job::Plotter(Roll::A0),
        Job::Plotter(ROLL),
        Job::Projector,
        Job::Svg,
        Job::ExchangeDxf,
        Job::CutterDxf,
        Job::Json,
        Job::Report,
    ];
    let plans = lays.laid.iter().map(|l| Job::Lay(l.task.layer));
    tiles
        .iter()
        .map(|p| Job::Tiles(*p))
        .chain(rest)
        .chain(plans)
        .collect()
}

fn run(
    job: Job,
    suit: &SuitFile,
    order: &Order,
    lays: &Lays,
    pattern: &Pattern<'_>,
    choice: &PackChoice,
) -> Result<Printed, Refusal> {
    let form = if choice.halves {
        PieceForm::Half
    } else {
        PieceForm::Whole
    };
    let printer = choice.measured_square_mm.map(|[across, down]| MeasuredSquare {
        across: Mm::new(across),
        down: Mm::new(down),
    });
    let home = Options {
        form,
        printer,
        white_edge: choice.white_edge,
    };
    // A plotter or a projector has its own errors, which the home printer's square says nothing of.
    let true_scale = Options {
        form,
        ..Options::default()
    };
    let plain = |bytes: Vec<u8>| Printed {
        bytes,
        pages: 0,
        tiles: None,
        undrawn: Vec::new(),
    };
    match job {
        Job::TestPage(paper) => pdf::test_page(pattern, paper, &home),
        Job::Tiles(paper) => pdf::tiled(pattern, paper, &home),
        Job::Plotter(roll) => pdf::single(pattern, roll, &true_scale),
        Job::Projector => pdf::projector(pattern, form),
        Job::Report => Ok(plain(
            crate::cli::console::to_json(&report(suit, order, lays)).into_bytes(),
        )),
        Job::Svg => sheet::svg::pattern(pattern, form).map(|t| plain(t.into_bytes())),
        Job::ExchangeDxf => sheet::dxf::exchange(pattern, form).map(plain),
        Job::CutterDxf => sheet::dxf::cutter(pattern, form).map(plain),
        Job::Json => sheet::json::pattern(pattern, form).map(|t| plain(t.into_bytes())),
        Job::Lay(layer) => match lays.of(layer) {
            Some(laid) => sheet::lay_plan::pdf(&laid.plan()).map_err(|e| writer_fault(&e)),
            None => Err(writer_fault(&LayPlanRefusal::Empty)),
        },
    }
}

/// A lay that was made has something to draw: what is refused here is the writer's.
fn writer_fault(refusal: &LayPlanRefusal) -> Refusal {
    Refusal {
        faults: vec![Fault::Writer(refusal.to_string())],
    }
}

/// One file of a suit of the studio.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TakeAway {
    /// The file.
    pub bytes: Vec<u8>,
    /// Its media type.
    pub mime: &'static str,
}

/// Why a file of a suit can't be made.
#[derive(Clone, Debug, PartialEq)]
pub enum NotMade {
    /// The suit is not whole: what is missing or wrong.
    Faults(Vec<crate::suit_file::Fault>),
    /// The paper refuses it.
    Refused(Refusal),
    /// A list could not be written: a fault of this program.
    Listing(sheet::listing::ListingFault),
    /// The cloth can't be laid.
    NotLaid(String),
}

impl std::fmt::Display for NotMade {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            NotMade::Faults(faults) => match faults.first() {
                Some(first) => write!(
                    f,
                    "the suit can't be drafted yet: {}; {}",
                    first.message, first.help
                ),
                None => write!(f, "the suit can't be drafted yet"),
            },
            NotMade::Refused(refusal) => write!(f, "{refusal}"),
            NotMade::Listing(fault) => write!(f, "{fault}"),
            NotMade::NotLaid(why) => write!(f, "{why}"),
        }
    }
}

impl std::error::Error for NotMade {}

/// What the papers of a suit say of its printing: the paper in force, halves, the measured square.
pub fn choice_of(worked: &Worked) -> PackChoice {
    let printer = worked.parts.as_ref().map(|p| p.printer).unwrap_or_default();
    PackChoice {
        paper: printer.paper,
        halves: worked
            .suit
            .body
            .get("halves")
            .is_some_and(|h| h.as_bool() == Some(true) || h.as_str() == Some("true")),
        measured_square_mm: printer.measured_square_mm,
        white_edge: printer.white_edge,
    }
}

/// The paper in force: the one she chose, or the usual one where inches are used and where they are not.
pub fn paper_of(worked: &Worked) -> PaperChoice {
    let usual = match worked.unit() {
        units::LengthUnit::In => PaperChoice::Letter,
        units::LengthUnit::Cm | units::LengthUnit::Mm => PaperChoice::A4,
    };
    choice_of(worked).paper.unwrap_or(usual)
}

/// Makes one file of a suit by its name; `None` for a name no file has.
///
/// The suit file can be had of any suit; everything else needs one that can be drafted.
///
/// # Errors
/// [`NotMade`].
pub fn file(worked: &Worked, name: &str) -> Result<Option<TakeAway>, NotMade> {
    if name == SUIT_FILE {
        return Ok(Some(TakeAway {
            bytes: worked.text.clone().into_bytes(),
            mime: "application/toml",
        }));
    }
    let mut choice = choice_of(worked);
    let paper = match paper_of(worked) {
        PaperChoice::A4 => Paper::A4,
        PaperChoice::Letter => Paper::Letter,
    };
    if let Some(list) = list_of(worked, name) {
        let printed = sheet::listing::pdf(&list?, paper).map_err(NotMade::Listing)?;
        return Ok(Some(TakeAway {
            bytes: printed.bytes,
            mime: mime(name),
        }));
    }
    // Either paper's tiles can be had, whichever is in the printer.
    choice.paper = None;
    let plans = [Layer::Shell, Layer::Lining, Layer::Mesh, Layer::Contrast].map(Job::Lay);
    let all = std::iter::once(Job::TestPage(paper))
        .chain(jobs(&choice, &Lays::default()))
        .chain(plans);
    let Some(job) = all.into_iter().find(|job| job.file() == name) else {
        return Ok(None);
    };
    let (Some(suit), Some(order)) = (&worked.file, &worked.order) else {
        return Err(NotMade::Faults(worked.faults.clone()));
    };
    let lays = match job {
        Job::Lay(_) | Job::Report => worked.lays_in_force(),
        _ => Lays::default(),
    };
    if let Job::Lay(layer) = job
        && lays.of(layer).is_none()
    {
        return match lays.not_laid.iter().find(|n| n.task.layer == layer) {
            Some(not_laid) => Err(NotMade::NotLaid(not_laid.why())),
            None => Ok(None),
        };
    }
    let notes = notes(order);
    let pattern = pattern(suit, order, &notes);
    let printed = run(job, suit, order, &lays, &pattern, &choice).map_err(NotMade::Refused)?;
    Ok(Some(TakeAway {
        bytes: printed.bytes,
        mime: mime(name),
    }))
}

/// The shopping list under its name.
pub const SHOPPING_LIST: &str = "shopping-list.pdf";
/// The quote under its name.
pub const QUOTE: &str = "quote.pdf";

/// The printed list of that name; none for any other file.
fn list_of(worked: &Worked, name: &str) -> Option<Result<Listing, NotMade>> {
    if name != SHOPPING_LIST && name != QUOTE {
        return None;
    }
    if worked.plan().is_none() {
        return Some(Err(NotMade::Faults(worked.faults.clone())));
    }
    let view = crate::view::shopping_view(worked);
    let running = vec![view.suit, view.wearer, version_words(&view.version)];
    if name == SHOPPING_LIST {
        return Some(Ok(crate::view::shopping_list(&view.list, running)));
    }
    // Without the price of an hour there is no quote: no such file.
    crate::view::quote_list(&view.list, running).map(Ok)
}

/// `version ab12cd`; nothing of nothing.
pub(crate) fn version_words(version: &str) -> String {
    if version.is_empty() {
        String::new()
    } else {
        format!("version {version}")
    }
}

/// Media type by the end of a name.
fn mime(name: &str) -> &'static str {
    match name.rsplit('.').next() {
        Some("pdf") => "application/pdf",
        Some("svg") => "image/svg+xml",
        Some("dxf") => "image/vnd.dxf",
        Some("json") => "application/json",
        _ => "application/octet-stream",
    }
}

fn is_size_only(refusal: &Refusal) -> bool {
    refusal
        .faults
        .iter()
        .all(|f| matches!(f, Fault::PieceTooLarge { .. } | Fault::PageTooLong { .. }))
}
