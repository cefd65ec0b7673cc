//! Names of the suit's own parts in the reader's language: style, pieces, measures, arcs, edges, layers.
//!
//! The draft names its parts in English. A name is looked up by its words, `Front, upper part` as `part-front` and
//! `part-upper-part`; one with no translation stays as it was drafted.

use draft::Piece;

use super::Desk;

/// The key of a name: small letters, digits, hyphens.
pub(crate) fn slug(name: &str) -> String {
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

/// The style, as it is called: `One-piece`.
pub(crate) fn style(desk: &Desk<'_>) -> String {
    let style = desk.suit.draft.style;
    desk.words
        .find(&format!("style-{}", style.key()), &[])
        .unwrap_or_else(|| style.spec().name.to_owned())
}

/// A piece by its drafted name.
pub(crate) fn piece_named(desk: &Desk<'_>, name: &str) -> String {
    let parts: Vec<String> = name
        .split(", ")
        .map(|part| {
            desk.words
                .find(&format!("part-{}", slug(part)), &[])
                .unwrap_or_else(|| part.to_owned())
        })
        .collect();
    parts.join(", ")
}

/// A piece.
pub(crate) fn piece(desk: &Desk<'_>, piece: &Piece) -> String {
    piece_named(desk, &piece.name)
}

/// A measure of the finished suit.
pub(crate) fn measure(desk: &Desk<'_>, name: &str) -> String {
    desk.words
        .find(&format!("measure-{}", slug(name)), &[])
        .unwrap_or_else(|| name.to_owned())
}

/// An arc of an edge: `front`.
pub(crate) fn arc(desk: &Desk<'_>, name: &str) -> String {
    desk.words
        .find(&format!("arc-{}", slug(name)), &[])
        .unwrap_or_else(|| name.to_owned())
}

/// An open edge: `leg`.
pub(crate) fn edge(desk: &Desk<'_>, name: &str) -> String {
    desk.words
        .find(&format!("edge-{}", slug(name)), &[])
        .unwrap_or_else(|| name.to_owned())
}

/// A kind of elastic in the trade's words.
pub(crate) fn elastic_kind(desk: &Desk<'_>, name: &str) -> String {
    desk.words
        .find(&format!("elastic-{}", slug(name)), &[])
        .unwrap_or_else(|| name.to_owned())
}

/// A layer: `shell`.
pub(crate) fn layer(desk: &Desk<'_>, layer: cloth::Layer) -> String {
    desk.word(&format!("layer-{}", slug(layer.name())))
}

#[cfg(test)]
mod tests {
    use super::*;

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
