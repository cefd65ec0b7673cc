//! A suit of plain pieces for the tests of this crate: one front with a neckline, edges with the arcs a test asks for.

#![allow(dead_code, reason = "each test binary uses a part of it")]

use cloth::{ClothPlan, Layer, LayerPlan, Load, Orientation, PairSource};
use draft::geometry::Curve;
use draft::{Arrow, CutCount, Draft, EdgeArc, EdgeUse, LevelWidth, OpenEdge, OpenKind, Piece, PieceEdge};
use kurbo::{CubicBez, Point};
use units::{Level, Stretch};

/// An empty draft.
pub(crate) fn empty() -> Draft {
    Draft {
        style: draft::Style::ONE_PIECE,
        pieces: Vec::new(),
        seams: Vec::new(),
        open_edges: Vec::new(),
        levels: Vec::new(),
        openings: Vec::new(),
        loop_rungs: Vec::new(),
        trunk: None,
        finished: Vec::new(),
        support: Vec::new(),
        findings: Vec::new(),
        strap_mid: None,
        branches: Vec::new(),
    }
}

/// An open edge; arcs get the letters A, B, ...
pub(crate) fn edge(kind: OpenKind, is_ring: bool, radius: f64, arcs: &[(&'static str, f64)]) -> OpenEdge {
    let arcs = arcs
        .iter()
        .zip('A'..)
        .map(|(&(name, length_mm), letter)| EdgeArc {
            name,
            letter,
            length_mm,
        });
    OpenEdge {
        kind,
        count: if matches!(kind, OpenKind::Leg | OpenKind::Armhole) {
            2
        } else {
            1
        },
        is_ring,
        arcs: arcs.collect(),
        around_share: 0.5,
        worn_radius_mm: radius,
    }
}

/// A level with the stretch the draft meant there.
pub(crate) fn level(level: Level, y_mm: f64, meant: f64) -> LevelWidth {
    LevelWidth {
        level,
        y_mm,
        body_mm: 1000.0,
        pattern_mm: 1000.0 / (1.0 + meant),
        meant,
    }
}

/// A piece with one open edge along a cubic, cut once from each of the layers.
pub(crate) fn piece(
    key: &str,
    letter: char,
    layers: &[Layer],
    kind: OpenKind,
    curve: CubicBez,
    allowance: f64,
) -> Piece {
    let arrow = Arrow {
        from: Point::ZERO,
        to: Point::new(0.0, 50.0),
    };
    Piece {
        key: key.to_owned(),
        name: key.to_owned(),
        letter,
        cuts: layers
            .iter()
            .map(|&layer| CutCount {
                layer,
                count: 1,
                mirrored: false,
                orientation: Orientation::Upright,
            })
            .collect(),
        on_fold: true,
        edges: vec![PieceEdge {
            name: "neck",
            role: EdgeUse::Open(kind),
            curve: Curve::new(vec![curve]),
            allowance_mm: allowance,
        }],
        cut_line: Vec::new(),
        grain: arrow,
        stretch: arrow,
        notches: Vec::new(),
        marks: Vec::new(),
        label_at: Point::ZERO,
        whole_label_at: Point::ZERO,
    }
}

/// A run from (100, 80) to the fold at (0, 0): level into it (a scoop), or straight (a V).
pub(crate) fn neck_curve(is_v: bool) -> CubicBez {
    let near_fold = if is_v {
        Point::new(33.0, 26.4)
    } else {
        Point::new(60.0, 0.0)
    };
    CubicBez::new(
        Point::new(100.0, 80.0),
        Point::new(90.0, 40.0),
        near_fold,
        Point::ZERO,
    )
}

/// A level run at a height, as the top of a brief.
pub(crate) fn level_curve(y: f64) -> CubicBez {
    CubicBez::new(
        Point::new(150.0, y),
        Point::new(100.0, y),
        Point::new(50.0, y),
        Point::new(0.0, y),
    )
}

/// The leg of the average body in soft cloth, and its seat's worn stretch. Thigh girth 600 mm, 8 mm elastic.
///
/// Arc lengths: our own draft of that body (regression value); worn stretch .18 x .85.
pub(crate) fn average_leg() -> Draft {
    let leg = [
        ("crotch", 80.0),
        ("front", 181.08),
        ("side", 80.0),
        ("back", 224.82),
    ];
    Draft {
        open_edges: vec![edge(OpenKind::Leg, true, 600.0 / std::f64::consts::TAU, &leg)],
        levels: vec![level(Level::Hip, -180.0, 0.153)],
        ..empty()
    }
}

/// Slate tricot over oat lining.
pub(crate) fn cloths(has_lining: bool) -> ClothPlan {
    let layer = |layer, cloth: &str| LayerPlan {
        layer,
        cloth: cloth.to_owned(),
        orientation: Orientation::Upright,
        around: Stretch::from_percent(85.0),
        lengthwise: Stretch::from_percent(60.0),
        load: Load::Hand,
        width: None,
    };
    ClothPlan {
        around: Stretch::from_percent(85.0),
        lengthwise: Stretch::from_percent(60.0),
        load: Load::Hand,
        pair: PairSource::Single,
        shrinkage_factor_around: 1.0,
        shrinkage_factor_lengthwise: 1.0,
        shell: layer(Layer::Shell, "Slate tricot"),
        lining: has_lining.then(|| layer(Layer::Lining, "Oat lining")),
        mesh: None,
        contrast: None,
        measured_tension: None,
        measured_law: None,
        findings: Vec::new(),
    }
}
