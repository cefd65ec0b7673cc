//! Triangles about the bust point: sideways along the section there, up and down along the skin.

use super::torso::Torso;
use crate::body_field::BodyField;
use crate::vector::{V3, norm, sub};

/// Step along the skin, mm.
const STEP: f64 = 2.0;
/// Nothing of a triangle is further from the bust point, mm.
const FURTHEST: f64 = 400.0;

/// Where triangles go.
pub(super) struct Triangle {
    bust_y: f64,
    /// From the middle to the bust point along the section at its height, mm.
    arc: f64,
}

impl Triangle {
    pub(super) fn new(torso: &Torso<'_>, body: &BodyField) -> Triangle {
        let [x, y, _] = body.form.bust_point;
        let mut arc = 0.0;
        let mut before = torso.front_at(y, 0.0);
        while before[0] < x && arc < FURTHEST {
            let here = torso.front_at(y, arc + STEP);
            if norm(sub(here, before)) < 1e-6 {
                break;
            }
            arc += STEP;
            before = here;
        }
        Triangle { bust_y: y, arc }
    }

    /// The place of a point given about the bust point.
    pub(super) fn put(&self, torso: &Torso<'_>, [x, y]: [f64; 2]) -> V3 {
        let arc = (self.arc + x).max(0.0);
        let step = STEP.copysign(y);
        let (mut height, mut left) = (self.bust_y, y.abs());
        let mut here = torso.front_at(height, arc);
        while left > 0.0 {
            let next = torso.front_at(height + step, arc);
            let way = norm(sub(next, here)).max(0.1);
            if way >= left {
                return torso.front_at(height + step * left / way, arc);
            }
            left -= way;
            height += step;
            here = next;
        }
        here
    }
}
