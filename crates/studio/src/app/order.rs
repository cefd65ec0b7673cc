//! The work order of a suit: its view, its previews, its versions.

use std::sync::Arc;

use serde_json::{Value, json};
use store::{DocumentEdit, DocumentId, Edit, Store as _, StoreError};

use super::edit::preview_bodies;
use super::papers::blocking;
use super::{App, locked};
use crate::document::{Worked, describe};
use crate::view::{
    Drag, OrderView, Preview, Set, ShapeView, StylesView, dragged, order_view, page_map_key, shape_moved,
    shape_view, styles_view, wear_view,
};

/// Page maps kept at hand.
const PAGE_MAPS_AT_HAND: usize = 100;

impl App {
    /// The whole work order.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] when there is no such suit.
    pub async fn order(&self, suit: &DocumentId) -> Result<OrderView, StoreError> {
        let worked = self.worked(suit).await?;
        let around = self.around(&worked).await?;
        let key = page_map_key(&worked).filter(|_| around.page_map.is_none());
        let view = blocking(move || order_view(&worked, &around)).await;
        if let (Some(key), Some(map)) = (key, &view.paper.map) {
            let mut maps = locked(&self.page_maps);
            if maps.len() >= PAGE_MAPS_AT_HAND
                && let Some(first) = maps.keys().next().cloned()
            {
                maps.remove(&first);
            }
            maps.insert(key, map.clone());
        }
        Ok(view)
    }

    /// Every style its wearer can have.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] when there is no such suit.
    pub async fn styles(&self, suit: &DocumentId) -> Result<StylesView, StoreError> {
        let worked = self.worked(suit).await?;
        Ok(blocking(move || styles_view(&worked)).await)
    }

    /// What changes, or a handle on its way, would give. The inner error is a sentence for the maker.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] when there is no such suit.
    pub async fn preview(
        &self,
        suit: &DocumentId,
        changes: Vec<Set>,
        drag: Option<Drag>,
        with_wear: bool,
    ) -> Result<Result<Preview, String>, StoreError> {
        let worked = self.worked(suit).await?;
        Ok(blocking(move || preview(&worked, changes, drag, with_wear)).await)
    }

    /// Keeps the version in work as it was cut. Returns its number and that of the one in work now; the inner error is a
    /// sentence for the maker.
    ///
    /// # Errors
    /// Those of the store.
    pub async fn keep_version(
        &self,
        suit: &DocumentId,
        words: &str,
    ) -> Result<Result<(u32, u32), String>, StoreError> {
        let worked = self.worked(suit).await?;
        if worked.order.is_none() {
            return Ok(Err("a suit that is not drafted yet has no version to keep".into()));
        }
        // Past any that is kept already: the program may have ended between keeping one and going on.
        let kept = self.store.versions(suit).await?.last().map_or(0, |v| v.number);
        let number = number_of(&worked).max(kept.saturating_add(1));
        self.store
            .keep_version(suit, number, worked.suit.body.clone(), &worked.text, words)
            .await?;
        let next = number.saturating_add(1);
        let changes = vec![store::Set {
            path: "version".into(),
            value: Some(json!(next)),
        }];
        let parts = vec![DocumentEdit {
            id: suit.clone(),
            base: worked.suit.revision,
            changes,
        }];
        let words = format!("kept version {number}, went on as version {next}");
        self.store.edit(Edit { parts, words }).await?;
        Ok(Ok((number, next)))
    }
}

fn number_of(worked: &Worked) -> u32 {
    let number = worked.suit.body.get("version").and_then(Value::as_u64);
    number.and_then(|n| u32::try_from(n).ok()).unwrap_or(1)
}

fn preview(
    worked: &Arc<Worked>,
    mut changes: Vec<Set>,
    drag: Option<Drag>,
    with_wear: bool,
) -> Result<Preview, String> {
    let is_a_hand = drag.is_some() && changes.is_empty() && !with_wear;
    if let Some(drag) = drag {
        let found =
            dragged(worked, &drag).ok_or_else(|| format!("{} has no handle on this suit", drag.handle))?;
        changes.extend(found);
    }
    let words: Vec<String> = changes
        .iter()
        .filter_map(|c| {
            let paper = worked.all().find(|p| p.id == c.document)?;
            Some(describe(paper.kind, &paper.body, &c.path, &c.value))
        })
        .collect();
    let words = words.join("; ");
    if is_a_hand && let Some(shape) = under_the_hand(worked, &changes) {
        return Ok(Preview {
            changes,
            words,
            shape,
            wear: None,
        });
    }
    let tried = worked.with(|papers| preview_bodies(papers, &changes));
    Ok(Preview {
        words,
        shape: shape_view(&tried),
        wear: with_wear.then(|| wear_view(&tried)),
        changes,
    })
}

/// The section with the one change of a handle, without working everything else out again.
fn under_the_hand(worked: &Worked, changes: &[Set]) -> Option<ShapeView> {
    let [change] = changes else { return None };
    let mut suit = worked.suit.clone();
    preview_bodies(&mut [&mut suit], changes);
    shape_moved(worked, &suit, change)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::view::examples::{example, names};

    #[test]
    fn under_the_hand_stands_what_will_be_kept() {
        let mut quick = 0;
        for name in names() {
            let worked = example(&name);
            for handle in shape_view(&worked).handles {
                for by_mm in [-400.0, -23.7, -6.0, 0.0, 0.4, 11.3, 31.0, 250.0] {
                    let drag = Drag {
                        handle: handle.key.clone(),
                        by_mm,
                    };
                    let changes = dragged(&worked, &drag).unwrap();
                    let tried = worked.with(|papers| preview_bodies(papers, &changes));
                    let seen = under_the_hand(&worked, &changes);
                    quick += usize::from(seen.is_some());
                    match seen {
                        Some(seen) => assert_eq!(seen, shape_view(&tried), "{name}, {drag:?}"),
                        None => assert!(tried.order.is_none(), "{name}, {drag:?}"),
                    }
                }
            }
        }
        assert!(quick > 150, "only {quick} moves were drafted");
    }
}
