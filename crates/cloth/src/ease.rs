//! Negative ease: how much smaller than the body each level is cut, from the cloth's own stretch.
//!
//! A suit uses a share of the cloth's stretch that grows with the chosen fit and falls where the body is soft, and always
//! leaves more than half of the stretch for movement and the way in.
//!
//! **Shapes and units.** Stretches are ratios; `s` is the stretch of the pair of layers on the body, around or lengthwise.
//! **Source.** Girth reductions of 10 to 20 % with much smaller length reductions: common practice, no single source. The
//! shares `u` and `m` are our own reasoning.
//! **Limits.** The worn stretch is the mean of a level; bust and side differ by some 0.08 of stretch.

use serde::{Deserialize, Serialize};
use thiserror::Error;
use units::{Level, Stretch};

/// No level is worn past this share of the cloth's stretch: the reserve for movement and the way in (own).
pub const RESERVE_SHARE: f64 = 0.45;
/// No level is worn past this stretch, however far the cloth goes (own).
pub const WORN_CAP: f64 = 0.40;
/// Lengthwise the same two limits are lower, because bending needs length (own).
pub const LENGTH_RESERVE_SHARE: f64 = 0.30;
/// See [`LENGTH_RESERVE_SHARE`].
pub const LENGTH_WORN_CAP: f64 = 0.20;
/// Below this lengthwise stretch the cloth counts as having none.
pub const NO_LENGTH_STRETCH: f64 = 0.10;
/// Length factor for a cloth without lengthwise stretch: 1.5 % extra.
pub const NO_STRETCH_LENGTH_FACTOR: f64 = 1.015;

/// The shares of the stretch an own fit may use around: less sits like a bag, more is past every reserve (own).
pub const OWN_AROUND: (f64, f64) = (0.01, 0.50);
/// The shares an own fit may use lengthwise (own).
pub const OWN_LENGTHWISE: (f64, f64) = (0.0, 0.40);

/// Two shares of the cloth's stretch in place of a named fit, as found on a suit that fits. Always inside [`OWN_AROUND`]
/// and [`OWN_LENGTHWISE`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "OwnFitRecord")]
pub struct OwnFit {
    around_share: f64,
    lengthwise_share: f64,
}

/// An [`OwnFit`] as it is stored, before its shares are looked at.
#[derive(Deserialize)]
struct OwnFitRecord {
    around_share: f64,
    lengthwise_share: f64,
}

impl TryFrom<OwnFitRecord> for OwnFit {
    type Error = OwnFitError;

    fn try_from(record: OwnFitRecord) -> Result<OwnFit, OwnFitError> {
        OwnFit::new(record.around_share, record.lengthwise_share)
    }
}

// Its shares are never NaN: see `OwnFit::new`.
impl Eq for OwnFit {}

/// A share of the stretch that no suit can use.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
#[error("the share of the stretch used {way} is {share:.3}: give {low:.2} to {high:.2}")]
pub struct OwnFitError {
    /// `around` or `lengthwise`.
    pub way: &'static str,
    /// What was given.
    pub share: f64,
    /// Least allowed.
    pub low: f64,
    /// Greatest allowed.
    pub high: f64,
}

impl OwnFit {
    /// An own fit of these shares of the cloth's stretch, 0.18 and 0.10 being the regular fit's.
    ///
    /// # Errors
    /// [`OwnFitError`] for a share that is no number, or outside [`OWN_AROUND`] or [`OWN_LENGTHWISE`].
    pub fn new(around_share: f64, lengthwise_share: f64) -> Result<OwnFit, OwnFitError> {
        for (way, share, (low, high)) in [
            ("around", around_share, OWN_AROUND),
            ("lengthwise", lengthwise_share, OWN_LENGTHWISE),
        ] {
            if !(low..=high).contains(&share) {
                return Err(OwnFitError {
                    way,
                    share,
                    low,
                    high,
                });
            }
        }
        Ok(OwnFit {
            around_share,
            lengthwise_share,
        })
    }

    /// Share of the stretch used around.
    pub const fn around_share(self) -> f64 {
        self.around_share
    }

    /// Share of the stretch used lengthwise.
    pub const fn lengthwise_share(self) -> f64 {
        self.lengthwise_share
    }
}

/// How much of the cloth's stretch a suit uses.
///
/// The named fits suit most; an own fit carries over what a suit that fits was found to use.
///
/// # Example
/// ```
/// use cloth::{Fit, OwnFit};
/// let like_mine = Fit::Own(OwnFit::new(0.22, 0.12).expect("shares a suit can use"));
/// assert_eq!((like_mine.key(), like_mine.around(), like_mine.lengthwise()), ("own", 0.22, 0.12));
/// assert!(OwnFit::new(0.9, 0.12).is_err());
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Fit {
    /// Rash tops, children, anyone who dislikes squeeze.
    Relaxed,
    /// The usual suit.
    #[default]
    Regular,
    /// Lap swimming.
    Firm,
    /// Racing.
    Race,
    /// Shares of its own.
    Own(OwnFit),
}

impl Fit {
    /// The fits that have a name, loosest first.
    pub const NAMED: [Fit; 4] = [Fit::Relaxed, Fit::Regular, Fit::Firm, Fit::Race];

    /// The next looser named fit: of those that use a smaller share around, the closest. `None` at the loose end.
    pub fn looser(self) -> Option<Fit> {
        Fit::NAMED.into_iter().rev().find(|f| f.around() < self.around())
    }

    /// The next closer named fit, `None` at the tight end.
    pub fn firmer(self) -> Option<Fit> {
        Fit::NAMED.into_iter().find(|f| f.around() > self.around())
    }

    /// The name in suit files.
    pub const fn key(self) -> &'static str {
        match self {
            Fit::Relaxed => "relaxed",
            Fit::Regular => "regular",
            Fit::Firm => "firm",
            Fit::Race => "race",
            Fit::Own(_) => "own",
        }
    }

    /// Share of the stretch used around.
    pub const fn around(self) -> f64 {
        match self {
            Fit::Relaxed => 0.12,
            Fit::Regular => 0.18,
            Fit::Firm => 0.26,
            Fit::Race => 0.34,
            Fit::Own(own) => own.around_share,
        }
    }

    /// Share of the stretch used lengthwise.
    pub const fn lengthwise(self) -> f64 {
        match self {
            Fit::Relaxed => 0.07,
            Fit::Regular => 0.10,
            Fit::Firm => 0.14,
            Fit::Race => 0.18,
            Fit::Own(own) => own.lengthwise_share,
        }
    }
}

/// How much of the fit's share a level takes (own; the bust less, to avoid flattening; the waist must pass the hips).
pub const fn level_share(level: Level) -> f64 {
    match level {
        Level::NeckBase | Level::Shoulder | Level::UpperChest => 0.60,
        Level::Bust => 0.85,
        Level::Waist | Level::Navel => 0.95,
        Level::Underbust | Level::HighHip | Level::Hip | Level::Crotch => 1.00,
        Level::Thigh => 0.50,
    }
}

/// The stretch a level is worn at: min(u m S, 0.45 S, 0.40).
///
/// # Example
/// ```
/// use cloth::{Fit, worn_around};
/// use units::{Level, Stretch};
/// let worn = worn_around(Level::Hip, Fit::Regular, Stretch::from_percent(85.0));
/// assert!((worn.factor() - 0.8673).abs() < 1e-4);
/// ```
pub fn worn_around(level: Level, fit: Fit, s: Stretch) -> Stretch {
    let s = s.ratio();
    Stretch::from_ratio(
        (fit.around() * level_share(level) * s)
            .min(RESERVE_SHARE * s)
            .min(WORN_CAP),
    )
}

/// Pattern length / body length lengthwise, for a place that takes the share `m` of the length ease (1, or 0.75 for a
/// woman's front above the waist). 1.015, a little extra, for a cloth without lengthwise stretch.
pub fn length_factor(m: f64, fit: Fit, s: Stretch) -> f64 {
    let s = s.ratio();
    if s < NO_LENGTH_STRETCH {
        return NO_STRETCH_LENGTH_FACTOR;
    }
    let worn = (fit.lengthwise() * m * s)
        .min(LENGTH_RESERVE_SHARE * s)
        .min(LENGTH_WORN_CAP);
    1.0 / (1.0 + worn)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_own_fit_is_held_to_what_a_suit_can_use() {
        assert!(OwnFit::new(f64::NAN, 0.1).is_err());
        assert!(OwnFit::new(0.2, f64::INFINITY).is_err());
        assert_eq!(
            OwnFit::new(0.7, 0.1).unwrap_err().to_string(),
            "the share of the stretch used around is 0.700: give 0.01 to 0.50"
        );
        assert!(OwnFit::new(0.2, -0.01).is_err());
    }

    #[test]
    fn an_own_fit_with_a_named_ones_shares_cuts_the_same() {
        let s = Stretch::from_percent(70.0);
        for named in Fit::NAMED {
            let own = Fit::Own(OwnFit::new(named.around(), named.lengthwise()).unwrap());
            assert_eq!(
                worn_around(Level::Waist, own, s),
                worn_around(Level::Waist, named, s)
            );
            assert_eq!(length_factor(0.75, own, s), length_factor(0.75, named, s));
        }
    }

    #[test]
    fn looser_and_firmer_step_over_the_named_fits() {
        assert_eq!(Fit::Relaxed.looser(), None);
        assert_eq!(Fit::Firm.looser(), Some(Fit::Regular));
        assert_eq!(Fit::Race.firmer(), None);
        let own = Fit::Own(OwnFit::new(0.20, 0.10).unwrap());
        assert_eq!(
            (own.looser(), own.firmer()),
            (Some(Fit::Regular), Some(Fit::Firm))
        );
    }

    #[test]
    fn a_stored_own_fit_is_checked_when_read() {
        let own = Fit::Own(OwnFit::new(0.2, 0.1).unwrap());
        let text = serde_json::to_string(&own).unwrap();
        assert_eq!(text, r#"{"own":{"around_share":0.2,"lengthwise_share":0.1}}"#);
        assert_eq!(serde_json::from_str::<Fit>(&text).unwrap(), own);
        assert_eq!(serde_json::from_str::<Fit>(r#""firm""#).unwrap(), Fit::Firm);
        assert!(serde_json::from_str::<Fit>(&text.replace("0.2", "0.9")).is_err());
    }
}
