//! The elastic a suit is judged with: how strong it is, how far it goes, and how short it is cut for each arc.
//!
//! Plain data, so that the making plan's real ratios can be handed in; the default is what the trade cuts and an elastic
//! nobody measured.
//!
//! **Shapes and units.** Force in N at double length; ratio = relaxed elastic / seam-line length of its arc; extensions are
//! ratios of the elastic's own relaxed length.
//! **Source.** Ratios: `data/trade/elastic_cut.csv`, common practice, the back of the leg own. Working extension 60 to 100 %
//! of swim elastic: `data/trade/elastics.csv`, common practice. Force and the once-over limit: own.

use draft::{OpenEdge, OpenKind};

/// Force at double length of an elastic nobody measured, N (own; swim elastics of 6 to 10 mm feel like 3 to 8).
pub const ASSUMED_K_NEWTON: f64 = 5.0;
/// How far a swim elastic may be stretched in wear: the low end of its 60 to 100 % (common practice).
pub const WORKING_EXTENSION: f64 = 0.60;
/// How far it may go once, when the suit is pulled on: the high end (own).
pub const ONCE_OVER_EXTENSION: f64 = 1.00;

/// Elastic cut for one arc of an edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ArcElastic {
    /// Which edge.
    pub edge: OpenKind,
    /// Which arc, by its name on the draft: `front`, `back`, `crotch`, ...
    pub arc: &'static str,
    /// Relaxed elastic / arc, above 0, usually 0.8 to 1.
    pub ratio: f64,
}

/// The elastic of a suit as far as fit needs it. Numbers must be finite and above 0; they are checked where the elastic is
/// chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct ElasticAssumption {
    /// Force at double length, N.
    pub k_newton: f64,
    /// How far it may be stretched in wear and at waist and leg, a ratio.
    pub working_extension: f64,
    /// How far it may go once over the hips at the neckline, a ratio.
    pub once_over_extension: f64,
    /// How far the stitch along the elastic stretches before it pops, a ratio; `None` if unknown, and then not judged.
    pub seam_extension: Option<f64>,
    /// Elastic by arc. An arc that is not listed takes the ratio of `front` or `back` of its edge if that is; an edge without
    /// any entry has no elastic.
    pub arcs: Vec<ArcElastic>,
}

impl Default for ElasticAssumption {
    fn default() -> Self {
        let arc = |edge, arc, ratio| ArcElastic { edge, arc, ratio };
        ElasticAssumption {
            k_newton: ASSUMED_K_NEWTON,
            working_extension: WORKING_EXTENSION,
            once_over_extension: ONCE_OVER_EXTENSION,
            seam_extension: None,
            arcs: vec![
                arc(OpenKind::Leg, "crotch", 1.0),
                arc(OpenKind::Leg, "front", 1.0),
                arc(OpenKind::Leg, "side", 0.95),
                arc(OpenKind::Leg, "back", 0.87),
                arc(OpenKind::Waist, "front", 0.90),
                arc(OpenKind::Waist, "back", 0.90),
                arc(OpenKind::Neckline, "front", 0.95),
                arc(OpenKind::Neckline, "strap", 1.0),
                arc(OpenKind::Neckline, "back", 0.90),
                arc(OpenKind::Armhole, "front", 0.95),
                arc(OpenKind::Armhole, "underarm", 0.95),
                arc(OpenKind::Armhole, "back", 0.95),
            ],
        }
    }
}

impl ElasticAssumption {
    /// Ratio of an arc, if it is listed.
    pub fn ratio(&self, edge: OpenKind, arc: &str) -> Option<f64> {
        self.arcs
            .iter()
            .find(|a| a.edge == edge && a.arc == arc)
            .map(|a| a.ratio)
    }

    /// The least ratio along an edge: where its elastic is stretched furthest. `None` for an edge without elastic.
    pub(crate) fn least_ratio(&self, edge: &OpenEdge) -> Option<f64> {
        edge.arcs
            .iter()
            .filter_map(|a| self.ratio(edge.kind, a.name))
            .reduce(f64::min)
    }
}
