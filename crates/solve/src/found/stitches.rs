//! Seams and edges against what their planned stitch can stretch.
//!
//! A stitch must go further than the seam is worn, by a factor: where the worst few centimetres are stretched past that it bursts in wear,
//! where the whole line with what movement adds is, in the water.
//!
//! **Source.** Factor and movement are handed in with the stitches; `make` has them from `data/trade/thread_model.toml` (ASTM D6193 4.2.2)
//! and `data/trade/pressure_model.toml`.
//! **Limits.** Worn and standing. What it takes to get in is the way in's.

use draft::OpenKind;
use units::Severity;

use super::{Job, Read, Reading, limit, percent, piece_words};

/// A sewn place of a suit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SewnPlace {
    /// Seams of this name in the draft.
    Seam(&'static str),
    /// Open edges of this kind.
    Edge(OpenKind),
}

/// How far the planned stitch of a place can stretch.
#[derive(Clone, Debug, PartialEq)]
pub struct StitchReach {
    /// Where it is sewn.
    pub of: SewnPlace,
    /// What it stretches before its thread breaks, a ratio.
    pub stretch: f64,
    /// The stitch, in the maker's words.
    pub stitch: String,
    /// What that rests on.
    pub source: &'static str,
}

/// The stitches of a suit, and what is asked of them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stitches {
    /// One for each sewn place, the weakest where there are several.
    pub reaches: Vec<StitchReach>,
    /// What a stitch must reach of what its seam is stretched.
    pub factor: f64,
    /// Stretch that movement adds to what is worn.
    pub movement: f64,
}

impl Job<'_> {
    pub(super) fn stitches(&self, all: &mut Vec<Reading>) {
        for seam in &self.worn.seams {
            let [first, second] = &seam.pieces;
            let pieces = if first == second {
                format!("of the {}", piece_words(first))
            } else {
                format!("of {} and {}", piece_words(first), piece_words(second))
            };
            let words = format!("{} seam {pieces}", seam.name);
            self.stitch(
                SewnPlace::Seam(seam.name),
                &words,
                (seam.stretch, seam.most, seam.at),
                Some(first),
                all,
            );
        }
        for edge in &self.worn.edges {
            let words = format!("{} of the {}", edge.kind.name(), piece_words(&edge.piece));
            let place = SewnPlace::Edge(edge.kind);
            let along = (edge.stretch, edge.most, edge.most_at);
            self.stitch(place, &words, along, Some(&edge.piece), all);
        }
    }

    fn stitch(
        &self,
        of: SewnPlace,
        place: &str,
        (whole, most, at): (f64, f64, usize),
        piece: Option<&String>,
        all: &mut Vec<Reading>,
    ) {
        let stitches = &self.limits.stitches;
        let Some(reach) = stitches.reaches.iter().find(|r| r.of == of) else {
            return;
        };
        let worn = most - 1.0;
        let severity = match reach.stretch {
            s if stitches.factor * worn > s => Severity::Stop,
            // The worst few centimetres don't move by as much as the body does: movement is added to the whole line, as the plan does.
            s if stitches.factor * (whole - 1.0 + stitches.movement) > s => Severity::Watch,
            _ => Severity::Good,
        };
        let mut read = Read::new("worn.stitch", severity, place, worn);
        let end = match severity {
            Severity::Stop => "its thread breaks in wear",
            Severity::Watch => "in movement its thread may break",
            Severity::Good => "it keeps up",
        };
        read.message = format!(
            "worn {:.0} % stretched along it, {} goes to {:.0} %: {end}",
            percent(worn),
            reach.stitch,
            percent(reach.stretch)
        );
        read.limit = limit(format!("{:.0} %", percent(reach.stretch)), reach.source);
        read.remedy =
            "sew it with a stitch that stretches further, or with an elastic thread, and pull a scrap of it";
        read.piece = piece.cloned();
        read.spot = self.spot(at, piece.map(String::as_str));
        all.push(read.into_reading());
    }
}
