//! The papers of a suit out of the store, and what they come to.

use std::sync::Arc;

use serde_json::Value;
use store::{Document, DocumentId, Kind, Store as _, StoreError};

use super::{App, SUITS_AT_HAND, locked};
use crate::document::{Linked, Paper, Worked, work};
use crate::laying_kept::{LayShelf, laid_with};
use crate::view::{Around, KeptVersion, Named};

/// The workroom is one document under this id.
pub(crate) const WORKROOM: &str = "workroom";

/// Keys of a suit that name another document.
const LINKS: [&str; 6] = ["wearer", "shell", "lining", "mesh", "contrast", "elastic"];

impl App {
    /// A suit worked out. Kept at hand until one of its papers changes.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] when there is no such suit.
    pub async fn worked(&self, suit: &DocumentId) -> Result<Arc<Worked>, StoreError> {
        let suit = self.store.get(suit).await?;
        if suit.kind != Kind::Suit || suit.deleted_at.is_some() {
            return Err(StoreError::NotFound(suit.id));
        }
        self.worked_of(suit).await
    }

    /// The same for a suit that was read already.
    pub(crate) async fn worked_of(&self, suit: Document) -> Result<Arc<Worked>, StoreError> {
        let mut beside = Vec::new();
        for id in laid_with(&suit.body) {
            // One that is gone, or the suit itself, is passed over.
            let Ok(id) = id.parse::<DocumentId>() else {
                continue;
            };
            match self.store.get(&id).await {
                Ok(other)
                    if other.kind == Kind::Suit && other.deleted_at.is_none() && other.id != suit.id =>
                {
                    beside.push(self.worked_with(other, Vec::new()).await?);
                }
                Ok(_) | Err(StoreError::NotFound(_)) => {}
                Err(error) => return Err(error),
            }
        }
        self.worked_with(suit, beside).await
    }

    /// A suit with those that are laid with it.
    async fn worked_with(&self, suit: Document, beside: Vec<Arc<Worked>>) -> Result<Arc<Worked>, StoreError> {
        let mut rest: [Option<Document>; 6] = [const { None }; 6];
        for (slot, key) in rest.iter_mut().zip(LINKS) {
            *slot = self.linked(&suit.body, key).await?;
        }
        let workroom = self.workroom().await?;
        let samples = self.store.list(Kind::Sample).await?;
        let elastics = self.store.list(Kind::Elastic).await?;
        let stamp = |d: &Document| (d.id.as_str().to_owned(), d.revision);
        let stamps: Vec<(String, u64)> = std::iter::once(&suit)
            .chain(rest.iter().flatten())
            .chain(&workroom)
            .chain(&samples)
            .chain(&elastics)
            .map(stamp)
            .chain(
                beside
                    .iter()
                    .flat_map(|suit| suit.all())
                    .map(|p| (p.id.clone(), p.revision)),
            )
            .collect();
        // Without those it is laid with it stands beside another suit: that is not kept at hand as the suit itself.
        let is_itself = beside.is_empty() == laid_with(&suit.body).is_empty();
        let at_hand = locked(&self.worked).get(suit.id.as_str()).cloned();
        if let Some(worked) = &at_hand
            && worked
                .rests_on()
                .map(|p| (p.id.clone(), p.revision))
                .collect::<Vec<_>>()
                == stamps
        {
            return Ok(self.as_worn(Arc::clone(worked)));
        }
        let id = suit.id.as_str().to_owned();
        let paper = |d: Document| Paper {
            id: d.id.as_str().to_owned(),
            kind: d.kind.key(),
            revision: d.revision,
            body: d.body,
        };
        let [wearer, shell, lining, mesh, contrast, elastic] = rest.map(|d| d.map(paper));
        let suit = paper(suit);
        let linked = Linked {
            wearer,
            shell,
            lining,
            mesh,
            contrast,
            elastic,
            workroom: workroom.map(paper),
            samples: samples.into_iter().map(paper).collect(),
            elastics: elastics.into_iter().map(paper).collect(),
        };
        let worked = blocking(move || {
            let mut worked = work(suit, linked);
            worked.beside = beside;
            if let Some(earlier) = &at_hand {
                worked.lays = LayShelf::after(&earlier.lays);
            }
            Arc::new(worked)
        })
        .await;
        if !is_itself {
            return Ok(worked);
        }
        let mut kept = locked(&self.worked);
        if kept.len() >= SUITS_AT_HAND
            && let Some(first) = kept.keys().next().cloned()
        {
            kept.remove(&first);
        }
        kept.insert(id, Arc::clone(&worked));
        drop(kept);
        Ok(self.as_worn(worked))
    }

    /// A suit with its making plan made from how far it is stretched on its form, where this very draft was put on.
    fn as_worn(&self, worked: Arc<Worked>) -> Arc<Worked> {
        let Some(order) = &worked.order else { return worked };
        let known = self.fits.stretches(&worked.suit.id, &order.version);
        if order.worn == known {
            return worked;
        }
        let planned = Arc::new(worked.planned_from(known));
        locked(&self.worked).insert(planned.suit.id.clone(), Arc::clone(&planned));
        planned
    }

    /// The document a suit names under `key`; none when it names none, or one that is gone.
    async fn linked(&self, suit: &Value, key: &str) -> Result<Option<Document>, StoreError> {
        let Some(id) = suit
            .get(key)
            .and_then(Value::as_str)
            .and_then(|id| id.parse::<DocumentId>().ok())
        else {
            return Ok(None);
        };
        match self.store.get(&id).await {
            Ok(document) if document.deleted_at.is_none() => Ok(Some(document)),
            Ok(_) | Err(StoreError::NotFound(_)) => Ok(None),
            Err(error) => Err(error),
        }
    }

    /// The workroom, if it was ever written.
    pub(crate) async fn workroom(&self) -> Result<Option<Document>, StoreError> {
        let id: DocumentId = WORKROOM.parse()?;
        match self.store.get(&id).await {
            Ok(document) => Ok(Some(document)),
            Err(StoreError::NotFound(_)) => Ok(None),
            Err(error) => Err(error),
        }
    }

    /// The workroom, made if it is not there.
    pub(crate) async fn workroom_made(&self) -> Result<Document, StoreError> {
        if let Some(document) = self.workroom().await? {
            return Ok(document);
        }
        let made = self
            .store
            .create_with_id(
                WORKROOM.parse()?,
                Kind::Workroom,
                serde_json::json!({}),
                "set up the workroom",
            )
            .await;
        match made {
            // Two pages at once: the other one made it.
            Err(StoreError::Exists(id)) => self.store.get(&id).await,
            other => other,
        }
    }

    /// What the view of a suit needs besides its papers.
    pub(crate) async fn around(&self, worked: &Worked) -> Result<Around, StoreError> {
        let id: DocumentId = worked.suit.id.parse()?;
        let named = |d: Document| Named {
            id: d.id.as_str().to_owned(),
            name: name_of(&d.body).to_owned(),
        };
        let cloths = self.store.list(Kind::Cloth).await?;
        let role = |d: &Document| {
            d.body
                .get("role")
                .and_then(Value::as_str)
                .unwrap_or("shell")
                .to_owned()
        };
        let go = self.can_go(worked).await?;
        let mut suits = self.store.list(Kind::Suit).await?;
        suits.retain(|d| d.id != id);
        Ok(Around {
            suits: suits.into_iter().map(named).collect(),
            wearers: self
                .store
                .list(Kind::Wearer)
                .await?
                .into_iter()
                .map(named)
                .collect(),
            cloths: cloths
                .into_iter()
                .map(|d| {
                    let role = role(&d);
                    (named(d), role)
                })
                .collect(),
            elastics: self
                .store
                .list(Kind::Elastic)
                .await?
                .into_iter()
                .map(named)
                .collect(),
            versions: self
                .store
                .versions(&id)
                .await?
                .into_iter()
                .map(|v| KeptVersion {
                    number: v.number,
                    at: v.at.to_string(),
                    body: v.body,
                    text: v.text,
                })
                .collect(),
            today: self.today(),
            back: go.back,
            forward: go.forward,
            page_map: crate::view::page_map_key(worked)
                .and_then(|key| locked(&self.page_maps).get(&key).cloned()),
        })
    }

    /// What "Back one" and "Forward" would do to a suit.
    pub(crate) async fn can_go(&self, worked: &Worked) -> Result<store::CanGo, StoreError> {
        let (ids, since) = self.line_of(worked).await?;
        self.store.can_go(&ids, since).await
    }

    /// The documents whose history a suit's work order walks, and where it begins: at the making of the suit.
    pub(crate) async fn line_of(&self, worked: &Worked) -> Result<(Vec<DocumentId>, u64), StoreError> {
        let ids: Vec<DocumentId> = worked
            .all()
            .filter(|p| p.kind != "workroom")
            .map(|p| p.id.parse())
            .collect::<Result<_, _>>()?;
        let known = locked(&self.made).get(&worked.suit.id).copied();
        let since = match known {
            Some(since) => since,
            None => {
                let suit: DocumentId = worked.suit.id.parse()?;
                let history = self.store.history(&[suit], 0).await?;
                let since = history.first().map_or(0, |e| e.seq);
                locked(&self.made).insert(worked.suit.id.clone(), since);
                since
            }
        };
        Ok((ids, since))
    }

    /// Forgets what was worked out: after everything may have changed.
    pub(crate) fn forget(&self) {
        locked(&self.worked).clear();
        locked(&self.made).clear();
        locked(&self.page_maps).clear();
        self.forms.forget();
        self.copies.forget();
        self.fits.forget();
    }
}

/// The name a document gives itself.
pub(crate) fn name_of(body: &Value) -> &str {
    body.get("name").and_then(Value::as_str).unwrap_or_default()
}

/// Runs work that takes milliseconds to seconds where it does not hold up other requests.
pub(crate) async fn blocking<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> T {
    match tokio::task::spawn_blocking(work).await {
        Ok(value) => value,
        // Our bug; told where it happened, as if there were no thread between.
        Err(error) => std::panic::resume_unwind(error.into_panic()),
    }
}
