//! Care, wear life and repair.

use super::Desk;
use crate::model::{Block, Cell, Chapter};

/// What keeps a suit alive, and when it is at its end.
pub(super) fn care(desk: &Desk<'_>) -> Chapter {
    let diary = (0..6).map(|_| vec![Cell::blank(); 4]);
    let columns = vec![
        desk.column("column-date", 1.0),
        desk.column("column-hours", 1.0),
        desk.column("column-grown", 1.2),
        desk.column("column-seen", 2.4),
    ];
    let blocks = vec![
        desk.list(&["care-rinse", "care-wash", "care-dry", "care-hot-tub", "care-no"]),
        desk.heading("life-heading"),
        desk.paragraph("life-chlorine"),
        desk.paragraph("life-check"),
        desk.table("table-diary", columns, diary.collect()),
        desk.heading("repair-heading"),
        Block::List {
            items: ["repair-elastic", "repair-seam", "repair-lining", "repair-end"]
                .iter()
                .map(|k| desk.word(k))
                .collect(),
            is_lettered: false,
        },
    ];
    desk.chapter("care", false, blocks)
}
