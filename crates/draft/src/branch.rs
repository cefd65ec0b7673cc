//! Which way a draft went where its rules part: a dart or ease, a limit reached, a point left out.
//!
//! Lengths grow evenly from size to size as long as every size goes the same way; where one takes another, they jump or bend. So each
//! draft says which ways it took, and a range compares neighbours.
//!
//! **Limits.** Only what depends on body and cloth is noted, not what the maker chose herself; a notch, edge or piece that is there on
//! one body and not on another shows in the draft itself.

use std::cell::RefCell;
use std::collections::BTreeSet;

use serde::Serialize;

use crate::block::{Block, BlockShape, BustRule, BustWork, Levels};
use crate::style::{Job, Reach};
use crate::suit::TrunkLoop;

/// A difference smaller than this is rounding, mm.
const SAME_MM: f64 = 1e-6;

/// A way the draft took that it need not take on another body.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
pub struct BranchTaken {
    /// Stable name: `strap_moved`.
    pub key: &'static str,
    /// What the suit has, in a maker's words, to follow a size's name: "has its strap moved along the shoulder".
    pub says: &'static str,
}

/// Where the styles note the ways they take while they draw.
#[derive(Debug, Default)]
pub(crate) struct Branches(RefCell<BTreeSet<BranchTaken>>);

impl Branches {
    /// Notes a way if it was taken.
    pub(crate) fn note(&self, is_taken: bool, key: &'static str, says: &'static str) {
        if is_taken {
            self.0.borrow_mut().insert(BranchTaken { key, says });
        }
    }

    /// What was noted, by key.
    pub(crate) fn into_list(self) -> Vec<BranchTaken> {
        self.0.into_inner().into_iter().collect()
    }
}

/// Both sides' branches of a suit that is not alike left and right.
pub(crate) fn joined(left: &[BranchTaken], right: &[BranchTaken]) -> Vec<BranchTaken> {
    let all: BTreeSet<BranchTaken> = left.iter().chain(right).copied().collect();
    all.into_iter().collect()
}

/// Notes the trunk loop's ways.
pub(crate) fn of_trunk(job: &Job<'_>, trunk: &TrunkLoop) {
    let note = |is, key, says| job.branches.note(is, key, says);
    let is_solved = trunk.solved_mm.abs() > SAME_MM;
    note(
        is_solved,
        "front_solved",
        "has its front solved from the trunk loop",
    );
    note(
        is_solved && crate::trunk::is_solved_at_limit(job.m, trunk),
        "front_at_limit",
        "has its front solved at the limit",
    );
    note(
        trunk.is_capped,
        "loop_capped",
        "has its torso correction at the 6 % cap",
    );
}

/// Notes the ways of levels and side profile up to the underarm heights of front and back.
pub(crate) fn of_levels(job: &Job<'_>, reach: Reach, levels: &Levels, underarms: [f64; 2]) {
    let note = |is, key, says| job.branches.note(is, key, says);
    note(
        levels.waist_widening > 1.0 + 1e-9,
        "waist_widened",
        "has its waist widened to pass what it is pulled over",
    );
    let is_drawn_in = [true, false].map(|is_front| {
        levels
            .profile(is_front, underarms[usize::from(!is_front)])
            .is_drawn_in()
    });
    note(
        is_drawn_in[0],
        "front_profile_drawn_in",
        "has its front side drawn in to 5 mm of the levels",
    );
    note(
        is_drawn_in[1],
        "back_profile_drawn_in",
        "has its back side drawn in to 5 mm of the levels",
    );
    if reach == Reach::Hips {
        return;
    }
    let (key, says) = match levels.bust_rule(underarms[0], job.m.is_woman()) {
        BustRule::AtPoint => ("bust_at_point", "has its bust level at the bust point"),
        BustRule::AtSideLength => (
            "bust_at_side_length",
            "has its bust level at three quarters of the side length",
        ),
        BustRule::UnderArm => ("bust_under_arm", "has its bust level held under the underarm"),
    };
    note(true, key, says);
    if job.m.is_woman() {
        note(
            levels.underbust_y(true).is_none(),
            "front_underbust_straight",
            "has its front side straight from bust to waist, the under-bust left out",
        );
        note(
            levels.underbust_y(false).is_none(),
            "back_underbust_straight",
            "has its back side straight from bust to waist, the under-bust left out",
        );
    }
    let flare = [true, false].map(|is_front| levels.flare(is_front, underarms[usize::from(!is_front)]));
    for (mm, straight, most) in [
        (
            flare[0],
            ("front_flare_none", "has its front side straight above the bust"),
            (
                "front_flare_most",
                "has its front side's flare above the bust at its 8 mm",
            ),
        ),
        (
            flare[1],
            ("back_flare_none", "has its back side straight above the bust"),
            (
                "back_flare_most",
                "has its back side's flare above the bust at its 8 mm",
            ),
        ),
    ] {
        note(mm <= 0.0, straight.0, straight.1);
        note(mm >= crate::block::MOST_FLARE, most.0, most.1);
    }
}

/// Notes the ways of a block: levels, strap, shaping over the bust, armhole and leg.
pub(crate) fn of_block(job: &Job<'_>, reach: Reach, shape: &BlockShape, block: &Block, difference: f64) {
    let note = |is, key, says| job.branches.note(is, key, says);
    let l = &block.levels;
    let eased = block.ease.map_or(0.0, |e| e.amount);
    of_levels(job, reach, l, [l.underarm_y + eased, block.back.side.end().y]);
    let height = |leg: &crate::geometry::Curve| leg.end().y - leg.start().y;
    note(
        crate::block::is_leg_held(&block.front.leg),
        "leg_held",
        "has its front leg's curve held below the side, for the crotch is near it",
    );
    note(
        crate::style::is_crotch_lining_short(height(&block.front.leg), true),
        "crotch_lining_short",
        "has its crotch lining ended on a short leg",
    );
    if reach == Reach::Hips {
        return;
    }
    if job.design.strap_position.is_none() {
        let is_usual = crate::resolve::USUAL_STRAP_POSITIONS
            .iter()
            .any(|p| (shape.strap.position - p).abs() < 1e-9);
        note(
            !is_usual,
            "strap_moved",
            "has its strap moved along the shoulder, which is narrow for it",
        );
    }
    let over = difference - crate::block::TAKEN_BY_CLOTH;
    match shape.bust {
        BustWork::Plain => {}
        BustWork::Ease(_) => {
            note(true, "front_eased", "eases the front side");
            note(
                0.5 * over >= crate::block::MOST_EASE,
                "ease_at_most",
                "has its ease over the bust at the 12 mm it may be",
            );
        }
        BustWork::Dart(_) => {
            note(true, "dart", "has a side dart");
            note(
                over <= 15.0,
                "dart_at_least",
                "has its dart at the 15 mm it is at least",
            );
            note(
                over >= 60.0,
                "dart_at_most",
                "has its dart at the 60 mm it is at most",
            );
        }
    }
    if let Some(dart) = &block.dart {
        let off = dart.mouth_low.y - (l.bust_point_y - crate::block::MOUTH_BELOW_BUST);
        note(
            off > SAME_MM,
            "dart_held_above_leg",
            "has its dart's mouth held above the leg",
        );
        note(
            off < -SAME_MM,
            "dart_held_under_arm",
            "has its dart's mouth held below the underarm",
        );
    }
    for (half, key, says) in [
        (
            &block.front,
            "front_armhole_steep",
            "has a front armhole as steep as it may be, the strap nearly over the underarm",
        ),
        (
            &block.back,
            "back_armhole_steep",
            "has a back armhole as steep as it may be, the strap nearly over the underarm",
        ),
    ] {
        let is_steep = half.underarm.x - half.armhole.end().x < crate::block::LEAST_ARMHOLE_REACH;
        note(is_steep, key, says);
    }
    note(
        job.m.is_woman() && block.levels.bust_point_y > block.front.neck.end().y,
        "neckline_low",
        "has its neckline below bust level",
    );
}
