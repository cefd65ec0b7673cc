//! Cloth at hand: flaws marked on it, pieces of it, and which of all cloths a lay fits.

use cloth::Layer;
use serde::Serialize;
use serde_json::{Value as Json, json};
use ts_rs::TS;
use units::{LengthUnit, Mm};
use utoipa::ToSchema;

use super::drawn::by;
use crate::at_hand::{CanMake, ClothAsked, Verdict, size_of};
use crate::document::{Paper, Worked};
use crate::laying::Laid;
use crate::laying_kept::{at_hand_of, flaws_of, paper_of, pieces_of_cloth};
use crate::view::{Set, State, length};

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

/// Which of the maker's cloths can make it.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct FitsView {
    /// One sentence.
    pub says: String,
    /// Every piece of every cloth of the right use, the suit's own cloth first.
    pub rows: Vec<CanMakeView>,
}

/// One piece of one cloth.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct CanMakeView {
    /// Name of the cloth.
    pub cloth: String,
    /// `150 x 60 cm`; empty where nothing is written of it.
    pub piece: String,
    /// Where it is from; empty when not said.
    pub from: String,
    /// Whether it will do.
    pub state: State,
    /// The same in a word: `enough`, `not enough`, `not compared`.
    pub word: String,
    /// What came of it.
    pub says: String,
    /// Which single change would make it do; empty when none is needed or known.
    pub change: String,
    /// What is to be known besides: that the suit is drafted anew for it, and what stops in it. Empty for nothing.
    pub besides: String,
    /// What to write to lay on it; empty where it cannot be laid on.
    pub choose: Vec<Set>,
    /// Whether it is laid on now.
    pub is_chosen: bool,
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
                words: size_of(&piece, unit),
                from: piece.words,
                value: value.clone(),
                is_chosen: on == Some(value),
            },
            None => AtHandView {
                words: "its width, length or corners cannot be read; take it out and write it again".into(),
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

/// The answers, for the page.
pub(crate) fn fits_view(
    worked: &Worked,
    layer: Layer,
    papers: &[Paper],
    cloths: &[ClothAsked],
    answers: &[CanMake],
) -> FitsView {
    let unit = worked.unit();
    let suit = &worked.suit;
    let own = paper_of(worked, layer).map(|p| p.id.as_str());
    let on = suit
        .body
        .get("lay")
        .and_then(|l| l.get("on"))
        .and_then(|o| o.get(layer.name()));
    let rows = answers.iter().filter_map(|answer| {
        let (paper, cloth) = papers.get(answer.cloth).zip(cloths.get(answer.cloth))?;
        let pieces = pieces_of_cloth(&paper.body);
        let at = answer.piece.and_then(|p| pieces.get(p));
        let piece = at.and_then(|(piece, _)| piece.as_ref());
        let value = at.map(|(_, value)| value).filter(|v| !v.is_null());
        let is_own = own == Some(paper.id.as_str());
        let set = |path: String, value: Json| Set {
            document: suit.id.clone(),
            path,
            value,
        };
        let mut choose = Vec::new();
        if let (Some(value), Some(_), Some(_)) = (value, piece, &answer.laid) {
            if !is_own {
                choose.push(set(layer.name().to_owned(), json!(paper.id)));
            }
            choose.push(set(format!("lay.on.{}", layer.name()), value.clone()));
        }
        let (state, word) = match (answer.verdict, answer.stops.is_empty()) {
            (Verdict::Enough, true) => (State::Good, "enough"),
            (Verdict::Enough, false) => (State::Doubtful, "enough"),
            (Verdict::Short, _) => (State::Stop, "not enough"),
            (Verdict::Apart, _) => (State::Missing, "not compared"),
        };
        let anew = if answer.is_redrafted {
            "Counted with the suit drafted anew for its stretch."
        } else {
            ""
        };
        let besides = [anew, answer.stops.as_str()]
            .into_iter()
            .filter(|s| !s.is_empty());
        Some(CanMakeView {
            cloth: cloth.name.clone(),
            piece: piece.map_or_else(String::new, |p| size_of(p, unit)),
            from: piece.map_or_else(String::new, |p| p.words.clone()),
            state,
            word: word.to_owned(),
            says: answer.says.clone(),
            change: match answer.changes.as_slice() {
                [] => String::new(),
                changes => format!("It would do if you {}.", changes.join(", or ")),
            },
            besides: besides.collect::<Vec<_>>().join(" "),
            choose,
            is_chosen: is_own && value.is_some() && on == value,
        })
    });
    let rows: Vec<CanMakeView> = rows.collect();
    let enough = answers.iter().filter(|a| a.verdict == Verdict::Enough).count();
    FitsView {
        // The question is of this suit, also where others are laid with it.
        says: alone(worked)
            + &match (rows.len(), enough) {
                (0, _) => "No cloth of this use is written down.".into(),
                (_, 0) => "None of them is enough as it is.".into(),
                (1, _) => "It is enough.".into(),
                (all, 1) => format!("One of {all} is enough."),
                (all, n) => format!("{n} of {all} are enough."),
            },
        rows,
    }
}

fn alone(worked: &Worked) -> String {
    if worked.beside.is_empty() {
        String::new()
    } else {
        "Of this suit alone: ".to_owned()
    }
}
