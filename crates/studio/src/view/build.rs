//! Builds the order view of a suit out of its worked papers and what else the page must know.

use super::{CautionView, Named, OrderView, PageMap, Stamp, SuitHead};
use super::{cloth, lay, paper, sew, shape, try_on, wear, wearer};
use crate::document::Worked;

/// What a view needs besides the papers of its suit.
#[derive(Clone, Debug, Default)]
pub struct Around {
    /// Wearers there are.
    pub wearers: Vec<Named>,
    /// Cloths there are, with their role: `shell`, `lining`, `mesh`.
    pub cloths: Vec<(Named, String)>,
    /// Elastics there are.
    pub elastics: Vec<Named>,
    /// The other suits.
    pub suits: Vec<Named>,
    /// Versions kept of this suit, the oldest first.
    pub versions: Vec<KeptVersion>,
    /// Today, `2026-11-26`: only for what is due.
    pub today: String,
    /// What "Back one" and "Forward" would do.
    pub back: Option<String>,
    /// See `back`.
    pub forward: Option<String>,
    /// The page map, if it was drawn before; see [`super::page_map_key`].
    pub page_map: Option<PageMap>,
}

/// A version of a suit as it was cut.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptVersion {
    /// Its number.
    pub number: u32,
    /// When it was kept, ISO 8601.
    pub at: String,
    /// The suit's document then.
    pub body: serde_json::Value,
    /// The suit file then.
    pub text: String,
}

/// The whole work order.
pub fn order_view(worked: &Worked, around: &Around) -> OrderView {
    OrderView {
        suit: head(worked),
        documents: worked
            .all()
            .map(|p| Stamp {
                id: p.id.clone(),
                kind: p.kind.to_owned(),
                revision: p.revision,
            })
            .collect(),
        back: around.back.clone(),
        forward: around.forward.clone(),
        wearer: wearer::view(worked, around),
        cloth: cloth::view(worked, around),
        shape: shape::view(worked),
        wear: wear::view(worked),
        lay: lay::view(worked, &around.suits),
        sew: sew::view(worked),
        paper: paper::view(worked, around.page_map.as_ref()),
        try_on: try_on::view(worked, around),
    }
}

fn head(worked: &Worked) -> SuitHead {
    let text = |key: &str| {
        let value = worked.suit.body.get(key).and_then(serde_json::Value::as_str);
        value.unwrap_or_default().to_owned()
    };
    let number = |key: &str| {
        let value = worked.suit.body.get(key).and_then(serde_json::Value::as_u64);
        value.and_then(|n| u32::try_from(n).ok())
    };
    let name_of = |paper: &crate::document::Paper| {
        let name = paper.body.get("name").and_then(serde_json::Value::as_str);
        name.unwrap_or_default().to_owned()
    };
    SuitHead {
        id: worked.suit.id.clone(),
        number: number("number").unwrap_or(0),
        name: text("name"),
        version: number("version").unwrap_or(1),
        version_id: worked.order.as_ref().map(|o| o.version.clone()),
        wearer: worked.wearer.as_ref().map(name_of).unwrap_or_default(),
        to_wear_from: text("to_wear_from"),
        units: worked.unit().symbol().to_owned(),
        notes: text("notes"),
        cautions: worked
            .order
            .iter()
            .flat_map(|o| &o.cautions)
            .map(|c| CautionView {
                topic: c.topic.clone(),
                says: c.say.clone(),
            })
            .collect(),
    }
}
