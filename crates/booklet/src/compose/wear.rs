//! The wearer, how the suit will sit on her, and whether it goes on.

use body::{BodyForm, Dimension, Origin};
use fit::{Rung, SHARE_STOP, WayIn};
use units::{Level, Severity};

use super::{Desk, names};
use crate::draw::{LadderRung, ladder};
use crate::model::{Block, Cell, Chapter, Sign};

/// The dimensions the suit was drafted from.
pub(super) fn summary(desk: &Desk<'_>) -> Chapter {
    let body = desk.suit.body;
    let form = match body.form {
        BodyForm::Woman => "woman",
        BodyForm::Man => "man",
        BodyForm::Child => "child",
    };
    let mut rows = Vec::new();
    let mut has_estimate = false;
    for dimension in Dimension::ALL {
        let Some(known) = body.get(dimension) else {
            continue;
        };
        let key = dimension.key().replace('_', "-");
        let of_form = desk.words.find(&format!("dimension-{key}-{form}"), &[]);
        let name = of_form.unwrap_or_else(|| desk.word(&format!("dimension-{key}")));
        let is_taken = matches!(known.origin, Origin::Taken);
        if !is_taken && !is_drawn_from(desk, dimension) {
            continue;
        }
        has_estimate |= !is_taken;
        let how = if is_taken {
            desk.word("taken")
        } else {
            desk.word("estimated")
        };
        // A class takes every dimension itself.
        let (value, how) = if desk.is_class() {
            if !is_taken {
                continue;
            }
            (Cell::blank_length(desk.unit()), Cell::blank())
        } else {
            (desk.own_length(known.value.get()), Cell::text(how))
        };
        rows.push(vec![Cell::text(name), value, how]);
    }
    let columns = vec![
        desk.column("column-dimension", 3.2),
        desk.numbers("column-length", 1.4),
        if desk.is_class() {
            desk.column("column-second", 1.2)
        } else {
            desk.column("column-how", 1.2)
        },
    ];
    let mut blocks = Vec::new();
    if desk.is_class() {
        blocks.push(desk.blank("write-name-date", 1));
        blocks.push(desk.paragraph("measure-advice"));
    }
    blocks.push(desk.table("table-dimensions", columns, rows));
    if has_estimate && !desk.is_class() {
        blocks.push(desk.note("estimated-note"));
    }
    if !desk.suit.notes.is_empty() && !desk.is_class() {
        blocks.push(desk.heading("makers-notes"));
        blocks.push(Block::Paragraph {
            text: desk.suit.notes.to_owned(),
            is_note: false,
        });
    }
    desk.chapter("wearer", true, blocks)
}

/// Whether the suit has anything to do with a dimension: a brief ends at the waist, and arms matter to sleeves.
fn is_drawn_from(desk: &Desk<'_>, dimension: Dimension) -> bool {
    use Dimension as D;
    let pieces = &desk.suit.draft.pieces;
    match dimension {
        D::UpperArmGirth | D::WristGirth | D::ArmLength => pieces.iter().any(|p| p.key.contains("sleeve")),
        D::Stature
        | D::WaistGirth
        | D::HighHipGirth
        | D::HipGirth
        | D::ThighGirth
        | D::CrotchLength
        | D::CrotchLengthFront
        | D::WaistToHip
        | D::RiseHeight
        | D::CrotchHeight
        | D::WaistHeight => true,
        _ => !super::is_low(desk.suit),
    }
}

/// A level's name as this wearer has it.
fn level(desk: &Desk<'_>, level: Level) -> String {
    let is_chest = level == Level::Bust && desk.suit.body.form != BodyForm::Woman;
    let key = if is_chest {
        "chest".to_owned()
    } else {
        names::slug(level.name())
    };
    desk.word(&format!("level-{key}"))
}

fn severity(desk: &Desk<'_>, severity: Severity) -> Cell {
    let (sign, key) = match severity {
        Severity::Good => (Sign::Good, "sign-good"),
        Severity::Watch => (Sign::Watch, "sign-watch"),
        Severity::Stop => (Sign::Stop, "sign-stop"),
    };
    Cell::Sign {
        sign,
        word: desk.word(key),
    }
}

/// The share of its own stretch that keeps a reserve for movement, as the draft caps it.
const RESERVE: f64 = 0.45;

/// The stretch ladder, the way in, the finished measures.
pub(super) fn ladder_chapter(desk: &Desk<'_>) -> Chapter {
    let ladder_rungs: Vec<&Rung> = desk
        .suit
        .fit
        .ladder
        .iter()
        .filter(|r| r.pattern.get() > 0.0)
        .collect();
    let mut how = vec![desk.paragraph("ladder-how")];
    if !ladder_rungs.is_empty() {
        how.extend(picture(desk, &ladder_rungs));
    }
    let mut blocks = vec![Block::Keep { blocks: how }];
    if !ladder_rungs.is_empty() {
        blocks.push(rung_table(desk, &ladder_rungs));
    }
    if !desk.suit.fit.way_in.is_empty() {
        blocks.push(desk.heading("way-in-heading"));
        blocks.push(desk.paragraph("way-in-how"));
        blocks.push(way_in_table(desk, &desk.suit.fit.way_in));
    }
    desk.chapter("ladder", false, blocks)
}

fn picture(desk: &Desk<'_>, rungs: &[&Rung]) -> Option<Block> {
    // Drawn for a class as well, it would show the teacher's wearer.
    if desk.is_class() {
        return None;
    }
    let drawn: Vec<LadderRung> = rungs
        .iter()
        .filter_map(|r| {
            let width = desk.suit.draft.levels.iter().find(|l| l.level == r.level)?;
            Some(LadderRung {
                name: level(desk, r.level),
                y_mm: width.y_mm,
                girth_mm: r.body.get(),
                layers: r
                    .layers
                    .iter()
                    .map(|l| (names::layer(desk, l.layer), l.share_used))
                    .collect(),
                words: desk.say("ladder-worn", &[("worn", desk.words.percent(r.worn).into())]),
            })
        })
        .collect();
    let rungs: Vec<String> = drawn.iter().map(|r| format!("{} {}", r.name, r.words)).collect();
    let says = desk.say("ladder-figure", &[("rungs", desk.words.list(&rungs).into())]);
    let (reserve, most) = (desk.word("ladder-reserve"), desk.word("ladder-most"));
    let mut figure = ladder(&drawn, (RESERVE, &reserve), (SHARE_STOP, &most), says);
    figure.caption = desk.word("ladder-caption");
    Some(Block::Figures {
        figures: vec![figure],
    })
}

fn rung_table(desk: &Desk<'_>, rungs: &[&Rung]) -> Block {
    let rows = rungs.iter().map(|r| {
        let least = r.layers.iter().map(|l| l.left).fold(f64::INFINITY, f64::min);
        let left = if least.is_finite() {
            desk.words.percent(least)
        } else {
            "–".to_owned()
        };
        let judged = if desk.is_class() {
            Cell::blank()
        } else {
            severity(desk, r.severity)
        };
        vec![
            Cell::text(level(desk, r.level)),
            desk.own_length(r.body.get()),
            desk.own_length(r.pattern.get()),
            desk.own(desk.words.percent(r.worn)),
            desk.own(left),
            judged,
        ]
    });
    let columns = vec![
        desk.column("column-level", 1.5),
        desk.numbers("column-body", 1.2),
        desk.numbers("column-cut", 1.2),
        desk.numbers("column-worn", 1.0),
        desk.numbers("column-left", 1.0),
        desk.column("column-judged", 1.1),
    ];
    desk.table("table-ladder", columns, rows.collect())
}

fn way_in_table(desk: &Desk<'_>, openings: &[WayIn]) -> Block {
    let rows = openings.iter().map(|o| {
        let name = desk.word(&format!("opening-{}", names::slug(o.opening)));
        let judged = if desk.is_class() {
            Cell::blank()
        } else {
            severity(desk, o.severity)
        };
        vec![
            Cell::text(name),
            desk.own_length(o.rest.get()),
            desk.own_length(o.passes.get()),
            desk.own(desk.words.percent(o.needed)),
            judged,
        ]
    });
    let columns = vec![
        desk.column("column-opening", 1.9),
        desk.numbers("column-rest", 1.3),
        desk.numbers("column-passes", 1.3),
        desk.numbers("column-needs", 1.1),
        desk.column("column-judged", 1.2),
    ];
    desk.table("table-way-in", columns, rows.collect())
}
