//! A size table: for every size the dimensions it stands for, and where the numbers come from.
//!
//! A size is a body, drafted like any other; the table is only a list of such bodies. Provenance stays with it, because
//! half of what designation tables say is from memory and a maker must see which half.
//!
//! **Shapes and units.** mm. Rows in the order of the file; where sizes are compared, a row is compared with the next one.

use std::collections::BTreeMap;

use body::{BodyForm, Dimension, Dimensions, WaistLevel};
use serde::Serialize;
use units::Mm;

use crate::fault::{TableFault, TableFaults};

/// How far a figure of a table may be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// A published source; the passage was read.
    Source,
    /// Derived from a published source; the row says how.
    Derived,
    /// Common practice, no single source.
    Practice,
    /// From memory: check before quoting.
    Memory,
    /// The maker's own table.
    Own,
}

impl Grade {
    /// What paper says of it.
    pub const fn words(self) -> &'static str {
        match self {
            Grade::Source => "published source",
            Grade::Derived => "derived from a published source",
            Grade::Practice => "common practice, no single source",
            Grade::Memory => "value from memory",
            Grade::Own => "the maker's own table",
        }
    }
}

/// One figure of a row.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Figure {
    /// The dimension's length.
    pub value: Mm,
    /// How far to trust it.
    pub grade: Grade,
}

/// The interval of a body dimension a size is meant for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Interval {
    /// Of which dimension.
    pub dimension: Dimension,
    /// From.
    pub low: Mm,
    /// To, not included.
    pub high: Mm,
    /// How far to trust the limits.
    pub grade: Grade,
}

/// One size: a row of a table.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SizeRow {
    /// What the size is called: `40`, `M`, `122`. Unique in its table.
    pub name: String,
    /// Anything beside it: a letter code, an age.
    pub note: String,
    /// Where its figures come from, in words; empty for a maker's own table.
    pub provenance: String,
    /// The interval it is meant for, where the table says.
    pub interval: Option<Interval>,
    /// Line of the file it stands on, from 1.
    pub line: u64,
    figures: BTreeMap<Dimension, Figure>,
}

impl SizeRow {
    /// A row with figures of one grade.
    pub fn new(name: impl Into<String>, dimensions: &Dimensions, grade: Grade) -> SizeRow {
        SizeRow {
            name: name.into(),
            note: String::new(),
            provenance: String::new(),
            interval: None,
            line: 0,
            figures: dimensions
                .iter()
                .map(|(d, value)| (d, Figure { value, grade }))
                .collect(),
        }
    }

    /// The figure of a dimension, if the row has it.
    pub fn figure(&self, dimension: Dimension) -> Option<Figure> {
        self.figures.get(&dimension).copied()
    }

    /// Its figures in the order dimensions are taken.
    pub fn figures(&self) -> impl Iterator<Item = (Dimension, Figure)> + '_ {
        self.figures.iter().map(|(d, f)| (*d, *f))
    }

    /// Its lengths alone.
    pub fn dimensions(&self) -> Dimensions {
        let mut all = Dimensions::default();
        for (dimension, figure) in &self.figures {
            all.set(*dimension, figure.value);
        }
        all
    }

    pub(crate) fn set(&mut self, dimension: Dimension, figure: Figure) {
        self.figures.insert(dimension, figure);
    }
}

/// A table of sizes for one form of body.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SizeTable {
    /// What it is called: `women, by bust`.
    pub name: String,
    /// Whose bodies.
    pub form: BodyForm,
    /// The level its waist figures mean.
    pub waist_level: WaistLevel,
    /// What it is, where it comes from and what it leaves out: to be shown wherever the table is chosen.
    pub provenance: String,
    pub(crate) rows: Vec<SizeRow>,
}

impl SizeTable {
    /// Its rows.
    pub fn rows(&self) -> &[SizeRow] {
        &self.rows
    }

    /// The row of that name.
    pub fn row(&self, name: &str) -> Option<&SizeRow> {
        self.rows.iter().find(|r| r.name == name)
    }

    /// Dimensions at least one row has, in the order they are taken.
    pub fn dimensions(&self) -> Vec<Dimension> {
        Dimension::ALL
            .into_iter()
            .filter(|d| self.rows.iter().any(|r| r.figure(*d).is_some()))
            .collect()
    }

    /// The table with only these sizes, in the order of the table.
    ///
    /// # Errors
    /// [`TableFaults`] with one fault for every name the table does not have, or if nothing is asked for.
    pub fn select(&self, names: &[&str]) -> Result<SizeTable, TableFaults> {
        let known: Vec<&str> = self.rows.iter().map(|r| r.name.as_str()).collect();
        let mut faults: Vec<TableFault> = names
            .iter()
            .filter(|n| !known.contains(*n))
            .map(|n| {
                TableFault::file(format!(
                    "there is no size `{n}` here; sizes are {}",
                    known.join(", ")
                ))
            })
            .collect();
        if names.is_empty() {
            faults.push(TableFault::file(format!(
                "no size is asked for; choose of {}",
                known.join(", ")
            )));
        }
        if !faults.is_empty() {
            return Err(TableFaults { faults });
        }
        Ok(SizeTable {
            rows: self
                .rows
                .iter()
                .filter(|r| names.contains(&r.name.as_str()))
                .cloned()
                .collect(),
            ..self.clone()
        })
    }

    /// The table with other rows: sizes of one's own under its form and waist level.
    pub fn with_rows(&self, rows: Vec<SizeRow>) -> SizeTable {
        SizeTable { rows, ..self.clone() }
    }

    /// The table with one length for a dimension in every size that lacks it: a maker's "all for 168 cm".
    ///
    /// Stature, above all: a designation table by girths says nothing of it, and lengths hang on it.
    pub fn with_same(&self, dimension: Dimension, value: Mm) -> SizeTable {
        let mut table = self.clone();
        for row in &mut table.rows {
            if row.figure(dimension).is_none() {
                row.set(
                    dimension,
                    Figure {
                        value,
                        grade: Grade::Own,
                    },
                );
            }
        }
        table
    }

    /// The girth or length sizes of this table go by: stature for children, bust (chest) for others.
    pub const fn leading(&self) -> Dimension {
        match self.form {
            BodyForm::Child => Dimension::Stature,
            BodyForm::Woman | BodyForm::Man => Dimension::BustGirth,
        }
    }
}
