//! Suits drafted for invented women, put on their forms and solved: what came of it, in lines of text.
//!
//! `cargo run -p slackwater-solve --example worn -- [STYLE ...] [--body average] [--fit regular] [--mesh 9] [--elastic 5] [--friction 0.3]
//! [--passes 2] [--steps 300] [--weight 0] [--lined 1] [--taken 1] [--set KEY=VALUE] [--json FILE]`. Styles by their keys, or `tops` for all that has a top
//! of its own; a one-piece when none is named. Bodies: average, long, petite, plus, cup; all of them when none is named. With `--taken 1` the
//! lengths over the bust are taken off her form, as with a tape, instead of being estimated.

#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "an example reads its arguments, takes the time and prints"
)]

mod told;

use std::error::Error;
use std::time::Instant;

use body::{BodyForm, Dimension, FormMeasure, TorsoForm};
use cloth::{Fit, Law};
use draft::{BackShape, Design, LiningCover, OpenKind, Style, draft};
use solve::{
    BodyField, Elastic, Friction, OpenPlace, Settings, SuitLaws, SuitMesh, WornSuit, mesh_suit, wear,
};
use units::{Mm, Silent};

/// What hangs on straps, ties or nothing.
const TOPS: [&str; 10] = [
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

/// What was asked for.
struct Asked {
    styles: Vec<String>,
    bodies: Vec<String>,
    set: Vec<String>,
    fit: Fit,
    mesh_mm: f64,
    stiffness_n: f64,
    weight: f64,
    is_lined: bool,
    is_taken: bool,
    settings: Settings,
    file: Option<String>,
}

fn asked() -> Result<Asked, Box<dyn Error>> {
    let mut asked = Asked {
        styles: Vec::new(),
        bodies: Vec::new(),
        set: Vec::new(),
        fit: Fit::Regular,
        mesh_mm: 9.0,
        stiffness_n: 5.0,
        weight: 0.0,
        is_lined: false,
        is_taken: false,
        settings: Settings::default(),
        file: None,
    };
    let mut given = std::env::args().skip(1);
    while let Some(argument) = given.next() {
        let Some(name) = argument.strip_prefix("--") else {
            asked.styles.push(argument);
            continue;
        };
        let value = given.next().ok_or_else(|| format!("{argument} needs a value"))?;
        match name {
            "body" => asked.bodies.push(value),
            "set" => asked.set.push(value),
            "fit" => {
                let named = Fit::NAMED.into_iter().find(|f| f.key() == value);
                asked.fit = named.ok_or_else(|| format!("no fit {value}"))?;
            }
            "mesh" => asked.mesh_mm = value.parse()?,
            "elastic" => asked.stiffness_n = value.parse()?,
            "friction" => {
                let mu: f64 = value.parse()?;
                asked.settings.friction = (mu > 0.0).then(|| Friction::new(mu));
            }
            "passes" => asked.settings.augmented_passes = value.parse()?,
            "steps" => asked.settings.most_steps = value.parse()?,
            "weight" => asked.weight = value.parse()?,
            "lined" => asked.is_lined = value != "0",
            "taken" => asked.is_taken = value != "0",
            "json" => asked.file = Some(value),
            _ => return Err(format!("{argument} is not known").into()),
        }
    }
    if asked.styles.is_empty() {
        asked.styles.push("one-piece".into());
    }
    if asked.styles == ["tops"] {
        asked.styles = TOPS.map(String::from).to_vec();
    }
    Ok(asked)
}

fn design(asked: &Asked, style: Style) -> Result<Design, Box<dyn Error>> {
    let mut design = Design {
        fit: asked.fit,
        ..Design::of(style)
    };
    if asked.is_lined {
        design.lining = LiningCover::Full;
    }
    for pair in &asked.set {
        match pair.split_once('=') {
            Some(("back", "crossed-straps")) => design.back_shape = BackShape::CrossedStraps,
            Some((key, value)) => fixtures::set(&mut design, key, value)?,
            None => return Err(format!("{pair}: give KEY=VALUE").into()),
        }
    }
    Ok(design)
}

fn main() -> Result<(), Box<dyn Error>> {
    let asked = asked()?;
    let torso = TorsoForm::of(BodyForm::Woman)?;
    let laws = SuitLaws {
        shell: Law::new(160.0, 110.0, 0.35, 0.3)?,
        lining: asked
            .is_lined
            .then(|| Law::new(60.0, 45.0, 0.35, 0.3))
            .transpose()?,
    };
    for (name, mm) in fixtures::WOMEN {
        if !asked.bodies.is_empty() && !asked.bodies.iter().any(|b| b == name) {
            continue;
        }
        let mut wearer = fixtures::woman(mm);
        let mut body = fixtures::completed(&wearer);
        let form = torso.fitted(&body)?;
        if asked.is_taken {
            for (dimension, measure) in [
                (Dimension::FrontWaistLength, FormMeasure::FrontWaistLength),
                (Dimension::SideNeckToBustPoint, FormMeasure::SideNeckToBustPoint),
            ] {
                wearer.taken.set(dimension, Mm::new(form.measure(measure)));
            }
            body = fixtures::completed(&wearer);
        }
        for key in &asked.styles {
            let style = Style::of_key(key).ok_or_else(|| format!("no style {key}"))?;
            let worn = draft(&body, &fixtures::slate(), &design(&asked, style)?)
                .map_err(|e| format!("not drafted: {e}"))
                .and_then(|suit| {
                    let mut mesh = mesh_suit(&suit, &laws, &|p| elastic(p, asked.stiffness_n), asked.mesh_mm)
                        .map_err(|e| format!("not meshed: {e}"))?;
                    // g/m2 to N/mm2.
                    mesh.mesh.add_weight(0, asked.weight * 9.81e-9);
                    let field = BodyField::for_suit(&form, &suit);
                    let began = Instant::now();
                    let worn = wear(&mut mesh, &suit, &form, &field, &asked.settings, &Silent)
                        .map_err(|e| format!("not placed: {e}"))?;
                    Ok((mesh, worn, began.elapsed().as_secs_f64()))
                });
            let (mesh, worn, seconds) = match worn {
                Ok(worn) => worn,
                Err(why) => {
                    println!("{name} {key}: {why}");
                    continue;
                }
            };
            println!(
                "{name} {key}: {} vertices, {seconds:.1} s, {}",
                mesh.mesh.vertex_count(),
                told::ending(&worn.solved)
            );
            told::tell(&worn);
            for line in mesh.assumed.iter().chain(&mesh.left_out) {
                println!("    {line}");
            }
            if let Some(file) = &asked.file {
                let text = json(&mesh, &worn, &form);
                std::fs::write(format!("{file}-{name}-{key}.json"), text)?;
            }
        }
    }
    Ok(())
}

/// All that is needed to draw it.
fn json(mesh: &SuitMesh, worn: &WornSuit, form: &body::FittedForm) -> String {
    serde_json::json!({
        "placed": worn.placed,
        "worn": worn.solved.positions,
        "pressure_kpa": worn.pressure_kpa,
        "shell": worn.shell,
        "triangles": mesh.mesh.triangles().iter().map(|t| t.corners).collect::<Vec<_>>(),
        "bars": mesh.mesh.bars().iter().map(|b| b.ends).collect::<Vec<_>>(),
        "form_vertices": form.vertices(),
        "form_faces": form.faces(),
    })
    .to_string()
}
