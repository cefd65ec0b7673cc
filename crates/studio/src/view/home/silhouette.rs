//! A suit as it hangs on the line, made of its own drafted pieces.
//!
//! Front over back, with edges that are sewn to each other in one place: the front takes the back's side seam and shoulder,
//! and its neckline, armhole and leg are drawn to them, which closes its dart too. Inside the openings the back shows its
//! lining. A skirt is a sector on the table and a bell on the line: its join, its length and its hem are the draft's, how it
//! falls is drawn.
//!
//! **Shapes and units.** mm, seam line to seam line, lying flat; y up until the path is written, then down.
//! **Source.** Own.
//! **Limits.** A picture, not a pattern: the back is cut off level with the front's crotch, where the suit folds under.

use cloth::Layer;
use draft::{Draft, EdgeUse, Mark, Piece, Style};
use kurbo::Point;

use super::{Silhouette, SilhouettePart, sketch};
use crate::document::Worked;
use crate::view::cloth::{look_view, paper_of};
use crate::view::{Frame, LookView};

/// Curves become lines this near to them, mm: a fifth of a pixel as large as suits are drawn.
pub(super) const TOLERANCE_MM: f64 = 0.5;
/// How far a skirt's side falls outwards, share of its length, if its hem is wide enough.
const FALL: f64 = 0.34;
/// Depth of the folds at a hem, share of the skirt's length.
const FOLD: f64 = 0.035;

pub(super) type Outline = Vec<Point>;

/// The silhouette of the drafted suit; `None` while nothing is drafted.
pub(super) fn of(worked: &Worked) -> Option<Silhouette> {
    of_draft(worked, &worked.order.as_ref()?.draft)
}

/// The silhouette of another draft in the colours of this suit's cloths.
pub(in crate::view) fn of_draft(worked: &Worked, draft: &Draft) -> Option<Silhouette> {
    hung(worked, draft).or_else(|| sketched(worked, draft))
}

/// Any style, as a sketch of its pieces.
fn sketched(worked: &Worked, draft: &Draft) -> Option<Silhouette> {
    let look = |layer: Layer| look_view(paper_of(worked, layer).map(|paper| &paper.body));
    let (mut parts, pegs) = sketch::of(draft);
    if let Some((_, outline)) = skirt_of_sketch(draft, &parts) {
        parts.push(sketch::Sketched {
            outline,
            layer: Layer::Shell,
            is_behind: false,
        });
    }
    Some(Silhouette {
        frame: frame(parts.iter().flat_map(|p| &p.outline))?,
        parts: parts
            .iter()
            .map(|part| SilhouettePart {
                path: path(&part.outline),
                look: look(part.layer),
                is_inside: part.is_behind,
            })
            .collect(),
        pegs: pegs.into_iter().map(tenth).collect(),
    })
}

/// The styles whose front and back hang from one another by side and shoulder seams of the usual names.
fn hung(worked: &Worked, draft: &Draft) -> Option<Silhouette> {
    if ![Style::ONE_PIECE, Style::BRIEF].contains(&draft.style) {
        return None;
    }
    let look = |layer: Layer| look_view(paper_of(worked, layer).map(|paper| &paper.body));
    let fronts: Vec<&Piece> = shell(draft)
        .filter(|p| ["front", "centre_front", "side_front"].contains(&p.key.as_str()))
        .collect();
    let back = shell(draft).find(|p| p.key == "back")?;
    let front = *fronts.iter().find(|p| p.on_fold)?;
    let is_lined = |piece: &str| draft.pieces.iter().any(|p| p.key == piece);
    let inside = if worked.lining.is_some() && is_lined("back_lining") || is_cut_from(back, Layer::Lining) {
        Layer::Lining
    } else {
        Layer::Shell
    };

    let hung = Hung::of(&fronts, back)?;
    let outline = hung.outline();
    let lowest = outline.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
    let mut drawn: Vec<(Outline, LookView, bool)> = Vec::new();
    drawn.push((
        above(&unfolded(half(back, &["fold"])), lowest),
        look(inside),
        true,
    ));
    let straps = straps(draft, front, back);
    for strap in &straps {
        drawn.push((strap.behind.clone(), look(Layer::Shell), false));
    }
    drawn.push((outline, look(Layer::Shell), false));
    for panel in hung.side_panels(front, &fronts) {
        drawn.push((panel, look(Layer::Shell), false));
    }
    for strap in &straps {
        drawn.push((strap.before.clone(), look(Layer::Shell), false));
    }
    if let Some((join, skirt)) = skirt(draft, &fronts, &hung) {
        let hem = skirt.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
        // What it covers is not seen.
        if hem < lowest {
            for (outline, ..) in &mut drawn {
                *outline = above(outline, join);
            }
        }
        let layer = shell(draft)
            .find(|p| p.key == "skirt")
            .and_then(|p| p.cuts.first());
        drawn.push((skirt, look(layer.map_or(Layer::Shell, |cut| cut.layer)), false));
    }
    drawn.retain(|(outline, ..)| outline.len() > 2);
    let pegs = if straps.is_empty() {
        hung.pegs()
    } else {
        straps.iter().map(|s| s.peg).collect()
    };
    Some(Silhouette {
        frame: frame(drawn.iter().flat_map(|(outline, ..)| outline))?,
        parts: drawn
            .into_iter()
            .map(|(outline, look, is_inside)| SilhouettePart {
                path: path(&outline),
                look,
                is_inside,
            })
            .collect(),
        pegs: pegs.into_iter().map(tenth).collect(),
    })
}

/// Pieces cut from the shell.
fn shell(draft: &Draft) -> impl Iterator<Item = &Piece> {
    draft.pieces.iter().filter(|p| is_cut_from(p, Layer::Shell))
}

fn is_cut_from(piece: &Piece, layer: Layer) -> bool {
    piece.cuts.iter().any(|cut| cut.layer == layer)
}

/// The seam line of one half from behind the fold round to it again, without the edges of these names.
pub(super) fn half(piece: &Piece, without: &[&str]) -> Outline {
    let fold = piece.edges.iter().position(|e| e.role == EdgeUse::Fold);
    let start = fold.map_or(0, |at| at + 1);
    (0..piece.edges.len())
        .filter_map(|i| piece.edges.get((start + i) % piece.edges.len()))
        .filter(|e| !without.contains(&e.name))
        .flat_map(|e| e.curve.flatten(TOLERANCE_MM))
        .collect()
}

/// A half with its mirror image, which goes on where it ends.
pub(super) fn unfolded(half: Outline) -> Outline {
    let mirrored: Outline = mirrored(&half);
    half.into_iter().chain(mirrored).collect()
}

pub(super) fn mirrored(outline: &[Point]) -> Outline {
    outline.iter().rev().map(|p| Point::new(-p.x, p.y)).collect()
}

/// All edges of the pieces whose name begins so, one after the other.
fn along(pieces: &[&Piece], name: &str) -> Outline {
    let edges = pieces.iter().flat_map(|p| &p.edges);
    let of_name = edges.filter(|e| e.name == name || e.name.starts_with(&format!("{name}_")));
    of_name.flat_map(|e| e.curve.flatten(TOLERANCE_MM)).collect()
}

/// A line moved so that it begins and ends in these places; what lies between moves in proportion.
fn drawn_to(line: &[Point], start: Point, end: Point) -> Outline {
    let (Some(first), Some(last)) = (line.first(), line.last()) else {
        return vec![start, end];
    };
    let (from, to) = (start - *first, end - *last);
    let steps: Vec<f64> = line.windows(2).map(|w| (w[1] - w[0]).hypot()).collect();
    let whole: f64 = steps.iter().sum();
    let is_level = line
        .windows(2)
        .last()
        .is_some_and(|w| (w[1].y - w[0].y).abs() < 0.5 * (w[1].x - w[0].x).abs());
    let mut gone = 0.0;
    line.iter()
        .enumerate()
        .map(|(i, p)| {
            gone += i
                .checked_sub(1)
                .and_then(|i| steps.get(i))
                .copied()
                .unwrap_or(0.0);
            let share = if whole > 0.0 { gone / whole } else { 0.0 };
            // Slow at both ends where it ends level, so that it gets no corner where it meets its mirror image.
            let share = if is_level {
                share * share * (3.0 - 2.0 * share)
            } else {
                share
            };
            *p + from * (1.0 - share) + to * share
        })
        .collect()
}

/// The right half of the front as it hangs, edge by edge from crotch to neck.
struct Hung {
    crotch: Outline,
    leg: Outline,
    side: Outline,
    /// Armhole; the waist of a brief.
    upper: Outline,
    /// Outer and inner end of the strap; none on a brief.
    shoulder: Option<(Point, Point)>,
    neck: Outline,
}

impl Hung {
    /// `fronts`: the centre first.
    fn of(fronts: &[&Piece], back: &Piece) -> Option<Hung> {
        let side = along(&[back], "side");
        let (low, high) = (*side.first()?, *side.last()?);
        let leg = along(fronts, "leg");
        let leg = drawn_to(&leg, *leg.first()?, low);
        // From the side inwards: the side panel's part of the armhole comes before the centre's.
        let outward: Vec<&Piece> = fronts.iter().rev().copied().collect();
        let own = fronts
            .iter()
            .find_map(|p| p.edge("shoulder"))
            .map(|e| (e.curve.start(), e.curve.end()));
        let sewn = back.edge("shoulder").map(|e| (e.curve.start(), e.curve.end()));
        let shoulder = sewn.filter(|_| own.is_some()).or(own);
        let waist = along(fronts, "top");
        let (upper, neck) = match shoulder {
            Some((outer, inner)) => {
                let neck = along(fronts, "neck");
                let armhole = joined(&outward);
                (
                    drawn_to(&armhole, high, outer),
                    drawn_to(&neck, inner, *neck.last()?),
                )
            }
            None => (drawn_to(&waist, high, *waist.last()?), Outline::new()),
        };
        Some(Hung {
            crotch: along(fronts, "crotch"),
            leg,
            side,
            upper,
            shoulder,
            neck,
        })
    }

    fn outline(&self) -> Outline {
        let edges = [&self.crotch, &self.leg, &self.side, &self.upper, &self.neck];
        unfolded(edges.into_iter().flatten().copied().collect())
    }

    /// Half the width between the sides at a height.
    fn half_width(&self, y: f64) -> Option<f64> {
        self.side.windows(2).find_map(|w| {
            let (a, b) = (w.first()?, w.last()?);
            ((a.y <= y) != (b.y <= y)).then(|| a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x))
        })
    }

    /// Where pegs hold it: the middles of the straps, or near the ends of the waist.
    fn pegs(&self) -> Vec<f64> {
        /// Share of the half waist.
        const NEAR_THE_END: f64 = 0.78;
        let x = match (self.shoulder, self.side.last()) {
            (Some((outer, inner)), _) => 0.5 * (outer.x + inner.x),
            (None, Some(top)) => NEAR_THE_END * top.x,
            (None, None) => 0.0,
        };
        vec![-x, x]
    }

    /// The side panels of a front with princess seams: between the seam on the centre panel and the side.
    fn side_panels(&self, centre: &Piece, fronts: &[&Piece]) -> Vec<Outline> {
        let Some(side_front) = fronts.iter().find(|p| p.key == "side_front") else {
            return Vec::new();
        };
        // On the centre panel the seam runs from the leg up to the armhole.
        let seam = along(&[centre], "princess");
        let Some(foot) = seam.first() else {
            return Vec::new();
        };
        let nearest = |line: &[Point], to: &Point| {
            let places = line.iter().enumerate();
            places
                .min_by(|a, b| (*a.1 - *to).hypot().total_cmp(&(*b.1 - *to).hypot()))
                .map_or(0, |(i, _)| i)
        };
        let leg_from = nearest(&self.leg, foot);
        let share = along(&[side_front], "armhole").len();
        let arm_to = share.min(self.upper.len().saturating_sub(1));
        let (Some(start), Some(end)) = (self.leg.get(leg_from), self.upper.get(arm_to)) else {
            return Vec::new();
        };
        let mut right: Outline = self.leg.iter().skip(leg_from).copied().collect();
        right.extend(&self.side);
        right.extend(self.upper.iter().take(arm_to + 1));
        let seam: Outline = drawn_to(&seam, *start, *end);
        right.extend(seam.iter().rev());
        let left = mirrored(&right);
        vec![right, left]
    }
}

/// The armhole over all panels, the side's first, each part moved to begin where the one before ends.
fn joined(pieces: &[&Piece]) -> Outline {
    let mut line = Outline::new();
    for part in pieces
        .iter()
        .map(|p| along(&[p], "armhole"))
        .filter(|part| !part.is_empty())
    {
        let shift = match (line.last(), part.first()) {
            (Some(end), Some(start)) => *start - *end,
            _ => kurbo::Vec2::ZERO,
        };
        for p in &mut line {
            *p += shift;
        }
        line.extend(part);
    }
    line
}

/// What of an outline lies above a height.
pub(super) fn above(outline: &[Point], y: f64) -> Outline {
    let next = outline.iter().cycle().skip(1);
    let mut kept = Outline::new();
    for (a, b) in outline.iter().zip(next) {
        if a.y >= y {
            kept.push(*a);
        }
        if (a.y >= y) != (b.y >= y) {
            let t = (y - a.y) / (b.y - a.y);
            kept.push(Point::new(a.x + t * (b.x - a.x), y));
        }
    }
    kept
}

/// A strap of its own: from the front over the peg, then behind to the other side.
struct Strap {
    peg: f64,
    before: Outline,
    behind: Outline,
}

fn straps(draft: &Draft, front: &Piece, back: &Piece) -> Vec<Strap> {
    let Some(piece) = shell(draft).find(|p| p.key == "strap") else {
        return Vec::new();
    };
    let found = front
        .edge("shoulder")
        .zip(back.edges.iter().find(|e| e.name == "top"));
    let way = draft.finished.iter().find(|f| f.name.starts_with("each strap"));
    let (Some((shoulder, top)), Some(way)) = (found, way) else {
        return Vec::new();
    };
    // Twice the strap's width is the piece's.
    let wide = piece.cut_line.iter().map(|p| p.x).fold(0.0, f64::max);
    let half_width = 0.25 * wide.min(120.0);
    let (a, b) = (shoulder.curve.start(), shoulder.curve.end());
    let (x, y) = (0.5 * (a.x + b.x), 0.5 * (a.y + b.y));
    let attach = top.curve.at_length(0.5 * top.curve.length()).0;
    let (attach_x, attach_y) = (attach.x, attach.y);
    // Up from the front, over the peg, down behind to the other side: together its way from edge to edge.
    let across = x + attach_x;
    let mut peak = y;
    while peak - y + across.hypot(peak - attach_y) < way.value_mm && peak - y < way.value_mm {
        peak += 1.0;
    }
    let band = |from: Point, to: Point| -> Outline {
        [(from, -1.0), (from, 1.0), (to, 1.0), (to, -1.0)]
            .map(|(p, side)| Point::new(p.x + side * half_width, p.y))
            .to_vec()
    };
    [1.0, -1.0]
        .map(|side| Strap {
            peg: side * x,
            before: band(Point::new(side * x, y), Point::new(side * x, peak)),
            behind: band(Point::new(side * x, peak), Point::new(-side * attach_x, attach_y)),
        })
        .into()
}

/// Height of its join, and the skirt as it falls: from there to its hem, folds at the hem as many as its fullness makes.
fn skirt(draft: &Draft, fronts: &[&Piece], hung: &Hung) -> Option<(f64, Outline)> {
    bell(draft, fronts, |y| hung.half_width(y))
}

/// The same on a sketch, whose front gives the width.
fn skirt_of_sketch(draft: &Draft, parts: &[sketch::Sketched]) -> Option<(f64, Outline)> {
    let fronts: Vec<&Piece> = shell(draft).filter(|p| p.key.contains("front")).collect();
    bell(draft, &fronts, |y| {
        let outlines = parts.iter().filter(|p| !p.is_behind).map(|p| &p.outline);
        let crossed = outlines.flat_map(|o| o.windows(2)).filter_map(|w| {
            let (a, b) = (w.first()?, w.last()?);
            ((a.y <= y) != (b.y <= y)).then(|| a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x))
        });
        crossed.max_by(f64::total_cmp)
    })
}

fn bell(draft: &Draft, fronts: &[&Piece], half_width: impl Fn(f64) -> Option<f64>) -> Option<(f64, Outline)> {
    let measure = |name: &str| {
        draft
            .finished
            .iter()
            .find(|f| f.name.starts_with(name))
            .map(|f| f.value_mm)
    };
    let (length, hem) = (measure("skirt, join")?, measure("skirt hem")?);
    let joins = fronts
        .iter()
        .flat_map(|p| &p.marks)
        .filter_map(|mark| match mark {
            Mark::Placement { curve, text } if text == "skirt joins here" => {
                Some([curve.start(), curve.end()])
            }
            _ => None,
        });
    let end = joins.flatten().max_by(|a, b| a.x.total_cmp(&b.x))?;
    let y = end.y;
    let top_half = half_width(y).unwrap_or(end.x);
    let hem_half = (0.25 * hem).min(top_half + FALL * length).max(top_half);
    // What of the hem does not fit in its width lies in folds.
    let fullness = (0.25 * hem / hem_half).max(1.0);
    let folds = (2.0 * fullness).round().clamp(1.0, 8.0);
    let depth = if fullness > 1.02 { FOLD * length } else { 0.0 };
    let mut outline = vec![Point::new(-top_half, y), Point::new(top_half, y)];
    /// Steps of the side's curve, and of the hem.
    const STEPS: usize = 12;
    let side = |t: f64| top_half + (hem_half - top_half) * t.powf(1.35);
    // Sides hang a little higher: the same length, fallen outwards.
    let rise = |x: f64| 0.06 * length * (x / hem_half).powi(2);
    outline.extend((1..STEPS).map(|i| {
        let t = i as f64 / STEPS as f64;
        Point::new(side(t), y - t * (length - rise(hem_half)))
    }));
    let points = 10 * folds as usize;
    outline.extend((0..=points).map(|i| {
        let t = i as f64 / points as f64;
        let x = hem_half * (1.0 - 2.0 * t);
        let wave = depth * (std::f64::consts::TAU * folds * t).cos();
        Point::new(x, y - length + rise(x) + wave)
    }));
    outline.extend((1..STEPS).rev().map(|i| {
        let t = i as f64 / STEPS as f64;
        Point::new(-side(t), y - t * (length - rise(hem_half)))
    }));
    Some((y, outline))
}

/// The box of the points, y down.
fn frame<'a>(points: impl Iterator<Item = &'a Point>) -> Option<Frame> {
    let mut ends: Option<(f64, f64, f64, f64)> = None;
    for p in points {
        let (x, y) = (p.x, -p.y);
        ends = Some(ends.map_or((x, y, x, y), |(l, t, r, b)| {
            (l.min(x), t.min(y), r.max(x), b.max(y))
        }));
    }
    let (left, top, right, bottom) = ends?;
    Some(Frame {
        x: tenth(left),
        y: tenth(top),
        width: tenth(right - left),
        height: tenth(bottom - top),
    })
}

/// SVG path of a closed outline, y down; points that repeat within a tenth are written once.
fn path(outline: &[Point]) -> String {
    let mut spots: Vec<(f64, f64)> = outline.iter().map(|p| (tenth(p.x), tenth(-p.y))).collect();
    spots.dedup();
    let lines: Vec<String> = spots.iter().map(|(x, y)| format!("{x} {y}")).collect();
    format!("M{}Z", lines.join("L"))
}

fn tenth(mm: f64) -> f64 {
    let rounded = (mm * 10.0).round() / 10.0;
    // No minus zero in a path.
    if rounded == 0.0 { 0.0 } else { rounded }
}
