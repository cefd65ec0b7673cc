//! The elastic map: every open edge drawn flat, with the marks of edge and elastic.

use make::ElasticPlan;
use units::Mm;
use words::Quantity;

use super::{Desk, names};
use crate::draw::elastic::Arc;
use crate::draw::elastic_map;
use crate::model::{Block, Cell, Chapter, Fact};

/// From here a ratio is sewn flat: less than half a millimetre of ease in 100.
pub(super) const FLAT: f64 = 0.995;
/// Width of the ruler, mm.
const WIDTH: f64 = 158.0;

/// Length an arc is drawn with for a class, mm.
const CLASS_ARC: f64 = 150.0;

/// All edges.
pub(super) fn elastic(desk: &Desk<'_>) -> Chapter {
    let mut blocks = Vec::new();
    if !desk.suit.elastic.is_empty() {
        blocks.push(desk.paragraph("elastic-how"));
    }
    for plan in desk.suit.elastic {
        let mut edge = vec![
            Block::Heading {
                text: edge_title(desk, plan),
            },
            Block::Figures {
                figures: vec![ruler(desk, plan)],
            },
            Block::Facts {
                facts: facts(desk, plan),
            },
        ];
        if !plan.arcs.is_empty() {
            edge.push(marks(desk, plan));
        }
        blocks.push(Block::Keep { blocks: edge });
    }
    desk.chapter("elastic", false, blocks)
}

/// `Leg, twice`.
fn edge_title(desk: &Desk<'_>, plan: &ElasticPlan) -> String {
    let edge = names::edge(desk, plan.edge);
    desk.say(
        "edge-times",
        &[("edge", edge.into()), ("count", plan.count.into())],
    )
}

pub(super) fn ruler(desk: &Desk<'_>, plan: &ElasticPlan) -> crate::model::Figure {
    let own = |mm: Mm| {
        if desk.is_class() {
            String::new()
        } else {
            short(desk, mm)
        }
    };
    let arcs: Vec<Arc> = plan
        .arcs
        .iter()
        .enumerate()
        .map(|(i, a)| Arc {
            name: names::arc(desk, a.name),
            mark: plan.mark(i),
            // A class sees the arcs in their order, all alike: drawn to scale they would be this wearer's.
            edge_mm: if desk.is_class() { CLASS_ARC } else { a.edge.get() },
            elastic_mm: if desk.is_class() {
                CLASS_ARC * a.ratio
            } else {
                a.elastic.get()
            },
            edge_words: own(a.edge),
            elastic_words: own(a.elastic),
            ratio_words: ratio(desk, a.ratio),
            is_eased: a.ratio < FLAT,
        })
        .collect();
    let said: Vec<String> = arcs
        .iter()
        .map(|a| format!("{} {}", a.name, a.ratio_words))
        .collect();
    let says = desk.say(
        "elastic-figure",
        &[
            ("edge", names::edge(desk, plan.edge).into()),
            ("arcs", desk.words.list(&said).into()),
        ],
    );
    let mut figure = elastic_map(&arcs, plan.overlap.get(), WIDTH, says);
    if desk.is_class() {
        figure.caption = desk.word("elastic-class-caption");
    }
    figure
}

/// A length without its unit's twin, as it stands on the ruler.
fn short(desk: &Desk<'_>, mm: Mm) -> String {
    desk.length(mm.get()).main
}

/// `flat`, or `× 0.80`.
fn ratio(desk: &Desk<'_>, ratio: f64) -> String {
    if ratio >= FLAT {
        desk.word("ratio-flat")
    } else {
        format!("×\u{a0}{}", desk.words.number(ratio, 2))
    }
}

pub(super) fn facts(desk: &Desk<'_>, plan: &ElasticPlan) -> Vec<Fact> {
    let value = |q: Quantity, is_own: bool| {
        let cell = if is_own && desk.is_class() {
            Cell::blank_length(desk.unit())
        } else {
            Cell::text(q.main)
        };
        let note = if is_own && desk.is_class() {
            String::new()
        } else {
            q.other
        };
        (cell, note)
    };
    let (cut, cut_other) = value(desk.length(plan.cut_length.get()), true);
    let (width, width_other) = value(desk.words.small(plan.width.get(), desk.unit()), false);
    let key = if plan.count == 2 {
        "fact-cut-each"
    } else {
        "fact-cut"
    };
    let mut facts = vec![Fact {
        name: desk.word(key),
        value: cut,
        note: cut_other,
    }];
    if plan.overlap > Mm::ZERO {
        let (lap, lap_other) = value(desk.words.small(plan.overlap.get(), desk.unit()), false);
        facts.push(Fact {
            name: desk.word("fact-overlap"),
            value: lap,
            note: lap_other,
        });
    }
    let kind = names::elastic_kind(desk, &plan.kind);
    facts.push(Fact {
        name: kind,
        value: width,
        note: width_other,
    });
    facts
}

/// Marks of edge and elastic, measured from the first.
fn marks(desk: &Desk<'_>, plan: &ElasticPlan) -> Block {
    let rows = plan.arcs.iter().enumerate().map(|(i, a)| {
        vec![
            Cell::text(plan.mark(i)),
            Cell::text(names::arc(desk, a.name)),
            desk.own_length(a.edge_mark.get()),
            desk.own_length(a.elastic_mark.get()),
            Cell::text(ratio(desk, a.ratio)),
        ]
    });
    let columns = vec![
        desk.column("column-mark", 0.75),
        desk.column("column-arc", 1.25),
        desk.numbers("column-on-edge", 1.7),
        desk.numbers("column-on-elastic", 1.7),
        desk.numbers("column-ratio", 1.15),
    ];
    desk.table("table-marks", columns, rows.collect())
}
