//! A suit for a body that is not alike left and right: two drafts, each of one side, made into one.
//!
//! Each side is drafted as if the whole body were like it. A piece on the fold becomes a whole piece of one half from each draft, joined
//! at the centre line; a mirrored pair becomes a left and a right piece where the sides differ. What is drawn at the centre follows the
//! left side in both drafts, so the halves meet; where a style makes its centre from something sided, they do not, and the draft is
//! refused with the reason. Works on finished drafts, so for every style.
//!
//! **Shapes and units.** mm flat, piece frame. Pieces lie with the cloth's right side up: of a front, x > 0 is the wearer's left; of a
//! back, her right. A sleeve is drafted with its front at x > 0, which is her right one.
//! **Source.** Own reasoning; left and right pieces for an uneven body: common practice, no single source.
//! **Limits.** Levels, ring openings and the trunk loop are those of the whole suit, so both sides' mean; the loop's estimate in rungs is the
//! left's. A lower or top edge whose height at the centre follows a sided dimension (a crop top the underarm, a brief and a rash top the hip)
//! is refused where that dimension differs. A piece that is cut once and is not on the fold must be alike on both sides.

use kurbo::Point;

use crate::branch;
use crate::geometry::Curve;
use crate::piece::{EdgeUse, Mark, Notch, Piece, PieceEdge, flip};
use crate::refusal::Refusal;
use crate::suit::{Draft, FinishedMeasure, LevelWidth, OpenEdge, Opening, OpeningKind, SeamWalk};

/// Halves meet at the centre within this, mm: as seams do.
const MEET_MM: f64 = 0.5;
/// Below this two drafts are the same, mm.
const SAME_MM: f64 = 1e-6;

/// Refused because the centre is drawn from something that differs.
const CENTRES_DIFFER: Refusal = Refusal::Combination {
    parameter: "style",
    why: "left and right do not meet at the centre: this shape draws its centre from a dimension that differs on the two sides; choose \
          another back or neckline, or leave that dimension out of [wearer.right]",
};
const OTHER_PIECES: Refusal = Refusal::Combination {
    parameter: "style",
    why: "left and right would be made in different ways, one with a dart or seam the other has not; set the shaping yourself, or leave \
          side_neck_to_bust_point out of [wearer.right]",
};
const CUT_ONCE: Refusal = Refusal::Combination {
    parameter: "style",
    why: "a piece of this style is cut once for both sides and would have to differ; choose another style, or leave the dimension out of \
          [wearer.right]",
};

/// One suit of the drafts of its left and its right side.
///
/// # Errors
/// [`Refusal::Combination`] when the halves do not meet at the centre or have other pieces.
pub(crate) fn joined(left: Draft, right: Draft) -> Result<Draft, Refusal> {
    if left.pieces.len() != right.pieces.len()
        || left.pieces.iter().zip(&right.pieces).any(|(l, r)| l.key != r.key)
    {
        return Err(OTHER_PIECES);
    }
    let mut pieces = Vec::with_capacity(left.pieces.len() + 4);
    for (l, r) in left.pieces.iter().zip(&right.pieces) {
        both(l, r, &mut pieces)?;
    }
    for (i, piece) in pieces.iter_mut().enumerate() {
        piece.letter = char::from(b'A' + u8::try_from(i % 26).unwrap_or(0));
    }
    let split = |key: &str| pieces.iter().any(|p| p.key == format!("{key}_left"));
    let mut findings = left.findings.clone();
    findings.extend(
        right
            .findings
            .iter()
            .filter(|f| !left.findings.contains(f))
            .cloned(),
    );
    Ok(Draft {
        seams: seams(&left.seams, &right.seams, split),
        open_edges: open_edges(&left.open_edges, &right.open_edges)?,
        levels: left.levels.iter().zip(&right.levels).map(mean_level).collect(),
        openings: left.openings.iter().zip(&right.openings).map(opening).collect(),
        finished: finished(&left.finished, &right.finished),
        branches: branch::joined(&left.branches, &right.branches),
        findings,
        pieces,
        ..left
    })
}

/// Whether x > 0 of the piece as drafted is the wearer's right.
fn is_right_as_drafted(piece: &Piece) -> bool {
    let has_back_centre = piece
        .notches
        .iter()
        .any(|n| n.key == "centre_back" && n.seam_at.x.abs() < 1e-6);
    piece.key.starts_with("back") || piece.key.starts_with("sleeve") || (piece.on_fold && has_back_centre)
}

fn both(l: &Piece, r: &Piece, pieces: &mut Vec<Piece>) -> Result<(), Refusal> {
    if are_alike(l, r) {
        pieces.push(l.clone());
        return Ok(());
    }
    let (outer, inner) = if is_right_as_drafted(l) { (r, l) } else { (l, r) };
    if l.on_fold {
        let mut whole = whole_of(outer, inner)?;
        for cut in &mut whole.cuts {
            // One for the front and one for the back of the body: the second is the first's mirror image.
            cut.mirrored |= cut.count == 2;
        }
        pieces.push(whole);
        return Ok(());
    }
    if !l.cuts.iter().all(|c| c.count == 2) {
        return Err(CUT_ONCE);
    }
    let (left_is_drafted, right_is_drafted) = if is_right_as_drafted(l) {
        (false, true)
    } else {
        (true, false)
    };
    pieces.push(one_of_pair(l, left_is_drafted, "left"));
    pieces.push(one_of_pair(r, right_is_drafted, "right"));
    Ok(())
}

fn are_alike(l: &Piece, r: &Piece) -> bool {
    let near = |a: Point, b: Point| (a - b).hypot() < SAME_MM;
    let same = |a: &Curve, b: &Curve| {
        a.cubics().len() == b.cubics().len()
            && a.cubics()
                .iter()
                .zip(b.cubics())
                .all(|(c, d)| near(c.p0, d.p0) && near(c.p1, d.p1) && near(c.p2, d.p2) && near(c.p3, d.p3))
    };
    l.edges.len() == r.edges.len()
        && l.edges
            .iter()
            .zip(&r.edges)
            .all(|(a, b)| a.name == b.name && same(&a.curve, &b.curve))
        && l.marks.len() == r.marks.len()
        && l.notches.len() == r.notches.len()
        && l.notches.iter().zip(&r.notches).all(|(a, b)| near(a.at, b.at))
}

fn one_of_pair(piece: &Piece, is_as_drafted: bool, side: &str) -> Piece {
    let mut one = if is_as_drafted {
        piece.clone()
    } else {
        mirrored(piece)
    };
    one.key = format!("{}_{side}", piece.key);
    one.name = format!("{}, {side}", piece.name);
    for cut in &mut one.cuts {
        (cut.count, cut.mirrored) = (1, false);
    }
    one
}

/// Whether a mark lies on the fold, so that the other half need not say it again.
fn is_on_fold(mark: &Mark) -> bool {
    let on = |p: Point| p.x.abs() < 1e-6;
    match mark {
        Mark::Cross { at, .. } | Mark::ArcEnd { at, .. } => on(*at),
        Mark::LevelLine { .. } => false,
        Mark::Placement { curve, .. } => on(curve.start()) && on(curve.end()),
    }
}

/// The piece seen in a mirror.
fn mirrored(piece: &Piece) -> Piece {
    Piece {
        edges: piece
            .edges
            .iter()
            .rev()
            .map(|e| PieceEdge {
                curve: e.curve.mirrored(),
                ..e.clone()
            })
            .collect(),
        cut_line: piece.cut_line.iter().rev().map(|&p| flip(p)).collect(),
        grain: piece.grain.mirrored(),
        stretch: piece.stretch.mirrored(),
        notches: piece.notches.iter().map(Notch::mirrored).collect(),
        marks: piece.marks.iter().map(Mark::mirrored).collect(),
        label_at: flip(piece.label_at),
        whole_label_at: flip(piece.whole_label_at),
        ..piece.clone()
    }
}

/// Edges from the foot of the fold round to its head, the fold left out.
fn round_from_foot(piece: &Piece) -> Option<Vec<PieceEdge>> {
    let fold = piece.edges.iter().position(|e| e.role == EdgeUse::Fold)?;
    let (before, after) = piece.edges.split_at(fold);
    Some(after.iter().skip(1).chain(before).cloned().collect())
}

/// A whole piece: `outer` as drafted at x > 0, `inner` mirrored at x < 0.
fn whole_of(outer: &Piece, inner: &Piece) -> Result<Piece, Refusal> {
    let (Some(mut edges), Some(other)) = (round_from_foot(outer), round_from_foot(inner)) else {
        return Err(CENTRES_DIFFER);
    };
    let ends = |edges: &[PieceEdge]| Some((edges.first()?.curve.start(), edges.last()?.curve.end()));
    let (Some((foot, head)), Some((other_foot, other_head))) = (ends(&edges), ends(&other)) else {
        return Err(CENTRES_DIFFER);
    };
    if (foot - other_foot).hypot() > MEET_MM || (head - other_head).hypot() > MEET_MM {
        return Err(CENTRES_DIFFER);
    }
    let last = other.len();
    edges.extend(other.into_iter().rev().enumerate().map(|(i, e)| {
        let mut curve = e.curve.mirrored();
        if i == 0 {
            curve = curve.reversed().ending_at(head).reversed();
        }
        if i + 1 == last {
            curve = curve.ending_at(foot);
        }
        PieceEdge { curve, ..e }
    }));
    let mut cut_line = outer.cut_line.clone();
    cut_line.extend(
        inner
            .cut_line
            .iter()
            .rev()
            .filter(|p| p.x > 0.0)
            .map(|&p| flip(p)),
    );
    let mut notches = outer.notches.clone();
    notches.extend(
        inner
            .notches
            .iter()
            .filter(|n| n.seam_at.x > 1e-6)
            .map(Notch::mirrored),
    );
    let mut marks = outer.marks.clone();
    marks.extend(inner.marks.iter().filter(|m| !is_on_fold(m)).map(Mark::mirrored));
    let is_back = outer.key.starts_with("back");
    marks.push(Mark::Cross {
        at: Point::new(0.0, outer.whole_label_at.y - 60.0),
        text: if is_back {
            "wearer's left is on the left here".into()
        } else {
            "wearer's left is on the right here".into()
        },
    });
    Ok(Piece {
        on_fold: false,
        edges,
        cut_line,
        notches,
        marks,
        label_at: outer.whole_label_at,
        ..outer.clone()
    })
}

/// Both sides' seams: those of a whole ring once, at the mean; those that are alike once; else the left's and the right's.
fn seams(left: &[SeamWalk], right: &[SeamWalk], split: impl Fn(&str) -> bool) -> Vec<SeamWalk> {
    let of_side = |s: &SeamWalk, side: &str| {
        let key = |k: &str| {
            if split(k) {
                format!("{k}_{side}")
            } else {
                k.to_owned()
            }
        };
        SeamWalk {
            first: (key(&s.first.0), s.first.1.clone()),
            second: (key(&s.second.0), s.second.1.clone()),
            ..s.clone()
        }
    };
    let mut all = Vec::with_capacity(left.len() * 2);
    for (l, r) in left.iter().zip(right) {
        let is_ring = l.first.0.contains(" and ") || l.second.0.contains(" and ");
        let is_same =
            (l.first_mm - r.first_mm).abs() < SAME_MM && (l.second_mm - r.second_mm).abs() < SAME_MM;
        let (l_side, r_side) = (of_side(l, "left"), of_side(r, "right"));
        if is_ring {
            all.push(SeamWalk {
                first_mm: 0.5 * (l.first_mm + r.first_mm),
                second_mm: 0.5 * (l.second_mm + r.second_mm),
                sewn_ease_mm: 0.5 * (l.sewn_ease_mm + r.sewn_ease_mm),
                ..l.clone()
            });
        } else if is_same && l_side.first == r_side.first && l_side.second == r_side.second {
            all.push(l_side);
        } else {
            all.extend([l_side, r_side]);
        }
    }
    all
}

/// Open edges: pairs that differ as a left and a right, rings with each side's own arcs.
fn open_edges(left: &[OpenEdge], right: &[OpenEdge]) -> Result<Vec<OpenEdge>, Refusal> {
    let mut all = Vec::with_capacity(left.len() + 3);
    for (l, r) in left.iter().zip(right) {
        if l.kind != r.kind || l.arcs.len() != r.arcs.len() {
            return Err(OTHER_PIECES);
        }
        if l.count == 2 && (l.length_mm() - r.length_mm()).abs() > SAME_MM {
            all.push(OpenEdge {
                count: 1,
                ..l.clone()
            });
            all.push(OpenEdge {
                count: 1,
                ..r.clone()
            });
            continue;
        }
        let mut edge = l.clone();
        let middle = edge.arcs.len() / 2;
        let is_odd = edge.arcs.len() % 2 == 1;
        for (i, (arc, other)) in edge.arcs.iter_mut().zip(&r.arcs).enumerate() {
            if l.count == 1 {
                arc.length_mm = match i.cmp(&middle) {
                    std::cmp::Ordering::Less if is_odd => arc.length_mm,
                    std::cmp::Ordering::Greater if is_odd => other.length_mm,
                    _ => 0.5 * (arc.length_mm + other.length_mm),
                };
            }
        }
        all.push(edge);
    }
    Ok(all)
}

fn mean_level((l, r): (&LevelWidth, &LevelWidth)) -> LevelWidth {
    LevelWidth {
        pattern_mm: 0.5 * (l.pattern_mm + r.pattern_mm),
        body_mm: 0.5 * (l.body_mm + r.body_mm),
        ..*l
    }
}

/// The harder of two legs or wrists; of a ring, the mean.
fn opening((l, r): (&Opening, &Opening)) -> Opening {
    let need = |o: &Opening| o.passes_mm / o.rest_mm;
    match l.kind {
        OpeningKind::Leg | OpeningKind::Wrist => {
            if need(r) > need(l) {
                *r
            } else {
                *l
            }
        }
        _ => Opening {
            rest_mm: 0.5 * (l.rest_mm + r.rest_mm),
            passes_mm: 0.5 * (l.passes_mm + r.passes_mm),
            around_share: 0.5 * (l.around_share + r.around_share),
            ..*l
        },
    }
}

/// Keys of measures that a suit has on each side, and the right side's.
const OF_A_SIDE: [(&str, &str); 10] = [
    ("side_seam", "side_seam_right"),
    ("leg_opening", "leg_opening_right"),
    ("armhole", "armhole_right"),
    ("shoulder_seam", "shoulder_seam_right"),
    ("sleeve_width", "sleeve_width_right"),
    ("sleeve_length", "sleeve_length_right"),
    ("sleeve_end", "sleeve_end_right"),
    ("cap_height", "cap_height_right"),
    ("strap_length", "strap_length_right"),
    ("inseam", "inseam_right"),
];

/// Measures of a side twice where they differ; those across or round the suit once, at the mean.
fn finished(left: &[FinishedMeasure], right: &[FinishedMeasure]) -> Vec<FinishedMeasure> {
    let mut all = Vec::with_capacity(left.len() + 6);
    for (l, r) in left.iter().zip(right) {
        let right_key = OF_A_SIDE
            .iter()
            .find(|(key, _)| *key == l.key)
            .map(|(_, right)| *right);
        match right_key {
            Some(key) if (l.value_mm - r.value_mm).abs() > SAME_MM => {
                all.push(FinishedMeasure {
                    name: format!("{}, left", l.name),
                    ..l.clone()
                });
                all.push(FinishedMeasure {
                    key,
                    name: format!("{}, right", r.name),
                    ..r.clone()
                });
            }
            _ => all.push(FinishedMeasure {
                value_mm: 0.5 * (l.value_mm + r.value_mm),
                ..l.clone()
            }),
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check_values::{measures, plan};
    use crate::draft::draft_measures;
    use crate::geometry::{area_mm2, is_simple};
    use crate::measures::Measures;
    use crate::style::Style;
    use crate::{Design, LiningCover, Skirt, SkirtJoin, SkirtKind};
    use units::Mm;

    fn two(name: &str, design: &Design, change: impl Fn(&mut Measures)) -> (Draft, Draft) {
        let cloth = plan(0.85, 0.60);
        let left = measures(name);
        let mut right = left;
        change(&mut right);
        (
            draft_measures(&left, &cloth, design).unwrap(),
            draft_measures(&right, &cloth, design).unwrap(),
        )
    }

    fn uneven(m: &mut Measures) {
        m.shoulder -= 8.0;
        m.side_length -= 10.0;
        m.thigh += 15.0;
        m.arm.upper_girth += 14.0;
        m.arm.length += 12.0;
    }

    fn designs() -> Vec<Design> {
        let mut all: Vec<Design> = Style::all()
            .iter()
            .filter(|s| s.is_for(body::BodyForm::Woman))
            .map(|&s| Design::of(s))
            .collect();
        all.push(Design {
            lining: LiningCover::Full,
            skirt: Some(Skirt {
                kind: SkirtKind::HalfCircle,
                join: SkirtJoin::Waist,
                cover: Mm::new(40.0),
            }),
            ..Design::default()
        });
        all
    }

    #[test]
    fn equal_sides_give_exactly_the_symmetric_suit() {
        for design in designs() {
            let (left, right) = two("average", &design, |_| {});
            let joined = joined(left.clone(), right).unwrap();
            assert_eq!(joined, left, "{:?}", design.style);
        }
    }

    #[test]
    fn an_uneven_body_gets_whole_pieces_that_are_sound() {
        let must_join = [Style::ONE_PIECE, Style::BRIEF, Style::RASH_TOP, Style::SUN_SUIT];
        for name in ["petite", "average", "plus"] {
            for design in designs() {
                let (left, right) = two(name, &design, uneven);
                let suit = match joined(left.clone(), right.clone()) {
                    Ok(suit) => suit,
                    // A lower edge that follows the underarm, or a gusset between the legs, is drawn from both sides at once: refused
                    // by its reason.
                    Err(CENTRES_DIFFER) if !must_join.contains(&design.style) => continue,
                    Err(e) => panic!("{name} {:?}: {e}", design.style),
                };
                for piece in &suit.pieces {
                    let outline = crate::build::flat_outline(&piece.edges);
                    assert!(
                        is_simple(&outline) && area_mm2(&outline) > 0.0,
                        "{name} {}",
                        piece.key
                    );
                    assert!(is_simple(&piece.cut_line), "{name} {} cut line", piece.key);
                    let n = piece.edges.len();
                    for i in 0..n {
                        let gap = piece.edges[i].curve.end() - piece.edges[(i + 1) % n].curve.start();
                        assert!(
                            gap.hypot() < 1e-9,
                            "{name} {}: gap after {}",
                            piece.key,
                            piece.edges[i].name
                        );
                    }
                }
                // Elastic for both sides, whichever way they are listed.
                let length = |d: &Draft| -> f64 {
                    let all = d.open_edges.iter();
                    all.map(|e| f64::from(e.count) * e.length_mm()).sum()
                };
                let both = 0.5 * (length(&left) + length(&right));
                assert!((length(&suit) - both).abs() < 1e-6, "{name} {:?}", design.style);
                assert!(suit.seams.iter().all(|s| s.error_mm().abs() <= 0.5));
            }
        }
    }

    #[test]
    fn each_half_of_a_one_piece_is_its_own_side() {
        // A one-piece's hip may lie lower on one side too.
        let (left, right) = two("average", &Design::default(), |m| {
            uneven(m);
            m.waist_to_hip += 8.0;
        });
        let suit = joined(left.clone(), right.clone()).unwrap();
        let find = |d: &Draft, key: &str| d.pieces.iter().find(|p| p.key == key).unwrap().clone();
        let ends = |p: &Piece| {
            let sides: Vec<_> = p.edges.iter().filter(|e| e.name == "side").collect();
            let most = sides.iter().map(|e| e.curve.length()).collect::<Vec<_>>();
            (most[0], most[1])
        };
        let side = |d: &Draft, key: &str| find(d, key).edge("side").unwrap().curve.length();
        // Seen from outside, her left is on the right of a front and on the left of a back.
        let front = ends(&find(&suit, "front"));
        assert!(
            (front.0 - side(&left, "front")).abs() < 1e-9 && (front.1 - side(&right, "front")).abs() < 1e-9
        );
        let back = ends(&find(&suit, "back"));
        assert!((back.0 - side(&right, "back")).abs() < 1e-9 && (back.1 - side(&left, "back")).abs() < 1e-9);
        assert!(!find(&suit, "front").on_fold);
        assert_eq!(suit.seams.iter().filter(|s| s.name == "side").count(), 2);
        assert_eq!(suit.seams.iter().filter(|s| s.name == "crotch").count(), 1);
    }

    #[test]
    fn sleeves_become_a_left_and_a_right() {
        let (left, right) = two("average", &Design::of(Style::RASH_TOP), uneven);
        let suit = joined(left.clone(), right.clone()).unwrap();
        let one = |key: &str| suit.pieces.iter().find(|p| p.key == key).unwrap();
        let (l, r) = (one("sleeve_left"), one("sleeve_right"));
        assert_eq!((l.cuts[0].count, l.cuts[0].mirrored), (1, false));
        // As drafted the front of the sleeve is at x > 0; that of her left one is not.
        let front_x = |p: &Piece| p.edge("side_front").unwrap().curve.start().x;
        assert!(front_x(l) < 0.0 && front_x(r) > 0.0);
        let cap = |p: &Piece| p.edge("cap_front").unwrap().curve.length();
        let armhole = |d: &Draft| d.pieces[0].edge("armhole").unwrap().curve.length();
        assert!((cap(l) - armhole(&left)).abs() < 1e-6 && (cap(r) - armhole(&right)).abs() < 1e-6);
    }

    #[test]
    fn a_centre_that_follows_the_side_is_refused() {
        let design = Design {
            back_shape: crate::BackShape::Racer,
            ..Design::default()
        };
        let (left, right) = two("average", &design, |m| m.side_length -= 12.0);
        assert_eq!(joined(left, right).unwrap_err(), CENTRES_DIFFER);
        // A brief's top edge hangs on the height of both hips.
        let (left, right) = two("average", &Design::of(Style::BRIEF), |m| m.waist_to_hip += 10.0);
        assert_eq!(joined(left, right).unwrap_err(), CENTRES_DIFFER);
    }
}
