//! Documents, and the edits that change them.

use serde::{Deserialize, Serialize};
use serde_json::Value;

use crate::change::null_is_a_value;
use crate::{DocumentId, Timestamp};

/// Largest body, in bytes of JSON as stored.
pub const MAX_BODY: usize = 256 * 1024;
/// Deepest nesting of lists and objects in a body. A JSON reader has to stop somewhere; ours stops at 128.
pub const MAX_BODY_DEPTH: usize = 64;
/// Longest description of an action, in characters.
pub const MAX_WORDS: usize = 500;

/// What a document describes. The store only sorts by it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// Wearer, swatches and design: one thing to sew.
    Suit,
    /// A body's dimensions.
    Wearer,
    /// A cloth with its stretch test.
    Cloth,
    /// An elastic with its stretch test.
    Elastic,
    /// A sample that was sewn or tested.
    Sample,
    /// What lies in the drawer.
    Drawer,
    /// The workroom itself.
    Workroom,
    /// A class that is taught.
    Class,
}

impl Kind {
    /// All kinds, in the order of their declaration.
    pub const ALL: [Self; 8] = [
        Self::Suit,
        Self::Wearer,
        Self::Cloth,
        Self::Elastic,
        Self::Sample,
        Self::Drawer,
        Self::Workroom,
        Self::Class,
    ];

    /// The kind as it is stored.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Suit => "suit",
            Self::Wearer => "wearer",
            Self::Cloth => "cloth",
            Self::Elastic => "elastic",
            Self::Sample => "sample",
            Self::Drawer => "drawer",
            Self::Workroom => "workroom",
            Self::Class => "class",
        }
    }

    /// The kind stored as `key`, if there is one.
    #[must_use]
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.key() == key)
    }
}

/// One document as it stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Document {
    /// Its name for ever.
    pub id: DocumentId,
    /// What it describes.
    pub kind: Kind,
    /// The number of the journal entry that touched it last. It only grows, over all documents together, and is never
    /// given out twice in one workroom, not even after a backup was restored.
    pub revision: u64,
    /// The content: an object.
    pub body: Value,
    /// When it was made.
    pub created_at: Timestamp,
    /// When it was last touched.
    pub changed_at: Timestamp,
    /// Since when it lies in the bin, if it does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub deleted_at: Option<Timestamp>,
}

/// A new value for one place of a body.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Set {
    /// Where, with dots, 1 to 8 steps, through objects only. Objects missing on the way are made.
    pub path: String,
    /// The value; `None` (in JSON: left out) takes away what is there. JSON null is a value.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "null_is_a_value"
    )]
    pub value: Option<Value>,
}

/// What one action does to one document.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DocumentEdit {
    /// Which document.
    pub id: DocumentId,
    /// The revision the person was looking at.
    pub base: u64,
    /// The new values, made in this order.
    pub changes: Vec<Set>,
}

/// One action of a person, over one or several documents: all of it happens or none.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Edit {
    /// Each document at most once.
    pub parts: Vec<DocumentEdit>,
    /// The action in words, as the journal and the undo button show it.
    pub words: String,
}

/// What came of an edit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Edited {
    /// The documents of the edit as they stand now, in the order of its parts.
    pub documents: Vec<Document>,
    /// Whether another's changes since `base` stand beside this edit: the page must take over the bodies.
    pub merged: bool,
    /// The journal entry, or `None` when every value was there already and nothing was written.
    pub entry: Option<u64>,
}

/// One place that two people changed, each in their own way.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Clash {
    /// The document.
    pub document: DocumentId,
    /// The place.
    pub path: String,
    /// The value both started from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub base: Option<Value>,
    /// The value now stored.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub theirs: Option<Value>,
    /// The value that was to be stored.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub yours: Option<Value>,
}

/// What erasing removed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Erased {
    /// Documents that were here, and now are not.
    pub documents: usize,
    /// Backups that were written anew without them.
    pub backups: usize,
}

/// An immutable snapshot of a suit, as it was printed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Version {
    /// The suit.
    pub suit: DocumentId,
    /// Its number, given by the caller; once per suit.
    pub number: u32,
    /// All that is needed to draft it again.
    pub body: Value,
    /// The suit file, or whatever text goes with it.
    pub text: String,
    /// What the maker says about it.
    pub words: String,
    /// When it was kept.
    pub at: Timestamp,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_read_back_and_are_those_of_json() {
        for kind in Kind::ALL {
            assert_eq!(Kind::from_key(kind.key()), Some(kind));
            assert_eq!(serde_json::to_value(kind).unwrap(), kind.key());
        }
        assert_eq!(Kind::from_key("hat"), None);
    }

    #[test]
    fn a_set_without_value_removes_and_null_is_a_value() {
        let remove: Set = serde_json::from_str(r#"{"path":"a"}"#).unwrap();
        assert_eq!(remove.value, None);
        let null: Set = serde_json::from_str(r#"{"path":"a","value":null}"#).unwrap();
        assert_eq!(null.value, Some(Value::Null));
    }
}
