//! How much of the body the lining covers, which decides whose stretch the draft works with.

use serde::Serialize;

/// How far the lining reaches.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LiningReach {
    /// No lining.
    None,
    /// The crotch only: it is a set width and not reduced, so the shell alone sets the draft.
    #[default]
    CrotchOnly,
    /// The front: the front is as stiff as both layers, the back as the shell; the draft takes the stiffer.
    FrontOnly,
    /// Front and back.
    Full,
}

impl LiningReach {
    /// Where it reaches, as a phrase: `the whole suit`.
    pub const fn words(self) -> &'static str {
        match self {
            LiningReach::None => "nowhere",
            LiningReach::CrotchOnly => "the crotch",
            LiningReach::FrontOnly => "the front",
            LiningReach::Full => "the whole suit",
        }
    }

    /// Whether some level of the body wears shell and lining together.
    pub const fn is_layered(self) -> bool {
        matches!(self, LiningReach::FrontOnly | LiningReach::Full)
    }
}
