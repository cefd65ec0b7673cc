//! A place inside a document's body, written with dots: `girths.waist`.
//!
//! Places lead through objects only. A list is one value and is set whole: two people who change one list at the same
//! time are told so, where places inside lists would quietly shift under them.

use serde_json::{Map, Value};

/// Deepest place that can be set.
pub const MAX_PATH_DEPTH: usize = 8;
/// Longest name of one step of a path, in bytes.
const MAX_SEGMENT: usize = 128;

/// What is wrong with a path.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum PathFault {
    /// Empty text, or two dots in a row, or a dot at an end.
    #[error("has an empty step: write names with one dot between them")]
    Empty,
    /// More than [`MAX_PATH_DEPTH`] steps.
    #[error("is more than 8 steps deep: set a larger value further up")]
    TooDeep,
    /// A step longer than 128 bytes.
    #[error("has a step longer than 128 bytes: use a shorter name")]
    TooLong,
    /// A step on the way is a list, a number, a text or null.
    #[error("leads through something that is not an object: set the value on the way as a whole")]
    ThroughValue,
}

/// A checked path: 1 to 8 steps, none empty.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Path(Vec<String>);

impl Path {
    pub(crate) fn parse(text: &str) -> Result<Self, PathFault> {
        let mut steps = Vec::new();
        for step in text.split('.') {
            if step.is_empty() {
                return Err(PathFault::Empty);
            }
            if step.len() > MAX_SEGMENT {
                return Err(PathFault::TooLong);
            }
            if steps.len() == MAX_PATH_DEPTH {
                return Err(PathFault::TooDeep);
            }
            steps.push(step.to_owned());
        }
        Ok(Self(steps))
    }

    /// The part both share, if one lies on the way to the other.
    pub(crate) fn shared_with<'a>(&'a self, other: &'a Self) -> Option<&'a Self> {
        let (short, long) = if self.0.len() <= other.0.len() {
            (self, other)
        } else {
            (other, self)
        };
        long.0.starts_with(&short.0).then_some(short)
    }

    /// The value at this place, or `None`.
    pub(crate) fn get<'a>(&self, body: &'a Value) -> Option<&'a Value> {
        self.0
            .iter()
            .try_fold(body, |value, step| value.as_object()?.get(step))
    }

    /// Whether a list, number, text or null lies on the way.
    pub(crate) fn is_blocked(&self, body: &Value) -> bool {
        let mut value = body;
        for step in &self.0 {
            match value.as_object() {
                None => return true,
                Some(object) => match object.get(step) {
                    None => return false,
                    Some(next) => value = next,
                },
            }
        }
        false
    }

    /// Puts `value` here and says how many objects had to be made on the way.
    pub(crate) fn set(&self, body: &mut Value, value: Value) -> Result<u32, PathFault> {
        let (last, way) = self.0.split_last().ok_or(PathFault::Empty)?;
        let mut made = 0;
        let mut object = body.as_object_mut().ok_or(PathFault::ThroughValue)?;
        for step in way {
            let next = object.entry(step.clone()).or_insert_with(|| {
                made += 1;
                Value::Object(Map::new())
            });
            object = next.as_object_mut().ok_or(PathFault::ThroughValue)?;
        }
        object.insert(last.clone(), value);
        Ok(made)
    }

    /// Takes the value away and then up to `prune` of the objects around it, as long as they are empty. Says how many
    /// went.
    pub(crate) fn remove(&self, body: &mut Value, prune: u32) -> u32 {
        fn step(value: &mut Value, path: &[String], prune: &mut u32) -> u32 {
            let (Some(object), Some((first, rest))) = (value.as_object_mut(), path.split_first()) else {
                return 0;
            };
            if rest.is_empty() {
                object.remove(first);
                return 0;
            }
            let Some(inner) = object.get_mut(first) else {
                return 0;
            };
            let gone = step(inner, rest, prune);
            if *prune > 0 && inner.as_object().is_some_and(Map::is_empty) {
                object.remove(first);
                *prune -= 1;
                return gone + 1;
            }
            // An object that stays keeps all those around it.
            *prune = 0;
            gone
        }
        let mut prune = prune;
        step(body, &self.0, &mut prune)
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    fn path(text: &str) -> Path {
        Path::parse(text).unwrap()
    }

    #[test]
    fn paths_that_are_refused() {
        for text in ["", ".", "a.", ".a", "a..b"] {
            assert_eq!(Path::parse(text), Err(PathFault::Empty), "{text}");
        }
        assert!(Path::parse("a.b.c.d.e.f.g.h").is_ok());
        assert_eq!(Path::parse("a.b.c.d.e.f.g.h.i"), Err(PathFault::TooDeep));
        assert_eq!(Path::parse(&"x".repeat(129)), Err(PathFault::TooLong));
    }

    #[test]
    fn sharing_is_by_whole_steps() {
        assert!(path("a.b").shared_with(&path("a")).is_some());
        assert!(path("a").shared_with(&path("a.b")).is_some());
        assert!(path("a.b").shared_with(&path("a.bc")).is_none());
        assert!(path("ab").shared_with(&path("a")).is_none());
    }

    #[test]
    fn setting_makes_the_way_and_removing_can_unmake_it() {
        let mut body = json!({"x": 1});
        assert_eq!(path("a.b.c").set(&mut body, json!(2)), Ok(2));
        assert_eq!(body, json!({"x": 1, "a": {"b": {"c": 2}}}));
        let mut shallow = body.clone();
        assert_eq!(path("a.b.c").remove(&mut shallow, 1), 1);
        assert_eq!(shallow, json!({"x": 1, "a": {}}));
        assert_eq!(path("a.b.c").remove(&mut body, 2), 2);
        assert_eq!(body, json!({"x": 1}));
    }

    #[test]
    fn pruning_stops_at_an_object_in_use() {
        let mut body = json!({"a": {"b": {"c": 2}, "d": 1}});
        assert_eq!(path("a.b.c").remove(&mut body, 7), 1);
        assert_eq!(body, json!({"a": {"d": 1}}));
    }

    #[test]
    fn no_way_through_a_list() {
        let mut body = json!({"a": [1], "n": null});
        assert_eq!(path("a.0").set(&mut body, json!(2)), Err(PathFault::ThroughValue));
        assert_eq!(path("n.x").set(&mut body, json!(2)), Err(PathFault::ThroughValue));
        assert_eq!(path("a.0").get(&body), None);
        assert!(path("a.0").is_blocked(&body) && path("n.x").is_blocked(&body));
        assert!(!path("a").is_blocked(&body) && !path("b.c").is_blocked(&body));
        assert_eq!(path("n").get(&body), Some(&Value::Null));
    }
}
