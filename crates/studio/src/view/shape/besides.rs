//! What a suit may have besides its shape: support, a closure, blocks of another cloth, corrections for a figure, room for what
//! grows or is worn under it. In groups that stay folded until they are wanted, each only where the suit can have it.
//!
//! What a style has for itself comes from the catalogue and falls into a group by its key; a key no group claims stands with the
//! design, so that a new style needs nothing here.

use draft::{ClosureKind, ClosurePlace, Cups, Design, Draft, Setting, Shared};
use serde::Serialize;
use ts_rs::TS;
use units::{Finding, Mm, Severity};
use utoipa::ToSchema;

use super::amount::{AMOUNTS, AmountView};
use super::{Shown, choices, length_field, own, shown};
use crate::suit_file::Parts;
use crate::view::told::{self, note, sentence};
use crate::view::{Choice, ChoiceOption, Field, Note, State};

/// A group of what a suit may have besides.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct BesidesView {
    /// Key: `closure`.
    pub key: String,
    /// Name: `Closure`.
    pub name: String,
    /// What it is for, in a sentence or two.
    pub says: String,
    /// What is set: `zip, 18.0 cm`; empty while all is as usual.
    pub in_use: String,
    /// Words.
    pub choices: Vec<Choice>,
    /// Numbers.
    pub fields: Vec<Field>,
    /// Corrections and room: a few words, each with its amount.
    pub amounts: Vec<AmountView>,
    /// What it does to this suit, what this wearer needs and why.
    pub notes: Vec<Note>,
}

/// The groups, in the order they are shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Group {
    Support,
    Closure,
    Blocks,
    Print,
    Figure,
    Growth,
    Mother,
    Care,
}

impl Group {
    const ALL: [Group; 8] = [
        Group::Support,
        Group::Closure,
        Group::Blocks,
        Group::Print,
        Group::Figure,
        Group::Growth,
        Group::Mother,
        Group::Care,
    ];

    /// The group that claims a key of the design, if one does.
    pub(super) fn of_key(key: &str, design: &Design) -> Option<Group> {
        Some(match key {
            "cups" | "shelf_bra" | "power_mesh" | "boning" | "cup_side" => Group::Support,
            // One opening serves both pockets; it stands where the pocket is.
            "pocket_opening" if design.cups == Cups::Pocket => Group::Support,
            "back_closure" | "front_zip" | "front_zip_length" | "front_zip_share" => Group::Closure,
            "block_lines" | "panel_at" | "panel_at_leg" | "band_from" | "band_to" | "block_level" => {
                Group::Blocks
            }
            "motif_repeat" => Group::Print,
            "nursing" => Group::Mother,
            "pocket_opening" | "prosthesis_pocket" | "stoma" | "stoma_from_centre" | "stoma_below_waist"
            | "stoma_opening" | "pouch_width" | "pouch_length" => Group::Care,
            _ => return None,
        })
    }

    const fn key(self) -> &'static str {
        match self {
            Group::Support => "support",
            Group::Closure => "closure",
            Group::Blocks => "blocks",
            Group::Print => "print",
            Group::Figure => "figure",
            Group::Growth => "growth",
            Group::Mother => "mother",
            Group::Care => "care",
        }
    }

    const fn name(self) -> &'static str {
        match self {
            Group::Support => "Support",
            Group::Closure => "Closure",
            Group::Blocks => "Colour blocks",
            Group::Print => "A large print",
            Group::Figure => "Corrections for her figure",
            Group::Growth => "Room to grow",
            Group::Mother => "Pregnancy and nursing",
            Group::Care => "Prosthesis and stoma",
        }
    }

    const fn says(self) -> &'static str {
        match self {
            Group::Support => "What carries the bust: layers, cups, and where they are held.",
            Group::Closure => "What opens the suit for getting in, and what that adds to the way in.",
            Group::Blocks => {
                "Parts of the suit in a second outer cloth, each drawn for the stretch of its own cloth. Choose that cloth in section 2."
            }
            Group::Print => {
                "Says where on the cloth a motif should lie over bust and seat, and marks it on the pieces."
            }
            Group::Figure => {
                "When the dimensions are right and the toile still folds or pulls. Girths stay as they were taken; say what you see, and the \
                 pieces are redrawn."
            }
            Group::Growth => {
                "Length round the trunk for the next months: half at the crotch, half at the shoulders. More than that hangs in the water."
            }
            Group::Mother => {
                "Room over a belly, gathered at the sides, and openings to nurse through. No firm fit and no tight elastic over a belly; ask \
                 midwife or doctor, and measure again every few weeks."
            }
            Group::Care => {
                "Pockets and openings in the lining. Try it dry first, with what will be worn; ask her nurse what may press on a stoma."
            }
        }
    }

    /// Whether a finding of the draft speaks of this group.
    fn hears(self, code: &str) -> bool {
        match self {
            Group::Support => {
                ["draft.shelf_bra", "draft.support_toile", "draft.support_short"].contains(&code)
            }
            Group::Closure => [
                "draft.closure",
                "draft.front_zip",
                "draft.half_zip",
                "draft.small_parts",
                "draft.no_way_in",
            ]
            .contains(&code),
            Group::Blocks => code == "draft.block_width",
            Group::Print => code.starts_with("motif."),
            Group::Growth => code == "figure.growth",
            Group::Mother => ["figure.belly", "draft.nursing"].contains(&code),
            Group::Figure => {
                code.starts_with("figure.") && !Group::Growth.hears(code) && !Group::Mother.hears(code)
            }
            Group::Care => code.starts_with("stoma."),
        }
    }
}

/// Whether a key is asked for at all: a pocket's opening only where there is a pocket.
pub(super) fn is_asked(key: &str, design: &Design) -> bool {
    let has_prosthesis = || {
        let pocket = design.style.own("prosthesis_pocket");
        pocket.is_some_and(|p| design.own.get(p) != Setting::Word("none"))
    };
    key != "pocket_opening" || design.cups == Cups::Pocket || has_prosthesis()
}

/// The groups of this suit; those it has nothing of are left out.
pub(super) fn groups(show: &Shown<'_>) -> Vec<BesidesView> {
    let Some(parts) = show.parts else {
        return Vec::new();
    };
    let groups = Group::ALL.into_iter().map(|group| view(show, parts, group));
    groups
        .filter(|g| !g.choices.is_empty() || !g.fields.is_empty() || !g.amounts.is_empty())
        .collect()
}

fn view(show: &Shown<'_>, parts: &Parts, group: Group) -> BesidesView {
    let mut choices = choices::choices(show.suit, Some(parts), Some(group));
    let mut fields = own::fields(show, parts, Some(group));
    if group == Group::Closure && parts.design.style.has(Shared::Closure) {
        let (words, length) = closure(show, parts);
        choices.splice(0..0, words);
        fields.splice(0..0, length);
    }
    let offered = AMOUNTS
        .iter()
        .zip(show.offered)
        .filter(|(a, is)| *is && a.group == group);
    let amounts: Vec<AmountView> = offered.map(|(amount, _)| amount.view(show, parts)).collect();
    BesidesView {
        key: group.key().to_owned(),
        name: group.name().to_owned(),
        says: group.says().to_owned(),
        in_use: in_use(&choices, &fields, &amounts),
        notes: show
            .drafting
            .as_ref()
            .map_or_else(Vec::new, |d| notes(d.draft, group)),
        choices,
        fields,
        amounts,
    }
}

/// What is not as usual, in a line: `block lines side panels, seat full 1.0 cm`.
fn in_use(choices: &[Choice], fields: &[Field], amounts: &[AmountView]) -> String {
    let word = |choice: &Choice| {
        let is_usual = choice
            .options
            .first()
            .is_none_or(|usual| usual.value == choice.value);
        let chosen = choice
            .options
            .iter()
            .find(|o| o.value == choice.value && !is_usual)?;
        Some(match chosen.value.as_str() {
            "true" => choice.label.to_lowercase(),
            _ => format!("{} {}", choice.label.to_lowercase(), chosen.label.to_lowercase()),
        })
    };
    let number = |field: &Field| {
        let set = field.quantity.as_ref().filter(|_| field.typed.is_some())?;
        Some(format!("{} {}", field.label.to_lowercase(), set.text()))
    };
    let amount = |amount: &AmountView| {
        let size = amount.field.as_ref()?.quantity.as_ref()?;
        let word = amount
            .choice
            .options
            .iter()
            .find(|o| o.value == amount.choice.value)?;
        Some(format!(
            "{}: {}, {}",
            amount.choice.label.to_lowercase(),
            word.label.to_lowercase(),
            size.text()
        ))
    };
    let all: Vec<String> = choices
        .iter()
        .filter_map(word)
        .chain(fields.iter().filter_map(number))
        .chain(amounts.iter().filter_map(amount))
        .collect();
    if all.is_empty() {
        String::new()
    } else {
        sentence(&all.join("; "))
    }
}

/// What the draft has to say of a group, and what it finds this wearer needs.
fn notes(draft: &Draft, group: Group) -> Vec<Note> {
    let of_group = |f: &&Finding| group.hears(f.code);
    let told = draft.findings.iter().filter(of_group).map(|f| {
        let mut told = told::finding(f).asked(format!("finding.{}.{}", f.code, f.place));
        if f.severity == Severity::Good && f.limit.is_none() {
            told.why = None;
        }
        told
    });
    let needs = draft
        .support
        .iter()
        .filter(|_| group == Group::Support)
        .map(|need| {
            let state = match need.is_met {
                Some(true) => State::Good,
                Some(false) => State::Doubtful,
                None => State::How,
            };
            note(state, "bust", sentence(&need.what), sentence(&need.why))
                .asked(format!("support.{}", need.key))
        });
    needs.chain(told).collect()
}

fn closure(show: &Shown<'_>, parts: &Parts) -> (Vec<Choice>, Vec<Field>) {
    let design = &parts.design;
    let set = design.closure;
    let choice = |path: &str, label: &str, says: &str, value: &str, options: &[(&str, &str)]| Choice {
        document: show.suit.id.clone(),
        path: path.to_owned(),
        label: label.to_owned(),
        says: says.to_owned(),
        value: value.to_owned(),
        options: options
            .iter()
            .map(|(value, label)| ChoiceOption {
                value: (*value).to_owned(),
                label: (*label).to_owned(),
            })
            .collect(),
    };
    let options: &[_] = if design.style.closes_at_the_neck() {
        &[("none", "Ties"), ("hook", "Hook"), ("ring", "Ring and hook")]
    } else {
        &[("none", "None"), ("zip", "Zip"), ("clasp", "Clasp and slit")]
    };
    let (value, says) = match set.map(|c| c.kind) {
        None if design.style.closes_at_the_neck() => ("none", "Two ends to tie behind the neck."),
        None => (
            "none",
            "The suit is stepped into: neckline and waist stretch over the hips.",
        ),
        Some(ClosureKind::Zip) => (
            "zip",
            "Lies in a seam at the centre. While it is open it adds twice its length to the way in; past the waist it opens the waist too.",
        ),
        Some(ClosureKind::Clasp) => (
            "clasp",
            "Closes a faced slit at the top of the back. While it is open it adds twice the slit's length to the way in.",
        ),
        Some(ClosureKind::Hook) => (
            "hook",
            "Ends the neck piece: undone, the neck is no ring the head must pass.",
        ),
        Some(ClosureKind::Ring) => (
            "ring",
            "One end of the neck piece is turned over a ring, the other has the hook that goes into it.",
        ),
    };
    let mut choices = vec![choice("design.closure.kind", "Closure", says, value, options)];
    let Some(set) = set.filter(|c| matches!(c.kind, ClosureKind::Zip | ClosureKind::Clasp)) else {
        return (choices, Vec::new());
    };
    if set.kind == ClosureKind::Zip {
        let place = if set.place == ClosurePlace::Front {
            "front"
        } else {
            "back"
        };
        choices.push(choice(
            "design.closure.place",
            "It sits",
            "In front she closes it herself; at the back it needs a long pull or a hand.",
            place,
            &[("back", "At the back"), ("front", "In front")],
        ));
    }
    let length = length_field(
        show,
        "design.closure.length",
        if set.kind == ClosureKind::Zip {
            "Zip"
        } else {
            "Slit"
        },
        "How long it opens, from the neckline down, as sewn. It ends well above the crotch.",
        Some(shown(set.length.get(), show.unit()).why("design.closure.length")),
        LENGTH_MM,
    );
    (choices, vec![length])
}

/// How long a closure may be on any body, mm; as in `docs/suit-file.md`.
pub(in crate::view) const LENGTH_MM: (f64, f64) = (40.0, 700.0);

/// How long a closure is when nothing is said, mm.
pub(in crate::view) fn closure_length(design: &Design) -> Option<Mm> {
    let closure = design.closure?;
    matches!(closure.kind, ClosureKind::Zip | ClosureKind::Clasp).then_some(closure.length)
}
