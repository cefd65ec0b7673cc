//! What the making plan says by key, as a sentence.
//!
//! The plan gives keys and typed arguments; here they become words and quantities. In the class edition a length that
//! belongs to the wearer is a line to write on.

use make::{Arg, Say};
use units::Mm;
use words::{Value, Words};

use super::{Desk, shopping};

/// The Fluent key of a plan's key: its dots are hyphens.
pub(super) fn key(plan_key: &str) -> String {
    plan_key.replace('.', "-")
}

/// A plan's sentence under a key of the language, or `None` where it has none. `argument` says an argument; counts stay numbers, for
/// the language's plural forms.
pub fn sentence(words: &Words, key: &str, say: &Say, argument: &dyn Fn(&Arg) -> String) -> Option<String> {
    let said: Vec<(&str, String)> = say
        .args
        .iter()
        .map(|(name, arg)| (*name, argument(arg)))
        .collect();
    let args: Vec<(&str, Value<'_>)> = say
        .args
        .iter()
        .zip(&said)
        .map(|((name, arg), (_, text))| match arg {
            Arg::Count(count) => (*name, Value::from(*count)),
            _ => (*name, Value::from(text)),
        })
        .collect();
    words.find(key, &args)
}

impl Desk<'_> {
    /// The sentence of a plan's key.
    pub(super) fn plan(&self, say: &Say) -> String {
        self.plan_part(say, "")
            .unwrap_or_else(|| self.word(&key(say.key)))
    }

    /// An attribute of the message, `.how`; `None` where it has none.
    pub(super) fn plan_part(&self, say: &Say, part: &str) -> Option<String> {
        let key = format!("{}{part}", key(say.key));
        sentence(self.words, &key, say, &|arg| self.argument(arg))
    }

    /// A word of the plan: `stitch.zigzag`.
    pub(super) fn plan_word(&self, plan_key: &str) -> String {
        self.word(&key(plan_key))
    }

    fn argument(&self, arg: &Arg) -> String {
        match arg {
            Arg::Length(_) if self.is_class() => "____".to_owned(),
            Arg::Length(mm) => self.length(mm.get()).both(),
            Arg::Setting(mm) => self.setting(*mm),
            Arg::Share(share) => self.words.percent(*share),
            Arg::Number(number, digits) => self.words.number(*number, usize::from(*digits)),
            Arg::Count(count) => count.to_string(),
            Arg::Key(key) => self.plan_word(key),
            Arg::Name(name) => shopping::named(self, name),
            Arg::List(list) => {
                let said: Vec<String> = list.iter().map(|a| self.argument(a)).collect();
                self.words.list(&said)
            }
        }
    }

    /// A setting of a machine, always in millimetres.
    pub(super) fn setting(&self, mm: Mm) -> String {
        self.words.millimetres(mm.get())
    }
}
