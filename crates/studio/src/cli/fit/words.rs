//! What `slackwater fit` says of a worn suit, as text.

use super::{COLUMNS, Tried};
use crate::cli::console::Console;
use crate::cli::table::{Align, Table, wrap};
use crate::worn::{Correction, WornReport};

pub(super) fn corrected_words(correction: &Correction) -> String {
    let mut out = format!(
        "  off what was meant by {:.2} before, {:.2} after: {:.0} % less; {} drafts tried\n",
        100.0 * correction.before.sqrt(),
        100.0 * correction.after.sqrt(),
        100.0 * correction.gain,
        correction.tried
    );
    if let Some(why) = correction.why_not {
        return out + &format!("  nothing proposed: {why}\n");
    }
    for c in &correction.changes {
        let from = c.from.map_or("as it is".to_owned(), |f| f.to_string());
        let unit = if c.key.starts_with("figure.") { " mm" } else { "" };
        out += &format!("  {}: {from} to {}{unit}\n", c.key, c.to);
    }
    let mut table = Table::new(&[
        ("level", Align::Left),
        ("meant around", Align::Right),
        ("before", Align::Right),
        ("after", Align::Right),
        ("meant lengthwise", Align::Right),
        ("before", Align::Right),
        ("after", Align::Right),
    ]);
    for l in &correction.levels {
        let percent = |p: f64| format!("{p:.1} %");
        table.row(vec![
            l.level.name().to_owned(),
            percent(l.meant_percent),
            percent(l.around_percent[0]),
            percent(l.around_percent[1]),
            percent(l.meant_lengthwise_percent),
            percent(l.lengthwise_percent[0]),
            percent(l.lengthwise_percent[1]),
        ]);
    }
    let [before, after] = correction.peak_kpa;
    out + &table.to_text(2) + &format!("  presses most {before:.2} kPa before, {after:.2} after\n")
}

pub(super) fn text(heading: &str, report: &WornReport, console: &Console<'_>) -> String {
    let c = &report.convergence;
    let passes: Vec<String> = c.passes.iter().map(|(_, steps)| steps.to_string()).collect();
    let mut out = format!(
        "{heading}\nversion {}, {}, {} cloth, friction {:.2}\n{}: {} steps ({}), largest force left {:.0e} N, {} points a side\n",
        report.version,
        report.scene,
        report.cloth,
        report.friction,
        c.stop,
        c.steps,
        passes.join(" + "),
        c.residual_n,
        c.vertices
    );
    for line in report.assumed.iter().chain(&report.left_out) {
        out += &format!("{}\n", wrap(line, COLUMNS, 0));
    }
    out += &form(report, console);
    if !c.solved {
        out += "\nNo answer, and nothing drawn: what a solve has not found is not shown.\n";
        return out;
    }
    out += &format!(
        "\n{}\n{}",
        console.heading("Worn stretch and squeeze"),
        levels(report)
    );
    out += &format!("\n{}\n{}", console.heading("Edges"), edges(report));
    if let Some(s) = report.strap {
        out += &format!(
            "  strap worn {:.0} % longer; a grip of {:.2} keeps it on the shoulder\n",
            s.stretch_percent, s.needed_friction
        );
    }
    out += &held(report);
    out += &format!("\n{}\n{}", console.heading("Seams"), seams(report));
    out += &format!("\n{}\n{}", console.heading("Found"), found(report, console));
    out += &format!("\n{}\n", console.heading("Cautions"));
    for caution in &report.cautions {
        out += &format!("  {}: {}\n", caution.topic, wrap(&caution.say, COLUMNS, 4));
    }
    out += &format!("\n{}\n", console.heading("Not judged"));
    for line in &report.not_judged {
        out += &format!("  {}\n", wrap(line, COLUMNS, 2));
    }
    out
}

/// What holds a top, and what straps and ties pull.
fn held(report: &WornReport) -> String {
    let mut out = String::new();
    for grip in &report.grips {
        let way = if grip.slides_n < 0.0 { "down" } else { "up" };
        out += &format!(
            "  {}: would slide {way} with {:.1} N a side, lies on with {:.1} N; a grip of {:.2} holds it\n",
            grip.what,
            grip.slides_n.abs(),
            grip.lies_on_n,
            grip.needed_friction
        );
    }
    if let Some([front, back]) = report.rode_up_mm {
        out += &format!("  the lower edge rode up {front:.0} mm in front, {back:.0} mm behind\n");
    }
    for tie in &report.ties {
        out += &format!(
            "  {}: {:.0} mm long as worn, {:.0} % longer than at rest, pulls {:.2} N\n",
            tie.what, tie.length_mm, tie.stretch_percent, tie.pull_n
        );
    }
    out
}

fn form(report: &WornReport, console: &Console<'_>) -> String {
    let mut table = Table::new(&[
        ("dimension", Align::Left),
        ("body", Align::Right),
        ("form is off", Align::Right),
        ("", Align::Left),
    ]);
    let mut off: Vec<_> = report.form.iter().filter(|f| f.off_mm.abs() >= 1.0).collect();
    off.sort_by(|a, b| b.off_mm.abs().total_cmp(&a.off_mm.abs()));
    for f in off {
        table.row(vec![
            f.dimension.to_owned(),
            format!("{:.1} cm", f.asked_mm / 10.0),
            format!("{:+.1} cm", f.off_mm / 10.0),
            if f.is_estimate {
                "estimated".to_owned()
            } else {
                String::new()
            },
        ]);
    }
    if table.is_empty() {
        return String::new();
    }
    format!(
        "\n{}\n{}",
        console.heading("The form against the body"),
        table.to_text(2)
    )
}

pub(super) fn levels(report: &WornReport) -> String {
    let mut table = Table::new(&[
        ("level", Align::Left),
        ("around", Align::Right),
        ("meant", Align::Right),
        ("least to most", Align::Right),
        ("lengthwise", Align::Right),
        ("squeeze", Align::Right),
    ]);
    let mark = if report.cloth_weighed { "" } else { "~" };
    let open_too = report.levels.iter().all(|l| !l.closes);
    for l in report.levels.iter().filter(|l| l.closes || open_too) {
        table.row(vec![
            if l.closes {
                l.level.name().to_owned()
            } else {
                format!("{}, open at the side", l.level.name())
            },
            format!("{:.0} %", l.around_percent),
            l.meant_percent
                .filter(|_| l.closes)
                .map_or_else(String::new, |m| format!("{m:.0} %")),
            format!(
                "{:.0} to {:.0} %",
                l.around_spread_percent[0], l.around_spread_percent[1]
            ),
            format!("{:.0} %", l.lengthwise_percent),
            format!("{mark}{:.2} kPa", l.pressure_kpa),
        ]);
    }
    let mut out = table.to_text(2);
    if !report.cloth_weighed {
        out += "  ~ the force of this cloth was assumed: compare levels, don't trust the number\n";
    }
    out
}

fn edges(report: &WornReport) -> String {
    let mut table = Table::new(&[
        ("edge", Align::Left),
        ("stretched", Align::Right),
        ("elastic pulls", Align::Right),
        ("on the body", Align::Right),
        ("stands off", Align::Right),
    ]);
    for e in &report.edges {
        table.row(vec![
            format!("{}, {}", e.edge, e.piece.replace('_', " ")),
            format!("{:.0} %", e.stretch_percent),
            format!("{:.1} N", e.elastic_n),
            format!("{:.0} N/m", e.line_load_n_per_m),
            format!("{:.0} mm", e.gape_mm),
        ]);
    }
    let mut out = table.to_text(2);
    if !report.elastic_weighed {
        out += &format!(
            "  the elastic is counted with {:.0} N at double length: weigh it for a better answer\n",
            report.elastic_n
        );
    }
    out
}

pub(super) fn found(report: &WornReport, console: &Console<'_>) -> String {
    let mut out = String::new();
    for found in &report.found {
        let finding = &found.finding;
        let word = console.severity(finding.severity);
        let pad = " ".repeat(6 - finding.severity.word().len());
        let mut line = format!("{}: {}", finding.place, finding.message);
        if let Some(limit) = &finding.limit {
            line += &format!(" (limit {}; {})", limit.text, limit.source);
        }
        out += &format!("  {word}{pad}{}\n", wrap(&line, COLUMNS, 8));
        if !finding.remedy.is_empty() {
            out += &format!("        -> {}\n", wrap(&finding.remedy, COLUMNS, 11));
        }
        let changes: Vec<String> = found
            .changes
            .iter()
            .map(|c| format!("{} = {}", c.key, c.to))
            .collect();
        if !changes.is_empty() {
            out += &format!("        try {}\n", wrap(&changes.join(", "), COLUMNS, 12));
        }
    }
    out
}

fn seams(report: &WornReport) -> String {
    let mut table = Table::new(&[
        ("seam", Align::Left),
        ("stretched", Align::Right),
        ("most, over 4 cm", Align::Right),
    ]);
    for s in &report.seams {
        let [first, second] = s.pieces.each_ref().map(|p| p.replace('_', " "));
        let pieces = if first == second {
            first
        } else {
            format!("{first} and {second}")
        };
        table.row(vec![
            format!("{}, {pieces}", s.seam),
            format!("{:.0} %", s.stretch_percent),
            format!("{:.0} %", s.most_percent),
        ]);
    }
    let mut out = table.to_text_or_nothing(2);
    out += &format!("  stitches planned {}\n", report.stitches_planned);
    out
}

/// What each try did to the finding that proposed it, and what else came and went.
pub(super) fn tried_words(tried: &[Tried]) -> String {
    if tried.is_empty() {
        return "  no finding proposes a parameter\n".to_owned();
    }
    let mut out = String::new();
    for t in tried {
        let p = &t.previewed;
        let set: Vec<String> = p
            .changes
            .iter()
            .map(|c| format!("{} = {}", c.key, c.to))
            .collect();
        out += &format!("  {}, at {:.0} mm\n", set.join(", "), p.mesh_mm);
        if let Some(n) = p.number(t.code, &t.which) {
            let number = |v: Option<f64>| v.map_or_else(|| "gone".to_owned(), |v| format!("{v:.2}"));
            let limit = n
                .limit
                .as_ref()
                .map_or_else(String::new, |l| format!(", limit {}", l.text));
            let word = |i: usize| n.severity[i].map_or("gone", units::Severity::word);
            let line = format!(
                "{} {}: {} ({}) before, {} ({}) after{limit}",
                t.code,
                n.place,
                number(n.value[0]),
                word(0),
                number(n.value[1]),
                word(1)
            );
            out += &format!("    {}\n", wrap(&line, COLUMNS, 6));
        }
        for (word, list) in [("new or worse", &p.appears), ("gone or less", &p.goes)] {
            for f in list {
                let line = format!("{word}: {}: {}", f.finding.place, f.finding.message);
                out += &format!("    {}\n", wrap(&line, COLUMNS, 6));
            }
        }
    }
    out
}
