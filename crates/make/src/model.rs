//! How far a seam stretches before its thread breaks, and how much thread it takes: computed from the settings.
//!
//! **Extension.** Pulled along its length a lockstitch seam gives until its thread lies straight and breaks:
//!
//! e = sqrt(((1 + eps)(D + c t))^2 - (w/k)^2) / L - 1, D = sqrt(L^2 + (w/k)^2)
//!
//! with eps the thread's breaking extension, c the share of crimp that is pulled out, 0.3, t the thickness, w the width, k the
//! steps of one way across, L the stitch length. Loops of overedge, chain and cover share thread and are not computed: there the
//! lower quarter of the trade's band stands.
//!
//! **Thread.** 301: 2 (1 + t/L); zigzag 2 (sqrt(L^2 + (w/k)^2) + t)/L; a triple stitch three times that; the others
//! a + (b t + c w)/L times a correction, which is published ratio / equation at usual settings.
//!
//! **Shapes and units.** mm; extension and thread per seam length are ratios.
//! **Source.** `data/trade/thread_model.toml`, checked against its printed ratios and worked examples: lockstitch and linear
//! equations from published machine-builders' tables, zigzag and extension derived (own), c by assumption.
//! **Limits.** A forecast. No published table of seam extension on swim knits was found: a scrap decides.

use crate::stitch::Stitch;

/// Share of the lockstitch crimp that is pulled out (own assumption; `data/trade/thread_model.toml`, `c_default`).
pub const CRIMP_RELEASED: f64 = 0.3;
/// Where in a trade band of extensions the forecast stands: its lower quarter (own; a band's middle would promise too much).
const BAND_SHARE: f64 = 0.25;

/// Stitch settings in mm, as the formulas take them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StitchGeometry {
    /// Cloth advance between needle penetrations.
    pub length_mm: f64,
    /// Width of zigzag, overedge or needle spacing.
    pub width_mm: f64,
    /// All plies, compressed.
    pub thickness_mm: f64,
}

/// How far a seam of this stitch goes before it pops, a ratio; `breaks_at` is the thread's breaking extension.
///
/// # Source
/// See the head of this module.
pub fn seam_extension(stitch: Stitch, g: StitchGeometry, breaks_at: f64) -> f64 {
    let facts = stitch.facts();
    let computed = |width: f64, steps: f64| {
        let across = width / steps;
        let path = g.length_mm.hypot(across);
        let reach = (1.0 + breaks_at) * (path + CRIMP_RELEASED * g.thickness_mm);
        ((reach * reach - across * across).max(0.0)).sqrt() / g.length_mm - 1.0
    };
    if !facts.is_practice {
        let width = match stitch {
            // Each row of a twin needle is a straight stitch; the needle threads break first.
            Stitch::Straight | Stitch::TwinNeedle => 0.0,
            _ => g.width_mm,
        };
        if let Some((steps, _)) = stitch.path() {
            return computed(width, steps);
        }
    }
    let (low, high) = facts.extension;
    low + BAND_SHARE * (high - low)
}

/// Thread per seam length of one row, all threads together, a ratio.
///
/// # Source
/// See the head of this module.
pub fn thread_ratio(stitch: Stitch, g: StitchGeometry) -> f64 {
    let (length, width, t) = (g.length_mm, g.width_mm, g.thickness_mm);
    let linear = |a: f64, b: f64, c: f64, correction: f64| (a + (b * t + c * width) / length) * correction;
    match stitch {
        Stitch::Straight => 2.0 * (1.0 + t / length) * 0.99,
        Stitch::TripleStraight => 3.0 * 2.0 * (1.0 + t / length) * 0.99,
        // Two needle threads; the bobbin thread runs from row to row (own).
        Stitch::TwinNeedle => 2.0 * (1.0 + t / length) + (length.hypot(width) + t) / length,
        Stitch::Zigzag | Stitch::ThreeStep | Stitch::Slanted => {
            let (steps, passes) = stitch.path().unwrap_or((1.0, 1.0));
            passes * 2.0 * (length.hypot(width / steps) + t) / length
        }
        // Printed only as a band, 9 to 14: its middle.
        Stitch::HouseholdOverlock => 11.5,
        Stitch::Chain => linear(4.0, 2.0, 0.0, 1.13),
        Stitch::TwoNeedleCover => linear(7.0, 2.0, 2.0, 1.43),
        // No printed ratio to correct by: as the two-needle cover (own).
        Stitch::ThreeNeedleCover => linear(9.0, 6.0, 2.0, 1.43),
        Stitch::ThreeThreadOveredge => linear(5.0, 4.0, 4.0, 0.96),
        Stitch::FourThreadOverlock => linear(5.0, 6.0, 4.0, 1.11),
        Stitch::TopAndBottomCover => linear(8.0, 4.0, 5.0, 1.10),
    }
}

/// Width over length a lockstitch zigzag needs to reach an extension, no crimp counted: r = w / (k L).
///
/// # Source
/// `data/trade/thread_model.toml`, `required_width_over_length` (derived).
pub fn width_over_length(extension: f64, breaks_at: f64) -> f64 {
    let (reach, thread) = ((1.0 + extension).powi(2), (1.0 + breaks_at).powi(2));
    ((reach - thread).max(0.0) / (thread - 1.0)).sqrt()
}
