//! The swim dress: a one-piece whose lower part is the brief inside, and a skirt over it from under the bust, the waist or the hip.
//!
//! Everything is the one-piece's; a skirt is always there, a half circle from the waist if nothing else is asked.
//!
//! **Source.** Skirt geometry as of the swim skirt; a dress over a brief: common practice, no single source.

use body::BodyForm;
use cloth::Fit;
use units::Mm;

use super::{Drawn, Family, Job, StyleSpec, one_piece, skirt, straps, style_seams};
use crate::design::{Design, Skirt, SkirtJoin, SkirtKind};
use crate::parameter::{Parameter, count, joined};
use crate::refusal::Refusal;

/// What a maker may set.
const OWN: &[&[Parameter]] = &[
    &[style_seams::SEAM_AT],
    straps::ALL,
    one_piece::ROOMS,
    &[skirt::GATHER],
];

pub(super) const STYLE: StyleSpec = StyleSpec {
    key: "swim-dress",
    name: "Swim dress",
    says: "a one-piece with a brief inside and a skirt from under the bust, the waist or the hip",
    family: Family::Dress,
    wearers: &[BodyForm::Woman, BodyForm::Child],
    // It is a one-piece with a skirt, and hears what that hears.
    shared: one_piece::STYLE.shared,
    own: &joined::<{ count(OWN) }>(OWN),
    has_trunk_loop: true,
    needs_ties: false,
    usual_fit: Fit::Regular,
    parts: None,
    draw,
};

/// The skirt of a dress nobody asked otherwise of.
const USUAL: Skirt = Skirt {
    kind: SkirtKind::HalfCircle,
    join: SkirtJoin::Waist,
    cover: Mm::new(60.0),
};

/// Draws the dress.
///
/// # Errors
/// Any [`Refusal`] of one-piece or skirt.
fn draw(job: &Job<'_>) -> Result<Drawn, Refusal> {
    let design = Design {
        skirt: Some(job.design.skirt.unwrap_or(USUAL)),
        ..job.design.clone()
    };
    one_piece::on_shoulders(&Job {
        design: &design,
        ..*job
    })
}

#[cfg(test)]
mod tests {
    use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, FRAC_PI_8};

    use super::*;
    use crate::check_values::{measures, plan};
    use crate::draft::draft_measures;
    use crate::style::Style;

    fn dress(join: SkirtJoin, kind: SkirtKind) -> crate::Draft {
        let design = Design {
            skirt: Some(Skirt {
                kind,
                join,
                cover: Mm::new(60.0),
            }),
            ..Design::of(Style::SWIM_DRESS)
        };
        draft_measures(&measures("average"), &plan(0.85, 0.60), &design).unwrap()
    }

    /// Closed form: a ring sector of angle theta a half piece, on a quarter of the join J, has r = J / 4 theta. 0.01 mm: a cubic's arc.
    #[test]
    fn radii_are_those_of_the_circle() {
        for join in [SkirtJoin::Underbust, SkirtJoin::Waist, SkirtJoin::Hip] {
            for (kind, theta) in [
                (SkirtKind::FullCircle, FRAC_PI_2),
                (SkirtKind::HalfCircle, FRAC_PI_4),
                (SkirtKind::QuarterCircle, FRAC_PI_8),
            ] {
                let suit = dress(join, kind);
                let skirt = suit.pieces.iter().find(|p| p.key == "skirt").unwrap();
                let walk = suit.seams.iter().find(|s| s.name == "skirt join").unwrap();
                let radius = |edge: &str| skirt.edge(edge).unwrap().curve.start().to_vec2().hypot();
                assert!(
                    (radius("top") - walk.second_mm / (4.0 * theta)).abs() < 0.01,
                    "{join:?} {kind:?}"
                );
                let length = skirt.edge("side").unwrap().curve.length();
                assert!((radius("hem") - radius("top") - length).abs() < 1e-6);
            }
        }
    }

    /// The hem hangs 60 mm below the crotch level from wherever the skirt joins: joins differ by their own heights on the body.
    #[test]
    fn a_higher_join_hangs_to_the_same_hem() {
        let length = |join| {
            let suit = dress(join, SkirtKind::HalfCircle);
            suit.pieces
                .iter()
                .find(|p| p.key == "skirt")
                .unwrap()
                .edge("side")
                .unwrap()
                .curve
                .length()
        };
        let m = measures("average");
        assert!((length(SkirtJoin::Waist) - m.rise_height - 60.0).abs() < 1e-6);
        assert!(length(SkirtJoin::Underbust) - length(SkirtJoin::Waist) > 50.0);
        assert!(length(SkirtJoin::Waist) - length(SkirtJoin::Hip) > 50.0);
    }
}
