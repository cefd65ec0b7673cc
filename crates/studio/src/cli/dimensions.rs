//! `slackwater dimensions`: what each dimension is and how the tape is laid for it.

use body::{BodyForm, Dimension, Need, TakenAlone};
use clap::Args;
use serde::Serialize;

use super::console::Console;
use super::table::wrap;
use super::{FormArg, Outcome, Trouble};
use crate::suit_file::need_words;

#[derive(Debug, Args)]
pub(super) struct DimensionsArgs {
    /// Whose body.
    #[arg(long, value_enum, default_value = "woman")]
    form: FormArg,
}

/// One dimension as it is listed for scripts.
#[derive(Debug, Serialize)]
struct Listed {
    key: &'static str,
    name: &'static str,
    need: Need,
    definition: &'static str,
    how_to_take: &'static str,
    taken: TakenAlone,
    low_mm: f64,
    high_mm: f64,
}

#[derive(Debug, Serialize)]
struct Listing {
    form: BodyForm,
    before_measuring: &'static str,
    dimensions: Vec<Listed>,
}

pub(super) fn run(args: &DimensionsArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    let form = BodyForm::from(args.form);
    let listing = Listing {
        form,
        before_measuring: form.before_measuring(),
        dimensions: Dimension::ALL
            .into_iter()
            .filter(|d| d.need(form) != Need::NotUsed)
            .map(|d| {
                let (low, high) = d.plausible_range(form);
                Listed {
                    key: d.key(),
                    name: d.iso_name(form),
                    need: d.need(form),
                    definition: d.definition(),
                    how_to_take: d.how_to_take(),
                    taken: d.taken_alone(),
                    low_mm: low.get(),
                    high_mm: high.get(),
                }
            })
            .collect(),
    };
    if console.manner.json {
        console.print_json(&listing)?;
        return Ok(Outcome::Done);
    }
    const COLUMNS: usize = 100;
    let mut text = wrap(
        &format!("For {}: {}.", form.person(), listing.before_measuring),
        COLUMNS,
        0,
    );
    text.push_str("\n\n");
    for d in &listing.dimensions {
        text += &console.heading(d.key);
        text += &format!("  ({})\n    ", need_words(d.need));
        text += &wrap(&format!("{}: {}", d.name, d.definition), COLUMNS, 4);
        text += "\n    ";
        text += &wrap(
            &format!("how: {} [{}]", d.how_to_take, alone_words(d.taken)),
            COLUMNS,
            4,
        );
        text += "\n\n";
    }
    console.print(text.trim_end())?;
    console.print("\n")?;
    Ok(Outcome::Done)
}

/// Who can take it.
pub(super) fn alone_words(taken: TakenAlone) -> &'static str {
    match taken {
        TakenAlone::Alone => "can be taken alone",
        TakenAlone::WithMirror => "alone with a mirror, better with help",
        TakenAlone::NeedsHelper => "needs a helper",
    }
}
