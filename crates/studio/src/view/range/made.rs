//! A drafted range with everything that is made of it: chart, nest, files, and what must be said beside them.
//!
//! The command line and the pages both show this value, so they cannot disagree.
//!
//! **Shapes and units.** mm inside; both units on paper and in files.

use cloth::ClothPlan;
use draft::Design;
use range::{BranchReport, GrowthReport, Nest, Range, SizeChart, SizeTable};
use sheet::nest::{NestRefusal, NestSheet, pdf, svg};
use sheet::{PieceForm, Roll};
use units::{Finding, LengthUnit, Mm, Progress, Severity};

use crate::order::cloth_of;
use crate::suit_file::{Faults, SuitFile};

/// What a range is drafted for.
#[derive(Clone, Debug)]
pub struct RangeOf {
    /// The suit whose cloth and design it has.
    pub suit: String,
    /// Its version, printed on the nest; empty while it has no wearer.
    pub version: String,
    /// Its cloths.
    pub cloth: ClothPlan,
    /// Its design.
    pub design: Design,
    /// The maker's unit, printed first.
    pub unit: LengthUnit,
}

impl RangeOf {
    /// Cloth and design of a suit file.
    ///
    /// # Errors
    /// [`Faults`] of its cloths.
    pub fn of_suit(suit: &SuitFile) -> Result<RangeOf, Faults> {
        Ok(RangeOf {
            suit: suit.name.clone(),
            version: crate::version::version_id(suit),
            cloth: cloth_of(suit).map_err(|faults| suit.faults(faults))?,
            design: suit.design.clone(),
            unit: suit.units,
        })
    }
}

/// A drafted range and all that follows from it.
#[derive(Clone, Debug)]
pub struct MadeRange {
    /// What it was drafted for.
    pub of: RangeOf,
    /// The sizes.
    pub range: Range,
    /// Their pieces over each other.
    pub nest: Nest,
    /// Their dimensions and finished measures.
    pub chart: SizeChart,
    /// How they grow.
    pub growth: GrowthReport,
    /// Where the draft went another way.
    pub branches: BranchReport,
}

/// A file of a range.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RangeFile {
    /// Its name.
    pub name: String,
    /// What it is for.
    pub what: &'static str,
    /// Its type.
    pub mime: &'static str,
    /// Its bytes.
    pub bytes: Vec<u8>,
    /// Pages of a PDF.
    pub pages: Option<usize>,
    /// Characters no font here has, a box stands for each.
    pub undrawn: String,
}

impl MadeRange {
    /// Drafts every size of a table.
    pub fn draft(of: RangeOf, table: &SizeTable, progress: &dyn Progress) -> MadeRange {
        let range = Range::draft(table, &of.cloth, &of.design, progress);
        MadeRange {
            nest: range.nest(),
            chart: range.chart(),
            growth: range.growth(),
            branches: range.branches(),
            range,
            of,
        }
    }

    /// What must be looked at in a size, each with the size it is of: the draft's own findings of this severity.
    pub fn findings(&self, severity: Severity) -> impl Iterator<Item = (&str, &Finding)> {
        self.range.drafted().flat_map(move |(name, size)| {
            let found = size.draft.findings.iter().chain(&size.body.findings);
            found
                .filter(move |f| f.severity == severity)
                .map(move |f| (name, f))
        })
    }

    /// What the nest is called on paper.
    pub fn title(&self) -> String {
        format!("{}, {}", self.of.suit, self.range.table.name)
    }

    /// Cloth, fit and version: one line.
    pub fn subtitle(&self) -> String {
        let version = match self.of.version.as_str() {
            "" => String::new(),
            version => format!(", version {version}"),
        };
        format!(
            "{}, {} fit{version}",
            self.of.cloth.shell.cloth,
            self.of.design.fit.key()
        )
    }

    /// What must be read beside the nest, a sentence each: provenance, refusals, branches, growth.
    pub fn notes(&self) -> Vec<String> {
        let mut notes = Vec::new();
        if !self.range.table.provenance.is_empty() {
            notes.push(self.range.table.provenance.clone());
        }
        notes.extend(
            self.nest
                .refused
                .iter()
                .map(|(size, why)| format!("Size {size} was not drafted: {why}.")),
        );
        notes.extend(
            self.findings(Severity::Stop)
                .map(|(size, f)| format!("Size {size}, stop, {}: {}.", f.place, f.message)),
        );
        notes.extend(self.growth.faults.iter().map(|f| format!("{}.", f.words())));
        notes
    }

    /// What stands beside each line of the legend: the table's leading dimension.
    fn size_notes(&self) -> Vec<String> {
        let leading = self.range.table.leading();
        let name = leading.iso_name(self.range.table.form);
        self.range
            .drafted()
            .map(|(_, size)| match size.body.mm(leading) {
                Some(mm) => {
                    let mm = Mm::new(mm);
                    format!("{name} {} ({})", mm.to_cm_text(), mm.to_inch_text())
                }
                None => String::new(),
            })
            .collect()
    }

    /// Every file: nested PDF, nested SVG of each sheet, size chart. Empty when no size was drafted.
    ///
    /// # Errors
    /// [`NestRefusal`] where the nest cannot be drawn on this paper.
    pub fn files(&self, roll: Roll, form: PieceForm) -> Result<Vec<RangeFile>, NestRefusal> {
        let (title, subtitle) = (self.title(), self.subtitle());
        let (size_notes, notes) = (self.size_notes(), self.notes());
        let nest = NestSheet {
            title: &title,
            subtitle: &subtitle,
            nest: &self.nest,
            size_notes: &size_notes,
            notes: &notes,
            form,
            roll,
        };
        let printed = pdf(&nest)?;
        let drawings = svg(&nest)?;
        let mut files = vec![RangeFile {
            name: "nest.pdf".into(),
            what: "all sizes, a layer a size",
            mime: "application/pdf",
            bytes: printed.bytes,
            pages: Some(printed.pages),
            undrawn: printed.undrawn.into_iter().collect(),
        }];
        let many = drawings.len() > 1;
        files.extend(drawings.into_iter().enumerate().map(|(i, drawing)| RangeFile {
            name: if many {
                format!("nest-{}.svg", i + 1)
            } else {
                "nest.svg".into()
            },
            what: "all sizes as a drawing, a group a size",
            mime: "image/svg+xml",
            bytes: drawing.into_bytes(),
            pages: None,
            undrawn: String::new(),
        }));
        files.push(RangeFile {
            name: "sizes.csv".into(),
            what: "size chart in cm and inches",
            mime: "text/csv; charset=utf-8",
            bytes: chart_csv(&self.chart).into_bytes(),
            pages: None,
            undrawn: String::new(),
        });
        Ok(files)
    }
}

/// The chart as CSV: a line a measure and unit, a column a size; estimated figures are named in the last column.
pub fn chart_csv(chart: &SizeChart) -> String {
    let mut out = String::new();
    let mut put = |cells: &[String]| {
        let cells: Vec<String> = cells.iter().map(|c| quoted(c)).collect();
        out.push_str(&cells.join(","));
        out.push_str("\r\n");
    };
    let mut head: Vec<String> = ["of", "measure", "unit"].map(str::to_owned).into();
    head.extend(chart.sizes.iter().cloned());
    head.push("estimated in".into());
    put(&head);
    for (of, rows) in [("body", &chart.body), ("finished, flat", &chart.finished)] {
        for row in rows {
            let estimated: Vec<&str> = chart
                .sizes
                .iter()
                .zip(&row.cells)
                .filter(|(_, c)| c.as_ref().is_some_and(|c| c.is_estimated))
                .map(|(size, _)| size.as_str())
                .collect();
            for unit in [LengthUnit::Cm, LengthUnit::In] {
                let mut line = vec![of.to_owned(), row.name.clone(), unit.symbol().to_owned()];
                line.extend(row.cells.iter().map(|cell| match (cell, unit) {
                    (None, _) => String::new(),
                    (Some(c), LengthUnit::In) => c.inches.trim_end_matches(" in").to_owned(),
                    (Some(c), _) => c.cm.trim_end_matches(" cm").to_owned(),
                }));
                line.push(estimated.join(" "));
                put(&line);
            }
        }
    }
    out
}

/// A cell as RFC 4180 wants it.
fn quoted(text: &str) -> String {
    if text.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use range::{ChartCell, ChartRow};

    use super::*;

    /// RFC 4180: a cell with a comma or a quote is quoted, quotes inside are doubled. 92 cm are 36.22 in.
    #[test]
    fn a_chart_as_csv_names_what_was_estimated() {
        let cell = |mm: f64, is_estimated| {
            let value = Mm::new(mm);
            Some(ChartCell {
                value,
                cm: value.to_cm_text(),
                inches: value.to_inch_text(),
                is_estimated,
                source: "",
            })
        };
        let chart = SizeChart {
            sizes: vec!["S, short".into(), "M".into()],
            provenance: String::new(),
            body: vec![ChartRow {
                name: "hip \"seat\"".into(),
                cells: vec![cell(920.0, true), None],
            }],
            finished: Vec::new(),
        };
        let csv = chart_csv(&chart);
        let lines: Vec<&str> = csv.split("\r\n").collect();
        assert_eq!(
            lines,
            [
                "of,measure,unit,\"S, short\",M,estimated in",
                "body,\"hip \"\"seat\"\"\",cm,92.0,,\"S, short\"",
                "body,\"hip \"\"seat\"\"\",in,36 1/4,,\"S, short\"",
                "",
            ]
        );
    }
}
