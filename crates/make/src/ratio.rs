//! How much shorter than its edge the elastic of each arc is cut: the trade's ratios, by edge and arc.
//!
//! Never one ratio for a whole edge: the leg's elastic lies flat along the straight front and takes its ease in the curve under
//! the seat. The numbers stand in `data/trade/elastic_cut.csv`; a test holds every one here against that table.
//!
//! **Shapes and units.** Ratio = relaxed elastic / seam-line length of the arc, both mm on relaxed cloth.
//! **Source.** Common practice, no single source, but for the leg: front 1:1 from a published lesson on leg elastic, back
//! 0.87 (0.80 to 0.92) from our own solve of worn suits on rigid forms. The strap and underarm arcs are our own reasoning.
//! **Limits.** The front neckline and the brief's waist have two rules each; which one holds is read off the drafted edge.

use draft::{Draft, EdgeUse, Family, OpenEdge, OpenKind, PieceEdge};
use units::Level;

/// Where a ratio comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// A row of `data/trade/elastic_cut.csv`, named by its edge and segment.
    Table {
        /// Column `edge`.
        edge: &'static str,
        /// Column `segment`.
        segment: &'static str,
    },
    /// Our own reasoning; the table has no row for it.
    Own,
}

/// The ratio of an arc and the band it may move in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RatioBand {
    /// Least.
    pub low: f64,
    /// What is used.
    pub mid: f64,
    /// Most.
    pub high: f64,
    /// Where it comes from.
    pub source: Source,
}

const fn row(edge: &'static str, segment: &'static str, low: f64, mid: f64, high: f64) -> RatioBand {
    RatioBand {
        low,
        mid,
        high,
        source: Source::Table { edge, segment },
    }
}

const LEG_CROTCH: RatioBand = row("leg", "crotch, 40 mm each side of the crotch seam", 1.0, 1.0, 1.0);
const LEG_FRONT: RatioBand = row("leg", "front, between crotch arc and side arc", 0.95, 1.0, 1.0);
const LEG_SIDE: RatioBand = row("leg", "side, 40 mm each side of the side seam", 0.90, 0.95, 1.0);
const LEG_BACK: RatioBand = row("leg", "back, between side arc and crotch arc", 0.80, 0.87, 0.92);
const WAIST_HIP_BONE: RatioBand = row("waist", "brief, at hip bone", 0.85, 0.90, 0.95);
const WAIST_NATURAL: RatioBand = row("waist", "brief, at natural waist", 0.88, 0.92, 0.97);
const WAIST_CASING: RatioBand = row("waist", "trunks with drawcord", 0.85, 0.90, 0.95);
const NECK_FRONT: RatioBand = row("neckline", "round or scoop, front", 0.90, 0.95, 1.0);
const NECK_FRONT_V: RatioBand = row("neckline", "V, straight sides", 0.95, 0.98, 1.0);
const NECK_BACK: RatioBand = row("neckline", "low back", 0.85, 0.90, 0.95);
const ARMHOLE_FRONT: RatioBand = row("armhole", "front", 0.92, 0.95, 1.0);
const ARMHOLE_BACK: RatioBand = row("armhole", "back", 0.92, 0.95, 1.0);
const LONG_LEG: RatioBand = row("leg", "boy-leg or long leg hem", 0.90, 0.95, 1.0);
const STRAPLESS: RatioBand = row("strapless", "top edge", 0.80, 0.85, 0.90);
const UNDERBUST_FRONT: RatioBand = row("underbust", "band front", 0.95, 0.97, 1.0);
const UNDERBUST_BACK: RatioBand = row("underbust", "band back", 0.80, 0.87, 0.92);
const WRIST: RatioBand = row("wrist or ankle", "long sleeve, long leg", 0.88, 0.92, 0.97);
/// Flat over the shoulder seam, as over the crotch seam: a pull on a seam's bulk puckers it.
const STRAP: RatioBand = RatioBand {
    low: 0.95,
    mid: 1.0,
    high: 1.0,
    source: Source::Own,
};
/// As the armhole on either side of it; no row says otherwise.
const UNDERARM: RatioBand = RatioBand {
    source: Source::Own,
    ..ARMHOLE_FRONT
};

/// Which rule an edge's arcs follow.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EdgeRule {
    /// A leg cut above the thigh.
    Leg,
    /// The waist of a brief at the hip bones.
    WaistAtHipBone,
    /// The waist of a brief at the natural waist.
    WaistAtNaturalWaist,
    /// The waist of trunks, in a casing or band, with a drawcord or without.
    WaistInCasing,
    /// A neckline whose front runs level into the fold: scoop, square, high.
    NecklineRound,
    /// A neckline whose front comes to a point.
    NecklineV,
    /// An armhole.
    Armhole,
    /// Both armholes and a low back between them in one run, as of crossed straps.
    ArmholesAndBack,
    /// The upper edge of a strapless top.
    Strapless,
    /// The band or lower edge under the bust.
    Underbust,
    /// A long leg's or a top's hem with elastic in it.
    Hem,
    /// The end of a sleeve.
    Wrist,
}

impl EdgeRule {
    /// The band of an arc by its name, or `None` for a name the rule does not know.
    pub fn band(self, arc: &str) -> Option<RatioBand> {
        let band = match (self, arc) {
            (EdgeRule::Leg, "crotch") => LEG_CROTCH,
            (EdgeRule::Leg, "front") => LEG_FRONT,
            (EdgeRule::Leg, "side") => LEG_SIDE,
            (EdgeRule::Leg, "back") => LEG_BACK,
            (EdgeRule::WaistAtHipBone, "front" | "side" | "back") => WAIST_HIP_BONE,
            (EdgeRule::WaistAtNaturalWaist, "front" | "side" | "back") => WAIST_NATURAL,
            (EdgeRule::WaistInCasing, "front" | "side" | "back") => WAIST_CASING,
            (EdgeRule::NecklineRound, "front") => NECK_FRONT,
            (EdgeRule::NecklineV, "front") => NECK_FRONT_V,
            (EdgeRule::NecklineRound | EdgeRule::NecklineV, "back") => NECK_BACK,
            (EdgeRule::NecklineRound | EdgeRule::NecklineV, "strap") => STRAP,
            (EdgeRule::Armhole | EdgeRule::ArmholesAndBack, "front") => ARMHOLE_FRONT,
            (EdgeRule::Armhole | EdgeRule::ArmholesAndBack, "underarm") => UNDERARM,
            (EdgeRule::Armhole, "back") => ARMHOLE_BACK,
            (EdgeRule::Strapless, "front" | "side" | "back") => STRAPLESS,
            (EdgeRule::Underbust, "front" | "side") => UNDERBUST_FRONT,
            (EdgeRule::Underbust, "back") => UNDERBUST_BACK,
            (EdgeRule::Hem, "front" | "side" | "back") => LONG_LEG,
            (EdgeRule::Wrist, "round") => WRIST,
            // A low back gapes whatever its edge is called.
            (EdgeRule::ArmholesAndBack, "back") => NECK_BACK,
            _ => return None,
        };
        Some(band)
    }

    /// Where the rule comes from, for paper.
    pub const fn source(self) -> &'static str {
        match self {
            EdgeRule::Leg => {
                "front flat 1:1: a published lesson on leg elastic; back 0.87 (0.80 to 0.92): own, from a worn solve on \
                 rigid forms, not sewn; crotch and side: common practice, no single source"
            }
            EdgeRule::NecklineRound | EdgeRule::NecklineV => {
                "common practice, no single source; flat over the strap: own"
            }
            EdgeRule::Armhole | EdgeRule::ArmholesAndBack => {
                "common practice, no single source; the underarm as the rest: own"
            }
            EdgeRule::Underbust => "common practice, no single source: support comes from the band's back",
            EdgeRule::WaistAtHipBone
            | EdgeRule::WaistAtNaturalWaist
            | EdgeRule::WaistInCasing
            | EdgeRule::Strapless
            | EdgeRule::Hem
            | EdgeRule::Wrist => "common practice, no single source",
        }
    }
}

/// Steeper than this into the fold (45 degrees is a usual V, 0 a scoop), the front neckline is a V; radians.
const V_ANGLE: f64 = 0.26;

/// Above this share of the way from hip bones to waist, a brief's top counts as at the natural waist (own: the middle).
const WAIST_SHARE: f64 = 0.5;

/// The rule for an edge of this draft.
///
/// The front neckline is a V when it meets the fold more steeply than 15 degrees. A brief's waist is at the natural waist when
/// its top edge lies nearer to the waist (y = 0) than to the hip bones, on the flat piece. An armhole the suit has only one of
/// is both of them with the back between.
pub fn rule_for(edge: &OpenEdge, draft: &Draft) -> EdgeRule {
    match edge.kind {
        OpenKind::Leg => EdgeRule::Leg,
        OpenKind::Armhole if edge.count == 1 && armholes(draft) == 1 => EdgeRule::ArmholesAndBack,
        OpenKind::Armhole => EdgeRule::Armhole,
        OpenKind::Neckline if front_neck_is_v(draft) => EdgeRule::NecklineV,
        OpenKind::Neckline => EdgeRule::NecklineRound,
        OpenKind::Waist if draft.style.spec().family == Family::Trunks => EdgeRule::WaistInCasing,
        OpenKind::Waist if waist_is_natural(draft) => EdgeRule::WaistAtNaturalWaist,
        OpenKind::Waist => EdgeRule::WaistAtHipBone,
        OpenKind::Top => EdgeRule::Strapless,
        OpenKind::Underbust => EdgeRule::Underbust,
        OpenKind::Hem => EdgeRule::Hem,
        OpenKind::Wrist => EdgeRule::Wrist,
    }
}

/// How many armhole edges the suit lists: one for a pair, one for both in a run with the back, two for a left and a right that differ.
fn armholes(draft: &Draft) -> usize {
    let all = draft.open_edges.iter();
    all.filter(|e| e.kind == OpenKind::Armhole).count()
}

/// Open edges of a kind with the key of the piece they are on.
fn open_edges(draft: &Draft, kind: OpenKind) -> impl Iterator<Item = (&str, &PieceEdge)> {
    draft.pieces.iter().flat_map(move |piece| {
        let edges = piece
            .edges
            .iter()
            .filter(move |edge| edge.role == EdgeUse::Open(kind));
        edges.map(|edge| (piece.key.as_str(), edge))
    })
}

fn front_neck_is_v(draft: &Draft) -> bool {
    open_edges(draft, OpenKind::Neckline)
        .filter(|(piece, _)| !piece.starts_with("back"))
        .filter_map(|(_, edge)| {
            // The end on the fold is the one at x = 0, whichever way the outline runs.
            let (start, end) = (edge.curve.start(), edge.curve.end());
            let tangent = match (start.x.abs() < 1e-6, end.x.abs() < 1e-6) {
                (true, _) => edge.curve.start_tangent(),
                (_, true) => edge.curve.end_tangent(),
                _ => return None,
            };
            Some(tangent.y.abs().atan2(tangent.x.abs()))
        })
        .any(|angle| angle > V_ANGLE)
}

fn waist_is_natural(draft: &Draft) -> bool {
    let heights: Vec<f64> = open_edges(draft, OpenKind::Waist)
        .flat_map(|(_, edge)| [edge.curve.start().y, edge.curve.end().y])
        .collect();
    if heights.is_empty() {
        return false;
    }
    let top = heights.iter().sum::<f64>() / heights.len() as f64;
    let level = |wanted: Level| draft.levels.iter().find(|l| l.level == wanted).map(|l| l.y_mm);
    // The hip bones are drafted half way from waist to hip.
    match level(Level::HighHip).or_else(|| level(Level::Hip).map(|y| y / 2.0)) {
        Some(hip_bones) if hip_bones < 0.0 => top / hip_bones < 1.0 - WAIST_SHARE,
        _ => top >= 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every band there is, for checking against the table.
    const ALL: [RatioBand; 19] = [
        WAIST_CASING,
        LONG_LEG,
        STRAPLESS,
        UNDERBUST_FRONT,
        UNDERBUST_BACK,
        WRIST,
        LEG_CROTCH,
        LEG_FRONT,
        LEG_SIDE,
        LEG_BACK,
        WAIST_HIP_BONE,
        WAIST_NATURAL,
        NECK_FRONT,
        NECK_FRONT_V,
        NECK_BACK,
        ARMHOLE_FRONT,
        ARMHOLE_BACK,
        STRAP,
        UNDERARM,
    ];

    /// Source: `data/trade/elastic_cut.csv`.
    #[test]
    fn every_ratio_is_the_tables() {
        let table = include_str!("../../../data/trade/elastic_cut.csv");
        let rows = fixtures::rows(table);
        assert_eq!(rows.len(), 20);
        let mut checked = 0;
        for band in ALL {
            let Source::Table { edge, segment } = band.source else {
                continue;
            };
            let row = rows.iter().find(|r| r[0] == edge && r[1] == segment);
            let row = row.unwrap_or_else(|| panic!("the table has no row {edge}: {segment}"));
            let number = |i: usize| row[i].parse::<f64>().unwrap();
            assert_eq!(
                (band.low, band.mid, band.high),
                (number(2), number(3), number(4)),
                "{edge}: {segment}"
            );
            checked += 1;
        }
        assert_eq!(checked, 17);
    }

    #[test]
    fn an_arc_no_rule_knows_has_no_band() {
        assert_eq!(EdgeRule::Leg.band("strap"), None);
        assert_eq!(EdgeRule::Armhole.band("crotch"), None);
    }
}
