//! A pattern meant for one stretch, cut in a cloth with another: how it would be worn without any change.
//!
//! The paper is as small as it is because its cloth was meant to stretch so far. In a cloth that stretches less the same paper
//! takes a larger share of what there is; in one that stretches more, less.
//!
//! **Shapes and units.** Stretches and shares as ratios.
//! **Source.** Arithmetic; limits of the draft ([`cloth::RESERVE_SHARE`]), 10 % between like and unlike: own.

use cloth::{ClothPlan, Load, RESERVE_SHARE};
use serde::Serialize;
use units::{Finding, Limit, Mm, Severity, Stretch};

use super::pattern::PaperLevel;
use super::width::WidthChange;

/// A cloth within this share of the stretch asked is as good as it (own: two pulls by hand differ by as much).
const ALIKE: f64 = 0.10;

/// How the cloth compares with what the envelope asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ClothAgainstEnvelope {
    /// It stretches less: unchanged, the suit would be tighter than meant.
    Less,
    /// As asked.
    Alike,
    /// It stretches more: unchanged, the suit would be looser than meant.
    More,
}

/// One level of the unchanged paper in this cloth.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WornUnchanged {
    /// Where.
    pub level: PaperLevel,
    /// Worn stretch, body / paper - 1; under 0 it stands off.
    pub worn: Stretch,
    /// Share of this cloth's stretch that takes.
    pub share: f64,
    /// Share of the stretch the envelope asks.
    pub share_asked: f64,
    /// What a quarter would change by for the same share in this cloth as meant.
    pub quarter_for_same_share: Mm,
}

/// The pattern's stretch against the cloth's.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StretchVerdict {
    /// What the envelope asks.
    pub asked: Stretch,
    /// What the cloth has around.
    pub cloth: Stretch,
    /// How they compare.
    pub against: ClothAgainstEnvelope,
    /// Each level, top to bottom.
    pub levels: Vec<WornUnchanged>,
}

pub(super) fn judge(asked: Stretch, cloth: &ClothPlan, widths: &[WidthChange]) -> StretchVerdict {
    let ratio = cloth.around.ratio() / asked.ratio();
    StretchVerdict {
        asked,
        cloth: cloth.around,
        against: if ratio < 1.0 - ALIKE {
            ClothAgainstEnvelope::Less
        } else if ratio > 1.0 + ALIKE {
            ClothAgainstEnvelope::More
        } else {
            ClothAgainstEnvelope::Alike
        },
        levels: widths
            .iter()
            .map(|w| {
                // What is cut shrinks before it is worn.
                let at_rest = w.paper.get() / cloth.shrinkage_factor_around;
                let worn = w.body.get() / at_rest - 1.0;
                let same = w.body.get() / (1.0 + worn * ratio) * cloth.shrinkage_factor_around;
                WornUnchanged {
                    level: w.level,
                    worn: Stretch::from_ratio(worn),
                    share: worn / cloth.around.ratio(),
                    share_asked: worn / asked.ratio(),
                    quarter_for_same_share: Mm::new((same - w.paper.get()) / 4.0),
                }
            })
            .collect(),
    }
}

pub(super) fn findings(verdict: &StretchVerdict, cloth: &ClothPlan, findings: &mut Vec<Finding>) {
    if let Load::NewtonPerCm(_) = cloth.load {
        findings.push(Finding {
            code: "drawer.paper_load",
            severity: Severity::Watch,
            place: "cloth".into(),
            message: format!(
                "an envelope means a pull by hand; this cloth was read at {}, so the two do not compare",
                cloth.load
            ),
            value: None,
            limit: None,
            remedy: "pull the cloth by hand along the envelope's ruler, and enter that stretch".into(),
        });
    }
    let (asked, has) = (verdict.asked, verdict.cloth);
    let hardest = verdict.levels.iter().max_by(|a, b| a.share.total_cmp(&b.share));
    let Some(hardest) = hardest else { return };
    let place = hardest.level.name();
    let (worn, share) = (hardest.worn.percent(), 100.0 * hardest.share);
    let meant = 100.0 * hardest.share_asked;
    let (severity, message, remedy) = if hardest.share > 1.0 {
        (
            Severity::Stop,
            format!(
                "unchanged, the {place} must stretch {worn:.0} % and the cloth has {has}: it will not go on"
            ),
            "make the changes of this sheet, or choose a cloth that stretches as the envelope asks",
        )
    } else if hardest.share > RESERVE_SHARE {
        (
            Severity::Stop,
            format!(
                "unchanged, the {place} would be worn at {worn:.0} %, {share:.0} % of what the cloth has: too little is left to move and to get in"
            ),
            "make the changes of this sheet before cutting",
        )
    } else {
        match verdict.against {
            ClothAgainstEnvelope::Less => (
                Severity::Watch,
                format!(
                    "the pattern asks {asked} and the cloth has {has}: unchanged it would be tight, {share:.0} % of the stretch used at the {place} instead of {meant:.0} %"
                ),
                "make the changes of this sheet before cutting",
            ),
            ClothAgainstEnvelope::More => (
                Severity::Watch,
                format!(
                    "the pattern asks {asked} and the cloth has {has}: unchanged it would be loose, {share:.0} % of the stretch used at the {place} instead of {meant:.0} %"
                ),
                "make the changes of this sheet before cutting",
            ),
            ClothAgainstEnvelope::Alike => (
                Severity::Good,
                format!("the pattern asks {asked} and the cloth has {has}: as meant"),
                "",
            ),
        }
    };
    findings.push(Finding {
        code: "drawer.paper_stretch",
        severity,
        place: place.into(),
        message,
        value: Some(hardest.share),
        limit: Some(Limit {
            text: format!("{RESERVE_SHARE}"),
            source: "own",
        }),
        remedy: remedy.into(),
    });
    for level in verdict.levels.iter().filter(|l| l.worn.ratio() < 0.0) {
        findings.push(Finding {
            code: "drawer.paper_stands_off",
            severity: Severity::Watch,
            place: level.level.name().into(),
            message: format!(
                "unchanged, the paper is larger than the body: the {} would stand off",
                level.level.name()
            ),
            value: Some(level.worn.ratio()),
            limit: Some(Limit {
                text: "0".into(),
                source: "common practice, no single source",
            }),
            remedy: "make the changes of this sheet before cutting".into(),
        });
    }
}
