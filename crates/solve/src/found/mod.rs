//! What is found of a worn suit: each a severity, a place, a number, its limit with the source, and what to change.
//!
//! The remedy is a draft parameter with a proposed value wherever one is known to act on what was found: the maker may try it and see
//! before and after. Limits are handed in, so that they stand in one place each. A pressure is never more than a watch unless the
//! force of that cloth or elastic was weighed. Every number is read whether it is worth a word or not ([`readings`]): what a
//! change does to a finding can then be told even when it is gone.
//!
//! **Shapes and units.** Ratios of stretch as `0.15`; kPa; mm; N.
//! **Limits.** Nothing is said of a suit that was not solved.

mod cloth_drawn;
mod held;
mod leg;
mod squeeze;
mod standing_off;
mod stitches;
mod strap;
mod support;

use cloth::{Fit, Layer};
use draft::{Design, OpenKind};
use serde::Serialize;
use units::{Finding, Level, Limit, Severity};

use crate::outcome::Stop;
use crate::suit::SuitMesh;
use crate::worn::{WornLevel, WornSuit};

pub use cloth_drawn::{AREA_WATCH, FOLDED, WetSeen};
pub use held::RODE_UP_WATCH_MM;
pub use leg::{ON_THIGH_MM, RODE_MM, UNCOVERED};
pub use standing_off::GAPE_WATCH_MM;
pub use stitches::{SewnPlace, StitchReach, Stitches};
pub use strap::SKIN_FRICTION;
pub use support::{BustLoad, LEAST_CUP_MM};

/// The limits a worn suit is held against, and what is known of its cloth and elastic.
#[derive(Clone, Debug, PartialEq)]
pub struct FoundLimits {
    /// Least worn stretch that holds, and where it comes from.
    pub hold: f64,
    /// Share of a layer's stretch that leaves a reserve, and the share past which there is none.
    pub share: (f64, f64),
    /// Panels, kPa: watch above, stop above.
    pub panel_kpa: (f64, f64),
    /// Edges, straps, bindings, kPa.
    pub edge_kpa: (f64, f64),
    /// Where the pressure limits come from.
    pub pressure_source: &'static str,
    /// Whether the force of the cloth was weighed.
    pub cloth_weighed: bool,
    /// Whether that of the elastic was.
    pub elastic_weighed: bool,
    /// Width of the elastic on the edges, mm.
    pub elastic_mm: f64,
    /// Width of the elastic on edges of a kind, where it is known: that of a band is wider than a neckline's. mm.
    pub elastic_by_edge: Vec<(OpenKind, f64)>,
    /// Stretch around of each layer that is there.
    pub layers: Vec<(Layer, f64)>,
    /// How far the planned stitches can stretch; without any, seams are not judged.
    pub stitches: Stitches,
    /// What the bust asks to be carried; nothing where that is not asked.
    pub bust: Option<BustLoad>,
    /// What the shell showed when it was wetted and stretched, if that was tried.
    pub wet: Option<WetSeen>,
}

/// A draft parameter set anew.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Change {
    /// Key in the suit file's design section: `fit_around`; `figure.sway_back`.
    pub key: &'static str,
    /// What it is now; nothing for a named fit.
    pub from: Option<f64>,
    /// What is proposed: mm, or a share.
    pub to: f64,
}

/// A place of a worn suit: on its piece, and on the body.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Spot {
    /// Key of the piece.
    pub piece: String,
    /// On that piece, flat: x from the fold, y up from the waist, mm.
    pub flat_mm: [f64; 2],
    /// On the body: her left, up from the crotch, forward, mm.
    pub at_mm: [f64; 3],
}

/// A finding of a worn suit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Found {
    /// What was found.
    #[serde(flatten)]
    pub finding: Finding,
    /// What it is of, the same words whatever the numbers: `waist`, `leg, back`. Code and this name a finding before and after a
    /// change.
    pub which: String,
    /// Key of the piece, where it is one piece's.
    pub piece: Option<String>,
    /// Where on the piece, where it is one place.
    pub spot: Option<Spot>,
    /// Draft parameters that act on it.
    pub changes: Vec<Change>,
}

impl Found {
    /// Whether another is the same finding of a changed suit.
    pub fn is_of(&self, other: &Found) -> bool {
        self.finding.code == other.finding.code && self.which == other.which
    }
}

/// A number that was read of a worn suit.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The number with its words; good where it is within its limit.
    pub found: Found,
    /// Whether the maker is told of it.
    pub is_told: bool,
}

/// What is found of a worn suit, the worst first; nothing if it was not solved.
pub fn found(suit: &SuitMesh, worn: &WornSuit, design: &Design, limits: &FoundLimits) -> Vec<Found> {
    told(&readings(suit, worn, design, limits))
}

/// What of the readings is told, the worst first.
pub fn told(readings: &[Reading]) -> Vec<Found> {
    let told = readings.iter().filter(|r| r.is_told);
    let mut all: Vec<Found> = told.map(|r| r.found.clone()).collect();
    all.sort_by_key(|f| std::cmp::Reverse(f.finding.severity));
    all
}

/// Every number that is held against a limit, told or not; nothing if the suit was not solved.
pub fn readings(suit: &SuitMesh, worn: &WornSuit, design: &Design, limits: &FoundLimits) -> Vec<Reading> {
    if worn.solved.stop != Stop::Converged {
        return Vec::new();
    }
    let job = Job {
        suit,
        worn,
        design,
        limits,
    };
    let mut all = Vec::new();
    for level in worn.levels.iter().filter(|l| l.closes) {
        job.stretch(level, &mut all);
    }
    job.folds(&mut all);
    job.panels(&mut all);
    job.edges(&mut all);
    job.gapes(&mut all);
    job.strap(&mut all);
    job.held(&mut all);
    job.leg_line(&mut all);
    job.seat(&mut all);
    job.support(&mut all);
    job.stitches(&mut all);
    job.drawn_out(&mut all);
    all
}

struct Job<'a> {
    suit: &'a SuitMesh,
    worn: &'a WornSuit,
    design: &'a Design,
    limits: &'a FoundLimits,
}

/// What is read of one place, before it is made a [`Reading`].
struct Read {
    code: &'static str,
    /// Good is not told unless [`is_told`](Read::is_told) says so.
    severity: Severity,
    place: String,
    which: String,
    message: String,
    value: f64,
    limit: Option<Limit>,
    remedy: &'static str,
    piece: Option<String>,
    spot: Option<Spot>,
    changes: Vec<Change>,
    is_told: bool,
}

impl Read {
    /// A number of a place, told when it is not good.
    fn new(code: &'static str, severity: Severity, which: &str, value: f64) -> Read {
        Read {
            code,
            severity,
            place: which.to_owned(),
            which: which.to_owned(),
            message: String::new(),
            value,
            limit: None,
            remedy: "",
            piece: None,
            spot: None,
            changes: Vec::new(),
            is_told: severity != Severity::Good,
        }
    }

    fn into_reading(self) -> Reading {
        let is_good = self.severity == Severity::Good;
        let remedy = if is_good { "" } else { self.remedy };
        Reading {
            found: Found {
                finding: Finding {
                    code: self.code,
                    severity: self.severity,
                    place: self.place,
                    message: self.message,
                    value: Some(self.value),
                    limit: self.limit,
                    remedy: remedy.to_owned(),
                },
                which: self.which,
                piece: self.piece,
                spot: self.spot,
                changes: if is_good { Vec::new() } else { self.changes },
            },
            is_told: self.is_told,
        }
    }
}

fn percent(ratio: f64) -> f64 {
    100.0 * ratio
}

fn limit(text: String, source: &'static str) -> Option<Limit> {
    Some(Limit { text, source })
}

/// Watch above the first, stop above the second where a stop is allowed.
fn graded(value: f64, (watch, stop): (f64, f64), may_stop: bool) -> Severity {
    match value {
        v if v > stop && may_stop => Severity::Stop,
        v if v > watch => Severity::Watch,
        _ => Severity::Good,
    }
}

impl Job<'_> {
    /// The fit with its share around times `by`, kept within what an own fit may be. Both shares must be given together.
    fn fit_changed(&self, around_by: f64, lengthwise_by: f64) -> Vec<Change> {
        let fit = self.design.fit;
        let now = |x: f64| matches!(fit, Fit::Own(_)).then_some(x);
        let step = |x: f64| (x * 1000.0).round() / 1000.0;
        let (low, high) = cloth::OWN_AROUND;
        let around = step((fit.around() * around_by).clamp(low, high));
        let (low, high) = cloth::OWN_LENGTHWISE;
        let lengthwise = step((fit.lengthwise() * lengthwise_by).clamp(low, high));
        vec![
            Change {
                key: "fit_around",
                from: now(fit.around()),
                to: around,
            },
            Change {
                key: "fit_lengthwise",
                from: now(fit.lengthwise()),
                to: lengthwise,
            },
        ]
    }

    /// The place of a vertex, on the piece of that key if it lies on it.
    fn spot(&self, vertex: usize, piece: Option<&str>) -> Option<Spot> {
        let key = |p: usize| self.suit.pieces.get(p).map(String::as_str);
        let on = self.suit.on.get(vertex)?;
        let own = on.iter().find(|o| piece.is_some() && key(o.piece) == piece);
        let own = own.or(on.first())?;
        Some(Spot {
            piece: key(own.piece)?.to_owned(),
            flat_mm: own.flat,
            at_mm: *self.worn.solved.positions.get(vertex)?,
        })
    }

    /// `front, near the bust`.
    fn words_at(&self, at: [f64; 3]) -> String {
        let side = if at[0] > 2.0 * at[2].abs() {
            "side"
        } else if at[2] > 0.0 {
            "front"
        } else {
            "back"
        };
        let off = |l: &&WornLevel| (l.height_mm - at[1]).abs();
        let near = self.worn.levels.iter().min_by(|a, b| off(a).total_cmp(&off(b)));
        near.map_or_else(
            || side.to_owned(),
            |l| format!("{side}, near the {}", l.level.name()),
        )
    }

    /// The height of a level of the form, if it was read there.
    fn height(&self, level: Level) -> Option<f64> {
        let here = self.worn.levels.iter().find(|l| l.level == level)?;
        Some(here.height_mm)
    }
}

/// A piece by its key in words: `centre front`.
fn piece_words(key: &str) -> String {
    key.replace('_', " ")
}
