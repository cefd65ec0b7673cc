//! A suit put on its wearer's form: the order's draft, cloth and elastic handed to the solver, its answer told in words and numbers.
//!
//! Each layer pulls by its own law. Elastic is as strong as it was weighed, or as assumed; each open edge takes the planned ratio of
//! its front or back arc. What the solver leaves out it says.
//!
//! **Shapes and units.** mm, N, kPa; both sides alike, forces of one side.
//! **Limits.** Bodies alike left and right, suits of a front and a back. The body is rigid. Pressure is as good as the cloth's force:
//! relative unless that was weighed.

mod arcs;
mod changed;
mod correct;
mod corrected;
pub mod drawing;
mod planned;
mod preview;
mod report;
mod rings;
mod scene;

use body::{BodyForm, Dimension, FittedForm, TorsoForm};
use cloth::{
    ASSUMED_HAND_PULL, ASSUMED_STIFFENING, Law, LawError, Layer, LayerPlan, Orientation, PairSource, Swatch,
};
use draft::{Design, Draft};
use fit::FitReport;
use make::{ElasticPlan, Wet, WornStretch};
use solve::{
    BodyField, BustLoad, Elastic, FlatShape, Found, FoundLimits, Friction, OpenPlace, Settings, Stitches,
    Stop, SuitLaws, SuitMesh, WetSeen, WornSuit, found, mesh_suit, wear, wear_near,
};
use units::Progress;

use crate::hand_out::stitches_of;
use crate::order::Order;
use crate::suit_file::{ClothEntry, SuitFile};
use crate::workroom_file::Room;

pub(crate) use changed::excluded;
pub use correct::{CORRECTING_MESH_MM, CorrectedLevel, Correction, WORTH_GAIN, propose};
pub use corrected::corrected_text;
pub(crate) use preview::Trier;
pub use preview::{Previewed, PreviewedLevel, PreviewedNumber, preview};
pub use report::{
    Convergence, EdgeReport, FormResidual, GapeReport, GripReport, LegReport, LevelReport, SeamReport,
    SeatReport, StrapReport, SupportReport, TieReport, WornReport,
};
pub use rings::{CHORD_MM, rings};
pub use scene::{SCENE_RANGE_MM, Scene, SceneKind};

/// How to put it on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WornChoice {
    /// Edge length of the mesh, mm.
    pub mesh_mm: f64,
    /// Friction between cloth and skin; 0 for none.
    pub friction: f64,
    /// How the wearer stands.
    pub scene: Scene,
    /// Cloth that has been worn: longer by what it did not go back in its test.
    pub is_settled: bool,
}

impl Default for WornChoice {
    fn default() -> WornChoice {
        WornChoice {
            mesh_mm: 10.0,
            friction: 0.3,
            scene: Scene::default(),
            is_settled: false,
        }
    }
}

/// A suit on its form.
#[derive(Clone, Debug)]
pub struct OnForm {
    /// The form, as the scene has it.
    pub form: FittedForm,
    /// The mesh of its left half.
    pub mesh: SuitMesh,
    /// Where it lies.
    pub worn: WornSuit,
    /// What was found.
    pub found: Vec<Found>,
    /// What is told of it.
    pub report: WornReport,
    /// The solved stretches as the making plan takes them; nothing if it was not solved.
    pub stretches: Option<WornStretch>,
    /// The shell's own stretch around, a ratio: where the ladder's second rail stands.
    pub shell_stretch_around: f64,
}

impl OnForm {
    /// Every point that may be drawn: the form's, and the suit's on both sides, whose legs, sleeves and skirt go beyond it.
    pub(crate) fn drawn_points(&self) -> impl Iterator<Item = [f64; 3]> + '_ {
        let is_solved = self.worn.solved.stop == Stop::Converged;
        let suit = self.worn.solved.positions.iter().filter(move |_| is_solved);
        let sides: &[f64] = if self.mesh.is_whole { &[1.0] } else { &[1.0, -1.0] };
        let both = suit.flat_map(move |p| sides.iter().map(move |side| [p[0] * side, p[1], p[2]]));
        let hems = self.worn.hanging.iter().flat_map(|d| d.points.iter().copied());
        self.form.vertices().iter().copied().chain(both).chain(hems)
    }
}

/// Forces the suit is put on with, and whether they were weighed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Weighed {
    pub(crate) cloth: bool,
    pub(crate) elastic_n: f64,
    pub(crate) elastic: bool,
}

/// Puts a suit on the form of its wearer, its seams planned for a zigzag machine.
///
/// # Errors
/// See [`put_on_in`].
pub fn put_on(
    suit: &SuitFile,
    order: &Order,
    choice: WornChoice,
    progress: &dyn Progress,
) -> Result<OnForm, String> {
    put_on_in(suit, order, &Room::default(), choice, progress)
}

/// Puts a suit on the form of its wearer. Its seams are held against the stitches planned for the workroom, its cloth against what was
/// wetted there.
///
/// # Errors
/// The reason in words when the form, the mesh or the place cannot be made. A solve that does not come to its end is no
/// error: [`Convergence::solved`] says so.
pub fn put_on_in(
    suit: &SuitFile,
    order: &Order,
    room: &Room,
    choice: WornChoice,
    progress: &dyn Progress,
) -> Result<OnForm, String> {
    let body = choice.scene.body(suit, order)?;
    let torso = TorsoForm::of(body.form).map_err(|e| e.to_string())?;
    let form = torso.fitted(&body).map_err(|e| e.to_string())?;
    progress.at(0, 1, "making the form's skin");
    let field = BodyField::for_suit(&form, &order.draft);
    let (mut mesh, weighed) = sewn(suit, order, &order.draft, &order.elastic, choice)?;
    let worn = wear_on(&mut mesh, &order.draft, (&form, &field), None, choice, progress)?;
    let stretches = planned::stretches(&order.draft, &mesh, &worn);
    let limits = limits_in((suit, order, room), weighed, stretches.as_ref());
    let found = all_found(&mesh, &worn, &suit.design, order, &limits);
    let basis = report::Basis {
        choice,
        weighed,
        room,
    };
    let report = report::report(order, (&mesh, &worn), &form, &basis, &found);
    Ok(OnForm {
        stretches,
        form,
        mesh,
        worn,
        found,
        report,
        shell_stretch_around: order.cloth.shell.around.ratio(),
    })
}

/// A draft meshed with the suit's cloths and elastic.
pub(crate) fn sewn(
    suit: &SuitFile,
    order: &Order,
    draft: &Draft,
    plans: &[ElasticPlan],
    choice: WornChoice,
) -> Result<(SuitMesh, Weighed), String> {
    let (laws, cloth) = laws(order).map_err(|e| e.to_string())?;
    let k = suit.elastic.k_newton();
    let weighed = Weighed {
        cloth,
        elastic_n: k.unwrap_or(fit::ASSUMED_K_NEWTON),
        elastic: k.is_some(),
    };
    let elastic = |place: OpenPlace<'_>| elastic_at(draft, plans, place, weighed.elastic_n);
    let mut mesh = mesh_suit(draft, &laws, &elastic, choice.mesh_mm).map_err(|e| e.to_string())?;
    if let Some(grams) = suit.shell.record.mass_g_per_m2 {
        mesh.weigh(grams / 1000.0);
    }
    if choice.is_settled {
        let lining = suit.lining.as_ref().zip(order.cloth.lining.as_ref());
        for (layer, entry, plan) in std::iter::once((0, &suit.shell, &order.cloth.shell))
            .chain(lining.map(|(entry, plan)| (1, entry, plan)))
        {
            mesh.mesh.grow(layer, growth(entry, plan)?);
        }
    }
    Ok((mesh, weighed))
}

/// Solves a meshed suit on a form, from how a suit like it was worn where that is known.
pub(crate) fn wear_on(
    mesh: &mut SuitMesh,
    draft: &Draft,
    (form, field): (&FittedForm, &BodyField),
    near: Option<&FlatShape>,
    choice: WornChoice,
    progress: &dyn Progress,
) -> Result<WornSuit, String> {
    let settings = Settings {
        friction: (choice.friction > 0.0).then(|| Friction::new(choice.friction)),
        ..Settings::default()
    };
    match near {
        Some(near) => wear_near(mesh, draft, form, field, near, &settings, progress),
        None => wear(mesh, draft, form, field, &settings, progress),
    }
    .map_err(|e| e.to_string())
}

/// The laws of the layers, and whether the shell's force was weighed. Layers tested together are one cloth.
fn laws(order: &Order) -> Result<(SuitLaws, bool), LawError> {
    let plan = &order.cloth;
    let own = |layer: &LayerPlan| {
        let pull = layer.load.newton_per_metre();
        Law::from_stretch(
            layer.lengthwise.ratio(),
            layer.around.ratio(),
            pull.unwrap_or(ASSUMED_HAND_PULL),
            ASSUMED_STIFFENING,
        )
    };
    match plan.pair {
        PairSource::Single | PairSource::TestedTogether => {
            let (shell, is_assumed) = plan.law()?;
            let lining = match (plan.pair, &plan.lining) {
                (PairSource::Single, Some(lining)) => Some(own(lining)?),
                _ => None,
            };
            Ok((SuitLaws { shell, lining }, !is_assumed))
        }
        PairSource::Estimated => {
            let laws = SuitLaws {
                shell: own(&plan.shell)?,
                lining: plan.lining.as_ref().map(own).transpose()?,
            };
            Ok((laws, plan.shell.load.newton_per_metre().is_some()))
        }
    }
}

/// How much longer a cloth stays after its test, lengthwise and around as it lies.
fn growth(entry: &ClothEntry, plan: &LayerPlan) -> Result<[f64; 2], String> {
    let unread = || {
        format!(
            "how {} settles is not known: its recovery was not read in both directions; stretch a strip, let it lie and write what it went back to",
            plan.cloth
        )
    };
    let swatch = Swatch::new(entry.record.clone()).map_err(|_| unread())?;
    let grown = |t: cloth::Tested| t.growth().ok_or_else(unread);
    let (along, across) = (grown(swatch.along())?, grown(swatch.across())?);
    Ok(match plan.orientation {
        Orientation::Upright => [along, across],
        Orientation::Turned => [across, along],
    })
}

/// The elastic planned at a place of an open edge.
fn elastic_at(
    draft: &Draft,
    plans: &[ElasticPlan],
    place: OpenPlace<'_>,
    stiffness_n: f64,
) -> Option<Elastic> {
    let ratio = arcs::ratio_at(draft, plans, place)?;
    Some(Elastic { stiffness_n, ratio })
}

/// What was found of the worn suit, and of the way in, which the quick formulas judge: one list, the worst first.
fn all_found(
    mesh: &SuitMesh,
    worn: &WornSuit,
    design: &Design,
    order: &Order,
    limits: &FoundLimits,
) -> Vec<Found> {
    let mut all = found(mesh, worn, design, limits);
    if worn.solved.stop == Stop::Converged {
        all.extend(way_in(&order.fit));
        all.sort_by_key(|f| std::cmp::Reverse(f.finding.severity));
    }
    all
}

/// The quick judgement of every opening, as findings of the worn suit.
pub(crate) fn way_in(judged: &FitReport) -> Vec<Found> {
    let ways = judged.findings.iter().filter(|f| f.code.starts_with("way_in."));
    ways.map(|finding| Found {
        which: finding.place.clone(),
        finding: finding.clone(),
        piece: None,
        spot: None,
        changes: Vec::new(),
    })
    .collect()
}

/// What a worn suit is held against in a workroom: the stitches planned there for these stretches, and what was wetted there too.
pub(crate) fn limits_in(
    (suit, order, room): (&SuitFile, &Order, &Room),
    weighed: Weighed,
    stretches: Option<&WornStretch>,
) -> FoundLimits {
    let making = stitches_of(suit, order, room, stretches);
    let wet = room.samples.wet(&order.cloth.shell.cloth).map(|wet| match wet {
        Wet::Opaque => WetSeen::Opaque,
        Wet::ShowsStretched => WetSeen::ShowsStretched,
        Wet::Shows => WetSeen::Shows,
    });
    FoundLimits {
        stitches: planned::stitches(&order.draft, &making),
        wet,
        ..limits(order, weighed)
    }
}

/// What a worn suit is held against, whatever it is sewn with; every number has its home elsewhere.
pub(crate) fn limits(order: &Order, weighed: Weighed) -> FoundLimits {
    let plan = &order.cloth;
    let lining = plan.lining.as_ref().filter(|_| plan.pair != PairSource::Single);
    let girth = |d: Dimension| order.body.mm(d);
    let bust = girth(Dimension::BustGirth)
        .zip(girth(Dimension::UnderbustGirth))
        .filter(|_| order.body.form == BodyForm::Woman);
    FoundLimits {
        hold: fit::LEAST_HOLD,
        share: (cloth::RESERVE_SHARE, fit::SHARE_STOP),
        panel_kpa: (fit::PANEL_WATCH_KPA, fit::PANEL_STOP_KPA),
        edge_kpa: (make::EDGE_PRESSURE_WATCH_KPA, make::EDGE_PRESSURE_STOP_KPA),
        pressure_source: "own, from published comfort pressures",
        cloth_weighed: weighed.cloth,
        elastic_weighed: weighed.elastic,
        elastic_mm: order.elastic.first().map_or(0.0, |plan| plan.width.get()),
        elastic_by_edge: order
            .draft
            .open_edges
            .iter()
            .zip(&order.elastic)
            .map(|(edge, plan)| (edge.kind, plan.width.get()))
            .collect(),
        layers: std::iter::once((Layer::Shell, plan.shell.around.ratio()))
            .chain(lining.map(|l| (Layer::Lining, l.around.ratio())))
            .collect(),
        stitches: Stitches::default(),
        bust: bust.map(|(bust, under)| BustLoad::of_girths(bust, under)),
        wet: None,
    }
}
