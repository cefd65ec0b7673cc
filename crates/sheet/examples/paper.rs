//! Writes paper of the invented suits to the folder given, to be looked at and measured.

#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "an example writes files and says so"
)]

#[path = "../tests/suits/mod.rs"]
mod suits;

use draft::{
    BackShape, BustShaping, Cups, Design, LiningCover, NeckShape, Rise, Skirt, SkirtJoin, SkirtKind, Style,
};
use sheet::{MeasuredSquare, Options, Paper, PieceForm, Roll, dxf, json, pdf, svg};
use suits::Suit;
use units::{LengthUnit, Mm};

fn all() -> Vec<(&'static str, Suit)> {
    let lined = Design {
        lining: LiningCover::Full,
        ..Design::default()
    };
    let brief = Design {
        style: Style::BRIEF,
        rise: Rise::Mid,
        ..Design::default()
    };
    let racer = Design {
        back_shape: BackShape::Racer,
        neck_shape: NeckShape::High,
        neck_depth: Some(draft::NeckDepth::Share(0.45)),
        ..Design::default()
    };
    let skirted = Design {
        skirt: Some(Skirt {
            kind: SkirtKind::HalfCircle,
            join: SkirtJoin::Waist,
            cover: Mm::new(40.0),
        }),
        bust_shaping: BustShaping::Princess,
        cups: Cups::Pocket,
        lining: LiningCover::Full,
        ..Design::default()
    };
    let crossed = Design {
        back_shape: BackShape::CrossedStraps,
        strap_width: Mm::new(15.0),
        ..Design::default()
    };
    vec![
        ("maren", suits::suit("Maren’s one-piece", "Maren", "tall", &lined)),
        ("tove", suits::suit("Tove’s brief", "Tove", "petite", &brief)),
        ("racer", suits::suit("Maren’s racer", "Maren", "average", &racer)),
        (
            "odile",
            suits::suit("Odile’s skirted suit", "Odile", "large_cup", &skirted),
        ),
        (
            "crossed",
            suits::suit("Tove’s crossed straps", "Tove", "petite", &crossed),
        ),
        (
            "longname",
            suits::suit(
                "The winter sea-swimming club’s second trial of a one-piece for cold water, with a name that never ends",
                "Ελένη Παπαδοπούλου-Жукова 🏊",
                "child8",
                &Design::default(),
            ),
        ),
        (
            "ines",
            suits::suit("Ines’ one-piece", "Ines", "child8", &Design::default()),
        ),
    ]
}

fn main() {
    let folder = std::env::args().nth(1).unwrap_or_else(|| ".".to_owned());
    for (key, suit) in all() {
        let mut suit = suit;
        if key == "ines" {
            suit.first_unit = LengthUnit::In;
            suit.notes = vec!["Ines grows: leave 15 mm at the side seams and baste them first.".to_owned()];
        }
        let pattern = suit.pattern();
        let mut made = vec![];
        for paper in [Paper::A4, Paper::Letter] {
            made.push((paper.name(), pdf::tiled(&pattern, paper, &Options::default())));
        }
        for roll in [Roll::A0, Roll::Inch36] {
            made.push((roll.name(), pdf::single(&pattern, roll, &Options::default())));
        }
        made.push(("projector", pdf::projector(&pattern, PieceForm::Whole)));
        let square = MeasuredSquare {
            across: Mm::new(99.4),
            down: Mm::new(100.2),
        };
        let off = Options {
            form: PieceForm::Half,
            printer: Some(square),
            ..Options::default()
        };
        made.push(("halves-off-printer", pdf::tiled(&pattern, Paper::A3, &off)));
        let whole = PieceForm::Whole;
        let files = [
            ("svg", svg::pattern(&pattern, whole).map(String::into_bytes)),
            ("json", json::pattern(&pattern, whole).map(String::into_bytes)),
            ("exchange.dxf", dxf::exchange(&pattern, whole)),
            ("cutter.dxf", dxf::cutter(&pattern, whole)),
            (
                "map.svg",
                svg::page_map(&pattern, Paper::A4, &Options::default()).map(String::into_bytes),
            ),
        ];
        for (end, bytes) in files {
            match bytes {
                Ok(bytes) => {
                    std::fs::write(format!("{folder}/{key}.{end}"), bytes).expect("a folder to write to")
                }
                Err(refusal) => println!("{key} {end}: {refusal}"),
            }
        }
        for (name, result) in made {
            match result {
                Ok(printed) => {
                    println!("{key} {name}: {} pages, {:?}", printed.pages, printed.tiles);
                    let path = format!("{folder}/{key}-{}.pdf", name.replace(' ', "-"));
                    std::fs::write(path, printed.bytes).expect("a folder to write to");
                }
                Err(refusal) => println!("{key} {name}: {refusal}"),
            }
        }
    }
}
