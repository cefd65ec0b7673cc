//! Outlines in every way they may lie, each prepared once, and for each two of them the field of how deep they overlap.
//!
//! **Shapes and units.** A shape's frame has its origin at the middle of the unturned outline's box; a pose moves that origin.

use std::sync::OnceLock;

use kurbo::{Point, Vec2};

use crate::engine::{self, Circle, Prepared};
use crate::field::Field;
use crate::polygon::{self, Bounds};

/// An outline turned (and reflected) one way.
#[derive(Clone, Debug)]
pub(crate) struct Shape {
    pub(crate) ring: Vec<Point>,
    pub(crate) bounds: Bounds,
    pub(crate) circles: Vec<Circle>,
    pub(crate) hull_area: f64,
    pub(crate) diameter: f64,
    /// Outlines of one kind turn into each other.
    kind: usize,
    /// The same outline turned half round, if it may lie so: fields between two such are the same seen from the other side.
    half_turn: Option<usize>,
}

/// All shapes of a task and the fields between them, made when first asked for.
#[derive(Debug, Default)]
pub(crate) struct Shapes {
    shapes: Vec<Shape>,
    kinds: usize,
    fields: Vec<OnceLock<Field>>,
    has_fields: bool,
}

/// Two rings are one when every corner of one lies this near to a corner of the other, as a share of the diameter.
const SAME_RING: f64 = 1e-9;

/// Room for so many fields at most, each some 20 kB once it is made; a task of more shapes works the overlap out each time.
const MOST_FIELDS: usize = 250_000;

impl Shapes {
    /// Prepares an outline in its own frame and returns a key for [`Shapes::turn`]; `None` if the engine refuses it.
    pub(crate) fn prepare(&mut self, ring: Vec<Point>) -> Option<(usize, Prepared)> {
        engine::prepared(ring).map(|prepared| self.add(prepared))
    }

    /// The same of an outline that was prepared elsewhere.
    pub(crate) fn add(&mut self, prepared: Prepared) -> (usize, Prepared) {
        self.kinds += 1;
        (self.kinds - 1, prepared)
    }

    /// Adds a prepared outline turned one way; returns the shape's number.
    pub(crate) fn turn(
        &mut self,
        (kind, prepared): &(usize, Prepared),
        is_reflected: bool,
        angle: f64,
    ) -> usize {
        let ring = polygon::turned(&prepared.ring, is_reflected, angle);
        let (sin, cos) = polygon::exact_sin_cos(angle);
        let circles = prepared
            .circles
            .iter()
            .map(|c| {
                let x = if is_reflected { -c.x } else { c.x };
                Circle {
                    x: cos * x - sin * c.y,
                    y: sin * x + cos * c.y,
                    r: c.r,
                }
            })
            .collect();
        let kind = 2 * kind + usize::from(is_reflected);
        let is_same = |shape: &Shape, ring: &[Point]| {
            let near = SAME_RING * prepared.diameter;
            shape.kind == kind
                && shape.ring.len() == ring.len()
                && ring
                    .iter()
                    .all(|p| shape.ring.iter().any(|q| (*p - *q).hypot() < near))
        };
        // A rectangle turned half round is the same rectangle.
        if let Some(known) = self.shapes.iter().position(|s| is_same(s, &ring)) {
            return known;
        }
        let half_round: Vec<Point> = ring.iter().map(|p| Point::new(-p.x, -p.y)).collect();
        let new = self.shapes.len();
        let half_turn = if self.shapes.iter().any(|s| is_same(s, &half_round)) {
            self.shapes.iter().position(|s| is_same(s, &half_round))
        } else {
            let n = ring.len();
            let is_own = (0..n).all(|i| {
                ring.iter()
                    .any(|q| (half_round[i] - *q).hypot() < SAME_RING * prepared.diameter)
            });
            is_own.then_some(new)
        };
        if let Some(partner) = half_turn
            && partner != new
        {
            self.shapes[partner].half_turn = Some(new);
        }
        self.shapes.push(Shape {
            bounds: Bounds::of(&ring),
            ring,
            circles,
            hull_area: prepared.hull_area,
            diameter: prepared.diameter,
            kind,
            half_turn,
        });
        new
    }

    /// Makes room for the fields; to be called once all shapes are in.
    pub(crate) fn close(&mut self) {
        let pairs = self.shapes.len() * self.shapes.len();
        self.has_fields = pairs <= MOST_FIELDS;
        if self.has_fields {
            self.fields = (0..pairs).map(|_| OnceLock::new()).collect();
        }
    }

    /// How many different shapes there are.
    pub(crate) fn count(&self) -> usize {
        self.shapes.len()
    }

    pub(crate) fn get(&self, shape: usize) -> &Shape {
        &self.shapes[shape]
    }

    /// How much `b` overlaps `a`, `b`'s origin lying `by` from `a`'s: zero exactly when they share no point.
    #[inline]
    pub(crate) fn loss(&self, a: usize, b: usize, by: Vec2) -> f32 {
        if !self.has_fields {
            return Field::worked_out(self.get(a), self.get(b), by);
        }
        let (a, b, by) = self.canonical(a, b, by);
        let field =
            self.fields[a * self.shapes.len() + b].get_or_init(|| Field::new(self.get(a), self.get(b)));
        field.loss(self.get(a), self.get(b), by)
    }

    /// Whether two shapes share a point; asks no field.
    pub(crate) fn touch(&self, a: usize, b: usize, by: Vec2) -> bool {
        let (a, b) = (self.get(a), self.get(b));
        polygon::overlap(&a.ring, &a.bounds, &b.ring, &b.bounds, by)
    }

    /// The same two shapes seen so that fields are shared: half turns of both, and the order of the two.
    #[inline]
    fn canonical(&self, a: usize, b: usize, by: Vec2) -> (usize, usize, Vec2) {
        let (a, b, by) = if a <= b { (a, b, by) } else { (b, a, -by) };
        // Turning both half round turns the way between them too.
        match (self.shapes[a].half_turn, self.shapes[b].half_turn) {
            (Some(c), Some(d)) => {
                let (c, d, turned) = if c <= d { (c, d, -by) } else { (d, c, by) };
                if (c, d) < (a, b) {
                    (c, d, turned)
                } else {
                    (a, b, by)
                }
            }
            _ => (a, b, by),
        }
    }
}
