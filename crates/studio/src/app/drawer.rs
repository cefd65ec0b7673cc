//! The drawer at work: a thing of it with its papers, its results kept at hand, a suit made of it.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex};

use serde_json::{Value, json};
use store::{CanGo, Document, DocumentId, Gone, Kind, Store as _, StoreError};

use super::papers::{blocking, name_of};
use super::{App, locked};
use crate::document::Paper;
use crate::view::{
    CopyView, DRAWER_LINKS, DrawerAround, DrawerPapers, DrawerView, Named, Note, SheetView, copy_view,
    drawer_view, sheet_view, suit_of_drawer,
};

/// Copies kept at hand: each takes a second or so to find.
const COPIES_AT_HAND: usize = 30;

/// Copied suits by the revisions they were found from.
#[derive(Default)]
pub(crate) struct Copies(Mutex<BTreeMap<String, Arc<CopyView>>>);

impl Copies {
    /// Forgets them all.
    pub(crate) fn forget(&self) {
        locked(&self.0).clear();
    }
}

impl App {
    /// What the page of one thing of the drawer asks.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] when there is no such thing, or it lies in the bin.
    pub async fn drawer(&self, id: &DocumentId) -> Result<DrawerView, StoreError> {
        let papers = self.drawer_papers(id).await?;
        let CanGo { back, forward } = self.drawer_can_go(id).await?;
        let named = |d: &Document| Named {
            id: d.id.as_str().to_owned(),
            name: name_of(&d.body).to_owned(),
        };
        let around = DrawerAround {
            wearers: self.store.list(Kind::Wearer).await?.iter().map(named).collect(),
            cloths: self.store.list(Kind::Cloth).await?.iter().map(named).collect(),
            back,
            forward,
        };
        Ok(blocking(move || drawer_view(&papers, &around)).await)
    }

    /// The copy of a favourite suit.
    ///
    /// # Errors
    /// As [`App::drawer`].
    pub async fn copy_of(&self, id: &DocumentId) -> Result<Arc<CopyView>, StoreError> {
        let papers = self.drawer_papers(id).await?;
        let key = stamp(&papers);
        if let Some(view) = locked(&self.copies.0).get(&key) {
            return Ok(Arc::clone(view));
        }
        let view = Arc::new(blocking(move || copy_view(&papers)).await);
        let mut kept = locked(&self.copies.0);
        if kept.len() >= COPIES_AT_HAND
            && let Some(first) = kept.keys().next().cloned()
        {
            kept.remove(&first);
        }
        kept.insert(key, Arc::clone(&view));
        Ok(view)
    }

    /// The change sheet of a bought pattern.
    ///
    /// # Errors
    /// As [`App::drawer`].
    pub async fn change_sheet(&self, id: &DocumentId) -> Result<SheetView, StoreError> {
        let papers = self.drawer_papers(id).await?;
        Ok(blocking(move || sheet_view(&papers)).await)
    }

    /// Makes a suit of a copy, or drafts one in place of a pattern. The inner error says what keeps it from being made.
    ///
    /// # Errors
    /// As [`App::drawer`].
    pub async fn make_of_drawer(&self, id: &DocumentId) -> Result<Result<Document, Vec<Note>>, StoreError> {
        let papers = self.drawer_papers(id).await?;
        let mut body = match blocking(move || suit_of_drawer(&papers)).await {
            Ok(body) => body,
            Err(notes) => return Ok(Err(notes)),
        };
        body.insert("number".into(), json!(self.next_number().await?));
        body.insert("version".into(), json!(1));
        let body = Value::Object(body);
        let words = format!("began {}", name_of(&body));
        Ok(Ok(self.store.create(Kind::Suit, body, &words).await?))
    }

    /// Takes the last edit of a thing of the drawer back.
    ///
    /// # Errors
    /// As [`store::Store::back`].
    pub async fn drawer_back(&self, id: &DocumentId) -> Result<Gone, StoreError> {
        self.store.back(std::slice::from_ref(id), 0).await
    }

    /// Makes again what was taken back last.
    ///
    /// # Errors
    /// As [`store::Store::forward`].
    pub async fn drawer_forward(&self, id: &DocumentId) -> Result<Gone, StoreError> {
        self.store.forward(std::slice::from_ref(id), 0).await
    }

    async fn drawer_can_go(&self, id: &DocumentId) -> Result<CanGo, StoreError> {
        self.store.can_go(std::slice::from_ref(id), 0).await
    }

    async fn drawer_papers(&self, id: &DocumentId) -> Result<DrawerPapers, StoreError> {
        let item = self.store.get(id).await?;
        if item.kind != Kind::Drawer || item.deleted_at.is_some() {
            return Err(StoreError::NotFound(item.id));
        }
        let mut linked: [Option<Paper>; 3] = [const { None }; 3];
        for (slot, path) in linked.iter_mut().zip(DRAWER_LINKS) {
            *slot = self.drawer_link(&item.body, path).await?;
        }
        let [wearer, old, new] = linked;
        let units = match item.body.get("units").and_then(Value::as_str) {
            Some(units) => units.to_owned(),
            None => self.settings().await?.units,
        };
        Ok(DrawerPapers {
            item: paper(item),
            wearer,
            old,
            new,
            units,
        })
    }

    /// The document a body names at a path; none when it names none, or one that is gone.
    async fn drawer_link(&self, body: &Value, path: &str) -> Result<Option<Paper>, StoreError> {
        let id = path.split('.').try_fold(body, |at, key| at.get(key));
        let Some(id) = id
            .and_then(Value::as_str)
            .and_then(|id| id.parse::<DocumentId>().ok())
        else {
            return Ok(None);
        };
        match self.store.get(&id).await {
            Ok(document) if document.deleted_at.is_none() => Ok(Some(paper(document))),
            Ok(_) | Err(StoreError::NotFound(_)) => Ok(None),
            Err(error) => Err(error),
        }
    }
}

fn paper(document: Document) -> Paper {
    Paper {
        id: document.id.as_str().to_owned(),
        kind: document.kind.key(),
        revision: document.revision,
        body: document.body,
    }
}

fn stamp(papers: &DrawerPapers) -> String {
    let of = |p: &Paper| format!("{}@{}", p.id, p.revision);
    let all = [&papers.wearer, &papers.old, &papers.new];
    let mut text = format!("{} {}", of(&papers.item), papers.units);
    for paper in all {
        text += " ";
        text += &paper.as_ref().map(of).unwrap_or_default();
    }
    text
}
