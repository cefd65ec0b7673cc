//! Contact sheets of styles: every piece of a style on some bodies, side by side, as SVG.
//!
//! ```text
//! cargo run -p slackwater-draft --example contact -- --out docs/styles            every style, three bodies each
//! cargo run -p slackwater-draft --example contact -- --out /tmp halter --bodies plus --cloth soft,firm --set band_height=60
//! ```
//! Bodies are the invented ones of data/draft/check-values.json.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a command for people: reads its data, writes files, says what it did"
)]

use std::fmt::Write as _;

use body::{Body, BodyForm, Dimension, Dimensions, Wearer, complete};
use draft::{
    BackShape, BustShaping, Closure, ClosureKind, ClosurePlace, Cups, Design, Draft, EdgeUse, LegHeight,
    LiningCover, Mark, NeckShape, Piece, Skirt, SkirtJoin, SkirtKind, Style, draft,
};
use kurbo::Point;
use units::Mm;

/// Units of the picture per mm of cloth.
const SCALE: f64 = 0.36;
const GAP: f64 = 26.0;
const WIDTH: f64 = 1000.0;

struct Asked {
    out: String,
    styles: Vec<Style>,
    bodies: Option<Vec<String>>,
    cloths: Vec<String>,
    set: Vec<(String, String)>,
}

fn asked() -> Asked {
    let mut asked = Asked {
        out: "docs/styles".into(),
        styles: Vec::new(),
        bodies: None,
        cloths: vec!["soft".into()],
        set: Vec::new(),
    };
    let mut args = std::env::args().skip(1);
    while let Some(arg) = args.next() {
        let mut next = || args.next().unwrap_or_else(|| panic!("{arg} needs a value"));
        match arg.as_str() {
            "--out" => asked.out = next(),
            "--bodies" => asked.bodies = Some(next().split(',').map(str::to_owned).collect()),
            "--cloth" => asked.cloths = next().split(',').map(str::to_owned).collect(),
            "--set" => {
                let pair = next();
                let (key, value) = pair.split_once('=').expect("--set key=value");
                asked.set.push((key.into(), value.into()));
            }
            key => asked.styles.push(
                Style::of_key(key).unwrap_or_else(|| panic!("no style {key}; there are {:?}", Style::all())),
            ),
        }
    }
    if asked.styles.is_empty() {
        asked.styles = Style::all().to_vec();
    }
    asked
}

fn main() {
    let asked = asked();
    std::fs::create_dir_all(&asked.out).unwrap();
    for &style in &asked.styles {
        let mut sheet = Sheet::default();
        sheet.heading(&format!("{}: {}", style.spec().name, style.spec().says));
        let bodies = asked.bodies.clone().unwrap_or_else(|| usual_bodies(style));
        for name in &bodies {
            for cloth_name in &asked.cloths {
                let cloth = match cloth_name.as_str() {
                    "soft" => fixtures::cloth(85.0, 60.0),
                    "firm" => fixtures::cloth(50.0, 32.0),
                    other => panic!("no cloth {other}; there are soft and firm"),
                };
                let mut design = Design::of(style);
                for (key, value) in &asked.set {
                    set(&mut design, key, value);
                }
                sheet.heading(&format!("{}, {cloth_name} cloth", called(name)));
                match draft(&body(name), &cloth, &design) {
                    Ok(suit) => sheet.suit(&suit),
                    Err(refusal) => sheet.heading(&format!("refused: {refusal}")),
                }
            }
        }
        let path = format!("{}/{}.svg", asked.out, style.key());
        std::fs::write(&path, sheet.finish()).unwrap();
        println!("{path}");
    }
}

fn usual_bodies(style: Style) -> Vec<String> {
    let list: &[&str] = match style.spec().wearers {
        [BodyForm::Man, ..] => &["man 0.92 0.96", "man", "man 1.14 1.02"],
        [BodyForm::Child, ..] => &["child8 0.88 0.82", "child8", "child8 1.16 1.18"],
        _ => &["petite", "average", "plus"],
    };
    list.iter().map(|&b| b.to_owned()).collect()
}

/// Shared parameters a sheet may be asked for by name; everything else is the style's own.
fn set_shared(design: &mut Design, key: &str, value: &str) -> bool {
    match (key, value) {
        ("bust_shaping", "princess") => design.bust_shaping = BustShaping::Princess,
        ("bust_shaping", "side-dart") => design.bust_shaping = BustShaping::SideDart,
        ("back", "racer") => design.back_shape = BackShape::Racer,
        ("back", "v") => design.back_shape = BackShape::V,
        ("back", "crossed-straps") => design.back_shape = BackShape::CrossedStraps,
        ("neckline", "v") => design.neck_shape = NeckShape::V,
        ("neckline", "square") => design.neck_shape = NeckShape::Square,
        ("neckline", "high") => design.neck_shape = NeckShape::High,
        ("lining", "full") => design.lining = LiningCover::Full,
        ("lining", "front") => design.lining = LiningCover::Front,
        ("belly", mm) => design.figure.belly = Mm::new(mm.parse().expect("a number")),
        ("leg", "high") => design.leg = LegHeight::High,
        ("leg", "low") => design.leg = LegHeight::Low,
        ("cups", "pocket") => design.cups = Cups::Pocket,
        ("closure", kind) => {
            let (kind, place) = match kind {
                "zip-back" => (ClosureKind::Zip, ClosurePlace::Back),
                "zip-front" => (ClosureKind::Zip, ClosurePlace::Front),
                "clasp" => (ClosureKind::Clasp, ClosurePlace::Back),
                "hook" => (ClosureKind::Hook, ClosurePlace::Neck),
                "ring" => (ClosureKind::Ring, ClosurePlace::Neck),
                other => panic!("no closure {other}"),
            };
            design.closure = Some(Closure {
                kind,
                place,
                length: Mm::new(180.0),
            });
        }
        ("skirt", join) => {
            design.skirt = Some(Skirt {
                kind: SkirtKind::HalfCircle,
                join: match join {
                    "underbust" => SkirtJoin::Underbust,
                    "hip" => SkirtJoin::Hip,
                    _ => SkirtJoin::Waist,
                },
                cover: Mm::new(60.0),
            });
        }
        _ => return false,
    }
    true
}

fn set(design: &mut Design, key: &str, value: &str) {
    if set_shared(design, key, value) {
        return;
    }
    fixtures::set(design, key, value).unwrap_or_else(|why| panic!("{why}"));
}

/// A body of the file; with two numbers behind its name, that body with its girths and its lengths times these.
fn body(name: &str) -> Body {
    let mut words = name.split(' ');
    let known = fixtures::body(words.next().unwrap());
    let mut factor = || words.next().map_or(1.0, |n| n.parse::<f64>().expect("a number"));
    let (around, along) = (factor(), factor());
    if (around, along) == (1.0, 1.0) {
        return known;
    }
    let mut taken = Dimensions::default();
    for dimension in Dimension::ALL.into_iter().filter(|d| known.is_taken(*d)) {
        let is_around = dimension.key().ends_with("_girth") || dimension == Dimension::BustPointDistance;
        let mm = known.mm(dimension).unwrap() * if is_around { around } else { along };
        taken.set(dimension, Mm::new(mm));
    }
    let wearer = Wearer {
        taken,
        ..fixtures::somebody(known.form, &[])
    };
    complete(&wearer).unwrap_or_else(|e| panic!("{name}: {e:?}")).0
}

/// How a body is called on the sheet.
fn called(name: &str) -> String {
    let words: Vec<&str> = name.split(' ').collect();
    match words[..] {
        [one, around, along] => format!("{one}, girths x {around}, lengths x {along}"),
        _ => name.to_owned(),
    }
}

#[derive(Default)]
struct Sheet {
    body: String,
    x: f64,
    y: f64,
    row: f64,
}

impl Sheet {
    fn heading(&mut self, text: &str) {
        self.y += self.row + if self.row > 0.0 { GAP } else { 0.0 };
        (self.x, self.row) = (GAP, 0.0);
        self.y += 26.0;
        let text = text.replace('&', "&amp;").replace('<', "&lt;");
        write!(
            self.body,
            r#"<text x="{GAP}" y="{:.1}" class="h">{text}</text>"#,
            self.y
        )
        .unwrap();
        self.y += 14.0;
    }

    fn suit(&mut self, suit: &Draft) {
        for piece in &suit.pieces {
            self.piece(piece);
        }
    }

    fn piece(&mut self, piece: &Piece) {
        let shape = piece.whole();
        let (mut low, mut high) = (Point::new(f64::MAX, f64::MAX), Point::new(f64::MIN, f64::MIN));
        for p in &shape.cut_line {
            low = Point::new(low.x.min(p.x), low.y.min(p.y));
            high = Point::new(high.x.max(p.x), high.y.max(p.y));
        }
        let (w, h) = ((high.x - low.x) * SCALE, (high.y - low.y) * SCALE);
        if self.x + w.max(110.0) > WIDTH - GAP && self.x > GAP {
            self.y += self.row + GAP;
            (self.x, self.row) = (GAP, 0.0);
        }
        let at = |p: Point| ((p.x - low.x) * SCALE + self.x, (high.y - p.y) * SCALE + self.y);
        let path = |points: &[Point], closed: bool| {
            let mut d = String::new();
            for (i, &p) in points.iter().enumerate() {
                let (x, y) = at(p);
                write!(d, "{}{x:.1} {y:.1}", if i == 0 { "M" } else { "L" }).unwrap();
            }
            if closed {
                d.push('Z');
            }
            d
        };
        let mut out = String::new();
        let mut line = |class: &str, d: &str| {
            write!(out, r#"<path class="{class}" d="{d}"/>"#).unwrap();
        };
        line("cut", &path(&shape.cut_line, true));
        for edge in &shape.seam_line {
            let class = match edge.role {
                EdgeUse::Open(_) => "open",
                EdgeUse::Hem => "hem",
                _ => "seam",
            };
            line(class, &path(&edge.curve.flatten(0.3), false));
        }
        if let Some((a, b)) = shape.fold_line {
            line("fold", &path(&[a, b], false));
        }
        for n in &shape.notches {
            line("notch", &path(&[n.at, n.at + n.inward * 8.0], false));
        }
        for mark in &shape.marks {
            match mark {
                Mark::Cross { at: p, .. } => {
                    for (dx, dy) in [(6.0, 6.0), (6.0, -6.0)] {
                        let d = kurbo::Vec2::new(dx, dy);
                        line("mark", &path(&[*p - d, *p + d], false));
                    }
                }
                Mark::LevelLine { from, to, .. } => line("level", &path(&[*from, *to], false)),
                Mark::Placement { curve, .. } => line("mark", &path(&curve.flatten(0.3), false)),
                Mark::ArcEnd { at: p, inward, .. } => line("arc", &path(&[*p, *p + *inward * 10.0], false)),
            }
        }
        for arrow in [shape.grain, shape.stretch] {
            line("arrow", &path(&[arrow.from, arrow.to], false));
        }
        let cuts: Vec<String> = piece
            .cuts
            .iter()
            .map(|c| format!("{} {}", c.count, c.layer.name()))
            .collect();
        write!(
            out,
            r#"<text x="{:.1}" y="{:.1}">{} {} ({})</text>"#,
            self.x,
            self.y + h + 13.0,
            piece.letter,
            piece.name,
            cuts.join(", ")
        )
        .unwrap();
        self.body.push_str(&out);
        self.x += w.max(110.0) + GAP;
        self.row = self.row.max(h + 16.0);
    }

    fn finish(self) -> String {
        let height = self.y + self.row + GAP;
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {height:.0}\" width=\"{WIDTH}\" \
             height=\"{height:.0}\"><style>path{{fill:none;stroke:#1d2b33;stroke-width:1}}text{{font:11px sans-serif;\
             fill:#1d2b33}}.h{{font-size:15px;font-weight:600}}.cut{{fill:#f3f6f5;stroke-width:1.4}}.open{{stroke:#0b6e8a;\
             stroke-width:1.6}}.hem{{stroke-dasharray:7 3}}.seam{{stroke:#66757c}}.fold{{stroke-dasharray:9 3 2 3}}\
             .level,.mark,.arrow{{stroke:#98a4a9;stroke-width:.8}}.arc,.notch{{stroke:#b3541e}}</style>\
             <rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>{}</svg>\n",
            self.body
        )
    }
}
