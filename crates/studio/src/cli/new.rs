//! `slackwater new`: a commented suit file, empty or filled by questions.
//!
//! The questions go to standard error and the answers come from standard input, so that they can be scripted and the file
//! alone can be piped. A file that is there is never overwritten unasked.

use std::io::BufRead;
use std::path::PathBuf;

use body::{BodyForm, Dimension, Dimensions, Need};
use clap::Args;
use units::{LengthUnit, Mm, parse_length};

use super::console::Console;
use super::dimensions::alone_words;
use super::folder::write_file;
use super::table::wrap;
use super::{FormArg, Outcome, Trouble, UnitArg};
use crate::suit_file::{FaultKind, Faults, NewSuit, form_key, need_words, new_suit_text, show_length};

#[derive(Debug, Args)]
pub(super) struct NewArgs {
    /// The file to write; `-` for standard output.
    #[arg(default_value = "suit.toml")]
    file: PathBuf,
    /// Whose body.
    #[arg(long, value_enum)]
    form: Option<FormArg>,
    /// Unit of the file's bare numbers.
    #[arg(long, value_enum)]
    units: Option<UnitArg>,
    /// Ask for the dimensions one by one, with how to take each.
    #[arg(long)]
    ask: bool,
    /// Overwrite a file that is there.
    #[arg(long)]
    force: bool,
}

pub(super) fn run(
    args: &NewArgs,
    answers: &mut dyn BufRead,
    console: &mut Console<'_>,
) -> Result<Outcome, Trouble> {
    let to_stream = args.file.as_os_str() == "-";
    // Before the questions: nobody should answer thirty of them for a file that can't be written.
    if !to_stream && !args.force && args.file.exists() {
        let name = args.file.display().to_string();
        let help = "choose another name, or overwrite it with --force";
        return Err(Faults::whole(&name, FaultKind::File, "the file is there already".into(), help).into());
    }
    let mut new = NewSuit {
        name: "My suit".into(),
        wearer: "the wearer".into(),
        form: args.form.map_or(BodyForm::Woman, BodyForm::from),
        age_years: None,
        units: args.units.map_or(LengthUnit::Cm, LengthUnit::from),
        taken: Dimensions::default(),
    };
    if args.ask {
        ask_all(args, &mut new, answers, console)?;
    }
    let text = new_suit_text(&new);
    if to_stream {
        console.print(&text)?;
        return Ok(Outcome::Done);
    }
    write_file(&args.file, text.as_bytes(), args.force)?;
    if console.manner.json {
        console.print_json(&serde_json::json!({ "written": [args.file.display().to_string()] }))?;
    } else {
        let file = args.file.display();
        console.note(&format!(
            "wrote {file}; fill it in, then: slackwater check {file}"
        ))?;
    }
    Ok(Outcome::Done)
}

fn ask_all(
    args: &NewArgs,
    new: &mut NewSuit,
    answers: &mut dyn BufRead,
    console: &mut Console<'_>,
) -> Result<(), Trouble> {
    let mut ask = Asking { answers, console };
    new.name = ask.until("Name of the suit", |t| some_text(t, "the suit needs a name"))?;
    new.wearer = ask.until("Name of the wearer", |t| {
        some_text(t, "a name or any word will do")
    })?;
    if args.form.is_none() {
        new.form = ask.until("Woman, man or child", |t| {
            let forms = [BodyForm::Woman, BodyForm::Man, BodyForm::Child];
            let found = forms.into_iter().find(|f| t.eq_ignore_ascii_case(form_key(*f)));
            found.ok_or_else(|| "write woman, man or child".to_owned())
        })?;
    }
    if args.units.is_none() {
        new.units = ask.until("Unit of plain numbers (cm, mm or in)", |t| {
            if t.is_empty() {
                Ok(LengthUnit::Cm)
            } else {
                t.parse().map_err(|e| format!("{e}"))
            }
        })?;
    }
    let is_child = new.form == BodyForm::Child;
    new.age_years = ask.until("Age in years (Enter to leave it out)", |t| match t {
        "" if is_child => Err("a child's estimates and cautions go by age; write it in years".to_owned()),
        "" => Ok(None),
        t => match t.parse::<f64>() {
            Ok(age) if (1.0..=120.0).contains(&age) => Ok(Some(age)),
            _ => Err("write the age in years, 1 to 120".to_owned()),
        },
    })?;
    ask.say(&format!("\nMeasure {}.", new.form.before_measuring()))?;
    ask.say(&format!(
        "Plain numbers are {}; 95.6 cm, 956 mm and 37 5/8in work too. Enter leaves a dimension out.",
        new.units.symbol()
    ))?;
    for dimension in Dimension::ALL {
        let need = dimension.need(new.form);
        if !matches!(need, Need::Required | Need::Asked | Need::Estimable) {
            continue;
        }
        if let Some(length) = ask.dimension(dimension, need, new.form, new.units)? {
            new.taken.set(dimension, length);
        }
    }
    Ok(())
}

struct Asking<'s, 'c> {
    answers: &'s mut dyn BufRead,
    console: &'s mut Console<'c>,
}

impl Asking<'_, '_> {
    fn say(&mut self, text: &str) -> Result<(), Trouble> {
        Ok(self.console.note(&wrap(text, 100, 0))?)
    }

    /// Asks until the answer is understood.
    fn until<T>(
        &mut self,
        question: &str,
        understand: impl Fn(&str) -> Result<T, String>,
    ) -> Result<T, Trouble> {
        loop {
            self.console.note(&format!("{question}:"))?;
            let mut line = String::new();
            let read = self.answers.read_line(&mut line).map_err(|error| {
                let message = format!("the answers cannot be read: {error}");
                let help = "nothing was written; answer in UTF-8 text";
                Faults::whole("standard input", FaultKind::File, message, help)
            })?;
            if read == 0 {
                let message = format!("the answers ended before \"{question}\"");
                let help = "nothing was written; answer every question, Enter leaves an optional one out";
                return Err(Faults::whole("standard input", FaultKind::File, message, help).into());
            }
            match understand(line.trim()) {
                Ok(answer) => return Ok(answer),
                Err(why) => self.console.note(&format!("  {why}"))?,
            }
        }
    }

    fn dimension(
        &mut self,
        dimension: Dimension,
        need: Need,
        form: BodyForm,
        unit: LengthUnit,
    ) -> Result<Option<Mm>, Trouble> {
        self.console.note("")?;
        self.say(&format!(
            "{} [{}]",
            dimension.how_to_take(),
            alone_words(dimension.taken_alone())
        ))?;
        let question = format!("{} ({})", dimension.iso_name(form), need_words(need));
        let (low, high) = dimension.plausible_range(form);
        self.until(&question, |text| {
            if text.is_empty() {
                return match need {
                    Need::Required => Err("the draft cannot do without it".to_owned()),
                    _ => Ok(None),
                };
            }
            let length = parse_length(text, unit).map_err(|e| e.to_string())?;
            if (low.get()..=high.get()).contains(&length.get()) {
                Ok(Some(length))
            } else {
                Err(format!(
                    "{} is outside {} to {}; take it again, or check the unit",
                    show_length(length, unit),
                    show_length(low, unit),
                    show_length(high, unit)
                ))
            }
        })
    }
}

fn some_text(text: &str, why: &str) -> Result<String, String> {
    if text.is_empty() {
        Err(why.to_owned())
    } else {
        Ok(text.to_owned())
    }
}
