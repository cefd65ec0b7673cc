//! The form of one body: fitted, its girths closed, ready to be drawn.
//!
//! **Shapes and units.** mm; x = wearer's left, y up with 0 at the form's crotch, z forward.
//! **Source.** As [`super::solve`], [`super::radial`] and [`super::ring`].
//! **Limits.** A shape for the eye and for sections, not a scan: vertices lie 6 to 13 mm off the true body on average
//! even when every measure agrees. Heights over the crotch are the form's own. Symmetric, one posture.

use std::sync::Arc;

use serde::Serialize;
use units::Level;

use super::error::FormError;
use super::limbs::Limbs;
use super::measure::{FormMeasure, girth_of};
use super::radial;
use super::report::{self, MeasureFit};
use super::ring::{self, RING_POINTS, Ring, RingPart};
use super::section;
use super::solve::FormTarget;
use super::surface::Surface;
use super::tape::{Girth, Line, Shape};
use super::torso::TorsoForm;
use crate::dimension::{BodyForm, Dimension};
use crate::measured::{Body, FrontTaken, WaistLevel};

/// Coefficients beyond this are further from the bodies the form was made from than it is good for.
pub const UNUSUAL_COEFFICIENT: f64 = 3.0;

/// How far inside the open edges the lowest and highest evenly spaced rings lie.
const INSIDE_EDGE_MM: f64 = 1.0;
/// Points of a line down the side.
const SIDE_STEPS: usize = 12;

/// A line on the form where the tape goes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TapePath {
    /// Its points, in the order the tape runs.
    pub points: Vec<[f64; 3]>,
    /// Whether the last joins the first.
    pub closed: bool,
}

/// A named point of the form.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Landmark {
    /// What it is; of pairs the wearer's left one, the right is its mirror image.
    pub name: &'static str,
    /// Where.
    pub at: [f64; 3],
}

/// The form of one body.
#[derive(Clone, Debug, PartialEq)]
pub struct FittedForm {
    form: BodyForm,
    waist_level: WaistLevel,
    front_taken: FrontTaken,
    neck_base_girth_mm: Option<f64>,
    limbs: Limbs,
    coefficients: Vec<f64>,
    measures: Vec<MeasureFit>,
    vertices: Vec<[f64; 3]>,
    surface: Arc<Surface>,
}

impl TorsoForm {
    /// The form fitted to a body: every dimension that has a place on it, taken ones tightly, estimated ones by their
    /// standard error (or a guessed one); then every girth among them closed.
    ///
    /// Girths close within 0.01 mm on ordinary bodies. An upper chest whose level comes within 10 mm of another is left as
    /// it was fitted, and an absurd body may stay open: [`FittedForm::measures`] says by how much.
    ///
    /// The same body gives the same bytes.
    ///
    /// # Errors
    /// [`FormError::OtherForm`] if the body is of another kind. [`FormError::Target`] can't happen with a body that
    /// [`complete`](crate::complete) made.
    pub fn fitted(&self, body: &Body) -> Result<FittedForm, FormError> {
        if body.form != self.form() {
            return Err(FormError::OtherForm {
                form: self.form(),
                body: body.form,
            });
        }
        let asked = report::targets(body);
        let targets: Vec<FormTarget> = asked.iter().map(|(_, _, t)| *t).collect();
        let coefficients = self.fit(&targets)?;
        let fitted = self.shape(&coefficients);
        let girths: Vec<(Girth, f64)> = targets
            .iter()
            .filter_map(|t| Some((girth_of(t.measure)?, t.value)))
            .collect();
        let vertices = radial::close(&self.surface, &fitted, &girths);
        let before = Shape::new(&self.surface, &fitted);
        let after = Shape::new(&self.surface, &vertices);
        let measures = asked
            .iter()
            .map(|&(dimension, taken, target)| MeasureFit {
                dimension,
                measure: target.measure,
                taken,
                asked_mm: target.value,
                spread_mm: target.spread,
                fitted_mm: before.value(target.measure),
                closed_mm: after.value(target.measure),
            })
            .collect();
        Ok(FittedForm {
            form: body.form,
            waist_level: body.waist_level,
            front_taken: body.front_taken,
            neck_base_girth_mm: body.mm(Dimension::NeckBaseGirth),
            limbs: Limbs::of(body, after.value(FormMeasure::ThighGirth)),
            coefficients,
            measures,
            vertices,
            surface: Arc::clone(&self.surface),
        })
    }
}

impl FittedForm {
    /// Whose form it is.
    pub fn form(&self) -> BodyForm {
        self.form
    }

    /// Leg and arm beyond the form's ends.
    pub fn limbs(&self) -> &Limbs {
        &self.limbs
    }

    /// The coefficients of the fit, in spreads.
    pub fn coefficients(&self) -> &[f64] {
        &self.coefficients
    }

    /// The coefficients beyond [`UNUSUAL_COEFFICIENT`], by number from 0: a shape the form was not made from. Empty for
    /// most bodies; say so when it isn't.
    pub fn unusual(&self) -> Vec<(usize, f64)> {
        let numbered = self.coefficients.iter().copied().enumerate();
        numbered.filter(|(_, c)| c.abs() > UNUSUAL_COEFFICIENT).collect()
    }

    /// What the form was fitted to, in the order dimensions are taken.
    pub fn measures(&self) -> &[MeasureFit] {
        &self.measures
    }

    /// The vertices, girths closed.
    pub fn vertices(&self) -> &[[f64; 3]] {
        &self.vertices
    }

    /// The triangles, counter-clockwise seen from outside.
    pub fn faces(&self) -> &[[usize; 3]] {
        &self.surface.faces
    }

    /// The named points.
    pub fn landmarks(&self) -> Vec<Landmark> {
        let m = &self.surface.landmarks;
        [
            ("back_neck", m.back_neck),
            ("front_neck", m.front_neck),
            ("side_neck", m.side_neck[0]),
            ("shoulder", m.shoulder[0]),
            ("underarm", m.underarm[0]),
            ("bust_point", m.bust_point[0]),
            ("underbust", m.underbust[0]),
            ("waist", m.waist[0]),
            ("navel", m.navel),
            ("hip", m.hip[0]),
            ("crotch", m.crotch),
        ]
        .into_iter()
        .map(|(name, vertex)| Landmark {
            name,
            at: self.vertices[vertex],
        })
        .collect()
    }

    /// The value of any measure on the drawn form, in mm (slope in degrees).
    pub fn measure(&self, measure: FormMeasure) -> f64 {
        self.shape().value(measure)
    }

    /// Height of a level over the crotch. The neck base isn't level: its mean height is given. [`Level::Waist`] is the
    /// natural waist, [`Level::Navel`] the navel, wherever this body's waist was taken.
    pub fn level_height(&self, level: Level) -> f64 {
        let shape = self.shape();
        match level {
            Level::NeckBase => mean_height(&shape.neck_base_points()),
            Level::Shoulder => shape.shoulder_y(),
            Level::UpperChest => shape.girth_y(Girth::UpperChest),
            Level::Bust => shape.girth_y(Girth::Bust),
            Level::Underbust => shape.girth_y(Girth::Underbust),
            Level::Waist => shape.girth_y(Girth::Waist),
            Level::Navel => shape.girth_y(Girth::Navel),
            Level::HighHip => shape.girth_y(Girth::HighHip),
            Level::Hip => shape.girth_y(Girth::Hip),
            Level::Crotch => shape.crotch_y(),
            Level::Thigh => shape.girth_y(Girth::Thigh),
        }
    }

    /// This body's levels with their heights, top to bottom as named: the waist where it was taken, an under-bust for
    /// women only.
    pub fn levels(&self) -> Vec<(Level, f64)> {
        let waist = match self.waist_level {
            WaistLevel::Natural => Level::Waist,
            WaistLevel::Navel => Level::Navel,
        };
        [
            Level::NeckBase,
            Level::Shoulder,
            Level::UpperChest,
            Level::Bust,
            Level::Underbust,
            waist,
            Level::HighHip,
            Level::Hip,
            Level::Crotch,
            Level::Thigh,
        ]
        .into_iter()
        .filter(|level| *level != Level::Underbust || self.form == BodyForm::Woman)
        .map(|level| (level, self.level_height(level)))
        .collect()
    }

    /// The rings at a height over the crotch: one round the trunk, or one round each leg, none beyond the form's ends.
    ///
    /// Where the section meets an open edge the ring goes straight across it and says so ([`Ring::bridged`]). Points
    /// stand on the section itself, not on the tape over it, so a ring may be hollow where its girth isn't.
    pub fn ring(&self, y_mm: f64) -> Vec<Ring> {
        ring::at(&self.surface, &self.vertices, y_mm)
    }

    /// Rings from the lower end of the thighs to the side neck, one height at each of `levels` and the others evenly
    /// between, bottom to top; the neck base, if asked for, is last.
    ///
    /// `count` (at least 2) heights spaced evenly over the whole set the distance; between two levels it is shortened or
    /// lengthened so that whole steps fit, so there may be a few heights more or less. Levels given twice or outside the
    /// form count once or not at all.
    pub fn rings(&self, count: usize, levels: &[Level]) -> Vec<Ring> {
        let (low, high) = self.ends();
        let gap = (high - low) / count.saturating_sub(1).max(1) as f64;
        let mut wanted = levels.to_vec();
        wanted.sort();
        wanted.dedup();
        let neck = wanted.contains(&Level::NeckBase);
        let mut fixed: Vec<(f64, Option<Level>)> = wanted
            .into_iter()
            .filter(|level| *level != Level::NeckBase)
            .map(|level| (self.level_height(level), Some(level)))
            .filter(|(y, _)| (low..=high).contains(y))
            .collect();
        fixed.extend([(low, None), (high, None)]);
        fixed.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut heights: Vec<(f64, Option<Level>)> = Vec::new();
        for (from, to) in fixed.iter().zip(fixed.iter().skip(1)) {
            let steps = ((to.0 - from.0) / gap).round().max(1.0) as usize;
            heights.push(*from);
            heights.extend((1..steps).map(|i| (from.0 + (to.0 - from.0) * i as f64 / steps as f64, None)));
        }
        heights.extend(fixed.last());
        let mut rings: Vec<Ring> = heights
            .into_iter()
            .flat_map(|(y, level)| {
                let at = self.ring(y);
                at.into_iter().map(move |ring| Ring { level, ..ring })
            })
            .collect();
        if neck {
            rings.extend(self.neck_base());
        }
        rings
    }

    /// The neck base as a ring of the body's neck-base girth; `None` if the body has none.
    ///
    /// The form's own curve is a third too large (498 mm for a woman where the survey has 371), so it was left out of
    /// the fit and its curve is scaled here about its centre. It lies inside the form's shoulders: draw it instead of
    /// the form's neck, and don't join it to the surface.
    pub fn neck_base(&self) -> Option<Ring> {
        let girth_mm = self.neck_base_girth_mm?;
        let curve = self.shape().neck_base_points();
        let own = section::perimeter3(&curve);
        if own <= 0.0 {
            return None;
        }
        let count = curve.len() as f64;
        let centre = [0, 1, 2].map(|i| curve.iter().map(|p| p[i]).sum::<f64>() / count);
        let mut line: Vec<[f64; 3]> = curve
            .into_iter()
            .map(|p| section::between(centre, p, girth_mm / own))
            .collect();
        if ring::area(&line) < 0.0 {
            line.reverse();
        }
        ring::from_centre_back(&mut line);
        Some(Ring {
            level: Some(Level::NeckBase),
            part: RingPart::Trunk,
            y_mm: mean_height(&line),
            girth_mm,
            bridged: false,
            points: ring::spaced(&line, RING_POINTS),
        })
    }

    /// Where the tape goes for a dimension of this body, or `None` if it has no place on the form (stature, arms,
    /// shoulder girth, the widths between arm folds, heights from the floor).
    ///
    /// Girths and the trunk are the taut ring; of the thigh, armscye, shoulder and the lengths over the bust the
    /// wearer's left. Heights run down her left side: side length and waist to hip on the skin, the rise straight.
    pub fn tape_path(&self, dimension: Dimension) -> Option<TapePath> {
        use Dimension as D;
        let shape = self.shape();
        let waist_y = shape.waist_y(self.waist_level);
        let line = match dimension {
            D::SideLength => self.side(shape.underarm_y(), waist_y),
            D::WaistToHip => self.side(waist_y, shape.girth_y(Girth::Hip)),
            D::RiseHeight => {
                let [x, _, z] = self.side_at(waist_y)?;
                let out = self
                    .side_at(shape.girth_y(Girth::Hip))
                    .map_or(x, |hip| hip[0].max(x));
                Line {
                    points: vec![[out, waist_y, z], [out, shape.crotch_y(), z]],
                    closed: false,
                }
            }
            D::CrotchLengthFront => {
                let whole = FormMeasure::of(D::CrotchLength, self.waist_level, self.front_taken)?;
                let mut line = shape.line(whole)?;
                let lowest = (0..line.points.len())
                    .min_by(|a, b| line.points[*a][1].total_cmp(&line.points[*b][1]))?;
                line.points.truncate(lowest + 1);
                line
            }
            D::NeckBaseGirth => Line {
                points: self.neck_base()?.points,
                closed: true,
            },
            _ => shape.line(FormMeasure::of(dimension, self.waist_level, self.front_taken)?)?,
        };
        Some(TapePath {
            points: line.points,
            closed: line.closed,
        })
    }

    fn shape(&self) -> Shape<'_> {
        Shape::new(&self.surface, &self.vertices)
    }

    /// Between the ends of the thighs and the side neck. Above the front of the neck's edge rings go straight across it.
    fn ends(&self) -> (f64, f64) {
        let low = self.surface.thigh_loops.iter().flatten();
        let low = low
            .map(|v| self.vertices[*v][1])
            .fold(f64::NEG_INFINITY, f64::max);
        let high = self.vertices[self.surface.landmarks.side_neck[0]][1];
        (low + INSIDE_EDGE_MM, high - INSIDE_EDGE_MM)
    }

    /// The outermost point of the wearer's left side at a height.
    fn side_at(&self, y: f64) -> Option<[f64; 3]> {
        let rings = self.ring(y);
        let points = rings.iter().flat_map(|r| r.points.iter().copied());
        points.max_by(|a, b| a[0].total_cmp(&b[0]))
    }

    /// Down the wearer's left side from one height to another.
    fn side(&self, from_y: f64, to_y: f64) -> Line {
        let steps = 0..=SIDE_STEPS;
        let heights = steps.map(|i| from_y + (to_y - from_y) * i as f64 / SIDE_STEPS as f64);
        Line {
            points: heights.filter_map(|y| self.side_at(y)).collect(),
            closed: false,
        }
    }
}

fn mean_height(line: &[[f64; 3]]) -> f64 {
    line.iter().map(|p| p[1]).sum::<f64>() / line.len().max(1) as f64
}
