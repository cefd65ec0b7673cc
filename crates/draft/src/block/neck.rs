//! Strap, neckline, back and armhole.
//!
//! Front and back share the strap's two ends, so necklines and backs exchange freely. The strap's seam is cut nearly square
//! when the strap is narrow and keeps the shoulder's slope when it is full; every edge leaves it at 90 degrees.
//!
//! **Source.** Neck width and pit from the neck base girth, shoulder slope 20 degrees: common practice in size charts, no
//! single source; handle shares own.

use kurbo::{Point, Vec2};

use super::BlockShape;
use super::levels::Levels;
use crate::geometry::{Curve, inward};
use crate::refusal::{Refusal, within};
use crate::trunk::SHOULDER_SLOPE_DEG;

/// The front neckline, depth resolved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum FrontTop {
    Scoop(Depth),
    V(Depth),
    Square(Depth),
}

/// The back, depth resolved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum BackTop {
    Scoop(Depth),
    V(Depth),
    Racer,
}

/// A depth as the maker gave it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Depth {
    /// The page's own share: of twice pit to bust point in front, of the back waist length behind.
    Share(f64),
    /// mm on the body below neck pit or nape.
    OnBody(f64),
}

/// The strap at the shoulder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Strap {
    /// Width, mm flat, finished.
    pub(crate) width: f64,
    /// Place of its middle along the shoulder, 0 at the neck.
    pub(crate) position: f64,
}

pub(super) struct Top {
    pub(super) armhole: Curve,
    pub(super) shoulder: Curve,
    pub(super) neck: Curve,
    pub(super) strap_mid: Point,
}

/// The armhole leaves the underarm as if the strap lay at least this far inside it, mm.
pub(crate) const LEAST_ARMHOLE_REACH: f64 = 20.0;
/// Shares of the front depth that can be drawn.
pub(crate) const FRONT_DEPTH: (f64, f64) = (0.05, 0.60);
/// Shares of the back depth that can be drawn.
pub(crate) const BACK_DEPTH: (f64, f64) = (0.05, 0.95);
/// Front pit below the side neck, share of the neck base girth.
const PIT: f64 = 0.205;
const SQUARE_CORNER: f64 = 14.0;

pub(super) fn draw(
    levels: &Levels,
    shape: &BlockShape,
    is_front: bool,
    underarm: Point,
    underarm_tangent: Vec2,
) -> Result<Top, Refusal> {
    let slope = SHOULDER_SLOPE_DEG.to_radians();
    let side_neck = Point::new(
        levels.neck_half_width,
        if is_front {
            levels.front_neck_y - levels.shoulder_forward
        } else {
            levels.back_neck_y + levels.shoulder_forward
        },
    );
    let width = shape.strap.width;
    let mid = side_neck + Vec2::new(slope.cos(), -slope.sin()) * (shape.strap.position * levels.shoulder);
    let beta = (8.0 + 12.0 * ((width - 60.0) / 40.0).clamp(0.0, 1.0)).to_radians();
    let down = Vec2::new(beta.cos(), -beta.sin());
    let perp = Vec2::new(-beta.sin(), -beta.cos());
    let (strap_neck, strap_arm) = (mid - down * (width / 2.0), mid + down * (width / 2.0));
    if strap_arm.y < underarm.y + 30.0 {
        return Err(Refusal::Dimensions {
            dimension: body::Dimension::SideLength,
            why: "the strap would end less than 3 cm above the underarm; take the side length again",
        });
    }

    let neck = if is_front {
        front_neck(levels, shape.front_top, strap_neck, perp)?
    } else {
        back_neck(levels, shape.back_top, strap_neck, perp, underarm)?
    };
    let h = strap_arm.y - underarm.y;
    let armhole = if !is_front && shape.back_top == BackTop::Racer {
        let waist = Point::new(0.85 * width, underarm.y + 0.50 * h);
        let (below, above) = (waist.y - underarm.y, strap_arm.y - waist.y);
        Curve::cubic(
            underarm,
            underarm + inward(underarm_tangent) * (0.42 * (underarm.x - waist.x)),
            waist - Vec2::new(0.0, 0.85 * below),
            waist,
        )
        .then(&Curve::cubic(
            waist,
            waist + Vec2::new(0.0, 0.42 * above),
            strap_arm + perp * (0.25 * above),
            strap_arm,
        ))
    } else {
        Curve::cubic(
            underarm,
            underarm
                + inward(underarm_tangent) * (0.66 * (underarm.x - strap_arm.x).max(LEAST_ARMHOLE_REACH)),
            strap_arm + perp * (0.58 * h),
            strap_arm,
        )
    };
    Ok(Top {
        armhole,
        shoulder: Curve::line(strap_arm, strap_neck),
        neck,
        strap_mid: mid,
    })
}

fn front_neck(levels: &Levels, top: FrontTop, from: Point, perp: Vec2) -> Result<Curve, Refusal> {
    let pit = levels.front_neck_y - PIT * levels.neck_base;
    let whole = 2.0 * (pit - levels.neck_bust_point_y);
    let (FrontTop::Scoop(depth) | FrontTop::V(depth) | FrontTop::Square(depth)) = top;
    if whole < 60.0 {
        return Err(Refusal::Dimensions {
            dimension: body::Dimension::SideNeckToBustPoint,
            why: "the bust point lies less than 3 cm below the neck pit; take side neck to bust point and neck base girth again",
        });
    }
    let mm = match depth {
        Depth::Share(share) => {
            within(
                "neck_depth",
                share,
                FRONT_DEPTH,
                "",
                "0.05 is under the neck, 0.5 bust level",
            )?;
            share * whole
        }
        Depth::OnBody(mm) => {
            let per_share = whole / levels.k_front;
            let range = (FRONT_DEPTH.0 * per_share, FRONT_DEPTH.1 * per_share);
            within(
                "neck_depth_below_pit",
                mm,
                range,
                "mm",
                "the least is close under the neck, the most a little below bust level",
            )?;
            mm * levels.k_front
        }
    };
    let low = Point::new(0.0, pit - mm);
    let h = from.y - low.y;
    Ok(match top {
        FrontTop::Scoop(_) => scoop(from, low, perp, h, 0.56, 0.74),
        FrontTop::V(_) => vee(from, low, perp, h),
        FrontTop::Square(_) => {
            let corner = Point::new(from.x - 0.45 * SHOULDER_SLOPE_DEG.to_radians().tan() * h, low.y);
            if corner.x < SQUARE_CORNER + 8.0 {
                return Err(Refusal::Combination {
                    parameter: "neckline",
                    why: "a square neckline this deep would close to a point; make it shallower or the strap sit further out",
                });
            }
            square(from, corner, low, perp)
        }
    })
}

fn back_neck(
    levels: &Levels,
    top: BackTop,
    from: Point,
    perp: Vec2,
    underarm: Point,
) -> Result<Curve, Refusal> {
    let depth = match top {
        BackTop::Racer => {
            let low = Point::new(0.0, underarm.y + 0.76 * (from.y - underarm.y));
            return Ok(scoop(from, low, perp, from.y - low.y, 0.40, 0.60));
        }
        BackTop::Scoop(depth) | BackTop::V(depth) => depth,
    };
    let share = match depth {
        Depth::Share(share) => {
            within(
                "back_depth",
                share,
                BACK_DEPTH,
                "",
                "0.05 is under the nape, 0.95 nearly the waist",
            )?;
            share
        }
        Depth::OnBody(mm) => {
            let back_waist = levels.nape_y / levels.k_fold;
            let range = (BACK_DEPTH.0 * back_waist, BACK_DEPTH.1 * back_waist);
            within(
                "back_depth_below_nape",
                mm,
                range,
                "mm",
                "the least is just under the nape, the most nearly the waist",
            )?;
            mm / back_waist
        }
    };
    let low = Point::new(0.0, levels.nape_y * (1.0 - share));
    let h = from.y - low.y;
    Ok(match top {
        BackTop::V(_) => vee(from, low, perp, h),
        _ => scoop(from, low, perp, h, 0.56, 0.74),
    })
}

fn scoop(from: Point, low: Point, perp: Vec2, h: f64, upper: f64, lower: f64) -> Curve {
    Curve::cubic(
        from,
        from + perp * (upper * h),
        low + Vec2::new(lower * from.x, 0.0),
        low,
    )
}

fn vee(from: Point, low: Point, perp: Vec2, h: f64) -> Curve {
    Curve::cubic(
        from,
        from + perp * (0.30 * h),
        low + Vec2::new(0.42 * from.x, 0.336 * h),
        low,
    )
}

fn square(from: Point, corner: Point, low: Point, perp: Vec2) -> Curve {
    let down = crate::geometry::unit(corner - from);
    let (start, end) = (
        corner - down * SQUARE_CORNER,
        corner - Vec2::new(SQUARE_CORNER, 0.0),
    );
    let handle = 0.55 * SQUARE_CORNER;
    let third = (start - from).hypot() / 3.0;
    Curve::cubic(from, from + perp * third, start - down * third, start)
        .then(&Curve::cubic(
            start,
            start + down * handle,
            end + Vec2::new(handle, 0.0),
            end,
        ))
        .then(&Curve::line(end, low))
}
