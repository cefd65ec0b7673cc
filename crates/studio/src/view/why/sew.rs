//! Why so much cloth at least, why so much elastic: the sums behind the sections Lay, Sew and Try-on.

use cloth::Layer;
use make::{ElasticPlan, LAP_JOIN};
use units::Mm;

use super::{PRACTICE, Why};
use crate::document::Worked;
use crate::order::Order;
use crate::view::lay::least;
use crate::view::sew::{arc_key, in_hand, stretches};
use crate::view::{as_sold, length, percent, plain, small_length, told};

/// The answer for `elastic`, `lay` and `sew`.
pub(super) fn answer(worked: &Worked, kind: &str, which: &str) -> Option<Why> {
    let order = worked.order.as_ref()?;
    match kind {
        "lay" => lay(worked, order, which.strip_prefix("least.")?),
        "sew" => stretch(worked, order, which),
        "elastic" => {
            let (what, rest) = which.split_once('.').unwrap_or((which, ""));
            match what {
                "cut" => cut(worked, plan_of(order, rest)?),
                "overlap" => overlap(worked, plan_of(order, rest)?),
                "buy" => buy(worked, order, rest.parse().ok()?),
                edge => arc(worked, plan_of(order, edge)?, &format!("elastic.{which}")),
            }
        }
        _ => None,
    }
}

fn plan_of<'a>(order: &'a Order, edge: &str) -> Option<&'a ElasticPlan> {
    order.elastic.iter().find(|p| p.edge == edge)
}

fn lay(worked: &Worked, order: &Order, layer: &str) -> Option<Why> {
    let layer = [Layer::Shell, Layer::Lining, Layer::Mesh]
        .into_iter()
        .find(|l| l.name() == layer)?;
    let least = least(order, layer)?;
    let unit = worked.unit();
    let by_area = Mm::new(least.area / least.width.get());
    let answer = if least.longest >= by_area {
        "The longest piece must lie along the cloth. No lay can be shorter; a real one needs more."
    } else {
        "All pieces side by side without a gap would fill the whole width. No lay can be shorter; a real one needs more."
    };
    let square_cm = plain(least.area / 100.0, 0, "cm²", "square centimetres").text();
    let width_cm = length(least.width, units::LengthUnit::Cm);
    let why = Why::of(
        format!("Why at least {}?", as_sold(least.at_least, unit).text()),
        answer,
        "geometry of the drafted pieces",
    )
    .sum(format!(
        "the greater of {} and {square_cm} / {} = {}",
        length(least.longest, units::LengthUnit::Cm).text(),
        width_cm.text(),
        length(by_area, units::LengthUnit::Cm).text()
    ))
    .input(
        "longest piece along the cloth",
        length(least.longest, unit).text(),
    )
    .input("cut area of all pieces", square_cm)
    .input("usable width", length(least.width, unit).text());
    Some(why)
}

fn stretch(worked: &Worked, order: &Order, which: &str) -> Option<Why> {
    let (worn, edges) = stretches(worked, order);
    match which {
        "worn" => {
            let level = order
                .draft
                .levels
                .iter()
                .filter(|l| l.pattern_mm > 0.0)
                .max_by(|a, b| (a.body_mm / a.pattern_mm).total_cmp(&(b.body_mm / b.pattern_mm)))?;
            Some(ratio(
                worked,
                format!("Why {} % for the scrap?", percent(worn).main),
                "It is the greatest worn stretch around the body; the scrap must bear it.",
                (level.body_mm, "body there"),
                (level.pattern_mm, "pattern there, once round"),
            ))
        }
        "edges" => {
            let widest = order
                .draft
                .openings
                .iter()
                .filter(|o| o.rest_mm > 0.0)
                .find(|o| (o.passes_mm / o.rest_mm - 1.0 - edges).abs() < 1e-12)?;
            Some(ratio(
                worked,
                format!("Why {} % for the edges?", percent(edges).main),
                "So far the tightest edge must open to let the body pass. Elastic and stitches must bear it.",
                (widest.passes_mm, "girth that must pass"),
                (widest.rest_mm, "edge at rest, once round"),
            ))
        }
        "working_extension" => {
            let elastic = worked.file.as_ref()?.elastic;
            let (low, high) = elastic.kind().facts().working_extension;
            Some(
                Why::of(
                    format!(
                        "Why {} % for the elastic?",
                        percent(elastic.working_extension().ratio()).main
                    ),
                    "Your own test of this elastic if you wrote one; else the low end of its kind.",
                    PRACTICE,
                )
                .input("kind", elastic.kind().facts().name)
                .input(
                    "its kind works to",
                    format!("{} to {} %", low.percent(), high.percent()),
                ),
            )
        }
        _ => None,
    }
}

fn ratio(worked: &Worked, question: String, answer: &str, body: (f64, &str), cut: (f64, &str)) -> Why {
    let text = |mm: f64| length(Mm::new(mm), worked.unit());
    let (body_text, cut_text) = (text(body.0), text(cut.0));
    let share = 100.0 * (body.0 / cut.0 - 1.0);
    Why::of(question, answer, "geometry of the drafted pieces")
        .sum(format!(
            "{} / {} - 1 = {share:.1} %",
            body_text.main, cut_text.main
        ))
        .input(body.1, body_text.text())
        .input(cut.1, cut_text.text())
}

fn arc(worked: &Worked, plan: &ElasticPlan, key: &str) -> Option<Why> {
    let index = (0..plan.arcs.len()).find(|i| arc_key(plan, *i) == key)?;
    let arc = plan.arcs.get(index)?;
    let unit = worked.unit();
    let (edge, elastic) = (length(arc.edge, unit), length(arc.elastic, unit));
    let answer = match (plan.edge, arc.name) {
        _ if arc.ratio >= 1.0 => "Here the elastic lies flat: it is as long as the edge.".to_owned(),
        ("leg", "back") => {
            "All the ease of the leg sits under the seat, where the edge must hug a curve.".to_owned()
        }
        _ => "The elastic is a little shorter than the edge, so that it lies close.".to_owned(),
    };
    let why = Why::of(
        format!(
            "Why {} of elastic for {} of edge, {} {}?",
            elastic.text(),
            edge.text(),
            plan.edge,
            arc.name
        ),
        answer,
        plan.source,
    )
    .sum(format!("{} x {:.2} = {}", edge.main, arc.ratio, elastic.text()))
    .input("edge, along the seam line", edge.text())
    .input("share of elastic", format!("{:.2}", arc.ratio));
    Some(why)
}

fn cut(worked: &Worked, plan: &ElasticPlan) -> Option<Why> {
    let unit = worked.unit();
    let parts: Vec<String> = plan.arcs.iter().map(|a| length(a.elastic, unit).main).collect();
    let total = length(plan.cut_length, unit).text();
    let mut sum = parts.join(" + ");
    if plan.overlap > Mm::ZERO {
        sum = format!("{sum} + {}", length(plan.overlap, unit).main);
    }
    let mut why = Why::of(
        format!("Why cut {total} for the {}?", plan.edge),
        "The elastic of every arc, and the overlap of its join.",
        plan.source,
    )
    .sum(format!("{sum} = {total}"));
    for (i, arc) in plan.arcs.iter().enumerate() {
        why = why.input(
            format!("{}, from mark {}", arc.name, plan.mark(i)),
            format!("{} x {:.2}", length(arc.edge, unit).text(), arc.ratio),
        );
    }
    Some(why.input("overlap", small_length(plan.overlap, unit).text()))
}

fn overlap(worked: &Worked, plan: &ElasticPlan) -> Option<Why> {
    let unit = worked.unit();
    let answer = if plan.overlap > Mm::ZERO {
        "The ends lie over each other and are sewn flat: no bulk, and it holds."
    } else {
        "This edge is no ring: its elastic has two free ends, which other seams catch."
    };
    Some(
        Why::of(
            format!("Why {} to overlap?", small_length(plan.overlap, unit).text()),
            answer,
            PRACTICE,
        )
        .input("lap of a ring", small_length(LAP_JOIN, unit).text()),
    )
}

fn buy(worked: &Worked, order: &Order, index: usize) -> Option<Why> {
    let buy = order.elastic_to_buy.get(index)?;
    let unit = worked.unit();
    let needed = as_sold(buy.to_buy, unit).text();
    let mut why = Why::of(
        format!("Why {needed}?"),
        "What the suit takes, a tenth more for trimming and 20 cm to test it; sold by the quarter metre. To buy is what of that is not in hand.",
        PRACTICE,
    )
    .sum(format!(
        "{} x 1.1 + 0.2 m, up to the quarter = {needed}",
        as_sold(buy.net, units::LengthUnit::Cm).text()
    ));
    if let Some(in_hand) = in_hand(worked) {
        why = why.input("in hand", as_sold(in_hand, unit).text());
    }
    for plan in order
        .elastic
        .iter()
        .filter(|p| p.kind == buy.kind && p.width == buy.width)
    {
        why = why.input(
            told::capital(plan.edge),
            format!("{} x {}", plan.count, length(plan.cut_length, unit).text()),
        );
    }
    Some(why)
}
