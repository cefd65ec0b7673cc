//! What to ask for in the shop, what it costs, and what is left over.
//!
//! **Shapes and units.** mm; `table` for remnants; prices in the maker's currency for a metre.
//! **Source.** Buying rule and sale steps: common practice, no single source; 5 % where no wash test was made: common practice. One
//! repeat more for matching: Woodhead, Industrial Cutting of Textile Materials, p. 228.
//! **Limits.** Remnants are rectangles on a raster of 10 mm; what is left between pieces in other forms is waste.

use serde::Serialize;

use crate::lay::{Lay, LayRequest};
use crate::polygon::{self, Bounds};

/// What a shop cuts by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SaleStep {
    /// A tenth of a metre.
    #[default]
    Tenth,
    /// An eighth of a yard, 114.3 mm.
    EighthYard,
}

impl SaleStep {
    /// Its length.
    pub const fn mm(self) -> f64 {
        match self {
            SaleStep::Tenth => 100.0,
            SaleStep::EighthYard => 114.3,
        }
    }

    /// The words on paper.
    pub const fn name(self) -> &'static str {
        match self {
            SaleStep::Tenth => "0.1 m",
            SaleStep::EighthYard => "1/8 yd",
        }
    }
}

/// How it is bought.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct BuyRules {
    /// What the shop cuts by.
    pub step: SaleStep,
    /// Shrinkage along, a ratio, when the cloth is bought unwashed and washed before it is cut.
    pub shrinks_along: Option<f64>,
    /// Length for test strips: 200 mm unless the swatch is in hand already.
    pub test_strip_mm: f64,
    /// The shop's least cut.
    pub least_mm: f64,
    /// Price of a metre.
    pub price_per_metre: Option<f64>,
}

/// What to buy.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Buying {
    /// Each part of the length with its reason.
    pub parts: Vec<BuyPart>,
    /// What is needed before rounding.
    pub need_mm: f64,
    /// What to ask for.
    pub buy_mm: f64,
    /// That many sale steps.
    pub steps: u32,
    /// The step.
    pub step: &'static str,
    /// What it costs.
    pub price: Option<f64>,
    /// Share of the bought cloth that becomes no piece, selvedges included.
    pub waste: f64,
}

/// A part of the length to buy.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BuyPart {
    /// Why.
    pub why: &'static str,
    /// How much.
    pub mm: f64,
}

/// The length to buy for a lay.
pub fn buying(request: &LayRequest, lay: &Lay, rules: &BuyRules) -> Buying {
    let cloth = &request.cloth;
    let mut parts = vec![
        BuyPart {
            why: "the lay",
            mm: lay.length_mm,
        },
        BuyPart {
            why: "both ends",
            mm: 2.0 * cloth.end_allowance_mm,
        },
    ];
    if let Some(repeat) = cloth.repeat_mm.0 {
        parts.push(BuyPart {
            why: "one repeat, to begin in phase",
            mm: repeat,
        });
    }
    if rules.test_strip_mm > 0.0 {
        parts.push(BuyPart {
            why: "test strips",
            mm: rules.test_strip_mm,
        });
    }
    let washed: f64 = parts.iter().map(|p| p.mm).sum();
    if let Some(shrinks) = rules.shrinks_along.filter(|s| *s > 0.0 && *s < 0.5) {
        parts.push(BuyPart {
            why: "shrinkage in the first wash",
            mm: washed / (1.0 - shrinks) - washed,
        });
    }
    let need_mm: f64 = parts.iter().map(|p| p.mm).sum();
    let wanted = need_mm.max(rules.least_mm);
    // A hair over a step is no reason to buy another.
    let steps = ((wanted - 0.05) / rules.step.mm()).ceil().max(1.0) as u32;
    let buy_mm = f64::from(steps) * rules.step.mm();
    Buying {
        parts,
        need_mm,
        buy_mm,
        steps,
        step: rules.step.name(),
        price: rules.price_per_metre.map(|p| p * buy_mm / 1000.0),
        waste: (1.0 - request.area_mm2() / (cloth.width_mm * buy_mm)).max(0.0),
    }
}

/// A rectangle of cloth that is left.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Remnant {
    /// Its lower corner along, `table`.
    pub x_mm: f64,
    /// And across.
    pub y_mm: f64,
    /// Extent along.
    pub length_mm: f64,
    /// Extent across.
    pub width_mm: f64,
    /// Layers of cloth there.
    pub layers: u32,
}

const RASTER_MM: f64 = 10.0;
/// Smaller is not worth keeping: a strap is 100 mm of cloth.
const LEAST_REMNANT_MM: f64 = 100.0;
/// So many at most.
const MOST_REMNANTS: usize = 4;

/// The largest rectangles left of a cloth of that length, the largest first; none smaller than 100 mm either way.
pub fn remnants(request: &LayRequest, lay: &Lay, there_is_mm: f64) -> Vec<Remnant> {
    let cloth = &request.cloth;
    let columns = (there_is_mm.min(1e5) / RASTER_MM).floor() as usize;
    let rows = (cloth.table_width_mm() / RASTER_MM).floor() as usize;
    if columns == 0 || rows == 0 {
        return Vec::new();
    }
    let mut is_used = vec![false; columns * rows];
    let mut rings: Vec<Vec<kurbo::Point>> = lay
        .placed
        .iter()
        .filter_map(|p| Some(p.outline(request.pieces.get(p.piece)?)))
        .collect();
    rings.extend(cloth.flaws.iter().map(|f| f.outline.clone()));
    if let Some(remnant) = &cloth.remnant {
        rings.extend(crate::setting::missing(remnant));
    }
    for ring in &rings {
        mark(&mut is_used, columns, rows, ring);
    }
    let mut all = Vec::new();
    while all.len() < MOST_REMNANTS {
        let Some((x, y, w, h)) = largest(&is_used, columns, rows) else {
            break;
        };
        for row in y..y + h {
            is_used[row * columns + x..row * columns + x + w].fill(true);
        }
        let (length_mm, width_mm) = (w as f64 * RASTER_MM, h as f64 * RASTER_MM);
        if length_mm < LEAST_REMNANT_MM || width_mm < LEAST_REMNANT_MM {
            break;
        }
        let y_mm = y as f64 * RASTER_MM;
        let is_double = cloth
            .lanes()
            .iter()
            .any(|l| l.2 && y_mm + 0.5 * width_mm < l.1 + cloth.selvedge_margin_mm);
        all.push(Remnant {
            x_mm: x as f64 * RASTER_MM,
            y_mm,
            length_mm,
            width_mm,
            layers: 1 + u32::from(is_double),
        });
    }
    all
}

/// Marks every cell a ring touches.
fn mark(is_used: &mut [bool], columns: usize, rows: usize, ring: &[kurbo::Point]) {
    let b = Bounds::of(ring);
    let cell = |v: f64, most: usize| ((v / RASTER_MM).floor().max(0.0) as usize).min(most - 1);
    for row in cell(b.y0, rows)..=cell(b.y1, rows) {
        for column in cell(b.x0, columns)..=cell(b.x1, columns) {
            let (x, y) = (column as f64 * RASTER_MM, row as f64 * RASTER_MM);
            let corners = [
                (x, y),
                (x + RASTER_MM, y),
                (x + RASTER_MM, y + RASTER_MM),
                (x, y + RASTER_MM),
            ]
            .map(|(x, y)| kurbo::Point::new(x, y));
            if !is_used[row * columns + column]
                && polygon::overlap(ring, &b, &corners, &Bounds::of(&corners), kurbo::Vec2::ZERO)
            {
                is_used[row * columns + column] = true;
            }
        }
    }
}

/// The largest free rectangle: column, row, cells along, cells across. By the heights of free runs, row by row.
fn largest(is_used: &[bool], columns: usize, rows: usize) -> Option<(usize, usize, usize, usize)> {
    let mut heights = vec![0_usize; columns];
    let mut best: Option<(usize, (usize, usize, usize, usize))> = None;
    for row in 0..rows {
        for (column, height) in heights.iter_mut().enumerate() {
            *height = if is_used[row * columns + column] {
                0
            } else {
                *height + 1
            };
        }
        let mut stack: Vec<usize> = Vec::new();
        for column in 0..=columns {
            let now = heights.get(column).copied().unwrap_or(0);
            while let Some(&top) = stack.last()
                && heights[top] >= now
            {
                stack.pop();
                let left = stack.last().map_or(0, |&l| l + 1);
                let (w, h) = (column - left, heights[top]);
                if h > 0 && best.is_none_or(|(area, _)| w * h > area) {
                    best = Some((w * h, (left, row + 1 - h, w, h)));
                }
            }
            stack.push(column);
        }
    }
    best.map(|(_, rectangle)| rectangle)
}

/// The order of cutting: from the cut end, so that what is cut can be taken away before the scissors go on.
pub fn cutting_order(request: &LayRequest, lay: &Lay) -> Vec<usize> {
    let key = |i: usize| {
        let placed = &lay.placed[i];
        let b = request
            .pieces
            .get(placed.piece)
            .map(|piece| Bounds::of(&placed.outline(piece)));
        b.map_or((0.0, 0.0), |b| (b.x0, b.y0))
    };
    let mut order: Vec<usize> = (0..lay.placed.len()).collect();
    order.sort_by(|&a, &b| {
        let (a_key, b_key) = (key(a), key(b));
        a_key
            .0
            .total_cmp(&b_key.0)
            .then(a_key.1.total_cmp(&b_key.1))
            .then(a.cmp(&b))
    });
    order
}
