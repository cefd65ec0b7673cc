//! The cloths in hand, and what to prove on scraps of them before anything is cut.

use cloth::{LayerPlan, Load, Orientation};
use make::{Scrap, ScrapKind};

use super::{Desk, names};
use crate::model::{Block, Cell, Chapter, Sign};

/// The cloths and how they lie.
pub(super) fn cloths(desk: &Desk<'_>) -> Chapter {
    let plan = desk.suit.cloth;
    let layers = [
        Some(&plan.shell),
        plan.lining.as_ref(),
        plan.mesh.as_ref(),
        plan.contrast.as_ref(),
    ];
    let rows = layers.into_iter().flatten().map(|l| row(desk, l));
    let columns = vec![
        desk.column("column-cloth", 1.9),
        desk.numbers("column-around", 1.1),
        desk.numbers("column-lengthwise", 1.1),
        desk.column("column-lies", 2.2),
    ];
    let mut blocks = vec![desk.table("table-cloths", columns, rows.collect())];
    blocks.push(Block::Paragraph {
        text: desk.say("cloth-load", &[("load", load(desk, plan.shell.load).into())]),
        is_note: true,
    });
    if desk.suit.cloth.lining.is_some() {
        let args = [
            ("around", desk.words.percent(plan.around.ratio()).into()),
            ("lengthwise", desk.words.percent(plan.lengthwise.ratio()).into()),
        ];
        blocks.push(Block::Paragraph {
            text: desk.say("cloth-together", &args),
            is_note: false,
        });
    }
    let mut buy = Vec::new();
    // A shopping list has it with everything else.
    let is_listed = desk.suit.plan.is_some_and(|p| p.shopping.is_some());
    for one in desk.suit.elastic_to_buy.iter().filter(|_| !is_listed) {
        let kind = names::elastic_kind(desk, &one.kind);
        let width = desk.words.small(one.width.get(), desk.unit()).both();
        let length = desk.words.metres(one.to_buy.get(), desk.unit());
        buy.push(vec![Cell::text(kind), Cell::text(width), desk.own(length.both())]);
    }
    if !buy.is_empty() {
        blocks.push(desk.heading("elastic-heading"));
        let columns = vec![
            desk.column("column-elastic", 2.0),
            desk.numbers("column-width", 1.3),
            desk.numbers("column-buy", 1.3),
        ];
        blocks.push(desk.table("table-buy", columns, buy));
        blocks.push(desk.note("elastic-buy-note"));
    }
    desk.chapter("cloth", false, blocks)
}

fn row(desk: &Desk<'_>, layer: &LayerPlan) -> Vec<Cell> {
    let lies = match layer.orientation {
        Orientation::Upright => desk.word("lies-upright"),
        Orientation::Turned => desk.word("lies-turned"),
    };
    vec![
        Cell::Text {
            main: layer.cloth.clone(),
            other: names::layer(desk, layer.layer),
        },
        Cell::text(desk.words.percent(layer.around.ratio())),
        Cell::text(desk.words.percent(layer.lengthwise.ratio())),
        Cell::text(lies),
    ]
}

fn load(desk: &Desk<'_>, load: Load) -> String {
    match load {
        Load::Hand => desk.word("load-hand"),
        Load::NewtonPerCm(n) => desk.say(
            "load-weighed",
            &[("pull", desk.words.with_unit(n, 1, "N/cm").into())],
        ),
    }
}

/// What to sew and press on scraps first, with room for what came of it.
pub(super) fn scraps(desk: &Desk<'_>) -> Chapter {
    let mut blocks = vec![
        desk.paragraph("scraps-why"),
        Block::List {
            items: [
                "scraps-cut",
                "scraps-sew",
                "scraps-pull",
                "scraps-back",
                "scraps-keep",
            ]
            .iter()
            .map(|k| desk.word(k))
            .collect(),
            is_lettered: true,
        },
    ];
    blocks.push(match desk.suit.plan {
        Some(plan) => planned_scraps(desk, &plan.making.scraps),
        None => usual_scraps(desk),
    });
    let mut ironing = vec![desk.heading("iron-heading"), desk.paragraph("iron-how")];
    let iron = |name: &str| vec![Cell::text(name), Cell::blank(), Cell::blank(), Cell::blank()];
    let plan = desk.suit.cloth;
    let names = [Some(&plan.shell), plan.lining.as_ref(), plan.mesh.as_ref()];
    let rows = names.into_iter().flatten().map(|l| iron(&l.cloth)).collect();
    let columns = vec![
        desk.column("column-cloth", 1.6),
        desk.column("column-heat", 1.0),
        desk.column("column-press-cloth", 1.2),
        desk.column("column-verdict", 1.6),
    ];
    ironing.push(desk.table("table-iron", columns, rows));
    ironing.push(Block::Callout(desk.callout(
        Sign::Watch,
        "sign-mind",
        desk.word("caution-heat"),
    )));
    blocks.push(Block::Keep { blocks: ironing });
    blocks.push(Block::Keep {
        blocks: vec![
            desk.heading("wet-heading"),
            desk.paragraph("caution-sheer"),
            desk.blank("write-wet", 1),
        ],
    });
    desk.chapter("scraps", false, blocks)
}

/// The scraps the plan asks for, each with how far it is pulled.
fn planned_scraps(desk: &Desk<'_>, scraps: &[Scrap]) -> Block {
    let sewn = scraps
        .iter()
        .filter(|s| matches!(s.kind, ScrapKind::Seam | ScrapKind::Edge | ScrapKind::Elastic));
    let rows = sewn.map(|s| {
        let to = s
            .pull_to
            .map_or_else(String::new, |mm| desk.words.length(mm.get(), desk.unit()).main);
        vec![
            Cell::text(desk.plan(&s.say)),
            if desk.is_class() && s.pull_to.is_some() {
                Cell::blank_length(desk.unit())
            } else {
                Cell::text(to)
            },
            Cell::blank(),
            Cell::blank(),
        ]
    });
    let columns = vec![
        desk.column("column-scrap", 3.4),
        desk.numbers("column-pull-to", 1.0),
        desk.column("column-reaches", 1.0),
        desk.column("column-verdict", 1.2),
    ];
    desk.table("table-scraps", columns, rows.collect())
}

fn usual_scraps(desk: &Desk<'_>) -> Block {
    let scrap = |key: &str| {
        let mut row = vec![Cell::text(desk.word(key))];
        row.extend(std::iter::repeat_n(Cell::blank(), 4));
        row
    };
    let mut kinds = vec!["try-seam", "try-topstitch"];
    if !desk.suit.elastic.is_empty() {
        kinds.push("try-elastic");
    }
    let columns = vec![
        desk.column("column-scrap", 2.0),
        desk.column("column-stitch", 1.5),
        desk.column("column-settings", 1.5),
        desk.column("column-reaches", 1.0),
        desk.column("column-verdict", 1.0),
    ];
    desk.table("table-scraps", columns, kinds.into_iter().map(scrap).collect())
}
