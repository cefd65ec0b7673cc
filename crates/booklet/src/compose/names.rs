//! Names of the suit's own parts in the reader's language: style, pieces, measures, arcs, edges, layers.
//!
//! The draft names its parts in English. A name is looked up by its words, `Front, upper part` as `part-front` and
//! `part-upper-part`; one with no translation stays as it was drafted.

use draft::Piece;
pub(crate) use words::slug;

use super::Desk;

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
