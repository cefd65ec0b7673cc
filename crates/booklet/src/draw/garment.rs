//! The suit from the front and from the back, made of its own drafted pieces as they lie in the draft's frame.
//!
//! Pieces of the other side are drawn first and tinted, so that what is seen through an opening is the inside; they are moved
//! so that their seams lie on those of the near side. Darts are closed, sleeves hang, cups sit at their level, bands lie round
//! their edge, ties hang. Seams are thin, open edges heavy.
//!
//! **Shapes and units.** flat mm, y up, in; page mm out.
//! **Source.** Own.
//! **Limits.** A picture to know the suit by, not a pattern.

use cloth::Layer;
use draft::{Draft, EdgeUse, Piece, PieceEdge};
use kurbo::{Point, Vec2};
use units::Level;

use super::meet::{Joins, leg};
use super::piece::FLATTEN_MM;
use super::place::{Place, bounds};
use super::svg::{Anchor, Letters, OAT, PAPER, Stroke, Svg, WASH};
use super::ties::ties;
use crate::model::Figure;

/// From where the suit is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum View {
    Front,
    Back,
}

impl View {
    /// The word in the keys of its pieces.
    pub(super) const fn word(self) -> &'static str {
        match self {
            View::Front => "front",
            View::Back => "back",
        }
    }
}

/// A sleeve hangs at this angle below level, radians.
const SLEEVE_HANGS: f64 = 1.05;
/// A suit is drawn at about a third at most.
const MOST_SCALE: f64 = 0.34;
/// Between two cups, half, mm of cloth.
const BETWEEN_CUPS: f64 = 9.0;

/// A line of an outline, and whether it is an open edge of the suit.
type Edge = (Vec<Point>, bool);

pub(super) struct Part {
    edges: Vec<Edge>,
    /// Closed darts: a line each.
    darts: Vec<Vec<Point>>,
    is_far: bool,
}

impl Part {
    /// Cloth with no edge to show.
    pub(super) fn plain(outline: Vec<Point>) -> Part {
        Part {
            edges: vec![(outline, false)],
            darts: Vec::new(),
            is_far: false,
        }
    }

    fn outline(&self) -> Vec<Point> {
        self.edges
            .iter()
            .flat_map(|(line, _)| line.iter().copied())
            .collect()
    }

    fn moved(&self, f: impl Fn(Point) -> Point) -> Part {
        let moved = |(line, open): &Edge| -> Edge { (line.iter().map(|p| f(*p)).collect(), *open) };
        let dart = |line: &Vec<Point>| line.iter().map(|p| f(*p)).collect();
        Part {
            edges: self.edges.iter().map(moved).collect(),
            darts: self.darts.iter().map(dart).collect(),
            is_far: self.is_far,
        }
    }

    pub(super) fn mirrored(&self) -> Part {
        let turned = |(line, open): &Edge| -> Edge {
            (line.iter().rev().map(|p| Point::new(-p.x, p.y)).collect(), *open)
        };
        let dart = |line: &Vec<Point>| line.iter().map(|p| Point::new(-p.x, p.y)).collect();
        Part {
            edges: self.edges.iter().rev().map(turned).collect(),
            darts: self.darts.iter().map(dart).collect(),
            is_far: self.is_far,
        }
    }
}

/// Front and back side by side, each under its word.
pub(crate) fn garment(draft: &Draft, size: (f64, f64), words: (&str, &str), says: String) -> Figure {
    let (front, back) = (parts(draft, View::Front), parts(draft, View::Back));
    let all: Vec<Point> = front.iter().chain(&back).flat_map(Part::outline).collect();
    let bounds = bounds(&all);
    let gap = 10.0;
    let w = 0.5 * (size.0 - gap);
    // No deeper than the suit is at that scale: a brief leaves no hole above its words.
    let scale = ((w - 2.0) / bounds.width().max(1.0)).min(MOST_SCALE);
    let h = (scale * bounds.height() + 2.0).min(size.1 - 8.0);
    let size = (size.0, h + 8.0);
    let mut svg = Svg::new(size.0, size.1);
    for (i, (parts, word)) in [(front, words.0), (back, words.1)].into_iter().enumerate() {
        let left = (w + gap) * i as f64;
        let place = Place::fitting(bounds, (left + 1.0, 1.0), (w - 2.0, h - 2.0), MOST_SCALE);
        for part in &parts {
            draw(&mut svg, part, place);
        }
        svg.words(
            word,
            (left + 0.5 * w, size.1 - 1.5),
            Anchor::Middle,
            Letters::voice(11.0),
        );
    }
    svg.finish(says, String::new())
}

fn draw(svg: &mut Svg, part: &Part, place: Place) {
    let fill = if part.is_far { WASH } else { PAPER };
    svg.path(&place.points(&part.outline()), true, Some(fill), None);
    for line in part.darts.iter().filter(|_| !part.is_far) {
        svg.path(&place.points(line), false, None, Some(Stroke::solid(0.25)));
    }
    for (line, is_open) in &part.edges {
        let line = place.points(line);
        if *is_open && !part.is_far {
            svg.path(&line, false, None, Some(Stroke::solid(1.5)));
            svg.path(&line, false, None, Some(Stroke::solid(0.9).in_colour(OAT)));
        } else {
            svg.path(
                &line,
                false,
                None,
                Some(Stroke::solid(if part.is_far { 0.2 } else { 0.4 })),
            );
        }
    }
}

fn parts(draft: &Draft, view: View) -> Vec<Part> {
    let (near, far) = match view {
        View::Front => ("front", "back"),
        View::Back => ("back", "front"),
    };
    let mut parts = Vec::new();
    let shown = || draft.pieces.iter().filter(|p| is_outer(p) && !is_tie(p));
    let joins = |side: &'static str| Joins::of(shown().filter(move |p| is_of(p, side)));
    let (near_joins, far_joins) = (joins(near), joins(far));
    for piece in shown().filter(|p| is_of(p, far) && !is_cup(p)) {
        put(&mut parts, piece, true, |p| far_joins.onto(&near_joins, p));
    }
    let arms = shown().find(|p| is_of(p, near) && p.edge("armhole").is_some());
    for piece in shown().filter(|p| p.key.ends_with("sleeve")) {
        if let Some(arm) = arms.and_then(|body| sleeve(piece, body)) {
            parts.push(arm.mirrored());
            parts.push(arm);
        }
    }
    let from = parts.len();
    let cups: Vec<Part> = shown().filter(|p| is_cup(p)).map(|p| cup(p, draft)).collect();
    let (ends, foot) = strap_ends(draft, &cups);
    // From behind, the inside of the cups.
    let cups = cups.into_iter().flat_map(|one| [one.mirrored(), one]);
    let (cups, behind): (Vec<Part>, Vec<Part>) = match view {
        View::Front => (cups.collect(), Vec::new()),
        View::Back => (Vec::new(), cups.map(|c| Part { is_far: true, ..c }).collect()),
    };
    parts.extend(behind);
    parts.extend(ties(draft, view, &ends, foot));
    for piece in shown().filter(|p| is_of(p, near) && !is_cup(p)) {
        put(&mut parts, piece, false, |p| p);
    }
    parts.extend(cups);
    bands(draft, near, &mut parts);
    skirt(draft, near, &mut parts);
    // Where the suit folds under at the crotch, the far side is not seen below the near one.
    let lowest = parts
        .iter()
        .skip(from)
        .flat_map(Part::outline)
        .map(|p| p.y)
        .fold(f64::INFINITY, f64::min);
    if lowest.is_finite() {
        for part in parts.iter_mut().filter(|p| p.is_far) {
            for (line, _) in &mut part.edges {
                for p in line.iter_mut() {
                    p.y = p.y.max(lowest);
                }
            }
        }
    }
    parts
}

/// Where straps leave the front, in the right half, and where a cup's lower edge ends outside.
fn strap_ends(draft: &Draft, cups: &[Part]) -> (Vec<Point>, Option<Point>) {
    let outlines: Vec<Point> = cups.iter().flat_map(Part::outline).collect();
    if let Some(tip) = outlines.iter().max_by(|a, b| a.y.total_cmp(&b.y)) {
        let foot = outlines.iter().max_by(|a, b| (a.x - a.y).total_cmp(&(b.x - b.y)));
        return (vec![*tip], foot.copied());
    }
    let back = draft
        .pieces
        .iter()
        .any(|p| is_of(p, "back") && p.edge("shoulder").is_some());
    let fronts = draft
        .pieces
        .iter()
        .filter(|p| is_outer(p) && is_of(p, "front") && !is_tie(p));
    // Shoulders with nothing behind them are held at the neck.
    let ends = fronts
        .flat_map(|p| &p.edges)
        .filter(|e| e.name == "strap_end" || (e.name == "shoulder" && !back));
    (
        ends.map(|e| e.curve.start().midpoint(e.curve.end())).collect(),
        None,
    )
}

/// Drawn by how they hang, not as they lie in the draft.
fn is_tie(piece: &Piece) -> bool {
    piece
        .key
        .split('_')
        .any(|word| matches!(word, "tie" | "strap" | "neck" | "shield"))
}

fn is_outer(piece: &Piece) -> bool {
    piece
        .cuts
        .iter()
        .any(|c| matches!(c.layer, Layer::Shell | Layer::Contrast))
}

fn is_of(piece: &Piece, side: &str) -> bool {
    piece.key.split('_').any(|word| word == side)
}

/// A triangle or cup, drafted about its own bust point.
fn is_cup(piece: &Piece) -> bool {
    is_of(piece, "front") && piece.edge("inner").is_some() && piece.edge("outer").is_some()
}

/// The outline as lines, without the fold and with its darts closed.
fn edges(piece: &Piece) -> Vec<Edge> {
    let fold = piece.edges.iter().position(|e| e.role == EdgeUse::Fold);
    let start = fold.map_or(0, |at| at + 1);
    let round = (0..piece.edges.len()).filter_map(|i| piece.edges.get((start + i) % piece.edges.len()));
    round
        .filter(|e| e.role != EdgeUse::Fold && !is_dart(e))
        .map(|e| (e.curve.flatten(FLATTEN_MM), matches!(e.role, EdgeUse::Open(_))))
        .collect()
}

fn is_dart(edge: &PieceEdge) -> bool {
    edge.name.starts_with("dart")
}

/// A dart when it is sewn: from the middle of its mouth to its tip.
fn darts(piece: &Piece) -> Vec<Vec<Point>> {
    let legs: Vec<&PieceEdge> = piece.edges.iter().filter(|e| is_dart(e)).collect();
    legs.chunks_exact(2)
        .filter_map(|pair| {
            let [one, other] = pair else { return None };
            Some(vec![
                one.curve.start().midpoint(other.curve.end()),
                one.curve.end(),
            ])
        })
        .collect()
}

/// The piece where it lies, whole or as a pair.
fn put(parts: &mut Vec<Part>, piece: &Piece, is_far: bool, meet: impl Fn(Point) -> Point) {
    let one = Part {
        edges: edges(piece),
        darts: darts(piece),
        is_far,
    };
    let one = if piece.edge("inseam").is_some() {
        one.moved(leg(piece))
    } else {
        one
    };
    let one = one.moved(meet);
    let other = one.mirrored();
    if piece.on_fold {
        let edges = one.edges.into_iter().chain(other.edges).collect();
        let darts = one.darts.into_iter().chain(other.darts).collect();
        parts.push(Part { edges, darts, is_far });
    } else if piece.cuts.iter().any(|c| c.mirrored) {
        parts.push(other);
        parts.push(one);
    } else {
        parts.push(one);
    }
}

/// The right cup at its level.
fn cup(piece: &Piece, draft: &Draft) -> Part {
    let b = bounds(&piece.cut_line);
    let base = draft.levels.iter().find(|l| l.level == Level::Underbust);
    let by = Vec2::new(BETWEEN_CUPS - b.x0, base.map_or(0.0, |l| l.y_mm) - b.y0);
    Part {
        edges: edges(piece),
        darts: darts(piece),
        is_far: false,
    }
    .moved(|p| p + by)
}

/// The right sleeve, folded along its length, hung from shoulder and underarm.
fn sleeve(piece: &Piece, body: &Piece) -> Option<Part> {
    let armhole = body.edge("armhole")?;
    let (a, b) = (armhole.curve.start(), armhole.curve.end());
    let (underarm, shoulder) = if a.y < b.y { (a, b) } else { (b, a) };
    let line: Vec<Point> = edges(piece).into_iter().flat_map(|(line, _)| line).collect();
    let box_ = bounds(&line);
    let end: Vec<Point> = line.iter().filter(|p| p.y < box_.y0 + 25.0).copied().collect();
    let wrist = 0.5 * bounds(&end).width().max(40.0);
    let down = Vec2::new(SLEEVE_HANGS.cos(), -SLEEVE_HANGS.sin());
    let across = Vec2::new(down.y, -down.x);
    let top = shoulder + down * box_.height();
    let inner = top + across * wrist;
    Some(Part {
        edges: vec![
            (vec![shoulder, top], false),
            (vec![top, inner], true),
            (vec![inner, underarm, shoulder], false),
        ],
        darts: Vec::new(),
        is_far: false,
    })
}

/// Bands round the body: below a top's lower edge, above a bottom's upper one. They are folded along their middle.
fn bands(draft: &Draft, near: &str, parts: &mut Vec<Part>) {
    let is_band = |p: &&Piece| ["band", "waistband"].contains(&p.key.as_str());
    for piece in draft.pieces.iter().filter(|p| is_outer(p)).filter(is_band) {
        let deep = 0.5 * bounds(&piece.cut_line).height();
        let is_waist = piece.key == "waistband";
        let names: &[&str] = if is_waist {
            &["top", "waist"]
        } else {
            &["bottom", "underbust", "band"]
        };
        let of_side = draft.pieces.iter().filter(|p| is_outer(p) && is_of(p, near));
        let edge = of_side.flat_map(|p| &p.edges).find(|e| names.contains(&e.name));
        let Some((half, y)) = edge.map(level_edge) else {
            continue;
        };
        let (low, top) = if is_waist { (y, y + deep) } else { (y - deep, y) };
        let corners = [(-half, low), (half, low), (half, top), (-half, top), (-half, low)];
        parts.push(Part::plain(corners.map(|(x, y)| Point::new(x, y)).to_vec()));
    }
}

fn level_edge(edge: &PieceEdge) -> (f64, f64) {
    let line = edge.curve.flatten(FLATTEN_MM);
    let half = line.iter().map(|p| p.x.abs()).fold(0.0, f64::max);
    // A curved edge goes a little below the band, which lies flat.
    (half, line.iter().map(|p| p.y).fold(f64::NEG_INFINITY, f64::max))
}

/// A skirt as a bell from its join, as wide at the hem as it falls.
fn skirt(draft: &Draft, near: &str, parts: &mut Vec<Part>) {
    let measure = |key: &str| {
        draft
            .finished
            .iter()
            .find(|f| f.name.starts_with(key))
            .map(|f| f.value_mm)
    };
    let (Some(long), Some(hem)) = (measure("skirt, join"), measure("skirt hem")) else {
        return;
    };
    let joins = draft
        .pieces
        .iter()
        .filter(|p| is_of(p, near))
        .flat_map(|p| &p.marks)
        .filter_map(|m| match m {
            draft::Mark::Placement { curve, text } if text == "skirt joins here" => {
                Some([curve.start(), curve.end()])
            }
            _ => None,
        });
    let Some(end) = joins.flatten().max_by(|a, b| a.x.total_cmp(&b.x)) else {
        return;
    };
    /// A skirt's side falls outwards at most so far, share of its length.
    const FALL: f64 = 0.4;
    let half = (0.25 * hem).min(end.x + FALL * long).max(end.x);
    let (top, foot) = (end.y, end.y - long);
    const STEPS: usize = 24;
    let hem: Vec<Point> = (0..=STEPS)
        .map(|i| {
            let t = i as f64 / STEPS as f64;
            let wave = 0.03 * long * (std::f64::consts::TAU * 4.0 * t).cos();
            Point::new(half * (1.0 - 2.0 * t), foot + wave)
        })
        .collect();
    let (right, left) = (hem.first().copied(), hem.last().copied());
    let (Some(right), Some(left)) = (right, left) else {
        return;
    };
    parts.push(Part {
        edges: vec![
            (vec![Point::new(end.x, top), right], false),
            (hem, false),
            (vec![left, Point::new(-end.x, top), Point::new(end.x, top)], false),
        ],
        darts: Vec::new(),
        is_far: false,
    });
}
