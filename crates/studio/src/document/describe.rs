//! A change in words, as the history and "Back one" show it: `strap 4.2 cm to 3.8 cm`.

use serde_json::Value;

use crate::view::{at_path, usual_of, words_of};

/// What setting `path` of a document of this kind to `value` is called; `body` is the document before.
pub fn describe(kind: &str, body: &Value, path: &str, value: &Value) -> String {
    let before = at_path(body, path);
    if kind == "suit" {
        if let Some(text) = chosen(path, before, value) {
            return text;
        }
        match path {
            "wearer" => return "chose the wearer".into(),
            "shell" | "lining" | "mesh" | "elastic" => return format!("chose the {path}"),
            "contrast" => return "chose the second outer cloth".into(),
            _ => {}
        }
        if let Some(step) = path.strip_prefix("sewn.") {
            let step = step.replace(['.', '_'], " ");
            return if value.is_null() {
                format!("not done: {step}")
            } else {
                format!("done: {step}")
            };
        }
    }
    let label = label(path);
    match (before.and_then(shown), shown(value)) {
        (Some(before), Some(after)) => format!("{label} {before} to {after}"),
        (None, Some(after)) => format!("{label} {after}"),
        (Some(before), None) if value.is_null() => format!("{label} {before} taken out"),
        _ if value.is_null() => format!("{label} taken out"),
        _ => format!("{label} changed"),
    }
}

fn chosen(path: &str, before: Option<&Value>, value: &Value) -> Option<String> {
    let text = |v: &Value| match v {
        Value::String(s) => Some(s.clone()),
        Value::Bool(b) => Some(b.to_string()),
        _ => None,
    };
    let after = text(value)?;
    let before = before
        .and_then(text)
        .or_else(|| usual_of(path).map(str::to_owned))?;
    let (label, after) = words_of(path, &after)?;
    let (_, before) = words_of(path, &before)?;
    Some(format!("{label} {before} to {after}"))
}

/// `design.strap_width` is `strap width`.
fn label(path: &str) -> String {
    let path = path.strip_suffix(".readings").unwrap_or(path);
    let last = path.rsplit('.').next().unwrap_or(path);
    let parent = path.rsplit('.').nth(1);
    match (last, parent) {
        ("neck_depth_below_pit", _) => "neckline depth".into(),
        ("back_depth_below_nape", _) => "back depth".into(),
        ("side_seam_length", _) => "side seam".into(),
        ("cover", _) => "skirt length".into(),
        ("seat" | "abdomen" | "belly", Some("figure")) => format!("room for the {last}"),
        ("length", Some("closure")) => "closure length".into(),
        (last, Some("right")) => format!("right {}", last.replace('_', " ")),
        ("rest" | "pulled" | "back_to" | "stretch" | "recovery", Some(direction)) => {
            format!("{direction}, {}", last.replace('_', " "))
        }
        (last, _) => last.replace('_', " "),
    }
}

/// A value in a few words; none for lists and objects that have no short form.
fn shown(value: &Value) -> Option<String> {
    const LONGEST: usize = 60;
    match value {
        Value::String(s) if s.is_empty() => None,
        Value::String(s) => Some(s.chars().take(LONGEST).collect()),
        Value::Number(n) => Some(n.to_string()),
        Value::Bool(true) => Some("yes".into()),
        Value::Bool(false) => Some("no".into()),
        Value::Object(map) => {
            let readings = map.get("readings")?.as_array()?;
            let list: Vec<String> = readings.iter().filter_map(shown).collect();
            (!list.is_empty()).then(|| list.join(", "))
        }
        Value::Array(list) if list.iter().all(Value::is_string) && list.len() <= 3 => {
            let list: Vec<String> = list.iter().filter_map(shown).collect();
            (!list.is_empty()).then(|| list.join(", "))
        }
        Value::Null | Value::Array(_) => None,
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn a_change_names_what_it_undoes() {
        let suit = json!({"design": {"strap_width": "4.2 cm", "neckline": "scoop"}});
        assert_eq!(
            describe("suit", &suit, "design.strap_width", &json!("3.8 cm")),
            "strap width 4.2 cm to 3.8 cm"
        );
        assert_eq!(
            describe("suit", &suit, "design.neckline", &json!("v")),
            "neckline scoop to v"
        );
        assert_eq!(
            describe("suit", &suit, "design.seat", &json!("cheeky")),
            "seat full to half"
        );
        assert_eq!(
            describe("suit", &suit, "design.strap_width", &Value::Null),
            "strap width 4.2 cm taken out"
        );
        let wearer = json!({"dimensions": {"waist_girth": {"readings": ["73.0 cm"]}}});
        assert_eq!(
            describe(
                "wearer",
                &wearer,
                "dimensions.waist_girth",
                &json!({"readings": ["73.0 cm", "70.2 cm"]})
            ),
            "waist girth 73.0 cm to 73.0 cm, 70.2 cm"
        );
        assert_eq!(
            describe("cloth", &json!({}), "across.pulled", &json!("18.5 cm")),
            "across, pulled 18.5 cm"
        );
    }
}
