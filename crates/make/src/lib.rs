//! From a drafted suit to what a maker cuts and sews: elastic for every arc of every edge, and the cut list.

mod buy;
mod cut_list;
mod elastic;
mod kind;
mod plan;
mod ratio;
mod worn;

pub use buy::{ElasticBuy, elastic_to_buy, latex_caution};
pub use cut_list::cut_list;
pub use elastic::{LAP_JOIN, elastic};
pub use kind::{ElasticChoice, ElasticError, ElasticKind, KindFacts, Latex, Narrowing};
pub use plan::{CutRow, ElasticArc, ElasticPlan};
pub use ratio::{EdgeRule, RatioBand, Source, rule_for};
pub use worn::{ASSUMED_K_NEWTON, EDGE_PRESSURE_STOP_KPA, EDGE_PRESSURE_WATCH_KPA};
