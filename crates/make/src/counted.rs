//! One line of a list counted out: what the stock covers, the steps it is sold by, whole packs and what they cost.

use crate::shopping::{Item, Price, Stock};
use crate::workroom::Workroom;

/// What there is and what it costs.
#[derive(Clone, Copy)]
pub(crate) struct Shelf<'a> {
    /// Its needles and threads are in stock.
    pub(crate) room: &'a Workroom,
    /// In stock beside those.
    pub(crate) stock: &'a [Stock],
    /// Prices and packs.
    pub(crate) prices: &'a [Price],
}

/// The figures of a line.
pub(crate) struct Counted {
    /// Taken off the stock.
    pub(crate) in_stock: f64,
    /// To buy, in the steps it is sold by.
    pub(crate) to_buy: f64,
    /// Whole packs, where it is sold in those and their size was entered.
    pub(crate) packs: Option<u32>,
    /// What the bought costs.
    pub(crate) cost: Option<f64>,
    /// What the needed alone costs, its share of the pack.
    pub(crate) charge: Option<f64>,
}

impl Shelf<'_> {
    /// Counts out `needed` of an item that is sold by `step`.
    pub(crate) fn count(&self, item: &Item, needed: f64, step: f64) -> Counted {
        let in_stock = self.stock_of(item).min(needed);
        let to_buy = up(needed - in_stock, step);
        let price = self.prices.iter().find(|p| {
            p.item == *item && p.pack > 0.0 && p.pack.is_finite() && p.price >= 0.0 && p.price.is_finite()
        });
        // A billionth of a pack is rounding.
        let whole = |packs: f64| (packs - 1e-9).ceil().max(0.0);
        Counted {
            in_stock,
            to_buy,
            packs: price
                .filter(|p| p.is_whole)
                .map(|p| whole(to_buy / p.pack) as u32),
            cost: price.map(|p| {
                let packs = to_buy / p.pack;
                p.price * if p.is_whole { whole(packs) } else { packs }
            }),
            charge: price.map(|p| p.price * needed / p.pack),
        }
    }

    fn stock_of(&self, item: &Item) -> f64 {
        let is_amount = |amount: &f64| amount.is_finite() && *amount > 0.0;
        let listed = self.stock.iter().filter(|s| s.item == *item).map(|s| s.amount);
        let listed: f64 = listed.filter(is_amount).sum();
        let own: f64 = match item {
            Item::Thread(thread) => {
                let of = self.room.threads.iter().filter(|t| t.thread == *thread);
                of.map(|t| t.metres * 1000.0).filter(is_amount).sum()
            }
            Item::Needle(needle) => {
                let of = self.room.needles.iter().filter(|n| n.needle == *needle);
                of.map(|n| f64::from(n.count)).sum()
            }
            _ => 0.0,
        };
        // The sum of nothing is minus zero.
        listed + own + 0.0
    }
}

/// Rounds up to steps; a millionth of a step is rounding, not cloth.
pub(crate) fn up(amount: f64, step: f64) -> f64 {
    (amount / step - 1e-6).ceil().max(0.0) * step
}
