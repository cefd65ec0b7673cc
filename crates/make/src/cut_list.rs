//! The cut list: every piece of the suit by the cloth it is cut from, as a maker ticks it off at the table.
//!
//! Rows go by layer (shell, lining, mesh), then in the draft's cutting order, because one cloth is on the table at a time.
//!
//! **Limits.** A piece cut from a layer no cloth was chosen for stays in the list and says so: leaving it out would give a
//! suit without its crotch lining.

use cloth::{ClothPlan, Layer};
use draft::Draft;

use crate::plan::CutRow;

/// What to cut, one row for each piece and layer.
///
/// `draft`: the pieces; `cloth`: the cloths chosen for it, which give the names. Rows come in the order shell, lining, mesh;
/// within a layer in the draft's cutting order. A layer without a cloth is named `no lining chosen` and the like.
///
/// # Source
/// Common practice, no single source.
pub fn cut_list(draft: &Draft, cloth: &ClothPlan) -> Vec<CutRow> {
    let mut rows: Vec<CutRow> = draft
        .pieces
        .iter()
        .flat_map(|piece| {
            piece.cuts.iter().map(|cut| CutRow {
                layer: cut.layer,
                cloth: cloth_name(cloth, cut.layer),
                letter: piece.letter,
                piece: piece.name.clone(),
                count: cut.count,
                mirrored: cut.mirrored,
                orientation: cut.orientation,
            })
        })
        .collect();
    // Stable: within a layer the cutting order stays.
    rows.sort_by_key(|row| row.layer);
    rows
}

fn cloth_name(cloth: &ClothPlan, layer: Layer) -> String {
    let plan = match layer {
        Layer::Shell => Some(&cloth.shell),
        Layer::Lining => cloth.lining.as_ref(),
        Layer::Mesh => cloth.mesh.as_ref(),
        Layer::Contrast => cloth.contrast.as_ref().or(Some(&cloth.shell)),
    };
    plan.map_or_else(|| format!("no {} chosen", layer.name()), |p| p.cloth.clone())
}
