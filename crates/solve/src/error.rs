//! What is wrong with a mesh that can't be solved.

use thiserror::Error;

/// Why a part was not taken into a mesh, or a mesh not solved.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum MeshError {
    /// A triangle or bar names a vertex the mesh doesn't have, or the same one twice.
    #[error("{part} {number} joins vertices {vertices:?} of {count}: each must exist and be named once")]
    Vertices {
        /// `triangle` or `bar`.
        part: &'static str,
        /// Which, counted from 0 in the order they were added.
        number: usize,
        /// What it names.
        vertices: Vec<usize>,
        /// How many vertices there are.
        count: usize,
    },
    /// A triangle's rest shape has no area or is turned over.
    #[error(
        "triangle {number} has a rest area of {area_mm2} mm2: give corners counter-clockwise with an area above 0"
    )]
    RestArea {
        /// Which triangle.
        number: usize,
        /// Its signed rest area.
        area_mm2: f64,
    },
    /// A triangle names a law the mesh doesn't have.
    #[error("triangle {number} is of a cloth that was not added")]
    Law {
        /// Which triangle.
        number: usize,
    },
    /// A bar's rest length or stiffness is not a positive number.
    #[error("bar {number} has rest length {rest_mm} mm and stiffness {stiffness_n} N: give numbers above 0")]
    Bar {
        /// Which bar.
        number: usize,
        /// Its rest length.
        rest_mm: f64,
        /// Its force at 100 % stretch.
        stiffness_n: f64,
    },
    /// A vertex that nothing holds in place: no triangle, no bar, not held.
    #[error("vertex {0} belongs to no cloth and no bar")]
    Loose(usize),
    /// Another number of start points than vertices, or a point that is not a number.
    #[error("{found} start points for {count} vertices, all of which must be finite numbers")]
    Start {
        /// How many finite points were given.
        found: usize,
        /// How many are needed.
        count: usize,
    },
    /// The matrix was too large for the machine.
    #[error("no room to factor the matrix of {0} unknowns: use a coarser mesh")]
    Memory(usize),
}
