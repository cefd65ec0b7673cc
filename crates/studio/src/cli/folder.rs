//! Writes files so that nothing half-written is ever left: one file, or a whole folder of paper at once.
//!
//! Everything is made in memory first, written to a temporary folder beside the target, and only then moved into place;
//! a full disk or a missing right shows before the first file moves. A folder that is there already keeps everything that
//! is not ours: a list of what was written last time, with a check number of each file, tells ours from the maker's, also
//! when she has drawn on one of them since.
//!
//! **Limits.** Moving several files is not one step for the file system; when a move fails, those already made are undone.

use std::collections::BTreeMap;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use crate::version::fingerprint;

/// The list of what we wrote, in the folder itself.
pub const LIST_NAME: &str = ".slackwater";

/// A file to be written.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Its name in the folder; `tove/bag-list.pdf` stands in a folder of it.
    pub name: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// Why files were not written. Nothing was changed.
#[derive(Debug)]
pub enum WriteFault {
    /// The place can't be used: no such folder, not a folder, no right to write, disk full.
    Io {
        /// What was being done: `write it`.
        doing: &'static str,
        /// Where.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// A file of that name is there and is not ours, or was changed since we wrote it.
    NotOurs {
        /// Which.
        path: PathBuf,
        /// It was ours once.
        changed: bool,
    },
    /// The folder's path is a file.
    NotAFolder {
        /// Which.
        path: PathBuf,
    },
}

impl WriteFault {
    /// What happened, for people; the path is for the caller to put before it.
    pub fn message(&self) -> String {
        match self {
            WriteFault::Io { doing, source, .. } => format!("could not {doing}: {}", plain_words(source)),
            WriteFault::NotOurs { changed: false, .. } => "it is there already and is not ours".to_owned(),
            WriteFault::NotOurs { changed: true, .. } => {
                "it was changed since slackwater wrote it".to_owned()
            }
            WriteFault::NotAFolder { .. } => "it is a file, not a folder".to_owned(),
        }
    }

    /// The file or folder it is about.
    pub fn path(&self) -> &Path {
        match self {
            WriteFault::Io { path, .. }
            | WriteFault::NotOurs { path, .. }
            | WriteFault::NotAFolder { path } => path,
        }
    }

    /// What to do about it.
    pub fn help(&self) -> &'static str {
        match self {
            WriteFault::Io { source, .. } => match source.kind() {
                io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => {
                    "nothing was written; make room on the disk, or choose another place"
                }
                io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => {
                    "nothing was written; choose a folder you may write to"
                }
                _ => "nothing was written; check the path, or choose another",
            },
            WriteFault::NotOurs { .. } => "nothing was written; move the file away, or choose another place",
            WriteFault::NotAFolder { .. } => "nothing was written; choose another folder",
        }
    }
}

/// The system's words without its error number.
fn plain_words(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::StorageFull => "the disk is full".to_owned(),
        io::ErrorKind::QuotaExceeded => "your share of the disk is used up".to_owned(),
        io::ErrorKind::PermissionDenied => "no right to write there".to_owned(),
        io::ErrorKind::ReadOnlyFilesystem => "the disk is read-only".to_owned(),
        io::ErrorKind::NotFound => "no such folder".to_owned(),
        io::ErrorKind::NotADirectory => "a part of the path is a file, not a folder".to_owned(),
        io::ErrorKind::AlreadyExists => "it is there already".to_owned(),
        _ => error.to_string(),
    }
}

/// Puts bytes into a new file and makes sure they arrived. The one step a test replaces to simulate a full disk.
pub trait PutFile {
    /// Creates the file, which must not exist, and writes it through to the disk.
    ///
    /// # Errors
    /// Those of the file system.
    fn put(&self, path: &Path, bytes: &[u8]) -> io::Result<()>;
}

/// The real disk.
#[derive(Clone, Copy, Debug, Default)]
pub struct Disk;

impl PutFile for Disk {
    fn put(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        let mut file = fs::File::create_new(path)?;
        file.write_all(bytes)?;
        // A full disk may show only when the bytes leave the cache.
        file.sync_all()
    }
}

/// Folders made above the one asked for; taken away again unless they are kept.
struct Parents {
    made: Vec<PathBuf>,
}

impl Parents {
    /// Makes `parent` and what is missing above it.
    fn make(parent: &Path) -> io::Result<Parents> {
        let missing: Vec<&Path> = parent
            .ancestors()
            .take_while(|p| !p.as_os_str().is_empty() && !p.exists())
            .collect();
        let mut parents = Parents { made: Vec::new() };
        for folder in missing.into_iter().rev() {
            fs::create_dir(folder)?;
            parents.made.push(folder.to_owned());
        }
        Ok(parents)
    }

    fn keep(mut self) {
        self.made.clear();
    }
}

impl Drop for Parents {
    fn drop(&mut self) {
        for folder in self.made.iter().rev() {
            // Not empty by now: somebody else uses it, so it stays.
            if fs::remove_dir(folder).is_err() {
                break;
            }
        }
    }
}

/// Writes all `sheets` into `folder`, or nothing; missing folders above it are made. Files of ours that are no longer made are removed, so that old paper does
/// not lie among new; files that are not ours are left alone.
///
/// # Errors
/// [`WriteFault`]; the folder is then as it was.
pub fn write_folder(folder: &Path, sheets: &[Sheet], disk: &dyn PutFile) -> Result<(), WriteFault> {
    let io = |doing: &'static str, path: &Path| {
        let path = path.to_owned();
        move |source: io::Error| WriteFault::Io { doing, path, source }
    };
    let parent = match folder.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent.to_owned(),
        _ => PathBuf::from("."),
    };
    let is_new = match fs::metadata(folder) {
        Ok(meta) if meta.is_dir() => false,
        Ok(_) => {
            return Err(WriteFault::NotAFolder {
                path: folder.to_owned(),
            });
        }
        Err(error) if error.kind() == io::ErrorKind::NotFound => true,
        Err(error) => return Err(io("look at it", folder)(error)),
    };
    let listed = if is_new {
        BTreeMap::new()
    } else {
        read_list(folder)
    };
    if !is_new {
        check_ours(folder, sheets, &listed)?;
    }
    let parents = Parents::make(&parent).map_err(io("make the folder it goes in", &parent))?;
    let scratch = tempfile::Builder::new()
        .prefix(".slackwater-")
        .tempdir_in(&parent)
        .map_err(io("make a folder in it", &parent))?;
    let fresh = scratch.path().join("new");
    fs::create_dir(&fresh).map_err(io("make a folder in it", &parent))?;
    let list: String = sheets
        .iter()
        .map(|s| format!("{:016x} {}\n", fingerprint(&s.bytes), s.name))
        .collect();
    let list = Sheet {
        name: LIST_NAME.to_owned(),
        bytes: list.into_bytes(),
    };
    for sheet in sheets.iter().chain([&list]) {
        // The temporary path would only puzzle: name the file she asked for.
        if let Some(inner) = fresh.join(&sheet.name).parent() {
            fs::create_dir_all(inner).map_err(io("make its folder", &folder.join(&sheet.name)))?;
        }
        disk.put(&fresh.join(&sheet.name), &sheet.bytes)
            .map_err(io("write it", &folder.join(&sheet.name)))?;
    }
    if is_new {
        fs::rename(&fresh, folder).map_err(io("make it", folder))?;
        parents.keep();
        return Ok(());
    }
    let mut moves = Moves {
        done: Vec::new(),
        folders: Vec::new(),
    };
    let old = scratch.path().join("old");
    fs::create_dir(&old).map_err(io("make a folder in it", &parent))?;
    let made = |name: &str| name == LIST_NAME || sheets.iter().any(|s| s.name == name);
    let stale = listed.iter().filter(|(name, print)| {
        !made(name) && fs::read(folder.join(name)).is_ok_and(|bytes| fingerprint(&bytes) == **print)
    });
    let stale: Vec<String> = stale.map(|(name, _)| name.clone()).collect();
    let names = sheets
        .iter()
        .map(|s| s.name.clone())
        .chain([LIST_NAME.to_owned()]);
    for name in stale.iter().cloned().chain(names) {
        let (target, aside) = (folder.join(&name), old.join(&name));
        moves
            .folder_of(folder, &target)
            .map_err(io("make its folder", &target))?;
        if let Some(inner) = aside.parent() {
            fs::create_dir_all(inner).map_err(io("make a folder in it", &parent))?;
        }
        if fs::symlink_metadata(&target).is_ok() {
            moves.rename(&target, &aside).map_err(io("replace it", &target))?;
        }
        if !stale.contains(&name) {
            moves
                .rename(&fresh.join(&name), &target)
                .map_err(io("write it", &target))?;
        }
    }
    moves.done.clear();
    moves.folders.clear();
    // A folder of ours that was left empty goes too; one that is not stays, and the attempt fails quietly.
    for name in &stale {
        if let Some(inner) = folder.join(name).parent().filter(|p| *p != folder) {
            let _ = fs::remove_dir(inner);
        }
    }
    Ok(())
}

/// Renames done so far; undone when dropped before they are declared final.
struct Moves {
    done: Vec<(PathBuf, PathBuf)>,
    /// Folders made for them.
    folders: Vec<PathBuf>,
}

impl Moves {
    fn rename(&mut self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)?;
        self.done.push((from.to_owned(), to.to_owned()));
        Ok(())
    }

    /// Makes the folder a file of `whole` stands in, if it is not there.
    fn folder_of(&mut self, whole: &Path, file: &Path) -> io::Result<()> {
        let Some(inner) = file.parent().filter(|p| *p != whole && !p.is_dir()) else {
            return Ok(());
        };
        fs::create_dir(inner)?;
        self.folders.push(inner.to_owned());
        Ok(())
    }
}

impl Drop for Moves {
    fn drop(&mut self) {
        for (from, to) in self.done.drain(..).rev() {
            // Best effort: whatever stopped the move may stop its undoing.
            let _ = fs::rename(to, from);
        }
        for folder in self.folders.drain(..).rev() {
            let _ = fs::remove_dir(folder);
        }
    }
}

/// What we wrote last time, with the check number of each file; empty when there is no list.
fn read_list(folder: &Path) -> BTreeMap<String, u64> {
    let text = fs::read_to_string(folder.join(LIST_NAME)).unwrap_or_default();
    text.lines()
        .filter_map(|line| {
            let (print, name) = line.split_once(' ')?;
            // A list somebody wrote into must not lead us out of the folder.
            let is_inside = !name.contains('\\')
                && Path::new(name)
                    .components()
                    .all(|part| matches!(part, std::path::Component::Normal(_)));
            Some((name.to_owned(), u64::from_str_radix(print, 16).ok()?)).filter(|_| is_inside)
        })
        .collect()
}

fn check_ours(folder: &Path, sheets: &[Sheet], listed: &BTreeMap<String, u64>) -> Result<(), WriteFault> {
    for sheet in sheets {
        let path = folder.join(&sheet.name);
        if fs::symlink_metadata(&path).is_err() {
            continue;
        }
        let bytes = fs::read(&path).unwrap_or_default();
        match listed.get(&sheet.name) {
            Some(print) if *print == fingerprint(&bytes) => {}
            // The same bytes may be "replaced" whoever wrote them.
            _ if bytes == sheet.bytes => {}
            found => {
                return Err(WriteFault::NotOurs {
                    path,
                    changed: found.is_some(),
                });
            }
        }
    }
    Ok(())
}

/// Writes one file whole or not at all. Refuses a file that is there unless `force`; devices and pipes are written to.
///
/// # Errors
/// [`WriteFault`]; a file that was there is then as it was.
pub fn write_file(path: &Path, bytes: &[u8], force: bool) -> Result<(), WriteFault> {
    let io = |source: io::Error| WriteFault::Io {
        doing: "write it",
        path: path.to_owned(),
        source,
    };
    match fs::metadata(path) {
        Ok(meta) if meta.is_dir() => {
            return Err(io(io::Error::other("it is a folder")));
        }
        Ok(meta) if !meta.is_file() => {
            let mut device = fs::OpenOptions::new().write(true).open(path).map_err(io)?;
            return device.write_all(bytes).map_err(io);
        }
        Ok(_) if !force => {
            return Err(WriteFault::NotOurs {
                path: path.to_owned(),
                changed: false,
            });
        }
        _ => {}
    }
    let parent = match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    let mut file = tempfile::Builder::new()
        .prefix(".slackwater-")
        .tempfile_in(parent)
        .map_err(io)?;
    file.write_all(bytes).map_err(io)?;
    file.as_file().sync_all().map_err(io)?;
    file.persist(path).map_err(|e| io(e.error))?;
    Ok(())
}
