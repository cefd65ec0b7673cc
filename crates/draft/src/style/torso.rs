//! The block as a style uses it: the whole torso, its upper part, or the hips; and what is read off it for the judges.
//!
//! **Shapes and units.** mm flat, piece frame.

use body::BodyForm;
use units::{Finding, Level};

use super::{Drawn, Job, brief_top_height, girth_at};
use crate::block::{Block, BlockShape};
use crate::branch;
use crate::check;
use crate::refusal::Refusal;
use crate::resolve;
use crate::rungs;
use crate::suit::{LevelWidth, TrunkLoop};
use crate::trunk;

/// How much of the block a style is cut from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Reach {
    /// Shoulder to crotch, tied to the measured trunk loop.
    Whole,
    /// Shoulder to somewhere below the bust; not tied to the trunk loop.
    Upper,
    /// Below the waist: asks for nothing above it.
    Hips,
}

/// The block of one suit, with the trunk loop it was drawn by.
pub(crate) struct Torso {
    pub(crate) reach: Reach,
    pub(crate) trunk: TrunkLoop,
    pub(crate) shape: BlockShape,
    pub(crate) block: Block,
}

impl Torso {
    /// The block for this body, cloth and design.
    ///
    /// # Errors
    /// Any [`Refusal`] of trunk loop, parameters or block.
    pub(crate) fn draw(job: &Job<'_>, reach: Reach, findings: &mut Vec<Finding>) -> Result<Torso, Refusal> {
        Torso::draw_with(job, reach, findings, |_| {})
    }

    /// The same, with the block's parameters changed by the style before it is drawn.
    ///
    /// # Errors
    /// As [`Torso::draw`].
    pub(crate) fn draw_with(
        job: &Job<'_>,
        reach: Reach,
        findings: &mut Vec<Finding>,
        change: impl FnOnce(&mut BlockShape),
    ) -> Result<Torso, Refusal> {
        let trunk = match reach {
            Reach::Whole => trunk::settle(job.m, findings)?,
            Reach::Upper | Reach::Hips => trunk::untied(job.m),
        };
        let difference = trunk.front_waist_mm - trunk::back_length(job.m);
        let mut shape = resolve::block_shape(job.m, job.k, &trunk, job.design, reach, difference)?;
        change(&mut shape);
        let block = Block::draw(job.m, job.k, &trunk, &shape)?;
        if reach == Reach::Whole {
            branch::of_trunk(job, &trunk);
        }
        branch::of_block(job, reach, &shape, &block, difference);
        if reach != Reach::Hips {
            resolve::offer_princess(job.m, job.design, difference, findings);
            resolve::judge_depth(job.m, &block, findings);
        }
        Ok(Torso {
            reach,
            trunk,
            shape,
            block,
        })
    }

    /// Checks the block's runs over its seams and, for a whole torso, its loop; adds levels and loop to what was drawn.
    ///
    /// # Errors
    /// [`Refusal::Invalid`] for a kink or a loop that is not the measured one.
    pub(crate) fn finish(mut self, job: &Job<'_>, drawn: &mut Drawn) -> Result<(), Refusal> {
        check::kinks(&self.block)?;
        drawn.levels.extend(self.levels(job));
        if self.reach == Reach::Whole {
            check::torso_loop(job, &self.block, &self.shape, &mut self.trunk)?;
            drawn.loop_rungs = rungs::torso_loop(job, &self.block);
            drawn.strap_mid = Some(self.block.front.strap_mid);
            drawn.trunk = Some(self.trunk);
        }
        Ok(())
    }

    /// The same for a bottom whose waist the style has judged itself: only what lies below it is added.
    ///
    /// # Errors
    /// As [`Torso::finish`].
    pub(crate) fn finish_below_waist(self, job: &Job<'_>, drawn: &mut Drawn) -> Result<(), Refusal> {
        check::kinks(&self.block)?;
        let below = self
            .levels(job)
            .into_iter()
            .filter(|l| matches!(l.level, Level::HighHip | Level::Hip));
        drawn.levels.extend(below);
        Ok(())
    }

    /// Worn and flat width at a height of the block, for the ladder. Pattern girth is that after the shrinkage still to come.
    pub(crate) fn rung(&self, job: &Job<'_>, level: Level, y_mm: f64, body_mm: f64) -> LevelWidth {
        let width = self.block.front.profile.at(y_mm) + self.block.back.profile.at(y_mm);
        LevelWidth {
            level,
            y_mm,
            body_mm,
            pattern_mm: 2.0 * width / job.k.shrink_around,
            meant: job.k.meant(level),
        }
    }

    /// Body and pattern girths by level, top to bottom.
    fn levels(&self, job: &Job<'_>) -> Vec<LevelWidth> {
        let l = &self.block.levels;
        let rung = |level, y, body| self.rung(job, level, y, body);
        let bust_y = l.bust_level(l.underarm_y);
        let waist = if job.m.is_navel {
            Level::Navel
        } else {
            Level::Waist
        };
        let mut all = Vec::with_capacity(6);
        if self.reach != Reach::Hips {
            all.push(rung(Level::Bust, bust_y, job.m.bust));
            if let Some(underbust) = job.m.underbust
                && job.m.form == BodyForm::Woman
            {
                all.push(rung(Level::Underbust, 0.63 * bust_y, underbust));
            }
            all.push(rung(waist, 0.0, job.m.waist));
            all.push(rung(Level::HighHip, l.high_hip_y, job.m.high_hip));
        } else {
            let top = brief_top_height(job.design.rise, l.waist_to_hip * l.k_side, l.leg_y);
            if job.design.rise == crate::design::Rise::High {
                all.push(rung(waist, top, girth_at(job, &self.block, top)));
            }
            if top >= l.high_hip_y {
                all.push(rung(Level::HighHip, l.high_hip_y, job.m.high_hip));
            }
        }
        // Below the leg line the widths are what front and back measure across, with the leg open between them.
        all.push(rung(Level::Hip, l.hip_y, job.m.hip));
        all
    }
}

/// What is measured of any sewn suit with a leg: across bust, waist and above the leg, the side seam, the centre front, a leg, the crotch.
pub(super) fn trunk_measures(block: &Block) -> [(&'static str, &'static str, f64, f64); 7] {
    let (f, b) = (&block.front, &block.back);
    let l = &block.levels;
    let across = |y: f64| f.profile.at(y) + b.profile.at(y);
    [
        (
            "across_bust",
            "across the bust, side seam to side seam",
            across(l.bust_level(l.underarm_y)),
            5.0,
        ),
        (
            "across_waist",
            "across the waist, side seam to side seam",
            across(0.0),
            5.0,
        ),
        (
            "across_above_leg",
            "across, 2 cm above the leg at the side",
            across(l.leg_y + 20.0),
            5.0,
        ),
        ("side_seam", "side seam, leg to underarm", b.side.length(), 4.0),
        (
            "centre_front",
            "centre front, neckline to crotch seam",
            f.fold.length(),
            5.0,
        ),
        (
            "leg_opening",
            "leg opening, once round",
            f.leg.length() + b.leg.length(),
            8.0,
        ),
        (
            "crotch_width",
            "crotch, edge to edge at its seam",
            2.0 * f.crotch.length(),
            3.0,
        ),
    ]
}
