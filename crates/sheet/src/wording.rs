//! The words of the trade as they stand on paper: lengths in both units, stretch with its load, what to cut.
//!
//! **Shapes and units.** Lengths come in mm and leave as text; inches in eighths, as tapes are read.

use cloth::{ClothPlan, Layer, LayerPlan, Load, Orientation};
use draft::{CutCount, EdgeUse, Piece};
use units::{LengthUnit, Mm};

/// The text with spaces that do not break, so that a number stays with its unit.
fn tied(text: &str) -> String {
    text.replace(' ', "\u{A0}")
}

/// Inches in eighths with real fractions: `8¼ in`, `⅜ in`.
pub(crate) fn inches(mm: f64) -> String {
    let text = Mm::new(mm).to_inch_text();
    let fractions = [
        ("1/8", "⅛"),
        ("1/4", "¼"),
        ("3/8", "⅜"),
        ("1/2", "½"),
        ("5/8", "⅝"),
        ("3/4", "¾"),
        ("7/8", "⅞"),
    ];
    for (plain, real) in fractions {
        if text.contains(plain) {
            return tied(&text.replace(&format!(" {plain}"), real).replace(plain, real));
        }
    }
    tied(&text)
}

/// The same length twice, the maker's unit first.
pub(crate) fn both_units(mm: f64, first: LengthUnit) -> (String, String) {
    match first {
        LengthUnit::Mm => (tied(&format!("{mm:.0} mm")), inches(mm)),
        LengthUnit::Cm => (tied(&Mm::new(mm).to_cm_text()), inches(mm)),
        LengthUnit::In => (inches(mm), tied(&Mm::new(mm).to_cm_text())),
    }
}

/// A small length such as an allowance: `7 mm`, `6.5 mm`.
pub(crate) fn small(mm: f64) -> String {
    tied(&if (mm - mm.round()).abs() < 0.05 {
        format!("{mm:.0} mm")
    } else {
        format!("{mm:.1} mm")
    })
}

/// The load of a stretch test.
pub(crate) fn load(load: Load) -> String {
    match load {
        Load::Hand => "pulled by hand".to_owned(),
        Load::NewtonPerCm(n) if (n - n.round()).abs() < 1e-9 => {
            format!("at {}", tied(&format!("{n:.0} N/cm")))
        }
        Load::NewtonPerCm(n) => format!("at {}", tied(&format!("{n:.1} N/cm"))),
    }
}

/// The plan of a layer, if a cloth was chosen for it.
pub(crate) fn layer_plan(cloth: &ClothPlan, layer: Layer) -> Option<&LayerPlan> {
    match layer {
        Layer::Shell => Some(&cloth.shell),
        Layer::Lining => cloth.lining.as_ref(),
        Layer::Mesh => cloth.mesh.as_ref(),
        Layer::Contrast => cloth.contrast.as_ref().or(Some(&cloth.shell)),
    }
}

/// What to cut: `cut 1 shell, 1 lining`, `cut 2 shell, a left and a right`.
pub(crate) fn cut(cuts: &[CutCount]) -> String {
    let parts: Vec<String> = cuts
        .iter()
        .map(|c| {
            let pair = if c.mirrored { " (left and right)" } else { "" };
            format!("{} {}{pair}", c.count, c.layer.name())
        })
        .collect();
    if parts.is_empty() {
        "cut none".to_owned()
    } else {
        format!("cut {}", parts.join(", "))
    }
}

/// The cloths a piece is cut from, by name.
pub(crate) fn cloths(cuts: &[CutCount], cloth: &ClothPlan) -> String {
    let mut names: Vec<&str> = Vec::new();
    for c in cuts {
        let name = layer_plan(cloth, c.layer).map_or("", |p| p.cloth.as_str());
        if !name.is_empty() && !names.contains(&name) {
            names.push(name);
        }
    }
    names.join(", ")
}

/// Stretch of the layers a piece is cut from, with its load: one line a cloth.
pub(crate) fn stretches(cuts: &[CutCount], cloth: &ClothPlan) -> Vec<String> {
    let mut seen = Vec::new();
    let mut lines = Vec::new();
    for c in cuts {
        if seen.contains(&c.layer) {
            continue;
        }
        seen.push(c.layer);
        if let Some(p) = layer_plan(cloth, c.layer) {
            lines.push(format!(
                "{} stretches {} around, {} lengthwise, {}",
                p.layer.name(),
                tied(&p.around.to_string()),
                tied(&p.lengthwise.to_string()),
                load(p.load)
            ));
        }
    }
    lines
}

/// What to say of a piece's layers lying differently; empty when all lie alike.
pub(crate) fn turned(cuts: &[CutCount]) -> Vec<String> {
    let Some(first) = cuts.first() else {
        return Vec::new();
    };
    cuts.iter()
        .filter(|c| c.orientation != first.orientation)
        .map(|c| match c.orientation {
            Orientation::Turned => format!("{}: lay its grain around, square to the arrow", c.layer.name()),
            Orientation::Upright => format!(
                "{}: lay its grain lengthwise, square to the arrow",
                c.layer.name()
            ),
        })
        .collect()
}

/// The word at the grain arrow: whose grain it is, if layers lie differently.
pub(crate) fn grain(cuts: &[CutCount]) -> String {
    match cuts.first() {
        Some(first) if !turned(cuts).is_empty() => format!("grain of the {}", first.layer.name()),
        _ => "grain".to_owned(),
    }
}

/// The words at the stretch arrow, longest first: the greater stretch of the first layer, and its load.
pub(crate) fn stretch(piece: &Piece, is_around: bool, cloth: &ClothPlan) -> Vec<Vec<String>> {
    let plan = piece
        .cuts
        .first()
        .and_then(|c| layer_plan(cloth, c.layer))
        .unwrap_or(&cloth.shell);
    let (way, s) = if is_around {
        ("round the body", plan.around)
    } else {
        ("lengthwise", plan.lengthwise)
    };
    let load = load(plan.load);
    let s = tied(&s.to_string());
    vec![
        vec![format!("greater stretch, {way}, {s} {load}")],
        vec![format!("greater stretch, {way}"), format!("{s} {load}")],
        vec![
            "greater stretch".to_owned(),
            way.to_owned(),
            format!("{s} {load}"),
        ],
        vec![format!("{s}")],
    ]
}

fn joined(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

/// Allowances of a piece: `allowances included: 7 mm at seams, 9 mm at elastic edges`.
///
/// The allowance most seams have is said once for all of them; a seam with another is named.
pub(crate) fn allowances(piece: &Piece) -> String {
    let seams: Vec<f64> = piece
        .edges
        .iter()
        .filter(|e| e.role == EdgeUse::Seam)
        .map(|e| e.allowance_mm)
        .collect();
    let like = |a: f64| seams.iter().filter(|b| (a - **b).abs() < 0.05).count();
    let usual = seams
        .iter()
        .copied()
        .fold(None, |best: Option<f64>, a| match best {
            Some(b) if like(b) >= like(a) => best,
            _ => Some(a),
        });
    let alike = usual.is_none_or(|u| like(u) == seams.len());
    let mut groups: Vec<(f64, Vec<String>)> = Vec::new();
    for edge in &piece.edges {
        let place = match edge.role {
            EdgeUse::Seam if alike => "seams".to_owned(),
            EdgeUse::Seam if usual.is_some_and(|u| (u - edge.allowance_mm).abs() < 0.05) => {
                "other seams".to_owned()
            }
            EdgeUse::Seam => edge.name.replace('_', " "),
            EdgeUse::Open(_) => "elastic edges".to_owned(),
            EdgeUse::Hem => "hem".to_owned(),
            EdgeUse::Dart | EdgeUse::Fold | EdgeUse::Raw => continue,
        };
        match groups
            .iter_mut()
            .find(|(mm, _)| (mm - edge.allowance_mm).abs() < 0.05)
        {
            Some((_, places)) if places.contains(&place) => {}
            Some((_, places)) => places.push(place),
            None => groups.push((edge.allowance_mm, vec![place])),
        }
    }
    let parts: Vec<String> = groups
        .iter()
        .filter(|(mm, _)| *mm > 0.0)
        .map(|(mm, places)| format!("{} at {}", small(*mm), joined(places)))
        .collect();
    if parts.is_empty() {
        "no allowances".to_owned()
    } else {
        format!("allowances included: {}", parts.join(", "))
    }
}

/// The text with its first letter as a capital.
pub(crate) fn sentence(text: &str) -> String {
    let mut chars = text.chars();
    chars
        .next()
        .map_or_else(String::new, |c| c.to_uppercase().chain(chars).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inches_have_real_fractions_close_to_the_whole() {
        assert_eq!(inches(209.0), "8¼\u{A0}in");
        assert_eq!(inches(9.5), "⅜\u{A0}in");
        assert_eq!(inches(101.6), "4\u{A0}in");
    }

    #[test]
    fn the_load_always_goes_with_the_stretch() {
        assert_eq!(load(Load::NewtonPerCm(3.0)), "at 3\u{A0}N/cm");
        assert_eq!(load(Load::Hand), "pulled by hand");
    }
}
