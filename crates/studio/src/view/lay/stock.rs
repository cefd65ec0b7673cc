//! Cloth at hand: flaws marked on it, pieces of it, and whether a lay fits one of them.

use cloth::Layer;
use lay::Answer;
use serde::Serialize;
use serde_json::{Value as Json, json};
use ts_rs::TS;
use units::{LengthUnit, Mm};
use utoipa::ToSchema;

use super::drawn::by;
use crate::laying::Laid;
use crate::laying_kept::{at_hand_of, flaws_of};
use crate::view::length;

/// A flaw marked on a cloth.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct FlawView {
    /// `30 cm from the cut end, 12 cm from the selvedge: 4 x 5 cm`.
    pub words: String,
}

/// A piece of cloth at hand.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct AtHandView {
    /// `150 x 60 cm`.
    pub words: String,
    /// Where it is from; empty when not said.
    pub from: String,
    /// What to write to the suit to lay on it, as JSON.
    #[ts(type = "unknown")]
    #[schema(value_type = Object)]
    pub value: Json,
    /// Whether it is laid on now.
    pub is_chosen: bool,
}

/// A rest that may be kept.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct KeepView {
    /// `58 x 56 cm`.
    pub words: String,
    /// The entry to add to the cloth's pieces at hand.
    #[ts(type = "unknown")]
    #[schema(value_type = Object)]
    pub value: Json,
}

/// Whether it fits what is at hand.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct FitsView {
    /// One sentence.
    pub says: String,
    /// Every piece at hand, in their order.
    pub pieces: Vec<FitAnswer>,
    /// Which changes would make the largest piece do; empty when one fits already.
    pub changes: Vec<FitAnswer>,
}

/// An answer about one piece or one change.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct FitAnswer {
    /// The piece, or the change, in words.
    pub words: String,
    /// Whether it fits.
    pub fits: bool,
    /// What came of it, in a sentence.
    pub says: String,
}

fn cm(mm: f64, unit: LengthUnit) -> String {
    length(Mm::new(mm), unit).text()
}

/// The flaws of a cloth.
pub(super) fn flaws(cloth: &Json, unit: LengthUnit) -> Vec<FlawView> {
    let (all, unread) = flaws_of(cloth);
    let read = all.into_iter().map(|f| FlawView {
        words: format!(
            "{} from the cut end, {} from the selvedge: {}{}",
            cm(f.along_mm, unit),
            cm(f.across_mm, unit),
            by(f.width_mm, f.length_mm, unit),
            if f.is_slight { ", lining may lie on it" } else { "" }
        ),
    });
    let lost = (0..unread).map(|_| FlawView {
        words: "a flaw whose lengths cannot be read; take it out and mark it again".into(),
    });
    read.chain(lost).collect()
}

/// The pieces of a cloth at hand; what cannot be read is shown as it is written.
pub(super) fn at_hand(cloth: &Json, suit: &Json, layer: Layer, unit: LengthUnit) -> Vec<AtHandView> {
    let written = cloth.get("at_hand").and_then(Json::as_array);
    let written = written.map_or(&[][..], Vec::as_slice);
    let on = suit
        .get("lay")
        .and_then(|l| l.get("on"))
        .and_then(|o| o.get(layer.name()));
    at_hand_of(cloth)
        .into_iter()
        .zip(written)
        .map(|(read, value)| match read {
            Some(piece) => AtHandView {
                words: by(piece.width_mm, piece.length_mm, unit),
                from: piece.words,
                value: value.clone(),
                is_chosen: on == Some(value),
            },
            None => AtHandView {
                words: "its width or length cannot be read; take it out and write it again".into(),
                from: String::new(),
                value: value.clone(),
                is_chosen: false,
            },
        })
        .collect()
}

/// What is left of a lay, as entries of the cloth's pieces at hand: two of a folded place.
pub(super) fn rest(laid: &Laid, words: &str, unit: LengthUnit) -> Vec<KeepView> {
    let mm = |mm: f64| format!("{mm:.0} mm");
    let remnants = laid.remnants.iter();
    remnants
        .flat_map(|r| std::iter::repeat_n(r, r.layers as usize))
        .map(|r| KeepView {
            words: by(r.width_mm, r.length_mm, unit),
            value: json!({ "width": mm(r.width_mm), "length": mm(r.length_mm), "words": words }),
        })
        .collect()
}

/// The answers in words.
pub fn fits_view(pieces: &[(String, Answer)], changes: &[Answer], unit: LengthUnit) -> FitsView {
    let says = |a: &Answer| match (&a.refused, a.fits, a.cloth_mm) {
        (Some(why), _, _) => format!("No: {why}."),
        (None, true, Some(mm)) => format!("Yes, it takes {} of it.", cm(mm, unit)),
        (None, true, None) => "Yes.".to_owned(),
        (None, false, Some(mm)) if a.is_certain => format!(
            "No, and no lay could: it would take at least some {}.",
            cm(mm, unit)
        ),
        (None, false, Some(mm)) => format!("None was found; the shortest takes {}.", cm(mm, unit)),
        (None, false, None) => "No.".to_owned(),
    };
    let answer = |words: &str, a: &Answer| FitAnswer {
        words: words.to_owned(),
        fits: a.fits,
        says: says(a),
    };
    let fitting: Vec<&str> = pieces
        .iter()
        .filter(|(_, a)| a.fits)
        .map(|(w, _)| w.as_str())
        .collect();
    FitsView {
        says: match (pieces.len(), fitting.as_slice()) {
            (0, _) => "Nothing of this cloth is at hand. Write down the pieces you have.".into(),
            (_, []) => "It fits none of them.".into(),
            (_, [one]) => format!("It fits {one}."),
            (_, several) => format!("It fits {} of them.", several.len()),
        },
        pieces: pieces.iter().map(|(words, a)| answer(words, a)).collect(),
        changes: changes.iter().map(|a| answer(&a.words, a)).collect(),
    }
}
