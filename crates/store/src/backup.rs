//! Backups: whole copies of the database in the folder `backups` beside it.
//!
//! **Limits.** They lie on the same disk. The archive is what to carry elsewhere.

use serde::{Deserialize, Serialize};

use crate::Timestamp;

/// How many backups stay; the oldest beyond go.
pub const KEPT_BACKUPS: usize = 14;
/// Ending of a backup's file name.
const ENDING: &str = ".sqlite";

/// Why a backup was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BackupReason {
    /// Somebody asked for it.
    Asked,
    /// The one of the day.
    Daily,
    /// A newer version of the program is about to change the layout.
    BeforeUpdate,
    /// Another backup is about to be restored.
    BeforeRestore,
    /// An archive is about to replace everything.
    BeforeImport,
}

impl BackupReason {
    const ALL: [Self; 5] = [
        Self::Asked,
        Self::Daily,
        Self::BeforeUpdate,
        Self::BeforeRestore,
        Self::BeforeImport,
    ];

    fn key(self) -> &'static str {
        match self {
            Self::Asked => "asked",
            Self::Daily => "daily",
            Self::BeforeUpdate => "before_update",
            Self::BeforeRestore => "before_restore",
            Self::BeforeImport => "before_import",
        }
    }
}

/// One backup file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Backup {
    /// Its file name, which is how it is asked for.
    pub name: String,
    /// When it was made.
    pub at: Timestamp,
    /// Its size in bytes.
    pub size: u64,
    /// Why it was made.
    pub reason: BackupReason,
}

/// `20260301T093000123-daily.sqlite`; `number` from 2 on tells apart those of one millisecond.
pub(crate) fn file_name(at: Timestamp, reason: BackupReason, number: u32) -> String {
    let more = if number > 1 {
        format!("-{number}")
    } else {
        String::new()
    };
    format!("{}-{}{more}{ENDING}", at.compact(), reason.key())
}

/// Reads a name of ours: moment, reason, number. Anything else, above all a path, is `None`.
pub(crate) fn read_name(name: &str) -> Option<(Timestamp, BackupReason, u32)> {
    let mut fields = name.strip_suffix(ENDING)?.split('-');
    let at = Timestamp::from_compact(fields.next()?)?;
    let key = fields.next()?;
    let reason = BackupReason::ALL.into_iter().find(|reason| reason.key() == key)?;
    let number = match fields.next() {
        None => 1,
        Some(text) => text.parse().ok().filter(|number| *number > 1)?,
    };
    (fields.next().is_none() && file_name(at, reason, number) == name).then_some((at, reason, number))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_read_back_and_others_do_not() {
        let at = Timestamp::from_millis(1_772_357_400_123);
        for reason in BackupReason::ALL {
            for number in [1, 2, 17] {
                assert_eq!(
                    read_name(&file_name(at, reason, number)),
                    Some((at, reason, number))
                );
            }
        }
        for name in [
            "../20260301T093000123-daily.sqlite",
            "20260301T093000123-daily.sqlite/..",
            "20260301T093000123-daily-1.sqlite",
            "20260301T093000123-daily-02.sqlite",
            "20260301T093000123-daily-+2.sqlite",
            "20260301T093000123-other.sqlite",
            "workroom.sqlite",
            "work.part",
            "",
        ] {
            assert_eq!(read_name(name), None, "{name}");
        }
    }
}
