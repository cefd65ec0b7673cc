//! What every form has in common: triangles, edges, landmarks, midlines, open edges. Read once, checked once.
//!
//! Every vertex index here was held against the vertex count while reading, so the measures may index freely.
//!
//! **Shapes and units.** Indices into arrays of vertices `[x, y, z]` in mm; x = wearer's left, y up, z forward.
//! **Source.** `data/body/form.json`, `form_faces.u16`.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::error::FormError;

/// The landmarks the measures use; pairs are left, right.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Landmarks {
    pub(crate) back_neck: usize,
    pub(crate) front_neck: usize,
    pub(crate) side_neck: [usize; 2],
    pub(crate) shoulder: [usize; 2],
    pub(crate) underarm: [usize; 2],
    pub(crate) bust_point: [usize; 2],
    pub(crate) underbust: [usize; 2],
    pub(crate) waist: [usize; 2],
    pub(crate) navel: usize,
    pub(crate) hip: [usize; 2],
    pub(crate) crotch: usize,
}

/// The open edges of the surface.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Opening {
    Neck,
    ThighLeft,
    ThighRight,
    ArmLeft,
    ArmRight,
}

/// The connections of the surface, the same for all three forms.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Surface {
    pub(crate) vertex_count: usize,
    pub(crate) faces: Vec<[usize; 3]>,
    /// Each edge once, lower vertex first.
    pub(crate) edges: Vec<[usize; 2]>,
    /// The edges of each face, in the order of its sides.
    pub(crate) face_edges: Vec<[usize; 3]>,
    /// The opening an edge lies on, if it lies on one.
    pub(crate) edge_opening: Vec<Option<Opening>>,
    pub(crate) landmarks: Landmarks,
    pub(crate) midline_front: Vec<usize>,
    pub(crate) midline_back: Vec<usize>,
    pub(crate) thigh_loops: [Vec<usize>; 2],
    pub(crate) arm_left: Vec<usize>,
    /// Points `a (1 - t) + b t`, cyclic.
    pub(crate) neck_base_curve: Vec<(usize, usize, f64)>,
}

#[derive(Deserialize)]
pub(crate) struct Header {
    format: String,
    pub(crate) vertex_count: usize,
    triangle_count: usize,
    pub(crate) component_count: usize,
    pub(crate) forms: BTreeMap<String, FormHeader>,
    landmarks: BTreeMap<String, Vec<usize>>,
    midline_front: Vec<usize>,
    midline_back: Vec<usize>,
    boundary_loops: Loops,
    neck_base_curve: Vec<(usize, usize, f64)>,
}

#[derive(Deserialize)]
pub(crate) struct FormHeader {
    pub(crate) scale: Vec<f64>,
}

#[derive(Deserialize)]
struct Loops {
    neck: Vec<usize>,
    thigh_left: Vec<usize>,
    thigh_right: Vec<usize>,
    arm_left: Vec<usize>,
    arm_right: Vec<usize>,
}

impl Header {
    pub(crate) fn read(json: &str) -> Result<Header, FormError> {
        let header: Header =
            serde_json::from_str(json).map_err(|e| FormError::Header { what: e.to_string() })?;
        if header.format != "torso-form-1" {
            let what = format!("format is `{}`", header.format);
            return Err(FormError::Header { what });
        }
        Ok(header)
    }

    fn landmark<const N: usize>(&self, name: &'static str) -> Result<[usize; N], FormError> {
        let found = self.landmarks.get(name).map_or(&[][..], Vec::as_slice);
        let vertices: [usize; N] = found.try_into().map_err(|_| FormError::Landmark {
            name,
            found: found.len(),
            needed: N,
        })?;
        self.inside(name, &vertices)?;
        Ok(vertices)
    }

    fn inside(&self, what: &'static str, vertices: &[usize]) -> Result<(), FormError> {
        let count = self.vertex_count;
        match vertices.iter().find(|v| **v >= count) {
            Some(&index) => Err(FormError::Vertex { what, index, count }),
            None => Ok(()),
        }
    }
}

impl Surface {
    pub(crate) fn read(header: &Header, faces_u16: &[u8]) -> Result<Surface, FormError> {
        let needed = header.triangle_count.saturating_mul(6);
        if faces_u16.len() != needed {
            return Err(FormError::Length {
                what: "faces",
                found: faces_u16.len(),
                needed,
            });
        }
        let flat: Vec<usize> = faces_u16
            .as_chunks::<2>()
            .0
            .iter()
            .map(|b| usize::from(u16::from_le_bytes(*b)))
            .collect();
        header.inside("faces", &flat)?;
        let faces = flat.as_chunks::<3>().0.to_vec();
        let loops = &header.boundary_loops;
        for (what, chain) in [
            ("midline_front", &header.midline_front),
            ("midline_back", &header.midline_back),
            ("neck loop", &loops.neck),
            ("thigh loop", &loops.thigh_left),
            ("thigh loop", &loops.thigh_right),
            ("arm loop", &loops.arm_left),
            ("arm loop", &loops.arm_right),
        ] {
            header.inside(what, chain)?;
            if chain.len() < 3 {
                return Err(FormError::Surface { what });
            }
        }
        for (index, &(a, b, t)) in header.neck_base_curve.iter().enumerate() {
            header.inside("neck base curve", &[a, b])?;
            if !t.is_finite() {
                return Err(FormError::NotANumber {
                    what: "neck base curve",
                    index,
                });
            }
        }
        if header.neck_base_curve.len() < 3 {
            return Err(FormError::Surface {
                what: "neck base curve",
            });
        }
        let (edges, face_edges) = edges_of(&faces)?;
        let edge_opening = openings(&edges, loops);
        let [back_neck] = header.landmark("back_neck")?;
        let [front_neck] = header.landmark("front_neck")?;
        let [navel] = header.landmark("navel")?;
        let [crotch] = header.landmark("crotch")?;
        Ok(Surface {
            vertex_count: header.vertex_count,
            landmarks: Landmarks {
                back_neck,
                front_neck,
                side_neck: header.landmark("side_neck")?,
                shoulder: header.landmark("shoulder")?,
                underarm: header.landmark("underarm")?,
                bust_point: header.landmark("bust_point")?,
                underbust: header.landmark("underbust")?,
                waist: header.landmark("waist")?,
                navel,
                hip: header.landmark("hip")?,
                crotch,
            },
            midline_front: header.midline_front.clone(),
            midline_back: header.midline_back.clone(),
            thigh_loops: [loops.thigh_left.clone(), loops.thigh_right.clone()],
            arm_left: loops.arm_left.clone(),
            neck_base_curve: header.neck_base_curve.clone(),
            faces,
            edges,
            face_edges,
            edge_opening,
        })
    }
}

/// Each edge once, and the edges of each face.
type Edges = (Vec<[usize; 2]>, Vec<[usize; 3]>);

fn edges_of(faces: &[[usize; 3]]) -> Result<Edges, FormError> {
    let mut known: BTreeMap<[usize; 2], (usize, usize)> = BTreeMap::new();
    let mut edges = Vec::new();
    let mut face_edges = Vec::with_capacity(faces.len());
    for &[a, b, c] in faces {
        let mut sides = [0; 3];
        for (side, (p, q)) in sides.iter_mut().zip([(a, b), (b, c), (c, a)]) {
            let key = [p.min(q), p.max(q)];
            let (edge, uses) = known.entry(key).or_insert_with(|| {
                edges.push(key);
                (edges.len() - 1, 0)
            });
            *uses += 1;
            if *uses > 2 || p == q {
                return Err(FormError::Surface { what: "faces" });
            }
            *side = *edge;
        }
        face_edges.push(sides);
    }
    Ok((edges, face_edges))
}

fn openings(edges: &[[usize; 2]], loops: &Loops) -> Vec<Option<Opening>> {
    let mut on: BTreeMap<[usize; 2], Opening> = BTreeMap::new();
    for (chain, opening) in [
        (&loops.neck, Opening::Neck),
        (&loops.thigh_left, Opening::ThighLeft),
        (&loops.thigh_right, Opening::ThighRight),
        (&loops.arm_left, Opening::ArmLeft),
        (&loops.arm_right, Opening::ArmRight),
    ] {
        for (&p, &q) in chain.iter().zip(chain.iter().cycle().skip(1)) {
            on.insert([p.min(q), p.max(q)], opening);
        }
    }
    edges.iter().map(|e| on.get(e).copied()).collect()
}
