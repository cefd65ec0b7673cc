//! Where the points of a suit's edges go, so that both sides of every seam have theirs at the same shares of its length.
//!
//! A seam may join several edges on one side (a side seam above and below a dart) to one on the other. Wherever an edge ends on one
//! side the other gets a point too, and where a line inside a piece (the end of a lining, a skirt's join) meets an edge; between, both
//! are divided into equal parts. Which end meets which is read from where
//! the edges lie in the piece frame, which all pieces of a suit share.
//!
//! **Shapes and units.** mm, flat.

use std::collections::{BTreeMap, BTreeSet};

use draft::geometry::Curve;
use draft::{Draft, EdgeUse, Piece};

use crate::suit::gusset_side;

/// An edge this near the middle of the body lies on neither side by itself, mm.
const ON_MIDDLE_MM: f64 = 1.0;
/// Shares nearer than this are one point.
const SAME_SHARE: f64 = 1e-6;

/// An edge of a piece: number of the piece, number of the edge.
pub(crate) type EdgeAt = (usize, usize);

/// Shares of its length at which an edge has points, 0 and 1 included, rising.
pub(crate) type Shares = Vec<f64>;

/// Two edges with the shares at which they are sewn: point i of the first to point i of the second.
#[derive(Clone, Debug)]
pub(crate) struct Sewn {
    pub(crate) first: EdgeAt,
    pub(crate) second: EdgeAt,
    /// Shares of the first edge's length, and of the second's it is sewn to there.
    pub(crate) pairs: Vec<(f64, f64)>,
}

/// Points of every edge, and what is sewn to what.
pub(crate) struct Division {
    pub(crate) shares: BTreeMap<EdgeAt, Shares>,
    pub(crate) sewn: Vec<Sewn>,
    /// Edges that lie on the middle of the body: folds, and seams of a piece to its own mirror image.
    pub(crate) on_middle: Vec<EdgeAt>,
}

/// One side of a seam: its edges in the order of travel, with whether each is run backwards.
struct Side {
    edges: Vec<(EdgeAt, bool)>,
    lengths: Vec<f64>,
}

impl Side {
    fn total(&self) -> f64 {
        self.lengths.iter().sum()
    }

    /// Shares of the whole at which edges end, ends of the seam left out.
    fn joints(&self) -> Vec<f64> {
        let total = self.total();
        let mut sum = 0.0;
        let mut joints = Vec::new();
        for length in &self.lengths[..self.lengths.len() - 1] {
            sum += length;
            joints.push(sum / total);
        }
        joints
    }

    /// Shares of the whole at which lines inside the pieces end.
    fn stations(&self, stations: &Stations) -> Vec<f64> {
        let total = self.total();
        let mut before = 0.0;
        let mut all = Vec::new();
        for ((at, backwards), length) in self.edges.iter().zip(&self.lengths) {
            for s in stations.get(at).into_iter().flatten() {
                let own = if *backwards { 1.0 - s } else { *s };
                all.push((before + own * length) / total);
            }
            before += length;
        }
        all
    }

    /// The edge and the share of its own length, as drawn, at a share of the whole from its `number`-th edge.
    fn own(&self, number: usize, whole: f64) -> f64 {
        let before: f64 = self.lengths[..number].iter().sum();
        let own = (whole * self.total() - before) / self.lengths[number];
        let own = own.clamp(0.0, 1.0);
        if self.edges[number].1 { 1.0 - own } else { own }
    }
}

/// Which side of the body a seam is looked for on: of a half suit there is one, of a whole one two.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum BodySide {
    Only,
    Left,
    Right,
}

impl BodySide {
    /// Whether an edge lies there: by its middle, or, on the middle of the body, by its piece.
    fn has(self, draft: &Draft, at: EdgeAt) -> bool {
        let middle = |curve: &Curve| curve.at_length(curve.length() / 2.0).0.x;
        let mut x = middle(curve(draft, at));
        if x.abs() < ON_MIDDLE_MM {
            let edges = &draft.pieces[at.0].edges;
            x = edges.iter().map(|e| middle(&e.curve)).sum();
        }
        match self {
            BodySide::Only => true,
            BodySide::Left => x >= 0.0,
            BodySide::Right => x < 0.0,
        }
    }
}

/// What else edges must have points for: shares of single edges' lengths, where a line inside a piece meets them.
pub(crate) type Stations = BTreeMap<EdgeAt, Vec<f64>>;

/// Divides the edges of the pieces named by `used`, with points at the stations. A whole suit has every seam on both sides.
pub(crate) fn divide(
    draft: &Draft,
    used: &[usize],
    stations: &Stations,
    is_whole: bool,
    edge_mm: f64,
) -> Division {
    let mut division = Division {
        shares: BTreeMap::new(),
        sewn: Vec::new(),
        on_middle: Vec::new(),
    };
    let find = |key: &str, name: &str, on: BodySide| -> Option<EdgeAt> {
        let pieces = used.iter().copied().filter(|p| draft.pieces[*p].key == key);
        pieces
            .flat_map(|p| (0..draft.pieces[p].edges.len()).map(move |e| (p, e)))
            .find(|at| {
                bare_name(draft.pieces[at.0].edges[at.1].name) == bare_name(name) && on.has(draft, *at)
            })
    };
    let sides: &[BodySide] = if is_whole {
        &[BodySide::Left, BodySide::Right]
    } else {
        &[BodySide::Only]
    };
    let mut done = BTreeSet::new();
    let gusset = gusset_side(draft);
    for walk in &draft.seams {
        for on in sides {
            let side = |(key, names): &(String, Vec<&'static str>), on: BodySide| -> Option<Vec<EdgeAt>> {
                names.iter().map(|name| find(key, name, on)).collect()
            };
            // A piece sewn to its own mirror image is sewn to the other side's.
            let facing_side = match (walk.is_with_itself(), on) {
                (true, BodySide::Left) => BodySide::Right,
                (true, BodySide::Right) => BodySide::Left,
                _ => *on,
            };
            let (Some(first), Some(second)) = (side(&walk.first, *on), side(&walk.second, facing_side))
            else {
                continue;
            };
            if first == second {
                division.on_middle.extend(first);
                continue;
            }
            let pair = (
                first.clone().min(second.clone()),
                first.clone().max(second.clone()),
            );
            if !done.insert(pair) {
                continue;
            }
            let part = match (gusset, walk.name) {
                (Some(side), "inseam") => Some((side, f64::INFINITY)),
                (Some(side), "gusset, front" | "gusset, back") => Some((0.0, side)),
                (None, "gusset, front" | "gusset, back") => Some((0.0, f64::INFINITY)),
                _ => None,
            };
            match (part, &first[..], &second[..]) {
                (Some(part), [first], [second]) => {
                    sew_part(draft, &mut division, (*first, *second), part, stations, edge_mm);
                }
                _ => {
                    let (first, second) = facing(draft, chain(draft, first), chain(draft, second));
                    sew(&mut division, &first, &second, stations, edge_mm);
                }
            }
        }
    }
    for piece in used.iter().copied() {
        sew_darts(draft, &mut division, piece, edge_mm);
        for (number, edge) in draft.pieces[piece].edges.iter().enumerate() {
            let at = (piece, number);
            if edge.role == EdgeUse::Fold {
                division.on_middle.push(at);
            }
            let own = stations.get(&at).map_or(&[][..], Vec::as_slice);
            division
                .shares
                .entry(at)
                .or_insert_with(|| even_between(edge.curve.length(), own, edge_mm));
        }
    }
    division.on_middle.sort_unstable();
    division.on_middle.dedup();
    division
}

/// The name of an edge without the side: of a piece that is drafted whole the edges at x < 0 are `leg_left`, `crotch_left`, and a seam that is
/// alike on both sides is walked once, by the plain names.
pub(crate) fn bare_name(name: &str) -> &str {
    name.strip_suffix("_left").unwrap_or(name)
}

fn curve(draft: &Draft, at: EdgeAt) -> &Curve {
    &draft.pieces[at.0].edges[at.1].curve
}

/// Even parts between an edge's ends and its stations; a station within a third of a part of another gives way.
fn even_between(length: f64, stations: &[f64], edge_mm: f64) -> Shares {
    let near = (edge_mm / 3.0 / length.max(edge_mm)).min(0.25);
    let mut joints = vec![0.0];
    let mut own = stations.to_vec();
    own.sort_by(f64::total_cmp);
    for s in own {
        if joints.last().is_none_or(|last| s > last + near) && s < 1.0 - near {
            joints.push(s);
        }
    }
    joints.push(1.0);
    let mut shares = vec![0.0];
    for w in joints.windows(2) {
        let parts = even((w[1] - w[0]) * length, edge_mm);
        shares.extend(parts.iter().skip(1).map(|t| w[0] + t * (w[1] - w[0])));
    }
    shares
}

fn even(length: f64, edge_mm: f64) -> Shares {
    let parts = (length / edge_mm).round().max(1.0) as usize;
    (0..=parts).map(|i| i as f64 / parts as f64).collect()
}

/// The edges of a side in order, each run so that it goes on where the one before ended (a dart's mouth apart).
fn chain(draft: &Draft, edges: Vec<EdgeAt>) -> Side {
    let gap = |a: &Curve, b: &Curve| (a.end() - b.start()).hypot();
    let backwards = edges.windows(2).next().is_some_and(|w| {
        let (a, b) = (curve(draft, w[0]), curve(draft, w[1]));
        gap(b, a) < gap(a, b)
    });
    let lengths = edges.iter().map(|e| curve(draft, *e).length()).collect();
    Side {
        edges: edges.into_iter().map(|e| (e, backwards)).collect(),
        lengths,
    }
}

/// The second side turned so that both run the same way: towards the same corner of the piece frame.
fn facing(draft: &Draft, first: Side, second: Side) -> (Side, Side) {
    let along = |side: &Side| {
        let end = |(at, back): (EdgeAt, bool), start: bool| {
            let c = curve(draft, at);
            if start == back { c.end() } else { c.start() }
        };
        match (side.edges.first(), side.edges.last()) {
            (Some(a), Some(b)) => end(*b, false) - end(*a, true),
            _ => kurbo::Vec2::ZERO,
        }
    };
    if along(&first).dot(along(&second)) >= 0.0 {
        return (first, second);
    }
    let mut edges: Vec<(EdgeAt, bool)> = second.edges.iter().map(|(e, back)| (*e, !back)).collect();
    let mut lengths = second.lengths;
    edges.reverse();
    lengths.reverse();
    (first, Side { edges, lengths })
}

/// Puts points on both sides and notes which are sewn.
fn sew(division: &mut Division, first: &Side, second: &Side, stations: &Stations, edge_mm: f64) {
    let mut joints: Vec<f64> = [0.0, 1.0]
        .into_iter()
        .chain(first.joints())
        .chain(second.joints())
        .collect();
    joints.sort_by(f64::total_cmp);
    // Ends closer than a hundredth of the seam are one: the mesh needs no sliver there.
    joints.dedup_by(|b, a| *b - *a < 0.01);
    // Stations fall in where there is room for them.
    let near = edge_mm / 3.0 / first.total().max(edge_mm);
    for s in first
        .stations(stations)
        .into_iter()
        .chain(second.stations(stations))
    {
        if joints.iter().all(|j| (j - s).abs() > near) {
            joints.push(s);
        }
    }
    joints.sort_by(f64::total_cmp);
    let length = first.total().max(second.total());
    let mut shares = vec![0.0];
    for w in joints.windows(2) {
        let parts = even((w[1] - w[0]) * length, edge_mm);
        shares.extend(parts.iter().skip(1).map(|t| w[0] + t * (w[1] - w[0])));
    }
    let pieces = |side: &Side| -> Vec<(usize, f64, f64)> {
        let mut before = 0.0;
        (0..side.edges.len())
            .map(|i| {
                let from = before;
                before += side.lengths[i] / side.total();
                (i, from, before)
            })
            .collect()
    };
    for (i, a, b) in pieces(first) {
        for (j, c, d) in pieces(second) {
            // Numbers within the seam that lie on both edges.
            let on = |from: f64, to: f64, s: f64| s > from - 0.01 && s < to + 0.01;
            let both: Vec<f64> = shares
                .iter()
                .copied()
                .filter(|s| on(a, b, *s) && on(c, d, *s))
                .collect();
            if both.len() < 2 {
                continue;
            }
            let (pa, pb) = (first.edges[i].0, second.edges[j].0);
            let first_shares: Vec<f64> = both.iter().map(|s| first.own(i, *s)).collect();
            let second_shares: Vec<f64> = both.iter().map(|s| second.own(j, *s)).collect();
            put(division, pa, &first_shares);
            put(division, pb, &second_shares);
            division.sewn.push(Sewn {
                first: pa,
                second: pb,
                pairs: first_shares.into_iter().zip(second_shares).collect(),
            });
        }
    }
}

/// Sews the part of an inseam between two lengths from the fork to the same part of the other, or to a gusset's whole side.
///
/// Inseams run from the fork down; a gusset's back side runs on from the fork, its front side up to it.
fn sew_part(
    draft: &Draft,
    division: &mut Division,
    (first, second): (EdgeAt, EdgeAt),
    (from, to): (f64, f64),
    stations: &Stations,
    edge_mm: f64,
) {
    let (a, b) = (curve(draft, first), curve(draft, second));
    let is_gusset = draft.pieces[second.0].key == "gusset";
    let to = to.min(a.length());
    let mut shares = even(to - from, edge_mm);
    // A line inside one of the pieces may end here.
    let on_first = stations.get(&first).into_iter().flatten();
    shares.extend(
        on_first
            .map(|s| (s * a.length() - from) / (to - from))
            .filter(|s| *s > 0.0 && *s < 1.0),
    );
    shares.sort_by(f64::total_cmp);
    shares.dedup_by(|b, a| *b - *a < SAME_SHARE);
    let pairs: Vec<(f64, f64)> = shares
        .iter()
        .map(|s| {
            let own = (from + s * (to - from)) / a.length();
            let other = match (is_gusset, b.start().x < b.end().x) {
                (true, true) => *s,
                (true, false) => 1.0 - s,
                (false, _) => own,
            };
            (own, other)
        })
        .collect();
    put(division, first, &pairs.iter().map(|p| p.0).collect::<Vec<_>>());
    put(division, second, &pairs.iter().map(|p| p.1).collect::<Vec<_>>());
    division.sewn.push(Sewn { first, second, pairs });
}

/// Adds shares to an edge.
fn put(division: &mut Division, at: EdgeAt, shares: &[f64]) {
    let own = division.shares.entry(at).or_default();
    own.extend_from_slice(shares);
    own.sort_by(f64::total_cmp);
    own.dedup_by(|b, a| *b - *a < SAME_SHARE);
}

impl Division {
    /// The number of an edge's point nearest to a share.
    pub(crate) fn number(&self, at: EdgeAt, share: f64) -> usize {
        let shares = self.shares.get(&at).map_or(&[][..], Vec::as_slice);
        let off = |i: &usize| (shares[*i] - share).abs();
        (0..shares.len())
            .min_by(|a, b| off(a).total_cmp(&off(b)))
            .unwrap_or(0)
    }
}

/// The two legs of each dart, from the mouth to the point.
fn sew_darts(draft: &Draft, division: &mut Division, piece: usize, edge_mm: f64) {
    let edges = &draft.pieces[piece].edges;
    for i in 0..edges.len() {
        let j = (i + 1) % edges.len();
        if edges[i].role == EdgeUse::Dart && edges[j].role == EdgeUse::Dart {
            let shares = even(edges[i].curve.length().max(edges[j].curve.length()), edge_mm);
            let back: Vec<f64> = shares.iter().map(|s| 1.0 - s).collect();
            put(division, (piece, i), &shares);
            put(division, (piece, j), &back);
            division.sewn.push(Sewn {
                first: (piece, i),
                second: (piece, j),
                pairs: shares.into_iter().zip(back).collect(),
            });
        }
    }
}

/// The outline of a piece with the number of each edge's first point in it.
pub(crate) fn outline(piece: &Piece, number: usize, division: &Division) -> (Vec<[f64; 2]>, Vec<usize>) {
    let mut points = Vec::new();
    let mut firsts = Vec::new();
    for (e, edge) in piece.edges.iter().enumerate() {
        firsts.push(points.len());
        let length = edge.curve.length();
        let shares = division.shares.get(&(number, e)).map_or(&[][..], Vec::as_slice);
        // The last point is the next edge's first.
        for s in shares.iter().take(shares.len().saturating_sub(1)) {
            let (p, _) = edge.curve.at_length(s * length);
            points.push([p.x, p.y]);
        }
    }
    (points, firsts)
}
