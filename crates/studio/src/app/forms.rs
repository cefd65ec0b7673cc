//! The computed bodies, read once and fitted when a body changes; and a middling one of each sort, which shows where the tape goes
//! before hers can be computed.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock};

use body::{Body, BodyForm, TorsoForm};

use super::locked;
use crate::view::{FormView, form_key, form_view, middling_body, middling_form_view};

/// Fitted forms kept at hand.
const KEPT: usize = 50;

#[derive(Default)]
pub(crate) struct Forms {
    woman: OnceLock<Result<TorsoForm, String>>,
    man: OnceLock<Result<TorsoForm, String>>,
    child: OnceLock<Result<TorsoForm, String>>,
    middling: [OnceLock<Result<Arc<FormView>, String>>; 3],
    fitted: Mutex<BTreeMap<String, Arc<FormView>>>,
}

impl Forms {
    /// Forgets the fitted ones: they are bodies.
    pub(crate) fn forget(&self) {
        locked(&self.fitted).clear();
    }

    /// The form of a body, as the pages draw it; `unit` is the maker's. An error is in words.
    pub(crate) fn of(&self, body: &Body, unit: units::LengthUnit) -> Result<Arc<FormView>, String> {
        let key = format!("{}-{}", form_key(body), unit.symbol());
        if let Some(view) = locked(&self.fitted).get(&key) {
            return Ok(Arc::clone(view));
        }
        let torso = self.torso(body.form)?;
        let view = Arc::new(form_view(torso, body, unit)?);
        let mut fitted = locked(&self.fitted);
        if fitted.len() >= KEPT
            && let Some(first) = fitted.keys().next().cloned()
        {
            fitted.remove(&first);
        }
        fitted.insert(key, Arc::clone(&view));
        Ok(view)
    }

    /// A middling form of that sort. An error is in words.
    pub(crate) fn middling(&self, form: BodyForm) -> Result<Arc<FormView>, String> {
        let [woman, man, child] = &self.middling;
        let known = match form {
            BodyForm::Woman => woman,
            BodyForm::Man => man,
            BodyForm::Child => child,
        };
        known
            .get_or_init(|| {
                let view = middling_form_view(self.torso(form)?, &middling_body(form)?)?;
                Ok(Arc::new(view))
            })
            .clone()
    }

    fn torso(&self, form: BodyForm) -> Result<&TorsoForm, String> {
        let known = match form {
            BodyForm::Woman => &self.woman,
            BodyForm::Man => &self.man,
            BodyForm::Child => &self.child,
        };
        let torso = known.get_or_init(|| TorsoForm::of(form).map_err(|e| e.to_string()));
        torso.as_ref().map_err(Clone::clone)
    }
}
