//! A change tried on: the changed suit drafted, solved and read beside the suit as it is.
//!
//! What a finding proposes is a guess from one number. Here both suits are put on the same form at the correcting mesh, so that the
//! maker sees what the number becomes, what happens at every level, and what else is found or gone.
//!
//! **Shapes and units.** Numbers in the unit of their limit; levels in per cent and kPa.
//! **Limits.** A coarse mesh ([`CORRECTING_MESH_MM`]): compare before and after, take neither for the answer's own numbers.

use body::{FittedForm, TorsoForm};
use draft::draft;
use make::elastic;
use serde::Serialize;
use solve::{BodyField, Change, FlatShape, Found, Reading, Stop, WornSuit, readings, told};
use units::{Level, Limit, Progress, Severity};

use super::changed::changed;
use super::correct::CORRECTING_MESH_MM;
use super::planned::stretches;
use super::{WornChoice, limits_in, sewn, way_in, wear_on};
use crate::order::{Order, judged};
use crate::suit_file::SuitFile;
use crate::workroom_file::Room;

/// A number before and after a change.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PreviewedNumber {
    /// Code of the finding: `worn.share`.
    pub code: &'static str,
    /// What it is of: `waist`, `leg, back`. With the code it names the finding, see [`Found::is_of`].
    pub which: String,
    /// Where, in the maker's words, in the suit as it is; in the changed one where it only is there.
    pub place: String,
    /// The number as it is, and as changed; nothing where the suit has no such place.
    pub value: [Option<f64>; 2],
    /// How it stands, as it is and as changed; nothing likewise.
    pub severity: [Option<Severity>; 2],
    /// The limit it is held against.
    pub limit: Option<Limit>,
}

/// One level before and after a change.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PreviewedLevel {
    /// Which.
    pub level: Level,
    /// Whether the suit as it is closes round the body there.
    pub closes: bool,
    /// Worn stretch around, %, before and after.
    pub around_percent: [f64; 2],
    /// Worn stretch lengthwise, %, before and after.
    pub lengthwise_percent: [f64; 2],
    /// Mean pressure, kPa, before and after.
    pub pressure_kpa: [f64; 2],
}

/// What a change does to the worn suit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Previewed {
    /// What was changed.
    pub changes: Vec<Change>,
    /// Edge length of the mesh both were solved at, mm.
    pub mesh_mm: f64,
    /// Every number that is held against a limit, told of or not.
    pub numbers: Vec<PreviewedNumber>,
    /// Levels, top to bottom.
    pub levels: Vec<PreviewedLevel>,
    /// Findings of the changed suit that the suit as it is has not, or has less severe.
    pub appears: Vec<Found>,
    /// Findings of the suit as it is that the changed one has not, or has less severe.
    pub goes: Vec<Found>,
}

impl Previewed {
    /// The number of a finding before and after.
    pub fn number(&self, code: &str, which: &str) -> Option<&PreviewedNumber> {
        self.numbers.iter().find(|n| n.code == code && n.which == which)
    }
}

/// Tries changes on: drafts and solves the suit as it is and as changed, at the correcting mesh.
///
/// # Errors
/// In words: a parameter that is not known, a draft refused, a suit that has no place on the form or is not solved, or whoever
/// waited asked to stop.
pub fn preview(
    suit: &SuitFile,
    order: &Order,
    changes: &[Change],
    choice: WornChoice,
    progress: &dyn Progress,
) -> Result<Previewed, String> {
    Trier::new(suit, order, &Room::default(), choice, progress)?.try_on(changes, progress)
}

/// A suit as it is, solved once, to try changes on.
pub(crate) struct Trier<'a> {
    suit: &'a SuitFile,
    order: &'a Order,
    room: &'a Room,
    choice: WornChoice,
    form: FittedForm,
    field: BodyField,
    before: Tried,
}

struct Tried {
    worn: WornSuit,
    readings: Vec<Reading>,
    /// What a changed suit starts from.
    shape: FlatShape,
}

impl<'a> Trier<'a> {
    pub(crate) fn new(
        suit: &'a SuitFile,
        order: &'a Order,
        room: &'a Room,
        choice: WornChoice,
        progress: &dyn Progress,
    ) -> Result<Trier<'a>, String> {
        let choice = WornChoice {
            mesh_mm: choice.mesh_mm.max(CORRECTING_MESH_MM),
            ..choice
        };
        let body = choice.scene.body(suit, order)?;
        let torso = TorsoForm::of(body.form).map_err(|e| e.to_string())?;
        let form = torso.fitted(&body).map_err(|e| e.to_string())?;
        progress.at(0, 1, "making the form's skin");
        let field = BodyField::for_suit(&form, &order.draft);
        let before = tried((suit, order, room), (&form, &field), None, &[], choice, progress)
            .map_err(|reason| format!("the suit as it is: {reason}"))?;
        Ok(Trier {
            suit,
            order,
            room,
            choice,
            form,
            field,
            before,
        })
    }

    pub(crate) fn try_on(&self, changes: &[Change], progress: &dyn Progress) -> Result<Previewed, String> {
        let (suit, form) = ((self.suit, self.order, self.room), (&self.form, &self.field));
        let after = tried(
            suit,
            form,
            Some(&self.before.shape),
            changes,
            self.choice,
            progress,
        )
        .map_err(|reason| format!("the changed suit: {reason}"))?;
        Ok(compared(changes, self.choice.mesh_mm, &self.before, &after))
    }
}

fn tried(
    (suit, order, room): (&SuitFile, &Order, &Room),
    (form, field): (&FittedForm, &BodyField),
    near: Option<&FlatShape>,
    changes: &[Change],
    choice: WornChoice,
    progress: &dyn Progress,
) -> Result<Tried, String> {
    let design = changed(&suit.design, changes)?;
    let drafted = draft(&order.body, &order.cloth, &design).map_err(|e| e.to_string())?;
    let plans = elastic(&drafted, &suit.elastic);
    let (mut mesh, weighed) = sewn(suit, order, &drafted, &plans, choice)?;
    let worn = wear_on(&mut mesh, &drafted, (form, field), near, choice, progress)?;
    if worn.solved.stop != Stop::Converged {
        return Err(worn.solved.stop.words().to_owned());
    }
    let stretches = stretches(&drafted, &mesh, &worn);
    let limits = limits_in((suit, order, room), weighed, stretches.as_ref());
    let mut readings = readings(&mesh, &worn, &design, &limits);
    let judged = judged(&order.body, &order.cloth, &drafted, &plans, &suit.elastic);
    let ways = way_in(&judged).into_iter();
    readings.extend(ways.map(|found| Reading { found, is_told: true }));
    let shape = FlatShape::new(&mesh, &worn.solved.positions, field);
    Ok(Tried {
        worn,
        readings,
        shape,
    })
}

fn compared(changes: &[Change], mesh_mm: f64, before: &Tried, after: &Tried) -> Previewed {
    let (was, is) = (told(&before.readings), told(&after.readings));
    let worse = |all: &[Found], f: &Found| {
        let other = all.iter().find(|o| o.is_of(f));
        let than = other.map_or(Severity::Good, |o| o.finding.severity);
        f.finding.severity > than
    };
    Previewed {
        changes: changes.to_vec(),
        mesh_mm,
        numbers: numbers(&before.readings, &after.readings),
        levels: levels(&before.worn, &after.worn),
        appears: is.iter().filter(|f| worse(&was, f)).cloned().collect(),
        goes: was.iter().filter(|f| worse(&is, f)).cloned().collect(),
    }
}

/// Numbers of both, each once: the suit's own in their order, then what only the changed one has.
fn numbers(before: &[Reading], after: &[Reading]) -> Vec<PreviewedNumber> {
    let mut all: Vec<PreviewedNumber> = Vec::new();
    for reading in before.iter().chain(after) {
        let found = &reading.found;
        let (code, which) = (found.finding.code, &found.which);
        if all.iter().any(|n| n.code == code && n.which == *which) {
            continue;
        }
        let at = |readings: &[Reading]| {
            let own = readings.iter().map(|r| &r.found).find(|f| f.is_of(found));
            own.map(|f| (f.finding.value, f.finding.severity))
        };
        let both = [at(before), at(after)];
        all.push(PreviewedNumber {
            code,
            which: which.clone(),
            place: found.finding.place.clone(),
            value: both.map(|b| b.and_then(|(value, _)| value)),
            severity: both.map(|b| b.map(|(_, severity)| severity)),
            limit: found.finding.limit.clone(),
        });
    }
    all
}

fn levels(before: &WornSuit, after: &WornSuit) -> Vec<PreviewedLevel> {
    let percent = |l: f64| (l - 1.0) * 100.0;
    before
        .levels
        .iter()
        .filter_map(|a| {
            let b = after.levels.iter().find(|b| b.level == a.level)?;
            Some(PreviewedLevel {
                level: a.level,
                closes: a.closes,
                around_percent: [percent(a.around), percent(b.around)],
                lengthwise_percent: [percent(a.lengthwise), percent(b.lengthwise)],
                pressure_kpa: [a.pressure_kpa, b.pressure_kpa],
            })
        })
        .collect()
}
