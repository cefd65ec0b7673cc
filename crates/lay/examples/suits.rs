//! Drafts suits for invented bodies, lays their shells on one cloth, and prints the lay as JSON in the form of `slackwater --json lay`:
//! `suits --count 20 --seconds 60 --threads 2 [--cpu] [--width 1500] [--passes N] [--different]`. With `--different` no two bodies are alike.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a measuring program, not part of the library"
)]

use std::time::Instant;

use body::{BodyForm, Dimension, Dimensions, FrontTaken, WaistLevel, Wearer};
use cloth::{ClothPlan, Layer, Load};
use draft::Design;
use lay::{
    BuyRules, Effort, Lay, LayCloth, LayRequest, buying, cutting_order, lay as lay_pieces, pieces_of,
    row_by_row,
};
use serde_json::{Value, json};
use units::{Mm, Stretch};

struct Clock {
    start: Instant,
    seconds: f64,
    is_cpu: bool,
}

impl Clock {
    fn gone(&self) -> f64 {
        if self.is_cpu {
            cpu_seconds()
        } else {
            self.start.elapsed().as_secs_f64()
        }
    }
}

impl units::Progress for Clock {
    fn at(&self, _: u64, _: u64, _: &str) {}
    fn should_stop(&self) -> bool {
        self.gone() >= self.seconds
    }
    fn share_of_time(&self) -> Option<f64> {
        Some(self.gone() / self.seconds)
    }
}

/// The grown bodies of `data/draft/check-values.json`.
const BODIES: [&str; 5] = ["average", "petite", "tall", "plus", "large_cup"];

fn wearer(name: &str, scale: f64) -> Wearer {
    let file: Value = serde_json::from_str(include_str!("../../../data/draft/check-values.json")).unwrap();
    let b = &file["bodies"][name];
    let mut taken = Dimensions::default();
    for (key, dimension) in [
        ("stature", Dimension::Stature),
        ("bust", Dimension::BustGirth),
        ("waist", Dimension::WaistGirth),
        ("high_hip", Dimension::HighHipGirth),
        ("hip", Dimension::HipGirth),
        ("neck_base", Dimension::NeckBaseGirth),
        ("thigh", Dimension::ThighGirth),
        ("bwl", Dimension::BackWaistLength),
        ("fwl", Dimension::FrontWaistLength),
        ("shoulder", Dimension::ShoulderLength),
        ("side_len", Dimension::SideLength),
        ("waist_hip", Dimension::WaistToHip),
        ("rise_h", Dimension::RiseHeight),
        ("tcl", Dimension::CrotchLength),
        ("vtc", Dimension::TrunkCircumference),
        ("underbust", Dimension::UnderbustGirth),
        ("snbp", Dimension::SideNeckToBustPoint),
        ("bpd", Dimension::BustPointDistance),
    ] {
        taken.set(dimension, Mm::new(scale * b[key].as_f64().unwrap()));
    }
    Wearer {
        name: name.to_owned(),
        form: BodyForm::Woman,
        age_years: None,
        mass_kg: None,
        waist_level: WaistLevel::Natural,
        front_taken: FrontTaken::OverBustPoint,
        trust: None,
        taken,
    }
}

fn request(count: usize, width: f64, is_different: bool) -> LayRequest {
    let plan = ClothPlan::of_one_cloth(
        "Slate tricot",
        Stretch::from_percent(85.0),
        Stretch::from_percent(60.0),
        Load::NewtonPerCm(3.0),
    );
    let bodies = if is_different { count } else { BODIES.len() };
    let drafts: Vec<_> = (0..bodies)
        .map(|k| {
            // Every five somewhat larger than the five before.
            let scale = 0.95 + 0.1 * (k / BODIES.len()) as f64 * BODIES.len() as f64 / bodies as f64;
            let scale = if is_different { scale } else { 1.0 };
            let (body, _) = body::complete(&wearer(BODIES[k % BODIES.len()], scale)).unwrap();
            draft::draft(&body, &plan, &Design::default()).unwrap()
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

/// User and system time of this process, Linux only.
fn cpu_seconds() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let after = stat.rsplit(')').next().unwrap_or_default();
    let fields: Vec<&str> = after.split_whitespace().collect();
    let ticks: f64 = [11, 12]
        .iter()
        .filter_map(|&i| fields.get(i).and_then(|f| f.parse::<f64>().ok()))
        .sum();
    ticks / 100.0
}
