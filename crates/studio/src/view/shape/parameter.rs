//! The numbers of a design that have a handle: where each stands on the drafted pieces, and the value that puts it there.
//!
//! A maker drags a point of a piece; the draft knows a depth on the body or the length of a finished seam. The value that
//! brings the point where she wants it is found on the draft itself, by secants on its coordinate, so that handle, number
//! and paper cannot disagree whatever formula lies between them.
//!
//! **Shapes and units.** mm; a coordinate is signed along the handle's way.
//! **Limits.** Two to six drafts a solve, each a fraction of a millisecond; what a suit's solves have looked at is kept with
//! it. Where the draft refuses, the step is halved towards the value it last accepted.

use body::Body;
use cloth::ClothPlan;
use draft::{BackDepth, BackShape, Design, Draft, LegHeight, NeckDepth, Piece, PieceEdge, Shared, draft};
use kurbo::Point;
use units::Mm;

use crate::document::Tries;

/// A number with a handle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::view) enum Parameter {
    /// Depth of the front neckline, on the body below the neck pit.
    NeckDepth,
    /// Depth of the back, on the body below the nape.
    BackDepth,
    /// Width of the strap.
    StrapWidth,
    /// Length of the finished side seam: height of the leg.
    SideSeam,
    /// Width of the crotch.
    CrotchWidth,
    /// How far the skirt hangs below the crotch.
    SkirtCover,
}

impl Parameter {
    pub(in crate::view) const ALL: [Parameter; 6] = [
        Parameter::NeckDepth,
        Parameter::BackDepth,
        Parameter::StrapWidth,
        Parameter::SideSeam,
        Parameter::CrotchWidth,
        Parameter::SkirtCover,
    ];

    /// Key of the suit file's design section.
    pub(in crate::view) const fn key(self) -> &'static str {
        match self {
            Parameter::NeckDepth => "neck_depth_below_pit",
            Parameter::BackDepth => "back_depth_below_nape",
            Parameter::StrapWidth => "strap_width",
            Parameter::SideSeam => "side_seam_length",
            Parameter::CrotchWidth => "crotch_width",
            Parameter::SkirtCover => "cover",
        }
    }

    /// Path in the suit's document.
    pub(in crate::view) const fn path(self) -> &'static str {
        match self {
            Parameter::NeckDepth => "design.neck_depth_below_pit",
            Parameter::BackDepth => "design.back_depth_below_nape",
            Parameter::StrapWidth => "design.strap_width",
            Parameter::SideSeam => "design.side_seam_length",
            Parameter::CrotchWidth => "design.crotch_width",
            Parameter::SkirtCover => "design.skirt.cover",
        }
    }

    /// Name of the line and of the handle.
    pub(in crate::view) const fn label(self) -> &'static str {
        match self {
            Parameter::NeckDepth => "Neckline, below the neck pit",
            Parameter::BackDepth => "Back, below the nape",
            Parameter::StrapWidth => "Strap",
            Parameter::SideSeam => "Side seam, from the leg up",
            Parameter::CrotchWidth => "Crotch width",
            Parameter::SkirtCover => "Skirt, below the crotch",
        }
    }

    /// What it does on the body.
    pub(in crate::view) const fn says(self) -> &'static str {
        match self {
            Parameter::NeckDepth => "Measured on the body, straight down from the pit of the neck.",
            Parameter::BackDepth => "Measured on the body, down the spine from the nape.",
            Parameter::StrapWidth => "Finished width on the shoulder. Narrow straps cut in.",
            Parameter::SideSeam => "A shorter side seam is a higher leg. Measure it on a suit that fits.",
            Parameter::CrotchWidth => "Finished, at the narrowest place.",
            Parameter::SkirtCover => "How far the hem hangs below the crotch.",
        }
    }

    /// Whether a suit of this design has it.
    pub(in crate::view) fn applies(self, design: &Design) -> bool {
        match self {
            Parameter::NeckDepth => design.hears(Shared::Neckline),
            Parameter::StrapWidth => design.hears(Shared::Strap),
            Parameter::BackDepth => design.hears(Shared::Back) && design.back_shape != BackShape::Racer,
            Parameter::SideSeam => design.hears(Shared::Leg),
            Parameter::CrotchWidth => design.hears(Shared::Crotch),
            Parameter::SkirtCover => design.skirt.is_some(),
        }
    }

    /// The range any body may ask for, mm; the draft may allow less on this one. As in `docs/suit-file.md`.
    pub(in crate::view) const fn range_mm(self) -> (f64, f64) {
        match self {
            Parameter::NeckDepth => (5.0, 400.0),
            Parameter::BackDepth => (10.0, 600.0),
            Parameter::StrapWidth => (12.0, 90.0),
            Parameter::SideSeam => (20.0, 700.0),
            Parameter::CrotchWidth => (40.0, 110.0),
            Parameter::SkirtCover => (0.0, 120.0),
        }
    }

    /// The value the design gives outright.
    fn given(self, design: &Design) -> Option<f64> {
        match self {
            Parameter::NeckDepth => match design.neck_depth {
                Some(NeckDepth::BelowNeckPit(mm)) => Some(mm.get()),
                _ => None,
            },
            Parameter::BackDepth => match design.back_depth {
                Some(BackDepth::BelowNape(mm)) => Some(mm.get()),
                _ => None,
            },
            Parameter::StrapWidth => Some(design.strap_width.get()),
            Parameter::SideSeam => match design.leg {
                LegHeight::SideSeam(mm) => Some(mm.get()),
                _ => None,
            },
            Parameter::CrotchWidth => design.crotch_width.map(|w| w.get()),
            Parameter::SkirtCover => design.skirt.map(|s| s.cover.get()),
        }
    }

    /// Sets the value in a design.
    pub(in crate::view) fn put(self, design: &mut Design, mm: f64) {
        let mm = Mm::new(mm);
        match self {
            Parameter::NeckDepth => design.neck_depth = Some(NeckDepth::BelowNeckPit(mm)),
            Parameter::BackDepth => design.back_depth = Some(BackDepth::BelowNape(mm)),
            Parameter::StrapWidth => design.strap_width = mm,
            Parameter::SideSeam => design.leg = LegHeight::SideSeam(mm),
            Parameter::CrotchWidth => design.crotch_width = Some(mm),
            Parameter::SkirtCover => {
                if let Some(skirt) = &mut design.skirt {
                    skirt.cover = mm;
                }
            }
        }
    }

    /// Where the handle is: the piece, the point (y up), the way it moves, the name of the edge that moves with it.
    pub(in crate::view) fn grip(self, draft: &Draft) -> Option<Grip<'_>> {
        let grip = |piece: &'static [&'static str],
                    edge: &'static [&'static str],
                    at_end: bool,
                    along: (f64, f64)| {
            let piece = draft.pieces.iter().find(|p| piece.contains(&p.key.as_str()))?;
            let edge = piece.edges.iter().find(|e| edge.contains(&e.name))?;
            let at = if at_end {
                edge.curve.end()
            } else {
                edge.curve.start()
            };
            Some(Grip {
                piece,
                edge,
                at,
                along,
            })
        };
        const FRONT: &[&str] = &["front", "centre_front"];
        const SIDE: &[&str] = &["front", "side_front"];
        match self {
            Parameter::NeckDepth => grip(FRONT, &["neck"], true, (0.0, -1.0)),
            Parameter::BackDepth => grip(&["back"], &["neck"], true, (0.0, -1.0)),
            Parameter::StrapWidth => grip(FRONT, &["shoulder"], true, (-1.0, 0.0)),
            Parameter::SideSeam => grip(SIDE, &["side", "side_low"], false, (0.0, 1.0)),
            Parameter::CrotchWidth => grip(&["back"], &["crotch"], true, (1.0, 0.0)),
            Parameter::SkirtCover => grip(&["skirt", "skirt_front"], &["hem"], false, (0.0, -1.0)),
        }
    }

    fn coordinate(self, draft: &Draft) -> Option<f64> {
        self.grip(draft).map(|g| g.at.x * g.along.0 + g.at.y * g.along.1)
    }
}

/// Where a handle is on the draft.
pub(in crate::view) struct Grip<'a> {
    /// Piece it sits on.
    pub(in crate::view) piece: &'a Piece,
    /// The edge that moves with it.
    pub(in crate::view) edge: &'a PieceEdge,
    /// Its point, y up.
    pub(in crate::view) at: Point,
    /// Which way it moves, y up.
    pub(in crate::view) along: (f64, f64),
}

/// What the solves need.
#[derive(Clone, Copy)]
pub(in crate::view) struct Drafting<'a> {
    pub(in crate::view) body: &'a Body,
    pub(in crate::view) cloth: &'a ClothPlan,
    pub(in crate::view) design: &'a Design,
    pub(in crate::view) draft: &'a Draft,
    /// What was tried on this very suit.
    pub(in crate::view) tries: &'a Tries,
}

/// Close enough on the piece, mm: a tenth of the least step of a handle.
const CLOSE_MM: f64 = 0.1;
/// First step of a solve that has nothing to go by, mm.
const FIRST_STEP_MM: f64 = 4.0;
const MOST_STEPS: usize = 8;

/// The value in force, mm: as the design gives it, or the one that would draw what is drawn.
pub(in crate::view) fn value_in_force(parameter: Parameter, drafting: &Drafting<'_>) -> Option<f64> {
    if let Some(mm) = parameter.given(drafting.design) {
        return Some(mm);
    }
    let wanted = parameter.coordinate(drafting.draft)?;
    let start = match parameter {
        // The finished side seam is printed with the suit: nearly always the answer itself.
        Parameter::SideSeam => finished_side(drafting.draft)?,
        Parameter::NeckDepth => 100.0,
        Parameter::BackDepth => 220.0,
        Parameter::CrotchWidth => 2.0 * parameter.grip(drafting.draft)?.at.x,
        Parameter::StrapWidth | Parameter::SkirtCover => return None,
    };
    solve(parameter, drafting, start, wanted)
}

/// The value that moves the handle by `by_mm` along its way, mm, rounded to a millimetre.
pub(in crate::view) fn value_moved(parameter: Parameter, drafting: &Drafting<'_>, by_mm: f64) -> Option<f64> {
    let now = value_in_force(parameter, drafting)?;
    let here = parameter.coordinate(drafting.draft)?;
    let (low, high) = parameter.range_mm();
    let mm = solve(parameter, drafting, now, here + by_mm)?;
    Some(mm.clamp(low, high).round())
}

fn finished_side(draft: &Draft) -> Option<f64> {
    let grip = Parameter::SideSeam.grip(draft)?;
    let sides = grip.piece.edges.iter().filter(|e| e.name.starts_with("side"));
    Some(sides.map(|e| e.curve.length()).sum())
}

/// Secants from `start` until the coordinate is `wanted`. The nearest value found when the draft refuses beyond it.
fn solve(parameter: Parameter, drafting: &Drafting<'_>, start: f64, wanted: f64) -> Option<f64> {
    let (low, high) = parameter.range_mm();
    let at = |mm: f64| -> Option<f64> {
        drafting.tries.of(parameter.key(), mm, || {
            let mut design = drafting.design.clone();
            parameter.put(&mut design, mm);
            let drawn = draft(drafting.body, drafting.cloth, &design).ok()?;
            parameter.coordinate(&drawn)
        })
    };
    let mut x0 = start.clamp(low, high);
    let mut y0 = at(x0).or_else(|| {
        // The guess itself may be refused on this body: look for one that is not.
        let steps = (1..=8).map(|i| low + (high - low) * f64::from(i) / 9.0);
        steps.into_iter().find_map(|mm| at(mm).inspect(|_| x0 = mm))
    })?;
    if (y0 - wanted).abs() <= CLOSE_MM {
        return Some(x0);
    }
    let mut best = (x0, (y0 - wanted).abs());
    let mut step = FIRST_STEP_MM;
    for _ in 0..MOST_STEPS {
        let x1 = (x0 + step).clamp(low, high);
        if (x1 - x0).abs() < 1e-9 {
            break;
        }
        let Some(y1) = at(x1) else {
            step /= 2.0;
            continue;
        };
        let error = y1 - wanted;
        if error.abs() < best.1 {
            best = (x1, error.abs());
        }
        if error.abs() <= CLOSE_MM {
            break;
        }
        let slope = (y1 - y0) / (x1 - x0);
        if slope.abs() < 1e-6 {
            break;
        }
        (x0, y0) = (x1, y1);
        step = -error / slope;
    }
    Some(best.0)
}
