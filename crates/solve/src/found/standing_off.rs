//! Where the suit stands off the body: edges one can see into, hollows it bridges.
//!
//! **Source.** Own.

use draft::OpenKind;
use units::Severity;

use super::{Job, Read, Reading, limit, piece_words};
use crate::worn::Gape;

/// A gap at an edge deeper than this shows (own), mm.
pub const GAPE_WATCH_MM: f64 = 5.0;
/// Less of it standing off is not worth a word, mm^2.
const LEAST_BRIDGE_MM2: f64 = 100.0;

impl Job<'_> {
    pub(super) fn gapes(&self, all: &mut Vec<Reading>) {
        for edge in &self.worn.edges {
            let off = edge.gape_mm.max(edge.slack_mm);
            let severity = if off > GAPE_WATCH_MM {
                Severity::Watch
            } else {
                Severity::Good
            };
            let which = format!("{}, {}", edge.kind.name(), edge.piece);
            let mut read = Read::new("worn.gapes", severity, &which, off);
            read.place = format!(
                "{} of the {}, {}",
                edge.kind.name(),
                piece_words(&edge.piece),
                self.words_at(edge.gape_at)
            );
            read.message = if edge.slack_mm > edge.gape_mm {
                format!(
                    "the edge is slack: spread evenly it stands {:.0} mm off the body",
                    edge.slack_mm
                )
            } else if severity != Severity::Good {
                format!(
                    "the edge stands {:.0} mm off the body over {:.0} cm of its length",
                    edge.gape_mm,
                    edge.off_mm / 10.0
                )
            } else {
                format!("the edge stands {:.0} mm off the body", edge.gape_mm)
            };
            if severity != Severity::Good {
                read.message += &format!("; once round it measures {:.1} cm as worn", edge.girth_mm / 10.0);
            }
            read.limit = limit(format!("{GAPE_WATCH_MM:.0} mm"), "own");
            read.remedy =
                "cut the elastic of that edge a little shorter, or take more ease out of its length";
            // More ease in its length draws a neckline to the body; other edges only their elastic does.
            if edge.kind == OpenKind::Neckline {
                read.changes = self.fit_changed(1.0, 1.2);
            }
            read.piece = Some(edge.piece.clone());
            read.spot = self.spot(edge.gape_vertex, Some(&edge.piece));
            all.push(read.into_reading());
        }
        let deep = |g: &&Gape| g.depth_mm > GAPE_WATCH_MM && g.area_mm2 > LEAST_BRIDGE_MM2;
        for gape in self.worn.gapes.iter().filter(deep) {
            all.push(self.bridge(gape));
        }
    }

    /// Over a hollow: what cloth does between breasts and in the small of the back.
    fn bridge(&self, gape: &Gape) -> Reading {
        let place = self.words_at(gape.at);
        let mut read = Read::new("worn.bridges", Severity::Good, &place, gape.depth_mm);
        read.message = format!(
            "the cloth bridges a hollow, {:.0} mm deep, over {:.0} cm2 of each side",
            gape.depth_mm,
            gape.area_mm2 / 100.0
        );
        read.is_told = true;
        read.into_reading()
    }
}
