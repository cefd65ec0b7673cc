//! What can be set in a design: the parameters all styles share, and those a style has for itself.
//!
//! A style declares its own parameters as constants; suit file, pages and handbook read them from the catalogue, so that a
//! new style brings its numbers and words with it. A value the maker did not set is the parameter's usual one.
//!
//! **Shapes and units.** Lengths in mm, as worn or as finished (each says which); shares 0 to 1; angles in degrees.

use std::collections::BTreeMap;

use serde::{Serialize, Serializer};
use units::Mm;

use crate::refusal::{Refusal, within};

/// A number or word a style has for itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parameter {
    /// Key in the suit file's design section: `band_height`.
    pub key: &'static str,
    /// Name on the pages: `Band`.
    pub name: &'static str,
    /// One line: what it does on the body.
    pub says: &'static str,
    /// What may be set, and what a beginner starts from.
    pub kind: ParameterKind,
    /// The key this hangs on, and the words of it with which it does something; `None` for one that always does. Without words, it is
    /// enough that there is such a thing (`skirt`, `cups`, a length over nought).
    pub only_with: Option<(&'static str, &'static [&'static str])>,
    /// Another key that serves as well.
    pub or_with: Option<(&'static str, &'static [&'static str])>,
}

/// What a [`Parameter`] may be set to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ParameterKind {
    /// A length, mm.
    Length {
        /// Least.
        low: f64,
        /// Most.
        high: f64,
        /// A beginner's.
        usual: f64,
    },
    /// A share or a plain number.
    Number {
        /// Least.
        low: f64,
        /// Most.
        high: f64,
        /// A beginner's.
        usual: f64,
        /// `""` for a share, `"degrees"` for an angle.
        unit: &'static str,
    },
    /// One of some words.
    Choice {
        /// The words, the usual one first.
        options: &'static [Word],
    },
    /// Yes or no.
    Switch {
        /// A beginner's.
        usual: bool,
    },
}

/// One word of a [`ParameterKind::Choice`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Word {
    /// In the suit file.
    pub key: &'static str,
    /// On the pages.
    pub name: &'static str,
    /// What it does, in a line.
    pub says: &'static str,
}

impl Parameter {
    /// A length in mm.
    pub const fn length(
        key: &'static str,
        name: &'static str,
        says: &'static str,
        (low, usual, high): (f64, f64, f64),
    ) -> Parameter {
        let kind = ParameterKind::Length { low, high, usual };
        Parameter {
            key,
            name,
            says,
            kind,
            only_with: None,
            or_with: None,
        }
    }

    /// A share.
    pub const fn share(
        key: &'static str,
        name: &'static str,
        says: &'static str,
        (low, usual, high): (f64, f64, f64),
    ) -> Parameter {
        let kind = ParameterKind::Number {
            low,
            high,
            usual,
            unit: "",
        };
        Parameter {
            key,
            name,
            says,
            kind,
            only_with: None,
            or_with: None,
        }
    }

    /// A choice among words, the usual one first.
    pub const fn choice(
        key: &'static str,
        name: &'static str,
        says: &'static str,
        options: &'static [Word],
    ) -> Parameter {
        let kind = ParameterKind::Choice { options };
        Parameter {
            key,
            name,
            says,
            kind,
            only_with: None,
            or_with: None,
        }
    }

    /// Yes or no.
    pub const fn switch(key: &'static str, name: &'static str, says: &'static str, usual: bool) -> Parameter {
        let kind = ParameterKind::Switch { usual };
        Parameter {
            key,
            name,
            says,
            kind,
            only_with: None,
            or_with: None,
        }
    }

    /// The same, which does something only while `key` is one of these words.
    pub const fn only_with(self, key: &'static str, words: &'static [&'static str]) -> Parameter {
        Parameter {
            only_with: Some((key, words)),
            ..self
        }
    }

    /// The same, which does something while this key is one of these words, too.
    pub const fn or_with(self, key: &'static str, words: &'static [&'static str]) -> Parameter {
        Parameter {
            or_with: Some((key, words)),
            ..self
        }
    }

    /// The value in force when nothing is set.
    pub const fn usual(&self) -> Setting {
        match self.kind {
            ParameterKind::Length { usual, .. } => Setting::Length(Mm::new(usual)),
            ParameterKind::Number { usual, .. } => Setting::Number(usual),
            ParameterKind::Choice { options } => Setting::Word(match options {
                [first, ..] => first.key,
                [] => "",
            }),
            ParameterKind::Switch { usual } => Setting::Yes(usual),
        }
    }
}

/// How many parameters these lists have together.
pub(crate) const fn count(lists: &[&[Parameter]]) -> usize {
    let (mut n, mut i) = (0, 0);
    while i < lists.len() {
        n += lists[i].len();
        i += 1;
    }
    n
}

/// One list of these, in their order; `N` is their [`count`].
pub(crate) const fn joined<const N: usize>(lists: &[&[Parameter]]) -> [Parameter; N] {
    let mut all = [Parameter::switch("", "", "", false); N];
    let (mut at, mut i) = (0, 0);
    while i < lists.len() {
        let mut j = 0;
        while j < lists[i].len() {
            all[at] = lists[i][j];
            (at, j) = (at + 1, j + 1);
        }
        i += 1;
    }
    all
}

impl Word {
    /// A word with its name and what it does.
    pub const fn new(key: &'static str, name: &'static str, says: &'static str) -> Word {
        Word { key, name, says }
    }
}

/// The value of a [`Parameter`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Setting {
    /// A length.
    Length(Mm),
    /// A share, an angle, a plain number.
    Number(f64),
    /// The key of a word.
    Word(&'static str),
    /// Yes or no.
    Yes(bool),
}

/// What the maker set of a style's own parameters.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Settings(BTreeMap<&'static str, Setting>);

impl Settings {
    /// Sets a parameter; a value out of range is refused by the draft.
    pub fn set(&mut self, parameter: &Parameter, value: Setting) {
        self.0.insert(parameter.key, value);
    }

    /// What is in force.
    pub fn get(&self, parameter: &Parameter) -> Setting {
        self.0
            .get(parameter.key)
            .copied()
            .unwrap_or_else(|| parameter.usual())
    }

    /// Whether the maker set it herself.
    pub fn is_set(&self, parameter: &Parameter) -> bool {
        self.0.contains_key(parameter.key)
    }

    /// A length or number in force, within its range.
    ///
    /// # Errors
    /// [`Refusal::Parameter`] outside its range, [`Refusal::Combination`] for a value of another kind.
    pub(crate) fn number(&self, parameter: &Parameter) -> Result<f64, Refusal> {
        let (low, high, unit) = match parameter.kind {
            ParameterKind::Length { low, high, .. } => (low, high, "mm"),
            ParameterKind::Number { low, high, unit, .. } => (low, high, unit),
            ParameterKind::Choice { .. } | ParameterKind::Switch { .. } => return Err(wrong_kind(parameter)),
        };
        let value = match self.get(parameter) {
            Setting::Length(mm) => mm.get(),
            Setting::Number(number) => number,
            Setting::Word(_) | Setting::Yes(_) => return Err(wrong_kind(parameter)),
        };
        within(parameter.key, value, (low, high), unit, parameter.says)?;
        Ok(value)
    }

    /// The word in force.
    ///
    /// # Errors
    /// [`Refusal::Combination`] for a word the parameter does not have.
    pub(crate) fn word(&self, parameter: &Parameter) -> Result<&'static str, Refusal> {
        match (self.get(parameter), parameter.kind) {
            (Setting::Word(word), ParameterKind::Choice { options })
                if options.iter().any(|o| o.key == word) =>
            {
                Ok(word)
            }
            _ => Err(wrong_kind(parameter)),
        }
    }

    /// Whether a switch is on.
    ///
    /// # Errors
    /// [`Refusal::Combination`] for a value that is not yes or no.
    pub(crate) fn is_on(&self, parameter: &Parameter) -> Result<bool, Refusal> {
        match self.get(parameter) {
            Setting::Yes(is_on) => Ok(is_on),
            _ => Err(wrong_kind(parameter)),
        }
    }
}

impl Serialize for Settings {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(&self.0)
    }
}

fn wrong_kind(parameter: &Parameter) -> Refusal {
    Refusal::Combination {
        parameter: parameter.key,
        why: "the value is not of the kind this parameter takes; see the style's list of parameters",
    }
}

/// A group of parameters of the block that several styles listen to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shared {
    /// Shape and depth of the front neckline.
    Neckline,
    /// Shape and depth of the back.
    Back,
    /// Width and place of the strap.
    Strap,
    /// Height of the leg.
    Leg,
    /// Cover of the seat.
    Seat,
    /// How high a bottom comes.
    Rise,
    /// Width of the crotch.
    Crotch,
    /// Shaping over the bust.
    BustShaping,
    /// Lining.
    Lining,
    /// Cups.
    Cups,
    /// Skirt.
    Skirt,
    /// What opens the suit.
    Closure,
}

impl Shared {
    /// All of them, top to bottom of the body.
    pub const ALL: [Shared; 12] = [
        Shared::Neckline,
        Shared::Back,
        Shared::Strap,
        Shared::BustShaping,
        Shared::Leg,
        Shared::Seat,
        Shared::Rise,
        Shared::Crotch,
        Shared::Lining,
        Shared::Cups,
        Shared::Skirt,
        Shared::Closure,
    ];

    /// Its keys in the suit file's design section.
    pub const fn keys(self) -> &'static [&'static str] {
        match self {
            Shared::Neckline => &["neckline", "neck_depth", "neck_depth_below_pit"],
            Shared::Back => &["back", "back_depth", "back_depth_below_nape"],
            Shared::Strap => &["strap_width", "strap_position"],
            Shared::Leg => &["leg", "leg_share", "side_seam_length"],
            Shared::Seat => &["seat"],
            Shared::Rise => &["rise"],
            Shared::Crotch => &["crotch_width"],
            Shared::BustShaping => &["bust_shaping"],
            Shared::Lining => &["lining"],
            Shared::Cups => &["cups"],
            Shared::Skirt => &["skirt"],
            Shared::Closure => &["closure"],
        }
    }

    /// What it does on the body, in a line.
    pub const fn says(self) -> &'static str {
        match self {
            Shared::Neckline => "shape of the front neckline and how deep it lies below the pit of the neck",
            Shared::Back => "shape of the back and how low it lies below the nape",
            Shared::Strap => "how wide the strap is on the shoulder and how far out it sits",
            Shared::Leg => "how high the leg is cut at the side",
            Shared::Seat => "how much of the seat the back covers",
            Shared::Rise => "how high the bottom comes",
            Shared::Crotch => "finished width at the narrowest place between the legs",
            Shared::BustShaping => {
                "how the front is shaped over the bust: ease, a side dart, or princess seams"
            }
            Shared::Lining => {
                "what is lined: nothing (a toile), the crotch (of a top its front), the front, or all of it"
            }
            Shared::Cups => "marks to sew cups to, or a pocket in the lining to slip them into",
            Shared::Skirt => "a skirt, how full, where it joins and how far it hangs below the crotch",
            Shared::Closure => {
                "what opens the suit for getting in: a zip, a clasp, a hook or a ring, where, and how long"
            }
        }
    }
}
