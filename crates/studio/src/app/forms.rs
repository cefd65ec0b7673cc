//! The computed bodies, read once and fitted when a body changes.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock};

use body::{Body, BodyForm, TorsoForm};

use super::locked;
use crate::view::{FormView, form_key, form_view};

/// Fitted forms kept at hand.
const KEPT: usize = 50;

#[derive(Default)]
pub(crate) struct Forms {
    woman: OnceLock<Result<TorsoForm, String>>,
    man: OnceLock<Result<TorsoForm, String>>,
    child: OnceLock<Result<TorsoForm, String>>,
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
        let torso = match body.form {
            BodyForm::Woman => &self.woman,
            BodyForm::Man => &self.man,
            BodyForm::Child => &self.child,
        }
        .get_or_init(|| TorsoForm::of(body.form).map_err(|e| e.to_string()));
        let torso = torso.as_ref().map_err(Clone::clone)?;
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
}
