//! The way in: can the body pass each opening, by the least of cloth, elastic and seam.
//!
//! A suit is smaller than its wearer; to be put on, its waist must pass her hips, the ring of neckline and back opening
//! too, and each leg the top of the thigh. Needed stretch over what the opening has is the share.
//!
//! ```text
//! needed = C / L0 - 1        C girth that passes, L0 opening at rest
//! cloth along an edge = S_around cos^2 + S_lengthwise sin^2, mean over the edge
//! elastic = ratio (1 + its limit) - 1, at the arc with the least ratio
//! ```
//!
//! Waist, leg, band, hem, neck and wrist: share of the least of the three, good to 0.70, watch to 0.85; what is pulled over once
//! (band, hem, neck, wrist) by how far the elastic goes once, not by what it works at (own). The neckline ring has its own rule, because
//! the strap cloth gives past its test load for a moment: cloth share good to 1.00, watch to 1.40; 1.15 x needed (the back
//! edge gets that much more than the mean) over elastic and seam, good to 0.85, watch to 1.00.
//!
//! A closure adds both sides of its slit to L0, or takes the ring away altogether.
//!
//! **Source.** All limits own; the ring's from our own solves of a suit's upper half on a smooth cylinder of hip girth (edge
//! load in N/cm about 2.1 share^1.8). That every opening must pass the widest part is common practice.
//! **Limits.** Nobody has stepped in for these; no friction; tilting the ring saves about 1 % and is not counted.

use cloth::ClothPlan;
use draft::{Draft, Family, OpenKind, Opened, Opening, OpeningKind};
use units::{Finding, Limit, Mm, Severity, Stretch};

use crate::elastic::ElasticAssumption;
use crate::report::WayIn;

/// The waist of trunks holds a knitted elastic of its own, which works to this: the low end of `data/trade/elastics.csv`, knitted.
const CASING_EXTENSION: f64 = 0.80;
/// Share at waist and leg up to which it is good, and up to which it is watched.
pub const SHARE_LIMITS: (f64, f64) = (0.70, 0.85);
/// The same of the neckline ring's cloth.
pub const RING_CLOTH_LIMITS: (f64, f64) = (1.00, 1.40);
/// The same of the neckline ring's elastic and seam.
pub const RING_ELASTIC_LIMITS: (f64, f64) = (0.85, 1.00);
/// The back edge of the ring is stretched this much more than its mean (own, solved: 1.06 to 1.18).
pub const RING_BACK_EDGE: f64 = 1.15;
/// What can hardly stretch is taken to stretch this much, so that a share stays a number.
const LEAST_USABLE: f64 = 0.01;
/// A waist widened to just 0.85 is not past it for the last bit's sake.
const ROUNDING: f64 = 1e-6;

fn graded(share: f64, (good, watch): (f64, f64)) -> Severity {
    if share <= good + ROUNDING {
        Severity::Good
    } else if share <= watch + ROUNDING {
        Severity::Watch
    } else {
        Severity::Stop
    }
}

/// Judges every opening of the draft, in its order, with one finding each.
pub(crate) fn judge(
    cloth: &ClothPlan,
    draft: &Draft,
    elastic: &ElasticAssumption,
    findings: &mut Vec<Finding>,
) -> Vec<WayIn> {
    draft
        .openings
        .iter()
        .map(|opening| {
            let judged = Judged::of(opening, cloth, draft, elastic);
            findings.push(judged.finding());
            judged.way_in
        })
        .collect()
}

struct Judged {
    kind: OpeningKind,
    opened: Opened,
    way_in: WayIn,
    /// What decides: its name, its share and its limits.
    governs: (&'static str, f64, (f64, f64)),
}

impl Judged {
    fn of(opening: &Opening, cloth: &ClothPlan, draft: &Draft, elastic: &ElasticAssumption) -> Judged {
        let (name, edge_kind) = match opening.kind {
            OpeningKind::Waist => ("waist", OpenKind::Waist),
            OpeningKind::NecklineRing => ("neckline and back opening", OpenKind::Neckline),
            OpeningKind::Leg => ("leg", OpenKind::Leg),
            OpeningKind::Band => ("band", OpenKind::Underbust),
            OpeningKind::Hem => ("hem", OpenKind::Hem),
            OpeningKind::Head => ("neck", OpenKind::Neckline),
            OpeningKind::Wrist => ("wrist", OpenKind::Wrist),
        };
        let is_ring = opening.kind == OpeningKind::NecklineRing;
        // An open closure gives its length to the ring, or there is no ring to pass.
        let open_mm = match opening.opened {
            Opened::Not => opening.rest_mm,
            Opened::By(more_mm) => opening.rest_mm + more_mm.max(0.0),
            Opened::Fully => f64::INFINITY,
        };
        let needed = if open_mm > 0.0 {
            (opening.passes_mm / open_mm - 1.0).max(0.0)
        } else {
            0.0
        };
        let around = opening.around_share;
        let cloth_stretch = cloth.around.ratio() * around + cloth.lengthwise.ratio() * (1.0 - around);
        let cloth_share = needed / cloth_stretch.max(LEAST_USABLE);
        let edge = draft.open_edges.iter().find(|e| e.kind == edge_kind);
        // What is pulled over once and let go takes its elastic further than what is worn stretched.
        let is_pulled_over = matches!(
            opening.kind,
            OpeningKind::Band | OpeningKind::Hem | OpeningKind::Head | OpeningKind::Wrist
        );
        let limit = if is_ring || is_pulled_over {
            elastic.once_over_extension
        } else if opening.kind == OpeningKind::Waist && draft.style.spec().family == Family::Trunks {
            elastic.working_extension.max(CASING_EXTENSION)
        } else {
            elastic.working_extension
        };
        let beside_needed = if is_ring { RING_BACK_EDGE * needed } else { needed };
        let elastic_share = edge
            .and_then(|e| elastic.least_ratio(e))
            .map(|ratio| beside_needed / (ratio * (1.0 + limit) - 1.0).max(LEAST_USABLE));
        let seam_share = edge
            .and(elastic.seam_extension)
            .map(|seam| beside_needed / seam.max(LEAST_USABLE));

        let (cloth_limits, beside_limits) = if is_ring {
            (RING_CLOTH_LIMITS, RING_ELASTIC_LIMITS)
        } else {
            (SHARE_LIMITS, SHARE_LIMITS)
        };
        let mut governs = ("cloth", cloth_share, cloth_limits);
        for (what, share) in [("elastic", elastic_share), ("edge's stitch", seam_share)] {
            let Some(share) = share else { continue };
            let (worse, than) = (graded(share, beside_limits), graded(governs.1, governs.2));
            if worse > than || (worse == than && share / beside_limits.1 > governs.1 / governs.2.1) {
                governs = (what, share, beside_limits);
            }
        }
        Judged {
            kind: opening.kind,
            opened: opening.opened,
            way_in: WayIn {
                opening: name,
                rest: Mm::new(opening.rest_mm),
                passes: Mm::new(opening.passes_mm),
                needed,
                cloth_stretch,
                cloth_share,
                elastic_share,
                seam_share,
                severity: graded(governs.1, governs.2),
            },
            governs,
        }
    }

    fn finding(&self) -> Finding {
        let way_in = &self.way_in;
        let (what, share, (good, watch)) = self.governs;
        let (code, over) = match self.kind {
            OpeningKind::Waist => ("way_in.waist", "the hips"),
            OpeningKind::NecklineRing => ("way_in.neckline", "the hips"),
            OpeningKind::Leg => ("way_in.leg", "the thigh"),
            OpeningKind::Band => ("way_in.band", "bust and shoulders"),
            OpeningKind::Hem => ("way_in.hem", "bust and shoulders"),
            OpeningKind::Head => ("way_in.head", "the head"),
            OpeningKind::Wrist => ("way_in.wrist", "the hand"),
        };
        let goes = match way_in.severity {
            Severity::Good => format!("goes over {over}"),
            Severity::Watch => format!("goes over {over} with effort"),
            Severity::Stop => format!("does not go over {over}"),
        };
        let remedy = match (way_in.severity, what, self.kind) {
            (Severity::Good, ..) => String::new(),
            (_, "elastic", _) => {
                "cut the elastic longer, up to 1:1, or test how far it really goes and enter that".to_owned()
            }
            (_, "edge's stitch", _) => {
                "sew the edge with a stitch that stretches further, or with an elastic thread".to_owned()
            }
            (_, _, OpeningKind::NecklineRing) => {
                "lower the neckline or the back, choose a softer cloth, or put in a closure: a zip or a clasp at the back, [design.closure]"
                    .to_owned()
            }
            (_, _, OpeningKind::Waist) => {
                "choose a cloth that stretches further around, or put in a closure that runs past the waist: a zip, [design.closure]"
                    .to_owned()
            }
            (_, _, OpeningKind::Leg) => "cut the leg higher, or choose a looser fit or a softer cloth".to_owned(),
            (_, _, OpeningKind::Band | OpeningKind::Hem) => {
                "put in an opening at the back (hook or clasp), or choose a cloth that stretches further around".to_owned()
            }
            (_, _, OpeningKind::Head) => "make the neck wider or deeper, or put in a zip".to_owned(),
            (_, _, OpeningKind::Wrist) => "make the sleeve's end wider".to_owned(),
        };
        let open = match self.opened {
            Opened::Not => "",
            Opened::By(_) | Opened::Fully => ", with its closure open",
        };
        Finding {
            code,
            severity: way_in.severity,
            place: way_in.opening.to_owned(),
            message: format!(
                "{goes}{open}: needs {} stretch, {share:.2} of what the {what} gives",
                Stretch::from_ratio(way_in.needed)
            ),
            value: Some(share),
            limit: Some(Limit {
                text: match way_in.severity {
                    Severity::Stop => format!("{watch:.2}"),
                    _ => format!("{good:.2}"),
                },
                source: "own",
            }),
            remedy,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_on_its_limit_is_within_it() {
        assert_eq!(graded(0.70, SHARE_LIMITS), Severity::Good);
        assert_eq!(graded(0.85 + 1e-9, SHARE_LIMITS), Severity::Watch);
        assert_eq!(graded(0.8501, SHARE_LIMITS), Severity::Stop);
        assert_eq!(graded(1.0, RING_CLOTH_LIMITS), Severity::Good);
        assert_eq!(graded(1.41, RING_CLOTH_LIMITS), Severity::Stop);
    }
}
