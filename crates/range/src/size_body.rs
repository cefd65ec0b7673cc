//! From a row of a size table to a complete body, every dimension marked as the table's or estimated.
//!
//! Tables have a few girths; a draft needs lengths. The body crate fills in what it can. What it refuses to guess for a
//! person (total crotch length, a missing hip) must still be there for a size, which is nobody's body: those are estimated
//! here first, and marked.
//!
//! **Source.** Adults: linear regressions on the published survey (`data/body/ansur2_stats.json`), whose waist is the
//! navel; the crotch length is carried up to the natural waist by twice the height between the two, the natural waist
//! lying 0.124 of stature over the hip as everywhere else here. Children: the child form fitted to the row's girths and to the
//! body crate's trunk lengths, no survey.
//! **Limits.** Good for a nest; sew a trial size before a range is cut. The estimate of the crotch length carries at least
//! 31 mm of standard error for a person of these girths.

use body::{
    Body, BodyError, BodyForm, Dimension, FormError, FormMeasure, FormTarget, FrontTaken, Origin, TorsoForm,
    WaistLevel, Wearer, complete,
};
use serde::Serialize;
use units::{Finding, Mm};

use crate::table::{Grade, SizeRow, SizeTable};

/// Where a dimension of a size comes from.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum SizeSource {
    /// It stands in the table.
    Table {
        /// How far to trust it.
        grade: Grade,
    },
    /// It was estimated.
    Estimated {
        /// How, in a few words.
        rule: &'static str,
        /// Standard error for a person, where the rule has one.
        se: Option<Mm>,
    },
}

impl SizeSource {
    /// Whether it was estimated.
    pub const fn is_estimated(self) -> bool {
        matches!(self, SizeSource::Estimated { .. })
    }
}

/// The body of a size.
#[derive(Clone, Debug, PartialEq)]
pub struct SizeBody {
    /// The size's name.
    pub name: String,
    /// The complete body.
    pub body: Body,
    /// What was said while it was completed.
    pub findings: Vec<Finding>,
    sources: Vec<(Dimension, SizeSource)>,
}

/// Why a row gives no body.
#[derive(Clone, Debug, PartialEq)]
pub enum BodyRefusal {
    /// The dimensions together are no body's.
    Body(Vec<BodyError>),
    /// The form that estimates a child's lengths could not be fitted.
    Form(FormError),
}

impl std::fmt::Display for BodyRefusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            BodyRefusal::Body(errors) => {
                for (i, error) in errors.iter().enumerate() {
                    write!(f, "{}{error}", if i > 0 { "; " } else { "" })?;
                }
                Ok(())
            }
            BodyRefusal::Form(error) => write!(f, "lengths could not be estimated: {error}"),
        }
    }
}

impl std::error::Error for BodyRefusal {}

/// A regression on two dimensions of the survey.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Line {
    pub(crate) a: f64,
    pub(crate) b: f64,
    pub(crate) c: f64,
    pub(crate) se: f64,
}

/// Crotch length at the navel: a x stature + b x hip + c.
pub(crate) const CROTCH_WOMEN: Line = Line {
    a: 0.1570,
    b: 0.3067,
    c: 51.98,
    se: 31.3,
};
/// The same, men.
pub(crate) const CROTCH_MEN: Line = Line {
    a: 0.1292,
    b: 0.3948,
    c: -7.05,
    se: 31.7,
};
/// Height of the navel over the hip: a x stature + b x hip + c.
pub(crate) const NAVEL_WOMEN: Line = Line {
    a: 0.1434,
    b: -0.0753,
    c: -10.22,
    se: 23.3,
};
/// The same, men.
pub(crate) const NAVEL_MEN: Line = Line {
    a: 0.1038,
    b: -0.0371,
    c: 24.19,
    se: 25.5,
};
/// Hip girth: a x chest girth + c (b unused).
pub(crate) const HIP_WOMEN: Line = Line {
    a: 0.6818,
    b: 0.0,
    c: 375.72,
    se: 50.8,
};
/// The same, men.
pub(crate) const HIP_MEN: Line = Line {
    a: 0.7335,
    b: 0.0,
    c: 243.00,
    se: 42.0,
};
/// Natural waist over hip, share of stature: the body crate's rule.
const WAIST_OVER_HIP: f64 = 0.124;
/// Back waist length, share of stature: the body crate's rule, which a child's form is fitted to.
const BACK_WAIST: f64 = 0.247;

impl Line {
    fn at(self, first: f64, second: f64) -> f64 {
        self.a * first + self.b * second + self.c
    }
}

impl SizeBody {
    /// The body of a row.
    ///
    /// # Errors
    /// [`BodyRefusal`] if the row lacks bust (chest) or waist, or, for a child, stature or hip; or if its figures
    /// contradict each other as [`body::complete`] says.
    pub fn of(row: &SizeRow, table: &SizeTable) -> Result<SizeBody, BodyRefusal> {
        let mut wearer = Wearer {
            name: format!("size {}", row.name),
            form: table.form,
            age_years: None,
            mass_kg: None,
            waist_level: table.waist_level,
            front_taken: FrontTaken::OverBustPoint,
            trust: None,
            taken: row.dimensions(),
        };
        let mut sources: Vec<(Dimension, SizeSource)> = row
            .figures()
            .map(|(d, figure)| (d, SizeSource::Table { grade: figure.grade }))
            .collect();
        if wearer.taken.get(Dimension::HipGirth).is_none()
            && let Some(chest) = wearer.taken.get(Dimension::BustGirth)
            && let Some((line, rule)) = hip_of(table.form)
        {
            wearer
                .taken
                .set(Dimension::HipGirth, Mm::new(line.at(chest.get(), 0.0)));
            sources.push(estimated(Dimension::HipGirth, rule, Some(line.se)));
        }
        if wearer.taken.get(Dimension::CrotchLength).is_none()
            && let Some((mm, rule, se)) = crotch_length(&wearer)?
        {
            wearer.taken.set(Dimension::CrotchLength, Mm::new(mm));
            sources.push(estimated(Dimension::CrotchLength, rule, se));
        }
        let (body, findings) = complete(&wearer).map_err(BodyRefusal::Body)?;
        for dimension in Dimension::ALL {
            if let Some(known) = body.get(dimension)
                && let Origin::Estimated { se, rule } = known.origin
            {
                sources.push((dimension, SizeSource::Estimated { rule, se }));
            }
        }
        sources.sort_by_key(|(d, _)| *d);
        Ok(SizeBody {
            name: row.name.clone(),
            body,
            findings,
            sources,
        })
    }

    /// Where the dimension comes from, if the body has it.
    pub fn source(&self, dimension: Dimension) -> Option<SizeSource> {
        self.sources
            .iter()
            .find(|(d, _)| *d == dimension)
            .map(|(_, s)| *s)
    }

    /// The dimension in millimetres, if the body has it.
    pub fn mm(&self, dimension: Dimension) -> Option<f64> {
        self.body.mm(dimension)
    }

    /// Its dimensions in the order they are taken, each with where it comes from.
    pub fn dimensions(&self) -> impl Iterator<Item = (Dimension, Mm, SizeSource)> + '_ {
        self.sources
            .iter()
            .filter_map(|(d, source)| Some((*d, self.body.get(*d)?.value, *source)))
    }
}

fn estimated(dimension: Dimension, rule: &'static str, se: Option<f64>) -> (Dimension, SizeSource) {
    (
        dimension,
        SizeSource::Estimated {
            rule,
            se: se.map(Mm::new),
        },
    )
}

fn hip_of(form: BodyForm) -> Option<(Line, &'static str)> {
    match form {
        BodyForm::Woman => Some((HIP_WOMEN, "0.682 of bust girth + 376 mm (survey)")),
        BodyForm::Man => Some((HIP_MEN, "0.734 of chest girth + 243 mm (survey)")),
        BodyForm::Child => None,
    }
}

type CrotchLength = Option<(f64, &'static str, Option<f64>)>;

/// Total crotch length at the table's waist level; `None` where the row lacks what it hangs on, which `complete` then says.
fn crotch_length(wearer: &Wearer) -> Result<CrotchLength, BodyRefusal> {
    let (crotch, navel) = match wearer.form {
        BodyForm::Child => return child_crotch(wearer),
        BodyForm::Woman => (CROTCH_WOMEN, NAVEL_WOMEN),
        BodyForm::Man => (CROTCH_MEN, NAVEL_MEN),
    };
    let Some(hip) = wearer.taken.get(Dimension::HipGirth).map(Mm::get) else {
        return Ok(None);
    };
    let stature = match wearer.taken.get(Dimension::Stature) {
        Some(mm) => mm.get(),
        None => {
            // The body crate's own estimate, so that both hang on the same stature. A stand-in crotch length lets it through.
            let mut probe = wearer.clone();
            probe
                .taken
                .set(Dimension::CrotchLength, Mm::new(crotch.at(1650.0, hip)));
            let (body, _) = complete(&probe).map_err(BodyRefusal::Body)?;
            match body.mm(Dimension::Stature) {
                Some(mm) => mm,
                None => return Ok(None),
            }
        }
    };
    let at_navel = crotch.at(stature, hip);
    Ok(Some(match wearer.waist_level {
        WaistLevel::Navel => (
            at_navel,
            "survey: from stature and hip girth, at the navel",
            Some(crotch.se),
        ),
        WaistLevel::Natural => (
            at_navel + 2.0 * (WAIST_OVER_HIP * stature - navel.at(stature, hip)),
            "survey: from stature and hip girth, carried from the navel to the natural waist (own)",
            Some(crotch.se),
        ),
    }))
}

/// A child's crotch length off the fitted form.
fn child_crotch(wearer: &Wearer) -> Result<CrotchLength, BodyRefusal> {
    let taken = |d: Dimension| wearer.taken.get(d).map(Mm::get);
    let (Some(stature), Some(chest), Some(waist), Some(hip)) = (
        taken(Dimension::Stature),
        taken(Dimension::BustGirth),
        taken(Dimension::WaistGirth),
        taken(Dimension::HipGirth),
    ) else {
        return Ok(None);
    };
    let natural = wearer.waist_level == WaistLevel::Natural;
    let mut wanted = vec![
        (FormMeasure::BustGirth, chest),
        (
            if natural {
                FormMeasure::WaistGirth
            } else {
                FormMeasure::NavelGirth
            },
            waist,
        ),
        (FormMeasure::HipGirth, hip),
    ];
    if natural {
        // The form has no stature: it comes in by the trunk lengths the body crate makes of it.
        let back = taken(Dimension::BackWaistLength).unwrap_or(BACK_WAIST * stature);
        let drop = taken(Dimension::WaistToHip).unwrap_or(WAIST_OVER_HIP * stature);
        wanted.push((FormMeasure::BackWaistLength, back));
        wanted.push((FormMeasure::WaistToHip, drop));
    }
    let targets: Vec<FormTarget> = wanted
        .into_iter()
        .map(|(measure, value)| FormTarget {
            measure,
            value,
            spread: measure.spread(),
        })
        .collect();
    let form = TorsoForm::of(BodyForm::Child).map_err(BodyRefusal::Form)?;
    let fitted = form.fit(&targets).map_err(BodyRefusal::Form)?;
    let measure = if natural {
        FormMeasure::CrotchLengthNatural
    } else {
        FormMeasure::CrotchLengthNavel
    };
    let mm = form.measure(&fitted, measure);
    Ok(Some((
        mm,
        "the child form fitted to the table's girths and stature (model, no survey)",
        None,
    )))
}
