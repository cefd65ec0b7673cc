//! What is proposed for what a wearer says: each proposal belongs to the suit, and pins change the width by what they take.
//!
//! Source of the geometry of pins: a pin that takes t takes it off front and back, at both sides. The remedies: common practice, no
//! single source.

#![allow(clippy::unwrap_used, reason = "a test helper")]

use body::{Body, BodyForm};
use cloth::{ClothPlan, Fit};
use draft::{Cups, Design, Draft, Seat, Style, draft};
use fit::try_on::{Change, Complaint, about, fit_as_pinned};
use fit::{ElasticAssumption, FitReport, judge};
use units::Level;

fn body() -> Body {
    fixtures::completed(&fixtures::woman(fixtures::AVERAGE))
}

fn cloth() -> ClothPlan {
    fixtures::slate()
}

fn suit(design: &Design) -> (Draft, FitReport) {
    let drafted = draft(&body(), &cloth(), design).unwrap();
    let report = judge(&body(), &cloth(), &drafted, &ElasticAssumption::default());
    (drafted, report)
}

#[test]
fn every_complaint_of_a_suit_has_a_remedy_with_its_reason() {
    for style in Style::all().iter().filter(|s| s.is_for(BodyForm::Woman)) {
        let design = Design::of(*style);
        let (drafted, report) = suit(&design);
        let of_suit: Vec<_> = Complaint::ALL
            .into_iter()
            .filter(|c| c.is_of(&design, &drafted))
            .collect();
        assert!(of_suit.len() >= 3, "{style:?}: {of_suit:?}");
        for complaint in of_suit {
            let remedies = about(complaint, &design, &drafted, &report);
            assert!(!remedies.is_empty(), "{style:?}: {complaint:?}");
            for remedy in remedies {
                assert!(!remedy.says.is_empty() && !remedy.why.is_empty(), "{complaint:?}");
                // What is proposed is another value than the one in force.
                match remedy.change {
                    Some(Change::Seat(seat)) => assert_ne!(seat, design.seat),
                    Some(Change::Fit(fit)) => assert_ne!(fit, design.fit),
                    Some(Change::Cups(cups)) => assert_ne!(cups, design.cups),
                    _ => {}
                }
            }
        }
    }
}

#[test]
fn a_seat_that_is_full_is_not_made_full() {
    let full = Design::default();
    let (drafted, report) = suit(&full);
    let says = |design: &Design| about(Complaint::RidesUpBehind, design, &drafted, &report);
    assert!(
        says(&full)
            .iter()
            .all(|r| !matches!(r.change, Some(Change::Seat(_))))
    );
    let cheeky = Design {
        seat: Seat::Cheeky,
        ..full
    };
    assert_eq!(says(&cheeky)[0].change, Some(Change::Seat(Seat::Moderate)));
}

#[test]
fn a_suit_without_cups_may_get_some() {
    let design = Design::default();
    let (drafted, report) = suit(&design);
    let all = about(Complaint::BustNotHeld, &design, &drafted, &report);
    assert!(all.iter().any(|r| r.change == Some(Change::Cups(Cups::Marks))));
}

#[test]
fn a_pinned_suit_is_drafted_as_wide_as_it_was_pinned() {
    let design = Design::default();
    let (before, _) = suit(&design);
    let pinned = fit_as_pinned(design.fit, &before, 5.0).unwrap();
    let (after, _) = suit(&Design {
        fit: pinned,
        ..design
    });
    let girth = |draft: &Draft| {
        draft
            .levels
            .iter()
            .find(|l| l.level == Level::Hip)
            .unwrap()
            .pattern_mm
    };
    // 5 mm at each side seam, front and back of both: 20 mm off the girth.
    assert!(
        (girth(&before) - girth(&after) - 20.0).abs() < 0.5,
        "{}",
        girth(&before) - girth(&after)
    );
    assert_eq!(
        fit_as_pinned(Fit::Regular, &before, 0.0).unwrap().around(),
        Fit::Regular.around()
    );
    assert!(fit_as_pinned(Fit::Regular, &before, 400.0).is_none());
}
