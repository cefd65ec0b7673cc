//! Section 1, Wearer: the measuring protocol, one dimension at a time, and what is doubtful of them.

mod choices;
mod dimensions;
mod protocol;
mod sided;

use body::{Body, BodyForm, Dimension};
use serde::Serialize;
use ts_rs::TS;
use units::LengthUnit;
use utoipa::ToSchema;

use super::Around;
use super::told::{capital, count, note, sentence, text_at};
use super::{Choice, Field, Head, Named, Note, Quantity, State};
use crate::document::{Linked, Paper, Worked, work};
use crate::version::fingerprint;

pub(super) use dimensions::short_name;
pub use protocol::is_minor;

/// The wearer of a suit.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct WearerView {
    /// State, summary, notes.
    pub head: Head,
    /// Id of the wearer; none when nobody is chosen yet.
    pub id: Option<String>,
    /// Whom she may choose.
    pub choose: Vec<Named>,
    /// Her name.
    pub name: String,
    /// Age in years as typed; empty when not said.
    pub age: String,
    /// Body mass in kg as typed.
    pub mass: String,
    /// Woman, man or child; where the waist was taken; how the front; which to trust.
    pub choices: Vec<Choice>,
    /// The protocol.
    pub protocol: ProtocolView,
    /// All dimensions this body may have, in the order they are taken.
    pub dimensions: Vec<DimensionView>,
    /// What may be taken on the right as well, for a body that is not alike left and right.
    pub sided: Vec<SidedView>,
    /// Key of the dimension to take now: doubtful first, then missing; none when all is taken.
    pub now: Option<String>,
    /// Key that changes when the form does; the pages fetch it anew then. None while it cannot be computed.
    pub form_key: Option<String>,
}

/// How the body is measured: what is worn, who is there, consent.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ProtocolView {
    /// How a body of this form is measured at all.
    pub before: String,
    /// What was worn, as typed.
    pub worn: String,
    /// Who was present.
    pub present: String,
    /// Whether the wearer, or a child's carer, agreed to being measured and to the record.
    pub consent: bool,
    /// Taken on, `2026-11-14`.
    pub taken_on: String,
    /// Taken by.
    pub taken_by: String,
    /// Name of a child's carer.
    pub carer: String,
    /// Measure again on; suggested for a child.
    pub again_on: String,
    /// Whether the wearer is under 18: carer instead of photos.
    pub is_minor: bool,
    /// What of the protocol is still open.
    pub missing: Vec<Note>,
}

/// One dimension.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct DimensionView {
    /// Key: `waist_girth`.
    pub key: String,
    /// Name: `waist girth`.
    pub name: String,
    /// What it is.
    pub definition: String,
    /// How the tape is laid.
    pub how: String,
    /// How to take it alone, or that somebody must help.
    pub alone: String,
    /// `needed`, `asked`, `estimated`, `checks others`, `not used`.
    pub need: String,
    /// The value in use, taken or estimated.
    pub value: Option<Quantity>,
    /// The readings as typed, first, second, third.
    pub readings: Vec<String>,
    /// The readings in her units.
    pub read: Vec<Quantity>,
    /// Whether a second reading is wanted.
    pub wants_second: bool,
    /// How it stands: good, estimate, doubtful, stop, missing.
    pub state: State,
    /// What is wrong with it.
    pub notes: Vec<Note>,
}

/// A dimension of which left and right may differ.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct SidedView {
    /// Name: `thigh girth`.
    pub name: String,
    /// Her left, or both sides while the right is not written.
    pub left: Option<Quantity>,
    /// Her right.
    pub right: Field,
}

/// The computed body beside the numbers: section rings in space, and where each tape goes.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct FormView {
    /// Rings from thigh to neck. Points x, y, z in mm: x her left, y up, z forward.
    pub rings: Vec<RingView>,
    /// Lowest and highest y.
    pub low: f64,
    /// Highest.
    pub high: f64,
    /// Largest distance from the middle, for the scale.
    pub reach: f64,
    /// Per dimension with a place on the form: where its tape goes.
    pub tapes: Vec<TapeView>,
    /// How well the form agrees: one line a dimension, worst first.
    pub residuals: Vec<ResidualView>,
    /// One sentence on what the form is and is not.
    pub says: String,
}

/// One section ring.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct RingView {
    /// Level it lies at: `waist`; none between levels.
    pub level: Option<String>,
    /// Height.
    pub y: f64,
    /// x, z, x, z, ...: a closed line from centre back.
    pub points: Vec<f32>,
}

/// Where a tape goes.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct TapeView {
    /// Key of the dimension.
    pub key: String,
    /// Whether it closes.
    pub closed: bool,
    /// x, y, z, ...
    pub points: Vec<f32>,
}

/// How far the form is from a dimension.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ResidualView {
    /// Name of the dimension.
    pub name: String,
    /// What is left, signed: `+0.2`.
    pub left: Quantity,
}

/// The section of these papers.
pub(super) fn view(worked: &Worked, around: &Around) -> WearerView {
    let Some(paper) = &worked.wearer else {
        return nobody(around);
    };
    let facts = Facts::of(worked, paper);
    let dimensions = dimensions::lines(&facts);
    let text = |path: &str| text_at(&paper.body, path).unwrap_or_default();
    let name = text("name");
    let now = dimensions::now(&dimensions);
    WearerView {
        head: Head::of(
            summary(&name, &dimensions),
            dimensions::head_notes(&facts, &dimensions),
        ),
        id: Some(paper.id.clone()),
        choose: around.wearers.clone(),
        age: text("age"),
        mass: text("mass_kg"),
        choices: choices::of(&facts),
        sided: sided::lines(&facts, &dimensions),
        protocol: protocol::of(&facts, &around.today),
        now,
        form_key: worked.body.as_ref().map(|(body, _)| form_key(body)),
        name,
        dimensions,
    }
}

/// A wearer on her own: worked out as the wearer of a suit that is nothing yet.
pub(crate) fn alone(paper: Paper, units: &str) -> Worked {
    let suit = Paper {
        id: String::new(),
        kind: "suit",
        revision: 0,
        body: serde_json::json!({"name": "-", "units": units}),
    };
    work(
        suit,
        Linked {
            wearer: Some(paper),
            ..Linked::default()
        },
    )
}

/// A wearer as her own page and the first page show her; `today` as `2026-11-26`.
pub fn wearer_view(paper: Paper, units: &str, today: &str) -> WearerView {
    let around = Around {
        today: today.to_owned(),
        ..Around::default()
    };
    view(&alone(paper, units), &around)
}

/// What the parts of the section are made from.
struct Facts<'a> {
    worked: &'a Worked,
    id: &'a str,
    body: &'a serde_json::Value,
    form: BodyForm,
    unit: LengthUnit,
}

impl<'a> Facts<'a> {
    fn of(worked: &'a Worked, paper: &'a Paper) -> Facts<'a> {
        Facts {
            worked,
            id: &paper.id,
            body: &paper.body,
            form: form_of(&paper.body),
            unit: worked.unit(),
        }
    }
}

/// Woman, man or child as the document says; a woman while nothing is said.
pub(super) fn form_of(body: &serde_json::Value) -> BodyForm {
    match body.get("form").and_then(serde_json::Value::as_str) {
        Some("man") => BodyForm::Man,
        Some("child") => BodyForm::Child,
        _ => BodyForm::Woman,
    }
}

/// A key that is the same for the same form and no other: over everything the form is fitted to.
pub fn form_key(body: &Body) -> String {
    use std::fmt::Write;
    let mut spelled = format!("{:?}|{:?}|{:?}", body.form, body.waist_level, body.front_taken);
    for dimension in Dimension::ALL {
        // Debug of plain data is a full spelling of it: value, taken or estimated, standard error.
        let _ = write!(spelled, "|{:?}", body.get(dimension));
    }
    let hash = fingerprint(spelled.as_bytes());
    format!("{:08x}", (hash >> 32) ^ (hash & 0xffff_ffff))
}

/// `Maren. 21 taken, one estimated, one in doubt.`
fn summary(name: &str, lines: &[DimensionView]) -> String {
    let used = || lines.iter().filter(|l| l.need != dimensions::NOT_USED);
    let of = |state: State| used().filter(|l| l.state == state).count();
    let taken = used().filter(|l| !l.readings.is_empty()).count();
    let mut parts = vec![match taken {
        0 => "nothing taken".to_owned(),
        n => format!("{} taken", count(n)),
    }];
    let estimated = of(State::Estimate);
    for (n, words) in [
        (estimated, "estimated"),
        (of(State::Missing), "missing"),
        (of(State::Doubtful), "in doubt"),
        (of(State::Stop), "refused"),
    ] {
        if n > 0 {
            parts.push(format!("{} {words}", count(n)));
        }
    }
    let said = capital(&parts.join(", "));
    if name.is_empty() {
        format!("{said}.")
    } else {
        format!("{name}. {said}.")
    }
}

/// The section before anybody is chosen.
fn nobody(around: &Around) -> WearerView {
    let next = if around.wearers.is_empty() {
        "Write down who it is for."
    } else {
        "Choose a wearer, or write down a new one."
    };
    let says = "Nobody chosen yet.";
    WearerView {
        head: Head::of(says, vec![note(State::Missing, "", says, next).at("wearer")]),
        id: None,
        choose: around.wearers.clone(),
        name: String::new(),
        age: String::new(),
        mass: String::new(),
        choices: vec![],
        protocol: ProtocolView {
            before: sentence(BodyForm::Woman.before_measuring()),
            worn: String::new(),
            present: String::new(),
            consent: false,
            taken_on: String::new(),
            taken_by: String::new(),
            carer: String::new(),
            again_on: String::new(),
            is_minor: false,
            missing: vec![],
        },
        dimensions: vec![],
        sided: vec![],
        now: None,
        form_key: None,
    }
}

#[cfg(test)]
mod tests;
