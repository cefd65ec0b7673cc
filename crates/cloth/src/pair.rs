//! Shell and lining sewn together: how far the two stretch under one load.
//!
//! Layers that move as one share the pull: T1(e) + T2(e) = F. With the law of [`crate::Law`] without stiffening, F drops
//! out when both were read at the same load:
//!
//! ```text
//! 1/g(1+S) = 1/g(1+S1) + 1/g(1+S2),   g(l) = l (l^2 - 1) / 2
//! ```
//!
//! **Shapes and units.** Stretches are ratios in one direction on the body; loads N/cm.
//! **Source.** Own closed form. Two like layers come out at 0.63 to 0.66 of one; with stiffening at up to 0.77, so the estimate
//! is on the safe side.
//! **Limits.** An estimate: a test of both together replaces it. A stretch by hand and one by weight can't be joined by it;
//! then 0.7 of the lesser is taken, with a watch, and that is not on the safe side.

use units::Stretch;

use crate::plan::Load;

/// Taken of the lesser stretch when the tests can't be compared (own; two like layers really give 0.63 to 0.77).
pub const BLIND_SHARE: f64 = 0.7;
/// Weighed loads that differ by less count as the same (own: a kitchen scale and a ruler do no better).
const SAME_LOAD: f64 = 0.05;

/// T(l) of the law without stiffening, over its stiffness.
fn g(l: f64) -> f64 {
    l * (l * l - 1.0) / 2.0
}

/// The stretch ratio l >= 1 with g(l) = `value`: Newton from above, where g is convex, so it falls onto the root.
fn g_inverse(value: f64) -> f64 {
    let mut l = 1.0 + (2.0 * value).cbrt().max(value);
    for _ in 0..60 {
        let step = (g(l) - value) / ((3.0 * l * l - 1.0) / 2.0);
        l -= step;
        if step.abs() < 1e-15 {
            break;
        }
    }
    l.max(1.0)
}

/// How two loads compare: the second over the first, 1 when both were pulled by hand; `None` if one was and one was not.
pub(crate) fn load_ratio(first: Load, second: Load) -> Option<f64> {
    match (first, second) {
        (Load::Hand, Load::Hand) => Some(1.0),
        (Load::NewtonPerCm(a), Load::NewtonPerCm(b)) => {
            let ratio = b / a;
            Some(if (ratio - 1.0).abs() <= SAME_LOAD {
                1.0
            } else {
                ratio
            })
        }
        _ => None,
    }
}

/// The stretch two layers reach together under the load each was read at alone.
///
/// ```
/// use cloth::stretch_together;
/// use units::Stretch;
/// let both = stretch_together(Stretch::from_percent(60.0), Stretch::from_percent(60.0));
/// assert!((both.ratio() - 0.380).abs() < 5e-4);
/// ```
pub fn stretch_together(first: Stretch, second: Stretch) -> Stretch {
    together_at(first, second, 1.0)
}

/// The same when the second was read at `load_ratio` times the load of the first: the stretch at the first's load.
pub(crate) fn together_at(first: Stretch, second: Stretch, load_ratio: f64) -> Stretch {
    let (g1, g2) = (g(1.0 + first.ratio()), g(1.0 + second.ratio()));
    if g1 <= 0.0 || g2 <= 0.0 {
        return Stretch::from_ratio(0.0);
    }
    Stretch::from_ratio(g_inverse(1.0 / (1.0 / g1 + load_ratio / g2)) - 1.0)
}

/// What a cloth read at `load_ratio` times a load stretches at that load.
pub(crate) fn at_load(stretch: Stretch, load_ratio: f64) -> Stretch {
    if load_ratio == 1.0 {
        return stretch;
    }
    Stretch::from_ratio(g_inverse(g(1.0 + stretch.ratio()) / load_ratio) - 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn together(a: f64, b: f64) -> f64 {
        stretch_together(Stretch::from_ratio(a), Stretch::from_ratio(b)).ratio()
    }

    /// Source: own closed form, solved separately; three decimals.
    #[test]
    fn worked_pairs() {
        for (a, b, both) in [
            (0.60, 0.60, 0.380),
            (0.85, 0.85, 0.561),
            (0.85, 0.60, 0.451),
            (0.50, 1.00, 0.417),
        ] {
            assert!(
                (together(a, b) - both).abs() < 5e-4,
                "{a} + {b}: {}",
                together(a, b)
            );
            assert_eq!(together(a, b), together(b, a));
        }
    }

    #[test]
    fn a_pair_never_stretches_as_far_as_its_weaker_layer() {
        for i in 1..=40 {
            for j in 1..=40 {
                let (a, b) = (f64::from(i) * 0.05, f64::from(j) * 0.05);
                let both = together(a, b);
                assert!(both > 0.0 && both < a.min(b), "{a} + {b} gives {both}");
            }
        }
    }

    #[test]
    fn a_layer_without_stretch_leaves_none() {
        assert_eq!(together(0.8, 0.0), 0.0);
    }

    #[test]
    fn a_softer_load_stretches_less() {
        let half = at_load(Stretch::from_ratio(0.8), 2.0).ratio();
        assert!((g(1.0 + half) * 2.0 - g(1.8)).abs() < 1e-12);
        assert!(half < 0.8);
    }

    /// The very definition: at the pair's stretch the two tensions, each F at its own stretch, add up to F.
    #[test]
    fn tensions_add_up_to_the_load() {
        let (s1, s2, ratio) = (0.85, 0.6, 1.5);
        let both = together_at(Stretch::from_ratio(s1), Stretch::from_ratio(s2), ratio).ratio();
        let sum = g(1.0 + both) / g(1.0 + s1) + ratio * g(1.0 + both) / g(1.0 + s2);
        assert!((sum - 1.0).abs() < 1e-12);
    }

    #[test]
    fn hand_and_weight_are_not_compared() {
        assert_eq!(load_ratio(Load::Hand, Load::NewtonPerCm(3.0)), None);
        assert_eq!(
            load_ratio(Load::NewtonPerCm(2.94), Load::NewtonPerCm(3.0)),
            Some(1.0)
        );
        assert_eq!(
            load_ratio(Load::NewtonPerCm(2.0), Load::NewtonPerCm(3.0)),
            Some(1.5)
        );
    }
}
