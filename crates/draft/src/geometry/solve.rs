//! Roots of functions of one variable, on a bracket.

use kurbo::common::solve_itp;

/// The root of `f` in `[low, high]`, or `None` when the ends have the same sign.
///
/// ITP method, at most `1e-9` from the root in the argument. Deterministic.
///
/// **Source.** Oliveira and Takahashi, An enhancement of the bisection method average performance preserving minmax
/// optimality, ACM TOMS 47(1), 2020, as implemented in kurbo.
pub(crate) fn root(mut f: impl FnMut(f64) -> f64, low: f64, high: f64) -> Option<f64> {
    let (at_low, at_high) = (f(low), f(high));
    if at_low == 0.0 {
        return Some(low);
    }
    if at_high == 0.0 {
        return Some(high);
    }
    if !(at_low.is_finite() && at_high.is_finite()) || (at_low > 0.0) == (at_high > 0.0) {
        return None;
    }
    // The library wants a function that rises through zero.
    let sign = if at_low < 0.0 { 1.0 } else { -1.0 };
    Some(solve_itp(
        |x| sign * f(x),
        low,
        high,
        1e-9,
        1,
        0.2 / (high - low),
        sign * at_low,
        sign * at_high,
    ))
}

#[cfg(test)]
mod tests {
    use super::root;

    #[test]
    fn finds_rising_and_falling_roots() {
        assert!((root(|x| x * x - 2.0, 0.0, 2.0).unwrap() - 2f64.sqrt()).abs() < 1e-8);
        assert!((root(|x| 2.0 - x * x, 0.0, 2.0).unwrap() - 2f64.sqrt()).abs() < 1e-8);
        assert_eq!(root(|x| x * x + 1.0, 0.0, 2.0), None);
        assert_eq!(root(|x| x, 0.0, 2.0), Some(0.0));
    }
}
