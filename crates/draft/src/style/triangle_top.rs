//! The triangle top: two lined cups on a tie under the bust and ties behind the neck.
//!
//! Drafted about the bust point. The base is a channel on a tie, so the cups slide; where the bust asks for more depth a dart in the
//! base makes it, and the base is cut wider by as much, so that its sewn length stays.
//!
//! **Source.** Shape and dart intake (0.35 of the cup difference past 140 mm): own. Lengths of ties, height of the channel: common practice,
//! no single source.
//! **Limits.** Never sewn. Women only: ties at neck and back are not drafted for children. Holds a small cup; says so for a larger.

use body::BodyForm;
use cloth::{Fit, Layer};
use kurbo::{Point, Vec2};

use super::one_piece::dart_cap;
use super::top::support::{self, Hold};
use super::top::words::POCKETS;
use super::top::{Filling, band, filling};
use super::{Drawn, Family, Job, StyleSpec, Widths, cups, motif};
use crate::build::{PieceBuilder, arc_end};
use crate::design::LiningCover;
use crate::geometry::{Curve, unit};
use crate::parameter::{Parameter, Shared, count, joined};
use crate::piece::{EdgeUse, Mark, OpenKind, Piece};
use crate::refusal::Refusal;
use crate::suit::{EdgeArc, FinishedMeasure, OpenEdge, SeamWalk};

/// How much a cup covers.
pub(super) const COVER: Parameter = Parameter::share(
    "cup_cover",
    "Cover",
    "size of each triangle against the usual for this bust: more covers more of it",
    (0.80, 1.00, 1.20),
);

/// Ends of the ties behind the neck.
pub(super) const NECK_TIE: Parameter = Parameter::length(
    "neck_tie",
    "Neck ties",
    "length of each tie from the point of its triangle",
    (250.0, 350.0, 600.0),
);

/// Ends of the tie behind the back.
pub(super) const BACK_TIE: Parameter = Parameter::length(
    "back_tie",
    "Back ties",
    "how far the tie under the bust goes on past each triangle, to tie behind the back",
    (300.0, 450.0, 700.0),
);

/// The channel.
pub(super) const CHANNEL: Parameter = Parameter::length(
    "tie_channel",
    "Channel",
    "height of the channel along the base that the tie runs through",
    (12.0, 20.0, 30.0),
);

/// What a maker may set.
const OWN: &[&[Parameter]] = &[
    &[COVER, NECK_TIE, BACK_TIE, CHANNEL],
    POCKETS,
    &[motif::MOTIF_REPEAT],
];

pub(super) const STYLE: StyleSpec = StyleSpec {
    key: "triangle-top",
    name: "Triangle top",
    says: "two triangles on ties at neck and back",
    family: Family::Top,
    wearers: &[BodyForm::Woman],
    shared: &[Shared::Lining, Shared::Cups],
    own: &joined::<{ count(OWN) }>(OWN),
    has_trunk_loop: false,
    needs_ties: true,
    usual_fit: Fit::Regular,
    parts: None,
    draw,
};

/// No dart up to this cup difference, mm; and its intake per mm past it (own).
const DART_FROM: f64 = 140.0;
const DART_SHARE: f64 = 0.35;
/// A dart narrower than this is left to the cloth, mm.
const LEAST_DART: f64 = 4.0;
/// The dart ends this share of the way from base to bust point.
const DART_REACH: f64 = 0.68;
/// Finished width of a tie, mm.
const TIE_WIDTH: f64 = 10.0;
/// Between the triangles on their tie, mm.
const BETWEEN: f64 = 40.0;

/// Edges of a triangle about the bust point, counter-clockwise.
struct Triangle {
    base: Curve,
    outer: Curve,
    inner: Curve,
    dart: Option<Dart>,
}

struct Dart {
    left: Curve,
    point: Point,
    right: Curve,
}

/// An edge that bulges outwards by a share of its chord.
fn bulged(from: Point, to: Point, bulge: f64) -> Curve {
    let chord = to - from;
    let out = Vec2::new(chord.y, -chord.x) * bulge;
    Curve::cubic(from, from + chord * 0.33 + out, to - chord * 0.33 + out, to)
}

fn triangle(job: &Job<'_>) -> Result<Triangle, Refusal> {
    let rc = cups::radius(job) * job.number(&COVER)?;
    let w = 0.92 * rc;
    let intake = DART_SHARE * (job.m.cup_difference() - DART_FROM).max(0.0);
    let intake = if intake < LEAST_DART { 0.0 } else { intake };
    job.branches.note(
        intake > 0.0,
        "base_dart",
        "has a dart at the base of each triangle",
    );
    let shrunk = |p: Point| Point::new(p.x * job.k.shrink_around, p.y * job.k.shrink_lengthwise);
    let left = shrunk(Point::new(-w - intake / 2.0, -0.93 * rc));
    let right = shrunk(Point::new(0.92 * w + intake / 2.0, -0.93 * rc - 4.0));
    let apex = shrunk(Point::new(-0.12 * w, 1.45 * rc));
    let base = bulged(left, right, 0.05);
    let dart = if intake > 0.0 {
        // Under the bust point, the mouth laid off along the base to both sides.
        let below = crate::geometry::root(|s| base.at_length(s).0.x, 0.0, base.length())
            .unwrap_or(0.5 * base.length());
        let half = 0.5 * intake * job.k.shrink_around;
        let (one, rest) = base.split_at(below - half);
        let (_, other) = rest.split_at(2.0 * half);
        let middle = one.end().midpoint(other.start());
        let up = unit(Vec2::new(
            one.end().y - other.start().y,
            other.start().x - one.end().x,
        ));
        let point = middle + up * (DART_REACH * -middle.y);
        Some(Dart {
            left: one,
            point,
            right: other,
        })
    } else {
        None
    };
    Ok(Triangle {
        base,
        outer: bulged(right, apex, -0.02),
        inner: bulged(apex, left, 0.03),
        dart,
    })
}

impl Triangle {
    /// Sewn length of the base.
    fn base_length(&self) -> f64 {
        match &self.dart {
            Some(d) => d.left.length() + d.right.length(),
            None => self.base.length(),
        }
    }
}

/// Draws the triangle top.
///
/// # Errors
/// Any [`Refusal`] of parameters or pieces.
fn draw(job: &Job<'_>) -> Result<Drawn, Refusal> {
    if job.m.underbust.is_none() {
        return Err(Refusal::Missing {
            dimension: body::Dimension::UnderbustGirth,
        });
    }
    let mut drawn = Drawn::default();
    let t = triangle(job)?;
    let filled = Filling::of(job)?;
    filling::check(job, &filled)?;
    let channel = job.number(&CHANNEL)?;
    let cover = filling::lining(job);
    drawn.pieces.push(piece(job, &t, &filled, channel, Layer::Shell)?);
    if cover != LiningCover::None {
        drawn
            .pieces
            .push(piece(job, &t, &filled, channel, Layer::Lining)?);
    }
    filling::pockets(
        job,
        &filled,
        &|share, more| place(job, &t, share, more),
        &mut drawn,
    )?;

    let shrink = job.k.shrink_lengthwise;
    let base = t.base_length();
    let neck = job.number(&NECK_TIE)? * shrink;
    let back = 2.0 * (base + job.number(&BACK_TIE)? * shrink) + BETWEEN;
    drawn.pieces.push(band::strip(
        job,
        ("neck_tie", "Neck tie"),
        (TIE_WIDTH, neck),
        None,
        2,
    )?);
    drawn.pieces.push(band::strip(
        job,
        ("back_tie", "Tie under the bust"),
        (TIE_WIDTH, back),
        Some((0.5 * back, "centre front")),
        1,
    )?);

    if cover != LiningCover::None {
        for edge in ["outer", "inner"] {
            let length = |key: &str| {
                let piece = drawn.pieces.iter().find(|p| p.key == key);
                piece.and_then(|p| p.edge(edge)).map_or(0.0, |e| e.curve.length())
            };
            let walk = SeamWalk {
                name: if edge == "outer" {
                    "lining, outer edge"
                } else {
                    "lining, inner edge"
                },
                first: ("front".into(), vec![edge]),
                second: ("front_lining".into(), vec![edge]),
                first_mm: length("front"),
                second_mm: length("front_lining"),
                sewn_ease_mm: 0.0,
            };
            drawn.seams.push(walk);
        }
    }
    if let Some(d) = &t.dart {
        drawn.seams.push(SeamWalk {
            name: "dart",
            first: ("front".into(), vec!["dart_left"]),
            second: ("front".into(), vec!["dart_right"]),
            first_mm: (d.point - d.left.end()).hypot(),
            second_mm: (d.point - d.right.start()).hypot(),
            sewn_ease_mm: 0.0,
        });
    }
    let radius = job.m.bust / std::f64::consts::TAU;
    for (kind, curve, letter) in [
        (OpenKind::Neckline, &t.inner, 'f'),
        (OpenKind::Armhole, &t.outer, 'h'),
    ] {
        drawn.open_edges.push(OpenEdge {
            kind,
            count: 2,
            is_ring: false,
            arcs: vec![EdgeArc {
                name: "front",
                letter,
                length_mm: curve.length(),
            }],
            around_share: super::open_edges::around_share(&[curve]),
            worn_radius_mm: radius,
        });
    }
    drawn.finished = [
        ("cup_base", "base of each triangle, dart closed", base, 4.0),
        ("cup_outer", "outer edge of each triangle", t.outer.length(), 4.0),
        ("cup_inner", "inner edge of each triangle", t.inner.length(), 4.0),
        ("neck_tie", "each neck tie, from the point", neck, 15.0),
        ("back_tie", "tie under the bust, end to end", back, 25.0),
    ]
    .map(FinishedMeasure::new)
    .to_vec();
    let hold = Hold {
        what: "a triangle top",
        most_mm: 160.0,
        strap_mm: Some(TIE_WIDTH + 2.0),
        underbust_room_mm: Some(TIE_WIDTH),
        lining: cover,
        mesh: None,
        is_shaped: t.dart.is_some(),
        boned: None,
        instead: "choose a halter, a crop top or a sports top: their bands hold",
    };
    support::judge(job, &hold, &mut drawn)?;
    Ok(drawn)
}

fn place(job: &Job<'_>, t: &Triangle, share: f64, more: f64) -> cups::CupPlace {
    cups::CupPlace {
        least_x: f64::NEG_INFINITY,
        centre: Point::ZERO,
        radius: (cups::radius(job) * share + more) * job.k.shrink_around,
        fences: vec![t.base.clone(), t.outer.clone(), t.inner.clone()],
    }
}

fn piece(
    job: &Job<'_>,
    t: &Triangle,
    filled: &Filling,
    channel: f64,
    layer: Layer,
) -> Result<Piece, Refusal> {
    let (key, name, w) = if layer == Layer::Lining {
        ("front_lining", "Triangle lining", Widths::lining(job.design))
    } else {
        ("front", "Triangle", Widths::shell(job.design))
    };
    // The channel is turned up from the shell; the lining ends inside it.
    let base_width = if layer == Layer::Lining { w.seam } else { channel };
    let mut b = PieceBuilder::new(key, name, false);
    b = match &t.dart {
        None => b.edge("base", EdgeUse::Hem, t.base.clone(), base_width),
        Some(d) => {
            let (low, high) = (d.left.end(), d.right.start());
            b.edge("base", EdgeUse::Hem, d.left.clone(), base_width)
                .edge("dart_left", EdgeUse::Dart, Curve::line(low, d.point), 0.0)
                .edge("dart_right", EdgeUse::Dart, Curve::line(d.point, high), 0.0)
                .edge("base_outer", EdgeUse::Hem, d.right.clone(), base_width)
                .cap("dart_left", "dart_right", dart_cap(&d.left, d.point, low, high))
                .notch("base", d.left.length(), "dart", false)
                .notch("base_outer", 0.0, "dart", false)
        }
    };
    b = b
        .edge("outer", EdgeUse::Open(OpenKind::Armhole), t.outer.clone(), w.open)
        .edge(
            "inner",
            EdgeUse::Open(OpenKind::Neckline),
            t.inner.clone(),
            w.open,
        )
        .mark(arc_end(&t.inner, 0.0, 'f'))
        .mark(arc_end(&t.outer, 0.0, 'h'))
        .mark(Mark::Cross {
            at: Point::ZERO,
            text: "bust point".into(),
        });
    b = filling::marks(b, job, filled, layer, false, &|share, more| {
        place(job, t, share, more)
    })?;
    b.build(&[(layer, 2, true)], job.cloth)
}
