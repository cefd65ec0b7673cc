//! How a drafted suit will sit, by quick formulas.

mod report;

pub use report::{FitReport, LayerUse, PressureEstimate, Rung, SeriesLoop, WayIn};
