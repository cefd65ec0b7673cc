//! Edits of the pages: what goes with a change, what it is called in the history, and the store's answer.

use serde::{Deserialize, Serialize};
use serde_json::Value;
use store::{Document, DocumentEdit, DocumentId, Edit, Edited, Kind, Store as _, StoreError};
use ts_rs::TS;
use utoipa::ToSchema;

use super::App;
use crate::document::describe;
use crate::view::Set;

/// One action over one or several documents.
#[derive(Clone, Debug, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct EditRequest {
    /// The documents it touches, each with the revision the maker was looking at.
    pub parts: Vec<EditPart>,
    /// The changes, all or none.
    pub changes: Vec<Set>,
    /// What the history calls it; made from the changes when empty.
    #[serde(default)]
    pub words: String,
}

/// A document of an edit.
#[derive(Clone, Debug, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct EditPart {
    /// Its id.
    pub document: String,
    /// The revision the maker was looking at.
    pub base: u64,
}

impl App {
    /// Makes an edit.
    ///
    /// # Errors
    /// As [`store::Store::edit`]; [`StoreError::BadEdit`] too when a change names a document without a base.
    pub async fn edit(&self, request: EditRequest) -> Result<Edited, StoreError> {
        let mut parts = Vec::with_capacity(request.parts.len());
        let mut words = Vec::new();
        for change in &request.changes {
            if !request.parts.iter().any(|p| p.document == change.document) {
                return Err(StoreError::BadEdit(format!(
                    "the change of {} has no revision it is based on",
                    change.path
                )));
            }
        }
        for part in &request.parts {
            let id: DocumentId = part.document.parse()?;
            let document = if id.as_str() == super::papers::WORKROOM {
                self.workroom_made().await?
            } else {
                self.store.get(&id).await?
            };
            let own: Vec<&Set> = request
                .changes
                .iter()
                .filter(|c| c.document == part.document)
                .collect();
            words.extend(
                own.iter()
                    .map(|c| describe(document.kind.key(), &document.body, &c.path, &c.value)),
            );
            // A workroom nobody has written yet has no revision the page could know.
            let base = if part.base == 0 {
                document.revision
            } else {
                part.base
            };
            parts.push(DocumentEdit {
                id,
                base,
                changes: with_companions(&document, &own),
            });
        }
        let words = if request.words.trim().is_empty() {
            words.join("; ")
        } else {
            request.words.trim().to_owned()
        };
        let words = words.chars().take(store::MAX_WORDS).collect();
        self.store.edit(Edit { parts, words }).await
    }
}

/// Places of a suit of which only one may be filled: the depth of a neckline as a share or as a length, a named fit or the
/// shares of one of its own.
const ONE_OF: [&[&str]; 5] = [
    &["design.leg", "design.leg_share", "design.side_seam_length"],
    &["design.neck_depth", "design.neck_depth_below_pit"],
    &["design.back_depth", "design.back_depth_below_nape"],
    &["design.fit", "design.fit_around"],
    &["design.fit", "design.fit_lengthwise"],
];

/// The places that a change of a suit puts out of force.
fn displaced<'a>(kind: &str, change: &'a Set) -> impl Iterator<Item = &'static str> + 'a {
    let is_filled = kind == Kind::Suit.key() && !change.value.is_null();
    ONE_OF
        .iter()
        .filter(move |group| is_filled && group.contains(&change.path.as_str()))
        .flat_map(|group| group.iter().copied())
        .filter(|path| *path != change.path)
}

/// The changes, and the emptying of what they put out of force.
fn with_companions(document: &Document, changes: &[&Set]) -> Vec<store::Set> {
    let mut sets: Vec<store::Set> = Vec::with_capacity(changes.len());
    for change in changes {
        let emptied = displaced(document.kind.key(), change)
            .filter(|path| crate::view::at_path(&document.body, path).is_some())
            .filter(|path| !changes.iter().any(|c| c.path == *path));
        sets.extend(emptied.map(|path| store::Set {
            path: path.to_owned(),
            value: None,
        }));
        sets.push(store::Set {
            path: change.path.clone(),
            value: (!change.value.is_null()).then(|| change.value.clone()),
        });
    }
    sets
}

/// The same changes on bodies that are not kept: for a preview.
pub(crate) fn preview_bodies(papers: &mut [&mut crate::document::Paper], changes: &[Set]) {
    for paper in papers {
        for change in changes.iter().filter(|c| c.document == paper.id) {
            for path in displaced(paper.kind, change) {
                put(&mut paper.body, path, Value::Null);
            }
            put(&mut paper.body, &change.path, change.value.clone());
        }
    }
}

/// Sets a dotted path; null takes it out. A path through something that is no object is left alone: the store refuses it.
fn put(body: &mut Value, path: &str, value: Value) {
    let (parents, last) = path.rsplit_once('.').unwrap_or(("", path));
    let mut at = body;
    for key in parents.split('.').filter(|k| !k.is_empty()) {
        let Some(map) = at.as_object_mut() else { return };
        if value.is_null() && !map.contains_key(key) {
            return;
        }
        at = map
            .entry(key)
            .or_insert_with(|| Value::Object(serde_json::Map::new()));
    }
    let Some(map) = at.as_object_mut() else { return };
    if value.is_null() {
        map.remove(last);
    } else {
        map.insert(last.to_owned(), value);
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn a_leg_by_its_side_seam_puts_the_word_out_of_force() {
        let mut suit = crate::document::Paper {
            id: "s".into(),
            kind: "suit",
            revision: 1,
            body: json!({"design": {"leg": "mid", "strap_width": "3.8 cm"}}),
        };
        let set = Set {
            document: "s".into(),
            path: "design.side_seam_length".into(),
            value: json!("16 cm"),
        };
        preview_bodies(&mut [&mut suit], &[set]);
        assert_eq!(
            suit.body,
            json!({"design": {"side_seam_length": "16 cm", "strap_width": "3.8 cm"}})
        );
    }

    #[test]
    fn taking_out_what_is_not_there_makes_nothing() {
        let mut body = json!({"a": 1});
        put(&mut body, "b.c", Value::Null);
        put(&mut body, "a.c", json!(2));
        assert_eq!(body, json!({"a": 1}));
    }
}
