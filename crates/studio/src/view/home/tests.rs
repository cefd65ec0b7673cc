//! The first page of the example suits; set `SILHOUETTES` to a folder to look at them.

use serde_json::json;

use super::*;
use crate::view::examples::{example, names, paper, with};

fn shelves() -> Shelves {
    let suits: Vec<(std::sync::Arc<Worked>, usize)> = names()
        .iter()
        .enumerate()
        .map(|(i, name)| {
            let worked = with(&example(name), "suit", |s| s["number"] = json!(14 + i));
            (worked.into(), 0)
        })
        .collect();
    Shelves {
        wearers: suits.iter().filter_map(|(w, _)| w.wearer.clone()).collect(),
        cloths: suits.iter().filter_map(|(w, _)| w.shell.clone()).collect(),
        suits,
        has_example: true,
        today: "2026-11-26".to_owned(),
        ..Shelves::default()
    }
}

/// The paths of a silhouette as a drawing of its own.
fn svg(silhouette: &Silhouette) -> String {
    let f = &silhouette.frame;
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"300\" height=\"420\" viewBox=\"{} {} {} {}\"><g stroke=\"#1D2830\" stroke-width=\"4\" stroke-linejoin=\"round\">",
        f.x - 20.0,
        f.y - 60.0,
        f.width + 40.0,
        f.height + 80.0
    );
    for part in &silhouette.parts {
        out += &format!("<path d=\"{}\" fill=\"{}\"/>", part.path, part.look.colour);
    }
    for peg in &silhouette.pegs {
        out += &format!(
            "<path d=\"M{peg} {}v-50\" fill=\"none\" stroke-width=\"10\"/>",
            f.y + 10.0
        );
    }
    out + "</g></svg>"
}

#[test]
fn every_example_hangs_on_the_line() {
    let mut page = String::from("<body style=\"background:#F0F0E9;display:flex;flex-wrap:wrap\">");
    for name in names() {
        let worked = example(&name);
        let silhouette = silhouette::of(&worked).unwrap_or_else(|| panic!("{name}"));
        assert!(
            silhouette.frame.height > 150.0 && silhouette.frame.width > 200.0,
            "{name}: {:?}",
            silhouette.frame
        );
        assert!(silhouette.parts.first().unwrap().is_inside && !silhouette.parts.last().unwrap().is_inside);
        assert_eq!(silhouette.pegs.len(), 2);
        for part in &silhouette.parts {
            assert!(
                part.path.starts_with('M') && part.path.ends_with('Z') && !part.path.contains("NaN"),
                "{name}"
            );
        }
        let f = &silhouette.frame;
        assert!(
            silhouette.pegs.iter().all(|x| *x > f.x && *x < f.x + f.width),
            "{name}"
        );
        // Left and right are the same suit.
        assert!((f.x + 0.5 * f.width).abs() < 1.0, "{name}: {f:?}");
        page += &svg(&silhouette);
        println!(
            "{name}: {} bytes",
            serde_json::to_string(&silhouette).unwrap().len()
        );
    }
    if let Some(folder) = std::env::var_os("SILHOUETTES") {
        std::fs::write(std::path::Path::new(&folder).join("silhouettes.html"), page).unwrap();
    }
}

#[test]
fn a_skirt_covers_the_join_and_hangs_as_long_as_it_was_drafted() {
    let worked = example("odile-skirted");
    let silhouette = silhouette::of(&worked).unwrap();
    let finished = &worked.order.as_ref().unwrap().draft.finished;
    let length = finished
        .iter()
        .find(|f| f.name.starts_with("skirt, join"))
        .unwrap()
        .value_mm;
    let skirt = silhouette.parts.last().unwrap();
    let heights: Vec<f64> = skirt.path[1..skirt.path.len() - 1]
        .split('L')
        .map(|p| p.split_once(' ').unwrap().1.parse().unwrap())
        .collect();
    let (top, low) = heights
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), y| {
            (a.min(*y), b.max(*y))
        });
    assert!(
        (low - top - length).abs() < 0.06 * length,
        "{} {length}",
        low - top
    );
}

#[test]
fn the_first_page_reads_well() {
    let mut shelves = shelves();
    // The last order is Tove's, who works in inches.
    shelves.suits.retain(|(w, _)| suit::number(w) < 18);
    let view = home(&shelves);
    let numbers: Vec<u32> = view.suits.iter().map(|s| s.number).collect();
    assert!(numbers.windows(2).all(|w| w[0] > w[1]), "{numbers:?}");
    let maren = view.suits.iter().find(|s| s.wearer == "Maren").unwrap();
    assert_eq!(maren.about, "One-piece, racer back, lined. Slate tricot.");
    assert!(maren.words.contains("racer") && maren.words.contains("slate"));
    let odile = view
        .suits
        .iter()
        .find(|s| s.about.starts_with("Skirted"))
        .unwrap();
    assert_eq!(odile.wearer, "Odile");
    assert!(view.lead.starts_with("Four suits on the line."), "{}", view.lead);
    let slate = view.cloths.iter().find(|c| c.name == "Slate tricot").unwrap();
    assert_eq!(
        slate.about,
        "Shell. 60 % across, 80 % along. 190 g/m², 150 cm wide."
    );
    assert_eq!(
        slate.cross.map(|c| c.map(|s| (s * 100.0).round())),
        Some([60.0, 80.0])
    );
    let line = view.wearers.iter().find(|w| w.name == "Maren").unwrap();
    assert_eq!(
        (line.about.as_str(), line.says.as_str()),
        ("Woman, 34 years.", "18 of 18")
    );
    let shelf: Vec<&str> = view.shelf.iter().map(|s| s.id.as_str()).collect();
    assert_eq!(shelf, ["samples", "drawer", "workroom", "classes", "ranges"]);
    for suit in &view.suits {
        println!("{} {}: {} {}", suit.number, suit.name, suit.about, suit.says);
    }
}

#[test]
fn an_empty_workroom_says_what_to_do() {
    let view = home(&Shelves::default());
    assert!(
        view.lead.starts_with("Nothing on the line yet. Start a suit"),
        "{}",
        view.lead
    );
    assert!(view.suits.is_empty() && view.shelf.len() == 5);
    assert_eq!(view.shelf[2].state, State::Missing);
}

#[test]
fn a_suit_without_a_wearer_waits_for_one() {
    let worked = example("maren-one-piece");
    let bare = crate::document::work(
        worked.suit,
        crate::document::Linked {
            shell: worked.shell,
            lining: worked.lining,
            ..Default::default()
        },
    );
    let shelves = Shelves {
        suits: vec![(bare.into(), 0)],
        ..Shelves::default()
    };
    let view = home(&shelves);
    assert_eq!(view.suits[0].state, State::Missing);
    assert_eq!(view.suits[0].silhouette, None);
}

#[test]
fn the_shelf_counts_what_is_on_it() {
    let sample = |of: &str, verdict: &str| paper("s", "sample", json!({ "of": of, "verdict": verdict }));
    let shelves = Shelves {
        samples: vec![
            sample("stitch", "good"),
            sample("stitch", "not yet"),
            sample("iron", "good"),
        ],
        workroom: Some(paper(
            "workroom",
            "workroom",
            json!({
                "machines": [{ "name": "zigzag machine" }], "paper": "A4", "measured_square": [99.8, 100.1]
            }),
        )),
        elastics: vec![paper(
            "e",
            "elastic",
            json!({ "kind": "knitted", "width": "10 mm", "stock": "1.4 m" }),
        )],
        ..Shelves::default()
    };
    let view = home(&shelves);
    assert_eq!(
        (view.shelf[0].about.as_str(), view.shelf[0].says.as_str()),
        ("Two stitch tests and one iron test.", "2 good")
    );
    assert_eq!(view.shelf[2].about, "Zigzag machine, paper A4.");
    assert_eq!(view.shelf[2].state, State::Good);
    // As the order writes it, a side at a time.
    for (square, state) in [
        (json!({"across": "99.8 mm", "down": "100 mm"}), State::Good),
        (json!({"across": "99.8 mm"}), State::Missing),
    ] {
        let shelves = Shelves {
            workroom: Some(paper(
                "workroom",
                "workroom",
                json!({"machines": [{ "name": "zigzag machine" }], "square": square}),
            )),
            ..Shelves::default()
        };
        assert_eq!(home(&shelves).shelf[2].state, state, "{square}");
    }
    assert_eq!(view.elastics[0].about, "Knitted, 10 mm. Works to 80 %.");
    assert_eq!(view.elastics[0].says, "1.4 m left");
}
