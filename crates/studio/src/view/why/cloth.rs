//! Why a cloth stretches as it says, which way it lies, and what is found of it.
//!
//! **Source.** Each answer names its own; tests and limits are the cloth crate's.

use cloth::{DirectionTest, LEAST_RECOVERY, Layer, Orientation, PairSource};
use make::Latex;
use units::{LengthUnit, Mm};

use super::{PRACTICE, Why, source_words};
use crate::document::Worked;
use crate::view::cloth::{finding_of, hold_at, paper_of, plan_of, test_of, tested};
use crate::view::told::{capital, said, sentence};
use crate::view::{percent, small_length};

const STRETCH_TEST: &str = "as ASTM D2594 reckons stretch (the standard's scope was read, not the standard); pulled by hand it is good for a class, not for a laboratory";
const RECOVERY_TEST: &str =
    "as EN 14704-1, now ISO 20932-1, reckons recovery (a laboratory's guide was read, not the standard)";

pub(super) fn answer(worked: &Worked, kind: &str, which: &str) -> Option<Why> {
    match kind {
        "stretch" => {
            let (of, direction) = which.split_once('.')?;
            stretch(worked, of, direction)
        }
        "recovery" => {
            let (of, direction) = which.split_once('.')?;
            recovery(worked, of, direction)
        }
        "orientation" => orientation(worked, layer_named(which)?),
        "cloth" => finding(worked, which),
        "elastic" => elastic(worked, which),
        "wet" => hold(worked),
        _ => None,
    }
}

fn layer_named(name: &str) -> Option<Layer> {
    [Layer::Shell, Layer::Lining, Layer::Mesh]
        .into_iter()
        .find(|layer| layer.name() == name)
}

/// The test a key is about, and its cloth's name.
fn test(worked: &Worked, of: &str, direction: &str) -> Option<(DirectionTest, String)> {
    let unit = worked.unit();
    if of == "together" {
        let path = format!("tested_together.{direction}");
        return Some((
            test_of(&worked.suit.body, &path, unit)?,
            "shell and lining together".to_owned(),
        ));
    }
    let paper = paper_of(worked, layer_named(of)?)?;
    let name = paper.body.get("name").and_then(|n| n.as_str()).unwrap_or(of);
    Some((test_of(&paper.body, direction, unit)?, name.to_owned()))
}

fn stretch(worked: &Worked, of: &str, direction: &str) -> Option<Why> {
    let unit = worked.unit();
    let Some((test, name)) = test(worked, of, direction) else {
        return estimated(worked, of, direction);
    };
    let stretch = percent(tested(test)?.stretch.ratio()).text();
    let question = format!("Why {stretch} {direction}?");
    Some(match test {
        DirectionTest::Lengths {
            rest_mm, pulled_mm, ..
        } => Why::of(
            question,
            format!(
                "Stretch is how much further {name} goes than at rest, as a share of its length at rest."
            ),
            STRETCH_TEST,
        )
        .sum(format!(
            "({} - {}) / {} = {stretch}",
            bare(pulled_mm, unit),
            bare(rest_mm, unit),
            bare(rest_mm, unit)
        ))
        .input("at rest", said(Mm::new(rest_mm), unit))
        .input("pulled", said(Mm::new(pulled_mm), unit)),
        DirectionTest::Percent { .. } => Why::of(
            question,
            format!("You wrote it down as a per cent of {name}, from a label or a laboratory."),
            "the label; its load is not known unless you wrote it down",
        )
        .input("stretch", stretch),
    })
}

/// The stretch of both layers when only each was tested.
fn estimated(worked: &Worked, of: &str, direction: &str) -> Option<Why> {
    let plan = worked.cloth.as_ref()?;
    if of != "together" || plan.pair != PairSource::Estimated {
        return None;
    }
    let lining = plan.lining.as_ref()?;
    let (both, shell, lining) = match direction {
        "around" => (plan.around, plan.shell.around, lining.around),
        "lengthwise" => (plan.lengthwise, plan.shell.lengthwise, lining.lengthwise),
        _ => return None,
    };
    Some(
        Why::of(
            format!("Why {both} {direction}?"),
            "Two layers share one pull: together they go less far than the weaker alone. Until both are pulled as one, it is reckoned from the two tests.",
            "our own estimate from the force law of each layer; a test of both overrides it",
        )
        .input("shell", shell.to_string())
        .input("lining", lining.to_string())
        .input("together", both.to_string()),
    )
}

fn recovery(worked: &Worked, of: &str, direction: &str) -> Option<Why> {
    let unit = worked.unit();
    let (test, name) = test(worked, of, direction)?;
    let numbers = tested(test)?;
    let recovery = percent(numbers.recovery?).text();
    let least = percent(LEAST_RECOVERY).text();
    let why = Why::of(
        format!("Why {recovery} back {direction}?"),
        format!("Recovery is the share of the stretch that {name} gives back; under {least} it bags."),
        format!("{RECOVERY_TEST}; the {least} are our own"),
    );
    Some(match test {
        DirectionTest::Lengths {
            rest_mm,
            pulled_mm,
            after_mm,
        } => {
            let after = after_mm?;
            why.sum(format!(
                "({} - {}) / ({} - {}) = {recovery}",
                bare(pulled_mm, unit),
                bare(after, unit),
                bare(pulled_mm, unit),
                bare(rest_mm, unit)
            ))
            .input("at rest", said(Mm::new(rest_mm), unit))
            .input("pulled", said(Mm::new(pulled_mm), unit))
            .input("a minute after", said(Mm::new(after), unit))
        }
        DirectionTest::Percent { .. } => why.input("recovery as written", recovery),
    })
}

fn orientation(worked: &Worked, layer: Layer) -> Option<Why> {
    let plan = plan_of(worked.cloth.as_ref()?, layer)?;
    let (around, across) = match plan.orientation {
        Orientation::Upright => ("the width", (plan.around, plan.lengthwise)),
        Orientation::Turned => ("the length", (plan.lengthwise, plan.around)),
    };
    Some(
        Why::of(
            format!("Why does {around} of the {} go round the body?", layer.name()),
            "A suit holds by its girth, so the direction that goes further lies around; if both go alike, the width does, and a print stands upright.",
            PRACTICE,
        )
        .input("stretch across, selvedge to selvedge", across.0.to_string())
        .input("stretch along the selvedge", across.1.to_string())
        .input("lies", plan.orientation.name()),
    )
}

fn finding(worked: &Worked, which: &str) -> Option<Why> {
    let found = finding_of(worked.cloth.as_ref()?, which)?;
    let source = found.limit.as_ref().map_or("own", |limit| limit.source);
    let mut why = Why::of(
        format!("Why is that said of {}?", found.place),
        format!("{}: {}", capital(&found.place), sentence(&found.message)),
        source_words(source),
    );
    why = why.input("place", found.place.clone());
    if let Some(value) = found.value {
        why = why.input("found", crate::suit_file::trimmed(value, 1));
    }
    if let Some(limit) = &found.limit {
        why = why.input("held against", limit.text.clone());
    }
    Some(why)
}

fn elastic(worked: &Worked, which: &str) -> Option<Why> {
    let choice = worked.parts.as_ref()?.elastic?;
    let facts = choice.kind().facts();
    let source = "data/trade/elastics.csv: published teaching texts for braided, knitted and woven; else common practice";
    match which {
        "width" => {
            let width = small_length(choice.width(), worked.unit()).text();
            let (low, high) = facts.widths_mm;
            Some(
                Why::of(
                    format!("Why {width}?"),
                    "You gave no width: 8 mm is the usual swim elastic.",
                    PRACTICE,
                )
                .input("kind", facts.name)
                .input("sold", format!("{low:.0} to {high:.0} mm")),
            )
        }
        "working_extension" => {
            let (low, high) = facts.working_extension;
            Some(
                Why::of(
                    format!("Why {}?", choice.working_extension()),
                    "This very elastic was not tested, so the low end of what its kind works at is used.",
                    source,
                )
                .input("kind", facts.name)
                .input("its kind works at", format!("{low} to {high}")),
            )
        }
        "latex" if choice.latex() != Latex::No => Some(
            Why::of(
                "Why ask about latex?",
                "Some elastics hold natural rubber latex, and about 4 in 100 people of reviewed surveys react to latex.",
                "data/trade/cautions.csv, row latex: a published review (4.3 % of the general population)",
            )
            .input("kind", facts.name)
            .input(
                "its label",
                if choice.latex() == Latex::Yes { "holds latex" } else { "not known" },
            ),
        ),
        _ => None,
    }
}

/// The stretch a wet test is held at.
fn hold(worked: &Worked) -> Option<Why> {
    let (worn, level) = hold_at(worked)?;
    let rungs = &worked.order.as_ref()?.fit.ladder;
    let rung = rungs.iter().find(|r| r.level == level)?;
    let unit = worked.unit();
    Some(
        Why::of(
            format!("Why hold it {} stretched?", percent(worn).text()),
            format!("That is as far as it is worn anywhere: at the {}.", level.name()),
            "worn stretch of the draft; a wet cloth shows more the further it is stretched: common practice",
        )
        .sum(format!(
            "{} / {} - 1 = {}",
            said(rung.body, unit),
            said(rung.pattern, unit),
            percent(worn).text()
        ))
        .input("body", said(rung.body, unit))
        .input("pattern", said(rung.pattern, unit)),
    )
}

fn bare(mm: f64, unit: LengthUnit) -> String {
    said(Mm::new(mm), unit)
        .trim_end_matches(unit.symbol())
        .trim_end()
        .to_owned()
}
