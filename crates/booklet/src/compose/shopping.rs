//! What to buy, with a box to tick; lengths that follow from the wearer are lines to write on in the class edition.

use make::{Item, ShoppingLine};

use super::{Desk, names};
use crate::model::{Cell, Chapter};

/// The chapter; empty without a list.
pub(super) fn shopping(desk: &Desk<'_>) -> Chapter {
    let mut blocks = Vec::new();
    if let Some(list) = desk.suit.plan.and_then(|p| p.shopping) {
        let rows = list.lines.iter().map(|line| row(desk, line));
        let columns = vec![
            desk.column("column-what", 3.6),
            desk.numbers("column-needed", 1.3),
            desk.numbers("column-buy", 1.3),
            desk.column("column-done", 0.6),
        ];
        blocks.push(desk.table("table-shopping", columns, rows.collect()));
        blocks.push(desk.note("shopping-note"));
    }
    desk.chapter("shopping", false, blocks)
}

fn row(desk: &Desk<'_>, line: &ShoppingLine) -> Vec<Cell> {
    // A cup's size is its wearer's.
    let what = match line.item {
        Item::Cups if desk.is_class() => desk.word("buy-cups_unknown"),
        _ => desk.plan(&line.say),
    };
    let notes: Vec<String> = line.notes.iter().map(|n| desk.plan(n)).collect();
    let is_own = matches!(
        line.item,
        Item::Cloth(_) | Item::Elastic { .. } | Item::Thread(_) | Item::Cups | Item::Cord
    );
    let amount = |of: f64| {
        if is_own && desk.is_class() {
            return Cell::blank();
        }
        match line.item {
            Item::Thread(_) => Cell::text(desk.words.with_unit(of / 1000.0, 0, "m")),
            _ if line.item.is_length() => {
                let words::Quantity { main, other } = desk.words.metres(of, desk.unit());
                Cell::Text { main, other }
            }
            _ => Cell::text(desk.words.number(of, 0)),
        }
    };
    vec![
        Cell::Text {
            main: what.clone(),
            other: notes.join(" "),
        },
        amount(line.needed),
        amount(line.to_buy),
        Cell::Tick {
            says: desk.say("bought", &[("what", what.into())]),
        },
    ]
}

/// A name in the plan: of elastic, or of a piece.
pub(super) fn named(desk: &Desk<'_>, name: &str) -> String {
    let elastic = names::elastic_kind(desk, name);
    if elastic == name {
        names::piece_named(desk, name)
    } else {
        elastic
    }
}
