//! Room for a stoma: an opening marked on the front lining, and a pocket of lining over it that carries the pouch.
//!
//! The opening is cut in the lining where the maker says the stoma lies; the pouch goes through it into a pocket sewn to the lining's
//! outer side, between lining and shell, so that lining and not skin bears it. Elastic at open edges keeps clear of the opening.
//!
//! **Shapes and units.** Place and sizes mm on the body; the place reduced with the suit, opening and pocket only for shrinkage: what
//! goes into them does not stretch.
//! **Source.** A pouch pocket in the lining: common practice, no single source. 30 mm clear of elastic: own.
//! **Limits.** One stoma, on a front lined in one piece on the fold. No pressure on it is computed, nothing was worn: whether a suit may
//! lie over it is for the stoma nurse to say.

use cloth::Layer;
use kurbo::{Point, Vec2};
use units::{Finding, Level, Limit, Mm, Severity};

use super::{Drawn, Job, Widths};
use crate::block::Block;
use crate::build::{PieceBuilder, flat_outline};
use crate::design::LiningCover;
use crate::geometry::{Curve, point_in_polygon};
use crate::parameter::{Parameter, Word};
use crate::piece::{EdgeUse, Mark, Piece};
use crate::refusal::Refusal;

/// All of it.
pub(super) const ALL: &[Parameter] = &[
    STOMA,
    FROM_CENTRE,
    BELOW_WAIST,
    OPENING,
    POUCH_WIDTH,
    POUCH_LENGTH,
];
pub(super) const STOMA: Parameter = Parameter::choice(
    "stoma",
    "Stoma",
    "an opening in the front lining and a pocket over it for the pouch",
    &[
        Word::new("none", "None", "no opening"),
        Word::new("left", "The wearer's left", "opening and pocket on her left"),
        Word::new("right", "The wearer's right", "opening and pocket on her right"),
    ],
);
pub(super) const FROM_CENTRE: Parameter = Parameter::length(
    "stoma_from_centre",
    "Stoma from the centre",
    "from the middle of the body to the middle of the stoma, on the body",
    (20.0, 60.0, 130.0),
)
.only_with("stoma", &["left", "right"]);
pub(super) const BELOW_WAIST: Parameter = Parameter::length(
    "stoma_below_waist",
    "Stoma below the waist",
    "from the waist down to the middle of the stoma, on the body; above the waist with a minus",
    (-60.0, 40.0, 140.0),
)
.only_with("stoma", &["left", "right"]);
pub(super) const OPENING: Parameter = Parameter::length(
    "stoma_opening",
    "Opening for the pouch",
    "across the opening in the lining, finished: the pouch's neck with its flange and some room",
    (30.0, 60.0, 100.0),
)
.only_with("stoma", &["left", "right"]);
pub(super) const POUCH_WIDTH: Parameter = Parameter::length(
    "pouch_width",
    "Pouch width",
    "across the pocket: the pouch and 2 cm",
    (70.0, 110.0, 180.0),
)
.only_with("stoma", &["left", "right"]);
pub(super) const POUCH_LENGTH: Parameter = Parameter::length(
    "pouch_length",
    "Pouch length",
    "the pocket from top to bottom: the pouch and 2 cm",
    (100.0, 140.0, 280.0),
)
.only_with("stoma", &["left", "right"]);

/// Elastic keeps this clear of the opening, and should of the pocket, mm flat (own).
const CLEAR: f64 = 30.0;
/// Lining left round the opening inside the pocket, mm.
const ROUND_OPENING: f64 = 10.0;
/// The pocket stays off the fold, mm.
const OFF_FOLD: f64 = 4.0;
/// Radius of the pocket's corners, mm.
const CORNER: f64 = 20.0;
/// Handle of a quarter circle, share of its radius.
const QUARTER: f64 = 0.552_284_75;

/// Adds the pocket and marks the lining, if a stoma is set.
///
/// # Errors
/// [`Refusal`] for a place or size that leaves no room, an open edge within 30 mm of the opening, or a front not lined in one piece.
pub(super) fn add(job: &Job<'_>, block: &Block, drawn: &mut Drawn) -> Result<(), Refusal> {
    let (name, whose) = match job.word(&STOMA)? {
        "left" => ("Pouch pocket, the wearer's left", "the wearer's left only"),
        "right" => (
            "Pouch pocket, the wearer's right (turn the paper over)",
            "the wearer's right only",
        ),
        _ => return Ok(()),
    };
    let refuse = |parameter, why| Err(Refusal::Combination { parameter, why });
    if !matches!(job.design.lining, LiningCover::Full | LiningCover::Front) {
        return refuse(
            STOMA.key,
            "its opening and pocket are in the front lining; set lining to \"front\" or \"full\"",
        );
    }
    let Some(lining) = drawn
        .pieces
        .iter_mut()
        .find(|p| p.key == "front_lining" && p.on_fold)
    else {
        return refuse(
            STOMA.key,
            "the front lining has a seam or a zip here that could lie on the stoma; leave out princess or style seams and a front closure",
        );
    };
    let around = job.k.shrink_around;
    let below = job.number(&BELOW_WAIST)?;
    let level = if below > 0.0 { Level::HighHip } else { Level::Waist };
    let at = Point::new(
        job.number(&FROM_CENTRE)? * job.k.x(level),
        -below * block.levels.k_side,
    );
    let radius = 0.5 * job.number(&OPENING)? * around;
    let width = job.number(&POUCH_WIDTH)? * around;
    let length = job.number(&POUCH_LENGTH)? * job.k.shrink_lengthwise;
    let about = radius + ROUND_OPENING;
    if at.x - about < OFF_FOLD {
        return refuse(
            FROM_CENTRE.key,
            "the opening would reach over the middle of the front; make stoma_opening smaller",
        );
    }
    if width < 2.0 * about || length < 2.0 * about {
        return refuse(
            OPENING.key,
            "the opening would reach over the pocket's seam; make it smaller, or pouch_width and pouch_length greater",
        );
    }
    // The pouch hangs: the opening is at the pocket's top. A pocket too near the middle is moved out.
    let left = (at.x - 0.5 * width).max(OFF_FOLD);
    let top = at.y + about;
    let pocket = Pocket {
        low: Point::new(left, top - length),
        high: Point::new(left + width, top),
    };
    let outline = flat_outline(&lining.edges);
    let sewn = pocket.round();
    if !sewn.flatten(0.2).iter().all(|&p| point_in_polygon(&outline, p)) {
        return refuse(
            POUCH_LENGTH.key,
            "the pocket would reach over the side seam or an open edge; make it smaller, or cut the leg lower",
        );
    }
    let opening = circle(at, radius);
    if clearance(lining, &opening) < CLEAR {
        return refuse(
            STOMA.key,
            "an open edge and its elastic would come within 3 cm of the opening; cut the leg lower or the neckline shallower",
        );
    }
    let near = clearance(lining, &sewn);
    lining.marks.push(Mark::Placement {
        curve: opening,
        text: format!("opening for the pouch, {whose}"),
    });
    lining.marks.push(Mark::Placement {
        curve: sewn,
        text: format!("pouch pocket on the outer side, {whose}"),
    });
    let piece = PieceBuilder::new("pouch_pocket", name, false)
        .edge(
            "sewn",
            EdgeUse::Seam,
            pocket.sides(),
            Widths::lining(job.design).crotch,
        )
        .edge(
            "top",
            EdgeUse::Seam,
            pocket.top(),
            Widths::lining(job.design).crotch,
        )
        .build(&[(Layer::Lining, 1, false)], job.cloth)?;
    drawn.pieces.push(piece);
    drawn.findings.extend(findings(near));
    Ok(())
}

fn findings(near: f64) -> Vec<Finding> {
    let watch = |code, message: String, value, limit, remedy: &str| Finding {
        code,
        severity: Severity::Watch,
        place: "stoma".into(),
        message,
        value,
        limit,
        remedy: remedy.into(),
    };
    let mut all = vec![watch(
        "stoma.ask",
        "the opening lies where two lengths put it, and nothing here says how a suit presses on a stoma: bind the opening, sew the pocket \
         on all round on the lining's outer side before lining and shell are joined, and cut the fit no firmer than \"regular\""
            .into(),
        None,
        None,
        "ask the stoma nurse before wearing it, mark the place on the worn toile, and try it with the pouch on",
    )];
    if near < CLEAR {
        all.push(watch(
            "stoma.edge_near",
            format!(
                "an elastic edge runs {} from the pouch pocket",
                Mm::new(near).to_cm_text()
            ),
            Some(near),
            Some(Limit {
                text: "30 mm".into(),
                source: "own: room for a full pouch beside the elastic",
            }),
            "make pouch_length shorter, or cut the leg lower",
        ));
    }
    all
}

/// Least distance from a run to the open edges of a piece, mm.
fn clearance(piece: &Piece, run: &Curve) -> f64 {
    let points = run.flatten(0.2);
    piece
        .edges
        .iter()
        .filter(|e| matches!(e.role, EdgeUse::Open(_)))
        .flat_map(|e| {
            let edge = e.curve.flatten(0.2);
            edge.windows(2).map(|w| (w[0], w[1])).collect::<Vec<_>>()
        })
        .flat_map(|(a, b)| points.iter().map(move |&p| super::cups::distance(p, a, b)))
        .fold(f64::INFINITY, f64::min)
}

fn circle(at: Point, r: f64) -> Curve {
    let to = |x: f64, y: f64| at + Vec2::new(x, y) * r;
    let q = QUARTER;
    Curve::cubic(to(1.0, 0.0), to(1.0, q), to(q, 1.0), to(0.0, 1.0))
        .then(&Curve::cubic(
            to(0.0, 1.0),
            to(-q, 1.0),
            to(-1.0, q),
            to(-1.0, 0.0),
        ))
        .then(&Curve::cubic(
            to(-1.0, 0.0),
            to(-1.0, -q),
            to(-q, -1.0),
            to(0.0, -1.0),
        ))
        .then(&Curve::cubic(
            to(0.0, -1.0),
            to(q, -1.0),
            to(1.0, -q),
            to(1.0, 0.0),
        ))
}

/// An upright pocket with round lower corners.
struct Pocket {
    low: Point,
    high: Point,
}

impl Pocket {
    /// Down one side, along the bottom, up the other.
    fn sides(&self) -> Curve {
        let (l, h, r) = (self.low, self.high, CORNER);
        let handle = r * (1.0 - QUARTER);
        Curve::line(Point::new(l.x, h.y), Point::new(l.x, l.y + r))
            .then(&Curve::cubic(
                Point::new(l.x, l.y + r),
                Point::new(l.x, l.y + handle),
                Point::new(l.x + handle, l.y),
                Point::new(l.x + r, l.y),
            ))
            .then(&Curve::line(Point::new(l.x + r, l.y), Point::new(h.x - r, l.y)))
            .then(&Curve::cubic(
                Point::new(h.x - r, l.y),
                Point::new(h.x - handle, l.y),
                Point::new(h.x, l.y + handle),
                Point::new(h.x, l.y + r),
            ))
            .then(&Curve::line(Point::new(h.x, l.y + r), self.high))
    }

    fn top(&self) -> Curve {
        Curve::line(self.high, Point::new(self.low.x, self.high.y))
    }

    fn round(&self) -> Curve {
        self.sides().then(&self.top())
    }
}
