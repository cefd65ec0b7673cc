//! How far every seam and edge must stretch: worn, and while the suit is put on.
//!
//! A seam is asked for 1.2 times the greater of two stretches along it: worn with a reserve for movement, and what it takes to
//! let the body in. The way in counts in full where the seam runs around, and not at all where it runs lengthwise.
//!
//! **Shapes and units.** Ratios along the seam on relaxed cloth; heights mm on the flat piece (waist 0, y up).
//! **Source.** The factor 1.2 and "slightly more than the cloth": `data/trade/thread_model.toml` (ASTM D6193 4.2.2 as read there).
//! Movement 0.20: the low end of 20 to 35 % that back skin lengthens in bending, `data/trade/pressure_model.toml` (published, abstract).
//! **Limits.** Levels are read at the seam's mean height; pieces that do not lie on the trunk (skirt, sleeve, straps, ties) are asked
//! for movement alone.

use cloth::ClothPlan;
use draft::{Draft, OpenKind, OpeningKind, Piece, SeamWalk};
use serde::Serialize;
use units::Level;

use crate::order::Role;

/// What a seam must reach of what it is stretched to: `data/trade/thread_model.toml`, `[seam_extension] rule`.
pub const SEAM_FACTOR: f64 = 1.2;
/// Stretch of the cloth beyond worn, in movement: `data/trade/pressure_model.toml`, `movement_reserve`, low end.
pub const MOVEMENT: f64 = 0.20;

/// Stretches of the worn suit as plain values, from whoever knows them best: the stretch ladder, or a solve.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WornStretch {
    /// Worn stretch around, by level.
    pub around: Vec<(Level, f64)>,
    /// Worn stretch lengthwise, one for the suit.
    pub lengthwise: f64,
    /// Stretch each opening takes to let the body pass: girth / rest length - 1; nothing for one that opens altogether.
    pub way_in: Vec<(OpeningKind, f64)>,
    /// Whether around and lengthwise come from the solved suit; from the draft's own widths otherwise.
    pub is_solved: bool,
}

impl WornStretch {
    /// The draft's own values: body girth / pattern girth at its levels, its trunk loop, its openings at rest.
    pub fn of_draft(draft: &Draft) -> WornStretch {
        let around = draft
            .levels
            .iter()
            .filter(|l| l.pattern_mm > 0.0)
            .map(|l| (l.level, l.body_mm / l.pattern_mm - 1.0))
            .collect();
        let lengthwise = draft.trunk.and_then(|t| {
            let drafted = t.drafted_mm.filter(|mm| *mm > 0.0)?;
            Some(((t.measured_mm.unwrap_or(t.parts_mm) - t.bias_mm) / drafted - 1.0).max(0.0))
        });
        let way_in = draft
            .openings
            .iter()
            .filter(|o| o.rest_mm > 0.0 && o.opened != draft::Opened::Fully)
            .map(|o| {
                let more = match o.opened {
                    draft::Opened::By(mm) => mm,
                    _ => 0.0,
                };
                (o.kind, (o.passes_mm / (o.rest_mm + more) - 1.0).max(0.0))
            })
            .collect();
        WornStretch {
            around,
            // Without a trunk loop the girth pulls the length; half of the reserve stands for it (own).
            lengthwise: lengthwise.unwrap_or(MOVEMENT / 2.0),
            way_in,
            is_solved: false,
        }
    }

    fn opening(&self, kinds: &[OpeningKind]) -> f64 {
        let of = self.way_in.iter().filter(|(kind, _)| kinds.contains(kind));
        of.map(|(_, need)| *need).fold(0.0, f64::max)
    }
}

/// What is asked of one seam or edge.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Need {
    /// Worn, along it.
    pub worn: f64,
    /// While the suit is put on or off, along it.
    pub way_in: f64,
    /// Reserve for movement.
    pub movement: f64,
    /// What the cloth itself stretches to along it: a seam that reaches this never limits the suit.
    pub cloth: f64,
}

impl Need {
    /// What the stitch must reach: 1.2 times the greater of worn with movement, and the way in.
    pub fn asked(&self) -> f64 {
        SEAM_FACTOR * (self.worn + self.movement).max(self.way_in)
    }

    /// The greater of two needs, part by part.
    #[must_use]
    pub fn with(self, other: Need) -> Need {
        Need {
            worn: self.worn.max(other.worn),
            way_in: self.way_in.max(other.way_in),
            movement: self.movement.max(other.movement),
            cloth: self.cloth.max(other.cloth),
        }
    }
}

/// What is asked of every seam and edge of a suit.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Needs {
    /// One for each of the draft's seams, in its order.
    pub seams: Vec<Need>,
    /// One for each of the draft's open edges, in its order.
    pub edges: Vec<Need>,
}

/// What lies on the trunk and is stretched with it.
fn is_on_trunk(key: &str) -> bool {
    const OFF: [&str; 9] = [
        "skirt", "sleeve", "strap", "tie", "neck_", "collar", "zip_", "cup_", "pouch",
    ];
    !OFF.iter()
        .any(|part| key.starts_with(part) || key.ends_with("_tie"))
}

impl Needs {
    /// Needs of a draft in its cloth, from worn stretches. Plain values in, so that a solve may replace the ladder's.
    pub fn new(draft: &Draft, cloth: &ClothPlan, worn: &WornStretch) -> Needs {
        Needs {
            seams: draft
                .seams
                .iter()
                .map(|s| seam_need(draft, cloth, worn, s))
                .collect(),
            edges: draft
                .open_edges
                .iter()
                .map(|edge| {
                    let share = edge.around_share.clamp(0.0, 1.0);
                    let (level, openings): (Level, &[OpeningKind]) = match edge.kind {
                        OpenKind::Leg => (Level::Hip, &[OpeningKind::Leg]),
                        OpenKind::Waist => (Level::HighHip, &[OpeningKind::Waist]),
                        OpenKind::Neckline => (Level::Bust, &[OpeningKind::NecklineRing, OpeningKind::Head]),
                        OpenKind::Armhole => (Level::Bust, &[]),
                        OpenKind::Underbust | OpenKind::Top => (Level::Underbust, &[OpeningKind::Band]),
                        OpenKind::Hem => (Level::Hip, &[OpeningKind::Hem, OpeningKind::Leg]),
                        OpenKind::Wrist => (Level::Bust, &[OpeningKind::Wrist]),
                    };
                    Need {
                        worn: mixed(share, level_stretch(worn, level), worn.lengthwise),
                        way_in: worn.opening(openings),
                        movement: MOVEMENT,
                        cloth: mixed(share, cloth.around.ratio(), cloth.lengthwise.ratio()),
                    }
                })
                .collect(),
        }
    }
}

fn mixed(around_share: f64, around: f64, lengthwise: f64) -> f64 {
    around_share * around + (1.0 - around_share) * lengthwise
}

/// Worn stretch around at a level; the greatest there is where the level was not given.
pub(crate) fn level_stretch(worn: &WornStretch, level: Level) -> f64 {
    let exact = worn.around.iter().find(|(l, _)| *l == level);
    exact.map_or_else(
        || worn.around.iter().map(|(_, e)| *e).fold(0.0, f64::max),
        |(_, e)| *e,
    )
}

/// Mean share of cos^2 to the around direction, and mean height, of the first side's edges of a seam.
fn lie(draft: &Draft, seam: &SeamWalk) -> Option<(f64, f64)> {
    let [first, second] = [&seam.first, &seam.second].map(|(key, names)| {
        let piece: &Piece = draft.pieces.iter().find(|p| p.key == *key)?;
        let edges: Vec<_> = names.iter().filter_map(|n| piece.edge(n)).collect();
        let length: f64 = edges.iter().map(|e| e.curve.length()).sum();
        if length <= 0.0 || !is_on_trunk(key) {
            return None;
        }
        let around: f64 = edges.iter().map(|e| e.curve.around_length()).sum();
        let height: f64 = edges
            .iter()
            .map(|e| 0.5 * (e.curve.start().y + e.curve.end().y) * e.curve.length())
            .sum();
        Some((around / length, height / length))
    });
    first.or(second)
}

fn seam_need(draft: &Draft, cloth: &ClothPlan, worn: &WornStretch, seam: &SeamWalk) -> Need {
    let cloth_at = |share| mixed(share, cloth.around.ratio(), cloth.lengthwise.ratio());
    let Some((share, height)) = lie(draft, seam) else {
        let share = if seam.name == "skirt join" { 1.0 } else { 0.0 };
        return Need {
            worn: if share > 0.0 {
                level_stretch(worn, Level::Waist)
            } else {
                0.0
            },
            way_in: if share > 0.0 {
                worn.opening(&[OpeningKind::Waist])
            } else {
                0.0
            },
            movement: MOVEMENT,
            cloth: cloth_at(share),
        };
    };
    let at_height = stretch_at(draft, worn, height);
    // Only a ring is passed by the body on the way in; an upright seam, a strap's or a crotch's is not.
    let is_ring = matches!(
        Role::of_seam(seam.name),
        Role::Across | Role::Band | Role::Diagonal
    );
    let way_in = if is_ring {
        worn.opening(&[OpeningKind::Waist, OpeningKind::Band, OpeningKind::Hem])
    } else {
        0.0
    };
    Need {
        worn: mixed(share, at_height, worn.lengthwise),
        way_in: share * way_in,
        movement: MOVEMENT,
        cloth: cloth_at(share),
    }
}

/// Worn stretch around at a height, straight between the draft's levels.
fn stretch_at(draft: &Draft, worn: &WornStretch, y_mm: f64) -> f64 {
    let mut points: Vec<(f64, f64)> = draft
        .levels
        .iter()
        .filter_map(|l| {
            let (_, e) = worn.around.iter().find(|(level, _)| *level == l.level)?;
            Some((l.y_mm, *e))
        })
        .collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (Some(first), Some(last)) = (points.first(), points.last()) else {
        return 0.0;
    };
    if y_mm <= first.0 {
        return first.1;
    }
    if y_mm >= last.0 {
        return last.1;
    }
    points
        .windows(2)
        .find(|w| w[0].0 <= y_mm && y_mm <= w[1].0)
        .map_or(last.1, |w| {
            let t = (y_mm - w[0].0) / (w[1].0 - w[0].0).max(1e-9);
            w[0].1 + t * (w[1].1 - w[0].1)
        })
}
