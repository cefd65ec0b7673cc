//! Scraps to sew and try before the suit is touched.
//!
//! **Source.** Tests come before cutting: `data/trade/operations.csv`, row t1, common practice, no source. Marks 100 mm apart, so that
//! per cent can be read off a rule.

use draft::LiningCover;
use serde::Serialize;
use units::Mm;

use crate::choose::{Evidence, StitchChoice};
use crate::edge::EdgeElastic;
use crate::job::Job;
use crate::making::MakingInput;
use crate::say::{Arg, Say};

/// Marks on a scrap.
const MARKS: Mm = Mm::new(100.0);

/// What a scrap is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ScrapKind {
    /// An iron.
    Iron,
    /// A stitch.
    Seam,
    /// Elastic on an edge.
    Edge,
    /// The elastic by itself.
    Elastic,
    /// Wet and stretched.
    Wet,
}

/// One scrap.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Scrap {
    /// What it is for.
    pub kind: ScrapKind,
    /// What to do, by its key: `scrap.seam`.
    pub say: Say,
    /// The stitch it proves, by its place in the plan.
    pub stitch: Option<usize>,
    /// Marks on it, relaxed.
    pub marks: Mm,
    /// Pulled so far nothing may pop; none where nothing is pulled.
    pub pull_to: Option<Mm>,
    /// Whether the sample book has it already.
    pub is_done: bool,
}

/// Scraps of a plan: iron first, then stitches, elastic, and the wet cloth. Every stitch that is stretched is on the list.
pub(crate) fn scraps(
    input: &MakingInput<'_>,
    stitches: &[StitchChoice],
    edges: &[EdgeElastic],
) -> Vec<Scrap> {
    let cloth = || Arg::Name(input.cloth.shell.cloth.clone());
    let mut scraps = Vec::new();
    let mut cloths = vec![&input.cloth.shell];
    cloths.extend(&input.cloth.lining);
    for layer in cloths {
        scraps.push(Scrap {
            kind: ScrapKind::Iron,
            say: Say::plain("scrap.iron").with("cloth", Arg::Name(layer.cloth.clone())),
            stitch: None,
            marks: MARKS,
            pull_to: None,
            is_done: input.samples.iron(&layer.cloth).is_some(),
        });
    }
    for (i, choice) in stitches.iter().enumerate() {
        if choice.asked <= 0.0 {
            continue;
        }
        let is_edge = matches!(choice.job, Job::Anchor | Job::EdgeTopstitch | Job::Casing);
        scraps.push(Scrap {
            kind: if is_edge { ScrapKind::Edge } else { ScrapKind::Seam },
            say: Say::plain(if is_edge { "scrap.edge" } else { "scrap.seam" })
                .with("cloth", cloth())
                .with("stitch", Arg::Key(choice.setting.stitch.key()))
                .with("width", Arg::Setting(choice.setting.width))
                .with("length", Arg::Setting(choice.setting.length))
                .with("job", Arg::Key(choice.job.key()))
                .with("asked", Arg::Share(choice.asked)),
            stitch: Some(i),
            marks: MARKS,
            pull_to: Some(MARKS * (1.0 + choice.asked)),
            is_done: matches!(choice.evidence, Evidence::Sample(_)),
        });
    }
    let mut seen: Vec<(&str, Mm)> = Vec::new();
    for edge in edges {
        let plan = &edge.plan;
        if seen.contains(&(plan.kind.as_str(), plan.width)) {
            continue;
        }
        seen.push((plan.kind.as_str(), plan.width));
        let most = edges
            .iter()
            .filter(|e| e.plan.kind == plan.kind && e.plan.width == plan.width)
            .map(|e| e.worn_extension)
            .fold(0.0, f64::max);
        scraps.push(Scrap {
            kind: ScrapKind::Elastic,
            say: Say::plain("scrap.elastic")
                .with("kind", Arg::Name(plan.kind.clone()))
                .with("width", Arg::Setting(plan.width)),
            stitch: None,
            marks: MARKS,
            pull_to: Some(MARKS * (1.0 + most)),
            is_done: edge.is_force_measured,
        });
    }
    let is_lined = input.design.lining_worn() == LiningCover::Full;
    if !is_lined {
        scraps.push(Scrap {
            kind: ScrapKind::Wet,
            say: Say::plain("scrap.wet").with("cloth", cloth()),
            stitch: None,
            marks: MARKS,
            pull_to: Some(MARKS * (1.0 + input.worn.around.iter().map(|(_, e)| *e).fold(0.0, f64::max))),
            is_done: input.samples.wet(&input.cloth.shell.cloth).is_some(),
        });
    }
    scraps
}
