//! How a cloth is drawn when there is no photo of it: a ground colour and a weave.

use serde_json::Value as Json;

/// Colour and weave of a drawn swatch.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Look {
    /// `#566874`.
    pub colour: String,
    /// `plain`, `ribs`, `leaf`, `dots` or `mesh`.
    pub weave: String,
    /// Id of her own photo.
    pub photo: Option<String>,
}

const WEAVES: [&str; 5] = ["plain", "ribs", "leaf", "dots", "mesh"];
const SLATE: &str = "#566874";
const OAT: &str = "#DCC9A0";
const PALE: &str = "#C9CFCF";

/// The look of a cloth document; by its role where nothing (or nothing that can be drawn) is said.
pub fn look_of(cloth: Option<&Json>) -> Look {
    let text = |key: &str| {
        cloth
            .and_then(|c| c.get("look"))
            .and_then(|l| l.get(key))
            .and_then(Json::as_str)
    };
    let (colour, weave) = match cloth.and_then(|c| c.get("role")).and_then(Json::as_str) {
        Some("lining") => (OAT, "plain"),
        Some("mesh") => (PALE, "mesh"),
        _ => (SLATE, "plain"),
    };
    Look {
        colour: text("colour")
            .filter(|c| is_colour(c))
            .unwrap_or(colour)
            .to_owned(),
        weave: text("weave")
            .filter(|w| WEAVES.contains(w))
            .unwrap_or(weave)
            .to_owned(),
        photo: cloth
            .and_then(|c| c.get("photo"))
            .and_then(Json::as_str)
            .map(str::to_owned),
    }
}

/// `#` and six hexadecimal digits: nothing else reaches an attribute of a drawing.
fn is_colour(text: &str) -> bool {
    text.strip_prefix('#')
        .is_some_and(|hex| hex.len() == 6 && hex.bytes().all(|b| b.is_ascii_hexdigit()))
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn a_colour_is_a_colour_or_the_usual_one() {
        let of = |colour: &str| look_of(Some(&json!({"role": "lining", "look": {"colour": colour}}))).colour;
        assert_eq!(of("#2F6B58"), "#2F6B58");
        for bad in ["red", "#12345", "url(#x)", "#12345g", ""] {
            assert_eq!(of(bad), OAT, "{bad}");
        }
    }
}
