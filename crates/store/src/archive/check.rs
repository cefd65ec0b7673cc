//! Whether content hangs together: checked wholly, before anything is written.
//!
//! The strictest check is the journal: for every document, taking back all of its changes from the body as it stands must
//! work, step by step. An archive that passes can be walked back and forward like one's own.

use std::collections::{BTreeMap, BTreeSet};

use super::{ArchiveFault, Content, MAX_FAULTS};
use crate::change::{depth, rewind};
use crate::limits::{check_body, check_setting, check_words};
use crate::{Change, Document, DocumentId, EntryKind, MAX_BODY, MAX_BODY_DEPTH, StoreError, photo};

struct Faults(Vec<ArchiveFault>);

impl Faults {
    fn add(&mut self, place: impl FnOnce() -> String, what: impl Into<String>) {
        if self.0.len() < MAX_FAULTS {
            self.0.push(ArchiveFault::new(place(), what));
        }
    }

    fn take(&mut self, place: impl FnOnce() -> String, result: Result<(), StoreError>) {
        if let Err(fault) = result {
            self.add(place, fault.to_string());
        }
    }
}

/// All faults of the content, at most 20.
pub(super) fn check(content: &Content) -> Vec<ArchiveFault> {
    let mut faults = Faults(Vec::new());
    let documents = check_documents(content, &mut faults);
    check_journal(content, &documents, &mut faults);
    check_versions(content, &documents, &mut faults);
    check_photos(content, &documents, &mut faults);
    let mut names = BTreeSet::new();
    for setting in &content.sheets.settings {
        let place = || format!("setting {}", setting.name);
        faults.take(place, check_setting(&setting.name, &setting.value));
        if !names.insert(&setting.name) {
            faults.add(place, "it stands twice");
        }
    }
    faults.0
}

type Documents<'a> = BTreeMap<&'a DocumentId, &'a Document>;

fn check_documents<'a>(content: &'a Content, faults: &mut Faults) -> Documents<'a> {
    let mut documents = BTreeMap::new();
    for document in &content.sheets.documents {
        let place = || format!("document {}", document.id);
        faults.take(place, check_body(document.kind, &document.body));
        if documents.insert(&document.id, document).is_some() {
            faults.add(place, "it stands twice");
        }
    }
    documents
}

fn check_journal(content: &Content, documents: &Documents<'_>, faults: &mut Faults) {
    let journal = &content.sheets.journal;
    let mut parts: BTreeMap<&DocumentId, Vec<(u64, &[Change])>> = BTreeMap::new();
    for (entry, number) in journal.iter().zip(1_u64..) {
        let place = || format!("journal entry {number}");
        if entry.seq != number {
            faults.add(
                place,
                format!("it is numbered {}: entries count from 1 without gaps", entry.seq),
            );
            return;
        }
        faults.take(place, check_words(&entry.words));
        if entry.parts.is_empty() {
            faults.add(place, "it touches no document");
        }
        let goes = matches!(entry.kind, EntryKind::Back | EntryKind::Forward);
        let aim = entry.target.map(|target| {
            let before = usize::try_from(target)
                .ok()
                .and_then(|target| journal.get(target.checked_sub(1)?));
            before.is_some_and(|before| target < number && before.kind == EntryKind::Edit)
        });
        if (aim.is_some() && !goes) || aim == Some(false) {
            faults.add(place, "it goes back to something that is no earlier edit");
        }
        let mut seen = BTreeSet::new();
        for part in &entry.parts {
            if !documents.contains_key(&part.document) || !seen.insert(&part.document) {
                faults.add(
                    place,
                    format!("document {} is missing or stands twice", part.document),
                );
                continue;
            }
            let first = !parts.contains_key(&part.document);
            if first != (entry.kind == EntryKind::Made) {
                faults.add(
                    place,
                    format!("document {} must be made once, and first", part.document),
                );
            }
            let deep = part
                .changes
                .iter()
                .flat_map(|change| change.before.iter().chain(&change.after));
            if deep.map(depth).max().unwrap_or(0) > MAX_BODY_DEPTH {
                faults.add(place, "a value is nested too deep");
            }
            parts
                .entry(&part.document)
                .or_default()
                .push((number, &part.changes));
        }
    }
    for (id, document) in documents {
        let place = || format!("document {id}");
        let history = parts.get(id).map_or(&[][..], Vec::as_slice);
        if history.last().map(|&(seq, _)| seq) != Some(document.revision) {
            faults.add(place, "its revision is not that of its last journal entry");
        }
        let mut body = document.body.clone();
        let leads = history
            .iter()
            .rev()
            .all(|(_, changes)| rewind(&mut body, changes).is_some());
        if !leads || !body.is_object() {
            faults.add(place, "the journal does not lead to its body");
        }
    }
}

fn check_versions(content: &Content, documents: &Documents<'_>, faults: &mut Faults) {
    let mut seen = BTreeSet::new();
    for version in &content.sheets.versions {
        let place = || format!("version {} of suit {}", version.number, version.suit);
        faults.take(place, check_words(&version.words));
        faults.take(place, check_body(crate::Kind::Suit, &version.body));
        if version.text.len() > MAX_BODY {
            faults.add(place, "its text is too long");
        }
        if !documents.contains_key(&version.suit) {
            faults.add(place, "its suit is missing");
        }
        if !seen.insert((&version.suit, version.number)) {
            faults.add(place, "it stands twice");
        }
    }
}

fn check_photos(content: &Content, documents: &Documents<'_>, faults: &mut Faults) {
    let mut seen = BTreeSet::new();
    for info in &content.sheets.photos {
        let place = || format!("photo {}", info.id);
        if !documents.contains_key(&info.owner) {
            faults.add(place, "its document is missing");
        }
        if !seen.insert(&info.id) {
            faults.add(place, "it stands twice");
        }
        match content.bytes.get(&info.id) {
            None => faults.add(place, "its file is missing"),
            Some(bytes) => {
                faults.take(place, photo::check(&info.mime, bytes.len()));
                if bytes.len() as u64 != info.size {
                    faults.add(place, "its size is not that of its file");
                }
            }
        }
    }
    for id in content.bytes.keys().filter(|id| !seen.contains(id)) {
        faults.add(|| format!("photo {id}"), "nothing is said about it");
    }
}
