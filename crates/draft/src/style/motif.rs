//! Where the motifs of a large print go: where none may sit, where one should, and how front and back are laid so that the print meets
//! at the side.
//!
//! A motif's middle is kept off both bust points and off the fullest place of the seat on either side; one sits well on the centre
//! front at bust height, or below a neckline that is deeper. Both pieces lie the same way up with their waists a whole number of repeats
//! apart; across, what lies between the two centres round one side is the sum of the two half widths, so that one side can always be
//! matched and the other only where twice that sum is a whole number of repeats.
//!
//! **Shapes and units.** mm flat, piece frame; the repeat as the cloth lies, the same lengthwise and across.
//! **Source.** Where motifs sit: common practice, no single source. The matching: by the geometry of the pieces. Ring and places on the
//! seat: own.
//! **Limits.** Widths are matched at one height only: over a curved seam a print drifts. A half drop is not reckoned with.

use cloth::Layer;
use kurbo::{Point, Vec2};
use units::{Finding, Level, Mm, Severity};

use super::{Drawn, Job};
use crate::build::{flat_outline, placement};
use crate::geometry::{Curve, point_in_polygon, x_spans};
use crate::parameter::Parameter;
use crate::piece::{EdgeUse, Mark, Piece};
use crate::refusal::Refusal;

pub(super) const MOTIF_REPEAT: Parameter = Parameter::length(
    "motif_repeat",
    "Repeat of a large print",
    "distance after which the print repeats, to place its motifs by; 0 for a cloth without large motifs",
    (0.0, 0.0, 640.0),
);

/// A print that repeats sooner has no motif to place, mm (own).
const LEAST_REPEAT: f64 = 60.0;
/// Radius of the place kept free of a motif's middle, mm (own).
const KEPT_FREE: f64 = 25.0;
/// Half the line a motif is centred on, mm.
const HALF_LINE: f64 = 30.0;
/// A motif below a deep neckline is centred this far under it, mm (own).
const BELOW_NECK: f64 = 40.0;
const STEPS: usize = 48;

/// Marks the pieces and says how they are laid, if a repeat is set.
///
/// # Errors
/// [`Refusal`] for a repeat out of its range or too small to place anything by.
pub(crate) fn place(job: &Job<'_>, drawn: &mut Drawn) -> Result<(), Refusal> {
    if job.design.style.own(MOTIF_REPEAT.key).is_none() {
        return Ok(());
    }
    let repeat = job.number(&MOTIF_REPEAT)?;
    if repeat == 0.0 {
        return Ok(());
    }
    if repeat < LEAST_REPEAT {
        return Err(Refusal::Combination {
            parameter: MOTIF_REPEAT.key,
            why: "a print that repeats within 6 cm has no motif to place; set it to 0",
        });
    }
    let bust = drawn.pieces.iter().filter(|p| is_shell(p)).find_map(bust_point);
    let hip_y = drawn
        .levels
        .iter()
        .find(|l| l.level == Level::Hip)
        .map(|l| l.y_mm);
    for piece in drawn.pieces.iter_mut().filter(|p| is_shell(p)) {
        mark(piece, bust, hip_y);
    }
    drawn.findings.push(laid(drawn, repeat));
    Ok(())
}

fn is_shell(piece: &Piece) -> bool {
    piece.cuts.iter().any(|c| c.layer == Layer::Shell)
}

fn bust_point(piece: &Piece) -> Option<Point> {
    piece.marks.iter().find_map(|m| match m {
        Mark::Cross { at, text } if text == "bust point" => Some(*at),
        _ => None,
    })
}

fn mark(piece: &mut Piece, bust: Option<Point>, hip_y: Option<f64>) {
    let outline = flat_outline(&piece.edges);
    if let Some(at) = bust_point(piece) {
        keep_free(piece, &outline, at, "bust: no motif's middle in here");
    }
    if piece.key.contains("back")
        && let Some(y) = hip_y
        && let Some(&(left, right)) = x_spans(&outline, y).last()
        && right - left > 4.0 * HALF_LINE
    {
        let at = Point::new(0.5 * (left + right), y);
        keep_free(piece, &outline, at, "seat: no motif's middle in here");
    }
    if piece.on_fold && piece.key.contains("front") {
        let fold: Vec<Point> = piece
            .edges
            .iter()
            .filter(|e| e.role == EdgeUse::Fold)
            .flat_map(|e| [e.curve.start(), e.curve.end()])
            .collect();
        let (low, high) = fold.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), p| {
            (a.min(p.y), b.max(p.y))
        });
        // A front without a bust point, a brief's, is centred half way.
        let y = bust.map_or(0.5 * (low + high), |p| p.y.min(high - BELOW_NECK));
        if y > low {
            piece.marks.push(placement(
                Point::new(0.0, y),
                Point::new(HALF_LINE, y),
                "centre a motif here",
            ));
        }
    }
}

/// A ring about a point, as far as it lies on the piece.
fn keep_free(piece: &mut Piece, outline: &[Point], at: Point, text: &str) {
    let ring: Vec<Point> = (0..STEPS)
        .map(|i| {
            let angle = std::f64::consts::TAU * i as f64 / STEPS as f64;
            at + Vec2::new(angle.cos(), angle.sin()) * KEPT_FREE
        })
        .collect();
    let is_in: Vec<bool> = ring.iter().map(|&p| point_in_polygon(outline, p)).collect();
    let points: Vec<Point> = match (0..STEPS).find(|&i| is_in[i] && !is_in[(i + STEPS - 1) % STEPS]) {
        None if is_in[0] => ring.iter().chain(ring.first()).copied().collect(),
        None => Vec::new(),
        Some(first) => (0..STEPS)
            .map(|i| (first + i) % STEPS)
            .take_while(|&i| is_in[i])
            .map(|i| ring[i])
            .collect(),
    };
    if points.len() > 2 {
        let curve = points
            .windows(2)
            .skip(1)
            .fold(Curve::line(points[0], points[1]), |run, w| {
                run.then(&Curve::line(w[0], w[1]))
            });
        piece.marks.push(Mark::Placement {
            curve,
            text: text.into(),
        });
    }
}

/// Half widths of front and back at the height where their sides are matched, and whether that is the waist.
fn half_widths(drawn: &Drawn) -> Option<(f64, f64, bool)> {
    let of = |key: &str| drawn.pieces.iter().find(|p| p.key == key && p.on_fold);
    let (front, back) = (of("front")?, of("back")?);
    let reach = |p: &Piece| {
        let side = p
            .edges
            .iter()
            .find(|e| e.name == "side" || e.name == "side_low")?;
        let (a, b) = (side.curve.start().y, side.curve.end().y);
        Some((a.min(b), a.max(b)))
    };
    let (f, b) = (reach(front)?, reach(back)?);
    let (low, high) = (f.0.max(b.0), f.1.min(b.1));
    if low >= high {
        return None;
    }
    let is_waist = low < 0.0 && high > 0.0;
    let y = if is_waist { 0.0 } else { 0.5 * (low + high) };
    let width = |p: &Piece| x_spans(&flat_outline(&p.edges), y).last().map(|s| s.1);
    Some((width(front)?, width(back)?, is_waist))
}

/// How front and back are laid on the print.
fn laid(drawn: &Drawn, repeat: f64) -> Finding {
    let cm = |mm: f64| Mm::new(mm).to_cm_text();
    if drawn.pieces.iter().all(|p| !p.key.contains("back")) {
        return Finding {
            code: "motif.lay",
            severity: Severity::Good,
            place: "print".into(),
            message: format!(
                "cut left and right from the same place of the print, a whole number of repeats ({}) apart and the same way up: only a print \
                 that is its own mirror image then looks alike on both",
                cm(repeat)
            ),
            value: None,
            limit: None,
            remedy: String::new(),
        };
    }
    let mut message = format!(
        "lay front and back the same way up on the print, the same level of both a whole number of repeats ({}) apart: the print then \
         meets along the side seam wherever nothing is eased or darted",
        cm(repeat)
    );
    let mut off = None;
    if let Some((front, back, is_waist)) = half_widths(drawn) {
        let round = front + back;
        let both = (2.0 * round).rem_euclid(repeat);
        let miss = both.min(repeat - both);
        message.push_str(&format!(
            "; across, put the centre back {} further on than the centre front, plus any whole repeats: at {} the print then runs on \
             over the side seam on that side, and on the other it is {} out",
            cm(round.rem_euclid(repeat)),
            if is_waist {
                "the waist"
            } else {
                "the middle of the side seam"
            },
            cm(miss)
        ));
        off = Some(miss);
    } else {
        message.push_str(
            "; front or back is cut in parts here: lay each part beside its neighbour and match seam by seam",
        );
    }
    Finding {
        code: "motif.lay",
        severity: Severity::Good,
        place: "print".into(),
        message,
        value: off,
        limit: None,
        remedy: String::new(),
    }
}
