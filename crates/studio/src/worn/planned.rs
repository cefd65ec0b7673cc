//! What the making plan and a worn suit tell each other: the planned stitches' reach to the findings, the solved stretches to the plan.
//!
//! **Shapes and units.** Ratios along the seam.
//! **Limits.** A seam sewn twice counts with its weaker stitch. The way in stays the quick judgement's: it is not solved.

use draft::Draft;
use make::{Evidence, Job, MOVEMENT, Making, SEAM_FACTOR, StitchChoice, WornStretch};
use solve::{SewnPlace, StitchReach, Stitches, Stop, SuitMesh, WornSuit, worn_stretch};

/// How far the stitches of a plan can stretch, by the seam or edge they are sewn in.
pub(super) fn stitches(draft: &Draft, making: &Making) -> Stitches {
    let mut reaches: Vec<StitchReach> = Vec::new();
    for step in &making.steps {
        let Some(choice) = making.stitch_of(step).filter(|c| is_in_wear(c)) else {
            continue;
        };
        let seams = step.seams.iter().filter_map(|s| draft.seams.get(*s));
        let seams = seams.map(|s| SewnPlace::Seam(s.name));
        let edges = step.edges.iter().filter_map(|e| draft.open_edges.get(*e));
        let edges = edges.map(|e| SewnPlace::Edge(e.kind));
        for of in seams.chain(edges) {
            let reach = StitchReach {
                of,
                stretch: choice.extension,
                stitch: words(choice),
                source: source(&choice.evidence),
            };
            match reaches.iter_mut().find(|r| r.of == of) {
                Some(known) if known.stretch > reach.stretch => *known = reach,
                Some(_) => {}
                None => reaches.push(reach),
            }
        }
    }
    Stitches {
        reaches,
        factor: SEAM_FACTOR,
        movement: MOVEMENT,
    }
}

/// Stitches that stay in and are stretched: no basting, no gathering.
fn is_in_wear(choice: &StitchChoice) -> bool {
    choice.asked > 0.0 && !matches!(choice.job, Job::LayerBaste | Job::Baste | Job::Gather)
}

/// `zigzag, 2 by 2 mm`.
fn words(choice: &StitchChoice) -> String {
    let setting = &choice.setting;
    let key = setting.stitch.facts().key;
    let name = key.rsplit('.').next().unwrap_or(key).replace('_', " ");
    let (width, length) = (setting.width.get(), setting.length.get());
    if width > 0.0 {
        format!("{name}, {width} by {length} mm,")
    } else {
        format!("{name}, {length} mm,")
    }
}

const fn source(evidence: &Evidence) -> &'static str {
    match evidence {
        Evidence::Sample(_) => "own sample, sewn and pulled",
        Evidence::Forecast => "forecast from stitch and thread",
        Evidence::Practice => "common practice for this stitch",
    }
}

/// The stretches of a solved suit as the making plan asks for them; the draft's where the solve has none. Nothing of a suit that was not
/// solved.
pub(super) fn stretches(draft: &Draft, mesh: &SuitMesh, worn: &WornSuit) -> Option<WornStretch> {
    if worn.solved.stop != Stop::Converged {
        return None;
    }
    let drafted = WornStretch::of_draft(draft);
    let around = drafted
        .around
        .iter()
        .map(|(level, meant)| {
            let there = worn.levels.iter().find(|l| l.level == *level && l.closes);
            (*level, there.map_or(*meant, |l| l.around - 1.0))
        })
        .collect();
    let shell = mesh.mesh.triangles().iter();
    let lengths = shell.zip(worn_stretch(&mesh.mesh, &worn.solved.positions));
    let (sum, area) = lengths
        .filter(|(t, _)| t.layer == 0)
        .fold((0.0, 0.0), |(sum, area), (t, [lengthwise, _])| {
            (sum + lengthwise * t.area_mm2, area + t.area_mm2)
        });
    Some(WornStretch {
        around,
        lengthwise: if area > 0.0 {
            (sum / area - 1.0).max(0.0)
        } else {
            drafted.lengthwise
        },
        is_solved: true,
        ..drafted
    })
}

#[cfg(test)]
mod tests {
    use units::{Level, Silent};

    use super::*;
    use crate::hand_out::stitches_of;
    use crate::order::work_out;
    use crate::suit_file::read_text;
    use crate::workroom_file::Room;
    use crate::worn::{WornChoice, put_on};

    /// Worn stretches of the solve go to the needs of the seams: where a level is stretched more, more is asked there.
    #[test]
    fn a_plan_is_made_from_what_was_solved() {
        let text = include_str!("../../../../examples/maren-one-piece.toml");
        let suit = read_text("maren.toml", text).unwrap();
        let order = work_out(&suit).unwrap();
        let choice = WornChoice {
            mesh_mm: 20.0,
            friction: 0.0,
            ..WornChoice::default()
        };
        let on = put_on(&suit, &order, choice, &Silent).unwrap();
        let mut solved = on.stretches.unwrap();
        let drafted = WornStretch::of_draft(&order.draft);
        assert!(solved.is_solved && !drafted.is_solved);
        assert_eq!(solved.way_in, drafted.way_in);
        let at = |of: &WornStretch, level| of.around.iter().find(|(l, _)| *l == level).unwrap().1;
        let waist = on.worn.levels.iter().find(|l| l.level == Level::Waist).unwrap();
        assert!((at(&solved, Level::Waist) - (waist.around - 1.0)).abs() < 1e-12);
        assert!((at(&solved, Level::Waist) - at(&drafted, Level::Waist)).abs() > 1e-3);
        // The plan asks for what the solve says.
        let room = Room::default();
        let most = |of: Option<&WornStretch>| {
            let making = stitches_of(&suit, &order, &room, of);
            assert_eq!(making.is_worn_solved, of.is_some());
            making.stitches.iter().map(|s| s.need.worn).fold(0.0, f64::max)
        };
        let before = most(Some(&solved));
        for (_, e) in &mut solved.around {
            *e += 0.1;
        }
        assert!(most(Some(&solved)) > before + 0.05);
        assert!(most(None) > 0.0);
        let reaches = stitches(&order.draft, &stitches_of(&suit, &order, &room, None)).reaches;
        for of in [
            SewnPlace::Seam("side"),
            SewnPlace::Seam("crotch"),
            SewnPlace::Edge(draft::OpenKind::Leg),
        ] {
            assert!(
                reaches.iter().any(|r| r.of == of && r.stretch > 0.1),
                "{of:?} {reaches:?}"
            );
        }
    }
}
