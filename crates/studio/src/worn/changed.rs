//! A design with what a finding or a correction proposes set in it.
//!
//! **Shapes and units.** Shares, or mm on the body or the piece, as the key says.

use cloth::{Fit, OwnFit};
use draft::{BackDepth, Design, LegHeight, NeckDepth};
use solve::Change;
use units::Mm;

/// Keys whose value is a length in mm; the others are shares.
pub(super) fn is_length(key: &str) -> bool {
    key.starts_with("figure.") || key == "strap_width"
}

/// Keys of the design section that exclude the given one: they go when it is set.
pub(crate) fn excluded(key: &str) -> &'static [&'static str] {
    match key {
        "fit_around" | "fit_lengthwise" => &["fit"],
        "leg_share" => &["leg", "side_seam_length"],
        "neck_depth" => &["neck_depth_below_pit"],
        "back_depth" => &["back_depth_below_nape"],
        _ => &[],
    }
}

/// The design with the changes set.
///
/// # Errors
/// In words, for a parameter that is not known here or a fit that can't be. What a draft refuses it says itself.
pub(super) fn changed(design: &Design, changes: &[Change]) -> Result<Design, String> {
    let mut design = design.clone();
    let (mut around, mut lengthwise) = (design.fit.around(), design.fit.lengthwise());
    let mut is_own_fit = false;
    for change in changes {
        let (to, mm) = (change.to, Mm::new(change.to));
        if !to.is_finite() {
            return Err(format!("{} = {to} is no number", change.key));
        }
        let figure = &mut design.figure;
        match change.key {
            "fit_around" => (around, is_own_fit) = (to, true),
            "fit_lengthwise" => (lengthwise, is_own_fit) = (to, true),
            "strap_position" => design.strap_position = Some(to),
            "strap_width" => design.strap_width = mm,
            "leg_share" => design.leg = LegHeight::Share(to),
            "neck_depth" => design.neck_depth = Some(NeckDepth::Share(to)),
            "back_depth" => design.back_depth = Some(BackDepth::Share(to)),
            "figure.sway_back" => figure.sway_back = mm,
            "figure.seat" => figure.seat = mm,
            "figure.abdomen" => figure.abdomen = mm,
            "figure.bust_height" => figure.bust_height = mm,
            "figure.belly" => figure.belly = mm,
            "figure.rise_length" => figure.rise_length = mm,
            "figure.shoulder_forward" => figure.shoulder_forward = mm,
            key => return Err(format!("{key} is not changed here: set it by hand")),
        }
    }
    if is_own_fit {
        let own = OwnFit::new(around, lengthwise)
            .map_err(|_| format!("a fit of {around} around and {lengthwise} lengthwise can't be"))?;
        design.fit = Fit::Own(own);
    }
    Ok(design)
}
