//! Jobs of the needle: what is sewn, how the plies lie, and which stitches with which settings are tried for it, best first.
//!
//! **Shapes and units.** mm.
//! **Source.** Settings: `data/trade/stitch_settings.csv`; classes of seams: `data/trade/seams.csv` (ISO 4916, class names only: what the
//! sub-numbers mean was not read). The order of preference is common practice: a cover stitch or twin needle for hems, three-step zigzag
//! to anchor elastic, triple straight to topstitch, overlock to join.

use serde::Serialize;

use crate::stitch::Stitch;

/// What the needle does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Job {
    /// Two edges joined.
    Join,
    /// The crotch seam: narrow, flat, under load.
    Crotch,
    /// Edges held together, to stay.
    LayerBaste,
    /// Held together until it has been tried on.
    Baste,
    /// A raw edge that stays free.
    Neaten,
    /// Fullness drawn in.
    Gather,
    /// Two ends of elastic lapped to a ring.
    ElasticRing,
    /// Elastic to a raw edge, or to a seam it stays.
    Anchor,
    /// An edge turned in with its elastic and topstitched.
    EdgeTopstitch,
    /// A row on the right side through a seam, facing or band.
    Topstitch,
    /// A plain turned hem.
    Hem,
    /// A casing for wide elastic or a cord.
    Casing,
    /// Cups, pockets and channels to the lining.
    Cups,
    /// A strap or tie sewn to a tube.
    Tube,
    /// A bar at the end of a strap, at a ring or hook.
    BarTack,
    /// A skirt to the suit.
    SkirtJoin,
    /// A zip.
    Zip,
}

/// Class of seam, ISO 4916: number and name only.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct SeamClass {
    /// 1 to 8.
    pub number: u8,
    /// Key of its name: `seam_class.superimposed`.
    pub key: &'static str,
}

/// A stitch with its settings, before thread and needle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Candidate {
    pub(crate) stitch: Stitch,
    pub(crate) width: f64,
    pub(crate) length: f64,
    /// Rows sewn side by side.
    pub(crate) rows: u8,
}

const fn set(stitch: Stitch, width: f64, length: f64, rows: u8) -> Candidate {
    Candidate {
        stitch,
        width,
        length,
        rows,
    }
}

use Stitch::{
    Chain, FourThreadOverlock, HouseholdOverlock, Slanted, Straight, ThreeStep, ThreeThreadOveredge,
    TopAndBottomCover, TripleStraight, TwinNeedle, TwoNeedleCover, Zigzag,
};

const JOIN: &[Candidate] = &[
    set(FourThreadOverlock, 6.0, 2.3, 1),
    set(ThreeThreadOveredge, 5.0, 2.5, 1),
    set(Zigzag, 1.0, 2.0, 2),
    set(Slanted, 1.0, 2.5, 1),
    set(Zigzag, 1.5, 2.0, 2),
    set(Zigzag, 2.0, 2.0, 2),
    set(Zigzag, 2.5, 1.5, 2),
    set(HouseholdOverlock, 6.0, 2.5, 1),
    set(ThreeStep, 5.0, 1.3, 1),
    set(TripleStraight, 0.0, 2.5, 1),
    set(Chain, 0.0, 2.7, 1),
    set(Straight, 0.0, 2.5, 1),
];
/// Narrow and strong: the triple straight before the wide zigzags, where it reaches.
const CROTCH: &[Candidate] = &[
    set(FourThreadOverlock, 6.0, 2.3, 1),
    set(ThreeThreadOveredge, 5.0, 2.5, 1),
    set(TripleStraight, 0.0, 2.5, 1),
    set(Zigzag, 1.0, 2.0, 2),
    set(Slanted, 1.0, 2.5, 1),
    set(Zigzag, 1.5, 2.0, 2),
    set(Zigzag, 2.0, 2.0, 2),
    set(Chain, 0.0, 2.7, 1),
    set(Straight, 0.0, 2.5, 1),
];
const LAYER_BASTE: &[Candidate] = &[set(Zigzag, 1.5, 3.0, 1), set(Straight, 0.0, 4.0, 1)];
const BASTE: &[Candidate] = &[
    set(Straight, 0.0, 4.0, 1),
    set(Zigzag, 1.5, 3.0, 1),
    set(Chain, 0.0, 4.0, 1),
];
const NEATEN: &[Candidate] = &[
    set(ThreeThreadOveredge, 5.0, 2.5, 1),
    set(ThreeStep, 5.0, 1.3, 1),
    set(Zigzag, 3.0, 2.0, 1),
    set(Straight, 0.0, 2.5, 1),
];
const GATHER: &[Candidate] = &[set(Straight, 0.0, 4.0, 2), set(Zigzag, 1.5, 3.0, 1)];
const RING: &[Candidate] = &[
    set(Zigzag, 3.0, 1.5, 2),
    set(ThreeStep, 5.0, 1.3, 2),
    set(Straight, 0.0, 2.5, 2),
    set(TwoNeedleCover, 5.6, 2.5, 1),
];
const ANCHOR: &[Candidate] = &[
    set(ThreeThreadOveredge, 5.0, 2.5, 1),
    set(ThreeStep, 5.0, 1.3, 1),
    set(Zigzag, 4.0, 2.0, 1),
    set(ThreeStep, 6.0, 1.0, 1),
    set(Zigzag, 5.0, 1.5, 1),
    set(HouseholdOverlock, 6.0, 2.5, 1),
    set(FourThreadOverlock, 6.0, 2.5, 1),
    set(Straight, 0.0, 2.5, 1),
];
const EDGE_TOPSTITCH: &[Candidate] = &[
    set(TwoNeedleCover, 5.6, 2.7, 1),
    set(TopAndBottomCover, 5.6, 2.5, 1),
    set(ThreeStep, 5.0, 1.3, 1),
    set(Zigzag, 3.0, 2.5, 1),
    set(Zigzag, 4.0, 2.0, 1),
    set(ThreeStep, 6.0, 1.0, 1),
    set(Zigzag, 5.0, 1.5, 1),
    set(TwinNeedle, 4.0, 3.0, 1),
    set(TwinNeedle, 2.5, 3.0, 1),
    set(TripleStraight, 0.0, 3.0, 1),
    set(Straight, 0.0, 3.0, 1),
];
const TOPSTITCH: &[Candidate] = &[
    set(TripleStraight, 0.0, 3.0, 1),
    set(TwoNeedleCover, 5.6, 2.7, 1),
    set(Zigzag, 1.5, 2.5, 1),
    set(Zigzag, 3.0, 2.5, 1),
    set(ThreeStep, 5.0, 1.3, 1),
    set(Straight, 0.0, 3.0, 1),
];
const HEM: &[Candidate] = &[
    set(TwoNeedleCover, 5.6, 2.7, 1),
    set(TwinNeedle, 4.0, 3.0, 1),
    set(TwinNeedle, 2.5, 3.0, 1),
    set(ThreeStep, 5.0, 1.3, 1),
    set(Zigzag, 3.0, 2.5, 1),
    set(Zigzag, 4.0, 2.0, 1),
    set(ThreeStep, 6.0, 1.0, 1),
    set(Straight, 0.0, 3.0, 1),
];
const CASING: &[Candidate] = &[
    set(TwoNeedleCover, 5.6, 2.7, 1),
    set(ThreeStep, 5.0, 1.3, 1),
    set(Zigzag, 3.0, 2.5, 1),
    set(Chain, 0.0, 2.7, 1),
    set(Zigzag, 4.0, 2.0, 1),
    set(ThreeStep, 6.0, 1.0, 1),
    set(Straight, 0.0, 3.0, 1),
];
const CUPS: &[Candidate] = &[set(Zigzag, 2.5, 2.5, 1), set(Straight, 0.0, 2.5, 1)];
const TUBE: &[Candidate] = &[
    set(ThreeThreadOveredge, 3.0, 2.0, 1),
    set(Zigzag, 3.0, 2.0, 1),
    set(Slanted, 1.0, 2.5, 1),
    set(TripleStraight, 0.0, 2.5, 1),
    set(Straight, 0.0, 2.5, 1),
];
const BAR_TACK: &[Candidate] = &[
    set(Zigzag, 2.0, 0.4, 1),
    set(TripleStraight, 0.0, 2.5, 2),
    set(Straight, 0.0, 2.0, 3),
];
const SKIRT_JOIN: &[Candidate] = &[
    set(ThreeThreadOveredge, 5.0, 2.5, 1),
    set(FourThreadOverlock, 6.0, 2.5, 1),
    set(ThreeStep, 5.0, 1.3, 1),
    set(Zigzag, 2.5, 1.5, 1),
    set(Zigzag, 4.0, 2.0, 1),
    set(ThreeStep, 6.0, 1.0, 1),
    set(Straight, 0.0, 2.5, 1),
];
const ZIP: &[Candidate] = &[set(Straight, 0.0, 2.5, 1)];

impl Job {
    /// Every job.
    pub const ALL: [Job; 17] = [
        Job::Join,
        Job::Crotch,
        Job::LayerBaste,
        Job::Baste,
        Job::Neaten,
        Job::Gather,
        Job::ElasticRing,
        Job::Anchor,
        Job::EdgeTopstitch,
        Job::Topstitch,
        Job::Hem,
        Job::Casing,
        Job::Cups,
        Job::Tube,
        Job::BarTack,
        Job::SkirtJoin,
        Job::Zip,
    ];

    /// Key of its name.
    pub const fn key(self) -> &'static str {
        match self {
            Job::Join => "job.join",
            Job::Crotch => "job.crotch",
            Job::LayerBaste => "job.layer_baste",
            Job::Baste => "job.baste",
            Job::Neaten => "job.neaten",
            Job::Gather => "job.gather",
            Job::ElasticRing => "job.elastic_ring",
            Job::Anchor => "job.anchor",
            Job::EdgeTopstitch => "job.edge_topstitch",
            Job::Topstitch => "job.topstitch",
            Job::Hem => "job.hem",
            Job::Casing => "job.casing",
            Job::Cups => "job.cups",
            Job::Tube => "job.tube",
            Job::BarTack => "job.bar_tack",
            Job::SkirtJoin => "job.skirt_join",
            Job::Zip => "job.zip",
        }
    }

    /// Whether it is stretched in wear, so that a single straight row is never safe in it, whatever a formula says of it: "never a
    /// load seam across the stretch".
    pub const fn is_load(self) -> bool {
        matches!(
            self,
            Job::Join
                | Job::Crotch
                | Job::Anchor
                | Job::EdgeTopstitch
                | Job::Topstitch
                | Job::Hem
                | Job::Casing
                | Job::Tube
                | Job::SkirtJoin
        )
    }

    /// Whether elastic or foam lies under the needle as well.
    pub const fn has_elastic(self) -> bool {
        matches!(
            self,
            Job::ElasticRing
                | Job::Anchor
                | Job::EdgeTopstitch
                | Job::Casing
                | Job::Cups
                | Job::SkirtJoin
                | Job::BarTack
        )
    }

    /// Class of seam.
    pub const fn seam_class(self) -> SeamClass {
        let (number, key) = match self {
            Job::Join | Job::Crotch | Job::LayerBaste | Job::Baste | Job::SkirtJoin | Job::Zip => {
                (1, "seam_class.superimposed")
            }
            Job::ElasticRing | Job::Cups => (2, "seam_class.lapped"),
            Job::Topstitch | Job::Gather => (5, "seam_class.ornamental"),
            Job::Neaten | Job::EdgeTopstitch | Job::Hem | Job::Casing => (6, "seam_class.edge_finishing"),
            Job::Anchor => (7, "seam_class.attaching"),
            Job::Tube | Job::BarTack => (8, "seam_class.single_ply"),
        };
        SeamClass { number, key }
    }

    /// Stitches tried for it, best first.
    pub(crate) const fn candidates(self) -> &'static [Candidate] {
        match self {
            Job::Join => JOIN,
            Job::Crotch => CROTCH,
            Job::LayerBaste => LAYER_BASTE,
            Job::Baste => BASTE,
            Job::Neaten => NEATEN,
            Job::Gather => GATHER,
            Job::ElasticRing => RING,
            Job::Anchor => ANCHOR,
            Job::EdgeTopstitch => EDGE_TOPSTITCH,
            Job::Topstitch => TOPSTITCH,
            Job::Hem => HEM,
            Job::Casing => CASING,
            Job::Cups => CUPS,
            Job::Tube => TUBE,
            Job::BarTack => BAR_TACK,
            Job::SkirtJoin => SKIRT_JOIN,
            Job::Zip => ZIP,
        }
    }
}
