//! From a name as a part of the suit carries it to the key its words stand under.

/// The key of a name: small letters, digits, hyphens. `Front, upper part` is `front-upper-part`.
pub fn slug(name: &str) -> String {
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

#[cfg(test)]
mod tests {
    use super::slug;

    #[test]
    fn names_become_keys() {
        assert_eq!(slug("Front, upper part"), "front-upper-part");
        assert_eq!(
            slug("across, 2 cm above the leg at the side"),
            "across-2-cm-above-the-leg-at-the-side"
        );
        assert_eq!(slug("the wearer's left"), "the-wearers-left");
        assert_eq!(slug("(turn the paper over)"), "turn-the-paper-over");
        assert_eq!(slug("fold-over knitted"), "fold-over-knitted");
    }
}
