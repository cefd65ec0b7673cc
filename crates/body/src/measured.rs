//! A wearer as measured, and the complete body the draft works from.

use serde::Serialize;
use units::Mm;

use crate::dimension::{BodyForm, Dimension};

/// The level at which the tape lay for everything called "waist".
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum WaistLevel {
    /// The natural waist, between the lowest rib and the hip bone.
    #[default]
    Natural,
    /// The navel, as surveys take it.
    Navel,
}

/// How the front waist length was taken.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FrontTaken {
    /// From the side neck over the bust point to the waist.
    #[default]
    OverBustPoint,
    /// Down the midline.
    Midline,
}

/// Which number the maker trusts when trunk circumference and its parts disagree by more than 100 mm.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Trust {
    /// The trunk circumference.
    Trunk,
    /// The single lengths.
    Parts,
}

/// Where a dimension of a [`Body`] comes from.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum Origin {
    /// Taken with the tape.
    Taken,
    /// Estimated.
    Estimated {
        /// Standard error, where the rule has one.
        se: Option<Mm>,
        /// The rule, in a few words.
        rule: &'static str,
    },
}

/// One dimension of a body and where it comes from.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Known {
    /// Its length.
    pub value: Mm,
    /// Taken or estimated.
    #[serde(flatten)]
    pub origin: Origin,
}

/// A wearer as the tape found her: what was taken, and how. Lengths not taken are `None`.
#[derive(Clone, Debug, PartialEq)]
pub struct Wearer {
    /// What she is called on paper.
    pub name: String,
    /// Woman, man or child.
    pub form: BodyForm,
    /// Age in years, if known; needed for a child.
    pub age_years: Option<f64>,
    /// Body mass in kilograms, if known: only sharpens estimates and the search for tape slips.
    pub mass_kg: Option<f64>,
    /// Where the waist was taken.
    pub waist_level: WaistLevel,
    /// How the front waist length was taken.
    pub front_taken: FrontTaken,
    /// Which side the maker believes if the trunk loop disagrees with its parts.
    pub trust: Option<Trust>,
    /// What was taken.
    pub taken: Dimensions,
}

/// A set of dimensions, some absent; for a body that is not alike left and right, some with another value on the right.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Dimensions {
    values: [Option<Mm>; Dimension::ALL.len()],
    right: [Option<Mm>; Dimension::SIDED.len()],
}

impl Dimensions {
    /// The dimension, if it is there.
    pub fn get(&self, dimension: Dimension) -> Option<Mm> {
        self.values[dimension as usize]
    }

    /// Puts a dimension in, replacing what was there.
    pub fn set(&mut self, dimension: Dimension, value: Mm) {
        self.values[dimension as usize] = Some(value);
    }

    /// Takes a dimension out.
    pub fn remove(&mut self, dimension: Dimension) -> Option<Mm> {
        self.values[dimension as usize].take()
    }

    /// The dimension on the wearer's right, where it was taken there too.
    pub fn right(&self, dimension: Dimension) -> Option<Mm> {
        let place = Dimension::SIDED.iter().position(|d| *d == dimension)?;
        self.right[place]
    }

    /// Puts in a dimension of the wearer's right side; what [`Dimensions::set`] puts in is then the left's. False, and nothing
    /// done, for a dimension that has no sides.
    pub fn set_right(&mut self, dimension: Dimension, value: Mm) -> bool {
        match Dimension::SIDED.iter().position(|d| *d == dimension) {
            Some(place) => {
                self.right[place] = Some(value);
                true
            }
            None => false,
        }
    }

    /// What was taken on the right, in the order of [`Dimension::SIDED`].
    pub fn iter_right(&self) -> impl Iterator<Item = (Dimension, Mm)> + '_ {
        Dimension::SIDED
            .into_iter()
            .zip(self.right)
            .filter_map(|(d, v)| v.map(|v| (d, v)))
    }

    /// What is there, in the order of [`Dimension::ALL`].
    pub fn iter(&self) -> impl Iterator<Item = (Dimension, Mm)> + '_ {
        Dimension::ALL
            .into_iter()
            .filter_map(|d| self.get(d).map(|v| (d, v)))
    }
}

/// A complete body: every dimension the draft needs, each taken or estimated.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// Woman, man or child.
    pub form: BodyForm,
    /// Age in years, if known.
    pub age_years: Option<f64>,
    /// Where the waist was taken.
    pub waist_level: WaistLevel,
    /// How the front waist length was taken; meaningless when that dimension is estimated.
    pub front_taken: FrontTaken,
    /// Which side the maker believes if the trunk loop disagrees with its parts.
    pub trust: Option<Trust>,
    pub(crate) values: [Option<Known>; Dimension::ALL.len()],
    pub(crate) right: [Option<Mm>; Dimension::SIDED.len()],
}

impl Body {
    /// The body as its right side is, both sides alike; `None` where nothing was taken on the right that differs.
    pub fn right_side(&self) -> Option<Body> {
        let mut other = Body {
            right: [None; Dimension::SIDED.len()],
            ..self.clone()
        };
        for (dimension, value) in Dimension::SIDED.into_iter().zip(self.right) {
            if let Some(value) = value {
                other.values[dimension as usize] = Some(Known {
                    value,
                    origin: Origin::Taken,
                });
            }
        }
        let is_other = Dimension::SIDED.iter().any(|d| other.mm(*d) != self.mm(*d));
        is_other.then_some(other)
    }

    /// The dimension, if the body has it (a man has no under-bust; a body without a trunk circumference has none).
    pub fn get(&self, dimension: Dimension) -> Option<Known> {
        self.values[dimension as usize]
    }

    /// The dimension in millimetres, or `None`.
    pub fn mm(&self, dimension: Dimension) -> Option<f64> {
        self.get(dimension).map(|k| k.value.get())
    }

    /// Whether the dimension was taken with the tape.
    pub fn is_taken(&self, dimension: Dimension) -> bool {
        matches!(
            self.get(dimension),
            Some(Known {
                origin: Origin::Taken,
                ..
            })
        )
    }
}
