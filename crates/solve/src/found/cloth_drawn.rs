//! Cloth that is drawn too far, hardly at all, pushed into folds, or out to where it is thin.
//!
//! **Limits.** Read at the levels where the suit closes round the body.

use units::{Level, Severity};

use super::{Change, Job, Read, Reading, graded, limit, percent};
use crate::worn::WornLevel;

/// Cloth this much shorter lengthwise than it was cut lies in folds (own: bands that folded read 0.50 to 0.80).
pub const FOLDED: f64 = 0.85;
/// What a shell showed that was wetted and stretched to its worn length over a printed page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WetSeen {
    /// Nothing could be read through it.
    Opaque,
    /// It could be read where the cloth was stretched.
    ShowsStretched,
    /// It could be read.
    Shows,
}

/// Area ratio at which a light cloth begins to show what is under it (own, no source).
pub const AREA_WATCH: f64 = 1.45;

impl Job<'_> {
    pub(super) fn stretch(&self, level: &WornLevel, all: &mut Vec<Reading>) {
        let e = level.around - 1.0;
        let (reserve, most) = self.limits.share;
        let worst = self
            .limits
            .layers
            .iter()
            .map(|(layer, stretch)| (layer, e / stretch.max(f64::MIN_POSITIVE)))
            .max_by(|a, b| a.1.total_cmp(&b.1));
        let name = level.level.name();
        if let Some((layer, share)) = worst {
            let severity = graded(share, (reserve, most), true);
            let held = if severity == Severity::Stop { most } else { reserve };
            let mut read = Read::new("worn.share", severity, name, share);
            read.message = format!(
                "worn {:.0} % stretched around: {:.0} % of what the {} can stretch is used",
                percent(e),
                percent(share),
                layer.name()
            );
            read.limit = limit(format!("{held:.2}"), "own");
            read.remedy = "take a looser fit";
            read.changes = self.fit_changed(reserve / share.max(reserve), 1.0);
            all.push(read.into_reading());
        }
        let severity = if e < self.limits.hold {
            Severity::Watch
        } else {
            Severity::Good
        };
        let mut read = Read::new("worn.hold", severity, name, e);
        read.message = if e < 0.0 {
            format!("it lies {:.0} % wider than it is pulled: it bags", -percent(e))
        } else if severity == Severity::Watch {
            format!("worn only {:.1} % stretched around: it hardly holds", percent(e))
        } else {
            format!("worn {:.1} % stretched around: it holds", percent(e))
        };
        read.limit = limit(format!("{:.0} %", percent(self.limits.hold)), "own");
        read.remedy = "take a closer fit, or the girth again";
        read.changes = self.fit_changed(1.15, 1.0);
        all.push(read.into_reading());
    }

    /// Cloth that was pushed together lengthwise, by piece.
    pub(super) fn folds(&self, all: &mut Vec<Reading>) {
        for (half, piece) in ["front", "back"].into_iter().enumerate() {
            let worst = self
                .worn
                .levels
                .iter()
                .filter(|l| l.closes)
                .filter_map(|l| Some((l, l.halves[half]?.0[0])))
                .min_by(|a, b| a.1.total_cmp(&b.1));
            let Some((level, along)) = worst else { continue };
            let is_folded = along < FOLDED;
            let severity = if is_folded {
                Severity::Watch
            } else {
                Severity::Good
            };
            let mut read = Read::new("worn.folds", severity, piece, along);
            read.place = format!("{piece}, {}", level.level.name());
            read.message = if is_folded {
                format!(
                    "the cloth lies in folds: lengthwise {:.0} % shorter than it was cut",
                    percent(1.0 - along)
                )
            } else {
                "the cloth lies flat lengthwise".to_owned()
            };
            read.limit = limit(format!("{FOLDED:.2} of its length"), "own");
            read.remedy =
                "sew a firmer elastic to the edges, or take length out of the centre back after a toile";
            if piece == "back" && matches!(level.level, Level::Waist | Level::Underbust | Level::HighHip) {
                let now = self.design.figure.sway_back.get();
                read.changes.push(Change {
                    key: "figure.sway_back",
                    from: Some(now),
                    to: (now + 8.0).min(15.0),
                });
            }
            read.piece = Some(piece.to_owned());
            all.push(read.into_reading());
        }
    }

    pub(super) fn drawn_out(&self, all: &mut Vec<Reading>) {
        let worst = self
            .worn
            .levels
            .iter()
            .filter(|l| l.closes)
            .max_by(|a, b| a.area.total_cmp(&b.area));
        let Some(level) = worst else { return };
        let is_far = level.area > AREA_WATCH;
        let (severity, seen, source) = match self.limits.wet {
            None if is_far => (
                Severity::Watch,
                "there it is thinnest to look through",
                "own, no source",
            ),
            None => (
                Severity::Good,
                "there it is thinnest to look through",
                "own, no source",
            ),
            Some(WetSeen::Opaque) => (
                Severity::Good,
                "your wet test, stretched, showed nothing through it",
                "own wet test",
            ),
            Some(WetSeen::ShowsStretched) => (
                Severity::Watch,
                "your wet test showed through where it was stretched",
                "own wet test",
            ),
            Some(WetSeen::Shows) => (Severity::Watch, "your wet test showed through it", "own wet test"),
        };
        let mut read = Read::new("worn.drawn_out", severity, "suit", level.area);
        level.level.name().clone_into(&mut read.place);
        read.message = format!(
            "the cloth is drawn out most, to {:.2} of its area: {seen}",
            level.area
        );
        read.limit = limit(
            match self.limits.wet {
                None => format!("{AREA_WATCH:.2}"),
                Some(_) => "nothing to be read through it".to_owned(),
            },
            source,
        );
        read.remedy = if self.limits.wet.is_some() {
            "line it, or take a denser cloth"
        } else {
            "wet the cloth, stretch it so far over a printed page in daylight, and line it if you can read it"
        };
        read.is_told = true;
        all.push(read.into_reading());
    }
}
