//! A pull in one direction: what was read, how far the cloth went and how much of it came back.

use cloth::{DirectionTest, LEAST_RECOVERY, Layer, MOST_GROWTH, Swatch, SwatchRecord, Tested};
use serde_json::Value as Json;
use units::LengthUnit;

use super::PullView;
use super::field::{Kind, Sheet, bare, needed};
use crate::view::told::{text_at, typed};
use crate::view::{State, percent};

/// What stands at `path` of a document as a test; `None` while it is incomplete or no test.
pub(in crate::view) fn test_of(body: &Json, path: &str, unit: LengthUnit) -> Option<DirectionTest> {
    let text = |key: &str| text_at(body, &format!("{path}.{key}"));
    let mm = |key: &str| text(key).and_then(|t| typed(&t, unit)).map(|(mm, _)| mm.get());
    let number = |key: &str| text(key).and_then(|t| t.trim_end_matches('%').trim().parse().ok());
    if let Some(stretch) = number("stretch") {
        return Some(DirectionTest::Percent {
            stretch,
            recovery: number("recovery"),
        });
    }
    Some(DirectionTest::Lengths {
        rest_mm: mm("rest")?,
        pulled_mm: mm("pulled")?,
        after_mm: mm("back_to"),
    })
}

/// The numbers of a test as the cloth crate checks them; `None` when it refuses them.
pub(in crate::view) fn tested(test: DirectionTest) -> Option<Tested> {
    // One pull on its own is judged as a cloth that stretches alike both ways.
    let mut record = SwatchRecord::of_hand_test("one pull", Layer::Shell, 0.0, 0.0);
    record.along = test;
    record.across = test;
    Swatch::new(record).ok().map(|swatch| swatch.along())
}

/// The pull written at `path` (`across`, `tested_together.around`), asked about under `of` (`shell`).
pub(super) fn view(sheet: &Sheet<'_>, path: &str, of: &str) -> PullView {
    let direction = path.rsplit('.').next().unwrap_or(path);
    let test = test_of(sheet.body, path, sheet.unit);
    let numbers = test.and_then(tested);
    let is_wrong = sheet
        .wrong
        .iter()
        .any(|at| at == path || at.starts_with(&format!("{path}.")));
    let state = match numbers {
        _ if is_wrong => State::Stop,
        None => State::Missing,
        Some(tested) => match (tested.recovery, tested.growth()) {
            (Some(recovery), Some(growth)) if recovery >= LEAST_RECOVERY && growth <= MOST_GROWTH => {
                State::Good
            }
            _ => State::Doubtful,
        },
    };
    let (drawn, drawn_back) = drawn(test, numbers);
    PullView {
        direction: direction.to_owned(),
        fields: fields(sheet, path),
        stretch: numbers.map(|t| percent(t.stretch.ratio()).why(format!("stretch.{of}.{direction}"))),
        recovery: numbers
            .and_then(|t| t.recovery)
            .map(|recovery| percent(recovery).why(format!("recovery.{of}.{direction}"))),
        drawn,
        drawn_back,
        says: test.map_or_else(|| "Not pulled yet.".to_owned(), |test| says(test, sheet.unit)),
        state,
    }
}

/// Pulled and back to, over the length at rest.
fn drawn(test: Option<DirectionTest>, numbers: Option<Tested>) -> (Option<f64>, Option<f64>) {
    let Some(tested) = numbers else {
        return (None, None);
    };
    let back = match test {
        Some(DirectionTest::Lengths {
            rest_mm, after_mm, ..
        }) => after_mm.map(|after| after / rest_mm),
        _ => tested.growth().map(|growth| 1.0 + growth),
    };
    let hundredths = |x: f64| (x * 1000.0).round() / 1000.0;
    (
        Some(hundredths(1.0 + tested.stretch.ratio())),
        back.map(hundredths),
    )
}

/// `10 pulled to 18.5, back to 10.3`.
fn says(test: DirectionTest, unit: LengthUnit) -> String {
    let bare = |mm: f64| bare(units::Mm::new(mm), unit);
    match test {
        DirectionTest::Lengths {
            rest_mm,
            pulled_mm,
            after_mm,
        } => {
            let pulled = format!("{} pulled to {}", bare(rest_mm), bare(pulled_mm));
            match after_mm {
                Some(after) => format!("{pulled}, back to {}", bare(after)),
                None => format!("{pulled}, not read after"),
            }
        }
        DirectionTest::Percent { recovery: None, .. } => "a per cent from a label".to_owned(),
        DirectionTest::Percent { .. } => "per cents from a label or a laboratory".to_owned(),
    }
}

fn fields(sheet: &Sheet<'_>, path: &str) -> Vec<crate::view::Field> {
    let at = |key: &str| format!("{path}.{key}");
    if text_at(sheet.body, &at("stretch")).is_some() {
        let number = Kind::Number("%", "per cent");
        return vec![
            sheet.field(
                &at("stretch"),
                "Stretch",
                "By how much it goes further than at rest.",
                number,
                "stretch",
            ),
            sheet.field(
                &at("recovery"),
                "Recovery",
                "The share of the stretch that goes back.",
                number,
                "recovery",
            ),
        ];
    }
    vec![
        needed(sheet.field(
            &at("rest"),
            "At rest",
            "Between two marks on the cloth lying loose, 10 cm or more.",
            Kind::Length,
            "rest",
        )),
        needed(sheet.field(
            &at("pulled"),
            "Pulled",
            "Between the same marks, pulled until it resists sharply.",
            Kind::Length,
            "pulled",
        )),
        sheet.field(
            &at("back_to"),
            "Back to",
            "Between the same marks a minute after letting go.",
            Kind::Length,
            "back_to",
        ),
    ]
}
