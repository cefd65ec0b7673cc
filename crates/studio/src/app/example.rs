//! The example workroom: an invented sea-swimming club, put in at the first start and taken out with one action.
//!
//! **Source.** Invented; `data/example/workroom.json`. Everything of it is marked, so that taking it out leaves the maker's
//! own documents alone.

use serde::Deserialize;
use serde_json::{Value, json};
use store::{DocumentEdit, DocumentId, Edit, Kind, Store as _, StoreError};

use super::App;
use super::papers::WORKROOM;
use super::remove::count;

const STEPS: &str = include_str!("../../../../data/example/workroom.json");
/// Setting that says the example was put in once: it does not come back by itself.
const SEEN: &str = "example";

#[derive(Debug, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum Step {
    Make {
        id: String,
        kind: Kind,
        body: Value,
    },
    Keep {
        suit: String,
        number: u32,
        words: String,
    },
    Edit {
        id: String,
        changes: Vec<store::Set>,
        words: String,
    },
    Workroom(Value),
}

impl App {
    /// Puts the example in when this workroom was never opened before. Says whether it did.
    ///
    /// # Errors
    /// Those of the store.
    pub async fn example_at_first_start(&self) -> Result<bool, StoreError> {
        if self.store.setting(SEEN).await?.is_some() {
            return Ok(false);
        }
        for kind in Kind::ALL {
            if !self.store.list(kind).await?.is_empty() {
                self.store.set_setting(SEEN, &json!("not needed")).await?;
                return Ok(false);
            }
        }
        self.put_example().await?;
        Ok(true)
    }

    /// Puts the example in; what of it is there already stays as it is.
    ///
    /// # Errors
    /// Those of the store; [`StoreError::Unreadable`] when the example itself is broken.
    pub async fn put_example(&self) -> Result<(), StoreError> {
        let steps: Vec<Step> = serde_json::from_str(STEPS).map_err(|e| StoreError::Unreadable {
            what: "the example workroom".into(),
            source: Box::new(e),
        })?;
        let mut made: Vec<String> = Vec::new();
        for step in steps {
            match step {
                Step::Make { id, kind, body } => {
                    let words = format!("put the example in: {}", super::papers::name_of(&body));
                    match self.store.create_with_id(id.parse()?, kind, body, &words).await {
                        Ok(_) => made.push(id),
                        Err(StoreError::Exists(id)) => {
                            self.store.restore(&id, "took the example out of the bin").await?;
                        }
                        Err(error) => return Err(error),
                    }
                }
                Step::Keep { suit, number, words } if made.contains(&suit) => {
                    let worked = self.worked(&suit.parse()?).await?;
                    let (body, text) = (worked.suit.body.clone(), worked.text.clone());
                    self.store
                        .keep_version(&suit.parse()?, number, body, &text, &words)
                        .await?;
                }
                Step::Edit { id, changes, words } if made.contains(&id) => {
                    let id: DocumentId = id.parse()?;
                    let base = self.store.get(&id).await?.revision;
                    let parts = vec![DocumentEdit { id, base, changes }];
                    self.store.edit(Edit { parts, words }).await?;
                }
                Step::Workroom(body) => {
                    let there = self.workroom().await?;
                    if there.is_none() {
                        self.store
                            .create_with_id(
                                WORKROOM.parse()?,
                                Kind::Workroom,
                                body,
                                "put the example workroom in",
                            )
                            .await?;
                    }
                }
                Step::Keep { .. } | Step::Edit { .. } => {}
            }
        }
        self.store.set_setting(SEEN, &json!("in")).await?;
        self.forget();
        Ok(())
    }

    /// Whether anything of the example is in.
    pub(crate) async fn has_example(&self) -> Result<bool, StoreError> {
        for kind in Kind::ALL {
            if kind != Kind::Workroom && self.store.list(kind).await?.iter().any(|d| is_example(&d.body)) {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// Takes the example out. What the maker's own documents use of it stays and becomes hers. Says what went.
    ///
    /// # Errors
    /// Those of the store.
    pub async fn remove_example(&self) -> Result<String, StoreError> {
        let mut examples = Vec::new();
        let mut own = String::new();
        for kind in Kind::ALL {
            for document in self.store.list(kind).await? {
                if is_example(&document.body) {
                    examples.push(document);
                } else {
                    // Ids are random or ours: a plain search for one finds every use.
                    own += &document.body.to_string();
                }
            }
        }
        let is_used = |id: &DocumentId| own.contains(&format!("\"{id}\""));
        let (stay, go): (Vec<_>, Vec<_>) = examples
            .into_iter()
            .partition(|d| d.kind == Kind::Workroom || is_used(&d.id));
        let kept = stay.iter().filter(|d| d.kind != Kind::Workroom).count();
        for document in stay {
            let changes = vec![store::Set {
                path: "example".into(),
                value: None,
            }];
            let parts = vec![DocumentEdit {
                id: document.id,
                base: document.revision,
                changes,
            }];
            let words = "kept from the example".to_owned();
            self.store.edit(Edit { parts, words }).await?;
        }
        let mut ids: Vec<DocumentId> = go.into_iter().map(|d| d.id).collect();
        ids.extend(
            self.store
                .bin()
                .await?
                .into_iter()
                .filter(|d| is_example(&d.body))
                .map(|d| d.id),
        );
        let gone = ids.len();
        if !ids.is_empty() {
            self.store.erase(&ids).await?;
        }
        self.store.set_setting(SEEN, &json!("out")).await?;
        self.forget();
        let stays = if kept == 0 {
            String::new()
        } else {
            format!(" {} your own work uses stay.", count(kept, "thing"))
        };
        Ok(format!(
            "Took out {} of the example.{stays}",
            count(gone, "document")
        ))
    }
}

fn is_example(body: &Value) -> bool {
    body.get("example").and_then(Value::as_bool).unwrap_or(false)
}
