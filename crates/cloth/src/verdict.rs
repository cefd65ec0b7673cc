//! Whether the cloths are fit for a swimsuit, and the reason where they are not.
//!
//! **Source.** Greatest stretch around and a lining that gives as far as the shell: common practice, no single source.
//! Recovery and growth limits: ours, as in `data/trade/stretch_tests.csv`.

use units::{Finding, Limit, Severity};

use crate::class::stretch_class;
use crate::ease::{Fit, NO_LENGTH_STRETCH, NO_STRETCH_LENGTH_FACTOR};
use crate::plan::LayerPlan;
use crate::planning::{Joined, is_one_way_stretch, lining_at_shell_load};
use crate::reach::LiningReach;
use crate::swatch::Swatch;

/// Recovery below this is poor (own).
pub const LEAST_RECOVERY: f64 = 0.90;
/// Growth above this a minute after letting go is poor (own; `stretch_tests.csv`, household growth test).
pub const MOST_GROWTH: f64 = 0.05;
/// With less stretch around than this and none lengthwise a one-piece needs an opening (own).
pub const ONE_PIECE_STRETCH: f64 = 0.35;
/// Shell and lining whose shrinkage differs by more pucker after the wash (own: 1 % of 300 mm side seam is 3 mm).
pub const MOST_SHRINKAGE_DIFFERENCE: f64 = 0.01;

fn good(code: &'static str, place: String, message: String, value: f64, limit: Limit) -> Finding {
    Finding {
        code,
        severity: Severity::Good,
        place,
        message,
        value: Some(value),
        limit: Some(limit),
        remedy: String::new(),
    }
}

/// Judges the stretch the draft works with: class, both ways, which way is greater.
pub(crate) fn stretch(joined: &Joined, findings: &mut Vec<Finding>) {
    let place = || "cloth on the body".to_owned();
    let (around, lengthwise) = (joined.around, joined.lengthwise);
    let class = stretch_class(around);
    let band = |(low, high): (f64, f64)| {
        if low == high {
            format!("{low:.0} %")
        } else {
            format!("{low:.0} to {high:.0} %")
        }
    };
    findings.push(Finding {
        code: "cloth.class",
        severity: Severity::Good,
        place: place(),
        message: format!(
            "{} stretch ({around} around, {}): shop patterns take {} off the girth and {} off the length",
            class.name,
            joined.load,
            band(class.girth_reduction_percent),
            band(class.length_reduction_percent)
        ),
        value: Some(around.percent()),
        limit: Some(Limit {
            text: format!("{:.0} to {:.0} %", class.from_percent, class.to_percent),
            source: "common practice, no single source",
        }),
        remedy: String::new(),
    });
    let least = Limit {
        text: format!("{:.0} % lengthwise", NO_LENGTH_STRETCH * 100.0),
        source: "own",
    };
    if !is_one_way_stretch(joined) {
        findings.push(good(
            "cloth.two_way_stretch",
            place(),
            format!("stretches both ways: {around} around, {lengthwise} lengthwise"),
            lengthwise.percent(),
            least,
        ));
    } else {
        findings.push(Finding {
            code: "cloth.two_way_stretch",
            severity: Severity::Watch,
            place: place(),
            message: format!(
                "hardly stretches lengthwise ({lengthwise}): the suit is cut {:.1} % longer instead of shorter",
                (NO_STRETCH_LENGTH_FACTOR - 1.0) * 100.0
            ),
            value: Some(lengthwise.percent()),
            limit: Some(least),
            remedy: "fit a toile in bending and reaching before cutting, or choose a cloth that stretches both ways"
                .to_owned(),
        });
        if around.ratio() < ONE_PIECE_STRETCH {
            findings.push(Finding {
                code: "cloth.one_piece_opening",
                severity: Severity::Stop,
                place: "one-piece".to_owned(),
                message: format!(
                    "{around} around and {lengthwise} lengthwise: a one-piece of this can't be put on without an opening"
                ),
                value: Some(around.percent()),
                limit: Some(Limit {
                    text: format!("{:.0} % around", ONE_PIECE_STRETCH * 100.0),
                    source: "own",
                }),
                remedy: "make a two-piece, put in an opening, or choose a cloth that stretches further".to_owned(),
            });
        }
    }
    if around < lengthwise {
        findings.push(Finding {
            code: "cloth.lesser_stretch_around",
            severity: Severity::Watch,
            place: place(),
            message: format!("the lesser stretch lies around: {around} around, {lengthwise} lengthwise"),
            value: Some(around.percent()),
            limit: Some(Limit {
                text: format!("{:.0} % around", lengthwise.percent()),
                source: "common practice, no single source",
            }),
            remedy: "turn the cloth so that its greatest stretch lies around the body".to_owned(),
        });
    }
}

/// Judges what comes back after the pull, direction by direction.
pub(crate) fn recovery(swatch: &Swatch, plan: &LayerPlan, findings: &mut Vec<Finding>) {
    let place = || format!("{}, {}", plan.layer.name(), swatch.name());
    let directions = [("along", swatch.along()), ("across", swatch.across())];
    let mut read = 0;
    let mut poor = 0;
    let mut least = 1.0_f64;
    for (direction, tested) in directions {
        let (Some(recovery), Some(growth)) = (tested.recovery, tested.growth()) else {
            continue;
        };
        read += 1;
        least = least.min(recovery);
        if recovery < LEAST_RECOVERY || growth > MOST_GROWTH {
            poor += 1;
            findings.push(Finding {
                code: "cloth.recovery",
                severity: Severity::Watch,
                place: place(),
                message: format!(
                    "poor recovery {direction}: {:.0} % of the stretch goes back, it stays {:.0} % longer",
                    recovery * 100.0,
                    growth * 100.0
                ),
                value: Some(recovery * 100.0),
                limit: Some(Limit {
                    text: format!(
                        "{:.0} % recovery, {:.0} % growth",
                        LEAST_RECOVERY * 100.0,
                        MOST_GROWTH * 100.0
                    ),
                    source: "own",
                }),
                remedy: "expect it to bag after an hour's wear: choose another cloth or a firmer fit"
                    .to_owned(),
            });
        }
    }
    if read < directions.len() {
        findings.push(Finding {
            code: "cloth.recovery",
            severity: Severity::Watch,
            place: place(),
            message: "its recovery was not read in both directions".to_owned(),
            value: None,
            limit: None,
            remedy: "after the pull let the strip lie for a minute and read the length again".to_owned(),
        });
    } else if poor == 0 {
        findings.push(good(
            "cloth.recovery",
            place(),
            format!("goes back at least {:.0} % of its stretch", least * 100.0),
            least * 100.0,
            Limit {
                text: format!("{:.0} %", LEAST_RECOVERY * 100.0),
                source: "own",
            },
        ));
    }
}

/// Judges whether the lining gives as far as the shell wherever both are worn together.
pub(crate) fn lining(
    joined: &Joined,
    shell: &LayerPlan,
    lining: &LayerPlan,
    reach: LiningReach,
    findings: &mut Vec<Finding>,
) {
    let place = || format!("lining, {}", lining.cloth);
    let source = "common practice, no single source";
    let Some((around, lengthwise)) = lining_at_shell_load(shell, lining) else {
        findings.push(Finding {
            code: "cloth.lining_stretch",
            severity: Severity::Watch,
            place: place(),
            message: format!(
                "its test ({}) can't be compared with the shell's ({})",
                lining.load, shell.load
            ),
            value: None,
            limit: None,
            remedy: "test both by hand, or both with the same weight on strips of one width".to_owned(),
        });
        return;
    };
    // The crotch is a set width and not stretched around; elsewhere even a relaxed fit stretches both ways.
    let relaxed = Fit::Relaxed;
    let worn_around = if reach == LiningReach::CrotchOnly {
        0.0
    } else {
        relaxed.around() * joined.around.ratio()
    };
    let worn_lengthwise = relaxed.lengthwise() * joined.lengthwise.ratio();
    let mut is_good = true;
    for (direction, has, shell_has, worn) in [
        ("around", around, shell.around, worn_around),
        ("lengthwise", lengthwise, shell.lengthwise, worn_lengthwise),
    ] {
        if has >= shell_has {
            continue;
        }
        is_good = false;
        let is_stop = has.ratio() < worn;
        findings.push(Finding {
            code: "cloth.lining_stretch",
            severity: if is_stop { Severity::Stop } else { Severity::Watch },
            place: place(),
            message: if is_stop {
                format!(
                    "stretches {has} {direction}, but even a relaxed fit wears it {:.0} % stretched",
                    worn * 100.0
                )
            } else {
                format!("stretches less than the shell {direction}: {has} against {shell_has}")
            },
            value: Some(has.percent()),
            limit: Some(Limit {
                text: if is_stop {
                    format!("{:.0} %", worn * 100.0)
                } else {
                    format!("{:.0} %", shell_has.percent())
                },
                source,
            }),
            remedy: if is_stop {
                "choose a lining that stretches at least as far as the shell".to_owned()
            } else {
                "choose a lining that stretches further, or test both together and let the draft use that"
                    .to_owned()
            },
        });
    }
    if is_good {
        findings.push(good(
            "cloth.lining_stretch",
            place(),
            format!("stretches at least as far as the shell: {around} around, {lengthwise} lengthwise"),
            around.percent(),
            Limit {
                text: format!(
                    "{:.0} % around, {:.0} % lengthwise",
                    shell.around.percent(),
                    shell.lengthwise.percent()
                ),
                source,
            },
        ));
    }
}

/// Judges shrinkage still to come. The first cloth is the shell, whose shrinkage the draft allows for.
pub(crate) fn shrinkage(swatches: &[(&Swatch, &LayerPlan)], findings: &mut Vec<Finding>) {
    let Some(((shell, shell_plan), others)) = swatches.split_first() else {
        return;
    };
    let to_come = shell.shrinkage_to_come(shell_plan.orientation);
    if to_come.0 > 0.0 || to_come.1 > 0.0 {
        findings.push(Finding {
            code: "cloth.shrinkage",
            severity: Severity::Good,
            place: format!("shell, {}", shell.name()),
            message: format!(
                "shrinks {:.1} % around and {:.1} % lengthwise in the first wash: the pieces are cut that much larger",
                to_come.0 * 100.0,
                to_come.1 * 100.0
            ),
            value: Some(to_come.0.max(to_come.1) * 100.0),
            limit: None,
            remedy: String::new(),
        });
    }
    for (swatch, plan) in others {
        let other = swatch.shrinkage_to_come(plan.orientation);
        let difference = (to_come.0 - other.0).abs().max((to_come.1 - other.1).abs());
        // 3 % against 2 % is a difference of 1 %, whatever binary fractions make of it.
        if difference > MOST_SHRINKAGE_DIFFERENCE + 1e-9 {
            findings.push(Finding {
                code: "cloth.shrinkage_differs",
                severity: Severity::Watch,
                place: format!("shell and {}", plan.layer.name()),
                message: format!(
                    "{} and {} will shrink differently in the first wash, by {:.1} %",
                    shell.name(),
                    swatch.name(),
                    difference * 100.0
                ),
                value: Some(difference * 100.0),
                limit: Some(Limit {
                    text: format!("{:.0} %", MOST_SHRINKAGE_DIFFERENCE * 100.0),
                    source: "own",
                }),
                remedy: "wash both before cutting".to_owned(),
            });
        }
    }
}
