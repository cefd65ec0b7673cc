//! Lays pieces on a sheet: rows of pieces, slid together by their outlines, never turned, never shrunk.
//!
//! A shelf packing with profiles: a piece slides left until its outline is a gap away from those before it, a finished
//! row slides up until it is a gap away from the rows above. Several orders and widths are tried by the caller, who
//! knows what a page costs. Outlines are kept as coarse profiles, so rows and columns are only ever further apart than
//! asked, never closer.
//!
//! **Shapes and units.** mm, y down; boxes and outlines start at their own upper left corner.
//! **Source.** Shelf packing: common practice. Gap of 10 mm: `data/trade/print.toml [plot]`.

use kurbo::{Point, Vec2};

/// Between pieces, mm.
pub(crate) const GAP: f64 = 10.0;

/// Width of a profile's bin, mm. Finer gains little; coarser wastes paper.
const BIN: f64 = 4.0;

/// What is to be laid: its box and its outline in it.
#[derive(Clone, Debug)]
pub(crate) struct Item {
    pub(crate) size: (f64, f64),
    rows: Profile,
    columns: Profile,
}

/// Least and greatest coordinate in every bin of the other one.
#[derive(Clone, Debug)]
struct Profile {
    low: Vec<f64>,
    high: Vec<f64>,
}

impl Profile {
    /// `main` runs along the bins, `cross` is what is kept.
    fn new(outlines: &[Vec<Point>], length: f64, pick: impl Fn(&Point) -> (f64, f64)) -> Profile {
        let n = bins(length);
        let mut profile = Profile {
            low: vec![f64::INFINITY; n],
            high: vec![f64::NEG_INFINITY; n],
        };
        for outline in outlines {
            for (i, a) in outline.iter().enumerate() {
                let Some(b) = outline.get((i + 1) % outline.len()) else {
                    continue;
                };
                let ((ma, ca), (mb, cb)) = (pick(a), pick(b));
                let (first, last) = (bin(ma.min(mb)), bin(ma.max(mb)).min(n - 1));
                for k in first..=last.max(first) {
                    // The part of the line within the bin; a line along the other way lies in it whole.
                    let at = |m: f64| {
                        let share = if (mb - ma).abs() < 1e-12 {
                            0.0
                        } else {
                            ((m - ma) / (mb - ma)).clamp(0.0, 1.0)
                        };
                        ca + (cb - ca) * share
                    };
                    let (from, to) = if (mb - ma).abs() < 1e-12 {
                        (ca, cb)
                    } else {
                        (at(k as f64 * BIN), at((k + 1) as f64 * BIN))
                    };
                    if let (Some(low), Some(high)) = (profile.low.get_mut(k), profile.high.get_mut(k)) {
                        *low = low.min(from).min(to);
                        *high = high.max(from).max(to);
                    }
                }
            }
        }
        profile
    }
}

fn bins(length: f64) -> usize {
    bin(length) + 1
}

fn bin(at: f64) -> usize {
    (at / BIN).floor().max(0.0) as usize
}

impl Item {
    /// An item of a box and the outlines in it.
    pub(crate) fn new(size: (f64, f64), outlines: &[Vec<Point>]) -> Item {
        Item {
            size,
            rows: Profile::new(outlines, size.1, |p| (p.y, p.x)),
            columns: Profile::new(outlines, size.0, |p| (p.x, p.y)),
        }
    }
}

/// Where an item lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Placed {
    pub(crate) item: usize,
    pub(crate) at: Vec2,
}

/// Items on a sheet of a width, as long as they need.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Layout {
    pub(crate) placed: Vec<Placed>,
    pub(crate) width: f64,
    pub(crate) height: f64,
}

/// Orders worth trying, the cutting order first; the same for the same items.
pub(crate) fn orders(items: &[Item]) -> Vec<Vec<usize>> {
    let by = |key: &dyn Fn(&Item) -> f64| {
        let mut order: Vec<usize> = (0..items.len()).collect();
        // Stable: equal items keep the cutting order.
        order.sort_by(|a, b| match (items.get(*a), items.get(*b)) {
            (Some(a), Some(b)) => key(b).total_cmp(&key(a)),
            _ => std::cmp::Ordering::Equal,
        });
        order
    };
    vec![
        (0..items.len()).collect(),
        by(&|i| i.size.1),
        by(&|i| i.size.0),
        by(&|i| i.size.0 * i.size.1),
    ]
}

/// Lays the items in rows on a sheet `width` mm wide; items wider than it stand alone and stick out.
pub(crate) fn rows(items: &[Item], order: &[usize], width: f64) -> Layout {
    let reach = (GAP / BIN).ceil() as usize;
    let columns = bins(items.iter().map(|i| i.size.0).fold(width, f64::max)) + 1;
    let mut floor = vec![f64::NEG_INFINITY; columns];
    let mut placed = Vec::new();
    let mut rest = order;
    while !rest.is_empty() {
        // One row: slide each next item left until it is a gap from those before it.
        let tallest = items.iter().map(|i| i.size.1).fold(0.0, f64::max);
        let mut right = vec![f64::NEG_INFINITY; bins(tallest) + 1];
        let mut row: Vec<(usize, f64)> = Vec::new();
        for &index in rest {
            let Some(item) = items.get(index) else { break };
            let mut x: f64 = 0.0;
            for (k, low) in item.rows.low.iter().enumerate().filter(|(_, v)| v.is_finite()) {
                for other in right.iter().take(k + reach + 1).skip(k.saturating_sub(reach)) {
                    x = x.max(other + GAP - low);
                }
            }
            if !row.is_empty() && x + item.size.0 > width + 1e-9 {
                break;
            }
            for (k, high) in item.rows.high.iter().enumerate() {
                if let Some(r) = right.get_mut(k) {
                    *r = r.max(x + high);
                }
            }
            row.push((index, x));
        }
        rest = rest.get(row.len()..).unwrap_or_default();
        // Slide the row up until it is a gap from what lies above it.
        let mut y: f64 = 0.0;
        for (index, x) in &row {
            let Some(item) = items.get(*index) else { continue };
            for (k, low) in item.columns.low.iter().enumerate().filter(|(_, v)| v.is_finite()) {
                // The bin lies anywhere over two bins of the sheet once it is moved.
                let first = bin(x + k as f64 * BIN).saturating_sub(reach);
                for other in floor
                    .iter()
                    .take(bin(x + (k + 1) as f64 * BIN) + reach + 1)
                    .skip(first)
                {
                    y = y.max(other + GAP - low);
                }
            }
        }
        for (index, x) in &row {
            let Some(item) = items.get(*index) else { continue };
            for (k, high) in item.columns.high.iter().enumerate() {
                for n in bin(x + k as f64 * BIN)..=bin(x + (k + 1) as f64 * BIN) {
                    if let Some(f) = floor.get_mut(n) {
                        *f = f.max(y + high);
                    }
                }
            }
            placed.push(Placed {
                item: *index,
                at: Vec2::new(*x, y),
            });
        }
    }
    finished(items, placed)
}

/// Lays each item as high as it goes on a sheet `width` mm wide, the leftmost of equal places.
///
/// Fills the holes rows leave beside a low piece, but lets no two outlines overlap sideways; try it beside [`rows`].
pub(crate) fn high(items: &[Item], order: &[usize], width: f64) -> Layout {
    let reach = (GAP / BIN).ceil() as usize;
    let widest = items.iter().map(|i| i.size.0).fold(width, f64::max);
    let mut floor = vec![f64::NEG_INFINITY; bins(widest) + 2];
    let mut placed = Vec::new();
    for &index in order {
        let Some(item) = items.get(index) else { continue };
        let last = bin((width - item.size.0).max(0.0));
        // What stands within a gap of each column; one more bin for what lies between whole bins.
        let near: Vec<f64> = (0..floor.len())
            .map(|k| {
                let around = floor.iter().take(k + reach + 2).skip(k.saturating_sub(reach));
                around.copied().fold(f64::NEG_INFINITY, f64::max)
            })
            .collect();
        let height_at = |start: usize| {
            let under = near
                .iter()
                .skip(start)
                .chain(std::iter::repeat(&f64::NEG_INFINITY));
            let lows = item.columns.low.iter().zip(under).filter(|(v, _)| v.is_finite());
            lows.fold(0.0_f64, |y, (low, f)| y.max(f + GAP - low))
        };
        let best = (0..=last)
            .map(|start| (height_at(start), start))
            .min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let Some((y, start)) = best else { continue };
        for (k, high) in item.columns.high.iter().enumerate() {
            if let Some(f) = floor.get_mut(start + k) {
                *f = f.max(y + high);
            }
        }
        placed.push(Placed {
            item: index,
            at: Vec2::new(start as f64 * BIN, y),
        });
    }
    finished(items, placed)
}

fn finished(items: &[Item], placed: Vec<Placed>) -> Layout {
    let end = |pick: &dyn Fn(&Placed, &Item) -> f64| {
        placed
            .iter()
            .filter_map(|p| items.get(p.item).map(|i| pick(p, i)))
            .fold(0.0, f64::max)
    };
    let height = end(&|p, i| p.at.y + i.size.1);
    let used = end(&|p, i| p.at.x + i.size.0);
    Layout {
        width: used,
        height,
        placed,
    }
}

/// A way of laying items in an order on a sheet of a width.
pub(crate) type Lay = fn(&[Item], &[usize], f64) -> Layout;

/// Ways of laying items that are worth trying.
pub(crate) const WAYS: [Lay; 2] = [rows, high];

/// Shares the items out over sheets of a fixed size, each filled in rows; every item must fit a sheet by itself.
pub(crate) fn sheets(lay: Lay, items: &[Item], order: &[usize], width: f64, height: f64) -> Vec<Layout> {
    let mut out = Vec::new();
    let mut rest: Vec<usize> = order.to_vec();
    while !rest.is_empty() {
        let mut taken: Vec<usize> = Vec::new();
        let mut layout = None;
        let mut left = Vec::new();
        for index in rest {
            taken.push(index);
            let tried = lay(items, &taken, width);
            if tried.height <= height + 1e-9 || taken.len() == 1 {
                layout = Some(tried);
            } else {
                taken.pop();
                left.push(index);
            }
        }
        out.extend(layout);
        rest = left;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn boxed(w: f64, h: f64) -> Item {
        let outline = vec![
            Point::new(0.0, 0.0),
            Point::new(w, 0.0),
            Point::new(w, h),
            Point::new(0.0, h),
        ];
        Item::new((w, h), &[outline])
    }

    #[test]
    fn boxes_stand_a_gap_apart() {
        let items = [boxed(100.0, 50.0), boxed(80.0, 60.0), boxed(150.0, 30.0)];
        let layout = rows(&items, &[0, 1, 2], 200.0);
        assert_eq!(layout.placed[1].at, Vec2::new(110.0, 0.0));
        assert_eq!(layout.placed[2].at.x, 0.0);
        assert!(layout.placed[2].at.y >= 70.0 && layout.placed[2].at.y < 70.0 + BIN);
    }

    #[test]
    fn a_triangle_slides_into_the_gap_of_another() {
        let down = Item::new(
            (100.0, 100.0),
            &[vec![
                Point::new(0.0, 0.0),
                Point::new(100.0, 0.0),
                Point::new(0.0, 100.0),
            ]],
        );
        let up = Item::new(
            (100.0, 100.0),
            &[vec![
                Point::new(100.0, 0.0),
                Point::new(100.0, 100.0),
                Point::new(0.0, 100.0),
            ]],
        );
        let layout = rows(&[down, up], &[0, 1], 1000.0);
        assert!(layout.width < 140.0, "{}", layout.width);
    }

    /// No two outlines come nearer than the gap, whichever way they are laid. Checked point against line, not by the
    /// profiles the packing uses.
    #[test]
    fn outlines_keep_the_gap_in_every_way_and_order() {
        use crate::room::{distance_to_segment, is_inside};
        let leaf = |w: f64, h: f64| -> Vec<Point> {
            (0..60)
                .map(|i| {
                    let a = f64::from(i) * std::f64::consts::TAU / 60.0;
                    Point::new(0.5 * w * (1.0 + a.cos().powi(3)), 0.5 * h * (1.0 + a.sin()))
                })
                .collect()
        };
        let outlines = [
            leaf(300.0, 500.0),
            leaf(120.0, 90.0),
            leaf(260.0, 400.0),
            leaf(80.0, 300.0),
            leaf(400.0, 60.0),
        ];
        let sizes = [
            (300.0, 500.0),
            (120.0, 90.0),
            (260.0, 400.0),
            (80.0, 300.0),
            (400.0, 60.0),
        ];
        let items: Vec<Item> = outlines
            .iter()
            .zip(sizes)
            .map(|(o, s)| Item::new(s, std::slice::from_ref(o)))
            .collect();
        for width in [400.0, 620.0, 900.0] {
            for order in orders(&items) {
                for lay in WAYS {
                    let layout = lay(&items, &order, width);
                    assert_eq!(layout.placed.len(), items.len());
                    for a in &layout.placed {
                        assert!(a.at.x >= 0.0 && a.at.x + items[a.item].size.0 <= width + 1e-9);
                        for b in layout.placed.iter().filter(|b| b.item != a.item) {
                            let other: Vec<Point> = outlines[b.item].iter().map(|p| *p + b.at).collect();
                            for p in outlines[a.item].iter().map(|p| *p + a.at) {
                                assert!(!is_inside(&other, p), "{} lies on {}", a.item, b.item);
                                let near = (0..other.len())
                                    .map(|i| distance_to_segment(p, other[i], other[(i + 1) % other.len()]))
                                    .fold(f64::INFINITY, f64::min);
                                assert!(near >= GAP - 1e-9, "{} is {near} mm from {}", a.item, b.item);
                            }
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn items_are_shared_out_over_sheets() {
        let items = [boxed(500.0, 700.0), boxed(500.0, 700.0), boxed(200.0, 300.0)];
        let sheets = sheets(rows, &items, &[0, 1, 2], 800.0, 1000.0);
        assert_eq!(sheets.len(), 2);
        assert_eq!(sheets.iter().map(|s| s.placed.len()).sum::<usize>(), 3);
    }
}
