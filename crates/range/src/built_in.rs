//! The designation tables that come with the program: women, men, children, with what is printed, derived or remembered.
//!
//! **Source.** `data/sizes`, after EN 13402-2 and -3 (size designation of clothes) as far as it could be read: every row says
//! which of its figures were read, which follow from a printed step and which are from memory.
//! **Limits.** For labels and as a start. Nobody has the body of a table; a suit for one wearer is drafted from her own
//! dimensions.

use body::{BodyForm, Dimension, WaistLevel};
use csv::StringRecord;
use units::Mm;

use crate::fault::{TableFault, TableFaults};
use crate::read::{RowOf, records};
use crate::table::{Figure, Grade, Interval, SizeRow, SizeTable};

const WOMEN: &str = include_str!("../../../data/sizes/sizes_women.csv");
const MEN: &str = include_str!("../../../data/sizes/sizes_men.csv");
const CHILDREN: &str = include_str!("../../../data/sizes/sizes_children.csv");

/// Children shorter than this are left out: the table has neither waist nor hip for them.
const LEAST_CHILD_CM: f64 = 86.0;

/// A table that comes with the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum BuiltIn {
    /// Women by bust girth, 76 to 128 cm.
    Women,
    /// Men by chest girth, 84 to 144 cm.
    Men,
    /// Children by stature, 86 to 164 cm.
    Children,
}

impl BuiltIn {
    /// All of them.
    pub const ALL: [BuiltIn; 3] = [BuiltIn::Women, BuiltIn::Men, BuiltIn::Children];

    /// The word for it in files and on the command line.
    pub const fn key(self) -> &'static str {
        match self {
            BuiltIn::Women => "women",
            BuiltIn::Men => "men",
            BuiltIn::Children => "children",
        }
    }

    /// The table of that word.
    pub fn from_key(key: &str) -> Option<BuiltIn> {
        BuiltIn::ALL.into_iter().find(|b| b.key() == key)
    }

    /// The table.
    ///
    /// # Errors
    /// Never with the files of this build; [`TableFaults`] says where one does not read, rather than leaving a size out.
    pub fn table(self) -> Result<SizeTable, TableFaults> {
        match self {
            BuiltIn::Women => women(),
            BuiltIn::Men => men(),
            BuiltIn::Children => children(),
        }
    }
}

fn women() -> Result<SizeTable, TableFaults> {
    let rows = Rows::read(WOMEN)?.each(|row| {
        let bust = row.cm("bust_cm")?;
        let rest = grade(row.text("grade_rest")?);
        let class = grade(row.text("grade_bust")?);
        let mut size = row.size(&row.text("bust_cm")?)?;
        size.note = row.text("letter")?;
        size.set(
            Dimension::BustGirth,
            Figure {
                value: bust,
                grade: class,
            },
        );
        size.set(
            Dimension::WaistGirth,
            Figure {
                value: row.cm("waist_cm")?,
                grade: rest,
            },
        );
        size.set(
            Dimension::HipGirth,
            Figure {
                value: row.cm("hip_cm")?,
                grade: rest,
            },
        );
        size.interval = Some(Interval {
            dimension: Dimension::BustGirth,
            low: row.cm("class_low")?,
            high: row.cm("class_high")?,
            grade: class,
        });
        Some(size)
    })?;
    Ok(SizeTable {
        name: "women, by bust girth".into(),
        form: BodyForm::Woman,
        waist_level: WaistLevel::Natural,
        provenance: "Women by bust girth after EN 13402-3: the limits of the bust classes were read in a published source; \
                     waist and hip follow from one printed example (88-72-96) and the printed steps; letters are from memory. \
                     It says nothing of stature or lengths: give one stature for all sizes, or they are estimated."
            .into(),
        rows,
    })
}

fn men() -> Result<SizeTable, TableFaults> {
    let rows = Rows::read(MEN)?.each(|row| {
        let printed = grade(row.text("grade")?);
        let mut size = row.size(&row.text("chest_cm")?)?;
        size.note = row.text("letter")?;
        size.set(
            Dimension::BustGirth,
            Figure {
                value: row.cm("chest_cm")?,
                grade: printed,
            },
        );
        size.set(
            Dimension::WaistGirth,
            Figure {
                value: row.cm("waist_cm")?,
                grade: Grade::Memory,
            },
        );
        Some(size)
    })?;
    Ok(SizeTable {
        name: "men, by chest girth".into(),
        form: BodyForm::Man,
        waist_level: WaistLevel::Natural,
        provenance: "Men by chest girth after EN 13402-3: steps of 4 cm and the bands of the letters S to XXL were read in a \
                     published source; waists and the other letters are from memory. It has no hip: the hip is estimated from \
                     the chest, and that is coarse (4 cm). It says nothing of stature or lengths."
            .into(),
        rows,
    })
}

fn children() -> Result<SizeTable, TableFaults> {
    let rows = Rows::read(CHILDREN)?.each(|row| {
        let stature = row.cm("stature_cm")?;
        let mut size = row.size(&row.text("stature_cm")?)?;
        let age = row.text("age_about")?;
        // A bare number is a year, a range carries its own unit.
        size.note = if age.bytes().all(|b| b.is_ascii_digit()) {
            format!("about {age} years")
        } else {
            format!("about {}", age.replace(" m", " months"))
        };
        let graded = grade(row.text("grade")?);
        size.set(
            Dimension::Stature,
            Figure {
                value: stature,
                grade: graded,
            },
        );
        if stature.to_cm() < LEAST_CHILD_CM {
            return Some(size);
        }
        for (dimension, column) in [
            (Dimension::BustGirth, "chest_cm"),
            (Dimension::WaistGirth, "waist_cm"),
            (Dimension::HipGirth, "hip_cm"),
        ] {
            size.set(
                dimension,
                Figure {
                    value: row.cm(column)?,
                    grade: graded,
                },
            );
        }
        Some(size)
    })?;
    Ok(SizeTable {
        name: "children, by stature".into(),
        form: BodyForm::Child,
        waist_level: WaistLevel::Natural,
        provenance: "Children by stature in steps of 6 cm after EN 13402-3; girths are from memory of European trade tables, \
                     low confidence: measure the child. From 86 cm; shorter children are left out, because the table has \
                     neither waist nor hip for them. Other lengths come from the child form and are marked as estimated."
            .into(),
        rows: rows
            .into_iter()
            .filter(|r| r.figure(Dimension::HipGirth).is_some())
            .collect(),
    })
}

/// The worst letter of a grade such as `S+M`, but for the figure the table says was read.
fn grade(letters: String) -> Grade {
    match letters.as_str() {
        "S" | "S+M" => Grade::Source,
        "D" | "D+M" => Grade::Derived,
        "P" => Grade::Practice,
        _ => Grade::Memory,
    }
}

/// A file of ours with its head.
struct Rows {
    head: StringRecord,
    records: Vec<(u64, StringRecord)>,
}

struct Row<'a> {
    head: &'a StringRecord,
    line: u64,
    record: &'a StringRecord,
}

impl Rows {
    fn read(text: &str) -> Result<Rows, TableFaults> {
        let mut faults = Vec::new();
        match records(text.as_bytes(), RowOf::Size, &mut faults) {
            Some((mut all, _)) if !all.is_empty() => {
                let (_, head) = all.remove(0);
                Ok(Rows { head, records: all })
            }
            _ => Err(TableFaults { faults }),
        }
    }

    fn each(&self, one: impl Fn(&Row<'_>) -> Option<SizeRow>) -> Result<Vec<SizeRow>, TableFaults> {
        let mut faults = Vec::new();
        let mut rows = Vec::with_capacity(self.records.len());
        for (line, record) in &self.records {
            let row = Row {
                head: &self.head,
                line: *line,
                record,
            };
            match one(&row) {
                Some(row) => rows.push(row),
                None => faults.push(TableFault::line(
                    *line,
                    "a cell of this built-in table does not read",
                )),
            }
        }
        if faults.is_empty() {
            Ok(rows)
        } else {
            Err(TableFaults { faults })
        }
    }
}

impl Row<'_> {
    fn text(&self, column: &str) -> Option<String> {
        let at = self.head.iter().position(|h| h == column)?;
        self.record.get(at).map(str::to_owned)
    }

    fn cm(&self, column: &str) -> Option<Mm> {
        Mm::checked(self.text(column)?.parse::<f64>().ok()? * 10.0)
    }

    fn size(&self, name: &str) -> Option<SizeRow> {
        let mut size = SizeRow::new(name, &body::Dimensions::default(), Grade::Memory);
        size.line = self.line;
        size.provenance = self.text("src")?;
        Some(size)
    }
}
