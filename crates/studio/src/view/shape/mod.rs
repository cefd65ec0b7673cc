//! Section 3, Shape: the design in words and numbers, the drafted pieces, and the handles on them.

mod amount;
mod besides;
mod choices;
mod drawing;
mod moved;
mod own;
mod parameter;
mod styles;

use draft::Design;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use ts_rs::TS;
use units::{Finding, LengthUnit, Mm, Severity};
use utoipa::ToSchema;

use super::told;
use super::{Choice, Field, Frame, Head, Note, Quantity, Set, Spot, State, length, plain, small_length};
use crate::document::{Paper, Worked};
use crate::suit_file::{Fault, Parts};

pub use amount::AmountView;
pub(super) use amount::{amount_in, amount_of};
pub use besides::BesidesView;
pub(super) use besides::{LENGTH_MM, closure_length};
pub(crate) use choices::{at_path, usual_of, words_of};
use drawing::whole_edge;
pub(super) use drawing::{curves, frame, polygon, polyline, seam_line, spot};
pub use moved::{dragged, shape_moved};
pub(super) use parameter::{Drafting, Parameter, value_in_force};
pub use styles::{StyleCard, StyleFamily, StylesView, styles_view};

/// The design and what is drafted of it.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ShapeView {
    /// State, summary, notes.
    pub head: Head,
    /// Words: style first, then fit, neckline, back, leg, seat, lining, skirt.
    pub choices: Vec<Choice>,
    /// Numbers, those with a handle among them.
    pub fields: Vec<Field>,
    /// Pieces, shell first; empty while nothing can be drafted.
    pub pieces: Vec<PieceView>,
    /// What it may have besides: support, a closure, blocks, corrections; only what this suit can have.
    pub besides: Vec<BesidesView>,
    /// Handles on the front and back pieces.
    pub handles: Vec<HandleView>,
    /// Seams with their walk.
    pub seams: Vec<SeamView>,
    /// Measurements of the finished suit, flat.
    pub finished: Vec<FinishedView>,
}

/// One piece as it is drawn: mm, y down, its waist at y = 0.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct PieceView {
    /// Key: `front`.
    pub key: String,
    /// Name: `Front`.
    pub name: String,
    /// Letter on the page map.
    pub letter: String,
    /// `1 shell, 1 lining`.
    pub cut: String,
    /// Layer it is first cut from.
    pub layer: String,
    /// Box around the cut line.
    pub frame: Frame,
    /// Cut line as SVG path.
    pub cut_line: String,
    /// Seam line as SVG path.
    pub seam_line: String,
    /// Fold line, if it is drawn.
    pub fold_line: Option<String>,
    /// Level lines, placement lines: path and word.
    pub marks: Vec<MarkView>,
    /// Notches as one path.
    pub notches: String,
    /// Grain arrow, foot first.
    pub grain: [Spot; 2],
    /// Greater stretch, both ends.
    pub stretch: [Spot; 2],
    /// Where the name stands.
    pub label: Spot,
    /// Its edges by name, on both halves: a step at the bench draws those in hand hot.
    pub edges: Vec<NamedEdge>,
}

/// An edge of a piece.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct NamedEdge {
    /// Name, as a step names it.
    pub name: String,
    /// SVG path.
    pub path: String,
}

/// A line or cross inside a piece.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct MarkView {
    /// `level`, `placement` or `cross`.
    pub kind: String,
    /// SVG path.
    pub path: String,
    /// Word beside it; may be empty.
    pub words: String,
    /// Where the word stands.
    pub at: Spot,
}

/// A handle on a piece.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct HandleView {
    /// Key: `strap_width`.
    pub key: String,
    /// Name read out: `Strap width`.
    pub name: String,
    /// Piece it sits on.
    pub piece: String,
    /// Where, mm on the piece, y down.
    pub at: Spot,
    /// Which way it moves: a unit vector in the drawing.
    pub along: Spot,
    /// The edge that moves with it, as SVG path: drawn hot.
    pub edge: String,
    /// Its value.
    pub value: Quantity,
    /// Value in the page's own steps, for the slider's range: least, value, most; mm.
    pub range: [f64; 3],
}

/// A drag of a handle, or a step by the arrow keys: where its point should be.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize, TS, ToSchema)]
pub struct Drag {
    /// Key of the handle.
    pub handle: String,
    /// How far it is moved from where it was in the document's own state, along its way, mm; positive as `along` points.
    pub by_mm: f64,
}

/// What a preview draws: the changes it would make, and what they would give.
#[derive(Clone, Debug, Serialize, TS, ToSchema)]
pub struct Preview {
    /// The changes to send when it is kept.
    pub changes: Vec<Set>,
    /// What they do: `strap width 4.2 cm to 3.8 cm`.
    pub words: String,
    /// The shape with them.
    pub shape: ShapeView,
    /// The wear with them; left out while a handle is dragged.
    pub wear: Option<super::WearView>,
}

/// One seam.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct SeamView {
    /// Name.
    pub name: String,
    /// First side.
    pub first: Quantity,
    /// Second side.
    pub second: Quantity,
    /// Eased in; empty when none.
    pub ease: String,
}

/// One measurement of the finished suit.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct FinishedView {
    /// What to measure.
    pub name: String,
    /// How long it should be.
    pub value: Quantity,
}

/// What the section is drawn from.
struct Shown<'a> {
    suit: &'a Paper,
    parts: Option<&'a Parts>,
    faults: &'a [Fault],
    /// The draft and what it was made from, once there is one.
    drafting: Option<Drafting<'a>>,
    /// Values in force, in the order of [`Parameter::ALL`]; none for what this design does without.
    values: [Option<f64>; Parameter::ALL.len()],
    /// Which corrections this suit can have, in the order of [`amount::AMOUNTS`].
    offered: [bool; amount::AMOUNTS.len()],
}

impl Shown<'_> {
    fn unit(&self) -> LengthUnit {
        self.parts.map_or(LengthUnit::Cm, |p| p.units)
    }

    /// The parameters of this design, each with its value in force.
    fn parameters<'a>(&'a self, design: &'a Design) -> impl Iterator<Item = (Parameter, Option<f64>)> + 'a {
        let all = Parameter::ALL.into_iter().zip(self.values);
        all.filter(|(p, _)| p.applies(design))
    }
}

/// The values in force of a drafted suit; all none before it is drafted.
fn values(drafting: Option<&Drafting<'_>>) -> [Option<f64>; Parameter::ALL.len()] {
    Parameter::ALL.map(|p| {
        let drafting = drafting.filter(|d| p.applies(d.design))?;
        value_in_force(p, drafting)
    })
}

/// The section of these papers.
pub(super) fn view(worked: &Worked) -> ShapeView {
    let mut notes: Vec<Note> = told::faults_of(worked, "suit")
        .into_iter()
        .filter(|(_, path)| path.starts_with("design") || path.starts_with("allowances"))
        .map(|(fault, path)| told::fault(fault, &path, None))
        .collect();
    notes.extend(found(worked, is_of_the_draft));
    if worked.order.is_none() && notes.is_empty() {
        notes.push(waiting(worked));
    }
    let drafting = drafting(worked);
    section(
        &Shown {
            suit: &worked.suit,
            parts: worked.parts.as_ref(),
            faults: &worked.faults,
            values: values(drafting.as_ref()),
            offered: amount::offered(worked.parts.as_ref(), drafting.as_ref()),
            drafting,
        },
        notes,
    )
}

/// Findings that belong to this section.
fn is_of_the_draft(code: &str) -> bool {
    ["draft.", "figure.", "motif.", "stoma."]
        .iter()
        .any(|start| code.starts_with(start))
}

fn section(shown: &Shown<'_>, notes: Vec<Note>) -> ShapeView {
    let unit = shown.unit();
    let draft = shown.drafting.as_ref().map(|d| d.draft);
    let summary = match (draft, shown.parts) {
        (Some(_), Some(parts)) => about(&parts.design),
        (Some(_), None) => String::new(),
        (None, _) => "Not drafted yet.".to_owned(),
    };
    ShapeView {
        head: Head::of(summary, notes),
        choices: choices::choices(shown.suit, shown.parts, None),
        besides: besides::groups(shown),
        fields: fields(shown),
        pieces: draft.map_or_else(Vec::new, |d| d.pieces.iter().map(drawing::piece).collect()),
        handles: shown
            .drafting
            .as_ref()
            .map_or_else(Vec::new, |d| handles(shown, d)),
        seams: draft.map_or_else(Vec::new, |d| {
            // An edge that meets its own mirror image is sewn, but there is nothing to walk it against.
            d.seams
                .iter()
                .filter(|s| !s.is_with_itself())
                .map(|s| SeamView {
                    name: s.name.to_owned(),
                    first: length(Mm::new(s.first_mm), unit).why(format!("seam.{}", s.name)),
                    second: length(Mm::new(s.second_mm), unit).why(format!("seam.{}", s.name)),
                    ease: if s.sewn_ease_mm > 0.05 {
                        small_length(Mm::new(s.sewn_ease_mm), unit).text()
                    } else {
                        String::new()
                    },
                })
                .collect()
        }),
        finished: draft.map_or_else(Vec::new, |d| {
            d.finished
                .iter()
                .map(|f| FinishedView {
                    name: f.name.clone(),
                    value: length(Mm::new(f.value_mm), unit).why(format!("finished.{}", f.name)),
                })
                .collect()
        }),
    }
}

/// The findings with these codes as notes that can be asked why. Good ones are left out: a section says it is good itself.
pub(super) fn found(worked: &Worked, wanted: impl Fn(&str) -> bool) -> Vec<Note> {
    notes_of(worked.order.iter().flat_map(|o| &o.findings), wanted)
}

fn notes_of<'a>(findings: impl Iterator<Item = &'a Finding>, wanted: impl Fn(&str) -> bool) -> Vec<Note> {
    findings
        .filter(|f| f.severity > Severity::Good && wanted(f.code))
        .map(|f| told::finding(f).asked(format!("finding.{}.{}", f.code, f.place)))
        .collect()
}

/// The section of these papers, for a preview.
pub fn shape_view(worked: &Worked) -> ShapeView {
    view(worked)
}

/// What the draft waits for, when nothing of the design itself is wrong.
fn waiting(worked: &Worked) -> Note {
    let (says, next) = if worked.body.is_none() {
        ("The draft waits for the wearer.", "Finish section 1, Wearer.")
    } else if worked.cloth.is_none() {
        ("The draft waits for the cloth.", "Finish section 2, Cloth.")
    } else {
        ("The draft waits for the sections above.", "Look at their notes.")
    };
    Note {
        state: State::Missing,
        place: String::new(),
        says: says.to_owned(),
        next: next.to_owned(),
        field: None,
        why: None,
        try_this: None,
    }
}

/// `One-piece, racer back, fully lined.`
fn about(design: &Design) -> String {
    use draft::{BackShape, LiningCover, Shared};
    let name = design.style.spec().name;
    let skirted = format!("Skirted {}", name.to_lowercase());
    let mut words: Vec<&str> = vec![if design.skirt.is_some() { &skirted } else { name }];
    if design.hears(Shared::Back) {
        words.push(match design.back_shape {
            BackShape::Scoop => "scoop back",
            BackShape::V => "V back",
            BackShape::Racer => "racer back",
            BackShape::CrossedStraps => "crossed straps",
        });
    }
    words.push(match design.lining {
        LiningCover::None => "unlined",
        LiningCover::Full => "lined",
        LiningCover::Front => "front lined",
        LiningCover::Crotch => "crotch lined",
    });
    format!("{}.", words.join(", "))
}

/// What the solves need, when the suit is drafted.
pub(super) fn drafting(worked: &Worked) -> Option<Drafting<'_>> {
    let order = worked.order.as_ref()?;
    Some(Drafting {
        body: &order.body,
        cloth: &order.cloth,
        design: &worked.parts.as_ref()?.design,
        draft: &order.draft,
        tries: &worked.tries,
    })
}

/// A value of a parameter in her unit.
pub(super) fn shown(mm: f64, unit: LengthUnit) -> Quantity {
    length(Mm::new(mm), unit)
}

/// A length as it is written into a document: exact to a millimetre, in her unit where that can be.
pub(super) fn written(mm: f64, unit: LengthUnit) -> String {
    match unit {
        LengthUnit::Cm => format!("{} cm", crate::suit_file::trimmed(mm / 10.0, 2)),
        LengthUnit::Mm | LengthUnit::In => format!("{} mm", crate::suit_file::trimmed(mm, 1)),
    }
}

fn fields(show: &Shown<'_>) -> Vec<Field> {
    let Some(parts) = show.parts else {
        return Vec::new();
    };
    let unit = show.unit();
    let mut fields: Vec<Field> = show
        .parameters(&parts.design)
        .map(|(p, value)| {
            let (low, high) = p.range_mm();
            length_field(
                show,
                p.path(),
                p.label(),
                p.says(),
                value.map(|mm| shown(mm, unit).why(format!("design.{}", p.key()))),
                (low, high),
            )
        })
        .collect();
    fields.extend(flare(show, parts));
    fields.extend(own::fields(show, parts, None));
    let a = &parts.design.allowances;
    for (key, label, says, mm, range) in [
        (
            "seam",
            "Seam allowance",
            "Outside the seam line, at joins.",
            a.seam,
            (3.0, 30.0),
        ),
        (
            "side_seam",
            "Side seam allowance",
            "Wider to let out at a fitting.",
            a.side_seam,
            (3.0, 30.0),
        ),
        (
            "crotch",
            "Crotch seam allowance",
            "Kept narrow, it lies under the crotch.",
            a.crotch_seam,
            (3.0, 30.0),
        ),
        ("hem", "Hem", "Turned hems of skirts.", a.hem, (5.0, 40.0)),
    ] {
        let value = Some(small_length(mm, unit).why(format!("allowance.{key}")));
        fields.push(length_field(
            show,
            &format!("allowances.{key}"),
            label,
            says,
            value,
            range,
        ));
    }
    if parts.design.hears(draft::Shared::Neckline) {
        let typed = at_path(&show.suit.body, "design.strap_position");
        fields.push(Field {
            document: show.suit.id.clone(),
            path: "design.strap_position".into(),
            label: "Strap position".into(),
            says: "Where on the shoulder the strap's middle lies: 0.25 at the neck, 0.7 far out.".into(),
            quantity: parts
                .design
                .strap_position
                .map(|p| plain(p, 2, "", "of the shoulder")),
            typed: typed.and_then(typed_text),
            unit: String::new(),
            allowed: "0.25 to 0.7".into(),
            state: State::Good,
        });
    }
    fields
}

/// The slant of a flared panel's side; none for another skirt.
fn flare(show: &Shown<'_>, parts: &Parts) -> Option<Field> {
    const PATH: &str = "design.skirt.flare";
    let draft::SkirtKind::FlaredPanel { flare } = parts.design.skirt?.kind else {
        return None;
    };
    let is_refused = show.faults.iter().any(|f| f.field == PATH);
    Some(Field {
        document: show.suit.id.clone(),
        path: PATH.to_owned(),
        label: "Flare of the skirt".to_owned(),
        says: "How far the side of each half panel slants: more hangs in folds.".to_owned(),
        quantity: Some(plain(flare.to_degrees(), 0, "degrees", "degrees")),
        typed: at_path(&show.suit.body, PATH).and_then(typed_text),
        unit: "degrees".to_owned(),
        allowed: "6 to 20 degrees".to_owned(),
        state: if is_refused { State::Stop } else { State::Good },
    })
}

fn length_field(
    shown: &Shown<'_>,
    path: &str,
    label: &str,
    says: &str,
    quantity: Option<Quantity>,
    (low, high): (f64, f64),
) -> Field {
    let unit = shown.unit();
    let show = |mm: f64| crate::suit_file::show_length(Mm::new(mm), unit);
    let is_refused = shown.faults.iter().any(|f| f.field == path);
    Field {
        document: shown.suit.id.clone(),
        path: path.to_owned(),
        label: label.to_owned(),
        says: says.to_owned(),
        typed: at_path(&shown.suit.body, path).and_then(typed_text),
        unit: unit.symbol().to_owned(),
        allowed: format!("{} to {}", show(low), show(high)),
        state: if is_refused { State::Stop } else { State::Good },
        quantity,
    }
}

/// What she typed, as text.
pub(super) fn typed_text(value: &Value) -> Option<String> {
    match value {
        Value::String(s) if !s.trim().is_empty() => Some(s.clone()),
        Value::Number(n) => Some(n.to_string()),
        _ => None,
    }
}

fn handles(show: &Shown<'_>, drafting: &Drafting<'_>) -> Vec<HandleView> {
    let unit = show.unit();
    show.parameters(drafting.design)
        .filter_map(|(p, value)| {
            let grip = p.grip(drafting.draft)?;
            let mm = value?;
            let (low, high) = p.range_mm();
            Some(HandleView {
                key: p.key().to_owned(),
                name: p.label().to_owned(),
                piece: grip.piece.key.clone(),
                at: spot(grip.at),
                along: Spot {
                    x: grip.along.0,
                    y: -grip.along.1,
                },
                edge: whole_edge(grip.piece, grip.edge),
                value: shown(mm, unit).why(format!("design.{}", p.key())),
                range: [low, mm.round(), high],
            })
        })
        .collect()
}
