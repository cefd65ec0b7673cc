//! Reads a list of wearers from CSV: a person a line, a column a dimension, as a size table is written.
//!
//! **Shapes and units.** Text in, mm out; nothing is guessed, see [`read_table`](crate::read_table).
//! **Limits.** All of one form of body; whatever was taken of each is read, cells may be empty.

use body::{BodyForm, FrontTaken, WaistLevel, Wearer};
use units::LengthUnit;

use crate::fault::TableFaults;
use crate::read::{RowOf, lines};

/// What is said of the people beside the file.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PeopleNotes {
    /// Their form of body.
    pub form: BodyForm,
    /// The level their waists were taken at.
    pub waist_level: WaistLevel,
    /// The unit of bare numbers, if the file does not say.
    pub unit: Option<LengthUnit>,
}

/// Reads the people of a list, in its order.
///
/// # Errors
/// [`TableFaults`] with every fault of the file, as [`read_table`](crate::read_table) has them; but no dimension is needed.
///
/// # Example
/// ```
/// use body::{BodyForm, Dimension, WaistLevel};
/// use range::{PeopleNotes, read_people};
/// let notes = PeopleNotes { form: BodyForm::Woman, waist_level: WaistLevel::Natural, unit: None };
/// let people = read_people(b"name,bust_cm,hip_cm\nAda,88,96\nBo,,101\n", &notes).expect("a good list");
/// assert_eq!(people[1].name, "Bo");
/// assert_eq!(people[1].taken.get(Dimension::BustGirth), None);
/// ```
pub fn read_people(bytes: &[u8], notes: &PeopleNotes) -> Result<Vec<Wearer>, TableFaults> {
    let lines = lines(bytes, RowOf::Person, notes.form, notes.unit)?;
    Ok(lines
        .into_iter()
        .map(|row| Wearer {
            taken: row.dimensions(),
            name: row.name,
            form: notes.form,
            age_years: None,
            mass_kg: None,
            waist_level: notes.waist_level,
            front_taken: FrontTaken::OverBustPoint,
            trust: None,
        })
        .collect())
}
