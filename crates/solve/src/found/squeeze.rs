//! What presses: the panels at their peak, and the edges over the width of their elastic.
//!
//! **Source.** Limits are handed in; their one home is `data/trade/pressure_model.toml`, table `findings`.
//! **Limits.** No pressure is read in the inner seat fold, where the form's legs were moved apart. On a full bust no pressure stops a suit: the
//! form's does not give way and hers does, so that the peak under it is overstated by nobody knows how much.

use units::{Level, Severity};

use super::support::LEAST_CUP_MM;
use super::{Job, Read, Reading, graded, limit, piece_words};
use crate::reading::voronoi_areas;
use crate::vector::{norm, sub};
use crate::worn::WornLevel;

/// A peak is the mean within this of its vertex, mm: single vertices are as sharp as the mesh is fine.
pub(super) const PEAK_MM: f64 = 10.0;
/// Within this of the middle, and below the hip behind, lies the inner seat fold, where no pressure is good; mm.
const SEAT_FOLD_MM: f64 = 55.0;

impl Job<'_> {
    /// The greatest mean pressure within 10 mm over vertices of a kind: the vertex, and kPa.
    pub(super) fn peak_over(&self, is_meant: &dyn Fn(usize) -> bool) -> Option<(usize, f64)> {
        let x = &self.worn.solved.positions;
        let areas = voronoi_areas(&self.suit.mesh, x);
        (0..x.len())
            .filter(|v| areas[*v] > 0.0 && is_meant(*v))
            .map(|v| {
                let near = (0..x.len()).filter(|w| norm(sub(x[v], x[*w])) <= PEAK_MM);
                let (force, area) = near.fold((0.0, 0.0), |(f, a), w| {
                    (f + self.worn.solved.contact_n[w], a + areas[w])
                });
                (v, 1e3 * force / area.max(f64::MIN_POSITIVE))
            })
            .max_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// The place of the greatest mean pressure, away from the edges and the inner seat fold.
    fn peak(&self) -> Option<(usize, f64)> {
        let x = &self.worn.solved.positions;
        let fold_below = self.height(Level::Hip).unwrap_or(f64::NEG_INFINITY);
        let is_fold = |p: [f64; 3]| p[0].abs() < SEAT_FOLD_MM && p[1] < fold_below;
        let lines = self.suit.open_lines.iter();
        let edge_points: Vec<[f64; 3]> = lines.flat_map(|l| &l.vertices).map(|v| x[*v]).collect();
        let free = |p: [f64; 3]| edge_points.iter().all(|q| norm(sub(p, *q)) > 2.0 * PEAK_MM);
        self.peak_over(&|v| !is_fold(x[v]) && free(x[v]))
    }

    pub(super) fn panels(&self, all: &mut Vec<Reading>) {
        let Some((v, kpa)) = self.peak() else { return };
        let (watch, stop) = self.limits.panel_kpa;
        let is_weighed = self.limits.cloth_weighed;
        let at = self.worn.solved.positions[v];
        let is_soft = self.is_on_full_bust(at);
        let severity = graded(kpa, (watch, stop), is_weighed && !is_soft);
        let relative = if is_weighed {
            ""
        } else {
            "; relative, the force of the cloth was not weighed"
        };
        let soft = if is_soft {
            "; the form's bust does not give way, hers does, and is pressed less"
        } else {
            ""
        };
        let held = if severity == Severity::Stop { stop } else { watch };
        let mut read = Read::new("worn.pressure", severity, "panels", kpa);
        read.place = self.words_at(at);
        read.message = format!("presses most, {kpa:.2} kPa over a thumb's breadth{relative}{soft}");
        read.limit = limit(format!("{held:.1} kPa"), self.limits.pressure_source);
        read.remedy = "take a looser fit, or a softer cloth";
        read.spot = self.spot(v, None);
        let by = (watch / kpa.max(f64::MIN_POSITIVE)).clamp(0.5, 1.0);
        read.changes = self.fit_changed(by, 1.0);
        read.is_told = true;
        all.push(read.into_reading());
    }

    /// Whether a point lies on a bust that is full enough to give way.
    fn is_on_full_bust(&self, at: [f64; 3]) -> bool {
        let is_full = self.limits.bust.is_some_and(|b| b.cup_mm >= LEAST_CUP_MM);
        let off = |l: &&WornLevel| (l.height_mm - at[1]).abs();
        let near = self.worn.levels.iter().min_by(|a, b| off(a).total_cmp(&off(b)));
        is_full && at[2] > 0.0 && near.is_some_and(|l| matches!(l.level, Level::Bust | Level::Underbust))
    }

    pub(super) fn edges(&self, all: &mut Vec<Reading>) {
        let (watch, stop) = self.limits.edge_kpa;
        let is_weighed = self.limits.cloth_weighed && self.limits.elastic_weighed;
        for edge in &self.worn.edges {
            let own = self.limits.elastic_by_edge.iter().find(|w| w.0 == edge.kind);
            let width = own.map_or(self.limits.elastic_mm, |w| w.1);
            if width <= 0.0 {
                continue;
            }
            // N/m over mm is kPa.
            let kpa = edge.line_load_n_per_m / width;
            let severity = graded(kpa, (watch, stop), is_weighed);
            let held = if severity == Severity::Stop { stop } else { watch };
            let relative = if is_weighed {
                ""
            } else {
                "; relative, its force was not weighed"
            };
            let which = format!("{}, {}", edge.kind.name(), edge.piece);
            let mut read = Read::new("worn.edge_digs", severity, &which, kpa);
            read.place = format!("{} of the {}", edge.kind.name(), piece_words(&edge.piece));
            read.message = if severity == Severity::Good {
                format!("presses {kpa:.1} kPa along its {width:.0} mm{relative}")
            } else {
                format!("presses {kpa:.1} kPa along its {width:.0} mm: it may dig in{relative}")
            };
            read.limit = limit(format!("{held:.1} kPa"), self.limits.pressure_source);
            read.remedy = "cut its elastic longer there, or take a wider or softer one";
            read.piece = Some(edge.piece.clone());
            all.push(read.into_reading());
        }
    }
}
