//! A lay as the page draws it: the cloth from its cut end downwards, selvedges at the sides, every piece where it lies.
//!
//! **Shapes and units.** mm, y down: across the cloth to the right, along it down. That is `table` turned by a quarter, not mirrored, so
//! the right side of the cloth stays up.

use kurbo::{Point, Vec2};
use lay::{Fold, LayRequest, Placed, cutting_order};
use serde::Serialize;
use ts_rs::TS;
use units::{LengthUnit, Mm};
use utoipa::ToSchema;

use crate::laying::Laid;
use crate::view::{Frame, Quantity, Spot, length};

/// A lay to be drawn.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct LayDrawing {
    /// The cloth as far as it is drawn.
    pub frame: Frame,
    /// `single`, or with the fold at the left: `half`, `partial`.
    pub fold: String,
    /// From the selvedge to the fold; a flaw drawn on the upper layer lies so much further from the selvedge. Of a partial fold it is also
    /// how far the cloth lies double, to the right of the fold.
    pub fold_at: f64,
    /// Outline of an odd piece of cloth, SVG path; empty for one with two selvedges and square ends.
    pub remnant: String,
    /// Whether the greater stretch runs from selvedge to selvedge.
    pub stretch_is_across: bool,
    /// Where the lay ends, down from the cut end, the end allowance included.
    pub end: f64,
    /// What may be used of the cloth.
    pub usable: Frame,
    /// Marks along the left edge, every 10 cm or 4 in, with the words of every fifth.
    pub marks: Vec<LayMark>,
    /// Pieces, in the order of cutting.
    pub pieces: Vec<LaidPiece>,
    /// Flaws that are kept clear.
    pub flaws: Vec<Frame>,
    /// What is left whole.
    pub rest: Vec<RestBox>,
}

/// A mark of the ruler beside the cloth.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct LayMark {
    /// Down from the cut end.
    pub at: f64,
    /// `50 cm`; empty for a short mark.
    pub words: String,
}

/// A rectangle that is left whole.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct RestBox {
    /// Its place.
    pub frame: Frame,
    /// `58 x 56 cm`.
    pub words: String,
}

/// A piece on the cloth.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct LaidPiece {
    /// Key of the piece.
    pub piece: String,
    /// Which of its copies.
    pub copy: u32,
    /// Letter on the page map.
    pub letter: String,
    /// Name on paper.
    pub name: String,
    /// `face down`, `on the fold`, `both layers`, `both layers, one to spare`, after the suit it is of where there are several; empty for a
    /// plain one.
    pub note: String,
    /// Place in the order of cutting, from 1.
    pub order: u32,
    /// Outline, SVG path.
    pub outline: String,
    /// Box around it.
    pub frame: Frame,
    /// Where its name stands.
    pub label: Spot,
    /// Grain arrow, foot and head: the two chalk marks.
    pub grain: [Spot; 2],
    /// Greater-stretch arrow.
    pub stretch: [Spot; 2],
    /// Foot of the grain arrow from the cut end and from the selvedge, then its head.
    pub chalk: [Quantity; 4],
    /// A hand placed it; packing goes around it.
    pub by_hand: bool,
    /// Whether it may lie another way too.
    pub can_turn: bool,
}

fn page(p: Point) -> Point {
    Point::new(p.y, p.x)
}

fn spot(p: Point) -> Spot {
    Spot {
        x: round(p.x),
        y: round(p.y),
    }
}

/// A hundredth of a millimetre is enough for the eye.
fn round(mm: f64) -> f64 {
    (mm * 100.0).round() / 100.0
}

/// Half a stretch arrow, as a share of the piece's smaller side.
const STRETCH_ARROW: f64 = 0.22;

/// Draws a lay. `by_hand`: piece and copy of what a hand placed.
pub(crate) fn drawing(
    laid: &Laid,
    stretch_is_across: bool,
    by_hand: &[(usize, u32)],
    unit: LengthUnit,
) -> LayDrawing {
    let request = &laid.task.request;
    let cloth = &request.cloth;
    let width = cloth.table_width_mm();
    let there_is = cloth.length_mm.unwrap_or(laid.buying.buy_mm);
    let shown = there_is.max(laid.lay.cloth_mm);
    let is_folded = cloth.fold != Fold::Single;
    let left = if is_folded { 0.0 } else { cloth.selvedge_margin_mm };
    let order = cutting_order(request, &laid.lay);
    let pieces = order.iter().enumerate().filter_map(|(k, &index)| {
        let placed = laid.lay.placed.get(index)?;
        let is_by_hand = by_hand.contains(&(placed.piece, placed.copy));
        laid_piece(request, placed, k as u32 + 1, stretch_is_across, is_by_hand, unit)
    });
    LayDrawing {
        frame: frame(0.0, 0.0, width, shown),
        fold: match cloth.fold {
            Fold::Single => "single",
            Fold::Half => "half",
            Fold::Partial { .. } => "partial",
        }
        .to_owned(),
        remnant: cloth.remnant.as_ref().map_or_else(String::new, |ring| {
            crate::view::paper::path(ring.iter().map(|&p| page(p)).map(|p| (p.x, p.y)))
        }),
        fold_at: round(cloth.fold_at_mm()),
        stretch_is_across,
        end: round(laid.lay.cloth_mm),
        usable: frame(
            left,
            cloth.end_allowance_mm,
            width - left - cloth.selvedge_margin_mm,
            shown - 2.0 * cloth.end_allowance_mm,
        ),
        marks: marks(shown, unit),
        pieces: pieces.collect(),
        flaws: cloth.flaws.iter().filter_map(|f| around(&f.outline)).collect(),
        rest: laid
            .remnants
            .iter()
            .map(|r| RestBox {
                frame: frame(r.y_mm, r.x_mm, r.width_mm, r.length_mm),
                words: by(r.width_mm, r.length_mm, unit),
            })
            .collect(),
    }
}

/// `58 x 56 cm`: across by along.
pub(crate) fn by(width_mm: f64, length_mm: f64, unit: LengthUnit) -> String {
    let (width, length) = (length(Mm::new(width_mm), unit), length(Mm::new(length_mm), unit));
    let short = |main: &str| main.trim_end_matches(".0").to_owned();
    format!("{} x {} {}", short(&width.main), short(&length.main), length.unit)
}

fn frame(x: f64, y: f64, width: f64, height: f64) -> Frame {
    Frame {
        x: round(x),
        y: round(y),
        width: round(width),
        height: round(height),
    }
}

fn around(ring: &[Point]) -> Option<Frame> {
    let first = page(*ring.first()?);
    let (mut low, mut high) = (first, first);
    for p in ring.iter().map(|&p| page(p)) {
        low = Point::new(low.x.min(p.x), low.y.min(p.y));
        high = Point::new(high.x.max(p.x), high.y.max(p.y));
    }
    Some(frame(low.x, low.y, high.x - low.x, high.y - low.y))
}

fn marks(shown_mm: f64, unit: LengthUnit) -> Vec<LayMark> {
    let (step, word) = match unit {
        LengthUnit::In => (4.0 * 25.4, "in"),
        LengthUnit::Cm | LengthUnit::Mm => (100.0, "cm"),
    };
    let most = (shown_mm / step).floor().clamp(0.0, 1000.0) as u32;
    let words = |k: u32| match unit {
        _ if !k.is_multiple_of(5) || k == 0 => String::new(),
        LengthUnit::In => format!("{} {word}", 4 * k),
        LengthUnit::Cm | LengthUnit::Mm => format!("{} {word}", 10 * k),
    };
    (0..=most)
        .map(|k| LayMark {
            at: round(step * f64::from(k)),
            words: words(k),
        })
        .collect()
}

/// One piece where it lies.
pub(crate) fn laid_piece(
    request: &LayRequest,
    placed: &Placed,
    order: u32,
    stretch_is_across: bool,
    by_hand: bool,
    unit: LengthUnit,
) -> Option<LaidPiece> {
    let piece = request.pieces.get(placed.piece)?;
    let outline = placed.outline(piece);
    let table = placed.table_from_piece();
    let (foot, head) = (table * piece.grain.0, table * piece.grain.1);
    let frame = around(&outline)?;
    let mut label = page(table * piece.label_at);
    // Of a half only one side is there.
    if placed.is_half {
        label.x = label.x.max(frame.x + 0.35 * frame.width);
    }
    let reach = STRETCH_ARROW * frame.width.min(frame.height);
    let way = if stretch_is_across {
        Vec2::new(reach, 0.0)
    } else {
        Vec2::new(0.0, reach)
    };
    let below = label + Vec2::new(0.0, 0.12 * frame.height.min(400.0));
    let chalk = |mm: f64| length(Mm::new(mm), unit);
    Some(LaidPiece {
        piece: piece.key.clone(),
        copy: placed.copy,
        letter: piece.letter.to_string(),
        name: piece.name.clone(),
        note: {
            // Whose it is, where several suits lie on one cloth.
            let whose = (request.garments.len() > 1)
                .then(|| request.garments.get(piece.garment))
                .flatten()
                .map_or("", String::as_str);
            let how = match (placed.layers, placed.is_half, placed.is_reflected) {
                (2, true, _) => "on the fold",
                (2, false, _) if piece.count == 1 => "both layers, one to spare",
                (2, false, _) => "both layers",
                (_, _, true) => "face down",
                _ => "",
            };
            let both = [whose, how].into_iter().filter(|w| !w.is_empty());
            both.collect::<Vec<_>>().join(", ")
        },
        order,
        outline: crate::view::paper::path(outline.iter().map(|&p| page(p)).map(|p| (p.x, p.y))),
        frame,
        label: spot(label),
        grain: [spot(page(foot)), spot(page(head))],
        stretch: [spot(below - way), spot(below + way)],
        chalk: [foot.x, foot.y, head.x, head.y].map(chalk),
        by_hand,
        can_turn: !placed.is_half && request.angles(piece).len() > 1,
    })
}
