//! A drafted suit as a mesh: its left half, sewn.
//!
//! Pieces are drafted as halves on the fold x = 0, and bodies alike left and right keep their suits so: half the mesh is solved, with the
//! fold held in the middle plane. Seams are vertices shared by both pieces, darts alike; a lining cut from the same piece
//! is a second layer on the shell's vertices; elastic on an open edge is bars, each shorter at rest by its ratio.
//!
//! **Shapes and units.** mm; flat frame of the draft (fold x = 0, waist y = 0).
//! **Limits.** Front and back with their straps, darts and crotch. Skirts, cups and crotch linings are left out and said so
//! ([`SuitMesh::left_out`]); anything else is refused with the piece that isn't meshed.

use cloth::{Law, Layer};
use draft::{Draft, EdgeUse, OpenKind, Piece};
use thiserror::Error;

use crate::error::MeshError;
use crate::mesh::{Bar, Mesh};
use crate::seams::{self, Division, EdgeAt};
use crate::triangulate;

/// Finest and coarsest mesh, mm: finer takes minutes, coarser has no strap.
pub const MESH_RANGE_MM: (f64, f64) = (3.0, 25.0);

/// A lining whose edges lie within this of the shell's is one more layer of it, mm.
const SAME_SHAPE_MM: f64 = 0.5;

/// Why a suit was not meshed.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum Unmeshed {
    /// A piece the mesher can't sew on yet.
    #[error("the {0} is not put on the form yet: only suits of a front and a back are")]
    Piece(String),
    /// No front, or no back.
    #[error("this style has no {0} that lies on the body by itself")]
    Missing(&'static str),
    /// A body that is not alike left and right.
    #[error("this suit is not alike left and right, and only halves are put on the form yet")]
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

/// The left half of a sewn suit.
#[derive(Clone, Debug, PartialEq)]
pub struct SuitMesh {
    /// The mesh.
    pub mesh: Mesh,
    /// Its open edges.
    pub open_lines: Vec<OpenLine>,
    /// Vertices of the shoulder seam, from the neck outwards: the rail that keeps straps in place.
    pub shoulder: Vec<usize>,
    /// Keys of the pieces that are meshed.
    pub pieces: Vec<String>,
    /// What was left out, in words.
    pub left_out: Vec<String>,
    /// The piece of each triangle.
    pub triangle_piece: Vec<usize>,
    /// Where each vertex lies on its pieces.
    pub(crate) on: Vec<Vec<OnPiece>>,
    /// Edge length asked for.
    pub(crate) edge_mm: f64,
}

impl SuitMesh {
    /// Where a vertex lies on a piece, flat; `None` if it isn't of that piece.
    pub fn flat(&self, vertex: usize, piece: usize) -> Option<[f64; 2]> {
        let on = self.on.get(vertex)?.iter().find(|o| o.piece == piece)?;
        Some(on.flat)
    }
}

/// Meshes a suit with triangles of about `edge_mm`.
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
    if !(edge_mm >= MESH_RANGE_MM.0 && edge_mm <= MESH_RANGE_MM.1) {
        return Err(Unmeshed::Size(edge_mm));
    }
    let (used, left_out) = pieces_to_mesh(draft)?;
    let division = seams::divide(draft, &used, edge_mm);

    // Every piece filled by itself, its points numbered on; then sewn points become one.
    let mut filled = Vec::new();
    let mut firsts = Vec::new();
    let mut offset = 0;
    for &number in &used {
        let piece = &draft.pieces[number];
        let (outline, edge_firsts) = seams::outline(piece, number, &division);
        let fill = triangulate::fill(&outline, edge_mm)
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
    let mut same: Vec<usize> = (0..offset).collect();
    for sewn in &division.sewn {
        for (a, b) in &sewn.pairs {
            let a = point(sewn.first, division.number(sewn.first, *a));
            let b = point(sewn.second, division.number(sewn.second, *b));
            unite(&mut same, a, b);
        }
    }
    let mut number_of = vec![usize::MAX; offset];
    let mut count = 0;
    for v in 0..offset {
        let root = find(&mut same, v);
        if number_of[root] == usize::MAX {
            number_of[root] = count;
            count += 1;
        }
        number_of[v] = number_of[root];
    }

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
        let layers = [Some((shell, 0)), lining.filter(|_| is_lined).map(|l| (l, 1))];
        for (law, layer) in layers.into_iter().flatten() {
            for t in &fill.triangles {
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
                if draft.pieces[*number].key == "back" {
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
    let open_lines = open_lines(draft, &used, &division, &vertex, elastic, &mut mesh)?;
    let shoulder = shoulder(draft, &used, &division, &vertex);
    Ok(SuitMesh {
        mesh,
        open_lines,
        shoulder,
        pieces: used.iter().map(|p| draft.pieces[*p].key.clone()).collect(),
        left_out,
        triangle_piece,
        on,
        edge_mm,
    })
}

/// Whether a lining of the same shape lies under a piece: the piece itself cut once more, or one drawn like it.
fn is_lined(draft: &Draft, number: usize) -> bool {
    let piece = &draft.pieces[number];
    piece.cuts.iter().any(|c| c.layer == Layer::Lining) || draft.pieces.iter().any(|p| is_lining_of(p, piece))
}

fn is_lining_of(lining: &Piece, shell: &Piece) -> bool {
    lining.key.strip_suffix("_lining") == Some(shell.key.as_str())
        && lining.edges.len() == shell.edges.len()
        && lining.edges.iter().zip(&shell.edges).all(|(a, b)| {
            let middle = |e: &draft::PieceEdge| e.curve.at_length(e.curve.length() / 2.0).0;
            let near = |p: kurbo::Point, q: kurbo::Point| (p - q).hypot() < SAME_SHAPE_MM;
            near(a.curve.start(), b.curve.start()) && near(middle(a), middle(b))
        })
}

/// Front and back by number, and what is left out.
fn pieces_to_mesh(draft: &Draft) -> Result<(Vec<usize>, Vec<String>), Unmeshed> {
    let mut used = Vec::new();
    let mut left_out = Vec::new();
    for (number, piece) in draft.pieces.iter().enumerate() {
        let key = piece.key.as_str();
        let is_shell = piece.cuts.iter().any(|c| c.layer == Layer::Shell);
        let leave = |why: &str| format!("the {} is left out: {why}", piece.name.to_lowercase());
        if key == "front" || key == "back" {
            // A half on the fold lies at x >= 0; an uneven one is drafted whole.
            if !piece.on_fold
                && piece
                    .edges
                    .iter()
                    .any(|e| e.curve.flatten(1.0).iter().any(|p| p.x < -1.0))
            {
                return Err(Unmeshed::Uneven);
            }
            used.push(number);
        } else if draft.pieces.iter().any(|shell| is_lining_of(piece, shell)) {
            // A layer on the shell's vertices.
        } else if key.starts_with("skirt") {
            left_out.push(leave("it hangs free and pulls little"));
        } else if key.starts_with("cup") || key.contains("shelf") {
            left_out.push(leave("nothing is known of its stiffness"));
        } else if !is_shell {
            left_out.push(leave("only a lining cut like the shell is a layer yet"));
        } else if key.contains("loop") || key.contains("tie") || key.contains("shield") {
            left_out.push(leave("it carries nothing round the body"));
        } else {
            return Err(Unmeshed::Piece(piece.name.to_lowercase()));
        }
    }
    for key in ["front", "back"] {
        if !used.iter().any(|p| draft.pieces[*p].key == key) {
            return Err(Unmeshed::Missing(if key == "front" { "front" } else { "back" }));
        }
    }
    Ok((used, left_out))
}

fn open_lines(
    draft: &Draft,
    used: &[usize],
    division: &Division,
    vertex: &dyn Fn(EdgeAt, usize) -> usize,
    elastic: &dyn Fn(OpenPlace<'_>) -> Option<Elastic>,
    mesh: &mut Mesh,
) -> Result<Vec<OpenLine>, Unmeshed> {
    let mut lines = Vec::new();
    for &number in used {
        let piece = &draft.pieces[number];
        for (e, edge) in piece.edges.iter().enumerate() {
            let EdgeUse::Open(kind) = edge.role else {
                continue;
            };
            let at = (number, e);
            let shares = division.shares.get(&at).map_or(&[][..], Vec::as_slice);
            let vertices: Vec<usize> = (0..shares.len()).map(|i| vertex(at, i)).collect();
            let flat_mm = edge.curve.length();
            let first_bar = mesh.bars().len();
            for (i, w) in shares.windows(2).enumerate() {
                let place = OpenPlace {
                    kind,
                    piece: &piece.key,
                    share: f64::midpoint(w[0], w[1]),
                };
                if let Some(elastic) = elastic(place) {
                    mesh.add_bar(Bar {
                        ends: [vertices[i], vertices[i + 1]],
                        rest_mm: elastic.ratio * (w[1] - w[0]) * flat_mm,
                        stiffness_n: elastic.stiffness_n,
                        width_mm: 0.0,
                    })?;
                }
            }
            lines.push(OpenLine {
                kind,
                piece: piece.key.clone(),
                vertices,
                flat_mm,
                bars: first_bar..mesh.bars().len(),
            });
        }
    }
    Ok(lines)
}

/// The front's shoulder edge, from the neck outwards.
fn shoulder(
    draft: &Draft,
    used: &[usize],
    division: &Division,
    vertex: &dyn Fn(EdgeAt, usize) -> usize,
) -> Vec<usize> {
    for &number in used {
        let piece = &draft.pieces[number];
        let found = piece
            .edges
            .iter()
            .position(|e| e.name == "shoulder" && e.role == EdgeUse::Seam);
        if let (Some(e), true) = (found, piece.key == "front") {
            let count = division.shares.get(&(number, e)).map_or(0, Vec::len);
            let mut line: Vec<usize> = (0..count).map(|i| vertex((number, e), i)).collect();
            let curve = &piece.edges[e].curve;
            if curve.start().x > curve.end().x {
                line.reverse();
            }
            return line;
        }
    }
    Vec::new()
}

fn find(same: &mut [usize], v: usize) -> usize {
    let mut root = v;
    while same[root] != root {
        root = same[root];
    }
    let mut here = v;
    while same[here] != root {
        here = std::mem::replace(&mut same[here], root);
    }
    root
}

fn unite(same: &mut [usize], a: usize, b: usize) {
    let (a, b) = (find(same, a), find(same, b));
    same[a.max(b)] = a.min(b);
}
