//! The journal: everything that was done, and the way back and forward through it.
//!
//! Nothing is ever taken out of the journal by going back: that is an entry of its own, with the inverse changes. So two
//! open pages see the same line, and every earlier state can be had again. Only erasing a document removes entries.
//!
//! **Limits.** Going back is linear. An edit after going back ends what could have been gone forward to.

use serde::{Deserialize, Serialize};

use crate::{Change, Document, DocumentId, Timestamp};

/// What an entry did.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum EntryKind {
    /// A document was made.
    Made,
    /// Values were set.
    Edit,
    /// An edit was taken back.
    Back,
    /// An edit taken back was made again.
    Forward,
    /// A document was put into the bin.
    Deleted,
    /// A document came out of the bin, or the whole workroom out of a backup.
    Restored,
}

impl EntryKind {
    const ALL: [Self; 6] = [
        Self::Made,
        Self::Edit,
        Self::Back,
        Self::Forward,
        Self::Deleted,
        Self::Restored,
    ];

    pub(crate) fn key(self) -> &'static str {
        match self {
            Self::Made => "made",
            Self::Edit => "edit",
            Self::Back => "back",
            Self::Forward => "forward",
            Self::Deleted => "deleted",
            Self::Restored => "restored",
        }
    }

    pub(crate) fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.key() == key)
    }
}

/// What an entry did to one document. The document's revision after it is the entry's number.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Part {
    /// The document.
    pub document: DocumentId,
    /// Its changes, in order.
    pub changes: Vec<Change>,
}

/// One action, as the journal keeps it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// Its number; later entries have larger ones. Also the revision of its documents after it.
    pub seq: u64,
    /// When.
    pub at: Timestamp,
    /// The action in words. Empty once a document it touched was erased.
    pub words: String,
    /// What it did.
    pub kind: EntryKind,
    /// For [`Back`](EntryKind::Back) and [`Forward`](EntryKind::Forward): the edit in question.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub target: Option<u64>,
    /// The documents it touched, by id.
    pub parts: Vec<Part>,
}

/// What going back and going forward would do, in the words of the edits; `None` where there is no way.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct CanGo {
    /// The edit that would be taken back.
    pub back: Option<String>,
    /// The edit that would be made again.
    pub forward: Option<String>,
}

/// What came of going back or forward.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Gone {
    /// All documents that were touched, as they stand now, by id.
    pub documents: Vec<Document>,
    /// The new journal entry.
    pub entry: u64,
    /// The edit that was taken back or made again.
    pub target: u64,
    /// Its words.
    pub words: String,
}

/// An entry without its changes.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Step {
    pub(crate) seq: u64,
    pub(crate) kind: EntryKind,
    pub(crate) target: Option<u64>,
}

/// The edits that stand and the edits taken back, each with the next one to go to at its end.
#[derive(Debug, Default, PartialEq, Eq)]
pub(crate) struct Line {
    pub(crate) done: Vec<u64>,
    pub(crate) undone: Vec<u64>,
}

impl Line {
    /// Walks entries in order. Edits up to and including `since` are out of reach.
    pub(crate) fn walk(steps: impl IntoIterator<Item = Step>, since: u64) -> Self {
        let mut line = Self::default();
        for step in steps {
            match (step.kind, step.target) {
                (EntryKind::Edit, _) if step.seq > since => {
                    line.done.push(step.seq);
                    line.undone.clear();
                }
                (EntryKind::Back, Some(target)) if target > since => {
                    line.done.retain(|&seq| seq != target);
                    line.undone.push(target);
                }
                (EntryKind::Forward, Some(target)) if target > since => {
                    line.undone.retain(|&seq| seq != target);
                    line.done.push(target);
                }
                _ => {}
            }
        }
        line
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn step(seq: u64, kind: EntryKind, target: Option<u64>) -> Step {
        Step { seq, kind, target }
    }

    #[test]
    fn back_twice_forward_once_then_an_edit() {
        use EntryKind::{Back, Edit, Forward, Made};
        let mut steps = vec![
            step(1, Made, None),
            step(2, Edit, None),
            step(3, Edit, None),
            step(4, Back, Some(3)),
            step(5, Back, Some(2)),
            step(6, Forward, Some(2)),
        ];
        let line = Line::walk(steps.clone(), 0);
        assert_eq!(
            line,
            Line {
                done: vec![2],
                undone: vec![3]
            }
        );
        steps.push(step(7, Edit, None));
        assert_eq!(
            Line::walk(steps.clone(), 0),
            Line {
                done: vec![2, 7],
                undone: vec![]
            }
        );
        assert_eq!(
            Line::walk(steps, 2),
            Line {
                done: vec![7],
                undone: vec![]
            }
        );
    }
}
