//! The whole workroom out of the store: every sample, elastic and cloth, whatever suit it is for.

use store::{Document, Kind, Store as _, StoreError};

use super::App;
use super::papers::blocking;
use crate::document::{Paper, RoomPapers, room_of};
use crate::view::{RoomView, room_view};

struct Shelf {
    workroom: Option<Paper>,
    samples: Vec<Paper>,
    elastics: Vec<Paper>,
    cloths: Vec<Paper>,
}

impl Shelf {
    fn papers(&self) -> RoomPapers<'_> {
        RoomPapers {
            workroom: self.workroom.as_ref(),
            samples: self.samples.iter().collect(),
            elastics: self.elastics.iter().collect(),
            cloths: self.cloths.iter().collect(),
        }
    }
}

impl App {
    async fn shelf(&self) -> Result<Shelf, StoreError> {
        let papers = |list: Vec<Document>| list.into_iter().map(paper).collect();
        Ok(Shelf {
            workroom: self.workroom().await?.map(paper),
            samples: papers(self.store.list(Kind::Sample).await?),
            elastics: papers(self.store.list(Kind::Elastic).await?),
            cloths: papers(self.store.list(Kind::Cloth).await?),
        })
    }

    /// What the machines, the stock and the samples come to.
    ///
    /// # Errors
    /// Those of the store.
    pub async fn room(&self) -> Result<RoomView, StoreError> {
        let shelf = self.shelf().await?;
        let unit = match self.settings().await?.units.as_str() {
            "in" => units::LengthUnit::In,
            "mm" => units::LengthUnit::Mm,
            _ => units::LengthUnit::Cm,
        };
        Ok(blocking(move || {
            let papers = shelf.papers();
            room_view(&room_of(&papers), &papers, unit)
        })
        .await)
    }

    /// The workroom file of all of it.
    ///
    /// # Errors
    /// Those of the store.
    pub async fn room_text(&self) -> Result<String, StoreError> {
        let shelf = self.shelf().await?;
        Ok(blocking(move || room_of(&shelf.papers()).text).await)
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
