//! Survey tables turned into wearers, so that a whole population can be drafted, fitted and counted.
//!
//! The tables are those of `data/body/ansur2_*.csv`: a header line of column names, then one person a line, whole
//! numbers separated by commas, nothing quoted. Columns are found by name, in any order; columns we don't use are
//! left alone.
//!
//! **Shapes and units.** Millimetres, hectograms, years in; [`Wearer`]s with the waist at the navel out.
//! **Source.** Column names of ANSUR II (2012), public data; the meaning of each from its measurer's handbook as
//! summarised in the table below.
//! **Limits.** The front part of the crotch length (total less back) is left out: the two were taken in different
//! stances and their difference is noise. Upper arms were taken flexed and are brought to relaxed ones by a fixed
//! factor.

use units::Mm;

use crate::dimension::{BodyForm, Dimension};
use crate::measured::{Dimensions, FrontTaken, WaistLevel, Wearer};
use crate::population;

/// More faults than this are not listed: the table is of another kind altogether.
const MAX_FAULTS: usize = 20;

/// One fault of a survey table.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("line {line}, column `{column}`: {what}")]
pub struct SurveyError {
    /// Line of the text, from 1; the header is line 1.
    pub line: usize,
    /// Name of the column.
    pub column: String,
    /// What is wrong and what is needed.
    pub what: String,
}

/// One person of a survey.
#[derive(Clone, Debug, PartialEq)]
pub struct SurveyRow {
    /// Line of the table, from 1; the header is line 1.
    pub line: usize,
    /// The person as a wearer.
    pub wearer: Wearer,
}

/// Columns that are a dimension as they stand.
const PLAIN: [(&str, Dimension); 14] = [
    ("stature", Dimension::Stature),
    ("chestcircumference", Dimension::BustGirth),
    ("waistcircumference", Dimension::WaistGirth),
    ("buttockcircumference", Dimension::HipGirth),
    ("thighcircumference", Dimension::ThighGirth),
    ("neckcircumferencebase", Dimension::NeckBaseGirth),
    ("shouldercircumference", Dimension::ShoulderGirth),
    ("verticaltrunkcircumferenceusa", Dimension::TrunkCircumference),
    ("crotchlengthomphalion", Dimension::CrotchLength),
    ("waistbacklength", Dimension::BackWaistLength),
    ("shoulderlength", Dimension::ShoulderLength),
    ("interscyei", Dimension::AcrossBack),
    ("crotchheight", Dimension::CrotchHeight),
    ("waistheightomphalion", Dimension::WaistHeight),
];

/// Dimensions that are one height less another.
const DIFFERENCES: [(&str, &str, Dimension); 3] = [
    ("axillaheight", "waistheightomphalion", Dimension::SideLength),
    ("waistheightomphalion", "buttockheight", Dimension::WaistToHip),
    ("waistheightomphalion", "crotchheight", Dimension::RiseHeight),
];

const FLEXED_ARM: &str = "bicepscircumferenceflexed";

/// Reads a survey table as wearers of one form, in the order of its lines. Empty lines are passed over.
///
/// # Errors
/// All faults, at most 20: a missing column (line 1), a line with too few cells, a cell that is not a positive
/// number.
pub fn rows(csv_text: &str, form: BodyForm) -> Result<Vec<SurveyRow>, Vec<SurveyError>> {
    let mut names: Vec<&str> = vec!["age", population::MASS, FLEXED_ARM];
    let mut place = |name: &'static str| match names.iter().position(|n| *n == name) {
        Some(at) => at,
        None => {
            names.push(name);
            names.len() - 1
        }
    };
    let plain = PLAIN.map(|(name, d)| (place(name), d));
    let differences = DIFFERENCES.map(|(high, low, d)| (place(high), place(low), d));
    let people = numbers(csv_text, &names)?;
    Ok(people
        .into_iter()
        .map(|(line, cells)| {
            let mut taken = Dimensions::default();
            for &(at, d) in &plain {
                taken.set(d, Mm::new(cells[at]));
            }
            for &(high, low, d) in &differences {
                taken.set(d, Mm::new(cells[high] - cells[low]));
            }
            let relaxed = population::from_survey(Dimension::UpperArmGirth, form, cells[2]);
            taken.set(Dimension::UpperArmGirth, Mm::new(relaxed));
            let wearer = Wearer {
                name: format!("survey line {line}"),
                form,
                age_years: Some(cells[0]),
                mass_kg: Some(cells[1] / population::HG_PER_KG),
                waist_level: WaistLevel::Navel,
                front_taken: FrontTaken::default(),
                trust: None,
                taken,
            };
            SurveyRow { line, wearer }
        })
        .collect())
}

/// Reads chosen columns of a survey table as numbers: for each line its number in the text and the cells in the order
/// of `columns`.
///
/// # Errors
/// As [`rows`].
pub fn numbers(csv_text: &str, columns: &[&str]) -> Result<Vec<(usize, Vec<f64>)>, Vec<SurveyError>> {
    let mut lines = csv_text.lines().enumerate().filter(|(_, l)| !l.trim().is_empty());
    let fault = |line: usize, column: &str, what: String| SurveyError {
        line,
        column: column.to_owned(),
        what,
    };
    let header: Vec<&str> = match lines.next() {
        Some((_, text)) => text
            .trim_start_matches('\u{feff}')
            .split(',')
            .map(str::trim)
            .collect(),
        None => {
            return Err(vec![fault(
                1,
                "",
                "the table is empty; its first line must name the columns".to_owned(),
            )]);
        }
    };
    let places: Vec<Option<usize>> = columns
        .iter()
        .map(|c| header.iter().position(|h| h == c))
        .collect();
    let mut faults: Vec<SurveyError> = columns
        .iter()
        .zip(&places)
        .filter(|(_, p)| p.is_none())
        .map(|(c, _)| {
            fault(
                1,
                c,
                "no such column in the header; add it or use a table that has it".to_owned(),
            )
        })
        .collect();
    let places: Vec<usize> = places.into_iter().flatten().collect();
    if !faults.is_empty() {
        return Err(faults);
    }
    let mut people = Vec::new();
    for (index, text) in lines {
        let line = index + 1;
        let cells: Vec<&str> = text.split(',').map(str::trim).collect();
        let mut person = Vec::with_capacity(places.len());
        for (&at, column) in places.iter().zip(columns) {
            match cells.get(at) {
                None => {
                    let what = format!("the line ends after {} of {} cells", cells.len(), header.len());
                    faults.push(fault(line, column, what));
                    break;
                }
                Some(cell) => match cell.parse::<f64>() {
                    Ok(x) if x.is_finite() && x > 0.0 => person.push(x),
                    _ => faults.push(fault(line, column, format!("`{cell}` is not a positive number"))),
                },
            }
        }
        if faults.len() >= MAX_FAULTS {
            faults.truncate(MAX_FAULTS);
            break;
        }
        if person.len() == places.len() {
            people.push((line, person));
        }
    }
    if faults.is_empty() {
        Ok(people)
    } else {
        Err(faults)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn faults_name_line_and_column_and_come_all_at_once() {
        let text = "a,b\n1,2\n\n3,x\n4\n-5,6\n";
        let faults = numbers(text, &["a", "b"]).unwrap_err();
        let words: Vec<String> = faults.iter().map(SurveyError::to_string).collect();
        assert_eq!(
            words,
            [
                "line 4, column `b`: `x` is not a positive number",
                "line 5, column `b`: the line ends after 1 of 2 cells",
                "line 6, column `a`: `-5` is not a positive number",
            ]
        );
        let missing = numbers(text, &["c", "a", "d"]).unwrap_err();
        assert_eq!(missing.len(), 2);
        assert_eq!(
            missing[0].to_string(),
            "line 1, column `c`: no such column in the header; add it or use a table that has it"
        );
    }

    #[test]
    fn another_kind_of_table_stops_after_twenty_faults() {
        let text = format!("a\n{}", "x\n".repeat(100));
        assert_eq!(numbers(&text, &["a"]).unwrap_err().len(), MAX_FAULTS);
    }
}
