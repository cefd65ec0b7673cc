//! The computed fit of a suit: the form it was put on, what is worn where, what was found, and how that was reached.
//!
//! Everything is told in her words and units here; the page turns the lines of [`crate::worn::rings`] and sets marks where this says.
//!
//! **Shapes and units.** Heights in mm over the form's crotch; places on the ladder as shares of its width.
//! **Limits.** A result is as old as the draft it was made of: [`FitView::is_current`].

use cloth::RESERVE_SHARE;
use fit::LEAST_HOLD;
use serde::{Deserialize, Serialize};
use ts_rs::TS;
use units::{Mm, Severity};
use utoipa::ToSchema;

use super::proposed::{ChangedView, ProposedView, changed_views};
use super::solved::{edge_why, level_why};
use super::{RailView, level_key};
use crate::document::Worked;
use crate::order::Order;
use crate::view::form::residuals;
use crate::view::told::{capital, count, finding, sentence, state_of};
use crate::view::{Quantity, ResidualView, State, length, percent, plain, small_length};
use crate::worn::drawing::{HEAVIEST_KPA, is_rung};
use crate::worn::{LevelReport, OnForm, Scene, SceneKind, WornChoice, WornReport};

/// How a suit is to be put on its form.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields, default)]
pub struct PutOnRequest {
    /// How she stands: `standing`, `reach`, `breathe`.
    pub scene: String,
    /// By how much the trunk is longer or the ribs are wider, as typed: `4.5 cm`; empty for a guess.
    pub by: String,
    /// Whether the cloth has been worn before.
    pub settled: bool,
    /// Whether skin and cloth grip each other.
    pub friction: bool,
    /// How fine it is worked out: `coarse`, `usual`, `fine`.
    pub mesh: String,
}

impl Default for PutOnRequest {
    fn default() -> PutOnRequest {
        PutOnRequest {
            scene: "standing".into(),
            by: String::new(),
            settled: false,
            friction: true,
            mesh: "usual".into(),
        }
    }
}

/// Meshes by their word, edges in mm: the corrections' own, the command line's usual one, and one that takes some four times as long.
const MESHES: [(&str, f64); 3] = [
    ("coarse", crate::worn::CORRECTING_MESH_MM),
    ("usual", 10.0),
    ("fine", 7.0),
];

impl PutOnRequest {
    /// What is asked, as the solver takes it.
    ///
    /// # Errors
    /// A sentence, for a word that is none of the choice or a length that cannot be read.
    pub fn choice(&self, unit: units::LengthUnit) -> Result<WornChoice, String> {
        let kind = match self.scene.as_str() {
            "standing" => SceneKind::Standing,
            "reach" => SceneKind::Reach,
            "breathe" => SceneKind::Breathe,
            other => return Err(format!("there is no way to stand called {other}")),
        };
        let mesh_mm = MESHES.iter().find(|(word, _)| *word == self.mesh).map(|m| m.1);
        let by = self.by.trim();
        let is_measured = kind != SceneKind::Standing && !by.is_empty();
        let by_mm = if is_measured {
            let mm = units::parse_length(by, unit).map_err(|_| format!("{by} is no length: write 4.5 cm"))?;
            let (low, high) = crate::worn::SCENE_RANGE_MM;
            if !(low..=high).contains(&mm.get()) {
                let said = |mm: f64| length(Mm::new(mm), unit).text();
                return Err(format!("{by} is not between {} and {}", said(low), said(high)));
            }
            mm.get()
        } else {
            kind.usual_mm()
        };
        Ok(WornChoice {
            mesh_mm: mesh_mm.ok_or_else(|| format!("there is no mesh called {}", self.mesh))?,
            friction: if self.friction {
                WornChoice::default().friction
            } else {
                0.0
            },
            scene: Scene {
                kind,
                by_mm,
                is_measured,
            },
            is_settled: self.settled,
        })
    }
}

/// The computed fit of a suit, as far as it is known.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct WornView {
    /// Why it cannot be put on a form now; none when it can be tried.
    pub cannot: Option<String>,
    /// What is at work for this suit.
    pub work: Option<WornWork>,
    /// What came of putting it on last.
    pub fit: Option<FitView>,
    /// What a change would do, looked at and not taken yet.
    pub proposed: Option<ProposedView>,
    /// What is taken when she does not say by how much, in a sentence: of reaching, of breathing in.
    pub guesses: [String; 2],
}

/// A job at work.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct WornWork {
    /// Its id.
    pub job: String,
    /// `put_on`, `try`, `better`.
    pub kind: String,
}

/// A finding whose changes are to be tried.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct TryRequest {
    /// Key of the finding in the result at hand.
    pub finding: String,
}

/// What came of putting a suit on its form.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct FitView {
    /// The same for the same suit put on in the same way.
    pub id: String,
    /// How it was put on.
    pub asked: PutOnRequest,
    /// Whether it is of the draft in force; of an older one otherwise.
    pub is_current: bool,
    /// Whether its seams were judged by the machines, threads and samples of the workroom as they are.
    pub is_of_workroom: bool,
    /// Version of the draft it was made of, as on paper.
    pub version: String,
    /// What came of it, in a sentence.
    pub lead: String,
    /// How it was put on, and what of that is a guess, in sentences.
    pub rests_on: Vec<String>,
    /// Why there is no answer; then nothing is drawn, and all below but `how` and `form` is empty.
    pub why_not: Option<String>,
    /// How the answer was reached, in a sentence.
    pub how: String,
    /// Lowest and highest point of the form, and how far it reaches sideways or forward, mm.
    pub span: [f64; 3],
    /// Levels, top to bottom.
    pub levels: Vec<WornLevelView>,
    /// Rails of the ladder, as shares of its width.
    pub rails: Vec<RailView>,
    /// Where nothing is stretched, as a share of the ladder's width.
    pub zero: f64,
    /// Weights of the rings, from no squeeze to the heaviest: share and words.
    pub weights: Vec<(f64, String)>,
    /// Open edges.
    pub edges: Vec<WornEdgeView>,
    /// The straps in a sentence; empty where there are none.
    pub straps: String,
    /// What was found, the worst first.
    pub found: Vec<WornFound>,
    /// Why pressures are to be compared and not believed; empty when all force was weighed.
    pub relative: String,
    /// The caution beside the squeeze.
    pub caution: String,
    /// How far the form is off her dimensions, the worst first; those that agree are left out.
    pub form: Vec<ResidualView>,
    /// What the rest of them is.
    pub form_says: String,
    /// What was left out of it.
    pub left_out: Vec<String>,
    /// What it does not know of.
    pub not_judged: Vec<String>,
    /// Drawings: name in the address, what it shows, and from where.
    pub drawings: Vec<WornDrawing>,
}

/// A level of a worn suit.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct WornLevelView {
    /// Key: `waist`.
    pub level: String,
    /// Name.
    pub name: String,
    /// Height, mm.
    pub height: f64,
    /// Whether the suit closes round the body there.
    pub closes: bool,
    /// Girth of the body.
    pub body: Option<Quantity>,
    /// Width it is cut to.
    pub cut: Option<Quantity>,
    /// Worn stretch around.
    pub around: Quantity,
    /// Where that is on the ladder.
    pub at: f64,
    /// Between which nine tenths of the level lie.
    pub spread: [f64; 2],
    /// The same in words: `9 to 18 %`.
    pub spread_says: String,
    /// What the quick judgement said, and where that is.
    pub quick: Option<(Quantity, f64)>,
    /// Worn stretch lengthwise.
    pub lengthwise: Quantity,
    /// Lengthwise of front and back, in words; empty where only one of them is there.
    pub front_back: String,
    /// Mean pressure.
    pub squeeze: Quantity,
    /// Worst of what was found at the level.
    pub state: State,
}

/// An open edge of a worn suit, on one piece.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct WornEdgeView {
    /// `Leg, back`.
    pub name: String,
    /// How far it is stretched.
    pub stretch: Quantity,
    /// Pull of its elastic.
    pub elastic: Quantity,
    /// How far it stands off.
    pub off: Quantity,
}

/// Something found of a worn suit.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct WornFound {
    /// Its key among the findings of this result.
    pub key: String,
    /// Good, doubtful, stop.
    pub state: State,
    /// Where.
    pub place: String,
    /// What, with its number.
    pub says: String,
    /// The limit and where it comes from; empty without one.
    pub limit: String,
    /// What to do; empty when good.
    pub next: String,
    /// Where on the form: her left, up, forward, mm; none where it is no one place.
    pub at: Option<[f64; 3]>,
    /// Draft parameters that act on it, to be tried together; empty where none is known.
    pub changes: Vec<ChangedView>,
}

/// A drawing of a worn suit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct WornDrawing {
    /// Its name in the address.
    pub key: String,
    /// What it shows: `Squeeze`.
    pub shows: String,
    /// From where: `From the front`.
    pub from: String,
}

/// How much further than the second rail a ladder reaches: its words stand there.
const ROOM: f64 = 1.3;

/// The ladder's scale: where a per cent of worn stretch lies on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Scale {
    least: f64,
    most: f64,
}

impl Scale {
    /// A scale that holds nothing stretched, both rails and all of these.
    pub(super) fn over(percents: impl Iterator<Item = f64>, reserve: f64) -> Scale {
        let (mut least, mut most) = (0.0_f64, reserve * ROOM);
        for percent in percents {
            least = least.min(percent);
            most = most.max(percent * 1.06);
        }
        Scale { least, most }
    }

    pub(super) fn at(self, percent: f64) -> f64 {
        let share = (percent - self.least) / (self.most - self.least).max(f64::MIN_POSITIVE);
        (share.clamp(0.0, 1.0) * 1e4).round() / 1e4
    }

    /// The two rails, their words in what a girth is stretched by.
    pub(super) fn rails(self, shell_around: f64) -> Vec<RailView> {
        [
            (LEAST_HOLD, "holds", "rail.hold"),
            (RESERVE_SHARE * shell_around, "keeps reserve", "rail.reserve"),
        ]
        .into_iter()
        .map(|(ratio, words, why)| RailView {
            share: self.at(100.0 * ratio),
            words: format!("{} {words}", percent(ratio).text()),
            why: why.to_owned(),
        })
        .collect()
    }
}

/// The result of putting a suit on, in her words.
pub fn fit_view(worked: &Worked, order: &Order, on: &OnForm, asked: &PutOnRequest, id: &str) -> FitView {
    let report = &on.report;
    let solved = report.convergence.solved;
    let unit = worked.unit();
    let rungs: Vec<&LevelReport> = report.levels.iter().filter(|l| is_rung(l)).collect();
    let reserve = 100.0 * RESERVE_SHARE * on.shell_stretch_around;
    let shown = rungs.iter().flat_map(|l| {
        let [low, high] = l.around_spread_percent;
        [low, high, l.around_percent]
    });
    let scale = Scale::over(shown, reserve);
    let (mut low, mut high, mut reach) = (f64::INFINITY, f64::NEG_INFINITY, 0.0_f64);
    for p in on.drawn_points() {
        (low, high) = (low.min(p[1]), high.max(p[1]));
        reach = reach.max(p[0].hypot(p[2]));
    }
    let (form, form_says) = agrees(order, on, unit);
    FitView {
        id: id.to_owned(),
        asked: asked.clone(),
        is_current: true,
        is_of_workroom: true,
        version: report.version.clone(),
        lead: lead(report),
        rests_on: rests_on(report, asked, worked.room.room.is_assumed),
        why_not: (!solved).then(|| sentence(report.convergence.stop)),
        how: how(report),
        span: [low, high, reach].map(|mm| (mm * 10.0).round() / 10.0),
        levels: rungs
            .iter()
            .map(|l| level_view(worked, order, report, l, scale))
            .collect(),
        rails: if rungs.is_empty() {
            Vec::new()
        } else {
            scale.rails(on.shell_stretch_around)
        },
        zero: scale.at(0.0),
        weights: if solved { weights() } else { Vec::new() },
        edges: report
            .edges
            .iter()
            .enumerate()
            .map(|(at, e)| WornEdgeView {
                name: format!("{}, {}", capital(e.edge), e.piece.replace('_', " ")),
                stretch: percent(e.stretch_percent / 100.0).why(edge_why("stretch", at)),
                elastic: plain(e.elastic_n, 1, "N", "newtons").why(edge_why("elastic", at)),
                off: small_length(Mm::new(e.gape_mm.max(0.0).round()), unit).why(edge_why("off", at)),
            })
            .collect(),
        straps: report.strap.map_or_else(String::new, |s| {
            format!(
                "The straps are worn {} longer; a grip of {:.2} keeps them on the shoulder.",
                percent(s.stretch_percent / 100.0).text(),
                s.needed_friction
            )
        }),
        found: found(worked, report),
        relative: relative(report),
        caution: order
            .cautions
            .iter()
            .find(|c| c.id == "pressure")
            .map(|c| c.say.clone())
            .unwrap_or_default(),
        form,
        form_says,
        left_out: report
            .assumed
            .iter()
            .chain(&report.left_out)
            .map(|l| sentence(l))
            .collect(),
        not_judged: report.not_judged.iter().map(|l| sentence(l)).collect(),
        drawings: Vec::new(),
    }
}

fn lead(report: &WornReport) -> String {
    if !report.convergence.solved {
        return "It was put on, and no answer was found.".to_owned();
    }
    let of = |severity| {
        let all = report.found.iter().map(|f| f.finding.severity);
        all.filter(|s| *s == severity).count()
    };
    let (stop, watch) = (of(Severity::Stop), of(Severity::Watch));
    let places = |n: usize| format!("{} place{}", count(n), if n == 1 { "" } else { "s" });
    match (stop, watch) {
        (0, 0) => "Put on and solved: nothing is to be looked at.".to_owned(),
        (0, n) => format!("Put on and solved: {} to be looked at before cutting.", places(n)),
        (n, 0) => format!("Put on and solved: {} where it must not be cut so.", places(n)),
        (n, m) => format!(
            "Put on and solved: {} where it must not be cut so, {} more to be looked at.",
            places(n),
            count(m)
        ),
    }
}

/// What it rests on, and which of that is no more than a guess.
fn rests_on(report: &WornReport, asked: &PutOnRequest, is_assumed: bool) -> Vec<String> {
    let grip = if report.friction > 0.0 {
        format!(
            "Skin and cloth grip with {:.1}, from where the suit is put; dry skin is between 0.31 and 0.90 (Temel et al. 2022, abstract).",
            report.friction
        )
    } else {
        "Nothing grips: the cloth slides to where it is in balance.".to_owned()
    };
    let cloth = if asked.settled {
        "Settled cloth: longer by what its test did not go back."
    } else {
        "New cloth."
    };
    let elastic = if report.elastic_weighed {
        format!(
            "The elastic pulls {:.0} N at double length, as weighed.",
            report.elastic_n
        )
    } else {
        format!(
            "The elastic is counted with {:.0} N at double length: a guess, no source. Weigh it.",
            report.elastic_n
        )
    };
    vec![
        format!("{}.", capital(&report.scene)),
        cloth.to_owned(),
        grip,
        elastic,
        if is_assumed {
            "Seams are held against the stitches of a household zigzag machine: no machine is written down."
        } else {
            "Seams are held against the stitches planned for your machines."
        }
        .to_owned(),
    ]
}

fn how(report: &WornReport) -> String {
    let c = &report.convergence;
    format!(
        "{} steps; the largest force left on a point is {:.0e} N; {} points a side, edges of {:.0} mm. Deepest point inside the body {:.1} mm.",
        c.steps, c.residual_n, c.vertices, c.mesh_mm, c.penetration_mm
    )
}

fn relative(report: &WornReport) -> String {
    if report.cloth_weighed {
        String::new()
    } else {
        "~ The force of this cloth was assumed: compare places, don’t trust the number. Weigh the pull in its stretch test."
            .to_owned()
    }
}

fn weights() -> Vec<(f64, String)> {
    (0..5)
        .map(|i| {
            let share = f64::from(i) / 4.0;
            let more = if i == 4 { " or more" } else { "" };
            (share, format!("{:.1} kPa{more}", HEAVIEST_KPA * share))
        })
        .collect()
}

pub(super) fn signed(ratio: f64) -> Quantity {
    let mut quantity = percent(ratio);
    if ratio > 0.0 && quantity.main != "0" {
        quantity.main.insert(0, '+');
    }
    quantity
}

fn level_view(
    worked: &Worked,
    order: &Order,
    report: &WornReport,
    level: &LevelReport,
    scale: Scale,
) -> WornLevelView {
    let unit = worked.unit();
    let quick = order.fit.ladder.iter().find(|r| r.level == level.level);
    let [low, high] = level.around_spread_percent;
    let mut squeeze = plain(level.pressure_kpa, 2, "kPa", "kilopascals");
    if !report.cloth_weighed {
        squeeze.main.insert(0, '~');
        squeeze.spoken = format!("about {}, relative", squeeze.spoken);
    }
    let at_level = report
        .found
        .iter()
        .map(|f| &f.finding)
        .filter(|f| f.place == level.level.name());
    let worst = at_level.map(|f| f.severity).max().unwrap_or(Severity::Good);
    let front_back = match level.front_back_lengthwise_percent {
        [Some(front), Some(back)] => format!(
            "front {}, back {}",
            signed(front / 100.0).text(),
            signed(back / 100.0).text()
        ),
        _ => String::new(),
    };
    let of_draft = |mm: Option<f64>| mm.filter(|_| level.closes).map(|mm| length(Mm::new(mm), unit));
    WornLevelView {
        level: level_key(level.level),
        name: capital(level.level.name()),
        height: (level.height_mm * 10.0).round() / 10.0,
        closes: level.closes,
        body: of_draft(level.body_mm),
        cut: of_draft(level.cut_mm),
        around: percent(level.around_percent / 100.0).why(level_why("around", level)),
        at: scale.at(level.around_percent),
        spread: [scale.at(low), scale.at(high)],
        spread_says: format!("{low:.0} to {high:.0} %"),
        quick: quick.map(|r| (percent(r.worn), scale.at(100.0 * r.worn))),
        lengthwise: signed(level.lengthwise_percent / 100.0).why(level_why("lengthwise", level)),
        front_back,
        squeeze: squeeze.why(level_why("squeeze", level)),
        state: state_of(worst),
    }
}

fn found(worked: &Worked, report: &WornReport) -> Vec<WornFound> {
    report
        .found
        .iter()
        .enumerate()
        .map(|(i, found)| {
            let note = finding(&found.finding);
            WornFound {
                key: i.to_string(),
                state: note.state,
                place: capital(&note.place.replace('_', " ")),
                says: note.says,
                limit: found
                    .finding
                    .limit
                    .as_ref()
                    .map_or_else(String::new, |l| format!("Limit {}; {}.", l.text, l.source)),
                next: note.next,
                at: found
                    .spot
                    .as_ref()
                    .map(|s| s.at_mm.map(|mm| (mm * 10.0).round() / 10.0)),
                changes: changed_views(worked, &found.changes),
            }
        })
        .collect()
}

/// How far the form is off, and a sentence on the rest.
fn agrees(order: &Order, on: &OnForm, unit: units::LengthUnit) -> (Vec<ResidualView>, String) {
    let all = residuals(&on.form, &order.body, unit);
    let known = all.len();
    let off = on
        .form
        .measures()
        .iter()
        .filter(|m| m.residual_closed_mm().abs() >= AGREES_MM)
        .count();
    let within = length(Mm::new(AGREES_MM), unit).text();
    let says = match (off, known - off) {
        (0, _) => format!("All {known} dimensions of the form are hers within {within}."),
        (_, 0) => String::new(),
        (_, rest) => format!("The other {rest} are hers within {within}."),
    };
    (all.into_iter().take(off).collect(), says)
}

/// A dimension of the form nearer to hers than this agrees, mm: no tape reads better.
const AGREES_MM: f64 = 2.0;

/// What is taken when she does not say by how much: of reaching, of breathing in.
pub fn guesses(unit: units::LengthUnit) -> [String; 2] {
    let said = |kind: SceneKind| length(Mm::new(kind.usual_mm()), unit).text();
    [
        format!(
            "Left empty: a trunk {} longer, a guess, no source. Measure it: the trunk circumference standing, and again with both arms up.",
            said(SceneKind::Reach)
        ),
        format!(
            "Left empty: ribs {} wider, a guess, no source. Measure it: the girth under the bust before and after a deep breath.",
            said(SceneKind::Breathe)
        ),
    ]
}
