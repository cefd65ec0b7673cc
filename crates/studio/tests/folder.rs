//! Writing a folder whole or not at all, on a disk that fills up at every possible moment.

use std::cell::Cell;
use std::fs;
use std::io::{self, Write};
use std::path::Path;

use studio::cli::folder::{Disk, PutFile, Sheet, WriteFault, write_file, write_folder};

/// A disk with room for so many bytes: the file that does not fit is left half-written, as a real disk leaves it.
struct SmallDisk {
    room: Cell<usize>,
}

impl PutFile for SmallDisk {
    fn put(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        let fits = bytes.len().min(self.room.get());
        fs::File::create_new(path)?.write_all(&bytes[..fits])?;
        self.room.set(self.room.get() - fits);
        if fits < bytes.len() {
            Err(io::Error::from(io::ErrorKind::StorageFull))
        } else {
            Ok(())
        }
    }
}

fn sheets(salt: &str) -> Vec<Sheet> {
    ["pattern-a4.pdf", "pattern.svg", "report.json"]
        .iter()
        .map(|name| Sheet {
            name: (*name).to_owned(),
            bytes: format!("{salt} {name}").into_bytes(),
        })
        .collect()
}

/// Names and contents under a folder.
fn contents(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut found: Vec<(String, Vec<u8>)> = fs::read_dir(folder)
        .expect("a folder")
        .map(|e| e.expect("an entry"))
        .map(|e| {
            (
                e.file_name().to_string_lossy().into_owned(),
                fs::read(e.path()).unwrap_or_default(),
            )
        })
        .collect();
    found.sort();
    found
}

#[test]
fn a_disk_that_fills_up_leaves_no_new_folder() {
    let place = tempfile::tempdir().unwrap();
    // The folders above it are not there either.
    let folder = place.path().join("out/this/paper");
    let total: usize = sheets("one").iter().map(|s| s.bytes.len()).sum();
    for room in 0..=total {
        let disk = SmallDisk {
            room: Cell::new(room),
        };
        let fault = write_folder(&folder, &sheets("one"), &disk).expect_err("the list at the end never fits");
        assert!(matches!(fault, WriteFault::Io { .. }), "{fault:?}");
        assert_eq!(fault.message(), "could not write it: the disk is full");
        assert!(fault.help().contains("nothing was written"), "{}", fault.help());
        assert!(
            contents(place.path()).is_empty(),
            "{room} bytes of room left {:?}",
            contents(place.path())
        );
    }
}

#[test]
fn a_disk_that_fills_up_leaves_an_old_folder_as_it_was() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("paper");
    write_folder(&folder, &sheets("one"), &Disk).unwrap();
    fs::write(folder.join("hers.txt"), "hers").unwrap();
    let before = contents(&folder);
    for room in [0, 5, 20, 40, 60] {
        let disk = SmallDisk {
            room: Cell::new(room),
        };
        write_folder(&folder, &sheets("two"), &disk).expect_err("too little room");
        assert_eq!(contents(&folder), before, "{room} bytes of room");
        assert_eq!(contents(place.path()).len(), 1, "{room} bytes of room");
    }
    write_folder(&folder, &sheets("two"), &Disk).unwrap();
    assert_eq!(
        fs::read_to_string(folder.join("pattern.svg")).unwrap(),
        "two pattern.svg"
    );
    assert_eq!(fs::read_to_string(folder.join("hers.txt")).unwrap(), "hers");
}

#[test]
fn a_move_that_fails_is_undone() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("paper");
    write_folder(&folder, &sheets("one"), &Disk).unwrap();
    let before = contents(&folder);
    // A name no file system takes: the disk accepts it, the move into place can't.
    struct Lenient;
    impl PutFile for Lenient {
        fn put(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
            if path.ends_with("no/way.pdf") {
                Ok(())
            } else {
                Disk.put(path, bytes)
            }
        }
    }
    let mut bad = sheets("two");
    bad.push(Sheet {
        name: "no/way.pdf".into(),
        bytes: Vec::new(),
    });
    write_folder(&folder, &bad, &Lenient).expect_err("there is no folder `no`");
    assert_eq!(contents(&folder), before);
    assert_eq!(contents(place.path()).len(), 1);
}

#[test]
fn a_lost_list_makes_our_files_the_makers() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("paper");
    write_folder(&folder, &sheets("one"), &Disk).unwrap();
    fs::remove_file(folder.join(".slackwater")).unwrap();
    let fault = write_folder(&folder, &sheets("two"), &Disk).expect_err("whose are they?");
    assert!(
        matches!(fault, WriteFault::NotOurs { changed: false, .. }),
        "{fault:?}"
    );
    // The very same bytes may be written again.
    write_folder(&folder, &sheets("one"), &Disk).unwrap();
}

#[test]
fn a_list_with_paths_in_it_removes_nothing_elsewhere() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("paper");
    write_folder(&folder, &sheets("one"), &Disk).unwrap();
    let outside = place.path().join("outside.txt");
    fs::write(&outside, "").unwrap();
    // cbf29ce484222325 is the check number of an empty file.
    let list = fs::read_to_string(folder.join(".slackwater")).unwrap();
    fs::write(
        folder.join(".slackwater"),
        list + "cbf29ce484222325 ../outside.txt\nnonsense\n",
    )
    .unwrap();
    write_folder(&folder, &sheets("two"), &Disk).unwrap();
    assert!(outside.exists());
}

#[test]
fn one_file_is_written_whole_and_never_over_another() {
    let place = tempfile::tempdir().unwrap();
    let file = place.path().join("draft.json");
    write_file(&file, b"one", false).unwrap();
    let fault = write_file(&file, b"two", false).expect_err("it is there");
    assert!(matches!(fault, WriteFault::NotOurs { .. }), "{fault:?}");
    assert_eq!(fs::read(&file).unwrap(), b"one");
    write_file(&file, b"two", true).unwrap();
    assert_eq!(
        contents(place.path()),
        [("draft.json".to_owned(), b"two".to_vec())]
    );
    assert!(
        write_file(place.path(), b"x", true).is_err(),
        "a folder is no file"
    );
}
