//! The bin: what was taken out of the workroom and can be put back, and deleting one thing of it for good.
//!
//! A wearer never lies in it: she is removed at once and really ([`App::erase_wearer`]).

use serde_json::Value;
use store::{Document, DocumentId, Kind, Store as _, StoreError};

use super::App;
use super::papers::name_of;
use super::remove::count;

/// Something in the bin.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InBin {
    /// Its id.
    pub id: DocumentId,
    /// Its kind.
    pub kind: Kind,
    /// Its name.
    pub name: String,
    /// What it is, in a few words: `Suit No. 15, for Odile`.
    pub about: String,
    /// Since when it lies there, ISO 8601.
    pub since: String,
}

impl App {
    /// What lies in the bin, the latest first.
    ///
    /// # Errors
    /// Those of the store.
    pub async fn bin(&self) -> Result<Vec<InBin>, StoreError> {
        let wearers = self.store.list(Kind::Wearer).await?;
        let bin = self.store.bin().await?;
        Ok(bin
            .into_iter()
            .map(|document| in_bin(document, &wearers))
            .collect())
    }

    /// Deletes something of the bin for good, here and in every backup. Says what went.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] when it does not lie in the bin, [`StoreError::NotCleared`] when it must be done once more.
    pub async fn erase_from_bin(&self, id: &DocumentId) -> Result<String, StoreError> {
        let document = self.store.get(id).await?;
        if document.deleted_at.is_none() {
            return Err(StoreError::NotFound(document.id));
        }
        let name = name_of(&document.body).to_owned();
        let erased = self.store.erase(&[document.id]).await?;
        self.forget();
        if document.kind == Kind::Suit {
            // Its pattern holds a body's dimensions.
            self.ranges.forget();
            self.jobs.forget();
        }
        Ok(format!(
            "{} is deleted, here and in {}.",
            if name.is_empty() { "It" } else { &name },
            count(erased.backups, "backup")
        ))
    }
}

fn in_bin(document: Document, wearers: &[Document]) -> InBin {
    InBin {
        about: about(&document, wearers),
        name: name_of(&document.body).to_owned(),
        since: document.deleted_at.map_or_else(String::new, |at| at.to_string()),
        id: document.id,
        kind: document.kind,
    }
}

fn about(document: &Document, wearers: &[Document]) -> String {
    let text = |key: &str| document.body.get(key).and_then(Value::as_str).unwrap_or_default();
    match document.kind {
        Kind::Suit => {
            let number = document.body.get("number").and_then(Value::as_u64).unwrap_or(0);
            let wearer = wearers.iter().find(|w| w.id.as_str() == text("wearer"));
            match wearer.map(|w| name_of(&w.body)).filter(|name| !name.is_empty()) {
                Some(name) => format!("Suit No. {number}, for {name}"),
                None => format!("Suit No. {number}"),
            }
        }
        Kind::Cloth => match text("role") {
            "lining" => "Cloth, a lining".to_owned(),
            "mesh" => "Cloth, a mesh".to_owned(),
            _ => "Cloth".to_owned(),
        },
        Kind::Elastic => "Elastic".to_owned(),
        Kind::Sample => "Of the sample book".to_owned(),
        Kind::Drawer if text("of") == "suit" => "Favourite suit of the drawer".to_owned(),
        Kind::Drawer => "Pattern of the drawer".to_owned(),
        Kind::Class => "Class".to_owned(),
        Kind::Wearer => "Wearer".to_owned(),
        Kind::Workroom => "Workroom".to_owned(),
    }
}
