//! The cautions that apply to this suit, whole, in one place; each stands at its step as well.

use super::{Desk, is_child};
use crate::model::{Block, Chapter, Sign};

/// Those every suit needs, then those of this one.
const ALWAYS: [&str; 6] = ["medical", "uv", "chlorine", "entrap", "weights", "skin"];

/// The chapter.
pub(super) fn cautions(desk: &Desk<'_>) -> Chapter {
    let mut ids: Vec<&str> = desk.suit.cautions.to_vec();
    ids.extend(ALWAYS);
    if is_child(desk.suit) {
        ids.push("kids_cord_waist");
    }
    ids.push("local");
    let mut seen: Vec<&str> = Vec::new();
    let mut blocks = Vec::new();
    for id in ids {
        if seen.contains(&id) {
            continue;
        }
        seen.push(id);
        let key = id.replace('_', "-");
        let sign = if matches!(
            id,
            "pressure" | "float" | "kids_cord" | "kids_cord_back" | "kids_parts"
        ) {
            Sign::Stop
        } else {
            Sign::Watch
        };
        blocks.push(Block::Callout(crate::model::Callout {
            sign,
            word: desk.word(&format!("topic-{key}")),
            text: desk.word(&format!("caution-{key}")),
        }));
    }
    desk.chapter("cautions", false, blocks)
}
