//! `slackwater styles`: every style, whom it is for and what may be set on it; as a list, for scripts, or as the handbook page.

use std::fmt::Write as _;

use body::BodyForm;
use clap::Args;
use draft::{Family, Parameter, ParameterKind, Shared, Style};
use serde::Serialize;
use units::Mm;

use super::console::Console;
use super::table::wrap;
use super::{FormArg, Outcome, Trouble};
use crate::suit_file::{form_key, show_both, trimmed};

#[derive(Debug, Args)]
pub(super) struct StylesArgs {
    /// Only styles for this form of body.
    #[arg(long, value_enum)]
    form: Option<FormArg>,
    /// Write docs/styles.md.
    #[arg(long)]
    handbook: bool,
}

#[derive(Debug, Serialize)]
struct Listed {
    key: &'static str,
    name: &'static str,
    says: &'static str,
    family: Family,
    wearers: Vec<&'static str>,
    shared: Vec<&'static str>,
    own: Vec<ListedParameter>,
}

#[derive(Debug, Serialize)]
struct ListedParameter {
    key: &'static str,
    name: &'static str,
    says: &'static str,
    range: String,
    usual: String,
}

pub(super) fn run(args: &StylesArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    if args.handbook {
        console.print(&handbook())?;
        return Ok(Outcome::Done);
    }
    let form = args.form.map(BodyForm::from);
    let styles: Vec<Listed> = Style::all()
        .iter()
        .filter(|s| form.is_none_or(|f| s.is_for(f)))
        .map(|&s| listed(s))
        .collect();
    if console.manner.json {
        console.print_json(&styles)?;
        return Ok(Outcome::Done);
    }
    const COLUMNS: usize = 100;
    let mut text = String::new();
    for style in &styles {
        let _ = writeln!(text, "{}", style.key);
        text += &wrap(
            &format!(
                "{}: {}. For {}.",
                style.name,
                style.says,
                style.wearers.join(", ")
            ),
            COLUMNS,
            2,
        );
        text.push('\n');
        for p in &style.own {
            text += &wrap(
                &format!("{} ({}, usually {}): {}", p.key, p.range, p.usual, p.says),
                COLUMNS,
                4,
            );
            text.push('\n');
        }
    }
    console.print(&text)?;
    Ok(Outcome::Done)
}

fn listed(style: Style) -> Listed {
    let spec = style.spec();
    Listed {
        key: spec.key,
        name: spec.name,
        says: spec.says,
        family: spec.family,
        wearers: spec.wearers.iter().map(|&f| form_key(f)).collect(),
        shared: spec.shared.iter().flat_map(|s| s.keys()).copied().collect(),
        own: spec
            .own
            .iter()
            .map(|p| ListedParameter {
                key: p.key,
                name: p.name,
                says: p.says,
                range: range(p),
                usual: usual(p),
            })
            .collect(),
    }
}

fn range(parameter: &Parameter) -> String {
    match parameter.kind {
        ParameterKind::Length { low, high, .. } => {
            format!("{} to {}", show_both(Mm::new(low)), show_both(Mm::new(high)))
        }
        ParameterKind::Number { low, high, unit, .. } => {
            format!("{} to {} {unit}", trimmed(low, 2), trimmed(high, 2))
                .trim_end()
                .to_owned()
        }
        ParameterKind::Choice { options } => {
            let words: Vec<_> = options.iter().map(|o| o.key).collect();
            words.join(", ")
        }
        ParameterKind::Switch { .. } => "true or false".to_owned(),
    }
}

fn usual(parameter: &Parameter) -> String {
    match parameter.kind {
        ParameterKind::Length { usual, .. } => show_both(Mm::new(usual)),
        ParameterKind::Number { usual, unit, .. } => {
            format!("{} {unit}", trimmed(usual, 2)).trim_end().to_owned()
        }
        ParameterKind::Choice { options } => options.first().map_or("", |o| o.key).to_owned(),
        ParameterKind::Switch { usual } => usual.to_string(),
    }
}

/// What is taken off lengths, and of what nothing is.
const LENGTHS: &str = "
## Lengths

Around, every style is cut smaller than its body. Lengthwise only what is held at both ends is: a suit hangs on the shoulders and is held down
by its crotch, a brief lies between waist and legs, and the cloth between is pulled to the body's length. A top ends free (the tops, the rash
top, and the top of a two-piece): at its lower edge nothing pulls down, so nothing stretches it lengthwise above it, and a top cut shorter
would be worn shorter, its lower edge riding up by what was taken off. Tops take the body's own lengths, less what the cloth will
shrink; of the fit, only the share around acts on them. Source: own, from the balance of a free edge.
";

/// The handbook page of all styles, for makers.
fn handbook() -> String {
    let mut out = String::from(
        "# Styles\n\n\
         What Slackwater drafts, whom each style is for, and what may be set on it. In the studio a style is chosen by its drawing;\n\
         in a suit file it is `style = \"...\"` in `[design]`, and its own parameters stand in the same section. Everything not set\n\
         is as a beginner would want it.\n\n\
         This page is written by `slackwater styles --handbook`, the pictures by\n\
         `cargo run -p slackwater-draft --example contact`. They show the pieces on invented bodies in a soft cloth: outline is the cut\n\
         line, blue the open edges that get elastic, dashed a turned hem. No style has been proved on a body by sewing: sew a toile\n\
         first.\n\n\
         ## What several styles share\n\n\
         | keys | what it does on the body |\n| --- | --- |\n",
    );
    for shared in Shared::ALL {
        let keys: Vec<_> = shared.keys().iter().map(|k| format!("`{k}`")).collect();
        let _ = writeln!(out, "| {} | {} |", keys.join(", "), shared.says());
    }
    out += "\nTheir words and ranges: [suit-file.md](suit-file.md).\n";
    out += LENGTHS;
    let mut family = None;
    for style in Style::all() {
        let spec = style.spec();
        if family != Some(spec.family) {
            family = Some(spec.family);
            let _ = write!(out, "\n## {}\n", spec.family.name());
        }
        let wearers: Vec<_> = spec
            .wearers
            .iter()
            .map(|f| match f {
                BodyForm::Woman => "women",
                BodyForm::Man => "men",
                BodyForm::Child => "children",
            })
            .collect();
        let says = capitalised(spec.says);
        let _ = write!(
            out,
            "\n### {}\n\n`style = \"{}\"`. {says}. For {}.\n\n![{}](styles/{}.svg)\n",
            spec.name,
            spec.key,
            wearers.join(", "),
            spec.name,
            spec.key
        );
        if !spec.shared.is_empty() {
            let shared: Vec<_> = spec
                .shared
                .iter()
                .filter_map(|s| s.keys().first())
                .map(|k| format!("`{k}`"))
                .collect();
            let _ = write!(out, "\nListens to {}.\n", shared.join(", "));
        }
        if !spec.own.is_empty() {
            out += "\n| key | what it does on the body | range | usual |\n| --- | --- | --- | --- |\n";
            for p in spec.own {
                let says = match p.kind {
                    ParameterKind::Choice { options } => {
                        let words: Vec<_> = options
                            .iter()
                            .map(|o| format!("`{}` {}", o.key, o.says))
                            .collect();
                        format!("{}: {}", p.says, words.join("; "))
                    }
                    _ => p.says.to_owned(),
                };
                let range = match p.kind {
                    ParameterKind::Choice { .. } => String::new(),
                    _ => range(p),
                };
                let _ = writeln!(out, "| `{}` | {says} | {range} | {} |", p.key, usual(p));
            }
        }
    }
    out
}

fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map_or_else(String::new, |c| c.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    #[allow(
        clippy::disallowed_methods,
        reason = "a test holds a file of the handbook against the catalogue"
    )]
    fn the_handbook_page_is_the_catalogue() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/styles.md");
        let page = handbook();
        if std::env::var_os("UPDATE_STYLES").is_some() {
            std::fs::write(path, &page).unwrap();
        }
        let written = std::fs::read_to_string(path).unwrap();
        assert!(
            written == page,
            "docs/styles.md is not the catalogue's: UPDATE_STYLES=1 cargo test -p slackwater-studio handbook"
        );
        for style in Style::all() {
            let sheet = format!(
                "{}/../../docs/styles/{}.svg",
                env!("CARGO_MANIFEST_DIR"),
                style.key()
            );
            assert!(
                std::path::Path::new(&sheet).exists(),
                "{sheet} is missing: cargo run -p slackwater-draft --example contact"
            );
        }
    }
}
