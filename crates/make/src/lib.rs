//! From a drafted suit to what a maker cuts and sews: elastic for every arc of every edge, and the cut list.

mod plan;

pub use plan::{CutRow, ElasticArc, ElasticPlan};
