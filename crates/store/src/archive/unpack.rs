//! Bytes to content, with nothing believed before it is counted.
//!
//! Sizes in the zip directory are claims. Every file is read through a limit of its own and all together through one more,
//! so a file that unpacks to far more than it says is stopped at the limit.

use std::collections::BTreeMap;
use std::io::{Cursor, Read};

use serde::Deserialize;
use serde::de::DeserializeOwned;
use zip::ZipArchive;

use super::check::check;
use super::{
    ArchiveFault, Content, Counts, DOCUMENTS, FORMAT, FORMAT_VERSION, MANIFEST, MAX_DOCUMENTS, MAX_FILES,
    MAX_MANIFEST, MAX_UNPACKED, Manifest, PHOTOS, Sheets,
};
use crate::{MAX_PHOTO, PhotoId, StoreError};

/// Advice for every fault that means the bytes are not as they were written.
const AGAIN: &str = "copy or download the archive again";

/// Reads and checks a whole archive.
pub(crate) fn unpack(bytes: &[u8]) -> Result<Content, StoreError> {
    read(bytes).map_err(StoreError::Archive)
}

fn one(place: &str, what: String) -> Vec<ArchiveFault> {
    vec![ArchiveFault::new(place, what)]
}

/// Enough of any version's manifest to tell which it is.
#[derive(Deserialize)]
struct Head {
    format: String,
    version: u32,
}

fn read(bytes: &[u8]) -> Result<Content, Vec<ArchiveFault>> {
    if bytes.len() as u64 > MAX_UNPACKED {
        return Err(one(
            "the file",
            format!("it has more than {MAX_UNPACKED} bytes, which no archive of ours has"),
        ));
    }
    let broken =
        |fault: zip::result::ZipError| one("the file", format!("it is no whole zip file ({fault}): {AGAIN}"));
    let mut zip = ZipArchive::new(Cursor::new(bytes)).map_err(broken)?;
    if zip.len() > MAX_FILES {
        return Err(one(
            "the file",
            format!("it holds {} files, more than {MAX_FILES}", zip.len()),
        ));
    }
    if zip.has_duplicate_names() || zip.has_overlapping_files().map_err(broken)? {
        return Err(one(
            "the file",
            "files in it share a name or their bytes: it was not written by us".into(),
        ));
    }

    let mut left = MAX_UNPACKED;
    let manifest = part(&mut zip, MANIFEST, MAX_MANIFEST, &mut left)?;
    let head: Head = json(MANIFEST, &manifest)?;
    if head.format != FORMAT {
        return Err(one(
            MANIFEST,
            "this is no archive of a workroom: choose another file".into(),
        ));
    }
    if head.version != FORMAT_VERSION {
        let what = format!(
            "it has version {}, this program reads {FORMAT_VERSION}: update slackwater",
            head.version
        );
        return Err(one(MANIFEST, what));
    }
    let manifest: Manifest = json(MANIFEST, &manifest)?;
    let sheets: Sheets = json(DOCUMENTS, &part(&mut zip, DOCUMENTS, MAX_DOCUMENTS, &mut left)?)?;
    if Counts::of(&sheets) != manifest.counts {
        return Err(one(
            MANIFEST,
            format!("its counts are not those of {DOCUMENTS}: {AGAIN}"),
        ));
    }

    let mut photos: BTreeMap<PhotoId, Vec<u8>> = BTreeMap::new();
    let names: Vec<String> = zip
        .file_names()
        .map(|name| name.map(|name| name.into_owned()))
        .collect::<Result<_, _>>()
        .map_err(broken)?;
    for name in names {
        if name == MANIFEST || name == DOCUMENTS {
            continue;
        }
        let id: Option<PhotoId> = name.strip_prefix(PHOTOS).and_then(|id| id.parse().ok());
        let Some(id) = id else {
            let name: String = name.chars().take(80).collect();
            return Err(one(
                &format!("{name:?}"),
                "no archive of ours holds such a file: take it out".into(),
            ));
        };
        let bytes = part(&mut zip, &name, MAX_PHOTO as u64, &mut left)?;
        photos.insert(id, bytes);
    }
    let content = Content {
        sheets,
        bytes: photos,
    };
    let faults = check(&content);
    if faults.is_empty() {
        Ok(content)
    } else {
        Err(faults)
    }
}

/// Reads one file to its end, which also checks its sum, within its limit and what is left for all.
fn part(
    zip: &mut ZipArchive<Cursor<&[u8]>>,
    name: &str,
    limit: u64,
    left: &mut u64,
) -> Result<Vec<u8>, Vec<ArchiveFault>> {
    let file = zip
        .by_name(name)
        .map_err(|fault| one(name, format!("it is missing or can't be read ({fault}): {AGAIN}")))?;
    let limit = limit.min(*left);
    let mut bytes = Vec::new();
    file.take(limit + 1)
        .read_to_end(&mut bytes)
        .map_err(|fault| one(name, format!("it can't be read ({fault}): {AGAIN}")))?;
    if bytes.len() as u64 > limit {
        return Err(one(
            name,
            format!("it unpacks to more than {limit} bytes, which no archive of ours does"),
        ));
    }
    *left -= bytes.len() as u64;
    Ok(bytes)
}

fn json<T: DeserializeOwned>(name: &str, bytes: &[u8]) -> Result<T, Vec<ArchiveFault>> {
    serde_json::from_slice(bytes).map_err(|fault| one(name, format!("{fault}: {AGAIN}")))
}
