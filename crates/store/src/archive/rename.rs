//! New numbers and new names for carried content.

use std::collections::BTreeMap;

use serde_json::Value;

use super::{Content, Sheets};
use crate::{DocumentId, PhotoId};

/// Numbers the journal anew, in its order, from `first` on; revisions and targets follow. Content whose journal was cut
/// by erasing has gaps before this.
pub(crate) fn renumber(sheets: &mut Sheets, first: u64) {
    let numbers: BTreeMap<u64, u64> = sheets
        .journal
        .iter()
        .map(|entry| entry.seq)
        .zip(first..)
        .collect();
    for entry in &mut sheets.journal {
        entry.seq = numbers.get(&entry.seq).copied().unwrap_or(entry.seq);
        entry.target = entry.target.and_then(|target| numbers.get(&target).copied());
    }
    for document in &mut sheets.documents {
        document.revision = numbers
            .get(&document.revision)
            .copied()
            .unwrap_or(document.revision);
    }
}

/// Old names to new ones.
#[derive(Debug, Default)]
pub(crate) struct Names {
    pub(crate) documents: BTreeMap<DocumentId, DocumentId>,
    pub(crate) photos: BTreeMap<PhotoId, PhotoId>,
}

impl Names {
    pub(crate) fn is_empty(&self) -> bool {
        self.documents.is_empty() && self.photos.is_empty()
    }

    /// Renames throughout: ids, and every text value that is exactly an old id.
    pub(crate) fn apply(&self, content: &mut Content) {
        let texts: BTreeMap<&str, &str> = self
            .documents
            .iter()
            .map(|(old, new)| (old.as_str(), new.as_str()))
            .chain(self.photos.iter().map(|(old, new)| (old.as_str(), new.as_str())))
            .collect();
        let document = |id: &mut DocumentId| {
            if let Some(new) = self.documents.get(id) {
                *id = new.clone();
            }
        };
        let photo = |id: PhotoId| self.photos.get(&id).cloned().unwrap_or(id);
        let sheets = &mut content.sheets;
        for item in &mut sheets.documents {
            document(&mut item.id);
            values(&mut item.body, &texts);
        }
        for part in sheets.journal.iter_mut().flat_map(|entry| &mut entry.parts) {
            document(&mut part.document);
            for change in &mut part.changes {
                for value in change.before.iter_mut().chain(&mut change.after) {
                    values(value, &texts);
                }
            }
        }
        for version in &mut sheets.versions {
            document(&mut version.suit);
            values(&mut version.body, &texts);
        }
        for info in &mut sheets.photos {
            info.id = photo(info.id.clone());
            document(&mut info.owner);
        }
        content.bytes = std::mem::take(&mut content.bytes)
            .into_iter()
            .map(|(id, bytes)| (photo(id), bytes))
            .collect();
    }
}

fn values(value: &mut Value, texts: &BTreeMap<&str, &str>) {
    match value {
        Value::String(text) => {
            if let Some(new) = texts.get(text.as_str()) {
                *text = (*new).to_owned();
            }
        }
        Value::Array(list) => list.iter_mut().for_each(|item| values(item, texts)),
        Value::Object(object) => object.values_mut().for_each(|item| values(item, texts)),
        _ => {}
    }
}
