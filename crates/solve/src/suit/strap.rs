//! Straps and ties that are no piece of cloth in the mesh: lines of bars between the pieces.
//!
//! A strap pulls along its length alone, as its cloth's strip does at small stretch; it touches the body over its width. A strap wider
//! than a bar is worth becomes several lines side by side. A tie runs through its knot: how long it is tied is not the draft's but the
//! wearer's, and is taken from where it is placed (see [`SuitMesh::tied`](super::SuitMesh::tied)).
//!
//! **Shapes and units.** mm, N.
//! **Source.** Narrow straps as bars 5 mm long: own trials on fitted forms. Strip stiffness: the law's own k lengthwise by the width of cloth.
//! **Limits.** Lines side by side don't hold one another.

use cloth::Law;
use draft::Draft;

use super::Unmeshed;
use crate::mesh::{Bar, Mesh};
use crate::seams::{Division, EdgeAt};

/// Length of a bar, mm.
const BAR_MM: f64 = 5.0;
/// A ring gives so little that it may be taken as unyielding: force at double length, N (own).
const RING_N: f64 = 400.0;

/// An edge of a piece, by their names.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct EdgeOf {
    pub(crate) piece: String,
    pub(crate) edge: &'static str,
}

/// Where a strap's line ends.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum End {
    /// At the point of an edge nearest to a flat place.
    At(EdgeOf, [f64; 2]),
    /// At every point of an edge, drawn together.
    Gathered(EdgeOf),
    /// In the middle of the body, where its mirror image begins.
    Middle,
}

/// Which way it takes on the body.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Way {
    /// The shortest.
    Straight,
    /// Level round the body to the middle.
    Round { is_front: bool },
    /// Beside the neck to the nape.
    Nape,
    /// From the shoulder over the back to the other side: where it meets the middle its mirror image goes on.
    Across,
}

/// How long it is at rest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Rest {
    /// As it was cut, mm.
    Cut(f64),
    /// As it is tied: about so long, mm, for the number of its bars, and so much longer than at rest.
    Tied { about_mm: f64, stretch: f64 },
    /// As long as a ring is wide, mm; it hardly gives.
    Ring(f64),
    /// Knotted so that it is so long as worn, mm, whatever pulls at it.
    Knotted(f64),
}

/// A strap to be meshed.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct StrapPlan {
    /// What it is, in words.
    pub(crate) name: &'static str,
    /// Edges it runs in, one after the other; none for a strap that lies on the body by itself.
    pub(crate) over: Vec<EdgeOf>,
    /// Where it runs from and to.
    pub(crate) ends: [End; 2],
    pub(crate) way: Way,
    /// Share of its length at which it crosses the middle of the body, as it is cut.
    pub(crate) crosses: Option<f64>,
    pub(crate) rest: Rest,
    /// Width that touches the body, mm.
    pub(crate) width_mm: f64,
    /// Width of cloth that pulls, all its layers, mm.
    pub(crate) cloth_mm: f64,
}

/// How long a tie is tied.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tied {
    /// So much longer than at rest, where it is placed: `0.1` is 10 %.
    Longer(f64),
    /// So that it is so long as worn, mm.
    Worn(f64),
}

/// A strap, tie or ring in the mesh.
#[derive(Clone, Debug, PartialEq)]
pub struct StrapLine {
    /// What it is, in words.
    pub name: &'static str,
    /// Its vertices, in order.
    pub vertices: Vec<usize>,
    /// Its bars among the mesh's; those that draw an edge together come last.
    pub bars: std::ops::Range<usize>,
    /// How many of the bars lie along it.
    pub along: usize,
    /// How it is tied, if it is: then its length is the wearer's.
    pub tied: Option<Tied>,
    /// Width that touches the body, mm.
    pub width_mm: f64,
    /// Vertices of the edge it draws together at each end.
    pub(crate) drawn: [Vec<usize>; 2],
    /// Which of its vertices lies in the middle of the body, where it crosses its mirror image.
    pub(crate) crosses: Option<usize>,
    pub(crate) way: Way,
}

impl StrapPlan {
    fn length(&self) -> f64 {
        match self.rest {
            Rest::Cut(mm) | Rest::Ring(mm) | Rest::Knotted(mm) => mm,
            Rest::Tied { about_mm, .. } => about_mm,
        }
    }

    fn parts(&self) -> usize {
        match self.rest {
            Rest::Ring(_) => 1,
            _ => (self.length() / BAR_MM).round().clamp(2.0, 400.0) as usize,
        }
    }

    /// How many vertices it needs of its own.
    pub(super) fn own_vertices(&self) -> usize {
        if !self.over.is_empty() {
            return 0;
        }
        let ends = self.ends.iter().filter(|e| !matches!(e, End::At(..))).count();
        self.parts() - 1 + ends
    }
}

/// Adds straps to a mesh; their own vertices are numbered from `first` on.
pub(super) fn add(
    plans: &[StrapPlan],
    draft: &Draft,
    (division, vertex): (&Division, &dyn Fn(EdgeAt, usize) -> usize),
    law: &Law,
    first: usize,
    mesh: &mut Mesh,
) -> Result<Vec<StrapLine>, Unmeshed> {
    let mut next = first;
    let mut lines = Vec::new();
    for plan in plans {
        let points = |of: &EdgeOf| edge_points(draft, division, of, vertex);
        let nearest = |of: &EdgeOf, to: [f64; 2]| -> Option<usize> {
            let off = |p: &[f64; 2]| (p[0] - to[0]).hypot(p[1] - to[1]);
            let all = points(of);
            let found = all.iter().min_by(|a, b| off(&a.1).total_cmp(&off(&b.1)));
            found.map(|p| p.0)
        };
        let missing = || Unmeshed::Piece(plan.name.into());
        let mut ends = [0; 2];
        for (v, end) in ends.iter_mut().zip(&plan.ends) {
            *v = match end {
                End::At(of, to) => nearest(of, *to).ok_or_else(missing)?,
                End::Gathered(_) | End::Middle => {
                    next += 1;
                    next - 1
                }
            };
            if *end == End::Middle {
                mesh.hold(*v, [true, false, false]);
            }
        }
        let [from, to] = ends;
        let mut vertices = vec![from];
        if plan.over.is_empty() {
            for _ in 1..plan.parts() {
                vertices.push(next);
                next += 1;
            }
            vertices.push(to);
        } else {
            let all = plan.over.iter().flat_map(points);
            vertices = all.map(|(v, _)| v).collect();
            vertices.dedup();
        }
        let parts = vertices.len() - 1;
        let crosses = plan
            .crosses
            .map(|share| ((share * parts as f64).round() as usize).clamp(1, parts.max(2) - 1));
        if let Some(v) = crosses.and_then(|i| vertices.get(i)) {
            mesh.hold(*v, [true, false, false]);
        }
        let stiffness_n = match plan.rest {
            Rest::Ring(_) | Rest::Knotted(_) => RING_N,
            // N/m over mm.
            _ => law.k_lengthwise() * plan.cloth_mm * 1e-3,
        };
        let begin = mesh.bars().len();
        for w in vertices.windows(2) {
            mesh.add_bar(Bar {
                ends: [w[0], w[1]],
                rest_mm: (plan.length() / parts as f64).max(1.0),
                stiffness_n,
                width_mm: plan.width_mm,
            })?;
        }
        let mut drawn = [Vec::new(), Vec::new()];
        for ((end, knot), drawn) in plan.ends.iter().zip([from, to]).zip(&mut drawn) {
            if let End::Gathered(of) = end {
                let edge = points(of);
                for (v, _) in &edge {
                    mesh.add_bar(Bar {
                        ends: [*v, knot],
                        rest_mm: BAR_MM,
                        stiffness_n: stiffness_n / edge.len() as f64,
                        width_mm: 0.0,
                    })?;
                    drawn.push(*v);
                }
            }
        }
        lines.push(StrapLine {
            name: plan.name,
            vertices,
            bars: begin..mesh.bars().len(),
            along: parts,
            tied: match plan.rest {
                Rest::Tied { stretch, .. } => Some(Tied::Longer(stretch)),
                Rest::Knotted(mm) => Some(Tied::Worn(mm)),
                Rest::Cut(_) | Rest::Ring(_) => None,
            },
            width_mm: plan.width_mm,
            drawn,
            crosses,
            way: plan.way,
        });
    }
    Ok(lines)
}

/// The vertices of an edge with their flat places.
pub(super) fn edge_points(
    draft: &Draft,
    division: &Division,
    of: &EdgeOf,
    vertex: &dyn Fn(EdgeAt, usize) -> usize,
) -> Vec<(usize, [f64; 2])> {
    let Some(number) = draft.pieces.iter().position(|p| p.key == of.piece) else {
        return Vec::new();
    };
    let piece = &draft.pieces[number];
    let Some(e) = piece.edges.iter().position(|e| e.name == of.edge) else {
        return Vec::new();
    };
    let curve = &piece.edges[e].curve;
    let shares = division.shares.get(&(number, e)).map_or(&[][..], Vec::as_slice);
    let place = |s: f64| {
        let (p, _) = curve.at_length(s * curve.length());
        [p.x, p.y]
    };
    (0..shares.len())
        .map(|i| (vertex((number, e), i), place(shares[i])))
        .collect()
}
