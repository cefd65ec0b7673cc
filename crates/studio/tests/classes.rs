//! Classes: the example drafted, planned and made; what is refused and how it is told.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod program;

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use program::{command, example};
use studio::class::{
    ClassFile, ClassSetting, KitFault, Person, Stopped, WorkedClass, gather, lay_class, make_kits,
    read_class, report, work,
};
use studio::cli::folder::{Disk, Sheet, write_folder};
use studio::suit_file::{Faults, read_text};
use units::{Progress, Silent};

fn examples() -> PathBuf {
    example("classes")
}

fn load(path: &str) -> Result<Vec<u8>, String> {
    fs::read(examples().join(path)).map_err(|_| "there is no such file".to_owned())
}

fn club() -> String {
    fs::read_to_string(examples().join("harbour-club.toml")).unwrap()
}

fn read(text: &str) -> Result<ClassFile, Faults> {
    read_class("club.toml", text.as_bytes())
}

fn people(text: &str) -> (ClassSetting, Vec<Person>) {
    gather(&read(text).unwrap(), &load).unwrap()
}

/// The example with only those of its wearers.
fn only(text: &str, names: &[&str]) -> (ClassSetting, Vec<Person>) {
    let (setting, mut people) = people(text);
    people.retain(|p| names.contains(&p.name.as_str()));
    (setting, people)
}

#[test]
fn the_example_is_drafted_for_everyone_and_timed() {
    let (setting, people) = people(&club());
    let class = work(setting, people, &Silent).unwrap();
    assert!(class.refused().next().is_none());
    let names: Vec<&str> = class.takers.iter().map(|t| t.person.name.as_str()).collect();
    assert_eq!(names, ["Maren", "Odile", "Tove", "Ines", "Bastian", "Runa"]);
    let told = report(&class, &[]);
    let table = told.timetable.unwrap();
    assert!(table.bound <= table.minutes && table.minutes <= table.one_after_another);
    // Every step of every plan once, but washing and what the file says is done before.
    let done: BTreeSet<(&str, usize)> = table
        .steps
        .iter()
        .map(|s| (s.person.as_str(), s.number))
        .collect();
    assert_eq!(done.len(), table.steps.len());
    for at in 0..class.sewing.len() {
        let (person, drafted) = class.sewn(at).unwrap();
        let in_class = drafted
            .making
            .steps
            .iter()
            .filter(|s| s.phase != make::Phase::Prove)
            .count();
        let own = table.steps.iter().filter(|s| s.person == person.name).count();
        assert_eq!(own, in_class, "{}", person.name);
    }
    assert!(
        table
            .steps
            .iter()
            .all(|s| s.from + s.minutes <= table.session_minutes)
    );
}

/// A wearer is the same body whichever file and unit she comes from: Tove's file is in inches, as the design's is; Maren's in centimetres.
#[test]
fn wearers_keep_their_dimensions_through_the_units() {
    let (_, people) = people(&club());
    for (name, file) in [
        ("Maren", "../maren-one-piece.toml"),
        ("Tove", "../tove-square-neck.toml"),
        ("Ines", "../ines-one-piece.toml"),
    ] {
        let own = read_text(file, &String::from_utf8(load(file).unwrap()).unwrap()).unwrap();
        let person = people.iter().find(|p| p.name == name).unwrap();
        let suit = person.suit.as_ref().unwrap();
        for dimension in body::Dimension::ALL {
            let (a, b) = (own.wearer.taken.get(dimension), suit.wearer.taken.get(dimension));
            assert_eq!(a.is_some(), b.is_some(), "{name} {dimension:?}");
            if let (Some(a), Some(b)) = (a, b) {
                assert!(
                    (a.get() - b.get()).abs() < 1e-9,
                    "{name} {dimension:?}: {a:?} {b:?}"
                );
            }
        }
        assert_eq!(own.second, suit.second, "{name}: second readings");
        // Her own suit file reads alone.
        assert!(read_text("suit.toml", &person.text).is_ok());
    }
    assert_eq!(
        people.iter().find(|p| p.name == "Ines").unwrap().carer,
        "her mother"
    );
}

/// Worked out and laid.
fn laid(setting: ClassSetting, people: Vec<Person>) -> WorkedClass {
    let class = work(setting, people, &Silent).unwrap();
    let lays = lay_class(&class, &Silent).unwrap();
    class.with_lays(Arc::new(lays))
}

/// All kits of a cloth on one length: every piece of everyone, judged, no longer than everyone's own lengths end to end; the list says it.
#[test]
fn the_kits_of_a_class_are_laid_together() {
    let (setting, people) = only(&club(), &["Tove", "Ines"]);
    let class = laid(setting, people);
    let lays = class.lays.clone().unwrap();
    assert!(lays.together.not_laid.is_empty() && !lays.together.laid.is_empty());
    assert_eq!(lays.alone.len(), 2);
    for together in &lays.together.laid {
        let request = &together.task.request;
        assert_eq!(lay::check(request, &together.lay.placed), vec![]);
        assert_eq!(request.garments, ["Tove", "Ines"]);
        let own: f64 = lays
            .alone
            .iter()
            .filter_map(|l| l.of(together.task.layer))
            .map(|l| l.lay.cloth_mm)
            .sum();
        assert!(
            together.lay.cloth_mm <= own + 1e-6,
            "{} {own}",
            together.lay.cloth_mm
        );
        let own: usize = lays
            .alone
            .iter()
            .filter_map(|l| l.of(together.task.layer))
            .map(|l| l.lay.placed.len())
            .sum();
        assert_eq!(together.lay.placed.len(), own);
    }
    // Cut pieces in the bags: what is bought is the lay and 20 cm for tests.
    let (mut setting, people) = only(&club(), &["Tove", "Ines"]);
    setting.bags = make::ClothInBag::Pieces;
    let pieces = laid(setting, people);
    let all = pieces.lays.clone().unwrap();
    assert!(all.alone.is_empty(), "nobody lays her own");
    assert_eq!(all.together, lays.together);
    let shell = pieces
        .shopping
        .lines
        .iter()
        .find(|l| l.item == make::Item::Cloth(cloth::Layer::Shell))
        .unwrap();
    let taken = all.together.of(cloth::Layer::Shell).unwrap().takes().get();
    assert!(
        (shell.needed - taken - 200.0).abs() < 1e-6,
        "{} {taken}",
        shell.needed
    );
    assert_eq!(shell.notes[0].key, "class_note.together_by_lay");
    // Data for scripts and other judges.
    assert_eq!(report(&pieces, &[]).lays.len(), all.together.laid.len());
}

/// The same suit twice is two suits on the cloth.
#[test]
fn the_same_suit_twice_is_two_suits() {
    let (setting, mut people) = only(&club(), &["Ines"]);
    let mut again = people[0].clone();
    again.folder = "ines-2".into();
    people.push(again);
    let class = laid(setting, people);
    let lays = class.lays.clone().unwrap();
    let together = &lays.together.laid[0];
    assert_eq!(together.task.request.garments, ["Ines", "Ines"]);
    assert_eq!(
        together.lay.placed.len(),
        2 * lays.alone[0].laid[0].lay.placed.len()
    );
    assert_eq!(lays.alone[0].laid[0].lay, lays.alone[1].laid[0].lay);
}

fn names(sheets: &[Sheet]) -> Vec<&str> {
    sheets.iter().map(|s| s.name.as_str()).collect()
}

#[test]
fn kits_hold_what_is_promised_and_come_out_the_same() {
    let (setting, people) = only(&club(), &["Ines"]);
    let class = laid(setting, people);
    let kits = make_kits(&class, &Silent).unwrap();
    let all = names(&kits.sheets);
    for name in [
        "ines/lay-shell.pdf",
        "lay-shell.pdf",
        "ines/bag-list.pdf",
        "ines/pattern-a4.pdf",
        "ines/suit.toml",
        "shopping-list.pdf",
        "shopping-list.csv",
        "timetable.pdf",
        "class.json",
        "index.html",
    ] {
        assert!(all.contains(&name), "{name} is not in {all:?}");
    }
    assert!(all.iter().any(|n| n.starts_with("ines/booklet")), "{all:?}");
    assert!(
        kits.room
            .iter()
            .chain(&kits.kits[0].files)
            .all(|m| m.undrawn.is_empty())
    );
    let again = make_kits(&class, &Silent).unwrap();
    assert!(kits.sheets == again.sheets, "the same class gives the same bytes");
    // The page links to files that are there.
    let index = kits.sheets.iter().find(|s| s.name == "index.html").unwrap();
    let page = String::from_utf8(index.bytes.clone()).unwrap();
    for part in page.split("href=\"").skip(1) {
        let target = part.split('"').next().unwrap();
        assert!(all.contains(&target), "{target} is linked and not made");
    }
    // Written into folders, read back, and written over again.
    let folder = tempfile::tempdir().unwrap();
    let target = folder.path().join("out");
    write_folder(&target, &kits.sheets, &Disk).unwrap();
    write_folder(&target, &kits.sheets, &Disk).unwrap();
    for sheet in &kits.sheets {
        assert_eq!(
            fs::read(target.join(&sheet.name)).unwrap(),
            sheet.bytes,
            "{}",
            sheet.name
        );
    }
    // Who leaves the class leaves no folder behind, unless something of somebody else is in it.
    let rest: Vec<Sheet> = kits
        .sheets
        .iter()
        .filter(|s| !s.name.starts_with("ines/"))
        .cloned()
        .collect();
    write_folder(&target, &rest, &Disk).unwrap();
    assert!(!target.join("ines").exists());
    fs::create_dir(target.join("ines")).unwrap();
    fs::write(target.join("ines/suit.toml"), "mine").unwrap();
    let refused = write_folder(&target, &kits.sheets, &Disk).unwrap_err();
    assert!(refused.path().ends_with("ines/suit.toml"));
    assert_eq!(fs::read(target.join("ines/suit.toml")).unwrap(), b"mine");
}

/// The class goes on without the man a one-piece is not drafted for; his folder says why, and so does the command.
#[test]
fn a_wearer_who_cannot_be_drafted_does_not_stop_the_class() {
    let text = club().replace("../tove-brief.toml", "../maren-one-piece.toml");
    let (setting, people) = only(&text, &["Bastian"]);
    let class = work(setting, people, &Silent).unwrap();
    let (person, why) = class.refused().next().unwrap();
    assert_eq!(person.name, "Bastian");
    assert!(why[0].contains("man's one-piece is not drafted here"), "{why:?}");
    let kits = make_kits(&class, &Silent).unwrap();
    assert_eq!(
        names(&kits.sheets)[..2],
        ["bastian/not-drafted.txt", "bastian/suit.toml"]
    );
    let says = String::from_utf8(kits.sheets[0].bytes.clone()).unwrap();
    assert!(
        says.contains("could not be drafted for Bastian") && says.contains("man's one-piece"),
        "{says}"
    );

    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("club.toml");
    let here = examples().canonicalize().unwrap();
    let beside = text.replace("\"../", &format!("\"{}/../", here.display()));
    fs::write(&file, beside).unwrap();
    let done = command()
        .args(["--json", "class", "--check"])
        .arg(&file)
        .output()
        .unwrap();
    assert_eq!(
        done.status.code(),
        Some(1),
        "{}",
        String::from_utf8_lossy(&done.stderr)
    );
    let told: serde_json::Value = serde_json::from_slice(&done.stdout).unwrap();
    let people = told["people"].as_array().unwrap();
    let bastian = people.iter().find(|p| p["name"] == "Bastian").unwrap();
    assert!(
        bastian["refused"][0]
            .as_str()
            .unwrap()
            .contains("man's one-piece")
    );
    assert_eq!(people.iter().filter(|p| p["version"].is_string()).count(), 5);
    assert!(told["folder"].is_null());
    assert_eq!(
        fs::read_dir(folder.path()).unwrap().count(),
        1,
        "nothing is written by a check"
    );
}

fn told(text: &str) -> Vec<(usize, String, String)> {
    let faults = read(text).unwrap_err();
    let line = |at: &Option<std::ops::Range<usize>>| at.as_ref().map_or(0, |s| faults.place(s.start).line);
    faults
        .list
        .iter()
        .map(|f| (line(&f.at), f.field.clone(), f.message.clone()))
        .collect()
}

#[test]
fn every_fault_is_told_at_its_line() {
    let text = "format = 1\nname = \"Club\"\nhours = 40\npace = \"fast\"\nbefore = [\"wash\"]\nsuit = \"a.toml\"\n\n\
                [machines]\nzigzag = 1.5\nserger = 1\n\n[[wearers]]\nname = \"Tove\"\nform = \"woman\"\n\
                [wearers.dimensions]\nhip_girth = 9\n\n[[wearers]]\nsuit = \"b.toml\"\nage = 8\n";
    let all = told(text);
    let fields: Vec<(usize, &str)> = all
        .iter()
        .map(|(line, field, _)| (*line, field.as_str()))
        .collect();
    assert_eq!(
        fields,
        [
            // Said of the section whose one count was no count.
            (3, "hours"),
            (4, "pace"),
            (5, "before"),
            (8, "machines.zigzag"),
            (9, "machines.zigzag"),
            (10, "machines.serger"),
            (16, "wearers[1].dimensions.hip_girth"),
            (20, "wearers[2].age"),
        ],
        "{all:?}"
    );
}

#[test]
fn files_that_are_not_there_are_told_where_they_are_named() {
    let class = read(&club().replace("../odile-skirted.toml", "../nobody.toml")).unwrap();
    let faults = gather(&class, &load).unwrap_err();
    assert_eq!(faults.list.len(), 1);
    let fault = &faults.list[0];
    assert_eq!(fault.message, "../nobody.toml: there is no such file");
    assert_eq!(fault.field, "wearers[2].suit");
    assert_eq!(
        fault.at.as_ref().map(|s| &faults.text[s.clone()]),
        Some("\"../nobody.toml\"")
    );
    // A file that is there but wrong speaks for itself.
    let class = read(&club()).unwrap();
    let spoiled = |path: &str| {
        let text = String::from_utf8(load(path)?).unwrap();
        Ok(text.replace("form = \"child\"", "form = \"chield\"").into_bytes())
    };
    let faults = gather(&class, &spoiled).unwrap_err();
    assert_eq!(
        (faults.file.as_str(), faults.list[0].field.as_str()),
        ("../ines-one-piece.toml", "wearer.form")
    );
}

/// Asks to stop after so many questions.
struct StopsAfter(AtomicU64, u64);

impl Progress for StopsAfter {
    fn at(&self, _: u64, _: u64, _: &str) {}

    fn should_stop(&self) -> bool {
        self.0.fetch_add(1, Ordering::Relaxed) >= self.1
    }
}

#[test]
fn stopping_gives_nothing() {
    let (setting, people) = only(&club(), &["Tove", "Ines"]);
    let at_once = StopsAfter(AtomicU64::new(0), 0);
    assert_eq!(
        work(setting.clone(), people.clone(), &at_once).err(),
        Some(Stopped)
    );
    let class = work(setting, people, &Silent).unwrap();
    for soon in [0, 3] {
        let stops = StopsAfter(AtomicU64::new(0), soon);
        assert_eq!(lay_class(&class, &stops).err(), Some(Stopped));
    }
    let later = StopsAfter(AtomicU64::new(0), 2);
    assert_eq!(make_kits(&class, &later).err(), Some(KitFault::Stopped));
}

#[test]
fn alike_machines_of_a_workroom_are_counted() {
    let mut room = studio::workroom_file::Room::of(make::Preset::ZigzagOverlocker);
    let mut second = make::Machine::zigzag();
    second.name = "The old one".to_owned();
    room.workroom.machines.push(second);
    let (room, counts) = studio::class::counted(room);
    assert_eq!(counts, [2, 1]);
    assert_eq!(room.workroom.machines.len(), 2);
}

/// `docs/class-file.md` tells of every key and word.
#[test]
fn the_reference_names_every_key_and_word() {
    let doc = include_str!("../../../docs/class-file.md");
    let (keys, words) = studio::class::class_reference();
    let lacking: Vec<&str> = keys
        .into_iter()
        .filter(|key| {
            !doc.contains(&format!("`{key}`"))
                && !doc.contains(&format!("`[[{key}]]`"))
                && !doc.contains(&format!("`[{key}]`"))
        })
        .chain(
            words
                .into_iter()
                .filter(|word| !doc.contains(&format!("`\"{word}\"`"))),
        )
        .collect();
    assert!(lacking.is_empty(), "{lacking:?}");
}
