//! Corrections for a figure, room for a belly, room to grow: each a few words a maker would say of the body, and an exact amount
//! once one is said.
//!
//! Which of them do anything to a suit is found on its draft: a brief has no shoulders to move forward. So a style needs no list.
//!
//! **Source.** The amounts behind the words are our own first tries; those of a belly go by trimester as the draft's notes have them.

use body::BodyForm;
use draft::{Design, draft};
use serde::Serialize;
use ts_rs::TS;
use units::Mm;
use utoipa::ToSchema;

use super::besides::Group;
use super::{Drafting, Shown, at_path, length_field, shown, typed_text, written};
use crate::suit_file::Parts;
use crate::view::{Choice, ChoiceOption, Field};

/// A correction in words, with its amount once there is one.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct AmountView {
    /// Key: `sway_back`.
    pub key: String,
    /// Which way it goes: -1, 0 or 1; for the drawing.
    pub way: i8,
    /// The words; each stands for a length, the empty one for none.
    pub choice: Choice,
    /// The length itself; none while nothing is corrected.
    pub field: Option<Field>,
}

/// A length of the design that is nought unless the maker says so.
pub(super) struct Amount {
    pub(super) key: &'static str,
    pub(super) path: &'static str,
    pub(super) group: Group,
    pub(super) name: &'static str,
    pub(super) says: &'static str,
    /// The word for nought.
    none: &'static str,
    /// Lengths in mm and their words, from least to most.
    steps: &'static [(f64, &'static str)],
    /// As in `docs/suit-file.md`, mm.
    pub(super) range: (f64, f64),
    /// Whether a body of this form may have it in a suit of this design.
    is_for: fn(&Design, BodyForm) -> bool,
    get: fn(&Design) -> Mm,
    put: fn(&mut Design, Mm),
}

pub(super) const AMOUNTS: [Amount; 8] = [
    Amount {
        key: "sway_back",
        path: "design.figure.sway_back",
        group: Group::Figure,
        name: "Sway back",
        says: "Folds lie across a hollow back: takes cloth out of the centre back at the waist. Only after a toile has shown them.",
        none: "None",
        steps: &[(6.0, "Some"), (12.0, "Much")],
        range: (0.0, 15.0),
        is_for: |_, _| true,
        get: |d| d.figure.sway_back,
        put: |d, mm| d.figure.sway_back = mm,
    },
    Amount {
        key: "seat",
        path: "design.figure.seat",
        group: Group::Figure,
        name: "Seat fullness",
        says: "The side seam swings to the back, or the seat hangs: moves hip girth and crotch length to the back or to the front.",
        none: "As taken",
        steps: &[(-10.0, "Flat"), (10.0, "Full")],
        range: (-20.0, 20.0),
        is_for: |_, _| true,
        get: |d| d.figure.seat,
        put: |d, mm| d.figure.seat = mm,
    },
    Amount {
        key: "abdomen",
        path: "design.figure.abdomen",
        group: Group::Figure,
        name: "Abdomen",
        says: "The side seam swings to the front: moves high hip girth and some crotch length to the front.",
        none: "As taken",
        steps: &[(20.0, "Full")],
        range: (0.0, 40.0),
        is_for: |_, _| true,
        get: |d| d.figure.abdomen,
        put: |d, mm| d.figure.abdomen = mm,
    },
    Amount {
        key: "shoulder_forward",
        path: "design.figure.shoulder_forward",
        group: Group::Figure,
        name: "Shoulders",
        says: "The shoulder seam shows from behind: lays it further forward, the front shorter there and the back longer.",
        none: "As taken",
        steps: &[(10.0, "Forward")],
        range: (0.0, 20.0),
        is_for: |_, _| true,
        get: |d| d.figure.shoulder_forward,
        put: |d, mm| d.figure.shoulder_forward = mm,
    },
    Amount {
        key: "bust_height",
        path: "design.figure.bust_height",
        group: Group::Figure,
        name: "Bust height",
        says: "Fullness and dart lie above or below the bust point: sets it higher or lower than it was taken.",
        none: "As taken",
        steps: &[(-12.0, "Low"), (12.0, "High")],
        range: (-25.0, 25.0),
        is_for: |_, form| form == BodyForm::Woman,
        get: |d| d.figure.bust_height,
        put: |d, mm| d.figure.bust_height = mm,
    },
    Amount {
        key: "rise_length",
        path: "design.figure.rise_length",
        group: Group::Figure,
        name: "Rise length",
        says: "The suit's waist lies below or above hers: sets it higher for a long rise, lower for a short one. The trunk loop stays.",
        none: "As taken",
        steps: &[(-12.0, "Short"), (12.0, "Long")],
        range: (-25.0, 25.0),
        is_for: |_, _| true,
        get: |d| d.figure.rise_length,
        put: |d, mm| d.figure.rise_length = mm,
    },
    Amount {
        key: "growth",
        path: "design.growth",
        group: Group::Growth,
        name: "Room to grow",
        says: "How much longer the suit is round the trunk; sleeves are as much longer.",
        none: "No room",
        steps: &[(10.0, "A little"), (15.0, "Half a year"), (20.0, "A year")],
        range: (0.0, 25.0),
        is_for: |_, form| form == BodyForm::Child,
        get: |d| d.growth,
        put: |d, mm| d.growth = mm,
    },
    Amount {
        key: "belly",
        path: "design.figure.belly",
        group: Group::Mother,
        name: "Belly",
        says: "How much longer the front is between waist and leg; it is gathered into side seams that stay as they are.",
        none: "None",
        steps: &[
            (15.0, "First trimester"),
            (35.0, "Second trimester"),
            (60.0, "Third trimester"),
        ],
        range: (0.0, 60.0),
        is_for: |d, form| form == BodyForm::Woman && d.style.has_room_for_a_belly(),
        get: |d| d.figure.belly,
        put: |d, mm| d.figure.belly = mm,
    },
];

/// Which of them this suit can have: those that change a piece or are refused for a reason of the design, and those already set.
pub(super) fn offered(parts: Option<&Parts>, drafting: Option<&Drafting<'_>>) -> [bool; AMOUNTS.len()] {
    AMOUNTS.each_ref().map(|amount| {
        let is_set = parts.is_some_and(|p| (amount.get)(&p.design) != Mm::ZERO);
        is_set || drafting.is_some_and(|drafting| amount.does_something(drafting))
    })
}

impl Amount {
    fn does_something(&self, drafting: &Drafting<'_>) -> bool {
        if !(self.is_for)(drafting.design, drafting.body.form) {
            return false;
        }
        let least = self.steps.last().map_or(self.range.1, |(mm, _)| *mm);
        let shows = drafting.tries.of(self.path, least, || {
            let mut design = drafting.design.clone();
            (self.put)(&mut design, Mm::new(least));
            // What the draft refuses it gives its reason for once it is asked for.
            let shows = draft(drafting.body, drafting.cloth, &design)
                .map_or(true, |drawn| drawn.pieces != drafting.draft.pieces);
            Some(f64::from(u8::from(shows)))
        });
        shows == Some(1.0)
    }

    /// Its value in a design.
    pub(super) fn of(&self, design: &Design) -> Mm {
        (self.get)(design)
    }

    pub(super) fn view(&self, show: &Shown<'_>, parts: &Parts) -> AmountView {
        let unit = show.unit();
        let typed = at_path(&show.suit.body, self.path).and_then(typed_text);
        let mm = self.of(&parts.design);
        let value = typed
            .clone()
            .filter(|_| mm != Mm::ZERO || is_wrong(show, self.path));
        let mut options = vec![ChoiceOption {
            value: String::new(),
            label: self.none.to_owned(),
        }];
        // An amount of her own stands under the nearest word.
        let nearest = self
            .steps
            .iter()
            .map(|(step, _)| *step)
            .filter(|step| step.signum() == mm.get().signum())
            .min_by(|a, b| (a - mm.get()).abs().total_cmp(&(b - mm.get()).abs()));
        let (below, above): (Vec<_>, Vec<_>) = self.steps.iter().partition(|(step, _)| *step < 0.0);
        let option = |(step, label): &(f64, &str)| ChoiceOption {
            value: match (&value, nearest) {
                (Some(typed), Some(nearest)) if nearest == *step => typed.clone(),
                _ => written(*step, unit),
            },
            label: (*label).to_owned(),
        };
        options.splice(0..0, below.into_iter().map(option));
        options.extend(above.into_iter().map(option));
        let field = value.is_some().then(|| {
            length_field(
                show,
                self.path,
                self.name,
                "The exact amount.",
                Some(shown(mm.get(), unit).why(self.path.to_owned())),
                self.range,
            )
        });
        AmountView {
            key: self.key.to_owned(),
            way: match mm.get() {
                mm if mm < 0.0 => -1,
                mm if mm > 0.0 => 1,
                _ => 0,
            },
            choice: Choice {
                document: show.suit.id.clone(),
                path: self.path.to_owned(),
                label: self.name.to_owned(),
                says: self.says.to_owned(),
                value: value.unwrap_or_default(),
                options,
            },
            field,
        }
    }
}

fn is_wrong(show: &Shown<'_>, path: &str) -> bool {
    show.faults.iter().any(|f| f.field == path)
}

/// Name and word of such a path and value, for the history.
pub(super) fn words_of(path: &str, value: &str) -> Option<(String, String)> {
    let amount = AMOUNTS.iter().find(|a| a.path == path)?;
    let mm = units::parse_length(value, units::LengthUnit::Cm).ok();
    let word = amount
        .steps
        .iter()
        .find(|(step, _)| mm.is_some_and(|mm| (mm.get() - step).abs() < 0.05));
    let word = match (value.trim(), word) {
        ("", _) => amount.none.to_lowercase(),
        (_, Some((_, word))) => word.to_lowercase(),
        (other, None) => other.to_owned(),
    };
    Some((amount.name.to_lowercase(), word))
}

/// What is in force at such a path while nothing is said: nothing.
pub(super) fn usual_of(path: &str) -> Option<&'static str> {
    AMOUNTS.iter().any(|a| a.path == path).then_some("")
}

/// Path, name and range (mm) of the correction that a key names: `figure.seat`.
pub(in crate::view) fn amount_of(key: &str) -> Option<(&'static str, &'static str, (f64, f64))> {
    let amount = AMOUNTS
        .iter()
        .find(|a| a.path.strip_prefix("design.") == Some(key))?;
    Some((amount.path, amount.name, amount.range))
}

/// Its value in a design.
pub(in crate::view) fn amount_in(design: &Design, path: &str) -> Option<Mm> {
    AMOUNTS.iter().find(|a| a.path == path).map(|a| a.of(design))
}

/// What a path may be typed as when it is typed: for tests that walk all of them.
#[cfg(test)]
pub(super) fn set(body: &mut serde_json::Value, amount: &Amount, mm: f64) {
    let mut at = body;
    let (parents, last) = amount.path.rsplit_once('.').unwrap();
    for key in parents.split('.') {
        at = &mut at[key];
    }
    at[last] = serde_json::Value::String(format!("{mm} mm"));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::view::examples::{example, with};
    use crate::view::shape_view;

    fn offered_on(name: &str) -> Vec<&'static str> {
        let worked = example(name);
        let drafting = super::super::drafting(&worked);
        let is = offered(worked.parts.as_ref(), drafting.as_ref());
        AMOUNTS
            .iter()
            .zip(is)
            .filter(|(_, is)| *is)
            .map(|(a, _)| a.key)
            .collect()
    }

    #[test]
    fn only_what_shows_on_a_suit_is_offered() {
        let woman = offered_on("maren-one-piece");
        assert_eq!(
            woman,
            [
                "sway_back",
                "seat",
                "abdomen",
                "shoulder_forward",
                "bust_height",
                "rise_length",
                "belly"
            ]
        );
        let child = offered_on("ines-one-piece");
        assert!(
            child.contains(&"growth") && !child.contains(&"belly") && !child.contains(&"bust_height"),
            "{child:?}"
        );
        let brief = offered_on("tove-brief");
        assert!(
            brief.contains(&"seat") && !brief.contains(&"shoulder_forward") && !brief.contains(&"belly"),
            "{brief:?}"
        );
    }

    /// Every word of every correction, on a suit that may have it: kept, redrawn, shown under that word, and told.
    #[test]
    fn every_word_redraws_the_suit_and_stands_chosen() {
        for (name, keys) in [
            (
                "maren-one-piece",
                &[
                    "sway_back",
                    "seat",
                    "abdomen",
                    "shoulder_forward",
                    "bust_height",
                    "rise_length",
                    "belly",
                ][..],
            ),
            ("ines-one-piece", &["growth"]),
        ] {
            let plain = example(name);
            for amount in AMOUNTS.iter().filter(|a| keys.contains(&a.key)) {
                for (step, label) in amount.steps {
                    let worked = with(&plain, "suit", |suit| {
                        suit["design"]["fit"] = "regular".into();
                        set(suit, amount, *step);
                    });
                    let view = shape_view(&worked);
                    assert!(
                        worked.order.is_some(),
                        "{name} {} {step}: {:?}",
                        amount.key,
                        worked.faults
                    );
                    let group = view
                        .besides
                        .iter()
                        .find(|g| g.amounts.iter().any(|a| a.key == amount.key))
                        .unwrap();
                    let line = group.amounts.iter().find(|a| a.key == amount.key).unwrap();
                    let chosen = line
                        .choice
                        .options
                        .iter()
                        .find(|o| o.value == line.choice.value)
                        .unwrap();
                    assert_eq!(chosen.label, *label, "{line:?}");
                    assert_eq!(f64::from(line.way), step.signum());
                    let field = line.field.as_ref().unwrap();
                    let key = field.quantity.as_ref().unwrap().why.clone().unwrap();
                    assert!(crate::view::why(&worked, &key).is_some(), "{key}");
                    assert!(
                        group.in_use.to_lowercase().contains(&label.to_lowercase()),
                        "{}",
                        group.in_use
                    );
                    assert!(
                        !group.notes.is_empty(),
                        "{} says nothing of {}",
                        group.name,
                        amount.key
                    );
                }
            }
        }
    }

    #[test]
    fn words_for_the_history() {
        let words = |value| words_of("design.figure.seat", value).unwrap();
        assert_eq!(words("1 cm"), ("seat fullness".to_owned(), "full".to_owned()));
        assert_eq!(words("-10 mm").1, "flat");
        assert_eq!(words("7 mm").1, "7 mm");
        assert_eq!(words("").1, "as taken");
    }
}
