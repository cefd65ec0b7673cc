//! Shell and lining pulled as one.

use cloth::PairSource;
use draft::LiningCover;

use super::field::{Sheet, wrong_in};
use super::{TogetherView, pull};
use crate::document::Worked;
use crate::order::reach;
use crate::view::told::{self, faults_of};
use crate::view::{Note, State, percent};

/// The test of both, where both are worn together.
pub(super) fn of(worked: &Worked, lining: LiningCover) -> Option<TogetherView> {
    worked.lining.as_ref()?;
    if !reach(lining).is_layered() {
        return None;
    }
    let sheet = Sheet {
        id: &worked.suit.id,
        body: &worked.suit.body,
        unit: worked.unit(),
        wrong: wrong_in(worked, "suit"),
    };
    let mut around = pull::view(&sheet, "tested_together.around", "together");
    let mut lengthwise = pull::view(&sheet, "tested_together.lengthwise", "together");
    let plan = worked.cloth.as_ref();
    let is_estimated = plan.is_some_and(|p| p.pair == PairSource::Estimated);
    if let Some(plan) = plan.filter(|_| is_estimated) {
        for (view, stretch) in [(&mut around, plan.around), (&mut lengthwise, plan.lengthwise)] {
            let key = format!("stretch.together.{}", view.direction);
            view.stretch = Some(percent(stretch.ratio()).why(key));
            view.state = State::Estimate;
            // Optional as long as an estimate stands in for it.
            for field in view.fields.iter_mut().filter(|f| f.state == State::Missing) {
                field.state = State::Good;
            }
        }
    }
    let says = match plan {
        Some(plan) if is_estimated => format!(
            "Estimated from the two single tests: {} around, {} up and down. Sew a scrap of both and pull it as one to be sure.",
            plan.around, plan.lengthwise
        ),
        Some(plan) => format!(
            "Tested as one: {} around, {} up and down.",
            plan.around, plan.lengthwise
        ),
        None => "Sew a scrap of both along one edge and pull it as one.".to_owned(),
    };
    Some(TogetherView {
        around,
        lengthwise,
        says,
    })
}

/// Faults of the test of both.
pub(super) fn faults(worked: &Worked) -> Vec<Note> {
    faults_of(worked, "suit")
        .into_iter()
        .filter(|(_, path)| path.starts_with("tested_together"))
        .map(|(fault, path)| told::fault(fault, &path, None))
        .collect()
}
