//! A drafted suit as a mesh: its left half, sewn; the whole of it where left and right differ.
//!
//! Pieces are drafted as halves on the fold x = 0, and bodies alike left and right keep their suits so: half the mesh is solved, with the
//! fold held in the middle plane. Seams are vertices shared by both pieces, darts alike; a lining cut from the same piece
//! is a second layer on the shell's vertices; elastic on an open edge is bars, each shorter at rest by its ratio.
//!
//! **Shapes and units.** mm; flat frame of the draft (fold x = 0, waist y = 0).
//! **Limits.** Front and back with their straps, darts, panels and crotch, legs with a gusset, sleeves, and linings under them. Skirts and
//! cups are left out and said so ([`SuitMesh::left_out`]); anything else is refused with the piece that isn't meshed.

mod cups;
mod hanging;
mod inside;
mod limb_parts;
mod open;
mod part;
mod sewn_up;
mod strap;
mod ties;
mod under;
mod weld;
mod whole;

use cloth::{Law, LawError};
use draft::{Draft, EdgeUse, OpenKind, Piece};
use thiserror::Error;

use self::hanging::Along;
use self::inside::Inside;
use self::limb_parts::{HEM_HELD, add_zip, limb_part};
use self::open::{open_inside, open_lines, shoulder};
use self::part::{Meshed, parts};
use self::under::{Under, is_lined};
use self::weld::Weld;
use crate::error::MeshError;
use crate::mesh::{Bar, Mesh};
use crate::seam_lines::{SeamLine, seam_lines};
use crate::seams::{self, Division, EdgeAt, Stations};
use crate::triangulate;
use crate::vector::{norm, sub};

pub use self::cups::CUP_STIFFNESS;
pub use self::hanging::{ASSUMED_KG_PER_M2, Drape, Hanging};
pub(crate) use self::limb_parts::gusset_side;
pub(crate) use self::part::Part;
pub(crate) use self::sewn_up::SewnUp;
pub(crate) use self::strap::Way;
pub use self::strap::{StrapLine, Tied};
pub(crate) use self::ties::NECK_END;
pub use self::ties::TIED_STRETCH;

/// Finest and coarsest mesh, mm: finer takes minutes, coarser has no strap.
pub const MESH_RANGE_MM: (f64, f64) = (3.0, 25.0);

/// Weight of a layer of cloth that hangs, N/mm^2: 200 g/m^2, a usual swim tricot (from memory; 170 to 220).
const CLOTH_N_PER_MM2: f64 = 200.0 * 9.81e-9;

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
    #[error(
        "this suit is not alike left and right, and with legs or sleeves only halves are put on the form yet"
    )]
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
    /// A cloth in several layers.
    #[error("{0}")]
    Law(#[from] LawError),
}

/// The laws of a suit's cloths, as they lie on the pieces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SuitLaws {
    /// Shell.
    pub shell: Law,
    /// Lining, if pieces are cut from it and it should pull.
    pub lining: Option<Law>,
}

/// What is said of a skirt.
const HANGS: &str = "the skirt is not solved: its weight pulls on its join, and it is drawn let down from there, without its folds";

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

/// A lower or upper edge of a top.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct TopEnd {
    pub(crate) is_lower: bool,
    pub(crate) is_front: bool,
    pub(crate) vertices: Vec<usize>,
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
    /// What hangs from it, by quarters of a skirt.
    pub hanging: Vec<Hanging>,
    /// Weight of what hangs, kg/m^2; 0 where nothing does.
    pub hanging_kg_per_m2: f64,
    /// What was left out, in words.
    pub left_out: Vec<String>,
    /// What is taken for granted of the way it is worn, in words.
    pub assumed: Vec<String>,
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
    /// Straps and ties that are lines of bars.
    pub straps: Vec<StrapLine>,
    /// How firmly ties are tied against the usual, 1.
    pub tied: f64,
    /// Lines whose points keep a distance or a height they would leave by themselves, so that the force this takes can be read.
    pub rails: Vec<Rail>,
    /// Lower and upper edges of tops: placed at the draft's heights.
    pub(crate) ends: Vec<TopEnd>,
    /// The draft as it was meshed: bands folded, hooks closed, ties tied.
    pub(crate) sewn: SewnUp,
}

/// Points held in one direction, because nothing but friction or the wearer holds them there.
#[derive(Clone, Debug, PartialEq)]
pub struct Rail {
    /// What is held, in words.
    pub name: &'static str,
    /// Its vertices.
    pub vertices: Vec<usize>,
    /// In which direction: 0 across, 1 up and down.
    pub axis: usize,
    /// Vertices whose contact with the body could hold it by friction.
    pub carried_by: Vec<usize>,
}

impl SuitMesh {
    /// Gives what hangs another weight than the assumed one.
    pub fn weigh(&mut self, kg_per_m2: f64) {
        if self.hanging.is_empty() || !(kg_per_m2.is_finite() && kg_per_m2 >= 0.0) {
            return;
        }
        for hanging in &self.hanging {
            for (v, n) in hanging.loads(kg_per_m2 - self.hanging_kg_per_m2) {
                self.mesh.add_load(v, [0.0, -n, 0.0]);
            }
        }
        self.hanging_kg_per_m2 = kg_per_m2;
    }

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

    /// Holds straps on the shoulder, and what else is held.
    pub(crate) fn hold_rails(&mut self) {
        for v in self.rail() {
            self.mesh.hold(v, [true, false, false]);
        }
        for v in self.hem_rail() {
            self.mesh.hold(v, [false, true, false]);
        }
        for rail in &self.rails {
            for v in &rail.vertices {
                self.mesh.hold(*v, [rail.axis == 0, rail.axis == 1, false]);
            }
        }
    }

    /// Gives ties the length at rest that their placed length asks for.
    pub(crate) fn tie(&mut self, placed: &[[f64; 3]]) {
        for line in &self.straps {
            let Some(tied) = line.tied else { continue };
            let bars = self.mesh.bars.get_mut(line.bars.clone()).unwrap_or(&mut []);
            let length = |b: &Bar| norm(sub(placed[b.ends[0]], placed[b.ends[1]]));
            let longer = match tied {
                Tied::Longer(stretch) => 1.0 + stretch * self.tied,
                Tied::Worn(mm) => {
                    // Its own bars and the way from the knots to their edges, straight.
                    let along: f64 = bars.iter().take(line.along).map(length).sum();
                    let knots = line.drawn.iter().filter(|d| !d.is_empty()).count() as f64;
                    let drawn: f64 = bars.iter().skip(line.along).map(length).sum();
                    let each = drawn / (bars.len() - line.along).max(1) as f64;
                    (along + knots * each) * self.tied / mm.max(1.0)
                }
            };
            for bar in bars {
                bar.rest_mm = (length(bar) / longer.max(0.01)).max(0.1);
            }
        }
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
    let sewn_up = SewnUp::of(draft);
    if is_whole && sewn_up.only_halves {
        return Err(Unmeshed::Uneven);
    }
    let draft = &sewn_up.draft;
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
    let mut lines: Vec<Vec<Inside>> = used
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
    let quarters = hanging::quarters(draft, &used, &mut lines, is_whole, edge_mm).unwrap_or_else(|| {
        left_out.push("the skirt is left out: its join is found on no piece of the suit".into());
        Vec::new()
    });
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
    // Straps' own vertices are numbered after those of the pieces.
    let first_own = count;
    let count = count + sewn_up.straps.iter().map(|s| s.own_vertices()).sum::<usize>();

    let mut mesh = Mesh::new(count);
    let shell = mesh.add_law(&laws.shell);
    let lining = laws.lining.map(|law| mesh.add_law(&law));
    // On the front or on the lining under it.
    let cups: Vec<_> = draft
        .pieces
        .iter()
        .filter(|p| part::torso_half(&p.key) == Some(true))
        .flat_map(cups::rings)
        .collect();
    let cup = if cups.is_empty() {
        None
    } else {
        left_out.push(format!(
            "where a cup lies the cloth is taken as {CUP_STIFFNESS:.0} times as stiff and as flat as before: no cup was measured"
        ));
        Some(mesh.add_law(&in_layers(&laws.shell, CUP_STIFFNESS - 1.0)?))
    };
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
        let shell = match sewn_up.layers.get(&draft.pieces[*number].key) {
            Some(layers) => mesh.add_law(&in_layers(&laws.shell, *layers)?),
            None => shell,
        };
        let is_front = used[order].part == (Part::Torso { is_front: true });
        let layers = [
            Some((shell, 0)),
            lining.map(|l| (l, 1)),
            cup.filter(|_| is_front).map(|l| (l, cups::STIFFENING_LAYER)),
        ];
        for (law, layer) in layers.into_iter().flatten() {
            for t in &fill.triangles {
                let middle = [0, 1].map(|i| t.iter().map(|v| fill.points[*v][i]).sum::<f64>() / 3.0);
                if layer == 1 && !is_lined && !unders[order].iter().any(|u| u.holds(middle)) {
                    continue;
                }
                if layer == cups::STIFFENING_LAYER && !cups::lies_in(&cups, middle) {
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
    let along = |along: Along| -> Vec<usize> {
        match along {
            Along::Line(order, line) => {
                let (_, offset, ..) = firsts[order];
                let points = filled[order].lines.get(line).map_or(&[][..], Vec::as_slice);
                points.iter().map(|p| number_of[offset + p]).collect()
            }
            Along::Edge(at, is_inwards) => {
                let count = division.shares.get(&at).map_or(0, Vec::len);
                let mut points: Vec<usize> = (0..count).map(|i| vertex(at, i)).collect();
                if is_inwards {
                    points.reverse();
                }
                points
            }
        }
    };
    let hanging: Vec<Hanging> = quarters.into_iter().map(|q| q.sewn(along)).collect();
    if hanging.iter().any(|h| h.join.len() < 2) {
        return Err(Unmeshed::Outline("skirt's join".into(), edge_mm));
    }
    if !hanging.is_empty() {
        left_out.push(HANGS.into());
    }
    let [shoulder, shoulder_right] = shoulder(draft, &used, &division, &vertex);
    let straps = strap::add(
        &sewn_up.straps,
        draft,
        (&division, &vertex),
        &laws.shell,
        first_own,
        &mut mesh,
    )?;
    let pieces: Vec<String> = used.iter().map(|m| draft.pieces[m.number].key.clone()).collect();
    let rails = rails(&sewn_up, (&division, &vertex), (&pieces, &on));
    let ends = ends(draft, &used, &division, &vertex);
    if sewn_up.hangs {
        mesh.add_weight(0, CLOTH_N_PER_MM2);
        if lining.is_some() {
            mesh.add_weight(1, CLOTH_N_PER_MM2);
        }
    }
    if used.iter().any(|m| m.part == Part::Sleeve) && open_lines.iter().any(|l| l.kind == OpenKind::Hem) {
        left_out.push(HEM_HELD.into());
    }
    let mut suit = SuitMesh {
        mesh,
        open_lines,
        seam_lines: seam_lines(draft, &division, &vertex),
        shoulder,
        shoulder_right,
        is_whole,
        pieces,
        parts: used.iter().map(|m| m.part).collect(),
        drawn: used.iter().map(|m| draft.pieces[m.number].clone()).collect(),
        left_out,
        triangle_piece,
        on,
        edge_mm,
        assumed: sewn_up.assumed.clone(),
        straps,
        tied: 1.0,
        rails,
        ends,
        sewn: sewn_up,
        hanging,
        hanging_kg_per_m2: 0.0,
    };
    suit.weigh(ASSUMED_KG_PER_M2);
    Ok(suit)
}

/// Lower and upper edges of tops.
fn ends(
    draft: &Draft,
    used: &[Meshed],
    division: &Division,
    vertex: &dyn Fn(EdgeAt, usize) -> usize,
) -> Vec<TopEnd> {
    let mut all = Vec::new();
    for &Meshed { number, part } in used {
        for (e, edge) in draft.pieces[number].edges.iter().enumerate() {
            let is_lower = match edge.role {
                EdgeUse::Open(OpenKind::Underbust) => true,
                EdgeUse::Open(OpenKind::Top) => false,
                EdgeUse::Hem if edge.name == "bottom" => true,
                _ => continue,
            };
            let count = division.shares.get(&(number, e)).map_or(0, Vec::len);
            all.push(TopEnd {
                is_lower,
                is_front: !part.is_behind(),
                vertices: (0..count).map(|i| vertex((number, e), i)).collect(),
            });
        }
    }
    all
}

/// The rails of straps.
fn rails(
    sewn: &SewnUp,
    (division, vertex): (&Division, &dyn Fn(EdgeAt, usize) -> usize),
    (pieces, on): (&[String], &[Vec<OnPiece>]),
) -> Vec<Rail> {
    let mut all: Vec<Rail> = Vec::new();
    for (name, of, axis) in &sewn.rails {
        let own = strap::edge_points(&sewn.draft, division, of, vertex);
        let mut vertices: Vec<usize> = own.into_iter().map(|(v, _)| v).collect();
        // Edges of one name are one rail.
        match all.iter_mut().find(|r| r.name == *name) {
            Some(rail) => rail.vertices.append(&mut vertices),
            None => all.push(Rail {
                name,
                vertices,
                axis: *axis,
                carried_by: Vec::new(),
            }),
        }
    }
    for rail in &mut all {
        rail.vertices.sort_unstable();
        rail.vertices.dedup();
        rail.carried_by = if rail.axis == 1 {
            // A garment held up as a whole is held by all of it.
            let is_own = |o: &OnPiece| !pieces.get(o.piece).is_some_and(|key| key.starts_with("brief_"));
            (0..on.len()).filter(|v| on[*v].iter().any(is_own)).collect()
        } else {
            rail.vertices.clone()
        };
    }
    all
}

/// The law of so many layers of a cloth that lie on one another and stretch alike: as stiff as all of them together.
fn in_layers(law: &Law, layers: f64) -> Result<Law, LawError> {
    Law::new(
        layers * law.k_lengthwise(),
        layers * law.k_around(),
        law.poisson(),
        law.stiffening(),
    )?
    .with_shear(layers * law.shear())
}
