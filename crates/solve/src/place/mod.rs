//! Where a suit starts on the form: on the skin, level by level.
//!
//! A point of the torso goes to the height its flat height stands for and to the share of the quarter section that its share of the piece's
//! width is; below the waist the middle follows the midline to the crotch, and near the crotch everything does. Straps go over the
//! shoulder in the section at their own distance from the middle, to a station on the shoulder seam. Sewn points are
//! averaged, the whole is smoothed a little and pushed onto the skin.
//!
//! **Shapes and units.** mm, the form's frame; half suits, x >= 0.
//! **Source.** Own trials on fitted forms.
//! **Limits.** A start, not a fit: what a good solve forgets. With friction it is what the cloth clings to.

mod heights;
mod legs;
mod neck_strap;
mod sections;
mod sleeves;
mod strap;
mod torso;
mod triangle;

use draft::Draft;
use thiserror::Error;

use self::legs::Legs;
use self::neck_strap::NeckStrap;
use self::sleeves::Sleeves;
use self::torso::{Panel, Torso, panels, shifts};
use self::triangle::Triangle;
use crate::body_field::BodyField;
use crate::field::Field;
use crate::suit::{Part, SuitMesh};
use crate::vector::{V3, add_scaled};

/// The side of the torso ends this far below the form's underarm, mm.
const BELOW_UNDERARM: f64 = 12.0;
/// How far above the skin the start lies, mm.
const ABOVE_SKIN: f64 = 1.5;
const SMOOTHINGS: usize = 6;

/// Why a suit was not placed.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum Unplaced {
    /// The form has no such section.
    #[error("the form has no section at {0}: the wearer's dimensions may not fit each other")]
    Section(String),
    /// A piece without a side edge to place it by.
    #[error("the {0} has no side edge to place it by")]
    NoSide(String),
}

/// Places a suit on a form.
///
/// # Errors
/// [`Unplaced`] with the reason.
pub fn place(suit: &SuitMesh, draft: &Draft, body: &BodyField) -> Result<Vec<[f64; 3]>, Unplaced> {
    let legs = if suit.has_legs() {
        Some(Legs::new(draft, body)?)
    } else {
        None
    };
    let sleeves = Sleeves::new(draft, body);
    let shifts = shifts(suit, &suit.sewn.draft);
    let sides: &[f64] = if suit.is_whole { &[1.0, -1.0] } else { &[1.0] };
    let panels = panels(suit, &shifts, sides)?;
    let there: Vec<&Panel> = panels.iter().flatten().collect();
    let is_on_torso = |p: &Part| matches!(p, Part::Torso { .. } | Part::Triangle | Part::NeckStrap);
    let torso = if suit.parts.iter().any(is_on_torso) {
        Some(Torso::new(suit, draft, body, &there, sleeves.as_ref())?)
    } else {
        None
    };
    let neck = torso
        .as_ref()
        .and_then(|torso| NeckStrap::new(suit, &there, torso, body));
    let triangle = torso.as_ref().map(|torso| Triangle::new(torso, body));
    let put = |piece: usize, [x, y]: [f64; 2]| -> V3 {
        let at = match suit.parts[piece] {
            Part::Torso { is_front } => {
                let is_right = suit.is_whole && x < 0.0;
                let number = torso::number(is_front, is_right, &suit.pieces[piece], sides.len());
                let sign = if is_right { -1.0 } else { 1.0 };
                let panel = panels.get(number).and_then(Option::as_ref);
                torso.as_ref().zip(panel).map(|(torso, panel)| {
                    let at = torso.put(panel, [sign * x - shifts[piece].at(y), y]);
                    [sign * at[0], at[1], at[2]]
                })
            }
            Part::Leg { is_front } => legs.as_ref().map(|l| l.put(is_front, [x, y])),
            Part::Gusset => legs.as_ref().map(|l| l.put_gusset([x, y])),
            Part::Sleeve => sleeves.as_ref().map(|s| s.put([x, y])),
            Part::NeckStrap => neck.as_ref().map(|n| n.put([x, y])),
            Part::Triangle => torso
                .as_ref()
                .zip(triangle.as_ref())
                .map(|(torso, t)| t.put(torso, [x, y])),
        };
        at.unwrap_or([0.0; 3])
    };
    let mut start: Vec<V3> = suit
        .on
        .iter()
        .map(|on| {
            let share = 1.0 / on.len().max(1) as f64;
            on.iter()
                .fold([0.0; 3], |sum, o| add_scaled(sum, share, put(o.piece, o.flat)))
        })
        .collect();
    settle(suit, body, &mut start, torso.as_ref().and_then(Torso::station));
    for line in &suit.straps {
        strap::lay(line, body, &mut start);
    }
    Ok(start)
}

/// Smooths, keeps the shoulder seam at its station and the fold in the middle, pushes onto the skin.
fn settle(suit: &SuitMesh, body: &BodyField, start: &mut [V3], station: Option<f64>) {
    let held = suit.mesh.held();
    for (p, h) in start.iter_mut().zip(held) {
        if h[0] {
            p[0] = 0.0;
        }
    }
    let stays = stay(suit);
    for _ in 0..SMOOTHINGS {
        push_out(body, start, held);
        let mut sums = vec![[0.0; 4]; start.len()];
        for t in suit.mesh.triangles() {
            for (i, v) in t.corners.iter().enumerate() {
                for j in 1..3 {
                    let n = start[t.corners[(i + j) % 3]];
                    for k in 0..3 {
                        sums[*v][k] += n[k];
                    }
                    sums[*v][3] += 1.0;
                }
            }
        }
        for (v, sum) in sums.iter().enumerate() {
            if sum[3] > 0.0 && !stays[v] {
                for k in 0..3 {
                    if !(held[v][k]) {
                        start[v][k] = 0.5 * start[v][k] + 0.5 * sum[k] / sum[3];
                    }
                }
            }
        }
    }
    for (line, sign) in [(&suit.shoulder, 1.0), (&suit.shoulder_right, -1.0)] {
        if let (Some(station), [first, .., last]) = (station, &line[..]) {
            // The seam at its flat width about the station.
            let on =
                (0..suit.pieces.len()).find(|p| [first, last].iter().all(|v| suit.flat(**v, *p).is_some()));
            let flat = |v: usize| suit.flat(v, on.unwrap_or(0)).unwrap_or([0.0; 2]);
            let (a, b) = (flat(*first), flat(*last));
            let length = |p: [f64; 2]| (p[0] - a[0]).hypot(p[1] - a[1]);
            let whole = length(b);
            for v in line {
                start[*v][0] = sign * (station + length(flat(*v)) - whole / 2.0);
            }
        }
    }
    push_out(body, start, held);
}

/// Points that smoothing would draw in: free triangles, edges that are tied, the ends of tops.
fn stay(suit: &SuitMesh) -> Vec<bool> {
    let is_triangle = |on: &crate::suit::OnPiece| suit.parts.get(on.piece) == Some(&Part::Triangle);
    let mut stays: Vec<bool> = suit.on.iter().map(|on| on.iter().any(is_triangle)).collect();
    let tied = suit.straps.iter().flat_map(|s| s.drawn.iter().flatten());
    for v in tied.chain(suit.ends.iter().flat_map(|e| &e.vertices)) {
        stays[*v] = true;
    }
    stays
}

fn push_out(body: &BodyField, start: &mut [V3], held: &[[bool; 3]]) {
    for (p, h) in start.iter_mut().zip(held) {
        *p = push_out_of(body, *p, h[0]);
    }
}

/// A point out of the body, if it lies in it; in its plane x if that is held.
fn push_out_of(body: &BodyField, mut p: V3, is_held: bool) -> V3 {
    for _ in 0..4 {
        let sample = body.sample(p);
        if sample.g >= ABOVE_SKIN - 0.01 {
            break;
        }
        let mut n = sample.gradient;
        if is_held {
            n[0] = 0.0;
        }
        let squared: f64 = n.iter().map(|x| x * x).sum();
        if squared < 1e-6 {
            break;
        }
        let by = ((ABOVE_SKIN - sample.g) / squared).min(30.0);
        p = add_scaled(p, by, n);
    }
    p
}
