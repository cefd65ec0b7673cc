//! The colours of `web/style/tokens.css` against the ratios the look was drawn with, by day and by night.
//!
//! **Source.** WCAG 2.2, "relative luminance" and "contrast ratio"; text needs 4.5, edges of touchable things 3 (success
//! criteria 1.4.3 and 1.4.11). The expected ratios are those of the look, to one decimal, hence the tolerance of 0.05.

use std::collections::BTreeMap;

/// Half a unit of the last decimal the table gives.
const TOLERANCE: f64 = 0.05 + 1e-9;

#[derive(Clone, Copy)]
enum Light {
    Day,
    Night,
}

/// Every `--name: light-dark(#RRGGBB, #RRGGBB)` of the sheet.
fn tokens() -> BTreeMap<String, [[u8; 3]; 2]> {
    let sheet = pages::asset("style/tokens.css").expect("shipped");
    let text = std::str::from_utf8(sheet.bytes).expect("utf-8");
    let mut found = BTreeMap::new();
    for line in text.lines() {
        let Some((name, rest)) = line
            .trim()
            .strip_prefix("--")
            .and_then(|l| l.split_once(": light-dark(#"))
        else {
            continue;
        };
        let (day, rest) = rest.split_once(", #").expect("two colours");
        let night = rest.split(')').next().expect("closed");
        found.insert(name.to_owned(), [hex(day), hex(night)]);
    }
    found
}

fn hex(text: &str) -> [u8; 3] {
    assert_eq!(text.len(), 6, "{text} is not six digits");
    [0, 2, 4].map(|i| u8::from_str_radix(&text[i..i + 2], 16).expect("hexadecimal"))
}

fn luminance(colour: [u8; 3]) -> f64 {
    let [r, g, b] = colour.map(|channel| {
        let c = f64::from(channel) / 255.0;
        if c <= 0.04045 {
            c / 12.92
        } else {
            ((c + 0.055) / 1.055).powf(2.4)
        }
    });
    0.2126 * r + 0.7152 * g + 0.0722 * b
}

fn ratio(front: &str, back: &str, light: Light) -> f64 {
    let tokens = tokens();
    let of =
        |name: &str| luminance(tokens.get(name).unwrap_or_else(|| panic!("no token {name}"))[light as usize]);
    let (a, b) = (of(front), of(back));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// Front, back, ratio by day, by night.
const TABLE: [(&str, &str, f64, f64); 19] = [
    ("ink", "ground", 13.1, 13.9),
    ("ink", "paper", 14.4, 11.4),
    ("slate", "ground", 6.8, 9.0),
    ("slate", "paper", 7.5, 7.4),
    ("pencil", "ground", 7.0, 8.5),
    ("pencil", "paper", 7.7, 7.0),
    ("kelp", "ground", 6.6, 9.1),
    ("kelp", "paper", 7.2, 7.5),
    ("doubt", "ground", 6.3, 9.9),
    ("doubt", "paper", 6.9, 8.2),
    ("signal", "ground", 6.3, 8.3),
    ("signal", "paper", 6.9, 6.9),
    ("line", "ground", 3.4, 5.1),
    ("line", "paper", 3.8, 4.2),
    ("oat-ink", "oat", 8.8, 7.7),
    // A ticket is ground on ink.
    ("ground", "ink", 13.1, 13.9),
    ("on-cloth", "cloth-slate", 5.5, 5.7),
    ("doubt", "wash", 5.8, f64::NAN),
    ("signal", "wash", 5.7, f64::NAN),
];

#[test]
fn the_colours_keep_the_ratios_they_were_drawn_with() {
    for (front, back, day, night) in TABLE {
        for (light, expected, name) in [(Light::Day, day, "day"), (Light::Night, night, "night")] {
            if expected.is_nan() {
                continue;
            }
            let measured = ratio(front, back, light);
            assert!(
                (measured - expected).abs() <= TOLERANCE,
                "{front} on {back} by {name}: {measured:.2}, the look says {expected}"
            );
        }
    }
}

/// Pairs that occur in the style sheets beyond the table: text on a fill.
#[test]
fn all_text_reaches_what_the_guideline_asks() {
    const TEXT_ON: [(&str, &str); 12] = [
        ("ground", "kelp"),
        ("ink", "wash"),
        ("slate", "wash"),
        ("pencil", "wash"),
        ("doubt", "wash"),
        ("signal", "wash"),
        ("kelp", "wash"),
        ("ink", "ground"),
        ("slate", "paper"),
        ("pencil", "paper"),
        ("oat-ink", "oat"),
        ("kelp", "paper"),
    ];
    for (front, back) in TEXT_ON {
        for light in [Light::Day, Light::Night] {
            let measured = ratio(front, back, light);
            assert!(measured >= 4.5, "{front} on {back}: {measured:.2} is under 4.5");
        }
    }
}

/// Black on white is 21 by the definition; a wrong formula would not give it.
#[test]
fn the_formula_itself() {
    let (white, black) = (luminance([255; 3]), luminance([0; 3]));
    assert!(((white + 0.05) / (black + 0.05) - 21.0).abs() < 1e-9);
}
