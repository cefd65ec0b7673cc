//! The shapes of the quick judgement: ladder, way in, loop in series.

use cloth::Layer;
use serde::Serialize;
use units::{Finding, Level, Mm, Severity};

/// How much of one layer's own stretch a level uses.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LayerUse {
    /// Which layer.
    pub layer: Layer,
    /// Worn stretch / that layer's stretch around.
    pub share_used: f64,
    /// What is left: 1 - share used.
    pub left: f64,
}

/// A quick estimate of the contact pressure at a level, with its honest band.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PressureEstimate {
    /// Middle estimate, kPa.
    pub kpa: f64,
    /// Lower end, kPa.
    pub low_kpa: f64,
    /// Upper end, kPa.
    pub high_kpa: f64,
    /// True when the force of the cloth was assumed: compare levels, don't trust the number.
    pub is_relative: bool,
}

/// A rung of the stretch ladder.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Rung {
    /// The level.
    pub level: Level,
    /// Body girth.
    pub body: Mm,
    /// Pattern girth.
    pub pattern: Mm,
    /// Worn stretch: body / pattern - 1.
    pub worn: f64,
    /// Per layer.
    pub layers: Vec<LayerUse>,
    /// Quick pressure estimate; `None` where the suit does not close round the body.
    pub pressure: Option<PressureEstimate>,
    /// Worst finding of this rung.
    pub severity: Severity,
}

/// One opening against the girth it must pass.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WayIn {
    /// `waist`, `neckline and back opening`, `leg`.
    pub opening: &'static str,
    /// Length at rest.
    pub rest: Mm,
    /// The girth that must pass.
    pub passes: Mm,
    /// Stretch needed: passes / rest - 1.
    pub needed: f64,
    /// Stretch the cloth has along the edge.
    pub cloth_stretch: f64,
    /// needed / cloth stretch.
    pub cloth_share: f64,
    /// needed / what the elastic allows, if there is elastic.
    pub elastic_share: Option<f64>,
    /// needed / what the stitch of the edge allows, if that is known.
    pub seam_share: Option<f64>,
    /// How it is judged.
    pub severity: Severity,
}

/// The torso loop as strap, torso and crotch in series under one pull.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SeriesLoop {
    /// Length ratio of the straps, worn / flat.
    pub strap: f64,
    /// Of the torso.
    pub torso: f64,
    /// Of the crotch.
    pub crotch: f64,
    /// The pull on the whole loop, N.
    pub tension_n: f64,
}

/// The quick judgement of a suit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FitReport {
    /// Rungs, top to bottom.
    pub ladder: Vec<Rung>,
    /// Openings.
    pub way_in: Vec<WayIn>,
    /// Loop with the planned elastic; `None` for a brief.
    pub loop_with_elastic: Option<SeriesLoop>,
    /// Loop without elastic.
    pub loop_bare: Option<SeriesLoop>,
    /// What was judged, worst first.
    pub findings: Vec<Finding>,
}
