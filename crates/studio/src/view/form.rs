//! The computed body beside the numbers: section rings in space, the line of every tape, and how well it agrees.
//!
//! **Shapes and units.** mm to a tenth, which is finer than any screen and keeps the answer small: x her left, y up from the
//! crotch, z forward.
//! **Limits.** Those of the form: no arms, head or legs below mid thigh; symmetric; one posture.

use body::{Body, BodyForm, FittedForm, Ring, TorsoForm};
use range::{BuiltIn, SizeBody};
use units::{LengthUnit, Mm};

use super::told::capital;
use super::{FormView, ResidualView, RingView, TapeView, length};

/// Heights at which the form is cut, levels among them.
const RINGS: usize = 44;

/// The form of a body as it is drawn, lengths in her unit.
///
/// # Errors
/// In words, when the form is of another kind or the body has no shape it can take.
pub fn form_view(torso: &TorsoForm, body: &Body, unit: LengthUnit) -> Result<FormView, String> {
    let fitted = torso.fitted(body).map_err(|error| error.to_string())?;
    let levels: Vec<units::Level> = fitted.levels().into_iter().map(|(level, _)| level).collect();
    let rings: Vec<RingView> = fitted.rings(RINGS, &levels).iter().map(ring).collect();
    let heights = || rings.iter().map(|ring| ring.y);
    let tapes = body::Dimension::ALL
        .into_iter()
        .filter_map(|dimension| {
            let path = fitted.tape_path(dimension)?;
            Some(TapeView {
                key: dimension.key().to_owned(),
                closed: path.closed,
                points: path.points.iter().flatten().map(|v| tenth(*v)).collect(),
            })
        })
        .collect();
    let flat = rings.iter().flat_map(|ring| ring.points.chunks_exact(2));
    let reach = flat
        .filter_map(|p| Some(f64::from(*p.first()?).hypot(f64::from(*p.get(1)?))))
        .fold(0.0, f64::max);
    Ok(FormView {
        low: heights().fold(f64::INFINITY, f64::min),
        high: heights().fold(f64::NEG_INFINITY, f64::max),
        reach,
        tapes,
        residuals: residuals(&fitted, body, unit),
        says: says(&fitted),
        rings,
    })
}

/// A middling body of a sort: the size in the middle of the table that comes with the program.
///
/// # Errors
/// In words, should a table of this build not read or its middle size have no body.
pub fn middling_body(form: BodyForm) -> Result<Body, String> {
    let table = match form {
        BodyForm::Woman => BuiltIn::Women,
        BodyForm::Man => BuiltIn::Men,
        BodyForm::Child => BuiltIn::Children,
    };
    let table = table.table().map_err(|faults| faults.to_string())?;
    let row = table
        .rows()
        .get(table.rows().len() / 2)
        .ok_or("the table is empty")?;
    let size = SizeBody::of(row, &table).map_err(|refusal| refusal.to_string())?;
    Ok(size.body)
}

/// That body as it is drawn: where the tape goes, before hers can be computed. It agrees with nobody, so it says nothing of that.
///
/// # Errors
/// As [`form_view`].
pub fn middling_form_view(torso: &TorsoForm, body: &Body) -> Result<FormView, String> {
    Ok(FormView {
        residuals: Vec::new(),
        says: "A middling figure, to show where the tape goes. Hers is drawn as soon as the dimensions marked as needed are taken.".into(),
        ..form_view(torso, body, LengthUnit::Cm)?
    })
}

fn ring(ring: &Ring) -> RingView {
    RingView {
        level: ring.level.map(|level| level.name().to_owned()),
        y: f64::from(tenth(ring.y_mm)),
        points: ring
            .points
            .iter()
            .flat_map(|p| [tenth(p[0]), tenth(p[2])])
            .collect(),
    }
}

/// To a tenth of a millimetre.
fn tenth(mm: f64) -> f32 {
    ((mm * 10.0).round() / 10.0) as f32
}

/// One line a dimension the form was fitted to, the worst first.
pub(super) fn residuals(fitted: &FittedForm, body: &Body, unit: LengthUnit) -> Vec<ResidualView> {
    let mut fits: Vec<_> = fitted.measures().iter().collect();
    fits.sort_by(|a, b| {
        let size = |fit: &body::MeasureFit| fit.residual_closed_mm().abs();
        size(b).total_cmp(&size(a))
    });
    fits.into_iter()
        .map(|fit| {
            let name = capital(fit.dimension.iso_name(body.form));
            let mut left = length(Mm::new(fit.residual_closed_mm()), unit);
            if fit.residual_closed_mm() > 0.0 && !is_nothing(&left.main) {
                left.main.insert(0, '+');
            }
            ResidualView {
                name: if fit.taken {
                    name
                } else {
                    format!("{name}, estimated")
                },
                left,
            }
        })
        .collect()
}

fn is_nothing(text: &str) -> bool {
    text.chars().all(|c| c == '0' || c == '.')
}

fn says(fitted: &FittedForm) -> String {
    let plain =
        "A mean body shaped to her dimensions, not a scan of her: its girths are hers, its posture is not.";
    if fitted.unusual().is_empty() {
        plain.to_owned()
    } else {
        format!(
            "{plain} Her shape lies outside the bodies it was made from: trust the numbers before the drawing."
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::view::examples::{example, names};

    fn seen(name: &str) -> (FormView, Body) {
        let (body, _) = example(name).body.unwrap();
        let torso = TorsoForm::of(body.form).unwrap();
        (form_view(&torso, &body, LengthUnit::Cm).unwrap(), body)
    }

    /// Length of a closed line of x, z pairs, mm.
    fn round(points: &[f32]) -> f64 {
        let spots: Vec<&[f32]> = points.chunks_exact(2).collect();
        let ends = spots.iter().zip(spots.iter().cycle().skip(1));
        ends.map(|(a, b)| f64::from((a[0] - b[0]).hypot(a[1] - b[1])))
            .sum()
    }

    /// The tape lies on the hull of a section, so a ring is never shorter than its girth by more than its own chords lose.
    #[test]
    fn the_ring_at_the_waist_is_her_waist() {
        let (view, body) = seen("maren-one-piece");
        let waist = view
            .rings
            .iter()
            .find(|r| r.level.as_deref() == Some("waist"))
            .unwrap();
        let girth = body.mm(body::Dimension::WaistGirth).unwrap();
        assert!(
            (round(&waist.points) - girth).abs() < 8.0,
            "{} {girth}",
            round(&waist.points)
        );
        let tape = view.tapes.iter().find(|t| t.key == "waist_girth").unwrap();
        assert!(tape.closed && tape.points.len() % 3 == 0 && tape.points.len() > 30);
    }

    #[test]
    fn every_wearer_has_a_form_small_enough_to_send() {
        for name in names() {
            let (view, _) = seen(&name);
            assert!(
                view.low < -20.0 && view.high > 250.0 && view.reach > 100.0,
                "{name}"
            );
            assert!(view.rings.len() > RINGS && view.tapes.len() > 8, "{name}");
            let size = serde_json::to_string(&view).unwrap().len();
            println!(
                "{name}: {size} bytes, {} rings, {} tapes",
                view.rings.len(),
                view.tapes.len()
            );
            assert!(size < 120_000, "{name}: {size}");
        }
    }

    #[test]
    fn residuals_come_worst_first_and_signed() {
        let (view, _) = seen("maren-one-piece");
        let sizes: Vec<f64> = view
            .residuals
            .iter()
            .map(|r| r.left.main.trim_start_matches('+').parse::<f64>().unwrap().abs())
            .collect();
        assert!(sizes.windows(2).all(|w| w[0] >= w[1]), "{sizes:?}");
        assert!(view.residuals.iter().any(|r| r.name == "Waist girth"));
    }
}
