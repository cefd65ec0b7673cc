//! Lines that stay apart without colour: a rhythm of strokes, gaps and dots for every size.

use crate::ink::Pen;

/// Rhythms, mm of stroke and gap in turn; chosen so that neighbours in size differ at a glance (own).
const RHYTHMS: [&[f64]; 16] = [
    &[],
    &[6.0, 2.0],
    &[1.2, 1.6],
    &[9.0, 1.6, 1.2, 1.6],
    &[3.0, 2.0],
    &[12.0, 1.6, 1.2, 1.6, 1.2, 1.6],
    &[16.0, 3.0],
    &[4.0, 1.6, 1.2, 1.6],
    &[9.0, 1.6, 4.0, 1.6],
    &[1.2, 3.2],
    &[12.0, 1.6, 1.2, 1.6, 1.2, 1.6, 1.2, 1.6],
    &[6.0, 4.5],
    &[4.0, 1.6, 1.2, 1.6, 1.2, 1.6],
    &[16.0, 1.6, 6.0, 1.6],
    &[3.0, 1.4, 3.0, 4.0],
    &[16.0, 1.6, 1.2, 1.6, 4.0, 1.6, 1.2, 1.6],
];

/// Widths: the second round of rhythms is drawn heavier.
const WIDTHS: [f64; 2] = [0.35, 0.8];

/// Sizes on one nest at most.
pub const MOST_SIZES: usize = RHYTHMS.len() * WIDTHS.len();

/// The pen of a size.
pub(crate) fn of_size(size: usize) -> Pen {
    let rhythm = RHYTHMS.get(size % RHYTHMS.len()).copied().unwrap_or_default();
    let width = WIDTHS.get(size / RHYTHMS.len()).copied().unwrap_or(WIDTHS[0]);
    Pen {
        width,
        dash: rhythm,
        round: false,
    }
}

/// The line of a size, for a drawing elsewhere that is to show the same: its width and its strokes and gaps in turn, mm;
/// no strokes for a line without gaps.
pub fn line_of_size(size: usize) -> (f64, &'static [f64]) {
    let Pen { width, dash, .. } = of_size(size);
    (width, dash)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_sizes_have_the_same_line() {
        let all: Vec<Pen> = (0..MOST_SIZES).map(of_size).collect();
        for (i, a) in all.iter().enumerate() {
            assert!(all.iter().skip(i + 1).all(|b| a != b), "{i}: {a:?}");
        }
    }
}
