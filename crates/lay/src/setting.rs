//! From pieces and cloth to what the search works on: every way each piece may lie, grown by half the gap, inside its lane.
//!
//! The search's strip starts half a gap before the usable cloth, because its pieces are grown by that much. A piece's up (y) points
//! along the cloth when it lies upright, across it when the cloth is turned.
//!
//! **Shapes and units.** Search frame = `table` moved by [`Setting::offset`].
//! **Limits.** Tilt is tried at the middle and both ends of what is allowed. The print's place on the cloth is not known, so
//! only the phase between pieces is kept.

use std::f64::consts::{FRAC_PI_2, PI};

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use kurbo::{Point, Vec2};
use rayon::prelude::*;

use crate::cloth::{Direction, LayCloth};
use crate::engine;
use crate::engine::Prepared;
use crate::error::LayError;
use crate::lay::{LayRequest, Placed};
use crate::piece::LayPiece;
use crate::polygon::{self, Bounds};
use crate::search::{Fixed, Item, Pose, Task, Way};
use crate::shape::Shapes;
use crate::simplify;
use cloth::Orientation;

/// Outlines lose points no further than this from the line that is left, and are grown by as much: far below what scissors can follow.
const THIN_MM: f64 = 0.02;
/// What pieces are grown by at least: single precision and thinning together stay below it.
const LEAST_GROWTH_MM: f64 = 0.03;
/// Simplifying may add this share to a piece's area. Twice as much costs usage, half as much leaves curves of a hundred points.
const SIMPLER_SHARE: f64 = 0.002;
/// Phases of the repeat across that are tried.
const PHASES: usize = 16;

/// One way an item lies, in the maker's terms.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Stance {
    pub(crate) is_reflected: bool,
    pub(crate) angle: f64,
    /// The half with x >= 0, its fold on the cloth's fold.
    pub(crate) is_half: bool,
    /// Layers cut at once.
    pub(crate) layers: u32,
}

impl Stance {
    /// Whether a placed piece lies this way.
    fn is_that_of(&self, placed: &Placed) -> bool {
        let turns = (self.angle - placed.angle) / (2.0 * PI);
        self.is_reflected == placed.is_reflected
            && self.is_half == placed.is_half
            && self.layers == placed.layers
            && (turns - turns.round()).abs() < 1e-6
    }
}

/// What stands behind an item of the search.
#[derive(Clone, Debug)]
pub(crate) struct Behind {
    pub(crate) piece: usize,
    pub(crate) copy: u32,
    pub(crate) stances: Vec<Stance>,
    /// The prepared outline of each stance was centred on this point of the piece.
    middles: Vec<Vec2>,
}

/// The search's task with the way back.
#[derive(Debug)]
pub(crate) struct Setting {
    pub(crate) task: Task,
    pub(crate) behind: Vec<Behind>,
    /// `table` less search frame.
    pub(crate) offset: Vec2,
    /// A lay that ends here fits the cloth there is.
    pub(crate) enough: Option<f64>,
}

#[derive(Clone)]
struct Ready {
    key: (usize, Prepared),
    middle: Vec2,
}

impl Setting {
    /// Everything the search needs, or all that stands against it.
    pub(crate) fn new(request: &LayRequest) -> Result<Setting, Vec<LayError>> {
        Setting::around(request, &[])
    }

    /// The same with some pieces where they were placed by hand: the search goes around them.
    pub(crate) fn around(request: &LayRequest, pinned: &[Placed]) -> Result<Setting, Vec<LayError>> {
        let cloth = &request.cloth;
        let mut errors = request.faults();
        if !errors.is_empty() {
            return Err(errors);
        }
        let grow = (0.5 * cloth.gap_mm).max(LEAST_GROWTH_MM);
        let first_lane = cloth.lanes().first().map_or(0.0, |l| l.0);
        let offset = Vec2::new(cloth.end_allowance_mm - grow, first_lane - grow);
        let mut builder = Builder {
            cloth,
            shapes: Shapes::default(),
            grow,
            offset,
            phase: phase_across(request),
            known: Vec::new(),
        };
        let (mut items, mut behind) = (Vec::new(), Vec::new());
        builder.prepare_all(&request.pieces);
        for (index, piece) in request.pieces.iter().enumerate() {
            match builder.items(piece, index) {
                Ok(list) => {
                    for (item, back) in list {
                        items.push(item);
                        behind.push(back);
                    }
                }
                Err(error) => errors.push(error),
            }
        }
        let mut fixed = builder.fixed(&mut errors);
        if errors.is_empty() {
            for hand in pinned {
                if let Err(error) = builder.pin(request, hand, &mut items, &mut behind, &mut fixed) {
                    errors.push(error);
                }
            }
        }
        if !errors.is_empty() {
            return Err(errors);
        }
        let mut shapes = builder.shapes;
        shapes.close();
        let height = cloth.lanes().last().map_or(0.0, |l| l.1) - first_lane + 2.0 * grow;
        let garments = match cloth.direction {
            Direction::PerGarment => request.garments.len(),
            _ => 0,
        };
        let task = Task {
            shapes,
            items,
            fixed,
            height,
            garments,
        };
        Ok(Setting {
            task,
            behind,
            offset,
            enough: cloth.usable_length_mm().map(|l| l + 2.0 * grow),
        })
    }

    /// Where a pose puts the piece, `table`.
    pub(crate) fn placed(&self, item: usize, pose: &Pose) -> Placed {
        let back = &self.behind[item];
        let stance = back.stances[pose.way];
        let moved = turned(back.middles[pose.way], &stance);
        Placed {
            piece: back.piece,
            copy: back.copy,
            is_reflected: stance.is_reflected,
            angle: stance.angle,
            is_half: stance.is_half,
            layers: stance.layers,
            x: pose.x + self.offset.x - moved.x,
            y: pose.y + self.offset.y - moved.y,
        }
    }

    /// The pose of a placed piece, if it lies in one of its ways; the nearest allowed place.
    pub(crate) fn pose(&self, item: usize, placed: &Placed) -> Option<Pose> {
        let back = &self.behind[item];
        let way = back.stances.iter().position(|s| s.is_that_of(placed))?;
        let moved = turned(back.middles[way], &back.stances[way]);
        let wish = Vec2::new(placed.x, placed.y) - self.offset + moved;
        let at = self
            .task
            .allowed(&self.task.items[item].ways[way], f64::INFINITY, wish);
        Some(Pose {
            way,
            x: at.x,
            y: at.y,
        })
    }
}

/// An outline tidied, centred, grown by the gap's half and made simpler, with the point of the piece it is centred on; `None` if it
/// crosses itself, has no area, or the engine refuses it.
fn prepared(outline: &[Point], grow: f64) -> Option<(Prepared, Vec2)> {
    let ring = polygon::thinned(&polygon::tidy(outline), THIN_MM);
    if ring.len() < 3 || polygon::crosses_itself(&ring) {
        return None;
    }
    let b = Bounds::of(&ring);
    let middle = Vec2::new(0.5 * (b.x0 + b.x1), 0.5 * (b.y0 + b.y1));
    let centred: Vec<Point> = ring.iter().map(|&p| p - middle).collect();
    // Made simpler before it is grown, which is slow, and again after, for the corners that growing adds.
    let simple = simplify::outwards(&centred, 0.5 * SIMPLER_SHARE);
    let grown = engine::grown(&simple, grow + THIN_MM)?;
    let ring = simplify::outwards(&grown, 0.5 * SIMPLER_SHARE);
    Some((engine::prepared(ring)?, middle))
}

fn turned(p: Vec2, stance: &Stance) -> Vec2 {
    let (sin, cos) = polygon::exact_sin_cos(stance.angle);
    let x = if stance.is_reflected { -p.x } else { p.x };
    Vec2::new(cos * x - sin * p.y, sin * x + cos * p.y)
}

struct Builder<'a> {
    cloth: &'a LayCloth,
    shapes: Shapes,
    grow: f64,
    offset: Vec2,
    phase: f64,
    /// Outlines seen before: many suits of one size are prepared once, and share their fields.
    known: Vec<(Vec<Point>, Ready)>,
}

impl Builder<'_> {
    fn ready(&mut self, outline: &[Point], name: &str) -> Result<Ready, LayError> {
        let bad = || LayError::BadOutline {
            piece: name.to_owned(),
        };
        if let Some((_, ready)) = self.known.iter().find(|(known, _)| known == outline) {
            return Ok(ready.clone());
        }
        let (prepared, middle) = prepared(outline, self.grow).ok_or_else(bad)?;
        Ok(self.learn(outline, prepared, middle))
    }

    fn learn(&mut self, outline: &[Point], prepared: Prepared, middle: Vec2) -> Ready {
        let ready = Ready {
            key: self.shapes.add(prepared),
            middle,
        };
        self.known.push((outline.to_vec(), ready.clone()));
        ready
    }

    /// Prepares every outline there is, on all cores: of many different suits that takes longer than their first lay. What is refused
    /// here is refused again, by name, when its piece comes.
    fn prepare_all(&mut self, pieces: &[LayPiece]) {
        let has_fold = self.cloth.fold != crate::Fold::Single;
        let mut outlines: Vec<Vec<Point>> = Vec::new();
        for piece in pieces {
            let half = (has_fold && piece.is_symmetric).then(|| right_half(&piece.outline));
            for outline in std::iter::once(piece.outline.clone()).chain(half) {
                if !outlines.contains(&outline) {
                    outlines.push(outline);
                }
            }
        }
        let grow = self.grow;
        let all: Vec<_> = outlines.par_iter().map(|o| prepared(o, grow)).collect();
        for (outline, one) in outlines.iter().zip(all) {
            if let Some((prepared, middle)) = one {
                self.learn(outline, prepared, middle);
            }
        }
    }

    /// One item for each time the piece must be cut out.
    fn items(&mut self, piece: &LayPiece, index: usize) -> Result<Vec<(Item, Behind)>, LayError> {
        let whole = self.ready(&piece.outline, &piece.name)?;
        let lanes = self.cloth.lanes();
        let has_double = lanes.iter().any(|l| l.2);
        let has_single = lanes.iter().any(|l| !l.2);
        // What is cut through two layers comes out as a left and a right: good for pairs and for pieces that are their own mirror image.
        let doubles = if has_double && piece.comes_in_twos() {
            piece.count / 2
        } else {
            0
        };
        let mut singles = piece.count - 2 * doubles;
        let mut all = Vec::new();
        let mut copy = 0;
        for _ in 0..doubles {
            let plain = [false];
            match self.item(piece, index, copy, &whole, None, &plain, Some(true)) {
                Ok(double) => all.push(double),
                // Wider than the cloth is folded over: cut one by one beside the fold.
                Err(_) if has_single => {
                    singles = piece.count;
                    break;
                }
                Err(error) => return Err(error),
            }
            copy += 2;
        }
        // A half lies on the fold only if its own fold runs along the cloth; and the fold cannot be moved into phase with a repeat.
        let keeps_phase = piece.match_point.is_some() && self.cloth.repeat_mm.1.is_some();
        let may_be_half = piece.is_symmetric && piece.orientation == Orientation::Upright && !keeps_phase;
        let half = if singles > 0 && has_double && may_be_half {
            Some(self.half(piece)?)
        } else {
            None
        };
        for k in 0..singles {
            let is_right = piece.is_pair && k % 2 == 1 && !piece.is_symmetric;
            let reflections = match (piece.either_face, is_right) {
                (true, _) => vec![false, true],
                (false, right) => vec![right],
            };
            // Folded cloth without a single lane: a piece that is no twin is cut through both layers, one of them to spare.
            let in_double = if has_single { None } else { Some(true) };
            let lane = if half.is_some() {
                in_double
            } else {
                in_double.or(Some(false))
            };
            all.push(self.item(piece, index, copy, &whole, half.as_ref(), &reflections, lane)?);
            copy += 1;
        }
        Ok(all)
    }

    fn half(&mut self, piece: &LayPiece) -> Result<Ready, LayError> {
        let half = right_half(&piece.outline);
        self.ready(&half, &piece.name)
    }

    /// `lane`: only the double one, only the single ones, or either (a half then lies on the fold, a whole in the single lane).
    #[expect(
        clippy::too_many_arguments,
        reason = "one call site family, all values of one piece"
    )]
    fn item(
        &mut self,
        piece: &LayPiece,
        index: usize,
        copy: u32,
        whole: &Ready,
        half: Option<&Ready>,
        reflections: &[bool],
        lane: Option<bool>,
    ) -> Result<(Item, Behind), LayError> {
        let (mut ways, mut stances, mut middles) = (Vec::new(), Vec::new(), Vec::new());
        let mut least = f64::INFINITY;
        for (base, is_turned) in angles(self.cloth, piece) {
            for tilt in self.tilts() {
                let angle = base + tilt;
                for &is_reflected in reflections {
                    for &(from, to, is_double) in &self.cloth.lanes() {
                        if half.is_none() && lane.is_some_and(|l| l != is_double) {
                            continue;
                        }
                        if half.is_some() && is_double {
                            continue;
                        }
                        let stance = Stance {
                            is_reflected,
                            angle,
                            is_half: false,
                            layers: if is_double { 2 } else { 1 },
                        };
                        let way = self.way(piece, whole, &stance, is_turned, (from, to), None);
                        least = least.min(self.shapes.get(way.shape).bounds.height() - 2.0 * self.grow);
                        if self.fits(&way) {
                            ways.push(way);
                            stances.push(stance);
                            middles.push(whole.middle);
                        }
                    }
                }
            }
            if let Some(half) = half {
                self.on_fold(
                    piece,
                    half,
                    base,
                    is_turned,
                    &mut ways,
                    &mut stances,
                    &mut middles,
                );
            }
        }
        if ways.is_empty() {
            // Of the lanes it may lie in.
            let lanes = self
                .cloth
                .lanes()
                .into_iter()
                .filter(|l| half.is_some() || lane.is_none_or(|lane| lane == l.2));
            let width_mm = lanes.map(|l| l.1 - l.0).fold(0.0, f64::max);
            return Err(if least <= width_mm {
                LayError::RepeatTooLarge {
                    piece: piece.name.clone(),
                }
            } else {
                LayError::TooWide {
                    piece: piece.name.clone(),
                    least_mm: if least.is_finite() { least } else { 0.0 },
                    width_mm,
                }
            });
        }
        let garment = (self.cloth.direction == Direction::PerGarment).then_some(piece.garment);
        Ok((
            Item {
                ways,
                garment,
                bears_grade: piece.bears_grade,
            },
            Behind {
                piece: index,
                copy,
                stances,
                middles,
            },
        ))
    }

    /// The half with its fold line on the cloth's fold: only where its fold runs along the cloth.
    #[expect(clippy::too_many_arguments, reason = "three lists that grow together")]
    fn on_fold(
        &mut self,
        piece: &LayPiece,
        half: &Ready,
        base: f64,
        is_turned: bool,
        ways: &mut Vec<Way>,
        stances: &mut Vec<Stance>,
        middles: &mut Vec<Vec2>,
    ) {
        let lane = self.cloth.lanes().into_iter().find(|l| l.2);
        let Some((from, to, _)) = lane else {
            return;
        };
        for is_reflected in [false, true] {
            let stance = Stance {
                is_reflected,
                angle: base,
                is_half: true,
                layers: 2,
            };
            // Its outside must point away from the fold, to +y.
            let outward = turned(Vec2::new(1.0, 0.0), &stance);
            if (outward.y - 1.0).abs() > 1e-9 {
                continue;
            }
            let fold_y = -self.offset.y + turned(half.middle, &stance).y;
            let way = self.way(piece, half, &stance, is_turned, (from, to), Some(fold_y));
            if self.shapes.get(way.shape).bounds.y1 + fold_y <= to - self.offset.y + self.grow + 1e-6 {
                ways.push(way);
                stances.push(stance);
                middles.push(half.middle);
            }
        }
    }

    fn way(
        &mut self,
        piece: &LayPiece,
        ready: &Ready,
        stance: &Stance,
        is_turned: bool,
        (from, to): (f64, f64),
        fixed_y: Option<f64>,
    ) -> Way {
        let shape = self.shapes.turn(&ready.key, stance.is_reflected, stance.angle);
        let grid = match piece.match_point {
            None => [None, None],
            Some(point) => {
                // Match point in the frame of the shape's origin.
                let m = turned(point.to_vec2() - ready.middle, stance) + self.offset;
                let (along, across) = self.cloth.repeat_mm;
                [along.map(|r| (-m.x, r)), across.map(|r| (self.phase - m.y, r))]
            }
        };
        Way {
            shape,
            is_turned,
            fixed_y,
            grid,
            lane: (from - self.offset.y - self.grow, to - self.offset.y + self.grow),
        }
    }

    /// Whether there is an allowed place across.
    fn fits(&self, way: &Way) -> bool {
        let b = self.shapes.get(way.shape).bounds;
        let (low, high) = (way.lane.0 - b.y0, way.lane.1 - b.y1);
        match way.grid[1] {
            None => low <= high,
            Some((start, step)) => {
                let first = start + ((low - start) / step - 1e-9).ceil() * step;
                low <= high && first <= high + 1e-9
            }
        }
    }

    fn tilts(&self) -> Vec<f64> {
        if self.cloth.tilt > 0.0 {
            vec![0.0, self.cloth.tilt, -self.cloth.tilt]
        } else {
            vec![0.0]
        }
    }

    /// Takes a piece out of the search and puts it in the way of the others, where a hand placed it.
    fn pin(
        &mut self,
        request: &LayRequest,
        hand: &Placed,
        items: &mut Vec<Item>,
        behind: &mut Vec<Behind>,
        fixed: &mut Vec<Fixed>,
    ) -> Result<(), LayError> {
        let piece = request.pieces.get(hand.piece);
        let name = piece.map_or_else(String::new, |p| p.name.clone());
        let stray = |what: &str| LayError::Pinned {
            reason: format!("{name} {what}"),
        };
        let piece = piece.ok_or_else(|| stray("is no piece of this cloth"))?;
        let item = behind
            .iter()
            .position(|b| b.piece == hand.piece && b.copy == hand.copy)
            .ok_or_else(|| stray("is cut as often already"))?;
        let way = behind[item].stances.iter().position(|s| s.is_that_of(hand));
        let is_turned = items[item].ways[way.ok_or_else(|| stray("is turned as it may not lie"))?].is_turned;
        // The rest of its garment follows its direction.
        let garment = items[item].garment;
        items.remove(item);
        behind.remove(item);
        for (other, back) in items.iter_mut().zip(behind.iter_mut()) {
            if garment.is_none() || other.garment != garment {
                continue;
            }
            let keeps: Vec<bool> = other.ways.iter().map(|w| w.is_turned == is_turned).collect();
            if keeps.contains(&true) {
                let mut kept = keeps.iter();
                other.ways.retain(|_| kept.next() == Some(&true));
                kept = keeps.iter();
                back.stances.retain(|_| kept.next() == Some(&true));
                kept = keeps.iter();
                back.middles.retain(|_| kept.next() == Some(&true));
            }
        }
        let ready = self.ready(&hand.outline(piece), &piece.name)?;
        let shape = self.shapes.turn(&ready.key, false, 0.0);
        fixed.push(Fixed {
            shape,
            at: ready.middle - self.offset,
            grade: 0,
        });
        Ok(())
    }

    /// Flaws, and all that a remnant lacks of its box.
    fn fixed(&mut self, errors: &mut Vec<LayError>) -> Vec<Fixed> {
        let mut rings: Vec<(Vec<Point>, u32)> = self
            .cloth
            .flaws
            .iter()
            .map(|f| (f.outline.clone(), f.grade))
            .collect();
        if let Some(remnant) = &self.cloth.remnant {
            rings.extend(missing(remnant).into_iter().map(|ring| (ring, 0)));
        }
        let mut all = Vec::new();
        for (ring, grade) in rings {
            let ring = polygon::thinned(&polygon::tidy(&ring), THIN_MM);
            let b = Bounds::of(&ring);
            let middle = Vec2::new(0.5 * (b.x0 + b.x1), 0.5 * (b.y0 + b.y1));
            let centred: Vec<Point> = ring.iter().map(|&p| p - middle).collect();
            let key = engine::grown(&centred, THIN_MM + 0.01).and_then(|r| self.shapes.prepare(r));
            match key {
                Some(key) if ring.len() >= 3 => {
                    let shape = self.shapes.turn(&key, false, 0.0);
                    all.push(Fixed {
                        shape,
                        at: middle - self.offset,
                        grade,
                    });
                }
                _ => errors.push(LayError::BadOutline {
                    piece: "a flaw or remnant".to_owned(),
                }),
            }
        }
        all
    }
}

/// Base angles, each with whether the top points against the cloth.
pub(crate) fn angles(cloth: &LayCloth, piece: &LayPiece) -> Vec<(f64, bool)> {
    let upright = match piece.orientation {
        Orientation::Upright => -FRAC_PI_2,
        Orientation::Turned => 0.0,
    };
    let mut all = vec![(upright, false)];
    if cloth.direction != Direction::OneWay {
        all.push((upright + PI, true));
    }
    if piece.may_lie_crosswise {
        let crosswise = upright + FRAC_PI_2;
        all.push((crosswise, false));
        if cloth.direction != Direction::OneWay {
            all.push((crosswise + PI, true));
        }
    }
    all
}

/// The half with x >= 0 of a symmetric outline.
pub(crate) fn right_half(outline: &[Point]) -> Vec<Point> {
    clipped_right(&polygon::tidy(outline))
}

/// The part of a ring with x >= 0, for rings that are symmetric about x = 0.
fn clipped_right(ring: &[Point]) -> Vec<Point> {
    let mut out = Vec::new();
    for (a, b) in polygon::edges(ring) {
        if a.x >= 0.0 {
            out.push(a);
        }
        if (a.x < 0.0) != (b.x < 0.0) && a.x != 0.0 && b.x != 0.0 {
            let t = a.x / (a.x - b.x);
            out.push(Point::new(0.0, a.y + t * (b.y - a.y)));
        }
    }
    polygon::tidy(&out)
}

/// What a remnant lacks of its box, cut down the middle so that no part has a hole.
pub(crate) fn missing(remnant: &[Point]) -> Vec<Vec<Point>> {
    let b = Bounds::of(remnant);
    let middle = 0.5 * (b.x0 + b.x1);
    // Beyond the box across, so that nothing slips past; along, the box's end is the cloth's end.
    let pad = 0.05 * b.height();
    let subject: Vec<[f64; 2]> = remnant.iter().map(|p| [p.x, p.y]).collect();
    let mut all = Vec::new();
    for (x0, x1) in [(b.x0 - pad, middle), (middle, b.x1)] {
        let rect = vec![
            [x0, b.y0 - pad],
            [x1, b.y0 - pad],
            [x1, b.y1 + pad],
            [x0, b.y1 + pad],
        ];
        for shape in rect.overlay(&subject, OverlayRule::Difference, FillRule::NonZero) {
            if let Some(contour) = shape.first() {
                let ring: Vec<Point> = contour.iter().map(|&[x, y]| Point::new(x, y)).collect();
                if polygon::signed_area(&ring).abs() > 1.0 {
                    all.push(ring);
                }
            }
        }
    }
    all
}

/// The phase of the repeat across at which every piece that matches has a place; 0 without one.
fn phase_across(request: &LayRequest) -> f64 {
    let Some(repeat) = request.cloth.repeat_mm.1 else {
        return 0.0;
    };
    let spans: Vec<(f64, f64)> = request
        .pieces
        .iter()
        .filter_map(|p| {
            let m = p.match_point?;
            let b = Bounds::of(&p.outline);
            // Across the cloth lies x of an upright piece (turned down by a quarter: -x), y of a turned one.
            Some(match p.orientation {
                Orientation::Upright => (m.x - b.x1, m.x - b.x0),
                Orientation::Turned => (b.y0 - m.y, b.y1 - m.y),
            })
        })
        .collect();
    let misses = |phase: f64| {
        let fits = |lane: &(f64, f64, bool), span: &(f64, f64)| {
            let (low, high) = (lane.0 - span.0, lane.1 - span.1);
            let first = phase + ((low - phase) / repeat).ceil() * repeat;
            first <= high
        };
        spans
            .iter()
            .filter(|s| !request.cloth.lanes().iter().any(|l| fits(l, s)))
            .count()
    };
    (0..PHASES)
        .map(|k| repeat * k as f64 / PHASES as f64)
        .min_by_key(|&p| misses(p))
        .unwrap_or(0.0)
}
