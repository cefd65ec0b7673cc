//! What a copied suit has to say, as findings.

use units::{Finding, Limit, Mm, Severity};

use super::CopyRequest;
use super::conflict::{Conflict, Suspect};
use super::ease::DIFFERENCE;
use super::report::{FavouriteCopy, FoundParameter, MeasureMet};

/// All findings of a copy: what contradicts first, then what could not be checked, then what is well.
pub(super) fn findings(request: &CopyRequest<'_>, copy: &FavouriteCopy, ran_out: bool) -> Vec<Finding> {
    let mut findings = Vec::new();
    match &copy.conflict {
        Some(conflict) => conflicting(copy, conflict, &mut findings),
        None => findings.push(agreement(copy)),
    }
    if ran_out {
        findings.push(Finding {
            code: "drawer.copy_unsettled",
            severity: Severity::Watch,
            place: "the whole suit".into(),
            message: "the search for the closest suit was ended before it came to rest".into(),
            value: None,
            limit: None,
            remedy: "look at the measures that are met worst, and take them again".into(),
        });
    }
    unchecked(copy, &mut findings);
    for parameter in copy.parameters.iter().filter(|p| p.is_at_bound) {
        findings.push(at_bound(parameter));
    }
    for held in &copy.held {
        findings.push(Finding {
            code: "drawer.copy_held",
            severity: Severity::Watch,
            place: held.parameter.name().into(),
            message: held.why.into(),
            value: Some(held.value),
            limit: None,
            remedy: "set it by hand if you know better".into(),
        });
    }
    seat(copy, &mut findings);
    cloths(request, copy, &mut findings);
    findings
}

fn agreement(copy: &FavouriteCopy) -> Finding {
    let worst = copy.measures.iter().max_by(|a, b| {
        let size = |m: &MeasureMet| m.standardised.map_or(0.0, f64::abs);
        size(a).total_cmp(&size(b))
    });
    Finding {
        code: "drawer.copy_agrees",
        severity: Severity::Good,
        place: "the whole suit".into(),
        message: match worst {
            Some(w) => format!(
                "the measures agree; the {} is met worst, by {:.0} mm",
                w.measure.name(),
                (w.drafted - w.taken).abs().get()
            ),
            None => "the measures agree".into(),
        },
        value: worst.and_then(|w| w.standardised).map(f64::abs),
        limit: worst.and_then(|w| w.limit).map(shown),
        remedy: String::new(),
    }
}

fn shown(limit: f64) -> Limit {
    Limit {
        text: format!("{limit:.1} times what it varies by"),
        source: "own",
    }
}

fn conflicting(copy: &FavouriteCopy, conflict: &Conflict, findings: &mut Vec<Finding>) {
    let need = |change: Mm| {
        let way = if change.get() > 0.0 { "more" } else { "less" };
        format!("{:.0} mm {way}", change.abs().get())
    };
    let Some(first) = conflict.suspects.first() else {
        findings.push(Finding {
            code: "drawer.copy_conflict",
            severity: Severity::Stop,
            place: "the whole suit".into(),
            message: "the measures contradict each other, and none of them can be left out".into(),
            value: None,
            limit: None,
            remedy: "measure the suit again, all of it".into(),
        });
        return;
    };
    let listed = |suspects: &[&Suspect]| {
        let each: Vec<String> = suspects
            .iter()
            .map(|s| format!("{} ({})", s.measure.name(), need(s.change())))
            .collect();
        each.join(", ")
    };
    let tied: Vec<&Suspect> = conflict.as_likely().skip(1).collect();
    let less: Vec<&Suspect> = conflict
        .suspects
        .iter()
        .skip(1 + tied.len())
        .filter(|s| s.rest_agrees)
        .collect();
    let mut message = format!(
        "most likely mis-measured: {:.0} mm would need {}",
        first.taken.get(),
        need(first.change())
    );
    if !tied.is_empty() {
        message += &format!("; as likely {}", listed(&tied));
    }
    if !less.is_empty() {
        message += &format!("; less likely {}", listed(&less));
    }
    message += match (conflict.left_out.is_some(), first.rest_agrees) {
        (true, _) => "; it was left out, and the others agree",
        (false, true) => "; which of them cannot be told, so nothing was left out",
        (false, false) => "; the others do not agree without it either, so nothing was left out",
    };
    let again: Vec<String> = std::iter::once(first)
        .chain(tied)
        .map(|s| format!("{} ({})", s.measure.name(), s.measure.how()))
        .collect();
    findings.push(Finding {
        code: if conflict.left_out.is_some() {
            "drawer.copy_left_out"
        } else {
            "drawer.copy_conflict"
        },
        severity: if conflict.left_out.is_some() {
            Severity::Watch
        } else {
            Severity::Stop
        },
        place: first.measure.name().into(),
        message,
        value: conflict
            .with_all
            .iter()
            .find(|(m, _)| *m == first.measure)
            .map(|(_, r)| r.abs()),
        limit: Some(shown(first.limit)),
        remedy: match conflict.would_tell {
            Some(tells) => format!(
                "measure also: {} ({}), which tells them apart; or measure again: {}",
                tells.name(),
                tells.how(),
                again.join("; ")
            ),
            None => format!("measure again: {}", again.join("; ")),
        },
    });
    for met in copy
        .measures
        .iter()
        .filter(|m| m.measure != first.measure && m.is_contradicted())
    {
        findings.push(Finding {
            code: "drawer.copy_residual",
            severity: Severity::Watch,
            place: met.measure.name().into(),
            message: format!(
                "would need {} to agree with the others",
                need(met.drafted - met.taken)
            ),
            value: met.standardised.map(f64::abs),
            limit: met.limit.map(shown),
            remedy: format!("measure it again: {}", met.measure.how()),
        });
    }
}

fn unchecked(copy: &FavouriteCopy, findings: &mut Vec<Finding>) {
    for met in copy.measures.iter().filter(|m| !m.is_checked()) {
        findings.push(Finding {
            code: "drawer.copy_unchecked",
            severity: Severity::Watch,
            place: met.measure.name().into(),
            message: match met.smallest_slip {
                None => "no other measure checks this one: it is taken as it is".into(),
                Some(slip) => format!(
                    "the other measures would not show a slip under {:.0} mm: it is taken nearly as it is",
                    slip.get()
                ),
            },
            value: met.smallest_slip.map(Mm::get),
            limit: None,
            remedy: "measure it twice".into(),
        });
    }
}

fn at_bound(parameter: &FoundParameter) -> Finding {
    let unit = parameter.parameter.unit();
    let space = if unit.is_empty() { "" } else { " " };
    let digits = if unit.is_empty() { 2 } else { 0 };
    Finding {
        code: "drawer.copy_at_bound",
        severity: Severity::Watch,
        place: parameter.parameter.name().into(),
        message: format!(
            "ended at {:.digits$}{space}{unit}, as far as can be drafted: the suit may go further",
            parameter.value
        ),
        value: Some(parameter.value),
        limit: None,
        remedy: "check that body, cloth and shapes are those of the suit; sew a toile first".into(),
    }
}

fn seat(copy: &FavouriteCopy, findings: &mut Vec<Finding>) {
    let Some(judged) = &copy.seat else { return };
    let word = format!("{:?}", judged.seat).to_lowercase();
    let is_clear = judged.is_clear();
    findings.push(Finding {
        code: "drawer.copy_seat",
        severity: if is_clear { Severity::Good } else { Severity::Watch },
        place: "seat".into(),
        message: match (is_clear, judged.next) {
            (false, Some(next)) => format!(
                "a {word} seat meets the measures best, but hardly better than a {} one",
                format!("{next:?}").to_lowercase()
            ),
            _ => format!("a {word} seat meets the measures best"),
        },
        value: judged.lead,
        limit: None,
        remedy: if is_clear {
            String::new()
        } else {
            "look at the suit and set the seat by eye".into()
        },
    });
}

fn cloths(request: &CopyRequest<'_>, copy: &FavouriteCopy, findings: &mut Vec<Finding>) {
    if request.old.load != request.new.load {
        findings.push(Finding {
            code: "drawer.copy_loads",
            severity: Severity::Watch,
            place: "both cloths".into(),
            message: format!(
                "the old cloth's stretch was read at {}, the new one's at {}: a share of one is not the same share of the other",
                request.old.load, request.new.load
            ),
            value: None,
            limit: None,
            remedy: "test both in the same way".into(),
        });
    }
    let Some(worst) = copy.ease.worst.filter(|w| w.is_capped) else {
        return;
    };
    let place = worst.ease.level.map_or("lengthwise", |level| level.name());
    findings.push(Finding {
        code: "drawer.copy_ease_capped",
        severity: Severity::Watch,
        place: place.into(),
        message: format!(
            "worn stretch {:.1} % on the old cloth would be {:.1} % on the new one in plain proportion; the draft's limits make it {:.1} %",
            worst.ease.old.percent(),
            worst.ease.proportional.percent(),
            worst.ease.new.percent(),
        ),
        value: Some(worst.ease.difference().abs()),
        limit: Some(Limit {
            text: format!("{DIFFERENCE} of worn stretch"),
            source: "own",
        }),
        remedy: "the copy will feel different there; a cloth with a stretch nearer to the old one keeps the feel".into(),
    });
}
