//! Which way a cloth lies: its greatest stretch goes around the body.
//!
//! Bending lengthens a body far more than breathing widens it, yet the suit holds by its girth; so the direction that stretches
//! further lies around, for the lining as for the shell. A print that must point one way may stand against that; then the
//! maker is asked, never overruled.
//!
//! **Source.** Greatest stretch around the body: common practice, no single source. The tie goes upright so that a print
//! reads upright (own).

use units::{Finding, Limit, Severity};

use crate::plan::{Layer, Orientation};
use crate::swatch::Swatch;

/// A cloth chosen for a suit, and which way the maker wants it, if she said so.
#[derive(Clone, Debug, PartialEq)]
pub struct SuitCloth {
    /// The cloth.
    pub swatch: Swatch,
    /// Which way it must lie; `None` puts the greatest stretch around.
    pub lies: Option<Orientation>,
}

impl From<Swatch> for SuitCloth {
    fn from(swatch: Swatch) -> SuitCloth {
        SuitCloth { swatch, lies: None }
    }
}

/// The orientation that puts the greatest stretch around; upright when both directions stretch alike.
pub fn greatest_stretch_around(swatch: &Swatch) -> Orientation {
    if swatch.along().stretch > swatch.across().stretch {
        Orientation::Turned
    } else {
        Orientation::Upright
    }
}

/// Which way the cloth lies in this suit, and what there is to say about it. A one-way print is judged on the shell only: a
/// lining's is not seen.
pub(crate) fn orient(cloth: &SuitCloth, layer: Layer, findings: &mut Vec<Finding>) -> Orientation {
    let swatch = &cloth.swatch;
    let by_stretch = greatest_stretch_around(swatch);
    let lies = cloth.lies.unwrap_or(by_stretch);
    let (along, across) = (swatch.along().stretch, swatch.across().stretch);
    let chosen = match cloth.lies {
        Some(_) => "as you chose",
        None => "greatest stretch around",
    };
    findings.push(Finding {
        code: "cloth.orientation",
        severity: Severity::Good,
        place: format!("{}, {}", layer.name(), swatch.name()),
        message: format!(
            "lies {}, {chosen}: stretches {along} along, {across} across",
            lies.name()
        ),
        value: None,
        limit: None,
        remedy: String::new(),
    });
    if layer == Layer::Shell && swatch.is_one_way() && lies == Orientation::Turned {
        let (message, remedy) = if cloth.lies.is_some() {
            (
                "its one-way print will lie on its side, as you chose".to_owned(),
                "check on a scrap held to the body that the print may lie sideways".to_owned(),
            )
        } else {
            (
                format!(
                    "its one-way print stands upright only if the lesser stretch lies around: {across} across against {along} along"
                ),
                format!(
                    "choose: set orientation to upright to keep the print upright with {across} around, or to turned to let it lie on its side with {along} around"
                ),
            )
        };
        findings.push(Finding {
            code: "cloth.one_way_print",
            severity: Severity::Watch,
            place: format!("{}, {}", layer.name(), swatch.name()),
            message,
            value: Some(along.percent() - across.percent()),
            limit: Some(Limit {
                text: "0 % more along than across".to_owned(),
                source: "common practice, no single source",
            }),
            remedy,
        });
    }
    lies
}
