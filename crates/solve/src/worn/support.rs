//! What the suit can carry at the bust: the pull in the straps and round the ribs under it, and how hard it lies on there.
//!
//! Pulls are read off a cut: what the cloth and elastic on one side of a plane pull on the other side with.
//!
//! **Shapes and units.** N of one side, kPa.
//! **Limits.** The bust is as rigid as the rest: nothing sinks, nothing moves.

use body::FittedForm;
use draft::OpenKind;
use units::Level;

use super::WornSupport;
use crate::outcome::Solved;
use crate::reading::{pull_across, voronoi_areas};
use crate::suit::SuitMesh;

/// Half the height of the band under the bust, mm.
const BAND_MM: f64 = 20.0;

pub(super) fn worn_support(suit: &SuitMesh, form: &FittedForm, solved: &Solved) -> Option<WornSupport> {
    if form.form() != body::BodyForm::Woman {
        return None;
    }
    let x = &solved.positions;
    let (bust, under) = (
        form.level_height(Level::Bust),
        form.level_height(Level::Underbust),
    );
    // Of a whole suit the left side.
    let is_side = |p: [f64; 3]| !suit.is_whole || p[0] >= 0.0;
    let is_in_band = |p: [f64; 3]| (p[1] - under).abs() <= BAND_MM && p[2] > 0.0;
    let is_band = |v: usize| is_in_band(x[v]) && is_side(x[v]);
    let areas = voronoi_areas(&suit.mesh, x);
    let (mut force, mut area, mut pull) = (0.0, 0.0, 0.0);
    for v in (0..x.len()).filter(|v| is_band(*v)) {
        force += solved.contact_n[v];
        area += areas[v];
        // The other half holds the middle with this.
        pull += solved.reactions_n[v][0].abs();
    }
    if area <= 0.0 {
        return None;
    }
    if suit.is_whole {
        pull = pull_across(&suit.mesh, x, &|p| p[0] > 0.0, &is_in_band);
    }
    let middle = suit
        .shoulder
        .get(suit.shoulder.len() / 2)
        .filter(|_| !suit.has_sleeves())
        .map(|v| x[*v]);
    let strap_n = middle.map(|top| {
        let height = f64::midpoint(bust, top[1]);
        pull_across(&suit.mesh, x, &|p| p[1] > height, &|p| {
            p[2] > top[2] && is_side(p)
        })
    });
    // A band that ends at an edge of its own has its elastic in it.
    let has_band = suit.open_lines.iter().any(|l| l.kind == OpenKind::Underbust);
    Some(WornSupport {
        strap_n,
        band_n: pull,
        pressure_kpa: 1e3 * force / area,
        band_force_n: force,
        has_band,
    })
}
