//! The torso form as data: a mean body and 24 ways to differ from it, read from the files in `data/body`.
//!
//! `X = mean + sum c[k] component[k]`; `c` has zero mean and unit spread over the bodies the form was made from, so
//! `sum c^2` says how unusual a shape is. The components are scaled once when read, so that a shape is 24 additions.
//!
//! **Shapes and units.** Vertices `[x, y, z]` in mm: x = wearer's left, y up with 0 at the crotch, z forward.
//! **Source.** `data/body/form*`, derived from CC0 assets; see NOTICE.md.
//! **Limits.** Symmetric, one posture, no arms or head. Not a population: use the survey for statistics.

use std::sync::Arc;

use super::error::FormError;
use super::surface::{Header, Surface};
use crate::dimension::BodyForm;

const HEADER: &str = include_str!("../../../../data/body/form.json");
const FACES: &[u8] = include_bytes!("../../../../data/body/form_faces.u16");
const WOMAN: &[u8] = include_bytes!("../../../../data/body/form_female.bin");
const MAN: &[u8] = include_bytes!("../../../../data/body/form_male.bin");
const CHILD: &[u8] = include_bytes!("../../../../data/body/form_child.bin");

/// The form of a woman, a man or a child, before it is fitted to anybody.
///
/// Reading takes a few milliseconds: read one per kind of body and keep it.
#[derive(Clone, Debug, PartialEq)]
pub struct TorsoForm {
    form: BodyForm,
    pub(crate) mean: Vec<[f64; 3]>,
    pub(crate) components: Vec<Vec<[f64; 3]>>,
    pub(crate) surface: Arc<Surface>,
}

impl TorsoForm {
    /// Reads the embedded form of a kind of body.
    ///
    /// # Errors
    /// None with the files this crate was tested with; those of [`read`](Self::read) otherwise.
    pub fn of(form: BodyForm) -> Result<TorsoForm, FormError> {
        let table = match form {
            BodyForm::Woman => WOMAN,
            BodyForm::Man => MAN,
            BodyForm::Child => CHILD,
        };
        TorsoForm::read(form, HEADER, FACES, table)
    }

    /// Reads a form from its header, its faces (3 x u16 a triangle) and its table (mean as f32, then components as
    /// i16), all little-endian.
    ///
    /// # Errors
    /// [`FormError::Header`] and [`FormError::NoForm`] for a header that is not one; [`FormError::Length`] for a table
    /// of another size; [`FormError::Vertex`], [`FormError::Landmark`], [`FormError::NotANumber`] and
    /// [`FormError::Surface`] for contents that cannot be.
    pub fn read(form: BodyForm, header: &str, faces: &[u8], table: &[u8]) -> Result<TorsoForm, FormError> {
        let header = Header::read(header)?;
        let key = match form {
            BodyForm::Woman => "female",
            BodyForm::Man => "male",
            BodyForm::Child => "child",
        };
        let scale = &header.forms.get(key).ok_or(FormError::NoForm { key })?.scale;
        if scale.len() != header.component_count {
            let what = format!("{} scales for {} components", scale.len(), header.component_count);
            return Err(FormError::Header { what });
        }
        if let Some(index) = scale.iter().position(|s| !s.is_finite()) {
            return Err(FormError::NotANumber { what: "scale", index });
        }
        let surface = Surface::read(&header, faces)?;
        let numbers = header.vertex_count.saturating_mul(3);
        let needed = numbers.saturating_mul(4 + 2 * header.component_count);
        if table.len() != needed {
            return Err(FormError::Length {
                what: "table",
                found: table.len(),
                needed,
            });
        }
        let (mean_bytes, component_bytes) = table.split_at(numbers * 4);
        let mean: Vec<f64> = mean_bytes
            .as_chunks::<4>()
            .0
            .iter()
            .map(|b| f64::from(f32::from_le_bytes(*b)))
            .collect();
        if let Some(index) = mean.iter().position(|x| !x.is_finite()) {
            return Err(FormError::NotANumber { what: "mean", index });
        }
        let q: Vec<f64> = component_bytes
            .as_chunks::<2>()
            .0
            .iter()
            .map(|b| f64::from(i16::from_le_bytes(*b)))
            .collect();
        let components = q
            .chunks_exact(numbers.max(1))
            .zip(scale)
            .map(|(q, s)| q.as_chunks::<3>().0.iter().map(|p| p.map(|x| x * s)).collect())
            .collect();
        Ok(TorsoForm {
            form,
            mean: mean.as_chunks::<3>().0.to_vec(),
            components,
            surface: Arc::new(surface),
        })
    }

    /// Whose form this is.
    pub fn form(&self) -> BodyForm {
        self.form
    }

    /// How many coefficients a shape has.
    pub fn coefficient_count(&self) -> usize {
        self.components.len()
    }

    /// The vertices of a shape. Coefficients beyond the last are ignored, missing ones are 0.
    pub fn shape(&self, coefficients: &[f64]) -> Vec<[f64; 3]> {
        let mut vertices = self.mean.clone();
        for (c, component) in coefficients.iter().zip(&self.components) {
            add(&mut vertices, *c, component);
        }
        vertices
    }
}

/// Adds `c` times a component to vertices.
pub(crate) fn add(vertices: &mut [[f64; 3]], c: f64, component: &[[f64; 3]]) {
    for (p, d) in vertices.iter_mut().zip(component) {
        p[0] += c * d[0];
        p[1] += c * d[1];
        p[2] += c * d[2];
    }
}
