//! What the making plan says by key, as a sentence in a language and in the maker's units.
//!
//! The plan gives keys and typed arguments ([`make::Say`]); the words stand in crate `words`. A length is shown in the maker's unit
//! alone: the pages set the other one beside the figures, not inside sentences.

use std::sync::LazyLock;

use make::{Arg, Say};
use units::{LengthUnit, Mm};
use words::{Language, Value, Words, slug};

use crate::view::told;

/// The words of the pages.
static ENGLISH: LazyLock<Words> = LazyLock::new(|| Words::new(Language::English));

/// Says what a plan says.
#[derive(Clone, Copy, Debug)]
pub(in crate::view) struct Teller<'a> {
    words: &'a Words,
    unit: LengthUnit,
}

impl Teller<'static> {
    /// In the language of the pages.
    pub(in crate::view) fn of_pages(unit: LengthUnit) -> Teller<'static> {
        Teller {
            words: &ENGLISH,
            unit,
        }
    }
}

impl<'a> Teller<'a> {
    /// In the language of these words.
    #[cfg(test)]
    pub(in crate::view) fn new(words: &'a Words, unit: LengthUnit) -> Teller<'a> {
        Teller { words, unit }
    }

    /// Her unit.
    pub(in crate::view) fn unit(self) -> LengthUnit {
        self.unit
    }

    /// The words themselves: numbers, lists.
    pub(in crate::view) fn words(self) -> &'a Words {
        self.words
    }

    /// The sentence of a plan's key.
    pub(in crate::view) fn say(self, say: &Say) -> String {
        self.part(say, "").unwrap_or_else(|| self.word(say.key))
    }

    /// An attribute of the message, `.how`; `None` where it has none.
    pub(in crate::view) fn part(self, say: &Say, part: &str) -> Option<String> {
        let said: Vec<String> = say.args.iter().map(|(_, arg)| self.argument(arg)).collect();
        let args: Vec<(&str, Value<'_>)> = say
            .args
            .iter()
            .zip(&said)
            .map(|((name, arg), text)| match arg {
                Arg::Count(count) => (*name, Value::from(*count)),
                _ => (*name, Value::from(text)),
            })
            .collect();
        self.words.find(&format!("{}{part}", key(say.key)), &args)
    }

    /// A word of the plan by its key: `stitch.zigzag`.
    pub(in crate::view) fn word(self, plan_key: &str) -> String {
        self.words.word(&key(plan_key))
    }

    /// A word of the plan with its first letter large.
    pub(in crate::view) fn title(self, plan_key: &str) -> String {
        told::capital(&self.word(plan_key))
    }

    /// A sentence of the section itself, `sew-…`, with its variables.
    pub(in crate::view) fn own(self, key: &str, args: &[(&str, Value<'_>)]) -> String {
        self.words.say(key, args)
    }

    /// A length in her unit.
    pub(in crate::view) fn length(self, mm: Mm) -> String {
        self.words.length(mm.get(), self.unit).main
    }

    /// A kind of elastic or a piece by its drafted name, part by part; a name nobody translated stays as it is.
    pub(in crate::view) fn named(self, name: &str) -> String {
        if let Some(kind) = self.words.find(&format!("elastic-{}", slug(name)), &[]) {
            return kind;
        }
        let parts: Vec<String> = name
            .split(", ")
            .map(|part| {
                let key = format!("part-{}", slug(part));
                self.words.find(&key, &[]).unwrap_or_else(|| part.to_owned())
            })
            .collect();
        parts.join(", ")
    }

    fn argument(self, arg: &Arg) -> String {
        match arg {
            Arg::Length(mm) => self.length(*mm),
            Arg::Setting(mm) => self.words.millimetres(mm.get()),
            Arg::Share(share) => self.words.percent(*share),
            Arg::Number(number, digits) => self.words.number(*number, usize::from(*digits)),
            Arg::Count(count) => count.to_string(),
            Arg::Key(key) => self.word(key),
            Arg::Name(name) => self.named(name),
            Arg::List(list) => {
                let said: Vec<String> = list.iter().map(|a| self.argument(a)).collect();
                self.words.list(&said)
            }
        }
    }
}

/// The Fluent key of a plan's key: its dots are hyphens.
fn key(plan_key: &str) -> String {
    plan_key.replace('.', "-")
}
