//! `docs/workrooms.md` is what the plans of today say, and its workrooms sew the suit in ways that differ.

#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test reads a page of the documents"
)]

#[path = "suit/bodies.rs"]
mod bodies;
#[path = "suit/suits.rs"]
mod suits;
#[path = "suit/workrooms.rs"]
mod workrooms;

use std::path::Path;

use draft::{LiningCover, Style};
use make::{Making, Preset};
use suits::{Suit, lined};

#[test]
fn the_page_of_workrooms_is_the_plans() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/workrooms.md");
    assert_eq!(
        std::fs::read_to_string(path).unwrap(),
        workrooms::page(),
        "write it anew: cargo run -p slackwater-make --example workrooms > docs/workrooms.md"
    );
}

/// Common practice, no source: every seam and edge of the suit is sewn in each of the workrooms, in the same order of the work; what
/// differs is the stitch, the machine and how often a maker changes between them.
#[test]
fn three_workrooms_agree_on_what_is_sewn_and_differ_in_how() {
    let suit = Suit::of("one-piece", lined(Style::ONE_PIECE, LiningCover::Full));
    let plans =
        [Preset::Zigzag, Preset::ZigzagOverlocker, Preset::Coverstitch].map(|p| suit.plan(&p.workroom()));
    let ids = |plan: &Making| plan.steps.iter().map(|s| s.id.clone()).collect::<Vec<_>>();
    let stitches = |plan: &Making| {
        let of = plan
            .steps
            .iter()
            .map(|s| plan.stitch_of(s).map(|c| c.setting.stitch));
        of.collect::<Vec<_>>()
    };
    for (i, one) in plans.iter().enumerate() {
        assert!(one.stitches.iter().all(|s| s.is_safe));
        for other in plans.iter().skip(i + 1) {
            let (mut a, mut b) = (ids(one), ids(other));
            a.sort();
            b.sort();
            assert_eq!(a, b);
            assert_ne!(stitches(one), stitches(other));
        }
    }
    assert_eq!(plans[0].changes, 1);
    assert!(plans[1].changes > 1 && plans[2].changes >= plans[1].changes);
}
