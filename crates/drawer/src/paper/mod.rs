//! Adapting a bought paper pattern: a change sheet from its net measures, the body, the cloth and the fit.
//!
//! The paper is held against what our own draft would cut at each level and along the torso loop. The sheet says how much each
//! quarter and each line changes and where, what must be trued afterwards, and first of all whether it is worth it.
//!
//! **Shapes and units.** mm, net; stretches as ratios.
//! **Source.** Factors of `cloth`; rules of change own, see [`WidthChange`], [`LineChange`], [`Verdict`].
//! **Limits.** Only levels and lengths that were measured are compared. Style, straps and cups stay the pattern's; a strap's length
//! is found by trial.

mod length;
mod pattern;
mod schematic;
mod stretch;
mod truing;
mod verdict;
mod width;

pub use length::{LengthChanges, LengthLine, LengthNeed, LineChange, MOST_A_LINE};
pub use pattern::{PaperLevel, PaperPattern, PaperSize, PaperWidth, WidthOf};
pub use schematic::{DrawnLine, DrawnPiece, Schematic};
pub use stretch::{ClothAgainstEnvelope, StretchVerdict, WornUnchanged};
pub use truing::TruingStep;
pub use verdict::{MOST_APART, SizeNeed, Verdict};
pub use width::{AT_THE_SIDE, MOST_A_QUARTER, MOST_AT_THE_BUST, WidthChange};

use body::{Body, BodyForm};
use cloth::{ClothPlan, Fit};
use serde::Serialize;
use units::{Finding, Limit, Mm, Severity};

use crate::error::PaperError;

/// What is needed to adapt a pattern.
#[derive(Clone, Copy, Debug)]
pub struct AdaptRequest<'a> {
    /// The paper.
    pub pattern: &'a PaperPattern,
    /// Whom it is to fit.
    pub body: &'a Body,
    /// Of what.
    pub cloth: &'a ClothPlan,
    /// How tight.
    pub fit: Fit,
}

/// How a paper pattern is changed for one body and cloth.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChangeSheet {
    /// Adapt it, choose another size, or draft.
    pub verdict: Verdict,
    /// Widths, top to bottom.
    pub widths: Vec<WidthChange>,
    /// Lengths.
    pub lengths: LengthChanges,
    /// Other sizes with what they would need.
    pub sizes: Vec<SizeNeed>,
    /// The envelope's stretch against the cloth's, if it says one.
    pub stretch: Option<StretchVerdict>,
    /// What to true after the changes, in order.
    pub truing: Vec<TruingStep>,
    /// Half front and half back in the pattern's own dimensions, with the lines of change.
    pub schematic: Schematic,
    /// All of it in words.
    pub findings: Vec<Finding>,
}

/// Widths a pattern can have once round, mm.
const WIDTHS: (f64, f64) = (300.0, 2500.0);
/// Lengths a pattern can have, mm.
const LENGTHS: (f64, f64) = (50.0, 2500.0);
/// Crotch widths, mm.
const CROTCHES: (f64, f64) = (30.0, 150.0);
/// Stretch an envelope asks, %.
const ASKED: (f64, f64) = (5.0, 300.0);

/// How to change a bought paper pattern so that it fits this body in this cloth.
///
/// Deterministic. The verdict comes first; the changes are given whatever it is.
///
/// # Errors
/// All [`PaperError`]s of the pattern, and every dimension the body lacks for what was measured on the paper.
///
/// # Example
/// ```
/// use body::{BodyForm, Dimension, Dimensions, FrontTaken, WaistLevel, Wearer, complete};
/// use cloth::{ClothPlan, Fit, Load};
/// use drawer::{AdaptRequest, PaperLevel, PaperPattern, PaperWidth, Verdict, WidthOf, adapt_pattern};
/// use units::{Mm, Stretch};
///
/// let mut taken = Dimensions::default();
/// for (dimension, mm) in [
///     (Dimension::Stature, 1650.0), (Dimension::BustGirth, 920.0), (Dimension::UnderbustGirth, 780.0),
///     (Dimension::WaistGirth, 760.0), (Dimension::HipGirth, 1000.0), (Dimension::CrotchLength, 720.0),
///     (Dimension::BackWaistLength, 408.0),
/// ] {
///     taken.set(dimension, Mm::new(mm));
/// }
/// let wearer = Wearer {
///     name: "Maren".into(),
///     form: BodyForm::Woman,
///     age_years: None,
///     mass_kg: None,
///     waist_level: WaistLevel::Natural,
///     front_taken: FrontTaken::OverBustPoint,
///     trust: None,
///     taken,
/// };
/// let (body, _) = complete(&wearer).expect("a plausible body");
/// let (around, lengthwise) = (Stretch::from_percent(85.0), Stretch::from_percent(60.0));
/// let cloth = ClothPlan::of_one_cloth("Slate tricot", around, lengthwise, Load::Hand);
/// let width = |level, mm| PaperWidth { level, width: Mm::new(mm), of: WidthOf::Quarter };
/// let pattern = PaperPattern {
///     name: "from the market".into(),
///     widths: vec![width(PaperLevel::Bust, 195.0), width(PaperLevel::Waist, 160.0), width(PaperLevel::Hip, 212.5)],
///     ..PaperPattern::default()
/// };
/// let sheet = adapt_pattern(&AdaptRequest { pattern: &pattern, body: &body, cloth: &cloth, fit: Fit::Regular })
///     .expect("widths of a suit");
/// assert_eq!(sheet.verdict, Verdict::Adapt);
/// let bust = sheet.widths[0];
/// assert_eq!(format!("{:.2} a quarter, {:.0} at the side", bust.quarter.get(), bust.at_side.get()), "8.53 a quarter, 6 at the side");
/// ```
pub fn adapt_pattern(request: &AdaptRequest<'_>) -> Result<ChangeSheet, Vec<PaperError>> {
    let AdaptRequest {
        pattern,
        body,
        cloth,
        fit,
    } = *request;
    let faults = faults(pattern);
    if !faults.is_empty() {
        return Err(faults);
    }
    let mut faults = Vec::new();
    let mut collect = |result: Result<Vec<WidthChange>, Vec<PaperError>>| {
        result.unwrap_or_else(|errors| {
            faults.extend(errors);
            Vec::new()
        })
    };
    let widths = collect(width::changes(&pattern.widths, body, cloth, fit, "width at the"));
    let sizes: Vec<SizeNeed> = pattern
        .sizes
        .iter()
        .filter(|s| !s.widths.is_empty() && pattern.size.as_deref() != Some(s.name.as_str()))
        .map(|size| SizeNeed {
            name: size.name.clone(),
            widths: collect(width::changes(
                &size.widths,
                body,
                cloth,
                fit,
                &format!("size {}, width at the", size.name),
            )),
        })
        .collect();
    let lengths = match length::changes(pattern, body, cloth, fit) {
        Ok(lengths) => lengths,
        Err(errors) => {
            faults.extend(errors);
            LengthChanges::default()
        }
    };
    if !faults.is_empty() {
        return Err(faults);
    }

    let verdict = verdict::judge(&widths, &lengths, &sizes);
    let mut findings = vec![verdict::finding(&verdict, &widths, &sizes)];
    let stretch = pattern
        .asked_stretch
        .map(|asked| stretch::judge(asked, cloth, &widths));
    match &stretch {
        Some(judged) => stretch::findings(judged, cloth, &mut findings),
        None => findings.push(plain(
            "drawer.paper_stretch_unknown",
            Severity::Watch,
            "cloth",
            "what stretch the envelope asks is not known: its own size table means nothing in another cloth",
            "look for a stretch ruler or a per cent figure on the envelope",
        )),
    }
    widened(&widths, &mut findings);
    crotch(pattern, body.form, &mut findings);
    if lengths.trunk_loop.is_none() {
        findings.push(plain(
            "drawer.paper_loop_unknown",
            Severity::Watch,
            "torso",
            "the torso loop of the paper was not measured: the length that decides a one-piece is unchecked",
            "measure from mid shoulder down the front, through the crotch and up the back, net",
        ));
    }
    findings.push(plain(
        "drawer.paper_strap",
        Severity::Watch,
        "strap",
        "a strap's length cannot be read off the paper",
        "cut it 3 cm longer, pin it at the shoulder seam or the ring, try the suit on, then trim",
    ));
    Ok(ChangeSheet {
        truing: truing::steps(&widths, &lengths),
        schematic: schematic::draw(pattern, body, cloth, fit, &widths, &lengths),
        verdict,
        widths,
        lengths,
        sizes,
        stretch,
        findings,
    })
}

fn plain(code: &'static str, severity: Severity, place: &str, message: &str, remedy: &str) -> Finding {
    Finding {
        code,
        severity,
        place: place.into(),
        message: message.into(),
        value: None,
        limit: None,
        remedy: remedy.into(),
    }
}

fn widened(widths: &[WidthChange], findings: &mut Vec<Finding>) {
    for width in widths.iter().filter(|w| w.is_widened_for_way_in) {
        findings.push(Finding {
            code: "drawer.paper_way_in",
            severity: Severity::Watch,
            place: width.level.name().into(),
            message: format!(
                "the waist is left at {} so that it passes the hips",
                width.wanted.to_cm_text()
            ),
            value: Some(width.wanted.get()),
            limit: Some(Limit {
                text: "0.85 of the cloth's stretch".into(),
                source: "own",
            }),
            remedy: "a softer cloth lets it lie closer".into(),
        });
    }
}

/// A crotch is a set width and never reduced.
fn crotch(pattern: &PaperPattern, form: BodyForm, findings: &mut Vec<Finding>) {
    let Some(width) = pattern.crotch_width else { return };
    let (low, high) = match form {
        BodyForm::Woman => (60.0, 80.0),
        BodyForm::Man => (75.0, 100.0),
        BodyForm::Child => (45.0, 60.0),
    };
    if !(low..=high).contains(&width.get()) {
        findings.push(Finding {
            code: "drawer.paper_crotch",
            severity: Severity::Watch,
            place: "crotch".into(),
            message: format!("the crotch is {:.0} mm wide", width.get()),
            value: Some(width.get()),
            limit: Some(Limit {
                text: format!("{low:.0} to {high:.0} mm"),
                source: "common practice, no single source",
            }),
            remedy: "redraw front and back to one width at the crotch seam; it is not reduced for stretch"
                .into(),
        });
    }
}

fn faults(pattern: &PaperPattern) -> Vec<PaperError> {
    let mut faults = Vec::new();
    let mut check = |field: String, value: f64, (low, high): (f64, f64), unit| {
        if !(low..=high).contains(&value) {
            faults.push(PaperError::OutOfRange {
                field,
                value,
                low,
                high,
                unit,
            });
        }
    };
    for width in &pattern.widths {
        check(
            format!("width at the {}, once round", width.level.name()),
            width.girth().get(),
            WIDTHS,
            "mm",
        );
    }
    for size in &pattern.sizes {
        for width in &size.widths {
            let field = format!(
                "size {}, width at the {}, once round",
                size.name,
                width.level.name()
            );
            check(field, width.girth().get(), WIDTHS, "mm");
        }
    }
    for (field, length) in [
        ("torso loop", pattern.trunk_loop),
        ("front waist length", pattern.front_waist_length),
        ("crotch length", pattern.crotch_length),
        ("centre front", pattern.centre_front),
        ("centre back", pattern.centre_back),
        ("side seam", pattern.side_seam),
    ] {
        if let Some(length) = length {
            check(field.into(), length.get(), LENGTHS, "mm");
        }
    }
    if let Some(width) = pattern.crotch_width {
        check("crotch width".into(), width.get(), CROTCHES, "mm");
    }
    if let Some(asked) = pattern.asked_stretch {
        check("stretch the envelope asks".into(), asked.percent(), ASKED, "%");
    }
    let mut twice = |widths: &[PaperWidth], of: &str| {
        for (i, width) in widths.iter().enumerate() {
            if widths.iter().take(i).any(|w| w.level == width.level) {
                faults.push(PaperError::Twice {
                    field: format!("{of}width at the {}", width.level.name()),
                });
            }
        }
    };
    twice(&pattern.widths, "");
    for size in &pattern.sizes {
        twice(&size.widths, &format!("size {}, ", size.name));
    }
    if pattern.widths.is_empty() {
        faults.push(PaperError::NoWidths);
    }
    faults
}

/// A length as paper and findings write a change: with its sign, mm to the half.
pub(crate) fn signed(change: Mm) -> String {
    let halves = (change.get() * 2.0).round() / 2.0;
    // No "-0".
    format!("{:+.1} mm", if halves == 0.0 { 0.0 } else { halves })
}
