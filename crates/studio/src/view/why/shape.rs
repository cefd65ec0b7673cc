//! Why a number of the design is what it is, and where the finished measurements come from.

use draft::{ParameterKind, Setting};
use units::Mm;

use super::{PRACTICE, Why, source_words};
use crate::document::Worked;
use crate::suit_file::trimmed;
use crate::view::shape::{
    LENGTH_MM, Parameter, amount_in, amount_of, at_path, closure_length, drafting, value_in_force,
};
use crate::view::told::{said, sentence};

pub(super) fn answer(worked: &Worked, kind: &str, which: &str) -> Option<Why> {
    match kind {
        "design" => design(worked, which),
        "allowance" => allowance(worked, which),
        "finished" => finished(worked, which),
        "seam" => seam(worked, which),
        "size" => size(worked, which),
        "support" => support(worked, which),
        _ => None,
    }
}

fn design(worked: &Worked, key: &str) -> Option<Why> {
    if let Some(why) = amount(worked, key).or_else(|| closure(worked, key)) {
        return Some(why);
    }
    let Some(parameter) = Parameter::ALL.into_iter().find(|p| p.key() == key) else {
        return of_style(worked, key);
    };
    let drafting = drafting(worked)?;
    let unit = worked.unit();
    let mm = value_in_force(parameter, &drafting)?;
    let shown = said(Mm::new(mm), unit);
    let label = parameter.label().to_lowercase();
    let is_hers = at_path(&worked.suit.body, parameter.path()).is_some_and(|v| !v.is_null());
    let (low, high) = parameter.range_mm();
    let range = format!("{} to {}", said(Mm::new(low), unit), said(Mm::new(high), unit));
    let why = if is_hers {
        Why::of(format!("Why {shown}?"), "You set it.", "the design of this suit")
    } else {
        Why::of(
            format!("Why {shown}?"),
            "It was not set: it is the usual one for this shape, on this body, read off the draft.",
            match parameter {
                Parameter::StrapWidth | Parameter::CrotchWidth | Parameter::SkirtCover => PRACTICE.to_owned(),
                _ => source_words("own"),
            },
        )
    };
    Some(why.input(label, shown).input("What any body may ask for", range))
}

/// A number the style has for itself.
fn of_style(worked: &Worked, key: &str) -> Option<Why> {
    let design = &worked.parts.as_ref()?.design;
    let parameter = design.style.own(key)?;
    let unit = worked.unit();
    let length = |mm: f64| said(Mm::new(mm), unit);
    let number = |n: f64, unit: &str| format!("{} {unit}", trimmed(n, 2)).trim_end().to_owned();
    let (shown, range) = match (parameter.kind, design.own.get(parameter)) {
        (ParameterKind::Length { low, high, .. }, Setting::Length(mm)) => {
            (said(mm, unit), format!("{} to {}", length(low), length(high)))
        }
        (ParameterKind::Number { low, high, unit, .. }, Setting::Number(n)) => (
            number(n, unit),
            format!("{} to {}", trimmed(low, 2), number(high, unit)),
        ),
        _ => return None,
    };
    let (what, source) = if design.own.is_set(parameter) {
        ("You set it.", "the design of this suit".to_owned())
    } else {
        (
            "It was not set: it is what a beginner starts from in this style.",
            source_words("own"),
        )
    };
    Some(
        Why::of(format!("Why {shown}?"), what, source)
            .input(parameter.name, parameter.says)
            .input("What this style may have", range),
    )
}

/// A correction for a figure, room for a belly, room to grow: what it moved is the draft's own finding.
fn amount(worked: &Worked, key: &str) -> Option<Why> {
    let (path, name, range) = amount_of(key)?;
    let unit = worked.unit();
    let mm = amount_in(&worked.parts.as_ref()?.design, path)?;
    let last = key.rsplit('.').next().unwrap_or(key);
    let code = format!("figure.{last}");
    let found = worked.order.as_ref()?.findings.iter().find(|f| f.code == code);
    let does = found.map_or_else(String::new, |f| sentence(&f.message));
    let mut why = Why::of(
        format!("What do {} do here?", said(mm, unit)),
        if does.is_empty() { "You set it.".to_owned() } else { does },
        "our own rules, drawn and solved on forms, not sewn; the first amounts behind the words are our own too",
    )
    .input(
        format!("{name}, allowed"),
        format!("{} to {}", said(Mm::new(range.0), unit), said(Mm::new(range.1), unit)),
    );
    if let Some(limit) = found.and_then(|f| f.limit.as_ref()) {
        why = why.input("Limit", limit.text.clone());
    }
    Some(why)
}

/// How long a zip or slit is.
fn closure(worked: &Worked, key: &str) -> Option<Why> {
    if key != "closure.length" {
        return None;
    }
    let length = closure_length(&worked.parts.as_ref()?.design)?;
    let unit = worked.unit();
    let is_hers = at_path(&worked.suit.body, "design.closure.length").is_some_and(|v| !v.is_null());
    let (answer, source) = if is_hers {
        ("You set it.", "the design of this suit".to_owned())
    } else {
        (
            "It was not set: it is one that lets most hips through a high back.",
            source_words("own"),
        )
    };
    Some(
        Why::of(format!("Why {}?", said(length, unit)), answer, source)
            .sum(format!(
                "open, the ring it begins at is 2 x {} = {} longer",
                said(length, unit),
                said(length + length, unit)
            ))
            .input(
                "Allowed",
                format!(
                    "{} to {}",
                    said(Mm::new(LENGTH_MM.0), unit),
                    said(Mm::new(LENGTH_MM.1), unit)
                ),
            ),
    )
}

/// What the bust of this wearer needs of this suit.
fn support(worked: &Worked, key: &str) -> Option<Why> {
    let order = worked.order.as_ref()?;
    let need = order.draft.support.iter().find(|n| n.key == key)?;
    Some(Why::of(
        sentence(&need.what),
        sentence(&need.why),
        source_words(need.source),
    ))
}

fn allowance(worked: &Worked, key: &str) -> Option<Why> {
    let a = worked.parts.as_ref()?.design.allowances;
    let (name, mm, what) = match key {
        "seam" => ("Seams", a.seam, "What an overlocker with a 7 mm cut takes."),
        "side_seam" => (
            "Side seams",
            a.side_seam,
            "As the other seams; 15 mm for a first fitting, to let out.",
        ),
        "crotch" => (
            "Crotch seam",
            a.crotch_seam,
            "Narrow, because it lies under the crotch.",
        ),
        "hem" => ("Hems", a.hem, "Turned once, stitched at its edge."),
        _ => return None,
    };
    Some(Why::of(
        format!("Why {} at {}?", said(mm, worked.unit()), name.to_lowercase()),
        what,
        PRACTICE,
    ))
}

fn seam(worked: &Worked, name: &str) -> Option<Why> {
    let order = worked.order.as_ref()?;
    let walk = order.draft.seams.iter().find(|s| s.name == name)?;
    let unit = worked.unit();
    let shown = |mm: f64| said(Mm::new(mm), unit);
    Some(
        Why::of(
            format!("How long is the seam {name}?"),
            "Both edges are walked along their seam lines; what is eased in is taken off the first.",
            "walking mating edges is common practice; the draft refuses a seam that is more than half a millimetre off",
        )
        .sum(format!(
            "{} - {} eased - {} = {:.2} mm left",
            shown(walk.first_mm),
            shown(walk.sewn_ease_mm),
            shown(walk.second_mm),
            walk.error_mm()
        ))
        .input(walk.first.0.replace('_', " "), shown(walk.first_mm))
        .input(walk.second.0.replace('_', " "), shown(walk.second_mm)),
    )
}

fn size(worked: &Worked, which: &str) -> Option<Why> {
    let order = worked.order.as_ref()?;
    let (layer, letter) = which.split_once('.')?;
    let piece = order
        .draft
        .pieces
        .iter()
        .find(|p| p.letter.to_string() == letter)?;
    let cut = piece.cuts.iter().find(|c| c.layer.name() == layer)?;
    let (mut x, mut y) = ((f64::MAX, f64::MIN), (f64::MAX, f64::MIN));
    for p in &piece.whole().cut_line {
        x = (x.0.min(p.x), x.1.max(p.x));
        y = (y.0.min(p.y), y.1.max(p.y));
    }
    let (around, lengthwise) = (Mm::new(x.1 - x.0), Mm::new(y.1 - y.0));
    let unit = worked.unit();
    Some(
        Why::of(
            format!("How large is {} on the cloth?", piece.name),
            "The box around its cut line, unfolded, as the cloth lies on the body.",
            "measured on the draft",
        )
        .input("Around the body", said(around, unit))
        .input("Lengthwise", said(lengthwise, unit))
        .input("The cloth lies", cut.orientation.name()),
    )
}

fn finished(worked: &Worked, name: &str) -> Option<Why> {
    let order = worked.order.as_ref()?;
    let measure = order.draft.finished.iter().find(|f| f.name == name)?;
    let unit = worked.unit();
    let shown = said(Mm::new(measure.value_mm), unit);
    Some(
        Why::of(
            format!("Why {shown}?"),
            "Measured on the seam lines of the draft; the sewn suit lies flat and unstretched when you measure it.",
            "our own tolerance: what careful sewing keeps",
        )
        .input(name, shown)
        .input("Allowed either way", said(Mm::new(measure.tolerance_mm), unit)),
    )
}
