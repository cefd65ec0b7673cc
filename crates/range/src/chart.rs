//! The size chart: the body every size is cut for, and what the finished suit measures, in centimetres and inches.
//!
//! **Shapes and units.** mm inside; texts in cm to a tenth and inches to an eighth, at the edge only.

use std::fmt::Write as _;

use body::Dimension;
use serde::Serialize;
use units::{LengthUnit, Mm};

use crate::sizes::Range;

/// One cell of a chart.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChartCell {
    /// The length.
    pub value: Mm,
    /// `92.0 cm`.
    pub cm: String,
    /// `36 1/4 in`.
    pub inches: String,
    /// Whether it was estimated and does not stand in the table.
    pub is_estimated: bool,
    /// Where it comes from, in a few words.
    pub source: &'static str,
}

/// One line of a chart: a dimension or a finished measure over the sizes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChartRow {
    /// Its name.
    pub name: String,
    /// One for every size of the chart; `None` where the size has none.
    pub cells: Vec<Option<ChartCell>>,
}

/// The chart of a range.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SizeChart {
    /// The drafted sizes.
    pub sizes: Vec<String>,
    /// Where the table comes from.
    pub provenance: String,
    /// Body dimensions, in the order they are taken.
    pub body: Vec<ChartRow>,
    /// Finished measures, flat and unstretched.
    pub finished: Vec<ChartRow>,
}

fn cell(value: Mm, is_estimated: bool, source: &'static str) -> ChartCell {
    ChartCell {
        value,
        cm: value.to_cm_text(),
        inches: value.to_inch_text(),
        is_estimated,
        source,
    }
}

impl Range {
    /// The chart of all drafted sizes.
    pub fn chart(&self) -> SizeChart {
        use crate::size_body::SizeSource;
        let drafted: Vec<_> = self.drafted().collect();
        let body = Dimension::ALL
            .into_iter()
            .filter_map(|dimension| {
                let cells: Vec<Option<ChartCell>> = drafted
                    .iter()
                    .map(|(_, size)| {
                        let known = size.body.body.get(dimension)?;
                        let source = size.body.source(dimension)?;
                        Some(cell(
                            known.value,
                            source.is_estimated(),
                            match source {
                                SizeSource::Table { grade } => grade.words(),
                                SizeSource::Estimated { rule, .. } => rule,
                            },
                        ))
                    })
                    .collect();
                cells.iter().any(Option::is_some).then(|| ChartRow {
                    name: dimension.iso_name(self.table.form).to_owned(),
                    cells,
                })
            })
            .collect();
        let mut names: Vec<&str> = Vec::new();
        for measure in drafted.iter().flat_map(|(_, size)| &size.draft.finished) {
            if !names.contains(&measure.name.as_str()) {
                names.push(&measure.name);
            }
        }
        let finished = names
            .into_iter()
            .map(|name| ChartRow {
                name: name.to_owned(),
                cells: drafted
                    .iter()
                    .map(|(_, size)| {
                        let measure = size.draft.finished.iter().find(|m| m.name == name)?;
                        Some(cell(Mm::new(measure.value_mm), false, "the draft"))
                    })
                    .collect(),
            })
            .collect();
        SizeChart {
            sizes: drafted.iter().map(|(name, _)| (*name).to_owned()).collect(),
            provenance: self.table.provenance.clone(),
            body,
            finished,
        }
    }
}

impl SizeChart {
    /// The chart as text in one unit, columns in line; estimated figures in brackets.
    pub fn to_text(&self, unit: LengthUnit) -> String {
        let shown = |c: &ChartCell| {
            let number = match unit {
                LengthUnit::Mm => format!("{:.0}", c.value.get()),
                LengthUnit::Cm => format!("{:.1}", c.value.to_cm()),
                LengthUnit::In => c.inches.trim_end_matches(" in").to_owned(),
            };
            if c.is_estimated {
                format!("({number})")
            } else {
                number
            }
        };
        let rows = |rows: &[ChartRow]| -> Vec<Vec<String>> {
            rows.iter()
                .map(|r| {
                    let cells = r.cells.iter().map(|c| c.as_ref().map_or("-".to_owned(), shown));
                    std::iter::once(r.name.clone()).chain(cells).collect()
                })
                .collect()
        };
        let head = |title: &str| -> Vec<String> {
            std::iter::once(title.to_owned())
                .chain(self.sizes.iter().cloned())
                .collect()
        };
        let mut table = vec![head(&format!("body, {}", unit.symbol()))];
        table.extend(rows(&self.body));
        let finished_at = table.len();
        table.push(head(&format!("finished suit, flat, {}", unit.symbol())));
        table.extend(rows(&self.finished));
        let columns = table.iter().map(Vec::len).max().unwrap_or(0);
        let widths: Vec<usize> = (0..columns)
            .map(|i| {
                table
                    .iter()
                    .filter_map(|r| r.get(i))
                    .map(|c| c.chars().count())
                    .max()
                    .unwrap_or(0)
            })
            .collect();
        let mut out = String::new();
        for (n, row) in table.iter().enumerate() {
            if n == finished_at {
                out.push('\n');
            }
            for (i, (text, width)) in row.iter().zip(&widths).enumerate() {
                let _ = if i == 0 {
                    write!(out, "{text:<width$}")
                } else {
                    write!(out, "  {text:>width$}")
                };
            }
            out.push('\n');
        }
        out.push_str("(in brackets: estimated, not in the table)\n");
        out
    }
}
