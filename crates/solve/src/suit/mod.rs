//! A drafted suit as a mesh: its left half, sewn; the whole of it where left and right differ.
//!
//! Pieces are drafted as halves on the fold x = 0, and bodies alike left and right keep their suits so: half the mesh is solved, with the
//! fold held in the middle plane. Seams are vertices shared by both pieces, darts alike; a lining cut from the same piece
//! is a second layer on the shell's vertices; elastic on an open edge is bars, each shorter at rest by its ratio.
//!
//! **Shapes and units.** mm; flat frame of the draft (fold x = 0, waist y = 0).
//! **Limits.** Front and back with their straps, darts, panels and crotch, legs with a gusset, sleeves, and linings under them. Skirts and
//! cups are left out and said so ([`SuitMesh::left_out`]); anything else is refused with the piece that isn't meshed.

mod inside;
mod limb_parts;
mod open;
mod part;
mod under;
mod weld;
mod whole;

use cloth::Law;
use draft::{Draft, OpenKind, Piece};
use thiserror::Error;

use self::inside::Inside;
use self::limb_parts::{HEM_HELD, add_zip, limb_part};
use self::open::{open_inside, open_lines, shoulder};
use self::part::{Meshed, parts};
use self::under::{Under, is_lined};
use self::weld::Weld;
use crate::error::MeshError;
use crate::mesh::Mesh;
use crate::seam_lines::{SeamLine, seam_lines};
use crate::seams::{self, EdgeAt, Stations};
use crate::triangulate;

pub(crate) use self::limb_parts::gusset_side;
pub(crate) use self::part::Part;

/// Finest and coarsest mesh, mm: finer takes minutes, coarser has no strap.
pub const MESH_RANGE_MM: (f64, f64) = (3.0, 25.0);

/// Why a suit was not meshed.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum Unmeshed {
    /// A piece the mesher can't sew on yet.
    #[error("the {0} is not put on the form yet: only suits of a front and a back are")]
    Piece(String),
    /// No front, or no back.
    #[error("this style has no {0} that lies on the body by itself")]
    Missing(&'static str),
    /// Legs or sleeves that are not alike left and right.
    #[error("this suit is not alike left and right, and with legs or sleeves only halves are put on the form yet")]
    Uneven,
    /// An outline that could not be filled.
    #[error("the {0}'s outline could not be filled with triangles of {1} mm: try another size")]
    Outline(String, f64),
    /// A mesh size out of range.
    #[error("mesh size is {0} mm: give {low} to {high}", low = MESH_RANGE_MM.0, high = MESH_RANGE_MM.1)]
    Size(f64),
    /// The mesh itself.
    #[error("{0}")]
    Mesh(#[from] MeshError),
}

/// The laws of a suit's cloths, as they lie on the pieces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SuitLaws {
    /// Shell.
    pub shell: Law,
    /// Lining, if pieces are cut from it and it should pull.
    pub lining: Option<Law>,
}

/// An open edge of a piece, for choosing its elastic.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpenPlace<'a> {
    /// Which open edge.
    pub kind: OpenKind,
    /// Key of the piece it is on.
    pub piece: &'a str,
    /// Share of the way along the piece's edge.
    pub share: f64,
}

/// Elastic on a stretch of an edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Elastic {
    /// Its force at 100 % stretch, N.
    pub stiffness_n: f64,
    /// Its length at rest over the edge's.
    pub ratio: f64,
}

/// One open edge of one piece, as a line of vertices.
#[derive(Clone, Debug, PartialEq)]
pub struct OpenLine {
    /// Which.
    pub kind: OpenKind,
    /// Key of the piece.
    pub piece: String,
    /// Its vertices, in order.
    pub vertices: Vec<usize>,
    /// Length at rest, mm.
    pub flat_mm: f64,
    /// Its bars among the mesh's, if it has elastic.
    pub bars: std::ops::Range<usize>,
}

/// A point of a piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct OnPiece {
    pub(crate) piece: usize,
    pub(crate) flat: [f64; 2],
}

/// The left half of a sewn suit, or the whole of one that is not alike left and right.
#[derive(Clone, Debug, PartialEq)]
pub struct SuitMesh {
    /// The mesh.
    pub mesh: Mesh,
    /// Its open edges.
    pub open_lines: Vec<OpenLine>,
    /// Its sewn lines, in the draft's order of seams.
    pub seam_lines: Vec<SeamLine>,
    /// Vertices of the shoulder seam, from the neck outwards: the rail that keeps straps in place.
    pub shoulder: Vec<usize>,
    /// The same of the wearer's right, for a whole suit.
    pub shoulder_right: Vec<usize>,
    /// Whether both sides are meshed; else the left half, with the fold held in the middle.
    pub is_whole: bool,
    /// Keys of the pieces that are meshed.
    pub pieces: Vec<String>,
    /// What was left out, in words.
    pub left_out: Vec<String>,
    /// The piece of each triangle.
    pub triangle_piece: Vec<usize>,
    /// What each of the pieces is.
    pub(crate) parts: Vec<Part>,
    /// The pieces themselves, as they were meshed.
    pub(crate) drawn: Vec<Piece>,
    /// Where each vertex lies on its pieces.
    pub(crate) on: Vec<Vec<OnPiece>>,
    /// Edge length asked for.
    pub(crate) edge_mm: f64,
}

impl SuitMesh {
    /// Whether it has sleeves: then nothing slides off the shoulder.
    pub fn has_sleeves(&self) -> bool {
        self.parts.contains(&Part::Sleeve)
    }

    /// Whether it has legs.
    pub fn has_legs(&self) -> bool {
        self.parts.iter().any(|p| matches!(p, Part::Leg { .. }))
    }

    /// Whether a triangle of the mesh belongs to a sleeve.
    pub(crate) fn is_sleeve(&self, triangle: usize) -> bool {
        let part = self.triangle_piece.get(triangle).and_then(|p| self.parts.get(*p));
        part == Some(&Part::Sleeve)
    }

    /// Vertices of the seam between sleeve and body.
    pub(crate) fn armhole_seam(&self) -> Vec<usize> {
        let is = |o: &OnPiece, sleeve: bool| (self.parts.get(o.piece) == Some(&Part::Sleeve)) == sleeve;
        let both = |on: &Vec<OnPiece>| on.iter().any(|o| is(o, true)) && on.iter().any(|o| is(o, false));
        (0..self.on.len())
            .filter(|v| self.on.get(*v).is_some_and(both))
            .collect()
    }

    /// The hem of a top with sleeves: on the hips it would creep up to the waist without friction, so it is held at its height.
    pub(crate) fn hem_rail(&self) -> Vec<usize> {
        if !self.has_sleeves() {
            return Vec::new();
        }
        let hems = self.open_lines.iter().filter(|l| l.kind == OpenKind::Hem);
        let mut all: Vec<usize> = hems.flat_map(|l| l.vertices.iter().copied()).collect();
        all.sort_unstable();
        all.dedup();
        all
    }

    /// The vertices straps are held by, on both sides; none under a sleeve, which keeps the shoulder where it is.
    pub(crate) fn rail(&self) -> Vec<usize> {
        if self.has_sleeves() {
            Vec::new()
        } else {
            [&self.shoulder[..], &self.shoulder_right[..]].concat()
        }
    }

    /// Where a vertex lies on a piece, flat; `None` if it isn't of that piece.
    pub fn flat(&self, vertex: usize, piece: usize) -> Option<[f64; 2]> {
        let on = self.on.get(vertex)?.iter().find(|o| o.piece == piece)?;
        Some(on.flat)
    }
}

/// Meshes a suit with triangles of about `edge_mm`: its left half, or the whole where it is not alike left and right.
///
/// `elastic` says what lies on an open edge at a place, or nothing.
///
/// # Errors
/// [`Unmeshed`] with the reason.
pub fn mesh_suit(
    draft: &Draft,
    laws: &SuitLaws,
    elastic: &dyn Fn(OpenPlace<'_>) -> Option<Elastic>,
    edge_mm: f64,
) -> Result<SuitMesh, Unmeshed> {
    if whole::is_uneven(draft) {
        if draft.pieces.iter().any(|p| limb_part(p).is_some()) {
            return Err(Unmeshed::Uneven);
        }
        return mesh_whole_suit(draft, laws, elastic, edge_mm);
    }
    sewn(draft, false, laws, elastic, edge_mm)
}

/// As [`mesh_suit`], both sides in any case. For a suit that is alike left and right that is twice the work for the same answer.
///
/// # Errors
/// [`Unmeshed`] with the reason.
pub fn mesh_whole_suit(
    draft: &Draft,
    laws: &SuitLaws,
    elastic: &dyn Fn(OpenPlace<'_>) -> Option<Elastic>,
    edge_mm: f64,
) -> Result<SuitMesh, Unmeshed> {
    sewn(&whole::unfolded(draft), true, laws, elastic, edge_mm)
}

fn sewn(
    draft: &Draft,
    is_whole: bool,
    laws: &SuitLaws,
    elastic: &dyn Fn(OpenPlace<'_>) -> Option<Elastic>,
    edge_mm: f64,
) -> Result<SuitMesh, Unmeshed> {
    if !(edge_mm >= MESH_RANGE_MM.0 && edge_mm <= MESH_RANGE_MM.1) {
        return Err(Unmeshed::Size(edge_mm));
    }
    let (used, mut left_out) = parts(draft)?;
    let numbers: Vec<usize> = used.iter().map(|m| m.number).collect();
    // Linings count only if their cloth pulls.
    let unders: Vec<Vec<Under>> = used
        .iter()
        .map(|m| {
            if laws.lining.is_some() {
                under::under(draft, *m)
            } else {
                Vec::new()
            }
        })
        .collect();
    let lines: Vec<Vec<Inside>> = used
        .iter()
        .zip(&unders)
        .map(|(m, unders)| {
            let piece = &draft.pieces[m.number];
            let free = unders.iter().flat_map(|u| u.free.iter().map(|f| (u.lining, f)));
            free.filter_map(|(lining, f)| {
                let mut line = Inside::new(piece, m.number, f.curve.clone(), edge_mm)?;
                line.open = f.kind.map(|kind| (kind, lining));
                Some(line)
            })
            .collect()
        })
        .collect();
    let mut stations = Stations::new();
    for (at, share) in lines.iter().flatten().flat_map(Inside::stations) {
        stations.entry(at).or_default().push(share);
    }
    let division = seams::divide(draft, &numbers, &stations, is_whole, edge_mm);

    // Every piece filled by itself, its points numbered on; then sewn points become one.
    let mut filled = Vec::new();
    let mut firsts = Vec::new();
    let mut offset = 0;
    for (&Meshed { number, .. }, lines) in used.iter().zip(&lines) {
        let piece = &draft.pieces[number];
        let (outline, edge_firsts) = seams::outline(piece, number, &division);
        let inside: Vec<_> = lines.iter().map(|l| l.points(piece, &division)).collect();
        let fill = triangulate::fill(&outline, &inside, edge_mm)
            .ok_or_else(|| Unmeshed::Outline(piece.name.to_lowercase(), edge_mm))?;
        firsts.push((number, offset, outline.len(), edge_firsts));
        offset += fill.points.len();
        filled.push(fill);
    }
    // The vertex of an edge's `i`-th point.
    let point = |at: EdgeAt, i: usize| -> usize {
        firsts
            .iter()
            .find(|(number, ..)| *number == at.0)
            .map_or(0, |(_, offset, count, edges)| offset + (edges[at.1] + i) % count)
    };
    let mut weld = Weld::new(offset);
    for sewn in &division.sewn {
        for (a, b) in &sewn.pairs {
            let a = point(sewn.first, division.number(sewn.first, *a));
            let b = point(sewn.second, division.number(sewn.second, *b));
            weld.join(a, b);
        }
    }
    let (number_of, count) = weld.numbers();

    let mut mesh = Mesh::new(count);
    let shell = mesh.add_law(&laws.shell);
    let lining = laws.lining.map(|law| mesh.add_law(&law));
    let mut on: Vec<Vec<OnPiece>> = vec![Vec::new(); count];
    let mut triangle_piece = Vec::new();
    for (order, (fill, (number, offset, ..))) in filled.iter().zip(&firsts).enumerate() {
        for (i, flat) in fill.points.iter().enumerate() {
            on[number_of[offset + i]].push(OnPiece {
                piece: order,
                flat: *flat,
            });
        }
        let is_lined = is_lined(draft, *number);
        let layers = [Some((shell, 0)), lining.map(|l| (l, 1))];
        for (law, layer) in layers.into_iter().flatten() {
            for t in &fill.triangles {
                let middle = [0, 1].map(|i| t.iter().map(|v| fill.points[*v][i]).sum::<f64>() / 3.0);
                if layer == 1 && !is_lined && !unders[order].iter().any(|u| u.holds(middle)) {
                    continue;
                }
                let corners = t.map(|v| number_of[offset + v]);
                if corners[0] == corners[1] || corners[1] == corners[2] || corners[0] == corners[2] {
                    // At a dart's point both legs meet: a triangle between them has closed.
                    continue;
                }
                let rest = t.map(|v| {
                    let [x, y] = fill.points[v];
                    [y, x]
                });
                // Backs are drawn as fronts are, from the fold to the right; on the body they face the other way.
                if used[order].part.is_behind() {
                    let turned = [0, 2, 1].map(|i| rest[i]).map(|[y, x]| [y, -x]);
                    mesh.add_triangle([0, 2, 1].map(|i| corners[i]), turned, law, layer)?;
                } else {
                    mesh.add_triangle(corners, rest, law, layer)?;
                }
                triangle_piece.push(order);
            }
        }
    }

    for at in &division.on_middle {
        let shares = division.shares.get(at).map_or(0, Vec::len);
        for i in 0..shares {
            mesh.hold(number_of[point(*at, i)], [true, false, false]);
        }
    }
    let vertex = |at: EdgeAt, i: usize| number_of[point(at, i)];
    let mut open_lines = open_lines(draft, &used, &division, &vertex, elastic, &laws.shell, &mut mesh)?;
    for ((fill, lines), (_, offset, ..)) in filled.iter().zip(&lines).zip(&firsts) {
        for (line, points) in lines.iter().zip(&fill.lines) {
            if let (Some((kind, lining)), [_, _, ..]) = (line.open, &points[..]) {
                let key = &draft.pieces[lining].key;
                let vertices: Vec<usize> = points.iter().map(|p| number_of[offset + p]).collect();
                open_lines.push(open_inside(
                    (kind, key),
                    vertices,
                    line.length(),
                    elastic,
                    &mut mesh,
                )?);
            }
        }
    }
    add_zip(draft, &used, &division, &vertex, &mut mesh)?;
    let [shoulder, shoulder_right] = shoulder(draft, &used, &division, &vertex);
    if used.iter().any(|m| m.part == Part::Sleeve) && open_lines.iter().any(|l| l.kind == OpenKind::Hem) {
        left_out.push(HEM_HELD.into());
    }
    Ok(SuitMesh {
        mesh,
        open_lines,
        seam_lines: seam_lines(draft, &division, &vertex),
        shoulder,
        shoulder_right,
        is_whole,
        pieces: used.iter().map(|m| draft.pieces[m.number].key.clone()).collect(),
        parts: used.iter().map(|m| m.part).collect(),
        drawn: used.iter().map(|m| draft.pieces[m.number].clone()).collect(),
        left_out,
        triangle_piece,
        on,
        edge_mm,
    })
}
