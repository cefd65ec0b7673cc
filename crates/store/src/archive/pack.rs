//! Content to bytes.

use std::io::{Cursor, Write};

use serde::Serialize;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

use super::{
    ArchiveFault, Content, Counts, DOCUMENTS, FORMAT, FORMAT_VERSION, MANIFEST, MAX_DOCUMENTS, MAX_FILES,
    MAX_UNPACKED, Manifest, PHOTOS,
};
use crate::StoreError;

/// Writes an archive whose journal is numbered from 1. Refuses content that [`unpack`](super::unpack) would refuse for
/// its size.
pub(crate) fn pack(content: &Content) -> Result<Vec<u8>, StoreError> {
    let manifest = Manifest {
        format: FORMAT.into(),
        version: FORMAT_VERSION,
        counts: Counts::of(&content.sheets),
    };
    let manifest = sorted(&manifest)?;
    let documents = sorted(&content.sheets)?;
    let photos: u64 = content.bytes.values().map(|bytes| bytes.len() as u64).sum();
    let total = photos + documents.len() as u64 + manifest.len() as u64;
    if documents.len() as u64 > MAX_DOCUMENTS || total > MAX_UNPACKED || content.bytes.len() + 2 > MAX_FILES {
        let what = "it is too large for an archive: remove photos, or erase what lies in the bin";
        return Err(StoreError::Archive(vec![ArchiveFault::new("the workroom", what)]));
    }
    // One moment for all files, so that the same content gives the same bytes.
    let deflated = SimpleFileOptions::default()
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644)
        .compression_method(CompressionMethod::Deflated);
    // Pictures are compressed already.
    let stored = deflated.compression_method(CompressionMethod::Stored);
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let mut put = |name: &str, options, bytes: &[u8]| -> zip::result::ZipResult<()> {
        zip.start_file(name, options)?;
        zip.write_all(bytes)?;
        Ok(())
    };
    let mut write = || {
        put(MANIFEST, deflated, &manifest)?;
        put(DOCUMENTS, deflated, &documents)?;
        for (id, bytes) in &content.bytes {
            put(&format!("{PHOTOS}{id}"), stored, bytes)?;
        }
        Ok(())
    };
    write()
        .and_then(|()| zip.finish())
        .map(Cursor::into_inner)
        .map_err(|fault: zip::result::ZipError| StoreError::unreadable("the archive being written", fault))
}

/// JSON with sorted keys, whatever order the parts were built in.
fn sorted<T: Serialize>(value: &T) -> Result<Vec<u8>, StoreError> {
    let write = || {
        let mut value = serde_json::to_value(value)?;
        value.sort_all_objects();
        serde_json::to_vec(&value)
    };
    write().map_err(|fault| StoreError::unreadable("the archive being written", fault))
}
