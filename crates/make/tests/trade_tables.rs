//! Stitches, threads, needles, settings, cups and rates held against the tables they were taken from.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use fixtures::rows;
use make::{Job, Needle, NeedlePoint, Preset, Stitch, StitchFamily, Thread, Through, cup_size};
use units::Mm;

#[path = "suit/bodies.rs"]
mod bodies;
#[path = "suit/suits.rs"]
mod suits;

fn band(text: &str) -> (f64, f64) {
    let text = text.split(',').next().unwrap();
    let mut parts = text.split('-').map(|p| p.trim().parse::<f64>().unwrap());
    let low = parts.next().unwrap();
    (low, parts.next().unwrap_or(low))
}

/// Source: `data/trade/stitches.csv`. ISO numbers only for 301, 304, overedge and cover stitches; numbers of multi-step zigzags are memory.
#[test]
fn every_stitch_is_the_tables() {
    let rows = rows(include_str!("../../../data/trade/stitches.csv"));
    let mut seen = 0;
    for stitch in Stitch::ALL {
        let facts = stitch.facts();
        let Some(id) = facts.row else { continue };
        let row = rows.iter().find(|r| r[0] == id).unwrap_or_else(|| panic!("{id}"));
        seen += 1;
        assert_eq!(
            u32::from(facts.needle_threads + facts.under_threads).to_string(),
            row[4],
            "{id}"
        );
        let (low, high) = band(&row[9]);
        assert!(
            (facts.extension.0 * 100.0 - low).abs() < 1e-9 && (facts.extension.1 * 100.0 - high).abs() < 1e-9,
            "{id}"
        );
        // A derived band is computed from the settings instead; practice is not.
        assert_eq!(facts.is_practice, row[10] == "P", "{id}");
        if let Ok(share) = row[16].parse::<f64>() {
            assert!((facts.needle_share * 100.0 - share).abs() < 1e-9, "{id}");
        }
        let family = match row[3].as_str() {
            "lockstitch" => StitchFamily::Lockstitch,
            "chain" => StitchFamily::Chain,
            "cover" => StitchFamily::Cover,
            "overedge" => StitchFamily::Overedge,
            other => panic!("{other}"),
        };
        assert_eq!(facts.family, family, "{id}");
        match facts.iso4915 {
            Some(number) => {
                assert_eq!(number.to_string(), row[1], "{id}");
                assert!(
                    number == 301
                        || number == 304
                        || matches!(family, StitchFamily::Cover | StitchFamily::Overedge),
                    "{number} is not to be printed"
                );
            }
            None => assert!(!["301", "304"].contains(&row[1].as_str()), "{id}"),
        }
    }
    assert_eq!(seen, Stitch::ALL.len() - 1);
}

/// Source: `data/trade/threads.csv` (memory of makers' sheets).
#[test]
fn every_thread_is_the_tables() {
    let rows = rows(include_str!("../../../data/trade/threads.csv"));
    for (thread, start) in [
        (Thread::SpunPolyester, "corespun"),
        (Thread::TexturedPolyester, "textured (bulked) polyester"),
        (Thread::TexturedPolyamide, "textured (bulked) polyamide"),
        (Thread::PolyamideFilament, "polyamide continuous"),
        (Thread::Elastic, "PBT"),
        (Thread::Cotton, "cotton"),
    ] {
        let facts = thread.facts();
        let row = rows
            .iter()
            .find(|r| r[0].starts_with(start) && r[2].parse::<f64>() == Ok(facts.tex))
            .unwrap_or_else(|| panic!("{start}"));
        let (low, high) = band(&row[4]);
        assert_eq!(
            (facts.extension.0 * 100.0, facts.extension.1 * 100.0),
            (low, high),
            "{start}"
        );
        assert!(
            (facts.extension.0..=facts.extension.1).contains(&thread.breaks_at()),
            "{start}"
        );
        assert_eq!(facts.is_chlorine_fast, row[6] == "good", "{start}");
    }
    // Cotton thread: never. Source: the same table, `do not use`.
    for preset in Preset::ALL {
        for suit in suits::SUITS.iter().step_by(11) {
            let plan = suit.plan(&preset.workroom());
            let threads = plan
                .stitches
                .iter()
                .flat_map(|s| [s.setting.needle_thread, s.setting.under_thread]);
            assert!(threads.into_iter().all(|t| t != Thread::Cotton));
        }
    }
}

/// Source: `data/trade/needles.csv`: the cloth's mass lies in the chosen size's band, and the point is one the row allows.
#[test]
fn every_needle_is_the_tables() {
    let rows = rows(include_str!("../../../data/trade/needles.csv"));
    for mass in (60..=420).step_by(10) {
        for through in [Through::Cloth, Through::Elastic] {
            let needle = Needle::for_cloth(f64::from(mass), through);
            let row = rows.iter().find(|r| r[0] == needle.size_nm.to_string()).unwrap();
            if through == Through::Cloth {
                let inside = match row[2].as_str() {
                    t if t.starts_with("under ") => f64::from(mass) < t[6..].parse().unwrap(),
                    t if t.starts_with("over ") => f64::from(mass) > t[5..].parse().unwrap(),
                    t => {
                        let (low, high) = band(t);
                        (low..=high).contains(&f64::from(mass))
                    }
                };
                // The lightest cloths take the finest of the two light needles, the heaviest the 90: a household has those.
                let is_end = (mass < 100 && needle.size_nm == 65) || (mass > 350 && needle.size_nm == 90);
                assert!(inside || is_end, "{mass} g/m2: {} {}", needle.size_nm, row[2]);
            }
            let is_stretch = needle.point == NeedlePoint::Stretch;
            assert_eq!(
                is_stretch,
                row[3].contains("HS"),
                "{mass}: {} {}",
                needle.size_nm,
                row[3]
            );
        }
    }
    // Twin needles: 75 and 80 only.
    for mass in [120.0, 200.0, 320.0] {
        let twin = Needle::for_cloth(mass, Through::Cloth).twin(Mm::new(4.0));
        assert!(
            rows.iter()
                .any(|r| r[0].starts_with(&format!("twin {}", twin.size_nm))),
            "{mass}"
        );
    }
}

/// Source: `data/trade/stitch_settings.csv`. Every setting of the table that a workroom of ours forms is one the plan may choose; it is
/// looked up by forcing it: a workroom that forms nothing else.
#[test]
fn settings_are_the_tables() {
    use make::{Machine, MachineKind, OverlockThreads, Workroom};
    let rows = rows(include_str!("../../../data/trade/stitch_settings.csv"));
    let find = |job: &str, stitch: &str| {
        rows.iter()
            .find(|r| r[0] == job && r[1].starts_with(stitch))
            .unwrap_or_else(|| panic!("{job} {stitch}"))
    };
    let overlock = |threads| {
        let mut machine = Machine::overlocker();
        machine.kind = MachineKind::Overlocker { threads };
        machine
    };
    let suit = &suits::SUITS[0];
    let chosen = |workroom: &Workroom, job: Job| {
        let plan = suit.plan(workroom);
        let choice = plan.stitches.iter().find(|s| s.job == job).unwrap();
        (
            choice.setting.stitch,
            choice.setting.width.get(),
            choice.setting.length.get(),
        )
    };
    let held = |row: &[String], setting: (Stitch, f64, f64)| {
        let (width, length): (f64, f64) = (row[2].parse().unwrap(), row[3].parse().unwrap());
        assert!(
            (setting.1 - width).abs() < 1e-9 && (setting.2 - length).abs() < 1e-9,
            "{row:?}: {setting:?}"
        );
    };
    let zigzag = Preset::Zigzag.workroom();
    held(
        find("side seam, zigzag machine", "304"),
        chosen(&zigzag, Job::Join),
    );
    held(
        find("turned elastic, topstitch", "321"),
        chosen(&zigzag, Job::EdgeTopstitch),
    );
    held(
        find("lining to outer, edge baste", "304"),
        chosen(&zigzag, Job::LayerBaste),
    );
    let four = Workroom::of(vec![Machine::zigzag(), overlock(OverlockThreads::ThreeOrFour)]);
    held(find("side seam, overlocker", "514"), chosen(&four, Job::Join));
    held(
        find("elastic to raw edge, first pass, overlocker", "504"),
        chosen(&four, Job::Anchor),
    );
    let cover = Preset::Coverstitch.workroom();
    held(
        find("turned elastic, cover", "406"),
        chosen(&cover, Job::EdgeTopstitch),
    );
    // Without the three-step: the plain zigzag of the same table.
    let mut plain = Machine::zigzag();
    plain.kind = MachineKind::Lockstitch {
        most_width: Mm::new(6.0),
        utility: Vec::new(),
        twin_needle: None,
    };
    let plain = Workroom::of(vec![plain]);
    held(
        find("turned elastic, topstitch", "304"),
        chosen(&plain, Job::EdgeTopstitch),
    );
    held(
        find("elastic to raw edge, first pass", "304"),
        chosen(&plain, Job::Anchor),
    );
}

/// Source: `data/trade/cups.csv`: "over lower limit, up to and including upper".
#[test]
fn cups_are_the_tables() {
    let rows = rows(include_str!("../../../data/trade/cups.csv"));
    assert_eq!(rows.len(), 9);
    for row in rows {
        let (low, high): (f64, f64) = (row[1].parse().unwrap(), row[2].parse().unwrap());
        for cm in [low + 0.1, 0.5 * (low + high), high] {
            let cup = cup_size(Mm::new(10.0 * cm)).unwrap();
            assert_eq!(cup.letter, row[0], "{cm}");
            assert_eq!((cup.width.0.get(), cup.width.1.get()), band(&row[3]));
            assert_eq!((cup.height.0.get(), cup.height.1.get()), band(&row[4]));
        }
    }
    assert!(cup_size(Mm::new(99.0)).is_none() && cup_size(Mm::new(281.0)).is_none());
}

/// Source: `data/trade/seams.csv` (ISO 4916, class names only).
#[test]
fn seam_classes_are_the_tables() {
    let rows = rows(include_str!("../../../data/trade/seams.csv"));
    for job in Job::ALL {
        let class = job.seam_class();
        let row = rows.iter().find(|r| r[1] == class.number.to_string()).unwrap();
        let word = class.key.trim_start_matches("seam_class.").replace('_', " ");
        let said = row[2].replace("for both edges controlled", "");
        let is_named = match class.number {
            6 => said.contains("finishing of a single ply"),
            7 => said.contains("attaching"),
            8 => said.contains("one ply"),
            _ => said.contains(&word),
        };
        assert!(is_named, "{word}: {said}");
    }
}

/// Source: `data/trade/heat.csv`: 110 for every swim knit; no iron at all on elastic, foam, net.
#[test]
fn an_iron_is_as_cool_as_the_table_says() {
    let rows = rows(include_str!("../../../data/trade/heat.csv"));
    let most = |material: &str| rows.iter().find(|r| r[0].starts_with(material)).unwrap()[1].clone();
    assert_eq!(most("polyamide/elastane swim knit"), "110");
    for never in [
        "clear polyurethane elastic",
        "rubber elastic",
        "foam cup",
        "power net",
    ] {
        assert_eq!(most(never), "none");
    }
    for suit in suits::SUITS.iter().step_by(5) {
        for step in suit.plan(&Preset::Coverstitch.workroom()).steps {
            let Some(press) = step.press else { continue };
            if step.id.starts_with("elastic.") || step.id.starts_with("turn.") || step.id == "join.cups" {
                assert_eq!(press.key, "press.never", "{}", step.id);
            }
            if let Some(make::Arg::Number(celsius, _)) = press.arg("celsius") {
                assert!(*celsius <= 110.0);
            }
        }
    }
}

/// Source: `data/trade/operations.csv`, common practice: the minutes of a whole unlined one-piece, the side seams and the leg elastic overlap
/// its ranges; the whole comes to about 3 to 7 hours there.
#[test]
fn minutes_overlap_the_operation_table() {
    let rows = rows(include_str!("../../../data/trade/operations.csv"));
    let range = |id: &str| {
        let row = rows.iter().find(|r| r[0] == id).unwrap();
        (row[5].parse::<f64>().unwrap(), row[6].parse::<f64>().unwrap())
    };
    let suit = &suits::SUITS[0];
    assert_eq!(suit.design.style, draft::Style::ONE_PIECE);
    for preset in [Preset::Zigzag, Preset::ZigzagOverlocker] {
        let plan = suit.plan(&preset.workroom());
        for (ids, row) in [
            (&["join.side"][..], "u3"),
            (&["elastic.leg"], "u7"),
            (&["elastic.neckline", "elastic.armhole"], "u8"),
            (&["turn.leg", "turn.neckline", "turn.armhole"], "u9"),
        ] {
            let of = plan.steps.iter().filter(|s| ids.contains(&s.id.as_str()));
            let (low, high) = of.fold((0.0, 0.0), |sum, s| (sum.0 + s.minutes.0, sum.1 + s.minutes.1));
            let (least, most) = range(row);
            assert!(
                low < most && high > least,
                "{preset:?} {row}: {low:.0}-{high:.0}, table {least}-{most}"
            );
        }
        let hours = (plan.minutes.0 / 60.0, plan.minutes.1 / 60.0);
        assert!(
            hours.0 > 2.0 && hours.0 < 4.5 && hours.1 > 5.0 && hours.1 < 10.0,
            "{hours:?}"
        );
    }
}
