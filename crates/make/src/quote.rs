//! A quote for a client: cloth, notions, hours, margin, as one plain sheet.
//!
//! **Shapes and units.** Money in the maker's currency; hours.
//! **Source.** Own: materials at the share of the pack they take, hours at the plan's range or the maker's own, margin on both.
//! **Limits.** Lines without a price are named, not guessed: a quote with any is not complete.

use serde::Serialize;

use crate::making::Making;
use crate::say::Say;
use crate::shopping::{Item, Shopping};

/// What a maker asks.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct QuoteTerms {
    /// For an hour.
    pub hour_rate: f64,
    /// On materials and hours, a share: 0.2 is 20 %.
    pub margin: f64,
    /// Her own hours for the suit; none takes the plan's range.
    pub own_hours: Option<f64>,
}

/// Why there is no quote.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum QuoteError {
    /// A term that is not a number, negative or out of all measure.
    #[error("{field}: {value}; give a number from 0 to {most}")]
    Term {
        /// Which.
        field: &'static str,
        /// As given.
        value: f64,
        /// Greatest taken.
        most: f64,
    },
}

/// The sheet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Quote {
    /// Cloth.
    pub cloth: f64,
    /// Elastic, thread, needles and small parts.
    pub notions: f64,
    /// Hours, least and most.
    pub hours: (f64, f64),
    /// What they come to.
    pub labour: (f64, f64),
    /// Margin.
    pub margin: (f64, f64),
    /// All together.
    pub total: (f64, f64),
    /// Lines that have no price.
    pub unpriced: Vec<Say>,
}

/// The quote of a plan and its shopping list.
///
/// # Errors
/// Every fault of the terms at once: [`QuoteError::Term`].
pub fn quote(making: &Making, shopping: &Shopping, terms: &QuoteTerms) -> Result<Quote, Vec<QuoteError>> {
    let mut faults = Vec::new();
    for (field, value, most) in [
        ("hour_rate", terms.hour_rate, 1.0e6),
        ("margin", terms.margin, 10.0),
        ("own_hours", terms.own_hours.unwrap_or(0.0), 1000.0),
    ] {
        if !(0.0..=most).contains(&value) {
            faults.push(QuoteError::Term { field, value, most });
        }
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let charged = |is_cloth: bool| -> f64 {
        let of = shopping
            .lines
            .iter()
            .filter(|l| matches!(l.item, Item::Cloth(_)) == is_cloth);
        of.filter_map(|l| l.charge).sum()
    };
    let (cloth, notions) = (charged(true), charged(false));
    let hours = terms
        .own_hours
        .map_or((making.minutes.0 / 60.0, making.minutes.1 / 60.0), |h| (h, h));
    let labour = (hours.0 * terms.hour_rate, hours.1 * terms.hour_rate);
    let margin = |labour: f64| (cloth + notions + labour) * terms.margin;
    let margin = (margin(labour.0), margin(labour.1));
    Ok(Quote {
        cloth,
        notions,
        hours,
        labour,
        margin,
        total: (
            cloth + notions + labour.0 + margin.0,
            cloth + notions + labour.1 + margin.1,
        ),
        unpriced: shopping
            .lines
            .iter()
            .filter(|l| l.charge.is_none())
            .map(|l| l.say.clone())
            .collect(),
    })
}
