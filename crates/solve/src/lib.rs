//! How a stretched suit sits: the cloth's mesh, the body it lies on, and the shape of least energy.
//!
//! A [`Mesh`] holds cloth triangles of any number of layers on shared vertices, and bars for elastic and narrow straps. A [`Field`] is
//! the rigid body: below 0 inside. A [`Solver`] finds where the vertices lie by Newton's method with a sparse Cholesky
//! factor, and gives a [`Solved`]: the shape, how it was reached, and why it stopped. [`worn_stretch`], [`pressure`] and their
//! neighbours read it.
//!
//! **Shapes and units.** mm and N inside: tension N/mm, energy N mm, pressure N/mm^2 where the name doesn't say kPa. Space is
//! the body's: x to the wearer's left, y up, z forward. Cloth axis 1 is lengthwise on the piece, axis 2 around.
//! **Limits.** The body is rigid; cloth has no bending, no thickness and no memory.

mod assembly;
mod body_field;
mod coarse;
mod contact;
mod correct;
mod error;
mod factor;
mod field;
mod form_lines;
mod found;
mod limbs;
mod mesh;
mod newton;
mod outcome;
mod parallel;
mod pattern;
mod place;
mod reading;
mod seam_lines;
mod seams;
mod settings;
mod suit;
mod triangulate;
mod tube;
mod vector;
mod worn;

pub use body_field::{BodyField, FieldGrid};
pub use coarse::FlatShape;
pub use correct::{Answer, Corrected, Knob, correct};
pub use error::MeshError;
pub use field::{Cone, Cylinder, Field, Sample, Sphere};
pub use found::{
    AREA_WATCH, BustLoad, Change, FOLDED, Found, FoundLimits, GAPE_WATCH_MM, LEAST_CUP_MM, ON_THIGH_MM,
    RODE_MM, RODE_UP_WATCH_MM, Reading, SKIN_FRICTION, SewnPlace, Spot, StitchReach, Stitches, UNCOVERED,
    WetSeen, found, readings, told,
};
pub use limbs::LimbReach;
pub use mesh::{Bar, LawId, Mesh, Triangle};
pub use newton::Solver;
pub use outcome::{Pass, PassKind, Solved, StateCounts, Step, Stop};
pub use place::{Unplaced, place};
pub use reading::{
    bar_tensions, least_principal_stress, pressure, triangle_stress, vertex_stretch, voronoi_areas,
    worn_stretch,
};
pub use seam_lines::SeamLine;
pub use settings::{FRICTION_SLIP_MM, Friction, PENALTY, SLACK_PULL, Settings};
pub use suit::{
    ASSUMED_KG_PER_M2, CUP_STIFFNESS, Drape, Elastic, Hanging, MESH_RANGE_MM, OpenLine, OpenPlace, Rail,
    StrapLine, SuitLaws, SuitMesh, TIED_STRETCH, Tied, Unmeshed, mesh_suit, mesh_whole_suit,
};
pub use tube::Tube;
pub use worn::{
    GAPE_MM, Gape, LegLine, RodeUp, SeatCover, Unworn, WornEdge, WornLevel, WornLine, WornRail, WornSeam,
    WornStrap, WornSuit, WornSupport, read, wear, wear_near,
};
