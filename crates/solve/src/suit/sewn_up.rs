//! The draft as it is sewn up and worn: what is drafted flat and folded, hooked or tied, in the terms of pieces and seams.
//!
//! A band is drafted as a strip twice its height. Worn, it is a tube of two layers of cloth between the edge it is sewn to and its
//! fold, where its elastic lies; so it becomes a front and a back half of that height, each of its layers pulling. A band that is
//! folded down once more lies in four layers, half as high. The edge it is sewn to is longer and is eased in evenly.
//!
//! **Shapes and units.** mm, flat frames of the draft.
//! **Limits.** A hook is taken as closed, without the give of its own.

use std::collections::BTreeMap;

use draft::geometry::Curve;
use draft::{Draft, EdgeUse, OpenKind, Piece, PieceEdge, SeamWalk};
use kurbo::Point;

use super::strap::{EdgeOf, StrapPlan};

/// What is said of a top that is held up by nothing.
const HELD_UP: &str = "top without straps";
/// Names of a band's edges sewn to the pieces beside it, from the middle outwards.
const SEWN: [&str; 2] = ["sewn", "sewn_outer"];

/// A draft ready to be meshed.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct SewnUp {
    /// Its pieces and seams as they are worn.
    pub(crate) draft: Draft,
    /// In how many layers of shell a piece lies, by its key; one where none is said.
    pub(crate) layers: BTreeMap<String, f64>,
    /// What is taken for granted of the way it is worn, in words.
    pub(crate) assumed: Vec<String>,
    /// Straps and ties that are lines.
    pub(crate) straps: Vec<StrapPlan>,
    /// Edges whose points are held in one direction (0 across, 1 up and down), and what they are.
    pub(crate) rails: Vec<(&'static str, EdgeOf, usize)>,
    /// What a strap ring takes out of the strap, mm.
    pub(crate) ring_mm: f64,
    /// What a tie bridges at each side, mm.
    pub(crate) side_gap_mm: f64,
    /// Whether cloth hangs of which the body carries little: then its weight says where it lies.
    pub(crate) hangs: bool,
    /// Whether it was sewn up of half pieces, as only suits are that are alike left and right.
    pub(crate) only_halves: bool,
}

impl SewnUp {
    pub(crate) fn of(draft: &Draft) -> SewnUp {
        let mut sewn = SewnUp {
            draft: draft.clone(),
            layers: BTreeMap::new(),
            assumed: Vec::new(),
            straps: Vec::new(),
            rails: Vec::new(),
            ring_mm: 0.0,
            side_gap_mm: 0.0,
            hangs: false,
            only_halves: false,
        };
        sewn.hook();
        sewn.fold_band();
        sewn.tie();
        sewn.only_halves = !sewn.assumed.is_empty();
        sewn.hold_up();
        sewn.hang();
        sewn
    }

    /// A back open at its centre is worn hooked: its edge lies in the middle of the body.
    fn hook(&mut self) {
        let mut is_hooked = false;
        for piece in &mut self.draft.pieces {
            for edge in &mut piece.edges {
                let is_in_middle = edge.curve.start().x.abs() < 1e-6 && edge.curve.end().x.abs() < 1e-6;
                if edge.name == "centre_back" && edge.role == EdgeUse::Raw && is_in_middle {
                    edge.role = EdgeUse::Fold;
                    is_hooked = true;
                }
            }
        }
        if is_hooked {
            self.assumed
                .push("the back is taken as hooked, edge to edge, its hook as unyielding".into());
        }
    }

    /// A top without straps has nothing but its own grip to stay up by: its upper edge, whose elastic is there for it, is held at its height.
    fn hold_up(&mut self) {
        for piece in &self.draft.pieces {
            if !matches!(piece.key.as_str(), "front" | "back") {
                continue;
            }
            if !piece.edges.iter().any(|e| e.role == EdgeUse::Open(OpenKind::Top)) {
                continue;
            }
            for e in &piece.edges {
                if e.role == EdgeUse::Open(OpenKind::Top) {
                    let of = EdgeOf {
                        piece: piece.key.clone(),
                        edge: e.name,
                    };
                    self.rails.push((HELD_UP, of, 1));
                }
            }
        }
        if self.rails.iter().any(|r| r.2 == 1) {
            self.assumed.push(
                "nothing but its own grip holds this top up: its upper edge is held at the height of the draft, and the grip this takes is said"
                    .into(),
            );
        }
    }

    /// Cloth over a hem that isn't drawn in hangs; triangles hang on their ties.
    fn hang(&mut self) {
        let hem = |p: &Piece| {
            matches!(p.key.as_str(), "front" | "back")
                && p.edge("bottom").is_some_and(|e| e.role == EdgeUse::Hem)
        };
        let is_triangle = |p: &Piece| p.key == "front" && p.edge("base").is_some();
        self.hangs = self.draft.pieces.iter().any(|p| hem(p) || is_triangle(p));
        if self.hangs {
            self.assumed
                .push("its cloth hangs by its weight, taken as 200 g a square metre and layer".into());
        }
    }

    fn fold_band(&mut self) {
        let draft = &self.draft;
        let Some(number) = draft.pieces.iter().position(|p| p.key == "band") else {
            return;
        };
        let Some(walk) = draft.seams.iter().position(|s| s.second.0 == "band") else {
            return;
        };
        let band = draft.pieces[number].clone();
        let (Some(lower), Some(upper), Some(&edge)) = (
            band.edge("lower"),
            band.edge("upper"),
            draft.seams[walk].first.1.first(),
        ) else {
            return;
        };
        let whole = lower.curve.length();
        let height = (upper.curve.start().y - lower.curve.start().y) / 2.0;
        let side = band
            .notches
            .iter()
            .find(|n| n.key == "band_side" && n.edge == "lower")
            .map_or(whole / 2.0, |n| n.seam_at.x);
        // Under the bust it hangs from the edge; of a bottom it stands on it, folded down once more.
        let is_below = edge == "bottom";
        let mut halves = Vec::new();
        let mut seams = Vec::new();
        for (is_front, width) in [(true, side), (false, whole - side)] {
            let beside = self.beside(edge, is_front);
            if beside.is_empty() || beside.len() > SEWN.len() {
                return;
            }
            let key = if is_front { "band_front" } else { "band_back" };
            let half = half_band(&band, key, (width, height), &beside, is_below);
            for (i, (piece, length, _)) in beside.iter().enumerate() {
                let own = half.edge(SEWN[i]).map_or(0.0, |e| e.curve.length());
                seams.push(SeamWalk {
                    name: "band",
                    first: (piece.clone(), vec![edge]),
                    second: (key.into(), vec![SEWN[i]]),
                    first_mm: *length,
                    second_mm: own,
                    sewn_ease_mm: length - own,
                });
            }
            self.layers.insert(key.into(), if is_below { 2.0 } else { 4.0 });
            halves.push(half);
        }
        let side_mm = halves
            .first()
            .and_then(|h| h.edge("side"))
            .map_or(0.0, |e| e.curve.length());
        seams.push(SeamWalk {
            name: "band side",
            first: ("band_front".into(), vec!["side"]),
            second: ("band_back".into(), vec!["side"]),
            first_mm: side_mm,
            second_mm: side_mm,
            sewn_ease_mm: 0.0,
        });
        self.draft.seams.remove(walk);
        self.draft.seams.extend(seams);
        self.draft.pieces.remove(number);
        self.draft.pieces.extend(halves);
        self.assumed.push(if is_below {
            "the band lies in two layers between the top's lower edge and its fold; its elastic pulls along the fold".into()
        } else {
            "the waist band is worn folded down, four layers half as high as it is cut".into()
        });
    }

    /// Shell pieces with that edge, from the middle outwards: key, length and outer end of the edge.
    fn beside(&self, edge: &str, is_front: bool) -> Vec<(String, f64, Point)> {
        let mut all: Vec<(String, f64, Point)> = self
            .draft
            .pieces
            .iter()
            .filter(|p| p.cuts.iter().any(|c| c.layer == cloth::Layer::Shell))
            .filter(|p| p.key.contains("back") != is_front)
            .filter_map(|p| {
                let e = p.edge(edge).filter(|e| e.role == EdgeUse::Seam)?;
                let (a, b) = (e.curve.start(), e.curve.end());
                Some((p.key.clone(), e.curve.length(), if a.x > b.x { a } else { b }))
            })
            .collect();
        all.sort_by(|a, b| a.2.x.total_cmp(&b.2.x));
        all
    }
}

/// A half of a folded band, drawn on from the edge it is sewn to.
fn half_band(
    band: &Piece,
    key: &str,
    (width, height): (f64, f64),
    beside: &[(String, f64, Point)],
    is_below: bool,
) -> Piece {
    let y = beside.last().map_or(0.0, |b| b.2.y);
    let total: f64 = beside.iter().map(|b| b.1).sum();
    let height = if is_below { height } else { height / 2.0 };
    let far = if is_below { y - height } else { y + height };
    // Places along the sewn edge where one piece ends and the next begins.
    let mut ends = vec![0.0];
    for b in beside {
        ends.push(ends.last().unwrap_or(&0.0) + width * b.1 / total);
    }
    let edge = |name: &'static str, role, from: (f64, f64), to: (f64, f64)| PieceEdge {
        name,
        role,
        curve: Curve::line(Point::from(from), Point::from(to)),
        allowance_mm: 0.0,
    };
    let mut sewn: Vec<PieceEdge> = ends
        .windows(2)
        .zip(SEWN)
        .map(|(w, name)| {
            let (a, b) = if is_below { (w[1], w[0]) } else { (w[0], w[1]) };
            edge(name, EdgeUse::Seam, (a, y), (b, y))
        })
        .collect();
    let mut edges = Vec::new();
    if is_below {
        sewn.reverse();
        let open = EdgeUse::Open(OpenKind::Underbust);
        edges.push(edge("folded", open, (0.0, far), (width, far)));
        edges.push(edge("side", EdgeUse::Seam, (width, far), (width, y)));
        edges.extend(sewn);
        edges.push(edge("fold", EdgeUse::Fold, (0.0, y), (0.0, far)));
    } else {
        edges.extend(sewn);
        edges.push(edge("side", EdgeUse::Seam, (width, y), (width, far)));
        edges.push(edge("folded", EdgeUse::Hem, (width, far), (0.0, far)));
        edges.push(edge("fold", EdgeUse::Fold, (0.0, far), (0.0, y)));
    }
    Piece {
        key: key.into(),
        name: band.name.clone(),
        edges,
        notches: Vec::new(),
        marks: Vec::new(),
        ..band.clone()
    }
}
