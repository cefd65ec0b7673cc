//! What was measured on a suit or a pattern: which measures there are, where each is kept, what was typed.

use body::{Body, BodyForm, Dimension, Dimensions, FrontTaken, WaistLevel, Wearer, complete};
use cloth::{ClothPlan, Fit, Load};
use draft::{Design, Draft, Style, draft};
use drawer::{
    Favourite, FlatMeasure, PaperLevel, PaperPattern, PaperSize, PaperWidth, TakenMeasure, WidthOf,
    finished_measure,
};
use serde_json::Value as Json;
use std::sync::OnceLock;
use units::{LengthUnit, Mm, Stretch};

use super::DrawerMeasure;
use super::papers::DrawerPapers;
use crate::view::told::{self, sentence, text_at};
use crate::view::{Note, State};

/// Measures a maker is asked for; the others sharpen the answer. With these every parameter of a one-piece is found and
/// the widths are checked; with all of them a slip of the neckline or of a centre line is told too.
const ASKED: [FlatMeasure; 8] = [
    FlatMeasure::AcrossBust,
    FlatMeasure::AcrossWaist,
    FlatMeasure::AcrossAboveLeg,
    FlatMeasure::SideSeam,
    FlatMeasure::CentreFront,
    FlatMeasure::CentreBack,
    FlatMeasure::LegOpening,
    FlatMeasure::StrapWidth,
];

/// A typed length at a path: none when nothing is there; a note when it is no length.
pub(super) fn length_at(body: &Json, path: &str, name: &str, unit: LengthUnit) -> Option<Result<Mm, Note>> {
    let text = text_at(body, path)?;
    Some(match told::typed(&text, unit) {
        Some((mm, _)) => Ok(mm),
        None => Err(told::note(
            State::Stop,
            name,
            format!("“{text}” is not a length."),
            "Write it as 34.5 or 13 5/8 in.",
        )
        .at(path)),
    })
}

fn measure(
    papers: &DrawerPapers,
    path: String,
    key: &str,
    name: &str,
    how: &str,
    is_asked: bool,
) -> DrawerMeasure {
    let unit = papers.unit();
    let read = length_at(&papers.item.body, &path, name, unit);
    DrawerMeasure {
        key: key.to_owned(),
        typed: papers.text(&path),
        quantity: match &read {
            Some(Ok(mm)) => Some(crate::view::length(*mm, unit)),
            _ => None,
        },
        problem: read.and_then(Result::err),
        path,
        name: name.to_owned(),
        how: sentence(how),
        is_asked,
    }
}

/// Where a flat measure of a suit is kept.
pub(super) fn path_of(measure: FlatMeasure) -> String {
    format!("measures.{}", measure.key())
}

/// The measures a suit of these shapes has.
pub(super) fn of_suit(papers: &DrawerPapers, example: Option<&Draft>) -> Vec<DrawerMeasure> {
    FlatMeasure::ALL
        .into_iter()
        .filter(|m| example.is_none_or(|suit| finished_measure(suit, *m).is_some()))
        .map(|m| {
            measure(
                papers,
                path_of(m),
                m.key(),
                m.name(),
                m.how(),
                ASKED.contains(&m) || m == FlatMeasure::SkirtLength,
            )
        })
        .collect()
}

/// The suit as it was measured, leaving out what the shapes do not have.
///
/// # Errors
/// A note for every measure that is no length.
pub(super) fn favourite(papers: &DrawerPapers, example: Option<&Draft>) -> Result<Favourite, Vec<Note>> {
    let mut wrong = Vec::new();
    let mut measures = Vec::new();
    for measure in FlatMeasure::ALL {
        if example.is_some_and(|suit| finished_measure(suit, measure).is_none()) {
            continue;
        }
        let read = length_at(
            &papers.item.body,
            &path_of(measure),
            measure.name(),
            papers.unit(),
        );
        match read {
            Some(Ok(mm)) => measures.push(TakenMeasure::new(measure, mm)),
            Some(Err(note)) => wrong.push(note),
            None => {}
        }
    }
    if wrong.is_empty() {
        Ok(Favourite {
            name: papers.text("name"),
            measures,
        })
    } else {
        Err(wrong)
    }
}

/// Levels a paper pattern is measured at, with whether they are asked for.
pub(super) const LEVELS: [(PaperLevel, &str, bool); 5] = [
    (PaperLevel::Bust, "bust", true),
    (PaperLevel::Underbust, "underbust", false),
    (PaperLevel::Waist, "waist", true),
    (PaperLevel::HighHip, "high_hip", true),
    (PaperLevel::Hip, "hip", false),
];

/// Lengths of a paper pattern: key, name, how, whether it is asked for.
const LENGTHS: [(&str, &str, &str, bool); 7] = [
    (
        "trunk_loop",
        "torso loop",
        "on the seam lines: from the middle of the shoulder down the front to the crotch seam, and from there up the back to the same point; both added",
        true,
    ),
    (
        "front_waist_length",
        "front waist length",
        "from the neck end of the shoulder seam straight down to the waist; where the neckline is cut lower, from where the neck end would be",
        false,
    ),
    (
        "crotch_length",
        "crotch length",
        "along the fold, from the waist of the front to the crotch seam and on to the waist of the back; both added",
        false,
    ),
    (
        "centre_front",
        "centre front",
        "along the fold, from the neckline seam line to the crotch seam",
        false,
    ),
    (
        "centre_back",
        "centre back",
        "along the fold, from the seam line at the top to the crotch seam",
        false,
    ),
    (
        "side_seam",
        "side seam",
        "along the seam line, from the leg to the underarm",
        false,
    ),
    (
        "crotch_width",
        "crotch width",
        "at the crotch seam from the fold to the seam line, and double it",
        false,
    ),
];

/// How much of the girth the typed widths are.
pub(super) fn width_of(papers: &DrawerPapers) -> WidthOf {
    match papers.text("width_of").as_str() {
        "half" => WidthOf::Half,
        "whole" => WidthOf::Whole,
        _ => WidthOf::Quarter,
    }
}

fn how_wide(of: WidthOf) -> &'static str {
    match of {
        WidthOf::Quarter => {
            "square to the fold, from the fold to the seam line at the side; of front and back the mean"
        }
        WidthOf::Half => {
            "from seam line to seam line over a whole front, or the halves of front and back added"
        }
        WidthOf::Whole => "from seam line to seam line over front and back, both added: once round",
    }
}

/// The measures a paper pattern may have.
pub(super) fn of_pattern(papers: &DrawerPapers) -> Vec<DrawerMeasure> {
    let how = how_wide(width_of(papers));
    let widths = LEVELS.iter().map(|&(level, key, is_asked)| {
        let name = format!("width at the {}", level.name());
        let how = format!("at the {}, {how}", level.name());
        measure(papers, format!("widths.{key}"), key, &name, &how, is_asked)
    });
    let lengths = LENGTHS.iter().map(|&(key, name, how, is_asked)| {
        measure(papers, format!("lengths.{key}"), key, name, how, is_asked)
    });
    widths.chain(lengths).collect()
}

/// The widths of another size.
pub(super) fn of_size(papers: &DrawerPapers, size: &str) -> Vec<DrawerMeasure> {
    let how = how_wide(width_of(papers));
    LEVELS
        .iter()
        .map(|&(level, key, is_asked)| {
            let name = format!("width at the {}", level.name());
            measure(
                papers,
                format!("sizes.{size}.widths.{key}"),
                key,
                &name,
                how,
                is_asked,
            )
        })
        .collect()
}

/// Keys of the other sizes, in their order.
pub(super) fn size_keys(papers: &DrawerPapers) -> Vec<String> {
    let sizes = papers.item.body.get("sizes").and_then(Json::as_object);
    sizes.map(|s| s.keys().cloned().collect()).unwrap_or_default()
}

/// The pattern as it was measured.
///
/// # Errors
/// A note for everything that cannot be read.
pub(super) fn pattern(papers: &DrawerPapers) -> Result<PaperPattern, Vec<Note>> {
    let body = &papers.item.body;
    let mut wrong = Vec::new();
    let mut read = |path: String, name: &str| match length_at(body, &path, name, papers.unit()) {
        Some(Ok(mm)) => Some(mm),
        Some(Err(note)) => {
            wrong.push(note);
            None
        }
        None => None,
    };
    let of = width_of(papers);
    let mut widths = |prefix: &str| -> Vec<PaperWidth> {
        LEVELS
            .iter()
            .filter_map(|&(level, key, _)| {
                let width = read(
                    format!("{prefix}widths.{key}"),
                    &format!("width at the {}", level.name()),
                )?;
                Some(PaperWidth { level, width, of })
            })
            .collect()
    };
    let own = widths("");
    let sizes = size_keys(papers)
        .into_iter()
        .map(|key| PaperSize {
            name: papers.text(&format!("sizes.{key}.name")),
            widths: widths(&format!("sizes.{key}.")),
        })
        .filter(|size| !size.widths.is_empty())
        .collect();
    let mut length = |key: &str| {
        let name = LENGTHS.iter().find(|l| l.0 == key).map_or(key, |l| l.1);
        read(format!("lengths.{key}"), name)
    };
    let mut pattern = PaperPattern {
        name: papers.text("name"),
        size: Some(papers.text("size")).filter(|s| !s.is_empty()),
        widths: own,
        trunk_loop: length("trunk_loop"),
        front_waist_length: length("front_waist_length"),
        crotch_length: length("crotch_length"),
        centre_front: length("centre_front"),
        centre_back: length("centre_back"),
        side_seam: length("side_seam"),
        crotch_width: length("crotch_width"),
        asked_stretch: None,
        sizes,
    };
    let asked = papers.text("stretch_asked");
    if !asked.is_empty() {
        match asked.trim_end_matches('%').trim().parse::<f64>() {
            Ok(percent) if percent.is_finite() => {
                pattern.asked_stretch = Some(Stretch::from_percent(percent));
            }
            _ => wrong.push(
                told::note(
                    State::Stop,
                    "stretch",
                    format!("“{asked}” is not a per cent figure."),
                    "Write it as 75.",
                )
                .at("stretch_asked"),
            ),
        }
    }
    if wrong.is_empty() { Ok(pattern) } else { Err(wrong) }
}

/// Somebody of middling dimensions, to draw how the tape is laid while nobody is chosen. Invented: the average body of the
/// draft's check values.
pub(super) fn somebody(form: BodyForm) -> Option<Body> {
    let mut taken = Dimensions::default();
    let of: &[(Dimension, f64)] = match form {
        BodyForm::Child => &[
            (Dimension::Stature, 1280.0),
            (Dimension::BustGirth, 640.0),
            (Dimension::WaistGirth, 570.0),
            (Dimension::HipGirth, 680.0),
            (Dimension::CrotchLength, 540.0),
            (Dimension::BackWaistLength, 290.0),
        ],
        _ => &[
            (Dimension::Stature, 1650.0),
            (Dimension::BustGirth, 920.0),
            (Dimension::UnderbustGirth, 780.0),
            (Dimension::WaistGirth, 760.0),
            (Dimension::HipGirth, 1000.0),
            (Dimension::CrotchLength, 720.0),
            (Dimension::BackWaistLength, 408.0),
        ],
    };
    for &(dimension, mm) in of {
        taken.set(dimension, Mm::new(mm));
    }
    let wearer = Wearer {
        name: String::new(),
        form,
        age_years: (form == BodyForm::Child).then_some(8.0),
        mass_kg: None,
        waist_level: WaistLevel::Natural,
        front_taken: FrontTaken::OverBustPoint,
        trust: None,
        taken,
    };
    complete(&wearer).ok().map(|(body, _)| body)
}

/// A middling cloth for the same drawing.
pub(super) fn some_cloth() -> ClothPlan {
    ClothPlan::of_one_cloth(
        "",
        Stretch::from_percent(70.0),
        Stretch::from_percent(50.0),
        Load::Hand,
    )
}

/// A suit of these shapes to draw the tape on: on somebody of this form.
pub(super) fn example_suit(form: BodyForm, shapes: &Design) -> Option<Draft> {
    let design = Design {
        fit: Fit::Regular,
        ..shapes.clone()
    };
    let body = somebody(form)?;
    draft(&body, &some_cloth(), &design).ok()
}

/// Styles whose suits lie flat as a front and a back with a width and a length to measure.
pub(super) fn styles_to_copy(form: BodyForm) -> &'static [Style] {
    static WOMAN: OnceLock<Vec<Style>> = OnceLock::new();
    static MAN: OnceLock<Vec<Style>> = OnceLock::new();
    static CHILD: OnceLock<Vec<Style>> = OnceLock::new();
    let kept = match form {
        BodyForm::Woman => &WOMAN,
        BodyForm::Man => &MAN,
        BodyForm::Child => &CHILD,
    };
    kept.get_or_init(|| {
        let can = |style: &Style| {
            style.is_for(form)
                && example_suit(form, &Design::of(*style)).is_some_and(|suit| {
                    let has = |m| finished_measure(&suit, m).is_some();
                    ["front", "back"]
                        .iter()
                        .all(|key| suit.pieces.iter().any(|p| p.key == *key))
                        && (has(FlatMeasure::AcrossWaist) || has(FlatMeasure::AcrossAboveLeg))
                        && has(FlatMeasure::SideSeam)
                })
        };
        Style::all().iter().copied().filter(can).collect()
    })
}
