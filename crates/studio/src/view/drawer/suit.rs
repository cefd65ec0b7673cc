//! The suit that is made of a copy, or instead of an adapted pattern: the body of its document, all it needs filled in.

use cloth::Fit;
use draft::{BackDepth, Design, LegHeight, NeckDepth, draft};
use serde_json::{Map, Value as Json, json};
use units::Mm;

use super::copied::copy;
use super::papers::DrawerPapers;
use super::sheet::fit_of;
use super::taken::pattern;
use crate::suit_file::trimmed;
use crate::view::{Note, State};

/// A suit's document of a favourite that was copied, or drafted in place of a bought pattern. Number and version are the
/// caller's.
///
/// # Errors
/// Notes to the maker: what is missing, wrong, or contradicts.
pub fn suit_of_drawer(papers: &DrawerPapers) -> Result<Map<String, Json>, Vec<Note>> {
    let mut suit = Map::new();
    let name = papers.text("name");
    suit.insert("units".into(), json!(papers.units));
    let wearer = papers.wearer.as_ref();
    if let Some(wearer) = wearer {
        suit.insert("wearer".into(), json!(wearer.id));
    }
    if papers.cloth_from("new") == "swatch"
        && let Some(shell) = &papers.new
    {
        suit.insert("shell".into(), json!(shell.id));
    }
    let (title, design, notes) = if papers.is_pattern() {
        (
            "drafted anew",
            redrafted(papers)?,
            format!("Drafted instead of adapting {name}."),
        )
    } else {
        let copied = copy(papers)?;
        if let Some(conflict) = copied.copy.conflict.as_ref().filter(|c| c.left_out.is_none()) {
            let place = conflict.suspects.first().map_or("measures", |s| s.measure.name());
            return Err(vec![crate::view::told::note(
                State::Stop,
                place,
                "The measures contradict each other.",
                "Measure again what the report names.",
            )]);
        }
        (
            "copied",
            found(papers.shapes(), &copied.copy.design),
            format!(
                "Copied from {name}, from its flat measures. Nothing of it has been proved by sewing: sew a toile first."
            ),
        )
    };
    // A lining is a cloth to be chosen on the order: until then there is none, so that it is drafted at once.
    let mut design = design;
    design.entry("lining").or_insert(json!("none"));
    suit.insert("name".into(), json!(format!("{name}, {title}")));
    suit.insert("design".into(), Json::Object(design));
    suit.insert("notes".into(), json!(notes));
    Ok(suit)
}

/// The shapes with what was found of them.
fn found(mut shapes: Map<String, Json>, design: &Design) -> Map<String, Json> {
    let mm = |length: Mm| json!(format!("{} mm", trimmed(length.get(), 1)));
    let share = |share: f64| json!((share * 1e4).round() / 1e4);
    let mut put = |key: &str, value: Json| {
        shapes.insert(key.to_owned(), value);
    };
    put("style", json!(design.style.key()));
    if let Fit::Own(own) = design.fit {
        put("fit_around", share(own.around_share()));
        put("fit_lengthwise", share(own.lengthwise_share()));
    }
    if let LegHeight::Share(leg) = design.leg {
        put("leg_share", share(leg));
    }
    if let Some(NeckDepth::Share(depth)) = design.neck_depth {
        put("neck_depth", share(depth));
    }
    if let Some(BackDepth::Share(depth)) = design.back_depth {
        put("back_depth", share(depth));
    }
    put("strap_width", mm(design.strap_width));
    if let Some(width) = design.crotch_width {
        put("crotch_width", mm(width));
    }
    put("seat", serde_json::to_value(design.seat).unwrap_or(Json::Null));
    if let (Some(skirt), Some(Json::Object(kept))) = (design.skirt, shapes.get_mut("skirt")) {
        kept.insert("cover".into(), mm(skirt.cover));
    }
    shapes
}

/// A beginner's suit with what the paper says of leg and crotch, as far as this body allows it.
fn redrafted(papers: &DrawerPapers) -> Result<Map<String, Json>, Vec<Note>> {
    let (body, cloth, paper) = (papers.body()?, papers.cloth("new")?, pattern(papers)?);
    let fit = fit_of(papers);
    let mut map = Map::new();
    map.insert("style".into(), json!("one-piece"));
    map.insert("fit".into(), json!(fit.key()));
    let mut design = Design {
        fit,
        ..Design::default()
    };
    let can = |design: &Design| draft(&body, &cloth, design).is_ok();
    if let Some(side) = paper.side_seam {
        let tried = Design {
            leg: LegHeight::SideSeam(side),
            ..design.clone()
        };
        if can(&tried) {
            design = tried;
            map.insert("side_seam_length".into(), json!(papers.text("lengths.side_seam")));
        }
    }
    if let Some(width) = paper.crotch_width {
        let tried = Design {
            crotch_width: Some(width),
            ..design.clone()
        };
        if can(&tried) {
            map.insert("crotch_width".into(), json!(papers.text("lengths.crotch_width")));
        }
    }
    Ok(map)
}
