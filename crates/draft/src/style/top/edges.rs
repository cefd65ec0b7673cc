//! Seams walked, open edges in arcs, openings, levels and finished measures of a top.

use units::{Finding, Level, Limit, Severity};

use super::pieces::{UNDERARM_ZONE, is_open_armed, neck_zone};
use super::{
    BAND_SHARE, BackUpper, Cut, FrontUpper, HALTER_STRAP, Lower, Upper, Wanted, girth_below_the_bust,
    is_princess,
};
use crate::block::Block;
use crate::design::LiningCover;
use crate::geometry::Curve;
use crate::piece::OpenKind;
use crate::refusal::Refusal;
use crate::style::open_edges::{around_share, opening};
use crate::style::torso::Torso;
use crate::style::{Drawn, Job};
use crate::suit::{EdgeArc, FinishedMeasure, LevelWidth, OpenEdge, OpeningKind, SeamWalk};

/// A band pulled on is cut so long that it passes with this share of the cloth's stretch: the limit an opening is judged by (own).
const BAND_WAY_IN_SHARE: f64 = 0.85;
/// But at most this much longer than holds (own): past it a hook at the back is the better way.
const BAND_MOST_LONGER: f64 = 1.05;

/// Front and back part of the band's half, mm flat: the body's girth there by the band's factor, a little longer where it would not pass
/// bust and shoulders, never longer than the edge.
pub(super) fn band_parts(job: &Job<'_>, block: &Block, cut: &Cut, wanted: &Wanted) -> (f64, f64) {
    let (front, back) = (cut.front.bottom.length(), cut.back.bottom.length());
    let half = band_half(job, block, wanted) * band_longer(job, block, wanted);
    let half = half.min(front + back);
    let front = half * front / (front + back);
    (front, half - front)
}

/// Half the band as it holds, mm flat.
fn band_half(job: &Job<'_>, block: &Block, wanted: &Wanted) -> f64 {
    girth_below_the_bust(job, block, wanted.lower_y) * job.k.x_at_share(BAND_SHARE) / 2.0
}

/// How many times as long as it holds best a band is cut so that it passes; 1 for one that passes anyway, is hooked, or would have to be
/// too long.
fn band_longer(job: &Job<'_>, block: &Block, wanted: &Wanted) -> f64 {
    if wanted.is_hooked {
        return 1.0;
    }
    let passes = job.m.over_the_shoulders() * job.k.shrink_around;
    let needed = passes / (1.0 + BAND_WAY_IN_SHARE * job.k.stretch_around()) / 2.0;
    let longer = needed / band_half(job, block, wanted);
    if (1.0..=BAND_MOST_LONGER).contains(&longer) {
        longer
    } else {
        1.0
    }
}

/// Says that the band is longer than holds best.
fn say_longer(job: &Job<'_>, block: &Block, wanted: &Wanted, drawn: &mut Drawn) {
    let longer = band_longer(job, block, wanted);
    job.branches.note(
        longer > 1.0,
        "band_longer",
        "has its band cut longer to pass bust and shoulders",
    );
    if longer <= 1.0 {
        return;
    }
    let more = 2.0 * band_half(job, block, wanted) * (longer - 1.0);
    drawn.findings.push(Finding {
        code: "draft.band_longer",
        severity: Severity::Good,
        place: "band".into(),
        message: format!(
            "the band is cut {more:.0} mm longer than holds best, so that it passes bust and shoulders"
        ),
        value: Some(longer),
        limit: Some(Limit {
            text: format!("{BAND_MOST_LONGER}"),
            source: "own",
        }),
        remedy: "for a firmer hold set back_closure = \"hooked\"".into(),
    });
}

fn arc(name: &'static str, letter: char, length_mm: f64) -> EdgeArc {
    EdgeArc {
        name,
        letter,
        length_mm,
    }
}

/// Length of an edge of a drawn piece, 0 where there is none.
fn length(drawn: &Drawn, piece: &str, edges: &[&'static str]) -> f64 {
    let piece = drawn.pieces.iter().find(|p| p.key == piece);
    edges
        .iter()
        .filter_map(|&e| piece.and_then(|p| p.edge(e)))
        .map(|e| e.curve.length())
        .sum()
}

pub(super) fn add(
    job: &Job<'_>,
    torso: &Torso,
    cut: &Cut,
    wanted: &Wanted,
    drawn: &mut Drawn,
) -> Result<(), Refusal> {
    let block = &torso.block;
    seams(job, block, cut, wanted, drawn);
    let band = matches!(wanted.lower, Lower::Band(_)).then(|| band_parts(job, block, cut, wanted));
    open_edges(job, block, cut, wanted, band, drawn);
    let bottom = 2.0 * (cut.front.bottom.length() + cut.back.bottom.length());
    let lower = band.map_or(bottom, |(f, k)| 2.0 * (f + k));
    if band.is_some() {
        say_longer(job, block, wanted, drawn);
    }
    openings(job, torso, wanted, lower, drawn);
    levels(job, torso, wanted, lower, drawn);
    finished(torso, cut, wanted, lower, drawn);
    Ok(())
}

fn seams(job: &Job<'_>, block: &Block, cut: &Cut, wanted: &Wanted, drawn: &mut Drawn) {
    let has_panels = is_princess(job, block);
    let (side_of, centre_of) = if has_panels {
        ("side_front", "centre_front")
    } else {
        ("front", "front")
    };
    let sides: Vec<&'static str> = if block.dart.is_some() {
        vec!["side_low", "side_up"]
    } else {
        vec!["side"]
    };
    let mut walks = vec![SeamWalk {
        name: "side",
        first_mm: length(drawn, side_of, &sides),
        first: (side_of.into(), sides),
        second: ("back".into(), vec!["side"]),
        second_mm: length(drawn, "back", &["side"]),
        sewn_ease_mm: block.ease.map_or(0.0, |e| e.amount),
    }];
    if has_panels {
        for (name, edge) in [
            ("princess, lower edge to bust", "princess_low"),
            ("princess, bust to armhole", "princess_up"),
        ] {
            walks.push(SeamWalk {
                name,
                first: (centre_of.into(), vec![edge]),
                second: (side_of.into(), vec![edge]),
                first_mm: length(drawn, centre_of, &[edge]),
                second_mm: length(drawn, side_of, &[edge]),
                sewn_ease_mm: 0.0,
            });
        }
    }
    if wanted.front == FrontUpper::Block && wanted.back == BackUpper::Block {
        walks.push(SeamWalk {
            name: "shoulder",
            first: (centre_of.into(), vec!["shoulder"]),
            second: ("back".into(), vec!["shoulder"]),
            first_mm: length(drawn, centre_of, &["shoulder"]),
            second_mm: length(drawn, "back", &["shoulder"]),
            sewn_ease_mm: 0.0,
        });
    }
    if matches!(wanted.lower, Lower::Band(_)) {
        // A free front is not sewn to the band: the lining is.
        let held = if wanted.is_nursing {
            "front_lining"
        } else {
            centre_of
        };
        let bottom = length(drawn, held, &["bottom"])
            + if has_panels {
                length(drawn, side_of, &["bottom"])
            } else {
                0.0
            }
            + length(drawn, "back", &["bottom"]);
        let band = length(drawn, "band", &["upper"]);
        walks.push(SeamWalk {
            name: "band",
            first: ("front and back".into(), vec!["bottom"]),
            second: ("band".into(), vec!["lower", "upper"]),
            first_mm: 2.0 * bottom,
            second_mm: 2.0 * band,
            // The band is stretched to the edge.
            sewn_ease_mm: 2.0 * (cut.front.bottom.length() + cut.back.bottom.length()) - 2.0 * band,
        });
    }
    for walk in &mut drawn.seams {
        if walk.name == "neck strap" {
            walk.second.0 = centre_of.into();
            walk.second_mm = HALTER_STRAP;
        }
    }
    drawn.seams.splice(0..0, walks);
}

fn open_edges(
    job: &Job<'_>,
    block: &Block,
    cut: &Cut,
    wanted: &Wanted,
    band: Option<(f64, f64)>,
    drawn: &mut Drawn,
) {
    let chest_radius = job.m.bust / std::f64::consts::TAU;
    let zone = neck_zone(wanted);
    let mut edges = Vec::with_capacity(3);
    let Upper::Strapped { armhole, neck, .. } = &cut.front.upper else {
        return;
    };
    match &cut.back.upper {
        Upper::Strapped {
            armhole: back_armhole,
            neck: back_neck,
            ..
        } => {
            edges.push(OpenEdge {
                kind: OpenKind::Neckline,
                count: 1,
                is_ring: !wanted.is_hooked,
                arcs: vec![
                    arc("back", 'g', back_neck.length() - zone),
                    arc("strap", 'e', 2.0 * zone),
                    arc("front", 'f', 2.0 * (neck.length() - zone)),
                    arc("strap", 'f', 2.0 * zone),
                    arc("back", 'e', back_neck.length() - zone),
                ],
                around_share: around_share(&[neck, back_neck]),
                worn_radius_mm: chest_radius,
            });
            edges.push(OpenEdge {
                kind: OpenKind::Armhole,
                count: 2,
                is_ring: true,
                arcs: vec![
                    arc("underarm", 'i', 2.0 * UNDERARM_ZONE),
                    arc("front", 'h', armhole.length() - UNDERARM_ZONE),
                    arc("back", 'j', back_armhole.length() - UNDERARM_ZONE),
                ],
                around_share: around_share(&[armhole, back_armhole]),
                worn_radius_mm: 0.4 * chest_radius,
            });
        }
        Upper::Across(top) => {
            edges.push(OpenEdge {
                kind: OpenKind::Neckline,
                count: 1,
                is_ring: false,
                arcs: vec![arc("front", 'f', 2.0 * neck.length())],
                around_share: around_share(&[neck]),
                worn_radius_mm: chest_radius,
            });
            let front = armhole.length() - UNDERARM_ZONE;
            edges.push(OpenEdge {
                kind: OpenKind::Armhole,
                count: 1,
                is_ring: false,
                arcs: vec![
                    arc("front", 'k', front),
                    arc("underarm", 'h', 2.0 * UNDERARM_ZONE),
                    arc("back", 'i', 2.0 * (top.length() - UNDERARM_ZONE)),
                    arc("underarm", 'i', 2.0 * UNDERARM_ZONE),
                    arc("front", 'h', front),
                ],
                around_share: around_share(&[armhole, top]),
                worn_radius_mm: chest_radius,
            });
        }
    }
    let girth = girth_below_the_bust(job, block, wanted.lower_y);
    let lower = match wanted.lower {
        Lower::Band(_) => band.map(|parts| (parts, 1.0)),
        Lower::Elastic => Some((
            (cut.front.bottom.length(), cut.back.bottom.length()),
            around_share(&[&cut.front.bottom, &cut.back.bottom]),
        )),
        Lower::Hem => None,
    };
    if let Some(((front, back), share)) = lower {
        edges.push(OpenEdge {
            kind: OpenKind::Underbust,
            count: 1,
            is_ring: !wanted.is_hooked,
            arcs: vec![
                arc("back", 'p', back),
                arc("front", 'o', 2.0 * front),
                arc("back", 'o', back),
            ],
            around_share: share,
            worn_radius_mm: girth / std::f64::consts::TAU,
        });
    }
    drawn.open_edges.extend(edges);
}

/// The elastic of a shelf: round the body where the back is lined too, else from side seam to side seam.
pub(super) fn add_shelf(job: &Job<'_>, block: &Block, cut: &Cut, shelf: &Wanted, drawn: &mut Drawn) {
    let (front, back) = (cut.front.bottom.length(), cut.back.bottom.length());
    let arcs = match super::filling::lining(job) {
        LiningCover::None => return,
        LiningCover::Full => vec![
            arc("back", 'p', back),
            arc("front", 'o', 2.0 * front),
            arc("back", 'o', back),
        ],
        LiningCover::Front | LiningCover::Crotch => vec![arc("front", 'o', 2.0 * front)],
    };
    drawn.open_edges.push(OpenEdge {
        kind: OpenKind::Underbust,
        count: 1,
        is_ring: arcs.len() == 3,
        arcs,
        around_share: around_share(&[&cut.front.bottom]),
        worn_radius_mm: girth_below_the_bust(job, block, shelf.lower_y) / std::f64::consts::TAU,
    });
}

fn openings(job: &Job<'_>, torso: &Torso, wanted: &Wanted, lower: f64, drawn: &mut Drawn) {
    if wanted.is_hooked {
        return;
    }
    let passes = job.m.over_the_shoulders();
    let (f, k) = (&torso.block.front.profile, &torso.block.back.profile);
    match wanted.lower {
        Lower::Hem => {
            // The narrowest place of the hanging part, not the wide hem, is what must pass the shoulders.
            let waist = 2.0 * (f.at(0.0) + k.at(0.0));
            let rest = if wanted.lower_y < 0.0 {
                lower.min(waist)
            } else {
                lower
            };
            drawn
                .openings
                .push(opening(job, OpeningKind::Hem, rest, passes, 1.0));
        }
        Lower::Band(_) | Lower::Elastic => {
            drawn
                .openings
                .push(opening(job, OpeningKind::Band, lower, passes, 1.0));
        }
    }
}

fn levels(job: &Job<'_>, torso: &Torso, wanted: &Wanted, lower: f64, drawn: &mut Drawn) {
    let l = &torso.block.levels;
    let bust_y = l.bust_level(l.underarm_y);
    if bust_y > wanted.lower_y + 5.0 {
        drawn
            .levels
            .push(torso.rung(job, Level::Bust, bust_y, job.m.bust));
    }
    match wanted.lower {
        Lower::Band(_) | Lower::Elastic => drawn.levels.push(LevelWidth {
            level: Level::Underbust,
            y_mm: wanted.lower_y,
            body_mm: girth_below_the_bust(job, &torso.block, wanted.lower_y),
            pattern_mm: lower / job.k.shrink_around,
            meant: if matches!(wanted.lower, Lower::Band(_)) {
                job.k.meant_at_share(BAND_SHARE)
            } else {
                job.k.meant(Level::Underbust)
            },
        }),
        Lower::Hem => {
            if let Some(underbust) = job.m.underbust.filter(|_| job.m.is_woman()) {
                drawn
                    .levels
                    .push(torso.rung(job, Level::Underbust, 0.63 * bust_y, underbust));
            }
            let waist = if job.m.is_navel {
                Level::Navel
            } else {
                Level::Waist
            };
            for (level, y, girth) in [
                (waist, 0.0, job.m.waist),
                (Level::HighHip, l.high_hip_y, job.m.high_hip),
                (Level::Hip, l.hip_y, job.m.hip),
            ] {
                if y >= wanted.lower_y - 1e-6 {
                    drawn.levels.push(torso.rung(job, level, y, girth));
                }
            }
        }
    }
}

fn finished(torso: &Torso, cut: &Cut, wanted: &Wanted, lower: f64, drawn: &mut Drawn) {
    let block = &torso.block;
    let l = &block.levels;
    let bust_y = l.bust_level(l.underarm_y);
    let across = |y: f64| block.front.profile.at(y) + block.back.profile.at(y);
    let mut list = vec![
        (
            "across_bust",
            "across the bust, side seam to side seam",
            across(bust_y),
            5.0,
        ),
        (
            "side_seam",
            "side seam, underarm to lower edge",
            cut.back.side.length() - wanted.slit,
            4.0,
        ),
        (
            "centre_front",
            "centre front, neckline to lower edge or band",
            cut.front.upper.end().y - cut.front.bottom.start().y,
            4.0,
        ),
        (
            "centre_back",
            "centre back, top to lower edge or band",
            cut.back.upper.end().y - cut.back.bottom.start().y,
            4.0,
        ),
    ];
    let run = |c: &Curve| c.length();
    match (&cut.front.upper, &cut.back.upper) {
        (
            Upper::Strapped { armhole, strap, neck },
            Upper::Strapped {
                armhole: back_armhole,
                neck: back_neck,
                ..
            },
        ) => {
            list.push((
                "strap_width",
                "strap, edge to edge at the shoulder",
                run(strap),
                3.0,
            ));
            list.push((
                "neckline",
                "neckline and back, once round",
                2.0 * (run(neck) + run(back_neck)),
                8.0,
            ));
            list.push((
                "armhole",
                "armhole, once round",
                run(armhole) + run(back_armhole),
                8.0,
            ));
        }
        (Upper::Strapped { strap, neck, .. }, Upper::Across(_)) => {
            list.push((
                "strap_width",
                "strap, edge to edge where it leaves the front",
                run(strap),
                3.0,
            ));
            list.push(("neckline", "neckline, strap to strap", 2.0 * run(neck), 8.0));
        }
        (Upper::Across(_), _) => {}
    }
    list.push(match wanted.lower {
        Lower::Band(_) => ("underbust_band", "band, once round", lower, 8.0),
        Lower::Elastic => (
            "underbust",
            "lower edge before its elastic, once round",
            lower,
            8.0,
        ),
        Lower::Hem => ("hem", "hem, once round", lower, 10.0),
    });
    drawn.finished = list
        .into_iter()
        .map(FinishedMeasure::new)
        .chain(drawn.finished.drain(..))
        .collect();
    drawn.strap_mid = (!is_open_armed(wanted)).then_some(block.front.strap_mid);
}
