//! Drafts suits for invented bodies, lays their shells on one cloth, and prints the lay as JSON in the form of `slackwater --json lay`:
//! `suits --count 20 --seconds 60 --threads 2 [--cpu] [--width 1500] [--passes N] [--different]`. With `--different` no two bodies are alike.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a measuring program, not part of the library"
)]

mod clock;

use std::time::Instant;

use body::{Body, Dimension};
use clock::{Clock, cpu_seconds};
use cloth::{Layer, Load};
use draft::Design;
use lay::{
    BuyRules, Effort, Lay, LayCloth, LayRequest, buying, cutting_order, lay as lay_pieces, pieces_of,
    row_by_row,
};
use serde_json::{Value, json};
use units::Mm;

/// The grown bodies of `data/draft/check-values.json`.
const BODIES: [&str; 5] = ["average", "petite", "tall", "plus", "large_cup"];

/// One of them, all she is taken by so many times as large.
fn body(name: &str, scale: f64) -> Body {
    let mut wearer = fixtures::recorded(name);
    for dimension in Dimension::ALL {
        if let Some(mm) = wearer.taken.get(dimension) {
            wearer.taken.set(dimension, Mm::new(scale * mm.get()));
        }
    }
    fixtures::completed(&wearer)
}

fn request(count: usize, width: f64, is_different: bool) -> LayRequest {
    let plan = fixtures::cloth_at(85.0, 60.0, Load::NewtonPerCm(3.0));
    let bodies = if is_different { count } else { BODIES.len() };
    let drafts: Vec<_> = (0..bodies)
        .map(|k| {
            // Every five somewhat larger than the five before.
            let scale = 0.95 + 0.1 * (k / BODIES.len()) as f64 * BODIES.len() as f64 / bodies as f64;
            let scale = if is_different { scale } else { 1.0 };
            draft::draft(&body(BODIES[k % BODIES.len()], scale), &plan, &Design::default()).unwrap()
        })
        .collect();
    let mut request = LayRequest {
        garments: Vec::new(),
        pieces: Vec::new(),
        cloth: LayCloth::of_width("Slate tricot", width),
    };
    for k in 0..count {
        let which = k % drafts.len();
        request
            .garments
            .push(format!("{} {}", BODIES[which % BODIES.len()], k + 1));
        request
            .pieces
            .extend(pieces_of(&drafts[which], Layer::Shell, k, false));
    }
    request
}

fn report(request: &LayRequest, lay: &Lay) -> Value {
    let pieces: Vec<Value> = cutting_order(request, lay)
        .into_iter()
        .map(|i| {
            let placed = &lay.placed[i];
            let piece = &request.pieces[placed.piece];
            let outline: Vec<[f64; 2]> = placed.outline(piece).iter().map(|p| [p.x, p.y]).collect();
            json!({
                "key": piece.key, "name": piece.name, "garment": request.garments[piece.garment], "suit": piece.garment,
                "is_reflected": placed.is_reflected, "is_half": placed.is_half, "layers": placed.layers,
                "count": piece.count, "is_pair": piece.is_pair && !piece.either_face, "bears_grade": piece.bears_grade, "match_point": null,
                "turned_degrees": placed.angle.to_degrees(), "outline": outline,
            })
        })
        .collect();
    let rows = row_by_row(request).unwrap().cloth_mm;
    json!({
        "title": format!("{} suits: shell", request.garments.len()),
        "width_mm": request.cloth.width_mm, "gap_mm": request.cloth.gap_mm,
        "selvedge_margin_mm": request.cloth.selvedge_margin_mm, "end_allowance_mm": request.cloth.end_allowance_mm,
        "fold": "single", "fold_at_mm": 0.0, "repeat_mm": [null, null], "flaws": [],
        "direction": request.cloth.direction.name(), "pieces": lay.placed.len(), "on_table": pieces, "lay": lay,
        "row_by_row_mm": rows, "saved_percent": 100.0 * (1.0 - lay.cloth_mm / rows),
        "buying": buying(request, lay, &BuyRules::default()),
    })
}

fn main() {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let value = |name: &str| args.iter().position(|a| a == name).map(|i| args[i + 1].clone());
    let number = |name: &str, or: f64| value(name).map_or(or, |v| v.parse().unwrap());
    let threads = number("--threads", 1.0) as usize;
    let is_different = args.iter().any(|a| a == "--different");
    let request = request(
        number("--count", 1.0) as usize,
        number("--width", 1500.0),
        is_different,
    );
    let clock = Clock {
        start: Instant::now(),
        seconds: number("--seconds", 10.0),
        is_cpu: args.iter().any(|a| a == "--cpu"),
    };
    let effort = Effort {
        seed: number("--seed", 1.0) as u64,
        workers: threads,
        passes: value("--passes").map(|v| v.parse().unwrap()),
    };
    let pool = rayon::ThreadPoolBuilder::new()
        .num_threads(threads)
        .build()
        .unwrap();
    let mut first: Option<(f64, f64, f64)> = None;
    let lay = pool
        .install(|| {
            lay_pieces(&request, &effort, None, &clock, &mut |lay| {
                first.get_or_insert((clock.start.elapsed().as_secs_f64(), cpu_seconds(), lay.usage));
            })
        })
        .unwrap();
    let (first_s, first_cpu_s, first_usage) = first.unwrap();
    println!(
        "{}",
        json!({
            "lays": [report(&request, &lay)], "first_s": first_s, "first_cpu_s": first_cpu_s, "first_usage": first_usage,
            "wall_seconds": clock.start.elapsed().as_secs_f64(), "cpu_seconds": cpu_seconds(),
        })
    );
}
