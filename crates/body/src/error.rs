//! What makes a wearer unusable: an error for each fault, all reported together.

use thiserror::Error;
use units::Mm;

use crate::dimension::{BodyForm, Dimension};

/// One fault of a [`Wearer`](crate::Wearer) that stops a body from being made of it.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum BodyError {
    /// A dimension that is NaN or infinite; only a program that skipped [`Mm::checked`] can make one.
    #[error("{} is not a number; take it again", .dimension.iso_name(*.form))]
    NotANumber {
        /// Which.
        dimension: Dimension,
        /// Whose body.
        form: BodyForm,
    },
    /// A dimension of zero or less.
    #[error("{} is {}; a length on the body is more than nothing", .dimension.iso_name(*.form), .given.to_cm_text())]
    NotPositive {
        /// Which.
        dimension: Dimension,
        /// Whose body.
        form: BodyForm,
        /// What was given.
        given: Mm,
    },
    /// A dimension no body of this form has; see [`Dimension::plausible_range`].
    #[error(
        "{} {} lies outside {} to {} for {}{}",
        .dimension.iso_name(*.form),
        .given.to_cm_text(),
        .least.to_cm_text(),
        .most.to_cm_text(),
        .form.person(),
        unit_hint(*.given, *.least, *.most)
    )]
    Absurd {
        /// Which.
        dimension: Dimension,
        /// Whose body.
        form: BodyForm,
        /// What was given.
        given: Mm,
        /// The least that is believed.
        least: Mm,
        /// The most that is believed.
        most: Mm,
    },
    /// A dimension that nothing else tells.
    #[error("{} is missing; {}", .dimension.iso_name(*.form), .dimension.how_to_take())]
    Missing {
        /// Which.
        dimension: Dimension,
        /// Whose body.
        form: BodyForm,
    },
    /// The under-bust is not smaller than the bust.
    #[error(
        "under-bust girth {} is not smaller than bust girth {}; take both again, the under-bust just below the breasts",
        .underbust.to_cm_text(), .bust.to_cm_text()
    )]
    UnderbustNotBelowBust {
        /// Under-bust girth.
        underbust: Mm,
        /// Bust girth.
        bust: Mm,
    },
    /// The bust point lies at or near the waist: side neck to bust point against the front waist length it is part
    /// of.
    #[error(
        "side neck to bust point {} leaves less than {} of the front waist length {} below it; take both in one pass of \
         the tape",
        .to_bust_point.to_cm_text(), .least_below.to_cm_text(), .front_waist.to_cm_text()
    )]
    BustPointTooLow {
        /// Side neck to bust point.
        to_bust_point: Mm,
        /// Front waist length, taken over the bust point.
        front_waist: Mm,
        /// What must be left between bust point and waist.
        least_below: Mm,
    },
    /// The hip is so much smaller than the waist that one of the two must be wrong.
    #[error(
        "hip girth {} is less than {:.0} % of waist girth {}; take both again",
        .hip.to_cm_text(), .least_share * 100.0, .waist.to_cm_text()
    )]
    HipFarBelowWaist {
        /// Hip girth.
        hip: Mm,
        /// Waist girth.
        waist: Mm,
        /// The least share of the waist that is believed.
        least_share: f64,
    },
    /// The front part of the crotch length is not a part of it.
    #[error(
        "front crotch length {} is not shorter than the total {}; take the front part to the crotch point only",
        .front.to_cm_text(), .total.to_cm_text()
    )]
    CrotchFrontNotAPart {
        /// The front part.
        front: Mm,
        /// The whole.
        total: Mm,
    },
    /// An age that is not a number or that nobody has.
    #[error("age {given} is not between 0 and {most:.0} years; correct it or leave it out")]
    Age {
        /// What was given, in years.
        given: f64,
        /// The greatest age that is believed.
        most: f64,
    },
    /// A body mass that is not a number or that nobody has.
    #[error("body mass {given} kg is not between {least:.0} and {most:.0} kg; correct it or leave it out")]
    Mass {
        /// What was given, in kilograms.
        given: f64,
        /// The least that is believed.
        least: f64,
        /// The most that is believed.
        most: f64,
    },
}

/// Names the unit slip that would explain an absurd length, if one does.
fn unit_hint(given: Mm, least: Mm, most: Mm) -> String {
    let fits = |mm: f64| (least.get()..=most.get()).contains(&mm);
    let slips = [
        (2.54, "inches read as centimetres"),
        (1.0 / 2.54, "centimetres read as inches"),
        (10.0, "centimetres read as millimetres"),
        (0.1, "millimetres read as centimetres"),
    ];
    match slips.into_iter().find(|(factor, _)| fits(given.get() * factor)) {
        Some((factor, words)) => {
            format!(
                "; perhaps {words}: that would make it {}",
                (given * factor).to_cm_text()
            )
        }
        None => "; take it again".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A dressmaker who types 37 (inches) into a centimetre field must be told so.
    #[test]
    fn an_inch_number_is_named() {
        let (least, most) = Dimension::BustGirth.plausible_range(BodyForm::Woman);
        let error = BodyError::Absurd {
            dimension: Dimension::BustGirth,
            form: BodyForm::Woman,
            given: Mm::from_cm(37.0),
            least,
            most,
        };
        assert_eq!(
            error.to_string(),
            "bust girth 37.0 cm lies outside 60.0 cm to 200.0 cm for a woman; perhaps inches read as centimetres: that \
             would make it 94.0 cm"
        );
    }
}
