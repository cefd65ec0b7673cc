//! The suit file with a correction set in it, everything else as the maker wrote it.
//!
//! Lines are changed, not the whole rewritten: her comments stay. What comes out is read again and its design held against what was
//! wanted; a file written in a way this can't change is said to be, never changed wrongly.

use solve::Change;

use crate::suit_file::{SuitFile, read_text};

/// The suit file's text with these parameters set.
///
/// # Errors
/// In words, for a file this can't change; then she sets them herself.
pub fn corrected_text(suit: &SuitFile, changes: &[Change]) -> Result<String, String> {
    let set = |key: &str, line: String| (key.to_owned(), line);
    let (mut design, mut figure) = (Vec::new(), Vec::new());
    for change in changes {
        match change.key.strip_prefix("figure.") {
            Some(key) => figure.push(set(key, format!("{key} = \"{}mm\"", change.to))),
            None => design.push(set(change.key, format!("{} = {}", change.key, change.to))),
        }
    }
    if !design.is_empty() {
        // A named fit and its own shares exclude each other.
        design.push(set("fit", String::new()));
    }
    let mut text = in_section(suit.text(), "design", &design);
    if !figure.is_empty() {
        text = in_section(&text, "design.figure", &figure);
    }
    let by_hand = || "this file is written in a way that can't be changed here: set them by hand".to_owned();
    let read = read_text(&suit.file, &text).map_err(|_| by_hand())?;
    let is_set = changes.iter().all(|change| {
        let (fit, figure) = (read.design.fit, &read.design.figure);
        let now = match change.key {
            "fit_around" => fit.around(),
            "fit_lengthwise" => fit.lengthwise(),
            "figure.sway_back" => figure.sway_back.get(),
            "figure.seat" => figure.seat.get(),
            "figure.abdomen" => figure.abdomen.get(),
            "figure.bust_height" => figure.bust_height.get(),
            "figure.rise_length" => figure.rise_length.get(),
            "figure.shoulder_forward" => figure.shoulder_forward.get(),
            _ => return false,
        };
        (now - change.to).abs() < 1e-9
    });
    let mut rest = read.design.clone();
    (rest.fit, rest.figure) = (suit.design.fit, suit.design.figure);
    if is_set && rest == suit.design && read.wearer == suit.wearer {
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
        let reason = corrected_text(&suit(""), &[change("strap_position", 0.4)]).unwrap_err();
        assert!(reason.contains("set them by hand"), "{reason}");
    }
}
