//! Section 6, Sew: the elastic map, what to buy, and what there is to do, to be checked off at the bench.

mod steps;

pub(super) use steps::stretches;

use make::ElasticPlan;
use serde::Serialize;
use ts_rs::TS;
use units::{LengthUnit, Mm, Severity};
use utoipa::ToSchema;

use super::lay::stock_of;
use super::not_yet::not_yet;
use super::{Head, Note, Quantity, State, as_sold, length, small_length, told};
use crate::document::Worked;
use crate::order::Order;

/// What there is to sew.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct SewView {
    /// State, summary, notes.
    pub head: Head,
    /// The elastic of each edge, drawn flat.
    pub edges: Vec<EdgeView>,
    /// Elastic to buy.
    pub to_buy: Vec<BuyView>,
    /// What there is to do, in order.
    pub steps: Vec<StepView>,
    /// Index of the step at hand; none when all is done.
    pub now: Option<usize>,
}

/// One edge and its elastic.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct EdgeView {
    /// Key: `leg`.
    pub key: String,
    /// Title: `Leg, twice`.
    pub name: String,
    /// Arcs in sewing order.
    pub arcs: Vec<ArcView>,
    /// What to cut, overlap included.
    pub cut: Quantity,
    /// The overlap.
    pub overlap: Quantity,
    /// `Cut 53.1 cm, twice: 51.9 and 1.2 to overlap. Braided rubber, 8 mm.`
    pub says: String,
    /// Where the elastic is joined.
    pub join: String,
    /// How it stands.
    pub state: State,
}

/// One arc.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ArcView {
    /// Name: `back`.
    pub name: String,
    /// Letter of the mark at its start; `f′` where the edge meets mark f a second time, on the other side.
    pub letter: String,
    /// Along the edge.
    pub edge: Quantity,
    /// Of elastic.
    pub elastic: Quantity,
    /// `flat` or `x 0.80`.
    pub ratio: Quantity,
    /// Edge length in mm, for the drawing.
    pub edge_mm: f64,
    /// Elastic length in mm, for the drawing.
    pub elastic_mm: f64,
}

/// Elastic to buy.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct BuyView {
    /// Kind and width.
    pub what: String,
    /// What is needed: what the suit takes, with trimming and a test.
    pub needed: Quantity,
    /// What is in stock, if written.
    pub in_hand: Option<Quantity>,
    /// What of the needed is not in hand.
    pub to_buy: Quantity,
}

/// Something to do, with its tick.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct StepView {
    /// Stable id, the path under `sewn` of the suit.
    pub id: String,
    /// `cut`, `join`, `elastic`, `finish`.
    pub group: String,
    /// What to do.
    pub title: String,
    /// How: one or two sentences.
    pub says: String,
    /// Two to four settings or measures: name and value.
    pub settings: Vec<SettingView>,
    /// Key of the edge whose ruler belongs to it.
    pub edge: Option<String>,
    /// Keys of the pieces it is about, drawn at the bench.
    pub pieces: Vec<String>,
    /// Names of the piece edges to draw hot.
    pub hot: Vec<String>,
    /// Caution, where it belongs; empty otherwise.
    pub caution: String,
    /// Done.
    pub done: bool,
}

/// A setting or measure of a step.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct SettingView {
    /// Name.
    pub name: String,
    /// Value.
    pub value: Quantity,
}

/// The section of these papers.
pub(super) fn view(worked: &Worked) -> SewView {
    let Some(order) = &worked.order else {
        return SewView {
            head: Head::of("Nothing to sew yet.", vec![not_yet(worked, "Nothing to sew yet")]),
            edges: vec![],
            to_buy: vec![],
            steps: vec![],
            now: None,
        };
    };
    let mut notes: Vec<Note> = order
        .findings
        .iter()
        .filter(|f| f.code.starts_with("elastic.") && f.severity > Severity::Good)
        .map(told::finding)
        .collect();
    let to_buy = bought(worked, order, &mut notes);
    let steps = steps::steps(worked, order);
    let now = steps.iter().position(|s| !s.done);
    let summary = match now.and_then(|at| steps.get(at).map(|step| (at, step))) {
        Some((at, step)) => format!("Step {} of {}. {}.", at + 1, steps.len(), step.title),
        None => format!("All {} steps are done.", steps.len()),
    };
    SewView {
        head: Head::of(summary, notes),
        edges: order.elastic.iter().map(|plan| edge(worked, plan)).collect(),
        to_buy,
        steps,
        now,
    }
}

fn edge(worked: &Worked, plan: &ElasticPlan) -> EdgeView {
    let unit = worked.unit();
    let arcs = plan
        .arcs
        .iter()
        .enumerate()
        .map(|(i, arc)| {
            let key = arc_key(plan, i);
            ArcView {
                name: arc.name.to_owned(),
                letter: plan.mark(i),
                edge: length(arc.edge, unit).why(&key),
                elastic: length(arc.elastic, unit).why(&key),
                ratio: ratio(arc.ratio).why(&key),
                edge_mm: arc.edge.get(),
                elastic_mm: arc.elastic.get(),
            }
        })
        .collect();
    let state = plan.findings.iter().map(|f| f.severity).max();
    EdgeView {
        key: plan.edge.to_owned(),
        name: edge_name(plan),
        arcs,
        cut: length(plan.cut_length, unit).why(format!("elastic.cut.{}", plan.edge)),
        overlap: small_length(plan.overlap, unit).why(format!("elastic.overlap.{}", plan.edge)),
        says: cut_words(plan, unit),
        join: join_words(plan),
        state: state.map_or(State::Good, told::state_of),
    }
}

/// Under which "why?" answers for an arc: its name, with its number where the edge has several of that name.
pub(super) fn arc_key(plan: &ElasticPlan, index: usize) -> String {
    let name = plan.arcs.get(index).map_or("", |a| a.name);
    let before = plan.arcs.iter().take(index).filter(|a| a.name == name).count();
    if before == 0 {
        format!("elastic.{}.{name}", plan.edge)
    } else {
        format!("elastic.{}.{name}.{}", plan.edge, before + 1)
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
fn edge_name(plan: &ElasticPlan) -> String {
    match (plan.edge, plan.count) {
        ("neckline", 1) if plan.overlap > Mm::ZERO => "Neckline and back, once round".to_owned(),
        ("armhole", 1) => "Armholes and back, in one run".to_owned(),
        (edge, 1) => told::capital(edge),
        (edge, 2) => format!("{}, twice", told::capital(edge)),
        (edge, n) => format!("{}, {n} times", told::capital(edge)),
    }
}

/// `Cut 53.1 cm, twice: 51.9 and 1.2 to overlap. Braided rubber, 8 mm.`
pub(super) fn cut_words(plan: &ElasticPlan, unit: LengthUnit) -> String {
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
        told::capital(&plan.kind),
        small_length(plan.width, unit).text()
    )
}

/// Where the elastic is joined.
pub(super) fn join_words(plan: &ElasticPlan) -> String {
    let letter = plan.mark(0);
    if plan.overlap <= Mm::ZERO {
        return "Not joined: it runs from one end of the edge to the other.".to_owned();
    }
    let place = match plan.edge {
        "leg" => "on the back, behind the crotch seam",
        "armhole" => "on the back, behind the underarm",
        _ => "at the centre back",
    };
    format!("Joined at mark {letter}, {place}.")
}

/// What of the elastic is in hand; none when it is not written or no length.
pub(super) fn in_hand(worked: &Worked) -> Option<Mm> {
    stock_of(&worked.elastic.as_ref()?.body)?.ok()
}

fn bought(worked: &Worked, order: &Order, notes: &mut Vec<Note>) -> Vec<BuyView> {
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
            told::capital(&buy.kind),
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
    use serde_json::{Value as Json, json};

    use super::*;
    use crate::document::{Linked, Paper, work};
    use crate::view::examples::{example, names, with};
    use crate::view::{Around, lay, paper, try_on, why};

    /// Every `why` anywhere in a view.
    fn keys(value: &Json, found: &mut Vec<String>) {
        match value {
            Json::Object(map) => {
                if let Some(key) = map.get("why").and_then(Json::as_str) {
                    found.push(key.to_owned());
                }
                map.values().for_each(|v| keys(v, found));
            }
            Json::Array(list) => list.iter().for_each(|v| keys(v, found)),
            _ => {}
        }
    }

    #[test]
    fn every_number_that_can_be_asked_why_answers() {
        for name in names() {
            let worked = example(&name);
            let views = json!([
                lay::view(&worked),
                view(&worked),
                paper::view(&worked, None),
                try_on::view(&worked, &Around::default())
            ]);
            let mut found = Vec::new();
            keys(&views, &mut found);
            assert!(found.len() > 20, "{name}");
            for key in found {
                let answer = why(&worked, &key).unwrap_or_else(|| panic!("{name}: {key}"));
                assert!(!answer.answer.is_empty() && !answer.source.is_empty(), "{key}");
            }
        }
    }

    /// A stop note at most where the engine found one, and every step once, pieces and edges that are there.
    #[test]
    fn steps_are_of_this_suit_and_in_an_order_that_can_be_sewn() {
        for name in names() {
            let worked = example(&name);
            let order = worked.order.as_ref().unwrap();
            let view = view(&worked);
            let at = |id: &str| view.steps.iter().position(|s| s.id == id);
            for (i, step) in view.steps.iter().enumerate() {
                assert_eq!(at(&step.id), Some(i), "{name}: {} twice", step.id);
                let inside = |other: &str| other.starts_with(&format!("{}.", step.id));
                assert!(
                    !view.steps.iter().any(|s| inside(&s.id)),
                    "{name}: {} hides another tick",
                    step.id
                );
                for key in &step.pieces {
                    let is_there = order.draft.pieces.iter().any(|p| p.key == *key);
                    assert!(is_there, "{name}: {} names {key}", step.id);
                }
            }
            let turned: Vec<&str> = order.elastic.iter().map(|e| e.edge).collect();
            for edge in turned {
                assert!(at("join.side") < at(&format!("elastic.{edge}")), "{name}");
                assert!(
                    at(&format!("elastic.{edge}")) < at(&format!("turn.{edge}")),
                    "{name}"
                );
            }
            assert!(
                at("cut.back") < at("join.crotch") && at("join.crotch") < at("join.side"),
                "{name}"
            );
            if at("elastic.waist").is_some() {
                assert!(at("elastic.leg") < at("elastic.waist"), "{name}");
            }
            for edge in &view.edges {
                let sum: f64 = edge.arcs.iter().map(|a| a.elastic_mm).sum();
                let plan = order.elastic.iter().find(|p| p.edge == edge.key).unwrap();
                assert!(
                    (sum + plan.overlap.get() - plan.cut_length.get()).abs() < 1e-6,
                    "{name} {}",
                    edge.key
                );
            }
        }
    }

    #[test]
    fn a_tick_moves_the_step_at_hand() {
        let worked = example("maren-one-piece");
        let first = view(&worked);
        assert_eq!(first.now, Some(0));
        let ticked = with(&worked, "suit", |suit| {
            suit["sewn"] = json!({"wash": true, "cut": {"front": true}, "cut.back": true});
        });
        let view = view(&ticked);
        let done: Vec<&str> = view
            .steps
            .iter()
            .filter(|s| s.done)
            .map(|s| s.id.as_str())
            .collect();
        assert_eq!(done, ["wash", "cut.front", "cut.back"]);
        assert_eq!(
            view.head.summary,
            format!("Step 4 of {}. {}.", view.steps.len(), view.steps[3].title)
        );
    }

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
        let view = view(&worked);
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
            for edge in view(&example(&name)).edges {
                let mut letters: Vec<&str> = edge.arcs.iter().map(|a| a.letter.as_str()).collect();
                letters.sort_unstable();
                letters.dedup();
                assert_eq!(letters.len(), edge.arcs.len(), "{name}, {}", edge.key);
            }
        }
    }
}
