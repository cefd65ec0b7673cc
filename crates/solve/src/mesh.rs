//! The suit as a mesh: cloth triangles in layers on shared vertices, bars for elastic and narrow straps, what is held, what it weighs.
//!
//! Welding is sharing: where two pieces are sewn their triangles name the same vertices, each with its own rest shape. A
//! lining is more triangles on the shell's vertices, of another layer, with a rest shape of its own.
//!
//! **Shapes and units.** mm, N. Rest corners are (lengthwise, around) of the flat cloth, counter-clockwise.

use cloth::{Law, Membrane};

use crate::error::MeshError;
use crate::vector::V3;

/// Contact area over rest area of a vertex: worn cloth covers more (own; it only scales the penalty).
const CONTACT_AREA_SHARE: f64 = 1.25;

/// A cloth of a mesh.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LawId(usize);

/// One cloth triangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Triangle {
    /// Its vertices.
    pub corners: [usize; 3],
    /// Which layer: 0 is the outer one, from which contact areas are taken.
    pub layer: usize,
    /// Area at rest, mm^2.
    pub area_mm2: f64,
    pub(crate) law: usize,
    /// What of its area belongs to each corner at rest: Voronoi, mixed where it is obtuse.
    pub(crate) shares_mm2: [f64; 3],
    /// Gradients of the corners' hat functions by (lengthwise, around), 1/mm.
    pub(crate) gradients: [[f64; 2]; 3],
}

impl Triangle {
    /// Gradients of the corners' hat functions by (lengthwise, around) of the flat cloth, 1/mm.
    pub const fn rest_gradients(&self) -> [[f64; 2]; 3] {
        self.gradients
    }
}

/// A line of elastic between two vertices: pulls when longer than at rest, never pushes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// Its ends.
    pub ends: [usize; 2],
    /// Length at rest, mm.
    pub rest_mm: f64,
    /// Force at 100 % stretch, N.
    pub stiffness_n: f64,
    /// Width that touches the body, mm; 0 when it lies on cloth.
    pub width_mm: f64,
}

/// A suit, or a part of one, ready to be solved.
#[derive(Clone, Debug, PartialEq)]
pub struct Mesh {
    pub(crate) laws: Vec<Membrane>,
    pub(crate) triangles: Vec<Triangle>,
    pub(crate) bars: Vec<Bar>,
    pub(crate) held: Vec<[bool; 3]>,
    pub(crate) loads: Vec<V3>,
}

impl Mesh {
    /// A mesh of so many vertices and nothing on them yet.
    pub fn new(vertex_count: usize) -> Mesh {
        Mesh {
            laws: Vec::new(),
            triangles: Vec::new(),
            bars: Vec::new(),
            held: vec![[false; 3]; vertex_count],
            loads: vec![[0.0; 3]; vertex_count],
        }
    }

    /// Adds a cloth.
    pub fn add_law(&mut self, law: &Law) -> LawId {
        self.laws.push(Membrane::new(law));
        LawId(self.laws.len() - 1)
    }

    /// Adds a triangle of layer `layer` whose corners at rest are `rest`, (lengthwise, around) mm, counter-clockwise with
    /// around to the right and lengthwise up.
    ///
    /// # Errors
    /// [`MeshError::Vertices`], [`MeshError::Law`], [`MeshError::RestArea`].
    pub fn add_triangle(
        &mut self,
        corners: [usize; 3],
        rest: [[f64; 2]; 3],
        law: LawId,
        layer: usize,
    ) -> Result<(), MeshError> {
        let number = self.triangles.len();
        self.check_vertices("triangle", number, &corners)?;
        if law.0 >= self.laws.len() {
            return Err(MeshError::Law { number });
        }
        let (area_mm2, gradients) = hat_gradients(rest);
        if !(area_mm2.is_finite() && area_mm2 > 0.0) {
            return Err(MeshError::RestArea { number, area_mm2 });
        }
        self.triangles.push(Triangle {
            corners,
            layer,
            area_mm2,
            law: law.0,
            shares_mm2: crate::reading::mixed_areas(rest.map(|[a, b]| [a, b, 0.0])),
            gradients,
        });
        Ok(())
    }

    /// Makes the rest shape of a layer longer lengthwise and around, as cloth is that did not go back whole: 0.02 is 2 %. What isn't a
    /// number above -1 changes nothing.
    pub fn grow(&mut self, layer: usize, [lengthwise, around]: [f64; 2]) {
        let (a, b) = (1.0 + lengthwise, 1.0 + around);
        if !(a.is_finite() && b.is_finite() && a > 0.0 && b > 0.0) {
            return;
        }
        for t in self.triangles.iter_mut().filter(|t| t.layer == layer) {
            t.area_mm2 *= a * b;
            t.shares_mm2 = t.shares_mm2.map(|s| s * a * b);
            t.gradients = t.gradients.map(|[l, r]| [l / a, r / b]);
        }
    }

    /// Adds a bar.
    ///
    /// # Errors
    /// [`MeshError::Vertices`], [`MeshError::Bar`].
    pub fn add_bar(&mut self, bar: Bar) -> Result<(), MeshError> {
        let number = self.bars.len();
        self.check_vertices("bar", number, &bar.ends)?;
        let good = |x: f64| x.is_finite() && x > 0.0;
        if !(good(bar.rest_mm) && good(bar.stiffness_n)) {
            return Err(MeshError::Bar {
                number,
                rest_mm: bar.rest_mm,
                stiffness_n: bar.stiffness_n,
            });
        }
        self.bars.push(bar);
        Ok(())
    }

    /// Holds coordinates of a vertex where they start. Vertices the mesh doesn't have are ignored.
    pub fn hold(&mut self, vertex: usize, coordinates: [bool; 3]) {
        if let Some(held) = self.held.get_mut(vertex) {
            for (h, c) in held.iter_mut().zip(coordinates) {
                *h |= c;
            }
        }
    }

    /// Lets every coordinate of a vertex go.
    pub fn release(&mut self, vertex: usize) {
        if let Some(held) = self.held.get_mut(vertex) {
            *held = [false; 3];
        }
    }

    /// Adds a constant force on a vertex, N.
    pub fn add_load(&mut self, vertex: usize, force_n: [f64; 3]) {
        if let Some(load) = self.loads.get_mut(vertex) {
            for (l, f) in load.iter_mut().zip(force_n) {
                *l += f;
            }
        }
    }

    /// Adds the weight of a layer's cloth, `n_per_mm2` per rest area, pulling down (-y).
    pub fn add_weight(&mut self, layer: usize, n_per_mm2: f64) {
        for i in 0..self.triangles.len() {
            let t = self.triangles[i];
            if t.layer == layer {
                for v in t.corners {
                    self.loads[v][1] -= n_per_mm2 * t.area_mm2 / 3.0;
                }
            }
        }
    }

    /// How many vertices.
    pub fn vertex_count(&self) -> usize {
        self.held.len()
    }

    /// The triangles, in the order they were added.
    pub fn triangles(&self) -> &[Triangle] {
        &self.triangles
    }

    /// The bars, in the order they were added.
    pub fn bars(&self) -> &[Bar] {
        &self.bars
    }

    /// The constant force on each vertex, N.
    pub fn loads(&self) -> &[[f64; 3]] {
        &self.loads
    }

    /// Which coordinates of each vertex are held.
    pub fn held(&self) -> &[[bool; 3]] {
        &self.held
    }

    /// Area with which each vertex touches the body: its Voronoi part of the outer triangles, half of its bars' width, and a little more for
    /// the stretch. Scales the penalty, and so how deep a vertex sinks: with thirds of triangles neighbours of an
    /// alternating mesh sank twice as deep one as the other.
    pub fn contact_areas(&self) -> Vec<f64> {
        let mut areas = vec![0.0; self.vertex_count()];
        for t in self.triangles.iter().filter(|t| t.layer == 0) {
            for (v, share) in t.corners.into_iter().zip(t.shares_mm2) {
                areas[v] += share * CONTACT_AREA_SHARE;
            }
        }
        for bar in &self.bars {
            for v in bar.ends {
                areas[v] += bar.rest_mm * bar.width_mm / 2.0 * CONTACT_AREA_SHARE;
            }
        }
        areas
    }

    /// # Errors
    /// [`MeshError::Loose`] for the first vertex nothing holds.
    pub(crate) fn check(&self) -> Result<(), MeshError> {
        let mut used = vec![false; self.vertex_count()];
        let corners = self.triangles.iter().flat_map(|t| t.corners);
        for v in corners.chain(self.bars.iter().flat_map(|b| b.ends)) {
            used[v] = true;
        }
        match (0..used.len()).find(|&v| !used[v] && self.held[v] != [true; 3]) {
            Some(loose) => Err(MeshError::Loose(loose)),
            None => Ok(()),
        }
    }

    fn check_vertices(&self, part: &'static str, number: usize, vertices: &[usize]) -> Result<(), MeshError> {
        let count = self.vertex_count();
        let twice = (1..vertices.len()).any(|i| vertices[..i].contains(&vertices[i]));
        if twice || vertices.iter().any(|v| *v >= count) {
            return Err(MeshError::Vertices {
                part,
                number,
                vertices: vertices.to_vec(),
                count,
            });
        }
        Ok(())
    }
}

/// Signed area and the gradients of the three hat functions by (lengthwise, around). Positive for counter-clockwise corners seen with around
/// to the right and lengthwise up.
fn hat_gradients(rest: [[f64; 2]; 3]) -> (f64, [[f64; 2]; 3]) {
    let [a, b, c] = rest.map(|[lengthwise, around]| [around, lengthwise]);
    let twice = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
    // Gradient by (around, lengthwise) of the hat of `p`, opposite edge q to r, then swapped.
    let of = |q: [f64; 2], r: [f64; 2]| [(r[0] - q[0]) / twice, (q[1] - r[1]) / twice];
    (twice / 2.0, [of(b, c), of(c, a), of(a, b)])
}
