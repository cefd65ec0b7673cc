//! What the body, the cloth and the draft refuse, as faults of the file: the key underlined, the file's unit, what to do.
//!
//! The domain crates know no files; their errors carry a dimension, a cloth and a field, or a parameter. Here each is tied
//! to the key it came from, once, so that a refusal reads like any other fault of the file.
//!
//! **Limits.** A refusal without a field (an invalid piece) has no place; it is reported for the file as a whole.

use body::{BodyError, Dimension};
use cloth::{ClothError, Layer};
use draft::Refusal;
use units::{LengthUnit, Mm};

use super::fault::{Fault, FaultKind};
use super::reader::Places;
use super::show::{show_length, trimmed};
use super::suit::{Parts, SuitFile};

/// Paths a design parameter of the draft may stand under in the file, the likeliest first.
const ALIASES: [(&str, &[&str]); 13] = [
    (
        "leg",
        &["design.leg", "design.leg_share", "design.side_seam_length"],
    ),
    ("cover", &["design.skirt.cover"]),
    ("flare", &["design.skirt.flare"]),
    // The word of the same name is never refused.
    ("seat", &["design.figure.seat"]),
    ("closure", &["design.closure.kind", "design.closure"]),
    ("closure_length", &["design.closure.length", "design.closure"]),
    ("seam", &["allowances.seam"]),
    ("side_seam", &["allowances.side_seam", "allowances.first_fitting"]),
    ("crotch", &["allowances.crotch"]),
    ("hem", &["allowances.hem"]),
    ("elastic_width", &["elastic.width"]),
    ("around", &["tested_together.around", "shell"]),
    ("style", &["design.style", "wearer.form"]),
];

impl SuitFile {
    /// The fault of this file that a body error is.
    pub fn body_fault(&self, error: &BodyError) -> Fault {
        self.keys().body_fault(error)
    }

    /// The fault of this file that an error of one cloth is.
    pub fn cloth_fault(&self, layer: Layer, error: &ClothError) -> Fault {
        self.keys().cloth_fault_in(layer.name(), error)
    }

    /// The fault of this file that an error of the cloths together is.
    pub fn plan_fault(&self, error: &ClothError) -> Fault {
        self.keys().plan_fault(error)
    }

    /// The fault of this file that a refusal of the draft is.
    pub fn draft_fault(&self, refusal: &Refusal) -> Fault {
        self.keys().draft_fault(refusal)
    }

    fn keys(&self) -> Keys<'_> {
        Keys {
            unit: self.units,
            places: self.places(),
        }
    }
}

impl Parts {
    /// The fault of this text that a body error is.
    pub fn body_fault(&self, error: &BodyError) -> Fault {
        self.keys().body_fault(error)
    }

    /// The fault of this text that an error of one cloth is.
    pub fn cloth_fault(&self, layer: Layer, error: &ClothError) -> Fault {
        self.keys().cloth_fault_in(layer.name(), error)
    }

    fn keys(&self) -> Keys<'_> {
        Keys {
            unit: self.units,
            places: self.places(),
        }
    }
}

/// Unit and keys of a text, which is all a fault needs of it.
struct Keys<'a> {
    unit: LengthUnit,
    places: &'a Places,
}

impl Keys<'_> {
    fn body_fault(&self, error: &BodyError) -> Fault {
        let unit = self.unit;
        let show = |mm: Mm| show_length(mm, unit);
        let (path, message, help) = match error {
            BodyError::Missing { dimension, form } => (
                dimension_path(*dimension),
                format!("{} is missing", dimension.iso_name(*form)),
                format!("add {} = ...; {}", dimension.key(), dimension.how_to_take()),
            ),
            BodyError::UnderbustNotBelowBust { underbust, bust } => (
                dimension_path(Dimension::UnderbustGirth),
                format!(
                    "under-bust girth {} is not smaller than bust girth {}",
                    show(*underbust),
                    show(*bust)
                ),
                "take both again, the under-bust just below the breasts".to_owned(),
            ),
            BodyError::BustPointTooLow {
                to_bust_point,
                front_waist,
                least_below,
            } => (
                dimension_path(Dimension::SideNeckToBustPoint),
                format!(
                    "side neck to bust point {} leaves less than {} of the front waist length {} below it",
                    show(*to_bust_point),
                    show(*least_below),
                    show(*front_waist)
                ),
                "take both in one pass of the tape".to_owned(),
            ),
            BodyError::HipFarBelowWaist {
                hip,
                waist,
                least_share,
            } => (
                dimension_path(Dimension::HipGirth),
                format!(
                    "hip girth {} is less than {:.0} % of waist girth {}",
                    show(*hip),
                    least_share * 100.0,
                    show(*waist)
                ),
                "take both again; one of the two must be wrong".to_owned(),
            ),
            BodyError::CrotchFrontNotAPart { front, total } => (
                dimension_path(Dimension::CrotchLengthFront),
                format!(
                    "front crotch length {} is not shorter than the total {}",
                    show(*front),
                    show(*total)
                ),
                "take the front part to the crotch point only".to_owned(),
            ),
            BodyError::NotANumber { dimension, .. }
            | BodyError::NotPositive { dimension, .. }
            | BodyError::Absurd { dimension, .. } => (
                dimension_path(*dimension),
                error.to_string(),
                "take it again".to_owned(),
            ),
            BodyError::Age { .. } => ("wearer.age".to_owned(), error.to_string(), String::new()),
            BodyError::Mass { .. } => ("wearer.mass_kg".to_owned(), error.to_string(), String::new()),
            other => ("wearer".to_owned(), other.to_string(), String::new()),
        };
        let kind = match error {
            BodyError::Missing { .. } => FaultKind::MissingKey,
            _ => FaultKind::Refused,
        };
        self.fault_at(kind, path, message, help)
    }

    fn plan_fault(&self, error: &ClothError) -> Fault {
        match error {
            ClothError::NoLining { .. } | ClothError::NoStretch { .. } => self.cloth_fault_in("shell", error),
            _ => self.cloth_fault_in("tested_together", error),
        }
    }

    fn cloth_fault_in(&self, section: &str, error: &ClothError) -> Fault {
        let unit = self.unit;
        let show = |mm: f64| show_length(Mm::new(mm), unit);
        let inside = |field: &str, key: &str| {
            let field = match field {
                "stretch_along" => "along",
                "stretch_across" => "across",
                "stretch_around" => "around",
                "stretch_lengthwise" => "lengthwise",
                "mass" => "gsm",
                "shrinkage_along" => "shrinkage.along",
                "shrinkage_across" => "shrinkage.across",
                other => other,
            };
            let full = format!("{section}.{field}.{key}");
            if self.places.has(&full) {
                full
            } else {
                format!("{section}.{field}")
            }
        };
        let (path, message, help) = match error {
            ClothError::PulledShorter { field, rest_mm, pulled_mm, .. } => (
                inside(field, "pulled"),
                format!("the pulled length {} is shorter than the {} at rest", show(*pulled_mm), show(*rest_mm)),
                "measure between the same two marks, at rest and pulled".to_owned(),
            ),
            ClothError::AfterLonger { field, pulled_mm, after_mm, .. } => (
                inside(field, "back_to"),
                format!(
                    "the length after the test {} is longer than the {} pulled",
                    show(*after_mm),
                    show(*pulled_mm)
                ),
                "let go, wait a minute and measure again".to_owned(),
            ),
            ClothError::AfterShorter { field, rest_mm, after_mm, .. } => (
                inside(field, "back_to"),
                format!("the length after the test {} is shorter than the {} at rest", show(*after_mm), show(*rest_mm)),
                "measure the rest length again on a relaxed strip".to_owned(),
            ),
            ClothError::NoLining { .. } => (
                "design.lining".to_owned(),
                "the design is lined, but there is no [lining] cloth".to_owned(),
                "add a [lining] section, or line the crotch only".to_owned(),
            ),
            ClothError::NoStretch { cloth, around_percent } => (
                section.to_owned(),
                format!(
                    "{cloth} has too little stretch: {around_percent:.0} % around the body, at least 10 % is needed"
                ),
                "nothing here can be drafted from it; choose a knit that stretches, or measure the stretch again".to_owned(),
            ),
            ClothError::OutOfRange { field, value, low, high, unit, .. } => (
                inside(field, "stretch"),
                format!("{} {unit} is outside {} to {} {unit}", trimmed(*value, 1), trimmed(*low, 1), trimmed(*high, 1)),
                "measure it again".to_owned(),
            ),
            ClothError::NoName { .. } => (format!("{section}.name"), error.to_string(), String::new()),
            ClothError::NotANumber { field, .. } => (inside(field, ""), error.to_string(), String::new()),
        };
        self.fault_at(FaultKind::Refused, path, message, help)
    }

    fn draft_fault(&self, refusal: &Refusal) -> Fault {
        let unit = self.unit;
        let path = self.path_of(refusal);
        let (message, help, allowed) = match refusal {
            Refusal::Parameter {
                parameter,
                value,
                low,
                high,
                unit: kind,
                why,
            } => {
                // The draft reckons in radians; the file and the maker in degrees.
                let (factor, kind) = if *parameter == "flare" {
                    (1f64.to_degrees(), "degrees")
                } else {
                    (1.0, *kind)
                };
                let show = |x: f64| shown(x * factor, kind, unit);
                (
                    format!("{parameter} of {} cannot be drafted for this body", show(*value)),
                    (*why).to_owned(),
                    vec![format!("{} to {}", show(*low), show(*high))],
                )
            }
            Refusal::Combination { parameter, why } => (
                format!("{parameter}: {why}"),
                "change one of the two".to_owned(),
                Vec::new(),
            ),
            Refusal::TrunkDisagrees {
                residual,
                trunk,
                parts,
            } => {
                let show = |mm: Mm| show_length(mm, unit);
                (
                    format!(
                        "trunk circumference {} and its parts (front and back waist, crotch, neck: {}) are {} apart",
                        show(*trunk),
                        show(*parts),
                        show(residual.abs())
                    ),
                    "take them again, or say which to believe under [wearer]: trust = \"trunk\" or trust = \"parts\""
                        .to_owned(),
                    Vec::new(),
                )
            }
            Refusal::Missing { dimension } => (
                format!(
                    "{} is missing and this style cannot be drafted without it",
                    dimension.key()
                ),
                format!("add {} = ...; {}", dimension.key(), dimension.how_to_take()),
                Vec::new(),
            ),
            Refusal::Dimensions { dimension, why } => (
                format!("{}: {why}", dimension.key()),
                "take the dimensions it names again".to_owned(),
                Vec::new(),
            ),
            other => (other.to_string(), String::new(), Vec::new()),
        };
        let kind = match refusal {
            Refusal::Missing { .. } => FaultKind::MissingKey,
            _ => FaultKind::Refused,
        };
        let mut fault = match path {
            Some(path) => self.fault_at(kind, path, message, help),
            None => Fault {
                kind,
                field: String::new(),
                message,
                label: String::new(),
                allowed: Vec::new(),
                help,
                at: None,
            },
        };
        fault.allowed = allowed;
        fault
    }

    fn path_of(&self, refusal: &Refusal) -> Option<String> {
        let field = refusal.field()?;
        if Dimension::ALL.iter().any(|d| d.key() == field) {
            return Some(format!("wearer.dimensions.{field}"));
        }
        let mut candidates: Vec<String> = ALIASES
            .iter()
            .filter(|(name, _)| *name == field)
            .flat_map(|(_, paths)| paths.iter().map(|p| (*p).to_owned()))
            .collect();
        candidates.extend(
            ["design", "design.skirt", "design.figure", "allowances", "wearer"]
                .map(|s| format!("{s}.{field}")),
        );
        let found = candidates.iter().find(|path| self.places.has(path)).cloned();
        found.or_else(|| candidates.into_iter().next())
    }

    fn fault_at(&self, kind: FaultKind, path: String, message: String, help: String) -> Fault {
        let label = if self.places.has(&path) {
            "refused"
        } else {
            "not given in here"
        };
        Fault {
            kind,
            at: self.places.of(&path),
            field: path,
            message,
            label: label.to_owned(),
            allowed: Vec::new(),
            help,
        }
    }
}

fn dimension_path(dimension: Dimension) -> String {
    format!("wearer.dimensions.{}", dimension.key())
}

/// A number of the draft as the file writes it: lengths in its unit, shares with two decimals.
fn shown(value: f64, kind: &str, unit: LengthUnit) -> String {
    match kind {
        "mm" => show_length(Mm::new(value), unit),
        "" => trimmed(value, 2),
        other => format!("{} {other}", trimmed(value, 2)),
    }
}
