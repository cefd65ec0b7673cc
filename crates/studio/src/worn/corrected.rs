//! The suit file with a correction set in it, everything else as the maker wrote it.
//!
//! Lines are changed, not the whole rewritten: her comments stay. What comes out is read again and its design held against what was
//! wanted; a file written in a way this can't change is said to be, never changed wrongly.

use solve::Change;

use super::changed::{changed, excluded, is_length};
use crate::suit_file::{SuitFile, read_text};

/// The suit file's text with these parameters set.
///
/// # Errors
/// In words, for a file this can't change; then she sets them herself.
pub fn corrected_text(suit: &SuitFile, changes: &[Change]) -> Result<String, String> {
    let set = |key: &str, line: String| (key.to_owned(), line);
    let (mut design, mut figure) = (Vec::new(), Vec::new());
    for change in changes {
        let (section, key) = match change.key.strip_prefix("figure.") {
            Some(key) => (&mut figure, key),
            None => (&mut design, change.key),
        };
        section.push(set(
            key,
            if is_length(change.key) {
                format!("{key} = \"{}mm\"", change.to)
            } else {
                format!("{key} = {}", change.to)
            },
        ));
        // Other ways of saying the same thing go.
        section.extend(excluded(change.key).iter().map(|k| set(k, String::new())));
    }
    let mut text = in_section(suit.text(), "design", &design);
    if !figure.is_empty() {
        text = in_section(&text, "design.figure", &figure);
    }
    let by_hand = || "this file is written in a way that can't be changed here: set them by hand".to_owned();
    let read = read_text(&suit.file, &text).map_err(|_| by_hand())?;
    let wanted = changed(&suit.design, changes).map_err(|_| by_hand())?;
    if read.design == wanted && read.wearer == suit.wearer {
        Ok(text)
    } else {
        Err(by_hand())
    }
}

/// The text with keys of a section set: old lines of them go, new ones follow the section's head. An empty line only takes away.
fn in_section(text: &str, section: &str, keys: &[(String, String)]) -> String {
    let head = format!("[{section}]");
    let mut out = Vec::new();
    let (mut is_in, mut is_there) = (false, false);
    let new = || {
        keys.iter()
            .map(|(_, line)| line.clone())
            .filter(|line| !line.is_empty())
    };
    for line in text.lines() {
        let bare = line.split('#').next().unwrap_or_default().trim();
        if bare.starts_with('[') {
            is_in = bare == head;
            is_there |= is_in;
            out.push(line.to_owned());
            if is_in {
                out.extend(new());
            }
            continue;
        }
        let key = bare.split('=').next().unwrap_or_default().trim();
        let is_replaced = is_in && bare.contains('=') && keys.iter().any(|(k, _)| k == key);
        if !is_replaced {
            out.push(line.to_owned());
        }
    }
    if !is_there {
        out.extend([String::new(), head]);
        out.extend(new());
    }
    out.join("\n") + "\n"
}

#[cfg(test)]
mod tests {
    use super::*;

    fn suit(extra: &str) -> SuitFile {
        let text = include_str!("../../../../examples/maren-one-piece.toml");
        read_text("maren.toml", &(text.to_owned() + extra)).unwrap()
    }

    fn change(key: &'static str, to: f64) -> Change {
        Change { key, from: None, to }
    }

    #[test]
    fn only_what_is_corrected_is_changed() {
        let suit = suit("\n[design.figure]\nsway_back = 0 # by the toile\nseat = 0.4\n");
        let changes = [
            change("fit_around", 0.213),
            change("fit_lengthwise", 0.09),
            change("figure.sway_back", 6.5),
        ];
        let text = corrected_text(&suit, &changes).unwrap();
        let lines: Vec<&str> = suit
            .text()
            .lines()
            .filter(|l| !text.lines().any(|t| t == *l))
            .collect();
        assert!(
            lines.len() == 2 && lines[0].starts_with("fit = ") && lines[1].starts_with("sway_back = 0"),
            "{lines:?}"
        );
        assert!(
            text.contains("\nsway_back = \"6.5mm\"\n") && text.contains("\nseat = 0.4\n"),
            "{text}"
        );
    }

    #[test]
    fn a_file_without_a_figure_gets_one() {
        let changes = [change("figure.rise_length", -3.5)];
        let text = corrected_text(&suit(""), &changes).unwrap();
        assert!(
            text.ends_with("[design.figure]\nrise_length = \"-3.5mm\"\n"),
            "{text}"
        );
    }

    #[test]
    fn what_cannot_be_set_is_said() {
        let reason = corrected_text(&suit(""), &[change("growth", 4.0)]).unwrap_err();
        assert!(reason.contains("set them by hand"), "{reason}");
    }

    #[test]
    fn what_says_the_same_otherwise_goes() {
        let suit = suit("");
        let text =
            corrected_text(&suit, &[change("leg_share", 0.55), change("strap_position", 0.4)]).unwrap();
        let lines: Vec<&str> = text.lines().collect();
        assert!(
            lines.contains(&"leg_share = 0.55") && lines.contains(&"strap_position = 0.4"),
            "{text}"
        );
        assert!(!lines.iter().any(|l| l.starts_with("leg = ")), "{text}");
    }
}
