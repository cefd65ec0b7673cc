//! The stitches of a plan: what is asked of each, how far it reaches and by what that is known, why it was taken.

use make::{Evidence, StitchChoice, StitchSetting, Workroom};

use super::{Planned, StitchView, Teller};
use crate::view::{Quantity, State, percent, told};

/// All of them, in the order of the plan.
pub(super) fn stitches(planned: &Planned, teller: Teller<'_>) -> Vec<StitchView> {
    let all = &planned.making().stitches;
    all.iter()
        .enumerate()
        .map(|(i, choice)| stitch(planned, i, choice, teller))
        .collect()
}

fn stitch(planned: &Planned, index: usize, choice: &StitchChoice, teller: Teller<'_>) -> StitchView {
    let setting = &choice.setting;
    let words = teller.words();
    let is_stretched = choice.asked > 0.0;
    let mut also = vec![format!(
        "{}: {}.",
        teller.own("sew-set-tension", &[]),
        teller.word(setting.tension)
    )];
    also.extend(setting.also.iter().map(|key| teller.word(key)));
    let need = &choice.need;
    let parts = [
        ("worn", words.percent(need.worn).into()),
        ("movement", words.percent(need.movement).into()),
        ("way_in", words.percent(need.way_in).into()),
    ];
    StitchView {
        job: teller.title(choice.job.key()),
        steps: steps_of(choice, teller),
        seam_class: class_of(choice, teller),
        stitch: teller.word(setting.stitch.key()),
        number: setting
            .iso4915
            .map_or_else(String::new, |n| format!("ISO 4915-{n}")),
        machine: machine_of(&planned.workroom, Some(setting.machine), teller),
        setting: size_of(setting, teller),
        rows: rows_of(setting, teller),
        needle: needle_of(setting, &planned.workroom, teller),
        thread: thread_of(setting, teller),
        also,
        asked: is_stretched.then(|| percent(choice.asked).why(format!("sew.need.{index}"))),
        need: if is_stretched {
            teller.own("sew-need-parts", &parts)
        } else {
            String::new()
        },
        reaches: is_stretched.then(|| percent(choice.extension).why(format!("sew.extension.{index}"))),
        evidence: if is_stretched {
            teller.word(choice.evidence.key())
        } else {
            String::new()
        },
        state: match (&choice.evidence, is_stretched) {
            _ if !choice.is_safe => State::Stop,
            (Evidence::Forecast | Evidence::Practice, true) => State::Estimate,
            _ => State::Good,
        },
        why: choice.why.iter().map(|s| teller.say(s)).collect(),
        runner_up: choice.runner_up.as_ref().map_or_else(String::new, |other| {
            teller.own("sew-runner-up", &[("why", teller.say(&other.why).into())])
        }),
        could: choice.could.iter().map(|s| teller.say(s)).collect(),
    }
}

fn steps_of(choice: &StitchChoice, teller: Teller<'_>) -> String {
    let mut places = choice.steps.clone();
    places.sort_unstable();
    let numbers: Vec<String> = places.iter().map(|at| (at + 1).to_string()).collect();
    teller.own(
        "sew-in-steps",
        &[
            ("count", numbers.len().into()),
            ("steps", numbers.join(", ").into()),
        ],
    )
}

/// `Class 1: superimposed seam`.
pub(super) fn class_of(choice: &StitchChoice, teller: Teller<'_>) -> String {
    let class = choice.seam_class;
    let args = [
        ("number", class.number.to_string().into()),
        ("name", teller.word(class.key).into()),
    ];
    teller.own("sew-class", &args)
}

/// The maker's name for a machine, in the reader's language where it is one of the usual names; empty by hand.
pub(super) fn machine_of(workroom: &Workroom, machine: Option<usize>, teller: Teller<'_>) -> String {
    let Some(machine) = machine.and_then(|m| workroom.machines.get(m)) else {
        return String::new();
    };
    let name = machine.name.trim();
    let known = teller
        .words()
        .find(&format!("workroom-{}", words::slug(name)), &[]);
    told::capital(&known.unwrap_or_else(|| name.to_owned()))
}

/// `5.0 × 1.3`, mm.
pub(super) fn size_of(setting: &StitchSetting, teller: Teller<'_>) -> Quantity {
    let words = teller.words();
    let (width, length) = (setting.width.get(), setting.length.get());
    let long = words.millimetres(length);
    let (main, spoken) = if width > 0.0 {
        let args = [
            ("width", words.millimetres(width).into()),
            ("length", long.into()),
        ];
        (
            format!("{} × {}", words.number(width, 1), words.number(length, 1)),
            teller.own("sew-width-length", &args),
        )
    } else {
        (
            words.number(length, 1),
            teller.own("sew-length-only", &[("length", long.into())]),
        )
    };
    Quantity {
        main,
        spoken,
        unit: "mm".to_owned(),
        ..Quantity::default()
    }
}

/// `two rows`; empty for one.
pub(super) fn rows_of(setting: &StitchSetting, teller: Teller<'_>) -> String {
    match setting.rows {
        0 | 1 => String::new(),
        n => teller.own("sew-rows", &[("count", u32::from(n).into())]),
    }
}

/// `75, ball point`, and that it is not in stock where stock is written down.
fn needle_of(setting: &StitchSetting, workroom: &Workroom, teller: Teller<'_>) -> String {
    let mut parts = vec![setting.needle.size_nm.to_string()];
    parts.extend(needle_words(setting, workroom, teller));
    parts.join(", ")
}

/// What there is to say of a needle besides its size: point, spacing of a twin, stock.
pub(super) fn needle_words(setting: &StitchSetting, workroom: &Workroom, teller: Teller<'_>) -> Vec<String> {
    let mut parts = vec![teller.word(setting.needle.point.key())];
    if let Some(spacing) = setting.needle.twin {
        let spacing = teller.words().millimetres(spacing.get());
        parts.push(teller.own("sew-spacing", &[("spacing", spacing.into())]));
    }
    if !workroom.needles.is_empty() && !setting.has_needle {
        parts.push(teller.own("sew-not-in-stock", &[]));
    }
    parts
}

/// `spun polyester`, or above and below where they differ.
pub(super) fn thread_of(setting: &StitchSetting, teller: Teller<'_>) -> String {
    let (above, below) = (
        teller.word(setting.needle_thread.key()),
        teller.word(setting.under_thread.key()),
    );
    if above == below {
        above
    } else {
        teller.own("sew-threads", &[("above", above.into()), ("below", below.into())])
    }
}
