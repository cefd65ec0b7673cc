//! Everything of a workroom for the first page.

use std::sync::Arc;

use store::{Document, Kind, Store as _, StoreError};

use super::App;
use super::papers::blocking;
use crate::document::Paper;
use crate::view::{HomeView, Shelves, home};

impl App {
    /// The first page.
    ///
    /// # Errors
    /// Those of the store.
    pub async fn home(self: &Arc<Self>) -> Result<HomeView, StoreError> {
        let mut suits = Vec::new();
        for suit in self.store.list(Kind::Suit).await? {
            // What is erased between the list and the reading is not there any more: the page is told and asks again.
            let versions = match self.store.versions(&suit.id).await {
                Ok(versions) => versions.len(),
                Err(StoreError::NotFound(_)) => continue,
                Err(error) => return Err(error),
            };
            suits.push((self.worked_of(suit).await?, versions));
        }
        let paper = |d: Document| Paper {
            id: d.id.as_str().to_owned(),
            kind: d.kind.key(),
            revision: d.revision,
            body: d.body,
        };
        let mut shelf = Vec::new();
        for kind in [
            Kind::Wearer,
            Kind::Cloth,
            Kind::Elastic,
            Kind::Sample,
            Kind::Drawer,
            Kind::Class,
        ] {
            let list: Vec<Paper> = self.store.list(kind).await?.into_iter().map(paper).collect();
            shelf.push(list);
        }
        let workroom = self.workroom().await?.map(paper);
        let (has_example, today) = (self.has_example().await?, self.today());
        let mut shelf = shelf.into_iter();
        let mut next = || shelf.next().unwrap_or_default();
        let shelves = Shelves {
            suits,
            wearers: next(),
            cloths: next(),
            elastics: next(),
            samples: next(),
            drawer: next(),
            classes: next(),
            workroom,
            has_example,
            today,
        };
        Ok(blocking(move || home(&shelves)).await)
    }
}
