//! Why the numbers of a computed fit are what they are: how each is read off the solved suit, and what went in.
//!
//! They are told while the result is made and kept with it: the suit's mesh is gone when somebody asks.
//!
//! **Shapes and units.** Keys as the figures of [`FitView`](super::FitView) carry them: `solved.around.waist`, `solved.edge.2.off`.
//! **Source.** Own solve (crate `solve`), checked against the closed forms of `data/fit`.

use units::{LengthUnit, Mm};

use super::level_key;
use crate::document::Worked;
use crate::view::told::{capital, said};
use crate::view::{Why, percent, plain};
use crate::worn::drawing::is_rung;
use crate::worn::{EdgeReport, LevelReport, OnForm, WornReport};

/// Where every figure of a solve comes from.
const SOURCE: &str = "own solve: the least energy of cloth and elastic on her form; the solver is checked against closed forms, data/fit";

/// Key of a figure of a level: `solved.around.waist`.
pub(super) fn level_why(what: &str, level: &LevelReport) -> String {
    format!("solved.{what}.{}", level_key(level.level))
}

/// Key of a figure of an open edge, by its place among them.
pub(super) fn edge_why(what: &str, at: usize) -> String {
    format!("solved.edge.{at}.{what}")
}

/// The answer for every figure of the result that can be asked.
pub fn fit_whys(worked: &Worked, on: &OnForm) -> Vec<(String, Why)> {
    let (report, unit) = (&on.report, worked.unit());
    let mut whys = Vec::new();
    for level in report.levels.iter().filter(|l| is_rung(l)) {
        whys.push((level_why("around", level), around(report, level, unit)));
        whys.push((level_why("lengthwise", level), lengthwise(report, level)));
        whys.push((level_why("squeeze", level), squeeze(report, level)));
    }
    for (at, edge) in report.edges.iter().enumerate() {
        whys.push((edge_why("stretch", at), stretch(report, edge)));
        whys.push((edge_why("elastic", at), elastic(report, edge)));
        whys.push((edge_why("off", at), off(report, edge, unit)));
    }
    whys
}

fn ratio(per_cent: f64) -> String {
    percent(per_cent / 100.0).text()
}

/// How it was put on, for every figure alike.
fn with_scene(why: Why, report: &WornReport) -> Why {
    why.input("Put on", capital(&report.scene)).input(
        "Worked out",
        format!(
            "{} steps, edges of {:.0} mm",
            report.convergence.steps, report.convergence.mesh_mm
        ),
    )
}

fn around(report: &WornReport, level: &LevelReport, unit: LengthUnit) -> Why {
    let name = level.level.name();
    let [low, high] = level.around_spread_percent;
    let mut why = Why::of(
        format!("Why {} at the {name}, solved?", ratio(level.around_percent)),
        "The mean over the shell’s cloth within a finger’s width of the level: how much wider it is worn than it was cut. Girth over cut \
         width alone does not know where the cloth slides, gapes or shares its pull.",
        SOURCE,
    )
    .sum(format!("mean of (worn / cut - 1) = {:.1} %", level.around_percent))
    .input("Nine tenths of it lie between", format!("{low:.1} and {high:.1} %"));
    if let (true, Some(body), Some(cut)) = (level.closes, level.body_mm, level.cut_mm) {
        let quick = body / cut - 1.0;
        why = why
            .input(format!("Girth at the {name}"), said(Mm::new(body), unit))
            .input("Cut width all round", said(Mm::new(cut), unit))
            .input("Girth / cut width - 1", format!("{:.1} %", 100.0 * quick));
    }
    if let Some(meant) = level.meant_percent {
        why = why.input("Worn stretch meant by the draft", format!("{meant:.1} %"));
    }
    with_scene(why, report)
}

fn lengthwise(report: &WornReport, level: &LevelReport) -> Why {
    let mut why = Why::of(
        format!("Why {} lengthwise at the {}?", ratio(level.lengthwise_percent), level.level.name()),
        "The same mean up and down: how much longer the cloth is worn there than it was cut. Below nought it is slack lengthwise.",
        SOURCE,
    )
    .sum(format!("mean of (worn / cut - 1) = {:.1} %", level.lengthwise_percent));
    for (part, found) in ["Front", "Back"].iter().zip(level.front_back_lengthwise_percent) {
        if let Some(found) = found {
            why = why.input(*part, format!("{found:.1} %"));
        }
    }
    with_scene(why, report)
}

fn squeeze(report: &WornReport, level: &LevelReport) -> Why {
    let why = Why::of(
        format!("Why {:.2} kPa at the {}?", level.pressure_kpa, level.level.name()),
        "The force with which the solved cloth lies on the form, over the area it lies on; the mean of the level.",
        SOURCE,
    )
    .sum(format!("force / area = {:.2} kPa", level.pressure_kpa))
    .input("Worn stretch around", ratio(level.around_percent))
    .input("Worn stretch lengthwise", ratio(level.lengthwise_percent))
    .input("Worn area over cut area", format!("{:.2}", level.area))
    .input(
        "Force of the cloth",
        if report.cloth_weighed {
            "weighed in its stretch test"
        } else {
            "assumed, not weighed: compare places, don’t trust the number"
        },
    );
    with_scene(why, report)
}

/// `the leg, back`.
fn named(edge: &EdgeReport) -> String {
    format!("the {}, {}", edge.edge, edge.piece.replace('_', " "))
}

fn stretch(report: &WornReport, edge: &EdgeReport) -> Why {
    let why = Why::of(
        format!(
            "Why is {} stretched {}?",
            named(edge),
            ratio(edge.stretch_percent)
        ),
        "The edge’s length as it is worn over its length on the flat piece.",
        SOURCE,
    )
    .sum(format!("worn / flat - 1 = {:.1} %", edge.stretch_percent))
    .input("Its run that is stretched most", ratio(edge.most_percent));
    with_scene(why, report)
}

fn elastic(report: &WornReport, edge: &EdgeReport) -> Why {
    let newtons = |n: f64| plain(n, 1, "N", "newtons").text();
    let why = Why::of(
        format!("Why does the elastic of {} pull {}?", named(edge), newtons(edge.elastic_n)),
        "Elastic pulls by how far it is longer than it was cut: by its ratio to the edge and by the stretch of the edge. The mean of the edge.",
        SOURCE,
    )
    .input(
        "Pull at double length",
        format!(
            "{}, {}",
            newtons(report.elastic_n),
            if report.elastic_weighed { "weighed" } else { "a guess, no source: weigh it" }
        ),
    )
    .input("The edge is stretched", ratio(edge.stretch_percent))
    .input("It presses on the body with", format!("{:.0} N a metre", edge.line_load_n_per_m));
    with_scene(why, report)
}

fn off(report: &WornReport, edge: &EdgeReport, unit: LengthUnit) -> Why {
    let why = Why::of(
        format!(
            "Why does {} stand off {}?",
            named(edge),
            said(Mm::new(edge.gape_mm.max(0.0)), unit)
        ),
        "The furthest a point of the edge is from the form’s skin.",
        SOURCE,
    )
    .input(
        "Of its length stands off",
        said(Mm::new(edge.off_mm.max(0.0)), unit),
    )
    .input("The edge is stretched", ratio(edge.stretch_percent));
    with_scene(why, report)
}
