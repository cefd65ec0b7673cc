//! Tops, two-pieces and what hangs on straps and ties, drafted for invented bodies, put on their forms and solved.
//!
//! `cargo run -p slackwater-solve --example tops_worn -- [STYLE ...] [--body average] [--mesh 14] [--elastic 5] [--friction 0] [--set KEY=VALUE]
//! [--json FILE]`. Without a style all of them; without a body two.

#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "an example reads its arguments, takes the time and prints"
)]

use std::error::Error;
use std::time::Instant;

use body::{BodyForm, Dimension, Dimensions, FrontTaken, TorsoForm, WaistLevel, Wearer, complete};
use cloth::{ClothPlan, Law, Load};
use draft::{BackShape, Design, OpenKind, Parameter, ParameterKind, Setting, Style, draft};
use solve::{BodyField, Elastic, Friction, OpenPlace, Settings, Solved, SuitLaws, mesh_suit, wear};
use units::{Mm, Silent, Stretch};

/// Name, stature, bust, underbust, waist, hip, crotch length, back waist, trunk (mm). Invented.
const BODIES: [(&str, [f64; 8]); 5] = [
    (
        "average",
        [1650.0, 920.0, 780.0, 760.0, 1000.0, 720.0, 408.0, 1620.0],
    ),
    (
        "petite",
        [1540.0, 820.0, 720.0, 640.0, 890.0, 660.0, 378.0, 1480.0],
    ),
    ("long", [1800.0, 900.0, 775.0, 730.0, 990.0, 762.0, 440.0, 1640.0]),
    (
        "plus",
        [1670.0, 1180.0, 1010.0, 1040.0, 1260.0, 830.0, 425.0, 1810.0],
    ),
    (
        "cup",
        [1680.0, 1050.0, 820.0, 800.0, 1040.0, 745.0, 415.0, 1700.0],
    ),
];

fn wearer(name: &str, mm: [f64; 8]) -> Wearer {
    let mut taken = Dimensions::default();
    let names = [
        Dimension::Stature,
        Dimension::BustGirth,
        Dimension::UnderbustGirth,
        Dimension::WaistGirth,
        Dimension::HipGirth,
        Dimension::CrotchLength,
        Dimension::BackWaistLength,
        Dimension::TrunkCircumference,
    ];
    for (dimension, value) in names.into_iter().zip(mm) {
        taken.set(dimension, Mm::new(value));
    }
    Wearer {
        name: name.into(),
        form: BodyForm::Woman,
        age_years: None,
        mass_kg: None,
        waist_level: WaistLevel::Natural,
        front_taken: FrontTaken::OverBustPoint,
        trust: None,
        taken,
    }
}

/// Elastic by edge; own.
fn elastic(place: OpenPlace<'_>, stiffness_n: f64) -> Option<Elastic> {
    let is_behind = place.piece.contains("back");
    let ratio = match place.kind {
        OpenKind::Leg => [1.0, 0.87][usize::from(is_behind)],
        OpenKind::Waist => [0.90, 0.85][usize::from(is_behind)],
        OpenKind::Top | OpenKind::Underbust => 0.88,
        _ => 0.95,
    };
    (stiffness_n > 0.0).then_some(Elastic { stiffness_n, ratio })
}

fn setting(own: &Parameter, value: &str) -> Result<Setting, Box<dyn Error>> {
    Ok(match &own.kind {
        ParameterKind::Choice { options } => {
            let word = options.iter().find(|w| w.key == value);
            Setting::Word(word.ok_or_else(|| format!("no {value}"))?.key)
        }
        ParameterKind::Length { .. } => Setting::Length(Mm::new(value.parse()?)),
        ParameterKind::Number { .. } => Setting::Number(value.parse()?),
        ParameterKind::Switch { .. } => Setting::Yes(value.parse()?),
    })
}

fn passes(solved: &Solved) -> String {
    let steps: Vec<String> = solved.passes.iter().map(|p| p.steps.len().to_string()).collect();
    steps.join("+")
}

fn main() -> Result<(), Box<dyn Error>> {
    let (mut styles, mut bodies, mut set) = (Vec::new(), Vec::new(), Vec::new());
    let (mut mesh_mm, mut stiffness, mut mu, mut file) = (14.0, 5.0, 0.0, None);
    let (mut most_steps, mut weight) = (300, 0.0);
    let mut given = std::env::args().skip(1);
    while let Some(argument) = given.next() {
        let Some(name) = argument.strip_prefix("--") else {
            styles.push(argument);
            continue;
        };
        let value = given.next().ok_or_else(|| format!("{argument} needs a value"))?;
        match name {
            "body" => bodies.push(value),
            "mesh" => mesh_mm = value.parse()?,
            "elastic" => stiffness = value.parse()?,
            "friction" => mu = value.parse()?,
            "json" => file = Some(value),
            "set" => set.push(value),
            "steps" => most_steps = value.parse()?,
            "weight" => weight = value.parse()?,
            _ => return Err(format!("{argument} is not known").into()),
        }
    }
    if styles.is_empty() {
        let all = [
            "crop-top",
            "sports-top",
            "tankini",
            "bandeau",
            "halter-top",
            "halter-one-piece",
            "triangle-top",
            "side-tie",
            "fold-over",
            "two-piece",
        ];
        styles.extend(all.map(String::from));
    }
    if bodies.is_empty() {
        bodies.extend(["average", "petite"].map(String::from));
    }
    let settings = Settings {
        friction: (mu > 0.0).then(|| Friction::new(mu)),
        most_steps,
        ..Settings::default()
    };
    let torso = TorsoForm::of(BodyForm::Woman)?;
    let (around, lengthwise) = (Stretch::from_percent(85.0), Stretch::from_percent(60.0));
    let cloth = ClothPlan::of_one_cloth("Slate tricot", around, lengthwise, Load::Hand);
    let shell = Law::new(160.0, 110.0, 0.35, 0.3)?;
    for (name, mm) in BODIES.iter().filter(|(n, _)| bodies.iter().any(|b| b == n)) {
        let (body, _) = complete(&wearer(name, *mm)).map_err(|e| format!("{e:?}"))?;
        let form = torso.fitted(&body)?;
        let field = BodyField::of_form(&form);
        for style in &styles {
            let style = Style::of_key(style).ok_or_else(|| format!("no style {style}"))?;
            let mut design = Design::of(style);
            for pair in &set {
                match pair.split_once('=') {
                    Some(("back", "crossed-straps")) => design.back_shape = BackShape::CrossedStraps,
                    Some((key, value)) => {
                        let own = style.own(key).ok_or_else(|| format!("no {key}"))?;
                        design.own.set(own, setting(own, value)?);
                    }
                    None => return Err(format!("{pair}: give KEY=VALUE").into()),
                }
            }
            let suit = match draft(&body, &cloth, &design) {
                Ok(suit) => suit,
                Err(e) => {
                    println!("{name} {}: not drafted: {e}", style.key());
                    continue;
                }
            };
            let laws = SuitLaws { shell, lining: None };
            let mut mesh = match mesh_suit(&suit, &laws, &|p| elastic(p, stiffness), mesh_mm) {
                Ok(mesh) => mesh,
                Err(e) => {
                    println!("{name} {}: not meshed: {e}", style.key());
                    continue;
                }
            };
            // g/m2 to N/mm2.
            mesh.mesh.add_weight(0, weight * 9.81e-9);
            let began = Instant::now();
            let worn = match wear(&mut mesh, &suit, &form, &field, &settings, &Silent) {
                Ok(worn) => worn,
                Err(e) => {
                    println!("{name} {}: not placed: {e}", style.key());
                    continue;
                }
            };
            let solved = &worn.solved;
            println!(
                "{name} {}: {} vertices, steps {}, {:.1} s, {:.0e} N, {}/{}/{}, {:.2} mm deep, {}",
                style.key(),
                mesh.mesh.vertex_count(),
                passes(solved),
                began.elapsed().as_secs_f64(),
                solved.residual_n(),
                solved.states.slack,
                solved.states.wrinkled,
                solved.states.taut,
                solved.penetration_mm(),
                solved.stop.words(),
            );
            let moved = |v: usize| {
                let (a, b) = (worn.placed[v], solved.positions[v]);
                [0, 1, 2].map(|i| b[i] - a[i])
            };
            for l in &worn.levels {
                println!(
                    "    {:?} at {:.0}{}: around {:.3} ({:.3}-{:.3}), lengthwise {:.3}, {:.2} kPa",
                    l.level,
                    l.height_mm,
                    if l.closes { "" } else { " (open)" },
                    l.around,
                    l.around_spread[0],
                    l.around_spread[1],
                    l.lengthwise,
                    l.pressure_kpa
                );
            }
            for (e, line) in worn.edges.iter().zip(&mesh.open_lines) {
                let up = line.vertices.iter().map(|v| moved(*v)[1]).sum::<f64>() / line.vertices.len() as f64;
                println!(
                    "    {} of the {}: {:.3}, elastic {:.2} N, {:.1} N/m, off {:.1} mm, moved up {up:.1}",
                    e.kind.name(),
                    e.piece,
                    e.stretch,
                    e.elastic_n,
                    e.line_load_n_per_m,
                    e.gape_mm,
                );
            }
            if let Some(s) = worn.strap {
                println!(
                    "    strap {:.3}, rail {:.2} N, needs mu {:.2}",
                    s.stretch, s.rail_n, s.needed_friction
                );
            }
            for r in &worn.rails {
                println!(
                    "    {}: slides {:.2} N, carried {:.2} N, needs mu {:.2}",
                    r.name, r.slides_n, r.contact_n, r.needed_friction
                );
            }
            if let Some(r) = worn.rode_up {
                println!(
                    "    rode up {:.0} mm in front, {:.0} behind",
                    r.front_mm, r.back_mm
                );
            }
            for l in &worn.lines {
                println!(
                    "    {}: {:.0} mm, stretch {:.3}, {:.2} N, {:.2} kPa, off {:.1} mm",
                    l.name, l.length_mm, l.stretch, l.pull_n, l.pressure_kpa, l.gape_mm
                );
            }
            for line in mesh.assumed.iter().chain(&mesh.left_out) {
                println!("    {line}");
            }
            if let Some(file) = &file {
                let json = serde_json::json!({
                    "placed": worn.placed,
                    "worn": solved.positions,
                    "pressure_kpa": worn.pressure_kpa,
                    "triangles": mesh.mesh.triangles().iter().map(|t| t.corners).collect::<Vec<_>>(),
                    "bars": mesh.mesh.bars().iter().map(|b| b.ends).collect::<Vec<_>>(),
                    "form_vertices": form.vertices(),
                    "form_faces": form.faces(),
                });
                std::fs::write(format!("{file}-{name}-{}.json", style.key()), json.to_string())?;
            }
        }
    }
    Ok(())
}
