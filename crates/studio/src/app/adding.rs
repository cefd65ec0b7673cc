//! Adding an archive to a workroom that knows part of it: what is the same is left, what differs becomes a second.
//!
//! The archive is unpacked into a store of its own in a scratch folder, checked as a whole on the way; what is here already
//! is taken out there, and only the rest is taken in. So an archive of one's own workroom adds nothing, however often.
//!
//! **Limits.** A suit that is the same here keeps its own wearer and cloths, also where the archive has others under those
//! ids; those come in as seconds beside them.

use std::collections::BTreeMap;

use serde_json::Value;
use store::{
    Document, DocumentEdit, DocumentId, Edit, ImportMode, Kind, Options, Photo, Set, SqliteStore, Store as _,
    StoreError, Version,
};

use super::{App, count};
use crate::view::told_list;

/// What came of adding an archive.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Added {
    /// New here, by kind.
    new: BTreeMap<Kind, usize>,
    /// The same here already.
    same: usize,
    /// Lay in the bin here and were taken out of it.
    back: usize,
    /// Other than what is here under the same id: the names they were given.
    seconds: Vec<String>,
    /// The archive describes this workroom's machines otherwise; those here stay.
    other_workroom: bool,
}

/// What is known of an archive's document, held against what is here.
enum Judged {
    New,
    Same {
        in_bin: bool,
    },
    /// It was added as a second before, under this id.
    SecondBefore(DocumentId),
    Differs,
}

impl App {
    /// Takes an archive in beside what is here.
    ///
    /// # Errors
    /// [`StoreError::Archive`] lists what is wrong with it; others of the store.
    pub async fn add_archive(&self, bytes: Vec<u8>) -> Result<Added, StoreError> {
        let scratch = tempfile::tempdir().map_err(|source| StoreError::File {
            doing: "making a scratch folder",
            file: std::env::temp_dir(),
            source,
        })?;
        let options = Options {
            clock: self.clock.clone(),
            ..Options::default()
        };
        let aside = SqliteStore::open(scratch.path(), options).await?;
        let added = self.add_from(&aside, bytes).await;
        aside.close().await;
        self.forget();
        added
    }

    async fn add_from(&self, aside: &SqliteStore, bytes: Vec<u8>) -> Result<Added, StoreError> {
        aside.import_archive(bytes, ImportMode::Replace).await?;
        let mut added = Added::default();
        let mut gone = Vec::new();
        let mut new_ids: BTreeMap<String, String> = BTreeMap::new();
        let mut rest = 0;
        for document in all(aside).await? {
            match self.judge(aside, &document, &new_ids).await? {
                Judged::New => {
                    rest += 1;
                    if document.deleted_at.is_none() {
                        *added.new.entry(document.kind).or_default() += 1;
                    }
                }
                Judged::Same { in_bin } => {
                    if in_bin && document.deleted_at.is_none() {
                        self.store
                            .restore(&document.id, "brought in again with an archive")
                            .await?;
                        added.back += 1;
                    } else {
                        added.same += 1;
                    }
                    gone.push(document.id);
                }
                Judged::SecondBefore(second) => {
                    added.same += 1;
                    new_ids.insert(document.id.to_string(), second.to_string());
                    gone.push(document.id);
                }
                Judged::Differs if document.kind == Kind::Workroom => {
                    added.other_workroom = true;
                    gone.push(document.id);
                }
                Judged::Differs => {
                    rest += 1;
                    added.seconds.push(second_name(&document.body));
                }
            }
        }
        self.name_seconds(aside, &gone, &new_ids).await?;
        if !gone.is_empty() {
            aside.erase(&gone).await?;
        }
        if rest > 0 {
            let bytes = aside.export_archive().await?;
            self.store.import_archive(bytes, ImportMode::Add).await?;
        }
        Ok(added)
    }

    /// Holds a document of the archive against what is here.
    async fn judge(
        &self,
        aside: &SqliteStore,
        theirs: &Document,
        new_ids: &BTreeMap<String, String>,
    ) -> Result<Judged, StoreError> {
        let ours = match self.store.get(&theirs.id).await {
            Ok(ours) => ours,
            Err(StoreError::NotFound(_)) => return Ok(Judged::New),
            Err(error) => return Err(error),
        };
        if ours.kind == theirs.kind
            && ours.body == theirs.body
            && hangs_on(&self.store, &ours.id).await? == hangs_on(aside, &theirs.id).await?
        {
            return Ok(Judged::Same {
                in_bin: ours.deleted_at.is_some(),
            });
        }
        let mut second = theirs.body.clone();
        rename(&mut second, new_ids);
        if let Some(name) = second.get_mut("name") {
            *name = Value::String(second_name(&theirs.body));
        }
        for other in self.store.list(theirs.kind).await? {
            if other.id != theirs.id && other.body == second {
                return Ok(Judged::SecondBefore(other.id));
            }
        }
        Ok(Judged::Differs)
    }

    /// Names what comes in as a second, and lets what comes in speak of the seconds that are here already.
    async fn name_seconds(
        &self,
        aside: &SqliteStore,
        gone: &[DocumentId],
        new_ids: &BTreeMap<String, String>,
    ) -> Result<(), StoreError> {
        for document in all(aside).await? {
            if gone.contains(&document.id) || document.deleted_at.is_some() {
                continue;
            }
            let mut body = document.body.clone();
            rename(&mut body, new_ids);
            let is_here = match self.store.get(&document.id).await {
                Ok(_) => true,
                Err(StoreError::NotFound(_)) => false,
                Err(error) => return Err(error),
            };
            if is_here && let Some(name) = body.get_mut("name") {
                *name = Value::String(second_name(&document.body));
            }
            let changes: Vec<Set> = body
                .as_object()
                .into_iter()
                .flatten()
                .filter(|(key, value)| document.body.get(key) != Some(value))
                .map(|(key, value)| Set {
                    path: key.clone(),
                    value: Some(value.clone()),
                })
                .collect();
            if changes.is_empty() {
                continue;
            }
            let parts = vec![DocumentEdit {
                id: document.id,
                base: document.revision,
                changes,
            }];
            let words = "kept beside the one that was here".to_owned();
            aside.edit(Edit { parts, words }).await?;
        }
        Ok(())
    }
}

/// Every document, also from the bin: first those nothing refers from, so that new ids are known when suits and classes come.
async fn all(store: &SqliteStore) -> Result<Vec<Document>, StoreError> {
    let mut all = store.bin().await?;
    for kind in Kind::ALL {
        all.extend(store.list(kind).await?);
    }
    let rank = |kind: Kind| match kind {
        Kind::Suit => 1,
        Kind::Class => 2,
        _ => 0,
    };
    all.sort_by(|a, b| (rank(a.kind), &a.id).cmp(&(rank(b.kind), &b.id)));
    Ok(all)
}

/// What hangs on a document: its versions and its photos with their bytes, the times they were put aside.
async fn hangs_on(
    store: &SqliteStore,
    id: &DocumentId,
) -> Result<(Vec<(u32, Value, String)>, Vec<Photo>), StoreError> {
    let versions = store.versions(id).await?;
    let versions = versions
        .into_iter()
        .map(
            |Version {
                 number, body, text, ..
             }| (number, body, text),
        )
        .collect();
    let mut photos = Vec::new();
    for info in store.photos(id).await? {
        photos.push(store.photo(&info.id).await?);
    }
    Ok((versions, photos))
}

/// Every text value that is exactly an old id becomes the new one.
fn rename(value: &mut Value, new_ids: &BTreeMap<String, String>) {
    match value {
        Value::String(text) => {
            if let Some(new) = new_ids.get(text) {
                text.clone_from(new);
            }
        }
        Value::Array(list) => list.iter_mut().for_each(|item| rename(item, new_ids)),
        Value::Object(object) => object.values_mut().for_each(|item| rename(item, new_ids)),
        _ => {}
    }
}

fn second_name(body: &Value) -> String {
    format!("{}, second", super::papers::name_of(body))
}

/// One and several of a kind, as they are spoken of.
const fn called(kind: Kind) -> (&'static str, &'static str) {
    match kind {
        Kind::Suit => ("suit", "suits"),
        Kind::Wearer => ("wearer", "wearers"),
        Kind::Cloth => ("cloth", "cloths"),
        Kind::Elastic => ("elastic", "elastics"),
        Kind::Sample => ("sample", "samples"),
        Kind::Drawer => ("pattern of the drawer", "patterns of the drawer"),
        Kind::Workroom => ("workroom", "workrooms"),
        Kind::Class => ("class", "classes"),
    }
}

impl Added {
    /// In sentences: `3 suits and 1 wearer added, 5 things already here.`
    pub fn says(&self) -> String {
        let new: Vec<String> = self
            .new
            .iter()
            .map(|(kind, n)| {
                let (one, many) = called(*kind);
                format!("{n} {}", if *n == 1 { one } else { many })
            })
            .collect();
        let mut parts = Vec::new();
        if !new.is_empty() {
            parts.push(format!("{} added", told_list(&new)));
        }
        if self.back > 0 {
            parts.push(format!("{} out of the bin again", count(self.back, "thing")));
        }
        let is_all = parts.is_empty() && self.seconds.is_empty();
        match self.same {
            0 if is_all => parts.push("Nothing was in it".to_owned()),
            0 => {}
            1 if is_all => parts.push("Nothing added: the one thing in it is already here".to_owned()),
            n if is_all => parts.push(format!("Nothing added: all {n} things in it are already here")),
            n => parts.push(format!("{n} already here")),
        }
        let mut sentences = Vec::new();
        if !parts.is_empty() {
            sentences.push(format!("{}.", parts.join(", ")));
        }
        if !self.seconds.is_empty() {
            let names = told_list(&self.seconds);
            sentences.push(format!("Other than here, and kept beside it: {names}."));
        }
        if self.other_workroom {
            sentences.push("Machines and printer stay as they are here.".to_owned());
        }
        sentences.join(" ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_added_is_said() {
        let mut added = Added {
            same: 5,
            ..Added::default()
        };
        assert_eq!(
            added.says(),
            "Nothing added: all 5 things in it are already here."
        );
        added.new.insert(Kind::Suit, 3);
        assert_eq!(added.says(), "3 suits added, 5 already here.");
        added.new.insert(Kind::Wearer, 1);
        added.seconds.push("Maren, second".into());
        assert_eq!(
            added.says(),
            "3 suits and 1 wearer added, 5 already here. Other than here, and kept beside it: Maren, second."
        );
        added.new.clear();
        assert_eq!(
            added.says(),
            "5 already here. Other than here, and kept beside it: Maren, second."
        );
    }

    async fn example(folder: &std::path::Path) -> std::sync::Arc<App> {
        let store = SqliteStore::open(folder, Options::default()).await.unwrap();
        let run = super::super::RunOptions {
            address: ([127, 0, 0, 1], 0).into(),
            lan: false,
            lan_url: None,
        };
        let app = App::new(store, run, std::sync::Arc::new(store::Timestamp::now));
        app.put_example().await.unwrap();
        app
    }

    async fn change(app: &App, id: &str, path: &str, value: &str) {
        let document = app.store.get(&id.parse().unwrap()).await.unwrap();
        let changes = vec![Set {
            path: path.into(),
            value: Some(value.into()),
        }];
        let parts = vec![DocumentEdit {
            id: document.id,
            base: document.revision,
            changes,
        }];
        let words = "changed".to_owned();
        app.store.edit(Edit { parts, words }).await.unwrap();
    }

    async fn names(app: &App, kind: Kind) -> Vec<String> {
        let all = app.store.list(kind).await.unwrap();
        all.iter()
            .map(|d| super::super::papers::name_of(&d.body).to_owned())
            .collect()
    }

    #[tokio::test]
    async fn an_archive_of_the_same_workroom_adds_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let app = example(folder.path()).await;
        let photo = vec![1, 2, 3];
        let maren = "example-14".parse().unwrap();
        app.store.put_photo(&maren, "image/jpeg", photo).await.unwrap();
        let before = all(&app.store).await.unwrap();
        let archive = app.store.export_archive().await.unwrap();
        let added = app.add_archive(archive).await.unwrap();
        assert_eq!(
            added,
            Added {
                same: before.len(),
                ..Added::default()
            }
        );
        assert_eq!(all(&app.store).await.unwrap(), before, "left as it is");
    }

    #[tokio::test]
    async fn what_differs_becomes_a_second_once() {
        let folder = tempfile::tempdir().unwrap();
        let app = example(folder.path()).await;
        let archive = app.store.export_archive().await.unwrap();
        change(&app, "example-maren", "notes", "Left shoulder lower.").await;
        change(&app, "example-14", "notes", "For the new year.").await;
        app.store
            .delete(&"example-tove".parse().unwrap(), "gone")
            .await
            .unwrap();
        app.store.erase(&["example-kelp".parse().unwrap()]).await.unwrap();
        let count = all(&app.store).await.unwrap().len();

        let added = app.add_archive(archive.clone()).await.unwrap();
        assert_eq!(
            (added.new.get(&Kind::Cloth), added.new.len(), added.back),
            (Some(&1), 1, 1),
            "{added:?}"
        );
        assert_eq!(added.seconds.len(), 2, "{added:?}");
        assert_eq!(all(&app.store).await.unwrap().len(), count + 3);
        let wearers = names(&app, Kind::Wearer).await;
        assert!(wearers.contains(&"Maren, second".to_owned()), "{wearers:?}");
        assert!(wearers.contains(&"Tove".to_owned()), "{wearers:?}");
        // The second suit is that of the second wearer, and of the cloth both share.
        let suits = app.store.list(Kind::Suit).await.unwrap();
        let second = suits
            .iter()
            .find(|s| super::super::papers::name_of(&s.body).ends_with(", second"))
            .unwrap();
        let wearer: DocumentId = second.body["wearer"].as_str().unwrap().parse().unwrap();
        let wearer = app.store.get(&wearer).await.unwrap();
        assert_eq!(wearer.body["name"], "Maren, second");
        assert_eq!(second.body["shell"], "example-slate");

        let again = app.add_archive(archive).await.unwrap();
        assert_eq!((again.new.len(), again.seconds.len()), (0, 0), "{again:?}");
        assert_eq!(all(&app.store).await.unwrap().len(), count + 3);
        app.store.close().await;
    }

    #[tokio::test]
    async fn a_broken_archive_adds_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let app = example(folder.path()).await;
        let before = all(&app.store).await.unwrap();
        let fault = app.add_archive(b"no zip file".to_vec()).await;
        assert!(matches!(fault, Err(StoreError::Archive(_))), "{fault:?}");
        assert_eq!(all(&app.store).await.unwrap(), before);
    }
}
