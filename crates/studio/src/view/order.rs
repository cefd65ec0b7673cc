//! The whole work order of one suit, as the pages show it.

use serde::Serialize;
use ts_rs::TS;
use utoipa::ToSchema;

use super::{ClothView, LayView, PaperView, SewView, ShapeView, TryOnView, WearView, WearerView};

/// One suit as a work order, read from top to bottom.
#[derive(Clone, Debug, Serialize, TS, ToSchema)]
pub struct OrderView {
    /// What stands at its head.
    pub suit: SuitHead,
    /// The documents it is made of, each with the revision shown: what an edit is based on.
    pub documents: Vec<Stamp>,
    /// What "Back one" would undo: `strap width 4.2 cm to 3.8 cm`.
    pub back: Option<String>,
    /// What "Forward" would do again.
    pub forward: Option<String>,
    /// Section 1.
    pub wearer: WearerView,
    /// Section 2.
    pub cloth: ClothView,
    /// Section 3.
    pub shape: ShapeView,
    /// Section 4.
    pub wear: WearView,
    /// Section 5.
    pub lay: LayView,
    /// Section 6.
    pub sew: SewView,
    /// Section 7.
    pub paper: PaperView,
    /// Section 8.
    pub try_on: TryOnView,
}

/// What stands at the head of a work order.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct SuitHead {
    /// Id of the suit.
    pub id: String,
    /// Number of the order: 14.
    pub number: u32,
    /// Its name.
    pub name: String,
    /// Version in work: 2.
    pub version: u32,
    /// Version id as printed on paper; none before the suit can be drafted.
    pub version_id: Option<String>,
    /// Whom it is for; empty when nobody is chosen.
    pub wearer: String,
    /// To wear from, as she wrote it (a date); empty when not said.
    pub to_wear_from: String,
    /// Her unit: `cm`, `mm` or `in`.
    pub units: String,
    /// Notes she keeps on the order.
    pub notes: String,
    /// The cautions that apply, for the foot of the order.
    pub cautions: Vec<CautionView>,
}

/// One caution.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct CautionView {
    /// What it is about.
    pub topic: String,
    /// What to know and do.
    pub says: String,
}

/// A document and its revision.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct Stamp {
    /// Id.
    pub id: String,
    /// `suit`, `wearer`, `cloth`, `elastic`, `workroom`.
    pub kind: String,
    /// Revision shown.
    pub revision: u64,
}
