//! Whose bodies a survey run drafts: people of a survey table, or the sizes of a size table.
//!
//! A size has a few girths of its table; its other lengths are estimated as a range does it, so what comes out proves the draft on bodies
//! of that shape, not on people.

use std::path::PathBuf;

use body::survey::rows;
use body::{Body, BodyError, BodyForm, WaistLevel, Wearer, complete};
use range::{BodyRefusal, BuiltIn, SizeBody};
use units::Finding;

use super::range::table_faults;
use super::read_file;
use crate::suit_file::{Fault, FaultKind, Faults, place_of_line};
use crate::view::{TableSource, table_of};

/// One body to draft for, with the line of its table, from 1.
pub(super) struct Person {
    pub(super) line: usize,
    who: Who,
}

enum Who {
    Surveyed(Box<Wearer>),
    Size(Box<Result<SizeBody, BodyRefusal>>),
}

impl Person {
    /// The complete body with what is said of it, or a short name of what it is refused for.
    pub(super) fn body(&self) -> Result<(Body, Vec<Finding>), &'static str> {
        match &self.who {
            Who::Surveyed(wearer) => {
                complete(wearer).map_err(|errors| errors.first().map_or("body", body_key))
            }
            Who::Size(size) => match size.as_ref() {
                Ok(size) => Ok((size.body.clone(), size.findings.clone())),
                Err(BodyRefusal::Body(errors)) => Err(errors.first().map_or("body", body_key)),
                Err(BodyRefusal::Form(_)) => Err("body_form"),
            },
        }
    }
}

/// A short name of what a body is refused for.
fn body_key(error: &BodyError) -> &'static str {
    match error {
        BodyError::NotANumber { .. } => "body_not_a_number",
        BodyError::NotPositive { .. } => "body_not_positive",
        BodyError::Absurd { .. } => "body_absurd",
        BodyError::Missing { .. } => "body_missing",
        BodyError::UnderbustNotBelowBust { .. } => "body_underbust",
        BodyError::BustPointTooLow { .. } => "body_bust_point",
        BodyError::HipFarBelowWaist { .. } => "body_hip_waist",
        BodyError::CrotchFrontNotAPart { .. } => "body_crotch_front",
        BodyError::Age { .. } => "body_age",
        BodyError::Mass { .. } => "body_mass",
        _ => "body_other",
    }
}

/// The people of a survey table.
///
/// # Errors
/// [`Faults`] of a file that does not read, at their lines.
pub(super) fn surveyed(path: &PathBuf, form: BodyForm) -> Result<Vec<Person>, Faults> {
    let name = path.display().to_string();
    let bytes = read_file(path)?;
    let text = String::from_utf8(bytes).map_err(|_| {
        let help = "save the table as UTF-8, or check that this is the file you meant";
        Faults::whole(
            &name,
            FaultKind::Syntax,
            "the file is not UTF-8 text".into(),
            help,
        )
    })?;
    let found = rows(&text, form).map_err(|errors| {
        let faults = errors
            .iter()
            .map(|e| Fault {
                kind: FaultKind::Syntax,
                field: e.column.clone(),
                message: if e.column.is_empty() {
                    e.what.clone()
                } else {
                    format!("column {}: {}", e.column, e.what)
                },
                label: "in this line".into(),
                allowed: Vec::new(),
                help: String::new(),
                at: place_of_line(&text, e.line),
            })
            .collect();
        Faults::new(&name, &text, faults)
    })?;
    let person = |row: body::survey::SurveyRow| Person {
        line: row.line,
        who: Who::Surveyed(Box::new(row.wearer)),
    };
    Ok(found.into_iter().map(person).collect())
}

/// A table that does not say whose bodies it holds.
pub(super) fn form_is_missing() -> Faults {
    Faults::whole(
        "--form",
        FaultKind::MissingKey,
        "the table does not say whose bodies it holds".into(),
        "add --form woman, man or child; or write --sizes women, men or children",
    )
}

/// The sizes of a table that comes with the program, or of a maker's own, whose bodies are of this form; and whose they are.
///
/// # Errors
/// [`Faults`] of a file that does not read, of one whose form is not said, or of a built-in table for another form.
pub(super) fn sized(sizes: &str, form: Option<BodyForm>) -> Result<(BodyForm, Vec<Person>), Faults> {
    let table = if let Some(built_in) = BuiltIn::from_key(sizes) {
        table_of(&TableSource::BuiltIn(built_in), None, &[]).map_err(|f| table_faults("--sizes", b"", &f))?
    } else {
        let form = form.ok_or_else(form_is_missing)?;
        let path = PathBuf::from(sizes);
        let bytes = read_file(&path)?;
        let name = path.file_stem().map(|s| s.to_string_lossy().into_owned());
        let source = TableSource::Own {
            bytes: &bytes,
            name: name.as_deref().unwrap_or("sizes"),
            form,
            waist_level: WaistLevel::Natural,
            unit: None,
        };
        table_of(&source, None, &[]).map_err(|f| table_faults(sizes, &bytes, &f))?
    };
    if form.is_some_and(|f| f != table.form) {
        return Err(Faults::whole(
            "--form",
            FaultKind::NotAllowed,
            format!("the table \"{sizes}\" holds bodies of another form"),
            "leave --form out",
        ));
    }
    let person = |row: &range::SizeRow| Person {
        line: usize::try_from(row.line).unwrap_or(usize::MAX),
        who: Who::Size(Box::new(SizeBody::of(row, &table))),
    };
    Ok((table.form, table.rows().iter().map(person).collect()))
}
