//! Home: suits on the line, wearers, cloths, and what is on the shelf.

mod shelf;
mod silhouette;
mod sketch;
mod suit;

use std::sync::Arc;

use serde::Serialize;
use ts_rs::TS;
use units::LengthUnit;
use utoipa::ToSchema;

pub(in crate::view) use silhouette::of_draft as silhouette_of;

use super::{Frame, LookView, State};
use crate::document::{Paper, Worked};

/// What the first page shows.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct HomeView {
    /// Two sentences on how the work stands.
    pub lead: String,
    /// Whether the example workroom is in.
    pub has_example: bool,
    /// Suits, the newest first.
    pub suits: Vec<SuitCard>,
    /// Wearers.
    pub wearers: Vec<ShelfLine>,
    /// Cloths.
    pub cloths: Vec<ClothCard>,
    /// Elastics.
    pub elastics: Vec<ShelfLine>,
    /// Sample book, drawer, workroom, classes.
    pub shelf: Vec<ShelfLine>,
}

/// A suit on the line.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct SuitCard {
    /// Id.
    pub id: String,
    /// Number of the order.
    pub number: u32,
    /// Name.
    pub name: String,
    /// Wearer; empty when none is chosen.
    pub wearer: String,
    /// What it is: `One-piece, racer back, lined. Slate tricot.`
    pub about: String,
    /// Worst state and what is next.
    pub state: State,
    /// `doubtful: waist`.
    pub says: String,
    /// Its own drafted pieces as a silhouette; none while nothing can be drafted.
    pub silhouette: Option<Silhouette>,
    /// Words a search finds it by, lower case.
    pub words: String,
}

/// A suit as it hangs.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct Silhouette {
    /// Box.
    pub frame: Frame,
    /// Back parts first.
    pub parts: Vec<SilhouettePart>,
    /// Where pegs hold it: x of each, at the top.
    pub pegs: Vec<f64>,
}

/// One part of a silhouette.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct SilhouettePart {
    /// SVG path, mm, y down.
    pub path: String,
    /// How it is filled.
    pub look: LookView,
    /// Inside of the back, seen through the openings: drawn in the lining's look.
    pub is_inside: bool,
}

/// A cloth on the shelf.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ClothCard {
    /// Id.
    pub id: String,
    /// Name.
    pub name: String,
    /// `Shell. 95 % across, 70 % along. 150 cm wide, 2.4 m left.`
    pub about: String,
    /// How it is drawn.
    pub look: LookView,
    /// Stretch across and along as ratios, for the stretch cross; none when not tested.
    pub cross: Option<[f64; 2]>,
    /// How it stands.
    pub state: State,
    /// Words a search finds it by, lower case.
    pub words: String,
}

/// A line of the register.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ShelfLine {
    /// Id; a shelf's own name for the shelves: `samples`, `drawer`, `workroom`, `classes`, `ranges`.
    pub id: String,
    /// Name.
    pub name: String,
    /// One line about it.
    pub about: String,
    /// How it stands.
    pub state: State,
    /// What to do, or that all is well.
    pub says: String,
    /// Words a search finds it by, lower case.
    pub words: String,
}

/// Everything of a workroom, for the first page.
#[derive(Clone, Debug, Default)]
pub struct Shelves {
    /// Suits, each worked out and with how many versions of it are kept.
    pub suits: Vec<(Arc<Worked>, usize)>,
    /// Wearers.
    pub wearers: Vec<Paper>,
    /// Cloths.
    pub cloths: Vec<Paper>,
    /// Elastics.
    pub elastics: Vec<Paper>,
    /// Stitch and iron tests.
    pub samples: Vec<Paper>,
    /// Bought patterns and favourite suits.
    pub drawer: Vec<Paper>,
    /// Classes.
    pub classes: Vec<Paper>,
    /// The workroom, once she has said anything of it.
    pub workroom: Option<Paper>,
    /// Whether the example workroom is in.
    pub has_example: bool,
    /// Today, `2026-11-26`.
    pub today: String,
}

/// The first page.
pub fn home(shelves: &Shelves) -> HomeView {
    let mut suits: Vec<SuitCard> = shelves
        .suits
        .iter()
        .map(|(worked, versions)| suit::card(worked, *versions))
        .collect();
    suits.sort_by(|a, b| b.number.cmp(&a.number).then_with(|| a.id.cmp(&b.id)));
    // Cloths and wearers have no unit of their own: that of the suit she works on.
    let newest = shelves.suits.iter().max_by_key(|(w, _)| suit::number(w));
    let unit = newest.map_or(LengthUnit::Cm, |(worked, _)| worked.unit());
    HomeView {
        lead: suit::lead(&suits),
        has_example: shelves.has_example,
        wearers: shelves
            .wearers
            .iter()
            .map(|paper| shelf::wearer(paper, &shelves.today))
            .collect(),
        cloths: shelves
            .cloths
            .iter()
            .map(|paper| shelf::cloth(paper, unit))
            .collect(),
        elastics: shelves.elastics.iter().map(shelf::elastic).collect(),
        shelf: shelf::shelves(shelves),
        suits,
    }
}

#[cfg(test)]
mod tests;
