//! Lines of a cloth or an elastic that can be typed over.

use serde_json::Value as Json;
use units::LengthUnit;

use crate::document::Worked;
use crate::suit_file::{FaultKind, allowed, trimmed};
use crate::view::told::{choice_at, faults_of, text_at, typed};
use crate::view::{Choice, Field, Quantity, State, length, plain, small_length};

/// How a line is read.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// A length in her unit.
    Length,
    /// A small one, in millimetres for metric makers.
    Small,
    /// A number with this unit, and how that is spoken.
    Number(&'static str, &'static str),
}

/// A document, and what is known to be wrong in it.
pub(super) struct Sheet<'a> {
    /// Its id.
    pub(super) id: &'a str,
    /// Its body.
    pub(super) body: &'a Json,
    /// Her unit.
    pub(super) unit: LengthUnit,
    /// Paths with a fault.
    pub(super) wrong: Vec<String>,
}

impl Sheet<'_> {
    /// A line at `path`; `range` names what is allowed (see [`allowed`]).
    pub(super) fn field(&self, path: &str, label: &str, says: &str, kind: Kind, range: &str) -> Field {
        let raw = text_at(self.body, path);
        let quantity = raw.as_deref().and_then(|text| self.read(text, kind));
        let is_wrong = self.wrong.iter().any(|at| at == path);
        Field {
            document: self.id.to_owned(),
            path: path.to_owned(),
            label: label.to_owned(),
            says: says.to_owned(),
            unit: match kind {
                Kind::Number(unit, _) => unit.to_owned(),
                Kind::Small if self.unit != LengthUnit::In => LengthUnit::Mm.symbol().to_owned(),
                Kind::Length | Kind::Small => self.unit.symbol().to_owned(),
            },
            allowed: allowed(range, self.unit),
            state: if is_wrong || (raw.is_some() && quantity.is_none()) {
                State::Stop
            } else {
                State::Good
            },
            quantity,
            typed: raw,
        }
    }

    fn read(&self, text: &str, kind: Kind) -> Option<Quantity> {
        match kind {
            Kind::Length => typed(text, self.unit).map(|(mm, _)| length(mm, self.unit)),
            Kind::Small => typed(text, self.unit).map(|(mm, _)| small_length(mm, self.unit)),
            Kind::Number(unit, spoken) => {
                let number = text.strip_suffix(unit).unwrap_or(text).trim();
                let value: f64 = number.parse().ok().filter(|v: &f64| v.is_finite())?;
                Some(plain(value, 2, unit, spoken))
            }
        }
    }

    /// A choice at `path`; `usual` is in force while nothing is said.
    pub(super) fn choice(
        &self,
        path: &str,
        (label, says): (&str, &str),
        usual: &str,
        options: &[(&str, &str)],
    ) -> Choice {
        choice_at((self.id, self.body), path, (label, says), usual, options)
    }
}

/// Paths of the document of this role where something wrong stands; what is not there yet is not wrong.
pub(super) fn wrong_in(worked: &Worked, role: &'static str) -> Vec<String> {
    faults_of(worked, role)
        .into_iter()
        .filter(|(fault, _)| fault.kind != FaultKind::MissingKey)
        .map(|(_, path)| path)
        .collect()
}

/// A field that must be filled in is missing while it is not.
pub(super) fn needed(mut field: Field) -> Field {
    if field.typed.is_none() && field.quantity.is_none() {
        field.state = State::Missing;
    }
    field
}

/// A length without its unit, short: `10`, `18.5`, in inches `7¼`.
pub(super) fn bare(mm: units::Mm, unit: LengthUnit) -> String {
    match unit {
        LengthUnit::Cm => trimmed(mm.to_cm(), 1),
        LengthUnit::Mm => trimmed(mm.get(), 0),
        LengthUnit::In => length(mm, unit).main,
    }
}
