//! Why so much cloth at least, why so much elastic: the sums behind the sections Lay, Sew and Try-on.

use cloth::Layer;
use make::{
    CRIMP_RELEASED, EdgeElastic, ElasticPlan, Evidence, LAP_JOIN, Making, SEAM_FACTOR, Scrap, ScrapKind,
    Stitch, StitchChoice, StitchFamily,
};
use units::Mm;

use super::{PRACTICE, Why};
use crate::document::Worked;
use crate::order::Order;
use crate::view::lay::least;
use crate::view::sew::{Teller, arc_key, edge_key, in_hand, planned};
use crate::view::{as_sold, length, percent, plain, small_length, told};

/// The answer for `elastic`, `lay` and `sew`.
pub(super) fn answer(worked: &Worked, kind: &str, which: &str) -> Option<Why> {
    let order = worked.order.as_ref()?;
    match kind {
        "lay" => lay(worked, order, which.strip_prefix("least.")?),
        "sew" => {
            let (what, place) = which.split_once('.')?;
            let (_, planned) = planned(worked)?;
            if what == "scrap" {
                let scrap = planned.making().scraps.get(place.parse::<usize>().ok()?)?;
                return scrap_pull(worked, scrap);
            }
            let choice = planned.making().stitches.get(place.parse::<usize>().ok()?)?;
            let teller = Teller::of_pages(worked.unit());
            match what {
                "need" => Some(need(choice, planned.making().is_worn_solved, teller)),
                "extension" => Some(extension(choice, teller)),
                _ => None,
            }
        }
        "elastic" => {
            let (what, rest) = which.split_once('.').unwrap_or((which, ""));
            if what == "buy" {
                return buy(worked, order, rest.parse().ok()?);
            }
            let (_, planned) = planned(worked)?;
            let making = planned.making();
            match what {
                "cut" => cut(worked, &edge_of(making, rest)?.plan),
                "overlap" => overlap(worked, &edge_of(making, rest)?.plan),
                "worn" => Some(elastic_worn(edge_of(making, rest)?)),
                "pull" => Some(elastic_pull(edge_of(making, rest)?)),
                "pressure" => elastic_pressure(worked, edge_of(making, rest)?),
                edge => arc(
                    worked,
                    edge,
                    &edge_of(making, edge)?.plan,
                    &format!("elastic.{which}"),
                ),
            }
        }
        _ => None,
    }
}

fn edge_of<'a>(making: &'a Making, key: &str) -> Option<&'a EdgeElastic> {
    let at = (0..making.edges.len()).find(|i| edge_key(&making.edges, *i) == key)?;
    making.edges.get(at)
}

/// Why a stitch is asked to stretch so far.
fn need(choice: &StitchChoice, is_solved: bool, teller: Teller<'_>) -> Why {
    let need = &choice.need;
    let (worn, movement, way_in) = (
        percent(need.worn).text(),
        percent(need.movement).text(),
        percent(need.way_in).text(),
    );
    let answer = if need.way_in > need.worn + need.movement {
        "It stretches furthest while the suit is put on; a seam must go a fifth further than it is pulled."
    } else {
        "It stretches furthest when the wearer moves in the suit; a seam must go a fifth further than it is pulled."
    };
    Why::of(
        format!(
            "Why {} asked for {}?",
            percent(choice.asked).text(),
            teller.word(choice.job.key())
        ),
        answer,
        "1.2 after ASTM D6193, 4.2.2, as read in data/trade/thread_model.toml; movement: 20 %, the low end of what back skin \
         lengthens in bending, data/trade/pressure_model.toml",
    )
    .sum(format!(
        "{SEAM_FACTOR} x the greater of {worn} + {movement} and {way_in} = {}",
        percent(choice.asked).text()
    ))
    .input(
        if is_solved {
            "worn, along the seam, solved on the form"
        } else {
            "worn, along the seam, as the draft means it"
        },
        worn,
    )
    .input("movement", movement)
    .input("way in, along the seam", way_in)
    .input("the cloth itself goes", percent(need.cloth).text())
}

/// Why a stitch is said to reach so far.
fn extension(choice: &StitchChoice, teller: Teller<'_>) -> Why {
    let setting = &choice.setting;
    let stitch = teller.word(setting.stitch.key());
    let question = format!("Why does {stitch} reach {}?", percent(choice.extension).text());
    let breaks = percent(setting.needle_thread.breaks_at()).text();
    let mm = |mm: Mm| plain(mm.get(), 1, "mm", "millimetres").text();
    let why = match &choice.evidence {
        Evidence::Sample(name) => Why::of(
            question,
            "You sewed it on this cloth with this thread and these settings, and pulled it until it popped.",
            "your sample book",
        )
        .input("sample", name),
        Evidence::Practice => Why::of(
            question,
            "Threads of this stitch share their length in a way no formula here follows: the lower quarter of what the trade says of it.",
            "data/trade/stitches.csv, common practice; prove it on a scrap",
        )
        .input("the trade's band", band(setting.stitch)),
        Evidence::Forecast => {
            let is_row = setting.width.get() <= 0.0
                || setting.stitch == Stitch::TwinNeedle
                || setting.stitch.facts().family != StitchFamily::Lockstitch;
            let width = if is_row { "0".to_owned() } else { "(width / steps)²".to_owned() };
            Why::of(
                question,
                "The seam gives until its thread lies straight and breaks. A forecast: a scrap decides.",
                "data/trade/thread_model.toml, [seam_extension]: derived, not sewn",
            )
            .sum(format!(
                "√(((1 + {breaks}) x (path + {CRIMP_RELEASED} x thickness))² - {width}) / length - 1 = {}",
                percent(choice.extension).text()
            ))
            .input("thread breaks at", breaks)
        }
    };
    let why = if setting.width.get() > 0.0 {
        why.input("width", mm(setting.width))
    } else {
        why
    };
    why.input("length", mm(setting.length))
        .input("plies under the needle", choice.plies.to_string())
        .input("asked", percent(choice.asked).text())
}

/// The trade's band of a stitch: `80 to 120 %`.
fn band(stitch: Stitch) -> String {
    let (low, high) = stitch.facts().extension;
    format!("{} to {} %", percent(low).main, percent(high).main)
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

fn arc(worked: &Worked, edge_key: &str, plan: &ElasticPlan, key: &str) -> Option<Why> {
    let index = (0..plan.arcs.len()).find(|i| arc_key(edge_key, plan, *i) == key)?;
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

/// The least ratio of an edge: there its elastic is stretched most.
fn least_ratio(edge: &EdgeElastic) -> f64 {
    edge.plan.arcs.iter().map(|a| a.ratio).fold(1.0, f64::min)
}

fn elastic_worn(edge: &EdgeElastic) -> Why {
    let ratio = least_ratio(edge);
    let of_edge = (1.0 + edge.worn_extension) * ratio - 1.0;
    Why::of(
        format!(
            "Why is the elastic of the {} stretched {} in wear?",
            edge.plan.edge,
            percent(edge.worn_extension.max(0.0)).text()
        ),
        "At its most stretched arc: as far as the edge is stretched when it is worn, over its share of the edge. The edge is taken to be \
         stretched by the greater of girth over its own length and the stretch its level is drawn for.",
        "our own estimate, held against our own worn solves",
    )
    .sum(format!(
        "(1 + {}) / {ratio:.2} - 1 = {}",
        percent(of_edge).text(),
        percent(edge.worn_extension).text()
    ))
    .input("stretch of the edge, worn", percent(of_edge).text())
    .input("least share of elastic", format!("{ratio:.2}"))
}

fn elastic_pull(edge: &EdgeElastic) -> Why {
    let newtons = |n: f64| plain(n, 1, "N", "newtons").text();
    let why = Why::of(
        format!(
            "Why does the elastic of the {} pull {}?",
            edge.plan.edge,
            newtons(edge.pull_newton)
        ),
        "Elastic pulls by how far it is stretched: its force at double length, times its stretch.",
        "a straight line through nought and double length: common practice, no single source",
    )
    .input("stretched in wear", percent(edge.worn_extension.max(0.0)).text());
    if edge.worn_extension <= 0.0 {
        return why;
    }
    let at_double = edge.pull_newton / edge.worn_extension;
    why.sum(format!(
        "{} x {} = {}",
        newtons(at_double),
        percent(edge.worn_extension).text(),
        newtons(edge.pull_newton)
    ))
    .input(
        "force at double length",
        format!(
            "{}, {}",
            newtons(at_double),
            if edge.is_force_measured {
                "measured"
            } else {
                "assumed: hang weights on it to know"
            }
        ),
    )
}

fn elastic_pressure(worked: &Worked, edge: &EdgeElastic) -> Option<Why> {
    let kpa = edge.pressure_kpa?;
    let (width, unit) = (edge.plan.width, worked.unit());
    let kpa_text = plain(kpa, 1, "kPa", "kilopascals").text();
    let pull = plain(edge.pull_newton, 1, "N", "newtons").text();
    let why = Why::of(
        format!("Why does the {} press {kpa_text}?", edge.plan.edge),
        "A stretched band presses on what it goes round: its pull over its width and the radius of the body.",
        "Laplace’s law for a band, as in the published formula for pressure bandages; limits our own, from published comfort pressures",
    )
    .input("pull of the elastic", &pull)
    .input("its width", small_length(width, unit).text());
    if kpa <= 0.0 {
        return Some(why);
    }
    // kPa mm mm = 1e-3 N.
    let radius = Mm::new(1e3 * edge.pull_newton / (kpa * width.get()));
    Some(
        why.sum(format!(
            "{pull} / ({} x {}) = {kpa_text}",
            small_length(width, units::LengthUnit::Mm).text(),
            small_length(radius, units::LengthUnit::Mm).text()
        ))
        .input("radius it goes round", length(radius, unit).text()),
    )
}

fn scrap_pull(worked: &Worked, scrap: &Scrap) -> Option<Why> {
    let (unit, pull_to) = (worked.unit(), scrap.pull_to?);
    let (marks, to) = (length(scrap.marks, unit), length(pull_to, unit));
    let share = percent(pull_to.get() / scrap.marks.get() - 1.0).text();
    let answer = match scrap.kind {
        ScrapKind::Seam | ScrapKind::Edge => "As far as is asked of this stitch: nothing may pop before.",
        ScrapKind::Elastic => "As far as this elastic is stretched in wear where it is stretched most.",
        ScrapKind::Wet => {
            "As far as the cloth is stretched where it is worn tightest: so it is looked through wet."
        }
        ScrapKind::Iron => "An iron is tried on cloth at rest.",
    };
    Some(
        Why::of(
            format!("Why pull the scrap to {}?", to.text()),
            answer,
            "marks 10 cm apart, so that per cent can be read off a rule: our own choice",
        )
        .sum(format!("{} x (1 + {share}) = {}", marks.main, to.text()))
        .input("between the marks, at rest", marks.text())
        .input("stretch", share),
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
