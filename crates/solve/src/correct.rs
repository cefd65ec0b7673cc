//! From a worn suit to a better draft: damped Gauss-Newton on the draft's own parameters.
//!
//! What is wanted is a list of terms, each nought where the suit is as wanted; their sum of squares is the objective. Each parameter
//! is tried a little away from where it is, the terms' answers give the step, and the step is kept when the objective really falls
//! (else more damping). Damping also holds every parameter near where it began: the split between front and back is
//! nearly free without friction, and undamped it drifts to drafts nobody would sew.
//!
//! Every try is a whole draft, mesh and solve: the mesh may change its joints, so no derivative is carried through it.
//!
//! **Shapes and units.** Parameters in their own units, each with the change that counts as one.
//! **Source.** Gauss-Newton with Levenberg's damping, from memory; own trials on a torso (damping 1e-3 kept a draft sewable).
//! **Limits.** A few rounds: it finds a better draft near the one it was given, not the best there is.

use units::Progress;

/// Damping to begin with, as objective per square of a parameter's own change.
const FIRST_DAMPING: f64 = 1e-4;
/// Dampings tried in a round, each ten times the last.
const DAMPINGS: usize = 4;
/// A parameter is tried this share of its own change away.
const TRIAL: f64 = 0.5;
/// Parameters whose trial moves no term by more than this do nothing here.
const IDLE: f64 = 1e-7;
/// A round that gains less than this share is the last.
const LEAST_GAIN: f64 = 0.01;

/// A draft parameter a correction may set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Knob {
    /// Key in the suit file's design section.
    pub key: &'static str,
    /// What it is.
    pub value: f64,
    /// Least.
    pub low: f64,
    /// Most.
    pub high: f64,
    /// The change that counts as one: what a maker would notice.
    pub change: f64,
}

/// What a correction came to.
#[derive(Clone, Debug, PartialEq)]
pub struct Corrected {
    /// Values of the knobs, in their order.
    pub values: Vec<f64>,
    /// Objective before, and after each round that gained.
    pub objective: Vec<f64>,
    /// Drafts that were tried.
    pub tried: usize,
    /// Keys that move nothing here, or whose tries were all refused.
    pub idle: Vec<&'static str>,
    /// Whether whoever waited asked to stop.
    pub is_stopped: bool,
}

impl Corrected {
    /// Share by which the objective fell.
    pub fn gain(&self) -> f64 {
        match (self.objective.first(), self.objective.last()) {
            (Some(a), Some(b)) if *a > 0.0 => 1.0 - b / a,
            _ => 0.0,
        }
    }
}

/// Corrects. `terms` drafts and solves with these values of the knobs and gives the terms, always as many, or `None` for a draft that
/// is refused or a solve that fails.
///
/// Returns `None` when the start itself gives no terms.
pub fn correct(
    knobs: &[Knob],
    rounds: usize,
    terms: &mut dyn FnMut(&[f64]) -> Option<Vec<f64>>,
    progress: &dyn Progress,
) -> Option<Corrected> {
    let start: Vec<f64> = knobs.iter().map(|k| k.value).collect();
    let mut now = terms(&start)?;
    let mut found = Corrected {
        values: start,
        objective: vec![square(&now)],
        tried: 1,
        idle: Vec::new(),
        is_stopped: false,
    };
    let most = (rounds * (knobs.len() + DAMPINGS)) as u64;
    for round in 0..rounds {
        let mut columns = Vec::with_capacity(knobs.len());
        for (i, knob) in knobs.iter().enumerate() {
            if progress.should_stop() {
                found.is_stopped = true;
                return Some(found);
            }
            progress.at(found.tried as u64, most, &format!("trying {}", knob.key));
            columns.push(column(knob, i, &now, &mut found, terms));
        }
        if round == 0 {
            let idle = knobs.iter().zip(&columns).filter(|(_, c)| c.is_none());
            found.idle = idle.map(|(k, _)| k.key).collect();
        }
        let offset: Vec<f64> = knobs
            .iter()
            .zip(&found.values)
            .map(|(k, v)| (v - k.value) / k.change)
            .collect();
        let before = square(&now);
        let mut is_better = false;
        for power in 0..DAMPINGS {
            if progress.should_stop() {
                found.is_stopped = true;
                return Some(found);
            }
            let damping = FIRST_DAMPING * 10_f64.powi(power as i32);
            let Some(step) = step(&columns, &now, &offset, damping) else {
                continue;
            };
            let values: Vec<f64> = knobs
                .iter()
                .zip(&found.values)
                .zip(&step)
                .map(|((k, v), s)| (v + s * k.change).clamp(k.low, k.high))
                .collect();
            progress.at(found.tried as u64, most, "trying the correction");
            found.tried += 1;
            if let Some(there) = terms(&values)
                && square(&there) < before
            {
                (found.values, now) = (values, there);
                found.objective.push(square(&now));
                is_better = true;
                break;
            }
        }
        if !is_better || square(&now) > (1.0 - LEAST_GAIN) * before {
            break;
        }
    }
    Some(found)
}

fn square(terms: &[f64]) -> f64 {
    terms.iter().map(|t| t * t).sum()
}

/// How the terms answer a knob, per its own change; `None` if they don't.
fn column(
    knob: &Knob,
    i: usize,
    now: &[f64],
    found: &mut Corrected,
    terms: &mut dyn FnMut(&[f64]) -> Option<Vec<f64>>,
) -> Option<Vec<f64>> {
    let here = found.values[i];
    for sign in [1.0, -1.0] {
        let to = (here + sign * TRIAL * knob.change).clamp(knob.low, knob.high);
        let by = (to - here) / knob.change;
        if by.abs() < 0.1 * TRIAL {
            continue;
        }
        let mut values = found.values.clone();
        values[i] = to;
        found.tried += 1;
        if let Some(there) = terms(&values).filter(|t| t.len() == now.len()) {
            let column: Vec<f64> = there.iter().zip(now).map(|(a, b)| (a - b) / by).collect();
            return column.iter().any(|c| c.abs() > IDLE).then_some(column);
        }
    }
    None
}

/// The damped step in the knobs' own changes: (J^T J + mu I) s = -J^T r - mu q, q how far they already are from the start.
fn step(columns: &[Option<Vec<f64>>], r: &[f64], offset: &[f64], damping: f64) -> Option<Vec<f64>> {
    let n = columns.len();
    let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(x, y)| x * y).sum::<f64>();
    let mut a = vec![vec![0.0; n + 1]; n];
    for (i, (row, own)) in a.iter_mut().zip(columns).enumerate() {
        row[i] = damping;
        let Some(own) = own else { continue };
        for (x, other) in row.iter_mut().zip(columns) {
            *x += other.as_ref().map_or(0.0, |other| dot(own, other));
        }
        row[n] = -dot(own, r) - damping * offset[i];
    }
    // Positive definite: elimination needs no pivots.
    for i in 0..n {
        let pivot = a[i][i];
        if !(pivot.is_finite() && pivot > 0.0) {
            return None;
        }
        let row = a[i].clone();
        for (k, other) in a.iter_mut().enumerate() {
            if k != i {
                let by = other[i] / pivot;
                for (x, y) in other.iter_mut().zip(&row).skip(i) {
                    *x -= by * y;
                }
            }
        }
    }
    Some((0..n).map(|i| a[i][n] / a[i][i]).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use units::Silent;

    fn knob(key: &'static str, value: f64, low: f64, high: f64, change: f64) -> Knob {
        Knob {
            key,
            value,
            low,
            high,
            change,
        }
    }

    /// Terms linear in the knobs: one round is the answer but for the damping.
    #[test]
    fn a_linear_suit_is_corrected_in_one_round() {
        let knobs = [knob("a", 0.0, -10.0, 10.0, 1.0), knob("b", 5.0, 0.0, 10.0, 2.0)];
        let mut terms = |v: &[f64]| {
            Some(vec![
                0.3 * (v[0] - 2.0),
                0.2 * (v[1] - 6.0),
                0.1 * (v[0] - v[1] + 4.0),
            ])
        };
        let found = correct(&knobs, 3, &mut terms, &Silent).unwrap();
        assert!(
            (found.values[0] - 2.0).abs() < 0.01 && (found.values[1] - 6.0).abs() < 0.01,
            "{found:?}"
        );
        assert!(found.gain() > 0.99 && found.idle.is_empty());
    }

    #[test]
    fn bounds_hold_and_refused_tries_are_passed_over() {
        let knobs = [
            knob("a", 0.9, 0.0, 1.0, 1.0),
            knob("none", 0.0, -1.0, 1.0, 1.0),
            knob("no", 0.0, -1.0, 1.0, 1.0),
        ];
        let mut terms = |v: &[f64]| (v[2] == 0.0).then(|| vec![v[0] - 3.0, 0.5]);
        let found = correct(&knobs, 4, &mut terms, &Silent).unwrap();
        assert_eq!(found.values, [1.0, 0.0, 0.0]);
        assert_eq!(found.idle, ["none", "no"]);
        assert!(correct(&knobs, 1, &mut |_| None, &Silent).is_none());
    }

    /// The objective falls from round to round though the terms bend.
    #[test]
    fn a_bent_answer_still_falls() {
        let knobs = [knob("a", 0.1, -5.0, 5.0, 0.5), knob("b", 0.1, -5.0, 5.0, 0.5)];
        let mut terms = |v: &[f64]| Some(vec![v[0].exp() - 2.0, v[0] * v[1] - 1.0]);
        let found = correct(&knobs, 6, &mut terms, &Silent).unwrap();
        assert!(found.objective.windows(2).all(|w| w[1] < w[0]), "{found:?}");
        assert!(found.gain() > 0.9, "{found:?}");
    }
}
