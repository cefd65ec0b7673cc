//! Our own draft as the model of a suit that was measured: unknowns in, its finished measures out.
//!
//! The unknowns are what a maker would set, so that what is found is a design and not a drawing. What the shapes of the suit
//! leave no room for (the depth of a racer back), what was not measured, and what the cloth cannot tell is held at a value and
//! said.

use body::{Body, BodyForm};
use cloth::{ClothPlan, Fit, NO_LENGTH_STRETCH, OwnFit};
use draft::geometry::Curve;
use draft::{
    BackDepth, BackShape, Cups, Design, Draft, LegHeight, LiningCover, NeckDepth, NeckShape, Piece, Refusal,
    Shared, draft,
};
use serde::Serialize;
use units::Mm;

use super::measure::{Favourite, FlatMeasure, TakenMeasure};
use crate::least_squares::Unknown;

/// A parameter of the suit that is found from its measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum SuitParameter {
    /// Share of the old cloth's stretch used around.
    AroundShare,
    /// Share of it used lengthwise.
    LengthwiseShare,
    /// Leg height, share of waist to hip below the waist.
    LegShare,
    /// Strap width, mm.
    StrapWidth,
    /// Depth of the neckline, share.
    NeckDepth,
    /// Depth of the back, share.
    BackDepth,
    /// Crotch width, mm.
    CrotchWidth,
    /// How far the skirt hangs below the crotch, mm.
    SkirtCover,
}

impl SuitParameter {
    /// Its name in a sentence.
    pub const fn name(self) -> &'static str {
        match self {
            SuitParameter::AroundShare => "stretch used around",
            SuitParameter::LengthwiseShare => "stretch used lengthwise",
            SuitParameter::LegShare => "leg height",
            SuitParameter::StrapWidth => "strap width",
            SuitParameter::NeckDepth => "neckline depth",
            SuitParameter::BackDepth => "back depth",
            SuitParameter::CrotchWidth => "crotch width",
            SuitParameter::SkirtCover => "skirt cover",
        }
    }

    /// `mm`, or empty for a share.
    pub const fn unit(self) -> &'static str {
        match self {
            SuitParameter::StrapWidth | SuitParameter::CrotchWidth | SuitParameter::SkirtCover => "mm",
            _ => "",
        }
    }

    /// Bounds, the narrower of what can be drafted and what a suit is; start; step of differences, over the noise of the
    /// draft's own root finders and under its kinks.
    fn unknown(self, start: f64) -> Unknown {
        let (low, high, step) = match self {
            SuitParameter::AroundShare => (0.02, 0.50, 1e-3),
            SuitParameter::LengthwiseShare => (0.0, 0.40, 1e-3),
            SuitParameter::LegShare => (0.05, 1.0, 2e-3),
            SuitParameter::StrapWidth => (15.0, 90.0, 0.1),
            SuitParameter::NeckDepth => (0.05, 0.60, 2e-3),
            SuitParameter::BackDepth => (0.10, 0.95, 2e-3),
            SuitParameter::CrotchWidth => (40.0, 110.0, 0.1),
            SuitParameter::SkirtCover => (0.0, 120.0, 0.5),
        };
        Unknown {
            start,
            low,
            high,
            step,
        }
    }

    /// What a style must listen to for it to mean anything.
    fn shared(self) -> Option<Shared> {
        Some(match self {
            SuitParameter::AroundShare | SuitParameter::LengthwiseShare => return None,
            SuitParameter::LegShare => Shared::Leg,
            SuitParameter::StrapWidth => Shared::Strap,
            SuitParameter::NeckDepth => Shared::Neckline,
            SuitParameter::BackDepth => Shared::Back,
            SuitParameter::CrotchWidth => Shared::Crotch,
            SuitParameter::SkirtCover => Shared::Skirt,
        })
    }

    /// The measures that tell it; without any of them it is held.
    fn told_by(self) -> &'static [FlatMeasure] {
        match self {
            SuitParameter::AroundShare => &[
                FlatMeasure::AcrossBust,
                FlatMeasure::AcrossWaist,
                FlatMeasure::AcrossAboveLeg,
            ],
            SuitParameter::LengthwiseShare => &[
                FlatMeasure::SideSeam,
                FlatMeasure::CentreFront,
                FlatMeasure::CentreBack,
            ],
            SuitParameter::LegShare => &[
                FlatMeasure::SideSeam,
                FlatMeasure::LegOpening,
                FlatMeasure::LegSlant,
            ],
            SuitParameter::StrapWidth => &[FlatMeasure::StrapWidth],
            SuitParameter::NeckDepth => &[
                FlatMeasure::CentreFront,
                FlatMeasure::NecklineDepth,
                FlatMeasure::NecklineFront,
                FlatMeasure::NecklineSlant,
            ],
            SuitParameter::BackDepth => &[
                FlatMeasure::CentreBack,
                FlatMeasure::BackDepth,
                FlatMeasure::NecklineBack,
                FlatMeasure::BackSlant,
            ],
            SuitParameter::CrotchWidth => &[FlatMeasure::CrotchWidth],
            SuitParameter::SkirtCover => &[FlatMeasure::SkirtLength],
        }
    }
}

/// A parameter that could not be found, the value it is held at, and why.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HeldParameter {
    /// Which.
    pub parameter: SuitParameter,
    /// What it is held at, in its unit.
    pub value: f64,
    /// Why, and what to do if it matters.
    pub why: &'static str,
}

/// The model of one suit: who wears it, of what, in which shapes.
pub(super) struct Model<'a> {
    body: &'a Body,
    /// The old cloth as it is now: washed, so with no shrinkage to come.
    cloth: ClothPlan,
    shapes: Design,
    pub(super) found: Vec<SuitParameter>,
    pub(super) held: Vec<HeldParameter>,
}

impl<'a> Model<'a> {
    pub(super) fn new(body: &'a Body, old: &ClothPlan, shapes: &Design, favourite: &Favourite) -> Model<'a> {
        let mut cloth = old.clone();
        cloth.shrinkage_factor_around = 1.0;
        cloth.shrinkage_factor_lengthwise = 1.0;
        let mut shapes = shapes.clone();
        // Neither changes a seam line of the suit, and a draft without them is quicker.
        shapes.lining = LiningCover::None;
        shapes.cups = Cups::None;
        if !favourite.has(FlatMeasure::SkirtLength) {
            shapes.skirt = None;
        }
        let mut model = Model {
            body,
            cloth,
            shapes,
            found: Vec::new(),
            held: Vec::new(),
        };
        for parameter in [
            SuitParameter::AroundShare,
            SuitParameter::LengthwiseShare,
            SuitParameter::LegShare,
            SuitParameter::StrapWidth,
            SuitParameter::NeckDepth,
            SuitParameter::BackDepth,
            SuitParameter::CrotchWidth,
            SuitParameter::SkirtCover,
        ] {
            match model.why_held(parameter, favourite) {
                None => model.found.push(parameter),
                Some("") => {}
                Some(why) => {
                    let value = model.usual(parameter);
                    model.held.push(HeldParameter {
                        parameter,
                        value,
                        why,
                    });
                }
            }
        }
        model
    }

    /// Why a parameter is not looked for; empty when the suit has no such thing.
    fn why_held(&self, parameter: SuitParameter, favourite: &Favourite) -> Option<&'static str> {
        match parameter {
            SuitParameter::LengthwiseShare if self.cloth.lengthwise.ratio() < NO_LENGTH_STRETCH => {
                return Some(
                    "the old cloth has no stretch lengthwise, so the suit cannot show how much of it was used",
                );
            }
            _ if parameter
                .shared()
                .is_some_and(|shared| !self.shapes.style.has(shared)) =>
            {
                return Some("");
            }
            SuitParameter::BackDepth if self.shapes.back_shape == BackShape::Racer => return Some(""),
            SuitParameter::SkirtCover if self.shapes.skirt.is_none() => return Some(""),
            _ => {}
        }
        let is_told = parameter.told_by().iter().any(|&m| favourite.has(m));
        match parameter {
            _ if is_told => None,
            SuitParameter::StrapWidth => {
                Some("the strap was not measured: measure it, or the usual width is used")
            }
            SuitParameter::NeckDepth => Some(
                "neither the centre front nor the depth of the neckline was measured: the neckline gets its usual depth",
            ),
            SuitParameter::BackDepth => Some(
                "neither the centre back nor the depth of the back was measured: the back gets its usual depth",
            ),
            SuitParameter::CrotchWidth => Some("the crotch was not measured: it gets the usual width"),
            SuitParameter::LegShare => {
                Some("neither side seam nor leg opening was measured: the leg gets its usual height")
            }
            // The caller refuses before these are held.
            SuitParameter::AroundShare | SuitParameter::LengthwiseShare | SuitParameter::SkirtCover => {
                Some("not measured")
            }
        }
    }

    /// What a parameter is without knowing better: the design's own value where it has one.
    fn usual(&self, parameter: SuitParameter) -> f64 {
        let d = &self.shapes;
        match parameter {
            SuitParameter::AroundShare => Fit::Regular.around(),
            SuitParameter::LengthwiseShare => Fit::Regular.lengthwise(),
            SuitParameter::LegShare => match d.leg {
                LegHeight::Low => 0.95,
                LegHeight::High => 0.42,
                LegHeight::ExtraHigh => 0.12,
                LegHeight::Share(share) => share,
                LegHeight::Mid | LegHeight::SideSeam(_) => 0.74,
            },
            SuitParameter::StrapWidth => d.strap_width.get(),
            SuitParameter::NeckDepth => match (d.neck_depth, d.neck_shape) {
                (Some(NeckDepth::Share(share)), _) => share,
                (_, NeckShape::High) => 0.08,
                _ => 0.30,
            },
            SuitParameter::BackDepth => match (d.back_depth, d.back_shape) {
                (Some(BackDepth::Share(share)), _) => share,
                (_, BackShape::CrossedStraps) => 0.80,
                _ => 0.55,
            },
            SuitParameter::CrotchWidth => d.crotch_width.map_or(self.usual_crotch(), Mm::get),
            SuitParameter::SkirtCover => d.skirt.map_or(40.0, |s| s.cover.get()),
        }
    }

    /// The draft's own usual crotch width, mm.
    fn usual_crotch(&self) -> f64 {
        match self.body.form {
            BodyForm::Woman => 66.0,
            BodyForm::Man => 84.0,
            BodyForm::Child => 54.0,
        }
    }

    /// The unknowns, started at what is usual or at the measure itself where that is the parameter.
    pub(super) fn unknowns(&self, favourite: &Favourite) -> Vec<Unknown> {
        self.found
            .iter()
            .map(|&parameter| {
                let itself = match parameter {
                    SuitParameter::StrapWidth => favourite.get(FlatMeasure::StrapWidth),
                    SuitParameter::CrotchWidth => favourite.get(FlatMeasure::CrotchWidth),
                    _ => None,
                };
                let start = itself.map_or_else(|| self.usual(parameter), |t| t.length.get());
                let mut unknown = parameter.unknown(start);
                if parameter == SuitParameter::BackDepth && self.shapes.back_shape == BackShape::CrossedStraps
                {
                    unknown.low = 0.75;
                }
                unknown
            })
            .collect()
    }

    /// Another start: higher in the leg and neck, and tighter.
    pub(super) fn second_start(&self, unknowns: &[Unknown]) -> Vec<Unknown> {
        let other = |parameter| match parameter {
            SuitParameter::AroundShare => Some(Fit::Race.around()),
            SuitParameter::LengthwiseShare => Some(Fit::Race.lengthwise()),
            SuitParameter::LegShare => Some(0.35),
            SuitParameter::NeckDepth => Some(0.15),
            SuitParameter::BackDepth => Some(0.35),
            SuitParameter::StrapWidth | SuitParameter::CrotchWidth | SuitParameter::SkirtCover => None,
        };
        self.found
            .iter()
            .zip(unknowns)
            .map(|(&parameter, u)| Unknown {
                start: other(parameter).unwrap_or(u.start),
                ..*u
            })
            .collect()
    }

    /// The design at these values of the found parameters; the fit is an own one. The one place that knows how a design
    /// holds the parameters.
    pub(super) fn design(&self, values: &[f64]) -> Option<Design> {
        let mut design = self.shapes.clone();
        let value = |parameter| {
            let at = self.found.iter().position(|&p| p == parameter)?;
            values.get(at).copied()
        };
        let (around, lengthwise) = self.fit_shares(values);
        design.fit = Fit::Own(OwnFit::new(around, lengthwise).ok()?);
        if let Some(share) = value(SuitParameter::LegShare) {
            design.leg = LegHeight::Share(share);
        }
        if let Some(width) = value(SuitParameter::StrapWidth) {
            design.strap_width = Mm::new(width);
        }
        if let Some(share) = value(SuitParameter::NeckDepth) {
            design.neck_depth = Some(NeckDepth::Share(share));
        }
        if let Some(share) = value(SuitParameter::BackDepth) {
            design.back_depth = Some(BackDepth::Share(share));
        }
        if let Some(width) = value(SuitParameter::CrotchWidth) {
            design.crotch_width = Some(Mm::new(width));
        }
        if let (Some(cover), Some(skirt)) = (value(SuitParameter::SkirtCover), design.skirt.as_mut()) {
            skirt.cover = Mm::new(cover);
        }
        Some(design)
    }

    /// Shares of the stretch used around and lengthwise, found or held.
    pub(super) fn fit_shares(&self, values: &[f64]) -> (f64, f64) {
        let share = |parameter| {
            let at = self.found.iter().position(|&p| p == parameter);
            at.and_then(|at| values.get(at).copied())
                .unwrap_or_else(|| self.usual(parameter))
        };
        (
            share(SuitParameter::AroundShare),
            share(SuitParameter::LengthwiseShare),
        )
    }

    /// The suit at these values.
    pub(super) fn suit(&self, values: &[f64]) -> Result<Draft, Refusal> {
        let design = self.design(values).ok_or(Refusal::Combination {
            parameter: "fit",
            why: "the shares of the stretch are outside what a suit can use",
        })?;
        draft(self.body, &self.cloth, &design)
    }

    /// (model - taken) / deviation for each measure; `None` where nothing can be drawn or a measure is not on the suit.
    pub(super) fn residuals(&self, taken: &[TakenMeasure], values: &[f64]) -> Option<Vec<f64>> {
        let suit = self.suit(values).ok()?;
        taken
            .iter()
            .map(|t| Some((finished_measure(&suit, t.measure)? - t.length.get()) / t.sigma()))
            .collect()
    }
}

/// A finished measure of a drafted suit, mm; `None` if this style has none.
pub fn finished_measure(suit: &Draft, measure: FlatMeasure) -> Option<f64> {
    match measure {
        FlatMeasure::NecklineDepth => depth(suit, &["front", "centre_front"]),
        FlatMeasure::BackDepth => depth(suit, &["back"]),
        FlatMeasure::NecklineFront => across_neck(suit, &["front", "centre_front"]),
        FlatMeasure::NecklineBack => across_neck(suit, &["back"]),
        FlatMeasure::NecklineSlant => edge(suit, &["front", "centre_front"], "neck").map(straight),
        FlatMeasure::BackSlant => edge(suit, &["back"], "neck").map(straight),
        FlatMeasure::LegSlant => edge(suit, &["front"], "leg").map(straight),
        _ => suit
            .finished
            .iter()
            .find(|f| f.key == measure.key())
            .map(|f| f.value_mm),
    }
}

fn piece<'s>(suit: &'s Draft, keys: &[&str]) -> Option<&'s Piece> {
    suit.pieces.iter().find(|p| keys.contains(&p.key.as_str()))
}

/// An edge of the first of these pieces the suit has.
fn edge<'s>(suit: &'s Draft, pieces: &[&str], name: &str) -> Option<&'s Curve> {
    piece(suit, pieces)?.edge(name).map(|e| &e.curve)
}

/// The neck edge from strap to strap, mm: a piece has half of it, or, if its sides are not alike, both halves.
fn across_neck(suit: &Draft, pieces: &[&str]) -> Option<f64> {
    let edges = &piece(suit, pieces)?.edges;
    let lengths: Vec<f64> = edges
        .iter()
        .filter(|e| e.name == "neck")
        .map(|e| e.curve.length())
        .collect();
    match lengths.as_slice() {
        [] => None,
        [half] => Some(2.0 * half),
        halves => Some(halves.iter().sum()),
    }
}

/// From end to end of an edge through the air, mm.
fn straight(edge: &Curve) -> f64 {
    edge.start().distance(edge.end())
}

/// How far the neck edge of a piece falls from strap to fold, mm.
fn depth(suit: &Draft, pieces: &[&str]) -> Option<f64> {
    let neck = edge(suit, pieces, "neck")?;
    Some((neck.start().y - neck.end().y).abs())
}
