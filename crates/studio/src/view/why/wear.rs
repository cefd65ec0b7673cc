//! Why a level is worn so far stretched, why it presses, why an opening passes; and the reason of every finding.

use cloth::RESERVE_SHARE;
use fit::LEAST_HOLD;
use units::Finding;

use super::{Why, source_words};
use crate::document::Worked;
use crate::view::told::{said, sentence};
use crate::view::wear::{dimension_of, level_key};

pub(super) fn answer(worked: &Worked, kind: &str, which: &str) -> Option<Why> {
    match kind {
        "worn" => worn(worked, which),
        "cut" => cut(worked, which),
        "pressure" => pressure(worked, which),
        "way_in" => way_in(worked, which),
        "rail" => rail(worked, which),
        "finding" => finding(worked, which),
        _ => None,
    }
}

fn worn(worked: &Worked, level: &str) -> Option<Why> {
    let order = worked.order.as_ref()?;
    let rung = order.fit.ladder.iter().find(|r| level_key(r.level) == level)?;
    let unit = worked.unit();
    let name = rung.level.name();
    let mut why = Why::of(
        format!("Why {:.0} % at the {name}?", rung.worn * 100.0),
        "The suit is cut smaller than the body, so it stretches when it is worn.",
        "worn stretch = girth / cut width - 1; the share a fit uses is our own rule, held against trials on paper only",
    )
    .sum(format!(
        "{} / {} - 1 = {:.1} %",
        said(rung.body, unit),
        said(rung.pattern, unit),
        rung.worn * 100.0
    ))
    .input(format!("Girth at the {name}"), said(rung.body, unit))
    .input("Cut width all round", said(rung.pattern, unit))
    .input("Stretch around, layers together", format!("{:.0} %", order.cloth.around.percent()));
    for layer in &rung.layers {
        why = why.input(
            format!("Share used, {}", layer.layer.name()),
            format!("{:.0} %", layer.share_used * 100.0),
        );
    }
    Some(why)
}

fn cut(worked: &Worked, level: &str) -> Option<Why> {
    let order = worked.order.as_ref()?;
    let rung = order.fit.ladder.iter().find(|r| level_key(r.level) == level)?;
    let width = order.draft.levels.iter().find(|l| level_key(l.level) == level)?;
    let unit = worked.unit();
    let name = rung.level.name();
    let taken = match dimension_of(rung.level) {
        Some(d) if !order.body.is_taken(d) => "estimated",
        _ => "taken",
    };
    Some(
        Why::of(
            format!("Why is it cut {} wide at the {name}?", said(rung.pattern, unit)),
            "The girth is divided by one plus the stretch it is meant to be worn at, then the side lines are drawn smooth \
             through all levels.",
            "our own rule: the fit's share of the stretch, at most 45 % of it",
        )
        .sum(format!(
            "{} / (1 + {:.3}) = {} meant",
            said(rung.body, unit),
            width.meant,
            said(rung.body * (1.0 / (1.0 + width.meant)), unit)
        ))
        .input(format!("Girth, {taken}"), said(rung.body, unit))
        .input("Worn stretch meant", format!("{:.1} %", width.meant * 100.0))
        .input("Worn stretch drawn", format!("{:.1} %", rung.worn * 100.0))
        .input("Fit", worked.parts.as_ref()?.design.fit.key()),
    )
}

fn pressure(worked: &Worked, level: &str) -> Option<Why> {
    let order = worked.order.as_ref()?;
    let rung = order.fit.ladder.iter().find(|r| level_key(r.level) == level)?;
    let p = rung.pressure?;
    let radius_mm = rung.body.get() / std::f64::consts::TAU;
    let unit = worked.unit();
    let why = Why::of(
        format!("Why {:.1} kPa at the {}?", p.kpa, rung.level.name()),
        "A stretched band presses on what it goes round: its pull over the radius of the body.",
        "Laplace's law for a thin band; that it fits knits on cylinders: Teyeme et al., Materials 14(16), 2021, 4461. Its \
         error on a body: own solves",
    )
    .sum(format!(
        "{:.0} N/m / {:.3} m = {:.2} kPa",
        p.kpa * radius_mm,
        radius_mm / 1000.0,
        p.kpa
    ))
    .input("Pull around, of one metre of worn cloth", format!("{:.0} N", p.kpa * radius_mm))
    .input("Radius of the level, girth / 2π", said(units::Mm::new(radius_mm), unit))
    .input("Nine in ten lie between", format!("{:.1} and {:.1} kPa", p.low_kpa, p.high_kpa));
    Some(if p.is_relative {
        why.input("Force of the cloth", "assumed, not weighed")
    } else {
        why.input("Force of the cloth", "weighed")
    })
}

fn way_in(worked: &Worked, opening: &str) -> Option<Why> {
    let order = worked.order.as_ref()?;
    let way = order.fit.way_in.iter().find(|w| w.opening == opening)?;
    let unit = worked.unit();
    let mut why = Why::of(
        format!("Does the {opening} pass?"),
        "The opening must stretch over the widest part on its way; its share is that need over what it can give.",
        "that every opening must pass the widest part is common practice; the limits are our own",
    )
    .sum(format!(
        "{} / {} - 1 = {:.0} % needed; {:.0} % / {:.0} % = {:.2}",
        said(way.passes, unit),
        said(way.rest, unit),
        way.needed * 100.0,
        way.needed * 100.0,
        way.cloth_stretch * 100.0,
        way.cloth_share
    ))
    .input("Must pass", said(way.passes, unit))
    .input("Opening at rest", said(way.rest, unit))
    .input("Stretch of the cloth along it", format!("{:.0} %", way.cloth_stretch * 100.0))
    .input("Share, cloth", format!("{:.2}", way.cloth_share));
    if let Some(share) = way.elastic_share {
        why = why.input("Share, elastic", format!("{share:.2}"));
    }
    if let Some(share) = way.seam_share {
        why = why.input("Share, stitch of the edge", format!("{share:.2}"));
    }
    Some(why)
}

fn rail(worked: &Worked, which: &str) -> Option<Why> {
    let around = worked.cloth.as_ref()?.around;
    match which {
        "hold" => Some(
            Why::of(
                "Why does 3 % hold?",
                "A suit worn less stretched than this slides on wet skin at waist and under-bust.",
                source_words("own"),
            )
            .sum(format!(
                "{:.0} % / {:.0} % = {:.2} of the stretch",
                LEAST_HOLD * 100.0,
                around.percent(),
                LEAST_HOLD / around.ratio().max(cloth::LEAST_STRETCH)
            ))
            .input("Stretch around, layers together", format!("{:.0} %", around.percent())),
        ),
        "reserve" => Some(
            Why::of(
                format!("Why {:.0} %?", RESERVE_SHARE * 100.0),
                "With no more of its stretch in use a cloth keeps over half for reaching, bending and getting in.",
                "our own rule; back skin lengthens 20 to 35 % in reaching (Ashizawa et al., abstract)",
            )
            .input("Share of a layer's stretch", format!("{RESERVE_SHARE:.2}")),
        ),
        _ => None,
    }
}

/// `code.place`; the code has a dot of its own.
fn finding(worked: &Worked, which: &str) -> Option<Why> {
    let order = worked.order.as_ref()?;
    let found = order
        .findings
        .iter()
        .find(|f| which == format!("{}.{}", f.code, f.place))?;
    Some(of_finding(found))
}

fn of_finding(found: &Finding) -> Why {
    let mut why = Why::of(
        format!("Why the note on {}?", found.place),
        sentence(&found.message),
        found.limit.as_ref().map_or_else(
            || "a caution, without a limit".to_owned(),
            |l| source_words(l.source),
        ),
    );
    if let Some(value) = found.value {
        why = why.input("Found", crate::suit_file::trimmed(value, 2));
    }
    if let Some(limit) = &found.limit {
        why = why.input("Limit", limit.text.clone());
    }
    if !found.remedy.is_empty() {
        why = why.input("What helps", sentence(&found.remedy));
    }
    why
}
