//! The catalogue of styles: the one list that everything else reads.

use std::fmt;
use std::hash::{Hash, Hasher};

use body::BodyForm;
use cloth::Fit;
use serde::{Serialize, Serializer};

use super::{
    Drawn, Job, bandeau, brief, crop_top, dress, fold_over, halter, halter_top, one_piece, rash_top,
    side_tie, sun_suit, tankini, ties_are_refused, triangle_top, trunks, two_piece,
};
use crate::parameter::{Parameter, Settings, Shared};
use crate::refusal::Refusal;

/// Every style, in the order in which makers choose.
const ALL: &[Style] = &[
    Style::ONE_PIECE,
    Style::HALTER_ONE_PIECE,
    Style::TWO_PIECE,
    Style::CROP_TOP,
    Style::BANDEAU,
    Style::TRIANGLE_TOP,
    Style::HALTER_TOP,
    Style::SPORTS_TOP,
    Style::TANKINI,
    Style::BRIEF,
    Style::SIDE_TIE,
    Style::FOLD_OVER,
    Style::TRUNKS,
    Style::JAMMER,
    Style::SQUARE_LEG,
    Style::BOYS_TRUNKS,
    Style::CHILDS_JAMMER,
    Style::SWIM_SHORTS,
    Style::SWIM_DRESS,
    Style::RASH_TOP,
    Style::SUN_SUIT,
];

/// What kind of garment a style is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Family {
    /// From the shoulders to the crotch.
    OnePiece,
    /// Above the waist or a little below.
    Top,
    /// Below the waist.
    Bottom,
    /// Top and bottom together.
    TwoPiece,
    /// With a skirt of its own.
    Dress,
    /// With legs.
    Trunks,
    /// With sleeves.
    RashTop,
}

impl Family {
    /// Its name on the pages.
    pub const fn name(self) -> &'static str {
        match self {
            Family::OnePiece => "One-pieces",
            Family::Top => "Tops",
            Family::Bottom => "Bottoms",
            Family::TwoPiece => "Two-pieces",
            Family::Dress => "Swim dresses",
            Family::Trunks => "Trunks",
            Family::RashTop => "Rash tops",
        }
    }
}

/// One style: what it is called, whom it is for, what may be set, how it is drawn.
pub struct StyleSpec {
    /// In the suit file: `one-piece`.
    pub key: &'static str,
    /// On the pages: `One-piece`.
    pub name: &'static str,
    /// What it is, in a line.
    pub says: &'static str,
    /// Its kind.
    pub family: Family,
    /// Whom it is drafted for.
    pub wearers: &'static [BodyForm],
    /// The shared parameters it listens to.
    pub shared: &'static [Shared],
    /// Its own.
    pub own: &'static [Parameter],
    /// Whether it is held by shoulders and crotch, so that the trunk loop must be measured.
    pub has_trunk_loop: bool,
    /// Whether it cannot be made without a tie at neck or back: then it is not offered to a child ([`ties_are_refused`]).
    pub needs_ties: bool,
    /// The fit a beginner starts from.
    pub usual_fit: Fit,
    /// What it is made of, by what is set; `None` for one that is whole in itself. It hears its parts' parameters, besides the first
    /// of its own, which chooses them.
    pub(crate) parts: Option<fn(&Settings) -> [&'static StyleSpec; 2]>,
    pub(crate) draw: fn(&Job<'_>) -> Result<Drawn, Refusal>,
}

impl StyleSpec {
    /// Whether a crotch, legs or a waist hold it down: then its length is cut shorter than the body, as its width is. A top ends free
    /// and takes the body's own lengths. Of a style of parts each part answers for itself.
    pub const fn is_held_below(&self) -> bool {
        !matches!(self.family, Family::Top | Family::RashTop)
    }

    /// Whether this parameter chooses what the style is made of.
    pub(crate) fn chooses_parts(&self, parameter: &Parameter) -> bool {
        self.parts.is_some() && self.own.first().is_some_and(|first| first.key == parameter.key)
    }
}

/// A style of the catalogue. Two are equal when their keys are.
#[derive(Clone, Copy)]
pub struct Style(&'static StyleSpec);

impl Style {
    /// One-piece suit.
    pub const ONE_PIECE: Style = Style(&one_piece::STYLE);
    /// Halter one-piece.
    pub const HALTER_ONE_PIECE: Style = Style(&halter::STYLE);
    /// Swim dress.
    pub const SWIM_DRESS: Style = Style(&dress::STYLE);
    /// A top and a brief.
    pub const TWO_PIECE: Style = Style(&two_piece::STYLE);
    /// Crop top.
    pub const CROP_TOP: Style = Style(&crop_top::CROP);
    /// Strapless top.
    pub const BANDEAU: Style = Style(&bandeau::STYLE);
    /// Two triangles on ties.
    pub const TRIANGLE_TOP: Style = Style(&triangle_top::STYLE);
    /// Top with a strap behind the neck.
    pub const HALTER_TOP: Style = Style(&halter_top::STYLE);
    /// Firm top with racer back or wide straps.
    pub const SPORTS_TOP: Style = Style(&crop_top::SPORTS);
    /// Top over the hips.
    pub const TANKINI: Style = Style(&tankini::STYLE);
    /// Brief.
    pub const BRIEF: Style = Style(&brief::STYLE);
    /// Bottom tied at the sides.
    pub const SIDE_TIE: Style = Style(&side_tie::STYLE);
    /// Bottom on a tall band that folds over.
    pub const FOLD_OVER: Style = Style(&fold_over::STYLE);
    /// Men's trunks.
    pub const TRUNKS: Style = Style(&trunks::TRUNKS);
    /// Men's jammer.
    pub const JAMMER: Style = Style(&trunks::JAMMER);
    /// Men's square-leg brief.
    pub const SQUARE_LEG: Style = Style(&trunks::SQUARE_LEG);
    /// Boys' trunks.
    pub const BOYS_TRUNKS: Style = Style(&trunks::BOYS);
    /// A child's jammer.
    pub const CHILDS_JAMMER: Style = Style(&trunks::CHILDS_JAMMER);
    /// Women's swim shorts.
    pub const SWIM_SHORTS: Style = Style(&trunks::SHORTS);
    /// Rash top.
    pub const RASH_TOP: Style = Style(&rash_top::STYLE);
    /// Sun suit: a one-piece with sleeves and a zip in front.
    pub const SUN_SUIT: Style = Style(&sun_suit::STYLE);

    /// Every style, in the order in which makers choose.
    pub const fn all() -> &'static [Style] {
        ALL
    }

    /// The style of that key in a suit file.
    pub fn of_key(key: &str) -> Option<Style> {
        ALL.iter().find(|s| s.0.key == key).copied()
    }

    /// What the catalogue says of it.
    pub const fn spec(self) -> &'static StyleSpec {
        self.0
    }

    /// Its key in suit files.
    pub const fn key(self) -> &'static str {
        self.0.key
    }

    /// Whether it listens to a shared parameter.
    pub fn has(self, shared: Shared) -> bool {
        self.0.shared.contains(&shared)
    }

    /// Whether it is drafted for bodies of this form; what must be tied at neck or back is not, for a child.
    pub fn is_for(self, form: BodyForm) -> bool {
        self.0.wearers.contains(&form) && !(form == BodyForm::Child && self.0.needs_ties)
    }

    /// Whether it is offered to a wearer of this form and age: drafted for her, and not tied at neck or back if she is a child.
    pub fn is_offered(self, form: BodyForm, age_years: Option<f64>) -> bool {
        self.is_for(form) && !(self.0.needs_ties && ties_are_refused(form, age_years))
    }

    /// Whether room for a belly is drafted for it.
    pub fn has_room_for_a_belly(self) -> bool {
        crate::figure::HAS_BELLY.contains(&self.key())
    }

    /// Whether a closure of it ends its neck piece, behind the neck: a hook or a ring; else one opens its centre.
    pub fn closes_at_the_neck(self) -> bool {
        self.own("neck_tie").is_some() && self.has(Shared::Closure)
    }

    /// Its own parameter of that key.
    pub fn own(self, key: &str) -> Option<&'static Parameter> {
        self.0.own.iter().find(|p| p.key == key)
    }
}

impl PartialEq for Style {
    fn eq(&self, other: &Style) -> bool {
        self.0.key == other.0.key
    }
}

impl Eq for Style {}

impl Hash for Style {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.0.key.hash(state);
    }
}

impl fmt::Debug for Style {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Style({})", self.0.key)
    }
}

impl Default for Style {
    /// A beginner's: the one-piece.
    fn default() -> Style {
        Style::ONE_PIECE
    }
}

impl Serialize for Style {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.0.key)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_key_is_there_once_and_found() {
        let keys: std::collections::BTreeSet<_> = ALL.iter().map(|s| s.key()).collect();
        assert_eq!(keys.len(), ALL.len());
        for style in ALL {
            assert_eq!(Style::of_key(style.key()), Some(*style));
        }
        assert_eq!(Style::of_key("cape"), None);
    }

    #[test]
    fn own_keys_do_not_hide_shared_ones() {
        for style in ALL {
            let shared = || Shared::ALL.iter().flat_map(|s| s.keys());
            let own = style.spec().own;
            for (i, parameter) in own.iter().enumerate() {
                assert!(
                    shared().all(|k| *k != parameter.key),
                    "{style:?}: {}",
                    parameter.key
                );
                assert!(own[..i].iter().all(|p| p.key != parameter.key));
                assert!(!parameter.says.is_empty());
            }
        }
    }

    #[test]
    fn what_a_parameter_hangs_on_is_there() {
        use crate::parameter::ParameterKind;
        for style in ALL {
            for parameter in style.spec().own {
                let what = format!("{style:?}: {}", parameter.key);
                for (key, words) in [parameter.only_with, parameter.or_with].into_iter().flatten() {
                    match (key, style.own(key).map(|p| p.kind)) {
                        ("skirt", None) => {
                            assert!(
                                style.has(Shared::Skirt) || style.spec().family == Family::Dress,
                                "{what}"
                            );
                        }
                        ("cups", None) => assert!(style.has(Shared::Cups), "{what}"),
                        ("lining", None) => assert!(style.has(Shared::Lining), "{what}"),
                        (_, Some(ParameterKind::Choice { options })) => {
                            assert!(!words.is_empty(), "{what}");
                            assert!(
                                words.iter().all(|w| options.iter().any(|o| o.key == *w)),
                                "{what}"
                            );
                        }
                        (_, Some(_)) => {}
                        (_, None) => panic!("{what} hangs on {key}, which is not there"),
                    }
                }
            }
        }
    }

    #[test]
    fn a_style_of_parts_has_what_its_parts_have() {
        use crate::parameter::{ParameterKind, Setting};
        for style in ALL {
            let spec = style.spec();
            let Some(parts) = spec.parts else { continue };
            let chooser = &spec.own[0];
            let ParameterKind::Choice { options } = chooser.kind else {
                panic!("{style:?}: {} chooses no parts", chooser.key);
            };
            let mut used = std::collections::BTreeSet::from([chooser.key]);
            for option in options {
                let mut own = Settings::default();
                own.set(chooser, Setting::Word(option.key));
                for part in parts(&own) {
                    assert!(
                        part.shared.iter().all(|s| style.has(*s)),
                        "{style:?}, {}",
                        part.key
                    );
                    for parameter in part.own {
                        let here = style.own(parameter.key).map(|p| (p.kind, p.only_with, p.or_with));
                        let there = Some((parameter.kind, parameter.only_with, parameter.or_with));
                        assert_eq!(here, there, "{style:?}, {}: {}", part.key, parameter.key);
                        used.insert(parameter.key);
                    }
                }
            }
            assert!(
                spec.own.iter().all(|p| used.contains(p.key)),
                "{style:?} has more than its parts"
            );
        }
    }
}
