//! The judge: every lay is held against the rules here, in double precision and on the true outlines, before anybody sees it.
//!
//! Shares nothing with the search but the polygon functions: no circles, no tables, no simplified outlines.
//!
//! **Shapes and units.** `table`, mm.

use std::f64::consts::PI;
use std::fmt;

use cloth::Orientation;
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use kurbo::{Point, Vec2};

use crate::cloth::Direction;
use crate::lay::{LayRequest, Placed};
use crate::polygon::{self, Bounds};
use crate::setting::missing;

/// Two pieces may share this much by rounding: a hair's width along half a metre.
pub const OVERLAP_TOLERANCE_MM2: f64 = 0.5;
/// Gap, margins and the fold are kept this well.
pub const GAP_TOLERANCE_MM: f64 = 0.01;
/// Turns are kept this well, radians: a hundredth of a millimetre on a metre.
const ANGLE_TOLERANCE: f64 = 1e-5;

/// A rule that a lay breaks.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum LayFault {
    /// Two pieces share cloth.
    Overlap {
        /// The two, by name.
        pieces: (String, String),
        /// How much.
        area_mm2: f64,
    },
    /// Two pieces are nearer than the gap.
    Gap {
        /// The two.
        pieces: (String, String),
        /// How near.
        distance_mm: f64,
    },
    /// A piece reaches past the usable cloth.
    Outside {
        /// Which.
        piece: String,
        /// By how much; what of a remnant's edge it crosses is not measured.
        by_mm: f64,
    },
    /// A piece lies on a flaw it does not bear.
    Flaw {
        /// Which.
        piece: String,
    },
    /// A piece is turned in a way the cloth's direction forbids.
    Direction {
        /// Which.
        piece: String,
    },
    /// Not as many as asked, or a pair that is not a left and a right.
    Count {
        /// Which.
        piece: String,
        /// Asked.
        wanted: u32,
        /// There.
        there: u32,
    },
    /// A half that does not lie on the fold, or a double cut outside the double lane.
    Fold {
        /// Which.
        piece: String,
    },
    /// A matching point out of phase with the repeat.
    Phase {
        /// Which.
        piece: String,
        /// How far off.
        by_mm: f64,
    },
}

impl fmt::Display for LayFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            LayFault::Overlap { pieces, area_mm2 } => {
                write!(f, "{} and {} share {area_mm2:.2} mm2", pieces.0, pieces.1)
            }
            LayFault::Gap { pieces, distance_mm } => {
                write!(f, "{} and {} are {distance_mm:.2} mm apart", pieces.0, pieces.1)
            }
            LayFault::Outside { piece, by_mm } => write!(f, "{piece} reaches {by_mm:.2} mm past the cloth"),
            LayFault::Flaw { piece } => write!(f, "{piece} lies on a flaw"),
            LayFault::Direction { piece } => write!(f, "{piece} is turned the wrong way"),
            LayFault::Count { piece, wanted, there } => write!(f, "{piece}: {there} laid of {wanted}"),
            LayFault::Fold { piece } => write!(f, "{piece} does not lie on the fold"),
            LayFault::Phase { piece, by_mm } => write!(f, "{piece} is {by_mm:.2} mm out of phase"),
        }
    }
}

/// All rules that the lay breaks; none for a good lay. Whether it fits the length there is, is [`crate::Lay::fits`].
pub fn check(request: &LayRequest, placed: &[Placed]) -> Vec<LayFault> {
    let mut all = Vec::new();
    let known: Vec<&Placed> = placed.iter().filter(|p| p.piece < request.pieces.len()).collect();
    let rings: Vec<Vec<Point>> = known
        .iter()
        .map(|p| p.outline(&request.pieces[p.piece]))
        .collect();
    let boxes: Vec<Bounds> = rings.iter().map(|r| Bounds::of(r)).collect();
    for (i, one) in known.iter().enumerate() {
        alone(request, one, &rings[i], &boxes[i], &mut all);
    }
    let name = |i: usize| request.pieces[known[i].piece].name.clone();
    let gap = request.cloth.gap_mm;
    let mut order: Vec<usize> = (0..known.len()).collect();
    order.sort_by(|&a, &b| boxes[a].x0.total_cmp(&boxes[b].x0).then(a.cmp(&b)));
    for (k, &i) in order.iter().enumerate() {
        for &j in &order[k + 1..] {
            if boxes[j].x0 > boxes[i].x1 + gap {
                break;
            }
            if boxes[j].y0 > boxes[i].y1 + gap || boxes[i].y0 > boxes[j].y1 + gap {
                continue;
            }
            if polygon::overlap(&rings[i], &boxes[i], &rings[j], &boxes[j], Vec2::ZERO) {
                let area = shared_area(&rings[i], &rings[j]);
                if area > OVERLAP_TOLERANCE_MM2 || gap > GAP_TOLERANCE_MM {
                    all.push(LayFault::Overlap {
                        pieces: (name(i), name(j)),
                        area_mm2: area,
                    });
                }
            } else {
                let least = gap - GAP_TOLERANCE_MM;
                let near = polygon::nearer_than(least, (&rings[i], &boxes[i]), (&rings[j], &boxes[j]));
                if let Some(distance_mm) = near {
                    all.push(LayFault::Gap {
                        pieces: (name(i), name(j)),
                        distance_mm,
                    });
                }
            }
        }
    }
    counts(request, &known, &mut all);
    directions_of_garments(request, &known, &mut all);
    all
}

pub(crate) fn shared_area(a: &[Point], b: &[Point]) -> f64 {
    let path = |ring: &[Point]| ring.iter().map(|p| [p.x, p.y]).collect::<Vec<_>>();
    path(a)
        .overlay(&path(b), OverlayRule::Intersect, FillRule::NonZero)
        .iter()
        .flatten()
        .map(|contour| {
            let ring: Vec<Point> = contour.iter().map(|&[x, y]| Point::new(x, y)).collect();
            polygon::signed_area(&ring)
        })
        .sum::<f64>()
        .abs()
}

/// What can be said of a piece without the others.
fn alone(request: &LayRequest, one: &Placed, ring: &[Point], bounds: &Bounds, all: &mut Vec<LayFault>) {
    let cloth = &request.cloth;
    let piece = &request.pieces[one.piece];
    let name = || piece.name.clone();
    // Across: inside one lane of the right kind.
    let past = cloth
        .lanes()
        .iter()
        .filter(|lane| lane.2 == (one.layers == 2))
        .map(|lane| {
            let below = if one.is_half { 0.0 } else { lane.0 - bounds.y0 };
            below.max(bounds.y1 - lane.1).max(0.0)
        })
        .fold(f64::INFINITY, f64::min);
    if past == f64::INFINITY {
        all.push(LayFault::Fold { piece: name() });
    }
    let before = (cloth.end_allowance_mm - bounds.x0).max(0.0);
    let by_mm = if past.is_finite() {
        past.max(before)
    } else {
        before
    };
    if by_mm > GAP_TOLERANCE_MM {
        all.push(LayFault::Outside { piece: name(), by_mm });
    }
    if one.is_half {
        let transform = one.table_from_piece();
        let ends = [transform * Point::ZERO, transform * Point::new(0.0, 1.0)];
        if !piece.is_symmetric || ends.iter().any(|p| p.y.abs() > GAP_TOLERANCE_MM) {
            all.push(LayFault::Fold { piece: name() });
        }
    }
    if let Some(remnant) = &cloth.remnant {
        let past_edge: f64 = missing(remnant)
            .iter()
            .map(|lacks| shared_area(lacks, ring))
            .sum();
        if past_edge > OVERLAP_TOLERANCE_MM2 {
            all.push(LayFault::Outside {
                piece: name(),
                by_mm: 0.0,
            });
        }
    }
    let on_flaw = |f: &&crate::Flaw| f.grade == 0 || piece.bears_grade < f.grade;
    for flaw in cloth.flaws.iter().filter(on_flaw) {
        if shared_area(&flaw.outline, ring) > OVERLAP_TOLERANCE_MM2 {
            all.push(LayFault::Flaw { piece: name() });
        }
    }
    if !angle_is_allowed(request, one) {
        all.push(LayFault::Direction { piece: name() });
    }
    if let Some(point) = piece.match_point {
        let at = one.table_from_piece() * point;
        // Along, the cut end is the origin of the phase; across, the first such piece: see `phases_across`.
        if let Some(repeat) = cloth.repeat_mm.0 {
            let by_mm = off_grid(at.x, repeat);
            if by_mm > GAP_TOLERANCE_MM {
                all.push(LayFault::Phase { piece: name(), by_mm });
            }
        }
    }
}

fn off_grid(value: f64, step: f64) -> f64 {
    let rest = value.rem_euclid(step);
    rest.min(step - rest)
}

/// The turn less the base turn of the piece, -pi..pi.
fn turn_from_upright(request: &LayRequest, one: &Placed) -> f64 {
    let base = match request.pieces[one.piece].orientation {
        Orientation::Upright => -0.5 * PI,
        Orientation::Turned => 0.0,
    };
    let turn = (one.angle - base).rem_euclid(2.0 * PI);
    if turn > PI { turn - 2.0 * PI } else { turn }
}

fn angle_is_allowed(request: &LayRequest, one: &Placed) -> bool {
    let turn = turn_from_upright(request, one);
    let is_near = |to: f64| {
        let off = (turn - to).rem_euclid(2.0 * PI);
        off.min(2.0 * PI - off) <= request.cloth.tilt + ANGLE_TOLERANCE
    };
    let both_ways = request.cloth.direction != Direction::OneWay;
    let crosswise = request.pieces[one.piece].may_lie_crosswise;
    is_near(0.0)
        || (both_ways && is_near(PI))
        || (crosswise && is_near(0.5 * PI))
        || (crosswise && both_ways && is_near(-0.5 * PI))
}

/// With one direction for each garment, all its pieces point the same way.
fn directions_of_garments(request: &LayRequest, known: &[&Placed], all: &mut Vec<LayFault>) {
    if request.cloth.direction != Direction::PerGarment {
        return;
    }
    for garment in 0..request.garments.len() {
        let mut first: Option<bool> = None;
        for one in known
            .iter()
            .filter(|p| request.pieces[p.piece].garment == garment)
        {
            let turn = turn_from_upright(request, one);
            // The turned ways are half a turn and, crosswise, three quarters.
            let is_turned = turn.cos() < -0.5 || (turn.cos().abs() <= 0.5 && turn.sin() < 0.0);
            if *first.get_or_insert(is_turned) != is_turned {
                all.push(LayFault::Direction {
                    piece: request.pieces[one.piece].name.clone(),
                });
            }
        }
    }
}

fn counts(request: &LayRequest, known: &[&Placed], all: &mut Vec<LayFault>) {
    for (index, piece) in request.pieces.iter().enumerate() {
        let laid: Vec<&&Placed> = known.iter().filter(|p| p.piece == index).collect();
        // A half on the fold makes one whole; a whole cut through two layers makes two, unless only one was asked for.
        let there: u32 = laid
            .iter()
            .map(|p| {
                if p.layers == 2 && !p.is_half && piece.comes_in_twos() {
                    2
                } else {
                    1
                }
            })
            .sum();
        let (left, right) = laid.iter().fold((0_u32, 0_u32), |(l, r), p| {
            if p.layers == 2 && !p.is_half {
                (l + 1, r + 1)
            } else if p.is_reflected {
                (l, r + 1)
            } else {
                (l + 1, r)
            }
        });
        let is_unpaired = piece.is_pair
            && !piece.is_own_mirror()
            && !piece.either_face
            && left.abs_diff(right) > piece.count % 2;
        let is_over = there < piece.count
            || there > piece.count + u32::from(piece.count % 2 == 1 && piece.is_own_mirror());
        if is_over || is_unpaired {
            all.push(LayFault::Count {
                piece: piece.name.clone(),
                wanted: piece.count,
                there: if is_unpaired { left.min(right) } else { there },
            });
        }
    }
    if let Some(repeat) = request.cloth.repeat_mm.1 {
        phases_across(request, known, repeat, all);
    }
}

fn phases_across(request: &LayRequest, known: &[&Placed], repeat: f64, all: &mut Vec<LayFault>) {
    let mut first: Option<f64> = None;
    for one in known {
        let piece = &request.pieces[one.piece];
        let Some(point) = piece.match_point else {
            continue;
        };
        let at = (one.table_from_piece() * point).y;
        let start = *first.get_or_insert(at);
        let by_mm = off_grid(at - start, repeat);
        if by_mm > GAP_TOLERANCE_MM {
            all.push(LayFault::Phase {
                piece: piece.name.clone(),
                by_mm,
            });
        }
    }
}
