//! New suits: from nothing, from an earlier one, from a suit file.

use serde::{Deserialize, Serialize};
use serde_json::{Map, Value, json};
use store::{Document, DocumentId, Kind, Store as _, StoreError};
use ts_rs::TS;
use utoipa::ToSchema;

use super::App;
use super::papers::name_of;
use crate::document::{Imported, import};
use crate::suit_file::Faults;

/// A suit to begin.
#[derive(Clone, Debug, Default, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields, default)]
pub struct NewSuitRequest {
    /// Its name; made from the wearer's when empty.
    pub name: String,
    /// Its wearer.
    pub wearer: Option<String>,
    /// A suit to begin like: its design, cloths and wearer.
    pub like: Option<String>,
}

impl App {
    /// Begins a suit.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] for a wearer or a suit that is not there.
    pub async fn new_suit(&self, request: NewSuitRequest) -> Result<Document, StoreError> {
        let mut body = match &request.like {
            Some(like) => {
                let like = self.store.get(&like.parse()?).await?;
                let mut body = like.body.as_object().cloned().unwrap_or_default();
                // What belongs to that one alone.
                for key in ["try_ons", "sewn", "example", "to_wear_from", "notes"] {
                    body.remove(key);
                }
                body
            }
            None => {
                let mut body = Map::new();
                body.insert("units".into(), json!(self.settings().await?.units));
                body.insert("design".into(), json!({"style": "one-piece"}));
                body
            }
        };
        let mut name = request.name.trim().to_owned();
        if let Some(wearer) = &request.wearer {
            let wearer = self.store.get(&wearer.parse()?).await?;
            if name.is_empty() {
                name = possessive(name_of(&wearer.body), "suit");
            }
            body.insert("wearer".into(), json!(wearer.id.as_str()));
        }
        if name.is_empty() {
            name = "New suit".into();
        }
        body.insert("name".into(), json!(name));
        body.insert("number".into(), json!(self.next_number().await?));
        body.insert("version".into(), json!(1));
        self.store
            .create(Kind::Suit, Value::Object(body), &format!("began {name}"))
            .await
    }

    /// The next number of an order.
    pub(crate) async fn next_number(&self) -> Result<u64, StoreError> {
        let suits = self.store.list(Kind::Suit).await?;
        let most = suits.iter().filter_map(|s| s.body.get("number")?.as_u64()).max();
        Ok(most.unwrap_or(0) + 1)
    }

    /// Takes a suit file in as documents of its own. The inner error tells its faults.
    ///
    /// # Errors
    /// Those of the store.
    pub async fn import_suit(
        &self,
        file: &str,
        text: &str,
    ) -> Result<Result<DocumentId, Box<Faults>>, StoreError> {
        let imported = match import(file, text) {
            Ok(imported) => imported,
            Err(faults) => return Ok(Err(Box::new(faults))),
        };
        let words = format!("took in {file}");
        Ok(Ok(self.keep_imported(imported, &words, &Map::new()).await?))
    }

    /// Keeps the documents of an imported suit; `with` goes into each of them. A wearer or cloth that is there already,
    /// word for word, is used rather than doubled.
    pub(crate) async fn keep_imported(
        &self,
        imported: Imported,
        words: &str,
        with: &Map<String, Value>,
    ) -> Result<DocumentId, StoreError> {
        let mut suit = imported.suit.as_object().cloned().unwrap_or_default();
        let wearer = self
            .same_or_new(Kind::Wearer, imported.wearer, words, with)
            .await?;
        suit.insert("wearer".into(), json!(wearer.as_str()));
        let cloths = [
            ("shell", Some(imported.shell)),
            ("lining", imported.lining),
            ("mesh", imported.mesh),
            ("contrast", imported.contrast),
        ];
        for (role, cloth) in cloths {
            if let Some(cloth) = cloth {
                let id = self.same_or_new(Kind::Cloth, cloth, words, with).await?;
                suit.insert(role.into(), json!(id.as_str()));
            }
        }
        suit.entry("number").or_insert(json!(self.next_number().await?));
        suit.entry("version").or_insert(json!(1));
        suit.extend(with.clone());
        Ok(self
            .store
            .create(Kind::Suit, Value::Object(suit), words)
            .await?
            .id)
    }

    async fn same_or_new(
        &self,
        kind: Kind,
        body: Value,
        words: &str,
        with: &Map<String, Value>,
    ) -> Result<DocumentId, StoreError> {
        let mut map = body.as_object().cloned().unwrap_or_default();
        map.extend(with.clone());
        let body = Value::Object(map);
        if let Some(same) = self.store.list(kind).await?.into_iter().find(|d| d.body == body) {
            return Ok(same.id);
        }
        Ok(self.store.create(kind, body, words).await?.id)
    }
}

/// `Maren's suit`, `Ines' suit`.
fn possessive(name: &str, what: &str) -> String {
    let mark = if name.ends_with(['s', 'x', 'z']) {
        "’"
    } else {
        "’s"
    };
    if name.is_empty() {
        format!("New {what}")
    } else {
        format!("{name}{mark} {what}")
    }
}
