//! The stretch ladder: each level's worn stretch, how much of every layer's stretch it uses, and what it presses.
//!
//! **Shapes and units.** Worn stretch = body / pattern - 1, a ratio; share used = worn stretch / the layer's stretch around.
//! **Source.** Limits own: 0.45 of the stretch keeps over half for movement and the way in; back skin lengthens 20 to 35 % in
//! reaching (Ashizawa et al., abstract). Hold at waist and under-bust 0.03: own.
//! **Limits.** A mean of the level: bust and side differ by some 0.08 of stretch.

use body::{Body, BodyForm, WaistLevel};
use cloth::{ClothPlan, Fit, Law, Layer, PairSource, RESERVE_SHARE};
use draft::{Draft, EdgeUse, LevelWidth, OpenKind};
use units::{Finding, Level, Limit, Mm, Severity, Stretch};

use crate::pressure::{self, PANEL_WATCH_KPA};
use crate::report::{LayerUse, Rung};
use crate::series::SolvedLoop;

/// Past this share of its stretch a layer has no movement left (own, the way in's limit).
pub const SHARE_STOP: f64 = 0.85;
/// Below this worn stretch a waist hangs and an under-bust lets the cloth bridge (own).
pub const LEAST_HOLD: f64 = 0.03;
/// Rungs of the loop this near a level say how it is stretched lengthwise, mm.
const NEAR_MM: f64 = 12.0;
/// A level drafted to just its cap is not past it for the last bit's sake.
const ROUNDING: f64 = 1e-6;

/// What the ladder is judged by.
pub(crate) struct Wear<'a> {
    pub(crate) body: &'a Body,
    pub(crate) cloth: &'a ClothPlan,
    pub(crate) draft: &'a Draft,
    /// Law of the layers together and whether its forces are assumed.
    pub(crate) law: Option<(Law, bool)>,
    /// The loop with its elastic.
    pub(crate) torso_loop: Option<&'a SolvedLoop>,
}

/// The rungs, top to bottom, with what was judged of them.
pub(crate) fn judge(wear: &Wear<'_>, findings: &mut Vec<Finding>) -> Vec<Rung> {
    let leg_top = leg_top_mm(wear.draft);
    let rungs: Vec<Rung> = wear
        .draft
        .levels
        .iter()
        .map(|width| wear.rung(width, leg_top, findings))
        .collect();
    best_of(wear, &rungs, findings);
    rungs
}

/// Height of the leg's upper end at the side: below it the suit does not close round the body. Only pieces with a side seam
/// tell: a crotch lining lies in a frame of its own.
fn leg_top_mm(draft: &Draft) -> Option<f64> {
    draft
        .pieces
        .iter()
        .filter(|piece| piece.edges.iter().any(|edge| edge.name.starts_with("side")))
        .flat_map(|piece| &piece.edges)
        .filter(|edge| edge.role == EdgeUse::Open(OpenKind::Leg))
        .map(|edge| edge.curve.start().y.max(edge.curve.end().y))
        .reduce(f64::max)
}

impl Wear<'_> {
    /// A level's name as this wearer has it: men and children have a chest.
    fn place(&self, level: Level) -> String {
        match (level, self.body.form) {
            (Level::Bust, BodyForm::Man | BodyForm::Child) => "chest".to_owned(),
            _ => level.name().to_owned(),
        }
    }

    fn rung(&self, width: &LevelWidth, leg_top: Option<f64>, findings: &mut Vec<Finding>) -> Rung {
        let worn = if width.pattern_mm > 0.0 {
            width.body_mm / width.pattern_mm - 1.0
        } else {
            0.0
        };
        let layers = self.layers(worn);
        let closes = leg_top.is_none_or(|top| width.y_mm >= top);
        let pressure = self.law.filter(|_| closes).and_then(|(law, is_assumed)| {
            pressure::estimate(
                &law,
                is_assumed,
                worn,
                self.lengthwise_at(width.y_mm),
                width.body_mm,
            )
        });
        let mut found = Vec::new();
        found.extend(self.share_finding(width.level, worn, &layers));
        found.extend(self.hold_finding(width.level, worn));
        if let Some(p) = pressure.filter(|p| p.kpa > PANEL_WATCH_KPA) {
            found.push(Finding {
                code: "pressure.panel",
                severity: Severity::Watch,
                place: self.place(width.level),
                message: if p.is_relative {
                    format!(
                        "may press {:.1} kPa ({:.1} to {:.1}): the force of the cloth is assumed",
                        p.kpa, p.low_kpa, p.high_kpa
                    )
                } else {
                    format!(
                        "presses about {:.1} kPa ({:.1} to {:.1})",
                        p.kpa, p.low_kpa, p.high_kpa
                    )
                },
                value: Some(p.kpa),
                limit: Some(panel_limit()),
                remedy: if p.is_relative {
                    "weigh the pull of the cloth, or choose a looser fit".to_owned()
                } else {
                    "choose a looser fit or a softer cloth".to_owned()
                },
            });
        }
        let severity = units::worst(&found);
        findings.extend(found);
        Rung {
            level: width.level,
            body: Mm::new(width.body_mm),
            pattern: Mm::new(width.pattern_mm),
            worn,
            layers,
            pressure,
            severity,
        }
    }

    /// Layers that are worn at the levels: the shell, and the lining where it is joined to it.
    fn layers(&self, worn: f64) -> Vec<LayerUse> {
        let lining = self
            .cloth
            .lining
            .as_ref()
            .filter(|_| self.cloth.pair != PairSource::Single);
        std::iter::once(&self.cloth.shell)
            .chain(lining)
            .map(|layer| {
                let share_used = worn.max(0.0) / layer.around.ratio().max(cloth::LEAST_STRETCH);
                LayerUse {
                    layer: layer.layer,
                    share_used,
                    left: 1.0 - share_used,
                }
            })
            .collect()
    }

    /// Watch or stop where a layer, or the layers together, are worn too far; `None` where all are within.
    fn share_finding(&self, level: Level, worn: f64, layers: &[LayerUse]) -> Option<Finding> {
        let together = worn.max(0.0) / self.cloth.around.ratio().max(cloth::LEAST_STRETCH);
        let (who, share) = layers
            .iter()
            .map(|l| (l.layer.name(), l.share_used))
            .chain((layers.len() > 1).then_some(("layers together", together)))
            .max_by(|a, b| a.1.total_cmp(&b.1))?;
        if share <= RESERVE_SHARE + ROUNDING {
            return None;
        }
        let is_stop = share > SHARE_STOP;
        let limit = if is_stop { SHARE_STOP } else { RESERVE_SHARE };
        Some(Finding {
            code: "ladder.share",
            severity: if is_stop { Severity::Stop } else { Severity::Watch },
            place: self.place(level),
            message: format!(
                "worn {} stretched: {:.0} % of what the {who} can stretch is used",
                Stretch::from_ratio(worn),
                share * 100.0
            ),
            value: Some(share),
            limit: Some(Limit {
                text: format!("{limit:.2}"),
                source: "own",
            }),
            remedy: if who == Layer::Lining.name() {
                "choose a lining that stretches further, or a looser fit".to_owned()
            } else {
                "choose a looser fit, or a cloth that stretches further".to_owned()
            },
        })
    }

    /// Judges whether a level holds: waist and under-bust by their own limits, the others that they are not loose.
    fn hold_finding(&self, level: Level, worn: f64) -> Option<Finding> {
        let finding = |code, severity, message: String, limit: f64, remedy: &str| {
            Some(Finding {
                code,
                severity,
                place: self.place(level),
                message,
                value: Some(worn),
                limit: Some(Limit {
                    text: format!("{limit:.2} worn stretch"),
                    source: "own",
                }),
                remedy: remedy.to_owned(),
            })
        };
        let percent = worn * 100.0;
        match level {
            Level::Waist | Level::Navel if worn < LEAST_HOLD => finding(
                "ladder.waist_slack",
                Severity::Watch,
                format!("hangs at the waist: worn only {percent:.1} % stretched, so that it passes the hips"),
                LEAST_HOLD,
                "choose a cloth that stretches further around, or put in an opening and take the waist in",
            ),
            Level::Waist | Level::Navel => finding(
                "ladder.waist_slack",
                Severity::Good,
                format!("holds at the waist: worn {percent:.1} % stretched"),
                LEAST_HOLD,
                "",
            ),
            // With the waist taken at the navel the under-bust height is a guess, and so would its hold be.
            Level::Underbust if self.body.waist_level == WaistLevel::Navel => None,
            // What is worn with ease, over the arms or in the sun, is not asked to hold there.
            Level::Underbust if worn < 0.0 => finding(
                "ladder.underbust_hold",
                if self.draft.style.spec().usual_fit == Fit::Relaxed {
                    Severity::Watch
                } else {
                    Severity::Stop
                },
                format!(
                    "the cloth stands off under the bust: cut {:.1} % wider than the body there",
                    -percent
                ),
                0.0,
                "choose a firmer fit or a cloth that stretches further, or sew an elastic to the lining under the bust",
            ),
            Level::Underbust if worn < LEAST_HOLD => finding(
                "ladder.underbust_hold",
                Severity::Watch,
                format!("hardly holds under the bust: worn {percent:.1} % stretched"),
                LEAST_HOLD,
                "consider a firmer fit, or an elastic on the lining under the bust, and check on a toile",
            ),
            Level::Underbust => finding(
                "ladder.underbust_hold",
                Severity::Good,
                format!("holds under the bust: worn {percent:.1} % stretched"),
                LEAST_HOLD,
                "",
            ),
            _ if worn < 0.0 => finding(
                "ladder.loose",
                Severity::Watch,
                format!("loose: cut {:.1} % wider than the body", -percent),
                0.0,
                "check the girth again, or choose a firmer fit",
            ),
            _ => None,
        }
    }

    /// Length ratio at a height, from the loop; 1 where there is no loop.
    fn lengthwise_at(&self, y_mm: f64) -> f64 {
        let Some(torso) = self.torso_loop else {
            return 1.0;
        };
        let (sum, n) = self
            .draft
            .loop_rungs
            .iter()
            .zip(&torso.ratios)
            .filter(|(rung, _)| (rung.y_mm - y_mm).abs() <= NEAR_MM && rung.around_worn.is_some())
            .fold((0.0, 0.0), |(sum, n), (_, ratio)| (sum + ratio, n + 1.0));
        if n > 0.0 { sum / n } else { 1.0 }
    }
}

fn panel_limit() -> Limit {
    Limit {
        text: format!("{PANEL_WATCH_KPA:.1} kPa"),
        source: "own, from published comfort pressures",
    }
}

/// Says once, for the worst level, that share and pressure are within limits where they are everywhere.
fn best_of(wear: &Wear<'_>, rungs: &[Rung], findings: &mut Vec<Finding>) {
    let share = |rung: &Rung| rung.layers.iter().map(|l| l.share_used).fold(0.0, f64::max);
    if !findings.iter().any(|f| f.code == "ladder.share")
        && let Some(rung) = rungs.iter().max_by(|a, b| share(a).total_cmp(&share(b)))
    {
        findings.push(Finding {
            code: "ladder.share",
            severity: Severity::Good,
            place: wear.place(rung.level),
            message: format!(
                "uses most of the stretch, {:.0} % of it: the rest is left for movement",
                share(rung) * 100.0
            ),
            value: Some(share(rung)),
            limit: Some(Limit {
                text: format!("{RESERVE_SHARE:.2}"),
                source: "own",
            }),
            remedy: String::new(),
        });
    }
    let kpa = |rung: &&Rung| rung.pressure.map_or(0.0, |p| p.kpa);
    if !findings.iter().any(|f| f.code == "pressure.panel")
        && let Some(rung) = rungs
            .iter()
            .filter(|r| r.pressure.is_some())
            .max_by(|a, b| kpa(a).total_cmp(&kpa(b)))
        && let Some(p) = rung.pressure
    {
        let note = if p.is_relative {
            ", the force of the cloth assumed"
        } else {
            ""
        };
        findings.push(Finding {
            code: "pressure.panel",
            severity: Severity::Good,
            place: wear.place(rung.level),
            message: format!(
                "presses most, about {:.2} kPa ({:.2} to {:.2}{note})",
                p.kpa, p.low_kpa, p.high_kpa
            ),
            value: Some(p.kpa),
            limit: Some(panel_limit()),
            remedy: String::new(),
        });
    }
}
