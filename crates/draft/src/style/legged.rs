//! Front and back with legs, for trunks, jammers, square-leg briefs and swim shorts: side, hem, inseam, fork and crotch curve.
//!
//! The hips come from the block's own levels. Below the hip the side runs down upright to a hem a little narrower than the thigh;
//! the fork (front and back extension past the centre seams) is what the thigh needs beyond the hips. The crotch is then let
//! down until the centre seams are as long as the body's crotch length wants. Where that lets it down too far, the fork is made
//! longer, as far as the leg still holds on the thigh; where even that is too short, a gusset between the legs makes up the rest.
//! A gusset is sewn into the tops of the four inseams, so it changes no other piece; where there is hardly an inseam, it is a strip
//! from hem to hem and takes the inseams' place.
//!
//! **Shapes and units.** mm flat, piece frame; the centre seam at x = 0 at the top of the front; forks at negative x.
//! **Source.** Construction own. Fork split a third to the front: common practice, no single source. Gusset: common practice for
//! close-fitting shorts, its size own.
//! **Limits.** Nothing has been sewn. The fork's split was looked at flat, not worn.

use body::Dimension;
use kurbo::{Point, Vec2};
use units::Level;

use super::Job;
use crate::block::HipWidths;
use crate::geometry::{Curve, Profile, inward, root, turn, unit};
use crate::refusal::{InvalidKind, Refusal};

/// Share of the fork that is the front's.
const FRONT_FORK: f64 = 0.34;
/// The fork is at least this share of the hip girth.
const LEAST_FORK: f64 = 0.09;
/// How far the crotch may be let down below the body's, or raised above it, mm flat: more hangs, or cuts.
pub(crate) const LET_DOWN: (f64, f64) = (-20.0, 25.0);
/// The fork lies at least this far below the hip level, mm flat: the seat's curve needs it.
const BELOW_HIP: f64 = 15.0;
/// A leg is worn at least this much stretched over the thigh when the fork is made longer.
pub(crate) const LEAST_THIGH: f64 = 0.02;
/// A crotch worn longer than its length at rest by this much, or by this share of the cloth's stretch lengthwise, is no wear.
const CROTCH_STOP: f64 = 0.15;
const CROTCH_STOP_SHARE: f64 = 0.30;
/// From this share of the limit on, fork and gusset come in.
const EASED_FROM: f64 = 0.87;
/// A gusset is this long, front to back, mm: shorter is not worth its seams, longer hangs.
const GUSSET_LENGTH: (f64, f64) = (24.0, 110.0);
/// Its side is this much longer than half of it, so that it is a good half as wide as long.
const GUSSET_SIDE: f64 = 1.14;
/// and uses this share of the inseam at most: its tip stays above the hem.
const GUSSET_INSEAM: f64 = 0.88;
/// A strip may widen a leg hem to this share of the thigh: such a hem needs elastic, and is told so.
const LOOSEST_HEM: f64 = 1.06;
/// On the body, an inseam shorter than this is taken up whole by a strip, mm.
const STRIP_BELOW: f64 = 40.0;
/// Back seam: in from the fold and up, shares of the hip girth: the seat's slant and length (own).
const SEAT_IN: f64 = 0.036;
const SEAT_UP: f64 = 0.040;

/// What a style asks of the legs.
#[derive(Clone, Copy, Debug)]
pub(crate) struct LegShape {
    /// Height of the top below the waist, share of waist to hip.
    pub(crate) top_share: f64,
    /// Inseam on the body, mm.
    pub(crate) inseam: f64,
    /// How far the front seam bows out, mm flat.
    pub(crate) pouch: f64,
    /// Whether fork and gusset may be used on a crotch that comes out too short.
    pub(crate) may_ease: bool,
}

/// One half: a front or a back, cut twice, mirrored.
#[derive(Clone, Debug)]
pub(crate) struct LegHalf {
    /// From the inseam to the side.
    pub(crate) hem: Curve,
    /// Up.
    pub(crate) side: Curve,
    /// From the side to the centre seam.
    pub(crate) top: Curve,
    /// The centre seam, down to the fork.
    pub(crate) crotch: Curve,
    /// From the fork down to the hem.
    pub(crate) inseam: Curve,
    /// Half width at a height at the side.
    side_at: Profile,
    /// Extension past the centre seam.
    fork: f64,
}

/// A gusset between the legs: a diamond as long to the front as to the back, or a strip from hem to hem.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Gusset {
    /// Front to back, mm flat.
    pub(crate) length: f64,
    /// How much of each of the four inseams is sewn to it, mm.
    pub(crate) side: f64,
    /// A strip, whose two ends lie in the leg hems; it takes the whole inseams.
    pub(crate) is_strip: bool,
}

impl Gusset {
    /// Half its width, leg to leg.
    pub(crate) fn half_width(&self) -> f64 {
        if self.is_strip {
            return self.side;
        }
        (self.side * self.side - 0.25 * self.length * self.length)
            .max(0.0)
            .sqrt()
    }
}

impl Gusset {
    /// The gusset that makes up what is missing, as far as there is room for it; `None` for none.
    fn fitting(job: &Job<'_>, shape: &LegShape, legs: &Legs, missing: f64) -> Option<Gusset> {
        let inseam = legs.front.inseam.length();
        let is_strip = shape.inseam < STRIP_BELOW;
        let room = if is_strip {
            // Its ends widen the leg hems.
            job.m.thigh * LOOSEST_HEM * job.k.shrink_around - legs.hem_length()
        } else {
            2.0 * GUSSET_INSEAM * inseam / GUSSET_SIDE
        };
        let most = room.min(GUSSET_LENGTH.1);
        if most < GUSSET_LENGTH.0 {
            return None;
        }
        let length = missing.clamp(GUSSET_LENGTH.0, most);
        Some(Gusset {
            length,
            side: if is_strip {
                inseam
            } else {
                0.5 * length * GUSSET_SIDE
            },
            is_strip,
        })
    }
}

/// Front and back, with what was found on the way.
#[derive(Clone, Debug)]
pub(crate) struct Legs {
    pub(crate) front: LegHalf,
    pub(crate) back: LegHalf,
    pub(crate) top_y: f64,
    pub(crate) high_hip_y: f64,
    pub(crate) hip_y: f64,
    pub(crate) fork_y: f64,
    /// How far the crotch was let down below the body's, mm flat.
    pub(crate) let_down: f64,
    /// Whether that is as far up as it may be.
    pub(crate) is_at_top: bool,
    /// Length the centre seams should have together, mm flat.
    pub(crate) wanted: f64,
    /// Length of the fork over what the thigh needs, mm flat.
    pub(crate) fork_added: f64,
    pub(crate) gusset: Option<Gusset>,
    pub(crate) waist_widening: f64,
}

impl Legs {
    /// Centre seams and gusset together, mm flat.
    pub(crate) fn crotch_length(&self) -> f64 {
        self.front.crotch.length() + self.back.crotch.length() + self.gusset.map_or(0.0, |g| g.length)
    }

    /// One leg's hem, once round, mm flat.
    pub(crate) fn hem_length(&self) -> f64 {
        let strip = self.gusset.filter(|g| g.is_strip).map_or(0.0, |g| g.length);
        self.front.hem.length() + self.back.hem.length() + strip
    }

    /// Width once round one leg at a height below the fork or at it, mm flat.
    pub(crate) fn thigh_width(&self) -> f64 {
        [&self.front, &self.back]
            .into_iter()
            .map(|h| h.fork + x_at(&h.side, self.fork_y))
            .sum()
    }
}

/// Where a side is at a height.
fn x_at(side: &Curve, y: f64) -> f64 {
    side.length_to_height(y)
        .map_or(side.start().x, |s| side.at_length(s).0.x)
}

/// The girth of the body between waist and hip at a share of the way down, straight between the levels.
pub(crate) fn girth_below_waist(job: &Job<'_>, share: f64) -> f64 {
    let m = job.m;
    if share <= 0.5 {
        m.waist + (m.high_hip - m.waist) * (share / 0.5).max(0.0)
    } else {
        m.high_hip + (m.hip - m.high_hip) * ((share - 0.5) / 0.5).min(1.0)
    }
}

/// The most a crotch may be worn stretched lengthwise.
pub(crate) fn crotch_limit(job: &Job<'_>) -> f64 {
    CROTCH_STOP.min(CROTCH_STOP_SHARE * job.cloth.lengthwise.ratio())
}

/// How far the crotch is worn stretched lengthwise.
pub(crate) fn crotch_worn(job: &Job<'_>, legs: &Legs, top_share: f64) -> f64 {
    let body = job.m.crotch_length - 2.0 * top_share * job.m.waist_to_hip;
    body / (legs.crotch_length() / job.k.shrink_lengthwise) - 1.0
}

/// Draws both halves.
///
/// # Errors
/// [`Refusal::Dimensions`] for a crotch that lies no lower than the hip, [`Refusal::Invalid`] when the sides cannot be made
/// equal.
pub(crate) fn draw(job: &Job<'_>, shape: &LegShape) -> Result<Legs, Refusal> {
    let frame = Frame::of(job, shape);
    let legs = frame.drawn(job, shape)?;
    frame.note_branches(job, &legs);
    Ok(legs)
}

impl Frame {
    /// Notes which ways the legs went.
    fn note_branches(&self, job: &Job<'_>, legs: &Legs) {
        let note = |is, key, says| job.branches.note(is, key, says);
        note(
            self.waist_widening > 1.0 + 1e-9,
            "waist_widened",
            "has its waist widened to pass what it is pulled over",
        );
        note(
            self.is_fork_least,
            "fork_least",
            "has its fork at the least share of the hips, the thigh being slim",
        );
        note(
            self.profiles.iter().any(Profile::is_drawn_in),
            "side_drawn_in",
            "has its sides drawn in to 5 mm of the levels",
        );
        let (low, high) = self.bounds();
        note(
            legs.let_down <= low + 1e-6,
            "crotch_at_top",
            "has its crotch as high as it may be",
        );
        note(
            legs.let_down >= high - 1e-6,
            "crotch_let_down",
            "has its crotch let down as far as it may be",
        );
        note(
            legs.fork_added > 1e-6,
            "fork_longer",
            "has its fork made longer for the crotch",
        );
        note(
            legs.fork_added > 1e-6
                && legs.front.crotch.length() + legs.back.crotch.length() + 1e-6 < legs.wanted,
            "fork_most",
            "has its fork as long as the leg still holds on the thigh",
        );
        let Some(gusset) = legs.gusset else { return };
        note(true, "gusset", "has a gusset");
        note(
            gusset.length <= GUSSET_LENGTH.0 + 1e-6,
            "gusset_least",
            "has the least gusset worth its seams",
        );
        note(
            gusset.length + 1e-6 < legs.wanted - (legs.crotch_length() - gusset.length),
            "gusset_most",
            "has the largest gusset there is room for",
        );
    }

    /// The halves, eased by a longer fork and a gusset where their crotch comes out too short.
    fn drawn(&self, job: &Job<'_>, shape: &LegShape) -> Result<Legs, Refusal> {
        if self.bounds().0 > LET_DOWN.1 - 1.0 {
            return Err(Refusal::Dimensions {
                dimension: Dimension::RiseHeight,
                why: "the crotch would lie no lower than the hip level; take rise height and waist to hip again",
            });
        }
        let (legs, total) = self.let_down(self.fork)?;
        if !shape.may_ease || legs.let_down < LET_DOWN.1 - 1e-6 {
            return Ok(legs);
        }
        let eased_from = EASED_FROM * crotch_limit(job);
        if crotch_worn(job, &legs, shape.top_share) <= eased_from {
            return Ok(legs);
        }
        // A longer fork first, as far as the leg still holds on the thigh.
        let thigh = job.m.thigh / (1.0 + LEAST_THIGH) * job.k.shrink_around;
        let most = (thigh - self.hip[0] - self.hip[1]).max(self.fork);
        let mut legs = legs;
        if most > self.fork + 1.0 {
            let fork = root(
                |fork| {
                    self.let_down(fork)
                        .map_or(f64::NAN, |(_, total)| total - self.wanted)
                },
                self.fork,
                most,
            )
            .unwrap_or(if total < self.wanted { most } else { self.fork });
            legs = self.let_down(fork)?.0;
            legs.fork_added = fork - self.fork;
        }
        if crotch_worn(job, &legs, shape.top_share) > eased_from {
            let missing = legs.wanted - legs.crotch_length();
            legs.gusset = Gusset::fitting(job, shape, &legs, missing);
        }
        Ok(legs)
    }
}

/// Heights and widths the halves are drawn from.
struct Frame {
    top_y: f64,
    hip_y: f64,
    /// Body's crotch, before it is let down.
    crotch_y: f64,
    inseam: f64,
    body_inseam: f64,
    hip: [f64; 2],
    fork: f64,
    is_fork_least: bool,
    profiles: [Profile; 2],
    hip_girth: f64,
    pouch: f64,
    wanted: f64,
    waist_widening: f64,
}

impl Frame {
    fn of(job: &Job<'_>, shape: &LegShape) -> Frame {
        let (m, k) = (job.m, job.k);
        let k_y = k.y(1.0);
        let widths = HipWidths::of(m, k, true);
        let hip_y = -m.waist_to_hip * k_y;
        let top_y = shape.top_share * hip_y;
        let by_thigh = m.thigh * k.x(Level::Thigh) - widths.hip[0] - widths.hip[1];
        let least = LEAST_FORK * m.hip * k.x(Level::Hip);
        let fork = by_thigh.max(least);
        let profile = |i: usize| {
            Profile::with_upright_foot(vec![
                (hip_y, widths.hip[i]),
                (hip_y / 2.0, widths.high_hip[i]),
                (0.0, widths.waist[i]),
            ])
        };
        Frame {
            top_y,
            hip_y,
            crotch_y: -m.rise_height * k.y(0.3),
            inseam: shape.inseam * k_y,
            body_inseam: shape.inseam,
            hip: widths.hip,
            fork,
            is_fork_least: by_thigh < least,
            profiles: [profile(0), profile(1)],
            hip_girth: m.hip,
            pouch: shape.pouch,
            wanted: m.crotch_length * k_y - 2.0 * top_y.abs(),
            waist_widening: widths.waist_widening,
        }
    }

    /// How far the crotch may be let down or raised: never above the hip level.
    fn bounds(&self) -> (f64, f64) {
        (LET_DOWN.0.max(self.crotch_y - self.hip_y + BELOW_HIP), LET_DOWN.1)
    }

    fn fork_y(&self, let_down: f64) -> f64 {
        self.crotch_y - let_down
    }

    /// The halves with a fork of that length, the crotch let down as far as it needs and may be; and the seams' length.
    fn let_down(&self, fork: f64) -> Result<(Legs, f64), Refusal> {
        let total = |legs: &Legs| legs.front.crotch.length() + legs.back.crotch.length();
        let off = |down: f64| {
            self.at(fork, down)
                .map_or(f64::NAN, |legs| total(&legs) - self.wanted)
        };
        let (low, high) = self.bounds();
        let down = root(off, low, high).unwrap_or(if off(high) < 0.0 { high } else { low });
        let legs = self.at(fork, down)?;
        let total = total(&legs);
        Ok((legs, total))
    }

    fn at(&self, fork: f64, let_down: f64) -> Result<Legs, Refusal> {
        let fork_y = self.fork_y(let_down);
        let front = self.front(fork * FRONT_FORK, fork_y);
        let back = self.back(fork * (1.0 - FRONT_FORK), fork_y, &front)?;
        Ok(Legs {
            front,
            back,
            top_y: self.top_y,
            high_hip_y: self.hip_y / 2.0,
            hip_y: self.hip_y,
            fork_y,
            let_down,
            is_at_top: let_down <= self.bounds().0 + 1e-6,
            wanted: self.wanted,
            fork_added: 0.0,
            gusset: None,
            waist_widening: self.waist_widening,
        })
    }

    /// Inner and outer end of a level hem.
    fn hem_ends(&self, i: usize, fork: f64, hem_y: f64) -> (Point, Point) {
        let own = self.fork * if i == 0 { FRONT_FORK } else { 1.0 - FRONT_FORK };
        let full = self.hip[i] + own;
        let width = full * (0.95 - 0.0004 * self.body_inseam);
        let inner = 0.45 * (full - width) - own;
        // A longer fork would slant a short inseam; there the hem goes along with it.
        let moved = (fork - own) * (1.0 - (self.body_inseam / 100.0).min(0.8));
        (Point::new(inner - moved, hem_y), Point::new(inner + width, hem_y))
    }

    /// The side from the hem's outer end, moved up by `raise`, to the top.
    fn side(&self, i: usize, outer: Point, raise: f64) -> Curve {
        let h = self.hip_y - outer.y;
        let hip = Point::new(self.hip[i], self.hip_y);
        let foot = outer + Vec2::new(0.0, raise);
        Curve::cubic(
            foot,
            foot + Vec2::new(0.0, 0.36 * h),
            hip - Vec2::new(0.0, 0.36 * h),
            hip,
        )
        .then(&self.profiles[i].between(self.hip_y, self.top_y))
    }

    fn front(&self, fork: f64, fork_y: f64) -> LegHalf {
        let (inner, outer) = self.hem_ends(0, fork, fork_y - self.inseam);
        let side = self.side(0, outer, 0.0);
        let centre = Point::new(0.0, self.top_y - 4.0);
        let point = Point::new(-fork, fork_y);
        let across = inward(unit(inner - point));
        let crotch = Curve::cubic(
            centre,
            centre + Vec2::new(-self.pouch, 0.62 * (fork_y - centre.y)),
            point + across * (0.75 * fork),
            point,
        );
        LegHalf {
            hem: Curve::line(inner, outer),
            top: top_edge(&side, centre, Vec2::new(0.0, -1.0)),
            side,
            crotch,
            inseam: Curve::line(point, inner),
            side_at: self.profiles[0].clone(),
            fork,
        }
    }

    fn back(&self, fork: f64, fork_y: f64, front: &LegHalf) -> Result<LegHalf, Refusal> {
        let hem_y = fork_y - self.inseam;
        let (inner, outer) = self.hem_ends(1, fork, hem_y);
        let want = front.side.length();
        // Never up to the hip, where a short side would turn round.
        let most = 60.0_f64.min(0.6 * (self.hip_y - outer.y));
        let raise =
            root(|dy| self.side(1, outer, dy).length() - want, -60.0, most).ok_or(Refusal::Invalid {
                piece: "back",
                kind: InvalidKind::SeamMismatch,
                by: 60.0,
            })?;
        let side = self.side(1, outer, raise);
        let centre = Point::new(SEAT_IN * self.hip_girth, self.top_y + SEAT_UP * self.hip_girth);
        let towards = Point::new(-2.0, 0.95 * self.hip_y) - centre;
        let slant = unit(towards);
        let knee = centre + towards;
        let point = Point::new(-fork, fork_y);
        let down = unit(inner - point);
        let inner = point + down * front.inseam.length();
        let crotch = Curve::line(centre, knee).then(&Curve::cubic(
            knee,
            knee + slant * (0.58 * (fork_y - knee.y).abs()),
            point + inward(down) * (0.62 * fork),
            point,
        ));
        // Level at both ends, whatever truing did to them.
        let width = side.start().x - inner.x;
        let level = Vec2::new(0.35 * width, 0.0);
        Ok(LegHalf {
            hem: Curve::cubic(inner, inner + level, side.start() - level, side.start()),
            top: top_edge(&side, centre, slant),
            side,
            crotch,
            inseam: Curve::line(point, inner),
            side_at: self.profiles[1].clone(),
            fork,
        })
    }
}

impl LegHalf {
    /// Half width from the centre line to the side at a height between hip and top.
    pub(crate) fn width_at(&self, y: f64) -> f64 {
        self.side_at.at(y)
    }
}

/// The top from the side to the centre seam, square to both; `down` is the centre seam's direction there.
fn top_edge(side: &Curve, centre: Point, down: Vec2) -> Curve {
    let from = side.end();
    let width = from.x - centre.x;
    Curve::cubic(
        from,
        from + inward(side.end_tangent()) * (0.30 * width),
        centre + turn(down, std::f64::consts::FRAC_PI_2) * (0.42 * width),
        centre,
    )
}

#[cfg(test)]
mod tests {
    use serde_json::Value;

    use super::*;
    use crate::check_values::{
        LENGTH_TOLERANCE_MM, assert_curve, control_points, factors, measures, plan, values,
    };
    use crate::design::Design;

    /// Legs of an invented body as recorded: no longer fork, no gusset.
    fn legs(body: &str, cloth: &str, inseam: f64, pouch: f64, may_ease: bool) -> (Legs, f64, f64) {
        let file = values();
        let c = &file["cloths"][cloth];
        let (m, k) = (measures(body), factors(cloth));
        let cloth = plan(c["sx"].as_f64().unwrap(), c["sy"].as_f64().unwrap());
        let design = Design::default();
        let job = Job {
            m: &m,
            k: &k,
            cloth: &cloth,
            design: &design,
            branches: &crate::branch::Branches::default(),
        };
        let shape = LegShape {
            top_share: 0.20,
            inseam,
            pouch,
            may_ease,
        };
        let legs = draw(&job, &shape).unwrap();
        let worn = crotch_worn(&job, &legs, shape.top_share);
        (legs, worn, crotch_limit(&job))
    }

    /// Source: own regression values (data/draft), not measured garments.
    #[test]
    fn recorded_lengths_and_areas() {
        let mut checked = 0;
        for (body, key, inseam, pouch) in [
            ("man", "trunks_inseam_60", 60.0, 14.0),
            // DIFFERENCE: the child was recorded with a man's pouch; ours have none.
            ("child8", "trunks_inseam_40", 40.0, 14.0),
        ] {
            for cloth in ["soft", "firm"] {
                let want = &values()["values"][body][cloth][key];
                let (legs, _, _) = legs(body, cloth, inseam, pouch, false);
                let near = |ours: f64, key: &str, tolerance: f64| {
                    let recorded = want[key].as_f64().unwrap();
                    assert!(
                        (ours - recorded).abs() <= tolerance,
                        "{body} {cloth}: {key} is {ours}, recorded {recorded}"
                    );
                };
                let (f, b) = (&legs.front, &legs.back);
                near(f.side.length(), "side", LENGTH_TOLERANCE_MM);
                near(b.side.length(), "side", LENGTH_TOLERANCE_MM);
                near(f.inseam.length(), "inseam", LENGTH_TOLERANCE_MM);
                near(b.inseam.length(), "inseam", LENGTH_TOLERANCE_MM);
                near(f.crotch.length(), "crotch_front", LENGTH_TOLERANCE_MM);
                near(b.crotch.length(), "crotch_back", LENGTH_TOLERANCE_MM);
                near(legs.wanted, "crotch_target", LENGTH_TOLERANCE_MM);
                near(legs.let_down, "crotch_drop", LENGTH_TOLERANCE_MM);
                let hem = f.hem.length() + b.hem.length();
                near(hem, "hem", LENGTH_TOLERANCE_MM);
                near(measures(body).thigh / hem - 1.0, "hem_worn_ext", 0.0005);
                near(
                    2.0 * (f.top.length() + b.top.length()),
                    "top",
                    LENGTH_TOLERANCE_MM,
                );
                for (half, key) in [(f, "area_front_cm2"), (b, "area_back_cm2")] {
                    let area: f64 = [&half.hem, &half.side, &half.top, &half.crotch, &half.inseam]
                        .iter()
                        .map(|c| c.signed_area())
                        .sum();
                    near(area / 100.0, key, 0.5);
                }
                checked += 1;
            }
        }
        assert_eq!(checked, 4);
    }

    /// Source: own regression values (data/draft).
    #[test]
    fn recorded_control_points() {
        let (legs, _, _) = legs("man", "soft", 60.0, 14.0, false);
        let case = &control_points()["trunks_man_soft_inseam60"];
        let check = |half: &LegHalf, recorded: &Value, name: &str| {
            for (edge, curve) in [
                ("hem", &half.hem),
                ("side", &half.side),
                ("top", &half.top),
                ("crotch", &half.crotch),
                ("inseam", &half.inseam),
            ] {
                assert_curve(curve, &recorded[edge], &format!("{name} {edge}"));
            }
        };
        check(&legs.front, &case["front"], "front");
        check(&legs.back, &case["back"], "back");
    }

    #[test]
    fn a_crotch_that_came_out_short_gets_fork_and_gusset() {
        // Plus, the body whose crotch no letting down makes long enough; and every other.
        let mut gussets = 0;
        for body in ["petite", "average", "tall", "plus", "large_cup", "man", "child8"] {
            for cloth in ["soft", "firm"] {
                let (plain, without, limit) = legs(body, cloth, 60.0, 0.0, false);
                let (eased, with, _) = legs(body, cloth, 60.0, 0.0, true);
                if body == "plus" && cloth == "soft" {
                    assert!(without > limit, "worn {without} without, limit {limit}");
                }
                assert!(
                    with <= limit,
                    "{body} {cloth}: worn {with}, limit {limit}, {without} without"
                );
                assert!(plain.gusset.is_none() && plain.fork_added == 0.0);
                if let Some(g) = eased.gusset {
                    gussets += 1;
                    assert!(g.side < GUSSET_INSEAM * eased.front.inseam.length() + 1e-9);
                    let side = (0.25 * g.length * g.length + g.half_width() * g.half_width()).sqrt();
                    assert!((side - g.side).abs() < 1e-9);
                }
                let thigh = measures(body).thigh / eased.thigh_width() - 1.0;
                let before = measures(body).thigh / plain.thigh_width() - 1.0;
                assert!(
                    thigh > 0.015 || thigh >= before - 1e-9,
                    "{body} {cloth}: the longer fork leaves the thigh at {thigh}"
                );
            }
        }
        assert!(gussets > 0, "no body needed a gusset: then it is not tested");
    }
}
