//! Photos: bytes that belong to a document. They lie in the database, so that backups and archives are whole.

use serde::{Deserialize, Serialize};

use crate::{DocumentId, PhotoId, StoreError, Timestamp};

/// Largest photo, in bytes: a large picture of a telephone fits.
pub const MAX_PHOTO: usize = 12 * 1024 * 1024;

/// A photo without its bytes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhotoInfo {
    /// Its name.
    pub id: PhotoId,
    /// The document it belongs to.
    pub owner: DocumentId,
    /// Its media type, like `image/jpeg`, as the caller gave it.
    pub mime: String,
    /// When it was put.
    pub at: Timestamp,
    /// Its size in bytes.
    pub size: u64,
}

/// A photo with its bytes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Photo {
    /// All but the bytes.
    pub info: PhotoInfo,
    /// The bytes as they were put.
    pub bytes: Vec<u8>,
}

/// Refuses what no photo can be. The store does not look into the bytes.
pub(crate) fn check(mime: &str, size: usize) -> Result<(), StoreError> {
    let token = |text: &str| {
        !text.is_empty()
            && text
                .bytes()
                .all(|byte| byte.is_ascii_alphanumeric() || b"+-.".contains(&byte))
    };
    let plain = mime.len() <= 100
        && mime
            .split_once('/')
            .is_some_and(|(kind, form)| token(kind) && token(form));
    if !plain {
        return Err(StoreError::BadPhoto("give its media type like image/jpeg".into()));
    }
    if size == 0 {
        return Err(StoreError::BadPhoto("it has no bytes".into()));
    }
    if size > MAX_PHOTO {
        return Err(StoreError::PhotoTooLarge(size));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_photo() {
        assert!(check("image/jpeg", 1).is_ok());
        assert!(check("image/svg+xml", MAX_PHOTO).is_ok());
        for mime in [
            "",
            "jpeg",
            "/",
            "image/",
            "image/j peg",
            "a/b/c",
            "text/html; charset=x",
            "a/b\r\nX: y",
        ] {
            assert!(check(mime, 1).is_err(), "{mime}");
        }
        assert!(check("image/jpeg", 0).is_err());
        assert!(matches!(
            check("image/jpeg", MAX_PHOTO + 1),
            Err(StoreError::PhotoTooLarge(_))
        ));
    }
}
