//! How much of what: thread on every spool and looper, cloth, cups, needles and small parts.
//!
//! **Thread.** Every step's length and rows times thread per seam length, shared between needles and loopers, then the waste of home work,
//! the tails of every start and stop, the rethreading, and the test strips.
//!
//! **Shapes and units.** Lengths mm; areas mm^2 of the cut line.
//! **Source.** `data/trade/thread_model.toml` (waste, tails, tests), `data/trade/notions.toml`, `data/trade/cups.csv`; common practice
//! where they say so. What a lay takes without one: own, 60 % of the cloth used.
//! **Limits.** A lay is always better than the area: pieces are wide, cloth is not endless.

use cloth::{ClothPlan, Layer};
use draft::Draft;
use draft::geometry::area_mm2;
use serde::Serialize;
use units::Mm;

use crate::choose::StitchChoice;
use crate::model::{StitchGeometry, thread_ratio};
use crate::order::Step;
use crate::stitch::StitchFamily;
use crate::thread::Thread;

/// Waste of home work, the middle of 15 to 25 %. `data/trade/thread_model.toml`, `home`.
pub const THREAD_WASTE: f64 = 0.20;
/// Tail at every start and every stop, each thread. `data/trade/thread_model.toml`, `fixed_tail_m`.
pub const TAIL: Mm = Mm::new(150.0);
/// An overlocker's chain, more than a tail.
pub const CHAIN: Mm = Mm::new(100.0);
/// Test strips, all threads of a suit together. `data/trade/thread_model.toml`, `test_strips_m`.
pub const TEST_STRIPS: Mm = Mm::new(10_000.0);
/// A new thread through a machine, each thread. `data/trade/thread_model.toml`, `rethread_m`.
pub const RETHREAD: Mm = Mm::new(1_000.0);
/// Share of a lay that is suit when nobody laid it (own; a lay of few small pieces wastes much).
pub const USAGE_WITHOUT_LAY: f64 = 0.60;
/// Taken for a cloth whose width was not entered.
pub const ASSUMED_WIDTH: Mm = Mm::new(1400.0);
/// Cloth for tests. `data/trade/notions.toml`.
pub const CLOTH_TESTS: Mm = Mm::new(200.0);

/// Where a thread runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ThreadPlace {
    /// In a needle.
    Needle,
    /// On the bobbin.
    Bobbin,
    /// On a looper.
    Looper,
}

impl ThreadPlace {
    /// Key of its name.
    pub const fn key(self) -> &'static str {
        match self {
            ThreadPlace::Needle => "thread_place.needle",
            ThreadPlace::Bobbin => "thread_place.bobbin",
            ThreadPlace::Looper => "thread_place.looper",
        }
    }
}

/// Thread of one kind in one kind of place.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ThreadUse {
    /// Kind.
    pub thread: Thread,
    /// Where it runs.
    pub place: ThreadPlace,
    /// Packages on a machine at once, at most.
    pub packages: u8,
    /// In the seams.
    pub net: Mm,
    /// With waste, tails, rethreading and its share of the tests.
    pub gross: Mm,
}

impl ThreadUse {
    /// What each package must hold.
    pub fn each(&self) -> Mm {
        self.gross * (1.0 / f64::from(self.packages.max(1)))
    }
}

/// Thread of a plan, by kind and place.
///
/// # Source
/// See the head of this module.
pub fn thread_uses(
    steps: &[Step],
    stitches: &[StitchChoice],
    thickness: impl Fn(u8) -> f64,
) -> Vec<ThreadUse> {
    let mut uses: Vec<ThreadUse> = Vec::new();
    let mut tails: Vec<f64> = Vec::new();
    let mut last: Option<(usize, Thread, Thread)> = None;
    for step in steps {
        let Some(choice) = step.stitch.and_then(|s| stitches.get(s)) else {
            continue;
        };
        let setting = &choice.setting;
        let facts = setting.stitch.facts();
        let geometry = StitchGeometry {
            length_mm: setting.length.get(),
            width_mm: setting.width.get(),
            thickness_mm: thickness(choice.plies),
        };
        let rows = f64::from(setting.rows);
        let all = thread_ratio(setting.stitch, geometry) * step.length.get() * rows;
        let is_bobbin = facts.family == StitchFamily::Lockstitch;
        let under_place = if is_bobbin {
            ThreadPlace::Bobbin
        } else {
            ThreadPlace::Looper
        };
        let set_up = (setting.machine, setting.needle_thread, setting.under_thread);
        let is_changed = last != Some(set_up);
        last = Some(set_up);
        for (thread, place, packages, share) in [
            (
                setting.needle_thread,
                ThreadPlace::Needle,
                facts.needle_threads,
                facts.needle_share,
            ),
            (
                setting.under_thread,
                under_place,
                facts.under_threads,
                1.0 - facts.needle_share,
            ),
        ] {
            let end = TAIL.get() + if is_bobbin { 0.0 } else { CHAIN.get() };
            let tail = f64::from(packages)
                * (2.0 * end * f64::from(step.runs) * rows + if is_changed { RETHREAD.get() } else { 0.0 });
            match uses.iter().position(|u| u.thread == thread && u.place == place) {
                Some(at) => {
                    uses[at].net += Mm::new(all * share);
                    uses[at].packages = uses[at].packages.max(packages);
                    tails[at] += tail;
                }
                None => {
                    uses.push(ThreadUse {
                        thread,
                        place,
                        packages,
                        net: Mm::new(all * share),
                        gross: Mm::ZERO,
                    });
                    tails.push(tail);
                }
            }
        }
    }
    let net: f64 = uses.iter().map(|u| u.net.get()).sum();
    for (used, tail) in uses.iter_mut().zip(tails) {
        let tests = TEST_STRIPS.get() * used.net.get() / net.max(1e-9);
        used.gross = Mm::new(used.net.get() * (1.0 + THREAD_WASTE) + tail + tests);
    }
    uses.sort_by_key(|u| (u.place, u.thread));
    uses
}

/// What a cloth length rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ClothBasis {
    /// A lay.
    Lay,
    /// The pieces' area at an assumed usage.
    Area,
}

/// Cloth of one layer.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ClothUse {
    /// Layer.
    pub layer: Layer,
    /// The cloth's name.
    pub cloth: String,
    /// Width reckoned with.
    pub width: Mm,
    /// Whether that width was entered.
    pub is_width_known: bool,
    /// Area of all pieces within their cut lines, mm^2.
    pub area_mm2: f64,
    /// No lay is shorter than this: area / width, and no shorter than the longest piece.
    pub at_least: Mm,
    /// What the suit takes, tests included, not yet rounded to what is sold.
    pub length: Mm,
    /// What that rests on.
    pub basis: ClothBasis,
}

/// Cloth of every layer that pieces are cut from. `lays`: lengths of a lay where there is one, tests not included.
pub fn cloth_uses(draft: &Draft, cloth: &ClothPlan, lays: &[(Layer, Mm)]) -> Vec<ClothUse> {
    [Layer::Shell, Layer::Contrast, Layer::Lining, Layer::Mesh]
        .into_iter()
        .filter_map(|layer| {
            let (mut area, mut longest) = (0.0_f64, 0.0_f64);
            for piece in &draft.pieces {
                let count: u32 = piece
                    .cuts
                    .iter()
                    .filter(|c| c.layer == layer)
                    .map(|c| c.count)
                    .sum();
                if count == 0 {
                    continue;
                }
                let whole = piece.whole().cut_line;
                area += area_mm2(&whole).abs() * f64::from(count);
                let heights = whole.iter().map(|p| p.y);
                let (low, high) = heights.fold((f64::MAX, f64::MIN), |(a, b), y| (a.min(y), b.max(y)));
                longest = longest.max(high - low);
            }
            if area <= 0.0 {
                return None;
            }
            let plan = match layer {
                Layer::Shell => Some(&cloth.shell),
                Layer::Contrast => cloth.contrast.as_ref(),
                Layer::Lining => cloth.lining.as_ref(),
                Layer::Mesh => cloth.mesh.as_ref(),
            };
            let entered = plan.and_then(|p| p.width);
            let width = entered.unwrap_or(ASSUMED_WIDTH);
            let by_area = area / width.get().max(1.0);
            let lay = lays.iter().find(|(l, _)| *l == layer).map(|(_, length)| *length);
            let (length, basis) = match lay {
                Some(length) => (length + CLOTH_TESTS, ClothBasis::Lay),
                None => (
                    Mm::new((by_area / USAGE_WITHOUT_LAY).max(longest)) + CLOTH_TESTS,
                    ClothBasis::Area,
                ),
            };
            Some(ClothUse {
                layer,
                cloth: plan.map_or_else(|| layer.name().to_owned(), |p| p.cloth.clone()),
                width,
                is_width_known: entered.is_some(),
                area_mm2: area,
                at_least: Mm::new(by_area.max(longest.min(width.get()))),
                length,
                basis,
            })
        })
        .collect()
}

/// A foam cup.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CupSize {
    /// Letter.
    pub letter: &'static str,
    /// Width of the foam, least and greatest.
    pub width: (Mm, Mm),
    /// Height, least and greatest.
    pub height: (Mm, Mm),
}

const fn cup(letter: &'static str, width: (f64, f64), height: (f64, f64)) -> CupSize {
    CupSize {
        letter,
        width: (Mm::new(width.0), Mm::new(width.1)),
        height: (Mm::new(height.0), Mm::new(height.1)),
    }
}

/// Letters by bust minus underbust, each over its lower limit, up to and with its upper, cm. `data/trade/cups.csv`.
const CUPS: [(f64, f64, CupSize); 9] = [
    (10.0, 12.0, cup("AA", (95.0, 105.0), (85.0, 95.0))),
    (12.0, 14.0, cup("A", (105.0, 115.0), (95.0, 105.0))),
    (14.0, 16.0, cup("B", (115.0, 125.0), (105.0, 115.0))),
    (16.0, 18.0, cup("C", (125.0, 135.0), (115.0, 125.0))),
    (18.0, 20.0, cup("D", (135.0, 145.0), (125.0, 135.0))),
    (20.0, 22.0, cup("E", (145.0, 155.0), (135.0, 145.0))),
    (22.0, 24.0, cup("F", (155.0, 165.0), (145.0, 155.0))),
    (24.0, 26.0, cup("G", (165.0, 175.0), (155.0, 165.0))),
    (26.0, 28.0, cup("H", (175.0, 185.0), (165.0, 175.0))),
];

/// The cup for a difference of bust and underbust; none outside the table. A difference on a limit takes the smaller.
///
/// # Source
/// `data/trade/cups.csv`: letters from a published help page to EN 13402, foam sizes common practice.
pub fn cup_size(difference: Mm) -> Option<CupSize> {
    let cm = difference.get() / 10.0;
    CUPS.iter()
        .find(|(low, high, _)| cm > *low && cm <= *high)
        .map(|(_, _, cup)| *cup)
}
