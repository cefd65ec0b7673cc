//! How a drafted suit will sit, by quick formulas: the stretch ladder, the squeeze, the way in, the torso loop.
//!
//! [`judge`] is the one entry: what it finds are values with a severity, never errors. It is cheap
//! enough to run on every change (`benches/judge.rs`); bust points, edges and hollows need a full solve and are not claimed here.

mod elastic;
mod judge;
mod ladder;
mod pressure;
mod report;
mod series;
pub mod try_on;
mod way_in;

pub use elastic::{ASSUMED_K_NEWTON, ArcElastic, ElasticAssumption, ONCE_OVER_EXTENSION, WORKING_EXTENSION};
pub use judge::{STRAP_WATCH, TORSO_WATCH, judge};
pub use ladder::{LEAST_HOLD, SHARE_STOP};
pub use pressure::{PANEL_STOP_KPA, PANEL_WATCH_KPA};
pub use report::{FitReport, LayerUse, PressureEstimate, Rung, SeriesLoop, WayIn};
pub use series::series_loop;
pub use way_in::{RING_BACK_EDGE, RING_CLOTH_LIMITS, RING_ELASTIC_LIMITS, SHARE_LIMITS};
