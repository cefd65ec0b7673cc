//! The scraps a plan asks for, with what the sample book has of them.

use super::{Planned, ScrapView, Teller};
use crate::view::length;

/// The list.
pub(super) fn scraps(planned: &Planned, teller: Teller<'_>) -> Vec<ScrapView> {
    let all = planned.making().scraps.iter().enumerate();
    all.map(|(place, scrap)| ScrapView {
        place,
        says: teller.say(&scrap.say),
        marks: length(scrap.marks, teller.unit()),
        pull_to: scrap
            .pull_to
            .map(|mm| length(mm, teller.unit()).why(format!("sew.scrap.{place}"))),
        done: scrap.is_done,
    })
    .collect()
}
