//! The straps and ties of a draft as they are worn.
//!
//! What the draft says of each: a shoulder tie ends where the shoulder seam would be, so both ends meet there; a ring takes its width out of the
//! strap; a neck strap is cut to the middle of the nape; a crossed strap as long as its way on the flat back; a side tie bridges the gap
//! the draft left for it. Ties round neck and ribs have no length but the wearer's: they are taken as tied
//! [`TIED_STRETCH`] longer than at rest.
//!
//! **Shapes and units.** mm.
//! **Limits.** Ends that hang free pull at nothing and are left out.

use cloth::Layer;
use draft::geometry::Curve;
use draft::{Draft, EdgeUse, Mark, Piece, PieceEdge, SeamWalk};
use kurbo::Point;

use super::sewn_up::SewnUp;
use super::strap::{EdgeOf, End, Rest, StrapPlan, Way};

/// Worn stretch of a tie knotted so that it lies close and does not cut in (own, no source).
pub const TIED_STRETCH: f64 = 0.10;
/// Finished width of a tie of two triangles, mm: the draft's.
const TIE_MM: f64 = 10.0;
/// About how long a neck tie is to the nape, and half a back tie round the ribs, for the number of its bars; mm.
const ABOUT_NECK: f64 = 260.0;
const ABOUT_BACK: f64 = 280.0;
const ABOUT_BETWEEN: f64 = 20.0;
/// A side tie isn't knotted shorter than this, mm.
const LEAST_TIE: f64 = 10.0;
/// Lines of a wide strap lie about this far apart, mm.
const LINE_MM: f64 = 10.0;

impl SewnUp {
    /// Turns straps and ties into seams, cloth and lines.
    pub(super) fn tie(&mut self) {
        self.shoulder_ties();
        self.rings();
        self.neck_strap();
        self.crossed();
        self.triangles();
        self.side_ties();
    }

    fn walk(&self, name: &str) -> Option<usize> {
        self.draft.seams.iter().position(|s| s.name == name)
    }

    fn drop_piece(&mut self, key: &str) {
        self.draft.pieces.retain(|p| p.key != key);
    }

    fn shoulder_ties(&mut self) {
        let (Some(front), Some(back)) = (self.walk("front tie"), self.walk("back tie")) else {
            return;
        };
        let (front, back) = (self.draft.seams[front].clone(), self.draft.seams[back].clone());
        self.draft
            .seams
            .retain(|s| !matches!(s.name, "front tie" | "back tie"));
        self.draft.seams.push(SeamWalk {
            name: "shoulder",
            first: front.first,
            second: back.first,
            first_mm: front.first_mm,
            second_mm: back.first_mm,
            sewn_ease_mm: front.first_mm - back.first_mm,
        });
        self.drop_piece("tie");
        self.assumed.push(
            "the shoulder ties are taken as knotted where the shoulder seam would be; their free ends pull at nothing".into(),
        );
    }

    fn rings(&mut self) {
        let size = said(&self.draft, "draft.strap_try", "straps");
        let ends = |is_front: bool| -> Option<EdgeOf> {
            let piece = self.draft.pieces.iter().find(|p| {
                p.key.contains("back") != is_front
                    && is_shell(p)
                    && p.edge("shoulder").is_some_and(|e| e.role == EdgeUse::Hem)
            })?;
            Some(EdgeOf {
                piece: piece.key.clone(),
                edge: "shoulder",
            })
        };
        let (Some(size), Some(front), Some(back)) = (size, ends(true), ends(false)) else {
            return;
        };
        let lines = 1 + (edge(&self.draft, &front).map_or(0.0, Curve::length) / LINE_MM).ceil() as usize;
        let across = |of: &EdgeOf, i: usize| -> Option<[f64; 2]> {
            let curve = edge(&self.draft, of)?;
            let (a, b) = ends_by_x(curve);
            let at = a.lerp(b, i as f64 / (lines - 1).max(1) as f64);
            Some([at.x, at.y])
        };
        let mut plans = Vec::new();
        for i in 0..lines {
            if let (Some(a), Some(b)) = (across(&front, i), across(&back, i)) {
                plans.push(StrapPlan {
                    name: "strap ring",
                    over: Vec::new(),
                    ends: [End::At(front.clone(), a), End::At(back.clone(), b)],
                    way: Way::Straight,
                    crosses: None,
                    rest: Rest::Ring(size),
                    width_mm: 0.0,
                    cloth_mm: 0.0,
                });
            }
        }
        self.straps.extend(plans);
        for of in [&front, &back] {
            let piece = self.draft.pieces.iter_mut().find(|p| p.key == of.piece);
            for e in piece.into_iter().flat_map(|p| &mut p.edges) {
                if e.name == "shoulder" {
                    // For placing: this is the strap's end on the shoulder.
                    e.role = EdgeUse::Seam;
                }
            }
        }
        self.ring_mm = size;
        self.rails.push(("strap ring", back, 0));
        self.assumed.push(format!(
            "the strap rings are taken as {size:.0} mm wide and unyielding, the straps as long as they were cut"
        ));
    }

    fn neck_strap(&mut self) {
        let found = self.draft.seams.iter().position(|s| {
            [&s.first.0, &s.second.0]
                .iter()
                .any(|k| matches!(k.as_str(), "neck_strap" | "neck_piece"))
        });
        let Some(found) = found else { return };
        let walk = self.draft.seams[found].clone();
        let (front, strap) = if walk.first.0.starts_with("neck_") {
            (walk.second, walk.first.0)
        } else {
            (walk.first, walk.second.0)
        };
        let length = self
            .draft
            .finished
            .iter()
            .find(|f| f.key == "strap_length")
            .map(|f| f.value_mm);
        let Some((length, source)) = length.zip(self.draft.pieces.iter().find(|p| p.key == strap).cloned())
        else {
            return;
        };
        let Some(&sewn) = front.1.first() else { return };
        let Some(width) = self
            .draft
            .pieces
            .iter()
            .find(|p| p.key == front.0)
            .and_then(|p| p.edge(sewn))
            .map(|e| e.curve.length())
        else {
            return;
        };
        for p in self.draft.pieces.iter_mut().filter(|p| p.key == front.0) {
            for e in p.edges.iter_mut().filter(|e| e.name == sewn) {
                // It lies beside the neck, not on the shoulder.
                e.name = NECK_END;
            }
        }
        self.draft.seams[found] = SeamWalk {
            name: "neck strap",
            first: (front.0, vec![NECK_END]),
            second: ("neck_strap".into(), vec!["end"]),
            first_mm: width,
            second_mm: width,
            sewn_ease_mm: 0.0,
        };
        self.drop_piece(&strap);
        self.draft.pieces.push(strip(&source, width, length));
        self.layers.insert("neck_strap".into(), 2.0);
        self.assumed.push(format!(
            "the neck strap is taken as closed in the middle of the nape, {length:.0} mm from the front as it is cut; what goes on from there pulls at nothing"
        ));
    }

    fn crossed(&mut self) {
        let draft = &self.draft;
        let (Some(_), Some(way)) = (
            draft.pieces.iter().find(|p| p.key == "strap"),
            draft.finished.iter().find(|f| f.key == "strap_length"),
        ) else {
            return;
        };
        let place = draft.pieces.iter().find(|p| p.key == "back").and_then(|p| {
            p.marks.iter().find_map(|m| match m {
                Mark::Cross { at, text } if text == "strap of the other side" => Some(*at),
                _ => None,
            })
        });
        let front = draft
            .pieces
            .iter()
            .find(|p| is_shell(p) && p.edge("shoulder").is_some())
            .map(|p| EdgeOf {
                piece: p.key.clone(),
                edge: "shoulder",
            });
        let (Some(place), Some(front)) = (place, front) else {
            return;
        };
        let back = EdgeOf {
            piece: "back".into(),
            edge: "top",
        };
        let (Some(end), Some(top)) = (edge(draft, &front), edge(draft, &back)) else {
            return;
        };
        let width = end.length();
        let (inner, outer) = ends_by_x(end);
        let lines = 1 + (width / LINE_MM).round().max(1.0) as usize;
        let mut plans = Vec::new();
        for i in 0..lines {
            let share = i as f64 / (lines - 1) as f64;
            let from = inner.lerp(outer, share);
            // What lies further out on the shoulder ends nearer the middle of the other side.
            let x = place.x - (share - 0.5) * width;
            let to = near_x(top, x);
            plans.push(StrapPlan {
                name: "crossed strap",
                over: Vec::new(),
                ends: [
                    End::At(front.clone(), [from.x, from.y]),
                    End::At(back.clone(), [to.x, to.y]),
                ],
                way: Way::Across,
                crosses: Some(from.x / (from.x + to.x).max(1.0)),
                rest: Rest::Cut(way.value_mm),
                width_mm: width / lines as f64,
                cloth_mm: 2.0 * width / lines as f64,
            });
        }
        self.straps.extend(plans);
        self.drop_piece("strap");
        self.assumed.push(
            "the crossed straps pull along their length alone, side by side; they cross where the flat back has them cross, and slide over each other there".into(),
        );
    }

    fn triangles(&mut self) {
        let draft = &self.draft;
        let Some(cup) = draft
            .pieces
            .iter()
            .find(|p| p.key == "front" && p.edge("base").is_some())
        else {
            return;
        };
        if !draft.pieces.iter().any(|p| p.key == "back_tie") {
            return;
        }
        let of = |edge| EdgeOf {
            piece: "front".into(),
            edge,
        };
        let base = if cup.edge("base_outer").is_some() {
            vec!["base", "base_outer"]
        } else {
            vec!["base"]
        };
        let start = |name: &str| cup.edge(name).map(|e| e.curve.start());
        let last = base.last().copied().unwrap_or("base");
        let (Some(inner), Some(outer), Some(apex)) = (start("base"), start("outer"), start("inner")) else {
            return;
        };
        let at = |edge, p: Point| End::At(of(edge), [p.x, p.y]);
        let plan = |name, over: Vec<EdgeOf>, ends, way, about_mm, width_mm| StrapPlan {
            name,
            over,
            ends,
            way,
            crosses: None,
            rest: Rest::Tied {
                about_mm,
                stretch: TIED_STRETCH,
            },
            width_mm,
            cloth_mm: 2.0 * TIE_MM,
        };
        let plans = vec![
            plan(
                "neck tie",
                vec![],
                [at("outer", apex), End::Middle],
                Way::Nape,
                ABOUT_NECK,
                TIE_MM,
            ),
            plan(
                "tie under the bust, between the triangles",
                vec![],
                [at("base", inner), End::Middle],
                Way::Round { is_front: true },
                ABOUT_BETWEEN,
                TIE_MM,
            ),
            plan(
                "tie under the bust, in its channel",
                base.iter().map(|e| of(e)).collect(),
                [at("base", inner), at(last, outer)],
                Way::Straight,
                0.0,
                0.0,
            ),
            plan(
                "tie under the bust, behind",
                vec![],
                [at(last, outer), End::Middle],
                Way::Round { is_front: false },
                ABOUT_BACK,
                TIE_MM,
            ),
        ];
        self.straps.extend(plans);
        self.drop_piece("neck_tie");
        self.drop_piece("back_tie");
        self.assumed.push(format!(
            "neck and back ties are taken as tied {:.0} % longer than at rest, the triangles as far apart on their tie as they are placed",
            100.0 * TIED_STRETCH
        ));
    }

    fn side_ties(&mut self) {
        let (Some(front), Some(_)) = (self.walk("tie, front"), self.walk("tie, back")) else {
            return;
        };
        let width = self.draft.seams[front].second_mm;
        let gap = said(&self.draft, "draft.side_ties", "side").unwrap_or(0.0);
        let end = |piece: &str| {
            End::Gathered(EdgeOf {
                piece: piece.into(),
                edge: "tie_end",
            })
        };
        self.straps.push(StrapPlan {
            name: "side tie",
            over: Vec::new(),
            ends: [end("front"), end("back")],
            way: Way::Straight,
            crosses: None,
            rest: Rest::Knotted(gap.max(LEAST_TIE)),
            width_mm: width,
            cloth_mm: 2.0 * width,
        });
        self.draft
            .seams
            .retain(|s| !matches!(s.name, "tie, front" | "tie, back"));
        self.drop_piece("tie");
        self.side_gap_mm = gap;
        self.assumed.push(format!(
            "each side is taken as knotted so that front and back stand the draft's {gap:.0} mm apart; its pull follows"
        ));
    }
}

/// The end of a front that goes on into a strap round the neck.
pub(crate) const NECK_END: &str = "neck_end";

fn is_shell(piece: &Piece) -> bool {
    piece.cuts.iter().any(|c| c.layer == Layer::Shell)
}

/// The number a finding of the draft carries.
fn said(draft: &Draft, code: &str, place: &str) -> Option<f64> {
    let found = draft
        .findings
        .iter()
        .find(|f| f.code == code && f.place == place)?;
    found.value
}

fn edge<'a>(draft: &'a Draft, of: &EdgeOf) -> Option<&'a Curve> {
    let piece = draft.pieces.iter().find(|p| p.key == of.piece)?;
    Some(&piece.edge(of.edge)?.curve)
}

/// Ends of a run, that nearer the middle first.
fn ends_by_x(curve: &Curve) -> (Point, Point) {
    let (a, b) = (curve.start(), curve.end());
    if a.x < b.x { (a, b) } else { (b, a) }
}

/// The point of a run nearest to a distance from the middle.
fn near_x(curve: &Curve, x: f64) -> Point {
    let length = curve.length();
    let at = |i: i32| curve.at_length(length * f64::from(i) / 60.0).0;
    (0..=60)
        .map(at)
        .min_by(|a, b| (a.x - x).abs().total_cmp(&(b.x - x).abs()))
        .unwrap_or_else(|| curve.start())
}

/// A folded neck strap: from the front up, its outer side to the right, to the middle of the nape.
fn strip(source: &Piece, width: f64, length: f64) -> Piece {
    let corners = [(0.0, 0.0), (width, 0.0), (width, length), (0.0, length)].map(Point::from);
    let sides = [
        ("end", EdgeUse::Seam),
        ("outer", EdgeUse::Hem),
        ("nape", EdgeUse::Fold),
        ("inner", EdgeUse::Hem),
    ];
    Piece {
        key: "neck_strap".into(),
        name: "Neck strap".into(),
        edges: sides
            .into_iter()
            .enumerate()
            .map(|(i, (name, role))| PieceEdge {
                name,
                role,
                curve: Curve::line(corners[i], corners[(i + 1) % 4]),
                allowance_mm: 0.0,
            })
            .collect(),
        notches: Vec::new(),
        marks: Vec::new(),
        ..source.clone()
    }
}
