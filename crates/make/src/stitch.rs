//! Stitches that join a swim knit: what each needs of a machine, how many threads it takes, how far it is known to stretch.
//!
//! A stitch goes by a plain name and its path. Its ISO 4915 number is given only for the straight and the zigzag lockstitch, the
//! overedge and the cover stitches: the numbers of multi-step zigzags are printed differently by different sources, and a household
//! machine's reversing stitches have none of their own.
//!
//! **Shapes and units.** mm; extensions are ratios along the seam.
//! **Source.** `data/trade/stitches.csv`, row by row with its grades; a test holds this table against that one.
//! **Limits.** The bands of overedge, chain and cover are common practice: their loops share thread and no model of ours computes them.

use serde::Serialize;

/// A stitch, by its plain name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stitch {
    /// Straight lockstitch.
    Straight,
    /// Two parallel rows of straight stitch from a twin needle, one bobbin thread zigzagging between them below.
    TwinNeedle,
    /// Zigzag, one stitch each way.
    Zigzag,
    /// Zigzag, three stitches each way.
    ThreeStep,
    /// Straight, every stitch sewn three times: two forward, one back.
    TripleStraight,
    /// Narrow slanted stretch stitch, every stitch sewn three times.
    Slanted,
    /// A household machine's overlock-like stitch.
    HouseholdOverlock,
    /// Two-thread chainstitch.
    Chain,
    /// Two-needle cover, looper below.
    TwoNeedleCover,
    /// Three-needle cover, looper below.
    ThreeNeedleCover,
    /// Three-thread overedge.
    ThreeThreadOveredge,
    /// Four-thread overlock.
    FourThreadOverlock,
    /// Two-needle cover with a thread above as well.
    TopAndBottomCover,
}

/// How a stitch is formed, which decides what can be computed of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum StitchFamily {
    /// Needle and bobbin thread lock in the cloth: extension and thread are computed.
    Lockstitch,
    /// Needle thread held by a looper below.
    Chain,
    /// Loopers wrap the cut edge.
    Overedge,
    /// Parallel needle rows, looper across them below.
    Cover,
}

/// How bulky a seam of it lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Bulk {
    /// Hardly felt.
    Low,
    /// Felt, lies flat.
    Medium,
    /// A ridge.
    High,
}

/// A line of the table: key, row, ISO number, family, (needle, under) threads, extension %, whether that is practice, bulk, needle share %.
const fn of(
    (key, row, iso4915): (&'static str, Option<&'static str>, Option<u16>),
    family: StitchFamily,
    threads: (u8, u8),
    percent: (f64, f64),
    is_practice: bool,
    bulk: Bulk,
    needle_percent: f64,
) -> StitchFacts {
    StitchFacts {
        key,
        row,
        iso4915,
        family,
        needle_threads: threads.0,
        under_threads: threads.1,
        extension: (percent.0 / 100.0, percent.1 / 100.0),
        is_practice,
        bulk,
        needle_share: needle_percent / 100.0,
    }
}

/// What the table says of a stitch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StitchFacts {
    /// Key of its name: `stitch.zigzag`.
    pub key: &'static str,
    /// Its row in `data/trade/stitches.csv`; none for the twin needle, which is two rows of 301 on one bobbin.
    pub row: Option<&'static str>,
    /// ISO 4915 number, where it is trusted.
    pub iso4915: Option<u16>,
    /// How it is formed.
    pub family: StitchFamily,
    /// Needle threads.
    pub needle_threads: u8,
    /// Threads under the needle plate or on loopers; a bobbin counts as one.
    pub under_threads: u8,
    /// Extension along the seam it is known to reach, least and greatest, ratios.
    pub extension: (f64, f64),
    /// Whether that band is common practice or memory; a lockstitch's is derived and is computed from its settings instead.
    pub is_practice: bool,
    /// How bulky.
    pub bulk: Bulk,
    /// Share of all its thread the needles take.
    pub needle_share: f64,
}

impl Stitch {
    /// Every stitch, the plainest first.
    pub const ALL: [Stitch; 13] = [
        Stitch::Straight,
        Stitch::TwinNeedle,
        Stitch::Zigzag,
        Stitch::ThreeStep,
        Stitch::TripleStraight,
        Stitch::Slanted,
        Stitch::HouseholdOverlock,
        Stitch::Chain,
        Stitch::TwoNeedleCover,
        Stitch::ThreeNeedleCover,
        Stitch::ThreeThreadOveredge,
        Stitch::FourThreadOverlock,
        Stitch::TopAndBottomCover,
    ];

    /// What is known of it.
    pub const fn facts(self) -> StitchFacts {
        use Bulk::{High, Low, Medium};
        use StitchFamily::{Chain, Cover, Lockstitch, Overedge};
        match self {
            Stitch::Straight => of(
                ("stitch.straight", Some("s301"), Some(301)),
                Lockstitch,
                (1, 1),
                (10.0, 40.0),
                false,
                Low,
                50.0,
            ),
            Stitch::TwinNeedle => of(
                ("stitch.twin_needle", None, None),
                Lockstitch,
                (2, 1),
                (10.0, 40.0),
                false,
                Low,
                50.0,
            ),
            Stitch::Zigzag => of(
                ("stitch.zigzag", Some("s304"), Some(304)),
                Lockstitch,
                (1, 1),
                (20.0, 100.0),
                false,
                Low,
                50.0,
            ),
            Stitch::ThreeStep => of(
                ("stitch.three_step", Some("s321"), None),
                Lockstitch,
                (1, 1),
                (40.0, 100.0),
                false,
                Low,
                50.0,
            ),
            Stitch::TripleStraight => of(
                ("stitch.triple_straight", Some("triple"), None),
                Lockstitch,
                (1, 1),
                (20.0, 50.0),
                true,
                High,
                50.0,
            ),
            Stitch::Slanted => of(
                ("stitch.slanted", Some("slanted"), None),
                Lockstitch,
                (1, 1),
                (30.0, 60.0),
                true,
                Medium,
                50.0,
            ),
            Stitch::HouseholdOverlock => of(
                ("stitch.household_overlock", Some("domestic_overlock"), None),
                Lockstitch,
                (1, 1),
                (40.0, 80.0),
                true,
                Medium,
                50.0,
            ),
            Stitch::Chain => of(
                ("stitch.chain", Some("s401"), None),
                Chain,
                (1, 1),
                (40.0, 80.0),
                true,
                Low,
                24.0,
            ),
            Stitch::TwoNeedleCover => of(
                ("stitch.cover_two", Some("s406"), Some(406)),
                Cover,
                (2, 1),
                (60.0, 120.0),
                true,
                Low,
                30.0,
            ),
            Stitch::ThreeNeedleCover => of(
                ("stitch.cover_three", Some("s407"), Some(407)),
                Cover,
                (3, 1),
                (60.0, 120.0),
                true,
                Medium,
                35.0,
            ),
            Stitch::ThreeThreadOveredge => of(
                ("stitch.overedge_three", Some("s504"), Some(504)),
                Overedge,
                (1, 2),
                (80.0, 150.0),
                true,
                Medium,
                20.0,
            ),
            Stitch::FourThreadOverlock => of(
                ("stitch.overlock_four", Some("s514"), Some(514)),
                Overedge,
                (2, 2),
                (80.0, 150.0),
                true,
                Medium,
                25.0,
            ),
            Stitch::TopAndBottomCover => of(
                ("stitch.cover_top", Some("s602"), Some(602)),
                Cover,
                (2, 2),
                (80.0, 150.0),
                true,
                Low,
                20.0,
            ),
        }
    }

    /// Key of its name.
    pub const fn key(self) -> &'static str {
        self.facts().key
    }

    /// Steps of one way across the zigzag, and how often each stitch is sewn; `None` where loops share thread.
    pub(crate) const fn path(self) -> Option<(f64, f64)> {
        match self {
            Stitch::Straight | Stitch::Zigzag | Stitch::TwinNeedle => Some((1.0, 1.0)),
            Stitch::ThreeStep => Some((3.0, 1.0)),
            Stitch::TripleStraight | Stitch::Slanted => Some((1.0, 3.0)),
            _ => None,
        }
    }
}
