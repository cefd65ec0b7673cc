//! The workroom: machines, needles and threads at hand. A plan uses only what is here, and says what a missing machine would add.
//!
//! **Shapes and units.** mm; needle sizes NM (blade in hundredths of a millimetre); thread in Tex.
//! **Source.** Which machine forms which stitch: `data/trade/stitches.csv`, column `machine`. Presets: common practice, no source.

use serde::Serialize;
use units::Mm;

use crate::needle::Needle;
use crate::stitch::Stitch;
use crate::thread::ThreadStock;

/// What a maker sews with.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Workroom {
    /// Machines, in the order she lists them.
    pub machines: Vec<Machine>,
    /// Needles in stock.
    pub needles: Vec<NeedleStock>,
    /// Threads in stock.
    pub threads: Vec<ThreadStock>,
}

/// So many needles of a kind.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct NeedleStock {
    /// Which.
    pub needle: Needle,
    /// How many.
    pub count: u32,
}

/// One machine.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Machine {
    /// Her name for it.
    pub name: String,
    /// What it forms.
    pub kind: MachineKind,
    /// Presser feet beside the usual one.
    pub feet: Vec<Foot>,
    /// Width of its usual presser foot, mm: what an edge is led along.
    pub foot_width: Mm,
    /// Whether its front feed can be set to gather or stretch.
    pub has_differential_feed: bool,
    /// Whether the pressure of its foot can be set.
    pub has_foot_pressure: bool,
}

/// What a machine forms.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum MachineKind {
    /// Needle and bobbin.
    Lockstitch {
        /// Greatest zigzag width; zero on a machine that sews straight only.
        most_width: Mm,
        /// Its stretch and utility stitches beside straight and plain zigzag.
        utility: Vec<Stitch>,
        /// Greatest spacing of a twin needle it takes; none if it takes none.
        twin_needle: Option<Mm>,
    },
    /// Overlocker with a knife.
    Overlocker {
        /// Threads: 3, 4, or both.
        threads: OverlockThreads,
    },
    /// Coverstitch machine.
    Coverstitch {
        /// Needles: 2 or 3.
        needles: u8,
        /// Whether it has a looper above as well.
        has_top_cover: bool,
        /// Whether it also sews the two-thread chainstitch.
        has_chain: bool,
    },
}

/// How an overlocker can be threaded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum OverlockThreads {
    /// Three only.
    Three,
    /// Four, or three with a needle taken out.
    ThreeOrFour,
}

/// Presser feet that matter on a swim knit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Foot {
    /// Walking (upper feed) foot.
    Walking,
    /// Roller foot.
    Roller,
    /// Zip foot.
    Zip,
    /// Elastic guide.
    Elastic,
}

/// Workrooms to start from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Preset {
    /// One machine that sews a straight stitch and nothing else.
    StraightOnly,
    /// One zigzag machine with utility stitches and a twin needle.
    Zigzag,
    /// That and a four-thread overlocker.
    ZigzagOverlocker,
    /// Those and a coverstitch machine.
    Coverstitch,
}

impl Preset {
    /// Every preset, the barest first.
    pub const ALL: [Preset; 4] = [
        Preset::StraightOnly,
        Preset::Zigzag,
        Preset::ZigzagOverlocker,
        Preset::Coverstitch,
    ];

    /// The name in files: `zigzag-overlocker`.
    pub const fn key(self) -> &'static str {
        match self {
            Preset::StraightOnly => "straight-only",
            Preset::Zigzag => "zigzag",
            Preset::ZigzagOverlocker => "zigzag-overlocker",
            Preset::Coverstitch => "coverstitch",
        }
    }

    /// The preset of that key.
    pub fn from_key(key: &str) -> Option<Preset> {
        Preset::ALL.into_iter().find(|p| p.key() == key)
    }

    /// The machines of it; no stock of needles or threads is taken for granted.
    pub fn workroom(self) -> Workroom {
        let count = match self {
            Preset::StraightOnly => return Workroom::of(vec![Machine::straight()]),
            Preset::Zigzag => 1,
            Preset::ZigzagOverlocker => 2,
            Preset::Coverstitch => 3,
        };
        let all = [Machine::zigzag(), Machine::overlocker(), Machine::coverstitch()];
        Workroom::of(all.into_iter().take(count).collect())
    }
}

impl Workroom {
    /// Machines without any stock.
    pub fn of(machines: Vec<Machine>) -> Workroom {
        Workroom {
            machines,
            needles: Vec::new(),
            threads: Vec::new(),
        }
    }

    /// The first machine that forms a stitch as wide as that, by its place in the list.
    pub fn machine_for(&self, stitch: Stitch, width: Mm) -> Option<usize> {
        self.machines.iter().position(|m| m.forms(stitch, width))
    }
}

impl Machine {
    fn new(name: &str, kind: MachineKind, has_differential_feed: bool) -> Machine {
        Machine {
            name: name.to_owned(),
            kind,
            feet: Vec::new(),
            foot_width: Mm::new(7.0),
            has_differential_feed,
            has_foot_pressure: true,
        }
    }

    /// A machine that sews straight and nothing else.
    pub fn straight() -> Machine {
        let kind = MachineKind::Lockstitch {
            most_width: Mm::ZERO,
            utility: Vec::new(),
            twin_needle: None,
        };
        Machine::new("Straight-stitch machine", kind, false)
    }

    /// A household zigzag machine: 6 mm wide, three-step, triple straight, slanted, twin needle 4 mm.
    pub fn zigzag() -> Machine {
        let kind = MachineKind::Lockstitch {
            most_width: Mm::new(6.0),
            utility: vec![Stitch::ThreeStep, Stitch::TripleStraight, Stitch::Slanted],
            twin_needle: Some(Mm::new(4.0)),
        };
        Machine::new("Zigzag machine", kind, false)
    }

    /// A four-thread overlocker with differential feed.
    pub fn overlocker() -> Machine {
        let kind = MachineKind::Overlocker {
            threads: OverlockThreads::ThreeOrFour,
        };
        Machine::new("Four-thread overlocker", kind, true)
    }

    /// A three-needle coverstitch machine without a looper above, with differential feed.
    pub fn coverstitch() -> Machine {
        let kind = MachineKind::Coverstitch {
            needles: 3,
            has_top_cover: false,
            has_chain: true,
        };
        Machine::new("Coverstitch machine", kind, true)
    }

    /// Whether it forms a stitch as wide as that.
    pub fn forms(&self, stitch: Stitch, width: Mm) -> bool {
        match &self.kind {
            MachineKind::Lockstitch {
                most_width,
                utility,
                twin_needle,
            } => match stitch {
                Stitch::Straight => true,
                Stitch::Zigzag => width > Mm::ZERO && width <= *most_width,
                Stitch::TwinNeedle => twin_needle.is_some_and(|most| width <= most),
                Stitch::TripleStraight => utility.contains(&stitch),
                Stitch::ThreeStep | Stitch::Slanted | Stitch::HouseholdOverlock => {
                    utility.contains(&stitch) && width <= *most_width
                }
                _ => false,
            },
            MachineKind::Overlocker { threads } => match stitch {
                Stitch::ThreeThreadOveredge => true,
                Stitch::FourThreadOverlock => *threads == OverlockThreads::ThreeOrFour,
                _ => false,
            },
            MachineKind::Coverstitch {
                needles,
                has_top_cover,
                has_chain,
            } => match stitch {
                Stitch::TwoNeedleCover => *needles >= 2,
                Stitch::ThreeNeedleCover => *needles >= 3,
                Stitch::TopAndBottomCover => *has_top_cover && *needles >= 2,
                Stitch::Chain => *has_chain,
                _ => false,
            },
        }
    }
}
