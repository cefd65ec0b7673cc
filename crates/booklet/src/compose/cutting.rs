//! What to cut, with a thumbnail of each piece; and how to lay and cut it.

use cloth::{Layer, Orientation};
use draft::Piece;

use super::{Desk, names};
use crate::draw::thumbnail;
use crate::model::{Block, Cell, Chapter, Sign};

/// Size of a thumbnail, mm.
const THUMBNAIL: (f64, f64) = (27.0, 21.0);

/// Every piece with what to cut of it.
pub(super) fn pieces(desk: &Desk<'_>) -> Chapter {
    let rows = desk.suit.draft.pieces.iter().map(|p| {
        let says = desk.say("piece-figure", &[("piece", names::piece(desk, p).into())]);
        let name = names::piece(desk, p);
        vec![
            Cell::Figure(thumbnail(p, THUMBNAIL, says)),
            Cell::Text {
                main: name.clone(),
                other: desk.say("piece-letter", &[("letter", p.letter.to_string().into())]),
            },
            Cell::text(cuts(desk, p)),
            Cell::Tick {
                says: desk.say("cut-done", &[("piece", name.into())]),
            },
        ]
    });
    let columns = vec![
        desk.column("column-drawing", 1.2),
        desk.column("column-piece", 1.6),
        desk.column("column-to-cut", 2.4),
        desk.column("column-done", 0.5),
    ];
    let mut blocks = vec![desk.table("table-pieces", columns, rows.collect())];
    blocks.push(desk.note("pieces-note"));
    desk.chapter("pieces", true, blocks)
}

/// `1 of Slate tricot (shell)`, a line a layer.
fn cuts(desk: &Desk<'_>, piece: &Piece) -> String {
    let of = |layer: Layer| {
        let plan = desk.suit.cloth;
        let found = match layer {
            Layer::Shell => Some(&plan.shell),
            Layer::Lining => plan.lining.as_ref(),
            Layer::Mesh => plan.mesh.as_ref(),
            Layer::Contrast => plan.contrast.as_ref().or(Some(&plan.shell)),
        };
        found.map(|p| p.cloth.clone())
    };
    let lines: Vec<String> = piece
        .cuts
        .iter()
        .map(|c| {
            let key = if c.mirrored { "cut-pair" } else { "cut-one" };
            let layer = names::layer(desk, c.layer);
            let cloth = of(c.layer).unwrap_or_else(|| desk.word("cloth-not-chosen"));
            desk.say(
                key,
                &[
                    ("count", c.count.into()),
                    ("cloth", cloth.into()),
                    ("layer", layer.into()),
                ],
            )
        })
        .collect();
    lines.join("; ")
}

/// How to lay and cut.
pub(super) fn cutting(desk: &Desk<'_>) -> Chapter {
    let mut steps = vec!["cutting-wash", "cutting-rest", "cutting-single"];
    let shell = &desk.suit.cloth.shell;
    steps.push(match shell.orientation {
        Orientation::Upright => "cutting-around-upright",
        Orientation::Turned => "cutting-around-turned",
    });
    steps.extend([
        "cutting-weights",
        "cutting-notch",
        "cutting-marks",
        "cutting-label",
    ]);
    let blocks = vec![
        Block::List {
            items: steps.iter().map(|k| desk.word(k)).collect(),
            is_lettered: true,
        },
        Block::Keep {
            blocks: vec![
                Block::Callout(desk.callout(Sign::Watch, "sign-mind", desk.word("caution-blade"))),
                desk.blank("write-cloth-used", 1),
            ],
        },
    ];
    desk.chapter("cutting", false, blocks)
}
