//! What the paper of a class says, in its language and its unit.
//!
//! **Shapes and units.** Keys and millimetres in, text out.

use booklet::sentence;
use cloth::Layer;
use make::{Arg, Item, Machine, Say};
use units::LengthUnit;
use words::{Value, Words};

use super::file::ClassSetting;

/// The words of a class.
pub(crate) struct Voice {
    pub(crate) words: Words,
    unit: LengthUnit,
}

/// The key of a name: small letters, digits, hyphens.
fn slug(name: &str) -> String {
    let mut out = String::new();
    for c in name.chars() {
        if c.is_ascii_alphanumeric() {
            out.push(c.to_ascii_lowercase());
        } else if (c == '-' || !c.is_ascii_punctuation()) && !out.is_empty() && !out.ends_with('-') {
            out.push('-');
        }
    }
    out.trim_end_matches('-').to_owned()
}

impl Voice {
    pub(crate) fn new(setting: &ClassSetting) -> Voice {
        Voice {
            words: Words::new(setting.language),
            unit: setting.units,
        }
    }

    pub(crate) fn word(&self, key: &str) -> String {
        self.words.word(key)
    }

    pub(crate) fn say(&self, key: &str, args: &[(&str, Value<'_>)]) -> String {
        self.words.say(key, args)
    }

    fn named(&self, kind: &str, name: &str) -> Option<String> {
        self.words.find(&format!("{kind}-{}", slug(name)), &[])
    }

    /// A piece by its drafted name, part by part.
    pub(crate) fn piece(&self, name: &str) -> String {
        let parts: Vec<String> = name
            .split(", ")
            .map(|part| self.named("part", part).unwrap_or_else(|| part.to_owned()))
            .collect();
        parts.join(", ")
    }

    /// A kind of elastic.
    pub(crate) fn elastic(&self, kind: &str) -> String {
        self.named("elastic", kind).unwrap_or_else(|| kind.to_owned())
    }

    /// An open edge.
    pub(crate) fn edge(&self, edge: &str) -> String {
        self.named("edge", edge).unwrap_or_else(|| edge.to_owned())
    }

    /// A layer, with a large first letter.
    pub(crate) fn layer(&self, layer: Layer) -> String {
        let word = self
            .named("layer", layer.name())
            .unwrap_or_else(|| layer.name().to_owned());
        let mut letters = word.chars();
        letters.next().map_or(String::new(), |c| {
            c.to_uppercase().collect::<String>() + letters.as_str()
        })
    }

    /// A machine: one that has its usual name in the language of the class, any other as its owner calls it.
    pub(crate) fn machine(&self, machine: &Machine) -> String {
        let usual = [
            (Machine::straight(), "class-machine-straight"),
            (Machine::zigzag(), "class-machine-zigzag"),
            (Machine::overlocker(), "class-machine-overlocker"),
            (Machine::coverstitch(), "class-machine-coverstitch"),
        ];
        let key = usual
            .iter()
            .find(|(m, _)| m.name == machine.name)
            .map(|(_, key)| *key);
        key.map_or_else(|| machine.name.clone(), |key| self.word(key))
    }

    /// A sentence of the plan.
    pub(crate) fn plan(&self, say: &Say) -> String {
        let key = say.key.replace('.', "-");
        sentence(&self.words, &key, say, &|arg| self.argument(arg)).unwrap_or_else(|| self.word(&key))
    }

    fn argument(&self, arg: &Arg) -> String {
        match arg {
            Arg::Length(mm) => self.long(mm.get()),
            Arg::Setting(mm) => self.words.millimetres(mm.get()),
            Arg::Share(share) => self.words.percent(*share),
            Arg::Number(number, digits) => self.words.number(*number, usize::from(*digits)),
            Arg::Count(count) => count.to_string(),
            Arg::Key(key) => self.word(&key.replace('.', "-")),
            Arg::Name(name) => self.named("elastic", name).unwrap_or_else(|| self.piece(name)),
            Arg::List(list) => {
                let said: Vec<String> = list.iter().map(|a| self.argument(a)).collect();
                self.words.list(&said)
            }
        }
    }

    /// A length cut or sewn, in both units.
    pub(crate) fn length(&self, mm: f64) -> String {
        self.words.length(mm, self.unit).both()
    }

    /// A length in sentences: as it is bought from a metre on, as it is cut below.
    fn long(&self, mm: f64) -> String {
        if mm >= 1000.0 {
            self.metres(mm)
        } else {
            self.length(mm)
        }
    }

    /// A length as it is bought.
    pub(crate) fn metres(&self, mm: f64) -> String {
        self.words.metres(mm, self.unit).both()
    }

    /// The same in the first unit alone.
    pub(crate) fn metres_short(&self, mm: f64) -> String {
        self.words.metres(mm, self.unit).main
    }

    /// An amount of an item: thread in whole metres, other lengths as they are bought, the rest counted.
    pub(crate) fn amount(&self, item: &Item, of: f64) -> String {
        match item {
            Item::Thread(_) => self.words.with_unit(of / 1000.0, 0, "m"),
            _ if item.is_length() => self.metres(of),
            _ => self.words.number(of, 0),
        }
    }

    /// The same, short.
    pub(crate) fn amount_short(&self, item: &Item, of: f64) -> String {
        match item {
            Item::Thread(_) => self.words.with_unit(of / 1000.0, 0, "m"),
            _ if item.is_length() => self.metres_short(of),
            _ => self.words.number(of, 0),
        }
    }

    /// Minutes: `45 min`, `3 h`, `12 h 30 min`.
    pub(crate) fn minutes(&self, of: u32) -> String {
        let rest = of % 60;
        let hours = |h: u32| self.words.with_unit(f64::from(h), 0, "h");
        let rest_text = self.words.with_unit(f64::from(rest), 0, "min");
        match (of / 60, rest) {
            (0, _) => rest_text,
            (h, 0) => hours(h),
            (h, _) => format!("{} {rest_text}", hours(h)),
        }
    }
}

/// Time in a session: `1:15`.
pub(crate) fn clock(minute: u32) -> String {
    format!("{}:{:02}", minute / 60, minute % 60)
}
