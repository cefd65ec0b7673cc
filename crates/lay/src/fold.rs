//! How deep a cloth may be folded over: only as deep as its pieces need, so that the rest stays wide in one layer.
//!
//! A depth is worth trying when something just fits into the double lane: half of a piece on the fold, a pair beside each other's mirror
//! image, or two of these one next to the other. Anything between two such depths only takes from the single lane.
//!
//! **Shapes and units.** mm across the cloth, from the fold.
//! **Source.** Partial fold, two lanes: common practice, no single source; which depths are tried: own.

use cloth::Orientation;

use crate::lay::LayRequest;
use crate::piece::LayPiece;
use crate::polygon::Bounds;

/// A fold is chalked to this, mm: finer cannot be laid.
const STEP_MM: f64 = 5.0;
/// Outlines are grown by a few hundredths of a millimetre while they are packed.
const ROOM_MM: f64 = 0.5;
/// So many depths at most: each is a lay.
const MOST: usize = 5;

/// The depths worth trying for these pieces, whole steps of 5 mm, the least first; none when no piece comes out double.
pub fn fold_depths(request: &LayRequest) -> Vec<f64> {
    let cloth = &request.cloth;
    let mut needs: Vec<f64> = request.pieces.iter().filter_map(across_when_double).collect();
    needs.sort_by(f64::total_cmp);
    needs.dedup_by(|a, b| *a - *b < STEP_MM);
    let pairs = needs
        .iter()
        .enumerate()
        .flat_map(|(i, a)| needs.iter().skip(i).map(move |b| a + b + cloth.gap_mm));
    let mut all: Vec<f64> = needs.iter().copied().chain(pairs).collect();
    for need in &mut all {
        *need = ((*need + cloth.selvedge_margin_mm + ROOM_MM) / STEP_MM).ceil() * STEP_MM;
    }
    // From half of the width on it is the plain fold.
    all.retain(|depth| *depth >= STEP_MM && *depth < 0.5 * cloth.width_mm);
    all.dedup();
    all.truncate(MOST);
    all.sort_by(f64::total_cmp);
    all.dedup();
    all
}

/// What a piece takes of the double lane; none for one that is cut once and has no fold of its own.
fn across_when_double(piece: &LayPiece) -> Option<f64> {
    let bounds = Bounds::of(&piece.outline);
    let across = match piece.orientation {
        Orientation::Upright => bounds.width(),
        Orientation::Turned => bounds.height(),
    };
    if piece.is_symmetric && piece.orientation == Orientation::Upright {
        Some(bounds.x1.max(-bounds.x0))
    } else {
        (piece.comes_in_twos() && piece.count > 1).then_some(across)
    }
}

#[cfg(test)]
mod tests {
    use kurbo::Point;

    use super::*;
    use crate::cloth::LayCloth;

    fn piece(width: f64, is_symmetric: bool, count: u32) -> LayPiece {
        let outline = [(-0.5, 0.0), (0.5, 0.0), (0.5, 300.0), (-0.5, 300.0)];
        LayPiece {
            key: "front".into(),
            name: "Front".into(),
            letter: 'A',
            garment: 0,
            outline: outline.iter().map(|&(x, y)| Point::new(x * width, y)).collect(),
            is_symmetric,
            orientation: Orientation::Upright,
            count,
            is_pair: count == 2,
            either_face: false,
            may_lie_crosswise: false,
            bears_grade: 0,
            match_point: None,
            label_at: Point::ZERO,
            grain: (Point::ZERO, Point::new(0.0, 50.0)),
        }
    }

    fn depths(width: f64, pieces: Vec<LayPiece>) -> Vec<f64> {
        fold_depths(&LayRequest {
            garments: vec!["Tove".into()],
            pieces,
            cloth: LayCloth::of_width("tricot", width),
        })
    }

    /// By hand: half of 400 and 10 mm of selvedge is 210, up to the next 5 with half a millimetre of room 215; a pair of 250 takes 265; two
    /// halves beside each other 413.5, half and pair 463.5, two pairs 513.5.
    #[test]
    fn a_fold_is_as_deep_as_something_needs() {
        let all = depths(1500.0, vec![piece(400.0, true, 1), piece(250.0, false, 2)]);
        assert_eq!(all, [215.0, 265.0, 415.0, 465.0, 515.0]);
        // Not deeper than down the middle, and nothing where nothing comes out double.
        assert_eq!(
            depths(900.0, vec![piece(400.0, true, 1), piece(250.0, false, 2)]),
            [215.0, 265.0, 415.0]
        );
        assert_eq!(depths(1500.0, vec![piece(250.0, false, 1)]), [] as [f64; 0]);
    }
}
