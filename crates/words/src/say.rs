//! Says a sentence by its key, with its variables filled in.
//!
//! The Fluent library parses, chooses plurals and fills in; numbers it is given as numbers are written with the decimal sign
//! of the language. Text that is filled in is never parsed again, so a maker's own words cannot change a sentence.
//!
//! **Limits.** The two files of a language must not hold the same key twice; a file that does not parse is a fault of ours,
//! found by a test. In a program that was built without that test such a key is missing, and says so.

use std::borrow::Cow;
use std::fmt;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};

use crate::language::Language;

/// What a variable of a sentence is filled with.
#[derive(Clone, Debug, PartialEq)]
pub enum Value<'a> {
    /// Text as it is.
    Text(Cow<'a, str>),
    /// How many: chooses the plural.
    Count(u64),
}

impl<'a> From<&'a str> for Value<'a> {
    fn from(text: &'a str) -> Value<'a> {
        Value::Text(Cow::Borrowed(text))
    }
}

impl<'a> From<&'a String> for Value<'a> {
    fn from(text: &'a String) -> Value<'a> {
        Value::Text(Cow::Borrowed(text))
    }
}

impl From<String> for Value<'_> {
    fn from(text: String) -> Self {
        Value::Text(Cow::Owned(text))
    }
}

impl From<usize> for Value<'_> {
    fn from(count: usize) -> Self {
        Value::Count(count as u64)
    }
}

impl From<u32> for Value<'_> {
    fn from(count: u32) -> Self {
        Value::Count(u64::from(count))
    }
}

/// The sentences of one language.
pub struct Words {
    language: Language,
    bundle: FluentBundle<FluentResource>,
}

impl fmt::Debug for Words {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Words").field("language", &self.language).finish()
    }
}

impl Words {
    /// All sentences of that language.
    pub fn new(language: Language) -> Words {
        // The tags are our own and parse; an empty list would only lose the plural rules.
        let tags = language.tag().parse().into_iter().collect();
        let mut bundle = FluentBundle::new_concurrent(tags);
        // The typesetter knows the one direction there is; marks round every variable would only stand in copied text.
        bundle.set_use_isolating(false);
        for (_, text) in language.files() {
            let resource = FluentResource::try_new(text.to_owned()).unwrap_or_else(|(rest, _)| rest);
            bundle.add_resource_overriding(resource);
        }
        Words { language, bundle }
    }

    /// Which language.
    pub fn language(&self) -> Language {
        self.language
    }

    /// The sentence of that key with its variables filled in; a missing key is said in marks, `‹key›`, so that it is seen.
    pub fn say(&self, key: &str, args: &[(&str, Value<'_>)]) -> String {
        self.find(key, args).unwrap_or_else(|| format!("‹{key}›"))
    }

    /// The words of that key, which has no variables.
    pub fn word(&self, key: &str) -> String {
        self.say(key, &[])
    }

    /// The sentence of that key, or `None` when the language has none. `key.part` is an attribute of the message.
    pub fn find(&self, key: &str, args: &[(&str, Value<'_>)]) -> Option<String> {
        let (message, attribute) = key.split_once('.').map_or((key, None), |(m, a)| (m, Some(a)));
        let message = self.bundle.get_message(message)?;
        let pattern = match attribute {
            Some(name) => message.get_attribute(name)?.value(),
            None => message.value()?,
        };
        let mut filled = FluentArgs::new();
        for (name, value) in args {
            let value: FluentValue<'_> = match value {
                Value::Text(text) => FluentValue::String(text.clone()),
                Value::Count(count) => FluentValue::from(*count),
            };
            filled.set(*name, value);
        }
        let mut errors = Vec::new();
        let said = self
            .bundle
            .format_pattern(pattern, Some(&filled), &mut errors)
            .into_owned();
        // A variable nobody filled stands as `{$name}` in the text: seen, and held by a test over every booklet.
        Some(said)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_filled_in_is_not_parsed_again() {
        let words = Words::new(Language::English);
        let said = words.say("cover-for", &[("wearer", "{$suit} -brand *bold*".into())]);
        assert!(said.contains("{$suit} -brand *bold*"), "{said}");
    }

    #[test]
    fn a_missing_key_is_seen() {
        assert_eq!(Words::new(Language::German).word("no-such-key"), "‹no-such-key›");
    }

    #[test]
    fn plurals_follow_the_language() {
        for (language, one, two) in [
            (Language::English, "1 page", "2 pages"),
            (Language::German, "1 Seite", "2 Seiten"),
        ] {
            let words = Words::new(language);
            assert_eq!(words.say("count-pages", &[("count", 1_usize.into())]), one);
            assert_eq!(words.say("count-pages", &[("count", 2_usize.into())]), two);
        }
    }
}
