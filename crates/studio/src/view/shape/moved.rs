//! A handle on its way: the change it asks for, and the section redrawn at the pace of a hand.
//!
//! Between two moves of a hand nothing changes but one number of the design. So the suit file is not written and read again,
//! body and cloths stay as they were, nothing is judged that the drawing does not show, and the values of the other handles
//! are those of the suit at rest: none of them depends on another's. The section is the same, to the letter, as that of the
//! papers with the change in them.

use draft::draft;
use serde_json::Value;
use units::parse_length;

use super::parameter::value_moved;
use super::{
    Drafting, Drag, Parameter, Set, ShapeView, Shown, amount, drafting, is_of_the_draft, notes_of, section,
    values, written,
};
use crate::document::{Paper, Worked};

/// The changes a drag of a handle asks for; none for a handle this suit does not have.
pub fn dragged(worked: &Worked, drag: &Drag) -> Option<Vec<Set>> {
    let drafting = drafting(worked)?;
    let parameter = Parameter::ALL
        .into_iter()
        .find(|p| p.key() == drag.handle && p.applies(drafting.design))?;
    // A hand on a screen does not move a metre, and a solve must not be asked for infinity.
    let by_mm = if drag.by_mm.is_finite() {
        drag.by_mm.clamp(-1000.0, 1000.0)
    } else {
        0.0
    };
    let mm = value_moved(parameter, &drafting, by_mm)?;
    Some(vec![Set {
        document: worked.suit.id.clone(),
        path: parameter.path().to_owned(),
        value: Value::String(written(mm, worked.unit())),
    }])
}

/// The section with the one change that [`dragged`] asked for; `suit` is the suit's paper with that change in it.
///
/// None for any other change, and where the draft refuses: the whole papers then have to be worked out, to say why.
pub fn shape_moved(worked: &Worked, suit: &Paper, change: &Set) -> Option<ShapeView> {
    let before = drafting(worked)?;
    let at = Parameter::ALL.iter().position(|p| p.path() == change.path)?;
    let parameter = Parameter::ALL[at];
    if change.document != worked.suit.id || !parameter.applies(before.design) {
        return None;
    }
    let mm = parse_length(change.value.as_str()?, worked.unit()).ok()?;
    let (low, high) = parameter.range_mm();
    if !(low..=high).contains(&mm.get()) {
        return None;
    }
    let mut parts = worked.parts.clone()?;
    parameter.put(&mut parts.design, mm.get());
    let moved = draft(before.body, before.cloth, &parts.design).ok()?;
    let mut findings: Vec<_> = moved.findings.iter().collect();
    findings.sort_by_key(|f| std::cmp::Reverse(f.severity));
    let notes = notes_of(findings.into_iter(), is_of_the_draft);
    let mut values = values(Some(&before));
    values[at] = Some(mm.get());
    let shown = Shown {
        suit,
        parts: Some(&parts),
        faults: &[],
        drafting: Some(Drafting {
            design: &parts.design,
            draft: &moved,
            ..before
        }),
        values,
        offered: amount::offered(Some(&parts), Some(&before)),
    };
    Some(section(&shown, notes))
}
