//! A plain half front and half back in the paper's own dimensions, with the lines on which they change: to be drawn beside the sheet.
//!
//! The widths are the paper's where they were measured; the heights are the body's, scaled to the paper's torso loop (or reduced
//! as the draft would). It shows where to cut, not the bought pattern's style.
//!
//! **Shapes and units.** mm; fold x = 0, waist y = 0, y up; outlines closed, counter-clockwise, from the fold at the crotch.
//! **Limits.** A picture. Levels that were not measured are drawn as the draft would cut them.

use body::{Body, BodyForm, Dimension};
use cloth::{ClothPlan, Fit, length_factor, worn_around};
use draft::geometry::x_spans;
use kurbo::{CubicBez, ParamCurve, Point, Vec2};
use serde::Serialize;

use super::length::{LengthChanges, LengthLine};
use super::pattern::{PaperLevel, PaperPattern};
use super::signed;
use super::width::{WidthChange, dimension};

/// A straight line to draw, with its words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct DrawnLine {
    /// Stable name: `L2`, `side.waist`, `slash.hip`.
    pub key: String,
    /// What is written beside it: `L2 +4.5 mm`.
    pub label: String,
    /// Its ends; for a side change from the paper's edge to the new one.
    pub from: Point,
    /// See `from`.
    pub to: Point,
}

/// Half a front or back.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct DrawnPiece {
    /// `Front` or `Back`.
    pub name: &'static str,
    /// The paper as it is.
    pub outline: Vec<CubicBez>,
    /// The side seam as it will be, from the leg up, widths only.
    pub new_side: Vec<CubicBez>,
    /// L1 to L4, from the fold or the neckline to the outer edge; empty when no length was measured.
    pub lengths: Vec<DrawnLine>,
    /// The change at each measured level, from the old to the new edge.
    pub sides: Vec<DrawnLine>,
    /// The slash through the middle of the half at each level that needs one, over the height it stands for.
    pub slashes: Vec<DrawnLine>,
}

/// Half front and half back with their changes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Schematic {
    /// The front.
    pub front: DrawnPiece,
    /// The back.
    pub back: DrawnPiece,
}

const LEVELS: [PaperLevel; 4] = [
    PaperLevel::Bust,
    PaperLevel::Waist,
    PaperLevel::HighHip,
    PaperLevel::Hip,
];
/// Usual half widths of the crotch, as in our own drafts, mm.
const HALF_CROTCH: [f64; 3] = [33.0, 42.0, 27.0];
/// The leg starts this share of waist to hip below the waist.
const LEG_SHARE: f64 = 0.74;
/// Half the height of a slash drawn for one level, mm.
const SLASH_REACH: f64 = 40.0;

/// Heights and half widths of a plain half, mm.
struct Plain {
    /// Bust, waist, high hip, hip.
    y: [f64; 4],
    paper: [f64; 4],
    changed: [f64; 4],
    underarm_y: f64,
    leg_y: f64,
    half_crotch: f64,
    side_neck: Point,
    shoulder: f64,
}

pub(super) fn draw(
    pattern: &PaperPattern,
    body: &Body,
    cloth: &ClothPlan,
    fit: Fit,
    widths: &[WidthChange],
    lengths: &LengthChanges,
) -> Schematic {
    let mm = |d: Dimension, usual: f64| body.mm(d).unwrap_or(usual);
    // A loop of the paper scales all heights; without one the draft's own reduction does.
    let scale = match (pattern.trunk_loop, body.mm(Dimension::TrunkCircumference)) {
        (Some(paper), Some(body)) => (paper.get() / body).clamp(0.6, 1.4),
        _ => length_factor(1.0, fit, cloth.lengthwise),
    };
    let stature = mm(Dimension::Stature, 1650.0);
    let side_length = mm(Dimension::SideLength, 0.13 * stature) * scale;
    let hip_y = -mm(Dimension::WaistToHip, 0.124 * stature) * scale;
    let y = [0.75 * side_length, 0.0, hip_y / 2.0, hip_y];
    let quarter = |level: PaperLevel| {
        let girth = mm(dimension(level), 900.0);
        let drafted = girth * worn_around(level.level(), fit, cloth.around).factor() / 4.0;
        match widths.iter().find(|w| w.level == level) {
            Some(w) => (w.paper.get() / 4.0, (w.paper.get() / 4.0) + w.quarter.get()),
            None => (drafted, drafted),
        }
    };
    let both = LEVELS.map(quarter);
    let usual = HALF_CROTCH[match body.form {
        BodyForm::Woman => 0,
        BodyForm::Man => 1,
        BodyForm::Child => 2,
    }];
    let crotch = mm(Dimension::CrotchLength, 0.435 * stature) * scale;
    let neck = mm(Dimension::NeckBaseGirth, 370.0);
    let plain = |front_waist: f64| Plain {
        y,
        paper: both.map(|w| w.0),
        changed: both.map(|w| w.1),
        underarm_y: side_length,
        leg_y: LEG_SHARE * hip_y,
        half_crotch: pattern.crotch_width.map_or(usual, |w| w.get() / 2.0),
        side_neck: Point::new(0.19 * neck, front_waist * scale),
        shoulder: mm(Dimension::ShoulderLength, 120.0),
    };
    let back_waist = mm(Dimension::BackWaistLength, 0.247 * stature) + 0.055 * neck;
    let front = plain(mm(Dimension::FrontWaistLength, 0.265 * stature));
    let back = plain(back_waist);
    let top = |centre: Option<units::Mm>, crotch_y: f64, usual: f64, plain: &Plain| {
        let y = centre.map_or(usual, |c| crotch_y + c.get());
        y.clamp(0.2 * plain.underarm_y, plain.side_neck.y - 20.0)
    };
    let (front_crotch, back_crotch) = (-0.45 * crotch, -0.55 * crotch);
    let front_top = top(
        pattern.centre_front,
        front_crotch,
        front.underarm_y + 25.0,
        &front,
    );
    let back_top = top(pattern.centre_back, back_crotch, 0.45 * back_waist * scale, &back);
    Schematic {
        front: piece(
            "Front",
            &front,
            front_crotch,
            front_top,
            -0.10,
            widths,
            lengths,
            |l| l.0,
        ),
        back: piece("Back", &back, back_crotch, back_top, 0.02, widths, lengths, |l| {
            l.1
        }),
    }
}

#[expect(
    clippy::too_many_arguments,
    reason = "one call each for front and back; a struct for it would be read once"
)]
fn piece(
    name: &'static str,
    plain: &Plain,
    crotch_y: f64,
    top_y: f64,
    leg_bulge: f64,
    widths: &[WidthChange],
    lengths: &LengthChanges,
    pick: fn((units::Mm, units::Mm)) -> units::Mm,
) -> DrawnPiece {
    let foot = Point::new(0.0, crotch_y);
    let corner = Point::new(plain.half_crotch, crotch_y);
    let side = side(plain, &plain.paper);
    let new_side = self::side(plain, &plain.changed);
    let (low, high) = (side[0].p0, side[side.len() - 1].p3);
    let down = Vec2::from_angle(-20f64.to_radians());
    let (strap_in, strap_out) = (
        plain.side_neck + down * (0.27 * plain.shoulder),
        plain.side_neck + down * (0.60 * plain.shoulder),
    );
    let neck = Point::new(0.0, top_y);
    let chord = low - corner;
    let bulge = Vec2::new(chord.y, -chord.x) * leg_bulge;
    let mut outline = vec![
        line(foot, corner),
        CubicBez::new(
            corner,
            corner + Vec2::new(0.0, 0.35 * chord.y) + bulge,
            low - Vec2::new(0.40 * chord.x, 0.0) + bulge,
            low,
        ),
    ];
    outline.extend(&side);
    let rise = strap_out.y - high.y;
    outline.extend([
        CubicBez::new(
            high,
            high - Vec2::new(0.6 * (high.x - strap_out.x), 0.0),
            strap_out - Vec2::new(0.0, 0.6 * rise),
            strap_out,
        ),
        line(strap_out, strap_in),
        CubicBez::new(
            strap_in,
            strap_in - Vec2::new(0.0, 0.55 * (strap_in.y - top_y)),
            neck + Vec2::new(0.7 * strap_in.x, 0.0),
            neck,
        ),
        line(neck, foot),
    ]);

    let flat = flatten(&outline);
    let across = |y: f64| {
        let span = x_spans(&flat, y).into_iter().next_back();
        span.map(|(from, to)| (Point::new(from, y), Point::new(to, y)))
    };
    let height = |at: LengthLine| match at {
        LengthLine::AboveBust => (high.y + strap_out.y) / 2.0,
        LengthLine::BustToWaist => plain.y[0] / 2.0,
        LengthLine::WaistToHip => 0.6 * plain.leg_y,
        LengthLine::Crotch => (low.y + crotch_y) / 2.0,
    };
    let lengths = lengths
        .lines
        .iter()
        .filter_map(|l| {
            let (from, to) = across(height(l.line))?;
            Some(DrawnLine {
                key: l.line.label().into(),
                label: format!("{} {}", l.line.label(), signed(pick((l.front, l.back)))),
                from,
                to,
            })
        })
        .collect();
    let at_level = |w: &WidthChange| {
        let i = LEVELS.iter().position(|l| *l == w.level)?;
        Some((*plain.y.get(i)?, *plain.paper.get(i)?, *plain.changed.get(i)?))
    };
    let key = |kind: &str, w: &WidthChange| format!("{kind}.{}", w.level.name().replace([' ', '-'], "_"));
    let sides = widths
        .iter()
        .filter_map(|w| {
            let (y, old, new) = at_level(w)?;
            Some(DrawnLine {
                key: key("side", w),
                label: format!("{} {}", w.level.name(), signed(w.quarter)),
                from: Point::new(old, y),
                to: Point::new(new, y),
            })
        })
        .collect();
    let slashes = widths
        .iter()
        .filter(|w| w.at_slash.abs().get() > 0.0)
        .filter_map(|w| {
            let (y, old, _) = at_level(w)?;
            Some(DrawnLine {
                key: key("slash", w),
                label: format!("slash {}", signed(w.at_slash)),
                from: Point::new(old / 2.0, y - SLASH_REACH),
                to: Point::new(old / 2.0, y + SLASH_REACH),
            })
        })
        .collect();
    DrawnPiece {
        name,
        outline,
        new_side,
        lengths,
        sides,
        slashes,
    }
}

/// A side seam through half widths at the levels, from the leg to the underarm. Slopes by differences of neighbours, so that it is
/// smooth through every level.
fn side(plain: &Plain, half: &[f64; 4]) -> Vec<CubicBez> {
    let [bust, waist, high_hip, hip] = *half;
    let y = plain.y;
    let knots = [
        Point::new(hip, y[3]),
        Point::new(high_hip, y[2]),
        Point::new(waist, y[1]),
        Point::new(bust, y[0]),
        Point::new(bust, plain.underarm_y),
    ];
    let slope = |i: usize| {
        let (a, b) = (knots[i.saturating_sub(1)], knots[(i + 1).min(knots.len() - 1)]);
        (b.x - a.x) / (b.y - a.y).max(1e-6)
    };
    let mut curves: Vec<CubicBez> = (0..knots.len() - 1)
        .map(|i| {
            let (a, b) = (knots[i], knots[i + 1]);
            let third = (b.y - a.y) / 3.0;
            CubicBez::new(
                a,
                a + Vec2::new(slope(i) * third, third),
                b - Vec2::new(slope(i + 1) * third, third),
                b,
            )
        })
        .collect();
    // The seam starts at the leg, above the hip. Heights are linear in the parameter, so the cut is exact.
    let (from, to) = (knots[0].y, knots[1].y);
    let t = ((plain.leg_y - from) / (to - from)).clamp(0.0, 0.95);
    curves[0] = curves[0].subsegment(t..1.0);
    curves
}

fn line(a: Point, b: Point) -> CubicBez {
    CubicBez::new(a, a.lerp(b, 1.0 / 3.0), a.lerp(b, 2.0 / 3.0), b)
}

fn flatten(outline: &[CubicBez]) -> Vec<Point> {
    const STEPS: usize = 24;
    outline
        .iter()
        .flat_map(|c| (0..STEPS).map(|i| c.eval(i as f64 / STEPS as f64)))
        .collect()
}
