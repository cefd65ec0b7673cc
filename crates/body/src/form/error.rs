//! Why a form could not be read, or cannot stand for a body.

use thiserror::Error;

use crate::dimension::BodyForm;

/// A fault of the form's data, or a question the form cannot answer.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum FormError {
    /// The header is not the JSON this reader knows.
    #[error("form header: {what}; use a header of format torso-form-1")]
    Header {
        /// What the reader stumbled over.
        what: String,
    },
    /// The header has no form for this kind of body.
    #[error("form header: no form `{key}`; add it, or use a header that has it")]
    NoForm {
        /// The name looked for.
        key: &'static str,
    },
    /// The header lacks a landmark, or it has another count of vertices.
    #[error("form header, landmark `{name}`: {found} vertices, needed {needed}")]
    Landmark {
        /// Its name.
        name: &'static str,
        /// How many it has.
        found: usize,
        /// How many it must have.
        needed: usize,
    },
    /// A table is longer or shorter than the header says.
    #[error(
        "form {what}: {found} bytes, needed {needed}; the file is cut short or belongs to another header"
    )]
    Length {
        /// Which table.
        what: &'static str,
        /// Bytes found.
        found: usize,
        /// Bytes needed.
        needed: usize,
    },
    /// A vertex index beyond the last vertex.
    #[error("form {what}: vertex {index} of {count}; the file belongs to another header")]
    Vertex {
        /// Where it stands.
        what: &'static str,
        /// The index.
        index: usize,
        /// How many vertices there are.
        count: usize,
    },
    /// A coordinate or scale that is NaN or infinite.
    #[error("form {what}: entry {index} is not a number; fetch the file again")]
    NotANumber {
        /// Which table.
        what: &'static str,
        /// Place in it.
        index: usize,
    },
    /// An edge shared by more than two triangles, or a midline too short to measure along.
    #[error("form {what}: not a surface that can be measured; the file belongs to another header")]
    Surface {
        /// Where.
        what: &'static str,
    },
    /// A body of one kind was asked of the form of another.
    #[error("the form of {form} cannot be fitted to the body of {body}; read the form of {body}", form = .form.person(), body = .body.person())]
    OtherForm {
        /// The form's kind.
        form: BodyForm,
        /// The body's kind.
        body: BodyForm,
    },
    /// A target that is not a positive number, or whose spread is not.
    #[error("fit target {measure}: {what}; leave it out or give a positive number")]
    Target {
        /// The measure's name.
        measure: &'static str,
        /// What is wrong.
        what: &'static str,
    },
}
