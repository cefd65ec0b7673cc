//! How the booklet is read: what every line and shading of its drawings means, and that the tape in the margin is true.

use super::Desk;
use crate::draw::{LEGEND, legend};
use crate::model::{Block, Cell, Chapter};

/// The signs, two abreast.
pub(super) fn reading(desk: &Desk<'_>) -> Chapter {
    let mut rows = Vec::new();
    for pair in LEGEND.chunks(2) {
        let mut row = Vec::new();
        for (sign, key) in pair {
            let word = desk.word(key);
            row.push(Cell::Figure(legend(
                *sign,
                desk.say("legend-figure", &[("sign", (&word).into())]),
            )));
            row.push(Cell::text(word));
        }
        row.resize(4, Cell::text(""));
        rows.push(row);
    }
    let columns = vec![
        desk.column("column-drawing", 0.9),
        desk.column("column-means", 2.1),
        desk.column("column-drawing", 0.9),
        desk.column("column-means", 2.1),
    ];
    let blocks = vec![
        desk.paragraph("reading-tape"),
        desk.table("table-legend", columns, rows),
        Block::List {
            items: ["reading-steps", "reading-note"]
                .iter()
                .map(|k| desk.word(k))
                .collect(),
            is_lettered: false,
        },
    ];
    desk.chapter("reading", false, blocks)
}
