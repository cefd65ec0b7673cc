//! Which height of the form a flat height stands for.

use draft::Draft;
use units::Level;

use super::BELOW_UNDERARM;
use crate::body_field::FormPoints;

/// A draft whose levels all lie further over the waist than this has none there, mm.
const ABOVE_WAIST: f64 = 20.0;

/// Flat height to form height, straight between levels and on beyond them.
pub(super) struct Heights(Vec<(f64, f64)>);

impl Heights {
    pub(super) fn new(draft: &Draft, points: &FormPoints, underarm: Option<f64>) -> Heights {
        let mut pairs: Vec<(f64, f64)> = draft
            .levels
            .iter()
            .filter(|l| {
                matches!(
                    l.level,
                    Level::Bust | Level::Underbust | Level::Waist | Level::HighHip | Level::Hip
                )
            })
            .filter_map(|l| {
                let at = points.levels.iter().find(|(level, _)| *level == l.level)?;
                Some((l.y_mm, at.1))
            })
            .collect();
        // A top without the waist's level: the waist is where every draft has its 0.
        if !pairs.is_empty()
            && pairs.iter().all(|p| p.0 > ABOVE_WAIST)
            && let Some(waist) = points.levels.iter().find(|(level, _)| *level == Level::Waist)
        {
            pairs.push((0.0, waist.1));
        }
        if let Some(y) = underarm {
            pairs.push((y, points.underarm_y - BELOW_UNDERARM));
        }
        pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
        // Where two fall together or the form turns them round, the first stays.
        let mut kept: Vec<(f64, f64)> = Vec::new();
        for p in pairs {
            if kept.last().is_none_or(|k| p.0 > k.0 + 5.0 && p.1 > k.1 + 5.0) {
                kept.push(p);
            }
        }
        Heights(kept)
    }

    pub(super) fn at(&self, y: f64) -> f64 {
        match self.0[..] {
            [] => y,
            [(a, b)] => y - a + b,
            _ => {
                let last = self.0.len() - 2;
                let i = self.0[1..=last].iter().position(|p| y < p.0).unwrap_or(last);
                let ((a, b), (c, d)) = (self.0[i], self.0[i + 1]);
                b + (y - a) * (d - b) / (c - a)
            }
        }
    }
}
