//! The few words of a wearer: woman, man or child; where the waist was taken; how the front; which side to trust.

use body::{BodyForm, Dimension};
use draft::Refusal;

use super::Facts;
use crate::view::Choice;
use crate::view::told::{choice_at, faults_of, text_at};

/// The choices of this wearer.
pub(super) fn of(facts: &Facts<'_>) -> Vec<Choice> {
    let mut choices = vec![
        choice(
            facts,
            ("form", "Form", ""),
            "Sets which dimensions are asked for, and how what is missing is estimated.",
            &[("woman", "woman"), ("man", "man"), ("child", "child")],
        ),
        choice(
            facts,
            ("waist_level", "Waist taken at", "natural"),
            "Everything from the waist hangs on it: tie an elastic there and leave it on.",
            &[("natural", "the natural waist"), ("navel", "the navel")],
        ),
    ];
    if facts.form == BodyForm::Woman {
        choices.push(choice(
            facts,
            ("front_taken", "Front length taken", "over-bust-point"),
            "Over the bust point is longer than down the middle, and says how much room the bust needs.",
            &[
                ("over-bust-point", "over the bust point"),
                ("midline", "down the middle"),
            ],
        ));
    }
    if text_at(facts.body, "trust").is_some() || trunk_disagrees(facts) {
        choices.push(choice(
            facts,
            ("trust", "Trust", ""),
            "Trunk circumference and the single lengths are too far apart: say which the suit is drafted by.",
            &[
                ("trunk", "the trunk circumference"),
                ("parts", "the single lengths"),
            ],
        ));
    }
    choices
}

/// Whether the draft was refused because the trunk loop and its parts disagree.
fn trunk_disagrees(facts: &Facts<'_>) -> bool {
    let trunk = format!("dimensions.{}", Dimension::TrunkCircumference.key());
    let is_blamed = faults_of(facts.worked, "wearer")
        .iter()
        .any(|(_, path)| *path == trunk);
    let (Some((body, _)), Some(cloth), Some(file)) =
        (&facts.worked.body, &facts.worked.cloth, &facts.worked.file)
    else {
        return false;
    };
    is_blamed
        && matches!(
            draft::draft(body, cloth, &file.design),
            Err(Refusal::TrunkDisagrees { .. })
        )
}

fn choice(
    facts: &Facts<'_>,
    (path, label, usual): (&str, &str, &str),
    says: &str,
    options: &[(&str, &str)],
) -> Choice {
    choice_at((facts.id, facts.body), path, (label, says), usual, options)
}
