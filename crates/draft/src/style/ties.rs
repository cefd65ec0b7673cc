//! No cord or tie at neck or back for a child, in one place.
//!
//! **Source.** EN 14682 as read in `data/trade/cautions.csv` (rows `kids_cord`, `kids_cord_back`): up to 7 years no cords or
//! drawstrings at head and neck and no ties behind the neck; up to 14 years no free-ended drawstrings there; nothing tied at the
//! back. **Stricter here, on purpose:** nothing at all is tied at neck or back up to and with 14 years, whatever its ends.
//! **Limits.** The current edition was not read. A form `child` is a child whatever age is written; a young woman of 14 drafted
//! with a bust is one by her age.

use body::BodyForm;

use super::Job;
use crate::refusal::Refusal;

/// Up to and with this age nothing is tied at neck or back, years.
const TO_AGE: f64 = 14.0;

/// Whether a cord or tie at neck or back is refused to this wearer: any child, and anybody who is 14 or younger.
pub fn ties_are_refused(form: BodyForm, age_years: Option<f64>) -> bool {
    // Fourteen lasts until the next birthday.
    form == BodyForm::Child || age_years.is_some_and(|age| age < TO_AGE + 1.0)
}

/// Refuses a cord or tie at neck or back for a child; `parameter` is the key that asks for it.
///
/// # Errors
/// [`Refusal::Combination`] for a wearer of 14 or younger.
pub(crate) fn refuse_ties(job: &Job<'_>, parameter: &'static str) -> Result<(), Refusal> {
    if !ties_are_refused(job.m.form, job.m.age_years) {
        return Ok(());
    }
    Err(Refusal::Combination {
        parameter,
        why: "nothing is tied at the neck or the back of a child up to 14 years, because a cord there can catch and strangle (stricter \
              than EN 14682 as we read it); choose fixed or elastic straps",
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_tied_on_a_girl_of_fourteen() {
        use crate::check_values::{measures, plan};
        use crate::style::Style;
        use crate::{Design, draft::draft_measures};
        let mut m = measures("petite");
        let mut refused = |style: Style, age: f64| {
            m.age_years = Some(age);
            draft_measures(&m, &plan(0.85, 0.60), &Design::of(style)).map_err(|e| e.field())
        };
        assert_eq!(refused(Style::TRIANGLE_TOP, 14.0).unwrap_err(), Some("style"));
        assert_eq!(refused(Style::HALTER_TOP, 14.0).unwrap_err(), Some("neck_strap"));
        assert!(refused(Style::TRIANGLE_TOP, 16.0).is_ok() && refused(Style::HALTER_TOP, 16.0).is_ok());
        assert!(!Style::TRIANGLE_TOP.is_offered(BodyForm::Woman, Some(14.0)));
        // A child is shown nothing tied at neck or back, whoever its catalogue entry says it is for.
        let offered = Style::all()
            .iter()
            .filter(|s| s.is_offered(BodyForm::Child, Some(8.0)));
        assert!(offered.clone().count() >= 4 && offered.clone().all(|s| !s.spec().needs_ties));
    }

    #[test]
    fn a_child_is_one_by_form_or_by_age() {
        assert!(ties_are_refused(BodyForm::Child, None));
        assert!(ties_are_refused(BodyForm::Child, Some(15.0)));
        assert!(ties_are_refused(BodyForm::Woman, Some(14.9)));
        assert!(!ties_are_refused(BodyForm::Woman, Some(15.0)));
        assert!(!ties_are_refused(BodyForm::Woman, None));
    }
}
