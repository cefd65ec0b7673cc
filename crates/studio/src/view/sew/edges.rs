//! The elastic map: each edge drawn flat above its elastic, its marks, how it is worn and whether its ring passes.

use make::{EdgeElastic, ElasticPlan, RingCheck};
use units::{Mm, Severity};

use super::{ArcView, BuyView, EdgeView, Planned, RingPassView, SettingView, Teller};
use crate::document::Worked;
use crate::order::Order;
use crate::view::lay::stock_of;
use crate::view::{Note, Quantity, State, as_sold, length, percent, plain, small_length, told};

/// Every edge of the plan.
pub(super) fn edges(worked: &Worked, planned: &Planned, teller: Teller<'_>) -> Vec<EdgeView> {
    let all = &planned.making().edges;
    (0..all.len())
        .filter_map(|i| edge(worked, all, i, teller))
        .collect()
}

/// Key of an edge: its name, with its number where the suit has several of that name.
pub(in crate::view) fn edge_key(edges: &[EdgeElastic], index: usize) -> String {
    let name = edges.get(index).map_or("", |e| e.plan.edge);
    let before = edges.iter().take(index).filter(|e| e.plan.edge == name).count();
    if before == 0 {
        name.to_owned()
    } else {
        format!("{name}-{}", before + 1)
    }
}

fn edge(worked: &Worked, all: &[EdgeElastic], index: usize, teller: Teller<'_>) -> Option<EdgeView> {
    let elastic = all.get(index)?;
    let (plan, unit, key) = (&elastic.plan, worked.unit(), edge_key(all, index));
    let arcs = plan
        .arcs
        .iter()
        .enumerate()
        .map(|(i, arc)| {
            let why = arc_key(&key, plan, i);
            ArcView {
                name: arc.name.to_owned(),
                letter: plan.mark(i),
                edge: length(arc.edge, unit).why(&why),
                elastic: length(arc.elastic, unit).why(&why),
                ratio: ratio(arc.ratio).why(&why),
                edge_mark: length(arc.edge_mark, unit),
                elastic_mark: length(arc.elastic_mark, unit),
                edge_mm: arc.edge.get(),
                elastic_mm: arc.elastic.get(),
            }
        })
        .collect();
    let found = || plan.findings.iter().chain(&elastic.findings);
    let state = found().map(|f| f.severity).max();
    let notes: Vec<Note> = found()
        .filter(|f| f.severity > Severity::Good)
        .map(told::finding)
        .collect();
    let has_figures = elastic.pressure_kpa.is_some() || elastic.pull_newton > 0.0;
    Some(EdgeView {
        name: edge_name(plan),
        arcs,
        cut: length(plan.cut_length, unit).why(format!("elastic.cut.{key}")),
        overlap: small_length(plan.overlap, unit).why(format!("elastic.overlap.{key}")),
        says: cut_words(plan, teller),
        join: teller.say(&elastic.join),
        about: elastic.about.iter().map(|s| teller.say(s)).collect(),
        worn: worn(elastic, &key, teller),
        relative: if has_figures && !elastic.is_force_measured {
            teller.own("sew-pressure-relative", &[])
        } else {
            String::new()
        },
        ring: elastic.ring.map(|ring| passes(elastic, ring, teller)),
        notes,
        state: state.map_or(State::Good, told::state_of),
        key,
    })
}

/// How the elastic is worn: stretched, pulling, pressing.
fn worn(elastic: &EdgeElastic, key: &str, teller: Teller<'_>) -> Vec<SettingView> {
    let words = teller.words();
    let named = |key: &str, value: Quantity, note: String| SettingView {
        name: teller.own(key, &[]),
        value,
        note,
    };
    let mut all = vec![
        named(
            "sew-elastic-worn",
            percent(elastic.worn_extension.max(0.0)).why(format!("elastic.worn.{key}")),
            String::new(),
        ),
        named(
            "sew-elastic-pull",
            plain(elastic.pull_newton, 1, "N", "newtons").why(format!("elastic.pull.{key}")),
            String::new(),
        ),
    ];
    if let Some(kpa) = elastic.pressure_kpa {
        let (watch, stop) = elastic.limits_kpa;
        let args = [
            ("watch", words.with_unit(watch, 1, "kPa").into()),
            ("stop", words.with_unit(stop, 1, "kPa").into()),
        ];
        all.push(named(
            "sew-elastic-pressure",
            plain(kpa, 1, "kPa", "kilopascals").why(format!("elastic.pressure.{key}")),
            teller.own("sew-pressure-limits", &args),
        ));
    }
    all
}

fn passes(elastic: &EdgeElastic, ring: RingCheck, teller: Teller<'_>) -> RingPassView {
    let args = [
        ("opens", teller.length(ring.opens_to).into()),
        ("passes", teller.length(ring.passes).into()),
    ];
    let worst = elastic.findings.iter().filter(|f| f.code == "elastic.ring");
    let worst = worst.map(|f| f.severity).max();
    RingPassView {
        says: teller.own(
            if ring.is_passed {
                "sew-ring-passes"
            } else {
                "sew-ring-stuck"
            },
            &args,
        ),
        state: worst.map_or(State::Good, told::state_of),
    }
}

/// Under which "why?" answers for an arc: its name, with its number where the edge has several of that name.
pub(in crate::view) fn arc_key(edge: &str, plan: &ElasticPlan, index: usize) -> String {
    let name = plan.arcs.get(index).map_or("", |a| a.name);
    let before = plan.arcs.iter().take(index).filter(|a| a.name == name).count();
    if before == 0 {
        format!("elastic.{edge}.{name}")
    } else {
        format!("elastic.{edge}.{name}.{}", before + 1)
    }
}

/// From here a ratio is sewn flat: less than half a millimetre of ease in 100.
const FLAT: f64 = 0.995;

/// `flat`, or `× 0.80`.
fn ratio(ratio: f64) -> Quantity {
    let (main, spoken) = if ratio >= FLAT {
        ("flat".to_owned(), "flat".to_owned())
    } else {
        (format!("× {ratio:.2}"), format!("times {ratio:.2}"))
    };
    Quantity {
        main,
        spoken,
        ..Quantity::default()
    }
}

/// `Leg, twice`.
pub(super) fn edge_name(plan: &ElasticPlan) -> String {
    match (plan.edge, plan.count) {
        ("neckline", 1) if plan.overlap > Mm::ZERO => "Neckline and back, once round".to_owned(),
        ("armhole", 1) => "Armholes and back, in one run".to_owned(),
        (edge, 1) => told::capital(edge),
        (edge, 2) => format!("{}, twice", told::capital(edge)),
        (edge, n) => format!("{}, {n} times", told::capital(edge)),
    }
}

/// `Cut 53.1 cm, twice: 51.9 and 1.2 to overlap. Braided rubber, 8 mm.`
fn cut_words(plan: &ElasticPlan, teller: Teller<'_>) -> String {
    let unit = teller.unit();
    let times = match plan.count {
        1 => String::new(),
        2 => ", twice".to_owned(),
        n => format!(", {n} times"),
    };
    let lap = if plan.overlap > Mm::ZERO {
        format!(
            ": {} and {} to overlap",
            length(plan.cut_length - plan.overlap, unit).main,
            length(plan.overlap, unit).main
        )
    } else {
        String::new()
    };
    format!(
        "Cut {}{times}{lap}. {}, {}.",
        length(plan.cut_length, unit).text(),
        told::capital(&teller.named(&plan.kind)),
        small_length(plan.width, unit).text()
    )
}

/// What of the elastic is in hand; none when it is not written or no length.
pub(in crate::view) fn in_hand(worked: &Worked) -> Option<Mm> {
    stock_of(&worked.elastic.as_ref()?.body)?.ok()
}

pub(super) fn bought(
    worked: &Worked,
    order: &Order,
    teller: Teller<'_>,
    notes: &mut Vec<Note>,
) -> Vec<BuyView> {
    let unit = worked.unit();
    let stock = worked.elastic.as_ref().and_then(|p| stock_of(&p.body));
    if let Some(Err(written)) = &stock {
        let says = format!("The stock of elastic reads “{written}”, which is no length.");
        notes.push(told::note(State::Doubtful, "elastic", says, "Write it as 1.4 m.").at("stock"));
    }
    // All rows are cut from the one elastic of the suit: what a row uses up is not in hand for the next.
    let mut left = in_hand(worked);
    let mut rows = Vec::new();
    for (i, buy) in order.elastic_to_buy.iter().enumerate() {
        let what = format!(
            "{}, {}",
            told::capital(&teller.named(&buy.kind)),
            small_length(buy.width, unit).text()
        );
        let why = format!("elastic.buy.{i}");
        let needed = as_sold(buy.to_buy, unit);
        let to_buy = short_of(buy.to_buy, left.unwrap_or(Mm::ZERO));
        if let Some(in_hand) = left.filter(|_| to_buy > Mm::ZERO) {
            let says = format!(
                "{what}: {} needed, {} in hand.",
                needed.text(),
                as_sold(in_hand, unit).text()
            );
            let next = format!("Buy {}.", as_sold(to_buy, unit).text());
            notes.push(
                told::note(State::Missing, "elastic", says, next)
                    .at("stock")
                    .asked(&why),
            );
        }
        rows.push(BuyView {
            what,
            needed: needed.why(&why),
            in_hand: left.map(|l| as_sold(l, unit)),
            to_buy: if to_buy > Mm::ZERO {
                as_sold(to_buy, unit)
            } else {
                nothing()
            },
        });
        left = left.map(|l| Mm::new((l - buy.to_buy).get().max(0.0)));
    }
    rows
}

/// Elastic is sold by the quarter metre. `data/trade/notions.toml`.
const SOLD_BY_MM: f64 = 250.0;

/// What to buy of the needed when so much is in hand, in the steps it is sold by.
fn short_of(needed: Mm, in_hand: Mm) -> Mm {
    let steps = (needed - in_hand).get() / SOLD_BY_MM;
    // A millionth of a step is rounding, not elastic.
    Mm::new((steps - 1e-6).ceil().max(0.0) * SOLD_BY_MM)
}

fn nothing() -> Quantity {
    Quantity {
        main: "nothing".to_owned(),
        spoken: "nothing".to_owned(),
        ..Quantity::default()
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::document::{Linked, Paper, work};
    use crate::view::examples::{example, names};
    use crate::view::sew::view as sew_view;

    /// Maren's suit, with so much elastic in stock: needed, in hand, to buy as the row tells them, and the note on it.
    fn row(stock: &str) -> ([String; 3], Option<String>) {
        let maren = example("maren-one-piece");
        let elastic = Paper {
            id: "elastic".into(),
            kind: "elastic",
            revision: 1,
            body: json!({"name": "Rubber", "kind": "braided-rubber", "width": "8 mm", "stock": stock}),
        };
        let linked = Linked {
            elastic: Some(elastic),
            workroom: None,
            ..maren.linked()
        };
        let worked = work(maren.suit, linked);
        let view = sew_view(&worked);
        let [row] = view.to_buy.as_slice() else {
            panic!("{:?}", view.to_buy)
        };
        let in_hand = row.in_hand.as_ref().map_or_else(String::new, Quantity::text);
        let note = view
            .head
            .notes
            .iter()
            .find(|n| n.field.as_deref() == Some("stock"));
        (
            [row.needed.text(), in_hand, row.to_buy.text()],
            note.map(|n| format!("{} {}", n.says, n.next)),
        )
    }

    #[test]
    fn note_and_table_tell_the_same_of_the_elastic() {
        let ([needed, in_hand, to_buy], note) = row("1.4 m");
        let metres = |text: &str| text.trim_end_matches(" m").parse::<f64>().unwrap();
        let short = metres(&needed) - metres(&in_hand);
        assert!(
            metres(&to_buy) >= short - 1e-9 && metres(&to_buy) < short + 0.25,
            "{to_buy}"
        );
        let note = note.unwrap();
        assert!(
            note.contains(&format!("{needed} needed, {in_hand} in hand.")),
            "{note}"
        );
        assert!(note.ends_with(&format!("Buy {to_buy}.")), "{note}");

        let ([_, _, to_buy], note) = row(&needed);
        assert_eq!((to_buy.as_str(), note), ("nothing", None));
        let ([needed, in_hand, to_buy], note) = row("");
        assert_eq!(
            (in_hand.as_str(), to_buy, note),
            ("", needed, None),
            "nothing written: all of it"
        );
    }

    #[test]
    fn what_is_short_is_bought_by_the_quarter_metre() {
        let short = |needed, in_hand| short_of(Mm::new(needed), Mm::new(in_hand)).get();
        assert_eq!(short(3500.0, 1400.0), 2250.0);
        assert_eq!(short(3500.0, 3250.0), 250.0);
        assert_eq!(short(3500.0, 3500.0), 0.0);
        assert_eq!(short(3500.0, 9000.0), 0.0);
    }

    #[test]
    fn no_two_marks_of_an_edge_share_a_letter() {
        for name in names() {
            for edge in sew_view(&example(&name)).edges {
                let mut letters: Vec<&str> = edge.arcs.iter().map(|a| a.letter.as_str()).collect();
                letters.sort_unstable();
                letters.dedup();
                assert_eq!(letters.len(), edge.arcs.len(), "{name}, {}", edge.key);
            }
        }
    }
}
