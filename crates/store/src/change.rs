//! One place of one document, before and after: what the journal keeps, takes back and merges by.

use serde::{Deserialize, Deserializer, Serialize};
use serde_json::Value;

use crate::path::{Path, PathFault};

/// What happened to one place of a body. Absent and null differ: `None` means that nothing was there.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Change {
    /// Where, with dots.
    pub path: String,
    /// The value before.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "null_is_a_value"
    )]
    pub before: Option<Value>,
    /// The value after.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "null_is_a_value"
    )]
    pub after: Option<Value>,
    /// How many objects around the place came or went with it, so that taking it back leaves none behind.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub objects: u32,
}

pub(crate) fn null_is_a_value<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<Value>, D::Error> {
    Value::deserialize(deserializer).map(Some)
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde hands a reference to this"
)]
fn is_zero(count: &u32) -> bool {
    *count == 0
}

/// Why a change can't be made to a body.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Misfit {
    /// The path itself can't be followed.
    Path(PathFault),
    /// The place holds something else than the change starts from.
    Other(Option<Value>),
}

impl Change {
    /// Sets a place, whatever it holds. `Ok(None)` when it holds that value already.
    pub(crate) fn make(
        body: &mut Value,
        text: &str,
        value: Option<&Value>,
    ) -> Result<Option<Self>, PathFault> {
        let path = Path::parse(text)?;
        if path.is_blocked(body) {
            return Err(PathFault::ThroughValue);
        }
        let before = path.get(body).cloned();
        if before.as_ref() == value {
            return Ok(None);
        }
        let objects = match value {
            Some(value) => path.set(body, value.clone())?,
            None => path.remove(body, 0),
        };
        Ok(Some(Self {
            path: text.to_owned(),
            before,
            after: value.cloned(),
            objects,
        }))
    }

    /// The change that takes this one back.
    pub(crate) fn inverse(&self) -> Self {
        Self {
            path: self.path.clone(),
            before: self.after.clone(),
            after: self.before.clone(),
            objects: self.objects,
        }
    }

    /// Makes this change to a body that must hold its `before`. Returns what was really done: others may by now use an
    /// object that would have gone along.
    pub(crate) fn apply(&self, body: &mut Value) -> Result<Self, Misfit> {
        let path = Path::parse(&self.path).map_err(Misfit::Path)?;
        let now = path.get(body);
        if now != self.before.as_ref() {
            return Err(Misfit::Other(now.cloned()));
        }
        let objects = match &self.after {
            Some(value) => path.set(body, value.clone()).map_err(Misfit::Path)?,
            None => path.remove(body, self.objects),
        };
        Ok(Self {
            objects,
            ..self.clone()
        })
    }
}

/// Takes the changes of one journal part back, last one first. `None` if the body does not hold what they left.
pub(crate) fn rewind(body: &mut Value, changes: &[Change]) -> Option<()> {
    for change in changes.iter().rev() {
        change.inverse().apply(body).ok()?;
    }
    Some(())
}

/// Bytes of the body as it is stored.
pub(crate) fn body_size(body: &Value) -> usize {
    body.to_string().len()
}

/// How deep lists and objects lie in each other; a number has 0.
pub(crate) fn depth(value: &Value) -> usize {
    match value {
        Value::Array(list) => 1 + list.iter().map(depth).max().unwrap_or(0),
        Value::Object(object) => 1 + object.values().map(depth).max().unwrap_or(0),
        _ => 0,
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn null_and_nothing_are_told_apart_on_disk() {
        let mut body = json!({});
        let change = Change::make(&mut body, "a.b", Some(&Value::Null))
            .unwrap()
            .unwrap();
        let text = serde_json::to_string(&change).unwrap();
        assert_eq!(text, r#"{"path":"a.b","after":null,"objects":1}"#);
        assert_eq!(serde_json::from_str::<Change>(&text).unwrap(), change);
        rewind(&mut body, &[change]).unwrap();
        assert_eq!(body, json!({}));
    }

    #[test]
    fn taking_back_keeps_what_others_put_beside() {
        let mut body = json!({});
        let first = Change::make(&mut body, "a.b.c", Some(&json!(1)))
            .unwrap()
            .unwrap();
        assert_eq!(first.objects, 2);
        Change::make(&mut body, "a.x", Some(&json!(2))).unwrap();
        let back = first.inverse().apply(&mut body).unwrap();
        assert_eq!(body, json!({"a": {"x": 2}}));
        assert_eq!(back.objects, 1);
        back.inverse().apply(&mut body).unwrap();
        assert_eq!(body, json!({"a": {"b": {"c": 1}, "x": 2}}));
    }

    #[test]
    fn a_value_changed_meanwhile_stops_taking_back() {
        let mut body = json!({"a": 1});
        let change = Change::make(&mut body, "a", Some(&json!(2))).unwrap().unwrap();
        body = json!({"a": 3});
        assert_eq!(
            change.inverse().apply(&mut body),
            Err(Misfit::Other(Some(json!(3))))
        );
        assert_eq!(rewind(&mut body, &[change]), None);
    }

    #[test]
    fn numbers_keep_their_last_bit() {
        for number in [
            0.1 + 0.2,
            1.0 / 3.0,
            5e-324,
            1.797_693_134_862_315_7e308,
            2.506_628_274_631_000_2,
        ] {
            let text = json!({"x": number}).to_string();
            let back: Value = serde_json::from_str(&text).unwrap();
            assert_eq!(back["x"].as_f64().unwrap().to_bits(), f64::to_bits(number));
        }
    }

    #[test]
    fn depth_counts_containers() {
        assert_eq!(depth(&json!(1)), 0);
        assert_eq!(depth(&json!({"a": [1, {"b": []}]})), 4);
    }
}
