//! The verdict on the cloths of a suit: which way to lay them, whether they hold, how far they are worn stretched.

use cloth::{ClothPlan, Layer, Orientation};
use units::{Finding, Level, Severity};

use super::plan_of;
use crate::document::Worked;
use crate::view::told::{self, capital, note, sentence};
use crate::view::{Note, State, percent};

/// Whom notes are about.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Of {
    /// One layer.
    Layer(Layer),
    /// The layers together.
    TheSuit,
}

/// The verdict in sentences; none before the cloths can be judged.
pub(super) fn sentences(worked: &Worked) -> Vec<String> {
    let Some(plan) = &worked.cloth else {
        return Vec::new();
    };
    let shell = &plan.shell;
    let mut said = vec![
        match shell.orientation {
            Orientation::Upright => "Lay it with the width round the body.",
            Orientation::Turned => "Lay it with the length round the body: turn the pieces a quarter.",
        }
        .to_owned(),
    ];
    let selvedge = match (shell.orientation, shell.around >= shell.lengthwise) {
        _ if shell.around == shell.lengthwise => "It stretches alike both ways.",
        (Orientation::Upright, true) | (Orientation::Turned, false) => {
            "The greater stretch runs from selvedge to selvedge."
        }
        (Orientation::Turned, true) | (Orientation::Upright, false) => {
            "The greater stretch runs along the selvedge."
        }
    };
    said.push(selvedge.to_owned());
    if let Some(lining) = &plan.lining {
        said.push(
            match (lining.orientation == shell.orientation, lining.orientation) {
                (true, _) => "The lining lies the same way.".to_owned(),
                (false, Orientation::Upright) => {
                    "The lining lies the other way, its width round the body.".to_owned()
                }
                (false, Orientation::Turned) => {
                    "The lining lies the other way, its length round the body.".to_owned()
                }
            },
        );
    }
    said
}

/// The notes of the cloth crate that ask for something, about a layer or about all together.
pub(super) fn notes(worked: &Worked, of: Of) -> Vec<Note> {
    let Some(plan) = &worked.cloth else {
        return Vec::new();
    };
    numbered(plan)
        .filter(|(finding, _)| finding.severity > Severity::Good && layer_of(plan, finding) == of)
        .filter(|(finding, _)| !is_idle(worked, finding))
        .map(|(finding, key)| {
            let mut note = told::finding(finding).asked(key);
            note.says = format!("{}: {}", capital(&finding.place), sentence(&finding.message));
            if let Of::Layer(layer) = of {
                note.says = format!("{}: {}", capital(layer.name()), sentence(&finding.message));
                note.place = layer.name().to_owned();
            }
            note
        })
        .collect()
}

/// Only a suit from shoulder to crotch may need an opening to step in.
fn is_idle(worked: &Worked, finding: &Finding) -> bool {
    let style = worked.parts.as_ref().map(|p| p.design.style);
    style.is_some_and(|s| !s.spec().has_trunk_loop) && finding.code == "cloth.one_piece_opening"
}

/// The finding that a key of [`notes`] means: `recovery.0` is the first of code `cloth.recovery`.
pub(in crate::view) fn finding_of<'a>(plan: &'a ClothPlan, which: &str) -> Option<&'a Finding> {
    numbered(plan)
        .find(|(_, key)| key.strip_prefix("cloth.") == Some(which))
        .map(|(finding, _)| finding)
}

/// Every finding with its key: the code, and the how many-th of it.
fn numbered(plan: &ClothPlan) -> impl Iterator<Item = (&Finding, String)> {
    plan.findings.iter().enumerate().map(|(index, finding)| {
        let before = plan.findings[..index]
            .iter()
            .filter(|f| f.code == finding.code)
            .count();
        (finding, format!("{}.{before}", finding.code))
    })
}

/// Whom a finding is about: places of layers are `shell, Slate tricot`.
fn layer_of(plan: &ClothPlan, finding: &Finding) -> Of {
    [Layer::Shell, Layer::Lining, Layer::Mesh]
        .into_iter()
        .find(|layer| {
            plan_of(plan, *layer)
                .is_some_and(|plan| finding.place == format!("{}, {}", layer.name(), plan.cloth))
        })
        .map_or(Of::TheSuit, Of::Layer)
}

/// The one good note: what the shell's recovery means.
pub(super) fn good(worked: &Worked) -> Option<Note> {
    let plan = worked.cloth.as_ref()?;
    let (finding, key) = numbered(plan).find(|(f, _)| {
        f.code == "cloth.recovery"
            && f.severity == Severity::Good
            && layer_of(plan, f) == Of::Layer(Layer::Shell)
    })?;
    let share = percent(finding.value? / 100.0).text();
    let says = format!("At least {share} of the shell's stretch goes back. It will not bag at the seat.");
    Some(note(State::Good, "shell", says, "").asked(key))
}

/// The greatest worn stretch of the ladder and its level: what a wet test is held at.
pub(in crate::view) fn hold_at(worked: &Worked) -> Option<(f64, Level)> {
    let rungs = &worked.order.as_ref()?.fit.ladder;
    rungs
        .iter()
        .map(|rung| (rung.worn, rung.level))
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .filter(|(worn, _)| *worn > 0.0)
}
