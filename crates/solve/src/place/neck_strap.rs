//! A strap round the neck: on from the end of the front, beside the neck to the middle of the nape.

use super::sections::along;
use super::strap::nape;
use super::torso::{Panel, Torso};
use crate::body_field::BodyField;
use crate::field::Field;
use crate::suit::SuitMesh;
use crate::vector::{V3, add_scaled, cross, norm, sub};

/// A strap of cloth along its way.
pub(super) struct NeckStrap<'a> {
    way: Vec<V3>,
    /// Width and length, flat.
    size: [f64; 2],
    body: &'a BodyField,
}

impl<'a> NeckStrap<'a> {
    /// `None` for a suit without.
    pub(super) fn new(
        suit: &SuitMesh,
        panels: &[&Panel],
        torso: &Torso<'_>,
        body: &'a BodyField,
    ) -> Option<NeckStrap<'a>> {
        let piece = suit.sewn.draft.pieces.iter().find(|p| p.key == "neck_strap")?;
        let size = [
            piece.edge("end")?.curve.length(),
            piece.edge("inner")?.curve.length(),
        ];
        let (panel, end) = panels.iter().find_map(|p| Some((p, p.neck_end()?)))?;
        Some(NeckStrap {
            way: nape(body, torso.put(panel, end)),
            size,
            body,
        })
    }

    /// The place of a flat point: so far along the way, and to the side of it.
    pub(super) fn put(&self, [x, y]: [f64; 2]) -> V3 {
        let [width, flat] = self.size;
        let share = (y / flat.max(1.0)).clamp(0.0, 1.0);
        let at = along(&self.way, share);
        let tangent = sub(along(&self.way, share + 0.02), along(&self.way, share - 0.02));
        let normal = self.body.sample(at).gradient;
        let aside = cross(tangent, normal);
        let size = norm(aside).max(f64::MIN_POSITIVE);
        add_scaled(at, (x - width / 2.0) / size, aside)
    }
}
