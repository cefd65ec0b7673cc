//! What goes into every output, the choices a maker has, and why paper can be refused.

use std::fmt;

use cloth::ClothPlan;
use draft::{Draft, Mark, Piece};
use kurbo::Point;
use make::{CutRow, ElasticPlan};
use units::{LengthUnit, Mm};

/// A suit ready for paper: the draft and what is printed beside it.
#[derive(Clone, Copy, Debug)]
pub struct Pattern<'a> {
    /// What the suit is called: `Maren's one-piece`.
    pub suit: &'a str,
    /// Whom it is for.
    pub wearer: &'a str,
    /// Which version it is; no date, so that the same suit prints the same bytes.
    pub version: &'a str,
    /// The draft.
    pub draft: &'a Draft,
    /// The cloths it was drafted for.
    pub cloth: &'a ClothPlan,
    /// Elastic for its edges.
    pub elastic: &'a [ElasticPlan],
    /// What to cut.
    pub cut_list: &'a [CutRow],
    /// The fit it was drafted for: `regular`.
    pub fit_key: &'a str,
    /// Anything the maker should read on paper, a sentence each.
    pub notes: &'a [String],
    /// The unit that is printed first; the other one follows it.
    pub first_unit: LengthUnit,
}

/// How pieces that are symmetric are printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PieceForm {
    /// Unfolded, the fold drawn as a line inside: right for stretch cloth, which shifts when it is folded.
    #[default]
    Whole,
    /// As halves, to lay on a fold of the cloth.
    Half,
}

/// The 100 mm square of a page as a printer really printed it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredSquare {
    /// Its width, across the page.
    pub across: Mm,
    /// Its height, down the page.
    pub down: Mm,
}

/// A printer further off than this share is not corrected but set right: its driver fits or shrinks the page (own).
pub const MOST_CORRECTION: f64 = 0.03;

impl MeasuredSquare {
    /// The factors the drawing is multiplied by across and down the page so that this printer prints it true.
    pub(crate) fn factors(self) -> (f64, f64) {
        (100.0 / self.across.get(), 100.0 / self.down.get())
    }
}

/// Choices for printing.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Options {
    /// Whole pieces or halves.
    pub form: PieceForm,
    /// The test square as this printer printed it; `None` for a printer that prints true.
    pub printer: Option<MeasuredSquare>,
    /// How wide an edge this printer leaves white on every side: tiles are as large as it allows. `None` for the tile that any home
    /// printer prints and that A4 and Letter share.
    pub white_edge: Option<Mm>,
}

/// White edges of a printer that tiles are made for, mm: none leaves less (own), and with more the first page's words would be cut.
pub const WHITE_EDGE_MM: (f64, f64) = (2.0, 12.0);

/// A cut sheet of paper, upright.
///
/// Sizes: ISO 216 for A4 to A0, exact; the others as they are traded (letter 8.5 x 11 in, legal 8.5 x 14, tabloid
/// 11 x 17), from `data/trade/print.toml`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Paper {
    /// 210 x 297 mm.
    A4,
    /// 297 x 420 mm.
    A3,
    /// 420 x 594 mm.
    A2,
    /// 594 x 841 mm.
    A1,
    /// 841 x 1189 mm.
    A0,
    /// 8.5 x 11 in.
    Letter,
    /// 8.5 x 14 in.
    Legal,
    /// 11 x 17 in.
    Tabloid,
}

impl Paper {
    /// All of them, smallest first within a family.
    pub const ALL: [Paper; 8] = [
        Paper::A4,
        Paper::A3,
        Paper::A2,
        Paper::A1,
        Paper::A0,
        Paper::Letter,
        Paper::Legal,
        Paper::Tabloid,
    ];

    /// Width and height, mm.
    pub const fn size_mm(self) -> (f64, f64) {
        match self {
            Paper::A4 => (210.0, 297.0),
            Paper::A3 => (297.0, 420.0),
            Paper::A2 => (420.0, 594.0),
            Paper::A1 => (594.0, 841.0),
            Paper::A0 => (841.0, 1189.0),
            Paper::Letter => (215.9, 279.4),
            Paper::Legal => (215.9, 355.6),
            Paper::Tabloid => (279.4, 431.8),
        }
    }

    /// The name on paper and in files.
    pub const fn name(self) -> &'static str {
        match self {
            Paper::A4 => "A4",
            Paper::A3 => "A3",
            Paper::A2 => "A2",
            Paper::A1 => "A1",
            Paper::A0 => "A0",
            Paper::Letter => "Letter",
            Paper::Legal => "Legal",
            Paper::Tabloid => "Tabloid",
        }
    }
}

/// What a plotter prints on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Roll {
    /// Sheets of 841 x 1189 mm, as many as are needed; no piece is cut in two.
    A0,
    /// A roll 24 in (609.6 mm) wide, as long as is needed.
    Inch24,
    /// A roll 36 in (914.4 mm) wide.
    Inch36,
    /// A roll 42 in (1066.8 mm) wide.
    Inch42,
}

impl Roll {
    /// Its width, mm.
    pub const fn width_mm(self) -> f64 {
        match self {
            Roll::A0 => 841.0,
            Roll::Inch24 => 609.6,
            Roll::Inch36 => 914.4,
            Roll::Inch42 => 1066.8,
        }
    }

    /// Its length, mm; `None` for a roll.
    pub const fn length_mm(self) -> Option<f64> {
        match self {
            Roll::A0 => Some(1189.0),
            _ => None,
        }
    }

    /// The name on paper and in files.
    pub const fn name(self) -> &'static str {
        match self {
            Roll::A0 => "A0",
            Roll::Inch24 => "24 in roll",
            Roll::Inch36 => "36 in roll",
            Roll::Inch42 => "42 in roll",
        }
    }
}

/// How a pattern came out in tiles.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TileCount {
    /// Rows of the whole sheet, A downwards.
    pub rows: usize,
    /// Columns, 1 rightwards.
    pub columns: usize,
    /// Tiles with something on them: pages printed.
    pub printed: usize,
}

/// A finished document.
#[derive(Clone, Debug, PartialEq)]
pub struct Printed {
    /// The file.
    pub bytes: Vec<u8>,
    /// How many pages it has.
    pub pages: usize,
    /// The tiles, for a tiled pattern.
    pub tiles: Option<TileCount>,
    /// Characters no font here has, sorted; a query in a diamond stands for each on paper. Names in Latin, Greek and Cyrillic print whole.
    pub undrawn: Vec<char>,
}

/// Why there is no paper.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Fault {
    /// The draft has no pieces.
    NoPieces,
    /// A piece's cut line has fewer than three points, or some coordinate on the piece is no number or beyond 10 m.
    BrokenPiece {
        /// Key of the piece.
        piece: String,
    },
    /// The measured square is more than 3 % off, or no length: the printer fits or shrinks its pages.
    PrinterOff {
        /// `across` or `down`.
        way: &'static str,
        /// What was measured.
        measured: Mm,
    },
    /// The white edge is outside [`WHITE_EDGE_MM`].
    WhiteEdge {
        /// What was asked.
        edge: Mm,
    },
    /// A piece does not fit between the margins of a sheet or roll.
    PieceTooLarge {
        /// Key of the piece.
        piece: String,
        /// Its width and height, mm.
        size_mm: (f64, f64),
        /// What there is room for, mm; endless down a roll.
        room_mm: (f64, f64),
        /// The paper's name.
        paper: &'static str,
    },
    /// A page side is longer than PDF allows (5080 mm, ISO 32000 without a user unit).
    PageTooLong {
        /// The side, mm.
        side_mm: f64,
    },
    /// The PDF writer found a fault of its own; please report it.
    Writer(String),
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::NoPieces => write!(f, "the draft has no pieces; there is nothing to print"),
            Fault::BrokenPiece { piece } => write!(
                f,
                "piece `{piece}` has no usable cut line; draft the suit again, and report it if it stays"
            ),
            Fault::PrinterOff { way, measured } => write!(
                f,
                "the 100 mm square measured {measured} {way} the page; 97 to 103 mm can be corrected: print the first \
                 page at 100 % with no fit to page, and measure again"
            ),
            Fault::WhiteEdge { edge } => write!(
                f,
                "a white edge of {edge} is not between {} and {} mm: measure what the printer leaves white along the edge of a page that \
                 is dark all over",
                WHITE_EDGE_MM.0, WHITE_EDGE_MM.1
            ),
            Fault::PieceTooLarge {
                piece,
                size_mm,
                room_mm,
                paper,
            } => {
                write!(
                    f,
                    "piece `{piece}` is {:.0} x {:.0} mm and {paper} has room for ",
                    size_mm.0, size_mm.1
                )?;
                if room_mm.1.is_finite() {
                    write!(f, "{:.0} x {:.0} mm", room_mm.0, room_mm.1)?;
                } else {
                    write!(f, "{:.0} mm across", room_mm.0)?;
                }
                write!(f, "; choose a wider roll, print halves, or print tiles")
            }
            Fault::PageTooLong { side_mm } => write!(
                f,
                "the sheet would be {side_mm:.0} mm long, more than a PDF page may be (5080 mm); choose a wider roll or \
                 print tiles"
            ),
            Fault::Writer(what) => write!(f, "the PDF could not be written: {what}; please report it"),
        }
    }
}

/// Everything that keeps a pattern from being printed, all at once.
#[derive(Clone, Debug, PartialEq)]
pub struct Refusal {
    /// At least one.
    pub faults: Vec<Fault>,
}

impl Refusal {
    pub(crate) fn of(fault: Fault) -> Refusal {
        Refusal { faults: vec![fault] }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, fault) in self.faults.iter().enumerate() {
            if i > 0 {
                writeln!(f)?;
            }
            write!(f, "{fault}")?;
        }
        Ok(())
    }
}

impl std::error::Error for Refusal {}

/// Every other point printed on a piece.
fn points_on(piece: &Piece) -> Vec<Point> {
    let mut points = vec![piece.label_at, piece.whole_label_at];
    for arrow in [piece.grain, piece.stretch] {
        points.extend([arrow.from, arrow.to]);
    }
    for n in &piece.notches {
        points.extend([n.at, n.seam_at, n.inward.to_point(), Point::new(n.depth_mm, 0.0)]);
    }
    for mark in &piece.marks {
        match mark {
            Mark::Cross { at, .. } => points.push(*at),
            Mark::LevelLine { from, to, .. } => points.extend([*from, *to]),
            Mark::Placement { curve, .. } => {
                points.extend(curve.cubics().iter().flat_map(|c| [c.p0, c.p1, c.p2, c.p3]));
            }
            Mark::ArcEnd { at, inward, .. } => points.extend([*at, inward.to_point()]),
        }
    }
    points.extend(piece.edges.iter().map(|e| Point::new(e.allowance_mm, 0.0)));
    points
}

/// Coordinates beyond this are not a garment (10 m).
const FARTHEST_MM: f64 = 10_000.0;

impl Pattern<'_> {
    /// Checks what every output rests on: there are pieces, and each has a cut line of finite points.
    pub(crate) fn check(&self) -> Result<(), Refusal> {
        let mut faults = Vec::new();
        if self.draft.pieces.is_empty() {
            faults.push(Fault::NoPieces);
        }
        for piece in &self.draft.pieces {
            let is_fine = |p: &Point| {
                p.x.is_finite() && p.y.is_finite() && p.x.abs() < FARTHEST_MM && p.y.abs() < FARTHEST_MM
            };
            let seams = piece
                .edges
                .iter()
                .flat_map(|e| e.curve.cubics())
                .all(|c| is_fine(&c.p0) && is_fine(&c.p1) && is_fine(&c.p2) && is_fine(&c.p3));
            let seams = seams && points_on(piece).iter().all(is_fine);
            if piece.cut_line.len() < 3 || !piece.cut_line.iter().all(is_fine) || !seams {
                faults.push(Fault::BrokenPiece {
                    piece: piece.key.clone(),
                });
            }
        }
        if faults.is_empty() {
            Ok(())
        } else {
            Err(Refusal { faults })
        }
    }
}

impl Options {
    /// Checks the measured square and the white edge.
    pub(crate) fn check(&self) -> Result<(), Refusal> {
        let sides = self
            .printer
            .map(|square| [("across", square.across), ("down", square.down)]);
        let mut faults: Vec<Fault> = sides
            .into_iter()
            .flatten()
            .filter(|(_, m)| {
                let off = (m.get() - 100.0).abs();
                off.is_nan() || off > 100.0 * MOST_CORRECTION
            })
            .map(|(way, measured)| Fault::PrinterOff { way, measured })
            .collect();
        let (least, most) = WHITE_EDGE_MM;
        if let Some(edge) = self.white_edge
            && !(least..=most).contains(&edge.get())
        {
            faults.push(Fault::WhiteEdge { edge });
        }
        if faults.is_empty() {
            Ok(())
        } else {
            Err(Refusal { faults })
        }
    }

    /// Factors across and down.
    pub(crate) fn factors(&self) -> (f64, f64) {
        self.printer.map_or((1.0, 1.0), MeasuredSquare::factors)
    }
}
