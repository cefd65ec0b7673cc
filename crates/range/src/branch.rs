//! Which way each draft went: a size that takes another branch than its neighbour does not grow evenly from it.
//!
//! Read from what a draft shows: its edges, notches, seams with ease, findings, and levels that lie exactly where one of the
//! draft's rules puts them.
//!
//! **Limits.** Some branches leave no trace in a draft: the strap moved on a narrow shoulder, the under-bust point left out,
//! the flare above the bust at its 8 mm end, the side profile drawn in to its 5 mm band. Their jumps are small; the growth check
//! still sees them.

use std::collections::BTreeSet;

use body::{BodyForm, Dimension};
use cloth::{ClothPlan, Fit, length_factor};
use draft::{Draft, EdgeUse};
use serde::Serialize;
use units::Level;

use crate::size_body::SizeBody;
use crate::sizes::Range;

/// A difference smaller than this is rounding, mm.
const SAME_MM: f64 = 1e-6;
/// A solved front ends this much longer or shorter than the back (draft's limits), mm.
const SOLVED_ENDS: [f64; 2] = [-20.0, 45.0];
/// Share of the neck base added to the back waist length to reach the side neck (body's rule).
const NECK_RISE: f64 = 0.055;

/// One branch a draft can take.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case", tag = "branch", content = "of")]
pub enum Branch {
    /// A piece is there at all.
    Piece(String),
    /// A dart is cut.
    Dart,
    /// The front side is eased on to the back.
    SideEase,
    /// The waist is cut wider than the fit asks, to pass the hips.
    WaistWidened,
    /// The front was worked out from the trunk loop and stands at the end of what is allowed.
    FrontAtLimit,
    /// The front was worked out from the trunk loop.
    FrontSolved,
    /// The torso correction stands at its 6 % cap.
    LoopCapped,
    /// The bust level on the side seam lies at the bust point.
    BustAtPoint,
    /// It lies at three quarters of the side length, below the bust point.
    BustAtSideLength,
    /// It is held under the underarm.
    BustUnderArm,
    /// The neckline ends below bust level.
    NecklineLow,
    /// An estimate of the body was held at a believable end.
    EstimateHeld(String),
    /// A notch is there.
    Notch(String),
    /// An edge of a piece is there.
    Edge(String),
}

impl Branch {
    /// What happened, in a maker's words.
    pub fn words(&self) -> String {
        match self {
            Branch::Piece(key) => format!("has the piece {}", key.replace('_', " ")),
            Branch::Dart => "has a dart".into(),
            Branch::SideEase => "eases the front side".into(),
            Branch::WaistWidened => "has its waist widened to pass the hips".into(),
            Branch::FrontAtLimit => "has its front solved at the limit".into(),
            Branch::FrontSolved => "has its front solved from the trunk loop".into(),
            Branch::LoopCapped => "has its torso correction at the 6 % cap".into(),
            Branch::BustAtPoint => "has its bust level at the bust point".into(),
            Branch::BustAtSideLength => "has its bust level at three quarters of the side length".into(),
            Branch::BustUnderArm => "has its bust level held under the underarm".into(),
            Branch::NecklineLow => "has its neckline below bust level".into(),
            Branch::EstimateHeld(place) => format!("has its {place} held at a believable end"),
            Branch::Notch(place) => format!("has the notch {place}"),
            Branch::Edge(place) => format!("has the edge {place}"),
        }
    }
}

/// The branches a draft took.
pub fn branches_of(body: &SizeBody, draft: &Draft, cloth: &ClothPlan, fit: Fit) -> BTreeSet<Branch> {
    let mut taken = BTreeSet::new();
    for piece in &draft.pieces {
        taken.insert(Branch::Piece(piece.key.clone()));
        for edge in &piece.edges {
            taken.insert(Branch::Edge(format!("{} of {}", edge.name, piece.key)));
            if edge.role == EdgeUse::Dart {
                taken.insert(Branch::Dart);
            }
        }
        for notch in &piece.notches {
            taken.insert(Branch::Notch(format!("{} of {}", notch.key, piece.key)));
        }
    }
    if draft
        .seams
        .iter()
        .any(|s| s.name == "side" && s.sewn_ease_mm > SAME_MM)
    {
        taken.insert(Branch::SideEase);
    }
    for finding in draft.findings.iter().chain(&body.findings) {
        match finding.code {
            "draft.waist_widened" => taken.insert(Branch::WaistWidened),
            "draft.neckline_low" => taken.insert(Branch::NecklineLow),
            "body.estimate_held" => taken.insert(Branch::EstimateHeld(finding.place.clone())),
            _ => false,
        };
    }
    if let Some(trunk) = draft.trunk {
        if trunk.is_capped {
            taken.insert(Branch::LoopCapped);
        }
        if trunk.solved_mm.abs() > SAME_MM {
            taken.insert(Branch::FrontSolved);
            let back = body
                .mm(Dimension::BackWaistLength)
                .zip(body.mm(Dimension::NeckBaseGirth))
                .map(|(back, neck)| back + NECK_RISE * neck);
            if let Some(back) = back
                && SOLVED_ENDS
                    .iter()
                    .any(|end| (trunk.front_waist_mm - back - end).abs() < SAME_MM)
            {
                taken.insert(Branch::FrontAtLimit);
            }
        }
    }
    taken.extend(bust_level(body, draft, cloth, fit));
    taken
}

/// Which rule set the bust level on the side seam.
fn bust_level(body: &SizeBody, draft: &Draft, cloth: &ClothPlan, fit: Fit) -> Option<Branch> {
    let trunk = draft.trunk?;
    let y = draft.levels.iter().find(|l| l.level == Level::Bust)?.y_mm;
    let is_woman = body.body.form == BodyForm::Woman;
    let k = |m: f64| length_factor(m, fit, cloth.lengthwise) * cloth.shrinkage_factor_lengthwise;
    let front = trunk.front_waist_mm;
    let to_point = match body.mm(Dimension::SideNeckToBustPoint) {
        // An estimated bust point follows a front that was solved.
        Some(mm) if body.body.is_taken(Dimension::SideNeckToBustPoint) => mm,
        _ => 0.6 * front,
    };
    let at_point = (front - to_point) * k(if is_woman { 0.75 } else { 1.0 }) * trunk.q;
    let at_side = 0.75 * body.mm(Dimension::SideLength)? * k(1.0);
    Some(if (y - at_point).abs() < SAME_MM {
        Branch::BustAtPoint
    } else if is_woman && (y - at_side).abs() < SAME_MM {
        Branch::BustAtSideLength
    } else {
        Branch::BustUnderArm
    })
}

/// A change of branches from one size to the next.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BranchChange {
    /// The smaller size.
    pub from: String,
    /// The next one that was drafted.
    pub to: String,
    /// What the next one does and the smaller one does not.
    pub begins: Vec<Branch>,
    /// What the smaller one does and the next one does not.
    pub ends: Vec<Branch>,
}

impl BranchChange {
    /// The change in a sentence.
    pub fn words(&self) -> String {
        // Notches and edges come and go with a dart or an ease: named alone only when nothing else is.
        let is_trace = |b: &&Branch| matches!(b, Branch::Notch(_) | Branch::Edge(_));
        let told = |list: &[Branch]| {
            let has_more = self.begins.iter().chain(&self.ends).any(|b| !is_trace(&b));
            let named: Vec<String> = list
                .iter()
                .filter(|b| !(has_more && is_trace(b)))
                .map(Branch::words)
                .collect();
            named.join(", ")
        };
        let mut parts = Vec::new();
        let (begins, ends) = (told(&self.begins), told(&self.ends));
        if !begins.is_empty() {
            parts.push(format!("{} {begins}", self.to));
        }
        if !ends.is_empty() {
            parts.push(format!("{} {ends}, {} no longer", self.from, self.to));
        }
        parts.join("; ")
    }
}

/// The branches of every drafted size, and where they change.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BranchReport {
    /// Size and branches, in order.
    pub taken: Vec<(String, BTreeSet<Branch>)>,
    /// Only where something changes: growth is not even there.
    pub changes: Vec<BranchChange>,
}

impl Range {
    /// Which branches each size took, and between which sizes they change.
    pub fn branches(&self) -> BranchReport {
        let taken: Vec<(String, BTreeSet<Branch>)> = self
            .drafted()
            .map(|(name, size)| {
                (
                    name.to_owned(),
                    branches_of(&size.body, &size.draft, &self.cloth, self.fit),
                )
            })
            .collect();
        let changes = taken
            .windows(2)
            .filter_map(|pair| match pair {
                [(from, before), (to, after)] if before != after => Some(BranchChange {
                    from: from.clone(),
                    to: to.clone(),
                    begins: after.difference(before).cloned().collect(),
                    ends: before.difference(after).cloned().collect(),
                }),
                _ => None,
            })
            .collect();
        BranchReport { taken, changes }
    }
}
