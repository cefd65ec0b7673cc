//! Removing a wearer: really, with everything that holds her dimensions, and said beforehand.

use serde::Serialize;
use serde_json::Value;
use store::{Document, DocumentId, Kind, Store as _, StoreError};
use ts_rs::TS;
use utoipa::ToSchema;

use super::App;
use super::papers::name_of;

/// What goes along when a wearer is removed.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct GoesAlong {
    /// Sentences, the most important first.
    pub says: Vec<String>,
}

impl App {
    /// What would go along with a wearer.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] when there is no such wearer.
    pub async fn goes_along(&self, wearer: &DocumentId) -> Result<GoesAlong, StoreError> {
        let wearer = self.wearer(wearer).await?;
        let suits = self.suits_of(&wearer).await?;
        let name = name_of(&wearer.body);
        let mut says = vec![format!(
            "All dimensions and notes of {name}, with every earlier reading."
        )];
        let mut photos = self.store.photos(&wearer.id).await?.len();
        let mut versions = 0;
        for suit in &suits {
            photos += self.store.photos(&suit.id).await?.len();
            versions += self.store.versions(&suit.id).await?.len();
        }
        if !suits.is_empty() {
            let names: Vec<&str> = suits.iter().map(|s| name_of(&s.body)).collect();
            says.push(format!(
                "{}: {}. {} the dimensions.",
                count(suits.len(), "suit"),
                names.join("; "),
                if suits.len() == 1 {
                    "Its pattern holds"
                } else {
                    "Their patterns hold"
                }
            ));
        }
        if versions > 0 {
            says.push(format!("{} of these suits.", count(versions, "kept version")));
        }
        if photos > 0 {
            says.push(format!("{}.", count(photos, "photo")));
        }
        let classes = self.classes_with(&wearer).await?;
        if !classes.is_empty() {
            let names: Vec<&str> = classes.iter().map(|c| name_of(&c.body)).collect();
            says.push(format!("A place in {}.", names.join("; ")));
        }
        let drawer = self.drawer_of(&wearer).await?;
        if !drawer.is_empty() {
            let names: Vec<&str> = drawer.iter().map(|d| name_of(&d.body)).collect();
            says.push(format!(
                "Whose it was, of {} in the drawer. What was measured of the suit itself stays.",
                names.join("; ")
            ));
        }
        says.push(
            "The same in every backup of this workroom. What was printed or exported stays where it is."
                .into(),
        );
        says.push("This cannot be taken back.".into());
        Ok(GoesAlong { says })
    }

    /// Removes a wearer and what goes along. Returns what was removed, in a sentence.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] when there is no such wearer, [`StoreError::NotCleared`] when it must be done once more.
    pub async fn erase_wearer(&self, wearer: &DocumentId) -> Result<String, StoreError> {
        let wearer = self.wearer(wearer).await?;
        let suits = self.suits_of(&wearer).await?;
        for class in self.classes_with(&wearer).await? {
            let left: Vec<Value> = members(&class)
                .filter(|id| id.as_str() != Some(wearer.id.as_str()))
                .cloned()
                .collect();
            self.store
                .edit(store::Edit {
                    parts: vec![store::DocumentEdit {
                        id: class.id,
                        base: class.revision,
                        changes: vec![store::Set {
                            path: "wearers".into(),
                            value: Some(Value::Array(left)),
                        }],
                    }],
                    words: "a wearer left the class".into(),
                })
                .await?;
        }
        for kept in self.drawer_of(&wearer).await? {
            self.store
                .edit(store::Edit {
                    parts: vec![store::DocumentEdit {
                        id: kept.id,
                        base: kept.revision,
                        changes: vec![store::Set {
                            path: "wearer".into(),
                            value: None,
                        }],
                    }],
                    words: "whose it was, forgotten".into(),
                })
                .await?;
        }
        let ids: Vec<DocumentId> = std::iter::once(wearer.id)
            .chain(suits.into_iter().map(|s| s.id))
            .collect();
        let erased = self.store.erase(&ids).await?;
        self.forget();
        self.ranges.forget();
        self.jobs.forget();
        Ok(format!(
            "Removed: {}, here and in {}.",
            count(erased.documents, "document"),
            count(erased.backups, "backup")
        ))
    }

    async fn wearer(&self, id: &DocumentId) -> Result<Document, StoreError> {
        let document = self.store.get(id).await?;
        if document.kind == Kind::Wearer {
            Ok(document)
        } else {
            Err(StoreError::NotFound(document.id))
        }
    }

    /// The suits of a wearer, those in the bin too.
    async fn suits_of(&self, wearer: &Document) -> Result<Vec<Document>, StoreError> {
        let is_hers = |d: &Document| {
            d.kind == Kind::Suit && d.body.get("wearer").and_then(Value::as_str) == Some(wearer.id.as_str())
        };
        let mut suits = self.store.list(Kind::Suit).await?;
        suits.extend(self.store.bin().await?);
        suits.retain(is_hers);
        Ok(suits)
    }

    /// Favourites of the drawer that are hers.
    async fn drawer_of(&self, wearer: &Document) -> Result<Vec<Document>, StoreError> {
        let mut drawer = self.store.list(Kind::Drawer).await?;
        drawer.retain(|d| d.body.get("wearer").and_then(Value::as_str) == Some(wearer.id.as_str()));
        Ok(drawer)
    }

    async fn classes_with(&self, wearer: &Document) -> Result<Vec<Document>, StoreError> {
        let mut classes = self.store.list(Kind::Class).await?;
        classes.retain(|c| members(c).any(|id| id.as_str() == Some(wearer.id.as_str())));
        Ok(classes)
    }
}

fn members(class: &Document) -> impl Iterator<Item = &Value> {
    class
        .body
        .get("wearers")
        .and_then(Value::as_array)
        .into_iter()
        .flatten()
}

/// `1 suit`, `3 suits`.
pub(crate) fn count(n: usize, one: &str) -> String {
    format!("{n} {one}{}", if n == 1 { "" } else { "s" })
}
