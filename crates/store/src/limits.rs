//! What a body, a setting, and a description may be.

use serde_json::Value;

use crate::change::{body_size, depth};
use crate::document::{MAX_BODY, MAX_BODY_DEPTH, MAX_WORDS};
use crate::{Kind, StoreError};

const MAX_NAME: usize = 100;
const MAX_SETTING: usize = 64 * 1024;

pub(crate) fn check_words(words: &str) -> Result<(), StoreError> {
    let count = words.chars().count();
    if count > MAX_WORDS {
        Err(StoreError::TooManyWords(count))
    } else {
        Ok(())
    }
}

pub(crate) fn check_body(kind: Kind, body: &Value) -> Result<(), StoreError> {
    if !body.is_object() {
        return Err(StoreError::NotAnObject(kind));
    }
    let deep = depth(body);
    if deep > MAX_BODY_DEPTH {
        return Err(StoreError::TooNested(deep));
    }
    let size = body_size(body);
    if size > MAX_BODY {
        Err(StoreError::TooLarge(size))
    } else {
        Ok(())
    }
}

pub(crate) fn check_name(what: &'static str, name: &str) -> Result<(), StoreError> {
    if name.is_empty() || name.len() > MAX_NAME {
        return Err(StoreError::BadSetting {
            what,
            limit: "must have 1 to 100 bytes",
        });
    }
    Ok(())
}

pub(crate) fn check_setting(name: &str, value: &Value) -> Result<(), StoreError> {
    check_name("the name of a setting", name)?;
    if value.to_string().len() > MAX_SETTING || depth(value) > MAX_BODY_DEPTH {
        return Err(StoreError::BadSetting {
            what: "the value of a setting",
            limit: "may have 64 kB of JSON, 64 levels deep",
        });
    }
    Ok(())
}
