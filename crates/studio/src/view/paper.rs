//! Section 7, Paper: the page map, the test page, and everything that can be taken away.

use std::fmt::Write as _;

use serde::Serialize;
use ts_rs::TS;
use units::{LengthUnit, Mm, Severity};
use utoipa::ToSchema;

use super::not_yet::not_yet;
use super::{Choice, ChoiceOption, Field, Frame, Head, Note, Spot, State, plain, told};
use crate::document::Worked;
use crate::order::Order;
use crate::paper::{SUIT_FILE, TEST_PAGE, choice_of, lay_file, notes, paper_of, pattern};
use crate::suit_file::{PaperChoice, SQUARE_RANGE_MM, SuitFile};

/// The paper of a suit.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct PaperView {
    /// State, summary, notes.
    pub head: Head,
    /// Paper, whole pieces or halves.
    pub choices: Vec<Choice>,
    /// The printed square as measured, across and down; what the printer leaves white.
    pub fields: Vec<Field>,
    /// The page map of the chosen paper.
    pub map: Option<PageMap>,
    /// What can be taken away.
    pub files: Vec<FileView>,
}

/// Outlines over tiles.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct PageMap {
    /// Whole sheet, mm.
    pub frame: Frame,
    /// Every tile of the grid, printed or blank.
    pub tiles: Vec<TileView>,
    /// Outlines with letters.
    pub outlines: Vec<OutlineView>,
    /// Pages printed, blank ones left out.
    pub pages: u32,
    /// Blank tiles left out.
    pub blank: u32,
}

/// One tile.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct TileView {
    /// `A1`.
    pub code: String,
    /// Row letter.
    pub row: String,
    /// Column number.
    pub column: String,
    /// Its place.
    pub frame: Frame,
    /// Whether it is printed.
    pub is_printed: bool,
}

/// One outline on the map.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct OutlineView {
    /// Letter.
    pub letter: String,
    /// SVG path.
    pub path: String,
    /// Where the letter stands.
    pub at: Spot,
}

/// A file to take away.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct FileView {
    /// Name it is saved under.
    pub name: String,
    /// What it is, verb first or plain: `Pattern, A4`.
    pub label: String,
    /// One line.
    pub says: String,
    /// Where it is fetched.
    pub href: String,
    /// Whether it is the one to begin with.
    pub is_first: bool,
}

/// What the page map of these papers depends on, as a key: the version as printed, paper, halves, the printer. Laying
/// out the tiles is the slowest part of an order, so whoever shows it often keeps the map under this key.
pub fn page_map_key(worked: &Worked) -> Option<String> {
    let order = worked.order.as_ref()?;
    Some(format!(
        "{} {:?} {:?}",
        order.version,
        paper_of(worked),
        choice_of(worked)
    ))
}

/// The section of these papers; `known` is the page map under [`page_map_key`], if it was drawn before.
pub(super) fn view(worked: &Worked, known: Option<&PageMap>) -> PaperView {
    let paper = paper_of(worked);
    let mut notes = vec![square_note(worked)];
    notes.extend(edge_note(worked));
    let mut map = None;
    let mut summary = "No paper yet.".to_owned();
    match (&worked.file, &worked.order) {
        (Some(suit), Some(order)) => {
            notes.extend(stop_note(order));
            match known
                .cloned()
                .map_or_else(|| drawn_map(worked, suit, order, paper), Ok)
            {
                Ok(found) => {
                    summary = format!("{} pattern pages of {}, one test page.", found.pages, key(paper));
                    map = Some(found);
                }
                Err(refusal) => {
                    summary = "The pattern can't be printed.".to_owned();
                    notes.extend(
                        refusal
                            .faults
                            .iter()
                            .map(|fault| told::note(State::Stop, "", told::sentence(&fault.to_string()), "")),
                    );
                }
            }
        }
        _ => notes.push(not_yet(worked, "No paper yet")),
    }
    PaperView {
        head: Head::of(summary, notes),
        choices: choices(worked, paper),
        fields: vec![
            square_field(worked, "across", "Square, across the page"),
            square_field(worked, "down", "Square, down the page"),
            edge_field(worked),
        ],
        map,
        files: files(worked, paper),
    }
}

const fn key(paper: PaperChoice) -> &'static str {
    match paper {
        PaperChoice::A4 => "A4",
        PaperChoice::Letter => "Letter",
    }
}

/// The workroom's id; hers is one document of that name.
fn workroom(worked: &Worked) -> String {
    let own = worked.workroom.as_ref().map(|p| p.id.clone());
    own.unwrap_or_else(|| "workroom".to_owned())
}

fn choices(worked: &Worked, paper: PaperChoice) -> Vec<Choice> {
    let option = |value: &str, label: &str| ChoiceOption {
        value: value.to_owned(),
        label: label.to_owned(),
    };
    vec![
        Choice {
            document: workroom(worked),
            path: "paper".into(),
            label: "Paper".into(),
            says: "What lies in the printer.".into(),
            value: key(paper).into(),
            options: vec![option("A4", "A4"), option("Letter", "Letter")],
        },
        Choice {
            document: worked.suit.id.clone(),
            path: "halves".into(),
            label: "Pieces".into(),
            says: "Stretch cloth shifts on a fold: whole pieces lie truer.".into(),
            value: choice_of(worked).halves.to_string(),
            options: vec![option("false", "Whole"), option("true", "Halves, on the fold")],
        },
    ]
}

fn square_field(worked: &Worked, way: &str, label: &str) -> Field {
    let path = format!("square.{way}");
    let typed = worked
        .workroom
        .as_ref()
        .and_then(|p| told::text_at(&p.body, &path));
    let (low, high) = SQUARE_RANGE_MM;
    let mm = typed
        .as_deref()
        .and_then(|t| units::parse_length(t, LengthUnit::Mm).ok())
        .map(Mm::get);
    let state = match (mm, &typed) {
        (Some(mm), _) if (low..=high).contains(&mm) => State::Good,
        (None, None) => State::Missing,
        _ => State::Stop,
    };
    Field {
        document: workroom(worked),
        path,
        label: label.to_owned(),
        says: "The inner square of the test page, with a ruler.".into(),
        quantity: mm.map(|mm| plain(mm, 1, "mm", "millimetres")),
        typed,
        unit: "mm".into(),
        allowed: format!("{low:.0} mm to {high:.0} mm"),
        state,
    }
}

/// What the printer leaves white on every side of a page.
fn edge_field(worked: &Worked) -> Field {
    let path = "white_edge".to_owned();
    let typed = worked
        .workroom
        .as_ref()
        .and_then(|p| told::text_at(&p.body, &path));
    let mm = choice_of(worked).white_edge.map(Mm::get);
    let (low, high) = sheet::WHITE_EDGE_MM;
    Field {
        document: workroom(worked),
        path,
        label: "White edge of the printer".to_owned(),
        says: "What it cannot print along the edge of a page; known, the tiles are as large as it allows."
            .into(),
        state: if typed.is_some() && mm.is_none() {
            State::Stop
        } else {
            State::Good
        },
        quantity: mm.map(|mm| plain(mm, 1, "mm", "millimetres")),
        typed,
        unit: "mm".into(),
        allowed: format!("{low:.0} mm to {high:.0} mm"),
    }
}

/// A square this near 100 mm is as good as a ruler reads. `data/trade/print.toml [scale_check]`.
const TRUE_MM: f64 = 0.5;

fn square_note(worked: &Worked) -> Note {
    if let Some(fault) = worked
        .faults
        .iter()
        .find(|f| f.field == "printer.measured_square")
    {
        let says = told::sentence(&fault.message.replace("printer.measured_square: ", ""));
        return told::note(State::Stop, "printer", says, told::sentence(&fault.help)).at("square.across");
    }
    match choice_of(worked).measured_square_mm {
        None => told::note(
            State::Missing,
            "printer",
            "Test square not measured on this printer yet.",
            "Print the test page, measure both sides, write them down.",
        )
        .at("square.across"),
        Some([across, down]) if (across - 100.0).abs().max((down - 100.0).abs()) <= TRUE_MM => told::note(
            State::Good,
            "printer",
            "This printer prints true.",
            "Measure again when printer or paper changes.",
        ),
        Some([across, down]) => told::note(
            State::Good,
            "printer",
            format!(
                "This printer makes {} mm across and {} mm down of 100. The tiles are drawn to suit.",
                crate::suit_file::trimmed(across, 1),
                crate::suit_file::trimmed(down, 1)
            ),
            "Measure a rule on a printed page: it must be 100 mm.",
        ),
    }
}

/// A white edge that cannot be.
fn edge_note(worked: &Worked) -> Option<Note> {
    let fault = worked.faults.iter().find(|f| f.field == "printer.white_edge")?;
    let says = told::sentence(
        &fault
            .message
            .replace("printer.white_edge", "the white edge of the printer"),
    );
    let (low, high) = sheet::WHITE_EDGE_MM;
    let next = format!(
        "Write {low:.0} to {high:.0} mm: what it leaves white along the edge of a page that is dark all over."
    );
    Some(told::note(State::Stop, "printer", says, next).at("white_edge"))
}

fn stop_note(order: &Order) -> Option<Note> {
    let mut places: Vec<String> = Vec::new();
    for found in order.findings.iter().filter(|f| f.severity == Severity::Stop) {
        if !places.contains(&found.place) {
            places.push(found.place.clone());
        }
    }
    (!places.is_empty()).then(|| {
        told::note(
            State::Stop,
            "",
            format!("The pattern prints, but don't cut it: {}.", told::list(&places)),
            "Look at the stop notes above and mend them first.",
        )
    })
}

fn drawn_map(
    worked: &Worked,
    suit: &SuitFile,
    order: &Order,
    paper: PaperChoice,
) -> Result<PageMap, sheet::Refusal> {
    let choice = choice_of(worked);
    let notes = notes(order);
    let pattern = pattern(suit, order, &notes);
    let options = sheet::Options {
        form: if choice.halves {
            sheet::PieceForm::Half
        } else {
            sheet::PieceForm::Whole
        },
        printer: choice
            .measured_square_mm
            .map(|[across, down]| sheet::MeasuredSquare {
                across: Mm::new(across),
                down: Mm::new(down),
            }),
        white_edge: choice.white_edge,
    };
    let size = match paper {
        PaperChoice::A4 => sheet::Paper::A4,
        PaperChoice::Letter => sheet::Paper::Letter,
    };
    let map = sheet::page_map_data(&pattern, size, &options)?;
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    Ok(PageMap {
        frame: Frame {
            x: 0.0,
            y: 0.0,
            width: map.sheet_mm.0,
            height: map.sheet_mm.1,
        },
        pages: count(map.printed()),
        blank: count(map.blank()),
        tiles: map
            .tiles
            .iter()
            .map(|t| TileView {
                code: t.code.clone(),
                row: sheet::PageMapData::row_name(t.row),
                column: (t.column + 1).to_string(),
                frame: Frame {
                    x: t.at_mm.0,
                    y: t.at_mm.1,
                    width: t.size_mm.0,
                    height: t.size_mm.1,
                },
                is_printed: t.is_printed,
            })
            .collect(),
        outlines: map
            .outlines
            .iter()
            .map(|o| OutlineView {
                letter: o.letter.to_string(),
                path: path(o.points.iter().map(|p| (p.x, p.y))),
                at: Spot {
                    x: o.letter_at.x,
                    y: o.letter_at.y,
                },
            })
            .collect(),
    })
}

/// A closed SVG path through points, mm to a tenth.
pub(super) fn path(points: impl Iterator<Item = (f64, f64)>) -> String {
    let mut path = String::new();
    for (i, (x, y)) in points.enumerate() {
        let _ = write!(path, "{}{x:.1} {y:.1}", if i == 0 { "M" } else { "L" });
    }
    path.push('Z');
    path
}

/// What can be taken away; of a suit that can't be drafted only its suit file.
fn files(worked: &Worked, paper: PaperChoice) -> Vec<FileView> {
    let file = |name: &str, label: &str, says: &str| FileView {
        name: name.to_owned(),
        label: label.to_owned(),
        says: says.to_owned(),
        href: format!("/api/v1/suits/{}/files/{name}", worked.suit.id),
        is_first: name == TEST_PAGE,
    };
    let mut files = Vec::new();
    if worked.order.is_some() {
        let tiles = match paper {
            PaperChoice::A4 => file("pattern-a4.pdf", "Pattern, A4", TILES),
            PaperChoice::Letter => file("pattern-letter.pdf", "Pattern, Letter", TILES),
        };
        files.extend([
            file(
                TEST_PAGE,
                "Print the test page",
                "One page. Its inner square must measure 100 mm both ways.",
            ),
            tiles,
            file(
                "pattern-a0.pdf",
                "Sheets for a copy shop, A0",
                "True scale; no piece is cut in two.",
            ),
            file(
                "pattern-roll.pdf",
                "One sheet for a plotter",
                "True scale, on a 36 in roll.",
            ),
            file(
                "pattern-projector.pdf",
                "For a projector",
                "One sheet with thick lines and a grid to set it by.",
            ),
        ]);
        let lays = worked.lays();
        files.extend(lays.iter().filter(|l| l.laid.is_ok()).map(|l| {
            file(
                lay_file(l.task.layer),
                &format!("Lay plan, {}", l.task.layer.name()),
                "Where each piece lies on the cloth, with the marks to chalk it by.",
            )
        }));
        files.extend([
            file("pattern.svg", "Drawing", "True scale, layers by kind of line."),
            file(
                "pattern-exchange.dxf",
                "Exchange file",
                "Pieces with their notches and grain, for other pattern programs.",
            ),
            file("pattern-cutter.dxf", "Cutter file", "Cut lines and notches only."),
            file("pattern.json", "Pattern as data", "Every point, seam and length."),
            file(
                "report.json",
                "Judgement as data",
                "Every finding with its number and limit.",
            ),
        ]);
    }
    files.push(file(
        SUIT_FILE,
        "Suit file",
        "Everything typed, as one text the command line reads too.",
    ));
    files
}

const TILES: &str = "True scale, at 100 %, no fit to page. Cutting list, measures and elastic come first.";
