//! Ids of documents and photos: short plain text, safe in a file name, a web address and a query.
//!
//! They are random when the store makes them. A caller may bring its own for demonstration suits, which then keep
//! their address from one installation to the next.

use std::fmt;
use std::str::FromStr;
use std::sync::Arc;

use serde::{Deserialize, Deserializer, Serialize};

/// The longest id that is taken; a random one has 32 characters.
const LONGEST: usize = 64;

/// Makes the text of a new id. It must not repeat itself; the default draws 122 random bits.
pub type IdSource = Arc<dyn Fn() -> String + Send + Sync>;

/// 32 hexadecimal digits from the system's random source.
pub(crate) fn random() -> String {
    uuid::Uuid::new_v4().simple().to_string()
}

/// Text that can't be an id.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0:?} is not an id: use 1 to 64 letters a-z, A-Z, digits, \"-\" and \"_\"")]
pub struct IdError(pub String);

fn checked(text: &str) -> Result<String, IdError> {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || byte == b'-' || byte == b'_';
    if text.is_empty() || text.len() > LONGEST || !text.bytes().all(plain) {
        let start: String = text.chars().take(LONGEST).collect();
        return Err(IdError(start));
    }
    Ok(text.to_owned())
}

macro_rules! id {
    ($name:ident, $what:literal) => {
        #[doc = $what]
        #[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
        #[serde(transparent)]
        pub struct $name(String);

        impl $name {
            /// The id as text.
            #[must_use]
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl FromStr for $name {
            type Err = IdError;

            fn from_str(text: &str) -> Result<Self, IdError> {
                checked(text).map(Self)
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                String::deserialize(deserializer)?
                    .parse()
                    .map_err(serde::de::Error::custom)
            }
        }
    };
}

id!(
    DocumentId,
    "Names one document, for ever: an erased id is not given out again."
);
id!(PhotoId, "Names one photo.");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_an_id_may_be() {
        assert_eq!("suit-1".parse::<DocumentId>().unwrap().as_str(), "suit-1");
        for text in ["", "..", "a/b", "a b", "ä", &"x".repeat(65)] {
            assert!(text.parse::<PhotoId>().is_err(), "{text}");
        }
        assert!(random().parse::<PhotoId>().is_ok());
        assert_ne!(random(), random());
    }
}
