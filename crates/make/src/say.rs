//! What the plan has to say, as a key and its arguments: the words themselves are somebody else's.
//!
//! A plan is read in more than one language and in two systems of measures. So no sentence stands in it, only a stable key
//! (`step.side_seams`, `why.covers_need`) and typed arguments; whoever shows it looks the key up and writes the arguments in the
//! reader's units. In a Fluent file a key's dots are hyphens: `step.side_seams` is the message `step-side_seams`.
//!
//! **Shapes and units.** Lengths mm; shares are ratios (0.6 is read as 60 %).

use serde::Serialize;
use units::Mm;

/// A sentence by its key, with its arguments.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Say {
    /// Stable key: `why.covers_need`.
    pub key: &'static str,
    /// Arguments by name, in the order they were given.
    pub args: Vec<(&'static str, Arg)>,
}

/// An argument of a [`Say`].
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Arg {
    /// A length along cloth, seam or elastic: shown as the reader measures it.
    Length(Mm),
    /// A setting of a machine or a width of elastic: always in millimetres.
    Setting(Mm),
    /// A ratio shown as per cent: 0.6 is 60 %.
    Share(f64),
    /// A plain number with so many digits after the point.
    Number(f64, u8),
    /// How many.
    Count(u32),
    /// A word to be looked up by its key: `stitch.zigzag`.
    Key(&'static str),
    /// A name as the maker wrote it, or of a piece: not to be translated.
    Name(String),
    /// Several, joined as a list.
    List(Vec<Arg>),
}

impl Say {
    /// A sentence without arguments.
    pub const fn plain(key: &'static str) -> Say {
        Say {
            key,
            args: Vec::new(),
        }
    }

    /// The same with one argument more.
    #[must_use]
    pub fn with(mut self, name: &'static str, arg: Arg) -> Say {
        self.args.push((name, arg));
        self
    }

    /// The argument of that name.
    pub fn arg(&self, name: &str) -> Option<&Arg> {
        self.args.iter().find(|(n, _)| *n == name).map(|(_, arg)| arg)
    }
}
