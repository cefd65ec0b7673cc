//! `slackwater check`: what is known of a suit before anything is cut.
//!
//! Printed in the order a maker works: her dimensions, the cloths, the ladder from top to bottom, the openings, then every
//! finding with what to do. Good findings are counted, not listed: a page of praise hides the one line that matters.

use std::path::PathBuf;

use body::{Dimension, Need, Origin};
use clap::Args;
use cloth::{Layer, Load};
use units::{Finding, Mm, Severity};

use super::console::Console;
use super::fit::{Told, Worn, room_of, solved};
use super::room::RoomArgs;
use super::table::{Align, Table, wrap};
use super::{Outcome, Trouble, read_suit};
use crate::laying::{Lays, quick_lays};
use crate::order::{Order, is_idle, work_out};
use crate::report::report;
use crate::suit_file::SuitFile;

#[derive(Debug, Args)]
// What is planned for a workroom is asked of the worn suit only.
#[command(mut_arg("workroom", |room| room.requires("solve")))]
pub(super) struct CheckArgs {
    /// The suit file; `-` for standard input.
    file: PathBuf,
    /// List the good findings too.
    #[arg(long)]
    all: bool,
    /// Put the suit on the wearer's form and solve it too; a style that can't be put on is told with its reason.
    #[arg(long)]
    solve: bool,
    #[command(flatten)]
    room: RoomArgs,
}

/// Columns of the text.
const COLUMNS: usize = 100;

pub(super) fn run(args: &CheckArgs, console: &mut Console<'_>) -> Result<Outcome, Trouble> {
    let suit = read_suit(&args.file)?;
    let room = room_of(&args.room)?;
    let order = work_out(&suit)?;
    let lays = quick_lays(&suit, &order.draft);
    let worn = if args.solve {
        Some(solved(&suit, &order, &room, console.manner.progress)?)
    } else {
        None
    };
    if console.manner.json {
        console.print_json(&Told {
            report: report(&suit, &order, &lays),
            worn: worn.as_ref().map(Worn::told),
        })?;
    } else {
        let mut text = text(&suit, &order, &lays, args.all, console);
        if let Some(worn) = &worn {
            text += &worn.words(console);
        }
        console.print(&text)?;
    }
    let solved = match &worn {
        Some(Worn::On(on)) => on.report.worst(),
        _ => Severity::Good,
    };
    Ok(match order.worst().max(solved) {
        Severity::Stop => Outcome::Stop,
        Severity::Good | Severity::Watch => Outcome::Done,
    })
}

fn text(suit: &SuitFile, order: &Order, lays: &Lays, all: bool, console: &Console<'_>) -> String {
    let mut out = format!(
        "{}\nfor {}, version {}\n",
        console.heading(&suit.name),
        suit.wearer.name,
        order.version
    );
    let mut part = |title: &str, body: String| {
        if !body.is_empty() {
            out += &format!("\n{}\n{body}", console.heading(title));
        }
    };
    part("Doubtful dimensions", doubtful(order));
    part("Dimensions estimated", estimated(suit, order));
    part("Cloth", cloth(order));
    part("Stretch ladder", ladder(order, console));
    part("Way in", way_in(order, console));
    part("Torso loop", torso_loop(order));
    part("Elastic", elastic(order));
    part("To buy", to_buy(lays));
    part("Findings", findings(&order.findings, all, console));
    part("Cautions", cautions(order));
    out
}

/// Cloth by its lay.
fn to_buy(lays: &Lays) -> String {
    let mut table = Table::new(&[
        ("layer", Align::Left),
        ("cloth", Align::Left),
        ("lay", Align::Right),
        ("used", Align::Right),
        ("buy", Align::Right),
        ("", Align::Right),
    ]);
    for laid in &lays.laid {
        let buy = Mm::new(laid.buying.buy_mm);
        table.row(vec![
            laid.task.layer.name().to_owned(),
            laid.task.request.cloth.name.clone(),
            Mm::new(laid.lay.cloth_mm).to_cm_text(),
            format!("{:.0} %", 100.0 * laid.lay.usage),
            buy.to_cm_text(),
            buy.to_inch_text(),
        ]);
    }
    let mut out = table.to_text_or_nothing(2);
    for not_laid in &lays.not_laid {
        out += &format!(
            "  {}: {}\n",
            not_laid.task.layer.name(),
            wrap(&not_laid.why(), COLUMNS, 4)
        );
    }
    out
}

fn doubtful(order: &Order) -> String {
    let mut table = Table::new(&[
        ("dimension", Align::Left),
        ("given", Align::Right),
        ("expected", Align::Right),
        ("95 of 100 bodies", Align::Left),
        ("perhaps", Align::Left),
    ]);
    for doubt in &order.doubts {
        let text = |value: f64| doubt.measure.text(value);
        table.row(vec![
            doubt.measure.name(doubt.form).to_owned(),
            text(doubt.given),
            text(doubt.expected),
            format!("{} to {}", text(doubt.low), text(doubt.high)),
            doubt.without_slip.map_or("take it again".to_owned(), text),
        ]);
    }
    table.to_text_or_nothing(2)
}

fn estimated(suit: &SuitFile, order: &Order) -> String {
    let form = suit.wearer.form;
    let mut table = Table::new(&[
        ("dimension", Align::Left),
        ("value", Align::Right),
        ("", Align::Right),
        ("give or take", Align::Right),
        ("how", Align::Left),
    ]);
    for dimension in Dimension::ALL {
        let Some(known) = order.body.get(dimension) else {
            continue;
        };
        let Origin::Estimated { se, rule } = known.origin else {
            continue;
        };
        if dimension.need(form) == Need::NotUsed || is_idle(suit, dimension) {
            continue;
        }
        table.row(vec![
            dimension.iso_name(form).to_owned(),
            known.value.to_cm_text(),
            known.value.to_inch_text(),
            se.map_or("not known".to_owned(), |s| s.to_cm_text()),
            rule.to_owned(),
        ]);
    }
    table.to_text_or_nothing(2)
}

fn cloth(order: &Order) -> String {
    let plan = &order.cloth;
    let mut table = Table::new(&[
        ("layer", Align::Left),
        ("cloth", Align::Left),
        ("lies", Align::Left),
        ("around", Align::Right),
        ("lengthwise", Align::Right),
        ("read at", Align::Left),
    ]);
    for layer in [Some(&plan.shell), plan.lining.as_ref(), plan.mesh.as_ref()]
        .into_iter()
        .flatten()
    {
        table.row(vec![
            layer.layer.name().to_owned(),
            layer.cloth.clone(),
            layer.orientation.name().to_owned(),
            layer.around.to_string(),
            layer.lengthwise.to_string(),
            load_text(layer.load),
        ]);
    }
    table.row(vec![
        "on the body".to_owned(),
        pair_words(plan.pair).to_owned(),
        String::new(),
        plan.around.to_string(),
        plan.lengthwise.to_string(),
        load_text(plan.load),
    ]);
    table.to_text(2)
}

fn pair_words(pair: cloth::PairSource) -> &'static str {
    match pair {
        cloth::PairSource::Single => "one layer",
        cloth::PairSource::TestedTogether => "tested together",
        cloth::PairSource::Estimated => "estimated from both",
    }
}

fn load_text(load: Load) -> String {
    match load {
        Load::Hand => "hand pull".to_owned(),
        Load::NewtonPerCm(n) => format!("{n:.1} N/cm"),
    }
}

fn percent(ratio: f64) -> String {
    let text = format!("{:.1} %", ratio * 100.0);
    if text == "-0.0 %" {
        "0.0 %".to_owned()
    } else {
        text
    }
}

fn ladder(order: &Order, console: &Console<'_>) -> String {
    let has = |layer: Layer| {
        order
            .fit
            .ladder
            .iter()
            .any(|r| r.layers.iter().any(|l| l.layer == layer))
    };
    let layers: Vec<Layer> = [Layer::Shell, Layer::Lining, Layer::Mesh]
        .into_iter()
        .filter(|l| has(*l))
        .collect();
    let mut heads = vec![
        ("level", Align::Left),
        ("body", Align::Right),
        ("", Align::Right),
        ("cut", Align::Right),
        ("", Align::Right),
        ("worn", Align::Right),
    ];
    heads.extend(layers.iter().map(|l| {
        let head = match l {
            Layer::Shell => "shell left",
            Layer::Lining => "lining left",
            Layer::Mesh => "mesh left",
            Layer::Contrast => "contrast left",
        };
        (head, Align::Right)
    }));
    heads.extend([("squeeze", Align::Right), ("", Align::Left)]);
    let mut table = Table::new(&heads);
    for rung in &order.fit.ladder {
        let mut row = vec![
            rung.level.name().to_owned(),
            rung.body.to_cm_text(),
            rung.body.to_inch_text(),
            rung.pattern.to_cm_text(),
            rung.pattern.to_inch_text(),
            percent(rung.worn),
        ];
        for layer in &layers {
            let used = rung.layers.iter().find(|l| l.layer == *layer);
            row.push(used.map_or(String::new(), |u| percent(u.left)));
        }
        row.push(rung.pressure.map_or(String::new(), |p| {
            let mark = if p.is_relative { "~" } else { "" };
            format!("{mark}{:.1} kPa ({:.1} to {:.1})", p.kpa, p.low_kpa, p.high_kpa)
        }));
        row.push(console.severity(rung.severity));
        table.row(row);
    }
    if table.is_empty() {
        return String::new();
    }
    let mut out = table.to_text(2);
    if order
        .fit
        .ladder
        .iter()
        .any(|r| r.pressure.is_some_and(|p| p.is_relative))
    {
        out += "  ~ the force of this cloth was assumed: compare levels, don't trust the number\n";
    }
    out
}

fn way_in(order: &Order, console: &Console<'_>) -> String {
    let mut table = Table::new(&[
        ("opening", Align::Left),
        ("at rest", Align::Right),
        ("", Align::Right),
        ("must pass", Align::Right),
        ("", Align::Right),
        ("needs", Align::Right),
        ("cloth has", Align::Right),
        ("of cloth", Align::Right),
        ("of elastic", Align::Right),
        ("", Align::Left),
    ]);
    for opening in &order.fit.way_in {
        table.row(vec![
            opening.opening.to_owned(),
            opening.rest.to_cm_text(),
            opening.rest.to_inch_text(),
            opening.passes.to_cm_text(),
            opening.passes.to_inch_text(),
            percent(opening.needed.max(0.0)),
            percent(opening.cloth_stretch),
            percent(opening.cloth_share.max(0.0)),
            opening
                .elastic_share
                .map_or(String::new(), |s| percent(s.max(0.0))),
            console.severity(opening.severity),
        ]);
    }
    table.to_text_or_nothing(2)
}

fn torso_loop(order: &Order) -> String {
    let mut table = Table::new(&[
        ("", Align::Left),
        ("straps", Align::Right),
        ("torso", Align::Right),
        ("crotch", Align::Right),
        ("pull", Align::Right),
    ]);
    for (name, found) in [
        ("with elastic", order.fit.loop_with_elastic),
        ("cloth alone", order.fit.loop_bare),
    ] {
        let Some(found) = found else { continue };
        table.row(vec![
            name.to_owned(),
            percent(found.strap - 1.0),
            percent(found.torso - 1.0),
            percent(found.crotch - 1.0),
            format!("{:.1} N", found.tension_n),
        ]);
    }
    table.to_text_or_nothing(2)
}

fn elastic(order: &Order) -> String {
    let mut table = Table::new(&[
        ("edge", Align::Left),
        ("elastic", Align::Left),
        ("cut", Align::Right),
        ("length each", Align::Right),
        ("", Align::Right),
        ("of the edge", Align::Right),
    ]);
    for plan in &order.elastic {
        table.row(vec![
            plan.edge.to_owned(),
            format!("{:.0} mm {}", plan.width.get(), plan.kind),
            plan.count.to_string(),
            plan.cut_length.to_cm_text(),
            plan.cut_length.to_inch_text(),
            percent(plan.mean_ratio()),
        ]);
    }
    if table.is_empty() {
        return String::new();
    }
    let mut out = table.to_text(2);
    for buy in &order.elastic_to_buy {
        out += &format!(
            "  buy {:.2} m of {:.0} mm {}\n",
            buy.to_buy.get() / 1000.0,
            buy.width.get(),
            buy.kind
        );
    }
    out
}

fn findings(list: &[Finding], all: bool, console: &Console<'_>) -> String {
    let mut out = String::new();
    for finding in list.iter().filter(|f| all || f.severity > Severity::Good) {
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
    }
    let count = |severity: Severity| list.iter().filter(|f| f.severity == severity).count();
    out += &format!(
        "  {} stop, {} watch, {} good\n",
        count(Severity::Stop),
        count(Severity::Watch),
        count(Severity::Good)
    );
    out
}

fn cautions(order: &Order) -> String {
    order
        .cautions
        .iter()
        .map(|c| format!("  {}\n", wrap(&format!("{}: {}", c.topic, c.say), COLUMNS, 4)))
        .collect()
}
