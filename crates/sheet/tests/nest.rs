//! A nested set read back: every size on its layer, at true scale, with a line of its own.

#![allow(clippy::unwrap_used, reason = "a test that cannot draw its nest must stop")]

mod readback;

use std::collections::BTreeSet;

use body::{BodyForm, Dimension, Dimensions};
use draft::Design;
use range::{BuiltIn, Grade, Nest, Range, SizeRow};
use readback::{Painted, pages};
use sheet::nest::{MOST_SIZES, NestRefusal, NestSheet, pdf, svg};
use sheet::{PieceForm, Roll};
use units::{Mm, Silent};

fn nest(sizes: &[&str]) -> Nest {
    let table = BuiltIn::Women
        .table()
        .unwrap()
        .with_same(Dimension::Stature, Mm::from_cm(168.0))
        .select(sizes)
        .unwrap();
    let cloth = fixtures::slate();
    Range::draft(&table, &cloth, &Design::default(), &Silent).nest()
}

fn sheet_of<'a>(nest: &'a Nest, form: PieceForm, roll: Roll) -> NestSheet<'a> {
    NestSheet {
        title: "Harbour one-piece",
        subtitle: "Slate tricot",
        nest,
        size_notes: &[],
        notes: &[],
        form,
        roll,
    }
}

fn extent(points: impl Iterator<Item = (f64, f64)>) -> (f64, f64) {
    let b = points.fold((f64::MAX, f64::MAX, f64::MIN, f64::MIN), |b, p| {
        (b.0.min(p.0), b.1.min(p.1), b.2.max(p.0), b.3.max(p.1))
    });
    (b.2 - b.0, b.3 - b.1)
}

/// Width and height of every piece of a size, in order of the nest.
fn wanted(nest: &Nest, size: usize, is_whole: bool) -> Vec<(f64, f64)> {
    nest.pieces
        .iter()
        .flat_map(|p| p.layers.iter().filter(|l| l.size == size))
        .map(|l| extent(l.shape(is_whole).cut_line.iter().map(|p| (p.x, p.y))))
        .collect()
}

/// Tolerance 0.01 mm: an `f32` of PDF points at 1 m is good to 0.00003 mm, the writer keeps some decimals less.
#[test]
fn each_size_is_on_its_layer_at_true_scale() {
    let nest = nest(&["88", "92", "100", "110"]);
    for (form, is_whole) in [(PieceForm::Whole, true), (PieceForm::Half, false)] {
        let printed = pdf(&sheet_of(&nest, form, Roll::Inch42)).unwrap();
        let all = pages(&printed.bytes);
        assert_eq!(all.len(), 1);
        assert!((all[0].size.0 - 1066.8).abs() < 0.01);
        assert_eq!(all[0].outside_layers, 0);
        for (i, name) in nest.sizes.iter().enumerate() {
            let layer = format!("size {name}");
            let closed: Vec<&Painted> = all[0]
                .paths
                .iter()
                .filter(|p| p.is_stroked && p.points.len() > 4 && p.layers.contains(&layer))
                .collect();
            let found: Vec<(f64, f64)> = closed.iter().map(|p| extent(p.points.iter().copied())).collect();
            for want in wanted(&nest, i, is_whole) {
                assert!(
                    found
                        .iter()
                        .any(|f| (f.0 - want.0).abs() < 0.01 && (f.1 - want.1).abs() < 0.01),
                    "{layer}: no line of {want:?} among {found:?}"
                );
            }
            assert_eq!(found.len(), nest.pieces.len());
            // Of no other size, and of the kind of cutting lines.
            for path in closed {
                let sizes = path.layers.iter().filter(|l| l.starts_with("size ")).count();
                assert_eq!(sizes, 1);
                assert!(path.layers.iter().any(|l| l == "cutting lines"));
            }
        }
    }
}

/// Pieces of one size lie over those of the next at the waist on the fold: the same point of the sheet for all.
#[test]
fn sizes_lie_over_each_other_at_fold_and_waist() {
    let nest = nest(&["88", "96"]);
    let text = svg(&sheet_of(&nest, PieceForm::Whole, Roll::Inch42))
        .unwrap()
        .remove(0);
    let doc = roxmltree::Document::parse(&text).unwrap();
    let front = nest.pieces.iter().position(|p| p.key == "front").unwrap();
    let mut folds = Vec::new();
    let mut waists = Vec::new();
    for (i, name) in nest.sizes.iter().enumerate() {
        let group = doc
            .descendants()
            .find(|n| n.attribute("data-size") == Some(name))
            .unwrap();
        let want = extent(
            nest.pieces[front].layers[i]
                .shape(true)
                .cut_line
                .iter()
                .map(|p| (p.x, p.y)),
        );
        let outline = group
            .descendants()
            .filter(|n| n.has_tag_name("path") && n.attribute("stroke-width") == Some("0.35"))
            .map(|n| points(n.attribute("d").unwrap()))
            .find(|p| {
                let e = extent(p.iter().copied());
                (e.0 - want.0).abs() < 0.001 && (e.1 - want.1).abs() < 0.001
            })
            .unwrap();
        let xs = outline.iter().map(|p| p.0);
        let (left, right) = (xs.clone().fold(f64::MAX, f64::min), xs.fold(f64::MIN, f64::max));
        folds.push(0.5 * (left + right));
        let top = outline.iter().map(|p| p.1).fold(f64::MAX, f64::min);
        let highest = nest.pieces[front].layers[i]
            .shape(true)
            .cut_line
            .iter()
            .map(|p| p.y)
            .fold(f64::MIN, f64::max);
        waists.push(top + highest);
    }
    assert!((folds[0] - folds[1]).abs() < 0.001, "{folds:?}");
    assert!((waists[0] - waists[1]).abs() < 0.001, "{waists:?}");
    let root = doc.root_element();
    assert_eq!(root.attribute("width"), Some("1066.8mm"));
    assert!(root.attribute("viewBox").unwrap().starts_with("0 0 1066.8 "));
}

fn points(d: &str) -> Vec<(f64, f64)> {
    let numbers: Vec<f64> = d
        .split(|c: char| c.is_alphabetic() || c == ' ')
        .filter_map(|t| t.parse().ok())
        .collect();
    numbers.chunks_exact(2).map(|c| (c[0], c[1])).collect()
}

/// No colour: black lines alone, each size with a rhythm of its own, the legend with the same.
#[test]
fn lines_differ_without_colour() {
    let nest = nest(&[
        "76", "80", "84", "88", "92", "96", "100", "104", "110", "116", "122", "128",
    ]);
    let text = svg(&sheet_of(&nest, PieceForm::Half, Roll::Inch42))
        .unwrap()
        .remove(0);
    let doc = roxmltree::Document::parse(&text).unwrap();
    let style = |n: &roxmltree::Node<'_, '_>| {
        (
            n.attribute("stroke-width").unwrap_or_default().to_owned(),
            n.attribute("stroke-dasharray").unwrap_or_default().to_owned(),
        )
    };
    let mut seen = BTreeSet::new();
    for name in &nest.sizes {
        let group = doc
            .descendants()
            .find(|n| n.attribute("data-size") == Some(name))
            .unwrap();
        let own: BTreeSet<_> = group
            .descendants()
            // Outlines; notches and crosses are two points, a name's ground is filled.
            .filter(|n| n.has_tag_name("path") && points(n.attribute("d").unwrap()).len() > 4)
            .filter(|n| n.attribute("stroke") != Some("none"))
            .map(|n| style(&n))
            .collect();
        assert_eq!(own.len(), 1, "{name}: {own:?}");
        seen.extend(own);
    }
    assert_eq!(seen.len(), 12);
    let common = doc
        .descendants()
        .find(|n| n.attribute("class") == Some("common"))
        .unwrap();
    let legend: BTreeSet<_> = common
        .descendants()
        .filter(|n| n.has_tag_name("path"))
        .map(|n| style(&n))
        .collect();
    assert!(seen.iter().all(|s| legend.contains(s)));
    for attribute in ["stroke", "fill"] {
        for node in doc.descendants() {
            let colour = node.attribute(attribute).unwrap_or("none");
            assert!(matches!(colour, "none" | "#000" | "#fff"), "{colour}");
        }
    }
}

#[test]
fn a0_sheets_hold_every_piece_and_the_same_nest_gives_the_same_bytes() {
    let nest = nest(&["88", "100", "116"]);
    let sheet = sheet_of(&nest, PieceForm::Whole, Roll::A0);
    let printed = pdf(&sheet).unwrap();
    let all = pages(&printed.bytes);
    assert_eq!(all.len(), printed.pages);
    let closed: usize = all
        .iter()
        .flat_map(|p| &p.paths)
        .filter(|p| p.is_closed && p.is_stroked && p.layers.iter().any(|l| l.starts_with("size ")))
        .count();
    assert_eq!(closed, 3 * nest.pieces.len());
    assert!(printed.undrawn.is_empty());
    assert!(printed.bytes == pdf(&sheet).unwrap().bytes);
}

#[test]
fn what_cannot_be_drawn_is_refused_with_what_to_do() {
    let empty = Nest {
        sizes: Vec::new(),
        pieces: Vec::new(),
        refused: Vec::new(),
    };
    assert_eq!(
        pdf(&sheet_of(&empty, PieceForm::Half, Roll::A0)).unwrap_err(),
        NestRefusal::NoSizes
    );
    let mut crowd = nest(&["88"]);
    crowd.sizes = (0..=MOST_SIZES).map(|i| i.to_string()).collect();
    let error = pdf(&sheet_of(&crowd, PieceForm::Half, Roll::A0)).unwrap_err();
    assert!(
        error.to_string().contains("at most 32 lines are told apart"),
        "{error}"
    );
    let large = nest(&["128"]);
    let error = pdf(&sheet_of(&large, PieceForm::Whole, Roll::Inch24)).unwrap_err();
    assert!(matches!(error, NestRefusal::PieceTooLarge { .. }), "{error}");
}

/// A size named in another script keeps its name in the list of layers and in the SVG.
#[test]
fn names_of_any_script_reach_the_layers() {
    let mut taken = Dimensions::default();
    for (d, cm) in [
        (Dimension::Stature, 165.0),
        (Dimension::BustGirth, 92.0),
        (Dimension::WaistGirth, 76.0),
        (Dimension::HipGirth, 100.0),
    ] {
        taken.set(d, Mm::from_cm(cm));
    }
    let row = SizeRow::new("größe <M>", &taken, Grade::Own);
    let mut table = BuiltIn::Women.table().unwrap();
    assert_eq!(table.form, BodyForm::Woman);
    table = table.with_rows(vec![row]);
    let cloth = fixtures::slate();
    let nest = Range::draft(&table, &cloth, &Design::default(), &Silent).nest();
    let sheet = sheet_of(&nest, PieceForm::Half, Roll::Inch42);
    let bytes = pdf(&sheet).unwrap().bytes;
    let file = lopdf::Document::load_mem(&bytes).unwrap();
    let names: Vec<String> = file
        .objects
        .values()
        .filter_map(|o| o.as_dict().ok())
        .filter(|d| {
            d.get(b"Type")
                .and_then(|t| t.as_name())
                .is_ok_and(|t| t == b"OCG")
        })
        .filter_map(|d| lopdf::decode_text_string(d.get(b"Name").ok()?).ok())
        .collect();
    assert!(names.iter().any(|n| n == "size größe <M>"), "{names:?}");
    let text = svg(&sheet).unwrap().remove(0);
    assert!(text.contains("data-size=\"größe &lt;M&gt;\""));
}
