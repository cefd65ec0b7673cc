//! SVG, DXF and JSON against the draft and against each other.
//!
//! The SVG is read by an XML parser, the DXF by a reader that is told nothing of our layout; JSON is compared with the
//! draft itself.

#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod suits;

use draft::{Design, Draft};
use dxf::entities::EntityType;
use sheet::{PieceForm, dxf as ours, json, svg};
use suits::Suit;

type Points = Vec<(f64, f64)>;

/// JSON carries 0.001 mm, SVG and DXF 0.0001 mm.
const TOLERANCE_MM: f64 = 0.0012;

fn cut_lines(suit: &Suit, form: PieceForm) -> Vec<(String, Points)> {
    let text = json::pattern(&suit.pattern(), form).unwrap();
    let value: serde_json::Value = serde_json::from_str(&text).unwrap();
    value["pieces"]
        .as_array()
        .unwrap()
        .iter()
        .map(|p| {
            let points = p["cut_line"].as_array().unwrap().iter();
            let points = points
                .map(|q| (q[0].as_f64().unwrap(), q[1].as_f64().unwrap()))
                .collect();
            (p["key"].as_str().unwrap().to_owned(), points)
        })
        .collect()
}

/// Whether two runs are the same but for a shift; `up` is -1 where y was turned over.
fn same_shape(a: &Points, b: &Points, up: f64) -> bool {
    a.len() == b.len()
        && a.iter().zip(b).all(|(p, q)| {
            let dx = (p.0 - a[0].0) - (q.0 - b[0].0);
            let dy = (p.1 - a[0].1) - up * (q.1 - b[0].1);
            dx.hypot(dy) < 2.0 * TOLERANCE_MM
        })
}

fn odile() -> Suit {
    let design = Design {
        skirt: Some(draft::Skirt::default_for_tests()),
        cups: draft::Cups::Pocket,
        lining: draft::LiningCover::Full,
        ..Design::default()
    };
    suits::suit("Odile’s <suit> & skirt", "Odile", "large_cup", &design)
}

trait ForTests {
    fn default_for_tests() -> Self;
}

impl ForTests for draft::Skirt {
    fn default_for_tests() -> draft::Skirt {
        draft::Skirt {
            kind: draft::SkirtKind::HalfCircle,
            join: draft::SkirtJoin::Waist,
            cover: units::Mm::new(40.0),
        }
    }
}

#[test]
fn json_is_the_draft() {
    let suit = odile();
    let value: serde_json::Value =
        serde_json::from_str(&json::pattern(&suit.pattern(), PieceForm::Whole).unwrap()).unwrap();
    let draft: &Draft = &suit.draft;
    assert_eq!(value["format"], "slackwater-pattern/1");
    for (piece, written) in draft.pieces.iter().zip(value["pieces"].as_array().unwrap()) {
        let shape = piece.whole();
        let points = written["cut_line"].as_array().unwrap();
        assert_eq!(points.len(), shape.cut_line.len());
        for (p, q) in shape.cut_line.iter().zip(points) {
            assert!((p.x - q[0].as_f64().unwrap()).abs() <= 0.000_51);
            assert!((p.y - q[1].as_f64().unwrap()).abs() <= 0.000_51);
        }
        let edges = written["edges"].as_array().unwrap();
        assert_eq!(edges.len(), shape.seam_line.len());
        for (edge, e) in shape.seam_line.iter().zip(edges) {
            assert!((edge.curve.length() - e["length_mm"].as_f64().unwrap()).abs() < 0.001);
            assert_eq!(e["cubics"].as_array().unwrap().len(), edge.curve.cubics().len());
        }
        assert_eq!(written["notches"].as_array().unwrap().len(), shape.notches.len());
        assert_eq!(written["marks"].as_array().unwrap().len(), shape.marks.len());
    }
    assert_eq!(value["seams"].as_array().unwrap().len(), draft.seams.len());
    assert_eq!(value["elastic"].as_array().unwrap().len(), draft.open_edges.len());
    assert_eq!(value["finished"].as_array().unwrap().len(), draft.finished.len());
    let text = serde_json::to_string(&value).unwrap();
    assert!(
        !text.contains("-0.0,") && !text.contains("-0.0]"),
        "no negative zero"
    );
}

#[test]
fn svg_is_well_formed_in_millimetres_with_the_exact_cut_lines() {
    let suit = odile();
    for form in [PieceForm::Whole, PieceForm::Half] {
        let text = svg::pattern(&suit.pattern(), form).unwrap();
        let tree = roxmltree::Document::parse(&text).unwrap();
        let root = tree.root_element();
        let size = |name: &str| {
            root.attribute(name)
                .unwrap()
                .strip_suffix("mm")
                .unwrap()
                .to_owned()
        };
        assert_eq!(
            root.attribute("viewBox").unwrap(),
            format!("0 0 {} {}", size("width"), size("height"))
        );
        for (key, drafted) in cut_lines(&suit, form) {
            let group = tree
                .descendants()
                .find(|n| n.attribute("id") == Some(key.as_str()))
                .unwrap_or_else(|| panic!("no group {key}"));
            let cut = group
                .children()
                .find(|n| n.attribute("class") == Some("cut"))
                .unwrap();
            let d = cut.attribute("d").unwrap().trim_end_matches('Z');
            let drawn: Points = d
                .split(['M', 'L'])
                .filter(|t| !t.is_empty())
                .map(|t| {
                    let (x, y) = t.split_once(' ').unwrap();
                    (x.parse().unwrap(), y.parse().unwrap())
                })
                .collect();
            assert!(same_shape(&drawn, &drafted, -1.0), "{key} is not as drafted");
            let inside = |v: f64, size: String| v >= 0.0 && v <= size.parse::<f64>().unwrap();
            assert!(
                drawn
                    .iter()
                    .all(|p| inside(p.0, size("width")) && inside(p.1, size("height")))
            );
            let seams = group
                .children()
                .filter(|n| n.attribute("class") == Some("seam"))
                .count();
            let piece = suit.draft.pieces.iter().find(|p| p.key == key).unwrap();
            let shape = if form == PieceForm::Whole {
                piece.whole()
            } else {
                piece.as_drafted()
            };
            assert_eq!(seams, shape.seam_line.len());
        }
    }
}

#[test]
fn the_page_map_names_every_printed_tile() {
    let suit = odile();
    let text = svg::page_map(&suit.pattern(), sheet::Paper::A4, &sheet::Options::default()).unwrap();
    let tree = roxmltree::Document::parse(&text).unwrap();
    let class = |name: &str| {
        tree.descendants()
            .filter(|n| n.attribute("class") == Some(name))
            .count()
    };
    let printed = sheet::pdf::tiled(&suit.pattern(), sheet::Paper::A4, &sheet::Options::default()).unwrap();
    assert_eq!(class("tile"), printed.tiles.unwrap().printed);
    assert_eq!(class("outline"), suit.draft.pieces.len());
}

fn load(bytes: &[u8]) -> dxf::Drawing {
    dxf::Drawing::load(&mut std::io::Cursor::new(bytes)).unwrap()
}

#[test]
fn the_cutters_file_has_closed_cut_lines_in_millimetres() {
    let suit = odile();
    let bytes = ours::cutter(&suit.pattern(), PieceForm::Whole).unwrap();
    let drawing = load(&bytes);
    assert_eq!(drawing.header.version, dxf::enums::AcadVersion::R2007);
    assert_eq!(
        drawing.header.default_drawing_units,
        dxf::enums::Units::Millimeters
    );
    let cuts: Vec<Points> = drawing
        .entities()
        .filter(|e| e.common.layer == "cut")
        .map(|e| match &e.specific {
            EntityType::LwPolyline(p) => {
                assert!(p.is_closed());
                p.vertices.iter().map(|v| (v.x, v.y)).collect()
            }
            other => panic!("{other:?} on the layer of cut lines"),
        })
        .collect();
    let drafted = cut_lines(&suit, PieceForm::Whole);
    assert_eq!(cuts.len(), drafted.len());
    for ((key, drafted), cut) in drafted.iter().zip(&cuts) {
        assert!(same_shape(cut, drafted, 1.0), "{key} is not as drafted");
    }
    let text = String::from_utf8(bytes).unwrap();
    assert!(text.contains("Odile’s <suit>"), "text is UTF-8");
    assert!(
        text.contains("$TDCREATE\r\n 40\r\n2451545.0\r\n"),
        "no time of writing"
    );
}

#[test]
fn the_exchange_file_has_one_block_a_piece_in_seven_bits() {
    let suit = odile();
    for form in [PieceForm::Whole, PieceForm::Half] {
        let bytes = ours::exchange(&suit.pattern(), form).unwrap();
        assert!(bytes.is_ascii());
        assert!(bytes.split(|b| *b == b'\n').all(|line| line.len() <= 257));
        let drawing = load(&bytes);
        assert_eq!(drawing.header.version, dxf::enums::AcadVersion::R12);
        let drafted = cut_lines(&suit, form);
        let blocks: Vec<_> = drawing.blocks().collect();
        assert_eq!(blocks.len(), drafted.len());
        for (block, (key, drafted)) in blocks.iter().zip(&drafted) {
            assert_eq!(block.name, key.to_uppercase());
            let on = |layer: &'static str| block.entities.iter().filter(move |e| e.common.layer == layer);
            let boundary: Vec<Points> = on("1")
                .filter_map(|e| match &e.specific {
                    EntityType::Polyline(p) => {
                        Some(p.vertices().map(|v| (v.location.x, v.location.y)).collect())
                    }
                    _ => None,
                })
                .collect();
            assert_eq!(boundary.len(), 1);
            assert!(same_shape(&boundary[0], drafted, 1.0), "{key} is not as drafted");
            assert_eq!(on("7").count(), 1, "one grain line");
            assert!(on("14").count() >= 1, "sew lines");
            assert!(
                on("15").any(|e| matches!(&e.specific, EntityType::Text(t) if t.value.contains("stretch")))
            );
        }
        // Corners of a front: at least shoulder, underarm, side foot and crotch ends, no more than a dozen a side.
        let turns = blocks[0]
            .entities
            .iter()
            .filter(|e| e.common.layer == "2")
            .count();
        assert!((5..=24).contains(&turns), "{turns} turn points");
        let mirror = blocks[0]
            .entities
            .iter()
            .filter(|e| e.common.layer == "6")
            .count();
        assert_eq!(
            mirror,
            usize::from(form == PieceForm::Half),
            "only a half has a mirror line"
        );
        let inserts: Vec<String> = drawing
            .entities()
            .filter_map(|e| match &e.specific {
                EntityType::Insert(i) => Some(i.name.clone()),
                _ => None,
            })
            .collect();
        assert_eq!(inserts, blocks.iter().map(|b| b.name.clone()).collect::<Vec<_>>());
    }
}

#[test]
fn the_same_suit_gives_the_same_files() {
    let (a, b) = (odile(), odile());
    let form = PieceForm::Whole;
    assert_eq!(
        json::pattern(&a.pattern(), form).unwrap(),
        json::pattern(&b.pattern(), form).unwrap()
    );
    assert_eq!(
        svg::pattern(&a.pattern(), form).unwrap(),
        svg::pattern(&b.pattern(), form).unwrap()
    );
    assert_eq!(
        ours::cutter(&a.pattern(), form).unwrap(),
        ours::cutter(&b.pattern(), form).unwrap()
    );
    assert_eq!(
        ours::exchange(&a.pattern(), form).unwrap(),
        ours::exchange(&b.pattern(), form).unwrap()
    );
}
