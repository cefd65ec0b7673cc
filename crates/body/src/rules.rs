//! The rules that estimate a dimension from a few others, for what the survey lacks and for children.
//!
//! Each rule is a name for paper and one formula; nothing here decides when it is used ([`complete`](crate::complete)
//! does).
//!
//! **Shapes and units.** Millimetres in and out.
//! **Source.** Own reasoning unless a rule says otherwise; the front share of the crotch length and its spread are
//! from the 4/5 of ANSUR II in `data/body` (back share 0.551 ± 0.033 women, 0.573 ± 0.037 men).
//! **Limits.** Coarse: lengths along the trunk by a share of stature miss a long-bodied wearer by two or three
//! centimetres, which is why they are asked for.

use crate::dimension::BodyForm;

/// An estimate and what it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Estimate {
    pub(crate) mm: f64,
    pub(crate) se: Option<f64>,
    pub(crate) rule: &'static str,
}

const fn own(mm: f64, rule: &'static str) -> Estimate {
    Estimate { mm, se: None, rule }
}

pub(crate) const fn underbust(bust: f64) -> Estimate {
    own(bust - 140.0, "bust girth - 140 mm (own)")
}

pub(crate) const fn high_hip(waist: f64, hip: f64) -> Estimate {
    own(
        0.4 * waist + 0.6 * hip,
        "0.4 of waist girth + 0.6 of hip girth (own)",
    )
}

pub(crate) const fn back_waist(stature: f64) -> Estimate {
    own(0.247 * stature, "0.247 of stature (own)")
}

/// Length over the neck base added to the back waist length to reach the side neck, as a share of the neck-base
/// girth.
pub(crate) const NECK_RISE: f64 = 0.055;

/// Front waist length of a body whose bust exceeds its under-bust by `cup` (women only).
pub(crate) fn front_waist(back_waist: f64, neck_base: f64, cup: Option<f64>) -> Estimate {
    let plain = back_waist + NECK_RISE * neck_base;
    match cup {
        Some(d) => own(
            plain + (0.25 * (d - 100.0)).max(0.0),
            "back waist length + 0.055 of neck base + 0.25 of the cup difference over 100 mm (own)",
        ),
        None => own(plain, "back waist length + 0.055 of neck base (own)"),
    }
}

pub(crate) const fn side_neck_to_bust_point(front_waist: f64) -> Estimate {
    own(0.6 * front_waist, "0.6 of front waist length (own)")
}

pub(crate) const fn bust_point_distance(bust: f64) -> Estimate {
    own(0.2 * bust, "0.2 of bust girth (own)")
}

pub(crate) const fn across_front(across_back: f64) -> Estimate {
    own(0.94 * across_back, "0.94 of back width (own)")
}

pub(crate) const fn side_length(stature: f64) -> Estimate {
    own(0.130 * stature, "0.130 of stature (own)")
}

pub(crate) const fn waist_to_hip(stature: f64) -> Estimate {
    own(0.124 * stature, "0.124 of stature (own)")
}

pub(crate) const fn rise_height(crotch_length: f64) -> Estimate {
    own(0.355 * crotch_length, "0.355 of crotch length (own)")
}

/// The front part of the crotch length, with its spread among people.
pub(crate) const fn crotch_length_front(form: BodyForm, crotch_length: f64) -> Estimate {
    let (share, spread, rule) = match form {
        BodyForm::Woman => (0.45, Some(0.033), "0.45 of crotch length (survey, front share)"),
        BodyForm::Man => (0.43, Some(0.037), "0.43 of crotch length (survey, front share)"),
        BodyForm::Child => (0.45, None, "0.45 of crotch length (own, as women)"),
    };
    let se = match spread {
        Some(sd) => Some(sd * crotch_length),
        None => None,
    };
    Estimate {
        mm: share * crotch_length,
        se,
        rule,
    }
}

/// Over the bent elbow. The survey's straight shoulder-to-wrist length is 0.334 (women) and 0.338 (men) of stature
/// with a spread of 18 mm about it, which is the error given; the bend adds about 5 per cent (own).
pub(crate) const fn arm_length(form: BodyForm, stature: f64) -> Estimate {
    let se = match form {
        BodyForm::Child => None,
        BodyForm::Woman | BodyForm::Man => Some(18.0),
    };
    Estimate {
        mm: 0.352 * stature,
        se,
        rule: "0.352 of stature (own)",
    }
}

/// Agrees within 4 mm with mean wrists of women and men (154, 176 mm: value from memory) at the survey's mean bodies.
pub(crate) const fn wrist(form: BodyForm, stature: f64, upper_arm: f64) -> Estimate {
    match form {
        BodyForm::Child => own(60.0 + 0.055 * stature, "60 mm + 0.055 of stature (own)"),
        BodyForm::Woman | BodyForm::Man => own(
            0.055 * stature + 0.23 * upper_arm,
            "0.055 of stature + 0.23 of upper arm (own)",
        ),
    }
}

/// Rules for children, whom no survey here measured. Neck base and thigh are the women's regressions (ANSUR II),
/// which stay near children's tables down to about 3 years (value from memory); the others are shares, because the
/// women's constant terms make a child's shoulder 2 cm too long.
pub(crate) mod child {
    use super::{Estimate, own};

    pub(crate) const fn neck_base(chest: f64, stature: f64) -> Estimate {
        own(
            0.140 * chest + 0.079 * stature + 110.0,
            "0.140 of chest girth + 0.079 of stature + 110 mm (women's, no survey of children)",
        )
    }

    pub(crate) const fn thigh(hip: f64) -> Estimate {
        own(
            0.691 * hip - 89.0,
            "0.691 of hip girth - 89 mm (women's, no survey of children)",
        )
    }

    pub(crate) const fn shoulder_length(stature: f64) -> Estimate {
        own(0.076 * stature, "0.076 of stature (own, no survey of children)")
    }

    pub(crate) const fn shoulder_girth(chest: f64) -> Estimate {
        own(1.15 * chest, "1.15 of chest girth (own, no survey of children)")
    }

    pub(crate) const fn upper_arm(chest: f64) -> Estimate {
        own(0.31 * chest, "0.31 of chest girth (own, no survey of children)")
    }

    pub(crate) const fn across_back(chest: f64) -> Estimate {
        own(0.41 * chest, "0.41 of chest girth (own, no survey of children)")
    }
}
