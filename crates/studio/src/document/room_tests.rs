//! The room of documents: older ones, what was typed, every fault at its document and field, and how it reaches a plan.

use make::{Evidence, Item, Preset, Stitch, Thread, Verdict, Wet};
use serde_json::json;

use super::*;
use crate::view::examples::{example, paper};
use crate::workroom_file::{read_room_parts, read_room_text};

fn read(workroom: Json, samples: Vec<Json>) -> ReadRoom {
    let workroom = paper("workroom", "workroom", workroom);
    let samples: Vec<Paper> = samples
        .into_iter()
        .enumerate()
        .map(|(i, body)| paper(&format!("sample-{i}"), "sample", body))
        .collect();
    let slate = paper(
        "slate",
        "cloth",
        json!({"name": "Slate tricot", "stock": "2.4 m", "price": "19.5", "wet": "shows"}),
    );
    room_of(&RoomPapers {
        workroom: Some(&workroom),
        samples: samples.iter().collect(),
        elastics: vec![],
        cloths: vec![&slate, &slate],
    })
}

fn seam() -> Json {
    json!({"name": "Side seam", "of": "stitch", "cloth": "slate", "stitch": "three-step", "width": "5 mm",
        "length": "1.3 mm", "relaxed": "10 cm", "stretched": "17.8 cm", "first_pop": "", "verdict": "not yet"})
}

fn faults(read: &ReadRoom) -> Vec<(&str, &str)> {
    read.faults
        .iter()
        .map(|f| (f.document.as_str(), f.path.as_str()))
        .collect()
}

#[test]
fn nothing_written_down_is_planned_for_a_zigzag_machine_and_says_so() {
    let nothing = ReadRoom::default();
    assert!(nothing.room.is_assumed && nothing.faults.is_empty());
    assert_eq!(nothing.room.workroom, Preset::Zigzag.workroom());
}

#[test]
fn a_workroom_of_an_older_studio_still_reads() {
    let old = read(
        json!({"machines": [{"name": "Old faithful", "kind": "zigzag, three-step zigzag"}, {"name": "Ruffler", "kind": "overlocker"},
            {"name": "Tailor", "kind": "straight"}, {"name": "Hemmer", "kind": "coverstitch"}],
            "needles": "Stretch 75, ballpoint 70", "threads": "Polyester 120", "paper": "A4", "measured_square": [100, 99]}),
        vec![
            json!({"name": "Zigzag on slate", "of": "stitch", "cloth": "slate", "machine": "zigzag machine",
            "settings": "5 wide, 1.3 long", "relaxed": "10 cm", "stretched": "17 cm", "verdict": "good"}),
        ],
    );
    let names: Vec<&str> = old
        .room
        .workroom
        .machines
        .iter()
        .map(|m| m.name.as_str())
        .collect();
    assert_eq!(names, ["Old faithful", "Ruffler", "Tailor", "Hemmer"]);
    let kinds: Vec<_> = old.room.workroom.machines.iter().map(|m| &m.kind).collect();
    let usual = [
        Machine::zigzag(),
        Machine::overlocker(),
        Machine::straight(),
        Machine::coverstitch(),
    ];
    assert_eq!(kinds, usual.iter().map(|m| &m.kind).collect::<Vec<_>>());
    assert!(!old.room.is_assumed && old.room.workroom.needles.is_empty());
    // A sentence of settings is no stitch: the sample waits for one, and nothing else is said of the room.
    assert_eq!(faults(&old), [("sample-0", "stitch"), ("sample-0", "length")]);
    assert!(old.room.samples.seams.is_empty());
}

#[test]
fn what_is_typed_is_read_at_its_place() {
    let read = read(
        json!({"machines": [{"name": "Cover", "kind": "coverstitch", "needles": "3", "top_cover": "true"}],
            "needles": [{"point": "stretch", "size": "75 NM", "count": "4"}, {"point": "sharp", "size": 75, "count": 1}],
            "threads": [{"fibre": "elastic", "metres": 100}],
            "stock": [{"item": "ring", "amount": "4"}, {"item": "cord", "amount": "2 m"}, {"item": "thread", "fibre": "cotton", "amount": "5 m"}],
            "prices": [{"item": "elastic", "kind": "knitted", "width": "10 mm", "pack": "10 m", "price": 12},
                {"item": "zip", "pack": 0, "price": 3}],
            "terms": {"hour_rate": "24", "margin": "20 %", "currency": "EUR"}}),
        vec![seam()],
    );
    let room = &read.room;
    assert_eq!(room.workroom.needles.len(), 1);
    assert_eq!(room.workroom.needles[0].count, 4);
    assert_eq!(
        (room.workroom.threads[0].thread, room.workroom.threads[0].tex),
        (Thread::Elastic, 24.0)
    );
    assert_eq!(room.stock.len(), 2);
    assert_eq!((room.prices[0].pack, room.prices[0].is_whole), (10_000.0, false));
    let terms = room.terms.unwrap();
    assert_eq!((terms.hour_rate, terms.margin), (24.0, 0.2));
    assert_eq!(
        room.cloths.iter().filter(|c| c.stock.is_some()).count(),
        1,
        "one cloth chosen twice"
    );
    assert_eq!(room.cloths[1].price_per_metre, Some(19.5));
    assert_eq!(room.samples.wet("Slate tricot"), Some(Wet::ShowsStretched));
    let sample = &room.samples.seams[0];
    assert_eq!(
        (sample.cloth.as_str(), sample.verdict),
        ("Slate tricot", Verdict::NotYet)
    );
    let said: Vec<(&str, &str)> = read
        .faults
        .iter()
        .map(|f| (f.path.as_str(), f.fault.field.as_str()))
        .collect();
    assert_eq!(
        said,
        [
            ("needles", "needles[2].point"),
            ("stock", "stock[3].item"),
            ("prices", "prices[2].pack"),
        ]
    );
}

#[test]
fn what_a_sample_cannot_be_is_said_at_its_field() {
    let mut short = seam();
    short["stretched"] = json!("9 cm");
    let mut early = seam();
    early["first_pop"] = json!("20 cm");
    let mut wide = seam();
    wide["width"] = json!("5 cm");
    let iron = json!({"name": "Hot", "of": "iron", "cloth": "", "heat": "500", "verdict": "good"});
    let read = read(json!({}), vec![short, early, wide, iron, seam()]);
    assert_eq!(
        faults(&read),
        [
            ("sample-0", "stretched"),
            ("sample-1", "stretched"),
            ("sample-2", "width"),
            ("sample-3", "heat"),
            ("sample-3", "cloth"),
        ]
    );
    assert!(
        read.faults[0]
            .fault
            .message
            .contains("9 cm is shorter than it was relaxed, 10 cm"),
        "{:?}",
        read.faults[0]
    );
    assert!(
        read.faults[1]
            .fault
            .message
            .contains("where the first stitch popped"),
        "{:?}",
        read.faults[1]
    );
    assert_eq!(read.room.samples.seams.len(), 1);
}

#[test]
fn of_two_alike_the_one_sewn_later_counts() {
    let mut late = seam();
    late["on"] = json!("2026-11-20");
    late["name"] = json!("late");
    let mut early = seam();
    early["on"] = json!("2026-11-02");
    let read = read(json!({}), vec![late, early]);
    let found = read.room.samples.seam(
        "Slate tricot",
        Thread::SpunPolyester,
        Stitch::ThreeStep,
        units::Mm::new(5.0),
        units::Mm::new(1.3),
    );
    assert_eq!(found.map(|s| s.name.as_str()), Some("late"));
}

#[test]
fn the_text_of_a_room_reads_back_as_the_same_room() {
    let read = read(
        json!({"machines": [{"name": "Old faithful", "kind": "zigzag"}, {"name": "Cover", "kind": "coverstitch", "needles": 3}],
            "stock": [{"item": "elastic", "kind": "knitted", "width": "10 mm", "amount": "3 m"}], "terms": {"hour_rate": 20}}),
        vec![seam()],
    );
    assert_eq!(read.faults, []);
    assert_eq!(read_room_text("room.toml", &read.text).unwrap(), read.room);
    for preset in Preset::ALL {
        let mut file = Table::new();
        file.insert("format".into(), Toml::Integer(1));
        let machines = preset.workroom().machines;
        let tables = machines.iter().map(|m| Toml::Table(machine_table(m)));
        file.insert("machines".into(), Toml::Array(tables.collect()));
        let (room, faults) = read_room_parts("room.toml", &file.to_string()).unwrap();
        assert_eq!((room.workroom.machines, faults), (machines, vec![]), "{preset:?}");
    }
}

/// Maren's suit with these samples and machines.
fn maren(workroom: Json, samples: Vec<Json>) -> crate::document::Worked {
    let worked = example("maren-one-piece");
    let mut linked = worked.linked();
    linked.workroom = Some(paper("workroom", "workroom", workroom));
    linked.samples = samples
        .into_iter()
        .enumerate()
        .map(|(i, body)| paper(&format!("sample-{i}"), "sample", body))
        .collect();
    crate::document::work(worked.suit.clone(), linked)
}

#[test]
fn a_sample_that_popped_early_outranks_the_forecast() {
    let edge = |worked: &crate::document::Worked| {
        let plan = worked.plan().unwrap();
        let of = |s: &&make::StitchChoice| s.job == make::Job::EdgeTopstitch;
        let choice = plan.making.stitches.iter().find(of).unwrap();
        (
            choice.setting.stitch,
            choice.setting.width.get(),
            choice.evidence.clone(),
            choice.extension,
        )
    };
    let plain = edge(&maren(json!({}), vec![]));
    assert_eq!(
        (plain.0, plain.1, &plain.2),
        (Stitch::ThreeStep, 5.0, &Evidence::Forecast)
    );
    let mut sewn = seam();
    sewn["cloth"] = json!("shell");
    let held = edge(&maren(json!({}), vec![sewn.clone()]));
    assert_eq!(
        (held.0, held.2),
        (Stitch::ThreeStep, Evidence::Sample("Side seam".into()))
    );
    assert!((held.3 - 0.78).abs() < 1e-9, "{}", held.3);
    sewn["first_pop"] = json!("10.8 cm");
    let popped = edge(&maren(json!({}), vec![sewn]));
    assert_ne!((popped.0, popped.1), (Stitch::ThreeStep, 5.0), "it popped at 8 %");
}

#[test]
fn machines_stock_and_prices_reach_the_plan() {
    let bare = maren(json!({}), vec![]);
    let full = maren(
        json!({"machines": [{"name": "Z", "kind": "zigzag"}, {"name": "O", "kind": "overlocker"}],
            "threads": [{"fibre": "spun-polyester", "metres": 20}],
            "prices": [{"item": "thread", "fibre": "spun-polyester", "pack": "500 m", "price": 3.5}]}),
        vec![],
    );
    let (bare, full) = (bare.plan().unwrap(), full.plan().unwrap());
    let has = |plan: &crate::document::Planned| {
        plan.making
            .stitches
            .iter()
            .any(|s| s.setting.stitch == Stitch::FourThreadOverlock)
    };
    assert!(!has(&bare) && has(&full));
    let thread = |plan: &crate::document::Planned| {
        let of = |l: &&make::ShoppingLine| l.item == Item::Thread(Thread::SpunPolyester);
        plan.shopping.lines.iter().find(of).cloned().unwrap()
    };
    assert_eq!(thread(&bare).cost, None);
    let line = thread(&full);
    assert_eq!(
        (line.in_stock, line.packs, line.cost),
        (20_000.0, Some(1), Some(3.5))
    );
    // The cloth's own price stands in the suit's papers.
    let cloth = full
        .shopping
        .lines
        .iter()
        .find(|l| l.item == Item::Cloth(cloth::Layer::Shell))
        .unwrap();
    assert_eq!(
        cloth.cost.is_some(),
        maren(json!({}), vec![])
            .file
            .unwrap()
            .shell
            .record
            .price_per_metre
            .is_some()
    );
}

#[test]
fn the_example_workroom_reads_without_a_fault() {
    let steps: Vec<Json> =
        serde_json::from_str(include_str!("../../../../data/example/workroom.json")).unwrap();
    let made: Vec<(String, Json, String)> = steps
        .iter()
        .filter_map(|s| s.get("make"))
        .map(|m| {
            let text = |key: &str| m[key].as_str().unwrap().to_owned();
            (text("id"), m["body"].clone(), text("kind"))
        })
        .collect();
    let of = |kind: &str| -> Vec<Paper> {
        let found = made.iter().filter(|m| m.2 == kind);
        found
            .map(|(id, body, _)| paper(id, "sample", body.clone()))
            .collect()
    };
    let workroom = steps.iter().find_map(|s| s.get("workroom")).unwrap();
    let workroom = paper("workroom", "workroom", workroom.clone());
    let (samples, elastics, cloths) = (of("sample"), of("elastic"), of("cloth"));
    let read = room_of(&RoomPapers {
        workroom: Some(&workroom),
        samples: samples.iter().collect(),
        elastics: elastics.iter().collect(),
        cloths: cloths.iter().collect(),
    });
    assert_eq!(read.faults, []);
    assert_eq!(read.room.workroom.machines.len(), 2);
    let book = &read.room.samples;
    assert_eq!(
        (
            book.seams.len(),
            book.irons.len(),
            book.elastics.len(),
            book.wets.len()
        ),
        (2, 1, 1, 2)
    );
    assert!(read.room.terms.is_some());
}
