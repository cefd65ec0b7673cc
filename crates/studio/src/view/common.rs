//! What every section of the pages is made of: quantities in her units, states, notes, proposals, choices.
//!
//! The pages do no arithmetic on lengths: they show what stands here, so paper, command line and pages cannot disagree.
//! A quantity that can be asked "why?" carries the key under which [`super::why`] answers.

use serde::{Deserialize, Serialize};
use serde_json::Value;
use ts_rs::TS;
use utoipa::ToSchema;

/// A number as it is shown: in her unit first, in the other beside it, and as it is read out.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct Quantity {
    /// `73.0`, or `28¾` where she works in inches.
    pub main: String,
    /// `cm`, `in`, `mm`, `%`, `kPa`; empty for a plain number.
    pub unit: String,
    /// The same in the other unit, with it: `28¾ in`; empty where there is none.
    pub second: String,
    /// As a screen reader says it: `73 centimetres, 28 and three quarter inches`.
    pub spoken: String,
    /// Key of the answer to "why?"; none when it is what she wrote herself.
    pub why: Option<String>,
}

/// How a section, a line or a note stands. In order: the worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, TS, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum State {
    /// Don't cut this.
    Stop,
    /// Look at it before cutting.
    Doubtful,
    /// Something must be filled in.
    Missing,
    /// Estimated, not taken.
    Estimate,
    /// How a thing is done.
    How,
    /// In order.
    Good,
}

/// A pencil note in the margin: what was found and what to do next.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct Note {
    /// Icon and word.
    pub state: State,
    /// Where, in her words: `waist`; empty for the section as a whole.
    pub place: String,
    /// What was found, one or two short sentences.
    pub says: String,
    /// What to do next; empty when there is nothing.
    pub next: String,
    /// Field the note is about, as the pages name it: `dimensions.waist_girth`; the note's link goes there.
    pub field: Option<String>,
    /// Key of the answer to "why?".
    pub why: Option<String>,
    /// A change that would mend it.
    pub try_this: Option<Proposal>,
}

/// A change to be looked at before it is kept.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct Proposal {
    /// What it does, verb first: `Try a looser fit`.
    pub words: String,
    /// The changes, all or none.
    pub changes: Vec<Set>,
}

/// One value of one document, set or taken out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, TS, ToSchema)]
pub struct Set {
    /// Id of the document.
    pub document: String,
    /// Dotted path in it: `design.strap_width`.
    pub path: String,
    /// The value; `null` takes it out.
    #[ts(type = "unknown")]
    #[schema(value_type = Object)]
    pub value: Value,
}

/// What heads a section: its state, one sentence, its margin notes.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct Head {
    /// The worst of its notes, or good.
    pub state: State,
    /// One sentence; all that is seen of a closed section.
    pub summary: String,
    /// Margin notes, the worst first.
    pub notes: Vec<Note>,
}

impl Head {
    /// A head of this summary and these notes, sorted, its state the worst of them (how-to notes do not count).
    pub fn of(summary: impl Into<String>, mut notes: Vec<Note>) -> Head {
        notes.sort_by_key(|n| n.state);
        let state = notes
            .iter()
            .map(|n| n.state)
            .filter(|s| !matches!(s, State::How | State::Estimate))
            .min()
            .unwrap_or(State::Good);
        Head {
            state,
            summary: summary.into(),
            notes,
        }
    }
}

/// A choice among a few words.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct Choice {
    /// Where the value goes: document and path.
    pub document: String,
    /// Dotted path.
    pub path: String,
    /// Name of the choice.
    pub label: String,
    /// What it does on the body, one line.
    pub says: String,
    /// Value in force.
    pub value: String,
    /// What may be chosen.
    pub options: Vec<ChoiceOption>,
}

/// One word of a choice.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct ChoiceOption {
    /// Value written.
    pub value: String,
    /// Word shown.
    pub label: String,
}

/// A length or number she may type over.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct Field {
    /// Id of the document.
    pub document: String,
    /// Dotted path.
    pub path: String,
    /// Name of the line.
    pub label: String,
    /// What it means, one line.
    pub says: String,
    /// The value in force, usual or hers; none when it is missing.
    pub quantity: Option<Quantity>,
    /// As she typed it; none when the usual value is in force.
    pub typed: Option<String>,
    /// Unit a bare number is read in: `cm`, `in`, `mm`, `%`, `kg`, `g/m2`.
    pub unit: String,
    /// What is allowed, in words: `1.2 cm to 9.0 cm`; empty where any will do.
    pub allowed: String,
    /// How it stands.
    pub state: State,
}

/// Something to choose by its name: a wearer, a cloth.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct Named {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
}

/// A point of a drawing, mm, y down.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, TS, ToSchema)]
pub struct Spot {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

/// The box of a drawing, mm, y down.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct Frame {
    /// Left.
    pub x: f64,
    /// Top.
    pub y: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}
