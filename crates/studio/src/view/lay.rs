//! Section 5, Lay: what is cut from which cloth, and the least length that can hold it.

use cloth::{Layer, LayerPlan, Orientation};
use draft::Piece;
use serde::Serialize;
use serde_json::Value as Json;
use ts_rs::TS;
use units::Mm;
use utoipa::ToSchema;

use super::not_yet::not_yet;
use super::{Frame, Head, Note, Quantity, State, as_sold, length, percent};
use crate::document::{Paper, Worked, look_of};
use crate::order::Order;

/// What is cut from each cloth.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct LayView {
    /// State, summary, notes.
    pub head: Head,
    /// One leading sentence: which way the pieces point.
    pub lead: String,
    /// The cloths.
    pub cloths: Vec<LaidCloth>,
}

/// One cloth and its pieces.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct LaidCloth {
    /// `shell`.
    pub layer: String,
    /// Name of the cloth.
    pub name: String,
    /// Ground colour and weave, for the drawing.
    pub look: super::LookView,
    /// Usable width; none when unknown.
    pub width: Option<Quantity>,
    /// Which way it lies, in a sentence.
    pub lies: String,
    /// Pieces to cut.
    pub pieces: Vec<CutView>,
    /// No length shorter than this can hold them: the greater of the longest piece and area over width.
    pub at_least: Option<Quantity>,
    /// Stock, if she wrote it.
    pub stock: Option<Quantity>,
}

/// One line of the cut list.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct CutView {
    /// Letter.
    pub letter: String,
    /// Name.
    pub piece: String,
    /// `2, a left and a right`.
    pub count: String,
    /// Outline as it lies on the cloth, SVG path, along the selvedge to the right.
    pub outline: String,
    /// Box around it.
    pub frame: Frame,
    /// Length along the selvedge and width across.
    pub size: [Quantity; 2],
}

/// The section of these papers.
pub(super) fn view(worked: &Worked) -> LayView {
    let Some(order) = &worked.order else {
        return LayView {
            head: Head::of("No cut list yet.", vec![not_yet(worked, "No cut list yet")]),
            lead: String::new(),
            cloths: vec![],
        };
    };
    let mut notes = Vec::new();
    let layers = [Layer::Shell, Layer::Contrast, Layer::Lining, Layer::Mesh];
    let cloths: Vec<LaidCloth> = layers
        .into_iter()
        .filter(|layer| order.cut_list.iter().any(|row| row.layer == *layer))
        .map(|layer| laid(worked, order, layer, &mut notes))
        .collect();
    let names: Vec<String> = cloths
        .iter()
        .map(|c| match &c.at_least {
            Some(least) => format!("{} at least {}", c.name, least.text()),
            None => c.name.clone(),
        })
        .collect();
    let summary = format!("{}. Place the pieces by hand.", names.join(", "));
    LayView {
        head: Head::of(summary, notes),
        lead: lead(worked),
        cloths,
    }
}

fn lead(worked: &Worked) -> String {
    let one_way: Vec<&str> = [&worked.shell, &worked.lining, &worked.mesh, &worked.contrast]
        .into_iter()
        .flatten()
        .filter(|p| text(&p.body, "direction") == "one-way")
        .map(|p| text(&p.body, "name"))
        .collect();
    let flat = "One layer, right side up, nothing pulled: grain arrows along the selvedge.";
    if one_way.is_empty() {
        format!("{flat} Stroke the cloth first: if it feels one way, let every top point the same way.")
    } else {
        format!(
            "{flat} {} has a direction: every top points the same way.",
            one_way.join(" and ")
        )
    }
}

fn laid(worked: &Worked, order: &Order, layer: Layer, notes: &mut Vec<Note>) -> LaidCloth {
    let unit = worked.unit();
    let paper = paper_of(worked, layer);
    let plan = plan_of(order, layer);
    let name = plan.map_or_else(|| format!("no {} chosen", layer.name()), |p| p.cloth.clone());
    let sizes = Sizes::of(order, layer);
    let pieces = sizes
        .pieces
        .iter()
        .map(|cut| CutView {
            letter: cut.piece.letter.to_string(),
            piece: cut.piece.name.clone(),
            count: count_words(cut.count, cut.mirrored),
            outline: super::paper::path(cut.points.iter().copied()),
            frame: Frame {
                x: 0.0,
                y: 0.0,
                width: cut.along,
                height: cut.across,
            },
            size: [
                length(Mm::new(cut.along), unit).why(format!("size.{}.{}", layer.name(), cut.piece.letter)),
                length(Mm::new(cut.across), unit).why(format!("size.{}.{}", layer.name(), cut.piece.letter)),
            ],
        })
        .collect();
    let look = look_of(paper.map(|p| &p.body));
    let least = least(order, layer);
    let stock = paper.and_then(|p| stock_of(&p.body));
    let mut note = |state, says: String, next: &str, field: Option<&str>, why: Option<String>| {
        notes.push(Note {
            state,
            place: name.clone(),
            says,
            next: next.to_owned(),
            field: field.map(str::to_owned),
            why,
            try_this: None,
        });
    };
    let why = format!("lay.least.{}", layer.name());
    match plan {
        None => note(
            State::Missing,
            format!("Pieces are cut from a {}, but none is chosen.", layer.name()),
            "Choose one.",
            Some(layer.name()),
            None,
        ),
        Some(plan) => match plan.width {
            None => note(
                State::Missing,
                "Its width is not known, so no length can be told.".into(),
                "Measure it between the selvedges.",
                Some("width"),
                None,
            ),
            Some(width) => {
                for cut in sizes.pieces.iter().filter(|c| c.across > width.get()) {
                    note(
                        State::Stop,
                        format!(
                            "{} is {} across the cloth, and the cloth is only {} wide.",
                            cut.piece.name,
                            length(Mm::new(cut.across), unit).text(),
                            length(width, unit).text()
                        ),
                        "Take a wider cloth, or lay it the other way if its stretch allows.",
                        Some("width"),
                        None,
                    );
                }
            }
        },
    }
    match (&stock, least.as_ref()) {
        (Some(Err(written)), _) => note(
            State::Doubtful,
            format!("The stock reads “{written}”, which is no length."),
            "Write it as 2.4 m.",
            Some("stock"),
            None,
        ),
        (Some(Ok(stock)), Some(least)) if *stock < least.at_least => note(
            State::Missing,
            format!(
                "No lay can be shorter than {}, and {} is in stock.",
                as_sold(least.at_least, unit).text(),
                as_sold(*stock, unit).text()
            ),
            "Buy more; a real lay needs more than the least.",
            Some("stock"),
            Some(why.clone()),
        ),
        _ => {}
    }
    LaidCloth {
        layer: layer.name().to_owned(),
        lies: plan.map(lies).unwrap_or_default(),
        width: plan.and_then(|p| p.width).map(|w| length(w, unit)),
        name,
        look: super::LookView {
            colour: look.colour,
            weave: look.weave,
            photo: look.photo,
        },
        pieces,
        at_least: least.map(|l| as_sold(l.at_least, unit).why(why)),
        stock: stock.and_then(Result::ok).map(|s| as_sold(s, unit)),
    }
}

fn lies(plan: &LayerPlan) -> String {
    let (way, other, grain) = match plan.orientation {
        Orientation::Upright => ("width", "selvedge", "Grain arrows stand upright on the pieces"),
        Orientation::Turned => ("selvedge", "width", "Grain arrows lie across the pieces"),
    };
    format!(
        "Lay it with the {way} round the body: it stretches {} % that way, {} % with the {other}. {grain}.",
        percent(plan.around.ratio()).main,
        percent(plan.lengthwise.ratio()).main
    )
}

fn count_words(count: u32, mirrored: bool) -> String {
    match (count, mirrored) {
        (2, true) => "2, a left and a right".to_owned(),
        (n, true) => format!("{n}, half of them mirrored"),
        (n, false) => n.to_string(),
    }
}

/// The document of a layer's cloth.
pub(super) fn paper_of(worked: &Worked, layer: Layer) -> Option<&Paper> {
    match layer {
        Layer::Shell => worked.shell.as_ref(),
        Layer::Lining => worked.lining.as_ref(),
        Layer::Mesh => worked.mesh.as_ref(),
        // Cut from the shell until a second outer cloth is chosen.
        Layer::Contrast => worked.contrast.as_ref().or(worked.shell.as_ref()),
    }
}

/// The plan of a layer, if a cloth is chosen for it.
pub(super) fn plan_of(order: &Order, layer: Layer) -> Option<&LayerPlan> {
    match layer {
        Layer::Shell => Some(&order.cloth.shell),
        Layer::Lining => order.cloth.lining.as_ref(),
        Layer::Mesh => order.cloth.mesh.as_ref(),
        Layer::Contrast => order.cloth.contrast.as_ref().or(Some(&order.cloth.shell)),
    }
}

fn text<'a>(body: &'a Json, key: &str) -> &'a str {
    body.get(key).and_then(Json::as_str).unwrap_or_default()
}

/// The stock of a cloth or elastic: none when it is not written, the text itself when it is no length.
pub(super) fn stock_of(body: &Json) -> Option<Result<Mm, String>> {
    let written = match body.get("stock")? {
        Json::String(text) if !text.trim().is_empty() => text.trim().to_owned(),
        Json::Number(n) => n.to_string(),
        _ => return None,
    };
    let metres = written
        .strip_suffix('m')
        .filter(|rest| !rest.ends_with(['m', 'c']))
        .map(|rest| rest.trim().parse::<f64>());
    let length = match metres {
        Some(Ok(metres)) => Mm::checked(metres * 1000.0),
        Some(Err(_)) => None,
        None => units::parse_length(&written, units::LengthUnit::Cm).ok(),
    };
    Some(length.filter(|l| l.get() >= 0.0).ok_or(written))
}

/// A piece as it lies on its cloth: along the selvedge to the right, y down, corner at the origin.
pub(super) struct Cut<'a> {
    pub(super) piece: &'a Piece,
    pub(super) count: u32,
    mirrored: bool,
    points: Vec<(f64, f64)>,
    /// Extent along the selvedge, mm.
    pub(super) along: f64,
    /// Extent across, mm.
    across: f64,
    /// Area of one, square mm.
    pub(super) area: f64,
}

/// The pieces of a layer with their sizes on the cloth.
pub(super) struct Sizes<'a> {
    pub(super) pieces: Vec<Cut<'a>>,
}

impl<'a> Sizes<'a> {
    pub(super) fn of(order: &'a Order, layer: Layer) -> Sizes<'a> {
        let pieces = order
            .draft
            .pieces
            .iter()
            .flat_map(|piece| piece.cuts.iter().map(move |cut| (piece, cut)))
            .filter(|(_, cut)| cut.layer == layer)
            .map(|(piece, cut)| {
                // Turned, never mirrored: the right side of the cloth stays up.
                let whole = piece.whole();
                let turned = whole.cut_line.iter().map(|p| match cut.orientation {
                    Orientation::Upright => (p.y, p.x),
                    Orientation::Turned => (p.x, -p.y),
                });
                let mut points: Vec<(f64, f64)> = turned.collect();
                let (mut low, mut high) = ((f64::MAX, f64::MAX), (f64::MIN, f64::MIN));
                for (x, y) in &points {
                    low = (low.0.min(*x), low.1.min(*y));
                    high = (high.0.max(*x), high.1.max(*y));
                }
                for point in &mut points {
                    *point = (point.0 - low.0, point.1 - low.1);
                }
                Cut {
                    piece,
                    count: cut.count,
                    mirrored: cut.mirrored,
                    along: high.0 - low.0,
                    across: high.1 - low.1,
                    area: area(&points),
                    points,
                }
            })
            .collect();
        Sizes { pieces }
    }
}

/// What no lay of a layer can be shorter than.
pub(super) struct Least {
    pub(super) width: Mm,
    pub(super) longest: Mm,
    /// Area of all pieces, square mm.
    pub(super) area: f64,
    pub(super) at_least: Mm,
}

/// The least length of a layer; none without a cloth, a width or pieces.
pub(super) fn least(order: &Order, layer: Layer) -> Option<Least> {
    let width = plan_of(order, layer)?.width.filter(|w| w.get() > 0.0)?;
    let sizes = Sizes::of(order, layer);
    let longest = sizes.pieces.iter().map(|c| c.along).fold(0.0, f64::max);
    let area: f64 = sizes.pieces.iter().map(|c| c.area * f64::from(c.count)).sum();
    (!sizes.pieces.is_empty()).then(|| Least {
        width,
        longest: Mm::new(longest),
        area,
        at_least: Mm::new(longest.max(area / width.get())),
    })
}

fn area(points: &[(f64, f64)]) -> f64 {
    let next = points.iter().cycle().skip(1);
    let twice: f64 = points.iter().zip(next).map(|(a, b)| a.0 * b.1 - b.0 * a.1).sum();
    0.5 * twice.abs()
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn stock_is_read_as_it_is_spoken_of() {
        let of = |text: &str| stock_of(&json!({ "stock": text }));
        assert_eq!(of("2.4 m").unwrap().unwrap().get(), 2400.0);
        assert_eq!(of("2.4m").unwrap().unwrap().get(), 2400.0);
        assert_eq!(of("140 cm").unwrap().unwrap().get(), 1400.0);
        assert_eq!(of("800 mm").unwrap().unwrap().get(), 800.0);
        assert_eq!(of("36 in").unwrap().unwrap().get(), 914.4);
        assert_eq!(of("plenty").unwrap().unwrap_err(), "plenty");
        assert!(of("-1 m").unwrap().is_err());
        assert!(of(" ").is_none() && stock_of(&json!({})).is_none());
    }

    #[test]
    fn an_area_is_that_of_the_polygon_whichever_way_it_runs() {
        let mut l = vec![
            (0.0, 0.0),
            (3.0, 0.0),
            (3.0, 1.0),
            (1.0, 1.0),
            (1.0, 4.0),
            (0.0, 4.0),
        ];
        assert_eq!(area(&l), 6.0);
        l.reverse();
        assert_eq!(area(&l), 6.0);
    }
}
