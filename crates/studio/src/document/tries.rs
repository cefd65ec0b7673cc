//! What drafting a suit once more with one number changed has shown, kept while the suit is.
//!
//! The place of a handle is found on the draft itself, by several drafts a search. A hand that drags asks many times a second
//! about the same suit, and most of what a search looks at is the same each time.
//!
//! **Limits.** Forgets everything when it holds too much: a search then drafts again.

use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

/// Places kept; a drag over the whole range of a handle leaves about half as many.
const MOST: usize = 512;

/// Coordinates of handles, by the handle's key and the value that was tried.
///
/// A copy starts empty: whoever copies papers does it to change them.
#[derive(Debug, Default)]
pub struct Tries {
    found: Mutex<BTreeMap<(&'static str, u64), Option<f64>>>,
}

impl Clone for Tries {
    fn clone(&self) -> Tries {
        Tries::default()
    }
}

impl Tries {
    /// What `find` gives for this value of this key, found once. `find` depends on nothing but them and the suit.
    pub(crate) fn of(
        &self,
        key: &'static str,
        value: f64,
        find: impl FnOnce() -> Option<f64>,
    ) -> Option<f64> {
        let place = (key, value.to_bits());
        let known = |found: &BTreeMap<_, Option<f64>>| found.get(&place).copied();
        if let Some(known) = known(&self.found.lock().unwrap_or_else(PoisonError::into_inner)) {
            return known;
        }
        // Not under the lock: another hand on the same suit need not wait for this draft.
        let new = find();
        let mut found = self.found.lock().unwrap_or_else(PoisonError::into_inner);
        if found.len() >= MOST {
            found.clear();
        }
        found.insert(place, new);
        new
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn looks_once_and_not_for_a_copy() {
        let tries = Tries::default();
        assert_eq!(tries.of("strap", 42.0, || Some(7.0)), Some(7.0));
        assert_eq!(tries.of("strap", 42.0, || Some(8.0)), Some(7.0));
        assert_eq!(tries.of("strap", 43.0, || None), None);
        assert_eq!(tries.of("neck", 42.0, || Some(9.0)), Some(9.0));
        assert_eq!(tries.clone().of("strap", 42.0, || Some(8.0)), Some(8.0));
    }

    #[test]
    fn forgets_before_it_grows() {
        let tries = Tries::default();
        for n in 0..MOST {
            tries.of("strap", n as f64, || Some(1.0));
        }
        tries.of("strap", -1.0, || Some(1.0));
        assert_eq!(tries.found.lock().unwrap().len(), 1);
    }
}
