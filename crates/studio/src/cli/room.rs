//! The workroom of a command: a workroom file, or the machines of a preset.

use std::path::PathBuf;

use clap::Args;
use make::Preset;

use super::read_file;
use crate::suit_file::Faults;
use crate::workroom_file::{Room, read_room_bytes};

/// `--workroom FILE`, for every command that plans.
#[derive(Clone, Debug, Default, Args)]
pub(super) struct RoomArgs {
    /// A workroom file: machines, needles, threads, stock, prices, samples.
    #[arg(long, value_name = "FILE")]
    workroom: Option<PathBuf>,
}

impl RoomArgs {
    /// The workroom of the file; that of the preset when no file is named.
    ///
    /// # Errors
    /// [`Faults`] of the file.
    pub(super) fn room(&self, otherwise: Preset) -> Result<Room, Faults> {
        match &self.workroom {
            Some(path) => read_room_bytes(&path.display().to_string(), &read_file(path)?),
            None => Ok(Room::of(otherwise)),
        }
    }

    /// Whether a file is named.
    pub(super) fn is_named(&self) -> bool {
        self.workroom.is_some()
    }
}
