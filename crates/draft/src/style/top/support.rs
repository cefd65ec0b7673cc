//! What a style needs to hold this wearer's bust, and what it says when it cannot.
//!
//! The cup difference, bust less under-bust, stands for how much there is to hold. Each need has a threshold in it; a style has a
//! difference up to which it can hold at all.
//!
//! **Shapes and units.** mm on the body.
//! **Source.** Cup letters by difference: EN 13402, through `data/trade/cups.csv`, where its grade stands; foam sizes common practice.
//! Every threshold and every capacity of a style: own, never tried on a body, and shown so.
//! **Limits.** Girth says nothing of weight or firmness. Past 250 mm a toile comes first.

use units::{Finding, Limit, Severity};

use super::words::{Mesh, Sides};
use crate::design::{Cups, LiningCover};
use crate::piece::EdgeUse;
use crate::refusal::Refusal;
use crate::style::cups;
use crate::style::{Drawn, Job};
use crate::suit::SupportNeed;

const OWN: &str = "own threshold, not tried on a body";
const CUP_SOURCE: &str =
    "letter by difference: EN 13402 as read in the trade table; foam size: common practice, no single source";

/// A cup letter: its difference over .. up to and including, cm, and the foam cup's width and height, mm.
pub(crate) struct CupClass {
    pub(crate) letter: &'static str,
    pub(crate) over_cm: f64,
    pub(crate) to_cm: f64,
    pub(crate) width_mm: (u32, u32),
    pub(crate) height_mm: (u32, u32),
}

const fn class(letter: &'static str, over: f64, width: u32) -> CupClass {
    CupClass {
        letter,
        over_cm: over,
        to_cm: over + 2.0,
        width_mm: (width, width + 10),
        height_mm: (width - 10, width),
    }
}

/// The letters of `data/trade/cups.csv`; a test holds them against it.
pub(crate) const CUP_CLASSES: [CupClass; 9] = [
    class("AA", 10.0, 95),
    class("A", 12.0, 105),
    class("B", 14.0, 115),
    class("C", 16.0, 125),
    class("D", 18.0, 135),
    class("E", 20.0, 145),
    class("F", 22.0, 155),
    class("G", 24.0, 165),
    class("H", 26.0, 175),
];

/// The letter of a difference in mm; `None` outside the table.
pub(crate) fn cup_class(difference_mm: f64) -> Option<&'static CupClass> {
    let cm = difference_mm / 10.0;
    CUP_CLASSES.iter().find(|c| c.over_cm < cm && cm <= c.to_cm)
}

/// Under-bust girth as a bra band is named, cm: to the nearest 5.
fn band_size(underbust_mm: f64) -> f64 {
    (underbust_mm / 50.0).round() * 5.0
}

/// Width of the elastic under the bust by cup difference, mm (own; `elastic_cut.csv` gives 10 to 25 without saying when).
pub(crate) fn underbust_elastic_mm(difference: f64) -> f64 {
    match difference {
        d if d < 120.0 => 10.0,
        d if d < 160.0 => 15.0,
        d if d < 200.0 => 20.0,
        _ => 25.0,
    }
}

/// Narrowest strap that carries the cup difference, mm (own).
fn strap_mm(difference: f64) -> f64 {
    match difference {
        d if d < 160.0 => 12.0,
        d if d < 200.0 => 30.0,
        _ => 40.0,
    }
}

/// A second layer in front from here, mm (own).
const LINED_FROM: f64 = 100.0;
/// Power mesh in front, and all round.
const MESH_FROM: f64 = 180.0;
const WINGS_FROM: f64 = 220.0;
/// Shaping over the bust: offered from here.
const SHAPED_FROM: f64 = 180.0;
/// A toile first.
const TOILE_FROM: f64 = 250.0;
/// Cup radius from which a strapless top needs a boned side seam, mm (own).
pub(crate) const BONED_FROM_RADIUS: f64 = 90.0;

/// What a drawn top has to hold with.
pub(crate) struct Hold {
    /// `a bandeau`: for sentences.
    pub(crate) what: &'static str,
    /// Largest cup difference the style can hold, mm (own).
    pub(crate) most_mm: f64,
    /// Width of its straps, mm; `None` without any.
    pub(crate) strap_mm: Option<f64>,
    /// Room for elastic under the bust, mm; `None` for a suit that is held from shoulder to crotch instead.
    pub(crate) underbust_room_mm: Option<f64>,
    pub(crate) lining: LiningCover,
    /// `None` for a style that cannot have any.
    pub(crate) mesh: Option<Mesh>,
    /// Whether dart or princess seams shape it.
    pub(crate) is_shaped: bool,
    /// For a strapless top: whether its sides are boned.
    pub(crate) boned: Option<bool>,
    /// What to choose instead when it cannot hold.
    pub(crate) instead: &'static str,
}

/// The same for a suit from shoulder to crotch, by its design and the pieces drawn.
///
/// # Errors
/// As [`judge`].
pub(crate) fn judge_suit(job: &Job<'_>, drawn: &mut Drawn) -> Result<(), Refusal> {
    let is_shaped = drawn
        .pieces
        .iter()
        .any(|p| p.key == "centre_front" || p.edges.iter().any(|e| e.role == EdgeUse::Dart));
    let lining = match job.design.lining {
        LiningCover::Crotch => LiningCover::None,
        other => other,
    };
    let hold = Hold {
        what: "a one-piece",
        most_mm: 220.0,
        strap_mm: Some(job.design.strap_width.get()),
        underbust_room_mm: None,
        lining,
        mesh: None,
        is_shaped,
        boned: None,
        instead: "choose princess seams and cups, or a two-piece with a sports top: its band holds",
    };
    judge(job, &hold, drawn)
}

/// Says what is needed for this wearer; a watch finding for each need the design does not meet. Nothing for children and men.
///
/// # Errors
/// [`Refusal::Parameter`] never; [`Refusal::Combination`] for a word a parameter does not have.
pub(crate) fn judge(job: &Job<'_>, hold: &Hold, drawn: &mut Drawn) -> Result<(), Refusal> {
    let Some(underbust) = job.m.underbust.filter(|_| job.m.is_woman()) else {
        return Ok(());
    };
    let d = job.m.cup_difference();
    let why = |from: f64| {
        format!(
            "bust less under-bust is {:.1} cm; from {:.0} cm on",
            d / 10.0,
            from / 10.0
        )
    };
    let here = format!("bust less under-bust is {:.1} cm", d / 10.0);
    let mut needs = Vec::with_capacity(8);
    let mut need = |key, what: String, why: String, source, is_met| {
        needs.push(SupportNeed {
            key,
            what,
            why,
            source,
            is_met,
        });
    };

    if let Some(room) = hold.underbust_room_mm {
        let elastic = underbust_elastic_mm(d);
        need(
            "underbust_elastic",
            format!("elastic {elastic:.0} mm wide under the bust"),
            here.clone(),
            OWN,
            Some(room + 1e-9 >= elastic),
        );
    }
    if let Some(strap) = hold.strap_mm {
        let least = strap_mm(d);
        need(
            "strap",
            format!("straps at least {least:.0} mm wide"),
            here.clone(),
            OWN,
            Some(strap + 1e-9 >= least),
        );
    }
    if d >= LINED_FROM {
        let is_met = hold.lining != LiningCover::None;
        need(
            "second_layer",
            "a lined front".into(),
            why(LINED_FROM),
            OWN,
            Some(is_met),
        );
    }
    if let Some(mesh) = hold.mesh {
        if d >= MESH_FROM {
            let is_met = mesh != Mesh::None;
            need(
                "mesh_front",
                "power mesh under the front".into(),
                why(MESH_FROM),
                OWN,
                Some(is_met),
            );
        }
        if d >= WINGS_FROM {
            let is_met = mesh == Mesh::FrontAndWings;
            need(
                "mesh_wings",
                "power mesh all round".into(),
                why(WINGS_FROM),
                OWN,
                Some(is_met),
            );
        }
    }
    if d >= SHAPED_FROM {
        need(
            "princess",
            "princess seams or a dart over the bust".into(),
            why(SHAPED_FROM),
            OWN,
            Some(hold.is_shaped),
        );
    }
    if let Some(is_boned) = hold.boned {
        let radius = cups::radius(job);
        if radius > BONED_FROM_RADIUS {
            need(
                "boning",
                "a boned channel in each side seam".into(),
                format!(
                    "the cup is about {:.1} cm from its middle to its edge; from {:.0} cm on",
                    radius / 10.0,
                    BONED_FROM_RADIUS / 10.0
                ),
                OWN,
                Some(is_boned),
            );
        }
    }
    if job.design.cups != Cups::None {
        let sides = super::Filling::of(job).map_or(Sides::Both, |f| f.cups);
        match cup_class(d) {
            Some(c) => need(
                "cup",
                format!(
                    "{} {} of size {} for an under-bust of {:.0}: {} to {} mm wide, {} to {} mm high; buy by the measures",
                    if sides == Sides::Both { "a pair of" } else { "one" },
                    if sides == Sides::Both {
                        "foam cups"
                    } else {
                        "foam cup"
                    },
                    c.letter,
                    band_size(underbust),
                    c.width_mm.0,
                    c.width_mm.1,
                    c.height_mm.0,
                    c.height_mm.1
                ),
                here.clone(),
                CUP_SOURCE,
                None,
            ),
            None => need(
                "cup",
                if d <= LINED_FROM {
                    "the smallest foam cups there are: the difference is below the first letter".into()
                } else {
                    "a cup made for her: the difference is past the last letter of the table".into()
                },
                here.clone(),
                CUP_SOURCE,
                None,
            ),
        }
    }
    if d > TOILE_FROM {
        need(
            "toile",
            "a toile, sewn and worn before the cloth is cut".into(),
            why(TOILE_FROM),
            OWN,
            None,
        );
    }

    for n in needs.iter().filter(|n| n.is_met == Some(false)) {
        drawn.findings.push(Finding {
            code: "draft.support_need",
            severity: Severity::Watch,
            place: "bust".into(),
            message: format!(
                "this wearer needs {}, which the design has not: {}",
                n.what, n.why
            ),
            value: Some(d),
            limit: Some(Limit {
                text: n.why.clone(),
                source: OWN,
            }),
            remedy: remedy(n.key).into(),
        });
    }
    if d > TOILE_FROM {
        drawn.findings.push(Finding {
            code: "draft.support_toile",
            severity: Severity::Watch,
            place: "bust".into(),
            message: "a bust this full has not been tried with this draft".into(),
            value: Some(d),
            limit: Some(Limit {
                text: "250 mm bust less under-bust".into(),
                source: "own",
            }),
            remedy: "sew a toile in a cloth of like stretch and wear it before cutting".into(),
        });
    }
    if d > hold.most_mm {
        drawn.findings.push(Finding {
            code: "draft.support_short",
            severity: Severity::Watch,
            place: "bust".into(),
            message: format!(
                "{} does not hold a cup difference of {:.1} cm by itself",
                hold.what,
                d / 10.0
            ),
            value: Some(d),
            limit: Some(Limit {
                text: format!("{:.0} mm bust less under-bust", hold.most_mm),
                source: "own",
            }),
            remedy: hold.instead.into(),
        });
    }
    drawn.support.extend(needs);
    Ok(())
}

fn remedy(key: &str) -> &'static str {
    match key {
        "underbust_elastic" => {
            "make the band higher (band_height), choose lower_edge = \"band\", or take wider elastic"
        }
        "strap" => "make the straps wider",
        "second_layer" => "set lining to \"front\" or \"full\"",
        "mesh_front" => "set power_mesh to \"front\"",
        "mesh_wings" => "set power_mesh to \"front-and-wings\"",
        "princess" => "set bust_shaping to \"princess\"",
        "boning" => "set boning to \"sides\"",
        _ => "see the list of what this wearer needs",
    }
}

/// Room for elastic in a folded band of this height, mm: the fold takes about 3 (own).
pub(crate) fn room_in_band(height_mm: f64) -> f64 {
    (height_mm - 3.0).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: `data/trade/cups.csv`.
    #[test]
    fn cup_classes_are_the_tables() {
        let table = include_str!("../../../../../data/trade/cups.csv");
        let rows: Vec<Vec<&str>> = table.lines().skip(1).map(|l| l.split(',').collect()).collect();
        assert_eq!(rows.len(), CUP_CLASSES.len());
        for (row, c) in rows.iter().zip(&CUP_CLASSES) {
            assert_eq!(row[0], c.letter);
            assert_eq!(row[1].parse::<f64>().unwrap(), c.over_cm, "{}", c.letter);
            assert_eq!(row[2].parse::<f64>().unwrap(), c.to_cm, "{}", c.letter);
            assert_eq!(row[3], format!("{}-{}", c.width_mm.0, c.width_mm.1));
            assert_eq!(row[4], format!("{}-{}", c.height_mm.0, c.height_mm.1));
        }
    }

    #[test]
    fn a_limit_belongs_to_the_smaller_letter() {
        // The table: over the lower limit, up to and including the upper.
        assert_eq!(cup_class(140.0).unwrap().letter, "A");
        assert_eq!(cup_class(140.1).unwrap().letter, "B");
        assert!(cup_class(100.0).is_none());
        assert!(cup_class(281.0).is_none());
        assert_eq!(band_size(783.0), 80.0);
        assert_eq!(band_size(772.0), 75.0);
    }
}
