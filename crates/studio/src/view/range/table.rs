//! Which size table: one that comes with the program, or the maker's own.

use body::{BodyForm, Dimension, WaistLevel};
use range::{BuiltIn, SizeTable, TableFaults, TableNotes, read_table};
use units::{LengthUnit, Mm};

/// A table as it is asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum TableSource<'a> {
    /// One that comes with the program.
    BuiltIn(BuiltIn),
    /// The maker's own, as CSV.
    Own {
        /// The file.
        bytes: &'a [u8],
        /// What it is called.
        name: &'a str,
        /// Whose bodies.
        form: BodyForm,
        /// The level of its waist figures.
        waist_level: WaistLevel,
        /// Unit of bare numbers where the file does not say.
        unit: Option<LengthUnit>,
    },
}

/// Reads the table, gives sizes without a stature this one, and keeps only the sizes named (all, when none is).
///
/// # Errors
/// [`TableFaults`] of the file, or of a size it does not have.
pub fn table_of(
    source: &TableSource<'_>,
    stature: Option<Mm>,
    only: &[&str],
) -> Result<SizeTable, TableFaults> {
    let mut table = match source {
        TableSource::BuiltIn(built_in) => built_in.table()?,
        TableSource::Own {
            bytes,
            name,
            form,
            waist_level,
            unit,
        } => {
            let notes = TableNotes {
                name: (*name).to_owned(),
                form: *form,
                waist_level: *waist_level,
                unit: *unit,
                provenance: "The maker's own table.".into(),
            };
            read_table(bytes, &notes)?
        }
    };
    if let Some(stature) = stature {
        table = table.with_same(Dimension::Stature, stature);
    }
    if only.is_empty() {
        Ok(table)
    } else {
        table.select(only)
    }
}
