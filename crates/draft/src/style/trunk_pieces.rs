//! Pieces, seams and edges of trunks: fronts and backs, gusset, waistband.
//!
//! **Source.** See [`super::legged`] for the shapes; allowances and notches as everywhere.

use cloth::Layer;
use kurbo::Point;
use units::Level;

use super::legged::{self, LegHalf, Legs};
use super::open_edges::{around_share, opening};
use super::top::band::on_fold;
use super::trunks::{Around, Asked, hem_depth};
use super::{Drawn, Job, Widths};
use crate::build::{PieceBuilder, arc_end, level_line, placement};
use crate::geometry::{Curve, inward};
use crate::piece::{EdgeUse, Mark, OpenKind, Piece};
use crate::refusal::Refusal;
use crate::suit::{EdgeArc, LevelWidth, OpenEdge, OpeningKind, SeamWalk};

/// Where the cord comes out beside the front seam, mm.
const EYELET_OUT: f64 = 12.0;

/// A front or back with its notches and marks.
pub(super) fn half(
    job: &Job<'_>,
    legs: &Legs,
    asked: &Asked,
    is_front: bool,
    layer: Layer,
    w: Around,
) -> Result<Piece, Refusal> {
    let h = if is_front { &legs.front } else { &legs.back };
    let (key, name) = match (layer, is_front) {
        (Layer::Shell, true) => ("front", "Front"),
        (Layer::Shell, false) => ("back", "Back"),
        (_, true) => ("front_lining", "Front lining"),
        (_, false) => ("back_lining", "Back lining"),
    };
    let outline = outline(h);
    let (crotch, centre) = if is_front {
        ("centre_front", "front_seam")
    } else {
        ("centre_back", "back_seam")
    };
    let top_use = if layer == Layer::Shell && !asked.has_band {
        EdgeUse::Open(OpenKind::Waist)
    } else {
        EdgeUse::Seam
    };
    let mut b = PieceBuilder::new(key, name, false)
        .edge("hem", EdgeUse::Hem, h.hem.clone(), w.hem)
        .edge("side", EdgeUse::Seam, h.side.clone(), w.side)
        .edge("top", top_use, h.top.clone(), w.top)
        .edge(crotch, EdgeUse::Seam, h.crotch.clone(), w.seam)
        .edge("inseam", EdgeUse::Seam, h.inseam.clone(), w.seam)
        .notch(crotch, 0.45 * h.crotch.length(), centre, !is_front)
        .notch("side", 0.5 * h.side.length(), "side_middle", false);
    if let Some(g) = legs.gusset
        && !g.is_strip
    {
        b = b.notch("inseam", g.side, "gusset_end", false);
    }
    if layer == Layer::Shell {
        b = b.mark(arc_end(&h.top, 0.0, 'n'));
        if !is_front {
            b = b.mark(arc_end(&h.top, h.top.length(), 'm'));
        }
        if is_front && asked.cord == "cord" && !asked.has_band {
            let (at, travel) = h.top.at_length(h.top.length() - EYELET_OUT);
            b = b.mark(Mark::Cross {
                at: at + inward(travel) * (0.5 * asked.casing),
                text: "eyelet".into(),
            });
        }
    }
    if let Some(mark) = level_line(&outline, legs.hip_y, "hip") {
        b = b.mark(mark);
    }
    b.build(&[(layer, 2, true)], job.cloth)
}

fn outline(h: &LegHalf) -> Vec<Point> {
    [&h.hem, &h.side, &h.top, &h.crotch, &h.inseam]
        .into_iter()
        .flat_map(|c| c.flatten(0.5))
        .collect()
}

/// The gusset, half on its fold from front to back; lined where the fronts are.
pub(super) fn gusset(job: &Job<'_>, legs: &Legs, liner: &str, drawn: &mut Drawn) -> Result<(), Refusal> {
    let Some(g) = legs.gusset else { return Ok(()) };
    let w = Widths::shell(job.design);
    let (wide, end) = (g.half_width(), 0.5 * g.length);
    let (front, back) = (Point::new(0.0, end), Point::new(0.0, -end));
    let both = [(Layer::Shell, 1, false), (Layer::Lining, 1, false)];
    let mut b = PieceBuilder::new("gusset", "Gusset", true);
    if g.is_strip {
        let (low, high) = (Point::new(wide, -end), Point::new(wide, end));
        b = b
            .edge("back_side", EdgeUse::Seam, Curve::line(back, low), w.seam)
            .edge(
                "hem",
                EdgeUse::Hem,
                Curve::line(low, high),
                hem_depth(legs, w.hem),
            )
            .edge("front_side", EdgeUse::Seam, Curve::line(high, front), w.seam);
    } else {
        let tip = Point::new(wide, 0.0);
        b = b
            .edge("back_side", EdgeUse::Seam, Curve::line(back, tip), w.seam)
            .edge("front_side", EdgeUse::Seam, Curve::line(tip, front), w.seam);
    }
    let piece = b
        .edge("fold", EdgeUse::Fold, Curve::line(front, back), 0.0)
        .notch("front_side", g.side, "gusset_front", false)
        .build(
            if matches!(liner, "front" | "full") {
                &both
            } else {
                &both[..1]
            },
            job.cloth,
        )?;
    for (name, key, edge) in [
        ("gusset, front", "front", "front_side"),
        ("gusset, back", "back", "back_side"),
    ] {
        drawn.seams.push(SeamWalk {
            name,
            first: (key.into(), vec!["inseam"]),
            second: ("gusset".into(), vec![edge]),
            first_mm: g.side,
            second_mm: piece.edge(edge).map_or(0.0, |e| e.curve.length()),
            sewn_ease_mm: 0.0,
        });
    }
    drawn.pieces.push(piece);
    Ok(())
}

/// The band: half its length, on the fold at the front, twice its depth.
pub(super) fn band(job: &Job<'_>, legs: &Legs, asked: &Asked, drawn: &mut Drawn) -> Result<(), Refusal> {
    let seam = Widths::shell(job.design).seam;
    let (front, back) = (legs.front.top.length(), legs.back.top.length());
    let (half, deep) = (front + back, 2.0 * asked.casing);
    let at = |x: f64, y: f64| Point::new(x, y);
    let mut b = on_fold(("waistband", "Waistband"), (half, deep), seam)
        .notch("lower", front, "band_side", false)
        .notch("upper", back, "band_side", false)
        .mark(placement(at(0.0, asked.casing), at(half, asked.casing), "fold"));
    if asked.cord == "cord" {
        b = b.mark(Mark::Cross {
            at: at(EYELET_OUT, 0.5 * asked.casing),
            text: "eyelet".into(),
        });
    }
    drawn
        .pieces
        .push(b.build(&[(Layer::Shell, 1, false)], job.cloth)?);
    drawn.seams.push(SeamWalk {
        name: "waistband",
        first: ("front and back".into(), vec!["top"]),
        second: ("waistband".into(), vec!["lower"]),
        first_mm: 2.0 * (front + back),
        second_mm: 2.0 * half,
        sewn_ease_mm: 0.0,
    });
    Ok(())
}

pub(super) fn seams(legs: &Legs, drawn: &mut Drawn) {
    let (f, b) = (&legs.front, &legs.back);
    let taken = legs.gusset.map_or(0.0, |g| g.side);
    let walk =
        |name, (first, first_edge): (&str, _), (second, second_edge): (&str, _), first_mm, second_mm| {
            SeamWalk {
                name,
                first: (first.into(), vec![first_edge]),
                second: (second.into(), vec![second_edge]),
                first_mm,
                second_mm,
                sewn_ease_mm: 0.0,
            }
        };
    let (front, back) = (f.crotch.length(), b.crotch.length());
    drawn.seams.splice(
        0..0,
        [
            walk(
                "centre front",
                ("front", "centre_front"),
                ("front", "centre_front"),
                front,
                front,
            ),
            walk(
                "centre back",
                ("back", "centre_back"),
                ("back", "centre_back"),
                back,
                back,
            ),
            walk(
                "side",
                ("front", "side"),
                ("back", "side"),
                f.side.length(),
                b.side.length(),
            ),
        ],
    );
    if legs.gusset.is_none_or(|g| !g.is_strip) {
        let (front, back) = (f.inseam.length() - taken, b.inseam.length() - taken);
        drawn.seams.insert(
            3,
            walk("inseam", ("front", "inseam"), ("back", "inseam"), front, back),
        );
    }
}

pub(super) fn edges(job: &Job<'_>, legs: &Legs, asked: &Asked, drawn: &mut Drawn) {
    let (f, b) = (&legs.front, &legs.back);
    let arc = |name, letter, length_mm| EdgeArc {
        name,
        letter,
        length_mm,
    };
    let girth = legged::girth_below_waist(job, asked.shape.top_share);
    let (front, back) = (f.top.length(), b.top.length());
    drawn.open_edges.insert(
        0,
        OpenEdge {
            kind: OpenKind::Waist,
            count: 1,
            is_ring: true,
            arcs: vec![
                arc("back", 'm', back),
                arc("front", 'n', 2.0 * front),
                arc("back", 'n', back),
            ],
            around_share: around_share(&[&f.top, &b.top]),
            worn_radius_mm: girth / std::f64::consts::TAU,
        },
    );
    let hem = legs.hem_length();
    drawn.openings = vec![
        opening(job, OpeningKind::Waist, 2.0 * (front + back), job.m.hip, 1.0),
        opening(job, OpeningKind::Leg, hem, job.m.thigh, 1.0),
    ];
    let rung = |level, y_mm, body_mm, flat: f64| LevelWidth {
        level,
        y_mm,
        body_mm,
        pattern_mm: flat / job.k.shrink_around,
        meant: job.k.meant(level),
    };
    let across = |y: f64| 2.0 * (f.width_at(y) + b.width_at(y));
    let waist = if job.m.is_navel {
        Level::Navel
    } else {
        Level::Waist
    };
    if legs.top_y > legs.high_hip_y {
        drawn
            .levels
            .push(rung(waist, legs.top_y, girth, across(legs.top_y)));
        let y = legs.high_hip_y;
        drawn
            .levels
            .push(rung(Level::HighHip, y, job.m.high_hip, across(y)));
    } else {
        drawn
            .levels
            .push(rung(Level::HighHip, legs.top_y, girth, across(legs.top_y)));
    }
    drawn
        .levels
        .push(rung(Level::Hip, legs.hip_y, job.m.hip, across(legs.hip_y)));
    drawn
        .levels
        .push(rung(Level::Thigh, legs.fork_y, job.m.thigh, legs.thigh_width()));
}
