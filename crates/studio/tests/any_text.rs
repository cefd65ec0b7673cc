//! Laws of the parser on any input: it never panics, every fault has a place inside the text, and what it accepts it
//! accepts again.

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use studio::order::work_out;
use studio::suit_file::{Faults, read_bytes, read_text};

const SEEDS: [&str; 6] = [
    include_str!("../../../examples/ines-one-piece.toml"),
    include_str!("../../../examples/maren-one-piece.toml"),
    include_str!("../../../examples/odile-skirted.toml"),
    include_str!("../../../examples/odile-v-neck.toml"),
    include_str!("../../../examples/tove-brief.toml"),
    include_str!("../../../examples/tove-square-neck.toml"),
];

/// Texts that stand where a value may stand.
const VALUES: [&str; 26] = [
    "0",
    "-1",
    "1e308",
    "-1e308",
    "nan",
    "inf",
    "1e-320",
    "99999999999999999999",
    "0x7fffffffffffffff",
    "true",
    "\"\"",
    "\"37 5/8in\"",
    "\"-37⅝\\\"\"",
    "\"½\"",
    "[]",
    "[[1], {a = 1}]",
    "{}",
    "{ value = 90 }",
    "{ rest = 10, pulled = 15 }",
    "{ stretch = 1e9 }",
    "1979-05-27T07:32:00Z",
    "\"\\u0000\"",
    "'''\n\n'''",
    "\"one-piece\"",
    "\"ß\\U0001F9F5\"",
    "_1_",
];

fn sound(faults: &Faults) {
    assert!(!faults.list.is_empty(), "an error without a fault");
    for fault in &faults.list {
        assert!(!fault.message.is_empty());
        if let Some(span) = &fault.at {
            assert!(
                span.start <= span.end && span.end <= faults.text.len(),
                "{fault:?} outside the text"
            );
            assert!(
                faults.text.is_char_boundary(span.start) && faults.text.is_char_boundary(span.end),
                "{fault:?}"
            );
        }
    }
    // Rendering walks the excerpts.
    assert!(faults.to_plain().lines().count() >= faults.list.len());
    serde_json::to_string(&faults.to_json()).expect("faults are plain data");
}

fn judge(text: &str) {
    match read_text("any.toml", text) {
        Err(faults) => sound(&faults),
        Ok(suit) => {
            assert_eq!(
                read_text("any.toml", text).as_ref(),
                Ok(&suit),
                "two readings differ"
            );
            if let Err(faults) = work_out(&suit) {
                sound(&faults);
            }
        }
    }
}

/// One spoiling of a text: a value replaced, a line removed, doubled or moved, bytes changed.
#[derive(Clone, Debug)]
enum Spoil {
    Value(usize, usize),
    Remove(usize),
    Double(usize),
    Swap(usize, usize),
    Scale(usize, f64),
    Insert(usize, char),
    Cut(usize),
}

fn spoil() -> impl Strategy<Value = Spoil> {
    prop_oneof![
        4 => (any::<usize>(), any::<usize>()).prop_map(|(l, v)| Spoil::Value(l, v)),
        1 => any::<usize>().prop_map(Spoil::Remove),
        1 => any::<usize>().prop_map(Spoil::Double),
        1 => (any::<usize>(), any::<usize>()).prop_map(|(a, b)| Spoil::Swap(a, b)),
        4 => (any::<usize>(), 0.05f64..20.0).prop_map(|(l, f)| Spoil::Scale(l, f)),
        1 => (any::<usize>(), any::<char>()).prop_map(|(at, c)| Spoil::Insert(at, c)),
        1 => any::<usize>().prop_map(Spoil::Cut),
    ]
}

fn apply(text: &str, spoil: &Spoil) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    if lines.is_empty() {
        return text.to_owned();
    }
    let n = lines.len();
    let mut set = |line: usize, value: &dyn Fn(&str) -> String| {
        if let Some((key, old)) = lines[line % n].clone().split_once('=') {
            lines[line % n] = format!("{key}= {}", value(old.trim()));
        }
    };
    match spoil {
        Spoil::Value(line, value) => set(*line, &|_| VALUES[value % VALUES.len()].to_owned()),
        Spoil::Scale(line, factor) => {
            set(*line, &|old| {
                old.parse::<f64>()
                    .map_or(old.to_owned(), |x| format!("{:.3}", x * factor))
            });
        }
        Spoil::Remove(line) => {
            lines.remove(line % n);
        }
        Spoil::Double(line) => lines.insert(line % n, lines[line % n].clone()),
        Spoil::Swap(a, b) => lines.swap(a % n, b % n),
        Spoil::Insert(at, c) => {
            let mut chars: Vec<char> = text.chars().collect();
            chars.insert(at % (chars.len() + 1), *c);
            return chars.into_iter().collect();
        }
        Spoil::Cut(at) => {
            let chars: Vec<char> = text.chars().collect();
            return chars[..at % (chars.len() + 1)].iter().collect();
        }
    }
    lines.join("\n") + "\n"
}

proptest! {
    // A fixed seed: a run that fails fails again.
    #![proptest_config(ProptestConfig { cases: 400, rng_seed: proptest::test_runner::RngSeed::Fixed(20), ..ProptestConfig::default() })]

    #[test]
    fn any_bytes(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        if let Err(faults) = read_bytes("any.toml", &bytes) {
            sound(&faults);
        }
    }

    #[test]
    fn any_characters(text in "\\PC{0,200}") {
        judge(&text);
    }

    #[test]
    fn text_that_looks_like_toml(text in "((\\[[a-z_.]{0,12}\\]|[a-z_]{1,8} ?= ?([0-9.e+-]{0,6}|\"[^\"]{0,8}\"|\\{[a-z= 0-9,]{0,12}\\}))\n){0,12}") {
        judge(&text);
    }

    #[test]
    fn examples_spoiled_in_up_to_five_places(seed in 0..SEEDS.len(), spoils in prop::collection::vec(spoil(), 1..6)) {
        let text = spoils.iter().fold(SEEDS[seed].to_owned(), |text, s| apply(&text, s));
        judge(&text);
    }
}

#[test]
fn deep_nesting_is_refused_not_followed() {
    for (open, close) in [("[", "]"), ("{ a = ", "}")] {
        let text = format!("x = {}1{}\n", open.repeat(50_000), close.repeat(50_000));
        let faults = read_text("deep.toml", &text).expect_err("nobody nests a suit this deep");
        sound(&faults);
    }
}

/// Guards the laws above against proving nothing: a good part of the spoiled examples must still be read, so that the draft
/// meets odd bodies and cloths too.
#[test]
fn many_spoiled_examples_still_reach_the_draft() {
    let config = ProptestConfig {
        rng_seed: proptest::test_runner::RngSeed::Fixed(7),
        ..ProptestConfig::default()
    };
    let mut runner = proptest::test_runner::TestRunner::new(config);
    let (mut read, mut drafted) = (0, 0);
    for round in 0..300 {
        let spoil = spoil().new_tree(&mut runner).expect("a spoiling").current();
        let text = apply(SEEDS[round % SEEDS.len()], &spoil);
        if let Ok(suit) = read_text("any.toml", &text) {
            read += 1;
            drafted += usize::from(work_out(&suit).is_ok());
        }
    }
    assert!(
        read > 60 && drafted > 40 && drafted < read,
        "{read} read, {drafted} drafted of 300"
    );
}
