//! The head of every page: suit, wearer and version, none of them crowded out by a long other.
//!
//! **Shapes and units.** mm of room on the page.

use crate::lettering::{Face, Lettering, Line};
use crate::pattern::Pattern;

/// What stands at the head of every page.
#[derive(Clone, Debug)]
pub(crate) struct Running {
    /// Suit, wearer, version; empty ones left out.
    parts: Vec<String>,
}

impl Running {
    /// `Pattern` when none of them says anything.
    pub(crate) fn of(pattern: &Pattern<'_>) -> Running {
        let version = match pattern.version.trim() {
            "" => String::new(),
            v => format!("version {v}"),
        };
        let parts: Vec<String> = [
            pattern.suit.trim().to_owned(),
            pattern.wearer.trim().to_owned(),
            version,
        ]
        .into_iter()
        .filter(|p| !p.is_empty())
        .collect();
        if parts.is_empty() {
            Running {
                parts: vec!["Pattern".to_owned()],
            }
        } else {
            Running { parts }
        }
    }

    /// All of it, as long as it is: for titles of files.
    pub(crate) fn text(&self) -> String {
        self.parts.join(", ")
    }

    /// One line no wider than `room` mm. If all is too long, the last part gets at most a quarter of the room, the one
    /// before at most half of what is left, the first the rest; each is cut with an ellipsis.
    pub(crate) fn line(&self, letters: &Lettering, face: Face, size: f64, room: f64) -> Line {
        let whole = self.text();
        // Names of thousands of letters are never shaped whole.
        if whole.len() < 400 {
            let line = letters.line(face, size, &whole);
            if line.width <= room {
                return line;
            }
        }
        let comma = letters.line(face, size, ", ").width;
        let mut left = room - comma * (self.parts.len().saturating_sub(1)) as f64;
        let mut cut: Vec<String> = Vec::new();
        for (i, part) in self.parts.iter().enumerate().rev() {
            let share = match (i, self.parts.len() - i) {
                (0, _) => 1.0,
                (_, 1) => 0.25,
                _ => 0.5,
            };
            let line = letters.fit(face, size, part, left * share);
            left -= line.width;
            cut.push(line.text());
        }
        cut.reverse();
        // Kerning at the joints may add a hair; fit takes care of it.
        letters.fit(face, size, &cut.join(", "), room)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lettering::NOTE;

    #[test]
    fn a_long_name_crowds_nothing_out() {
        let letters = Lettering::load().unwrap();
        let parts = |names: [&str; 3]| Running {
            parts: names.map(str::to_owned).to_vec(),
        };
        let long = "a name that never ends, ".repeat(100);
        for running in [
            parts([&long, "Maren", "version 2"]),
            parts(["One-piece", &long, "version 2"]),
            parts([&long, &long, "version 2"]),
        ] {
            let line = running.line(&letters, Face::Title, NOTE, 120.0);
            assert!(
                line.width <= 120.0 && line.text().contains("version 2"),
                "{}",
                line.text()
            );
        }
        let line = parts([&long, "Maren", "version 2"]).line(&letters, Face::Title, NOTE, 120.0);
        assert!(line.text().ends_with("…, Maren, version 2"), "{}", line.text());
    }
}
