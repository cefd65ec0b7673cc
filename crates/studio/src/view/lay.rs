//! Section 5, Lay: how the pieces lie on each cloth, what to buy for it, and what is left.

mod drawn;
mod rules;
mod stock;

use cloth::{Layer, LayerPlan, Orientation};
use draft::Piece;
use serde::Serialize;
use serde_json::Value as Json;
use ts_rs::TS;
use units::Mm;
use utoipa::ToSchema;

use super::not_yet::not_yet;
use super::{Choice, Field, Frame, Head, Named, Note, Quantity, State, as_sold, length, percent, plain};
use crate::document::{Worked, look_of};
use crate::laying::Laid;
pub(super) use crate::laying_kept::paper_of;
use crate::laying_kept::{Standing, SuitLay, asks_about_print, settings_of};
use crate::order::Order;
pub use drawn::{LaidPiece, LayDrawing, LayMark, RestBox};
pub(crate) use drawn::{by, drawing, laid_piece};
pub use rules::LaidWith;
use rules::{choices, fields, laid_with};
pub(crate) use stock::fits_view;
pub use stock::{AtHandView, CanMakeView, FitsView, FlawView, KeepView};

/// The lays of a suit.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct LayView {
    /// State, summary, notes.
    pub head: Head,
    /// One leading sentence: which way the pieces point.
    pub lead: String,
    /// The cloths.
    pub cloths: Vec<LaidCloth>,
    /// Rules that are chosen: which way tops point, the fold.
    pub choices: Vec<Choice>,
    /// Rules that are lengths: the gap, the margins.
    pub fields: Vec<Field>,
    /// The other suits, which may be laid with this one.
    pub with: Vec<LaidWith>,
}

/// One cloth and its lay.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct LaidCloth {
    /// `shell`.
    pub layer: String,
    /// Name of the cloth.
    pub name: String,
    /// Id of its document; none when nothing is chosen.
    pub document: Option<String>,
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
    /// The lay in force; none when there is none.
    pub lay: Option<LayInForce>,
    /// Why there is none.
    pub not_laid: Option<String>,
    /// Flaws marked on this cloth.
    pub flaws: Vec<FlawView>,
    /// Pieces of this cloth at hand.
    pub at_hand: Vec<AtHandView>,
    /// The piece at hand it is laid on: `150 x 60 cm`; none when it is bought by the length.
    pub on: Option<String>,
}

/// The lay in force of a cloth.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct LayInForce {
    /// `kept`, `old` (kept before something changed, and still good), `spoilt` (no longer good: a quick lay stands in), `quick`.
    pub standing: String,
    /// The same as a sentence.
    pub says: String,
    /// As it is drawn.
    pub drawing: LayDrawing,
    /// From cut end to cut end.
    pub length: Quantity,
    /// Share of the usable cloth that is pieces.
    pub usage: Quantity,
    /// No lay of these pieces by these rules can be shorter.
    pub bound: Quantity,
    /// What to ask for in the shop.
    pub buy: Quantity,
    /// What that is made of, in a sentence.
    pub buy_says: String,
    /// What it costs; empty without a price.
    pub price: String,
    /// Whether it fits the piece it is laid on.
    pub fits: bool,
    /// How many pieces a hand placed.
    pub by_hand: u32,
    /// What is left, as entries of the cloth's pieces at hand.
    pub rest: Vec<KeepView>,
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
pub(super) fn view(worked: &Worked, suits: &[Named]) -> LayView {
    let Some(order) = &worked.order else {
        return LayView {
            head: Head::of("No lay yet.", vec![not_yet(worked, "No lay yet")]),
            lead: String::new(),
            cloths: vec![],
            choices: vec![],
            fields: vec![],
            with: vec![],
        };
    };
    let lays = worked.lays();
    let mut notes = Vec::new();
    let layers = [Layer::Shell, Layer::Contrast, Layer::Lining, Layer::Mesh];
    let cloths: Vec<LaidCloth> = layers
        .into_iter()
        .filter(|layer| order.cut_list.iter().any(|row| row.layer == *layer))
        .map(|layer| {
            let lay = lays.iter().find(|l| l.task.layer == layer);
            laid(worked, order, layer, lay, &mut notes)
        })
        .collect();
    let names: Vec<String> = cloths
        .iter()
        .map(|c| match (&c.lay, &c.at_least) {
            (Some(lay), _) => format!("{} of {}", lay.length.text(), c.name),
            (None, Some(least)) => format!("{} at least {}", c.name, least.text()),
            (None, None) => c.name.clone(),
        })
        .collect();
    LayView {
        head: Head::of(format!("{}.", names.join(", ")), notes),
        lead: lead(worked),
        cloths,
        choices: choices(worked, &lays),
        fields: fields(worked, &lays),
        with: suits.iter().map(|suit| laid_with(worked, &lays, suit)).collect(),
    }
}

fn lead(worked: &Worked) -> String {
    let one_way: Vec<&str> = [&worked.shell, &worked.lining, &worked.mesh, &worked.contrast]
        .into_iter()
        .flatten()
        .filter(|p| text(&p.body, "direction") == "one-way")
        .map(|p| text(&p.body, "name"))
        .collect();
    let fold = settings_of(worked).fold;
    let flat = match fold {
        lay::Fold::Single => "One layer, right side up, nothing pulled: grain arrows along the selvedge.",
        lay::Fold::Half => {
            "Folded lengthwise, right sides together, nothing pulled: grain arrows along the selvedge."
        }
        lay::Fold::Partial { .. } => {
            "Folded over lengthwise as deep as is said, right sides together, one layer beside it, nothing pulled: grain arrows along the \
             selvedge."
        }
    };
    if one_way.is_empty() {
        format!("{flat} Stroke the cloth first: the pieces all hang the same way as on the body.")
    } else {
        format!(
            "{flat} {} has a direction: every top points the same way.",
            one_way.join(" and ")
        )
    }
}

fn laid(
    worked: &Worked,
    order: &Order,
    layer: Layer,
    lay: Option<&SuitLay>,
    notes: &mut Vec<Note>,
) -> LaidCloth {
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
    let in_force = lay.and_then(|l| Some((l, l.laid.as_ref().ok()?)));
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
                "Its width is not known; the lay takes 150 cm.".into(),
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
    let not_laid = lay.and_then(|l| l.laid.as_ref().err());
    if let Some(not_laid) = not_laid {
        let (state, next) = if asks_about_print(not_laid) {
            (State::Missing, "Say whether its print may lie on its side.")
        } else {
            (State::Stop, "")
        };
        note(state, super::sentence(&not_laid.why()), next, None, None);
    }
    if let Some((lay, laid)) = in_force {
        match lay.standing {
            Standing::OldButGood | Standing::Spoilt => note(
                State::Missing,
                "The pieces or the rules changed since this lay was kept.".into(),
                "Pack it again.",
                None,
                None,
            ),
            Standing::Kept | Standing::Quick => {}
        }
        if !laid.lay.fits {
            note(
                State::Stop,
                format!(
                    "The lay takes {}, and the piece it is laid on is shorter.",
                    as_sold(Mm::new(laid.lay.cloth_mm), unit).text()
                ),
                "Pack it closer, ask which change would do, or take another piece.",
                None,
                None,
            );
        }
    }
    let needs = in_force
        .map(|(_, laid)| Mm::new(laid.buying.need_mm))
        .or(least.as_ref().map(|l| l.at_least));
    match (&stock, needs) {
        (Some(Err(written)), _) => note(
            State::Doubtful,
            format!("The stock reads “{written}”, which is no length."),
            "Write it as 2.4 m.",
            Some("stock"),
            None,
        ),
        (Some(Ok(stock)), Some(needs)) if *stock < needs => note(
            State::Missing,
            format!(
                "It takes {}, and {} is in stock.",
                as_sold(needs, unit).text(),
                as_sold(*stock, unit).text()
            ),
            "Buy more, or ask which change would do.",
            Some("stock"),
            Some(why.clone()),
        ),
        _ => {}
    }
    LaidCloth {
        layer: layer.name().to_owned(),
        lies: plan.map(lies).unwrap_or_default(),
        width: plan.and_then(|p| p.width).map(|w| length(w, unit)),
        document: paper.map(|p| p.id.clone()),
        name,
        look: super::LookView {
            colour: look.colour,
            weave: look.weave,
            photo: look.photo,
        },
        pieces,
        at_least: least.map(|l| as_sold(l.at_least, unit).why(why)),
        stock: stock.and_then(Result::ok).map(|s| as_sold(s, unit)),
        lay: in_force.map(|(lay, laid)| lay_in_force(worked, order, lay, laid)),
        not_laid: not_laid.map(|n| super::sentence(&n.why())),
        flaws: paper.map_or_else(Vec::new, |p| stock::flaws(&p.body, unit)),
        at_hand: paper.map_or_else(Vec::new, |p| {
            stock::at_hand(&p.body, &worked.suit.body, layer, unit)
        }),
        on: lay.and_then(|l| {
            let cloth = &l.task.request.cloth;
            let size = by(cloth.width_mm, cloth.length_mm?, unit);
            Some(if cloth.remnant.is_some() {
                format!("an odd piece of {size}, single")
            } else {
                size
            })
        }),
    }
}

/// Whether a layer's greater stretch runs from selvedge to selvedge.
pub(crate) fn stretch_is_across(order: &Order, layer: Layer) -> bool {
    plan_of(order, layer).is_none_or(|p| match p.orientation {
        Orientation::Upright => p.around.ratio() >= p.lengthwise.ratio(),
        Orientation::Turned => p.lengthwise.ratio() > p.around.ratio(),
    })
}

/// A share with one decimal: 0.8123 is `81.2 %`.
fn share(ratio: f64) -> Quantity {
    plain(100.0 * ratio, 1, "%", "per cent")
}

pub(crate) fn lay_in_force(worked: &Worked, order: &Order, lay: &SuitLay, laid: &Laid) -> LayInForce {
    let unit = worked.unit();
    let layer = lay.task.layer;
    let by_hand: &[(usize, u32)] = match lay.standing {
        Standing::Kept | Standing::OldButGood => &lay.by_hand,
        Standing::Spoilt | Standing::Quick => &[],
    };
    let (standing, says) = match lay.standing {
        Standing::Kept => ("kept", "Kept. Paper and shopping list go by it."),
        Standing::OldButGood => (
            "old",
            "Kept before something changed. It is still good to cut by; packed again it may be shorter.",
        ),
        Standing::Spoilt => (
            "spoilt",
            "What was kept no longer lies well, so this is a quick lay. Pack it again: it begins from where the pieces lay.",
        ),
        Standing::Quick => (
            "quick",
            "A quick lay. Pack it closer to save cloth, or move pieces by hand.",
        ),
    };
    let cloth_mm = laid.lay.cloth_mm;
    let least_mm = laid.lay.bound.length_mm + 2.0 * laid.task.request.cloth.end_allowance_mm;
    let parts: Vec<String> = laid
        .buying
        .parts
        .iter()
        .map(|p| format!("{} {}", p.why, length(Mm::new(p.mm), unit).text()))
        .collect();
    let words = format!("left of {}", text(&worked.suit.body, "name"));
    LayInForce {
        standing: standing.to_owned(),
        says: says.to_owned(),
        drawing: drawing(laid, stretch_is_across(order, layer), by_hand, unit),
        length: length(Mm::new(cloth_mm), unit),
        usage: share(laid.lay.usage),
        bound: length(Mm::new(least_mm), unit),
        buy: as_sold(Mm::new(laid.buying.buy_mm), unit),
        buy_says: format!(
            "{}, up to the next {}.{}",
            super::sentence(&parts.join(", ")).trim_end_matches('.'),
            laid.buying.step,
            match laid.task.request.garments.len() {
                0 | 1 => String::new(),
                suits => format!(
                    " That is for {suits} suits; this one’s share by area is {} %.",
                    percent(laid.share()).main
                ),
            }
        ),
        price: laid.buying.price.map_or_else(String::new, |p| format!("{p:.2}")),
        fits: laid.lay.fits,
        by_hand: by_hand.len() as u32,
        rest: stock::rest(laid, &words, unit),
    }
}

/// A lay on its way, as a running job shows it.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct LayNow {
    /// Layer.
    pub layer: String,
    /// As it is drawn.
    pub drawing: LayDrawing,
    /// From cut end to cut end.
    pub length: Quantity,
    /// Share of the usable cloth that is pieces.
    pub usage: Quantity,
    /// No lay can be shorter.
    pub bound: Quantity,
}

/// A lay on its way.
pub(crate) fn lay_now(
    laid: &Laid,
    is_across: bool,
    by_hand: &[(usize, u32)],
    unit: units::LengthUnit,
) -> LayNow {
    let least_mm = laid.lay.bound.length_mm + 2.0 * laid.task.request.cloth.end_allowance_mm;
    LayNow {
        layer: laid.task.layer.name().to_owned(),
        drawing: drawing(laid, is_across, by_hand, unit),
        length: length(Mm::new(laid.lay.cloth_mm), unit),
        usage: share(laid.lay.usage),
        bound: length(Mm::new(least_mm), unit),
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
pub(crate) fn stock_of(body: &Json) -> Option<Result<Mm, String>> {
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
