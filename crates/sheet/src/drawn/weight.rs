//! How heavy lines and letters are: for paper, or to be seen under a projector.
//!
//! **Source.** 1.5 mm lines under a projector: `data/trade/print.toml [pdf.line_mm]`, common practice.

use crate::ink::Pen;

/// How heavy the lines are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Weight {
    /// As on paper.
    Paper,
    /// 1.5 mm at least, to be seen under a projector.
    Projected,
}

/// Lines under a projector are at least this wide, mm (common practice, no single source).
const PROJECTED_LINE: f64 = 1.5;

impl Weight {
    pub(crate) fn pen(self, pen: Pen) -> Pen {
        match self {
            Weight::Paper => pen,
            Weight::Projected => Pen {
                width: pen.width.max(PROJECTED_LINE),
                dash: projected_dash(pen),
                ..pen
            },
        }
    }

    /// Words are twice as large when projected.
    pub(crate) fn letters(self) -> f64 {
        match self {
            Weight::Paper => 1.0,
            Weight::Projected => 2.0,
        }
    }
}

/// The rhythm of a pen at the width of a projected line; thin dashes would close up.
fn projected_dash(pen: Pen) -> &'static [f64] {
    match pen.dash.len() {
        0 => &[],
        2 if pen.round => &[0.0, 5.0],
        2 => &[12.0, 6.0],
        _ => &[20.0, 5.0, 4.0, 5.0],
    }
}
