//! The try-on sheet: what to look at, with room for what was seen; and the measures of the finished suit.

use super::{Desk, names};
use crate::model::{Block, Cell, Chapter, Sign};

/// Lines to fill in at the basted and the finished try-on.
pub(super) fn try_on(desk: &Desk<'_>) -> Chapter {
    let mut blocks = vec![
        desk.blank("write-try-on-date", 1),
        Block::Callout(desk.callout(Sign::Stop, "sign-stop", desk.word("caution-pressure"))),
    ];
    let asked = [
        "ask-way-in",
        "ask-shoulders",
        "ask-neckline",
        "ask-armhole",
        "ask-bust",
        "ask-waist",
        "ask-length",
        "ask-leg-front",
        "ask-seat",
        "ask-crotch",
        "ask-move",
        "ask-wet",
    ];
    let is_low = super::is_low(desk.suit);
    let above = [
        "ask-shoulders",
        "ask-neckline",
        "ask-armhole",
        "ask-bust",
        "ask-length",
    ];
    let rows = asked
        .into_iter()
        .filter(|k| !(is_low && above.contains(k)))
        .map(|key| vec![Cell::text(desk.word(key)), Cell::blank(), Cell::blank()]);
    let columns = vec![
        desk.column("column-look-at", 3.0),
        desk.column("column-basted", 1.3),
        desk.column("column-finished", 1.3),
    ];
    blocks.push(desk.table("table-try-on", columns, rows.collect()));
    blocks.push(desk.blank("write-change-next", 3));
    let measured = desk.suit.draft.finished.iter().map(|m| {
        vec![
            Cell::text(names::measure(desk, &m.name)),
            desk.own_length(m.value_mm),
            Cell::text(format!("±\u{a0}{}", desk.words.millimetres(m.tolerance_mm))),
            Cell::blank(),
        ]
    });
    let measured: Vec<Vec<Cell>> = measured.collect();
    if !measured.is_empty() {
        blocks.push(desk.heading("measures-heading"));
        blocks.push(desk.paragraph("measures-how"));
        let columns = vec![
            desk.column("column-measure", 2.9),
            desk.numbers("column-should-be", 1.3),
            desk.numbers("column-tolerance", 0.8),
            desk.column("column-is", 1.0),
        ];
        blocks.push(desk.table("table-measures", columns, measured));
    }
    desk.chapter("try-on", true, blocks)
}
