//! Draws a drafted suit as a plain SVG, for looking at shapes while working on the draft.
//!
//! `cargo run -p slackwater-draft --example look -- BODY STYLE > out.svg`; bodies of data/draft/check-values.json.
#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "a drawing aid, not shipped"
)]

use body::{BodyForm, Dimension, Dimensions, FrontTaken, WaistLevel, Wearer, complete};
use cloth::{ClothPlan, Load};
use draft::*;
use units::{Mm, Stretch};

fn main() {
    let args: Vec<String> = std::env::args().collect();
    let file: serde_json::Value =
        serde_json::from_str(include_str!("../../../data/draft/check-values.json")).unwrap();
    let b = &file["bodies"][&args[1]];
    let mut taken = Dimensions::default();
    use Dimension::*;
    for (d, k) in [
        (Stature, "stature"),
        (BustGirth, "bust"),
        (UnderbustGirth, "underbust"),
        (WaistGirth, "waist"),
        (HighHipGirth, "high_hip"),
        (HipGirth, "hip"),
        (NeckBaseGirth, "neck_base"),
        (ThighGirth, "thigh"),
        (BackWaistLength, "bwl"),
        (FrontWaistLength, "fwl"),
        (SideNeckToBustPoint, "snbp"),
        (BustPointDistance, "bpd"),
        (ShoulderLength, "shoulder"),
        (WaistToHip, "waist_hip"),
        (CrotchLength, "tcl"),
        (RiseHeight, "rise_h"),
        (TrunkCircumference, "vtc"),
        (SideLength, "side_len"),
    ] {
        taken.set(d, Mm::new(b[k].as_f64().unwrap()));
    }
    let wearer = Wearer {
        name: args[1].clone(),
        form: match b["sex"].as_str().unwrap() {
            "w" => BodyForm::Woman,
            "m" => BodyForm::Man,
            _ => BodyForm::Child,
        },
        age_years: None,
        mass_kg: None,
        waist_level: WaistLevel::Natural,
        front_taken: FrontTaken::OverBustPoint,
        trust: None,
        taken,
    };
    let (body, _) = complete(&wearer).unwrap();
    let cloth = ClothPlan::of_one_cloth(
        "Slate tricot",
        Stretch::from_ratio(0.85),
        Stretch::from_ratio(0.6),
        Load::Hand,
    );
    let mut design = Design::default();
    for word in &args[2..] {
        match word.as_str() {
            "brief" => design.style = Style::Brief,
            "princess" => design.bust_shaping = BustShaping::Princess,
            "full" => design.lining = LiningCover::Full,
            "pocket" => design.cups = Cups::Pocket,
            "v" => design.neck_shape = NeckShape::V,
            "square" => design.neck_shape = NeckShape::Square,
            "high" => design.neck_shape = NeckShape::High,
            "racer" => design.back_shape = BackShape::Racer,
            "vback" => design.back_shape = BackShape::V,
            "crossed" => design.back_shape = BackShape::CrossedStraps,
            "cheeky" => design.seat = Seat::Cheeky,
            "moderate" => design.seat = Seat::Moderate,
            "highleg" => design.leg = LegHeight::High,
            "xhighleg" => design.leg = LegHeight::ExtraHigh,
            "lowleg" => design.leg = LegHeight::Low,
            "highrise" => design.rise = Rise::High,
            "lowrise" => design.rise = Rise::Low,
            "wide" => design.strap_width = Mm::new(75.0),
            "skirt" => {
                design.skirt = Some(Skirt {
                    kind: SkirtKind::HalfCircle,
                    join: SkirtJoin::Hip,
                    cover: Mm::new(40.0),
                })
            }
            w => panic!("{w}"),
        }
    }
    let suit = draft(&body, &cloth, &design).unwrap();
    let mut x = 20.0;
    let mut out = String::new();
    for piece in &suit.pieces {
        let s = piece.whole();
        let (l, r) = s
            .cut_line
            .iter()
            .fold((f64::MAX, f64::MIN), |a, p| (a.0.min(p.x), a.1.max(p.x)));
        let (lo, hi) = s
            .cut_line
            .iter()
            .fold((f64::MAX, f64::MIN), |a, p| (a.0.min(p.y), a.1.max(p.y)));
        let at = |p: kurbo::Point| format!("{:.2},{:.2}", p.x - l + x, hi - p.y + 20.0);
        let poly = |ps: &[kurbo::Point]| ps.iter().map(|&p| at(p)).collect::<Vec<_>>().join(" ");
        out += &format!(
            "<polygon points='{}' fill='#fbfaf4' stroke='black'/>",
            poly(&s.cut_line)
        );
        for e in &s.seam_line {
            out += &format!(
                "<polyline points='{}' fill='none' stroke='black' stroke-dasharray='5 3' stroke-width='.6'/>",
                poly(&e.curve.flatten(0.1))
            );
        }
        for n in &s.notches {
            out += &format!(
                "<circle cx='{}' cy='{}' r='2.5' fill='red'/>",
                n.at.x - l + x,
                hi - n.at.y + 20.0
            );
        }
        for m in &s.marks {
            match m {
                Mark::Cross { at: p, .. } => {
                    out += &format!(
                        "<circle cx='{}' cy='{}' r='4' fill='none' stroke='blue'/>",
                        p.x - l + x,
                        hi - p.y + 20.0
                    )
                }
                Mark::LevelLine { from, to, .. } => {
                    out += &format!(
                        "<polyline points='{}' stroke='green' fill='none'/>",
                        poly(&[*from, *to])
                    )
                }
                Mark::Placement { curve, .. } => {
                    out += &format!(
                        "<polyline points='{}' stroke='purple' fill='none'/>",
                        poly(&curve.flatten(0.2))
                    )
                }
                Mark::ArcEnd { at: p, inward, .. } => {
                    out += &format!(
                        "<polyline points='{}' stroke='orange' fill='none'/>",
                        poly(&[*p - *inward * 8.0, *p + *inward * 10.0])
                    )
                }
            }
        }
        for a in [&s.grain, &s.stretch] {
            out += &format!(
                "<polyline points='{}' stroke='black' stroke-width='2'/>",
                poly(&[a.from, a.to])
            );
        }
        out += &format!(
            "<text x='{}' y='{}' font-size='20' text-anchor='middle'>{} {}</text>",
            s.label_at.x - l + x,
            hi - s.label_at.y + 20.0,
            piece.letter,
            piece.name
        );
        x += r - l + 30.0;
        let _ = lo;
    }
    println!(
        "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 {x} 1000' width='{}' height='900'>{out}</svg>",
        x * 0.9
    );
    for s in &suit.seams {
        eprintln!(
            "{:30} {:8.2} {:8.2} err {:.4}",
            s.name,
            s.first_mm,
            s.second_mm,
            s.error_mm()
        );
    }
    for e in &suit.open_edges {
        eprintln!("{:?} {} {:.1}", e.kind, e.count, e.length_mm());
    }
    for f in &suit.findings {
        eprintln!("{:?} {} {}", f.severity, f.code, f.message);
    }
}
