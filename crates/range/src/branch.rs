//! Which way each draft went: a size that takes another branch than its neighbour does not grow evenly from it.
//!
//! Read from what a draft says of its ways, and from what it shows: its pieces, edges, notches and seams with ease.
//!
//! **Limits.** A way is a way only where the draft's rules part; a curve that bends without one still shows in the growth check.

use std::collections::BTreeSet;

use draft::{BranchTaken, Draft, EdgeUse};
use serde::Serialize;

use crate::size_body::SizeBody;
use crate::sizes::Range;

/// A difference smaller than this is rounding, mm.
const SAME_MM: f64 = 1e-6;

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
    /// A way the draft says it took.
    Way(BranchTaken),
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
            Branch::Way(way) => way.says.into(),
            Branch::EstimateHeld(place) => format!("has its {place} held at a believable end"),
            Branch::Notch(place) => format!("has the notch {place}"),
            Branch::Edge(place) => format!("has the edge {place}"),
        }
    }
}

/// The branches a draft took.
pub fn branches_of(body: &SizeBody, draft: &Draft) -> BTreeSet<Branch> {
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
    let held = body.findings.iter().filter(|f| f.code == "body.estimate_held");
    taken.extend(held.map(|f| Branch::EstimateHeld(f.place.clone())));
    // Dart and ease show in the pieces, and are told once.
    let told = ["dart", "front_eased"];
    taken.extend(
        draft
            .branches
            .iter()
            .filter(|b| !told.contains(&b.key))
            .map(|b| Branch::Way(*b)),
    );
    taken
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
            .map(|(name, size)| (name.to_owned(), branches_of(&size.body, &size.draft)))
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
