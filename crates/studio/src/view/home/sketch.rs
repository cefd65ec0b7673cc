//! A garment of any style as a sketch of its own pieces: those of the front over those of the back, as they lie in the draft's
//! frame, sleeves let hang, bands and ties drawn where they go.
//!
//! The one-piece and the brief hang truer, seam on seam, see [`super::silhouette`]; this is for everything else, so that a new
//! style has a picture without a line here.
//!
//! **Shapes and units.** mm, y up.
//! **Source.** Own.
//! **Limits.** A picture to know a style by, not a pattern.

use cloth::Layer;
use draft::{Draft, EdgeUse, OpenKind, Piece, PieceEdge};
use kurbo::{Point, Vec2};
use units::Level;

use super::silhouette::{Outline, TOLERANCE_MM, above, half, mirrored, unfolded};

/// One part, back to front.
pub(super) struct Sketched {
    pub(super) outline: Outline,
    pub(super) layer: Layer,
    pub(super) is_behind: bool,
}

/// A sleeve hangs at this angle below level, radians.
const SLEEVE_HANGS: f64 = 1.08;
/// Ties are drawn this long and wide.
const TIE: (f64, f64) = (90.0, 7.0);
/// Between two cups, half.
const BETWEEN_CUPS: f64 = 9.0;

/// The parts, and where pegs hold it; empty when no piece is known.
pub(super) fn of(draft: &Draft) -> (Vec<Sketched>, Vec<f64>) {
    let mut parts: Vec<Sketched> = Vec::new();
    let shown = || draft.pieces.iter().filter_map(|p| Some((p, outer(p)?)));
    let is_lined = draft.pieces.iter().any(|p| p.key.ends_with("back_lining"));
    for (piece, layer) in shown().filter(|(p, _)| is_part(p, "back") && !is_cup(p)) {
        // What is seen of the back is its inside.
        let layer = if is_lined { Layer::Lining } else { layer };
        put(&mut parts, piece, layer, true, Vec2::ZERO);
    }
    for (piece, layer) in shown().filter(|(p, _)| p.key.ends_with("sleeve")) {
        let front = draft
            .pieces
            .iter()
            .find(|p| is_part(p, "front") && p.edge("armhole").is_some());
        if let Some(arm) = front.and_then(|f| sleeve(piece, f)) {
            let left = mirrored(&arm);
            for outline in [arm, left] {
                parts.push(Sketched {
                    outline,
                    layer,
                    is_behind: false,
                });
            }
        }
    }
    for (piece, layer) in shown().filter(|(p, _)| is_part(p, "front") && !is_cup(p)) {
        put(&mut parts, piece, layer, false, Vec2::ZERO);
    }
    for (piece, layer) in shown().filter(|(p, _)| is_cup(p)) {
        // A cup is drafted about its own bust point.
        let left = piece.cut_line.iter().map(|p| p.x).fold(f64::INFINITY, f64::min);
        let low = piece.cut_line.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
        let base = draft.levels.iter().find(|l| l.level == Level::Underbust);
        let to = Vec2::new(BETWEEN_CUPS - left, base.map_or(0.0, |l| l.y_mm) - low);
        put(&mut parts, piece, layer, false, to);
        if let Some((x, y)) = crown(&parts) {
            for side in [-1.0, 1.0] {
                parts.push(Sketched {
                    outline: strip(Point::new(side * x, y), Vec2::new(side * -0.35, 1.0)),
                    layer,
                    is_behind: false,
                });
            }
        }
    }
    bands(draft, &mut parts);
    ties(draft, &mut parts);
    // Where the suit folds under at the crotch, the back is not seen below the front.
    let is_folded_under = draft
        .pieces
        .iter()
        .any(|p| is_part(p, "back") && p.on_fold && p.edge("crotch").is_some());
    if is_folded_under {
        let fronts = parts.iter().filter(|p| !p.is_behind).flat_map(|p| &p.outline);
        let lowest = fronts.map(|p| p.y).fold(f64::INFINITY, f64::min);
        for part in parts.iter_mut().filter(|p| p.is_behind) {
            part.outline = above(&part.outline, lowest);
        }
    }
    parts.retain(|p| p.outline.len() > 2);
    let pegs = pegs(draft, &parts);
    (parts, pegs)
}

/// The outer layer a piece is cut from; none for linings, meshes and what is sewn inside.
fn outer(piece: &Piece) -> Option<Layer> {
    let inside = [
        "lining",
        "pocket",
        "mesh",
        "channel",
        "shelf_bra",
        "shield",
        "gusset",
    ];
    if inside.iter().any(|word| piece.key.contains(word)) {
        return None;
    }
    let layer = piece.cuts.iter().map(|c| c.layer).find(|l| *l != Layer::Lining);
    layer.filter(|l| *l != Layer::Mesh)
}

/// Whether a piece belongs to the front or back: `front`, `side_front`, `centre_front_low`, `brief_front`.
fn is_part(piece: &Piece, part: &str) -> bool {
    let mut words = piece.key.split('_');
    words.any(|word| word == part)
        && !["tie", "strap", "band", "facing"]
            .iter()
            .any(|w| piece.key.contains(w))
}

/// A cup of its own: drafted about its own bust point, standing on a base.
fn is_cup(piece: &Piece) -> bool {
    !piece.on_fold && is_part(piece, "front") && piece.edges.iter().any(|e| e.name.starts_with("base"))
}

fn put(parts: &mut Vec<Sketched>, piece: &Piece, layer: Layer, is_behind: bool, by: Vec2) {
    let mut add = |outline: Outline| {
        parts.push(Sketched {
            outline,
            layer,
            is_behind,
        });
    };
    if piece.on_fold {
        add(unfolded(half(piece, &["fold"])).iter().map(|p| *p + by).collect());
    } else {
        let right: Outline = seam_line(piece).iter().map(|p| *p + by).collect();
        let right = match leg(piece) {
            Some(leg) => leg,
            None => right_of_the_middle(&right),
        };
        add(mirrored(&right));
        add(right);
    }
}

/// Half the gap between the hems of two legs.
const BETWEEN_LEGS: f64 = 7.0;

/// A piece with a leg as it hangs: its fork, which goes on between the legs, is not seen, and its seat lies back in the middle.
fn leg(piece: &Piece) -> Option<Outline> {
    let at = piece.edges.iter().position(|e| e.name == "inseam")?;
    let around = |i: usize| piece.edges.get((at + i) % piece.edges.len());
    // From the inseam's foot round the piece: hem, side, top, the seam in the middle.
    let middle = around(piece.edges.len() - 1)?;
    let ends = |of: &PieceEdge| {
        let (a, b) = (of.curve.start().y, of.curve.end().y);
        (a.min(b), a.max(b))
    };
    let ((fork, seat), (hem, _)) = (ends(middle), ends(piece.edges.get(at)?));
    let round = (1..piece.edges.len() - 1).filter_map(around);
    let mut outline = vec![Point::new(0.0, fork), Point::new(BETWEEN_LEGS, hem)];
    for edge in round {
        let curve = edge.curve.flatten(TOLERANCE_MM);
        outline.extend(curve.iter().filter(|p| p.x > BETWEEN_LEGS));
    }
    outline.push(Point::new(0.0, seat));
    Some(outline)
}

/// What of an outline lies right of x = 0.
fn right_of_the_middle(outline: &[Point]) -> Outline {
    let next = outline.iter().cycle().skip(1);
    let mut kept = Outline::new();
    for (a, b) in outline.iter().zip(next) {
        if a.x >= 0.0 {
            kept.push(*a);
        }
        if (a.x >= 0.0) != (b.x >= 0.0) {
            let t = a.x / (a.x - b.x);
            kept.push(Point::new(0.0, a.y + t * (b.y - a.y)));
        }
    }
    kept
}

fn seam_line(piece: &Piece) -> Outline {
    piece
        .edges
        .iter()
        .filter(|e| e.role != EdgeUse::Dart)
        .flat_map(|e| e.curve.flatten(TOLERANCE_MM))
        .collect()
}

/// The right sleeve, folded along its length, hung from shoulder and underarm.
fn sleeve(piece: &Piece, front: &Piece) -> Option<Outline> {
    let armhole = front.edge("armhole")?;
    let (a, b) = (armhole.curve.start(), armhole.curve.end());
    let (underarm, shoulder) = if a.y < b.y { (a, b) } else { (b, a) };
    let line = seam_line(piece);
    let spread = |of: fn(&Point) -> f64| {
        let all = || line.iter().map(of);
        all().fold(f64::NEG_INFINITY, f64::max) - all().fold(f64::INFINITY, f64::min)
    };
    let low = line.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
    let ends = line.iter().filter(|p| p.y < low + 25.0).map(|p| p.x);
    let (l, r) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, r), x| {
        (l.min(x), r.max(x))
    });
    let (long, wrist) = (spread(|p| p.y), 0.5 * (r - l).max(40.0));
    let down = Vec2::new(SLEEVE_HANGS.cos(), -SLEEVE_HANGS.sin());
    let across = Vec2::new(-down.y, down.x) * -1.0;
    let top = shoulder + down * long;
    Some(vec![shoulder, top, top + across * wrist, underarm])
}

/// x and y of the highest point right of the middle.
fn crown(parts: &[Sketched]) -> Option<(f64, f64)> {
    let all = parts.iter().filter(|p| !p.is_behind).flat_map(|p| &p.outline);
    all.filter(|p| p.x > 0.0)
        .max_by(|a, b| a.y.total_cmp(&b.y))
        .map(|p| (p.x, p.y))
}

fn strip(from: Point, along: Vec2) -> Outline {
    let (long, wide) = TIE;
    let along = along / along.hypot();
    let side = Vec2::new(-along.y, along.x) * (0.5 * wide);
    vec![
        from - side,
        from + side,
        from + along * long + side,
        from + along * long - side,
    ]
}

/// Bands round the body: below a top's lower edge, above a bottom's upper one.
fn bands(draft: &Draft, parts: &mut Vec<Sketched>) {
    for piece in draft
        .pieces
        .iter()
        .filter(|p| p.key.ends_with("band") && !p.key.contains("collar"))
    {
        let Some(layer) = outer(piece) else { continue };
        let ys = || piece.cut_line.iter().map(|p| p.y);
        let high = ys().fold(f64::NEG_INFINITY, f64::max) - ys().fold(f64::INFINITY, f64::min);
        // Bands are folded along their middle.
        let high = 0.5 * high;
        let is_waist = piece.key.contains("waist");
        let edge = draft
            .pieces
            .iter()
            .filter(|p| is_part(p, "front"))
            .flat_map(|p| &p.edges)
            .find(|e| {
                if is_waist {
                    ["top", "waist"].contains(&e.name)
                } else {
                    ["bottom", "underbust", "band", "hem"].contains(&e.name)
                }
            });
        let Some(edge) = edge else { continue };
        let (a, b) = (edge.curve.start(), edge.curve.end());
        let half_width = a.x.max(b.x);
        let y = 0.5 * (a.y + b.y);
        let (low, top) = if is_waist { (y, y + high) } else { (y - high, y) };
        parts.push(Sketched {
            outline: vec![
                Point::new(-half_width, low),
                Point::new(half_width, low),
                Point::new(half_width, top),
                Point::new(-half_width, top),
            ],
            layer,
            is_behind: false,
        });
    }
}

/// Ties and straps that go up from the top, and ties at the sides of a bottom.
fn ties(draft: &Draft, parts: &mut Vec<Sketched>) {
    let has = |word: &str| draft.pieces.iter().any(|p| p.key.split('_').any(|w| w == word));
    let layer = Layer::Shell;
    let is_cupped = draft.pieces.iter().any(is_cup);
    if !is_cupped && draft.pieces.iter().any(|p| p.key.contains("neck_")) {
        if let Some((x, y)) = crown(parts) {
            for side in [-1.0, 1.0] {
                parts.push(Sketched {
                    outline: strip(Point::new(side * x, y), Vec2::new(side * -0.45, 1.0)),
                    layer,
                    is_behind: false,
                });
            }
        }
    } else if has("tie") && !is_cupped {
        let side = parts
            .iter()
            .filter(|p| !p.is_behind)
            .flat_map(|p| &p.outline)
            .max_by(|a, b| a.x.total_cmp(&b.x))
            .copied();
        if let Some(at) = side {
            for way in [-1.0, 1.0] {
                for lean in [0.2, 0.75] {
                    parts.push(Sketched {
                        outline: strip(Point::new(way * at.x, at.y), Vec2::new(way * lean, -1.0)),
                        layer,
                        is_behind: false,
                    });
                }
            }
        }
    }
}

/// The middles of the straps, or near the ends of the uppermost edge.
fn pegs(draft: &Draft, parts: &[Sketched]) -> Vec<f64> {
    let shoulder = draft
        .pieces
        .iter()
        .filter(|p| is_part(p, "front"))
        .find_map(|p| p.edge("shoulder"))
        .map(|e| 0.5 * (e.curve.start().x + e.curve.end().x));
    let is_open_topped = draft
        .pieces
        .iter()
        .flat_map(|p| &p.edges)
        .any(|e| matches!(e.role, EdgeUse::Open(OpenKind::Top | OpenKind::Waist)));
    let x = match (shoulder, crown(parts)) {
        (Some(x), _) => x,
        (None, Some((x, _))) if !is_open_topped => x,
        (None, found) => {
            let top = found.map_or(0.0, |(_, y)| y);
            let wide = parts
                .iter()
                .flat_map(|p| &p.outline)
                .filter(|p| p.y > top - 40.0)
                .map(|p| p.x)
                .fold(0.0, f64::max);
            0.78 * wide
        }
    };
    vec![-x, x]
}
