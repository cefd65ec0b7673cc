//! What is told of a worn suit: how it was reached, what it rests on, and the numbers.
//!
//! No time is in it, so that the same suit gives the same bytes.
//!
//! **Shapes and units.** Per cent, kPa, N, mm, as the names say.

use body::{FittedForm, LimbMeasure, Origin};
use serde::Serialize;
use solve::{Found, PassKind, Stop, SuitMesh, WornSuit};
use units::{Level, Severity};

use super::{Weighed, WornChoice};
use crate::cautions::{Caution, caution_of};
use crate::order::Order;
use crate::workroom_file::Room;

/// What is told of a worn suit.
#[derive(Clone, Debug, Serialize)]
pub struct WornReport {
    /// The suit's version.
    pub version: String,
    /// How it was reached; read `solved` first.
    pub convergence: Convergence,
    /// How she stands.
    pub scene: String,
    /// New or settled cloth.
    pub cloth: &'static str,
    /// Friction between cloth and skin; 0 for none.
    pub friction: f64,
    /// Whether the cloth's force was weighed; pressures are relative if not.
    pub cloth_weighed: bool,
    /// Force of the elastic at double length, N.
    pub elastic_n: f64,
    /// Whether that was weighed.
    pub elastic_weighed: bool,
    /// How far the form is from the body, a line a dimension.
    pub form: Vec<FormResidual>,
    /// Levels, top to bottom; empty when it was not solved, like all that follows.
    pub levels: Vec<LevelReport>,
    /// Open edges, each on its piece.
    pub edges: Vec<EdgeReport>,
    /// The strap.
    pub strap: Option<StrapReport>,
    /// Where it stands off.
    pub gapes: Vec<GapeReport>,
    /// The leg edge, one side.
    pub leg: Option<LegReport>,
    /// How much of the seat is covered.
    pub seat: Option<SeatReport>,
    /// Sewn seams.
    pub seams: Vec<SeamReport>,
    /// What carries the bust, each side.
    pub support: Option<SupportReport>,
    /// What its stitches were planned for: which machines, from which stretches.
    pub stitches_planned: &'static str,
    /// What was found, the worst first; the way in is the quick judgement's.
    pub found: Vec<Found>,
    /// What is taken for granted of the way it is worn: how bands are folded, how ties are tied.
    pub assumed: Vec<String>,
    /// Garments that only their own grip holds up.
    pub grips: Vec<GripReport>,
    /// Straps and ties that run by themselves.
    pub ties: Vec<TieReport>,
    /// How far the lower edge of a top rode up from where the draft has it, in front and behind, mm; below 0 it sank.
    pub rode_up_mm: Option<[f64; 2]>,
    /// What to know when it is worn, from `data/trade/cautions.csv`.
    pub cautions: Vec<Caution>,
    /// Pieces left out of the solve, and why.
    pub left_out: Vec<String>,
    /// What this solve does not know of.
    pub not_judged: Vec<&'static str>,
}

/// How an answer was reached.
#[derive(Clone, Debug, Serialize)]
pub struct Convergence {
    /// Whether it came to its end; if not, there is no answer.
    pub solved: bool,
    /// Why it stopped, in words.
    pub stop: &'static str,
    /// Passes: what for, and its steps.
    pub passes: Vec<(&'static str, usize)>,
    /// Steps of all passes.
    pub steps: usize,
    /// Largest force left on a vertex, N.
    pub residual_n: f64,
    /// Vertices of the half that was solved.
    pub vertices: usize,
    /// Edge length asked for, mm.
    pub mesh_mm: f64,
    /// Triangles without tension.
    pub slack: usize,
    /// Triangles pulled along one line only.
    pub wrinkled: usize,
    /// Triangles pulled both ways.
    pub taut: usize,
    /// Deepest point inside the body, mm.
    pub penetration_mm: f64,
}

/// One dimension on the form.
#[derive(Clone, Debug, Serialize)]
pub struct FormResidual {
    /// Name of the dimension.
    pub dimension: &'static str,
    /// What the body has, mm.
    pub asked_mm: f64,
    /// How much the form is larger, mm.
    pub off_mm: f64,
    /// Whether it was estimated, not taken.
    pub is_estimate: bool,
}

/// A level of a worn suit.
#[derive(Clone, Debug, Serialize)]
pub struct LevelReport {
    /// Which.
    pub level: Level,
    /// Height over the form's crotch, mm.
    pub height_mm: f64,
    /// Whether the suit closes round the body there.
    pub closes: bool,
    /// Girth of the body, mm, if the draft has the level.
    pub body_mm: Option<f64>,
    /// Width the suit is cut to, mm.
    pub cut_mm: Option<f64>,
    /// What the draft meant around, %.
    pub meant_percent: Option<f64>,
    /// Worn stretch around, %.
    pub around_percent: f64,
    /// Twentieth and nineteen twentieths of it, %.
    pub around_spread_percent: [f64; 2],
    /// Worn stretch lengthwise, %.
    pub lengthwise_percent: f64,
    /// Lengthwise of front and back by themselves, %.
    pub front_back_lengthwise_percent: [Option<f64>; 2],
    /// Worn over rest area.
    pub area: f64,
    /// Mean pressure, kPa.
    pub pressure_kpa: f64,
}

/// An open edge on a piece.
#[derive(Clone, Debug, Serialize)]
pub struct EdgeReport {
    /// `leg`, `neckline`, ...
    pub edge: &'static str,
    /// Key of the piece.
    pub piece: String,
    /// Its worn stretch, %.
    pub stretch_percent: f64,
    /// Mean pull of the elastic, N.
    pub elastic_n: f64,
    /// Force on the body per length, N/m.
    pub line_load_n_per_m: f64,
    /// Furthest it stands off, mm.
    pub gape_mm: f64,
    /// Where, mm: her left, up from the crotch, forward.
    pub gape_at_mm: [f64; 3],
    /// How much of its length stands off by more than 3 mm, mm.
    pub off_mm: f64,
    /// Worn stretch of the run of some 40 mm that is stretched most, %.
    pub most_percent: f64,
    /// Worn length of the whole ring it is part of, mm.
    pub girth_mm: f64,
}

/// The worn leg edge, one side; up and towards the belly above 0.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct LegReport {
    /// How far it lies from the groin crease, mm; below 0 on the thigh.
    pub from_crease_mm: Option<f64>,
    /// How far it rode at the side, mm.
    pub rode_side_mm: f64,
    /// In the groin, mm.
    pub rode_groin_mm: Option<f64>,
    /// Over the seat, mm.
    pub rode_seat_mm: Option<f64>,
}

/// The seat, from the hip to the fold.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct SeatReport {
    /// What the draft meant to cover, %.
    pub meant_percent: f64,
    /// What is covered, %.
    pub covered_percent: f64,
}

/// A sewn seam.
#[derive(Clone, Debug, Serialize)]
pub struct SeamReport {
    /// `side`, `crotch`, ...
    pub seam: &'static str,
    /// Keys of the pieces it joins.
    pub pieces: [String; 2],
    /// Its worn stretch, %.
    pub stretch_percent: f64,
    /// That of the run of some 40 mm that is stretched most, %.
    pub most_percent: f64,
}

/// What carries the bust, each side.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct SupportReport {
    /// Pull of the strap in front, N.
    pub strap_n: Option<f64>,
    /// Pull round the ribs of 40 mm of height at the under-bust, N.
    pub band_n: f64,
    /// Mean pressure there in front, kPa.
    pub pressure_kpa: f64,
}

/// A garment that only its own grip holds up, one side.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct GripReport {
    /// What.
    pub what: &'static str,
    /// Force that would move it, N: up above 0, down below.
    pub slides_n: f64,
    /// Force it lies on the body with, N.
    pub lies_on_n: f64,
    /// Friction that holds it there.
    pub needed_friction: f64,
}

/// A strap or tie of one side.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct TieReport {
    /// What.
    pub what: &'static str,
    /// Its worn length, mm.
    pub length_mm: f64,
    /// Its worn stretch, %.
    pub stretch_percent: f64,
    /// Its pull, N.
    pub pull_n: f64,
    /// Mean pressure under it, kPa; 0 where it runs in cloth.
    pub pressure_kpa: f64,
    /// Furthest it stands off, mm.
    pub gape_mm: f64,
}

/// The strap of one side.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct StrapReport {
    /// Its worn stretch, %.
    pub stretch_percent: f64,
    /// Friction that keeps it on the shoulder.
    pub needed_friction: f64,
    /// Force that would slide it, N: outwards above 0, to the neck below.
    pub slides_n: f64,
}

/// A place where it stands off.
#[derive(Clone, Debug, Serialize)]
pub struct GapeReport {
    /// Deepest point, mm: her left, up from the crotch, forward.
    pub at_mm: [f64; 3],
    /// The open edge it reaches, if any.
    pub edge: Option<&'static str>,
    /// How far, mm.
    pub depth_mm: f64,
    /// Over how much cloth of one side, cm^2.
    pub area_cm2: f64,
}

impl WornReport {
    /// The worst of what was found.
    pub fn worst(&self) -> Severity {
        let all = self.found.iter().map(|f| f.finding.severity);
        all.max().unwrap_or(Severity::Good)
    }
}

const NOT_JUDGED: [&str; 6] = [
    "the body is rigid: soft tissue gives way under an edge and bulges beside it, a bust neither sinks nor moves",
    "sitting, striding and swimming: she stands, reaches or breathes",
    "no water is in the suit, and none drags at it",
    "the way in is the quick judgement's, by girths; it is not solved",
    "cups and boning: nothing is known of their stiffness",
    "pressure in the inner seat fold, where the form's legs were moved apart",
];

/// Cautions whose row says "fit check".
const FIT_CAUTIONS: [&str; 2] = ["pressure", "medical"];

/// What to know of this worn suit: the cautions of a fit check, and the test for cloth that may show through.
fn cautions(found: &[Found]) -> Vec<Caution> {
    let is_thin = |f: &Found| f.finding.code == "worn.drawn_out" && f.finding.severity > Severity::Good;
    let thin = found.iter().any(is_thin).then_some("sheer");
    let ids = FIT_CAUTIONS.into_iter().chain(thin);
    ids.filter_map(caution_of).collect()
}

fn percent(l: f64) -> f64 {
    (l - 1.0) * 100.0
}

/// What a report rests on.
pub(super) struct Basis<'a> {
    pub(super) choice: WornChoice,
    pub(super) weighed: Weighed,
    pub(super) room: &'a Room,
}

pub(super) fn report(
    order: &Order,
    (mesh, worn): (&SuitMesh, &WornSuit),
    form: &FittedForm,
    basis: &Basis<'_>,
    found: &[Found],
) -> WornReport {
    let Basis {
        choice,
        weighed,
        room,
    } = *basis;
    let solved = &worn.solved;
    let is_solved = solved.stop == Stop::Converged;
    let convergence = Convergence {
        solved: is_solved,
        stop: solved.stop.words(),
        passes: solved
            .passes
            .iter()
            .map(|p| (pass_words(p.kind), p.steps.len()))
            .collect(),
        steps: solved.step_count(),
        residual_n: solved.residual_n(),
        vertices: mesh.mesh.vertex_count(),
        mesh_mm: choice.mesh_mm,
        slack: solved.states.slack,
        wrinkled: solved.states.wrinkled,
        taut: solved.states.taut,
        penetration_mm: solved.penetration_mm(),
    };
    let mut report = WornReport {
        version: order.version.clone(),
        convergence,
        scene: choice.scene.words(),
        cloth: if choice.is_settled { "settled" } else { "new" },
        friction: choice.friction,
        cloth_weighed: weighed.cloth,
        elastic_n: weighed.elastic_n,
        elastic_weighed: weighed.elastic,
        form: residuals(order, mesh, form),
        levels: Vec::new(),
        edges: Vec::new(),
        strap: None,
        gapes: Vec::new(),
        leg: None,
        seat: None,
        seams: Vec::new(),
        support: None,
        stitches_planned: match (is_solved, room.is_assumed) {
            (true, true) => "from the solved stretches, for a zigzag machine: no workroom was named",
            (true, false) => "from the solved stretches, for the machines of the workroom",
            (false, _) => "from the draft's stretches",
        },
        found: found.to_vec(),
        assumed: mesh.assumed.clone(),
        grips: Vec::new(),
        ties: Vec::new(),
        rode_up_mm: None,
        cautions: cautions(found),
        left_out: mesh.left_out.clone(),
        not_judged: NOT_JUDGED.to_vec(),
    };
    if is_solved {
        fill(&mut report, order, worn);
    }
    report
}

const fn pass_words(kind: PassKind) -> &'static str {
    match kind {
        PassKind::Coarse => "coarse",
        PassKind::First => "first",
        PassKind::Augmented => "contact",
        PassKind::Friction => "friction",
    }
}

fn residuals(order: &Order, mesh: &SuitMesh, form: &FittedForm) -> Vec<FormResidual> {
    let on_form = form.measures().iter().map(|fit| FormResidual {
        dimension: fit.dimension.iso_name(form.form()),
        asked_mm: fit.asked_mm,
        off_mm: fit.residual_closed_mm(),
        is_estimate: order
            .body
            .get(fit.dimension)
            .is_some_and(|known| matches!(known.origin, Origin::Estimated { .. })),
    });
    // Limbs are led on to these: nothing is off, but most are estimates.
    let limbs = form.limbs();
    let legs = [
        ("girth above the knee", limbs.lower_thigh_girth),
        ("crotch to knee", limbs.knee_below_crotch),
    ];
    let arms = [
        ("upper-arm girth", limbs.upper_arm_girth),
        ("elbow girth", limbs.elbow_girth),
        ("wrist girth", limbs.wrist_girth),
        ("arm length", limbs.arm_length),
    ];
    let led = |is: bool, all: &[(&'static str, LimbMeasure)]| -> Vec<FormResidual> {
        let all = all.iter().filter(move |_| is);
        all.map(|(dimension, measure)| FormResidual {
            dimension,
            asked_mm: measure.mm,
            off_mm: 0.0,
            is_estimate: measure.is_estimate,
        })
        .collect()
    };
    on_form
        .chain(led(mesh.has_legs(), &legs))
        .chain(led(mesh.has_sleeves(), &arms))
        .collect()
}

fn fill(report: &mut WornReport, order: &Order, worn: &WornSuit) {
    report.levels = worn
        .levels
        .iter()
        .map(|l| {
            let drafted = order.draft.levels.iter().find(|d| d.level == l.level);
            LevelReport {
                level: l.level,
                height_mm: l.height_mm,
                closes: l.closes,
                body_mm: drafted.map(|d| d.body_mm),
                cut_mm: drafted.map(|d| d.pattern_mm),
                meant_percent: drafted.map(|d| d.meant * 100.0),
                around_percent: percent(l.around),
                around_spread_percent: l.around_spread.map(percent),
                lengthwise_percent: percent(l.lengthwise),
                front_back_lengthwise_percent: l.halves.map(|half| Some(percent(half?.0[0]))),
                area: l.area,
                pressure_kpa: l.pressure_kpa,
            }
        })
        .collect();
    report.edges = worn
        .edges
        .iter()
        .map(|e| EdgeReport {
            edge: e.kind.name(),
            piece: e.piece.clone(),
            stretch_percent: percent(e.stretch),
            elastic_n: e.elastic_n,
            line_load_n_per_m: e.line_load_n_per_m,
            gape_mm: e.gape_mm,
            gape_at_mm: e.gape_at,
            off_mm: e.off_mm,
            most_percent: percent(e.most),
            girth_mm: e.girth_mm,
        })
        .collect();
    report.strap = worn.strap.map(|s| StrapReport {
        stretch_percent: percent(s.stretch),
        needed_friction: s.needed_friction,
        slides_n: s.rail_n,
    });
    report.grips = worn
        .rails
        .iter()
        .map(|r| GripReport {
            what: r.name,
            slides_n: r.slides_n,
            lies_on_n: r.contact_n,
            needed_friction: r.needed_friction,
        })
        .collect();
    report.ties = worn
        .lines
        .iter()
        .map(|l| TieReport {
            what: l.name,
            length_mm: l.length_mm,
            stretch_percent: percent(l.stretch),
            pull_n: l.pull_n,
            pressure_kpa: l.pressure_kpa,
            gape_mm: l.gape_mm,
        })
        .collect();
    report.rode_up_mm = worn.rode_up.map(|r| [r.front_mm, r.back_mm]);
    report.gapes = worn
        .gapes
        .iter()
        .filter(|g| g.area_mm2 > 100.0)
        .map(|g| GapeReport {
            at_mm: g.at,
            edge: g.edge.map(draft::OpenKind::name),
            depth_mm: g.depth_mm,
            area_cm2: g.area_mm2 / 100.0,
        })
        .collect();
    report.leg = worn.leg.map(|l| LegReport {
        from_crease_mm: l.towards_belly_mm,
        rode_side_mm: l.rode_side_mm,
        rode_groin_mm: l.rode_groin_mm,
        rode_seat_mm: l.rode_seat_mm,
    });
    report.seat = worn.seat.map(|s| SeatReport {
        meant_percent: 100.0 * s.meant,
        covered_percent: 100.0 * s.covered,
    });
    report.seams = worn
        .seams
        .iter()
        .map(|s| SeamReport {
            seam: s.name,
            pieces: s.pieces.clone(),
            stretch_percent: percent(s.stretch),
            most_percent: percent(s.most),
        })
        .collect();
    report.support = worn.support.map(|s| SupportReport {
        strap_n: s.strap_n,
        band_n: s.band_n,
        pressure_kpa: s.pressure_kpa,
    });
}
