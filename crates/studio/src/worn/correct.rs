//! A better draft from a worn suit: which parameters, what is wanted, and the suit file with them set.
//!
//! Wanted is what the draft meant: at every level that closes, front and back, around and lengthwise, within soft ceilings for
//! pressure, straps, gaping edges and the way in. The highest pressure of the panels has a hard one: what it was, or the limit the findings
//! warn at where it was lower (own). The draft's own parameters are set: the fit's two shares and the corrections for the
//! figure. The form stays; each try is drafted, meshed and solved, going on from how the suit itself is worn.
//!
//! **Shapes and units.** Shares; mm on the body.
//! **Limits.** A coarser mesh than the answer's own ([`CORRECTING_MESH_MM`]); levels' means, not every place.

use body::{BodyForm, FittedForm, TorsoForm};
use cloth::{Fit, OWN_AROUND, OWN_LENGTHWISE, OwnFit, length_factor};
use draft::{Design, draft};
use make::elastic;
use serde::Serialize;
use solve::{
    Answer, BodyField, Change, Corrected, FlatShape, GAPE_WATCH_MM, Knob, Stop, WornSuit, correct, found,
};
use units::{Level, Mm, Progress, Silent};

use super::changed::is_length;
use super::{WornChoice, limits, sewn, wear_on};
use crate::order::{Order, judged};
use crate::suit_file::SuitFile;

/// Edges of the mesh while trying, mm.
pub const CORRECTING_MESH_MM: f64 = 14.0;
/// Rounds of the correction.
const ROUNDS: usize = 4;
/// A proposal that gains less than this share is not worth a new toile.
pub const WORTH_GAIN: f64 = 0.10;
/// Weights of the soft terms (own): a pressure half over its limit, a strap 10 % past its own, an edge 10 mm off and an opening 10 % short each
/// count as much as a level that is worn some 3 to 5 % off what was meant.
const PRESSURE_WEIGHT: f64 = 0.08;
const STRAP_WEIGHT: f64 = 0.4;
const GAPE_WEIGHT: f64 = 0.003;
const WAY_IN_WEIGHT: f64 = 0.4;
/// An opening past this share of what cloth or elastic has is short.
const WAY_IN_SHARE: f64 = 0.85;

/// What a correction proposes.
#[derive(Clone, Debug, Serialize)]
pub struct Correction {
    /// Parameters to set; empty when nothing worth it was found.
    pub changes: Vec<Change>,
    /// Objective before.
    pub before: f64,
    /// Objective after.
    pub after: f64,
    /// Share by which it fell.
    pub gain: f64,
    /// Drafts tried.
    pub tried: usize,
    /// Levels before and after.
    pub levels: Vec<CorrectedLevel>,
    /// Greatest pressure of a panel over a thumb's breadth, kPa, before and after.
    pub peak_kpa: [f64; 2],
    /// Parameters that do nothing to this suit.
    pub idle: Vec<&'static str>,
    /// Why there is no proposal, if there is none.
    pub why_not: Option<&'static str>,
}

/// One level before and after.
#[derive(Clone, Debug, Serialize)]
pub struct CorrectedLevel {
    /// Which.
    pub level: Level,
    /// Meant around, %.
    pub meant_percent: f64,
    /// Worn around, %, before and after.
    pub around_percent: [f64; 2],
    /// Meant lengthwise, %.
    pub meant_lengthwise_percent: f64,
    /// Worn lengthwise, %, before and after.
    pub lengthwise_percent: [f64; 2],
}

/// What is wanted at a level.
struct Wanted {
    level: Level,
    around: f64,
    /// Lengthwise, of front and back.
    lengthwise: [f64; 2],
}

/// A design as the knobs set it.
fn designed(design: &Design, knobs: &[Knob], values: &[f64]) -> Option<Design> {
    let mut design = design.clone();
    let at = |key: &str| {
        knobs
            .iter()
            .zip(values)
            .find(|(k, _)| k.key == key)
            .map(|(_, v)| *v)
    };
    design.fit = Fit::Own(OwnFit::new(at("fit_around")?, at("fit_lengthwise")?).ok()?);
    let figure = &mut design.figure;
    for (slot, key) in [
        (&mut figure.sway_back, "figure.sway_back"),
        (&mut figure.seat, "figure.seat"),
        (&mut figure.abdomen, "figure.abdomen"),
        (&mut figure.bust_height, "figure.bust_height"),
        (&mut figure.rise_length, "figure.rise_length"),
        (&mut figure.shoulder_forward, "figure.shoulder_forward"),
    ] {
        if let Some(mm) = at(key) {
            *slot = Mm::new(mm);
        }
    }
    Some(design)
}

fn knobs(suit: &SuitFile) -> Vec<Knob> {
    let (design, figure) = (&suit.design, &suit.design.figure);
    let knob = |key: &'static str, value: f64, (low, high): (f64, f64), change| Knob {
        key,
        value: value.clamp(low, high),
        low,
        high,
        change,
        // Shares to a thousandth, lengths to half a millimetre.
        steps: if is_length(key) { 2.0 } else { 1000.0 },
    };
    let mut knobs = vec![
        knob("fit_around", design.fit.around(), OWN_AROUND, 0.03),
        knob("fit_lengthwise", design.fit.lengthwise(), OWN_LENGTHWISE, 0.05),
        knob("figure.sway_back", figure.sway_back.get(), (0.0, 15.0), 5.0),
        knob("figure.seat", figure.seat.get(), (-20.0, 20.0), 8.0),
        knob("figure.abdomen", figure.abdomen.get(), (0.0, 40.0), 8.0),
        knob("figure.rise_length", figure.rise_length.get(), (-25.0, 25.0), 8.0),
        knob(
            "figure.shoulder_forward",
            figure.shoulder_forward.get(),
            (0.0, 20.0),
            6.0,
        ),
    ];
    if suit.wearer.form == BodyForm::Woman {
        knobs.push(knob(
            "figure.bust_height",
            figure.bust_height.get(),
            (-25.0, 25.0),
            8.0,
        ));
    }
    knobs
}

fn wanted(suit: &SuitFile, order: &Order, worn: &WornSuit) -> Vec<Wanted> {
    let length = |m: f64| 1.0 / length_factor(m, suit.design.fit, order.cloth.lengthwise);
    let closes = |level: Level| worn.levels.iter().any(|l| l.level == level && l.closes);
    let levels = order.draft.levels.iter().filter(|l| closes(l.level));
    levels
        .map(|l| Wanted {
            level: l.level,
            around: 1.0 + l.meant,
            lengthwise: suit.design.length_shares(suit.wearer.form, l.level).map(length),
        })
        .collect()
}

/// What came of a try.
struct Tried {
    worn: WornSuit,
    /// What changed suits start from.
    shape: FlatShape,
    /// How much of its stretch the worst opening is short of.
    short: f64,
    /// Greatest pressure of a panel, over a thumb's breadth.
    peak_kpa: f64,
}

/// One try: the suit with these values on the form. `None` where draft or solve says no.
fn tried(
    (suit, order): (&SuitFile, &Order),
    (form, field): (&FittedForm, &BodyField),
    near: Option<&FlatShape>,
    design: &Design,
    choice: WornChoice,
) -> Option<Tried> {
    let drafted = draft(&order.body, &order.cloth, design).ok()?;
    let plans = elastic(&drafted, &suit.elastic);
    let (mut mesh, weighed) = sewn(suit, order, &drafted, &plans, choice).ok()?;
    let worn = wear_on(&mut mesh, &drafted, (form, field), near, choice, &Silent).ok()?;
    let judged = judged(&order.body, &order.cloth, &drafted, &plans, &suit.elastic);
    let short = judged
        .way_in
        .iter()
        .map(|w| w.elastic_share.unwrap_or(0.0).max(w.cloth_share) - WAY_IN_SHARE)
        .fold(0.0, f64::max);
    if worn.solved.stop != Stop::Converged {
        return None;
    }
    let all = found(&mesh, &worn, design, &limits(order, weighed));
    let peak = all.iter().find(|f| f.finding.code == "worn.pressure");
    let peak_kpa = peak.and_then(|f| f.finding.value).unwrap_or(0.0);
    Some(Tried {
        shape: FlatShape::new(&mesh, &worn.solved.positions, field),
        worn,
        short,
        peak_kpa,
    })
}

fn terms(wanted: &[Wanted], tried: &Tried) -> Vec<f64> {
    let worn = &tried.worn;
    let mut terms = Vec::new();
    for want in wanted {
        let level = worn.levels.iter().find(|l| l.level == want.level);
        let halves = level.map_or([None; 2], |l| l.halves);
        let whole: f64 = halves.iter().flatten().map(|h| h.1).sum();
        for (half, long) in halves.iter().zip(want.lengthwise) {
            let (errors, share) = half.map_or(([0.0; 2], 0.0), |([l, a], area)| {
                ([l - long, a - want.around], area / whole.max(f64::MIN_POSITIVE))
            });
            terms.extend(errors.map(|e| e * share.sqrt()));
        }
    }
    terms.push(PRESSURE_WEIGHT * (tried.peak_kpa / fit::PANEL_WATCH_KPA - 1.0).max(0.0));
    let strap = worn.strap.map_or(0.0, |s| s.stretch - fit::STRAP_WATCH);
    terms.push(STRAP_WEIGHT * strap.max(0.0));
    let gape = worn
        .edges
        .iter()
        .map(|e| e.gape_mm - GAPE_WATCH_MM)
        .fold(0.0, f64::max);
    terms.push(GAPE_WEIGHT * gape);
    terms.push(WAY_IN_WEIGHT * tried.short);
    terms
}

/// Looks for a better draft.
///
/// # Errors
/// In words, when the suit can't be put on its form at all, or whoever waited asked to stop.
pub fn propose(
    suit: &SuitFile,
    order: &Order,
    choice: WornChoice,
    progress: &dyn Progress,
) -> Result<Correction, String> {
    let choice = WornChoice {
        mesh_mm: choice.mesh_mm.max(CORRECTING_MESH_MM),
        ..choice
    };
    let body = choice.scene.body(suit, order)?;
    let torso = TorsoForm::of(body.form).map_err(|e| e.to_string())?;
    let form = torso.fitted(&body).map_err(|e| e.to_string())?;
    let field = BodyField::for_suit(&form, &order.draft);
    let on = (&form, &field);
    let no_start = || "the suit itself is not solved at the mesh a correction tries with".to_owned();
    let before = tried((suit, order), on, None, &suit.design, choice).ok_or_else(no_start)?;
    // Every try starts from how the suit itself is worn.
    let put = |design: &Design| tried((suit, order), on, Some(&before.shape), design, choice);
    let wanted = wanted(suit, order, &before.worn);
    if wanted.is_empty() {
        return Ok(nothing(
            "no level of it closes round the body: there is no girth to correct",
        ));
    }
    let knobs = knobs(suit);
    let ceiling_kpa = before.peak_kpa.max(fit::PANEL_WATCH_KPA);
    let mut try_out = |values: &[f64]| {
        let tried = put(&designed(&suit.design, &knobs, values)?)?;
        Some(Answer {
            terms: terms(&wanted, &tried),
            over: vec![tried.peak_kpa / ceiling_kpa - 1.0],
        })
    };
    let corrected: Corrected = correct(&knobs, ROUNDS, &mut try_out, progress).ok_or_else(no_start)?;
    if corrected.is_stopped {
        return Err("stopped when asked".to_owned());
    }
    let changes = changes(suit, &knobs, &corrected);
    let after = designed(&suit.design, &knobs, &corrected.values)
        .and_then(|design| put(&design))
        .map(|tried| {
            let objective: f64 = terms(&wanted, &tried).iter().map(|t| t * t).sum();
            (tried, objective)
        });
    let first = corrected.objective.first().copied().unwrap_or(0.0);
    let Some((after, objective)) = after.filter(|_| corrected.gain() >= WORTH_GAIN) else {
        return Ok(Correction {
            before: first,
            after: corrected.objective.last().copied().unwrap_or(first),
            gain: corrected.gain(),
            tried: corrected.tried,
            idle: corrected.idle,
            ..nothing(
                "no setting of these parameters brings it a tenth nearer to what was meant and presses no harder",
            )
        });
    };
    Ok(Correction {
        changes,
        before: first,
        after: objective,
        gain: 1.0 - objective / first.max(f64::MIN_POSITIVE),
        tried: corrected.tried,
        levels: compared(&wanted, &before.worn, &after.worn),
        peak_kpa: [before.peak_kpa, after.peak_kpa],
        idle: corrected.idle,
        why_not: None,
    })
}

const fn nothing(why: &'static str) -> Correction {
    Correction {
        changes: Vec::new(),
        before: 0.0,
        after: 0.0,
        gain: 0.0,
        tried: 0,
        levels: Vec::new(),
        peak_kpa: [0.0; 2],
        idle: Vec::new(),
        why_not: Some(why),
    }
}

fn changes(suit: &SuitFile, knobs: &[Knob], found: &Corrected) -> Vec<Change> {
    let (values, starts): (&[f64], Vec<f64>) = (&found.values, knobs.iter().map(|k| k.value).collect());
    let is_own = matches!(suit.design.fit, Fit::Own(_));
    let is_moved = |key: &str| {
        let mut all = knobs.iter().zip(values.iter().zip(&starts));
        all.any(|(k, (v, s))| k.key.starts_with(key) && v != s)
    };
    knobs
        .iter()
        .zip(values.iter().zip(&starts))
        .filter(|(k, (v, s))| v != s || (k.key.starts_with("fit_") && is_moved("fit_")))
        .map(|(k, (to, from))| Change {
            key: k.key,
            from: (is_own || k.key.starts_with("figure.")).then_some(*from),
            to: *to,
        })
        .collect()
}

fn compared(wanted: &[Wanted], before: &WornSuit, after: &WornSuit) -> Vec<CorrectedLevel> {
    let percent = |l: f64| (l - 1.0) * 100.0;
    wanted
        .iter()
        .filter_map(|want| {
            let at = |worn: &WornSuit| worn.levels.iter().find(|l| l.level == want.level).copied();
            let (a, b) = (at(before)?, at(after)?);
            Some(CorrectedLevel {
                level: want.level,
                meant_percent: percent(want.around),
                around_percent: [percent(a.around), percent(b.around)],
                meant_lengthwise_percent: percent(f64::midpoint(want.lengthwise[0], want.lengthwise[1])),
                lengthwise_percent: [percent(a.lengthwise), percent(b.lengthwise)],
            })
        })
        .collect()
}
