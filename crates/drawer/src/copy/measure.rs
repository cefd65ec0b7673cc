//! What is measured on a favourite suit: flat, unstretched, finished edge to finished edge.
//!
//! **Shapes and units.** mm; widths across the whole suit as it lies flat, one layer; openings once round.
//! **Source.** Deviations: own, what two readings of one person on a soft suit differ by; to be replaced when enough suits were
//! measured twice.

use serde::{Deserialize, Serialize};
use units::Mm;

/// A measure of a finished suit. Keys and words are those of the finished measures on paper, so that a copy is checked as its
/// model was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FlatMeasure {
    /// Across the bust, from side seam to side seam.
    AcrossBust,
    /// Across the waist, at its narrowest.
    AcrossWaist,
    /// Across, 2 cm above the leg at the side.
    AcrossAboveLeg,
    /// Side seam, leg to underarm.
    SideSeam,
    /// Centre front, neckline to crotch seam.
    CentreFront,
    /// Centre back, top to crotch seam.
    CentreBack,
    /// Leg opening, once round.
    LegOpening,
    /// Strap, edge to edge at the shoulder.
    StrapWidth,
    /// Armhole, once round.
    Armhole,
    /// Neckline and back, once round; with crossed straps the neckline from strap to strap.
    Neckline,
    /// Crotch, edge to edge at its seam.
    CrotchWidth,
    /// Depth of the neckline, straight down from the neck end of the strap at the shoulder.
    NecklineDepth,
    /// Depth of the back, taken in the same way.
    BackDepth,
    /// Edge of the neckline across the front, from strap to strap.
    NecklineFront,
    /// Edge of the neckline across the back, from strap to strap.
    NecklineBack,
    /// Straight from the neck end of the strap to the middle of the neckline.
    NecklineSlant,
    /// The same on the back.
    BackSlant,
    /// Straight from the side seam at the leg to the crotch seam's end, on the front.
    LegSlant,
    /// Skirt, from its join to the finished hem.
    SkirtLength,
}

impl FlatMeasure {
    /// All of them in the order they are best taken.
    pub const ALL: [FlatMeasure; 19] = [
        FlatMeasure::AcrossBust,
        FlatMeasure::AcrossWaist,
        FlatMeasure::AcrossAboveLeg,
        FlatMeasure::SideSeam,
        FlatMeasure::CentreFront,
        FlatMeasure::CentreBack,
        FlatMeasure::LegOpening,
        FlatMeasure::StrapWidth,
        FlatMeasure::Armhole,
        FlatMeasure::Neckline,
        FlatMeasure::CrotchWidth,
        FlatMeasure::NecklineDepth,
        FlatMeasure::BackDepth,
        FlatMeasure::NecklineFront,
        FlatMeasure::NecklineBack,
        FlatMeasure::NecklineSlant,
        FlatMeasure::BackSlant,
        FlatMeasure::LegSlant,
        FlatMeasure::SkirtLength,
    ];

    /// The name in files and reports: the key of the same finished measure of a draft.
    pub const fn key(self) -> &'static str {
        match self {
            FlatMeasure::AcrossBust => "across_bust",
            FlatMeasure::AcrossWaist => "across_waist",
            FlatMeasure::AcrossAboveLeg => "across_above_leg",
            FlatMeasure::SideSeam => "side_seam",
            FlatMeasure::CentreFront => "centre_front",
            FlatMeasure::CentreBack => "centre_back",
            FlatMeasure::LegOpening => "leg_opening",
            FlatMeasure::StrapWidth => "strap_width",
            FlatMeasure::Armhole => "armhole",
            FlatMeasure::Neckline => "neckline",
            FlatMeasure::CrotchWidth => "crotch_width",
            FlatMeasure::NecklineDepth => "neckline_depth",
            FlatMeasure::BackDepth => "back_depth",
            FlatMeasure::NecklineFront => "neckline_front",
            FlatMeasure::NecklineBack => "neckline_back",
            FlatMeasure::NecklineSlant => "neckline_slant",
            FlatMeasure::BackSlant => "back_slant",
            FlatMeasure::LegSlant => "leg_slant",
            FlatMeasure::SkirtLength => "skirt_length",
        }
    }

    /// Its name in a sentence.
    pub const fn name(self) -> &'static str {
        match self {
            FlatMeasure::AcrossBust => "width across the bust",
            FlatMeasure::AcrossWaist => "width across the waist",
            FlatMeasure::AcrossAboveLeg => "width above the leg",
            FlatMeasure::SideSeam => "side seam",
            FlatMeasure::CentreFront => "centre front",
            FlatMeasure::CentreBack => "centre back",
            FlatMeasure::LegOpening => "leg opening",
            FlatMeasure::StrapWidth => "strap width",
            FlatMeasure::Armhole => "armhole",
            FlatMeasure::Neckline => "neckline",
            FlatMeasure::CrotchWidth => "crotch width",
            FlatMeasure::NecklineDepth => "depth of the neckline",
            FlatMeasure::BackDepth => "depth of the back",
            FlatMeasure::NecklineFront => "front edge of the neckline",
            FlatMeasure::NecklineBack => "back edge of the neckline",
            FlatMeasure::NecklineSlant => "slant of the neckline",
            FlatMeasure::BackSlant => "slant of the back",
            FlatMeasure::LegSlant => "slant of the leg",
            FlatMeasure::SkirtLength => "skirt length",
        }
    }

    /// How to take it.
    pub const fn how(self) -> &'static str {
        match self {
            FlatMeasure::AcrossBust => {
                "lay the suit flat, don't pull; side seam to side seam a quarter of the way down from underarm to waist"
            }
            FlatMeasure::AcrossWaist => "side seam to side seam where the suit is narrowest",
            FlatMeasure::AcrossAboveLeg => "side seam to side seam, 2 cm above the leg at the side",
            FlatMeasure::SideSeam => "along the seam, from the leg edge to the underarm",
            FlatMeasure::CentreFront => "along the middle, from the neckline edge to the crotch seam",
            FlatMeasure::CentreBack => "along the middle, from the top edge of the back to the crotch seam",
            FlatMeasure::LegOpening => "along the edge, once round, held out just until the cloth lies flat",
            FlatMeasure::StrapWidth => "edge to edge at the shoulder seam",
            FlatMeasure::Armhole => "along the edge, once round, held out just until the cloth lies flat",
            FlatMeasure::Neckline => {
                "along the edge, once round front and back (with crossed straps from strap to strap), held out just until the cloth lies flat"
            }
            FlatMeasure::CrotchWidth => "edge to edge at the crotch seam",
            FlatMeasure::NecklineDepth => {
                "straight down from the neck end of the shoulder seam to the level of the neckline in the middle"
            }
            FlatMeasure::BackDepth => {
                "straight down from the neck end of the shoulder seam to the level of the back edge in the middle"
            }
            FlatMeasure::NecklineFront => {
                "along the edge across the front, from one shoulder seam to the other, held out just until the cloth lies flat"
            }
            FlatMeasure::NecklineBack => {
                "along the edge across the back, from one shoulder seam to the other, held out just until the cloth lies flat"
            }
            FlatMeasure::NecklineSlant => {
                "the tape straight from the neck end of the shoulder seam to the middle of the neckline edge, over the opening"
            }
            FlatMeasure::BackSlant => {
                "turned over: the tape straight from the neck end of the shoulder seam to the middle of the back edge, over the opening"
            }
            FlatMeasure::LegSlant => {
                "the tape straight from the side seam at the leg edge to the leg end of the crotch seam, on the front"
            }
            FlatMeasure::SkirtLength => "from the seam where it joins down to the hem",
        }
    }

    /// How far two readings of it lie apart: one standard deviation, mm (own).
    pub const fn usual_deviation(self) -> Mm {
        Mm::new(match self {
            FlatMeasure::AcrossBust
            | FlatMeasure::AcrossWaist
            | FlatMeasure::AcrossAboveLeg
            | FlatMeasure::SideSeam
            | FlatMeasure::NecklineSlant
            | FlatMeasure::BackSlant
            | FlatMeasure::LegSlant
            | FlatMeasure::SkirtLength => 3.0,
            // Half the ring of the neckline: by the root of its length 4.2.
            FlatMeasure::NecklineFront | FlatMeasure::NecklineBack => 4.0,
            FlatMeasure::NecklineDepth | FlatMeasure::BackDepth => 4.0,
            FlatMeasure::CentreFront | FlatMeasure::CentreBack | FlatMeasure::Armhole => 5.0,
            FlatMeasure::LegOpening | FlatMeasure::Neckline => 6.0,
            FlatMeasure::StrapWidth | FlatMeasure::CrotchWidth => 1.5,
        })
    }
}

/// One measure as it was taken.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct TakenMeasure {
    /// Which.
    pub measure: FlatMeasure,
    /// Its length.
    pub length: Mm,
    /// How sure it is, one standard deviation; `None` for the usual one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub deviation: Option<Mm>,
}

impl TakenMeasure {
    /// A measure with the usual deviation.
    pub const fn new(measure: FlatMeasure, length: Mm) -> TakenMeasure {
        TakenMeasure {
            measure,
            length,
            deviation: None,
        }
    }

    /// Its standard deviation, mm.
    pub(crate) fn sigma(&self) -> f64 {
        self.deviation.unwrap_or(self.measure.usual_deviation()).get()
    }
}

/// A ready-made suit that fits, as it lies in the drawer.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Favourite {
    /// What the maker calls it.
    pub name: String,
    /// What was measured on it.
    pub measures: Vec<TakenMeasure>,
}

impl Favourite {
    /// The measure, if it was taken.
    pub fn get(&self, measure: FlatMeasure) -> Option<&TakenMeasure> {
        self.measures.iter().find(|t| t.measure == measure)
    }

    pub(crate) fn has(&self, measure: FlatMeasure) -> bool {
        self.get(measure).is_some()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_what_is_stored() {
        for measure in FlatMeasure::ALL {
            let stored = serde_json::to_string(&measure).unwrap();
            assert_eq!(stored, format!("\"{}\"", measure.key()));
        }
    }

    #[test]
    fn a_favourite_is_read_back_as_stored() {
        let favourite = Favourite {
            name: "blue one with the skirt".into(),
            measures: vec![
                TakenMeasure::new(FlatMeasure::AcrossWaist, Mm::new(341.0)),
                TakenMeasure {
                    deviation: Some(Mm::new(8.0)),
                    ..TakenMeasure::new(FlatMeasure::SkirtLength, Mm::new(262.0))
                },
            ],
        };
        let text = serde_json::to_string(&favourite).unwrap();
        assert_eq!(serde_json::from_str::<Favourite>(&text).unwrap(), favourite);
    }
}
