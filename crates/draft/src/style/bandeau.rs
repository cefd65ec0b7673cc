//! The bandeau: a strapless top that holds by its own width, straight or gathered at the centre front.
//!
//! Drafted about the bust point, then moved to its height above the waist. The side is a straight seam, the lower edge a cone edge,
//! the upper one rises over the bust and falls to the centre.
//!
//! **Source.** Construction own; cut at 1.3 of the fit's share, because nothing else holds it up: own. Boning from a cup of 9 cm: own.
//! **Limits.** Never sewn. A strapless top slides; a gripper tape on the upper edge helps a little.

use body::BodyForm;
use cloth::{Fit, Layer};
use kurbo::{Point, Vec2};
use units::Level;

use super::open_edges::{around_share, opening};
use super::top::support::{self, BONED_FROM_RADIUS, Hold};
use super::top::words::CLOSURE;
use super::top::{Filling, HOOK_FACING, Mesh, filling, words};
use super::{Drawn, Family, Job, StyleSpec, Widths, cone_edge, cups};
use crate::build::{PieceBuilder, arc_end, placement};
use crate::design::LiningCover;
use crate::factors::FRONT_LENGTH_SHARE;
use crate::geometry::{Curve, inward};
use crate::parameter::{Parameter, Shared, Word, count, joined};
use crate::piece::{EdgeUse, Mark, OpenKind, Piece};
use crate::refusal::Refusal;
use crate::suit::{EdgeArc, FinishedMeasure, LevelWidth, OpenEdge, OpeningKind, SeamWalk};

/// The front.
pub(super) const FRONT: Parameter = Parameter::choice(
    "bandeau_front",
    "Front",
    "how the centre front is shaped",
    &[
        Word::new("straight", "Straight", "smooth over the bust"),
        Word::new(
            "gathered",
            "Gathered",
            "cut higher at the centre and drawn together there",
        ),
    ],
);

/// How much higher a gathered front is cut.
pub(super) const GATHER: Parameter = Parameter::share(
    "bandeau_gather",
    "Gathering",
    "how many times as high a gathered front is cut at the centre as it is worn",
    (1.3, 1.4, 1.5),
)
.only_with(FRONT.key, &["gathered"]);

/// Bones in the sides.
pub(super) const BONING: Parameter = Parameter::choice(
    "boning",
    "Boning",
    "a channel with a soft bone in each side seam",
    &[
        Word::new("as-needed", "As needed", "from a cup of 9 cm radius on"),
        Word::new("sides", "In the sides", "always"),
        Word::new("none", "None", "never"),
    ],
);

/// What a maker may set.
const OWN: &[&[Parameter]] = &[&[FRONT, GATHER, BONING, CLOSURE], words::FILLED];

pub(super) const STYLE: StyleSpec = StyleSpec {
    key: "bandeau",
    name: "Bandeau",
    says: "a strapless top that holds by its width",
    family: Family::Top,
    wearers: &[BodyForm::Woman],
    shared: &[Shared::Lining, Shared::Cups],
    own: &joined::<{ count(OWN) }>(OWN),
    has_trunk_loop: false,
    needs_ties: false,
    usual_fit: Fit::Regular,
    parts: None,
    draw,
};

/// The body of the top takes this share of the fit (own).
const SHARE: f64 = 1.3;
/// Finished width of a boning channel, mm; the bone ends this far from each edge: common practice, no single source.
const CHANNEL: f64 = 12.0;
const BONE_INSIDE: f64 = 10.0;

/// A half.
struct Half {
    /// Fold to side.
    bottom: Curve,
    side: Curve,
    /// Side to fold.
    top: Curve,
}

impl Half {
    fn width_at(&self, y: f64) -> f64 {
        let (a, b) = (self.side.start(), self.side.end());
        a.x + (b.x - a.x) * ((y - a.y) / (b.y - a.y)).clamp(0.0, 1.0)
    }
}

struct Shape {
    front: Half,
    back: Half,
    /// Height of the bust point.
    bust_y: f64,
    bust_x: f64,
    /// Worn height of the centre front where it is gathered.
    gathered_to: Option<f64>,
}

fn shape(job: &Job<'_>) -> Result<Shape, Refusal> {
    let m = job.m;
    let underbust = m.underbust.ok_or(Refusal::Missing {
        dimension: body::Dimension::UnderbustGirth,
    })?;
    let k = job.k.x_at_share(SHARE);
    let (ub, rc) = (cups::to_underbust(job), cups::radius(job));
    let front_share = 0.5 + (0.13 * m.cup_difference() / m.bust).min(0.04);
    let bust = [front_share, 1.0 - front_share].map(|s| m.bust / 2.0 * s * k);
    let under = [0.505, 0.495].map(|s| underbust / 2.0 * s * k);
    let tops = [0.96 * bust[0], 0.99 * bust[1]];
    let bottoms = [under[0].max(tops[0] - 20.0), under[1].max(tops[1] - 14.0)];
    for (i, key, says) in [
        (
            0,
            "front_foot_held",
            "has its front held 2 cm narrower below than above",
        ),
        (
            1,
            "back_foot_held",
            "has its back held 14 mm narrower below than above",
        ),
    ] {
        job.branches.note(bottoms[i] > under[i], key, says);
    }
    let shrink = job.k.shrink_lengthwise;
    let y_top = (0.32 * rc + 30.0) * shrink;
    let y_low = -ub * job.k.y(1.0);
    let bust_y = (m.front_waist - m.side_neck_to_bust_point) * job.k.y(FRONT_LENGTH_SHARE);

    let foot = |i: usize| Point::new(bottoms[i], y_low + 8.0);
    let front_side = Curve::line(foot(0), Point::new(tops[0], y_top - 38.0));
    // The back's side runs on its own slope as far as the front's is long.
    let along = Point::new(tops[1], y_top - 38.0) - foot(1);
    let back_side = Curve::line(
        foot(1),
        foot(1) + crate::geometry::unit(along) * front_side.length(),
    );

    let s = front_side.end();
    let into = inward(front_side.end_tangent());
    let plain_bottom = cone_edge(front_side.start(), front_side.start_tangent(), 0.0);
    let low = plain_bottom.end().y;
    let (top, bottom, gathered_to) = if job.word(&FRONT)? == "gathered" {
        let worn = y_top - 3.0 - low;
        let more = 0.5 * (job.number(&GATHER)? - 1.0) * worn;
        let high = y_top - 3.0 + more;
        let top = Curve::cubic(
            s,
            s + into * (0.45 * tops[0]),
            Point::new(0.50 * tops[0], high),
            Point::new(0.0, high),
        );
        let bottom = cone_edge(front_side.start(), front_side.start_tangent(), -more);
        (top, bottom, Some(worn))
    } else {
        let knot = Point::new(0.5 * bust[0], y_top + 5.0);
        let j = Vec2::new(0.20 * bust[0], -3.0);
        let top = Curve::cubic(s, s + into * (0.17 * bust[0]), knot + j, knot).then(&Curve::cubic(
            knot,
            knot - j,
            Point::new(0.20 * bust[0], y_top - 3.0),
            Point::new(0.0, y_top - 3.0),
        ));
        (top, plain_bottom, None)
    };
    let front = Half {
        bottom: bottom.reversed(),
        side: front_side,
        top,
    };
    let s = back_side.end();
    let back = Half {
        bottom: cone_edge(back_side.start(), back_side.start_tangent(), 0.0).reversed(),
        top: Curve::cubic(
            s,
            s + inward(back_side.end_tangent()) * (0.4 * tops[1]),
            Point::new(0.4 * tops[1], y_top - 42.0),
            Point::new(0.0, y_top - 42.0),
        ),
        side: back_side,
    };
    if back.top.end().y < back.bottom.start().y + 25.0 {
        return Err(Refusal::Dimensions {
            dimension: body::Dimension::UnderbustGirth,
            why: "the back of the bandeau would be less than 2.5 cm high; take bust and under-bust again",
        });
    }
    let lift = |half: Half| {
        let up = |c: &Curve| c.map(|p| Point::new(p.x, p.y + bust_y));
        Half {
            bottom: up(&half.bottom),
            side: up(&half.side),
            top: up(&half.top),
        }
    };
    Ok(Shape {
        front: lift(front),
        back: lift(back),
        bust_y,
        bust_x: m.bust_point_distance / 2.0 * k,
        gathered_to,
    })
}

/// Draws the bandeau.
///
/// # Errors
/// Any [`Refusal`] of measures or pieces.
fn draw(job: &Job<'_>) -> Result<Drawn, Refusal> {
    let mut drawn = Drawn::default();
    let shape = shape(job)?;
    let mesh = words::mesh(job)?;
    let is_hooked = words::is_hooked(job)?;
    let filled = Filling::of(job)?;
    filling::check(job, &filled)?;
    let cover = filling::lining(job);
    let is_boned = match job.word(&BONING)? {
        "sides" => true,
        "none" => false,
        _ => cups::radius(job) > BONED_FROM_RADIUS,
    };

    let mut layers = vec![(Layer::Shell, true)];
    if cover != LiningCover::None {
        layers.push((Layer::Lining, cover == LiningCover::Full));
    }
    if mesh != Mesh::None {
        layers.push((Layer::Mesh, mesh == Mesh::FrontAndWings));
    }
    for (layer, has_back) in layers {
        drawn.pieces.push(front(job, &shape, &filled, layer)?);
        if has_back {
            drawn.pieces.push(back(job, &shape, is_hooked, layer)?);
        }
    }
    filling::pockets(
        job,
        &filled,
        &|share, more| place(job, &shape, share, more),
        &mut drawn,
    )?;
    let side = shape.front.side.length();
    if is_boned {
        drawn.pieces.push(channel(job, side)?);
        drawn.finished.push(FinishedMeasure::new((
            "bone_length",
            "bone in each side seam",
            side - 2.0 * BONE_INSIDE,
            2.0,
        )));
    }
    drawn.seams.push(SeamWalk {
        name: "side",
        first: ("front".into(), vec!["side"]),
        second: ("back".into(), vec!["side"]),
        first_mm: side,
        second_mm: shape.back.side.length(),
        sewn_ease_mm: 0.0,
    });
    edges(job, &shape, is_hooked, &mut drawn);
    let room = job.design.allowances.elastic_width.get();
    let hold = Hold {
        what: "a bandeau",
        most_mm: if is_boned { 240.0 } else { 180.0 },
        strap_mm: None,
        underbust_room_mm: Some(room),
        lining: cover,
        mesh: Some(mesh),
        is_shaped: false,
        boned: Some(is_boned),
        instead: "choose a top with straps: a sports top holds most",
    };
    support::judge(job, &hold, &mut drawn)?;
    Ok(drawn)
}

fn place(job: &Job<'_>, shape: &Shape, share: f64, more: f64) -> cups::CupPlace {
    cups::CupPlace {
        least_x: cups::OFF_FOLD,
        centre: Point::new(shape.bust_x, shape.bust_y),
        radius: (cups::radius(job) * share + more) * job.k.x_at_share(SHARE),
        fences: vec![
            shape.front.top.clone(),
            shape.front.bottom.clone(),
            shape.front.side.clone(),
        ],
    }
}

fn names(layer: Layer, is_front: bool) -> (&'static str, &'static str) {
    match (layer, is_front) {
        (Layer::Shell | Layer::Contrast, true) => ("front", "Front"),
        (Layer::Lining, true) => ("front_lining", "Front lining"),
        (Layer::Mesh, true) => ("front_mesh", "Front mesh"),
        (Layer::Shell | Layer::Contrast, false) => ("back", "Back"),
        (Layer::Lining, false) => ("back_lining", "Back lining"),
        (Layer::Mesh, false) => ("back_mesh", "Back mesh"),
    }
}

fn widths(job: &Job<'_>, layer: Layer) -> Widths {
    if layer == Layer::Shell {
        Widths::shell(job.design)
    } else {
        Widths::lining(job.design)
    }
}

/// Lower edge, side and upper edge of a half with their arc marks and notches.
fn outline(job: &Job<'_>, half: &Half, layer: Layer, is_front: bool, on_fold: bool) -> PieceBuilder {
    let w = widths(job, layer);
    let (key, name) = names(layer, is_front);
    let centre = if is_front { "centre_front" } else { "centre_back" };
    let b = PieceBuilder::new(key, name, on_fold)
        .edge(
            "bottom",
            EdgeUse::Open(OpenKind::Underbust),
            half.bottom.clone(),
            w.open,
        )
        .edge("side", EdgeUse::Seam, half.side.clone(), w.side)
        .edge("top", EdgeUse::Open(OpenKind::Top), half.top.clone(), w.open)
        .notch("side", 0.5 * half.side.length(), "side_middle", false)
        .notch("top", half.top.length(), centre, false)
        .notch("bottom", 0.0, centre, false)
        .mark(arc_end(&half.top, 0.0, 'q'))
        .mark(arc_end(&half.bottom, half.bottom.length(), 'o'));
    if is_front {
        b
    } else {
        b.mark(arc_end(&half.top, half.top.length(), 'r'))
            .mark(arc_end(&half.bottom, 0.0, 'p'))
    }
}

fn front(job: &Job<'_>, shape: &Shape, filled: &Filling, layer: Layer) -> Result<Piece, Refusal> {
    let half = &shape.front;
    let (high, low) = (half.top.end(), half.bottom.start());
    let mut b = outline(job, half, layer, true, true)
        .edge("fold", EdgeUse::Fold, Curve::line(high, low), 0.0)
        .mark(Mark::Cross {
            at: Point::new(shape.bust_x, shape.bust_y),
            text: "bust point".into(),
        });
    if let Some(worn) = shape.gathered_to {
        let inside = 12.0;
        let (from, to) = (low + Vec2::new(0.0, inside), high - Vec2::new(0.0, inside));
        let text = format!(
            "gather to {}",
            units::Mm::new((worn - 2.0 * inside).max(20.0)).to_cm_text()
        );
        b = b.mark(placement(from, to, &text));
    }
    b = filling::marks(b, job, filled, layer, false, &|share, more| {
        place(job, shape, share, more)
    })?;
    b.build(&[(layer, 1, false)], job.cloth)
}

fn back(job: &Job<'_>, shape: &Shape, is_hooked: bool, layer: Layer) -> Result<Piece, Refusal> {
    let half = &shape.back;
    let centre = Curve::line(half.top.end(), half.bottom.start());
    let b = outline(job, half, layer, false, !is_hooked);
    if is_hooked {
        b.edge("centre_back", EdgeUse::Raw, centre, HOOK_FACING)
            .build(&[(layer, 2, true)], job.cloth)
    } else {
        b.edge("fold", EdgeUse::Fold, centre, 0.0)
            .build(&[(layer, 1, false)], job.cloth)
    }
}

/// A strip sewn over the side seam inside, for the bone.
fn channel(job: &Job<'_>, length: f64) -> Result<Piece, Refusal> {
    let w = Widths::lining(job.design);
    let p = [(0.0, 0.0), (CHANNEL, 0.0), (CHANNEL, length), (0.0, length)].map(Point::from);
    let side = |i: usize| Curve::line(p[i], p[(i + 1) % 4]);
    PieceBuilder::new("boning_channel", "Boning channel", false)
        .edge("lower_end", EdgeUse::Hem, side(0), w.crotch)
        .edge("long_right", EdgeUse::Seam, side(1), w.crotch)
        .edge("upper_end", EdgeUse::Hem, side(2), w.crotch)
        .edge("long_left", EdgeUse::Seam, side(3), w.crotch)
        .build(&[(Layer::Lining, 2, false)], job.cloth)
}

fn edges(job: &Job<'_>, shape: &Shape, is_hooked: bool, drawn: &mut Drawn) {
    let (f, k) = (&shape.front, &shape.back);
    let arc = |name, letter, length_mm| EdgeArc {
        name,
        letter,
        length_mm,
    };
    let underbust = job.m.underbust.unwrap_or(job.m.bust);
    for (kind, front, back, letters, girth) in [
        (OpenKind::Top, &f.top, &k.top, ['r', 'q'], job.m.bust),
        (OpenKind::Underbust, &f.bottom, &k.bottom, ['p', 'o'], underbust),
    ] {
        drawn.open_edges.push(OpenEdge {
            kind,
            count: 1,
            is_ring: !is_hooked,
            arcs: vec![
                arc("back", letters[0], back.length()),
                arc("front", letters[1], 2.0 * front.length()),
                arc("back", letters[1], back.length()),
            ],
            around_share: around_share(&[front, back]),
            worn_radius_mm: girth / std::f64::consts::TAU,
        });
    }
    let bottom = 2.0 * (f.bottom.length() + k.bottom.length());
    let top = 2.0 * (f.top.length() + k.top.length());
    if !is_hooked {
        drawn.openings.push(opening(
            job,
            OpeningKind::Band,
            bottom.min(top),
            job.m.over_the_shoulders(),
            1.0,
        ));
    }
    let meant = job.k.meant_at_share(SHARE);
    let rung = |level, y_mm: f64, body_mm| LevelWidth {
        level,
        y_mm,
        body_mm,
        pattern_mm: 2.0 * (f.width_at(y_mm) + k.width_at(y_mm)) / job.k.shrink_around,
        meant,
    };
    drawn.levels.push(rung(Level::Bust, shape.bust_y, job.m.bust));
    drawn
        .levels
        .push(rung(Level::Underbust, f.side.start().y, underbust));
    let list = [
        (
            "across_bust",
            "across the bust, side seam to side seam",
            f.width_at(shape.bust_y) + k.width_at(shape.bust_y),
            4.0,
        ),
        (
            "side_seam",
            "side seam, lower to upper edge",
            f.side.length(),
            3.0,
        ),
        (
            "centre_front",
            "centre front, upper to lower edge, before gathering",
            f.top.end().y - f.bottom.start().y,
            4.0,
        ),
        (
            "centre_back",
            "centre back, upper to lower edge",
            k.top.end().y - k.bottom.start().y,
            4.0,
        ),
        ("top_edge", "upper edge, once round", top, 8.0),
        (
            "underbust",
            "lower edge before its elastic, once round",
            bottom,
            8.0,
        ),
    ];
    drawn.finished = list
        .into_iter()
        .map(FinishedMeasure::new)
        .chain(drawn.finished.drain(..))
        .collect();
}
