//! Section 2, Cloth: the swatches of a suit, each with its test, and which way they lie.

mod elastic;
mod field;
mod pull;
mod swatch;
mod together;
mod verdict;

use cloth::{ClothPlan, Layer, LayerPlan, PairSource};
use draft::LiningCover;
use serde::Serialize;
use ts_rs::TS;
use utoipa::ToSchema;

use super::Around;
use super::told::{capital, note};
use super::{Choice, Field, Head, Named, Note, Quantity, State};
use crate::document::{Paper, Worked, look_of};

pub(super) use pull::{test_of, tested};
pub(super) use swatch::about;
pub(super) use verdict::{finding_of, hold_at};

/// The cloths of a suit.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ClothView {
    /// State, summary, notes.
    pub head: Head,
    /// Shell, lining, mesh and second outer cloth; those the design has no use for are left out unless one is chosen.
    pub layers: Vec<LayerView>,
    /// The verdict in sentences: which way to lay it, whether it holds.
    pub verdict: Vec<String>,
    /// Shell and lining tested as one, around and lengthwise; none when there is no lining.
    pub together: Option<TogetherView>,
    /// The elastic of the edges.
    pub elastic: ElasticView,
}

/// One layer and the cloth chosen for it.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct LayerView {
    /// `shell`, `lining`, `mesh`, `contrast`.
    pub layer: String,
    /// Word shown: `Shell`.
    pub label: String,
    /// Path of the suit its id is written to.
    pub path: String,
    /// Cloths that may be chosen.
    pub choose: Vec<Named>,
    /// The cloth; none when none is chosen.
    pub swatch: Option<SwatchView>,
    /// Whether the design needs it.
    pub is_needed: bool,
    /// What becomes of the pieces of a layer that is not chosen; empty where nothing does.
    pub does_without: String,
}

/// One cloth in the hand.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct SwatchView {
    /// Its id.
    pub id: String,
    /// Its revision.
    pub revision: u64,
    /// Its name.
    pub name: String,
    /// `shell`, `lining` or `mesh`.
    pub role: String,
    /// How it is drawn.
    pub look: LookView,
    /// One line: `Shell. 190 g/m², 150 cm wide, 2.4 m left.`
    pub about: String,
    /// The pull across.
    pub across: PullView,
    /// The pull along.
    pub along: PullView,
    /// Which way it lies on the body, in a sentence; empty before both pulls are known.
    pub lies: String,
    /// Words: direction of print, washed, how it must lie.
    pub choices: Vec<Choice>,
    /// Numbers: width, weight, shrinkage, price, stock.
    pub fields: Vec<Field>,
    /// The wet-transparency test.
    pub wet: WetView,
    /// Notes on this cloth.
    pub notes: Vec<Note>,
}

/// How a swatch is drawn.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct LookView {
    /// Ground colour, `#566874`.
    pub colour: String,
    /// `plain`, `ribs`, `leaf`, `dots`, `mesh`.
    pub weave: String,
    /// Id of her own photo, if there is one.
    pub photo: Option<String>,
}

/// A pull in one direction.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct PullView {
    /// `across` or `along`.
    pub direction: String,
    /// Rest, pulled and back to: lengths she may type.
    pub fields: Vec<Field>,
    /// Stretch: 85 %.
    pub stretch: Option<Quantity>,
    /// Recovery: 96 %.
    pub recovery: Option<Quantity>,
    /// Pulled over rest, for the drawing: 1.85.
    pub drawn: Option<f64>,
    /// Back to over rest, for the drawing.
    pub drawn_back: Option<f64>,
    /// `10 pulled to 18.5, back to 10.3`.
    pub says: String,
    /// How it stands.
    pub state: State,
}

/// Wet transparency at worn stretch.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct WetView {
    /// How it is tested, with the worn stretch to hold it at.
    pub how: String,
    /// `opaque`, `shows`, `sheer`, or empty when not tested.
    pub verdict: String,
    /// The choice among them.
    pub choice: Choice,
}

/// Shell and lining as one.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct TogetherView {
    /// Around.
    pub around: PullView,
    /// Lengthwise.
    pub lengthwise: PullView,
    /// `tested` or `estimated`, in a sentence.
    pub says: String,
}

/// The elastic of a suit's edges.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ElasticView {
    /// Id of the elastic from stock; none when only a kind is chosen.
    pub id: Option<String>,
    /// Elastics in stock.
    pub choose: Vec<Named>,
    /// Kind and latex.
    pub choices: Vec<Choice>,
    /// Width, force at double length, working extension.
    pub fields: Vec<Field>,
    /// One line about it.
    pub about: String,
    /// Notes.
    pub notes: Vec<Note>,
}

/// The section of these papers.
pub(super) fn view(worked: &Worked, around: &Around) -> ClothView {
    let lining = worked.parts.as_ref().map(|p| p.design.lining).unwrap_or_default();
    let is_lined = lining != LiningCover::None;
    let mut layers = vec![layer(worked, around, Layer::Shell, true)];
    if is_lined || worked.lining.is_some() {
        layers.push(layer(worked, around, Layer::Lining, is_lined));
    }
    if worked.mesh.is_some() || is_cut(worked, Layer::Mesh) {
        layers.push(layer(worked, around, Layer::Mesh, false));
    }
    if worked.contrast.is_some() || is_cut(worked, Layer::Contrast) {
        layers.push(layer(worked, around, Layer::Contrast, false));
    }
    let together = together::of(worked, lining);
    ClothView {
        head: Head::of(summary(worked), head_notes(worked, &layers)),
        verdict: verdict::sentences(worked),
        layers,
        together,
        elastic: elastic::of(worked, around),
    }
}

/// Whether a piece of the draft is cut from this layer.
fn is_cut(worked: &Worked, layer: Layer) -> bool {
    let pieces = worked.order.iter().flat_map(|o| &o.draft.pieces);
    pieces.flat_map(|p| &p.cuts).any(|cut| cut.layer == layer)
}

fn layer(worked: &Worked, around: &Around, layer: Layer, is_needed: bool) -> LayerView {
    let name = layer.name();
    // A second outer cloth is an outer cloth: any of them may be it.
    let (role, label) = match layer {
        Layer::Contrast => (Layer::Shell.name(), "Second outer cloth".to_owned()),
        _ => (name, capital(name)),
    };
    let paper = match layer {
        Layer::Contrast => worked.contrast.as_ref(),
        _ => paper_of(worked, layer),
    };
    LayerView {
        layer: name.to_owned(),
        label,
        path: name.to_owned(),
        choose: around
            .cloths
            .iter()
            .filter(|(_, of)| of == role)
            .map(|(named, _)| named.clone())
            .collect(),
        swatch: paper.map(|paper| swatch::of(worked, layer, paper)),
        does_without: match layer {
            Layer::Contrast if is_cut(worked, layer) => {
                "The blocks are cut from the outer cloth until a second one is chosen. Each is drawn for the stretch of its own cloth."
            }
            Layer::Mesh if is_cut(worked, layer) => {
                "The design has pieces of power mesh: choose it, so that they are cut for its stretch."
            }
            _ => "",
        }
        .to_owned(),
        is_needed,
    }
}

/// The cloth chosen for a layer.
pub(super) fn paper_of(worked: &Worked, layer: Layer) -> Option<&Paper> {
    match layer {
        Layer::Shell => worked.shell.as_ref(),
        Layer::Lining => worked.lining.as_ref(),
        Layer::Mesh => worked.mesh.as_ref(),
        // Cut from the shell until a second outer cloth is chosen.
        Layer::Contrast => worked.contrast.as_ref().or(worked.shell.as_ref()),
    }
}

/// A layer as it lies on the body.
pub(super) fn plan_of(plan: &ClothPlan, layer: Layer) -> Option<&LayerPlan> {
    match layer {
        Layer::Shell => Some(&plan.shell),
        Layer::Lining => plan.lining.as_ref(),
        Layer::Mesh => plan.mesh.as_ref(),
        Layer::Contrast => plan.contrast.as_ref().or(Some(&plan.shell)),
    }
}

/// How a swatch of this document is drawn.
pub(super) fn look_view(body: Option<&serde_json::Value>) -> LookView {
    let look = look_of(body);
    LookView {
        colour: look.colour,
        weave: look.weave,
        photo: look.photo,
    }
}

/// `Shell and lining, tested together.`
fn summary(worked: &Worked) -> String {
    if worked.shell.is_none() {
        return "No outer cloth chosen yet.".to_owned();
    }
    let Some(plan) = &worked.cloth else {
        return "The stretch test is not complete.".to_owned();
    };
    let layers = match (&plan.lining, &plan.mesh) {
        (Some(_), Some(_)) => "Shell, lining and mesh",
        (Some(_), None) => "Shell and lining",
        (None, Some(_)) => "Shell and mesh",
        (None, None) => "Shell alone",
    };
    let layers = match plan.contrast {
        Some(_) => format!("{layers}, a second outer cloth"),
        None => layers.to_owned(),
    };
    let how = match plan.pair {
        PairSource::Single => format!("{} round the body", plan.around),
        PairSource::TestedTogether => "tested together".to_owned(),
        PairSource::Estimated => "together by estimate".to_owned(),
    };
    format!("{layers}, {how}.")
}

fn head_notes(worked: &Worked, layers: &[LayerView]) -> Vec<Note> {
    let mut notes = Vec::new();
    for layer in layers {
        match &layer.swatch {
            None if layer.is_needed => {
                let (says, next) = match layer.layer.as_str() {
                    "lining" => (
                        "The design is lined, but no lining is chosen.",
                        "Choose a lining, or say that the suit has none.",
                    ),
                    _ => (
                        "No outer cloth is chosen.",
                        "Choose one, or test a new one: the pattern follows from its stretch.",
                    ),
                };
                notes.push(note(State::Missing, &layer.layer, says, next).at(layer.path.clone()));
            }
            None => {}
            Some(swatch) => notes.extend(
                swatch
                    .notes
                    .iter()
                    .filter(|n| matches!(n.state, State::Stop | State::Doubtful | State::Missing))
                    .cloned(),
            ),
        }
    }
    notes.extend(together::faults(worked));
    notes.extend(verdict::notes(worked, verdict::Of::TheSuit));
    if notes.is_empty() {
        notes.extend(verdict::good(worked));
    }
    notes
}

#[cfg(test)]
mod tests;
