//! Packs of many files as jobs: everything of one suit, and the kits of a class.
//!
//! A class is several wearers and one design: each gets the whole pack of that design drafted for her.

use std::io::{Cursor, Write};
use std::sync::Arc;

use serde_json::Value;
use store::{DocumentId, Kind, Store as _, StoreError};
use units::Progress;
use zip::write::SimpleFileOptions;

use super::App;
use super::jobs::Made;
use super::papers::name_of;
use crate::cli::folder::Sheet;
use crate::document::{Linked, Paper, Worked, work};
use crate::paper::{choice_of, make_pack};

impl App {
    /// Starts making everything of a suit as one archive. Returns the job's id.
    ///
    /// # Errors
    /// [`StoreError`] for a suit that is not there; the inner error is a sentence for the maker.
    pub async fn start_pack(&self, suit: &DocumentId) -> Result<Result<String, String>, StoreError> {
        let worked = self.worked(suit).await?;
        let name = file_safe(name_of(&worked.suit.body));
        Ok(self.jobs.start("Making the paper", move |progress| {
            let sheets = pack(&worked, progress)?;
            Ok(Made {
                name: format!("{name}.zip"),
                mime: "application/zip",
                bytes: zipped(&sheets)?,
            })
        }))
    }

    /// Starts making the kits of a class. Returns the job's id.
    ///
    /// # Errors
    /// As [`App::start_pack`].
    pub async fn start_kits(&self, class: &DocumentId) -> Result<Result<String, String>, StoreError> {
        let class = self.store.get(class).await?;
        if class.kind != Kind::Class {
            return Err(StoreError::NotFound(class.id));
        }
        let Some(design) = class.body.get("design_of").and_then(Value::as_str) else {
            return Ok(Err("the class has no design yet: choose the suit it sews".into()));
        };
        let design = self.worked(&design.parse()?).await?;
        let mut kits = Vec::new();
        for id in class
            .body
            .get("wearers")
            .and_then(Value::as_array)
            .into_iter()
            .flatten()
        {
            let Some(id) = id.as_str() else { continue };
            let wearer = self.store.get(&id.parse()?).await?;
            kits.push(Paper {
                id: wearer.id.as_str().to_owned(),
                kind: wearer.kind.key(),
                revision: wearer.revision,
                body: wearer.body,
            });
        }
        if kits.is_empty() {
            return Ok(Err("the class has no wearers yet: tick who takes part".into()));
        }
        let name = file_safe(name_of(&class.body));
        Ok(self.jobs.start("Making the kits", move |progress| {
            let sheets = kits_of(&design, kits, progress)?;
            Ok(Made {
                name: format!("{name}-kits.zip"),
                mime: "application/zip",
                bytes: zipped(&sheets)?,
            })
        }))
    }
}

/// One folder a wearer. A wearer the design cannot be drafted for gets a text that says why, instead of stopping the class.
fn kits_of(
    design: &Arc<Worked>,
    wearers: Vec<Paper>,
    progress: &(dyn Progress + Sync),
) -> Result<Vec<Sheet>, String> {
    let of = wearers.len() as u64;
    let mut all = Vec::new();
    let mut folders: Vec<String> = Vec::new();
    for (done, wearer) in wearers.into_iter().enumerate() {
        if progress.should_stop() {
            return Err("stopped".into());
        }
        let name = name_of(&wearer.body).to_owned();
        progress.at(done as u64, of, &format!("Kit of {name}"));
        let mut folder = file_safe(&name);
        while folders.contains(&folder) {
            folder.push('+');
        }
        folders.push(folder.clone());
        let mut suit = design.suit.clone();
        if let Some(map) = suit.body.as_object_mut() {
            map.insert(
                "name".into(),
                Value::String(format!("{}, {name}", name_of(&design.suit.body))),
            );
        }
        let linked = Linked {
            wearer: Some(wearer),
            ..design.linked()
        };
        let worked = work(suit, linked);
        match pack(&worked, &units::Silent) {
            Ok(sheets) => all.extend(sheets.into_iter().map(|s| Sheet {
                name: format!("{folder}/{}", s.name),
                bytes: s.bytes,
            })),
            Err(why) => all.push(Sheet {
                name: format!("{folder}/not-drafted.txt"),
                bytes: format!("This design could not be drafted for {name}.\n{why}\n").into_bytes(),
            }),
        }
    }
    progress.at(of, of, "All kits are made");
    Ok(all)
}

/// Everything of one suit.
fn pack(worked: &Worked, progress: &(dyn Progress + Sync)) -> Result<Vec<Sheet>, String> {
    let (Some(file), Some(order)) = (&worked.file, &worked.order) else {
        let says: Vec<String> = worked
            .faults
            .iter()
            .map(|f| {
                format!("{}: {}", f.message, f.help)
                    .trim_end_matches(": ")
                    .to_owned()
            })
            .collect();
        return Err(says.join("\n"));
    };
    let choice = choice_of(worked);
    let pack = make_pack(file, order, &choice, progress).map_err(|r| r.to_string())?;
    let mut sheets = pack.sheets;
    sheets.push(Sheet {
        name: "suit.toml".into(),
        bytes: worked.text.clone().into_bytes(),
    });
    Ok(sheets)
}

/// The sheets as one archive; same sheets, same bytes.
fn zipped(sheets: &[Sheet]) -> Result<Vec<u8>, String> {
    let failed = |e: zip::result::ZipError| format!("the archive could not be made: {e}");
    let mut archive = zip::ZipWriter::new(Cursor::new(Vec::new()));
    // No times of the clock: the archive's own zero.
    let options = SimpleFileOptions::default().last_modified_time(zip::DateTime::default());
    for sheet in sheets {
        archive.start_file(&sheet.name, options).map_err(failed)?;
        archive
            .write_all(&sheet.bytes)
            .map_err(|e| format!("the archive could not be made: {e}"))?;
    }
    Ok(archive.finish().map_err(failed)?.into_inner())
}

/// A name every file system takes: letters, digits, dashes.
pub(crate) fn file_safe(name: &str) -> String {
    let mut out = String::new();
    for c in name.chars().take(60) {
        if c.is_alphanumeric() {
            out.extend(c.to_lowercase());
        } else if !out.ends_with('-') && !out.is_empty() {
            out.push('-');
        }
    }
    let out = out.trim_matches('-').to_owned();
    if out.is_empty() { "suit".into() } else { out }
}

#[cfg(test)]
mod tests {
    use super::file_safe;

    #[test]
    fn names_of_files_are_plain() {
        assert_eq!(file_safe("Maren, winter one-piece"), "maren-winter-one-piece");
        assert_eq!(file_safe("../../etc/passwd"), "etc-passwd");
        assert_eq!(file_safe("???"), "suit");
        assert_eq!(file_safe("Größe 38"), "größe-38");
    }
}
