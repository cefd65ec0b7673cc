//! From a drafted suit to what a maker cuts and sews: elastic for every arc of every edge, and the cut list.

mod cut_list;
mod elastic;
mod kind;
mod plan;
mod ratio;

pub use cut_list::cut_list;
pub use elastic::{
    ASSUMED_K_NEWTON, EDGE_PRESSURE_STOP_KPA, EDGE_PRESSURE_WATCH_KPA, ElasticBuy, LAP_JOIN, elastic,
    elastic_to_buy, latex_caution,
};
pub use kind::{ElasticChoice, ElasticError, ElasticKind, KindFacts, Latex, Narrowing};
pub use plan::{CutRow, ElasticArc, ElasticPlan};
pub use ratio::{EdgeRule, RatioBand, Source, rule_for};
