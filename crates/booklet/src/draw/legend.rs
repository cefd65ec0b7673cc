//! A sample of each line of the drawings, for the page that says what they mean.

use kurbo::{Point, Vec2};

use super::piece::{CUT, FOLD, GRAIN, SEAM, STITCHES};
use super::seam::{band, draw_needle};
use super::svg::{PAPER, Stroke, Svg, WASH};
use crate::model::Figure;

/// What a sample shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sign {
    Cut,
    Seam,
    Fold,
    Grain,
    Sewn,
    Elastic,
    WrongSide,
    Needle,
}

/// Every sign with the key of its words, in the order they are shown.
pub(crate) const LEGEND: [(Sign, &str); 8] = [
    (Sign::Cut, "legend-cut"),
    (Sign::Sewn, "legend-sewn"),
    (Sign::Seam, "legend-seam"),
    (Sign::Elastic, "legend-elastic"),
    (Sign::Fold, "legend-fold"),
    (Sign::WrongSide, "legend-wrong-side"),
    (Sign::Grain, "legend-grain"),
    (Sign::Needle, "legend-needle"),
];

const SIZE: (f64, f64) = (18.0, 6.0);

/// The sample of a sign.
pub(crate) fn legend(sign: Sign, says: String) -> Figure {
    let mut svg = Svg::new(SIZE.0, SIZE.1);
    let (left, right) = (Point::new(1.0, 3.0), Point::new(SIZE.0 - 1.0, 3.0));
    let mut line = |stroke: Stroke| svg.path(&[left, right], false, None, Some(stroke));
    match sign {
        Sign::Cut => line(CUT),
        Sign::Seam => line(SEAM),
        Sign::Fold => line(FOLD),
        Sign::Sewn => line(STITCHES),
        Sign::Grain => {
            line(GRAIN);
            svg.head(right, right - left, 1.4, GRAIN);
        }
        Sign::Elastic => band(&mut svg, &[left, right]),
        Sign::WrongSide => svg.rect((1.0, 1.0), (SIZE.0 - 2.0, SIZE.1 - 2.0), Some(WASH), Some(CUT)),
        Sign::Needle => {
            svg.rect((1.0, 1.0), (8.0, SIZE.1 - 2.0), Some(PAPER), Some(CUT));
            draw_needle(&mut svg, Point::new(9.0, 3.0), Vec2::new(0.0, -1.0), SIZE);
        }
    }
    svg.finish(says, String::new())
}
