//! What open pages are told after something was stored.

use serde::Serialize;

use crate::DocumentId;

/// A document and the revision it now has.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Touched {
    /// The document.
    pub id: DocumentId,
    /// Its revision.
    pub revision: u64,
}

/// Sent after the database has it for good, in the order of the journal.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(tag = "what", rename_all = "snake_case")]
pub enum Event {
    /// A journal entry was written.
    Action {
        /// Its number.
        seq: u64,
        /// Its documents.
        documents: Vec<Touched>,
    },
    /// A version of a suit was kept.
    Version {
        /// The suit.
        suit: DocumentId,
        /// The version's number.
        number: u32,
    },
    /// Photos of a document came or went.
    Photos {
        /// The document.
        owner: DocumentId,
    },
    /// Documents were erased.
    Erased {
        /// Which.
        documents: Vec<DocumentId>,
    },
    /// A backup was restored or an archive taken in: everything may be different.
    Reloaded,
}
