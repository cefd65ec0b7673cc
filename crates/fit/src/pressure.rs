//! The squeeze by formula: contact pressure at a level from the tension around it.
//!
//! ```text
//! p = t2 / r      t2 tension around per worn width, r = girth / 2 pi
//! ```
//!
//! **Shapes and units.** kPa out; N/m and mm in.
//! **Source.** Laplace's law for a thin band; that it fits knits on rigid cylinders is published (Teyeme et al., Materials 14(16),
//! 2021, 4461, abstract). Its error on a body-like form: own, level means against a full solve, 90 % within the band below.
//! Limits: `data/trade/pressure_model.toml`, table `findings`, own, set from published garment pressures (Anthropometry,
//! Apparel Sizing and Design, 2nd ed., p. 345).
//! **Limits.** A mean of a level; bust points and the hip's side press more, hollows nothing. Tension is taken while stretching;
//! a worn cloth relaxes by some fifth (own).

use std::f64::consts::TAU;

use cloth::Law;

use crate::report::PressureEstimate;

/// Above this a panel is to be looked at, kPa. `data/trade/pressure_model.toml`, `findings.panel_kpa.watch_above`.
pub const PANEL_WATCH_KPA: f64 = 1.3;
/// Above this a panel must not be cut, kPa: only by a measured force and a full solve, so never here.
/// `data/trade/pressure_model.toml`, `findings.panel_kpa.stop_above`.
pub const PANEL_STOP_KPA: f64 = 2.0;

/// Worn stretch, and the relative error that 90 % of level means stayed under (own solves at 10, 18, 30 %).
const ERROR_90: [(f64, f64); 3] = [(0.10, 0.70), (0.18, 0.41), (0.30, 0.29)];
/// A firm pull by hand may be half or double the force it is taken for (own).
const HAND_FACTOR: f64 = 2.0;

/// The error of the formula at a worn stretch, straight between the solves, flat beyond them.
fn error_90(worn: f64) -> f64 {
    let [first, .., last] = ERROR_90;
    if worn <= first.0 {
        return first.1;
    }
    ERROR_90.windows(2).find(|w| worn <= w[1].0).map_or(last.1, |w| {
        w[0].1 + (w[1].1 - w[0].1) * (worn - w[0].0) / (w[1].0 - w[0].0)
    })
}

/// The estimate at a level worn `around` (ratio - 1) and `lengthwise` (length ratio) by a body of that girth.
/// `is_assumed`: the force of the cloth was not measured.
pub(crate) fn estimate(
    law: &Law,
    is_assumed: bool,
    around: f64,
    lengthwise: f64,
    girth_mm: f64,
) -> Option<PressureEstimate> {
    if !(girth_mm > 0.0 && lengthwise > 0.0) {
        return None;
    }
    let per_rest_width = law.tension(lengthwise, 1.0 + around).around;
    let radius_m = girth_mm / 1000.0 / TAU;
    let kpa = per_rest_width / lengthwise / radius_m / 1000.0;
    let error = error_90(around);
    let factor = if is_assumed { HAND_FACTOR } else { 1.0 };
    Some(PressureEstimate {
        kpa,
        low_kpa: kpa * (1.0 - error) / factor,
        high_kpa: kpa * (1.0 + error) * factor,
        is_relative: is_assumed,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_band_narrows_with_the_stretch() {
        assert_eq!(error_90(0.02), 0.70);
        assert!((error_90(0.18) - 0.41).abs() < 1e-12);
        assert!((error_90(0.24) - 0.35).abs() < 1e-12);
        assert_eq!(error_90(0.5), 0.29);
    }

    /// Source: `data/trade/pressure_model.toml`, first example: 143 N/m on a 0.90 m girth is 1.0 kPa.
    #[test]
    fn the_printed_example() {
        // A law whose tension around is 143 N/m at 20 %, sides held.
        let unit = Law::new(1.0, 1.0, 0.35, 0.0).unwrap();
        let k = 143.0 / unit.tension(1.0, 1.2).around;
        let law = Law::new(k, k, 0.35, 0.0).unwrap();
        let found = estimate(&law, false, 0.2, 1.0, 900.0).unwrap();
        assert!((found.kpa - 1.0).abs() < 0.005, "{found:?}");
        assert!(!found.is_relative && found.low_kpa > 0.5 && found.high_kpa < 1.5);
        let assumed = estimate(&law, true, 0.2, 1.0, 900.0).unwrap();
        assert!(assumed.is_relative && assumed.low_kpa < found.low_kpa && assumed.high_kpa > found.high_kpa);
    }

    /// Source: `data/trade/pressure_model.toml`.
    #[test]
    fn limits_are_the_files() {
        let file = include_str!("../../../data/trade/pressure_model.toml");
        let line = file.lines().find(|l| l.starts_with("panel_kpa = ")).unwrap();
        assert!(
            line.contains(&format!("watch_above = {PANEL_WATCH_KPA:?}")),
            "{line}"
        );
        assert!(
            line.contains(&format!("stop_above = {PANEL_STOP_KPA:?}")),
            "{line}"
        );
    }

    /// Source: own closed form, `data/fit/cylinder.json`: a tube on a rigid cylinder, taut and wrinkled.
    #[test]
    fn a_tube_on_a_cylinder() {
        let file: serde_json::Value =
            serde_json::from_str(include_str!("../../../data/fit/cylinder.json")).unwrap();
        let cases = file["cases"].as_array().unwrap();
        assert_eq!(cases.len(), 21);
        for case in cases {
            let number = |key: &str| case[key].as_f64().unwrap();
            let material = |key: &str| case["material"][key].as_f64().unwrap();
            let law = Law::new(material("k1"), material("k2"), material("nu"), material("beta")).unwrap();
            let girth_mm = number("R") * TAU * 1000.0;
            let (around, lengthwise) = (number("hoop_stretch") - 1.0, number("length_stretch"));
            let found = estimate(&law, false, around, lengthwise, girth_mm).unwrap();
            let expected = number("pressure") / 1000.0;
            assert!(
                (found.kpa - expected).abs() < 1e-12 * expected.max(1.0),
                "{case}: {found:?}"
            );
        }
    }

    #[test]
    fn slack_cloth_does_not_press() {
        let law = Law::new(160.0, 110.0, 0.35, 0.3).unwrap();
        assert_eq!(estimate(&law, false, -0.05, 0.95, 900.0).unwrap().kpa, 0.0);
        assert_eq!(estimate(&law, false, 0.1, 1.0, 0.0), None);
    }
}
