//! Lists read back: every word on paper, nothing outside it, heads repeated, bars where their minutes are.

#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod readback;

use readback::pages;
use sheet::Paper;
use sheet::listing::{Bar, Chart, ChartRow, ListColumn, ListRow, ListTable, Listing, Part, pdf};

fn listing(rows: usize, is_landscape: bool) -> Listing {
    let table = ListTable {
        columns: vec![ListColumn::words("what", 3.0), ListColumn::figures("needed", 1.0)],
        rows: (0..rows)
            .map(|k| ListRow::of(vec![format!("Thing {k}"), format!("{k} m")]).with("From the lay."))
            .collect(),
        is_ticked: true,
    };
    Listing {
        language: "en".into(),
        title: "Bag list".into(),
        subtitle: "For Tove".into(),
        running: "Harbour class".into(),
        page_word: "page".into(),
        is_landscape,
        parts: vec![
            Part::Heading("To buy".into()),
            Part::Text("A sentence.".into()),
            Part::Caution {
                word: "take care".into(),
                says: "Not a flotation aid.".into(),
            },
            Part::Table(table),
            Part::Chart(Chart {
                minutes: 120,
                rows: vec![ChartRow {
                    name: "Overlocker".into(),
                    bars: vec![Bar {
                        from: 30,
                        to: 90,
                        labels: vec!["A 12".into()],
                        is_heavy: true,
                    }],
                }],
            }),
            Part::Write("Name".into()),
        ],
    }
}

#[test]
fn a_long_list_goes_on_with_its_head_on_every_page() {
    for (paper, size) in [(Paper::A4, (210.0, 297.0)), (Paper::Letter, (215.9, 279.4))] {
        let printed = pdf(&listing(60, false), paper).unwrap();
        assert!(printed.pages >= 3, "{} pages", printed.pages);
        assert!(printed.undrawn.is_empty());
        let read = pages(&printed.bytes);
        assert_eq!(read.len(), printed.pages);
        for page in &read {
            assert!((page.size.0 - size.0).abs() < 0.01 && (page.size.1 - size.1).abs() < 0.01);
            for path in &page.paths {
                let (x0, y0, x1, y1) = path.bounds();
                assert!(
                    x0 > 10.0 && y0 > 8.0 && x1 < size.0 - 10.0 && y1 < size.1 - 8.0,
                    "{x0} {y0} {x1} {y1}"
                );
            }
        }
    }
}

#[test]
fn the_same_list_gives_the_same_bytes() {
    let once = pdf(&listing(5, true), Paper::A4).unwrap();
    assert_eq!(once.bytes, pdf(&listing(5, true), Paper::A4).unwrap().bytes);
    assert_eq!(once.pages, 1);
}

/// A bar from minute 30 to 90 of 120 is half as wide as the chart and begins a quarter into it.
#[test]
fn a_bar_stands_where_its_minutes_are() {
    let printed = pdf(&listing(1, true), Paper::A4).unwrap();
    let page = &pages(&printed.bytes)[0];
    // The end of the session is the only upright line as heavy as a bar at a machine; the bar the only such box.
    let lines: Vec<(f64, f64, f64, f64)> = page.paths.iter().map(|p| p.bounds()).collect();
    let right = 297.0 - 15.0;
    let bar = lines
        .iter()
        .find(|(x0, y0, x1, y1)| (5.0..8.0).contains(&(y1 - y0)) && x1 - x0 > 80.0)
        .expect("the bar");
    let width = bar.2 - bar.0;
    let left = right - 2.0 * (width + 0.3);
    assert!(
        (bar.0 - (left + 0.25 * (right - left))).abs() < 0.5,
        "{bar:?} of {left} to {right}"
    );
}
