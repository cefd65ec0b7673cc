//! Devices that were let in: what the store keeps of them.

use serde::Serialize;

use crate::Timestamp;

/// A paired device. The token itself is never stored, only the hash the caller made of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Session {
    /// Hash of the device's token.
    pub token_hash: String,
    /// What the person calls the device.
    pub name: String,
    /// When it was paired.
    pub created_at: Timestamp,
    /// When it was last let in, to the minute.
    pub last_seen: Timestamp,
}
