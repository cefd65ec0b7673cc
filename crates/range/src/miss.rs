//! How far a wearer is from a size, dimension by dimension: in millimetres, and in what the cloth makes of it.
//!
//! A girth off by two centimetres is worn a little tighter or slacker; a trunk off by as much drags at shoulder and crotch.
//! So each difference is read as the worn stretch it leaves, and that as a share of the room the cloth gives: 0 is worn as
//! the draft meant it, 1 is at the limit, -1 hangs without any stretch.
//!
//! **Source.** Limits around: the reserve and cap of the draft (`cloth::ease`, own). Lengthwise the same, and never more than
//! [`LENGTH_ROOM`] past what was meant, the most the draft itself corrects a torso by (own).
//! **Limits.** A mean of a level. Stature stands in for the trunk, loosely, and only where that was not taken.

use body::{Dimension, WaistLevel, Wearer};
use cloth::{ClothPlan, Fit, LENGTH_RESERVE_SHARE, LENGTH_WORN_CAP, RESERVE_SHARE, WORN_CAP, length_factor};
use serde::Serialize;
use units::Level;

use crate::sizes::{DraftedSize, Range, trunk_of};

/// Lengthwise a size is worn at most this much past what its draft meant.
const LENGTH_ROOM: f64 = 0.06;
/// Where a draft means to use next to no stretch, this much is room all the same.
const LEAST_ROOM: f64 = 0.02;

/// What a size is judged by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Gauge {
    /// Bust (chest) girth.
    Bust,
    /// Under-bust girth.
    Underbust,
    /// Waist girth.
    Waist,
    /// Hip girth.
    Hip,
    /// Trunk circumference.
    Trunk,
    /// Stature, where no trunk circumference was taken.
    Stature,
}

impl Gauge {
    /// All, top to bottom, lengths last.
    pub const ALL: [Gauge; 6] = [
        Gauge::Bust,
        Gauge::Underbust,
        Gauge::Waist,
        Gauge::Hip,
        Gauge::Trunk,
        Gauge::Stature,
    ];

    /// The dimension it reads.
    pub const fn dimension(self) -> Dimension {
        match self {
            Gauge::Bust => Dimension::BustGirth,
            Gauge::Underbust => Dimension::UnderbustGirth,
            Gauge::Waist => Dimension::WaistGirth,
            Gauge::Hip => Dimension::HipGirth,
            Gauge::Trunk => Dimension::TrunkCircumference,
            Gauge::Stature => Dimension::Stature,
        }
    }

    /// Whether it lies around the body.
    pub const fn is_girth(self) -> bool {
        !matches!(self, Gauge::Trunk | Gauge::Stature)
    }

    /// Its weight in the choice of a size: a trunk that is off is felt twice as much as a girth (own).
    pub const fn weight(self) -> f64 {
        match self {
            Gauge::Trunk => 2.0,
            _ => 1.0,
        }
    }

    const fn level(self, waist: WaistLevel) -> Option<Level> {
        match self {
            Gauge::Bust => Some(Level::Bust),
            Gauge::Underbust => Some(Level::Underbust),
            Gauge::Waist => Some(match waist {
                WaistLevel::Natural => Level::Waist,
                WaistLevel::Navel => Level::Navel,
            }),
            Gauge::Hip => Some(Level::Hip),
            Gauge::Trunk | Gauge::Stature => None,
        }
    }
}

/// How far a wearer is from a size at one gauge.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Miss {
    /// Where.
    pub gauge: Gauge,
    /// Hers, mm.
    pub wearer_mm: f64,
    /// The size's, mm.
    pub size_mm: f64,
    /// Worn stretch the size was drafted for.
    pub meant: f64,
    /// Worn stretch if she wears it; negative hangs loose.
    pub worn: f64,
    /// The most it may be worn at.
    pub limit: f64,
    /// Share of the cloth's room she uses: 0 as meant, 1 at the limit, -1 without stretch.
    pub share: f64,
}

impl Miss {
    /// Hers less the size's, mm: positive, the size is small.
    pub fn off_mm(&self) -> f64 {
        self.wearer_mm - self.size_mm
    }
}

/// What can be judged of a wearer in a drafted size, and what can't with the reason.
pub(crate) fn misses(wearer: &Wearer, size: &DraftedSize, range: &Range) -> Vec<Miss> {
    Gauge::ALL
        .into_iter()
        .filter_map(|gauge| miss(gauge, wearer, size, range))
        .collect()
}

fn miss(gauge: Gauge, wearer: &Wearer, size: &DraftedSize, range: &Range) -> Option<Miss> {
    let hers = wearer.taken.get(gauge.dimension())?.get();
    if gauge == Gauge::Waist && wearer.waist_level != range.table.waist_level {
        return None;
    }
    let draft = &size.draft;
    if let Some(level) = gauge.level(range.table.waist_level) {
        let width = draft.levels.iter().find(|l| l.level == level)?;
        // A level between two others carries a girth of its own making on some styles; the size's is what the chart says.
        let own = size.body.mm(gauge.dimension())?;
        let meant = own / width.pattern_mm - 1.0;
        let limit = (RESERVE_SHARE * range.cloth.around.ratio()).min(WORN_CAP);
        return Some(judged(
            gauge,
            hers,
            own,
            meant,
            hers / width.pattern_mm - 1.0,
            limit,
        ));
    }
    let meant = length_stretch(&range.cloth, range.fit);
    let cap = (LENGTH_RESERVE_SHARE * range.cloth.lengthwise.ratio()).min(LENGTH_WORN_CAP);
    match gauge {
        Gauge::Trunk => {
            let trunk = draft.trunk?;
            let drafted = trunk.drafted_mm?;
            let own = trunk_of(&size.body.body, draft)?;
            // The tape runs over bust and seat; the draft down the midline.
            let stretch = |tape: f64| (tape - trunk.bias_mm) / drafted - 1.0;
            let meant = stretch(own);
            Some(judged(
                gauge,
                hers,
                own,
                meant,
                stretch(hers),
                cap.min(meant + LENGTH_ROOM),
            ))
        }
        Gauge::Stature
            if wearer.taken.get(Dimension::TrunkCircumference).is_none() && draft.trunk.is_some() =>
        {
            let own = size.body.mm(Dimension::Stature)?;
            let worn = hers / own * (1.0 + meant) - 1.0;
            Some(judged(
                gauge,
                hers,
                own,
                meant,
                worn,
                cap.min(meant + LENGTH_ROOM),
            ))
        }
        _ => None,
    }
}

fn length_stretch(cloth: &ClothPlan, fit: Fit) -> f64 {
    1.0 / length_factor(1.0, fit, cloth.lengthwise) - 1.0
}

fn judged(gauge: Gauge, wearer_mm: f64, size_mm: f64, meant: f64, worn: f64, limit: f64) -> Miss {
    let room = if worn > meant {
        (limit - meant).max(LEAST_ROOM)
    } else {
        meant.max(LEAST_ROOM)
    };
    Miss {
        gauge,
        wearer_mm,
        size_mm,
        meant,
        worn,
        limit,
        share: (worn - meant) / room,
    }
}
