//! From a worn suit to a better draft: damped Gauss-Newton on the draft's own parameters.
//!
//! What is wanted is a list of terms, each nought where the suit is as wanted; their sum of squares is the objective. Each parameter
//! is tried a little away from where it is, the terms' answers give the step, and the step is kept when the objective really falls
//! (else more damping). Damping also holds every parameter near where it began: the split between front and back is
//! nearly free without friction, and undamped it drifts to drafts nobody would sew.
//!
//! Some things have a ceiling: how hard the suit presses may not rise for the sake of the rest. A step that would pass one by the
//! derivatives is turned to run along it; one that passes it all the same, in the solve, is not kept, and the next is shorter and aims below.
//!
//! Every try is a whole draft, mesh and solve: the mesh may change its joints, so no derivative is carried through it.
//!
//! **Shapes and units.** Parameters in their own units, each with the change that counts as one.
//! **Source.** Gauss-Newton with Levenberg's damping, from memory; own trials on a torso (damping 1e-3 kept a draft sewable). Ceilings: own.
//! **Limits.** A few rounds: it finds a better draft near the one it was given, not the best there is.

use units::Progress;

/// Damping to begin with, as objective per square of a parameter's own change.
const FIRST_DAMPING: f64 = 1e-4;
/// Steps tried in a round: after one that gained nothing the next is damped ten times more, after one that passed a ceiling it is half as long.
const TRIES: usize = 6;
/// A parameter is tried this share of its own change away.
const TRIAL: f64 = 0.5;
/// Parameters whose trial moves no term by more than this do nothing here.
const IDLE: f64 = 1e-7;
/// A round that gains less than this share is the last.
const LEAST_GAIN: f64 = 0.01;
/// What a ceiling that is run along counts beside the terms: a thousandth over it as much as a tenth off in a term, so that a step meets
/// it as near as the derivatives know it.
const CEILING_WEIGHT: f64 = 100.0;

/// Steps aim this much under a ceiling, a share of it: the weight above leaves them a hair over what they aim at.
const FIRST_AIM: f64 = -0.002;
/// With less room than this under a ceiling a step may mean to go further under it.
const LEAST_ROOM: f64 = 0.02;

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
    /// Into how many steps a unit is divided where the parameter is written; no value between them is tried.
    pub steps: f64,
}

impl Knob {
    /// The value this far from `here`, in the knob's own changes, as it is written. Less than half a step leaves it as it is.
    fn moved(&self, here: f64, by: f64) -> f64 {
        let to = (here + by * self.change).clamp(self.low, self.high);
        let written = (to * self.steps).round() / self.steps;
        if (to - here).abs() * self.steps < 0.5 {
            here
        } else {
            written.clamp(self.low, self.high)
        }
    }
}

/// What a try comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// Each nought where the suit is as wanted; of one suit always as many.
    pub terms: Vec<f64>,
    /// How far each thing with a ceiling lies over it, a share of the ceiling; of one suit always as many. A try with one above nought is
    /// not kept, whatever its terms.
    pub over: Vec<f64>,
}

impl Answer {
    fn square(&self) -> f64 {
        self.terms.iter().map(|t| t * t).sum()
    }

    fn is_within(&self) -> bool {
        self.over.iter().all(|o| *o <= 0.0)
    }
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

/// Corrects. `answer` drafts and solves with these values of the knobs and says what comes of it, or `None` for a draft that is refused or a
/// solve that fails. The start counts as within its ceilings.
///
/// Returns `None` when the start itself gives no answer.
pub fn correct(
    knobs: &[Knob],
    rounds: usize,
    answer: &mut dyn FnMut(&[f64]) -> Option<Answer>,
    progress: &dyn Progress,
) -> Option<Corrected> {
    let start: Vec<f64> = knobs.iter().map(|k| k.value).collect();
    let mut now = answer(&start)?;
    let mut found = Corrected {
        values: start,
        objective: vec![now.square()],
        tried: 1,
        idle: Vec::new(),
        is_stopped: false,
    };
    let most = (rounds * (knobs.len() + TRIES)) as u64;
    for round in 0..rounds {
        let mut columns = Vec::with_capacity(knobs.len());
        for (i, knob) in knobs.iter().enumerate() {
            if progress.should_stop() {
                found.is_stopped = true;
                return Some(found);
            }
            progress.at(found.tried as u64, most, &format!("trying {}", knob.key));
            columns.push(column(knob, i, &now, &mut found, answer));
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
        let before = now.square();
        let mut is_better = false;
        let (mut damping, mut share) = (FIRST_DAMPING, 1.0);
        // By how much the ceilings bend away from the derivatives, per square of the step.
        let mut bends = vec![0.0; now.over.len()];
        for _ in 0..TRIES {
            if progress.should_stop() {
                found.is_stopped = true;
                return Some(found);
            }
            let bent = now.over.iter().zip(&bends);
            let aim: Vec<f64> = bent.map(|(from, bend)| aimed(*from, *bend, share)).collect();
            let Some(step) = step_under(&columns, &now, &aim, &offset, damping) else {
                damping *= 10.0;
                continue;
            };
            let values: Vec<f64> = knobs
                .iter()
                .zip(&found.values)
                .zip(&step)
                .map(|((k, v), s)| k.moved(*v, share * s))
                .collect();
            progress.at(found.tried as u64, most, "trying the correction");
            found.tried += 1;
            let Some(there) = answer(&values) else {
                damping *= 10.0;
                continue;
            };
            if !there.is_within() {
                let came = now.over.iter().zip(&aim).zip(&there.over);
                for (bend, ((from, aim), there)) in bends.iter_mut().zip(came) {
                    let meant = from + share * (aim - from);
                    *bend = f64::max(*bend, (there - meant) / (share * share));
                }
                share *= 0.5;
            } else if there.square() < before {
                (found.values, now) = (values, there);
                found.objective.push(now.square());
                is_better = true;
                break;
            } else {
                damping *= 10.0;
            }
        }
        if !is_better || now.square() > (1.0 - LEAST_GAIN) * before {
            break;
        }
    }
    Some(found)
}

/// What a whole step from `from` aims at, so that a `share` of it comes out under the ceiling though that bends. With room left it never
/// means to go back.
fn aimed(from: f64, bend: f64, share: f64) -> f64 {
    let aim = from + (FIRST_AIM - from - bend.max(0.0) * share * share) / share;
    if from < -LEAST_ROOM { aim.max(from) } else { aim }
}

/// How terms and ceilings answer a knob, per its own change.
struct Column {
    terms: Vec<f64>,
    over: Vec<f64>,
}

/// What a knob does; `None` if it moves no term.
fn column(
    knob: &Knob,
    i: usize,
    now: &Answer,
    found: &mut Corrected,
    answer: &mut dyn FnMut(&[f64]) -> Option<Answer>,
) -> Option<Column> {
    let here = found.values[i];
    let is_alike = |a: &Answer| a.terms.len() == now.terms.len() && a.over.len() == now.over.len();
    for sign in [1.0, -1.0] {
        let to = knob.moved(here, sign * TRIAL);
        let by = (to - here) / knob.change;
        if by.abs() < 0.1 * TRIAL {
            continue;
        }
        let mut values = found.values.clone();
        values[i] = to;
        found.tried += 1;
        if let Some(there) = answer(&values).filter(is_alike) {
            let per_change = |there: &[f64], now: &[f64]| -> Vec<f64> {
                there.iter().zip(now).map(|(a, b)| (a - b) / by).collect()
            };
            let terms = per_change(&there.terms, &now.terms);
            return terms.iter().any(|c| c.abs() > IDLE).then(|| Column {
                terms,
                over: per_change(&there.over, &now.over),
            });
        }
    }
    None
}

/// The damped step that passes no ceiling by the derivatives: those it would pass are run along, one more each time until it passes none.
fn step_under(
    columns: &[Option<Column>],
    now: &Answer,
    aim: &[f64],
    offset: &[f64],
    damping: f64,
) -> Option<Vec<f64>> {
    let mut along: Vec<usize> = Vec::new();
    loop {
        let with_ceilings = |terms: &[f64], over: &[f64]| -> Vec<f64> {
            let held = along.iter().map(|c| CEILING_WEIGHT * over[*c]);
            terms.iter().copied().chain(held).collect()
        };
        let rows: Vec<Option<Vec<f64>>> = columns
            .iter()
            .map(|c| c.as_ref().map(|c| with_ceilings(&c.terms, &c.over)))
            .collect();
        let to_go: Vec<f64> = now.over.iter().zip(aim).map(|(o, a)| o - a).collect();
        let step = step(&rows, &with_ceilings(&now.terms, &to_go), offset, damping)?;
        let comes_to = |c: usize| -> f64 {
            let moves = columns.iter().zip(&step);
            to_go[c]
                + moves
                    .map(|(column, s)| s * column.as_ref().map_or(0.0, |k| k.over[c]))
                    .sum::<f64>()
        };
        match (0..aim.len()).find(|c| !along.contains(c) && comes_to(*c) > 0.0) {
            Some(ceiling) => along.push(ceiling),
            None => return Some(step),
        }
    }
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
            steps: 1e9,
        }
    }

    fn free(terms: Vec<f64>) -> Answer {
        Answer {
            terms,
            over: Vec::new(),
        }
    }

    /// Terms linear in the knobs: one round is the answer but for the damping.
    #[test]
    fn a_linear_suit_is_corrected_in_one_round() {
        let knobs = [knob("a", 0.0, -10.0, 10.0, 1.0), knob("b", 5.0, 0.0, 10.0, 2.0)];
        let mut terms = |v: &[f64]| {
            Some(free(vec![
                0.3 * (v[0] - 2.0),
                0.2 * (v[1] - 6.0),
                0.1 * (v[0] - v[1] + 4.0),
            ]))
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
        let mut terms = |v: &[f64]| (v[2] == 0.0).then(|| free(vec![v[0] - 3.0, 0.5]));
        let found = correct(&knobs, 4, &mut terms, &Silent).unwrap();
        assert_eq!(found.values, [1.0, 0.0, 0.0]);
        assert_eq!(found.idle, ["none", "no"]);
        assert!(correct(&knobs, 1, &mut |_| None, &Silent).is_none());
    }

    /// The objective falls from round to round though the terms bend.
    #[test]
    fn a_bent_answer_still_falls() {
        let knobs = [knob("a", 0.1, -5.0, 5.0, 0.5), knob("b", 0.1, -5.0, 5.0, 0.5)];
        let mut terms = |v: &[f64]| Some(free(vec![v[0].exp() - 2.0, v[0] * v[1] - 1.0]));
        let found = correct(&knobs, 6, &mut terms, &Silent).unwrap();
        assert!(found.objective.windows(2).all(|w| w[1] < w[0]), "{found:?}");
        assert!(found.gain() > 0.9, "{found:?}");
    }
    /// Source: closed form. Nearest to (3, 3) of all with a + b at most 4 is (2, 2); a step that runs along the ceiling gets there.
    #[test]
    fn a_ceiling_is_run_along() {
        let knobs = [knob("a", 1.0, -5.0, 5.0, 1.0), knob("b", 0.5, -5.0, 5.0, 1.0)];
        let mut answer = |v: &[f64]| {
            Some(Answer {
                terms: vec![0.1 * (v[0] - 3.0), 0.1 * (v[1] - 3.0)],
                over: vec![(v[0] + v[1]) / 4.0 - 1.0],
            })
        };
        let found = correct(&knobs, 6, &mut answer, &Silent).unwrap();
        assert!(found.values.iter().all(|v| (v - 2.0).abs() < 0.02), "{found:?}");
    }

    /// A ceiling that bends is passed by no value that is kept, and does not end the search.
    #[test]
    fn a_bent_ceiling_is_not_passed() {
        let knobs = [knob("a", 0.2, -5.0, 5.0, 0.5), knob("b", 0.2, -5.0, 5.0, 0.5)];
        let over = |v: &[f64]| v[0] * v[0] + v[1] * v[1] - 1.0;
        let mut answer = |v: &[f64]| {
            Some(Answer {
                terms: vec![v[0] - 3.0, 0.2 * (v[1] - 3.0)],
                over: vec![over(v)],
            })
        };
        let found = correct(&knobs, 8, &mut answer, &Silent).unwrap();
        assert!(over(&found.values) <= 0.0, "{found:?}");
        // Without the ceiling it would go to 3.
        assert!(found.values[0] > 0.85, "{found:?}");
    }

    #[test]
    fn values_are_tried_as_they_are_written() {
        let tenths = Knob {
            steps: 10.0,
            ..knob("a", 0.2512, 0.0, 5.0, 1.0)
        };
        let mut all = Vec::new();
        let mut answer = |v: &[f64]| {
            all.push(v[0]);
            Some(free(vec![v[0] - 1.234]))
        };
        let found = correct(&[tenths], 3, &mut answer, &Silent).unwrap();
        assert_eq!(found.values, [1.2]);
        let is_written = |v: &f64| (10.0 * v - (10.0 * v).round()).abs() < 1e-9;
        assert!(all.iter().all(|v| *v == 0.2512 || is_written(v)), "{all:?}");
    }
}
